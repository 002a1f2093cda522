"""The derivation of a leg as a beam: proved, about the code that runs, and not blind to a slip."""

from __future__ import annotations

import math
import random

import pytest
import sympy

from furnlib.teach.derive import strength as room
from furnlib.teach.derive.strength import derive_strength
from furnlib.trade.case.strength import (
    bending_stress,
    round_section_modulus,
    square_section_modulus,
    strength_share_of_grain,
    tenon_forces,
    weakest_taper_diameter,
)

CLAIMS = {claim.key: claim for claim in derive_strength().claims}
MOMENT, DIAMETER, SIDE, FOOT, UPWARD, PUSH, LEAN, SLOPE, SHARE = SYMBOLS = sympy.symbols(
    "M_b d a d_f P T R alpha c", positive=True
)
EXPECTED = {
    "strength.bending_round": lambda m, d, *_: bending_stress(m, round_section_modulus(d)),
    "strength.bending_square": lambda m, _d, a, *_: bending_stress(m, square_section_modulus(a)),
    "strength.taper": lambda _m, _d, _a, foot, *_: weakest_taper_diameter(foot),
    "strength.tenon_across": lambda _m, _d, _a, _f, up, push, lean, *_: tenon_forces(lean, push, up)[0],
    "strength.tenon_along": lambda _m, _d, _a, _f, up, push, lean, *_: tenon_forces(lean, push, up)[1],
    "strength.grain": lambda *point: strength_share_of_grain(*point[-2:]),
}


def test_every_formula_is_claimed_once():
    assert list(CLAIMS) == list(EXPECTED)


@pytest.mark.parametrize("key", EXPECTED)
def test_each_claim_is_proved_and_about_the_code_that_runs(key):
    claim = CLAIMS[key]
    assert claim.difference == sympy.Integer(0)
    assert not claim.by_points
    assert {*claim.running.free_symbols, *claim.derived.free_symbols} <= set(SYMBOLS)
    running, derived = (sympy.lambdify(SYMBOLS, side, "math") for side in (claim.running, claim.derived))
    dice = random.Random(20_262)
    for _ in range(200):
        point = [dice.uniform(0.1, 50) for _ in SYMBOLS[:-1]] + [dice.uniform(0.01, 1)]
        expected = EXPECTED[key](*point)
        assert running(*point) == pytest.approx(expected, rel=1e-11, abs=1e-11)
        assert derived(*point) == pytest.approx(expected, rel=1e-11, abs=1e-11)


SLIPS = {
    "strength.bending_round": ("round_section_modulus", lambda d: round_section_modulus(d) * 2),
    "strength.bending_square": ("square_section_modulus", lambda a: a**3 / 12),
    "strength.taper": ("weakest_taper_diameter", lambda d: 2 * d),
    "strength.tenon_across": ("tenon_forces", lambda R, T, P: tenon_forces(R, P, T)),
    "strength.tenon_along": ("tenon_forces", lambda R, T, P: tenon_forces(-R, T, P)),
    "strength.grain": ("strength_share_of_grain", lambda a, c: strength_share_of_grain(a, c, 3)),
}


@pytest.mark.parametrize("key", SLIPS)
def test_a_slip_in_the_formula_leaves_a_difference(key, monkeypatch):
    name, slipped = SLIPS[key]
    monkeypatch.setattr(room, name, slipped)
    assert derive_strength()[key].difference != 0


def test_the_page_shows_the_formulas():
    page = derive_strength()._repr_markdown_()
    assert "simplifies to $0$" in page
    assert page.count("simplifies to $0$") == len(CLAIMS)
    assert math.isfinite(len(page))
