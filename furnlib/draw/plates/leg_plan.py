"""The legs from above: tops, feet with their rings, sight lines, and the line round the feet."""

from __future__ import annotations

from furnlib.base.angles import cosd, sind
from furnlib.base.shapes import convex_outline
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Point
from furnlib.draw.layout import Inset
from furnlib.draw.pen import Pen
from furnlib.draw.plates.groups import group_name
from furnlib.draw.plates.views import Sight, draw_sight, written
from furnlib.draw.scale import fitting_scale
from furnlib.plan.piece import CasePiece, Piece, SeatPiece
from furnlib.plan.sizes.legs import NEIGHBOURS, LegSizes

_NAMES_MM, _NAME_MM, _REACH_MM, _PAST_FOOT_MM = 42.0, 34.0, 13.0, 5.0
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
    for across in map(float, piece.case.partitions) if isinstance(piece, CasePiece) else ():
        pen.line(inset.at(across, 0.0), inset.at(across, float(piece.design.overall.depth)), kind="hidden")
    feet = convex_outline([leg.foot for leg in piece.legs])
    if len(feet) > 2:
        pen.line(*(inset.at(*foot) for foot in feet), kind="compared", closed=True)
    for leg in piece.legs:
        reach = max(pen.mm(_REACH_MM), float(leg.foot_run.plan) * magnification + pen.mm(_PAST_FOOT_MM))
        draw_leg(pen, leg, inset, reach)
        side = leg.outward[0]
        across, back = inset.at(left if side < 0 else right, leg.top[1])
        beside = inset.at(*leg.top)[0] + reach + pen.mm(2)
        if leg.position == "middle" and beside + pen.mm(_NAME_MM) < across:
            across = beside  # far from either edge
        else:
            across += side * pen.mm(14)
        for line, words in enumerate((group_name((leg,)), f"sight line {write_angle(leg.lean.sight_line_deg)}")):
            pen.text(
                (across, back + pen.mm(0.6 - 3.6 * line)),
                words,
                "small",
                "end" if side < 0 else "start",
                bold=line == 0,
            )
    _feet_apart(pen, piece, inset)
    _places(pen, piece, inset)


def _places(pen: Pen, piece: Piece, inset: Inset) -> None:
    """Where the legs' tops stand: in from the edges of a case, out from the middle of a seat."""
    left, front, right, rear = plan_box(piece)
    leg, ahead = piece.legs[0], "front" in piece.legs[0].position
    start, out, back = (0.0, 0.0), None, None  # what is measured from, how far to the side and how far back
    if isinstance(piece, CasePiece) and piece.design.legs and leg.position != "middle":
        far, inset_by = float(piece.design.overall.width), piece.design.legs.inset
        start = (0.0 if leg.top[0] < far / 2 else far, 0.0)
        out, back = inset_by.side, inset_by.front if ahead else None
    elif isinstance(piece, SeatPiece):
        mortises = piece.design.legs.mortises
        start = (piece.stand.width / 2, piece.stand.depth / 2)
        out, back = mortises.out if " " in leg.position else None, mortises.front if ahead else mortises.rear
    (x, y), top, corner = inset.at(*start), inset.at(*leg.top), (inset.at(right, front)[0], inset.at(left, front)[1])
    if out is not None:
        inner, outer = sorted((x, top[0]))
        pen.dimension((inner, corner[1]), (outer, corner[1]), -7.0, written(out, pen.unit), bold=True)
    if back is not None:
        inner, outer = sorted((y, top[1]))
        pen.dimension((corner[0], inner), (corner[0], outer), -5.0, written(back, pen.unit), bold=True)
    for leg in piece.legs:
        if leg.position == "middle":
            pen.dimension(inset.at(0.0, rear), inset.at(leg.top[0], rear), 5.0, written(leg.top[0], pen.unit))


def _feet_apart(pen: Pen, piece: Piece, inset: Inset) -> None:
    """From foot to foot, across below the plan and back on its left."""
    corner, placed = inset.at(*plan_box(piece)[:2]), {leg.position: leg for leg in piece.legs}
    pairs = {axis: (first, second) for first, second, axis in reversed(NEIGHBOURS) if {first, second} <= set(placed)}
    for axis, (first, second) in pairs.items():
        a, b = inset.at(*placed[first].foot), inset.at(*placed[second].foot)
        apart = written(abs(placed[second].foot[axis] - placed[first].foot[axis]), pen.unit)
        if axis == 0:
            pen.dimension((a[0], corner[1]), (b[0], corner[1]), -14.0, apart)
        else:
            pen.dimension((corner[0], a[1]), (corner[0], b[1]), 6.0, apart)


def draw_leg(pen: Pen, leg: LegSizes, inset: Inset, reach: float) -> Sight:
    """Draw one leg from above: its top and foot outlines, ring, fore-and-aft line and sight line.

    Args:
        pen: the plate's pen.
        leg: the leg; a left foot in a full line, a right one dashed.
        inset: where the plan stands in the picture.
        reach: how far the sight line goes beyond the top, in the piece's unit.

    Returns:
        Its sight line.
    """
    top, foot = inset.at(*leg.top), inset.at(*leg.foot)
    pen.shape((inset.at(*corner) for corner in leg.top_corners), "wood", "hidden")
    pen.shape((inset.at(*corner) for corner in ring_points(leg)), "pale", "")
    pen.shape((inset.at(*corner) for corner in leg.foot_corners), "", "hidden" if "right" in leg.position else "thin")
    forward = min(reach, max(pen.mm(_REACH_MM), abs(top[1] - foot[1])))
    sight = draw_sight(pen, leg, top, reach, forward)
    pen.dot(top, 0.5)
    pen.dot(foot, 0.6)
    return sight
