"""What a maker is told to settle before wood is cut: each concern at its number, worked by hand."""

from __future__ import annotations

import re
from fractions import Fraction as F
from pathlib import Path

import pytest

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of
from furnlib.plan.sizes.size import Concern

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
INCH = F(254, 10)


def made(text):
    return piece_of(DesignText.parse(text))


def codes(piece):
    return {concern.code for concern in piece.concerns}


def test_the_same_piece_gives_the_same_warnings_in_either_unit():
    text = (DESIGNS / "landing_chest.yaml").read_text()
    metric = made(text)
    lengths = re.compile(r"(?<=: )([0-9]+)(?=\s|$)")
    lines = []
    for line in text.splitlines():
        keep = re.match(r"\s*(number|1|piece|rule)\b", line) or "{" in line
        lines.append(line if keep else lengths.sub(lambda found: f"{F(found.group()) / INCH}", line, count=1))
    twin = made("\n".join(lines).replace("unit: mm", "unit: in"))
    assert twin.case.clear_height * INCH == metric.case.clear_height == 1001
    assert codes(twin) == codes(metric)


BOX = """piece: Box
unit: mm
grid: 1
overall: {height: 600, width: 500, depth: 400}
case: {side: 20, top: 20, bottom: 20, divider: 20}
rows: {number: 3, rule: equal}
legs:
  height: 80
  square: 40
  inset: {front: 50, rear: 50, side: 50}
  lean:
    front left: {rake: 0, splay: 0}
    rear left: {rake: 0, splay: 0}
"""
# inside 600 - 80 - 40 = 480, less 2 dividers of 20: 440 for three openings; legs 600 / 80 = 7.5


def with_legs(rake, splay, inset):
    lean = f"{{rake: {rake}, splay: {splay}}}"
    text = re.sub(r"{rake: 0, splay: 0}", lean, BOX)
    return made(re.sub(r"inset: {.*}", f"inset: {{{inset}}}", text))


def test_a_sound_box_has_nothing_to_settle():
    box = made(BOX.replace("height: 600", "height: 601"))  # 441 / 3 = 147 each
    assert codes(box) == set()


@pytest.mark.parametrize(
    ("edit", "code", "number_said"),
    [
        (("rows: {number: 3", "rows: {number: 12"), "opening_too_low", "21 mm"),  # 480 - 220 = 260 over 12: 21.7
        (("height: 80", "height: 50"), "leg_share", "1 : 12.0"),  # 600 / 50
        (("height: 80", "height: 150"), "leg_share", "1 : 4.0"),
        (("square: 40", "square: 104"), "leg_proud_of_case", "2 mm past"),  # 50 - 52
        (("rule: equal", "rule: own list, openings: [146.5, 146.5, 147]"), "off_the_grid", "146.5 mm"),
    ],
)
def test_each_concern_comes_when_it_should(edit, code, number_said):
    piece = made(BOX.replace(*edit, 1))
    found = [concern for concern in piece.concerns if concern.code == code]
    assert found
    assert any(number_said in concern.number for concern in found)
    for concern in piece.concerns:
        assert concern.cures
        assert str(concern).endswith(".")


def test_a_foot_past_the_case_is_measured_at_its_outer_edge():
    # plumb square of 40 leaned by 45 in one direction only: the foot runs 80 out and its half square
    # is stretched to 20 / cos 45 = 28.28: 80 + 28.28 - 50 = 58.3 past the edge
    front = with_legs(45, 0, "front: 50, rear: 180, side: 50").concerns
    assert [c.number for c in front if c.code == "foot_past_case" and "front" in c.number and "58.3 mm" in c.number]
    side = with_legs(0, 45, "front: 50, rear: 50, side: 50").concerns
    assert [c.number for c in side if c.code == "foot_past_case" and "58.3 mm" in c.number]


def test_the_rear_legs_are_looked_at_even_where_they_lean_as_the_front_ones_do():
    # rear inset 30: 80 tan 20 = 29.1, and at least half a square of 20 more: 19 and more past the rear edge
    piece = with_legs(20, 0, "front: 150, rear: 30, side: 50")
    past = [concern.number for concern in piece.concerns if concern.code == "foot_past_case"]
    assert any("rear left" in text and "rear edge" in text for text in past), past
    assert not any("front left" in text for text in past), past


def test_a_leg_the_other_way_round_comes_to_the_same_concern():
    # the same square and lean at a side inset that is too small on both sides
    piece = with_legs(0, 0, "front: 50, rear: 50, side: 15")
    proud = [concern.number for concern in piece.concerns if concern.code == "leg_proud_of_case"]
    assert proud
    assert all("5 mm past" in text for text in proud)  # 15 - 20


def test_a_concern_reads_as_number_reason_and_cures():
    concern = Concern("code", "3 mm", "it will not do", ("thin it", "move it"))
    assert str(concern) == "3 mm: it will not do. Thin it; move it."
