"""A plumb hole in a leaning leg: wander, walls, breakout, neck and location pin.

The witnesses are solids. A square stick is turned about itself and tipped by scipy's rotations; points
all over the hole's cylinder are held against its four face planes, or against the axis of a round one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

from furnlib.base.guards import DesignError
from furnlib.teach.derive.fixing import derive_fixing
from furnlib.trade.case.fixing import hole_wander, location_pin, screw_fixing, wall_beside, wall_by_rule, wall_left
from furnlib.trade.leg.lean import Lean

steady = settings(deadline=None, derandomize=True, max_examples=60)
leans = st.floats(-40, 40)
sizes = st.floats(20, 80)
X, Y, Z = np.eye(3)
TURNS = np.linspace(0, 2 * math.pi, 3601)
COARSE = 5e-7
"""A rim of 3600 points misses the furthest place by at most 1 - cos 0.05° of its radius, 4e-7."""


@dataclass(frozen=True)
class Stick:
    """A leg in the room, x sideways outward, y fore-and-aft outward, the top's middle at the origin."""

    turned: Rotation
    across: float
    is_round: bool

    @property
    def axis(self):
        return self.turned.apply(-Z)

    @property
    def outward(self):
        """Level direction of the sight line; fore and aft where the leg is plumb."""
        run = self.axis * [1, 1, 0]
        return run / np.linalg.norm(run) if np.linalg.norm(run) > 1e-12 else Y

    def slopes(self):
        """Tangents of the mitres on side and front face: the floor's line on a face, against square across."""
        lines = [(np.cross(self.turned.apply(face), Z), self.turned.apply(across)) for face, across in ((X, Y), (Y, X))]
        return tuple(abs((line @ self.axis) / (line @ across)) for line, across in lines)

    def hole(self, diameter, depth, offset=0.0):
        """Points of the hole's cylinder: rims at its mouth, its tip and between."""
        rim = diameter / 2 * (np.outer(np.cos(TURNS), X) + np.outer(np.sin(TURNS), Y)) + offset * self.outward
        return np.concatenate([rim - level * Z for level in np.linspace(0, depth, 5)])

    def walls(self, points):
        """Least wall from the points to front or back, and to the sides; round, to the surface twice."""
        if self.is_round:
            wall = self.across / 2 - np.linalg.norm(np.cross(points, self.axis), axis=1).max()
            return wall, wall
        return tuple(self.across / 2 - abs(points @ self.turned.apply(face)).max() for face in (Y, X))


def stick(rake, splay, across=48.0, twist=0.0, is_round=False):
    run = np.array([math.tan(math.radians(splay)), math.tan(math.radians(rake)), 0.0])
    level_line = np.cross(-Z, run)
    length = np.linalg.norm(level_line)
    tip = Rotation.from_rotvec(level_line / length * math.atan(length)) if length else Rotation.identity()
    return Stick(tip * Rotation.from_euler("z", twist, degrees=True), across, is_round)


# By hand


def test_the_landing_chest_by_hand():
    """Square 48, rake 8, splay 6; a screw of 8, 60 deep; a neck of 26 at 60.

    tan 8 = 0.14054, tan 6 = 0.10510, tan R = 0.17550, cos R = 0.98495, and half the screw is 4.
    The shop's rule: 24 - 60 x 0.17550 - 4 = 24 - 10.53 - 4 = 9.47, and at the neck 13 - 10.53 - 4 = -1.53.
    By face and without cosines, 24 - 60 tan 8 - 4 = 11.57 and 24 - 60 tan 6 - 4 = 13.69. Square to the
    face both depth and rim count a little less: sin t = tan 8 x 0.98495 = 0.13842, cos t = 0.99037,
    so 24 - 8.305 - 3.961 = 11.73; sin t = 0.10352, cos t = 0.99463, so 24 - 6.211 - 3.979 = 13.81.
    At the neck sin R = 0.17285: 13 - 10.371 - 3.940 = -1.31.
    It would come out where the axis is level with the neck, 60 x 0.98495 = 59.10 deep.
    """
    lean = Lean.from_rake_splay(8.0, 6.0)
    fixing = screw_fixing(lean, 48.0, 60.0, 8.0, 8.0, neck=(60.0, 26.0), height=151.0)
    assert fixing.wander == pytest.approx(10.53, abs=0.005)
    assert fixing.wall_front == pytest.approx(11.73, abs=0.005)
    assert fixing.wall_side == pytest.approx(13.81, abs=0.005)
    assert fixing.wall_neck == fixing.wall == pytest.approx(-1.31, abs=0.005)
    assert fixing.wall_by_rule == pytest.approx(-1.53, abs=0.005)
    assert fixing.breakout == fixing.deepest == pytest.approx(59.10, abs=0.005)
    plain = screw_fixing(lean, 48.0, 60.0, 8.0, 8.0)
    assert plain.wall == plain.wall_front == fixing.wall_front
    assert plain.wall_by_rule == wall_by_rule(48.0, 8.0, fixing.wander) == pytest.approx(9.47, abs=0.005)
    # without the cosines the front wall is w/2 - d tan r - D/2, and always the smaller number
    assert 24 - 60 * math.tan(math.radians(8)) - 4 == pytest.approx(11.57, abs=0.005)
    assert 24 - 60 * math.tan(math.radians(6)) - 4 == pytest.approx(13.69, abs=0.005)
    # 8 of wall: (24 - 8 - 3.961) / 0.13842 = 86.97 deep; none left: (24 - 3.961) / 0.13842 = 144.77
    assert plain.deepest == pytest.approx(86.97, abs=0.02)
    assert plain.breakout == pytest.approx(144.77, abs=0.02)


def test_the_media_case_by_hand():
    # total lean 15: 2 1/2 in x tan 15 = 2.5 x 0.26795 = 0.670 in; 63.5 mm gives 17.0
    lean = Lean.from_total_lean(15.0, 60.0)
    assert screw_fixing(lean, 2.25, 2.5, 0.25, 0.25).wander == pytest.approx(0.670, abs=0.0005)
    assert screw_fixing(lean, 57.15, 63.5, 6.35, 6.35).wander == pytest.approx(17.0, abs=0.05)


def test_a_lean_of_three_four_five_by_hand():
    # tan 3/4: sine 3/5, cosine 4/5. 10 deep wanders 7.5; 30 - 10 x 0.6 - 5 x 0.8 = 20 in front, 30 - 5 beside
    fixing = screw_fixing(Lean(0.75, 0.0), 60.0, 10.0, 10.0, 5.0)
    assert (fixing.wander, fixing.wall_front, fixing.wall_side) == pytest.approx((7.5, 20.0, 25.0), rel=1e-14)
    assert fixing.wall_by_rule == pytest.approx(30 - 7.5 - 5, rel=1e-14)
    assert (fixing.breakout, fixing.deepest) == pytest.approx((26 / 0.6, 21 / 0.6), rel=1e-14)
    round_leg = screw_fixing(Lean(0.75, 0.0), 60.0, 10.0, 10.0, 5.0, is_round=True)
    assert round_leg.wall == round_leg.wall_front == round_leg.wall_side == pytest.approx(20.0, rel=1e-14)
    # 2 deep, less than 5 x 3/4, the rim stands sqrt(25 + 4) off the axis to either side of the plane
    near = screw_fixing(Lean(0.75, 0.0), 60.0, 2.0, 10.0, 5.0, is_round=True)
    assert near.wall == pytest.approx(30 - math.sqrt(29), rel=1e-14)
    # a tenon of 40 with a wall of 6: no place on its rim may stand 24 off the axis, 20² + d² = 24²
    tenon = screw_fixing(Lean(0.75, 0.0), 60.0, 2.0, 40.0, 6.0, is_round=True)
    assert tenon.deepest == pytest.approx(math.sqrt(24**2 - 20**2), rel=1e-14)


# Against the solid


@pytest.mark.parametrize("rake", [-30.0, -8.0, 0.0, 1e-6, 8.0, 25.0])
@pytest.mark.parametrize("splay", [-20.0, 0.0, 6.0, 30.0])
@pytest.mark.parametrize("twist", [0.0, 7.0, 45.0])
def test_walls_of_a_square_leg_are_those_of_the_solid(rake, splay, twist):
    leg = stick(rake, splay, twist=twist)
    slopes = leg.slopes() if rake or splay else None
    fixing = screw_fixing(Lean.from_rake_splay(rake, splay), 48.0, 31.0, 9.0, 0.001, slopes=slopes)
    front, side = leg.walls(leg.hole(9.0, 31.0))
    assert fixing.wall_front == pytest.approx(front, abs=9 * COARSE)
    assert fixing.wall_side == pytest.approx(side, abs=9 * COARSE)
    assert fixing.wander == pytest.approx(np.linalg.norm(31.0 * Z + leg.axis * 31.0 / (leg.axis @ -Z)), abs=1e-9)


@steady
@given(leans, leans, sizes, st.floats(0.05, 0.6), st.floats(0.02, 2))
def test_walls_of_a_round_leg_are_those_of_the_solid(rake, splay, across, thick, deep):
    # deep and shallow, so that the thinnest wall lies in the plane of the lean and beside it
    leg = stick(rake, splay, across, is_round=True)
    diameter, depth = thick * across, deep * across
    fixing = screw_fixing(Lean.from_rake_splay(rake, splay), across, depth, diameter, 1e-3, is_round=True)
    assert fixing.wall == pytest.approx(leg.walls(leg.hole(diameter, depth))[0], abs=diameter * COARSE + 1e-9)
    assert fixing.wall_front == fixing.wall_side == fixing.wall


@steady
@given(leans, leans, st.floats(-45, 45), sizes, st.floats(0.05, 0.5), st.booleans())
def test_it_comes_out_where_the_solid_says(rake, splay, twist, across, thick, is_round):
    """The depth at which no wall is left, and at which the wanted wall is, searched for on the solid."""
    leg, diameter, wanted = stick(rake, splay, across, twist, is_round), thick * across, 0.1 * across
    slopes = None if is_round or not (rake or splay) else leg.slopes()
    lean = Lean.from_rake_splay(rake, splay)
    fixing = screw_fixing(lean, across, 1.0, diameter, wanted, slopes=slopes, is_round=is_round)
    for depth, wall in ((fixing.breakout, 0.0), (fixing.deepest, wanted)):
        if depth > 50 * across:
            assert min(leg.walls(leg.hole(diameter, 50 * across))) > wall
        else:
            found = brentq(lambda d, w=wall: min(leg.walls(leg.hole(diameter, d))) - w, 0.0, 60 * across)
            # the slacker the lean, the further a slip on the rim carries along the hole
            steep = np.linalg.norm(leg.axis * [1, 1, 0]) / math.sqrt(2)
            assert depth == pytest.approx(found, abs=diameter * COARSE / steep + 1e-6)


def first_out(leg, diameter, neck):
    """The depth at which a deepening hole first leaves the wood of a stick that steps down at its neck."""
    station, thin = neck
    mouth = diameter / 2 * (np.outer(np.cos(TURNS[::10]), X) + np.outer(np.sin(TURNS[::10]), Y))
    for depth in np.arange(0.0, 500.0, 0.02):
        rim = mouth - depth * Z
        narrow = rim[rim @ leg.axis >= station]
        off = np.linalg.norm(np.cross(narrow, leg.axis), axis=1)
        if min(leg.walls(rim)) < 0 or (off.size and off.max() > thin / 2):
            return depth
    return math.inf


@pytest.mark.parametrize("rake", [pytest.param(3.0, marks=pytest.mark.slow), 10.0, 20.0])
@pytest.mark.parametrize("neck", [(20.0, 30.0), (60.0, 26.0), (30.0, 26.0), (90.0, 40.0)])
def test_a_neck_is_never_taken_to_hold_out_longer_than_it_does(rake, neck):
    leg, diameter = stick(rake, 4.0), 8.0
    fixing = screw_fixing(Lean.from_rake_splay(rake, 4.0), 48.0, 10.0, diameter, 1.0, neck=neck)
    found = first_out(leg, diameter, neck)
    assert fixing.breakout <= found + 0.02
    level, into = neck[0] * -leg.axis[2], neck[0] + diameter / 2 * math.hypot(*leg.axis[:2])
    enters = into / -leg.axis[2]
    if level < found < enters + 0.02:  # out at the step: the neck is taken to begin a little higher, as a cove does
        assert fixing.breakout == pytest.approx(level, abs=1e-9)
    else:  # out of the square above the neck, or out of the neck with the hole well within it
        assert fixing.breakout == pytest.approx(found, abs=0.03)


def test_a_neck_counts_from_the_depth_at_which_the_axis_is_level_with_it():
    lean = Lean(0.75, 0.0)  # cosine 4/5, so a neck at 50 lies 40 deep
    above, below = (screw_fixing(lean, 60.0, depth, 6.0, 1.0, neck=(50.0, 30.0)) for depth in (39.9, 40.1))
    assert above.wall_neck == math.inf
    assert above.wall == above.wall_front
    # 15 - 40.1 x 0.6 - 3 x 0.8 = -11.46; by the rule 15 - 30.075 - 3 = -18.075
    assert below.wall == below.wall_neck == pytest.approx(-11.46, rel=1e-12)
    assert below.wall_by_rule == pytest.approx(-18.075, rel=1e-12)
    assert above.breakout == above.deepest == pytest.approx(40.0, rel=1e-14)


# The pin


@steady
@given(leans, leans, st.floats(-45, 45), st.floats(0.2, 2), st.booleans())
def test_the_pin_stands_midway_in_the_room_that_the_solid_has(rake, splay, twist, deep, is_round):
    leg, screw, pin, wanted = stick(rake, splay, 60.0, twist, is_round), 6.0, 5.0, 3.0
    slopes = None if is_round or not (rake or splay) else leg.slopes()
    lean = Lean.from_rake_splay(rake, splay)
    found = location_pin(lean, 60.0, screw, deep * 30.0, pin, wanted, slopes=slopes, is_round=is_round)

    def least(offset):
        return min(offset - (screw + pin) / 2, *leg.walls(leg.hole(pin, deep * 30.0, offset)))

    assert found.wall == pytest.approx(least(found.pin_offset), abs=pin * COARSE + 1e-9)
    for end in (-1, 1):
        assert least(found.pin_offset + end * found.play / 2) == pytest.approx(wanted, abs=pin * COARSE + 1e-9)
        assert least(found.pin_offset + end * (found.play / 2 + 0.01)) < wanted
        assert least(found.pin_offset + end * (found.play / 2 - 0.01)) > wanted


def test_the_pin_by_hand():
    # plumb, 48 square, walls of 5: from 4 + 3 + 5 = 12 out to 24 - 5 - 3 = 16
    found = location_pin(Lean(0.0, 0.0), 48.0, 8.0, 20.0, 6.0, 5.0)
    assert (found.pin_offset, found.play, found.wall) == (14.0, 4.0, 7.0)
    # leaning 3 in 4 the same leg: the top cut is 1 / 0.8 as long, out to (24 - 5 - 3 x 0.8) / 0.8 = 20.75;
    # the tip of a pin 60 deep wanders 45, so it must start at 45 - 20.75 = 24.25 at least
    found = location_pin(Lean(0.75, 0.0), 48.0, 8.0, 20.0, 6.0, 5.0)
    assert (found.pin_offset, found.play) == pytest.approx(((12 + 20.75) / 2, 8.75), rel=1e-13)
    with pytest.raises(DesignError, match=r"walls of 5.0 they need 3.5 more"):
        location_pin(Lean(0.75, 0.0), 48.0, 8.0, 60.0, 6.0, 5.0)


# Properties


def numbers_of(result):
    return np.array(list(vars(result).values()))


@steady
@given(leans, leans, st.floats(0.01, 100), st.booleans())
def test_every_length_scales(rake, splay, k, is_round):
    lean = Lean.from_rake_splay(rake, splay)
    one = screw_fixing(lean, 48.0, 55.0, 8.0, 6.0, neck=(50.0, 30.0), is_round=is_round)
    larger = screw_fixing(lean, *(k * np.array([48.0, 55.0, 8.0, 6.0])), neck=(k * 50.0, k * 30.0), is_round=is_round)
    assert numbers_of(larger) == pytest.approx(k * numbers_of(one), rel=1e-11, abs=1e-11 * k)
    pin = location_pin(lean, 80.0, 8.0, 20.0, 6.0, 4.0, is_round=is_round)
    larger_pin = location_pin(lean, *(k * np.array([80.0, 8.0, 20.0, 6.0, 4.0])), is_round=is_round)
    assert numbers_of(larger_pin) == pytest.approx(k * numbers_of(pin), rel=1e-11)


@steady
@given(leans, leans)
def test_mirror_images_are_alike_and_the_faces_change_places_with_rake_and_splay(rake, splay):
    one = screw_fixing(Lean.from_rake_splay(rake, splay), 48.0, 50.0, 8.0, 6.0)
    for fore, side in ((-1, 1), (1, -1), (-1, -1)):
        mirrored = screw_fixing(Lean.from_rake_splay(fore * rake, side * splay), 48.0, 50.0, 8.0, 6.0)
        assert numbers_of(mirrored) == pytest.approx(numbers_of(one), rel=1e-13)
    assume(rake or splay)
    other = screw_fixing(Lean.from_rake_splay(splay, rake), 48.0, 50.0, 8.0, 6.0)
    assert (other.wall_front, other.wall_side) == pytest.approx((one.wall_side, one.wall_front), rel=1e-12)


@steady
@given(leans, leans, st.floats(0.1, 150), st.floats(0.01, 20), st.booleans(), st.booleans())
def test_deeper_is_never_thicker_and_the_rule_is_on_the_safe_side(rake, splay, depth, more, is_round, with_neck):
    lean, neck = Lean.from_rake_splay(rake, splay), (60.0, 26.0) if with_neck else None
    one, deeper = (screw_fixing(lean, 48.0, d, 8.0, 6.0, neck=neck, is_round=is_round) for d in (depth, depth + more))
    assert deeper.wall <= one.wall + 1e-12
    assert deeper.wander >= one.wander
    assert one.wall_by_rule <= one.wall + 1e-12
    assert (one.breakout, one.deepest) == (deeper.breakout, deeper.deepest)
    assert one.deepest <= one.breakout


@steady
@given(leans, leans, st.floats(0.1, 19), st.booleans())
def test_the_deepest_screw_leaves_the_wanted_wall(rake, splay, wanted, is_round):
    """There and back: as deep as it may go, the least wall is the wanted one."""
    lean = Lean.from_rake_splay(rake, splay)
    assume(lean.total_lean_deg > 1e-3)
    deepest = screw_fixing(lean, 48.0, 1.0, 8.0, wanted, is_round=is_round).deepest
    assert screw_fixing(lean, 48.0, deepest, 8.0, 1.0, is_round=is_round).wall == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("is_round", [False, True])
@pytest.mark.parametrize("tan_rake", [0.0, -0.0, 1e-300, 1e-12])
def test_an_upright_leg_has_the_same_wall_all_the_way_down(tan_rake, is_round):
    wanted = 15.0 if tan_rake else 20.0
    fixing = screw_fixing(Lean(tan_rake, 0.0), 48.0, 60.0, 8.0, wanted, is_round=is_round)
    assert (fixing.wander, fixing.wall, fixing.wall_by_rule) == pytest.approx((0, 20, 20), abs=1e-9)
    assert fixing.breakout > 1e12
    if not tan_rake:
        assert fixing.breakout == fixing.deepest == math.inf


# Kinds of number, refusals, symbols


def test_numbers_give_floats_and_arrays_broadcast():
    lean = Lean.from_rake_splay(np.array([[0.0], [8.0], [20.0]]), 6.0)
    depths = np.array([10.0, 60.0])
    for is_round in (False, True):
        fixing = screw_fixing(lean, 48.0, depths, 8.0, 6.0, neck=(50.0, 30.0), is_round=is_round)
        pin = location_pin(lean, 60.0, 8.0, depths / 3, 5.0, 3.0, is_round=is_round)
        assert fixing.wall.shape == pin.pin_offset.shape == (3, 2)
        for i, rake in enumerate((0.0, 8.0, 20.0)):
            for j, depth in enumerate(depths):
                one_lean = Lean.from_rake_splay(rake, 6.0)
                one = screw_fixing(one_lean, 48, float(depth), 8, 6, neck=(50, 30), is_round=is_round)
                assert all(type(number) is float for number in vars(one).values())
                for name, number in vars(one).items():
                    assert np.broadcast_to(getattr(fixing, name), (3, 2))[i, j] == pytest.approx(number, rel=1e-14)
                one_pin = location_pin(one_lean, 60, 8, float(depth) / 3, 5, 3, is_round=is_round)
                assert all(type(number) is float for number in vars(one_pin).values())
                assert pin.pin_offset[i, j] == pytest.approx(one_pin.pin_offset, rel=1e-14)


LEAN = Lean.from_rake_splay(8.0, 6.0)
SCREW = {"section": 48.0, "screw_depth": 60.0, "screw_diameter": 8.0, "least_wall": 6.0}
PIN = {"section": 48.0, "screw_diameter": 8.0, "pin_depth": 20.0, "pin_diameter": 6.0, "least_wall": 5.0}


@pytest.mark.parametrize("bad", [0, -1.0, float("nan"), float("inf"), np.array([8.0, 0.0])])
@pytest.mark.parametrize(("place", "asked"), [(screw_fixing, SCREW), (location_pin, PIN)], ids=["screw", "pin"])
def test_every_size_is_above_0(place, asked, bad):
    for size in asked:
        name = "thickness of the leg" if size == "section" else size.replace("_", " ")
        with pytest.raises(DesignError, match=f"The {name} is"):
            place(LEAN, **asked | {size: bad})


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"height": 60.0}, "The screw goes 60.0 deep into a leg 60.0 high; it must end inside: take a shorter screw."),
        ({"height": 0.0}, "The height of the leg is 0.0"),
        ({"neck": (0.0, 26.0)}, "The distance from the top to the neck is 0.0"),
        ({"neck": (60.0, -1.0)}, "The diameter of the neck is -1.0"),
        ({"screw_diameter": 48.0}, "A screw 48.0 thick, however short, does not leave a wall of 6.0 in a leg of 48"),
        ({"least_wall": 20.1}, "A screw 8.0 thick, .* take a thinner one, a thicker leg or a smaller wall"),
        ({"least_wall": 20.1, "is_round": True}, "A screw 8.0 thick, however short, does not leave a wall of 20.1"),
        ({"least_wall": 23.0, "lean": Lean(0.0, 0.0)}, "A screw 8.0 thick, however short, does not leave a wall of 23"),
        ({"slopes": (0.2, 0.1)}, "The slopes 0.2 and 0.1 are not those of a leg .* take them from the leg's end cuts"),
    ],
)
def test_what_cannot_be_made_is_refused_with_a_cure(change, sentence):
    with pytest.raises(DesignError, match=sentence):
        screw_fixing(**{"lean": LEAN} | SCREW | change)


def test_a_pin_without_room_is_refused_with_a_cure():
    # plumb, 48 square, screw 8, pin 6: from 7 and a wall out to 21 less a wall, so 7 is the most
    assert location_pin(Lean(0.0, 0.0), 48, 8, 20, 6, 7).play == 0
    with pytest.raises(DesignError, match=r"they need 0.2 more"):
        location_pin(Lean(0.0, 0.0), 48, 8, 20, 6, 7.1)
    # in a plumb leg of 30: 4 + 5 + 6 = 15 is the nearest, 15 - 6 - 5 = 4 the farthest
    with pytest.raises(DesignError, match=r"no room beside a screw 8 thick in a leg of 30: .* need 11 more; take a"):
        location_pin(Lean(0.0, 0.0), 30, 8, 20, 10, 6)
    with pytest.raises(DesignError, match="A pin 40 thick, however short, does not leave a wall of 6 in a leg of 48"):
        location_pin(LEAN, 48, 8, 20, 40, 6)


@pytest.mark.parametrize("claim", derive_fixing().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    """In symbols the difference is nothing, and with numbers the claim is what the functions give."""
    assert claim.difference == sympy.Integer(0)
    symbols = sympy.symbols("p q d D o w", positive=True)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (claim.running, claim.derived))
    for p, q, d, hole, o, w in np.random.default_rng(26).uniform(0.05, 1.0, (200, 6)):
        total = math.hypot(p, q)
        wander = hole_wander(d, total)
        expected = {
            "fixing.wander": wander,
            "fixing.wall_front": wall_left(w, hole, wander, total, p / total),
            "fixing.wall_side": wall_left(w, hole, wander, total, q / total),
            "fixing.wall_pin": wall_left(w, hole, o, total, p / total),
            "fixing.wall_round": wall_left(w, hole, wander, total, 1.0),
            "fixing.wall_beside": wall_beside(w, hole, d),
        }[claim.key]
        assert running(p, q, d, hole, o, w) == pytest.approx(expected, abs=1e-12)
        assert derived(p, q, d, hole, o, w) == pytest.approx(expected, abs=1e-12)
