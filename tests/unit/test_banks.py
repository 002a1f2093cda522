"""Banks of drawers: bays, dividers that differ, rails, the jig's pitch, and what was measured as built.

Expected sizes are worked by hand in place, in both units where both shops differ.
"""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise
from pathlib import Path

import pytest
from faults import METRIC, edited

from furnlib.base.guards import DesignError
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
LEGS = METRIC[METRIC.index("legs:") :]
JIG = "jig: {pitch: 20, clearance: 3, leftover: %s}\n"


def chest(*edits):
    return piece_of(DesignText.parse(edited(METRIC, *edits)))


def with_jig(place, *edits):
    return chest(("legs:\n", JIG % place + "legs:\n"), *edits)


def heights(piece, bank=0):
    return [row.opening for row in piece.banks[bank].rows.rows]


def printed(piece):
    """The chains as a plate prints them, thin spaces made plain."""
    return {chain.name: str(chain).replace("\u202f", " ") for chain in piece.chains}


def rules(piece):
    return {size.name: size.rule.replace("\u202f", " ") for size in piece.sizes}


# Twelve trays in two banks


@pytest.mark.parametrize(
    ("file", "opening", "width", "high", "wide"),
    [
        ("abrasive_cabinet", 48, 262, "15 + 288 + 60 + 15 = 378", "15 + 262 + 15 + 262 + 15 = 569"),
        (
            "abrasive_cabinet_inch",
            F(15, 8),
            F(165, 16),  # (22 1/2 - 3 x 5/8) / 2 = 10 5/16
            "5/8 + 11 1/4 + 2 1/2 + 5/8 = 15",
            "5/8 + 10 5/16 + 5/8 + 10 5/16 + 5/8 = 22 1/2",
        ),
    ],
)
def test_the_abrasive_cabinet_closes_with_twelve_openings_of_one_size(file, opening, width, high, wide):
    piece = read_piece(DESIGNS / f"{file}.yaml")
    assert [bank.number for bank in piece.banks] == [1, 2]
    assert heights(piece, 0) == heights(piece, 1) == [opening] * 6
    assert [bank.width for bank in piece.banks] == [width, width]
    assert piece.banks[1].left - piece.banks[0].left == width + piece.design.case.partition
    assert printed(piece)["height of the case"] == high
    assert printed(piece)["width of the case"] == wide
    names = [size.name for size in piece.sizes]
    assert len(names) == len(set(names))  # banks that are alike are listed once


# Banks that differ


TWO = ("divider: 18", "divider: 18\n  partition: 18\n  bays: [{width: 200}, {rows: {number: 3, rule: equal}}]")


def test_banks_with_rows_of_their_own_each_close_and_are_told_apart():
    # inside 480 wide, 1109 high: 7 rows share 1109 - 6 x 18 = 1001, 3 rows 1109 - 2 x 18 = 1073
    piece = chest(TWO, ("    1: 2\n", "    7: 2\n"), ("rule: equal}", "rule: own list, openings: [300, 373, 400]}"))
    assert [bank.width for bank in piece.banks] == [200, 262]
    assert heights(piece, 0) == [83, 103, 123, 143, 163, 183, 203]
    assert heights(piece, 1) == [300, 373, 400]
    assert printed(piece)["openings, bank 2"] == "300 + 373 + 400 = 1073"
    assert printed(piece)["height of the case, bank 2"] == "21 + 1073 + 36 + 19 = 1149"
    assert rules(piece)["width of the bay"] == "262 = 480 - 200 bay 1 - 18 partition"


def test_alike_rows_of_another_width_give_their_split_drawers_names_of_their_own():
    piece = chest(("divider: 18", "divider: 18\n  partition: 18\n  bays: [{width: 200}, {open: no}]"))
    found = rules(piece)
    assert found["width of each drawer in row 1, bank 1"] == "91 = (200 - 18 divider) / 2"
    assert found["width of each drawer in row 1, bank 2"] == "122 = (262 - 18 divider) / 2"


def test_a_fault_of_a_bays_own_rows_names_its_line():
    text = edited(METRIC, TWO, ("rule: equal}", "rule: constant step}"), ("    1: 2\n", "    7: 2\n"))
    with pytest.raises(DesignError, match=r"line 14, case, bays, 2, rows.*needs a step"):
        piece_of(DesignText.parse(text))


def test_an_open_bay_between_two_banks_counts_no_bank():
    bays = "partition: 10\n  bays: [{width: 150}, {open: yes}, {width: 150}]"
    piece = chest(("divider: 18", f"divider: 18\n  {bays}"), ("    1: 2\n", "    7: 2\n"))
    assert [bank.number for bank in piece.banks] == [1, 0, 2]
    assert [bank.width for bank in piece.banks] == [150, 160, 150]  # 480 - 2 x 150 - 2 x 10
    assert [bank.left for bank in piece.banks] == [20, 180, 350]
    assert piece.case.partitions == (170, 180, 340, 350)
    assert piece.rows is piece.banks[0].rows


def test_the_order_of_banks_changes_no_opening():
    first, second = "{width: 200}", "{rows: {number: 3, rule: constant step, step: 16}}"
    edits = [("divider: 18", f"divider: 18\n  partition: 18\n  bays: [{a}, {b}]") for a, b in
             ((first, second), (second, first))]  # fmt: skip
    one, other = (chest(edit, ("    1: 2\n", "    7: 2\n"), ("grid: 1", "grid: 1/3")) for edit in edits)
    assert (heights(one, 0), heights(one, 1)) == (heights(other, 1), heights(other, 0))


# Dividers and rails


def test_dividers_may_grow_by_a_step_downwards():
    # 12, 13, ... 17 make 87; 1109 - 87 = 1022 = 7 x 146
    piece = chest(("divider: 18", "divider: 12\n  divider step: 1"))
    assert piece.rows.dividers == (12, 13, 14, 15, 16, 17)
    assert piece.rows.clear_height == 1022
    assert heights(piece) == [86, 106, 126, 146, 166, 186, 206]
    tops = [row.top for row in piece.rows.rows]
    assert tops[0] == 21
    assert [low - high for high, low in pairwise(tops)] == [98, 119, 140, 161, 182, 203]
    assert printed(piece)["height of the case"] == "21 + 1022 + 12 + 13 + 14 + 15 + 16 + 17 + 19 = 1149"


def test_dividers_may_be_a_list_and_alike_ones_are_counted():
    piece = chest(("divider: 18", "divider: 18\n  dividers: [30, 18, 18, 18, 18, 18]"), ("step: 20", "step: 16"))
    assert piece.rows.clear_height == 989  # 1109 - 30 - 90
    assert rules(piece)["clear height"] == "989 = 1109 - 30 divider - 5 x 18 divider"


def test_rails_take_their_height_from_the_openings():
    piece = chest(("divider: 18", "divider: 18\n  top rail: 30\n  bottom rail: 33"), ("step: 20", "step: 16"))
    assert piece.rows.clear_height == 938  # 1109 - 30 - 33 - 108 = 7 x 134
    assert heights(piece) == [86, 102, 118, 134, 150, 166, 182]
    assert piece.rows.rows[0].top == 51
    assert printed(piece)["height of the case"] == "21 + 30 + 938 + 108 + 33 + 19 = 1149"


# The jig's pitch


@pytest.mark.parametrize(
    ("file", "pitch", "clearance", "high"),
    [
        ("landing_chest", 20, 3, "20 + 1001 + 108 + 20 = 1149"),
        ("landing_chest_inch", F(3, 4), F(1, 8), "3/4 + 37 5/8 + 4 1/2 + 3/4 = 43 5/8"),
    ],
)
def test_the_landing_chest_takes_four_to_ten_pitches_with_nothing_left_over(file, pitch, clearance, high):
    piece = read_piece(DESIGNS / f"{file}.yaml")
    pitches = range(4, 11)
    assert [row.pitches for row in piece.rows.rows] == list(pitches)
    assert [row.side for row in piece.rows.rows] == [k * pitch for k in pitches]
    assert heights(piece) == [k * pitch + clearance for k in pitches]
    assert piece.rows.fit.leftover == 0
    assert piece.case.leg_height == piece.design.legs.height
    assert printed(piece)["height of the case"] == high


def test_what_the_pitch_leaves_over_goes_to_the_legs():
    piece = with_jig("leg", ("height: 151", "height: 150"))
    # 1150 - 40 - 108 = 1002; 7 x 3 + 49 x 20 = 1001, 1 is left over
    assert heights(piece) == [83, 103, 123, 143, 163, 183, 203]
    assert piece.case.leg_height == 151
    assert rules(piece)["leg height"] == "151 = 150 + 1 left over by the jig"
    assert printed(piece)["height of the piece"] == "1149 + 151 = 1300"
    assert piece.stand.heights == (151, 151)
    assert {float(leg.height) for leg in piece.legs} == {151.0}
    assert next(size.rule for size in piece.masters if size.name == "legs, height") == "150 settled"


@pytest.mark.parametrize(
    ("place", "rails", "chain"),
    [
        ("top rail", (1, 0), "21 + 1 + 1001 + 108 + 19 = 1150"),
        ("bottom rail", (0, 1), "21 + 1001 + 108 + 1 + 19 = 1150"),
    ],
)
def test_what_the_pitch_leaves_over_goes_to_a_rail(place, rails, chain):
    piece = with_jig(place, ("height: 151", "height: 150"))
    assert piece.rows.rails == rails
    assert piece.case.leg_height == 150
    assert piece.rows.rows[0].top == 21 + rails[0]
    assert printed(piece)["height of the case"] == chain


def test_offsets_of_the_jig_count_from_the_edges_to_the_nearest_tails():
    # side = 12 + (k - 1) 20 + 9; 7 openings: 7 (12 - 20 + 9 + 3) + 20 K <= 1001, so K = 48 and 13 are left over
    jig = "jig: {pitch: 20, first offset: 12, last offset: 9, clearance: 3, leftover: bottom rail}\nlegs:\n"
    piece = chest(("legs:\n", jig))
    rows = piece.rows
    assert [row.side for row in rows.rows] == [12 + (row.pitches - 1) * 20 + 9 for row in rows.rows]
    assert sum(row.pitches for row in rows.rows) == 48
    assert rows.rails == (0, 13)
    # 3.95, 4.95 ... 9.95 pitches are wanted, 48.65 in all; no 48 have steps that never shrink, so all but the top go up
    assert [row.pitches for row in rows.rows] == [3, 5, 6, 7, 8, 9, 10]
    assert "steps_shrink" in {concern.code for concern in piece.concerns}
    assert rules(piece)["side height of row 1"] == "61 = 12 first offset + 9 last offset + 2 x 20 pitch"


@pytest.mark.parametrize(
    ("place", "edits", "said"),
    [
        ("", (("height: 151", "height: 150"),), "leave 1 of the clear height over"),
        ("", (("height: 151", "height: 150"),), "1 lower or 19 higher"),
        ("leg", (("height: 151", "height: 150"), TWO, ("    1: 2\n", "    7: 2\n")), "banks leave different amounts"),
        ("leg", (("height: 1300", "height: 1150"), (LEGS, "")), "There are no legs to take up"),
    ],
)
def test_what_is_left_over_and_has_no_place_is_said_with_what_would_do(place, edits, said):
    jig = JIG % place if place else "jig: {pitch: 20, clearance: 3}\n"
    with pytest.raises(DesignError, match=r"jig, pitch: ") as refusal:
        chest(("rows:\n", f"{jig}rows:\n"), *edits)
    assert said in str(refusal.value)


# As built


def test_measured_openings_stand_beside_the_plan_and_what_follows_takes_them():
    piece = with_jig("leg", ("legs:\n", "as built: [{openings: {3: 122.4}, width: 479.4}]\nlegs:\n"))
    third = piece.rows.rows[2]
    assert (third.opening, third.built, third.stands) == (123, F(1224, 10), F(1224, 10))
    assert piece.rows.rows[3].stands == piece.rows.rows[3].opening == 143
    assert rules(piece)["row 3 as built, over its plan"] == "-0.6 = 122.4 as built - 123 planned"
    assert rules(piece)["room over the side of row 3"] == "2.4 = 122.4 as built - 120 side"
    assert piece.rows.rows[0].widths == (F(2307, 10),) * 2  # (479.4 - 18) / 2
    assert piece.rows.rows[6].widths == (F(4794, 10),)
    assert printed(piece)["width inside row 1"] == "230.7 + 18 + 230.7 = 479.4"
    assert printed(piece)["height of the case"] == "21 + 1001 + 108 + 19 = 1149"  # the plan stays


def test_a_side_that_no_longer_goes_in_is_a_concern():
    piece = with_jig("leg", ("legs:\n", "as built: [{openings: {3: 119.5}}]\nlegs:\n"))
    (concern,) = [concern for concern in piece.concerns if concern.code == "side_too_high"]
    assert "row 3 was built no higher than its drawer side of 120" in concern.reason


# Rules


@pytest.mark.parametrize(
    ("rule", "said", "expected"),
    [
        ("rule: constant step\n  first: 83", "constant step from 83", range(83, 204, 20)),
        ("rule: constant step\n  last: 203", "constant step to 203", range(83, 204, 20)),
        ("rule: constant step\n  first: 203\n  order: bottom to top", "constant step from 203, bottom to top",
         range(83, 204, 20)),
        ("rule: constant step\n  step: 40\n  least top: 83", "constant step of 40, none below 83", range(83, 204, 20)),
        ("rule: weights\n  weights: [83, 103, 123, 143, 163, 183, 203]",
         "weights 83 : 103 : 123 : 143 : 163 : 183 : 203",
         range(83, 204, 20)),
    ],
)  # fmt: skip
def test_a_rule_may_be_given_by_any_of_its_numbers(rule, said, expected):
    piece = chest(("rule: constant step\n  step: 20", rule))
    assert piece.rows.rule == said
    assert heights(piece) == list(expected)
    assert not [concern for concern in piece.concerns if concern.code == "not_used"]


def test_an_opening_that_closes_under_the_least_top_is_said():
    # 600 in 5 rows, none below 83: ideal 83, 101.5, 120, 138.5, 157; closed with steps that never shrink
    bare = (("height: 1300", "height: 712"), ("number: 7", "number: 5"), (LEGS, ""))
    piece = chest(*bare, ("step: 20", "step: 40\n  least top: 83"))
    assert [float(row.ideal) for row in piece.rows.rows] == [83, 101.5, 120, 138.5, 157]
    assert sum(heights(piece)) == 600
    (concern,) = [concern for concern in piece.concerns if concern.code == "least_top_missed"]
    assert concern.number == str(heights(piece)[0])
    assert heights(piece)[0] < 83


def test_a_number_that_the_rule_does_not_go_by_is_said():
    piece = chest(("rule: constant step", "rule: equal"))
    (concern,) = [concern for concern in piece.concerns if concern.code == "not_used"]
    assert str(concern).startswith("step: the rows give it, but the rule 'equal' does not go by it.")
