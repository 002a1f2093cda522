"""A piece seen from the front and from the side."""

from __future__ import annotations

from functools import lru_cache

from furnlib.draw.drawing import Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.bodies import Place, leg_body
from furnlib.draw.plates.views import leg_height, open_bay, opening_places, seat_profile
from furnlib.plan.piece import CasePiece, Piece, SeatPiece
from furnlib.plan.sizes.legs import REMEMBERED, LegSizes


@lru_cache(REMEMBERED)
def leg_outline(leg: LegSizes, axis: int, origin: Point) -> tuple[Point, ...]:
    """A leg between its two level ends, seen along the other axis.

    Args:
        leg: the leg.
        axis: 0 seen from the front (across), 1 seen from the side (back).
        origin: where the view's zero on the floor stands.

    Returns:
        Its corners up one side and down the other: four of a plain square leg.
    """
    x, y = origin
    run, height = leg.foot[axis] - leg.top[axis], float(leg.height)

    def aside(place: Place) -> float:
        """How far to the right of the axis, square to it in this view."""
        return (place[axis] - leg.foot[axis]) * height + place[2] * run

    rings = leg_body(leg, in_seat=False).outlines
    sides = [[most(ring, key=aside) for ring in rings] for most in (min, max)]
    return tuple((x + place[axis], y + place[2]) for place in (*sides[0][::-1], *sides[1]))


def draw_legs(pen: Pen, piece: Piece, axis: int, origin: Point, near: str) -> None:
    """Draw the legs of one elevation, those further off first and paler.

    Args:
        pen: the plate's pen.
        piece: the piece.
        axis: 0 seen from the front, 1 seen from the side.
        origin: where the view's zero on the floor stands.
        near: the word of the position that stands nearer, "front" or "right".
    """
    for leg in sorted(piece.legs, key=lambda leg: near in leg.position):
        close = near in leg.position
        pen.shape(leg_outline(leg, axis, origin), "wood" if close else "far", "visible" if close else "thin")


def draw_front(pen: Pen, piece: Piece, origin: Point) -> None:
    """Draw the piece from the front, a case without its drawers, and the legs under it.

    Args:
        pen: the plate's pen.
        piece: a finished piece.
        origin: where the lower left corner of the view stands, on the floor, in the piece's unit.
    """
    x, y = origin
    width, top = float(piece.design.overall.width), float(piece.design.overall.height)
    draw_legs(pen, piece, 0, origin, "front")
    if isinstance(piece, SeatPiece):
        heights = [point[1] for point in seat_profile(piece)]
        pen.box(x, y + min(heights), x + width, y + top, "wood")
    if isinstance(piece, CasePiece):
        _draw_case(pen, piece, (x, y + leg_height(piece)), y + top)


def _draw_case(pen: Pen, piece: CasePiece, corner: Point, top: float) -> None:
    """The case from the front, its openings empty."""
    (x, base), floor = corner, corner[1] - leg_height(piece)
    width = float(piece.design.overall.width)
    pen.box(x, base, x + width, top, "wood", "")
    for bank in piece.banks:
        for place in opening_places(piece, bank):
            pen.box(x + place.left, floor + place.low, x + place.right, floor + place.high, "paper", "thin")
        if bank.rows is None:
            left, low, right, high = open_bay(piece, bank)
            pen.box(x + left, floor + low, x + right, floor + high, "paper", "thin")
    pen.box(x, base, x + width, top)


def draw_side(pen: Pen, piece: Piece, origin: Point) -> None:
    """Draw the piece from its right side, front edge to the left.

    Args:
        pen: the plate's pen.
        piece: a finished piece.
        origin: where the lower left corner of the view stands, on the floor, in the piece's unit.
    """
    x, y = origin
    design, base = piece.design, leg_height(piece)
    draw_legs(pen, piece, 1, origin, "right")
    if isinstance(piece, SeatPiece):
        pen.shape(((x + back, y + up) for back, up in seat_profile(piece)), "wood")
    else:
        pen.box(x, y + base, x + float(design.overall.depth), y + float(design.overall.height), "wood")
