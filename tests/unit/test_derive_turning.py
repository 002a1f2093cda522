"""The derivation of turned work: proved, about the code that runs, and a wrong formula is caught."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
import sympy
from scipy.integrate import quad

from furnlib.teach.derive import turning as room
from furnlib.teach.derive.turning import derive_turning
from furnlib.trade.leg._outline import arc_solid, clipped_area, clipped_second_moment, line_solid

DERIVATION = derive_turning()
CLAIMS = {claim.key: claim for claim in DERIVATION.claims}
L, A, B, C, M, H, F, THETA, PHI = sympy.symbols("L a b c m h f theta phi", positive=True)
S = sympy.Symbol("s", real=True)
OF_A_SOLID = ("volume", "moment", "surface")
DRAWS = np.random.default_rng(27).uniform(0.1, 1.0, (100, 4))


def evaluated(key, *symbols):
    """Both sides of a claim as functions of plain numbers."""
    return [sympy.lambdify(symbols, side, "math") for side in (CLAIMS[key].running, CLAIMS[key].derived)]


@pytest.mark.parametrize("key", CLAIMS)
def test_running_less_derived_is_nothing_at_all(key):
    assert CLAIMS[key].difference == sympy.Integer(0)
    assert not CLAIMS[key].by_points


def test_every_closed_formula_of_turned_work_is_claimed_once():
    solids = {f"turning.{shape}_{what}" for shape in ("line", "arc") for what in OF_A_SOLID}
    assert set(CLAIMS) == solids | {"turning.section_area", "turning.section_moment"}
    assert len(DERIVATION.claims) == len(CLAIMS)


@pytest.mark.parametrize("number", range(3))
def test_lines_and_arcs_on_numbers(number):
    """The running side is what the library gives, and the derived side gives it as well."""
    line = evaluated(f"turning.line_{OF_A_SOLID[number]}", L, A, B)
    arc = evaluated(f"turning.arc_{OF_A_SOLID[number]}", C, THETA, M, PHI, S)
    for one, two, three, four in DRAWS:
        wanted = line_solid(one, two, three)[number]
        for side in line:
            assert side(one, two, three) == pytest.approx(wanted, rel=1e-12)
        for sign in (1, -1):
            angle = 20 + 69 * three  # degrees
            wanted = arc_solid(one, angle, 2 + two, math.cos(four), math.sin(four), sign)[number]
            for side in arc:
                assert side(one, angle, 2 + two, four, sign) == pytest.approx(wanted, rel=1e-9)


def test_a_section_by_strips():
    """Strips square to a face: as wide as the square as far as its flat goes, then as the circle."""
    area, moment = evaluated("turning.section_area", H, F), evaluated("turning.section_moment", H, F)
    for half, part, *_ in DRAWS[:20]:
        flat = half * part
        radius = math.hypot(half, flat)

        def wide(y, half=half, radius=radius):
            return 2 * min(half, math.sqrt(radius**2 - y * y))

        strips = [2 * sum(quad(lambda y, p=power, w=wide: y**p * w(y), *ends)[0] for ends in ((0, flat), (flat, half)))
                  for power in (0, 2)]  # fmt: skip
        for side in area:
            assert side(half, flat) == pytest.approx(strips[0], rel=1e-9)
        for side in moment:
            assert side(half, flat) == pytest.approx(strips[1], rel=1e-9)
        assert clipped_area(radius, half) == pytest.approx(strips[0], rel=1e-9)
        assert clipped_second_moment(radius, half) == pytest.approx(strips[1], rel=1e-9)


@pytest.mark.parametrize(
    ("name", "slip"),
    [
        ("line_solid", lambda parts: (parts[0] * 2, parts[1], parts[2])),
        pytest.param("line_solid", lambda parts: (parts[0], parts[1], parts[2] / 2), marks=pytest.mark.slow),
        pytest.param("arc_solid", lambda parts: (parts[0], parts[1] + C**4 / 10**6, parts[2]), marks=pytest.mark.slow),
        ("arc_solid", lambda parts: (parts[0] + C**3 / 10**6, parts[1], parts[2])),
        ("clipped_area", lambda area: area + F**2 / 10**6),
        pytest.param(
            "clipped_second_moment", lambda moment: moment * sympy.Rational(1001, 1000), marks=pytest.mark.slow
        ),
    ],
)
def test_a_slip_in_the_library_leaves_a_difference(monkeypatch, name, slip):
    right = getattr(room, name)
    monkeypatch.setattr(room, name, lambda *sizes: slip(right(*sizes)))
    assert any(claim.running != CLAIMS[claim.key].running for claim in derive_turning().claims)
    wrong = [claim for claim in derive_turning().claims if claim.running != CLAIMS[claim.key].running]
    assert all(claim.difference != 0 for claim in wrong)


def test_what_is_shown_is_whole():
    shown = DERIVATION._repr_markdown_()
    assert shown.count("$$") == 2 * (len(DERIVATION.start) + 2 * len(DERIVATION.claims))
    for formula in re.findall(r"\$\$(.*?)\$\$", shown, re.DOTALL):
        assert formula.count("{") == formula.count("}")
    assert shown.count("the difference simplifies to $0$") == len(DERIVATION.claims)
