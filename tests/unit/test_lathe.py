"""At the lathe: depths beside a square, speeds, calipers in working order, and the order of cuts.

Depths are held to a square and a circle by points; the order of cuts to what a turner must be able to say
of it: nothing is cut thicker than before, nothing is cut uphill, every station is sized once.
"""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.leg.lathe import (
    calipers,
    deepest_stop_cut,
    depth_at_corner,
    depth_at_flat,
    lathe_steps,
    rim_speed,
    speed_band,
    speed_bands,
)

steady = settings(deadline=None, derandomize=True, max_examples=60)
BAND = speed_band(67.9)
POST = {
    "distances": [0, 60, 60, 74, 80, 86, 400],
    "diameters": [48, 48, 40, 40, 28, 34, 22],
    "rough_diameter": 42.0,
    "speeds": BAND,
    "leave": 0.5,
    "square": 48.0,
    "square_parts": [(0, 60)],
}


def of(kind, steps):
    return [step for step in steps if step.kind == kind]


def post(**changed):
    return lathe_steps(**POST | changed)


def ways_to_the_round(square, diameter):
    """How far each point of a square's outline lies outside a circle round its middle."""
    face = np.linspace(-square / 2, square / 2, 20001)
    return np.hypot(square / 2, face) - diameter / 2


# Depths


@pytest.mark.parametrize(("square", "diameter"), [(48.0, 40.0), (48.0, 22.0), (60.0, 60.0), (1.875, 1.5)])
def test_depths_are_the_least_and_the_most_that_comes_off(square, diameter):
    off = ways_to_the_round(square, diameter)
    assert depth_at_flat(square, diameter) == pytest.approx(off.min(), abs=1e-9)
    assert depth_at_corner(square, diameter) == pytest.approx(off.max(), rel=1e-12)


def test_forty_eight_square_to_forty_round_is_four_at_the_flat_and_fourteen_at_the_corner():
    # by hand: (48 - 40) / 2 and (67.882 - 40) / 2
    assert depth_at_flat(48, 40) == 4
    assert depth_at_corner(48, 40) == pytest.approx(13.941, abs=5e-4)


@steady
@given(st.floats(1, 100), st.floats(0.1, 1), st.floats(0, 1))
def test_a_stop_cut_leaves_what_it_should_and_not_more(square, part, left):
    diameter = part * square
    leave = left * 0.99 * depth_at_corner(square, diameter)
    cut = deepest_stop_cut(square, diameter, leave)
    stays = math.hypot(square, square) / 2 - cut.depth_at_corner
    assert stays == pytest.approx(diameter / 2 + leave, rel=1e-12)
    if cut.depth_at_flat > 0:
        assert square / 2 - cut.depth_at_flat == pytest.approx(stays, rel=1e-12)
    else:
        assert stays >= square / 2 * (1 - 1e-12)  # the flat is never reached


def test_a_stop_cut_that_would_cut_nothing_is_refused():
    with pytest.raises(DesignError, match="wood left on the radius is 14; it must lie"):
        deepest_stop_cut(48.0, 40.0, 14)
    with pytest.raises(DesignError, match="is 50; a fully round part is at most as thick as its square, 48"):
        deepest_stop_cut(48.0, 50.0, 1.0)
    with pytest.raises(DesignError, match="wood left on the radius is -1"):
        deepest_stop_cut(48.0, 40.0, -1)
    for bad in ((0.0, 40.0, 1.0), (48.0, -1.0, 1.0), (48.0, math.nan, 1.0)):
        with pytest.raises(DesignError, match="must be"):
            deepest_stop_cut(*bad)


# Speeds


def test_rim_speed_is_the_way_round_times_the_turns():
    # a wheel of 1 m round, 318.3 mm across, at 60 turns a minute: 1 m/s
    assert rim_speed(1000 / math.pi, 60) == pytest.approx(1, rel=1e-14)
    assert rim_speed(np.array([100.0, 200.0]), 300).tolist() == pytest.approx([math.pi / 2, math.pi])
    assert type(rim_speed(100, 300)) is float


def test_the_thicker_the_work_the_slower_it_turns():
    for name in ("roughing_rpm", "general_rpm", "finishing_rpm"):
        speeds = [getattr(band, name) for band in speed_bands()]
        assert speeds == sorted(speeds, reverse=True)
    assert all(b.roughing_rpm < b.general_rpm <= b.finishing_rpm for b in speed_bands())
    assert all("from memory" in band.source for band in speed_bands())


def test_at_the_limit_of_a_band_the_slower_one_holds():
    for band, slower in itertools.pairwise(speed_bands()):
        assert speed_band(band.upper_diameter_mm - 0.01) == band
        assert speed_band(band.upper_diameter_mm) == slower


@pytest.mark.parametrize("swing", [0.0, -5.0, 406.4, 900.0, math.nan])
def test_beyond_the_table_no_speed_is_made_up(swing):
    with pytest.raises(DesignError, match="The swing is"):
        speed_band(swing)


# Calipers


STATIONS = st.lists(st.tuples(st.integers(0, 50), st.integers(20, 40)), min_size=1, max_size=8)


@steady
@given(STATIONS, st.sampled_from([0, 1, 3]), st.sampled_from([0, 0.5]))
def test_calipers_are_only_ever_closed_and_serve_every_station_once(stations, tolerance, leave):
    made = calipers(*zip(*stations, strict=True), leave, tolerance)
    sizes = [setting.diameter for setting in made]
    assert sizes == sorted(set(sizes), reverse=True)
    for distance, diameter in stations:
        (serving,) = [s for s in made if s.diameter - tolerance <= diameter <= s.diameter and distance in s.distances]
        assert serving.sizing_diameter == serving.diameter + 2 * leave
    assert {x for s in made for x in s.distances} == {x for x, _ in stations}
    assert all(s.distances == tuple(sorted(set(s.distances))) for s in made)


@steady
@given(STATIONS, st.sampled_from([0, 1, 3]))
def test_no_choice_of_settings_makes_do_with_fewer(stations, tolerance):
    sizes = sorted({d for _, d in stations})
    fewest = next(
        n for n in range(1, len(sizes) + 1) for chosen in itertools.combinations(sizes, n)
        if all(any(c - tolerance <= d <= c for c in chosen) for d in sizes)
    )  # fmt: skip
    assert len(calipers(*zip(*stations, strict=True), tolerance=tolerance)) == fewest


@pytest.mark.parametrize(
    ("distances", "diameters", "said"),
    [
        ([], [], "There are 0 distances"),
        ([1.0], [2.0, 3.0], "1 distances and 2 diameters"),
        ([1.0], [0.0], "diameter at a station"),
        ([math.nan], [1.0], "distance of a station"),
    ],
)
def test_stations_that_are_none_are_refused(distances, diameters, said):
    with pytest.raises(DesignError, match=said):
        calipers(distances, diameters)
    with pytest.raises(DesignError, match=said):
        post(distances=distances, diameters=diameters)


def test_wood_left_and_tolerance_have_limits():
    with pytest.raises(DesignError, match="wood left on the radius"):
        calipers([1.0], [20.0], leave=-0.5)
    with pytest.raises(DesignError, match="tolerance"):
        calipers([1.0], [20.0], tolerance=25.0)


# The order of cuts


def test_the_kinds_of_steps_come_in_the_trades_order():
    kinds = [kind for kind, _ in itertools.groupby(step.kind for step in post())]
    assert kinds == ["centre", "line", "nick", "stop cut", "rough", "mark", "size", "shape", "blend", "sand", "cut off"]


def test_a_leg_by_hand():
    """48 square to 60, round from there: 40 to 74, a cove down to 28 at 80 and up to 34 at 86, a taper to 22."""
    steps = post()
    (stop,) = of("stop cut", steps)
    assert (stop.distances, stop.diameters) == ((60,), (41,))
    assert (stop.depth_at_flat, stop.depth_at_corner) == pytest.approx((3.5, 13.441), abs=5e-4)
    sized = [(step.diameters, step.distances) for step in of("size", steps)]
    assert sized == [((41,), (60, 74)), ((35,), (86,)), ((29,), (80,)), ((23,), (400,))]
    shaped = [(step.distances, step.diameters) for step in of("shape", steps)]
    assert shaped == [((60, 74), (40, 40)), ((74, 80), (40, 28)), ((86, 80), (34, 28)), ((86, 400), (34, 22))]
    standing = [step.kind for step in steps if step.spindle_rpm == 0]
    assert standing == ["centre", "line", "mark", "cut off"]
    assert {step.spindle_rpm for step in steps if step.kind in {"nick", "stop cut", "rough"}} == {BAND.roughing_rpm}


def test_a_leg_without_a_square_has_no_stop_cut():
    steps = lathe_steps([0, 400], [34, 22], 36, BAND, 0.5)
    kinds = [step.kind for step in steps]
    assert kinds == ["centre", "rough", "mark", "size", "size", "shape", "blend", "sand", "cut off"]


def test_a_square_in_the_middle_has_two_and_is_not_shaped():
    steps = lathe_steps(
        [0, 100, 100, 150, 150, 400], [30, 40, 48, 48, 40, 22], 42, BAND, 0.5, square=48, square_parts=[(100, 150)]
    )
    assert [step.distances for step in of("stop cut", steps)] == [(100,), (150,)]
    assert [sorted(step.distances) for step in of("shape", steps)] == [[0, 100], [150, 400]]
    assert max(step.diameters[0] for step in of("size", steps)) <= 42


def test_a_shape_that_begins_at_the_corners_is_nicked_and_takes_no_stop_cut():
    steps = post(distances=[0, 60, 60, 80, 400], diameters=[48, 48, 67.9, 40, 22])
    assert not of("stop cut", steps)
    assert [step.distances for step in of("nick", steps)] == [(60,)]
    assert (of("shape", steps)[0].distances, of("shape", steps)[0].diameters) == ((60, 80), (67.9, 40))


@st.composite
def legs(draw):
    """A square at the top and stations below it, down to the foot."""
    gaps = draw(st.lists(st.integers(0, 40), min_size=2, max_size=7))
    sizes = draw(st.lists(st.integers(15, 46), min_size=len(gaps), max_size=len(gaps)))
    below = list(itertools.accumulate(gaps, initial=60))[1:]
    first = draw(st.integers(15, 46))
    return [0, 60, 60, *below, 460], [48, 48, first, *sizes, sizes[-1]]


@steady
@given(legs(), st.sampled_from([0.0, 0.5, 2.0]))
def test_nothing_is_cut_uphill_and_the_thin_places_come_last(leg, leave):
    steps = lathe_steps(*leg, 47.0, BAND, leave, square=48.0, square_parts=[(0, 60)])
    shaped = of("shape", steps)
    assert all(step.diameters[0] >= step.diameters[1] for step in shaped)
    thinnest = [step.diameters[1] for step in shaped]
    assert thinnest == sorted(thinnest, reverse=True)
    sized = [step.diameters[0] for step in of("size", steps)]
    assert sized == sorted(sized, reverse=True) and max(sized) <= 47.0
    covered = sorted(x for step in shaped for x in range(*map(int, sorted(step.distances))))
    assert covered == list(range(60, 460))  # all along below the square, once


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"distances": [0, 60, 60, 74, 70, 86, 400]}, "run back; give them in order"),
        ({"rough_diameter": 39.0}, "The roughed diameter is 39.0; it must lie from 40 to 48"),
        ({"rough_diameter": 49.0}, "The roughed diameter is 49.0"),
        ({"square_parts": [(0, 62)]}, "no station at 62"),
        ({"diameters": [48] * 7, "square_parts": [(0, 400)]}, "nothing is left to turn"),
        ({"square": 0.0}, "The square is 0.0; it must be more than 0"),
        ({"square": math.nan}, "The square is nan"),
        ({"leave": 30.0}, "wood left on the radius"),
    ],
)
def test_a_leg_that_cannot_be_turned_so_is_refused(changed, said):
    with pytest.raises(DesignError, match=said):
        post(**changed)
