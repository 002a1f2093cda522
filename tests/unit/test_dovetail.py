"""Dovetails: rows that fill the side, outlines that tile the corner, grooves by points, boards turned as vectors."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction as F

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.teach.derive.dovetail import derive_dovetail
from furnlib.trade.drawer.dovetail import (
    Layout,
    Tail,
    back_layout,
    edge_at_stop,
    groove_place,
    hand_layout,
    jig_layout,
    jig_tail,
    tail_width,
    weak_places,
)

steady = settings(deadline=None, derandomize=True, max_examples=25)
sixteenths = st.integers(1, 16).map(lambda n: F(n, 16))
HAND = {"height": F(33, 8), "tails": 4, "half_pin": F(3, 8), "gap": F(1, 4), "depth": F(1, 2)}
JIG = {"height": F(200), "jig_pitch": F(20), "pin_width": F(6), "depth": F(14)}


def area(outline):
    """Of a polygon, by its corners."""
    return abs(sum(a * d - b * c for (a, b), (c, d) in zip(outline, outline[1:] + outline[:1], strict=True))) / 2


def holds(outline, place):
    """Whether a point lies inside a convex outline."""
    signs = {
        (c - a) * (place[1] - b) - (d - b) * (place[0] - a) > 0
        for (a, b), (c, d) in zip(outline, outline[1:] + outline[:1], strict=True)
    }
    return len(signs) == 1


def as_floats(outline):
    return tuple((float(a), float(b)) for a, b in outline)


def widths(layout):
    return [end - start for start, end in layout.tails]


def stepped(height, tails, half_pin, gap):
    """Tails found with a pair of dividers: the setting that steps from one half pin to the other, by halving."""
    low, high = F(0), height
    for _ in range(60):
        setting = (low + high) / 2
        place = half_pin
        for _ in range(tails):
            place += setting + gap
        low, high = (setting, high) if place - gap < height - half_pin else (low, setting)
    return low


def test_four_tails_in_four_and_an_eighth_by_hand():
    """4 1/8 less two half pins of 3/8 and three gaps of 1/4 is 2 5/8; a quarter of that is 21/32."""
    made = hand_layout(**HAND)
    assert widths(made) == [F(21, 32)] * 4
    assert made.half_pins == (F(3, 8), F(3, 8))
    assert made.gaps == (F(1, 4),) * 3
    assert made.tails[1] == (F(41, 32), F(62, 32))  # 3/8 + 21/32 + 1/4 down
    # half an inch long at 1 in 7: a fourteenth off each edge
    assert made.roots[0] == (F(3, 8) + F(1, 14), F(3, 8) + F(21, 32) - F(1, 14))


@pytest.mark.parametrize("tails", [1, 2, 5])
def test_tails_by_stepping_with_dividers(tails):
    width = tail_width(F(120), tails, F(5), F(4))
    assert float(width) == pytest.approx(float(stepped(F(120), tails, F(5), F(4))), rel=1e-15)


@steady
@given(st.integers(1, 8), sixteenths, sixteenths, sixteenths, st.sampled_from([None, F(1, 32), F(1, 16)]))
def test_half_pins_tails_and_gaps_fill_the_side(tails, half_pin, gap, each, grid):
    """On a grid: gaps and half pins keep their sizes, tails begin on whole steps, none is a whole step off."""
    height = 2 * half_pin + tails * (each + F(1, 3)) + (tails - 1) * gap
    made = hand_layout(height, tails, half_pin, gap, F(1, 2), grid=grid)
    assert len(made.tails) == tails
    assert made.half_pins == (half_pin, half_pin)
    assert made.gaps == (gap,) * (tails - 1)
    assert sum(made.half_pins) + sum(made.gaps) + sum(widths(made)) == height
    equal = tail_width(height, tails, half_pin, gap)
    if grid is None:
        assert widths(made) == [equal] * tails
    else:
        assert all(((start - half_pin) / grid).denominator == 1 for start, _ in made.tails)
        assert max(abs(width - equal) for width in widths(made)) < grid
        ideal = [half_pin + i * (equal + gap) for i in range(tails)]
        assert max(abs(tail.start - place) for tail, place in zip(made.tails, ideal, strict=True)) <= grid / 2


@pytest.mark.parametrize("pitches", [4, 5, 6, 7, 8, 9, 10])
def test_a_jig_cuts_whole_pitches_with_half_a_pin_at_both_edges(pitches):
    """The landing chest's sides, 80 to 200: a tail of 14 in each pitch of 20, a pin of 6 cut in half at the edges."""
    made = jig_layout(20 * pitches, 20, 6, 14)
    marks = [20 * i + offset for i in range(pitches) for offset in (3, 17)]
    assert [place for tail in made.tails for place in tail] == marks
    assert (made.half_pins, set(made.gaps)) == ((3, 3), {6})
    inch = jig_layout(F(3, 4) * pitches, F(3, 4), F(1, 4), F(1, 2))
    assert (len(inch.tails), inch.half_pins) == (pitches, (F(1, 8), F(1, 8)))


@steady
@given(st.integers(1, 9), st.integers(8, 30), st.integers(0, 8), st.integers(0, 8))
def test_a_jig_with_other_offsets(tails, pitch, first, last):
    pin = F(pitch, 3)
    first, last = (F(pitch, 2) + offset for offset in (first, last))
    height = first + (tails - 1) * pitch + last
    made = jig_layout(height, F(pitch), pin, F(1), first_offset=first, last_offset=last)
    assert len(made.tails) == tails
    assert made.half_pins == (first - (pitch - pin) / 2, last - (pitch - pin) / 2)
    assert set(made.gaps) <= {pin}


def test_floats_come_near_the_exact_layout():
    loose = jig_layout(4.5, 0.75, 0.25, 0.5)
    exact = jig_layout(F(9, 2), F(3, 4), F(1, 4), F(1, 2))
    assert np.array(loose.tails, float) == pytest.approx(np.array(exact.tails, float), rel=1e-15)
    drifted = jig_layout(0.1 * 3 * 20, 2.0, 0.5, 1.0)  # 6.000000000000001 is three pitches of 2
    assert len(drifted.tails) == 3


@pytest.mark.parametrize(
    "layout", [hand_layout(**HAND), jig_layout(**JIG), back_layout(jig_layout(**JIG), F(2), F(16), F(12))]
)
def test_tails_and_waste_tile_the_end_of_the_side(layout):
    """Areas add up, no point is in two pieces, and the edges run off by the slope."""
    tails, waste = layout.tail_outlines, layout.waste_outlines
    assert len(waste) == len(tails) + 1
    assert sum(map(area, tails)) + sum(map(area, waste)) == layout.height * layout.depth
    chance = random.Random(7)
    pieces = [as_floats(outline) for outline in (*tails, *waste)]
    for _ in range(300):
        place = (float(layout.height) * chance.random(), float(layout.depth) * chance.random())
        assert sum(holds(piece, place) for piece in pieces) == 1
    for (a, _), (b, _), (c, deep), (d, _) in tails:
        assert (d - a, b - c, deep) == (layout.slope * layout.depth,) * 2 + (layout.depth,)
        assert c - d < b - a  # widest at the end of the side


def test_gaps_are_narrowest_at_the_end_of_the_side():
    made = hand_layout(**HAND)
    between = [below.start - above.end for above, below in zip(made.roots, made.roots[1:], strict=False)]
    assert all(root > end for root, end in zip(between, made.gaps, strict=True))


def test_a_groove_by_points_along_the_corner():
    """Grooves over the corner's outlines: points along the whole tail and from edge to edge, just inside the groove."""
    layout = jig_layout(F(60), F(20), F(6), F(14))
    tails = [as_floats(outline) for outline in layout.tail_outlines]
    seen = set()
    for up, wide in ((F(3 * u, 4) + F(1, 8), w + F(1, 16)) for u in range(60) for w in (1, 3, 8, 10)):
        place = groove_place(layout, up, wide, F(6), F(12))
        shown = groove_place(layout, up, wide, F(6), F(12), through=True)
        downs = np.linspace(float(60 - up - wide) + 1e-6, float(60 - up) - 1e-6, 9)
        held = {
            next((n for n, outline in enumerate(tails, 1) if holds(outline, (down, into))), None)
            for down in downs
            for into in (1e-6, 7, 14 - 1e-6)
        }
        if len(held) == 1 and None not in held:
            assert (place.where, place.tail) == ("in a tail", *held)
            # moved by its room it still lies in the tail, by more it does not
            for step, there in ((place.room, True), (place.room + F(1, 100), False)):
                both = [groove_place(layout, up + d, wide, F(6), F(12)) for d in (-step, step)]
                assert all(found.tail == place.tail for found in both) == there
            assert (place.plug, shown.plug) == (None, (wide, 6, 14))
        else:
            assert (place.tail, place.room) == (None, 0)
            assert place.where == ("in a pin" if held == {None} else "across")
            assert place.plug == shown.plug == (wide, 6, 12)
        seen.add(place.where)
    assert seen == {"in a tail", "in a pin", "across"}


def test_the_chests_groove_by_hand():
    """10 up and 6 wide lies 184 to 190 down a side of 200; the last tail 183 to 197, at its root 185 to 195."""
    made = jig_layout(**JIG)
    place = groove_place(made, F(10), F(6), F(6), F(12))
    assert place.where == "across"  # the root begins at 185
    lower = groove_place(made, F(8), F(6), F(6), F(12))
    assert (lower.where, lower.tail, lower.room, lower.plug) == ("in a tail", 10, 1, None)
    slender = groove_place(jig_layout(**JIG | {"pin_width": F(4)}), F(10), F(6), F(6), F(12))
    assert (slender.where, slender.room) == ("in a tail", 0)  # a pin of 4: its root begins at 184


def test_the_back_takes_the_tails_it_reaches():
    """Pins of 8 on a pitch of 20: tails from 4 to 16. A back from 2 down to 16 above the side's lower edge."""
    side = jig_layout(80, 20, 8, 14)
    back = back_layout(side, 0, 16, 12)
    assert (back.height, back.depth) == (64, 12)
    assert [tuple(tail) for tail in back.tails] == [(4, 16), (24, 36), (44, 56)]
    lower = back_layout(side, 2, 10, 12)
    assert [tuple(tail) for tail in lower.tails] == [(2, 14), (22, 34), (42, 54), (62, 68)]
    assert lower.half_pins == (2, 0)
    for side_thickness in (12, 4):  # however thin the side, a tail that the edge cuts into has no half pin
        assert "thin half pin: 0" in [weak.number for weak in weak_places(lower, side_thickness)]


@steady
@given(st.integers(0, 30), st.integers(0, 60))
def test_the_tails_of_a_back_are_the_wood_of_the_side_that_it_covers(drop, floor):
    side = jig_layout(F(120), F(20), F(8), F(14))
    back = back_layout(side, F(drop), F(floor), F(1))
    for place in (F(2 * n + 1, 8) for n in range(4 * 120)):
        inside_side = any(a < place < b for a, b in side.tails)
        covered = drop < place < 120 - floor
        assert any(a < place - drop < b for a, b in back.tails) == (inside_side and covered)


SOUND = (hand_layout(**HAND), F(1, 2), F(1, 4), F(1, 4))


def test_a_sound_corner_has_no_weak_place():
    assert weak_places(*SOUND) == ()
    assert weak_places(jig_layout(**JIG), F(12), F(6)) == ()
    assert weak_places(SOUND[0], F(1, 2)) == ()  # through, cut by machine: neither lap nor chisel


@pytest.mark.parametrize(
    ("change", "side", "lap", "chisel", "code", "number"),
    [
        ({"half_pin": F(1, 16)}, F(1, 2), F(1, 4), F(1, 4), "thin half pin", F(1, 16)),
        ({"tails": 6}, F(1, 2), F(1, 4), None, "narrow tail", F(17, 48) - F(1, 7)),
        ({"slope": F(1, 5)}, F(1, 2), F(1, 4), F(1, 4), "steep slope", F(1, 5)),
        ({"slope": F(1, 9)}, F(1, 2), F(1, 4), F(1, 4), "flat slope", F(1, 9)),
        ({}, F(1, 2), F(0), F(1, 4), "lap gone", 0),
        ({}, F(1, 2), F(-1, 8), F(1, 4), "lap gone", F(-1, 8)),
        ({}, F(1, 2), F(7, 64), F(1, 4), "thin lap", F(7, 64)),  # a fifth of a front of 39/64 is more
        ({}, F(1, 2), F(1, 4), F(5, 16), "gap under chisel", F(1, 4)),
        ({"tails": 1, "half_pin": F(7, 4)}, F(1, 2), F(1, 4), F(1, 2), "tail under chisel", F(5, 8) - F(1, 7)),
    ],
)
def test_each_weak_place_is_said_with_number_reason_and_cures(change, side, lap, chisel, code, number):
    (weak,) = weak_places(hand_layout(**HAND | change), side, lap, chisel, "in")
    assert weak.code == code.replace(" ", "_")
    assert weak.number == f"{code}: {said(code, number)}"
    assert weak.reason
    assert weak.cures
    assert not weak.reason.endswith(".")


def said(code, number):
    """The number as it is read off a rule, in thirty-seconds, sixty-fourths kept; of a slope, its run."""
    if "slope" in code:
        return f"1 in {1 / number}"
    steps = number if F(number).denominator == 64 else F(round(number * 32), 32)
    return str(steps) if steps >= 0 else f"-{-steps}"


def test_the_usual_slopes_are_all_right():
    for run in (6, 7, 8):
        assert weak_places(hand_layout(**HAND, slope=F(1, run)), F(1, 2), F(1, 4)) == ()


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("end", ["front", "rear"])
def test_edges_at_the_stops_by_turning_the_boards(side, end):
    """A side as it stands in the drawer, turned until its end is up and its inside face looks at the maker.

    x to the right, y to the front, z up, for the drawer seen from its front and for the maker at the jig.
    """
    x, y, z = np.eye(3)
    inner = x if side == "left" else -x
    top_end = y if end == "front" else -y
    turned = np.column_stack([y, z, np.cross(y, z)]) @ np.linalg.inv(
        np.column_stack([inner, top_end, np.cross(inner, top_end)])
    )
    assert np.linalg.det(turned) == pytest.approx(1)  # a turn, no mirror
    upper_edge = turned @ z
    assert abs(upper_edge @ x) == pytest.approx(1)
    assert edge_at_stop(side, end) == ("right" if upper_edge @ x > 0 else "left")


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: hand_layout(**HAND | {"tails": 0}), r"0 tails do not hold a corner"),
        (lambda: hand_layout(**HAND | {"gap": 0}), r"The gap is 0; it must be more than 0"),
        (lambda: hand_layout(**HAND | {"height": float("nan")}), r"The height is nan"),
        (lambda: hand_layout(**HAND | {"half_pin": 3}), r"The width of a tail at its root is .* must be more than 0"),
        (lambda: hand_layout(**HAND | {"slope": F(2, 3)}), r"The width of a tail at its root is -1/96"),
        (lambda: hand_layout(**HAND | {"slope": -1}), r"The slope is -1; it must be 0 or more"),
        (lambda: hand_layout(**HAND, grid=0), r"The grid is 0"),
        (lambda: hand_layout(**HAND | {"depth": 0}), r"The depth of the joint is 0"),
        (lambda: jig_layout(**JIG | {"height": 190}), r"A side of 190 has 8.5 pitches .* a jig cuts whole ones"),
        (lambda: jig_layout(**JIG | {"height": 10}), r"A side of 10 has -0.5 pitches"),
        (
            lambda: jig_layout(**JIG | {"height": 10}, first_offset=15, last_offset=15),
            r"No tail is left in a height of 10",
        ),
        (lambda: jig_layout(**JIG | {"pin_width": 20}), r"The width of a tail at its root is -4"),
        (lambda: jig_layout(**JIG, first_offset=5, last_offset=15), r"The half pin is -2; it must be 0 or more"),
        (lambda: back_layout(jig_layout(**JIG), 0, 197, 12), r"No tail is left in a height of 3: make it higher"),
        (lambda: groove_place(jig_layout(**JIG), 196, 6, 6, 12), r"The groove lies from -2 to 4 in a side of 200"),
        (lambda: groove_place(jig_layout(**JIG), -1, 6, 6, 12), r"The groove lies from 195 to 201"),
        (lambda: hand_layout(**HAND | {"tails": 2.5}), r"2.5 tails do not hold a corner"),
        (lambda: hand_layout(**HAND | {"tails": float("nan")}), r"nan tails do not hold a corner"),
        (lambda: hand_layout(**HAND | {"slope": "steep"}), r"The slope is steep; it must be an ordinary number"),
        (lambda: jig_layout(**JIG, first_offset=float("nan")), r"The first offset is nan"),
        (lambda: jig_layout(**JIG, last_offset=float("inf")), r"The last offset is inf"),
        (lambda: back_layout(jig_layout(**JIG), -5, 16, 12), r"The drop is -5; it must be 0 or more"),
        (lambda: back_layout(jig_layout(**JIG), 0, float("nan"), 12), r"The floor's height is nan"),
        (lambda: back_layout(jig_layout(**JIG), 0, 16, "thin"), r"The depth of the joint is thin"),
        (lambda: groove_place(jig_layout(**JIG), float("nan"), 6, 6, 12), r"The height of the groove is nan"),
        (lambda: groove_place(jig_layout(**JIG), 6, 6, -6, 12), r"The groove's depth is -6; it must be more than 0"),
        (lambda: groove_place(jig_layout(**JIG), 6, 6, 6, "thick"), r"The side is thick"),
    ],
)
def test_what_cannot_be_cut_is_said(call, sentence):
    with pytest.raises(DesignError, match=sentence):
        call()


@pytest.mark.parametrize("claim", derive_dovetail().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    assert claim.difference == sympy.Integer(0)
    chance = random.Random(3)
    for _ in range(20):
        at = {name: F(chance.randint(1, 99), 8) for name in "hawpods"} | {"x_1": F(5, 8), "n": 3, "i": 2}
        expected = {
            "dovetail.tail_width": tail_width(at["h"], 3, at["a"], at["w"]),
            "dovetail.jig_tail": jig_tail(2, at["o"], at["p"], at["w"]).start,
            "dovetail.root": Layout(F(9), (Tail(at["x_1"], F(9)),), at["d"], at["s"]).roots[0].start,
        }[claim.key]
        values = {symbol: sympy.Rational(at[symbol.name]) for symbol in claim.derived.free_symbols}
        assert claim.derived.subs(values) == sympy.Rational(expected)


def test_a_trap_is_caught():
    """n gaps for n - 1, or the pin taken off once on each side: the proof does not hold."""
    derivation = derive_dovetail()
    width, tail = derivation["dovetail.tail_width"], derivation["dovetail.jig_tail"]
    w = next(symbol for symbol in width.running.free_symbols if symbol.name == "w")
    assert replace(width, running=width.running - w).difference != 0
    assert replace(tail, running=tail.running + w / 2).difference != 0
