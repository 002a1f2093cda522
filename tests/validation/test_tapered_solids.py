"""Square tapered legs as solids.

Source: trimesh, a general library: the convex hull of a leg's corners, its faces' normals, and
sections across it.
"""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
import trimesh

from furnlib.trade.leg.square_taper import TAPERED_FACES, square_taper

TOP, FOOT, LENGTH, STRAIGHT = 44.0, 20.0, 720.0, 120.0


def solid(tapered_faces):
    """The leg by its corners, z down, faces 1 and 2 towards +x and +y."""
    low = -FOOT / 2 if tapered_faces == "all four" else -TOP / 2
    levels = ((0.0, -TOP / 2, TOP / 2), (STRAIGHT, -TOP / 2, TOP / 2), (LENGTH, low, low + FOOT))
    corners = [(x, y, z) for z, *places in levels for x, y in product(places, places)]
    return trimesh.convex.convex_hull(np.array(corners))


@pytest.mark.parametrize("tapered_faces", TAPERED_FACES)
def test_angles_of_the_tapered_faces(tapered_faces):
    made = square_taper(TOP, FOOT, LENGTH, STRAIGHT, tapered_faces=tapered_faces)
    leg = solid(tapered_faces)
    down = np.degrees(np.arcsin(np.clip(leg.face_normals[:, 2], -1, 1)))
    sloping = down[(np.abs(down) > 1e-6) & (np.abs(down) < 89)]
    assert sloping == pytest.approx(np.full(len(sloping), made.face_angle_deg), abs=1e-7)
    directions = {tuple(np.round(normal, 6)) for normal in leg.face_normals if 1e-6 < normal[2] < 0.9}
    assert len(directions) == len(made.cuts)


@pytest.mark.parametrize("tapered_faces", TAPERED_FACES)
@pytest.mark.parametrize("below", [100.0, 300.0, 599.0])
def test_sections_lose_the_run_on_each_tapered_face(tapered_faces, below):
    made = square_taper(TOP, FOOT, LENGTH, STRAIGHT, tapered_faces=tapered_faces)
    section = solid(tapered_faces).section([0, 0, 1], [0, 0, STRAIGHT + below])
    opposite = len(made.cuts) / 2
    across = np.ptp(section.vertices, axis=0)[:2]
    assert across == pytest.approx(np.full(2, TOP - opposite * made.gauge_run * below / 100), abs=1e-9)
