"""The openings: by the rule, closed on the grid, split where the maker says so."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import count

from furnlib.base.guards import DesignError, fault_at
from furnlib.base.units import write_length
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.case import CaseSizes
from furnlib.plan.sizes.size import Chain, Concern, Size, Term, closed_chain, sum_size
from furnlib.trade.drawer.graduation import (
    Closed,
    close_on_grid,
    constant_ratio,
    constant_step,
    equal_openings,
    running_sizes,
)

_HAND_MM = 25  # an opening below this takes no hand


@dataclass(frozen=True)
class Row:
    """One row of the case.

    Args:
        number: counted from the top, from 1.
        opening: clear height, exact, in the piece's unit.
        ideal: what the rule asked for.
        top: upper edge of the opening, measured from the top of the case.
        bottom: lower edge, measured from the top of the case.
        widths: clear widths of the drawers side by side.
    """

    number: int
    opening: Fraction
    ideal: Fraction
    top: Fraction
    bottom: Fraction
    widths: tuple[Fraction, ...]

    @property
    def change(self) -> Fraction:
        """What closing did to the opening: above 0 where it grew."""
        return self.opening - self.ideal


@dataclass(frozen=True)
class RowSizes:
    """All rows, top to bottom.

    Args:
        rows: each row.
        closed: the openings beside what they came from.
        rule: the rule in words and numbers.
        sizes: each opening with its rule.
        chains: those that close here.
        concerns: what to settle before wood is cut.
    """

    rows: tuple[Row, ...]
    closed: Closed
    rule: str
    sizes: tuple[Size, ...]
    chains: tuple[Chain, ...]
    concerns: tuple[Concern, ...]


def _needed(design: CaseDesign, name: str) -> Fraction:
    value: Fraction | None = getattr(design.rows, name)
    if value is None:
        raise DesignError(f"The rule '{design.rows.rule}' needs a {name}; add a line '{name}: …' under rows.")
    return value


def _close(design: CaseDesign, clear: Fraction) -> tuple[Closed, str]:
    """Apply the rule and close it; say the rule in words."""
    rows, unit = design.rows, design.unit
    if rows.rule == "own list":
        return _own_list(design, clear), "own list"
    with fault_at("rows", {"constant step": "step", "constant ratio": "ratio"}.get(rows.rule, "number")):
        if rows.rule == "constant step":
            step = _needed(design, "step")
            ideal, words = constant_step(clear, rows.number, step), f"constant step of {write_length(step, unit)}"
        elif rows.rule == "constant ratio":
            ratio = _needed(design, "ratio")
            ideal, words = constant_ratio(clear, rows.number, ratio), f"constant ratio of {float(ratio):g}"
        else:
            ideal, words = equal_openings(clear, rows.number), "equal openings"
    with fault_at("grid"):
        return close_on_grid(ideal, design.grid, unit), words


def _own_list(design: CaseDesign, clear: Fraction) -> Closed:
    with fault_at("rows", "openings"):
        openings = design.rows.openings
        if openings is None:
            raise DesignError("The rule 'own list' needs the openings; add a line 'openings: [83, 103, …]' under rows.")
        if len(openings) != design.rows.number:
            raise DesignError(
                f"The list has {len(openings)} openings for {design.rows.number} rows; give one for each row."
            )
        links = tuple(Term(h, f"row {i}") for i, h in enumerate(openings, 1))
        closed_chain("list of openings", design.unit, links, clear)
    return Closed(openings, openings, openings, design.grid, steps_never_shrink=True)


def _split(design: CaseDesign, case: CaseSizes, number: int) -> Size:
    """Width of each drawer in a row that is divided side by side."""
    drawers = design.rows.split[number]
    with fault_at("rows", "split", str(number)):
        if not 1 <= drawers <= 12:
            raise DesignError(f"Row {number} is split into {drawers}; it can be 1 to 12 drawers side by side.")
        terms = (Term(case.bays[0]), Term(-design.case.divider, "divider", drawers - 1))
        size = sum_size(f"width of each drawer in row {number}", design.unit, terms, share=drawers)
        if size.value <= 0:
            raise DesignError(
                f"The dividers of row {number} leave no width for {drawers} drawers; split it into fewer, or thin the"
                " divider."
            )
    return size


def _widths(case: CaseSizes, split: Size | None, drawers: int) -> tuple[Fraction, ...]:
    """Clear widths of the drawers side by side in one row."""
    return (case.bays[0] if split is None else Fraction(split.value),) * drawers


def row_sizes(design: CaseDesign, case: CaseSizes) -> RowSizes:
    """Derive the openings from the rule and close them on the grid.

    Args:
        design: the piece as settled.
        case: the case's sizes.

    Returns:
        The rows with their edges, widths and rules.

    Raises:
        DesignError: when the rule cannot fill the clear height, or the grid cannot close it.
    """
    unit = design.unit
    closed, rule = _close(design, case.clear_height)
    with fault_at("rows", "split"):
        beyond = [number for number in design.rows.split if not 1 <= number <= design.rows.number]
        if beyond:
            raise DesignError(
                f"Row {beyond[0]} is split, but the rows run from 1 to {design.rows.number}; name one of these."
            )
    split = {number: _split(design, case, number) for number in sorted(design.rows.split)}
    edges = running_sizes(closed.openings, design.case.divider, design.case.top)
    rows = tuple(
        Row(number, opening, ideal, top, bottom, _widths(case, split.get(number), design.rows.split.get(number, 1)))
        for number, opening, ideal, top, bottom in zip(
            count(1), closed.openings, closed.ideal, edges[::2], edges[1::2], strict=False
        )
    )
    sizes = [
        Size(f"opening of row {row.number}", row.opening, unit, _opening_rule(row, rule, closed, design))
        for row in rows
    ]
    links = tuple(Term(row.opening, f"row {row.number}") for row in rows)
    chains = [closed_chain("openings", unit, links, case.clear_height)]
    for number, width in split.items():
        if design.rows.split[number] > 1:
            sizes.append(width)
            side_by_side = [Term(Fraction(width.value), "drawer"), Term(design.case.divider, "divider")]
            links = tuple((side_by_side * design.rows.split[number])[:-1])
            chains.append(closed_chain(f"width inside row {number}", unit, links, case.bays[0]))
    return RowSizes(rows, closed, rule, tuple(sizes), tuple(chains), _concerns(design, closed, rows))


def _opening_rule(row: Row, rule: str, closed: Closed, design: CaseDesign) -> str:
    written = write_length(row.opening, design.unit)
    if closed.openings == closed.ideal:
        return f"{written} by {rule}"
    grid = write_length(closed.grid, design.unit, style="spoken", finest=closed.grid)
    return f"{written} by {rule}: {float(row.ideal):.3f}, closed on {grid}"


def _concerns(design: CaseDesign, closed: Closed, rows: tuple[Row, ...]) -> tuple[Concern, ...]:
    found = []
    if not closed.steps_never_shrink:
        found.append(
            Concern(
                "steps_shrink",
                f"grid {write_length(closed.grid, design.unit, style='spoken', finest=closed.grid)}",
                "on this grid no set of openings adds up with steps that never shrink; the largest remainders went up",
                ("take a finer grid", "take a stronger step or ratio", "take equal openings"),
            )
        )
    least = Fraction(_HAND_MM) if design.unit == "mm" else Fraction(1)
    small = [row for row in rows if row.opening < least]
    if small:
        found.append(
            Concern(
                "opening_too_low",
                write_length(small[0].opening, design.unit, style="spoken"),
                f"the opening of row {small[0].number} takes no hand",
                ("take fewer rows", "take a smaller step or ratio", "make it a tray or a false front"),
            )
        )
    off = [h for h in closed.openings if (h / closed.grid).denominator != 1]
    if off:
        found.append(
            Concern(
                "off_the_grid",
                write_length(off[0], design.unit, style="spoken"),
                "an opening of the list lies between the marks of this shop's grid",
                ("move it to the grid", "take a finer grid"),
            )
        )
    return tuple(found)
