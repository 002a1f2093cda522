"""Exercises that the tests of the exercise object ask; the numbers and their sources stand in test_exercise."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

from furnlib.teach.exercise import Exercise, Slip
from furnlib.trade.drawer.closing import Closed, close_on_grid, never_shrinks
from furnlib.trade.drawer.graduation import constant_ratio
from furnlib.trade.drawer.sums import constant_step_first
from furnlib.trade.leg.lean import Lean

TAN_8, TAN_6 = math.tan(math.radians(8)), math.tan(math.radians(6))
CLOSED = [90, 100, 115, 135, 160, 185, 215]
ROWS = ("top row", "second row", "third row", "bottom row")
STUBS = [None, ..., "", "  ", "...", "…", [], ()]


def lean(rake_deg: float, splay_deg: float) -> Lean:
    return Lean.from_rake_splay(rake_deg, splay_deg)


def total_lean() -> Exercise:
    added = Slip("the two angles are added", lambda rake_deg, splay_deg: rake_deg + splay_deg)
    average = Slip("the average is taken", lambda rake_deg, splay_deg: (rake_deg + splay_deg) / 2)
    return Exercise(
        key="05a",
        question="A leg has rake {rake_deg}° and splay {splay_deg}°. What is its total lean?",
        numbers={"rake_deg": 8, "splay_deg": 6},
        solve=lambda **n: lean(**n).total_lean_deg,
        kind="angle",
        tolerance="A",
        slips=(added, average),
        hints=("It is more than the larger of the two.", "Square the tangents."),
        worked="tan² R = tan² {rake_deg}° + tan² {splay_deg}°, so R = {answer}.",
    )


def sight_line() -> Exercise:
    other_edge = Slip("it is measured from the wrong edge", lambda **n: 90 - lean(**n).sight_line_deg)
    return replace(total_lean(), key="05b", solve=lambda **n: lean(**n).sight_line_deg, slips=(other_edge,))


def axis_length() -> Exercise:
    def times_cosine(height: float, **n: float) -> float:
        return height**2 / lean(**n).axis_length(height)

    return replace(
        total_lean(),
        key="05c",
        question="The seat is {height} mm up. How long is the axis?",
        numbers={"height": 151.0, "rake_deg": 8, "splay_deg": 6},
        solve=lambda height, **n: lean(**n).axis_length(height),
        kind="length",
        tolerance="L",
        slips=(Slip("the height is multiplied by cos R, not divided", times_cosine),),
        worked="{height} / cos R = {answer}",
    )


def axis_length_in_inches() -> Exercise:
    return replace(axis_length(), unit="in", numbers={"height": 6.0, "rake_deg": 8, "splay_deg": 6})


def top_opening() -> Exercise:
    def with_dividers(count: int, inside: int, divider: int, rows: int, step: int) -> float:
        return float(constant_step_first(inside - count * divider, rows, step))

    return Exercise(
        key="02b",
        question="{inside} inside, {rows} drawers, dividers {divider}, step {step}: the top opening?",
        numbers={"inside": 1109, "divider": 18, "rows": 7, "step": 20},
        solve=lambda **n: with_dividers(n["rows"] - 1, **n),
        kind="length",
        tolerance="X",
        grid=Fraction(1),
        slips=(Slip("7 drawers are given 7 dividers", lambda **n: with_dividers(n["rows"], **n)),),
        hints=("Count the dividers.", "Take the dividers off first."),
        worked="({inside} - 6 x {divider}) / {rows} - 3 x {step} = {answer}",
    )


def closing() -> Exercise:
    def best(field: Fraction, rows: int, ratio: Fraction) -> Closed:
        return close_on_grid(constant_ratio(field, rows, ratio), Fraction(5))

    def judge(openings: tuple[Fraction, ...], **n: Fraction) -> tuple[bool, str]:
        if len(openings) != n["rows"] or sum(openings) != n["field"]:
            return False, f"{len(openings)} openings add to {float(sum(openings)):g}."
        if not never_shrinks(openings):
            return False, "A step shrinks."
        worst = max(abs(h - ideal) for h, ideal in zip(openings, best(**n).ideal, strict=True))
        least = best(**n).largest_change
        return True, f"Worst change {float(worst):.1f}, best possible {float(least):.1f}."

    return replace(
        top_opening(),
        key="02d",
        question="Round {rows} openings at ratio {ratio} in {field} to 5 mm, so that they add up.",
        numbers={"field": Fraction(1000), "rows": 7, "ratio": Fraction(29, 25)},
        solve=lambda **n: best(**n).openings,
        kind="lengths",
        grid=Fraction(5),
        slips=(Slip("each is rounded by itself", lambda **n: best(**n).rounded_alone),),
        hints=("Add them up.", "Take a step off where it shows least."),
        worked="{answer}",
        judge=judge,
    )


def inch_list(sizes: tuple[Fraction, ...] = (Fraction(91, 16), Fraction(13, 2), Fraction(3, 4))) -> Exercise:
    return replace(
        top_opening(),
        key="02f",
        question="First {first}, in inches.",
        numbers={"first": Fraction(91, 16), "ratio": 1.16},
        solve=lambda first, ratio: sizes,
        kind="lengths",
        unit="in",
        grid=Fraction(1, 16),
        slips=(),
        worked="At {ratio}: {answer}",
    )


def both_angles() -> Exercise:
    return replace(
        total_lean(),
        key="05e",
        question="Rake {rake_deg}°, splay {splay_deg}°: total lean and sight line?",
        solve=lambda **n: (lean(**n).total_lean_deg, lean(**n).sight_line_deg),
        kind="angles",
        slips=(
            Slip("the two angles are added", lambda rake_deg, splay_deg: (rake_deg + splay_deg, ...)),
            Slip("it is measured from the wrong edge", lambda **n: (..., 90 - lean(**n).sight_line_deg)),
        ),
        worked="{answer}",
    )


def tall_rows() -> Exercise:
    def taller(first: int, step: int, least: int) -> list[str]:
        return [word for row, word in enumerate(ROWS) if first + row * step >= least]

    return Exercise(
        key="02g",
        question="The top row is {first} high, each other {step} more. Which take {least}? Choose from {offered}.",
        numbers={"first": 100, "step": 20, "least": 140},
        solve=taller,
        kind="words",
        tolerance="X",
        offered=ROWS,
        slips=(Slip("a row of just that height is left out", lambda **n: taller(**n | {"least": n["least"] + 1})),),
        hints=("Write the heights down.", "Go down row by row."),
        worked="{first}, then {step} more each: {answer}.",
    )


ALL = [
    total_lean,
    sight_line,
    axis_length,
    axis_length_in_inches,
    top_opening,
    closing,
    inch_list,
    both_angles,
    tall_rows,
]
