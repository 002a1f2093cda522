"""The cradle for turned legs: its figures, its strokes measured against cones and planes, and its words.

A cone that lies in a V of 90 degrees: each flat of the V stands at 45 degrees to the plumb plane through
its root, so an axis at g to the root makes an angle with the flat whose sine is sin g / sqrt 2. The flat
touches the cone, so that angle is the cone's own half angle c: sin g = sqrt 2 sin c, tan c = (D - d) / 2L.
"""

from __future__ import annotations

import math
import re
from functools import cache

import numpy as np
import pytest
from leg_shapes import on_round_legs
from pictures import BARE, first_of
from test_drilling_card import (
    FOUR,
    STOOLS,
    check_layout,
    check_whole_sheets,
    check_words,
    figures_on,
    sizes_written,
    stool,
    words_on,
)

from furnlib.base.guards import DesignError
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Arc, Dimension, Fill, Stroke
from furnlib.draw.plates.cradle import CRADLE_CARD, cradle_plate
from furnlib.draw.plates.views import written
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.trade.cautions import CRADLE, TABLE_SAW

CHEST = on_round_legs((BARE / "landing_chest.yaml").read_text("utf-8"), 48, 30, 25)
# a whole profile lies in the V with its last element only; these are the figures of a straight taper
TURNED = [name for name in STOOLS if name not in ("square legs", "plumb", "plumb, pitched", "three, a whole profile")]
every_cradle = pytest.mark.parametrize("name", [*TURNED, "chest", "stout and steep", "low and stout", "nearly plumb"])
OTHERS = {
    "chest": CHEST,
    "stout and steep": re.sub("rake: [0-9]+, splay: [0-9]+", "rake: 29, splay: 30", FOUR)
    .replace("largest: 36", "largest: 75").replace("width: 360", "width: 800").replace("depth: 260", "depth: 800"),
    "low and stout": FOUR.replace("height: 460", "height: 120").replace("largest: 36", "largest: 50"),
    "nearly plumb": re.sub("rake: [0-9]+, splay: [0-9]+", "rake: 1, splay: 0.5", FOUR),
}  # fmt: skip


@cache
def turned(name):
    return piece_of(DesignText.parse(OTHERS[name])) if name in OTHERS else stool(name)


@cache
def plates(name):
    made = turned(name)
    return [cradle_plate(made, number=number) for number in range(1, len(CRADLE_CARD.sheets(made)) + 1)]


def leans_of(made):
    """One leg of each lean, in order, with what the cradle must come to: worked from the design alone."""
    found = {}
    for leg in made.legs:
        named, shape = made.design.legs.lean[leg.position], made.design.legs.round
        tan_lean = math.hypot(*(math.tan(math.radians(angle)) for angle in (named.rake, named.splay)))
        key = (named.rake, named.splay, leg.height, leg.drilling and round(leg.drilling.seat_lean.rake_deg, 9))
        found.setdefault(key, (leg, Expected(tan_lean, float(leg.height), float(shape.largest), float(shape.foot))))
    return list(found.values())


class Expected:
    """A leg's cradle by the cone in its V."""

    def __init__(self, tan_lean, height, thick, thin):
        self.lean = math.degrees(math.atan(tan_lean))
        self.length = height * math.hypot(1, tan_lean)
        half = math.atan((thick - thin) / 2 / self.length)
        self.off = math.degrees(math.asin(math.sqrt(2) * math.sin(half)))
        self.wedge = self.lean - self.off
        self.thick, self.thin = thick, thin


def block_of(made):
    return 200.0 if made.design.unit == "mm" else 8.0


def sine(angle):
    return math.sin(math.radians(angle))


def slope(points):
    (x0, y0), (x1, y1) = points[:2]
    return math.degrees(math.atan2(y1 - y0, x1 - x0))


def strokes(plate, kind, closed=False):
    return [
        mark.points for mark in plate.items if isinstance(mark, Stroke) and (mark.kind, mark.closed) == (kind, closed)
    ]


def joined(plate):
    """The words of a plate in one line, folded ones with a single space."""
    return re.sub(" +", " ", " ".join(words_on(plate)))


# Layout


@pytest.mark.parametrize(
    "name",
    first_of(
        [*TURNED, *OTHERS],
        "inch, three",
        "steep",
        "four leans",
        "small",
        "chest",
        "stout and steep",
        "low and stout",
        "nearly plumb",
    ),
)
def test_words_stand_clear_are_well_formed_and_every_sheet_holds_its_cradle(name):
    check_layout(turned(name), plates(name))
    check_words(plates(name))


@pytest.mark.parametrize("name", first_of(("four", "inch", "a long name"), "a long name"))
def test_the_words_of_a_whole_sheet_stand_clear(name):
    check_whole_sheets(turned(name), plates(name))


def test_there_is_a_sheet_for_every_lean_of_turned_legs():
    assert [len(plates(name)) for name in ("four", "three", "one way", "four leans", "pitched 8", "chest")] == [
        2, 2, 1, 4, 2, 2,
    ]  # fmt: skip
    assert [plate.name for plate in plates("one way")] == ["Cradle"]
    assert [plate.name for plate in plates("three")] == ["Cradle 1", "Cradle 2"]
    square = read_piece(BARE / "landing_chest.yaml")
    for made in (square, stool("square legs"), stool("plumb")):
        assert CRADLE_CARD.sheets(made) == ()
        with pytest.raises(DesignError, match="has no cradle 1, it has 0: only turned legs that lean"):
            cradle_plate(made)


# Figures


@every_cradle
def test_every_figure_is_a_size_of_the_piece_or_follows_from_the_cone(name):
    made = turned(name)
    for plate, (_, expected) in zip(plates(name), leans_of(made), strict=True):
        unit, block, factor = made.design.unit, block_of(made), math.sqrt(2 - sine(expected.off) ** 2)
        lengths = (block, block * sine(expected.off), *(d / 2 * factor for d in (expected.thick, expected.thin)))
        allowed = sizes_written(made) | {"90°", "100", "10"} | {written(length, unit) for length in lengths}
        allowed |= {write_angle(angle) for angle in (expected.wedge, expected.lean)}
        assert figures_on(plate) - allowed == set()


@every_cradle
def test_the_table_holds_wedge_rise_lean_packer_and_length(name):
    made = turned(name)
    for plate, (leg, expected) in zip(plates(name), leans_of(made), strict=True):
        unit, block, gauge = made.design.unit, block_of(made), 100 if made.design.unit == "mm" else 10
        rows = {
            "wedge": write_angle(expected.wedge),
            f"rise over {block:g}": written(block * sine(expected.wedge), unit),
            "total lean": write_angle(expected.lean),
            f"run on {gauge}": written(gauge * math.tan(math.radians(expected.lean)), unit),
            "leg along its axis": written(expected.length, unit),
        }
        words = words_on(plate)
        packer = written(block * sine(expected.off), unit)
        rows["packer"] = packer
        said = f"Or take a wedge at the total lean, and a packer of {packer} under the foot end."
        assert (said in joined(plate)) == (expected.off > 0.05)
        for row, figure in rows.items():
            assert words[words.index(row) + 1] == figure, row
        assert any(leg.position in said.lower() or said.startswith("All four corner legs") for said in words)


def test_a_stool_leg_by_hand():
    # rear leg of the three: 18 degrees, 36 to 22 in 420 / cos 18 = 441.6; tan c = 7 / 441.6 = 0.015851,
    # sin g = 1.41421 x 0.015849 = 0.022414, g = 1.284; wedge 16.716; 200 sin of it 57.5; packer 200 x 0.022414
    words = words_on(plates("three")[1])
    for row, figure in (("wedge", "16.7°"), ("rise over 200", "57.5"), ("packer", "4.5"), ("run on 100", "32.5")):
        assert words[words.index(row) + 1] == figure


# Strokes


@every_cradle
def test_axis_root_and_wedge_are_drawn_at_their_angles(name):
    made = turned(name)
    for plate, (_, expected) in zip(plates(name), leans_of(made), strict=True):
        axis = max((line for line in strokes(plate, "centre") if len(line) == 2), key=lambda line: math.dist(*line))
        assert slope(axis) == pytest.approx(expected.lean, abs=1e-9)
        roots = strokes(plate, "hidden")
        assert len(roots) == 1
        for root in roots:
            assert slope(root) == pytest.approx(expected.wedge, abs=1e-9)
        low, heel, corner = next(points for points in strokes(plate, "visible", closed=True) if len(points) == 3)
        assert slope((low, heel)) == pytest.approx(expected.wedge, abs=1e-9)
        assert math.dist(low, heel) == pytest.approx(block_of(made))
        assert heel[1] - low[1] == pytest.approx(block_of(made) * sine(expected.wedge))
        assert corner[1] == pytest.approx(min(low[1], heel[1]))  # on the table
        table = next(points for points in strokes(plate, "thin", closed=True) if len(points) == 4)
        assert max(y for _, y in table) == pytest.approx(corner[1])


@every_cradle
def test_the_leg_lies_in_the_v_with_its_foot_at_the_blade_and_clear_of_the_table(name):
    for plate, (_, expected) in zip(plates(name), leans_of(turned(name)), strict=True):
        axis = max((line for line in strokes(plate, "centre") if len(line) == 2), key=lambda line: math.dist(*line))
        root = np.array(strokes(plate, "hidden")[0])
        along = (root[1] - root[0]) / np.linalg.norm(root[1] - root[0])
        square = np.array([-along[1], along[0]])
        blade = next(points for points in strokes(plate, "visible", closed=True) if is_upright_box(plate, points))
        cut = max(x for x, _ in blade)  # the blade's face on the leg's side
        start, way = np.array(axis[0]), (np.array(axis[1]) - axis[0]) / math.dist(*axis)
        foot = start + way * (cut - start[0]) / way[0]
        for far, diameter in ((0.0, expected.thin), (expected.length, expected.thick)):
            height = (foot + far * way - root[0]) @ square
            # the axis stands so far over either flat, which is tilted by 45 degrees, as the cone's radius there
            # square to the flat: the touching line runs at the half angle c to the axis
            half = math.asin(sine(expected.off) / math.sqrt(2))
            assert height / math.sqrt(2) == pytest.approx(diameter / 2 * math.cos(half))
        leg = next(
            np.array(item.points)
            for item in plate.items
            if isinstance(item, Fill) and item.tint == "far" and sloped(item)
        )
        table = max(y for _, y in next(points for points in strokes(plate, "thin", closed=True) if len(points) == 4))
        assert leg[:, 1].min() > table
        block = next(np.array(p) for p in strokes(plate, "visible", closed=True) if len(p) == 4 and p != tuple(blade))
        assert block[:, 0].min() > cut  # the saw does not meet the block
        off_cut = next(
            np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.hatch and sloped(item)
        )
        assert off_cut[:, 0].max() == pytest.approx(cut)


def is_upright_box(plate, points):
    """The blade: narrow, tall, its sides upright."""
    xs, ys = (sorted({round(part * plate.scale, 6) for part in parts}) for parts in zip(*points, strict=True))
    return len(points) == 4 and len(xs) == len(ys) == 2 and xs[1] - xs[0] < 2 < ys[1] - ys[0]


def sloped(item):
    """An outline of four corners or more that is no upright box."""
    return len(item.points) >= 4 and len({round(y, 6) for _, y in item.points}) > 2


@every_cradle
def test_the_upright_blade_leaves_the_foot_level_with_the_sight_line_where_it_is_drawn(name):
    """The cut in the leg's own frame, carried over to the leg as it stands: its plane must be level."""
    for plate, (_, expected) in zip(plates(name), leans_of(turned(name)), strict=True):
        axis = max((line for line in strokes(plate, "centre") if len(line) == 2), key=lambda line: math.dist(*line))
        up = (np.array(axis[1]) - axis[0]) / math.dist(*axis)  # foot to top
        sight = np.array(strokes(plate, "sight")[0])
        off = sight.mean(axis=0) - axis[0]
        outward = off - (off @ up) * up
        outward /= np.linalg.norm(outward)
        assert outward[1] < 0  # underneath
        # standing: the top lies inward of the foot, the outward side looks outward and a little up
        sine_lean, cosine_lean = sine(expected.lean), math.cos(math.radians(expected.lean))
        standing_up, standing_out = np.array([-sine_lean, cosine_lean]), np.array([cosine_lean, sine_lean])
        normal = np.array([1.0, 0.0])  # of the upright blade, in the picture
        carried = (normal @ up) * standing_up + (normal @ outward) * standing_out
        assert carried == pytest.approx([0.0, 1.0], abs=1e-9)
        assert "Dots: the sight line, underneath." in words_on(plate)


@every_cradle
def test_both_circles_touch_the_flats_of_the_v(name):
    made = turned(name)
    for plate, (_, expected) in zip(plates(name), leans_of(made), strict=True):
        outline = next(points for points in strokes(plate, "visible", closed=True) if len(points) == 7)
        root, edge = outline[4], outline[3]
        assert slope((root, edge)) == pytest.approx(45)
        circles = [item for item in plate.items if isinstance(item, Arc) and item.end_deg == 360.0]
        assert len(circles) == (2 if expected.off > 0.05 else 1)
        magnification = circles[0].radius / (expected.thick / 2)
        for circle, diameter in zip(circles, (expected.thick, expected.thin), strict=False):
            assert circle.radius / magnification == pytest.approx(diameter / 2)
            assert circle.centre[0] == pytest.approx(root[0])
            over = (circle.centre[1] - root[1]) / magnification
            # seen along the root the cone shows a hair wider than its circle: 1 / cos g at most
            assert over / math.sqrt(2) == pytest.approx(
                diameter / 2, rel=1.01 * (1 - math.cos(math.radians(expected.off))) + 1e-9
            )
        heights = {
            item.words
            for item in plate.items
            if isinstance(item, Dimension) and item.start[1] == pytest.approx(root[1])
        }
        factor = math.sqrt(2 - sine(expected.off) ** 2)
        shown = [d / 2 * factor for d in (expected.thick, expected.thin)][: len(circles)]
        assert heights == {written(height, made.design.unit) for height in shown}


# Words


@every_cradle
def test_cautions_and_the_order_of_the_work_stand_on_every_sheet(name):
    for plate, (_, expected) in zip(plates(name), leans_of(turned(name)), strict=True):
        said = joined(plate)
        for line in (*CRADLE, "mitre gauge or the fence, not the two", "Push stick", "Rake = seen from the side"):
            assert line in said
        for line in (TABLE_SAW[0], TABLE_SAW[-1]):  # of a tilted blade, of a square
            assert line not in said
        for part in ("blade upright", "Clamp it", "mitre gauge"):
            assert part in said
        assert "sight line underneath" in said
        assert ("The top, where it is to be level too" in said) == (name == "chest")
        end = "top" if expected.wedge > 0 else "foot"
        assert f"The wedge lifts the {end} end" in said or abs(expected.wedge) < 0.05
