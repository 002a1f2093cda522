"""The dovetail strip: every edge at its distance from the upper edge, on screen and in the PDF, joined over sheets."""

from __future__ import annotations

from functools import cache

import numpy as np
import pypdf
import pytest
from pictures import ROOT
from test_drawer_plate import case
from test_drilling_card import check_layout, check_words, words_on
from test_leg_profile_plate import check_inside_frames
from test_sheet import Page
from test_stick import TO_MM, joined

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.plates.dovetail_strip import DOVETAIL_STRIP, dovetail_strip_plate
from furnlib.draw.plates.drawer import drawer_kinds
from furnlib.draw.plates.views import written
from furnlib.draw.sheet import sheet
from furnlib.plan.piece import read_piece
from furnlib.record.stamp import title_of

MADE = (
    "chest",
    "inch",
    "hand",
    "hand, inch",
    "through",
    "housed",
    "sides 40",
    "sides 400",
    "groove in a pin",
    "thick back",
)
PAST_MM = 2.0
every_made = pytest.mark.parametrize(
    "name", [name if name == "hand, inch" else pytest.param(name, marks=pytest.mark.slow) for name in MADE]
)


@cache
def strips(name):
    made = case(name)
    return [dovetail_strip_plate(made, number) for number, _ in enumerate(DOVETAIL_STRIP.sheets(made), 1)]


def edges(height, pitch=20, pin=4):
    """Of a jig's tails from the upper edge, the edges of the side with them, worked by hand."""
    tails = [edge for k in range(height // pitch) for edge in (k * pitch + pin / 2, (k + 1) * pitch - pin / 2)]
    return [0, *tails, height]


@every_made
def test_words_stand_clear_on_every_sheet(name):
    check_layout(case(name), strips(name))
    check_words(strips(name))
    said = " ".join(words for plate in strips(name) for words in words_on(plate))
    assert "Measure the bar" in said
    assert said.count("upper edge") > len({drawer.side_height.value for drawer in case(name).drawers})
    assert ("rear ends" in said) == (name != "housed")


@pytest.mark.parametrize("name", ["hand, inch", pytest.param("sides 400", marks=pytest.mark.slow)])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(case(name), strips(name)[-1:])


@every_made
def test_running_sizes_of_every_tail_and_of_the_groove_are_written(name):
    said, made = [words for plate in strips(name) for words in words_on(plate)], case(name)
    for drawer in made.drawers:
        low = drawer.side_height.value - drawer.making.groove_height
        tails = [edge for tail in drawer.dovetails.front.tails for edge in tail]
        for edge in (0, *tails, drawer.side_height.value, low, low - drawer.making.groove_width):
            assert written(edge, made.design.unit) in said


def lines(plate, kind):
    """Strokes of a kind in mm on the sheet."""
    strokes = (item for item in plate.items if isinstance(item, Stroke) and item.kind == kind)
    return [np.array(line.points) * plate.scale for line in strokes]


def test_tails_are_widest_at_the_end_and_run_off_by_a_seventh():
    tails = [line for line in lines(strips("chest")[0], "visible") if len(line) == 4]
    assert len(tails) == 4 + 5 + 6  # sides of 80, 100 and 120
    for (x0, y0), (x1, y1), (x2, y2), (x3, y3) in tails:
        assert x1 == x2 < x0 == x3  # the end of the side is to the left
        assert x0 - x1 == pytest.approx(14)  # front 20 less lap 6
        assert abs(y1 - y2) == pytest.approx(16)
        assert abs(y0 - y3) == pytest.approx(16 - 2 * 14 / 7)
    ends = [line[1, 0] for line in tails]
    assert len({round(end, 6) for end in ends}) == 3


def test_root_groove_and_the_root_of_the_back_are_drawn():
    plate, (side, *_) = strips("hand, inch")[0], case("hand, inch").drawers
    end = min(line[:, 0].min() for line in lines(plate, "visible"))
    top = max(line[:, 1].max() for line in lines(plate, "thin") if np.ptp(line[:, 0]) < 1e-9)
    mine = {kind: [line for line in lines(plate, kind) if line[0, 0] < end + 30] for kind in ("hidden", "centre")}
    height, drop, floor = float(side.side_height.value), float(side.making.drop), float(side.making.floor_height)
    low = height - float(side.making.groove_height)
    down = sorted((top - line[0, 1]) / 25.4 for line in mine["hidden"])
    assert down == pytest.approx([low - float(side.making.groove_width), low])
    (back,) = mine["centre"]
    assert (back[:, 0] - end) / 25.4 == pytest.approx([float(side.making.back_thickness)] * 2)
    assert sorted((top - back[:, 1]) / 25.4) == pytest.approx([drop, height - floor])


def test_waste_is_hatched_and_with_the_tails_it_fills_the_lane():
    plate = strips("chest")[0]
    waste = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.tint == "far"]
    tails = [line for line in lines(plate, "visible") if len(line) == 4]

    def area(points):
        x, y = points.T
        return abs(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1))) / 2

    assert sum(map(area, waste)) + sum(map(area, tails)) == pytest.approx(14 * (80 + 100 + 120))
    assert sum(map(area, tails)) == pytest.approx((4 + 5 + 6) * 14 * (16 + 12) / 2)


PRINTED = [("chest", "A4", 0), pytest.param("chest", "letter", 1, marks=pytest.mark.slow)]


@pytest.mark.parametrize(("name", "paper", "number"), PRINTED)
def test_printed_every_edge_is_true_to_a_tenth_of_a_millimetre(name, paper, number, tmp_path):
    made, plate = case(name), strips(name)[number]
    whole = sheet(plate, title_of(made, plate, 1, 3), paper)
    reader = pypdf.PdfReader(save_pdf_pages([whole], tmp_path / "sheet.pdf"))
    page = Page(reader.pages[0], reader)
    left, right, _ = page.bar_under("100 mm")
    assert right - left == pytest.approx(100, abs=0.05)
    across = [line for line in page.level_lines() if abs(line[1] - line[0] - 14 - PAST_MM) < 0.02]
    starts = sorted({round(start) for start, _, _ in across})
    heights = [(80, 100, 120), (140, 160, 180)][number]
    assert len(starts) == len(heights)
    for start, height in zip(starts, heights, strict=True):
        ups = sorted((y for x, _, y in across if round(x) == start), reverse=True)
        found = np.array([ups[0] - y for y in ups])
        expected = sorted([*edges(height), height - 10, height - 16])
        assert found == pytest.approx(expected, abs=0.1)


@pytest.mark.slow
def test_a_long_one_is_joined_by_its_crosses(tmp_path):
    made, sheets = case("sides 400"), strips("sides 400")
    whole = [sheet(plate, title_of(made, plate, n, len(sheets)), "A4") for n, plate in enumerate(sheets, 1)]
    reader = pypdf.PdfReader(save_pdf_pages(whole, tmp_path / "sheets.pdf"))
    pages = [Page(page, reader) for page in reader.pages]
    assert len(pages) == 2
    marks = [
        (x, y + shift)
        for page, shift in zip(pages, joined(pages), strict=True)
        for x, right, y in page.level_lines()
        if abs(right - x - 14 - PAST_MM) < 0.02
    ]
    first = min(x for x, _ in marks)
    found = np.array([y for x, y in marks if x < first + 1])
    found = found.max() - found
    drawer = case("sides 400").drawers[0]
    tails = [float(edge) for tail in drawer.dovetails.front.tails for edge in tail]
    expected = np.array([0.0, *tails, float(drawer.side_height.value)])
    nearest = np.abs(found[:, None] - expected[None, :])
    assert nearest.min(axis=0).max() < 0.1


def test_several_heights_share_a_sheet_and_each_says_whose_it_is():
    assert [plate.name for plate in strips("chest")] == [f"Dovetail strip {n}" for n in (1, 2, 3)]
    firsts = [next(words for words in words_on(plate) if words.startswith("Sides ")) for plate in strips("chest")]
    assert [re_heights(words) for words in firsts] == [[80, 100, 120], [140, 160, 180], [200]]
    said = " ".join(words for plate in strips("chest") for words in words_on(plate))
    for row, height in enumerate(range(80, 201, 20), 1):
        name = "row 1, 2 alike" if row == 1 else f"row {row}"
        assert f"{name}: {height} high, upper edge" in said
    assert all(
        plate.scale == TO_MM[case(name).design.unit] for name in ("chest", "hand, inch") for plate in strips(name)
    )


def re_heights(words):
    return [int(height) for height in words.split(" high")[0].removeprefix("Sides ").split(", ")]


def test_tails_add_up_in_what_is_heard():
    # 4 tails of 16, three gaps of 4 and two half pins of 2
    assert "2 + 16 + 4 + 16 + 4 + 16 + 4 + 16 + 2 = 80" in strips("chest")[0].spoken
    assert "14 long, slope 1/7" in strips("chest")[0].spoken


def test_without_tails_there_is_none():
    assert drawer_kinds(case("trays"))
    assert DOVETAIL_STRIP.sheets(case("trays")) == []
    stool = read_piece(ROOT / "notebooks/designs/practice_stool.yaml")
    assert DOVETAIL_STRIP.sheets(stool) == []
    for made, number in ((stool, 1), (case("trays"), 1), (case("chest"), 9)):
        with pytest.raises(DesignError, match=f"has no dovetail strip {number}, it has"):
            dovetail_strip_plate(made, number)
