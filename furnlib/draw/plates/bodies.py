"""A piece in space, as the parts it is made of: what the view in the round and the solid are both built from.

Places are those of the plan, with a height: across from the left edge, back from the front edge, up
from the floor. Each part is a row of rings, each ring as many corners, so that its faces are quads
from ring to ring and a lid at either end. Round is stood for by corners on the circle.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby
from typing import NamedTuple

from furnlib.base.angles import cosd, sind, tand
from furnlib.draw.drawing import Contour, Point
from furnlib.draw.plates.views import leg_height, opening_places, seat_profile
from furnlib.plan.piece import CasePiece, Piece, SeatPiece, case_of
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.legs import LegSizes, step_out
from furnlib.plan.sizes.turned import TurnedLeg
from furnlib.trade.leg.end_cut import level_corner
from furnlib.trade.leg.turning import Bend, Profile

Place = tuple[float, float, float]
Ring = tuple[Place, ...]

CORNERS = 48
"""How many stand for a circle; an eighth of them from the middle of a square's side to its corner."""
STEP_DEG = 15.0
"""How far an arc of a profile turns in one straight stretch, at the most."""
_LINES = 6  # stretches in which a cone that a square cuts into is drawn


@dataclass(frozen=True)
class Body:
    """One part of a piece.

    Args:
        name: in plain words, such as "front left leg".
        outlines: at least two, from the lower end to the upper, each with its corners counter-clockwise
            seen from above: across, back and up, in the piece's unit.
    """

    name: str
    outlines: tuple[Ring, ...]


class _Girth(NamedTuple):
    """A leg at one place: how far below the underside along its axis, its radius, the square left round it."""

    distance: float
    radius: float
    square: float


def bodies(piece: Piece) -> tuple[Body, ...]:
    """The parts of a piece: its legs, then its case or its seat.

    The boards of a case only meet, whatever joins them: the sides stand from the underside to the top,
    all others between them, from front to back. Its openings are left open, without drawers.

    Args:
        piece: a finished piece.

    Returns:
        The legs in their order; then boards, each after all that it may hide from someone who stands
        before the piece to the right and looks down on it.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [body.name for body in bodies(read_piece("notebooks/designs/stool_three_legs.yaml"))]
        ['front left leg', 'front right leg', 'rear leg', 'seat']
    """
    legs = map(leg_body, piece.legs)
    return (*legs, seat_body(piece)) if isinstance(piece, SeatPiece) else (*legs, *_boards(case_of(piece)))


def seat_body(piece: SeatPiece) -> Body:
    """The seat board, its edge square to its surface.

    Args:
        piece: a seat on legs.

    Returns:
        The board.
    """
    (_, front), (_, rear), _, (back, up) = seat_profile(piece)
    fall = (front - rear) / piece.stand.depth
    low = tuple((x, y, front - fall * y) for x, y in piece.stand.outline)
    return Body("seat", (low, tuple((x, y + back, z + up - front) for x, y, z in low)))


def _boards(piece: CasePiece) -> Iterator[Body]:
    """The boards of a case from the left and from below."""
    case, overall = piece.design.case, piece.design.overall
    base, height = leg_height(piece), float(overall.height)
    width, depth, side = float(overall.width), float(overall.depth), float(case.side)

    def board(name: str, left: float, right: float, low: float, high: float) -> Body:
        outline = ((left, 0.0), (right, 0.0), (right, depth), (left, depth))
        return Body(name, tuple(tuple((x, y, z) for x, y in outline) for z in (low, high)))

    under, over = base + float(case.bottom), height - float(case.top)
    yield board("left side", 0.0, side, base, height)
    yield board("bottom", side, width - side, base, under)
    several = sum(bank.rows is not None for bank in piece.banks) > 1
    faces = piece.case.partitions
    for number, bank in enumerate(piece.banks):
        if number:
            left, right = map(float, faces[2 * number - 2 : 2 * number])
            yield board(f"partition {number}" if len(faces) > 2 else "partition", left, right, under, over)
        for name, *edges in _inside(piece, bank, under, over):
            yield board(f"{name}, bank {bank.number}" if several else name, *edges)
    yield board("top", side, width - side, over, height)
    yield board("right side", width - side, width, base, height)


def _inside(
    piece: CasePiece, bank: Bank, under: float, over: float
) -> Iterator[tuple[str, float, float, float, float]]:
    """Rails, dividers and uprights of one bank from below: name, left, right, low and high."""
    left, right, divider = float(bank.left), float(bank.left + bank.width), float(piece.design.case.divider)
    if bank.rows is None:
        return
    upper, lower = map(float, bank.rows.rails)
    if lower:
        yield "bottom rail", left, right, under, under + lower
    places = opening_places(piece, bank)
    for place in sorted(places, key=lambda place: (-place.row.number, place.number)):
        if place.number > 1:
            upright = f"upright {place.number - 1} in row {place.row.number}"
            yield upright, place.left - divider, place.left, place.low, place.high
        if place.number == len(place.row.widths) and place.row.number > 1:
            thick = float(bank.rows.dividers[place.row.number - 2])
            yield f"divider under row {place.row.number - 1}", left, right, place.high, place.high + thick
    if upper:
        yield "top rail", left, right, over - upper, over


def leg_body(leg: LegSizes, in_seat: bool = True) -> Body:
    """A leg between the floor and the underside, and on through a seat to its top.

    A line along the leg at (f, s) out from its axis meets a level plane at `level_corner`; what stands
    square across the axis lies further down that line by the corner's part along the axis. So every
    line is cut where it passes a plane, and each end is as true as the rest.

    Args:
        leg: one leg.
        in_seat: False to leave out what stands in a seat.

    Returns:
        The leg; a tenon shorter than the seat is thick ends square across inside it.
    """
    r, s, stretch = leg.lean.tan_rake, leg.lean.tan_splay, leg.lean.axis_length(1.0)
    inside, rise = 0.0, 0.0
    if leg.drilling:
        inside = leg.drilling.length_in_seat * in_seat
        rise = tand(leg.lean.rake_deg - leg.drilling.seat_lean.rake_deg)
    girths = _prolonged([*_girths(leg)], goes_through(leg))
    twist = leg.end_cut.twist_deg if leg.end_cut else 0.0

    def column(turn_deg: float) -> list[Place]:
        """One line of corners down the leg, at a place round its section."""
        f, t = level_corner(r, s, cosd(turn_deg + twist), sind(turn_deg + twist))
        down, up = (f * r + t * s) / stretch, f * rise / (1 + rise * r) * stretch
        to_corner = 2 * max(abs(cosd(turn_deg)), abs(sind(turn_deg)))
        line = []
        for at, radius, square in girths:
            out = min(radius, square / to_corner) if square else radius
            line.append((at - out * down, out))
        line = _kept(line, lambda at, _: at - leg.axis_length)
        line = _kept(line[::-1], lambda at, out: -inside - out * up - at)
        return [
            (*step_out(leg.position, leg.top, out * f + at * r / stretch, out * t + at * s / stretch),
             float(leg.height) - at / stretch)
            for at, out in line[::-1]
        ]  # fmt: skip

    way = -leg.outward[0] * leg.outward[1]  # from front to side is clockwise for legs of one hand
    count = CORNERS if leg.turned else 4
    rings = zip(*(column(way * (45.0 + 360.0 / count * i)) for i in range(count)), strict=True)
    return Body(f"{leg.position} leg", tuple(ring for ring, _ in groupby(rings))[::-1])


def goes_through(leg: LegSizes) -> bool:
    """Whether a leg goes through its seat to the top, if it stands under one.

    Args:
        leg: one leg.

    Returns:
        False for one in a blind mortise.
    """
    return not (leg.turned and leg.drilling) or leg.turned.top >= leg.drilling.length_in_seat


def _girths(leg: LegSizes) -> Iterator[_Girth]:
    """How thick a leg is from its top end down; at a step twice."""
    if leg.turned:
        yield from _turned_girths(leg.turned)
    else:
        square = float(leg.square or 0)
        yield from (_Girth(at, square, square) for at in (0.0, leg.axis_length))


def _turned_girths(turned: TurnedLeg) -> Iterator[_Girth]:
    """Each element's own outline, as if no square were left round it, and that square."""
    for start, element in zip(turned.profile.joints, turned.profile.elements, strict=False):
        outline = [(0.0, element.start_diameter / 2), (element.length, element.end_diameter / 2)]
        if element.length:
            bends = Profile((replace(element, square=0.0),)).bends
            outline[1:1] = [point for bend in bends for point in _between(bend, bool(element.square))]
        for along, radius in outline:
            yield _Girth(start - turned.top + along, radius, element.square)


def _between(bend: Bend, in_square: bool) -> Iterable[Point]:
    """Points along a stretch of an outline and its end: of an arc, and of a line where a square cuts into it."""
    (arc,) = Contour((bend.start, bend.end), (-bend.bulge,)).arcs()  # away from the axis is left of the way
    if arc:
        points = arc.points(STEP_DEG)[1:-1]
        return *(points if bend.bulge < 0 else points[::-1]), bend.end
    (x0, r0), (x1, r1) = bend.start, bend.end
    steps = _LINES if in_square and r0 != r1 else 1
    return [(x0 + (x1 - x0) * i / steps, r0 + (r1 - r0) * i / steps) for i in range(1, steps + 1)]


def _prolonged(girths: list[_Girth], at_top: bool) -> list[_Girth]:
    """The same, going on as it ends, so that planes across it at any lean cut wood."""
    first, last = girths[0], girths[-1]
    before = [first._replace(distance=first.distance - 1e3 * first.radius)] if at_top else []
    return [*before, *girths, last._replace(distance=last.distance + 1e3 * last.radius)]


def _kept(line: list[tuple[float, float]], past: Callable[[float, float], float]) -> list[tuple[float, float]]:
    """A line up to where it goes past a plane, all that follows gathered in that point."""
    overs = [past(*point) for point in line]
    cut = next((i for i, over in enumerate(overs) if over > 0), len(line))
    if cut in (0, len(line)):
        return line
    share = overs[cut - 1] / (overs[cut - 1] - overs[cut])
    (at, out), (at_next, out_next) = line[cut - 1 : cut + 1]
    end = (at + share * (at_next - at), out + share * (out_next - out))
    return [*line[:cut], *[end] * (len(line) - cut)]
