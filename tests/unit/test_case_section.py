"""The case section: a drawer drawn open hangs as statics says, every part stands where its sums put it, words clear.

How a drawer hangs is found here on its own: scipy turns a rectangle until its corner meets the kicker.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction as F
from functools import cache

import numpy as np
import pytest
from pictures import ROOT
from scipy.optimize import brentq
from strained import edited_piece, piece
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke
from furnlib.draw.pen import Pen
from furnlib.draw.plates import plates_of
from furnlib.draw.plates.case_section import case_section_plate, section_sheets
from furnlib.draw.plates.droop_view import LEAST_SEEN_MM, TIMES, CutDrawer, draw_open
from furnlib.draw.plates.views import written
from furnlib.plan.piece import read_piece

CHEST, CHEST_INCH, LOW, LOW_INCH, CABINET, CABINET_INCH = (
    (ROOT / f"notebooks/designs/{name}{shop}.yaml").read_text("utf-8")
    for name in ("landing_chest", "low_media_case", "abrasive_cabinet")
    for shop in ("", "_inch")
)


def riding(text):
    return (r"riding: {.*}", f"riding: {{{text}}}")


def front(text):
    return (r"front: {thickness: 20, below: 1, least gap: 1}", f"front: {{thickness: 20, {text}}}")


HUNG = "carried: side-hung, guide: {depth: 6, width: 16, up: 30, play: 0.5}"
SLIDES = (
    riding("carried: slides, slide: 12.7"), front("below: 1, least gap: 1, inner front: 12, gap: 2"),
    (r"side: {thickness: 12, gap: 1}", "side: {thickness: 12, gap: 13}"), (r"lap: 6 ", "lap: 4 "),
)  # fmt: skip
MANY = (
    (r"  rule: constant step.*\n  step: 20.*", "  rule: constant step\n  step: 0.5"), (r"number: 7", "number: 40"),
    (r"divider: 18", "divider: 6"), (r"jig:.*\n(  .*\n)+", ""), (r"grid: 1 ", "grid: 0.1 "),
    (r"    jig: {pin.*", "    tails: {tail: 8, half pin: 2, pin: 2}"), (r"brief:.*\n(  .*\n)+", ""),
    (r"thickness: 8, tongue: 6, up: 10", "thickness: 3, tongue: 3, up: 2"), (r"base: 24", "base: 8"),
    (r"grain: .*", ""),
)  # fmt: skip
TWO_KINDS = (
    (r"brief:.*\n(  .*\n)+", ""),
    (
        r"  bays:.*\n(    - .*\n)+",
        "  bays:\n    - {open: no}\n    - {width: 120, open: yes}\n"
        "    - {open: no, rows: {number: 4, rule: constant step, step: 10}}\n",
    ),
)
PIECES = {
    "chest": (CHEST,),
    "no kicker": (CHEST, riding("no kicker: {1: 40}")),
    "much is missing": (
        CHEST, riding("no kicker: {1: 40, 3: 120}, no guide: [2, 3], no stop: [4], no runner: [5], guide gap: 9"),
    ),
    "kicker strips": (CHEST, riding("kicker: 1.5")),
    "side-hung": (CHEST, riding(f"{HUNG}, no runner: [2], no guide: [3], no stop: [4]")),
    "slides": (CHEST, *SLIDES),
    "overlay": (CHEST, front("kind: overlay, overlay: 6, inner front: 14"), riding("no stop: [7], no kicker: {7: 60}")),
    "lipped": (CHEST, front("kind: lipped, overlay: 6, lip: 5")),
    "slips": (
        CHEST, (r"ease: 0.5", "ease: 0.5, slip: 10, slip height: 17"),
        (r"(thickness: 12, joint): dovetailed.*}", r"\1: housed, housing: 4, tail: 6, drop: 2}"),
    ),
    "set back": (CHEST, front("setback: 4, below: 1, least gap: 1")),
    "inch": (CHEST_INCH, riding("no kicker: {1: 1 1/2}")),
    "forty rows": (CHEST, *MANY, riding("no kicker: {1: 40, 7: 20}, no stop: [3, 5, 9]")),
    "two banks": (CABINET,),
    "two banks, inch": (CABINET_INCH,),
    "two kinds": (CABINET, *TWO_KINDS, riding("no kicker: {1: 12}, no guide: [2]")),
    "four banks": (
        CABINET_INCH, (r"brief:.*\n(  .*\n)+", ""), (r"width: 22 1/2", "width: 45"),
        (r"(    - {open: no}\n)+", "    - {open: no}\n    - {open: no}\n    - {width: 8}\n    - {open: no}\n"),
        riding("no guide: [1], no stop: [6]"), (r"damp: 12", "damp: 20"),
    ),
    "tall drawers that tip out": (
        CABINET_INCH, (r"brief:.*\n(  .*\n)+", ""), (r"height: 15 .*", "height: 38"), (r"depth: 12 5/8", "depth: 19"),
        (r"number: 6", "number: 4"), riding("no kicker: {1: 10 5/8}"),
    ),
    "an open bay": (LOW,),
    "an open bay, inch": (LOW_INCH, riding("no guide: [1, 2, 3]")),
}  # fmt: skip
FIRST = {"chest", "much is missing", "overlay", "forty rows", "two kinds", "an open bay, inch"}
every_case = pytest.mark.parametrize(
    "name", [name if name in FIRST else pytest.param(name, marks=pytest.mark.slow) for name in PIECES]
)


@cache
def case(name):
    return edited_piece(*PIECES[name])


@cache
def plates(name):
    return [case_section_plate(case(name), number=n) for n, _ in enumerate(section_sheets(case(name)), 1)]


def drawers(name):
    return [CutDrawer(case(name), drawer) for drawer in case(name).drawers]


@every_case
def test_words_stand_clear_and_every_sheet_fits(name):
    check_layout(case(name), plates(name))
    check_words(plates(name))


@pytest.mark.slow
@pytest.mark.parametrize("name", PIECES)
def test_whole_sheets_keep_clear_of_the_plate(name):
    check_whole_sheets(case(name), plates(name))


# The open drawer


def opened(cut, times=1):
    """What stands in the picture of an open drawer: its side, what is below it and above, and dots, in its unit."""
    unit = cut.piece.design.unit
    pen = Pen(1.0 if unit == "mm" else 25.4, unit)
    draw_open(pen, (0.0, 0.0), 1.0, cut, times)
    filled = [np.array(item.points) for item in pen.items if isinstance(item, Fill)]
    side = next(np.array(item.points) for item in pen.items if isinstance(item, Stroke) and item.kind == "frame")
    dots = [points[:-1].mean(axis=0) for points in filled if len(points) > 20]
    return side, filled[0], filled[1], dots, pen


def hang_deg(cut, share=F(2, 3)):
    """How an open drawer hangs: turned about the runner's front edge until its corner meets the kicker."""
    inside, side, play = float(cut.drawer.fit.length * (1 - share)), cut.side, cut.drawer.fit.play

    def over(angle):  # the rear upper corner, above the kicker
        return inside * math.sin(angle) + side * math.cos(angle) - side - play

    highest = math.atan2(inside, side)
    return math.degrees(brentq(over, 0.0, highest)) if over(highest) > 0 else math.nan


@every_case
def test_an_open_drawer_hangs_as_its_record_says_and_as_statics_does(name):
    for cut in drawers(name):
        (front_low, rear_low, rear_high, _), below, above, dots, _ = opened(cut)
        fit, long = cut.drawer.fit, float(cut.drawer.fit.length)
        along = (rear_low - front_low) / math.dist(rear_low, front_low)
        turned = math.degrees(math.atan2(along[1], along[0]))
        nose = rear_low - along * long  # lower corner of the front, level with the sides
        assert math.hypot(*nose) == pytest.approx(long * 2 / 3)
        assert abs(along[0] * rear_low[1] - along[1] * rear_low[0]) < 1e-9  # its lower edge bears on the runner's edge
        assert np.allclose(below[0], (0.0, -cut.boards[0])) and np.allclose(below[-1], 0.0)
        assert dots[0] == pytest.approx((0.0, 0.0), abs=1e-9)
        if fit.droops[0].tips_out:
            assert math.isnan(hang_deg(cut))
            assert turned == pytest.approx(math.degrees(math.atan2(long / 3, cut.side)))
            assert len(dots) == 1
            continue
        assert turned == pytest.approx(hang_deg(cut), abs=1e-7)
        assert turned == pytest.approx(fit.droops[0].angle_deg)
        assert -nose[1] == pytest.approx(fit.droops[0].front_fall)
        assert rear_high[1] == pytest.approx(cut.side + fit.play)
        assert dots[1] == pytest.approx(rear_high)
        if cut.drawer.making.run == "runners" and cut.settled.riding.kicker is None:
            assert above[0][1] == pytest.approx(rear_high[1])  # the underside of what is over it


def test_the_exaggerated_drawer_is_turned_five_times_as_far_and_meets_its_kicker_too():
    for cut in drawers("chest"):
        (front_low, rear_low, rear_high, _), _, above, dots, _ = opened(cut, TIMES)
        along = rear_low - front_low
        assert math.degrees(math.atan2(along[1], along[0])) == pytest.approx(5 * hang_deg(cut), abs=1e-6)
        assert above[0][1] == pytest.approx(rear_high[1])
        assert dots[1] == pytest.approx(rear_high)


@every_case
def test_a_droop_that_is_hardly_seen_is_drawn_again_five_times_as_large(name):
    for kind, plate in zip(section_sheets(case(name)), plates(name), strict=True):
        said = " ".join(words_on(plate))
        if name == "slides":
            assert "Scale 1 :" not in said  # no drawer is drawn open
            continue
        scale = (25.4 if plate.unit == "in" else 1.0) / float(re.search(r"1 : ([\d.]+)\.", said)[1])
        droops = [cut.drawer.fit.droops[0] for cut in drawers(name) if cut.drawer.bank in kind.numbers]
        tips = any(droop.tips_out for droop in droops)
        most = max(droop.front_fall for droop in droops if not droop.tips_out)
        assert (f"droop x {TIMES}" in said) == (not tips and most * scale < LEAST_SEEN_MM)
        assert ("tips out" in words_on(plate)) == tips


def test_the_worst_is_shown_or_the_row_that_is_asked_for():
    (plate,) = plates("much is missing")
    assert "Pulled out 240, with 120 still inside, row 3 tips out: in a play of 120 nothing holds it" in plate.caption
    asked = case_section_plate(case("much is missing"), row=1)
    # asin((80 + 40) / sqrt(120^2 + 80^2)) - atan(80 / 120) = 22.62 degrees; 240 sin 22.62 = 92.3
    assert "row 1 nods 92.3: it turns 22.6° in a play of 40 until its rear corner meets what is above." in asked.caption
    assert "no kicker" in words_on(asked)
    with pytest.raises(DesignError, match="There is no row 8; name one from 1 to 7"):
        case_section_plate(case("much is missing"), row=8)


@pytest.mark.parametrize("share", [F(0), F(1, 3), F(3, 4), F(9, 10), F(1)])
@pytest.mark.parametrize(("name", "row"), [("chest", 1), ("no kicker", 1), ("overlay", 7)])
def test_a_drawer_hangs_at_any_extension_as_statics_says(name, row, share):
    drawer = next(drawer for drawer in case(name).drawers if drawer.row == row)
    cut, wanted = CutDrawer(case(name), drawer, share), hang_deg(CutDrawer(case(name), drawer), share)
    (front_low, rear_low, _, _), _, _, dots, pen = opened(cut)
    assert ("tips out" in words_on(pen.drawing("open"))) == math.isnan(wanted) == (len(dots) == 1)
    if not math.isnan(wanted):
        assert math.degrees(math.atan2(*(rear_low - front_low)[::-1])) == pytest.approx(wanted, abs=1e-7)
        fall = float(drawer.fit.length * share) * math.sin(math.radians(wanted))
        assert f"row {row} nods {written(fall, 'mm')}:" in cut.told


# The section


def upright(plate, kind):
    """Upright boxes drawn by a line kind: left, low, right, high."""
    found = []
    for item in plate.items:
        if isinstance(item, Stroke) and item.closed and item.kind == kind and len(item.points) == 4:
            (left, low), (right, high) = np.min(item.points, axis=0), np.max(item.points, axis=0)
            if {left, right} == {x for x, _ in item.points}:
                found.append((left, low, right, high))
    return found


def has_box(boxes, *wanted):
    return any(box == pytest.approx(wanted, abs=1e-6) for box in boxes)


@every_case
def test_every_part_of_every_drawer_stands_where_its_sums_put_it(name):
    made = case(name)
    for kind, plate in zip(section_sheets(made), plates(name), strict=True):
        boxes = upright(plate, "frame")
        mine = [cut for cut in drawers(name) if cut.drawer.bank == kind.numbers[0]]
        for cut, row in zip(mine, kind.rows.rows, strict=True):
            drawer, making = cut.drawer, cut.drawer.making
            floor = float(made.case.height - row.bottom)
            behind = float(drawer.opening.depth - making.back_gap)  # the back room is left free
            side, back, bottom = (drawer.part(part) for part in ("side", "back", "bottom"))
            seen = float(side.length.value - making.let_in)  # what is not in the front
            assert has_box(boxes, behind - seen, floor, behind, floor + float(side.width.value))
            rear = behind - float(making.side_tail)
            foot = floor + float(making.floor_height)
            assert has_box(boxes, rear - float(back.thickness), foot, rear, foot + float(back.width.value))
            start = behind - seen - float(making.groove_depth)
            under = foot - float(bottom.thickness)
            assert has_box(boxes, behind - seen, under, start + float(bottom.width.value), foot)
            high = float(drawer.front_height.value)
            fronts = [box for box in boxes if box[3] - box[1] == pytest.approx(high) and box[0] < behind - seen - 1e-9]
            low = floor + float(made.design.drawers.front.below if making.front == "flush" else -making.overlay)
            assert any(box[1] == pytest.approx(low) for box in fronts)
            outside = {"flush": making.setback, "overlay": -making.front_thickness, "lipped": -making.lip}
            assert any(box[0] == pytest.approx(float(outside[making.front])) for box in fronts)


@every_case
def test_boards_of_the_case_are_cut_where_they_are(name):
    made = case(name)
    design, high = made.design, float(made.case.height)
    for kind, plate in zip(section_sheets(made), plates(name), strict=True):
        boards, depth = upright(plate, "visible"), float(design.overall.depth)
        downs = [0.0, *(float(row.bottom) for row in kind.rows.rows)]
        thick = [design.case.top, *kind.rows.dividers, design.case.bottom]
        for down, board in zip(downs, map(float, thick), strict=True):
            assert has_box(boards, 0.0, high - down - board, depth, high - down)
        assert any(box[0] == pytest.approx(depth - float(design.back.thickness)) for box in boards)
        assert f"back room {written(made.drawers[0].making.back_gap, made.design.unit)}" in words_on(plate)


@pytest.mark.parametrize(
    ("name", "missing", "words"),
    [
        ("chest", 0, []),
        # five rows, and in the picture of row 3 its kicker and its guide again
        (
            "much is missing",
            6 + 2,
            ["1: no kicker", "2: no guide", "3: no kicker, no guide", "4: no stop", "5: no runner"],
        ),
        pytest.param("side-hung", 3, ["2: no runner", "3: no guide", "4: no stop"], marks=pytest.mark.slow),
        ("overlay", 2 + 2, ["7: no kicker, no stop"]),
        ("forty rows", 5 + 1, ["1: no kicker", "3: no stop", "5: no stop", "7: no kicker", "9: no stop"]),
        ("an open bay, inch", 3 + 2, ["1 to 3: no guide"]),
    ],
)
def test_what_is_missing_is_outlined_crossed_and_named(name, missing, words):
    (plate,) = plates(name)
    warned = [item for item in plate.items if isinstance(item, Stroke) and item.kind == "warning"]
    assert len([item for item in warned if item.closed]) == missing
    assert len([item for item in warned if not item.closed]) == 2 * missing
    assert [said for said in words_on(plate) if ": no " in said and "Warning" not in said] == words[::-1]


def test_what_is_missing_is_outlined_in_its_place():
    (plate,) = plates("much is missing")
    high = float(case("much is missing").case.height)
    boxes = [box for box in upright(plate, "warning") if box[2] < 390]
    # openings of 83, 103, 123, 143, 163 below a top of 20, dividers of 18; fronts 20 thick; sides end at 360
    downs = [103, 224, 365, 526, 707]
    floors = [high - down for down in downs]
    assert has_box(boxes, 20, high - 20, 370, high - 10)  # kicker of row 1, the lower half of the top
    assert has_box(boxes, 20, floors[1], 360, floors[1] + 100 / 8)  # guide of row 2
    assert has_box(boxes, 20, floors[1] - 18, 370, floors[1] - 9)  # kicker of row 3, the lower half of the divider
    assert has_box(boxes, 20, floors[4] - 9, 370, floors[4])  # runner of row 5, the upper half of the one below
    assert any(box[:2] == pytest.approx((20, floors[3])) for box in boxes)  # stop of row 4, behind its front


# Table and words


def cells(plate):
    said = words_on(plate)
    head = said.index("Row")
    width = said.index("binds") - head + 1
    rows = []
    for start in range(head + width, len(said), width):
        if not said[start][:1].isdigit() or len(said[start]) > 30:
            break
        rows.append(said[start : start + width])
    return said[head : head + width], rows


def test_the_table_tells_each_row():
    head, rows = cells(plates("much is missing")[0])
    assert head == [
        "Row", "runner", "kicker", "guide", "stop", "over front", "over side", "play", "droop 2/3", "at 3/4",
        "lead 2/3", "at 3/4", "binds",
    ]  # fmt: skip
    # 360 long and 80 high, room 40 above: 240 out it falls 92.3, 270 out 186.2; 231 - 2 wide in a play of 2
    assert rows[0] == ["1", "yes", "none", "yes", "yes", "1.8", "3", "40", "92.3", "186.2", "3.9", "5.2", "-"]
    assert rows[2][8:10] == ["tips out", "tips out"]
    assert [row[0] for row in rows] == [str(n) for n in range(1, 8)]


def test_rows_that_are_alike_share_a_line_over_banks_that_are_alike():
    _, rows = cells(plates("two banks")[0])
    assert [row[0] for row in rows] == ["1 to 6"]
    assert plates("two banks")[0].name == "Case section"
    assert [plate.name for plate in plates("two kinds")] == ["Case section 1", "Case section 2"]


def test_what_binds_is_named_and_warned_of():
    wet = edited_piece(CHEST, (r"damp: 12", "damp: 16"), (r"friction|riding: {.*}", "riding: {friction: 0.6}"))
    plate = case_section_plate(wet)
    _, rows = cells(plate)
    for cut, row in zip([CutDrawer(wet, drawer) for drawer in wet.drawers], rows, strict=True):
        fit = cut.drawer.fit
        assert ("front" in row[-1]) == (fit.front_gaps.damp < 0)
        assert ("sides" in row[-1]) == (fit.side_gaps.damp < 0)
        # pulls stand 124.5 off the middle of the wide drawers: 2 x 0.6 x 124.5 = 149.4 is more than 120
        assert ("one pull" in row[-1]) == (cut.drawer.row > 1)
    warned = [said for said in words_on(plate) if said.startswith("Warning, ")]
    assert warned
    assert "Warning, " in plate.spoken


def test_bought_slides_are_asked_for_no_runner_kicker_or_guide_and_not_drawn_open():
    (plate,) = plates("slides")
    head, rows = cells(plate)
    assert head == ["Row", "slide", "over front", "over side", "binds"]
    assert rows[0] == ["1", "yes", "1.8", "3", "-"]
    assert "On bought slides a drawer needs no runner, kicker or guide" in " ".join(words_on(plate))
    assert "hangs on bought slides: it nods and racks as their maker states." in plate.caption
    assert plate.formulas == ("gaps",)
    assert not {"runner", "kicker", "guide", "stop", "tips out"} & set(words_on(plate))


@pytest.mark.slow
def test_it_stands_among_the_plates_with_its_formulas():
    kinds = [plate.name for plate in plates_of(case("an open bay, inch"))]
    assert kinds.index("Five rules") < kinds.index("Case section") < kinds.index("Legs")
    assert plates("chest")[0].formulas == ("droop", "racking", "gaps")
    assert "Row 1: runner yes, kicker yes" in plates("chest")[0].spoken


def test_a_piece_without_drawers_has_none():
    bare = piece("metric")
    assert section_sheets(bare) == ()
    with pytest.raises(DesignError, match="does not say how its drawers are made"):
        case_section_plate(bare)
    with pytest.raises(DesignError, match="has no case section 2, it has 1"):
        case_section_plate(case("chest"), number=2)
    assert section_sheets(read_piece(ROOT / "notebooks/designs/practice_stool.yaml")) == ()
