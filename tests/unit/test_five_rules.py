"""One field under five rules: each adds up, step and ratio have the piece's own end ratio, the own list stays."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strained import edited_piece
from test_openings_plate import CABINET, CHEST, INCH, LOW

from furnlib.base.guards import DesignError
from furnlib.plan.sizes.five_rules import five_rules

NO_JIG = (r"jig:.*\n(  .*\n)+", "")


def tried(text, *edits):
    piece = edited_piece(text, *edits)
    return piece, five_rules(piece.design, piece.rows)


def by_name(rules):
    return {rule.name: rule for rule in rules.rules}


def test_the_chest_by_hand():
    _, rules = tried(CHEST)
    named = by_name(rules)
    assert rules.end_ratio == F(203, 83)
    assert rules.clear_height == 1001
    assert list(named) == ["equal", "constant step", "constant ratio", "weights by summation", "as designed"]
    assert named["equal"].closed.openings == (F(143),) * 7
    # the chest is a constant step itself: the same end ratio gives the same step
    assert [int(h) for h in named["constant step"].closed.openings] == [83, 103, 123, 143, 163, 183, 203]
    # 1 + 2 + 3 + 5 + 8 + 13 + 21 = 53 parts of 1001
    assert named["weights by summation"].closed.ideal == tuple(F(1001 * w, 53) for w in (1, 2, 3, 5, 8, 13, 21))
    ratio = named["constant ratio"].closed.ideal
    assert float(ratio[1] / ratio[0]) == pytest.approx((203 / 83) ** (1 / 6))
    assert named["constant step"].words == "step 20"
    assert named["as designed"].words == "constant step of 20"


@pytest.mark.parametrize("text", [CHEST, INCH, LOW, CABINET])
def test_every_rule_fills_the_same_field_on_the_grid(text):
    piece, rules = tried(text)
    for rule in rules.rules[:-1]:
        assert sum(rule.closed.ideal) == sum(rule.closed.openings) == rules.clear_height
        assert all((h / piece.design.grid).denominator == 1 for h in rule.closed.openings)
    assert rules.rules[-1].closed is piece.rows.closed


@pytest.mark.parametrize("text", [CHEST, INCH, LOW])
def test_step_and_ratio_have_the_end_ratio_of_the_piece(text):
    piece, rules = tried(text)
    wanted = piece.rows.rows[-1].ideal / piece.rows.rows[0].ideal
    assert rules.own
    for name in ("constant step", "constant ratio"):
        ideal = by_name(rules)[name].closed.ideal
        assert float(ideal[-1] / ideal[0]) == pytest.approx(float(wanted))


def test_where_the_own_are_equal_step_and_ratio_double():
    _, rules = tried(CABINET)
    assert (rules.own, rules.end_ratio) == (False, 2)


def test_openings_that_shrink_downwards_are_compared_with_such():
    down = (r"constant step  .*\n  step: 20", "own list\n  openings: [203, 183, 163, 143, 123, 103, 83]")
    _, rules = tried(CHEST, NO_JIG, down)
    assert rules.end_ratio == F(83, 203)
    assert rules.rules[-1].name == "own list"
    for rule in rules.rules[1:]:
        assert rule.closed.openings[0] > rule.closed.openings[-1]
    assert by_name(rules)["weights by summation"].words.startswith("21 : 13")


def test_a_rule_that_cannot_be_closed_says_why():
    rows = ((r"number: 7", "number: 24"), (r"step: 20", "step: 1"), (r"divider: 18", "divider: 6"), NO_JIG)
    _, rules = tried(CHEST, *rows)
    # 971 by weights of 121 391 in all: the smallest is far below a step
    assert by_name(rules)["weights by summation"].closed is None
    assert "smallest opening" in by_name(rules)["weights by summation"].fault
    assert [bool(rule.closed) for rule in rules.rules].count(False) == 1


def test_what_lies_off_the_grid_is_left_out_and_said():
    own = (r"constant step  .*\n  step: 20", "own list\n  openings: [83.5, 103, 123, 143, 163, 183, 202]")
    _, rules = tried(CHEST, NO_JIG, own, (r"height: 1300", "height: 1299.5"))
    assert (rules.clear_height, rules.off_grid) == (1000, F(1, 2))
    assert all(sum(rule.closed.openings) == 1000 for rule in rules.rules[:-1])
    assert sum(rules.rules[-1].closed.openings) == F(2001, 2)


def test_one_row_has_no_rules():
    with pytest.raises(DesignError, match="has one row of drawers here; rules differ from two rows on"):
        tried(CHEST, (r"number: 7", "number: 1"), (r"step: 20", "step: 0"), (r"split:\n.*\n", "split: {}\n"), NO_JIG)


@given(rows=st.integers(2, 12), step=st.integers(-20, 20), grid=st.sampled_from(["0.5", "1"]))
@settings(max_examples=25, deadline=None)
def test_whatever_the_rows_the_fields_are_one(rows, step, grid):
    _, rules = tried(
        CHEST,
        NO_JIG,
        (r"number: 7", f"number: {rows}"),
        (r"step: 20", f"step: {step / 10}"),
        (r"grid: 1 ", f"grid: {grid} "),
    )
    for rule in rules.rules:
        if rule.closed:
            assert sum(rule.closed.openings) == sum(rule.closed.ideal) == rules.clear_height
            assert rule.closed.largest_change <= F(grid)
        else:
            assert rule.fault.endswith(".")
