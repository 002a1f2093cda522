"""A picture as data: its items in the piece's own unit, at a known scale.

Line kinds are named and not styled; letters and line widths are in mm on paper. A drawing knows
its scale (mm on paper for one unit of the piece), so that both worlds meet. It computes nothing
about furniture.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from furnlib.base.angles import atan2d, cosd, sind
from furnlib.base.guards import DesignError
from furnlib.base.units import Unit
from furnlib.draw.items import (
    AngleDimension,
    Arc,
    Contour,
    Dimension,
    Fill,
    Item,
    Mark,
    Point,
    Stroke,
    Text,
)
from furnlib.draw.style import HATCH_MM, TEXT_MM, text_width_mm

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = [
    "AngleDimension",
    "Arc",
    "Contour",
    "Dimension",
    "Drawing",
    "Fill",
    "Item",
    "Mark",
    "Point",
    "Stroke",
    "Text",
]

_CHORD_MM = 0.01  # on paper: how far a flattened contour may stray from its arcs


def _dimension_marks(item: Dimension, mm: float) -> Iterator[Mark]:
    """Draw a dimension: two witness lines, the line with slanted ticks, the words above it."""
    (x0, y0), (x1, y1) = item.start, item.end
    length = math.hypot(x1 - x0, y1 - y0) or 1.0
    along = ((x1 - x0) / length, (y1 - y0) / length)
    across = (-along[1], along[0])
    side = math.copysign(1.0, item.offset_mm)

    def at(point: Point, over_mm: float, on_mm: float = 0.0) -> Point:
        return (
            point[0] + (across[0] * over_mm + along[0] * on_mm) * mm,
            point[1] + (across[1] * over_mm + along[1] * on_mm) * mm,
        )

    first, last = at(item.start, item.offset_mm), at(item.end, item.offset_mm)
    for point in (item.start, item.end):
        near, far = at(point, side * 1.0), at(point, item.offset_mm + side * 1.2)
        if abs(item.offset_mm) > 1.5:
            yield Stroke((near, far), "dimension")
        foot = at(point, item.offset_mm)
        yield Stroke((at(foot, -0.9, -0.9), at(foot, 0.9, 0.9)), "bar")
    turn = atan2d(along[1], along[0])
    upright = -90.0 < turn <= 90.0 + 1e-9
    if not upright:
        turn += 180.0 if turn <= -90.0 else -180.0
    room = length / mm - text_width_mm(item.words, "body")
    lift = 0.9 if upright else -0.9
    middle = ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2)
    if room > 1.0:
        yield Stroke((first, last), "dimension")
        yield Text(at(middle, lift), item.words, "body", "middle", turn, item.bold, clear=True)
        return
    tail = text_width_mm(item.words, "body") + 2.5
    yield Stroke((first, at(last, 0.0, tail)), "dimension")
    beside = at(last, lift, tail / 2 + 0.8)
    yield Text(beside, item.words, "body", "middle", turn, item.bold, clear=True)


def _angle_marks(item: AngleDimension, mm: float) -> Iterator[Mark]:
    radius = item.radius_mm * mm
    yield Arc(item.centre, radius, item.start_deg, item.end_deg, "dimension")
    middle = (item.start_deg + item.end_deg) / 2
    reach = radius + (1.2 + 0.5 * text_width_mm(item.words, "small") * abs(cosd(middle))) * mm
    x, y = item.centre[0] + reach * cosd(middle), item.centre[1] + reach * sind(middle)
    drop = TEXT_MM["small"] * 0.36 * mm
    yield Text((x, y - drop + 0.5 * TEXT_MM["small"] * mm * sind(middle)), item.words, "small", "middle", clear=True)


def _hatch_marks(item: Fill, mm: float) -> Iterator[Mark]:
    """Slanted lines clipped to the outline: where they cross its edges in turn."""
    spacing = HATCH_MM * mm * math.sqrt(2)
    levels = [x - y for x, y in item.points]
    level, last = math.ceil(min(levels) / spacing) * spacing, max(levels)
    edges = list(zip(item.points, (*item.points[1:], item.points[0]), strict=True))
    while level < last:
        crossings = []
        for (x0, y0), (x1, y1) in edges:
            a, b = x0 - y0 - level, x1 - y1 - level
            if (a < 0) != (b < 0):
                t = a / (a - b)
                crossings.append((x0 + t * (x1 - x0), y0 + t * (y1 - y0)))
        crossings.sort()
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            yield Stroke((start, end), "hatch")
        level += spacing


def _moved(item: Item, move: Callable[[Point], Point], factor: float) -> Item:
    match item:
        case Stroke() | Contour() | Fill():
            return replace(item, points=tuple(move(p) for p in item.points))
        case Arc():
            return replace(item, centre=move(item.centre), radius=item.radius * factor)
        case Text():
            return replace(item, at=move(item.at))
        case Dimension():
            return replace(item, start=move(item.start), end=move(item.end))
        case AngleDimension():
            return replace(item, centre=move(item.centre))


@dataclass(frozen=True)
class Drawing:
    """A finished picture; every outlet shows the same one.

    Args:
        name: what it shows, such as "Openings".
        items: strokes, arcs, contours, fills, texts and dimensions, drawn in this order.
        scale: mm on paper for one unit of the piece.
        box: left, bottom, right, top of all that is drawn, in the drawing's unit.
        unit: the piece's unit, "mm" or "in".
        caption: at most two lines: what, rule, number, reason.
        spoken: the picture in words, for those who hear it.
        formulas: keys of the formulas behind its numbers.
    """

    name: str
    items: tuple[Item, ...]
    scale: float
    box: tuple[float, float, float, float]
    unit: Unit
    caption: str = ""
    spoken: str = ""
    formulas: tuple[str, ...] = field(default=())

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height on paper, in mm."""
        left, bottom, right, top = self.box
        return (right - left) * self.scale, (top - bottom) * self.scale

    def marks(self, hatch: bool = True) -> Iterator[Mark]:
        """The items with every dimension, contour and hatch drawn out: what an outlet has to know.

        Args:
            hatch: False to leave out slanted lines, which reach no further than what they lie over.

        Yields:
            Strokes, arcs, fills and texts in the order they are drawn, in the drawing's unit.
        """
        mm = 1 / self.scale
        for item in self.items:
            if isinstance(item, Dimension):
                yield from _dimension_marks(item, mm)
            elif isinstance(item, AngleDimension):
                yield from _angle_marks(item, mm)
            elif isinstance(item, Contour):
                yield item.flattened(_CHORD_MM * mm)
            else:
                yield item
                if hatch and isinstance(item, Fill) and item.hatch:
                    yield from _hatch_marks(item, mm)

    def placed_on_paper(self, left_mm: float, bottom_mm: float, scale: float = 1.0) -> tuple[Item, ...]:
        """The items as another drawing takes them, as large on paper, the corner of the box at a place.

        Args:
            left_mm: where the left edge of the box comes, in mm on paper from the other's zero.
            bottom_mm: where its bottom edge comes, in mm on paper from the other's zero.
            scale: mm on paper for one unit of the other drawing; 1 for a sheet, which is in mm.

        Returns:
            Items in the unit of the other drawing.
        """
        x0, y0, k = self.box[0], self.box[1], self.scale / scale

        def move(point: Point) -> Point:
            return ((point[0] - x0) * k + left_mm / scale, (point[1] - y0) * k + bottom_mm / scale)

        return tuple(_moved(item, move, k) for item in self.items)

    def plot(self, ax: Axes | None = None) -> Axes:
        """Draw with matplotlib into the given axes, or into new ones at true scale.

        Args:
            ax: axes to draw in; no other axes and no global state are touched.

        Returns:
            The axes, in the drawing's unit, with equal aspect.
        """
        from furnlib.draw import file_outlet  # noqa: PLC0415 - matplotlib is loaded only when asked for

        return file_outlet.plot(self, ax)

    def only(self, *kinds: str) -> Drawing:
        """The lines of some kinds alone, such as what is to be cut; words, tints and sizes stay behind.

        Args:
            kinds: line kinds of the style sheet.

        Returns:
            A drawing of the same name, scale and box.

        Raises:
            DesignError: when there is no line of such a kind.

        Example:
            >>> lines = Stroke(((0, 0), (10, 0)), "cut"), Stroke(((0, 1), (10, 1)), "thin")
            >>> Drawing("Lines", lines, 1.0, (0, 0, 10, 1), "mm").only("cut").items
            (Stroke(points=((0, 0), (10, 0)), kind='cut', closed=False),)
        """
        lines = [item for item in self.items if isinstance(item, Stroke | Arc | Contour)]
        kept = tuple(line for line in lines if line.kind in kinds)
        if not kept:
            there = ", ".join(dict.fromkeys(line.kind for line in lines)) or "none"
            raise DesignError(f"'{self.name}' has no line of the kind {' or '.join(kinds)}; the kinds in it: {there}.")
        return replace(self, items=kept)

    def save(self, path: str | Path) -> Path:
        """Write a PDF, SVG or PNG at the drawing's scale, or a DXF in its unit; same drawing, same bytes.

        Args:
            path: file to write, whole or not at all; its ending says which kind.

        Returns:
            The path.

        Raises:
            DesignError: when the ending is none of .pdf, .svg, .png and .dxf.
        """
        if Path(path).suffix.lower() == ".dxf":
            from furnlib.draw import cutter_outlet  # noqa: PLC0415 - ezdxf is loaded only when asked for

            return cutter_outlet.save(self, Path(path))
        from furnlib.draw import file_outlet  # noqa: PLC0415

        return file_outlet.save(self, Path(path))

    def svg(self) -> str:
        """The picture for a page, as one SVG element, without matplotlib.

        Returns:
            The SVG text.
        """
        from furnlib.draw import page_outlet  # noqa: PLC0415

        return page_outlet.svg(self)

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        from furnlib.draw import file_outlet  # noqa: PLC0415

        return {"image/svg+xml": self.svg(), "image/png": file_outlet.png(self), "text/plain": repr(self)}

    def __repr__(self) -> str:
        return f"<Drawing '{self.name}'>"
