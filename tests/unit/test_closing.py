"""Openings closed on a grid.

The witness is an exhaustive search: every set of whole grid steps is written down and the wishes
are weighed on it in exact fractions. Other values are worked by hand in place.
"""

from __future__ import annotations

import random
from fractions import Fraction as F
from itertools import combinations_with_replacement, pairwise, product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.drawer.closing import close_on_grid, never_shrinks
from furnlib.trade.drawer.graduation import MOST_ROWS, constant_ratio, constant_step, equal_openings

steady = settings(deadline=None, derandomize=True)
GRIDS = (F(1), F(5), F(1, 2), F(1, 10), F(1, 16), F(1, 32), F(1, 64), F(1905, 100))
grids = st.sampled_from(GRIDS)
ratios = st.fractions(F(1, 2), F(2), max_denominator=60)


def steps_between(openings):
    return [low - high for high, low in pairwise(openings)]


def grows(values):
    return all(later >= earlier for earlier, later in pairwise(values))


# Known answers


def test_a_thousand_in_seven_at_1_16_on_fives():
    ideal = constant_ratio(F(1000), 7, F("1.16"))
    # 1.16^7 = 2.82622, so the top is 1000 * 0.16 / 1.82622 = 87.6127
    assert [round(float(h), 2) for h in ideal] == [87.61, 101.63, 117.89, 136.75, 158.63, 184.02, 213.46]
    closed = close_on_grid(ideal, F(5))
    assert list(closed.rounded_alone) == [90, 100, 120, 135, 160, 185, 215]
    assert closed.miss == sum(closed.rounded_alone) - 1000 == 5
    assert list(closed.openings) == [90, 100, 115, 135, 160, 185, 215]
    assert closed.steps_never_shrink
    assert float(closed.largest_change) == pytest.approx(117.89 - 115, abs=0.01)
    assert (closed.ideal, closed.grid) == (ideal, 5)


def test_the_tall_chest_of_seven_rows():
    # 1001 / 7 = 143 stands in the middle, 3 steps of 20 above it and 3 below
    ideal = constant_step(F(1001), 7, F(20))
    assert list(ideal) == [83, 103, 123, 143, 163, 183, 203]
    closed = close_on_grid(ideal, F(1))
    assert closed.openings == closed.rounded_alone == ideal
    assert closed.miss == closed.largest_change == 0


def test_a_chest_in_inches():
    # 37 5/8 over 7 = 5 3/8 in the middle, less 3 times 3/4 = 3 1/8 at the top
    ideal = constant_step(F(301, 8), 7, F(3, 4))
    assert ideal == (F(25, 8), F(31, 8), F(37, 8), F(43, 8), F(49, 8), F(55, 8), F(61, 8))
    assert close_on_grid(ideal, F(1, 8)).openings == ideal
    assert close_on_grid(ideal, F(1, 32)).openings == ideal


def test_what_is_left_goes_to_the_lower_opening():
    # 5 in 2: 2 and 3 or 3 and 2 change as little; only the first grows downwards
    assert close_on_grid((F(5, 2), F(5, 2)), F(1)).openings == (2, 3)
    # 8 in 3 equal: 2 3 3 steps by 1 and then by 0, so no set has steps that never shrink
    closed = close_on_grid((F(8, 3),) * 3, F(1))
    assert closed.openings == (2, 3, 3)
    assert not closed.steps_never_shrink
    # 7 in 3 equal: 2 2 3 steps by 0 and then by 1
    assert close_on_grid((F(7, 3),) * 3, F(1)).steps_never_shrink


# Exhaustive search


def every_valid_set(exact, total):
    """Whole steps of 1 or more, each within one of its ideal, in order, with the exact sum."""
    choices = [[k for k in range(1, int(u) + 3) if abs(k - u) <= 1] for u in exact]
    return [ks for ks in product(*choices) if sum(ks) == total and grows(ks)]


def searched(ideal, grid):
    """The best set by trying all of them, the ideals rounded to 1e-9 of a step as is documented."""
    falling = ideal[0] > ideal[-1]
    rising = ideal[::-1] if falling else ideal
    exact = [F(round(h / grid * 10**9), 10**9) for h in rising]
    valid = every_valid_set(exact, sum(ideal) / grid)
    wished = [ks for ks in valid if grows(steps_between(ks))]

    def wishes(ks):
        changes = [abs(k - u) for k, u in zip(ks, exact, strict=True)]
        return max(changes), sum(change**2 for change in changes), [-k for k in reversed(ks)]

    def mirrored(ks):
        return tuple(k * grid for k in (reversed(ks) if falling else ks))

    best = mirrored(min(wished, key=wishes)) if wished else None
    return best, {mirrored(ks) for ks in valid}


def largest_remainders(ideal, grid):
    """Round down and hand the missing steps to the largest remainders, the larger opening first."""
    falling = ideal[0] > ideal[-1]
    exact = [h / grid for h in (ideal[::-1] if falling else ideal)]
    missing = int(sum(exact)) - sum(int(u) for u in exact)
    order = sorted(range(len(exact)), key=lambda i: (exact[i] - int(exact[i]), i))[len(exact) - missing :]
    steps = [int(u) + (i in order) for i, u in enumerate(exact)]
    return tuple(k * grid for k in (steps[::-1] if falling else steps))


def random_ideal(rng):
    grid = rng.choice(GRIDS)
    rows = rng.randint(1, 6)
    clear_height = grid * rng.randint(rows, 40 * rows)
    rule = rng.choice(["equal", "step", "ratio", "ratio near 1"])
    if rule == "equal" or rows == 1:
        return equal_openings(clear_height, rows), grid
    if rule == "step":
        most = 2 * clear_height / (rows * (rows - 1))
        return constant_step(clear_height, rows, most * F(rng.randint(-99, 99), 100)), grid
    ratio = F(rng.randint(60, 170), 100) if rule == "ratio" else F(rng.randint(970, 1030), 1000)
    return constant_ratio(clear_height, rows, ratio), grid


def check_against_the_search(ideal, grid):
    closed = close_on_grid(ideal, grid)
    best, valid = searched(ideal, grid)
    assert closed.openings in valid, (ideal, grid)
    assert closed.steps_never_shrink is (best is not None), (ideal, grid)
    assert closed.openings == (best or largest_remainders(ideal, grid)), (ideal, grid)
    return closed.steps_never_shrink


@pytest.mark.parametrize("seed", range(8))
def test_closing_is_the_best_of_all_valid_sets(seed):
    rng, endings = random.Random(seed), []
    while len(endings) < 100:
        ideal, grid = random_ideal(rng)
        if min(ideal) >= grid:
            endings.append(check_against_the_search(ideal, grid))
    assert 10 < sum(endings) < 90  # with and without a set whose steps never shrink


def growing_ideals(rng):
    """Openings in halves to fifths of a grid step whose steps never shrink: full of near ties."""
    rows, parts = rng.randint(2, 6), rng.choice([2, 3, 4, 5])
    steps = sorted(rng.randint(0, 4 * parts) for _ in range(rows - 1))
    ideal = [F(rng.randint(parts, 5 * parts), parts)]
    for step in steps:
        ideal.append(ideal[-1] + F(step, parts))
    return tuple(ideal) if rng.random() < 0.5 else tuple(reversed(ideal))


@pytest.mark.parametrize("seed", range(8))
def test_closing_is_the_best_of_all_valid_sets_among_near_ties(seed):
    rng = random.Random(seed)
    on_the_grid = [ideal for _ in range(600) if sum(ideal := growing_ideals(rng)).denominator == 1]
    never_shrinking = [check_against_the_search(ideal, F(1)) for ideal in on_the_grid]
    assert sum(never_shrinking) > 100  # nearly all of them can be closed as wished


@pytest.mark.parametrize(("rows", "parts"), [(2, 5), (3, 4), (4, 3)])
def test_closing_is_the_best_of_all_valid_sets_for_every_small_ideal(rows, parts):
    """Each growing ideal from 1 to 4 grid steps, in fifths to thirds of one, that adds up to whole steps."""
    sizes = [F(part, parts) for part in range(parts, 4 * parts + 1)]
    ideals = [ideal for ideal in combinations_with_replacement(sizes, rows) if sum(ideal).denominator == 1]
    endings = [check_against_the_search(ideal, F(1)) for ideal in ideals]
    assert len(ideals) > 20
    assert any(endings)
    assert rows == 2 or not all(endings)  # one step alone cannot shrink


@pytest.mark.parametrize(
    ("ideal", "closed"),
    [
        # either way both change by a half: the lower opening gets the odd step
        ((F(5, 2), F(11, 2)), (2, 6)),
        ((F(11, 2), F(5, 2)), (6, 2)),
        # 2 6 9 and 3 5 9 both change two openings by a half; the steps 4 and 3 shrink, 2 and 4 do not
        ((F(5, 2), F(11, 2), F(9)), (3, 5, 9)),
        # 2.2 2.4 3.6 4.8 7: by 0.8 at worst (squares 2.0), before 2 2 3 5 8 with 1.0 at worst (squares 1.6)
        ((F(11, 5), F(12, 5), F(18, 5), F(24, 5), F(7)), (3, 3, 3, 4, 7)),
        # 0 1 3 5 7 would change by less, but an opening of 0 is none
        ((F(1), F(1), F(8, 3), F(14, 3), F(20, 3)), (1, 2, 3, 4, 6)),
    ],
)
def test_ties_worked_by_hand(ideal, closed):
    assert sum(ideal) == sum(closed)
    assert close_on_grid(ideal, F(1)).openings == closed


@steady
@given(st.integers(1, 6), st.integers(1, 60), ratios, grids)
def test_closing_is_the_best_of_all_valid_sets_anywhere(rows, steps, ratio, grid):
    ideal = constant_ratio(grid * steps, rows, ratio)
    assume(min(ideal) >= grid)
    check_against_the_search(ideal, grid)


# Properties of the closing


@steady
@given(st.integers(1, 14), st.integers(50, 3000), ratios, grids)
def test_the_sum_is_exact_and_no_opening_is_a_step_off(rows, steps, ratio, grid):
    ideal = constant_ratio(grid * steps, rows, ratio)
    assume(min(ideal) >= grid)
    closed = close_on_grid(ideal, grid)
    assert sum(closed.openings) == sum(ideal) == grid * steps
    assert all((h / grid).denominator == 1 and h >= grid for h in closed.openings)
    assert closed.largest_change <= grid * (1 + F(1, 10**9))
    assert grows(closed.openings if ratio >= 1 else closed.openings[::-1])
    assert never_shrinks(closed.openings) is closed.steps_never_shrink
    assert closed.miss == sum(closed.rounded_alone) - sum(closed.openings)
    assert close_on_grid(ideal, grid) == closed


@steady
@given(st.integers(1, 12), st.integers(50, 3000), ratios, grids, st.fractions(F(1, 9), 9, max_denominator=25))
def test_scaling_height_and_grid_scales_the_answer(rows, steps, ratio, grid, k):
    ideal = constant_ratio(grid * steps, rows, ratio)
    assume(min(ideal) >= grid)
    larger = close_on_grid(constant_ratio(k * grid * steps, rows, ratio), k * grid)
    assert larger.openings == tuple(k * h for h in close_on_grid(ideal, grid).openings)


@steady
@given(st.integers(1, 12), st.integers(50, 3000), ratios, grids)
def test_the_reversed_ratio_closes_to_the_mirror(rows, steps, ratio, grid):
    assume(ratio != 1)
    ideal = constant_ratio(grid * steps, rows, ratio)
    assume(min(ideal) >= grid)
    closed = close_on_grid(ideal, grid)
    mirrored = close_on_grid(constant_ratio(grid * steps, rows, 1 / ratio), grid)
    assert mirrored.openings == closed.openings[::-1]
    assert mirrored.steps_never_shrink is closed.steps_never_shrink


@pytest.mark.parametrize("rows", [40, MOST_ROWS])
def test_tall_stacks_close(rows):
    closed = close_on_grid(constant_ratio(F(200 * rows), rows, F(101, 100)), F(1))
    assert sum(closed.openings) == 200 * rows
    assert closed.largest_change <= 1
    assert grows(closed.openings)
    assert never_shrinks(closed.openings) is closed.steps_never_shrink


@pytest.mark.parametrize("part", [F(0), F(1, 3)])
@pytest.mark.parametrize("falling", [False, True])
def test_a_thousand_rows_close_with_and_without_a_set_that_never_shrinks(part, falling):
    # 10, 11, 12 … stands already, and even with two half steps it closes; thirds all alike do not
    ideal = [F(10 + row) for row in range(999)] if not part else [10 + part] * 999
    if not part:
        ideal[0], ideal[1] = ideal[0] + F(1, 2), ideal[1] - F(1, 2)
    closed = close_on_grid(ideal[::-1] if falling else ideal, F(1))
    assert sum(closed.openings) == sum(ideal)
    assert closed.largest_change <= 1
    assert closed.steps_never_shrink is never_shrinks(closed.openings) is (not part)


# Reading a set of openings


def test_steps_that_shrink_are_seen_from_the_smaller_end():
    assert never_shrinks([90, 100, 115, 135])
    assert not never_shrinks([90, 105, 115, 135])
    assert never_shrinks([135, 115, 100, 90])
    assert not never_shrinks([135, 115, 105, 90])
    assert never_shrinks([90, 90, 90])
    assert never_shrinks([90])
    assert never_shrinks([90, 200])


# What is refused


def test_a_height_off_the_grid_says_what_is_left_over():
    with pytest.raises(DesignError, match="The clear height 1002 is no whole number of 5 steps: 2 is left over"):
        close_on_grid(equal_openings(F(1002), 3), F(5))


def test_what_is_left_over_is_written_as_the_tape_shows_it():
    with pytest.raises(DesignError, match=r"37 11/16 is no whole number of 1/8 steps: 1/16 is left over; put it in"):
        close_on_grid(equal_openings(F(603, 16), 7), F(1, 8), "in")
    # no tape has thirds of an inch: a decimal says it
    with pytest.raises(DesignError, match=r"is no whole number of 1/8 steps: 0\.083333333 is left over"):
        close_on_grid(equal_openings(F(1, 3), 1), F(1, 8), "in")
    with pytest.raises(DesignError, match=r"1000\.25 is no whole number of 0\.5 steps: 0\.25 is left over"):
        close_on_grid(equal_openings(F(4001, 4), 7), F(1, 2))


@pytest.mark.parametrize("grid", [F(0), F(-1), float("nan")])
def test_a_grid_is_above_0(grid):
    with pytest.raises(DesignError, match="The grid is"):
        close_on_grid((F(10), F(20)), grid)


@pytest.mark.parametrize("ideal", [(F(1, 2), F(7, 2)), (F(7, 2), F(1, 2)), ()])
def test_an_opening_is_at_least_one_grid_step(ideal):
    with pytest.raises(DesignError, match=r"The smallest opening would be .* less than one step of 1"):
        close_on_grid(ideal, F(1))
