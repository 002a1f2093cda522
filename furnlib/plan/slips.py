"""What if this cut slips: which later part can still take it up, and the last step at which one can.

A slip in one member of the height moves all that lies below it. A member that is made later and
gives as much brings the rest back to the plan. Work goes in the order of `WORK`: so what slips in
a case board can be taken up by a divider, an opening, a rail or the legs, and what slips in the
legs by nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from furnlib.base.guards import DesignError, nearest_word, require_finite
from furnlib.base.units import write_exact
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.openings import Row, RowSizes
from furnlib.trade.drawer.closing import never_shrinks

WORK = ("case boards", "dividers", "openings from the stick", "rails", "drawer sides", "legs")
"""The steps of work that settle heights, in order."""
_BOARDS, _DIVIDERS, _OPENINGS, _RAILS, _DRAWERS, _LEGS = WORK


@dataclass(frozen=True)
class Member:
    """One member of the height of a case.

    Args:
        name: what it is called.
        bank: which bank of drawers it belongs to, counted from the left; 0 for what all share.
        number: of its row or divider, counted from the top; 0 for what has none.
        size: as planned, in the piece's unit.
        work: the step of work that settles it, a word of `WORK`.
    """

    name: str
    bank: int
    number: int
    size: Fraction
    work: str


@dataclass(frozen=True)
class TakenUp:
    """What a later member becomes where it takes up a slip.

    Args:
        name: the member; or the drawer sides that have to live with an opening as it came out.
        work: the step of work that settles it.
        size: as planned, in the piece's unit; of drawer sides that no jig cuts, the opening they are cut to.
        becomes: with the slip taken up.
        can: whether it can.
        why: why not, or what comes with it; empty where there is nothing to say.
        last: True for the last step at which the slip can be taken up.
    """

    name: str
    work: str
    size: Fraction
    becomes: Fraction
    can: bool
    why: str
    last: bool = False


def members_of(piece: Piece) -> tuple[Member, ...]:
    """The members of the height of a case, in the order in which they are made.

    Args:
        piece: a case with drawers.

    Returns:
        Case boards, dividers, openings, rails and legs; those of each step from the left and from the top.

    Raises:
        DesignError: when the piece is no case.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [member.name for member in members_of(read_piece("notebooks/designs/low_media_case.yaml"))][:4]
        ['top', 'bottom', 'divider 1', 'divider 2']
    """
    whole = case_of(piece)
    case, banks = whole.design.case, _banks(whole)
    bank_of = {number: f", bank {number}" if len(banks) > 1 else "" for number in banks}
    boards = [Member("top", 0, 0, case.top, _BOARDS), Member("bottom", 0, 0, case.bottom, _BOARDS)]
    dividers = [
        Member(f"divider {number}{bank_of[bank]}", bank, number, thick, _DIVIDERS)
        for bank, rows in banks.items()
        for number, thick in enumerate(rows.dividers, 1)
    ]
    openings = [
        Member(f"opening of row {row.number}{bank_of[bank]}", bank, row.number, row.opening, _OPENINGS)
        for bank, rows in banks.items()
        for row in rows.rows
    ]
    rails = [
        Member(f"{name}{bank_of[bank]}", bank, 0, rail, _RAILS)
        for bank, rows in banks.items()
        for name, rail in zip(("top rail", "bottom rail"), rows.rails, strict=True)
        if rail
    ]
    legs = [Member("legs", 0, 0, whole.case.leg_height, _LEGS)] if whole.legs else []
    return (*boards, *dividers, *openings, *rails, *legs)


def take_up(piece: Piece, member: str, slip: Fraction | float) -> tuple[TakenUp, ...]:
    """Ask which later steps can take up what one member came out too large or too small.

    Args:
        piece: a case with drawers.
        member: the name of one of its members, as `members_of` has it.
        slip: by how much it came out too large, below 0 too small; in the piece's unit.

    Returns:
        Every later step in order, what it becomes, whether it can, and which of them is the last that can.

    Raises:
        DesignError: when there is no such member, or the slip is as large as the member itself.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> chest = read_piece("notebooks/designs/landing_chest.yaml")
        >>> legs = take_up(chest, "bottom", 1)[-1]
        >>> legs.name, int(legs.becomes), legs.can, legs.why
        ('legs', 150, True, 'all 4 legs alike')
    """
    whole, members = case_of(piece), members_of(piece)
    names = [one.name for one in members]
    if member not in names:
        raise DesignError(f"No member of this height is called '{member}'; {nearest_word(member, names)}")
    require_finite("slip", slip)
    at, off = names.index(member), Fraction(str(slip))
    slipped = members[at]
    if abs(off) >= slipped.size:
        said, size = (write_exact(length, whole.design.unit) for length in (abs(off), slipped.size))
        raise DesignError(f"The slip is {said}, and {member} is no more than {size}; make that part again.")
    later = [one for one in members[at + 1 :] if 0 in (one.bank, slipped.bank) or one.bank == slipped.bank]
    found = [_taken(whole, slipped, one, off) for one in later]
    if slipped.work == _OPENINGS:
        found.append(_lived_with(whole, slipped, off))
    found.sort(key=lambda taken: WORK.index(taken.work))
    last = max((number for number, taken in enumerate(found) if taken.can), default=None)
    return tuple(replace(taken, last=number == last) for number, taken in enumerate(found))


def _banks(piece: CasePiece) -> dict[int, RowSizes]:
    return {bank.number: bank.rows for bank in piece.banks if bank.rows}


def _taken(piece: CasePiece, slipped: Member, member: Member, off: Fraction) -> TakenUp:
    """What one later member becomes, and whether it can."""
    becomes, banks = member.size - off, _banks(piece)
    hinders: list[str] = []
    notes: list[str] = []
    if becomes <= 0:
        hinders.append("nothing would be left of it")
    elif member.work == _OPENINGS:
        hinders, notes = _opening_gives(piece, slipped, member, off)
    elif member.work == _DIVIDERS and len(set(banks[member.bank].dividers)) == 1 < len(banks[member.bank].dividers):
        notes.append("it would not match the other dividers")
    elif member.work == _LEGS:
        if slipped.bank and len(banks) > 1:
            hinders.append("the bank beside it holds the case to its height")
        notes.append(f"all {len(piece.legs)} legs alike")
    if member.bank and not slipped.bank and len(banks) > 1:
        notes.append("each bank has to take up as much")
    return TakenUp(member.name, member.work, member.size, becomes, not hinders, "; ".join(hinders or notes))


def _opening_gives(piece: CasePiece, slipped: Member, member: Member, off: Fraction) -> tuple[list[str], list[str]]:
    """What hinders an opening from taking up a slip, and what comes with it."""
    rows = _banks(piece)[member.bank]
    row = rows.rows[member.number - 1]
    if row.built is not None:
        return [f"it is built already, {write_exact(row.built, piece.design.unit)} high"], []
    came = {member.number: -off} | ({slipped.number: off} if slipped.work == _OPENINGS else {})
    hinders, notes = _room_over(piece, row, row.opening - off)
    before = [other.opening for other in rows.rows]
    after = [opening + came.get(number, 0) for number, opening in enumerate(before, 1)]
    if never_shrinks(before) and not never_shrinks(after):
        notes.append("the steps from row to row would shrink")
    return hinders, notes


def _room_over(piece: CasePiece, row: Row, opening: Fraction) -> tuple[list[str], list[str]]:
    """Sides in whole pitches do not follow an opening: what hinders or comes with their room in it."""
    jig, unit = piece.design.jig, piece.design.unit
    if row.side is None or jig is None:
        return [], []
    side, room, wanted = (write_exact(size, unit) for size in (row.side, opening - row.side, jig.clearance))
    if opening <= row.side:
        return [f"its sides come in whole pitches, {side}, and would have no room"], []
    said = [f"its sides come in whole pitches, and {room} is left over them in place of {wanted}"]
    return (said, []) if opening - row.side >= 2 * jig.clearance else ([], said)


def _lived_with(piece: CasePiece, slipped: Member, off: Fraction) -> TakenUp:
    """The drawer sides of the opening that slipped, which follow it or have to do with its room."""
    row, came = _banks(piece)[slipped.bank].rows[slipped.number - 1], slipped.size + off
    hinders, notes = _room_over(piece, row, came)
    size, becomes = (came - off, came) if row.side is None else (row.side, row.side)
    why = hinders or notes or ["they are cut to the opening as it came out"]
    name = slipped.name.replace("opening", "drawer sides")
    return TakenUp(name, _DRAWERS, size, becomes, not hinders, "; ".join(why))
