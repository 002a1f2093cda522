"""Area of the lens that two turnings have in common.

Sources: quadrature by ``scipy.integrate.quad``; a grid of a million points, each asked whether both
rounds keep it; and the figure of two equal circles through each other's middles, whose area is
r² (2 pi / 3 - sqrt 3 / 2), its width sqrt 3 r and its edges of 120 degrees (from memory).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad

from furnlib.trade.leg.off_axis import lens

TABLE = [(20.0, 0.5), (20.0, 12.0), (20.0, 24.0), (20.0, 39.5), (0.75, 0.25)]


@pytest.mark.parametrize(("radius", "apart"), TABLE)
def test_area_by_quadrature(radius, apart):
    half, _ = quad(lambda x: 2 * math.sqrt(max(radius**2 - x**2, 0)), apart / 2, radius, epsabs=1e-12, epsrel=1e-12)
    assert lens(radius, apart).area == pytest.approx(2 * half, rel=1e-8)  # the root at the end is hard on quadrature


@pytest.mark.parametrize(("radius", "apart"), TABLE[1:3])
def test_area_by_counting(radius, apart):
    places = (np.arange(1000) + 0.5) / 1000 * 2 * radius - radius
    x, y = np.meshgrid(places, places)
    kept = ((x - apart / 2) ** 2 + y**2 <= radius**2) & ((x + apart / 2) ** 2 + y**2 <= radius**2)
    # the outline crosses about 4000 of the squares, and they are cut where chance has it
    assert lens(radius, apart).area == pytest.approx(kept.mean() * 4 * radius**2, rel=1e-3)


def test_two_circles_through_each_others_middles():
    made = lens(30.0, 30.0)
    assert made.area == pytest.approx(900 * (2 * math.pi / 3 - math.sqrt(3) / 2), rel=1e-12)
    assert made.width == pytest.approx(30 * math.sqrt(3), rel=1e-12)
    assert made.edge_angle_deg == pytest.approx(120, abs=1e-12)
