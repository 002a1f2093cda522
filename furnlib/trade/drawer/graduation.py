"""Openings that grow by a rule, and openings that add up on the tape.

A rule (equal, constant step, constant ratio) gives ideal openings, top to bottom, that fill the
clear height exactly but land between the marks of the rule. Rounding each by itself misses the
field. `close_on_grid` brings them to whole grid steps that add up, in this order of wishes: the
steps from row to row never shrink, the worst change from the ideal is least, the sum of the
squared changes is least, and what is left goes to the lower openings.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, require_finite, require_positive
from furnlib.base.units import Unit, write_exact
from furnlib.trade.drawer._closing import best_steps

MOST_ROWS = 200
_SAME = 10**9  # ideals are first rounded to 1e-9 of a grid step, so that every machine agrees


def constant_step_first(clear_height: Value, rows: Value, step: Value) -> Value:
    """Top opening of a constant step: h1 = S_h/n - (n - 1) d / 2.

    Args:
        clear_height: S_h, inside height less the dividers; number, array or symbol.
        rows: n, how many openings.
        step: d, how much each opening is taller than the one above, in the same unit.

    Returns:
        The top opening, in the unit of the clear height.

    Source:
        Derived in `teach.derive.derive_graduation`.

    Example:
        >>> constant_step_first(1001, 7, 20)
        83.0
    """
    return clear_height / rows - (rows - 1) * step / 2


def constant_ratio_first(clear_height: Value, rows: Value, ratio: Value) -> Value:
    """Top opening of a constant ratio other than 1: h1 = S_h (g - 1) / (g^n - 1).

    Args:
        clear_height: S_h, inside height less the dividers; number, array or symbol.
        rows: n, how many openings.
        ratio: g, each opening over the one above, a plain number; not 1 (then every opening is S_h/n).

    Returns:
        The top opening, in the unit of the clear height.

    Source:
        Derived in `teach.derive.derive_graduation`; ISO 3 preferred numbers agree.

    Example:
        >>> constant_ratio_first(700.0, 3, 2.0)
        100.0
    """
    return clear_height * (ratio - 1) / (ratio**rows - 1)


def _check_field(clear_height: Fraction, rows: int) -> None:
    if not 1 <= rows <= MOST_ROWS or rows != int(rows):
        raise DesignError(f"The number of rows is {rows}; it must be a whole number from 1 to {MOST_ROWS}.")
    require_positive("clear height", clear_height, "thin the dividers, take fewer rows or raise the case")


def equal_openings(clear_height: Fraction, rows: int) -> tuple[Fraction, ...]:
    """Openings of one height: S_h / n.

    Args:
        clear_height: S_h, above 0, any length unit.
        rows: n, from 1 to 200.

    Returns:
        The ideal openings, top to bottom, exactly.

    Raises:
        DesignError: when the clear height is not above 0 or the rows are out of range.

    Source:
        Common practice, no source.

    Example:
        >>> [str(h) for h in equal_openings(Fraction(100), 3)]
        ['100/3', '100/3', '100/3']
    """
    _check_field(clear_height, rows)
    return (Fraction(clear_height) / rows,) * rows


def constant_step(clear_height: Fraction, rows: int, step: Fraction) -> tuple[Fraction, ...]:
    """Openings that grow downwards by the same step: h_i = h1 + (i - 1) d.

    Args:
        clear_height: S_h, above 0, any length unit.
        rows: n, from 1 to 200.
        step: d, in the same unit; below 0 the openings shrink downwards.

    Returns:
        The ideal openings, top to bottom, exactly.

    Raises:
        DesignError: when the step leaves nothing for the smallest opening, or a value is out of
            range.

    Source:
        Common practice, no source; the sum is derived in `teach.derive.derive_graduation`.

    Example:
        >>> [int(h) for h in constant_step(Fraction(1001), 7, Fraction(20))]
        [83, 103, 123, 143, 163, 183, 203]
    """
    _check_field(clear_height, rows)
    require_finite("step per row", step)
    first = constant_step_first(Fraction(clear_height), rows, Fraction(step))
    openings = tuple(first + row * Fraction(step) for row in range(rows))
    smallest = min(openings)
    if smallest <= 0:
        most = 2 * float(clear_height) / (rows * (rows - 1))
        limit = f"below {most:g}" if step > 0 else f"above {-most:g}"
        raise DesignError(
            f"A step of {float(step):g} over {rows} rows leaves {float(smallest):g} for the smallest opening;"
            f" the step must stay {limit}: take a smaller step or fewer rows."
        )
    return openings


def constant_ratio(clear_height: Fraction, rows: int, ratio: Fraction) -> tuple[Fraction, ...]:
    """Openings that grow downwards by the same ratio: h_i = h1 g^(i - 1).

    Args:
        clear_height: S_h, above 0, any length unit.
        rows: n, from 1 to 200.
        ratio: g, from 1/10 to 10; below 1 the openings shrink downwards.

    Returns:
        The ideal openings, top to bottom, exactly.

    Raises:
        DesignError: when a value is out of range.

    Source:
        Common practice, no source; the sum is derived in `teach.derive.derive_graduation`.

    Example:
        >>> [float(h) for h in constant_ratio(Fraction(700), 3, Fraction(2))]
        [100.0, 200.0, 400.0]
    """
    _check_field(clear_height, rows)
    require_positive("ratio per row", ratio, "each opening over the one above, such as 1.16")
    if not Fraction(1, 10) <= ratio <= 10:
        raise DesignError(f"The ratio per row is {float(ratio):.10g}; it must be from 0.1 to 10, such as 1.16.")
    if ratio == 1:
        return equal_openings(clear_height, rows)
    first = constant_ratio_first(Fraction(clear_height), rows, Fraction(ratio))
    return tuple(first * Fraction(ratio) ** row for row in range(rows))


@dataclass(frozen=True)
class Closed:
    """Openings in whole grid steps that add up to the clear height, in its unit, beside what they came from.

    Args:
        openings: top to bottom, on the grid; they add up to the clear height exactly.
        ideal: what the rule asked for.
        rounded_alone: each ideal opening rounded by itself to the nearest grid step.
        grid: the grid step.
        steps_never_shrink: False where no set on this grid adds up with steps that never shrink;
            then the largest remainders were rounded up instead.
    """

    openings: tuple[Fraction, ...]
    ideal: tuple[Fraction, ...]
    rounded_alone: tuple[Fraction, ...]
    grid: Fraction
    steps_never_shrink: bool

    @property
    def miss(self) -> Fraction:
        """By how much the openings rounded one by one miss the field; above 0: too much."""
        return sum(self.rounded_alone, Fraction(0)) - sum(self.openings, Fraction(0))

    @property
    def largest_change(self) -> Fraction:
        """The largest change of an opening from its ideal."""
        return max(abs(h - ideal) for h, ideal in zip(self.openings, self.ideal, strict=True))


def close_on_grid(ideal: Sequence[Fraction], grid: Fraction, unit: Unit = "mm") -> Closed:
    """Bring ideal openings to whole grid steps that add up exactly.

    No opening ends more than one grid step off its ideal, and the order of sizes is kept. Among
    such sets the best is taken as the module's head says; openings that shrink downwards are
    closed upside down. Where no set has steps that never shrink (common near a ratio of 1) the
    openings with the largest remainders are rounded up, the lower first, and the result says so.

    Args:
        ideal: top to bottom, each above 0, any length unit; exact fractions.
        grid: the smallest step this shop cuts to, above 0, in the same unit.
        unit: "mm" or "in": how a refusal writes its lengths.

    Returns:
        The closed openings and what they were compared with.

    Raises:
        DesignError: when the sum is no whole number of grid steps (the residual is said), when an
            opening is less than a grid step, or when the grid is not above 0.

    Source:
        Furnlib's own; proved by trying every set of small cases in the tests.

    Example:
        >>> ideal = constant_ratio(Fraction(1000), 7, Fraction(29, 25))
        >>> [int(h) for h in close_on_grid(ideal, Fraction(5)).openings]
        [90, 100, 115, 135, 160, 185, 215]
    """
    require_positive("grid", grid, "such as 1 mm or 1/32 in")
    total = sum(ideal, Fraction(0)) / grid
    residual = (total - total.__floor__()) * grid
    step = _written(Fraction(grid), unit)
    if residual:
        clear, left = (_written(Fraction(length), unit) for length in (sum(ideal), residual))
        raise DesignError(
            f"The clear height {clear} is no whole number of {step} steps: {left} is left over; put it in the legs,"
            " the top, the bottom or a divider, or take a finer grid."
        )
    if not ideal or min(ideal) < grid:
        smallest = float(min(ideal, default=Fraction(0)))
        raise DesignError(
            f"The smallest opening would be {smallest:g}, less than one step of {step};"
            " take fewer rows, a ratio nearer 1 or a finer grid."
        )
    falling = ideal[0] > ideal[-1]
    units = [round(h / grid * _SAME) for h in (reversed(ideal) if falling else ideal)]
    steps = best_steps(units, int(total), _SAME)
    never_shrink = steps is not None
    if steps is None:
        steps = _largest_remainders(units, int(total))
    if falling:
        steps = steps[::-1]
    return Closed(
        openings=tuple(k * grid for k in steps),
        ideal=tuple(ideal),
        rounded_alone=tuple((h / grid + Fraction(1, 2)).__floor__() * grid for h in ideal),
        grid=grid,
        steps_never_shrink=never_shrink,
    )


def _written(length: Fraction, unit: Unit) -> str:
    """Write a length as the tape shows it, or as a decimal where the tape has no mark for it."""
    return write_exact(length, unit) if unit == "mm" or 64 * length % 1 == 0 else f"{float(length):.8g}"


def _largest_remainders(units: list[int], total: int) -> list[int]:
    """Round all down, then give one step each to the largest remainders, the lower first."""
    steps = [u // _SAME for u in units]
    by_remainder = sorted(range(len(units)), key=lambda i: (units[i] % _SAME, i), reverse=True)
    for i in by_remainder[: total - sum(steps)]:
        steps[i] += 1
    return steps


def never_shrinks(openings: Sequence[Fraction]) -> bool:
    """Tell whether the steps from row to row never shrink, seen from the smaller end.

    Args:
        openings: top to bottom, any length unit.

    Returns:
        True where each step is at least the one before it.

    Source:
        Common practice, no source.

    Example:
        >>> never_shrinks([90, 100, 115, 135]), never_shrinks([90, 105, 115, 135])
        (True, False)
    """
    ordered = list(openings)
    if ordered and ordered[0] > ordered[-1]:
        ordered.reverse()
    steps = [low - high for high, low in pairwise(ordered)]
    return all(later >= earlier for earlier, later in pairwise(steps))


def running_sizes(openings: Sequence[Fraction], divider: Fraction, start: Fraction) -> tuple[Fraction, ...]:
    """Every edge from one end, for a stick: no size hangs on the one before it.

    Args:
        openings: top to bottom, any length unit.
        divider: thickness of each divider between them, in the same unit.
        start: where the first opening begins, measured from the datum, in the same unit.

    Returns:
        Top and bottom edge of each opening in turn, measured from the datum.

    Source:
        Common practice, no source.

    Example:
        >>> [int(x) for x in running_sizes([Fraction(83), Fraction(103)], Fraction(18), Fraction(20))]
        [20, 103, 121, 224]
    """
    pieces = [piece for opening in openings for piece in (opening, divider)][:-1]
    return tuple(accumulate(pieces, initial=Fraction(start)))
