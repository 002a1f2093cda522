"""What several plates show: lengths as written, a seat's edges, openings, sight lines, a person."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from furnlib.base.angles import cosd, sind
from furnlib.base.units import Unit, write_length
from furnlib.draw.drawing import Point
from furnlib.draw.pen import Pen
from furnlib.plan.piece import CasePiece, Piece, SeatPiece
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.legs import LegSizes
from furnlib.plan.sizes.openings import Row


def written(value: float | Fraction, unit: Unit, round_up: bool = False) -> str:
    """A length as a plate shows it, with small fraction figures.

    Args:
        value: the length, in the unit.
        unit: "mm" or "in".
        round_up: True for a least size, which must not be written smaller than it is.

    Returns:
        The text without its unit.

    Example:
        >>> written(Fraction(91, 16), "in") == "5\u202f¹¹⁄₁₆"
        True
    """
    return write_length(value, unit, style="plate", round_up=round_up)


def leg_height(piece: Piece) -> float:
    """Height of the front legs, 0 where the piece stands on its case.

    Args:
        piece: a finished piece.

    Returns:
        The height in the piece's unit.
    """
    return float(piece.stand.heights[0]) if piece.stand else 0.0


class OpeningPlace(NamedTuple):
    """Where an opening for one drawer stands, seen from the front.

    Args:
        row: its row.
        number: of the drawer in its row, counted from the left.
        left: its left edge, from the left edge of the case, in the piece's unit.
        right: its right edge.
        low: its lower edge, above the floor.
        high: its upper edge.
    """

    row: Row
    number: int
    left: float
    right: float
    low: float
    high: float


def opening_places(piece: CasePiece, bank: Bank) -> tuple[OpeningPlace, ...]:
    """Where the openings of a bank stand, row by row from the top, in each from the left.

    Args:
        piece: a case.
        bank: one of its banks.

    Returns:
        A place for each drawer, as planned; none in an open bay.
    """
    top, divider, places = float(piece.design.overall.height), float(piece.design.case.divider), []
    for row in bank.rows.rows if bank.rows else ():
        left, clear = float(bank.left), (float(bank.width) + divider) / len(row.widths) - divider
        for number in range(1, len(row.widths) + 1):
            places.append(OpeningPlace(row, number, left, left + clear, top - float(row.bottom), top - float(row.top)))
            left += clear + divider
    return tuple(places)


def open_bay(piece: CasePiece, bank: Bank) -> tuple[float, float, float, float]:
    """What is clear of a bay that is open, seen from the front.

    Args:
        piece: a case.
        bank: an open one of its banks.

    Returns:
        Left and lower, right and upper edge, from the left edge of the case and above the floor.
    """
    case, height = piece.design.case, piece.design.overall.height
    left, low = float(bank.left), leg_height(piece) + float(case.bottom)
    return left, low, left + float(bank.width), float(height - case.top)


def seat_profile(piece: SeatPiece) -> tuple[Point, ...]:
    """A seat board from its right side: front edge to the left, underside first.

    Args:
        piece: a seat on legs.

    Returns:
        Four corners: back from the front edge of the underside, and height over the floor.
    """
    stand, seat = piece.stand, piece.design.seat
    c, s, thick = cosd(seat.pitch), sind(seat.pitch), float(seat.thickness)
    front = float(stand.heights[0]) + stand.insets[0] * s / c
    rear = front - stand.depth * s / c
    up = (thick * s, thick * c)
    return (0.0, front), (stand.depth, rear), (stand.depth + up[0], rear + up[1]), (up[0], front + up[1])


class Sight(NamedTuple):
    """A leg's sight line as it runs in a plan, front edge below.

    Args:
        along: a step of length 1 the way the foot goes.
        turns_deg: directions of it and of the fore-and-aft line, the lower first, in degrees counter-clockwise from x.
    """

    along: Point
    turns_deg: tuple[float, float]

    @property
    def from_below(self) -> Sight:
        """The same, seen from below with the front edge on top."""
        return Sight((self.along[0], -self.along[1]), (-self.turns_deg[1], -self.turns_deg[0]))

    def at(self, start: Point, distance: float) -> Point:
        """The point so far along it.

        Args:
            start: a point of the plan, in the piece's unit.
            distance: how far, in the piece's unit; above 0 the way the foot goes.

        Returns:
            The point, in the plan of the start.
        """
        return start[0] + self.along[0] * distance, start[1] + self.along[1] * distance


def sight_of(leg: LegSizes, sight_line_deg: float) -> Sight:
    """How a leg's sight line runs in a plan.

    Args:
        leg: the leg.
        sight_line_deg: in degrees from the outward fore-and-aft line.

    Returns:
        Its direction and its angle.
    """
    across, back = leg.outward
    along = (across * sind(sight_line_deg), back * cosd(sight_line_deg))
    turns = sorted((90.0 * back, 90.0 * back - across * back * sight_line_deg))
    return Sight(along, (turns[0], turns[1]))


def draw_sight(pen: Pen, leg: LegSizes, top: Point, reach: float, fore_aft: float) -> Sight:
    """Draw the fore-and-aft line and the sight line through a leg's top.

    Args:
        pen: the plate's pen.
        leg: the leg.
        top: where it stands in the picture, front edge below.
        reach: how far the sight line goes, in the piece's unit.
        fore_aft: how far the fore-and-aft line goes outward, in the piece's unit.

    Returns:
        The sight line.
    """
    (x, y), back = top, leg.outward[1]
    sight = sight_of(leg, leg.lean.sight_line_deg)
    pen.line((x, y - back * pen.mm(4.0)), (x, y + back * fore_aft), kind="centre")
    if leg.foot_run.plan:
        pen.line(top, sight.at(top, reach), kind="sight")
    return sight


def draw_person(pen: Pen, foot: Point, height: float) -> None:
    """Draw a person's outline for size: flat shapes, one full line.

    Args:
        pen: the plate's pen.
        foot: where the person stands: the middle between both feet, in the piece's unit.
        height: of the person, in the piece's unit, above 0.
    """
    x, y = foot
    right = [(0.02, 0.0), (0.075, 0.0), (0.065, 0.26), (0.075, 0.48), (0.075, 0.62), (0.10, 0.60), (0.115, 0.44),
             (0.145, 0.44), (0.14, 0.66), (0.125, 0.80), (0.095, 0.825), (0.03, 0.845), (0.03, 0.865)]  # fmt: skip
    left = [(-u, v) for u, v in reversed(right)]
    legs = [(-0.012, 0.0), (-0.006, 0.46), (0.006, 0.46), (0.012, 0.0)]
    outline = [(x + u * height, y + v * height) for u, v in (*right, *left, *legs)]
    pen.shape(outline, "pale", "thin")
    head = (x, y + 0.932 * height)
    pen.dot(head, 0.066 * height * pen.scale, "pale")
    pen.circle(head, 0.066 * height, "thin")
