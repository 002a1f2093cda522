"""A racked opening laid out by its four corners."""

from __future__ import annotations

import math

import numpy as np
import pytest

from furnlib.base.guards import DesignError
from furnlib.trade.drawer.squareness import diagonal_allowed, side_taper, top_taper

OPENINGS = [(480.0, 203.0), (203.0, 480.0), (300.0, 300.0), (900.0, 83.0), (18.5, 6.25)]
LEANS = [0.01, 0.5, 3.0, 20.0, 70.0]


def racked(width, height, lean_deg):
    """Difference of the diagonals of a frame whose sides lean, and by how much they lean over their height."""
    side = height * np.array([math.sin(math.radians(lean_deg)), math.cos(math.radians(lean_deg))])
    corners = np.array([[0, 0], [width, 0], [width, 0] + side, side])
    long, short = np.linalg.norm(corners[2] - corners[0]), np.linalg.norm(corners[3] - corners[1])
    # stood on its side, the lower edge leans off square by this over the width
    across = corners[1] - corners[0]
    off = across @ side / np.linalg.norm(side)
    return long - short, side[0], off


@pytest.mark.parametrize(("width", "height"), OPENINGS)
@pytest.mark.parametrize("lean_deg", LEANS)
def test_a_frame_by_its_corners(width, height, lean_deg):
    difference, leans, off = racked(width, height, lean_deg)
    assert side_taper(difference, width, height) == pytest.approx(leans, rel=1e-8)
    assert top_taper(difference, width, height) == pytest.approx(off, rel=1e-8)
    assert diagonal_allowed(leans, width, height) == pytest.approx(difference, rel=1e-8)


def test_one_mm_on_a_wide_low_opening_by_hand():
    # the diagonal is 521.2: 521.2 / 960 = 0.543 beside the drawer, 521.2 / 406 = 1.284 over it
    assert side_taper(1.0, 480.0, 203.0) == pytest.approx(0.543, abs=0.0005)
    assert top_taper(1.0, 480.0, 203.0) == pytest.approx(1.284, abs=0.0005)


@pytest.mark.parametrize(("width", "height"), OPENINGS)
@pytest.mark.parametrize("taper", [0.05, 1.0, 5.0])
def test_there_and_back(width, height, taper):
    assert side_taper(diagonal_allowed(taper, width, height), width, height) == pytest.approx(taper, rel=1e-9)


@pytest.mark.parametrize(("width", "height"), OPENINGS)
def test_a_small_difference_is_the_bench_rule(width, height):
    d = 1e-4 * width
    assert side_taper(d, width, height) == pytest.approx(d * math.hypot(width, height) / (2 * width), rel=1e-6)
    assert side_taper(0.0, width, height) == 0


def test_arrays_go_in_and_come_out():
    tapers = side_taper(np.array([0.5, 1.0, 2.0]), 480.0, 203.0)
    assert tapers == pytest.approx([side_taper(d, 480.0, 203.0) for d in (0.5, 1.0, 2.0)])


@pytest.mark.parametrize("bad", [0, -1, float("nan"), float("inf")])
def test_sizes_are_above_0(bad):
    for sizes, name in (((bad, 480, 203), "taper"), ((1, bad, 203), "width"), ((1, 480, bad), "height")):
        with pytest.raises(DesignError, match=f"The {name}.* is"):
            diagonal_allowed(*sizes)
    with pytest.raises(DesignError, match="taper"):
        diagonal_allowed(203, 480, 203)
