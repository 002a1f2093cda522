"""A design file with a fault in it: what is said, on which line, and that it can be acted on.

Each row of the tables below is one slip of a maker: what is written instead, where the sentence
must point, the value that it must say and the words that tell what to do. Numbers in the sentences
are worked by hand beside the row.
"""

from __future__ import annotations

import re

import pytest
from faults import (
    FIXED,
    INCH,
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


def test_the_files_that_are_spoiled_here_are_sound():
    assert piece_of(DesignText.parse(METRIC)).rows.rows[0].opening == 83
    assert len(piece_of(DesignText.parse(INCH)).rows.rows) == 7
    assert [leg.fixing.wander > 0 for leg in piece_of(DesignText.parse(FIXED)).legs] == [True] * 4
    assert [float(leg.height) for leg in piece_of(DesignText.parse(STOOL)).legs] == [420] * 4


# Names

UNKNOWN = [
    # written, instead of, the name, where, what is offered
    ("gird: 1", "grid: 1", "gird", "top of the file", "did you mean 'grid'?"),
    (
        "colour: red\ngrid: 1",
        "grid: 1",
        "colour",
        "top of the file",
        "what can stand there: as built, back, brief, case, climate, drawers, finish, grain, grid,",
    ),
    ("hieght: 1300", "height: 1300", "hieght", "overall", "did you mean 'height'?"),
    ("devider: 18", "divider: 18", "devider", "case", "did you mean 'divider'?"),
    ("stepp: 20", "step: 20", "stepp", "rows", "did you mean 'step'?"),
    ("squre: 48", "square: 48", "squre", "legs", "did you mean 'square'?"),
    ("raer: 40", "rear: 40", "raer", "legs, inset", "did you mean 'rear'?"),
    ("left: {rak: 8", "left: {rake: 8", "rak", "legs, lean, front left", "did you mean 'rake'?"),
    ("left: {total_lean: 8", "left: {rake: 8", "total_lean", "legs, lean, front left", "mean 'total lean'?"),
    ("left: {sightline: 8", "left: {rake: 8", "sightline", "legs, lean, front left", "mean 'sight line'?"),
    (
        "frnt left: {rake: 8",
        "front left: {rake: 8",
        "frnt left",
        "legs, lean, frnt left",
        "mean 'front left'?",
    ),
    (
        "outermost: {rake: 8",
        "front left: {rake: 8",
        "outermost",
        "legs, lean, outermost",
        "there: front left, front right, middle, rear left, rear right.",
    ),
    ("rear: {rake: 0", "rear left: {rake: 0", "rear", "legs, lean, rear", "mean 'rear left'?"),  # none under a case
    ("front: {rake: 8", "front left: {rake: 8", "front", "legs, lean, front", "mean 'front left'?"),
    ("mortises: {out: 9}\n  square: 48", "square: 48", "mortises", "legs", "there: fixing, height, inset, lean,"),
    ("orientaton: untwisted\n  square: 48", "square: 48", "orientaton", "legs", "mean 'orientation'?"),
]


@pytest.mark.parametrize(("written", "instead", "name", "where", "offer"), UNKNOWN, ids=[row[2] for row in UNKNOWN])
def test_an_unknown_name_is_said_and_the_nearest_one_offered(written, instead, name, where, offer):
    check_unknown(edited(METRIC, (instead, written)), written, name, where, offer)


MISSING = [
    # what is taken out, its name, where, the line that the sentence points to
    ("piece: Chest\n", "piece", "top of the file", "unit: mm"),
    ("unit: mm\n", "unit", "top of the file", "piece: Chest"),
    ("grid: 1\n", "grid", "top of the file", "piece: Chest"),
    ("  height: 1300\n", "height", "overall", "overall:"),
    ("  depth: 380\n", "depth", "overall", "overall:"),
    ("  divider: 18\n", "divider", "case", "case:"),
    ("  number: 7\n", "number", "rows", "rows:"),
    ("  rule: constant step\n", "rule", "rows", "rows:"),
    ("  height: 151\n", "height", "legs", "legs:"),
    ("    rear: 40\n", "rear", "legs, inset", "inset:"),
]


@pytest.mark.parametrize(("part", "name", "where", "line"), MISSING, ids=[f"{row[2]}: {row[1]}" for row in MISSING])
def test_a_missing_name_is_said_with_the_line_to_add(part, name, where, line):
    check_missing(edited(METRIC, (part, "")), name, where, line)


# Values: written, instead of, path, the value said, words of the cure

WAYS = "write it like 146, 146 mm, 14.6 cm, 5 11/16 in"
ABOVE = "it must be more than 0: give a size above 0"
RULE = "rule: constant step"
SPLIT = "split:\n    1: 2"
BAD = [
    # lengths that cannot be read
    ("width: wide", "width: 520", "overall, width", "'wide'", f"cannot be read as a length; {WAYS}"),
    ("width: nan", "width: 520", "overall, width", "'nan'", f"cannot be read as a length; {WAYS}"),
    ("width: .inf", "width: 520", "overall, width", "'.inf'", f"cannot be read as a length; {WAYS}"),
    ("width: -inf", "width: 520", "overall, width", "'-inf'", f"cannot be read as a length; {WAYS}"),
    ("width: 1e3", "width: 520", "overall, width", "'1e3'", f"cannot be read as a length; {WAYS}"),
    ("width: 5 kg", "width: 520", "overall, width", "'5 kg'", f"cannot be read as a length; {WAYS}"),
    ("width:", "width: 520", "overall, width", "", f"No length is written; {WAYS}"),
    ("width: 1,300", "width: 520", "overall, width", "'1,300'", "decimal; write 1300, or 1.300"),
    ("width: 101 m", "width: 520", "overall, width", "'101 m'", "longer than 100 m; check the number"),
    ("side: infinity", "side: 20", "case, side", "'infinity'", "cannot be read as a length"),
    ("grid: NaN", "grid: 1", "grid", "'NaN'", "cannot be read as a length"),
    ("square: inf", "square: 48", "legs, square", "'inf'", "cannot be read as a length"),
    ("step: nan", "step: 20", "rows, step", "'nan'", "cannot be read as a length"),
    # sizes of nothing and less
    ("width: 0", "width: 520", "overall, width", "0", ABOVE),
    ("width: -520", "width: 520", "overall, width", "-520", ABOVE),
    ("grid: 0", "grid: 1", "grid", "0", ABOVE),
    ("grid: -1", "grid: 1", "grid", "-1", ABOVE),
    ("side: -20", "side: 20", "case, side", "-20", ABOVE),
    ("divider: 0", "divider: 18", "case, divider", "0", ABOVE),
    ("front: -45", "front: 45", "legs, inset, front", "-45", ABOVE),
    ("square: 0 mm", "square: 48", "legs, square", "0 mm", ABOVE),
    ("height: -151", "height: 151", "legs, height", "-151", ABOVE),
    # what does not fit: 1300 - 151 - 21 - 19 = 1109 inside, 1300 - 151 = 1149 for the case
    ("divider: 185", "divider: 18", "case, divider", "6 dividers of 185 take 1110 of the 1109", "thin the"),
    ("side: 260", "side: 20", "case, side", "0", "thin the sides or widen the piece"),
    ("top: 1130", "top: 21", "case, top", "0", "thin top and bottom or raise the case"),
    ("height: 150", "height: 1300", "overall, height", "-1", "raise the piece or shorten the legs"),
    # 1001 / 7 = 143 in the middle, 3 x 48 = 144 more than it above
    ("step: 48", "step: 20", "rows, step", "48 over 7 rows leaves -1", "take a smaller step or fewer rows"),
    # rows
    ("number: 0", "number: 7", "rows, number", "0", "from 1 to 200"),
    ("number: -1", "number: 7", "rows, number", "-1", "from 1 to 200"),
    ("number: 7.5", "number: 7", "rows, number", "'7.5'", "not a whole number; write it like 7"),
    ("number: seven", "number: 7", "rows, number", "'seven'", "write it like 7"),
    ("number: " + "9" * 30, "number: 7", "rows, number", "9" * 30, "from 1 to 200"),
    ("number: nan", "number: 7", "rows, number", "'nan'", "write it like 7"),
    ("number: inf", "number: 7", "rows, number", "'inf'", "write it like 7"),
    # the rule
    ("rule: constnt step", RULE, "rows, rule", "'constnt step'", r"did you mean 'constant step'\?"),
    ("rule: golden", RULE, "rows, rule", "'golden'", "constant ratio, constant step, equal, own list"),
    ("rule: constant ratio", RULE, "rows, ratio", "'constant ratio'", "add a line 'ratio: …' under rows"),
    ("rule: own list", RULE, "rows, openings", "'own list'", r"add a line 'openings: \[83, 103, …\]' under"),
    ("split: {1: 2}", f"step: 20\n  {SPLIT}", "rows, step", "'constant step'", "add a line 'step: …' under"),
    # splits
    ("8: 2", "1: 2", "rows, split", "8", "run from 1 to 7"),
    ("0: 2", "1: 2", "rows, split", "0", "run from 1 to 7"),
    ("upper: 2", "1: 2", "rows, split, upper", "'upper'", "write it like 7"),
    ("1: 0", "1: 2", "rows, split, 1", "0", "1 to 12 drawers side by side"),
    ("1: -2", "1: 2", "rows, split, 1", "-2", "1 to 12 drawers side by side"),
    ("1: 13", "1: 2", "rows, split, 1", "13", "1 to 12 drawers side by side"),
    ("1: two", "1: 2", "rows, split, 1", "'two'", "write it like 7"),
    # unit and words
    ("unit: cm", "unit: mm", "unit", "'cm'", "what can stand there: in, mm"),
    ("unit: IN", "unit: mm", "unit", "'IN'", "what can stand there: in, mm"),
    ("piece:", "piece: Chest", "piece", "", "write 1 to 60 letters"),
    ("piece: " + "W" * 61, "piece: Chest", "piece", "W" * 20, "write 1 to 60 letters"),
    # insets past the middle of 520 across and of 380 from front to back
    ("side: 260", "side: 46", "legs, inset", "260", "must be less than 260: move the leg outward"),
    ("front: 190", "front: 45", "legs, inset", "190", "must be less than 190: move the leg outward"),
    ("rear: 190", "rear: 40", "legs, inset", "190", "must be less than 190: move the leg outward"),
]
BAD_IDS = [f"{path} {written}"[:50] for written, _, path, *_ in BAD]


@pytest.mark.parametrize(("written", "instead", "path", "value", "cure"), BAD, ids=BAD_IDS)
def test_a_bad_value_is_said_with_its_line_its_value_and_a_cure(written, instead, path, value, cure):
    check_bad(edited(METRIC, (f"{instead}\n", f"{written}\n")), written, path, value, cure)


NO_OPEN_BAY = "inside and leave no open bay: narrow a bay, thin the partition or widen the piece"
BAYS = [  # partition and bays, path, what is said; 520 - 2 x 20 = 480 inside
    ("partition: 18, bays: [{width: 462}, {open: yes}]", "case, bays", f"take 480 of the 480 {NO_OPEN_BAY}"),
    ("partition: 18, bays: [{width: 9000}, {open: yes}]", "case, bays", f"take 9018 of the 480 {NO_OPEN_BAY}"),
    ("partition: 18, bays: [{width: 0}, {open: yes}]", "case, bays, 1, width", f"is 0; {ABOVE}"),
    ("partition: -18, bays: [{width: 300}, {open: yes}]", "case, partition", f"is -18; {ABOVE}"),
    ("partition: 18, bays: [{width: wide}]", "case, bays, 1, width", f"'wide' cannot be read as a length; {WAYS}"),
    ("bays: [{width: 300}, {open: yes}]", "case, bays", "need a partition between them; add a line 'partition: …'"),
    (
        "partition: 18, bays: [{width: 300, hight: 3}]",
        "case, bays, 1",
        "there is no 'hight' here; what can stand there: ",
    ),
    ("partition: 18, bays: 300", "case, bays", "a list should stand here"),
    (
        "partition: 18, bays: [{open: maybe}]",
        "case, bays, 1, open",
        "'maybe' is no answer; what can stand there: no, yes",
    ),
    ("partition: 18, bays: [{open: yes}, {open: yes}]", "case, bays", "Every bay is open"),
    ("partition: 18, bays: [{width: 300}, {width: 170}]", "case, bays", "300 + 170 + 18 = 488, not 480; 8 too much"),
    (
        "partition: 18, bays: [{width: 17}, {open: yes}]",
        "rows, split, 1",
        "leave no width for 2 drawers; split it into fewer",
    ),
]


@pytest.mark.parametrize(("bays", "path", "said"), BAYS, ids=[row[0] for row in BAYS])
def test_bays_that_cannot_be_are_said_with_their_line_and_a_cure(bays, path, said):
    keys = bays.replace(", bays:", "\n  bays:")
    text = edited(METRIC, ("divider: 18", f"divider: 18\n  {keys}"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    place = {"case": "bays:", "rows": "1: 2"}[path.split(",")[0]] if path != "case, partition" else "partition:"
    assert sentence.startswith(f"chest.yaml line {line_of(text, place)}, {path}")
    assert said in sentence


def test_more_than_two_hundred_rows_are_refused_where_they_would_fit():
    text = edited(METRIC, ("number: 7", "number: 201"), ("divider: 18", "divider: 1"), ("constant step", "equal"))
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, 'number: 201')}, rows, number: ")
    assert "201" in sentence
    assert "from 1 to 200" in sentence


def test_a_row_split_twice_under_two_spellings_is_refused():
    (sentence,) = faults(edited(METRIC, ("    1: 2\n", "    1: 2\n    01: 3\n")))
    check_sentence(sentence)
    assert "rows, split" in sentence


def test_a_step_of_less_than_nothing_and_one_row_are_fine():
    falling = piece_of(DesignText.parse(edited(METRIC, ("step: 20", "step: -20"))))
    assert [row.opening for row in falling.rows.rows] == [203, 183, 163, 143, 123, 103, 83]
    single = piece_of(DesignText.parse(edited(METRIC, ("number: 7", "number: 1"))))
    assert [row.opening for row in single.rows.rows] == [1109]


def test_two_hundred_rows_are_fine_where_they_fit():
    # 1300 - 151 - 21 - 19 = 1109 inside; 199 dividers of 1 leave 910 for 200 openings
    text = edited(METRIC, ("number: 7", "number: 200"), ("divider: 18", "divider: 1"), ("constant step", "equal"))
    openings = [row.opening for row in piece_of(DesignText.parse(text)).rows.rows]
    assert len(openings) == 200
    assert sum(openings) == 910
    assert set(openings) == {4, 5}


# Several faults at once


def test_the_first_fault_is_raised_and_the_rest_come_with_it_in_the_order_of_the_file():
    text = edited(
        METRIC,
        ("width: 520", "width: wide"),
        ("divider: 18", "devider: 18"),
        ("rear: 40", "rear: -1"),
        ("unit: mm", "unit: cm"),
        ("rear left: {rake: 0", "rear left: {rake: flat"),
    )
    sentences = faults(text)
    lines = [int(re.match(r"chest\.yaml line (\d+),", sentence).group(1)) for sentence in sentences]
    assert lines == sorted(lines)
    assert len(sentences) == 6  # the misspelt divider is one name too many and one too few
    for part in ("'wide'", "'devider'", "'divider' is missing", "-1;", "'cm'", "'flat'"):
        assert sum(part in sentence for sentence in sentences) == 1, part
    for sentence in sentences:
        check_sentence(sentence)


def test_an_almost_empty_file_hears_everything_it_lacks_at_once():
    sentences = faults("piece: Box\n")
    missing = {re.search(r"'(\w+)' is missing", sentence).group(1) for sentence in sentences}
    assert missing == {"unit", "grid", "overall", "case", "rows"}
