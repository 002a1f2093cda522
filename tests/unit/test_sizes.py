"""Every derived size again, by another way: its rule added up from its own text, chains, scaling, units.

The witnesses: exact fractions for sums, the printed rule re-read and worked out with the math
module, and one design written in another size or another unit.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction as F
from itertools import pairwise
from pathlib import Path

import pytest
from chance import cases, made, made_or_too_small, written
from hypothesis import Phase, given, settings

from furnlib.base.guards import DesignError
from furnlib.plan.piece import read_piece
from furnlib.plan.sizes.size import Term, closed_chain, sum_size

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
steady = settings(
    deadline=None,
    derandomize=True,
    max_examples=60,
    phases=(Phase.explicit, Phase.generate),
    report_multiple_bugs=False,
)
INCH = F(254, 10)


# Every chain closes, every opening lies on the grid


@steady
@given(cases())
def test_every_chain_closes_exactly_and_the_openings_lie_on_the_grid(case):
    piece = made_or_too_small(written(case))
    if piece is None:
        return
    for chain in piece.chains:
        assert sum(link.value * link.times for link in chain.links) == chain.whole
    opening = [row.opening for row in piece.rows.rows]
    assert all((h / case["grid"]).denominator == 1 for h in opening)
    thick = case["case"]
    clear = case["height"] - case["leg"] - thick["top"] - thick["bottom"] - thick["divider"] * (case["rows"] - 1)
    assert sum(opening) == clear
    if case["rule"] == "own list":
        assert opening == case["openings"]
    assert all(abs(row.opening - row.ideal) <= case["grid"] for row in piece.rows.rows)
    # down the case, edge by edge
    assert piece.rows.rows[0].top == thick["top"]
    assert all(row.bottom - row.top == row.opening for row in piece.rows.rows)
    assert all(low.top - high.bottom == thick["divider"] for high, low in pairwise(piece.rows.rows))
    assert piece.rows.rows[-1].bottom + thick["bottom"] + case["leg"] == case["height"]
    # across each row
    for row in piece.rows.rows:
        count = case["split"].get(row.number, 1)
        assert len(row.widths) == count
        assert len(set(row.widths)) == 1
        assert sum(row.widths) + thick["divider"] * (count - 1) == case["width"] - 2 * thick["side"]
    # and every vertical chain is there: openings, the case, the piece, its width, each split row
    assert len(piece.chains) == 4 + len(case["split"])


@steady
@given(cases())
def test_twice_the_design_is_twice_every_length(case):
    one, two = made_or_too_small(written(case)), made_or_too_small(written(case, factor=F(2)))
    if one is None:
        assert two is None
        return
    for a, b in zip(one.rows.rows, two.rows.rows, strict=True):
        assert (2 * a.opening, 2 * a.ideal, 2 * a.top, 2 * a.bottom) == (b.opening, b.ideal, b.top, b.bottom)
        assert tuple(2 * width for width in a.widths) == b.widths
    for a, b in zip(one.chains, two.chains, strict=True):
        assert 2 * a.whole == b.whole
    for a, b in zip(one.sizes, two.sizes, strict=True):
        assert a.name == b.name
        scaled = 1 if a.unit == "deg" or a.name.startswith("run on") else 2
        assert b.value == pytest.approx(scaled * a.value, rel=1e-12, abs=1e-12)
    for a, b in zip(one.legs, two.legs, strict=True):
        assert b.foot == pytest.approx([2 * x for x in a.foot], rel=1e-12)
        assert [x for corner in b.foot_corners for x in corner] == pytest.approx(
            [2 * x for corner in a.foot_corners for x in corner], rel=1e-12
        )


@steady
@given(cases())
def test_a_metric_design_and_its_exact_inch_twin_are_one_piece(case):
    metric = {**case, "unit": "mm"}
    one = made_or_too_small(written(metric))
    two = made_or_too_small(written(metric, unit="in", factor=1 / INCH))
    if one is None:
        assert two is None
        return
    for a, b in zip(one.rows.rows, two.rows.rows, strict=True):
        assert (a.opening, a.ideal, a.top, a.bottom) == tuple(x * INCH for x in (b.opening, b.ideal, b.top, b.bottom))
        assert a.widths == tuple(width * INCH for width in b.widths)
    for a, b in zip(one.legs, two.legs, strict=True):
        assert a.end_cut.axis_length == pytest.approx(b.end_cut.axis_length * 25.4, rel=1e-12)
        assert a.end_cut.blank_length == pytest.approx(b.end_cut.blank_length * 25.4, rel=1e-12)
        assert a.foot == pytest.approx([x * 25.4 for x in b.foot], rel=1e-12)
        assert a.end_cut.side_down.tilt_deg == pytest.approx(b.end_cut.side_down.tilt_deg, abs=1e-9)
    assert one.rows.closed.steps_never_shrink == two.rows.closed.steps_never_shrink


# The rule of each size, worked out again from its own words

NUMBER = r"\d+[\u202f ]\d+/\d+|\d+/\d+|\d+\.\d+|\d+"


def number(text):
    whole, _, part = text.replace("\u202f", " ").rpartition(" ")
    return F(whole or 0) + F(part)


def added_up(rule):
    """Both sides of a plain sum, exactly: products before sums, one division at the end."""
    left, sign, right = re.match(rf"({NUMBER}) ([=≈]) (.*)", rule).groups()
    inner, share = re.fullmatch(r"\(?(.*?)\)?(?: / (\d+))?", right).groups()
    total = F(0)
    for minus, times, value in re.findall(rf"(?:^|([+-]) )(?:(\d+) x )?({NUMBER})(?: [a-z]+)?", inner):
        total += (-1 if minus == "-" else 1) * int(times or 1) * number(value)
    return number(left), sign, total / int(share or 1)


def plain_sums(piece):
    return [size for size in piece.sizes if not size.formula and re.search("[=≈]", size.rule)]


@pytest.mark.parametrize("name", ["landing_chest", "landing_chest_inch"])
def test_every_plain_sum_of_a_demo_adds_up_as_printed(name):
    piece = read_piece(DESIGNS / f"{name}.yaml")
    sums = plain_sums(piece)
    assert len(sums) == 5  # case height, inside width, inside height, clear height, the split row
    for size in sums:
        left, sign, right = added_up(size.rule)
        assert sign == "="
        assert left == right == size.value, size.rule


@steady
@given(cases())
def test_every_plain_sum_adds_up_as_printed_or_says_that_it_is_rounded(case):
    piece = made_or_too_small(written(case))
    if piece is None:
        return
    step = F(1, 10) if case["unit"] == "mm" else F(1, 32)
    for size in plain_sums(piece):
        left, sign, right = added_up(size.rule)
        assert abs(left - size.value) <= step / 2
        if sign == "=":
            assert left == right == size.value, size.rule
        else:
            assert left != size.value or right != size.value, size.rule
            terms = len(re.findall(NUMBER, size.rule)) * 10
            assert abs(left - right) <= step / 2 * terms


@steady
@given(cases())
def test_a_chain_that_is_printed_with_an_equals_sign_closes_as_printed(case):
    piece = made_or_too_small(written(case))
    if piece is None:
        return
    for chain in piece.chains:
        text = str(chain)
        if " = " in text:
            links, _, whole = text.partition(" = ")
            assert sum(map(number, links.split(" + "))) == number(whole), text


def worked_out(rule):
    """The right side of a formula's rule, by the math module."""
    right = re.split(" [=≈] ", rule, maxsplit=1)[1].replace("°", "")
    if right.startswith(("splay", "rake")):
        return float(right.split()[1])
    right = re.sub(r"(\d+)[\u202f ](\d+/\d+)", r"(\1 + \2)", right)
    right = re.sub(r"\btan² (-?[\d.]+)", r"tan(\1) ** 2", right)
    right = re.sub(r"\b(tan|cos) (-?[\d.]+)", r"\1(\2)", right)
    right = right.replace(" x ", " * ").replace("atan sqrt(", "atan_sqrt(")
    in_degrees = {
        "tan": lambda a: math.tan(math.radians(a)),
        "cos": lambda a: math.cos(math.radians(a)),
        "asin": lambda x: math.degrees(math.asin(x)),
        "atan2": lambda y, x: math.degrees(math.atan2(y, x)),
        "atan_sqrt": lambda x: math.degrees(math.atan(math.sqrt(x))),
    }
    return eval(right, {"__builtins__": {}}, in_degrees)


@pytest.mark.parametrize("name", ["landing_chest", "landing_chest_inch"])
def test_every_formula_of_a_demo_gives_what_is_printed(name):
    piece = read_piece(DESIGNS / f"{name}.yaml")
    formulas = [size for size in piece.sizes if size.formula and " = " in size.rule]
    assert len(formulas) >= 4 * 14
    # printed to 0.1 mm, 1/32 in and 0.01 degrees: half a step each for the two or three numbers in a rule
    half = {"mm": 0.05, "in": 1 / 64, "deg": 0.005}
    for size in formulas:
        assert worked_out(size.rule) == pytest.approx(float(size.value), abs=3 * half[size.unit]), size.rule


def test_a_lean_named_another_way_is_not_called_what_the_design_gives():
    text = (DESIGNS / "landing_chest.yaml").read_text()
    named = text.replace("front left: {rake: 8, splay: 6}", "front left: {total lean: 10, sight line: 37}")
    rules = {size.name: size.rule for size in made(named).sizes if size.name.endswith("front left leg")}
    given = {name for name, rule in rules.items() if "as the design gives it" in rule}
    assert given <= {"total lean, front left leg", "sight line, front left leg"}


# Chains and sums by themselves


def test_a_chain_that_does_not_close_shows_itself_and_what_is_over():
    links = (Term(F(20), "side"), Term(F(3, 2), "inside", 2), Term(F(20), "side"))
    assert str(closed_chain("width", "mm", links, F(43))) == "20 + 3 + 20 = 43"
    with pytest.raises(DesignError, match=r"20 \+ 3 \+ 20 = 43, not 44; 1 too little: change one"):
        closed_chain("width", "mm", links, F(44))
    with pytest.raises(DesignError, match=r"20 \+ 3 \+ 20 = 43, not 42\.5; 0\.5 too much: change one"):
        closed_chain("width", "mm", links, F(85, 2))


def test_a_chain_that_is_out_by_less_than_can_be_written_still_says_so():
    links = (Term(F(1, 3), "a"), Term(F(1, 3), "b"))
    with pytest.raises(DesignError) as caught:
        closed_chain("width", "mm", links, F(7, 10))  # 2/3 against 0.7: 1/30 too little
    sentence = str(caught.value)
    assert "0.7, not 0.7" not in sentence
    assert "; 0 too" not in sentence


def test_a_sum_that_cannot_be_written_exactly_says_so():
    exact = sum_size("width", "mm", (Term(F(480)), Term(F(-18), "divider", 2)), share=3)
    assert (exact.value, exact.rule) == (148, "148 = (480 - 2 x 18 divider) / 3")
    rounded = sum_size("width", "mm", (Term(F(481)), Term(F(-18), "divider", 2)), share=3)
    assert (rounded.value, rounded.rule) == (F(445, 3), "148.3 ≈ (481 - 2 x 18 divider) / 3")
