"""A year of readings, and what each month of it comes to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from furnlib.base.angles import Value
from furnlib.base.guards import require_finite


def readings_of(numbers: Sequence[float]) -> Value:
    """Readings as the formulas of the trade take them all at once.

    Args:
        numbers: one or more, each a plain number.

    Returns:
        An array of them.

    Raises:
        DesignError: when one of them is no ordinary number.

    Source:
        None: no formula stands here.

    Example:
        >>> readings_of([45, 50]) / 100
        array([0.45, 0.5 ])
    """
    for number in numbers:
        require_finite("reading", number)
    return np.array(numbers, float)


@dataclass(frozen=True)
class Months:
    """What the readings of each month come to, in their own unit.

    Args:
        least: of each month.
        mean: of each month.
        most: of each month.
    """

    least: tuple[float, ...]
    mean: tuple[float, ...]
    most: tuple[float, ...]


def by_month(values: Value, begins: Sequence[int]) -> Months:
    """Least, mean and most of the readings of each month.

    Args:
        values: an array, one for each reading, any unit.
        begins: at which reading each month begins, counted from 0, rising; plain numbers.

    Returns:
        The three, a number for each month.

    Source:
        Month by month in `tests/unit/test_humidity_record.py`.

    Example:
        >>> by_month(readings_of([40, 44, 60]), [0, 2])
        Months(least=(40.0, 60.0), mean=(42.0, 60.0), most=(44.0, 60.0))
    """
    counts = np.diff([*begins, len(values)])
    found = np.minimum.reduceat(values, begins), np.add.reduceat(values, begins) / counts
    least, mean, most = (tuple(map(float, row)) for row in (*found, np.maximum.reduceat(values, begins)))
    return Months(least, mean, most)
