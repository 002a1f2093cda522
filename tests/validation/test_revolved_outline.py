"""Volume, centroid and surface of turned legs beside two general-purpose libraries.

Source: no table. trimesh revolves the outline, sampled finely from circles through three points, into a
closed mesh and measures it; scipy adds up the slices and rings of the same outline. From furnlib come only
the three results and, for shouldered squares, nothing else: their witness is a mesh of the circle's sections
cut by the square.

Tolerance: a circle of 240 sides has 1.2e-4 less area than the circle and 3e-5 less way round, and 150 points
on each arc leave half as much off at most: 2e-4 for the meshes. 1e-10 for slices by quadrature, 1e-7 for
rings between 20,000 chords.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import trimesh
from scipy.integrate import quad

from furnlib.trade.leg.elements import bead, cove, cylinder, lambs_tongue, ogee, shoulder, square_part, taper
from furnlib.trade.leg.turning import Profile

SIDES, POINTS = 240, 150
MESH = 2e-4


def circle(one, other, rise):
    """Centre, radius and side of the circle through two points whose middle stands `rise` off the chord."""
    one, other = np.array(one, float), np.array(other, float)
    chord = np.linalg.norm(other - one)
    out = np.array([-(other - one)[1], (other - one)[0]]) / chord
    reach = (chord**2 / 4 + rise**2) / (2 * abs(rise))
    return (one + other) / 2 + out * (rise - math.copysign(reach, rise)), reach, math.copysign(1, rise)


def parts(shapes):
    """Each stretch of the outline as written here: x from, x to, radius as a function of x, and points for a mesh."""
    x, found = 0.0, []
    for kind, length, d0, d1, rise in shapes:
        one, other = (x, d0 / 2), (x + length, d1 / 2)
        middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
        arcs = {"ogee": [(one, middle, rise), (middle, other, -rise)], "cove": [(one, other, -rise)]}
        for a, b, off in arcs.get(kind, [(one, other, rise)]):
            if off:
                centre, reach, side = circle(a, b, off)

                def radius(at, centre=centre, reach=reach, side=side):
                    return centre[1] + side * np.sqrt(np.maximum(reach**2 - (at - centre[0]) ** 2, 0))
            else:

                def radius(at, a=a, b=b):
                    return a[1] + (b[1] - a[1]) * (at - a[0]) / (b[0] - a[0])

            found.append((a[0], b[0], radius, POINTS if off else 2))
        x += length
    return found


MAKERS = {"bead": bead, "cove": cove, "ogee": ogee}
LEGS = {
    "a tapered leg": [("taper", 400, 36, 22, 0)],
    "half-round bead": [("bead", 20, 30, 30, 10)],
    "bead between two diameters": [("bead", 20, 24, 40, 3)],
    "cove between two diameters": [("cove", 30, 44, 26, 5)],
    "ogee, bead first": [("ogee", 40, 24, 40, 3)],
    "ogee, cove first": [("ogee", 40, 40, 26, -3)],
    "flat arcs": [("bead", 300, 30, 24, 0.01), ("bead", 300, 24, 30, 2), ("cove", 300, 30, 30, 0.5)],
    "a whole leg": [
        ("taper", 40, 25, 27, 0),
        ("bead", 12, 30, 30, 5),
        ("cove", 25, 30, 20, 4),
        ("bead", 60, 20, 44, 6),
        ("ogee", 50, 44, 24, 2.5),
        ("taper", 250, 24, 38, 0),
        ("bead", 14, 38, 30, 2),
        ("taper", 20, 26, 20, 0),
    ],
}


def leg_of(shapes):
    made = [MAKERS[kind](n, a, b, rise) if rise else taper(n, a, b) for kind, n, a, b, rise in shapes]
    return Profile(tuple(made))


@pytest.mark.parametrize("shapes", LEGS.values(), ids=LEGS)
def test_beside_the_outline_revolved_by_trimesh(shapes):
    outline = [(0.0, 0.0)]
    for one, other, radius, points in parts(shapes):
        at = (one + other) / 2 - (other - one) / 2 * np.cos(np.linspace(0, math.pi, points))  # close at upright ends
        outline += zip(radius(at), at, strict=True)
    solid = trimesh.creation.revolve(np.array([*outline, (0.0, outline[-1][1])]), sections=SIDES)
    leg = leg_of(shapes)
    assert solid.is_watertight
    assert leg.volume == pytest.approx(abs(solid.volume), rel=MESH)
    assert leg.total_area == pytest.approx(solid.area, rel=MESH)
    assert leg.centroid == pytest.approx(solid.center_mass[2], rel=MESH)


@pytest.mark.parametrize("shapes", LEGS.values(), ids=LEGS)
def test_beside_slices_and_rings_added_up_by_scipy(shapes):
    volume = moment = surface = 0.0
    for one, other, radius, _ in parts(shapes):
        volume += math.pi * quad(lambda x, r=radius: r(x) ** 2, one, other, epsabs=0, epsrel=1e-11)[0]
        moment += math.pi * quad(lambda x, r=radius: x * r(x) ** 2, one, other, epsabs=0, epsrel=1e-11)[0]

        def turned(angle, r=radius, one=one, other=other):
            """The outline's length by small chords: no slope is taken, so none can be upright."""
            x = (one + other) / 2 - (other - one) / 2 * np.cos(angle)
            return 2 * math.pi * r(x)

        angle = np.linspace(0, math.pi, 20_001)
        x = (one + other) / 2 - (other - one) / 2 * np.cos(angle)
        chords = np.hypot(np.diff(x), np.diff(radius(x)))
        surface += float((chords * turned((angle[1:] + angle[:-1]) / 2)).sum())
    leg = leg_of(shapes)
    assert leg.volume == pytest.approx(volume, rel=1e-10)
    assert leg.centroid == pytest.approx(moment / volume, rel=1e-10)
    assert leg.lateral_area == pytest.approx(surface, rel=1e-7)


@pytest.mark.parametrize("neck", [shoulder(40.0, 30.0, 14.0), lambs_tongue(30.0, 40.0, 30.0)], ids=lambda e: e.shape)
def test_a_shouldered_square_beside_a_turned_solid_cut_by_a_box(neck):
    """The solid is a mesh of rings, each point of the circle drawn in to the square's face where it is outside."""
    leg = Profile((square_part(20.0, 40.0), neck, cylinder(10.0, 30.0)))
    length, start, end = neck.length, 20 * math.sqrt(2), 15.0
    if neck.shape == "shoulder":
        outline = [(0, length, lambda x: start + (end - start) * x / length)]
    else:  # two arcs of equal turn; the first starts along the axis with its centre below the start
        half, fall = length / 2, (start - end) / 2
        reach = (half**2 + fall**2) / (2 * fall)
        outline = [
            (0, half, lambda x: start - reach + np.sqrt(reach**2 - x**2)),
            (half, length, lambda x: end + reach - np.sqrt(reach**2 - (length - x) ** 2)),
        ]
    x = np.concatenate([[0.0], *[20 + np.linspace(a, b, 600) for a, b, _ in outline], [20 + length + 10]])
    radii = np.concatenate([[start], *[r(np.linspace(a, b, 600)) for a, b, r in outline], [end]])
    turns = np.linspace(0, 2 * math.pi, 3 * SIDES, endpoint=False)
    to_face = 20 / np.maximum(abs(np.cos(turns)), abs(np.sin(turns)))
    reach = np.minimum(radii[:, np.newaxis], to_face)
    ring = np.stack(
        [reach * np.cos(turns), reach * np.sin(turns), np.broadcast_to(x[:, np.newaxis], reach.shape)], axis=-1
    )
    volume = moment = 0.0
    wedge = 0.5 * np.sin(2 * math.pi / (3 * SIDES)) * (reach * np.roll(reach, -1, axis=1)).sum(axis=1)
    for (x0, a0), (x1, a1) in pairwise(zip(x, wedge, strict=True)):
        volume += (x1 - x0) * (a0 + a1) / 2
        moment += (x1 - x0) * (a0 * (2 * x0 + x1) + a1 * (x0 + 2 * x1)) / 6
    a, b = ring[:-1], ring[1:]
    c, d = np.roll(a, -1, axis=1), np.roll(b, -1, axis=1)
    surface = sum(np.linalg.norm(np.cross(p, q), axis=-1).sum() / 2 for p, q in ((b - a, c - a), (d - b, c - b)))
    assert leg.volume == pytest.approx(volume, rel=MESH)
    assert leg.centroid == pytest.approx(moment / volume, rel=MESH)
    assert leg.lateral_area == pytest.approx(surface, rel=2e-4)  # the rings step over the edge of the flats
