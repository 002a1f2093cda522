"""The openings of one bank: by the rule, closed on the grid or on the jig's pitch, split where the maker says so."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import count, groupby

from furnlib.base.guards import DesignError, fault_at
from furnlib.base.terms import Term
from furnlib.base.units import write_exact, write_length
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_case import Measured, Rows
from furnlib.plan.sizes.case import CaseSizes
from furnlib.plan.sizes.graduation import Graduation, graduate
from furnlib.plan.sizes.size import Chain, Size, closed_chain, sum_size
from furnlib.trade.drawer.closing import Closed, PitchFit
from furnlib.trade.drawer.graduation import running_sizes

_MISREAD = Fraction(1, 4)  # a measured size this far from its plan is a slip of the tape or of the pen


@dataclass(frozen=True)
class Row:
    """One row of a bank.

    Args:
        number: counted from the top, from 1.
        opening: clear height, exact, in the piece's unit.
        ideal: what the rule asked for.
        top: upper edge of the opening, measured from the top of the case.
        bottom: lower edge, measured from the top of the case.
        widths: clear widths of the drawers side by side, as built where that was measured.
        pitches: how many pitches of the jig its sides take, None without a jig.
        side: height of a drawer side cut by the jig, None without one.
        built: its clear height as measured, None where it was not.
    """

    number: int
    opening: Fraction
    ideal: Fraction
    top: Fraction
    bottom: Fraction
    widths: tuple[Fraction, ...]
    pitches: int | None
    side: Fraction | None
    built: Fraction | None

    @property
    def change(self) -> Fraction:
        """What closing did to the opening: above 0 where it grew."""
        return self.opening - self.ideal

    @property
    def stands(self) -> Fraction:
        """The clear height that later parts follow: as built where that was measured, else as planned."""
        return self.opening if self.built is None else self.built


@dataclass(frozen=True)
class RowSizes:
    """All rows of a bank, top to bottom.

    Args:
        rows: each row.
        rule: the rule in words and numbers.
        clear_height: what the openings share: inside height less rails and dividers.
        dividers: their thicknesses from the top.
        rails: heights of the rails under the top and over the bottom, 0 where there is none.
        closed: the openings beside what they came from; of a jig's, the sides in whole pitches.
        fit: how the jig's pitch fills the clear height, None without a jig.
        sizes: each opening with its rule.
        chains: those that close here.
    """

    rows: tuple[Row, ...]
    rule: str
    clear_height: Fraction
    dividers: tuple[Fraction, ...]
    rails: tuple[Fraction, Fraction]
    closed: Closed
    fit: PitchFit | None
    sizes: tuple[Size, ...]
    chains: tuple[Chain, ...]


def row_sizes(
    design: CaseDesign, case: CaseSizes, rows: Rows, width: Fraction, built: Measured, called: str = ""
) -> RowSizes:
    """Derive a bank's openings from the rule and close them.

    Args:
        design: the piece as settled.
        case: the case's sizes.
        rows: the bank's rows.
        width: clear width of the bank, as planned.
        built: what was measured of it.
        called: what tells its sizes from those of other banks, such as ", bank 2".

    Returns:
        The rows with their edges, widths and rules.

    Raises:
        DesignError: when the rule cannot fill the clear height, or grid or pitch cannot close it.
    """
    shared = graduate(design, case, rows)
    fit, rails, across = shared.fit, _rails(design, shared), built.width or width
    with fault_at("as built"):
        planned = {f"row {number}": opening for number, opening in enumerate(shared.closed.openings, 1)}
        there = {f"row {number}": opening for number, opening in built.openings.items()}
        _require_measured_well(
            planned | {"the width": width}, there | ({"the width": built.width} if built.width else {}), design
        )
    split = {number: _split(design, rows, across, number, called) for number in _split_rows(rows)}
    edges = running_sizes(shared.closed.openings, shared.dividers, design.case.top + rails[0])
    made = tuple(
        Row(
            number=number,
            opening=opening,
            ideal=ideal,
            top=top,
            bottom=bottom,
            widths=(Fraction(split[number].value) if number in split else across,) * rows.split.get(number, 1),
            pitches=fit.pitches[number - 1] if fit else None,
            side=fit.sides[number - 1] if fit else None,
            built=built.openings.get(number),
        )
        for number, opening, ideal, top, bottom in zip(
            count(1), shared.closed.openings, shared.ideal, edges[::2], edges[1::2], strict=False
        )
    )
    sizes = [replace(shared.clear, name=f"clear height{called}")]
    sizes += [_opening(f"opening of row {row.number}{called}", row, shared, design) for row in made]
    sizes += _sides_and_rooms(design, made, called)
    sizes += [size for number, size in split.items() if rows.split[number] > 1]
    clear = Fraction(shared.clear.value)
    return RowSizes(
        rows=made,
        rule=shared.rule,
        clear_height=clear,
        dividers=shared.dividers,
        rails=rails,
        closed=shared.closed,
        fit=fit,
        sizes=tuple(sizes),
        chains=_chains(design, case, made, shared, rails, across, called),
    )


def _rails(design: CaseDesign, shared: Graduation) -> tuple[Fraction, Fraction]:
    """The rails, with what the jig leaves over in the one that takes it up."""
    case, fit = design.case, shared.fit
    if fit is None or not fit.leftover or design.jig is None:
        return case.top_rail, case.bottom_rail
    place = design.jig.leftover
    with fault_at("jig", "pitch"):
        if place is None:
            less, more = (write_exact(change, design.unit) for change in (fit.leftover, fit.to_next))
            raise DesignError(
                f"Whole pitches leave {less} of the clear height over; add 'leftover: leg', 'top rail' or 'bottom rail'"
                f" under jig, or make the case {less} lower or {more} higher."
            )
        if place == "leg":
            raise DesignError(
                "The banks leave different amounts over, and legs can take up only one; put it in a rail."
                if design.legs
                else "There are no legs to take up what is left over; put it in the top rail or the bottom rail."
            )
    return case.top_rail + fit.leftover * (place == "top rail"), case.bottom_rail + fit.leftover * (place != "top rail")


def _split_rows(rows: Rows) -> list[int]:
    with fault_at("rows", "split"):
        beyond = [number for number in rows.split if not 1 <= number <= rows.number]
        if beyond:
            raise DesignError(f"Row {beyond[0]} is split, but the rows run from 1 to {rows.number}; name one of these.")
    return sorted(rows.split)


def _split(design: CaseDesign, rows: Rows, width: Fraction, number: int, called: str) -> Size:
    """Width of each drawer in a row that is divided side by side."""
    drawers = rows.split[number]
    with fault_at("rows", "split", str(number)):
        if not 1 <= drawers <= 12:
            raise DesignError(f"Row {number} is split into {drawers}; it can be 1 to 12 drawers side by side.")
        terms = (Term(width), Term(-design.case.divider, "divider", drawers - 1))
        size = sum_size(f"width of each drawer in row {number}{called}", design.unit, terms, share=drawers)
        if size.value <= 0:
            raise DesignError(
                f"The dividers of row {number} leave no width for {drawers} drawers; split it into fewer, or thin the"
                " divider."
            )
    return size


def _require_measured_well(planned: dict[str, Fraction], built: dict[str, Fraction], design: CaseDesign) -> None:
    """Refuse a measured size that names nothing, or that can only be a slip."""
    for what, there in built.items():
        if what not in planned:
            raise DesignError(f"{what.capitalize()} was measured, but the rows run from 1 to {len(planned) - 1}.")
        if abs(there - planned[what]) > planned[what] * _MISREAD:
            plan, measured = (write_exact(size, design.unit) for size in (planned[what], there))
            raise DesignError(
                f"{what.capitalize()} was planned {plan} and is measured {measured}; read the tape again, or change"
                " the plan if it is so."
            )


def _opening(name: str, row: Row, shared: Graduation, design: CaseDesign) -> Size:
    """An opening with its rule: side and clearance by a jig, else what the rule asked for and how it was closed."""
    unit, closed = design.unit, shared.closed
    if row.side is not None and design.jig:
        return sum_size(name, unit, (Term(row.side, "side"), Term(design.jig.clearance, "clearance")))
    rule = f"{write_length(row.opening, unit)} by {shared.rule}"
    if closed.openings != closed.ideal:
        grid = write_length(closed.grid, unit, style="spoken", finest=closed.grid)
        rule += f": {float(row.ideal):.3f}, closed on {grid}"
    return Size(name, row.opening, unit, rule)


def _sides_and_rooms(design: CaseDesign, rows: tuple[Row, ...], called: str) -> list[Size]:
    """Sides in whole pitches, and the room over each in its opening as it was built."""
    unit, jig, sizes = design.unit, design.jig, []
    for row in rows:
        if row.pitches is not None and jig:
            terms = [Term(jig.pitch, "pitch", row.pitches)]
            if jig.first_offset or jig.last_offset:
                ends = ((jig.first_offset, "first offset"), (jig.last_offset, "last offset"))
                terms = [Term(offset or jig.pitch / 2, name) for offset, name in ends]
                terms.append(Term(jig.pitch, "pitch", row.pitches - 1))
            sizes.append(sum_size(f"side height of row {row.number}{called}", unit, tuple(terms)))
        if row.built is not None:
            over = (Term(row.built, "as built"), Term(-row.opening, "planned"))
            sizes.append(sum_size(f"row {row.number}{called} as built, over its plan", unit, over))
            if row.side is not None:
                room = (Term(row.built, "as built"), Term(-row.side, "side"))
                sizes.append(sum_size(f"room over the side of row {row.number}{called}", unit, room))
    return sizes


def _chains(
    design: CaseDesign,
    case: CaseSizes,
    rows: tuple[Row, ...],
    shared: Graduation,
    rails: tuple[Fraction, Fraction],
    width: Fraction,
    called: str,
) -> tuple[Chain, ...]:
    """Openings, the drawers of split rows, and the height of the case, each added up again."""
    unit, settled = design.unit, design.case
    openings = tuple(Term(row.opening, f"row {row.number}") for row in rows)
    whole = Fraction(shared.clear.value) - (sum(rails) - settled.top_rail - settled.bottom_rail)
    chains = [closed_chain(f"openings{called}", unit, openings, whole)]
    for row in rows:
        if len(row.widths) > 1:
            side_by_side = [Term(row.widths[0], "drawer"), Term(settled.divider, "divider")]
            links = tuple((side_by_side * len(row.widths))[:-1])
            chains.append(closed_chain(f"width inside row {row.number}{called}", unit, links, width))
    upright = [Term(settled.top, "top"), Term(rails[0], "top rail"), Term(whole, "openings")]
    upright += [Term(thick, "dividers", len([*alike])) for thick, alike in groupby(shared.dividers)]
    upright += [Term(rails[1], "bottom rail"), Term(settled.bottom, "bottom")]
    links = tuple(term for term in upright if term.value)
    chains.append(closed_chain(f"height of the case{called}", unit, links, case.height))
    return tuple(chains)
