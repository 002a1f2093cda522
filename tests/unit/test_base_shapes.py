"""Outlines and lines against other methods: scipy's hulls, bounded least squares, areas by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import lsq_linear
from scipy.spatial import ConvexHull

from furnlib.base.shapes import convex_outline, inside_by, segments_apart

steady = settings(deadline=None, derandomize=True, max_examples=100)
number = st.integers(-40, 40)
point = st.tuples(number, number)
place = st.tuples(number, number, number)


def turns(outline):
    corners = np.array([*outline, *outline[:2]], dtype=float)
    steps = np.diff(corners, axis=0)
    return steps[:-1, 0] * steps[1:, 1] - steps[:-1, 1] * steps[1:, 0]


# The rubber band


@steady
@given(st.lists(point, min_size=3, max_size=12))
def test_the_band_is_the_hull_of_another_library(points):
    assume(np.linalg.matrix_rank(np.array(points) - points[0]) == 2)
    band = convex_outline(points)
    hull = ConvexHull(points)
    assert {tuple(points[i]) for i in hull.vertices} == set(band)
    assert (turns(band) > 0).all()  # counter-clockwise, no corner on a straight line
    assert len(set(band)) == len(band)


@pytest.mark.parametrize(
    ("points", "band"),
    [
        ([(3, 4)], ((3, 4),)),
        ([(3, 4), (3, 4), (3, 4)], ((3, 4),)),
        ([(5, 1), (0, 0)], ((0, 0), (5, 1))),
        ([(0, 0), (2, 2), (1, 1), (2, 2)], ((0, 0), (2, 2))),  # all in a line
        ([(0, 0), (4, 0), (4, 4), (0, 4), (2, 0), (2, 2)], ((0, 0), (4, 0), (4, 4), (0, 4))),
        ([(0, 4), (4, 0), (0, 0)], ((0, 0), (4, 0), (0, 4))),  # clockwise comes out counter-clockwise
    ],
)
def test_bands_by_hand(points, band):
    assert convex_outline(points) == band


# How far inside


@steady
@given(st.lists(point, min_size=3, max_size=10), point)
def test_inside_by_is_the_distance_to_the_nearest_line_of_the_hull(points, at):
    assume(np.linalg.matrix_rank(np.array(points) - points[0]) == 2)
    equations = ConvexHull(points).equations  # unit normals outward, and their offsets
    nearest = -(equations[:, :2] @ at + equations[:, 2]).max()
    assert inside_by(convex_outline(points), at) == pytest.approx(nearest, abs=1e-9)


SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
TRIANGLE = ((0.0, 0.0), (3.0, 0.0), (0.0, 4.0))  # its long side is 5, its height on it 12 / 5


@pytest.mark.parametrize(
    ("outline", "at", "inside"),
    [
        (SQUARE, (2, 2), 2),
        (SQUARE, (1, 2), 1),
        (SQUARE, (0, 2), 0),
        (SQUARE, (4, 4), 0),
        (SQUARE, (-3, 2), -3),
        (SQUARE, (7, 6), -3),  # past a corner: from the further of the two lines
        (TRIANGLE, (0, 0), 0),
        (TRIANGLE, (3, 4), -2.4),
        (TRIANGLE, (1, 1), 1),  # 1 from both short sides; (12 - 4 - 3) / 5 = 1 from the long one too
        ((*SQUARE[:2], SQUARE[1], *SQUARE[2:]), (1, 2), 1),  # a corner given twice
    ],
)
def test_inside_by_hand(outline, at, inside):
    assert inside_by(outline, at) == pytest.approx(inside, abs=1e-12)


@steady
@given(st.lists(point, min_size=3, max_size=8), point, st.floats(-180, 180), st.floats(0.1, 50), point)
def test_inside_by_moves_turns_and_grows_with_the_outline(points, at, angle, factor, step):
    assume(np.linalg.matrix_rank(np.array(points) - points[0]) == 2)
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))

    def moved(x, y):
        return (factor * (c * x - s * y) + step[0], factor * (s * x + c * y) + step[1])

    band = convex_outline(points)
    assert inside_by([moved(*corner) for corner in band], moved(*at)) == pytest.approx(
        factor * inside_by(band, at), abs=1e-9 * factor * 100
    )


# How near two lines come


@steady
@given(place, place, place, place)
def test_the_least_distance_by_bounded_least_squares(a, a_end, b, b_end):
    a, a_end, b, b_end = (np.array(end, dtype=float) for end in (a, a_end, b, b_end))
    assume((a != a_end).any())
    assume((b != b_end).any())
    fit = lsq_linear(np.column_stack([a_end - a, b - b_end]), b - a, bounds=(0, 1), tol=1e-14)
    nearest = np.linalg.norm(a + fit.x[0] * (a_end - a) - b - fit.x[1] * (b_end - b))
    found = segments_apart((a, a_end), (b, b_end))
    assert found == pytest.approx(nearest, abs=1e-5)
    assert segments_apart((b, b_end), (a_end, a)) == pytest.approx(found, abs=1e-9)


@pytest.mark.parametrize(
    ("first", "second", "apart"),
    [
        (((0, 0, 0), (4, 0, 0)), ((2, -1, 0), (2, 1, 0)), 0),  # they cross
        (((0, 0, 0), (4, 0, 0)), ((2, -1, 3), (2, 1, 3)), 3),  # one above the other
        (((0, 0, 0), (4, 0, 0)), ((0, 2, 0), (4, 2, 0)), 2),  # side by side
        (((0, 0, 0), (4, 0, 0)), ((9, 2, 0), (7, 2, 0)), math.hypot(3, 2)),  # the same way, further on
        (((0, 0, 0), (4, 0, 0)), ((6, 0, 0), (9, 0, 0)), 2),  # in one line
        (((0, 0, 0), (4, 0, 0)), ((1, 0, 0), (2, 0, 0)), 0),  # one within the other
        (((0, 0, 0), (4, 0, 0)), ((5, 1, 0), (7, 3, 0)), math.sqrt(2)),  # end to end
        (((0, 0, 0), (4, 0, 0)), ((2, 3, 0), (2, 8, 0)), 3),  # an end to a middle
        # two that converge: at the top 10 and -10 apart from the middle, at the bottom 40
        (((-40, 0, 0), (-10, 0, 30)), ((40, 0, 0), (10, 0, 30)), 20),
    ],
)
def test_lines_by_hand(first, second, apart):
    assert segments_apart(first, second) == pytest.approx(apart, abs=1e-12)
    assert segments_apart(second, first[::-1]) == pytest.approx(apart, abs=1e-12)
