"""Lists that close, of which more than one will do: what lesson 2 says of openings and of pitches found by hand."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from furnlib.base.units import write_number
from furnlib.trade.drawer.closing import close_on_grid, fit_to_pitch, never_shrinks
from furnlib.trade.drawer.graduation import constant_ratio, constant_step

Row = tuple[Fraction, ...]


def written(openings: Sequence[Fraction]) -> str:
    return ", ".join(write_number(opening, 1) for opening in openings)


# 02d: any list that closes


def ratio_ideal(clear: Fraction, rows: int, ratio: Fraction, **_: Fraction) -> Row:
    return constant_ratio(Fraction(clear), int(rows), ratio)


def rounded_alone(grid: Fraction, **rule: Any) -> Row:
    return close_on_grid(ratio_ideal(**rule), Fraction(grid)).rounded_alone


def lost_at_the_bottom(grid: Fraction, **rule: Any) -> Row:
    closed = close_on_grid(ratio_ideal(**rule), Fraction(grid))
    return (*closed.rounded_alone[:-1], closed.rounded_alone[-1] - closed.miss)


def judge_closing(answer: Row, clear: Fraction, rows: int, ratio: Fraction, grid: Fraction) -> tuple[bool, str]:
    """Accept any list on the grid that adds up and whose steps never shrink; compare it with the best."""
    ideal = ratio_ideal(clear, rows, ratio)
    total = sum(answer, Fraction(0))
    side = "over" if total > clear else "short"
    faults = (
        (len(answer) != rows, f"That is {len(answer)} openings; there are {rows} rows."),
        (any((h / grid).denominator != 1 for h in answer), f"Not every opening is a whole number of {grid} mm."),
        (min(answer) < grid, f"An opening of {write_number(min(answer))} is no opening."),
        (total != clear, f"They add up to {write_number(total)}, {write_number(abs(total - clear))} {side}."),
        (_shrinks(answer), "They add up, but going down a step shrinks: the eye sees a hiccup there."),
    )
    for found, words in faults:
        if found:
            return False, words
    worst, best = _worst(answer, ideal), close_on_grid(ideal, Fraction(grid)).largest_change
    if worst == best:
        return True, f"They close, and no set does better: the largest change is {write_number(worst, 1)} mm."
    return True, (
        f"They close. Your largest change from the ideal is {write_number(worst, 1)} mm;"
        f" the best possible is {write_number(best, 1)}."
    )


def _shrinks(rising: Row) -> bool:
    return list(rising) != sorted(rising) or not never_shrinks(rising)


def _worst(openings: Row, ideal: Row) -> Fraction:
    return max(abs(h - i) for h, i in zip(openings, ideal, strict=True))


# 02e: whole pitches of a jig


def step_ideal(clear: Fraction, rows: int, step: Fraction, **_: Fraction) -> Row:
    return constant_step(Fraction(clear), int(rows), Fraction(step))


def fitted(pitch: Fraction, clearance: Fraction, **rule: Any) -> Row:
    fit = fit_to_pitch(step_ideal(**rule), Fraction(pitch), Fraction(clearance))
    return (*map(Fraction, fit.pitches), fit.leftover)


def left_over(taken: Fraction, rows: int, pitch: Fraction) -> tuple[Any, ...]:
    """Whatever the pitches are, what is left of a height that is shared out wrongly."""
    return (*[...] * rows, taken % pitch)


def judge_pitches(
    answer: Row, clear: Fraction, rows: int, step: Fraction, pitch: Fraction, clearance: Fraction
) -> tuple[bool, str]:
    """Accept the nearest set of whole pitches with what it leaves over; say of another that fits how far it is off."""
    ideal = step_ideal(clear, rows, step)
    *best, leftover = fitted(pitch, clearance, clear=clear, rows=rows, step=step)
    *pitches, left = answer
    filled = sum(pitches, Fraction(0)) * pitch + rows * clearance + left
    faults = (
        (len(pitches) != rows, f"{rows + 1} numbers are wanted: {rows} of pitches, and what is left over."),
        (any(k < 1 or k.denominator != 1 for k in pitches), "A side takes whole pitches, and at least one."),
        (filled != clear, f"Sides, clearances and what is left over add up to {write_number(filled)}."),
        (left != leftover, "It adds up, but another whole pitch would go in, or one too many is in."),
        (_shrinks(tuple(pitches)), "It adds up, but going down a step shrinks: the eye sees a hiccup there."),
    )
    for found, words in faults:
        if found:
            return False, words
    worst, least = (_worst(tuple(k * pitch + clearance for k in ks), ideal) for ks in (pitches, best))
    if worst == least:
        return True, f"No set comes nearer: the largest change is {write_number(worst, 1)} mm."
    return False, (
        f"It fits, but it is not the nearest: its largest change is {write_number(worst, 1)} mm, and"
        f" {write_number(least, 1)} can be had."
    )
