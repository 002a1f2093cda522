"""How fast ten thousand legs are bored by chance, beside the same geometry in bare numpy.

The ratio is to a baseline timed in turns in the same run; the limit in milliseconds has room to spare.
"""

import numpy as np

from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.rocking import daylight, rocking_scatter
from furnlib.trade.leg.setting_error import foot_ring, rise_scatter, slipped_feet

ROUNDS = 50
COUNT, HEIGHT, LEAN_SLIP, SIGHT_SLIP, LENGTH_SLIP = 10_000, 420.0, 0.5, 1.5, 0.3


def bare(rake, splay, count):
    """Feet on the floor, ends and shortfalls of legs with normal slips, straight from the angles."""
    tan_r, tan_s = np.tan(np.radians([rake, splay]))
    total, sight = np.arctan(np.hypot(tan_r, tan_s)), np.arctan2(tan_s, tan_r)
    length = HEIGHT / np.cos(total)
    chance = np.random.default_rng(1)
    total = total + np.radians(LEAN_SLIP) * chance.standard_normal(count)
    sight = sight + np.radians(SIGHT_SLIP) * chance.standard_normal(count)
    length = length + LENGTH_SLIP * chance.standard_normal(count)
    direction = np.stack([np.cos(sight), np.sin(sight)], axis=-1)
    wanted = HEIGHT * np.array([tan_r, tan_s])
    on_floor = HEIGHT * np.tan(total)[:, np.newaxis] * direction - wanted
    ends = (length * np.sin(total))[:, np.newaxis] * direction - wanted
    return on_floor, ends, HEIGHT - length * np.cos(total)


def test_ten_thousand_legs_with_their_ring(in_turns, judge):
    """Guards, legs and ring: a slider that asks for them keeps up with the hand."""
    lean = Lean.from_rake_splay(16.0, 12.0)

    def legs():
        ring = foot_ring(lean, HEIGHT, LEAN_SLIP, SIGHT_SLIP)
        return slipped_feet(lean, HEIGHT, LEAN_SLIP, SIGHT_SLIP, LENGTH_SLIP, COUNT, seed=1), ring

    found, ring = legs()
    for ours, theirs in zip((found.on_floor, found.feet, found.shortfalls), bare(16.0, 12.0, COUNT), strict=True):
        np.testing.assert_allclose(ours, theirs, rtol=0, atol=1e-9)
    assert ring.along > ring.across > 0
    ours, numpy = in_turns(legs, lambda: bare(16.0, 12.0, COUNT), ROUNDS)
    judge("10 000 bored legs / bare numpy", ours / numpy, 2.0, note=f"{ours * 1e3:.2f} ms / {numpy * 1e3:.2f} ms")
    judge("10 000 bored legs and their ring", ours * 1e3, 50, " ms")


def test_ten_thousand_stools_and_their_daylight(in_turns, judge):
    """Four legs each, bored by chance and set down; beside four times the bare geometry alone."""
    stool = Lean.from_rake_splay(np.array([10.0, 10.0, 16.0, 16.0]), 12.0)
    feet = np.array([[159.0, -204.0], [159.0, 204.0], [-205.0, 204.0], [-205.0, -204.0]])

    def stools():
        legs = slipped_feet(stool, HEIGHT, LEAN_SLIP, SIGHT_SLIP, LENGTH_SLIP, COUNT, seed=1)
        return daylight(feet, legs.shortfalls)

    scatter = rocking_scatter(feet, rise_scatter(stool, HEIGHT, LEAN_SLIP, LENGTH_SLIP))
    np.testing.assert_allclose(stools().std(axis=0), scatter, rtol=4 / np.sqrt(2 * COUNT))
    ours, numpy = in_turns(stools, lambda: bare(16.0, 12.0, 4 * COUNT), ROUNDS)
    judge("10 000 stools / bare legs alone", ours / numpy, 2.0, note=f"{ours * 1e3:.2f} ms / {numpy * 1e3:.2f} ms")
    judge("10 000 stools and their daylight", ours * 1e3, 200, " ms")
