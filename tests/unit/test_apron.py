"""A leg flush with leaning aprons, and the aprons beside it.

Three witnesses: the leg as a solid, eight corners in space whose hull gives its faces; a pair of
legs between whose corner lines the apron's four corners are measured; and a flat board, sawn at the
end mitre and then stood up and leaned by scipy's rotations.
"""

from __future__ import annotations

import math
import random
from itertools import product

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull
from scipy.spatial.transform import Rotation

from furnlib.base.angles import sin_off_square, slope_in_plane, tand
from furnlib.base.guards import DesignError
from furnlib.teach.derive import apron as derive_module
from furnlib.teach.derive.apron import derive_apron
from furnlib.teach.proof import RHO, SIGMA
from furnlib.trade.leg.apron import (
    between_faces,
    bottom_edge,
    flush_leg,
    leaning_apron,
    leaning_width,
    plumb_apron,
)
from furnlib.trade.leg.end_cut import end_cut
from furnlib.trade.leg.lean import Lean

steady = settings(deadline=None, derandomize=True)
leans = st.floats(-75, 75)
lengths = st.floats(1, 1000)
X, Y, Z = np.eye(3)
TABLE = [-60.0, -20.0, -8.0, -0.0, 0.0, 1e-7, 6.0, 8.0, 20.0, 45.0, 75.0, 89.0]


def down(rake, splay):
    """One unit down along the outer corner of a front right leg: x to the right, y to the front."""
    return np.array([math.tan(math.radians(splay)), math.tan(math.radians(rake)), -1.0])


def angle(first, second):
    return math.degrees(math.atan2(np.linalg.norm(np.cross(first, second)), first @ second))


def unit(vector):
    return vector / np.linalg.norm(vector)


# The leg as a solid


def faces(rake, splay, level_square):
    """Normal and offset of front, back, right and left face, from the hull of the leg's eight corners."""
    names = list(product((0, 1), repeat=3))  # top or bottom, left or right, back or front
    places = [np.array([right - 1, front - 1, 0.0]) + end * down(rake, splay) for end, right, front in names]
    hull = ConvexHull(level_square * np.array(places))
    held = [([names[i] for i in three], plane) for three, plane in zip(hull.simplices, hull.equations, strict=True)]
    return [
        next(plane for three, plane in held if all(corner[axis] == side for corner in three))
        for axis, side in ((2, 1), (2, 0), (1, 1), (1, 0))
    ]


@pytest.mark.parametrize("rake", TABLE)
@pytest.mark.parametrize("splay", TABLE)
def test_a_flush_leg_is_the_solid_between_the_planes_of_its_aprons(rake, splay):
    leg = flush_leg(Lean.from_rake_splay(rake, splay), 50.0)
    front, back, right, left = faces(rake, splay, 50.0)
    assert leg.dihedral_deg == pytest.approx(180 - angle(front[:3], right[:3]), abs=1e-9)
    assert leg.backing_deg == pytest.approx(leg.dihedral_deg - 90, abs=1e-13)
    assert leg.between_front_and_back == pytest.approx(-front[3] - back[3], rel=1e-9)
    assert leg.between_sides == pytest.approx(-right[3] - left[3], rel=1e-9)


@steady
@given(leans, leans)
def test_the_front_face_turned_about_the_corner_by_the_dihedral_is_the_side_face(rake, splay):
    leg = flush_leg(Lean.from_rake_splay(rake, splay), 50.0)
    corner = unit(down(rake, splay))
    front, side = unit(np.cross(X, corner)), unit(np.cross(corner, Y))
    turned = Rotation.from_rotvec(math.radians(180 - leg.dihedral_deg) * corner).apply(front)
    assert turned == pytest.approx(side, abs=1e-12)


def test_backing_is_above_0_where_both_lean_the_same_way_and_below_where_they_differ():
    backings = {
        signs: flush_leg(Lean.from_rake_splay(signs[0] * 12.0, signs[1] * 9.0), 50.0).backing_deg
        for signs in product((1, -1), repeat=2)
    }
    by_hand = math.degrees(math.asin(math.sin(math.radians(12)) * math.sin(math.radians(9))))
    assert backings == pytest.approx({(1, 1): by_hand, (-1, -1): by_hand, (1, -1): -by_hand, (-1, 1): -by_hand})


def test_a_leg_leaned_by_45_both_ways_has_the_edge_of_a_rhombic_dodecahedron():
    # its faces look along (0, 1, 1) and (1, 0, 1), 60 apart: 120 inside, as any geometry book has it (memory)
    assert flush_leg(Lean.from_rake_splay(45.0, 45.0), 50.0).dihedral_deg == pytest.approx(120, abs=1e-12)


@pytest.mark.parametrize("lean_deg", [-30.0, 0.0, 8.0, 60.0])
def test_a_leg_that_leans_one_way_only_needs_no_backing(lean_deg):
    for pair in ((lean_deg, 0.0), (0.0, lean_deg)):
        leg = flush_leg(Lean.from_rake_splay(*pair), 50.0)
        assert (leg.dihedral_deg, leg.backing_deg) == (90, 0)
    plumb = flush_leg(Lean.from_rake_splay(0.0, -0.0), 50.0)
    assert (plumb.between_front_and_back, plumb.between_sides) == (50, 50)


def test_backing_is_neither_lean_nor_a_mitred_corners_tilt():
    # sin 20 sin 20 = 0.11698, whose angle is 6.718; halving the 96.718 would give a mitre's 41.641 off square
    backing = flush_leg(Lean.from_rake_splay(20.0, 20.0), 50.0).backing_deg
    assert backing == pytest.approx(6.718, abs=5e-4)


# The apron between a pair of legs


def measured(rake, splay, depth, top_length):
    """Ends, width, edges of an apron whose corners lie on the corner lines of a right leg and of its mirror image."""
    run = depth * down(rake, splay)
    right = (top_length * X, top_length * X + run)
    left = (np.zeros(3), run * [-1, 1, 1])
    bottom = right[1] - left[1]
    outward = unit(np.cross(X, run))
    assert unit(bottom) == pytest.approx(X, abs=1e-12)
    return {
        "end_mitre_deg": angle(-X, run) - 90,
        "edge_bevel_deg": 90 - angle(outward, Z),
        "width": np.linalg.norm(np.cross(X, run)),
        "top_length": top_length,
        "bottom_length": np.linalg.norm(bottom),
    }


def told(apron):
    return {name: getattr(apron, name) for name in measured(0, 0, 1, 1)}


@pytest.mark.parametrize("rake", TABLE)
@pytest.mark.parametrize("splay", TABLE)
def test_a_leaning_apron_fits_between_its_legs(rake, splay):
    top_length = 400.0  # with legs that lean in by 60 the bottom is 400 - 2 x 70 tan 60 = 157.5
    front = leaning_apron(Lean.from_rake_splay(rake, splay), 70.0, top_length)
    assert told(front) == pytest.approx(measured(rake, splay, 70.0, top_length), rel=1e-9, abs=1e-9)


@steady
@given(leans, leans, lengths, lengths)
def test_rake_and_splay_change_places_on_the_side(rake, splay, depth, top_length):
    top_length += 8 * depth  # long enough for legs that lean in by 75, whose tangent is 3.73
    one, other = Lean.from_rake_splay(rake, splay), Lean.from_rake_splay(splay, rake)
    for apron in (leaning_apron, plumb_apron):
        assert told(apron(one, depth, top_length)) == told(apron(other, depth, top_length, face="side"))
        assert told(apron(one, depth, top_length, "side")) == told(apron(other, depth, top_length, "front"))


@steady
@given(leans, leans)
def test_a_board_sawn_at_the_end_mitre_and_leaned_meets_the_leg(rake, splay):
    apron = leaning_apron(Lean.from_rake_splay(rake, splay), 70.0, 1000.0)
    end = Rotation.from_euler("y", -apron.end_mitre_deg, degrees=True).apply(
        -Z
    )  # in a plumb board, seen from the front
    end = Rotation.from_euler("x", apron.edge_bevel_deg, degrees=True).apply(end)  # its foot led out to the front
    assert end == pytest.approx(unit(down(rake, splay)), abs=1e-12)


@pytest.mark.parametrize("splay", [-30.0, 0.0, 6.0, 45.0])
@pytest.mark.parametrize("rake", [-30.0, 0.0, 8.0, 60.0])
def test_an_apron_kept_plumb_is_cut_at_the_splay_itself(rake, splay):
    apron = plumb_apron(Lean.from_rake_splay(rake, splay), 70.0, 400.0)
    side_face = np.cross(down(rake, splay), Y)
    end = np.cross(Y, side_face)  # where a plumb face from left to right meets the leg's side face
    assert apron.end_mitre_deg == pytest.approx(math.degrees(math.atan2(end[0], -end[2])), abs=1e-12)
    assert apron.end_mitre_deg == pytest.approx(splay, abs=1e-12)
    assert (apron.edge_bevel_deg, apron.width, apron.top_length) == (0, 70, 400)
    assert apron.bottom_length == pytest.approx(400 + 2 * 70 * math.tan(math.radians(splay)), rel=1e-14)


def test_the_splay_is_not_the_end_mitre_of_an_apron_that_leans():
    # tan 20 cos 25 = 0.36397 x 0.90631 = 0.32987, whose angle is 18.256
    apron = leaning_apron(Lean.from_rake_splay(25.0, 20.0), 70.0, 400.0)
    assert apron.end_mitre_deg == pytest.approx(18.256, abs=5e-4)
    upright = leaning_apron(Lean.from_rake_splay(0.0, 20.0), 70.0, 400.0)
    assert upright.end_mitre_deg == pytest.approx(20, abs=1e-12)
    assert told(upright) == told(plumb_apron(Lean.from_rake_splay(0.0, 20.0), 70.0, 400.0))


@pytest.mark.parametrize("rake", [0.0, 8.0, 25.0])
@pytest.mark.parametrize("splay", [0.0, 6.0, 20.0])
def test_a_leg_with_its_front_face_level_is_cut_at_the_end_mitre_of_the_front_apron(rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    apron = leaning_apron(lean, 70.0, 400.0)
    leg = end_cut(lean, 151.0, 48.0, "front_level")
    assert leg.front_down.mitre_deg == pytest.approx(apron.end_mitre_deg, abs=1e-12)
    assert leg.front_down.tilt_deg == pytest.approx(apron.edge_bevel_deg, abs=1e-12)


# Scaling, arrays, refusals


@steady
@given(leans, leans, st.floats(0.01, 100))
def test_lengths_scale_and_angles_stay(rake, splay, k):
    lean = Lean.from_rake_splay(rake, splay)
    one, larger = flush_leg(lean, 50.0), flush_leg(lean, 50.0 * k)
    assert larger.backing_deg == one.backing_deg
    assert larger.between_sides == pytest.approx(k * one.between_sides, rel=1e-14)
    short, long = leaning_apron(lean, 70.0, 600.0), leaning_apron(lean, 70.0 * k, 600.0 * k)
    assert long.end_mitre_deg == short.end_mitre_deg
    assert long.width == pytest.approx(k * short.width, rel=1e-14)
    assert long.bottom_length == pytest.approx(k * short.bottom_length, rel=1e-12)


def test_numbers_come_out_as_floats_and_arrays_as_arrays():
    lean = Lean.from_rake_splay(8, 6)
    assert {type(value) for value in told(leaning_apron(lean, 70.0, 400.0)).values()} == {float}
    assert type(flush_leg(lean, 48).dihedral_deg) is float
    rakes = np.array([[0.0], [8.0], [-20.0]])
    squares = np.array([48.0, 60.0])
    leg = flush_leg(Lean.from_rake_splay(rakes, 6.0), squares)
    apron = leaning_apron(Lean.from_rake_splay(rakes, 6.0), squares, 400.0)
    assert leg.backing_deg.shape == (3, 1)
    assert leg.between_front_and_back.shape == apron.width.shape == (3, 2)
    for i, j in product(range(3), range(2)):
        lean = Lean.from_rake_splay(float(rakes[i, 0]), 6.0)
        alone = flush_leg(lean, float(squares[j]))
        assert leg.between_front_and_back[i, j] == pytest.approx(alone.between_front_and_back, rel=1e-14)
        assert apron.width[i, j] == pytest.approx(leaning_apron(lean, float(squares[j]), 400.0).width, rel=1e-14)


@pytest.mark.parametrize("bad", [0, -48.0, float("nan"), float("inf"), np.array([48.0, 0.0])])
def test_sizes_are_above_0(bad):
    lean = Lean.from_rake_splay(8.0, 6.0)
    with pytest.raises(DesignError, match="The level square of the leg is"):
        flush_leg(lean, bad)
    for apron in (leaning_apron, plumb_apron):
        with pytest.raises(DesignError, match="The depth of the apron is"):
            apron(lean, bad, 400.0)
        with pytest.raises(DesignError, match="The top length of the apron is"):
            apron(lean, 70.0, bad)


@pytest.mark.parametrize("bad", [90.0, -90.0, 120.0])
def test_a_lean_of_90_is_refused_where_it_is_made(bad):
    with pytest.raises(DesignError, match="between -90 and 90"):
        flush_leg(Lean.from_rake_splay(bad, 6.0), 48.0)


def test_legs_that_meet_above_the_bottom_edge_are_refused_with_a_cure():
    # 100 + 2 x 100 x tan -45 = -100
    for apron in (leaning_apron, plumb_apron):
        with pytest.raises(DesignError, match=r"bottom length of the apron is -(100|99\.99).*lean the legs in less"):
            apron(Lean.from_rake_splay(8.0, -45.0), 100.0, 100.0)


def test_a_face_that_is_neither_front_nor_side_is_refused():
    for apron in (leaning_apron, plumb_apron):
        with pytest.raises(DesignError, match="'back'; it is front or side"):
            apron(Lean.from_rake_splay(8.0, 6.0), 70.0, 400.0, face="back")


# The derivation

DERIVATION = derive_apron()
CLAIMS = {claim.key: claim for claim in DERIVATION.claims}
LEVEL, DEPTH, TOP = sympy.symbols("w_level d l_top", positive=True)
TAN_R, TAN_S = tand(RHO), tand(SIGMA)
CALLED = {
    "apron.backing": sin_off_square(TAN_R, TAN_S),
    "apron.between_faces": between_faces(LEVEL, TAN_R),
    "apron.between_sides": between_faces(LEVEL, TAN_S),
    "apron.end_mitre": slope_in_plane(TAN_S, TAN_R),
    "apron.end_mitre_plumb": slope_in_plane(TAN_S, sympy.Integer(0)),
    "apron.width": leaning_width(DEPTH, TAN_R),
    "apron.bottom_length": bottom_edge(TOP, DEPTH, TAN_S),
}
WRONG = {
    "apron.backing": ("sin_off_square", lambda a, b: a * b),
    "apron.between_faces": ("between_faces", lambda w, a: w * sympy.sqrt(1 + a**2)),
    "apron.between_sides": ("between_faces", lambda w, a: w),
    "apron.end_mitre": ("slope_in_plane", lambda across, own: across),
    "apron.end_mitre_plumb": ("slope_in_plane", lambda across, own: across / sympy.sqrt(1 + across**2)),
    "apron.width": ("leaning_width", lambda d, a: d),
    "apron.bottom_length": ("bottom_edge", lambda top, d, a: top + d * a),
}


@pytest.mark.parametrize("key", CALLED)
def test_each_formula_is_proved_and_is_the_one_that_runs(key):
    assert CLAIMS[key].difference == 0
    assert not CLAIMS[key].by_points
    assert CLAIMS[key].running == CALLED[key]


@pytest.mark.parametrize("key", WRONG)
def test_a_wrong_formula_is_not_proved(monkeypatch, key):
    monkeypatch.setattr(derive_module, *WRONG[key])
    assert derive_apron()[key].difference != 0


def test_every_formula_is_claimed_and_shown():
    assert set(CLAIMS) == set(CALLED) == set(WRONG)
    assert DERIVATION._repr_markdown_().count("the difference simplifies to $0$") == len(CLAIMS)


@pytest.mark.parametrize("key", CALLED)
def test_running_and_derived_agree_for_every_sign_of_the_lean(key):
    symbols = (RHO, SIGMA, LEVEL, DEPTH, TOP)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (CLAIMS[key].running, CLAIMS[key].derived))
    dice = random.Random(1)
    for _ in range(200):
        point = [dice.uniform(-80, 80), dice.uniform(-80, 80), *(dice.uniform(1, 500) for _ in range(3))]
        assert running(*point) == pytest.approx(derived(*point), rel=1e-10, abs=1e-10)
