"""How far a drawer turns in its play: nodding between runner and kicker, or racking between its guides.

Both are one shape: a rectangle bears on an edge, is turned until its far corner meets the line opposite,
and that line is further off than the rectangle is high by the play.
"""

from __future__ import annotations

import math

import numpy as np

from furnlib.base.angles import Value, atand, sind, square_root
from furnlib.base.guards import DesignError, all_hold, require_between, require_positive


def least_inside(size: Value, play: Value) -> Value:
    """Length inside below which nothing stops a drawer from turning out of its opening: √(v (2 h + v)).

    Args:
        size: h, of the drawer across the play: its height or its width, any length unit; number, array
            or symbol.
        play: v, the opening's size less the drawer's, in the same unit.

    Returns:
        The length, in the same unit.

    Source:
        Derived in `teach.derive.derive_droop`.

    Example:
        >>> least_inside(80.0, 20.0)
        60.0
    """
    return square_root(play * (2 * size + play))


def turn_in_play_deg(size: Value, play: Value, still_inside: Value) -> Value:
    """Angle by which a drawer turns until it fills its play: 2 atan(v / (m + √(m² - v (2 h + v)))).

    It is the least positive root of m sin A + h cos A = h + v, written so that it loses no digits when
    the play is small.

    Args:
        size: h, of the drawer across the play: its height or its width, any length unit; number, array
            or symbol.
        play: v, the opening's size less the drawer's, in the same unit.
        still_inside: m, along the side that bears, from the edge it bears on to its rear corner, no less
            than `least_inside`, in the same unit.

    Returns:
        The angle in degrees.

    Source:
        Derived in `teach.derive.derive_droop`.

    Example:
        >>> round(turn_in_play_deg(80.0, 3.0, 120.0), 2)
        1.44
    """
    return 2 * atand(play / (still_inside + square_root(still_inside * still_inside - play * (2 * size + play))))


def moved_across(length: Value, angle_deg: Value) -> Value:
    """How far the end of a drawer moves across when the drawer turns: L sin A.

    So falls a front, so leads one front corner the other, and so far aside goes a rear corner.

    Args:
        length: L, from the place it turns about, any length unit; number, array or symbol.
        angle_deg: A, by which it turns, degrees.

    Returns:
        The distance, in the same unit.

    Source:
        Derived in `teach.derive.derive_droop`.

    Example:
        >>> moved_across(240.0, 30.0)
        120.0
    """
    return length * sind(angle_deg)


def held_turn_deg(size: Value, play: Value, still_inside: Value) -> tuple[Value, Value]:
    """Angle by which a drawer turns in its play, and where nothing stops it.

    Args:
        size: of the drawer across the play, above 0, any length unit; number or array.
        play: the opening's size less the drawer's, 0 or more, in the same unit; infinite where there is
            nothing opposite.
        still_inside: along the side that bears, to its rear corner, 0 or more, in the same unit.

    Returns:
        The angle in degrees, not a number where it turns free; and True where it does.

    Raises:
        DesignError: when a size is not above 0, or the drawer is larger than its opening.

    Source:
        Derived in `teach.derive.derive_droop`.

    Example:
        >>> held_turn_deg(80.0, 120.0, 100.0)
        (nan, True)
    """
    require_positive("size of the drawer", size)
    require_between("length inside", still_inside, 0, np.inf, "measure back to the rear corner", ends=True)
    if not all_hold(play >= -1e-9 * size):  # a float's last digits keep no drawer out
        raise DesignError(f"The play of the drawer is {play}; it must be 0 or more: it will not go in, so plane it.")
    if isinstance(size, float) and isinstance(play, float) and isinstance(still_inside, float):  # a drawer on a slider
        if play * (2 * size + play) >= still_inside * still_inside:
            return math.nan, True
        return turn_in_play_deg(size, play, still_inside), False
    across, room, along = (np.asarray(value, dtype=float) for value in (size, play, still_inside))
    free = room * (2 * across + room) >= along * along
    angle = np.where(free, np.nan, turn_in_play_deg(across, np.where(free, 0.0, room), np.where(free, 1.0, along)))
    return (angle, free) if np.ndim(angle) else (float(angle), bool(free))
