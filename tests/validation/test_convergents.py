"""Simple ratios near a rectangle against the convergents of well-known numbers.

Source: numerators and denominators of the convergents to the golden section, to the roots of 2, 3 and 5
and to pi, as they stand in the On-Line Encyclopedia of Integer Sequences; the numbers of the sequences
are from memory and the terms were computed from the continued fractions, not read there.

A convergent comes nearer than every fraction whose larger number is no larger, so each must be among the
best simple ratios; and with a convergent's own number as the limit it must be the last of them.
"""

from __future__ import annotations

import csv
import math
from collections import defaultdict
from pathlib import Path

import pytest

from furnlib.trade.case.proportion import nearest_ratios

NUMBERS = {"phi": (1 + 5**0.5) / 2, "sqrt2": 2**0.5, "sqrt3": 3**0.5, "sqrt5": 5**0.5, "pi": math.pi}
PRINTED: dict[str, list[tuple[int, int]]] = defaultdict(list)
for row in csv.DictReader((Path(__file__).parent / "data" / "convergents.csv").open(encoding="utf-8")):
    PRINTED[row["number"]].append((int(row["numerator"]), int(row["denominator"])))


def pairs(number, largest):
    return [(near.numerator, near.denominator) for near in nearest_ratios(NUMBERS[number], 1, largest)]


@pytest.mark.parametrize("number", NUMBERS)
def test_every_printed_convergent_is_found_and_is_the_nearest_of_its_size(number):
    printed = PRINTED[number]
    assert len(printed) >= 6
    assert set(printed) <= set(pairs(number, printed[-1][0]))
    for numerator, denominator in printed:
        assert pairs(number, numerator)[-1] == (numerator, denominator)


@pytest.mark.parametrize("number", ["phi"])
def test_of_the_golden_section_there_are_no_others(number):
    """All quotients are 1, so nothing stands between two convergents."""
    assert pairs(number, PRINTED[number][-1][0]) == PRINTED[number]
