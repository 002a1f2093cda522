"""Ratio systems as data: the name of each ratio, the numbers it comes from, how it is drawn, its source.

A ratio is long over short, 1 or more. Which one pleases is not decided here.
"""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files

from furnlib.base.angles import Value, square_root
from furnlib.base.guards import DesignError, nearest_word

SYSTEMS = ("whole numbers", "golden section", "root rectangles", "musical intervals", "squares")
_LARGEST_TERM = 10**6


@dataclass(frozen=True)
class Ratio:
    """A ratio that makers have used, and how it is drawn.

    Args:
        name: in the words of its system, such as 2:3 or root 2.
        system: the system it belongs to, one of `SYSTEMS`.
        value: long over short, a plain number from 1 to 1000.
        exact: the same as a fraction, a plain number; None where it is none.
        geometry: how a rectangle of this ratio is drawn, in words.
        source: where it stands, or that it is common practice.
    """

    name: str
    system: str
    value: float
    exact: Fraction | None
    geometry: str
    source: str

    @property
    def fraction(self) -> Fraction:
        """The ratio in whole numbers: exactly, or right to a few parts in 10^12."""
        return (self.exact or Fraction(self.value)).limit_denominator(_LARGEST_TERM)


def surd(whole: Value, root: Value, over: Value, power: Value = 1) -> Value:
    """Value of a ratio from the numbers it is kept as: ((a + sqrt b) / c)^k.

    Args:
        whole: a, a plain number; number, array or symbol.
        root: b, 0 or more, a plain number.
        over: c, above 0, a plain number.
        power: k, a plain number; 2 for the square, 1/2 for the root.

    Returns:
        The value, a plain number.

    Source:
        Derived in `teach.derive.derive_proportion`.

    Example:
        >>> surd(1, 5, 2)
        1.618034
    """
    return ((whole + square_root(root)) / over) ** power


@cache
def _table() -> tuple[Ratio, ...]:
    lines = files(__package__).joinpath("ratios.csv").read_text("utf-8").splitlines()
    found = []
    for row in csv.DictReader(lines):
        numbers = int(row["whole"]), int(row["root"]), int(row["over"])
        power = Fraction(row["power"])
        whole, root, over = numbers
        even = math.isqrt(root)
        exact = Fraction(whole + even, over) ** int(power) if even**2 == root and power == int(power) else None
        value = float(exact or surd(*numbers, float(power)))
        found.append(Ratio(row["name"], row["system"], value, exact, row["geometry"], row["source"]))
    return tuple(found)


def ratios(*systems: str) -> tuple[Ratio, ...]:
    """Ratios of the named systems, or of all.

    Args:
        systems: names out of `SYSTEMS`; none for all.

    Returns:
        The ratios in the order of the table. Some stand in several systems under names of their own.

    Raises:
        DesignError: when a system is not known; the nearest name is offered.

    Source:
        Each ratio names its own.

    Example:
        >>> [(r.name, round(r.value, 4), r.exact) for r in ratios("root rectangles")][2:]
        [('root 4', 2.0, Fraction(2, 1)), ('root 5', 2.2361, None)]
    """
    for system in systems:
        if system not in SYSTEMS:
            raise DesignError(f"The ratio system '{system}' is not known; {nearest_word(system, SYSTEMS)}")
    return tuple(ratio for ratio in _table() if not systems or ratio.system in systems)
