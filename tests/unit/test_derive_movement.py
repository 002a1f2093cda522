"""The derivations of wood that moves: proved, about the code that runs, and not blind."""

from __future__ import annotations

import numpy as np
import pytest
import sympy

from furnlib.base.angles import sind
from furnlib.teach.derive import cup as cup_room
from furnlib.teach.derive import moisture as moisture_room
from furnlib.teach.derive import movement as movement_room
from furnlib.teach.derive.cup import derive_cup
from furnlib.teach.derive.moisture import derive_moisture
from furnlib.teach.derive.movement import derive_movement
from furnlib.trade.wood.cup import change_over_rings, cup_over_rings
from furnlib.trade.wood.moisture import settled_moisture
from furnlib.trade.wood.movement import (
    change_by_coefficient,
    change_by_shrinkage,
    coefficient_at_ring,
    corner_error_deg,
    edge_stretch,
    face_stretch,
)

DERIVATIONS = [make() for make in (derive_movement, derive_cup, derive_moisture)]
CLAIMS = {claim.key: claim for derivation in DERIVATIONS for claim in derivation.claims}
W, C, S, FIRST, LAST, MOST, H, U = sympy.symbols("w C S M_1 M_2 F h u", positive=True)
A, B, C_T, C_R, THETA = sympy.symbols("a b C_T C_R theta", positive=True)
AIR, WEIGHT, K, K1, K2 = sympy.symbols("h W K K_1 K_2", positive=True)


def there_and_back(width, coefficient, first, last):
    grown = width + change_by_coefficient(width, coefficient, first, last)
    return grown + change_by_coefficient(grown, coefficient, last, first) - width


PLACES = {
    "movement.coefficient": ((W, C, FIRST, LAST), change_by_coefficient),
    "movement.there_and_back": ((W, C, FIRST, LAST), there_and_back),
    "movement.shrinkage": ((W, S, FIRST, LAST, MOST), change_by_shrinkage),
    "movement.face": ((A, B, THETA), face_stretch),
    "movement.edge": ((A, B, THETA), edge_stretch),
    "movement.ring": ((C_T, C_R, THETA), coefficient_at_ring),
    "movement.corner": ((A, B, THETA), lambda *sizes: sind(corner_error_deg(*sizes))),
    "cup.change": ((W, H, U, A, B), change_over_rings),
    "cup.depth": ((W, H, A, B), cup_over_rings),
    "moisture.balance": ((AIR, WEIGHT, K, K1, K2), settled_moisture),
}


@pytest.mark.parametrize("key", CLAIMS)
def test_running_less_derived_is_nothing_at_all(key):
    assert CLAIMS[key].difference == sympy.Integer(0)
    assert not CLAIMS[key].by_points


def test_every_formula_is_claimed_once():
    assert set(CLAIMS) == set(PLACES)
    assert len(CLAIMS) == sum(len(derivation.claims) for derivation in DERIVATIONS)


@pytest.mark.parametrize("key", CLAIMS)
def test_with_numbers_both_sides_are_what_the_library_gives(key):
    symbols, running_function = PLACES[key]
    running, derived = (sympy.lambdify(symbols, side, "math") for side in (CLAIMS[key].running, CLAIMS[key].derived))
    for row in np.random.default_rng(43).uniform(0.2, 0.95, (200, len(symbols))):
        expected = running_function(*row.tolist())
        assert running(*row) == pytest.approx(expected, rel=1e-11, abs=1e-12)
        assert derived(*row) == pytest.approx(expected, rel=1e-11, abs=1e-12)


@pytest.mark.parametrize(
    ("room", "name", "key", "make"),
    [
        (movement_room, "change_by_coefficient", "movement.coefficient", derive_movement),
        (movement_room, "change_by_coefficient", "movement.there_and_back", derive_movement),
        (movement_room, "change_by_shrinkage", "movement.shrinkage", derive_movement),
        (movement_room, "face_stretch", "movement.face", derive_movement),
        (movement_room, "edge_stretch", "movement.edge", derive_movement),
        (movement_room, "coefficient_at_ring", "movement.ring", derive_movement),
        (movement_room, "corner_error_deg", "movement.corner", derive_movement),
        (cup_room, "change_over_rings", "cup.change", derive_cup),
        (cup_room, "cup_over_rings", "cup.depth", derive_cup),
        (moisture_room, "settled_moisture", "moisture.balance", derive_moisture),
    ],
)
def test_a_slip_in_the_library_leaves_a_difference(monkeypatch, room, name, key, make):
    true = getattr(room, name)
    # the second argument, so that a slip in a width, which only scales, is not all that is seen
    monkeypatch.setattr(room, name, lambda first, second, *more: true(first, 2 * second, *more))
    (claim,) = (claim for claim in make().claims if claim.key == key)
    slip = claim.running - claim.derived
    point = {symbol: sympy.Rational(index + 2, 11) for index, symbol in enumerate(sorted(slip.free_symbols, key=str))}
    assert abs(slip.subs(point).evalf(30)) > 1e-6
