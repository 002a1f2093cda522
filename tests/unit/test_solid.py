"""The piece in the round: closed, as large as the design says, its legs where the plan puts them.

The witnesses are prisms and circles worked by hand from the design's own numbers, and the file read back
by trimesh. Expected volumes of round parts are those of the 48-sided prism that stands for a circle.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from math import cos, pi, radians, sin, sqrt, tan
from typing import NamedTuple

import numpy as np
import pytest
import trimesh
from strained import INCH, METRIC, STOOL

from furnlib.base.guards import DesignError
from furnlib.draw.plates.bodies import CORNERS
from furnlib.draw.solid import leg_solid, piece_solid, save_solid
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of
from furnlib.trade.leg.elements import bead, cylinder, fillet, lambs_tongue, shoulder, square_part, taper, tenon
from furnlib.trade.leg.turning import Profile

ROUND = CORNERS / 2 * sin(2 * pi / CORNERS) / pi  # area of the polygon over that of its circle
SQUARE = (r"round: {.*}", "square: 32")
PITCHED = (r"pitch: 0", "pitch: 6")
TURNED = (r"square: 48", "round: {largest: 48, foot: 26, tenon: 25}")
D_SEAT = (r"rectangle", "D")
ROUND_SEAT = (r"width: 360, depth: 260", "width: 320, depth: 320"), (r"rectangle", "round")
THREE = (r"rear left: .*\n    rear right: .*", "rear: {rake: 18, splay: 0}")
FACING = (r"square: 32", "square: 32\n  orientation: front_level")
PLUMB = (r"{rake: .*, splay: .*}", "{rake: 0, splay: 0}")
PIECES = {
    "chest": (METRIC,),
    "chest, inch": (INCH,),
    "chest on turned legs": (METRIC, TURNED),
    "no legs": (METRIC, (r"legs:\n(.*\n)+", "")),
    "stool": (STOOL,),
    "square stool, pitched": (STOOL, SQUARE, PITCHED),
    "square stool, faces turned": (STOOL, SQUARE, FACING, PITCHED),
    "pitched forward": (STOOL, (r"pitch: 0", "pitch: -6")),
    "three legs": (STOOL, D_SEAT, THREE),
    "round seat": (STOOL, *ROUND_SEAT, PITCHED),
}
every_piece = pytest.mark.parametrize("name", PIECES)


class Turned(NamedTuple):
    """What a solid reads of a turned leg."""

    profile: Profile
    top: float


@cache
def piece(name):
    text, *edits = PIECES[name]
    for pattern, new in edits:
        text = re.sub(pattern, new, text)
    return piece_of(DesignText.parse(text))


def plan(points):
    """Vertices in the room as across, back and up."""
    return np.asarray(points) * (-1, -1, 1)


def leg_turned(name, elements, top=0.0, place=0, **changes):
    """A leg of a piece, turned to another profile."""
    return replace(piece(name).legs[place], turned=Turned(Profile(tuple(elements)), top), **changes)


def plumb_leg(elements):
    """A leg of a chest, standing plumb, so that its ends are cut square across."""
    text = re.sub(*PLUMB, METRIC)
    leg = piece_of(DesignText.parse(text)).legs[1]
    return replace(leg, turned=Turned(Profile(tuple(elements)), 0.0))


def along_axis(leg, points):
    """How far below the underside along the axis, and how far from it, vertices stand."""
    top, foot = np.array([*leg.top, float(leg.height)]), np.array([*leg.foot, 0.0])
    axis = (foot - top) / np.linalg.norm(foot - top)
    at = (plan(points) - top) @ axis
    return at, np.linalg.norm(plan(points) - top - np.outer(at, axis), axis=1)


@every_piece
def test_every_part_is_closed_and_right_side_out(name):
    scene = piece_solid(piece(name))
    for part, mesh in scene.geometry.items():
        assert (part, mesh.is_watertight, mesh.is_winding_consistent) == (part, True, True)
        assert mesh.volume > 0


@every_piece
def test_the_whole_is_as_large_as_the_design_says(name):
    design = piece(name).design
    scene = piece_solid(piece(name))
    boards = [mesh.bounds for part, mesh in scene.geometry.items() if "leg" not in part]
    low, high = np.min([b[0] for b in boards], axis=0), np.max([b[1] for b in boards], axis=0)
    pitch, thick = (radians(design.seat.pitch), float(design.seat.thickness)) if hasattr(design, "seat") else (0, 0)
    run = float(design.overall.depth) * cos(pitch) + thick * abs(sin(pitch))
    top = float(design.overall.height) + float(design.overall.depth) * max(sin(-pitch), 0)
    assert high[:2] - low[:2] == pytest.approx([float(design.overall.width), run])
    assert high[2] == pytest.approx(top)
    lowest = scene.bounds[0, 2]
    assert lowest == pytest.approx(0, abs=1e-9)


@every_piece
def test_feet_stand_on_the_floor_where_the_plan_puts_them(name):
    for leg in piece(name).legs:
        mesh = leg_solid(leg)
        foot = plan(mesh.vertices)[mesh.vertices[:, 2] < 1e-6]
        assert mesh.bounds[0, 2] == pytest.approx(0, abs=1e-9)
        if leg.turned:  # a slanted cone is an oval, the axis off its middle by less than its taper
            assert foot[:, :2].mean(axis=0) == pytest.approx(leg.foot, abs=0.1)
        else:
            for found, told in ((foot[:, :2], leg.foot_corners), (foot[:, :2].mean(axis=0)[None], [leg.foot])):
                apart = np.linalg.norm(found[:, None] - np.array(told)[None], axis=2).min(axis=0)
                assert apart == pytest.approx(0, abs=1e-9)


@every_piece
def test_left_legs_are_the_right_ones_mirrored(name):
    legs = {leg.position: leg for leg in piece(name).legs}
    width = float(piece(name).design.overall.width)
    for position, leg in legs.items():
        if "left" in position:
            left = plan(leg_solid(leg).vertices) * (-1, 1, 1) + (width, 0, 0)
            right = plan(leg_solid(legs[position.replace("left", "right")]).vertices)
            assert np.linalg.norm(left[:, None] - right[None], axis=2).min(axis=1) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("name", ["chest", "chest, inch", "square stool, pitched", "square stool, faces turned"])
def test_a_square_leg_is_a_prism_along_its_axis(name):
    for leg in piece(name).legs:
        in_seat = leg.drilling.length_in_seat if leg.drilling else 0
        assert leg_solid(leg).volume == pytest.approx(float(leg.square) ** 2 * (leg.axis_length + in_seat))


@pytest.mark.parametrize("place", range(4))
def test_a_leaning_cylinder_has_the_volume_of_its_prism(place):
    leg = leg_turned("chest", [cylinder(10, 40), cylinder(piece("chest").legs[place].axis_length - 10, 40)], 0, place)
    assert leg_solid(leg).volume == pytest.approx(ROUND * pi * 20**2 * leg.axis_length)


def test_a_leg_left_square_from_end_to_end_is_the_square_leg():
    for place, leg in enumerate(piece("chest").legs):
        left_square = leg_turned("chest", [square_part(leg.axis_length, 48)], 0, place)
        assert leg_solid(left_square).volume == pytest.approx(48**2 * leg.axis_length)
        assert leg_solid(left_square).bounds == pytest.approx(leg_solid(leg).bounds)


@pytest.mark.parametrize(
    "elements",
    [
        (square_part(40, 48), shoulder(48, 40), taper(111, 40, 25)),
        (square_part(40, 48), shoulder(48, 40, 8), taper(103, 40, 25)),
        (square_part(40, 48), lambs_tongue(20, 48, 44), fillet(4, 40), bead(20, 40, 40, 9), taper(67, 36, 25)),
        (cylinder(60, 48), bead(16, 30, 30, 8), taper(75, 44, 25)),
    ],
)
def test_a_plumb_leg_has_the_volume_of_its_profile_but_for_its_flats(elements):
    leg = plumb_leg(elements)
    mesh = leg_solid(leg)
    assert mesh.is_watertight
    assert 0.993 < mesh.volume / leg.turned.profile.volume < 1


def test_a_bead_lies_on_its_circle_however_the_leg_leans():
    for place, leg in enumerate(piece("chest").legs):
        rest = (leg.axis_length - 20) / 2
        turned = leg_turned("chest", [cylinder(rest, 30), bead(20, 30, 30, 10), cylinder(rest, 30)], 0, place)
        at, out = along_axis(turned, leg_solid(turned).vertices)
        off = at - leg.axis_length / 2
        on_bead = abs(off) < 10 - 1e-6
        assert on_bead.sum() > 5 * CORNERS
        assert np.hypot(off[on_bead], out[on_bead] - 15) == pytest.approx(10)
        assert out[~on_bead] == pytest.approx(15)


@pytest.mark.parametrize("name", ["stool", "square stool, pitched", "square stool, faces turned", "pitched forward"])
def test_tenons_end_flush_with_the_top_of_the_seat(name):
    design = piece(name).design
    pitch, thick = radians(design.seat.pitch), float(design.seat.thickness)
    for leg in piece(name).legs:
        _, back, up = plan(leg_solid(leg).vertices).T
        over = (back - thick * sin(pitch)) * sin(pitch) + (up - float(design.overall.height)) * cos(pitch)
        assert over.max() == pytest.approx(0, abs=1e-9)
        assert (over > -1e-9).sum() == (CORNERS if leg.turned else 4)


def test_a_tenon_that_is_shorter_than_the_seat_ends_square_across():
    leg = piece("stool").legs[0]
    blind = leg_turned("stool", [tenon(25, 25), taper(leg.axis_length, 36, 22)], 25.0)
    at, _ = along_axis(leg, leg_solid(blind).vertices)
    assert at.min() == pytest.approx(-25)
    assert (at < -25 + 1e-6).sum() == CORNERS


def test_a_leg_that_leans_much_is_still_cut_level_at_both_ends():
    text = re.sub(r"{rake: 8, splay: 6}", "{rake: 35, splay: 40}", METRIC).replace("square: 48", TURNED[1])
    text = text.replace("width: 520, depth: 380", "width: 1520, depth: 1380").replace("{front: 45", "{front: 400")
    for leg in piece_of(DesignText.parse(text)).legs[:2]:
        mesh = leg_solid(leg)
        assert mesh.is_watertight
        assert mesh.bounds[:, 2] == pytest.approx([0, 151], abs=1e-9)
        for level, axis in ((0, leg.foot), (151, leg.top)):
            outline = plan(mesh.vertices)[abs(mesh.vertices[:, 2] - level) < 1e-6]
            assert len(outline) == CORNERS
            assert (outline[:, :2].min(axis=0) < axis).all()
            assert (outline[:, :2].max(axis=0) > axis).all()


def test_boards_and_openings_fill_the_case():
    for name in ("chest", "chest, inch", "no legs"):
        one = piece(name)
        overall = one.design.overall
        parts = piece_solid(one).geometry
        boards = sum(mesh.volume for part, mesh in parts.items() if "leg" not in part)
        openings = sum(float(row.opening * sum(row.widths) * overall.depth) for row in one.rows.rows)
        assert boards + openings == pytest.approx(float(overall.width * overall.depth * one.case.height))
    assert [*parts] == [
        "left side", "bottom", *(f"divider under row {n}" for n in range(6, 1, -1)), "divider under row 1",
        "upright 1 in row 1", "top", "right side",
    ]  # fmt: skip


def test_a_seat_is_its_outline_by_its_thickness():
    area = {"square stool, pitched": 360 * 260, "three legs": 360 * 130 + pi / 2 * 180 * 130, "round seat": pi * 160**2}
    for name, expected in area.items():
        volume = piece_solid(piece(name)).geometry["seat"].volume
        assert volume == pytest.approx(expected * 40, rel=0.002)  # 72 sides stand for a circle


@every_piece
def test_the_file_reads_back_in_metres_with_y_up_and_the_front_ahead(name, tmp_path):
    one = piece(name)
    metre = 1000 if one.design.unit == "mm" else 1000 / 25.4
    read = trimesh.load(save_solid(one, tmp_path / "piece.glb"))
    scene = piece_solid(one)
    assert set(read.geometry) == set(scene.geometry)
    across, up, ahead = scene.extents[[0, 2, 1]] / metre
    assert read.extents == pytest.approx([across, up, ahead], rel=1e-6)
    assert read.bounds[0, 1] == pytest.approx(0, abs=1e-7)
    middle = {part: read.geometry[part].centroid for part in read.geometry}
    for part, x, z in (("front left leg", -1, 1), ("rear right leg", 1, -1)):
        if part in middle:
            assert (middle[part] - read.centroid)[0] * x > 0
            assert (middle[part] - read.centroid)[2] * z > 0


def test_the_same_piece_gives_the_same_bytes(tmp_path):
    for name in ("chest", "three legs"):
        text, *edits = PIECES[name]
        for pattern, new in edits:
            text = re.sub(pattern, new, text)
        first, again = (save_solid(piece_of(DesignText.parse(text)), tmp_path / f"{n}.glb").read_bytes() for n in "ab")
        assert first == again


def test_another_ending_is_refused_and_what_was_there_stays(tmp_path):
    kept = tmp_path / "piece.stl"
    kept.write_bytes(b"before")
    with pytest.raises(DesignError, match=r"written as \.glb, not '\.stl'; end the name in \.glb"):
        save_solid(piece("chest"), kept)
    assert kept.read_bytes() == b"before"


def test_a_slanted_square_end_has_the_outline_of_a_sheared_square():
    leg = piece("chest").legs[2]  # leans sideways only, by 6
    foot = leg_solid(leg).vertices[leg_solid(leg).vertices[:, 2] < 1e-6]
    assert np.ptp(foot[:, 0]) == pytest.approx(48 / cos(radians(6)))
    assert np.ptp(foot[:, 1]) == pytest.approx(48)
    assert leg.foot[0] == pytest.approx(45 - 151 * tan(radians(6)))
    assert sqrt(2) * 24 < np.linalg.norm(foot[:, :2] - np.array([-leg.foot[0], -leg.foot[1]]), axis=1).min() + 1e-9
