"""What a slip in setting a leg does to its foot.

The witness is a leg tipped by scipy's rotations, set a little wrong both ways: the difference of
the two feet is the slope that the formulas claim. Legs bored by chance are measured one by one.
"""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation
from scipy.stats import chi2, kstest

from furnlib.base.angles import tand
from furnlib.base.guards import DesignError
from furnlib.teach.derive import setting_error as derive
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.setting_error import (
    foot_ring,
    foot_slip,
    rise_scatter,
    slip_along,
    slip_of_height,
    slip_of_length,
    slip_of_run,
    slipped_feet,
)

steady = settings(deadline=None, derandomize=True)
totals, sights, heights = st.floats(0, 75), st.floats(-180, 180), st.floats(1, 2000)
slips = st.floats(-10, 10)
FRONT, BACK, HEIGHT = Lean.from_rake_splay(10.0, 12.0), Lean.from_rake_splay(16.0, 12.0), 420.0
MANY = 100_000


def outward(sight):
    """Fore-and-aft, sideways, up: the plan direction of a sight line."""
    return np.array([math.cos(math.radians(sight)), math.sin(math.radians(sight)), 0.0])


def axis(total, sight):
    """A plumb leg tipped about the level line square to its sight line."""
    hinge = np.cross([0, 0, -1], outward(sight))
    return Rotation.from_rotvec(hinge * math.radians(total)).apply([0, 0, -1])


def on_floor(total, sight, height):
    leg = axis(total, sight)
    return leg * (height / -leg[2])


def slope(place, at, step=1e-3):
    """Change of a place for each degree, from a little before to a little after."""
    return (place(at + step) - place(at - step)) / (2 * step)


# Against legs set a little wrong


@steady
@given(totals, sights, heights)
def test_a_degree_takes_the_foot_where_the_difference_of_two_legs_says(total, sight, height):
    slip = foot_slip(Lean.from_total_lean(total, sight), height)
    along, across = outward(sight), outward(sight + 90)
    length = height / math.cos(math.radians(total))
    leaned_more = slope(lambda angle: on_floor(angle, sight, height), total)
    swung_round = slope(lambda angle: on_floor(total, angle, height), sight)
    swung_up = slope(lambda angle: length * axis(angle, sight), total)
    near = {"rel": 1e-6, "abs": 1e-8 * height}
    assert slip.along == pytest.approx(leaned_more @ along, **near)
    assert slip.across == pytest.approx(swung_round @ across, **near)
    assert slip.shift == pytest.approx(swung_up @ along, **near)
    assert slip.rise == pytest.approx(swung_up[2], **near)
    for step, direction in ((leaned_more, across), (swung_round, along), (swung_up, across)):
        assert step @ direction == pytest.approx(0, abs=1e-6 * length)  # and nowhere else


@steady
@given(totals, sights, st.floats(-50, 50))
def test_a_leg_too_long_reaches_on_along_its_axis(total, sight, too_long):
    slip = foot_slip(Lean.from_total_lean(total, sight), 420.0, length_slip=too_long)
    reached = too_long * axis(total, sight)
    assert slip.length_along == pytest.approx(reached @ outward(sight), abs=1e-10)
    assert slip.length_down == pytest.approx(-reached[2], abs=1e-10)


def test_the_stool_by_hand():
    # tangents: 10 -> 0.176327, 12 -> 0.212557, 16 -> 0.286745; k = pi/180 = 0.0174533; 420 k = 7.330383
    front, back = foot_slip(FRONT, HEIGHT, 1, 3), foot_slip(BACK, HEIGHT, 1, 3)
    square_front, square_back = 0.176327**2 + 0.212557**2, 0.286745**2 + 0.212557**2  # tan² R
    assert (square_front, square_back) == pytest.approx((0.076272, 0.127403), abs=1e-6)
    assert front.along == pytest.approx(7.330383 * 1.076272, abs=1e-4)  # 7.889
    assert back.along == pytest.approx(7.330383 * 1.127403, abs=1e-4)  # 8.264
    assert front.across == pytest.approx(3 * 7.330383 * math.sqrt(0.076272), abs=1e-3)  # 6.073
    assert back.across == pytest.approx(3 * 7.330383 * math.sqrt(0.127403), abs=1e-3)  # 7.849
    assert {round(front.along), round(back.along)} == {8}  # a degree at the drill is 8 mm at the floor
    assert (round(front.across), round(back.across)) == (6, 8)  # three degrees of sight line are 6 to 8


@pytest.mark.parametrize(
    ("total", "along", "across", "rise", "out", "down"),
    [
        (0, 1, 0, 0, 0, 1),
        (30, 4 / 3, math.sqrt(1 / 3), math.sqrt(1 / 3), 1 / 2, math.sqrt(3 / 4)),
        (45, 2, 1, 1, math.sqrt(1 / 2), math.sqrt(1 / 2)),
        (60, 4, math.sqrt(3), math.sqrt(3), math.sqrt(3 / 4), 1 / 2),
    ],
)
@pytest.mark.parametrize("sight", [0, 90, 135, 180, -90])
def test_leans_that_are_known_by_heart(total, along, across, rise, out, down, sight):
    # with a height of 180/pi a degree of arc is 1
    slip = foot_slip(Lean.from_total_lean(total, sight), 180 / math.pi)
    assert (slip.along, slip.across, slip.shift, slip.rise) == pytest.approx((along, across, 1, rise), abs=1e-12)
    assert (slip.length_along, slip.length_down) == pytest.approx((out, down), abs=1e-12)


@steady
@given(totals, heights, st.floats(0.01, 100), slips, slips)
def test_steps_grow_with_height_and_slip_and_turn_round_with_its_sign(total, height, k, lean_slip, sight_slip):
    lean = Lean.from_total_lean(total, 35.0)
    one, slip = foot_slip(lean, height), foot_slip(lean, k * height, lean_slip, sight_slip, -k)
    for name, times in (("along", lean_slip), ("across", sight_slip), ("shift", lean_slip), ("rise", lean_slip)):
        assert getattr(slip, name) == pytest.approx(k * times * getattr(one, name), rel=1e-12)
    assert (slip.length_along, slip.length_down) == pytest.approx((-k * one.length_along, -k * one.length_down))
    assert one.along >= one.shift * (1 - 1e-12)  # cut to the floor it goes no less far


# The ring


@pytest.mark.parametrize("portion", [0.05, 0.5, 0.9, 0.99, 0.999999])
def test_the_ring_is_as_wide_as_a_scatter_in_two_directions_asks(portion):
    ring = foot_ring(FRONT, HEIGHT, 0.5, 1.5, portion)
    one = foot_slip(FRONT, HEIGHT, 0.5, 1.5)
    wide = math.sqrt(chi2.ppf(portion, 2))  # sum of two squares, each of a normal number
    assert (ring.along, ring.across) == pytest.approx((wide * one.along, wide * one.across), rel=1e-9)


def test_nine_out_of_ten_of_the_bored_legs_land_in_the_ring():
    for lean in (FRONT, BACK):
        legs = slipped_feet(lean, HEIGHT, 0.5, 1.5, 0.0, MANY, seed=46)
        ring = foot_ring(lean, HEIGHT, 0.5, 1.5)
        along, across = seen_along(legs.on_floor, lean)
        inside = np.count_nonzero((along / ring.along) ** 2 + (across / ring.across) ** 2 <= 1)
        assert inside == pytest.approx(0.9 * MANY, abs=4 * math.sqrt(MANY * 0.9 * 0.1))


def test_a_plumb_leg_has_a_ring_without_width():
    ring = foot_ring(Lean.from_rake_splay(0.0, 0.0), HEIGHT, 0.5, 1.5)
    assert ring.across == 0
    assert ring.along == pytest.approx(HEIGHT * math.radians(0.5) * math.sqrt(2 * math.log(10)), rel=1e-12)
    still = foot_ring(FRONT, HEIGHT, 0, 0)
    assert (still.along, still.across) == (0, 0)


# Legs bored by chance


def seen_along(feet, lean):
    """Steps of feet along the wanted sight line and across it."""
    direction = outward(lean.sight_line_deg)[:2]
    return feet @ direction, feet @ np.array([-direction[1], direction[0]])


def near_scatter(values, wanted, count):
    """Mean 0 and the wanted standard deviation, within four standard errors of each."""
    assert np.mean(values) == pytest.approx(0, abs=4 * wanted / math.sqrt(count))
    assert np.std(values) == pytest.approx(wanted, abs=4 * wanted / math.sqrt(2 * count))


def test_each_bored_leg_is_a_straight_leg_of_its_own_length_and_direction():
    legs = slipped_feet(BACK, HEIGHT, 0.5, 1.5, 0.4, MANY, seed=2)
    wanted = np.array(BACK.foot_run(HEIGHT)[:2])
    below = HEIGHT - legs.shortfalls
    at_end, at_floor = legs.feet + wanted, legs.on_floor + wanted
    np.testing.assert_allclose(at_end / below[:, np.newaxis], at_floor / HEIGHT, rtol=1e-12)  # one line from the top
    length = np.sqrt((at_end**2).sum(axis=1) + below**2)
    total = np.degrees(np.arctan2(np.hypot(*at_floor.T), HEIGHT))
    sight = np.degrees(np.arctan2(at_floor[:, 1], at_floor[:, 0]))
    names = (BACK.axis_length(HEIGHT), BACK.total_lean_deg, BACK.sight_line_deg)
    for found, middle, scatter in zip((length, total, sight), names, (0.4, 0.5, 1.5), strict=True):
        near_scatter(found - middle, scatter, MANY)
        assert kstest((found - middle) / scatter, "norm").pvalue > 1e-4
    assert abs(np.corrcoef([length, total, sight]) - np.eye(3)).max() < 4 / math.sqrt(MANY)


@pytest.mark.parametrize("lean", [FRONT, BACK, Lean.from_total_lean(35.0, -150.0)], ids=["front", "back", "inward"])
def test_bored_legs_scatter_as_the_formulas_say(lean):
    # a tenth of a degree and less, so that what the sums leave out stays far below the bounds of chance
    legs = slipped_feet(lean, HEIGHT, 0.1, 0.1, 0.0, MANY, seed=7)
    one = foot_slip(lean, HEIGHT, 0.1, 0.1)
    along, across = seen_along(legs.on_floor, lean)
    out, round_plumb = seen_along(legs.feet, lean)
    for values, wanted in ((along, one.along), (across, one.across), (out, one.shift), (round_plumb, one.across)):
        near_scatter(values, wanted, MANY)
    near_scatter(legs.shortfalls, one.rise, MANY)


@pytest.mark.parametrize(("total_slip", "length_slip"), [(0.5, 0.0), (0.0, 0.5), (0.1, 0.3)])
def test_heights_scatter_by_angle_and_length_together(total_slip, length_slip):
    legs = slipped_feet(FRONT, HEIGHT, total_slip, 2.0, length_slip, MANY, seed=11)
    wanted = rise_scatter(FRONT, HEIGHT, total_slip, length_slip)
    assert np.std(legs.shortfalls) == pytest.approx(wanted, abs=4 * wanted / math.sqrt(2 * MANY))


def test_without_slips_every_foot_stands_where_it_was_wanted():
    legs = slipped_feet(FRONT, HEIGHT, 0.0, 0.0, 0.0, 5, seed=0)
    for off in (legs.on_floor, legs.feet, legs.shortfalls):
        np.testing.assert_allclose(off, 0, atol=1e-12)


def test_a_plumb_leg_slips_along_one_line_and_hardly_rises():
    legs = slipped_feet(Lean.from_rake_splay(0.0, 0.0), HEIGHT, 0.5, 0.0, 0.0, 10_000, seed=3)
    np.testing.assert_allclose(legs.on_floor[:, 1], 0, atol=1e-12)
    near_scatter(legs.on_floor[:, 0], HEIGHT * math.radians(0.5), 10_000)
    assert legs.shortfalls.min() >= 0  # a leg that swings out of plumb only gets shorter


def test_legs_of_a_piece_share_the_drill_table_or_do_not():
    stool = Lean.from_rake_splay(np.array([10.0, 10.0, 16.0, 16.0]), 12.0)
    own, shared = (slipped_feet(stool, HEIGHT, 0.5, 1.5, 0.0, 1000, seed=5, shared=share) for share in (False, True))
    assert own.feet.shape == shared.feet.shape == (1000, 4, 2)
    assert own.shortfalls.shape == (1000, 4)
    np.testing.assert_allclose(shared.feet[:, 0], shared.feet[:, 1], atol=1e-12)  # like legs go alike
    np.testing.assert_allclose(shared.on_floor[:, 2], shared.on_floor[:, 3], atol=1e-12)
    assert abs(np.corrcoef(own.shortfalls.T) - np.eye(4)).max() < 4 / math.sqrt(1000)
    assert np.corrcoef(shared.shortfalls.T).min() > 0.999
    long = slipped_feet(stool, HEIGHT, 0.0, 0.0, 1.0, 1000, seed=5, shared=True)
    assert abs(np.corrcoef(long.shortfalls.T) - np.eye(4)).max() < 4 / math.sqrt(1000)  # lengths slip singly


def test_the_same_seed_gives_the_same_feet_and_another_one_others():
    first, again, other = (slipped_feet(FRONT, HEIGHT, 0.5, 1.5, 0.2, 10, seed) for seed in (1, 1, 2))
    assert np.array_equal(first.feet, again.feet)
    assert np.array_equal(first.shortfalls, again.shortfalls)
    assert not np.any(first.feet == other.feet)
    heights = slipped_feet(FRONT, np.array([400.0, 420.0, 440.0]), 0.5, 1.5, 0.2, np.int64(10), seed=1)
    assert heights.on_floor.shape == (10, 3, 2)


# Numbers, arrays and what is refused


def test_a_number_gives_a_number_and_an_array_an_array():
    for result in (foot_slip(FRONT, Fraction(420), 1, Fraction(1, 2), 1), foot_ring(FRONT, 420, 1, 2)):
        assert {type(value) for value in vars(result).values()} == {float}
    assert type(rise_scatter(FRONT, 420, 1, 0)) is float
    leans = Lean.from_total_lean(np.array([[0.0], [20.0]]), 35.0)
    swept = foot_slip(leans, np.array([400.0, 420.0, 440.0]), 0.5)
    assert swept.along.shape == swept.rise.shape == swept.across.shape == (2, 3)
    assert foot_ring(leans, 420.0, np.array([0.5, 1.0, 2.0]), 1.0).along.shape == (2, 3)
    single = foot_slip(Lean.from_total_lean(20.0, 35.0), 440.0, 0.5)
    assert (swept.along[1, 2], swept.rise[1, 2]) == pytest.approx((single.along, single.rise), rel=1e-14)


NAN = math.nan


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: foot_slip(FRONT, 0.0), "height of the leg is 0.0; it must be more than 0"),
        (lambda: foot_slip(FRONT, NAN), "height of the leg is nan"),
        (lambda: foot_slip(FRONT, 420.0, 11.0), "slip of the total lean is 11.0; it must lie from -10 to 10"),
        (lambda: foot_slip(FRONT, 420.0, 1.0, NAN), "slip of the sight line is nan"),
        (lambda: foot_slip(FRONT, 420.0, length_slip=NAN), "slip of the length is nan"),
        (lambda: foot_ring(FRONT, 420.0, -0.5, 1.0), "slip of the total lean is -0.5; it must lie from 0 to 10"),
        (lambda: foot_ring(FRONT, 420.0, 0.5, NAN), "slip of the sight line is nan"),
        (lambda: foot_ring(FRONT, 420.0, 0.5, 1.0, 1.0), "portion of the feet is 1.0; it must lie between 0 and 1"),
        (lambda: foot_ring(FRONT, 420.0, 0.5, 1.0, 90), "give 0.9 for nine out of ten"),
        (lambda: rise_scatter(FRONT, -1.0, 0.5, 0.1), "height of the leg is -1.0"),
        (lambda: rise_scatter(FRONT, 420.0, 0.5, 43.0), "slip of the length is 43.0; it must lie from 0 to 42"),
        (lambda: slipped_feet(FRONT, 420.0, 0.5, 1.0, -0.1, 10, 1), "slip of the length is -0.1"),
        (lambda: slipped_feet(FRONT, 420.0, 0.5, 1.0, 0.1, 0, 1), "count is 0; it must be a whole number from 1"),
        (lambda: slipped_feet(FRONT, 420.0, 0.5, 1.0, 0.1, 10**7 + 1, 1), "from 1 to 10000000"),
        (lambda: slipped_feet(FRONT, np.full(4, 420.0), 0.5, 1.0, 0.1, 10**7, 1), "from 1 to 2500000"),
        (lambda: slipped_feet(FRONT, 420.0, 0.5, 1.0, 0.1, 10.5, 1), r"count is 10\.5"),
        (lambda: slipped_feet(FRONT, 420.0, 0.5, 1.0, 0.1, 10, -1), "seed is -1; it must be a whole number from 0"),
        (lambda: slipped_feet(FRONT, 420.0, 0.5, 1.0, 0.1, 10, None), "seed is None"),
        (lambda: slipped_feet(Lean.from_total_lean(80, 0), 420.0, 5, 1, 0.1, 1000, 1), "it must stay below 90: lean"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(call, said):
    with pytest.raises(DesignError, match=said):
        call()


# Proved in symbols

DERIVATION = derive.derive_setting_error()
CLAIMS = {claim.key: claim for claim in DERIVATION.claims}


@pytest.mark.parametrize("key", CLAIMS)
def test_running_less_derived_is_nothing_at_all(key):
    assert CLAIMS[key].difference == sympy.Integer(0)


def test_what_runs_in_symbols_is_what_runs_on_numbers():
    """With their signs, at two hundred points."""
    total, height, arc, long = sympy.symbols("R h q e", positive=True)
    formulas = {key: [sympy.lambdify((total, height, arc, long), e, "math") for e in (claim.running, claim.derived)]
                for key, claim in CLAIMS.items()}  # fmt: skip
    chance = np.random.default_rng(20_260)
    for lean, h, slip, e in chance.uniform((0, 1, -0.1, -50), (80, 2000, 0.1, 50), (200, 4)).tolist():
        tangent, slip_deg = tand(lean), math.degrees(slip)
        out, down = slip_of_length(tangent, e)
        plain = {
            "setting_error.along": slip_along(h, tangent, slip_deg),
            "setting_error.across": slip_of_run(h, tangent, slip_deg),
            "setting_error.shift": slip_of_height(h, slip_deg),
            "setting_error.rise": slip_of_run(h, tangent, slip_deg),
            "setting_error.length_along": out,
            "setting_error.length_down": down,
        }
        assert set(plain) == set(formulas)
        for key, value in plain.items():
            for formula in formulas[key]:
                assert formula(lean, h, slip, e) == pytest.approx(value, rel=1e-10, abs=1e-12), key


@pytest.mark.parametrize(
    ("name", "wrong", "keys"),
    [
        ("slip_along", lambda h, t, q: h * q * sympy.pi / 180 / (1 + t * t), ["along"]),
        ("slip_of_run", lambda h, t, q: h * q * sympy.pi / 180 * t / sympy.sqrt(1 + t * t), ["across", "rise"]),
        ("slip_of_height", lambda h, q: h * q, ["shift"]),
        ("slip_of_length", lambda t, e: (e * t, e), ["length_along", "length_down"]),
    ],
)
def test_a_wrong_formula_is_not_proved(monkeypatch, name, wrong, keys):
    monkeypatch.setattr(derive, name, wrong)
    again = derive.derive_setting_error()
    assert [claim.key for claim in again.claims if claim.difference != 0] == [f"setting_error.{key}" for key in keys]


def test_the_maker_reads_degrees():
    shown = DERIVATION._repr_markdown_()
    assert "pi" not in shown
    assert shown.count("the difference simplifies to $0$") == len(CLAIMS)
