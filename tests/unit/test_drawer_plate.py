"""The drawer's plate: its boxes against vectors, its corner at full size, its sums done again, its words clear.

Depth is drawn half as long as it is, at 60 degrees: a step of d inwards goes d/4 to the right and
d sqrt(3)/4 up. Sizes of the demo chest are worked here with pencil from its file.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction as F
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from pictures import ROOT
from printed_rules import STEP, signed
from strained import edited_piece
from test_drilling_card import check_layout, check_words, words_on
from test_leg_profile_plate import check_inside_frames
from test_stick import TO_MM

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Fill, Stroke, Text
from furnlib.draw.plates.drawer import drawer_kinds, drawer_plate
from furnlib.draw.plates.views import written
from furnlib.plan.piece import read_piece

WITHOUT = r"(?:brief|pulls|grain|strips):.*\n(?:  .*\n)+|pulls:.*\n|grain:.*\n"


def file(name):
    return re.sub(rf"(?m)^(?:{WITHOUT})", "", (ROOT / f"notebooks/designs/{name}.yaml").read_text("utf-8"))


CHEST, INCH, LOW, LOW_INCH, CABINET, CABINET_INCH = map(
    file,
    ("landing_chest", "landing_chest_inch", "low_media_case", "low_media_case_inch", "abrasive_cabinet",
     "abrasive_cabinet_inch"),
)  # fmt: skip
CHEST = re.sub(
    r"back: {thickness: 12, joint: dovetailed.*}", "back: {thickness: 12, joint: dovetailed, drop: 2}", CHEST
)
NO_JIG = (r"(?m)^jig:.*\n(  .*\n)+", "")
SIDES = (r"side: {thickness: 12, gap: 1}", "side: {thickness: 12, gap: 1, least gap: 1}")


def by_hand(tail, half_pin, pin):
    return (r"    jig: {pin: 4}.*", f"    tails: {{tail: {tail}, half pin: {half_pin}, pin: {pin}}}")


HAND = (CHEST, NO_JIG, by_hand(22, 7, 5), SIDES)
FRONT, BOTTOM = r"front: {thickness: 20, below: 1, least gap: 1}", r"bottom: {kind.*"
OVERLAY = (CHEST, (FRONT, "front: {thickness: 18, kind: overlay, overlay: 8, inner front: 16}"))
LIPPED = (
    CHEST,
    (r"lap: 6 ", "lap: 8 "),
    (FRONT, "front: {thickness: 22, kind: lipped, overlay: 6, lip: 6}"),
)
LOW_TRAYS = (
    CHEST,
    NO_JIG,
    by_hand(15, 5, 3),
    (r"side: {thickness: 12, gap: 1}", "side: {thickness: 8, gap: 0.5, least gap: 0.5}"),
    (r"height: 1300", "height: 500"),
    (r"number: 7", "number: 6"),
    (r"rule: constant step.*\n  step: 20.*", "rule: equal"),
    (r"  split:.*\n    1: 2.*\n", ""),
    (r"divider: 18", "divider: 12"),
    (r"lap: 6", "lap: 4"),
    (FRONT, "front: {thickness: 14, below: 0.5, least gap: 0.5}"),
    (r"back: {thickness: 12", "back: {thickness: 8"),
    (BOTTOM, "bottom: {kind: sheet, thickness: 4, tongue: 4, up: 7, groove: 4, ease: 0.5}"),
)
PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "hand": (LOW,),
    "hand, inch": (LOW_INCH,),
    "trays": (CABINET,),
    "trays, inch": (CABINET_INCH,),
    "through": (CHEST, (r"joint: half-blind\n    lap: 6 .*", "joint: through")),
    "overlay": OVERLAY,
    "lipped": LIPPED,
    "slides": (
        *OVERLAY,
        (r"gap: 1}", "gap: 13}"),
        (r"carried: runners", "carried: slides, slide: 12.7"),
        (BOTTOM, "bottom: {kind: sheet, thickness: 6, tongue: 6, up: 12, groove: 6, ease: 0.5}"),
    ),
    "slips": (CHEST, (r"groove: 6, ease: 0.5", "groove: 5, ease: 0.5, slip: 10, slip height: 17")),
    "housed": (CHEST, (r"back: {thickness: 12.*", "back: {thickness: 10, joint: housed, housing: 4, tail: 15}")),
    "hung": (
        CHEST,
        (r"carried: runners", "carried: side-hung, guide: {depth: 6, width: 15, up: 30, play: 0.5}"),
    ),
    "hung high": (
        CHEST,
        (r"carried: runners", "carried: side-hung, guide: {depth: 6, width: 15, up: 50, play: 0.5}"),
    ),
    "narrow and tall": (CHEST, (r"1: 2 .*", "7: 6")),
    "narrow, with slips": (
        CHEST,
        (r"1: 2 .*", "7: 6"),
        (r"groove: 6, ease: 0.5", "groove: 5, ease: 0.5, slip: 10, slip height: 17"),
    ),
    "thick back": (CHEST, (r"back: {thickness: 12", "back: {thickness: 30")),
    "groove in a pin": (
        CHEST,
        (r"jig: {pin: 4}", "jig: {pin: 8}"),
        (r"thickness: 8, tongue: 6, up: 10", "thickness: 4, tongue: 4, up: 18"),
    ),
    "rebated": (CHEST, (r"joint: half-blind", "joint: rebated"), (r"    jig: {pin.*\n", "")),
    "sides 40": LOW_TRAYS,
    "sides 400": (*HAND, (r"number: 7", "number: 3")),
}


DONE = ("chest", "inch", "trays")


@cache
def case(name):
    return edited_piece(*PIECES[name])


@cache
def plate_of(name, number=1):
    return drawer_plate(case(name), number=number)


def check(name, number):
    check_layout(case(name), [plate_of(name, number)])
    check_words([plate_of(name, number)])


@pytest.mark.parametrize(("name", "number"), [("chest", 3), ("hand, inch", 1), ("overlay", 3)])
def test_words_stand_clear_on_every_sheet(name, number):
    check(name, number)


@pytest.mark.slow
@pytest.mark.parametrize("name", PIECES)
def test_words_stand_clear_whatever_the_making(name):
    check(name, len(drawer_kinds(case(name))))


@pytest.mark.parametrize("name", ["inch", pytest.param("trays", marks=pytest.mark.slow)])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(case(name), [plate_of(name)])


def test_rows_with_the_same_parts_share_a_sheet():
    assert [kind.name for kind in drawer_kinds(case("chest"))] == ["row 1, 2 alike", *(f"row {n}" for n in range(2, 8))]
    (kind,) = drawer_kinds(case("trays"))
    assert kind.name == "rows 1 to 6, 12 alike"
    assert len(kind.drawers) == 12
    assert plate_of("trays").name == "Drawer"
    assert plate_of("chest", 3).name == "Drawer 3"


def test_only_drawers_that_are_told_of_have_one():
    stool = read_piece(ROOT / "notebooks/designs/practice_stool.yaml")
    assert drawer_kinds(stool) == ()
    for made, number in ((stool, 1), (case("chest"), 8), (case("chest"), 0)):
        with pytest.raises(DesignError, match="has no sheet of drawers"):
            drawer_plate(made, number=number)


def printed_sums(plate):
    """The sums of the table, each as the size and the words after it, lines that were folded joined again."""
    found, left, texts = [], None, [mark for mark in plate.marks() if isinstance(mark, Text)]
    for before, text in pairwise(texts):
        if re.match("[=≤≈] ", text.words):
            found.append([before.words, text.words])
            left = text.at[0]
        elif text.at[0] == left and re.match(r"[-+/] ", text.words):
            found[-1][1] += f" {text.words}"
    return found


def worked(words):
    """What a printed sum comes to."""
    plain = re.sub(r"[a-z']{2,}| by ", " ", words.replace("\u202f", " "))
    numbers = re.sub(
        r"(\d+ )?\d+/\d+|\d+\.?\d*", lambda found: f"F('{signed(found.group())}')", plain.replace(" / ", " ÷ ")
    )
    return eval(numbers.replace(" x ", " * ").replace("÷", "/"), {"__builtins__": {}}, {"F": F})


@pytest.mark.parametrize(
    "name",
    ["chest", "inch", "trays", *(pytest.param(name, marks=pytest.mark.slow) for name in PIECES if name not in DONE)],
)
def test_every_size_stands_beside_its_sum_and_the_sum_closes_in_print(name):
    (drawer, *_), made = drawer_kinds(case(name))[0].drawers, case(name)
    sums = printed_sums(plate_of(name))
    wanted = [size for part in drawer.parts for size in (part.length, part.width)] + [*drawer.inside]
    assert [size for size, _ in sums] == [written(size.value, made.design.unit) for size in wanted]
    for size, (_, words) in zip(wanted, sums, strict=True):
        assert size.rule.endswith(words)
        step, done = STEP[made.design.unit], worked(words[2:])
        if words[0] == "=":
            assert done == F(size.value), words
        else:  # rounded down to what a rule shows, or shown rounded
            assert abs(done - F(size.value)) < step + done * F(1, 10000), words


def test_the_chest_s_third_row_has_the_sizes_of_the_pencil():
    said = " ".join(words_on(plate_of("chest", 3)))
    front, back = 480 - 2 * 1, 480 - 2 * 1
    for words in (
        f"length {front} =", f"length {370 - 10 - 6} =", f"length {back} =",
        f"width {120 - (10 + 6) - 2} =", f"length {480 - 2 - 2 * 12 + 2 * 6 - 1} =", f"width {370 - 10 - 20 + 6} =",
        f"width {480 - 2 - 2 * 12} =", f"depth {370 - 10 - 20 - 12} =", f"height {120 - 16} =",
    ):  # fmt: skip
        assert words in said


def boxes(plate):
    """Width and height of every wooden rectangle square to the paper, and the edges of the slanted ones."""
    level, slanted = [], []
    for item in plate.items:
        if isinstance(item, Fill) and item.tint in ("wood", "far") and len(item.points) == 4:
            a, b, _, d = np.array(item.points)
            (slanted if abs((b - a)[1]) + abs((d - a)[0]) > 1e-9 else level).append((b - a, d - a))
    return level, slanted


@pytest.mark.parametrize(
    "name", ["chest", pytest.param("inch", marks=pytest.mark.slow), pytest.param("housed", marks=pytest.mark.slow)]
)
def test_parts_are_drawn_with_their_sizes_and_depth_half_as_long_at_sixty_degrees(name):
    (drawer, *_), plate = drawer_kinds(case(name))[2].drawers, plate_of(name, 3)
    level, slanted = boxes(plate)
    into = np.array([0.25, math.sqrt(3) / 4])
    sized = {part.name: (float(part.length.value), float(part.width.value)) for part in drawer.parts}
    for part in ("front", "back"):
        assert any(np.allclose((a[0], b[1]), sized[part], rtol=1e-9) for a, b in level)
    (long, high), (wide, deep) = sized["side"], sized["bottom"]
    faces = [face for face in slanted if np.allclose(face, [long * into, [0, high]], atol=2e-4 * long)]
    assert len(faces) == 2
    assert sum(np.allclose(face, [[wide, 0], deep * into], atol=2e-4 * deep) for face in slanted) == 1


def at_full_size(plate, kind):
    """Strokes of a kind in mm on paper."""
    lines = (item for item in plate.items if isinstance(item, Stroke) and item.kind == kind)
    return [np.array(line.points) * plate.scale for line in lines]


@pytest.mark.parametrize("number", [1, 3])
def test_the_corner_shows_tails_groove_and_lap_at_full_size(number):
    plate = plate_of("chest", number)
    (side,) = [line for line in at_full_size(plate, "visible") if len(line) > 9 and np.ptp(line[:, 0]) > 25]
    end, foot = side[:, 0].min(), side[:, 1].min()
    # from the lower edge 2, then tails of 16 and gaps of 4; the lowest whole ones are there
    ends = sorted({round(y - foot, 6) for x, y in side if x == pytest.approx(end)})
    assert ends[:6] == pytest.approx([2, 18, 22, 38, 42, 58])
    # over 14 of length an edge runs off by a seventh: 2
    roots = sorted({round(y - foot, 6) for x, y in side if x == pytest.approx(end + 14)})
    assert roots[:5] == pytest.approx([0, 4, 16, 24, 36])
    dashed = [line for line in at_full_size(plate, "hidden") if abs(np.ptp(line[:, 1])) < 1e-6]
    assert sorted(line[0, 1] - foot for line in dashed) == pytest.approx([10, 16])
    assert all(line[:, 0].min() == pytest.approx(end) for line in dashed)  # in a tail it runs to its end
    assert {"lap 6", "14", "12", "10", "6"} <= set(words_on(plate))
    whole = number == 1  # 80 have room, 120 have not
    assert ("its lowest part" in " ".join(words_on(plate))) != whole
    assert (ends[-1] == pytest.approx(78)) == whole


@pytest.mark.parametrize(
    ("name", "words", "absent"),
    [
        ("chest", "Left side: front end right, rear end left; right side: front end left, rear end right.", "plug"),
        ("hand", "from its upper edge: 9 + ", "Jig,"),
        ("trays", "Rebated corner, no tails.", "Jig,"),
        ("overlay", "inner front", "plug"),
        ("groove in a pin", "comes out in a pin: plug 4 x 6 x 12.", "of wood is left"),
        pytest.param("slips", "slip", "plug", marks=pytest.mark.slow),
        pytest.param("hung", "runner", "plug", marks=pytest.mark.slow),
        pytest.param("through", "plug", "lap", marks=pytest.mark.slow),
    ],
)
def test_what_the_corner_does_not_show_is_said(name, words, absent):
    plate = plate_of(name)
    for said in (plate.spoken, " ".join(words_on(plate))):
        assert words.lower() in said.lower()
    assert absent not in plate.spoken


def test_a_groove_that_shows_is_hatched_and_a_sheet_bottom_has_no_grain():
    def plugs(name):
        return sum(isinstance(item, Fill) and item.tint == "pale" for item in plate_of(name).items)

    assert (plugs("groove in a pin"), plugs("chest")) == (1, 0)
    heads = {name: sum(isinstance(item, Fill) and len(item.points) == 3 for item in plate_of(name).items)
             for name in ("chest", "trays")}  # fmt: skip
    assert heads["chest"] - heads["trays"] == 2  # front, back and both sides have theirs on either


def test_inside_face_and_upper_edges_are_marked():
    curls = [item for item in plate_of("chest").items if isinstance(item, Stroke) and item.kind == "thin"]
    assert sum(len(line.points) > 8 for line in curls) == 1
    ticks = [line for line in at_full_size(plate_of("chest"), "visible") if len(line) == 2]
    assert sum(np.allclose(np.ptp(line, axis=0), (1.3, 2.6)) for line in ticks) == 3
    assert not any(isinstance(item, Arc) for item in plate_of("chest").items)


def test_scales_are_usual_ones_and_the_corner_is_full_size_at_each():
    for name in ("chest", "hand, inch"):
        ratio = TO_MM[case(name).design.unit] / plate_of(name).scale
        assert ratio == pytest.approx({"mm": 5, "in": 8}[case(name).design.unit])
    small = drawer_plate(case("chest"), scale=0.1)
    assert small.scale == 0.1
    assert "row 1, 2 alike, 1 : 10" in " ".join(words_on(small))
