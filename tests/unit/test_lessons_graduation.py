"""Lesson 2: every answer found a second way, for the numbers asked and for twenty seats; every slip by its number.

The second way is plain: sizes tried until the case is full, every set of steps or of pitches listed,
a height halved until the sum fits, slips added with every sign, a racked opening drawn by its corners.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate, pairwise, product

import numpy as np
import pytest
from known_slips import slip_tests

from furnlib.teach.lessons import exercise

KEYS = [f"02{letter}" for letter in "abcdefgh"]
F = Fraction


def first_that_fills(inside, rows, divider, step=0):
    """Opening by opening and divider by divider, the top one tried by tenths of a mm from below."""
    for tenths in range(1, 10 * inside):
        top = F(tenths, 10)
        if sum(top + step * row for row in range(rows)) + (rows - 1) * divider >= inside:
            return top
    return None


def first_by_halving(inside, rows, divider, ratio):
    low, high = 0.0, float(inside)
    for _ in range(60):
        top = (low + high) / 2
        height = top
        for row in range(1, rows):
            height += divider + top * float(ratio) ** row
        low, high = (top, high) if height < inside else (low, top)
    return low


def never_shrinking(rows, total, last=1, step=0):
    """Every list of whole numbers from 1 that adds up to the total and whose steps never shrink."""
    if rows == 0:
        if total == 0:
            yield ()
        return
    begin = 0 if step is None else step
    for more in range(begin, total // rows - last + 1):
        for rest in never_shrinking(rows - 1, total - last - more, last + more, more):
            yield (last + more, *rest)


def all_lists(rows, total):
    """The same, whatever the first is: only the steps after it count."""
    for first in range(1, total // rows + 1):
        for rest in never_shrinking(rows - 1, total - first, first, 0):
            yield (first, *rest)


def worst(openings, ideal):
    return max(abs(opening - wanted) for opening, wanted in zip(openings, ideal, strict=True))


def ratio_row(clear, rows, ratio):
    parts = [ratio**row for row in range(rows)]
    return [clear * part / sum(parts) for part in parts]


def step_row(clear, rows, step):
    return [F(clear, rows) + (row - F(rows - 1, 2)) * step for row in range(rows)]


def nearest(lists, ideal, size):
    """The best of all lists: least worst change, then least squares, then more to the lower openings."""

    def badness(steps):
        changes = [size(step) - wanted for step, wanted in zip(steps, ideal, strict=True)]
        return max(map(abs, changes)), sum(change**2 for change in changes), [-step for step in reversed(steps)]

    return min(lists, key=badness)


def closed_list(clear, rows, ratio, grid):
    steps = nearest(all_lists(rows, clear // grid), ratio_row(clear, rows, F(ratio)), lambda step: step * grid)
    return [step * grid for step in steps]


def pitches(clear, rows, step, pitch, clearance):
    whole = (clear - rows * clearance) // pitch
    best = nearest(all_lists(rows, whole), step_row(clear, rows, step), lambda k: k * pitch + clearance)
    return [*best, clear - rows * clearance - whole * pitch]


def edges(top, rows, first, step, divider):
    members = [top]
    for row in range(rows):
        members += [first + row * step, divider]
    return list(accumulate(members[:-1]))


def budget(rows, slip):
    """Every way in which the slips of openings and dividers can go, each up or down."""
    members = rows + (rows - 1)
    ends = np.array(list(product((slip, -slip), repeat=members))).sum(axis=1)
    return ends.max(), ends.std()


def diagonals(width, height, gap):
    """Push the top along by the gap; the sides keep their length."""
    upright = math.sqrt(height**2 - gap**2)
    return math.dist((0, 0), (width + gap, upright)) - math.dist((width, 0), (gap, upright))


TRUTH = {
    "02a": first_that_fills,
    "02b": first_that_fills,
    "02c": first_by_halving,
    "02d": closed_list,
    "02e": pitches,
    "02f": edges,
    "02g": budget,
    "02h": diagonals,
}
BY_HAND = {
    # 580 - 4 x 15 = 520, a fifth of it
    "02a": ("104", "104 mm", "103", "105"),
    # 760 - 4 x 15 = 700; the middle one 140; two steps of 20 less
    "02b": ("100", "10 cm", "99", "101"),
    # 972 - 72 = 900; 1.25⁴ = 2.44141; 900 x 0.25 / 1.44141 = 156.10; 2 % of it is 3.12
    "02c": ("156.1", "159", "152.8", "159.4"),
    # 24 x 25 + 5 x 4 = 620
    "02e": ("3 4 5 6 7 20", "3, 4, 5, 6, 7 and 20", "3 4 5 6 7 21", "3 4 5 6 8 20"),
    "02f": (
        "3/4 3 7/8 4 3/8 8 1/4 8 3/4 13 3/8",
        "0.75, 3.875, 4.375, 8.25, 8.75, 13.375",
        "1 4 5 8 9 13",
        "3/4 3 7/8",
    ),
    # 9 x 0.4; the root of 9 is 3
    "02g": ("3.6, 1.2", "3.6 1.22", "3.6, 1.3", "3.5, 1.2"),
    # 720² + 190² = 554500, its root 744.6; 2 x 2 x 720 / 744.6 = 3.87
    "02h": ("3.9", "3.4", "3.3", "4.4"),
}


def seat(key, **numbers):
    return replace(exercise(key), numbers=numbers or exercise(key).numbers)


def written(truth):
    return ", ".join(f"{float(value):.4f}" for value in np.atleast_1d(np.array(truth, dtype=float)))


@pytest.mark.parametrize("key", KEYS)
def test_it_is_sound_and_its_answer_is_that_of_the_second_way(key):
    assert seat(key).faults() == []
    assert str(seat(key).check(written(TRUTH[key](**exercise(key).numbers)))).startswith("Right.")


@pytest.mark.parametrize("key", BY_HAND)
def test_the_answer_worked_by_hand_is_right_to_its_tolerance(key):
    said = [seat(key).check(answer) for answer in BY_HAND[key]]
    assert [reply.kind for reply in said] == ["right", "right", "not yet", "not yet"]


def of(chance, **ranges):
    return {name: chance.choice(values) for name, values in ranges.items()}


def full(chance, **more):
    """A case that is full to the mm: the top opening was there first."""
    numbers = of(chance, rows=(4, 5, 6), divider=(14, 16, 18, 20), top=range(60, 90)) | more
    rows, top, step = numbers["rows"], numbers.pop("top"), numbers.get("step", 0)
    return numbers | {"inside": rows * top + step * rows * (rows - 1) // 2 + (rows - 1) * numbers["divider"]}


SEATS = {
    "02a": lambda chance: full(chance, rows=5, divider=chance.choice((16, 20))),
    "02b": lambda chance: full(chance, step=chance.choice((16, 22, 24))),
    "02c": lambda chance: of(
        chance, inside=range(900, 1100, 10), rows=(4,), divider=(24, 26, 28), ratio=(F(6, 5), F(5, 4), F(13, 10))
    ),
    "02f": lambda chance: of(
        chance,
        top=(F(5, 8), F(3, 4)),
        rows=(3, 4),
        first=(3, F(25, 8)),
        step=(F(5, 8), F(7, 8)),
        divider=(F(1, 2), F(5, 8)),
    ),
    "02g": lambda chance: of(chance, rows=(3, 4, 5), slip=(0.2, 0.3, 0.5)),
    "02h": lambda chance: of(chance, width=(700, 720, 760), height=(150, 170, 190), gap=(2, 2.25, 2.5)),
}


@pytest.mark.parametrize("key", SEATS)
def test_twenty_seats_each_with_numbers_of_its_own(key):
    chance, answers = random.Random(key), set()
    for _ in range(20):
        own = seat(key, **SEATS[key](chance))
        truth = written(TRUTH[key](**own.numbers))
        assert own.faults() == []
        assert str(own.check(truth)) == "Right."
        answers.add(truth)
    assert len(answers) > 1


@pytest.mark.parametrize(("clear", "rows", "pitch", "clearance"), [(706, 5, 24, 4), (655, 5, 24, 3), (540, 4, 22, 3)])
def test_other_seats_at_the_jig(clear, rows, pitch, clearance):
    own = seat("02e", clear=clear, rows=rows, step=20, pitch=pitch, clearance=clearance)
    assert own.check(written(pitches(clear, rows, 20, pitch, clearance))).right is True


# Slips by hand: what is written down, and what it shows

SLIPS = {
    # 580 - 75 = 505; 580 / 5; 520 / 4
    ("02a", "101"): "a divider is counted for every drawer",
    ("02a", "116"): "the dividers are forgotten",
    ("02a", "130"): "shared by the dividers",
    # 760 - 5 x 15 = 685, a fifth is 137, two steps of 20 less
    ("02b", "97"): "a divider is counted for every row",
    # 760 / 5 = 152, two steps of 20 less
    ("02b", "112"): "the dividers are forgotten",
    ("02b", "140"): "the mean opening is taken for the top one",
    # the third root of 1.25 is 1.07722; 900 x 0.07722 / (1.07722⁴ - 1)
    ("02c", f"{900 * 0.0772173 / (1.0772173**4 - 1):.1f}"): "is taken for that of the bottom opening to the top one",
    ("02c", f"{972 * 0.25 / 1.44140625:.1f}"): "applied to the inside height",
    ("02c", f"{900 * 0.25 / 0.953125:.1f}"): "raised to the number of dividers",
    # 94.1, 112.9, 135.5, 162.5, 195.1 to the nearest 5 add up to 705
    ("02d", "95 115 135 165 195"): "each opening is rounded by itself",
    ("02d", "95 115 135 165 190"): "lost at the bottom",
    # (88 - 4) / 24 = 3.5, 4.33, 5.17, 6, 6.83
    ("02e", "4 4 5 6 7 20"): "to the nearest whole pitch by itself",
    # 640 = 26 x 24 + 16; 636 = 26 x 24 + 12; 24 - 20
    ("02e", "3 4 5 6 7 16"): "the clearances are forgotten",
    ("02e", "3 4 5 6 7 12"): "taken off once",
    ("02e", "3 4 5 6 7 4"): "missing to one more pitch",
    ("02f", "3/4, 3 1/8, 1/2, 3 7/8, 1/2, 4 5/8"): "measured from the last one",
    ("02f", "3/4, 3 7/8, 3 7/8, 7 3/4, 7 3/4, 12 3/8"): "the dividers are forgotten",
    ("02f", "0, 3 1/8, 3 5/8, 7 1/2, 8, 12 5/8"): "held to the underside of the top",
    # 5 x 0.4 and the root of 5; 10 x 0.4 and the root of 10
    ("02g", "2, 0.894"): "only the openings are counted",
    ("02g", "4, 1.265"): "a divider is counted for every opening",
    ("02g", "3.6, 3.6"): "the worst is taken for the likely",
    ("02g", "3.6, 1.8"): "half the worst",
    ("02g", "1.2, 3.6"): "the likely is written first",
    # 2 x 2 x 190 / 744.6
    ("02h", "2"): "only one of the two diagonals is seen to change",
    ("02h", "1.02"): "width and height change places",
}


test_a_usual_slip_is_known_by_its_number, test_every_slip_is_worked_here = slip_tests(SLIPS, seat, KEYS)


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("02a", "580 - 4 x 15 = 520; 520 / 5 = 104 mm."),
        ("02b", "760 - 4 x 15 = 700; mean 700 / 5 = 140; 2 steps of 20 less: 100 mm."),
        ("02c", "900 x 0.25 / (2.4414 - 1) = 156.1 mm, with 2.4414 = 1.25 to the power of 4."),
        ("02e", "640 - 5 x 4 = 620 for the sides: 25 pitches of 24 and a rest. Pitches and rest: 3, 4, 5, 6, 7, 20."),
        ("02g", "9 x 0.4 at worst, the root of 9 times 0.4 likely: 3.6, 1.2."),
        ("02h", "Each diagonal changes by 2 x 720 / 744.6, one up and one down; together about 3.9 mm."),
    ],
)
def test_the_worked_line_shows_the_way(key, words):
    each = seat(key)
    wrong = ("7 7", "8 8", "9 9") if each.kind.endswith("s") else ("7", "8", "9")
    said = [str(each.check(answer)) for answer in wrong]
    assert said[2].endswith(words)


def test_02b_the_worked_line_says_the_sums_of_the_seat():
    """990 - 6 x 20 = 870, a seventh is 124.29, three steps of 15 less: 79.29, so 79."""
    each = seat("02b", inside=990, rows=7, divider=20, step=15)
    said = [str(each.check(wrong)) for wrong in ("1", "2", "3")]
    assert said[2].endswith("990 - 6 x 20 = 870; mean 870 / 7 = 124.29; 3 steps of 15 less: 79 mm.")
    assert each.faults() == []


# 02d: 700 in five rows on a grid of 5, any set that closes

IDEAL = ratio_row(700, 5, F(6, 5))
SETS = [tuple(5 * step for step in steps) for steps in all_lists(5, 140)]
BEST = min(worst(openings, IDEAL) for openings in SETS)


def test_02d_what_is_asked_is_what_is_reckoned_with():
    assert sum(IDEAL) == 700
    for ideal in ("94.1", "112.9", "135.5", "162.5", "195.1"):
        assert ideal in str(exercise("02d"))
    for openings in SETS:
        steps = [lower - upper for upper, lower in pairwise(openings)]
        assert sum(openings) == 700
        assert steps == sorted(steps)
        assert steps[0] >= 0
    assert len(SETS) == len(set(SETS)) > 5000


def test_02d_the_key_is_one_of_the_best():
    key = tuple(int(size) for size in exercise("02d").answer.removesuffix(" mm").split(", "))
    assert key in SETS
    assert worst(key, IDEAL) == BEST


def test_02d_every_set_that_closes_is_right_and_compared_with_the_best():
    each, told = seat("02d"), set()
    near = [openings for openings in SETS if worst(openings, IDEAL) <= 12]
    for openings in (*near, *random.Random(3).sample(SETS, 100)):
        reply, change = each.check(list(openings)), worst(openings, IDEAL)
        assert reply.right is True, openings
        if change == BEST:
            assert "no set does better" in reply.words
        else:
            said, best = (f"{float(c):.1f}".removesuffix(".0") for c in (change, BEST))
            assert f"largest change from the ideal is {said} mm; the best possible is {best}." in reply.words
        told.add(change == BEST)
    assert told == {True, False}
    assert len(near) > 20


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ("95 115 135 355", "That is 4 openings; there are 5 rows."),
        ("95 115 135 155 100 100", "That is 6 openings; there are 5 rows."),
        ("94 113 136 162 195", "Not every opening is a whole number of 5 mm."),  # it does add up to 700
        ("95 110 135 165 190", "They add up to 695, 5 short."),
        ("90 120 135 160 195", "a step shrinks"),  # 30, then 15
        ("195 160 135 115 95", "a step shrinks"),  # upside down
        ("0 0 0 0 700", "opening"),  # it adds up, but there is no drawer of no height
        ("-10 0 10 20 680", "opening"),
    ],
)
def test_02d_what_does_not_close_is_refused_and_told_why(answer, words):
    reply = seat("02d").check(answer)
    assert reply.right is not True
    assert words in reply.words


# 02e: a set of pitches that fits, nearest or not


def test_02e_every_set_that_fits_is_told_from_the_nearest():
    """25 pitches over five sides; openings of 24 k + 4 beside 88, 108, 128, 148, 168."""
    ideal, nearest_of_all = [88, 108, 128, 148, 168], set()
    least = min(worst([24 * k + 4 for k in ks], ideal) for ks in all_lists(5, 25))
    for ks in all_lists(5, 25):
        reply, change = seat("02e").check([*ks, 20]), worst([24 * k + 4 for k in ks], ideal)
        if change == least:
            nearest_of_all.add(ks)
            assert reply.right is True
            assert f"the largest change is {least} mm" in reply.words
        else:
            assert reply.right is False
            assert f"not the nearest: its largest change is {change} mm, and {least} can be had" in reply.words
    assert nearest_of_all == {(3, 4, 5, 6, 7)}


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ("3 4 5 6 7", "6 numbers are wanted: 5 of pitches, and what is left over."),
        ("3.5 4 5 6 6.5 20", "whole pitches"),
        ("0 4 5 8 8 20", "at least one"),
        ("3 4 5 6 6 20", "add up to 616"),
        ("3 4 5 6 6 44", "another whole pitch would go in"),
        ("3 4 5 6 8 -4", "one too many is in"),
        ("3 5 5 6 6 20", "a step shrinks"),
    ],
)
def test_02e_what_does_not_fit_is_told_why(answer, words):
    reply = seat("02e").check(answer)
    assert reply.right is False
    assert words in reply.words
