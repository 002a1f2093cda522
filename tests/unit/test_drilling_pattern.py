"""Drilling patterns: holes true to a tenth from the edges that the paper names, on screen and in the PDF."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

import numpy as np
import pypdf
import pytest
from pictures import ROOT
from strained import METRIC, edited_piece
from test_drilling_card import check_layout, check_words, words_on
from test_front_runs import CHEST, CHEST_INCH, LOW, LOW_INCH, MEASURED, OVERLAY, TRAYS, TRAYS_INCH
from test_leg_profile_plate import check_inside_frames
from test_pulls_of_a_case import BAR
from test_sheet import Page
from test_stick import TO_MM, joined

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Stroke
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.plates.drilling_pattern import DRILLING_PATTERN, drilling_pattern_plate, pattern_papers
from furnlib.draw.plates.views import written
from furnlib.draw.sheet import sheet
from furnlib.plan.piece import read_piece
from furnlib.record.stamp import title_of
from furnlib.trade.cautions import DRILLING

WIDE = (LOW, (r"width: 460}", "width: 900}"), (r"shares: .*", "shares: [1/4, 3/4]"))
HIGH = (r"hole: 4.5", "hole: 4.5\n  raised: 2/5")
PIECES = {
    "chest": (CHEST,),
    "chest, inch": (CHEST_INCH,),
    "low": (LOW,),
    "low, inch": (LOW_INCH,),
    "trays": (TRAYS,),
    "trays, inch": (TRAYS_INCH,),
    "bars": (CHEST, BAR),
    "bars, low": (LOW, BAR),
    "overlay": (CHEST, OVERLAY),
    "far apart": WIDE,
    "high up": (CHEST, HIGH),
    "three in a row": (CHEST, (r"1: 2 .*", "1: 3"), (r"row: 1 .*", "shares: [1/6, 1/2, 5/6]")),
    "measured": (CHEST, MEASURED),
    "a long name": (TRAYS, (r"piece: .*", "piece: Tall chest of drawers for the half-landing of the old mill")),
}
SLOW = {*PIECES} - {"chest", "trays, inch", "far apart"}
every_case = pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name in SLOW else name for name in PIECES]
)


@cache
def case(name):
    return edited_piece(*PIECES[name])


@cache
def papers(name):
    """For each paper its sheets."""
    found = []
    for plate in DRILLING_PATTERN.sheets(case(name)):
        if any("heet 1 of" in words for words in words_on(plate)):
            found.append([])
        found[-1].append(plate)
    return found


def said_on(plates):
    return " ".join(words for plate in plates for words in words_on(plate))


@every_case
def test_words_stand_clear_on_every_sheet(name):
    plates = [plate for sheets in papers(name) for plate in sheets]
    check_layout(case(name), [*plates[:3], *plates[-1:]])
    check_words(plates)


@pytest.mark.parametrize("name", ["trays, inch", pytest.param("high up", marks=pytest.mark.slow)])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(case(name), papers(name)[-1])


def holes_from_the_corner(plates):
    """Middles of the holes, up from one heavy line and along from the other: the lower edge stands at the right."""
    heavy, middles = [], []
    for plate in plates:
        for item in plate.items:
            if isinstance(item, Stroke):
                points = np.array(item.points)
                if item.kind == "cut":
                    heavy.append(points)
                elif item.kind == "visible" and len(points) > 12:
                    middles.append(points[:-1].mean(axis=0))
    lower = max(points[:, 0].max() for points in heavy)
    left = min(points[:, 1].min() for points in heavy)
    rounded = {(round(float(lower - x), 4), round(float(y - left), 4)) for x, y in middles}  # once beside a seam
    return sorted(rounded, key=lambda at: at[1])


def figure(words):
    """The length that words begin with, as a plate writes it."""
    plain = words.split(" from ")[0].translate(str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄\u202f", "01234567890123456789/ "))
    return float(sum(Fraction(part) for part in plain.split()))


@every_case
def test_every_hole_stands_as_far_from_the_lines_as_it_does_from_the_edges_of_its_front(name):
    made, unit = case(name), case(name).design.unit
    fronts = {p.name: p for drawer in made.drawers for p in drawer.patterns}
    for plates, paper in zip(papers(name), pattern_papers(made), strict=True):
        pattern, words = fronts[paper.names[0]], words_on(plates[0])
        lines = [
            [one for one in words if re.search(rf" from the {edge} edge( of|$)", one)] for edge in ("left", "lower")
        ]
        marked = [figure(line[0]) if line else 0.0 for line in lines]
        expected = [(float(pattern.from_lower) - marked[1], float(hole) - marked[0]) for hole in paper.holes]
        found = holes_from_the_corner(plates)
        assert np.array(found) == pytest.approx(np.array(expected), abs=0.02 / TO_MM[unit])
        assert all(plate.scale == TO_MM[unit] for plate in plates)
        assert (paper.holes[0] > 300 / TO_MM[unit]) == (marked[0] > 0.0)
        assert any("draw it on the front first" in one for one in words) == any(marked)
        for hole in (*paper.holes, pattern.from_lower):  # from the front's own edges, whatever the paper reaches
            assert written(hole, unit) in [one for plate in plates for one in words_on(plate)]


@every_case
def test_each_front_has_its_pattern_and_no_hole_is_forgotten(name):
    made = case(name)
    holes = {}
    for paper in pattern_papers(made):
        assert paper.names
        holes.setdefault(paper.names, []).extend(paper.holes)
    for drawer in made.drawers:
        for pattern in drawer.patterns:
            (found,) = [sorted(there) for names, there in holes.items() if pattern.name in names] or [[]]
            assert found == sorted(pattern.from_left)
    for paper in pattern_papers(made):  # what shares a paper is drilled alike, and as large
        alike = [(d, p) for d in made.drawers for p in d.patterns if p.name in paper.names]
        assert (
            len({(p.from_left, p.from_lower, d.part("front").length.value, d.front_height.value) for d, p in alike})
            == 1
        )


def test_the_landing_chest_by_hand():
    """Lines at 115.5 and 364.5; fronts begin 1 in: 114.5 and 363.5. Row 1 is drilled in its middles."""
    first, *others = pattern_papers(case("chest"))
    assert drilling_pattern_plate(case("chest"), 3).name == "Drilling pattern 3"
    assert first.names == ("row 1, drawer 1", "row 1, drawer 2")
    assert first.holes == (114.5,)
    assert [paper.holes for paper in others] == [(114.5, 363.5)] * 6
    said = words_on(papers("chest")[0][0])
    assert {"left edge", "114.5", "40.1"} <= set(said)
    assert any(words.startswith("lower edge of row 1") for words in said)
    whole = said_on(papers("chest")[0])
    for part in (
        "front",
        "229 x 80.2",
        "⌀ 4.5",
        "screws 32 long",
        "Measure the bar",
        "no hand holds it",
        *DRILLING[2:3],
    ):
        assert part in re.sub(" +", " ", whole)
    assert len(papers("trays")) == 1  # twelve alike
    assert "fronts alike: 12" in papers("trays")[0][0].caption


def test_what_is_out_of_reach_is_told_from_its_edge():
    near, far, *_ = pattern_papers(case("far apart"))
    assert (near.holes, far.holes) == ((224,), (674,))  # a quarter and three quarters of 900, less 1
    assert "635 from the left edge" in said_on(papers("far apart")[1])
    # row 7 is 199 high, its pull at nine tenths of it: 179.1, a line at 140 below it
    assert "140 from the lower edge of row 7" in said_on(papers("high up")[-1])
    assert "179.1" in words_on(papers("high up")[-1][-1])


@pytest.mark.parametrize(
    ("name", "paper"), [("low", "A4"), pytest.param("chest, inch", "letter", marks=pytest.mark.slow)]
)
def test_printed_and_joined_a_hole_is_true_to_a_tenth_of_a_millimetre(name, paper, tmp_path):
    made, plates = case(name), papers(name)[-1]
    whole = [sheet(plate, title_of(made, plate, n, len(plates)), paper) for n, plate in enumerate(plates, 1)]
    reader = pypdf.PdfReader(save_pdf_pages(whole, tmp_path / "sheets.pdf"))
    pages = [Page(page, reader) for page in reader.pages]
    left, right, _ = pages[0].bar_under("100 mm")
    assert right - left == pytest.approx(100, abs=0.05)
    pattern, to_mm = made.drawers[-1].patterns[-1], TO_MM[made.design.unit]
    bore, shifts = float(pattern.hole_diameter) * to_mm, joined(pages)
    bent = [p for p in pages[0].paths if len(p) == 3 and np.ptp(p[:, 0]) > 20 and np.ptp(p[:, 1]) > 20]
    (corner,) = [
        path[1] + (0.0, shifts[0]) for path in bent
    ]  # of the two heavy lines: lower edge right, left edge below
    found = set()
    for page, shift in zip(pages, shifts, strict=True):
        for path in page.paths:
            if len(path) > 12 and np.ptp(path[:, 0]) == pytest.approx(bore, abs=0.05):
                middle = (path.min(axis=0) + path.max(axis=0)) / 2 + (0.0, shift)
                found.add((round(float(middle[1] - corner[1]), 1), round(float(corner[0] - middle[0]), 1)))
    expected = [(float(hole) * to_mm, float(pattern.from_lower) * to_mm) for hole in pattern.from_left]
    assert np.array(sorted(found)) == pytest.approx(np.array(expected), abs=0.1)


def test_only_drawers_with_pulls_have_one():
    stool = read_piece(ROOT / "notebooks/designs/practice_stool.yaml")
    for piece in (stool, edited_piece(METRIC), edited_piece(re.sub(r"pulls:.*\n(  .*\n)+", "", CHEST))):
        assert pattern_papers(piece) == ()
        with pytest.raises(DesignError, match="has no drilling pattern 1, it has 0: only drawers with pulls have one"):
            drilling_pattern_plate(piece)
