"""A leg under a seat: what to set at the drill, and how long the leg is.

A seat that is pitched back is turned about the side-to-side line so that its back edge is the lower
one. At the drill all is measured from the seat: its own square line, its own surface. A leg's outward
direction there is the front (front leg) or the back (back leg) along the seat. Drilled from above or
from below the angles are the same, with the hand turned over.

Two leans must not be mixed up: inside the seat the drilling lean counts, from the seat to the floor
the lean in the room.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np

from furnlib.base.angles import Value, asind, atand, cosd, sind, slope_in_plane
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive
from furnlib.trade.leg.lean import Lean

End = Literal["front", "rear"]
_STEEPEST = "a seat that steep is no seat; pitch it less"
_ROUNDING = 1e-9
"""Degrees. A rake of 90 that rounding brought a hair below it is still 90."""


def tan_pitched(tan_rake: Value, tan_splay: Value, sin_pitch: Value, cos_pitch: Value) -> tuple[Value, Value]:
    """Tangents of rake and splay as a plane sees them that is pitched: r' = r - p, tan s' = tan s cos r / cos r'.

    The leg goes (tan r, tan s) out for one down. Turned by p that is tan r cos p - sin p out and
    cos p + tan r sin p down, and as far sideways as before.

    Args:
        tan_rake: tangent of the rake; number, array or symbol.
        tan_splay: tangent of the splay; number, array or symbol.
        sin_pitch: sine of the pitch, above 0 where the plane falls away behind a front leg.
        cos_pitch: cosine of the pitch; number, array or symbol.

    Returns:
        Tangents of drill rake and drill splay.

    Source:
        Derived in `teach.derive.derive_seat`.

    Example:
        >>> tan_pitched(0.0, 0.5, 0.6, 0.8)
        (-0.75, 0.625)
    """
    down = cos_pitch + tan_rake * sin_pitch
    return (tan_rake * cos_pitch - sin_pitch) / down, tan_splay / down


def lean_in_seat(lean: Lean, pitch_deg: Value, end: End) -> Lean:
    """The lean to drill: measured from the seat's surface and its square line.

    Args:
        lean: the leg's direction in the room.
        pitch_deg: of the seat, back edge lower above 0, degrees between -60 and 60.
        end: "front" or "rear", the end of the seat that the leg stands at.

    Returns:
        The drilling lean: its rake, splay, total lean and sight line are drill rake and so on. A
        sight line past 90 points under the seat.

    Raises:
        DesignError: when the leg would not come out below the seat, the pitch is out of range, or
            the end is neither.

    Source:
        Derived in `teach.derive.derive_seat`.

    Example:
        >>> leg = Lean.from_rake_splay(10.0, 12.0)
        >>> lean_in_seat(leg, 4.0, "front").rake_deg, lean_in_seat(leg, 4.0, "rear").rake_deg
        (6.0, 14.0)
    """
    return _turned(lean, _outward_pitch(pitch_deg, end), "drill rake", "the leg would run along the seat")


def lean_in_room(seat_lean: Lean, pitch_deg: Value, end: End) -> Lean:
    """The lean in the room of a leg that was drilled into a pitched seat: the same turn, undone.

    Args:
        seat_lean: the drilling lean.
        pitch_deg: of the seat, back edge lower above 0, degrees between -60 and 60.
        end: "front" or "rear".

    Returns:
        The leg's direction in the room.

    Raises:
        DesignError: when the leg would not reach the floor, the pitch is out of range, or the end
            is neither.

    Source:
        Derived in `teach.derive.derive_seat`.

    Example:
        >>> drilled = lean_in_seat(Lean.from_rake_splay(10.0, 12.0), 4.0, "rear")
        >>> lean_in_room(drilled, 4.0, "rear").splay_deg
        12.0
    """
    return _turned(seat_lean, -_outward_pitch(pitch_deg, end), "rake in the room", "the leg would not reach the floor")


def _outward_pitch(pitch_deg: Value, end: End) -> Value:
    """Pitch as a leg at this end sees it: above 0 where the seat falls away behind the leg."""
    require_between("pitch of the seat", pitch_deg, -60, 60, _STEEPEST, ends=True)
    return pitch_deg if _is_front(end) else -pitch_deg


def _is_front(end: End) -> bool:
    if end not in ("front", "rear"):
        raise DesignError(f"The end of the seat is {end!r}; it is 'front' or 'rear': say at which the leg stands.")
    return end == "front"


def _turned(lean: Lean, pitch_deg: Value, rake: str, fault: str) -> Lean:
    """The lean from a plane pitched by that much; `rake` and `fault` are the words of the refusal."""
    most = 90 - _ROUNDING
    require_between(rake, lean.rake_deg - pitch_deg, -most, most, f"{fault}; pitch the seat less or lean the leg less")
    return Lean(*tan_pitched(lean.tan_rake, lean.tan_splay, sind(pitch_deg), cosd(pitch_deg)))


def mortise_height(front_height: Value, spacing: Value, pitch_deg: Value) -> Value:
    """Height of the rear mortise under a pitched seat: front height - m sin p.

    Args:
        front_height: floor to the front mortise on the underside, any length unit.
        spacing: from mortise to mortise along the underside, front to back, in the same unit.
        pitch_deg: of the seat in degrees; number, array or symbol.

    Returns:
        The height, in the same unit.

    Source:
        Derived in `teach.derive.derive_seat`.

    Example:
        >>> mortise_height(420.0, 200.0, 30.0)
        320.0
    """
    return front_height - spacing * sind(pitch_deg)


def feet_apart(
    front_height: Value, spacing: Value, pitch_deg: Value, tan_front_rake: Value, tan_rear_rake: Value
) -> Value:
    """Distance of the feet, front to back: m cos p + Hf tan r front + Hb tan r rear.

    Args:
        front_height: floor to the front mortise on the underside, any length unit.
        spacing: from mortise to mortise along the underside, front to back, in the same unit.
        pitch_deg: of the seat in degrees; number, array or symbol.
        tan_front_rake: tangent of the front leg's rake in the room.
        tan_rear_rake: tangent of the rear leg's rake in the room.

    Returns:
        The distance on the floor, in the same unit.

    Source:
        Derived in `teach.derive.derive_seat`.

    Example:
        >>> feet_apart(420.0, 200.0, 0.0, 0.1, 0.2)
        326.0
    """
    rear_height = mortise_height(front_height, spacing, pitch_deg)
    return spacing * cosd(pitch_deg) + front_height * tan_front_rake + rear_height * tan_rear_rake


class TwoTilts(NamedTuple):
    """A tilting table with two hinges, one on top of the other, set for one hole.

    The first tilt is about the hinge that runs side to side, the second about the one that runs fore
    and aft. Where the fore-and-aft hinge lies underneath it stays level; on top it is carried on
    the other. Which one lies underneath decides the angles.

    Args:
        level_first_deg: first tilt in degrees where the second hinge lies underneath, level and fixed in the room.
        level_second_deg: second tilt there, in degrees.
        carried_first_deg: first tilt in degrees where the second hinge lies on top and leans with the first.
        carried_second_deg: second tilt there, in degrees.
    """

    level_first_deg: Value
    level_second_deg: Value
    carried_first_deg: Value
    carried_second_deg: Value


def two_tilts(seat_lean: Lean) -> TwoTilts:
    """Both tilts of a drilling table with two hinges, for either way that they can be stacked.

    Second hinge level: rake, then atan(tan s cos r). Second hinge carried: atan(tan r cos s), then
    splay. Rake and splay on both hinges is wrong either way.

    Args:
        seat_lean: the drilling lean; numbers or arrays.

    Returns:
        The four angles, signed as the lean is.

    Source:
        Derived in `teach.derive.derive_two_tilts`.

    Example:
        >>> two_tilts(Lean.from_rake_splay(10.0, 12.0))
        TwoTilts(level_first_deg=10.0, level_second_deg=11.8, carried_first_deg=9.8, carried_second_deg=12.0)
    """
    r, s = seat_lean.tan_rake, seat_lean.tan_splay
    return TwoTilts(atand(r), atand(slope_in_plane(s, r)), atand(slope_in_plane(r, s)), atand(s))


def lean_from_footprint(
    height: Value, tops: tuple[Value, Value], feet: tuple[Value, Value]
) -> Lean:  # fmt: skip
    """The lean that puts four like legs under a level seat or case on a wanted footprint.

    Each travel is half the difference between floor and top: tan r = (D - d) / 2h.

    Args:
        height: floor to the underside, above 0, any length unit.
        tops: from top to top, front to back and side to side, in the same unit.
        feet: from foot to foot, front to back and side to side, in the same unit.

    Returns:
        The lean; below 0 where the feet stand closer together than the tops.

    Raises:
        DesignError: when the height or a distance is not above 0.

    Source:
        Common practice, no source: the travel of the foot over the height.

    Example:
        >>> lean_from_footprint(400.0, (170.0, 230.0), (330.0, 390.0)).rake_deg
        11.31
    """
    for name, distances in (("distance of the tops", tops), ("distance of the feet", feet)):
        for distance in distances:
            require_positive(name, distance)
    return Lean.from_foot_run(height, *((low - high) / 2 for low, high in zip(feet, tops, strict=True)))


def pitch_from_heights(front_height: Value, rear_height: Value, spacing: Value) -> Value:
    """Pitch of a seat whose front and rear mortises stand at different heights: asin((Hf - Hb) / m).

    Args:
        front_height: floor to the front mortise on the underside, any length unit.
        rear_height: floor to the rear mortise, in the same unit.
        spacing: from mortise to mortise along the underside, above 0, in the same unit.

    Returns:
        Degrees, back edge lower above 0.

    Raises:
        DesignError: when the heights differ by as much as the mortises are apart, or more.

    Source:
        Derived in `teach.derive.derive_seat`.

    Example:
        >>> pitch_from_heights(420.0, 320.0, 200.0)
        30.0
    """
    require_positive("distance of the mortises", spacing)
    for height in (front_height, rear_height):
        require_finite("height of a mortise", height)
    fall = (front_height - rear_height) / spacing
    if np.any(abs(np.asarray(fall, dtype=float)) >= 1):
        raise DesignError(
            f"The mortises stand {front_height} and {rear_height} high; the heights must differ by less than the"
            f" {spacing} from one to the other: measure along the underside of the seat."
        )
    return asind(fall)


def pitch_from_foot(drill_rake_deg: Value, height: Value, foot_run: Value, end: End) -> Value:
    """Pitch at which a leg drilled at a known rake puts its foot where it is wanted.

    The foot's run over the height is the rake in the room; what that differs from the drilled rake
    is the pitch: p = atan(run / h) - r' for a front leg, r' - atan(run / h) for a rear leg.

    Args:
        drill_rake_deg: rake measured from the seat, degrees between -90 and 90.
        height: floor to this leg's mortise on the underside, above 0, any length unit.
        foot_run: how far the foot stands outward of the mortise, to the front (front leg) or to
            the back (rear leg), in the same unit.
        end: "front" or "rear".

    Returns:
        Degrees, back edge lower above 0.

    Raises:
        DesignError: when the height is not above 0, the drill rake is 90 or more, or the end is neither.

    Source:
        Derived in `teach.derive.derive_seat`.

    Example:
        >>> pitch_from_foot(8.0, 420.0, 420.0 * 0.2126, "front")
        4.0
    """
    require_between("drill rake", drill_rake_deg, -90, 90, "measure it from square to the seat")
    room_rake_deg = Lean.from_foot_run(height, foot_run, 0.0).rake_deg
    return room_rake_deg - drill_rake_deg if _is_front(end) else drill_rake_deg - room_rake_deg


@dataclass(frozen=True, eq=False)
class SeatLeg:
    """One leg under a seat: what to drill and how long it is.

    Args:
        seat_lean: the drilling lean, from the seat's own surface and square line.
        lean: the same leg's direction in the room.
        tilts: for a drilling table with two hinges.
        axis_length: from the underside of the seat to the floor, along the axis, in the unit of the height.
        length_in_seat: along the axis inside the seat's thickness, in the same unit.
    """

    seat_lean: Lean
    lean: Lean
    tilts: TwoTilts
    axis_length: Value
    length_in_seat: Value


def seat_leg(lean: Lean, height: Value, thickness: Value, pitch_deg: Value, end: End) -> SeatLeg:
    """What one leg under a seat asks for: H / cos R below it, T / cos R' inside it.

    Args:
        lean: the leg's direction in the room; numbers or arrays.
        height: floor to its mortise on the underside, above 0, any length unit.
        thickness: of the seat, square to its surface, above 0, in the same unit.
        pitch_deg: of the seat, back edge lower above 0, degrees between -60 and 60.
        end: "front" or "rear".

    Returns:
        Drilling lean, tilts and lengths.

    Raises:
        DesignError: when height or thickness is not above 0, or the leg would run along the seat.

    Source:
        Derived in `teach.derive.derive_seat`.

    Example:
        >>> leg = seat_leg(Lean.from_rake_splay(10.0, 12.0), 420.0, 40.0, 0.0, "front")
        >>> leg.axis_length, leg.length_in_seat
        (435.7, 41.5)
    """
    require_positive("height of the mortise", height, "raise the seat or pitch it less")
    require_positive("thickness of the seat", thickness)
    drilled = lean_in_seat(lean, pitch_deg, end)
    return SeatLeg(drilled, lean, two_tilts(drilled), lean.axis_length(height), drilled.axis_length(thickness))
