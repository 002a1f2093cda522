"""Pulls: the lines that run through all rows of a bank, and where each front is drilled."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate
from typing import TYPE_CHECKING

from furnlib.base.guards import DesignError, fault_at
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.openings import Row
from furnlib.trade.drawer.parts import Making
from furnlib.trade.drawer.pulls import DrillingPattern, Pull, centre_line, drilling_pattern, pull_lines

if TYPE_CHECKING:
    from furnlib.plan.sizes.drawers import DrawerPart


def opening_lefts(design: CaseDesign, row: Row) -> tuple[Fraction, ...]:
    """Left edges of the openings of a row, from the inside of its bank.

    Args:
        design: the piece as settled.
        row: the row.

    Returns:
        The edges, from the left.
    """
    return (Fraction(0), *accumulate(width + design.case.divider for width in row.widths[:-1]))


def bank_lines(design: CaseDesign, bank: Bank) -> tuple[Fraction, ...]:
    """Pull lines of a bank, from its inside on the left.

    Args:
        design: the piece as settled.
        bank: a bank with drawers.

    Returns:
        The lines, none where the design has no pulls.

    Raises:
        DesignError: when the row that is carried on is not there, or lines and row are both given or neither.
    """
    pulls = design.pulls
    if pulls is None or bank.rows is None:
        return ()
    with fault_at("pulls"):
        if (pulls.row is None) == (not pulls.shares):
            raise DesignError(
                "Say where the pulls stand: 'row: 1' carries that row's middles on, 'shares: [1/2]' the width."
            )
        rows = bank.rows.rows
        beyond = next((share for share in pulls.shares if not 0 < share < 1), None)
        if beyond is not None:
            raise DesignError(f"A pull at {beyond} of the width stands outside it; give shares between 0 and 1.")
        if pulls.row is None:  # the width as built, where that was measured
            width = opening_lefts(design, rows[0])[-1] + rows[0].widths[-1]
            return tuple(pull_lines(width, tuple(share * width for share in pulls.shares)))
        if pulls.row > len(rows):
            raise DesignError(f"Row {pulls.row} is not there; the rows run from 1 to {len(rows)}.")
        row = rows[pulls.row - 1]
        return tuple(
            centre_line(left, width) for left, width in zip(opening_lefts(design, row), row.widths, strict=True)
        )


def patterns_of(
    design: CaseDesign, lines: tuple[Fraction, ...], row: Row, name: str, making: Making, front: DrawerPart
) -> tuple[DrillingPattern, ...]:
    """Where each front of a row is drilled for its pulls.

    Args:
        design: the piece as settled.
        lines: pull lines of the bank it stands in.
        row: the row.
        name: of the row.
        making: of its drawers.
        front: the part.

    Returns:
        A pattern for each front from the left, none where the design has no pulls.

    Raises:
        DesignError: when no line crosses a front, or a hole breaks out.
    """
    pulls = design.pulls
    if pulls is None:
        return ()
    pull = Pull(pulls.base, pulls.thread, pulls.hole_diameter, pulls.spacing)
    wide, high = Fraction(front.length.value), Fraction(front.width.value)
    thick = making.front_thickness + making.inner_front
    with fault_at("pulls"):
        return tuple(
            drilling_pattern(
                name if len(row.widths) == 1 else f"{name}, drawer {number}",
                left + (width - wide) / 2,
                wide,
                high,
                thick,
                lines,
                pull,
                pulls.raised,
            )
            for number, (left, width) in enumerate(zip(opening_lefts(design, row), row.widths, strict=True), 1)
        )
