"""Odd chests that a maker might well write: an own list under a jig, banks that differ, bays too narrow for words.

Expected sizes are worked by hand in place.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from faults import INCH, METRIC, check_sentence, edited, faults
from test_drilling_card import words_on
from test_plates import clashes, rooms_of

from furnlib.base.guards import DesignError
from furnlib.draw.plates import openings_plate, proportion_plate, rules_plate
from furnlib.draw.plates.twins import twin_plate
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import make_piece, piece_of
from furnlib.plan.twin import twin_of
from furnlib.trade.drawer.closing import close_on_grid, fit_to_pitch
from furnlib.trade.drawer.graduation import constant_ratio

RULE = "  rule: constant step\n  step: 20\n"
JIG = "jig: {pitch: 20, clearance: 3, leftover: %s}\nlegs:\n"


def of_bays(*bays):
    return "  divider: 18\n", "  divider: 18\n  partition: 20\n  bays:\n" + "".join(
        f"    - {{{bay}}}\n" for bay in bays
    )


def own_list(openings):
    return RULE, f"  rule: own list\n  openings: [{openings}]\n"


def chest(*edits, text=METRIC):
    return piece_of(DesignText.parse(edited(text, *edits)))


def unsettled(piece, code):
    return [str(concern) for concern in piece.concerns if concern.code == code]


# An own list under a jig: 1260 inside less 6 dividers of 18 is 1152 without legs 151 high, 1001 with them


@pytest.mark.parametrize(
    ("place", "legs", "openings", "rails", "leg_height"),
    [
        ("leg", 150, "83, 103, 123, 143, 163, 183, 204", (0, 0), 151),  # adds up to the 1002 that there are
        ("leg", 150, "83, 103, 123, 143, 163, 183, 203", (0, 0), 151),  # to what the jig can fill of it
        ("top rail", 150, "83, 103, 123, 143, 163, 183, 203", (1, 0), 150),
        ("bottom rail", 140, "84, 104, 124, 145, 165, 185, 205", (0, 11), 140),
    ],
)
def test_an_own_list_goes_to_the_pitch_and_what_is_left_over_to_its_place(place, legs, openings, rails, leg_height):
    piece = chest(("legs:\n", JIG % place), ("height: 151", f"height: {legs}"), own_list(openings))
    assert [row.pitches for row in piece.rows.rows] == [4, 5, 6, 7, 8, 9, 10]
    assert [row.opening for row in piece.rows.rows] == [83, 103, 123, 143, 163, 183, 203]
    assert (piece.rows.rails, piece.case.leg_height) == (rails, leg_height)


@pytest.mark.parametrize(("last", "said"), [("183", "20 too little"), ("223", "20 too much")])
def test_an_own_list_that_is_a_pitch_away_from_the_height_names_its_line(last, said):
    text = edited(METRIC, ("legs:\n", JIG % "top rail"), own_list(f"83, 103, 123, 143, 163, 183, {last}"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert "rows, openings: The list of openings does not close" in sentence
    assert said in sentence


# Banks that differ


def test_each_size_of_banks_that_differ_has_a_name_of_its_own():
    piece = chest(of_bays("rows: {number: 3, rule: equal}", "open: no"))
    names = [size.name for size in piece.sizes]
    assert len(names) == len(set(names))
    clear = {size.name: size.value for size in piece.sizes if size.name.startswith("clear height")}
    assert clear == {"clear height, bank 1": 1109 - 2 * 18, "clear height, bank 2": 1109 - 6 * 18}


def test_a_fault_in_the_rows_of_a_bay_names_the_bay_where_legs_take_what_is_left_too():
    bays = of_bays("rows: {number: 3, rule: constant step, step: 900}", "open: no")
    (sentence,) = faults(edited(METRIC, ("legs:\n", JIG % "leg"), bays))
    check_sentence(sentence)
    assert "case, bays, 1, rows, step: A step of 900 over 3 rows" in sentence


def test_the_least_top_of_one_bank_is_not_asked_of_another():
    # 1003 / 7 = 143.29 closes on 143, below what only the bank beside it asks for
    bank = "rows: {number: 3, rule: constant step, step: 20, least top: 143.2}"
    piece = chest(("height: 151", "height: 149"), (RULE, "  rule: equal\n"), of_bays("open: no", bank))
    assert piece.rows.rows[0].opening == 143
    assert unsettled(piece, "least_top_missed") == []


# What is given and nothing goes by


def test_rows_of_an_open_bay_are_said_to_have_no_use():
    piece = chest(of_bays("open: yes, rows: {number: 3, rule: equal, step: 4}", "width: 300"))
    assert unsettled(piece, "not_used") == [
        "rows of bay 1: the bay is open, so that no drawers stand in it. Take its rows out; take 'open: yes' out."
    ]


def test_a_divider_step_beside_a_list_of_dividers_is_said_to_have_no_use():
    piece = chest(("  divider: 18\n", "  divider: 18\n  divider step: 1\n  dividers: [18, 18, 18, 18, 18, 18]\n"))
    assert [said.partition(":")[0] for said in unsettled(piece, "not_used")] == ["divider step"]


def test_weights_whose_own_steps_shrink_are_not_blamed_on_the_grid():
    shrinking = (RULE, "  rule: weights\n  weights: [4, 6, 7, 9, 3, 5, 2]\n")
    piece = chest(shrinking)
    assert unsettled(piece, "steps_shrink") == []
    assert "The steps asked for shrink: largest remainders rounded up." in " ".join(words_on(openings_plate(piece)))
    # equal ones that the grid parts (1003 / 7) are not told to be equal
    (said,) = unsettled(chest(("height: 151", "height: 149"), (RULE, "  rule: equal\n")), "steps_shrink")
    assert "take equal openings" not in said
    assert "put what is over in a rail" in said


def test_a_first_opening_of_one_grid_step_is_a_whole_step():
    # its ratio is found to 15 figures, so that the ideal is 1 to within a hair
    ideal = constant_ratio(Fraction(1001), 7, first=Fraction(1))
    assert close_on_grid(ideal, Fraction(1)).openings[0] == 1
    with pytest.raises(DesignError, match=r"The smallest opening would be 0\.999999, less than one step"):
        close_on_grid([Fraction(999999, 10**6), Fraction(1000001, 10**6)], Fraction(1))


# Sentences


@pytest.mark.parametrize(("name", "value", "left"), [("first", 290, -4), ("last", 286, 0)])
def test_a_first_or_last_opening_too_large_is_told_its_own_limit(name, value, left):
    # the openings at both ends add up to 2 x 1001 / 7 = 286
    (sentence,) = faults(edited(METRIC, (RULE, f"  rule: constant step\n  {name}: {value}\n")))
    check_sentence(sentence)
    assert f"A {name} opening of {value} leaves {left} for the smallest opening" in sentence
    assert "it must stay below 286" in sentence


def test_one_side_that_does_not_fit_is_one():
    with pytest.raises(DesignError, match="The clear height 20 holds no side of one pitch; 23 is the least that does"):
        fit_to_pitch([20], 20, 3)


def test_very_many_members_are_not_all_named_in_a_refusal():
    many = ("number: 7", "number: 40"), ("  split:\n    1: 2\n", "")
    (sentence,) = faults(edited(METRIC, *many, own_list(", ".join(["25"] * 40))))
    check_sentence(sentence)
    assert "25 + 25 + 25 + 25 + 25 + 25 + … + 25 + 25 + 25 + 25 + 25 + 25 = 1000" in sentence
    (sentence,) = faults(edited(METRIC, *many, ("  divider: 18\n", "  divider: 18\n  divider step: 1\n")))
    check_sentence(sentence)
    # 39 x 18 + 39 x 38 / 2 = 1443
    assert "39 dividers of different thickness take 1443 of the 1109 inside" in sentence


# Plates


def test_words_keep_apart_on_plates_of_bays_that_are_narrow():
    bays = of_bays("width: 60", "open: no", "open: yes", "width: 60")
    piece = chest(bays, ("height: 1300", "height: 2000"), ("  split:\n    1: 2\n", "  split:\n    1: 1\n"))
    assert clashes(rooms_of(openings_plate(piece))) == []
    assert clashes(rooms_of(twin_plate(piece, make_piece(twin_of(piece.design, Fraction(1, 32)))))) == []


NO_SPLIT = "  split:\n    1: 2\n", ""
MANY = [
    8,
    3,
    3,
    3,
    1,
    2,
    8,
    5,
    5,
    2,
    2,
    5,
    3,
    5,
    1,
    2,
    1,
    1,
    3,
    2,
    2,
    5,
    3,
    5,
    3,
    1,
    3,
    2,
    2,
    1,
    3,
    3,
    3,
    1,
    1,
    3,
    2,
    1,
    8,
    3,
]
OFFSETS = "jig: {pitch: 25, clearance: 3.2, first offset: 12, last offset: 8, leftover: top rail}\nlegs:\n"
TALL, SLIM = ("height: 1300", "height: 2000"), ("width: 520", "width: 300")


@pytest.mark.parametrize(
    ("plate", "edits"),
    [
        (openings_plate, (of_bays(*["open: no"] * 12), NO_SPLIT)),
        (openings_plate, (("legs:\n", OFFSETS), TALL, SLIM)),
        (proportion_plate, (("height: 1300", "height: 1341"), ("width: 520", "width: 516"))),
    ],
    ids=["twelve bays", "left over", "coarser"],
)
def test_words_keep_apart_on_other_plates(plate, edits):
    assert clashes(rooms_of(plate(chest(*edits)))) == []


def test_one_ratio_is_not_said_twice_as_the_coarser_one():
    # the field of 1190 by 516 has the parts of 7 : 3, and 7 : 3 is the next coarser of whole numbers too
    said = words_on(proportion_plate(chest(("height: 1300", "height: 1341"), ("width: 520", "width: 516"))))
    assert "Parts drawn of 7 : 3, 1.2 % off." in said


FALLING = "rule: constant ratio\n  last: 2 3/8"


@pytest.mark.parametrize(
    "edits",
    [
        (("rule: equal", FALLING), ("height: 50", "height: 60"), ("grid: 1/32", "grid: 1/16")),
        (
            ("number: 7\n  rule: equal", f"number: 40\n  rule: weights\n  weights: {MANY}"),
            ("  divider: 3/4\n", "  divider: 23/32\n  partition: 23/32\n  bays: [{}, {}, {}, {}]\n"),
        ),
    ],
    ids=["low openings", "many weights"],
)
def test_words_keep_apart_on_the_sheet_of_rules(edits):
    jig = "jig: {pitch: 25/32, clearance: 1/8, leftover: top rail}\nlegs:\n"
    edits = edits if "weights" in str(edits) else (*edits, ("legs:\n", jig))
    assert clashes(rooms_of(rules_plate(chest(*edits, ("width: 20", "width: 35"), text=INCH)))) == []
