"""The search behind `close_on_grid`: whole steps, exact sum, steps that never shrink.

A state is the last two openings; with at most three choices a row there are at most nine. Which
sums each state can reach is one whole number used as a set of bits, so trying a bound on the
worst change costs a few hundred shifts, and bisection over the bounds that occur finds the least.
Only then are squared changes weighed, with arrays over the sums. All arithmetic is in whole
numbers: the same input gives the same answer on every machine.
"""

from __future__ import annotations

from bisect import bisect_left

import numpy as np
from numpy.typing import NDArray

_NEVER = np.int64(1) << 62

State = tuple[int, int]
Costs = NDArray[np.int64]
Choices = list[list[int]]


def _choices(units: list[int], one: int, bound: int) -> Choices:
    """For each row the whole steps, 1 or more, whose change from the ideal is within the bound."""
    return [[k for k in range(max(u // one - 1, 1), u // one + 2) if abs(k * one - u) <= bound] for u in units]


def _least_after(state: State) -> int:
    """The least opening that keeps the order, with a step no smaller than the one before it."""
    last_but_one, last = state
    return last if last_but_one < 0 else 2 * last - last_but_one


def _reachable(rows: Choices, total: int) -> bool:
    """Tell whether some allowed set adds up to the total."""
    left = total - sum(min(row, default=total + 1) for row in rows)
    if left < 0:
        return False
    # sums are counted from the least choice of each row, so that they stay short however tall the openings
    states: dict[State, int] = {(-1, k): 1 << k - min(rows[0]) for k in rows[0]}
    for row in rows[1:]:
        after: dict[State, int] = {}
        base = min(row, default=0)
        for state, sums in states.items():
            least = _least_after(state)
            for k in row:
                if k >= least:
                    new = (state[1], k)
                    after[new] = after.get(new, 0) | sums << k - base
        states = after
    return any(sums >> left & 1 for sums in states.values())


def best_steps(units: list[int], total: int, one: int) -> list[int] | None:
    """Find the best whole steps, or None where no set has steps that never shrink.

    Args:
        units: ideal openings in parts of a grid step, smaller end first.
        total: what the whole steps add up to.
        one: how many parts make a grid step.

    Returns:
        The steps, smaller end first: least worst change, then least sum of squared changes, then
        more to the later openings.

    Example:
        >>> best_steps([14, 26], 4, 10)
        [1, 3]
    """
    bounds = sorted({abs(k * one - u) for u in units for k in (u // one, u // one + 1)})
    if not _reachable(_choices(units, one, bounds[-1]), total):
        return None
    least = bisect_left(bounds, True, key=lambda bound: _reachable(_choices(units, one, bound), total))
    return _least_squares(_choices(units, one, bounds[least]), units, total, one)


def _least_squares(rows: Choices, units: list[int], total: int, one: int) -> list[int]:
    """Weigh the sets that are left by their squared changes, then walk the best one back."""
    base = [min(row) for row in rows]
    width = total - sum(base) + 1

    def cost(row: int, k: int) -> int:
        # (k - u)² less what every choice of the row has in common, in parts of a step
        x, rest = k - base[row], units[row] - base[row] * one
        return x * x * one - 2 * x * rest

    def moved(costs: Costs, row: int, k: int) -> Costs:
        x = k - base[row]
        out = np.full(width, _NEVER)
        if x < width:
            out[x:] = costs[: width - x] + cost(row, k)
        return out

    nothing = np.full(width, _NEVER)
    nothing[0] = 0
    layers: list[dict[State, Costs]] = [{(-1, k): moved(nothing, 0, k) for k in rows[0]}]
    for row in range(1, len(rows)):
        after: dict[State, Costs] = {}
        for state, costs in layers[-1].items():
            for k in rows[row]:
                if k >= _least_after(state):
                    new, weighed = (state[1], k), moved(costs, row, k)
                    after[new] = np.minimum(after[new], weighed) if new in after else weighed
        layers.append(after)

    left, best = width - 1, min(int(costs[-1]) for costs in layers[-1].values())
    last = max(state[::-1] for state, costs in layers[-1].items() if costs[left] == best)
    state = last[::-1]
    steps = [state[1]]
    for row in range(len(rows) - 1, 0, -1):
        best -= cost(row, state[1])
        left -= state[1] - base[row]
        # among equals the later opening is the larger: it was settled first
        earlier = (
            before
            for before, costs in layers[row - 1].items()
            if before[1] == state[0] and costs[left] == best and state[1] >= _least_after(before)
        )
        state = max(earlier)
        steps.append(state[1])
    return steps[::-1]
