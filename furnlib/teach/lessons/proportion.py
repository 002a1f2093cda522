"""Lesson 1: the exercises on the proportion of a case.

Which ratio pleases is nobody's to mark. The sums are checked; the choice of the fifth exercise is read
back, with the ratio that each outline lands on, and is argued on paper.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from furnlib.draw.plates.proportion import ratio_in_words
from furnlib.teach.exercise import Exercise, Slip
from furnlib.trade.case.outlines import outlines
from furnlib.trade.case.proportion import NearRatio, case_ratio, nearest_ratios
from furnlib.trade.case.ratios import ratios

_OFFERED = ("4:9", "2:5", "1:3", "golden section")
_GOLDEN = next(ratio.value for ratio in ratios("golden section") if ratio.name == "golden section")


def _case_width(height: Fraction, share: Fraction, long: Fraction, short: Fraction) -> Any:
    return case_ratio(height, Fraction(long) / short, Fraction(height) / share)


def _fitting(
    least_height: Fraction, most_height: Fraction, least_width: Fraction, most_width: Fraction, grid: Fraction
) -> list[str]:
    """Those of the ratios offered that some outline within the limits has."""
    tried = [ratio for ratio in ratios("whole numbers", "golden section") if ratio.name in _OFFERED]
    found = outlines((least_height, most_height), (least_width, most_width), grid, tried)
    return [one.ratio.name for one in found.best(len(tried))]


def _between_like_corners(
    least_height: Fraction, most_height: Fraction, least_width: Fraction, most_width: Fraction, grid: Fraction
) -> list[str]:
    """Those between the ratio of the least sizes and the ratio of the greatest; where none is, the slip is none."""
    low, high = sorted((Fraction(least_height) / least_width, Fraction(most_height) / most_width))
    fitting = _fitting(least_height, most_height, least_width, most_width, grid)
    return [ratio.name for ratio in ratios() if ratio.name in fitting and low <= ratio.value <= high] or fitting


def _two_outlines(
    least_height: Fraction, most_height: Fraction, least_width: Fraction, most_width: Fraction, grid: Fraction
) -> list[Fraction]:
    """Two of many."""
    found = outlines((least_height, most_height), (least_width, most_width), grid, ratios("whole numbers"))
    return [size for one in found.best(2) for size in (one.height, one.width)]


def _judge_outlines(
    answer: tuple[Fraction, ...],
    least_height: Fraction,
    most_height: Fraction,
    least_width: Fraction,
    most_width: Fraction,
    grid: Fraction,
) -> tuple[bool, str]:
    """Accept any two outlines of different shape within the limits, and say where each of them lands."""
    if len(answer) != 4:
        return False, f"Height and width of two outlines are four sizes; {len(answer)} were read."
    limits = {"high": (least_height, most_height), "wide": (least_width, most_width)}
    for size, (way, (least, most)) in zip(answer, 2 * [*limits.items()], strict=True):
        if not least <= size <= most:
            beyond = f"{size - most} over the most" if size > most else f"{least - size} short of the least"
            return False, f"{size} {way} is {beyond}."
    high, wide, other_high, other_wide = answer
    if high * other_wide == other_high * wide:
        return False, "Both have the same shape, one only larger than the other; sketch another shape."
    lands = [f"{h} x {w} lands on {ratio_in_words(h, w)}" for h, w in ((high, wide), (other_high, other_wide))]
    return True, (
        f"Both keep to the limits, and no more than that is judged here: {'; '.join(lands)}. Which of the two it is to"
        " be is yours to argue, on paper, and your instructor's to read."
    )


def _written(near: NearRatio) -> str:
    return f"{near.numerator} : {near.denominator}"


def _named(steps_early: int) -> Slip:
    """The continued fraction broken off before its end."""
    when = "a step" if steps_early == 1 else "two steps"
    return Slip(
        f"the continued fraction is broken off {when} early, while a closer ratio was still allowed",
        lambda length, across, largest: (_written(nearest_ratios(length, across, int(largest))[-1 - steps_early]),),
    )


EXERCISES = (
    Exercise(
        key="01a",
        question=(
            "A chest is to stand {height} in high, legs in, and its width is to be to its height as {short} to {long}."
            " The shop works to {grid} in. How wide is it?"
        ),
        numbers={"height": Fraction(803, 16), "long": 3, "short": 2, "grid": Fraction(1, 32)},
        solve=lambda height, long, short, grid: Fraction(height) * short / long,
        kind="length",
        tolerance="X",
        unit="in",
        grid=Fraction(1, 32),
        hints=(
            "Share the height into {long} equal parts; the width takes {short} of them.",
            "Work in whole steps of {grid} in: how many are in the height? Round only at the end.",
        ),
        worked="{height} x {short}/{long} lies between two marks of the tape; the nearer one is {answer}.",
        slips=(
            Slip(
                "the width is rounded to a tenth of an inch, which no tape has",
                lambda height, long, short, grid: round(10 * height * short / Fraction(long)) / Fraction(10),
            ),
            Slip("the ratio is turned over", lambda height, long, short, grid: Fraction(height) * long / short),
            Slip(
                "the height is shared into as many parts as both numbers have together",
                lambda height, long, short, grid: Fraction(height) * short / (long + short),
            ),
        ),
    ),
    Exercise(
        key="01b",
        question=(
            "A chest is to stand {height} mm high; its legs take 1/{share} of that. Its case field, legs out, is to be"
            " {long} : {short}, height to width. How wide is it?"
        ),
        numbers={"height": 1280, "share": 8, "long": 3, "short": 2},
        solve=_case_width,
        kind="length",
        tolerance="P",
        hints=(
            "What is left of the height when the legs are taken off? The ratio is given to that.",
            "Case field: {height} less 1/{share} of it. Its width is {short}/{long} of its height.",
        ),
        worked="({height} - {height} / {share}) x {short} / {long} = {answer}.",
        slips=(
            Slip(
                "the ratio is given to the silhouette: to the leg and to the case is not the same",
                lambda height, share, long, short: Fraction(height) * short / long,
            ),
            Slip(
                "the golden section is taken because it is thought correct; another ratio was asked for",
                lambda height, share, long, short: float(Fraction(height) * (1 - Fraction(1) / share)) / _GOLDEN,
            ),
            Slip(
                "the ratio is turned over", lambda height, share, long, short: _case_width(height, share, short, long)
            ),
            Slip(
                "the legs are added to the height instead of taken off it",
                lambda height, share, long, short: _case_width(height, -Fraction(share), long, short),
            ),
        ),
    ),
    Exercise(
        key="01c",
        question=(
            "A chest has room from {least_height} to {most_height} mm in height, legs in, and from {least_width} to"
            " {most_width} in width; the shop works to {grid} mm. It is to stand upright. Which of these ratios can it"
            " have: {offered}? Name all of them."
        ),
        numbers={"least_height": 1250, "most_height": 1325, "least_width": 480, "most_width": 560, "grid": 5},
        solve=_fitting,
        kind="words",
        tolerance="X",
        offered=_OFFERED,
        hints=(
            "How squat can it be at the most, and how slender? All ratios between these two are there.",
            "The squattest is the least height on the greatest width, the most slender the other way about.",
        ),
        worked=(
            "From {least_height} / {most_width} to {most_height} / {least_width}, height over width, all can be had:"
            " {answer}."
        ),
        slips=(
            Slip(
                "least goes only with least and most with most; the extreme shapes are where they cross",
                _between_like_corners,
            ),
            Slip(
                "the golden section is named because it is thought correct; nothing within these limits has it",
                lambda **limits: (*_fitting(**limits), "golden section"),
            ),
        ),
    ),
    Exercise(
        key="01d",
        question=(
            "The brief lists what a chest is to hold, each lying in a drawer: pillow cases, a pile of {cases} mm; bed"
            " sheets, {sheets}; bath towels, {towels}. Over a pile {room} are wanted for the fingers, and a drawer's"
            " own bottom takes {bottom} of its opening. How high must the largest opening be, at the least?"
        ),
        numbers={"cases": 80, "sheets": 120, "towels": 160, "room": 20, "bottom": 18},
        solve=lambda cases, sheets, towels, room, bottom: max(cases, sheets, towels) + room + bottom,
        kind="length",
        tolerance="L",
        hints=(
            "One pile rules. What lies under it in the opening, what over it?",
            "Opening = what the drawer's bottom takes + the pile + room for the fingers.",
        ),
        worked="{bottom} + the tallest pile + {room} = {answer}.",
        slips=(
            Slip(
                "the room for the fingers is forgotten",
                lambda cases, sheets, towels, room, bottom: max(cases, sheets, towels) + bottom,
            ),
            Slip(
                "the drawer's own bottom is forgotten",
                lambda cases, sheets, towels, room, bottom: max(cases, sheets, towels) + room,
            ),
            Slip(
                "all piles are laid on one another, where each has a drawer",
                lambda cases, sheets, towels, room, bottom: cases + sheets + towels + room + bottom,
            ),
        ),
    ),
    Exercise(
        key="01e",
        question=(
            "Height from {least_height} to {most_height} mm, width from {least_width} to {most_width}, on a grid of"
            " {grid} mm. Sketch two outlines of different shape that keep to this, and argue for one of them on paper:"
            " what stands beside it, what goes into it, what the eye meets first. Give height and width of the one,"
            " then of the other."
        ),
        numbers={"least_height": 900, "most_height": 1100, "least_width": 600, "most_width": 800, "grid": 5},
        solve=_two_outlines,
        kind="lengths",
        tolerance="X",
        grid=Fraction(5),
        hints=(
            "Any two will do that keep to the limits. Begin with the tallest and narrowest that you would have.",
            "Height first, then width, four sizes in all; and not the same shape twice.",
        ),
        worked="Two of many: {answer}.",
        judge=_judge_outlines,
    ),
    Exercise(
        key="01f",
        question=(
            "An old chest measures {length} by {across} in. With no number in it above {largest}, which of these comes"
            " nearest to its ratio: {offered}?"
        ),
        numbers={"length": Fraction(307, 8), "across": Fraction(43, 2), "largest": 16},
        solve=lambda length, across, largest: (_written(nearest_ratios(length, across, int(largest))[-1]),),
        kind="words",
        tolerance="X",
        unit="in",
        offered=("7 : 4", "9 : 5", "16 : 9", "golden section"),
        hints=(
            "How often does the short side go into the long one? Turn what is left over, and ask again.",
            "Of two fractions, one too small and one too large, add upper and lower numbers: that lies between.",
        ),
        worked="From coarse to fine: {steps}. The last is the nearest: {answer}.",
        shown=lambda length, across, largest: {
            "steps": ", ".join(map(_written, nearest_ratios(length, across, int(largest))))
        },
        slips=(
            _named(1),
            _named(2),
            Slip(
                "the golden section is named because it is thought correct; these sizes are far from it",
                lambda **_: ("golden section",),
            ),
        ),
    ),
)
