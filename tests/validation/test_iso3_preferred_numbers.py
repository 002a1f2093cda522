"""A constant ratio against the preferred numbers of ISO 3.

Source: ISO 3:1973, Preferred numbers, series R5: ratio the fifth root of 10. Its theoretical values
are held to half a unit of the last printed place. The preferred numbers are those values rounded by
hand for use; the standard gives its largest departures as -1.01 % and +1.26 % (from memory).
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from furnlib.trade.drawer.graduation import constant_ratio

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "iso3_r5.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("clear_height", [Fraction(1000), Fraction(301, 8)])
def test_a_ratio_of_the_fifth_root_of_ten_gives_the_r5_series(clear_height):
    openings = constant_ratio(clear_height, len(ROWS), Fraction(10 ** (1 / 5)))
    assert float(sum(openings)) == pytest.approx(float(clear_height))
    for opening, row in zip(openings, ROWS, strict=True):
        times_the_first = float(opening / openings[0])
        assert times_the_first == pytest.approx(float(row["theoretical"]), abs=0.00005)
        assert -0.0101 <= float(row["preferred"]) / times_the_first - 1 <= 0.0126
