"""Lesson 2: the exercises on graduated drawers."""

from __future__ import annotations

from fractions import Fraction

from furnlib.base.units import write_number
from furnlib.teach.exercise import Exercise, Slip
from furnlib.trade.drawer.graduation import close_on_grid, constant_ratio, constant_step, never_shrinks


def _top_opening(inside: Fraction, rows: int, divider: Fraction, step: Fraction) -> Fraction:
    return constant_step(Fraction(inside - (rows - 1) * divider), int(rows), Fraction(step))[0]


def _way_to_top_opening(inside: Fraction, rows: int, divider: Fraction, step: Fraction) -> dict[str, str]:
    clear = inside - (rows - 1) * divider
    sums: dict[str, Fraction | float] = {
        "dividers": rows - 1,
        "clear": clear,
        "mean": clear / Fraction(rows),
        "below": Fraction(rows - 1) / 2,
    }
    return {name: write_number(value) for name, value in sums.items()}


def _closed(clear: Fraction, rows: int, ratio: Fraction, grid: Fraction) -> list[Fraction]:
    return list(close_on_grid(constant_ratio(Fraction(clear), int(rows), ratio), Fraction(grid)).openings)


def _ideal_openings(clear: Fraction, rows: int, ratio: Fraction, **_: Fraction) -> dict[str, str]:
    return {
        "ideal": ", ".join(f"{float(opening):.1f}" for opening in constant_ratio(Fraction(clear), int(rows), ratio))
    }


def _judge_closing(
    answer: tuple[Fraction, ...], clear: Fraction, rows: int, ratio: Fraction, grid: Fraction
) -> tuple[bool, str]:
    """Accept any list on the grid that adds up and whose steps never shrink; compare it with the best."""
    ideal = constant_ratio(Fraction(clear), int(rows), ratio)
    total = sum(answer, Fraction(0))
    side = "over" if total > clear else "short"
    faults = (
        (len(answer) != rows, f"That is {len(answer)} openings; there are {rows} rows."),
        (any((h / grid).denominator != 1 for h in answer), f"Not every opening is a whole number of {grid} mm."),
        (min(answer) < grid, f"An opening of {write_number(min(answer))} is no opening."),
        (total != clear, f"They add up to {write_number(total)}, {write_number(abs(total - clear))} {side}."),
        (
            list(answer) != sorted(answer) or not never_shrinks(answer),
            "They add up, but going down a step shrinks: the eye sees a hiccup there.",
        ),
    )
    for found, words in faults:
        if found:
            return False, words
    worst = max(abs(h - i) for h, i in zip(answer, ideal, strict=True))
    best = close_on_grid(ideal, Fraction(grid)).largest_change
    if worst == best:
        return True, f"They close, and no set does better: the largest change is {write_number(worst, 1)} mm."
    return True, (
        f"They close. Your largest change from the ideal is {write_number(worst, 1)} mm;"
        f" the best possible is {write_number(best, 1)}."
    )


EXERCISES = (
    Exercise(
        key="02a",
        question=(
            "A case is {inside} mm high inside. It takes {rows} rows with dividers of {divider} mm between them, and"
            " each opening is {step} mm taller than the one above. How high is the top opening?"
        ),
        numbers={"inside": 760, "rows": 5, "divider": 15, "step": 20},
        solve=_top_opening,
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
        shown=_way_to_top_opening,
        slips=(
            Slip(
                "a divider is counted for every row, where only those between two rows count",
                lambda inside, rows, divider, step: (inside - rows * divider) / Fraction(rows) - (rows - 1) * step / 2,
            ),
            Slip(
                "the dividers are forgotten",
                lambda inside, rows, divider, step: inside / Fraction(rows) - (rows - 1) * Fraction(step) / 2,
            ),
            Slip(
                "the mean opening is taken for the top one",
                lambda inside, rows, divider, step: (inside - (rows - 1) * divider) / Fraction(rows),
            ),
        ),
    ),
    Exercise(
        key="02b",
        question=(
            "{clear} mm of clear height in {rows} rows at a ratio of {ratio}, on a grid of {grid} mm. Ideal openings:"
            " {ideal}. Give {rows} that add up on the tape and whose steps never shrink."
        ),
        numbers={"clear": 640, "rows": 5, "ratio": Fraction(6, 5), "grid": 5},
        solve=_closed,
        kind="lengths",
        tolerance="X",
        grid=Fraction(5),
        hints=(
            "Round each to the nearest {grid} first and add up: by how many steps do you miss?",
            "Change the opening whose rounding was the boldest, then look at the steps from row to row.",
        ),
        worked="One set that closes best: {answer}.",
        judge=_judge_closing,
        shown=_ideal_openings,
    ),
)
