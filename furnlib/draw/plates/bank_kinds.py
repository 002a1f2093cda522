"""Banks whose openings are alike: one sheet and one stick stand for all of them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from furnlib.base.guards import DesignError
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.openings import RowSizes
from furnlib.plan.sizes.size import Chain

_MOST_LINKS = 60


@dataclass(frozen=True)
class BankKind:
    """Banks that share their openings, whatever they are wide.

    Args:
        banks: from the left.
        rows: their openings, widths those of the first.
        name: such as "Banks 1 and 2"; empty where the case has no other.
    """

    banks: tuple[Bank, ...]
    rows: RowSizes
    name: str

    @property
    def numbers(self) -> tuple[int, ...]:
        """Which banks they are, counted from the left over those with drawers."""
        return tuple(bank.number for bank in self.banks)


def bank_kinds(piece: Piece, least_rows: int = 1) -> tuple[BankKind, ...]:
    """Group the banks of a piece by their openings: heights, rails and dividers, and what was measured.

    Args:
        piece: a finished piece.
        least_rows: kinds with fewer rows are left out.

    Returns:
        The kinds in the order of their first banks; none where it has no drawers.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [kind.name for kind in bank_kinds(read_piece("notebooks/designs/abrasive_cabinet.yaml"))]
        ['Banks 1 and 2']
    """
    found: dict[Any, tuple[RowSizes, list[Bank]]] = {}
    made = [bank for bank in piece.banks if bank.rows] if isinstance(piece, CasePiece) else []
    for bank in made:
        if rows := bank.rows:
            alike = tuple((row.opening, row.ideal, len(row.widths), row.built) for row in rows.rows)
            found.setdefault((rows.rule, rows.rails, rows.dividers, alike), (rows, []))[1].append(bank)
    return tuple(
        BankKind(tuple(banks), rows, _name([bank.number for bank in banks]) if len(made) > 1 else "")
        for rows, banks in found.values()
        if len(rows.rows) >= least_rows
    )


def _name(numbers: list[int]) -> str:
    first = ", ".join(map(str, numbers[:-1]))
    return f"Banks {first} and {numbers[-1]}" if first else f"Bank {numbers[-1]}"


def bank_kind(piece: Piece, number: int, what: str, least_rows: int = 1) -> BankKind:
    """The banks that one sheet is for.

    Args:
        piece: a finished piece.
        number: of the kind, from 1.
        what: the sheet's name in a sentence, such as "sheet of openings".
        least_rows: how many rows it takes.

    Returns:
        Its kind.

    Raises:
        DesignError: when the piece has no drawers, or no such sheet.
    """
    kinds = bank_kinds(case_of(piece), least_rows)
    if not 1 <= number <= len(kinds):
        rows = f" of {least_rows} rows or more" if least_rows > 1 else ""
        raise DesignError(
            f"{piece.design.piece} has no {what} {number}, it has {len(kinds)}: one for each kind of bank{rows}."
        )
    return kinds[number - 1]


def left_over(piece: CasePiece, kind: BankKind) -> tuple[Fraction, str]:
    """What whole pitches of a jig leave over of the height, and what takes it up.

    Args:
        piece: a case.
        kind: one of its kinds of bank.

    Returns:
        The height, and "leg", "top rail" or "bottom rail"; 0 and nothing where none is left.
    """
    jig, fit, legs = piece.design.jig, kind.rows.fit, piece.design.legs
    left = fit.leftover if fit else Fraction(0)
    if legs:
        left += piece.case.leg_height - legs.height
    return left, (jig.leftover or "") if jig and left else ""


def chain_words(chain: Chain) -> str:
    """A chain as a plate prints it.

    Args:
        chain: the chain.

    Returns:
        All its links and their sum; of very many only how many there are.
    """
    return str(chain) if len(chain.links) <= _MOST_LINKS else f"{len(chain.links)} sizes, in the list of chains"
