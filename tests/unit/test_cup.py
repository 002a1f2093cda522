"""Round rings: the end grain moved point by point round the pith, and a face cut into narrow strips."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad

from furnlib.base.guards import DesignError
from furnlib.trade.wood.cup import change_over_rings, cup, cup_over_rings
from furnlib.trade.wood.movement import face_stretch, ring_stretches
from furnlib.trade.wood.species import species

BOARDS = [(200.0, 60.0), (200.0, 150.0), (80.0, 10.0), (300.0, 400.0), (10.0, 900.0)]
STRETCHES = [(0.97, 0.985), (1.02, 1.01), (0.99, 0.995), (1.0, 1.0), (1.01, 1.01)]


def moved(points, along, square):
    """Points about the pith, complex, the imaginary part upward: radii stretch by one, rings by the other."""
    up = points / 1j
    return 1j * square * np.abs(up) * np.exp(1j * np.angle(up) * along / square)


@pytest.mark.parametrize(("along", "square"), STRETCHES)
def test_moving_round_the_pith_is_a_stretch_by_the_rings_everywhere(along, square):
    step = 1e-6
    for point in (3 + 40j, -30 + 12j, 50 + 1j):
        outward = point / abs(point)
        for direction, expected in ((outward, square), (1j * outward, along)):
            ends = moved(np.array([point - step * direction, point + step * direction]), along, square)
            assert abs(ends[1] - ends[0]) / (2 * step) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(("width", "pith"), BOARDS)
@pytest.mark.parametrize(("along", "square"), STRETCHES)
def test_the_cup_is_where_the_moved_middle_stands_over_the_moved_corners(width, pith, along, square):
    left, middle, right = moved(np.array([-width / 2, 0, width / 2]) + 1j * pith, along, square)
    assert left.imag == pytest.approx(right.imag, abs=1e-9)
    expected = middle.imag - left.imag
    assert cup_over_rings(width, pith, along, square) == pytest.approx(expected, abs=1e-9)
    assert cup(width, pith, along, square).hollow == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(("width", "pith"), BOARDS)
@pytest.mark.parametrize("offset", [0.0, 25.0, -120.0])
@pytest.mark.parametrize("rise", [-5.0, 4.0])
def test_the_change_is_that_of_narrow_strips_each_with_its_own_ring_angle(width, pith, offset, rise):
    tangential, radial = 0.0029, 0.0014
    along, square = 1 + tangential * rise, 1 + radial * rise
    strips = quad(
        lambda x: face_stretch(along, square, math.degrees(math.atan(abs(x) / pith))) - 1,
        -width / 2 - offset,
        width / 2 - offset,
        points=[0] if abs(offset) < width / 2 else None,
    )[0]
    found = change_over_rings(width, pith, offset, along, square)
    # the formula is of the first order; a strip's own second order is ((a - b) sin f cos f)² / 2 at most
    assert found == pytest.approx(strips, abs=width * (along - square) ** 2 / 8 * 1.05)
    assert change_over_rings(width, pith, -offset, along, square) == pytest.approx(found, rel=1e-12)


@pytest.mark.parametrize(("along", "square"), STRETCHES)
def test_the_change_is_near_that_between_the_moved_corners(along, square):
    made = cup(200.0, 150.0, along, square)
    left, right = moved(np.array([-100, 100]) + 150j, along, square)
    assert made.change == pytest.approx(abs(right - left) - 200, abs=200 * (along - square) ** 2 + 1e-9)


def test_far_from_the_pith_a_board_is_flat_sawn_and_at_the_pith_quarter_sawn():
    far, near = (cup(100.0, pith, 0.97, 0.985) for pith in (1e6, 1e-6))
    assert far.change == pytest.approx(-3.0, rel=1e-6)
    assert far.hollow == pytest.approx(0, abs=1e-4)
    assert near.change == pytest.approx(-1.5, rel=1e-6)


def test_a_narrow_board_cups_by_the_square_of_its_width():
    # (b² - a²)/b w² / (8 h), from the series of the cosine
    along, square, pith = 0.97, 0.985, 100.0
    for width in (1.0, 4.0):
        slight = (along**2 - square**2) / square * width**2 / (8 * pith)
        assert cup_over_rings(width, pith, along, square) == pytest.approx(slight, rel=1e-3)


def test_a_drying_board_goes_hollow_on_the_side_of_the_bark():
    wood = species("red maple")
    dried, damp = (cup(200.0, 60.0, *ring_stretches(wood, 9.0, last)) for last in (6.0, 12.0))
    assert dried.hollow < 0 < damp.hollow
    assert dried.change < 0 < damp.change
    still = cup(200.0, 60.0, *ring_stretches(wood, 9.0, 9.0))
    assert (still.change, still.hollow) == pytest.approx((0, 0), abs=1e-12)


def test_sizes_keep_their_unit_and_arrays_go_through():
    one = cup(200.0, 60.0, 0.97, 0.985)
    inch = cup(200.0 / 25.4, 60.0 / 25.4, 0.97, 0.985)
    assert (inch.change * 25.4, inch.hollow * 25.4) == pytest.approx((one.change, one.hollow))
    many = cup(np.array([100.0, 200.0]), 60.0, 0.97, 0.985)
    assert many.change[1] == pytest.approx(one.change)
    assert many.hollow[1] == pytest.approx(one.hollow)
    assert type(one.hollow) is type(one.change) is float


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        ((0.0, 60.0, 0.97, 0.98), "width is 0.0; it must be more than 0"),
        ((200.0, 0.0, 0.97, 0.98), "distance of the pith is 0.0; .*draw the rings round to find the pith"),
        (
            (200.0, 60.0, 0.003, 0.98),
            "stretch is 0.003; it must lie from 0.8 to 1.25: give size after over size before",
        ),
        ((200.0, 60.0, 0.97, float("nan")), "stretch is nan"),
    ],
)
def test_what_is_no_board_is_refused(sizes, words):
    with pytest.raises(DesignError, match=words):
        cup(*sizes)
