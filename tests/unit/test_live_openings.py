"""Openings under the hand: a rule by any of its numbers, dividers, a least top opening, the grid or the jig's pitch.

Sums are worked out here: 1300 - 151 - 20 - 20 = 1109 are inside the landing chest, or
50 - 6 3/8 - 3/4 - 3/4 = 42 1/8 in; six dividers of 18, or of 3/4, leave 1001, or 37 5/8.
"""

from __future__ import annotations

import random
import re
from fractions import Fraction
from itertools import pairwise

import pytest
from leg_shapes import on_square_legs
from live_hand import BARES, ROOT, bare_file, controls, drawn, ends, put, seen, without_jig

from furnlib.live.openings import live_openings
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import read_piece

SEVEN = ROOT / "notebooks" / "designs" / "seven_openings.yaml"
F = Fraction


def chest(folder, unit="mm", *changes):
    """The demo on square legs: the same openings, drawn quicker."""
    path = bare_file(folder, unit, *changes)
    path.write_text(on_square_legs(path.read_text("utf-8")), "utf-8")
    return path


def sizes(words):
    """The openings of the caption, and what it says they add up to."""
    openings, whole = re.search(r"They close: (.*) = ([\d ./]+?)\.?$", words, re.MULTILINE).groups()
    return [sum(map(F, size.split())) for size in openings.split(" + ")], sum(map(F, whole.split()))


def openings(view):
    assert drawn(view), seen(view)[1]
    return sizes(seen(view)[1])[0]


def shows(view):
    """The controls that a maker sees just now."""
    return [name for name, control in controls(view).items() if control.layout.visibility != "hidden"
            and control.layout.display != "none"]  # fmt: skip


# What there is to move


def test_a_shop_with_a_jig_has_its_pitch_and_a_shop_without_one_its_grid(tmp_path):
    jig = ["Jig's pitch", "Clearance of a side", "Left over goes to"]
    always = ["Rule", "Rule goes by", "Step per row", "Number of rows", "Least top opening", "Divider thickness"]
    path = chest(tmp_path)
    assert shows(live_openings(path)) == [*always, *jig]
    grown = chest(tmp_path, "mm", ("divider: 18\n", "divider: 16\n  divider step: 1\n"))
    assert shows(live_openings(grown)) == [*always, "Divider step", *jig]
    assert shows(live_openings(without_jig(grown))) == [*always, "Divider step", "Shop grid, mm"]
    assert shows(live_openings(without_jig(chest(tmp_path)))) == [*always, "Divider step", "Shop grid, mm"]


@pytest.mark.parametrize(
    ("rule", "goes_by", "number"),
    [
        ("constant step", "step or ratio", "Step per row"),
        ("constant ratio", "step or ratio", "Ratio per row"),
        ("constant step", "first opening", "First opening"),
        ("constant ratio", "last opening", "Last opening"),
        ("constant step", "last over first", "Last over first"),
        ("equal", None, None),
    ],
)
def test_one_number_stands_there_and_it_is_the_one_the_rule_goes_by(tmp_path, rule, goes_by, number):
    view = live_openings(chest(tmp_path))
    put(controls(view)["Rule"], rule)
    if goes_by:
        put(controls(view)["Rule goes by"], goes_by)
    numbers = {"Step per row", "Ratio per row", "First opening", "Last opening", "Last over first"}
    assert numbers & set(shows(view)) == ({number} if number else set())
    assert ("Rule goes by" in shows(view)) == ("Least top opening" in shows(view)) == bool(number)


def test_weights_and_a_list_are_offered_where_the_file_has_them(tmp_path):
    assert list(controls(live_openings(SEVEN))["Rule"].options) == ["equal", "constant step", "constant ratio"]
    path = chest(tmp_path, "mm", ("step: 20 ", "step: 20\n  weights: [2, 3, 5, 8, 13, 21, 34] "))
    view = live_openings(path)
    put(controls(view)["Rule"], "weights")
    assert drawn(view)
    assert "weights 2 : 3 : 5 : 8 : 13 : 21 : 34" in seen(view)[1]


@pytest.mark.parametrize(
    ("rows", "rule"),
    [
        (1, "equal"),
        (10, "constant ratio\n  ratio: 2"),
        (3, "constant ratio\n  end ratio: 90"),
        (3, "constant step\n  last: 1200"),
    ],
)
def test_very_large_pieces_and_very_strong_rules_are_opened(tmp_path, rows, rule):
    """A wardrobe 2438 high: a control has no more than 2000 positions, whatever stands in the file."""
    text = SEVEN.read_text("utf-8").replace("height: 1148", "height: 2438").replace("width: 500", "width: 900")
    head, _, _ = text.replace("grid: 5 ", "grid: 1 ").partition("rows:")
    path = tmp_path / "wardrobe.yaml"
    path.write_text(f"{head}rows:\n  number: {rows}\n  rule: {rule}\n", "utf-8")
    before = path.read_bytes()
    view = live_openings(path)
    assert drawn(view)
    view.keep()
    assert path.read_bytes() == before


# A rule by any of its numbers


def test_the_number_that_is_chosen_begins_where_the_picture_stands():
    """A ratio of 1.16 in 1000 begins at 87.6 and ends at 213.5, 2.436 times as much."""
    for goes_by, name, size in (
        ("first opening", "First opening", F(876, 10)),
        ("last opening", "Last opening", F(2135, 10)),
        ("last over first", "Last over first", F(2436, 1000)),
    ):
        view = live_openings(SEVEN)
        before = openings(view)
        put(controls(view)["Rule goes by"], goes_by)
        assert controls(view)[name].value == size
        assert controls(view)[name].message == ""
        assert openings(view) == before == [90, 100, 115, 135, 160, 185, 215]


def test_a_first_opening_under_the_hand(tmp_path):
    """A step from 101 up in 1001: 143 is the middle one, three steps of 14 above."""
    view = live_openings(without_jig(chest(tmp_path)))
    put(controls(view)["Rule goes by"], "first opening")
    put(controls(view)["First opening"], "101")
    assert openings(view) == [101, 115, 129, 143, 157, 171, 185]
    put(controls(view)["Rule goes by"], "step or ratio")
    assert controls(view)["Step per row"].value == 14  # it says what is drawn


def test_a_last_opening_and_an_end_ratio_under_the_hand(tmp_path):
    """First and last of a constant step are twice the middle one, 286: 185 leaves 101; 110 to 176 is 1 to 1.6."""
    view = live_openings(without_jig(chest(tmp_path)))
    put(controls(view)["Rule goes by"], "last opening")
    put(controls(view)["Last opening"], "185")
    assert openings(view) == [101, 115, 129, 143, 157, 171, 185]
    put(controls(view)["Rule goes by"], "last over first")
    put(controls(view)["Last over first"], "1.6")
    assert (openings(view)[0], openings(view)[-1]) == (110, 176)


def test_what_begins_beyond_the_end_of_its_control_stays(tmp_path):
    """A ratio of 1.5 over seven rows makes the last 11.4 times the first, past the usual 5."""
    view = live_openings(chest(tmp_path))
    put(controls(view)["Rule"], "constant ratio")
    put(controls(view)["Ratio per row"], "1.5")
    before = controls(view)["Last over first"].value
    put(controls(view)["Rule goes by"], "last over first")
    assert controls(view)["Last over first"].value == before
    assert drawn(view)


def test_a_least_top_opening_eases_the_step(tmp_path):
    """From 110 at the top the step is (143 - 110) / 3 = 11."""
    view = live_openings(without_jig(chest(tmp_path)))
    put(controls(view)["Least top opening"], "110")
    assert openings(view) == [110, 121, 132, 143, 154, 165, 176]
    put(controls(view)["Least top opening"], "0")
    assert openings(view) == [83, 103, 123, 143, 163, 183, 203]


# Dividers, and what the openings close on


def test_dividers_that_grow_take_their_height(tmp_path):
    """Six dividers from 12, each 2 more: 12 + 14 + 16 + 18 + 20 + 22 = 102 of the 1109 inside."""
    view = live_openings(without_jig(chest(tmp_path)))
    put(controls(view)["Divider thickness"], "12")
    put(controls(view)["Divider step"], "2")
    assert sum(openings(view)) == 1109 - 102
    assert view.piece.rows.dividers == (12, 14, 16, 18, 20, 22)


def test_a_pitch_under_the_hand_and_what_it_leaves_goes_where_it_is_told(tmp_path):
    """1001 - 7 x 3 = 980: 39 pitches of 25, and 5 over."""
    view = live_openings(chest(tmp_path))
    put(controls(view)["Jig's pitch"], "25")
    rows = view.piece.rows
    assert sum(openings(view)) == 39 * 25 + 7 * 3 == 1001 - 5
    assert [row.side for row in rows.rows] == [25 * row.pitches for row in rows.rows]
    assert view.piece.case.leg_height == 151 + 5
    put(controls(view)["Left over goes to"], "bottom rail")
    assert view.piece.rows.rails == (0, 5)
    assert view.piece.case.leg_height == 151


def test_a_pitch_that_no_height_fits_says_what_would_and_the_picture_stays(tmp_path):
    """A file that does not say where the rest goes: 5 too much, or 20 too little, for pitches of 25."""
    view = live_openings(
        chest(
            tmp_path,
            "mm",
            ("  leftover: leg      # what takes up what is no whole pitch: leg, top rail or bottom rail\n", ""),
        )
    )
    assert controls(view)["Left over goes to"].value == "not said"
    before = seen(view)[0]
    put(controls(view)["Jig's pitch"], "25")
    picture, words = seen(view)
    assert picture == before
    assert words.startswith("Not drawn: ")
    assert "5 lower or 20 higher" in words
    put(controls(view)["Left over goes to"], "leg")
    assert drawn(view)


@pytest.mark.parametrize("unit", BARES)
@pytest.mark.parametrize("jig", ["with a jig", "without one"])
def test_hands_that_go_anywhere(tmp_path, unit, jig):
    """Whatever is drawn adds up to what dividers, clearances and whole pitches leave of the height inside."""
    path = chest(tmp_path, unit)
    view = live_openings(path if jig == "with a jig" else without_jig(path))
    chance, inside, said, count = random.Random(f"{unit} {jig}"), F(1109) if unit == "mm" else F(337, 8), 0, 0
    value = {name: (lambda name=name: controls(view)[name].value) for name in controls(view)}
    for _ in range(60):
        name = chance.choice([name for name in shows(view) if name != "Number of rows" or chance.random() < 0.3])
        before, control = seen(view), controls(view)[name]
        put(control, chance.choice(ends(control) if hasattr(control, "options") else range(len(control.labels))))
        picture, words = seen(view)
        if not drawn(view):
            said += 1
            assert picture == before[0]
            assert words[-1] in ".?"
            continue
        count += 1
        rows, divider, step = (
            value["Number of rows"](),
            F(value["Divider thickness"]()),
            F(value.get("Divider step", int)()),
        )
        clear = inside - sum(divider + step * number for number in range(rows - 1))
        if jig == "with a jig":
            clear -= (clear - rows * value["Clearance of a side"]()) % value["Jig's pitch"]()
        closed, whole = sizes(words)
        assert len(closed) == rows
        assert sum(closed) == whole == clear
        assert closed in (sorted(closed), sorted(closed, reverse=True))
    assert count > 20


# Kept


def test_another_number_takes_the_place_of_the_first_one(tmp_path):
    path = chest(tmp_path)
    before = path.read_text("utf-8")
    view = live_openings(path)
    put(controls(view)["Rule goes by"], "last opening")
    put(controls(view)["Last opening"], "183")
    view.keep()
    step = "  step: 20           # each opening taller than the one above by this\n"
    split = "    1: 2             # row 1 is two drawers side by side: keys, gloves\n"
    assert path.read_text("utf-8") == before.replace(step, "").replace(split, f"{split}  last: 183\n")
    assert read_piece(path).design.digest == view.piece.design.digest
    assert not [concern for concern in read_piece(path).concerns if concern.code == "not_used"]
    put(controls(view)["Rule goes by"], "step or ratio")
    put(controls(view)["Step per row"], "20")
    view.keep()
    assert sorted(path.read_text("utf-8").replace("  step: 20\n", step).splitlines()) == sorted(before.splitlines())


def test_a_trial_that_is_taken_back_leaves_the_file_to_the_byte(tmp_path):
    path = without_jig(chest(tmp_path))
    before = path.read_bytes()
    view = live_openings(path)
    for name, there, back in (
        ("Rule", "equal", "constant step"),
        ("Rule goes by", "first opening", "step or ratio"),
        ("Least top opening", "100", "0"),
        ("Divider step", "2", "0"),
    ):
        put(controls(view)[name], there)
        put(controls(view)[name], back)
    view.keep()
    assert path.read_bytes() == before


def test_a_line_that_was_never_in_use_is_left_to_the_maker(tmp_path):
    """The piece says that it is not used; opened and kept as it is, nothing is taken away."""
    path = chest(tmp_path, "mm", ("step: 20 ", "step: 20\n  ratio: 1.16 "))
    before = path.read_bytes()
    view = live_openings(path)
    assert [concern.number for concern in view.piece.concerns if concern.code == "not_used"] == ["ratio"]
    view.keep()
    assert path.read_bytes() == before


def test_a_least_top_opening_comes_and_goes(tmp_path):
    path = chest(tmp_path, "mm", ("step: 20 ", "step: 20\n  least top: 90 "))
    view = live_openings(path)
    put(controls(view)["Least top opening"], "0")
    view.keep()
    assert "least top" not in path.read_text("utf-8")
    put(controls(view)["Least top opening"], "95")
    view.keep()
    assert read_piece(path).design.rows.least_top == 95


def test_steps_of_the_first_opening_stay_in_its_unit(tmp_path):
    path = without_jig(chest(tmp_path, "in"))
    view = live_openings(path)
    put(controls(view)["Rule goes by"], "first opening")
    put(controls(view)["First opening"], "3 7/8")
    view.keep()
    assert "  first: 3 7/8\n" in path.read_text("utf-8")
    first, step = F(31, 8), F(1, 2)  # the middle one is 5 3/8, three steps on
    assert [row.opening for row in read_piece(path).rows.rows] == [first + step * row for row in range(7)]
    assert all(b - a == step for a, b in pairwise(openings(view)))


# A value taken out of a file


@pytest.mark.parametrize(
    ("text", "path", "left"),
    [
        ("a: 1\nstep: 20  # said\nb: 2\n", ("step",), "a: 1\nb: 2\n"),
        ("rows:\n  number: 7\n  step: 20\n", ("rows", "step"), "rows:\n  number: 7\n"),
        ("rows:\n  number: 7\n  step: 20", ("rows", "step"), "rows:\n  number: 7\n"),
        ("rows: {number: 7, step: 20}", ("rows", "step"), "rows: {number: 7}"),
        ("rows: {step: 20, number: 7}", ("rows", "step"), "rows: {number: 7}"),
        ("rows: {number: 7, step: 20, rule: equal}", ("rows", "step"), "rows: {number: 7, rule: equal}"),
        ('a: 1\n"least top": 90\n', ("least top",), "a: 1\n"),
        ("a: 1\nstep: 20\n", ("ratio",), "a: 1\nstep: 20\n"),
        ("a: 1\r\nstep: 20\r\nb: 2\r\n", ("step",), "a: 1\r\nb: 2\r\n"),
    ],
)
def test_a_value_goes_with_its_name_and_its_line(text, path, left):
    assert DesignText.parse(text).without_value(path).text == left
