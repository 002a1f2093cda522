"""Pairing sister legs: held to every order in which they could be laid out, two by two."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.leg.likeness import pair_by_likeness

steady = settings(deadline=None, derandomize=True, max_examples=40)


def sets(*counts):
    return st.tuples(st.sampled_from(counts), st.integers(1, 5)).flatmap(
        lambda size: st.lists(
            st.lists(st.integers(200, 230).map(lambda tenths: tenths / 10), min_size=size[1], max_size=size[1]),
            min_size=size[0], max_size=size[0],
        )
    )  # fmt: skip


def apart(one, other):
    return math.sqrt(sum((a - b) ** 2 for a, b in zip(one, other, strict=True)) / len(one))


def least_total(readings):
    """The legs laid out in every order; those that lie two by two are pairs, and a last one is left."""
    legs = range(len(readings))
    return min(
        sum(apart(readings[order[i]], readings[order[i + 1]]) for i in range(0, len(order) - 1, 2))
        for order in itertools.permutations(legs)
    )


@steady
@given(sets(2, 3, 4, 5, 6))
def test_no_other_pairing_is_closer_in_all(readings):
    made = pair_by_likeness(readings)
    assert sum(pair.difference for pair in made.pairs) == pytest.approx(least_total(readings), abs=1e-7)
    paired = [leg for pair in made.pairs for leg in pair.legs]
    assert len(set(paired)) == len(paired) == len(readings) // 2 * 2
    for pair in made.pairs:
        one, other = (readings[leg] for leg in pair.legs)
        gaps = [abs(a - b) for a, b in zip(one, other, strict=True)]
        assert pair.difference == pytest.approx(apart(one, other), abs=1e-12)
        assert pair.worst_difference == pytest.approx(max(gaps))
        assert gaps[pair.worst_station] == max(gaps)


@steady
@given(sets(3, 4, 5, 6))
def test_the_best_pair_comes_first_and_the_odd_leg_last(readings):
    made = pair_by_likeness(readings)
    sizes = [pair.difference for pair in made.pairs]
    assert sizes == sorted(sizes)
    if len(readings) % 2:
        assert made.odd_leg not in {leg for pair in made.pairs for leg in pair.legs}
    else:
        (mate,) = set(made.pairs[-1].legs) - {made.odd_leg}
        away = {leg: sum(apart(readings[leg], row) for row in readings) for leg in (mate, made.odd_leg)}
        assert away[made.odd_leg] >= away[mate] - 1e-9


@steady
@given(sets(2, 4, 5), st.floats(0.04, 30))
def test_in_another_unit_the_same_legs_are_pairs(readings, k):
    one, other = pair_by_likeness(readings), pair_by_likeness(k * np.array(readings))
    assert {pair.legs for pair in one.pairs} == {pair.legs for pair in other.pairs}
    assert other.differences == pytest.approx(k * one.differences, rel=1e-9, abs=1e-12)


def test_four_legs_by_hand():
    """Readings in mm at three stations. 0 and 3 differ by 0.1 once: sqrt(0.01 / 3) = 0.058. 1 and 2 by 0.3, 0.3 and
    0.6: sqrt(0.54 / 3) = 0.424, worst at the foot. Of the two, 2 is the further from 0 and 3."""
    made = pair_by_likeness([[40.0, 28.0, 22.0], [40.3, 28.2, 22.2], [40.6, 28.5, 22.8], [40.0, 28.1, 22.0]])
    front, back = made.pairs
    assert (front.legs, front.worst_station) == ((0, 3), 1)
    assert front.difference == pytest.approx(0.0577, abs=1e-4)
    assert (back.legs, back.worst_station) == ((1, 2), 2)
    assert (back.difference, back.worst_difference) == pytest.approx((0.4243, 0.6), abs=1e-4)
    assert made.odd_leg == 2


def test_one_slip_counts_for_more_than_the_same_spread_over_all():
    """One station 0.4 off against four stations 0.1 off: the mean is the same, the eye sees the one."""
    made = pair_by_likeness([[30.0] * 4, [30.4, 30.0, 30.0, 30.0], [30.1] * 4])
    assert made.pairs[0].legs == (0, 2)
    assert made.odd_leg == 1


def test_equal_legs_are_paired_in_the_order_in_which_they_lie():
    for count, pairs in ((2, [(0, 1)]), (4, [(0, 1), (2, 3)]), (6, [(0, 1), (2, 3), (4, 5)])):
        made = pair_by_likeness([[30.0, 22.1]] * count)
        assert [pair.legs for pair in made.pairs] == pairs
        assert made.differences.tolist() == [[0.0] * count] * count
    # four at the corners of a square: two ways are equally good, and the sums of either are rounded differently
    for size in (0.1, 0.3, 0.7, 1 / 25.4):
        square = [[9.0, 9.0], [9.0, 9.0 + size], [9.0 + size, 9.0 + size], [9.0 + size, 9.0]]
        assert {pair.legs for pair in pair_by_likeness(square).pairs} == {(0, 1), (2, 3)}


def test_two_legs_have_no_odd_one():
    assert pair_by_likeness([[30.0], [31.0]]).odd_leg is None


def test_twelve_legs_are_paired_and_thirteen_are_too_many():
    dice = np.random.default_rng(12)
    pairs = pair_by_likeness(dice.permutation(np.repeat(np.linspace(20, 30, 6), 2))[:, None]).pairs
    assert [pair.difference for pair in pairs] == [0] * 6
    with pytest.raises(DesignError, match="Readings of 13 legs are given; from 2 to 12"):
        pair_by_likeness([[30.0]] * 13)


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        ([], "Readings of 0 legs"),
        ([[30.0, 22.0]], "Readings of 1 legs"),
        ([[30.0, 22.0], [30.0]], "hold 1 or 2 numbers; every leg is read at the same stations"),
        ([[], []], "hold 0 numbers"),
        ([[30.0], [0.0]], "reading of the calipers"),
        ([[30.0], [-1.0]], "reading of the calipers"),
        ([[30.0], [math.nan]], "reading of the calipers"),
    ],
)
def test_readings_that_cannot_be_compared_are_refused(readings, said):
    with pytest.raises(DesignError, match=said):
        pair_by_likeness(readings)
