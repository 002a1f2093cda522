"""Tests that a lesson's usual slips are known by the numbers that they give."""

from __future__ import annotations

import pytest

from furnlib.teach.lessons import exercise


def slip_tests(slips, seat, keys):
    """Two tests for a lesson: each answer worked in its file meets its slip, and every slip is met.

    `slips` has, for a key and an answer, words of the reply; `seat` gives the exercise with those numbers.
    """

    @pytest.mark.parametrize(("key", "answer"), slips, ids="-".join)
    def known_by_its_number(key, answer):
        reply = seat(key).check(answer)
        assert (reply.right, reply.kind) == (False, "slip")
        assert slips[key, answer] in reply.words

    @pytest.mark.parametrize("key", keys)
    def all_worked(key):
        met = [seat(key).check(answer).words for of_key, answer in slips if of_key == key]
        for slip in exercise(key).slips:
            assert any(words.endswith(f"when {slip.meaning}.") for words in met)

    return known_by_its_number, all_worked
