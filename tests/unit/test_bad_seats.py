"""A design file with a fault in its seat, its legs or their fixing: what is said, where, and with what cure.

As in `test_bad_design` each row of a table is one slip of a maker, and numbers in the sentences are
worked by hand beside the row. What mortises do inside a seat is looked at in `test_mortises`.
"""

from __future__ import annotations

import math
import re

import pytest
from faults import (
    FIXED,
    METRIC,
    STOOL,
    check_bad,
    check_missing,
    check_sentence,
    check_unknown,
    edited,
    faults,
    line_of,
)

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

# Names

UNKNOWN_OF_FIXING = [
    ("fixng:", "fixing:", "fixng", "legs", "did you mean 'fixing'?"),
    ("diametre: 8", "diameter: 8", "diametre", "legs, fixing", "did you mean 'diameter'?"),
    ("pin_depth: 25", "pin depth: 25", "pin_depth", "legs, fixing", "did you mean 'pin depth'?"),
    ("screw: 60\n    wall: 6", "wall: 6", "screw", "legs, fixing", "there: depth, diameter, pin, pin depth, wall."),
]
UNKNOWN_OF_SEAT = [
    ("thicknes: 40", "thickness: 40", "thicknes", "seat", "did you mean 'thickness'?"),
    ("lean: 3\n  pitch: 0", "pitch: 0", "lean", "seat", "what can stand there: outline, pitch, thickness."),
    ("outlin: rectangle", "outline: rectangle", "outlin", "seat", "did you mean 'outline'?"),
    ("largst: 36", "largest: 36", "largst", "legs, round", "did you mean 'largest'?"),
    ("mortices:", "mortises:", "mortices", "legs", "did you mean 'mortises'?"),
    ("side: 3\n    out: 115", "out: 115", "side", "legs, mortises", "what can stand there: front, out, rear."),
    ("total_lean: 0.5", "total lean: 0.5", "total_lean", "legs, slips", "did you mean 'total lean'?"),
    ("sightline: 1", "sight line: 1", "sightline", "legs, slips", "did you mean 'sight line'?"),
    ("rear middle: {rake: 16", "rear left: {rake: 16", "rear middle", "legs, lean, rear middle", "mean 'rear"),
    (
        "middle: {rake: 16",
        "rear left: {rake: 16",
        "middle",
        "legs, lean, middle",
        "there: front, front left, front right,",
    ),
    ("height: 420\n  round:", "round:", "height", "legs", "lean, loads, mortises, orientation, profile, round,"),
    ("rows: {number: 3, rule: equal}\nseat:", "seat:", "rows", "top of the file", "there: grid, legs, overall, piece,"),
    ("case: {side: 20}\nseat:", "seat:", "case", "top of the file", "what can stand there: grid, legs, overall,"),
]
UNKNOWN = [
    *((FIXED, *row) for row in UNKNOWN_OF_FIXING),
    *((STOOL, *row) for row in UNKNOWN_OF_SEAT),
]


@pytest.mark.parametrize(("base", "written", "instead", "name", "where", "offer"), UNKNOWN, ids=[r[3] for r in UNKNOWN])
def test_an_unknown_name_is_said_and_the_nearest_one_offered(base, written, instead, name, where, offer):
    check_unknown(edited(base, (instead, written)), written, name, where, offer)


MISSING_OF_FIXING = [
    (f"    {name}: {value}\n", name, "legs, fixing", "fixing:")
    for name, value in (("diameter", 8), ("depth", 60), ("wall", 6), ("pin", 5), ("pin depth", 25))
]
LEANS = STOOL[STOOL.index("  lean:") :]
MISSING_OF_SEAT = [
    ("  thickness: 40\n", "thickness", "seat", "seat:"),
    ("    largest: 36\n", "largest", "legs, round", "  round:"),
    ("    foot: 22\n", "foot", "legs, round", "  round:"),
    ("    tenon: 25\n", "tenon", "legs, round", "  round:"),
    ("  mortises:\n    out: 115\n    front: 85\n    rear: 85\n", "mortises", "legs", "legs:"),
    ("    out: 115\n", "out", "legs, mortises", "mortises:"),
    ("    front: 85\n", "front", "legs, mortises", "mortises:"),
    ("    rear: 85\n", "rear", "legs, mortises", "mortises:"),
    (LEANS, "lean", "legs", "legs:"),
    (STOOL[STOOL.index("legs:") :], "legs", "top of the file", "piece: Stool"),
]
MISSING = [
    *((FIXED, *row) for row in MISSING_OF_FIXING),
    *((STOOL, *row) for row in MISSING_OF_SEAT),
]


@pytest.mark.parametrize(("base", "part", "name", "where", "line"), MISSING, ids=[f"{r[3]}: {r[2]}" for r in MISSING])
def test_a_missing_name_is_said_with_the_line_to_add(base, part, name, where, line):
    check_missing(edited(base, (part, "")), name, where, line)


# Values: written, instead of, path, the value said, words of the cure

ABOVE = "it must be more than 0: give a size above 0"
ANGLE = "cannot be read as an angle; write it like 8, 8.5 or 8°"
LENGTH = "cannot be read as a length; write it like 146, 146 mm, 14.6 cm, 5 11/16 in"
BAD_FIXING = [
    ("diameter: 0", "diameter: 8", "legs, fixing, diameter", "0", ABOVE),
    ("diameter: thick", "diameter: 8", "legs, fixing, diameter", "'thick'", LENGTH),
    (
        "diameter: 40",
        "diameter: 8",
        "legs, fixing",
        "40.0 thick, however short, does not leave a wall of 6",
        "thinner one, a thicker leg",
    ),
    ("depth: 0", "depth: 60", "legs, fixing, depth", "0", ABOVE),
    (
        "depth: 151",
        "depth: 60",
        "legs, fixing",
        "151.0 deep into a leg 151",
        "it must end inside: take a shorter screw",
    ),
    ("depth: 1.51 m", "depth: 60", "legs, fixing", "1510", "it must end inside: take a shorter screw"),
    ("wall: -1", "wall: 6", "legs, fixing, wall", "-1", ABOVE),
    ("wall: 24", "wall: 6", "legs, fixing", "a wall of 24.0 in a leg of 48", "or a smaller wall"),
    ("pin: 0", "pin: 5", "legs, fixing, pin", "0", ABOVE),
    # screw and pin want 4 + 6 + 10 to the middle of the pin, and 10 + 6 beyond it: 36 of 24 and a little
    ("pin: 20", "pin: 5", "legs, fixing", "20.0 thick has no room beside a screw 8", "or a smaller wall"),
    ("pin depth: nan", "pin depth: 25", "legs, fixing, pin depth", "'nan'", LENGTH),
    ("pin depth: 151", "pin depth: 25", "legs, fixing, pin depth", "151 deep into a leg 151", "take a shorter pin"),
]
WORDS = "what can stand there"
OFF = "a setting that slips by more wants mending"
BAD_SEAT = [
    ("thickness: thin", "thickness: 40", "seat, thickness", "'thin'", LENGTH),
    ("thickness: 0", "thickness: 40", "seat, thickness", "0", ABOVE),
    ("thickness: 460", "thickness: 40", "seat, thickness", "0", "raise the seat, thin it or pitch it less"),
    ("thickness: 500", "thickness: 40", "seat, thickness", "-40", "raise the seat, thin it or pitch it less"),
    ("pitch: back", "pitch: 0", "seat, pitch", "'back'", ANGLE),
    ("pitch: 5 mm", "pitch: 0", "seat, pitch", "'5 mm'", ANGLE),
    ("pitch: inf", "pitch: 0", "seat, pitch", "'inf'", ANGLE),
    ("pitch:", "pitch: 0", "seat, pitch", "", "No angle is written; write it like 8, 8.5 or 8°"),
    ("pitch: 70", "pitch: 0", "seat, pitch", "70", "between -60 and 60: a seat that steep is no seat; pitch it less"),
    ("pitch: -60", "pitch: 0", "seat, pitch", "-60", "between -60 and 60: a seat that steep is no seat"),
    ("outline: rund", "outline: rectangle", "seat, outline", "'rund'", r"did you mean 'round'\?"),
    ("outline: oval", "outline: rectangle", "seat, outline", "'oval'", f"{WORDS}: D, rectangle, round"),
    ("outline: [D]", "outline: rectangle", "seat, outline", "", "A single value should stand here"),
    ("largest: 0", "largest: 36", "legs, round, largest", "0", ABOVE),
    ("foot: -22", "foot: 22", "legs, round, foot", "-22", ABOVE),
    (
        "foot: 36.5",
        "foot: 22",
        "legs, round, foot",
        "36.5 thick, more than the largest diameter of the leg, 36",
        "turn it thinner",
    ),
    ("tenon: wide", "tenon: 25", "legs, round, tenon", "'wide'", LENGTH),
    (
        "tenon: 50",
        "tenon: 25",
        "legs, round, tenon",
        "50 thick, more than the largest diameter of the leg, 36",
        "take a thicker leg",
    ),
    ("out: 0", "out: 115", "legs, mortises, out", "0", ABOVE),
    ("out: 180", "out: 115", "legs, mortises, out", "180", "must be less than 180: move them in or take a larger seat"),
    ("front: 130", "front: 85", "legs, mortises, front", "130", "must be less than 130: move them in or take a larger"),
    ("rear: 13 1/2 in", "rear: 85", "legs, mortises, rear", "342.9", "must be less than 130: move them in"),
    ("total lean: -1", "total lean: 0.5", "legs, slips, total lean", "-1", f"from 0 to 10: {OFF}"),
    ("total lean: 10.5", "total lean: 0.5", "legs, slips, total lean", "10.5", f"from 0 to 10: {OFF}"),
    ("total lean: half", "total lean: 0.5", "legs, slips, total lean", "'half'", ANGLE),
    ("sight line: -0.1", "sight line: 1", "legs, slips, sight line", "-0.1", f"from 0 to 10: {OFF}"),
    ("sight line: 11", "sight line: 1", "legs, slips, sight line", "11", f"from 0 to 10: {OFF}"),
    ("length: 0", "length: 1/2", "legs, slips, length", "0", ABOVE),
    (
        "length: 43",
        "length: 1/2",
        "legs, slips, length",
        "43",
        "a tenth of the height of a leg, 42: set the stop closer",
    ),
    (
        "orientation: front level\n  slips:",
        "slips:",
        "legs, orientation",
        "'front level'",
        r"did you mean 'front_level'\?",
    ),
    (
        "orientation: straight\n  slips:",
        "slips:",
        "legs, orientation",
        "'straight'",
        f"{WORDS}: front_level, side_level",
    ),
    ("orientation: [untwisted]\n  slips:", "slips:", "legs, orientation", "", "A single value should stand here"),
    ("height: 40", "height: 460", "seat, thickness", "0", "raise the seat, thin it or pitch it less"),
    (
        "square: 30\n  slips:",
        "slips:",
        "legs",
        "given by square and round; keep one of them",
        "goes with 'profile:' only",
    ),
]
BAD = [
    *((FIXED, *row) for row in BAD_FIXING),
    *((STOOL, *row) for row in BAD_SEAT),
]
BAD_IDS = [f"{path} {written}"[:50] for _, written, _, path, *_ in BAD]


@pytest.mark.parametrize(("base", "written", "instead", "path", "value", "cure"), BAD, ids=BAD_IDS)
def test_a_bad_value_is_said_with_its_line_its_value_and_a_cure(base, written, instead, path, value, cure):
    check_bad(edited(base, (f"{instead}\n", f"{written}\n")), written, path, value, cure)


def test_every_fault_of_a_seat_is_said_at_once():
    text = edited(
        STOOL,
        ("grid: 1\n", "grid: 1\nrows: {number: 3, rule: equal}\n"),
        ("thickness: 40", "thickness: 0"),
        ("outline: rectangle", "outline: square"),
        ("tenon: 25", "tennon: 25"),
        ("out: 115", "out: far"),
        ("length: 1/2", "length: -1"),
        ("rear left: {rake: 16", "back left: {rake: 16"),
        ("rear right: {rake: 16", "rear right: {rake: steep"),
    )
    sentences = faults(text)
    for part in (
        "no 'rows' here", "seat, thickness: The size is 0", "'square' is no outline", "no 'tennon' here",
        "'tenon' is missing", "'far'", "legs, slips, length: The size is -1", "'back left' is no leg", "'steep'",
    ):  # fmt: skip
        assert sum(part in sentence for sentence in sentences) == 1, part
    assert len(sentences) == 9
    for sentence in sentences:
        check_sentence(sentence)


# What does not go together


def pointed(text, words):
    """The one sentence about a text, which points to the line with these words."""
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, words)}, "), sentence
    return sentence


def test_legs_are_square_or_round_and_not_both_or_neither():
    round_legs = "  round:\n    largest: 36\n    foot: 22\n    tenon: 25\n"
    add, keep = (
        "write a line 'square:' or a part 'round:' or 'profile:'.",
        "keep one of them; 'square:' goes with 'profile:' only.",
    )
    assert pointed(edited(STOOL, (round_legs, "")), "legs:").endswith(add)
    assert pointed(edited(STOOL, (round_legs, f"  square: 30\n{round_legs}")), "legs:").endswith(keep)
    assert pointed(edited(METRIC, ("  square: 48\n", f"  square: 48\n{round_legs}")), "legs:").endswith(keep)
    assert pointed(edited(METRIC, ("  square: 48\n", "")), "legs:").endswith(add)


LEANS_OF_SEAT = [
    # which leg, its lean, what the sentence says
    ("front left", "{rake: 90, splay: 12}", "The rake is 90.0; it must lie between -90 and 90: a leg at 90 lies on"),
    ("rear right", "{rake: 16, splay: -90}", "The splay is -90.0; it must lie between -90 and 90"),
    ("rear left", "{total lean: 90, sight line: 30}", "90.0; it must lie between -90 and 90"),
    ("rear left", "{rake: 16}", "exactly two of rake, splay, total lean and sight line"),
    ("front right", "{}", "exactly two of rake, splay, total lean and sight line"),
    ("rear left", "{rake: 89.8, splay: 0}", "The total lean with its slip is 90.3"),  # no foot half a degree on
]


@pytest.mark.parametrize(("position", "lean", "words"), LEANS_OF_SEAT, ids=[" ".join(row[:2]) for row in LEANS_OF_SEAT])
def test_a_lean_that_will_not_do_under_a_seat(position, lean, words):
    old = re.search(rf"{position}: .*", STOOL).group()
    text = edited(STOOL, (old, f"{position}: {lean}"))
    sentence = pointed(text, f"{position}:")
    assert f"legs, lean, {position}: " in sentence
    assert words in sentence


def test_a_leg_that_would_run_along_a_pitched_seat():
    text = edited(STOOL, ("pitch: 0", "pitch: 5"), ("rear left: {rake: 16", "rear left: {rake: 85.5"))
    sentence = pointed(text, "rear left:")
    assert "The drill rake is 90.5; it must lie between -90 and 90" in sentence
    assert sentence.endswith("pitch the seat less or lean the leg less.")


THREE = STOOL[: STOOL.index("    rear left")] + "    rear: {rake: 18, splay: 0}\n"
STRAY = [
    # file, the leg that strays, its lean, past which leg and how far; by hand, on a height of 420
    (STOOL, "front left", "{rake: 10, splay: -40}", "front right leg across", "33.1"),  # 420 (tan 40 - tan 12) - 230
    (STOOL, "front left", "{rake: -40, splay: 12}", "rear left leg fore and aft", "62"),  # 420 (tan 40 - tan 16) - 170
    (STOOL, "rear right", "{rake: -35, splay: 12}", "front left leg fore and aft", "50"),  # 420 (tan 35 - tan 10) - 170
    # alone in the middle it is the leg that strays, to whichever side: 420 (tan 50 - tan 12) - 115
    (THREE, "rear", "{rake: 18, splay: 50}", "front right leg across", "296.3"),
    (THREE, "rear", "{rake: 18, splay: -50}", "front left leg across", "296.3"),
    (THREE, "front right", "{rake: 10, splay: -30}", "rear leg across", "127.5"),  # 420 tan 30 - 115
]


@pytest.mark.parametrize(("base", "position", "lean", "kept", "past"), STRAY, ids=[" ".join(row[1:3]) for row in STRAY])
def test_legs_that_cross_under_the_seat_are_said_of_the_one_that_strays(base, position, lean, kept, past):
    old = re.search(rf"    {position}: {{.*", base).group()
    text = edited(base, (old, f"    {position}: {lean}"))
    sentence = pointed(text, f"{position}: {lean}")
    assert f"legs, lean, {position}: The foot of the {position} leg runs {past} past that of the {kept}; " in sentence
    assert sentence.endswith("lean it less, or outward (above 0).")


def test_a_foot_among_the_other_three_is_said():
    # the front left foot lands 115 - 420 tan 14 = 10.3 to the left of the middle and 420 tan 20 - 85 = 67.9 behind
    # it; there the line from the front right foot (204, 159) to the rear left one (-204, -205) is 32 behind it
    text = edited(STOOL, ("front left: {rake: 10, splay: 12}", "front left: {rake: -20, splay: -14}"))
    sentence = pointed(text, "front left:")
    assert "The foot of the front left leg stands among the other three, which carry the piece without it" in sentence
    # halfway between those two feet it stands in line with them, and still carries nothing
    front = 85 + 420 * math.tan(math.radians(10))
    middle = (front - 85 - 420 * math.tan(math.radians(16))) / 2
    rake, splay = (math.degrees(math.atan(run / 420)) for run in (middle - 85, -115))
    text = edited(STOOL, ("front left: {rake: 10, splay: 12}", f"front left: {{rake: {rake!r}, splay: {splay!r}}}"))
    assert "The foot of the front left leg stands among the other three" in pointed(text, "front left:")
    # under a case too: the rear right foot lands at 474 - 1000 tan 15 = 206 across and 340 - 268 = 72 back, where
    # the line from the front right foot (579, -95) to the rear left one (-59, 340) is at 159
    text = edited(
        METRIC,
        ("height: 151", "height: 1000"),
        ("rear right: {rake: 0, splay: 6}", "rear right: {rake: -15, splay: -15}"),
        ("    1: 2\n", "    1: 1\n"),
        ("number: 7", "number: 2"),
    )
    assert "The foot of the rear right leg stands among the other three" in pointed(text, "rear right:")


def test_a_seat_without_a_single_leg_is_refused():
    for empty in ("  lean: {}\n", "  lean:\n"):
        text = STOOL[: STOOL.index("  lean:")] + empty
        (sentence,) = faults(text)
        check_sentence(sentence)
        assert f"chest.yaml line {line_of(text, '  lean:')}, legs, lean: " in sentence


LOW = [
    # height, pitch and thickness of a seat 260 deep; what is left under its lower edge
    ("60", "20", "20", "-47.7"),  # 60 - 20 cos 20 - 260 sin 20
    ("60", "10", "20", "-4.8"),  # 60 - 20 cos 10 - 260 sin 10
    ("20", "-10", "21", "-0.7"),  # the front edge is the lower one: 20 - 21 cos 10
]


@pytest.mark.parametrize(("height", "pitch", "thick", "left"), LOW)
def test_a_pitched_seat_whose_edge_lies_in_the_floor_is_refused(height, pitch, thick, left):
    text = edited(
        STOOL,
        ("height: 460", f"height: {height}"),
        ("pitch: 0", f"pitch: {pitch}"),
        ("thickness: 40", f"thickness: {thick}"),
        ("length: 1/2", "length: 1/9"),
    )
    sentence = pointed(text, "thickness:")
    assert f"The height under the lower edge of the seat is {left}; it must be more than 0" in sentence
    assert sentence.endswith("raise the seat, thin it or pitch it less.")


def test_what_is_odd_but_can_be_made_is_made():
    for edits in (
        (("pitch: 0", "pitch: 30"), ("rear: 85", "rear: 60")),
        (("pitch: 0", "pitch: -12"),),
        (("total lean: 0.5", "total lean: 0"), ("sight line: 1\n", "sight line: 0\n")),
        (("length: 1/2", "length: 42"),),
        (("foot: 22", "foot: 36"), ("tenon: 25", "tenon: 36")),
        (("front left: {rake: 10", "front left: {rake: -3"),),
    ):
        assert len(piece_of(DesignText.parse(edited(STOOL, *edits))).legs) == 4
    assert len(piece_of(DesignText.parse(THREE)).legs) == 3
