"""The openings plate: pitches, what is left over, rails, banks of several kinds, what was measured; words clear."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from pictures import BARE, ROOT
from strained import edited_piece
from test_drilling_card import check_layout, check_words, words_on
from test_plates import rooms_of

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke
from furnlib.draw.plates.bank_kinds import bank_kinds, left_over
from furnlib.draw.plates.openings import openings_plate
from furnlib.draw.plates.views import written
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece

CHEST, INCH, LOW, CABINET = (  # without the brief, which is nothing to the openings as they are drawn
    re.sub(r"brief:.*\n(  .*\n)+", "", (BARE / f"{name}.yaml").read_text("utf-8"))
    for name in ("landing_chest", "landing_chest_inch", "low_media_case", "abrasive_cabinet")
)
# 1001 clear are 7 x 3 and 49 pitches of 20: whatever the chest is higher is left over
TALLER = (r"height: 1300", "height: 1307")
RAILS = (r"  divider: 18", "  divider: 18\n  top rail: 30\n  bottom rail: 22")
UNEVEN = (r"  divider: 18", "  divider: 18\n  divider step: 0.5")
TWO_KINDS = (
    r"  bays:.*\n(    - .*\n)+",
    "  bays:\n    - {open: no}\n    - {width: 120, open: yes}\n"
    "    - {open: no, rows: {number: 4, rule: constant step, step: 10, split: {1: 2}}}\n",
)


def measured(text):
    return (r"\nrows:", f"\nas built:\n  - {{{text}}}\n\nrows:")


def into(member):
    return (r"leftover: leg", f"leftover: {member}")


PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "left in the legs": (CHEST, TALLER),
    "left in the top rail": (CHEST, TALLER, into("top rail")),
    "left in a bottom rail": (CHEST, TALLER, into("bottom rail"), RAILS),
    "inch, left in the top rail": (INCH, (r"height: 50", "height: 50 1/4"), into("top rail")),
    "uneven dividers, no jig": (CHEST, UNEVEN, (r"jig:.*\n(  .*\n)+", ""), (r"grid: 1 ", "grid: 0.5 ")),
    "offsets": (CHEST, (r"  pitch: 20 ", "  first offset: 6\n  last offset: 14\n  pitch: 20 ")),
    "measured": (CHEST, measured("openings: {1: 83.4, 2: 102.4, 3: 123.6}, width: 479.2")),
    "measured, inch": (INCH, measured("openings: {1: 3 5/32, 4: 5 11/32}, width: 18 15/32")),
    "one bay, jig": (LOW, (r"\nlegs:", "\njig: {pitch: 15, clearance: 2, leftover: bottom rail}\n\nlegs:")),
    "two banks": (CABINET,),
    "two kinds": (CABINET, TWO_KINDS),
    "two kinds, measured": (CABINET, TWO_KINDS, measured("bank: 2, openings: {1: 62.5, 2: 74}, width: 187.5")),
    "two hundred rows": (
        CHEST, (r"rule: constant step.*\n  step: 20.*", "rule: equal"), (r"number: 7", "number: 200"),
        (r"divider: 18", "divider: 2"), (r"jig:.*\n(  .*\n)+", ""), (r"grid: 1 ", "grid: 0.1 "),
        (r"  split:.*\n    1: 2.*\n", ""),
    ),
    "from below": (
        CHEST, (r"rule: constant step.*\n  step: 20.*", "rule: constant ratio\n  first: 83\n  order: bottom to top"),
    ),
}  # fmt: skip
SLOW = {"inch, left in the top rail", "offsets", "measured, inch", "from below", "left in a bottom rail", "two kinds"}
every_case = pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name in SLOW else name for name in PIECES]
)


@cache
def case(name):
    return edited_piece(*PIECES[name])


@cache
def plates(name):
    return [openings_plate(case(name), number=n) for n, _ in enumerate(bank_kinds(case(name)), 1)]


def sheets(name):
    return zip(bank_kinds(case(name)), plates(name), strict=True)


def hatched(plate):
    """Left, bottom, right, top of each hatched box."""
    fills = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.hatch]
    return [tuple(float(edge) for edge in (*fill.min(axis=0), *fill.max(axis=0))) for fill in fills]


def boxed(plate):
    """Words whose middle stands in a box of their own."""
    frames = [item for item in plate.items if isinstance(item, Stroke) and item.closed and item.kind == "frame"]
    boxes = [(box.min(axis=0), box.max(axis=0)) for box in (np.array(item.points) for item in frames)]
    found = []
    for words, corners, _ in rooms_of(plate):
        middle = corners.mean(axis=0) / plate.scale + plate.box[:2]
        found += [words for low, high in boxes if (low < middle).all() and (middle < high).all()]
    return found


@every_case
def test_words_stand_clear_and_every_sheet_fits(name):
    check_layout(case(name), plates(name))
    check_words(plates(name))


@every_case
def test_every_opening_is_told_with_its_running_sizes(name):
    unit = case(name).design.unit
    for kind, plate in sheets(name):
        said = words_on(plate)
        told = kind.rows.rows if len(kind.rows.rows) <= 24 else (*kind.rows.rows[:12], *kind.rows.rows[-12:])
        for row in told:
            assert {written(edge, unit) for edge in (row.opening, row.top, row.bottom)} <= set(said)
        assert {"0", written(case(name).case.height, unit)} <= set(said)


# The jig


def test_pitches_stand_in_each_opening_and_in_the_table():
    said = words_on(plates("chest")[0])
    # 83 = 4 x 20 + 3 and so on; row 1 is two drawers
    assert said.count("83 x 231   k = 4") == 2
    assert {f"{20 * k + 3}   k = {k}" for k in range(5, 11)} <= set(said)
    head = said.index("Row")
    assert said[head : head + 6] == ["Row", "ideal", "k", "side", "opening", "change"]
    assert said[head + 6 : head + 12] == ["1", "83.0", "4", "80", "83", "0"]
    assert "Side = k x 20; opening = side + 3." in said
    assert "alone" not in said
    assert "Drawer sides take 4, 5, 6, 7, 8, 9, 10 pitches." in plates("chest")[0].spoken
    assert plates("chest")[0].formulas == ("graduation.rule", "closing.pitch")


def test_offsets_of_the_jig_are_said():
    assert "Side = 6 + (k - 1) x 20 + 14; opening = side + 3." in " ".join(words_on(plates("offsets")[0]))


def test_without_a_jig_the_table_keeps_what_rounding_alone_would_give():
    said = words_on(plates("two banks")[0])
    assert [said[said.index("Row") + i] for i in range(5)] == ["Row", "ideal", "alone", "opening", "change"]
    assert not [words for words in said if "k =" in words]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("left in the legs", "7 left over, in the legs, drawn higher than it is"),
        ("left in the top rail", "7 left over, in the top rail, drawn higher than it is"),
        ("left in a bottom rail", "15 left over, in the bottom rail"),  # 1008 - 52 = 956 = 21 + 46 x 20 + 15
        ("inch, left in the top rail", "¹⁄₄ left over, in the top rail, drawn higher than it is"),
    ],
)
def test_what_is_left_over_is_hatched_in_the_member_that_takes_it(name, words):
    (plate,) = plates(name)
    made, (kind,) = case(name), bank_kinds(case(name))
    assert words in words_on(plate)
    assert words.removesuffix(", drawn higher than it is") in plate.spoken.replace("1/4", "¹⁄₄")
    *strips, sign = hatched(plate)
    assert sign[3] < 0  # below the floor, beside its words
    left, place = left_over(made, kind)
    top, rows = float(made.design.overall.height), kind.rows.rows
    for strip in strips:
        high = strip[3] - strip[1]
        assert high == pytest.approx(max(float(left), 0.9 / plate.scale))
        if place == "leg":
            assert strip[3] == pytest.approx(float(made.stand.heights[0]))
        elif place == "top rail":
            assert strip[1] == pytest.approx(top - float(rows[0].top))
        else:
            assert strip[3] == pytest.approx(top - float(rows[-1].bottom))
    assert len(strips) == (2 if place == "leg" else 1)


@every_case
def test_nothing_is_hatched_where_nothing_is_left_over(name):
    for kind, plate in sheets(name):
        assert bool(hatched(plate)) == bool(left_over(case(name), kind)[0])
        assert ("left over" in " ".join(words_on(plate))) == bool(hatched(plate))


# Rails and dividers


def test_dividers_of_different_thickness_have_a_column_and_are_drawn_true():
    made, (plate,) = case("uneven dividers, no jig"), plates("uneven dividers, no jig")
    thick = [18, 18.5, 19, 19.5, 20, 20.5]
    said = words_on(plate)
    assert "divider" in said
    assert {written(t, "mm") for t in thick} <= set(said)
    fills = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.tint == "paper"]
    edges = sorted({(round(f[:, 1].min(), 6), round(f[:, 1].max(), 6)) for f in fills}, reverse=True)
    assert [upper[0] - lower[1] for upper, lower in pairwise(edges)] == pytest.approx(thick)
    assert "divider" not in words_on(plates("chest")[0])
    assert made.rows.fit is None


# Measured as built


def test_what_was_measured_stands_in_boxes_beside_the_plan():
    said, found = words_on(plates("measured")[0]), boxed(plates("measured")[0])
    # in both drawers of row 1, in rows 2 and 3, once more in the table; and the width over the case
    assert sorted(found) == sorted(["83.4"] * 3 + ["102.4"] * 2 + ["123.6"] * 2 + ["479.2"])
    assert any(words.startswith("103   k = 5") for words in said)
    assert {"480", "123   k = 6", "as built"} <= set(said)
    assert "Row 2 measures 102.4 as built." in plates("measured")[0].spoken
    assert boxed(plates("chest")[0]) == []


def test_what_was_measured_of_one_bank_stands_on_its_own_sheet():
    first, second = plates("two kinds, measured")
    assert boxed(first) == ["187.5"]  # over its bay, on either sheet
    assert sorted(boxed(second)) == sorted(["187.5"] + ["62.5"] * 3 + ["74"] * 2)


# Banks


def test_alike_banks_share_a_sheet_and_are_all_shown():
    assert [kind.numbers for kind in bank_kinds(case("two banks"))] == [(1, 2)]
    assert [plate.name for plate in plates("two banks")] == ["Openings"]
    said = words_on(plates("two banks")[0])
    assert {"bank 1", "bank 2"} <= set(said)
    assert said.count("48") == 2 * 6 + 3 * 6 - 6  # in twelve openings; alone and opening in six rows of the table
    assert "banks 1 and 2" in plates("two banks")[0].caption


def test_banks_alike_but_for_their_width_share_a_sheet():
    text = re.sub(r"    - {open: no}\n", "    - {open: no, width: 200}\n", CABINET, count=1)
    made = piece_of(DesignText.parse(text))
    assert [kind.numbers for kind in bank_kinds(made)] == [(1, 2)]
    assert {"200", "324"} <= set(words_on(openings_plate(made)))


def test_each_kind_of_bank_has_a_sheet_that_points_to_the_others():
    assert [kind.name for kind in bank_kinds(case("two kinds"))] == ["Bank 1", "Bank 2"]
    first, second = plates("two kinds")
    assert (first.name, second.name) == ("Openings 1", "Openings 2")
    assert "see Openings 2" in words_on(first)
    assert "see Openings 1" in words_on(second)
    assert "Bank 2," in words_on(second)
    assert "open bay, 348 x 120" in words_on(first)


def test_a_piece_has_no_more_sheets_than_kinds():
    with pytest.raises(DesignError, match="Landing chest has no sheet of openings 2, it has 1: one for each kind"):
        openings_plate(case("chest"), number=2)
    with pytest.raises(DesignError, match="no case and no drawers"):
        openings_plate(read_piece(ROOT / "notebooks/designs/practice_stool.yaml"))
    assert bank_kinds(read_piece(ROOT / "notebooks/designs/practice_stool.yaml")) == ()


def test_two_hundred_rows_are_shortened_and_a_redraw_has_few_marks():
    said = " ".join(words_on(plates("two hundred rows")[0]))
    assert "Rows 13 to 188 stand in the list of sizes." in said
    assert "200 sizes, in the list of chains" in said
    assert len(list(plates("left in the legs")[0].marks())) < 250


def test_a_rule_from_below_says_so_and_the_list_runs_from_the_top():
    (plate,) = plates("from below")
    assert "bottom to top" in plate.caption
    assert "Landing chest from the top: constant ratio" in plate.caption


def test_the_same_piece_gives_the_same_bytes(tmp_path):
    one, other = (openings_plate(case("measured")) for _ in range(2))
    assert one.svg() == other.svg()
    for ending in ("pdf", "svg"):
        paths = [plate.save(tmp_path / f"{n}.{ending}") for n, plate in enumerate((one, other))]
        assert paths[0].read_bytes() == paths[1].read_bytes()
