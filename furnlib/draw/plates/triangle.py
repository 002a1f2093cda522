"""A card for the class: the true triangle to cut out, fold and stand on its sight line."""

from __future__ import annotations

from dataclasses import dataclass
from math import copysign
from textwrap import wrap

from furnlib.base.angles import atan2d, cosd, sind
from furnlib.base.units import Unit, write_angle, write_length
from furnlib.draw.drawing import Arc, Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.groups import LEANS_ON_SHEET, WORDS_NOTE, Groups, group_name, hand_words
from furnlib.draw.plates.views import along_sight_line, written
from furnlib.draw.scale import MM_UNIT, PLATE_MM, fitting_scale, ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, LegSizes, mirror_groups

_STEPS = (
    "1  Cut out the base and the triangle. Fold the tab square to the triangle.",
    "2  Stand it on the sight line: plumb edge over the small dot, foot on the large one.",
    "3  The long edge now lies as the leg's axis lies in the room. Lay a bevel gauge to the triangle.",
)
_OTHER_SIDE = "For the leg on the other side prick the lines of the base through, and use its back."
_ACROSS = "Turned half round, the same base serves the leg across the corner."
_KNIFE = "Scissors will do. A knife runs along a steel rule, away from the hand that holds it."
_LETTERS = 31  # on a line of words below a base
_WORDS_MM = 44.0
_ROOM_MM = (PLATE_MM[0] - 4.5, PLATE_MM[1] - 4.5)
_LEFT_MM, _GAP_MM = 8.0, 8.4  # the triangle's height beside it; from its foot to the base
_HEAD_MM, _TAB_MM, _BELOW_MM = 10.0, 8.0, 15.0
_NOTES_MM = 33.0
_PAST_MM, _SIGHT_MM = 7.0, 24.0  # sight line beyond the foot; its least length, for the words along it
_BASE_SIDE_MM, _BASE_END_MM = 9.25, 13.0
_TITLE_MM = 4.0
_WIDE_DEG = 60.0  # from here on an angle's size fits between its arms, close to their corner
_SKETCH_MM, _ALONE_MM = (24.0, 66.0), 46.0  # least and greatest height; width beside a card that stands alone


def sheets_of_triangles(piece: Piece) -> int:
    """Count the sheets that the true triangles take: one for every two leans.

    Args:
        piece: a finished piece.

    Returns:
        How many sheets; 0 where no leg leans.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sheets_of_triangles(read_piece("notebooks/designs/landing_chest.yaml"))
        1
    """
    return -(-len(_leaning(piece)) // LEANS_ON_SHEET)


def triangle_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw the true triangles as cards to cut out and fold.

    Args:
        piece: a finished piece with legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1; each holds two leans.

    Returns:
        For each lean a base with its sight line, and the triangle of height, foot run and axis
        with a tab to stand it on; a sentence for legs that stand plumb.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> triangle_plate(read_piece("notebooks/designs/landing_chest.yaml")).name
        'Triangle card'
    """
    unit, leaning = piece.design.unit, _leaning(piece)
    plumb = tuple(group for group in mirror_groups(piece.legs) if group not in leaning)
    leaning = leaning[(number - 1) * LEANS_ON_SHEET : number * LEANS_ON_SHEET]
    pen = Pen(scale or _fitting([group[0] for group in leaning], unit), unit)
    left = low = 0.0
    for group in leaning:
        right, bottom = _card(pen, piece, group, left, alone=len(leaning) == 1)
        left, low = max(right + pen.mm(2.0), left + pen.mm(_ROOM_MM[0] / 2)), min(low, bottom)
    _notes(pen, leaning, plumb, low)
    return pen.drawing(
        f"Triangle card {number}" if sheets_of_triangles(piece) > 1 else "Triangle card",
        caption=_caption(piece, leaning),
        spoken=_spoken(piece, leaning, plumb),
        formulas=("lean.total_lean", "lean.sight_line", "lean.axis_length", "lean.foot_run"),
    )


def _leaning(piece: Piece) -> Groups:
    return tuple(group for group in mirror_groups(piece.legs) if group[0].foot_run.plan)


def _fitting(legs: list[LegSizes], unit: Unit) -> float:
    """The largest usual scale at which the cards fit side by side."""
    scales = [MM_UNIT[unit]]
    width = _ROOM_MM[0] / 2 if len(legs) > 1 else _ROOM_MM[0] - _ALONE_MM
    room, beside = (width, _ROOM_MM[1] - _NOTES_MM), _LEFT_MM + _GAP_MM
    for leg in legs:
        run, across = float(leg.foot_run.plan), abs(float(leg.foot_run.sideways))
        base, ends = beside + 2 * _BASE_SIDE_MM + _PAST_MM, _HEAD_MM + 2 * _BASE_END_MM + _PAST_MM
        scales.append(fitting_scale(run + across, float(leg.height), unit, base, _HEAD_MM + _BELOW_MM, room))
        scales.append(fitting_scale(run, run, unit, beside + _WORDS_MM, ends, room))
    return min(scales)


def _card(pen: Pen, piece: Piece, group: tuple[LegSizes, ...], left: float, alone: bool) -> Point:
    """One lean: triangle, base, words and how it stands; how far right and down it reaches."""
    leg, top = group[0], -pen.mm(_HEAD_MM)
    pen.text((left, -pen.mm(3.4)), group_name(group), "body", bold=True)
    pen.text((left, -pen.mm(7.2)), f"{hand_words(group)}; drawn for the {leg.position} leg", "small")
    low = (left + pen.mm(_LEFT_MM), top - float(leg.height))
    _draw_triangle(pen, piece, leg, low)
    x = low[0] + float(leg.foot_run.plan) + pen.mm(_GAP_MM)
    right, bottom = _draw_base(pen, leg, (x, top))
    words = pen.lines((x, bottom - pen.mm(3.5)), _words(leg, pen.unit), "small", 1.5) - pen.mm(3.0)
    floor, right = low[1] - pen.mm(_BELOW_MM), max(right, x + pen.mm(_WORDS_MM))
    least, most = map(pen.mm, _SKETCH_MM)
    if alone:
        beside = right + pen.mm(4.0)
        _sketch(pen, leg, (beside, top), (pen.mm(_ROOM_MM[0]) - beside, max(most, top - floor)))
    elif words - floor >= least:
        _sketch(pen, leg, (x, words), (right - x, min(most, words - floor)))
    else:
        spare = min(most, pen.mm(_ROOM_MM[1] - _NOTES_MM) + min(floor, words))
        if spare >= least:
            _sketch(pen, leg, (low[0], min(floor, words)), (right - low[0], spare))
            return right, min(floor, words) - spare
    return right, min(floor, words)


def _draw_triangle(pen: Pen, piece: Piece, leg: LegSizes, low: Point) -> None:
    """The triangle upright on its run, a tab below: cut round both, fold along the run."""
    unit, run, height = piece.design.unit, float(leg.foot_run.plan), float(leg.height)
    (x, y), total = low, leg.lean.total_lean_deg
    apex, foot = (x, y + height), (x + run, y)
    tab, bevel = y - pen.mm(_TAB_MM), min(pen.mm(2.0), run / 4)
    pen.shape((apex, low, foot), "wood", "")
    pen.line(low, (x + bevel, tab), (x + run - bevel, tab), foot, apex, kind="cut", closed=True)
    pen.line(low, foot, kind="hidden")
    pen.dimension(low, apex, 5.0, written(leg.height, unit), bold=isinstance(piece, CasePiece))
    size = written(leg.foot_run.plan, unit)
    if run * pen.scale > text_width_mm(size, "body") + 1.0:
        pen.dimension(low, foot, -(_TAB_MM + 4.6), size)
    else:
        pen.text((x + run / 2, tab - pen.mm(4.2)), f"run {size}", "body", "middle")
    reach = min(pen.mm(22.0), 0.4 * height)
    pen.items.append(Arc(apex, reach, 270.0, 270.0 + total, "dimension"))
    beside = (x + reach * sind(total) + pen.mm(1.6), apex[1] - reach * cosd(total) - pen.mm(0.8))
    pen.text(beside, write_angle(total, 2), "small", bold=True)
    pen.text((x + 0.65 * run + pen.mm(1.6), y + 0.35 * height), "cut", "small")
    pen.text((foot[0] + pen.mm(1.6), y + pen.mm(0.9)), "foot", "small")
    if run * pen.scale > text_width_mm("fold", "small") + 4.0:
        pen.text((x + run / 2, y - pen.mm(_TAB_MM / 2 + 0.8)), "fold", "small", "middle")
    else:
        pen.text((foot[0] + pen.mm(1.6), y - pen.mm(3.6)), "fold", "small")
    _on_the_triangle(pen, leg, low)


def _on_the_triangle(pen: Pen, leg: LegSizes, low: Point) -> None:
    """What stays with the triangle when it is cut out: as many lines as its taper holds."""
    run, height = (float(size) * pen.scale for size in (leg.foot_run.plan, leg.height))
    lines = (f"total lean {write_angle(leg.lean.total_lean_deg, 2)}", _gauge(leg, pen.unit))
    for i, words in enumerate((*lines, f"axis {written(leg.axis_length, pen.unit)}")):
        out, end = 3.3 + 3.5 * i, 2.0 + text_width_mm(words, "small")
        if out + 1.0 <= run * (1 - end / height):
            pen.text((low[0] + pen.mm(out), low[1] + pen.mm(2.0)), words, "small", turn_deg=90.0)


def _gauge(leg: LegSizes, unit: Unit) -> str:
    return f"run {written(leg.gauge_run.plan, unit)} on {GAUGE_HEIGHT[unit]:g}"


@dataclass(frozen=True)
class _Base:
    """What the base shows, in plan, the place below the leg's top at zero."""

    forward: Point  # outward end of the fore-and-aft line
    behind: Point
    sight: Point  # end of the sight line, beyond the foot
    arms_mm: float  # from zero to where the angle's size stands
    corners: tuple[Point, ...]  # from the lower left one round


def _base_of(pen: Pen, leg: LegSizes) -> _Base:
    back, sight_deg = leg.outward[1], leg.lean.sight_line_deg
    reach = max(float(leg.foot_run.plan) + pen.mm(_PAST_MM), pen.mm(_SIGHT_MM))
    arms_mm = 14.0 if abs(sight_deg) >= _WIDE_DEG else reach * pen.scale - 1.0
    forward, behind = (0.0, back * pen.mm(arms_mm + 1.0)), (0.0, -back * pen.mm(6.0 if abs(sight_deg) <= 90.0 else 0.0))
    sight = along_sight_line(leg, (0.0, 0.0), reach)
    xs, ys = zip((0.0, 0.0), forward, behind, sight, strict=True)
    side, end = pen.mm(_BASE_SIDE_MM), pen.mm(_BASE_END_MM)
    spare = max(pen.mm(_WORDS_MM) - 2 * side - (max(xs) - min(xs)), 0.0) / 2
    left, right = min(xs) - side - spare, max(xs) + side + spare
    low, high = min(ys) - end, max(ys) + end
    return _Base(forward, behind, sight, arms_mm, ((left, low), (right, low), (right, high), (left, high)))


def _draw_base(pen: Pen, leg: LegSizes, corner: Point) -> Point:
    """The base from above, front edge below, its upper left corner given; its lower right one."""
    base, (across, back), sight_deg = _base_of(pen, leg), leg.outward, leg.lean.sight_line_deg
    (left, low), _, (right, high), _ = base.corners
    top = (corner[0] - left, corner[1] - high)

    def place(point: Point) -> Point:
        return top[0] + point[0], top[1] + point[1]

    pen.shape(map(place, base.corners), "", "cut")
    pen.line(place(base.behind), place(base.forward), kind="centre")
    pen.line(top, place(base.sight), kind="sight")
    pen.dot(top, 0.6)
    pen.dot(along_sight_line(leg, top, float(leg.foot_run.plan)), 1.0)
    if sight_deg:
        turns = (90.0 * back, 90.0 * back - across * back * sight_deg)
        pen.angle(top, base.arms_mm, min(turns), max(turns), write_angle(sight_deg))
    _stand_here(pen, leg, top)
    x, y = place((left, low))
    pen.text((top[0], y + pen.mm(1.6)), "front", "small", "middle", bold=True)
    pen.text((x + pen.mm(2.0), corner[1] - pen.mm(3.8)), f"{leg.position} leg", "small")
    pen.text((x + right - left, y - pen.mm(3.0)), "cut", "small", "end")
    return x + right - left, y


def _stand_here(pen: Pen, leg: LegSizes, top: Point) -> None:
    """Words along the sight line, on the side away from the fore-and-aft line."""
    (across, back), sight_deg = leg.outward, leg.lean.sight_line_deg
    away = copysign(1.0, sight_deg)
    away_x, away_y = away * across * cosd(sight_deg), -away * back * sind(sight_deg)
    along_x, along_y = along_sight_line(leg, (0.0, 0.0), 1.0)
    turn_deg = float(atan2d(along_y, along_x))
    if not -90.0 < turn_deg <= 90.0:
        turn_deg += 180.0 if turn_deg <= -90.0 else -180.0
    above = away_y * cosd(turn_deg) > away_x * sind(turn_deg)
    off = pen.mm(1.4 if above else 3.2)
    middle = along_sight_line(leg, top, max(float(leg.foot_run.plan) / 2, pen.mm(12.0)))
    at = (middle[0] + off * away_x, middle[1] + off * away_y)
    pen.text(at, "stand it here", "small", "middle", turn_deg)


def _sketch(pen: Pen, leg: LegSizes, corner: Point, room: Point) -> None:
    """The folded card as it stands, seen slantwise from above; upper left corner and room given."""
    base, foot = _base_of(pen, leg), along_sight_line(leg, (0.0, 0.0), float(leg.foot_run.plan))
    skew = 0.45 if foot[0] * foot[1] >= 0 else -0.45  # so that the triangle is not seen on edge

    def seen(point: Point, up: float = 0.0) -> Point:
        return point[0] + skew * point[1], 0.4 * point[1] + up

    floor = [seen(point) for point in base.corners]
    lines = [[seen(base.behind), seen(base.forward)], [seen((0.0, 0.0)), seen(base.sight)]]
    triangle = [seen((0.0, 0.0), float(leg.height)), seen((0.0, 0.0)), seen(foot)]
    xs, ys = zip(*floor, *triangle, strict=True)
    factor = min(room[0] / (max(xs) - min(xs)), (room[1] - pen.mm(_TITLE_MM)) / (max(ys) - min(ys)))
    spare = (room[0] - (max(xs) - min(xs)) * factor) / 2
    pen.text((corner[0] + room[0] / 2, corner[1] - pen.mm(2.2)), "as it stands", "small", "middle")

    def place(point: Point) -> Point:
        return corner[0] + spare + (point[0] - min(xs)) * factor, corner[1] - pen.mm(_TITLE_MM) - (
            max(ys) - point[1]
        ) * factor

    pen.shape(map(place, floor), "far", "thin")
    for line, kind in zip(lines, ("centre", "sight"), strict=True):
        pen.line(*map(place, line), kind=kind)
    pen.shape(map(place, triangle), "wood", "thin")


def _words(leg: LegSizes, unit: Unit) -> list[str]:
    """The numbers of one lean, in lines as wide as its base."""
    rake, splay = write_angle(leg.lean.rake_deg), write_angle(leg.lean.splay_deg)
    total, sight = write_angle(leg.lean.total_lean_deg, 2), write_angle(leg.lean.sight_line_deg)
    words = (
        f"Rake {rake}, splay {splay}.",
        f"Total lean {total}.",
        f"Sight line {sight}, from the fore-and-aft line.",
        f"Bevel gauge: {_gauge(leg, unit)}.",
        f"Axis {written(leg.axis_length, unit)}.",
    )
    return [line for sentence in words for line in wrap(sentence, _LETTERS, break_on_hyphens=False)]


def _notes(pen: Pen, leaning: Groups, plumb: Groups, low: float) -> None:
    """Below the cards: what to do, legs without a card, and what the drawing is true in."""
    pen.line((0.0, low), (pen.mm(_ROOM_MM[0] - 4.0), low), kind="hatch")
    steps = [*_STEPS] if leaning else []
    if any(len({leg.outward[0] for leg in group}) > 1 for group in leaning):
        steps.append(_OTHER_SIDE)
    if any(len({leg.outward[1] for leg in group}) > 1 for group in leaning):
        steps.append(_ACROSS)
    steps += [f"{group_name(group)}: plumb, so there is no triangle." for group in plumb]
    y = pen.lines((0.0, low), steps, "body", 1.5) - pen.mm(0.5)
    drawn = f"Drawn {ratio_words(pen.scale, pen.unit)}. Angles are true at any scale."
    pen.lines((0.0, y - pen.mm(0.5)), (f"{drawn} {WORDS_NOTE}", _KNIFE), "small", 1.5)


def _caption(piece: Piece, leaning: Groups) -> str:
    if not leaning:
        return f"The legs of {piece.design.piece} stand plumb: there is no triangle to cut out."
    leans = "; ".join(
        f"{group_name(group).lower()} {write_angle(group[0].lean.total_lean_deg, 2)},"
        f" {_gauge(group[0], piece.design.unit)}"
        for group in leaning
    )
    return f"True triangles of {piece.design.piece} to cut out and stand on their sight lines.\n{leans.capitalize()}."


def _spoken(piece: Piece, leaning: Groups, plumb: Groups) -> str:
    unit = piece.design.unit
    words = []
    for group in leaning:
        leg = group[0]
        height, run, axis, gauge = (
            write_length(size, unit, style="spoken")
            for size in (leg.height, leg.foot_run.plan, leg.axis_length, leg.gauge_run.plan)
        )
        words.append(
            f"{group_name(group)}: {height} high, {run} along the run, {axis} along the axis; total lean"
            f" {write_angle(leg.lean.total_lean_deg, 2)}, {gauge} on {GAUGE_HEIGHT[unit]:g}; sight line"
            f" {write_angle(leg.lean.sight_line_deg)} from the fore-and-aft line, drawn for the {leg.position} leg."
        )
    words += [f"{group_name(group)}: plumb, no triangle." for group in plumb]
    return f"Cards to cut out for the legs of {piece.design.piece}: a base and a true triangle each. {' '.join(words)}"
