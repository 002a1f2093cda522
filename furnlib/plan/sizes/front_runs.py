"""Fronts as they are seen, and laid out on the boards they come from, so that the figure runs on across dividers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from furnlib.base.guards import fault_at
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.plan.sizes.pulls import opening_lefts
from furnlib.trade.drawer.grain_run import Box, GrainRun, Line, RunPart, grain_run, set_triangle


@dataclass(frozen=True)
class FrontRun:
    """Fronts that come from one board.

    Args:
        name: such as "row 1".
        run: their board laid out.
        down: True where the fronts follow one another down the case.
    """

    name: str
    run: GrainRun
    down: bool


@dataclass(frozen=True)
class SeenFront:
    """One front where it stands, seen from the front.

    Args:
        name: of its row, and which drawer in it.
        left: its left edge, from the inside of its bank on the left.
        low: its lower edge, over the top of the case, so below 0.
        width: from its left edge to its right edge.
        height: from its lower edge to its upper edge.
        triangle: the lines that it gets of the triangle over its set, from its own left and lower edge.
    """

    name: str
    left: Fraction
    low: Fraction
    width: Fraction
    height: Fraction
    triangle: tuple[Line, ...]


def front_runs(design: CaseDesign, banks: tuple[Bank, ...], drawers: tuple[DrawerSizes, ...]) -> tuple[FrontRun, ...]:
    """Lay the fronts out on boards, a board for each row, or one for each bank down the case.

    Args:
        design: the piece as settled.
        banks: the bays with their openings.
        drawers: of every row.

    Returns:
        The runs in the order of the drawers, none where the design has no grain to carry on.

    Raises:
        DesignError: when fronts that lie over the case run into one another, or make no run.
    """
    if design.grain is None:
        return ()
    with fault_at("grain"):
        if design.grain.course == "along the rows":
            return tuple(_along(design, drawer) for drawer in drawers)
        several = len({drawer.bank for drawer in drawers}) > 1
        return tuple(
            _down(design, bank, drawers, f"down bank {bank.number}" if several else "down the case")
            for bank in banks
            if bank.rows and drawers
        )


def fronts_seen(design: CaseDesign, bank: Bank, drawers: tuple[DrawerSizes, ...]) -> tuple[SeenFront, ...]:
    """Say where the fronts of a bank stand, with the triangle that is drawn over them.

    Args:
        design: the piece as settled.
        bank: a bank with drawers.
        drawers: of every row.

    Returns:
        The fronts from the top down, in each row from the left. One triangle runs over all rows of one
        front; fronts that stand side by side have one of their own.
    """
    rows = []
    for drawer in _of(bank, drawers):
        assert bank.rows
        row, (wide, high) = bank.rows.rows[drawer.row - 1], _front(drawer)
        low = _room(design, drawer)[2] - row.bottom
        lefts = [left + (drawer.opening.width - wide) / 2 for left in opening_lefts(design, row)]
        rows.append({name: (left, low, wide, high) for name, left in zip(_names(drawer), lefts, strict=True)})
    alone: dict[str, Box] = {name: box for row in rows if len(row) == 1 for name, box in row.items()}
    sets = [*([alone] if alone else []), *(row for row in rows if len(row) > 1)]
    marks = {name: lines for boxes in sets for name, lines in set_triangle(boxes).items()}
    return tuple(SeenFront(name, *box, marks[name]) for row in rows for name, box in row.items())


def _of(bank: Bank, drawers: Iterable[DrawerSizes]) -> list[DrawerSizes]:
    return [drawer for drawer in drawers if drawer.bank == bank.number]


def _names(drawer: DrawerSizes) -> list[str]:
    """Of each front of a row, as its drilling pattern has them."""
    numbers = range(1, drawer.count + 1)
    return [f"{drawer.name}, drawer {number}" for number in numbers] if drawer.count > 1 else [drawer.name]


def _front(drawer: DrawerSizes) -> tuple[Fraction, Fraction]:
    front = drawer.part("front")
    return Fraction(front.length.value), Fraction(front.width.value)


def _room(design: CaseDesign, drawer: DrawerSizes) -> tuple[Fraction, Fraction, Fraction]:
    """What is free of an opening beside a front, over it and under it; below 0 where it lies over the case."""
    assert design.drawers
    settled, opening, (wide, high) = design.drawers.front, drawer.opening, _front(drawer)
    below = settled.below if settled.kind == "flush" else -settled.overlay
    return (opening.width - wide) / 2, opening.height - below - high, below


def _along(design: CaseDesign, drawer: DrawerSizes) -> FrontRun:
    """The fronts of one row, side by side."""
    beside, (wide, high) = _room(design, drawer)[0], _front(drawer)
    divider = _divider(design, design.case.divider, drawer.opening.height)
    fronts = [RunPart(name, wide, high) for name in _names(drawer)]
    return FrontRun(drawer.name, _laid(design, fronts, [(divider, beside, beside)] * (drawer.count - 1)), False)


def _down(design: CaseDesign, bank: Bank, drawers: tuple[DrawerSizes, ...], name: str) -> FrontRun:
    """The fronts of one bank, one under the other; those of a split row lie side by side in one strip of the board."""
    assert bank.rows
    found = _of(bank, drawers)
    inside = [drawer.count * (drawer.opening.width + design.case.divider) - design.case.divider for drawer in found]
    fronts = [
        RunPart(drawer.name, _front(drawer)[1], across - 2 * _room(design, drawer)[0])
        for drawer, across in zip(found, inside, strict=True)
    ]
    between = [
        (_divider(design, thick, across), _room(design, upper)[2], _room(design, lower)[1])
        for (upper, lower), thick, across in zip(pairwise(found), bank.rows.dividers, inside, strict=False)
    ]
    return FrontRun(name, _laid(design, fronts, between), True)


def _divider(design: CaseDesign, thickness: Fraction, across: Fraction) -> RunPart:
    assert design.grain
    return RunPart("divider", thickness, across, "divider", design.grain.dividers == "yes")


def _laid(design: CaseDesign, fronts: list[RunPart], between: list[tuple[RunPart, Fraction, Fraction]]) -> GrainRun:
    """Lay fronts out with what is between them: each divider, and what is free before it and after it."""
    assert design.grain
    parts, gaps = fronts[:1], []
    for front, (divider, before, after) in zip(fronts[1:], between, strict=True):
        if min(before, after) >= 0:
            parts.append(divider)
            gaps += [before, after]
        else:  # the fronts lie over it
            gaps.append(divider.length + before + after)
        parts.append(front)
    return grain_run(parts, gaps, design.grain.kerf, design.grain.trim)
