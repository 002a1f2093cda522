"""The exercises of the lessons: each is sound, its answer worked here by hand, its slips known by their numbers."""

from __future__ import annotations

import json
import math
import re
from dataclasses import replace
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
        "numbers": ["1 2 3", "2 3 4", "3 4 5"],
        "01c": ["1:3", "4:9", "4:9 and 1:3"],
        "01f": ["7 : 4 and 9 : 5", "7 : 4 and 16 : 9", "9 : 5 and 16 : 9"],
        "02h": ["2.9", "5.1", "6.1"],
        "04c": ["400", "500", "600"],
        "04f": ["near the front, near the back", "near the front, at both ends", "in the middle, near the back"],
        "04g": ["5 to 9", "10 to 16", "5 to 9 and 10 to 16"],
        "03f": ["front", "back", "front and back"],
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
    """Those of lessons 1 to 4 and 6 stand in tests of their own: proportion to movement, and turning."""
    for key in (key for key in KEYS if key[:2] not in {"01", "02", "03", "04", "06"}):
        met = [fresh(key).check(answer).words for of, answer in SLIPS if of == key]
        for slip in exercise(key).slips:
            assert any(words.endswith(f"when {slip.meaning}.") for words in met)
