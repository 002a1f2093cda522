"""Boxes and mouldings whose sides lean.

Two witnesses. The planes: two neighbouring sides as normals, the line in which they meet, and the
plane of the mitre, with every angle measured between vectors. And the boards: each is sawn flat on
the table at the settings, by scipy's rotations, then stood up in its place, where the sawn ends
must lie against each other.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from pictures import first_of
from scipy.spatial.transform import Rotation

from furnlib.base.angles import asind, cosd, sin_off_square, slope_in_plane, tand
from furnlib.base.guards import DesignError
from furnlib.teach.derive import tapered_box as derive_module
from furnlib.teach.derive.tapered_box import THETA, derive_tapered_box
from furnlib.teach.proof import RHO, SIGMA
from furnlib.trade.leg.tapered_box import (
    butt_box,
    crown_cut,
    mitred_dihedral,
    shared_tilt,
    sin_mitred_tilt,
    tan_box_mitre,
    tapered_box,
    unequal_box,
)

steady = settings(deadline=None, derandomize=True)
slopes = st.floats(-85, 85)
X, Y, Z = np.eye(3)
# nearer to 90 than 89.99 the witness itself loses the line of two planes
SLOPES = [-89.0, -60.0, -15.0, -0.0, 0.0, 1e-7, 5.0, 15.0, 38.0, 45.0, 75.0, 89.0, 89.99]
SIDES = [3, 4, 5, 6, 8, 12, 24]


def angle(first, second):
    return math.degrees(math.atan2(np.linalg.norm(np.cross(first, second)), first @ second))


@dataclass(frozen=True)
class Side:
    """One side of a box in its place: it slopes from plumb and faces a plan direction."""

    slope: float
    faces: float

    def placed(self, vector):
        """A board stands plumb, its level edge along y and its face towards x; slope it, then turn it round."""
        sloped = Rotation.from_euler("y", self.slope, degrees=True)
        return (Rotation.from_euler("z", self.faces, degrees=True) * sloped).apply(vector)

    @property
    def normal(self):
        return self.placed(X)

    def mitre(self, line, hand):
        """Angle in the face from straight up to a line, towards the end on the given hand."""
        return math.degrees(math.atan2(hand * (line @ self.placed(Y)), line @ self.placed(Z)))

    def sawn(self, mitre, tilt, hand):
        """Direction out of a sawn end: the square cut swung in the face, the blade then tilted about the cut."""
        swung = Rotation.from_rotvec(-math.radians(mitre) * X)
        tipped = Rotation.from_rotvec(math.radians(tilt) * swung.apply(Z))
        return self.placed(tipped.apply(swung.apply(Y)) * [1, hand, 1])


def corner(first, second):
    """Line of the corner, rising, and the normal of the plane of points that lie equally deep below both faces."""
    line = np.cross(first.normal, second.normal)
    return line * np.sign(line[2]), first.normal - second.normal


def check_mitred(first, second, mitres, tilt, dihedral):
    line, mitre = corner(first, second)
    assert mitres[0] == pytest.approx(first.mitre(line, 1), abs=1e-9)
    assert mitres[1] == pytest.approx(second.mitre(line, -1), abs=1e-9)
    for side in (first, second):
        assert tilt == pytest.approx(abs(90 - angle(side.normal, mitre)), abs=1e-9)
    assert dihedral == pytest.approx(180 - angle(first.normal, second.normal), abs=1e-9)
    one, other = first.sawn(mitres[0], tilt, 1), second.sawn(mitres[1], tilt, -1)
    assert one == pytest.approx(-other, abs=1e-9)


@pytest.mark.parametrize("slope", SLOPES)
@pytest.mark.parametrize("count", SIDES)
def test_a_box_of_equal_sides_is_that_of_the_planes_and_its_boards_close(slope, count):
    cut = tapered_box(slope, count)
    first, second = Side(slope, 0), Side(slope, 360 / count)
    check_mitred(first, second, (cut.mitre_deg, cut.mitre_deg), cut.tilt_deg, cut.dihedral_deg)


@steady
@given(slopes, st.integers(3, 60))
def test_any_box_of_equal_sides_closes(slope, count):
    cut = tapered_box(slope, count)
    first, second = Side(slope, 0), Side(slope, 360 / count)
    check_mitred(first, second, (cut.mitre_deg, cut.mitre_deg), cut.tilt_deg, cut.dihedral_deg)


@pytest.mark.parametrize("front", SLOPES)
@pytest.mark.parametrize("end", SLOPES)
def test_a_box_of_two_slopes_is_that_of_the_planes_and_its_boards_close(front, end):
    box = unequal_box(front, end)
    mitres = (box.front_mitre_deg, box.end_mitre_deg)
    check_mitred(Side(front, 0), Side(end, 90), mitres, box.tilt_deg, box.dihedral_deg)


@pytest.mark.parametrize("slope", SLOPES)
def test_a_butted_end_lies_in_the_inner_face_of_its_neighbour(slope):
    cut = butt_box(slope)
    first, second = Side(slope, 0), Side(slope, 90)
    line, _ = corner(first, second)
    assert cut.mitre_deg == pytest.approx(first.mitre(line, 1), abs=1e-9)
    assert cut.tilt_deg == pytest.approx(90 - angle(first.normal, second.normal), abs=1e-9)
    assert cut.dihedral_deg == pytest.approx(180 - angle(first.normal, second.normal), abs=1e-9)
    assert first.sawn(cut.mitre_deg, -cut.tilt_deg, 1) == pytest.approx(second.normal, abs=1e-9)


@pytest.mark.parametrize("spring", [5.0, 38.0, 45.0, 52.0, 80.0])
@pytest.mark.parametrize("between_walls", [1.0, 60.0, 88.5, 90.0, 120.0, 135.0, 179.0])
def test_two_mouldings_meet_in_a_corner(spring, between_walls):
    cut = crown_cut(spring, between_walls)
    first, second = Side(spring, 0), Side(spring, 180 - between_walls)
    check_mitred(first, second, (cut.mitre_deg, cut.mitre_deg), cut.tilt_deg, cut.dihedral_deg)


# Limits, signs and slips


@pytest.mark.parametrize("count", SIDES)
def test_plumb_sides_are_mitred_by_half_the_turn_and_flat_ones_swung_by_it(count):
    upright, flat = tapered_box(0.0, count), tapered_box(89.9999, count)
    assert (upright.mitre_deg, upright.tilt_deg) == pytest.approx((0, 180 / count), abs=1e-12)
    assert upright.dihedral_deg == pytest.approx(180 - 360 / count, abs=1e-12)
    assert (flat.mitre_deg, flat.tilt_deg) == pytest.approx((180 / count, 0), abs=1e-4)


def test_upright_boxes_by_the_other_joints():
    assert (butt_box(0.0).mitre_deg, butt_box(0.0).tilt_deg, butt_box(0.0).dihedral_deg) == (0, 0, 90)
    box = unequal_box(0.0, -0.0)
    assert (box.front_mitre_deg, box.end_mitre_deg, box.tilt_deg, box.dihedral_deg) == (0, 0, 45, 90)


def test_a_blade_at_45_is_for_an_upright_square_box_only():
    # cos 20 sin 45 = 0.93969 x 0.70711 = 0.66446, whose angle is 41.641; with one slope only 45 still serves
    assert tapered_box(20.0, 4).tilt_deg == pytest.approx(41.641, abs=5e-4)
    assert unequal_box(20.0, 0.0).tilt_deg == pytest.approx(45, abs=1e-12)


def test_a_slope_taken_from_level_is_another_box():
    # from plumb 15: sin 15 = 0.25882, angle 14.511; the slip, 75: sin 75 = 0.96593, angle 44.007
    assert tapered_box(15.0, 4).mitre_deg == pytest.approx(14.511, abs=5e-4)
    assert tapered_box(90 - 15.0, 4).mitre_deg == pytest.approx(44.007, abs=5e-4)


@steady
@given(slopes, st.integers(3, 60))
def test_a_box_that_opens_downward_is_the_other_way_up(slope, count):
    up, down = tapered_box(slope, count), tapered_box(-slope, count)
    assert (down.mitre_deg, down.tilt_deg, down.dihedral_deg) == (-up.mitre_deg, up.tilt_deg, up.dihedral_deg)
    butted = butt_box(-slope)
    assert (-butted.mitre_deg, butted.tilt_deg) == (butt_box(slope).mitre_deg, butt_box(slope).tilt_deg)


@steady
@given(slopes, slopes)
def test_front_and_ends_change_places(front, end):
    one, other = unequal_box(front, end), unequal_box(end, front)
    assert (one.front_mitre_deg, one.end_mitre_deg) == (other.end_mitre_deg, other.front_mitre_deg)
    assert one.tilt_deg == pytest.approx(other.tilt_deg, abs=1e-12)


@steady
@given(slopes)
def test_two_equal_slopes_are_the_box_of_four_equal_sides(slope):
    box, cut = unequal_box(slope, slope), tapered_box(slope, 4)
    assert box.front_mitre_deg == box.end_mitre_deg == pytest.approx(cut.mitre_deg, abs=1e-10)
    assert (box.tilt_deg, box.dihedral_deg) == pytest.approx((cut.tilt_deg, cut.dihedral_deg), abs=1e-10)
    butted = butt_box(slope)
    assert (butted.mitre_deg, butted.dihedral_deg) == pytest.approx((cut.mitre_deg, cut.dihedral_deg), abs=1e-10)


@steady
@given(slopes, st.integers(3, 60))
def test_a_moulding_in_the_corner_of_a_box_is_its_side(slope, count):
    box, moulding = tapered_box(slope, count), crown_cut(slope, 180 - 360 / count)
    assert (moulding.mitre_deg, moulding.tilt_deg) == pytest.approx((box.mitre_deg, box.tilt_deg), abs=1e-10)


# Kinds of numbers, refusals


def test_numbers_come_out_as_floats_and_arrays_as_arrays():
    for cut in (tapered_box(15, 6), butt_box(15), crown_cut(38, 90), unequal_box(20, 10)):
        assert {type(value) for value in vars(cut).values()} == {float}
    assert vars(tapered_box(Fraction(29, 2), 4)) == vars(tapered_box(14.5, 4))
    cuts = tapered_box(np.array([[0.0], [15.0]]), np.array([3, 4, 6]))
    assert cuts.mitre_deg.shape == cuts.tilt_deg.shape == cuts.dihedral_deg.shape == (2, 3)
    assert cuts.tilt_deg[1, 2] == pytest.approx(tapered_box(15.0, 6).tilt_deg, rel=1e-14)
    boxes = unequal_box(np.array([20.0, 0.0]), 10.0)
    assert boxes.end_mitre_deg == pytest.approx([unequal_box(a, 10.0).end_mitre_deg for a in (20.0, 0.0)], rel=1e-14)
    assert (
        butt_box(np.array([20.0, 0.0])).tilt_deg.shape == crown_cut(38.0, np.array([90.0, 135])).tilt_deg.shape == (2,)
    )


@pytest.mark.parametrize("bad", [90, -90.0, 105.0, float("nan"), float("inf"), np.array([15.0, 90.0])])
def test_a_slope_of_90_is_refused(bad):
    for name, call in (
        ("side slope", lambda: tapered_box(bad, 4)),
        ("side slope", lambda: butt_box(bad)),
        ("front slope", lambda: unequal_box(bad, 10.0)),
        ("end slope", lambda: unequal_box(10.0, bad)),
        ("spring", lambda: crown_cut(bad, 90.0)),
    ):
        with pytest.raises(DesignError, match=f"The {name} is"):
            call()


@pytest.mark.parametrize("bad", [2, 0, -4, 4.5, float("nan"), float("inf"), "four", np.array([4, 2])])
def test_sides_are_a_whole_number_from_3(bad):
    with pytest.raises(DesignError, match="The number of sides is"):
        tapered_box(15.0, bad)


@pytest.mark.parametrize("bad", [0, 180, -90.0, 270.0, float("nan")])
def test_a_corner_lies_between_0_and_180(bad):
    with pytest.raises(DesignError, match="The corner is"):
        crown_cut(38.0, bad)


# The derivation

DERIVATION = derive_tapered_box()
CLAIMS = {claim.key: claim for claim in DERIVATION.claims}
TAN_R, TAN_S, HALF_OF_SQUARE = tand(RHO), tand(SIGMA), sympy.Integer(45)
CALLED = {
    "tapered_box.mitre": tan_box_mitre(RHO, THETA),
    "tapered_box.tilt": sin_mitred_tilt(RHO, THETA) ** 2,
    "tapered_box.dihedral": cosd(mitred_dihedral(asind(sin_mitred_tilt(RHO, THETA)))),
    "tapered_box.butt_tilt": sin_off_square(TAN_R, TAN_R),
    "tapered_box.front_mitre": slope_in_plane(TAN_S, TAN_R),
    "tapered_box.end_mitre": slope_in_plane(TAN_R, TAN_S),
    "tapered_box.shared_tilt": cosd(2 * shared_tilt(RHO, SIGMA)),
    "tapered_box.unequal_dihedral": cosd(mitred_dihedral(shared_tilt(RHO, SIGMA))),
    "tapered_box.one_mitre": slope_in_plane(TAN_R, TAN_R),
    "tapered_box.one_tilt": cosd(2 * shared_tilt(RHO, RHO)),
}
WRONG = {
    "tapered_box.mitre": ("tan_box_mitre", lambda a, h: sympy.cos(a * sympy.pi / 180) * tand(h)),
    "tapered_box.tilt": ("sin_mitred_tilt", lambda a, h: cosd(a) * sympy.sin(h * sympy.pi / 90)),
    "tapered_box.dihedral": ("mitred_dihedral", lambda t: 90 + t),
    "tapered_box.butt_tilt": ("sin_off_square", lambda a, b: a / sympy.sqrt(1 + a**2)),
    "tapered_box.front_mitre": ("slope_in_plane", lambda across, own: across),
    "tapered_box.end_mitre": ("slope_in_plane", lambda across, own: own / sympy.sqrt(1 + across**2)),
    "tapered_box.shared_tilt": ("shared_tilt", lambda a, b: sympy.Integer(45)),
    "tapered_box.unequal_dihedral": ("shared_tilt", lambda a, b: 45 - (a + b) / 4),
    "tapered_box.one_mitre": ("tan_box_mitre", lambda a, h: tand(a) * tand(h)),
    "tapered_box.one_tilt": ("sin_mitred_tilt", lambda a, h: cosd(a) * tand(h)),
}


@pytest.mark.parametrize("key", CALLED)
def test_each_formula_is_proved_and_is_the_one_that_runs(key):
    assert CLAIMS[key].difference == 0
    assert not CLAIMS[key].by_points
    assert CLAIMS[key].running == sympy.expand(CALLED[key])


@pytest.mark.parametrize("key", first_of(WRONG, "tapered_box.mitre", "tapered_box.dihedral"))
def test_a_wrong_formula_is_not_proved(monkeypatch, key):
    monkeypatch.setattr(derive_module, *WRONG[key])
    assert derive_tapered_box()[key].difference != 0


def test_every_formula_is_claimed_and_shown():
    assert set(CLAIMS) == set(CALLED) == set(WRONG)
    assert DERIVATION._repr_markdown_().count("the difference simplifies to $0$") == len(CLAIMS)


@pytest.mark.parametrize("key", CALLED)
def test_running_and_derived_agree_for_every_sign_of_the_slopes(key):
    symbols = (RHO, SIGMA, THETA)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (CLAIMS[key].running, CLAIMS[key].derived))
    dice = random.Random(2)
    for _ in range(200):
        point = dice.uniform(-80, 80), dice.uniform(-80, 80), dice.uniform(1, 80)
        assert running(*point) == pytest.approx(derived(*point), rel=1e-10, abs=1e-10)
