"""Plate 4: a drawer pulled apart along its depth, its corner at full size, and its parts with their subtractions."""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from math import dist

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_length
from furnlib.draw.drawing import Arc, Drawing, Fill, Item, Point, Text
from furnlib.draw.layout import NO_BREAK, extent, fitting_words, folded
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import ROOM_MM, fitted
from furnlib.draw.plates.drawer_corner import CornerView, corner_words, tick
from furnlib.draw.plates.together import together
from furnlib.draw.plates.views import written
from furnlib.draw.scale import ratio_words
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.plan.sizes.size import Size

_BACK, _UP, _TURN_DEG = 0.25, 0.433, 60.0
"""Where depth goes on paper: half as long as it is, at 60 degrees."""
_APART_MM, _HEADS_MM = 5.0, 5.8  # from part to part; the heads of an arrow along the grain
_TALL_MM = 5.0  # a side's face that its name, slanted, has room on
_NAME_MM = 60.0  # longer names of alike rows are cut short
_LINE_MM = TEXT_MM["small"] * 1.5
_WIDE_MM = ROOM_MM[0] - 0.01  # so that rounding does not make it too wide
_EDGES_MM, _ENDS = (0.8, 24.0, 33.0, 35.0, 54.5, 55.5), (1, 2, 4)  # the table's columns, and which stand to their right

Span = tuple[Value, Value]


@dataclass(frozen=True)
class DrawerKind:
    """Rows whose drawers are alike.

    Args:
        drawers: of each row.
        name: such as "rows 1 to 6, 12 alike".
    """

    drawers: tuple[DrawerSizes, ...]
    name: str


def drawer_kinds(piece: Piece, key: Callable[[DrawerSizes], Hashable] | None = None) -> tuple[DrawerKind, ...]:
    """Group the rows of a piece by the parts of their drawers.

    Args:
        piece: a finished piece.
        key: what must be alike; by default all sizes with their rules, and the corner.

    Returns:
        The kinds in the order of their first rows; none where nothing is said of drawers.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [kind.name for kind in drawer_kinds(read_piece("notebooks/designs/landing_chest.yaml"))][:2]
        ['row 1, 2 alike', 'row 2']
    """
    found: dict[Hashable, list[DrawerSizes]] = {}
    for drawer in piece.drawers if isinstance(piece, CasePiece) else ():
        found.setdefault((key or _sums)(drawer), []).append(drawer)
    kinds = []
    for alike in found.values():
        count = sum(drawer.count for drawer in alike)
        name = fitting_words((together(drawer.name for drawer in alike), f"{alike[0].name} and others"), _NAME_MM)
        kinds.append(DrawerKind(tuple(alike), f"{name}, {count} alike" if count > 1 else name))
    return tuple(kinds)


def _sums(drawer: DrawerSizes) -> Hashable:
    sums = tuple((part.name, size.value, size.rule) for part in drawer.parts for size in (part.length, part.width))
    return drawer.making, sums, drawer.dovetails


def drawer_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw plate 4.

    Args:
        piece: a finished case.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the kind of drawer, from 1; rows with the same parts share a sheet.

    Returns:
        The parts pulled apart along the depth, seen from the front, right and above; the corner at full
        size; every part with its sizes and the subtraction that each comes from.

    Raises:
        DesignError: when nothing is said of drawers, or there is no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> drawer_plate(read_piece("notebooks/designs/landing_chest.yaml"), number=3).name
        'Drawer 3'
    """
    kinds, unit = drawer_kinds(piece), piece.design.unit
    if not isinstance(piece, CasePiece) or not piece.design.drawers or not 1 <= number <= len(kinds):
        raise DesignError(
            f"{piece.design.piece} has no sheet of drawers {number}, it has {len(kinds)}: one for each kind of drawer"
            " that the part 'drawers' of its file makes."
        )
    kind, below = kinds[number - 1], piece.design.drawers.front.below
    drawer = kind.drawers[0]
    parts = (f"{part.name}, {part.count}: {part.length.rule}; {part.width.rule}." for part in drawer.parts)
    return _fitted(kind, unit, below, scale).drawing(
        f"Drawer {number}" if len(kinds) > 1 else "Drawer",
        caption=f"Drawer of {piece.design.piece}, {kind.name}: parts pulled apart along the depth.\n"
        f"Side {drawer.part('side').length.rule}; height {drawer.side_height.rule}.",
        spoken=" ".join((f"Drawer of {kind.name}, from the front, right and above; its corner at full size.",
                         *(said[:1].upper() + said[1:] for said in parts), *corner_words(drawer, unit),
                         f"Lengths in {unit}.")),
        formulas=("parts", *("dovetail",) * (drawer.dovetails is not None)),
    )  # fmt: skip


def _fitted(kind: DrawerKind, unit: Unit, below: Value, scale: float | None) -> Pen:
    """The plate at the largest usual scale that fits: its table beside the corner, or below it where that is larger."""
    beside, under = (fitted(unit, partial(_draw, kind=kind, below=below, beside=way), scale) for way in (True, False))
    return under if under.scale > beside.scale else beside


def _draw(pen: Pen, kind: DrawerKind, below: Value, beside: bool) -> None:
    """The picture above, the corner in what it leaves free on the right, the table below."""
    drawer, trial = kind.drawers[0], Pen(pen.scale, pen.unit)
    corner = CornerView(pen, drawer, below)
    wide_mm = _WIDE_MM - beside * (corner.wide_mm + 5.0)
    free = _Exploded(trial, drawer, below).draw()
    pen.items += _seen(trial)
    left, low, right, top = pen.reach()
    pen.text((left, top + pen.mm(3.0)), f"Drawer of {kind.name}, {ratio_words(pen.scale, pen.unit)}", bold=True)
    edge = max(right, left + pen.mm(_WIDE_MM)) - pen.mm(corner.wide_mm)
    high = next((high for past, high in ((right, top), free) if past + pen.mm(3.0) < edge), low) - pen.mm(3.0)
    taken = 0.0 if beside else 4.0 - parts_table(trial, (0.0, 0.0), drawer, wide_mm) * pen.scale
    foot = corner.draw((edge, high), ROOM_MM[1] - (top + pen.mm(6.0) - high) * pen.scale - taken)
    parts_table(pen, (left, (low if beside else min(low, foot)) - pen.mm(3.0)), drawer, wide_mm)


def parts_table(pen: Pen, at: Point, drawer: DrawerSizes, width_mm: float) -> float:
    """Write every part with its sizes and the sums that they come from, then what the corner does not say.

    Args:
        pen: the plate's pen.
        at: the upper left corner, in the piece's unit.
        drawer: the drawer.
        width_mm: how wide it may be on paper.

    Returns:
        How low it reaches, in the piece's unit.
    """
    unit, (x, y) = pen.unit, at

    def row(name: str, count: str, thick: str, what: str, size: Size) -> tuple[str, ...]:
        rule = size.rule.removeprefix(write_length(size.value, unit)).strip()
        terms = (term.replace(" ", NO_BREAK) for term in re.split(" (?=[-+/] )", rule))  # no term is torn
        return name, count, thick, what, written(size.value, unit), " ".join(terms)

    rows: list[tuple[str, ...]] = [("Part", "each", "thick", "size, and where from", "", "")]
    for part in drawer.parts:
        rows.append(row(part.name, str(part.count), written(part.thickness, unit), "length", part.length))
        rows.append(row("", "", "", "width", part.width))
    for what, size in zip(("width", "depth", "height"), drawer.inside, strict=True):
        rows.append(row("inside" * (what == "width"), "", "", what, size))
    for number, cells in enumerate(rows):
        if number and cells[0]:
            pen.line((x, y - pen.mm(1.0)), (x + pen.mm(width_mm), y - pen.mm(1.0)), kind="hatch")
        for column, (words, right) in enumerate(zip(cells[:-1], _EDGES_MM, strict=False)):
            place, anchor = (x + pen.mm(right), y - pen.mm(_LINE_MM)), "end" if column in _ENDS else "start"
            pen.text(place, words, "small", anchor, bold=not number or column == 2)
        sums = folded(cells[-1], width_mm - _EDGES_MM[-1], "small")
        y = pen.lines((x + pen.mm(_EDGES_MM[-1]), y), sums, "small", 1.5)
    words = "Left and right: seen from the front. Length runs along the grain; of a bottom, across the drawer."
    notes = (note.replace(" +", f"{NO_BREAK}+") for note in (words, *corner_words(drawer, unit)))
    return pen.paragraphs((x, y - pen.mm(2.0)), notes, width_mm, gap_mm=0.6)


@dataclass(frozen=True)
class _Exploded:
    """The parts in space: across from the left, back from the face of the front that is joined, up from the runner."""

    pen: Pen
    drawer: DrawerSizes
    below: Value

    def draw(self) -> Point:
        """Draw them from the rear to the front; how far right the fronts reach, and how low the sides."""
        drawer, made, air = self.drawer, self.drawer.making, self.pen.mm(_APART_MM)
        wide, end = drawer.inside[0].value + 2 * made.side_thickness, made.lap + drawer.part("side").length.value
        back, bottom, thick = drawer.part("back"), drawer.part("bottom"), made.side_thickness
        rear, upper = end - made.side_tail + air / _UP, made.groove_height + made.groove_width
        hidden = min(0.4 * back.width.value, 0.17 * bottom.width.value)  # of the bottom, behind the back
        behind = rear + made.back_thickness + (back.width.value - hidden + air) / _UP
        xs, ys, sheet = _about(wide, bottom.length), (behind, behind + bottom.width.value), bottom.grain == "none"
        self._box(xs, ys, (upper - made.bottom_thickness, upper), sheet)
        self._words("bottom", xs, 0.3 * ys[0] + 0.7 * ys[1], upper, _UP * bottom.width.value, sheet)
        xs, zs = _about(wide, back.length), (made.floor_height, made.floor_height + back.width.value)
        self._box(xs, (rear, rear + made.back_thickness), zs)
        self._words("back", xs, rear, sum(zs) / 2, zs[1] - zs[0])
        self._side("left side", (0, thick), (made.lap, end))
        if made.slip_width:
            self._slips(wide)
        self._side("right side", (wide - thick, wide), (made.lap, end))
        return self._fronts(wide), float(made.lap * _UP)

    def _fronts(self, wide: Value) -> float:
        """The front that is joined, with its sockets, and what of it or of another goes past it; how far right."""
        made, front, air, high = self.drawer.making, self.drawer.part("front"), self.pen.mm(_APART_MM), self._high
        flush, inner, joined = made.front == "flush", made.inner_front, made.joined_front
        low = self.below if flush else -made.overlay
        shown, across, whole = (low, low + front.width.value), _about(wide, front.length), (0, wide)
        zs = shown if flush and not inner else (0, high)
        pull = made.lap - joined - (max(zs[1], shown[1]) + air) / _UP
        before, rebated = pull - (0.6 * shown[1] + air) / _UP, made.joint == "rebated"
        boards = [((made.side_thickness, wide - made.side_thickness), made.lap, joined, pull, zs)] * rebated
        boards.append((whole, made.lip, made.lap if rebated else joined, pull, zs))
        boards += [(across, -made.front_thickness, 0, before, shown)] * bool(inner)
        boards += [(across, 0, made.lip, pull, shown)] * bool(made.lip)
        for xs, start, until, away, heights in boards:
            self._box(xs, (start + away, until + away), heights)
        for tail in self.drawer.dovetails.front.tail_outlines if self.drawer.dovetails else ():
            self._patch((wide, made.lap + d + pull, high - u) for u, d in tail)
        xs, start, _, away, heights = boards[-1]
        self._words("front", xs, start + away, sum(heights) / 2, heights[1] - heights[0])
        if inner:
            self._words("inner front", whole, pull, 0.7 * high, 0.5 * high)
        return float(max(wide, across[1]))

    @property
    def _high(self) -> Value:
        return self.drawer.side_height.value

    def _side(self, name: str, xs: Span, ys: Span) -> None:
        """A side: tails at its ends, on the face that is seen the bottom's groove and housing, or a guide's groove."""
        pen, made, corner, high, x = self.pen, self.drawer.making, self.drawer.dovetails, self._high, xs[1]
        self._box(xs, ys, (0, high))
        grooves, rear = [], ys[1] - made.side_tail
        if name == "right side":
            grooves += [(*ys, made.guide_height, made.guide_height + made.guide_width)] * (made.run == "side-hung")
        elif not made.slip_width:
            grooves.append((*ys, made.groove_height, made.floor_height))
        low, clear = min((low for _, _, low, _ in grooves), default=0), max((up for *_, up in grooves), default=0)
        foot, top = max((0, low), (clear, high), key=lambda ends: ends[1] - ends[0])  # beside the groove
        if made.back == "housed" and name == "left side":
            grooves.append((rear - made.back_thickness, rear, made.floor_height, high))
        for start, end, low, up in grooves:
            self._patch((x, y, z) for z, way in ((low, 1), (up, -1)) for y in (start, end)[::way])
        for waste in corner.front.waste_outlines if corner else ():
            self._patch((x, ys[0] + d, high - u) for u, d in waste)
            self._patch((at, ys[0], high - u) for at, way in ((x, 1), (xs[0], -1)) for u, _ in waste[:2][::way])
        for waste in corner.back.waste_outlines if corner and corner.back else ():
            self._patch((x, ys[1] - d, high - made.drop - u) for u, d in waste)
        long, sink = ys[1] - ys[0], pen.mm(TEXT_MM["small"] * 0.36)
        room = 0.2 * long * pen.scale if (top - foot) * pen.scale > _TALL_MM else 0.0
        words = fitting_words((name, name.partition(" ")[0], ""), room)
        # in the middle of the face, but below the back that stands behind a high one
        low = max(0.27 * long - pen.mm(0.44 * text_width_mm(words, "small") + 1.5), foot + pen.mm(3.0))
        level = min((foot + top) / 2, low)
        mark, middle, start, end = (self._at(x, ys[0] + t * long, level) for t in (0.09, 0.36, 0.6, 0.95))
        pen.text((middle[0] + 0.87 * sink, middle[1] - 0.5 * sink), words, "small", "middle", _TURN_DEG)
        self._grain(start, end)
        tick(pen, self._at(x, ys[0] + 0.58 * long, high))
        if name == "left side":
            tail = mark[0] + pen.mm(2.2), mark[1] - pen.mm(1.6)
            pen.line(*Arc(mark, pen.mm(1.1), 0.0, 300.0).points(30.0), tail, kind="thin")

    def _slips(self, wide: Value) -> None:
        """Both slips, drawn in from the sides that they are glued to."""
        made, away, broad = self.drawer.making, self.pen.mm(9.0), self.drawer.making.slip_width
        ys = (made.joined_front, made.joined_front + self.drawer.part("slip").length.value)
        left, right = made.side_thickness + away, wide - made.side_thickness - away - broad
        for x in (left, right):
            self._box((x, x + broad), ys, (0, made.slip_height))
            low, foot = made.groove_height, self._at(x, ys[0], 0)
            if x < wide / 2:
                grooves = ((low, ys), (low + made.groove_width, ys[::-1]))
                self._patch((x + broad, y, z) for z, ends in grooves for y in ends)
            if x == left or (right - left) * self.pen.scale > text_width_mm("slips", "small"):
                self.pen.text((foot[0], foot[1] - self.pen.mm(3.0)), "slip", "small")

    def _at(self, x: Value, y: Value, z: Value) -> Point:
        return float(x + _BACK * y), float(z + _UP * y)

    def _patch(self, corners: Iterable[tuple[Value, Value, Value]]) -> None:
        """A place where wood is cut away."""
        self.pen.shape((self._at(*corner) for corner in corners), "paper", "thin")

    def _box(self, xs: Span, ys: Span, zs: Span, stripes: bool = False) -> None:
        (x0, x1), (y0, y1), (z0, z1), at, shape = xs, ys, zs, self._at, self.pen.shape
        shape((at(x0, y0, z0), at(x1, y0, z0), at(x1, y0, z1), at(x0, y0, z1)), "wood")
        shape((at(x0, y0, z1), at(x1, y0, z1), at(x1, y1, z1), at(x0, y1, z1)), "far", hatch=stripes)
        shape((at(x1, y0, z0), at(x1, y1, z0), at(x1, y1, z1), at(x1, y0, z1)), "wood")

    def _words(self, name: str, xs: Span, y: Value, z: Value, high: Value, sheet: bool = False) -> None:
        """A part's name where its face is wide and high enough, and its grain across the drawer where it has one."""
        wide, half = float(xs[1] - xs[0]), self.pen.mm(text_width_mm(name, "small") / 2)
        x, up = self._at(xs[0] + 0.3 * wide, y, z)
        if 0.3 * wide > half and high * self.pen.scale > TEXT_MM["small"]:
            self.pen.centred((x, up), name, "small", clear=sheet)  # a sheet's stripes keep clear of it
        if not sheet:
            self._grain((x + max(0.2 * wide, half + self.pen.mm(1.0)), up), (x + 0.43 * wide, up))

    def _grain(self, start: Point, end: Point) -> None:
        """An arrow along the grain, where it has room for two heads."""
        if start < end and dist(start, end) > self.pen.mm(_HEADS_MM):
            middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            for tip in (start, end):
                self.pen.arrow(middle, tip, kind="thin")


def _seen(pen: Pen) -> Iterator[Item]:
    """What a pen has drawn, without the names that a part stands before."""
    fills = [(number, item.points) for number, item in enumerate(pen.items) if isinstance(item, Fill)]
    for number, item in enumerate(pen.items):
        corners = tuple(extent(item, pen.mm(1.0))) if isinstance(item, Text) else ()
        if not any(_within(corner, fill) for later, fill in fills if later > number for corner in corners):
            yield item


def _within(at: Point, corners: Sequence[Point]) -> bool:
    """Whether a point lies in an outline without hollows."""
    ways = [
        (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0]) for a, b in pairwise((*corners, corners[0]))
    ]
    return min(ways) >= 0 or max(ways) <= 0


def _about(wide: Value, size: Size) -> Span:
    """Where a part stands that has its middle where the box has it."""
    return (wide - size.value) / 2, (wide + size.value) / 2
