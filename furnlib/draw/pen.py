"""A pen collects items and becomes a drawing: the few moves that every plate is drawn with."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
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
        items: what is drawn so far; none to begin with.
    """

    scale: float
    unit: Unit
    items: list[Item] = field(default_factory=list)

    def mm(self, on_paper_mm: float) -> float:
        """The piece's length that a distance on paper stands for.

        Args:
            on_paper_mm: a distance on the sheet, in mm; below 0 it points back.

        Returns:
            The length in the piece's unit.

        Example:
            >>> Pen(0.1, "mm").mm(14.0)
            140.0
        """
        return on_paper_mm / self.scale

    def line(self, *points: Point, kind: str = "visible", closed: bool = False) -> None:
        """Draw through points.

        Args:
            points: at least two, in the piece's unit.
            kind: a line kind of the style sheet.
            closed: True to come back to the first point.
        """
        self.items.append(Stroke(tuple(points), kind, closed))

    def shape(self, points: Iterable[Point], tint: str = "", kind: str = "visible", hatch: bool = False) -> None:
        """Fill an outline and draw round it.

        Args:
            points: the corners in turn, in the piece's unit.
            tint: a tint of the style sheet; "" to leave it empty.
            kind: a line kind of the style sheet; "" for no line.
            hatch: True to draw slanted lines over the tint as well.
        """
        corners = tuple(points)
        if tint:
            self.items.append(Fill(corners, tint, hatch))
        if kind:
            self.items.append(Stroke(corners, kind, closed=True))

    def box(
        self, left: float, bottom: float, right: float, top: float, tint: str = "", kind: str = "visible",
        hatch: bool = False,
    ) -> None:  # fmt: skip
        """Fill a rectangle and draw round it.

        Args:
            left: its left edge, in the piece's unit.
            bottom: its bottom edge, in the piece's unit.
            right: its right edge, in the piece's unit.
            top: its top edge, in the piece's unit.
            tint: a tint of the style sheet; "" to leave it empty.
            kind: a line kind of the style sheet; "" for no line.
            hatch: True to draw slanted lines over the tint as well.
        """
        self.shape(((left, bottom), (right, bottom), (right, top), (left, top)), tint, kind, hatch)

    def dot(self, at: Point, radius_mm: float, tint: str = "ink") -> None:
        """Draw a filled dot of a size on paper.

        Args:
            at: its middle, in the piece's unit.
            radius_mm: in mm on paper, above 0.
            tint: a tint of the style sheet.
        """
        step_deg = 15.0 if radius_mm < 2.0 else 3.0
        self.items.append(Fill(Arc(at, self.mm(radius_mm)).points(step_deg), tint))

    def circle(self, at: Point, radius: float, kind: str = "visible") -> None:
        """Draw a circle.

        Args:
            at: its middle, in the piece's unit.
            radius: in the piece's unit, above 0.
            kind: a line kind of the style sheet.
        """
        self.items.append(Arc(at, radius, kind=kind))

    def text(
        self, at: Point, words: str, size: str = "body", anchor: str = "start", turn_deg: float = 0.0,
        bold: bool = False, ink: str = "ink", clear: bool = False,
    ) -> None:  # fmt: skip
        """Write one line of words, its foot line at the point.

        Args:
            at: the point, in the piece's unit.
            words: what it says.
            size: a type size of the style sheet.
            anchor: which end stands at the point: "start", "middle" or "end".
            turn_deg: counter-clockwise, in degrees.
            bold: True for master sizes and headings.
            ink: a tint of the style sheet.
            clear: True to keep lines behind it off the letters.
        """
        self.items.append(Text(at, words, size, anchor, turn_deg, bold, ink, clear))

    def centred(self, at: Point, words: str, size: str = "body", bold: bool = False, clear: bool = True) -> None:
        """Write words with their middle at the point.

        Args:
            at: the point, in the piece's unit.
            words: what they say.
            size: a type size of the style sheet.
            bold: True for master sizes and headings.
            clear: True to keep lines behind them off the letters.
        """
        self.text((at[0], at[1] - self.mm(TEXT_MM[size] * 0.36)), words, size, "middle", bold=bold, clear=clear)

    def lines(self, at: Point, rows: Iterable[str], size: str = "body", line_spacing: float = 1.45) -> float:
        """Write lines below one another, the first one's top at the point.

        Args:
            at: the upper left corner, in the piece's unit.
            rows: what each line says.
            size: a type size of the style sheet.
            line_spacing: from one foot line to the next, as a multiple of the type size; above 0.

        Returns:
            How high the last foot line stands, in the piece's unit.

        Example:
            >>> Pen(1.0, "mm").lines((0.0, 100.0), ("First", "Second"), "body", 1.5)  # 2 x 1.5 x 2.9 mm
            91.3
        """
        x, y = at
        for row in rows:
            y -= self.mm(TEXT_MM[size] * line_spacing)
            self.text((x, y), row, size)
        return y

    def dimension(self, start: Point, end: Point, offset_mm: float, words: str, bold: bool = False) -> None:
        """Measure between two points, on a line beside them.

        Args:
            start: the first point, in the piece's unit.
            end: the second point, in the piece's unit.
            offset_mm: how far beside, in mm on paper; above 0 to the left, seen from start to end.
            words: the size as it is written.
            bold: True for a master size.
        """
        self.items.append(Dimension(start, end, offset_mm, words, bold))

    def angle(self, centre: Point, radius_mm: float, start_deg: float, end_deg: float, words: str) -> None:
        """Show the angle between two directions.

        Args:
            centre: where they meet, in the piece's unit.
            radius_mm: of the arc, in mm on paper, above 0.
            start_deg: first direction in degrees, counter-clockwise from x.
            end_deg: second direction in degrees, above the first.
            words: the angle as it is written.
        """
        self.items.append(AngleDimension(centre, radius_mm, start_deg, end_deg, words))

    def table(self, at: Point, rows: Sequence[Sequence[str]], bold_columns: Sequence[int] = ()) -> Point:
        """Write rows in columns under a ruled heading row.

        The first column stands left, the rest right; every column is as wide as its widest entry.

        Args:
            at: the upper left corner, in the piece's unit.
            rows: the heading row first; all with as many entries.
            bold_columns: which columns are bold, counted from 0.

        Returns:
            The lower right corner, in the piece's unit.
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

    def inset(self, origin: Point, magnification: float) -> Inset:
        """Begin a part that is drawn at another size, with its own zero at the origin.

        Args:
            origin: where the part's own zero stands, in the picture.
            magnification: how many times larger than the rest it is drawn, above 0.

        Returns:
            What places the part's points in the picture.
        """
        return Inset(self, origin, magnification)

    def drawing(self, name: str, *, caption: str = "", spoken: str = "", formulas: tuple[str, ...] = ()) -> Drawing:
        """Finish: everything drawn so far, in a box that holds it all with a little air.

        Args:
            name: what the picture shows, such as "Openings".
            caption: at most two lines: what, rule, number, reason.
            spoken: the picture in words, for those who hear it.
            formulas: keys of the formulas behind its numbers.

        Returns:
            The drawing.

        Example:
            >>> pen = Pen(0.5, "mm")
            >>> pen.line((0.0, 0.0), (100.0, 40.0))
            >>> pen.drawing("Line").box  # 2 mm of air on paper is 4 mm of the piece
            (-4.0, -4.0, 104.0, 44.0)
        """
        left, bottom, right, top = self.reach()
        air = self.mm(2.0)
        box = (left - air, bottom - air, right + air, top + air)
        return Drawing(name, tuple(self.items), self.scale, box, self.unit, caption, spoken, formulas)

    def reach(self) -> tuple[float, float, float, float]:
        """Say how far everything drawn so far reaches, so that words can stand clear of it.

        Returns:
            Left, bottom, right and top, in the piece's unit.

        Example:
            >>> pen = Pen(0.5, "mm")
            >>> pen.line((0.0, 0.0), (100.0, 40.0))
            >>> pen.reach()
            (0.0, 0.0, 100.0, 40.0)
        """
        unboxed = Drawing("", tuple(self.items), self.scale, (0.0, 0.0, 0.0, 0.0), self.unit)
        xs, ys = zip(*(point for mark in unboxed.marks() for point in extent(mark, self.mm(1.0))), strict=True)
        return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True)
class Inset:
    """Places points of a part that is drawn at another size within the same picture.

    Args:
        pen: the picture's pen.
        origin: where the part's own zero stands, in the picture.
        magnification: how many times larger than the rest it is drawn, above 0.
    """

    pen: Pen
    origin: Point
    magnification: float

    def at(self, x: float, y: float) -> Point:
        """Where a point of the part stands in the picture.

        Args:
            x: to the right of the part's zero, in the piece's unit.
            y: above the part's zero, in the piece's unit.

        Returns:
            The point in the picture.

        Example:
            >>> Pen(1.0, "mm").inset((10.0, 0.0), 2.0).at(3.0, 4.0)
            (16.0, 8.0)
        """
        return self.origin[0] + x * self.magnification, self.origin[1] + y * self.magnification
