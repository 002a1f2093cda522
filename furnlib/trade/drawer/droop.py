"""How far an open drawer nods: its front falls until the rear upper corner meets the kicker.

The drawer turns about the front edge of its runner. It nods only where the weight lies in front of that
edge, and where too little is left inside for the room above it, the kicker does not hold it: it tips out.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from furnlib.base.angles import Value, sind
from furnlib.base.guards import require_between, require_positive
from furnlib.trade.drawer.play import held_turn_deg, least_inside, moved_across, turn_in_play_deg


def top_fall(pulled_out: Value, height: Value, angle_deg: Value) -> Value:
    """How far the upper corner at the front falls: e sin A + h (1 - cos A).

    Args:
        pulled_out: e, from the runner's front edge to the drawer's front, any length unit; number, array
            or symbol.
        height: h, of that corner over the runner when shut, in the same unit.
        angle_deg: A, of the drawer to level, degrees.

    Returns:
        The fall in the same unit.

    Source:
        Derived in `teach.derive.derive_droop`.

    Example:
        >>> round(top_fall(240.0, 80.0, 1.44), 2)
        6.06
    """
    return moved_across(pulled_out, angle_deg) + 2 * height * sind(angle_deg / 2) ** 2


def inside_at_fall(height: Value, play: Value, length: Value, fall: Value) -> Value:
    """What is still inside when the front falls by so much: L - f / sin A, with L sin A + h cos A = h + v + f.

    Added to what the kicker says, e sin A = f turns the length inside into the whole length L.

    Args:
        height: h, of the drawer's side, any length unit; number, array or symbol.
        play: v, between side and kicker, in the same unit.
        length: L, of the drawer from its front to its rear corner, in the same unit.
        fall: f, of the front's lower edge, above 0, in the same unit.

    Returns:
        The length inside, in the same unit; below 0 where it never falls so far.

    Source:
        Derived in `teach.derive.derive_droop`.

    Example:
        >>> round(inside_at_fall(80.0, 3.0, 360.0, 6.06))
        120
    """
    return length - fall / sind(turn_in_play_deg(height, play + fall, length))


@dataclass(frozen=True, eq=False)
class Droop:
    """How an open drawer hangs, lengths in the unit of the drawer.

    Args:
        angle_deg: of the drawer to level; not a number where it tips out.
        front_fall: of the front's lower edge; not a number where it tips out.
        top_fall: of its upper corner, as high as the side; not a number where it tips out.
        tips_out: True where the kicker does not hold it.
    """

    angle_deg: Value
    front_fall: Value
    top_fall: Value
    tips_out: Value


def droop(height: Value, play: Value, still_inside: Value, pulled_out: Value, balance: Value | None = None) -> Droop:
    """How far a drawer nods at any extension.

    Args:
        height: of its side, above 0, any length unit; number or array.
        play: between the side and what is above it, kicker or not, 0 or more, in the same unit;
            infinite where there is nothing.
        still_inside: from the runner's front edge to the rear corner, 0 or more, in the same unit.
        pulled_out: from that edge to the front, 0 or more, in the same unit.
        balance: how far behind the front the weight of drawer and load lies, in the same unit; left out,
            the front is pressed down by hand.

    Returns:
        The droop; level where the weight lies behind the runner's front edge.

    Raises:
        DesignError: when a size is not above 0, or the drawer is taller than its room.

    Source:
        Derived in `teach.derive.derive_droop`.

    Example:
        >>> nod = droop(80.0, 3.0, 120.0, 240.0)
        >>> round(nod.front_fall, 1), round(nod.top_fall, 1), nod.tips_out
        (6.1, 6.1, False)
        >>> round(droop(80.0, 40.0, 120.0, 240.0).front_fall)
        92
        >>> droop(80.0, 120.0, 120.0, 240.0).tips_out
        True
    """
    require_between("way out", pulled_out, 0, np.inf, "measure from shut", ends=True)
    if balance is not None:
        require_between("balance", balance, 0, np.inf, "measure from the front back", ends=True)
        play = np.where(np.asarray(balance) >= pulled_out, 0.0, play)
    angle, free = held_turn_deg(height, play, still_inside)
    return Droop(angle, moved_across(pulled_out, angle), top_fall(pulled_out, height, angle), free)


def inside_for_fall(height: Value, play: Value, length: Value, fall: Value) -> Value:
    """What must stay inside so that the front falls no further than wanted.

    Args:
        height: of the drawer's side, above 0, any length unit; number or array.
        play: between side and kicker, 0 or more, in the same unit.
        length: of the drawer from its front to its rear corner, above 0, in the same unit.
        fall: of the front's lower edge, above 0, in the same unit.

    Returns:
        The length inside, in the same unit; where it never falls so far, the length at which it tips out.

    Raises:
        DesignError: when a size is not above 0, or the drawer is taller than its room.

    Source:
        Derived in `teach.derive.derive_droop`.

    Example:
        >>> round(inside_for_fall(80.0, 3.0, 360.0, 4.0))
        155
    """
    require_positive("fall", fall)
    held_turn_deg(height, play, length)
    high, room, long, low = (np.asarray(value, dtype=float) for value in (height, play, length, fall))
    tips = least_inside(high, room)
    # where it tips, the drawer's lower edge stands at the sine m / (h + v)
    reached = low * (high + room) < (long - tips) * tips
    with np.errstate(invalid="ignore"):
        asked = inside_at_fall(high, np.where(reached, room, 0.0), long, np.where(reached, low, 0.0))
    inside: Value = np.where(reached, asked, tips)
    return inside if np.ndim(inside) else float(inside)
