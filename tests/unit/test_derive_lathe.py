"""The derivations of the lathe and of whirling: proved, about the code that runs, and not blind."""

from __future__ import annotations

import math

import numpy as np
import pytest
import sympy
from scipy.optimize import brentq

from furnlib.teach.derive import lathe as lathe_room
from furnlib.teach.derive import whirling as whirling_room
from furnlib.teach.derive.lathe import derive_lathe
from furnlib.teach.derive.whirling import derive_whirling, end_conditions
from furnlib.trade.leg.lathe import depth_at_corner, depth_at_flat, rim_speed
from furnlib.trade.leg.whirling import MODE_NUMBERS, uniform_whirling

CLAIMS = {claim.key: claim for make in (derive_lathe, derive_whirling) for claim in make().claims}
S, D, SWING, RPM = sympy.symbols("s d D n", positive=True)
B, LENGTH, BENDING, MASS = sympy.symbols("b L B m", positive=True)
PLACES = {
    "lathe.depth_at_flat": ((S, D), depth_at_flat),
    "lathe.depth_at_corner": ((S, D), depth_at_corner),
    "lathe.rim_speed": ((SWING, RPM), rim_speed),
    "whirling.uniform": ((B, LENGTH, BENDING, MASS), uniform_whirling),
    "whirling.energy": ((LENGTH, BENDING, MASS), lambda *sizes: uniform_whirling(math.pi, *sizes)),
}


@pytest.mark.parametrize("key", CLAIMS)
def test_running_less_derived_is_nothing_at_all(key):
    assert CLAIMS[key].difference == sympy.Integer(0)
    assert not CLAIMS[key].by_points


def test_every_formula_is_claimed_once():
    assert set(CLAIMS) == set(PLACES)
    assert len(CLAIMS) == len(derive_lathe().claims) + len(derive_whirling().claims)


@pytest.mark.parametrize("key", CLAIMS)
def test_with_numbers_both_sides_are_what_the_library_gives(key):
    symbols, running_function = PLACES[key]
    running, derived = (sympy.lambdify(symbols, side, "math") for side in (CLAIMS[key].running, CLAIMS[key].derived))
    for row in np.random.default_rng(41).uniform(0.1, 9, (200, len(symbols))):
        expected = running_function(*row)
        assert running(*row) == pytest.approx(expected, rel=1e-12, abs=1e-12)
        assert derived(*row) == pytest.approx(expected, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(
    ("room", "name", "key", "make"),
    [
        (lathe_room, "depth_at_flat", "lathe.depth_at_flat", derive_lathe),
        (lathe_room, "depth_at_corner", "lathe.depth_at_corner", derive_lathe),
        (lathe_room, "rim_speed", "lathe.rim_speed", derive_lathe),
        (whirling_room, "uniform_whirling", "whirling.uniform", derive_whirling),
        (whirling_room, "uniform_whirling", "whirling.energy", derive_whirling),
    ],
)
def test_a_slip_in_the_library_leaves_a_difference(monkeypatch, room, name, key, make):
    true = getattr(room, name)
    monkeypatch.setattr(room, name, lambda first, *more: true(2 * first, *more))
    assert make()[key].difference != 0


# The mode numbers


@pytest.mark.parametrize("ends", MODE_NUMBERS)
def test_a_mode_number_is_the_first_root_of_the_ends_condition(ends):
    """Found by scanning from 0, where every condition but that of a free end vanishes with the whole shape."""
    condition = sympy.lambdify(sympy.Symbol("b", positive=True), end_conditions()[ends], "math")
    places = np.arange(0.05, 5, 0.05)
    signs = [math.copysign(1, condition(place)) for place in places]
    turn = next(i for i, sign in enumerate(signs) if sign != signs[0])
    first = brentq(condition, places[turn - 1], places[turn], xtol=1e-14)
    assert MODE_NUMBERS[ends] == pytest.approx(first, abs=1e-9)


def test_the_conditions_are_those_that_are_known():
    b = sympy.Symbol("b", positive=True)
    known = {
        "pinned-pinned": sympy.sin(b) * sympy.sinh(b),
        "fixed-pinned": sympy.sin(b) * sympy.cosh(b) - sympy.cos(b) * sympy.sinh(b),
        "fixed-free": sympy.cos(b) * sympy.cosh(b) + 1,
    }
    for ends, condition in end_conditions().items():
        assert sympy.simplify(condition - known[ends]) == 0
