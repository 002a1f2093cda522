"""The direction of a leg under all its names.

The witness is a leg built as a vector in the room (x to the right, y to the front, z up) and
looked at in its elevations; scipy's rotations and plain arctangents do the measuring.
"""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from furnlib.base.guards import DesignError
from furnlib.trade.leg.lean import Lean

steady = settings(deadline=None, derandomize=True)
leans = st.floats(-80, 80)
outward = st.floats(0.5, 75)
heights = st.floats(1, 2000)
X, Y, Z = np.eye(3)


def axis_from_elevations(rake, splay):
    """Return the line shared by a plane through x that leans by the rake and one through y, by the splay."""
    rake, splay = math.radians(rake), math.radians(splay)
    seen_from_side = np.array([0.0, math.sin(rake), -math.cos(rake)])
    seen_from_front = np.array([math.sin(splay), 0.0, -math.cos(splay)])
    axis = np.cross(np.cross(X, seen_from_side), np.cross(Y, seen_from_front))
    return axis if axis[2] < 0 else -axis


def axis_from_tipping(total, sight):
    """Tip a plumb leg about the level line square to its sight line."""
    sight = math.radians(sight)
    towards = np.array([math.sin(sight), math.cos(sight), 0.0])
    return Rotation.from_rotvec(np.cross(-Z, towards) * math.radians(total)).apply(-Z)


def from_plumb(axis):
    return math.degrees(math.atan2(math.hypot(axis[0], axis[1]), -axis[2]))


def names_of(lean):
    return lean.rake_deg, lean.splay_deg, lean.total_lean_deg, lean.sight_line_deg


# Against vectors


@steady
@given(leans, leans, heights)
def test_two_elevations_give_the_axis_in_space(rake, splay, height):
    lean = Lean.from_rake_splay(rake, splay)
    axis = axis_from_elevations(rake, splay)
    assert lean.total_lean_deg == pytest.approx(from_plumb(axis), abs=1e-9)
    leg = axis * (height / -axis[2])
    assert lean.axis_length(height) == pytest.approx(np.linalg.norm(leg), rel=1e-12)
    run = lean.foot_run(height)
    assert run.sideways == pytest.approx(leg[0], rel=1e-9, abs=1e-9)
    assert run.fore_aft == pytest.approx(leg[1], rel=1e-9, abs=1e-9)
    assert run.plan == pytest.approx(math.hypot(leg[0], leg[1]), rel=1e-9, abs=1e-9)
    if run.plan > 1e-6 * height:
        sight = math.radians(lean.sight_line_deg)
        assert run.plan * math.sin(sight) == pytest.approx(leg[0], rel=1e-9, abs=1e-9)
        assert run.plan * math.cos(sight) == pytest.approx(leg[1], rel=1e-9, abs=1e-9)


@steady
@given(st.floats(0, 85), st.floats(-180, 180))
def test_tipping_along_a_sight_line_shows_in_the_elevations(total, sight):
    lean = Lean.from_total_lean(total, sight)
    axis = axis_from_tipping(total, sight)
    assert lean.rake_deg == pytest.approx(math.degrees(math.atan2(axis[1], -axis[2])), abs=1e-9)
    assert lean.splay_deg == pytest.approx(math.degrees(math.atan2(axis[0], -axis[2])), abs=1e-9)


@steady
@given(heights, st.floats(-1000, 1000), st.floats(-1000, 1000))
def test_a_foot_run_gives_the_leg_that_stands_there(height, fore_aft, sideways):
    lean = Lean.from_foot_run(height, fore_aft, sideways)
    assert lean.rake_deg == pytest.approx(math.degrees(math.atan2(fore_aft, height)), abs=1e-12)
    assert lean.splay_deg == pytest.approx(math.degrees(math.atan2(sideways, height)), abs=1e-12)
    assert lean.axis_length(height) == pytest.approx(math.hypot(height, fore_aft, sideways), rel=1e-14)
    assert tuple(lean.foot_run(height))[:2] == pytest.approx((fore_aft, sideways), rel=1e-14)


def test_a_leg_worked_by_hand():
    # 3, 4 and 12 make 13: a foot 3 forward and 4 sideways below a height of 12
    lean = Lean.from_foot_run(12, 3, 4)
    assert lean.axis_length(12) == pytest.approx(13, rel=1e-15)
    assert lean.foot_run(12).plan == pytest.approx(5, rel=1e-15)
    assert lean.total_lean_deg == pytest.approx(math.degrees(math.acos(12 / 13)), abs=1e-12)
    assert lean.sight_line_deg == pytest.approx(math.degrees(math.asin(4 / 5)), abs=1e-12)


# There and back between all names


@steady
@given(leans, leans)
def test_rake_and_splay_come_back(rake, splay):
    lean = Lean.from_names(rake_deg=rake, splay_deg=splay)
    assert (lean.rake_deg, lean.splay_deg) == pytest.approx((rake, splay), abs=1e-12)


@steady
@given(st.floats(0.01, 85), st.floats(-179.999, 180))
def test_total_lean_and_sight_line_come_back(total, sight):
    lean = Lean.from_names(total_lean_deg=total, sight_line_deg=sight)
    assert (lean.total_lean_deg, lean.sight_line_deg) == pytest.approx((total, sight), abs=1e-10)


PAIRS = list(combinations(("rake_deg", "splay_deg", "total_lean_deg", "sight_line_deg"), 2))


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: "+".join(name.removesuffix("_deg") for name in pair))
@steady
@given(rake=outward, splay=outward)
def test_any_two_names_of_an_outward_leg_give_the_other_two(pair, rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    again = Lean.from_names(**{name: getattr(lean, name) for name in pair})
    assert names_of(again) == pytest.approx(names_of(lean), abs=1e-8)


@pytest.mark.parametrize("pair", [pair for pair in PAIRS if pair[1] != "total_lean_deg"])
@pytest.mark.parametrize("rake", [-25.0, -5.0, 5.0, 25.0])
@pytest.mark.parametrize("splay", [-20.0, -4.0, 4.0, 20.0])
def test_pairs_that_leave_no_side_open_hold_for_inward_feet_too(pair, rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    again = Lean.from_names(**{name: getattr(lean, name) for name in pair})
    assert names_of(again) == pytest.approx(names_of(lean), abs=1e-11)


@pytest.mark.parametrize(("rake", "splay"), [(0.01, 30.0), (30.0, 0.01), (1e-6, 5.0), (5.0, 1e-6)])
def test_a_leg_that_hardly_leans_one_way_keeps_that_little(rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    for part in ("rake_deg", "splay_deg"):
        again = Lean.from_names(**{part: getattr(lean, part), "sight_line_deg": lean.sight_line_deg})
        assert names_of(again) == pytest.approx(names_of(lean), rel=1e-6)


def test_where_a_side_is_open_the_foot_stands_outward():
    lean = Lean.from_rake_splay(8, -6)
    assert Lean.from_names(rake_deg=8, total_lean_deg=lean.total_lean_deg).splay_deg == pytest.approx(6)
    lean = Lean.from_rake_splay(-8, 6)
    assert Lean.from_names(splay_deg=6, total_lean_deg=lean.total_lean_deg).rake_deg == pytest.approx(8)


@pytest.mark.parametrize("name", ["rake_deg", "splay_deg"])
def test_a_total_lean_equal_to_its_part_leans_one_way_only(name):
    lean = Lean.from_names(**{name: 8.0, "total_lean_deg": 8.0})
    assert sorted((lean.rake_deg, lean.splay_deg)) == pytest.approx([0.0, 8.0], abs=1e-9)
    assert getattr(lean, name) == pytest.approx(8.0)


# Scaling, symmetry, limits, order


@steady
@given(leans, leans, heights, st.floats(0.01, 100))
def test_lengths_grow_with_the_height_and_angles_do_not(rake, splay, height, k):
    lean = Lean.from_rake_splay(rake, splay)
    assert lean.axis_length(k * height) == pytest.approx(k * lean.axis_length(height), rel=1e-14)
    larger = [k * run for run in lean.foot_run(height)]
    assert list(lean.foot_run(k * height)) == pytest.approx(larger, rel=1e-14, abs=1e-14)
    scaled = Lean.from_foot_run(k * height, *larger[:2])
    assert (scaled.rake_deg, scaled.splay_deg) == pytest.approx((rake, splay), abs=1e-11)


@steady
@given(outward, outward, st.sampled_from([1, -1]), st.sampled_from([1, -1]))
def test_swapping_rake_and_splay_mirrors_the_sight_line(rake, splay, fore, side):
    lean = Lean.from_rake_splay(fore * rake, side * splay)
    swapped = Lean.from_rake_splay(side * splay, fore * rake)
    assert swapped.total_lean_deg == pytest.approx(lean.total_lean_deg, abs=1e-12)
    turned = 90 - lean.sight_line_deg
    assert swapped.sight_line_deg == pytest.approx(turned if turned <= 180 else turned - 360, abs=1e-11)


@steady
@given(outward, outward)
def test_mirrored_legs_keep_their_lean_and_mirror_their_sight_line(rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    inward_splay, inward_rake = Lean.from_rake_splay(rake, -splay), Lean.from_rake_splay(-rake, splay)
    assert inward_splay.sight_line_deg == pytest.approx(-lean.sight_line_deg, abs=1e-11)
    assert inward_rake.sight_line_deg == pytest.approx(180 - lean.sight_line_deg, abs=1e-11)
    assert inward_splay.axis_length(100) == inward_rake.axis_length(100) == lean.axis_length(100)


@pytest.mark.parametrize("rake", [0, 0.0, -0.0])
@pytest.mark.parametrize("splay", [0, 0.0, -0.0])
def test_a_plumb_leg_has_no_lean_and_a_sight_line_of_0(rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    assert names_of(lean) == (0, 0, 0, 0)
    assert math.copysign(1, lean.sight_line_deg) == 1
    assert lean.axis_length(151.0) == 151
    assert tuple(lean.foot_run(151.0)) == (0, 0, 0)
    assert names_of(Lean.from_total_lean(0.0, 35.0)) == (0, 0, 0, 0)


@pytest.mark.parametrize(
    ("rake", "splay", "sight"),
    [(8, 0, 0), (8, -0.0, 0), (0, 6, 90), (-0.0, 6, 90), (-8, 0, 180), (-8, -0.0, 180), (0, -6, -90)],
)
def test_a_leg_that_leans_one_way_has_that_lean_for_its_total(rake, splay, sight):
    lean = Lean.from_rake_splay(rake, splay)
    assert lean.total_lean_deg == pytest.approx(abs(rake + splay), abs=1e-13)
    assert lean.sight_line_deg == pytest.approx(sight, abs=1e-13)


@steady
@given(outward, outward)
def test_a_foot_that_stands_inward_of_its_top_has_its_sight_line_past_90(rake, splay):
    assert 90 < Lean.from_rake_splay(-rake, splay).sight_line_deg < 180
    assert -180 < Lean.from_rake_splay(-rake, -splay).sight_line_deg < -90


@pytest.mark.parametrize("sight", [180.0, -180.0])
def test_straight_back_is_180_whichever_way_it_was_reached(sight):
    assert Lean.from_total_lean(10.0, sight).sight_line_deg == 180.0


def test_total_lean_grows_with_either_part_and_never_falls_below_it():
    rakes = np.linspace(0, 89, 400)
    for splay in (0.0, 1.0, 20.0, 60.0):
        for lean in (Lean.from_rake_splay(rakes, splay), Lean.from_rake_splay(splay, -rakes)):
            assert np.all(np.diff(lean.total_lean_deg) > 0)
            assert np.all(lean.total_lean_deg >= np.maximum(rakes, splay) - 1e-12)
            assert np.all(lean.total_lean_deg < 90)


@steady
@given(outward, outward)
def test_total_lean_is_less_than_the_sum_of_its_parts(rake, splay):
    assert Lean.from_rake_splay(rake, splay).total_lean_deg < rake + splay


# Common wrong ways


def test_the_common_wrong_ways_are_told_apart_at_25_and_20():
    lean = Lean.from_rake_splay(25.0, 20.0)
    axis = axis_from_elevations(25.0, 20.0)
    right_total = from_plumb(axis)
    right_length = np.linalg.norm(axis) / -axis[2]
    assert lean.total_lean_deg == pytest.approx(right_total, abs=1e-12)
    assert lean.axis_length(1.0) == pytest.approx(right_length, rel=1e-14)

    cos_r, cos_s = math.cos(math.radians(25)), math.cos(math.radians(20))
    assert abs(lean.total_lean_deg - 45) > 14  # the two added
    assert abs(lean.total_lean_deg - math.hypot(25, 20)) > 1  # squares of degrees added
    assert abs(lean.total_lean_deg - math.degrees(math.acos(cos_r * cos_s))) > 0.5  # two turns in succession
    assert abs(lean.sight_line_deg - math.degrees(math.atan(20 / 25))) > 0.5  # degrees for tangents
    assert abs(lean.axis_length(300.0) - 300 / (cos_r * cos_s)) > 3  # both stretches multiplied


# Arrays


def test_arrays_broadcast():
    rakes, splays = np.array([[0.0], [8.0], [-8.0]]), np.array([0.0, 6.0, 12.0, -6.0])
    lean = Lean.from_rake_splay(rakes, splays)
    for value in (
        lean.total_lean_deg,
        lean.sight_line_deg,
        lean.axis_length(151.0),
        lean.foot_run(151.0).plan,
    ):
        assert value.shape == (3, 4)
    for i, rake in enumerate(rakes[:, 0]):
        for j, splay in enumerate(splays):
            axis = axis_from_elevations(rake, splay)
            assert lean.total_lean_deg[i, j] == pytest.approx(from_plumb(axis), abs=1e-11)
    assert Lean.from_total_lean(10.0, np.array([0.0, 45.0, 90.0])).rake_deg.shape == (3,)
    assert Lean.from_foot_run(np.array([100.0, 200.0]), 12.0, 5.0).rake_deg.shape == (2,)
    assert lean.axis_length(np.full((3, 4), 2.0)).shape == (3, 4)


def test_a_lean_says_what_it_is():
    assert repr(Lean.from_rake_splay(8.0, -6.0)) == "<Lean with rake 8.00 and splay -6.00>"
    assert repr(Lean.from_rake_splay(np.zeros((2, 3)), 6.0)) == "<Lean of 6 legs>"
    tangent = sympy.Symbol("t")
    assert repr(Lean(tangent, 0)) == "<Lean with tangents t and 0>"


def test_leans_are_not_compared_and_not_changed():
    lean = Lean.from_rake_splay(8.0, 6.0)
    assert lean != Lean.from_rake_splay(8.0, 6.0)
    with pytest.raises(AttributeError):
        lean.tan_rake = 0.0


# What is refused


@pytest.mark.parametrize("angle", [90, -90, 90.0, 120, -1e6])
def test_a_leg_that_lies_down_is_refused(angle):
    with pytest.raises(DesignError, match=r"The rake is .* between -90 and 90: a leg at 90 lies"):
        Lean.from_rake_splay(angle, 0)
    with pytest.raises(DesignError, match="The splay is"):
        Lean.from_rake_splay(0, angle)
    with pytest.raises(DesignError, match="The total lean is"):
        Lean.from_total_lean(angle, 0)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, "8", None, np.array([8.0, math.nan])])
def test_what_is_no_ordinary_number_is_refused(value):
    for make in (
        lambda: Lean.from_rake_splay(value, 6),
        lambda: Lean.from_rake_splay(8, value),
        lambda: Lean.from_total_lean(value, 35),
        lambda: Lean.from_total_lean(10, value),
        lambda: Lean.from_foot_run(value, 12, 12),
        lambda: Lean.from_foot_run(100, value, 12),
        lambda: Lean.from_foot_run(100, 12, value),
    ):
        with pytest.raises(DesignError, match="must be an ordinary number"):
            make()


@pytest.mark.parametrize("pair", PAIRS)
@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_names_that_are_no_ordinary_numbers_are_refused(pair, bad):
    for first, second in ((bad, 8.0), (8.0, bad)):
        with pytest.raises(DesignError, match="must be an ordinary number"):
            Lean.from_names(**dict(zip(pair, (first, second), strict=True)))


def test_a_total_lean_below_0_is_refused_with_its_cure():
    for total in (-5, np.array([5.0, -5.0])):
        with pytest.raises(DesignError, match="runs from 0 to 90: turn the sight line by 180"):
            Lean.from_total_lean(total, 0)


def test_no_sentence_shows_a_limit_that_is_only_rounding_room():
    for make in (
        lambda: Lean.from_names(total_lean_deg=-5, rake_deg=0),
        lambda: Lean.from_total_lean(5, 400),
        lambda: Lean.from_names(rake_deg=5, sight_line_deg=400),
    ):
        with pytest.raises(DesignError) as refusal:
            make()
        assert "1e-12" not in str(refusal.value)
        assert "360.001" not in str(refusal.value)


@pytest.mark.parametrize("height", [0, -1, 0.0, np.array([100.0, 0.0])])
def test_a_height_is_above_0(height):
    with pytest.raises(DesignError, match=r"The height is .* more than 0"):
        Lean.from_foot_run(height, 12, 12)


@pytest.mark.parametrize(
    ("names", "said"),
    [
        ({}, "nothing"),
        ({"rake_deg": 8}, "rake"),
        ({"rake_deg": 8, "splay_deg": 6, "total_lean_deg": 10}, "rake, splay, total lean"),
        ({"rake_deg": 8, "tilt_deg": 6}, "rake, tilt"),
        ({"rake": 8, "splay": 6}, "rake, splay"),
    ],
)
def test_a_lean_takes_exactly_two_known_names(names, said):
    with pytest.raises(DesignError, match=f"A lean is given by {said}; it takes exactly two of"):
        Lean.from_names(**names)


@pytest.mark.parametrize("part", ["rake", "splay"])
def test_a_total_lean_less_than_its_part_is_impossible(part):
    with pytest.raises(DesignError, match=f"The total lean 5 is less than the {part} 8; it is never less"):
        Lean.from_names(**{f"{part}_deg": 8, "total_lean_deg": 5})


@pytest.mark.parametrize(
    "names",
    [
        *({"rake_deg": 8, "sight_line_deg": sight} for sight in (90, -90, 120)),
        *({"splay_deg": 6, "sight_line_deg": sight} for sight in (0, 180, -30)),
        {"rake_deg": -8, "sight_line_deg": 30},
        {"splay_deg": -6, "sight_line_deg": 30},
    ],
)
def test_a_part_that_cannot_be_seen_along_the_sight_line_is_impossible(names):
    with pytest.raises(DesignError, match=r"No leg has a (rake|splay) of .* on a sight line of"):
        Lean.from_names(**names)


@pytest.mark.parametrize("names", [{"splay_deg": 0, "sight_line_deg": 0}, {"rake_deg": 0, "sight_line_deg": 90}])
def test_a_pair_that_leaves_the_lean_open_is_not_called_impossible(names):
    with pytest.raises(DesignError) as refusal:
        Lean.from_names(**names)
    assert "No leg has" not in str(refusal.value)
