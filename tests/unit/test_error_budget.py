"""Slips along a chain: a hundred thousand chains by chance are the witness for what is likely."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.drawer.error_budget import error_budget, likely_slip, worst_slip

steady = settings(deadline=None, derandomize=True)
slips = st.lists(st.floats(0, 2), min_size=1, max_size=30)


@pytest.mark.parametrize("chain", [[0.2] * 13, [0.5, 0.1, 0.3], [1.0]])
@pytest.mark.parametrize("kind", ["normal", "even"])
def test_chains_by_chance_spread_as_is_said(chain, kind):
    chance = np.random.default_rng(20)
    size = (100_000, len(chain))
    own = chance.normal(size=size) if kind == "normal" else chance.uniform(-(3**0.5), 3**0.5, size=size)
    ends = np.cumsum(own * chain, axis=1)
    budget = error_budget(chain)
    # a spread from 100 000 chains is good to 1 part in 450
    np.testing.assert_allclose(ends.std(axis=0), budget.running_likely, rtol=0.01)
    signs = np.sign(chance.uniform(-1, 1, size=size))
    assert np.abs(np.cumsum(signs * chain, axis=1)).max(axis=0) == pytest.approx(budget.running_worst, rel=0.6)
    assert (np.abs(np.cumsum(signs * chain, axis=1)) <= np.array(budget.running_worst) + 1e-12).all()


@steady
@given(slips)
def test_the_worst_and_the_likely_grow_and_keep_their_order(chain):
    budget = error_budget(chain)
    assert budget.worst == pytest.approx(sum(chain))
    assert budget.likely == pytest.approx(sum(slip**2 for slip in chain) ** 0.5)
    assert budget.likely <= budget.worst + 1e-12
    assert list(budget.running_worst) == sorted(budget.running_worst)
    assert (budget.running_worst[-1], budget.running_likely[-1]) == (budget.worst, budget.likely)


@pytest.mark.parametrize("members", [1, 4, 13, 100])
def test_alike_slips_are_the_formulas(members):
    budget = error_budget([0.25] * members)
    assert budget.worst == pytest.approx(worst_slip(0.25, members))
    assert budget.likely == pytest.approx(likely_slip(0.25, members))
    assert likely_slip(np.array([0.25, 0.5]), members) == pytest.approx([0.25 * members**0.5, 0.5 * members**0.5])


def test_thirteen_members_by_hand():
    # 13 * 0.2 = 2.6; 0.2 * 3.606 = 0.721
    budget = error_budget([0.2] * 13)
    assert budget.worst == pytest.approx(2.6)
    assert budget.likely == pytest.approx(0.721, abs=0.0005)
    # unlike slips: 3, 3 + 4, and the hypotenuse of 3 and 4
    budget = error_budget([3, 4])
    assert (budget.running_worst, budget.running_likely) == ((3.0, 7.0), (3.0, 5.0))
    assert all(isinstance(size, float) for size in (budget.worst, budget.likely))


def test_where_to_measure_from_the_work_by_hand():
    # 0.3 0.6 0.9 1.2: the fourth would pass 1
    assert error_budget([0.3] * 4, allowed=1).measure_at == 4
    assert error_budget([0.3] * 3, allowed=1).measure_at is None
    assert error_budget([0.1] * 10, allowed=1).measure_at is None  # ten tenths are one
    assert error_budget([0.1] * 3, allowed=0.3).measure_at is None  # and three are three, whatever floats say
    assert error_budget([2.0, 0.1], allowed=1).measure_at == 1
    assert error_budget([0.3] * 4).measure_at is None


@pytest.mark.parametrize("bad", [-0.1, float("nan"), float("inf")])
def test_what_is_refused(bad):
    with pytest.raises(DesignError, match="The slip is"):
        error_budget([0.2, bad])
    with pytest.raises(DesignError, match="slip allowed is"):
        error_budget([0.2], allowed=bad)
    with pytest.raises(DesignError, match="no members"):
        error_budget([])
