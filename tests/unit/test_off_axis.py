"""Two rounds with parallel axes: the wood they have in common, and a leg offset on its pad.

The witness counts wood: points on and in circles, each asked whether both rounds keep it.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.teach.derive.off_axis import derive_off_axis
from furnlib.trade.leg.off_axis import (
    far_reach,
    flush_offset,
    lens,
    lens_area,
    lens_edge_deg,
    lens_thickness,
    lens_width,
    near_reach,
    offset_leg,
)

steady = settings(deadline=None, derandomize=True, max_examples=60)
radii = st.floats(1, 100)
shares = st.floats(0, 0.99)
TURNS = np.linspace(0, 2 * math.pi, 200_001)


def kept(radius, apart):
    """The outline that both rounds leave: points of either circle that lie inside the other."""
    outline = []
    for way in (1, -1):
        x, y = radius * np.cos(TURNS) + way * apart / 2, radius * np.sin(TURNS)
        inside = (x + way * apart / 2) ** 2 + y**2 <= radius**2 * (1 + 1e-12)
        outline.append(np.column_stack([x, y])[inside])
    return np.concatenate(outline)


@pytest.mark.parametrize("apart", [0.0, 1.0, 12.0, 24.0, 39.0])
def test_a_lens_measured_on_its_outline(apart):
    made, outline = lens(20.0, apart), kept(20.0, apart)
    assert made.thickness == pytest.approx(np.ptp(outline[:, 0]), abs=1e-6)
    assert made.width == pytest.approx(np.ptp(outline[:, 1]), abs=0.002)


def test_three_four_five():
    """Radius 20, axes 24 apart: an edge lies 12 from either axis line and sqrt(400 - 144) = 16 up; 40 - 24 = 16."""
    made = lens(20.0, 24.0)
    assert (made.thickness, made.width) == (16.0, 32.0)
    assert made.edge_angle_deg == pytest.approx(2 * math.degrees(math.acos(0.6)))
    # two sectors of acos 0.6 to either side, less the rhombus of the axes and the edges, 24 x 32 / 2
    assert made.area == pytest.approx(2 * 400 * math.acos(0.6) - 384)


@pytest.mark.parametrize("apart", [1.0, 12.0, 24.0, 39.0])
def test_the_angle_at_an_edge_between_two_short_chords(apart):
    radius, step = 20.0, 1e-6
    half_turn = math.acos(apart / 2 / radius)
    edge = np.array([0.0, math.sqrt(radius**2 - apart**2 / 4)])
    right = np.array([radius * math.cos(half_turn - step) - apart / 2, radius * math.sin(half_turn - step)]) - edge
    left = right * [-1, 1]
    cosine = right @ left / (right @ right)
    assert lens_edge_deg(radius, apart) == pytest.approx(math.degrees(math.acos(cosine)), abs=1e-3)


@steady
@given(radii, shares)
def test_a_wider_distance_takes_a_strip_as_wide_as_the_lens(radius, share):
    apart, step = share * radius * 2, 1e-4 * radius
    lost = lens_area(radius, apart) - lens_area(radius, apart + step)
    assert lost == pytest.approx(step * lens_width(radius, apart + step / 2), rel=1e-3)


@steady
@given(radii)
def test_one_axis_leaves_the_round_and_two_at_its_ends_nothing(radius):
    one = lens(radius, 0.0)
    assert (one.thickness, one.width, one.edge_angle_deg) == (2 * radius, 2 * radius, 180.0)
    assert one.area == pytest.approx(math.pi * radius**2)
    nothing = lens(radius, 2 * radius * (1 - 1e-12))
    assert (nothing.thickness, nothing.area) == pytest.approx((0, 0), abs=1e-9 * radius**2)


@steady
@given(radii, shares, st.floats(0.01, 100))
def test_lengths_scale_and_areas_by_the_square(radius, share, k):
    one, larger = lens(radius, share * 2 * radius), lens(k * radius, share * 2 * radius * k)
    assert larger.thickness == pytest.approx(k * one.thickness, rel=1e-9)
    assert larger.width == pytest.approx(k * one.width, rel=1e-9)
    assert larger.area == pytest.approx(k * k * one.area, rel=1e-9)
    assert larger.edge_angle_deg == pytest.approx(one.edge_angle_deg, abs=1e-9)


@steady
@given(radii, st.floats(0, 80), st.floats(0, 50))
def test_an_offset_leg_measured_on_its_points(end, offset, more):
    leg = offset_leg(offset, end, end + more)
    part = offset + end * np.cos(TURNS[::1000])
    assert leg.near_reach == pytest.approx(part.max())
    assert leg.far_reach == pytest.approx(-part.min())
    assert leg.largest_diameter == pytest.approx(2 * max(part.max(), end + more))
    assert (leg.far_reach < 0) == (offset > end)


def test_flush_with_the_pad():
    leg = offset_leg(13.0, 11.0, 24.0)
    assert (leg.near_reach, leg.largest_diameter, leg.far_reach) == (24.0, 48.0, -2.0)
    assert offset_leg(leg.flush_offset, 11.0, 24.0).near_reach == 24.0
    assert offset_leg(15.0, 11.0, 24.0).largest_diameter == 52.0  # it overhangs its pad by 2


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: lens(0.0, 0.0), "radius is 0.0"),
        (lambda: lens(20.0, -1.0), "distance between the axes is -1.0; it must be 0 or more"),
        (lambda: lens(20.0, 40.0), "no wood in common from twice the radius on: bring the axes closer"),
        (lambda: lens(20.0, np.array([1.0, 41.0])), "no wood in common"),
        (lambda: lens(math.nan, 1.0), "radius is nan"),
        (lambda: offset_leg(-1.0, 11.0, 24.0), "offset is -1.0; it must be 0 or more"),
        (lambda: offset_leg(1.0, 0.0, 24.0), "radius of the end is 0.0"),
        (lambda: offset_leg(1.0, 11.0, -24.0), "radius of the pad is -24.0"),
        (lambda: offset_leg(1.0, 25.0, 24.0), "never come flush: turn a larger pad"),
    ],
)
def test_what_cannot_be_turned_is_said(call, said):
    with pytest.raises(DesignError, match=said):
        call()


def test_numbers_give_floats_and_arrays_broadcast():
    assert {type(size) for size in vars(lens(20, 24)).values()} <= {float, int}
    assert {type(size) for size in vars(lens(20.0, 24.0)).values()} == {float}
    many = lens(np.array([[20.0], [30.0]]), np.array([1.0, 2.0, 3.0]))
    assert many.area.shape == many.width.shape == (2, 3)
    assert many.area[1, 2] == pytest.approx(lens(30.0, 3.0).area)
    assert offset_leg(np.array([5.0, 15.0]), 11.0, 24.0).largest_diameter.tolist() == [48.0, 52.0]


@pytest.mark.parametrize("claim", derive_off_axis().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    assert claim.difference == sympy.Integer(0)
    symbols = sympy.symbols("r c o r_p", positive=True)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (claim.running, claim.derived))
    for r, share, offset, pad in np.random.default_rng(6).uniform(0.05, 0.95, (200, 4)):
        apart = 2 * r * share
        expected = {
            "off_axis.lens_thickness": lens_thickness(r, apart),
            "off_axis.lens_width": lens_width(r, apart),
            "off_axis.lens_edge": math.cos(math.radians(lens_edge_deg(r, apart))),
            "off_axis.lens_area": lens_area(r, apart),
            "off_axis.near_reach": near_reach(r, offset),
            "off_axis.far_reach": far_reach(r, offset),
            "off_axis.flush": flush_offset(pad, r),
        }[claim.key]
        assert running(r, apart, offset, pad) == pytest.approx(expected, rel=1e-9, abs=1e-12)
        assert derived(r, apart, offset, pad) == pytest.approx(expected, rel=1e-9, abs=1e-12)
