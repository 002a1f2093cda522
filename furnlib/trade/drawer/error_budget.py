"""What the slips of a chain of parts add up to, at worst and as a rule, and where to measure from the work."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from furnlib.base.angles import Value, square_root
from furnlib.base.guards import DesignError, require_finite, require_positive


def worst_slip(slip: Value, members: Value) -> Value:
    """The most that alike slips of a chain can add up to: n e.

    Args:
        slip: e, of each member, 0 or more, any length unit; number, array or symbol.
        members: n, how many.

    Returns:
        The slip of the whole chain, all to one side, in the same unit.

    Source:
        Derived in `teach.derive.derive_error_budget`.

    Example:
        >>> worst_slip(0.5, 4)
        2.0
    """
    return members * slip


def likely_slip(slip: Value, members: Value) -> Value:
    """What alike slips that know nothing of one another come to, root mean square: e sqrt(n).

    Args:
        slip: e, of each member, as a standard deviation, 0 or more, any length unit.
        members: n, how many.

    Returns:
        The standard deviation of the whole chain, in the same unit.

    Source:
        Derived in `teach.derive.derive_error_budget`.

    Example:
        >>> likely_slip(0.5, 4)
        1.0
    """
    return slip * square_root(members)


@dataclass(frozen=True)
class ErrorBudget:
    """The slips of a chain in their own unit, each member marked from the end of the one before.

    Args:
        worst: all slips to one side, in the unit of the slips.
        likely: what they come to as a rule: the root of the sum of their squares.
        running_worst: the worst after each member.
        running_likely: what is likely after each member.
        measure_at: the first member, counted from 1, to be measured from the work instead, because
            the worst would pass what is allowed there; None where it never does.
    """

    worst: float
    likely: float
    running_worst: tuple[float, ...]
    running_likely: tuple[float, ...]
    measure_at: int | None


def error_budget(slips: Sequence[float], allowed: float | None = None) -> ErrorBudget:
    """Add up the slips of a chain: at worst their sum, likely the root of the sum of their squares.

    Args:
        slips: of each member in order, 0 or more, any one length unit.
        allowed: the most that does not matter, above 0, in the same unit.

    Returns:
        Both sums after each member, and where to measure from the work.

    Raises:
        DesignError: when there is no member, a slip is below 0, or what is allowed is not above 0.

    Source:
        Derived in `teach.derive.derive_error_budget`; slips are taken as independent.

    Example:
        >>> budget = error_budget([0.2] * 13, allowed=1.0)
        >>> round(budget.worst, 1), round(budget.likely, 1), budget.measure_at
        (2.6, 0.7, 6)
    """
    if not slips:
        raise DesignError("A chain of no members has no slips; give the slip of each member.")
    for slip in slips:
        require_finite("slip", slip)
        if slip < 0:
            raise DesignError(f"The slip is {float(slip):g}; it must be 0 or more: it counts to either side.")
    if allowed is not None:
        require_positive("slip allowed", allowed)
    worst = tuple(map(float, accumulate(slips)))
    likely = tuple(float(square_root(squares)) for squares in accumulate(slip * slip for slip in slips))
    # a last place of a float is no reason to measure again
    past = [number for number, sum_so_far in enumerate(worst, 1) if allowed and sum_so_far > allowed * (1 + 1e-12)]
    return ErrorBudget(worst[-1], likely[-1], worst, likely, past[0] if past else None)
