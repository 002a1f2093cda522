"""The wood that a square leg takes: every corner of the sawn leg lies inside its blank, in space."""

from __future__ import annotations

import in_space
import numpy as np
import pytest
from stools import PRACTICE, stool

from furnlib.trade.leg.end_cut import ORIENTATIONS


def corners_along(leg, seat, orientation):
    """How far along the axis from the underside each long edge meets the floor, and the top of the seat."""
    direction = in_space.axis(leg.position, leg.lean.rake_deg, leg.lean.splay_deg)
    front, side = in_space.faces(leg.position, direction, orientation)
    half, height, thick = float(leg.square) / 2, float(leg.height), float(seat.thickness)
    normal = seat_normal(seat.pitch)
    for a in (half, -half):
        for b in (half, -half):
            edge = a * front + b * side  # from the axis where it comes out of the underside
            yield (-height - edge[2]) / direction[2]  # down to the floor
            yield (thick - edge @ normal) / (direction @ normal)  # up to the seat's top


def seat_normal(pitch_deg):
    """Square to a seat whose back edge is the lower one, upwards."""
    tip = np.radians(pitch_deg)
    return np.array([0.0, np.sin(tip), np.cos(tip)])


@pytest.mark.parametrize("pitch", [0, 3, 8])
@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_a_leg_that_goes_through_its_seat_fits_its_blank(orientation, pitch):
    piece = stool(PRACTICE, "mm", ("pitch: 3", f"pitch: {pitch}"), ("untwisted ", f"{orientation} "))
    for leg in piece.legs:
        reach = list(corners_along(leg, piece.design.seat, orientation))
        needed = max(reach) - min(reach)
        assert needed <= leg.blank + 1e-9
        assert leg.blank - needed < float(leg.square) * np.tan(np.radians(20))  # and not out of all measure


def test_a_leg_that_shows_a_corner_to_the_sight_line_takes_all_of_it():
    """A level seat and a corner foremost: foot and top each reach half a diagonal past the axis."""
    piece = stool(PRACTICE, "mm", ("pitch: 3", "pitch: 0"), ("untwisted ", "sightline_corner "))
    for leg in piece.legs:
        reach = list(corners_along(leg, piece.design.seat, "sightline_corner"))
        assert leg.blank == pytest.approx(max(reach) - min(reach), abs=1e-9)
