"""Panels in grooves, boards and sheets as a back, against edges that are moved through a whole year.

The witness keeps each part as the places of its edges, stretches them about where it is held, and measures what
lies in grooves and between boards. A sheet is held against its rebate corner by corner,.
"""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.base.terms import Term, total
from furnlib.teach.derive.panels import derive_panels
from furnlib.teach.derive.slots import derive_slots
from furnlib.trade.case.panels import (
    board_gap,
    board_tongue,
    boards_back,
    corner_radius,
    panel_in_grooves,
    sheet_corner,
    sheet_size,
)

few = settings(deadline=None, derandomize=True, max_examples=25)
SEASONS = [(1.012, 0.991), (1.0, 0.98), (1.02, 1.0), (1.03, 1.01), (0.99, 0.97), (1.0, 1.0)]
season = st.tuples(st.floats(0.95, 1.05), st.floats(0, 0.06)).map(lambda pair: (pair[0] + pair[1], pair[0]))


def stretches_of(damp, dry):
    return np.append(np.linspace(dry, damp, 61), 1.0)


@pytest.mark.parametrize("claim", [*derive_slots().claims, *derive_panels().claims], ids=lambda claim: claim.key)
def test_running_less_derived_is_nothing_at_all(claim):
    assert claim.difference == sympy.Integer(0)


# Panels


def panel_rooms(sight, made, stretches, pinned):
    """What lies in either groove and what is free before its bottom, the least over the year."""
    low, high, depth = -made.engagement, sight + made.engagement, total(made.groove_depth)
    held = (low + high) / 2 if pinned == "centre" else low
    lows, highs = (held + (edge - held) * stretches for edge in (low, high))
    engaged = np.array([-lows, highs - sight])
    return engaged.min(), (depth - engaged).min(), engaged


@pytest.mark.parametrize("pinned", ["centre", "edge"])
@pytest.mark.parametrize(("damp", "dry"), SEASONS)
def test_a_panel_stays_in_its_grooves_and_off_their_bottoms_all_year(pinned, damp, dry):
    made = panel_in_grooves(380.0, 5.0, 1.5, damp, dry, pinned=pinned)
    held, free, engaged = panel_rooms(380.0, made, stretches_of(damp, dry), pinned)
    assert (held, free) == pytest.approx((5.0, 1.5), abs=1e-9)
    assert total(made.width) == pytest.approx(380 + 2 * made.engagement)
    at_driest, at_dampest = engaged[1][0], engaged[1][60]
    assert (made.engagement_dry, made.engagement_damp) == pytest.approx((at_driest, at_dampest), abs=1e-9)


@few
@given(st.floats(50, 900), st.floats(0, 9), st.floats(0, 4), season, st.sampled_from(["centre", "edge"]))
def test_the_same_for_any_panel(sight, least, bottom_gap, band, pinned):
    made = panel_in_grooves(sight, least, bottom_gap, *band, pinned=pinned)
    held, free, _ = panel_rooms(sight, made, stretches_of(*band), pinned)
    assert (held, free) == pytest.approx((least, bottom_gap), abs=1e-9)


def test_the_whole_panel_moves_and_not_its_sight_only():
    """The usual slip asks too little: it leaves out what lies in the grooves."""
    made = panel_in_grooves(400.0, 5.0, 1.0, 1.0, 0.98, pinned="edge")
    assert made.engagement > 5.0 + 0.02 * 400.0
    assert made.engagement == pytest.approx(5.0 + 0.02 * (400.0 + 2 * made.engagement))


def test_pinned_at_one_edge_it_needs_deeper_grooves_and_no_season_only_what_was_asked():
    by_centre, by_edge = (panel_in_grooves(400.0, 5.0, 1.0, 1.01, 0.99, pinned=pin) for pin in ("centre", "edge"))
    assert total(by_edge.groove_depth) > total(by_centre.groove_depth)
    still = panel_in_grooves(400.0, 5.0, 1.0, 1.0, 1.0)
    assert (still.engagement, total(still.width), total(still.groove_depth)) == (5.0, 410.0, 6.0)


def test_panels_of_a_sweep_are_one_call():
    sights = np.array([200.0, 400.0, 600.0])
    made = panel_in_grooves(sights, 5.0, 1.0, 1.01, 0.99)
    for place, sight in enumerate(sights):
        alone = panel_in_grooves(float(sight), 5.0, 1.0, 1.01, 0.99)
        assert isinstance(alone.engagement, float)
        assert made.engagement[place] == pytest.approx(alone.engagement, rel=1e-14)
        assert total(made.groove_depth)[place] == pytest.approx(total(alone.groove_depth), rel=1e-14)


# Boards


def boards_rooms(back_width, count, made, stretches):
    """Least gap, overlap of tongues, room in their grooves, edge gap and cover of the rebates over the year."""
    places = made.edge_gap + made.face / 2 + np.arange(count) * (made.face + made.gap)
    middles = places[:, None]
    left, right = (middles + side * made.face / 2 * stretches for side in (-1, 1))
    tips = middles + (made.face / 2 + made.tongue) * stretches
    bottoms = middles - (made.face / 2 - made.tongue) * stretches  # a groove as deep as the tongue is long
    edges = np.minimum(left[0], back_width - right[-1])
    found = {"edge": edges.min(), "cover": (made.rebate - np.maximum(left[0], back_width - right[-1])).min()}
    if count > 1:
        found["gap"] = (left[1:] - right[:-1]).min()
        found["overlap"] = (tips[:-1] - left[1:]).min()
        found["groove"] = (bottoms[1:] - tips[:-1]).min()
    return found


@few
@given(st.floats(200, 1500), st.integers(1, 9), st.floats(0.2, 3), st.floats(0, 8), season)
def test_boards_never_meet_never_show_daylight_and_fill_the_back(back_width, count, least_gap, least_overlap, band):
    made = boards_back(back_width, count, least_gap, least_overlap, *band)
    found = boards_rooms(back_width, count, made, stretches_of(*band))
    assert total(made.chain) == pytest.approx(back_width, abs=1e-9)
    assert (found["edge"], found["cover"]) == pytest.approx((least_gap, least_overlap), abs=1e-9)
    if count > 1:
        assert (found["gap"], found["overlap"]) == pytest.approx((least_gap, least_overlap), abs=1e-9)
        assert found["groove"] == pytest.approx(least_gap, abs=1e-9)
    assert made.gap_damp == pytest.approx(made.face + made.gap - made.face * band[0], abs=1e-9)
    assert made.gap_dry == pytest.approx(made.face + made.gap - made.face * band[1], abs=1e-9)


def test_gap_and_tongue_by_the_makers_rule():
    """w C d_up, and gap + w C d_down: so in the handbook's linear law, the tongue's own shrinking left out."""
    up, down = 0.00248 * 4, 0.00248 * 2
    assert board_gap(110.0, 0.0, 1 + up) == pytest.approx(110 * up)
    assert board_tongue(110.0, 1.1, 0.0, 1 - down) == pytest.approx(1.1 + 110 * down, rel=0.006)


def test_more_boards_need_smaller_gaps():
    gaps = [boards_back(900.0, count, 0.5, 3.0, 1.01, 0.99).gap for count in (4, 6, 9)]
    assert gaps == sorted(gaps, reverse=True)


# Sheets


@few
@given(st.integers(100, 2000), st.integers(0, 20), st.integers(0, 20), st.fractions(0, 3, max_denominator=16))
def test_a_sheet_lies_in_its_rebates_with_the_ease_at_either_end(inside, first, second, ease):
    size = total(sheet_size(inside, (first, second), ease))
    start, end = -first + ease, inside + second - ease
    assert size == end - start
    assert isinstance(size, int | Fraction)


def test_further_deductions_stand_in_the_sum():
    terms = sheet_size(Fraction(600), (Fraction(10), Fraction(10)), Fraction(1), (Term(Fraction(-18), "rail"),))
    assert total(terms) == 600 + 20 - 2 - 18
    assert [term.what for term in terms] == ["inside", "rebate", "ease", "rail"]


def farthest_of_corner(radius, ease, cutter):
    """How far the rounded corner of a sheet reaches from the middle of the cutter's round, at its worst."""
    turn = np.radians(np.linspace(180, 270, 2001))
    middle = ease + radius
    return np.hypot(middle + radius * np.cos(turn) - cutter, middle + radius * np.sin(turn) - cutter).max()


@pytest.mark.parametrize("cutter", [3.0, 6.35, 12.0])
@pytest.mark.parametrize("ease", [0.0, 0.3, 0.8])
def test_a_rounded_corner_just_touches_the_round_that_the_cutter_left(cutter, ease):
    radius = sheet_corner(cutter, ease)
    assert farthest_of_corner(radius, ease, cutter) == pytest.approx(cutter, abs=1e-6)
    assert farthest_of_corner(radius * 0.9, ease, cutter) > cutter


def test_with_room_enough_a_square_corner_clears():
    assert sheet_corner(6.0, 2.0) == 0.0
    assert corner_radius(6.0, 2.0) < 0
    assert farthest_of_corner(0.0, 2.0, 6.0) < 6.0
    assert sheet_corner(np.array([6.0, 8.0]), 2.0) == pytest.approx([0.0, corner_radius(8.0, 2.0)])


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: panel_in_grooves(0.0, 4.0, 1.0, 1.01, 0.99), "width seen of the panel is 0.0"),
        (lambda: panel_in_grooves(400.0, -4.0, 1.0, 1.01, 0.99), "least engagement is -4.0"),
        (lambda: panel_in_grooves(400.0, 4.0, -1.0, 1.01, 0.99), "gap in the bottom of the groove is -1.0"),
        (lambda: panel_in_grooves(400.0, 4.0, 1.0, 1.01, 0.99, pinned="top"), "pinned at 'top'"),
        (lambda: panel_in_grooves(400.0, 4.0, 1.0, 1.0, 0.4, pinned="edge"), "no groove holds a panel"),
        (lambda: panel_in_grooves(400.0, 4.0, 1.0, 0.98, 0.99), "dampest must be the larger"),
        (lambda: boards_back(0.0, 5, 1.0, 3.0, 1.01, 0.99), "width of the back is 0.0"),
        (lambda: boards_back(600.0, 0, 1.0, 3.0, 1.01, 0.99), "has 0 boards"),
        (lambda: boards_back(600.0, 2.5, 1.0, 3.0, 1.01, 0.99), "has 2.5 boards"),
        (lambda: boards_back(600.0, math.nan, 1.0, 3.0, 1.01, 0.99), "number of boards is nan"),
        (lambda: boards_back(600.0, math.inf, 1.0, 3.0, 1.01, 0.99), "number of boards is inf"),
        (lambda: boards_back(600.0, "five", 1.0, 3.0, 1.01, 0.99), "number of boards is five"),
        (lambda: boards_back(600.0, 5, 120.0, 3.0, 1.01, 0.99), "face of a board is -"),
        (lambda: boards_back(600.0, 5, 1.0, -3.0, 1.01, 0.99), "least overlap is -3.0"),
        (lambda: sheet_size(0, (10, 10), 1), "inside size of the case is 0"),
        (lambda: sheet_size(600, (10, -1), 1), "rebate is -1"),
        (lambda: sheet_size(600, (0, 0), 300), "size of the sheet is 0"),
        (lambda: sheet_corner(-1.0, 0.0), "radius of the cutter is -1.0"),
    ],
)
def test_what_cannot_be_made_is_said(call, words):
    with pytest.raises(DesignError, match=words):
        call()
