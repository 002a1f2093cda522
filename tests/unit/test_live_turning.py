"""A turned leg under the hand: each size of its profile by its own control, refused shapes, what is kept."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from live_hand import BARES, bare_file, controls, ends, put, seen
from pictures import BARE

from furnlib.base.guards import DesignError
from furnlib.live.turnings import live_turning

THREE, FOUR = BARE / "stool_three_legs.yaml", BARE / "stool_four_legs.yaml"
OAK = BARE / "low_media_case.yaml"
CHEST = {
    "Square": ("48", 48),
    "Square, length": ("42", 42),
    "Bead, length": ("8", 8),
    "Bead, diameter": ("40", 40),
    "Bead, rise": ("2", 2),
    "Cove, length": ("20", 20),
    "Cove, diameter": ("38", 38),
    "Cove, depth": ("6", 6),
    "Fillet, length": ("4", 4),
    "Taper, diameter at its end": ("28", 28),
    "Height of the legs": ("151", 151),
}
"""What the demo's file gives."""


def drawn(view):
    return not seen(view)[1].startswith("Not drawn")


def elements(view, position="front left"):
    """The elements of a leg's profile."""
    (leg,) = (leg for leg in view.piece.legs if leg.position == position)
    return leg.turned.profile.elements


def measured_file(folder, stations):
    """The four-legged stool with measured legs."""
    text, count = re.subn(
        r"round: .*\n(    (?:largest|foot|tenon): .*\n)+", f"stations: {{{stations}}}\n", FOUR.read_text("utf-8")
    )
    assert count == 1
    path = folder / "measured.yaml"
    path.write_text(text, "utf-8")
    return path


@pytest.fixture
def view():
    return live_turning(BARES["mm"])


# What there is to move


def test_every_size_that_the_file_gives_has_its_control(view):
    assert {name: (control.shown, control.value) for name, control in controls(view).items()} == CHEST


def test_shapes_that_come_twice_are_numbered_from_the_top():
    names = list(controls(live_turning(THREE)))
    assert [name for name in names if name.endswith("depth")] == ["Cove 1, depth", "Cove 2, depth"]
    assert [name for name in names if "aper" in name] == [
        "Taper 1, length", "Taper 1, diameter", "Taper 1, diameter at its end", "Taper 2, diameter at its end",
    ]  # fmt: skip
    assert [name for name in names if name.startswith("Bead")] == ["Bead, length", "Bead, diameter", "Bead, rise"]


def test_the_quick_form_has_three_diameters_and_a_height():
    view = live_turning(FOUR, "rear left")
    assert list(controls(view)) == [
        "Largest, diameter", "Foot, diameter", "Tenon, diameter", "Height of the seat",
    ]  # fmt: skip
    put(controls(view)["Largest, diameter"], "40")
    put(controls(view)["Foot, diameter"], "24")
    made = elements(view, "rear left")
    assert [(element.shape, element.start_diameter, element.end_diameter) for element in made] == [
        ("tenon", 25, 25), ("taper", 40, 24),
    ]  # fmt: skip
    assert "Rear left and rear right" in seen(view)[1]


def test_a_measured_leg_has_a_control_for_each_diameter(tmp_path):
    view = live_turning(measured_file(tmp_path, "0: 25, 60: 34, 300: 30, 520: 22"))
    assert list(controls(view)) == [*(f"Diameter at {at}" for at in (0, 60, 300, 520)), "Height of the seat"]
    put(controls(view)["Diameter at 300"], "27.5")
    assert drawn(view), seen(view)[1]
    assert view.piece.legs[0].turned.profile.diameter_at(300.0) == pytest.approx(27.5)


def test_an_ogee_may_be_hollow_first_or_full_first():
    control = controls(live_turning(OAK))["Ogee, rise"]
    assert (control.labels[0], control.labels[-1]) == ("-4.5", "4.5")


@pytest.mark.parametrize("unit", BARES)
def test_all_controls_start_where_the_file_has_them_and_nothing_is_written(tmp_path, unit):
    path = bare_file(tmp_path, unit)
    before = path.read_bytes()
    view = live_turning(path)
    assert not any(control.message for control in controls(view).values())
    view.keep()
    assert path.read_bytes() == before


def test_a_file_without_turned_legs_is_refused_with_its_cure():
    with pytest.raises(DesignError, match=r"practice_stool.yaml has no turned legs; give its legs a profile"):
        live_turning(BARE / "practice_stool.yaml")
    with pytest.raises(DesignError, match="has no turned legs"):
        live_turning(BARE / "seven_openings.yaml")
    with pytest.raises(DesignError, match="has no leg 'rear'"):
        live_turning(BARES["mm"], "rear")


# The hand


@pytest.mark.parametrize(
    ("name", "to", "number", "what"),
    [
        ("Square, length", "50", 0, {"length": 50}),
        ("Bead, length", "10.5", 1, {"length": 10.5}),
        ("Bead, diameter", "41", 1, {"start_diameter": 41, "end_diameter": 41}),
        ("Bead, rise", "3", 1, {"rise": 3}),
        ("Cove, length", "22 1/3", 2, {"length": 67 / 3}),
        ("Cove, diameter", "36", 2, {"start_diameter": 36, "end_diameter": 36}),
        ("Cove, depth", "7", 2, {"rise": 7}),
        ("Fillet, length", "9", 3, {"length": 9}),
        ("Taper, diameter at its end", "30", 4, {"end_diameter": 30}),
        ("Square", "50", 0, {"square": 50}),
    ],
)
def test_a_control_sets_its_place_in_the_profile_and_one_picture_is_drawn(view, name, to, number, what):
    (shown,) = (child for child in view.children if type(child).__name__ == "HTML")
    pictures, before = [], seen(view)[0]
    shown.observe(lambda change: pictures.append(change["new"]), "value")
    put(controls(view)[name], to)
    assert drawn(view), seen(view)[1]
    made = elements(view)[number]
    assert {key: getattr(made, key) for key in what} == pytest.approx(what)
    assert len(pictures) == 1
    assert seen(view)[0] != before


def test_the_element_without_a_length_takes_what_the_others_leave(view):
    """Down the axis of the front leg: 151 √(1 + tan² 8 + tan² 6) less 42, 8, 20 and 4.

    Legs of 170 leave 982 to share out, less 7 x 3 of clearance 961: 48 pitches and 1, which goes to the legs.
    """
    whole = 153.305  # 151 x 1.015266
    assert elements(view)[-1].length == pytest.approx(whole - 42 - 8 - 20 - 4, abs=1e-2)
    put(controls(view)["Fillet, length"], "10")
    assert elements(view)[-1].length == pytest.approx(whole - 42 - 8 - 20 - 10, abs=1e-2)
    put(controls(view)["Height of the legs"], "170")
    assert elements(view)[-1].length == pytest.approx(whole * 171 / 151 - 42 - 8 - 20 - 10, abs=1e-2)


@pytest.mark.parametrize("path", [*BARES.values(), THREE, FOUR, OAK], ids=lambda path: path.stem)
def test_at_both_ends_of_every_control_it_is_drawn_or_said_why_not(path):
    view = live_turning(path)
    rest = seen(view)[0]
    for name, control in controls(view).items():
        stood = control.shown
        for end in ends(control):
            put(control, end)
            picture, words = seen(view)
            ElementTree.fromstring(picture)
            if drawn(view):
                assert picture != rest, name
                assert words.startswith("Turned leg of ")
            else:
                assert picture == rest
                assert words.count(".") >= 1
                assert words[-1] == "."
            put(control, stood)
            assert seen(view)[0] == rest


def test_a_shape_that_cannot_be_made_says_why_and_loses_nothing(view):
    """A bead 5 long rises at most 2.5, a half circle; 12 long and 3 high it comes out of the square."""
    counts = []
    (shown,) = (child for child in view.children if type(child).__name__ == "HTML")
    shown.observe(lambda change: counts.append(1), "value")
    put(controls(view)["Bead, rise"], "3")
    assert drawn(view)
    rest = seen(view)[0]
    counts.clear()
    put(controls(view)["Bead, length"], "5")
    picture, words = seen(view)
    assert picture == rest
    assert words.startswith("Not drawn:  A bead 5 long between 40 and 40 may rise at most 2.5, not 3")
    assert len(counts) == 1
    assert controls(view)["Bead, length"].value == 5
    with pytest.raises(DesignError, match="may rise at most"):
        view.keep()
    put(controls(view)["Bead, length"], "12")  # the cure
    assert drawn(view)
    assert (elements(view)[1].length, elements(view)[1].rise) == (12, 3)


def test_lengths_that_leave_nothing_for_the_rest_are_refused(view):
    rest = seen(view)[0]
    put(controls(view)["Square, length"], "104")
    put(controls(view)["Cove, length"], "50")
    assert "something must be left for the element without a length" in seen(view)[1]
    put(controls(view)["Cove, length"], "20")
    put(controls(view)["Square, length"], "42")
    assert seen(view)[0] == rest


def test_a_text_that_cannot_be_read_moves_nothing(view):
    before = seen(view)
    for control in controls(view).values():
        put(control, "a bit more")
        assert control.invalid
    assert seen(view) == before


# What is kept


def test_what_was_found_is_kept_in_its_braces_comments_and_all(tmp_path):
    path = bare_file(tmp_path)
    before = path.read_text("utf-8")
    view = live_turning(path)
    put(controls(view)["Cove, depth"], "5 1/2")
    put(controls(view)["Taper, diameter at its end"], "26")
    view.keep()
    kept = before.replace("length: 20, depth: 6}", "length: 20, depth: 5.5}").replace(
        "taper, to: 28}", "taper, to: 26}"
    )
    assert kept != before
    assert path.read_text("utf-8") == kept
    again = controls(live_turning(path))
    assert (again["Cove, depth"].value, again["Taper, diameter at its end"].value) == (5.5, 26)
