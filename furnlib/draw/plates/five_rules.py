"""One field under five rules side by side: what each would make of the openings, closed on this shop's grid."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain, zip_longest

from furnlib.base.units import write_length, write_number
from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.bank_kinds import BankKind, bank_kind, bank_kinds
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale
from furnlib.draw.style import TEXT_MM
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.five_rules import FiveRules, TriedRule, five_rules

RULES_DIFFER = 2
"""From so many rows on."""
_ACROSS_MM, _PITCH_MM, _WIDE_MM = 27.0, 36.5, 180.0  # of a field at most; from one to the next; of the words below
_ABOVE_MM, _BELOW_MM, _NOTES_MM = 17.0, 13.5, 26.0
_WORDS_MM = 2.9  # an opening that is lower has its height beside it
_MOST_ROWS = 24
_LABEL_MM = TEXT_MM["small"] * 1.15
_TABLE_STEP_MM = TEXT_MM["small"] * 1.75
_HEADINGS = ("equal", "step", "ratio", "weights", "own")


def rules_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw the field of a bank under five rules.

    Args:
        piece: a case with two rows of drawers or more.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the kind of bank, from 1, of those with two rows or more.

    Returns:
        Equal openings, constant step, constant ratio, weights by summation and the piece's own:
        heights written in, the largest change below, a table of what was asked for and what closes.

    Raises:
        DesignError: when the piece has no such bank, or but one row in it.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(rules_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[0])
        Five rules on one field of Landing chest: 7 openings in 1001.
    """
    kind, piece = bank_kind(piece, number, "sheet of rules", RULES_DIFFER), case_of(piece)
    unit, tried = piece.design.unit, five_rules(piece.design, kind.rows)
    wide = float(kind.banks[0].width)
    high = float(kind.rows.clear_height + sum(kind.rows.dividers, Fraction(0)))
    lines = len(kind.rows.rows) + 2 if len(kind.rows.rows) <= _MOST_ROWS else 0
    room = (_ACROSS_MM, 221.0 - _ABOVE_MM - _BELOW_MM - _NOTES_MM - _TABLE_STEP_MM * lines)
    pen = Pen(scale or fitting_scale(wide, high, unit, 0.0, 0.0, room), unit)
    for place, rule in enumerate(tried.rules):
        _one(pen, kind, rule, pen.mm(_PITCH_MM * place), (wide, high))
    y = -pen.mm(_BELOW_MM)
    if lines:
        _, y = pen.table((0.0, y), _rows(piece, tried), bold_columns=range(2, 11, 2))
    pen.paragraphs((0.0, y - pen.mm(1.5)), _notes(piece, kind, tried), _WIDE_MM, gap_mm=0.6)
    count, clear = len(kind.rows.rows), written(tried.clear_height, unit)
    name = "Five rules"
    return pen.drawing(
        f"{name} {number}" if len(bank_kinds(piece, RULES_DIFFER)) > 1 else name,
        caption=f"{name} on one field of {piece.design.piece}{f', {kind.name.lower()}' if kind.name else ''}:"
        f" {count} openings in {clear}.\nLargest change: {', '.join(_worst(piece, tried))}.",
        spoken=" ".join(_spoken(piece, tried)),
        formulas=("graduation.rule", "graduation.closing"),
    )


def _one(pen: Pen, kind: BankKind, rule: TriedRule, x: float, size: tuple[float, float]) -> None:
    """One field: the rule over it, openings with their heights in it, what closing changed below."""
    (wide, high), unit = size, pen.unit
    pen.text((x, high + pen.mm(_ABOVE_MM - 4.0)), rule.name.capitalize(), "small", bold=True)
    pen.paragraphs((x, high + pen.mm(_ABOVE_MM - 5.0)), (rule.words,), _PITCH_MM - 4.0)
    pen.box(x, 0.0, x + wide, high, "wood", "")
    beside, top = [], high
    openings = rule.closed.openings if rule.closed else ()
    for opening, divider in zip_longest(openings, kind.rows.dividers, fillvalue=Fraction(0)):
        if openings:
            low = top - float(opening)
            pen.box(x, low, x + wide, top, "paper", "thin")
            middle, words = (low + top) / 2, written(opening, unit)
            if float(opening) * pen.scale >= _WORDS_MM:
                pen.centred((x + wide / 2, middle), words, "small")
            else:
                beside.append((middle, words))
            top = low - float(divider)
    pen.box(x, 0.0, x + wide, high)
    if len(beside) * _LABEL_MM <= high * pen.scale:  # else they stand in the table alone
        _beside(pen, x + wide, beside)
    pen.lines((x, 0.0), _below(pen, rule), "small", 1.5)


def _beside(pen: Pen, x: float, found: list[tuple[float, str]]) -> None:
    """Heights of openings that are too low to write in, from the top down."""
    lowest = [-pen.mm(_LABEL_MM * (0.5 + below)) for below in reversed(range(len(found)))]  # none under the field
    places = map(min, spread([-y for y, _ in found], pen.mm(_LABEL_MM)), lowest)
    for (y, words), place in zip(found, places, strict=True):
        pen.line((x, y), (x + pen.mm(1.2), -place), kind="dimension")
        pen.text((x + pen.mm(1.6), -place - pen.mm(TEXT_MM["small"] * 0.36)), words, "small")


def _below(pen: Pen, rule: TriedRule) -> Iterator[str]:
    """How well it closed."""
    if rule.closed is None:
        yield "not on this grid"
        return
    yield f"largest change {_change(rule, pen.unit)}"
    if rule.closed.miss:
        over = "too much" if rule.closed.miss > 0 else "too little"
        yield f"alone {written(abs(rule.closed.miss), pen.unit)} {over}"
    if not rule.closed.steps_never_shrink:
        yield "steps shrink"


def _change(rule: TriedRule, unit: str) -> str:
    return write_number(rule.closed.largest_change, 1 if unit == "mm" else 3) if rule.closed else "–"


def _rows(piece: CasePiece, tried: FiveRules) -> list[tuple[str, ...]]:
    """Row by row, for each rule what it asks for and what closes."""
    unit, digits = piece.design.unit, 1 if piece.design.unit == "mm" else 3
    count = len(tried.rules[-1].closed.openings) if tried.rules[-1].closed else 0
    rows = [("Row", *chain.from_iterable((heading, "closed") for heading in _HEADINGS))]
    for row in range(count):
        cells = [
            (f"{float(rule.closed.ideal[row]):.{digits}f}", written(rule.closed.openings[row], unit))
            if rule.closed
            else ("–", "–")
            for rule in tried.rules
        ]
        rows.append((str(row + 1), *chain.from_iterable(cells)))
    return rows


def _notes(piece: CasePiece, kind: BankKind, tried: FiveRules) -> Iterator[str]:
    """What the five have in common, and what could not be closed."""
    unit, grid = piece.design.unit, piece.design.grid
    times = max(tried.end_ratio, 1 / tried.end_ratio)
    thick = " to ".join(dict.fromkeys(written(kind.rows.dividers[end], unit) for end in (0, -1)))
    yield (
        f"Clear height {written(tried.clear_height, unit)}, dividers {thick}, width"
        f" {written(kind.banks[0].width, unit)}: the same field five times, each rule closed on"
        f" {write_length(grid, unit, style='spoken', finest=grid)}."
        " In the table what a rule asks for, and what closes; alone: each rounded by itself."
    )
    of = "as in the piece's own" if tried.own else "since the piece's own are equal"
    yield (
        f"Step and ratio are chosen so that the largest opening is {write_number(times)} times the smallest, {of};"
        " weights by summation, each the sum of the two before, have an end ratio of their own."
    )
    if kind.rows.fit:
        yield "The piece's own stand on the pitch of the jig, not on the grid."
    if tried.off_grid:
        yield f"{write_number(tried.off_grid, 4)} of the clear height lies off the grid; none of the rules has it."
    if len(kind.rows.rows) > _MOST_ROWS:
        yield "Heights of so many rows are left out."
    for rule in tried.rules:
        if rule.fault:
            yield f"{rule.name.capitalize()}: {rule.fault}"


def _worst(piece: CasePiece, tried: FiveRules) -> list[str]:
    return [f"{rule.name} {_change(rule, piece.design.unit)}" for rule in tried.rules if rule.closed]


def _spoken(piece: CasePiece, tried: FiveRules) -> Iterator[str]:
    unit = piece.design.unit
    yield f"One field of {piece.design.piece} under five rules, from the top."
    for rule in tried.rules:
        if rule.closed:
            heights = ", ".join(written(opening, unit) for opening in rule.closed.openings)
            yield f"{rule.name.capitalize()}, {rule.words}: {heights}."
        else:
            yield f"{rule.name.capitalize()} cannot be closed on this grid."
    yield f"Lengths in {unit}."
