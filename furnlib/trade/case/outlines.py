"""Outlines of a case on the grid, between limits, ranked by how far each lands from its ratio.

Legs tell two readings apart. The *silhouette* is the whole front, legs and all; the *case* is the field
above the legs. A ratio given to one is not the ratio of the other.

An outline is sought where a ratio's line crosses the limits: for each height on the grid the two widths
beside the line, for each width the two heights. Sizes are whole grid steps and ratios are fractions
(what is no fraction enters as one that is right to a few parts in 10^12), so that the search is in whole
numbers and the same input gives the same order everywhere. A finer grid never does worse.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from furnlib.base.guards import DesignError, nearest_word, require_finite, require_positive
from furnlib.trade.case.ratios import Ratio

FIELDS = ("silhouette", "case")
MOST_CANDIDATES = 4_000_000
_LARGEST = 2**61  # products of whole numbers stay below what 64 bits hold

Number = int | float | Fraction
Limits = tuple[Number, Number]
Steps = NDArray[np.int64]


@dataclass(frozen=True)
class Outline:
    """An outline on the grid, in the unit that the limits were given in.

    Args:
        ratio: the ratio that it was sought for.
        upright: True where the field is meant to be taller than wide.
        height: of the whole silhouette.
        width: of the silhouette and of the case.
        leg_height: how much of the height is legs.
        field: what the ratio was given to, one of `FIELDS`.
        off: the field's own long over short, over the ratio, less 1; a plain number.
        silhouette: height over width of the whole, a plain number.
        case: height over width without the legs, a plain number.
    """

    ratio: Ratio
    upright: bool
    height: Fraction
    width: Fraction
    leg_height: Fraction
    field: str
    off: float
    silhouette: Fraction
    case: Fraction


@dataclass(frozen=True, eq=False)
class Outlines:
    """All outlines between the limits, the nearest to its ratio first.

    Equally near ones stand in the order of how near they are to the middle of the limits, then of the ratios.

    Args:
        ratios: the ratios that were tried.
        grid: the grid step, in the unit of the limits.
        leg_height: how much of the height is legs, in the same unit.
        field: what the ratios were given to, one of `FIELDS`.
        heights: of the whole silhouette, in grid steps.
        widths: in grid steps.
        off: the field's own long over short, over its ratio, less 1; plain numbers.
        ratio: which of the ratios, counted from 0.
        upright: True where the field is meant to be taller than wide.
    """

    ratios: tuple[Ratio, ...]
    grid: Fraction
    leg_height: Fraction
    field: str
    heights: NDArray[np.int64]
    widths: NDArray[np.int64]
    off: NDArray[np.float64]
    ratio: NDArray[np.int64]
    upright: NDArray[np.bool_]

    def __len__(self) -> int:
        return len(self.off)

    def __getitem__(self, rank: int) -> Outline:
        height, width = int(self.heights[rank]) * self.grid, int(self.widths[rank]) * self.grid
        return Outline(
            self.ratios[self.ratio[rank]],
            bool(self.upright[rank]),
            height,
            width,
            self.leg_height,
            self.field,
            float(self.off[rank]),
            height / width,
            (height - self.leg_height) / width,
        )

    def best(self, number: int = 5) -> tuple[Outline, ...]:
        """The best outline of each ratio, the closest first.

        Args:
            number: how many ratios at most, a plain number.

        Returns:
            The outlines.
        """
        first = np.unique(self.ratio, return_index=True)[1]
        return tuple(self[rank] for rank in np.sort(first)[:number])


def outlines(
    heights: Limits,
    widths: Limits,
    grid: Number,
    ratios: Sequence[Ratio],
    leg_height: Number = 0,
    field: str = "silhouette",
) -> Outlines:
    """Outlines on the grid, between limits, ranked by how far each lands from its ratio.

    Each ratio is tried upright and lying; one that comes twice, under two names, is tried once, under the
    first.

    Args:
        heights: least and most of the whole silhouette, legs and all, any length unit.
        widths: least and most, in the same unit.
        grid: the step that height and width are whole numbers of, in the same unit.
        ratios: what to come near, such as `ratios("whole numbers")`.
        leg_height: how much of the height is legs, in the same unit; it need not be on the grid.
        field: what the ratio is given to: the silhouette, or the case without its legs.

    Returns:
        The outlines.

    Raises:
        DesignError: when a size is not above 0, limits are exchanged or have no grid step between them, legs
            reach the least height, or no ratio fits; then with the limit that shuts out the nearest one.

    Source:
        Common practice, no source; against every pair of sizes in `tests/unit/test_outlines.py`.

    Example:
        >>> from furnlib.trade.case.ratios import ratios
        >>> found = outlines((1200, 1350), (480, 540), 10, ratios("whole numbers"), 150)
        >>> [(best.ratio.name, int(best.height), int(best.width), best.off) for best in found.best(2)]
        [('2:5', 1250, 500, 0.0), ('3:8', 1280, 480, 0.0)]
    """
    require_positive("grid", grid, "give the step that the shop works to, such as 1")
    if field not in FIELDS:
        raise DesignError(f"The field '{field}' is not known; {nearest_word(field, FIELDS)}")
    require_finite("leg height", leg_height)
    step, legs = _exact(grid), _exact(leg_height)
    tall, wide = _side("height", heights, step), _side("width", widths, step)
    if not 0 <= legs < tall.first * step:
        raise DesignError(
            f"The leg height is {float(legs):.6g}; it must be from 0 to below the least height,"
            f" {float(tall.first * step):.6g}: shorten the legs or raise the least height."
        )
    if field == "case":
        tall = replace(tall, legs=legs / step)
    tries = _tries(ratios)
    spans = (tall.last - tall.first + 1) + (wide.last - wide.first + 1)
    largest = max(tall.last, wide.last) * tall.legs.denominator * max(fraction.numerator for _, fraction in tries)
    if 2 * len(tries) * spans > MOST_CANDIDATES or largest > _LARGEST:
        raise DesignError(
            f"The limits hold {spans} steps of {float(step):.6g}, too many or too fine to try {len(tries)} ratios on:"
            " take a coarser grid, narrower limits or fewer ratios."
        )
    ways: list[_Way] = [(index, fraction, tall, wide, True) for index, fraction in tries]
    ways += [(index, fraction, wide, tall, False) for index, fraction in tries if fraction != 1]
    found = [_beside(fraction, long, short) for _, fraction, long, short, _ in ways]
    lengths = [len(off) for _, _, off in found]
    if not any(lengths):
        raise DesignError(_nothing_fits(ratios, ways, step))
    longs, shorts, off = (np.concatenate(column) for column in zip(*found, strict=True))
    which, upright = (np.repeat([way[part] for way in ways], lengths) for part in (0, 4))
    high, across = np.where(upright, longs, shorts), np.where(upright, shorts, longs)
    order = np.lexsort((~upright, which, _from_middle(high, tall) + _from_middle(across, wide), abs(off)))
    return Outlines(
        tuple(ratios), step, legs, field, high[order], across[order], off[order], which[order], upright[order]
    )


def _exact(length: Number) -> Fraction:
    """A length as a fraction; 0.1 becomes a tenth."""
    return Fraction(length).limit_denominator(10_000)


def _side(name: str, limits: Limits, grid: Fraction) -> _Side:
    """The grid steps between two limits; not fewer than one."""
    for which, limit in zip(("least", "most"), limits, strict=True):
        require_positive(f"{which} {name}", limit)
    least, most = (_exact(limit) for limit in limits)
    if least > most:
        raise DesignError(f"The least {name}, {float(least):.6g}, is above the most, {float(most):.6g}: exchange them.")
    first, last = math.ceil(least / grid), math.floor(most / grid)
    if first > last:
        raise DesignError(
            f"No {name} from {float(least):.6g} to {float(most):.6g} is on the grid of {float(grid):.6g}; the nearest"
            f" are {float(last * grid):.6g} and {float(first * grid):.6g}: take a finer grid or widen the limits."
        )
    return _Side(name, first, last)


def _tries(ratios: Sequence[Ratio]) -> list[tuple[int, Fraction]]:
    """Each ratio once, as a fraction, with its place in the list."""
    if not ratios:
        raise DesignError("No ratio is given: name at least one, such as 2:3.")
    once: dict[Fraction, int] = {}
    for index, ratio in enumerate(ratios):
        once.setdefault(ratio.fraction, index)
    return [(index, fraction) for fraction, index in once.items()]


def _from_middle(steps: Steps, side: _Side) -> NDArray[np.float64]:
    share: NDArray[np.float64] = abs(2 * steps - (side.first + side.last)) / (side.first + side.last)
    return share


@dataclass(frozen=True)
class _Side:
    """Height or width between its limits.

    Args:
        name: height or width.
        first: least size, in grid steps.
        last: most size, in grid steps.
        legs: what of it the ratio is not given to, in grid steps.
    """

    name: str
    first: int
    last: int
    legs: Fraction = Fraction(0)

    def field(self, steps: Fraction | int) -> Fraction:
        """What the ratio is given to."""
        return steps - self.legs


_Way = tuple[int, Fraction, _Side, _Side, bool]  # which ratio, its fraction, long side, short side, upright


def _beside(ratio: Fraction, long: _Side, short: _Side) -> tuple[Steps, Steps, NDArray[np.float64]]:
    """Sizes on either side of a ratio's line, where it lies between the limits, and how far each is off."""
    top, bottom = ratio.as_integer_ratio()
    parts = (long.legs + short.legs).denominator  # one of the two is 0
    long_cut, short_cut = int(long.legs * parts), int(short.legs * parts)
    longs = np.arange(long.first, long.last + 1)
    ideal = (longs * parts - long_cut) * bottom + short_cut * top
    below, above = ideal // (top * parts), -(-ideal // (top * parts))
    longs, shorts = np.repeat(longs, 2), np.column_stack((below, above)).ravel()
    kept = (shorts >= short.first) & (shorts <= short.last)
    kept[1::2] &= above > below
    longs, shorts = longs[kept], shorts[kept]
    along, across = (longs * parts - long_cut) * bottom, (shorts * parts - short_cut) * top
    crosses = _between(along, short, top, parts) | _between(across, long, bottom, parts)
    return longs[crosses], shorts[crosses], (along[crosses] - across[crosses]) / across[crosses]


def _between(reach: Steps, side: _Side, times: int, parts: int) -> NDArray[np.bool_]:
    low, high = (int(side.field(end) * parts) * times for end in (side.first, side.last))
    return (reach >= low) & (reach <= high)


def _nothing_fits(ratios: Sequence[Ratio], ways: list[_Way], grid: Fraction) -> str:
    """Which limit shuts out the ratio that comes nearest, and by how much."""

    def reach(long: _Side, short: _Side) -> tuple[Fraction, Fraction]:
        return long.field(long.first) / short.field(short.last), long.field(long.last) / short.field(short.first)

    def missed(way: _Way) -> Fraction:
        least, most = reach(*way[2:4])
        return max(least / way[1], way[1] / most)

    index, fraction, long, short, upright = min(ways, key=missed)
    if fraction < reach(long, short)[0]:
        held, bound, words = long.first, short.last, ("least", "above", "most", "raise", "lower")
    else:
        held, bound, words = long.last, short.first, ("most", "below", "least", "lower", "raise")
    wanted = long.field(held) / fraction + short.legs
    other, past, limit, move, counter = words
    at, size, gap, end = (f"{float(steps * grid):.6g}" for steps in (held, wanted, abs(wanted - bound), bound))
    stands = "" if fraction == 1 else " upright" if upright else " lying"
    return (
        f"No ratio fits between the limits; {ratios[index].name}{stands} comes nearest: with the {other} {long.name},"
        f" {at}, it wants a {short.name} of {size}, {gap} {past} the {limit} {short.name}, {end}: {move} the {limit}"
        f" {short.name} or {counter} the {other} {long.name}."
    )
