"""Corners of a piece's drawers: tails by the jig and by hand, worked out by hand, and where the groove comes out."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from chest_of_drawers import JIG, SOUND, TAILS, demo, made
from faults import edited


def wide(layout):
    return [tail.end - tail.start for tail in layout.tails]


def test_tails_by_the_jig():
    chest = demo("landing_chest")
    for drawer, pitches in zip(chest.drawers, range(4, 11), strict=True):
        corner = drawer.dovetails
        assert not corner.by_hand
        # a pitch of 20 less a pin of 4, the first middle half a pitch from the edge: 2 to 18, 22 to 38, ...
        assert [tuple(tail) for tail in corner.front.tails] == [(20 * i + 2, 20 * i + 18) for i in range(pitches)]
        assert corner.front.half_pins == (2, 2)
        # let in 20 - 6 = 14; at 1 in 7 a tail is 2 narrower at either edge of its root
        assert (corner.front.depth, corner.front.roots[0]) == (14, (4, 16))
        # the groove from 10 to 16 over the lower edge: in the last tail, whose root ends 4 over that edge and
        # begins 16 over it
        assert (corner.groove.where, corner.groove.tail, corner.groove.plug) == ("in a tail", pitches, None)
        assert corner.groove.room == 0


def test_the_back_takes_the_tails_that_it_reaches():
    # row 1: a back from 16 over the lower edge to the upper one, 64 high: 2 to 18, 22 to 38, 42 to 58 and of the
    # last tail from 62 only 2, less than the 2 x 12 / 7 that its root loses
    back = demo("landing_chest").drawers[0].dovetails.back
    assert (back.height, back.depth) == (64, 12)
    assert [tuple(tail) for tail in back.tails] == [(2, 18), (22, 38), (42, 58)]
    # 2.2 lower than the sides: 2.2 off each place, and what stands over the back's edge is cut: 0 to 15.8
    jig = made(JIG).drawers[0].dovetails
    # pin 4.5: tails of 15.5 from 2.25; floor 10 + 5.5: 80 - 15.5 - 2.2 = 62.3
    assert (jig.back.height, jig.back.depth) == (F(623, 10), 11)
    assert jig.back.tails[0] == (F(5, 100), F(1555, 100))  # 2.25 - 2.2, 17.75 - 2.2
    assert jig.front.depth == F(155, 10)  # 22 - 6.5


def test_tails_by_hand_in_the_media_case():
    case = demo("low_media_case_inch")
    # (h - 2 x 3/8 + 1/4) / (11/16 + 1/4): 1 7/8, 2 5/8 and 3 5/8 over 15/16 are 2, 2.8 and 3.87 tails
    # 4 1/8: (4 1/8 - 3/4 - 3 x 1/4) / 4 = 21/32; 3 1/8: (3 1/8 - 3/4 - 1/2) / 3 = 5/8; 2 3/8: 1 3/8 / 2 = 11/16
    for drawer, number, tail in zip(case.drawers, (2, 3, 4), (F(11, 16), F(5, 8), F(21, 32)), strict=True):
        corner = drawer.dovetails
        assert corner.by_hand
        assert wide(corner.front) == [tail] * number
        assert corner.front.half_pins == (F(3, 8), F(3, 8))
        assert set(corner.front.gaps) == {F(1, 4)}
        assert (corner.front.slope, corner.front.depth) == (F(1, 7), F(1, 2))  # 3/4 - 1/4


def test_the_maker_may_settle_how_many_tails():
    # a side of 79.9: (79.9 - 16 + 6.25) / 30.25 = 2.3, so two; three as settled: (79.9 - 16 - 12.5) / 3
    first, second, *_ = made(SOUND).drawers
    assert len(first.dovetails.front.tails) == 2
    settled = made(edited(SOUND, ("slope: 1/7", "slope: 1/7\n      number: {1: 3}"))).drawers
    assert wide(settled[0].dovetails.front) == [(F(799, 10) - F(57, 2)) / 3] * 3
    assert settled[1].dovetails.front == second.dovetails.front
    # where a tail would be wider than the side there is still one
    assert len(made(edited(SOUND, (" tail: 24", " tail: 400"))).drawers[0].dovetails.front.tails) == 1


def test_corners_without_tails():
    for text in (edited(SOUND, ("joint: half-blind", "joint: rebated"), (TAILS, "")), edited(SOUND, (TAILS, ""))):
        assert {drawer.dovetails for drawer in made(text).drawers} == {None}
    housed = edited(SOUND, ("drop: 2.2", "joint: housed\n    housing: 4"))
    assert {drawer.dovetails.back for drawer in made(housed).drawers} == {None}


def test_a_through_corner_shows_its_groove_in_the_front():
    text = edited(JIG, ("joint: half-blind", "joint: through"), ("    lap: 6.5\n", ""), ("up: 10", "up: 7"))
    corner = made(text).drawers[0].dovetails
    # tails as long as the front is thick; the groove 7 to 12.5 over the edge, in a root from 2.25 + 22 / 7 = 5.39
    assert (corner.front.depth, corner.groove.where) == (22, "in a tail")
    assert corner.groove.plug == (F(55, 10), F(575, 100), 22)  # as high and as deep as the groove, as long as the tail
    assert float(corner.groove.room) == pytest.approx(7 - 2.25 - 22 / 7)


def test_a_groove_that_misses_the_tails():
    # a half pin of 20: from 10 to 15.5 over the edge lies all in the pin; its hole is as deep as the side is thick
    corner = made(edited(SOUND, (" half pin: 8", " half pin: 20"))).drawers[0].dovetails
    assert (corner.groove.where, corner.groove.tail) == ("in a pin", None)
    assert corner.groove.plug == (F(55, 10), F(575, 100), 12)
    # one of 12 is crossed by it
    assert made(edited(SOUND, (" half pin: 8", " half pin: 12"))).drawers[0].dovetails.groove.where == "across"


def test_a_jig_may_begin_off_the_middle_of_its_pitch():
    # first middle 8 and last 12 from the edges: a side of k pitches has k of them: 60 + 8 + 12
    text = edited(JIG, ("clearance: 3", "clearance: 3\n  first offset: 8\n  last offset: 12"))
    front = made(text).drawers[0].dovetails.front
    assert front.tails[0] == (F(25, 100), F(1575, 100))  # 8 less and plus half of 15.5
    assert front.half_pins == (F(25, 100), F(425, 100))
