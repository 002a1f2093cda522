"""Plates of a leg with a real profile: its own outline where it is screwed and sawn, and one number for one thing.

The witness is space: the leg's axis from rake and splay, a plumb cylinder, and radii worked from the design file.
"""

from __future__ import annotations

import math
import re
from functools import cache

import in_space
import numpy as np
import pytest
from pictures import BARE
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on

from furnlib.draw.drawing import Arc, Dimension, Fill, Stroke
from furnlib.draw.plates import (
    blank_plate,
    cradle_plate,
    fixing_plate,
    leg_profile_plate,
    pattern_plate,
    saw_card_plate,
    sequence_plate,
    stick_plate,
)
from furnlib.draw.plates.pattern import HALF_PATTERN
from furnlib.draw.plates.stick import STORY_STICK
from furnlib.draw.plates.turned_groups import turned_groups
from furnlib.draw.plates.views import written
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

CASES = ("landing_chest", "low_media_case", "landing_chest_inch", "low_media_case_inch")
SHORTER = {
    "a short screw": (r"    depth: 60\n", "    depth: 35\n"),
    "plumb": (r"rake: \d, splay: \d", "rake: 0, splay: 0"),
}
every_case = pytest.mark.parametrize("name", [*CASES, *SHORTER])


@cache
def piece(name):
    text = (BARE / f"{'landing_chest' if name in SHORTER else name}.yaml").read_text("utf-8")
    if name in SHORTER:
        text, found = re.subn(*SHORTER[name], text)
        assert found
    return piece_of(DesignText.parse(text))


@cache
def fixings(name):
    return [fixing_plate(piece(name), number=number) for number in range(1, 2 if name == "plumb" else 3)]


def on_legs(parts, name="low_media_case"):
    """The piece on legs with these lines in its file, in place of its profile."""
    text = (BARE / f"{name}.yaml").read_text("utf-8")
    text, found = re.subn(r"  profile:.*\n(    .*\n)*", parts, text)
    assert found == 1
    return piece_of(DesignText.parse(text))


def joined(plate):
    return re.sub(" +", " ", " ".join(words_on(plate)))


def section(plate):
    """The first section: its edges as (out, down) from where the axis meets the level top, and a step that turns so."""
    strokes = [mark for mark in plate.marks() if isinstance(mark, Stroke)]
    at = next(i for i, mark in enumerate(strokes) if mark.kind == "cut")
    (x0, y0), (x1, y1) = strokes[at].points
    own = (y0 - y1) / (x1 - x0)
    edges = [np.array(strokes[i].points) for i in (at - 2, at - 1)]
    # the axis lies midway between both sides of what is as thick on either
    middle = (x0 + x1) / 2
    top = np.array([middle, y0 + (middle - x0) * (y1 - y0) / (x1 - x0)])
    return [(edge - top) * [1, -1] for edge in edges], own, top


# The fixing plate


def radius_by_hand(at):
    """Of the landing chest's leg 42 to 74 down the axis: bead of radius 5, cove of radius 136 / 12, fillet."""
    if at < 50:
        return 17 + math.sqrt(25 - (at - 46) ** 2)
    return 13 + 136 / 12 - math.sqrt((136 / 12) ** 2 - (at - 60) ** 2) if at < 70 else 19.0


def test_the_section_of_the_chests_front_leg_has_its_bead_and_its_neck_by_hand():
    edges, own, _ = section(fixings("landing_chest")[0])
    assert own == pytest.approx(math.hypot(math.tan(math.radians(8)), math.tan(math.radians(6))), abs=1e-6)
    for edge in edges:
        below = edge[edge[:, 1] > 42.01]
        assert len(below) > 20
        for out, down in below[:-1]:
            if abs(down - 50) > 1e-6:  # a step
                assert abs(out) == pytest.approx(radius_by_hand(down), abs=0.011)
        assert abs(below[:, 0]).min() == pytest.approx(13.0, abs=1e-6)


def slant(leg):
    """How much wider than its side the square is cut by the upright plane of the lean, from space."""
    named = piece("landing_chest").design.legs.lean[leg.position]
    axis = in_space.axis(leg.position, named.rake, named.splay)
    front, side = in_space.faces(leg.position, axis, "untwisted")
    plane = np.cross(axis, in_space.UP)
    across = in_space.unit(np.cross(plane, axis))
    return 1 / max(abs(across @ front), abs(across @ side))


def test_the_square_is_as_wide_as_the_plane_of_the_lean_cuts_it_in_space():
    for plate, leg in zip(fixings("landing_chest"), piece("landing_chest").legs[::2], strict=True):
        edges, _, _ = section(plate)
        for edge in edges:
            assert abs(edge[0, 0]) == pytest.approx(24 * slant(leg), rel=1e-6)


@every_case
def test_the_wall_is_written_where_the_hole_comes_past_the_neck(name):
    for plate in fixings(name):
        groups = {group.position: group for group in piece(name).legs}
        leg = groups[next(p for p in groups if f"drawn for the {p} leg" in joined(plate))]
        screw, lean = piece(name).design.legs.fixing, leg.lean.total_lean_deg
        drawn = [item for item in plate.items if isinstance(item, Dimension) and item.offset_mm == 0.0]
        if name == "a short screw":
            assert "Seen square to the sight line" not in joined(plate)
            assert "thinnest" not in joined(plate)
            assert len(drawn) == 2
            continue
        depth, hole = float(screw.depth), float(screw.diameter)
        reach = np.linspace(0, min(depth / math.cos(math.radians(lean)), leg.turned.profile.length), 200_001)
        thin = 2 * leg.turned.profile.radius_at(reach).min()
        wall = thin / 2 - depth * math.sin(math.radians(lean)) - hole / 2 * math.cos(math.radians(lean))
        assert leg.fixing.wall == pytest.approx(wall, abs=2e-3)
        assert "Seen square to the sight line" in joined(plate)
        assert "Wall left at the tip beside the thinnest it comes past, ⌀ " in joined(plate)
        assert len(drawn) == (wall > 0)
        for item in drawn:
            _, _, top = section(plate)
            assert math.dist(item.start, item.end) == pytest.approx(wall, abs=2e-3)
            assert abs(item.end[0] - top[0]) == pytest.approx(thin / 2, abs=2e-3)
        assert ("out by" in joined(plate)) == (wall < 0)


@every_case
def test_from_above_the_dashed_line_is_the_neck_and_the_top_its_own_size(name):
    for plate in fixings(name):
        leg = next(leg for leg in piece(name).legs if f"drawn for the {leg.position} leg" in joined(plate))
        screw_hole = next(mark for mark in plate.marks() if isinstance(mark, Arc) and mark.end_deg == 360.0)
        part = screw_hole.radius / (float(piece(name).design.legs.fixing.diameter) / 2)
        top = [mark for mark in plate.items if isinstance(mark, Fill) and mark.tint == "wood"][-1]
        wide = np.ptp(np.array(top.points), axis=0) / part
        assert wide == pytest.approx(np.ptp(np.array(leg.top_corners), axis=0))
        dashed = [mark for mark in plate.marks() if isinstance(mark, Stroke) and mark.kind == "hidden" and mark.closed]
        assert len(dashed) == (leg.lean.total_lean_deg > 0)
        for ring in dashed if name != "a short screw" else []:
            middle = np.array(ring.points).mean(axis=0)
            radii = np.linalg.norm(np.array(ring.points) - middle, axis=1) / part
            thin = {
                "landing_chest": 26.0,
                "low_media_case": 42.0,
                "landing_chest_inch": 1.0,
                "low_media_case_inch": 1.625,
            }
            stretch = 1 / math.cos(math.radians(leg.lean.total_lean_deg))
            assert radii.max() == pytest.approx(thin[name] / 2 * stretch, rel=5e-3)
            assert radii.min() == pytest.approx(thin[name] / 2, rel=5e-3)


@every_case
def test_words_of_the_fixing_plates_stand_clear(name):
    check_layout(piece(name), fixings(name))
    check_words(fixings(name))


def test_a_plain_round_pad_is_not_drawn_at_the_tenons_stretch():
    plate = fixing_plate(on_legs("  round: {largest: 60, foot: 40, tenon: 30}\n"), number=2)
    screw_hole = next(mark for mark in plate.marks() if isinstance(mark, Arc) and mark.end_deg == 360.0)
    top = [mark for mark in plate.items if isinstance(mark, Fill) and mark.tint == "wood"][-1]
    assert np.ptp(np.array(top.points)[:, 0]) == pytest.approx(60 * screw_hole.radius / 4)


# The cradle


@pytest.mark.parametrize("name", ["stool_three_legs", "low_media_case", "low_media_case_inch"])
def test_in_the_cradle_lies_the_leg_that_was_turned(name):
    plate, leg = cradle_plate(piece(name)), piece(name).legs[0]
    strokes = [np.array(mark.points) for mark in plate.items if isinstance(mark, Stroke) and mark.kind == "visible"]
    axis = max(
        (np.array(mark.points) for mark in plate.items if isinstance(mark, Stroke) and mark.kind == "centre"),
        key=lambda points: np.linalg.norm(points[-1] - points[0]),
    )
    way = (axis[1] - axis[0]) / np.linalg.norm(axis[1] - axis[0])
    foot = axis[0] - way * axis[0][0] / way[0]  # the blade stands at zero
    edge = max((points for points in strokes if len(points) > 2), key=len)
    steps = edge - foot
    along, up = steps @ way, steps @ np.array([-way[1], way[0]])
    profile = leg.turned.profile
    inside = (along > 0) & (up > 0)
    apart = np.min([abs(profile.length - along - joint) for joint in profile.joints], axis=0) > 1e-6 * profile.length
    kept = inside & apart
    assert up[kept] == pytest.approx(
        profile.radius_at(profile.length - along[kept]), abs=0.02 * float(plate.scale == 1) + 0.02
    )
    assert "touch the V at two places only" in joined(plate)
    assert f"lies as a taper of {written(leg.in_vee[0], plate.unit)} at the top" in joined(plate)
    check_layout(piece(name), [plate])


def test_past_a_foot_that_ends_in_a_bead_the_waste_is_as_thick_as_the_foot():
    parts = "  profile: [{shape: taper, diameter: 57, to: 40}, {shape: bead, diameter: 36, length: 16, rise: 5}]\n"
    plate = cradle_plate(on_legs(parts))
    hatched = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.hatch]
    waste = next(points for points in hatched if len(points) == 4 and len(np.unique(points[:, 1].round(6))) == 4)
    assert np.linalg.norm(waste[0] - waste[-1]) == pytest.approx(36.0)


def test_the_stations_of_a_measured_leg_are_said_to_be_measured():
    made = on_legs("  stations: {0: 57, 40: 45, 90: 50, 200: 34}\n")
    words = words_on(stick_plate(made))
    assert words.count("measured") == 2
    assert "top end, zero, measured" in words
    assert not any("curve" in said for said in words)


def test_a_plain_taper_is_not_said_to_lie_otherwise():
    plate = cradle_plate(piece("stool_four_legs"))
    assert "lies in the V otherwise" not in joined(plate)
    assert "36 at the top, 22 at the foot" in joined(plate)


# The saw card


def test_on_the_saw_card_the_foot_is_as_thick_as_it_is_turned_and_packed_up():
    plate = saw_card_plate(piece("landing_chest"))
    cuts = [np.array(mark.points) for mark in plate.marks() if isinstance(mark, Stroke) and mark.kind == "cut"]
    heights = [abs(cut[-1][1] - cut[0][1]) for cut in cuts]
    assert heights[0::3] == pytest.approx([48.0] * 4)  # the top
    assert heights[1::3] == pytest.approx([28.0] * 4)  # the foot
    for top, foot in zip(cuts[0::3], cuts[1::3], strict=True):
        assert foot[:, 1].mean() == pytest.approx(top[:, 1].mean())
        assert (foot[0] - foot[-1])[0] / 28 == pytest.approx((top[0] - top[-1])[0] / 48, abs=1e-9)
    assert words_on(plate).count("foot, packed up") == 4
    assert "leg on the table" not in words_on(plate)
    check_whole_sheets(piece("landing_chest"), [plate])


# One number for one thing


@pytest.mark.parametrize("name", ["landing_chest", "landing_chest_inch", "stool_three_legs"])
def test_profile_and_sequence_card_tell_the_same_weakest_place_and_share(name):
    made = piece(name)
    for number in range(1, len(turned_groups(made)) + 1):
        profile, card = words_on(leg_profile_plate(made, number=number)), joined(sequence_plate(made, number))
        at, share = (profile[profile.index(row) + 1] for row in ("bent most at", "of the low-end strength"))
        assert f"bent most at {at}: " in card
        assert f", {share} of the low end" in card


def test_where_the_weakest_place_is_marked_already_it_is_not_written_twice():
    words = words_on(leg_profile_plate(piece("stool_three_legs")))
    assert "taper, underside, weakest" in words
    assert words.count("41.6") == 2  # at its mark, and in the table
    assert "strength.bending" not in leg_profile_plate(piece("stool_four_legs")).formulas


def test_a_blank_that_stays_square_needs_nothing_for_centring():
    assert "centring" not in words_on(blank_plate(piece("landing_chest")))
    assert "centring" in words_on(blank_plate(piece("stool_three_legs")))


def test_all_settings_of_the_calipers_stand_in_one_column_where_they_can():
    plate = sequence_plate(piece("low_media_case"))
    places = [mark.at[0] for mark in plate.marks() if getattr(mark, "words", "").startswith("⌀ ") and mark.bold]
    assert len(places) == 8
    assert len(set(places)) == 1


# Sheets that lie about on the bench


@pytest.mark.parametrize(("sheets", "plate"), [(STORY_STICK.sheets, stick_plate), (HALF_PATTERN.sheets, pattern_plate)])
def test_every_sheet_says_whose_leg_it_is(sheets, plate):
    made = piece("stool_three_legs")
    named = [joined(plate(made, number)) for number in range(1, len(sheets(made)) + 1)]
    assert ["Front left and front right, Bench-side stool, three legs" in words for words in named] == [True] * 3 + [
        False
    ] * 3
    assert ["Rear leg, Bench-side stool, three legs" in words for words in named] == [False] * 3 + [True] * 3
