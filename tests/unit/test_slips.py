"""What if a cut slips: who can still take it up. Heights are those of the demo pieces, worked by hand.

The chest: 20 + 83 ... 203 + 6 x 18 + 20 on legs of 151 make 1300; its drawer sides are cut by a jig in
whole pitches of 20 with 3 over them. The cabinet: two banks of six openings of 48 between webs of 12 and
boards of 15, no legs and no jig.
"""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest
from faults import METRIC, edited

from furnlib.base.guards import DesignError
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.plan.slips import WORK, members_of, take_up

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
DEMOS = ["landing_chest", "landing_chest_inch", "low_media_case", "low_media_case_inch"]
CABINETS = ["abrasive_cabinet", "abrasive_cabinet_inch"]
SHRINK = "the steps from row to row would shrink"


def demo(name):
    return read_piece(DESIGNS / f"{name}.yaml")


@pytest.fixture(scope="module")
def chest():
    return demo("landing_chest")


@pytest.fixture(scope="module")
def cabinet():
    return demo("abrasive_cabinet")


def made(text):
    return piece_of(DesignText.parse(text))


def by_name(taken):
    return {one.name: one for one in taken}


def lasts(taken):
    return [one.name for one in taken if one.last]


def room(over):
    return f"its sides come in whole pitches, and {over} is left over them in place of 3"


# Members


def test_the_members_of_the_chest_in_the_order_of_work(chest):
    assert [(member.name, member.size) for member in members_of(chest)] == [
        ("top", 20),
        ("bottom", 20),
        *[(f"divider {number}", 18) for number in range(1, 7)],
        *[(f"opening of row {number}", 63 + 20 * number) for number in range(1, 8)],
        ("legs", 151),
    ]
    works = [WORK.index(member.work) for member in members_of(chest)]
    assert works == sorted(works)


@pytest.mark.parametrize("name", DEMOS + CABINETS)
def test_the_members_of_every_bank_add_up_to_the_whole(name):
    piece = demo(name)
    members, banks = members_of(piece), {bank.number for bank in piece.banks if bank.rows}
    for bank in banks:
        height = sum(member.size for member in members if member.bank in (0, bank))
        assert height == piece.design.overall.height
    assert {member.bank for member in members} == {0} | banks


def test_members_of_several_banks_say_which(cabinet):
    names = [member.name for member in members_of(cabinet)]
    assert names[:3] == ["top", "bottom", "divider 1, bank 1"]
    assert names[-1] == "opening of row 6, bank 2"
    assert len(names) == len(set(names)) == 2 + 2 * (5 + 6)


def test_rails_are_members_where_there_are_any_with_what_the_jig_leaves_over():
    # inside 1300 - 151 - 40 = 1109, less 108, a rail of 30 and 7 x 3: 950 = 47 x 20 + 10 for the bottom rail
    rails = edited(METRIC, ("divider: 18", "divider: 18\n  top rail: 30"))
    piece = made(rails + "jig: {pitch: 20, clearance: 3, leftover: bottom rail}\n")
    assert [(member.name, member.size) for member in members_of(piece)[-3:]] == [
        ("top rail", 30),
        ("bottom rail", 10),
        ("legs", 151),
    ]


# Who takes it up


def test_a_top_that_is_1_too_thick(chest):
    taken = by_name(take_up(chest, "top", 1))
    assert all(one.can for one in taken.values())
    assert [taken[name].becomes for name in ("bottom", "divider 1", "opening of row 1", "legs")] == [19, 17, 82, 150]
    assert taken["divider 6"].why == "it would not match the other dividers"
    assert taken["opening of row 1"].why == f"{room(2)}; {SHRINK}"  # 82 103 123: by 21, then by 20
    assert taken["opening of row 7"].why == f"{room(2)}; {SHRINK}"  # 183 202: by 19
    assert taken["legs"].why == "all 4 legs alike"
    assert lasts(taken.values()) == ["legs"]


def test_a_step_that_grows_is_not_said_to_shrink(chest):
    # 203 becomes 203.5, so the last step is 20.5; a first opening of 83.5 makes steps of 19.5 and 20
    taken = by_name(take_up(chest, "bottom", -0.5))
    assert taken["opening of row 7"].why == taken["opening of row 1"].why == room("3.5")
    assert SHRINK in taken["opening of row 2"].why  # 103.5 between 83 and 123: 20.5, then 19.5


HELD = [
    # slip of the bottom, what becomes of 203, can, why; the side is 200
    (F("2.9"), F("200.1"), True, f"{room('0.1')}; {SHRINK}"),
    (3, 200, False, "its sides come in whole pitches, 200, and would have no room"),
    (5, 198, False, "its sides come in whole pitches, 200, and would have no room"),
    (F("-2.9"), F("205.9"), True, room("5.9")),
    (-3, 206, False, room(6)),
]


@pytest.mark.parametrize(("slip", "becomes", "can", "why"), HELD)
def test_an_opening_on_the_pitch_of_a_jig_gives_no_more_than_its_room(chest, slip, becomes, can, why):
    one = by_name(take_up(chest, "bottom", slip))["opening of row 7"]
    assert (one.size, one.becomes, one.can, one.why) == (203, becomes, can, why)


def test_what_comes_before_cannot_take_it_up(chest):
    names = [one.name for one in take_up(chest, "opening of row 5", 0.5)]
    assert names == ["opening of row 6", "opening of row 7", "drawer sides of row 5", "legs"]
    assert take_up(chest, "legs", 2) == ()


def test_the_drawer_of_an_opening_that_slipped_has_to_live_with_it(chest):
    for slip, can, why in ((F("-0.6"), True, room("2.4")), (-3, False, "whole pitches, 140, and would have no room")):
        sides = by_name(take_up(chest, "opening of row 4", slip))["drawer sides of row 4"]
        assert (sides.work, sides.size, sides.becomes, sides.can) == ("drawer sides", 140, 140, can)
        assert sides.why.endswith(why)


def test_a_divider_as_thick_as_the_slip_leaves_nothing():
    piece = made(edited(METRIC, ("divider: 18", "divider: 18\n  dividers: [2, 2, 2, 2, 2, 3]")))
    taken = by_name(take_up(piece, "top", 2))
    assert (taken["divider 5"].can, taken["divider 5"].why) == (False, "nothing would be left of it")
    assert (taken["divider 6"].can, taken["divider 6"].becomes, taken["divider 6"].why) == (True, 1, "")


def test_without_a_jig_the_drawer_is_cut_to_what_came_out_and_nothing_hinders_an_opening():
    piece = made(METRIC)
    taken = by_name(take_up(piece, "opening of row 6", 5))
    assert (taken["opening of row 7"].becomes, taken["opening of row 7"].why) == (198, SHRINK)  # after 188
    sides = taken["drawer sides of row 6"]
    assert (sides.size, sides.becomes, sides.can) == (183, 188, True)
    assert sides.why == "they are cut to the opening as it came out"


def test_a_rail_takes_up_what_it_has_and_no_more():
    piece = made(edited(METRIC, ("divider: 18", "divider: 18\n  bottom rail: 2")))
    for slip, can, becomes in ((F("1.5"), True, F("0.5")), (2, False, 0)):
        rail = by_name(take_up(piece, "opening of row 3", slip))["bottom rail"]
        assert (rail.can, rail.becomes, rail.work) == (can, becomes, "rails")


def test_without_legs_the_last_that_can_is_an_opening_or_a_rail():
    text = METRIC[: METRIC.index("legs:")]
    assert lasts(take_up(made(text), "divider 2", 1)) == ["opening of row 7"]
    railed = made(edited(text, ("divider: 18", "divider: 18\n  bottom rail: 9")))
    assert lasts(take_up(railed, "divider 2", 1)) == ["bottom rail"]
    assert lasts(take_up(railed, "divider 2", 10)) == ["opening of row 7"]


def test_an_opening_that_is_built_cannot_give_any_more():
    text = METRIC + "as built:\n  - {openings: {6: 182.4}}\n"
    taken = by_name(take_up(made(text), "opening of row 5", 1))
    assert (taken["opening of row 6"].can, taken["opening of row 6"].why) == (False, "it is built already, 182.4 high")
    assert taken["opening of row 7"].can


def test_a_case_on_five_legs_beside_an_open_bay():
    legs = by_name(take_up(demo("low_media_case_inch"), "divider 1", F(1, 16)))["legs"]
    assert (legs.size, legs.becomes, legs.can, legs.why) == (7, F(111, 16), True, "all 5 legs alike")


# Banks


def test_a_slip_in_one_bank_stays_in_it(cabinet):
    taken = take_up(cabinet, "divider 2, bank 2", 0.5)
    assert [one.name for one in taken[:3]] == [f"divider {number}, bank 2" for number in (3, 4, 5)]
    assert {one.name.partition(", ")[2] for one in taken} == {"bank 2"}
    assert lasts(taken) == ["opening of row 6, bank 2"]


def test_a_board_that_all_banks_share_asks_as_much_of_each(cabinet):
    taken = by_name(take_up(cabinet, "top", F(1, 2)))
    assert (taken["bottom"].becomes, taken["bottom"].why) == (F(29, 2), "")
    for bank in (1, 2):
        one = taken[f"opening of row 6, bank {bank}"]
        assert (one.becomes, one.can) == (F(95, 2), True)
        assert one.why == f"{SHRINK}; each bank has to take up as much"


def test_legs_under_two_banks_cannot_help_one_of_them():
    bays = "divider: 18\n  partition: 20\n  bays: [{width: 200}, {open: no}]"
    piece = made(edited(METRIC, ("divider: 18", bays), ("1: 2", "1: 1")))
    legs = by_name(take_up(piece, "opening of row 2, bank 1", 1))["legs"]
    assert (legs.can, legs.why) == (False, "the bank beside it holds the case to its height")
    assert by_name(take_up(piece, "bottom", 1))["legs"].can


# For every member


@pytest.mark.parametrize("name", DEMOS + CABINETS)
def test_whatever_takes_a_slip_up_brings_the_whole_back_to_plan(name):
    piece = demo(name)
    members = {member.name: member for member in members_of(piece)}
    for slipped in members.values():
        for slip in (slipped.size / 7, -slipped.size / 50):
            taken = take_up(piece, slipped.name, slip)
            for one in taken:
                if one.name in members:
                    assert one.size == members[one.name].size
                    assert one.becomes + slip == one.size
                    assert one.can or one.why
                    assert WORK.index(one.work) >= WORK.index(slipped.work)
            can = [one.name for one in taken if one.can]
            assert lasts(taken) == can[-1:]
            places = [WORK.index(one.work) for one in taken]
            assert places == sorted(places)


def test_a_slip_of_nothing_changes_nothing(chest):
    for one in take_up(chest, "divider 4", 0):
        assert (one.becomes, one.can) == (one.size, True)


def test_a_slip_is_read_to_the_last_figure(chest):
    assert take_up(chest, "divider 6", 0.6) == take_up(chest, "divider 6", F(3, 5))


# What is refused


def test_a_member_that_is_not_there(chest):
    with pytest.raises(DesignError, match=r"called 'divder 4'; did you mean 'divider 4'\?"):
        take_up(chest, "divder 4", 1)
    with pytest.raises(DesignError, match=r"called 'drawers'; what can stand there: bottom, divider 1,"):
        take_up(chest, "drawers", 1)


@pytest.mark.parametrize("slip", [18, -18, 30])
def test_a_slip_as_large_as_the_member(chest, slip):
    with pytest.raises(
        DesignError, match=rf"slip is {abs(slip)}, and divider 4 is no more than 18; make that part again"
    ):
        take_up(chest, "divider 4", slip)


@pytest.mark.parametrize("slip", [float("nan"), float("inf"), "1", None])
def test_a_slip_that_is_no_number(chest, slip):
    with pytest.raises(DesignError, match="it must be an ordinary number"):
        take_up(chest, "divider 4", slip)


def test_a_stool_has_no_such_members():
    stool = demo("stool_three_legs")
    for ask in (lambda: members_of(stool), lambda: take_up(stool, "legs", 1)):
        with pytest.raises(DesignError, match="has no case and no drawers"):
            ask()
