"""The cradle of a round leg: wedge, packer, heights, and which side of the leg lies on top.

The witness is a leg in a V, put there by points: circles square to its axis are lowered onto the two
flats until they touch. V and leg together are then turned on the saw table by scipy's rotations.
"""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar
from scipy.spatial.transform import Rotation

from furnlib.base.guards import DesignError
from furnlib.teach.derive.cradle import derive_cradle
from furnlib.trade.leg.cradle import axis_height, cradle, lies_as, sin_off_vee
from furnlib.trade.leg.lean import Lean

steady = settings(deadline=None, derandomize=True, max_examples=60)
X, Y, Z = np.eye(3)  # on the saw table: along the gauge's fence and square to the blade, along the blade, up
TURNS = np.linspace(0, 2 * math.pi, 720, endpoint=False)
COARSE = 1e-5
"""A circle of 720 points misses its lowest place by at most 1 - cos 0.25° of its radius."""


def settled(axis, diameter, vee_deg):
    """How high above the root, along x, a circle square to an axis stands when it touches the flats."""
    half = math.radians(vee_deg / 2)
    flat = np.array([0, -math.cos(half), math.sin(half)])
    one, other = np.cross(axis, Y), Y
    circle = diameter / 2 * (np.outer(np.cos(TURNS), one) + np.outer(np.sin(TURNS), other))
    return -(circle @ flat).min() / flat[2]


def off_root_deg(top, foot, length, vee_deg):
    """The angle at which a leg that narrows towards +x lies in a V, found by lowering both its ends."""

    def gap(angle):
        axis = np.array([math.cos(angle), 0, -math.sin(angle)])
        return settled(axis, top, vee_deg) - settled(axis, foot, vee_deg) - length * math.sin(angle)

    return math.degrees(brentq(gap, -1.2, 1.2, xtol=1e-13))


def on_the_table(made, top, foot, length, vee_deg, foot_low):
    """Axis from top to foot and sight-line side of a leg in the finished cradle, foot towards +x.

    In the V the foot lies towards +x whether it is raised or lowered; the wedge turns all about the
    blade's direction. The room's plumb line is square to the cut, so it is the fence's direction x, and
    the side that looks outward is where the foot has gone beyond that line.
    """
    off = math.radians(off_root_deg(top, foot, length, vee_deg))
    in_vee = np.array([math.cos(off), 0, -math.sin(off)])
    turned = Rotation.from_rotvec(math.radians(made.wedge_deg) * (Y if foot_low else -Y))
    axis = turned.apply(in_vee)
    outward = axis - (axis @ X) * X
    return axis, outward


TABLE = [(36.0, 22.0, 437.0), (30.0, 30.0, 437.0), (22.0, 36.0, 437.0), (60.0, 20.0, 200.0)]


@pytest.mark.parametrize("shape", TABLE)
@pytest.mark.parametrize("lean", [(0.0, 0.0), (8.0, 0.0), (-8.0, 6.0), (18.0, 14.0), (2.0, 0.0)])
@pytest.mark.parametrize(("vee_deg", "foot_low"), list(product((60.0, 90.0, 120.0), (True, False))))
def test_in_the_cradle_the_axis_stands_at_the_total_lean_in_a_plumb_plane(shape, lean, vee_deg, foot_low):
    direction = Lean.from_rake_splay(*lean)
    made = cradle(direction, *shape, 300.0, foot_low=foot_low, vee_deg=vee_deg)
    axis, outward = on_the_table(made, *shape, vee_deg, foot_low)
    assert axis[1] == pytest.approx(0, abs=1e-12)
    up = math.degrees(math.atan2(axis[2], axis[0]))
    assert up == pytest.approx(-direction.total_lean_deg if foot_low else direction.total_lean_deg, abs=0.002)
    if direction.total_lean_deg:
        assert made.outward_up == (outward[2] > 0) == (not foot_low)
    for end, diameter in (("top", shape[0]), ("foot", shape[1])):
        off = math.radians(made.off_vee_deg)
        found = settled(np.array([math.cos(off), 0, -math.sin(off)]), diameter, vee_deg)
        assert getattr(made, f"{end}_axis_height") == pytest.approx(found, rel=2 * COARSE)


@pytest.mark.parametrize("foot_low", [True, False])
@pytest.mark.parametrize("shape", TABLE[:3])
def test_the_sight_line_side_is_the_longer_at_the_foot_and_the_shorter_at_the_top(shape, foot_low):
    """Both ends are sawn by the upright blade, x constant; lines along the leg's surface are measured on it."""
    top, foot, length = shape
    lean = Lean.from_rake_splay(8.0, 14.0)
    made = cradle(lean, *shape, 300.0, foot_low=foot_low)
    axis, _ = on_the_table(made, *shape, 90.0, foot_low)
    square = np.cross(axis, Y) if np.cross(axis, Y)[2] > 0 else np.cross(Y, axis)  # off the axis, upwards

    def reach(side, end):
        """From square across the axis's own end to the blade, along a straight line of the surface."""
        station, diameter = {"top": (0.0, top), "foot": (length, foot)}[end]
        start = axis * station + side * square * diameter / 2
        line = axis - side * square * (top - foot) / 2 / length
        return (station * axis[0] - start[0]) / line[0]

    outward = 1 if made.outward_up else -1
    assert reach(outward, "foot") > 0 > reach(-outward, "foot")
    assert reach(outward, "top") > 0 > reach(-outward, "top")  # further down the leg: cut shorter at the top


def test_a_leg_that_does_not_taper_needs_no_more_than_its_total_lean():
    # common practice, no source: the wedge of a cylinder is the resultant; 100 sin 9.95 = 17.3
    lean = Lean.from_rake_splay(8.0, 6.0)
    for foot_low in (True, False):
        made = cradle(lean, 30.0, 30.0, 150.0, 100.0, foot_low=foot_low)
        assert made.wedge_deg == lean.total_lean_deg == pytest.approx(9.95, abs=0.005)
        assert made.rise == pytest.approx(17.3, abs=0.05)
        assert (made.off_vee_deg, made.packer) == (0, 0)
        # in a right-angled V the axis of a round of 30 stands 15 sqrt 2 above the root
        assert made.top_axis_height == made.foot_axis_height == pytest.approx(15 * math.sqrt(2), rel=1e-14)


def test_the_stool_leg_by_hand():
    """From 36 to 22 in 437, total lean of rake 8 and splay 14, a right-angled V-block 300 long.

    tan c = 7 / 437 = 0.016018, sin c = 0.016016; over sin 45 that is 0.022650, or 1.2979 degrees.
    tan R = sqrt(0.14054² + 0.24933²) = 0.28621, R = 15.972: 14.674 foot low, 17.269 foot high.
    A packer of 300 x 0.022650 = 6.795; the axis at 18 x 0.99987 / 0.70711 = 25.45 and 15.55.
    """
    lean = Lean.from_rake_splay(8.0, 14.0)
    low, high = (cradle(lean, 36.0, 22.0, 437.0, 300.0, foot_low=foot_low) for foot_low in (True, False))
    assert (low.wedge_deg, high.wedge_deg) == pytest.approx((14.674, 17.269), abs=0.001)
    assert low.packer == high.packer == pytest.approx(6.795, abs=0.001)
    assert (low.top_axis_height, low.foot_axis_height) == pytest.approx((25.45, 15.55), abs=0.006)
    assert low.rise == pytest.approx(300 * math.sin(math.radians(14.674)), abs=0.005)
    assert (low.outward_up, high.outward_up) == (False, True)


@pytest.mark.parametrize("shape", TABLE)
@pytest.mark.parametrize("foot_low", [True, False])
def test_rise_and_packer_by_points(shape, foot_low):
    """A V-block of 300, its foot end at +x: how high its ends stand, and above a wedge at the total lean."""
    lean, block = Lean.from_rake_splay(8.0, 14.0), 300.0
    made = cradle(lean, *shape, block, foot_low=foot_low)
    down = Y if foot_low else -Y  # turns x down or up
    root = Rotation.from_rotvec(math.radians(made.wedge_deg) * down).apply(block * X)
    assert made.rise == pytest.approx(-root[2] if foot_low else root[2], abs=1e-9)
    wedge = Rotation.from_rotvec(math.radians(lean.total_lean_deg) * down)
    above = wedge.inv().apply(root)[2]  # of the block's foot end, square to the wedge, both begun at the top end
    assert abs(above) == pytest.approx(made.packer, abs=1e-9)
    if shape[0] != shape[1]:
        assert (above > 0) == (shape[1] < shape[0])  # it is the thin end that is packed up


@steady
@given(
    st.floats(-40, 40), st.floats(-40, 40), st.floats(10, 60), st.floats(10, 60), st.floats(0.01, 100), st.booleans()
)
def test_lengths_scale_and_angles_stay(rake, splay, top, foot, k, foot_low):
    lean = Lean.from_rake_splay(rake, splay)
    one = cradle(lean, top, foot, 400.0, 300.0, foot_low=foot_low)
    larger = cradle(lean, k * top, k * foot, k * 400.0, k * 300.0, foot_low=foot_low)
    for name in ("wedge_deg", "off_vee_deg"):
        assert getattr(larger, name) == pytest.approx(getattr(one, name), abs=1e-12)
    for name in ("rise", "packer", "top_axis_height", "foot_axis_height"):
        assert getattr(larger, name) == pytest.approx(k * getattr(one, name), rel=1e-11, abs=1e-11 * k)


@steady
@given(st.floats(-40, 40), st.floats(-40, 40), st.floats(10, 60), st.floats(10, 60), st.floats(40, 140))
def test_turned_end_for_end_the_wedge_is_the_same(rake, splay, top, foot, vee_deg):
    """The foot low, or the top low with the two diameters changed over: the same wood in the same V."""
    lean = Lean.from_rake_splay(rake, splay)
    one = cradle(lean, top, foot, 400.0, 300.0, vee_deg=vee_deg)
    other = cradle(lean, foot, top, 400.0, 300.0, foot_low=False, vee_deg=vee_deg)
    assert (one.wedge_deg, one.rise, one.packer) == (other.wedge_deg, other.rise, other.packer)
    assert one.top_axis_height == pytest.approx(other.foot_axis_height, rel=1e-14)
    assert one.wedge_deg + one.off_vee_deg == pytest.approx(lean.total_lean_deg, abs=1e-12)


def test_the_more_it_tapers_the_further_the_v_is_off_the_lean():
    lean = Lean.from_rake_splay(8.0, 14.0)
    wedges = [cradle(lean, 40.0, foot, 400.0, 300.0).wedge_deg for foot in (40.0, 30.0, 20.0, 10.0)]
    assert wedges == sorted(wedges, reverse=True)
    assert cradle(Lean(0.0, 0.0), 40.0, 10.0, 400.0, 300.0).wedge_deg < 0  # plumb: the V falls the other way


def test_numbers_give_floats_and_arrays_broadcast():
    lean = Lean.from_rake_splay(np.array([[0.0], [8.0], [20.0]]), 6.0)
    feet = np.array([20.0, 36.0])
    made = cradle(lean, 36.0, feet, 437.0, 300.0)
    assert made.wedge_deg.shape == made.rise.shape == (3, 2)
    assert made.packer.shape == made.foot_axis_height.shape == (2,)
    for (i, rake), (j, foot) in product(enumerate((0.0, 8.0, 20.0)), enumerate(feet)):
        one = cradle(Lean.from_rake_splay(rake, 6.0), 36, float(foot), 437, 300)
        assert [type(v) for v in vars(one).values()] == [float] * 6 + [bool]
        assert made.rise[i, j] == pytest.approx(one.rise, rel=1e-14)
        assert made.top_axis_height[j] == pytest.approx(one.top_axis_height, rel=1e-14)


@pytest.mark.parametrize("bad", [0, -36.0, float("nan"), float("inf"), np.array([36.0, 0.0])])
@pytest.mark.parametrize(
    ("place", "name"), list(enumerate(["top diameter", "foot diameter", "axis length", "length of the V-block"]))
)
def test_every_size_is_above_0(place, name, bad):
    given_sizes = [36.0, 22.0, 437.0, 300.0]
    given_sizes[place] = bad
    with pytest.raises(DesignError, match=f"The {name} is"):
        cradle(Lean(0.1, 0.1), *given_sizes)


@pytest.mark.parametrize("bad", [0.0, 180.0, -90.0, float("nan")])
def test_the_v_has_two_flats(bad):
    with pytest.raises(DesignError, match="The angle of the V is"):
        cradle(Lean(0.1, 0.1), 36.0, 22.0, 437.0, 300.0, vee_deg=bad)


def test_what_cannot_lie_in_a_v_is_refused_with_a_cure():
    # a cone of 45 a side stands on the flats of a right-angled V and no longer lies between them
    with pytest.raises(
        DesignError, match=r"goes from 60 to 20 in 20 tapers too fast to lie in a V of 90.0; open the V"
    ):
        cradle(Lean(0.1, 0.1), 60, 20, 20, 300)
    # 30 a side: sin 30 / sin 45 is the sine of 45, and with a lean of 46 the root stands past plumb
    steep = Lean.from_total_lean(46.0, 0.0)
    tapered = (60.0, 60.0 - 2 * 50 * math.tan(math.radians(30)), 50.0, 300.0)
    assert cradle(steep, *tapered).off_vee_deg == pytest.approx(45, abs=1e-12)
    with pytest.raises(DesignError, match=r"The wedge is 91.0\d*; .* lean it less or open the V wider"):
        cradle(steep, *tapered, foot_low=False)


@pytest.mark.parametrize("claim", derive_cradle().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    """In symbols the difference is nothing, and with numbers the claim is what the functions give."""
    assert claim.difference == sympy.Integer(0)
    symbols = sympy.symbols("f d_f L d v g", positive=True)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (claim.running, claim.derived))
    for f, foot, length, d, v, g in np.random.default_rng(26).uniform(0.1, 1.5, (200, 6)):
        half = math.sin(v / 2)
        expected = {
            "cradle.off_vee": sin_off_vee(foot + 2 * f, foot, length, half),
            "cradle.axis_height": axis_height(d, math.sin(g), half),
        }[claim.key]
        assert running(f, foot, length, d, v, g) == pytest.approx(expected, rel=1e-12)
        assert derived(f, foot, length, d, v, g) == pytest.approx(expected, rel=1e-12)
        # a leg that is thicker at the foot lies the other way by as much
        assert sin_off_vee(foot, foot + 2 * f, length, half) == pytest.approx(
            -sin_off_vee(foot + 2 * f, foot, length, half)
        )


# A shaped leg

SHAPED = {
    "a bead far up": ([0, 60, 120, 150, 180, 200], [22, 25, 28, 40, 30, 31]),
    "a foot that swells": ([0, 10, 40, 120, 200], [40, 44, 24, 27, 30]),
    "thick in the middle": ([0, 80, 110, 200], [22, 34, 33, 24]),
    "a plain taper": ([0, 100, 200], [20, 25, 30]),
}


@pytest.mark.parametrize("name", SHAPED)
def test_a_shaped_leg_lies_where_its_middle_comes_lowest(name):
    """The witness settles as wood does: circles stand on both flats, and the middle falls as low as they let it."""
    at, across = map(np.array, SHAPED[name])
    vee = 90.0

    def middle(angle):
        axis = np.array([math.cos(angle), 0, -math.sin(angle)])
        return np.max(across * settled(axis, 1.0, vee) - (at - (at.max() + at.min()) / 2) * math.sin(angle))

    lowest = minimize_scalar(middle, bounds=(-0.5, 0.5), method="bounded", options={"xatol": 1e-10}).x
    length = 400.0
    made = cradle(Lean.from_total_lean(10.0, 0.0), *lies_as(at.tolist(), across.tolist(), length), length, 200.0)
    # minimum of a sharp valley, found on circles of 720 points
    assert made.off_vee_deg == pytest.approx(math.degrees(lowest), abs=2e-3)


def test_a_straight_taper_lies_as_itself():
    assert lies_as([0, 50, 100, 200], [20, 25, 30, 40], 400) == pytest.approx((60, 20))


@pytest.mark.parametrize(("at", "across"), [([], []), ([10], [20]), ([0, 100], [0, 0])])
def test_where_nothing_lies_in_the_v_it_is_said(at, across):
    with pytest.raises(DesignError, match=r"two or more|must be more than 0"):
        lies_as(at, across, 400)
