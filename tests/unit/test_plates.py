"""The plates, of the demo pieces and of pieces that strain them: words stand clear, inside, on paper.

How much room a word takes is asked of matplotlib, with the letters as wide as on paper; the plates
themselves lay words out by an estimate. Two words may touch by 0.3 mm, no more.
"""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from itertools import combinations, pairwise

import matplotlib as mpl
import numpy as np
import pytest
from strained import every_piece, kind_of, piece, plates

from furnlib.draw.drawing import Stroke, Text
from furnlib.draw.pen import spread
from furnlib.draw.plates.overall import height_to_width
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.draw.sheet import PAPER_MM, sheet
from furnlib.record.stamp import title_of


def legs_of(design):
    return getattr(design, "legs", None)


def any_leans(design):
    return legs_of(design) is not None and any(one.lean().total_lean_deg for one in design.legs.lean.values())


def says(design, name):
    return getattr(design, name, None)


def dovetailed(design):
    return says(design, "drawers") and design.drawers.corner.joint in {"half-blind", "through"}


def turned(design):
    return legs_of(design) is not None and design.legs.is_turned


def top_square(design):
    return legs_of(design) is not None and bool(design.legs.square)


# Which plates a design needs, in the order of the work
KINDS = {
    "Overall": lambda design: True,
    "Proportion": lambda design: hasattr(design, "rows"),
    "Outlines": lambda design: getattr(design, "brief", None) and design.brief.height and design.brief.width,
    "In the round": lambda design: True,
    "Openings": lambda design: hasattr(design, "rows"),
    "Openings stick": lambda design: hasattr(design, "rows"),
    "Five rules": lambda design: hasattr(design, "rows") and design.rows.number > 1,
    "Fronts": lambda design: says(design, "drawers"),
    "Drilling pattern": lambda design: says(design, "drawers") and design.pulls,
    "Drawer": lambda design: says(design, "drawers"),
    "Dovetail strip": dovetailed,
    "Case section": lambda design: says(design, "drawers"),
    "Season band": lambda design: says(design, "drawers"),
    "Drilling strip": lambda design: says(design, "strips"),
    "Legs": legs_of,
    "Blank": turned,
    "Leg profile": turned,
    "Story stick": turned,
    "Half pattern": turned,
    "Sequence card": turned,
    "Drilling card": lambda design: hasattr(design, "seat"),
    "Saw card": top_square,
    "Strip": top_square,
    "Cradle": lambda design: turned(design) and not top_square(design),
    "Fixing": lambda design: getattr(legs_of(design), "fixing", None),
    "Triangle card": any_leans,
}
TOUCH_MM = 0.3
WITHIN_MM = 0.45  # a line this near the edge of a word's room still misses its letters


def rooms_of(drawing):
    """Each word of a drawing with the four corners of the room it takes, in mm on paper, and its turn.

    The lines are left out: they move no word, and take most of the time to draw.
    """
    words = replace(drawing, items=tuple(mark for mark in drawing.marks() if isinstance(mark, Text)))
    with mpl.rc_context({"text.hinting": "none"}):
        ax = words.plot()
        figure = ax.figure
        renderer = figure.canvas.get_renderer()
        found = []
        for artist in ax.texts:
            turn = math.radians(artist.get_rotation())
            artist.set_rotation(0)
            flat = artist.get_window_extent(renderer)
            at = ax.transData.transform(artist.get_position())
            corners = np.array([(x, y) for x, y in zip(*flat.corners().T, strict=True)])[[0, 1, 3, 2]] - at
            turned = corners @ np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
            found.append((artist.get_text(), (turned + at) * 25.4 / figure.dpi, turn))
    return [room for room in found if room[0].strip()]


@cache
def rooms(name):
    """The rooms of the words on each plate of a piece."""
    return [rooms_of(plate) for plate in plates(name)]


def overlap_mm(one, other):
    """By how much two turned rooms reach into each other; 0 and less where they stand apart."""
    (_, a, turn_a), (_, b, turn_b) = one, other
    depth = math.inf
    for turn in (turn_a, turn_a + math.pi / 2, turn_b, turn_b + math.pi / 2):
        along = np.array([math.cos(turn), math.sin(turn)])
        p, q = a @ along, b @ along
        depth = min(depth, min(p.max(), q.max()) - max(p.min(), q.min()))
    return depth


def clashes(found):
    reach = [(corners.min(axis=0), corners.max(axis=0)) for _, corners, _ in found]
    near = [
        (i, j)
        for i, j in combinations(range(len(found)), 2)
        if (reach[i][0] < reach[j][1]).all() and (reach[j][0] < reach[i][1]).all()
    ]
    depths = [(found[i][0], found[j][0], round(float(overlap_mm(found[i], found[j])), 2)) for i, j in near]
    return [clash for clash in depths if clash[2] > TOUCH_MM]


def outside(found, width, height):
    return [
        words
        for words, corners, _ in found
        if corners.min() < -0.01 or corners[:, 0].max() > width + 0.01 or corners[:, 1].max() > height + 0.01
    ]


def test_the_measure_of_an_overlap_is_sound():
    square = np.array([(0, 0), (10, 0), (10, 2), (0, 2)], dtype=float)
    flat, beside = ("a", square, 0.0), ("b", square + np.array([9.5, 0]), 0.0)
    assert overlap_mm(flat, beside) == pytest.approx(0.5)
    assert overlap_mm(flat, ("c", square + np.array([0, 2.5]), 0.0)) == pytest.approx(-0.5)
    # a square of side 2 stood on its corner above the middle of the flat one: its tip 0.4 into it
    tip = np.array([(0, 0), (2, 0), (2, 2), (0, 2)]) @ np.array([[1, 1], [-1, 1]]) / math.sqrt(2) + np.array([5, 1.6])
    assert overlap_mm(flat, ("d", tip, math.pi / 4)) == pytest.approx(0.4)


@every_piece
def test_a_piece_has_the_plates_that_it_needs(name):
    kinds = list(dict.fromkeys(kind_of(plate) for plate in plates(name)))
    assert kinds == [kind for kind, needed in KINDS.items() if needed(piece(name).design)]
    assert len({plate.name for plate in plates(name)}) == len(plates(name))


@every_piece
def test_no_words_run_into_one_another_and_all_stand_inside_the_picture(name):
    for plate, found in zip(plates(name), rooms(name), strict=True):
        assert len(found) == len([mark for mark in plate.marks() if isinstance(mark, Text) and mark.words.strip()])
        assert (plate.name, clashes(found)) == (plate.name, [])
        assert (plate.name, outside(found, *plate.size_mm)) == (plate.name, [])


@every_piece
def test_lines_and_fills_stand_inside_the_picture(name):
    for plate in plates(name):
        left, bottom, right, top = plate.box
        for mark in plate.marks():
            if not isinstance(mark, Text):
                xs, ys = zip(*(mark.points() if callable(mark.points) else mark.points), strict=True)
                assert left <= min(xs) <= max(xs) <= right
                assert bottom <= min(ys) <= max(ys) <= top


@every_piece
@pytest.mark.parametrize("paper", PAPER_MM)
def test_every_plate_fits_its_sheet(name, paper):
    count = len(plates(name))
    for number, plate in enumerate(plates(name), 1):
        whole = sheet(plate, title_of(piece(name), plate, number, count), paper)
        assert whole.size_mm == pytest.approx(PAPER_MM[paper])


# the longest names on the papers of their units; the rest are slow, and run in CI
LONGEST = {("a long name", "A4"), ("a long name, inch", "letter")}
TITLED = [(name, paper) for name in ("metric", "inch", "a long name", "a long name, inch") for paper in PAPER_MM]


@pytest.mark.parametrize(
    ("name", "paper"),
    [pair if pair in LONGEST else pytest.param(*pair, marks=pytest.mark.slow) for pair in TITLED],
)
def test_the_words_of_a_whole_sheet_stand_clear_and_inside_its_frame(name, paper):
    for number, plate in enumerate(plates(name), 1):
        found = rooms_of(sheet(plate, title_of(piece(name), plate, number, 4), paper))
        assert clashes(found) == []
        width, height = PAPER_MM[paper]
        inner = [(words, corners - 10.0, turn) for words, corners, turn in found]  # the frame stands 10 mm in
        assert outside(inner, width - 20.0, height - 20.0) == []


def struck(plate, found):
    """Words that a line runs through: a later one, or an earlier one where the words keep nothing clear."""
    marks = list(plate.marks())
    texts = [i for i, mark in enumerate(marks) if isinstance(mark, Text) and mark.words.strip()]
    pieces = [
        (*a, *b, order)
        for order, mark in enumerate(marks)
        if isinstance(mark, Stroke)
        for a, b in pairwise([*mark.points, *mark.points[: mark.closed]])
    ]
    lines, orders = np.array(pieces)[:, :4].reshape(-1, 2, 2), np.array(pieces)[:, 4].astype(int)
    lines = (lines - plate.box[:2]) * plate.scale
    strikes = []
    for i, (words, corners, turn) in zip(texts, found, strict=True):
        axes = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
        low, high = (corners @ axes).min(axis=0) + WITHIN_MM, (corners @ axes).max(axis=0) - WITHIN_MM
        over = crosses(lines[:, 0] @ axes, lines[:, 1] @ axes, low, high)
        over &= (orders > i) | (not marks[i].clear)
        strikes += [(words, marks[order].kind) for order in orders[over]]
    return strikes


def crosses(start, end, low, high):
    """Tell which straight lines run through an upright box."""
    with np.errstate(divide="ignore", invalid="ignore"):
        one, other = (low - start) / (end - start), (high - start) / (end - start)
    enter = np.fmax(np.fmin(one, other), 0).max(axis=-1)
    leave = np.fmin(np.fmax(one, other), 1).min(axis=-1)
    level = end == start
    return (enter < leave) & np.all(~level | ((low <= start) & (start <= high)), axis=-1)


@pytest.mark.parametrize(
    ("start", "end", "through"),
    [
        ((-1, 1), (5, 1), True),
        ((1, -1), (1, 5), True),
        ((-1, -1), (5, 3), True),
        ((1, 1), (2, 1), True),
        ((-1, 3), (5, 3), False),
        ((5, -1), (5, 5), False),
        ((-3, 0), (1, 4), False),
        ((-2, 1), (-1, 1), False),
    ],
)
def test_the_measure_of_a_line_through_a_box_is_sound(start, end, through):
    low, high = np.array([0.0, 0.0]), np.array([4.0, 2.0])
    assert crosses(np.array(start, float), np.array(end, float), low, high) == through
    assert crosses(np.array(end, float), np.array(start, float), low, high) == through


@every_piece
def test_no_line_strikes_words_through(name):
    for plate, found in zip(plates(name), rooms(name), strict=True):
        assert (plate.name, struck(plate, found)) == (plate.name, [])


# Small helpers of the plates


def test_a_scale_is_the_largest_usual_one_that_fits():
    for width, height, unit, beside, above in (
        (900, 1300, "mm", 40, 40), (100, 100, "mm", 40, 40), (3000, 400, "mm", 95, 34),
        (20, 50, "in", 95, 34), (120, 16, "in", 52, 56), (2, 6.9, "in", 90, 4),
    ):  # fmt: skip
        scale = fitting_scale(width, height, unit, beside, above)
        one = 1.0 if unit == "mm" else 25.4
        ratios = (1, 2, 2.5, 5, 10, 20, 50, 100) if unit == "mm" else (1, 2, 4, 8, 12, 16, 24, 48, 96)
        fits = [r for r in ratios if width * one / r + beside <= 188 and height * one / r + above <= 225]
        assert scale == pytest.approx(one / fits[0])
        assert ratio_words(scale, unit) == f"1 : {fits[0]}"


def test_labels_are_spread_apart_in_order_and_no_further_than_needed():
    for places in ([0.0, 1.0, 10.0], [0, 0, 0, 0], [0, 2.9, 5.9], [5.0], [], [0, 1, 2, 20, 20.5, 40]):
        spread_out = spread(places, 3.0)
        assert len(spread_out) == len(places)
        assert all(b - a >= 3.0 - 1e-9 for a, b in pairwise(spread_out))
        assert sum(spread_out) == pytest.approx(sum(places))
    assert spread([0.0, 1.0, 10.0], 3.0) == pytest.approx([-1.0, 2.0, 10.0])
    assert spread([0.0, 5.0], 3.0) == [0.0, 5.0]


@pytest.mark.parametrize(
    ("height", "width", "words"),
    [
        (F(1300), F(520), "5 : 2"),
        (F(50), F(20), "5 : 2"),
        (F(400), F(3000), "2 : 15"),
        (F(1301), F(520), "2.50 : 1"),  # 2.502
        (F(520), F(1301), "1 : 2.50"),
        (F(333), F(100), "3.33 : 1"),
    ],
)
def test_the_ratio_of_height_to_width_in_words(height, width, words):
    assert height_to_width(height, width) == words
