"""The legs from above: tops, feet with their rings, sight lines, and the line round the feet."""

from __future__ import annotations

from collections.abc import Callable

from furnlib.base.angles import cosd, sind
from furnlib.base.shapes import convex_outline
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Point
from furnlib.draw.pen import Inset, Pen
from furnlib.draw.plates.views import along_sight_line, written
from furnlib.draw.scale import fitting_scale
from furnlib.plan.piece import CasePiece, Piece, SeatPiece
from furnlib.plan.sizes.legs import NEIGHBOURS, LegSizes

_NAMES_MM = 42.0
_REACH_MM = 13.0
_PAST_FOOT_MM = 5.0
_ROUND_MM = 24.0  # sizes below the plan, and air above it
Box = tuple[float, float, float, float]


def ring_points(leg: LegSizes) -> tuple[Point, ...]:
    """The ring round a foot within which nine out of ten land, by points.

    Args:
        leg: the leg.

    Returns:
        Points of the ellipse, in the plan of the leg.
    """
    (x, y), (along, across) = leg.foot, leg.ring
    return tuple(
        (x + along[0] * cosd(t) + across[0] * sind(t), y + along[1] * cosd(t) + across[1] * sind(t))
        for t in range(0, 360, 10)
    )


def plan_box(piece: Piece) -> Box:
    """How far the plan reaches: what the legs stand under, and their feet.

    Args:
        piece: a finished piece with legs.

    Returns:
        Left, front, right and rear, in the plan of the piece.
    """
    far = (float(piece.design.overall.width), float(piece.design.overall.depth))
    points = [*(piece.stand.outline if piece.stand else ((0.0, 0.0), far))]
    for leg in piece.legs:
        points += [*leg.top_corners, *leg.foot_corners, *ring_points(leg)]
    xs, ys = [point[0] for point in points], [point[1] for point in points]
    return min(xs), min(ys), max(xs), max(ys)


def plan_scale(piece: Piece, room: Point) -> float:
    """The largest usual scale at which the plan fits with the names and sizes round it.

    Args:
        piece: a finished piece with legs.
        room: width and height that may be filled, in mm on paper.

    Returns:
        Millimetres on paper for one unit of the piece.
    """
    left, front, right, rear = plan_box(piece)
    return fitting_scale(right - left, rear - front, piece.design.unit, 2 * _NAMES_MM, _ROUND_MM, room)


def draw_plan(pen: Pen, piece: Piece, magnification: float) -> None:
    """Draw the whole plan, front edge below, its lowest line on the pen's zero.

    Args:
        pen: the plate's pen.
        piece: a finished piece with legs.
        magnification: how many times larger than the pen's scale it is drawn, above 0.
    """
    left, front, right, _ = plan_box(piece)
    inset = pen.inset((pen.mm(_NAMES_MM) - left * magnification, -front * magnification), magnification)
    if piece.stand:
        pen.shape((inset.at(*corner) for corner in piece.stand.outline), "far")
    feet = convex_outline([leg.foot for leg in piece.legs])
    if len(feet) > 2:
        pen.line(*(inset.at(*foot) for foot in feet), kind="compared", closed=True)
    for leg in piece.legs:
        reach = max(pen.mm(_REACH_MM), float(leg.foot_run.plan) * magnification + pen.mm(_PAST_FOOT_MM))
        draw_leg(pen, leg, lambda point: inset.at(*point), reach)
        side = leg.outward[0]
        edge = inset.at(left if side < 0 else right, leg.top[1])
        for line, words in enumerate((leg.position.capitalize(), f"sight line {write_angle(leg.lean.sight_line_deg)}")):
            at = (edge[0] + side * pen.mm(14), edge[1] + pen.mm(0.6 - 3.6 * line))
            pen.text(at, words, "small", "end" if side < 0 else "start", bold=line == 0)
    _places(pen, piece, inset)
    _feet_apart(pen, piece, inset)


def _places(pen: Pen, piece: Piece, inset: Inset) -> None:
    """Where the legs' tops stand: in from the edges of a case, out from the middle of a seat."""
    left, front, right, _ = plan_box(piece)
    leg = piece.legs[0]
    unit = piece.design.unit
    below, top = inset.at(left, front)[1], inset.at(*leg.top)
    beside = inset.at(right, 0.0)[0]
    if isinstance(piece, CasePiece) and piece.design.legs:
        inset_by, far = piece.design.legs.inset, float(piece.design.overall.width)
        edge = inset.at(0.0 if leg.top[0] < far / 2 else far, 0.0)
        inner, outer = sorted((edge[0], top[0]))
        pen.dimension((inner, below), (outer, below), -7.0, written(inset_by.side, unit), bold=True)
        if "front" in leg.position:
            pen.dimension((beside, edge[1]), (beside, top[1]), -5.0, written(inset_by.front, unit), bold=True)
    if isinstance(piece, SeatPiece):
        middle = inset.at(piece.stand.width / 2, piece.stand.depth / 2)
        mortises = piece.design.legs.mortises
        if " " in leg.position:
            inner, outer = sorted((middle[0], top[0]))
            pen.dimension((inner, below), (outer, below), -7.0, written(mortises.out, unit), bold=True)
        inner, outer = sorted((middle[1], top[1]))
        place = mortises.front if "front" in leg.position else mortises.rear
        pen.dimension((beside, inner), (beside, outer), -5.0, written(place, unit), bold=True)


def _feet_apart(pen: Pen, piece: Piece, inset: Inset) -> None:
    """From foot to foot, across below the plan and back on its left."""
    left, front, _, _ = plan_box(piece)
    placed = {leg.position: leg for leg in piece.legs}
    corner = inset.at(left, front)
    measured: set[int] = set()
    for first, second, axis in NEIGHBOURS:
        if first in placed and second in placed and axis not in measured:
            measured.add(axis)
            a, b = inset.at(*placed[first].foot), inset.at(*placed[second].foot)
            apart = written(abs(placed[second].foot[axis] - placed[first].foot[axis]), piece.design.unit)
            if axis == 0:
                pen.dimension((a[0], corner[1]), (b[0], corner[1]), -14.0, apart)
            else:
                pen.dimension((corner[0], a[1]), (corner[0], b[1]), 6.0, apart)


def draw_leg(pen: Pen, leg: LegSizes, place: Callable[[Point], Point], reach: float) -> None:
    """Draw one leg from above: its top and foot outlines, ring, fore-and-aft line and sight line.

    Args:
        pen: the plate's pen.
        leg: the leg; a left foot in a full line, a right one dashed.
        place: where a plan point stands in the picture.
        reach: how far the sight line goes beyond the top, in the piece's unit.
    """
    top, foot = place(leg.top), place(leg.foot)
    pen.shape(map(place, leg.top_corners), "wood", "hidden")
    pen.shape(map(place, ring_points(leg)), "pale", "")
    pen.shape(map(place, leg.foot_corners), "", "hidden" if "right" in leg.position else "thin")
    back, forward = pen.mm(4), min(reach, max(pen.mm(_REACH_MM), abs(top[1] - foot[1])))
    pen.line((top[0], top[1] - leg.outward[1] * back), (top[0], top[1] + leg.outward[1] * forward), kind="centre")
    if leg.foot_run.plan:
        pen.line(top, along_sight_line(leg, top, reach), kind="sight")
    pen.dot(top, 0.5)
    pen.dot(foot, 0.6)
