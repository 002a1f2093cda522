"""Lesson 1: every answer found a second way, for the numbers asked and for other seats; every slip by its number.

The second way is plain: marks of the tape counted, every front within the limits looked at, every fraction tried.
"""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction as F
from itertools import product

import pytest
from known_slips import slip_tests
from test_proportion_plate import nearest, said_of

from furnlib.teach.lessons import exercise

KEYS = [f"01{letter}" for letter in "abcdef"]
GOLDEN = (1 + 5**0.5) / 2
OFFERED = {"4:9": 9 / 4, "2:5": 5 / 2, "1:3": 3, "golden section": GOLDEN}


def fresh(key, **numbers):
    """The exercise as the next learner finds it, with other numbers where they are given."""
    return replace(exercise(key), numbers={**exercise(key).numbers, **numbers})


def length(text):
    """A size written by the key, in its own unit."""
    whole = text.replace("\u202f", " ").rsplit(" ", 1)[0]
    return float(sum(F(part) for part in whole.split()))


# The answers, a second way


def test_01a_the_nearest_mark_of_the_tape():
    """50 3/16 is 1606 steps of 1/32; 1070 and 2/3 of them are two thirds; mark 1071 is the nearer."""
    marks = {mark: abs(F(mark, 32) / F(803, 16) - F(2, 3)) for mark in range(1, 1606)}
    nearest = min(marks, key=marks.get)
    assert nearest == 1071 == 33 * 32 + 15
    for answer in ("33 15/32", "33 15/32 in", 33.46875):
        assert fresh("01a").check(answer).right is True
    for answer in ("33 7/16", "33 1/2", "33 14/32"):
        assert fresh("01a").check(answer).right is False


def test_01a_right_but_between_two_marks_is_told():
    """33.4583 in is what the sum gives; no tape has it."""
    reply = fresh("01a").check("33.4583")
    assert (reply.right, reply.kind) == (False, "off the grid")


@pytest.mark.parametrize("seat", range(20))
def test_01b_every_front_of_that_case_is_looked_at(seat):
    """Width by width, the one whose case comes nearest to the ratio."""
    chance = random.Random(seat)
    height, share = chance.randrange(1000, 1500, 10), chance.choice((7, 8, 9, 10))
    case = height - height / share
    wide = min((tenths / 10 for tenths in range(1000, 12000)), key=lambda wide: abs(case / wide - 1.5))
    each = fresh("01b", height=height, share=share)
    assert length(each.answer) == pytest.approx(wide, abs=0.11)
    assert each.check(f"{wide:.1f}").right is True
    assert each.faults() == []


def brute_fits(least_height, most_height, least_width, most_width):
    """The ratios that lie between the squattest and the most slender of all fronts on 5 mm."""
    fronts = product(range(least_height, most_height + 1, 5), range(least_width, most_width + 1, 5))
    found = [high / wide for high, wide in fronts]
    return {name for name, value in OFFERED.items() if min(found) <= value <= max(found)}


LIMITS = [(1250, 1325, 480, 560), (1100, 1300, 380, 500), (1000, 1400, 600, 800), (1450, 1500, 480, 520)]


@pytest.mark.parametrize("limits", LIMITS)
def test_01c_every_front_within_the_limits_is_looked_at(limits):
    each = fresh("01c", **dict(zip(("least_height", "most_height", "least_width", "most_width"), limits, strict=True)))
    fits = brute_fits(*limits)
    assert set(each.answer.split(", ")) == fits
    assert each.check(" and ".join(fits)).right is True
    for missing in fits:
        assert each.check(" and ".join({*OFFERED} - {missing})).right is False


def test_01d_the_tallest_pile_between_bottom_and_fingers():
    """18 under it, 160, 20 over it."""
    assert 18 + 160 + 20 == 198
    assert fresh("01d").check("198").right is True
    assert fresh("01d").check("197").right is False
    assert fresh("01d", sheets=170).check("208").right is True


def nearest_fraction(ratio, largest):
    """Every fraction with no number above the largest, tried."""
    tried = {F(over, under) for over in range(1, largest + 1) for under in range(1, largest + 1)}
    return min(tried, key=lambda fraction: abs(fraction - ratio))


def test_01f_every_fraction_is_tried():
    assert nearest_fraction(F(307, 8) / F(43, 2), 16) == F(16, 9)
    for answer in ("16 : 9", "16:9", ["16 : 9"]):
        assert fresh("01f").check(answer).right is True


def test_01f_another_seat():
    """1000 by 557 is 1.7953; with no number above 9 that is 9 : 5, and 7 : 4 before it."""
    each = fresh("01f", length=1000, across=557, largest=9)
    assert nearest_fraction(F(1000, 557), 9) == F(9, 5)
    assert each.answer == "9 : 5"


# The choice with reasons


def test_01e_any_two_outlines_of_different_shape_within_the_limits_will_do():
    chance = random.Random(1)
    for _ in range(60):
        sizes = [chance.randrange(low, high + 1, 5) for low, high in ((900, 1100), (600, 800)) * 2]
        same = F(sizes[0], sizes[1]) == F(sizes[2], sizes[3])
        reply = fresh("01e").check(sizes)
        assert reply.right is not same
        if not same:
            for high, wide in (sizes[:2], sizes[2:]):
                lands = {f"{high} x {wide} lands on {said_of(near, F(high, wide))}" for near in nearest(F(high, wide))}
                assert any(words in reply.words for words in lands), (reply.words, lands)


def test_01e_does_not_say_which_of_them_is_the_right_one():
    said = {fresh("01e").check(sizes).words for sizes in ("1000 700 1050 700", "900 800 1100 600", "1000 620 970 600")}
    for words in said:
        assert "no more than that is judged here" in words
        assert words.endswith("is yours to argue, on paper, and your instructor's to read.")
        assert not any(word in words for word in ("better", "best", "correct", "pleasing"))


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ("900 600", "Height and width of two outlines are four sizes; 2 were read."),
        ("900 600 1000 650 700", "four sizes; 5 were read."),
        ("1105 600 900 700", "1105 high is 5 over the most."),
        ("900 590 950 700", "590 wide is 10 short of the least."),
        ("900 600 890 700", "890 high is 10 short of the least."),
        ("900 600 950 850", "850 wide is 50 over the most."),
        ("900 600 1050 700", "Both have the same shape"),  # 3 : 2 both
        ("900 600 900 600", "Both have the same shape"),
    ],
)
def test_01e_what_does_not_keep_to_the_brief_is_told(answer, words):
    reply = fresh("01e").check(answer)
    assert reply.right is False
    assert words in reply.words


def test_01e_sizes_between_the_marks_of_the_shop_are_told():
    assert fresh("01e").check("901 600 1000 700").kind == "off the grid"


# The slips by their numbers

SLIPS = {
    # 2/3 of 50.1875 is 33.458; to a tenth 33.5; 3/2 of it; 2/5 of it
    ("01a", "33.5"): "rounded to a tenth of an inch",
    ("01a", f"{F(803, 16) * F(3, 2)}"): "the ratio is turned over",
    ("01a", f"{float(F(803, 16) * F(2, 5))}"): "as many parts as both numbers have together",
    # 1280 / 1.5; 1120 / 1.618; 1120 x 1.5; 1440 / 1.5
    ("01b", "853.3"): "the ratio is given to the silhouette",
    ("01b", f"{1120 / GOLDEN:.1f}"): "the golden section is taken because it is thought correct",
    ("01b", "1680"): "the ratio is turned over",
    ("01b", "960"): "the legs are added",
    # 1250 / 480 = 2.604 and 1325 / 560 = 2.366: only 2.5 lies between
    ("01c", "2:5"): "least goes only with least",
    ("01c", "4:9, 2:5, golden section"): "the golden section is named because it is thought correct",
    ("01d", "178"): "the room for the fingers is forgotten",
    ("01d", "180"): "the drawer's own bottom is forgotten",
    ("01d", f"{80 + 120 + 160 + 20 + 18}"): "all piles are laid on one another",
    # 38.375 / 21.5 = 1.785: 1 and 0.785, which is 1/1.274; its rest 1/3.65, its rest 1/1.54: 2, 7/4, 9/5, 16/9
    ("01f", "9 : 5"): "broken off a step early",
    ("01f", "7 : 4"): "broken off two steps early",
    ("01f", "golden section"): "the golden section is named because it is thought correct",
}


test_a_usual_slip_is_known_by_its_number, test_every_slip_is_worked_here = slip_tests(SLIPS, fresh, KEYS)


def test_the_golden_section_is_nowhere_the_right_answer():
    assert not any("golden" in exercise(key).answer for key in KEYS)
