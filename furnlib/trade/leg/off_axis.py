"""Turning on more than one axis: a lens from two parallel axes, and a leg whose foot is offset.

Turned to one radius about two axes in turn, only the wood common to both rounds is left: a *lens*,
two arcs that meet in two edges. The thinnest way through it lies in the plane of the axes.

An *offset leg* keeps a pad or foot turned on the true axis, the middle of the blank; what stands
above the pad is turned on an axis beside it. On the *near* side, towards which the axis was moved, the
wood reaches further from the true axis; on the *far* side less far. Where the near reach is the
pad's radius both lie flush.

Off its middle a blank is out of balance, and its corners sweep wider by up to twice the offset: turn
slowly, turn it by hand first and stand clear. The gouge meets wood for only a part of each turn.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from furnlib.base.angles import Value, asind, deg, square_root
from furnlib.base.guards import DesignError, require_finite, require_positive


def lens_thickness(radius: Value, apart: Value) -> Value:
    """How thick a lens is, in the plane of its two axes: 2 r - c.

    Args:
        radius: of both turnings, any length unit; number, array or symbol.
        apart: distance between the two axes, in the same unit; number, array or symbol.

    Returns:
        The thickness, in the same unit.

    Source:
        Derived in `teach.derive.derive_off_axis`.

    Example:
        >>> lens_thickness(20.0, 24.0)
        16.0
    """
    return 2 * radius - apart


def lens_width(radius: Value, apart: Value) -> Value:
    """How wide a lens is, from edge to edge: 2 sqrt(r² - c²/4).

    Args:
        radius: of both turnings, any length unit; number, array or symbol.
        apart: distance between the two axes, in the same unit; number, array or symbol.

    Returns:
        The width, in the same unit.

    Source:
        Derived in `teach.derive.derive_off_axis`.

    Example:
        >>> lens_width(20.0, 24.0)
        32.0
    """
    return 2 * square_root(radius * radius - apart * apart / 4)


def lens_edge_deg(radius: Value, apart: Value) -> Value:
    """Angle of wood at each edge of a lens, between the two arcs: 2 acos(c / 2r).

    Args:
        radius: of both turnings, any length unit; number, array or symbol.
        apart: distance between the two axes, in the same unit; number, array or symbol.

    Returns:
        Degrees, 180 for one axis and near 0 for a sharp edge.

    Source:
        Derived in `teach.derive.derive_off_axis`.

    Example:
        >>> lens_edge_deg(20.0, 20.0)
        120.0
    """
    return 180 - 2 * asind(apart / (2 * radius))


def lens_area(radius: Value, apart: Value) -> Value:
    """Area of a lens's section: 2 r² acos(c / 2r) - (c/2) sqrt(4 r² - c²).

    Args:
        radius: of both turnings, any length unit; number, array or symbol.
        apart: distance between the two axes, in the same unit; number, array or symbol.

    Returns:
        The area, in the square of that unit.

    Source:
        Derived in `teach.derive.derive_off_axis`; by quadrature and by counting points in
        `tests/validation/test_off_axis_areas.py`.

    Example:
        >>> lens_area(20.0, 24.0)
        357.8
    """
    return radius * radius * deg(lens_edge_deg(radius, apart)) - apart / 2 * lens_width(radius, apart)


def near_reach(radius: Value, axis_offset: Value) -> Value:
    """How far an offset part reaches from the true axis on the near side: offset + radius.

    Args:
        radius: of the offset part, about its own axis, any length unit; number, array or symbol.
        axis_offset: from the true axis to its own, in the same unit; number, array or symbol.

    Returns:
        The reach, in the same unit.

    Source:
        Derived in `teach.derive.derive_off_axis`.

    Example:
        >>> near_reach(11.0, 8.0)
        19.0
    """
    return axis_offset + radius


def far_reach(radius: Value, axis_offset: Value) -> Value:
    """How far an offset part reaches from the true axis on the far side: radius - offset.

    Args:
        radius: of the offset part, about its own axis, any length unit; number, array or symbol.
        axis_offset: from the true axis to its own, in the same unit; number, array or symbol.

    Returns:
        The reach, in the same unit; below 0 the true axis lies outside the wood.

    Source:
        Derived in `teach.derive.derive_off_axis`.

    Example:
        >>> far_reach(11.0, 8.0), far_reach(11.0, 13.0)
        (3.0, -2.0)
    """
    return radius - axis_offset


def flush_offset(pad_radius: Value, end_radius: Value) -> Value:
    """Offset with which a part comes flush with the pad on the near side: pad radius - end radius.

    Args:
        pad_radius: of the pad, about the true axis, any length unit; number, array or symbol.
        end_radius: of the offset part where it meets the pad, in the same unit; number, array or symbol.

    Returns:
        The offset, in the same unit.

    Source:
        Derived in `teach.derive.derive_off_axis`.

    Example:
        >>> flush_offset(24.0, 11.0)
        13.0
    """
    return pad_radius - end_radius


@dataclass(frozen=True, eq=False)
class Lens:
    """What two parallel axes leave of a turning, square to them.

    Args:
        thickness: in the plane of the axes, in the unit of the radius.
        width: from edge to edge, in the same unit.
        area: of the section, in the square of that unit.
        edge_angle_deg: of wood at each edge, in degrees.
    """

    thickness: Value
    width: Value
    area: Value
    edge_angle_deg: Value


@dataclass(frozen=True, eq=False)
class OffsetLeg:
    """A leg turned on an axis beside the true one, lengths in the unit of the radius.

    Args:
        near_reach: from the true axis to the wood's surface on the near side.
        far_reach: the same on the far side; below 0 the true axis lies outside the wood.
        flush_offset: the offset that would bring both flush on the near side.
        largest_diameter: diameter about the true axis that the blank must hold; `blank_side` adds what roughing
            and centring take.
    """

    near_reach: Value
    far_reach: Value
    flush_offset: Value
    largest_diameter: Value


def lens(radius: Value, apart: Value) -> Lens:
    """The lens that two parallel axes leave, its sizes looked at first.

    Args:
        radius: of both turnings, above 0, any length unit.
        apart: distance between the two axes, from 0 to less than twice the radius, in the same unit.

    Returns:
        The lens; arrays where an argument is an array.

    Raises:
        DesignError: when the radius is not above 0 or the two rounds have no wood in common.

    Source:
        Derived in `teach.derive.derive_off_axis`.

    Example:
        >>> made = lens(20.0, 24.0)
        >>> made.thickness, made.width, made.edge_angle_deg
        (16.0, 32.0, 106.3)
    """
    require_positive("radius", radius)
    _require_not_below_0("distance between the axes", apart)
    if np.any(np.asarray(apart) >= 2 * np.asarray(radius)):
        raise DesignError(
            f"The axes are {apart} apart and both turnings have a radius of {radius}; they have no wood in common from"
            f" twice the radius on: bring the axes closer or turn to a larger radius."
        )
    sizes = (lens_thickness, lens_width, lens_area, lens_edge_deg)
    return Lens(*(size(radius, apart) for size in sizes))


def offset_leg(axis_offset: Value, end_radius: Value, pad_radius: Value) -> OffsetLeg:
    """Reaches of a leg turned on an axis beside the true one, above a pad turned on the true axis.

    Args:
        axis_offset: from the true axis to the other, 0 or more, any length unit.
        end_radius: of the offset part where it meets the pad, above 0, in the same unit.
        pad_radius: of the pad, at least the end radius, in the same unit.

    Returns:
        The leg; arrays where an argument is an array.

    Raises:
        DesignError: when a radius is not above 0, the offset is below 0, or the pad is the thinner.

    Source:
        Derived in `teach.derive.derive_off_axis`.

    Example:
        >>> leg = offset_leg(13.0, 11.0, 24.0)
        >>> leg.near_reach, leg.far_reach, leg.flush_offset, leg.largest_diameter
        (24.0, -2.0, 13.0, 48.0)
    """
    require_positive("radius of the end", end_radius)
    require_positive("radius of the pad", pad_radius)
    _require_not_below_0("offset", axis_offset)
    if np.any(np.asarray(pad_radius) < end_radius):
        raise DesignError(
            f"The pad has a radius of {pad_radius}, less than the {end_radius} of what stands on it, and they can"
            f" never come flush: turn a larger pad or a thinner end."
        )
    near = near_reach(end_radius, axis_offset)
    # twice the larger of the two, for numbers and arrays alike
    largest_diameter = near + pad_radius + abs(near - pad_radius)
    return OffsetLeg(near, far_reach(end_radius, axis_offset), flush_offset(pad_radius, end_radius), largest_diameter)


def _require_not_below_0(name: str, size: Value) -> None:
    require_finite(name, size)
    if np.any(np.asarray(size) < 0):
        raise DesignError(f"The {name} is {size}; it must be 0 or more: measure it as a distance.")
