"""Whirling of any profile, held to shooting from end to end, and to what theory says of every beam.

The witness integrates the beam equation from the one end with scipy's solver and turns the frequency
until the other end is as it must be: no finite elements, no shape assumed.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from furnlib.base.guards import DesignError
from furnlib.trade.leg.whirling import (
    MODE_NUMBERS,
    clearance,
    slenderness,
    steady,
    uniform_whirling,
    whirling_rpm,
    whirling_share,
)

brief = settings(deadline=None, derandomize=True, max_examples=25)
ASH = 12_000.0, 670.0
ENDS = list(MODE_NUMBERS)


def turned(distances, diameters):
    """Distances, second moments and areas of a round leg."""
    d = np.asarray(diameters, dtype=float)
    return np.asarray(distances, dtype=float), math.pi * d**4 / 64, math.pi * d**2 / 4


def tapered(start, end, part, power):
    """Between two stations a straight taper: its thickness runs straight, not a power of it."""
    return (start ** (1 / power) * (1 - part) + end ** (1 / power) * part) ** power


def shot(x, moment, area, ends, stiffness=ASH[0], density=ASH[1]):
    """The lowest frequency at which a beam shot from its first end arrives as the last end wants it.

    Two starts, each with one of what the first end leaves open, are carried along together in the
    state step, slope, moment, force; lengths over the whole, so that all numbers are near 1.
    """
    length, stiff, heavy = x[-1] - x[0], moment.max(), area.max()
    places = (x - x[0]) / length
    open_ = (1, 3) if ends == "pinned-pinned" else (2, 3)
    zero = (2, 3) if ends == "fixed-free" else (0, 2)
    start = np.zeros((2, 4))
    start[0, open_[0]] = start[1, open_[1]] = 1

    def missed(b):
        state = start
        for a, z, (i0, i1), (a0, a1) in zip(places[:-1], places[1:], pairwise(moment), pairwise(area), strict=True):
            if z == a:
                continue

            def onward(t, y, a=a, z=z, i0=i0, i1=i1, a0=a0, a1=a1):
                part = (t - a) / (z - a)
                y = y.reshape(2, 4)
                bend = y[:, 2] / (tapered(i0, i1, part, 4) / stiff)
                push = b**4 * tapered(a0, a1, part, 2) / heavy * y[:, 0]
                return np.stack([y[:, 1], bend, y[:, 3], push], axis=1).ravel()

            state = solve_ivp(onward, (a, z), state.ravel(), method="DOP853", rtol=1e-9, atol=1e-11).y[:, -1]
            state = state.reshape(2, 4)
        return np.linalg.det(state[:, zero])

    low, step = 0.4, 0.3
    sign = missed(low)
    while missed(low + step) * sign > 0:
        low += step
    b = brentq(missed, low, low + step, xtol=1e-8)
    return b**2 / length**2 * math.sqrt(stiffness * stiff / (density * 1e-12 * heavy)) * 30 / math.pi


PROFILES = {
    "taper": turned([0, 100, 200, 300, 437], [36, 33, 30, 27, 22]),
    "stepped": turned([0, 60, 60, 300, 300, 400], [40, 40, 20, 24, 34, 28]),
    "necked": turned([0, 30, 60, 90, 400], [46, 18, 30, 34, 16]),
    "square top": (
        np.array([0.0, 80, 80, 420]),
        np.array([48.0**4 / 12] * 2 + [math.pi * d**4 / 64 for d in (40, 20)]),
        np.array([48.0**2] * 2 + [math.pi * d**2 / 4 for d in (40, 20)]),
    ),
}


@pytest.mark.parametrize("ends", ENDS)
@pytest.mark.parametrize("name", PROFILES)
def test_a_profile_whirls_as_shooting_says(name, ends):
    assert whirling_rpm(*PROFILES[name], *ASH, ends) == pytest.approx(shot(*PROFILES[name], ends), rel=1e-5)


@pytest.mark.parametrize(("ends", "mode_number"), MODE_NUMBERS.items())
@pytest.mark.parametrize("stations", [2, 3, 61, 300])
def test_a_leg_of_one_section_whirls_as_the_closed_formula_says(ends, mode_number, stations):
    x, moment, area = turned(np.linspace(50, 1050, stations), np.full(stations, 25.0))
    wanted = uniform_whirling(mode_number, 1000.0, 207e3 * moment[0], 7850e-12 * area[0]) * 30 / math.pi
    assert whirling_rpm(x, moment, area, 207e3, 7850, ends) == pytest.approx(wanted, rel=1e-7)


def test_the_guess_of_one_half_wave_is_always_high():
    """Energies of a half wave laid over the true profile, by a fine sum."""
    for x, moment, area in PROFILES.values():
        fine = (np.arange(20_000) + 0.5) / 20_000 * (x[-1] - x[0]) + x[0]
        rise = x + np.arange(x.size) * 1e-9  # where a distance stands twice nothing can be looked up
        i, a = np.interp(fine, rise, moment**0.25) ** 4, np.interp(fine, rise, area**0.5) ** 2
        wave = np.sin(math.pi * (fine - x[0]) / (x[-1] - x[0])) ** 2
        squared = (i * wave).sum() / (a * wave).sum() * (math.pi / (x[-1] - x[0])) ** 4
        guess = math.sqrt(squared * ASH[0] / (ASH[1] * 1e-12)) * 30 / math.pi
        assert whirling_rpm(x, moment, area, *ASH) < guess


# steeper than from 60 to 15 within 20 no beam theory says anything
SHAPES = st.lists(st.tuples(st.floats(20, 120), st.floats(15, 60)), min_size=2, max_size=7).map(
    lambda rows: turned(np.cumsum([0.0, *(gap for gap, _ in rows[1:])]), [d for _, d in rows])
)


@brief
@given(SHAPES, st.sampled_from(ENDS), st.floats(0.05, 30))
def test_scaled_it_whirls_slower_and_in_inches_the_same(shape, ends, k):
    x, moment, area = shape
    base = whirling_rpm(*shape, *ASH, ends)
    grown = k * x, k**4 * moment, k**2 * area
    assert whirling_rpm(*grown, *ASH, ends) == pytest.approx(base / k, rel=1e-7)
    assert whirling_rpm(*grown, *ASH, ends, mm_per_unit=1 / k) == pytest.approx(base, rel=1e-7)
    assert whirling_rpm(*shape, 4 * ASH[0], ASH[1], ends) == pytest.approx(2 * base, rel=1e-9)
    assert whirling_rpm(*shape, ASH[0], 4 * ASH[1], ends) == pytest.approx(base / 2, rel=1e-9)


@brief
@given(SHAPES)
def test_turned_end_for_end_between_centres_it_is_the_same(shape):
    x, moment, area = shape
    turned_round = (x[-1] - x)[::-1], moment[::-1], area[::-1]
    assert whirling_rpm(*turned_round, *ASH) == pytest.approx(whirling_rpm(*shape, *ASH), rel=1e-7)


@brief
@given(SHAPES, st.sampled_from(ENDS))
def test_more_stations_on_straight_runs_change_next_to_nothing(shape, ends):
    """To one in ten thousand, which is what is claimed."""
    x, moment, area = shape
    finer = np.unique(np.concatenate([x, np.linspace(x[0], x[-1], 40)]))
    more = finer, np.interp(finer, x, moment**0.25) ** 4, np.interp(finer, x, area**0.5) ** 2
    assert whirling_rpm(*more, *ASH, ends) == pytest.approx(whirling_rpm(*shape, *ASH, ends), rel=1e-4)


@brief
@given(SHAPES, st.floats(0.2, 0.95))
def test_stiffer_whirls_faster_heavier_slower_and_held_at_an_end_faster(shape, part):
    x, moment, area = shape
    base = whirling_rpm(*shape, *ASH)
    some = np.where(np.arange(x.size) == x.size // 2, part, 1.0)
    assert whirling_rpm(x, moment * some, area, *ASH) < base
    assert whirling_rpm(x, moment, area * some, *ASH) > base
    assert whirling_rpm(*shape, *ASH, "fixed-pinned") > base


def test_a_thinner_middle_whirls_at_less_and_thinner_ends_at_more():
    x = [0, 180, 180, 220, 220, 400]
    plain, necked, swelled = (
        whirling_rpm(*turned(x, [30, 30, middle, middle, 30, 30]), *ASH) for middle in (30, 22, 34)
    )
    assert necked < plain < swelled


def test_a_step_and_a_short_cone_in_its_place_are_nearly_one():
    step = turned([0, 200, 200, 400], [30, 30, 20, 20])
    cone = turned([0, 200 - 1e-3, 200 + 1e-3, 400], [30, 30, 20, 20])
    assert whirling_rpm(*cone, *ASH) == pytest.approx(whirling_rpm(*step, *ASH), rel=1e-5)


def test_two_places_a_hair_apart_are_a_step():
    step = turned([0, 200, 200, 400], [30, 30, 20, 20])
    hair = turned([0, 200, 200 + 3e-14, 400], [30, 30, 20, 20])
    assert whirling_rpm(*hair, *ASH) == pytest.approx(whirling_rpm(*step, *ASH), rel=1e-12)


def test_a_plain_number_comes_out_and_nothing_given_is_changed():
    x, moment, area = PROFILES["taper"]
    kept = x.copy(), moment.copy(), area.copy()
    assert type(whirling_rpm(x, moment, area, *ASH)) is float
    assert all((one == other).all() for one, other in zip(kept, (x, moment, area), strict=True))
    assert whirling_rpm(list(x), list(moment), list(area), *ASH) == whirling_rpm(x, moment, area, *ASH)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"distances": [0.0, 200.0, 100.0]}, "fall or never rise"),
        ({"distances": [5.0, 5.0, 5.0]}, "fall or never rise"),
        ({"distances": [0.0, 200.0]}, "There are 2 distances, 3 second moments and 3 areas"),
        ({"areas": [[1.0], [2.0], [1.0]]}, "each station has one of each"),
        ({"areas": 3.0}, "3 second moments and 1 areas"),
        ({"distances": [0.0, math.nan, 400.0]}, "distance of a station"),
        ({"second_moments": [1.0, 0.0, 1.0]}, "second moment of the section"),
        ({"areas": [1.0, -1.0, 1.0]}, "area of the section"),
        ({"stiffness_mpa": 0.0}, "The stiffness is 0.0"),
        ({"density_kg_m3": math.inf}, "The density is inf"),
        ({"mm_per_unit": -1.0}, "The mm in a unit is -1.0"),
        ({"ends": "pinned-fixed"}, "The ends are 'pinned-fixed'; did you mean"),
    ],
)
def test_what_is_no_leg_is_refused(changed, said):
    x, moment, area = turned([0, 200, 400], [30, 26, 20])
    base = {"distances": x, "second_moments": moment, "areas": area, "stiffness_mpa": 1e4, "density_kg_m3": 600.0}
    with pytest.raises(DesignError, match=said):
        whirling_rpm(**base | changed)


def test_one_station_is_no_leg():
    with pytest.raises(DesignError, match="give two stations or more"):
        whirling_rpm([0.0], [1.0], [1.0], *ASH)


# What is made of it


def test_a_share_is_a_share_and_half_of_it_is_kept_clear():
    assert whirling_share(np.array([1000.0, 2000.0]), 4000.0).tolist() == [0.25, 0.5]
    shares = [0.0, 0.499, 0.5, 0.999, 1.0, 7.0]
    assert [clearance(share) for share in shares] == ["well below"] * 2 + ["too near"] * 2 + ["past it"] * 2
    for bad in (-0.1, math.nan):
        with pytest.raises(DesignError, match="share of the whirling speed"):
            clearance(bad)


def test_the_slimmer_the_sooner_a_steady_and_beyond_forty_none_helps():
    told = [steady(length, 20.0) for length in (240.0, 241.0, 300.0, 301.0, 800.0)]
    assert told == ["not needed", "at hand", "at hand", "needed", "needed"]
    assert slenderness(np.array([240.0, 800.0]), 20.0).tolist() == [12, 40]
    with pytest.raises(DesignError, match=r"41 times as long as it is thick .* no steady holds more than 40"):
        steady(820.0, 20.0)
    for bad in ((0.0, 20.0), (400.0, -1.0), (math.nan, 20.0)):
        with pytest.raises(DesignError, match="must be"):
            steady(*bad)
