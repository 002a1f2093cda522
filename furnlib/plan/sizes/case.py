"""The case: its own height, what is clear inside, its bays side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from furnlib.base.guards import DesignError, fault_at, require_positive
from furnlib.base.terms import Term
from furnlib.base.units import write_length
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.size import Chain, Size, closed_chain, sum_size


@dataclass(frozen=True)
class CaseSizes:
    """The case's derived sizes, exact, in the piece's unit.

    Args:
        height: of the case without legs.
        leg_height: floor to the underside of the case, 0 where it has no legs.
        inside_width: between the sides.
        inside_height: between top and bottom.
        bays: clear widths side by side, from the left.
        partitions: where the faces of the partitions stand, from the left edge of the case, in pairs.
        sizes: each with its rule.
        chains: those that close here.
    """

    height: Fraction
    leg_height: Fraction
    inside_width: Fraction
    inside_height: Fraction
    bays: tuple[Fraction, ...]
    partitions: tuple[Fraction, ...]
    sizes: tuple[Size, ...]
    chains: tuple[Chain, ...]


def case_sizes(design: CaseDesign, to_legs: Fraction = Fraction(0)) -> CaseSizes:
    """Derive the case from the master sizes.

    Args:
        design: the piece as settled.
        to_legs: what the rows leave over and the legs take up.

    Returns:
        The case's sizes.

    Raises:
        DesignError: when nothing is left inside, or a height that is given twice does not close.
    """
    unit, overall, case = design.unit, design.overall, design.case
    legs, sizes = Fraction(0), []
    if design.legs:
        legs = design.legs.height + to_legs
        if to_legs:
            sizes.append(
                sum_size("leg height", unit, (Term(design.legs.height), Term(to_legs, "left over by the jig")))
            )
    with fault_at("overall", "height"):
        height = sum_size("case height", unit, (Term(overall.height), Term(-legs, "legs")))
        require_positive("case height", height.value, "raise the piece or shorten the legs")
        if case.height is not None:
            links = (Term(case.height, "case"), Term(legs, "legs"))
            closed_chain("height of the piece", unit, links, overall.height)
    with fault_at("case", "side"):
        width = sum_size("inside width", unit, (Term(overall.width), Term(-case.side, "side", 2)))
        require_positive("inside width", width.value, "thin the sides or widen the piece")
    with fault_at("case", "top"):
        terms = (Term(Fraction(height.value)), Term(-case.top, "top"), Term(-case.bottom, "bottom"))
        inside = sum_size("inside height", unit, terms)
        require_positive("inside height", inside.value, "thin top and bottom or raise the case")
    shared = _shared_width(design, Fraction(width.value))
    bays = _bays(design, Fraction(width.value), shared)
    sizes += [*([height] if design.legs else []), width, *([shared] if shared else []), inside]
    return CaseSizes(
        height=Fraction(height.value),
        leg_height=legs,
        inside_width=Fraction(width.value),
        inside_height=Fraction(inside.value),
        bays=bays,
        partitions=tuple(_partitions(design, bays)),
        sizes=tuple(sizes),
        chains=_chains(design, Fraction(height.value), bays, legs),
    )


def _partition(design: CaseDesign) -> Fraction:
    """Thickness of the partitions; nothing where one bay takes the whole width."""
    if len(design.case.bays) < 2:
        return Fraction(0)
    if design.case.partition is None:
        raise DesignError("Bays side by side need a partition between them; add a line 'partition: …' under case.")
    return design.case.partition


def _shared_width(design: CaseDesign, inside: Fraction) -> Size | None:
    """What the bays with a width of their own leave to each of those without one."""
    bays, unit = design.case.bays, design.unit
    sharing = [bay for bay in bays if bay.width is None]
    if not bays:
        return None
    with fault_at("case", "bays"):
        terms = [Term(inside)]
        terms += [Term(-bay.width, f"bay {number}") for number, bay in enumerate(bays, 1) if bay.width is not None]
        if len(bays) > 1:
            terms.append(Term(-_partition(design), "partition", len(bays) - 1))
        if not sharing:
            links = [Term(-term.value, term.what, term.times) for term in terms[1:]]
            closed_chain("inside width", unit, tuple(links), inside)
            return None
        kind = "open bay" if all(bay.open == "yes" for bay in sharing) else "bay"
        name = f"width of the {kind}" if len(sharing) == 1 else f"width of each {kind}"
        size = sum_size(name, unit, tuple(terms), share=len(sharing))
        if size.value <= 0:
            raise DesignError(
                f"The bays and partitions take {write_length(inside - size.value * len(sharing), unit)} of the"
                f" {write_length(inside, unit)} inside and leave no {kind}: narrow a bay, thin the partition or widen"
                " the piece."
            )
    return size


def _bays(design: CaseDesign, inside: Fraction, shared: Size | None) -> tuple[Fraction, ...]:
    if not design.case.bays:
        return (inside,)
    rest = Fraction(shared.value) if shared else Fraction(0)
    return tuple(rest if bay.width is None else bay.width for bay in design.case.bays)


def _partitions(design: CaseDesign, bays: tuple[Fraction, ...]) -> Iterator[Fraction]:
    edge, thick = design.case.side, _partition(design)
    for clear in bays[:-1]:
        yield edge + clear
        edge += clear + thick
        yield edge


def _chains(design: CaseDesign, height: Fraction, bays: tuple[Fraction, ...], legs: Fraction) -> tuple[Chain, ...]:
    """Add the members up again, each from its own place in the file."""
    unit, side, chains = design.unit, design.case.side, []
    if design.legs:
        whole = (Term(height, "case"), Term(legs, "legs"))
        chains.append(closed_chain("height of the piece", unit, whole, design.overall.height))
    inside = [Term(bays[0], "bay 1" if len(bays) > 1 else "inside")]
    for number, clear in enumerate(bays[1:], 2):
        inside += [Term(_partition(design), "partition"), Term(clear, f"bay {number}")]
    level = (Term(side, "side"), *inside, Term(side, "side"))
    chains.append(closed_chain("width of the case", unit, level, design.overall.width))
    return tuple(chains)
