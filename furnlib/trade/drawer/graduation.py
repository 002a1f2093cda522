"""Openings that grow by a rule: equal, by a constant step, by a constant ratio, by weights.

A rule shares out the clear height, the inside height less rails and dividers, and gives ideal
openings, top to bottom, as exact fractions that fill it. Any one number names a step or a ratio:
itself, the first opening, the last one, or the last over the first.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate

from furnlib.base.guards import DesignError, require_finite, require_positive
from furnlib.trade.drawer.sums import (
    constant_ratio_first,
    constant_step_first,
    first_from_end_ratio,
    ratio_from_end_ratio,
    step_from_first,
    weighted_opening,
)

MOST_ROWS = 200


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


def _named(rule: str, numbers: dict[str, Fraction | None]) -> tuple[str, Fraction]:
    """The one number that names a rule."""
    given = {name: number for name, number in numbers.items() if number is not None}
    if len(given) != 1:
        said = " and ".join(given) or "none of them"
        raise DesignError(f"A {rule} is named by one of {', '.join(numbers)}; {said} are given: give one.")
    ((name, number),) = given.items()
    if name in ("step", "ratio"):
        require_finite(f"{name} per row", number)
    else:
        require_positive(f"{name} opening" if name in ("first", "last") else name, number)
    return name, Fraction(number)


def _check_least_top(clear_height: Fraction, rows: int, least_top: Fraction | None) -> None:
    """Refuse a least opening that not even equal ones reach."""
    if least_top is None:
        return
    require_positive("least top", least_top)
    mean = Fraction(clear_height) / rows
    if least_top > mean:
        raise DesignError(
            f"The least top is {float(least_top):g}, but {rows} equal openings are {float(mean):.6g} each; take fewer"
            " rows, a lower least top or a higher case."
        )


def constant_step(
    clear_height: Fraction,
    rows: int,
    step: Fraction | None = None,
    *,
    first: Fraction | None = None,
    last: Fraction | None = None,
    end_ratio: Fraction | None = None,
    least_top: Fraction | None = None,
) -> tuple[Fraction, ...]:
    """Openings that grow downwards by the same step, in the unit of the clear height: h_i = h1 + (i - 1) d.

    Args:
        clear_height: S_h, above 0, any length unit.
        rows: n, from 1 to 200.
        step: d, in the same unit; below 0 the openings shrink downwards.
        first: the top opening, in place of the step.
        last: the lowest opening, in place of the step.
        end_ratio: the lowest over the top one, above 0, in place of the step.
        least_top: what the smallest ideal opening must not fall below; the step is eased until it does not.

    Returns:
        The ideal openings, top to bottom, exactly.

    Raises:
        DesignError: when the step leaves nothing for the smallest opening, the least top is above
            the mean, not just one number names the step, or a value is out of range.

    Source:
        Common practice, no source; the sum is derived in `teach.derive.derive_graduation`.

    Example:
        >>> [int(h) for h in constant_step(Fraction(1001), 7, Fraction(20))]
        [83, 103, 123, 143, 163, 183, 203]
        >>> constant_step(Fraction(1001), 7, first=Fraction(83)) == constant_step(Fraction(1001), 7, Fraction(20))
        True
    """
    _check_field(clear_height, rows)
    name, number = _named("constant step", {"step": step, "first": first, "last": last, "end ratio": end_ratio})
    whole, count = Fraction(clear_height), Fraction(rows)
    _check_least_top(whole, rows, least_top)
    if rows == 1:
        return (whole,)
    if name == "end ratio":
        number = first_from_end_ratio(whole, count, number)
    by = number if name == "step" else step_from_first(whole, count, number) * (-1 if name == "last" else 1)
    if least_top is not None:
        most = step_from_first(whole, count, Fraction(least_top))
        by = max(min(by, most), -most)
    top = constant_step_first(whole, count, by)
    openings = tuple(top + row * by for row in range(rows))
    smallest = min(openings)
    if smallest <= 0 and name in ("first", "last"):
        raise DesignError(
            f"A {name} opening of {float(number):g} leaves {float(smallest):g} for the smallest opening of {rows} rows;"
            f" it must stay below {float(2 * whole / count):g}: take a smaller one or fewer rows."
        )
    if smallest <= 0:
        most = 2 * whole / (count * (count - 1))
        limit = f"below {float(most):g}" if by > 0 else f"above {-float(most):g}"
        raise DesignError(
            f"A step of {float(by):g} over {rows} rows leaves {float(smallest):g} for the smallest opening;"
            f" the step must stay {limit}: take a smaller step or fewer rows."
        )
    return openings


def constant_ratio(
    clear_height: Fraction,
    rows: int,
    ratio: Fraction | None = None,
    *,
    first: Fraction | None = None,
    last: Fraction | None = None,
    end_ratio: Fraction | None = None,
    least_top: Fraction | None = None,
) -> tuple[Fraction, ...]:
    """Openings that grow downwards by the same ratio, in the unit of the clear height: h_i = h1 g^(i - 1).

    A ratio that follows from the first or last opening, or from the end ratio, is found to 15
    figures; the openings fill the clear height exactly all the same.

    Args:
        clear_height: S_h, above 0, any length unit.
        rows: n, from 1 to 200.
        ratio: g, from 1/10 to 10; below 1 the openings shrink downwards.
        first: the top opening, in place of the ratio.
        last: the lowest opening, in place of the ratio.
        end_ratio: the lowest over the top one, above 0, in place of the ratio.
        least_top: what the smallest ideal opening must not fall below; the ratio is eased until it does not.

    Returns:
        The ideal openings, top to bottom, exactly.

    Raises:
        DesignError: when the least top is above the mean, not just one number names the ratio, or a
            value is out of range.

    Source:
        Common practice, no source; the sum is derived in `teach.derive.derive_graduation`.

    Example:
        >>> [float(h) for h in constant_ratio(Fraction(700), 3, Fraction(2))]
        [100.0, 200.0, 400.0]
    """
    _check_field(clear_height, rows)
    name, number = _named("constant ratio", {"ratio": ratio, "first": first, "last": last, "end ratio": end_ratio})
    whole = Fraction(clear_height)
    _check_least_top(whole, rows, least_top)
    if rows == 1:
        return (whole,)
    if name in ("first", "last"):
        grows = _ratio_from_first(whole, rows, number)
        number = grows if name == "first" else 1 / grows
    elif name == "end ratio":
        number = Fraction(ratio_from_end_ratio(rows, float(number)))
    require_positive("ratio per row", number, "each opening over the one above, such as 1.16")
    if not Fraction(1, 10) <= number <= 10:
        raise DesignError(f"The ratio per row is {float(number):.10g}; it must be from 0.1 to 10, such as 1.16.")
    if number == 1:
        return equal_openings(clear_height, rows)
    openings = _growing(whole, rows, number)
    if least_top is not None and min(openings) < least_top:
        eased = _ratio_from_first(whole, rows, Fraction(least_top))
        return _growing(whole, rows, eased if number > 1 else 1 / eased)
    return openings


def _growing(clear_height: Fraction, rows: int, ratio: Fraction) -> tuple[Fraction, ...]:
    """Openings of a constant ratio, which may be 1."""
    if ratio == 1:
        return equal_openings(clear_height, rows)
    first = constant_ratio_first(clear_height, rows, ratio)
    return tuple(first * ratio**row for row in range(rows))


def _ratio_from_first(clear_height: Fraction, rows: int, first: Fraction) -> Fraction:
    """The one ratio for which the openings from the first on fill the clear height: the root of a growing sum."""
    if first >= clear_height:
        raise DesignError(
            f"The opening of {float(first):g} leaves nothing of {float(clear_height):g} for {rows - 1} more; it must be"
            " less than the clear height."
        )
    if first * rows == clear_height:
        return Fraction(1)
    least, most = (float(constant_ratio_first(clear_height, rows, Fraction(end))) for end in ("10", "0.1"))
    if not least <= first <= most:
        raise DesignError(
            f"The opening of {float(first):g} at one end of {rows} rows must be from {least:.6g} to {most:.6g}: the"
            " ratio per row follows from it, and it must be from 0.1 to 10, such as 1.16."
        )
    from scipy.optimize import brentq  # noqa: PLC0415 - scipy is loaded only where it is needed

    wanted = float(clear_height / first)
    return Fraction(brentq(lambda g: sum(g**row for row in range(rows)) - wanted, 0.09, 11.0, xtol=1e-15, rtol=1e-15))


def weighted(clear_height: Fraction, weights: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """Openings in proportion to weights: h_i = S_h w_i / (w_1 + ... + w_n).

    Args:
        clear_height: S_h, above 0, any length unit.
        weights: w, top to bottom, 1 to 200 plain numbers above 0; terms of a summation series are
            weights, not ratios.

    Returns:
        The ideal openings, top to bottom, exactly.

    Raises:
        DesignError: when the clear height or a weight is not above 0.

    Source:
        Common practice, no source; the sum is derived in `teach.derive.derive_graduation`.

    Example:
        >>> [int(h) for h in weighted(Fraction(1000), [Fraction(w) for w in (2, 3, 5)])]
        [200, 300, 500]
    """
    _check_field(clear_height, len(weights))
    for weight in weights:
        require_positive("weight", weight, "the openings are in proportion to the weights")
    shares = [Fraction(weight) for weight in weights]
    return tuple(weighted_opening(Fraction(clear_height), share, sum(shares)) for share in shares)


def summation_weights(rows: int, first: Fraction = Fraction(1), second: Fraction = Fraction(2)) -> tuple[Fraction, ...]:
    """Weights each of which is the sum of the two before.

    Args:
        rows: how many, from 1 to 200.
        first: the first weight, a plain number above 0.
        second: the second weight, a plain number above 0.

    Returns:
        The weights; neighbours come nearer and nearer to the golden section, but are no constant ratio.

    Raises:
        DesignError: when a weight is not above 0 or the rows are out of range.

    Source:
        J. Hambidge, The Elements of Dynamic Symmetry (1926), summation series.

    Example:
        >>> [int(weight) for weight in summation_weights(6)]
        [1, 2, 3, 5, 8, 13]
    """
    _check_field(Fraction(1), rows)
    require_positive("first weight", first)
    require_positive("second weight", second)
    weights = [Fraction(first), Fraction(second)]
    while len(weights) < rows:
        weights.append(weights[-1] + weights[-2])
    return tuple(weights[:rows])


def running_sizes(
    openings: Sequence[Fraction], divider: Fraction | Sequence[Fraction], start: Fraction
) -> tuple[Fraction, ...]:
    """Every edge from one end, for a stick: no size hangs on the one before it.

    Args:
        openings: top to bottom, any length unit.
        divider: thickness of the dividers between them, in the same unit: one for all, or each from the top.
        start: where the first opening begins, measured from the datum, in the same unit.

    Returns:
        Top and bottom edge of each opening in turn, measured from the datum.

    Raises:
        DesignError: when the dividers are not one fewer than the openings.

    Source:
        Common practice, no source.

    Example:
        >>> [int(x) for x in running_sizes([Fraction(83), Fraction(103)], Fraction(18), Fraction(20))]
        [20, 103, 121, 224]
    """
    dividers = list(divider) if isinstance(divider, Sequence) else [divider] * (len(openings) - 1)
    if len(dividers) != len(openings) - 1:
        raise DesignError(
            f"{len(openings)} openings have {len(openings) - 1} dividers between; {len(dividers)} are given."
        )
    pieces = [piece for pair in zip(openings, [*dividers, Fraction(0)], strict=True) for piece in pair][:-1]
    return tuple(accumulate(pieces, initial=Fraction(start)))
