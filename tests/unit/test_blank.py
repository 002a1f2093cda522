"""The blank of a turned leg: its square, its length, its octagon, and how many to make.

The witnesses: circles of points moved about in a square, cones cut by planes that scipy turned, eight
points on a circle, and every outcome of small numbers of legs counted in exact fractions.
"""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import product

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

from furnlib.base.guards import DesignError
from furnlib.teach.derive.blank import derive_blank
from furnlib.trade.leg.blank import (
    blank_length,
    blank_side,
    chance_of_enough,
    end_extra,
    known_centring,
    legs_to_make,
    octagon_corners,
    octagon_flat,
    octagon_gauge,
    round_end_extra,
    turning_blank,
)

steady = settings(deadline=None, derandomize=True, max_examples=60)
TURNS = np.linspace(0, 2 * math.pi, 720, endpoint=False)
ROUND = np.column_stack([np.cos(TURNS), np.sin(TURNS)])
sizes = st.floats(1, 200)
allowances = st.floats(0, 5)


@steady
@given(sizes, allowances, allowances, st.floats(0, 1), st.floats(0, 2 * math.pi))
def test_wherever_the_axis_is_the_square_holds_the_turning(diameter, roughing, centring, share, way):
    half = blank_side(diameter, roughing, centring) / 2
    middle = share * centring * np.array([math.cos(way), math.sin(way)])
    assert np.abs(middle + (diameter / 2 + roughing) * ROUND).max() <= half * (1 + 1e-12)


def test_and_it_is_no_larger_than_it_must_be():
    half = blank_side(40.0, 1.0, 0.5) / 2
    furthest = max(np.abs(0.5 * way + 21 * ROUND).max() for way in ROUND)  # the axis off by 0.5 in every direction
    assert half == pytest.approx(furthest, rel=1e-12)


@steady
@given(sizes, allowances, st.floats(-5, 5), st.floats(-5, 5))
def test_a_known_offset_asks_for_the_worse_of_two_pairs_of_faces(diameter, roughing, x, y):
    half = blank_side(diameter, roughing, known_centring(x, y)) / 2
    reach = np.abs(np.array([x, y]) + (diameter / 2 + roughing) * ROUND).max()
    assert half == pytest.approx(reach, rel=1e-12)


def test_a_square_left_on_the_leg_is_never_cut_into():
    assert blank_side(40.0, 1.0, 0.5, 48.0) == 48.0
    assert blank_side(50.0, 1.0, 0.5, 48.0) == 53.0
    assert blank_side(Fraction(3, 2), Fraction(1, 16), 0) == Fraction(13, 8)


def by_points(diameter, lean_deg, end_taper):
    """Furthest out and furthest back of a level cut on a cone, each line of the cone met with the turned plane."""
    normal = Rotation.from_rotvec(math.radians(lean_deg) * np.array([0.0, 1.0, 0.0])).apply([0.0, 0.0, 1.0])

    def meets(way):
        def above(out):
            radius = diameter / 2 + end_taper / 2 * out
            return np.array([radius * way[0], radius * way[1], out]) @ normal

        return brentq(above, -1e4, 1e4, xtol=1e-12)

    met = [meets(way) for way in ROUND[::6]]
    return max(met), min(met)


@pytest.mark.parametrize("end_taper", [-0.5, -0.05, 0.0, 0.05, 0.5])
@pytest.mark.parametrize("lean_deg", [1.0, 9.95, 16.0, 35.0])
def test_how_far_a_level_cut_reaches_on_a_round_end(lean_deg, end_taper):
    furthest, nearest = by_points(40.0, lean_deg, end_taper)
    slope = math.tan(math.radians(lean_deg))
    assert round_end_extra(40.0, slope, end_taper) == pytest.approx(furthest, rel=1e-9)
    assert round_end_extra(40.0, -slope, end_taper) == pytest.approx(nearest, rel=1e-9)
    assert end_extra(40.0, lean_deg, end_taper) == pytest.approx(furthest, rel=1e-9)


def test_the_blank_by_hand():
    """A leg 437 along its axis, 36 at the top and 22 at the foot, straight between, total lean 15.972 degrees.

    tan R = 0.28621. It loses 14 in 437: k = -0.032037 outward at the foot, +0.032037 outward at the top.
    Foot: 11 x 0.28621 = 3.1483, over 1 + 0.0160185 x 0.28621 = 1.0045846: 3.1339. Top: 18 x 0.28621 =
    5.1518, over 1 - 0.0045846: 5.1755. With 15 for either centre and kerfs of 2: 437 + 8.3094 + 30 + 4.
    """
    lean, taper = 15.972, 14 / 437
    top, foot = end_extra(36.0, lean, taper), end_extra(22.0, lean, -taper)
    assert (top, foot) == pytest.approx((5.1755, 3.1339), abs=2e-4)
    made = turning_blank(
        437.0,
        36.0,
        roughing=1.0,
        centring=0.5,
        top_extra=top,
        foot_extra=foot,
        top_waste=15.0,
        foot_waste=15.0,
        kerf=2.0,
    )
    assert made.length == pytest.approx(479.3094, abs=5e-4)
    assert (made.side, made.top_extra, made.foot_extra) == (39.0, top, foot)
    assert made.swing == pytest.approx(math.hypot(39, 39))


def test_48_square_to_40_round():
    # common practice, no source: 4 comes off at the flat and 14 at the corner
    made = turning_blank(300.0, 40.0, roughing=0.0, centring=0.0, square=48.0)
    assert (made.side - 40) / 2 == 4
    assert (made.swing - 40) / 2 == pytest.approx(14, abs=0.1)


@steady
@given(sizes)
def test_the_octagon_is_the_regular_one(side):
    corners = side / 2 / math.cos(math.pi / 8) * np.exp(1j * (math.pi / 8 + math.pi / 4 * np.arange(8)))
    assert np.abs(corners.real).max() == pytest.approx(side / 2)
    flats = np.abs(np.diff(np.append(corners, corners[0])))
    assert flats == pytest.approx(np.full(8, octagon_flat(side)))
    assert octagon_corners(side) == pytest.approx(np.abs(corners[0] - corners[4]))
    assert octagon_gauge(side) == pytest.approx(side / 2 - corners[0].imag)


@steady
@given(st.integers(1, 5), st.integers(1, 5), st.integers(0, 10))
def test_chance_of_enough_by_every_outcome(made, needed, tenths):
    one = Fraction(tenths, 10)
    outcomes = product((True, False), repeat=made)
    exact = sum(math.prod(one if good else 1 - one for good in legs) for legs in outcomes if sum(legs) >= needed)
    assert chance_of_enough(made, needed, tenths / 10) == pytest.approx(float(exact), abs=1e-14)


def test_seven_blanks_for_five_legs_with_a_reason():
    # 0.9^6 + 6 x 0.9^5 x 0.1 = 0.885735; seven: 0.9^7 + 7 x 0.9^6 x 0.1 + 21 x 0.9^5 x 0.01 = 0.9743085
    assert chance_of_enough(6, 5, 0.9) == pytest.approx(0.885735, rel=1e-12)
    assert chance_of_enough(7, 5, 0.9) == pytest.approx(0.9743085, rel=1e-12)
    assert [legs_to_make(5, 0.9, wanted) for wanted in (0.5, 0.88, 0.9, 0.97, 0.98)] == [5, 6, 7, 7, 8]
    assert legs_to_make(4, 1.0, 0.99) == 4


@steady
@given(st.integers(1, 12), st.floats(0.3, 1), st.floats(0.05, 0.999))
def test_it_is_the_least_number(needed, good, certainty):
    made = legs_to_make(needed, good, certainty)
    assert chance_of_enough(made, needed, good) >= certainty - 1e-9
    assert made == needed or chance_of_enough(made - 1, needed, good) < certainty


def test_no_number_of_legs_makes_it_certain():
    with pytest.raises(DesignError, match=r"certainty is 1; it must lie between 0 and 1: no number of spares makes it"):
        legs_to_make(5, 0.9, 1)
    with pytest.raises(DesignError, match=r"200 legs do not give 150 good ones with a certainty of 0\.9: practise"):
        legs_to_make(150, 0.5, 0.9)


@pytest.mark.parametrize(
    ("counts", "said"),
    [
        ((0, 5, 0.9), "number of legs made is 0"),
        ((6, 0, 0.9), "number of legs needed is 0"),
        ((6.5, 5, 0.9), r"number of legs made is 6\.5; it must be a whole number"),
        ((201, 5, 0.9), "number of legs made is 201"),
        ((6, 5, 1.1), r"chance that a leg comes good is 1\.1"),
        ((6, 5, float("nan")), "chance that a leg comes good is nan"),
    ],
)
def test_counts_and_chances_out_of_range(counts, said):
    with pytest.raises(DesignError, match=said):
        chance_of_enough(*counts)


ALLOWANCES = ("roughing", "centring", "top_extra", "foot_extra", "top_waste", "foot_waste", "kerf", "square")


@pytest.mark.parametrize("name", ALLOWANCES)
@pytest.mark.parametrize("bad", [-1.0, float("nan"), np.array([1.0, -1.0])])
def test_no_allowance_is_below_nothing(name, bad):
    given_sizes = {"roughing": 1.0, "centring": 0.5, name: bad}
    with pytest.raises(DesignError, match=name.partition("_")[2] or name):
        turning_blank(400.0, 40.0, **given_sizes)


def test_wood_at_hand_is_taken_or_refused():
    at_hand = turning_blank(400.0, 40.0, roughing=1.0, centring=0.5, side_at_hand=50.0)
    assert (at_hand.side, at_hand.octagon_flat) == (50.0, octagon_flat(50.0))
    assert turning_blank(400.0, 40.2, roughing=1.1, centring=0.3, side_at_hand=43.0).side == 43.0  # no last digit
    with pytest.raises(DesignError, match=r"wood at hand is 42\.0 square and the turning needs 43\.0: take thicker"):
        turning_blank(400.0, 40.0, roughing=1.0, centring=0.5, side_at_hand=42.0)


@pytest.mark.parametrize(("taper", "lean"), [(2.0, 45.0), (4.0, 30.0), (-2.0, 45.0), (-8.0, 16.0)])
def test_an_end_that_tapers_as_steeply_as_the_cut_runs(taper, lean):
    with pytest.raises(DesignError, match="never comes out on its far side: end the leg with less taper"):
        end_extra(40.0, lean, taper)


@pytest.mark.parametrize("lean", [-1.0, 90.0, float("nan")])
def test_a_lean_out_of_range(lean):
    with pytest.raises(DesignError, match="The total lean is"):
        end_extra(40.0, lean)


@steady
@given(sizes, allowances, allowances, st.floats(0.01, 100))
def test_lengths_scale(diameter, roughing, waste, k):
    def made(s):
        return turning_blank(
            400 * s,
            diameter * s,
            roughing=roughing * s,
            centring=0.5 * s,
            top_extra=end_extra(diameter * s, 12.0, -0.1),
            foot_waste=waste * s,
        )

    one, larger = vars(made(1)), vars(made(k))
    assert [larger[name] for name in one] == pytest.approx([k * size for size in one.values()], rel=1e-11)


def test_numbers_give_floats_and_arrays_broadcast():
    one = turning_blank(400.0, 40.0, roughing=1.0, centring=0.5)
    assert {type(size) for size in vars(one).values()} == {float}
    many = turning_blank(400.0, np.array([40.0, 60.0]), roughing=1.0, centring=0.5, square=48.0)
    assert many.side.tolist() == [48.0, 63.0]
    assert many.swing == pytest.approx([48 * math.sqrt(2), 63 * math.sqrt(2)])
    assert known_centring(np.array([0.1, -0.9]), 0.5).tolist() == [0.5, 0.9]


@pytest.mark.parametrize("claim", derive_blank().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    assert claim.difference == sympy.Integer(0)
    symbols = sympy.symbols("d d_t L b w_f w_t r_o c_e R w", positive=True) + sympy.symbols("k k_t", real=True)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (claim.running, claim.derived))
    for point in np.random.default_rng(5).uniform(0.1, 0.9, (200, len(symbols))):
        d, top, length, kerf, waste, top_waste, roughing, centring, lean, side, k, top_k = point
        slope = math.tan(math.radians(lean))
        extras = round_end_extra(top, slope, top_k), round_end_extra(d, slope, k)
        expected = {
            "blank.side": blank_side(d, roughing, centring),
            "blank.round_end": extras[1],
            "blank.round_end_short": round_end_extra(d, -slope, k),
            "blank.length": blank_length(length, *extras, top_waste, waste, kerf),
            "blank.octagon_gauge": octagon_gauge(side),
            "blank.octagon_flat": octagon_flat(side),
            "blank.octagon_corners": octagon_corners(side),
        }[claim.key]
        assert running(*point) == pytest.approx(expected, rel=1e-11)
        assert derived(*point) == pytest.approx(expected, rel=1e-11)
