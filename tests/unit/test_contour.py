"""Contours: true arcs told by their bulges, measured by circles through three points and by areas."""

from __future__ import annotations

import math
from itertools import pairwise, product

import numpy as np
import pytest
from pictures import drawing_of

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Contour, Stroke
from furnlib.draw.pen import Pen

BULGES = (-3.0, -1.0, -0.4, -0.01, 0.01, 0.2, 1.0, 2.5)
CHORDS = (((0.0, 0.0), (10.0, 0.0)), ((3.0, -2.0), (-40.0, 17.0)), ((5.0, 5.0), (5.0, 600.0)))


def middle_of_bow(start, end, bulge):
    """The arc's middle: half the chord times the bulge, to the right of the way where above 0.

    The height of an arc over half its chord is the tangent of a quarter of its angle (the angle at the
    circumference is half the one at the centre), which is what a bulge is.
    """
    (x0, y0), (x1, y1) = start, end
    return (x0 + x1) / 2 + (y1 - y0) / 2 * bulge, (y0 + y1) / 2 - (x1 - x0) / 2 * bulge


def circle_through(a, b, c):
    """Centre and radius by two perpendicular bisectors, solved as linear equations."""
    a, b, c = map(np.asarray, (a, b, c))
    centre = np.linalg.solve(2 * np.array([b - a, c - a]), [b @ b - a @ a, c @ c - a @ a])
    return centre, np.linalg.norm(a - centre)


@pytest.mark.parametrize(("chord", "bulge"), [*product(CHORDS, BULGES)])
def test_an_arc_runs_through_both_ends_and_bows_by_its_bulge(chord, bulge):
    start, end = chord
    middle = middle_of_bow(start, end, bulge)
    centre, radius = circle_through(start, middle, end)
    (arc,) = Contour(chord, (bulge,)).arcs()
    assert arc.centre == pytest.approx(tuple(centre), rel=1e-9, abs=1e-6)
    assert arc.radius == pytest.approx(radius, rel=1e-9)
    first, half, last = arc.points(arc.end_deg - arc.start_deg)
    assert half == pytest.approx(middle, rel=1e-9, abs=1e-6)
    assert (first, last) == (pytest.approx(start, abs=1e-6), pytest.approx(end, abs=1e-6))[:: 1 if bulge > 0 else -1]


@pytest.mark.parametrize(("chord", "bulge"), [*product(CHORDS, BULGES)])
@pytest.mark.parametrize("allowed", [0.001, 0.05])
def test_flattened_it_strays_from_its_arc_by_no_more_than_allowed(chord, bulge, allowed):
    points = np.array(Contour(chord, (bulge,)).flattened(allowed).points)
    centre, radius = circle_through(chord[0], middle_of_bow(*chord, bulge), chord[1])
    assert (tuple(points[0]), tuple(points[-1])) == chord  # to the last digit
    assert np.hypot(*(points - centre).T) == pytest.approx(radius, rel=1e-9)
    halves = (points[1:] + points[:-1]) / 2
    assert np.all(radius - np.hypot(*(halves - centre).T) <= allowed + 1e-9)
    # one way round all along, as far as the bulge says
    a, b = points[:-1] - centre, points[1:] - centre
    turns = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], np.sum(a * b, axis=1))
    assert np.all(np.sign(turns) == math.copysign(1, bulge))
    assert turns.sum() == pytest.approx(4 * math.atan(bulge), rel=1e-6)


@pytest.mark.parametrize("bulge", [1e-15, -1e-12, 1e-8, -1e-6])
def test_an_arc_that_is_all_but_straight_stays_where_it_is(bulge):
    points = np.array(Contour(((0.0, 3.0), (900.0, 3.0)), (bulge,)).flattened(0.01).points)
    assert np.abs(points[:, 1] - 3.0).max() <= 0.01


def test_a_closed_contour_comes_back_by_its_last_bulge():
    # a slot 60 between centres, 20 wide, with round ends
    slot = Contour(((0.0, -10.0), (60.0, -10.0), (60.0, 10.0), (0.0, 10.0)), (0.0, 1.0, 0.0, 1.0), "cut", closed=True)
    assert [arc and arc.centre for arc in slot.arcs()] == [None, (60.0, 0.0), None, (0.0, 0.0)]
    flat = slot.flattened(1e-5)
    assert (flat.kind, flat.closed) == ("cut", True)
    x, y = np.array(flat.points).T
    area = (x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
    assert area == pytest.approx(60 * 20 + math.pi * 100, rel=1e-5)
    assert (min(x), max(x)) == pytest.approx((-10, 70), abs=1e-4)


@pytest.mark.parametrize(("bulges", "closed"), [((), False), ((0.0, 0.0, 0.0), False), ((0.0, 0.0), True)])
def test_a_contour_without_one_bulge_for_each_stretch_is_refused(bulges, closed):
    wanted = 3 if closed else 2
    with pytest.raises(DesignError, match=rf"^{len(bulges)} bulges are given for 3 points; give {wanted}, one for"):
        Contour(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), bulges, closed=closed)


BOW = Contour(((-20.0, 0.0), (0.0, 0.0), (0.0, 30.0)), (0.0, 0.5), "cut")


@pytest.mark.parametrize("scale", [0.1, 1.0, 25.4])
def test_in_a_drawing_it_is_a_line_within_a_hundredth_of_a_mm_on_paper(scale):
    (mark,) = drawing_of(BOW, scale=scale).marks()
    assert isinstance(mark, Stroke)
    assert mark.kind == "cut"
    centre, radius = circle_through((0.0, 0.0), (7.5, 15.0), (0.0, 30.0))
    stray = [
        radius - math.dist(centre, ((x0 + x1) / 2, (y0 + y1) / 2)) for (x0, y0), (x1, y1) in pairwise(mark.points[1:])
    ]
    assert 0 < max(stray) * scale <= 0.01


def test_on_the_sheet_it_is_moved_and_scaled_whole():
    (placed,) = drawing_of(BOW, scale=0.5, box=(-30.0, -10.0, 40.0, 40.0)).placed_on_paper(100.0, 50.0)
    assert placed == Contour(((105.0, 55.0), (115.0, 55.0), (115.0, 70.0)), BOW.bulges, "cut")


def test_a_pen_draws_it_and_its_box_holds_the_whole_bow():
    pen = Pen(1.0, "mm")
    pen.contour(BOW.points, BOW.bulges, kind="cut")
    assert pen.items == [BOW]
    assert pen.reach() == pytest.approx((-20.0, 0.0, 7.5, 30.0), abs=0.01)
    assert pen.drawing("Bow").box == pytest.approx((-22.0, -2.0, 9.5, 32.0), abs=0.01)
