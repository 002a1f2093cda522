"""A cradle for the level ends of a round leg: a V-block on a wedge, blade upright, mitre gauge square.

Laid flat along the gauge's fence the leg would be cut square. Raised by its total lean, in the plumb
plane along the fence, it is cut level. So the sight line, a pencil line along the side of the leg that
looks outward, must lie in that plane, above or below the axis:

* foot low, the top raised: the pencil line lies underneath;
* foot high, the top lowered: it lies on top.

Both ways the outward side is left the longer at the foot and the shorter at the top.

A leg that tapers does not lie along the root of the V, the line in which its flats meet: the axis
stands higher where the leg is thicker. So the root rises by less than the total lean where the thin
end is low, and by more where it is high. One wedge at the total lean serves both, with a packer
between wedge and V-block, under the end of the block that holds the thin end of the leg.

A round leg is sawn clamped in its cradle, never held in the hand. A leg too short to be clamped well
clear of the blade is cut from a longer piece.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from furnlib.base.angles import Value, asind, sind, square_root
from furnlib.base.guards import DesignError, require_between, require_positive
from furnlib.base.shapes import convex_outline
from furnlib.trade.leg.lean import Lean


def sin_off_vee(top_diameter: Value, foot_diameter: Value, axis_length: Value, sin_half_vee: Value) -> Value:
    """Sine of the angle between a leg's axis and the root of the V it lies in: sin c / sin(v/2).

    The leg's surface runs at c from its axis, tan c = (top - foot) / (2 L). Both flats of the V touch
    it along a line, and both lines end where the root and the axis meet.

    Args:
        top_diameter: square to the axis, any length unit; number, array or symbol.
        foot_diameter: the same at the foot, in the same unit.
        axis_length: along the axis between the two, in the same unit.
        sin_half_vee: sine of half the angle between the flats; number, array or symbol.

    Returns:
        The sine; above 0 where the leg is thinner at the foot.

    Source:
        Derived in `teach.derive.derive_cradle`.

    Example:
        >>> sin_off_vee(60.0, 30.0, 20.0, 0.75)
        0.8
    """
    fall = (top_diameter - foot_diameter) / 2
    return fall / square_root(axis_length * axis_length + fall * fall) / sin_half_vee


def axis_height(diameter: Value, sin_off_vee: Value, sin_half_vee: Value) -> Value:
    """Height of a leg's axis above the root of its V: (d/2) sqrt(1 / sin²(v/2) - sin² g).

    Args:
        diameter: of the leg where the height is wanted, square to its axis, any length unit; number,
            array or symbol.
        sin_off_vee: sine of the angle g between axis and root; 0 for a leg that does not taper.
        sin_half_vee: sine of half the angle between the flats; number, array or symbol.

    Returns:
        The height, square to the root, in the unit of the diameter.

    Source:
        Derived in `teach.derive.derive_cradle`.

    Example:
        >>> axis_height(30.0, 0.0, 0.75)
        20.0
    """
    return diameter / 2 * square_root(1 / (sin_half_vee * sin_half_vee) - sin_off_vee * sin_off_vee)


def lies_as(distances: Sequence[float], diameters: Sequence[float], axis_length: float) -> tuple[float, float]:
    """The straight taper that lies in a V as a shaped leg does.

    A leg with beads touches the V at two places only, those on either side of the block's middle that a
    straightedge laid along it would touch: the edge of its convex outline there, run on to both ends.

    Args:
        distances: from the foot along the axis, of places that lie in the V, two or more, any length unit.
        diameters: there, above 0, in the same unit.
        axis_length: of the leg from foot to top, in the same unit.

    Returns:
        The taper's diameters at the top and at the foot, in the same unit.

    Raises:
        DesignError: when fewer than two places are given, or a diameter is not above 0.

    Source:
        Common practice, no source; legs are laid into a V in `tests/unit/test_cradle.py`.

    Example:
        >>> lies_as([0.0, 60.0, 100.0, 140.0], [22.0, 25.0, 36.0, 30.0], 400.0)
        (78.0, 22.0)
    """
    if len(distances) < 2:
        raise DesignError(f"{len(distances)} places lie in the V; give two or more, as far apart as the block is long.")
    require_positive("diameter in the V", np.asarray(diameters))
    low, high = min(distances), max(distances)
    outline = convex_outline([*zip(distances, diameters, strict=True), (low, 0.0), (high, 0.0)])
    edges = zip(outline, [*outline[1:], outline[0]], strict=True)
    # the outline runs counter-clockwise: along its upper side from far to near
    (x0, d0), (x1, d1) = next((a, b) for a, b in edges if b[0] <= (low + high) / 2 <= a[0] and a[1] > 0 < b[1])
    slope = (d1 - d0) / (x1 - x0)
    return d0 + slope * (axis_length - x0), d0 - slope * x0


@dataclass(frozen=True, eq=False)
class Cradle:
    """How to make the cradle for one end cut of a round leg, lengths in the unit of the leg.

    Args:
        wedge_deg: degrees from the table to the root of the V, rising to the top of the leg with the
            foot low, to the foot with the foot high; below 0 it falls that way.
        rise: how much higher one end of the V-block stands than the other, signed as the wedge.
        off_vee_deg: degrees between the leg's axis and the root; above 0 the foot is the thin end.
        packer: on a wedge at the total lean, what to put under the V-block's end at the leg's thin end.
        top_axis_height: height of the axis above the root, square to it, at the top of the leg.
        foot_axis_height: the same at the foot.
        outward_up: True where the sight line, on the outward side, lies on top; False underneath.
    """

    wedge_deg: Value
    rise: Value
    off_vee_deg: Value
    packer: Value
    top_axis_height: Value
    foot_axis_height: Value
    outward_up: bool


def cradle(
    lean: Lean,
    top_diameter: Value,
    foot_diameter: Value,
    axis_length: Value,
    block_length: Value,
    *,
    foot_low: bool = True,
    vee_deg: Value = 90.0,
) -> Cradle:
    """Wedge, packer and heights of the cradle that saws a round leg's end level.

    The axis must stand at the total lean R to the table and lies at g to the root: wedge = R - g with
    the foot low, R + g with the foot high; rise = block sin(wedge), packer = block sin |g|. A leg that
    does not taper has g = 0.

    Args:
        lean: the leg's direction; numbers or arrays.
        top_diameter: at the top of the leg, square to its axis, above 0, any length unit.
        foot_diameter: at its foot, above 0, in the same unit; a straight taper between the two.
        axis_length: along the axis between the two diameters, above 0, in the same unit.
        block_length: of the V-block along its root, above 0, in the same unit; 100 or 10 gives rise
            and packer per 100 or per 10.
        foot_low: True where the foot is the lower end, False where the top is.
        vee_deg: angle between the flats of the V, degrees between 0 and 180.

    Returns:
        The cradle; arrays where an argument is an array.

    Raises:
        DesignError: when a size is not above 0, the V is no V, the leg tapers too fast to lie in it,
            or the wedge would stand upright.

    Source:
        Derived in `teach.derive.derive_cradle`.

    Example:
        >>> leg = Lean.from_rake_splay(8.0, 14.0)
        >>> made = cradle(leg, 36.0, 22.0, 437.0, 300.0)
        >>> made.wedge_deg, made.rise, made.packer
        (14.67, 75.99, 6.796)
    """
    sizes = (("top diameter", top_diameter), ("foot diameter", foot_diameter), ("axis length", axis_length))
    for name, size in (*sizes, ("length of the V-block", block_length)):
        require_positive(name, size)
    require_between("angle of the V", vee_deg, 0, 180, "90 suits most legs")
    half = sind(vee_deg / 2)
    off = sin_off_vee(top_diameter, foot_diameter, axis_length, half)
    if np.any(abs(np.asarray(off)) >= 1):
        raise DesignError(
            f"A leg that goes from {top_diameter} to {foot_diameter} in {axis_length} tapers too fast to lie in a V of"
            f" {vee_deg}; open the V wider or cut the end before the taper is turned."
        )
    off_deg = asind(off)
    wedge = lean.total_lean_deg - off_deg if foot_low else lean.total_lean_deg + off_deg
    require_between("wedge", wedge, -90, 90, "a leg cannot lie in a V on end; lean it less or open the V wider")
    return Cradle(
        wedge_deg=wedge,
        rise=block_length * sind(wedge),
        off_vee_deg=off_deg,
        packer=block_length * abs(off),
        top_axis_height=axis_height(top_diameter, off, half),
        foot_axis_height=axis_height(foot_diameter, off, half),
        outward_up=not foot_low,
    )
