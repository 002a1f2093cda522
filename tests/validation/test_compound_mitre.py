"""Settings of boxes with equal sides against a table of the closed form, and against solids known since antiquity.

Sources: blade tilt asin(cos t sin(180/n)) and mitre atan(sin t tan(180/n)) of n-sided work whose
sides lean by t from plumb, worked out to three places for 3 numbers of sides and 12 slopes (computed
when the values were gathered; no printed table was found). So that it is more than one formula
against itself, the planes of two neighbouring sides are measured beside it. And the edges of the
regular solids, the cube on its corner and the rhombic dodecahedron, as any geometry book has them
(memory; Euclid's Elements, book XIII, for the first three).

Tolerance: half a unit of the last place; for the solids 1e-9.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from furnlib.trade.leg.tapered_box import tapered_box

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "compound_mitre.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", ROWS, ids=[f"{r['sides']} sides at {r['side_slope_deg']}" for r in ROWS])
def test_settings_are_those_of_the_table_and_of_the_planes(row):
    slope, sides = float(row["side_slope_deg"]), int(row["sides"])
    cut = tapered_box(slope, sides)
    listed = float(row["mitre_deg"]), float(row["tilt_deg"])
    assert (cut.mitre_deg, cut.tilt_deg) == pytest.approx(listed, abs=0.0005)
    assert measured(slope, sides) == pytest.approx(listed, abs=0.0005)


def measured(slope, sides):
    """Gauge and tilt between the vectors of two sides to either hand of a corner that points along x."""
    lean, half = math.radians(slope), math.pi / sides
    outward = np.array([math.cos(half), math.sin(half), 0])
    edge = np.array([math.sin(half), -math.cos(half), 0])  # level, towards the corner
    normal = math.cos(lean) * outward - [0, 0, math.sin(lean)]
    straight_up = math.sin(lean) * outward + [0, 0, math.cos(lean)]
    line = np.cross(normal * [1, -1, 1], normal)
    mitre = math.atan2(line @ edge, line @ straight_up)
    return math.degrees(mitre), math.degrees(math.asin(normal[1]))  # the mitre's plane holds x and z


def degrees_of_tan(rise, run):
    return math.degrees(math.atan2(rise, run))


# Sides round one corner of the solid; its faces' slope from the corner's axis; the mitre that the
# face's own shape shows; the angle inside an edge.
#
# Triangles of edge 1 round a corner: half of 60 is the mitre; the slope is the middle of the base, 1/(2 tan h) out,
# over the height sqrt(1 - (1/(2 sin h))^2). Cube: half of 90, slope asin(1/sqrt 3). Rhombic dodecahedron:
# a rhombus with diagonals 1 and sqrt 2, half its sharp angle, slope 45.
SOLIDS = {
    "tetrahedron": (3, None, 30.0, math.degrees(math.acos(1 / 3))),
    "octahedron": (4, None, 30.0, math.degrees(math.acos(-1 / 3))),
    "icosahedron": (5, None, 30.0, math.degrees(math.acos(-math.sqrt(5) / 3))),
    "cube": (3, math.degrees(math.asin(1 / math.sqrt(3))), 45.0, 90.0),
    "rhombic dodecahedron": (4, 45.0, degrees_of_tan(1, math.sqrt(2)), 120.0),
}


@pytest.mark.parametrize("name", SOLIDS)
def test_a_corner_of_a_solid_is_a_box_that_comes_to_a_point(name):
    sides, slope, mitre, inside = SOLIDS[name]
    if slope is None:
        half = math.pi / sides
        slope = degrees_of_tan(1 / (2 * math.tan(half)), math.sqrt(1 - 1 / (2 * math.sin(half)) ** 2))
    cut = tapered_box(slope, sides)
    assert (cut.mitre_deg, cut.dihedral_deg) == pytest.approx((mitre, inside), abs=1e-9)
