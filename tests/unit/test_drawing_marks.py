"""Dimensions, angles and hatching drawn out: measured by plain vector arithmetic."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest

from furnlib.draw.drawing import AngleDimension, Arc, Dimension, Drawing, Fill, Stroke, Text


def drawing_of(*items, scale=1.0, box=(-50.0, -50.0, 50.0, 50.0)):
    return Drawing("Test", tuple(items), scale, box, "mm", spoken='A test of "this" & <that>.')


# Dimensions

DIRECTIONS = sorted({*range(0, 360, 15), 89, 91, 179, 181, 269, 271})


def marks_of(item, scale):
    marks = list(drawing_of(item, scale=scale).marks())
    (words,) = [mark for mark in marks if isinstance(mark, Text)]
    return marks, words


@pytest.mark.parametrize("direction", DIRECTIONS)
def test_the_words_of_a_dimension_are_never_upside_down_and_stand_above_their_line(direction):
    angle = math.radians(direction)
    for offset, length_mm, scale in product((-12.0, -6.0, 5.0, 14.0), (4.0, 60.0), (0.1, 1.0, 12.7)):
        start, length = (7.0, -3.0), length_mm / scale
        end = (start[0] + length * math.cos(angle), start[1] + length * math.sin(angle))
        marks, words = marks_of(Dimension(start, end, offset, "1149"), scale)
        turn = (words.turn_deg + 180) % 360 - 180
        assert -90 < round(turn, 6) <= 90  # read from below or from the right
        assert (turn - direction) % 180 == pytest.approx(0, abs=1e-6) or (turn - direction) % 180 > 179.999
        # the dimension line is the one that runs along: parallel, at the offset, to the left where above 0
        along, left = np.array([math.cos(angle), math.sin(angle)]), np.array([-math.sin(angle), math.cos(angle)])
        lines = [np.array(mark.points) for mark in marks if isinstance(mark, Stroke)]
        runs = [line for line in lines if abs((line[1] - line[0]) @ left) < 1e-6 / scale]
        (line,) = [run for run in runs if np.linalg.norm(run[1] - run[0]) >= length - 1e-6]
        assert (line - start) @ left * scale == pytest.approx([offset, offset], abs=1e-6)
        reach = (line - start) @ along
        assert min(reach) == pytest.approx(0, abs=1e-6)
        assert max(reach) >= length - 1e-6
        # the foot of the letters lies on the upper side of that line, clear of it
        up = np.array([-math.sin(math.radians(turn)), math.cos(math.radians(turn))])
        over = (np.array(words.at) - line[0]) @ up * scale
        assert 0.3 < over < 2.0
        # beside a short line, in the middle of a long one
        at = (np.array(words.at) - start) @ along * scale
        if length_mm > 30:
            assert at == pytest.approx(length_mm / 2, abs=1e-6)
        else:
            assert at > length_mm


def test_a_dimension_has_two_ticks_on_the_places_that_it_measures():
    marks, _ = marks_of(Dimension((0.0, 0.0), (400.0, 0.0), 6.0, "400"), 0.1)
    ticks = [np.array(mark.points) for mark in marks if isinstance(mark, Stroke) and mark.kind == "bar"]
    assert len(ticks) == 2
    middles = sorted(tuple(np.round(tick.mean(axis=0), 9)) for tick in ticks)
    assert middles == [(0.0, 60.0), (400.0, 60.0)]  # 6 mm on paper at 1 : 10


@pytest.mark.parametrize("sweep", [(0.0, 36.8), (90.0, 180.0), (200.0, 230.0), (270.0, 279.95), (-100.0, 60.0)])
def test_an_angle_is_shown_as_its_arc_with_upright_words(sweep):
    marks, words = marks_of(AngleDimension((5.0, 6.0), 20.0, *sweep, "36.8°"), 0.5)
    (arc,) = [mark for mark in marks if isinstance(mark, Arc)]
    assert (arc.centre, arc.radius, arc.start_deg, arc.end_deg) == ((5.0, 6.0), 40.0, *sweep)
    assert words.turn_deg == 0
    middle = math.radians(sum(sweep) / 2)
    away = (words.at[0] - 5.0) * math.cos(middle) + (words.at[1] - 6.0) * math.sin(middle)
    assert away * 0.5 > 18  # outside the arc, or just across it


# Hatching

OUTLINES = {
    "box": ((0, 0), (40, 0), (40, 25), (0, 25)),
    "clockwise": ((0, 0), (0, 25), (40, 25), (40, 0)),
    "triangle": ((0, 0), (37, 5), (11, 29)),
    "slanted like the hatch": ((0, 0), (30, 30), (20, 30), (-10, 0)),
    "hollow": ((0, 0), (40, 0), (40, 30), (27, 30), (27, 9), (13, 9), (13, 30), (0, 30)),
    "star": tuple(((20, 8)[i % 2] * math.cos(i * 0.628), (20, 8)[i % 2] * math.sin(i * 0.628)) for i in range(10)),
    "thin": ((0, 0), (40, 0.4), (40, 0.9)),
    "tiny": ((3, 3), (3.5, 3), (3.5, 3.5)),
}  # fmt: skip


def inside(point, outline):
    """Distance of a point outside an outline, 0 within it: by the crossing rule and by its edges."""
    x, y = point
    crossings, near = 0, math.inf
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            crossings += 1
        t = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2)
        t = min(max(t, 0), 1)
        near = min(near, math.hypot(x - x0 - t * (x1 - x0), y - y0 - t * (y1 - y0)))
    return 0 if crossings % 2 else near


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize("scale", [0.5, 1.0, 4.0])
def test_hatch_lines_stay_inside_their_outline(name, scale):
    outline = OUTLINES[name]
    marks = list(drawing_of(Fill(outline, "wood", hatch=True), scale=scale).marks())
    lines = [np.array(mark.points) for mark in marks if isinstance(mark, Stroke) and mark.kind == "hatch"]
    for start, end in lines:
        for t in np.linspace(0, 1, 21):
            assert inside(start + t * (end - start), outline) < 1e-6
    if name in {"box", "clockwise", "hollow"}:
        # lines at 45 degrees, 2.2 mm apart on paper: their length by the area that they cover
        area = 40 * 25 if name != "hollow" else 40 * 30 - 14 * 21
        covered = sum(np.linalg.norm(end - start) for start, end in lines) * 2.2 / scale
        assert covered == pytest.approx(area, rel=0.25 if scale < 1 else 0.1)
