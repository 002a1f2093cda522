"""The five ways to turn a leaning square leg, each against a stick that is turned as its name says.

The stick stands in the room by its definition: tipped by scipy's rotation, or with a face held to a
level line. Floor and table are planes; a try square, a bevel gauge and a tape read the rest.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from furnlib.trade.leg.end_cut import EDGES, ORIENTATIONS, end_cut, level_corner
from furnlib.trade.leg.lean import Lean

steady = settings(deadline=None, derandomize=True)
leans = st.floats(-75, 75).map(lambda angle: round(angle, 6))  # finer than any saw, coarser than underflow
ways = st.sampled_from(ORIENTATIONS)
X, Y, UP = np.eye(3)
TABLE = [-60.0, -25.0, -8.0, -0.0, 0.0, 1e-7, 6.0, 8.0, 20.0, 45.0, 75.0]
LEANS_BOTH_WAYS = [(8.0, 6.0), (-8.0, 6.0), (8.0, -6.0), (-25.0, -20.0), (40.0, 65.0)]
FOUR_LEGS = list(product((1, -1), repeat=2))
"""Outward to the front or to the back, to the right or to the left."""


def unit(v):
    return v / np.linalg.norm(v)


@dataclass(frozen=True)
class Standing:
    """A square stick in the room: down its axis, and out of its front and side faces."""

    down: np.ndarray
    front: np.ndarray
    side: np.ndarray

    def mitre_deg(self, face, across):
        """Angle in a face between the floor's line and a line square across the stick."""
        line = np.cross(face, UP)
        return math.degrees(math.atan2(abs(line @ self.down), abs(line @ across)))

    def tilt_deg(self, face):
        """How far the floor is from square to a face."""
        return abs(90 - math.degrees(math.atan2(np.linalg.norm(np.cross(face, UP)), face @ UP)))

    def corner(self, fore_aft, sideways):
        """Where a long edge meets the floor, from where the axis does."""
        across = fore_aft * self.front + sideways * self.side
        return across - self.down * (across @ UP) / (self.down @ UP)

    def past_the_axis(self, fore_aft, sideways):
        """The same, measured down the stick."""
        return self.corner(fore_aft, sideways) @ self.down

    def mirrored(self, fore_aft, sideways):
        """The same leg at another place round the piece."""
        mirror = np.array([sideways, fore_aft, 1])
        return Standing(mirror * self.down, mirror * self.front, mirror * self.side)


def stand(orientation, rake, splay):
    """A right front leg, from what its orientation says of its faces."""
    down = unit(np.array([math.tan(math.radians(splay)), math.tan(math.radians(rake)), -1.0]))
    level = np.cross(-UP, down)  # square to the sight line; as long as the sine of the total lean
    if orientation == "untwisted":
        turn = (
            Rotation.from_rotvec(unit(level) * math.asin(np.linalg.norm(level))) if any(level) else Rotation.identity()
        )
        return Standing(turn.apply(-UP), turn.apply(Y), turn.apply(X))
    if orientation == "front_level":
        front = unit(np.cross(X, down))
        return Standing(down, front, np.cross(down, front))
    if orientation == "side_level":
        side = unit(np.cross(down, Y))
        return Standing(down, np.cross(side, down), side)
    if not any(level):  # a plumb leg has no sight line: it stands square to the room
        return Standing(down, Y, X)
    side = unit(np.cross(down, UP))
    front = np.cross(side, down)
    if orientation == "sightline":
        return Standing(down, front, side)
    eighth = Rotation.from_rotvec(down * math.radians(-45))  # to the hand that brings the outer edge foremost
    return Standing(down, eighth.apply(front), eighth.apply(side))


def compare(orientation, rake, splay, height, square):
    cut, leg = end_cut(Lean.from_rake_splay(rake, splay), height, square, orientation), stand(orientation, rake, splay)
    for setting, face, across in ((cut.front_down, leg.front, leg.side), (cut.side_down, leg.side, leg.front)):
        for out in (face, -face):
            assert setting.mitre_deg == pytest.approx(leg.mitre_deg(out, across), abs=1e-9)
            assert setting.tilt_deg == pytest.approx(leg.tilt_deg(out), abs=1e-9)
    edges = [(square / 2 * fore_aft, square / 2 * sideways) for fore_aft, sideways in EDGES]
    corners = [leg.corner(*edge) for edge in edges]
    past = [leg.past_the_axis(*edge) for edge in edges]
    assert cut.edge_offsets == pytest.approx(past, rel=1e-9, abs=1e-9)
    assert cut.axis_length == pytest.approx(height / -leg.down[2], rel=1e-9)
    assert cut.blank_length == pytest.approx(cut.axis_length + max(past) - min(past), rel=1e-9)
    for (fore_aft, sideways), corner in zip(cut.level_corners, corners, strict=True):
        assert (sideways, fore_aft, 0) == pytest.approx(corner, rel=1e-9, abs=1e-9 * square)
    outer, neighbour, _, behind = corners
    front_edge, side_edge = outer - neighbour, outer - behind
    sharper = 90 - math.degrees(math.atan2(np.linalg.norm(np.cross(front_edge, side_edge)), front_edge @ side_edge))
    assert cut.corner_deg == pytest.approx(sharper, abs=1e-9)
    for found, (along, out) in ((cut.front_edge_deg, front_edge[:2]), (cut.side_edge_deg, side_edge[1::-1])):
        assert same_direction(found, math.degrees(math.atan2(out, along)))
    plain = stand("untwisted", rake, splay)
    assert same_direction(cut.twist_deg, math.degrees(math.atan2(leg.front @ plain.side, leg.front @ plain.front)))


def same_direction(found_deg, expected_deg):
    return -180 <= found_deg <= 180 and abs((found_deg - expected_deg + 180) % 360 - 180) < 1e-8


# What is read off the stick


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize("rake", TABLE)
def test_settings_lengths_and_section_are_those_of_the_stick(orientation, rake):
    for splay in TABLE:
        compare(orientation, rake, splay, 151.0, 48.0)


@steady
@given(ways, leans, leans, st.floats(10, 1000), st.floats(10, 100))
def test_settings_lengths_and_section_are_those_of_any_stick(orientation, rake, splay, height, square):
    compare(orientation, rake, splay, height, square)


@steady
@given(leans, leans, st.floats(-50, 50), st.floats(-50, 50))
def test_a_long_edge_anywhere_in_the_section_meets_the_floor_where_it_does_on_the_stick(rake, splay, fore, side):
    x, y, _ = stand("untwisted", rake, splay).corner(fore, side)
    found = level_corner(math.tan(math.radians(rake)), math.tan(math.radians(splay)), fore, side)
    assert found == pytest.approx((y, x), rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(("rake", "splay"), LEANS_BOTH_WAYS)
def test_each_name_says_which_line_stays_level(rake, splay):
    def edges(orientation):
        cut = end_cut(Lean.from_rake_splay(rake, splay), 151.0, 48.0, orientation)
        return cut.front_edge_deg, cut.side_edge_deg, cut.corner_deg

    assert edges("front_level")[0] == pytest.approx(0, abs=1e-12)
    assert edges("side_level")[1] == pytest.approx(0, abs=1e-12)
    front, side, off_square = edges("untwisted")
    assert front + side == pytest.approx(off_square, abs=1e-12)  # the two edges share it
    assert 0.3 < front / off_square < 0.7
    front, side, off_square = edges("sightline")
    assert off_square == pytest.approx(0, abs=1e-12)
    assert side == pytest.approx(Lean.from_rake_splay(rake, splay).sight_line_deg, abs=1e-12)


@pytest.mark.parametrize(("rake", "splay"), LEANS_BOTH_WAYS)
def test_corner_foremost_the_outer_edge_looks_along_the_sight_line(rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    outer = end_cut(lean, 151.0, 48.0, "sightline_corner").level_corners[0]
    assert math.degrees(math.atan2(outer[1], outer[0])) == pytest.approx(lean.sight_line_deg, abs=1e-10)


@pytest.mark.parametrize("rake", [-30.0, -1.0, -0.0, 0.0, 1.0, 30.0])
def test_a_leg_that_leans_to_front_or_back_only_stands_alike_untwisted_and_level(rake):
    cuts = [end_cut(Lean.from_rake_splay(rake, 0.0), 151.0, 48.0, way) for way in ORIENTATIONS[:3]]
    for cut in cuts:
        assert (cut.side_down.mitre_deg, cut.side_down.tilt_deg) == pytest.approx((abs(rake), 0), abs=1e-12)
        assert (cut.front_down.mitre_deg, cut.front_down.tilt_deg) == pytest.approx((0, abs(rake)), abs=1e-12)
        assert cut.twist_deg == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("rake", [-30.0, -1e-9])
def test_a_leg_that_leans_straight_in_is_turned_right_round_to_face_its_sight_line(rake):
    assert end_cut(Lean.from_rake_splay(rake, -0.0), 151.0, 48.0, "sightline").twist_deg == 180
    both = end_cut(Lean.from_rake_splay(np.array([rake, 8.0]), 0.0), 151.0, 48.0, "sightline")
    assert both.twist_deg.tolist() == [180, 0]


# On the saw table: x towards the blade, y to the left of one who looks that way, z up


def laid(leg, face, end):
    """The room seen from the table, a face of the leg down and one end to the blade: rows are x, y, z."""
    return np.array([end, np.cross(-face, end), -face])


def set_for_level(leg, face, end):
    """How far a level cut runs towards the blade for one unit to the left, and for one unit up."""
    x, y, z = laid(leg, face, end) @ UP
    return np.array([-y / x, -z / x])


def out_of_level_deg(leg, face, end, setting):
    """How far off level the end stands in the room, sawn by some setting."""
    into_the_wood = laid(leg, face, end).T @ (-1, *setting)
    plumb = -UP if end @ UP > 0 else UP
    return math.degrees(math.atan2(np.linalg.norm(np.cross(into_the_wood, plumb)), into_the_wood @ plumb))


def sign(size):
    return 0 if abs(size) < 1e-9 else math.copysign(1, size)


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize(("rake", "splay"), [*LEANS_BOTH_WAYS, (8.0, 0.0), (0.0, -6.0), (0.0, 0.0)])
@pytest.mark.parametrize("place", FOUR_LEGS)
def test_swing_and_tip_say_what_is_left_the_longer_at_the_foot(orientation, rake, splay, place):
    cut = end_cut(Lean.from_rake_splay(rake, splay), 151.0, 48.0, orientation)
    leg = stand(orientation, rake, splay).mirrored(*place)
    for setting, face, outer_edge in ((cut.front_down, leg.front, leg.side), (cut.side_down, leg.side, leg.front)):
        for down in (face, -face):  # the face named, and its opposite
            saw = set_for_level(leg, down, leg.down)
            left_and_up = laid(leg, down, leg.down)[1:]
            assert sign(saw @ (left_and_up @ outer_edge)) == setting.long_edge
            assert sign(saw @ (left_and_up @ face)) == setting.long_face
            assert math.degrees(math.atan(abs(saw[0]))) == pytest.approx(setting.mitre_deg, abs=1e-9)
            blade = math.asin(abs(saw[1]) / np.linalg.norm((1, *saw)))
            assert math.degrees(blade) == pytest.approx(setting.tilt_deg, abs=1e-9)


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize(("rake", "splay"), LEANS_BOTH_WAYS)
@pytest.mark.parametrize("place", FOUR_LEGS)
def test_slide_the_leg_on_for_the_second_cut_and_do_not_turn_it_end_for_end(orientation, rake, splay, place):
    cut = end_cut(Lean.from_rake_splay(rake, splay), 151.0, 48.0, orientation)
    leg = stand(orientation, rake, splay).mirrored(*place)
    foot, top = leg.down, -leg.down
    for setting, face in ((cut.front_down, leg.front), (cut.side_down, leg.side)):
        saw = set_for_level(leg, face, foot)
        mitre, tilt = saw
        assert out_of_level_deg(leg, face, foot, saw) == pytest.approx(0, abs=1e-12)  # and so at the top, slid on
        # end for end on the same face the mitre stands, the tilt is wrong way round: out by twice the tilt
        assert out_of_level_deg(leg, face, top, saw) == pytest.approx(2 * setting.tilt_deg, abs=1e-9)
        assert out_of_level_deg(leg, face, top, (mitre, -tilt)) == pytest.approx(0, abs=1e-9)
        # rolled over onto the opposite face, both are the wrong way round
        assert out_of_level_deg(leg, -face, foot, (-mitre, -tilt)) == pytest.approx(0, abs=1e-9)
        # end for end and rolled over, the tilt stands and the mitre is wrong
        assert out_of_level_deg(leg, -face, top, (-mitre, tilt)) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_left_and_right_legs_swing_to_opposite_hands(orientation):
    right = stand(orientation, 8.0, 6.0)
    left = right.mirrored(1, -1)
    for face in ("front", "side"):
        one, other = (set_for_level(leg, getattr(leg, face), leg.down) for leg in (right, left))
        assert one == pytest.approx(other * (-1, 1), abs=1e-12)
