"""A design file whose numbers do not go together: ratios, a grid, lists, splits, leans, parts out of shape.

As in `test_bad_design` each row of a table is one slip of a maker, and the numbers that the sentence
must show are worked by hand beside it.
"""

from __future__ import annotations

import re

import pytest
from faults import INCH, METRIC, check_sentence, edited, faults, line_of

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

RULE = "rule: constant step"
SPLIT = "split:\n    1: 2"
RATIOS = [
    ("0", "0", "more than 0"),
    ("-1", "-1", "more than 0"),
    ("0.05", "0.05", "from 0.1 to 10"),
    ("11", "11", "from 0.1 to 10"),
    ("1000000", "1000000", "from 0.1 to 10"),
    ("nan", "'nan'", "write it like 7, 1.16 or 5/4"),
    ("inf", "'inf'", "write it like 7, 1.16 or 5/4"),
    ("-inf", "'-inf'", "write it like 7, 1.16 or 5/4"),
    ("1e9", "'1e9'", "write it like 7, 1.16 or 5/4"),
    ("", "", "No number is written"),
    ("20 mm", "'20 mm'", "write it like 7, 1.16 or 5/4"),
]


@pytest.mark.parametrize(("ratio", "value", "cure"), RATIOS)
def test_a_ratio_out_of_range_is_said(ratio, value, cure):
    text = edited(METRIC, ("constant step", "constant ratio"), ("step: 20", f"ratio: {ratio}"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, 'ratio:')}, rows, ratio: ")
    assert value in sentence.partition("rows, ratio: ")[2]
    assert cure in sentence


def test_a_ratio_of_1_is_fine_and_one_too_strong_for_the_grid_is_said():
    def with_ratio(ratio):
        return edited(METRIC, ("rule: constant step", "rule: constant ratio"), ("  step: 20", f"  ratio: {ratio}"))

    assert {row.opening for row in piece_of(DesignText.parse(with_ratio("1"))).rows.rows} == {143}
    # 1001 x 9 / (10^7 - 1) = 0.0009 for the top opening
    (sentence,) = faults(with_ratio("10"))
    check_sentence(sentence)
    assert "less than one step of 1; take fewer rows, a ratio nearer 1 or a finer grid" in sentence


# A clear height that the grid cannot close

CURES = "put it in the legs, the top, the bottom or a divider, or take a finer grid."
NOT_CLOSED = [
    # file, edit, the clear height and what is left over, by hand
    (METRIC, ("height: 1300", "height: 1300.5"), "1001.5", "0.5"),
    (METRIC, ("grid: 1\n", "grid: 3\n"), "1001", "2"),  # 1001 = 333 x 3 + 2
    (METRIC, ("top: 21", "top: 3/4 in"), "1002.95", "0.95"),  # 1149 - 19.05 - 19 - 108
    (METRIC, ("height: 1300", "height: 51 in"), "996.4", "0.4"),  # 1295.4 - 151 - 40 - 108
    (METRIC, ("height: 151", "height: 6 in"), "999.6", "0.6"),  # 1300 - 152.4 - 40 - 108
    (INCH, ("grid: 1/32", "grid: 3/4"), "37 5/8", "1/8"),  # 37 5/8 = 50 x 3/4 + 1/8
    (
        INCH,
        ("top: 3/4", "top: 20 mm"),
        "37.5876",
        "0.0251",
    ),  # 43 5/8 - 100/127 - 3/4 - 4 1/2 = 1202 x 1/32 + 0.0251
]


@pytest.mark.parametrize(("text", "edit", "clear", "left"), NOT_CLOSED, ids=[row[1][1] for row in NOT_CLOSED])
def test_a_clear_height_off_the_grid_shows_what_is_left_over_and_the_cures(text, edit, clear, left):
    (sentence,) = faults(edited(text, edit))
    check_sentence(sentence)
    assert sentence.endswith(CURES)
    if "/" in clear:  # what is on the tape is said as the tape shows it
        assert f" {clear} " in sentence
        assert f" {left} is left over" in sentence
        return
    numbers = [float(number) for number in re.findall(r"\d+\.?\d*", sentence.partition("grid: ")[2])]
    assert any(number == pytest.approx(float(clear), abs=1e-4) for number in numbers), sentence
    assert any(number == pytest.approx(float(left), abs=1e-4) for number in numbers), sentence


def test_an_inch_piece_is_told_about_its_grid_as_the_tape_shows_it():
    (sentence,) = faults(edited(INCH, ("top: 3/4", "top: 13/16"), ("grid: 1/32", "grid: 1/8")))
    # 43 5/8 - 13/16 - 3/4 - 4 1/2 = 37 9/16 = 300 x 1/8 + 1/16
    assert "1/8" in sentence
    assert "1/16" in sentence
    assert "0.125" not in sentence


def test_a_height_given_twice_shows_the_chain_that_does_not_close():
    text = edited(METRIC, ("case:\n", "case:\n  height: 1150\n"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert "1150 + 151 = 1301, not 1300; 1 too much: change one of its members." in sentence
    agreed = edited(METRIC, ("case:\n", "case:\n  height: 1149\n"))
    assert piece_of(DesignText.parse(agreed)).case.height == 1149


# An own list

LISTS = [
    ("[83, 103, 123, 143, 163, 183, 204]", "", "163 + 183 + 204 = 1002, not 1001; 1 too much: change one"),
    ("[83, 103, 123, 143, 163, 183, 202.5]", "", "= 1000.5, not 1001; 0.5 too little: change one"),
    ("[83, 103, 123, 143, 163, 183]", "", "6 openings for 7 rows; give one for each row"),
    ("[83, 103, 123, 143, 163, 183, 100, 103]", "", "8 openings for 7 rows; give one for each row"),
    ("[]", "", "0 openings for 7 rows; give one for each row"),
    ("83", "", "a list should stand here, such as [83, 103, 123]"),
    ("{1: 83}", "", "a list should stand here, such as [83, 103, 123]"),
    ("", "", "a list should stand here, such as [83, 103, 123]"),
    # one bad member: rows are counted from 1
    ("[nan, 103, 123, 143, 163, 183, 203]", ", 1", "'nan' cannot be read as a length"),
    ("[83, [103], 123, 143, 163, 183, 203]", ", 2", "A single value should stand here"),
    ("[83, 103, wide, 143, 163, 183, 203]", ", 3", "'wide' cannot be read as a length"),
    ("[83, 103, 123, 143, -163, 183, 203]", ", 5", "-163; it must be more than 0"),
]


@pytest.mark.parametrize(("openings", "member", "words"), LISTS, ids=[row[0] for row in LISTS])
def test_an_own_list_that_will_not_do_is_said(openings, member, words):
    text = edited(METRIC, ("constant step", "own list"), ("step: 20", f"openings: {openings}"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    line = line_of(text, "openings:")
    assert sentence.startswith(f"chest.yaml line {line}, rows, openings{member}: "), sentence
    assert words in sentence


def test_a_split_that_leaves_no_width_is_said():
    # 480 inside, 11 dividers of 45 take 495
    text = edited(METRIC, ("1: 2", "1: 12"), ("divider: 18", "divider: 45"), ("step: 20", "step: 0"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, '1: 12')}, rows, split, 1: ")
    assert re.search("12 drawers; split it into fewer,? or thin the divider.$", sentence)


# Leans

LEANS = [
    ("{rake: 90, splay: 6}", "90", "between -90 and 90: a leg at 90 lies on the floor"),
    ("{rake: 91, splay: 6}", "91", "between -90 and 90"),
    ("{rake: -90, splay: 6}", "-90", "between -90 and 90"),
    ("{rake: 8, splay: 180}", "180", "between -90 and 90"),
    ("{total lean: 90, sight line: 30}", "90", "between -90 and 90"),
    ("{total lean: -5, sight line: 30}", "-5", "turn the sight line by 180 instead"),
    ("{total lean: 5, sight line: 400}", "400", "give it from -180 to 180"),
    ("{total lean: 5, rake: 8}", "5 is less than the rake 8", "lower the rake or raise the total lean"),
    (
        "{rake: 8, sight line: 90}",
        "8 on a sight line of 90",
        "give rake and splay, or total lean and sight line",
    ),
    (
        "{rake: 8, splay: 6, total lean: 9.95}",
        "rake, splay, total lean",
        "exactly two of rake, splay, total lean",
    ),
    (
        "{rake: 8, splay: 6, total lean: 9, sight line: 3}",
        "rake, splay",
        "exactly two of rake, splay, total lean",
    ),
    ("{rake: 8}", "rake", "exactly two of rake, splay, total lean and sight line"),
    ("{sight line: 8}", "sight line", "exactly two of rake, splay, total lean and sight line"),
    ("{}", "nothing", "exactly two of rake, splay, total lean and sight line"),
    ("", "", "names and values should stand below this"),
    ("8", "", "names and values should stand below this"),
    ("[8, 6]", "", "names and values should stand below this"),
    ("{rake: nan, splay: 6}", "'nan'", "write it like 8, 8.5 or 8°"),
    ("{rake: 8, splay: inf}", "'inf'", "write it like 8, 8.5 or 8°"),
    ("{rake: 8 mm, splay: 6}", "'8 mm'", "as an angle; write it like 8, 8.5 or 8°"),
    ("{rake: [8], splay: 6}", "", "A single value should stand here"),
    ("{rake: , splay: 6}", "", "No angle is written"),
]


@pytest.mark.parametrize(("lean", "value", "cure"), LEANS, ids=[row[0] for row in LEANS])
def test_a_lean_that_will_not_do_is_said(lean, value, cure):
    text = edited(METRIC, ("front left: {rake: 8, splay: 6}", f"front left: {lean}"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, 'front left:')}, legs, lean, front left"), sentence
    assert value in sentence
    assert cure in sentence


STRAY = [
    # which leg, its lean, whose foot it passes; by hand from the tops, on a height of 151
    ("front left", "{rake: 8, splay: -80}", "right leg across"),  # 46 + 151 tan 80 = 902, past 489.9
    ("rear right", "{rake: 0, splay: -75}", "left leg across"),  # 474 - 151 tan 75 = -89.5, past 30.1
    ("front right", "{rake: -70, splay: 6}", "leg fore and aft"),  # 45 + 151 tan 70 = 460, past 340
    ("rear left", "{rake: -70, splay: 6}", "leg fore and aft"),  # 340 - 151 tan 70 = -74.9, past 23.8
]


@pytest.mark.parametrize(("position", "lean", "words"), STRAY, ids=[f"{row[0]} {row[1]}" for row in STRAY])
def test_a_foot_that_lands_past_another_is_said_of_the_leg_that_strays(position, lean, words):
    old = re.search(rf"{position}: .*", METRIC).group()
    text = edited(METRIC, (old, f"{position}: {lean}"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, position)}, legs, lean, {position}: "), sentence
    assert f"foot of the {position} leg" in sentence
    assert words in sentence
    assert "lean it less" in sentence


def test_legs_without_a_single_leg_are_refused():
    for empty in ("  lean: {}\n", "  lean:\n"):
        text = METRIC[: METRIC.index("  lean:")] + empty
        (sentence,) = faults(text)
        check_sentence(sentence)
        assert "legs, lean" in sentence


# A list where a value should stand, and the other way

OVERALL = "overall:\n  height: 1300\n  width: 520\n  depth: 380"
INSET = "inset:\n    front: 45\n    rear: 40\n    side: 46"
SHAPES = [
    ("width: [520]", "width: 520", "overall, width", "A single value should stand here"),
    ("width: {at: 520}", "width: 520", "overall, width", "A single value should stand here"),
    ("unit: [mm]", "unit: mm", "unit", "A single value should stand here"),
    ("number: [7]", "number: 7", "rows, number", "A single value should stand here"),
    ("rule: {}", RULE, "rows, rule", "A single value should stand here"),
    ("split: 2", SPLIT, "rows, split", "names and values should stand below this"),
    ("split: [1, 2]", SPLIT, "rows, split", "names and values should stand below this"),
    ("1: [2]", "1: 2", "rows, split, 1", "A single value should stand here"),
    ("inset: 45", INSET, "legs, inset", "names and values should stand below this"),
    ("overall: 5", OVERALL, "overall", "names and values should stand below this"),
    ("overall: [5]", OVERALL, "overall", "names and values should stand below this"),
    ("overall:", OVERALL, "overall", "names and values should stand below this"),
]


@pytest.mark.parametrize(("written", "instead", "path", "words"), SHAPES, ids=[row[0] for row in SHAPES])
def test_a_list_for_a_value_and_a_value_for_a_part_are_said(written, instead, path, words):
    text = edited(METRIC, (f"{instead}\n", f"{written}\n"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, written)}, {path}: {words}"), sentence
