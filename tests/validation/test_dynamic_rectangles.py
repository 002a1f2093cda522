"""Root and golden rectangles, their reciprocals and gnomons, against Hambidge's list.

Source: J. Hambidge, The Elements of Dynamic Symmetry (1926). The ratios were read as quoted in an
encyclopaedia (that of the square is from memory); reciprocals and gnomons were computed from the closed
form and are no printed values. All are given to three or four decimals, so half a unit of the last
decimal is the tolerance.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from furnlib.trade.case.proportion import gnomon, reciprocal
from furnlib.trade.case.ratios import ratios

ROWS = [*csv.DictReader((Path(__file__).parent / "data" / "dynamic_rectangles.csv").open(encoding="utf-8"))]
NAMES = {
    "square": "square",
    "root-phi": "root of the golden section",
    "root-2": "root 2",
    "golden (whirling squares)": "golden section",
    "root-3": "root 3",
    "root-4": "root 4",
    "root-5": "root 5",
    "phi squared": "square of the golden section",
}
VALUES = {ratio.name: ratio.value for ratio in ratios("root rectangles", "golden section", "squares")}


def last_place(printed):
    """Half a unit of the last decimal that is printed, and a hair for the float."""
    return 0.5 * 10 ** -len(printed.partition(".")[2]) + 1e-12


@pytest.mark.parametrize("row", ROWS, ids=[row["rectangle"] for row in ROWS])
def test_each_rectangle(row):
    value = VALUES[NAMES[row["rectangle"]]]
    assert value == pytest.approx(float(row["ratio"]), rel=0, abs=last_place(row["ratio"]))
    for formula, column in ((reciprocal, "reciprocal"), (gnomon, "gnomon")):
        assert formula(value) == pytest.approx(float(row[column]), rel=0, abs=0.5e-4 + 1e-12)


def test_the_whole_list_is_in_the_table():
    assert len(ROWS) == len(NAMES)
    assert {NAMES[row["rectangle"]] for row in ROWS} <= set(VALUES)
