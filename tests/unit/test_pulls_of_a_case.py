"""Pull lines of a case and the holes of its fronts, found again in the room of the whole bank."""

from __future__ import annotations

import re
from fractions import Fraction as F

import pytest
from strained import edited_piece
from test_front_runs import CHEST, CHEST_INCH, LOW, MEASURED, OVERLAY, TRAYS

from furnlib.base.guards import DesignError
from furnlib.plan.sizes.front_runs import fronts_seen
from furnlib.plan.sizes.pulls import bank_lines, opening_lefts

BAR = (r"\n  base: .*", r"\n  base: 12\n  spacing: 96\n  raised: 1/10")
THIRDS = (r"row: 1 .*", "shares: [1/3, 2/3]")


def lines_of(made):
    return [bank_lines(made.design, bank) for bank in made.banks]


@pytest.mark.parametrize(
    ("edits", "lines"),
    [
        ((CHEST,), [F("115.5"), F("364.5")]),  # the middles of 231 + 18 + 231
        ((CHEST_INCH,), [4 + F(7, 16), 14 + F(1, 16)]),
        ((CHEST, THIRDS), [160, 320]),
        ((CHEST, MEASURED), [(F("478.8") - 18) / 4, F("478.8") - (F("478.8") - 18) / 4]),
        ((CHEST, MEASURED, THIRDS), [F("159.6"), F("319.2")]),  # shares of the width as it was built
    ],
)
def test_lines_of_a_bank_by_hand(edits, lines):
    (found,) = lines_of(edited_piece(*edits))
    assert list(found) == lines


def test_an_open_bay_has_no_lines_and_each_bank_counts_from_its_own_inside():
    assert lines_of(edited_piece(LOW)) == [(230,), ()]
    assert lines_of(edited_piece(TRAYS)) == [(131,), (131,)]
    made = edited_piece(CHEST)
    assert [opening_lefts(made.design, row) for row in made.rows.rows] == [(0, 249), *[(0,)] * 6]


@pytest.mark.parametrize(
    "edits", [(CHEST,), (CHEST, BAR), (CHEST_INCH,), (TRAYS, BAR), (CHEST, OVERLAY), (CHEST, MEASURED)]
)
def test_every_hole_stands_on_a_line_of_its_bank_at_the_height_that_was_asked_for(edits):
    made = edited_piece(*edits)
    pulls = made.design.pulls
    for bank in made.banks:
        lines = bank_lines(made.design, bank)
        drawers = [drawer for drawer in made.drawers if drawer.bank == bank.number]
        patterns = [pattern for drawer in drawers for pattern in drawer.patterns]
        for front, pattern in zip(fronts_seen(made.design, bank, made.drawers), patterns, strict=True):
            crossing = [line for line in lines if front.left < line < front.left + front.width]
            ways = (-1, 1) if pulls.spacing else (0,)
            assert [front.left + hole for hole in pattern.from_left] == [
                line + way * pulls.spacing / 2 for line in crossing for way in ways
            ]
            assert pattern.from_lower == front.height * (F(1, 2) + pulls.raised)
            assert pattern.hole_diameter == pulls.hole_diameter
        crossed = {front.name for front in fronts_seen(made.design, bank, made.drawers)}
        assert crossed == {pattern.name for pattern in patterns}


def test_a_screw_passes_all_wood_of_the_front():
    assert {p.screw_length for d in edited_piece(CHEST).drawers for p in d.patterns} == {20 + 12}
    assert {p.screw_length for d in edited_piece(CHEST, OVERLAY).drawers for p in d.patterns} == {20 + 14 + 12}


def test_without_pulls_nothing_is_drilled():
    made = edited_piece(re.sub(r"pulls:.*\n(  .*\n)+", "", CHEST))
    assert {drawer.patterns for drawer in made.drawers} == {()}
    assert lines_of(made) == [()]


@pytest.mark.parametrize(
    ("edit", "message"),
    [
        ((r"row: 1 .*", "row: 2"), r"pulls: No pull line crosses row 1, drawer 1"),
        ((r"row: 1 .*", "row: 8"), r"pulls: Row 8 is not there; the rows run from 1 to 7"),
        ((r"  row: 1 .*\n", ""), r"pulls: Say where the pulls stand"),
        ((r"row: 1 .*", "row: 1\n  shares: [1/2]"), r"pulls: Say where the pulls stand"),
        ((r"row: 1 .*", "shares: [5/4]"), r"pulls: A pull at .* of the width stands outside it"),
        ((r"row: 1 .*", "shares: [1/2]"), r"pulls: No pull line crosses row 1, drawer 1"),
        ((r"hole: 4.5", "hole: 4.5\n  spacing: 228"), r"pulls: A hole of row 1, drawer 1.*breaks out"),
        ((r"hole: 4.5", "hole: 4.5\n  raised: 3/5"), r"pulls: The share by which a pull is raised is .*0\.6"),
    ],
)
def test_pulls_that_cannot_be_are_refused_with_their_place(edit, message):
    with pytest.raises(DesignError, match=message):
        edited_piece(CHEST, edit)
