"""Plate 5: a case cut from front to back through one bank, what every drawer rides on, and how the worst one nods."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby, product
from math import inf

from furnlib.base.concern import Concern
from furnlib.base.guards import DesignError
from furnlib.base.units import write_gap
from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen
from furnlib.draw.plates.bank_kinds import BankKind, bank_kind, bank_kinds
from furnlib.draw.plates.card import ROOM_MM
from furnlib.draw.plates.droop_view import CutDrawer, labels, open_views
from furnlib.draw.plates.together import together
from furnlib.draw.plates.views import written
from furnlib.draw.scale import usual_scales
from furnlib.draw.style import TEXT_MM
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.drawer_fit import OPENED

_MOST_ROWS, _MOST_CONCERNS = 24, 6
_LACKS = {
    "no_runner", "no_guide", "guide_broken", "no_kicker", "no_stop", "back_room", "front_binds", "side_binds",
    "one_pull_binds",
}  # fmt: skip
_VIEW_MM = (90.0, 64.0, 46.0, 32.0)  # heights that an open drawer may take, the most wanted first
_WORDS_MM = 35.0  # the least that table and notes take below
_BESIDE_MM = 95.0  # with less room beside the case it stands below


def section_sheets(piece: Piece) -> tuple[BankKind, ...]:
    """The kinds of bank that a case section is drawn of.

    Args:
        piece: a finished piece.

    Returns:
        One for each sheet; none where the design does not say how its drawers are made.
    """
    return bank_kinds(piece) if isinstance(piece, CasePiece) and piece.drawers else ()


def case_section_plate(piece: Piece, scale: float | None = None, number: int = 1, row: int | None = None) -> Drawing:
    """Draw plate 5.

    Args:
        piece: a finished case whose design says how its drawers are made.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the kind of bank, from 1; banks with the same openings share a sheet.
        row: whose drawer is shown open; by default the one that nods most.

    Returns:
        The case cut from front to back with runner, kicker, guide and stop of every drawer, outlined and
        crossed what is missing; a drawer two thirds pulled out, true to scale; what each row has, its
        play, how it nods and racks, and what binds it.

    Raises:
        DesignError: when the piece has no such drawers, no such sheet or no such row.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(case_section_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[1])
        Pulled out 240, with 120 still inside, row 7 nods 6.1: it turns 1.5° in a play of 3 until its rear ...
    """
    kind, piece = bank_kind(piece, number, "case section"), case_of(piece)
    cuts = [CutDrawer(piece, drawer) for drawer in piece.drawers if drawer.bank in kind.numbers]
    if not cuts:
        raise DesignError(f"{piece.design.piece} does not say how its drawers are made; add a part 'drawers'.")
    asked = [cut for cut in cuts if row in (None, cut.drawer.row)]
    if not asked:
        raise DesignError(f"There is no row {row}; name one from 1 to {len(kind.rows.rows)}.")
    shown = max(asked, key=_nods)
    pen = _fitted(piece, lambda pen, tall: _draw(pen, kind, cuts, shown, tall), scale)
    bank = f", {kind.name.lower()}" if kind.name else ""
    return pen.drawing(
        f"Case section {number}" if len(section_sheets(piece)) > 1 else "Case section",
        caption=f"Case section of {piece.design.piece}{bank}: what each drawer rides on.\n{shown.told}",
        spoken=" ".join(_spoken(bank, cuts, shown)),
        formulas=(*("droop", "racking") * (not shown.on_slides), "gaps"),
    )


def _fitted(piece: CasePiece, draw: Callable[[Pen, float], None], scale: float | None) -> Pen:
    """The plate at the largest usual scale that a sheet holds, the open drawer then as large as there is room."""
    unit, most = piece.design.unit, (ROOM_MM[1] - _WORDS_MM) / float(piece.case.height)
    usual = [ratio for ratio in usual_scales(unit) if ratio < most] or usual_scales(unit)[-1:]
    for ratio, tall in product((scale,) if scale else usual, _VIEW_MM):
        pen = Pen(ratio, unit)
        draw(pen, tall)
        left, low, right, top = pen.reach()
        if (right - left) * ratio <= ROOM_MM[0] and (top - low) * ratio <= ROOM_MM[1]:
            break
    return pen


def _nods(cut: CutDrawer) -> float:
    """How far a drawer's front falls, two thirds out; without end where it tips out."""
    return inf if cut.droop.tips_out else float(cut.droop.front_fall)


def _draw(pen: Pen, kind: BankKind, cuts: list[CutDrawer], shown: CutDrawer, tall: float) -> None:
    """The case, the open drawer beside it or below, the table and the words under both."""
    _case(pen, shown.piece, kind)
    _drawers(pen, kind, [cut for cut in cuts if cut.drawer.bank == kind.numbers[0]])
    left, low, right, top = pen.reach()
    at, wide = (right + pen.mm(5.0), top), ROOM_MM[0] - (right - left) * pen.scale - 5.0
    if wide < _BESIDE_MM:
        at, wide = (left, low - pen.mm(5.0)), ROOM_MM[0]
    if not shown.on_slides:
        low = min(low, open_views(pen, at, (wide, tall), shown))
    _, foot = pen.table((left, low - pen.mm(2.0)), [*_table(cuts)])
    pen.paragraphs((left, foot - pen.mm(1.5)), _notes(cuts), ROOM_MM[0], gap_mm=0.6)


def _case(pen: Pen, piece: CasePiece, kind: BankKind) -> None:
    """Top, bottom, dividers, rails and back as cut, the side behind them; zero is the underside at the front."""
    design, high = piece.design, float(piece.case.height)
    case, back, depth = design.case, design.back, float(design.overall.depth)
    pen.box(0.0, 0.0, depth, high, "far", "")
    boards = [(Fraction(0), case.top), (piece.case.height - case.bottom, case.bottom)]
    boards += [(row.bottom, thick) for row, thick in zip(kind.rows.rows, kind.rows.dividers, strict=False)]
    boards += zip((case.top, kind.rows.rows[-1].bottom), kind.rows.rails, strict=True)
    for down, thick in boards:
        if thick:
            pen.box(0.0, high - float(down + thick), depth, high - float(down), "wood", "visible", hatch=True)
    if back:
        low, up = float(case.bottom - back.rebate), high - float(case.top - back.rebate)
        pen.box(depth - float(back.thickness), low, depth, up, "wood", "visible", hatch=True)
    pen.line((0.0, 0.0), (0.0, high), kind="thin")


def _drawers(pen: Pen, kind: BankKind, cuts: list[CutDrawer]) -> None:
    """Every drawer shut, its gaps written in it, its number before it, and behind the case what it lacks."""
    high, step = float(cuts[0].piece.case.height), pen.mm(TEXT_MM["small"] * 1.1)
    floors = [high - float(row.bottom) for row in kind.rows.rows]
    before, last = min(cut.face for cut in cuts) - pen.mm(1.2), inf
    for cut, floor in zip(cuts, floors, strict=True):
        cut.draw(pen, pen.inset((cut.face, floor)))
        cut.draw_rides(pen, pen.inset((0.0, floor)))
    for cut, floor in zip(cuts, floors, strict=True):
        fit, y = cut.drawer.fit, floor + cut.side * 0.7
        if last - y >= step:
            last = y
            pen.text((before, y - step / 3), str(cut.drawer.row), "small", "end")
        front = f"front {write_gap(fit.front_gaps.now, pen.unit)}, " if fit.front_gaps else ""
        gaps = f"{front}side {write_gap(fit.side_gaps.now, pen.unit)}"
        words = fitting_words((f"over {gaps}", gaps, ""), (cut.rear - cut.behind_front) * pen.scale - 4.0)
        if words and cut.side * 0.6 >= step:
            pen.centred(((cut.rear + cut.behind_front) / 2, y), words, "small")
    inner, room = float(cuts[-1].drawer.opening.depth), written(cuts[-1].drawer.making.back_gap, pen.unit)
    for x in (cuts[-1].rear, inner):
        pen.line((x, floors[-1]), (x, 0.0), kind="dimension")
    pen.dimension((cuts[-1].rear, 0.0), (inner, 0.0), -4.0, f"back room {room}")
    lacking, depth = {}, float(cuts[0].piece.design.overall.depth)
    for words, group in groupby(zip(cuts, floors, strict=True), key=lambda pair: _lacks(pair[0])):
        if words:
            rows, lows = zip(*group, strict=True)
            middle = (lows[0] + rows[0].side + lows[-1]) / 2
            lacking[depth + pen.mm(0.6), middle] = f"{_run(rows)}: {words}"
    labels(pen, depth, lacking)


def _lacks(cut: CutDrawer) -> str:
    return ", ".join(f"no {ride.name}" for ride in cut.rides if not ride.fitted)


def _run(cuts: Sequence[CutDrawer]) -> str:
    """The rows of drawers one under the other."""
    first, last = cuts[0].drawer.row, cuts[-1].drawer.row
    return str(first) if first == last else f"{first} to {last}"


def _table(cuts: list[CutDrawer]) -> Iterator[tuple[str, ...]]:
    """Heading and a line for rows that are alike; banks that are alike in everything together."""
    two, three = map(str, OPENED)
    moves = ("play", f"droop {two}", f"at {three}", f"lead {two}", f"at {three}") * (not cuts[0].on_slides)
    rides = (ride.name for ride in cuts[0].rides)
    yield ("Row", *rides, "over front", "over side", *moves, "binds")
    found: dict[tuple[tuple[str, ...], ...], list[str]] = {}
    for bank, own in groupby(cuts, key=lambda cut: cut.drawer.bank):
        lines = tuple((_run([*group]), *cells) for cells, group in groupby(own, key=_cells))
        found.setdefault(lines, []).append(str(bank))
    told = []
    for lines, banks in found.items():
        called = f", {together(f'bank {bank}' for bank in banks)}" if len(found) > 1 else ""
        told += [(f"{rows}{called}", *cells) for rows, *cells in lines]
    half = _MOST_ROWS // 2
    yield from told if len(told) <= _MOST_ROWS else told[:half] + told[-half:]


def _cells(cut: CutDrawer) -> tuple[str, ...]:
    """What the table tells of a drawer."""
    fit, unit = cut.drawer.fit, cut.piece.design.unit
    moves = (
        write_gap(fit.play, unit),
        *("tips out" if droop.tips_out else written(droop.front_fall, unit) for droop in fit.droops),
        *("turns free" if racking.turns_free else written(racking.lead, unit) for racking in fit.rackings),
    )
    return (
        *("yes" if ride.fitted else "none" for ride in cut.rides),
        write_gap(fit.front_gaps.now, unit) if fit.front_gaps else "-",
        write_gap(fit.side_gaps.now, unit),
        *moves * (not cut.on_slides),
        ", ".join(_binding(cut)) or "-",
    )


def _binding(cut: CutDrawer) -> Iterator[str]:
    """What binds a drawer: its front or its sides at the dampest, or one pull that is pulled alone."""
    fit = cut.drawer.fit
    yield from (name for name, gaps in (("front", fit.front_gaps), ("sides", fit.side_gaps)) if gaps and gaps.binds)
    if any(concern.code == "one_pull_binds" and _holds_for(concern, cut) for concern in cut.piece.concerns):
        yield "one pull"


def _holds_for(concern: Concern, cut: CutDrawer) -> bool:
    """Whether a concern names the drawer's row, or the case as a whole."""
    where, named, _ = concern.number.partition(": ")
    return not named or where == "every row" or f", {cut.drawer.name}, " in f", {where}, "


def _notes(cuts: list[CutDrawer]) -> Iterator[str]:
    """What is to be settled, and what the picture leaves open."""
    told = [concern for concern in cuts[0].piece.concerns if concern.code in _LACKS]
    found = [concern for concern in told if any(_holds_for(concern, cut) for cut in cuts)]
    yield from (f"Warning, {concern}" for concern in found[:_MOST_CONCERNS])
    if len(found) > _MOST_CONCERNS:
        yield f"{len(found) - _MOST_CONCERNS} more stand in the list of what to settle."
    if cuts[0].on_slides:
        yield "On bought slides a drawer needs no runner, kicker or guide, and nods and racks as their maker states."
        return
    yield (
        "Droop: how far the front's lower edge falls. Lead: of one front corner over the other. Dashed: guide or runner"
        " behind the side; strips and blocks are drawn where they go, not to size."
    )


def _spoken(bank: str, cuts: list[CutDrawer], shown: CutDrawer) -> Iterator[str]:
    yield f"The case{bank}, cut from front to back, its drawers shut."
    head, *lines = _table(cuts)
    for row, *cells in lines:
        told = (f"{name} {cell}" for name, cell in zip(head[1:], cells, strict=True) if cell != "-")
        yield f"Row {row}: {', '.join(told)}."
    yield f"Beside it an open drawer. {shown.told}" if not shown.on_slides else shown.told
    yield from _notes(cuts)
    yield f"Lengths in {shown.piece.design.unit}."
