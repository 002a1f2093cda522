"""The case: its own height and what is clear inside."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from furnlib.base.guards import DesignError, fault_at, require_between, require_positive
from furnlib.base.units import write_length
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.size import Chain, Size, Term, closed_chain, sum_size
from furnlib.trade.drawer.graduation import MOST_ROWS


@dataclass(frozen=True)
class CaseSizes:
    """The case's derived sizes, exact, in the piece's unit.

    Args:
        height: of the case without legs.
        inside_width: between the sides.
        inside_height: between top and bottom.
        bays: clear widths side by side, of the bay with the drawers first.
        dividers: how many.
        clear_height: inside height less the dividers: what the openings share.
        sizes: each with its rule.
        chains: those that close here.
    """

    height: Fraction
    inside_width: Fraction
    inside_height: Fraction
    bays: tuple[Fraction, ...]
    dividers: int
    clear_height: Fraction
    sizes: tuple[Size, ...]
    chains: tuple[Chain, ...]


def case_sizes(design: CaseDesign) -> CaseSizes:
    """Derive the case from the master sizes.

    Args:
        design: the piece as settled.

    Returns:
        The case's sizes.

    Raises:
        DesignError: when nothing is left inside, or a height that is given twice does not close.
    """
    unit, overall, case = design.unit, design.overall, design.case
    leg_height = design.legs.height if design.legs else Fraction(0)
    with fault_at("overall", "height"):
        height = sum_size("case height", unit, (Term(overall.height), Term(-leg_height, "legs")))
        require_positive("case height", height.value, "raise the piece or shorten the legs")
        if case.height is not None:
            links = (Term(case.height, "case"), Term(leg_height, "legs"))
            closed_chain("height of the piece", unit, links, overall.height)
    with fault_at("case", "side"):
        width = sum_size("inside width", unit, (Term(overall.width), Term(-case.side, "side", 2)))
        require_positive("inside width", width.value, "thin the sides or widen the piece")
    beside = _open_bay(design, Fraction(width.value))
    with fault_at("case", "top"):
        inside = sum_size(
            "inside height", unit, (Term(Fraction(height.value)), Term(-case.top, "top"), Term(-case.bottom, "bottom"))
        )
        require_positive("inside height", inside.value, "thin top and bottom or raise the case")
    with fault_at("rows", "number"):
        require_between(
            "number of rows", design.rows.number, 1, MOST_ROWS, "count the rows from top to bottom", ends=True
        )
    with fault_at("case", "divider"):
        dividers = design.rows.number - 1
        clear = sum_size("clear height", unit, (Term(Fraction(inside.value)), Term(-case.divider, "divider", dividers)))
        if clear.value <= 0:
            raise DesignError(
                f"{dividers} dividers of {write_length(case.divider, unit)} take"
                f" {write_length(case.divider * dividers, unit)} of the {write_length(inside.value, unit)} inside,"
                " so no openings are left: thin the dividers, take fewer rows or raise the case."
            )
    bays = (case.bay.width, Fraction(beside.value)) if case.bay and beside else (Fraction(width.value),)
    sizes = (height, width, *([beside] if beside else []), inside, clear)
    return CaseSizes(
        height=Fraction(height.value),
        inside_width=Fraction(width.value),
        inside_height=Fraction(inside.value),
        bays=bays,
        dividers=dividers,
        clear_height=Fraction(clear.value),
        sizes=sizes if design.legs else sizes[1:],
        chains=_chains(design, Fraction(height.value), bays, Fraction(clear.value), leg_height),
    )


def _open_bay(design: CaseDesign, inside: Fraction) -> Size | None:
    """What the bay and its partition leave beside them, where there is a bay."""
    bay, unit = design.case.bay, design.unit
    if bay is None:
        return None
    with fault_at("case", "bay", "width"):
        terms = (Term(inside), Term(-bay.width, "bay"), Term(-bay.partition, "partition"))
        beside = sum_size("width of the open bay", unit, terms)
        if beside.value <= 0:
            taken, thick, there = (write_length(one, unit) for one in (bay.width, bay.partition, inside))
            raise DesignError(
                f"The bay of {taken} and its partition of {thick} leave no open bay of the {there} inside: narrow the"
                " bay, thin the partition or widen the piece."
            )
    return beside


def _chains(
    design: CaseDesign, height: Fraction, bays: tuple[Fraction, ...], clear: Fraction, leg_height: Fraction
) -> tuple[Chain, ...]:
    """Add the members up again, each from its own place in the file."""
    case, unit = design.case, design.unit
    upright = [Term(case.top, "top"), Term(clear, "openings"), Term(case.bottom, "bottom")]
    if design.rows.number > 1:
        upright.insert(2, Term(case.divider, "dividers", design.rows.number - 1))
    chains = [closed_chain("height of the case", unit, tuple(upright), height)]
    if design.legs:
        whole = (Term(height, "case"), Term(leg_height, "legs"))
        chains.append(closed_chain("height of the piece", unit, whole, design.overall.height))
    inside = [Term(bays[0], "bay" if case.bay else "inside")]
    if case.bay:
        inside += [Term(case.bay.partition, "partition"), Term(bays[1], "open bay")]
    level = (Term(case.side, "side"), *inside, Term(case.side, "side"))
    chains.append(closed_chain("width of the case", unit, level, design.overall.width))
    return tuple(chains)
