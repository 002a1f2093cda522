"""A fault in the case's part of a design file: bays, rows, jig, brief, what was measured.

Each row of the tables is one slip of a maker: what stands in the file, the line and the path that the
sentence must point to, and what it must say. Numbers in the sentences are worked by hand beside the row.
"""

from __future__ import annotations

import pytest
from faults import METRIC, STOOL, check_sentence, edited, faults, line_of

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

JIG = """jig:
  pitch: 20
  clearance: 3
  leftover: leg
"""
BUILT = """as built:
  - bank: 1
    width: 479.5
    openings:
      2: 102.6
"""
BRIEF = """brief:
  height:
    least: 1250
    most: 1325
  field: silhouette
  ratios: [squares]
  room: 12
  bottom: 8
  walls: 26
  contents:
    keys:
      width: 80
      depth: 150
      height: 35
      row: 1
"""
SOUND = METRIC + JIG + BUILT + BRIEF
LAW = "rule: constant step\n  step: 20"
ABOVE = "it must be more than 0: give a size above 0"
OR_MORE = "it must be 0 or more: write 0 where there is none of it"
NO_LENGTH = "cannot be read as a length"


def hear(text, place, path, *said):
    """The one sentence of the refusal: its line, its path and what it says."""
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, place)}, {path}: "), sentence
    for part in said:
        assert part in sentence, sentence


def ids(table):
    return [f"{row[0]}"[:50].replace("\n", " ") for row in table]


def test_the_file_that_is_spoiled_here_is_sound():
    piece = piece_of(DesignText.parse(SOUND))
    assert [row.pitches for row in piece.rows.rows] == [4, 5, 6, 7, 8, 9, 10]
    assert float(piece.rows.rows[1].stands) == 102.6
    assert piece.brief.places[0].row == 1


# Rows: written in place of the constant step of 20, the line, the path, what is said


ROWS = [
    # a rule without its number
    ("rule: constant step\n  ratio: 1.2", "rows:", "rows, step", "needs a step; add a line 'step: …' under rows"),
    ("rule: constant ratio\n  step: 20", "rows:", "rows, ratio", "needs a ratio; add a line 'ratio: …' under rows"),
    ("rule: weights\n  step: 20", "rows:", "rows, weights", "needs the weights; add a line 'weights: [83, 103, …]'"),
    ("rule: own list\n  weights: [1]", "rows:", "rows, openings", "needs the openings; add a line"),
    # numbers that cannot be read
    ("rule: constant step\n  first: 0", "first:", "rows, first", ABOVE),
    ("rule: constant step\n  first: -83", "first:", "rows, first", ABOVE),
    ("rule: constant step\n  first: low", "first:", "rows, first", f"'low' {NO_LENGTH}"),
    ("rule: constant step\n  last: 0", "last:", "rows, last", ABOVE),
    ("rule: constant step\n  last: nan", "last:", "rows, last", f"'nan' {NO_LENGTH}"),
    ("rule: constant ratio\n  end ratio: double", "end ratio:", "rows, end ratio", "'double' cannot be read as"),
    ("rule: constant ratio\n  end ratio: inf", "end ratio:", "rows, end ratio", "'inf' cannot be read as"),
    (f"{LAW}\n  least top: 0", "least top:", "rows, least top", ABOVE),
    (f"{LAW}\n  least top: x", "least top:", "rows, least top", f"'x' {NO_LENGTH}"),
    ("rule: weights\n  weights: [1, 2, 3, two]", "weights:", "rows, weights, 4", "'two' cannot be read as"),
    ("rule: weights\n  weights: 3", "weights:", "rows, weights", "a list should stand here, such as"),
    # lists of the wrong length, or that add up to something else than 1001
    ("rule: weights\n  weights: [1, 2, 3]", "weights:", "rows, weights", "The list has 3 weights for 7 rows"),
    ("rule: own list\n  openings: [500, 501]", "openings:", "rows, openings", "The list has 2 openings for 7 rows"),
    (
        "rule: own list\n  openings: [83, 103, 123, 143, 163, 183, 205]",
        "openings:",
        "rows, openings",
        "= 1003, not 1001; 2 too much: change one of its members",
    ),
    # numbers that name no rule, or none that fills 1001: a seventh is 143, and a first of 286 leaves 0 for the last
    ("rule: constant step\n  first: 80\n  last: 210", "first:", "rows, first", "first and last are given: give one"),
    (f"{LAW}\n  end ratio: 2", "step: 20", "rows, step", "step and end ratio are given: give one"),
    ("rule: constant step\n  first: 286", "first:", "rows, first", "leaves 0 for the smallest opening"),
    (
        "rule: constant step\n  last: 300",
        "last:",
        "rows, last",
        "must stay below 286: take a smaller one or fewer rows",
    ),
    ("rule: constant step\n  end ratio: 0", "end ratio:", "rows, end ratio", "end ratio is 0; it must be more than 0"),
    ("rule: constant ratio\n  end ratio: -2", "end ratio:", "rows, end ratio", "end ratio is -2; it must be more than"),
    ("rule: constant ratio\n  first: 1001", "first:", "rows, first", "1001 leaves nothing of 1001 for 6 more"),
    ("rule: constant ratio\n  last: 0.0001", "last:", "rows, last", "it must be from 0.1 to 10, such as 1.16"),
    ("rule: constant ratio\n  ratio: 0", "ratio: 0", "rows, ratio", "is 0; it must be more than 0"),
    ("rule: constant ratio\n  ratio: -1.2", "ratio: -1.2", "rows, ratio", "it must be more than 0"),
    ("rule: constant ratio\n  ratio: 11", "ratio: 11", "rows, ratio", "is 11; it must be from 0.1 to 10, such as 1.16"),
    (f"{LAW}\n  least top: 144", "step: 20", "rows, step", "least top is 144, but 7 equal openings are 143 each"),
    (
        "rule: weights\n  weights: [3, 3, 3, 3, 3, 3, 0]",
        "weights:",
        "rows, weights",
        "The weight is 0; it must be more",
    ),
    ("rule: weights\n  weights: [3, 3, -3, 3, 3, 3, 3]", "weights:", "rows, weights", "The weight is -3; it must be"),
    # which way it runs
    (f"{LAW}\n  order: upwards", "order:", "rows, order", "'upwards' is no order"),
    # names
    (f"{LAW}\n  weigths: [1]", "weigths:", "rows", "there is no 'weigths' here; did you mean 'weights'?"),
    (f"{LAW}\n  end_ratio: 2", "end_ratio:", "rows", "there is no 'end_ratio' here; did you mean 'end ratio'?"),
    (f"{LAW}\n  least_top: 2", "least_top:", "rows", "there is no 'least_top' here; did you mean 'least top'?"),
]


@pytest.mark.parametrize(("written", "place", "path", "said"), ROWS, ids=ids(ROWS))
def test_rows(written, place, path, said):
    hear(edited(METRIC, (LAW, written)), place, path, said)


def test_more_rows_than_there_are_steps_of_the_grid():
    hear(
        edited(METRIC, ("grid: 1\n", "grid: 1001\n")), "grid:", "grid", "less than one step of 1001", "take fewer rows"
    )


# The case: what stands below its divider


CASE = [
    ("dividers: [18, 18]", "dividers:", "case, dividers", "The list has 2 dividers for 7 rows; give 6"),
    ("dividers: [18, 18, 18, 18, 18, 0]", "dividers:", "case, dividers, 6", ABOVE),
    ("dividers: 18", "dividers:", "case, dividers", "a list should stand here"),
    ("divider step: -4", "divider step:", "case, divider step", "With a step of -4 the last of 6 dividers has no"),
    ("divider step: thin", "divider step:", "case, divider step", f"'thin' {NO_LENGTH}"),
    ("top rail: -30", "top rail:", "case, top rail", OR_MORE),
    ("top rail: inf", "top rail:", "case, top rail", f"'inf' {NO_LENGTH}"),
    ("bottom rail: -1", "bottom rail:", "case, bottom rail", OR_MORE),
    # 1109 inside less 6 x 18
    ("top rail: 1001", "divider: 18", "case, divider", "take 1109 of the 1109 inside, so no openings are left"),
    ("toprail: 3", "toprail:", "case", "there is no 'toprail' here; did you mean 'top rail'?"),
    ("divider_step: 3", "divider_step:", "case", "there is no 'divider_step' here; did you mean 'divider step'?"),
    # bays; what else can be wrong with them is in test_bad_design
    ("bays: [{rows: {number: 3}}]", "bays:", "case, bays, 1, rows", "'rule' is missing; add a line 'rule: …'"),
    ("bays: [{rows: {number: 3, rule: equl}}]", "bays:", "case, bays, 1, rows, rule", "did you mean 'equal'?"),
    ("bays: [{rows: {numbr: 3, number: 3, rule: equal}}]", "bays:", "case, bays, 1, rows", "did you mean 'number'?"),
    ("bays: [{width: -3}]", "bays:", "case, bays, 1, width", ABOVE),
    ("bays: [300, 160]", "bays:", "case, bays, 1", "names and values should stand below this"),
]


@pytest.mark.parametrize(("written", "place", "path", "said"), CASE, ids=ids(CASE))
def test_the_case(written, place, path, said):
    text = edited(METRIC, ("divider: 18", f"divider: 18\n  {written}"))
    sentences = faults(text)
    if len(sentences) == 1:
        hear(text, place, path, said)
        return
    assert written.startswith("bays: [300")  # either bay is refused, each for itself
    for number, sentence in enumerate(sentences, 1):
        check_sentence(sentence)
        assert sentence.startswith(f"chest.yaml line {line_of(text, place)}, case, bays, {number}: ")
        assert said in sentence


# The jig. 1001 less 7 x 3 is 980, and that is 49 pitches of 20


JIGS = [
    ("pitch: 0", "pitch: 20", "jig, pitch", ABOVE),
    ("pitch: -20", "pitch: 20", "jig, pitch", ABOVE),
    ("pitch: coarse", "pitch: 20", "jig, pitch", f"'coarse' {NO_LENGTH}"),
    ("clearance: 0", "clearance: 3", "jig, clearance", ABOVE),
    ("clearance: -3", "clearance: 3", "jig, clearance", ABOVE),
    ("leftover: foot", "leftover: leg", "jig, leftover", "'foot' is no place for what is left over; what can stand"),
    ("leftover: leg\n  first offset: 0", "leftover: leg", "jig, first offset", ABOVE),
    ("leftover: leg\n  last offset: x", "leftover: leg", "jig, last offset", f"'x' {NO_LENGTH}"),
    # sides of one pitch each take 7 x (200 + 3), or 7 x (500 + 10 + 3)
    ("pitch: 200", "pitch: 20", "jig, pitch", "1001 holds no 7 sides of one pitch each; 1421 is the least that does"),
    ("first offset: 500\n  pitch: 20", "pitch: 20", "jig, pitch", "of one pitch each; 3591 is the least that does"),
    ("leftover: leg\n  pich: 20", "leftover: leg", "jig", "there is no 'pich' here; did you mean 'pitch'?"),
    (
        "leftover: leg\n  last_offset: 8",
        "leftover: leg",
        "jig",
        "there is no 'last_offset' here; did you mean 'last offset'?",
    ),
]


@pytest.mark.parametrize(("written", "instead", "path", "said"), JIGS, ids=ids(JIGS))
def test_the_jig(written, instead, path, said):
    hear(edited(METRIC + JIG, (instead, written)), written.splitlines()[-1], path, said)


@pytest.mark.parametrize("name", ["pitch", "clearance"])
def test_what_a_jig_needs(name):
    text = "".join(line for line in (METRIC + JIG).splitlines(keepends=True) if f"{name}:" not in line)
    hear(text, "jig:", "jig", f"'{name}' is missing; add a line '{name}: …'")


def test_a_leftover_without_a_place_is_offered_both_ways():
    # 980 is 32 pitches of 30 and 20, so 10 more would make one more
    text = edited(METRIC + JIG, ("pitch: 20", "pitch: 30"), ("  leftover: leg\n", ""))
    hear(
        text,
        "pitch: 30",
        "jig, pitch",
        "Whole pitches leave 20 of the clear height over",
        "add 'leftover: leg', 'top rail' or 'bottom rail' under jig, or make the case 20 lower or 10 higher",
    )


def test_a_leftover_for_legs_that_are_not_there():
    # inside 1300 - 40 = 1260, less 108 and 7 x 3: 1131 is 56 pitches of 20 and 11
    text = METRIC[: METRIC.index("legs:")] + JIG
    hear(text, "pitch: 20", "jig, pitch", "There are no legs to take up what is left over; put it in the top rail or")


def test_banks_that_leave_different_amounts_cannot_both_go_to_the_legs():
    # with legs 20 longer for the first bank, the second has 1089 - 18 - 2 x 3 = 1065: 35 pitches of 30 and 15
    bays = "divider: 18\n  partition: 18\n  bays: [{width: 200}, {rows: {number: 2, rule: equal}}]"
    text = edited(METRIC + JIG, ("pitch: 20", "pitch: 30"), ("divider: 18", bays), ("1: 2", "1: 1"))
    hear(text, "pitch: 30", "jig, pitch", "The banks leave different amounts over, and legs can take up only one")
    for rail in ("top rail", "bottom rail"):
        assert piece_of(DesignText.parse(edited(text, ("leftover: leg", f"leftover: {rail}")))).chains


# What was measured


BUILTS = [
    # 103 planned, 480 wide; a quarter of either is past any tape
    (
        "2: 10.26",
        "2: 102.6",
        "2: 102.6",
        "as built",
        "Row 2 was planned 103 and is measured 10.26; read the tape again",
    ),
    ("2: 130", "2: 102.6", "", "as built", "Row 2 was planned 103 and is measured 130; read the tape again"),
    ("width: 47.95", "width: 479.5", "", "as built", "The width was planned 480 and is measured 47.95; read the tape"),
    ("9: 102.6", "2: 102.6", "", "as built", "Row 9 was measured, but the rows run from 1 to 7"),
    ("0: 102.6", "2: 102.6", "", "as built", "Row 0 was measured, but the rows run from 1 to 7"),
    ("bank: 2", "bank: 1", "", "as built", "Bank 2 was measured, but there is none; banks with drawers count from 1"),
    ("bank: 0", "bank: 1", "", "as built", "Bank 0 was measured, but there is none"),
    ("bank: 1\n  - bank: 1", "bank: 1", "", "as built", "Bank 1 was measured twice; keep one of the two"),
    ("2: 0", "2: 102.6", "2: 0", "as built, 1, openings, 2", ABOVE),
    ("width: -1", "width: 479.5", "width: -1", "as built, 1, width", ABOVE),
    ("bank: left", "bank: 1", "bank: left", "as built, 1, bank", "'left' cannot be read as a number"),
    ("two: 102.6", "2: 102.6", "two:", "as built, 1, openings, two", "'two' cannot be read as a number"),
    (
        "2: 102.6\n      02: 102.6",
        "2: 102.6",
        "openings:",
        "as built, 1, openings",
        "Row 2 stands here twice; keep one",
    ),
    ("banc: 1", "bank: 1", "banc:", "as built, 1", "there is no 'banc' here; did you mean 'bank'?"),
    ("as_built:", "as built:", "as_built:", "top of the file", "there is no 'as_built' here; did you mean 'as built'?"),
]


@pytest.mark.parametrize(("written", "instead", "place", "path", "said"), BUILTS, ids=ids(BUILTS))
def test_what_was_measured(written, instead, place, path, said):
    text = edited(METRIC + BUILT, (instead, written))
    hear(text, place if path != "as built" else "as built:", path, said)


def test_what_was_measured_is_a_list_of_banks():
    hear(METRIC + "as built: {bank: 1}\n", "as built:", "as built", "a list should stand here")


def test_two_banks_that_were_measured_are_fine():
    bays = "divider: 18\n  partition: 18\n  bays: [{width: 200}, {open: no}]"
    text = edited(METRIC + BUILT, ("divider: 18", bays), ("1: 2", "1: 1"), ("width: 479.5", "width: 200.5"))
    piece = piece_of(DesignText.parse(text + "  - {bank: 2, openings: {7: 202}}\n"))
    first, second = (bank.rows.rows for bank in piece.banks)
    assert [float(row.stands) for row in first[:3]] == [83, 102.6, 123]
    assert [row.stands for row in second[-2:]] == [183, 202]
    assert [row.widths[0] for row in (first[0], second[0])] == [200.5, 262]  # 480 - 200 - 18


# The brief


BRIEFS = [
    ("room: 0", "room: 12", "room: 0", "brief, room", ABOVE),
    ("room: -12", "room: 12", "room: -12", "brief, room", ABOVE),
    ("bottom: -8", "bottom: 8", "bottom: -8", "brief, bottom", OR_MORE),
    ("walls: -26", "walls: 26", "walls: -26", "brief, walls", OR_MORE),
    ("walls: two", "walls: 26", "walls: two", "brief, walls", f"'two' {NO_LENGTH}"),
    ("field: carcase", "field: silhouette", "field:", "brief, field", "'carcase' is no field"),
    ("ratios: [golden]", "ratios: [squares]", "ratios:", "brief, ratios, 1", "'golden' is no ratio system"),
    ("ratios: squares", "ratios: [squares]", "ratios:", "brief, ratios", "a list should stand here"),
    ("least: 1326", "least: 1250", "  height:\n", "brief, height", "The least height is 1326 and the most 1325"),
    ("most: 0", "most: 1325", "most: 0", "brief, height, most", ABOVE),
    ("most: high", "most: 1325", "most: high", "brief, height, most", f"'high' {NO_LENGTH}"),
    (
        "mst: 1325\n    most: 1325",
        "most: 1325",
        "mst:",
        "brief, height",
        "there is no 'mst' here; did you mean 'most'?",
    ),
    ("width: 0", "width: 80", "width: 0", "brief, contents, keys, width", ABOVE),
    ("depth: deep", "depth: 150", "depth: deep", "brief, contents, keys, depth", f"'deep' {NO_LENGTH}"),
    ("row: 8", "row: 1", "row: 8", "brief, contents, keys, row", "Row 8 is not there; the rows run from 1 to 7"),
    ("row: 0", "row: 1", "row: 0", "brief, contents, keys, row", "Row 0 is not there; the rows run from 1 to 7"),
    ("row: top", "row: 1", "row: top", "brief, contents, keys, row", "'top' cannot be read as a number"),
    ("rwo: 1", "row: 1", "rwo: 1", "brief, contents, keys", "there is no 'rwo' here; did you mean 'row'?"),
    ("rooms: 2\n  room: 12", "room: 12", "rooms:", "brief", "there is no 'rooms' here; did you mean 'room'?"),
]


@pytest.mark.parametrize(("written", "instead", "place", "path", "said"), BRIEFS, ids=ids(BRIEFS))
def test_the_brief(written, instead, place, path, said):
    text = edited(METRIC + BRIEF, (f"{instead}\n", f"{written}\n"))
    if place.endswith("\n"):  # the line that says no more than its name
        assert text.count(place) == 1
        (sentence,) = faults(text)
        check_sentence(sentence)
        line = text[: text.index(place)].count("\n") + 1
        assert sentence.startswith(f"chest.yaml line {line}, {path}: {said}")
    else:
        hear(text, place, path, said)


MISSING = [
    ("    most: 1325\n", "most", "brief, height"),
    ("      depth: 150\n", "depth", "brief, contents, keys"),
    ("      height: 35\n", "height", "brief, contents, keys"),
]


@pytest.mark.parametrize(("part", "name", "path"), MISSING)
def test_what_limits_and_contents_need(part, name, path):
    (sentence,) = faults(edited(METRIC + BRIEF, (part, "")))
    check_sentence(sentence)
    assert f", {path}: '{name}' is missing; add a line '{name}: …'" in sentence


def test_contents_need_finger_room():
    hear(
        edited(METRIC + BRIEF, ("  room: 12\n", "")), "contents:", "brief, contents", "add a line 'room: …' under brief"
    )


def test_contents_are_told_by_name():
    hear(
        edited(METRIC + BRIEF, (BRIEF[BRIEF.index("  contents") :], "  contents: [keys]\n")),
        "contents:",
        "brief, contents",
        "names and values should stand below this",
    )


def test_a_stool_has_no_jig_and_no_brief():
    for key in ("jig", "brief", "as built"):
        (sentence,) = faults(f"{STOOL}{key}: 3\n")
        assert f"there is no '{key}' here; what can stand there: grid, legs, overall," in sentence
