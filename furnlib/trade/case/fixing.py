r"""A screw, dowel or tenon driven square to the frame into the top of a leaning leg.

Square to the frame is plumb, but the leg leans: the deeper the hole, the further the axis runs away
from it, outward along the sight line. On the other side the wood outside the hole grows thin, and at
a neck below the pad the hole may break through.

::

        ______________________  frame
           |      :\       |
            \     : \       \
             \    :  \       \          : the hole, plumb
              \   :   \       \         \ in the middle: the leg's axis
               \  :    \       \        1 wall left, square to the surface, less half the hole
                \1:  2  \       \       2 wander, level
                 \       \       \

Depths run plumb from the leg's level top cut. Beside each exact wall stands a *rule*: half the
section less wander less half the hole. It takes no cosine and is never above the wall. All this is
geometry; it says nothing about what a fixing carries. Clamp the leg to the drill table, never hold it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import reduce

import numpy as np

from furnlib.base.angles import Value, square_root
from furnlib.base.guards import DesignError, require_positive
from furnlib.trade.leg.lean import Lean, axis_stretch, tan_total_lean

_MORE_ROOM = "take a thinner one, a thicker leg or a smaller wall"


def hole_wander(hole_depth: Value, tan_total_lean: Value) -> Value:
    """Level distance from a plumb hole to the axis of the leg: d tan R, 0 at the top cut.

    Args:
        hole_depth: plumb, from the level top cut, any length unit; number, array or symbol.
        tan_total_lean: tangent of the total lean; number, array or symbol.

    Returns:
        The wander, in the unit of the depth.

    Source:
        Derived in `teach.derive.derive_fixing`.

    Example:
        >>> hole_wander(60.0, 0.125)
        7.5
    """
    return hole_depth * tan_total_lean


def wall_left(section: Value, hole_diameter: Value, wander: Value, tan_total_lean: Value, aim: Value) -> Value:
    """Wall between a plumb hole and the surface of the leg: w/2 - m a cos R - (D/2) sqrt(1 - a² sin² R).

    To a face of a square leg, with wander m = d tan R and aim a = p / tan R, this is
    w/2 - d sin t - (D/2) cos t, where sin t = p cos R is the sine of the face's tilt from plumb. To
    the surface of a round leg, with aim 1, it is w/2 - d sin R - (D/2) cos R, from the depth
    (D/2) tan R on; above that see `wall_beside`.

    Args:
        section: side of a square leg or diameter of a round one, any length unit; number, array or symbol.
        hole_diameter: in the same unit; number, array or symbol.
        wander: level distance between hole and axis, in the same unit.
        tan_total_lean: tangent of the total lean; number, array or symbol.
        aim: how squarely the lean points at the face, from 0 to 1: its slope over the lean's tangent.

    Returns:
        The wall, square to the surface; below 0 by as much as the hole comes out.

    Source:
        Derived in `teach.derive.derive_fixing`.

    Example:
        >>> wall_left(48.0, 10.0, 15.0, 0.75, 1.0)
        8.0
    """
    stretch = axis_stretch(tan_total_lean, 0)
    sin_tilt = aim * tan_total_lean / stretch
    return section / 2 - wander * aim / stretch - hole_diameter / 2 * square_root(1 - sin_tilt * sin_tilt)


def wall_beside(section: Value, hole_diameter: Value, hole_depth: Value) -> Value:
    """Wall beside a plumb hole in a round leg, close below the top: w/2 - sqrt((D/2)² + d²).

    Above the depth (D/2) tan R the hole is wider than it has wandered, and the thinnest wall is not
    in the plane of the lean but to either side of it.

    Args:
        section: diameter of the leg, square to its axis, any length unit; number, array or symbol.
        hole_diameter: in the same unit; number, array or symbol.
        hole_depth: plumb, from the level top cut, in the same unit.

    Returns:
        The wall, square to the surface.

    Source:
        Derived in `teach.derive.derive_fixing`.

    Example:
        >>> wall_beside(48.0, 8.0, 3.0)
        19.0
    """
    return section / 2 - square_root(hole_diameter * hole_diameter / 4 + hole_depth * hole_depth)


def wall_by_rule(section: Value, hole_diameter: Value, wander: Value) -> Value:
    """The shop's rule for the wall left, on the safe side: half the section less wander less half the hole.

    Args:
        section: side of a square leg or diameter of a round one, any length unit; number, array or symbol.
        hole_diameter: in the same unit; number, array or symbol.
        wander: level distance between hole and axis, in the same unit.

    Returns:
        The wall, never above the exact one.

    Source:
        Common practice, no source; bounded by the exact wall in `tests/unit/test_fixing.py`.

    Example:
        >>> wall_by_rule(48.0, 8.0, 10.5)
        9.5
    """
    return section / 2 - wander - hole_diameter / 2


@dataclass(frozen=True, eq=False)
class Fixing:
    """What a plumb screw leaves of a leaning leg, in the unit of the leg.

    Args:
        wander: level distance from the screw's tip to the axis; the screw stands on the inner side.
        wall_front: wall left at the tip to the nearer of front and back face; of a round leg, the wall.
        wall_side: the same to the nearer side face.
        wall_neck: wall left at the tip to the neck, infinite where the screw ends above it.
        wall: the least of the three; below 0 by as much as the screw comes out.
        wall_by_rule: the same by the shop's rule, at the neck too where the screw reaches it.
        breakout: depth at which the screw would come out, infinite in an upright leg.
        deepest: depth down to which the wanted wall is left, infinite in an upright leg.
    """

    wander: Value
    wall_front: Value
    wall_side: Value
    wall_neck: Value
    wall: Value
    wall_by_rule: Value
    breakout: Value
    deepest: Value


@dataclass(frozen=True, eq=False)
class LocationPin:
    """Where a second, plumb pin stands that keeps a leg from turning about its screw.

    Args:
        pin_offset: level distance from the screw, outward along the sight line (fore and aft of a
            plumb leg), in the unit of the leg.
        play: how far the pin may be moved in all, along that line, and leave the wanted walls, in the same unit.
        wall: the least wall round the pin, the one to the outside at the top cut, in the same unit.
    """

    pin_offset: Value
    play: Value
    wall: Value


def screw_fixing(
    lean: Lean,
    section: Value,
    screw_depth: Value,
    screw_diameter: Value,
    least_wall: Value,
    *,
    slopes: tuple[Value, Value] | None = None,
    is_round: bool = False,
    neck: tuple[Value, Value] | None = None,
    height: Value | None = None,
) -> Fixing:
    """Wander of a plumb screw in a leaning leg, the walls it leaves and how deep it may go.

    Wander d tan R; wall to a face w/2 - d sin t - (D/2) cos t with sin t = p cos R; to a round leg
    w/2 - d sin R - (D/2) cos R (close below the top `wall_beside`). A neck counts from where the axis
    is level with it, s cos R deep: the wood just above it is hardly thicker.

    Args:
        lean: the leg's direction; numbers or arrays.
        section: side of the square section or diameter of the round one, square to the axis, above 0,
            any length unit.
        screw_depth: of the screw, dowel or round tenon in the leg, plumb from the level top cut at
            the axis, above 0, in the same unit.
        screw_diameter: of the hole it stands in, above 0 and below the section, in the same unit.
        least_wall: the wall wanted all round, above 0, in the same unit.
        slopes: fore and aft and sideways, tangents of the mitres on side and front face; left out,
            the leg is leaned without twist and they are the tangents of rake and splay.
        is_round: True for a round leg.
        neck: how far below the top along the axis, and diameter there, in the same unit.
        height: of the leg, where it is known, to refuse a screw that is longer, in the same unit.

    Returns:
        The fixing; arrays where an argument is an array.

    Raises:
        DesignError: when a size is not above 0, the screw is as long or as thick as the leg, the
            slopes are not those of the lean, or no screw of that diameter leaves the wanted wall.

    Source:
        Derived in `teach.derive.derive_fixing`.

    Example:
        >>> leg = Lean.from_rake_splay(8.0, 6.0)
        >>> fixing = screw_fixing(leg, 48.0, 60.0, 8.0, 8.0, neck=(60.0, 26.0))
        >>> fixing.wander, fixing.wall_front, fixing.wall_side, fixing.wall_neck
        (10.5, 11.7, 13.8, -1.3)
    """
    _require_sizes("screw", section, screw_depth, screw_diameter, least_wall)
    if height is not None:
        require_positive("height of the leg", height)
        if np.any(np.asarray(screw_depth) >= height):
            raise DesignError(
                f"The screw goes {screw_depth} deep into a leg {height} high; it must end inside: take a shorter screw."
            )
    leg = _leg(lean, section, slopes, is_round)
    wander = hole_wander(screw_depth, leg.tan_total_lean)
    front, side = leg.walls(screw_diameter, wander)
    rule = wall_by_rule(section, screw_diameter, wander)
    breakout, deepest = (leg.deepest(screw_diameter, wall) for wall in (0.0, least_wall))
    narrow: Value = np.inf
    if neck is not None:
        station, diameter = neck
        require_positive("distance from the top to the neck", station)
        require_positive("diameter of the neck", diameter)
        thin, level = replace(leg, section=diameter, is_round=True, aims=(1.0, 1.0)), station / leg.stretch
        reached = screw_depth > level
        narrow = np.where(reached, thin.walls(screw_diameter, wander)[0], np.inf)
        rule = _least(rule, np.where(reached, wall_by_rule(diameter, screw_diameter, wander), np.inf))
        breakout, deepest = (
            _least(depth, np.maximum(level, thin.deepest(screw_diameter, wall)))
            for depth, wall in ((breakout, 0.0), (deepest, least_wall))
        )
    _require_room("screw", screw_diameter, least_wall, section, deepest)
    sizes = (wander, front, side, narrow, _least(front, side, narrow), rule, breakout, deepest)
    return Fixing(*(_plain(size) for size in sizes))


def location_pin(
    lean: Lean,
    section: Value,
    screw_diameter: Value,
    pin_depth: Value,
    pin_diameter: Value,
    least_wall: Value,
    *,
    slopes: tuple[Value, Value] | None = None,
    is_round: bool = False,
) -> LocationPin:
    """Place a plumb pin beside the screw, outward on the sight line, midway in the room it has.

    Pin and screw are parallel, so the wood between them is the same at every depth. Inward the pin
    may come as near as the wanted wall to the screw, or to the inner surface at its tip; outward as
    far as leaves that wall to the outer surface at the top cut.

    Args:
        lean: the leg's direction; numbers or arrays.
        section: side of the square section or diameter of the round one, square to the axis, above 0,
            any length unit.
        screw_diameter: of the screw's hole at the axis, above 0, in the same unit.
        pin_depth: plumb from the level top cut, above 0 and above any neck, in the same unit.
        pin_diameter: of the pin, above 0, in the same unit.
        least_wall: the wall wanted all round, above 0, in the same unit.
        slopes: tangents, as for `screw_fixing`; left out, the leg is leaned without twist.
        is_round: True for a round leg.

    Returns:
        The pin's place; arrays where an argument is an array.

    Raises:
        DesignError: when a size is not above 0, the slopes are not those of the lean, or there is no
            room for the pin.

    Source:
        Derived in `teach.derive.derive_fixing`.

    Example:
        >>> pin = location_pin(Lean.from_rake_splay(8.0, 6.0), 48.0, 8.0, 20.0, 6.0, 5.0)
        >>> pin.pin_offset, pin.play
        (16.2, 8.4)
    """
    require_positive("screw diameter", screw_diameter)
    _require_sizes("pin", section, pin_depth, pin_diameter, least_wall)
    leg = _leg(lean, section, slopes, is_round)
    farthest = leg.reach(pin_diameter, least_wall)
    _require_room("pin", pin_diameter, least_wall, section, farthest)
    wander, between = hole_wander(pin_depth, leg.tan_total_lean), (screw_diameter + pin_diameter) / 2
    nearest = np.maximum(between + least_wall, wander - farthest)
    play = farthest - nearest
    if np.any(play < 0):
        raise DesignError(
            f"A pin {pin_diameter} thick has no room beside a screw {screw_diameter} thick in a leg of"
            f" {_short(section)}: with walls of {least_wall} they need {-np.min(play):.3g} more; {_MORE_ROOM}."
        )
    offset = (nearest + farthest) / 2
    # moved by a step the walls at mouth and tip change by a step at most: midway the one at the mouth is the least
    return LocationPin(_plain(offset), _plain(play), _plain(_least(*leg.walls(pin_diameter, offset))))


@dataclass(frozen=True)
class _Leg:
    """A leg as a plumb hole meets it; a round one is a square one whose every face is aimed at."""

    section: Value
    tan_total_lean: Value
    aims: tuple[Value, Value]
    is_round: bool

    @property
    def stretch(self) -> Value:
        return axis_stretch(self.tan_total_lean, 0)

    def _turn(self, diameter: Value) -> Value:
        """Wander from which on the thinnest wall of a round leg lies in the plane of the lean."""
        return diameter / 2 * self.tan_total_lean * self.tan_total_lean

    def walls(self, diameter: Value, wander: Value) -> tuple[Value, Value]:
        front, side = (wall_left(self.section, diameter, wander, self.tan_total_lean, aim) for aim in self.aims)
        if self.is_round:
            beside = wall_beside(self.section, np.asarray(diameter), _over(wander, self.tan_total_lean))
            front = side = np.where(wander < self._turn(diameter), beside, front)
        return front, side

    def reach(self, diameter: Value, wall: Value) -> Value:
        """The most wander that leaves a wall on every side; minus infinity where none does."""
        if self.is_round:
            left, half = self.section / 2 - wall, diameter / 2
            beside = self.tan_total_lean * square_root(np.maximum(left * left - half * half, 0.0))
            reach = left * self.stretch - half
            return np.where(left < half, -np.inf, np.where(reach < self._turn(diameter), beside, reach))
        at_the_top = zip(self.walls(diameter, 0.0), self.aims, strict=True)
        return _least(*(_over((room - wall) * self.stretch, aim) for room, aim in at_the_top))

    def deepest(self, diameter: Value, wall: Value) -> Value:
        return _over(self.reach(diameter, wall), self.tan_total_lean)


def _leg(lean: Lean, section: Value, slopes: tuple[Value, Value] | None, is_round: bool) -> _Leg:
    fore_aft, sideways = slopes or (lean.tan_rake, lean.tan_splay)
    total = tan_total_lean(lean.tan_rake, lean.tan_splay)
    if not np.allclose(tan_total_lean(fore_aft, sideways), total, rtol=1e-6, atol=1e-9):
        raise DesignError(
            f"The slopes {fore_aft} and {sideways} are not those of a leg with a total lean of {lean.total_lean_deg};"
            " their squares add up to the square of its tangent: take them from the leg's end cuts."
        )
    plumb = np.asarray(total) == 0
    some = np.where(plumb, 1.0, total)
    aims = (1.0, 1.0) if is_round else (np.where(plumb, 1.0, abs(fore_aft) / some), abs(sideways) / some)
    return _Leg(section, total, aims, is_round)


def _require_sizes(name: str, section: Value, depth: Value, diameter: Value, wall: Value) -> None:
    sizes = (("thickness of the leg", section), (f"{name} depth", depth), (f"{name} diameter", diameter))
    for what, size in (*sizes, ("least wall", wall)):
        require_positive(what, size)


def _require_room(name: str, diameter: Value, wall: Value, section: Value, room: Value) -> None:
    if np.any(np.asarray(room) <= 0):
        raise DesignError(
            f"A {name} {diameter} thick, however short, does not leave a wall of {wall} in a leg of {_short(section)};"
            f" {_MORE_ROOM}."
        )


def _short(length: Value) -> Value:
    """A length as a sentence shows it."""
    return length if np.ndim(length) else f"{float(length):.6g}"


def _over(room: Value, share: Value) -> Value:
    """How often a share goes into the room; where nothing is taken from it, for ever or never."""
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        return np.where(np.asarray(share) > 0, np.divide(room, share), np.where(np.asarray(room) < 0, -np.inf, np.inf))


def _least(*values: Value) -> Value:
    return reduce(np.minimum, values)


def _plain(value: Value) -> Value:
    return value if np.ndim(value) else float(value)
