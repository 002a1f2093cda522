"""The nod of an open drawer, against rectangles turned about the runner's front edge.

Two witnesses: scipy finds the angle at which a turned corner meets the kicker, and shapely turns the
whole side of a drawer and sees it between runner and kicker. x points out of the case, z up.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from shapely import affinity

from furnlib.base.guards import DesignError
from furnlib.teach.derive.drawer_fit import derive_droop
from furnlib.trade.drawer.droop import droop, inside_at_fall, inside_for_fall, top_fall
from furnlib.trade.drawer.play import held_turn_deg, least_inside, moved_across, turn_in_play_deg

steady = settings(deadline=None, derandomize=True, max_examples=25)
heights, plays, lengths = st.floats(40, 250), st.floats(0.2, 12), st.floats(250, 600)
shares = st.floats(0.05, 0.95)
DEMO = (80.0, 360.0)  # a side of the top row, and the drawer's length: 380 less back and back room


def turned(points, angle):
    """Points (x, z) with the front turned down by an angle in radians about the runner's front edge."""
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(points) @ np.array([[c, -s], [s, c]])


def nod_by_roots(height, play, inside):
    """The first angle at which the rear upper corner stands at the kicker; None where it never does."""

    def over(angle):
        return turned([(-inside, height)], angle)[0, 1] - height - play

    highest = math.atan2(inside, height)  # the corner straight above the pivot
    return brentq(over, 0.0, highest, xtol=1e-15, rtol=1e-15) if over(highest) > 0 else None


@steady
@given(heights, plays, lengths, shares)
def test_angle_and_falls_by_root_finding(height, play, length, share):
    inside, out = length * (1 - share), length * share
    found, angle = droop(height, play, inside, out), nod_by_roots(height, play, inside)
    assert found.tips_out == (angle is None)
    if angle is None:
        assert math.isnan(found.angle_deg) and math.isnan(found.front_fall) and math.isnan(found.top_fall)
        return
    assert found.angle_deg == pytest.approx(math.degrees(angle), rel=1e-7)
    lower, upper = turned([(out, 0), (out, height)], angle)
    assert found.front_fall == pytest.approx(-lower[1], rel=1e-7)
    assert found.top_fall == pytest.approx(height - upper[1], rel=1e-7)


@pytest.mark.parametrize("play", [0.5, 3.0, 40.0])
@pytest.mark.parametrize("inside", [90.0, 120.0, 240.0, 320.0])
def test_the_turned_side_lies_between_runner_and_kicker(play, inside):
    height, length = DEMO
    side = shapely.box(-inside, 0, length - inside, height)
    runner = shapely.box(-400, -50, 0, 0)
    kicker = shapely.box(-400, height + play, 0, height + play + 50)
    angle, free = held_turn_deg(height, play, inside)
    assert not free

    def hits(turn_deg):
        placed = affinity.rotate(side, -turn_deg, origin=(0, 0))
        return placed.intersection(runner).area + placed.intersection(kicker).area

    assert affinity.rotate(side, -angle, origin=(0, 0)).distance(kicker) < 1e-9
    for share in (0.2, 0.6, 0.95, 0.999):  # it touches nothing on the way down
        assert hits(share * angle) < 1e-12
    assert hits(1.01 * angle + 0.01) > 1e-6


def test_the_demo_chest():
    """With 3 over it the top row nods 6 at two-thirds; 1.5 makes it 3; with nothing above within 40 it drops 92."""
    height, length = DEMO
    for play, falls in ((3.0, 6), (1.5, 3), (40.0, 92)):
        assert round(droop(height, play, length / 3, 2 * length / 3).front_fall) == falls


@pytest.mark.parametrize(("share", "times"), [(2 / 3, 2), (3 / 4, 3), (1 / 2, 1)])
def test_a_small_gap_falls_by_pulled_out_over_still_inside(share, times):
    # common practice, no source: gap x out / inside, for small gaps
    found = droop(80.0, 0.01, 360 * (1 - share), 360 * share)
    assert found.front_fall == pytest.approx(times * 0.01, rel=1e-3)


def test_the_gap_over_the_length_inside_is_no_angle_for_a_large_gap():
    """The trap: v / m is 18.4 degrees at a gap of 40, and the drawer hangs at 22.6: 5, 12 and 13 by the way."""
    found = droop(80.0, 40.0, 120.0, 240.0)
    assert found.angle_deg == pytest.approx(math.degrees(math.atan2(5, 12)), rel=1e-12)
    assert found.front_fall == pytest.approx(240 * 5 / 13, rel=1e-12)
    assert abs(found.angle_deg - math.degrees(math.atan2(40, 120))) > 4


def test_where_the_kicker_no_longer_holds_it():
    """A side of 80 with 20 over it: 60, 80 and 100, so it tips with 60 inside and not with a hair more."""
    assert least_inside(80.0, 20.0) == 60
    assert droop(80.0, 20.0, 60.0, 300.0).tips_out
    assert not droop(80.0, 20.0, 60.001, 299.999).tips_out
    assert droop(80.0, 20.0, 0.0, 360.0).tips_out
    assert droop(80.0, math.inf, 359.0, 1.0).tips_out  # nothing above at all


def test_it_nods_only_where_the_weight_is_in_front_of_the_runner():
    kept = droop(80.0, 3.0, 200.0, 160.0, balance=170.0)
    assert (kept.angle_deg, kept.front_fall, kept.top_fall, kept.tips_out) == (0, 0, 0, False)
    assert droop(80.0, math.inf, 200.0, 160.0, balance=160.0).front_fall == 0
    assert droop(80.0, 3.0, 200.0, 160.0, balance=150.0).front_fall == droop(80.0, 3.0, 200.0, 160.0).front_fall > 0


@steady
@given(heights, plays, lengths, shares)
def test_more_play_or_less_inside_falls_further_and_no_play_not_at_all(height, play, length, share):
    inside, out = length * (1 - share), length * share
    assert vars(droop(height, 0.0, inside, out)) == {"angle_deg": 0, "front_fall": 0, "top_fall": 0, "tips_out": False}
    here, looser = droop(height, play, inside, out), droop(height, 1.1 * play, inside, out)
    further = droop(height, play, 0.95 * inside, length - 0.95 * inside)
    for other in (looser, further):
        assert other.tips_out or other.front_fall > here.front_fall
        assert here.tips_out <= other.tips_out


@steady
@given(heights, plays, lengths, shares, st.floats(0.01, 100))
def test_lengths_scale_and_angles_stay(height, play, length, share, k):
    one = droop(height, play, length * (1 - share), length * share)
    other = droop(k * height, k * play, k * length * (1 - share), k * length * share)
    assert other.angle_deg == pytest.approx(one.angle_deg, rel=1e-9, nan_ok=True)
    assert other.top_fall == pytest.approx(k * one.top_fall, rel=1e-9, nan_ok=True)


@pytest.mark.parametrize("play", [1e-9, 1e-4, 0.5, 19.999])
def test_small_plays_lose_no_digits(play):
    """Against the arc sine and arc tangent of the handbook rule, worked to 50 digits."""
    h, v, m = 80, sympy.Rational(play), 60
    exact = sympy.asin((h + v) / sympy.sqrt(m * m + h * h)) - sympy.atan(sympy.Rational(h, m))
    assert turn_in_play_deg(80.0, play, 60.0) == pytest.approx(float(sympy.deg(exact).evalf(50)), rel=2e-12)


@steady
@given(heights, plays, lengths, st.floats(0.5, 60))
def test_inside_for_a_fall_is_the_least_that_serves(height, play, length, fall):
    inside = inside_for_fall(height, play, length, fall)
    tips = least_inside(height, play)
    assert tips <= inside < max(length, tips + 1e-9)
    for more in np.linspace(inside + 1e-6, length, 8)[:-1]:
        held = droop(height, play, more, length - more)
        assert not held.tips_out
        assert held.front_fall <= fall + 1e-6
    less = 0.999 * inside
    there = droop(height, play, less, length - less)
    assert there.tips_out or there.front_fall > fall


def test_inside_for_a_fall_by_root_finding():
    height, length = DEMO

    def over(inside):
        return (length - inside) * math.sin(nod_by_roots(height, 3.0, inside)) - 4.0

    assert inside_for_fall(height, 3.0, length, 4.0) == pytest.approx(brentq(over, 60, 350, xtol=1e-12), rel=1e-9)


def test_numbers_give_floats_and_arrays_broadcast():
    plays, insides = np.array([[1.5], [3.0], [40.0], [200.0]]), np.array([60.0, 120.0, 300.0])
    many = droop(80.0, plays, insides, 360 - insides, balance=180.0)
    long = inside_for_fall(80.0, plays, 360.0, np.array([1.0, 4.0, 90.0]))
    for i, j in np.ndindex(4, 3):
        one = droop(80, float(plays[i, 0]), float(insides[j]), 360 - float(insides[j]), balance=180.0)
        assert [type(value) for value in vars(one).values()] == [float, float, float, bool]
        for name in ("angle_deg", "front_fall", "top_fall", "tips_out"):
            assert getattr(many, name)[i, j] == pytest.approx(getattr(one, name), rel=1e-14, nan_ok=True)
        alone = inside_for_fall(80, float(plays[i, 0]), 360, [1, 4, 90][j])
        assert type(alone) is float
        assert long[i, j] == pytest.approx(alone, rel=1e-14)


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ((0.0, 3.0, 120.0, 240.0), "The size of the drawer is 0.0; it must be more than 0"),
        ((80.0, -1.0, 120.0, 240.0), "The play of the drawer is -1.0; .* it will not go in"),
        ((80.0, math.nan, 120.0, 240.0), "The play of the drawer is nan"),
        ((80.0, 3.0, -1.0, 240.0), "The length inside is -1.0"),
        ((80.0, 3.0, 120.0, -240.0), "The way out is -240.0; .* measure from shut"),
        ((80.0, np.array([3.0, -3.0]), 120.0, 240.0), "it will not go in"),
        ((80.0, 3.0, 120.0, 240.0, math.nan), "The balance is nan"),
        ((80.0, 3.0, 120.0, 240.0, -5.0), "The balance is -5.0; it must be 0 or more: measure from the front back"),
        ((80.0, 3.0, 120.0, 240.0, "middle"), "The balance is middle; it must be an ordinary number"),
    ],
)
def test_bad_sizes_are_refused(sizes, said):
    with pytest.raises(DesignError, match=said):
        droop(*sizes)


def test_a_fall_of_nothing_cannot_be_asked_for():
    with pytest.raises(DesignError, match="The fall is 0"):
        inside_for_fall(80.0, 3.0, 360.0, 0.0)
    with pytest.raises(DesignError, match="will not go in"):
        inside_for_fall(80.0, -3.0, 360.0, 4.0)


@pytest.mark.parametrize("claim", derive_droop().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    assert claim.difference == sympy.Integer(0)
    symbols = sympy.symbols("h v m e f L theta", positive=True)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (claim.running, claim.derived))
    for h, v, m, e, f in np.random.default_rng(6).uniform((40, 1, 80, 60, 1), (90, 9, 300, 400, 9), (50, 5)).tolist():
        length, theta = m + e, turn_in_play_deg(h, v, m)
        point = (h, v, m, e, f, length, theta)
        if claim.key == "droop.inside":  # the fall that goes with the length inside
            point = (h, v, m, e, moved_across(e, theta), length, theta)
        expected = {
            "droop.turn": math.tan(math.radians(theta) / 2),
            "droop.tips": least_inside(h, v),
            "droop.front_fall": moved_across(e, theta),
            "droop.top_fall": top_fall(e, h, theta),
            "droop.inside": inside_at_fall(h, v, length, moved_across(e, theta)),
        }[claim.key]
        assert running(*point) == pytest.approx(expected, rel=1e-9)
        assert derived(*point) == pytest.approx(expected, rel=1e-9)
        if claim.key == "droop.inside":
            assert expected == pytest.approx(m, rel=1e-9)
