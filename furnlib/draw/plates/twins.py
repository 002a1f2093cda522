"""Two-shop twins: one design made in mm and in inches, side by side at one scale, and where they differ."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from furnlib.base.units import Unit, write_length
from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.plates.elevations import draw_front
from furnlib.draw.plates.overall import height_to_width
from furnlib.draw.plates.views import leg_height, opening_places, written
from furnlib.draw.scale import MM_UNIT, PLATE_MM, fitting_scale
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.twin import Twin, TwinLine, compare_twins

_BETWEEN_MM, _BESIDE_MM, _WIDE_MM = 6.0, 32.0, 180.0  # between both; what the sizes of one take; of the words below
_ABOVE_MM, _NOTES_MM = 16.0, 24.0
_MOST_LINES, _MOST_NAMES = 60, 8
_WORDS: dict[Unit, str] = {"mm": "mm", "in": "inches"}
_LOW_MM = 2.2  # an opening that is lower has its height in the table alone
_TABLE_STEP_MM = TEXT_MM["small"] * 1.75


def twin_plate(piece: Piece, twin: Piece, scale: float | None = None) -> Drawing:
    """Draw a piece and its twin for the shop of the other unit.

    Args:
        piece: a case with drawers.
        twin: the same for the other unit, as `twin_of` or a maker has made it.
        scale: mm on paper for one unit of the first; by default the largest that fits a sheet.

    Returns:
        Both from the front on one floor line, sizes in their own units; a table of what differs.

    Raises:
        DesignError: when both are in one unit, or one is no case.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> pair = [read_piece(f"notebooks/designs/landing_chest{shop}.yaml") for shop in ("", "_inch")]
        >>> print(twin_plate(*pair).caption.splitlines()[1])
        Height to width 5 : 2 in both; most apart is the case height, by 40.9 mm.
    """
    compared, unit = compare_twins(piece, twin), piece.design.unit
    both = case_of(piece), case_of(twin)
    lines = _shown(compared)
    factors = [MM_UNIT[one.design.unit] / MM_UNIT[unit] for one in both]
    wide = [float(one.design.overall.width) * k for one, k in zip(both, factors, strict=True)]
    high = [float(one.design.overall.height) * k for one, k in zip(both, factors, strict=True)]
    below = _TABLE_STEP_MM * (ceil(len(lines) / 2) + 1) + _NOTES_MM
    room = (PLATE_MM[0] - 4.0, PLATE_MM[1] - 4.0 - below)
    abreast = fitting_scale(sum(wide), max(high), unit, 2 * _BESIDE_MM, _ABOVE_MM, room)
    stacked = fitting_scale(max(wide), sum(high), unit, _BESIDE_MM, 2 * _ABOVE_MM + _BETWEEN_MM, room)
    pen = Pen(scale or max(abreast, stacked), unit)
    x, y, low = 0.0, 0.0, 0.0
    for one, k in zip(both, factors, strict=True):
        front = _front(one, pen.scale * k)
        if stacked > abreast:
            y -= front.box[3] * front.scale + _BETWEEN_MM
        pen.items += front.placed_on_paper(x, y + front.box[1] * front.scale, pen.scale)
        pen.line((pen.mm(x), pen.mm(y)), (pen.mm(x + front.size_mm[0]), pen.mm(y)), kind="thin")
        x += 0.0 if stacked > abreast else front.size_mm[0]
        low = min(low, y)
    low = _table(pen, compared, lines, pen.mm(low - 4.0))
    pen.paragraphs((0.0, low - pen.mm(1.5)), _notes(both, compared, lines), _WIDE_MM)
    return pen.drawing(
        "Twins",
        caption=f"{piece.design.piece} for two shops, one in {_WORDS[unit]} and one in {_WORDS[twin.design.unit]}.\n"
        f"{' '.join(_said(both, compared))}",
        spoken=" ".join(_spoken(both, compared)),
        formulas=("graduation.rule", "graduation.closing"),
    )


def _front(piece: CasePiece, scale: float) -> Drawing:
    """One of the two from the front, with its main sizes and its openings."""
    unit, pen, base = piece.design.unit, Pen(scale, piece.design.unit), leg_height(piece)
    width, height = float(piece.design.overall.width), float(piece.design.overall.height)
    draw_front(pen, piece, (0.0, 0.0))
    for bank in piece.banks:
        for place in opening_places(piece, bank):
            words, room = written(place.row.opening, unit), (place.right - place.left) * scale
            fits = (place.high - place.low) * scale >= _LOW_MM and text_width_mm(words, "small") <= room
            if fits and place.number == 1:
                pen.centred(((place.left + place.right) / 2, (place.low + place.high) / 2), words, "small")
    pen.dimension((0.0, height), (width, height), 5.0, written(piece.design.overall.width, unit), bold=True)
    pen.dimension((0.0, 0.0), (0.0, height), 5.0, written(piece.design.overall.height, unit), bold=True)
    legs = written(piece.case.leg_height, unit)
    if base * scale > text_width_mm(legs, "body") + 1.0:
        pen.dimension((width, 0.0), (width, base), -5.0, legs)
        pen.dimension((width, base), (width, height), -5.0, written(piece.case.height, unit))
    pen.text((0.0, height + pen.mm(_ABOVE_MM - 4.0)), f"In {_WORDS[unit]}", "body", bold=True)
    return pen.drawing("")


def _shown(compared: Twin) -> tuple[TwinLine, ...]:
    """All sizes, or of very many those that differ most, in their order."""
    most = sorted(compared.lines, key=lambda line: abs(line.difference), reverse=True)[:_MOST_LINES]
    return tuple(line for line in compared.lines if line in most)


def _table(pen: Pen, compared: Twin, lines: tuple[TwinLine, ...], top: float) -> float:
    """The differences in two tables side by side; how low they reach."""
    first, second = compared.units
    half = ceil(len(lines) / 2)
    x, low = 0.0, top
    for part in (lines[:half], lines[half:]):
        rows: list[tuple[str, ...]] = [("Size", first, second, f"differs, {first}")]
        rows += [
            (_short(line.name), written(line.size, first), written(line.other, second), _differs(line, first))
            for line in part
        ]
        if part:
            right, end = pen.table((x, top), rows)
            x, low = right + pen.mm(6.0), min(low, end)
    return low


def _differs(line: TwinLine, unit: Unit) -> str:
    text = f"{float(line.difference):+.{1 if unit == 'mm' else 3}f}"
    return text if float(text) else "0"


def _short(name: str) -> str:
    return name.replace("legs, profile, ", "leg ").replace("case, bays, ", "")


def _said(both: tuple[CasePiece, CasePiece], compared: Twin) -> Iterator[str]:
    """Whether they keep one look, and where they are furthest apart."""
    overall, greatest, unit = [piece.design.overall for piece in both], compared.greatest, compared.units[0]
    first, second = (height_to_width(one.height, one.width) for one in overall)
    look = f"Height to width {first} in both" if first == second else f"Height to width {first} and {second}"
    yield f"{look}; most apart is the {greatest.name.replace(',', '')}, by {_differs(greatest, unit)[1:]} {unit}."


def _notes(both: tuple[CasePiece, CasePiece], compared: Twin, lines: tuple[TwinLine, ...]) -> Iterator[str]:
    """What each shop reads off its tape, and what the table leaves out."""
    grids = [
        write_length(piece.design.grid, piece.design.unit, style="spoken", finest=piece.design.grid) for piece in both
    ]
    yield f"Not converted: each shop's sizes are its own, openings closed on {grids[0]} here and on {grids[1]} there."
    yield from _said(both, compared)
    yield f"Differs: the second less the first, in {_WORDS[compared.units[0]]}."
    if len(lines) < len(compared.lines):
        yield f"The {len(lines)} sizes that differ most, of {len(compared.lines)}."
    if compared.unmatched:
        several = len(compared.unmatched) > _MOST_NAMES
        names = ", ".join(map(_short, compared.unmatched[:_MOST_NAMES]))
        yield f"Only in one of the two: {names}{' and others' * several}."


def _spoken(both: tuple[CasePiece, CasePiece], compared: Twin) -> Iterator[str]:
    for piece in both:
        unit, overall = piece.design.unit, piece.design.overall
        high, wide = written(overall.height, unit), written(overall.width, unit)
        heights = ", ".join(written(row.opening, unit) for row in piece.rows.rows)
        yield f"{piece.design.piece}: {high} high, {wide} wide, openings {heights} {unit}."
    yield from _said(both, compared)
