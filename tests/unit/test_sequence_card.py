"""The card for the lathe: settings and depths worked from the design alone, its order, its picture, its words."""

from __future__ import annotations

import math
import re
from functools import cache
from itertools import pairwise

import pytest
from pictures import ROOT
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on
from turned_pieces import every_layout, every_turned, size_of, turned_piece

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Dimension, Stroke, Text
from furnlib.draw.plates.sequence_card import sequence_plate, sequence_sheets
from furnlib.draw.plates.turned_groups import turned_groups
from furnlib.draw.plates.views import written
from furnlib.plan.piece import read_piece
from furnlib.trade.cautions import LATHE, STRUCTURE

FIGURE = r"[\d⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄\u202f.]+"


@cache
def plates(name):
    made = turned_piece(name)
    return [sequence_plate(made, number=number) for number, _ in enumerate(sequence_sheets(made), 1)]


def joined(plate):
    """The words of a plate in one line, folded ones with a single space."""
    return re.sub(" +", " ", " ".join(words_on(plate)))


def cards(name):
    """For each length of leg its plates: the card, and the sheets of settings after it."""
    found = []
    for plate in plates(name):
        if "the steps at the lathe" in joined(plate):
            found.append([])
        found[-1].append(plate)
    return found


def settings_on(sheets):
    """Caliper settings in the order of the card, each with its places."""
    words = [mark for plate in sheets for mark in plate.marks() if isinstance(mark, Text)]
    found = []
    for mark in words:
        if mark.bold and mark.size == "small" and re.fullmatch(f"⌀ {FIGURE}", mark.words):
            found.append((float(size_of(mark.words[2:])), []))
        elif found and re.fullmatch(f"{FIGURE}(, {FIGURE})*,?", mark.words) and not mark.bold:
            found[-1][1].extend(float(size_of(place)) for place in re.findall(FIGURE, mark.words))
        elif found and mark.words == "Cuts downhill":
            break
    return found


def cuts_on(sheets):
    """The cuts in the order of the card: diameter and place where each begins, and where it ends."""
    found = []
    for words in (words for plate in sheets for words in words_on(plate)):
        sloped = re.fullmatch(f"⌀ ({FIGURE}) at ({FIGURE}) to ⌀ ({FIGURE}) at ({FIGURE})", words)
        straight = re.fullmatch(f"⌀ ({FIGURE}) from ({FIGURE}) to ({FIGURE})", words)
        if sloped:
            found.append(tuple(float(size_of(part)) for part in sloped.groups()))
        if straight:
            size, start, end = (float(size_of(part)) for part in straight.groups())
            found.append((size, start, size, end))
    return found


# Layout


@every_layout
def test_words_stand_clear_and_every_sheet_holds_its_card(name):
    check_layout(turned_piece(name), plates(name))
    check_words(plates(name))


@pytest.mark.parametrize("name", ["three", pytest.param("chest, inch", marks=pytest.mark.slow)])
def test_the_words_of_a_whole_sheet_stand_clear(name):
    check_whole_sheets(turned_piece(name), plates(name))


def test_there_is_a_card_for_each_length_and_further_sheets_for_many_settings():
    assert [plate.name for plate in plates("three")] == ["Sequence card 1", "Sequence card 2"]
    assert [plate.name for plate in plates("plumb")] == ["Sequence card"]
    assert [len(sheets) for sheets in cards("chest")] == [1, 1]
    for sheets in cards("forty"):
        assert len(sheets) > 1
        assert "follow on the next sheet" in joined(sheets[0])
        assert all("settings and cuts at the lathe" in joined(sheet) for sheet in sheets[1:])
    square = read_piece(ROOT / "notebooks/designs/practice_stool.yaml")
    assert sequence_sheets(square) == ()
    with pytest.raises(DesignError, match="has no sequence card 1, it has 0"):
        sequence_plate(square)


# Figures


def test_the_chest_by_hand():
    # stop cut beside 40 with 0.5 to spare: (48 - 40) / 2 - 0.5 and (48 sqrt 2 - 40) / 2 - 0.5; 44 at the bead and 2 x 1
    front = joined(plates("chest")[0])
    assert f"at 42 down to ⌀ 41, 3.5 at the flat and {(48 * math.sqrt(2) - 40) / 2 - 0.5:.1f} at the corner" in front
    assert "3.5 comes off at the flat, 13.4 at the corner: here it tears" in front
    assert "Rough all that is not square to ⌀ 46 (760 turns a minute)." in front
    # each diameter and 2 x 0.5, from the bead's crown down to the neck
    foot = 151 * math.hypot(1, math.tan(math.radians(8)), math.tan(math.radians(6)))
    wanted = [(45, [46]), (41, [42, 50]), (39, [50, 70, 74]), (29, [round(foot, 1)]), (27, [60])]
    assert settings_on(plates("chest")[:1]) == wanted


def test_the_speeds_of_the_stool_by_hand():
    words = joined(plates("three")[0])
    swing = 39 * math.sqrt(2)
    assert f"⌀ {swing:.1f}, go round at {math.pi * swing / 1000 * 760 / 60:.1f} m/s" in words
    for name, turns in (("roughing", "760"), ("general", "1600"), ("finishing", "2480")):
        assert words_on(plates("three")[0])[words_on(plates("three")[0]).index(name) + 1] == turns
    # the tenon 25 is thinner than all but the foot, 22: 420 / cos R + 40 / cos R over 22
    share = math.hypot(1, math.tan(math.radians(8)), math.tan(math.radians(14)))
    assert f"The leg is {460 * share / 22:.1f} times as long as it is thin: a steady must hold its middle" in words
    whirling = turned_piece("three").legs[0].turned.whirling_rpm
    assert f"whirl at about {round(whirling, -3):.0f} turns a minute" in words
    assert f"is {2480 / whirling:.1f} of that, well below" in words
    own = joined(plates("own speed")[0])
    assert "finishing, own 900" in own
    assert "light finishing cuts (900 turns a minute)" in own
    assert f"is {900 / whirling:.2f} of that" in own
    assert "names no wood, so its whirling speed is not told" in joined(plates("four")[0])


def test_the_stress_of_the_stool_by_hand():
    # 27 kg upward and 10 kg level at the foot, 436.9 along the axis below a tenon of 25
    share = math.hypot(math.tan(math.radians(8)), math.tan(math.radians(14)))
    lean, arm = math.atan(share), 420 * math.hypot(1, share)
    stress = 9.80665 * (27 * math.sin(lean) + 10 * math.cos(lean)) * arm / (math.pi * 25**3 / 32)
    words = joined(plates("three")[0])
    at = 40 * math.hypot(1, share)  # from the top end like every place on the card: as long as the tenon
    assert f"bent most at {at:.1f}: {stress:.1f} N/mm²" in words
    screen = turned_piece("three").legs[0].turned.screen
    assert f"{round(100 * screen.low_strength_share)} % of the low end" in words


@every_turned
def test_calipers_close_from_the_largest_down_and_reach_every_mark(name):
    for sheets, group in zip(cards(name), turned_groups(turned_piece(name)), strict=True):
        made, found = group[0].turned, settings_on(sheets)
        assert all(one > other for (one, _), (other, _) in pairwise(found))
        (rough,) = (step.diameters[0] for step in made.steps if step.kind == "rough")
        (marks,) = ((step.distances, step.diameters) for step in made.steps if step.kind == "mark")
        leave = 2 * float(made.allowances.finishing)
        unit = turned_piece(name).design.unit
        for at, diameter in zip(*marks, strict=True):
            place, setting = (float(size_of(written(size, unit))) for size in (at, min(diameter + leave, rough)))
            assert any(size == setting and place in places for size, places in found)


@every_turned
def test_cuts_go_downhill_the_thinnest_last_and_cover_all_that_is_round(name):
    for sheets, group in zip(cards(name), turned_groups(turned_piece(name)), strict=True):
        found, profile = cuts_on(sheets), group[0].turned.profile
        assert all(thick >= thin for thick, _, thin, _ in found)
        step = 0.1 if turned_piece(name).design.unit == "mm" else 1 / 32
        assert all(one[2] >= other[2] - step for one, other in pairwise(found))
        ends = sorted((min(start, end), max(start, end)) for _, start, _, end in found)
        assert all(one[1] <= other[0] + 1e-9 for one, other in pairwise(ends))
        square = sum(element.length for element in profile.elements if element.shape == "square")
        covered = sum(end - start for start, end in ends)
        assert covered == pytest.approx(profile.length - square, abs=step * (1 + len(found) / 2))


# Order and picture


@every_turned
def test_the_steps_stand_in_their_order(name):
    wanted = {
        "centre": "Centre the blank", "line": "Square a line", "nick": "Nick the corners", "stop cut": "Stop cut from",
        "rough": "Rough ", "mark": "Mark from", "size": "Size with", "shape": "Shape downhill",
        "blend": "Blend it", "sand": "Take the rest away", "cut off": "Take the leg off",
    }  # fmt: skip
    for sheets, group in zip(cards(name), turned_groups(turned_piece(name)), strict=True):
        kinds = list(dict.fromkeys(step.kind for step in group[0].turned.steps))
        words = joined(sheets[0])
        places = [words.index(f"{number} {wanted[kind]}") for number, kind in enumerate(kinds, 1)]
        assert places == sorted(places)


@pytest.mark.parametrize(("name", "square", "diameter"), [("chest", 48, 41), ("chest, inch", 1.875, 1.5625 + 1 / 32)])
def test_the_picture_is_true_to_the_depths_at_flat_and_corner(name, square, diameter):
    for plate in plates(name):
        (ring,) = (item for item in plate.items if isinstance(item, Arc))
        assert ring.radius == pytest.approx(diameter / 2)
        boxes = [mark.points for mark in plate.items if isinstance(mark, Stroke) and mark.closed]
        assert any(math.dist(*points[:2]) == pytest.approx(square) for points in boxes)
        depths = [math.dist(item.start, item.end) for item in plate.items if isinstance(item, Dimension)]
        assert depths == pytest.approx([(square - diameter) / 2, (square * math.sqrt(2) - diameter) / 2])
        for item in plate.items:
            if isinstance(item, Dimension):
                assert math.dist(item.start, ring.centre) == pytest.approx(ring.radius)


# Cautions and formulas


@every_turned
def test_every_caution_of_the_lathe_stands_on_every_sheet(name):
    for sheets in cards(name):
        for plate in sheets:
            assert all(caution in joined(plate) for caution in LATHE)
        loaded = "N/mm²" in joined(sheets[0])
        assert loaded == all(caution in joined(sheets[0]) for caution in STRUCTURE)
        assert loaded == ("strength.tenon" in sheets[0].formulas) == ("is no rating" in joined(sheets[0]))
        words = joined(sheets[0])
        assert "from memory" in words
        assert "the handbook of your own lathe goes before" in words
        assert all("from the leg's top end" in joined(plate) for plate in sheets)
