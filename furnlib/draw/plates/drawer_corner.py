"""A drawer's front corner at full size: the right side from its outside, and a section through the groove below it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from furnlib.base.angles import Value
from furnlib.base.terms import Term
from furnlib.base.units import Unit
from furnlib.draw.drawing import Point
from furnlib.draw.layout import Inset
from furnlib.draw.pen import Pen
from furnlib.draw.plates.bank_kinds import chain_words
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.plan.sizes.size import Chain
from furnlib.trade.drawer.dovetail import Layout, edge_at_stop

_LEFT_MM, _SIDE_MM, _FRONT_MM = 13.0, 17.0, 11.0  # for sizes; so much of side and of front goes on behind the joint
_RIGHT_MM, _WORDS_MM = 13.0, 35.0  # for sizes; what titles and sizes take of the height
_ROOM_MM, _LEAST_MM = 9.0, 30.0  # a size needs beside its line; of the side is shown at the least


def tail_chain(layout: Layout, unit: Unit) -> Chain:
    """Pins and tails from the upper edge down, as they add up at the end of a side.

    Args:
        layout: the tails.
        unit: "mm" or "in".

    Returns:
        The chain.

    Example:
        >>> from furnlib.trade.drawer.dovetail import jig_layout
        >>> str(tail_chain(jig_layout(40, 20, 6, 14), "mm"))
        '3 + 14 + 6 + 14 + 3 = 40'
    """
    edges = (Fraction(0), *(Fraction(edge) for tail in layout.tails for edge in tail), Fraction(layout.height))
    return Chain("tails", tuple(Term(low - high) for high, low in pairwise(edges)), edges[-1], unit)


def corner_words(drawer: DrawerSizes, unit: Unit) -> Iterator[str]:
    """What a picture of the corner does not say by itself.

    Args:
        drawer: the drawer.
        unit: "mm" or "in".

    Yields:
        Sentences on tails, groove, the pair and the jig.
    """
    made, corner = drawer.making, drawer.dovetails
    if corner:
        chain = chain_words(tail_chain(corner.front, unit))
        yield f"Pins and tails at the end of the side, from its upper edge: {chain}."
        place, groove = f"The groove comes out {corner.groove.where}", corner.groove
        if groove.tail:
            place += f", number {groove.tail}; beside it {written(groove.room, unit)} of wood is left at the root"
        yield place + (f": plug {' x '.join(written(size, unit) for size in groove.plug)}." if groove.plug else ".")
    else:
        yield "Rebated corner, no tails." if made.joint == "rebated" else "The tails are not settled."
    if made.run == "side-hung":
        up, wide, deep = (written(size, unit) for size in (made.guide_height, made.guide_width, made.guide_depth))
        yield f"Groove for the runner, in each outer face: {up} over the lower edge, {wide} wide, {deep} deep."
    yield "The left side is the mirror image of the right one: a pair. Curl: inside face; tick: upper edge."
    if corner and not corner.by_hand:
        stops = "; ".join(
            f"{hand} side: front end {edge_at_stop(hand, 'front')}, rear end {edge_at_stop(hand, 'rear')}"
            for hand in ("left", "right")
        )
        yield f"Jig, end up and inside face to you, upper edge to the stop. {stops[0].upper()}{stops[1:]}."


@dataclass(frozen=True)
class CornerView:
    """The corner of a drawer at full size, within a plate of any scale.

    Args:
        pen: the plate's pen.
        drawer: the drawer.
        below: how much higher a flush front stands than the sides, in the piece's unit.
    """

    pen: Pen
    drawer: DrawerSizes
    below: Value

    @property
    def wide_mm(self) -> float:
        """How wide it stands on paper."""
        return _LEFT_MM + float(self._face + self._right) * self._full + _RIGHT_MM

    @property
    def _full(self) -> float:
        return MM_UNIT[self.pen.unit]

    @property
    def _face(self) -> Value:
        """Thickness of a show front before the one that the sides are joined to."""
        return self.drawer.making.front_thickness if self.drawer.making.inner_front else 0

    @property
    def _right(self) -> Value:
        return self.drawer.making.joined_front + _SIDE_MM / self._full

    @property
    def _over(self) -> Value:
        """How far a front that is not flush goes past the opening."""
        return self.drawer.making.overlay if self.drawer.making.front != "flush" else 0

    @property
    def _grooved(self) -> Value:
        """Where the side begins behind the face of its front, at the level of the groove."""
        made, corner = self.drawer.making, self.drawer.dovetails
        level = self.drawer.side_height.value - made.groove_height - made.groove_width / 2
        in_tail = corner is None or any(start <= level <= end for start, end in corner.front.roots)
        return made.lap if in_tail else made.joined_front

    def draw(self, at: Point, room_mm: float) -> float:
        """Draw both views.

        Args:
            at: their upper left corner, in the piece's unit.
            room_mm: how high they may stand on paper; what of the side has no room is broken off.

        Returns:
            How low they reach, in the piece's unit.
        """
        pen, full, made, height = self.pen, self._full, self.drawer.making, self.drawer.side_height.value
        deep, over = made.side_thickness + made.slip_width + _FRONT_MM / full, float(self._over)
        front = (self.below or -self._over) + self.drawer.front_height.value  # its upper edge
        gap = 3.0 + 4.5 * (made.groove_height * full < _ROOM_MM) + over * full
        past = max(float(front - height), 0.0)
        tails = self.drawer.dovetails.front.tails if self.drawer.dovetails else ()
        tops = (height, *(height - (above.end + below.start) / 2 for above, below in pairwise(tails)))
        room = (room_mm - _WORDS_MM - gap) / full - deep - over - past
        top = max((top for top in tops if top <= room), default=max(room, _LEAST_MM / full))
        part = ", its lowest part" * (top < height)
        x, wide = at[0] + pen.mm(_LEFT_MM + float(self._face) * full), self.wide_mm
        title = f"Corner at 1 : 1{part}: right side from outside, front to the left."
        low = pen.paragraphs(at, (title,), wide) - pen.mm(4.5 + float(top + past) * full)
        self._elevation(pen.inset((x, low), full / pen.scale), top, front if top == height else min(front, top))
        title = "A-A, level through the groove; outside below."
        low = pen.paragraphs((at[0], low - pen.mm(gap)), (title,), wide) - pen.mm(2.5 + float(deep) * full)
        self._section(pen.inset((x, low), full / pen.scale), deep)
        return low - pen.mm(7.0 + over * full)

    def _box(
        self, place: Inset, left: Value, low: Value, right: Value, high: Value, tint: str, kind: str = "visible"
    ) -> None:
        self.pen.box(*place.at(left, low), *place.at(right, high), tint, kind, hatch=tint == "pale")

    def _size(self, start: Point, end: Point, offset_mm: float, size: Value, bold: bool = True) -> None:
        self.pen.dimension(start, end, offset_mm, written(size, self.pen.unit), bold)

    def _elevation(self, place: Inset, top: Value, front: Value) -> None:
        """The side with its tails in the end of the front, and what the bottom runs in."""
        pen, made, corner, mm = self.pen, self.drawer.making, self.drawer.dovetails, 1.0 / self._full
        height, right, joined, at = self.drawer.side_height.value, self._right, made.joined_front, place.at
        begins, low, plain = joined if corner else made.lap, self.below or -self._over, not (self._face or self._over)
        if not plain:
            self._box(place, -self._face, low, 0 if self._face else made.lip, front, "far")
        self._box(place, 0, low if plain else 0, joined, front if plain else top, "far")
        foot, head, left = made.groove_height, made.groove_height + made.groove_width, -self._face
        if corner and corner.groove.tail is None:
            self._box(place, joined - made.groove_depth, foot, joined, head, "pale")
        outline = [(begins, top)]
        for tail in corner.front.tail_outlines if corner else ():
            if height - tail[1][0] < top:
                outline += [(made.lap + d, min(height - u, top)) for u, d in (tail[3], *tail[:3])]
        edge, seen = pen.broken(at(right, 0), at(right, top)), [at(*point) for point in (*outline, (begins, 0))]
        pen.shape((*edge, *seen), "wood", "")
        pen.line(*edge[-1:] * (top == height), *seen, edge[0])
        pen.line(*edge, kind="thin")
        if top < height:
            pen.line(*pen.broken(at(-2.0 * mm, top), at(right + 2.0 * mm, top)), kind="thin")
        else:
            self._size(edge[0], edge[-1], -9.0, height, bold=False)
            tick(pen, at(right - 6.0 * mm, top))
        start = joined if made.slip_width else self._grooved
        for z in (foot, head, made.slip_height)[: 2 + bool(made.slip_width)]:
            pen.line(at(start, z), at(right, z), kind="hidden")
        for z in (made.guide_height, made.guide_height + made.guide_width) * (made.run == "side-hung"):
            if z < top:
                pen.line(at(joined, z), at(right, z))
        # led so that words without room go out below and above
        self._size(at(left, foot), at(left, 0), -4.5, foot)
        self._size(at(left, foot), at(left, head), 4.5, made.groove_width)
        level = (foot + head) / 2
        for x, clear in ((left - 12.0 * mm, True), (right + 4.0 * mm, abs(level - height / 2) > 6.0 * mm)):
            pen.centred(at(x, level), "A", "small", bold=True)
            if clear:  # of the height's number
                pen.line(*(at(x + aside * mm, level) for aside in (1.5, 3.0)), kind="centre")

    def _section(self, place: Inset, deep: Value) -> None:
        """Front and side cut level through the groove."""
        made, right, begins, at = self.drawer.making, self._right, self._grooved, place.at
        joined, lap, thick, over = made.joined_front, made.lap, made.side_thickness, self._over
        inner = thick + made.slip_width
        groove, slip = inner - made.groove_depth, bool(made.slip_width)
        if self._face:
            self._board(place, (-self._face, deep), (-self._face, -over), (0, -over), (0, deep))
        self._board(place, (0, deep), (0, 0), (joined, 0), (joined, deep))
        if made.lip:
            self._box(place, 0, -over, made.lip, 0, "wood", "cut")
        self._board(place, (right, thick), (begins, thick), (begins, 0), (right, 0))
        if slip:
            self._board(place, (right, inner), (joined, inner), (joined, thick), (right, thick))
        self._box(place, joined if slip else begins, groove, right, inner, "paper", "thin")
        starts = groove if slip else thick if begins < joined else 0  # the front's groove
        self._box(place, joined - made.groove_depth, starts, joined, deep, "paper", "thin")
        if lap:
            self.pen.dimension(at(lap, -over), at(0, -over), 5.0, f"lap {written(lap, self.pen.unit)}", bold=True)
        self._size(at(lap, -over), at(joined, -over), -5.0, made.let_in, bold=False)
        self._size(at(right, 0), at(right, thick), -9.5, thick)
        self._size(at(right, groove), at(right, inner), -4.5, made.groove_depth)

    def _board(self, place: Inset, *corners: tuple[Value, Value]) -> None:
        """A board cut along its grain, from its broken edge round to it again; a few lines along the grain."""
        at = [place.at(*corner) for corner in corners]
        edge = self.pen.broken(at[-1], at[0])
        self.pen.shape((*edge[:-1], *at[:-1]), "wood", "")
        for share in (0.3, 0.7):
            ends = ((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])) for a, b in (at[::3], at[1:3]))
            self.pen.line(*ends, kind="hatch")
        self.pen.line(*at, kind="cut")
        self.pen.line(*edge, kind="thin")


def tick(pen: Pen, at: Point) -> None:
    """Mark an upper edge by a short tick across it.

    Args:
        pen: the plate's pen.
        at: a point of the edge, in the piece's unit.
    """
    (x, y), half = at, pen.mm(1.3)
    pen.line((x + half / 2, y - half), (x - half / 2, y + half))
