"""The gap over a drawer: what the season takes of it and gives it, paint and all.

The witness is a stack of sizes in exact fractions, closed by hand between runner and kicker. The demo's
numbers are those of its season: shop at 8 %, room from 7 to 12 %, change coefficients of the handbook.
"""

from __future__ import annotations

import math
from fractions import Fraction as F

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.teach.derive.drawer_fit import derive_gaps
from furnlib.trade.drawer.gaps import back_room, gap_at, gap_to_leave, season_gaps, size_for_gap

steady = settings(deadline=None, derandomize=True, max_examples=25)
CHERRY_FLAT, MAPLE_QUARTERED = F(248, 100_000), F(137, 100_000)  # share for each per cent of moisture
sizes = st.fractions(F(20), F(400), max_denominator=64)
little = st.fractions(F(0), F(3), max_denominator=64)
stretches = st.fractions(F(98, 100), F(103, 100), max_denominator=10_000)


@steady
@given(sizes, little, little, little, stretches)
def test_the_stack_closes_exactly(opening, below, gap, film, stretch):
    """Fractions in, fractions out: gap, film, wood, film and gap fill the opening with nothing over."""
    size = size_for_gap(opening, below, gap, film, stretch)
    assert below + film + size * stretch + film + gap == opening
    assert gap_at(opening, below, size, film, stretch) == gap


@steady
@given(sizes, little, little, little)
def test_no_season_no_change(opening, below, gap, film):
    size = float(opening - below - gap - 2 * film)
    found = season_gaps(float(opening), float(below), size, float(film), 1.0, 1.0)
    assert found.now == found.damp == found.dry == pytest.approx(float(gap), abs=1e-12)


@steady
@given(sizes, stretches, st.floats(0.1, 5))
def test_twice_as_tall_moves_twice_as_much(size, stretch, times):
    """The gap is the same today over a low and a tall drawer; in the season it differs as their heights do."""

    def moved(height):
        return gap_at(height + 3, 0, height, 0, stretch) - 3

    assert float(moved(size * F(times))) == pytest.approx(times * float(moved(size)), abs=1e-12)
    assert (moved(size) < 0) == (stretch > 1)


@steady
@given(sizes, little, little, little, stretches, stretches)
def test_lengths_scale(opening, below, gap, film, one, other):
    damp, dry = max(one, other), min(one, other)
    size = size_for_gap(opening, below, gap, film, max(damp, F(1)))
    given_sizes = [float(length) for length in (opening, below, size, film)]
    first = season_gaps(*given_sizes, float(damp), float(dry))
    inches = season_gaps(*(length / 25.4 for length in given_sizes), float(damp), float(dry))
    for name in ("now", "damp", "dry"):
        assert getattr(inches, name) * 25.4 == pytest.approx(getattr(first, name), abs=1e-10)


@steady
@given(sizes, little, st.fractions(F(-3), F(5), max_denominator=64))
def test_what_is_left_today_is_just_enough_at_the_dampest(opening, least, growth):
    """Built with the gap to leave, a drawer keeps its least gap; where today is the dampest, no less is left."""
    leave = gap_to_leave(least, growth)
    size = opening - leave
    at_dampest = gap_at(opening, 0, size, 0, (size + max(growth, 0)) / size)
    assert at_dampest == least
    assert leave == max(least, least + growth)


def test_the_demo_chest():
    """From 8 to 12 %: a side of 200 grows 1.1, one of 80 0.4; a front of 203 grows 2.0 and shrinks 0.5 to 7 %."""
    damp, dry = 1 + 4 * MAPLE_QUARTERED, 1 - MAPLE_QUARTERED
    for side, grows in ((200, 1.1), (80, 0.4)):
        gaps = season_gaps(side + 3, 0, side, 0, float(damp), float(dry))
        assert gaps.now == 3
        assert gaps.now - gaps.damp == pytest.approx(grows, abs=0.05)
        assert not gaps.binds
    front = season_gaps(206.0, 0.0, 203.0, 0.0, float(1 + 4 * CHERRY_FLAT), float(1 - CHERRY_FLAT))
    assert front.now - front.damp == pytest.approx(2.0, abs=0.05)
    assert front.dry - front.now == pytest.approx(0.5, abs=0.05)


def test_a_gap_that_closes_in_summer():
    """A front 203 high with 1.5 over it is 2.0 taller at 12 %: half a millimetre too tall; 2.5 leaves half a one."""
    growth = 203 * 4 * CHERRY_FLAT
    stretch = float(1 + 4 * CHERRY_FLAT)
    assert season_gaps(204.5, 0, 203, 0, stretch, 1.0).binds
    assert gap_to_leave(0.5, float(growth)) == pytest.approx(2.5, abs=0.05)
    assert season_gaps(205.5 + 0.02, 0, 203, 0, stretch, 1.0).damp == pytest.approx(0.5, abs=0.01)


def test_paint_counts_on_both_edges():
    bare, painted = (season_gaps(203.0, 1.0, 199.0, film, 1.01, 0.99) for film in (0.0, 0.15))
    for name in ("now", "damp", "dry"):
        assert getattr(bare, name) - getattr(painted, name) == pytest.approx(0.3, abs=1e-12)


def test_room_behind_a_drawer():
    """380 deep, from 8 to 7 %: 0.9 and the least of 5; in inches the same."""
    room = back_room(380.0, float(CHERRY_FLAT), 5.0)
    assert room == pytest.approx(5.94, abs=0.005)
    assert back_room(380 / 25.4, float(CHERRY_FLAT), 5 / 25.4) * 25.4 == pytest.approx(room, rel=1e-14)
    depth, length = F(380), F(380) - back_room(F(380), CHERRY_FLAT, F(5))
    assert depth * (1 - CHERRY_FLAT) - length == 5  # what is left at the driest


def test_a_year_by_the_hour_for_eight_drawers_is_one_call():
    openings = np.array([83.0, 83.0, 103.0, 123.0, 143.0, 163.0, 183.0, 203.0])[:, np.newaxis]
    hours = np.arange(8760)
    moisture = 9.5 + 2.5 * np.sin(2 * math.pi * hours / 8760)
    stretch = 1 + float(MAPLE_QUARTERED) * (moisture - 8)
    gaps = gap_at(openings, 0.0, openings - 3, 0.0, stretch)
    assert gaps.shape == (8, 8760)
    for row, hour in ((0, 0), (3, 2190), (7, 8759)):
        by_hand = openings[row, 0] - (openings[row, 0] - 3) * stretch[hour]
        assert gaps[row, hour] == pytest.approx(by_hand, rel=1e-12)
    assert gaps[7].min() == pytest.approx(3 - 200 * 4 * 0.00137, abs=1e-4)  # at 12 %, in the middle of summer


def test_numbers_give_floats_and_arrays_arrays():
    one = season_gaps(F(203), 0, F(200), 0, 1.005, 0.999)
    assert [type(value) for value in vars(one).values()] == [float] * 3
    many = season_gaps(np.array([103.0, 203.0]), 0.0, np.array([100.0, 200.0]), 0.0, np.array([[1.005], [1.04]]), 0.999)
    assert many.damp.shape == (2, 2)
    assert many.damp[0, 1] == pytest.approx(one.damp, rel=1e-14)
    assert many.binds.tolist() == [[False, False], [True, True]]


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
@pytest.mark.parametrize(
    ("place", "name"),
    [(0, "opening"), (2, "height of the drawer"), (4, "stretch at the dampest"), (5, "stretch at the driest")],
)
def test_sizes_and_stretches_are_above_0(place, name, bad):
    given_sizes = [203.0, 0.0, 200.0, 0.0, 1.005, 0.999]
    given_sizes[place] = bad
    with pytest.raises(DesignError, match=f"The {name} is"):
        season_gaps(*given_sizes)


@pytest.mark.parametrize(("place", "name"), [(1, "gap below"), (3, "paint film")])
def test_what_may_be_missing_is_not_below_0(place, name):
    given_sizes = [203.0, 0.0, 200.0, 0.0, 1.005, 0.999]
    given_sizes[place] = -0.1
    with pytest.raises(DesignError, match=f"The {name} is -0.1; .*give 0 where there is none"):
        season_gaps(*given_sizes)


def test_what_will_not_go_in_is_said():
    with pytest.raises(DesignError, match="The drawer is 2 too tall for its opening today and will not go in; take it"):
        season_gaps(83.0, 0.0, 85.0, 0.0, 1.005, 0.999)
    with pytest.raises(DesignError, match=r"is 0\.1 too tall"):  # it is the paint that does not go in
        season_gaps(83.0, 0.0, 83.0, 0.05, 1.005, 0.999)


def test_damp_wood_is_not_smaller_than_dry():
    with pytest.raises(DesignError, match=r"0\.99 of its size at the dampest and 1\.01 at the driest; change them"):
        season_gaps(83.0, 0.0, 80.0, 0.0, 0.99, 1.01)


@pytest.mark.parametrize("claim", derive_gaps().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    assert claim.difference == sympy.Integer(0)
    symbols = sympy.symbols("O b g f q h", positive=True)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (claim.running, claim.derived))
    for point in np.random.default_rng(6).uniform(0.1, 2, (50, 6)).tolist():
        opening, below, gap, film, grown, height = point
        expected = {
            "gaps.size": size_for_gap(opening, below, gap, film, 1 + grown),
            "gaps.season": gap_at(opening, below, height, film, 1 + grown),
            "gaps.leave": gap_to_leave(gap, height * grown),
        }[claim.key]
        assert running(*point) == pytest.approx(expected, rel=1e-12, abs=1e-12)
        assert derived(*point) == pytest.approx(expected, rel=1e-12, abs=1e-12)
