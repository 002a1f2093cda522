"""The plate of five rules: one field drawn five times true to scale, its heights written in, its words clear."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from pictures import ROOT
from strained import edited_piece
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on
from test_openings_plate import CABINET, CHEST, INCH, LOW, TALLER, TWO_KINDS, UNEVEN, into

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill
from furnlib.draw.plates import plates_of
from furnlib.draw.plates.bank_kinds import bank_kinds
from furnlib.draw.plates.five_rules import rules_plate
from furnlib.draw.plates.views import written
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.plan.sizes.five_rules import five_rules

NO_JIG = (r"jig:.*\n(  .*\n)+", "")


def rows(number, divider):
    return (
        (r"number: 7", f"number: {number}"),
        (r"step: 20", "step: 1"),
        (r"divider: 18", f"divider: {divider}"),
        NO_JIG,
    )


PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "low": (LOW,),
    "two kinds": (CABINET, TWO_KINDS),
    "left in the top rail": (CHEST, TALLER, into("top rail")),
    "uneven": (CHEST, UNEVEN, NO_JIG, (r"grid: 1 ", "grid: 0.5 ")),
    "twelve rows": (CHEST, *rows(12, 12)),
    "twenty-four rows": (CHEST, *rows(24, 6)),
    "sixty rows": (CHEST, (r"grid: 1 ", "grid: 0.1 "), (r"step: 20", "step: 0.1"), *rows(60, 3)[::2], NO_JIG),
    "off the grid": (
        CHEST, NO_JIG, (r"constant step  .*\n  step: 20", "own list\n  openings: [83.5, 103, 123, 143, 163, 183, 202]"),
        (r"height: 1300", "height: 1299.5"),
    ),
    "wide": (CHEST, (r"width: 520", "width: 2400")),
    "a long rule": (CHEST, (
        r"constant step  .*\n  step: 20", "weights\n  order: bottom to top\n  weights: [7, 6, 5, 4, 3, 2, 1]"
    )),
}  # fmt: skip
SLOW = {"uneven", "sixty rows", "wide", "left in the top rail", "a long rule"}
every_case = pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name in SLOW else name for name in PIECES]
)


@cache
def case(name):
    return edited_piece(*PIECES[name])


@cache
def plates(name):
    return [rules_plate(case(name), number=n) for n, _ in enumerate(bank_kinds(case(name)), 1)]


def fields(plate):
    """For each field from the left its openings, as (low, high), from the top."""
    boxes = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.tint == "paper"]
    lefts = sorted({round(float(box[:, 0].min()), 6) for box in boxes})
    ends = {left: [box[:, 1] for box in boxes if round(float(box[:, 0].min()), 6) == left] for left in lefts}
    return [sorted(((ys.min(), ys.max()) for ys in ends[left]), reverse=True) for left in lefts]


@every_case
def test_words_stand_clear_and_every_sheet_fits(name):
    check_layout(case(name), plates(name))
    check_words(plates(name))


@pytest.mark.parametrize("name", ["chest", "inch"])
def test_the_words_of_a_whole_sheet_stand_clear(name):
    check_whole_sheets(case(name), plates(name))


@every_case
def test_openings_and_dividers_are_drawn_true_in_every_field(name):
    for kind, plate in zip(bank_kinds(case(name)), plates(name), strict=True):
        closed = [rule.closed for rule in five_rules(case(name).design, kind.rows).rules if rule.closed]
        high = float(kind.rows.clear_height + sum(kind.rows.dividers))
        assert len(fields(plate)) == len(closed)
        for drawn, one in zip(fields(plate), closed, strict=True):
            assert [top - low for low, top in drawn] == pytest.approx([float(h) for h in one.openings])
            gaps = [upper[0] - lower[1] for upper, lower in pairwise(drawn)]
            assert gaps == pytest.approx([float(t) for t in kind.rows.dividers])
            assert drawn[0][1] == pytest.approx(high)


@pytest.mark.parametrize("name", ["chest", "inch", "low", "twelve rows"])
def test_heights_are_written_in_and_the_change_below(name):
    made, unit = case(name), case(name).design.unit
    (kind,), (plate,) = bank_kinds(made), plates(name)
    said = words_on(plate)
    for rule in five_rules(made.design, kind.rows).rules:
        assert rule.name.capitalize() in said
        if rule.closed:
            heights = [written(h, unit) for h in rule.closed.openings]
            assert all(said.count(height) >= 2 for height in heights)  # in its field and in the table
    assert len([words for words in said if words.startswith("largest change")]) == 5
    assert said.count("Row") == 1


def test_the_words_say_how_step_and_ratio_were_chosen():
    said = " ".join(words_on(plates("chest")[0]))
    assert "the largest opening is 2.45 times the smallest, as in the piece's own" in said
    assert "The piece's own stand on the pitch of the jig" in said
    equal = " ".join(words_on(rules_plate(piece_of(DesignText.parse(CABINET)))))
    assert "2 times the smallest, since the piece's own are equal" in equal
    assert "pitch of the jig" not in equal


def test_what_cannot_be_closed_is_said_and_its_field_stays_shut():
    said = " ".join(words_on(plates("twenty-four rows")[0]))
    assert "not on this grid" in said
    assert "Weights by summation: The smallest opening" in said
    assert "Weights by summation cannot be closed on this grid." in plates("twenty-four rows")[0].spoken
    assert "0.5 of the clear height lies off the grid" in " ".join(words_on(plates("off the grid")[0]))


def test_a_sheet_for_each_kind_of_bank_with_two_rows_or_more():
    assert [plate.name for plate in plates("two kinds")] == ["Five rules 1", "Five rules 2"]
    assert "bank 2" in plates("two kinds")[1].caption
    names = [plate.name for plate in plates_of(case("two kinds"))]
    assert names.index("Five rules 1") > names.index("Openings 2")
    one = re.sub(r"number: 6", "number: 1", CABINET)
    made = piece_of(DesignText.parse(one))
    assert "Five rules" not in [plate.name for plate in plates_of(made)]
    with pytest.raises(DesignError, match="no sheet of rules 1, it has 0: one for each kind of bank of 2 rows or more"):
        rules_plate(made)
    with pytest.raises(DesignError, match="no case and no drawers"):
        rules_plate(read_piece(ROOT / "notebooks/designs/practice_stool.yaml"))


def test_the_same_piece_gives_the_same_bytes(tmp_path):
    one, other = (rules_plate(case("chest")) for _ in range(2))
    assert one.svg() == other.svg()
    paths = [plate.save(tmp_path / f"{n}.pdf") for n, plate in enumerate((one, other))]
    assert paths[0].read_bytes() == paths[1].read_bytes()
