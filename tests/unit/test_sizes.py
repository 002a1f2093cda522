"""Every derived size again, by another way: its rule added up from its own text, chains, scaling, units.

The witnesses: exact fractions for sums, read again from what is printed, and one design written in
another size or another unit. Formulas are worked out again in `test_rules`.
"""

from __future__ import annotations

import re
from fractions import Fraction as F
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from chance import by_chance, cases, made_or_refused, made_or_too_small, seats, written, written_seat
from hypothesis import Phase, given, settings
from printed_rules import NUMBER, number

from furnlib.base.guards import DesignError
from furnlib.base.terms import Term
from furnlib.plan.piece import read_piece
from furnlib.plan.sizes.size import closed_chain, sum_size

CHESTS = ("landing_chest", "landing_chest_inch")
DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
unshrunk = {"phases": (Phase.explicit, Phase.generate), "report_multiple_bugs": False}
steady = settings(deadline=None, derandomize=True, max_examples=60, **unshrunk)
INCH = F(254, 10)


# Every chain closes, every opening lies on the grid


@by_chance(cases(), **unshrunk)
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


@by_chance(cases(), **unshrunk)
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
        assert CUT_AT.sub("", a.name) == CUT_AT.sub("", b.name)
        if grown(a):
            assert b.value == pytest.approx(a.value * grown(a), rel=1e-12, abs=1e-12)
    check_legs(one.legs, two.legs, 2, 1e-12)


def grown(size):
    """How much more of it there is in a piece of twice the size: a gauge and a V-block stay as they are."""
    if size.name.startswith("rim speed"):
        return None  # at the speed of another band; worked out in `test_turned_legs`
    return 1 if size.unit in ("deg", "") or size.name.startswith(("run on", "rise of the wedge")) else 2


CUT_AT = re.compile("at [^,]*(?=, from the (flat|corner))")  # where a stop cut is made stands in its name


def told(piece):
    """What is to be settled, and of which leg; legs that share a figure as it is written are told together."""
    return {(concern.code, leg.position in concern.number and leg.position)
            for concern in piece.concerns for leg in piece.legs}  # fmt: skip


def check_legs(legs, others, factor, exact):
    """Whether legs are those of the other piece, so many times as large."""
    for a, b in zip(legs, others, strict=True):
        assert (b.lean.rake_deg, b.lean.splay_deg) == pytest.approx((a.lean.rake_deg, a.lean.splay_deg), abs=1e-9)
        for name in ("top", "foot", "top_corners", "foot_corners", "ring"):
            expected = factor * np.array(getattr(a, name))
            assert np.array(getattr(b, name)) == pytest.approx(expected, rel=exact, abs=exact * 1000), name
        for name in ("height", "axis_length", "rise_scatter"):
            assert float(getattr(b, name)) == pytest.approx(float(getattr(a, name)) * factor, rel=exact), name
        assert (a.fixing is None) == (b.fixing is None)
        for name in ("wander", "wall_front", "wall_side", "wall", "deepest") if a.fixing else ():
            expected = factor * getattr(a.fixing, name)
            assert getattr(b.fixing, name) == pytest.approx(expected, rel=exact, abs=exact * 1000), name


@pytest.mark.slow
@steady
@given(seats())
def test_twice_the_stool_is_twice_every_length(seat):
    one, two = made_or_refused(written_seat(seat)), made_or_refused(written_seat(seat, factor=F(2)))
    if one is None:
        assert two is None
        return
    assert [2 * chain.whole for chain in one.chains] == [chain.whole for chain in two.chains]
    for a, b in zip(one.sizes, two.sizes, strict=True):
        assert CUT_AT.sub("", a.name) == CUT_AT.sub("", b.name)
        if grown(a):
            assert b.value == pytest.approx(a.value * grown(a), rel=1e-9, abs=1e-9)
    check_legs(one.legs, two.legs, 2, 1e-9)
    assert told(one) == told(two)


@by_chance(cases(), **unshrunk)
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
    check_legs(two.legs, one.legs, 25.4, 1e-12)
    for a, b in zip(one.legs, two.legs, strict=True):
        assert a.end_cut.blank_length == pytest.approx(b.end_cut.blank_length * 25.4, rel=1e-12)
        assert a.end_cut.side_down.tilt_deg == pytest.approx(b.end_cut.side_down.tilt_deg, abs=1e-9)
    assert one.rows.closed.steps_never_shrink == two.rows.closed.steps_never_shrink


@pytest.mark.slow
@steady
@given(seats())
def test_a_metric_stool_and_its_exact_inch_twin_are_one_piece(seat):
    one = made_or_refused(written_seat({**seat, "unit": "mm"}))
    two = made_or_refused(written_seat({**seat, "unit": "in"}, factor=1 / INCH))
    if one is None:
        assert two is None
        return
    assert one.stand.heights == pytest.approx([float(height) * 25.4 for height in two.stand.heights], rel=1e-12)
    check_legs(two.legs, one.legs, 25.4, 1e-9)
    assert told(one) == told(two)


# Sums as they are printed (formulas are worked out in `test_rules`)


def added_up(rule):
    """Both sides of a plain sum, exactly: products before sums, one division at the end."""
    left, sign, right = re.match(rf"({NUMBER}) ([=≈]) (.*)", rule).groups()
    inner, share = re.fullmatch(r"\(?(.*?)\)?(?: / (\d+))?", right).groups()
    total = F(0)
    for minus, times, value in re.findall(rf"(?:^|([+-]) )(?:(\d+) x )?({NUMBER})(?: [a-z]+)?", inner):
        total += (-1 if minus == "-" else 1) * int(times or 1) * number(value)
    return number(left), sign, total / int(share or 1)


def plain_sums(piece):
    return [size for size in piece.sizes if size.unit and not size.formula and re.search("[=≈]", size.rule)]


@pytest.mark.parametrize("name", CHESTS)
def test_every_plain_sum_of_a_demo_adds_up_as_printed(name):
    piece = read_piece(DESIGNS / f"{name}.yaml")
    sums = plain_sums(piece)
    # case height, inside width, inside height, clear height, the split row, back; 7 openings and side heights; of 5
    # contents 3 each; of 7 drawers front and side length, back and bottom both ways, three ways inside
    assert len(sums) == 6 + 2 * 7 + 5 * 3 + 7 * 9
    for size in sums:
        left, sign, right = added_up(size.rule)
        assert sign == "="
        assert left == right == size.value, size.rule


@by_chance(cases(), **unshrunk)
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


@by_chance(cases(), **unshrunk)
def test_a_chain_that_is_printed_with_an_equals_sign_closes_as_printed(case):
    piece = made_or_too_small(written(case))
    if piece is None:
        return
    for chain in piece.chains:
        text = str(chain)
        if " = " in text:
            links, _, whole = text.partition(" = ")
            assert sum(map(number, links.split(" + "))) == number(whole), text


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
