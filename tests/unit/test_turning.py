"""A turned leg's outline, section, contents and marks, held against circles, points and quadrature."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from chance import by_chance
from hypothesis import strategies as st
from scipy.integrate import quad

from furnlib.trade.leg.elements import (
    SHAPES,
    Element,
    bead,
    cove,
    cylinder,
    fillet,
    lambs_tongue,
    ogee,
    shoulder,
    square_part,
    taper,
    tenon,
)
from furnlib.trade.leg.turning import Profile, profile_through

TABLE = Profile(
    (
        tenon(30.0, 25.0),
        square_part(100.0, 40.0),
        lambs_tongue(30.0, 40.0, 30.0),
        fillet(4.0, 28.0),
        bead(10.0, 28.0, 28.0, 5.0),
        cove(20.0, 30.0, 25.0, 4.0),
        ogee(24.0, 25.0, 35.0, 2.0),
        taper(200.0, 35.0, 20.0),
        square_part(20.0, 35.0),
        shoulder(35.0, 22.0, 12.0),
        cylinder(15.0, 22.0),
    )
)


@st.composite
def rounds(draw, diameter=None):
    """One round element that can be turned, from a diameter where it is given."""
    size = st.floats(15.0, 60.0)
    start, end, length = diameter or draw(size), draw(size), draw(st.floats(5.0, 80.0))
    chord, climb = math.hypot(length, (end - start) / 2), abs(end - start) / 2
    part = draw(st.floats(0.0001, 0.999))
    limit = part * chord / 2 * length / (chord + climb)
    deep = min(limit, 0.4 * min(start, end) * part)
    make = draw(st.sampled_from([cylinder, taper, bead, cove, ogee]))
    if make is cylinder:
        return cylinder(length, start)
    if make is taper:
        return taper(length, start, end)
    rise = {bead: limit, cove: deep, ogee: draw(st.sampled_from([1, -1])) * deep / 2}[make]
    return make(length, start, end, rise)


@st.composite
def chains(draw):
    """A square with a shoulder or a lamb's tongue, and rounds below it."""
    side = draw(st.floats(30.0, 60.0))
    end = draw(st.floats(15.0, side))
    flat = draw(st.booleans())
    neck = shoulder(side, end, draw(st.floats(1.0, 30.0))) if flat else lambs_tongue(side, side, end)
    return Profile((square_part(draw(st.floats(1.0, 90.0)), side), neck, *draw(st.lists(rounds(), max_size=4))))


def by_slices(leg, power=0):
    """Volume (or its first moment) of the sections, summed between the places where the formula changes."""
    kinks = [x for bend in leg.bends for x in (bend.start[0], bend.end[0])]
    places = sorted({*kinks, *leg.joints})
    inside = [(one, other) for one, other in pairwise(places) if other - one > 1e-9]
    return sum(
        quad(lambda x: x**power * leg.section_area(x), one, other * (1 - 1e-14), epsabs=1e-9, epsrel=1e-9, limit=100)[0]
        for one, other in inside
    )


# The outline


def test_all_shapes_are_named_once():
    assert len(set(SHAPES)) == len(SHAPES) == 11
    assert {element.shape for element in TABLE.elements} | {"curve"} == set(SHAPES)


@by_chance(rounds(), many=40)
def test_an_element_begins_and_ends_where_it_says(element):
    leg = Profile((element,))
    assert leg.diameter_at(0) == pytest.approx(element.start_diameter, rel=1e-12)
    assert leg.diameter_at(element.length) == pytest.approx(element.end_diameter, rel=1e-9)


@by_chance(rounds(), many=40)
def test_an_arc_is_a_circle_through_both_ends_whose_middle_stands_the_rise_off_the_chord(element):
    """Three points make a circle: every other point of the outline is as far from its centre."""
    if element.shape not in {"bead", "cove"}:
        return
    start, end = np.array([0, element.start_diameter / 2]), np.array([element.length, element.end_diameter / 2])
    along = (end - start) / np.linalg.norm(end - start)
    middle = (start + end) / 2 + np.array([-along[1], along[0]]) * element.rise * (1 if element.shape == "bead" else -1)
    centre = np.linalg.solve(
        2 * np.array([middle - start, end - start]), [middle @ middle - start @ start, end @ end - start @ start]
    )
    reach = np.linalg.norm(start - centre)
    x = np.linspace(0, element.length, 41)
    found = np.column_stack([x, Profile((element,)).radius_at(x)])
    within = 1e-11 * (1 + reach / element.length) * reach
    assert np.linalg.norm(found - centre, axis=1) == pytest.approx(np.full(41, reach), abs=within)
    side = 1 if element.shape == "bead" else -1
    chord = start[1] + (end[1] - start[1]) * x / element.length
    assert (side * (found[:, 1] - chord) >= -1e-9).all()


def test_a_very_flat_arc_is_a_parabola_and_loses_no_digits():
    x = np.linspace(0, 100, 21)
    for rise in (1e-3, 1e-6, 1e-9):
        off = Profile((bead(100.0, 30.0, 30.0, rise),)).radius_at(x) - 15
        assert off == pytest.approx(4 * rise * x * (100 - x) / 100**2, rel=1e-7, abs=1e-14)


def test_a_half_round_bead_is_half_a_circle():
    leg = Profile((bead(10.0, 30.0, 30.0, 5.0),))
    x = np.linspace(0, 10, 101)
    assert leg.radius_at(x) == pytest.approx(15 + np.sqrt(25 - (x - 5) ** 2), abs=1e-12)
    ball, below = 4 / 3 * math.pi * 5**3, math.pi * 15**2 * 10
    assert leg.volume == pytest.approx(below + 2 * math.pi * 15 * math.pi * 25 / 2 + ball, rel=1e-14)
    assert leg.lateral_area == pytest.approx(2 * math.pi * 15 * math.pi * 5 + 4 * math.pi * 25, rel=1e-14)
    assert leg.bends[0].bulge == pytest.approx(1.0)


@by_chance(st.floats(15, 60), st.floats(15, 60), st.floats(0.01, 0.99), st.sampled_from([1, -1]), many=40)
def test_an_ogee_is_smooth_and_the_same_turned_half_round_about_its_middle(start, end, part, side):
    rise = side * part * min(start, end) / 8
    leg = Profile((ogee(80.0, start, end, rise),))
    t = np.linspace(0, 40, 30)
    assert leg.radius_at(40 + t) + leg.radius_at(40 - t) == pytest.approx(np.full(30, (start + end) / 2), abs=1e-11)
    first, second = leg.bends
    assert first.bulge == pytest.approx(-second.bulge)
    assert math.copysign(1, first.bulge) == side
    step = 1e-4
    before, middle, after = leg.radius_at(np.array([40 - step, 40, 40 + step]))
    assert after - middle == pytest.approx(middle - before, abs=1e-12)


def test_a_lambs_tongue_leaves_the_square_and_meets_the_round_along_the_axis():
    element = lambs_tongue(30.0, 40.0, 30.0)
    assert element.crowns == ()
    mirrored = Profile((cylinder(5.0, 30.0), element.mirrored(), square_part(5.0, 40.0)))
    assert mirrored.radius_at(5.01) == pytest.approx(15, abs=1e-4)
    assert element.start_diameter / 2 - element.pieces[0].start == 0
    one, other = element.pieces
    assert one.middle == pytest.approx(0, abs=1e-9)
    assert other.middle == pytest.approx(15, abs=1e-9)


def test_a_joint_belongs_to_the_element_that_starts_there():
    leg = Profile((cylinder(10.0, 20.0), shoulder(60.0, 20.0), square_part(5.0, 24.0), taper(10.0, 20.0, 10.0)))
    assert leg.joints == (0.0, 10.0, 10.0, 15.0, 25.0)
    assert leg.radius_at(np.array([0.0, 9.999, 10.0, 12.0, 15.0, 25.0])).tolist() == [10, 10, 12, 12, 10, 5]
    assert leg.radius_at(10) == 12
    assert type(leg.radius_at(10)) is type(leg.section_area(3)) is type(leg.section_modulus(3)) is float


# Bends, crowns, marks


@by_chance(chains(), many=40)
def test_points_of_the_bends_lie_on_the_outline(leg):
    for bend, after in pairwise(leg.bends):
        assert bend.end == pytest.approx(after.start, abs=1e-9)
    assert leg.bends[0].start[0] == 0
    assert leg.bends[-1].end[0] == pytest.approx(leg.length)
    for bend in leg.bends:
        if bend.start[0] == bend.end[0]:
            assert bend.bulge == 0
            continue
        x, radius = points_of(bend)
        inside = (x > bend.start[0] + 1e-9) & (x < bend.end[0] - 1e-9)
        assert leg.radius_at(x[inside]) == pytest.approx(radius[inside], abs=1e-7)


def points_of(bend):
    """Points of an arc from its bulge alone, by its centre; a line's where it has none."""
    one, other = np.array(bend.start), np.array(bend.end)
    share = np.linspace(0, 1, 21)[:, np.newaxis]
    if abs(bend.bulge) < 1e-6:
        return (one + share * (other - one)).T
    chord = np.linalg.norm(other - one)
    out = np.array([-(other - one)[1], (other - one)[0]]) / chord
    rise = bend.bulge * chord / 2
    reach = (chord**2 / 4 + rise**2) / (2 * rise)
    centre = (one + other) / 2 + (rise - reach) * out
    first, last = (math.atan2(*(point - centre)[::-1]) for point in (one, other))
    turn = (
        (last - first + math.pi) % (2 * math.pi) - math.pi
        if abs(bend.bulge) < 1 - 1e-9
        else -math.copysign(math.pi, bend.bulge)
    )
    angle = first + share[:, 0] * turn
    return centre[0] + abs(reach) * np.cos(angle), centre[1] + abs(reach) * np.sin(angle)


@by_chance(st.lists(rounds(), min_size=1, max_size=4), many=40)
def test_the_largest_and_the_thinnest_are_found_between_stations_too(elements):
    leg = Profile(tuple(elements))
    x = leg.sample(4001)
    sizes = leg.diameter_at(x)
    ends = [size for element in elements for size in (element.start_diameter, element.end_diameter)]
    assert leg.largest_diameter == leg.swing == pytest.approx(max(*sizes, *ends), rel=1e-3)
    assert leg.largest_diameter >= max(*sizes, *ends) * (1 - 1e-12)
    x0, x1 = leg.length * 0.2, leg.length * 0.7
    place, thinnest = leg.least_diameter_between(x0, x1)
    between = sizes[(x >= x0) & (x <= x1)]
    assert x0 <= place <= x1
    assert thinnest <= between.min() * (1 + 1e-12)
    assert 0.7 * min(15.0, thinnest) <= thinnest <= leg.least_diameter_between(x0, x1 - 1)[1] + 1e-12
    for x_crown, diameter in leg.crowns:
        assert leg.diameter_at(x_crown) == pytest.approx(diameter, rel=1e-9)
        near = leg.diameter_at(np.clip([x_crown - 0.01, x_crown + 0.01], 0, leg.length))
        assert leg.diameter_at(x_crown) == pytest.approx(near, abs=0.02)


def test_a_square_counts_across_corners_for_the_lathe_and_by_its_side_for_its_thinnest():
    assert TABLE.swing == pytest.approx(math.hypot(40, 40))
    assert (TABLE.largest_diameter, TABLE.largest_at) == (38.0, 169.0)
    assert TABLE.least_diameter_between(40.0, 120.0) == (40.0, 40.0)
    assert TABLE.least_diameter_between(0.0, 60.0) == (0.0, 25.0)
    assert TABLE.least_diameter_between(400.0, 430.0)[1] == pytest.approx(20.0, abs=1.5)
    only = Profile((square_part(50.0, 30.0),))
    assert (only.largest_diameter, only.largest_at) == (0.0, 0.0)
    assert only.swing == pytest.approx(30 * math.sqrt(2))
    assert (only.volume, only.centroid, only.lateral_area, only.total_area) == (
        45000.0,
        25.0,
        6000.0,
        pytest.approx(7800.0),
    )


def test_the_marks_of_a_stick():
    leg = Profile((square_part(50.0, 40.0), shoulder(40.0, 30.0), bead(10.0, 30.0, 30.0, 5.0), cylinder(20.0, 30.0)))
    told = [(mark.distance, mark.diameter, mark.what) for mark in leg.stations]
    assert told == [
        (0.0, 40.0, "square begins"),
        (50.0, 40.0, "square ends"),
        (50.0, 30.0, "bead begins"),
        (55.0, 40.0, "crown of the bead"),
        (60.0, 30.0, "cylinder begins"),
        (80.0, 30.0, "cylinder ends"),
    ]
    marks = TABLE.stations
    assert [mark.distance for mark in marks] == sorted(mark.distance for mark in marks)
    assert set(TABLE.joints) <= {mark.distance for mark in marks}
    assert {(mark.distance, mark.diameter) for mark in marks if "crown" in mark.what} == set(TABLE.crowns)


def test_how_it_goes_on_at_the_foot():
    step = 1e-6
    for element in (taper(100, 30, 20), bead(20, 30, 20, 2), cove(20, 20, 30, 2), ogee(30, 20, 30, 1), cylinder(5, 9)):
        leg = Profile((element,))
        slope = (leg.diameter_at(leg.length) - leg.diameter_at(leg.length - step)) / step
        assert leg.end_taper == pytest.approx(slope, abs=1e-5)
    assert Profile((square_part(10, 30),)).end_taper == 0
    measured = profile_through([0, 10, 25, 60], [30, 26, 24, 15])
    slope = (measured.diameter_at(60) - measured.diameter_at(60 - step)) / step
    assert measured.end_taper == pytest.approx(slope, abs=1e-5)


# Contents, surface and section: see also tests/validation/test_revolved_outline.py


@by_chance(chains(), many=40)
def test_volume_and_centroid_are_those_of_the_slices(leg):
    assert leg.volume == pytest.approx(by_slices(leg), rel=1e-7)
    assert leg.centroid == pytest.approx(by_slices(leg, 1) / leg.volume, rel=1e-7)


@by_chance(chains(), st.floats(0.2, 30), many=40)
def test_a_leg_grown_evenly_grows_by_cubes_and_squares(leg, factor):
    grown = leg.scaled(factor)
    assert grown.volume == pytest.approx(leg.volume * factor**3, rel=1e-9)
    for name in ("lateral_area", "total_area"):
        assert getattr(grown, name) == pytest.approx(getattr(leg, name) * factor**2, rel=1e-9)
    for name in ("centroid", "length", "swing", "largest_at"):
        assert getattr(grown, name) == pytest.approx(getattr(leg, name) * factor, rel=1e-9)
    assert grown.end_taper == pytest.approx(leg.end_taper, rel=1e-6, abs=1e-9)


@by_chance(chains(), many=40)
def test_a_leg_upside_down_is_the_same_wood(leg):
    turned = leg.mirrored()
    assert turned.volume == pytest.approx(leg.volume, rel=1e-9)
    assert turned.centroid == pytest.approx(leg.length - leg.centroid, rel=1e-9)
    assert turned.lateral_area == pytest.approx(leg.lateral_area, rel=1e-9)
    assert turned.total_area == pytest.approx(leg.total_area, rel=1e-9)
    x = np.linspace(0.013, 0.987, 50) * leg.length
    assert turned.radius_at(leg.length - x) == pytest.approx(leg.radius_at(x), rel=1e-6)
    assert turned.mirrored().elements == leg.elements


@by_chance(chains(), st.integers(0, 9), many=40)
def test_an_element_without_length_adds_nothing(leg, place):
    x = leg.sample(50)
    for nothing in (cylinder(0.0, 99.0), shoulder(20.0, 10.0), bead(0.0, 20.0, 20.0, 3.0)):
        more = Profile((*leg.elements[:place], nothing, *leg.elements[place:]))
        assert (more.volume, more.centroid, more.total_area) == (leg.volume, leg.centroid, leg.total_area)
        assert (more.swing, more.bends, more.stations) == (leg.swing, leg.bends, leg.stations)
        assert (more.radius_at(x) == leg.radius_at(x)).all()


def test_flat_steps_and_end_faces_are_in_the_total_area():
    leg = Profile((square_part(50.0, 40.0), cylinder(30.0, 20.0)))
    lateral = 4 * 40 * 50 + math.pi * 20 * 30
    assert leg.lateral_area == pytest.approx(lateral, rel=1e-14)
    assert leg.total_area == pytest.approx(lateral + 2 * 40**2, rel=1e-14)  # the step and the foot are one more square


def test_the_section_is_round_square_or_a_circle_cut_by_the_square():
    assert TABLE.section_area(10.0) == pytest.approx(math.pi * 25**2 / 4)
    assert TABLE.section_modulus(10.0) == pytest.approx(math.pi * 25**3 / 32)
    assert TABLE.section_area(60.0) == pytest.approx(1600)
    assert TABLE.second_moment(60.0) == pytest.approx(40**4 / 12)
    assert TABLE.section_modulus(60.0) == pytest.approx(40**3 / 6)
    leg = Profile((square_part(5.0, 40.0), shoulder(40.0, 30.0, 10.0), cylinder(5.0, 30.0)))
    y, step = np.linspace(-20, 20, 200_001, retstep=True)
    for x in (6.0, 8.0, 9.5):
        radius = 20 * math.sqrt(2) + (15 - 20 * math.sqrt(2)) * (x - 5) / 10
        wide = 2 * np.minimum(np.sqrt(np.maximum(radius**2 - y * y, 0)), 20)
        assert leg.section_area(x) == pytest.approx(np.trapezoid(wide, dx=step), rel=1e-7)
        assert leg.second_moment(x) == pytest.approx(np.trapezoid(wide * y * y, dx=step), rel=1e-7)
        assert leg.section_modulus(x) == pytest.approx(leg.second_moment(x) / min(radius, 20), rel=1e-12)


# Measured outlines


@by_chance(
    st.lists(st.tuples(st.floats(1, 90), st.floats(10, 60)), min_size=2, max_size=9), st.floats(-50, 50), many=40
)
def test_a_measured_outline_passes_through_its_stations_and_stays_between_neighbours(steps, first):
    along = first + np.cumsum([step for step, _ in steps])
    sizes = np.array([size for _, size in steps])
    leg = profile_through(along, sizes)
    assert leg.length == pytest.approx(along[-1] - along[0])
    assert leg.diameter_at(np.clip(along - along[0], 0, leg.length)) == pytest.approx(sizes, rel=1e-9)
    for (x0, d0), (x1, d1) in pairwise(zip(along - along[0], sizes, strict=True)):
        between = leg.diameter_at(np.linspace(x0, x1, 30)[1:-1])
        assert between.min() >= min(d0, d1) - 1e-9
        assert between.max() <= max(d0, d1) + 1e-9
    assert leg.volume == pytest.approx(by_slices(leg), rel=1e-8)


def test_two_stations_make_a_taper_and_a_slope_runs_through():
    assert profile_through([0, 100], [30, 20]).volume == pytest.approx(Profile((taper(100, 30, 20),)).volume, rel=1e-12)
    leg = profile_through([0, 50, 80, 200], [30, 26, 22, 20])
    for x in (50, 80):
        before, at, after = leg.radius_at(np.array([x - 1e-5, x, x + 1e-5]))
        assert after - at == pytest.approx(at - before, abs=1e-10)
    assert all(isinstance(element, Element) for element in leg.elements)
    assert len(leg.bends) == 3 * 24
    assert all(leg.radius_at(min(bend.end[0], leg.length)) == pytest.approx(bend.end[1]) for bend in leg.bends)
