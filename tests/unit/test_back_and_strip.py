"""The back of a case and the strips on its sides: sheet, boards and panels, and slots, each worked by hand."""

from __future__ import annotations

import re

import pytest
from chest_of_drawers import CASE, SOUND, demo, made
from faults import edited


def sizes(found):
    return {size.name: float(size.value) for size in found.sizes}


def backed(text, *edits):
    """The back of a chest as it is described, in place of its boards."""
    whole = SOUND.replace(SOUND[SOUND.index("back:\n  kind") : SOUND.index("grain:")], f"back: {{{text}}}\n")
    return made(edited(whole, *edits))


# Backs; inside 480 wide and 1109 high


def test_a_sheet_drops_into_its_rebate():
    # 1109 + 2 x 10 - 2 x 0.5 and 480 + 20 - 1
    back = backed("kind: sheet, thickness: 6, rebate: 10, ease: 0.5").back
    assert sizes(back) == {"back, height": 1128, "back, width": 499}
    assert back.concerns == ()
    assert [size.rule for size in back.sizes][1] == "499 = 480 inside + 2 x 10 rebate - 2 x 0.5 ease"
    # it needs no season
    assert sizes(made(CASE + "back: {kind: sheet, thickness: 6}\n").back) == {"back, height": 1109, "back, width": 480}


def test_boards_fill_the_back_when_they_are_widest():
    chest = demo("landing_chest")
    found = sizes(chest.back)
    # 480 + 20 less six gaps of 0.5, over five boards of cherry that grow by 4 x 0.00248: 497 / 5.0496 = 98.424
    assert found["back board, face"] == pytest.approx(98.424, abs=1e-3)
    # today the gap is 0.5 + 98.424 x 0.00992 = 1.476, at the edges 0.5 + half of the 0.976 = 0.988
    assert found["gap between back boards"] == pytest.approx(1.476, abs=1e-3)
    assert found["gap at the back's edges"] == pytest.approx(0.988, abs=1e-3)
    # at the driest each is 0.00248 narrower: 3 + 1.476 + 0.244 = 4.720, and the tongue itself shrinks: / 0.99752
    assert found["tongue of a back board"] == pytest.approx(4.732, abs=1e-3)
    assert 5 * found["back board, face"] + 4 * found["gap between back boards"] + 2 * found[
        "gap at the back's edges"
    ] == pytest.approx(500)
    rule = {size.name: size.rule for size in chest.back.sizes}["back board, face"]
    assert re.fullmatch(r"98.4 [=≈] \(500 - 6 x 0.5 free\) / \(5 x 1.0099\d*\)", rule)
    assert chest.back.concerns == ()


def test_boards_that_leave_the_rebate_bare():
    # a rebate of 3 for an overlap of 3.2; at the edge today 0.6 + half of what a board grows, and half of what it
    # shrinks: faces (486 - 3.6) / 5.0496 = 95.53: 3.2 + 0.6 + 0.474 + 0.118 = 4.392
    chest = backed("kind: boards, thickness: 10, rebate: 3, number: 5, gap: 0.6, overlap: 3.2")
    (concern,) = chest.back.concerns
    assert concern in chest.concerns
    assert (concern.code, concern.number) == ("back_uncovered", "a rebate of 3 behind the boards")
    assert concern.reason == "at the driest the outer boards no longer cover 3.2 of it"
    assert concern.cures == ("cut the rebate 4.4 wide", "take more boards", "ask for less overlap")
    for rebate in (4.35, 4.45):  # wider by a hair it is covered
        found = backed(f"kind: boards, thickness: 10, rebate: {rebate}, number: 5, gap: 0.6, overlap: 3.2").back
        assert bool(found.concerns) == (rebate < 4.4)


def test_panels_in_a_frame():
    back = backed("kind: panel, thickness: 10, rebate: 10, ease: 0.5, number: 2, frame: 60, gap: 1, overlap: 6").back
    found = sizes(back)
    # 480 + 20 - 1 = 499 wide; three members of 60 leave 319, half of it 159.5 for each panel; 1128 - 120 high
    assert (found["back frame, width"], found["back panel, width seen"]) == (499, 159.5)
    assert (found["back, height"], found["back panel, height seen"]) == (1128, 1008)
    assert found["back panel, height"] == 1020  # along the grain: 6 at either end
    # at the driest 6 still in each groove: (159.5 + 12) / 0.99752 = 171.926
    assert found["back panel, width"] == pytest.approx(171.926, abs=1e-3)
    # at the dampest 171.926 x 1.00992 = 173.632: (173.632 - 159.5) / 2 = 7.066, and 1 stays free
    assert found["groove for the back panel"] == pytest.approx(8.066, abs=1e-3)
    assert back.concerns == ()


def test_the_media_case_in_inches():
    back = demo("low_media_case_inch")
    number, seen = back.design.back.number, sizes(back.back)["back panel, width seen"]
    # 58 1/2 + 3/4 - 1/32 = 59 7/32, less the members of 2 1/2
    assert seen == pytest.approx((59 + 7 / 32 - 2.5 * (number + 1)) / number)
    # oak, quartered, dry by 0.0018: (seen + 1/2) / 0.9982
    assert sizes(back.back)["back panel, width"] == pytest.approx((seen + 0.5) / 0.9982)


# Strips


def test_slots_of_a_strip():
    chest = demo("landing_chest")
    strip = chest.strip
    assert (strip.fixed_place, strip.places) == (40, (40, 190, 340))
    # a screw of gauge 8 is 0.060 + 8 x 0.013 = 0.164 in thick: 4.166; a tenth more clears it: 4.58, drilled 4.6
    assert strip.hole_diameter == pytest.approx(4.6)
    # 150 from the round hole: 1.488 outward when damp, 0.372 inward when dry, half a hole and 0.5 at either end
    fixed, near, far = strip.slots
    assert (near.away_end, near.toward_end) == (pytest.approx(4.288, abs=1e-3), pytest.approx(3.172, abs=1e-3))
    assert near.length == pytest.approx(7.46, abs=1e-3)
    assert far.length == pytest.approx(300 * 0.0124 + 4.6 + 1, abs=1e-3)
    assert fixed.length == pytest.approx(4.6)  # a round hole
    # the screw in the round hole has no slot
    assert [size.name for size in strip.sizes] == ["slot at 190 from the front", "slot at 340 from the front"]
    assert re.match(r"7\.5 [=≈] 3\.2 .*\+ 4\.3 ", strip.sizes[0].rule)


def test_a_slot_before_the_round_hole_opens_the_other_way():
    # the round hole behind: what swells goes to the front there
    chest = made(edited(SOUND, ("fixed: 40.5", "fixed: 340.5"), ("screws: [190, 340]", "screws: [40, 190]")))
    first, *_ = chest.strip.slots
    assert chest.strip.places == (40, 190, 340.5)
    assert first.length == pytest.approx(300.5 * 0.0124 + 4.6 + 1.4, abs=1e-3)
    # 300.5 x 0.00992 = 2.981 to the front when damp, 0.745 back when dry, each with 2.3 + 0.7
    assert (first.before, first.after) == (pytest.approx(5.981, abs=1e-3), pytest.approx(3.745, abs=1e-3))


def test_a_strip_in_inches():
    strip = demo("landing_chest_inch").strip
    # 0.164 and a tenth of it: 0.1804, drilled 3/16, the next thirty-second
    assert strip.hole_diameter == 3 / 16
    # 6 and 12 from the hole: x 0.0124, the hole and 2 x 1/64
    for slot, off in zip(strip.slots[1:], (6, 12), strict=True):
        assert slot.length == pytest.approx(off * 0.0124 + 3 / 16 + 1 / 32, abs=1e-4)


def test_a_screw_named_twice_is_one_screw():
    strip = made(edited(SOUND, ("screws: [190, 340]", "screws: [190, 40.5, 190]"))).strip
    assert strip.places == (40.5, 190)
    alone = made(edited(SOUND, ("screws: [190, 340]", "screws: []"))).strip
    assert (alone.places, alone.sizes) == ((40.5,), ())
