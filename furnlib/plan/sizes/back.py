"""The back of a case: a sheet, boards that may move, or a panel in a frame."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from furnlib.base.concern import Concern
from furnlib.base.guards import DesignError, fault_at
from furnlib.base.terms import Term, total
from furnlib.base.units import write_length, write_number
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_drawer import CaseBack
from furnlib.plan.sizes.case import CaseSizes
from furnlib.plan.sizes.season import Season
from furnlib.plan.sizes.size import Size, sum_size
from furnlib.trade.case.panels import boards_back, panel_in_grooves, sheet_size


@dataclass(frozen=True)
class BackSizes:
    """What closes a case behind.

    Args:
        sizes: each with the sum that was done, or the formula.
        concerns: what to settle before it is cut.
    """

    sizes: tuple[Size, ...]
    concerns: tuple[Concern, ...]


def back_sizes(design: CaseDesign, case: CaseSizes, season: Season | None) -> BackSizes | None:
    """Derive the back of a case.

    Args:
        design: the piece as settled.
        case: the case's sizes.
        season: the year of its wood.

    Returns:
        The back, None where the design has none.

    Raises:
        DesignError: when it is solid and the season is not known, or nothing is left of it.
    """
    back = design.back
    if back is None:
        return None
    with fault_at("back", "ease"):
        if 0 < back.rebate <= back.ease:
            ease, rebate = (write_length(size, design.unit) for size in (back.ease, back.rebate))
            raise DesignError(
                f"The ease is {ease} and the rebate {rebate}, so that the back falls through; ease it less."
            )
    with fault_at("back"):
        high = _sheet("back, height", design, case.inside_height)
        if back.kind == "sheet":
            return BackSizes((high, _sheet("back, width", design, case.inside_width)), ())
        if season is None:
            raise DesignError(
                f"A back of {back.kind} moves with the season; add 'climate:' and 'wood:' to the design file."
            )
        if back.kind == "boards":
            return _boards(design, back, case, season, high)
        return _panel(design, back, case, season, high)


def _sheet(name: str, design: CaseDesign, inside: Fraction) -> Size:
    """One size of a sheet or a frame, with its deductions."""
    assert design.back
    rebates = (design.back.rebate, design.back.rebate)
    terms = sheet_size(inside, rebates, design.back.ease)
    return sum_size(name, design.unit, tuple(term for term in terms if term.value))


def _of_season(name: str, value: float, rule: str, design: CaseDesign, formula: str) -> Size:
    return Size(name, value, design.unit, f"{write_length(value, design.unit)} {rule}", formula)


def _boards(design: CaseDesign, back: CaseBack, case: CaseSizes, season: Season, high: Size) -> BackSizes:
    """Boards of one width, each held in its middle."""
    unit, wood = design.unit, season.woods["case"]
    span = case.inside_width + 2 * back.rebate
    made = boards_back(float(span), back.number, float(back.gap), float(back.least_overlap), wood.damp, wood.dry)
    widest = write_number(max(1.0, wood.damp), 4)
    gaps = f"{back.number + 1} x {write_length(back.gap, unit)} free"
    sizes = (
        high,
        _of_season(
            "back board, face", made.face,
            f"= ({write_length(span, unit)} - {gaps}) / ({back.number} x {widest})", design, "panels.board",
        ),
        _of_season("gap between back boards", made.gap, "leaves what is free when damp", design, "panels.gap"),
        _of_season("gap at the back's edges", made.edge_gap, "for half a board", design, "panels.gap"),
        _of_season(
            "tongue of a back board", made.tongue,
            f"still overlaps {write_length(back.least_overlap, unit)} at the driest", design, "panels.tongue",
        ),
    )  # fmt: skip
    concerns: tuple[Concern, ...] = ()
    if made.rebate > float(back.rebate):
        least = write_length(Fraction(made.rebate), unit, round_up=True)
        concerns = (
            Concern(
                "back_uncovered",
                f"a rebate of {write_length(back.rebate, unit)} behind the boards",
                f"at the driest the outer boards no longer cover {write_length(back.least_overlap, unit)} of it",
                (f"cut the rebate {least} wide", "take more boards", "ask for less overlap"),
            ),
        )
    return BackSizes(sizes, concerns)


def _panel(design: CaseDesign, back: CaseBack, case: CaseSizes, season: Season, high: Size) -> BackSizes:
    """Panels side by side, their grain upright, each held in the middle of its frame."""
    unit, wood = design.unit, season.woods["case"]
    wide = _sheet("back frame, width", design, case.inside_width)
    between = Term(-back.frame, "frame", back.number + 1)
    sight = sum_size("back panel, width seen", unit, (Term(Fraction(wide.value)), between), share=back.number)
    tall = sum_size("back panel, height seen", unit, (Term(Fraction(high.value)), Term(-back.frame, "frame", 2)))
    if min(sight.value, tall.value) <= 0:
        raise DesignError("The frame leaves nothing of the panel to be seen; make it narrower.")
    made = panel_in_grooves(float(sight.value), float(back.least_overlap), float(back.gap), wood.damp, wood.dry)
    bite = Term(back.least_overlap, "in the groove", 2)
    into = f"{write_length(made.engagement, unit)} in the groove"
    sizes = (
        high,
        wide,
        sight,
        tall,
        sum_size("back panel, height", unit, (Term(Fraction(tall.value), "seen"), bite)),
        _of_season(
            "back panel, width", float(total(made.width)),
            f"= {write_length(sight.value, unit)} seen + 2 x {into}", design, "panels.panel",
        ),
        _of_season(
            "groove for the back panel", float(total(made.groove_depth)),
            f"= {into} + swelling + {write_length(back.gap, unit)} free", design, "panels.groove",
        ),
    )  # fmt: skip
    return BackSizes(sizes, ())
