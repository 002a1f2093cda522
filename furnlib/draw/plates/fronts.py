"""Plate 3: fronts as seen with the triangle over them, their gaps through the year, and their boards."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_gap
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.card import fitted
from furnlib.draw.plates.grain_board import GrainBoard
from furnlib.draw.plates.together import together
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT, ratio_words
from furnlib.draw.style import TEXT_MM
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.plan.sizes.front_runs import FrontRun, fronts_seen

_MOST_LINES = 30
_STEP_MM, _LABEL_MM, _BARS_MM, _BAR_MM, _BAR_APART_MM = TEXT_MM["small"] * 1.75, TEXT_MM["small"], 42.0, 0.7, 1.1
_LARGER = (50, 20, 10, 5, 2, 1)
_SEASONS = ("now", "ink", ()), ("damp", "blue", ()), ("dry", "ochre", (2.4, 1.2))  # dashes in mm on paper
_NOTES = (
    "Heavy: the triangle over the set, its point up; fronts side by side have their own. Draw it on the faces: a front"
    " turned end for end, or in another's place, breaks its lines.",
    "Gap over a front today, in the room at its dampest, and at its driest; the gap under it stays. Bars: the gap {}"
    " times as large.",
    "The fronts lie over the case: what is between two of them grows less as they swell, and is not reckoned here.",
    "Board: what a row is sawn from, along the grain x across it, trim counted.",
)


def fronts_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw a sheet of fronts.

    Args:
        piece: a finished piece.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1: first the fronts of each kind of bank as they are seen, then boards.

    Returns:
        Fronts as seen with the triangle over them and a table of sizes and gaps, with a bar for the
        gap today, at the dampest and at the driest; or a board with all that lies on it, the fronts
        as seen, and how the figure jumps at each joint.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(fronts_plate(read_piece("notebooks/designs/landing_chest.yaml"), number=2).caption.splitlines()[1])
        The figure: jump -15; 0 as laid out.
    """
    sheets, unit = fronts_sheets(piece), piece.design.unit
    if not 1 <= number <= len(sheets):
        raise DesignError(
            f"{piece.design.piece} has no sheet of fronts {number}, it has {len(sheets)}: where the design says how"
            " drawers are made, one for each kind of bank and of board."
        )
    shown = sheets[number - 1]
    caption, spoken = shown.told(unit)
    return fitted(unit, shown.draw, scale).drawing(
        f"Fronts {number}" if len(sheets) > 1 else "Fronts",
        caption=caption,
        spoken=" ".join((*spoken, f"Lengths in {unit}.")),
        formulas=shown.formulas,
    )


def fronts_sheets(piece: Piece) -> tuple[SeenBank | GrainBoard, ...]:
    """What the sheets of fronts of a piece show.

    Args:
        piece: a finished piece.

    Returns:
        One for each kind of bank, then one for each kind of board that takes more than one front.
    """
    if not isinstance(piece, CasePiece):
        return ()
    banks: dict[object, list[Bank]] = {}
    boards: dict[object, list[FrontRun]] = {}
    for bank in piece.banks:
        alike = tuple((made.count, _size(made, piece.design.unit), _gaps(made)) for made in _made(piece, bank))
        if alike:
            banks.setdefault(alike, []).append(bank)
    for run in piece.runs:
        lengths = tuple((place.kind, place.length) for place in (*run.run.places, *run.run.as_seen))
        if run.run.joints:
            boards.setdefault((run.down, lengths), []).append(run)
    seen = (SeenBank(piece, tuple(same)) for same in banks.values())
    return (*seen, *(GrainBoard(piece.design.piece, tuple(same)) for same in boards.values()))


def _made(piece: CasePiece, bank: Bank) -> tuple[DrawerSizes, ...]:
    return tuple(drawer for drawer in piece.drawers if drawer.bank == bank.number)


def _size(drawer: DrawerSizes, unit: Unit) -> str:
    front = drawer.part("front")
    return f"{written(front.length.value, unit)} x {written(front.width.value, unit)}"


def _gaps(drawer: DrawerSizes) -> tuple[float, ...]:
    """Over the front now, damp and dry; none where it lies over the case."""
    gaps = drawer.fit.front_gaps
    return (gaps.now, gaps.damp, gaps.dry) if gaps else ()


@dataclass(frozen=True)
class SeenBank:
    """A sheet with the fronts of a bank as they are seen, for all banks that have the same.

    Args:
        piece: a case with drawers.
        banks: from the left; the first is drawn.
    """

    piece: CasePiece
    banks: tuple[Bank, ...]

    @property
    def formulas(self) -> tuple[str, ...]:
        """Keys of the formulas behind the gaps."""
        return ("gaps.size", "gaps.season") if _gaps(self._lines[0][0]) else ()

    @property
    def _lines(self) -> list[list[DrawerSizes]]:
        """Lines of the table, the lowest opening first; alike rows in one."""
        found: dict[object, list[DrawerSizes]] = {}
        for drawer in sorted(_made(self.piece, self.banks[0]), key=lambda drawer: drawer.opening.height):
            found.setdefault((drawer.count, _size(drawer, self.piece.design.unit), _gaps(drawer)), []).append(drawer)
        return [*found.values()]

    def draw(self, pen: Pen) -> None:
        """Draw the fronts, the table with a bar for each gap below them, and the words.

        Args:
            pen: the plate's pen.
        """
        self._fronts(pen)
        lines, left = self._lines[:_MOST_LINES], pen.reach()[0]
        top = pen.reach()[1] - pen.mm(1.0)
        right, low = pen.table((left, top), [*self._rows()])
        x, step = right + pen.mm(4.0), pen.mm(_STEP_MM)
        widest = max((gap for line in lines for gap in _gaps(line[0])), default=0.0) * MM_UNIT[pen.unit]
        factor = next((factor for factor in _LARGER if widest * factor <= _BARS_MM), 1)
        for i, (season, _, _) in enumerate(_SEASONS if self.formulas else ()):
            start = x + pen.mm(15.0 * i)
            self._bar(pen, (start, top - step + pen.mm(0.5)), pen.mm(5.0), i)
            pen.text((start + pen.mm(6.0), top - step), season, "small")
        for number, line in enumerate(lines, 2):
            for i, gap in enumerate(_gaps(line[0])):
                y = top - step * number + pen.mm(1.9 - _BAR_APART_MM * i)
                self._bar(pen, (x, y), pen.mm(gap * MM_UNIT[pen.unit] * factor), i)
        heavy, flush, over, board = _NOTES
        notes = [heavy, flush.format(factor) if self.formulas else over]
        notes += [board] * any(not run.down for run in self.piece.runs)
        notes += ["More rows stand in the list of sizes."] * (len(self._lines) > _MOST_LINES)
        pen.paragraphs((left, low - pen.mm(1.0)), notes, 182.0, gap_mm=0.5)

    def _fronts(self, pen: Pen) -> None:
        """The bank from the front: dividers behind, fronts with their triangle, the way of their grain."""
        bank = self.banks[0]
        rows, fronts = bank.rows.rows if bank.rows else (), fronts_seen(self.piece.design, bank, self.piece.drawers)
        x = min(0.0, *(float(front.left) for front in fronts)) - pen.mm(4.0)
        pen.box(0.0, -float(rows[-1].bottom), float(bank.width), -float(rows[0].top), "far", "thin")
        for front in fronts:
            left, low = float(front.left), float(front.low)
            pen.box(left, low, left + float(front.width), low + float(front.height), "wood")
            for line in front.triangle:
                pen.line(*((left + float(along), low + float(up)) for along, up in line), kind="cut")
        rows = rows[:: ceil(len(rows) / _MOST_LINES)]
        middles = [float(row.top + row.bottom) / 2 for row in rows]
        for row, y, place in zip(rows, middles, spread(middles, pen.mm(_LABEL_MM)), strict=True):
            pen.line((x + pen.mm(2.6), -y), (x + pen.mm(0.6), -place), kind="dimension")
            pen.text((x, -place - pen.mm(_LABEL_MM * 0.36)), f"row {row.number}", "small", "end")
        middle, low = float(bank.width) / 2, pen.reach()[1] - pen.mm(2.5)
        for way in (-1.0, 1.0):
            pen.arrow((middle + way * pen.mm(5.0), low), (middle + way * pen.mm(13.0), low), "thin")
        pen.centred((middle, low), "grain", "small")
        pen.text((x, pen.reach()[3] + pen.mm(1.5)), f"{self._whose}, {ratio_words(pen.scale, pen.unit)}", "small")

    @property
    def _whose(self) -> str:
        several = len({drawer.bank for drawer in self.piece.drawers}) > 1
        return "Fronts as seen" + f", {together(f'bank {bank.number}' for bank in self.banks)}" * several

    def _bar(self, pen: Pen, at: Point, long: float, season: int) -> None:
        """A thin bar, whole or of dashes; none where the front binds."""
        _, tint, dash = _SEASONS[season]
        stroke, pause = (pen.mm(part) for part in dash) if dash else (long, 0.0)
        start = 0.0
        while start < long:
            end = min(start + stroke, long)
            pen.box(at[0] + start, at[1], at[0] + end, at[1] + pen.mm(_BAR_MM), tint, "")
            start = end + pause

    def _rows(self) -> Iterator[tuple[str, ...]]:
        """The table: sizes and gaps of alike rows, and their board where each row has its own."""
        unit: Unit = self.piece.design.unit
        boards = {run.name: run.run for run in self.piece.runs if not run.down}
        seasons = [f"gap {season}" for season, _, _ in _SEASONS] if self.formulas else []
        yield ("Fronts of", "number", "width x height", *seasons, *["board"] * bool(boards))
        for line in self._lines[:_MOST_LINES]:
            gaps = [write_gap(gap, unit) for gap in _gaps(line[0])]
            sides = [board.length, board.width] if (board := boards.get(line[0].name)) else []
            sizes = " x ".join(written(size, unit, round_up=True) for size in sides)
            number = len(self.banks) * sum(drawer.count for drawer in line)
            yield (together(d.name for d in line), str(number), _size(line[0], unit), *gaps, *[sizes] * bool(boards))

    def told(self, unit: Unit) -> tuple[str, list[str]]:
        """The caption, and the sheet in sentences.

        Args:
            unit: "mm" or "in".

        Returns:
            Both, for the drawing.
        """
        heading, *rows = self._rows()
        ends = {what: " to ".join(dict.fromkeys(pair)) for what, *pair in zip(heading, rows[0], rows[-1], strict=True)}
        caption = f"{self._whose} in {self.piece.design.piece}: {ends['width x height']}."
        gaps = ", ".join(f"{season} {ends[f'gap {season}']}" for season, _, _ in _SEASONS if self.formulas)
        told = f"Gap over them: {gaps}." if gaps else _NOTES[2]
        cells = (", ".join(map(" ".join, zip(heading[1:], row[1:], strict=True))) for row in rows)
        return f"{caption}\n{told}", [caption, *(f"{row[0]}: {said}." for row, said in zip(rows, cells, strict=True))]
