"""The gap over a drawer's side or front: today, in the room at its dampest, and at its driest.

Only the height of a drawer moves, for its grain runs along it; the opening stays, for a case side's
grain runs up and down. So a tall drawer wants a larger gap than a low one, and none wants more at its
sides. Paint stands on the lower edge and on the upper one: its film counts twice.

To settle a size, take the dampest first: that is `size_for_gap`. The same with the widest gap that the
eye accepts and the stretch at the driest gives the least size; where that is the larger of the two, no
size serves all year, and quartered wood or a lower front is the cure.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, all_hold, require_between, require_positive


def size_for_gap(opening: Value, below: Value, least_gap: Value, film: Value, stretch: Value) -> Value:
    """Height today of the side or front that leaves a wanted gap in a season: (O - b - g - 2 f) / s.

    Args:
        opening: O, clear height of the row, any length unit; number, array or symbol.
        below: b, what the lower edge stands above the runner, 0 for a side, in the same unit.
        least_gap: g, wanted over it in that season, in the same unit.
        film: f, thickness of the paint on one edge, 0 where there is none, in the same unit.
        stretch: s, its height in that season over its height today, a plain number.

    Returns:
        The height of the bare wood today, in the same unit.

    Source:
        Derived in `teach.derive.derive_gaps`.

    Example:
        >>> round(size_for_gap(203.0, 1.5, 1.0, 0.0, 1.00992), 1)
        198.5
    """
    return (opening - below - least_gap - 2 * film) / stretch


def gap_at(opening: Value, below: Value, size: Value, film: Value, stretch: Value) -> Value:
    """Gap over a side or front in a season: O - b - 2 f - h s.

    Arrays broadcast: eight drawers in a column against a row of 8,760 hourly stretches are one call.

    Args:
        opening: O, clear height of the row, any length unit; number, array or symbol.
        below: b, what the lower edge stands above the runner, in the same unit.
        size: h, height of the bare wood today, in the same unit.
        film: f, thickness of the paint on one edge, in the same unit.
        stretch: s, its height in that season over its height today, a plain number.

    Returns:
        The gap in the same unit; below 0 where it binds, by as much as it is too tall.

    Source:
        Derived in `teach.derive.derive_gaps`.

    Example:
        >>> round(gap_at(203.0, 0.0, 200.0, 0.0, 1.00556), 2)
        1.89
    """
    return opening - below - 2 * film - size * stretch


def gap_to_leave(least_gap: Value, growth: Value) -> Value:
    """Gap to leave today for a least one at the dampest: g + what it grows, and never less than g.

    Args:
        least_gap: g, wanted at the dampest, any length unit; number, array or symbol.
        growth: of the height from today to the dampest, in the same unit; below 0 where today is damper.

    Returns:
        The gap in the same unit.

    Source:
        Derived in `teach.derive.derive_gaps`.

    Example:
        >>> gap_to_leave(0.5, 2.0), gap_to_leave(0.5, -1.0)
        (2.5, 0.5)
    """
    return least_gap + (growth + abs(growth)) / 2


def back_room(depth: Value, share: Value, least: Value) -> Value:
    """Room to leave behind a drawer: D s + least, so that a case that shrinks does not push its front out.

    Args:
        depth: D, of the case across its grain, any length unit; number, array or symbol.
        share: s, of its depth that the case loses from today to its driest, a plain number.
        least: what must be left then, in the unit of the depth; 5 mm by common practice.

    Returns:
        The room in the same unit.

    Source:
        Common practice, no source.

    Example:
        >>> round(back_room(380.0, 0.00248, 5.0), 1)
        5.9
    """
    return depth * share + least


@dataclass(frozen=True, eq=False)
class SeasonGaps:
    """The gap over a side or front through the year, in the unit of the opening.

    Args:
        now: in the shop today.
        damp: in the room at its dampest; below 0 it binds then.
        dry: in the room at its driest.
    """

    now: Value
    damp: Value
    dry: Value

    @property
    def binds(self) -> Value:
        """True where the drawer is taller than its opening at the dampest."""
        return self.damp < 0


def season_gaps(
    opening: Value, below: Value, size: Value, film: Value, stretch_damp: Value, stretch_dry: Value
) -> SeasonGaps:
    """Gap over a side or front today, at the dampest and at the driest.

    Args:
        opening: clear height of the row, above 0, any length unit; number or array.
        below: what the lower edge stands above the runner, 0 or more, in the same unit.
        size: height of the bare wood today, above 0, in the same unit.
        film: thickness of the paint on one edge, 0 or more, in the same unit.
        stretch_damp: height at the dampest over height today, above 0, a plain number.
        stretch_dry: height at the driest over height today, above 0, a plain number.

    Returns:
        The three gaps; arrays where an argument is one.

    Raises:
        DesignError: when a size is not above 0, the drawer does not go into its opening today, or the
            dampest is drier than the driest.

    Source:
        Derived in `teach.derive.derive_gaps`.

    Example:
        >>> gaps = season_gaps(203.0, 0.0, 200.0, 0.0, 1.00556, 0.99861)
        >>> round(gaps.now, 1), round(gaps.damp, 1), round(gaps.dry, 1), gaps.binds
        (3.0, 1.9, 3.3, False)
    """
    sizes = ("opening", opening), ("height of the drawer", size)
    for name, value in (*sizes, ("stretch at the dampest", stretch_damp), ("stretch at the driest", stretch_dry)):
        require_positive(name, value)
    for name, value in (("gap below", below), ("paint film", film)):
        require_between(name, value, 0, np.inf, "give 0 where there is none", ends=True)
    if not all_hold(stretch_damp >= stretch_dry):
        raise DesignError(
            f"The wood is {stretch_damp} of its size at the dampest and {stretch_dry} at the driest; change them over."
        )
    now, damp, dry = (gap_at(opening, below, size, film, stretch) for stretch in (1.0, stretch_damp, stretch_dry))
    # a float's last digits keep no drawer out
    if not all_hold(now >= -1e-9 * opening):
        raise DesignError(
            f"The drawer is {-np.min(now):.3g} too tall for its opening today and will not go in; take it down."
        )
    return SeasonGaps(now, damp, dry)
