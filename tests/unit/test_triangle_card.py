"""The card of the true triangle: measured off its own strokes, and folded up in space.

The witness is the direction of the leg's axis, worked from the rake and the splay of the design file
alone; what is drawn is read back from the strokes, and folded by a rotation about the fold line.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cache

import in_space
import numpy as np
import pytest
from pictures import BARE, first_of
from scipy.spatial.transform import Rotation
from strained import edited_piece
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on
from test_plates import rooms_of

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Fill, Stroke
from furnlib.draw.plates.groups import WORDS_NOTE
from furnlib.draw.plates.triangle import TRIANGLE_CARD, triangle_plate
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.plan.sizes.legs import mirror_groups

CHEST, INCH, THREE, FOUR = (
    (BARE / f"{name}.yaml").read_text("utf-8")
    for name in ("landing_chest", "landing_chest_inch", "stool_three_legs", "stool_four_legs")
)
CORNERS = ("front left", "front right", "rear left", "rear right")
WIDE = (
    ("height: 1300", "height: 2400"), ("width: 520", "width: 1800"), ("depth: 380", "depth: 1700"),
    (r"inset: .*\n(    .*\n){3}", "inset: {front: 450, rear: 450, side: 450}\n"),
)  # fmt: skip
LARGE = (*WIDE, (r"  fixing: .*\n(    .*\n){5}", ""))


def leans(*angles):
    lines = [f"    {at}: {{rake: {r}, splay: {s}}}\n" for at, (r, s) in zip(CORNERS, angles, strict=True)]
    return r"  lean: .*\n(    .*\n)+", "  lean:\n" + "".join(lines)


def pairs(front, rear):
    return leans(front, front, rear, rear)


PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "three": (THREE,),
    "four": (FOUR,),
    "pitched": (FOUR, ("pitch: 0", "pitch: 8")),
    "all alike": (CHEST, leans(*[(8, 6)] * 4)),
    "four leans": (CHEST, leans((8, 6), (4, 11), (1.5, 6), (0, 12))),
    "four leans, inch": (INCH, leans((8, 6), (4, 11), (1.5, 6), (0, 12))),
    "half plumb": (CHEST, pairs((8, 6), (0, 0))),
    "plumb": (CHEST, leans(*[(0, 0)] * 4)),
    "nearly plumb": (CHEST, pairs((0.2, 0), (0, 0.3))),
    "inward": (CHEST, *LARGE, pairs((-8, -5), (-20, 3))),
    "straight back": (CHEST, *LARGE, pairs((-12, 0), (9, 0))),
    "low and steep": (CHEST, *LARGE, ("height: 151", "height: 80"), pairs((30, 30), (12, 30))),
    "high": (CHEST, *LARGE, ("height: 151", "height: 700"), pairs((8, 6), (0, 6))),
    "high and steep": (CHEST, *LARGE, ("height: 151", "height: 700"), pairs((30, 30), (-20, 2))),
    "half a right angle": (CHEST, *LARGE, ("height: 151", "height: 300"), pairs((45, 1), (30, -8))),
    "a long name": (CHEST, (r"piece: .*", "piece: Tall chest of drawers for the half-landing of the old mill")),
}
LEANING = [name for name in PIECES if name != "plumb"]
every_piece = pytest.mark.parametrize("name", PIECES)
every_leaning = pytest.mark.parametrize("name", LEANING)


@cache
def made(name):
    return edited_piece(*PIECES[name])


def count(name):
    return len(TRIANGLE_CARD.sheets(made(name)))


@cache
def cards(name):
    return [triangle_plate(made(name), number=number) for number in range(1, count(name) + 1)]


@dataclass(frozen=True)
class Card:
    """One lean as it is drawn: the triangle's corners, its tab, and what the base shows."""

    legs: tuple
    triangle: np.ndarray  # apex, below it, foot
    tab: np.ndarray
    fold: np.ndarray
    base: np.ndarray
    fore_aft: np.ndarray
    sight: np.ndarray
    dots: np.ndarray  # below the top, and the foot


def cards_of(name):
    """Every card of a piece, read back from the strokes in the order in which they are drawn."""
    groups = [group for group in mirror_groups(made(name).legs) if any(direction(made(name), group[0])[:2])]
    found = []
    for plate in cards(name):
        marks = [(mark, np.array(mark.points)) for mark in plate.marks() if isinstance(mark, Stroke | Fill)]
        outlines = [i for i, (mark, at) in enumerate(marks) if isinstance(mark, Stroke) and len(at) == 5]
        for i in outlines:
            cut = marks[i][1]  # below the top, two corners of the tab, foot, apex
            after = [(mark, at) for mark, at in marks[i + 1 :]]
            lines = {kind: [at for mark, at in after if getattr(mark, "kind", "") == kind] for kind in
                     ("cut", "hidden", "centre", "sight")}  # fmt: skip
            dots = [
                (at.min(axis=0) + at.max(axis=0)) / 2
                for mark, at in after
                if isinstance(mark, Fill) and mark.tint == "ink"
            ]
            found.append(
                Card(
                    groups[len(found)], cut[[4, 0, 3]], cut[1:3], lines["hidden"][0], lines["cut"][0],
                    lines["centre"][0], lines["sight"][0], np.array(dots[:2]),
                )
            )  # fmt: skip
    assert len(found) == len(groups)
    return found


def direction(piece, leg):
    """From top to foot, one down: across and back, from the angles of the design file."""
    named = piece.design.legs.lean[leg.position]
    along = in_space.axis(leg.position, named.rake, named.splay)
    return np.round(along / -along[2], 12)


# Sides and angles, off the strokes


@every_leaning
def test_the_triangle_has_the_legs_height_and_run_and_a_right_angle_between_them(name):
    for card in cards_of(name):
        apex, below, foot = card.triangle
        named, height = made(name).design.legs.lean[card.legs[0].position], float(card.legs[0].height)
        tan_r, tan_s = (math.tan(math.radians(angle)) for angle in (named.rake, named.splay))
        total = math.atan2(math.hypot(tan_r, tan_s), 1.0)
        assert np.linalg.norm(apex - below) == pytest.approx(height)
        assert np.linalg.norm(foot - below) == pytest.approx(height * math.hypot(tan_r, tan_s))
        assert np.linalg.norm(foot - apex) == pytest.approx(height / math.cos(total))
        assert (apex - below) @ (foot - below) == pytest.approx(0.0, abs=1e-9)
        leaned = foot - apex
        assert math.atan2(leaned[0], -leaned[1]) == pytest.approx(total)


def test_the_landing_chests_front_triangle_by_hand():
    # tan 8 = 0.140541, tan 6 = 0.105104: tan R = 0.175496, R = 9.954; 151 x 0.175496 = 26.500
    front, rear = cards_of("chest")
    assert np.linalg.norm(front.triangle[2] - front.triangle[1]) == pytest.approx(26.500, abs=5e-4)
    assert np.linalg.norm(front.triangle[2] - front.triangle[0]) == pytest.approx(153.308, abs=5e-4)
    # atan2(0.105104, 0.140541) = 36.79; the rear legs lean sideways only: 151 x 0.105104 = 15.871
    assert angle_of(front) == pytest.approx(36.79, abs=0.005)
    assert np.linalg.norm(rear.triangle[2] - rear.triangle[1]) == pytest.approx(15.871, abs=5e-4)
    assert angle_of(rear) == pytest.approx(90.0)


def angle_of(card):
    """From the outward end of the fore-and-aft line to the sight line, towards the leg's own side."""
    across, back = in_space.outward(card.legs[0].position)
    along = card.sight[1] - card.sight[0]
    return math.degrees(math.atan2(along[0] * across, along[1] * back))


@every_leaning
def test_the_sight_line_runs_at_its_true_angle_from_the_fore_and_aft_line(name):
    for card in cards_of(name):
        named = made(name).design.legs.lean[card.legs[0].position]
        tan_r, tan_s = (math.tan(math.radians(angle)) for angle in (named.rake, named.splay))
        off = angle_of(card) - math.degrees(math.atan2(tan_s, tan_r))
        assert math.remainder(off, 360.0) == pytest.approx(0.0, abs=1e-9)
        assert card.fore_aft[:, 0] == pytest.approx(card.sight[0][0])  # upright, through the place below the top
        low, high = sorted(card.fore_aft[:, 1])
        assert low - 1e-9 <= card.sight[0][1] <= high + 1e-9


@every_leaning
def test_folded_up_the_long_edge_lies_as_the_axis_of_every_leg(name):
    for card in cards_of(name):
        apex, below, foot = (np.array([*corner, 0.0]) for corner in card.triangle)
        first = in_space.outward(card.legs[0].position)
        sight = np.array([*(card.sight[1] - card.sight[0]), 0.0])
        run = foot - below
        turned = math.atan2(sight[1], sight[0]) - math.atan2(run[1], run[0])
        laid = Rotation.from_euler("z", turned)  # the run on the sight line, the card still flat
        hinge = laid.apply(run) / np.linalg.norm(run)
        for quarter in (1, -1):
            stood = Rotation.from_rotvec(hinge * quarter * math.pi / 2) * laid
            if stood.apply(apex - below)[2] > 0:
                break
        assert stood.apply(apex - below)[:2] == pytest.approx([0.0, 0.0], abs=1e-9)  # plumb over the small dot
        along = stood.apply(foot - apex)
        for leg in card.legs:
            across, back = in_space.outward(leg.position)
            mirrored = along * [across * first[0], back * first[1], 1.0]
            assert mirrored / -mirrored[2] == pytest.approx(direction(made(name), leg), abs=1e-9)


@every_leaning
def test_the_tab_hangs_on_the_run_and_the_dots_mark_where_it_stands(name):
    for card in cards_of(name):
        _, below, foot = card.triangle
        assert card.fold == pytest.approx(np.array([below, foot]))
        assert (card.tab[:, 1] < below[1]).all()
        assert below[0] <= card.tab[0][0] <= card.tab[1][0] <= foot[0]
        run = np.linalg.norm(foot - below)
        assert card.dots[0] == pytest.approx(card.sight[0], abs=1e-6 * run + 1e-9)
        assert np.linalg.norm(card.dots[1] - card.dots[0]) == pytest.approx(run, abs=1e-9 + 1e-6 * run)
        far = card.dots[1] - card.dots[0]
        along = card.sight[1] - card.sight[0]
        assert np.linalg.norm(along) > run
        assert far[0] * along[1] - far[1] * along[0] == pytest.approx(0.0, abs=1e-6 * np.linalg.norm(along) * run)
        low, high = card.base.min(axis=0), card.base.max(axis=0)
        for points in (card.sight, card.fore_aft, card.dots):
            assert (low < points).all()
            assert (points < high).all()


# Words


@pytest.mark.parametrize(
    "name", first_of(PIECES, "inch", "three", "pitched", "four leans", "inward", "low and steep", "high and steep")
)
def test_words_stand_clear_and_every_card_fits_its_sheet(name):
    check_layout(made(name), cards(name))
    check_words(cards(name))


@pytest.mark.parametrize("name", first_of(("chest", "inch", "a long name"), "a long name"))
def test_the_words_of_a_whole_sheet_stand_clear(name):
    check_whole_sheets(made(name), cards(name))


@every_leaning
def test_a_card_says_what_to_cut_to_fold_and_where_to_stand_it(name):
    for plate in cards(name):
        words = words_on(plate)
        leans = sum(1 for mark in plate.marks() if isinstance(mark, Stroke) and len(mark.points) == 5)
        for word, times in (("cut", 2), ("fold", 1), ("stand it here", 1), ("front", 1), ("foot", 1)):
            assert words.count(word) == times * leans
        text = " ".join(words)
        assert WORDS_NOTE in text
        assert "Angles are true at any scale" in text
        assert "away from the hand" in text  # a knife cuts


@every_leaning
def test_the_leg_that_is_drawn_is_named_on_its_base(name):
    words = " ".join(word for plate in cards(name) for word in words_on(plate))
    for card in cards_of(name):
        assert f"{card.legs[0].position} leg" in words


@pytest.mark.parametrize(
    ("name", "lines"),
    [
        # 100 x 0.175496 = 17.5, 151 / cos 9.954 = 153.3; 100 x 0.105104 = 10.5, 151 / cos 6 = 151.8
        ("chest", ["total lean 9.95°", "run 17.5 on 100", "axis 153.3", "total lean 6°", "run 10.5 on 100"]),
        # 10 x 0.175496 = 1.755, next 1/32 is 1 3/4; 6.375 / cos 9.954 = 6.472, next 6 15/32
        ("inch", ["total lean 9.95°", "run 1\u202f³⁄₄ on 10", "axis 6\u202f¹⁵⁄₃₂"]),
    ],
)
def test_total_lean_run_of_the_gauge_and_axis_stay_on_the_triangle(name, lines):
    plate = cards(name)[0]
    for line in lines:
        assert line in words_on(plate)


@pytest.mark.parametrize(
    "name", first_of(LEANING, "inch", "three", "pitched", "four leans", "inward", "low and steep", "high and steep")
)
def test_what_is_written_on_a_triangle_stays_on_it_when_it_is_cut_out(name):
    for plate in cards(name):
        outlines = [
            np.array(mark.points) for mark in plate.marks() if isinstance(mark, Stroke) and len(mark.points) == 5
        ]
        written_on = [
            corners for words, corners, _ in rooms_of(plate) if re.match(r"total lean |run \S+.* on |axis \d", words)
        ]
        for corners in written_on:
            places = corners / plate.scale + plate.box[:2]
            assert any(inside(outline[[4, 0, 3]], places) for outline in outlines)


def inside(triangle, places):
    """All of them on the inner side of all three edges, to a tenth of a mm of a word's loose room."""
    apex, below, foot = triangle
    edges = ((apex, below), (below, foot), (foot, apex))
    return all(
        (b - a)[0] * (place - a)[1] - (b - a)[1] * (place - a)[0] >= -0.1 * np.linalg.norm(b - a)
        for a, b in edges
        for place in places
    )


def test_a_plumb_leg_has_no_triangle():
    assert count("plumb") == 0
    with pytest.raises(DesignError, match="has no triangle card 1, it has 0: its legs stand plumb"):
        triangle_plate(made("plumb"))
    assert len(cards_of("half plumb")) == 1
    assert "Rear left and rear right: plumb, so there is no triangle." in words_on(cards("half plumb")[0])


def test_two_leans_stand_on_a_sheet():
    assert [count(name) for name in ("chest", "three", "all alike", "four leans")] == [1, 1, 1, 2]
    assert [plate.name for plate in cards("four leans")] == ["Triangle card 1", "Triangle card 2"]


def test_low_legs_are_drawn_full_size_and_others_at_a_usual_scale_that_is_said():
    for name, ratio in (("chest", 1), ("inch", 1), ("three", 5), ("four", 5)):
        plate = cards(name)[0]
        assert plate.scale == pytest.approx(MM_UNIT[plate.unit] / ratio)
        assert any(f"Drawn 1 : {ratio}." in words for words in words_on(plate))
    asked = triangle_plate(made("chest"), scale=0.5)
    assert asked.scale == 0.5
    assert any("Drawn 1 : 2." in words for words in words_on(asked))


def test_the_angle_at_the_top_is_the_total_lean():
    for name in ("chest", "four"):
        arcs = [mark for mark in cards(name)[0].marks() if isinstance(mark, Arc)]
        for card in cards_of(name):
            apex, _, foot = card.triangle
            [arc] = [arc for arc in arcs if np.allclose(arc.centre, apex)]
            lean = math.degrees(math.atan2(foot[0] - apex[0], apex[1] - foot[1]))
            assert (arc.start_deg, arc.end_deg) == pytest.approx((270.0, 270.0 + lean))


def test_no_size_is_written_that_is_not_a_size_of_the_piece():
    for name in ("chest", "inch", "four"):
        unit = made(name).design.unit
        known = {written(size.value, unit) for size in (*made(name).masters, *made(name).sizes) if size.unit != "deg"}
        for words in words_on(cards(name)[0]):
            for size in re.findall(r"^[aA]xis (.*?)\.?$|^run (.*) on|run (.*) on 10", words):
                assert "".join(size) in known
