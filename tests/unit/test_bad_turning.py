"""Turned legs that cannot be made: each fault is one sentence with its line, its path, its value and a cure."""

from __future__ import annotations

import re

import pytest
from faults import check_sentence, edited, faults, line_of
from leg_shapes import without
from pictures import BARE

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

CHEST, STOOL, FOUR = (
    (BARE / f"{name}.yaml").read_text("utf-8") for name in ("landing_chest", "stool_three_legs", "stool_four_legs")
)
SQUARE = "{shape: square, length: 42}"
BEAD = "{shape: bead, diameter: 40, length: 8, rise: 2}"
COVE = "{shape: cove, diameter: 38, length: 20, depth: 6}"
FILLET = "{shape: fillet, length: 4}"
TAPER = "{shape: taper, to: 28}"
TENON = "{shape: tenon, diameter: 25}"
WORDS = "bead, cove, cylinder, fillet, lamb's tongue, ogee, shoulder, square, taper, tenon"
ABOVE = "it must be more than 0: give a size above 0"


def said(text, words, path):
    """The one sentence about a text: it points to the line with these words and names the path."""
    (sentence,) = faults(text)
    check_sentence(sentence)
    at = text.splitlines().index(words) + 1 if words == "legs:" else line_of(text, words)
    start = f"chest.yaml line {at}, {path}: "
    assert sentence.startswith(start), sentence
    return sentence.removeprefix(start)


ELEMENTS = [  # in the chest's profile: what stands there, instead of, which element, what is said
    # an arc that rises 5 off a chord of 8 runs back over its ends: at most half the chord
    (
        "{shape: bead, diameter: 40, length: 8, rise: 5}",
        BEAD,
        "2",
        "between 40 and 40 may rise at most 4, not 5: give it",
    ),
    (
        "{shape: cove, diameter: 38, length: 20, depth: 11}",
        COVE,
        "3",
        "may be at most 10 deep, not 11: give it less depth",
    ),
    ("{shape: ogee, diameter: 38, to: 30, length: 8, rise: 3}", COVE, "3", "less rise or more length"),
    ("{shape: cove, diameter: 38, length: 60, depth: 19}", COVE, "3", "cuts through the leg: keep it shallower"),
    (
        "{shape: shoulder, to: 30, length: 2}",
        COVE,
        "3",
        "A shoulder begins at a square; let 'shape: square' be the element above",
    ),
    ("{shape: lamb's tongue, to: 40, length: 8}", BEAD, "2", "falls 13.94 from the corners of a square of 48 to 40"),
    (
        "{shape: lamb's tongue, length: 20}",
        BEAD,
        "2",
        "The lamb's tongue has no diameter to end with; add a line 'to:'",
    ),
    ("{shape: shoulder, to: 50, length: 20}", BEAD, "2", "a round of at most 48 comes out of it"),
    (
        "{shape: bead, diameter: 40, length: 8, rise: 0}",
        BEAD,
        "2",
        "The rise of the bead is 0.0; it must be more than 0",
    ),
    (
        "{shape: bead, diameter: 40, length: 8, rise: -2}",
        BEAD,
        "2",
        "The rise of the bead is -2.0; it must be more than",
    ),
    ("{shape: bead, length: 8, rise: 2}", BEAD, "2", "The bead has no diameter to begin with; add a line 'diameter:'"),
    ("{shape: bead, diameter: 40, length: 8}", BEAD, "2", "A bead has a rise; add 'rise:'"),
    ("{shape: cove, diameter: 38, length: 20}", COVE, "3", "A cove has a depth; add 'depth:'"),
    ("{shape: cove, diameter: 38, length: 20, depth: 6, rise: 6}", COVE, "3", "A cove has no rise; take out 'rise'"),
    ("{shape: taper, to: 28, rise: 2}", TAPER, "5", "A taper has no rise; take out 'rise'"),
    ("{shape: taper, to: 28, depth: 2}", TAPER, "5", "A taper has no depth; take out 'depth'"),
    ("{shape: fillet, length: 4, to: 30}", FILLET, "4", "as thick all along; take out 'to', or call it a taper"),
    ("{shape: square, length: 42, diameter: 30}", SQUARE, "1", "its side is the line 'square:' of the legs"),
    (
        "{shape: bead, diametre: 40, length: 8, rise: 2}",
        BEAD,
        "2",
        "there is no 'diametre' here; did you mean 'diameter'?",
    ),
    ("{diameter: 40, length: 8, rise: 2}", BEAD, "2", "'shape' is missing; add a line 'shape: …'"),
    (
        "{shape: beed, diameter: 40, length: 8, rise: 2}",
        BEAD,
        "2, shape",
        "'beed' is no shape of a turning; did you mean 'bead'?",
    ),
    (
        "{shape: urn, diameter: 40, length: 8}",
        BEAD,
        "2, shape",
        f"'urn' is no shape of a turning; what can stand there: {WORDS}",
    ),
    ("{shape: bead, diameter: thick, length: 8, rise: 2}", BEAD, "2, diameter", "'thick' cannot be read as a length"),
    ("{shape: bead, diameter: -40, length: 8, rise: 2}", BEAD, "2, diameter", f"The size is -40; {ABOVE}"),
    ("{shape: taper, to: 0}", TAPER, "5, to", f"The size is 0; {ABOVE}"),
    ("{shape: fillet, length: 0}", FILLET, "4, length", f"The size is 0; {ABOVE}"),
    ("{shape: square, length: -1}", SQUARE, "1, length", f"The size is -1; {ABOVE}"),
]


@pytest.mark.parametrize(("written", "instead", "which", "words"), ELEMENTS, ids=[row[0][8:] for row in ELEMENTS])
def test_an_element_that_cannot_be_is_said_at_its_own_line(written, instead, which, words):
    assert words in said(edited(CHEST, (instead, written)), written, f"legs, profile, {which}")


PROFILES = [  # edits, what is said of the whole profile
    # 42 + 8 + 20 + 4 = 74 of 151 / cos 9.95 = 153.3
    (
        ((FILLET, "{shape: fillet}"),),
        "2 elements of the profile have no length; exactly one takes what the others leave",
    ),
    (((TAPER, "{shape: taper, to: 28, length: 79}"),), "0 elements of the profile have no length; exactly one takes"),
    (((SQUARE, "{shape: square, length: 142}"),), "add up to 174 and the leg is 153.3 long; something must be left"),
    # a round comes out of its square; a bead of 46 with a rise of 2 is 50 across
    (
        ((BEAD, "{shape: cylinder, diameter: 50, length: 8}"),),
        "The cylinder beside a square of 48 is 50 across; at most 48",
    ),
    (((BEAD, "{shape: bead, diameter: 46, length: 8, rise: 2}"),), "The bead beside a square of 48 is 50 across"),
    (
        ((TAPER, "{shape: taper, diameter: 50, to: 28}"),),
        "turned up to 50 thick, and the square that is left on it is 48",
    ),
    ((("  square: 48 ", "  square: 43 "),), "The bead beside a square of 43 is 44 across; at most 43 comes out of it"),
    (
        ((TAPER, "{shape: taper, to: 3}"),),
        "51.1 times as long as it is thick at its thinnest; no steady holds more than 40",
    ),
]


@pytest.mark.parametrize(("edits", "words"), PROFILES, ids=[row[1][:40] for row in PROFILES])
def test_a_profile_that_does_not_go_together_is_said_at_its_line(edits, words):
    assert words in said(edited(CHEST, *edits), "  profile:", "legs, profile")


@pytest.mark.parametrize("written", ["", " turned", " {shape: taper}"])
def test_what_is_no_list_is_no_profile(written):
    text = without(CHEST, "profile").replace("legs:\n", f"legs:\n  profile:{written}\n")
    assert "a list should stand here" in said(text, "  profile:", "legs, profile")
    assert "lines that begin with '-'" in faults(text)[0]


def test_an_element_is_written_by_names():
    text = without(CHEST, "profile").replace("legs:\n", "legs:\n  profile: [bead]\n")
    assert "names and values should stand below this" in said(text, "  profile:", "legs, profile, 1")


def test_a_square_needs_its_side_and_the_side_needs_a_square():
    words = said(without(CHEST, "square"), SQUARE, "legs, profile, 1")
    assert words == "A square needs the side of the square; add a line 'square:' to the legs."
    words = said(edited(STOOL, ("  profile: ", "  square: 40\n  profile: ")), "legs:", "legs")
    assert words == "The profile leaves nothing square; take out 'square:', or begin with 'shape: square'."


def test_under_a_seat_a_leg_begins_with_its_tenon():
    text = edited(STOOL, (TENON, "{shape: cylinder, diameter: 25, length: 30}"))
    assert said(text, "shape: cylinder", "legs, profile, 1").endswith("let 'shape: tenon' be the first.")


ROUND, STATED = "round: {largest: 36, foot: 22, tenon: 25}", "stations: {0: 25, 600: 22}"
PROFILED = "profile: [{shape: tenon, diameter: 25}, {shape: taper, diameter: 36, to: 22}]"


@pytest.mark.parametrize(
    ("one", "other"), [(ROUND, STATED), (ROUND, PROFILED), (STATED, PROFILED), ("square: 30", STATED)]
)
def test_a_leg_has_one_shape(one, other):
    text = without(FOUR, "round").replace("legs:\n", f"legs:\n  {one}\n  {other}\n")
    words = said(text, "legs:", "legs")
    assert re.match(
        r"The legs are given by (round|stations|profile|square) and (round|stations|profile); keep one", words
    )
    assert "keep one of them; 'square:' goes with 'profile:' only" in words


# The lathe's part


def with_turning(line):
    return without(CHEST, "turning").replace("legs:\n", f"legs:\n  turning: {{{line}}}\n", 1)


NUMBER = "cannot be read as a number; write it like 7, 1.16 or 5/4"
SURE = "it must lie between 0 and 1: 0.9 is sure nine times in ten, and nothing is wholly sure"
TURNING = [
    ("waste: -1", "The size is -1; it must be 0 or more: write 0 where there is none of it"),
    ("kerf: -3", "The size is -3; it must be 0 or more: write 0 where there is none of it"),
    ("kerf: thin", "'thin' cannot be read as a length"),
    ("roughing: -1", f"The size is -1; {ABOVE}"),
    ("centring: 0", f"The size is 0; {ABOVE}"),
    ("finishing: 0", f"The size is 0; {ABOVE}"),
    ("boards: 0", f"The size is 0; {ABOVE}"),
    ("speed: 0", "The speed is 0.0; it must be more than 0: give turns a minute"),
    ("speed: -900", "The speed is -900.0; it must be more than 0: give turns a minute"),
    ("speed: fast", f"'fast' {NUMBER}"),
    ("speed: inf", f"'inf' {NUMBER}"),
    ("good: 1.1", "The chance that a leg comes good is 1.1; it must lie from 0 to 1: 9 good ones in 10 are 0.9"),
    ("good: -0.5", "The chance that a leg comes good is -0.5; it must lie from 0 to 1"),
    ("good: 90 %", f"'90 %' {NUMBER}"),
    ("good: 0", "200 legs do not give 4 good ones with a certainty of 0.9: practise the cut that fails on waste"),
    ("good: 0.005", "With 0.005 as the chance of each, 200 legs do not give 4 good ones"),
    ("certainty: 1", f"The certainty is 1.0; {SURE}"),
    ("certainty: 0", f"The certainty is 0.0; {SURE}"),
    ("certainty: 1.5", f"The certainty is 1.5; {SURE}"),
]


@pytest.mark.parametrize(("line", "words"), TURNING, ids=[row[0] for row in TURNING])
def test_an_allowance_that_cannot_be_is_said(line, words):
    text = with_turning(line)
    assert words in said(text, "  turning:", f"legs, turning, {line.partition(':')[0]}")


def test_an_unknown_allowance_is_said_and_the_nearest_one_offered():
    assert said(with_turning("speeed: 900"), "  turning:", "legs, turning").endswith("did you mean 'speed'?")


def test_boards_that_lay_a_glue_line_on_the_axis_are_refused():
    # the stool's blank is 39, and 6 to plane off make 45: two boards of 26, and their joint on the axis
    text = edited(STOOL, ("boards: 16 ", "boards: 26 "))
    words = said(text, "boards: 26", "legs, turning, boards")
    assert words.startswith("A glue line lies 0 from the axis, and a driven centre splits one nearer than 3.9: ")
    assert "glue one ply more, or plane the outsides unevenly" in words


@pytest.mark.parametrize("name", ["push", "upright"])
@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("-1", "The load is -1; it must be 0 or more"),
        ("inf", f"'inf' {NUMBER}"),
        (".nan", f"'.nan' {NUMBER}"),
        ("all", f"'all' {NUMBER}"),
    ],
)
def test_a_load_below_0_or_without_end_is_refused(name, value, words):
    old = {"push": "push: 10", "upright": "upright: 17"}[name]
    text = edited(CHEST, (old, f"{name}: {value}"))
    assert words in said(text, f"{name}: {value}", f"legs, loads, {name}")


def test_both_loads_are_wanted():
    text = edited(CHEST, ("    upright: 17\n", ""))
    assert said(text, "  loads:", "legs, loads") == "'upright' is missing; add a line 'upright: …'."


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("black chery", "The wood 'black chery' is not in the table; did you mean 'black cherry'?"),
        ("soapstone", "The wood 'soapstone' is not in the table; write it as the trade does, such as black cherry."),
        ("", "write 1 to 60 letters"),
    ],
)
def test_an_unknown_wood_is_said_and_the_nearest_one_offered(written, words):
    text = edited(CHEST, ("wood: black cherry", f"wood: {written}"))
    assert words in said(text, f"  wood: {written}", "legs, wood")


def test_a_pin_that_reaches_past_its_square_needs_wood_round_it_too():
    # the pin stands 16.03 outward; 42 cos R = 41.4 deep the axis has run 7.26 after it, and below the square the
    # leg is 20 at least from its axis: 20 - (16.03 - 7.26 + 3) cos R = 8.4 are left, more than 6
    assert piece_of(DesignText.parse(edited(CHEST, ("pin depth: 25", "pin depth: 45"))))
    # 59.9 along the axis it has come to the neck, 13 from the axis: 13 - 11.59 = 1.4
    words = said(edited(CHEST, ("pin depth: 25", "pin depth: 59")), "pin depth:", "legs, fixing, pin depth")
    assert words == (
        "The pin reaches past the square to where the leg is 26 thick, and may leave 1.4 of wood there:"
        " take a shorter pin, or leave the square longer."
    )


# Measured legs


def measured(stations):
    return without(FOUR, "round").replace("legs:\n", f"legs:\n  stations: {stations}\n")


STATIONS = [
    # the front legs are 460 / cos 15.44 = 477.2 long, to the tenth below or above
    (
        "{0: 25, 200: 30}",
        "",
        "The measured leg is 200 long, this one 477.3; measure on to the foot, or lower the piece",
    ),
    (
        "{0: 25, 200: 30, 100: 20, 600: 20}",
        "",
        "Station 3 stands at 100 and station 2 at 200; give them from the top down",
    ),
    ("{600: 20, 0: 25}", "", "The measured leg begins at 600; measure from its top, 0"),
    ("{10: 25, 600: 20}", "", "The measured leg begins at 10; measure from its top, 0"),
    ("{-10: 30, 0: 25, 600: 20}", "", "The measured leg begins at -10; measure from its top, 0"),
    ("{0: 25, 0.0: 26, 600: 20}", "", "Two stations stand at one distance; give each distance once"),
    ("{0: 25, 10: 30, 1 cm: 31, 600: 20}", "", "Two stations stand at one distance; give each distance once"),
    ("{0: 25}", "", "needs two stations at least; measure it at its top and at its foot"),
    ("{}", "", "needs two stations at least; measure it at its top and at its foot"),
    ("{0: 25, 600: 0}", ", 600", f"The size is 0; {ABOVE}"),
    ("{0: 25, 600: thin}", ", 600", "'thin' cannot be read as a length"),
    ("{0: 25, 300: , 600: 20}", ", 300", "No length is written"),
    ("{0: 25, far: 20}", ", far", "'far' cannot be read as a length"),
    ("[25, 30, 20]", "", "names and values should stand below this"),
    ("{0: 25, 300: 10, 600: 20}", "", "no steady holds more than 40: make it thicker or turn it in parts"),
]


@pytest.mark.parametrize(("stations", "where", "words"), STATIONS, ids=[row[0] for row in STATIONS])
def test_stations_that_make_no_leg_are_refused(stations, where, words):
    assert words in said(measured(stations), "  stations:", f"legs, stations{where}")


def test_a_distance_that_is_written_twice_is_refused_as_any_name_is():
    (sentence,) = faults(measured("{0: 25, 0: 26, 600: 20}"))
    assert re.fullmatch(r"chest\.yaml line \d+ gives '0' a second time; keep one of the two\.", sentence)


def test_a_plain_taper_too_slim_for_a_lathe_is_refused():
    text = edited(FOUR, ("foot: 22", "foot: 10"))
    assert "47.7 times as long as it is thick at its thinnest; no steady holds more than 40" in said(
        text, "  round:", "legs, round"
    )


def test_every_fault_of_a_turned_leg_is_said_at_once():
    text = edited(
        CHEST,
        (BEAD, "{shape: beed, diameter: 40, length: 8, rise: 2}"),
        (COVE, "{shape: cove, diameter: 38, length: deep, depth: 6}"),
        ("good: 0.9 ", "good: 2 "),
        ("push: 10", "push: -10"),
        ("wood: black cherry", "wood: ''"),
    )
    sentences = faults(text)
    for part in (
        "'beed' is no shape",
        "'deep' cannot be read",
        "comes good is 2.0",
        "The load is -10",
        "1 to 60 letters",
    ):
        assert sum(part in sentence for sentence in sentences) == 1, part
    assert len(sentences) == 5
    for sentence in sentences:
        check_sentence(sentence)


def test_what_is_odd_but_can_be_made_is_made():
    for edits in (
        ((BEAD, "{shape: bead, diameter: 44, length: 8, rise: 2}"),),  # as wide as its square
        ((BEAD, "{shape: bead, diameter: 40, length: 8, rise: 4}"),),  # half a circle
        ((COVE, "{shape: cove, diameter: 38, length: 20, depth: 10}"),),
        ((FILLET, "{shape: fillet, length: 1/100}"),),
        ((TAPER, "{shape: taper, to: 46}"),),  # thicker at the foot
        (("good: 0.9 ", "good: 1 "),),
        (("push: 10", "push: 0"), ("upright: 17", "upright: 0")),
    ):
        assert all(leg.turned for leg in piece_of(DesignText.parse(edited(CHEST, *edits))).legs)
    for line in ("waste: 0, kerf: 0", "speed: 1/2", "certainty: 999/1000"):
        assert len(piece_of(DesignText.parse(with_turning(line))).legs) == 4
