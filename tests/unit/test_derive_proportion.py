"""The derivation of ratios: proved, about the code that runs, and not blind to a slip."""

from __future__ import annotations

import math
import random

import pytest
import sympy

from furnlib.teach.derive import proportion as room
from furnlib.teach.derive.proportion import derive_proportion
from furnlib.trade.case.proportion import case_ratio, gnomon, leg_share, reciprocal
from furnlib.trade.case.ratios import ratios, surd

CLAIMS = {claim.key.removeprefix("proportion."): claim for claim in derive_proportion().claims}
SYMBOLS = sympy.symbols("r H W l n", positive=True)
VALUE = {ratio.name: ratio.value for ratio in ratios("golden section")}
EXPECTED = {
    "golden": lambda *_: VALUE["golden section"],
    "squares": lambda *_: reciprocal(VALUE["golden section"]),
    "root_golden": lambda *_: VALUE["root of the golden section"],
    "square_golden": lambda *_: VALUE["square of the golden section"],
    "root": lambda _r, _h, _w, _l, n: surd(0, n + 1, 1),
    "reciprocal": lambda r, *_: reciprocal(r),
    "gnomon": lambda r, *_: gnomon(r),
    "ratio": lambda _r, h, w, legs, _n: case_ratio(h, w, legs),
    "leg_share": lambda _r, h, _w, legs, _n: leg_share(legs, h),
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
    dice = random.Random(20_263)
    for _ in range(100):
        point = [dice.uniform(0.1, 50) for _ in SYMBOLS]
        expected = EXPECTED[key](*point)
        assert running(*point) == pytest.approx(expected, rel=1e-11, abs=1e-11)
        assert derived(*point) == pytest.approx(expected, rel=1e-11, abs=1e-11)


def test_root_rectangles_of_the_table_follow_from_one_another():
    values = [ratio.value for ratio in ratios("root rectangles")]
    turned = CLAIMS["root"].running
    assert values == pytest.approx([float(turned.subs(SYMBOLS[4], n)) for n in (1, 2, 3, 4)], rel=1e-15)
    assert [math.hypot(1, long) for long in (1, *values[:-1])] == pytest.approx(values, rel=1e-15)


SLIPS = {
    "golden": ("surd", lambda *numbers: surd(2, *numbers[1:])),
    "squares": ("reciprocal", lambda r: r - 2),
    "root_golden": ("surd", lambda a, b, c, k=1: surd(a, b, c)),
    "square_golden": ("surd", lambda a, b, c, k=1: surd(a, b, c)),
    "root": ("surd", lambda a, b, c, k=1: surd(a, b - 1, c, k)),
    "reciprocal": ("reciprocal", lambda r: r - 1),
    "gnomon": ("gnomon", lambda r: r - 1),
    "ratio": ("case_ratio", lambda h, w, _l: h / w),
    "leg_share": ("leg_share", lambda legs, h: legs / (h - legs)),
}


@pytest.mark.parametrize("key", SLIPS)
def test_a_slip_in_the_formula_leaves_a_difference(key, monkeypatch):
    name, slipped = SLIPS[key]
    monkeypatch.setattr(room, name, slipped)
    assert derive_proportion()[f"proportion.{key}"].difference != 0


def test_the_page_shows_every_proof():
    assert derive_proportion()._repr_markdown_().count("simplifies to $0$") == len(CLAIMS)
