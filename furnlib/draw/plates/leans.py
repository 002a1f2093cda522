"""Each lean by itself: the plan of one leg with its sight line, and the true triangle laid flat."""

from __future__ import annotations

from furnlib.base.units import Unit, write_angle, write_length
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.groups import Groups, group_name, hand_words, sheets_of_legs
from furnlib.draw.plates.leg_plan import draw_leg
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, LegSizes, mirror_groups

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
    pen = Pen(scale or lean_scale(piece, groups, 118.0 * max(sheets_of_legs(piece), 1)), piece.design.unit)
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
    """How much of the plan one leg takes: its section and its longest foot run."""
    thick = [float(leg.square or (leg.round.largest if leg.round else 0)) for leg in piece.legs]
    run = max((float(leg.foot_run.plan) for leg in piece.legs), default=0.0)
    return run + max(thick, default=0.0)


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


def draw_cell(pen: Pen, piece: Piece, group: tuple[LegSizes, ...], origin: Point, room: float) -> None:
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
    pen.text((x, y + room + pen.mm(8)), group_name(group), "body", bold=True)
    pen.text((x, y + room + pen.mm(4.2)), hand_words(group), "small")
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
    _numbers(pen, leg, unit, (x, y - pen.mm(10.0)))


def _numbers(pen: Pen, leg: LegSizes, unit: Unit, at: Point) -> None:
    gauge = f"{GAUGE_HEIGHT[unit]:g}"
    side, front, along = (written(run, unit) for run in leg.gauge_run)
    rake, splay = write_angle(leg.lean.rake_deg), write_angle(leg.lean.splay_deg)
    total, sight = write_angle(leg.lean.total_lean_deg, 2), write_angle(leg.lean.sight_line_deg)
    rows = (
        f"Rake {rake}, splay {splay}: total lean {total} on a sight line of {sight}.",
        f"Bevel gauge, run on {gauge}: {side} from the side, {front} from the front,",
        f"{along} along the sight line.",
    )
    pen.lines(at, rows, "small", 1.5)


def _leg_plan(pen: Pen, piece: Piece, leg: LegSizes, corner: Point) -> None:
    """One leg from above at the plate's own scale, its foot runs and sight line measured."""
    unit, (across, back) = piece.design.unit, leg.outward
    corners = (*leg.top_corners, *leg.foot_corners)
    left = min(point[0] for point in corners)
    middle = (min(point[1] for point in corners) + max(point[1] for point in corners)) / 2

    def place(point: Point) -> Point:
        return corner[0] + point[0] - left, corner[1] + point[1] - middle

    reach = float(leg.foot_run.plan) + pen.mm(13)
    draw_leg(pen, leg, place, reach)
    top, foot = place(leg.top), place(leg.foot)
    sight = leg.lean.sight_line_deg
    if sight:
        forward = 90.0 * back
        turned = forward - across * back * sight
        pen.angle(top, reach * pen.scale - 3.0, min(forward, turned), max(forward, turned), write_angle(sight))
    inner = (min if across > 0 else max)(place(point)[0] for point in corners)
    behind = (min if back > 0 else max)(place(point)[1] for point in corners)
    if leg.foot_run.sideways:
        a, b = sorted((foot[0], top[0]))
        pen.dimension((a, behind), (b, behind), -5.0 * back, written(abs(leg.foot_run.sideways), unit))
    if leg.foot_run.fore_aft:
        a, b = sorted((foot[1], top[1]))
        runs = (leg.foot_run.fore_aft, leg.foot_run.sideways)
        both_outside = not any(
            abs(run) * pen.scale > text_width_mm(written(abs(run), unit), "body") + 1.0 for run in runs
        )
        beside = 15.0 if both_outside else 5.0  # clear of the other size, where both are written outside
        pen.dimension((inner, a), (inner, b), beside * across, written(abs(leg.foot_run.fore_aft), unit))


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
    return pen.drawing(
        name,
        caption=_caption(piece, groups),
        spoken=_spoken(piece, groups),
        formulas=("lean.total_lean", "lean.sight_line", "lean.axis_length", "lean.foot_run"),
    )


def _caption(piece: Piece, groups: Groups) -> str:
    leans = "; ".join(
        f"{group_name(group).lower()} {write_angle(group[0].lean.total_lean_deg, 2)}"
        f" on {write_angle(group[0].lean.sight_line_deg)}"
        for group in groups
    )
    return f"Legs of {piece.design.piece}: total lean and sight line from the fore-and-aft line.\n{leans.capitalize()}."


def _spoken(piece: Piece, groups: Groups) -> str:
    unit = piece.design.unit
    words = [
        f"{', '.join(leg.position for leg in group)}: rake {write_angle(group[0].lean.rake_deg)},"
        f" splay {write_angle(group[0].lean.splay_deg)},"
        f" total lean {write_angle(group[0].lean.total_lean_deg, 2)}, sight line"
        f" {write_angle(group[0].lean.sight_line_deg)}, axis length"
        f" {write_length(group[0].axis_length, unit, style='spoken')}"
        for group in groups
    ]
    return f"Legs of {piece.design.piece} in plan with sight lines, and each true triangle. " + ". ".join(words) + "."
