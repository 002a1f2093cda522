"""Round rings: how much a board changes that was sawn near the pith, and how hollow it becomes.

Rings that run straight through a board leave it flat; round ones do not. A board that dries goes hollow on
the side towards the bark, as if its rings tried to straighten; one that gets damper, on the side towards
the pith. The nearer the pith and the wider the board, the more. A finish slows this and does not stop it.
"""

from __future__ import annotations

from dataclasses import dataclass

from furnlib.base.angles import Value, atand, cosd, deg, square_root
from furnlib.base.guards import require_between, require_positive


def change_over_rings(
    width: Value, pith_distance: Value, pith_offset: Value, tangential_stretch: Value, radial_stretch: Value
) -> Value:
    """Change of a face that crosses round rings: (b - 1) w + (a - b) h (angle that the pith sees, as arc over radius).

    Args:
        width: of the face, w, any length unit; number, array or symbol.
        pith_distance: from the pith to the plane of the face, h, above 0, in the same unit.
        pith_offset: how far the pith lies from under the middle of the face, in the same unit.
        tangential_stretch: size along the rings after over before, a; number, array or symbol.
        radial_stretch: the same square to them, b; number, array or symbol.

    Returns:
        The change along the face, to the first order, in the unit of the width.

    Source:
        Derived in `teach.derive.derive_cup`.

    Example:
        >>> change_over_rings(100.0, 50.0, 0.0, 1.03, 1.02)
        2.785
    """
    near, far = width / 2 - pith_offset, width / 2 + pith_offset
    seen = deg(atand(near / pith_distance)) + deg(atand(far / pith_distance))
    return (radial_stretch - 1) * width + (tangential_stretch - radial_stretch) * pith_distance * seen


def cup_over_rings(width: Value, pith_distance: Value, tangential_stretch: Value, radial_stretch: Value) -> Value:
    """How hollow a face becomes that crosses round rings with the pith under its middle.

    A point of the end grain moves along its ray by b and round the pith by a/b, so that the corners, at
    the distance r, come to lie b (h - r cos(a/b atan(w/2h))) below the middle.

    Args:
        width: of the face, w, any length unit; number, array or symbol.
        pith_distance: from the pith to the plane of the face, h, above 0, in the same unit.
        tangential_stretch: size along the rings after over before, a; number, array or symbol.
        radial_stretch: the same square to them, b; number, array or symbol.

    Returns:
        How far the middle stands away from the pith over the corners, in the unit of the width; below 0
        where the face away from the pith has gone hollow, as it does when it dries.

    Source:
        Derived in `teach.derive.derive_cup`.

    Example:
        >>> cup_over_rings(200.0, 100.0, 0.97, 0.985)
        -1.171
    """
    half = width / 2
    corner = square_root(half * half + pith_distance * pith_distance)
    turned = tangential_stretch / radial_stretch * atand(half / pith_distance)
    return radial_stretch * (pith_distance - corner * cosd(turned))


@dataclass(frozen=True, eq=False)
class Cup:
    """What round rings do to a board that nothing holds flat, in the unit of its sizes.

    Args:
        change: of the width along the face, above 0 where it swells.
        hollow: how far the face's middle stands off the line between its corners; below 0 where the side
            towards the bark is hollow, as when a board dries, above 0 where the side towards the pith is.
    """

    change: Value
    hollow: Value


def cup(width: Value, pith_distance: Value, tangential_stretch: Value, radial_stretch: Value) -> Cup:
    """Change and cup of a board whose rings are round, with the pith under its middle.

    Args:
        width: of the face before, above 0, any length unit; number or array.
        pith_distance: from the pith to the face, above 0, in the same unit; number or array.
        tangential_stretch: size along the rings after over before, a plain number from 0.8 to 1.25, as
            `ring_stretches` gives it; number or array.
        radial_stretch: the same square to them, a plain number from 0.8 to 1.25; number or array.

    Returns:
        The change and the cup.

    Raises:
        DesignError: when a size is not above 0, or a stretch is no stretch of wood.

    Source:
        Derived in `teach.derive.derive_cup`.

    Example:
        >>> from furnlib.trade.wood.movement import ring_stretches
        >>> from furnlib.trade.wood.species import species
        >>> dried = cup(200.0, 60.0, *ring_stretches(species("red maple"), 12.0, 7.0))
        >>> dried.change, dried.hollow
        (-2.310, -0.781)
    """
    require_positive("width", width)
    require_positive("distance of the pith", pith_distance, "draw the rings round to find the pith")
    for stretch in (tangential_stretch, radial_stretch):
        require_between("stretch", stretch, 0.8, 1.25, "give size after over size before", ends=True)
    return Cup(
        change_over_rings(width, pith_distance, 0.0, tangential_stretch, radial_stretch),
        cup_over_rings(width, pith_distance, tangential_stretch, radial_stretch),
    )
