"""Plate 2: the openings from the front, with running sizes from one end and the rule beside them."""

from __future__ import annotations

import re
from fractions import Fraction

from furnlib.base.units import write_length
from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import NO_BREAK
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.elevations import draw_front
from furnlib.draw.plates.views import leg_height, partition_edges, written
from furnlib.draw.scale import fitting_scale
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.openings import Row

_MOST_ROWS, _TABLE_MM = 24, 62.0


def openings_plate(piece: Piece, scale: float | None = None) -> Drawing:
    """Draw plate 2.

    Args:
        piece: a finished piece.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.

    Returns:
        The case from the front without drawers; running sizes from its top for a stick, clear
        heights and widths in the openings, and a table of rule, ideal and change.

    Raises:
        DesignError: when the piece has no drawers.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(openings_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[1])
        They close: 83 + 103 + 123 + 143 + 163 + 183 + 203 = 1001.
    """
    piece = case_of(piece)
    design, unit = piece.design, piece.design.unit
    width, height = float(design.overall.width), float(design.overall.height)
    beside = fitting_scale(width, height, unit, 95.0, 34.0)
    below = fitting_scale(width, height, unit, 30.0, 34.0 + _table_mm(piece))
    pen = Pen(scale or max(beside, below), unit)
    draw_front(pen, piece, (0.0, 0.0))
    pen.line((pen.mm(-4), 0.0), (width + pen.mm(4), 0.0), kind="thin")
    _sizes_inside(pen, piece)
    _running(pen, piece, ("from the top of the case",) if beside >= below else ("from the top", "of the case"))
    side = float(design.case.side)
    edges = (side, *partition_edges(piece), width - side)
    for left, right, clear in zip(edges[::2], edges[1::2], piece.case.bays, strict=True):
        pen.dimension((left, height), (right, height), 5.0, written(clear, unit), bold=len(edges) > 2 and left == side)
    _table(pen, piece, *((width + pen.mm(8), height) if beside >= below else (0.0, pen.mm(-4))))
    return pen.drawing(
        "Openings",
        caption=f"Openings of {design.piece}: {piece.rows.rule}, top to bottom.\nThey close: {piece.chains[0]}.",
        spoken=_spoken(piece),
        formulas=("graduation.rule", "graduation.closing"),
    )


def _sizes_inside(pen: Pen, piece: CasePiece) -> None:
    """Clear height in each opening, clear width too where the row is split; both of an open bay."""
    design, unit = piece.design, piece.design.unit
    top, side, divider = float(design.overall.height), float(design.case.side), float(design.case.divider)
    for row in piece.rows.rows:
        left, middle, alone = side, top - float(row.top + row.bottom) / 2, len(row.widths) == 1
        for clear in map(float, row.widths):
            both = f"{written(row.opening, unit)} x {written(clear, unit)}"
            fits = not alone and text_width_mm(both, "small") < clear * pen.scale
            words = both if fits else written(row.opening, unit)
            pen.centred((left + clear / 2, middle), words, "body" if alone else "small")
            left += clear + divider
    if design.case.bay:
        left, high, wide = partition_edges(piece)[1], piece.case.inside_height, piece.case.bays[1]
        centre = (left + float(wide) / 2, top - float(design.case.top + high / 2))
        pen.centred(centre, f"open bay, {written(high, unit)} x {written(wide, unit)}")


def _running(pen: Pen, piece: CasePiece, heading: tuple[str, ...]) -> None:
    """Running sizes down the left side, measured from the top of the case."""
    design, unit = piece.design, piece.design.unit
    top = float(design.overall.height)
    edges = [edge for row in _shown(piece) for edge in (row.top, row.bottom)]
    sizes = [Fraction(0), *edges, piece.case.height]
    places = [top - float(size) for size in sizes]
    shown = [-y for y in spread([-y for y in places], pen.mm(TEXT_MM["small"] * 1.15))]
    stick = pen.mm(-3.5)
    pen.line((stick, places[0]), (stick, places[-1]), kind="dimension")
    for size, y, label in zip(sizes, places, shown, strict=True):
        pen.line((stick - pen.mm(0.9), y), (pen.mm(-1.0), y), kind="dimension")
        pen.line((stick - pen.mm(0.9), y), (stick - pen.mm(4.5), label), kind="dimension")
        pen.text((stick - pen.mm(5.2), label - pen.mm(TEXT_MM["small"] * 0.36)), written(size, unit), "small", "end")
    header = max(top + pen.mm(3.2), shown[0] + pen.mm(TEXT_MM["small"]))
    for line, words in enumerate(reversed(heading)):
        pen.text((stick + pen.mm(1.0), header + pen.mm(3.4 * line)), words, "small", "end")


def _shown(piece: CasePiece) -> tuple[Row, ...]:
    """The rows that a sheet has room for: all, or the first and the last of very many."""
    rows = piece.rows.rows
    return rows if len(rows) <= _MOST_ROWS else (*rows[: _MOST_ROWS // 2], *rows[-_MOST_ROWS // 2 :])


def _table_mm(piece: CasePiece) -> float:
    """About how high the table stands with the words below it, on paper."""
    return TEXT_MM["small"] * 1.75 * (len(_shown(piece)) + 2) + 24.0 + 10.0 * len(piece.chains)


def _table(pen: Pen, piece: CasePiece, x: float, top: float) -> None:
    """Rule, ideal, rounded alone and closed, row by row; then the chains in print."""
    unit, closed = piece.design.unit, piece.rows.closed
    rows: list[tuple[str, ...]] = [("Row", "ideal", "alone", "closed", "change")]
    digits = 1 if unit == "mm" else 3
    for row in _shown(piece):
        alone, ideal = written(closed.rounded_alone[row.number - 1], unit), f"{float(row.ideal):.{digits}f}"
        changed = f"{float(row.change):+.{digits}f}" if row.change else "0"
        rows.append((str(row.number), ideal, alone, written(row.opening, unit), changed))
    total, alone = written(piece.case.clear_height, unit), written(sum(closed.rounded_alone, Fraction(0)), unit)
    rows.append(("Sum", total, alone, total, "0"))
    pen.text((x, top - pen.mm(3.0)), piece.rows.rule.capitalize(), "body", bold=True)
    _, y = pen.table((x, top - pen.mm(4.5)), rows, bold_columns=(3,))
    y = pen.paragraphs((x, y - pen.mm(1.5)), _verdict(piece), _TABLE_MM) - pen.mm(4.0)
    for chain in piece.chains:
        if chain.name != "height of the piece":
            links = re.sub("([+=≈]) ", rf"\1{NO_BREAK}", str(chain))
            y = pen.paragraphs((x, y), (f"{chain.name.capitalize()}:", links), _TABLE_MM) - pen.mm(1.2)


def _verdict(piece: CasePiece) -> list[str]:
    """What closing changed."""
    unit, closed, count = piece.design.unit, piece.rows.closed, len(piece.rows.rows)
    words = []
    if count > _MOST_ROWS:
        words.append(f"Rows {_MOST_ROWS // 2 + 1} to {count - _MOST_ROWS // 2} stand in the list of sizes.")
    grid = write_length(closed.grid, unit, style="spoken", finest=closed.grid)
    if closed.openings == closed.ideal:
        return [*words, f"Every opening falls on the {grid} grid."]
    alone = " they happen to add up"
    if closed.miss:
        alone = f": {written(abs(closed.miss), unit)} too {'much' if closed.miss > 0 else 'little'}"
    steps = "Steps never shrink."
    if not closed.steps_never_shrink:
        steps = "On this grid no closed set has steps that never shrink: largest remainders rounded up."
    change = f"{float(closed.largest_change):.{1 if unit == 'mm' else 3}f}"
    return [*words, f"Rounded one by one{alone}.", f"Closed on {grid}; largest change {change}.", steps]


def _spoken(piece: CasePiece) -> str:
    heights = ", ".join(written(row.opening, piece.design.unit) for row in piece.rows.rows)
    base = " above its legs" if leg_height(piece) else ""
    beside = (
        f" They stand beside an open bay {written(piece.case.bays[1], piece.design.unit)} wide."
        if piece.design.case.bay
        else ""
    )
    return (
        f"The case{base} from the front without drawers. Openings from top to bottom: {heights}; {piece.rows.rule}."
        f"{beside} Lengths in {piece.design.unit}."
    )
