"""Where the feet of a stool come to be when settings slip: the rings of the plan, and daylight under one foot.

The witness is chance: thousands of legs are drilled astray, cut and set, on the seat as it is
pitched, by rotations in space (`in_space`).
"""

from __future__ import annotations

import in_space
import numpy as np
import pytest
from stools import DESIGNS, FOUR, PRACTICE, THREE, leg, size, stool

from furnlib.plan.piece import read_piece
from furnlib.trade.leg.setting_error import slipped_feet

DAYLIGHT = "daylight under one foot, two times out of three at most"


# The ring within which nine out of ten feet land


def share_inside(ring, feet):
    """What part of all feet lies within the ring: each as so much of either half axis."""
    shares = np.linalg.solve(np.array(ring).T, np.asarray(feet).T)
    return float((np.square(shares).sum(axis=0) <= 1).mean())


COUNT = 40_000
FOUR_SIGMA = 4 * (0.9 * 0.1 / COUNT) ** 0.5


@pytest.mark.parametrize("name", [THREE, FOUR])
def test_nine_feet_out_of_ten_land_in_the_ring_of_a_level_seat(name):
    for number, one in enumerate(stool(name).legs):
        across, back = in_space.outward(one.position)
        slipped = slipped_feet(one.lean, 420.0, 0.5, 1.0, 0.0, COUNT, seed=number)
        places = slipped.on_floor[:, ::-1] * (across, back)
        assert share_inside(one.ring, places) == pytest.approx(0.9, abs=FOUR_SIGMA)


def set_on_the_seat(piece, one, rng, count):
    """Directions in the room of legs that were drilled astray, by rotation of the drilled direction."""
    seat, slips = in_space.Seat(piece), one.slips
    direction = in_space.axis(one.position, one.lean.rake_deg, one.lean.splay_deg)
    across, back = in_space.outward(one.position)
    local = seat.drilled(direction) * (across, back, -1)
    total = np.arctan2(np.hypot(local[0], local[1]), local[2])
    sight = np.arctan2(local[0], local[1])
    total = total + np.radians(slips.total_lean) * rng.standard_normal(count)
    sight = sight + np.radians(slips.sight_line) * rng.standard_normal(count)
    ways = np.stack(
        [across * np.sin(total) * np.sin(sight), back * np.sin(total) * np.cos(sight), -np.cos(total)], axis=-1
    )
    return seat.turn.apply(ways)


@pytest.mark.parametrize("pitch", [3, 12, -5])
def test_nine_feet_out_of_ten_land_in_the_ring_of_a_pitched_seat(pitch):
    piece = stool(PRACTICE, "mm", (r"pitch: 3", f"pitch: {pitch}"))
    rng = np.random.default_rng(pitch + 100)
    for one in piece.legs:
        ways = set_on_the_seat(piece, one, rng, COUNT)
        places = ways[:, :2] / -ways[:, 2:] * float(one.height) - (np.array(one.foot) - one.top)
        assert share_inside(one.ring, places) == pytest.approx(0.9, abs=FOUR_SIGMA)


def test_the_ring_follows_what_slips():
    plain = leg(stool(FOUR), "front left").ring
    twice = leg(stool(FOUR, "mm", (r"total lean: 0.5", "total lean: 1")), "front left").ring
    steady = leg(stool(FOUR, "mm", (r"sight line: 1\b", "sight line: 0")), "front left").ring
    assert twice[0] == pytest.approx([2 * step for step in plain[0]], rel=1e-3)
    assert twice[1] == pytest.approx(plain[1], rel=1e-9)
    assert steady == (plain[0], (0.0, 0.0))
    # the first half axis lies on the sight line, the second across it
    one = leg(stool(FOUR), "front left")
    along = np.array(one.foot) - one.top
    assert abs(np.cross([*along, 0], [*plain[0], 0])[2]) < 1e-9 * np.hypot(*along)
    assert abs(along @ plain[1]) < 1e-9 * np.hypot(*along)


# Daylight under one of four feet

ROUND = ("front left", "front right", "rear right", "rear left")
ROCKING = [(FOUR, 0), (PRACTICE, 3), (PRACTICE, 12), (PRACTICE, -6)]


@pytest.mark.parametrize(("name", "pitch"), ROCKING)
def test_daylight_by_chance(name, pitch):
    """Legs are drilled, cut and set by chance; the gap under each foot is measured in space."""
    piece = stool(name, "mm", (r"pitch: \d+", f"pitch: {pitch}"))
    rng = np.random.default_rng(7)
    four = [leg(piece, position) for position in ROUND]
    ends = []
    for one in four:
        ways = set_on_the_seat(piece, one, rng, COUNT)
        lengths = one.axis_length + float(one.slips.length) * rng.standard_normal(COUNT)
        ends.append(float(one.height) + ways[:, 2] * lengths)
    feet = [one.foot for one in four]
    gaps = [in_space.plane_gap(feet, np.array(ends), number) for number in range(4)]
    widest = max(float(np.std(gap)) for gap in gaps)
    # a standard deviation out of n is itself known to 1 / sqrt(2 n); four times that
    assert size(piece, DAYLIGHT).value == pytest.approx(widest, rel=4 / (2 * COUNT) ** 0.5)


@pytest.mark.parametrize("name", [FOUR, "landing_chest", "landing_chest_inch"])
def test_daylight_by_the_slips_of_a_level_piece(name):
    # the end of a leg of length L rises by L sin R for each radian and by cos R for each unit of length
    piece = read_piece(DESIGNS / f"{name}.yaml")
    four = [leg(piece, position) for position in ROUND]
    length = {"mm": 0.5, "in": 1 / 64}[piece.design.unit]
    rises = []
    for one in four:
        tilt = np.radians(one.lean.total_lean_deg)
        rises.append(np.hypot(one.axis_length * np.sin(tilt) * np.radians(0.5), length * np.cos(tilt)))
        assert one.rise_scatter == pytest.approx(rises[-1], rel=1e-4)
    expected = in_space.daylight_scatter([one.foot for one in four], rises)
    assert size(piece, DAYLIGHT).value == pytest.approx(expected, rel=1e-4)


def test_half_a_degree_at_each_leg_gives_daylight_under_one_foot():
    piece = stool(FOUR, "mm", (r"length: 0.5", "length: 0.000001"))  # the angle alone
    assert size(piece, DAYLIGHT).value == pytest.approx(2.3, abs=0.05)
    assert not [s for s in stool(THREE).sizes if s.name == DAYLIGHT]  # three legs never rock
