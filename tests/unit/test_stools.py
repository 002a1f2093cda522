"""Stools: the class piece in both shops by hand, any seat again in space.

The tables are the figures of this class piece as it was worked on paper; nothing in them was read
off this library. Pitched seats are built again from vectors and rotations (`in_space`). What slips
do to the feet is in `test_stool_feet`.
"""

from __future__ import annotations

import in_space
import numpy as np
import pytest
from stools import FOUR, PRACTICE, THREE, leg, size, stool

from furnlib.base.angles import atand
from furnlib.base.shapes import convex_outline, inside_by
from furnlib.plan.sizes.legs import mirror_groups

STOOLS = (THREE, FOUR, PRACTICE)


# The class piece, as it was worked on paper

FRONT, REAR = ("front left", "front right"), ("rear left", "rear right")
TABLE = [
    # stool, legs, rake, splay, total lean, sight line, axis in mm and in inches, foot runs in mm, in inches to 1/16
    (THREE, FRONT, 8, 14, 15.97, 60.6, 436.9, 17.16, (59.0, 104.7), ("2 5/16", "4 1/8")),
    (THREE, ("rear",), 18, 0, 18.00, 0.0, 441.6, 17.35, (136.5, 0.0), ("5 3/8", "0")),
    (FOUR, FRONT, 10, 12, 15.44, 50.3, 435.7, 17.12, (74.1, 89.3), ("2 15/16", "3 1/2")),
    (FOUR, REAR, 16, 12, 19.64, 36.5, 446.0, 17.52, (120.4, 89.3), ("4 3/4", "3 1/2")),
]
ROWS = [(*row[:1], position, *row[2:]) for row in TABLE for position in row[1]]


def tape(text):
    whole, _, part = text.rpartition(" ")
    over, _, under = part.partition("/")
    return int(whole or 0) + int(over) / int(under or 1)


@pytest.mark.parametrize("row", ROWS, ids=[f"{row[0]} {row[1]}" for row in ROWS])
def test_the_table_of_the_class_piece(row):
    name, position, rake, splay, total, sight, axis_mm, axis_in, runs_mm, runs_in = row
    metric, inch = leg(stool(name), position), leg(stool(name, "in"), position)
    for one in (metric, inch):
        assert (one.lean.rake_deg, one.lean.splay_deg) == pytest.approx((rake, splay), abs=1e-9)
        assert one.lean.total_lean_deg == pytest.approx(total, abs=0.005)
        assert one.lean.sight_line_deg == pytest.approx(sight, abs=0.05)
    assert metric.axis_length == pytest.approx(axis_mm, abs=0.05)
    assert inch.axis_length == pytest.approx(axis_in, abs=0.005)
    assert (metric.foot_run.fore_aft, metric.foot_run.sideways) == pytest.approx(runs_mm, abs=0.05)
    nearest = [round(float(run) * 16) / 16 for run in (inch.foot_run.fore_aft, inch.foot_run.sideways)]
    assert nearest == [tape(run) for run in runs_in]


@pytest.mark.parametrize("name", [THREE, FOUR])
def test_floor_to_underside(name):
    # 460 - 40 = 420; 18 - 1 1/2 = 16 1/2
    assert (stool(name).stand.heights, stool(name, "in").stand.heights) == ((420, 420), (16.5, 16.5))
    assert size(stool(name), "height under the seat").rule == "420 = 460 - 40 seat"
    assert size(stool(name, "in"), "height under the seat").rule.replace("\u202f", " ") == "16 1/2 = 18 - 1 1/2 seat"


FEET = [
    # from the middle of the seat: to the right and to the front, to the nearest mm
    (THREE, {"front left": (-220, 144), "front right": (220, 144), "rear": (0, -221)}),
    (
        FOUR,
        {"front left": (-204, 159), "front right": (204, 159), "rear left": (-204, -205), "rear right": (204, -205)},
    ),
]


@pytest.mark.parametrize(("name", "feet"), FEET)
def test_where_the_feet_stand(name, feet):
    piece = stool(name)
    for position, (right, front) in feet.items():
        across, back = leg(piece, position).foot
        assert (across - 180, 130 - back) == pytest.approx((right, front), abs=0.5)


def inside_line(feet, corner, numbers):
    """How far a corner lies inside the line through two feet, by the area of a triangle over its base."""
    (ax, ay), (bx, by) = (feet[i] for i in numbers)
    others = [feet[i] for i in range(len(feet)) if i not in numbers]

    def left(x, y):
        return (x - ax) * (by - ay) - (y - ay) * (bx - ax)

    return left(*corner) / np.hypot(bx - ax, by - ay) * np.sign(left(*others[0]))


def test_a_rectangle_on_three_legs_hangs_outside_its_feet():
    feet = [leg(stool(THREE), position).foot for position in ("front left", "front right", "rear")]
    hull = convex_outline(feet)
    for corner, inside in (
        ((0, 130), -40),  # the middle of a short end
        ((360, 130), -40),
        ((0, 260), -107),  # a back corner
        ((360, 260), -107),
        ((180, 260), 47),  # the middle of the long back edge
        ((180, 0), 14),  # in front: 144 - 130
    ):
        assert inside_by(hull, corner) == pytest.approx(inside, abs=0.5)
        by_hand = min(inside_line(feet, corner, pair) for pair in ((0, 1), (1, 2), (2, 0)))
        assert inside_by(hull, corner) == pytest.approx(by_hand, abs=1e-9)


def test_a_rectangle_on_four_legs_stands_inside_them():
    feet = [leg(stool(FOUR), position).foot for position in (*FRONT, *reversed(REAR))]
    hull = convex_outline(feet)
    for corner in ((0, 260), (360, 260)):
        assert inside_by(hull, corner) == pytest.approx(24, abs=0.5)  # 204 - 180 to the side, 205 - 130 behind
        sides = ((0, 1), (1, 2), (2, 3), (3, 0))
        assert inside_by(hull, corner) == pytest.approx(min(inside_line(feet, corner, s) for s in sides), abs=1e-9)
    assert not [concern for concern in stool(FOUR).concerns if concern.code == "seat_past_feet"]


def test_what_one_slip_does_at_the_floor():
    # one degree at the drill is about 8 mm; three on the sight line 6 to 8, where the leg leans both ways
    one = r"total lean: 0.5", "total lean: 1"
    three = r"sight line: 1\b", "sight line: 3"
    for name, position in ((THREE, "front left"), (FOUR, "front right"), (FOUR, "rear left")):
        piece = stool(name, "mm", one, three)
        along = size(piece, f"foot along the sight line for 1° of total lean, {position} leg").value
        across = size(piece, f"foot across the sight line for 3° of sight line, {position} leg").value
        assert along == pytest.approx(8, abs=0.5)
        assert 5.5 < across < 8.5


# Any seat, built again in space

PITCHED = [
    (THREE, ()),
    (FOUR, ()),
    (PRACTICE, ()),
    (PRACTICE, ((r"pitch: 3", "pitch: 12"),)),
    (PRACTICE, ((r"pitch: 3", "pitch: -7.5"),)),
    (PRACTICE, ((r"pitch: 3", "pitch: 20"), (r"orientation: untwisted", "orientation: side_level"))),
    (THREE, ((r"pitch: 0", "pitch: 6"), (r"rear: {rake: 18, splay: 0}", "rear: {rake: 18, splay: 4}"))),
    (FOUR, ((r"pitch: 0", "pitch: 5"), (r"front left: {.*}", "front left: {rake: 3, splay: -6}"))),
]
every_seat = pytest.mark.parametrize(
    ("name", "edits"), PITCHED, ids=[f"{n} {e[0][1] if e else ''}" for n, e in PITCHED]
)


@every_seat
def test_heights_lengths_and_feet_in_space(name, edits):
    piece = stool(name, "mm", *edits)
    seat = in_space.Seat(piece)
    for one in piece.legs:
        top = seat.top(one.position)
        direction = in_space.axis(one.position, one.lean.rake_deg, one.lean.splay_deg)
        foot = in_space.foot_below(top, direction)
        assert (*one.top, float(one.height)) == pytest.approx(tuple(top), abs=1e-9)
        assert piece.stand.top(one.position) == one.top
        assert piece.stand.height(one.position) == one.height
        assert one.foot == pytest.approx(tuple(foot[:2]), abs=1e-9)
        assert one.axis_length == pytest.approx(np.linalg.norm(foot - top), abs=1e-9)
        assert one.drilling.axis_length == one.axis_length
        assert one.drilling.length_in_seat == pytest.approx(seat.inside(direction), abs=1e-9)
        runs = [abs(a) for a in (foot - top)[[1, 0]]]
        assert [abs(one.foot_run.fore_aft), abs(one.foot_run.sideways)] == pytest.approx(runs, abs=1e-9)
        assert one.foot_run.plan == pytest.approx(np.hypot(*runs), abs=1e-9)


@every_seat
def test_what_to_drill_in_space(name, edits):
    piece = stool(name, "mm", *edits)
    seat = in_space.Seat(piece)
    for one in piece.legs:
        direction = in_space.axis(one.position, one.lean.rake_deg, one.lean.splay_deg)
        across, back, square = seat.drilled(direction) * (*in_space.outward(one.position), -1)
        drilled = one.drilling.seat_lean
        assert drilled.rake_deg == pytest.approx(np.degrees(np.arctan(back / square)), abs=1e-9)
        assert drilled.splay_deg == pytest.approx(np.degrees(np.arctan(across / square)), abs=1e-9)
        assert drilled.total_lean_deg == pytest.approx(np.degrees(np.arctan2(np.hypot(across, back), square)), abs=1e-9)
        assert drilled.sight_line_deg == pytest.approx(np.degrees(np.arctan2(across, back)), abs=1e-9)


@every_seat
def test_the_outline_of_the_seat_seen_from_above(name, edits):
    piece = stool(name, "mm", *edits)
    seat = in_space.Seat(piece)
    edge = np.array(piece.stand.outline)
    far = seat.under(seat.width, seat.depth)
    assert edge.min(axis=0) == pytest.approx((0, 0), abs=1e-9)
    assert edge.max(axis=0) == pytest.approx(far[:2], abs=1e-9)
    assert (piece.stand.width, piece.stand.depth) == pytest.approx(tuple(far[:2]), abs=1e-9)


def test_the_rear_of_a_pitched_seat_is_lower_by_the_sine():
    # H front = 450 - 36 cos 3 - 50 sin 3 = 450 - 35.951 - 2.617 = 411.43; rear 180 sin 3 = 9.42 lower
    front, rear = stool(PRACTICE).stand.heights
    assert (front, rear) == pytest.approx((411.43, 402.01), abs=0.01)
    assert stool(PRACTICE).chains == ()  # its heights are no sum of master sizes
    names = [s.name for s in stool(PRACTICE).sizes if s.name.startswith("height under")]
    assert names == ["height under the seat, front mortises", "height under the seat, rear mortises"]


def test_a_level_seat_closes_its_chain():
    assert [str(chain) for chain in stool(THREE).chains] == ["420 + 40 = 460"]
    assert [str(c).replace("\u202f", " ") for c in stool(FOUR, "in").chains] == ["16 1/2 + 1 1/2 = 18"]
    # as good as level: the pitched seat's heights run into those of the level one
    nearly = stool(FOUR, "mm", (r"pitch: 0", "pitch: 0.000001"))
    assert nearly.stand.heights == pytest.approx(stool(FOUR).stand.heights, abs=1e-4)


# Outlines of seats


@pytest.mark.parametrize("pitch", [0, 10])
@pytest.mark.parametrize("outline", ["rectangle", "round", "D"])
def test_the_outlines_of_seats(outline, pitch):
    inward = (r"out: 115", "out: 80"), (r"front: 85", "front: 60"), (r"rear: 85", "rear: 60")
    shape = (r"outline: rectangle", f"outline: {outline}"), (r"pitch: 0", f"pitch: {pitch}")
    piece = stool(FOUR, "mm", *inward, *shape)
    edge = np.array(piece.stand.outline)
    step = np.roll(edge, -1, axis=0) - edge
    turn = step[:, 0] * np.roll(step[:, 1], -1) - step[:, 1] * np.roll(step[:, 0], -1)
    assert (turn > -1e-9).all()  # counter-clockwise with no dent
    area = 0.5 * np.sum(edge[:, 0] * np.roll(edge[:, 1], -1) - edge[:, 1] * np.roll(edge[:, 0], -1))
    whole = 360 * 260 * np.cos(np.radians(pitch))
    # a round seat fills pi / 4 of its rectangle, a D the front half and pi / 4 of the rear half
    share = {"rectangle": 1, "round": np.pi / 4, "D": (1 + np.pi / 4) / 2}[outline]
    assert area == pytest.approx(whole * share, rel=2e-3)
    assert edge[:, 0].max() == pytest.approx(360)
    assert edge[:, 1].max() == pytest.approx(260 * np.cos(np.radians(pitch)))
    if outline == "D":  # straight in front and along half of both sides
        half = 130 * np.cos(np.radians(pitch))
        for corner in ((0, 0), (360, 0), (360, half), (0, half)):
            assert np.abs(edge - corner).max(axis=1).min() == pytest.approx(0, abs=1e-9)
    if outline != "rectangle":  # every other corner lies on the ellipse
        middle, half = edge.max(axis=0) / 2, edge.max(axis=0) / 2
        off = np.square((edge - middle) / half).sum(axis=1)
        curved = off[edge[:, 1] > middle[1] - 1e-6] if outline == "D" else off
        assert curved == pytest.approx(np.ones(len(curved)))


# Outlines of legs


@every_seat
def test_where_a_leg_meets_the_seat_and_the_floor(name, edits):
    piece = stool(name, "mm", *edits)
    seat = in_space.Seat(piece)
    for one in piece.legs:
        direction = in_space.axis(one.position, one.lean.rake_deg, one.lean.splay_deg)
        top, foot = seat.top(one.position), np.array([*one.foot, 0.0])
        if one.square:
            square, turned = float(one.square), piece.design.legs.orientation
            above = in_space.corners(one.position, direction, square, top, seat.normal, turned)
            below = in_space.corners(one.position, direction, square, foot, orientation=turned)
            assert np.array(one.top_corners) == pytest.approx(above[:, :2], abs=1e-9)
            assert np.array(one.foot_corners) == pytest.approx(below[:, :2], abs=1e-9)
            continue
        for rim, diameter, at, normal in (
            (one.top_corners, one.round.tenon, top, seat.normal),
            (one.foot_corners, one.round.foot, foot, in_space.UP),
        ):
            for x, y in rim:  # back in space, each point is as far from the axis as the leg is thick
                z = at[2] - ((x - at[0]) * normal[0] + (y - at[1]) * normal[1]) / normal[2]
                off = np.cross(np.array([x, y, z]) - at, direction)
                assert np.linalg.norm(off) == pytest.approx(float(diameter) / 2, abs=1e-9)
            round_it = np.degrees(np.arctan2(*(np.array(rim) - at[:2]).T))
            turns = np.diff(np.unwrap(round_it, period=360))
            assert len(rim) == 36
            assert np.abs(turns).max() < 15  # once round, no point left out
            assert abs(turns.sum()) == pytest.approx(350, abs=6)


# Both shops, both hands


def test_a_bevel_gauge_and_a_v_block_are_those_of_the_shop():
    for name, position in ((THREE, "rear"), (FOUR, "front left")):
        for unit, gauge, block in (("mm", 100, 200), ("in", 10, 8)):
            one = leg(stool(name, unit), position)
            rake, splay = np.tan(np.radians([one.lean.rake_deg, one.lean.splay_deg]))
            assert tuple(one.gauge_run) == pytest.approx((gauge * rake, gauge * splay, gauge * np.hypot(rake, splay)))
            assert one.cradle.rise == pytest.approx(block * np.sin(np.radians(one.cradle.wedge_deg)))


ALIKE = (r"rake: 16", "rake: 10")
GROUPS = [
    (THREE, (), [["front left", "front right"], ["rear"]]),
    (FOUR, (), [["front left", "front right"], ["rear left", "rear right"]]),
    (FOUR, (ALIKE,), [["front left", "front right", "rear left", "rear right"]]),
    # one lean in the room, but a pitched seat is drilled by other angles behind than in front
    (FOUR, (ALIKE, (r"pitch: 0", "pitch: 4")), [["front left", "front right"], ["rear left", "rear right"]]),
    (FOUR, ((r"front left: {rake: 10", "front left: {rake: 11"),), [["front left"], ["front right"], [*REAR]]),
]


@pytest.mark.parametrize(("name", "edits", "groups"), GROUPS)
def test_legs_that_share_their_settings_are_one_group(name, edits, groups):
    assert [[one.position for one in group] for group in mirror_groups(stool(name, "mm", *edits).legs)] == groups


@pytest.mark.parametrize("name", STOOLS)
def test_left_and_right_are_mirror_images(name):
    piece = stool(name)
    width = float(piece.design.overall.width)
    for end in ("front", "rear") if name != THREE else ("front",):
        a, b = leg(piece, f"{end} left"), leg(piece, f"{end} right")
        for one, other in ((a.top, b.top), (a.foot, b.foot)):
            assert (width - one[0], one[1]) == pytest.approx(other, abs=1e-9)
        assert a.axis_length == b.axis_length
        assert (a.ring[0][0], a.ring[1][0]) == pytest.approx((-b.ring[0][0], -b.ring[1][0]), abs=1e-12)


def test_any_two_names_give_the_same_stool():
    total = atand(np.hypot(np.tan(np.radians(8)), np.tan(np.radians(14))))
    named = stool(THREE, "mm", (r"front left: {.*}", f"front left: {{total lean: {total!r}, splay: 14}}"))
    assert leg(named, "front left").foot == pytest.approx(leg(stool(THREE), "front left").foot, abs=1e-9)


def test_a_stool_with_one_leg_alone_in_front():
    lean = r"\n  lean:(.*\n)+.*"
    pair = "rear left: {rake: 8, splay: 14}\n    rear right: {rake: 8, splay: 14}"
    three = f"\n  lean:\n    front: {{rake: 18, splay: 0}}\n    {pair}"
    piece = stool(THREE, "mm", (lean, three), (r"outline: D", "outline: rectangle"))
    # the class piece turned round: its front is the other's back
    feet = {one.position: (one.foot[0] - 180, 130 - one.foot[1]) for one in piece.legs}
    turned = {"front": (0, 221), "rear left": (-220, -144), "rear right": (220, -144)}
    for position, place in turned.items():
        assert feet[position] == pytest.approx(place, abs=0.5)
    apart = {s.name: s.rule for s in piece.sizes if " foot to " in s.name}
    assert apart == {
        "rear left foot to rear right foot": "439.4 = 230 + 104.7 + 104.7",
        "front foot to rear left foot, front to back": "365.5 = 170 + 136.5 + 59",
    }
    (concern,) = [concern for concern in piece.concerns if concern.code not in ("slim_leg", "weak_leg")]
    assert concern.code == "seat_past_feet"
    assert concern.number.startswith("edge of the seat 107")
