"""Answers that are lists, as makers write them; and exercises judged by a rule.

Rake 8 and splay 6 give a total lean of 9.95 and a sight line of 36.8 (class notes worked by hand).
"""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate

import pytest
from exercise_samples import CLOSED, TAN_6, TAN_8, both_angles, closing, inch_list, top_opening, total_lean
from hypothesis import given
from hypothesis import strategies as st

from furnlib.teach.answers import AnswerForm
from furnlib.teach.exercise import Slip
from furnlib.trade.drawer.graduation import (
    equal_openings,
    running_sizes,
)


@pytest.mark.parametrize("after", ["", " mm", " "])
@pytest.mark.parametrize(
    "between", [" ", ", ", ",", "+", " + ", "; ", " , ", "\n", " mm ", " mm,", ",0 ", " and ", " AND ", " & "]
)
def test_lists_as_makers_write_them(between, after):
    reply = closing().check(between.join(map(str, CLOSED)) + after)
    assert str(reply) == "Right. Worst change 2.9, best possible 2.9."


@pytest.mark.parametrize("said", [CLOSED, tuple(map(float, CLOSED)), [f"{size / 10} cm" for size in CLOSED]])
def test_lists_that_are_lists(said):
    assert closing().check(said).right is True


FRACTIONS = '5 11/16 6 1/2 3/4|5-11/16 6-1/2 3/4|5 11/16 in 6.5 in .75 in|5 11/16, 6½, ¾|5 11/16" + 6 1/2" + 3/4"'


@pytest.mark.parametrize("said", FRACTIONS.split("|"))
def test_lists_with_fractions(said):
    assert inch_list().check(said).right is True


def test_a_list_marked_only_by_half_is_not_guessed_at():
    assert inch_list().check("5 11/16 6 1/2, 3/4").kind == "unreadable"


def _as_written(sixteenths: int) -> str:
    whole, rest = divmod(sixteenths, 16)
    return f"{whole} {rest}/16" if whole and rest else f"{rest}/16" if rest else str(whole)


@given(
    sizes=st.lists(st.integers(1, 700), min_size=2, max_size=6),
    between=st.sampled_from([", ", " + ", "+", "; ", "\n"]),
)
def test_any_list_of_fractions_is_read_back(sizes, between):
    exercise = inch_list(tuple(Fraction(size, 16) for size in sizes))
    assert exercise.check(between.join(map(_as_written, sizes))).right is True


@given(sizes=st.lists(st.integers(17, 700).filter(lambda n: n % 16), min_size=2, max_size=6))
def test_mixed_numbers_need_no_mark_between(sizes):
    exercise = inch_list(tuple(Fraction(size, 16) for size in sizes))
    assert exercise.check(" ".join(map(_as_written, sizes))).right is True


ANGLES = "9.95 36.8|9.95, 36.8|9.95,36.8|9,95 36,8|9.95° 36.8°|9.95°, 36.8 deg|9 19/20 36 4/5|9.95° and 36.8°|9.95;36.8"


@pytest.mark.parametrize("said", [*ANGLES.split("|"), [9.95, 36.8], ("9.95°", Fraction(184, 5)), ["9.95", "36.8"]])
def test_two_angles_however_they_are_written(said):
    assert (str(both_angles().check(said)), both_angles().check(said).right) == ("Right.", True)


@pytest.mark.parametrize("place", [0, 1])
def test_angles_are_near_in_every_place_or_not_right(place):
    truth = [math.degrees(math.atan(math.hypot(TAN_8, TAN_6))), math.degrees(math.atan2(TAN_6, TAN_8))]
    for off, right in ((0.098, True), (-0.098, True), (0.102, False), (-0.102, False)):
        said = [angle + off * (at == place) for at, angle in enumerate(truth)]
        assert both_angles().check(said).right is right


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("14, 36.8", "That is the answer you get when the two angles are added."),  # 8 + 6
        ("9.95, 53.2", "That is the answer you get when it is measured from the wrong edge."),  # 90 - 36.8
        # a slip in one place is known whatever stands in the other; of two the first is named
        ("14, 50", "That is the answer you get when the two angles are added."),
        ("14, 53.2", "That is the answer you get when the two angles are added."),
        ("9.95, 50", "Not yet. 1 of your 2 is right. It is more than the larger of the two."),
        ("12, 50", "Not yet. It is more than the larger of the two."),
        ("36.8, 9.95", "Not yet. It is more than the larger of the two."),
        ("14", "Not yet. 2 angles are wanted, 1 was read. It is more than the larger of the two."),
        ("9.95, 36.8, 14", "Not yet. 2 angles are wanted, 3 were read. It is more than the larger of the two."),
    ],
)
def test_a_list_of_angles_that_is_not_right(said, words):
    assert str(both_angles().check(said)) == words


@pytest.mark.parametrize("said", ["9.95, x", "9.95 mm, 36.8", "9.95, , 36.8", "9.95 36.8 1e3", "9.95 or 36.8"])
def test_a_list_of_angles_that_cannot_be_read(said):
    assert both_angles().check(said).kind == "unreadable"


def test_unsound_lists_are_found():
    assert both_angles().faults() == []
    # the sight line of a leg that leans alike both ways is 45, from either edge
    (fault,) = replace(both_angles(), numbers={"rake_deg": 8, "splay_deg": 8}).faults()
    assert fault.startswith("When it is measured from the wrong edge: 11.24°, 45°")
    # 0.25 from the right answer in one place: past one tolerance, not past three
    near = Slip("0.25 is added", lambda **_: (9.954 + 0.25, ...))
    assert len(replace(both_angles(), slips=(near,)).faults()) == 1
    twin = Slip("one is laid on the other", lambda **_: (14, ...))
    assert len(replace(both_angles(), slips=(*both_angles().slips, twin)).faults()) == 1
    with pytest.raises(KeyError, match="S angle"):
        replace(both_angles(), tolerance="S").faults()


def test_running_sizes_and_a_divider_left_out():
    openings = (Fraction(83), Fraction(103), Fraction(123))
    edges = list(accumulate(openings, initial=Fraction(20)))
    sticks = replace(
        top_opening(),
        question="Every edge, from {start}?",
        numbers={"divider": Fraction(18), "start": Fraction(20)},
        solve=lambda **n: running_sizes(openings, **n),
        kind="lengths",
        slips=(Slip("the dividers are left out", lambda **_: edges),),
        worked="{answer}",
    )
    assert sticks.faults() == []
    assert sticks.check("20 103 121 224 242 365").right is True  # 20 +83 +18 +103 +18 +123
    assert sticks.check("20 103 206 329").kind == "slip"
    assert str(sticks.check("20 103")) == "Not yet. 6 lengths are wanted, 2 were read. Count the dividers."
    assert (
        sticks.check("103 20 121 224 242 365").words == "Not yet. 4 of your 6 are right. Take the dividers off first."
    )


def test_a_judge_takes_any_answer_that_keeps_the_rule():
    # 85 + 100 + 115 + 135 + 160 + 185 + 220 = 1000, steps 15 15 20 25 25 35. By hand the ideal last
    # opening is 160 / (1.16^7 - 1) x 1.16^6 = 213.46, so the worst change is 220 - 213.46 = 6.5.
    assert str(closing().check("85 100 115 135 160 185 220")) == "Right. Worst change 6.5, best possible 2.9."
    short = closing().check("90 100 115 135 160 185 210")
    assert str(short) == "Not yet. 7 openings add to 995. Add them up."
    assert str(closing().check("90 105 115 135 160 185 210")) == "Not yet. A step shrinks. Add them up."
    # steps 15 15 20 25 25 28 and a sum of 1000, but not in fives
    assert closing().check("86 101 116 136 161 186 214").kind == "off the grid"
    assert closing().check("1000").kind == "not yet"


def test_a_judge_of_one_number_may_refuse_in_a_sentence():
    def judge(rows: Fraction, **_: Fraction) -> tuple[bool, str]:
        equal_openings(Fraction(700), int(rows))
        return rows == 7, ""

    exercise = replace(total_lean(), kind="number", judge=judge, slips=(), solve=lambda **_: 7, tolerance="P")
    assert exercise.check("7").right is True
    refused = "Not yet. The number of rows is 0; it must be a whole number from 1 to 200."
    assert str(exercise.check("0")).startswith(refused)


@pytest.mark.parametrize("answer", ["3 4 5 6 7, 20", "3 4 5 6 7 and 20 mm", "3, 4, 5, 6, 7, 20,", [3, 4, 5, 6, 7, 20]])
def test_several_numbers_may_stand_in_a_row_and_one_apart(answer):
    form = AnswerForm("numbers", "X")
    assert form.read(answer)[0] == (3, 4, 5, 6, 7, 20)


@pytest.mark.parametrize("answer", ["1000 x 700 and 1050 x 700", "1000 × 700, 1050 × 700", "1000 700 1050 700,"])
def test_outlines_may_be_written_height_by_width(answer):
    form = AnswerForm("lengths", "L")
    assert form.read(answer)[0] == (1000, 700, 1050, 700)
