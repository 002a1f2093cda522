"""What a turned leg is cut from: how thick and how long a square, how to bring it to eight sides, how many to make.

A blank is thicker than its turning by two allowances, both on the radius: *roughing*, what the gouge
takes to make it round and clean, and *centring*, how far the lathe's axis may stand off the middle of
the square. It is longer than the leg by what the level end cuts reach past the axis, by the waste in
which the two centres bite, and by the saw's kerfs.

Brought to eight sides first, a blank meets the gouge with corners that swing less. Take the arrises
off with a plane or on a saw with the blank clamped in a V, never held by hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import comb

import numpy as np

from furnlib.base.angles import Value, square_root, tand
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive

_MOST_LEGS = 200
_ROUNDING = 1e-9
"""What sums and tangents of floats lose: no reason to refuse a blank, or to make one leg more."""


def _larger(one: Value, other: Value) -> Value:
    """The larger of two sizes; `max` keeps a number or a symbol what it is."""
    return np.maximum(one, other) if np.ndim(one) or np.ndim(other) else max(one, other)


def blank_side(largest_diameter: Value, roughing: Value, centring: Value, square: Value = 0) -> Value:
    """Side of the square that a turning needs: 2 (D/2 + roughing + centring), at least the square left on it.

    Args:
        largest_diameter: of all that is turned, any length unit; number, array or symbol.
        roughing: on the radius, in the same unit; number, array or symbol.
        centring: on the radius, in the same unit; number, array or symbol. Where the offset of the
            axis is known, see `known_centring`.
        square: side of a square that is left at full size, in the same unit; 0 where there is none.

    Returns:
        The side, in the same unit.

    Source:
        Derived in `teach.derive.derive_blank`; both allowances are common practice, no source.

    Example:
        >>> blank_side(40.0, 1.0, 0.5), blank_side(40.0, 1.0, 0.5, 48.0)
        (43.0, 48.0)
    """
    return _larger(largest_diameter + 2 * (roughing + centring), square)


def known_centring(offset_x: Value, offset_y: Value) -> Value:
    """What stands for the centring where the offset of the axis is known: the larger of |ex| and |ey|.

    Args:
        offset_x: of the lathe's axis from the middle of the square, square to one pair of faces, any
            length unit.
        offset_y: the same, square to the other pair, in the same unit.

    Returns:
        The centring, on the radius, in the same unit.

    Source:
        The worse of two pairs of faces; points are turned in `tests/unit/test_blank.py`. Common practice, no source.

    Example:
        >>> known_centring(0.4, -0.7)
        0.7
    """
    return _larger(abs(offset_x), abs(offset_y))


def round_end_extra(diameter: Value, tan_total_lean: Value, end_taper: Value = 0) -> Value:
    """How far a level cut reaches past the axis, along it, on a round end: (d/2) tan a / (1 - (k/2) tan a).

    On the short side it falls back by (d/2) tan a / (1 + (k/2) tan a); with tan a below 0 this
    function gives that, signed.

    Args:
        diameter: where the cut crosses the axis, any length unit; number, array or symbol.
        tan_total_lean: tangent of the angle between the cut and square across; number, array or symbol.
        end_taper: by how much the diameter changes for each unit of length outward, a plain number;
            below 0 where the end gets thinner.

    Returns:
        The length past the point where cut and axis meet, in the unit of the diameter.

    Source:
        Derived in `teach.derive.derive_blank`.

    Example:
        >>> round_end_extra(40.0, 0.25), round_end_extra(40.0, 0.25, 1.6), round_end_extra(40.0, 0.25, -2.0)
        (5.0, 6.25, 4.0)
    """
    return diameter / 2 * tan_total_lean / (1 - end_taper / 2 * tan_total_lean)


def blank_length(
    axis_length: Value, top_extra: Value, foot_extra: Value, top_waste: Value, foot_waste: Value, kerf: Value
) -> Value:
    """How long the blank is: axis length, what both ends reach past it, both wastes, and a kerf at each end.

    Args:
        axis_length: of the leg between its two cuts, any length unit; number, array or symbol.
        top_extra: how far the top reaches past the axis, in the same unit.
        foot_extra: the same at the foot, in the same unit.
        top_waste: what one centre of the lathe bites into, beyond the cut, in the same unit.
        foot_waste: the same at the foot, in the same unit.
        kerf: of the saw that takes both wastes off, in the same unit.

    Returns:
        The length, in the same unit.

    Source:
        Derived in `teach.derive.derive_blank`.

    Example:
        >>> blank_length(400.0, 6.0, 4.0, 15.0, 15.0, 2.0)
        444.0
    """
    return axis_length + top_extra + foot_extra + top_waste + foot_waste + 2 * kerf


def octagon_gauge(side: Value) -> Value:
    """Where a gauge marks a square from each arris to bring it to eight equal sides: s (1 - 1/sqrt 2).

    Args:
        side: of the square, any length unit; number, array or symbol.

    Returns:
        The gauge's setting, in the same unit.

    Source:
        Derived in `teach.derive.derive_blank`; compasses set to half the diagonal give it too.

    Example:
        >>> octagon_gauge(48.0)
        14.06
    """
    return side - square_root(side * side / 2)


def octagon_flat(side: Value) -> Value:
    """How wide each of the eight sides comes out: s (sqrt 2 - 1).

    Args:
        side: of the square, any length unit; number, array or symbol.

    Returns:
        The width of one flat, in the same unit.

    Source:
        Derived in `teach.derive.derive_blank`.

    Example:
        >>> octagon_flat(48.0)
        19.88
    """
    return square_root(side * side * 2) - side


def octagon_corners(side: Value) -> Value:
    """How far the octagon measures from corner to corner: s / cos 22.5, by flat and side square to one another.

    Args:
        side: of the square, and so from flat to flat, any length unit; number, array or symbol.

    Returns:
        The swing of the octagon, in the same unit.

    Source:
        Derived in `teach.derive.derive_blank`.

    Example:
        >>> octagon_corners(48.0)
        51.95
    """
    flat = octagon_flat(side)
    return square_root(side * side + flat * flat)


def end_extra(diameter: Value, total_lean_deg: Value, end_taper: Value = 0.0) -> Value:
    """How far a leaning leg's level cut reaches past its axis on a round end, its sizes looked at first.

    Args:
        diameter: where the cut crosses the axis, above 0, any length unit.
        total_lean_deg: of the leg, from 0 to below 90 degrees.
        end_taper: by how much the diameter changes for each unit of length outward, a plain number.

    Returns:
        `round_end_extra`, in the unit of the diameter.

    Raises:
        DesignError: when a size is out of range, or the end tapers as steeply as the cut runs.

    Source:
        Derived in `teach.derive.derive_blank`.

    Example:
        >>> end_extra(22.0, 16.0, -0.05)
        3.13
    """
    require_positive("diameter of the end", diameter)
    require_finite("taper of the end", end_taper)
    require_finite("total lean", total_lean_deg)
    if np.any(np.asarray(total_lean_deg) < 0) or np.any(np.asarray(total_lean_deg) >= 90):
        raise DesignError(f"The total lean is {total_lean_deg}; it must be from 0 to less than 90: lean the leg less.")
    slope = tand(total_lean_deg)
    if np.any(abs(np.asarray(end_taper)) / 2 * slope >= 1 - _ROUNDING):
        raise DesignError(
            f"The end changes by {end_taper} in diameter for each unit of its length, so steeply that a cut at"
            f" {total_lean_deg} never comes out on its far side: end the leg with less taper, or lean it less."
        )
    return round_end_extra(diameter, slope, end_taper)


@dataclass(frozen=True, eq=False)
class Blank:
    """The square piece that a leg is turned from, in the unit of the leg.

    Args:
        side: of the square; where the maker has one already, that one.
        length: over all, with the waste at both centres.
        top_extra: how far the top's level cut reaches past the axis.
        foot_extra: the same at the foot.
        swing: across the corners, what must clear the lathe and its rest.
        octagon_gauge: from each arris, the gauge line for eight equal sides.
        octagon_flat: how wide each of the eight comes out.
    """

    side: Value
    length: Value
    top_extra: Value
    foot_extra: Value
    swing: Value
    octagon_gauge: Value
    octagon_flat: Value


def turning_blank(
    axis_length: Value,
    largest_diameter: Value,
    *,
    roughing: Value,
    centring: Value,
    top_extra: Value = 0.0,
    foot_extra: Value = 0.0,
    top_waste: Value = 0.0,
    foot_waste: Value = 0.0,
    kerf: Value = 0.0,
    square: Value = 0.0,
    side_at_hand: Value | None = None,
) -> Blank:
    """The blank of a turned leg, its sizes looked at first.

    Args:
        axis_length: of the leg between its two cuts, above 0, any length unit.
        largest_diameter: of all that is turned, above 0, in the same unit.
        roughing: on the radius, 0 or more, in the same unit.
        centring: on the radius, 0 or more, in the same unit.
        top_extra: what the top reaches past the axis, 0 or more, in the same unit: `end_extra` of a
            round end, half the extra length of the end cut of a square one.
        foot_extra: the same at the foot, in the same unit.
        top_waste: at the centre beyond the top, 0 or more, in the same unit.
        foot_waste: at the centre beyond the foot, 0 or more, in the same unit.
        kerf: of the cut at each end, 0 or more, in the same unit.
        square: side of a square left at full size, in the same unit; 0 where there is none.
        side_at_hand: of squared wood that is there already, in the same unit.

    Returns:
        The blank; arrays where an argument is an array.

    Raises:
        DesignError: when a length is not above 0, an allowance is below 0, or the wood at hand is too thin.

    Source:
        Derived in `teach.derive.derive_blank`.

    Example:
        >>> made = turning_blank(437.0, 40.0, roughing=1.0, centring=0.5, top_waste=15.0, foot_waste=15.0)
        >>> made.side, made.length, made.swing
        (43.0, 467.0, 60.81)
    """
    require_positive("length of the leg", axis_length)
    require_positive("largest diameter", largest_diameter)
    extras, wastes = (top_extra, foot_extra), (top_waste, foot_waste)
    names = ("extra at the top", "extra at the foot", "waste at the top", "waste at the foot", "roughing", "centring")
    sizes = (*extras, *wastes, roughing, centring, kerf, square)
    for name, size in zip((*names, "kerf", "square"), sizes, strict=True):
        require_finite(name, size)
        if np.any(np.asarray(size) < 0):
            raise DesignError(f"The {name} is {size}; it must be 0 or more: a blank is never smaller than its leg.")
    side = needed = blank_side(largest_diameter, roughing, centring, square)
    if side_at_hand is not None:
        require_positive("side at hand", side_at_hand)
        if np.any(np.asarray(side_at_hand) < np.asarray(needed) * (1 - _ROUNDING)):
            raise DesignError(
                f"The wood at hand is {side_at_hand} square and the turning needs {needed}: take thicker wood, centre"
                f" it more closely or turn a thinner leg."
            )
        side = side_at_hand
    length = blank_length(axis_length, *extras, *wastes, kerf)
    swing = square_root(side * side * 2)
    return Blank(side, length, top_extra, foot_extra, swing, octagon_gauge(side), octagon_flat(side))


def chance_of_enough(made: int, needed: int, good: float) -> float:
    """Chance that at least as many legs come good as are needed: the binomial tail, each leg by itself.

    Args:
        made: how many legs are turned, up to 200.
        needed: how many must come good, at least 1.
        good: chance that one of them does, from 0 to 1.

    Returns:
        The chance, from 0 to 1.

    Raises:
        DesignError: when a count is not a whole number in its range, or the chance is not from 0 to 1.

    Source:
        The binomial distribution; held against scipy in `tests/validation/test_spares.py`.

    Example:
        >>> chance_of_enough(6, 5, 0.9), chance_of_enough(7, 5, 0.9)
        (0.89, 0.97)
    """
    for name, count in (("number of legs made", made), ("number of legs needed", needed)):
        require_between(name, count, 1, _MOST_LEGS, "count whole legs", ends=True)
        if count != int(count):
            raise DesignError(f"The {name} is {count}; it must be a whole number: count whole legs.")
    require_between("chance that a leg comes good", good, 0, 1, "9 good ones in 10 are 0.9", ends=True)
    return float(sum(comb(made, k) * good**k * (1 - good) ** (made - k) for k in range(needed, made + 1)))


def legs_to_make(needed: int, good: float, certainty: float) -> int:
    """The least number of legs to turn so that enough come good, with a certainty.

    Args:
        needed: how many must come good, at least 1.
        good: chance that one of them does, a plain number above 0 and up to 1.
        certainty: the chance wanted that there are enough, from 0 to 1 but neither of them.

    Returns:
        How many to make, spares included.

    Raises:
        DesignError: when the certainty is 1, a number is out of range, or more than 200 would be needed.

    Source:
        The binomial distribution; every outcome of small numbers is counted in `tests/unit/test_blank.py`.

    Example:
        >>> legs_to_make(5, 0.9, 0.95)
        7
    """
    require_between(
        "certainty", certainty, 0, 1, "no number of spares makes it certain that enough come good; 0.95 is usual"
    )
    chance_of_enough(needed, needed, good)  # refuses what is out of range
    for made in range(needed, _MOST_LEGS + 1):
        if chance_of_enough(made, needed, good) >= certainty - _ROUNDING:
            return made
    raise DesignError(
        f"With {good} as the chance of each, {_MOST_LEGS} legs do not give {needed} good ones with a certainty of"
        f" {certainty}: practise the cut that fails on waste first."
    )
