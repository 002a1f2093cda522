"""Which rule a measured set follows: made sets are found again, and scipy's minimiser finds nothing nearer."""

from __future__ import annotations

import random
from fractions import Fraction as F

import numpy as np
import pytest
from scipy.optimize import minimize

from furnlib.base.guards import DesignError
from furnlib.trade.drawer.graduation import (
    constant_ratio,
    constant_step,
    equal_openings,
    summation_weights,
    weighted,
)
from furnlib.trade.drawer.measured_set import FITTING_RULES, closest_rule, fit_rules

MADE = {
    "equal": (lambda: [F(143)] * 7, 0),
    "constant step": (lambda: constant_step(F(1001), 7, F(20)), 20),
    "constant ratio": (lambda: constant_ratio(F(1000), 7, F("1.16")), 1.16),
    "weights by summation": (lambda: weighted(F(1000), summation_weights(7, F(2), F(5))), 2.5),
}


@pytest.mark.parametrize("rule", MADE)
def test_a_set_made_by_a_rule_is_found_again(rule):
    make, number = MADE[rule]
    best = fit_rules([float(h) for h in make()])[0]
    assert best.rule == rule
    assert best.number == pytest.approx(number, abs=1e-5)
    assert best.worst == pytest.approx(0, abs=1e-4)


@pytest.mark.parametrize(
    "make", [lambda: constant_step(F(1001), 7, F(-20)), lambda: constant_ratio(F(999), 7, F("0.8"))]
)
def test_falling_sets_are_found_as_well(make):
    assert fit_rules([float(h) for h in make()])[0].worst == pytest.approx(0, abs=1e-4)


NUMBERS = {  # what a maker would choose: the number of each rule from, to
    "equal": (0.0, 0.0),
    "constant step": (12.0, 30.0),
    "constant ratio": (1.12, 1.35),
    "weights by summation": (1.3, 3.0),
}


def made_by(rule, number, rows):
    """Openings of 150 on an average, by the rules of the trade."""
    clear = F(150 * rows)
    return {
        "equal": lambda: equal_openings(clear, rows),
        "constant step": lambda: constant_step(clear, rows, F(number)),
        "constant ratio": lambda: constant_ratio(clear, rows, F(number)),
        "weights by summation": lambda: weighted(clear, summation_weights(rows, F(1), F(number))),
    }[rule]()


def off_by_one(rule, number, rows):
    """By how much the openings move, root of the summed squares, when the rule's number grows by 1."""
    small = 1e-4
    here, there = (np.array([float(h) for h in made_by(rule, at, rows)]) for at in (number, number + small))
    return np.linalg.norm(there - here) / small


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize("rule", FITTING_RULES)
def test_a_set_with_small_slips_is_recognised_and_its_number_is_as_sure_as_the_slips_allow(rule, seed):
    dice = random.Random(f"{rule} {seed}")
    rows, number = dice.randint(6, 9), dice.uniform(*NUMBERS[rule])
    slips = [dice.uniform(-0.2, 0.2) for _ in range(rows)]
    sizes = [float(h) + slip for h, slip in zip(made_by(rule, number, rows), slips, strict=True)]
    fits = {fit.rule: fit for fit in fit_rules(sizes)}
    # least squares never lies further off than what made the set, once that fills the measured height
    own = np.array([float(h) for h in made_by(rule, number, rows)]) * sum(sizes) / (150 * rows)
    assert fits[rule].typical <= np.sqrt(((sizes - own) ** 2).mean()) + 1e-6
    assert closest_rule(sizes, within=1).rule == rule
    if rule == "equal":  # the others follow the slips a little way: none of them grows
        assert fits["constant step"].number == pytest.approx(0, abs=0.2)
        assert fits["constant ratio"].number == pytest.approx(1, abs=0.002)
    else:
        allowed = 1.5 * np.linalg.norm(slips) / off_by_one(rule, number, rows)
        assert fits[rule].number == pytest.approx(number, abs=allowed)


@pytest.mark.parametrize("rows", range(3, 13))
def test_of_two_rules_that_agree_the_simpler_says_it(rows):
    # weights whose second is the golden section times the first are a constant ratio
    golden = (1 + 5**0.5) / 2
    fits = fit_rules(constant_ratio(F(1000), rows, F(golden)))
    assert [fit.rule for fit in fits[:2]] == ["constant ratio", "weights by summation"]
    assert [fit.number for fit in fits[:2]] == pytest.approx([golden, golden], abs=1e-6)
    assert [fit.rule for fit in fit_rules(equal_openings(F(1000), rows))[:3]] == list(FITTING_RULES[:3])


def measured(rng):
    return sorted(rng.uniform(60, 240) for _ in range(rng.randint(3, 9)))


def of_rule(rule, number, rows):
    weights = [number**i for i in range(rows)]
    if rule == "weights by summation":
        weights = [1.0, number]
        while len(weights) < rows:
            weights.append(weights[-1] + weights[-2])
    return np.array(weights)


@pytest.mark.parametrize("seed", range(6))
def test_no_other_number_of_the_rule_comes_nearer(seed):
    sizes = measured(random.Random(seed))
    rows, total = len(sizes), sum(sizes)

    def squares(rule, number):
        if rule == "constant step":
            openings = total / rows + (np.arange(rows) - (rows - 1) / 2) * number
        else:
            weights = of_rule(rule, number, rows)
            openings = total * weights / weights.sum()
        return float(((np.array(sizes) - openings) ** 2).sum())

    for fit in fit_rules(sizes):
        assert sum(fit.openings) == pytest.approx(total)
        changes = np.abs(np.array(sizes) - np.array(fit.openings))
        assert fit.worst == pytest.approx(changes.max())
        assert fit.typical == pytest.approx(np.sqrt((changes**2).mean()))
        if fit.rule != "equal":
            limits = None if fit.rule == "constant step" else [(0.1, 10)]
            found = minimize(lambda at, rule=fit.rule: squares(rule, at[0]), [1.2], method="Nelder-Mead", bounds=limits)
            # a minimum is flat: the two searches end within a part in a million
            assert rows * fit.typical**2 <= found.fun * (1 + 1e-6) + 1e-6


@pytest.mark.parametrize("seed", range(20))
def test_no_number_of_the_whole_range_comes_nearer(seed):
    """A scan from 1/10 to 10, rising, falling and in no order: what is found is no lesser valley."""
    dice = random.Random(seed)
    sizes = [dice.uniform(60, 240) for _ in range(dice.randint(3, 20))]
    sizes = np.array([sizes, sorted(sizes), sorted(sizes, reverse=True)][seed % 3])
    for fit in fit_rules(sizes):
        if fit.rule in ("constant ratio", "weights by summation"):
            scanned = np.array([of_rule(fit.rule, number, len(sizes)) for number in np.geomspace(0.1, 10, 1001)])
            openings = sizes.sum() * scanned / scanned.sum(axis=1, keepdims=True)
            least = ((sizes - openings) ** 2).sum(axis=1).min()
            assert len(sizes) * fit.typical**2 <= least * (1 + 1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_with_both_numbers_free_scipy_finds_the_same(seed):
    """The first opening and the rule's number, the sum held to what was measured."""
    sizes = np.array(measured(random.Random(seed)))
    rows, total = len(sizes), sizes.sum()

    def openings(rule, first, number):
        if rule == "constant step":
            return first + np.arange(rows) * number
        return first * of_rule(rule, number, rows)

    for fit in fit_rules(sizes):
        if fit.rule == "equal":
            continue
        start, scale = (60.0, 10.0) if fit.rule == "constant step" else (30.0, 1.2)
        found = minimize(
            lambda at, rule=fit.rule: ((sizes - openings(rule, *at)) ** 2).sum(),
            [start, scale],
            constraints={"type": "eq", "fun": lambda at, rule=fit.rule: openings(rule, *at).sum() - total},
            bounds=[(0.01, total), (0.1, 300 if fit.rule == "constant step" else 10)],
            options={"ftol": 1e-12, "maxiter": 500},
        )
        assert found.success
        assert (fit.openings[0], fit.number) == pytest.approx(tuple(found.x), rel=1e-3)


@pytest.mark.parametrize("seed", range(4))
def test_all_rules_come_closest_first_and_scale_with_the_unit(seed):
    sizes = measured(random.Random(seed))
    fits = fit_rules(sizes)
    assert {fit.rule for fit in fits} == set(FITTING_RULES)
    assert [fit.typical for fit in fits] == sorted(fit.typical for fit in fits)
    inches = fit_rules([size / 25.4 for size in sizes])
    assert [fit.rule for fit in inches] == [fit.rule for fit in fits]
    assert [fit.worst * 25.4 for fit in inches] == pytest.approx([fit.worst for fit in fits], rel=1e-4)


def test_closest_within():
    sizes = [83, 104, 123, 143, 162, 183, 203]
    assert closest_rule(sizes, 1).rule == "constant step"
    with pytest.raises(DesignError, match=r"No rule comes within 0\.1 of every opening: the nearest is .*step"):
        closest_rule(sizes, 0.1)


@pytest.mark.parametrize("seed", range(30))
def test_a_rule_within_is_never_overlooked(seed):
    sizes = measured(random.Random(seed))
    least = min(fit.worst for fit in fit_rules(sizes))
    assert closest_rule(sizes, least + 1e-9).worst <= least + 1e-9


@pytest.mark.parametrize("bad", [[], [90], [90, 100]])
def test_fewer_than_three_tell_nothing(bad):
    with pytest.raises(DesignError, match=f"{len(bad)} openings fit any rule"):
        fit_rules(bad)


@pytest.mark.parametrize("bad", [0, -3, float("nan"), float("inf")])
def test_an_opening_is_above_0(bad):
    with pytest.raises(DesignError, match="The opening is"):
        fit_rules([90, bad, 100])
    with pytest.raises(DesignError, match="largest change that counts is"):
        closest_rule([90, 95, 100], bad)
