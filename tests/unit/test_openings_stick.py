"""The openings stick: every edge at its distance from the top end, on screen and in the PDF, joined over its sheets."""

from __future__ import annotations

from functools import cache

import numpy as np
import pypdf
import pytest
from pictures import ROOT
from strained import edited_piece
from test_drilling_card import check_layout, check_words, words_on
from test_leg_profile_plate import check_inside_frames
from test_openings_plate import CABINET, CHEST, INCH, RAILS, TALLER, TWO_KINDS, UNEVEN, into, measured
from test_sheet import Page
from test_stick import TO_MM, joined

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.plates.bank_kinds import bank_kinds
from furnlib.draw.plates.openings_stick import OPENINGS_STICK, openings_stick_plate, stick_edges
from furnlib.draw.plates.views import written
from furnlib.draw.sheet import sheet
from furnlib.plan.piece import read_piece
from furnlib.record.stamp import title_of

LANE_MM = 12.0
# 20 top, then openings of 83 to 203 with 18 between; the edges of the demo chest, added up by hand
CHEST_EDGES = (0, 20, 103, 121, 224, 242, 365, 383, 526, 544, 707, 725, 908, 926, 1129, 1149)
PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "rails": (CHEST, TALLER, into("bottom rail"), RAILS),
    "measured": (CHEST, measured("openings: {2: 102.4}")),
    "two banks": (CABINET,),
    "two kinds": (CABINET, TWO_KINDS),
    "uneven": (CHEST, UNEVEN, (r"jig:.*\n(  .*\n)+", ""), (r"grid: 1 ", "grid: 0.5 ")),
    "low": (CABINET, (r"height: 378", "height: 90"), (r"number: 6", "number: 2")),
    "a hundred rows": (
        CABINET, (r"number: 6", "number: 100"), (r"divider: 12", "divider: 1"), (r"grid: 1 ", "grid: 0.1 "),
    ),
}  # fmt: skip
SLOW = {"two banks", "uneven"}
every_case = pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name in SLOW else name for name in PIECES]
)


@cache
def case(name):
    return edited_piece(*PIECES[name])


@cache
def sticks(name):
    return [openings_stick_plate(case(name), number) for number, _ in enumerate(OPENINGS_STICK.sheets(case(name)), 1)]


def ticks_on(page):
    """Heights of the ticks that cross the lane."""
    return [y for left, right, y in page.level_lines() if abs(right - left - LANE_MM) < 0.02]


# one on its own paper; the rest are slow, and run in CI
CROSSED = [("chest", "letter"), ("inch", "letter"), ("inch", "A4"), ("rails", "A4")]


@pytest.mark.parametrize(
    ("name", "paper"),
    [("chest", "A4"), *(pytest.param(*pair, marks=pytest.mark.slow) for pair in CROSSED)],
)
def test_printed_and_joined_every_edge_is_true_to_a_tenth_of_a_millimetre(name, paper, tmp_path):
    made, sheets = case(name), sticks(name)
    whole = [sheet(plate, title_of(made, plate, n, len(sheets)), paper) for n, plate in enumerate(sheets, 1)]
    reader = pypdf.PdfReader(save_pdf_pages(whole, tmp_path / "sheets.pdf"))
    pages = [Page(page, reader) for page in reader.pages]
    left, right, _ = pages[0].bar_under("100 mm")
    assert right - left == pytest.approx(100, abs=0.05)
    found = [y + shift for page, shift in zip(pages, joined(pages), strict=True) for y in ticks_on(page)]
    (kind,) = bank_kinds(made)
    expected = [float(edge.distance) * TO_MM[made.design.unit] for edge in stick_edges(made, kind)]
    assert name != "chest" or expected == list(CHEST_EDGES)
    found = max(found) - np.array(found)  # the top end is up on the sheet
    nearest = np.abs(found[:, None] - np.array(expected)[None, :])
    assert nearest.min(axis=1).max() < 0.1  # every tick is an edge's; near a seam it stands on both sheets
    assert nearest.min(axis=0).max() < 0.1  # and every edge has one
    assert found.max() == pytest.approx(float(made.case.height) * TO_MM[made.design.unit], abs=0.1)


@every_case
def test_words_stand_clear_on_every_sheet(name):
    check_layout(case(name), sticks(name))
    check_words(sticks(name))
    said = " ".join(words for plate in sticks(name) for words in words_on(plate))
    for part in ("Measure the bar", "top of the case, zero", "underside of the case", "bottom end", "top end"):
        assert said.count(part) >= len(bank_kinds(case(name)))
    assert ("As planned" in said) == (name == "measured")


@pytest.mark.parametrize("name", ["inch", "low"])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(case(name), sticks(name)[-1:])


@every_case
def test_every_edge_is_told_with_its_distance_and_its_name(name):
    made = case(name)
    said = [words for plate in sticks(name) for words in words_on(plate)]
    for kind in bank_kinds(made):
        for edge in stick_edges(made, kind):
            at = [i for i, words in enumerate(said) if words == written(edge.distance, made.design.unit)]
            assert edge.words in [said[i + 1] for i in at]


def test_edges_are_named_by_the_wood_beside_them():
    named = {name: [edge.words for edge in stick_edges(case(name), bank_kinds(case(name))[0])] for name in PIECES}
    assert named["low"] == [
        "top of the case, zero", "under the top", "on divider 1", "under divider 1", "on the bottom",
        "underside of the case",
    ]  # fmt: skip
    assert named["rails"][:4] == ["top of the case, zero", "under the top", "under the top rail", "on divider 1"]
    assert named["rails"][-3:] == ["on the bottom rail", "on the bottom", "underside of the case"]
    # 20 top and 30 rail; 22 and the 15 left over in the lower rail, on 20 bottom of a case 1156 high
    edges = [float(edge.distance) for edge in stick_edges(case("rails"), bank_kinds(case("rails"))[0])]
    assert edges[:3] == [0, 20, 50]
    assert edges[-3:] == [1156 - 20 - 37, 1156 - 20, 1156]


def test_what_is_wood_is_hatched_and_openings_are_not():
    made, mm = case("uneven"), 6.0  # of lap past each seam, where two sheets show the same
    fills = [np.array(item.points) for plate in sticks("uneven") for item in plate.items if isinstance(item, Fill)]
    wood = float(made.case.height) - float(sum(row.opening for row in made.rows.rows))
    hatched = sum(float(np.ptp(fill[:, 1])) for fill in fills)
    assert wood - 1e-6 <= hatched <= wood + mm * 2 * len(sticks("uneven"))
    for thick in (18.5, 19, 19.5, 20.5):
        assert any(np.ptp(fill[:, 1]) == pytest.approx(thick) for fill in fills)
    lines = [item for plate in sticks("uneven") for item in plate.items if isinstance(item, Stroke)]
    assert sum(line.kind == "hatch" for line in lines) > len(fills)


def test_numbers_and_pitches_stand_in_the_openings():
    said = [words for plate in sticks("chest") for words in words_on(plate)]
    assert [said.count(f"k = {k}") for k in range(4, 11)] == [1] * 7
    assert all(said.count(str(number)) == 1 for number in range(1, 8))
    assert not [words for plate in sticks("two banks") for words in words_on(plate) if "k = " in words]


def test_sheets_are_counted_over_all_kinds_and_say_whose_they_are():
    names = [plate.name for plate in sticks("two kinds")]
    assert names == [f"Openings stick {n}" for n in range(1, len(names) + 1)]
    said = [words_on(plate) for plate in sticks("two kinds")]
    assert sum("Bank 1, Abrasive-sheet cabinet" in words for words in said) == len(said) / 2
    assert sum("Bank 2, Abrasive-sheet cabinet: top end at this end" in words for words in said) == 1
    assert all(plate.scale == TO_MM[case(name).design.unit] for name in PIECES for plate in sticks(name))
    assert [plate.name for plate in sticks("low")] == ["Openings stick"]


def test_only_a_case_has_one():
    stool = read_piece(ROOT / "notebooks/designs/practice_stool.yaml")
    assert OPENINGS_STICK.sheets(stool) == []
    with pytest.raises(DesignError, match="has no openings stick 1, it has 0: only a case has one"):
        openings_stick_plate(stool)
    with pytest.raises(DesignError, match="has no openings stick 9"):
        openings_stick_plate(case("chest"), 9)
