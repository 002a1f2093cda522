"""What a bank's openings share, the rule that shares it out, and how it is closed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import groupby

from furnlib.base.guards import DesignError, fault_at, require_between
from furnlib.base.terms import Term
from furnlib.base.units import write_exact, write_length, write_number
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_case import Rows
from furnlib.plan.sizes.case import CaseSizes
from furnlib.plan.sizes.size import Size, closed_chain, sum_size
from furnlib.trade.drawer.closing import Closed, PitchFit, close_on_grid, fit_to_pitch
from furnlib.trade.drawer.graduation import (
    MOST_ROWS,
    constant_ratio,
    constant_step,
    equal_openings,
    weighted,
)

_NAMED = {"first": "from {}", "last": "to {}", "step": "of {}", "ratio": "of {}", "end_ratio": "of end ratio {}"}
"""What a rule may be given by, and how that is said."""
_MOST_WEIGHTS = 7
_fitted, _closed = lru_cache(32)(fit_to_pitch), lru_cache(32)(close_on_grid)  # of exact sizes, and few


@dataclass(frozen=True)
class Graduation:
    """A bank's openings as they are shared out.

    Args:
        rule: the rule in words and numbers.
        clear: what the openings share: inside height less rails and dividers.
        dividers: their thicknesses from the top.
        ideal: what the rule asks for, top to bottom.
        closed: the openings beside what they came from; with a jig, on its pitch.
        fit: how the jig's pitch fills the clear height, None without a jig.
    """

    rule: str
    clear: Size
    dividers: tuple[Fraction, ...]
    ideal: tuple[Fraction, ...]
    closed: Closed
    fit: PitchFit | None

    @property
    def leftover(self) -> Fraction:
        """What the jig's pitch leaves over, 0 without a jig."""
        return self.fit.leftover if self.fit else Fraction(0)


def graduate(design: CaseDesign, case: CaseSizes, rows: Rows) -> Graduation:
    """Share a bank's clear height out by its rule, and close it.

    Args:
        design: the piece as settled.
        case: the case's sizes.
        rows: the bank's rows.

    Returns:
        The openings beside what they came from.

    Raises:
        DesignError: when the rule cannot fill the clear height, or grid or pitch cannot close it.
    """
    with fault_at("rows", "number"):
        require_between("number of rows", rows.number, 1, MOST_ROWS, "count the rows from top to bottom", ends=True)
    dividers = _dividers(design, rows)
    with fault_at("case", "divider"):
        clear = _clear_height(design, case, dividers)
    ideal, rule = _ideal(rows, Fraction(clear.value), design)
    closed, fit = _close(rows, ideal, design)
    return Graduation(rule, clear, dividers, ideal, closed, fit)


def _dividers(design: CaseDesign, rows: Rows) -> tuple[Fraction, ...]:
    """How thick each divider of a bank is, from the top."""
    case, needed = design.case, rows.number - 1
    if case.dividers is not None:
        with fault_at("case", "dividers"):
            if len(case.dividers) != needed:
                raise DesignError(
                    f"The list has {len(case.dividers)} dividers for {rows.number} rows; give {needed}, one between"
                    " each two rows."
                )
        return case.dividers
    with fault_at("case", "divider step"):
        thick = tuple(case.divider + number * case.divider_step for number in range(needed))
        if thick and min(thick) <= 0:
            raise DesignError(
                f"With a step of {write_exact(case.divider_step, design.unit)} the last of {needed} dividers has no"
                " thickness left; take a smaller step or a thicker first one."
            )
    return thick


def _clear_height(design: CaseDesign, case: CaseSizes, dividers: Sequence[Fraction]) -> Size:
    """What the openings share."""
    unit, settled = design.unit, design.case
    rails = (("top rail", settled.top_rail), ("bottom rail", settled.bottom_rail))
    terms = [Term(-rail, name) for name, rail in rails if rail]
    terms += [Term(-thick, "divider", len([*alike])) for thick, alike in groupby(dividers)]
    clear = sum_size("clear height", unit, (Term(case.inside_height), *terms))
    if clear.value <= 0:
        taken = [f"1 {name} of {write_length(rail, unit)}" for name, rail in rails if rail]
        if dividers:
            alike = write_length(dividers[0], unit) if len(set(dividers)) == 1 else "different thickness"
            taken.append(f"{len(dividers)} divider{'s' * (len(dividers) > 1)} of {alike}")
        raise DesignError(
            f"{' and '.join(taken)} take {write_length(case.inside_height - clear.value, unit)} of the"
            f" {write_length(case.inside_height, unit)} inside, so no openings are left: thin the dividers, take fewer"
            " rows or raise the case."
        )
    return clear


def _ideal(rows: Rows, clear: Fraction, design: CaseDesign) -> tuple[tuple[Fraction, ...], str]:
    """Apply the rule in the order it runs; say it in words."""
    if rows.rule == "own list":
        with fault_at("rows", "openings"):
            listed, said = _listed(rows, "openings"), "own list"
            # whole pitches move a list all the same, so that with a jig it need only come within one of the height
            if design.jig is None or abs(sum(listed) - clear) >= design.jig.pitch:
                links = tuple(Term(h, f"row {i}") for i, h in enumerate(listed, 1))
                closed_chain("list of openings", design.unit, links, clear)
            ideal = weighted(clear, listed)
    elif rows.rule == "weights":
        with fault_at("rows", "weights"):
            weights = _listed(rows, "weights")
            ideal, said = weighted(clear, weights), f"weights {said_weights(weights)}"
    elif rows.rule == "equal":
        with fault_at("rows", "number"):
            ideal, said = equal_openings(clear, rows.number), "equal openings"
    else:
        ideal, said = _by_law(rows, clear, design)
    return (ideal, said) if rows.order == "top to bottom" else (ideal[::-1], f"{said}, bottom to top")


def said_weights(weights: Sequence[Fraction]) -> str:
    """Weights in words, the last of very many left open.

    Args:
        weights: plain numbers, top to bottom.

    Returns:
        Such as 1 : 2 : 3.
    """
    open_end = ["…"] * (len(weights) > _MOST_WEIGHTS)
    return " : ".join([*map(write_number, weights[:_MOST_WEIGHTS]), *open_end])


def _by_law(rows: Rows, clear: Fraction, design: CaseDesign) -> tuple[tuple[Fraction, ...], str]:
    """A constant step or ratio, by whichever number it is given."""
    law, own, other = (
        (constant_step, "step", "ratio") if rows.rule == "constant step" else (constant_ratio, "ratio", "step")
    )
    given = {name: value for name in _NAMED if name != other and (value := getattr(rows, name)) is not None}
    named = next(iter(given), own)
    with fault_at("rows", named.replace("_", " ")):
        if not given:
            raise DesignError(f"The rule '{rows.rule}' needs a {own}; add a line '{own}: …' under rows.")
        ideal = law(clear, rows.number, **given, least_top=rows.least_top)
    plain = "ratio" in named
    written = f"{float(given[named]):g}" if plain else write_length(given[named], design.unit)
    least = "" if rows.least_top is None else f", none below {write_length(rows.least_top, design.unit)}"
    return ideal, f"{rows.rule} {_NAMED[named].format(written)}{least}"


def _listed(rows: Rows, name: str) -> tuple[Fraction, ...]:
    values: tuple[Fraction, ...] | None = getattr(rows, name)
    if values is None:
        raise DesignError(f"The rule '{rows.rule}' needs the {name}; add a line '{name}: [83, 103, …]' under rows.")
    if len(values) != rows.number:
        raise DesignError(f"The list has {len(values)} {name} for {rows.number} rows; give one for each row.")
    return values


def _close(rows: Rows, ideal: tuple[Fraction, ...], design: CaseDesign) -> tuple[Closed, PitchFit | None]:
    """Bring the ideal openings to the jig's pitch where there is a jig, else to the shop's grid."""
    jig, unit = design.jig, design.unit
    if jig is not None:
        with fault_at("jig", "pitch"):
            fit = _fitted(ideal, jig.pitch, jig.clearance, jig.first_offset, jig.last_offset, unit)
        return Closed(fit.openings, ideal, fit.openings, jig.pitch, fit.steps_never_shrink), fit
    if rows.rule == "own list":
        return Closed(ideal, ideal, ideal, design.grid, steps_never_shrink=True), None
    with fault_at("grid"):
        return _closed(ideal, design.grid, unit), None
