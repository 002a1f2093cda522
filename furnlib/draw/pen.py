"""A pen collects items and becomes a drawing: the few moves that every plate is drawn with."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate

from furnlib.base.angles import cosd, sind
from furnlib.base.units import Unit
from furnlib.draw.drawing import (
    AngleDimension,
    Arc,
    Dimension,
    Drawing,
    Fill,
    Item,
    Mark,
    Point,
    Stroke,
    Text,
)
from furnlib.draw.style import TEXT_MM, text_width_mm

MM_UNIT: dict[Unit, float] = {"mm": 1.0, "in": 25.4}
_RATIOS: dict[Unit, tuple[float, ...]] = {
    "mm": (1, 2, 2.5, 5, 10, 20, 50, 100),
    "in": (1, 2, 4, 8, 12, 16, 24, 48, 96),
}
PLATE_MM = (188.0, 225.0)
"""Room for a plate on a sheet that both A4 and letter hold, beside frame and title block."""


def fitting_scale(
    width: float, height: float, unit: Unit, beside_mm: float, above_mm: float, room: Point = PLATE_MM
) -> float:
    """Find the largest usual scale at which a picture fits on a sheet.

    Args:
        width: of what is drawn to scale, in the piece's unit.
        height: of what is drawn to scale, in the piece's unit.
        unit: "mm" (1:1, 1:2, 1:5 …) or "in" (1:1, 1:2, 1:4 …).
        beside_mm: room on paper taken by dimensions and words across.
        above_mm: the same upwards.
        room: width and height that may be filled, in mm on paper.

    Returns:
        Millimetres on paper for one unit of the piece.

    Example:
        >>> fitting_scale(900.0, 1300.0, "mm", 40.0, 40.0)
        0.1
    """
    for ratio in _RATIOS[unit]:
        scale = MM_UNIT[unit] / ratio
        if width * scale + beside_mm <= room[0] and height * scale + above_mm <= room[1]:
            return scale
    return MM_UNIT[unit] / _RATIOS[unit][-1]


def ratio_words(scale: float, unit: Unit) -> str:
    """Write a scale as its ratio.

    Args:
        scale: mm on paper for one unit of the piece.
        unit: the piece's unit, "mm" or "in".

    Returns:
        Such as "1 : 10".

    Example:
        >>> ratio_words(0.1, "mm"), ratio_words(12.7, "in")
        ('1 : 10', '1 : 2')
    """
    return f"1 : {MM_UNIT[unit] / scale:.3g}"


def spread(places: Sequence[float], least: float) -> list[float]:
    """Move labels apart so that neighbours stand clear, each as near its place as the rest allows.

    Args:
        places: where the labels would like to stand, in rising order, any unit.
        least: the least distance between neighbours, in the same unit.

    Returns:
        Where they stand, in the same order.

    Example:
        >>> spread([0.0, 1.0, 10.0], 3.0)
        [-1.0, 2.0, 10.0]
    """
    groups: list[tuple[float, int]] = []  # middle and number of labels that stand shoulder to shoulder
    for place in places:
        middle, count = place, 1
        while groups and middle - groups[-1][0] < (count + groups[-1][1]) / 2 * least:
            before, many = groups.pop()
            middle = (before * many + middle * count) / (many + count)
            count += many
        groups.append((middle, count))
    return [middle + (i - (count - 1) / 2) * least for middle, count in groups for i in range(count)]


def extent(mark: Mark, mm: float) -> Iterable[Point]:
    """Points that hold a mark: its own, or the corners of the room that its letters take.

    Args:
        mark: a stroke, arc, fill or text.
        mm: the drawing's length for a mm on paper.

    Returns:
        Points in the drawing's unit.

    Example:
        >>> list(extent(Stroke(((0.0, 0.0), (1.0, 2.0))), 1.0))
        [(0.0, 0.0), (1.0, 2.0)]
    """
    if isinstance(mark, Arc):
        return mark.points()
    if not isinstance(mark, Text):
        return mark.points
    width, height = text_width_mm(mark.words, mark.size) * mm, TEXT_MM[mark.size] * mm
    if mark.bold:
        width *= 1.1
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[mark.anchor]
    c, s = cosd(mark.turn_deg), sind(mark.turn_deg)
    corners = [(start + x, y) for x in (0.0, width) for y in (-0.25 * height, 0.8 * height)]
    return [(mark.at[0] + x * c - y * s, mark.at[1] + x * s + y * c) for x, y in corners]


@dataclass
class Pen:
    """Collects what is drawn, in the piece's unit, at a scale that is known from the start.

    Args:
        scale: mm on paper for one unit of the piece.
        unit: the piece's unit, "mm" or "in".
    """

    scale: float
    unit: Unit
    items: list[Item] = field(default_factory=list)

    def mm(self, on_paper: float) -> float:
        """The piece's length that a distance on paper stands for."""
        return on_paper / self.scale

    def line(self, *points: Point, kind: str = "visible", closed: bool = False) -> None:
        """Draw through points."""
        self.items.append(Stroke(tuple(points), kind, closed))

    def shape(self, points: Iterable[Point], tint: str = "", kind: str = "visible", hatch: bool = False) -> None:
        """Fill an outline and draw round it."""
        corners = tuple(points)
        if tint:
            self.items.append(Fill(corners, tint, hatch))
        if kind:
            self.items.append(Stroke(corners, kind, closed=True))

    def box(
        self, left: float, bottom: float, right: float, top: float, tint: str = "", kind: str = "visible",
        hatch: bool = False,
    ) -> None:  # fmt: skip
        """Fill a rectangle and draw round it."""
        self.shape(((left, bottom), (right, bottom), (right, top), (left, top)), tint, kind, hatch)

    def dot(self, at: Point, radius_mm: float, tint: str = "ink") -> None:
        """Draw a filled dot of a size on paper."""
        step_deg = 15.0 if radius_mm < 2.0 else 3.0
        self.items.append(Fill(Arc(at, self.mm(radius_mm)).points(step_deg), tint))

    def circle(self, at: Point, radius: float, kind: str = "visible") -> None:
        """Draw a circle."""
        self.items.append(Arc(at, radius, kind=kind))

    def text(
        self, at: Point, words: str, size: str = "body", anchor: str = "start", turn_deg: float = 0.0,
        bold: bool = False, ink: str = "ink", clear: bool = False,
    ) -> None:  # fmt: skip
        """Write one line of words, its foot line at the point."""
        self.items.append(Text(at, words, size, anchor, turn_deg, bold, ink, clear))

    def centred(self, at: Point, words: str, size: str = "body", bold: bool = False, clear: bool = True) -> None:
        """Write words with their middle at the point."""
        self.text((at[0], at[1] - self.mm(TEXT_MM[size] * 0.36)), words, size, "middle", bold=bold, clear=clear)

    def lines(self, at: Point, rows: Iterable[str], size: str = "body", gap: float = 1.45) -> float:
        """Write lines below one another, the first one's top at the point; say where they end."""
        x, y = at
        for row in rows:
            y -= self.mm(TEXT_MM[size] * gap)
            self.text((x, y), row, size)
        return y

    def dimension(self, start: Point, end: Point, offset_mm: float, words: str, bold: bool = False) -> None:
        """Measure between two points, on a line beside them."""
        self.items.append(Dimension(start, end, offset_mm, words, bold))

    def angle(self, centre: Point, radius_mm: float, start_deg: float, end_deg: float, words: str) -> None:
        """Show the angle between two directions."""
        self.items.append(AngleDimension(centre, radius_mm, start_deg, end_deg, words))

    def table(self, at: Point, rows: Sequence[Sequence[str]], bold_columns: Sequence[int] = ()) -> Point:
        """Write rows in columns under a ruled heading row, and say the far lower corner.

        The first column stands left, the rest right; every column is as wide as its widest entry.
        """
        size, step = "small", self.mm(TEXT_MM["small"] * 1.75)
        widths = [max(text_width_mm(cell, size) * 1.06 + 3.2 for cell in column) for column in zip(*rows, strict=True)]
        edges = [at[0] + self.mm(edge) for edge in accumulate(widths, initial=0.0)]
        y = at[1]
        for number, row in enumerate(rows):
            y -= step
            for column, cell in enumerate(row):
                bold = number == 0 or column in bold_columns
                if column == 0:
                    self.text((edges[0] + self.mm(0.8), y), cell, size, bold=bold)
                else:
                    self.text((edges[column + 1] - self.mm(0.8), y), cell, size, "end", bold=bold)
            rule = y - self.mm(1.0)
            self.line((edges[0], rule), (edges[-1], rule), kind="frame" if number == 0 else "hatch")
        return edges[-1], y - self.mm(1.0)

    def inset(self, origin: Point, times: float) -> Inset:
        """A pen for a part drawn so many times larger, with its own zero at the origin."""
        return Inset(self, origin, times)

    def drawing(self, name: str, *, caption: str = "", spoken: str = "", formulas: tuple[str, ...] = ()) -> Drawing:
        """Finish: everything drawn so far, in a box that holds it all with a little air."""
        unboxed = Drawing(
            name, tuple(self.items), self.scale, (0.0, 0.0, 0.0, 0.0), self.unit, caption, spoken, formulas
        )
        xs, ys = zip(*(point for mark in unboxed.marks() for point in extent(mark, self.mm(1.0))), strict=True)
        air = self.mm(2.0)
        return replace(unboxed, box=(min(xs) - air, min(ys) - air, max(xs) + air, max(ys) + air))


@dataclass(frozen=True)
class Inset:
    """Places points of a part that is drawn at another size within the same picture.

    Args:
        pen: the picture's pen.
        origin: where the part's own zero stands, in the picture.
        times: how many times larger than the rest it is drawn.
    """

    pen: Pen
    origin: Point
    times: float

    def at(self, x: float, y: float) -> Point:
        """Where a point of the part stands in the picture."""
        return self.origin[0] + x * self.times, self.origin[1] + y * self.times
