"""Answers in words: a set of those offered. Rows of 100, 120, 140 and 160: the third and the bottom one take 140."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from exercise_samples import ROWS, tall_rows
from hypothesis import given
from hypothesis import strategies as st

from furnlib.teach.exercise import Slip

RIGHT = {"third row", "bottom row"}
WRITTEN = (
    "third row, bottom row|bottom row and third row|Third  Row AND BOTTOM ROW.|third-row; bottom-row"
    "|'third row' + bottom row|third row&bottom row"
)


def test_the_question_offers_the_words_and_the_key_writes_them():
    assert str(tall_rows()).endswith("Which take 140? Choose from top row, second row, third row, bottom row.")
    assert tall_rows().answer == "third row, bottom row"


@pytest.mark.parametrize(
    "said",
    [*WRITTEN.split("|"), "third row\nbottom row", "bottom row, third row and third row", ["bottom row", "Third row"]],
)
def test_right_in_any_order_and_any_case(said):
    assert (str(tall_rows().check(said)), tall_rows().check(said).right) == ("Right.", True)


@pytest.mark.parametrize("named", [set(names) for many in range(1, 5) for names in combinations(ROWS, many)])
def test_every_other_set_is_not_right_and_told_how_much_of_it_is(named):
    reply = tall_rows().check(", ".join(named))
    good = len(named & RIGHT)
    if named == RIGHT:
        assert reply.right is True
    elif named == {"bottom row"}:  # the slip: more than 140, where 140 was enough
        assert reply.words == "That is the answer you get when a row of just that height is left out."
    elif named < RIGHT:
        assert reply.words == "Not yet. All that you name is right, but something is missing. Write the heights down."
    elif good == 0:
        assert reply.words == "Not yet. Write the heights down."
    else:
        verb = "is" if good == 1 else "are"
        assert reply.words == f"Not yet. {good} of your {len(named)} {verb} right. Write the heights down."


def test_hints_come_one_after_the_other_and_the_same_set_uses_up_none():
    exercise = tall_rows()
    said = ("top row", "second row", "second row, second row", "top row and second row")
    words = [str(exercise.check(answer)).removeprefix("Not yet. ") for answer in said]
    assert words == [
        "Write the heights down.",
        *["Go down row by row."] * 2,
        f"100, then 20 more each: {exercise.answer}.",
    ]


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("third row, botom row", "'botom row' is not one of the words to choose from; did you mean 'bottom row'?"),
        (
            "two",
            "'two' is not one of the words to choose from; what can stand there: bottom row, second row, third row,"
            " top row.",
        ),
        (["third row", 4], "No word is written; choose from top row, second row, third row, bottom row."),
        (4, "No word is written; choose from top row, second row, third row, bottom row."),
        (" , and ; ", "No word is written; choose from top row, second row, third row, bottom row."),
    ],
)
def test_what_is_not_offered_is_met_with_one_sentence(said, words):
    reply = tall_rows().check(said)
    assert (reply.right, reply.kind, reply.words) == (None, "unreadable", words)


def test_a_long_text_is_not_said_back():
    assert len(str(tall_rows().check("x" * 100_000))) < 150


@given(first=st.integers(60, 150), step=st.integers(5, 40), least=st.integers(80, 200))
def test_other_numbers_are_another_question_or_no_sound_one(first, step, least):
    seat = replace(tall_rows(), numbers={"first": first, "step": step, "least": least})
    heights = [first + row * step for row in range(4)]
    # sound where some row is of just that height, so that the slip shows, and one is still taller
    assert (seat.faults() == []) == (least in heights[:3])
    taking = [word for word, height in zip(ROWS, heights, strict=True) if height >= least]
    if taking:
        assert seat.check(" and ".join(taking)).right is True


@pytest.mark.parametrize(
    ("offered", "unclear"),
    [
        ((*ROWS, "Top-row"), ["top row", "Top-row"]),  # alike, once case and hyphen are left out
        ((*ROWS, "top and bottom"), ["top and bottom"]),
        ((*ROWS, "rows, all"), ["rows, all"]),
    ],
)
def test_words_that_could_not_be_read_back_are_faults(offered, unclear):
    faults = replace(tall_rows(), offered=offered).faults()
    assert faults[: len(unclear)] == [
        f"The word offered, '{word}', cannot be read as one word of its own." for word in unclear
    ]


def test_unsound_sets_are_found():
    assert tall_rows().faults() == []
    (fault,) = replace(tall_rows(), offered=ROWS[:3]).faults()
    assert fault.startswith("'bottom row' is not one of the words to choose from")
    (fault,) = replace(tall_rows(), solve=lambda **_: []).faults()
    assert fault.startswith("No word is written")
    same = Slip("nothing is wrong", lambda **_: ROWS[:1:-1])
    (fault,) = replace(tall_rows(), slips=(same,)).faults()
    assert fault.endswith("is met with 'Right.'")
    with pytest.raises(KeyError, match="A word"):
        replace(tall_rows(), tolerance="A").faults()
