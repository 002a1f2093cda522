"""What the brief asks of a piece: each content against the openings, the limits against the whole.

The chest has seven openings of 83, 103 ... 203, the first split in two of 231, the others 480 wide;
what a content needs is added up by hand beside each row.
"""

from __future__ import annotations

import random
from fractions import Fraction as F
from itertools import product
from pathlib import Path

import pytest
from faults import METRIC, edited

from furnlib.base.guards import DesignError
from furnlib.plan.design import design_of
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.plan.sizes.brief import brief_outlines

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
BRIEF = "brief:\n  room: 20\n  bottom: 8\n  walls: 26\n  contents:\n"
TWO_BANKS = """piece: Cabinet
unit: mm
grid: 1
overall: {height: 700, width: 1000, depth: 400}
case:
  side: 20
  top: 20
  bottom: 20
  divider: 20
  partition: 20
  bays:
    - {width: 300}
    - {rows: {number: 3, rule: own list, openings: [180, 200, 240]}}
rows: {number: 4, rule: own list, openings: [120, 140, 160, 180]}
"""
# inside 660: less 3 dividers 600 for the first bank, less 2 dividers 620 for the second; 1000 - 40 - 20 - 300 = 640


def made(text, *contents, brief=BRIEF):
    return piece_of(DesignText.parse(text + brief + "".join(f"    {content}\n" for content in contents)))


def only(piece):
    (place,) = piece.brief.places
    return place


def concerns(piece):
    codes = ("content_elsewhere", "content_nowhere", "outside_the_brief")
    return [concern for concern in piece.concerns if concern.code in codes]


PLACES = [
    # width, depth, height, row, spare: 28 more is needed up and 26 across
    (200, 250, 55, 1, 0),  # 83 x 226: fits to the hair
    (205, 250, 55, 1, 0),  # 231 wide too
    (206, 250, 55, 2, 20),  # 232 is too wide for half a row
    (200, 250, "55.5", 2, F(39, 2)),  # 83.5 is too high for the first
    (380, 280, 120, 5, 15),  # 148 in 163
    (454, 380, 175, 7, 0),  # 203 x 480, as deep as the case
]


@pytest.mark.parametrize(("width", "depth", "height", "row", "spare"), PLACES)
def test_a_content_goes_into_the_smallest_opening_that_takes_it(width, depth, height, row, spare):
    piece = made(METRIC, f"sheets: {{width: {width}, depth: {depth}, height: {height}}}")
    place = only(piece)
    assert (place.content, place.bank, place.row, place.spare) == ("sheets", 1, row, spare)
    assert (place.needed_height, place.needed_width) == (F(height) + 28, width + 26)
    assert concerns(piece) == []


def test_the_sums_are_shown_as_they_were_done():
    rules = {size.name: size.rule for size in made(METRIC, "sheets: {width: 380, depth: 280, height: 120}").sizes}
    assert rules["clear height for sheets"] == "148 = 120 sheets + 20 finger room + 8 bottom"
    assert rules["clear width for sheets"] == "406 = 380 sheets + 26 walls"
    assert rules["spare over sheets"] == "15 = 163 row 5 - 148 needed"
    bare = made(METRIC, "sheets: {width: 380, depth: 280, height: 120}", brief="brief:\n  room: 20\n  contents:\n")
    rules = {size.name: size.rule for size in bare.sizes}
    assert rules["clear height for sheets"] == "140 = 120 sheets + 20 finger room"
    assert rules["clear width for sheets"] == "380 = 380 sheets"


def test_a_content_that_is_meant_for_a_row_goes_there_though_a_smaller_one_would_take_it():
    place = only(made(METRIC, "gloves: {width: 200, depth: 250, height: 60, row: 3}"))
    assert (place.row, place.spare) == (3, 35)  # 88 in 123


ELSEWHERE = [
    # what it measures and its row, what the row lacks, which takes it
    ("{width: 200, depth: 250, height: 80, row: 2}", "row 2, which is meant for it, lacks 5 mm of height", "row 3"),
    ("{width: 210, depth: 250, height: 50, row: 1}", "row 1, which is meant for it, lacks 5 mm of width", "row 2"),
    ("{width: 210, depth: 250, height: 60, row: 1}", "lacks 5 mm of height and 5 mm of width", "row 2"),
]


@pytest.mark.parametrize(("content", "lacks", "other"), ELSEWHERE)
def test_a_row_that_does_not_take_what_is_meant_for_it(content, lacks, other):
    piece = made(METRIC, f"gloves: {content}")
    (concern,) = concerns(piece)
    assert (concern.code, concern.number) == ("content_elsewhere", "gloves")
    assert concern.reason.endswith(f"{lacks}; {other} would take it")
    assert concern.cures[0] == f"put it in {other}"
    assert (only(piece).bank, only(piece).row, only(piece).spare) == (None, None, None)


NOWHERE = [
    ("{width: 380, depth: 280, height: 185}", "row 7, the nearest, lacks 10 mm of height"),  # 213 in 203
    ("{width: 460, depth: 280, height: 30}", "the nearest, lacks 6 mm of width"),  # 486 in 480
    ("{width: 460, depth: 280, height: 185}", "row 7, the nearest, lacks 10 mm of height and 6 mm of width"),
    ("{width: 100, depth: 381, height: 30}", "the nearest, lacks 1 mm of depth"),
    ("{width: 100, depth: 381, height: 30, row: 4}", "row 4, which is meant for it, lacks 1 mm of depth"),
]


@pytest.mark.parametrize(("content", "lacks"), NOWHERE)
def test_what_no_opening_takes_is_said_with_what_is_missing(content, lacks):
    piece = made(METRIC, f"box: {content}")
    (concern,) = concerns(piece)
    assert (concern.code, concern.number) == ("content_nowhere", "box")
    assert concern.reason.startswith("no opening takes it; row ")
    assert concern.reason.endswith(lacks)
    assert only(piece).row is None


def test_of_two_banks_the_smallest_opening_of_either_is_taken():
    piece = made(
        TWO_BANKS,
        "low: {width: 200, depth: 300, height: 100}",  # 128 x 226: the 140 of the first bank
        "wide: {width: 500, depth: 300, height: 100}",  # 526: only the second bank is as wide
        "high: {width: 200, depth: 300, height: 152}",  # 180 in both: the narrower
        "meant: {width: 500, depth: 300, height: 100, row: 2}",  # in the second bank alone
        "fourth: {width: 500, depth: 300, height: 100, row: 4}",  # only the first has four
    )
    taken = {place.content: (place.bank, place.row, place.spare) for place in piece.brief.places}
    assert taken == {
        "low": (1, 2, 12),
        "wide": (2, 1, 52),
        "high": (1, 4, 0),
        "meant": (2, 2, 72),
        "fourth": (None, None, None),
    }
    (concern,) = concerns(piece)
    assert (
        concern.reason == "row 4 of bank 1, which is meant for it, lacks 226 mm of width; row 1 of bank 2 would take it"
    )
    assert "12 = 140 row 2 of bank 1 - 128 needed" in {size.rule for size in piece.sizes}


@pytest.mark.parametrize(("built", "row", "spare"), [(156, 5, 8), (147, 6, 35)])
def test_an_opening_counts_as_it_was_built(built, row, spare):
    measured = f"as built:\n  - {{openings: {{5: {built}}}}}\n"
    place = only(made(METRIC + measured, "sheets: {width: 380, depth: 280, height: 120}"))  # 148
    assert (place.row, place.spare) == (row, spare)


def test_among_many_contents_none_is_given_a_larger_opening_than_it_needs():
    draw, openings = random.Random(5), [(120 + 20 * i, 300) for i in range(4)] + [(h, 640) for h in (180, 200, 240)]
    wanted = [(draw.randint(1, 700), draw.randint(1, 230)) for _ in range(150)]
    piece = made(TWO_BANKS, *(f"c{i}: {{width: {w}, depth: 9, height: {h}}}" for i, (w, h) in enumerate(wanted)))
    for place, (w, h) in zip(piece.brief.places, wanted, strict=True):
        takers = [height for height, width in openings if height >= h + 28 and width >= w + 26]
        if takers:
            assert place.spare == min(takers) - h - 28
        else:
            assert place.spare is None
    assert len(concerns(piece)) == sum(place.row is None for place in piece.brief.places) > 0


LIMITS = [
    # limits, what is said of 1300 x 520 x 380
    (
        "height: {least: 1200, most: 1290}",
        "overall height 1300 mm",
        "it is 10 mm over the most that the brief sets, 1290 mm",
    ),
    (
        "width: {least: 521, most: 600}",
        "overall width 520 mm",
        "it is 1 mm under the least that the brief sets, 521 mm",
    ),
    (
        "depth: {least: 300, most: 379.5}",
        "overall depth 380 mm",
        "it is 0.5 mm over the most that the brief sets, 379.5 mm",
    ),
]


@pytest.mark.parametrize(("limits", "number", "reason"), LIMITS)
def test_a_piece_outside_its_limits_is_said_with_the_limit_that_binds(limits, number, reason):
    (concern,) = concerns(made(METRIC, brief=f"brief:\n  {limits}\n"))
    assert (concern.code, concern.number, concern.reason) == ("outside_the_brief", number, reason)


def test_a_piece_at_its_limits_is_inside_them():
    limits = "  height: {least: 1300, most: 1300}\n  width: {least: 520, most: 521}\n  depth: {least: 1, most: 380}\n"
    assert concerns(made(METRIC, brief=f"brief:\n{limits}")) == []


def test_without_a_brief_nothing_is_asked():
    piece = piece_of(DesignText.parse(METRIC))
    assert piece.brief is None
    assert concerns(piece) == []


@pytest.mark.parametrize("shop", ["", "_inch"])
@pytest.mark.parametrize("demo", ["landing_chest", "low_media_case", "abrasive_cabinet"])
def test_all_that_the_demo_pieces_are_to_hold_has_its_place(demo, shop):
    piece = read_piece(DESIGNS / f"{demo}{shop}.yaml")
    assert len(piece.brief.places) == len(piece.design.brief.contents) > 0
    assert all(place.row and place.spare >= 0 for place in piece.brief.places)
    assert concerns(piece) == []


# Outlines


ROOM = "brief:\n  height: {least: 1250, most: 1325}\n  width: {least: 480, most: 560}\n"


def designed(text, brief=""):
    return design_of(DesignText.parse(text + brief))


def test_outlines_keep_to_the_limits_and_to_the_grid_and_the_closest_comes_first():
    found = brief_outlines(designed(edited(METRIC, ("grid: 1", "grid: 5")), ROOM))
    assert 1 < len(found) <= 5
    assert len({outline.ratio.value for outline in found}) == len(found)
    for outline in found:
        assert 1250 <= outline.height <= 1325
        assert 480 <= outline.width <= 560
        assert outline.height % 5 == outline.width % 5 == 0
        assert outline.leg_height == 151
    assert [abs(outline.off) for outline in found] == sorted(abs(outline.off) for outline in found)
    assert found[0].off == 0  # 1300 x 520 is five to two


@pytest.mark.parametrize(("field", "legs"), [("case", 151), ("silhouette", 0)])
def test_outlines_go_by_the_field_and_by_the_ratios_that_the_brief_names(field, legs):
    room = "brief:\n  height: {least: 600, most: 820}\n  width: {least: 500, most: 600}\n"
    found = brief_outlines(designed(METRIC, f"{room}  field: {field}\n  ratios: [golden section]\n"), 20)
    assert {(outline.field, outline.ratio.system) for outline in found} == {(field, "golden section")}
    # no other comes nearer: every outline of whole mm is tried
    outlines = [(h - legs, w) for h, w in product(range(600, 821), range(500, 601))]
    for outline in found:
        near = min(abs(max(h / w, w / h) / outline.ratio.value - 1) for h, w in outlines)
        assert abs(outline.off) == pytest.approx(near, abs=1e-12)


def test_without_legs_an_outline_has_none():
    cabinet = designed(TWO_BANKS, "brief:\n  height: {least: 600, most: 800}\n  width: {least: 900, most: 1100}\n")
    assert {outline.leg_height for outline in brief_outlines(cabinet)} == {0}


@pytest.mark.parametrize("brief", ["", "brief: {room: 20}\n", "brief:\n  height: {least: 1, most: 2}\n"])
def test_without_limits_there_are_no_outlines(brief):
    with pytest.raises(DesignError, match="give 'height' and 'width' under brief"):
        brief_outlines(designed(METRIC, brief))
