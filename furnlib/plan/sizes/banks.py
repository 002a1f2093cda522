"""Banks: the bays of a case from the left, each with its rows of drawers, or open."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction

from furnlib.base.guards import DesignError, fault_at
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_case import Bay, Measured, Rows
from furnlib.plan.sizes.case import CaseSizes
from furnlib.plan.sizes.graduation import graduate
from furnlib.plan.sizes.openings import RowSizes, row_sizes
from furnlib.plan.sizes.size import Chain


@dataclass(frozen=True)
class Bank:
    """One bay of a case and the drawers in it.

    Args:
        number: of the bank, counted from the left over those with drawers; 0 for an open bay.
        left: its left edge, from the left edge of the case.
        width: its clear width as planned, in the piece's unit.
        rows: its openings, None where it is open.
        called: what tells its sizes from those of banks that are not like it, such as ", bank 2".
    """

    number: int
    left: Fraction
    width: Fraction
    rows: RowSizes | None
    called: str = ""


@dataclass(frozen=True)
class BankSizes:
    """All bays of a case.

    Args:
        banks: from the left, open ones too.
        chains: those that close in them, alike banks once.
    """

    banks: tuple[Bank, ...]
    chains: tuple[Chain, ...]

    @property
    def with_drawers(self) -> tuple[Bank, ...]:
        """The banks with drawers in them, from the left."""
        return tuple(bank for bank in self.banks if bank.rows)


def _rows_of(design: CaseDesign) -> tuple[Rows | None, ...]:
    """The rows that each bay is to have, None for an open one."""
    bays = design.case.bays or (Bay(),)
    rows = tuple(None if bay.open == "yes" else bay.rows or design.rows for bay in bays)
    if not any(rows):
        with fault_at("case", "bays"):
            raise DesignError("Every bay is open, so nothing is left for the rows; let drawers stand in one of them.")
    return rows


def left_for_legs(design: CaseDesign, case: CaseSizes) -> Fraction:
    """What the jig's pitch leaves over for the legs to take up.

    Args:
        design: the piece as settled.
        case: the case's sizes before anything went to the legs.

    Returns:
        The height, 0 where nothing is left or it goes elsewhere.
    """
    if design.jig is None or design.jig.leftover != "leg" or design.legs is None:
        return Fraction(0)
    bay, rows = next((bay, rows) for bay, rows in enumerate(_rows_of(design)) if rows)
    with _of_bay(design, bay):
        return graduate(design, case, rows).leftover


def bank_sizes(design: CaseDesign, case: CaseSizes) -> BankSizes:
    """Derive the openings of every bank.

    Args:
        design: the piece as settled.
        case: the case's sizes.

    Returns:
        The bays from the left.

    Raises:
        DesignError: when a bank's rule cannot fill its height, or what was measured names no bank.
    """
    wanted, measured = _rows_of(design), _measured(design)
    drawers = [rows for rows in wanted if rows]
    on_width = design.drawers is not None  # then every bank has sizes that hang on its width
    widths = {width for width, rows in zip(case.bays, wanted, strict=True) if rows and (rows.split or on_width)}
    several = any(rows != drawers[0] for rows in drawers) or len(widths) > 1 or (len(drawers) > 1 and bool(measured))
    edges = (design.case.side, *case.partitions[1::2])
    banks: list[Bank] = []
    for left, width, rows in zip(edges, case.bays, wanted, strict=True):
        number = 1 + sum(bank.rows is not None for bank in banks) if rows else 0
        called = f", bank {number}" if several else ""
        built = measured.pop(number, Measured())
        with _of_bay(design, len(banks)):
            made = row_sizes(design, case, rows, width, built, called) if rows else None
        banks.append(Bank(number, left, width, made, called))
    if measured:
        with fault_at("as built"):
            raise DesignError(
                f"Bank {min(measured)} was measured, but there is none; banks with drawers count from 1 at the left."
            )
    there = [bank.rows for bank in banks if bank.rows]
    chains = tuple({chain.name: chain for rows in there for chain in rows.chains}.values())
    return BankSizes(tuple(banks), chains)


@contextmanager
def _of_bay(design: CaseDesign, bay: int) -> Iterator[None]:
    """Let a fault of a bay's own rows name the bay's line."""
    try:
        yield
    except DesignError as error:
        if design.case.bays and design.case.bays[bay].rows and error.path[:1] == ("rows",):
            error.path = ("case", "bays", bay, *error.path)
        raise


def _measured(design: CaseDesign) -> dict[int, Measured]:
    """What was measured, by bank."""
    found: dict[int, Measured] = {}
    for measured in design.as_built:
        with fault_at("as built"):
            if measured.bank in found:
                raise DesignError(f"Bank {measured.bank} was measured twice; keep one of the two.")
        found[measured.bank] = measured
    return found
