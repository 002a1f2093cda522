"""What if this cut slips: the member on the case, and beside it every later part that can still take the slip up."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby

from furnlib.base.units import write_exact
from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.plates.elevations import draw_front
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.slips import Member, TakenUp, members_of, take_up

_BESIDE_MM, _WORDS_MM, _MOST_LINES = 112.0, 84.0, 24


def slip_plate(piece: Piece, member: str, slip: Fraction | float, scale: float | None = None) -> Drawing:
    """Draw what follows where one member of the height comes out too large or too small.

    Args:
        piece: a case with drawers.
        member: which one, as `plan.slips.members_of` names it.
        slip: by how much it came out too large, below 0 too small; in the piece's unit.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.

    Returns:
        The case from the front with that member hatched and the last that can take the slip up
        marked; a table of all later parts, and what comes with each.

    Raises:
        DesignError: when there is no such member, or the slip is as large as the member itself.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> chest = read_piece("notebooks/designs/landing_chest.yaml")
        >>> print(slip_plate(chest, "divider 3", 1).caption.splitlines()[1])
        The last that can take it up: legs, 151 becomes 150.
    """
    whole, unit = case_of(piece), piece.design.unit
    found, members = take_up(piece, member, slip), {one.name: one for one in members_of(piece)}
    off = Fraction(str(slip))
    last = next((taken for taken in found if taken.last), None)
    width, height = float(whole.design.overall.width), float(whole.design.overall.height)
    pen = Pen(scale or fitting_scale(width, height, unit, _BESIDE_MM, 20.0), unit)
    draw_front(pen, piece, (0.0, 0.0))
    pen.line((pen.mm(-4), 0.0), (width + pen.mm(4), 0.0), kind="thin")
    _marked(pen, whole, members[member], "slips")
    if last and last.name in members:
        _marked(pen, whole, members[last.name], "last chance")
    said = f"{member.capitalize()} is {write_exact(abs(off), unit)} too {'large' if off > 0 else 'small'}"
    said = said if off else f"{member.capitalize()} is as planned"
    x = width + pen.mm(24)
    pen.text((x, height - pen.mm(3)), said, "body", bold=True)
    rows = [("Later part", "plan", "becomes", ""), *(_line(taken, whole) for taken in found[:_MOST_LINES])]
    _, y = pen.table((x, height - pen.mm(4.5)), rows, bold_columns=(2,))
    pen.paragraphs((x, y - pen.mm(2)), _notes(found), _WORDS_MM)
    verdict = "Nothing later can take it up: make the part again, or live with it."
    if last:
        verdict = f"The last that can take it up: {last.name}, {_sizes(last, whole)}."
    return pen.drawing(
        "Slip",
        caption=f"{said}, in {whole.design.piece}.\n{verdict}",
        spoken=f"The case from the front. {said}. {verdict} {' '.join(_notes(found))} Lengths in {unit}.",
    )


def _line(taken: TakenUp, piece: CasePiece) -> tuple[str, ...]:
    unit = piece.design.unit
    can = "last chance" if taken.last else "can" if taken.can else "cannot"
    return taken.name, written(taken.size, unit), written(taken.becomes, unit), can


def _sizes(taken: TakenUp, piece: CasePiece) -> str:
    return " becomes ".join(write_exact(size, piece.design.unit) for size in (taken.size, taken.becomes))


def _notes(found: tuple[TakenUp, ...]) -> list[str]:
    """What comes with each later part, said once for neighbours that share it."""
    notes = []
    for why, alike in groupby(found, key=lambda taken: taken.why):
        names = [taken.name for taken in alike]
        if why:
            notes.append(f"{' to '.join(dict.fromkeys((names[0], names[-1])))}: {why}.".capitalize())
    return notes[:_MOST_LINES]


def _marked(pen: Pen, piece: CasePiece, member: Member, words: str) -> None:
    """Mark a member on a strip beside the case, one that slips in its place as well, and name it."""
    high = float(piece.design.overall.height - _upper_edge(piece, member))
    low, right = max(high - float(member.size), 0.0), float(piece.design.overall.width)
    if words == "slips" and member.name != "legs":
        bank = next((bank for bank in piece.banks if member.bank and bank.number == member.bank), None)
        ends = (float(bank.left), float(bank.left + bank.width)) if bank else (0.0, right)
        pen.box(ends[0], low, ends[1], high, "pale", "thin", hatch=True)
    pen.box(right + pen.mm(1.5), low, right + pen.mm(4.0), high, "pale", "thin", hatch=words == "slips")
    pen.text((right + pen.mm(5.0), (low + high) / 2 - pen.mm(0.8)), words, "small")


def _upper_edge(piece: CasePiece, member: Member) -> Fraction:
    """Where a member begins, measured from the top of the piece."""
    fixed = {"top": Fraction(0), "bottom": piece.case.height - member.size, "legs": piece.case.height}
    if not member.bank:
        return fixed[member.name]
    rows = next(bank.rows.rows for bank in piece.banks if bank.rows and bank.number == member.bank)
    if member.number:
        row = rows[member.number - 1]
        return row.bottom if member.name.startswith("divider") else row.top
    return rows[0].top - member.size if member.name.startswith("top rail") else rows[-1].bottom
