"""The exercises of the lessons: each is sound, its answer worked here by hand, its slips known by their numbers."""

from __future__ import annotations

import json
import math
import random
import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from furnlib.base.guards import DesignError
from furnlib.teach.lessons import all_exercises, exercise

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
KEYS = [each.key for each in all_exercises()]


def fresh(key):
    """The exercise as the next learner finds it, no hint used up."""
    return replace(exercise(key))


def tan(degrees):
    return math.tan(math.radians(degrees))


def cos(degrees):
    return math.cos(math.radians(degrees))


# Every one of them


@pytest.mark.parametrize("key", KEYS)
def test_it_is_sound(key):
    assert fresh(key).faults() == []


@pytest.mark.parametrize("key", KEYS)
def test_the_answer_of_the_key_passes(key):
    assert fresh(key).check(exercise(key).answer).right is True


@pytest.mark.parametrize("answer", [..., "...", None, ""])
@pytest.mark.parametrize("key", KEYS)
def test_the_stub_is_no_answer_yet(key, answer):
    reply = fresh(key).check(answer)
    assert (reply.right, reply.words) == (None, "No answer yet.")


@pytest.mark.parametrize("key", KEYS)
def test_two_hints_and_then_the_worked_line(key):
    each = fresh(key)
    answers = {
        "lengths": ["5 10 15 20 25", "50 60 70 80 90", "100 100 100 100 100"],
        "angles": ["1.7 2.9", "2.9 4.3", "4.3 5.1"],
        "05f": ["front left", "rear left", "front left and front right"],
        "06f": ["square", "bead", "square and bead"],
    }
    wrong = answers.get(key) or answers.get(each.kind, ["1.7", "2.9", "4.3"])
    said = [each.check(answer).words for answer in wrong]
    assert each.answer not in said[0]
    assert each.answer not in said[1]
    assert each.answer in said[2]
    assert len(set(said)) == 3


@pytest.mark.parametrize("key", KEYS)
def test_no_text_is_left_unfilled(key):
    each = fresh(key)
    for text in (str(each), *(each.check(str(number)).words for number in (1.7, 2.9, 4.3, 5.1))):
        assert not re.search(r"[{}]", text)


@pytest.mark.parametrize("key", KEYS)
def test_no_number_stands_in_a_text_that_another_seat_would_not_have(key):
    each = exercise(key)
    for text in (each.question, *each.hints, each.worked):
        bare = set(re.findall(r"[\d.]*\d", re.sub(r"{\w+}", "", text)))
        assert bare <= {"1", "100", "57.3"}  # one degree, the run on a hundred, 180 / pi


def test_the_keys_are_those_of_the_notebooks():
    """The number of the notebook and a letter; every notebook asks for its own, and each is asked for."""
    assert sorted(set(KEYS)) == KEYS
    asked = {}
    for path in sorted(NOTEBOOKS.glob("*.ipynb")):
        cells = json.loads(path.read_text("utf-8"))["cells"]
        code = "".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "code")
        asked[path.name[:2]] = sorted(set(re.findall(r"exercise\(\s*[\"'](\w+)[\"']", code)))
    assert {key[:2] for key in KEYS} <= set(asked)
    for number, keys in asked.items():
        assert keys == [key for key in KEYS if key[:2] == number]
        assert [key[2:] for key in keys] == list("abcdefgh"[: len(keys)])


def test_a_key_that_is_not_there_is_said():
    with pytest.raises(DesignError, match=r"no exercise '05z'; did you mean '05[a-h]'\?"):
        exercise("05z")
    assert exercise("05a") is exercise("05a")  # so that it remembers which hints were given


# Answers and slips by hand: what is written down, and what it shows

SLIPS = {
    # 760 - 5 x 15 = 685, a fifth is 137, two steps of 20 less
    ("02a", "97"): "a divider is counted for every row",
    # 760 / 5 = 152, two steps of 20 less
    ("02a", "112"): "the dividers are forgotten",
    # 760 - 4 x 15 = 700, a fifth is 140
    ("02a", "140"): "the mean opening is taken for the top one",
    ("05a", "21, 36.7"): "the two angles are added",
    ("05a", "10.5, 36.7"): "the mean of the two is taken",
    ("05a", "12, 36.7"): "only the larger of the two is seen",
    # tan S = tan 9 / tan 12 = 0.15838 / 0.21256 = 0.74514, so S = 36.69, and 90 - 36.69
    ("05a", "14.85, 53.31"): "the sight line is measured from the wrong edge",
    ("05a", "36.69, 14.85"): "the sight line is written first",
    # 450 x 0.24192, 450 x 0.19081
    ("05b", "108.9, 85.9"): "the sine is taken",
    ("05b", f"{450 * tan(11):.1f}, {450 * tan(14):.1f}"): "the splay is taken for the forward run",
    # the root of 0.24933² + 0.19438² is 0.31615
    ("05b", "142.3, 142.3"): "the total lean is used for both",
    # cos R from tan² R = tan² 14 + tan² 16
    ("05c", f"{700 / math.sqrt(1 + tan(14) ** 2 + tan(16) ** 2):.1f}"): "multiplied by cos R instead of divided",
    ("05c", f"{700 / cos(14) / cos(16):.1f}"): "the height is divided by both cosines",
    ("05c", f"{700 / cos(14 + 16):.1f}"): "rake and splay are added first",
    ("05c", f"{700 / cos(16):.1f}"): "only the splay is reckoned with",
    # the other face's pencil line is the splay; tan 15 x cos 12 = 0.26795 x 0.97815 = 0.26210
    ("05d", "12, 14.69"): "the front face lies on the table",
    ("05d", "11.6, 15"): "mitre and tilt change places",
    ("05d", "15, 12"): "the blade is tilted by the splay itself",
    ("05e", "8.74, 12.38"): "the sight line is measured from the wrong edge",
    ("05f", "front right, rear right"): "the hand is read off from left and right alone",
    ("05f", "front right, rear left, rear right"): "every other leg is named",
    ("05f", "rear right"): "the leg diagonally across is named",
    # 450 x 0.0174533; and 450 x 0.0174551 / 0.92718
    ("05g", "7.85"): "the leg is cut to length beforehand",
    ("05g", "8.47"): "cos R is divided by only once",
    # the root of 25² + 20² = 1025
    ("05h", "32.02, 18.26"): "Pythagoras is used on the degrees",
    ("05h", "45, 18.26"): "the two angles are added",
    ("05h", "30.61, 20"): "the splay is taken as it is",
}


@pytest.mark.parametrize(("key", "answer"), SLIPS, ids="-".join)
def test_a_usual_slip_is_known_by_its_number(key, answer):
    reply = fresh(key).check(answer)
    assert (reply.right, reply.kind) == (False, "slip")
    assert SLIPS[key, answer] in reply.words


def test_every_slip_of_the_lessons_is_worked_here():
    """Those of lesson 6 stand in test_lessons_turning."""
    for key in (key for key in KEYS if key[:2] != "06"):
        met = [fresh(key).check(answer).words for of, answer in SLIPS if of == key]
        for slip in exercise(key).slips:
            assert any(words.endswith(f"when {slip.meaning}.") for words in met)


@pytest.mark.parametrize("answer", ["100", "100 mm", 100, "10 cm", "100.0"])
def test_02a_the_top_opening(answer):
    """760 - 4 x 15 = 700 for the openings; the middle one 700 / 5 = 140; the top one two steps of 20 less."""
    openings = [100 + 20 * row for row in range(5)]
    assert sum(openings) + 4 * 15 == 760
    assert fresh("02a").check(answer).right is True


@pytest.mark.parametrize("answer", ["99", "101", "120", "60"])
def test_02a_other_openings_do_not_fill_the_case(answer):
    assert fresh("02a").check(answer).right is False


def test_02a_the_worked_line_says_the_sums_of_the_seat():
    """990 - 6 x 20 = 870, a seventh is 124.29, three steps of 15 less: 79.29, so 79."""
    seat = replace(exercise("02a"), numbers={"inside": 990, "rows": 7, "divider": 20, "step": 15})
    said = [str(seat.check(wrong)) for wrong in ("1", "2", "3")]
    assert said[2].endswith("990 - 6 x 20 = 870; mean 870 / 7 = 124.29; 3 steps of 15 less: 79 mm.")
    assert seat.faults() == []


# 02b: 640 in five rows on a grid of 5, any set that closes

IDEAL = [Fraction(640) * Fraction(1, 5) / (Fraction(6, 5) ** 5 - 1) * Fraction(6, 5) ** row for row in range(5)]


def closing_sets():
    """All five whole numbers of steps from 1 that add up to 640 / 5 = 128 and whose steps never shrink.

    Top opening k, first step a, and by how much each further step is greater than the one before:
    k + (k + a) + (k + 2 a + b) + (k + 3 a + 2 b + c) + (k + 4 a + 3 b + 2 c + d) = 5 k + 10 a + 6 b + 3 c + d.
    """
    for k in range(1, 128 // 5 + 1):
        for a in range((128 - 5 * k) // 10 + 1):
            for b in range((128 - 5 * k - 10 * a) // 6 + 1):
                for c in range((128 - 5 * k - 10 * a - 6 * b) // 3 + 1):
                    d = 128 - 5 * k - 10 * a - 6 * b - 3 * c
                    steps = (0, a, a + b, a + b + c, a + b + c + d)
                    yield tuple(5 * (k + sum(steps[: row + 1])) for row in range(5))


SETS = list(closing_sets())


def change(openings):
    return max(abs(h - ideal) for h, ideal in zip(openings, IDEAL, strict=True))


BEST = min(map(change, SETS))


def test_02b_what_is_asked_is_what_is_reckoned_with():
    assert sum(IDEAL) == 640
    assert [f"{float(ideal):.1f}" for ideal in IDEAL] == ["86.0", "103.2", "123.8", "148.6", "178.3"]
    for ideal in IDEAL:
        assert f"{float(ideal):.1f}" in str(exercise("02b"))
    for openings in SETS:
        steps = [lower - upper for upper, lower in pairwise(openings)]
        assert sum(openings) == 640
        assert steps[0] >= 0
        assert steps == sorted(steps)
    assert len(SETS) == len(set(SETS)) > 5000


def test_02b_the_key_is_one_of_the_best():
    key = tuple(int(size) for size in exercise("02b").answer.removesuffix(" mm").split(", "))
    assert key in SETS
    assert change(key) == BEST


NEAR = [s for s in SETS if change(s) <= 12]
FAR = random.Random(3).sample(SETS, 100)


def test_02b_every_set_that_closes_is_right_and_compared_with_the_best():
    each, told = fresh("02b"), set()
    for openings in (*NEAR, *FAR):
        reply = each.check(list(openings))
        assert reply.right is True, openings
        if change(openings) == BEST:
            assert "no set does better" in reply.words
        else:
            worst, best = (f"{float(c):.1f}".removesuffix(".0") for c in (change(openings), BEST))
            assert f"largest change from the ideal is {worst} mm; the best possible is {best}." in reply.words
        told.add(change(openings) == BEST)
    assert told == {True, False}
    assert len(NEAR) > 20


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ("85 100 125 330", "That is 4 openings; there are 5 rows."),
        ("85 100 125 150 90 90", "That is 6 openings; there are 5 rows."),
        ("86 103 124 149 178", "Not every opening is a whole number of 5 mm."),  # it does add up to 640
        ("85 105 125 150 180", "They add up to 645, 5 over."),  # each rounded alone
        ("85 100 125 145 180", "They add up to 635, 5 short."),
        ("80 110 125 150 175", "a step shrinks"),  # 30, then 15
        ("180 150 125 100 85", "a step shrinks"),  # upside down
        ("0 0 0 0 640", "opening"),  # it adds up, but there is no drawer of no height
        ("-10 0 10 20 620", "opening"),
    ],
)
def test_02b_what_does_not_close_is_refused_and_told_why(answer, words):
    reply = fresh("02b").check(answer)
    assert reply.right is not True
    assert words in reply.words


def test_02b_each_rounded_alone_is_one_step_over():
    """86.0, 103.2, 123.8, 148.6, 178.3 to the nearest 5."""
    alone = [5 * round(ideal / 5) for ideal in IDEAL]
    assert alone == [85, 105, 125, 150, 180]
    assert sum(alone) == 645
