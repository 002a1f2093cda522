"""A leaning leg held against its wood: sections summed by small squares, forces as vectors, weak places by search."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from furnlib.base.guards import DesignError
from furnlib.trade.case.strength import (
    bending_stress,
    leg_screen,
    round_section_modulus,
    square_section_modulus,
    strength_share_of_grain,
    tenon_forces,
    weakest_section,
    weakest_taper_diameter,
)
from furnlib.trade.leg.lean import Lean

steady = settings(deadline=None, derandomize=True, max_examples=60)
sizes, leans, forces = st.floats(1, 200), st.floats(0, 60), st.floats(-500, 500)
MIDDLES = (np.arange(2000) + 0.5) / 2000 - 0.5  # of small squares across a square of side 1
ACROSS, UP = np.meshgrid(MIDDLES, MIDDLES)
SMALL = (1 / 2000) ** 2


def modulus_by_small_squares(inside, height, edge):
    """Sum of height squared times area, over the height of the edge."""
    return float((height[inside] ** 2).sum() * SMALL / edge)


# Sections


def test_round_and_square_are_the_sums_over_their_sections():
    everywhere = np.ones_like(UP, bool)
    assert round_section_modulus(1.0) == pytest.approx(
        modulus_by_small_squares(np.hypot(ACROSS, UP) < 0.5, UP, 0.5), rel=1e-4
    )
    assert square_section_modulus(1.0) == pytest.approx(modulus_by_small_squares(everywhere, UP, 0.5), rel=1e-5)
    # bent towards a corner, as the docstring warns
    to_corner = modulus_by_small_squares(everywhere, (ACROSS + UP) / math.sqrt(2), 1 / math.sqrt(2))
    assert square_section_modulus(1.0) / to_corner == pytest.approx(math.sqrt(2), rel=1e-5)


@steady
@given(sizes, st.floats(0.1, 10))
def test_a_section_modulus_grows_as_the_cube(size, times):
    for modulus in (round_section_modulus, square_section_modulus):
        assert modulus(size * times) == pytest.approx(modulus(size) * times**3)
        both = modulus(np.array([size, 2 * size]))
        assert both == pytest.approx([modulus(size), 8 * modulus(size)])
        assert type(modulus(size)) is float


# Where a leg is weakest


def taper(foot, top, length, count=200_001):
    """Places from the foot, and the section modulus of a straight taper there."""
    places = np.linspace(0.0, length, count)
    return places, round_section_modulus(foot + (top - foot) * places / length)


@steady
@given(st.floats(5, 50), st.floats(1.0, 3.0), st.floats(50, 800))
def test_a_taper_is_weakest_at_three_halves_of_its_foot_or_at_its_top(foot, growth, length):
    top = foot * growth
    places, moduli = taper(foot, top, length, 20_001)
    weak = weakest_section(places, 10 * places, moduli)
    worst = weakest_taper_diameter(foot)
    if worst >= top:  # outside the leg: then at the tenon
        assert weak.distance == length
    else:
        assert weak.distance == pytest.approx((worst - foot) / (top - foot) * length, abs=length / 20_000 * 1.001)
    # and a search that knows no samples finds no more
    found = minimize_scalar(
        lambda u: -10 * u / (math.pi / 32 * (foot + (top - foot) * u / length) ** 3), bounds=(0, length),
        method="bounded",
    )  # fmt: skip
    assert weak.stress == pytest.approx(-found.fun, rel=1e-4)


def test_a_thin_neck_or_a_tenon_is_found_where_it_is():
    places = np.array([0.0, 100, 200, 300, 400, 400])
    diameters = np.array([22.0, 30, 34, 15, 36, 25])
    assert weakest_section(places, places, round_section_modulus(diameters)).index == 3
    diameters[3] = 36
    at_tenon = weakest_section(places, -places, round_section_modulus(diameters))  # bent the other way
    assert (at_tenon.index, at_tenon.distance) == (5, 400.0)
    assert at_tenon.stress == pytest.approx(400 * 32 / (math.pi * 25**3))


def test_sections_that_cannot_be_are_refused():
    with pytest.raises(DesignError, match="2 distances, 3 moments and 2 section moduli; there must be as many"):
        weakest_section([0, 1], [0, 1, 2], [1, 1])
    with pytest.raises(DesignError, match="one at least"):
        weakest_section([], [], [])
    with pytest.raises(DesignError, match=r"least section modulus is 0.0; it must be more than 0: leave out places"):
        weakest_section([0, 1], [0, 1], [1, 0])
    with pytest.raises(DesignError, match="greatest bending moment is nan"):
        weakest_section([0, 1], [0, math.nan], [1, 1])


# Forces


@steady
@given(leans, forces, forces, st.floats(1, 900))
def test_the_forces_are_those_of_the_vectors_and_turn_the_leg_as_a_lever_does(lean, push, upward, length):
    across, along = tenon_forces(lean, push, upward)
    angle = math.radians(lean)
    foot = length * np.array([math.sin(angle), -math.cos(angle)])  # seen from the tenon: outward, up
    force = np.array([push, upward])
    assert length * across == pytest.approx(foot[0] * force[1] - foot[1] * force[0], abs=1e-6)
    assert length * along == pytest.approx(-foot @ force, abs=1e-6)
    assert math.hypot(across, along) == pytest.approx(math.hypot(push, upward), abs=1e-9)


def test_forces_at_the_ends():
    assert tenon_forces(0.0, 100.0, 270.0) == (100.0, 270.0)
    assert tenon_forces(90.0, 100.0, 270.0) == pytest.approx((270.0, -100.0))
    swept = tenon_forces(np.array([0.0, 90.0]), 100.0, 0.0)
    assert np.array(swept) == pytest.approx(np.array([[100.0, 0.0], [0.0, -100.0]]))


# Grain


@steady
@given(st.floats(0.01, 1), st.floats(0, 90))
def test_grain_takes_nothing_straight_all_but_its_share_across_and_less_between(share, slope):
    assert strength_share_of_grain(0.0, share) == 1.0
    assert strength_share_of_grain(90.0, share) == pytest.approx(share)
    assert strength_share_of_grain(45.0, share) == pytest.approx(2 * share / (1 + share))
    assert share * (1 - 1e-12) <= strength_share_of_grain(slope, share) <= 1
    assert strength_share_of_grain(slope, share, 1.5) <= strength_share_of_grain(slope, share) * (1 + 1e-12)


# The screen

PLACES, MODULI = taper(22.0, 36.0, 437.0, 438)
TENON_AREA = math.pi * 25**2 / 4
PLACES, MODULI = np.append(PLACES, 437.0), np.append(MODULI, round_section_modulus(25.0))
AREAS = np.full_like(PLACES, TENON_AREA)
STOOL = Lean.from_rake_splay(8.0, 14.0)


@pytest.mark.parametrize(
    ("push", "upward", "bending", "within"),
    [
        # by hand: sin 15.97 = 0.2751, cos 15.97 = 0.9614, pi 25³ / 32 = 1534 mm³, arm 437 mm
        (100.0, 0.0, 437 * 96.14 / 1534, 0.01),
        (0.0, 270.0, 437 * 270 * 0.2751 / 1534, 0.01),
        (100.0, 270.0, 437 * (96.14 + 74.28) / 1534, 0.01),
        # in round figures, as the shop says it
        (100.0, 0.0, 27.0, 0.5),
        (100.0, 270.0, 48.0, 1.0),
    ],
)
def test_the_legs_of_the_stool_as_worked_by_hand(push, upward, bending, within):
    screen = leg_screen(STOOL, PLACES, MODULI, AREAS, 106.2, 0.16, push_n=push, upward_n=upward)
    assert screen.distance == 437.0  # the tenon: its 25 mm are less than the 33 at which the taper is weakest
    assert screen.bending_mpa == pytest.approx(bending, abs=within)
    assert screen.compression_mpa == pytest.approx((upward * 0.9614 - push * 0.2751) / 490.9, abs=1e-3)
    assert screen.strength_share == pytest.approx(screen.bending_mpa / 106.2)
    assert screen.low_strength_share == pytest.approx(screen.bending_mpa / (106.2 - 2 * 0.16 * 106.2))


def test_both_forces_together_are_the_sum_and_an_inward_push_takes_from_it():
    def bending(push, upward):
        return leg_screen(STOOL, PLACES, MODULI, AREAS, 100, 0.16, push_n=push, upward_n=upward).bending_mpa

    assert bending(100, 270) == pytest.approx(bending(100, 0) + bending(0, 270))
    assert bending(-20, 270) < bending(0, 270)
    assert bending(-100, 0) == pytest.approx(bending(100, 0))


def test_a_leg_in_inches_has_the_same_stress():
    inch = 25.4
    in_mm = leg_screen(STOOL, PLACES, MODULI, AREAS, 100, 0.16, push_n=80, upward_n=90)
    in_inches = leg_screen(
        STOOL, PLACES / inch, MODULI / inch**3, AREAS / inch**2, 100, 0.16, push_n=80, upward_n=90, mm_per_unit=inch
    )
    assert in_inches.distance * inch == pytest.approx(in_mm.distance)
    assert in_inches.bending_mpa == pytest.approx(in_mm.bending_mpa)
    assert in_inches.compression_mpa == pytest.approx(in_mm.compression_mpa)


def test_grain_that_runs_off_takes_from_the_strength():
    straight, off = (
        leg_screen(STOOL, PLACES, MODULI, AREAS, 100, 0.16, push_n=100, grain_slope_deg=slope) for slope in (0, 10)
    )
    assert off.bending_mpa == straight.bending_mpa
    assert off.strength_share == pytest.approx(straight.strength_share / strength_share_of_grain(10.0))
    assert off.low_strength_share > straight.low_strength_share


def test_a_plumb_leg_pushed_upward_is_pressed_and_not_bent():
    screen = leg_screen(Lean(0.0, 0.0), PLACES, MODULI, AREAS, 100, 0.16, upward_n=500)
    assert (screen.bending_mpa, screen.strength_share) == (0, 0)
    assert screen.compression_mpa == pytest.approx(500 / TENON_AREA)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"push_n": math.inf}, "push on the foot is inf"),
        ({"upward_n": math.nan}, "upward force on the foot is nan"),
        ({"bending_strength_mpa": 0}, "bending strength is 0; it must be more than 0: give the average"),
        ({"spread": 0.5}, "spread is 0.5; it must lie between 0 and 0.5"),
        ({"grain_slope_deg": 91}, "slope of the grain is 91; it must lie from 0 to 90"),
        ({"mm_per_unit": 0}, "number of mm in the unit is 0"),
        ({"area": AREAS[1:]}, "439 distances and 438 areas; there must be as many"),
        ({"area": 0 * AREAS}, "least area of a section is 0.0; it must be more than 0"),
    ],
)
def test_what_makes_no_sense_is_refused(change, said):
    sound = {
        "lean": STOOL, "distances": PLACES, "section_modulus": MODULI, "area": AREAS,
        "bending_strength_mpa": 100.0, "spread": 0.16, "push_n": 100.0,
    }  # fmt: skip
    with pytest.raises(DesignError, match=said):
        leg_screen(**{**sound, **change})


def test_stress_is_moment_over_modulus():
    assert bending_stress(np.array([10.0, 20.0]), 5.0) == pytest.approx([2.0, 4.0])
