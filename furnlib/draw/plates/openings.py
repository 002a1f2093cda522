"""Plate 2: the openings from the front, with running sizes from one end; rule, pitches and change beside them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple

from furnlib.base.units import write_length
from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import NO_BREAK, fitting_words
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.bank_kinds import BankKind, bank_kind, bank_kinds, chain_words, left_over
from furnlib.draw.plates.elevations import draw_front
from furnlib.draw.plates.views import OpeningPlace, leg_height, open_bay, opening_places, written
from furnlib.draw.scale import PLATE_MM, fitting_scale
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.openings import Row
from furnlib.trade.drawer.closing import never_shrinks

_MOST_ROWS, _BLOCK_MM = 24, 62.0
_STRIP_MM = 0.9  # what is left over is drawn at least so high, to be seen
_TABLE_STEP_MM = TEXT_MM["small"] * 1.75


def openings_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw plate 2.

    Args:
        piece: a finished piece.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the kind of bank, from 1; banks with the same openings share a sheet.

    Returns:
        The case from the front without drawers; running sizes from its top for a stick, clear
        heights and pitches in the openings, a table of rule and change, what the jig leaves over
        hatched where it went, and what was measured in boxes beside the plan.

    Raises:
        DesignError: when the piece has no drawers, or no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(openings_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[1])
        They close: 83 + 103 + 123 + 143 + 163 + 183 + 203 = 1001.
    """
    kind, piece = bank_kind(piece, number, "sheet of openings"), case_of(piece)
    design, unit = piece.design, piece.design.unit
    width, height = float(design.overall.width), float(design.overall.height)
    said = _said(piece, kind)
    scales, lows = [], []
    for abreast in (False, True):
        trial = Pen(1.0, unit)
        _block(trial, said, kind, 0.0, 0.0, abreast)
        _, low, right, _ = trial.reach()
        lows.append(low)
        above = 34.0 + 4.0 * bool(kind.name) + 5.0 * bool(left_over(piece, kind)[0])
        beside = (30.0, above - low) if abreast else (33.0 + max(right, _BLOCK_MM), above)
        scales.append(fitting_scale(width, height, unit, *beside))
    abreast = scales[1] > scales[0]
    pen = Pen(scale or max(scales), unit)
    draw_front(pen, piece, (0.0, 0.0))
    pen.line((pen.mm(-4), 0.0), (width + pen.mm(4), 0.0), kind="thin")
    beside_it = not abreast and height * pen.scale + lows[0] < 0.0  # the table reaches down to the floor line
    foot = _left_over(pen, piece, kind, width * pen.scale + 6.0 if beside_it else PLATE_MM[0])
    for bank in piece.banks:
        _across(pen, piece, kind, bank)
        if bank in kind.banks:
            for place in opening_places(piece, bank):
                _sizes_inside(pen, piece, place)
    _running(pen, piece, kind, ("from the top", "of the case") if abreast else ("from the top of the case",))
    _block(pen, said, kind, *((0.0, foot - pen.mm(4)) if abreast else (width + pen.mm(8), height)), abreast)
    return pen.drawing(
        f"Openings {number}" if len(bank_kinds(piece)) > 1 else "Openings",
        caption=f"Openings of {design.piece} from the top{f', {kind.name.lower()}' if kind.name else ''}:"
        f" {kind.rows.rule}.\nThey close: {chain_words(kind.rows.chains[0])}.",
        spoken=" ".join(_spoken(piece, kind)),
        formulas=("graduation.rule", "closing.pitch" if kind.rows.fit else "graduation.closing"),
    )


def _sizes_inside(pen: Pen, piece: CasePiece, place: OpeningPlace) -> None:
    """Clear height in an opening, pitches and width where there is room; boxed beside it what was measured."""
    unit, row = piece.design.unit, place.row
    wide, high = (place.right - place.left) * pen.scale - 1.5, (place.high - place.low) * pen.scale
    if high < TEXT_MM["small"] * 0.8:
        return
    size = "body" if len(row.widths) == 1 and high >= TEXT_MM["body"] * 0.7 else "small"
    plan, pitches = written(row.opening, unit), f"   k = {row.pitches}" if row.pitches else ""
    across = f" x {written(row.widths[0], unit)}" if len(row.widths) > 1 else ""
    choices = f"{plan}{across}{pitches}", f"{plan}{across}", f"{plan}{pitches}", plan
    x, y = (place.left + place.right) / 2, (place.low + place.high) / 2
    if row.built is None:
        if text_width_mm(plan, size) <= wide + 1.5:  # where it is wider it would run into the next; the list has it
            pen.centred((x, y), fitting_words(choices, wide, size), size)
        return
    built = written(row.built, unit)
    room = text_width_mm(built, size) + 2.7
    words = fitting_words((*choices, ""), wide - room, size)
    long = text_width_mm(words, size)
    if words:
        pen.centred((x - pen.mm(room / 2), y), words, size)
    _boxed(pen, (x + pen.mm((long + 1.5 * bool(words)) / 2), y), built, size)


def _boxed(pen: Pen, at: tuple[float, float], words: str, size: str) -> None:
    """Words in a box: measured as built."""
    (x, y), half, high = at, pen.mm(text_width_mm(words, size) / 2 + 0.6), pen.mm(TEXT_MM[size] * 0.62)
    pen.box(x - half, y - high, x + half, y + high, "paper", "frame")
    pen.centred(at, words, size)


def _across(pen: Pen, piece: CasePiece, kind: BankKind, bank: Bank) -> None:
    """How wide a bay is, as built too, and what stands in it where that is told elsewhere."""
    unit, top, case = piece.design.unit, float(piece.design.overall.height), piece.design.case
    left, right = float(bank.left), float(bank.left + bank.width)
    settled = any(bay.width == bank.width for bay in case.bays)
    width, wide = written(bank.width, unit), float(bank.width) * pen.scale
    if text_width_mm(width, "body") <= wide or len(piece.banks) == 1:  # the list of sizes has those that do not fit
        pen.dimension((left, top), (right, top), 5.0, width, bold=settled)
    middle, names = (left + right) / 2, bool(kind.name) and bank.number
    measured = [there.width for there in piece.design.as_built if there.bank == bank.number and there.width]
    if names:
        name = fitting_words((f"bank {bank.number}", str(bank.number)), wide, "small")
        pen.text((middle, top + pen.mm(10.0)), name, "small", "middle")
    for there in measured if bank.rows else ():
        _boxed(pen, (middle, top + pen.mm(14.6 if names else 11.2)), written(there, unit), "small")
    if bank in kind.banks:
        return
    if bank.rows is None:
        left, low, right, high = open_bay(piece, bank)
        clear = f"{written(piece.case.inside_height, unit)} x {written(bank.width, unit)}"
        _in_bay(pen, (left, low, right, high), (f"open bay, {clear}", "open bay"))
    else:
        number = next(n for n, other in enumerate(bank_kinds(piece), 1) if bank in other.banks)
        places = [(p.left, p.low, p.right, p.high) for p in opening_places(piece, bank)]
        room = max(places, key=lambda place: (place[3] - place[1]) * (place[2] - place[0]))
        _in_bay(pen, room, (f"see Openings {number}", f"see {number}"))


def _in_bay(pen: Pen, bay: tuple[float, float, float, float], choices: tuple[str, ...]) -> None:
    """Words in the middle of what is clear, level where they fit and upright where not; none where neither fits."""
    left, low, right, high = bay
    wide, tall = (right - left) * pen.scale - 1.0, (high - low) * pen.scale - 1.0
    words = fitting_words(choices, max(wide, tall), "body")
    if text_width_mm(words, "body") > max(wide, tall) or min(wide, tall) < TEXT_MM["body"] * 0.7:
        return
    x, y, sink = (left + right) / 2, (low + high) / 2, pen.mm(TEXT_MM["body"] * 0.36)
    if text_width_mm(words, "body") <= max(wide, 0.0) or tall < wide:
        pen.text((x, y - sink), words, "body", "middle", clear=True)
    else:
        pen.text((x + sink, y), words, "body", "middle", turn_deg=90.0, clear=True)


def _left_over(pen: Pen, piece: CasePiece, kind: BankKind, room: float) -> float:
    """Rails, and hatched in what takes it up what whole pitches leave over; how low its words reach.

    They have so many mm of room across on paper; the table says it in full.
    """
    case, (left, place) = piece.design.case, left_over(piece, kind)
    top, base, high = float(piece.design.overall.height), leg_height(piece), max(float(left), pen.mm(_STRIP_MM))
    rows, strips = kind.rows.rows, []
    for bank in kind.banks:
        edges = float(bank.left), float(bank.left + bank.width)
        for rail, y in zip(kind.rows.rails, (top - float(case.top), base + float(case.bottom)), strict=True):
            if rail:
                pen.line((edges[0], y), (edges[1], y), kind="thin")
        low = top - float(rows[0].top) if place == "top rail" else top - float(rows[-1].bottom) - high
        strips.append((edges, low))
    if place == "leg":
        tops = [[x for x, _ in leg.top_corners] for leg in piece.legs if "front" in leg.position]
        strips = [((min(across), max(across)), base - high) for across in tops]
    if not left:
        return 0.0
    for (start, end), low in strips:
        pen.box(start, low, end, low + high, "pale", "thin", hatch=True)
    pen.box(0.0, pen.mm(-5.0), pen.mm(6.0), pen.mm(-2.4), "pale", "thin", hatch=True)
    drawn = "" if float(left) >= high else ", drawn higher than it is"
    words = _left_over_words(piece, kind)
    choices = f"{words}{drawn}", words, words.partition(",")[0], ""
    pen.text((pen.mm(7.5), pen.mm(-4.6)), fitting_words(choices, room - 7.5), "small")
    return pen.mm(-5.0)


def _left_over_words(piece: CasePiece, kind: BankKind) -> str:
    left, place = left_over(piece, kind)
    return f"{written(left, piece.design.unit)} left over, in the {place.replace('leg', 'legs')}"


def _running(pen: Pen, piece: CasePiece, kind: BankKind, heading: tuple[str, ...]) -> None:
    """Running sizes down the left side, measured from the top of the case."""
    design, unit = piece.design, piece.design.unit
    top = float(design.overall.height)
    edges = [edge for row in _shown(kind) for edge in (row.top, row.bottom)]
    sizes = [Fraction(0), *edges, piece.case.height]
    places = [top - float(size) for size in sizes]
    shown = [-y for y in spread([-y for y in places], pen.mm(TEXT_MM["small"] * 1.15))]
    stick = pen.mm(-3.5)
    pen.line((stick, places[0]), (stick, places[-1]), kind="dimension")
    for size, y, label in zip(sizes, places, shown, strict=True):
        pen.line((pen.mm(-1.0), y), (stick - pen.mm(0.9), y), (stick - pen.mm(4.5), label), kind="dimension")
        pen.text((stick - pen.mm(5.2), label - pen.mm(TEXT_MM["small"] * 0.36)), written(size, unit), "small", "end")
    if kind.name and len(bank_kinds(piece)) > 1:
        heading = (f"{kind.name},", *heading)
    header = max(top + pen.mm(3.2), shown[0] + pen.mm(TEXT_MM["small"]))
    for line, words in enumerate(reversed(heading)):
        pen.text((stick + pen.mm(1.0), header + pen.mm(3.4 * line)), words, "small", "end")


def _shown(kind: BankKind) -> tuple[Row, ...]:
    """The rows that a sheet has room for: all, or the first and the last of very many."""
    rows = kind.rows.rows
    return rows if len(rows) <= _MOST_ROWS else (*rows[: _MOST_ROWS // 2], *rows[-_MOST_ROWS // 2 :])


class _Said(NamedTuple):
    """What stands beside the case, put into words once for every place that it is tried at."""

    table: list[tuple[str, ...]]
    verdict: list[str]
    chains: list[tuple[str, str]]


def _said(piece: CasePiece, kind: BankKind) -> _Said:
    level = (chain for chain in piece.chains if chain.name == "width of the case")
    chains = [
        (f"{chain.name.capitalize()}:", re.sub("([+=≈]) ", rf"\1{NO_BREAK}", chain_words(chain)))
        for chain in (*kind.rows.chains, *level)
    ]
    return _Said([*zip(*_columns(piece, kind), strict=True)], [*_verdict(piece, kind)], chains)


def _block(pen: Pen, said: _Said, kind: BankKind, x: float, top: float, abreast: bool) -> None:
    """The rule, the table row by row and what closing changed; below or abreast the chains in print."""
    shown, table = _shown(kind), said.table
    start = pen.paragraphs((x, top + pen.mm(1.3)), (kind.rows.rule.capitalize(),), _BLOCK_MM, "body") - pen.mm(1.5)
    right, y = pen.table((x, start), table, bold_columns=(table[0].index("opening"),))
    for line, row in enumerate(shown, 2):
        if row.built is not None:
            foot = start - pen.mm(_TABLE_STEP_MM * line)
            long = pen.mm(text_width_mm(written(row.built, pen.unit), "small") + 1.4)
            pen.box(right - long, foot - pen.mm(0.7), right - pen.mm(0.2), foot + pen.mm(2.3), kind="frame")
    wide = max((right - x) * pen.scale, _BLOCK_MM)
    y = pen.paragraphs((x, y - pen.mm(1.5)), said.verdict, wide) - pen.mm(4.0)
    if abreast:
        x, y = x + pen.mm(wide + 8.0), top
    for chain in said.chains:
        y = pen.paragraphs((x, y), chain, _BLOCK_MM) - pen.mm(1.2)


def _digits(piece: CasePiece, kind: BankKind) -> int:
    """Figures after the point of what the rule asks for and of what closing changed."""
    return 3 if piece.design.unit == "in" else 1 + (kind.rows.closed.grid < Fraction(1, 2))


def _columns(piece: CasePiece, kind: BankKind) -> Iterator[tuple[str, ...]]:
    """The columns of the table: heading, a cell for each row, and the sum."""
    unit, rows, closed, fit = piece.design.unit, kind.rows, kind.rows.closed, kind.rows.fit
    digits = _digits(piece, kind)

    def column(heading: str, cell: Callable[[Row], str], total: str = "") -> tuple[str, ...]:
        return (heading, *map(cell, _shown(kind)), total)

    def changed(change: Fraction) -> str:
        return f"{float(change):+.{digits}f}" if change else "0"

    total, ideal = sum(closed.openings, Fraction(0)), sum(closed.ideal, Fraction(0))
    yield column("Row", lambda row: str(row.number), "Sum")
    yield column("ideal", lambda row: f"{float(row.ideal):.{digits}f}", written(ideal, unit))
    if fit:
        yield column("k", lambda row: str(row.pitches), str(sum(fit.pitches)))
        yield column("side", lambda row: written(fit.sides[row.number - 1], unit))
    else:
        alone = closed.rounded_alone
        yield column("alone", lambda row: written(alone[row.number - 1], unit), written(sum(alone, Fraction(0)), unit))
    yield column("opening", lambda row: written(row.opening, unit), written(total, unit))
    yield column("change", lambda row: changed(row.change), changed(total - ideal))
    if len(set(rows.dividers)) > 1:
        under = (*rows.dividers, None)
        yield column("divider", lambda row: "" if (t := under[row.number - 1]) is None else written(t, unit))
    if any(row.built is not None for row in rows.rows):
        yield column("as built", lambda row: "" if row.built is None else written(row.built, unit))


def _verdict(piece: CasePiece, kind: BankKind) -> Iterator[str]:
    """What closing changed, and what the boxes mean."""
    unit, closed, jig, count = piece.design.unit, kind.rows.closed, piece.design.jig, len(kind.rows.rows)
    if count > _MOST_ROWS:
        yield f"Rows {_MOST_ROWS // 2 + 1} to {count - _MOST_ROWS // 2} stand in the list of sizes."
    grid = write_length(closed.grid, unit, style="spoken", finest=closed.grid)
    change = f"{float(closed.largest_change):.{_digits(piece, kind)}f}"
    steps = "Steps never shrink."
    if not closed.steps_never_shrink:
        steps = "The steps asked for shrink: largest remainders rounded up."
        if never_shrinks(closed.ideal):
            whole = "pitch" if jig else "grid"
            steps = f"On this {whole} no closed set has steps that never shrink: largest remainders rounded up."
    if jig:
        pitch, over = written(jig.pitch, unit), written(jig.clearance, unit)
        side = f"k x {pitch}"
        if jig.first_offset or jig.last_offset:
            first, last = (written(offset or jig.pitch / 2, unit) for offset in (jig.first_offset, jig.last_offset))
            side = f"{first} + (k - 1) x {pitch} + {last}"
        yield f"Side = {side}; opening = side + {over}."
    if closed.openings == closed.ideal:
        yield f"Every opening falls on the {'pitch' if jig else f'{grid} grid'}."
    else:
        alone = " they happen to add up"
        if closed.miss:
            alone = f": {written(abs(closed.miss), unit)} too {'much' if closed.miss > 0 else 'little'}"
        yield f"Largest change from the rule {change}." if jig else f"Rounded one by one{alone}."
        if not jig:
            yield f"Closed on {grid}; largest change {change}."
        yield steps
    left, place = left_over(piece, kind)
    if left:
        yield f"{_left_over_words(piece, kind)}."
        if kind.rows.fit and place != "leg":
            yield f"With {written(kind.rows.fit.to_next, unit)} more there is room for one pitch more."
    if piece.design.as_built:
        yield "Boxed: as built. What is made later follows it; the plan stays."


def _spoken(piece: CasePiece, kind: BankKind) -> Iterator[str]:
    unit, rows = piece.design.unit, kind.rows.rows
    base = " above its legs" if leg_height(piece) else ""
    heights = ", ".join(written(row.opening, unit) for row in rows)
    yield f"The case{base} from the front without drawers."
    yield f"Openings{f' of {kind.name.lower()}' if kind.name else ''} from top to bottom: {heights}; {kind.rows.rule}."
    if kind.rows.fit:
        yield f"Drawer sides take {', '.join(map(str, kind.rows.fit.pitches))} pitches."
    if left_over(piece, kind)[0]:
        yield f"{_left_over_words(piece, kind)}."
    for row in rows:
        if row.built is not None:
            yield f"Row {row.number} measures {written(row.built, unit)} as built."
    bays = [written(bank.width, unit) for bank in piece.banks if bank.rows is None]
    if bays:
        yield f"They stand beside an open bay {' and '.join(bays)} wide."
    yield f"Lengths in {unit}."
