"""How wood moves across the grain when its moisture content changes, and how far corners leave 90 degrees.

Wood swells as it gets damper and shrinks as it dries: most along the growth rings, about half as much
square to them, and next to nothing along the grain, which counts as nothing here. A finish slows the change
and does not stop it: over a season the wood arrives. The length of a board hardly matters; its width rules.

The ring angle lies between a board's face and the growth rings on its end grain: 0 flat-sawn, 90
quarter-sawn. Two laws serve. Change coefficients hold where the moisture content stays within 6 to 14 %;
below and above, and for a wood without them, size runs in a straight line from green (30 %, with a few
woods 22 %) down to oven-dry. Above that wood does not move, and neither law is asked. Both are averages of
a species: one board lies up to a fifth to either side. The two do not quite meet at 6 and 14 %: by a tenth of
a per cent of the width at most woods, by three tenths where the printed row is another species'.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from furnlib.base.angles import Value, asind, cosd, sind, square_root
from furnlib.base.guards import DesignError, all_hold, require_between, require_positive
from furnlib.trade.wood.species import Species

LOW, HIGH = 6.0, 14.0
"""Moisture content in % between which the change coefficients hold."""
SCATTER = 0.2
"""How far one board lies from the average of its species, as a share; common practice, no source."""


def change_by_coefficient(width: Value, change_coefficient: Value, moisture_from: Value, moisture_to: Value) -> Value:
    """Change of a size across the grain by its change coefficient: width C (M_to - M_from).

    Args:
        width: at the first moisture content, any length unit; number, array or symbol.
        change_coefficient: share of the size per 1 % of moisture, C; number, array or symbol.
        moisture_from: moisture content at first, in %, from 6 to 14; number, array or symbol.
        moisture_to: moisture content at last, in %, from 6 to 14; number, array or symbol.

    Returns:
        The change, above 0 where it swells, in the unit of the width.

    Source:
        Wood Handbook, FPL-GTR-190, Equation 13-2.

    Example:
        >>> change_by_coefficient(232.0, 0.00245, 8.0, 11.0)
        1.705
    """
    return width * change_coefficient * (moisture_to - moisture_from)


def change_by_shrinkage(
    width: Value, shrinkage: Value, moisture_from: Value, moisture_to: Value, fibre_saturation: Value = 30.0
) -> Value:
    """Change of a size across the grain by the shrinkage of its wood.

    width (M_to - M_from) / (100 F/S - F + M_from); S is of the GREEN size, and so is no share of the dry one.

    Args:
        width: at the first moisture content, any length unit; number, array or symbol.
        shrinkage: from green to oven-dry in % of the green size, S; number, array or symbol.
        moisture_from: moisture content at first, in %, from 0 to F; number, array or symbol.
        moisture_to: moisture content at last, in %, from 0 to F; number, array or symbol.
        fibre_saturation: moisture content above which the wood does not move, F, in %; number, array or symbol.

    Returns:
        The change, above 0 where it swells, in the unit of the width.

    Source:
        Derived in `teach.derive.derive_movement` from a size that runs in a straight line from F to 0.

    Example:
        >>> change_by_shrinkage(100.0, 10.0, 30.0, 0.0)
        -10.0
    """
    return (
        width * (moisture_to - moisture_from) / (100 * fibre_saturation / shrinkage - fibre_saturation + moisture_from)
    )


def coefficient_at_ring(tangential_change: Value, radial_change: Value, ring_angle_deg: Value) -> Value:
    """Change coefficient of a face at any ring angle: C_T cos² f + C_R sin² f.

    Args:
        tangential_change: coefficient along the rings, share of the size per 1 %; number, array or symbol.
        radial_change: coefficient square to them; number, array or symbol.
        ring_angle_deg: degrees between face and rings, f, 0 flat-sawn; number, array or symbol.

    Returns:
        The coefficient; `face_stretch` differs from it in the second order only.

    Source:
        Derived in `teach.derive.derive_movement`.

    Example:
        >>> coefficient_at_ring(0.003, 0.002, 45.0)
        0.0025
    """
    return tangential_change * cosd(ring_angle_deg) ** 2 + radial_change * sind(ring_angle_deg) ** 2


def face_stretch(tangential_stretch: Value, radial_stretch: Value, ring_angle_deg: Value) -> Value:
    """Size of a face after over before, by the ellipse that a circle on the end grain becomes.

    sqrt((a cos f)² + (b sin f)²), exact where the rings run straight through the board.

    Args:
        tangential_stretch: size along the rings after over before, a; number, array or symbol.
        radial_stretch: the same square to them, b; number, array or symbol.
        ring_angle_deg: degrees between face and rings, f, 0 flat-sawn; number, array or symbol.

    Returns:
        The stretch; 1 is no change.

    Source:
        Derived in `teach.derive.derive_movement`.

    Example:
        >>> face_stretch(1.02, 1.01, 0.0), face_stretch(1.02, 1.01, 90.0)
        (1.02, 1.01)
    """
    along, across = tangential_stretch * cosd(ring_angle_deg), radial_stretch * sind(ring_angle_deg)
    return square_root(along * along + across * across)


def edge_stretch(tangential_stretch: Value, radial_stretch: Value, ring_angle_deg: Value) -> Value:
    """Thickness of a board after over before: along its edge the two directions of the rings change places.

    Args:
        tangential_stretch: size along the rings after over before, a; number, array or symbol.
        radial_stretch: the same square to them, b; number, array or symbol.
        ring_angle_deg: degrees between FACE and rings, 0 flat-sawn; number, array or symbol.

    Returns:
        The stretch; 1 is no change.

    Source:
        Derived in `teach.derive.derive_movement`.

    Example:
        >>> edge_stretch(1.02, 1.01, 0.0)
        1.01
    """
    return face_stretch(radial_stretch, tangential_stretch, ring_angle_deg)


def corner_error_deg(tangential_stretch: Value, radial_stretch: Value, ring_angle_deg: Value) -> Value:
    """How far the corners of a squared piece leave 90 degrees: asin((a² - b²) sin f cos f / (face edge)).

    Near (C_T - C_R) (M_to - M_from) sin 2f radians; most at 45, where a square leg becomes a diamond.

    Args:
        tangential_stretch: size along the rings after over before, a; number, array or symbol.
        radial_stretch: the same square to them, b; number, array or symbol.
        ring_angle_deg: degrees between face and rings, f, from 0 to 90; number, array or symbol.

    Returns:
        Degrees by which the two corners that point to bark and pith open (below 0: close); the other two
        do the opposite.

    Source:
        Derived in `teach.derive.derive_movement`.

    Example:
        >>> corner_error_deg(0.96, 0.98, 45.0), corner_error_deg(0.96, 0.98, 0.0)
        (-1.181, 0.0)
    """
    a, b = tangential_stretch, radial_stretch
    skew = (a * a - b * b) * sind(ring_angle_deg) * cosd(ring_angle_deg)
    return asind(skew / (face_stretch(a, b, ring_angle_deg) * edge_stretch(a, b, ring_angle_deg)))


def _inside(wood: Species, moisture_from: Value, moisture_to: Value) -> Value:
    """Where the change coefficients hold: both moistures from 6 to 14 %, and the wood has them."""
    inside: Value = np.bool_(wood.has("tangential_change", "radial_change"))
    most = wood.fibre_saturation
    cure = f"above {most:g} % the wood does not move, so reckon from there; below 0 there is none"
    for moisture in (moisture_from, moisture_to):
        require_between("moisture content in %", moisture, 0, most, cure, ends=True)
        inside = inside & (np.asarray(moisture) >= LOW) & (np.asarray(moisture) <= HIGH)
    return inside


def _by_coefficient(wood: Species, moisture_from: Value, moisture_to: Value) -> tuple[Value, Value]:
    known = wood.known("tangential_change"), wood.known("radial_change")
    along, square = (1 + change_by_coefficient(1.0, one, moisture_from, moisture_to) for one in known)
    return along, square


def _by_shrinkage(wood: Species, moisture_from: Value, moisture_to: Value) -> tuple[Value, Value]:
    if wood.has("tangential_change") and not wood.has("tangential_shrinkage"):
        raise DesignError(
            f"Outside {LOW:g} to {HIGH:g} % the movement of {wood.name} is not known, for the tables have no shrinkage"
            " of it; name a wood that is like it and has one."
        )
    known = wood.known("tangential_shrinkage"), wood.known("radial_shrinkage")
    along, square = (
        1 + change_by_shrinkage(1.0, one, moisture_from, moisture_to, wood.fibre_saturation) for one in known
    )
    return along, square


def ring_stretches(wood: Species, moisture_from: Value, moisture_to: Value) -> tuple[Value, Value]:
    """Stretch along the growth rings and square to them, by the law that holds.

    Args:
        wood: the species.
        moisture_from: moisture content at first, in %, from 0 to 30; number or array.
        moisture_to: moisture content at last, in %, from 0 to 30; number or array.

    Returns:
        Size after over size before along the rings, and square to them.

    Raises:
        DesignError: when a moisture content is above fibre saturation or below 0 %, or the tables do not have
            what the law needs.

    Source:
        Wood Handbook, FPL-GTR-190, Equation 13-2 inside 6 to 14 %; outside, `change_by_shrinkage`.

    Example:
        >>> from furnlib.trade.wood.species import species
        >>> ring_stretches(species("black cherry"), 7.0, 12.0)
        (1.0124, 1.0063)
        >>> round(corner_error_deg(*ring_stretches(species("black cherry"), 12.0, 7.0), 45.0), 2)
        -0.35
    """
    inside = _inside(wood, moisture_from, moisture_to)
    if all_hold(inside):
        return _by_coefficient(wood, moisture_from, moisture_to)
    outside = _by_shrinkage(wood, moisture_from, moisture_to)
    if not np.any(inside):
        return outside
    both = zip(_by_coefficient(wood, moisture_from, moisture_to), outside, strict=True)
    along, square = (np.where(inside, *laws) for laws in both)
    return along, square


def stretch(wood: Species, ring_angle_deg: Value, moisture_from: Value, moisture_to: Value) -> Value:
    """Size of a face across the grain after over before: 1 is no change.

    Args:
        wood: the species.
        ring_angle_deg: degrees between face and growth rings, from 0 (flat-sawn) to 90 (quarter-sawn);
            number or array. For the thickness take 90 less it.
        moisture_from: moisture content at first, in %, from 0 to 30; number or array.
        moisture_to: moisture content at last, in %, from 0 to 30; number or array.

    Returns:
        The stretch; an array where an argument is one.

    Raises:
        DesignError: when the ring angle or a moisture content is out of its range, or the tables do not have
            what the law needs.

    Source:
        Wood Handbook, FPL-GTR-190, Equation 13-2 inside 6 to 14 %; outside, `change_by_shrinkage`.

    Example:
        >>> from furnlib.trade.wood.species import species
        >>> stretch(species("black cherry"), 0.0, 7.0, 12.0), stretch(species("black cherry"), 90.0, 7.0, 12.0)
        (1.0124, 1.0063)
        >>> stretch(species("black cherry"), 0.0, 35.0, 12.0)
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: The moisture content in % is 35.0; it must lie from 0 to 30: above 30 %
        the wood does not move, so reckon from there; below 0 there is none.
    """
    require_between("ring angle", ring_angle_deg, 0, 90, "0 is flat-sawn, 90 quarter-sawn", ends=True)
    return face_stretch(*ring_stretches(wood, moisture_from, moisture_to), ring_angle_deg)


@dataclass(frozen=True, eq=False)
class Movement:
    """How much a size changes, and how sure that is.

    Args:
        change: on the average of the species, above 0 where it swells, in the unit of the size.
        least: the change of a board that moves a fifth less than the average, in the same unit.
        most: the change of a board that moves a fifth more, in the same unit.
        law: which law it is from, in words.
        by_other_law: the change by the shrinkage law, in the same unit, where the change coefficient was
            taken and the tables have both; else None.
    """

    change: Value
    least: Value
    most: Value
    law: str
    by_other_law: Value | None


def movement(width: Value, wood: Species, ring_angle_deg: Value, moisture_from: float, moisture_to: float) -> Movement:
    """Change of a size across the grain, with its spread and the law it is from.

    Args:
        width: at the first moisture content, above 0, any length unit; number or array.
        wood: the species.
        ring_angle_deg: degrees between face and growth rings, from 0 (flat-sawn) to 90 (quarter-sawn);
            number or array.
        moisture_from: moisture content at first, in %, from 0 to 30.
        moisture_to: moisture content at last, in %, from 0 to 30.

    Returns:
        The change; nothing moves along the grain, so no length is asked.

    Raises:
        DesignError: when the size is not above 0, the ring angle or a moisture content is out of its range,
            or the tables do not have what the law needs.

    Source:
        As `stretch`; the spread is common practice, no source.

    Example:
        >>> from furnlib.trade.wood.species import species
        >>> side = movement(200.0, species("red maple"), 0.0, 8.0, 12.0)
        >>> side.change, side.least, side.most, side.law, side.by_other_law
        (2.312, 1.850, 2.774, 'change coefficient', 2.327)
    """
    require_positive("width", width)
    change = width * (stretch(wood, ring_angle_deg, moisture_from, moisture_to) - 1)
    other = None
    if _inside(wood, moisture_from, moisture_to):
        law = "change coefficient"
        if wood.has("tangential_shrinkage", "radial_shrinkage"):
            shrunk = face_stretch(*_by_shrinkage(wood, moisture_from, moisture_to), ring_angle_deg)
            other = width * (shrunk - 1)
    elif wood.has("tangential_change", "radial_change"):
        law = f"shrinkage law, outside {LOW:g} to {HIGH:g} %"
    else:
        law = "shrinkage law, no change coefficient in the tables"
    return Movement(change, (1 - SCATTER) * change, (1 + SCATTER) * change, law, other)
