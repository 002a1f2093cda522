"""Plate 6: the legs in plan with their sight lines, and each lean's true triangle laid flat."""

from __future__ import annotations

from collections.abc import Callable

from furnlib.base.units import Unit, write_angle, write_length
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.views import along_sight_line, leg_height, written
from furnlib.draw.scale import PLATE_MM, fitting_scale, ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.design import POSITIONS
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, NEIGHBOURS, LegSizes, mirror_groups

Groups = tuple[tuple[LegSizes, ...], ...]

LEANS_ON_SHEET = 2
_CELL_MM = 93.0
_BELOW_MM = 35.5
_ABOVE_MM = 37.5
_NAMES_MM = 42.0
_ROUND_PLAN_MM = 26.0  # sight line, angle and sizes round the plan of one leg
WORDS_NOTE = "Rake = seen from the side, splay = seen from the front, here."


def group_name(group: tuple[LegSizes, ...]) -> str:
    """Name the legs of a group.

    Args:
        group: one to four legs that share their settings.

    Returns:
        Such as "Front left and front right".

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [group_name(group) for group in mirror_groups(read_piece("notebooks/designs/landing_chest.yaml").legs)]
        ['Front left and front right', 'Rear left and rear right']
    """
    names = [leg.position for leg in group]
    if len(names) == len(POSITIONS):
        return "All four legs"
    joined = f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else f"{names[0]}"
    return joined.capitalize()


def hand_words(group: tuple[LegSizes, ...]) -> str:
    """Say how the legs of a group differ, if at all.

    Args:
        group: one to four legs that share their settings.

    Returns:
        Words to follow their names.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> hand_words(mirror_groups(read_piece("notebooks/designs/landing_chest.yaml").legs)[0])
        'same settings, opposite hand'
    """
    hands = {leg.outward[0] * leg.outward[1] for leg in group}
    if len(group) == 1:
        return "one of its kind"
    if len(group) == len(POSITIONS):
        return "same settings, two of each hand"
    return "same settings, opposite hand" if len(hands) > 1 else "same settings, same hand"


def sheets_of_legs(piece: Piece) -> int:
    """Count the sheets that the legs take: one for every two leans.

    Args:
        piece: a finished piece.

    Returns:
        How many sheets; 0 where the piece has no legs.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sheets_of_legs(read_piece("notebooks/designs/landing_chest.yaml"))
        1
    """
    return -(-len(mirror_groups(piece.legs)) // LEANS_ON_SHEET)


def leans_on_sheet(piece: Piece, number: int) -> Groups:
    """The leans that one sheet holds.

    Args:
        piece: a finished piece with legs.
        number: of the sheet, from 1.

    Returns:
        At most two groups of legs, each group sharing its settings.
    """
    return mirror_groups(piece.legs)[(number - 1) * LEANS_ON_SHEET : number * LEANS_ON_SHEET]


def sheet_name(piece: Piece, name: str, number: int) -> str:
    """Number the name of a plate where the legs take several sheets.

    Args:
        piece: a finished piece with legs.
        name: of the plate.
        number: of the sheet, from 1.

    Returns:
        The name, such as "Legs" or "Legs 2".
    """
    return f"{name} {number}" if sheets_of_legs(piece) > 1 else name


def legs_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw plate 6.

    Args:
        piece: a finished piece with legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1, where the legs take several.

    Returns:
        Plan with sight lines, foot dots and foot outlines; for each lean a plan at a larger scale
        and the true triangle of height, foot run and axis.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> plate = legs_plate(read_piece("notebooks/designs/landing_chest.yaml"))
        >>> plate.name, plate.formulas[0]
        ('Legs', 'lean.total_lean')
    """
    design, unit = piece.design, piece.design.unit
    width, depth = float(design.overall.width), float(design.overall.depth)
    groups = leans_on_sheet(piece, number)
    plan_scale = fitting_scale(width, depth, unit, 2 * _NAMES_MM, 24.0, (PLATE_MM[0], 118.0))
    pen = Pen(scale or _lean_scale(piece, groups, PLATE_MM[1] - depth * plan_scale - _ABOVE_MM), unit)
    _plan(pen, piece, plan_scale / pen.scale)
    notes = (
        f"{WORDS_NOTE} Sizes beside the plan: to the legs' axes, and from foot to foot.",
        f"Plan of the case and its legs from above, front edge below, {ratio_words(plan_scale, unit)}.",
    )
    for line, words in enumerate(reversed(notes)):
        pen.text((0.0, pen.reach()[3] + pen.mm(3.0 if line == 0 else 1.2)), words, "small")
    _cells(pen, piece, groups, -pen.mm(32))
    return _finished(pen, piece, groups, sheet_name(piece, "Legs", number))


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
    pen = Pen(scale or _lean_scale(piece, groups, 118.0 * max(sheets_of_legs(piece), 1)), piece.design.unit)
    _cells(pen, piece, groups, 0.0)
    return _finished(pen, piece, groups, "Leans")


def _lean_scale(piece: Piece, groups: Groups, room_mm: float) -> float:
    """The largest usual scale at which the leans fit two abreast into the room that is left."""
    lines = max((len(groups) + 1) // 2, 1)
    across, unit = _plan_extent(piece), piece.design.unit
    room = (_CELL_MM, room_mm / lines - _BELOW_MM)
    run = max((float(leg.foot_run.plan) for leg in piece.legs), default=0.0)
    triangles = fitting_scale(across + run, leg_height(piece), unit, 40.0, 0.0, room)
    return min(triangles, fitting_scale(across, across, unit, 0.0, _ROUND_PLAN_MM, room))


def _plan_extent(piece: Piece) -> float:
    """How much of the plan one leg takes: its square and its longest foot run."""
    run = max((float(leg.foot_run.plan) for leg in piece.legs), default=0.0)
    return run + (float(piece.design.legs.square) if piece.design.legs else 0.0)


def _cells(pen: Pen, piece: Piece, groups: Groups, top: float) -> None:
    """Some leans, two abreast."""
    height = max(leg_height(piece), _plan_extent(piece) + pen.mm(_ROUND_PLAN_MM))
    for i, group in enumerate(groups):
        line = i // 2 * (height + pen.mm(_BELOW_MM))
        _cell(pen, piece, group, (i % 2 * pen.mm(_CELL_MM), top - line - height), height)


def _finished(pen: Pen, piece: Piece, groups: Groups, name: str) -> Drawing:
    return pen.drawing(
        name,
        caption=_caption(piece, groups),
        spoken=_spoken(piece, groups),
        formulas=("lean.total_lean", "lean.sight_line", "lean.axis_length", "lean.foot_run"),
    )


def _plan(pen: Pen, piece: Piece, magnification: float) -> None:
    """The whole plan, seen from above."""
    design, unit = piece.design, piece.design.unit
    depth, width = float(design.overall.depth), float(design.overall.width)
    inset = pen.inset((pen.mm(_NAMES_MM), 0.0), magnification)
    pen.shape((inset.at(*c) for c in ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))), "far")
    for leg in piece.legs:
        _leg_in_plan(pen, leg, lambda point: inset.at(*point), pen.mm(13))
        side = leg.outward[0]
        edge = inset.at(0.0 if side < 0 else width, leg.top[1])
        for line, words in enumerate((leg.position.capitalize(), f"sight line {write_angle(leg.lean.sight_line_deg)}")):
            at = (edge[0] + side * pen.mm(14), edge[1] + pen.mm(0.6 - 3.6 * line))
            pen.text(at, words, "small", "end" if side < 0 else "start", bold=line == 0)
    placed, left = {leg.position: leg for leg in piece.legs}, inset.at(0.0, 0.0)
    if design.legs and "front left" in placed:
        top, corner = inset.at(*placed["front left"].top), inset.at(width, 0.0)
        pen.dimension(left, (top[0], left[1]), -14.0, written(design.legs.inset.side, unit), bold=True)
        pen.dimension(corner, (corner[0], top[1]), -5.0, written(design.legs.inset.front, unit), bold=True)
    for first, second, axis in NEIGHBOURS[::2]:
        if first in placed and second in placed:
            a, b = inset.at(*placed[first].foot), inset.at(*placed[second].foot)
            apart = written(abs(placed[second].foot[axis] - placed[first].foot[axis]), unit)
            if axis == 0:
                pen.dimension((a[0], 0.0), (b[0], 0.0), -7.0, apart)
            else:
                pen.dimension((left[0], a[1]), (left[0], b[1]), 6.0, apart)


def _leg_in_plan(pen: Pen, leg: LegSizes, place: Callable[[Point], Point], reach: float) -> None:
    """Top square, foot outline, fore-and-aft line and sight line of one leg, front below."""
    top, foot = place(leg.top), place(leg.foot)
    pen.shape(map(place, leg.top_corners), "wood", "hidden")
    pen.shape(map(place, leg.foot_corners), "", "thin")
    pen.line((top[0], top[1] - leg.outward[1] * pen.mm(4)), (top[0], top[1] + leg.outward[1] * reach), kind="centre")
    if leg.foot_run.plan:
        pen.line(top, along_sight_line(leg, top, reach), kind="sight")
    pen.dot(top, 0.5)
    pen.dot(foot, 1.0)


def _cell(pen: Pen, piece: Piece, group: tuple[LegSizes, ...], origin: Point, room: float) -> None:
    """One lean: its plan at the plate's own scale, and the true triangle beside it."""
    leg, unit, height = group[0], piece.design.unit, leg_height(piece)
    x, y = origin
    pen.text((x, y + room + pen.mm(8)), group_name(group), "body", bold=True)
    pen.text((x, y + room + pen.mm(4.2)), hand_words(group), "small")
    pen.text((x, y - pen.mm(8.4)), "plan, front edge below", "small")
    _leg_plan(pen, piece, leg, (x + pen.mm(13), y + room / 2))
    run = float(leg.foot_run.plan)
    foot_x = x + pen.mm(_CELL_MM - 24) - run / 2
    apex, low, foot = (foot_x, y + height), (foot_x, y), (foot_x + run, y)
    pen.shape((apex, low, foot), "wood")
    pen.dimension(low, apex, 5.0, written(piece.design.legs.height if piece.design.legs else 0, unit), bold=True)
    if run:
        pen.dimension(low, foot, -4.0, written(leg.foot_run.plan, unit))
    pen.dimension(foot, apex, -5.0, written(leg.end_cut.axis_length, unit))
    lean = leg.lean.total_lean_deg
    if lean:
        pen.angle(apex, min(26.0, height * pen.scale * 0.5), 270.0, 270.0 + lean, write_angle(lean, 2))
    label = f"true triangle, {ratio_words(pen.scale, unit)}"
    pen.text((x + pen.mm(_CELL_MM - 5.0), y - pen.mm(8.4)), label, "small", "end")
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
    _leg_in_plan(pen, leg, place, reach)
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
        f" {write_length(group[0].end_cut.axis_length, unit, style='spoken')}"
        for group in groups
    ]
    return f"Legs of {piece.design.piece} in plan with sight lines, and each true triangle. " + ". ".join(words) + "."
