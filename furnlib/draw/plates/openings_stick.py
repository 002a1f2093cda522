"""Plate 2, at full size: the openings stick, every edge inside a case at its distance from the top end."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.bank_kinds import BankKind, bank_kind, bank_kinds
from furnlib.draw.plates.full_size import FullSize
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.openings import Row

_LANE_MM, _FAN_MM = 12.0, 5.0  # for the ticks along the working edge; from there to the words
_APART_MM, _CLOSE_MM = 4.4, 2.6  # from one line of words to the next, and where there are very many
_GAP_MM, _NAME_MM = 2.5, 5.0
_FOLD_MM, _BOLD = 180.0, 1.1
_USE = (
    "Measure the bar. Cut out on the thin lines and glue to a straight strip of wood, ticks on its edge.",
    "Hold the top end flush with the top of each case side and mark every line from this one stick; measure no opening"
    " from the one before. Hatched: wood of the case. Large figures: rows from the top.",
)


class Edge(NamedTuple):
    """One edge inside a case.

    Args:
        distance: from the top of the case, in the piece's unit.
        words: what it is.
    """

    distance: Fraction
    words: str


def openings_stick_plate(piece: Piece, number: int = 1) -> Drawing:
    """Draw a sheet of an openings stick, at full size.

    Args:
        piece: a case.
        number: of the sheet, from 1, counted over the sticks of all kinds of bank.

    Returns:
        A strip to cut out, its ticks on one edge and the top end up; one longer than the sheet goes
        on over the next.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> openings_stick_plate(read_piece("notebooks/designs/landing_chest.yaml"), number=2).name
        'Openings stick 2'
    """
    return OPENINGS_STICK.sheet(piece, number)


def stick_edges(piece: CasePiece, kind: BankKind) -> tuple[Edge, ...]:
    """What is marked on a stick.

    Args:
        piece: a case.
        kind: one of its kinds of bank.

    Returns:
        Every edge from the top end down; wood and opening take turns from the first.
    """
    rows, (upper, lower) = kind.rows.rows, kind.rows.rails
    low = rows[-1].bottom + lower
    found = [Edge(Fraction(0), "top of the case, zero")]
    found += [Edge(piece.design.case.top, "under the top")] * bool(upper)
    for row in rows:
        over, under = f"divider {row.number - 1}", f"divider {row.number}"
        if row is rows[0]:
            over = "the top rail" if upper else "the top"
        if row is rows[-1]:
            under = "the bottom rail" if lower else "the bottom"
        found += [Edge(row.top, f"under {over}"), Edge(row.bottom, f"on {under}")]
    found += [Edge(low, "on the bottom")] * bool(lower)
    return (*found, Edge(piece.case.height, "underside of the case"))


def _stick(piece: Piece, number: int) -> Drawing:
    """The whole stick lying, its top end at zero to the right; words across it, upright on a sheet of its tiles."""
    kind, piece = bank_kind(piece, number, "openings stick"), case_of(piece)
    unit, edges, long = piece.design.unit, stick_edges(piece, kind), float(piece.case.height)
    pen = Pen(MM_UNIT[unit], unit)
    crowded = len(edges) * _APART_MM > long * pen.scale
    apart = _CLOSE_MM if crowded else _APART_MM
    size, lane = "small" if crowded else "body", pen.mm(_LANE_MM)
    columns = (size, [written(edge.distance, unit) for edge in edges]), ("small", [edge.words for edge in edges])
    widths = [max(text_width_mm(cell, style) for cell in column) * _BOLD + _GAP_MM for style, column in columns]
    low = -pen.mm(_LANE_MM + _FAN_MM + sum(widths) + _NAME_MM)
    _wood(pen, piece, kind, lane)
    pen.box(-long, low, 0.0, 0.0, kind="thin")
    ends = pen.mm(apart / 2), long - pen.mm(apart / 2)  # their words stand inside the strip
    places = spread([min(max(float(edge.distance), ends[0]), ends[1]) for edge in edges], pen.mm(apart))
    for i, (edge, place) in enumerate(zip(edges, places, strict=True)):
        x, y = -float(edge.distance), -pen.mm(_LANE_MM + _FAN_MM + 1.0)
        pen.line((x, 0.0), (x, -lane))
        pen.line((x, -lane), (-place, y + pen.mm(1.0)), kind="dimension")
        for (style, column), width in zip(columns, widths, strict=True):
            at = -place - pen.mm(TEXT_MM[style] * 0.36), y
            pen.text(at, column[i], style, turn_deg=-90.0, bold=style == "body", clear=True)
            y -= pen.mm(width)
    for row in kind.rows.rows:
        _in_opening(pen, row, lane)
    _names(pen, piece, kind, low, long)
    told = " ".join(f"{edge.words} at {written(edge.distance, unit)};" for edge in edges)
    whose = f", {kind.name.lower()}" if kind.name else ""
    return pen.drawing(
        "Openings stick",
        caption=f"Openings stick of {piece.design.piece}{whose}, full size: edges from the top of the case.\n"
        f"{len(edges)} edges in {written(piece.case.height, unit)}: {kind.rows.rule}.",
        spoken=f"Openings stick{whose}, from the top end: {told[:-1]}. {' '.join((*_use(piece, kind), ''))}"
        f"Lengths in {unit}.",
        formulas=("graduation.rule", "closing.pitch" if kind.rows.fit else "graduation.closing"),
    )


def _wood(pen: Pen, piece: CasePiece, kind: BankKind, lane: float) -> None:
    """What of the lane is wood: all but the openings."""
    rows = kind.rows.rows
    ends = [0.0, *(float(edge) for row in rows for edge in (row.top, row.bottom)), float(piece.case.height)]
    for start, end in [*pairwise(ends)][::2]:
        pen.box(-end, -lane, -start, 0.0, "far", "thin", hatch=True)


def _in_opening(pen: Pen, row: Row, lane: float) -> None:
    """The number of a row and its pitches, where its opening has room for them."""
    middle, room = -float(row.top + row.bottom) / 2, float(row.opening) * pen.scale
    words = [(str(row.number), "head")]
    words += [(f"k = {row.pitches}", "small")] * (row.pitches is not None and room >= 11.0)
    lift = pen.mm(2.2) * (len(words) - 1)
    for (said, size), over in zip(words, (lift, -lift * 1.4), strict=False):
        if room >= TEXT_MM[size]:
            at = middle + over - pen.mm(TEXT_MM[size] * 0.36), -lane / 2
            pen.text(at, said, size, "middle", turn_deg=-90.0, bold=size == "head")


def _names(pen: Pen, piece: CasePiece, kind: BankKind, low: float, long: float) -> None:
    """What it is and which end is which, along its blind edge; its use beside it."""
    whose = kind.name or "Openings"
    names = f"{whose}, {piece.design.piece}: top end at this end", f"{whose}: top end at this end", "top end"
    name = fitting_words(names, min(long * pen.scale, _FOLD_MM) - 28.0)
    pen.text((-pen.mm(3.0), low + pen.mm(1.6)), name, "small", "end")
    pen.text((pen.mm(3.0) - long, low + pen.mm(1.6)), "bottom end", "small")
    fold = min(long * pen.scale, _FOLD_MM)
    pen.paragraphs((-pen.mm(fold), low - pen.mm(1.0)), _use(piece, kind), fold)


def _use(piece: CasePiece, kind: BankKind) -> Iterator[str]:
    """The use in words."""
    yield from _USE
    if kind.rows.fit:
        yield "k: pitches of the jig in the height of a drawer side."
    if piece.design.as_built:
        yield "As planned; what was measured stands on the sheet of openings."


OPENINGS_STICK = FullSize(
    "Openings stick", lambda piece: [kind.name for kind in bank_kinds(piece)], _stick, "only a case has one"
)
