"""A pen collects items and becomes a drawing: the few moves that every plate is drawn with."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from itertools import accumulate
from math import dist

from furnlib.base.units import Unit
from furnlib.draw.drawing import (
    AngleDimension,
    Arc,
    Contour,
    Dimension,
    Drawing,
    Fill,
    Item,
    Point,
    Stroke,
    Text,
)
from furnlib.draw.layout import Inset, extent, folded
from furnlib.draw.scale import PLATE_MM
from furnlib.draw.style import TEXT_MM, text_width_mm

_AIR_MM = 2.0  # round a picture
_READ_OUT = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄\u202f", "01234567890123456789/ ")


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


@dataclass
class Pen:
    """Collects what is drawn, in the piece's unit, at a scale that is known from the start.

    Args:
        scale: mm on paper for one unit of the piece.
        unit: the piece's unit, "mm" or "in".
        items: what is drawn so far; none to begin with, and only ever more.
    """

    scale: float
    unit: Unit
    items: list[Item] = field(default_factory=list)
    _held: tuple[int, tuple[Point, ...]] = field(default=(0, ()), init=False, repr=False, compare=False)
    """How many items were looked at when it was last asked how far they reach, and two corners that hold them."""

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

    def contour(
        self, points: Iterable[Point], bulges: Iterable[float], kind: str = "visible", closed: bool = False
    ) -> None:
        """Draw an outline of straight lines and true arcs.

        Args:
            points: at least two, in the piece's unit.
            bulges: of each stretch, see `Contour`: 0 straight, above 0 bowed to the right of its way.
            kind: a line kind of the style sheet.
            closed: True to come back to the first point.
        """
        self.items.append(Contour(tuple(points), tuple(bulges), kind, closed))

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
            words: what it says; nothing is written where there are none.
            size: a type size of the style sheet.
            anchor: which end stands at the point: "start", "middle" or "end".
            turn_deg: counter-clockwise, in degrees.
            bold: True for master sizes and headings.
            ink: a tint of the style sheet.
            clear: True to keep lines behind it off the letters.
        """
        if words:
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
            if row:  # an empty row is a gap
                self.text((x, y), row, size)
        return y

    def paragraphs(
        self, at: Point, sentences: Iterable[str], width_mm: float, size: str = "small", gap_mm: float = 0.0
    ) -> float:
        """Write sentences below one another, each folded to a width; those with a number hang on it.

        Args:
            at: the upper left corner, in the piece's unit.
            sentences: what each says.
            width_mm: the room across, in mm on paper, above 0.
            size: a type size of the style sheet.
            gap_mm: between one and the next, in mm on paper, at least 0.

        Returns:
            How high the last foot line stands, in the piece's unit.

        Example:
            >>> Pen(1.0, "mm").paragraphs((0.0, 100.0), ("1  Cut along the line.", "2  Fold."), 25.0)
            89.65
        """
        x, y = at
        for sentence in sentences:
            y = self.lines((x, y), folded(sentence, width_mm, size), size, 1.5) - self.mm(gap_mm)
        return y + self.mm(gap_mm)

    def arrow(self, start: Point, end: Point, kind: str = "visible", tint: str = "ink") -> None:
        """Draw a line with a filled head.

        Args:
            start: where it comes from, in the piece's unit.
            end: where it points, in the piece's unit.
            kind: a line kind of the style sheet.
            tint: of the head, from the style sheet.
        """
        self.line(start, end, kind=kind)
        long = self.mm(2.8) / dist(start, end)
        x, y = (start[0] - end[0]) * long, (start[1] - end[1]) * long
        barbs = ((end[0] + x - wide * y, end[1] + y + wide * x) for wide in (0.33, -0.33))
        self.shape((end, *barbs), tint, "")

    def broken(self, start: Point, end: Point) -> list[Point]:
        """The edge where a part goes on but its picture does not: straight, with a jog in the middle.

        Args:
            start: one end of the edge, in the piece's unit.
            end: the other, in the piece's unit.

        Returns:
            Its points, to fill up to and to draw through.
        """
        way, jog = (end[0] - start[0], end[1] - start[1]), self.mm(1.2) / dist(start, end)
        places = ((0.0, 0.0), (0.42, 0.0), (0.47, jog), (0.53, -jog), (0.58, 0.0), (1.0, 0.0))
        return [(start[0] + t * way[0] + o * way[1], start[1] + t * way[1] - o * way[0]) for t, o in places]

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

        The first column stands left, the rest right; every column is as wide as its widest entry, and
        columns stand closer where a sheet would not hold them.

        Args:
            at: the upper left corner, in the piece's unit.
            rows: the heading row first; all with as many entries.
            bold_columns: which columns are bold, counted from 0.

        Returns:
            The lower right corner, in the piece's unit.
        """
        size, step = "small", self.mm(TEXT_MM["small"] * 1.75)
        widths = [max(text_width_mm(cell, size) * 1.06 for cell in column) for column in zip(*rows, strict=True)]
        beside = min(3.2, max((PLATE_MM[0] - 4.0 - sum(widths)) / len(widths), 2.2))
        edges = [at[0] + self.mm(edge) for edge in accumulate((width + beside for width in widths), initial=0.0)]
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

    def inset(self, origin: Point, magnification: float = 1.0, turn_deg: float = 0.0) -> Inset:
        """Begin a part that is drawn at another size or turned, with its own zero at the origin.

        Args:
            origin: where the part's own zero stands, in the picture.
            magnification: how many times larger than the rest it is drawn, above 0.
            turn_deg: counter-clockwise, in degrees.

        Returns:
            What places the part's points in the picture.
        """
        return Inset(origin, magnification, turn_deg)

    def place(self, at: Point, draw: Callable[[Pen, Point], None]) -> Point:
        """Draw a part so that its upper left corner comes to stand at a point.

        Args:
            at: the point, in the piece's unit.
            draw: draws the part with a pen, its own zero at a point.

        Returns:
            Its lower right corner, in the piece's unit.

        Example:
            >>> Pen(1.0, "mm").place((0.0, 0.0), lambda pen, middle: pen.circle(middle, 5.0))
            (10.0, -10.0)
        """
        trial = Pen(self.scale, self.unit)
        draw(trial, (0.0, 0.0))
        left, bottom, right, top = trial.reach()
        draw(self, (at[0] - left, at[1] - top))
        return at[0] + right - left, at[1] + bottom - top

    def drawing(self, name: str, *, caption: str = "", spoken: str = "", formulas: tuple[str, ...] = ()) -> Drawing:
        """Finish: everything drawn so far, in a box that holds it all with a little air.

        Args:
            name: what the picture shows, such as "Openings".
            caption: at most two lines: what, rule, number, reason.
            spoken: the picture in words, for those who hear it; small fraction figures are read out as plain ones.
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
        air = self.mm(_AIR_MM)
        box = (left - air, bottom - air, right + air, top + air)
        heard = spoken.translate(_READ_OUT)
        return Drawing(name, tuple(self.items), self.scale, box, self.unit, caption, heard, formulas)

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
        count, corners = self._held
        new = Drawing("", tuple(self.items[count:]), self.scale, (0.0, 0.0, 0.0, 0.0), self.unit)
        points = (point for mark in new.marks(hatch=False) for point in extent(mark, self.mm(1.0)))
        xs, ys = zip(*corners, *points, strict=True)
        left, bottom, right, top = min(xs), min(ys), max(xs), max(ys)
        self._held = len(self.items), ((left, bottom), (right, top))
        return left, bottom, right, top
