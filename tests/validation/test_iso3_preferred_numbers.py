"""A constant ratio against the preferred numbers of ISO 3.

Source: ISO 3:1973, Preferred numbers, series R5, R10, R20 and R40: ratios the fifth, tenth, twentieth
and fortieth root of 10. Their theoretical values are held to half a unit of the last printed place.
The preferred numbers are those values rounded by hand for use; the standard gives the largest
departures as -1.01 % and +1.26 % (from memory). R5 was read in a reference text; the other rows of
R40, of which R10 and R20 are every fourth and every second, are from memory, as the file says.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from furnlib.trade.drawer.graduation import constant_ratio

DATA = Path(__file__).parent / "data"
R40 = list(csv.DictReader((DATA / "iso3_r40.csv").open(encoding="utf-8")))
SERIES = {
    "R5": [row for row in R40 if row["in R5"] == "yes"],
    "R10": [row for row in R40 if row["in R10"] == "yes"],
    "R20": [row for row in R40 if row["in R20"] == "yes"],
    "R40": R40,
}


def test_the_series_was_copied_rightly():
    assert [len(rows) for rows in SERIES.values()] == [5, 10, 20, 40]
    assert [row["preferred"] for row in SERIES["R5"]] == ["1", "1.6", "2.5", "4", "6.3"]
    assert [int(row["index"]) for row in R40] == list(range(40))
    assert {row["how"] for row in R40} == {"read in a reference text", "from memory"}


def check(openings, rows):
    for opening, row in zip(openings, rows, strict=True):
        times_the_first = float(opening / openings[0])
        assert times_the_first == pytest.approx(float(row["theoretical"]), abs=0.00005)
        assert (
            -0.01015 <= float(row["preferred"]) / times_the_first - 1 <= 0.01265
        )  # held to the standard's last figure


@pytest.mark.parametrize("clear_height", [Fraction(1000), Fraction(301, 8)])
@pytest.mark.parametrize("name", SERIES)
def test_a_ratio_of_a_root_of_ten_gives_the_series(name, clear_height):
    openings = constant_ratio(clear_height, len(SERIES[name]), Fraction(10 ** (1 / int(name[1:]))))
    assert float(sum(openings)) == pytest.approx(float(clear_height))
    check(openings, SERIES[name])


@pytest.mark.parametrize("name", SERIES)
def test_an_end_ratio_of_ten_gives_the_series_as_well(name):
    openings = constant_ratio(Fraction(1000), len(SERIES[name]) + 1, end_ratio=Fraction(10))
    assert float(openings[-1] / openings[0]) == pytest.approx(10)  # the next decade begins there
    check(openings[:-1], SERIES[name])


@pytest.mark.parametrize("name", SERIES)
def test_the_first_and_the_last_printed_values_give_the_series_as_well(name):
    whole = sum(Fraction(row["theoretical"]) for row in SERIES[name])
    for way in ("first", "last"):
        openings = constant_ratio(
            whole, len(SERIES[name]), **{way: Fraction(SERIES[name][-(way == "last")]["theoretical"])}
        )
        for opening, row in zip(openings, SERIES[name], strict=True):
            assert float(opening) == pytest.approx(float(row["theoretical"]), abs=0.0005)
