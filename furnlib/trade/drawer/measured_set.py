"""Which rule a measured set of openings comes closest to, and how far off it lies.

Each rule is fitted by least squares among the openings of that rule that fill the same height: the
mean change is nothing, so what is told apart is how the openings grow.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from furnlib.base.guards import DesignError, require_positive

FittingRule = Literal["equal", "constant step", "constant ratio", "weights by summation"]
FITTING_RULES: tuple[FittingRule, ...] = get_args(FittingRule)


@dataclass(frozen=True)
class FittedRule:
    """One rule beside a measured set, in the unit of the set.

    Args:
        rule: "equal", "constant step", "constant ratio" or "weights by summation".
        number: the step, the ratio, or the second weight over the first; nothing to say of equal ones: 0.
        openings: what the rule asks for, top to bottom, in the unit of the set.
        worst: the largest change of an opening from it.
        typical: the root of the mean square of all changes.
    """

    rule: FittingRule
    number: float
    openings: tuple[float, ...]
    worst: float
    typical: float


def _shared(total: float, weights: Sequence[float]) -> tuple[float, ...]:
    return tuple(total * weight / sum(weights) for weight in weights)


def _summation(rows: int, second: float) -> list[float]:
    weights = [1.0, second]
    while len(weights) < rows:
        weights.append(weights[-1] + weights[-2])
    return weights


def fit_rules(measured: Sequence[float]) -> tuple[FittedRule, ...]:
    """Fit every rule to a measured set of openings by least squares.

    Args:
        measured: openings top to bottom, 3 or more, each above 0, any length unit.

    Returns:
        Each rule with its number, the closest first; of equals the simpler first.

    Raises:
        DesignError: when there are fewer than three openings, or one is not above 0.

    Source:
        Least squares; scipy's minimiser over both free numbers agrees in the tests.

    Example:
        >>> closest = fit_rules([90, 100, 115, 135, 160, 185, 215])[0]
        >>> closest.rule, round(closest.number, 2)
        ('constant ratio', 1.16)
    """
    sizes = [float(opening) for opening in measured]
    if len(sizes) < 3:
        raise DesignError(f"{len(sizes)} openings fit any rule; measure three or more.")
    for size in sizes:
        require_positive("opening", size)
    rows, total = len(sizes), sum(sizes)
    middle = (rows - 1) / 2
    slope = sum((row - middle) * size for row, size in enumerate(sizes)) / sum(
        (row - middle) ** 2 for row in range(rows)
    )
    ratio = _least_squares(sizes, lambda number: _shared(total, [number**row for row in range(rows)]))
    second = _least_squares(sizes, lambda number: _shared(total, _summation(rows, number)))
    fitted = (
        _fitted("equal", 0.0, _shared(total, [1.0] * rows), sizes),
        _fitted("constant step", slope, tuple(total / rows + (row - middle) * slope for row in range(rows)), sizes),
        _fitted("constant ratio", ratio, _shared(total, [ratio**row for row in range(rows)]), sizes),
        _fitted("weights by summation", second, _shared(total, _summation(rows, second)), sizes),
    )
    # numbers found by least squares are no surer than the seventh figure; within it the simpler rule says it
    return tuple(sorted(fitted, key=lambda fit: (round(fit.typical / total, 7), FITTING_RULES.index(fit.rule))))


def _least_squares(sizes: Sequence[float], openings: Callable[[float], Sequence[float]]) -> float:
    """The number, from 1/10 to 10, whose openings lie nearest in the sum of squares."""
    from scipy.optimize import minimize_scalar  # noqa: PLC0415 - scipy is loaded only where it is needed

    def squares(number: float) -> float:
        return sum((size - wanted) ** 2 for size, wanted in zip(sizes, openings(number), strict=True))

    return float(minimize_scalar(squares, bounds=(0.1, 10.0), method="bounded", options={"xatol": 1e-12}).x)


def _fitted(rule: FittingRule, number: float, openings: tuple[float, ...], sizes: Sequence[float]) -> FittedRule:
    changes = [abs(size - wanted) for size, wanted in zip(sizes, openings, strict=True)]
    typical = (sum(change * change for change in changes) / len(changes)) ** 0.5
    return FittedRule(rule, number, openings, max(changes), float(typical))


def closest_rule(measured: Sequence[float], within: float) -> FittedRule:
    """The rule that a measured set follows, if it follows one.

    Args:
        measured: openings top to bottom, 3 or more, each above 0, any length unit.
        within: the largest change of an opening that still counts, above 0, in the same unit.

    Returns:
        The closest rule; but equal openings wherever they come that near, for any other rule has a
        number to bend and follows slips a little way.

    Raises:
        DesignError: when no rule comes that near; the one that came nearest is said.

    Source:
        As `fit_rules`.

    Example:
        >>> closest_rule([83, 103, 123, 143, 163, 183, 203], within=1).rule
        'constant step'
    """
    require_positive("largest change that counts", within)
    fitted = fit_rules(measured)
    near = [fit for fit in fitted if fit.worst <= within]
    if not near:
        best = min(fitted, key=lambda fit: fit.worst)
        raise DesignError(
            f"No rule comes within {float(within):g} of every opening: the nearest is the rule '{best.rule}', off by"
            f" {best.worst:.3g} at worst; measure again, or take the set as your own list."
        )
    return min(near, key=lambda fit: fit.rule != "equal")
