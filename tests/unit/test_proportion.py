"""Ratios and simple fractions near a rectangle, against every fraction of small numbers."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from chance import by_chance
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.trade.case.proportion import case_ratio, gnomon, leg_share, named_ratios, nearest_ratios, reciprocal
from furnlib.trade.case.ratios import SYSTEMS, ratios, surd

sizes = st.fractions(min_value=Fraction(1, 9), max_value=3000, max_denominator=64)
GOLDEN = Fraction((1 + 5**0.5) / 2)


def best_by_trying(short_over_long, largest):
    """Every fraction above 0, smallest larger number first, that comes nearer than all before it."""
    found = []
    for long in range(1, largest + 1):
        for short in range(1, long + 1):
            off = abs(Fraction(short, long) - short_over_long)
            if not found or off < found[-1][0]:
                found.append((off, short, long))
    # a fraction replaced by a nearer one of the same denominator never was the best
    kept = [row for row, after in zip(found, [*found[1:], None], strict=True) if not after or after[2] != row[2]]
    return [(short, long) for _, short, long in kept]


@by_chance(sizes, sizes, st.integers(1, 30), many=150)
def test_nearest_ratios_are_the_best_of_all_small_fractions(length, across, largest):
    found = nearest_ratios(length, across, largest)
    tried = best_by_trying(min(length, across) / max(length, across), largest)
    assert [tuple(sorted((near.numerator, near.denominator))) for near in found] == tried
    for near in found:
        assert (near.numerator > near.denominator) <= (length > across)
        exact = Fraction(near.numerator, near.denominator) / (length / across) - 1
        assert near.off == pytest.approx(float(exact), abs=1e-15)


@by_chance(sizes, sizes, st.integers(1, 5000), many=150)
def test_the_last_is_what_python_finds(length, across, largest):
    true = min(length, across) / max(length, across)
    expected = true.limit_denominator(largest)
    last = nearest_ratios(length, across, largest)[-1]
    found = Fraction(*sorted((last.numerator, last.denominator)))
    # Python allows 0, which is no ratio, and takes the one from below where two are equally near
    assert abs(found - true) == abs(expected - true) or expected == 0


@by_chance(sizes, sizes, st.integers(1, 60), st.integers(1, 99), many=150)
def test_exchange_and_scale(length, across, largest, times):
    pairs = [(near.numerator, near.denominator) for near in nearest_ratios(length, across, largest)]
    turned = [(near.denominator, near.numerator) for near in nearest_ratios(across, length, largest)]
    scaled = nearest_ratios(length * times, across * times, largest)
    assert pairs == turned == [(near.numerator, near.denominator) for near in scaled]


def continued(value, terms):
    """Quotients of a continued fraction, and the convergents by the usual recurrence."""
    pairs, (p, q), (p0, q0) = [], (1, 0), (0, 1)
    for _ in range(terms):
        whole = value.numerator // value.denominator
        p, p0 = whole * p + p0, p
        q, q0 = whole * q + q0, q
        pairs.append((p, q))
        if value == whole:
            break
        value = 1 / (value - whole)
    return pairs


@by_chance(st.fractions(min_value=1, max_value=40, max_denominator=900), many=150)
def test_every_convergent_is_among_them(true):
    found = [(near.numerator, near.denominator) for near in nearest_ratios(true, 1, 40_000)]
    assert set(continued(true, 20)) <= set(found) | {(int(true), 1)}
    assert found[-1] == true.as_integer_ratio()
    assert found[-1] == continued(true, 99)[-1]


def test_floats_are_taken_exactly():
    assert [near.off for near in nearest_ratios(1300.0, 520.0)][-1] == 0.0
    assert [(near.numerator, near.denominator) for near in nearest_ratios(0.75, 0.5)][-1] == (3, 2)


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        ((0, 5), "The length is 0"),
        ((5, -1), "The size across is -1"),
        ((float("nan"), 5), "ordinary number"),
        ((5, 4, 0), "The largest number of a ratio is 0"),
        ((5, 4, 2.5), "whole, from 1 to 1000000"),
    ],
)
def test_nearest_ratios_refuse(sizes, words):
    with pytest.raises(DesignError, match=words):
        nearest_ratios(*sizes)


@by_chance(sizes, sizes, st.fractions(min_value=Fraction(1, 1000), max_value=Fraction(1, 4)), many=150)
def test_named_ratios_are_all_that_are_near(length, across, within):
    true = max(length, across) / min(length, across)
    found = named_ratios(length, across, float(within))
    offs = [abs(off) for _, off in found]
    assert offs == sorted(offs)
    assert found == named_ratios(across, length, float(within))
    near = {(r.system, r.name) for r in ratios() if abs(r.value / float(true) - 1) <= float(within) + 1e-9}
    surely = {(r.system, r.name) for r in ratios() if abs(r.value / float(true) - 1) <= float(within) - 1e-9}
    assert surely <= {(r.system, r.name) for r, _ in found} <= near
    for ratio, off in found:
        assert off == pytest.approx(ratio.value / float(true) - 1, abs=1e-9)


def test_named_ratios_refuse():
    with pytest.raises(DesignError, match="The difference is 0"):
        named_ratios(3, 2, 0)


def test_the_table_is_sound():
    table = ratios()
    assert {ratio.system for ratio in table} == set(SYSTEMS)
    assert len({(ratio.system, ratio.name) for ratio in table}) == len(table)
    for ratio in table:
        assert ratio.value >= 1
        assert ratio.geometry
        assert ratio.source
        assert float(ratio.fraction) == pytest.approx(ratio.value, rel=3e-12)
        assert ratio.exact is None or ratio.exact == ratio.fraction
    for ratio in ratios("whole numbers"):
        short, long = map(int, ratio.name.split(":"))
        assert ratio.exact == Fraction(long, short)
    assert all(ratio.value**2 == pytest.approx(int(ratio.name[5:])) for ratio in ratios("root rectangles"))
    assert ratios(*SYSTEMS) == table


def test_an_ear_for_no_ratio():
    told = " ".join(f"{ratio.name} {ratio.geometry}" for ratio in ratios()).casefold()
    assert not {"right", "correct", "perfect", "divine", "ideal", "beautiful"} & set(told.split())


def test_an_unknown_system_is_offered_the_nearest():
    with pytest.raises(DesignError, match="did you mean 'golden section'"):
        ratios("golden sektion")


@by_chance(st.floats(1, 50), st.floats(0.1, 50), st.floats(0, 1), many=150)
def test_closed_formulas(ratio, width, share):
    assert reciprocal(reciprocal(ratio)) == pytest.approx(ratio)
    assert gnomon(ratio) + reciprocal(ratio) == pytest.approx(ratio)
    height = ratio * width
    assert case_ratio(height, width, share * height) == pytest.approx(ratio * (1 - share), abs=1e-12)
    assert leg_share(share * height, height) == pytest.approx(share, abs=1e-12)
    assert case_ratio(height, width, 0) == pytest.approx(ratio)


def test_numbers_fractions_and_arrays():
    assert case_ratio(Fraction(1300), Fraction(520), Fraction(130)) == Fraction(9, 4)
    assert reciprocal(Fraction(5, 2)) == Fraction(2, 5)
    assert gnomon(np.array([1.0, 2.0])).tolist() == [0.0, 1.5]
    assert surd(np.array([1, 0]), 4, 1).tolist() == [3.0, 2.0]
    assert isinstance(surd(1, 5, 2), float)


def test_a_golden_rectangle_is_a_square_and_a_golden_rectangle():
    assert float(gnomon(GOLDEN)) == pytest.approx(1.0)  # its reciprocal leaves a square
