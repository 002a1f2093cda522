"""The plate in the round: what is seen at a place on paper is what a ray from the eye meets first.

The witness casts rays at the faces of every part, triangle by triangle (Möller and Trumbore's test), and
knows nothing of the order in which parts are painted.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from pictures import ROOT, first_of
from strained import INCH, METRIC, STOOL
from test_drilling_card import words_on
from test_plates import clashes, outside, rooms_of
from test_solid import D_SEAT, FACING, PITCHED, SQUARE, THREE, TURNED, Turned

from furnlib.draw.drawing import Fill, Stroke, Text
from furnlib.draw.plates.bodies import bodies, leg_body
from furnlib.draw.plates.solid_view import on_paper, solid_plate
from furnlib.draw.style import TINTS
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import CasePiece, piece_of
from furnlib.trade.leg.elements import bead, cove, cylinder, lambs_tongue, square_part, taper
from furnlib.trade.leg.turning import Profile

LOW = (r"overall: {.*}", "overall: {height: 700, width: 900, depth: 380}"), (r"step: 20", "step: 1")
WIDE = (*LOW, (r"divider: 18}", "divider: 18, partition: 20, bays: [{width: 400}, {open: yes}]}"))
STEEP_SEAT = (
    (r"height: 460", "height: 700"),
    (r"pitch: 0", "pitch: 50"),
    (r"front: 85, rear: 85", "front: 50, rear: 50"),
    (r"rake: \d+", "rake: 0"),
)
PIECES = {
    "chest": (METRIC,),
    "inch": (INCH,),
    "with a bay": (METRIC, *WIDE),
    "turned": (METRIC, TURNED),
    "no legs": (METRIC, (r"legs:\n(.*\n)+", "")),
    "stool": (STOOL,),
    "square stool": (STOOL, SQUARE, PITCHED, FACING),
    "three legs": (STOOL, D_SEAT, THREE),
    "seen from below": (STOOL, *STEEP_SEAT),
}
every_piece = pytest.mark.parametrize("name", PIECES)
TO_EYE = np.array([1.0, -1.0, 1.0])
ON_PAPER = np.array([[math.sqrt(3) / 2, -0.5], [math.sqrt(3) / 2, 0.5], [0.0, 1.0]])
"""Where a step to the right, back and up goes on paper."""


@cache
def piece(name):
    text, *edits = PIECES[name]
    for pattern, new in edits:
        text, found = re.subn(pattern, new, text)
        assert found, pattern
    return piece_of(DesignText.parse(text))


def drawn(plate):
    """The picture without the words below it."""
    return [item for item in plate.items if not isinstance(item, Text)]


@cache
def richly_turned():
    """A chest on tall legs with squares, tongues, beads and coves."""
    text = METRIC.replace("height: 151", "height: 400")
    one = piece_of(DesignText.parse(text))

    def turned(leg):
        parts = [square_part(60, 48), lambs_tongue(24, 48, 44), cove(30, 40, 40, 9), bead(40, 40, 40, 16)]
        parts += [cove(30, 40, 36, 6), taper(150, 46, 24), bead(20, 24, 24, 8)]
        rest = leg.axis_length - sum(part.length for part in parts)
        return replace(leg, turned=Turned(Profile((*parts, cylinder(rest, 20))), 0.0))

    return replace(one, legs=tuple(map(turned, one.legs)))


def triangles(part, number):
    """The faces of a part, each with its number and the tint in which it is to be seen."""
    found = []

    def add(corners, flat):
        first, *rest = map(np.array, corners)
        for second, third in pairwise(rest):
            way = np.cross(second - first, third - first)
            if np.linalg.norm(way) > 1e-9:
                up = way[2] / np.linalg.norm(way) > 0.7
                found.append((first, second, third, "far" if up and flat else "wood", number))

    add(part.outlines[0][::-1], True)
    add(part.outlines[-1], True)
    for low, high in pairwise(part.outlines):
        for j in range(len(low)):
            add((low[j - 1], low[j], high[j], high[j - 1]), len(low) <= 8)
    return found


def parts_of(one):
    """The parts of a piece as they are drawn, legs without what stands in a seat."""
    return [leg_body(leg, in_seat=False) for leg in one.legs] + list(bodies(one)[len(one.legs) :])


def seen_by_rays(one, points):
    """Tint and part of the first face that a ray from the eye meets at each point on paper, as one word."""
    faces = [face for number, part in enumerate(parts_of(one)) for face in triangles(part, number)]
    first, second, third = (np.array([face[i] for face in faces]) for i in range(3))
    x, y = np.asarray(points).T
    total, apart = x / math.cos(math.pi / 6), 2 * y
    starts = np.stack([(total - apart) / 2, (total + apart) / 2, 0 * x], axis=1)
    flat = np.stack([corner @ ON_PAPER for corner in (first, second, third)])
    low, high = flat.min(axis=0), flat.max(axis=0)
    tints = []
    for start, point in zip(starts, np.asarray(points), strict=True):
        near = np.flatnonzero(((low <= point) & (point <= high)).all(axis=1))
        reach, face = first_met(start, first[near], second[near], third[near])
        tints.append("{3} {4}".format(*faces[near[face]]) if reach > -np.inf else "paper")
    return np.array(tints)


def first_met(start, first, second, third):
    """How far along the way to the eye the last triangle lies that a line meets, and which that is."""
    along, up = second - first, third - first
    across = np.cross(TO_EYE, up)
    size = np.einsum("ij,ij->i", along, across)
    size[abs(size) < 1e-9] = np.nan  # seen edge on
    from_first = start - first
    u = np.einsum("ij,ij->i", from_first, across) / size
    other = np.cross(from_first, along)
    v = other @ TO_EYE / size
    reach = np.einsum("ij,ij->i", up, other) / size
    reach = np.where((u >= 0) & (v >= 0) & (u + v <= 1), reach, -np.inf)
    return (reach.max(), int(reach.argmax())) if len(reach) else (-np.inf, 0)


def inside(corners, points):
    """Which points lie inside an outline, by the crossings of a ray to the right."""
    a = np.array(corners)
    b = np.roll(a, -1, axis=0)
    x, y = points[:, 0, None], points[:, 1, None]
    across = (a[:, 1] > y) != (b[:, 1] > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        at = a[:, 0] + (y - a[:, 1]) * (b[:, 0] - a[:, 0]) / (b[:, 1] - a[:, 1])
    return ((across & (x < at)).sum(axis=1) % 2).astype(bool)


def painted(one, plate, points):
    """The last fill over each point, as the words of the tint and of the parts that have all its corners."""
    owners = {}
    for number, part in enumerate(parts_of(one)):
        for place in (place for outline in part.outlines for place in outline):
            owners.setdefault(on_paper(place), set()).add(number)
    words = np.full(len(points), None, dtype=object)
    words[:] = [{"paper"}] * len(points)
    for item in plate.items:
        if isinstance(item, Fill):
            parts = set.intersection(*(owners.get(corner, set()) for corner in item.points))
            covered = inside(item.points, points)
            words[covered] = [{f"{item.tint} {part}" for part in parts}] * covered.sum()
    return words


def check_what_is_seen(one, count=600, least=0.6):
    """Compare at random places: the tints seen. Where rays close by differ there is an edge, which says nothing."""
    plate = solid_plate(one)
    left, bottom, right, top = plate.box
    points = np.random.default_rng(7).uniform((left, bottom), (right, top), (count, 2))
    near = 0.4 / plate.scale * np.array([(0, 0), (1, 0), (-1, 0), (0, 1), (0, -1)])
    by_rays = seen_by_rays(one, (points + near[:, None]).reshape(-1, 2)).reshape(len(near), -1)
    plain = (by_rays == by_rays[0]).all(axis=0)
    for leg in one.legs if not isinstance(one, CasePiece) else ():  # the ends of tenons are drawn on the seat
        plain &= ~inside([on_paper(place) for place in leg_body(leg).outlines[-1]], points)
    assert plain.mean() > least
    met, drawn = by_rays[0][plain].tolist(), painted(one, plate, points[plain])
    wrong = [
        (*point, ray, words) for point, ray, words in zip(points[plain], met, drawn, strict=True) if ray not in words
    ]
    assert wrong == []
    return {ray.split()[0] for ray in met}


@every_piece
def test_what_is_seen_is_what_a_ray_meets_first(name):
    assert check_what_is_seen(piece(name), 150) >= {"wood", "paper"}


def test_beads_and_coves_hide_what_is_behind_them():
    one = richly_turned()
    check_what_is_seen(replace(one, legs=one.legs[:2]), 80)


def test_all_three_axes_have_one_scale_and_stand_120_degrees_apart():
    ways = np.array([on_paper((1.0, 0.0, 0.0)), on_paper((0.0, 1.0, 0.0)), on_paper((0.0, 0.0, 1.0))])
    assert ways == pytest.approx(ON_PAPER)
    assert np.linalg.norm(ways, axis=1) == pytest.approx(1)
    right, back, up = ways
    assert [right @ up, back @ up, -right @ back] == pytest.approx([-0.5, 0.5, -0.5])  # back points away from the eye
    assert on_paper(tuple(TO_EYE)) == pytest.approx((0, 0))


def test_a_case_takes_the_room_on_paper_of_its_box():
    one = piece("no legs")
    wide, deep, high = (float(size) for size in (one.design.overall.width, one.design.overall.depth,
                                                 one.design.overall.height))  # fmt: skip
    corners = np.concatenate([item.points for item in drawn(solid_plate(one))])
    assert np.ptp(corners[:, 0]) == pytest.approx((wide + deep) * math.sqrt(3) / 2)
    assert np.ptp(corners[:, 1]) == pytest.approx((wide + deep) / 2 + high)


@every_piece
def test_there_are_not_too_many_marks_and_all_lie_inside(name):
    plate = solid_plate(piece(name))
    left, bottom, right, top = plate.box
    assert len(list(plate.marks())) < 1500
    for item in drawn(plate):
        xs, ys = zip(*item.points, strict=True)
        assert left <= min(xs) <= max(xs) <= right
        assert bottom <= min(ys) <= max(ys) <= top
    found = rooms_of(plate)
    assert clashes(found) == outside(found, *plate.size_mm) == []


def test_a_richly_turned_leg_does_not_take_too_many_marks():
    assert len(list(solid_plate(richly_turned()).marks())) < 1500


@every_piece
def test_it_fits_a_sheet_says_its_scale_and_names_its_parts(name):
    one = piece(name)
    plate = solid_plate(one)
    ratio = re.search(r"Isometric: 1 : ([\d.]+) along width, depth and height", plate.caption)[1]
    assert float(ratio) * plate.scale == pytest.approx(25.4 if one.design.unit == "in" else 1, rel=5e-3)
    assert plate.size_mm[0] <= 188
    assert plate.size_mm[1] <= 225
    assert f"1 : {ratio}" in plate.spoken
    for leg in one.legs:
        assert f"{leg.position} leg" in plate.spoken
    assert len(plate.caption.splitlines()) == 2


def test_a_settled_scale_is_kept_and_changes_nothing_but_the_scale():
    small, large = (solid_plate(piece("stool"), scale) for scale in (0.05, 0.2))
    assert (small.scale, large.scale) == (0.05, 0.2)
    assert drawn(small) == drawn(large)


def test_the_sheet_itself_says_from_where_and_that_slanting_lengths_are_not_to_be_measured():
    for name, ratio in (("chest", "1 : 10"), ("stool", "1 : 5")):
        said = " ".join(words_on(solid_plate(piece(name))))
        assert said == (
            f"From the front, the right and above; {ratio} along width, depth and height alike. Slanting lengths are"
            " not to be measured here."
        )


def test_tenons_that_go_through_show_their_ends_on_the_seat():
    one = piece("stool")
    ends = [item for item in drawn(solid_plate(one))[-2 * len(one.legs) :] if isinstance(item, Stroke)]
    assert len(ends) == len(one.legs)
    blind = tuple(replace(leg, turned=leg.turned._replace(top=20.0)) if isinstance(leg.turned, Turned) else
                  replace(leg, turned=Turned(leg.turned.profile, 20.0)) for leg in one.legs)  # fmt: skip
    without = drawn(solid_plate(replace(one, legs=blind)))
    assert not any(item.points == end.points for item in without for end in ends if isinstance(item, Stroke))


def test_only_line_kinds_and_tints_of_the_style_sheet_are_used():
    for name in PIECES:
        items = solid_plate(piece(name)).items
        assert {item.kind for item in items if isinstance(item, Stroke)} == {"visible", "thin"}
        assert {item.tint for item in items if isinstance(item, Fill)} <= set(TINTS)


@pytest.mark.parametrize("demo", first_of(("landing_chest", "stool_three_legs", "practice_stool"), "stool_three_legs"))
def test_the_demo_pieces_are_seen_as_rays_see_them(demo):
    check_what_is_seen(piece_of(DesignText.read(ROOT / f"notebooks/designs/{demo}.yaml")), 100)
