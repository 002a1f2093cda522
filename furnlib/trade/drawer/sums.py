"""What the sum of all openings settles: closed formulas behind the rules of `graduation`.

They take numbers, arrays and symbols and guard nothing; the rules do.
"""

from __future__ import annotations

from furnlib.base.angles import Value


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


def step_from_first(clear_height: Value, rows: Value, first: Value) -> Value:
    """The constant step that a first opening leads to: d = 2 (S_h - n h1) / (n (n - 1)).

    Args:
        clear_height: S_h, inside height less the dividers; number, array or symbol.
        rows: n, how many openings, 2 or more.
        first: h1, the top opening, in the same unit.

    Returns:
        How much each opening is taller than the one above.

    Source:
        Derived in `teach.derive.derive_graduation`.

    Example:
        >>> step_from_first(1001, 7, 83)
        20.0
    """
    return 2 * (clear_height - rows * first) / (rows * (rows - 1))


def first_from_end_ratio(clear_height: Value, rows: Value, end_ratio: Value) -> Value:
    """Top opening of a constant step from the lowest opening over it: h1 = 2 S_h / (n (1 + Q)).

    Args:
        clear_height: S_h, inside height less the dividers; number, array or symbol.
        rows: n, how many openings.
        end_ratio: Q, the lowest opening over the top one, a plain number.

    Returns:
        The top opening, in the unit of the clear height.

    Source:
        Derived in `teach.derive.derive_graduation`.

    Example:
        >>> first_from_end_ratio(1000, 4, 4)
        100.0
    """
    return 2 * clear_height / (rows * (1 + end_ratio))


def ratio_from_end_ratio(rows: Value, end_ratio: Value) -> Value:
    """The constant ratio from the lowest opening over the top one: g = Q^(1 / (n - 1)).

    Args:
        rows: n, how many openings, 2 or more.
        end_ratio: Q, the lowest opening over the top one, a plain number.

    Returns:
        Each opening over the one above.

    Source:
        Derived in `teach.derive.derive_graduation`.

    Example:
        >>> ratio_from_end_ratio(3, 4.0)
        2.0
    """
    return end_ratio ** (1 / (rows - 1))


def weighted_opening(clear_height: Value, weight: Value, sum_of_weights: Value) -> Value:
    """One opening in proportion to its weight: h = S_h w / (sum of all weights).

    Args:
        clear_height: S_h, inside height less the dividers; number, array or symbol.
        weight: w, a plain number.
        sum_of_weights: the weights of all openings added up, a plain number.

    Returns:
        The opening, in the unit of the clear height.

    Source:
        Derived in `teach.derive.derive_graduation`.

    Example:
        >>> weighted_opening(1000, 3, 10)
        300.0
    """
    return clear_height * weight / sum_of_weights
