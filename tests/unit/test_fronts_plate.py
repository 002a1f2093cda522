"""Plate 3: fronts as seen with their triangle, gaps as bars, and the board with what is thrown away between them."""

from __future__ import annotations

import re
from functools import cache

import numpy as np
import pytest
from pictures import ROOT
from strained import METRIC, edited_piece
from test_drilling_card import check_layout, check_words, words_on
from test_front_runs import CHEST, DOWN, OVERLAY, OWN, PIECES, TRAYS, case
from test_leg_profile_plate import check_inside_frames

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke
from furnlib.draw.plates.fronts import fronts_plate, fronts_sheets
from furnlib.draw.plates.together import together
from furnlib.draw.plates.views import written
from furnlib.draw.style import LINES, TINTS
from furnlib.plan.piece import read_piece
from furnlib.plan.sizes.front_runs import fronts_seen
from furnlib.trade.cautions import MACHINE

MORE = {
    "twenty trays, all different": (
        TRAYS, (r"number: 6", "number: 20"), (r"divider: 12", "divider: 4"), (r"grid: 1 ", "grid: 0.1 "),
        (r"rule: equal", "rule: constant step\n  step: 0.2"), (r"height: 378", "height: 900"),
    ),
    "wide, down the case": (
        TRAYS, DOWN, OWN, (r"number: 6", "number: 12"), (r"height: 378", "height: 2340"),
        (r"width: 569 .*", "width: 3300"), (r"divider: 12", "divider: 24"),
    ),
    "small fronts that overlap": (
        TRAYS, (r"height: 378 .*", "height: 160"), (r"width: 569 .*", "width: 245"), (r"number: 6", "number: 2"),
        (r"thickness: 12, below: 1, least gap: 1", "thickness: 12, kind: overlay, overlay: 5, inner front: 10"),
    ),
    "two widths": (TRAYS, (r"- {open: no}", "- {open: no, width: 200}")),
    "a wide kerf": (CHEST, DOWN, (r"kerf: 3, trim: 2", "kerf: 9, trim: 4")),
    "seven in a row": (CHEST, (r"1: 2 .*", "3: 7"), (r"row: 1 .*", "row: 3")),
    "a long name": (CHEST, (r"piece: .*", "piece: Tall chest of drawers for the half-landing of the old mill")),
    "no grain": (CHEST, OVERLAY, (r"grain: {.*}\n", "")),
}  # fmt: skip
SLOW = {*PIECES, *MORE} - {"chest", "low, inch", "down, own dividers", "overlay", "two widths"}
every_case = pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name in SLOW else name for name in (*PIECES, *MORE)]
)


@cache
def made_of(name):
    if name == "seven in a row":  # the rows without a line on them have their pulls left out
        return edited_piece(re.sub(r"pulls:.*\n(  .*\n)+", "", CHEST), MORE[name][1])
    return case(name) if name in PIECES else edited_piece(*MORE[name])


@cache
def sheets(name):
    made = made_of(name)
    return [fronts_plate(made, number=number) for number, _ in enumerate(fronts_sheets(made), 1)]


def boards(name):
    return [sheet for sheet in sheets(name) if "grain_run.jump" in sheet.formulas]


def seen(name):
    return [sheet for sheet in sheets(name) if sheet not in boards(name)]


@every_case
def test_words_stand_clear_and_the_sheets_hold_them(name):
    check_layout(made_of(name), sheets(name))
    check_words(sheets(name))


@pytest.mark.parametrize(
    "name", ["trays", *(pytest.param(name, marks=pytest.mark.slow) for name in ("chest", "low, inch"))]
)
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(made_of(name), sheets(name))


def test_one_sheet_for_each_kind_of_bank_and_of_board():
    counts = {name: (len(seen(name)), len(boards(name))) for name in ("chest", "trays", "two widths", "low, inch")}
    assert counts == {"chest": (1, 1), "trays": (1, 0), "two widths": (2, 0), "low, inch": (1, 1)}
    assert len(boards("three and two")) == 2
    assert [sheet.name for sheet in sheets("trays")] == ["Fronts"]
    assert [sheet.name for sheet in sheets("chest")] == ["Fronts 1", "Fronts 2"]
    stool = read_piece(ROOT / "notebooks/designs/practice_stool.yaml")
    for piece in (stool, edited_piece(METRIC)):
        assert fronts_sheets(piece) == ()
        with pytest.raises(DesignError, match=r"has no sheet of fronts 1, it has 0"):
            fronts_plate(piece)


# The fronts as they are seen


def table(plate, columns):
    """The rows of the table below the fronts, without its heading."""
    said = words_on(plate)
    start = said.index("Fronts of")
    end = next(i for i, words in enumerate(said) if words.startswith("Heavy: the triangle"))
    cells = [words for words in said[start:end] if words not in ("now", "damp", "dry")]
    return [tuple(cells[i : i + columns]) for i in range(columns, len(cells), columns)]


def test_the_table_of_the_landing_chest_by_hand():
    """Row 1: 231 less 2 of gaps wide; its opening of 83 less 80.2 less 1 below leaves 1.8 today."""
    rows = table(seen("chest")[0], 7)
    assert [row[0] for row in rows] == [f"row {number}" for number in range(1, 8)]
    assert rows[0][:4] == ("row 1", "2", "229 x 80.2", "1.8")
    assert rows[0][6] == "480 x 82.2"
    assert rows[6][2:4] == ("478 x 199", "3")  # 203 - 199 - 1
    assert {row[4] for row in rows} == {"1"}  # the least gap, at the dampest


def test_alike_fronts_share_a_line_and_the_lowest_opening_comes_first():
    assert [row[:3] for row in table(seen("trays")[0], 7)] == [("rows 1 to 6", "12", "260 x 45.5")]
    high = [made.opening.height for made in made_of("twenty trays, all different").drawers[:20]]
    assert high == sorted(high)
    turned = edited_piece(
        CHEST, (r"step: 20 .*", "step: 20\n  order: bottom to top"), (r"1: 2 .*", "7: 2"), (r"row: 1 .*", "row: 7")
    )
    rows = table(fronts_plate(turned), 7)
    assert [row[0] for row in rows] == [f"row {number}" for number in range(7, 0, -1)]


@pytest.mark.parametrize("name", ["chest", "chest, inch", "trays"])
def test_bars_are_as_long_as_their_gaps_in_the_colours_of_the_seasons(name):
    (plate,), made = seen(name), made_of(name)
    factor = int(re.search(r"the gap (\d+) times as large", " ".join(words_on(plate))).group(1))
    larger = factor * (1.0 if made.design.unit == "mm" else 25.4)  # from the gap to mm on paper
    gaps = {tuple(vars(drawer.fit.front_gaps).values()) for drawer in made.drawers}
    for place, tint in enumerate(("ink", "blue", "ochre")):  # now, damp, dry
        dashed, rows = tint == "ochre", {}
        for item in plate.items:
            if isinstance(item, Fill) and item.tint == tint:
                corners = np.array(item.points) * plate.scale
                if abs(np.ptp(corners[:, 1]) - 0.7) < 1e-9:
                    rows.setdefault(round(float(corners[0, 1]), 3), []).append(corners[:, 0])
        long = sorted(float(np.ptp(row)) for row in rows.values())
        wanted = sorted([5.0, *(gap[place] * larger for gap in gaps)])  # one is the sample beside its name
        assert max(wanted) <= 42.0
        for found, gap in zip(long, wanted, strict=True):
            assert gap - (1.2 if dashed else 0.0) - 1e-9 <= found <= gap + 1e-9  # the last dash may end before the gap
        assert all((len(row) > 1) == dashed for row in rows.values())  # told by dashes, not by colour alone


@every_case
def test_fronts_and_triangle_are_drawn_where_they_are(name):
    made = made_of(name)
    banks = [bank for bank in made.banks if bank.rows]
    for plate, bank in zip(seen(name), banks[:: 1 if len(seen(name)) > 1 else len(banks)], strict=True):
        fronts = fronts_seen(made.design, bank, made.drawers)
        drawn = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.tint == "wood"]
        boxes = [(*fill.min(axis=0), *np.ptp(fill, axis=0)) for fill in drawn]
        assert np.array(boxes) == pytest.approx(
            np.array([[float(x) for x in (f.left, f.low, f.width, f.height)] for f in fronts])
        )
        marks = [item.points for item in plate.items if isinstance(item, Stroke) and item.kind == "cut"]
        assert len(marks) == sum(len(front.triangle) for front in fronts)
        assert {f"row {row.number}" for row in bank.rows.rows} <= set(words_on(plate))


def test_fronts_over_the_case_have_no_gaps_and_say_so():
    for name in ("overlay", "no grain"):
        (plate,) = seen(name)
        assert plate.formulas == ()
        assert "gap now" not in words_on(plate)
        assert "is not reckoned here" in plate.caption
        assert not [item for item in plate.items if isinstance(item, Fill) and item.tint in ("blue", "ochre")]


# The board


def lanes(plate):
    """What is filled on a sheet of a board, as tint with its corners, and where hatches run."""
    return [(item.tint, item.hatch, np.array(item.points)) for item in plate.items if isinstance(item, Fill)]


def test_the_board_of_the_landing_chest_by_hand():
    """229 + trim 2 + kerf 3 + 12 + kerf 3 + 229 + trim 2 = 480, the inside width; seen 20 apart."""
    (plate,) = boards("chest")
    said = words_on(plate)
    running = ["0", "1", "230", "231", "234", "246", "249", "250", "479", "480"]
    assert [words for words in said if re.fullmatch(r"\d+", words)] == running
    assert "throw away 12" in said
    assert "jump -15; 0 as laid out" in said
    # two kerfs and two trims go, two gaps of 1 are seen: 6 + 4 - 2
    assert "Were the divider cut from the same board, the jump from front to front would be +8." in said
    assert "Board of row 1: 480 along the grain, 82.2 across it, trim counted; sound wood throughout." in said
    hatched = [corners for _, hatch, corners in lanes(plate) if hatch]
    assert [(c[:, 0].min(), c[:, 0].max()) for c in hatched] == [(234.0, 246.0)]
    kerfs = [c for tint, _, c in lanes(plate) if tint == "ink" and np.ptp(c[:, 0]) == 3.0]
    assert [c[:, 0].min() for c in kerfs] == [231.0, 246.0]
    wood = sorted((c[:, 1].max(), c[:, 0].min()) for tint, _, c in lanes(plate) if tint == "wood")
    assert [left for _, left in wood] == [0.0, 249.0, 1.0, 250.0]  # as seen below, on the board above


@every_case
def test_a_board_shows_all_its_places_and_the_jump_of_each_joint(name):
    made = made_of(name)
    for plate in boards(name):
        said, unit = words_on(plate), made.design.unit
        for run in made.runs:
            if run.name not in plate.caption:
                continue
            for place in run.run.places:
                if place.kind == "spacer":
                    assert f"throw away {written(place.length, unit)}" in said
            assert sum(words.startswith("jump ") for words in said) == len(run.run.joints)
            for joint in run.run.joints:
                tight = f"jump {'+' * (joint.jump_tight > 0)}{written(joint.jump_tight, unit)}"
                assert [words for words in said if words == tight or words.startswith(f"{tight};")]
            along = 1 if run.down else 0
            extents = {
                round(float(np.ptp(corners[:, along])), 6) for tint, _, corners in lanes(plate) if tint == "wood"
            }
            assert {round(float(p.length), 6) for p in run.run.places if p.kind == "front"} <= extents
        assert said.count("At the saw") == 1
        for part in (*MACHINE, "falls free"):
            assert part in " ".join(said)


def test_a_divider_of_the_same_board_is_named_a_facing_in_a_row_and_has_its_own_joints():
    assert any("thin facing" in words for words in words_on(boards("own dividers")[0]))
    said = words_on(boards("down, own dividers")[0])
    assert not any("thin facing" in words for words in said)
    assert sum(words.startswith("jump +") for words in said) == 12  # to either side of six dividers
    assert any("goes across the grain" in words for words in said)


def test_boards_laid_out_alike_share_a_sheet():
    halves = edited_piece(CHEST, (r"1: 2 .*", "1: 2\n    4: 2"))
    plates = [fronts_plate(halves, number=number) for number, _ in enumerate(fronts_sheets(halves), 1)]
    assert len(plates) == 2
    assert "rows 1 and 4" in plates[1].caption
    assert sum(words.startswith("Board of row") for words in words_on(plates[1])) == 2


# Told together, and in grey


@pytest.mark.parametrize(
    ("names", "told"),
    [
        (["row 1"], "row 1"),
        (["row 1", "row 2"], "rows 1 and 2"),
        (["row 1", "row 2", "row 3"], "rows 1 to 3"),
        (["row 1", "row 3", "row 4"], "rows 1, 3, 4"),
        (["row 1", "row 2", "row 1", "row 2"], "rows 1 and 2"),
        (["row 1, bank 2", "row 2, bank 2", "row 1"], "rows 1 and 2, bank 2; row 1"),
        (["row 1, bank 1", "row 2, bank 1", "row 1, bank 3", "row 2, bank 3"], "rows 1 and 2, banks 1 and 3"),
        (["row 1, bank 1", "row 2, bank 1", "row 1, bank 2"], "rows 1 and 2, bank 1; row 1, bank 2"),
        (["down the case"], "down the case"),
    ],
)
def test_names_are_told_together(names, told):
    assert together(names) == told


def lightness(colour):
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_the_three_seasons_keep_apart_in_grey():
    greys = [lightness(TINTS[tint]) for tint in ("ink", "blue", "ochre")]
    assert greys == sorted(greys)
    assert greys[2] - greys[0] > 0.3  # and the one in between is told by its place and its name
    assert LINES["cut"].width_mm > LINES["visible"].width_mm  # the triangle is heavier than the fronts
