"""Plate 8, the screw in the leg: what is drawn against the hole in space, its words, and its sheet.

The witness is in_space: the leg's axis from rake and splay, its two faces by cross products and turns, and a plumb
cylinder. Each section is that space seen square to one face: outward of the axis, and down along it.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cache

import in_space
import numpy as np
import pytest
from leg_shapes import on_round_legs, on_square_legs
from pictures import ROOT, first_of
from scipy.optimize import brentq
from strained import edited_piece
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on
from test_triangle_card import CHEST, INCH, WIDE, leans

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Dimension, Fill, Stroke, Text
from furnlib.draw.plates.fixing import FIXING, fixing_plate
from furnlib.draw.plates.groups import WORDS_NOTE
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.plan.piece import read_piece
from furnlib.plan.sizes.legs import mirror_groups
from furnlib.trade.cautions import DRILLING

CHEST, INCH = map(on_square_legs, (CHEST, INCH))
TURNS, RING = np.linspace(0.0, 2 * math.pi, 3601), 1 - math.cos(math.radians(2.5))
"""A ring is drawn through every fifth degree: it may miss the furthest place by this part of its radius."""


def alike(rake, splay):
    return leans(*[(rake, splay)] * 4)


def screw(diameter, depth, wall, pin, pin_depth):
    sizes = f"diameter: {diameter}, depth: {depth}, wall: {wall}, pin: {pin}, pin depth: {pin_depth}"
    return r"fixing: .*\n(    .*\n){5}", f"fixing: {{{sizes}}}\n"


def turned(orientation):
    return r"(  square: .*\n)", f"\\1  orientation: {orientation}\n"


PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "all alike": (CHEST, alike(8, 6)),
    "four leans": (CHEST, leans((8, 6), (4, 11), (1.5, 6), (0, 12)), screw(8, 60, 5, 5, 20)),
    "plumb": (CHEST, alike(0, 0)),
    "one way": (CHEST, alike(9, 0)),
    "inward": (CHEST, *WIDE, alike(-7, 5), screw(8, 50, 5, 5, 20)),
    "inward both": (CHEST, *WIDE, alike(-7, -9), screw(8, 50, 5, 5, 20)),
    "thin": (CHEST, ("square: 48", "square: 30"), screw(4, 25, 4, 3, 10)),
    "thick": (CHEST, *WIDE, ("square: 48", "square: 75"), screw(10, 80, 8, 8, 30)),
    "thick, steep": (CHEST, *WIDE, ("square: 48", "square: 75"), alike(22, 3), screw(10, 70, 6, 8, 30)),
    "low": (CHEST, *WIDE, ("height: 151", "height: 90"), alike(10, 12), screw(8, 75, 4, 5, 20)),
    "high": (CHEST, *WIDE, ("height: 151", "height: 700"), alike(14, 8), screw(8, 45, 4, 6, 25)),
    "deep": (CHEST, ("height: 1300", "height: 2400"), ("height: 151", "height: 400"), screw(8, 120, 4, 6, 25)),
    "comes out": (CHEST, *WIDE, alike(24, 5), screw(6, 70, 4, 5, 20)),
    "front level": (CHEST, *WIDE, alike(12, 9), turned("front_level"), screw(6, 50, 4, 5, 20)),
    "side level": (CHEST, *WIDE, alike(12, 9), turned("side_level"), screw(6, 50, 4, 5, 20)),
    "sight line": (CHEST, *WIDE, alike(12, 9), turned("sightline"), screw(6, 50, 4, 5, 20)),
    "corner foremost": (CHEST, *WIDE, alike(12, 9), turned("sightline_corner"), screw(6, 50, 4, 5, 20)),
    "round": (on_round_legs(CHEST, 60, 60, 30),),
    "a long name": (CHEST, (r"piece: .*", "piece: Tall chest of drawers for the half-landing of the old mill")),
}
SQUARE = [name for name in PIECES if name not in ("round", "sight line", "corner foremost")]
every_piece, every_square = (pytest.mark.parametrize("name", names) for names in (PIECES, SQUARE))


@cache
def made(name):
    return edited_piece(*PIECES[name])


@cache
def plates(name):
    return [fixing_plate(made(name), number=number) for number in range(1, len(FIXING.sheets(made(name))) + 1)]


@dataclass(frozen=True)
class Hole:
    """A plumb hole in one leg, in space: the top of the axis at the origin, back and across as in plan."""

    axis: np.ndarray
    front: np.ndarray
    side: np.ndarray
    half: float
    diameter: float
    depth: float

    def at(self, depth):
        return np.array([0.0, 0.0, -depth])

    def rim(self, depth):
        level = np.outer(np.cos(TURNS), in_space.ACROSS) + np.outer(np.sin(TURNS), in_space.BACK)
        return self.at(depth) + level * self.diameter / 2

    def wall(self, normal, depth):
        """From the rim to the nearer of the two faces with that normal."""
        return self.half - abs(self.rim(depth) @ normal).max()


def hole_of(name, leg):
    design = made(name).design
    named = design.legs.lean[leg.position]
    axis = in_space.axis(leg.position, named.rake, named.splay)
    front, side = in_space.faces(leg.position, axis, design.legs.orientation)
    fixing = design.legs.fixing
    return Hole(axis, front, side, float(leg.square) / 2, float(fixing.diameter), float(fixing.depth))


@dataclass(frozen=True)
class View:
    """One section as it is drawn, its axis at zero, outward to the right, down above zero."""

    out: np.ndarray  # normal of the faces that are seen on edge
    hole: Hole
    lines: dict

    def seen(self, point):
        return np.array([point @ self.out, point @ self.hole.axis])


def views(name):
    """Both sections of every lean, read back from the strokes."""
    found = []
    for plate, group in zip(plates(name), mirror_groups(made(name).legs), strict=True):
        hole = hole_of(name, group[0])
        marks = [(mark, np.array(mark.points)) for mark in plate.marks() if isinstance(mark, Stroke)]
        cuts = [i for i, (mark, _) in enumerate(marks) if mark.kind == "cut"]
        across, back = in_space.outward(group[0].position)
        normals = [hole.front, hole.side][:: across * back]
        for i, (at, out) in enumerate(zip(cuts, normals, strict=True)):
            middle = marks[at][1].mean(axis=0)
            turn = np.array([1 - 2 * i, -1.0])
            until = cuts[i + 1] if i + 1 < len(cuts) else len(marks)
            lines = {}
            for mark, points in marks[at - 2 : until]:
                lines.setdefault(mark.kind, []).append((points - middle) * turn)
            found.append(View(out, hole, lines))
    assert len(found) == 2 * len(plates(name))
    return found


# What is drawn, against the hole in space


@every_square
def test_the_level_top_runs_across_the_leg_as_the_level_plane_does(name):
    for view in views(name):
        [cut] = view.lines["cut"]
        # in the section the level top holds every direction that is square both to plumb and to the view
        line = np.cross(in_space.UP, np.cross(view.hole.axis, view.out))
        slope = (line @ view.hole.axis) / (line @ view.out)
        assert sorted(cut[:, 0]) == pytest.approx([-view.hole.half, view.hole.half])
        assert cut[:, 1] == pytest.approx(cut[:, 0] * slope, abs=1e-9)


def test_the_mitre_of_a_leg_without_twist_is_rake_on_the_side_face_and_splay_on_the_front():
    on_side, on_front = views("chest")[:2]
    for view, angle in ((on_side, 8.0), (on_front, 6.0)):
        [cut] = view.lines["cut"]
        run, fall = cut[1] - cut[0]
        assert math.degrees(math.atan2(fall, run)) == pytest.approx(angle)


@every_square
def test_the_hole_starts_on_the_axis_at_the_cut_and_ends_where_the_screw_does(name):
    for view in views(name):
        left, right = view.lines["visible"][2:4]  # after the long edges of the leg
        mouth, tip = (left + right) / 2
        assert mouth == pytest.approx([0.0, 0.0], abs=1e-9)
        assert tip == pytest.approx(view.seen(view.hole.at(view.hole.depth)), abs=1e-9)
        [cut] = view.lines["cut"]
        assert (tip - mouth) @ (cut[1] - cut[0]) == pytest.approx(0.0, abs=1e-6)  # plumb stands square to level
        width = (right - left)[0]
        assert np.linalg.norm(width) == pytest.approx(view.hole.diameter)


@every_square
def test_the_wall_at_the_tip_is_drawn_true(name):
    for view in views(name):
        wall = view.hole.wall(view.out, view.hole.depth)
        tip = view.seen(view.hole.at(view.hole.depth))
        rings = [points for points in view.lines["thin"] if len(points) > 20]
        ring = min(rings, key=lambda points, tip=tip: off(points, tip))
        assert off(ring, tip) < view.hole.diameter * RING
        assert view.hole.half - abs(ring[:, 0]).max() == pytest.approx(wall, abs=view.hole.diameter / 2 * RING)
        rim = view.hole.rim(view.hole.depth) @ np.array([view.out, view.hole.axis]).T
        gaps = np.linalg.norm(ring[:, None] - rim, axis=2).min(axis=1)
        assert gaps.max() < view.hole.diameter / 1000  # the rim is given through every tenth of a degree
        edges = view.lines["visible"][:2]
        assert sorted(edge[0, 0] for edge in edges) == pytest.approx([-view.hole.half, view.hole.half])
        assert all(edge[0, 0] == pytest.approx(edge[1, 0]) for edge in edges)


def off(ring, place):
    """How far the middle of a ring lies from a place."""
    return abs((ring.min(axis=0) + ring.max(axis=0)) / 2 - place).max()


@pytest.mark.parametrize("name", [name for name in PIECES if name != "round"])
def test_the_wall_that_is_written_is_the_one_in_space_and_stands_where_it_is(name):
    for plate, group in zip(plates(name), mirror_groups(made(name).legs), strict=True):
        hole = hole_of(name, group[0])
        walls = [hole.wall(normal, hole.depth) for normal in (hole.front, hole.side)]
        across, back = in_space.outward(group[0].position)
        drawn = [item for item in plate.items if isinstance(item, Dimension) and item.offset_mm == 0.0]
        shown = [wall for wall in walls[:: across * back] if wall > 0]
        assert [item.words for item in drawn] == [written(wall, plate.unit) for wall in shown]
        for item, wall in zip(drawn, shown, strict=True):
            assert math.dist(item.start, item.end) == pytest.approx(wall, abs=1e-6 * hole.half)
            assert item.start[1] == item.end[1]  # square to the upright face


def test_the_wall_of_a_turned_leg_is_the_least_distance_from_hole_to_surface():
    leg = made("round").legs[0]
    named, fixing = made("round").design.legs.lean[leg.position], made("round").design.legs.fixing
    axis = in_space.axis(leg.position, named.rake, named.splay)
    bare = Hole(axis, in_space.BACK, in_space.ACROSS, 30.0, float(fixing.diameter), float(fixing.depth))
    wall = 30.0 - np.linalg.norm(np.cross(bare.rim(bare.depth), axis), axis=1).max()
    [size] = [item for item in plates("round")[0].items if isinstance(item, Dimension) and item.offset_mm == 0.0]
    assert size.words == written(wall, "mm")
    assert math.dist(size.start, size.end) == pytest.approx(wall, abs=1e-4)
    # seen square to the sight line the level top is at the total lean, tan R = 0.175496
    [cut] = [mark.points for mark in plates("round")[0].items if isinstance(mark, Stroke) and mark.kind == "cut"]
    assert (cut[0][1] - cut[1][1]) / (cut[1][0] - cut[0][0]) == pytest.approx(0.175496, abs=1e-6)


@every_square
def test_the_pin_is_drawn_where_it_stands_in_space(name):
    for number, (leg, *_) in enumerate(mirror_groups(made(name).legs)):
        fixing = made(name).design.legs.fixing
        level = hole_of(name, leg).axis * [1.0, 1.0, 0.0]
        if not np.any(level):
            level = in_space.outward(leg.position)[1] * in_space.BACK
        out = in_space.unit(level) * leg.pin.pin_offset
        for view in views(name)[2 * number : 2 * number + 2]:
            left, right = view.lines["hidden"][:2]
            tip = (left[1] + right[1]) / 2
            assert tip == pytest.approx(view.seen(out - [0.0, 0.0, float(fixing.pin_depth)]), abs=1e-9)
            assert np.linalg.norm(right[1] - left[1]) == pytest.approx(float(fixing.pin))


@every_piece
def test_from_above_screw_pin_and_the_axis_at_the_tip_stand_on_the_sight_line(name):
    for plate, group in zip(plates(name), mirror_groups(made(name).legs), strict=True):
        design, leg = made(name).design, group[0]
        named, fixing = design.legs.lean[leg.position], design.legs.fixing
        screw_hole, pin = [mark for mark in plate.marks() if isinstance(mark, Arc) and mark.end_deg == 360.0]
        part = screw_hole.radius / (float(fixing.diameter) / 2)
        assert part <= 1.0
        assert pin.radius == pytest.approx(float(fixing.pin) / 2 * part)
        axis = in_space.axis(leg.position, named.rake, named.splay)
        step = np.array(pin.centre) - screw_hole.centre
        assert np.linalg.norm(step) == pytest.approx(leg.pin.pin_offset * part)
        run = axis[:2] / -axis[2]
        assert step[0] * run[1] - step[1] * run[0] == pytest.approx(0.0, abs=1e-9)
        dots = [np.array(mark.points) for mark in plate.items if isinstance(mark, Fill) and mark.tint == "ink"]
        if np.any(np.round(run, 12)):
            at_tip = (dots[0].min(axis=0) + dots[0].max(axis=0)) / 2 - screw_hole.centre
            assert at_tip == pytest.approx(run * float(fixing.depth) * part, abs=1e-6)
            assert step @ run > 0  # outward
        else:
            assert dots == []


@every_square
def test_from_above_the_top_is_the_level_section_of_the_leg(name):
    for plate, group in zip(plates(name), mirror_groups(made(name).legs), strict=True):
        leg = group[0]
        middle, *_ = [mark for mark in plate.marks() if isinstance(mark, Arc) and mark.end_deg == 360.0]
        part = middle.radius / (float(made(name).design.legs.fixing.diameter) / 2)
        *_, outline = (mark.points for mark in plate.items if isinstance(mark, Fill) and len(mark.points) == 4)
        axis = hole_of(name, leg).axis
        expected = in_space.corners(
            leg.position, axis, float(leg.square), np.zeros(3), orientation=made(name).design.legs.orientation
        )
        assert (np.array(outline) - middle.centre) / part == pytest.approx(expected[:, :2], abs=1e-9)
        dashed = [mark for mark in plate.marks() if isinstance(mark, Stroke) and mark.kind == "hidden"]
        at_tip = [mark.points for mark in dashed if mark.closed]
        step = axis[:2] / -axis[2] * float(made(name).design.legs.fixing.depth)
        assert len(at_tip) == int(np.any(np.round(step, 9)))
        for points in at_tip:
            assert (np.array(points) - middle.centre) / part == pytest.approx(expected[:, :2] + step, abs=1e-9)


def test_where_the_screw_comes_out_is_marked_where_the_hole_meets_the_face():
    for view in views("comes out"):
        marks = view.lines.get("warning", [])
        if view.hole.wall(view.out, view.hole.depth) > 0:
            assert marks == []
            continue
        depth = brentq(lambda deep, view=view: view.hole.wall(view.out, deep), 1.0, view.hole.depth)
        [mark] = marks
        assert mark.mean(axis=0) == pytest.approx(view.seen(view.hole.at(depth)), abs=1e-4)
    words = words_on(plates("comes out")[0])
    assert any(re.fullmatch(r"comes out \d+(\.\d)?", line) for line in words)  # never by colour alone
    assert any(re.fullmatch(r"70 deep, out by \d+(\.\d)?", line) for line in words) or "70 deep" in words
    assert "Warning: too little wood is left." in " ".join(words)


def test_the_deepest_screw_is_marked_where_the_wanted_wall_is_left():
    marked = 0
    for name in ("inch", "thin", "high"):
        wanted = float(made(name).design.legs.fixing.wall)
        for view in views(name):
            hole = view.hole
            deepest = brentq(
                lambda deep, h=hole, wanted=wanted: min(h.wall(n, deep) for n in (h.front, h.side)) - wanted,
                1e-3, 20 * hole.half,
            )  # fmt: skip
            place = view.seen(hole.at(deepest))
            ticks = [line for line in view.lines["thin"] if len(line) == 2]
            marked += any(np.allclose(line.mean(axis=0), place, atol=1e-4 * hole.half) for line in ticks)
    assert marked >= 2
    assert "Warning" not in " ".join(words_on(plates("high")[0]))


# Words


@pytest.mark.parametrize("name", first_of(PIECES, "four leans", "inward both", "thick, steep", "comes out", "round"))
def test_words_stand_clear_and_every_plate_fits_its_sheet(name):
    check_layout(made(name), plates(name))
    check_words(plates(name))


@pytest.mark.parametrize("name", first_of(("chest", "inch", "a long name"), "a long name"))
def test_the_words_of_a_whole_sheet_stand_clear(name):
    check_whole_sheets(made(name), plates(name))


@pytest.mark.parametrize("name", [name for name in PIECES if name != "deep"])
def test_sections_are_drawn_full_size(name):
    for plate in plates(name):
        assert plate.scale == pytest.approx(MM_UNIT[plate.unit])


def test_the_landing_chests_front_legs_by_hand():
    # tan R = 0.175496, cos R = 0.984946: wander 60 x 0.175496 = 10.5; by the rule 24 - 10.53 - 4 = 9.5.
    # sin of the front face's tilt is tan 8 cos R = 0.138425, of the side face's tan 6 cos R = 0.103522:
    # 24 - 60 x 0.138425 - 4 x 0.990373 = 11.7, and 24 - 60 x 0.103522 - 4 x 0.994627 = 13.8.
    words = words_on(plates("chest")[0])
    for size in ("11.7", "13.8", "10.5", "60 deep"):
        assert size in words
    assert "60 deep" in {mark.words for mark in plates("chest")[0].marks() if isinstance(mark, Text) and mark.bold}
    text = " ".join(words)
    assert "wanders 10.5 from the axis" in text
    assert "11.7 at the back face and 13.8 at the inner side face" in text
    assert "Rule of thumb 9.5: half the section less wander less half the hole" in text
    # wanted wall 6: (24 - 6 - 3.9615) / 0.138425 = 101.4 deep; it comes out at (24 - 3.9615) / 0.138425 = 144.8
    assert "Down to 101.4 the wanted wall is left; at 144.8 the hole comes out." in text
    # room for the pin outward: from (8 + 6)/2 + 6 = 13 to (24 - 6 - 3 x 0.990373) / 0.138425 x 0.175496, the
    # wander that leaves 6 at the front face at the top: 19.05; midway 16.0, and 6.1 to shift in
    assert "16 from the screw, outward on the sight line. It has 6.1 to shift in" in text


def test_the_inch_plate_is_written_in_fractions():
    words = words_on(plates("inch")[0])
    # 2 3/8 x 0.175496 = 0.4168, next 13/32; 15/16 - 2.375 x 0.138425 - 5/32 x 0.990373 = 0.4540, next 15/32
    for size in ("¹³⁄₃₂", "¹⁵⁄₃₂", "2\u202f³⁄₈ deep"):
        assert size in words
    assert not any(re.search(r"\d\.\d", line) for line in words if "°" not in line and "1 : " not in line)


@every_piece
def test_the_leg_order_of_work_ways_out_and_cautions_stand_on_every_sheet(name):
    for plate, (leg, *_) in zip(plates(name), mirror_groups(made(name).legs), strict=True):
        text = " ".join(words_on(plate))
        assert f"drawn for the {leg.position} leg" in text
        assert leg.position in plate.spoken
        assert "pilot for the screw, plumb to the level top; hole for the pin; pin in, then the screw" in text
        assert "a shorter screw, drill along the leg, or move the neck" in text
        assert "leg, and ramp, are clamped to the table of the drill; no hand holds them" in text
        said = ("A screw square to the frame wanders", "do not say what the joint carries")
        for line in (*DRILLING, WORDS_NOTE, *said):
            assert line in text


def test_there_is_a_sheet_for_every_lean_that_is_screwed():
    assert [len(FIXING.sheets(made(name))) for name in ("chest", "inch", "all alike", "four leans")] == [2, 2, 1, 4]
    assert [plate.name for plate in plates("chest")] == ["Fixing 1", "Fixing 2"]
    assert plates("all alike")[0].name == "Fixing"
    stool = read_piece(ROOT / "notebooks/designs/stool_four_legs.yaml")
    assert FIXING.sheets(stool) == ()
    with pytest.raises(DesignError, match="no fixing 1"):
        fixing_plate(stool)
    with pytest.raises(DesignError, match="no fixing 3"):
        fixing_plate(made("chest"), number=3)
    assert fixing_plate(made("chest"), scale=0.5).scale == 0.5
