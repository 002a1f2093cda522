"""A leg under a seat: limits, signs, there and back, refusals and the usual mistakes.

The expected numbers are worked here from tangents and right-angled triangles; a whole seat built in
the room is measured in tests/validation/test_drilled_seats.py.
"""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.seat import (
    feet_apart,
    lean_from_footprint,
    lean_in_room,
    lean_in_seat,
    mortise_height,
    pitch_from_foot,
    pitch_from_heights,
    seat_leg,
    tan_pitched,
    two_tilts,
)

steady = settings(deadline=None, derandomize=True)
leans = st.floats(-80, 80)
pitches = st.floats(-60, 60)
lengths = st.floats(1, 2000)
ends = st.sampled_from(["front", "rear"])
BOTH_ENDS = pytest.mark.parametrize("end", ["front", "rear"])


def sine(angle):
    return math.sin(math.radians(angle))


def cosine(angle):
    return math.cos(math.radians(angle))


def tangent(angle):
    return math.tan(math.radians(angle))


def names_of(lean):
    return lean.rake_deg, lean.splay_deg, lean.total_lean_deg, lean.sight_line_deg


def stays_below_the_seat(rake, pitch, end):
    assume(abs(rake - pitch if end == "front" else rake + pitch) < 85)


# By hand


def test_a_leg_worked_by_hand_in_fractions():
    # Along the leg (1/2 sideways, 3/4 forward, 1 down). A seat with sine 3/5 and cosine 4/5 has its
    # front line along (0, 4/5, 3/5): 3/5 - 3/5 = 0 out; straight down from it is (0, 3/5, -4/5):
    # 9/20 + 4/5 = 5/4 down. A rear leg has the seat the other way round: 6/5 out, 7/20 down.
    rake, splay, up, along = Fraction(3, 4), Fraction(1, 2), Fraction(3, 5), Fraction(4, 5)
    assert tan_pitched(rake, splay, up, along) == (0, Fraction(2, 5))
    assert tan_pitched(rake, splay, -up, along) == (Fraction(24, 7), Fraction(10, 7))


@pytest.mark.parametrize(
    ("rake", "splay", "pitch", "end", "drill_rake", "quarter"),
    [
        (10, 12, 0, "front", 10, (0, 90)),  # a level seat changes nothing
        (10, 12, 4, "front", 6, (0, 90)),
        (10, 12, 4, "rear", 14, (0, 90)),
        (10, 12, -4, "front", 14, (0, 90)),  # pitched forward: the ends change places
        (10, 12, -4, "rear", 6, (0, 90)),
        (10, 12, 10, "front", 0, (90, 90)),  # pitch equal to the rake: straight sideways
        (5, 12, 8, "front", -3, (90, 180)),  # pitch past the rake: the leg points under the seat
        (10, 0, 10, "front", 0, (0, 0)),  # square to the seat: no lean, no sight line
        (0, 0, 8, "front", -8, (180, 180)),  # plumb legs
        (0, 0, 8, "rear", 8, (0, 0)),
        (0, 12, 8, "rear", 8, (0, 90)),
        (10, -12, 4, "front", 6, (-90, 0)),  # feet that stand inward
        (5, -12, 8, "front", -3, (-180, -90)),
        (-10, 12, 4, "rear", -6, (90, 180)),
        (70, 12, -19, "front", 89, (0, 90)),  # nearly along the seat
        (60, 12, 60, "front", 0, (90, 90)),  # the steepest seat
    ],
)
def test_edges(rake, splay, pitch, end, drill_rake, quarter):
    drilled = lean_in_seat(Lean.from_rake_splay(rake, splay), pitch, end)
    assert drilled.rake_deg == pytest.approx(drill_rake, abs=1e-12)
    tan_splay = tangent(splay) * cosine(rake) / cosine(drill_rake)
    assert drilled.splay_deg == pytest.approx(math.degrees(math.atan(tan_splay)), abs=1e-11)
    total = math.degrees(math.atan(math.hypot(tangent(drill_rake), tan_splay)))
    assert drilled.total_lean_deg == pytest.approx(total, abs=1e-11)
    low, high = quarter
    if low == high and total:
        assert drilled.sight_line_deg == pytest.approx(low, abs=1e-12)
    elif total:
        assert low < drilled.sight_line_deg < high


def test_one_leg_with_all_it_asks_for():
    """Rear leg, rake 10, splay 12, in a seat of 40 pitched by 4 whose mortise is 420 high."""
    leg = seat_leg(Lean.from_rake_splay(10.0, 12.0), 420.0, 40.0, 4.0, "rear")
    tan_splay = tangent(12) * cosine(10) / cosine(14)
    assert names_of(leg.lean)[:2] == pytest.approx((10, 12))
    assert leg.seat_lean.rake_deg == pytest.approx(14)
    assert leg.seat_lean.splay_deg == pytest.approx(math.degrees(math.atan(tan_splay)))
    assert leg.axis_length == pytest.approx(420 * math.sqrt(1 + tangent(10) ** 2 + tangent(12) ** 2))
    assert leg.length_in_seat == pytest.approx(40 * math.sqrt(1 + tangent(14) ** 2 + tan_splay**2))
    assert leg.tilts[:2] == pytest.approx((14, math.degrees(math.atan(tan_splay * cosine(14)))))


@BOTH_ENDS
def test_a_plumb_leg_in_a_level_seat_is_all_noughts(end):
    leg = seat_leg(Lean.from_rake_splay(0, 0), 420.0, 40.0, 0.0, end)
    assert (*names_of(leg.seat_lean), *leg.tilts, leg.axis_length, leg.length_in_seat) == (*[0] * 8, 420, 40)


def test_heights_and_feet_by_hand():
    # sine 3/5 and cosine 4/5 over 200: down 120, along the floor 160
    pitch = math.degrees(math.asin(0.6))
    assert mortise_height(420.0, 200.0, pitch) == pytest.approx(300)
    assert mortise_height(420.0, 200.0, -pitch) == pytest.approx(540)
    assert pitch_from_heights(420.0, 300.0, 200.0) == pytest.approx(pitch)
    assert pitch_from_heights(300.0, 420.0, 200.0) == pytest.approx(-pitch)
    assert feet_apart(420.0, 200.0, pitch, 0.25, 0.5) == pytest.approx(420 / 4 + 160 + 300 / 2)
    assert feet_apart(420.0, 200.0, pitch, 0.0, -0.5) == pytest.approx(160 - 150)


# There and back


@steady
@given(leans, leans, pitches, ends)
def test_into_the_seat_and_back_to_the_room_and_the_other_way_round(rake, splay, pitch, end):
    stays_below_the_seat(rake, pitch, end)
    stays_below_the_seat(rake, -pitch, end)
    lean = Lean.from_rake_splay(rake, splay)
    for there, back in ((lean_in_seat, lean_in_room), (lean_in_room, lean_in_seat)):
        again = back(there(lean, pitch, end), pitch, end)
        assert (again.rake_deg, again.splay_deg) == pytest.approx((rake, splay), abs=1e-10)


@steady
@given(lengths, lengths, pitches)
def test_the_pitch_comes_back_from_the_heights(front_height, spacing, pitch):
    rear_height = mortise_height(front_height, spacing, pitch)
    assume(spacing > 1e-3 * front_height)
    assert pitch_from_heights(front_height, rear_height, spacing) == pytest.approx(pitch, abs=1e-9)


@steady
@given(leans, pitches, lengths, ends)
def test_the_pitch_comes_back_from_a_foot(rake, pitch, height, end):
    stays_below_the_seat(rake, pitch, end)
    lean = Lean.from_rake_splay(rake, 12.0)
    foot_run = lean.foot_run(height).fore_aft
    assert pitch_from_foot(lean_in_seat(lean, pitch, end).rake_deg, height, foot_run, end) == pytest.approx(pitch)


@steady
@given(leans, leans, lengths, st.floats(1, 2000), st.floats(1, 2000))
def test_a_footprint_comes_back_from_its_lean(rake, splay, height, deep, wide):
    runs = Lean.from_rake_splay(rake, splay).foot_run(height)
    feet = (deep + 2 * runs.fore_aft, wide + 2 * runs.sideways)
    assume(min(feet) > 0)
    lean = lean_from_footprint(height, (deep, wide), feet)
    assert (lean.tan_rake * height, lean.tan_splay * height) == pytest.approx(runs[:2], rel=1e-9, abs=1e-9)


def test_feet_that_stand_closer_than_the_mortises_lean_in():
    lean = lean_from_footprint(400, (330, 390), (170, 390))  # in by 80 at each end, plumb from the front
    assert lean.rake_deg == pytest.approx(-math.degrees(math.atan(0.2)))
    assert (lean.splay_deg, lean.sight_line_deg) == (0, 180)


@steady
@given(leans, leans)
def test_the_tilts_give_back_rake_and_splay(rake, splay):
    tilts = two_tilts(Lean.from_rake_splay(rake, splay))
    assert (tilts.level_first_deg, tilts.carried_second_deg) == pytest.approx((rake, splay), abs=1e-11)
    # underneath or on top, both ways are one direction: they have one total lean
    cos_total = 1 / math.hypot(1, tangent(rake), tangent(splay))
    for first, second in (tilts[:2], tilts[2:]):
        assert cosine(first) * cosine(second) == pytest.approx(cos_total, rel=1e-11)


@pytest.mark.parametrize(("rake", "splay"), [(0, 0), (14, 0), (-14, 0), (0, 12), (0, -12)])
def test_a_lean_one_way_only_is_one_tilt_whichever_hinge_lies_underneath(rake, splay):
    tilts = two_tilts(Lean.from_rake_splay(rake, splay))
    assert tilts == pytest.approx((rake, splay, rake, splay), abs=1e-13)


# Symmetry, scaling, order


@steady
@given(leans, st.floats(0.5, 75), pitches)
def test_other_end_other_pitch_and_other_side_other_hand(rake, splay, pitch):
    stays_below_the_seat(rake, pitch, "front")
    lean, mirrored = (Lean.from_rake_splay(rake, s) for s in (splay, -splay))
    rake, splay, total, sight = names_of(lean_in_seat(lean, pitch, "front"))
    assert names_of(lean_in_seat(lean, -pitch, "rear")) == (rake, splay, total, sight)
    assert names_of(lean_in_seat(mirrored, pitch, "front")) == (rake, -splay, total, -sight)


@steady
@given(st.floats(-30, 30), st.floats(-30, 30), lengths, lengths, st.floats(-30, 30), ends, st.floats(0.01, 100))
def test_lengths_grow_with_the_stool_and_angles_do_not(rake, splay, height, thickness, pitch, end, k):
    lean = Lean.from_rake_splay(rake, splay)
    small, large = seat_leg(lean, height, thickness, pitch, end), seat_leg(lean, k * height, k * thickness, pitch, end)
    assert large.axis_length == pytest.approx(k * small.axis_length, rel=1e-14)
    assert large.length_in_seat == pytest.approx(k * small.length_in_seat, rel=1e-14)
    assert large.tilts == small.tilts
    for measure in (
        lambda k: mortise_height(k * height, k * thickness, pitch),
        lambda k: feet_apart(k * height, k * thickness, pitch, 0.1, 0.2),
    ):
        assert measure(k) == pytest.approx(k * measure(1), rel=1e-12, abs=1e-9 * k)
    small_pitch, large_pitch = (pitch_from_foot(rake, k * height, k * thickness, end) for k in (1, k))
    assert large_pitch == pytest.approx(small_pitch, abs=1e-11)


# Arrays and kinds of numbers


@BOTH_ENDS
def test_arrays_are_as_many_scalars(end):
    rakes, splays = np.array([[-5.0], [8.0], [18.0]]), np.array([-12.0, 0.0, 12.0, 14.0])

    def numbers(rake, splay):
        leg = seat_leg(Lean.from_rake_splay(rake, splay), 420.0, 40.0, 6.0, end)
        return *names_of(leg.seat_lean), *leg.tilts, leg.axis_length, leg.length_in_seat

    swept = [np.broadcast_to(number, (3, 4)) for number in numbers(rakes, splays)]
    for i, j in np.ndindex(3, 4):
        one = numbers(float(rakes[i, 0]), float(splays[j]))
        assert [number[i, j] for number in swept] == pytest.approx(one, abs=1e-12)


def test_a_sweep_of_the_pitch_is_one_call():
    slopes, lean = np.array([-10.0, 0.0, 4.0, 10.0]), Lean.from_rake_splay(10.0, 12.0)
    swept = lean_in_seat(lean, slopes, "front")
    assert swept.rake_deg == pytest.approx([20, 10, 6, 0], abs=1e-12)
    assert lean_in_room(swept, slopes, "front").splay_deg == pytest.approx([12, 12, 12, 12])
    heights = mortise_height(420.0, 170.0, slopes)
    assert heights == pytest.approx([420 - 170 * sine(p) for p in slopes])
    assert pitch_from_heights(420.0, heights, 170.0) == pytest.approx(slopes)
    apart = [170 * cosine(p) + 42 + 0.2 * (420 - 170 * sine(p)) for p in slopes]
    assert feet_apart(420.0, 170.0, slopes, 0.1, 0.2) == pytest.approx(apart)
    assert pitch_from_foot(np.array([8.0, 4.0]), 420.0, 0.0, "rear") == pytest.approx([8, 4])
    many_feet = lean_from_footprint(400.0, (170.0, 230.0), (np.array([170.0, 330.0]), 390.0))
    assert many_feet.tan_rake == pytest.approx([0, 0.2])


@pytest.mark.parametrize("number", [int, float, Fraction])
def test_one_number_gives_a_plain_float(number):
    ten, deep, wide, high = map(number, (10, 170, 230, 420))
    lean = Lean.from_rake_splay(ten, ten)
    leg = seat_leg(lean, high, ten, ten, "front")
    given_back = (
        *(*names_of(leg.seat_lean), *leg.tilts, leg.axis_length, leg.length_in_seat),
        *(mortise_height(high, deep, ten), feet_apart(high, deep, ten, lean.tan_rake, lean.tan_rake)),
        *(pitch_from_heights(high, wide, wide), pitch_from_foot(ten, high, deep, "front")),
        lean_from_footprint(high, (deep, wide), (wide, high)).rake_deg,
    )
    assert {type(value) for value in given_back} == {float}


# What is refused, in one sentence


def refusal(call):
    with pytest.raises(DesignError) as refused:
        call()
    return str(refused.value)


@pytest.mark.parametrize(("rake", "pitch"), [(40, -50), (62.3, -27.7), (89, -1), (-45, 45), (-89.9, 0.1)])
def test_a_leg_along_the_seat_is_refused(rake, pitch):
    """Also where rounding would leave a hair below 90, and a leg of a million miles."""
    lean = Lean.from_rake_splay(rake, 12)
    for end, slope in (("front", pitch), ("rear", -pitch)):
        said = refusal(lambda end=end, slope=slope: lean_in_seat(lean, slope, end))
        assert float(said.removeprefix("The drill rake is ").split(";")[0]) == pytest.approx(rake - pitch, abs=1e-12)
        assert said.endswith(
            "; it must lie between -90 and 90: the leg would run along the seat; pitch the seat less or lean the leg"
            " less."
        )


@BOTH_ENDS
def test_a_leg_past_the_seat_or_along_the_floor_is_refused(end):
    steep, lean = 50 if end == "rear" else -50, Lean.from_rake_splay(60, 0)
    assert refusal(lambda: lean_in_seat(lean, steep, end)).startswith("The drill rake is 11")
    along_the_floor = refusal(lambda: lean_in_room(lean, -steep, end))
    assert along_the_floor.startswith("The rake in the room is 11")
    assert "would not reach the floor" in along_the_floor
    assert refusal(lambda: lean_in_seat(Lean.from_rake_splay(np.array([0, 60]), 0), steep, end))


@BOTH_ENDS
@pytest.mark.parametrize("pitch", [60.1, -60.1, 90, np.array([0.0, 61.0])])
def test_a_seat_past_60_is_refused(pitch, end):
    said = f"The pitch of the seat is {pitch}; it must lie from -60 to 60: a seat that steep is no seat; pitch it less."
    for turn in (lean_in_seat, lean_in_room):
        assert refusal(lambda turn=turn: turn(Lean.from_rake_splay(0, 0), pitch, end)) == said


@pytest.mark.parametrize("drill_rake", [90, -90, 120])
def test_a_drill_that_lies_along_the_seat_is_refused(drill_rake):
    said = f"The drill rake is {drill_rake}; it must lie between -90 and 90: measure it from square to the seat."
    assert refusal(lambda: pitch_from_foot(drill_rake, 420, 91, "front")) == said


@pytest.mark.parametrize("end", ["Front", "back", "left", "", None])
def test_an_end_that_is_neither_is_refused_and_not_taken_for_the_rear(end):
    lean = Lean.from_rake_splay(10, 12)
    for call in (
        lambda: lean_in_seat(lean, 4, end),
        lambda: lean_in_room(lean, 4, end),
        lambda: seat_leg(lean, 420, 40, 4, end),
        lambda: pitch_from_foot(8, 420, 91, end),
    ):
        said = f"The end of the seat is {end!r}; it is 'front' or 'rear': say at which the leg stands."
        assert refusal(call) == said


@pytest.mark.parametrize(("front", "rear", "spacing"), [(420, 300, 120), (300, 420, 119), (1e6, 1, 1)])
def test_heights_that_differ_by_the_spacing_or_more_are_refused(front, rear, spacing):
    assert refusal(lambda: pitch_from_heights(front, rear, spacing)) == (
        f"The mortises stand {front} and {rear} high; the heights must differ by less than the {spacing} from one to"
        " the other: measure along the underside of the seat."
    )
    assert refusal(lambda: pitch_from_heights(np.array([420.0, front]), np.array([410.0, rear]), spacing))


@pytest.mark.parametrize("size", [0, -1, np.array([100.0, 0.0])])
def test_sizes_are_above_0(size):
    lean = Lean.from_rake_splay(10, 12)
    for call, name in (
        (lambda: seat_leg(lean, size, 40, 4, "front"), "height of the mortise"),
        (lambda: seat_leg(lean, 420, size, 4, "front"), "thickness of the seat"),
        (lambda: pitch_from_heights(420, 420, size), "distance of the mortises"),
        (lambda: pitch_from_foot(8, size, 0, "front"), "height"),
        (lambda: lean_from_footprint(size, (170, 230), (330, 390)), "height"),
        (lambda: lean_from_footprint(400, (size, 230), (330, 390)), "distance of the tops"),
        (lambda: lean_from_footprint(400, (170, 230), (330, size)), "distance of the feet"),
    ):
        assert refusal(call).startswith(f"The {name} is {size}; it must be more than 0: ")


@pytest.mark.parametrize("value", [math.nan, math.inf, "8", None, np.array([8.0, math.nan])])
def test_what_is_no_ordinary_number_is_refused(value):
    lean = Lean.from_rake_splay(10, 12)
    for call in (
        lambda: lean_in_seat(lean, value, "front"),
        lambda: lean_in_room(lean, value, "rear"),
        lambda: seat_leg(lean, value, 40, 4, "front"),
        lambda: seat_leg(lean, 420, value, 4, "front"),
        lambda: pitch_from_heights(value, 400, 170),
        lambda: pitch_from_heights(420, value, 170),
        lambda: pitch_from_heights(420, 400, value),
        lambda: pitch_from_foot(value, 420, 91, "front"),
        lambda: pitch_from_foot(8, 420, value, "front"),
        lambda: lean_from_footprint(400, (170, value), (330, 390)),
    ):
        assert "must be an ordinary number" in refusal(call)


# The usual mistakes, in a stool 420 high with a seat of 40


def test_the_lean_in_the_room_does_not_count_inside_the_seat_nor_the_drilling_lean_below_it():
    leg = seat_leg(Lean.from_rake_splay(18, 0), 420.0, 40.0, 8.0, "rear")  # drilled at 26
    assert leg.length_in_seat == pytest.approx(40 / cosine(26))
    assert leg.length_in_seat - 40 / cosine(18) > 2.4
    assert leg.axis_length == pytest.approx(420 / cosine(18))
    assert 420 / cosine(26) - leg.axis_length > 25


def test_the_mortises_are_measured_along_the_seat_and_not_in_plan():
    assert mortise_height(420.0, 170.0, 15.0) == pytest.approx(420 - 170 * sine(15))
    assert mortise_height(420.0, 170.0, 15.0) - (420 - 170 * tangent(15)) > 1.5
    assert feet_apart(420.0, 170.0, 15.0, 0.0, 0.0) == pytest.approx(170 * cosine(15))  # 5.8 less than 170


def test_neither_splay_nor_total_lean_follows_the_pitch():
    drilled = lean_in_seat(Lean.from_rake_splay(18, 12), 8.0, "rear")
    tan_splay = tangent(12) * cosine(18) / cosine(26)
    assert drilled.tan_splay == pytest.approx(tan_splay)
    assert drilled.splay_deg - 12 > 0.6  # it does not stay as it is
    assert drilled.total_lean_deg == pytest.approx(math.degrees(math.atan(math.hypot(tangent(26), tan_splay))))
    assert abs(Lean.from_rake_splay(18, 12).total_lean_deg + 8 - drilled.total_lean_deg) > 0.9  # nor is 8 added to it
