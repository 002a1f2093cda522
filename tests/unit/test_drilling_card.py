"""The card at the drill: its figures, its strokes measured against vectors, and its words on strained seats.

Vectors are worked here in the room's frame (x to the right, y to the front, z up), from the rake and
splay of the design file alone. A seat that is pitched back has its front line along (0, cos p, sin p).
"""

from __future__ import annotations

import math
import re
from functools import cache

import numpy as np
import pytest
from leg_shapes import on_round_legs, on_square_legs
from pictures import BARE, ROOT, first_of
from scipy.spatial.transform import Rotation
from test_plates import clashes, outside, rooms_of, struck

from furnlib.base.guards import DesignError
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Arc, Fill, Stroke, Text
from furnlib.draw.plates.drilling import DRILLING_CARD, drilling_plate
from furnlib.draw.plates.views import written
from furnlib.draw.scale import PLATE_MM
from furnlib.draw.sheet import PAPER_MM, sheet
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.record.stamp import title_of
from furnlib.trade.cautions import DRILLING

FOUR, PROFILED = ((ROOT / f"notebooks/designs/stool_{n}_legs.yaml").read_text("utf-8") for n in ("four", "three"))
THREE = on_round_legs(PROFILED, 36, 22, 25)
INCH = """{piece: "Stool, inch shop", unit: in, grid: 1/32, overall: {height: 18, width: 14 1/8, depth: 10 1/4},
seat: {thickness: 1 1/2, pitch: 5, outline: round}, legs:
  {round: {largest: 1 3/8, foot: 7/8, tenon: 1}, mortises: {out: 3 1/2, front: 2 3/4, rear: 2 3/4}, lean: {
    front left: {rake: 3, splay: 12}, front right: {rake: 3, splay: 12},
    rear left: {rake: 16, splay: 12}, rear right: {rake: 16, splay: 12}}}}
"""
INCH_THREE = INCH.split("    rear left", maxsplit=1)[0] + "rear: {rake: 21 1/2, splay: 0}}}}"
SQUARE = on_square_legs(FOUR, 30)
IN_FRONT = THREE.split("    front left")[0] + (
    "    front: {rake: 2, splay: 0}\n    rear left: {rake: 8, splay: 14}\n    rear right: {rake: 8, splay: 14}\n"
)
WIDE = {"overall width": "700", "overall depth": "640"}


def all_four(rake, splay):
    corners = ("front_left", "front_right", "rear_left", "rear_right")
    return {f"legs lean {at} {name}": angle for at in corners for name, angle in (("rake", rake), ("splay", splay))}


STOOLS = {
    "four": (FOUR, {}), "three": (THREE, {}), "three, a whole profile": (PROFILED, {}),
    "inch": (INCH, {}), "inch, three": (INCH_THREE, {}),
    "pitched 3": (FOUR, {"seat pitch": "3"}), "pitched 8": (FOUR, {"seat pitch": "8"}),
    "three, pitched 4": (THREE, {"seat pitch": "4"}),
    "steep": (FOUR, {"seat pitch": "8", **WIDE, **all_four("30", "30")}),
    "plumb": (FOUR, all_four("0", "0")),
    "plumb, pitched": (FOUR, {"seat pitch": "6", **all_four("0", "0")}),
    "one way": (FOUR, all_four("0", "14")),
    "inward": (FOUR, all_four("-6", "-4")),
    "four leans": (FOUR, {"seat pitch": "3", "legs lean front_left rake": "2", "legs lean rear_left splay": "-3"}),
    "bench": (FOUR, {"overall width": "1400", "legs mortises out": "600"}),
    "small": (THREE, {"overall height": "120", "overall width": "150", "overall depth": "110", "seat thickness": "18",
                      "legs mortises out": "45", "legs mortises front": "30", "legs mortises rear": "30",
                      "legs round tenon": "12", "legs round largest": "30"}),
    "round, one in front": (IN_FRONT, {"overall width": "300", "overall depth": "300", "seat outline": "round",
                                       "seat pitch": "6", "legs mortises out": "90"}),
    "square legs": (SQUARE, {}),
    "thick legs": (FOUR, {"legs round largest": "75", **WIDE, **all_four("25", "25")}),
    "straight legs": (FOUR, {"legs round foot": "36"}),
    "long legs": (FOUR, {"overall height": "740", **WIDE}),
    "a long name": (FOUR, {"piece": "Stool for the bench under the north window of the old mill"}),
}  # fmt: skip
every_stool = pytest.mark.parametrize("name", STOOLS)


@cache
def stool(name):
    text, values = STOOLS[name]
    design = DesignText.parse(text)
    for path, value in values.items():
        design = design.with_value(tuple(key.replace("_", " ") for key in path.split()), value)
    return piece_of(design)


@cache
def cards(name):
    made = stool(name)
    return [drilling_plate(made, number=number) for number in range(1, len(DRILLING_CARD.sheets(made)) + 1)]


def words_on(plate):
    return [mark.words for mark in plate.marks() if isinstance(mark, Text)]


def check_layout(made, plates):
    """Words stand clear and inside, no line runs through them, and both papers hold the plate."""
    for number, plate in enumerate(plates, 1):
        found = rooms_of(plate)
        assert clashes(found) == []
        assert outside(found, *plate.size_mm) == []
        assert struck(plate, found) == []
        marks = [mark for mark in plate.marks() if not isinstance(mark, Text)]
        points = np.concatenate([mark.points() if callable(mark.points) else mark.points for mark in marks])
        assert (points >= plate.box[:2]).all()
        assert (points <= plate.box[2:]).all()
        assert (np.array(plate.size_mm) <= PLATE_MM).all()
        for paper in PAPER_MM:
            assert sheet(plate, title_of(made, plate, number, 9), paper).size_mm == pytest.approx(PAPER_MM[paper])


def check_whole_sheets(made, plates):
    """Title block, stamp and plate keep clear of one another, on either paper."""
    for number, plate in enumerate(plates, 1):
        for paper in PAPER_MM:
            assert clashes(rooms_of(sheet(plate, title_of(made, plate, number, 9), paper))) == []


def check_words(plates):
    """A caption of two sentences; spoken words without figures that only the eye reads."""
    for plate in plates:
        assert re.fullmatch(r"[^\n]+\.\n[^\n]+\.", plate.caption)
        assert re.fullmatch(r"[^⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄\u202f\n]+\.", plate.spoken)


def figures_on(plate):
    """Every figure that stands on a plate, without the numbers of the steps and the scales."""
    said = [re.sub(r"^\d  |1 : [\d.]+|Below 0:", "", words) for words in words_on(plate)]
    pattern = r"(?<![\w.])-?(?:\d+\u202f)?[\d⁰¹²³⁴⁵⁶⁷⁸⁹]+(?:\.\d+|⁄[₀₁₂₃₄₅₆₇₈₉]+)?°?"
    return {figure for words in said for figure in re.findall(pattern, words)}


def sizes_written(made):
    """The master sizes and the derived ones, as plates write them."""
    return {
        write_angle(size.value) if size.unit == "deg" else written(size.value, made.design.unit)
        for size in (*made.masters, *made.sizes)
        if size.unit
    }


def gauge_of(made):
    return 100 if made.design.unit == "mm" else 10


def tan(angle):
    return math.tan(math.radians(angle))


def from_the_seat(made, leg):
    """Leg from mortise to foot, one square down from the underside: to the right, and to the front along the seat."""
    named, pitch = made.design.legs.lean[leg.position], math.radians(made.design.seat.pitch)
    axis = np.array([leg.outward[0] * tan(named.splay), -leg.outward[1] * tan(named.rake), -1.0])
    down = axis @ np.array([0.0, math.sin(pitch), -math.cos(pitch)])
    return axis[0] / down, axis @ np.array([0.0, math.cos(pitch), math.sin(pitch)]) / down


def outward(made, leg):
    """Tangents of drill rake, drill splay and drill total lean."""
    across, front = from_the_seat(made, leg)
    return -front * leg.outward[1], across * leg.outward[0], math.hypot(across, front)


def degrees(slope):
    return math.degrees(math.atan(slope))


def sheets(name):
    """Each card with the legs that stand for its leans."""
    made = stool(name)
    return [(card, [group[0] for group in DRILLING_CARD.sheet(made, n)]) for n, card in enumerate(cards(name), 1)]


@pytest.mark.parametrize("name", first_of(STOOLS, "inch, three", "steep", "plumb, pitched", "four leans", "small"))
def test_words_stand_clear_are_well_formed_and_every_card_fits_its_sheet(name):
    check_layout(stool(name), cards(name))
    check_words(cards(name))


@pytest.mark.parametrize("name", first_of(("four", "inch", "a long name"), "a long name"))
def test_the_words_of_a_whole_sheet_stand_clear(name):
    check_whole_sheets(stool(name), cards(name))


def test_there_is_a_card_for_every_two_leans_of_a_seat():
    assert [len(cards(name)) for name in ("four", "three", "plumb", "four leans", "pitched 8")] == [1, 1, 1, 2, 1]
    assert [plate.name for plate in cards("four leans")] == ["Drilling card 1", "Drilling card 2"]
    chest = read_piece(BARE / "landing_chest.yaml")
    assert DRILLING_CARD.sheets(chest) == ()
    with pytest.raises(DesignError, match="has no drilling card 1, it has 0: only legs under a seat"):
        drilling_plate(chest)


# Figures


@every_stool
def test_every_figure_on_the_card_is_a_size_of_the_piece(name):
    made = stool(name)
    runs = [gauge_of(made) * slope for leg in made.legs for slope in outward(made, leg)]
    allowed = sizes_written(made) | {f"{gauge_of(made)}"} | {written(run, made.design.unit) for run in runs}
    for plate in cards(name):
        assert figures_on(plate) - allowed == set()


def table_rows(plate):
    """The rows of the tables as they are read: what stands on one level in the left third."""
    marks = [mark for mark in plate.marks() if isinstance(mark, Text)]
    rows = []
    for head in marks:
        if head.words in ("rake", "splay", "total lean", "sight line") and head.anchor == "start":
            level = [m for m in marks if m.at[1] == head.at[1] and 0 < (m.at[0] - head.at[0]) * plate.scale < 70]
            cells = [m.words for m in sorted(level, key=lambda m: m.at[0]) if m.anchor == "end" and m.words]
            if cells:
                rows.append((head.words, *cells))
    return rows


@every_stool
def test_the_tables_give_the_drilling_lean_its_runs_and_the_lean_in_the_room(name):
    made = stool(name)
    for plate, legs in sheets(name):
        expected = []
        for leg in legs:
            named, slopes = made.design.legs.lean[leg.position], outward(made, leg)
            room = (tan(named.rake), tan(named.splay), math.hypot(tan(named.rake), tan(named.splay)))
            for word, slope, true in zip(("rake", "splay", "total lean"), slopes, room, strict=True):
                run = written(gauge_of(made) * slope, made.design.unit)
                expected.append((word, write_angle(degrees(slope)), run, write_angle(degrees(true))))
            sights = [(math.degrees(math.atan2(s, r)), total) for r, s, total in (slopes, room)]
            expected.append(("sight line", *(write_angle(sight) if lean > 1e-9 else "none" for sight, lean in sights)))
        if not made.design.seat.pitch:  # level: the room is not shown a second time
            expected = [row[:-1] for row in expected]
        assert table_rows(plate) == expected


@every_stool
def test_lengths_and_bit_stand_on_the_card(name):
    made, unit = stool(name), stool(name).design.unit
    shape = made.design.legs
    tenon = shape.round.tenon if shape.round else shape.profile and shape.profile[0].diameter
    bit = tenon and f"Bit and tenon {written(tenon, unit)}."
    for plate, legs in sheets(name):
        for leg in legs:
            named = made.design.legs.lean[leg.position]
            inside = float(made.design.seat.thickness) * math.hypot(1, outward(made, leg)[2])
            below = float(leg.height) * math.hypot(1, tan(named.rake), tan(named.splay))
            assert f"Axis {written(inside, unit)} inside the seat, {written(below, unit)} below it." in words_on(plate)
        assert (bit or "Leg 30 square: mark its mortise from the leg.") in words_on(plate)


def test_the_demo_stools_by_hand():
    # 100 x tan 18 degrees is 32.49; the axis 40 / cos 18 = 42.06 in the seat and 420 / cos 18 = 441.6 below
    said = {"Ramp 18°: 32.5 up on 100", "Axis 42.1 inside the seat, 441.6 below it.", "Bit and tenon 25."}
    assert said <= set(words_on(cards("three")[0]))
    # tan² 10 + tan² 12 = 0.03109 + 0.04518 = 0.2762², atan 15.44; atan2(0.2126, 0.1763) = 50.3
    assert "Ramp 15.4°: 27.6 up on 100" in words_on(cards("four")[0])
    assert words_on(cards("four")[0]).count("sight line 50.3°") == 2  # beside either front mortise
    assert words_on(cards("four")[0]).count("50.3°") == 1  # in the table
    # pitched 8: 10 - 8 and 16 + 8
    assert {"2°", "24°"} <= figures_on(cards("pitched 8")[0])


# Strokes


def drawn(plate, kind, closed=False):
    found = [mark for mark in plate.items if isinstance(mark, Stroke) and (mark.kind, mark.closed) == (kind, closed)]
    return [np.array(mark.points) for mark in found]


@every_stool
def test_sight_lines_run_through_the_mortises_the_way_the_feet_go_seen_from_below(name):
    """Front edge on top and the left at the left: what stands below the seat is seen as it is in plan."""
    made = stool(name)
    places, overall = made.design.legs.mortises, made.design.overall
    for plate in cards(name):
        outline = np.array(next(item.points for item in plate.items if isinstance(item, Fill)))
        low, high = outline.min(axis=0), outline.max(axis=0)
        assert high - low == pytest.approx([float(overall.width), float(overall.depth)])  # along its own surface
        heads = [item.points[0] for item in plate.items if isinstance(item, Fill) and item.tint == "blue"]
        arcs = [item for item in plate.items if isinstance(item, Arc) and item.kind == "dimension"]
        for leg in made.legs:
            side = leg.outward[0] if " " in leg.position else 0
            back = -float(places.front) if "front" in leg.position else float(places.rear)
            mortise, way = (low + high) / 2 + [side * float(places.out), -back], np.array(from_the_seat(made, leg))
            through = [line for line in drawn(plate, "sight") if distance(line, mortise) * plate.scale < 1e-6]
            assert len(through) == (np.linalg.norm(way) > 1e-9)
            for line in through:
                along = (line[1] - line[0]) / np.linalg.norm(line[1] - line[0])
                assert along == pytest.approx(way / np.linalg.norm(way))
                assert any(math.dist(head, line[1]) * plate.scale < 1e-6 for head in heads)
            sides = {round(turn % 360, 6) for arc in arcs if math.dist(arc.centre, mortise) * plate.scale < 1e-6
                     for turn in (arc.start_deg, arc.end_deg)}  # fmt: skip
            fore_and_aft, along = -90.0 * leg.outward[1] % 360, math.degrees(math.atan2(way[1], way[0])) % 360
            assert sides == ({round(fore_and_aft, 6), round(along, 6)} if abs(way[0]) > 1e-9 or sides else set())


def distance(line, point):
    """From a point to a line of limited length."""
    along = line[1] - line[0]
    share = np.clip((point - line[0]) @ along / (along @ along), 0.0, 1.0)
    return float(np.linalg.norm(line[0] + share * along - point))


@every_stool
def test_each_ramp_is_drawn_at_the_drill_total_lean_with_its_rise_and_the_arrow_uphill(name):
    made = stool(name)
    for plate, legs in sheets(name):
        slopes = [outward(made, leg)[2] for leg in legs if outward(made, leg)[2] > 1e-9]
        ramps = drawn(plate, "cut", closed=True)
        arrows = drawn(plate, "sight")[-len(ramps) :] if ramps else []
        for (toe, heel, top), arrow, slope in zip(ramps, arrows, slopes, strict=True):
            assert toe[1] == heel[1]
            assert heel[0] == pytest.approx(top[0])
            assert (top[1] - toe[1]) / (top[0] - toe[0]) == pytest.approx(slope)
            assert (arrow[1] - arrow[0])[1] / (arrow[1] - arrow[0])[0] == pytest.approx(slope)
            assert arrow[1][0] > arrow[0][0]
            rise = written(gauge_of(made) * slope, made.design.unit)
            assert f"Ramp {write_angle(degrees(slope))}: {rise} up on {gauge_of(made)}" in words_on(plate)
        assert {"uphill", "downhill"} <= set(re.findall(r"\w+hill", " ".join(words_on(plate))))


@every_stool
def test_with_the_underside_up_the_outward_end_lies_uphill_and_from_above_downhill(name):
    """The seat tipped about the level line square to its sight line until the leg stands plumb under the bit."""
    for leg in stool(name).legs:
        slope = outward(stool(name), leg)[2]
        for up in (1.0, -1.0):  # underside up the leg goes up from the seat, the right way up it goes down
            axis = np.array([slope, 0.0, up]) / math.hypot(slope, 1)  # outward, across, up
            turn, _ = Rotation.align_vectors([[0, 0, up], [0, 1, 0]], [axis, [0, 1, 0]])
            climbs = math.degrees(math.asin(turn.apply([1.0, 0.0, 0.0])[2]))
            assert climbs == pytest.approx(up * degrees(slope), abs=1e-9)


# Hinges


def stacks_on(plate):
    """What is printed under each stack: which hinge above with its angle, which below with its."""
    words = [re.match(r"(above|below): (side to side|fore and aft) (-?[\d.]+)°", said) for said in words_on(plate)]
    where, hinges, angles = zip(*[match.groups() for match in words if match], strict=True) if any(words) else ((),) * 3
    assert where == ("above", "below") * (len(where) // 2)
    found = [(hinge, float(angle)) for hinge, angle in zip(hinges, angles, strict=True)]
    return [found[i : i + 2] for i in range(0, len(found), 2)]


def leg_on_hinges(axis, above, below):
    """A leg that stands up from the upper board, in the room, after both boards are tilted.

    The axis is given outward sideways, outward fore and aft, up. Each hinge lifts the outward side, so
    that the top of the leg moves inward; the lower one carries the upper one.
    """
    for hinge, angle in (above, below):
        line = [0, 1, 0] if hinge == "fore and aft" else [-1, 0, 0]
        axis = Rotation.from_rotvec(-np.radians(angle) * np.array(line, dtype=float)).apply(axis)
    return axis


@every_stool
def test_either_stack_of_hinges_brings_the_leg_plumb_and_rake_with_splay_does_not(name):
    made = stool(name)
    for plate, legs in sheets(name):
        leans = [outward(made, leg) for leg in legs if outward(made, leg)[2] > 1e-9]
        stacks = stacks_on(plate)
        assert len(stacks) == 2 * len(leans)
        misses = False
        for i, (rake, splay, total) in enumerate(leans):
            axis = np.array([splay, rake, 1.0]) / math.hypot(1, total)
            for above, below in stacks[2 * i : 2 * i + 2]:
                assert {above[0], below[0]} == {"side to side", "fore and aft"}
                off = leg_on_hinges(axis, above, below)
                assert degrees(math.hypot(off[0], off[1])) < 0.08  # both angles are printed to 0.1
            one, other = ("side to side", degrees(rake)), ("fore and aft", degrees(splay))
            misses |= all(np.hypot(*leg_on_hinges(axis, *pair)[:2]) > 1e-9 for pair in ((one, other), (other, one)))
        assert bool(drawn(plate, "warning")) == misses
        assert any(said.startswith("Wrong: rake on one hinge and splay on") for said in words_on(plate)) == misses


def test_the_two_stacks_of_one_leg_by_hand():
    # rake 16, splay 12: atan(tan 12 cos 16) = atan(0.21256 x 0.96126) = 11.55; atan(tan 16 cos 12) = 15.67
    assert stacks_on(cards("four")[0])[2:] == [
        [("side to side", 16.0), ("fore and aft", 11.5)],
        [("fore and aft", 12.0), ("side to side", 15.7)],
    ]


@every_stool
def test_cautions_names_and_the_side_to_drill_from_stand_on_every_card(name):
    made = stool(name)
    for plate in cards(name):
        said = re.sub(" +", " ", " ".join(words_on(plate)))
        for part in (*DRILLING, "underside up", "same angles, other", "square line", "Rake = seen from the side"):
            assert part in said
        assert all(leg.position.capitalize() in words_on(plate) for leg in made.legs)
        assert ("in the room are others" in said) == ("in the room" in words_on(plate)) == bool(made.design.seat.pitch)
        assert ("in the room are the same" in said) == (not made.design.seat.pitch)
    assert all(leg.position in " ".join(plate.spoken for plate in cards(name)).lower() for leg in made.legs)
