"""Openings that grow by a rule, named by any of its numbers.

Values are worked by hand in place; all roots of the sum, by numpy, are the witness for a ratio.
"""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise

import numpy as np
import pytest
import sympy
from chance import by_chance
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.drawer.graduation import (
    MOST_ROWS,
    constant_ratio,
    constant_step,
    equal_openings,
    running_sizes,
    summation_weights,
    weighted,
)
from furnlib.trade.drawer.sums import constant_ratio_first, constant_step_first

ratios = st.fractions(F(1, 2), F(2), max_denominator=60)
BAD = (F(0), F(-3), float("nan"), float("inf"))


def steps_between(openings):
    return [low - high for high, low in pairwise(openings)]


# The rules


@by_chance(st.fractions(1, 5000, max_denominator=64), st.integers(1, 30), ratios, few=40, many=100)
def test_a_constant_ratio_fills_the_height_and_keeps_its_ratio(clear_height, rows, ratio):
    openings = constant_ratio(clear_height, rows, ratio)
    assert len(openings) == rows
    assert sum(openings) == clear_height
    assert all(low / high == ratio for high, low in pairwise(openings))


@by_chance(
    st.fractions(1, 5000, max_denominator=64),
    st.integers(2, 30),
    st.fractions(-1, 1, max_denominator=64),
    few=40,
    many=100,
)
def test_a_constant_step_fills_the_height_and_keeps_its_step(clear_height, rows, share):
    step = share * 2 * clear_height / (rows * (rows - 1)) * F(99, 100)  # 99 % of the most that fits
    openings = constant_step(clear_height, rows, step)
    assert sum(openings) == clear_height
    assert min(openings) > 0
    assert set(steps_between(openings)) == {step}


@by_chance(st.fractions(1, 5000, max_denominator=64), st.integers(1, 200), few=40, many=100)
def test_equal_openings_and_the_rules_without_growth_are_one(clear_height, rows):
    equal = equal_openings(clear_height, rows)
    assert sum(equal) == clear_height
    assert set(equal) == {clear_height / rows}
    assert constant_ratio(clear_height, rows, F(1)) == equal
    assert constant_step(clear_height, rows, F(0)) == equal


@by_chance(st.integers(1, 5000), st.integers(1, 12), ratios, few=40, many=100)
def test_the_reversed_ratio_is_the_mirror(clear_height, rows, ratio):
    openings = constant_ratio(F(clear_height), rows, ratio)
    assert constant_ratio(F(clear_height), rows, 1 / ratio) == openings[::-1]


def test_the_first_openings_take_symbols_and_fill_the_height():
    total, step, ratio = sympy.symbols("S d g", positive=True)
    for rows in (1, 2, 5):
        arithmetic = sum(constant_step_first(total, rows, step) + i * step for i in range(rows))
        geometric = sum(constant_ratio_first(total, rows, ratio) * ratio**i for i in range(rows))
        assert sympy.simplify(arithmetic - total) == 0
        assert sympy.simplify(geometric - total) == 0


# Running sizes


def test_running_sizes_all_start_at_the_datum():
    # 20 to 103, divider 18, 121 to 224, divider 18, 242 to 365
    edges = running_sizes([F(83), F(103), F(123)], F(18), F(20))
    assert list(edges) == [20, 103, 121, 224, 242, 365]
    assert running_sizes([F(5, 2)], F(3, 4), F(0)) == (0, F(5, 2))


@by_chance(
    st.lists(st.fractions(1, 300, max_denominator=32), min_size=1, max_size=12), st.integers(0, 30), few=40, many=100
)
def test_running_sizes_give_back_every_opening_and_divider(openings, divider):
    edges = running_sizes(openings, F(divider), F(11))
    assert [b - a for a, b in zip(edges[::2], edges[1::2], strict=True)] == openings
    assert {b - a for a, b in zip(edges[1::2], edges[2::2], strict=False)} <= {divider}
    assert edges[-1] == 11 + sum(openings) + (len(openings) - 1) * divider


# What is refused

RULES = {
    "equal": equal_openings,
    "step": lambda height, rows: constant_step(height, rows, F(0)),
    "ratio": lambda height, rows: constant_ratio(height, rows, F(6, 5)),
}


@pytest.mark.parametrize("rule", RULES.values(), ids=RULES)
@pytest.mark.parametrize("rows", [0, -1, MOST_ROWS + 1])
def test_rows_run_from_1_to_200(rule, rows):
    with pytest.raises(DesignError, match=f"The number of rows is {rows}; it must be a whole number from 1 to 200"):
        rule(F(1000), rows)


@pytest.mark.parametrize("rule", RULES.values(), ids=RULES)
@pytest.mark.parametrize("height", [F(0), F(-5), float("nan"), float("inf")])
def test_the_clear_height_is_above_0(rule, height):
    with pytest.raises(DesignError, match="The clear height is"):
        rule(height, 7)


@pytest.mark.parametrize("ratio", [F(0), F(-1), float("nan"), float("inf"), F(10) ** 400, F(11), F(1, 11)])
def test_a_ratio_runs_from_a_tenth_to_ten(ratio):
    with pytest.raises(DesignError, match="The ratio per row is"):
        constant_ratio(F(1000), 7, ratio)


@pytest.mark.parametrize("ratio", [F(10), F(1, 10)])
def test_the_ends_of_the_range_of_ratios_are_in_it(ratio):
    assert sum(constant_ratio(F(1000), 7, ratio)) == 1000


def test_a_step_too_large_says_where_it_must_stay():
    # 2 * 1001 / (7 * 6) = 47.667 leaves nothing
    with pytest.raises(DesignError, match=r"A step of 48 over 7 rows leaves -1 .* stay below 47\.6667"):
        constant_step(F(1001), 7, F(48))
    with pytest.raises(DesignError, match="leaves 0 for the smallest opening"):
        constant_step(F(42), 7, F(2))
    assert min(constant_step(F(1001), 7, F(47))) == 2


def test_a_falling_step_too_large_names_the_limit_on_its_own_side():
    with pytest.raises(DesignError, match=r"-47\.6667"):
        constant_step(F(1001), 7, F(-48))


@pytest.mark.parametrize("step", [float("nan"), float("inf")])
def test_a_step_is_an_ordinary_number(step):
    with pytest.raises(DesignError, match="The step per row is"):
        constant_step(F(1000), 7, step)


# Named by any of its numbers


@by_chance(
    st.fractions(1, 5000, max_denominator=64),
    st.integers(2, 30),
    st.fractions(-1, 1, max_denominator=64),
    few=40,
    many=100,
)
def test_a_step_by_any_of_its_numbers_gives_the_same_openings_exactly(clear_height, rows, share):
    step = share * 2 * clear_height / (rows * (rows - 1)) * F(99, 100)
    openings = constant_step(clear_height, rows, step)
    assert constant_step(clear_height, rows, first=openings[0]) == openings
    assert constant_step(clear_height, rows, last=openings[-1]) == openings
    assert constant_step(clear_height, rows, end_ratio=openings[-1] / openings[0]) == openings


@by_chance(st.integers(1, 5000), st.integers(2, 30), ratios, few=40, many=100)
def test_a_ratio_by_any_of_its_numbers_gives_the_same_openings(clear_height, rows, ratio):
    openings = constant_ratio(F(clear_height), rows, ratio)
    ways = ({"first": openings[0]}, {"last": openings[-1]}, {"end_ratio": openings[-1] / openings[0]})
    for way in ways:
        found = constant_ratio(F(clear_height), rows, **way)
        assert sum(found) == clear_height
        assert [float(h) for h in found] == pytest.approx([float(h) for h in openings], rel=1e-12)
        steps = {low / high for high, low in pairwise(found)}
        assert len(steps) == 1  # one ratio, kept exactly


@pytest.mark.parametrize("first", [1, 50, 142, 143, 144, 500, 900])
def test_the_ratio_from_the_first_opening_is_the_root_that_numpy_finds(first):
    openings = constant_ratio(F(1001), 7, first=F(first))
    roots = np.roots([first] * 6 + [first - 1001])
    (real,) = [root.real for root in roots if abs(root.imag) < 1e-9 and root.real > 0]
    assert float(openings[1] / openings[0]) == pytest.approx(real, rel=1e-9)
    assert float(openings[0]) == pytest.approx(first)


@pytest.mark.parametrize("rule", [constant_step, constant_ratio])
def test_the_least_top_stands_aside_or_eases_the_rule(rule):
    own = rule(F(1001), 7, F(6, 5))
    assert rule(F(1001), 7, F(6, 5), least_top=own[0] - 1) == own
    eased = rule(F(1001), 7, F(6, 5), least_top=own[0] + 1)
    assert float(eased[0]) == pytest.approx(float(own[0] + 1))
    assert sum(eased) == 1001
    assert eased[-1] < own[-1]
    assert rule(F(1001), 7, F(6, 5), least_top=F(143)) == (143,) * 7
    with pytest.raises(DesignError, match="143"):
        rule(F(1001), 7, F(6, 5), least_top=F(144))


def test_a_step_that_would_leave_nothing_is_eased_to_the_least_top():
    assert constant_step(F(1001), 7, F(60), least_top=F(83)) == constant_step(F(1001), 7, F(20))


def test_falling_openings_are_eased_at_the_bottom():
    eased = constant_step(F(1001), 7, F(-30), least_top=F(83))
    assert eased == constant_step(F(1001), 7, F(-20))
    for way in ({"ratio": F(4, 5)}, {"first": F(250)}, {"last": F(60)}, {"end_ratio": F(1, 4)}):
        eased = constant_ratio(F(1001), 7, **way, least_top=F(83))
        assert sum(eased) == 1001
        assert float(eased[-1]) == pytest.approx(83, rel=1e-12)
        assert eased == tuple(sorted(eased, reverse=True))


def test_the_least_top_stands_whatever_names_the_rule():
    for way in ({"first": F(50)}, {"last": F(240)}, {"end_ratio": F(5)}):
        assert constant_step(F(1001), 7, **way, least_top=F(83)) == constant_step(F(1001), 7, F(20))
        assert float(constant_ratio(F(1001), 7, **way, least_top=F(83))[0]) == pytest.approx(83, rel=1e-12)


def test_a_least_top_above_the_mean_says_what_equal_openings_are():
    for rule in (constant_step, constant_ratio):
        with pytest.raises(
            DesignError, match="The least top is 150, but 7 equal openings are 143 each; take fewer rows"
        ):
            rule(F(1001), 7, F(6, 5), least_top=F(150))
        for bad in BAD:
            with pytest.raises(DesignError, match="The least top is "):
                rule(F(1001), 7, F(6, 5), least_top=bad)


@by_chance(st.integers(2, 12), ratios, st.fractions(F(1, 9), 9, max_denominator=25), few=40, many=100)
def test_scaling_the_height_scales_the_openings(rows, ratio, k):
    for rule, number, scaled in ((constant_ratio, ratio, ratio), (constant_step, F(3), 3 * k)):
        wanted = tuple(k * h for h in rule(F(1000), rows, number))
        assert rule(1000 * k, rows, scaled) == wanted


@pytest.mark.parametrize("rule", [constant_step, constant_ratio])
@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({}, "none of them are given"),
        ({"first": F(83), "last": F(203)}, "first and last are given"),
        ({"first": F(83), "end_ratio": F(2)}, "first and end ratio are given"),
    ],
)
def test_one_number_names_a_rule(rule, given, said):
    with pytest.raises(DesignError, match=f"is named by one of .*, first, last, end ratio; {said}: give one"):
        rule(F(1001), 7, **given)


@pytest.mark.parametrize("rule", [constant_step, constant_ratio])
@pytest.mark.parametrize("name", ["first", "last", "end_ratio"])
@pytest.mark.parametrize("number", BAD)
def test_what_names_a_rule_is_above_0(rule, name, number):
    with pytest.raises(DesignError, match=f"The {name.replace('_', ' ')}.* is "):
        rule(F(1001), 7, **{name: number})


@pytest.mark.parametrize("name", ["first", "last"])
def test_an_opening_that_leaves_nothing_is_refused(name):
    with pytest.raises(DesignError, match="leaves 0 for the smallest"):
        constant_step(F(1001), 7, **{name: F(286)})  # twice the mean: the other end would be 0
    with pytest.raises(DesignError, match="1001 leaves nothing"):
        constant_ratio(F(1001), 7, **{name: F(1001)})
    with pytest.raises(DesignError, match=r"must be from .* to 900\.9"):  # 0.9 of it and a hair
        constant_ratio(F(1001), 7, **{name: F(1000)})


@pytest.mark.parametrize("rows", range(2, 31))
def test_a_first_opening_that_is_the_mean_makes_all_equal(rows):
    for rule in (constant_step, constant_ratio):
        for name in ("first", "last"):
            assert rule(F(1001), rows, **{name: F(1001, rows)}) == equal_openings(F(1001), rows)


def test_one_row_and_two_hundred_divide_by_nothing():
    assert (
        constant_step(F(7), 1, F(3)) == constant_ratio(F(7), 1, F(3)) == constant_ratio(F(7), 1, end_ratio=F(3)) == (7,)
    )
    for way in ({"first": F(1)}, {"last": F(1)}, {"end_ratio": F(3)}, {"end_ratio": F(1)}):
        assert sum(constant_ratio(F(100000), MOST_ROWS, **way)) == 100000


# Weights


@by_chance(
    st.lists(st.fractions(F(1, 9), 9, max_denominator=16), min_size=1, max_size=30),
    st.integers(1, 3000),
    few=40,
    many=100,
)
def test_weights_fill_the_height_in_proportion(weights, clear_height):
    openings = weighted(F(clear_height), weights)
    assert sum(openings) == clear_height
    assert {h / w for h, w in zip(openings, weights, strict=True)} == {F(clear_height) / sum(weights)}
    assert weighted(F(clear_height), weights[::-1]) == openings[::-1]
    assert weighted(F(clear_height), [3 * w for w in weights]) == openings


def test_weights_of_a_rule_are_that_rule():
    assert weighted(F(100), [F(1)] * 8) == equal_openings(F(100), 8)
    assert weighted(F(100), [F(6, 5) ** i for i in range(8)]) == constant_ratio(F(100), 8, F(6, 5))


def test_summation_weights_are_each_the_sum_of_the_two_before():
    assert summation_weights(1) == (1,)
    assert summation_weights(2, F(3), F(4)) == (3, 4)
    many = summation_weights(MOST_ROWS)
    assert len(many) == MOST_ROWS
    assert all(a + b == c for a, b, c in zip(many, many[1:], many[2:], strict=False))


@pytest.mark.parametrize("weight", BAD)
def test_a_weight_is_above_0(weight):
    with pytest.raises(DesignError, match="weight is"):
        weighted(F(100), [F(1), weight])
    with pytest.raises(DesignError, match="first weight is"):
        summation_weights(5, weight)
    with pytest.raises(DesignError, match="second weight is"):
        summation_weights(5, F(1), weight)
    with pytest.raises(DesignError, match="number of rows is 0"):
        weighted(F(100), [])


def test_dividers_may_differ():
    edges = running_sizes([F(83), F(103), F(123)], [F(18), F(20)], F(20))
    # 20 to 103, 18 thick, 121 to 224, 20 thick, 244 to 367
    assert list(edges) == [20, 103, 121, 224, 244, 367]
    with pytest.raises(DesignError, match="3 openings have 2 dividers between; 1 are given"):
        running_sizes([F(1)] * 3, [F(1)], F(0))
