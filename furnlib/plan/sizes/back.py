"""The back of a case: a sheet, boards that may move, or a panel in a frame."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from furnlib.base.concern import Concern
from furnlib.base.guards import DesignError, fault_at
from furnlib.base.terms import Term
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
    with fault_at("back", "rebate"):
        thinnest = min(design.case.side, design.case.top, design.case.bottom)
        if back.rebate >= thinnest:
            rebate, least = (write_length(size, design.unit) for size in (back.rebate, thinnest))
            raise DesignError(
                f"The rebate is {rebate} and the case {least} thick, so it saws the case through; cut less."
            )
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
    return Size(name, value, design.unit, f"{write_length(value, design.unit)} ≈ {rule}", formula)


def _summed(name: str, terms: tuple[Term[float], ...], design: CaseDesign, formula: str) -> Size:
    """A size of geometry as the sum that the trade did."""
    exact = tuple(Term(Fraction(term.value), term.what, term.times) for term in terms if term.value)
    return replace(sum_size(name, design.unit, exact), formula=formula)


def _boards(design: CaseDesign, back: CaseBack, case: CaseSizes, season: Season, high: Size) -> BackSizes:
    """Boards of one width, each held in its middle."""
    unit, wood, count = design.unit, season.woods["case"], back.number
    span = case.inside_width + 2 * back.rebate
    made = boards_back(float(span), count, float(back.gap), float(back.least_overlap), wood.damp, wood.dry)
    if made.tongue >= made.face:
        raise DesignError(
            f"The boards would be {write_length(made.face, unit)} wide, no more than their tongues; take fewer boards."
        )
    swelling, shrinking = max(1.0, wood.damp) - 1, 1 - min(1.0, wood.dry)
    more, less, face = write_number(swelling, 5), write_number(shrinking, 5), write_length(made.face, unit)
    free, over, gap = (write_length(size, unit) for size in (back.gap, back.least_overlap, made.gap))
    sizes = (
        high,
        _of_season(
            "back board, face", made.face,
            f"({write_length(span, unit)} - {count + 1} x {free} free) / ({count} x {write_number(1 + swelling, 5)})",
            design, "panels.board",
        ),
        _of_season("gap between back boards", made.gap, f"{free} free + {face} x {more}", design, "panels.gap"),
        _of_season("gap at the back's edges", made.edge_gap, f"{free} + {face} / 2 x {more}", design, "panels.gap"),
        _of_season(
            "tongue of a back board", made.tongue,
            f"({over} overlap + {gap} gap + {face} x {less}) / {write_number(1 - shrinking, 5)}", design,
            "panels.tongue",
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
    groove = _summed("groove for the back panel", made.groove_depth, design, "panels.groove")
    if groove.value >= back.frame:
        raise DesignError(
            f"The groove for the panel would be {write_length(groove.value, unit)} deep in a frame"
            f" {write_length(back.frame, unit)} wide; make the frame wider or the panels narrower."
        )
    sizes = (
        high,
        wide,
        sight,
        tall,
        sum_size("back panel, height", unit, (Term(Fraction(tall.value), "seen"), bite)),
        _summed("back panel, width", made.width, design, "panels.panel"),
        groove,
    )
    return BackSizes(sizes, ())
