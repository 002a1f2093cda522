"""Sister legs: which two of a set are most alike, from what the calipers read on each.

Turned by hand, no two legs come out the same. Nobody sees that across a room, but two that stand side by
side are compared: so the best pair goes to the front, and the odd one to the back.

Two legs differ by the root mean square of what the calipers read apart at their stations. The largest
difference alone would hang on one reading, and one reading is no surer than the calipers, about 0.25 mm;
a mean of the differences would let a bead that is plainly off hide among many that agree. The
station that differs most is told beside it: there one leg can still be mended.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from furnlib.base.angles import Vector
from furnlib.base.guards import DesignError, require_positive

_MOST_LEGS = 12
"""Twelve legs are paired in 10,395 ways, and all are tried."""


@dataclass(frozen=True)
class LegPair:
    """Two legs that are to stand side by side; legs and stations are counted from 0, as they were given.

    Args:
        legs: which two, plain numbers.
        difference: root mean square of how far their readings are apart, in the unit of the readings.
        worst_station: where they are furthest apart, a plain number; the first such place.
        worst_difference: how far they are apart there, in that unit.
    """

    legs: tuple[int, int]
    difference: float
    worst_station: int
    worst_difference: float


@dataclass(frozen=True, eq=False)
class Pairing:
    """Legs paired by likeness.

    Args:
        pairs: the most alike first: the front, in a piece of four.
        odd_leg: which leg is least like the others, a plain number: the one that is left over, where
            their number is odd; else the one of the last pair that differs more from the legs of the
            other pairs. None for one pair alone.
        differences: between any two legs, in the unit of the readings; shape (legs, legs).
    """

    pairs: tuple[LegPair, ...]
    odd_leg: int | None
    differences: Vector


def pair_by_likeness(readings: Sequence[Sequence[float]] | Vector) -> Pairing:
    """Pair turned legs so that the sum of the differences within the pairs is the least.

    Every way to pair them is tried. Where two ways are equally good, that one is taken whose first leg
    has the earlier partner, so that the same readings always give the same pairs.

    Args:
        readings: what the calipers read, above 0, any length unit: a row for each leg, two to twelve
            of them, and in each row the same stations in the same order.

    Returns:
        The pairs.

    Raises:
        DesignError: when there are too few legs or too many, rows are not of one length, or a reading is
            not above 0.

    Source:
        Common practice, no source; the measure is argued in the head of this module.

    Example:
        >>> made = pair_by_likeness([[40.0, 22.0], [40.6, 22.4], [40.1, 22.0], [41.0, 22.9]])
        >>> [pair.legs for pair in made.pairs], made.odd_leg
        ([(0, 2), (1, 3)], 3)
    """
    rows = _rows(readings)
    apart = abs(rows[:, None, :] - rows[None, :, :])
    differences = np.sqrt((apart**2).mean(axis=2))
    count = len(rows)
    # where the number is odd, one leg is paired with a row of nothing that lies past the last
    padded = np.pad(differences, (0, count % 2))
    unit = differences.max() or 1.0
    ways = _ways(tuple(range(len(padded))))
    best = min(ways, key=lambda way: round(sum(padded[pair] for pair in way) / unit, 9))
    left_over = [first for first, second in best if second == count]
    made = [
        LegPair(pair, float(differences[pair]), int(apart[pair].argmax()), float(apart[pair].max()))
        for pair in best
        if pair[1] < count
    ]
    made.sort(key=lambda pair: pair.difference)
    odd = left_over[0] if left_over else None
    if odd is None and len(made) > 1:
        odd = max(made[-1].legs, key=lambda leg: float(differences[leg].sum()))
    return Pairing(tuple(made), odd, differences)


def _ways(legs: tuple[int, ...]) -> Iterator[tuple[tuple[int, int], ...]]:
    """Every way to pair legs, those first in which the first leg has an early partner."""
    if not legs:
        yield ()
    for place in range(1, len(legs)):
        for others in _ways(legs[1:place] + legs[place + 1 :]):
            yield ((legs[0], legs[place]), *others)


def _rows(readings: Any) -> Vector:
    lengths = sorted({len(row) for row in readings})
    if not 2 <= len(readings) <= _MOST_LEGS:
        raise DesignError(
            f"Readings of {len(readings)} legs are given; from 2 to {_MOST_LEGS} can be paired: measure more legs or"
            " pair them in lots."
        )
    if len(lengths) > 1 or not lengths[0]:
        raise DesignError(
            f"Rows of readings hold {' or '.join(map(str, lengths))} numbers; every leg is read at the same stations:"
            " read what is missing."
        )
    rows = np.array(readings, dtype=float)
    require_positive("reading of the calipers", rows)
    return rows
