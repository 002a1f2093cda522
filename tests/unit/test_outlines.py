"""Outlines on the grid: against every pair of sizes of small limits, in exact fractions; and their properties."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import numpy as np
import pytest
from chance import by_chance
from hypothesis import assume
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.case.outlines import outlines
from furnlib.trade.case.ratios import ratios

EXACT = ratios("whole numbers")
EVERY = ratios()
SOME = (*EXACT[:8:3], *EXACT[10:15:2], *ratios("golden section"))


def some_limits():
    return st.tuples(st.integers(20, 60), st.integers(0, 15)).map(lambda pair: (pair[0], sum(pair)))


legs_in_field = st.tuples(st.fractions(0, 15, max_denominator=8), st.sampled_from(("silhouette", "case")))


def landed(height, width, legs, field, upright):
    """Long over short of the field, taken as upright or lying."""
    ratio = Fraction(height - (legs if field == "case" else 0)) / width
    return ratio if upright else 1 / ratio


def tried(heights, widths, grid, chosen, legs, field):
    """The least off for each ratio over every pair of sizes on the grid, where its line crosses the limits."""
    sizes = [[grid * n for n in range(1, 400) if low <= grid * n <= high] for low, high in (heights, widths)]
    best = {}
    if not all(sizes):
        return {}
    for ratio, upright in product(chosen, (True, False)):
        if ratio.value == 1 and not upright:  # a square stands one way only
            continue
        corners = [landed(h, w, legs, field, upright) for h in (sizes[0][0], sizes[0][-1]) for w in sizes[1]]
        if not min(corners) <= ratio.fraction <= max(corners):
            continue
        off = min(abs(landed(h, w, legs, field, upright) / ratio.fraction - 1) for h, w in product(*sizes))
        best[ratio.fraction] = min(off, best.get(ratio.fraction, off))
    return best


def found_best(*wanted):
    found = outlines(*wanted)
    return {outline.ratio.fraction: abs(outline.off) for outline in found.best(len(EVERY))}


@by_chance(some_limits(), some_limits(), st.sampled_from((1, 2, 5, Fraction(1, 2))), legs_in_field, many=40)
def test_the_best_of_each_ratio_is_the_best_of_all_pairs(heights, widths, grid, legs_field):
    expected = tried(heights, widths, grid, SOME, *legs_field)
    assume(expected)
    found = found_best(heights, widths, grid, SOME, *legs_field)
    assert found == pytest.approx({ratio: float(off) for ratio, off in expected.items()}, abs=1e-13)


@by_chance(some_limits(), some_limits(), st.sampled_from((1, 2, Fraction(1, 2))), legs_in_field, many=40)
def test_every_outline_keeps_its_word(heights, widths, grid, legs_field):
    legs, field = legs_field
    assume(tried(heights, widths, grid, SOME, *legs_field))
    found = outlines(heights, widths, grid, SOME, *legs_field)
    seen = set()
    for rank in range(0, len(found), 1 + len(found) // 60):
        one = found[rank]
        assert heights[0] <= one.height <= heights[1]
        assert widths[0] <= one.width <= widths[1]
        assert (one.height / grid).denominator == (one.width / grid).denominator == 1
        assert one.silhouette == one.height / one.width
        assert one.case == (one.height - legs) / one.width
        exact = landed(one.height, one.width, legs, field, one.upright) / one.ratio.fraction - 1
        assert one.off == pytest.approx(float(exact), abs=1e-14)
        assert (one.off == 0) == (exact == 0)
        seen.add((one.ratio.name, one.upright, one.height, one.width))
    assert len(seen) == len(range(0, len(found), 1 + len(found) // 60))
    assert list(abs(found.off)) == sorted(abs(found.off))


@by_chance(some_limits(), some_limits(), st.integers(2, 4), legs_in_field, many=40)
def test_a_finer_grid_never_does_worse(heights, widths, finer, legs_field):
    assume(tried(heights, widths, 4, EXACT, *legs_field))
    coarse = found_best(heights, widths, 4, EXACT, *legs_field)
    fine = found_best(heights, widths, Fraction(4, finer), EXACT, *legs_field)
    assert set(coarse) <= set(fine)
    assert all(fine[ratio] <= coarse[ratio] for ratio in coarse)


@by_chance(some_limits(), some_limits(), st.integers(1, 4), many=40)
def test_exchange_of_height_and_width(heights, widths, grid):
    assume(tried(heights, widths, grid, SOME, 0, "silhouette"))
    found, turned = outlines(heights, widths, grid, SOME), outlines(widths, heights, grid, SOME)

    def rows(outlines, first, second):
        square = [r.value == 1 for r in outlines.ratios]
        upright = outlines.upright if first is outlines.heights else ~outlines.upright
        kept = [not square[which] for which in outlines.ratio]
        return sorted(zip(outlines.off[kept], first[kept], second[kept], upright[kept], strict=True))

    assert rows(found, found.heights, found.widths) == rows(turned, turned.widths, turned.heights)


@by_chance(some_limits(), some_limits(), st.fractions(Fraction(1, 8), 50, max_denominator=16), legs_in_field, many=40)
def test_scaling_changes_nothing_but_the_unit(heights, widths, times, legs_field):
    legs, field = legs_field
    assume(tried(heights, widths, 1, SOME, *legs_field))
    found = outlines(heights, widths, 1, SOME, *legs_field)
    larger = [tuple(times * limit for limit in limits) for limits in (heights, widths)]
    scaled = outlines(*larger, times, SOME, times * legs, field)
    for name in ("heights", "widths", "off", "ratio", "upright"):
        np.testing.assert_array_equal(getattr(found, name), getattr(scaled, name))
    assert [one.height * times for one in found.best()] == [one.height for one in scaled.best()]


def test_the_same_input_gives_the_same_order():
    wanted = ((600, 1400), (300, 900), Fraction(5, 2), EVERY, 150, "case")
    first, again = outlines(*wanted), outlines(*wanted)
    for name in ("heights", "widths", "off", "ratio", "upright"):
        np.testing.assert_array_equal(getattr(first, name), getattr(again, name))


def test_equally_near_ones_stand_by_the_middle_of_the_limits():
    found = outlines((600, 900), (400, 600), 10, ratios("whole numbers")[5:6])
    exact = [found[rank] for rank in range(len(found)) if found[rank].off == 0]
    assert [(int(one.height), int(one.width)) for one in exact][:3] == [(750, 500), (720, 480), (780, 520)]


def test_a_ratio_with_two_names_is_tried_once_under_the_first():
    octave = [ratio for ratio in EVERY if ratio.exact == 2]
    assert len(octave) == 4
    assert {one.ratio.name for one in outlines((900, 1100), (450, 550), 1, octave).best()} == {octave[0].name}


def test_silhouette_and_case_disagree():
    """Whole 5:2 with legs of a tenth is 9:4 in the case; legs are not on the grid here."""
    whole = outlines((1000, 1400), (500, 560), 10, EXACT, Fraction(265, 2)).best(1)[0]
    assert whole.case == whole.silhouette - Fraction(265, 2) / whole.width
    field = outlines((1300, 1300), (520, 520), 10, EXACT, 130, "case").best()
    assert [(one.ratio.name, one.silhouette, one.case) for one in field] == [("4:9", Fraction(5, 2), Fraction(9, 4))]


def test_inches_stay_exact():
    best = outlines((48, 52), (19, 21), Fraction(1, 32), EXACT, Fraction(51, 8)).best(1)[0]
    assert best.off == 0
    assert (best.ratio.name, best.height, best.width) == ("2:5", 50, 20)


def test_decimals_are_read_as_they_are_written():
    assert outlines((1.3, 1.3), (0.52, 0.52), 0.01, EXACT).best(1)[0].off == 0


WIDE, TALL = (500, 600), (1000, 1100)
REFUSED = {
    "exchanged": (((1100, 1000), WIDE, 1, EXACT), "The least height, 1100, is above the most, 1000: exchange them"),
    "no grid": ((TALL, WIDE, 0, EXACT), "The grid is 0"),
    "coarse grid": (
        (TALL, (501, 549), 50, EXACT),
        "No width from 501 to 549 is on the grid of 50; the nearest are 500",
    ),
    "nothing wide": ((TALL, (0, 600), 1, EXACT), "The least width is 0"),
    "all legs": ((TALL, WIDE, 1, EXACT, 1000), "The leg height is 1000; it must be from 0 to below the least height"),
    "legs down": ((TALL, WIDE, 1, EXACT, -1), "The leg height is -1"),
    "legs nowhere": ((TALL, WIDE, 1, EXACT, float("inf")), "The leg height is inf"),
    "field": ((TALL, WIDE, 1, EXACT, 0, "cases"), "did you mean 'case'"),
    "no ratio": ((TALL, WIDE, 1, ()), "No ratio is given"),
    "too fine": ((TALL, WIDE, 0.0001, EXACT), "take a coarser grid"),
    "too large": (((10**15, 10**15), (10**15, 10**15), 1, ratios("golden section")), "too fine"),
}


@pytest.mark.parametrize(("wanted", "words"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused(wanted, words):
    with pytest.raises(DesignError, match=words):
        outlines(*wanted)


SHUT_OUT = {  # worked by hand: limits, ratio, what binds and by how much
    "most width": (
        (900, 950),
        (300, 400),
        "2:3",
        "least height, 900, it wants a width of 600, 200 above the most width",
    ),
    "least width": (
        (600, 700),
        (500, 550),
        "2:3",
        "most height, 700, .* width of 466.667, 33.3333 below the least width",
    ),
    "most height": ((300, 380), (600, 650), "2:3", "least width, 600, .* height of 400, 20 above the most height, 380"),
    "least height": (
        (400, 500),
        (540, 570),
        "2:3",
        "most width, 570, .* height of 380, 20 below the least height, 400",
    ),
}


@pytest.mark.parametrize(("heights", "widths", "name", "words"), SHUT_OUT.values(), ids=SHUT_OUT)
def test_the_limit_that_binds_is_said(heights, widths, name, words):
    chosen = [ratio for ratio in EXACT if ratio.name == name]
    with pytest.raises(DesignError, match=f"No ratio fits between the limits; {name} (upright|lying) comes.*{words}"):
        outlines(heights, widths, 1, chosen)


def test_the_limit_that_binds_counts_the_legs():
    """Case field at most 1000 - 100; 2:3 lying on 540 wide wants a field of 360, so 460 with the legs."""
    chosen = [ratio for ratio in EXACT if ratio.name == "2:3"]
    with pytest.raises(DesignError, match="most width, 540, it wants a height of 460, 40 below the least height, 500"):
        outlines((500, 560), (530, 540), 1, chosen, 100, "case")


@by_chance(some_limits(), some_limits(), legs_in_field, many=40)
def test_refused_exactly_where_no_ratio_crosses_the_limits(heights, widths, legs_field):
    few = ratios("golden section")
    if tried(heights, widths, 1, few, *legs_field):
        assert len(outlines(heights, widths, 1, few, *legs_field))
    else:
        with pytest.raises(DesignError, match="No ratio fits between the limits"):
            outlines(heights, widths, 1, few, *legs_field)
