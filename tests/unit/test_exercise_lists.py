"""Answers that are lists, as makers write them; and exercises judged by a rule."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import accumulate

import pytest
from exercise_samples import CLOSED, closing, inch_list, top_opening, total_lean
from hypothesis import given
from hypothesis import strategies as st

from furnlib.teach.exercise import Slip
from furnlib.trade.drawer.graduation import (
    equal_openings,
    running_sizes,
)


@pytest.mark.parametrize("after", ["", " mm", " "])
@pytest.mark.parametrize("between", [" ", ", ", ",", "+", " + ", "; ", " , ", "\n", " mm ", " mm,", ",0 "])
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
    assert sticks.check("103 20 121 224 242 365").kind == "not yet"


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
