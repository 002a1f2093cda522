"""Musical intervals of the table against just intonation.

Source: the five-limit just intervals that any text on acoustics gives, from memory, ratio and cents. A
cent is a twelve-hundredth of an octave: cents = 1200 log2(ratio); they are given to three decimals.
"""

from __future__ import annotations

import csv
import math
from fractions import Fraction
from pathlib import Path

import pytest

from furnlib.trade.case.ratios import ratios

ROWS = [*csv.DictReader((Path(__file__).parent / "data" / "musical_intervals.csv").open(encoding="utf-8"))]
TABLE = {ratio.name: ratio for ratio in ratios("musical intervals")}


@pytest.mark.parametrize("row", ROWS, ids=[row["interval"] for row in ROWS])
def test_each_interval(row):
    ratio = TABLE[row["interval"].partition(" (")[0]]
    assert ratio.exact == Fraction(row["ratio"])
    assert 1200 * math.log2(ratio.value) == pytest.approx(float(row["cents"]), rel=0, abs=0.0006)


def test_none_is_left_out():
    assert {row["interval"].partition(" (")[0] for row in ROWS} == set(TABLE)
