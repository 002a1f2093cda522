"""A constant ratio, closed on a grid, against Hambidge's whole-number series.

Source: J. Hambidge, The Elements of Dynamic Symmetry (1926), the substitute series 118, 191, 309 and
so on, in which each term is the sum of the two before; it stands in for the ratio 1.618. Given only
the sum of the series, the number of terms and that ratio, our rule must find every printed term
again: within half a unit as an ideal, and exactly once closed on whole units. As weights that begin
with its first two terms it must come out exactly.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from furnlib.trade.drawer.closing import close_on_grid
from furnlib.trade.drawer.graduation import constant_ratio, summation_weights, weighted

ROWS = csv.DictReader((Path(__file__).parent / "data" / "hambidge_series.csv").open(encoding="utf-8"))
TERMS = [int(row["term"]) for row in ROWS]
GOLDEN = Fraction((1 + 5**0.5) / 2)


def test_the_series_was_copied_rightly():
    assert all(a + b == c for a, b, c in zip(TERMS, TERMS[1:], TERMS[2:], strict=False))
    assert [low / high for high, low in pairwise(TERMS)][-1] == pytest.approx(1.6180, abs=0.00005)


def test_the_golden_ratio_fills_the_sum_with_the_printed_terms():
    ideal = constant_ratio(Fraction(sum(TERMS)), len(TERMS), GOLDEN)
    assert [float(h) for h in ideal] == pytest.approx(TERMS, abs=0.5)
    assert list(close_on_grid(ideal, Fraction(1)).openings) == TERMS


def test_the_first_two_terms_give_every_printed_term():
    weights = summation_weights(len(TERMS), Fraction(TERMS[0]), Fraction(TERMS[1]))
    assert list(weights) == TERMS
    assert list(weighted(Fraction(sum(TERMS)), weights)) == TERMS
