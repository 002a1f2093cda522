"""Four feet on a floor: what hangs, how it rocks, how likely, and how the feet are levelled.

The witness is a rigid body: four ends in space, set down on three of them by scipy's rotations and
rocked over onto the fourth. Chances are counted on pieces drawn at random.
"""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation
from scipy.stats import norm

from furnlib.base.guards import DesignError
from furnlib.teach.derive import rocking as derive
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.rocking import (
    daylight,
    foot_levers,
    gaps_under,
    level_feet,
    opposite_gap,
    rocked_gap,
    rocking_odds,
    rocking_scatter,
    scatters_under,
)
from furnlib.trade.leg.setting_error import rise_scatter, slipped_feet

steady = settings(deadline=None, derandomize=True)
RECTANGLE = np.array([[0.0, 0.0], [300.0, 0.0], [300.0, 400.0], [0.0, 400.0]])
TRAPEZOID = np.array([[160.0, -100.0], [160.0, 100.0], [-160.0, 200.0], [-160.0, -200.0]])
# the stool: front left, front right, rear right, rear left; fore-and-aft and to the right
STOOL = np.array([[159.0, -204.0], [159.0, 204.0], [-205.0, 204.0], [-205.0, -204.0]])
ODD = np.array([[0.0, 0.0], [90.0, 10.0], [70.0, 160.0], [-40.0, 120.0]])
STOOL_LEGS = Lean.from_rake_splay(np.array([10.0, 10.0, 16.0, 16.0]), 12.0)
MANY = 100_000


def plan(ahead, right, behind, left, opened, turned, moved):
    """Feet at the ends of two diagonals that cross within, so that they go round the piece whatever is drawn."""
    second = np.array([math.cos(opened), math.sin(opened)])
    feet = np.array([[ahead, 0], right * second, [-behind, 0], -left * second])
    c, s = math.cos(turned), math.sin(turned)
    return feet @ np.array([[c, s], [-s, c]]) + moved


parts = st.floats(50, 400)
plans = st.builds(plan, parts, parts, parts, parts, st.floats(0.4, 2.7), st.floats(-3, 3), st.floats(-500, 500))
short = st.lists(st.floats(-5, 5), min_size=4, max_size=4).map(np.array)


class Body:
    """Four ends in space that keep their distances."""

    def __init__(self, feet, shortfalls):
        self.ends = np.column_stack([feet, shortfalls])

    def set_down(self, down):
        """Turn the body until three ends stand on the floor; what is up stays up."""
        first, second, third = self.ends[down]
        normal = np.cross(second - first, third - first)
        normal *= math.copysign(1, normal[2]) / np.linalg.norm(normal)
        hinge = np.cross(normal, [0, 0, 1])
        turn = Rotation.from_rotvec(hinge * (math.asin(min(np.linalg.norm(hinge), 1)) / (np.linalg.norm(hinge) or 1)))
        self.ends = turn.apply(self.ends - first)
        return self

    def rock_onto(self, foot):
        """Turn the body about the two feet beside one until that one is down too."""
        hinge_at, other = self.ends[(foot - 1) % 4], self.ends[(foot + 1) % 4]
        along = (other - hinge_at) / np.linalg.norm(other - hinge_at)
        out = self.ends[foot] - hinge_at
        away = out - along * (out @ along)
        angle = math.atan2(away[2], math.hypot(away[0], away[1]))
        sense = 1 if np.cross(along, away)[2] < 0 else -1
        self.ends = Rotation.from_rotvec(along * sense * angle).apply(self.ends - hinge_at)
        return self


def plane_below(feet, shortfalls, foot):
    """Height, below one foot, of the plane through the ends of the others."""
    others = [i for i in range(4) if i != foot]
    level = np.linalg.solve(np.column_stack([np.ones(3), feet[others]]), shortfalls[others])
    return level @ [1, *feet[foot]]


# The gap under each foot


@steady
@given(plans, short)
def test_a_gap_is_what_the_plane_of_the_other_three_leaves(feet, shortfalls):
    gaps = daylight(feet, shortfalls)
    for foot in range(4):
        assert gaps[foot] == pytest.approx(shortfalls[foot] - plane_below(feet, shortfalls, foot), abs=1e-8)


@steady
@given(plans, short)
def test_a_body_set_down_on_three_feet_shows_the_gap_under_the_fourth(feet, shortfalls):
    gaps = daylight(feet, shortfalls)
    for foot in range(4):
        others = [i for i in range(4) if i != foot]
        first, second, third = np.column_stack([feet, shortfalls])[others]
        normal = np.cross(second - first, third - first)
        leaning = abs(normal[2]) / np.linalg.norm(normal)  # cosine of what the piece leans, set down
        body = Body(feet, shortfalls).set_down(others)
        assert body.ends[others, 2] == pytest.approx([0, 0, 0], abs=1e-9)
        assert body.ends[foot, 2] == pytest.approx(gaps[foot] * leaning, abs=1e-8)


@steady
@given(plans, short)
def test_opposite_feet_hang_and_their_neighbours_cannot(feet, shortfalls):
    first, second, third, fourth = np.sign(daylight(feet, shortfalls))
    assert first == third == -second == -fourth


@steady
@given(plans, short, st.floats(-0.05, 0.05), st.floats(-0.05, 0.05), st.floats(-9, 9), st.floats(0.1, 50))
def test_a_tilted_top_changes_no_gap_and_a_larger_piece_has_larger_ones(feet, shortfalls, p, q, lift, k):
    gaps = daylight(feet, shortfalls)
    np.testing.assert_allclose(daylight(feet, shortfalls + lift + feet @ [p, q]), gaps, atol=1e-7)
    np.testing.assert_allclose(daylight(k * feet, k * shortfalls), k * gaps, rtol=1e-9, atol=1e-9)
    np.testing.assert_allclose(daylight(np.roll(feet, 1, axis=0), np.roll(shortfalls, 1)), np.roll(gaps, 1), atol=1e-8)
    np.testing.assert_allclose(daylight(feet[::-1], shortfalls[::-1]), gaps[::-1], atol=1e-8)


def test_gaps_by_hand():
    np.testing.assert_allclose(daylight(RECTANGLE, [2, 0, 0, 0]), [2, -2, 2, -2])
    np.testing.assert_allclose(daylight(RECTANGLE, [1, 2, 4, 1]), [2, -2, 2, -2])  # 1 - 2 + 4 - 1
    # front feet 200 apart, rear 400: the plane through both rear feet and front right falls 2 from there to the rear
    # line; along the front line it stays level, so front left hangs by its own 2 and rear left by twice as much
    np.testing.assert_allclose(daylight(TRAPEZOID, [2, 0, 0, 0]), [2, -2, 4, -4])


def test_many_pieces_are_looked_at_in_one_call():
    shortfalls = np.random.default_rng(1).normal(size=(6, 4))
    moved = STOOL + np.random.default_rng(2).normal(size=(6, 4, 2))
    gaps = daylight(moved, shortfalls)
    assert gaps.shape == daylight(STOOL, shortfalls).shape == (6, 4)
    for row in range(6):
        np.testing.assert_allclose(gaps[row], daylight(moved[row], shortfalls[row]), rtol=1e-12)


# Rocked over


@steady
@given(plans, short)
def test_a_body_rocked_onto_its_short_foot_lifts_the_opposite_one(feet, shortfalls):
    foot = int(np.argmax(daylight(feet, shortfalls)))
    body = Body(feet, shortfalls).set_down([i for i in range(4) if i != foot])
    standing, gap = body.ends[:, :2].copy(), max(body.ends[foot, 2], 0.0)
    body.rock_onto(foot)
    assert np.delete(body.ends[:, 2], (foot + 2) % 4) == pytest.approx([0, 0, 0], abs=1e-8)
    assert opposite_gap(standing, foot + 1, gap) == pytest.approx(body.ends[(foot + 2) % 4, 2], abs=1e-8)


@pytest.mark.parametrize(("number", "ratio"), [(1, 2), (2, 2), (3, 1 / 2), (4, 1 / 2)])
def test_both_gaps_are_alike_only_where_the_diagonals_halve_each_other(number, ratio):
    # from the diagonals of the trapezoid its narrow end stands half as far away as its wide end
    assert opposite_gap(TRAPEZOID, number, 1e-6) == pytest.approx(ratio * 1e-6, rel=1e-9)
    slanted = RECTANGLE @ np.array([[1, 0], [0.4, 1]])
    for feet in (RECTANGLE, slanted):
        assert opposite_gap(feet, number, 1e-6) == pytest.approx(1e-6, rel=1e-9)
    # 120 000 mm² over a diagonal of 500 leave 240: a rock of 180 turns 3, 4, 5 over
    assert opposite_gap(RECTANGLE, number, 180.0) == pytest.approx(240 * 3 / 5, rel=1e-12)
    assert opposite_gap(RECTANGLE, number, 0.0) == 0


# Scatter and odds


@pytest.mark.parametrize("feet", [RECTANGLE, TRAPEZOID, STOOL, ODD], ids=["rectangle", "trapezoid", "stool", "odd"])
@pytest.mark.parametrize("rises", [1.0, (0.3, 1.2, 0.8, 2.0)])
def test_gaps_of_pieces_drawn_at_random_scatter_as_they_should(feet, rises):
    shortfalls = np.random.default_rng(46).normal(size=(MANY, 4)) * rises
    wanted = rocking_scatter(feet, rises)
    for found, scatter in zip(daylight(feet, shortfalls).std(axis=0), wanted, strict=True):
        assert found == pytest.approx(scatter, abs=4 * scatter / math.sqrt(2 * MANY))


def test_the_stool_rocks_by_hand():
    # 420 times tan R, times half a degree of arc 0.00872665; tan² R = 0.076272 in front, 0.127403 behind
    front, back = (420 * math.sqrt(square) * 0.00872665 for square in (0.076272, 0.127403))
    assert (front, back) == pytest.approx((1.0122, 1.3082), abs=1e-4)
    by_hand = math.sqrt(2 * front**2 + 2 * back**2)  # the feet stand on a rectangle, near enough
    assert by_hand == pytest.approx(2.34, abs=0.01)
    rises = rise_scatter(STOOL_LEGS, 420.0, 0.5, 0.0)
    np.testing.assert_allclose(rocking_scatter(STOOL, rises), by_hand, rtol=1e-4)
    assert round(by_hand, 1) == 2.3


def test_the_stool_bored_by_chance_rocks_so_and_with_one_setting_for_all_not_at_all():
    own, shared = (slipped_feet(STOOL_LEGS, 420.0, 0.5, 1.5, 0.0, MANY, seed=21, shared=way) for way in (False, True))
    scatter = float(rocking_scatter(STOOL, rise_scatter(STOOL_LEGS, 420.0, 0.5, 0.0))[0])
    gap = daylight(STOOL, own.shortfalls)[:, 0]
    # what the small-slip sums leave out: a rise of h q²/2 for each leg, 0.016 mm, beside 2.3
    assert gap.std() == pytest.approx(scatter, abs=4 * scatter / math.sqrt(2 * MANY) + 4 * 0.016)
    assert np.abs(daylight(STOOL, shared.shortfalls)).max() < 1e-9
    assert np.ptp(shared.shortfalls, axis=1).max() > 1  # askew, all the same
    assert np.all(rocking_scatter(STOOL, rise_scatter(STOOL_LEGS, 420.0, 0.5, 0.0), shared=True) < 1e-12)


@steady
@given(parts, parts, parts, st.floats(0, 3), st.floats(0, 3))
def test_a_shared_slip_rocks_no_piece_with_mirrored_sides(front, rear, deep, rise_front, rise_rear):
    feet = [(deep, -front), (deep, front), (0, rear), (0, -rear)]
    np.testing.assert_allclose(
        rocking_scatter(feet, (rise_front, rise_front, rise_rear, rise_rear), shared=True), 0, atol=1e-12
    )
    # by hand: of 1 short in front the gap is 1 there and rear/front at the back, and the other way round
    by_hand = [math.sqrt(2 + 2 * (front / rear) ** 2)] * 2 + [math.sqrt(2 + 2 * (rear / front) ** 2)] * 2
    np.testing.assert_allclose(rocking_scatter(feet, 1.0), by_hand, rtol=1e-9)


def test_a_shared_slip_rocks_a_piece_without_mirrored_sides():
    rises = np.array([0.3, 1.2, 0.8, 2.0])
    left_open = [abs(rises[foot] - plane_below(ODD, rises, foot)) for foot in range(4)]
    assert min(left_open) > 0.1
    np.testing.assert_allclose(rocking_scatter(ODD, rises, shared=True), left_open, rtol=1e-9)
    np.testing.assert_allclose(rocking_scatter(ODD, 1.0, shared=True), 0, atol=1e-12)  # all alike: only lower


def test_odds_are_those_of_the_normal_distribution():
    scatters, allowed = np.array([[0.5], [1.0], [2.3]]), np.array([0.0, 0.3, 1.0, 8.0])
    odds = rocking_odds(scatters, allowed)
    np.testing.assert_allclose(odds, 2 * norm.sf(allowed / scatters), rtol=1e-12)
    assert type(rocking_odds(2.3, 1.0)) is float
    assert rocking_odds(0.0, 0.0) == rocking_odds(0.0, 1.0) == 0
    assert rocking_odds(2.3, 0.0) == 1


@pytest.mark.parametrize(("feet", "mirrored"), [(STOOL, True), (TRAPEZOID, True), (ODD, False)])
def test_the_greatest_scatter_gives_the_odds_of_seeing_daylight_anywhere(feet, mirrored):
    shortfalls = np.random.default_rng(5).normal(size=(MANY, 4))
    seen = np.mean(daylight(feet, shortfalls).max(axis=1) > 1.5)
    odds = rocking_odds(rocking_scatter(feet, 1.0).max(), 1.5)
    chance = 4 * math.sqrt(odds * (1 - odds) / MANY)
    assert seen == pytest.approx(odds, abs=chance) if mirrored else seen < odds - chance


# Levelling


def test_levelling_by_hand():
    level = level_feet([0.0, 2.5, 1.0, 4.0], 1.0)
    assert level.block_height == level.lower == 5.0
    np.testing.assert_array_equal(level.cut_heights, [5, 2.5, 4, 1])
    np.testing.assert_array_equal(level.cut_lengths, level.cut_heights)  # plumb legs
    leaning = level_feet([0.0, 3.0, 1.0], 0.0, Lean.from_total_lean(60.0, 10.0))
    np.testing.assert_allclose(leaning.cut_heights, [3, 0, 2])
    np.testing.assert_allclose(leaning.cut_lengths, [6, 0, 4])  # 1/cos 60 is 2


@steady
@given(st.lists(st.floats(0, 20), min_size=4, max_size=4), st.floats(0, 10), st.integers(0, 1000))
def test_a_piece_cut_as_marked_stands_on_all_its_feet(gaps, spare, seed):
    chance = np.random.default_rng(seed)
    rake, splay = chance.uniform(-30, 30, (2, 4))
    level = level_feet(gaps, spare, Lean.from_rake_splay(rake, splay))
    down = np.column_stack([np.tan(np.radians(rake)), np.tan(np.radians(splay)), -np.ones(4)])
    down /= np.linalg.norm(down, axis=1)[:, np.newaxis]
    ends = np.column_stack([STOOL, gaps])
    sawn = ends - down * level.cut_lengths[:, np.newaxis]  # back up each leg from its end
    np.testing.assert_allclose(sawn[:, 2], level.lower, atol=1e-12)
    np.testing.assert_allclose(daylight(sawn[:, :2], sawn[:, 2]), 0, atol=1e-9)
    assert level.cut_heights.min() == pytest.approx(spare, abs=1e-12)  # no foot loses more than it must


def test_feet_of_any_number_from_three_are_levelled():
    assert level_feet([0, 1, 2], 1).cut_heights.shape == (3,)
    assert level_feet([0] * 6, 2.0, Lean.from_rake_splay(np.linspace(-5, 5, 6), 8.0)).cut_lengths.shape == (6,)


# What is refused


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: daylight(RECTANGLE[:3], [0, 0, 0]), "shape .3, 2.; four feet in plan are wanted"),
        (lambda: daylight(RECTANGLE, [0, 0, 0]), "A shortfall is wanted for each of four feet"),
        (lambda: daylight(RECTANGLE, 1.0), "A shortfall is wanted for each of four feet"),
        (lambda: daylight(RECTANGLE, [0, 0, 0, math.nan]), "shortfall is .*nan"),
        (
            lambda: daylight([[0, 0], [1], [1, 1], [0, 1]], [0, 0, 0, 0]),
            "ordinary numbers are wanted, as many for each",
        ),
        (lambda: level_feet(["0", "a bit", "1"], 1.0), "gap under a foot is .*ordinary numbers are wanted"),
        (lambda: daylight(RECTANGLE + math.inf, [0, 0, 0, 0]), "place of a foot is"),
        (lambda: daylight(RECTANGLE[[0, 1, 3, 2]], [0, 0, 0, 0]), "the order jumps; list them such as front left"),
        (lambda: daylight([[0, 0], [1, 0], [2, 0], [0, 3]], [0, 0, 0, 0]), "three stand in a line"),
        (lambda: daylight([[0, 0], [9, 0], [2, 2], [0, 9]], [0, 0, 0, 0]), "one stands within the others"),
        (lambda: daylight([[1, 1]] * 4, [0, 0, 0, 0]), "do not go round a piece"),
        (lambda: opposite_gap(TRAPEZOID, 0, 1.0), "number of the short foot is 0; it must be 1, 2, 3 or 4"),
        (lambda: opposite_gap(TRAPEZOID, 1, -1.0), "gap under the short foot is -1.0; it must be 0 or more"),
        (lambda: opposite_gap(np.array([TRAPEZOID] * 3), 1, 1.0), "feet of 3 pieces are given; ask for one"),
        (lambda: rocking_scatter(STOOL, -1.0), "rise scatter is -1.0; it must be 0 or more"),
        (lambda: rocking_scatter(STOOL, [1.0, 1.0]), "A rise scatter is wanted for each of four feet"),
        (lambda: rocking_odds(math.nan, 1.0), "scatter of the gap is nan"),
        (lambda: rocking_odds(1.0, -0.5), "allowed gap is -0.5; it must be 0 or more: give the most daylight"),
        (lambda: level_feet([0.0, 1.0], 1.0), "gaps under 2 feet are given; levelling takes three or more"),
        (lambda: level_feet([0.0, 1.0, -0.5, 2.0], 1.0), "gap under a foot is .*0 or more: measure from the floor"),
        (lambda: level_feet([0.0, 1.0, math.nan, 2.0], 1.0), "gap under a foot is .*nan"),
        (lambda: level_feet([0.0, 1.0, 2.0], -1.0), "spare is -1.0; it must be 0 or more"),
        (lambda: level_feet([0.0, 1.0, 2.0], math.inf), "spare is inf"),
        (lambda: level_feet([0.0, 1.0, 2.0], 1.0, STOOL_LEGS), "4 leans are given for 3 feet; give one for all"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(call, said):
    with pytest.raises(DesignError, match=said):
        call()


# Proved in symbols

CLAIMS = {claim.key: claim for claim in derive.derive_rocking().claims}


@pytest.mark.parametrize("key", CLAIMS)
def test_running_less_derived_is_nothing_at_all(key):
    assert CLAIMS[key].difference == sympy.Integer(0)


def test_any_four_feet_in_symbols():
    """Without a word about order or diagonals: the plane through any three points, below the fourth."""
    xs, ys, ends = sympy.symbols("x_1:5"), sympy.symbols("y_1:5"), sympy.symbols("s_1:5")
    gaps = gaps_under(foot_levers(xs, ys), ends)
    for foot, others in zip(reversed(range(4)), combinations(range(4), 3), strict=True):
        level = sympy.Matrix([[1, xs[i], ys[i]] for i in others]).LUsolve(sympy.Matrix([ends[i] for i in others]))
        below = sympy.Matrix([[1, xs[foot], ys[foot]]]).dot(level)
        over, _ = sympy.fraction(sympy.together(gaps[foot] - (ends[foot] - below)))
        assert sympy.expand(over) == 0


@pytest.mark.parametrize(
    ("name", "wrong", "keys"),
    [
        ("gaps_under", lambda levers, ends: (sum(ends),) * 4, ["gap", "mirror"]),
        pytest.param(
            "foot_levers",
            lambda xs, ys: foot_levers(xs, ys)[1:] + foot_levers(xs, ys)[:1],
            ["gap", "scatter", "mirror"],
            marks=pytest.mark.slow,
        ),
        pytest.param(
            "scatters_under",
            lambda levers, rises: scatters_under(levers, rises[::-1]),
            ["scatter"],
            marks=pytest.mark.slow,
        ),
        ("rocked_gap", lambda gap, near, far: rocked_gap(gap, far, near), ["opposite"]),
    ],
)
def test_a_wrong_formula_is_not_proved(monkeypatch, name, wrong, keys):
    monkeypatch.setattr(derive, name, wrong)
    again = derive.derive_rocking()
    assert {claim.key for claim in again.claims if claim.difference != 0} >= {f"rocking.{key}" for key in keys}


def test_the_turn_of_the_proof_brings_the_short_foot_down():
    near, gap = sympy.symbols("d_1 g", positive=True)
    down = sympy.rot_axis2(-sympy.atan(gap / near))
    assert sympy.simplify((down * sympy.Matrix([near, 0, gap]))[2]) == 0
