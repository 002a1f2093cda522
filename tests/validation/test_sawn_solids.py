"""Saw settings of all five orientations on solids that are sawn, stood up in the room and measured.

Source: no table; the witness is made of two general-purpose libraries, trimesh (a box, and what a
plane leaves of it) and scipy (how the leg stands, by what its orientation's name says of the axis
and of one face). From furnlib comes only what a saw card says: which face lies on the table, mitre,
tilt, which edge and which face are left the longer, and how long the blank is.

On the table x runs to the blade, y to the left, z up. Tolerance: 1e-9 mm, about what is left of
sixteen digits on legs some hundred millimetres long.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import pytest
import trimesh
from scipy.spatial.transform import Rotation

from furnlib.trade.leg.end_cut import EDGES, ORIENTATIONS, SawSetting, end_cut
from furnlib.trade.leg.lean import Lean

HEIGHT, SQUARE, WASTE = 151.0, 48.0, 40.0
LEANS = [(8.0, 6.0), (0.0, 6.0), (20.0, 0.0), (-8.0, 6.0), (12.0, -15.0), (-25.0, -20.0), (45.0, 30.0)]
FOUR_LEGS = list(product((1, -1), repeat=2))
"""Outward to the front or to the back, to the right or to the left."""
UP = np.array([0.0, 0.0, 1.0])
WITHIN = 1e-9


@dataclass(frozen=True)
class Leg:
    """A leg of known place, plumb at first: where outward is, and the turn that makes it stand as it should."""

    front: np.ndarray
    side: np.ndarray
    down: np.ndarray
    stood: Rotation

    @property
    def length(self):
        """From level to level along the axis, by the drop of one millimetre of it."""
        return HEIGHT / -self.down[2]


def unit(v):
    return v / np.linalg.norm(v)


def leg_in_the_room(orientation, rake, splay, fore_aft, sideways):
    front, side = np.array([0.0, fore_aft, 0.0]), np.array([sideways, 0.0, 0.0])
    down = unit(front * math.tan(math.radians(rake)) + side * math.tan(math.radians(splay)) - UP)
    hand = fore_aft * sideways  # a left front leg is the right one's mirror image
    if orientation == "untwisted":  # tipped over the shortest way: no turn about its own axis
        stood, _ = Rotation.align_vectors([down], [-UP])
    elif orientation == "front_level":  # the front face holds the axis and the line from side to side
        stood, _ = Rotation.align_vectors([down, unit(np.cross(side, down)) * hand], [-UP, front])
    elif orientation == "side_level":  # the side face holds the axis and the line from back to front
        stood, _ = Rotation.align_vectors([down, unit(np.cross(down, front)) * hand], [-UP, side])
    else:  # the side face stands upright: it holds the axis and the plumb line
        stood, _ = Rotation.align_vectors([down, unit(np.cross(down, UP)) * hand], [-UP, side])
    if orientation == "sightline_corner":  # and from there half a right angle about the axis, an outer edge foremost
        stood = Rotation.from_rotvec(down * hand * -math.pi / 4) * stood
    assert stood.apply(-UP) == pytest.approx(down, abs=1e-13)
    return Leg(front, side, down, stood)


def sawn(leg, face_down, outer_face, outer_edge, setting, blank_length):
    """Saw both ends of a blank at one setting and carry the solid into the room, its axis's middle at the origin.

    The leg lies on one face with its foot to the blade; after the first cut it is slid on.
    """
    to_table = np.array([-UP, np.cross(-face_down, -UP), -face_down])
    swung = -setting.long_edge * (to_table @ outer_edge)[1] * setting.mitre_deg
    tilted = setting.long_face * (to_table @ outer_face)[2] * setting.tilt_deg
    blade = Rotation.from_euler("ZY", [swung, tilted], degrees=True).apply([1.0, 0.0, 0.0])
    blank = trimesh.creation.box((blank_length, SQUARE, SQUARE))
    vertices, faces = blank.vertices, blank.faces
    for keep, middle in ((-blade, leg.length / 2), (blade, -leg.length / 2)):
        vertices, faces, _ = trimesh.intersections.slice_faces_plane(vertices, faces, keep, [middle, 0.0, 0.0])
    solid = trimesh.convex.convex_hull(vertices)  # a box that planes have cut is all that lies between its corners
    solid.vertices = leg.stood.apply(solid.vertices @ to_table)
    return solid


def ways_to_saw(leg, cut):
    """Each of the four faces on the table: that face, the outer face, the outer edge on it, the setting."""
    for setting, face, edge in ((cut.front_down, leg.front, leg.side), (cut.side_down, leg.side, leg.front)):
        yield from ((face, face, edge, setting), (-face, face, edge, setting))


def edges_of(leg, solid):
    """Top and foot of each long edge, in the order of EDGES, in the room."""
    plumb = leg.stood.inv().apply(solid.vertices)
    for fore_aft, sideways in EDGES:
        corner = fore_aft * leg.front + sideways * leg.side
        on_it = solid.vertices[(plumb @ corner) > SQUARE * 0.75]
        assert len(on_it) == 2
        yield on_it[np.argsort(-on_it[:, 2])]


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize(("rake", "splay"), LEANS)
@pytest.mark.parametrize("place", FOUR_LEGS)
def test_what_the_saw_leaves_stands_level_at_its_height(orientation, rake, splay, place):
    leg = leg_in_the_room(orientation, rake, splay, *place)
    cut = end_cut(Lean.from_rake_splay(rake, splay), HEIGHT, SQUARE, orientation)
    for way in ways_to_saw(leg, cut):
        solid = sawn(leg, *way, cut.blank_length + WASTE)
        assert solid.is_watertight
        assert len(solid.vertices) == 8
        edges = list(edges_of(leg, solid))
        for end, level in ((0, HEIGHT / 2), (1, -HEIGHT / 2)):
            assert [edge[end][2] for edge in edges] == pytest.approx([level] * 4, abs=WITHIN)
        assert [np.linalg.norm(top - foot) for top, foot in edges] == pytest.approx([leg.length] * 4, abs=WITHIN)
        assert cut.axis_length == pytest.approx(leg.length, abs=WITHIN)
        assert solid.volume == pytest.approx(SQUARE**2 * leg.length, rel=1e-12)  # each edge as long as the axis
        axis_foot = leg.down * leg.length / 2
        for (_, foot), past, corner in zip(edges, cut.edge_offsets, cut.level_corners, strict=True):
            assert (foot - axis_foot) @ leg.down == pytest.approx(past, abs=WITHIN)
            assert (foot - axis_foot) @ np.array([leg.front, leg.side]).T == pytest.approx(corner, abs=WITHIN)


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize(("rake", "splay"), LEANS)
def test_the_leg_just_fits_in_its_blank(orientation, rake, splay):
    leg = leg_in_the_room(orientation, rake, splay, 1, 1)
    cut = end_cut(Lean.from_rake_splay(rake, splay), HEIGHT, SQUARE, orientation)
    way = next(ways_to_saw(leg, cut))
    whole = sawn(leg, *way, cut.blank_length + WASTE)
    along = whole.vertices @ leg.down
    assert along.max() - along.min() == pytest.approx(cut.blank_length, abs=WITHIN)
    assert sawn(leg, *way, cut.blank_length + 1e-6).volume == pytest.approx(whole.volume, rel=1e-12)
    assert sawn(leg, *way, cut.blank_length - 1.0).volume < whole.volume - 1e-3  # two corners would be missing


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_the_level_face_or_the_upright_one_is_what_the_name_says(orientation):
    """The witness itself: which of its faces holds which line of the room."""
    leg = leg_in_the_room(orientation, 25.0, -20.0, -1, 1)
    front, side = leg.stood.apply(leg.front), leg.stood.apply(leg.side)
    outer_edge = (front + side)[:2] @ leg.down[:2] / (np.linalg.norm(leg.down[:2]) * np.linalg.norm((front + side)[:2]))
    held = {
        "untwisted": leg.stood.as_rotvec()[2],
        "front_level": front[0],
        "side_level": side[1],
        "sightline": side[2],
        "sightline_corner": 1 - outer_edge,
    }
    assert held[orientation] == pytest.approx(0, abs=1e-12)
    assert front @ leg.front > 0 or orientation.startswith("sightline")  # still outward, unless the lean says where


def test_the_usual_slips_leave_the_foot_off_level():
    # mitre = splay with tilt = rake; and the two faces' settings changed about
    leg = leg_in_the_room("untwisted", 25.0, 20.0, 1, 1)
    cut = end_cut(Lean.from_rake_splay(25.0, 20.0), HEIGHT, SQUARE)
    face, outer_face, edge, setting = next(ways_to_saw(leg, cut))
    changed_about = SawSetting(
        "front", cut.side_down.mitre_deg, cut.side_down.tilt_deg, setting.long_edge, setting.long_face
    )
    for slip in (replace(setting, tilt_deg=25.0), changed_about):
        feet = [foot[2] for _, foot in edges_of(leg, sawn(leg, face, outer_face, edge, slip, cut.blank_length + WASTE))]
        assert max(feet) - min(feet) > 0.5
