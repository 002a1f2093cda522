"""The card of a turned leg's blank: its figures worked from the design alone, its strokes measured, its words.

A leg that leans by rake and splay has an axis of height x sqrt(1 + tan² rake + tan² splay). A level cut is a plane
at the total lean a to square across: it meets the line that the leg's edge is, r = d/2 + k u / 2, where u = r tan a.
"""

from __future__ import annotations

import math
import re
from functools import cache

import pytest
from pictures import ROOT
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on
from turned_pieces import every_layout, every_turned, size_of, turned_piece

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Dimension, Stroke
from furnlib.draw.plates.blank_card import blank_plate, longest_blank
from furnlib.draw.plates.turned_groups import turned_groups
from furnlib.draw.plates.views import written
from furnlib.plan.piece import read_piece
from furnlib.trade.cautions import LATHE, MACHINE

ROOT_2 = math.sqrt(2)


@cache
def plates(name):
    made = turned_piece(name)
    return [blank_plate(made, number=number) for number, _ in enumerate(turned_groups(made), 1)]


def joined(plate):
    """The words of a plate in one line, folded ones with a single space."""
    return re.sub(" +", " ", " ".join(words_on(plate)))


def row(plate, name):
    """The figure beside a name in the table."""
    words = words_on(plate)
    return words[words.index(name, words.index("the blank")) + 1]


def tan(angle):
    return math.tan(math.radians(angle))


def circles(plate):
    return {arc.kind: arc for arc in plate.items if isinstance(arc, Arc) and arc.end_deg - arc.start_deg == 360}


# Layout


@every_layout
def test_words_stand_clear_and_every_sheet_holds_its_blank(name):
    check_layout(turned_piece(name), plates(name))
    check_words(plates(name))


@pytest.mark.parametrize(
    "name", ["three", *(pytest.param(one, marks=pytest.mark.slow) for one in ("chest, inch", "a long name"))]
)
def test_the_words_of_a_whole_sheet_stand_clear(name):
    check_whole_sheets(turned_piece(name), plates(name))


def test_there_is_a_blank_for_each_length_of_turned_leg():
    assert [plate.name for plate in plates("three")] == ["Blank 1", "Blank 2"]
    assert [plate.name for plate in plates("plumb")] == ["Blank"]
    square = read_piece(ROOT / "notebooks/designs/practice_stool.yaml")
    with pytest.raises(DesignError, match="has no blank card 1, it has 0"):
        blank_plate(square)
    with pytest.raises(DesignError, match="has no blank card 3, it has 2"):
        blank_plate(turned_piece("three"), number=3)


# Figures


@pytest.mark.parametrize(
    ("name", "side", "words"),
    [
        ("chest", 48, "Side: the square itself is the blank, 48."),
        ("three", 30 + 2 * 3 + 2 * (1 + 0.5), "Side: 36 largest + 2 x (1 roughing + 0.5 centring) = 39 at least."),
        ("four, inch", 1.375 + 2 / 16, "³⁄₈ largest + 2 x (¹⁄₃₂ roughing + ¹⁄₃₂ centring) = 1\u202f¹⁄₂ at least."),
        ("nearly as thick as its square", 48, "Side: the square itself is the blank, 48."),
    ],
)  # fmt: skip
def test_side_swing_and_eight_sides_follow_from_the_largest_diameter(name, side, words):
    for plate in plates(name):
        unit = turned_piece(name).design.unit
        assert row(plate, "side") == written(side, unit)
        assert row(plate, "corner swing") == written(side * ROOT_2, unit)
        assert row(plate, "octagon gauge") == written(side * (1 - 1 / ROOT_2), unit)
        assert row(plate, "each of eight") == written(side * (ROOT_2 - 1), unit)
        assert words in joined(plate)


def past(diameter, taper, tan_lean):
    """How far the cut goes past the axis, stepped towards where plane and edge meet."""
    u = 0.0
    for _ in range(200):
        u = (diameter / 2 + taper / 2 * u) * tan_lean
    return u


def test_the_lengths_of_the_chests_blanks_by_hand():
    # front: 24 (tan 8 + tan 6) past the axis at the square top; below, the taper falls 10 in what 74 leave of the leg
    for plate, (rake, splay) in zip(plates("chest"), ((8, 6), (0, 6)), strict=True):
        lean = math.hypot(tan(rake), tan(splay))
        axis = 151 * math.hypot(1, lean)
        top, foot = 24 * (tan(rake) + tan(splay)), past(28, -10 / (axis - 74), lean)
        assert row(plate, "length") == written(axis + top + foot + 2 * (15 + 3), "mm", round_up=True)
        above, leg, below = (written(size, "mm") for size in (top, axis, foot))
        assert f"{above} end cut + {leg} leg + {below} end cut" in joined(plate)


def test_the_lengths_of_the_stools_blanks_by_hand():
    # a tenon of 25 through a seat of 40, all at the total lean; the last taper takes what the others leave
    for plate, (rake, splay) in zip(plates("three"), ((8, 14), (18, 0)), strict=True):
        lean = math.hypot(tan(rake), tan(splay))
        share = math.hypot(1, lean)
        foot = past(22, -10 / (420 * share - 150 - 3 * 14), lean)
        length = 460 * share + past(25, 0, lean) + foot + 2 * (15 + 3)
        assert row(plate, "length") == written(length, "mm", round_up=True)


@every_turned
def test_the_chain_closes_as_printed(name):
    for plate, group in zip(plates(name), turned_groups(turned_piece(name)), strict=True):
        said = re.search(r"Length: (.+?) = ([^.=]+(?:\.\d)?)\.", joined(plate))
        members = [re.fullmatch(r"(\D*[^a-z]+?) [a-z ]+", member)[1] for member in said[1].split(" + ")]
        assert sum(map(size_of, members)) == size_of(said[2])
        assert said[2] == row(plate, "length")
        made = longest_blank(group)
        assert all(size_of(member) > 0 for member in members)
        assert float(size_of(said[2])) == pytest.approx(float(made.blank.length), abs=0.101)
        assert float(size_of(said[2])) >= float(made.blank.length) - 1e-9


@every_turned
def test_the_blank_of_a_group_is_long_enough_for_all_its_legs(name):
    for plate, group in zip(plates(name), turned_groups(turned_piece(name)), strict=True):
        assert all(float(size_of(row(plate, "length"))) >= leg.turned.blank.length - 1e-6 for leg in group)


def test_so_many_are_made_that_enough_come_good():
    # three good ones of nine in ten each, 0.95 sure: of four they come in 0.9477, of five in 0.9914
    def chance(made, needed):
        return sum(math.comb(made, k) * 0.9**k * 0.1 ** (made - k) for k in range(needed, made + 1))

    assert chance(4, 3) < 0.95 < chance(5, 3)
    assert "Make 5 blanks for 3 legs" in joined(plates("three")[0])
    assert chance(4, 4) < 0.9 < chance(5, 4)
    assert "Make 5 blanks for 4 legs" in joined(plates("chest")[0])
    assert "Make 3 blanks for 3 legs" in joined(plates("own speed")[0])
    assert "of the legs come from these" in joined(plates("three")[0])
    assert "of the legs come from these" not in joined(plates("plumb")[0])


def test_the_wood_is_named_or_said_to_be_missing():
    assert "Wood: white ash;" in joined(plates("three")[0])
    assert "Wood: not named in the design;" in joined(plates("four")[0])


# Strokes


@every_turned
def test_the_circles_and_the_octagon_are_true_to_one_another(name):
    for plate, group in zip(plates(name), turned_groups(turned_piece(name)), strict=True):
        made, drawn = longest_blank(group), circles(plate)
        side = float(made.blank.side)
        factor = drawn["hidden"].radius / (side / ROOT_2)
        assert drawn["visible"].radius == pytest.approx(factor * float(made.diameters.largest) / 2)
        assert drawn["visible"].radius <= drawn["thin"].radius <= factor * side / 2 * (1 + 1e-9)
        (octagon,) = (mark.points for mark in plate.items if isinstance(mark, Stroke) and mark.kind == "compared")
        sides = [math.dist(a, b) for a, b in zip(octagon, (*octagon[1:], octagon[0]), strict=True)]
        assert sides == pytest.approx([factor * side * math.tan(math.pi / 8)] * 8)
        written_scale = re.search(r"End grain from the top end, (?:(2) : 1|1 : ([\d.]+))", joined(plate))
        one = 1.0 if plate.unit == "mm" else 25.4
        ratio = 2 if written_scale[1] else 1 / float(written_scale[2])
        assert factor * plate.scale == pytest.approx(ratio * one)


@pytest.mark.parametrize(
    ("name", "lines", "off"), [("three", (8, -8), 4.5), ("five plies", (13.5, 4.5, -4.5, -13.5), 3), ("chest", (), 0)]
)
def test_glue_lines_lie_at_their_distances_from_the_axis(name, lines, off):
    plate = plates(name)[0]
    (_, up), radius = circles(plate)["hidden"].centre, circles(plate)["hidden"].radius
    side = float(turned_piece(name).legs[0].turned.blank.side)
    factor = radius / (side / ROOT_2)
    strokes = [mark.points for mark in plate.items if isinstance(mark, Stroke) and mark.kind == "cut"]
    ends = [points for points in strokes if points[0][1] < -side / 2 - 1]  # below the stick
    found = {round((points[0][1] - up) / factor, 6) for points in ends}
    assert found == set(lines)
    for line in lines:
        assert f"glue line {written(abs(line), 'mm')} from the axis" in words_on(plate)
    assert words_on(plate).count(f"{written(off, 'mm')} planed off") == (2 if lines else 0)


def test_the_stick_is_measured_over_all_and_from_cut_to_cut():
    for plate in plates("three"):
        measured = {item.words: abs(item.end[0] - item.start[0]) for item in plate.items if isinstance(item, Dimension)}
        for words in (row(plate, "length"), re.search(r"(\S+) leg \+", joined(plate))[1]):
            assert measured[words] == pytest.approx(float(size_of(words)), abs=0.1)


# Cautions and formulas


@every_turned
def test_cautions_stand_beside_it_and_a_glued_blank_is_to_cure(name):
    for plate in plates(name):
        words = joined(plate)
        assert all(caution in words for caution in MACHINE)
        glued = "Glued up:" in words
        assert glued == ("plies.lines" in plate.formulas) == (LATHE[-1] in words)
        assert ("No glue line on the centre" in words) == glued
        assert "fully cured" in LATHE[-1]
    assert any("glue line" in words for words in words_on(plates("three")[0]))
