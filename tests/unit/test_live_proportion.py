"""The proportion of a case under the hand: what each control moves, what is refused, what is kept.

Expected ratios are worked out here by trying every fraction.
"""

from __future__ import annotations

import re
from fractions import Fraction as F
from xml.etree import ElementTree

import pytest
from live_hand import BARES, PRACTICE, controls, drawn, ends, put, seen
from pictures import BARE
from test_proportion_plate import nearest, said_of

from furnlib.base.guards import DesignError
from furnlib.live.proportions import live_proportion

TALL, SEVEN = BARE / "tall_chest.yaml", BARE / "seven_openings.yaml"
HEIGHT, WIDTH, LEGS = "Overall height", "Overall width", "Height of the legs"


def ratios_said(view):
    """What the caption says of silhouette and case field."""
    said = re.search(r"silhouette (.+?); case field (.+?)\.\n", seen(view)[1])
    assert said, seen(view)[1]
    return said.groups()


def expect(view, height, width, legs):
    """The caption, the controls and the drawn sizes all say these three."""
    silhouette, case = ratios_said(view)
    assert silhouette in {said_of(near, F(height, width)) for near in nearest(F(height, width))}
    assert case in {said_of(near, F(height - legs, width)) for near in nearest(F(height - legs, width))}
    words = [text.strip() for text in ElementTree.fromstring(seen(view)[0]).itertext()]
    assert {str(height), str(width), str(height - legs)} <= set(words)


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "tall.yaml"
    path.write_text(TALL.read_text("utf-8"), "utf-8")
    return path


@pytest.fixture
def view(file):
    return live_proportion(file)


def test_at_rest_it_shows_what_the_file_holds(view):
    assert list(controls(view)) == [HEIGHT, WIDTH, LEGS]
    assert [str(controls(view)[name].value) for name in controls(view)] == ["1300", "520", "151"]
    expect(view, 1300, 520, 151)
    assert repr(view) == "<Live view of proportion, Tall chest>"


@pytest.mark.parametrize(
    ("name", "to", "sizes"),
    [
        (HEIGHT, "1248", (1248, 520, 151)),
        (WIDTH, "575", (1300, 575, 151)),  # the case field near 2 : 1
        (LEGS, "260", (1300, 520, 260)),  # legs 1 : 5; the case is 2 : 1 exactly
        (LEGS, "130", (1300, 520, 130)),
    ],
)
def test_each_control_moves_its_own_size_and_no_other(view, name, to, sizes):
    put(controls(view)[name], to)
    expect(view, *sizes)


def test_legs_steal_height_from_the_case_and_nothing_from_the_silhouette(view):
    said = []
    for legs in (130, 260):
        put(controls(view)[LEGS], str(legs))
        said.append(ratios_said(view))
    assert said == [("5 : 2 exactly", "9 : 4 exactly"), ("5 : 2 exactly", "2 : 1 exactly")]


def test_a_step_of_the_hand_is_a_mm_and_a_sixteenth(view):
    put(controls(view)[WIDTH], controls(view)[WIDTH].position + 1)
    expect(view, 1300, 521, 151)
    inch = live_proportion(BARES["in"])
    put(controls(inch)[WIDTH], controls(inch)[WIDTH].position + 1)
    assert controls(inch)[WIDTH].shown == "20 1/16"


@pytest.mark.parametrize("path", [TALL, SEVEN, *BARES.values(), BARE / "low_media_case.yaml"], ids=lambda p: p.stem)
def test_at_both_ends_of_every_control_it_draws_or_says_why_not(path):
    drawn_at = 0
    for name in controls(live_proportion(path)):
        for end in ends(controls(live_proportion(path))[name]):
            view = live_proportion(path)
            before = seen(view)[0]
            put(controls(view)[name], end)
            picture, words = seen(view)
            if words.startswith("Not drawn:"):
                assert picture == before
                assert words[-1] == "."
            else:
                ElementTree.fromstring(picture)
                drawn_at += 1
    assert drawn_at >= 3


def test_the_hand_steps_by_the_shops_grid_where_that_is_coarser():
    """On a grid of 5 the openings close at every step of the height, and at none between."""
    view = live_proportion(BARE / "low_media_case.yaml")
    for name in (HEIGHT, LEGS):
        start = controls(view)[name].position
        for by in (1, 2, 3):
            put(controls(view)[name], start + by)
            assert drawn(view)
            assert controls(view)[name].value % 5 == 0


def test_the_picture_keeps_its_place_while_the_piece_grows(view):
    frame = ElementTree.fromstring(seen(view)[0]).attrib
    for name in (HEIGHT, WIDTH):
        put(controls(view)[name], len(controls(view)[name].labels) - 1)
    assert ElementTree.fromstring(seen(view)[0]).attrib["viewBox"] == frame["viewBox"]
    assert view.drawing.size_mm[1] < 115  # low enough to stay in view below three controls


def test_a_case_without_legs_has_two_controls():
    view = live_proportion(SEVEN)
    assert list(controls(view)) == [HEIGHT, WIDTH]
    assert "No legs: silhouette and case field are one." in seen(view)[1]


def test_what_the_piece_refuses_says_its_sentence_and_the_last_picture_stays(file):
    """Seven rows of which none is below 135 do not go into 829 less six dividers."""
    file.write_text(file.read_text("utf-8").replace("ratio: 1.15", "first: 150\n  least top: 135"), "utf-8")
    view = live_proportion(file)
    before = seen(view)[0]
    put(controls(view)[HEIGHT], "980")
    picture, words = seen(view)
    assert not drawn(view)
    assert words.endswith(".")
    assert picture == before
    with pytest.raises(DesignError):
        view.keep()
    put(controls(view)[HEIGHT], "1300")
    assert drawn(view)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("wide", "cannot be read"),
        ("10", "it must lie from 390 to 624 mm"),
        ("-520", "it must lie from 390 to 624 mm"),
    ],
)
def test_what_cannot_be_a_width_is_refused_and_nothing_moves(view, text, words):
    before = seen(view)
    put(controls(view)[WIDTH], text)
    assert controls(view)[WIDTH].invalid
    assert words in controls(view)[WIDTH].message or "read" in controls(view)[WIDTH].message
    assert seen(view) == before


def test_a_size_off_the_grid_is_taken_exactly(view):
    put(controls(view)[WIDTH], "574.5")
    assert ratios_said(view)[1] == "2 : 1 exactly"  # 1149 / 574.5
    put(controls(view)[WIDTH], "20 1/2 in")  # 520.7
    assert controls(view)[WIDTH].value == F(5207, 10)


def test_what_was_found_is_kept_in_the_file_and_its_notes_stay(file, view):
    before = file.read_text("utf-8")
    put(controls(view)[LEGS], "130")
    put(controls(view)[WIDTH], "510")
    assert view.keep() == file
    after = file.read_text("utf-8")
    assert after == before.replace("height: 151 ", "height: 130 ").replace("width: 520\n", "width: 510\n")
    expect(live_proportion(file), 1300, 510, 130)


def test_a_stool_has_no_case():
    with pytest.raises(DesignError, match=r"practice_stool.yaml has no case; open a chest, as the demo design."):
        live_proportion(PRACTICE)
