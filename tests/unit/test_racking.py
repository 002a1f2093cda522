"""Racking and jamming: a drawer askew between its guides, and the pull that binds.

Witnesses in plan: scipy finds the angle at which a turned rear corner meets the far guide, and shapely
lays the whole drawer between two guides. Jamming is friction statics: a linear programme looks for forces
within both friction cones that hold the drawer against the greatest pull.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, linprog
from shapely import affinity

from furnlib.base.guards import DesignError
from furnlib.teach.derive.drawer_fit import derive_racking
from furnlib.trade.drawer.racking import (
    WOOD_ON_WOOD,
    inside_to_lock,
    inside_to_slide,
    jam,
    lead_in_chamfer,
    pull_needed,
    racking,
)

steady = settings(deadline=None, derandomize=True, max_examples=25)
widths, plays, insides = st.floats(150, 900), st.floats(0.2, 6), st.floats(80, 400)
frictions, lengths = st.floats(*WOOD_ON_WOOD), st.floats(250, 600)


def most_that_is_held(width, inside, offset, friction, drag=10.0):
    """The greatest pull at an offset to the right that friction can hold, infinite where it holds any.

    Across: the guide's front edge presses the left side, the other guide the rear right corner. Along: each
    drags by at most friction times its own pressure, either way, and what else drags by at most the drag.
    """
    #       pull   press left  press right  drag left    drag right   drag
    across = [0.0, 1.0, -1.0, 0.0, 0.0, 0.0]
    along = [1.0, 0.0, 0.0, 1.0, 1.0, 1.0]
    about = [offset, 0.0, -inside, -width / 2, width / 2, 0.0]  # the middle between the front edges
    cones = [[0.0, -friction, 0.0, s, 0.0, 0.0] for s in (1.0, -1.0)]
    cones += [[0.0, 0.0, -friction, 0.0, s, 0.0] for s in (1.0, -1.0)]
    bounds = [(0, None), (0, None), (0, None), (None, None), (None, None), (-drag, drag)]
    scale = np.array([1.0, 1.0, 1.0 / inside])[:, None]
    found = linprog(
        [-1.0, 0, 0, 0, 0, 0],
        A_ub=cones, b_ub=np.zeros(4), A_eq=scale * np.array([across, along, about]), b_eq=np.zeros(3), bounds=bounds,
    )  # fmt: skip
    assert found.status in {0, 3}, found.message
    return math.inf if found.status == 3 else -found.fun


@steady
@given(widths, plays, insides, lengths)
def test_skew_and_lead_by_root_finding(width, play, inside, length):
    """The drawer bears on the guide's front edge at (0, 0), its rear corner on that side m behind."""

    def over(angle):
        rear = np.array([math.cos(angle) * width + math.sin(angle) * inside, 0])  # the other rear corner, across
        return rear[0] - width - play

    found = racking(width, play, inside, length)
    furthest = math.atan2(inside, width)
    assert found.turns_free == (over(furthest) <= 0)
    if found.turns_free:
        assert math.isnan(found.skew_deg) and math.isnan(found.lead) and math.isnan(found.chamfer)
        return
    angle = brentq(over, 0, furthest, xtol=1e-15, rtol=1e-15)
    assert found.skew_deg == pytest.approx(math.degrees(angle), rel=1e-6)
    assert found.lead == pytest.approx(width * math.sin(angle), rel=1e-6)
    assert found.chamfer == pytest.approx(play + length * math.sin(angle), rel=1e-6)


@pytest.mark.parametrize(("width", "play", "inside"), [(478, 2, 118), (478, 0.5, 118), (229, 2, 236), (900, 3, 90)])
def test_the_turned_drawer_lies_between_its_guides(width, play, inside):
    """In plan, y the way out: guides end at y = 0, and the drawer turns about the front edge of the left one."""
    length = 360.0
    skew = racking(width, play, inside, length).skew_deg
    box = shapely.box(0, -inside, width, length - inside)
    left, right = shapely.box(-50, -400, 0, 0), shapely.box(width + play, -400, width + play + 50, 0)

    def hits(turn_deg):
        placed = affinity.rotate(box, turn_deg, origin=(0, 0))
        return placed.intersection(left).area + placed.intersection(right).area

    assert affinity.rotate(box, skew, origin=(0, 0)).distance(right) < 1e-9
    for share in (0.1, 0.5, 0.99):
        assert hits(share * skew) < 1e-9
    assert hits(1.01 * skew) > 1e-6


def test_small_skews_are_play_over_length_inside():
    # common practice, no source: skew = play / length inside, the play of both sides together
    found = racking(478.0, 0.1, 118.0, 354.0)
    assert math.radians(found.skew_deg) == pytest.approx(0.1 / 118, rel=2e-3)
    assert found.chamfer == pytest.approx(0.1 + 354 * 0.1 / 118, rel=2e-3)
    assert lead_in_chamfer(1.0, 300.0, 0.0) == 1


def test_where_the_guides_no_longer_hold_it():
    """12 wide in 13, 5 inside: 5, 12 and 13. So much play, or less inside, and it turns right out."""
    assert racking(12.0, 1.0, 5.0, 20.0).turns_free
    assert not racking(12.0, 0.999, 5.0, 20.0).turns_free
    assert racking(12.0, 0.999, 0.0, 20.0).turns_free


@steady
@given(widths, insides, st.floats(0, 0.5), frictions)
def test_the_pull_by_linear_programming(width, inside, share, friction):
    """With more than mu w inside, the greatest pull that is held is the one that just moves it."""
    offset, inside = share * width, inside + inside_to_lock(width, friction)
    pull = pull_needed(10.0, offset, inside, friction)
    assert most_that_is_held(width, inside, offset, friction) == pytest.approx(pull, rel=1e-6)
    assert pull >= 10


@steady
@given(widths, st.floats(0.1, 2.0), st.floats(0, 0.49), frictions)
def test_it_can_stay_locked_just_where_less_than_mu_w_is_inside(width, share, at, friction):
    """Wherever the hand takes hold: cones at both places that look at one another hold any pull."""
    if abs(share - 1) > 1e-3:
        inside = share * inside_to_lock(width, friction)
        held = most_that_is_held(width, inside, at * width, friction)
        assert math.isinf(held) == (share < 1)


@steady
@given(widths, insides, st.floats(0.01, 0.5), frictions)
def test_sliding_by_solving_the_balances(width, inside, share, friction):
    """Sliding, both places drag with all they have: the linear equations give a pull, or none above 0."""
    offset = share * width
    # unknown: pull and the two pressures; across, along, about the middle between the front edges
    balance = np.array(
        [
            [0, 1, -1],
            [1, -friction, -friction],
            [offset, friction * width / 2, -inside - friction * width / 2],
        ]
    )
    if abs(inside - inside_to_slide(offset, friction)) < 1e-3:
        return
    pull, left, right = np.linalg.solve(balance, [0, 10.0, 0])
    moves = pull > 0 and left >= 0 and right >= 0
    assert moves == (inside > inside_to_slide(offset, friction))
    assert pull == pytest.approx(pull_needed(10.0, offset, inside, friction), rel=1e-9)


def test_two_pulls_pulled_alike_need_no_more_than_one_in_the_middle():
    for inside in (300.0, 500.0):
        assert most_that_is_held(480.0, inside, 0.0, 0.5) == pytest.approx(10.0)
    alike = jam(480.0, [-124.5, 124.5], 0.5)
    assert alike.pulled_alike == 0
    assert alike.one_pull == 124.5
    uneven = jam(480.0, [-100.0, 180.0], 0.5)
    assert (uneven.one_pull, uneven.pulled_alike) == (180.0, 40.0)
    assert jam(480.0, [0.0], 0.5).one_pull == 0


def test_the_published_range_of_friction_by_hand():
    """400 inside, wood on wood at 0.25 to 0.5: 300 off the middle slides, 450 off may bind.

    The limit is mu = m / (2 a): 400 / 600 = 0.667 and 400 / 900 = 0.444. One pull at the very edge: m / w.
    """
    low, high = WOOD_ON_WOOD
    assert high < 400 / 600 and low < 400 / 900 < high
    assert inside_to_slide(300.0, high) < 400 < inside_to_slide(450.0, high)
    assert inside_to_slide(450.0, low) < 400
    assert inside_to_slide(450.0, 400 / 900) == pytest.approx(400)
    at_edge = jam(600.0, [300.0], 0.4)
    assert at_edge.one_pull == at_edge.locked_below == 240


@steady
@given(widths, st.floats(-0.5, 0.5), frictions)
def test_no_pull_within_the_width_binds_where_it_cannot_lock(width, share, friction):
    found = jam(width, [share * width], friction)
    assert found.one_pull == found.pulled_alike <= found.locked_below * (1 + 1e-12)
    assert jam(width, [-share * width], friction) == found


@steady
@given(widths, plays, insides, lengths, st.floats(0.01, 100))
def test_lengths_scale_and_angles_stay(width, play, inside, length, k):
    one, other = racking(width, play, inside, length), racking(k * width, k * play, k * inside, k * length)
    assert other.skew_deg == pytest.approx(one.skew_deg, rel=1e-8, nan_ok=True)
    assert other.chamfer == pytest.approx(k * one.chamfer, rel=1e-8, nan_ok=True)


def test_numbers_give_floats_and_arrays_broadcast():
    insides = np.array([50.0, 118.0, 300.0])
    many = racking(478.0, np.array([[0.5], [9.0]]), insides, 354.0)
    for i, j in np.ndindex(2, 3):
        one = racking(478, [0.5, 9.0][i], float(insides[j]), 354)
        assert [type(value) for value in vars(one).values()] == [float, float, float, bool]
        for name in ("skew_deg", "lead", "chamfer", "turns_free"):
            assert getattr(many, name)[i, j] == pytest.approx(getattr(one, name), rel=1e-14, nan_ok=True)
    assert many.turns_free.tolist() == [[False, False, False], [True, False, False]]
    assert pull_needed(10.0, 100.0, np.array([160.0, 100.0]), 0.4) == pytest.approx([20.0, 50.0])
    assert [type(value) for value in vars(jam(480, [120], 1)).values()] == [float] * 3


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ((0.0, 2.0, 118.0, 354.0), "The size of the drawer is 0.0"),
        ((478.0, -2.0, 118.0, 354.0), "The play of the drawer is -2.0; .* it will not go in"),
        ((478.0, 2.0, -118.0, 354.0), "The length inside is -118.0"),
        ((478.0, 2.0, 118.0, 0.0), "The length of the side is 0.0"),
    ],
)
def test_bad_sizes_are_refused(sizes, said):
    with pytest.raises(DesignError, match=said):
        racking(*sizes)


@pytest.mark.parametrize(
    ("given_values", "said"),
    [
        ((0.0, [0.0], 0.4), "The width of the drawer is 0.0"),
        ((480.0, [0.0], 0.0), "The friction is 0.0; .*about 0.25 to 0.5 for wood on wood"),
        ((480.0, [], 0.4), "No pull is given"),
        ((480.0, [-100.0, 241.0], 0.4), "must lie from -240 to 240: it stands beside the front; move it in"),
        ((480.0, [math.nan], 0.4), "ordinary number"),
        ((480.0, ["left"], 0.4), "distance of a pull from the middle is left; it must be an ordinary number"),
    ],
)
def test_bad_pulls_are_refused(given_values, said):
    with pytest.raises(DesignError, match=said):
        jam(*given_values)


@pytest.mark.parametrize("claim", derive_racking().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    assert claim.difference == sympy.Integer(0)
    symbols = sympy.symbols("w m a mu R", positive=True)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (claim.running, claim.derived))
    for width, inside, offset, friction, drag in np.random.default_rng(6).uniform(0.1, 2, (50, 5)).tolist():
        expected = {
            "racking.pull": pull_needed(drag, offset, inside, friction),
            "racking.slide": inside_to_slide(offset, friction),
            "racking.lock": inside_to_lock(width, friction),
        }[claim.key]
        point = (width, inside, offset, friction, drag)
        assert running(*point) == pytest.approx(expected, rel=1e-9)
        assert derived(*point) == pytest.approx(expected, rel=1e-9)
