"""Regulating lines, proved by geometry in exact fractions: right angles, squares, parts like the whole."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from chance import by_chance
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.case.proportion import regulating_lines
from furnlib.trade.case.ratios import ratios

sides = st.fractions(min_value=Fraction(1, 8), max_value=2000, max_denominator=32)
NAMED = {ratio.name: ratio for ratio in ratios("whole numbers", "root rectangles")}


def lines(kind, *rectangle):
    return [line for line in regulating_lines(*rectangle) if line.kind == kind]


def along(line):
    return tuple(b - a for a, b in zip(line.start, line.end, strict=True))


def dot(one, other):
    return sum(a * b for a, b in zip(along(one), along(other), strict=True))


@by_chance(sides, sides, many=100)
def test_diagonals_join_opposite_corners(width, height):
    corners = {(0, 0), (width, 0), (0, height), (width, height)}
    pairs = [{line.start, line.end} for line in lines("diagonal", width, height)]
    assert len(pairs) == 2
    assert set.union(*pairs) == corners
    assert all([*map(abs, along(line))] == [width, height] for line in lines("diagonal", width, height))


@by_chance(sides, sides, many=100)
def test_the_reciprocal_is_square_to_a_diagonal_and_like_the_whole(width, height):
    if width == height:
        assert not lines("reciprocal", width, height)
        return
    perpendicular, edge = lines("reciprocal", width, height)
    assert 0 in [dot(perpendicular, diagonal) for diagonal in lines("diagonal", width, height)]
    short, long = sorted((width, height))
    cut = max(edge.start[0], edge.start[1])
    assert cut / short == short / long  # across over along, as in the whole
    assert perpendicular.start in {(width, 0), (0, height)}
    assert perpendicular.end in {edge.start, edge.end}  # a diagonal of the part: the two cross square
    assert sorted(map(abs, along(edge))) == [0, short]
    assert sorted(map(abs, along(perpendicular))) == [cut, short]


@by_chance(sides, sides, many=100)
def test_a_rabatment_is_a_square_from_either_end(width, height):
    short, long = sorted((width, height))
    found = lines("rabatment", width, height)
    places = {max(line.start) for line in found}
    assert places == ({short, long - short} if long > short else set())
    assert len(found) == len(places)
    for line in found:
        assert sorted(map(abs, along(line))) == [0, short]
        assert short in {max(line.start), long - max(line.start)}  # as far from one end as it is long


@pytest.mark.parametrize("name", [name for name in NAMED if ":" in name])
@pytest.mark.parametrize("upright", [True, False])
def test_whole_numbers_make_equal_parts_like_squares(name, upright):
    short, long = map(int, name.split(":"))
    width, height = (Fraction(30 * short), Fraction(30 * long))[:: 1 if upright else -1]
    found = lines("part", width, height, NAMED[name])
    assert len(found) == short + long - 2
    level = sorted({0, height, *(line.start[1] for line in found if along(line)[1] == 0)})
    plumb = sorted({0, width, *(line.start[0] for line in found if along(line)[0] == 0)})
    cells = {b - a for marks in (level, plumb) for a, b in pairwise(marks)}
    assert cells == {30}  # the rectangle has its ratio exactly, so every part is a square


@by_chance(sides, sides, many=100)
def test_without_whole_numbers_the_square_and_the_gnomon(width, height):
    short, long = sorted((width, height))
    for ratio in (None, NAMED["root 2"]):
        places = [max(line.start) for line in lines("part", width, height, ratio)]
        assert places == ([long - short, long - short * short / long] if long > short else [])


@by_chance(sides, sides, st.integers(2, 9), many=100)
def test_exchange_scale_and_inside(width, height, times):
    found = regulating_lines(width, height, NAMED["2:3"])
    if width != height:
        turned = regulating_lines(height, width, NAMED["2:3"])
        assert [(line.kind, line.start[::-1], line.end[::-1]) for line in found] == [
            (line.kind, line.start, line.end) for line in turned
        ]
    scaled = regulating_lines(times * width, times * height, NAMED["2:3"])
    for line, larger in zip(found, scaled, strict=True):
        assert [times * at for at in (*line.start, *line.end)] == [*larger.start, *larger.end]
        assert all(0 <= x <= width and 0 <= y <= height for x, y in (line.start, line.end))


@pytest.mark.parametrize("n", [2, 3, 4, 5])
def test_a_root_rectangle_is_made_of_its_reciprocals(n):
    """Root n holds n like rectangles: the cut is 1/n of its length."""
    width, height = 1.0, n**0.5
    edge = lines("reciprocal", width, height)[1]
    assert n * edge.start[1] == pytest.approx(height)


def test_sides_above_nothing():
    with pytest.raises(DesignError, match="The height is 0"):
        regulating_lines(5, 0)
