"""Plate 4, at full size: a strip for the tails of each height of drawer side, to prick through the paper."""

from __future__ import annotations

from itertools import accumulate
from typing import NamedTuple

from furnlib.base.angles import Value
from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.bank_kinds import chain_words
from furnlib.draw.plates.drawer import drawer_kinds
from furnlib.draw.plates.drawer_corner import tail_chain
from furnlib.draw.plates.full_size import FullSize
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.drawer_corner import DrawerCorner
from furnlib.trade.drawer.parts import Making

_PAST_MM, _FAN_MM, _GAP_MM, _NAME_MM = 2.0, 4.0, 2.0, 4.0  # behind the root; to the words; between; for its name
_APART_MM, _BETWEEN_MM, _ROOM_MM, _FOLD_MM = 2.6, 3.0, 143.0, 180.0
_USE = (
    "Measure the bar. Cut out on the thin lines. Lay the edge with the tails along the end of a side, the top along its"
    " upper edge, and prick through. Hatched: waste; dashed: the groove inside; full line: root of the tails.",
    "As it lies it is for front ends, on the outside of a right side and the inside of a left one.",
)
_REAR = (
    "For rear ends take the other faces, as far as the back reaches: its root is the line of long and short dashes.",
)


def dovetail_strip_plate(piece: Piece, number: int = 1) -> Drawing:
    """Draw a sheet of dovetail strips, at full size.

    Args:
        piece: a case with dovetailed drawers.
        number: of the sheet, from 1, counted over the strips of all heights.

    Returns:
        Strips to cut out, upper edge up, the end of the side to the left; as many as the sheet holds,
        those longer than it going on over the next.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> dovetail_strip_plate(read_piece("notebooks/designs/landing_chest.yaml"), number=2).name
        'Dovetail strip 2'
    """
    return DOVETAIL_STRIP.sheet(piece, number)


class _Strip(NamedTuple):
    """One strip, lying: its upper edge at zero to the right, the end of the side above."""

    pen: Pen
    name: str
    made: Making
    tails: DrawerCorner

    @property
    def high(self) -> str:
        """How high the side is."""
        return written(self.tails.front.height, self.pen.unit)

    @property
    def marks(self) -> list[tuple[Value, str, str]]:
        """What is marked along it: distance from the upper edge, the same in words, and what it is, if no tail."""
        front, made = self.tails.front, self.made
        low = front.height - made.groove_height
        edges = [(edge, "") for edge in (0, *(edge for tail in front.tails for edge in tail), front.height)]
        grooves = [(low - made.groove_width, "groove"), (low, "groove")]
        return [(at, written(at, self.pen.unit), words) for at, words in sorted(edges + grooves)]

    @property
    def columns(self) -> tuple[float, ...]:
        """How far the lane, sizes, words and blind edge stand from the end of the side, in the piece's unit."""
        sizes, words = (max(text_width_mm(mark[i], "small") for mark in self.marks) + _GAP_MM for i in (1, 2))
        steps = (
            max(float(ends.depth) for ends in (self.tails.front, self.tails.back) if ends) + self.pen.mm(_PAST_MM),
            *map(self.pen.mm, (_FAN_MM, sizes, words + _NAME_MM)),
        )
        return tuple(accumulate(steps))

    def draw(self, top: float) -> None:
        """Draw it with the end of the side at a height."""
        pen, front, back, height = self.pen, self.tails.front, self.tails.back, float(self.tails.front.height)
        lane, *beside, wide = (top - column for column in self.columns)
        for waste in front.waste_outlines:
            pen.shape([(-float(u), top - float(d)) for u, d in waste], "far", "", hatch=True)
        pen.line((-height, top - float(front.depth)), (0.0, top - float(front.depth)), kind="thin")
        if back:
            ends = (-float(self.made.drop), -float(self.made.drop + back.height))
            pen.line(*((x, top - float(back.depth)) for x in ends), kind="centre")
        for tail in front.tail_outlines:
            pen.line(*((-float(u), top - float(d)) for u, d in (tail[3], *tail[:3])))
        pen.box(-height, wide, 0.0, top, kind="thin")
        apart, last = pen.mm(_APART_MM), len(self.marks) - 0.5
        wished = (max(float(at), (i + 0.5) * apart) for i, (at, _, _) in enumerate(self.marks))
        inside = [min(at, height - (last - i) * apart) for i, at in enumerate(wished)]  # so the outer ones stand inside
        for (at, size, words), place in zip(self.marks, spread(inside, apart), strict=True):
            pen.line((-float(at), top), (-float(at), lane), kind="hidden" if words else "hatch")
            pen.line((-float(at), lane), (-place, beside[0] + pen.mm(0.6)), kind="dimension")
            for cell, y in zip((size, words), beside, strict=True):
                pen.text((-place - pen.mm(TEXT_MM["small"] * 0.36), y), cell, "small", turn_deg=-90.0)
        high = f"{self.high} high, upper edge"
        names = f"{self.name}: {high} at this end", f"{self.name}: {high}", high, "upper edge"
        name = fitting_words(names, height * pen.scale - 4.0)
        pen.text((-pen.mm(2.0), wide + pen.mm(1.2)), name, "small", "end")


def _sheets(piece: Piece) -> list[list[_Strip]]:
    """The strips, as many side by side as a sheet holds."""
    sheets: list[list[_Strip]] = []
    room, pen = 0.0, Pen(MM_UNIT[piece.design.unit], piece.design.unit)
    for kind in drawer_kinds(piece, lambda drawer: drawer.dovetails):
        if tails := kind.drawers[0].dovetails:
            strip = _Strip(pen, kind.name, kind.drawers[0].making, tails)
            wide = strip.columns[-1] * pen.scale
            room -= wide + _BETWEEN_MM
            if room < 0:
                sheets.append([])
                room = _ROOM_MM - wide
            sheets[-1].append(strip)
    return sheets


def _draw(piece: Piece, number: int) -> Drawing:
    """All strips of a sheet below one another, lying; their use along the last."""
    strips, top, told = _sheets(piece)[number - 1], 0.0, []
    pen, unit = strips[0].pen, piece.design.unit
    for strip in strips:
        strip.draw(top)
        top -= strip.columns[-1] + pen.mm(_BETWEEN_MM)
        front = strip.tails.front
        long = f"{written(front.depth, unit)} long, slope {front.slope}"
        told.append(f"{strip.name}: {chain_words(tail_chain(front, unit))} from the upper edge, {long}.")
    use = " ".join(_USE + _REAR * any(strip.tails.back for strip in strips))
    pen.paragraphs((-pen.mm(_FOLD_MM), top + pen.mm(_BETWEEN_MM - 1.0)), (use,), _FOLD_MM)
    kinds = "; ".join(f"{strip.name}: {len(strip.tails.front.tails)} in {strip.high}" for strip in strips)
    return pen.drawing(
        "Dovetail strip",
        caption=f"Dovetail strips of {piece.design.piece}, full size: tails of the sides from the upper edge.\n"
        f"Tails for {kinds}.",
        spoken=f"Pins and tails in turn. {' '.join(told)} {use} Lengths in {unit}.",
        formulas=("dovetail",),
    )


DOVETAIL_STRIP = FullSize(
    "Dovetail strip",
    lambda piece: [f"Sides {', '.join(strip.high for strip in strips)} high" for strips in _sheets(piece)],
    _draw,
    "only dovetailed drawers have one",
)
"""What the tails of drawer sides are pricked from."""
