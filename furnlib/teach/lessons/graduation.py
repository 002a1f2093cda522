"""Lesson 2: the exercises on graduated drawers; two of them are judged by a rule, for more than one list will do."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import Any

from furnlib.base.angles import square_root
from furnlib.base.units import write_number
from furnlib.teach.exercise import Exercise, Slip
from furnlib.teach.lessons._closed_lists import (
    Row,
    fitted,
    judge_closing,
    judge_pitches,
    left_over,
    lost_at_the_bottom,
    ratio_ideal,
    rounded_alone,
    step_ideal,
    written,
)
from furnlib.trade.drawer.closing import close_on_grid
from furnlib.trade.drawer.error_budget import error_budget
from furnlib.trade.drawer.graduation import equal_openings, running_sizes
from furnlib.trade.drawer.squareness import diagonal_allowed
from furnlib.trade.drawer.sums import constant_ratio_first, constant_step_first


def _way(inside: Fraction, rows: int, divider: Fraction, **rule: Fraction) -> dict[str, str]:
    """The sums on the way from the inside height to an opening."""
    clear = inside - (rows - 1) * divider
    sums: dict[str, Any] = {
        "dividers": rows - 1,
        "clear": clear,
        "mean": Fraction(clear) / rows,
        "below": (rows - 1) / 2,
    }
    if "ratio" in rule:
        sums |= {"growth": rule["ratio"] - 1, "power": rule["ratio"] ** rows}
    return {name: write_number(Fraction(value), 4 if name == "power" else 2) for name, value in sums.items()}


def _edges(top: Fraction, rows: int, first: Fraction, step: Fraction, divider: Fraction) -> Row:
    return running_sizes([first + row * step for row in range(rows)], divider, top)


def _one_from_the_other(top: Fraction, rows: int, first: Fraction, step: Fraction, divider: Fraction) -> Row:
    edges = _edges(top, rows, first, step, divider)
    return (edges[0], *(lower - upper for upper, lower in pairwise(edges)))


def _off(rows: int, slip: float, dividers: int = 0) -> tuple[float, float]:
    """The worst and the likely slip at the end of a chain of openings and dividers."""
    budget = error_budget([slip] * (rows + dividers))
    return budget.worst, budget.likely


EXERCISES = (
    Exercise(
        key="02a",
        question=(
            "A case is {inside} mm high inside. It takes {rows} equal drawers, with dividers of {divider} mm between"
            " them. How high is each opening?"
        ),
        numbers={"inside": 580, "rows": 5, "divider": 15},
        solve=lambda inside, rows, divider: equal_openings(Fraction(inside - (rows - 1) * divider), rows)[0],
        kind="length",
        tolerance="X",
        grid=Fraction(1),
        hints=(
            "Draw the case from the front and count what lies between the drawers.",
            "The openings share what the dividers leave of the inside height, each the same.",
        ),
        worked="{inside} - {dividers} x {divider} = {clear}; {clear} / {rows} = {answer}.",
        shown=_way,
        slips=(
            Slip(
                "a divider is counted for every drawer, where only those between two count",
                lambda inside, rows, divider: Fraction(inside - rows * divider) / rows,
            ),
            Slip("the dividers are forgotten", lambda inside, rows, divider: Fraction(inside) / rows),
            Slip(
                "the clear height is shared by the dividers, and not by the drawers",
                lambda inside, rows, divider: Fraction(inside - (rows - 1) * divider) / (rows - 1),
            ),
        ),
    ),
    Exercise(
        key="02b",
        question=(
            "A case is {inside} mm high inside. It takes {rows} rows with dividers of {divider} mm between them, and"
            " each opening is {step} mm taller than the one above. How high is the top opening?"
        ),
        numbers={"inside": 760, "rows": 5, "divider": 15, "step": 20},
        solve=lambda inside, rows, divider, step: constant_step_first(
            Fraction(inside - (rows - 1) * divider), rows, Fraction(step)
        ),
        kind="length",
        tolerance="X",
        grid=Fraction(1),
        hints=(
            "First what the openings share: the inside height less the dividers. Count the dividers.",
            "The middle opening is the mean. How many steps lies the top one below it?",
        ),
        worked=(
            "Clear height {inside} - {dividers} x {divider} = {clear}; mean {clear} / {rows} = {mean};"
            " {below} steps of {step} less: {answer}."
        ),
        shown=_way,
        slips=(
            Slip(
                "a divider is counted for every row, where only those between two rows count",
                lambda inside, rows, divider, step: constant_step_first(
                    Fraction(inside - rows * divider), rows, Fraction(step)
                ),
            ),
            Slip(
                "the rule is applied to the inside height and the dividers are forgotten",
                lambda inside, rows, divider, step: constant_step_first(Fraction(inside), rows, Fraction(step)),
            ),
            Slip(
                "the mean opening is taken for the top one",
                lambda inside, rows, divider, step: Fraction(inside - (rows - 1) * divider) / rows,
            ),
        ),
    ),
    Exercise(
        key="02c",
        question=(
            "A case is {inside} mm high inside and takes {rows} rows with dividers of {divider} mm. Each opening is"
            " {ratio} times the one above it. How high is the top opening, to a tenth of a mm?"
        ),
        numbers={"inside": 972, "rows": 4, "divider": 24, "ratio": Fraction(5, 4)},
        solve=lambda inside, rows, divider, ratio: constant_ratio_first(
            Fraction(inside - (rows - 1) * divider), rows, ratio
        ),
        kind="length",
        tolerance="P",
        hints=(
            "Call the top opening 1. How high are the others then, and how high are all of them together?",
            "The clear height is that sum of parts; one part is the top opening. The dividers are no part of it.",
        ),
        worked="{clear} x {growth} / ({power} - 1) = {answer}, with {power} = {ratio} to the power of {rows}.",
        shown=_way,
        slips=(
            Slip(
                "the ratio of row to row is taken for that of the bottom opening to the top one",
                lambda inside, rows, divider, ratio: constant_ratio_first(
                    float(inside - (rows - 1) * divider), rows, float(ratio) ** (1 / (rows - 1))
                ),
            ),
            Slip(
                "the rule is applied to the inside height and the dividers are forgotten",
                lambda inside, rows, divider, ratio: constant_ratio_first(Fraction(inside), rows, ratio),
            ),
            Slip(
                "the ratio is raised to the number of dividers, and not to that of the rows",
                lambda inside, rows, divider, ratio: constant_ratio_first(
                    Fraction(inside - (rows - 1) * divider), rows - 1, ratio
                ),
            ),
        ),
    ),
    Exercise(
        key="02d",
        question=(
            "{clear} mm of clear height in {rows} rows at a ratio of {ratio}, on a grid of {grid} mm. Ideal openings:"
            " {ideal}. Give {rows} that add up on the tape and whose steps never shrink."
        ),
        numbers={"clear": 700, "rows": 5, "ratio": Fraction(6, 5), "grid": 5},
        solve=lambda grid, **rule: close_on_grid(ratio_ideal(**rule), Fraction(grid)).openings,
        kind="lengths",
        tolerance="X",
        grid=Fraction(5),
        hints=(
            "Round each to the nearest {grid} first and add up: by how many steps do you miss?",
            "Change the opening whose rounding was the boldest, then look at the steps from row to row.",
        ),
        worked="One set that closes best: {answer}.",
        judge=judge_closing,
        shown=lambda **numbers: {"ideal": written(ratio_ideal(**numbers))},
        slips=(
            Slip("each opening is rounded by itself, and the sum is left to look after itself", rounded_alone),
            Slip("each is rounded by itself and what that misses is lost at the bottom", lost_at_the_bottom),
        ),
    ),
    Exercise(
        key="02e",
        question=(
            "{clear} mm of clear height in {rows} rows, each opening to be {step} mm taller than the one above:"
            " {ideal}. The sides are cut on a jig with a pitch of {pitch} mm and half a pin at either edge, so each"
            " takes whole pitches; an opening is {clearance} mm higher than its side. How many pitches does each side"
            " take, and how many mm are left over? Give the pitches from the top down, then what is left over."
        ),
        numbers={"clear": 640, "rows": 5, "step": 20, "pitch": 24, "clearance": 4},
        solve=fitted,
        kind="numbers",
        tolerance="X",
        grid=Fraction(1),
        hints=(
            "Take the clearances off first, all of them: how many whole pitches go into the rest, and what remains?",
            "Share these pitches out as near the wanted openings as you can, so that no step down is smaller than the"
            " one above it.",
        ),
        worked=(
            "{clear} - {rows} x {clearance} = {sides} for the sides: {whole} pitches of {pitch} and a rest. Pitches and"
            " rest: {answer}."
        ),
        judge=judge_pitches,
        shown=lambda clear, rows, step, pitch, clearance: {
            "ideal": written(step_ideal(clear, rows, step)),
            "sides": write_number(Fraction(clear - rows * clearance)),
            "whole": str((clear - rows * clearance) // pitch),
        },
        slips=(
            Slip(
                "each side is brought to the nearest whole pitch by itself, and together they do not go in",
                lambda pitch, clearance, **rule: (*(round((h - clearance) / pitch) for h in step_ideal(**rule)), ...),
            ),
            Slip(
                "the clearances are forgotten in what is left over",
                lambda clear, rows, pitch, **_: left_over(clear, rows, pitch),
            ),
            Slip(
                "the clearance is taken off once, and not for every opening",
                lambda clear, rows, pitch, clearance, **_: left_over(clear - clearance, rows, pitch),
            ),
            Slip(
                "what is missing to one more pitch is given for what is left over",
                lambda clear, rows, pitch, clearance, **_: left_over(rows * clearance - clear, rows, pitch),
            ),
        ),
    ),
    Exercise(
        key="02f",
        question=(
            "An inch shop. The top of a case is {top} in thick; below it come {rows} openings, the first {first} in"
            " high and each {step} in taller than the one above, with dividers of {divider} in between them. Where do"
            " their edges lie on a stick that is held to the top of the case? Give upper and lower edge of each opening"
            " in turn."
        ),
        numbers={
            "top": Fraction(3, 4),
            "rows": 3,
            "first": Fraction(25, 8),
            "step": Fraction(3, 4),
            "divider": Fraction(1, 2),
        },
        solve=_edges,
        kind="lengths",
        tolerance="X",
        unit="in",
        grid=Fraction(1, 16),
        hints=(
            "Every mark is measured from the one end of the stick; the first one is the underside of the top.",
            "Add as you go down: an opening, a divider, an opening. What you have so far is the next mark.",
        ),
        worked="Top, then opening and divider by turns, each added to all before it: {answer}.",
        slips=(
            Slip("each mark is measured from the last one, and not from the end of the stick", _one_from_the_other),
            Slip("the dividers are forgotten", lambda divider, **sizes: _edges(divider=Fraction(0), **sizes)),
            Slip(
                "the stick is held to the underside of the top", lambda top, **sizes: _edges(top=Fraction(0), **sizes)
            ),
        ),
    ),
    Exercise(
        key="02g",
        question=(
            "{rows} openings and the dividers between them are marked out with a tape, each from the one before; every"
            " mark may be off by {slip} mm. How far off is the lower edge of the last opening at worst, and how far is"
            " it likely off? Give both in mm, the worst first."
        ),
        numbers={"rows": 5, "slip": 0.4},
        solve=lambda rows, slip: _off(rows, slip, rows - 1),
        kind="numbers",
        tolerance="P",
        hints=(
            "Count the members of the chain: openings and dividers. At worst all slips go the same way.",
            "They seldom do: likely is not the sum of the slips, but the root of the sum of their squares.",
        ),
        worked="{members} x {slip} at worst, the root of {members} times {slip} likely: {answer}.",
        shown=lambda rows, slip: {"members": str(2 * rows - 1)},
        slips=(
            Slip(
                "only the openings are counted; the dividers are members of the chain as well",
                _off,
            ),
            Slip("a divider is counted for every opening", lambda rows, slip: _off(rows, slip, rows)),
            Slip("the worst is taken for the likely as well", lambda rows, slip: (_off(rows, slip, rows - 1)[0],) * 2),
            Slip("half the worst is taken for the likely", lambda rows, slip: (..., _off(rows, slip, rows - 1)[0] / 2)),
            Slip("the likely is written first", lambda rows, slip: _off(rows, slip, rows - 1)[::-1]),
        ),
    ),
    Exercise(
        key="02h",
        question=(
            "An opening is {width} mm wide and {height} mm high, and its drawer has {gap} mm of room at the side. The"
            " opening is racked. By how much may its diagonals differ before that room is used up from top to bottom?"
        ),
        numbers={"width": 720, "height": 190, "gap": 2},
        solve=lambda width, height, gap: diagonal_allowed(gap, width, height),
        kind="length",
        tolerance="L",
        hints=(
            "Rack it: push the top along by the gap. One diagonal grows and the other shrinks.",
            "In a low, wide opening a diagonal lies nearly level, so each changes by nearly the whole of the push.",
        ),
        worked=("Each diagonal changes by {gap} x {width} / {diagonal}, one up and one down; together about {answer}."),
        shown=lambda width, height, gap: {"diagonal": write_number(square_root(width * width + height * height), 1)},
        slips=(
            Slip("only one of the two diagonals is seen to change, by just the gap", lambda gap, **_: gap),
            Slip("width and height change places", lambda width, height, gap: diagonal_allowed(gap, height, width)),
        ),
    ),
)
