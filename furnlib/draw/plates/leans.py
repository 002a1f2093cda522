"""Each lean by itself: the plan of one leg with its sight line, and the true triangle laid flat."""

from __future__ import annotations

from furnlib.base.units import write_angle
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates import card
from furnlib.draw.plates.groups import Group, Groups, hand_words, heading, lean_words
from furnlib.draw.plates.leg_plan import draw_leg
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.legs import LegSizes, mirror_groups

LEGS = card.Card(
    "Legs",
    lambda leg: leg.lean,
    "it stands on its case",
    "Legs of {}: total lean and sight line from the fore-and-aft line.",
    ("lean.total_lean", "lean.sight_line", "lean.axis_length", "lean.foot_run"),
)
CELL_MM = 93.0
_BELOW_MM = 35.5
_ROUND_PLAN_MM = 26.0  # sight line, angle and sizes round the plan of one leg


def leans_plate(piece: Piece, scale: float | None = None) -> Drawing:
    """Draw the leans alone, low enough to stay in view under the hand.

    Args:
        piece: a finished piece with legs.
        scale: mm on paper for one unit of the piece; by default the largest in 118 mm of height.

    Returns:
        For each lean the plan of one leg and its true triangle.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(leans_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[1])
        Front left and front right 9.95° on 36.8°; rear left and rear right 6° on 90°.
    """
    groups = mirror_groups(piece.legs)
    pen = Pen(scale or lean_scale(piece, groups, 118.0 * max(len(LEGS.sheets(piece)), 1)), piece.design.unit)
    draw_cells(pen, piece, groups, 0.0)
    return finished(pen, piece, groups, "Leans")


def lean_scale(piece: Piece, groups: Groups, room_mm: float) -> float:
    """The largest usual scale at which some leans fit two abreast.

    Args:
        piece: a finished piece with legs.
        groups: the leans.
        room_mm: height that may be filled, in mm on paper.

    Returns:
        Millimetres on paper for one unit of the piece.
    """
    lines = max((len(groups) + 1) // 2, 1)
    across, unit = _plan_extent(piece), piece.design.unit
    room = (CELL_MM, room_mm / lines - _BELOW_MM)
    run = max((float(leg.foot_run.plan) for leg in piece.legs), default=0.0)
    triangles = fitting_scale(across + run, _tallest(piece), unit, 40.0, 0.0, room)
    return min(triangles, fitting_scale(across, across, unit, 0.0, _ROUND_PLAN_MM, room))


def _plan_extent(piece: Piece) -> float:
    """How much of the plan one leg takes, from its top to its foot."""
    outlines = [zip(*leg.top_corners, *leg.foot_corners, strict=True) for leg in piece.legs]
    return max((max(places) - min(places) for outline in outlines for places in outline), default=0.0)


def _tallest(piece: Piece) -> float:
    return max((float(leg.height) for leg in piece.legs), default=0.0)


def draw_cells(pen: Pen, piece: Piece, groups: Groups, top: float) -> None:
    """Draw some leans, two abreast.

    Args:
        pen: the plate's pen.
        piece: a finished piece with legs.
        groups: the leans.
        top: where their upper edge stands, in the piece's unit.
    """
    height = max(_tallest(piece), _plan_extent(piece) + pen.mm(_ROUND_PLAN_MM))
    for i, group in enumerate(groups):
        line = i // 2 * (height + pen.mm(_BELOW_MM))
        draw_cell(pen, piece, group, (i % 2 * pen.mm(CELL_MM), top - line - height), height)


def draw_cell(pen: Pen, piece: Piece, group: Group, origin: Point, room: float) -> None:
    """Draw one lean: its plan at the plate's own scale, the true triangle beside it, numbers below.

    Args:
        pen: the plate's pen.
        piece: a finished piece with legs.
        group: the legs that lean like this.
        origin: the lower left corner of plan and triangle, in the piece's unit.
        room: their height, in the piece's unit.
    """
    leg, unit, height = group[0], piece.design.unit, float(group[0].height)
    x, y = origin
    heading(pen, group, (x, y + room + pen.mm(11.4)), hand_words(group))
    pen.text((x, y - pen.mm(8.4)), "plan, front edge below", "small")
    _leg_plan(pen, piece, leg, (x + pen.mm(13), y + room / 2))
    run = float(leg.foot_run.plan)
    foot_x = x + pen.mm(CELL_MM - 24) - run / 2
    apex, low, foot = (foot_x, y + height), (foot_x, y), (foot_x + run, y)
    pen.shape((apex, low, foot), "wood")
    pen.dimension(low, apex, 5.0, written(leg.height, unit), bold=isinstance(piece, CasePiece))
    if run:
        pen.dimension(low, foot, -4.0, written(leg.foot_run.plan, unit))
    pen.dimension(foot, apex, -5.0, written(leg.axis_length, unit))
    lean = leg.lean.total_lean_deg
    if lean:
        pen.angle(apex, min(26.0, height * pen.scale * 0.5), 270.0, 270.0 + lean, write_angle(lean, 2))
    label = f"true triangle, {ratio_words(pen.scale, unit)}"
    pen.text((x + pen.mm(CELL_MM - 5.0), y - pen.mm(8.4)), label, "small", "end")
    pen.paragraphs((x, y - pen.mm(10.0)), lean_words(leg, unit)[:2], CELL_MM - 4.0)


def _leg_plan(pen: Pen, piece: Piece, leg: LegSizes, corner: Point) -> None:
    """One leg from above at the plate's own scale, its foot runs and sight line measured."""
    unit, (across, back), corners = piece.design.unit, leg.outward, (*leg.top_corners, *leg.foot_corners)
    (left, right), (front, rear) = ((min(places), max(places)) for places in zip(*corners, strict=True))
    inset = pen.inset((corner[0] - left, corner[1] - (front + rear) / 2))
    reach = float(leg.foot_run.plan) + pen.mm(13)
    sight, sight_deg = draw_leg(pen, leg, inset, reach), leg.lean.sight_line_deg
    top, foot = inset.at(*leg.top), inset.at(*leg.foot)
    if sight_deg:
        pen.angle(top, reach * pen.scale - 3.0, *sight.turns_deg, write_angle(sight_deg))
    inner, behind = inset.at(left if across > 0 else right, front if back > 0 else rear)
    fore_aft, sideways = (written(abs(run), unit) for run in leg.foot_run[:2])
    if leg.foot_run.sideways:
        a, b = sorted((foot[0], top[0]))
        pen.dimension((a, behind), (b, behind), -5.0 * back, sideways)
    if leg.foot_run.fore_aft:
        a, b = sorted((foot[1], top[1]))
        inside = (b - a) * pen.scale > text_width_mm(fore_aft, "body") + 1.0
        beside = 5.0 if inside else 15.0  # clear of the other size, where both are written outside
        pen.dimension((inner, a), (inner, b), beside * across, fore_aft)


def finished(pen: Pen, piece: Piece, groups: Groups, name: str) -> Drawing:
    """Finish a plate of leans.

    Args:
        pen: the plate's pen.
        piece: a finished piece with legs.
        groups: the leans on it.
        name: of the plate.

    Returns:
        The drawing.
    """
    leans = [group[0].lean for group in groups]
    return card.finished(
        pen,
        name,
        groups,
        LEGS.what.format(piece.design.piece),
        [f" {write_angle(lean.total_lean_deg, 2)} on {write_angle(lean.sight_line_deg)}" for lean in leans],
        [lean_words(group[0], pen.unit) for group in groups],
        LEGS.formulas,
    )
