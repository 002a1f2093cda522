"""The story stick: every tick at its distance, on screen and in the PDF, joined over its sheets by their crosses."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pypdf
import pytest
from pictures import ROOT
from test_drilling_card import check_layout, check_words, words_on
from test_leg_profile_plate import PIECES, check_inside_frames, every_piece, lines, turned
from test_sheet import Page

from furnlib.base.guards import DesignError
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.plates.pattern import HALF_PATTERN, pattern_plate
from furnlib.draw.plates.stick import STORY_STICK, stick_plate
from furnlib.draw.plates.turned_groups import turned_groups, turned_marks
from furnlib.draw.plates.views import written
from furnlib.draw.sheet import sheet
from furnlib.plan.piece import read_piece
from furnlib.record.stamp import title_of

SEAM_MM, ARM_MM = 200.0, 4.0
LANE_MM, CROWN_MM = 9.0, 4.5  # how long the ticks are
TO_MM = {"mm": 1.0, "in": 25.4}
# the chest's legs 709 high: 709 x sqrt(1 + tan(8)^2 + tan(6)^2) along the axis
LONG = (0, 42, 46, 50, 60, 70, 74, 709 * math.sqrt(1 + math.tan(math.radians(8)) ** 2 + math.tan(math.radians(6)) ** 2))


@cache
def sticks(name):
    made = turned(name)
    return [stick_plate(made, number) for number in range(1, len(STORY_STICK.sheets(made)) + 1)]


def printed(name, sheets, paper, folder):
    """The pages of a PDF of sheets."""
    made = turned(name)
    whole = [sheet(plate, title_of(made, plate, i, len(sheets)), paper) for i, plate in enumerate(sheets, 1)]
    reader = pypdf.PdfReader(save_pdf_pages(whole, folder / "sheets.pdf"))
    return [Page(page, reader) for page in reader.pages]


def crosses(page):
    """The register crosses of a page: their middles, lowest first."""
    short = [path for path in page.paths if len(path) == 2 and abs(math.dist(*path) - 2 * ARM_MM) < 1e-2]
    level = [path.mean(axis=0) for path in short if abs(np.ptp(path[:, 1])) < 1e-6]
    plumb = [path.mean(axis=0) for path in short if abs(np.ptp(path[:, 0])) < 1e-6]
    return sorted((tuple(a) for a in level if any(math.dist(a, b) < 1e-2 for b in plumb)), key=lambda at: at[1])


def joined(pages):
    """For each page of one leg how far its foot edge lies below the drawing's zero, found by its crosses alone."""
    shifts = []
    for number, page in enumerate(pages):
        ys = [y for _, y in crosses(page)]
        assert len(ys) == (0 if len(pages) == 1 else 2 if number in (0, len(pages) - 1) else 4)
        if len(ys) == 4:
            assert ys[2] - ys[0] == pytest.approx(SEAM_MM, abs=0.05)
        shifts.append(SEAM_MM * max(number, 1) - ys[0] if ys else 0.0)
    return shifts


def sheets_of_first(name, of):
    """How many of the sheets belong to the first length of leg."""
    whole = of(turned(name))
    return next((i for i, sheet in enumerate(whole) if i and "Sheet 1 of" in " ".join(words_on(sheet))), len(whole))


def ticks_on(page, edge):
    """Heights of the ticks that begin at the working edge."""
    for left, right, y in page.level_lines():
        if abs(left - edge) < 0.02 and min(abs(right - left - long) for long in (LANE_MM, CROWN_MM)) < 0.02:
            yield y


PRINTED = [("long", "A4"), ("inch", "letter")]
CROSSED = [("long", "letter"), ("inch", "A4")]


@pytest.mark.parametrize(
    ("name", "paper"), [*PRINTED, *(pytest.param(*pair, marks=pytest.mark.slow) for pair in CROSSED)]
)
def test_printed_and_joined_every_station_is_true_to_a_tenth_of_a_millimetre(name, paper, tmp_path):
    made = turned(name)
    count = sheets_of_first(name, STORY_STICK.sheets)
    pages = printed(name, sticks(name)[:count], paper, tmp_path)
    left, right, _ = pages[0].bar_under("100 mm")
    assert right - left == pytest.approx(100, abs=0.05)
    found = []
    for page, shift in zip(pages, joined(pages), strict=True):
        plumb = [path for path in page.paths if len(path) == 2 and abs(np.ptp(path[:, 0])) < 1e-6 and np.ptp(path) > 30]
        corners = [path[:, 0].min() for path in page.paths if len(path) >= 3 and np.ptp(path[:, 1]) > 30]
        edges = {round(path[0, 0], 2) for path in plumb} | {round(x, 2) for x in corners}
        found += [y + shift for y in max((list(ticks_on(page, edge)) for edge in edges), key=len)]
    profile, mm = made.legs[0].turned.profile, TO_MM[made.design.unit]
    expected = LONG if name == "long" else sorted({station.distance * mm for station in profile.stations})
    found = np.array(sorted(found)) - min(found)
    nearest = np.abs(found[:, None] - np.array(expected)[None, :])
    assert nearest.min(axis=1).max() < 0.1  # every tick is a station's; near a seam it stands on both sheets
    assert nearest.min(axis=0).max() < 0.1  # and every station has one
    assert found.max() == pytest.approx(profile.length * mm, abs=0.1)


@every_piece
def test_every_station_is_told_with_distance_diameters_and_name(name):
    made, unit = turned(name), turned(name).design.unit
    said = [words for plate in sticks(name) for words in words_on(plate)]
    for group in turned_groups(made):
        for mark in turned_marks(group[0].turned, unit):
            at = [i for i, words in enumerate(said) if words == written(mark.distance, unit)]
            told = [(said[i + 1], said[i + 2].removesuffix(", thinnest")) for i in at]
            assert (mark.diameters, mark.words) in told
    assert sum(words.endswith("thinnest") for words in said) == len(turned_groups(made))


@every_piece
def test_crowns_have_a_short_tick_and_joints_a_long_one(name):
    made, per_mm = turned(name), 1 / TO_MM[turned(name).design.unit]
    for group in turned_groups(made):
        marks = turned_marks(group[0].turned, made.design.unit)
        assert {mark.distance for mark in marks if mark.crown} == {x for x, _ in group[0].turned.profile.crowns}
    widths = [np.ptp(line[:, 0]) for plate in sticks(name) for line in lines(plate, "visible") if len(line) == 2]
    assert {round(width / per_mm, 6) for width in widths} <= {LANE_MM, CROWN_MM}
    assert (CROWN_MM in {round(width / per_mm, 6) for width in widths}) == any(
        group[0].turned.profile.crowns for group in turned_groups(made)
    )


@every_piece
def test_words_stand_clear_on_every_sheet(name):
    check_layout(turned(name), sticks(name))
    check_words(sticks(name))
    said = " ".join(words for plate in sticks(name) for words in words_on(plate))
    for part in ("Measure the bar", "Cut out", "not down the slope", "top end, zero", "foot, on the floor", "foot end"):
        assert said.count(part) == len(turned_groups(turned(name)))
    assert ("underside" in said) == hasattr(turned(name).design, "seat")


@pytest.mark.parametrize("name", ["plumb", "three"])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(turned(name), sticks(name)[:2])


@every_piece
def test_the_waste_is_hatched_beyond_both_ends(name):
    made = turned(name)
    fills = [np.array(item.points) for plate in sticks(name) for item in plate.items if hasattr(item, "hatch")]
    wastes = [np.ptp(fill[:, 1]) for fill in fills]
    expected = sum(2 * float(group[0].turned.allowances.waste) for group in turned_groups(made))
    assert expected - 1e-9 <= sum(wastes) <= expected + 2 * len(wastes) * 6.0  # where two sheets lap, both show it


def test_sheets_are_counted_over_all_lengths_and_named_by_number():
    assert [plate.name for plate in sticks("three")] == [f"Story stick {n}" for n in range(1, 7)]
    assert all(plate.scale == TO_MM[turned(name).design.unit] for name in PIECES for plate in sticks(name))
    for name, of, plate in (("chest", STORY_STICK.sheets, stick_plate), ("chest", HALF_PATTERN.sheets, pattern_plate)):
        count = len(of(turned(name)))
        with pytest.raises(DesignError, match=f"{count + 1}, it has {count}: only turned legs have one"):
            plate(turned(name), count + 1)
    square = read_piece(ROOT / "notebooks/designs/seven_openings.yaml")
    assert STORY_STICK.sheets(square) == []
    with pytest.raises(DesignError, match="has no story stick 1, it has 0"):
        stick_plate(square)
