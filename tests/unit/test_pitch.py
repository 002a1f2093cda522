"""Drawer sides of whole jig pitches: every set of whole pitches is tried, in exact fractions."""

from __future__ import annotations

import random
from fractions import Fraction as F
from itertools import combinations, pairwise, product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.drawer.closing import fit_to_pitch, never_shrinks
from furnlib.trade.drawer.graduation import constant_ratio, constant_step, equal_openings

steady = settings(deadline=None, derandomize=True)
jigs = st.sampled_from([(F(20), F(3)), (F(25, 2), F(0)), (F(7, 8), F(1, 16)), (F(3, 4), F(3, 32)), (F(26), F(5, 2))])


def parts_of(ideal, jig_pitch, clearance):
    """The ideals in pitches, rounded to 1e-9 of one as is documented."""
    return [F(round((h - clearance) / jig_pitch * 10**9), 10**9) for h in ideal]


def searched(ideal, jig_pitch, clearance):
    """The best whole pitches by trying all sets within one of the ideal, or None where every one shrinks somewhere."""
    falling = ideal[0] > ideal[-1]
    exact = parts_of(ideal[::-1] if falling else ideal, jig_pitch, clearance)
    total = (sum(ideal) - len(ideal) * clearance) // jig_pitch
    choices = [[k for k in range(1, int(u) + 3) if abs(k - u) <= 1] for u in exact]
    grown = [ks for ks in product(*choices) if sum(ks) == total and list(ks) == sorted(ks) and never_shrinks(ks)]

    def wishes(ks):
        changes = [abs(k - u) for k, u in zip(ks, exact, strict=True)]
        return max(changes), sum(change**2 for change in changes), [-k for k in reversed(ks)]

    best = min(grown, key=wishes, default=None)
    return best[::-1] if best and falling else best


def largest_remainders(ideal, jig_pitch, clearance):
    falling = ideal[0] > ideal[-1]
    exact = parts_of(ideal[::-1] if falling else ideal, jig_pitch, clearance)
    missing = int((sum(ideal) - len(ideal) * clearance) // jig_pitch) - sum(int(u) for u in exact)
    order = sorted(range(len(exact)), key=lambda i: (exact[i] % 1, i))[len(exact) - missing :]
    ks = [int(u) + (i in order) for i, u in enumerate(exact)]
    return tuple(ks[::-1] if falling else ks)


@pytest.mark.parametrize("seed", range(6))
def test_the_pitches_are_the_best_of_all_sets(seed):
    rng, wished, same = random.Random(seed), 0, 0
    for _ in range(60):
        jig_pitch, clearance = rng.choice([(F(20), F(3)), (F(7, 8), F(1, 16)), (F(25, 2), F(0))])
        rows = rng.randint(2, 6)
        clear = jig_pitch * rng.randint(3 * rows, 12 * rows) + F(rng.randint(0, 31), 32) * jig_pitch
        ideal = constant_ratio(clear, rows, F(rng.randint(80, 125), 100))
        if min(ideal) < jig_pitch + clearance:
            continue
        fit, best = fit_to_pitch(ideal, jig_pitch, clearance), searched(ideal, jig_pitch, clearance)
        canonical = largest_remainders(ideal, jig_pitch, clearance)
        assert fit.steps_never_shrink is (best is not None)
        assert fit.pitches == (best or canonical)
        grown = canonical if ideal[0] <= ideal[-1] else canonical[::-1]
        if list(grown) == sorted(grown) and never_shrinks(grown):
            assert fit.pitches == canonical  # the plain rule of thumb, where it will do
            same += 1
        wished += fit.steps_never_shrink
    assert wished > 10
    assert same > 5


@steady
@given(st.lists(st.fractions(F(1), F(400), max_denominator=16), min_size=1, max_size=12), jigs, st.booleans())
def test_sides_clearances_and_what_is_left_fill_the_height(sizes, jig, falling):
    jig_pitch, clearance = jig
    ideal = sorted(sizes, reverse=falling)
    assume(sum(ideal) >= len(ideal) * (jig_pitch + clearance))
    fit = fit_to_pitch(ideal, jig_pitch, clearance)
    assert sum(fit.openings) + fit.leftover == sum(ideal)
    assert 0 <= fit.leftover < jig_pitch
    assert fit.leftover + fit.to_next == jig_pitch
    assert min(fit.pitches) >= 1
    assert fit.sides == tuple(k * jig_pitch for k in fit.pitches)
    assert fit.openings == tuple(side + clearance for side in fit.sides)
    rising = fit.pitches[::-1] if ideal[0] > ideal[-1] else fit.pitches
    assert all(low >= high for high, low in pairwise(rising))
    assert fit == fit_to_pitch(ideal, jig_pitch, clearance)


@steady
@given(st.integers(2, 10), st.integers(30, 200), jigs, st.fractions(F(1, 9), 9, max_denominator=25))
def test_scaling_all_lengths_scales_the_answer(rows, count, jig, k):
    jig_pitch, clearance = jig
    ideal = constant_step(jig_pitch * count, rows, jig_pitch / rows)
    fit, larger = (fit_to_pitch([h * s for h in ideal], jig_pitch * s, clearance * s) for s in (F(1), k))
    assert larger.pitches == fit.pitches
    assert larger.leftover == k * fit.leftover


@steady
@given(st.integers(2, 10), st.integers(30, 200), jigs)
def test_the_mirrored_rule_gives_the_mirror(rows, count, jig):
    ideal = constant_ratio(jig[0] * count, rows, F(11, 10))
    assert fit_to_pitch(ideal[::-1], *jig).pitches == fit_to_pitch(ideal, *jig).pitches[::-1]


@steady
@given(st.integers(2, 10), st.integers(30, 200), jigs)
def test_what_the_next_pitch_needs_is_enough_and_no_less_will_do(rows, count, jig):
    ideal = list(equal_openings(jig[0] * count + jig[0] / 3, rows))
    fit = fit_to_pitch(ideal, *jig)
    for grown, more in ((fit.to_next, 1), (fit.to_next - F(1, 10**6), 0)):
        assert sum(fit_to_pitch([h + grown / rows for h in ideal], *jig).pitches) == sum(fit.pitches) + more


def every_set(total, rows):
    """All ways to share out whole pitches, one or more to each row."""
    marks = ((0, *cut, total) for cut in combinations(range(1, total), rows - 1))
    return [tuple(low - high for high, low in pairwise(at)) for at in marks]


@pytest.mark.parametrize("seed", range(6))
def test_of_all_the_sets_there_are_it_is_the_best_whatever_the_offsets(seed):
    rng, found = random.Random(seed), {True: 0, False: 0}
    for _ in range(60):
        jig_pitch, clearance = F(rng.randint(5, 25), 8), F(rng.randint(0, 5), 16)
        offsets = F(rng.randint(1, 24), 16), F(rng.randint(1, 24), 16)
        beside = sum(offsets) - jig_pitch + clearance  # what an opening has beside its pitches
        rows = rng.randint(1, 4)
        shares = sorted(F(rng.randint(4, 20), 4) for _ in range(rows))
        ideal = [share * jig_pitch + beside for share in shares]
        fit = fit_to_pitch(ideal, jig_pitch, clearance, *offsets)
        valid = [
            ks
            for ks in every_set(int(sum(shares)), rows)
            if list(ks) == sorted(ks) and all(abs(k - u) <= 1 for k, u in zip(ks, shares, strict=True))
        ]

        def wishes(ks, shares=shares):
            changes = [abs(k - u) for k, u in zip(ks, shares, strict=True)]
            return not never_shrinks(ks), max(changes), sum(change**2 for change in changes), [-k for k in ks[::-1]]

        best = min(valid, key=wishes)
        assert fit.pitches in valid
        assert fit.steps_never_shrink is never_shrinks(best)
        assert fit.pitches == best or not never_shrinks(best)
        found[fit.steps_never_shrink] += 1
        assert fit.sides == tuple(offsets[0] + (k - 1) * jig_pitch + offsets[1] for k in fit.pitches)
        assert sum(fit.openings) + fit.leftover == sum(ideal)
        assert 0 <= fit.leftover < jig_pitch
    assert found[True] > 20
    assert found[False] > 0


def test_the_tall_chest_on_a_jig():
    # 20 (4 + 5 + … + 10) + 7 * 3 = 1001: each opening one pitch more than the one above
    fit = fit_to_pitch(constant_step(F(1001), 7, F(20)), F(20), F(3))
    assert fit.pitches == (4, 5, 6, 7, 8, 9, 10)
    assert fit.openings == (83, 103, 123, 143, 163, 183, 203)
    assert (fit.leftover, fit.to_next) == (0, 20)


def test_the_tall_chest_on_a_jig_in_inches():
    # 3/4 (4 + 5 + … + 10) + 7/8 = 37 5/8
    fit = fit_to_pitch(constant_step(F(301, 8), 7, F(3, 4)), F(3, 4), F(1, 8), unit="in")
    assert fit.pitches == (4, 5, 6, 7, 8, 9, 10)
    assert (fit.openings[0], fit.openings[-1], fit.leftover) == (F(25, 8), F(61, 8), 0)
    # half an inch more is no pitch more: it is left over, and a quarter brings the next
    fit = fit_to_pitch(constant_step(F(305, 8), 7, F(3, 4)), F(3, 4), F(1, 8), unit="in")
    assert (sum(fit.pitches), fit.leftover, fit.to_next) == (49, F(1, 2), F(1, 4))


def test_offsets_by_hand():
    # 10 above the first tail, 12 below the last: a side of 4 tails is 10 + 3 * 20 + 12 = 82, its opening 85
    fit = fit_to_pitch([F(85), F(105), F(126)], F(20), F(3), F(10), F(12))
    assert fit.pitches == (4, 5, 6)
    assert fit.sides == (82, 102, 122)
    assert fit.openings == (85, 105, 125)
    assert (fit.leftover, fit.to_next) == (1, 19)


def test_a_small_top_opening_takes_a_whole_pitch_and_the_others_give_it_back():
    # 0.5, 2.25, 2.25 pitches: five in all; 1 1 3 would take more than one from the middle
    fit = fit_to_pitch([F(5), F(45, 2), F(45, 2)], F(10), F(0))
    assert fit.pitches == (1, 2, 2)
    assert not fit.steps_never_shrink
    # 0.2 four times and 4.2: five pitches in five rows leave one each
    assert fit_to_pitch([F(2)] * 4 + [F(42)], F(10), F(0)).pitches == (1, 1, 1, 1, 1)


def test_whole_numbers_stay_exact():
    fit = fit_to_pitch([83, 103, 124], 25, 3)
    assert all(isinstance(size, F) for size in (*fit.sides, *fit.openings, fit.leftover, fit.to_next))
    assert sum(fit.openings) + fit.leftover == 310


def test_too_few_pitches_say_the_least_height_that_does():
    with pytest.raises(DesignError, match="68 holds no 3 sides of one pitch each; 69 is the least that does"):
        fit_to_pitch(equal_openings(F(68), 3), F(20), F(3))
    assert fit_to_pitch(equal_openings(F(69), 3), F(20), F(3)).pitches == (1, 1, 1)
    with pytest.raises(DesignError, match="2 holds no 3 sides of one pitch each; 2 13/16 is the least"):
        fit_to_pitch(equal_openings(F(2), 3), F(7, 8), F(1, 16), unit="in")


@pytest.mark.parametrize("bad", [F(0), F(-1), float("nan"), float("inf")])
def test_pitch_and_offsets_are_above_0(bad):
    with pytest.raises(DesignError, match="pitch is"):
        fit_to_pitch([F(83)], bad, F(3))
    for name, offsets in (("first", (bad, None)), ("last", (None, bad))):
        with pytest.raises(DesignError, match=f"The {name} offset is"):
            fit_to_pitch([F(83)], F(20), F(3), *offsets)


@pytest.mark.parametrize("bad", [F(-1), float("nan"), float("inf")])
def test_a_clearance_is_0_or_more(bad):
    with pytest.raises(DesignError, match="The clearance is"):
        fit_to_pitch([F(83)], F(20), bad)
    assert fit_to_pitch([F(80)], F(20), F(0)).pitches == (4,)
    with pytest.raises(DesignError, match="no openings"):
        fit_to_pitch([], F(20), F(3))
