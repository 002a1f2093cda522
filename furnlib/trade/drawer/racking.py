"""Racking and jamming: how crooked a drawer runs in its sideways play, and when a pull off the middle binds it.

A drawer that is pulled off its middle bears on two places: the front edge of the guide on one side and
its own rear corner on the other. What is still inside is the arm between them; the shorter it is, the
harder both press. Wax lowers the friction; it does not lengthen the arm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, require_between, require_positive
from furnlib.trade.drawer.play import held_turn_deg, moved_across

WOOD_ON_WOOD: tuple[float, float] = (0.25, 0.5)
"""Least and most static friction of wood on wood: table of an open textbook on statics (adaptivebooks, chapter
Friction), read. Wax brings it down; a shop that has pulled its own drawers by a spring balance knows better."""


def lead_in_chamfer(play: Value, length: Value, skew_deg: Value) -> Value:
    """Chamfer at the rear corners so that a drawer goes in when it is held askew: play + L sin B.

    Args:
        play: sideways, both sides together, any length unit; number, array or symbol.
        length: L, of the drawer's side, in the same unit.
        skew_deg: B, by which it is turned, degrees.

    Returns:
        The least chamfer in the same unit.

    Source:
        Common practice, no source.

    Example:
        >>> round(lead_in_chamfer(1.0, 354.0, 0.5), 1)
        4.1
    """
    return play + moved_across(length, skew_deg)


def inside_to_slide(pull_offset: Value, friction: Value) -> Value:
    """What must still be inside so that a pull off the middle does not bind: 2 mu a.

    Args:
        pull_offset: a, of the pull from the drawer's middle line, any length unit; number, array or symbol.
        friction: mu, static, of drawer on guide, a plain number.

    Returns:
        The length in the same unit.

    Source:
        Derived in `teach.derive.derive_racking`.

    Example:
        >>> inside_to_slide(125.0, 0.4)
        100.0
    """
    return 2 * friction * pull_offset


def inside_to_lock(width: Value, friction: Value) -> Value:
    """Length inside below which a drawer that is racked already can stay locked: mu w.

    Above it no straight pull within the drawer's width binds, wherever the hand takes hold.

    Args:
        width: w, of the drawer, any length unit; number, array or symbol.
        friction: mu, static, of drawer on guide, a plain number.

    Returns:
        The length in the same unit.

    Source:
        Derived in `teach.derive.derive_racking`.

    Example:
        >>> inside_to_lock(480.0, 0.25)
        120.0
    """
    return friction * width


def pull_needed(drag_n: Value, pull_offset: Value, still_inside: Value, friction: Value) -> Value:
    """Pull that moves a drawer from a place off its middle: R / (1 - 2 mu a / m).

    Args:
        drag_n: R, what it takes to move the drawer by its middle, N; number, array or symbol.
        pull_offset: a, of the pull from the drawer's middle line, any length unit.
        still_inside: m, from the guide's front edge to the rear corner, more than 2 mu a, in the same unit.
        friction: mu, static, of drawer on guide, a plain number.

    Returns:
        The pull in N; below 0 where less than 2 mu a is inside, and no pull moves it.

    Source:
        Derived in `teach.derive.derive_racking`.

    Example:
        >>> pull_needed(10.0, 100.0, 160.0, 0.4)
        20.0
    """
    return drag_n / (1 - 2 * friction * pull_offset / still_inside)


@dataclass(frozen=True, eq=False)
class Racking:
    """How a drawer stands in its sideways play, lengths in the unit of the drawer.

    Args:
        skew_deg: by which it turns; not a number where nothing stops it.
        lead: of one front corner over the other; not a number where nothing stops it.
        chamfer: the least at the rear corners; not a number where nothing stops it.
        turns_free: True where so little is inside that the guides do not hold it.
    """

    skew_deg: Value
    lead: Value
    chamfer: Value
    turns_free: Value


def racking(width: Value, play: Value, still_inside: Value, length: Value) -> Racking:
    """How crooked a drawer can run at any extension.

    Args:
        width: of the drawer, above 0, any length unit; number or array.
        play: sideways, the width between the guides less the drawer's, both sides together, 0 or more,
            in the same unit.
        still_inside: along the side that bears on the guide's front edge, from there to its rear corner,
            0 or more, in the same unit.
        length: of the drawer's side, above 0, in the same unit.

    Returns:
        The racking; arrays where an argument is an array.

    Raises:
        DesignError: when a size is not above 0, or the drawer is wider than its room.

    Source:
        Derived in `teach.derive.derive_racking`.

    Example:
        >>> askew = racking(478.0, 2.0, 118.0, 354.0)
        >>> round(askew.skew_deg, 2), round(askew.lead, 1), askew.turns_free
        (1.01, 8.4, False)
    """
    require_positive("length of the side", length)
    skew, free = held_turn_deg(width, play, still_inside)
    return Racking(skew, moved_across(width, skew), lead_in_chamfer(play, length, skew), free)


@dataclass(frozen=True)
class Jam:
    """What must still be inside so that a drawer does not bind, in the unit of the drawer.

    Args:
        one_pull: when only one pull is pulled, the one furthest off the middle.
        pulled_alike: when all its pulls are pulled alike; 0 where they stand evenly about the middle.
        locked_below: with less inside, a drawer that is racked already can stay locked.
    """

    one_pull: float
    pulled_alike: float
    locked_below: float


def jam(width: float, pull_offsets: Iterable[float], friction: float) -> Jam:
    """Where a drawer binds: from one pull, from all of them alike, and where it can stay locked.

    Args:
        width: of the drawer, above 0, any length unit.
        pull_offsets: of each pull from the middle line, to the right above 0, in the same unit.
        friction: static, of drawer on guide, above 0, a plain number.

    Returns:
        The three lengths.

    Raises:
        DesignError: when there is no pull, one stands beside the front, or a number is not above 0.

    Source:
        Derived in `teach.derive.derive_racking`.

    Example:
        >>> jam(480.0, [-124.5, 124.5], 0.5)
        Jam(one_pull=124.5, pulled_alike=0.0, locked_below=240.0)
    """
    require_positive("width of the drawer", width)
    require_positive("friction", friction, "give drag over force, about 0.25 to 0.5 for wood on wood")
    offsets = list(pull_offsets)
    if not offsets:
        raise DesignError("No pull is given; give its distance from the middle of the front, 0 for one in the middle.")
    half, cure = float(width) / 2, "it stands beside the front; move it in"
    for offset in offsets:
        require_between("distance of a pull from the middle", offset, -half, half, cure, ends=True)
    mu, offsets = float(friction), [float(offset) for offset in offsets]
    return Jam(
        inside_to_slide(max(abs(offset) for offset in offsets), mu),
        inside_to_slide(abs(sum(offsets) / len(offsets)), mu),
        inside_to_lock(float(width), mu),
    )
