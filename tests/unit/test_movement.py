"""Movement across the grain: squares stretched by a matrix, lines drawn from green to dry, and what must hold."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.wood.movement import (
    change_by_coefficient,
    change_by_shrinkage,
    coefficient_at_ring,
    corner_error_deg,
    edge_stretch,
    face_stretch,
    movement,
    ring_stretches,
    stretch,
)
from furnlib.trade.wood.species import Species, species, species_names

WOODS = [wood for wood in map(species, species_names()) if wood.has("tangential_shrinkage")]
BOTH = [wood for wood in WOODS if wood.has("tangential_change")]
MAPLE = species("red maple")
CHANCE = np.random.default_rng(17)
PIECES = [*CHANCE.uniform((0.9, 0.9, 0), (1.1, 1.1, 90), (40, 3)), (0.95, 0.98, 0), (1.03, 1.01, 90), (1.02, 1.01, 45)]
inside, anywhere = st.floats(6, 14), st.floats(0, 22)  # a few woods move up to 22 only
angles = st.floats(0, 90)
few = settings(max_examples=25, deadline=None)


def line_from_green(shrinkage, moisture, saturation=30):
    """A size that is 1 green, and smaller in a straight line down to oven-dry."""
    return float(np.interp(moisture, [0, saturation], [1 - shrinkage / 100, 1]))


# The formulas


def test_a_square_of_wood_is_stretched_by_its_rings():
    for piece in PIECES:
        check_square(*map(float, piece))


def check_square(along, square, ring_angle):
    """The rings turned into the board's frame: its face lies along x, its edge along y."""
    turn = math.radians(ring_angle)
    frame = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    wood = frame.T @ np.diag([along, square]) @ frame
    face, edge = wood @ [1, 0], wood @ [0, 1]
    long, thick = np.linalg.norm(face), np.linalg.norm(edge)
    assert face_stretch(along, square, ring_angle) == pytest.approx(long, rel=1e-12)
    assert edge_stretch(along, square, ring_angle) == pytest.approx(thick, rel=1e-12)
    corner = math.degrees(math.acos(face @ edge / (long * thick)))
    # the corner between the two: from the face's far end round to the edge, its middle towards bark or pith
    assert corner_error_deg(along, square, ring_angle) == pytest.approx(corner - 90, abs=1e-9)


def test_which_corners_open_is_seen_on_a_square_with_its_rings_at_45():
    # the diamond by its diagonals: one along the rings, one square to them; at its ends the corners
    along, square = 1.04, 1.02
    at_pith_and_bark = 2 * math.degrees(math.atan(along / square))
    assert 90 + corner_error_deg(along, square, 45.0) == pytest.approx(at_pith_and_bark, rel=1e-12)


@few
@given(angles, st.floats(0.0005, 0.006), st.floats(0.0005, 0.006), st.floats(-8, 8))
def test_the_first_order_is_near_and_misses_by_the_second(ring_angle, tangential, radial, rise):
    exact = face_stretch(1 + tangential * rise, 1 + radial * rise, ring_angle)
    first = 1 + coefficient_at_ring(tangential, radial, ring_angle) * rise
    # never less than the first order, and more by half of ((C_T - C_R) rise sin f cos f)², near enough
    skew = (tangential - radial) * rise * math.sin(math.radians(ring_angle)) * math.cos(math.radians(ring_angle))
    assert -1e-15 <= exact - first <= skew**2 / 2 / min(first, 1) ** 2 + 1e-15
    corner = corner_error_deg(1 + tangential * rise, 1 + radial * rise, ring_angle)
    assert math.radians(corner) == pytest.approx(2 * skew, abs=abs(2 * skew) * 0.06 + 1e-12)


@few
@given(st.floats(1, 15), st.floats(0, 32), st.floats(0, 32), st.floats(0.1, 900), st.floats(20, 32))
def test_shrinkage_is_a_straight_line_of_the_green_size(shrinkage, first, last, width, saturation):
    first, last = min(first, saturation), min(last, saturation)
    green = width / line_from_green(shrinkage, first, saturation)
    drawn = green * line_from_green(shrinkage, last, saturation) - width
    assert change_by_shrinkage(width, shrinkage, first, last, saturation) == pytest.approx(drawn, abs=1e-12 * width)


@few
@given(st.floats(0.0005, 0.006), inside, inside)
def test_by_the_coefficient_there_and_back_misses_by_its_square(coefficient, first, last):
    grown = 1 + change_by_coefficient(1.0, coefficient, first, last)
    back = grown + change_by_coefficient(grown, coefficient, last, first)
    assert back - 1 == pytest.approx(-((coefficient * (last - first)) ** 2), abs=1e-14)


# Woods


@few
@given(st.sampled_from(WOODS), angles, anywhere)
def test_no_season_no_change(wood, ring_angle, moisture):
    assert stretch(wood, ring_angle, moisture, moisture) == pytest.approx(1, abs=1e-15)
    assert movement(300.0, wood, ring_angle, moisture, moisture).change == pytest.approx(0, abs=1e-12)


@few
@given(st.sampled_from(WOODS), angles, anywhere, anywhere)
def test_there_and_back_is_where_it_was_but_for_the_second_order(wood, ring_angle, first, last):
    there, back = stretch(wood, ring_angle, first, last), stretch(wood, ring_angle, last, first)
    # a coefficient leaves its square; a line between two directions turns on the way, and keeps at most half the
    # square of their difference; a half more for what is smaller still
    along, square = ring_stretches(wood, first, last)
    most = max(abs(along - 1), abs(square - 1)) ** 2
    assert abs(there * back - 1) <= most * 1.5 + 1e-14
    if not (6 <= first <= 14 and 6 <= last <= 14):
        assert stretch(wood, 0.0, first, last) * stretch(wood, 0.0, last, first) == pytest.approx(1, abs=1e-14)


@few
@given(st.sampled_from(WOODS), angles, inside, anywhere, st.floats(0.5, 500), st.floats(0.1, 9))
def test_wider_moves_more_in_proportion(wood, ring_angle, first, last, width, times):
    one, other = (movement(size, wood, ring_angle, first, last) for size in (width, width * times))
    for value in ("change", "least", "most"):
        assert vars(other)[value] == pytest.approx(times * vars(one)[value], abs=1e-12 * width)


def test_damper_is_larger_flat_sawn_most_and_oven_dry_as_printed():
    rings = np.linspace(0, 90, 10)
    for wood in WOODS:
        green = wood.fibre_saturation
        size = stretch(wood, 0.0, green, np.linspace(0, green, 31))
        assert np.all(np.diff(size) > 0), wood
        assert size[0] == pytest.approx(1 - wood.known("tangential_shrinkage") / 100, abs=1e-12)
        assert stretch(wood, 90.0, green, 0.0) == pytest.approx(1 - wood.known("radial_shrinkage") / 100, abs=1e-12)
        assert np.all(np.diff(stretch(wood, rings, 8.0, 12.0)) < 0), wood
        assert np.all(np.diff(stretch(wood, rings, 8.0, 4.0)) > 0), wood


@pytest.mark.parametrize(("first", "last"), [(6.0, 14.0), (14.0, 6.0), (8.0, 8.5)])
def test_inside_6_to_14_it_is_the_coefficient(first, last):
    for wood in BOTH:
        grown = 1 + wood.known("tangential_change") * (last - first)
        assert stretch(wood, 0.0, first, last) == pytest.approx(grown, rel=1e-14), wood


@pytest.mark.parametrize(("first", "last"), [(6.0, 14.01), (5.99, 8.0), (20.0, 8.0), (4.0, 3.0)])
def test_with_one_moisture_outside_it_is_the_shrinkage(first, last):
    for wood in BOTH:
        before, after = (
            line_from_green(wood.known("tangential_shrinkage"), moisture, wood.fibre_saturation)
            for moisture in (first, last)
        )
        assert stretch(wood, 0.0, first, last) == pytest.approx(after / before, rel=1e-13), wood


@pytest.mark.parametrize("name", ["red maple", "northern red oak", "commercial red oak"])
def test_a_year_in_one_call_is_its_hours(name):
    wood = species(name)
    hours = np.linspace(6, 14, 41) if name.startswith("commercial") else np.linspace(2, 18, 41)
    for now in (8.0, hours[::-1]):
        year = stretch(wood, 30.0, now, hours)
        starts = np.broadcast_to(now, hours.shape).tolist()
        one_by_one = [stretch(wood, 30.0, start, hour) for start, hour in zip(starts, hours.tolist(), strict=True)]
        assert year == pytest.approx(one_by_one, rel=1e-14)
        assert {type(value) for value in one_by_one} == {float}


# The answer with its spread


def test_the_law_is_said_and_the_other_one_stands_beside_it():
    within = movement(200.0, MAPLE, 0.0, 8.0, 12.0)
    assert within.law == "change coefficient"
    assert within.change == pytest.approx(200 * 0.00289 * 4)
    assert within.by_other_law == pytest.approx(change_by_shrinkage(200.0, 8.2, 8.0, 12.0))
    beyond = movement(200.0, MAPLE, 0.0, 8.0, 16.0)
    assert (beyond.law, beyond.by_other_law) == ("shrinkage law, outside 6 to 14 %", None)
    assert beyond.change == pytest.approx(change_by_shrinkage(200.0, 8.2, 8.0, 16.0))
    without = movement(200.0, species("northern red oak"), 90.0, 8.0, 12.0)
    assert (without.law, without.by_other_law) == ("shrinkage law, no change coefficient in the tables", None)
    assert movement(200.0, species("commercial red oak"), 0.0, 8.0, 12.0).by_other_law is None


@pytest.mark.parametrize("last", [12.0, 4.0])
def test_the_spread_is_a_fifth_to_either_side(last):
    moved = movement(np.array([80.0, 200.0]), MAPLE, 20.0, 8.0, last)
    assert moved.least == pytest.approx(0.8 * moved.change)
    assert moved.most == pytest.approx(1.2 * moved.change)
    assert moved.change.shape == (2,)


# What is refused


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (
            lambda: stretch(MAPLE, 0.0, 31.0, 12.0),
            "moisture content in % is 31.0; it must lie from 0 to 30: above 30 % the",
        ),
        (
            lambda: stretch(species("western redcedar"), 0.0, 12.0, 23.0),
            "is 23.0; it must lie from 0 to 22: above 22 %",
        ),
        (lambda: stretch(MAPLE, 0.0, 12.0, -1.0), "moisture content in % is -1.0"),
        (lambda: stretch(MAPLE, 0.0, 12.0, float("nan")), "moisture content in % is nan; it must be an ordinary"),
        (lambda: stretch(MAPLE, 91.0, 8.0, 12.0), "ring angle is 91.0; it must lie from 0 to 90: 0 is flat-sawn"),
        (lambda: movement(0.0, MAPLE, 0.0, 8.0, 12.0), "width is 0.0; it must be more than 0"),
        (
            lambda: stretch(species("commercial red oak"), 0.0, 8.0, 16.0),
            "^Outside 6 to 14 % the movement of commercial red oak is not known, for the tables have no shrinkage"
            " of it; name a wood that is like it and has one",
        ),
        (lambda: stretch(species("lodgepole pine"), 0.0, 8.0, 12.0), "tangential shrinkage of lodgepole pine is not"),
        (lambda: stretch(Species("own"), 0.0, 8.0, 12.0), "tangential shrinkage of own is not in the tables"),
    ],
)
def test_what_cannot_be_reckoned_is_refused(call, words):
    with pytest.raises(DesignError, match=words):
        call()


def test_half_a_pair_of_coefficients_is_none():
    half = dataclasses.replace(MAPLE, radial_change=None)
    assert movement(100.0, half, 0.0, 8.0, 12.0).law == "shrinkage law, no change coefficient in the tables"
