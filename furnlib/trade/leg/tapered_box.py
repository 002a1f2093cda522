r"""Boxes and mouldings whose sides lean: hoppers, trays, plinths, and a crown moulding in a corner.

All of them are cut alike. A side lies flat on the saw table; the *mitre* swings the cut in its
face, off the line square to its level edge, and the *tilt* leans the blade from square to that face.

::

        section          a side, seen square to its face

          |   /              ______________________________
          |  /               \    |                       /
          | / side slope      \   | mitre                /
          |/                   \  |                     /
                                \_|____________________/

The slips to watch for: the side slope is measured from plumb, and taken from level it makes sine
and cosine change places; the half turn of a corner is 180/N, not 360/N; and a blade at 45 is right
for a square box only while its sides are plumb. A scale that reads 90 for a square cut wants 90
less the mitre.

A slope above 0 opens upwards, below 0 downwards; the mitre goes with its sign, the tilt has none.
Try the settings on waste of the same thickness first, and leave the off-cut free to fall away.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from furnlib.base.angles import Value, asind, atand, cosd, sin_off_square, sind, slope_in_plane, tand
from furnlib.base.guards import DesignError, require_between, require_finite

_FLAT = "it is measured from plumb, 0 for an upright side; at 90 a side lies flat"


def tan_box_mitre(side_slope_deg: Value, half_turn_deg: Value) -> Value:
    """Tangent of the mitre at a corner of equal slopes: sin(slope) tan(half turn).

    Args:
        side_slope_deg: of both sides from plumb, degrees; number, array or symbol.
        half_turn_deg: half of the turn in plan from one side to the next, degrees; number, array or symbol.

    Returns:
        The tangent, of the same kind, with the sign of the slope.

    Source:
        Derived in `teach.derive.derive_tapered_box`; crown moulding tables of mitre saws agree.

    Example:
        >>> tan_box_mitre(30.0, 45.0)
        0.5
    """
    return sind(side_slope_deg) * tand(half_turn_deg)


def sin_mitred_tilt(side_slope_deg: Value, half_turn_deg: Value) -> Value:
    """Sine of the tilt at a mitred corner of equal slopes: cos(slope) sin(half turn).

    Args:
        side_slope_deg: of both sides from plumb, degrees; number, array or symbol.
        half_turn_deg: half of the turn in plan from one side to the next, degrees; number, array or symbol.

    Returns:
        The sine, of the same kind.

    Source:
        Derived in `teach.derive.derive_tapered_box`; crown moulding tables of mitre saws agree.

    Example:
        >>> sin_mitred_tilt(60.0, 30.0)
        0.25
    """
    return cosd(side_slope_deg) * sind(half_turn_deg)


def mitred_dihedral(tilt_deg: Value) -> Value:
    """Inside angle of a corner in degrees, shared evenly by two mitres: 180 - 2 tilt.

    Args:
        tilt_deg: of the blade from square to the face, degrees; number, array or symbol.

    Returns:
        Degrees, of the same kind.

    Source:
        Derived in `teach.derive.derive_tapered_box`.

    Example:
        >>> mitred_dihedral(30.0)
        120.0
    """
    return 180 - 2 * tilt_deg


def shared_tilt(front_slope_deg: Value, end_slope_deg: Value) -> Value:
    """Tilt of both mitres where two sides of one thickness meet: 45 - asin(sin a sin b) / 2.

    Args:
        front_slope_deg: of front and back from plumb, degrees; number, array or symbol.
        end_slope_deg: of the ends from plumb, degrees; number, array or symbol.

    Returns:
        Degrees, of the same kind.

    Source:
        Derived in `teach.derive.derive_tapered_box`.

    Example:
        >>> shared_tilt(45.0, 45.0)
        30.0
    """
    return 45 - asind(sin_off_square(tand(front_slope_deg), tand(end_slope_deg))) / 2


@dataclass(frozen=True, eq=False)
class BoxCut:
    """Saw setting for every side of a box with equal slopes, or for a moulding.

    Args:
        mitre_deg: degrees in the face from a line square to the level edge, with the sign of the slope.
        tilt_deg: degrees of the blade from square to the face, 0 or more.
        dihedral_deg: inside angle in degrees between two neighbouring faces, square to the line where they meet.
    """

    mitre_deg: Value
    tilt_deg: Value
    dihedral_deg: Value


@dataclass(frozen=True, eq=False)
class UnequalBox:
    """Saw settings for a four-sided box whose ends slope otherwise than its front and back.

    Args:
        front_mitre_deg: degrees in the face of front and back, with the sign of the ends' slope.
        end_mitre_deg: degrees in the face of the ends, with the sign of the front's slope.
        tilt_deg: degrees of the blade from square to the face, the same for all sides.
        dihedral_deg: inside angle in degrees between front and end, square to the line where they meet.
    """

    front_mitre_deg: Value
    end_mitre_deg: Value
    tilt_deg: Value
    dihedral_deg: Value


def tapered_box(side_slope_deg: Value, sides: Value) -> BoxCut:
    """Saw setting of a box with N equal sides, mitred at the corners.

    mitre = atan(sin(slope) tan(180/N)), tilt = asin(cos(slope) sin(180/N)), dihedral = 180 - 2 tilt.
    Traps: the slope from level; 360/N; 45 for the tilt of every square box.

    Args:
        side_slope_deg: lean of each side from plumb, degrees between -90 and 90; above 0 the box opens upwards.
        sides: how many sides, a whole number from 3; number or array.

    Returns:
        The setting; arrays where slope or sides are arrays.

    Raises:
        DesignError: when the slope is 90 or more either way, or the sides are not a whole number from 3.

    Source:
        Derived in `teach.derive.derive_tapered_box`; crown moulding tables of mitre saws agree.

    Example:
        >>> tapered_box(15.0, 6)
        BoxCut(mitre_deg=8.50, tilt_deg=28.88, dihedral_deg=122.24)
    """
    _require_slope("side slope", side_slope_deg)
    _require_sides(sides)
    return _mitred(side_slope_deg, 180 / sides)


def crown_cut(spring_deg: Value, wall_corner_deg: Value) -> BoxCut:
    """Saw setting of a crown moulding laid flat on the table: a box again, whose slope is the spring.

    mitre = atan(sin(spring) tan(90 - corner/2)), tilt = asin(cos(spring) sin(90 - corner/2)).
    Trap: the spring from the ceiling, which is 90 less the spring from the wall.

    Args:
        spring_deg: from the wall to the back of the moulding, degrees between -90 and 90, often 38 or 45.
        wall_corner_deg: between the two walls, degrees between 0 and 180; for a corner that juts out, measure
            it through the wall: the setting is the same, of the other hand.

    Returns:
        The setting; arrays where spring or corner are arrays.

    Raises:
        DesignError: when the spring is 90 or more either way, or the corner is not between 0 and 180.

    Source:
        Derived in `teach.derive.derive_tapered_box`; crown moulding tables of mitre saws agree.

    Example:
        >>> crown_cut(38.0, 90.0)
        BoxCut(mitre_deg=31.62, tilt_deg=33.86, dihedral_deg=112.27)
    """
    _require_slope("spring", spring_deg)
    require_between("corner", wall_corner_deg, 0, 180, "give the angle between the walls, 90 for a square corner")
    return _mitred(spring_deg, 90 - wall_corner_deg / 2)


def butt_box(side_slope_deg: Value) -> BoxCut:
    """Saw setting of a four-sided box whose sides butt against each other's faces.

    mitre = atan(sin(slope)), as for a mitred box; tilt = asin(sin²(slope)), dihedral = 90 + tilt.

    Args:
        side_slope_deg: lean of each side from plumb, degrees between -90 and 90; above 0 the box opens upwards.

    Returns:
        The setting; arrays where the slope is an array.

    Raises:
        DesignError: when the slope is 90 or more either way.

    Source:
        Derived in `teach.derive.derive_tapered_box`.

    Example:
        >>> butt_box(15.0)
        BoxCut(mitre_deg=14.51, tilt_deg=3.84, dihedral_deg=93.84)
    """
    _require_slope("side slope", side_slope_deg)
    tan_slope = tand(side_slope_deg)
    tilt = asind(sin_off_square(tan_slope, tan_slope))
    return BoxCut(atand(tan_box_mitre(side_slope_deg, 45.0)), tilt, 90 + tilt)


def unequal_box(front_slope_deg: Value, end_slope_deg: Value) -> UnequalBox:
    """Saw settings of a rectangular box with two slopes, mitred, its sides of one thickness.

    With front and back at a, ends at b: front mitre = atan(tan b cos a), end mitre = atan(tan a cos b),
    all tilts 45 - asin(sin a sin b) / 2. Trap: 45 for the tilt.

    Args:
        front_slope_deg: lean of front and back from plumb, degrees between -90 and 90; above 0 they open upwards.
        end_slope_deg: lean of the ends from plumb, degrees between -90 and 90; above 0 they open upwards.

    Returns:
        The settings; arrays where a slope is an array.

    Raises:
        DesignError: when a slope is 90 or more either way.

    Source:
        Derived in `teach.derive.derive_tapered_box`.

    Example:
        >>> box = unequal_box(20.0, 10.0)
        >>> box.front_mitre_deg, box.end_mitre_deg, box.tilt_deg
        (9.41, 19.72, 43.30)
    """
    _require_slope("front slope", front_slope_deg)
    _require_slope("end slope", end_slope_deg)
    tan_front, tan_end = tand(front_slope_deg), tand(end_slope_deg)
    tilt = shared_tilt(front_slope_deg, end_slope_deg)
    return UnequalBox(
        atand(slope_in_plane(tan_end, tan_front)),
        atand(slope_in_plane(tan_front, tan_end)),
        tilt,
        mitred_dihedral(tilt),
    )


def _mitred(side_slope_deg: Value, half_turn_deg: Value) -> BoxCut:
    tilt = asind(sin_mitred_tilt(side_slope_deg, half_turn_deg))
    return BoxCut(atand(tan_box_mitre(side_slope_deg, half_turn_deg)), tilt, mitred_dihedral(tilt))


def _require_slope(name: str, slope_deg: Value) -> None:
    require_between(name, slope_deg, -90, 90, _FLAT)


def _require_sides(sides: Value) -> None:
    require_finite("number of sides", sides)
    counts = np.asarray(sides)
    if not np.all((counts >= 3) & (counts % 1 == 0)):
        raise DesignError(f"The number of sides is {sides}; it must be a whole number from 3 up: count the sides.")
