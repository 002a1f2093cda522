"""The season and the slots under the hand: moved, refused, kept.

Sums as in `test_season_band` and `test_slot_strip`: cherry 0.00248 for 1 % flat-sawn, 0.00126 quarter-sawn.
"""

from __future__ import annotations

import random

import pytest
from leg_shapes import on_square_legs
from live_hand import ROOT, controls, design_file, drawn, ends, put, seen

from furnlib.base.guards import DesignError
from furnlib.live.seasons import live_season, live_slots
from furnlib.plan.piece import read_piece

SHOP, DRY, DAMP = "Shop moisture, %", "Driest moisture, %", "Dampest moisture, %"
RINGS, SIDES, GAP = "Rings of the fronts", "Rings of the sides", "Gap at the dampest"
HOLE, FIRST, LAST = "Round hole", "Slot 1", "Slot 2"


def chest(folder, unit="mm", *changes):
    """The demo on square legs: the same drawers, drawn quicker."""
    path = design_file(folder, unit, *changes)
    path.write_text(on_square_legs(path.read_text("utf-8")), "utf-8")
    return path


def gaps(view):
    """Over the front of row 7: today, at the dampest, at the driest."""
    found = view.piece.drawers[-1].fit.front_gaps
    return found.now, found.damp, found.dry


def test_what_there_is_to_move(tmp_path):
    path = chest(tmp_path)
    assert list(controls(live_season(path))) == [SHOP, DRY, DAMP, RINGS, SIDES, GAP]
    assert list(controls(live_slots(path))) == [HOLE, FIRST, LAST, SHOP, DRY, DAMP]
    by_air = chest(tmp_path, "mm", ("damp: 12 ", "damp: {temperature: 23, humidity: 62} "))
    assert list(controls(live_season(by_air)))[2] == "Dampest humidity, %"


def test_the_gap_of_today_follows_the_season(tmp_path):
    """Today's gap is what is wanted at the dampest, and the growth until then of a front that just leaves it."""
    view = live_season(chest(tmp_path))
    put(controls(view)[DAMP], "14")
    put(controls(view)[RINGS], "quarter-sawn")
    put(controls(view)[GAP], "1.5")
    front = (203 - 1 - 1.5) / (1 + 0.00126 * 6)
    assert gaps(view)[1] == pytest.approx(1.5, abs=0.11)  # a front is cut to a tenth, never too high
    assert gaps(view)[0] == pytest.approx(202 - front, abs=0.1)
    assert "14 % at the dampest" in seen(view)[1]


def test_below_six_per_cent_the_page_says_that_the_law_changes(tmp_path):
    view = live_season(chest(tmp_path))
    assert "shrinkage law" not in seen(view)[0]
    put(controls(view)[DRY], "5")
    assert "shrinkage law, outside 6 to 14 %" in seen(view)[0]


def test_a_dampest_below_the_driest_is_said_and_the_picture_stays(tmp_path):
    view = live_season(chest(tmp_path))
    before = seen(view)[0]
    put(controls(view)[DAMP], "6")
    assert seen(view)[0] == before
    assert seen(view)[1].startswith("Not drawn: ")
    assert "change the two round" in seen(view)[1]


def test_slots_follow_the_hand(tmp_path):
    """300 from the round hole; half way between 7 and 12 the screw is in the middle."""
    view = live_slots(chest(tmp_path))
    assert view.piece.strip.slots[-1].off_middle == pytest.approx(-300 * 0.00248 * 1.5)
    put(controls(view)[SHOP], "9.5")
    assert view.piece.strip.slots[-1].off_middle == pytest.approx(0, abs=1e-9)
    put(controls(view)[HOLE], "100")
    put(controls(view)[LAST], "300")
    assert view.piece.strip.slots[-1].length == pytest.approx(200 * 0.00248 * 5 + 4.6 + 1)
    assert "round hole at 100" in seen(view)[1]


@pytest.mark.parametrize("unit", ["mm", pytest.param("in", marks=pytest.mark.slow)])
def test_what_is_kept_is_read_again_and_what_is_taken_back_leaves_the_file(tmp_path, unit):
    path = chest(tmp_path, unit)
    before = path.read_bytes()
    season, slots = live_season(path), live_slots(path)
    for view in (season, slots):
        old = controls(view)[DRY].value
        put(controls(view)[DRY], "6")
        put(controls(view)[DRY], str(old))
        view.keep()
    assert path.read_bytes() == before
    put(controls(season)[RINGS], "rift-sawn")
    put(controls(season)[SHOP], "9")
    season.keep()
    put(controls(slots)[LAST], 0)
    slots.keep()
    kept = read_piece(path)
    assert kept.season.woods["front"].ring_angle_deg == 45
    assert kept.season.now == 9
    assert kept.strip.places == slots.piece.strip.places
    assert len(path.read_text("utf-8").splitlines()) == len(before.splitlines())


@pytest.mark.parametrize("opened", [live_season, pytest.param(live_slots, marks=pytest.mark.slow)])
def test_hands_that_go_anywhere(tmp_path, opened):
    view, chance, count = opened(chest(tmp_path)), random.Random(4), 0
    for _ in range(12):
        control = chance.choice(list(controls(view).values()))
        before = seen(view)[0]
        put(control, chance.choice(ends(control) if hasattr(control, "options") else range(len(control.labels))))
        count += drawn(view)
        assert drawn(view) or seen(view)[0] == before
    assert count > 3


@pytest.mark.parametrize(
    ("opened", "name", "words"),
    [
        (live_season, "seven_openings", "add 'drawers:'"),
        (live_slots, "seven_openings", "add 'strips:'"),
        (live_season, "practice_stool", "has no case"),
        (live_slots, "practice_stool", "has no case"),
    ],
)
def test_a_file_without_them_is_refused(opened, name, words):
    with pytest.raises(DesignError, match=words):
        opened(ROOT / "notebooks" / "designs" / f"{name}.yaml")
