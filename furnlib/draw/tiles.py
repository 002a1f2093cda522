"""A drawing longer than a sheet, in windows that are laid together by register crosses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import ceil, floor, inf
from string import ascii_uppercase

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Drawing, Fill, Mark, Point, Stroke, Text
from furnlib.draw.layout import extent
from furnlib.draw.pen import Pen
from furnlib.draw.scale import PLATE_MM

APART_MM = 200.0
"""From one register cross to the next, along the strip on paper."""
_LAP_MM = 6.0  # past a cross: what both neighbours show
_CLEAR_MM = 6.0  # from the picture to the crosses beside it
_ARM_MM = 4.0
_FLAT_MM = 0.01  # how far a flattened arc may stray
_WORDS_MM = 4.0  # the line of words over the window
_HEAD_MM = 15.0  # the least that lines of words and air take over it
_SEAMS = tuple(first + second for first in ("", *ascii_uppercase) for second in ascii_uppercase)  # A to Z, then AA


def tiles(drawing: Drawing) -> tuple[Drawing, ...]:
    """Split a drawing along its x direction over sheets that both A4 and letter hold, at its own scale.

    Seams stand at every 200 mm of paper from the drawing's own zero, unless one sheet holds it turned.
    There each of both sheets has a cross on either side of the picture, and shows the picture 6 mm
    further. The picture is turned a quarter, so that it runs up the sheet.

    Args:
        drawing: the picture, its long way along x.

    Returns:
        The sheets from left to right, each to be set on paper like any plate; the drawing itself
        where one sheet holds it.

    Raises:
        DesignError: when the drawing is too high for a sheet, or longer than 702 sheets.

    Example:
        >>> stick = Drawing("Stick", (Stroke(((0, 0), (700, 0))),), 1.0, (0, -10, 700, 10), "mm")
        >>> [sheet.name for sheet in tiles(stick)]
        ['Stick, sheet 1 of 4', 'Stick, sheet 2 of 4', 'Stick, sheet 3 of 4', 'Stick, sheet 4 of 4']
    """
    long_mm, high_mm = drawing.size_mm
    if long_mm <= PLATE_MM[0] and high_mm <= PLATE_MM[1]:
        return (drawing,)
    room_mm = PLATE_MM[0] - 2 * (_CLEAR_MM + _ARM_MM + 2.0)
    if high_mm > room_mm or long_mm > len(_SEAMS) * APART_MM:
        raise DesignError(
            f"'{drawing.name}' is {long_mm:.0f} x {high_mm:.0f} mm on paper, and sheets joined in a row hold"
            f" {len(_SEAMS) * APART_MM:.0f} x {room_mm:.0f}: draw it less high, in parts or at a smaller scale."
        )
    apart, lap = APART_MM / drawing.scale, _LAP_MM / drawing.scale
    left, _, right, _ = drawing.box
    seams = [i * apart for i in range(floor((left + lap) / apart) + 1, ceil((right - lap) / apart))]
    if long_mm <= PLATE_MM[1] - _HEAD_MM:
        seams = []  # one sheet holds it, turned
    marks = list(drawing.marks())
    return tuple(_tile(drawing, marks, (left, *seams, right), number) for number in range(1, len(seams) + 2))


def _tile(drawing: Drawing, marks: list[Mark], seams: tuple[float, ...], number: int) -> Drawing:
    """One sheet: its window, the crosses at its seams, and what it joins to."""
    pen = Pen(drawing.scale, drawing.unit)
    start, end = seams[number - 1 : number + 1]
    lap, (left, bottom, right, top) = pen.mm(_LAP_MM), drawing.box
    window = max(start - lap, left), min(end + lap, right)
    own = start if number > 1 else -inf, end if number < len(seams) - 1 else inf
    pen.items.extend(_turned(part) for mark in marks for part in _in_window(mark, window, own, pen.mm(1.0)))
    joins = []
    for other, seam, inward in ((number - 1, start, 1), (number + 1, end, -1)):
        if 1 <= other < len(seams):
            letter = _SEAMS[min(number, other) - 1]
            joins.append(f"to {other} at {letter}")
            for side in (bottom - pen.mm(_CLEAR_MM), top + pen.mm(_CLEAR_MM)):
                _cross(pen, (-side, seam))
                pen.centred((-side, seam + inward * pen.mm(_ARM_MM + 3.0)), letter, bold=True, clear=False)
    which = f"sheet {number} of {len(seams) - 1}"
    how = f", joins {', '.join(joins)}: cross on cross; crosses stand {APART_MM:.0f} mm apart" if joins else ""
    words = f"{which.capitalize()}{how}."
    pen.text((-top, window[1] + pen.mm(_WORDS_MM)), words, "small")
    return pen.drawing(
        f"{drawing.name}, {which}",
        caption=drawing.caption,
        spoken=f"{drawing.spoken} {words}".strip(),
        formulas=drawing.formulas,
    )


def _cross(pen: Pen, at: Point) -> None:
    x, y, arm = *at, pen.mm(_ARM_MM)
    pen.line((x - arm, y), (x + arm, y), kind="thin")
    pen.line((x, y - arm), (x, y + arm), kind="thin")
    pen.circle(at, arm / 2, kind="thin")


def _turned(mark: Stroke | Fill | Text) -> Stroke | Fill | Text:
    """A quarter counter-clockwise about the drawing's zero."""
    if isinstance(mark, Text):
        return replace(mark, at=(-mark.at[1], mark.at[0]), turn_deg=mark.turn_deg + 90.0)
    return replace(mark, points=tuple((-y, x) for x, y in mark.points))


def _in_window(
    mark: Mark, window: tuple[float, float], own: tuple[float, float], mm: float
) -> Iterator[Stroke | Fill | Text]:
    """What of a mark lies in the window; words belong to the sheet that their middle is on, and stay on it."""
    match mark:
        case Text(at=(x, y)):
            xs = [point[0] for point in extent(mark, mm)]
            if own[0] <= (min(xs) + max(xs)) / 2 < own[1]:
                moved = max(window[0] - min(xs), 0.0) or min(window[1] - max(xs), 0.0)
                yield replace(mark, at=(x + moved, y))
        case Fill(points, tint):
            inside = _cut_off(_cut_off(points, window[0], 1.0), window[1], -1.0)
            if len(inside) > 2:
                yield Fill(inside, tint)  # its hatch comes drawn out
        case Arc():
            yield from _in_window(mark.flattened(_FLAT_MM * mm), window, own, mm)
        case Stroke(points, kind, True):
            outside = next((i for i, (x, _) in enumerate(points) if not window[0] <= x <= window[1]), None)
            if outside is None:
                yield mark
            else:  # begun out there, so that no corner on this sheet is left open
                opened = Stroke((*points[outside:], *points[: outside + 1]), kind)
                yield from _in_window(opened, window, own, mm)
        case Stroke(points, kind):
            for run in _runs(points, window):
                yield Stroke(run, kind)


def _across(a: Point, b: Point, x: float) -> Point:
    """Where the line from a to b crosses an upright at x."""
    return x, a[1] + (x - a[0]) / (b[0] - a[0]) * (b[1] - a[1])


def _cut_off(points: Sequence[Point], edge: float, side: float) -> tuple[Point, ...]:
    """What of an outline lies to the right of an edge; to its left where the side is below 0."""
    kept: list[Point] = []
    for a, b in zip(points, (*points[1:], *points[:1]), strict=True):
        if (a[0] - edge) * side >= 0:
            kept.append(a)
        if (a[0] - edge) * (b[0] - edge) < 0:
            kept.append(_across(a, b, edge))
    return tuple(kept)


def _runs(points: Sequence[Point], window: tuple[float, float]) -> Iterator[tuple[Point, ...]]:
    """The stretches of a line that lie between two uprights, cut exactly there."""
    run: list[Point] = []
    for a, b in pairwise(points):
        crossings = [_across(a, b, x) for x in window if (a[0] - x) * (b[0] - x) < 0]
        way = [a, *sorted(crossings, key=lambda point: point[0], reverse=b[0] < a[0]), b]
        for start, end in pairwise(way):
            if window[0] <= (start[0] + end[0]) / 2 <= window[1]:
                run = [*(run or [start]), end]
            elif run:
                yield tuple(run)
                run = []
    if run:
        yield tuple(run)
