"""What a maker is told to settle before wood is cut: each concern at its number, worked by hand."""

from __future__ import annotations

import math
import re
from fractions import Fraction as F
from pathlib import Path

import pytest
from leg_shapes import on_square_legs

from furnlib.base.concern import Concern
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
INCH = F(254, 10)


def made(text):
    return piece_of(DesignText.parse(text))


def codes(piece):
    return {concern.code for concern in piece.concerns}


def test_the_same_piece_gives_the_same_warnings_in_either_unit():
    text = (DESIGNS / "landing_chest.yaml").read_text()
    metric = made(text)
    before, size = r"(?<!row: )(?<!number: )(?:(?<=: )|(?<=\[)|(?<=, ))", r"([0-9]+(?:\.[0-9]+)?)(?=\s|$|[],}])"
    lengths = re.compile(before + size)
    lines = []
    for line in text.splitlines():
        plain = (
            r"\s*(number|1|piece|rule|ratios|good|certainty|push|upright|shop|dry|damp|row|gauge|coats|coverage"
            r"|- \{day)\b"
        )
        keep = re.match(plain, line) or "rake:" in line
        written, mark, said = line.partition("#")
        lines.append(line if keep else lengths.sub(lambda found: f"{F(found.group()) / INCH}", written) + mark + said)
    twin = made("\n".join(lines).replace("unit: mm", "unit: in"))
    assert twin.rows.clear_height * INCH == metric.rows.clear_height == 1001
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


# Screws


def screwed(rake, depth, edits=(), wall=6):
    fixing = f"fixing: {{diameter: 8, depth: {depth}, wall: {wall}, pin: 3, pin depth: 20}}"
    text = BOX.replace("{rake: 0, splay: 0}", f"{{rake: {rake}, splay: 0}}").replace(
        "height: 80\n", f"height: 80\n  {fixing}\n"
    )
    for old, new in edits:
        assert old in text
        text = text.replace(old, new)
    return [concern for concern in made(text).concerns if concern.code == "screw_wall"]


ROUND = (("square: 40", "round: {largest: 40, foot: 30, tenon: 25}"),)
WALLS = [
    # rake, depth, what is left at the tip: 20 - depth sin r - 4 cos r, less what a taper from 40 to 30 takes there
    (0, 60, 16.0),
    (10, 40, 9.11),  # 20 - 6.946 - 3.939
    (10, 60, 5.64),  # 20 - 10.419 - 3.939
    (20, 60, -4.28),  # 20 - 20.521 - 3.759
    (-10, 60, 5.64),  # the other way round the other face is the near one
]


@pytest.mark.parametrize("edits", [(), ROUND], ids=["square", "round"])
@pytest.mark.parametrize(("rake", "depth", "left"), WALLS)
def test_a_screw_that_leaves_too_little_wood(rake, depth, left, edits):
    by_hand = 20 - depth * math.sin(math.radians(abs(rake))) - 4 * math.cos(math.radians(rake))
    assert by_hand == pytest.approx(left, abs=0.01)
    if edits:  # 5 of the radius over a height of 80, as the axis is longer by what the depth along it is
        left = by_hand - 5 * depth / 80
    found = screwed(rake, depth, edits)
    if left >= 6:
        assert found == []
        return
    assert [concern.number for concern in found] == ["front left and rear left leg, screw 60 mm deep"]
    figure = f"{abs(left):.1f}".removesuffix(".0")
    if left > 0:
        said = f"it leaves {figure} mm of wood {'where the leg is turned thinner' if edits else 'at its tip'}"
    else:
        said = f"it comes out of the leg by {figure} mm{', where the leg is turned thinner' if edits else ''}"
    for concern in found:
        assert concern.reason == f"driven square to the case {said}"
        assert "take a shorter screw" in concern.cures


def test_the_wall_wanted_is_the_limit():
    assert screwed(10, 60, wall=5.6) == []  # 5.64 is left
    assert screwed(10, 60, wall=5.7)


# Feet inward of their tops


def test_feet_that_stand_closer_than_the_tops_are_said_one_by_one():
    piece = with_legs(-5, -2.5, "front: 100, rear: 100, side: 100")
    inward = [concern for concern in piece.concerns if concern.code == "leans_inward"]
    assert [concern.number for concern in inward] == [
        f"{position} leg, {angle}°" for position in ("front left", "rear left") for angle in ("rake -5", "splay -2.5")
    ]
    for concern in inward:
        assert concern.reason == "its foot stands further in than its top, and the stance is the smaller for it"
        assert concern.cures == ("lean it outward (above 0)", "keep it and check how the piece stands")
    assert not [c for c in with_legs(0, 0, "front: 100, rear: 100, side: 100").concerns if c.code == "leans_inward"]


def stool(name, *edits):
    text = (DESIGNS / f"stool_{name}_legs.yaml").read_text()
    for pattern, new in edits:
        text, found = re.subn(pattern, new, text)
        assert found, pattern
    return made(text)


def test_a_stool_with_a_footprint_smaller_than_its_mortises_is_made_and_said():
    piece = stool("four", (r"rake: 1.,", "rake: -4,"))
    inward = [concern.number for concern in piece.concerns if concern.code == "leans_inward"]
    assert inward == [f"{leg.position} leg, rake -4°" for leg in piece.legs]
    fore_aft = {leg.position: leg.foot[1] for leg in piece.legs}
    apart = fore_aft["rear left"] - fore_aft["front left"]
    assert apart == pytest.approx(170 - 2 * 420 * math.tan(math.radians(4)), abs=1e-9)
    assert 0 < apart < 170


def test_a_leg_in_the_middle_leans_to_neither_side():
    for splay in (-6, 6):
        piece = stool("three", (r"rear: {rake: 18, splay: 0}", f"rear: {{rake: 18, splay: {splay}}}"))
        assert "leans_inward" not in codes(piece)
    back = stool("three", (r"rear: {rake: 18, splay: 0}", "rear: {rake: -2, splay: 0}"))
    assert [c.number for c in back.concerns if c.code == "leans_inward"] == ["rear leg, rake -2°"]


# A seat that reaches past the line round its feet


def past_the_feet(piece):
    found = [concern for concern in piece.concerns if concern.code == "seat_past_feet"]
    assert len(found) <= 1
    return found[0] if found else None


def square_to_the_line(out, across, deep):
    """How far a half width, a half depth and the line from front to rear foot reach, square to that line.

    From the middle of the seat the front foot is at out + 420 tan 14 to the side and 85 + 420 tan 8 in
    front, the rear foot 85 + 420 tan 18 behind.
    """
    side, front, rear = (a + 420 * math.tan(math.radians(b)) for a, b in ((out, 14), (85, 8), (85, 18)))
    length = math.hypot(side, front + rear)
    outward = ((front + rear) / length, side / length)  # square to the line, sideways and to the back
    return across * outward[0], deep * outward[1], rear * outward[1]


@pytest.mark.parametrize("outline", ["rectangle", "D", "round"])
def test_a_seat_on_three_legs_hangs_past_the_line_of_its_feet(outline):
    out = 110 if outline == "round" else 115  # nearer the middle, as a round seat has no corners to hold a mortise
    piece = stool("three", (r"outline: D", f"outline: {outline}"), (r"out: 115", f"out: {out}"))
    sideways, back, line = square_to_the_line(out, 180, 130)
    # a rectangle ends in a corner; a curve in the point where it runs along the line, as for any ellipse
    reach = sideways + back if outline == "rectangle" else math.hypot(sideways, back)
    if outline != "round":
        assert reach - line == pytest.approx(107 if outline == "rectangle" else 54, abs=0.5)
    concern = past_the_feet(piece)
    amount = float(re.search(r"edge of the seat ([\d.]+) mm outside the line of the feet", concern.number).group(1))
    assert amount == pytest.approx(reach - line, abs=0.2)  # a curve is drawn by corners
    assert concern.reason == "a weight put there tips it"
    assert ("take a round or a D-shaped seat" in concern.cures) == (outline == "rectangle")
    assert "stand it on four legs" in concern.cures
    if outline == "rectangle":
        assert "a D-shaped seat" in str(concern)  # a capital stays one


def test_four_legs_under_the_same_seat_have_nothing_to_settle_but_at_the_lathe():
    # (420 + 40) / cos 15.44 = 477.2 and (420 + 40) / cos 19.64 = 488.4 long, 22 at the foot: 21.7 and 22.2 times
    assert [(concern.code, concern.number) for concern in stool("four").concerns] == [
        ("slim_leg", f"{end} left and {end} right leg, {long} mm long and 22 mm at its thinnest, 22 times as much")
        for end, long in (("front", 477.2), ("rear", 488.4))
    ]
    square = on_square_legs((DESIGNS / "stool_four_legs.yaml").read_text(), 30)
    assert made(square).concerns == ()


def test_how_far_a_seat_may_reach_on_four_legs():
    # feet 204.3 to the side: a seat of 408 reaches 204, one of 410 reaches 205 and 0.7 past
    assert past_the_feet(stool("four", (r"width: 360", "width: 408"))) is None
    concern = past_the_feet(stool("four", (r"width: 360", "width: 410")))
    assert concern.number == "edge of the seat 0.7 mm outside the line of the feet"
    assert concern.cures == ("lean the legs further out", "take a round or a D-shaped seat")  # it stands on four
    # plumb legs at the very edge would be level with it: a hair past is nothing that anybody sees
    exact = 2 * (115 + 420 * math.tan(math.radians(12)))
    assert past_the_feet(stool("four", (r"width: 360", f"width: {exact + 0.02:.4f}"))) is None


def test_a_concern_reads_as_number_reason_and_cures():
    concern = Concern("code", "3 mm", "it will not do", ("thin it", "move it"))
    assert str(concern) == "3 mm: it will not do. Thin it; move it."


@pytest.mark.parametrize(("legs", "number"), [(1, "1 leg under a seat"), (2, "2 legs under a seat")])
def test_a_seat_on_one_leg_or_two_falls_over(legs, number):
    gone = [(rf"\n    {position}: {{[^\n]*", "") for position in ("front right", "rear")[: 3 - legs]]
    (concern,) = [concern for concern in stool("three", *gone).concerns if concern.code == "too_few_legs"]
    assert concern.number == number
    assert concern.cures == ("give it three legs or four",)
