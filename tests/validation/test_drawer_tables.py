"""Drawer parts and dovetails as makers work them out on an offcut.

Sources: the parts tables of three invented pieces, drawn up with pencil and subtraction before furnlib had these rooms
(common practice, no source); slopes of dovetails in degrees and their marking by run and rise, from memory of bench
handbooks.
"""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction as F

import pytest

from furnlib.base.terms import total
from furnlib.trade.drawer.dovetail import hand_layout, jig_layout
from furnlib.trade.drawer.parts import Making, Opening, drawer_parts, inside

CHEST = Making(F(20), F(12), F(12), F(8), F(6), F(10), F(6), side_gap=F(1), back_gap=F(10), lap=F(6))


def parts(*drawer):
    return {part.name: (total(part.length), total(part.width)) for part in drawer_parts(*drawer)}


@pytest.mark.parametrize(
    ("opening", "side", "pitches", "back"),
    [
        (83, 80, 4, 64),
        (103, 100, 5, 84),
        (123, 120, 6, 104),
        (143, 140, 7, 124),
        (163, 160, 8, 144),
        (183, 180, 9, 164),
        (203, 200, 10, 184),
    ],
)
def test_a_tall_chest_of_seven_rows(opening, side, pitches, back):
    """Case 380 deep, back panel 10, back room 10; front 20 with sides let in 14; groove 10 up, tongue 6, bottom 8.

    380 - 10 - 10 - 6 = 354. The bottom: sides' ends at 360 from the face, less the front's 20, and 6 in its groove.
    """
    drawer = parts(Opening(F(480), F(opening), F(380) - 10), CHEST, F(side), F(opening) - 2)
    assert CHEST.let_in == 14
    assert drawer["side"] == (354, side)
    assert drawer["back"] == (478, back)
    assert drawer["bottom"][1] == 346
    assert len(jig_layout(F(side), F(20), F(6), CHEST.let_in).tails) == pitches


def test_its_small_drawers_over_it():
    """Two of 231 beside a divider of 18, under the same front lines."""
    assert 231 + 18 + 231 == 480
    assert parts(Opening(F(231), F(83), F(370)), CHEST, F(80), F(81))["back"] == (229, 64)


def test_a_low_case_with_hand_cut_corners():
    """Four tails on a side of 4 1/8 in: half pins 3/8, gaps 1/4, tails 21/32; marks from the upper edge in 32nds."""
    layout = hand_layout(F(33, 8), 4, F(3, 8), F(1, 4), F(1, 2))
    marks = [32 * place for tail in layout.tails for place in tail]
    assert marks == [12, 33, 41, 62, 70, 91, 99, 120]
    assert 32 * layout.height - marks[-1] == 12


def test_trays_for_abrasive_sheets():
    """Openings 48 high; trays for sheets of 9 x 11 in: 240 by 290 clear, so 259 by 324 with sides of 9 and rooms of 7.

    240 + 2 x 9 + 2 x 0.5 = 259; 7 back room + 9 back + 290 + 18 front = 324.
    """
    tray = Making(F(18), F(9), F(9), F(4), F(4), F(5), F(4), F(1, 2), F(7), lap=F(6), bottom="sheet", end_play=F(1, 2))
    opening = Opening(F(259), F(48), F(324))
    free = inside(opening, tray, F(45))
    assert (total(free.width), total(free.depth), total(free.height)) == (240, 290, 36)
    assert total(free.width) >= 9 * F("25.4")
    assert total(free.depth) >= 11 * F("25.4")
    drawer = parts(opening, tray, F(45), F(46))
    # 324 - 7 - 6; 259 - 1; 45 - 9; 240 + 8 - 1; 290 + 9 + 4
    assert drawer["side"] == (311, 45)
    assert drawer["back"] == (258, 36)
    assert drawer["bottom"] == (247, 303)


def test_a_housed_back_is_shorter_by_what_the_housings_leave():
    """Common practice: sides of 12 with housings 4 deep leave 8 on each side: 478 - 16."""
    housed = replace(CHEST, back="housed", housing_depth=F(4), side_tail=F(15))
    assert parts(Opening(F(480), F(203), F(370)), housed, F(200), F(201))["back"] == (462, 184)


@pytest.mark.parametrize(("run", "degrees"), [(6, 9.5), (7, 8.1), (8, 7.1)])
def test_slopes_in_degrees(run, degrees):
    # from memory of bench handbooks: 1 in 6 is nine and a half degrees, 1 in 8 about seven
    (start, _), _, _, (root, depth) = hand_layout(F(4), 3, F(1, 4), F(1, 4), F(1, 2), F(1, run)).tail_outlines[0]
    assert math.degrees(math.atan2(root - start, depth)) == pytest.approx(degrees, abs=0.05)
