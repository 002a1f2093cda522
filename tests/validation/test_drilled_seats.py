"""Seats built as solids in the room, tilted on a table and drilled: what a protractor and a tape find there.

Source: general-purpose geometry, scipy's rotations and convex hulls. A seat is a solid turned back
about the side-to-side line; its legs are lines, each in two leaning planes, that are followed down
to the floor; the whole is then turned until the seat is level, and measured as it lies under the
drill. The drilling table is two real hinges, each turning all that lies on top of it. The figures of
the two class stools are worked here by hand from tangents.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull
from scipy.spatial.transform import Rotation

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
    two_tilts,
)

steady = settings(deadline=None, derandomize=True)
X, Y, Z = np.eye(3)  # right, front, up
ENDS = ("front", "rear")


def direction(rake, splay, end, hand=1):
    """The way down a leg, on the plane that its rake shows edge-on and on the one that its splay does."""
    rake, splay = math.radians(rake), math.radians(splay)
    seen_from_side = (math.sin(rake) if end == "front" else -math.sin(rake)) * Y - math.cos(rake) * Z
    seen_from_front = hand * math.sin(splay) * X - math.cos(splay) * Z
    axis = np.cross(np.cross(X, seen_from_side), np.cross(Y, seen_from_front))
    return axis if axis[2] < 0 else -axis


def protractor(axis, end, hand=1):
    """Rake, splay, total lean and sight line of a direction, from square to the level plane below it."""
    out, sideways, down = axis @ Y * (1 if end == "front" else -1), axis @ X * hand, axis @ -Z
    angles = (out, down), (sideways, down), (math.hypot(out, sideways), down), (sideways, out)
    return [math.degrees(math.atan2(*pair)) for pair in angles]


def names_of(lean):
    return [lean.rake_deg, lean.splay_deg, lean.total_lean_deg, lean.sight_line_deg]


@dataclass(frozen=True)
class Seat:
    """A slab pitched back, its underside through a front mortise at a given height."""

    pitch: float
    front_height: float
    spacing: float
    thickness: float

    @property
    def turned(self):
        return Rotation.from_rotvec(math.radians(self.pitch) * X)

    def point(self, sideways, front, above):
        """A point of the seat in the room: from the middle between the front mortises, along its own lines."""
        return self.front_height * Z + self.turned.apply([sideways, front, above])

    def mortise(self, end, hand=1):
        return self.point(hand * 115.0, 0.0 if end == "front" else -self.spacing, 0.0)

    @property
    def slab(self):
        """Far larger than a seat, so that a leg always comes out at the top and not at an edge."""
        far = 1e5
        return ConvexHull([self.point(x, y, z) for x in (-far, far) for y in (-far, far) for z in (0, self.thickness)])

    def level(self, vector):
        """Turn a direction along with the seat until that lies level under the drill."""
        return self.turned.inv().apply(vector)


def bored(slab, start, axis):
    """How much of a line lies inside a solid: cut short by every one of its faces in turn."""
    near, far = -math.inf, math.inf
    for *normal, offset in slab.equations:
        towards, left = axis @ normal, -(start @ normal + offset)
        if towards > 1e-12:
            far = min(far, left / towards)
        elif towards < -1e-12:
            near = max(near, left / towards)
    return (far - near) * np.linalg.norm(axis)


def foot_below(top, axis):
    """Where a line meets the floor."""
    return top + axis * (top[2] / -axis[2])


seats = st.builds(Seat, st.floats(-25, 25), st.floats(300, 600), st.floats(50, 250), st.floats(10, 60))
rakes, splays = st.floats(-40, 40), st.floats(-50, 50)
hands = st.sampled_from([1, -1])


# A seat in the room


@pytest.mark.parametrize("pitch", [4.0, 12.0])
def test_a_seat_pitched_above_0_has_its_back_edge_lower(pitch):
    seat = Seat(pitch, 420.0, 170.0, 40.0)
    for hand in (1, -1):
        assert seat.mortise("rear", hand)[2] < seat.mortise("front", hand)[2]
        assert seat.mortise("rear", hand)[1] < seat.mortise("front", hand)[1]


@steady
@given(seats, rakes, splays, st.sampled_from(ENDS), hands)
def test_angles_and_lengths_of_a_leg_as_they_are_found_on_the_seat(seat, rake, splay, end, hand):
    axis, mortise = direction(rake, splay, end, hand), seat.mortise(end, hand)
    assert protractor(axis, end, hand)[:2] == pytest.approx([rake, splay], abs=1e-10)

    lean = Lean.from_rake_splay(rake, splay)
    leg = seat_leg(lean, mortise[2], seat.thickness, seat.pitch, end)
    under_the_drill = seat.level(axis)
    *found, sight = protractor(under_the_drill, end, hand)
    assert names_of(leg.seat_lean)[:3] == pytest.approx(found, abs=1e-9)
    if found[2] > 1e-3:  # the sight line of a leg square to the seat is as good as none
        assert math.remainder(leg.seat_lean.sight_line_deg - sight, 360) == pytest.approx(0, abs=1e-6)

    assert leg.axis_length == pytest.approx(np.linalg.norm(foot_below(mortise, axis) - mortise), rel=1e-11)
    assert leg.length_in_seat == pytest.approx(bored(seat.slab, mortise, axis), rel=1e-8)

    in_the_room = seat.turned.apply(under_the_drill)
    back = lean_in_room(leg.seat_lean, seat.pitch, end)
    assert names_of(back)[:2] == pytest.approx(protractor(in_the_room, end, hand)[:2], abs=1e-9)


@steady
@given(seats, rakes, rakes, splays)
def test_heights_and_feet_of_a_whole_stool(seat, front_rake, rear_rake, splay):
    front, rear = (seat.mortise(end) for end in ENDS)
    assert np.linalg.norm(front - rear) == pytest.approx(seat.spacing, rel=1e-11)  # along the underside
    assume(rear[2] > 1)
    assert mortise_height(seat.front_height, seat.spacing, seat.pitch) == pytest.approx(rear[2], rel=1e-11)
    assert pitch_from_heights(front[2], rear[2], seat.spacing) == pytest.approx(seat.pitch, abs=1e-9)

    axes = direction(front_rake, splay, "front"), direction(rear_rake, splay, "rear")
    feet = foot_below(front, axes[0]), foot_below(rear, axes[1])
    tangents = Lean.from_rake_splay(front_rake, splay).tan_rake, Lean.from_rake_splay(rear_rake, splay).tan_rake
    apart = feet_apart(seat.front_height, seat.spacing, seat.pitch, *tangents)
    assert apart == pytest.approx(feet[0][1] - feet[1][1], abs=1e-8)

    for end, top, axis, foot, out in zip(ENDS, (front, rear), axes, feet, (1, -1), strict=True):
        drill_rake = protractor(seat.level(axis), end)[0]
        run = out * (foot[1] - top[1])
        assert pitch_from_foot(drill_rake, top[2], run, end) == pytest.approx(seat.pitch, abs=1e-9)


@pytest.mark.parametrize("feet", [(330.0, 390.0), (170.0, 230.0), (120.0, 400.0)])
def test_four_like_legs_stand_on_the_wanted_footprint(feet):
    tops = (170.0, 230.0)
    lean = lean_from_footprint(400.0, tops, feet)
    stand = [
        foot_below(np.array([x * tops[1] / 2, y * tops[0] / 2, 400.0]),
                   direction(lean.rake_deg, lean.splay_deg, "front" if y > 0 else "rear", x))
        for x in (1, -1) for y in (1, -1)
    ]  # fmt: skip
    assert np.ptp(stand, axis=0) == pytest.approx([feet[1], feet[0], 0.0], abs=1e-9)


def test_either_side_of_the_seat_is_drilled_at_the_same_angles():
    """Turned over side to side, right lies left; the drill now comes from the foot and so leans the other way."""
    drilled = lean_in_seat(Lean.from_rake_splay(18, 12), 6.0, "rear")
    from_above = Seat(6.0, 420.0, 170.0, 40.0).level(direction(18, 12, "rear"))
    from_below = -Rotation.from_rotvec(math.pi * Y).apply(from_above)
    rake, splay, total, _ = names_of(drilled)
    assert protractor(from_above, "rear", hand=1)[:3] == pytest.approx([rake, splay, total], abs=1e-9)
    assert protractor(from_below, "rear", hand=-1)[:3] == pytest.approx([-rake, -splay, total], abs=1e-9)


# A table with two hinges


@dataclass(frozen=True)
class Table:
    """Two hinges; each turns all that lies on top of it, the other hinge included."""

    lower: tuple[np.ndarray, float]
    upper: tuple[np.ndarray, float]

    def drill_seen_from_the_seat(self):
        """The plumb drill, as seen from a seat that lies on the tilted table."""
        line, tilt = self.lower
        below = Rotation.from_rotvec(math.radians(tilt) * line)
        line, tilt = self.upper
        above = Rotation.from_rotvec(math.radians(tilt) * below.apply(line))  # its own line has been carried along
        return (above * below).inv().apply(-Z)


def second_hinge_level(first, second):
    """The fore-and-aft hinge underneath; each tilt brings an outward edge down, front or right."""
    return Table(lower=(Y, second), upper=(-X, first)).drill_seen_from_the_seat()


def second_hinge_carried(first, second):
    """The fore-and-aft hinge on top of the side-to-side one."""
    return Table(lower=(-X, first), upper=(Y, second)).drill_seen_from_the_seat()


@steady
@given(st.floats(-75, 75), st.floats(-75, 75))
def test_a_table_set_by_its_two_tilts_drills_the_lean_that_was_wanted(rake, splay):
    tilts = two_tilts(Lean.from_rake_splay(rake, splay))
    wanted = direction(rake, splay, "front")
    for drill in (
        second_hinge_level(tilts.level_first_deg, tilts.level_second_deg),
        second_hinge_carried(tilts.carried_first_deg, tilts.carried_second_deg),
    ):
        assert protractor(drill, "front")[:2] == pytest.approx([rake, splay], abs=1e-9)
        assert np.linalg.norm(np.cross(drill, wanted / np.linalg.norm(wanted))) < 1e-12


@pytest.mark.parametrize(("rake", "splay"), [(16.0, 12.0), (14.0, 8.0), (25.0, 20.0)])
def test_rake_and_splay_on_both_hinges_miss(rake, splay):
    """By hand: the tilt that should be smaller is not, so that angle comes out too large and the other right."""
    tan_r, tan_s = math.tan(math.radians(rake)), math.tan(math.radians(splay))
    level, carried = second_hinge_level(rake, splay), second_hinge_carried(rake, splay)
    too_much_splay = math.degrees(math.atan(tan_s * math.sqrt(1 + tan_r**2)))
    too_much_rake = math.degrees(math.atan(tan_r * math.sqrt(1 + tan_s**2)))
    assert protractor(level, "front")[:2] == pytest.approx([rake, too_much_splay], abs=1e-9)
    assert protractor(carried, "front")[:2] == pytest.approx([too_much_rake, splay], abs=1e-9)

    foot = foot_below(420 * Z, direction(rake, splay, "front"))
    misses = [np.linalg.norm(foot_below(420 * Z, drill) - foot) for drill in (level, carried)]
    by_hand = [420 * tan_s * (math.sqrt(1 + tan_r**2) - 1), 420 * tan_r * (math.sqrt(1 + tan_s**2) - 1)]
    assert misses == pytest.approx(by_hand, rel=1e-9)
    assert min(misses) > 1


@pytest.mark.parametrize(("rake", "splay"), [(16.0, 12.0), (14.0, 8.0), (25.0, 20.0)])
def test_the_tilts_of_one_stacking_miss_on_the_other(rake, splay):
    tilts = two_tilts(Lean.from_rake_splay(rake, splay))
    crossed = (
        second_hinge_carried(tilts.level_first_deg, tilts.level_second_deg),
        second_hinge_level(tilts.carried_first_deg, tilts.carried_second_deg),
    )
    foot = foot_below(420 * Z, direction(rake, splay, "front"))
    assert all(np.linalg.norm(foot_below(420 * Z, drill) - foot) > 2 for drill in crossed)


@pytest.mark.parametrize("end", ENDS)
@pytest.mark.parametrize(("rake", "splay", "pitch"), [(10.0, 12.0, 4.0), (5.0, 14.0, 8.0), (16.0, -6.0, -3.0)])
def test_from_the_table_through_the_seat_to_the_floor(rake, splay, pitch, end):
    """Drilled on the table, seated in the room: the foot stands where rake and splay in the room put it."""
    seat = Seat(pitch, 420.0, 170.0, 40.0)
    tilts = two_tilts(lean_in_seat(Lean.from_rake_splay(rake, splay), pitch, end))
    mortise = seat.mortise(end)
    for drill in (
        second_hinge_level(tilts.level_first_deg, tilts.level_second_deg),
        second_hinge_carried(tilts.carried_first_deg, tilts.carried_second_deg),
    ):
        # at the back the seat lies on the table with its back edge where the front edge was, and the hand changes
        hole = drill if end == "front" else drill * [1, -1, 1]
        foot = foot_below(mortise, seat.turned.apply(hole))
        out = 1 if end == "front" else -1
        run = mortise[2] * np.tan(np.radians([splay, rake])) * [1, out]
        assert foot[:2] - mortise[:2] == pytest.approx(run, abs=1e-9)


# The two class stools: seat level, floor to underside 420 mm, or 16 1/2 in in an inch shop

STOOLS = {
    # rake, splay: total lean, sight line, axis mm, axis in, runs mm, runs in sixteenths
    "three legs, front pair": ((8, 14), (15.97, 60.6, 436.9, 17.16), (59.0, 104.7), (37, 66)),
    "three legs, back": ((18, 0), (18.00, 0.0, 441.6, 17.35), (136.5, 0.0), (86, 0)),
    "four legs, front pair": ((10, 12), (15.44, 50.3, 435.7, 17.12), (74.1, 89.3), (47, 56)),
    "four legs, back pair": ((16, 12), (19.64, 36.5, 446.0, 17.52), (120.4, 89.3), (76, 56)),
}


@pytest.mark.parametrize(("angles", "printed", "runs_mm", "sixteenths"), STOOLS.values(), ids=STOOLS)
def test_the_class_stools(angles, printed, runs_mm, sixteenths):
    """Tolerance: half a unit of the last place in the table."""
    tan_r, tan_s = (math.tan(math.radians(angle)) for angle in angles)
    tan_total = math.hypot(tan_r, tan_s)
    by_hand = (
        math.degrees(math.atan(tan_total)),
        math.degrees(math.atan2(tan_s, tan_r)),
        420 * math.hypot(1, tan_total),
        16.5 * math.hypot(1, tan_total),
    )
    for end in ENDS:
        mm, inch = (seat_leg(Lean.from_rake_splay(*angles), h, t, 0.0, end) for h, t in ((420.0, 40.0), (16.5, 1.5)))
        ours = (mm.lean.total_lean_deg, mm.lean.sight_line_deg, mm.axis_length, inch.axis_length)
        assert ours == pytest.approx(by_hand, rel=1e-13)
        for value, shown, half in zip(ours, printed, (0.005, 0.05, 0.05, 0.005), strict=True):
            assert value == pytest.approx(shown, abs=half)
        runs, inch_runs = mm.lean.foot_run(420.0), inch.lean.foot_run(16.5)
        assert runs[:2] == pytest.approx((420 * tan_r, 420 * tan_s), rel=1e-13)
        assert runs[:2] == pytest.approx(runs_mm, abs=0.05)
        assert tuple(round(16 * run) for run in inch_runs[:2]) == sixteenths
        # in a level seat the drill finds the same angles as the floor
        assert names_of(mm.seat_lean) == pytest.approx(names_of(mm.lean), abs=1e-12)
        assert mm.length_in_seat == pytest.approx(40 * math.hypot(1, tan_total), rel=1e-13)


def test_the_feet_of_the_class_stools():
    """Mortises 115 out and 85 fore and aft of the middle: three feet, then four, by hand from the table above."""
    tops = {"front": 85.0, "rear": -85.0}
    for end, angles, foot in (
        ("front", (8, 14), (220, 144)),
        ("front", (10, 12), (204, 159)),
        ("rear", (16, 12), (204, -205)),
    ):
        stands = foot_below(np.array([115.0, tops[end], 420.0]), direction(*angles, end))
        assert stands[:2] == pytest.approx(foot, abs=0.5)
        run = Lean.from_rake_splay(*angles).foot_run(420.0)
        out = 1 if end == "front" else -1
        assert (115 + run.sideways, tops[end] + out * run.fore_aft) == pytest.approx(stands[:2], abs=1e-9)
    back = 85 + Lean.from_rake_splay(18, 0).foot_run(420.0).fore_aft
    assert back == pytest.approx(221, abs=0.5)
    four = [math.tan(math.radians(rake)) for rake in (10, 16)]
    assert feet_apart(420.0, 170.0, 0.0, *four) == pytest.approx(159 + 205, abs=1)
