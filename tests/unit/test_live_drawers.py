"""A drawer under the hand: what each control moves, what is refused, what is kept; and how it hangs when it is open.

The expected sizes are subtractions done here; the nod is turned by small steps, as in the lesson's own tests.
"""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import pytest
from live_hand import DESIGNS, PRACTICE, ROOT, controls, drawn, ends, put, seen
from test_lessons_drawer import turned_until_it_meets
from test_one_leg_plate import CLEAR, faults

from furnlib.base.guards import DesignError
from furnlib.live.drawers import live_drawer, live_droop

FOLDER = ROOT / "notebooks" / "designs"
NAMES = ("landing_chest", "low_media_case_inch")
MAKING = ["Back room", "Lap", "Side thickness", "Groove up", "Groove depth", "Side gap", "Back drop"]
HANGING = ["Pulled out", "Gap to the kicker", "Side gap", "Friction"]
KICKER, NO_KICKER = "Gap to the kicker", "{carried: runners, no kicker: {1: 60}}"


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "chest.yaml"
    path.write_text(DESIGNS["mm"].read_text("utf-8"), "utf-8")
    return path


@pytest.fixture
def view(file):
    return live_drawer(file, 7)


@pytest.fixture
def opened(file):
    return live_droop(file, 7)


def words(view):
    return [text.strip() for text in ElementTree.fromstring(seen(view)[0]).itertext() if text.strip()]


def part(view, name):
    """Length and width of a part, as its drawer has them."""
    made = next(drawer for drawer in view.piece.drawers if drawer.row == 7).part(name)
    return made.length.value, made.width.value


def test_at_rest_it_shows_what_the_file_holds(view):
    assert list(controls(view)) == MAKING
    assert [controls(view)[name].shown for name in MAKING] == ["10", "6", "12", "10", "6", "1", "0"]
    assert "= 370 - 10 back room - 6 lap" in words(view)
    assert repr(view) == "<Live view of drawer, Landing chest>"


@pytest.mark.parametrize(
    ("name", "to", "changed"),
    [
        # 380 - 10 - back room - 6; front to back 380 - 10 - back room - 20 + 6
        ("Back room", "4", {"side": (360, 200), "bottom": (465, 352)}),
        ("Lap", "9", {"side": (351, 200)}),
        # 478 - 2 x 14 + 12 - 1
        ("Side thickness", "14", {"bottom": (461, 346)}),
        # 200 - 13 - 6
        ("Groove up", "13", {"back": (478, 181)}),
        # 478 - 24 + 2 x 5 - 1; 340 + 5
        ("Groove depth", "5", {"bottom": (463, 345)}),
        ("Side gap", "2", {"front": (476, 199), "back": (476, 184), "bottom": (463, 346)}),
        ("Back drop", "2", {"back": (478, 182)}),
    ],
)
def test_each_control_moves_its_own_sizes_and_no_other(view, name, to, changed):
    before = {part_name: part(view, part_name) for part_name in ("front", "side", "back", "bottom")}
    put(controls(view)[name], to)
    assert drawn(view)
    assert {part_name: part(view, part_name) for part_name in before} == {**before, **changed}


@pytest.mark.parametrize(
    ("name", "to", "said"),
    [
        ("Lap", "20", "The lap is 20"),
        ("Groove depth", "12", "The groove depth is 12"),
        ("Groove up", "1", "leave wood under the groove"),
    ],
)
def test_what_cannot_be_made_says_its_sentence_and_the_last_picture_stays(view, name, to, said):
    before = seen(view)[0]
    put(controls(view)[name], to)
    assert seen(view)[0] == before
    assert not drawn(view)
    assert said in seen(view)[1]
    put(controls(view)[name], "6" if name != "Groove up" else "10")
    assert drawn(view)


def test_what_was_found_is_kept_in_the_file_and_its_notes_stay(file, view):
    before = file.read_text("utf-8")
    put(controls(view)["Lap"], "7")
    put(controls(view)["Back drop"], "2")
    assert view.keep() == file
    assert file.read_text("utf-8") == before.replace("lap: 6 ", "lap: 7 ").replace(
        "joint: dovetailed}", "joint: dovetailed, drop: 2}"
    )
    assert [controls(live_drawer(file))[name].shown for name in ("Lap", "Back drop")] == ["7", "2"]


def test_a_through_corner_has_no_lap_to_move(file):
    file.write_text(re.sub(r"half-blind\n    lap: 6 .*", "through", file.read_text("utf-8")), "utf-8")
    assert list(controls(live_drawer(file))) == [name for name in MAKING if name != "Lap"]


# Pulled out


def test_it_begins_half_out_and_falls_by_its_play(opened):
    assert [controls(opened)[name].shown for name in HANGING] == ["180", "3", "1", "0.4"]
    assert "with 180 still inside, row 7 nods 3:" in seen(opened)[1]
    assert repr(opened) == "<Live view of open drawer, Landing chest>"


@pytest.mark.parametrize(("out", "play"), [(240, "3"), (270, "3"), (240, "1.5"), (300, "2")])
def test_the_nod_is_that_of_a_drawer_turned_by_small_steps(opened, out, play):
    put(controls(opened)["Pulled out"], str(out))
    put(controls(opened)[KICKER], play)
    assert f"nods {turned_until_it_meets(360, 200, out, float(play)):.1f}".removesuffix(".0") in seen(opened)[1]


def test_two_thirds_out_twice_and_three_quarters_three_times(opened):
    told = {}
    for out in ("180", "240", "270"):
        put(controls(opened)["Pulled out"], out)
        told[out] = float(re.search(r"nods ([\d.]+):", seen(opened)[1]).group(1))
    assert [round(fall / 3) for fall in told.values()] == [1, 2, 3]


def test_without_a_kicker_it_tips_out(opened):
    put(controls(opened)["Pulled out"], "270")
    put(controls(opened)[KICKER], "40")
    assert "tips out" in seen(opened)[1]
    assert {"no kicker", "tips out"} <= set(words(opened))


def test_the_lead_follows_both_side_gaps_and_the_friction_does_not_touch_it(opened):
    """m sin B + w cos B = w + play, found by halving; the lead is w sin B."""
    put(controls(opened)["Pulled out"], "240")
    for gap, wide in (("1", 478), ("2", 476)):
        put(controls(opened)["Side gap"], gap)
        low, high = 0.0, math.atan2(120, wide)
        for _ in range(60):
            turn = (low + high) / 2
            short = 120 * math.sin(turn) + wide * math.cos(turn) < wide + 2 * int(gap)
            low, high = (turn, high) if short else (low, turn)
        lead = f"leads {wide * math.sin(low):.1f}"
        for friction in ("0.25", "0.5"):
            put(controls(opened)["Friction"], friction)
            assert lead in words(opened)
            # the pulls of the chest stand 240 - 115.5 off the middle
            binds = f"less than {int(2 * float(friction) * 124.5)}"
            assert any(line.startswith("One pull") and binds in line for line in words(opened))


def test_a_kicker_is_kept_and_a_missing_one_wants_its_line(file, opened):
    before = file.read_text("utf-8")
    put(controls(opened)[KICKER], "1.5")
    opened.keep()
    assert file.read_text("utf-8") == before.replace("{carried: runners}", "{carried: runners, kicker: 1.5}")
    put(controls(opened)[KICKER], "20")
    with pytest.raises(DesignError, match="has no place for"):
        opened.keep()


def test_a_row_without_a_kicker_begins_with_what_the_file_says_and_stays_without(file):
    file.write_text(file.read_text("utf-8").replace("{carried: runners}", NO_KICKER), "utf-8")
    view = live_droop(file)
    assert controls(view)[KICKER].shown == "60"
    put(controls(view)[KICKER], "3")
    assert "no kicker" in words(view)
    view.keep()
    assert NO_KICKER.replace("60", "3") in file.read_text("utf-8")


# Both


@pytest.mark.parametrize("live", [live_drawer, live_droop])
@pytest.mark.parametrize("path", DESIGNS.values(), ids=DESIGNS)
def test_at_rest_the_words_stand_clear_and_the_picture_is_low_enough_to_stay_in_view(path, live):
    drawing = live(path, 7).drawing
    assert faults(drawing) == CLEAR
    assert drawing.size_mm[1] < 105


@pytest.mark.slow
@pytest.mark.parametrize("live", [live_drawer, live_droop])
@pytest.mark.parametrize("name", NAMES)
def test_at_both_ends_of_every_control_it_draws_clear_or_says_why_not(name, live):
    path, drawn_at = FOLDER / f"{name}.yaml", 0
    for control in controls(live(path)):
        for end in ends(controls(live(path))[control]):
            view = live(path)
            put(controls(view)[control], end)
            if drawn(view):
                assert (control, end, *faults(view.drawing)) == (control, end, *CLEAR)
                drawn_at += 1
            else:
                assert seen(view)[1].endswith(".")
    assert drawn_at >= 7


@pytest.mark.parametrize("live", [live_drawer, live_droop])
@pytest.mark.parametrize(
    ("path", "row", "said"),
    [
        (DESIGNS["mm"], 9, "landing_chest.yaml has no row 9; name one from 1 to 7."),
        (FOLDER / "tall_chest.yaml", None, "tall_chest.yaml does not say how its drawers are made"),
        (PRACTICE, None, "has no case|case"),
    ],
)
def test_a_drawer_that_is_not_there_is_said(live, path, row, said):
    with pytest.raises(DesignError, match=said):
        live(path, row)
