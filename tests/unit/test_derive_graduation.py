"""Graduation, a racked opening and slips along a chain derived: proved, about the code that runs, not blind.

Beside the proof stand the rules themselves on plain numbers, an opening racked by vectors, and a chain
counted up member by member.
"""

from __future__ import annotations

import random
import re
from fractions import Fraction
from importlib import import_module
from itertools import pairwise

import numpy as np
import pytest
import sympy

from furnlib.teach.derive.error_budget import derive_error_budget
from furnlib.teach.derive.graduation import derive_graduation
from furnlib.teach.derive.squareness import derive_squareness
from furnlib.trade.drawer.error_budget import error_budget
from furnlib.trade.drawer.graduation import constant_ratio, constant_step, weighted
from furnlib.trade.drawer.squareness import side_taper
from furnlib.trade.drawer.sums import constant_ratio_first, constant_step_first

DERIVE = {"graduation": derive_graduation, "squareness": derive_squareness, "error_budget": derive_error_budget}
DERIVATIONS = {room: derive() for room, derive in DERIVE.items()}
CLAIMS = {claim.key: claim for derivation in DERIVATIONS.values() for claim in derivation.claims}
CLEAR, ROWS, STEP, RATIO = sympy.symbols("S_h n d g", positive=True)
POINTS = 100


def fraction(dice, low, high):
    return Fraction(dice.randint(32 * low, 32 * high), 32)


def a_step(dice):
    """Clear height, rows and a step short of nothing left, up or down."""
    clear, rows = fraction(dice, 10, 1250), dice.randint(2, 20)
    return clear, rows, Fraction(dice.randint(-99, 99), 100) * 2 * clear / (rows * (rows - 1))


def a_ratio(dice):
    ratio = Fraction(dice.choice([*range(30, 98), *range(102, 300)]), 100)
    return fraction(dice, 10, 1250), dice.randint(2, 12), ratio


def an_opening(dice):
    """Width, height and how far the sides lean."""
    height = dice.uniform(10, 900)
    return dice.uniform(10, 900), height, height * dice.uniform(0.001, 0.95)


def racked(width, height, lean):
    """The difference of the diagonals, and how far the top falls seen from the sides, by vectors."""
    across, side = np.array([width, 0.0]), np.array([lean, np.sqrt(height**2 - lean**2)])
    diagonals = np.linalg.norm(across + side), np.linalg.norm(across - side)
    return diagonals[0] - diagonals[1], across @ side / np.linalg.norm(side)


def step_points(dice):
    clear, rows, step = a_step(dice)
    return (clear, rows, step), constant_step(clear, rows, step)[0]


def ratio_points(dice):
    clear, rows, ratio = a_ratio(dice)
    return (clear, rows, ratio), constant_ratio(clear, rows, ratio)[0]


def step_from_first_points(dice):
    clear, rows, step = a_step(dice)
    openings = constant_step(clear, rows, step)
    return (clear, rows, openings[0]), step


def first_from_end_ratio_points(dice):
    clear, rows, step = a_step(dice)
    openings = constant_step(clear, rows, step)
    return (clear, rows, openings[-1] / openings[0]), openings[0]


def end_ratio_points(dice):
    clear, rows, ratio = a_ratio(dice)
    openings = constant_ratio(clear, rows, ratio)
    return (rows - 1, openings[-1] / openings[0]), ratio ** (rows - 1)


def weights_points(dice):
    clear, *weights = (fraction(dice, 1, 90) for _ in range(5))
    return (clear, weights[0], sum(weights[1:])), weighted(clear, weights)[0]


def side_points(dice):
    width, height, lean = an_opening(dice)
    return (racked(width, height, lean)[0], width, height), lean


def top_points(dice):
    width, height, lean = an_opening(dice)
    apart, falls = racked(width, height, lean)
    return (apart, width, height), falls


def diagonal_points(dice):
    width, height, lean = an_opening(dice)
    return (lean, width, height), racked(width, height, lean)[0]


def worst_points(dice):
    slip, members = dice.uniform(0.01, 2), dice.randint(1, 40)
    return (slip, members), error_budget([slip] * members).worst


def likely_points(dice):
    slip, members = dice.uniform(0.01, 2), dice.randint(1, 40)
    return (slip, members), error_budget([slip] * members).likely


WITNESS = {  # each claim's symbols, and points with what must come out there
    "graduation.step": ("S_h n d", step_points),
    "graduation.ratio": ("S_h n g", ratio_points),
    "graduation.step_from_first": ("S_h n h_1", step_from_first_points),
    "graduation.first_from_end_ratio": ("S_h n Q", first_from_end_ratio_points),
    "graduation.ratio_from_end_ratio": ("m Q", end_ratio_points),
    "graduation.weights": ("S_h w W_o", weights_points),
    "squareness.side_taper": ("d W H", side_points),
    "squareness.top_taper": ("d W H", top_points),
    "squareness.diagonal": ("s W H", diagonal_points),
    "error_budget.worst": ("e n", worst_points),
    "error_budget.likely": ("e n", likely_points),
}
SLIPS = {  # what a hasty hand would write instead
    "graduation.step": ("constant_step_first", lambda clear, rows, step: clear / rows - rows * step / 2),
    "graduation.ratio": ("constant_ratio_first", lambda clear, rows, g: clear * (g - 1) / (g ** (rows - 1) - 1)),
    "graduation.step_from_first": ("step_from_first", lambda clear, rows, first: (clear / rows - first) / (rows - 1)),
    "graduation.first_from_end_ratio": ("first_from_end_ratio", lambda clear, rows, q: clear / (rows * (1 + q))),
    "graduation.ratio_from_end_ratio": ("ratio_from_end_ratio", lambda rows, q: q ** (1 / rows)),
    "graduation.weights": ("weighted_opening", lambda clear, weight, whole: clear * weight / (whole - weight)),
    "squareness.side_taper": ("side_taper", lambda d, w, h: d * sympy.sqrt(w**2 + h**2) / (2 * w)),
    "squareness.top_taper": ("top_taper", side_taper),
    "squareness.diagonal": ("diagonal_of_taper", lambda taper, w, h: 2 * w * taper / sympy.sqrt(w**2 + h**2)),
    "error_budget.worst": ("worst_slip", lambda slip, members: slip * (members - 1)),
    "error_budget.likely": ("likely_slip", lambda slip, members: slip * members),
}


def exactly(expression, values):
    """The expression at some fractions, as a fraction."""
    return Fraction(str(expression.subs({symbol: sympy.Rational(str(value)) for symbol, value in values.items()})))


# Proved


@pytest.mark.parametrize("key", CLAIMS)
def test_running_less_derived_is_nothing_at_all(key):
    assert CLAIMS[key].difference == sympy.Integer(0)
    assert not CLAIMS[key].by_points


def test_every_formula_is_claimed_once():
    assert set(CLAIMS) == set(WITNESS) == set(SLIPS)
    assert len(CLAIMS) == sum(len(derivation.claims) for derivation in DERIVATIONS.values())


# About the code that runs


@pytest.mark.parametrize("key", WITNESS)
def test_on_numbers_both_sides_are_what_the_rules_and_the_vectors_give(key):
    names, point = WITNESS[key]
    symbols = sympy.symbols(names, positive=True)
    claim = CLAIMS[key]
    assert {*claim.running.free_symbols, *claim.derived.free_symbols} <= set(symbols)
    running, derived = (sympy.lambdify(symbols, side, "math") for side in (claim.running, claim.derived))
    dice = random.Random(20_264)
    for _ in range(POINTS):
        values, expected = point(dice)
        values = [value if isinstance(value, int) else float(value) for value in values]
        assert running(*values) == pytest.approx(float(expected), rel=1e-9, abs=1e-9)
        assert derived(*values) == pytest.approx(float(expected), rel=1e-9, abs=1e-9)


def test_what_runs_is_what_the_library_returns_for_symbols():
    assert CLAIMS["graduation.step"].running == constant_step_first(CLEAR, ROWS, STEP)
    assert CLAIMS["graduation.ratio"].running == constant_ratio_first(CLEAR, ROWS, RATIO)


def test_openings_of_a_constant_step_fill_the_height_whichever_way_they_grow():
    claim = CLAIMS["graduation.step"]
    dice, grew = random.Random(7), set()
    for _ in range(2 * POINTS):
        clear, rows, step = a_step(dice)
        openings = constant_step(clear, rows, step)
        assert sum(openings) == clear
        assert {lower - upper for upper, lower in pairwise(openings)} == {step}
        values = {CLEAR: clear, ROWS: rows, STEP: step}
        assert exactly(claim.running, values) == exactly(claim.derived, values) == openings[0]
        grew.add(step > 0)
    assert grew == {True, False}


def test_openings_of_a_constant_ratio_fill_the_height_whichever_way_they_grow():
    claim = CLAIMS["graduation.ratio"]
    dice = random.Random(8)
    for _ in range(2 * POINTS):
        clear, rows, ratio = a_ratio(dice)
        openings = constant_ratio(clear, rows, ratio)
        assert sum(openings) == clear
        assert {lower / upper for upper, lower in pairwise(openings)} == {ratio}
        values = {CLEAR: clear, ROWS: rows, RATIO: ratio}
        assert exactly(claim.running, values) == exactly(claim.derived, values) == openings[0]


# A wrong formula is caught


@pytest.mark.parametrize("key", SLIPS)
def test_a_slip_in_the_formula_leaves_a_difference(key, monkeypatch):
    room = key.partition(".")[0]
    monkeypatch.setattr(import_module(f"furnlib.teach.derive.{room}"), *SLIPS[key])
    assert DERIVE[room]()[key].difference != 0


# As it is read


@pytest.mark.parametrize("room", DERIVATIONS)
def test_what_is_shown_is_whole(room):
    derivation = DERIVATIONS[room]
    shown = derivation._repr_markdown_()
    assert shown.count("$$") == 2 * (len(derivation.start) + 2 * len(derivation.claims))
    for formula in re.findall(r"\$\$(.*?)\$\$", shown, re.DOTALL):
        assert formula.count("{") == formula.count("}")
    assert shown.count("simplifies to $0$") == len(derivation.claims)
    for claim in derivation.claims:
        assert claim.words in shown
        assert claim.why in shown
