"""Level end cuts of a square leg: the saw table of the trade, the edges of the range, how sizes behave.

The saw table stands here as formulas of rake, splay, total lean and sight line, worked in plain
trigonometry and not through slopes. A stick turned in the room is the witness of
`test_orientations`, a solid that is sawn that of `test_sawn_solids`.
"""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.leg.end_cut import (
    EDGES,
    ORIENTATIONS,
    edge_offset,
    end_cut,
    extra_length,
    face_slopes,
    sin_tilt,
)
from furnlib.trade.leg.lean import Lean

steady = settings(deadline=None, derandomize=True)
leans = st.floats(-75, 75).map(lambda angle: round(angle, 6))  # finer than any saw, coarser than underflow
ways = st.sampled_from(ORIENTATIONS)


def cut_of(rake, splay, orientation="untwisted", height=151.0, square=48.0):
    return end_cut(Lean.from_rake_splay(rake, splay), height, square, orientation)


def settings_of(cut):
    """Mitre and tilt with the front face down, then with the side face down."""
    return [angle for s in (cut.front_down, cut.side_down) for angle in (s.mitre_deg, s.tilt_deg)]


def words_of(cut):
    """Swing and tip with the front face down, then with the side face down."""
    return [word for s in (cut.front_down, cut.side_down) for word in (s.long_edge, s.long_face)]


# The saw table


def saw_table(r, s, R, S):
    """Mitre and tilt with the front (leaning) face down, then with the side (upright) face down; radians."""
    sin, cos, tan, asin, atan = math.sin, math.cos, math.tan, math.asin, math.atan
    foremost = (atan(tan(R) / math.sqrt(2)), asin(sin(R) / math.sqrt(2)))
    return {
        "untwisted": ((s, asin(sin(R) * cos(S))), (r, asin(sin(R) * sin(S)))),
        "front_level": ((atan(tan(s) * cos(r)), r), (atan(sin(r) / cos(R)), asin(sin(R) * sin(S) * cos(r)))),
        "side_level": ((atan(sin(s) / cos(R)), asin(sin(R) * cos(S) * cos(s))), (atan(tan(r) * cos(s)), s)),
        "sightline": ((0.0, R), (R, 0.0)),
        "sightline_corner": (foremost, foremost),
    }


@steady
@given(leans, leans)
def test_every_orientation_is_sawn_as_the_saw_table_says(rake, splay):
    r, s = math.radians(rake), math.radians(splay)
    total = math.atan(math.hypot(math.tan(r), math.tan(s)))
    rows = saw_table(r, s, total, math.atan2(math.tan(s), math.tan(r)))
    assert set(rows) == set(ORIENTATIONS)
    for orientation, row in rows.items():
        expected = [abs(math.degrees(angle)) for face in row for angle in face]
        assert settings_of(cut_of(rake, splay, orientation)) == pytest.approx(expected, abs=1e-9), orientation


@steady
@given(ways, leans, leans)
def test_the_two_tilts_and_the_lean_make_one_whole(orientation, rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    squares = [math.sin(math.radians(tilt)) ** 2 for tilt in settings_of(cut_of(rake, splay, orientation))[1::2]]
    assert sum(squares) + math.cos(math.radians(lean.total_lean_deg)) ** 2 == pytest.approx(1, abs=1e-13)


@steady
@given(ways, leans, leans)
def test_the_blank_is_least_on_the_sight_line_and_most_corner_foremost(orientation, rake, splay):
    # p² + q² is the same for all, so |p| + |q| is least where one is 0 and most where they are equal
    lean = Lean.from_rake_splay(rake, splay)
    least = math.hypot(lean.tan_rake, lean.tan_splay)
    extra = (cut_of(rake, splay, orientation).blank_length - lean.axis_length(151.0)) / 48
    assert least * (1 - 1e-9) - 1e-9 <= extra <= least * math.sqrt(2) * (1 + 1e-9) + 1e-9
    if orientation == "sightline":
        assert extra == pytest.approx(least, rel=1e-9, abs=1e-9)


def test_tilt_is_neither_rake_nor_splay_when_an_untwisted_leg_leans_both_ways():
    # "mitre = splay, tilt = rake" is the common slip: the tilt is less
    cut = cut_of(25.0, 20.0)
    assert 25 - cut.front_down.tilt_deg > 1
    assert 20 - cut.side_down.tilt_deg > 1


# Pieces worked on paper


def test_front_leg_of_the_chest():
    # 8 and 6, 48 square, 151 high: tan 8 = .140541, tan 6 = .105104, 1/cos R = sqrt(1 + .019752 + .011047) = 1.015283
    cut = cut_of(8.0, 6.0)
    assert cut.axis_length == pytest.approx(151 * 1.015283, abs=0.001)
    assert cut.blank_length == pytest.approx(151 * 1.015283 + 48 * (0.140541 + 0.105104), abs=0.001)
    assert settings_of(cut)[2:] == pytest.approx((8, math.degrees(math.asin(0.105104 / 1.015283))), abs=0.0005)
    # sin e = sin 8 sin 6 = .139173 x .104528 = .014548: e = 0.83; each edge takes half of it, 0.42, 0.35 over 48
    assert math.sin(math.radians(cut.corner_deg)) == pytest.approx(0.139173 * 0.104528, abs=1e-6)
    assert cut.corner_deg == pytest.approx(0.83, abs=0.005)
    for edge_deg in (cut.front_edge_deg, cut.side_edge_deg):
        assert edge_deg == pytest.approx(0.42, abs=0.005)
        assert 48 * math.tan(math.radians(edge_deg)) == pytest.approx(0.35, abs=0.005)


def test_rear_leg_of_the_chest():
    cut = cut_of(0.0, 6.0)
    assert cut.axis_length == pytest.approx(151 / math.cos(math.radians(6)))
    assert cut.blank_length == pytest.approx(156.9, abs=0.05)  # 151.83 + 48 x .1051
    assert cut.corner_deg == cut.front_edge_deg == cut.side_edge_deg == 0


def test_corner_leg_of_the_long_case():
    # total lean 15 on a sight line 30 from the long axis, which is 60 from the fore-and-aft line
    lean = Lean.from_total_lean(15.0, 60.0)
    # a = sin R cos S = .129410, b = sin R sin S = .224144; sin e = ab / sqrt((1 - a²)(1 - b²))
    a, b = 0.129410, 0.224144
    sine = a * b / math.sqrt((1 - a * a) * (1 - b * b))
    found = end_cut(lean, 180.0, 44.0).corner_deg
    assert math.sin(math.radians(found)) == pytest.approx(sine, abs=1e-6)
    assert found == pytest.approx(1.72, abs=0.005)


# The edges of the range


EDGE_TABLE = [
    # rake, splay, then with the front face down and with the side face down: mitre, tilt; swing, tip
    (0.0, 0.0, [0, 0, 0, 0], [0, 0, 0, 0]),
    (-0.0, -0.0, [0, 0, 0, 0], [0, 0, 0, 0]),
    (9.0, 0.0, [0, 9, 9, 0], [0, 1, 1, 0]),
    (-9.0, 0.0, [0, 9, 9, 0], [0, -1, -1, 0]),
    (9.0, -0.0, [0, 9, 9, 0], [0, 1, 1, 0]),
    (0.0, 9.0, [9, 0, 0, 9], [1, 0, 0, 1]),
    (0.0, -9.0, [9, 0, 0, 9], [-1, 0, 0, -1]),
    (89.0, 0.0, [0, 89, 89, 0], [0, 1, 1, 0]),
]


@pytest.mark.parametrize("orientation", ["untwisted", "front_level", "side_level"])
@pytest.mark.parametrize(("rake", "splay", "angles", "words"), EDGE_TABLE)
def test_a_leg_that_leans_one_way_or_none(orientation, rake, splay, angles, words):
    cut = cut_of(rake, splay, orientation)
    assert settings_of(cut) == pytest.approx(angles, abs=1e-11)
    assert words_of(cut) == words
    assert (cut.corner_deg, cut.front_edge_deg, cut.side_edge_deg) == pytest.approx((0, 0, 0), abs=1e-11)


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize(("rake", "splay"), [(0.0, 0.0), (-0.0, -0.0), (0.0, -0.0)])
def test_a_plumb_leg_is_cut_square_and_has_no_sight_line(orientation, rake, splay):
    cut = cut_of(rake, splay, orientation)
    assert settings_of(cut) == words_of(cut) == [0, 0, 0, 0]
    assert cut.blank_length == cut.axis_length == 151
    assert cut.edge_offsets == (0, 0, 0, 0)
    assert cut.level_corners == tuple((24 * fore_aft, 24 * sideways) for fore_aft, sideways in EDGES)
    assert (cut.twist_deg, cut.corner_deg, cut.front_edge_deg, cut.side_edge_deg) == (0, 0, 0, 0)
    assert Lean.from_rake_splay(rake, splay).sight_line_deg == 0


@pytest.mark.parametrize("orientation", ["sightline", "sightline_corner"])
@pytest.mark.parametrize("rake", [-20.0, 20.0])
@pytest.mark.parametrize("splay", [-5.0, 5.0])
def test_on_the_sight_line_the_outer_side_is_where_the_foot_stands_whatever_the_signs(orientation, rake, splay):
    cut, outward = cut_of(rake, splay, orientation), cut_of(20.0, 5.0, orientation)
    assert settings_of(cut) == pytest.approx(settings_of(outward))
    assert min(words_of(cut)) >= 0
    assert cut.edge_offsets[0] == max(cut.edge_offsets)


def test_each_face_has_a_name_that_fits_how_it_stands():
    assert [s.face for s in (cut_of(8.0, 6.0).front_down, cut_of(8.0, 6.0).side_down)] == ["front", "side"]
    on_sight = cut_of(8.0, 6.0, "sightline")
    assert (on_sight.front_down.face, on_sight.side_down.face) == ("lean", "upright")


@pytest.mark.parametrize("bad", [90, -90.0, 135, float("nan"), float("inf")])
def test_a_leg_that_lies_down_is_refused(bad):
    with pytest.raises(DesignError, match="The rake is"):
        cut_of(bad, 6.0)
    with pytest.raises(DesignError, match="The splay is"):
        cut_of(8.0, bad)


@pytest.mark.parametrize("bad", [0, -48.0, float("nan"), float("inf"), np.array([48.0, 0.0])])
def test_height_and_square_are_above_0(bad):
    with pytest.raises(DesignError, match="The height of the leg is"):
        cut_of(8.0, 6.0, height=bad)
    with pytest.raises(DesignError, match="The leg square is"):
        cut_of(8.0, 6.0, square=bad)


@pytest.mark.parametrize(
    ("word", "answer"),
    [
        ("front level", "did you mean 'front_level'?"),
        ("untwist", "did you mean 'untwisted'?"),
        ("sight_line", "did you mean 'sightline'?"),
        ("", "what can stand there: front_level, side_level, sightline, sightline_corner, untwisted."),
    ],
)
def test_a_word_that_is_no_orientation_is_answered_with_the_nearest(word, answer):
    with pytest.raises(DesignError) as told:
        cut_of(8.0, 6.0, word)
    assert str(told.value) == f"'{word}' is no way to turn a leg; {answer}"


# How sizes behave


@steady
@given(ways, leans, leans, st.floats(0.01, 100))
def test_lengths_scale_and_angles_stay(orientation, rake, splay, k):
    one, larger = cut_of(rake, splay, orientation), cut_of(rake, splay, orientation, k * 151.0, k * 48.0)
    assert larger.axis_length == pytest.approx(k * one.axis_length, rel=1e-13)
    assert larger.blank_length == pytest.approx(k * one.blank_length, rel=1e-13)
    assert larger.edge_offsets == pytest.approx([k * offset for offset in one.edge_offsets], rel=1e-13, abs=1e-12)
    assert np.array(larger.level_corners) == pytest.approx(k * np.array(one.level_corners), rel=1e-12, abs=1e-12)
    assert (settings_of(larger), words_of(larger)) == (settings_of(one), words_of(one))
    assert larger.corner_deg == one.corner_deg
    assert larger.front_edge_deg == pytest.approx(one.front_edge_deg, abs=1e-9)


@steady
@given(st.sampled_from(["untwisted", "front_level", "side_level"]), leans, leans)
def test_a_mirror_turns_the_words_round_and_leaves_the_numbers(orientation, rake, splay):
    cut = cut_of(rake, splay, orientation)
    for mirrored, fore, side in (
        (cut_of(rake, -splay, orientation), 1, -1),
        (cut_of(-rake, splay, orientation), -1, 1),
    ):
        assert settings_of(mirrored) == settings_of(cut)
        assert mirrored.blank_length == cut.blank_length
        front_swing, front_tip, side_swing, side_tip = words_of(cut)
        assert words_of(mirrored) == [side * front_swing, fore * front_tip, fore * side_swing, side * side_tip]
        assert mirrored.corner_deg == -cut.corner_deg
        assert mirrored.twist_deg == pytest.approx(-cut.twist_deg, abs=1e-9)


@steady
@given(leans, leans)
def test_the_faces_change_places_when_rake_and_splay_do(rake, splay):
    for way, other_way in (("untwisted", "untwisted"), ("front_level", "side_level"), ("side_level", "front_level")):
        one, other = cut_of(rake, splay, way), cut_of(splay, rake, other_way)
        front_then_side = settings_of(other)
        assert settings_of(one) == pytest.approx(front_then_side[2:] + front_then_side[:2], abs=1e-9)
        assert one.blank_length == pytest.approx(other.blank_length, rel=1e-13)
        assert one.corner_deg == pytest.approx(other.corner_deg, abs=1e-12)


@steady
@given(ways, leans, leans)
def test_all_four_edges_are_as_long_as_the_axis(orientation, rake, splay):
    # what an edge gains at the foot it loses at the top, so edges across from one another differ by sign only
    outer, first, inner, second = cut_of(rake, splay, orientation).edge_offsets
    assert (outer, first) == (-inner, -second)


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_arrays_give_what_their_members_give_alone(orientation):
    rakes, heights = np.array([[0.0], [8.0], [-20.0]]), np.array([151.0, 400.0])
    many = cut_of(rakes, -6.0, orientation, heights)
    assert many.blank_length.shape == (3, 2)
    assert many.front_down.tilt_deg.shape == (3, 1)
    for i, j in np.ndindex(3, 2):
        alone = cut_of(float(rakes[i, 0]), -6.0, orientation, float(heights[j]))
        for read in (settings_of, words_of):
            members = [np.broadcast_to(value, (3, 2))[i, j] for value in read(many)]
            assert members == pytest.approx(read(alone), rel=1e-13, abs=1e-12)
        for name in ("axis_length", "blank_length", "twist_deg", "corner_deg", "front_edge_deg", "side_edge_deg"):
            value = np.broadcast_to(getattr(many, name), (3, 2))[i, j]
            assert value == pytest.approx(getattr(alone, name), rel=1e-13, abs=1e-12), name
        offsets = [np.broadcast_to(offset, (3, 2))[i, j] for offset in many.edge_offsets]
        assert offsets == pytest.approx(alone.edge_offsets, rel=1e-13, abs=1e-12)


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize("size", [48, 48.0, Fraction(189, 4)])
def test_one_leg_gives_plain_floats(orientation, size):
    cut = cut_of(8, 6, orientation, 151, size)
    plain = (cut.axis_length, cut.blank_length, cut.twist_deg, cut.corner_deg, cut.front_edge_deg, cut.side_edge_deg)
    corners = [step for corner in cut.level_corners for step in corner]
    assert {type(value) for value in (*plain, *cut.edge_offsets, *corners, *settings_of(cut))} == {float}
    assert {type(word) for word in words_of(cut)} == {int}


def test_the_closed_formulas_keep_the_sign_and_take_symbols():
    # 3, 4 and 12 make 13: tangents 3/12 and 4/12 have 12/13 for the cosine of the total lean
    assert sin_tilt(3 / 12, 4 / 12) == pytest.approx(3 / 13, rel=1e-15)
    assert sin_tilt(-4 / 12, 3 / 12) == pytest.approx(-4 / 13, rel=1e-15)
    assert face_slopes(3 / 12, -4 / 12) == (3 / 12, -4 / 12)
    assert face_slopes(3 / 12, -4 / 12, "sightline") == pytest.approx((5 / 12, 0), rel=1e-15)
    assert extra_length(48.0, 3 / 12, -4 / 12) == pytest.approx(28, rel=1e-15)
    assert edge_offset((3 / 12, -4 / 12), 24.0, -24.0) == pytest.approx(14, rel=1e-15)
    r, s, w = sympy.symbols("r s w", positive=True)
    assert sympy.simplify(sin_tilt(r, s) - r / sympy.sqrt(1 + r**2 + s**2)) == 0
    assert sympy.simplify(extra_length(w, r, s) - w * (r + s)) == 0
    for orientation in ORIENTATIONS:  # exact: no decimal fraction creeps in
        assert not any(sympy.sympify(slope).atoms(sympy.Float) for slope in face_slopes(r, s, orientation))
