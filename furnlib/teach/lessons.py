"""The exercises of the lessons, by key; each stands on the library's own functions."""

from __future__ import annotations

from fractions import Fraction

from furnlib.base.angles import cosd
from furnlib.base.guards import DesignError, nearest_word
from furnlib.base.units import write_number
from furnlib.teach.exercise import Exercise, Slip
from furnlib.trade.drawer.graduation import close_on_grid, constant_ratio, constant_step, never_shrinks
from furnlib.trade.leg.lean import Lean


def _top_opening(inside: Fraction, rows: int, divider: Fraction, step: Fraction) -> Fraction:
    return constant_step(Fraction(inside - (rows - 1) * divider), int(rows), Fraction(step))[0]


def _closed(clear: Fraction, rows: int, ratio: Fraction, grid: Fraction) -> list[Fraction]:
    return list(close_on_grid(constant_ratio(Fraction(clear), int(rows), ratio), Fraction(grid)).openings)


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


_BANK = (
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
            "Clear height {inside} - 4 x {divider} = 700; mean 700 / {rows} = 140; two steps of {step} less: {answer}."
        ),
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
            "{clear} mm of clear height in {rows} rows at a ratio of 1.2, on a grid of {grid} mm. Ideal openings:"
            " 86.0, 103.2, 123.8, 148.6, 178.3. Give five that add up on the tape and whose steps never shrink."
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
    ),
    Exercise(
        key="05a",
        question="A leg has a rake of {rake_deg}° and a splay of {splay_deg}°. What is its total lean?",
        numbers={"rake_deg": 12, "splay_deg": 9},
        solve=lambda rake_deg, splay_deg: Lean.from_rake_splay(rake_deg, splay_deg).total_lean_deg,
        kind="angle",
        tolerance="A",
        hints=(
            "Go 100 down: how far forward, how far sideways? Then the step along the floor is a diagonal.",
            "tan² of the total is tan² of the rake and tan² of the splay together.",
        ),
        worked="tan² R = tan² {rake_deg}° + tan² {splay_deg}°, so R = {answer}.",
        slips=(
            Slip("the two angles are added", lambda rake_deg, splay_deg: rake_deg + splay_deg),
            Slip("the mean of the two is taken", lambda rake_deg, splay_deg: (rake_deg + splay_deg) / 2),
            Slip("only the larger of the two is seen", lambda **both: max(both.values())),
            Slip(
                "the sight line is given instead of the total lean",
                lambda rake_deg, splay_deg: Lean.from_rake_splay(rake_deg, splay_deg).sight_line_deg,
            ),
        ),
    ),
    Exercise(
        key="05b",
        question=(
            "A stool stands {height} mm high under its seat; a front leg has a rake of {rake_deg}° and a splay of"
            " {splay_deg}°. How long is the leg along its axis?"
        ),
        numbers={"height": 420, "rake_deg": 10, "splay_deg": 12},
        solve=lambda height, rake_deg, splay_deg: Lean.from_rake_splay(rake_deg, splay_deg).axis_length(height),
        kind="length",
        tolerance="L",
        hints=(
            "A leg that leans is longer than the height, never shorter.",
            "Length = height / cos R, with the total lean R and neither of its parts.",
        ),
        worked="tan² R = tan² {rake_deg}° + tan² {splay_deg}°; {height} / cos R = {answer}.",
        slips=(
            Slip(
                "the height is multiplied by cos R instead of divided",
                lambda height, rake_deg, splay_deg: (
                    height * cosd(Lean.from_rake_splay(rake_deg, splay_deg).total_lean_deg)
                ),
            ),
            Slip(
                "rake and splay are added first",
                lambda height, rake_deg, splay_deg: height / cosd(rake_deg + splay_deg),
            ),
            Slip(
                "only the splay is reckoned with",
                lambda height, rake_deg, splay_deg: height / cosd(splay_deg),
            ),
        ),
    ),
)
_BY_KEY = {exercise.key: exercise for exercise in _BANK}


def exercise(key: str) -> Exercise:
    """Find an exercise of the lessons by its key.

    Args:
        key: the notebook's number and a letter, such as "05a".

    Returns:
        The exercise; ask it to ``check`` an answer.

    Raises:
        DesignError: when there is no such exercise.

    Example:
        >>> exercise("05a").check("21").words
        'That is the answer you get when the two angles are added.'
    """
    if key not in _BY_KEY:
        raise DesignError(f"There is no exercise '{key}'; {nearest_word(key, _BY_KEY)}")
    return _BY_KEY[key]


def all_exercises() -> tuple[Exercise, ...]:
    """Every exercise of the lessons, in order.

    Returns:
        The exercises.

    Example:
        >>> [exercise.key for exercise in all_exercises()]
        ['02a', '02b', '05a', '05b']
    """
    return _BANK
