"""One field under five rules: what each would make of a bank's openings, closed on this shop's grid."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from furnlib.base.guards import DesignError
from furnlib.base.units import write_length, write_number
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.graduation import said_weights
from furnlib.plan.sizes.openings import RowSizes
from furnlib.trade.drawer.closing import Closed, close_on_grid
from furnlib.trade.drawer.graduation import (
    constant_ratio,
    constant_step,
    equal_openings,
    summation_weights,
    weighted,
)

_TWICE = Fraction(2)  # the end ratio where the piece's own openings are equal

Ideal = tuple[Fraction, ...]


@dataclass(frozen=True)
class TriedRule:
    """A rule on the field.

    Args:
        name: "equal", "constant step", "constant ratio", "weights by summation", or "as designed".
        words: the number it goes by.
        closed: its openings beside what they came from, None where they cannot be closed.
        fault: why not, in a sentence; empty where they can.
    """

    name: str
    words: str
    closed: Closed | None
    fault: str


@dataclass(frozen=True)
class FiveRules:
    """Five rules on one field.

    Args:
        clear_height: what the openings share, in whole steps of the grid.
        off_grid: what of the bank's clear height is no whole step; none of the rules has it.
        end_ratio: of step and ratio, the last opening over the first.
        own: whether that is the piece's own; its openings may be equal.
        rules: from the plainest, the piece's own list last.
    """

    clear_height: Fraction
    off_grid: Fraction
    end_ratio: Fraction
    own: bool
    rules: tuple[TriedRule, ...]


def five_rules(design: CaseDesign, bank: RowSizes) -> FiveRules:
    """Share a bank's clear height out by five rules.

    Step and ratio are such that the largest opening is as many times the smallest as in the bank
    itself, twice where its openings are equal, and they grow the same way. The weights of the
    summation have an end ratio of their own.

    Args:
        design: the piece as settled.
        bank: the openings of one of its banks.

    Returns:
        The rules with what they ask for and how that closes.

    Raises:
        DesignError: when the bank has but one row.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> chest = read_piece("notebooks/designs/landing_chest.yaml")
        >>> [int(h) for h in five_rules(chest.design, chest.rows).rules[2].closed.openings]
        [87, 102, 118, 137, 159, 184, 214]
    """
    count, unit = len(bank.rows), design.unit
    if count < 2:
        raise DesignError(f"{design.piece} has one row of drawers here; rules differ from two rows on.")
    clear = bank.clear_height // design.grid * design.grid
    wanted = [row.ideal for row in bank.rows]
    falls, times = wanted[0] > wanted[-1], max(wanted) / min(wanted)
    end_ratio = times if times != 1 else _TWICE
    if falls:
        end_ratio = 1 / end_ratio

    def tried(name: str, rule: Callable[[], Ideal], number: Callable[[Ideal], str]) -> TriedRule:
        try:
            ideal = rule()
            return TriedRule(name, number(ideal), close_on_grid(ideal, design.grid, unit), "")
        except DesignError as error:
            return TriedRule(name, "", None, str(error))

    weights = summation_weights(count)
    rules = (
        tried("equal", lambda: equal_openings(clear, count), lambda ideal: f"each {_about(ideal[0], design)}"),
        tried(
            "constant step",
            lambda: constant_step(clear, count, end_ratio=end_ratio),
            lambda ideal: f"step {_about(ideal[1] - ideal[0], design)}",
        ),
        tried(
            "constant ratio",
            lambda: constant_ratio(clear, count, end_ratio=end_ratio),
            lambda ideal: f"ratio {write_number(ideal[1] / ideal[0], 3)}",
        ),
        tried(
            "weights by summation",
            lambda: weighted(clear, weights[::-1] if falls else weights),
            lambda _: said_weights(weights[::-1] if falls else weights),
        ),
        TriedRule("own list" if bank.rule.startswith("own list") else "as designed", bank.rule, bank.closed, ""),
    )
    return FiveRules(clear, bank.clear_height - clear, end_ratio, times != 1, rules)


def _about(length: Fraction, design: CaseDesign) -> str:
    """A length that need not lie on the tape."""
    finest = design.grid / 10 if design.unit == "mm" else Fraction(1, 64)
    written = write_length(length, design.unit, finest=finest)
    return written if (length / finest).denominator == 1 else f"about {written}"
