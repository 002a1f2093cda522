"""Trigonometry in degrees, for a number, an array or a symbol; slopes in leaning planes.

This is the one place where degrees meet radians. A formula written with these functions runs
three ways: on a float (a float comes out), on an array (one call for a whole sweep) and on a
sympy symbol (the formula itself comes out, to be proved). sympy is never imported here: a symbol
can only arrive where sympy is loaded already, so it is looked up among the loaded modules.

One frame everywhere: x to the right, y to the front, z up.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import numpy as np
from numpy.typing import NDArray

Value = Any
"""A float, a Fraction, an array or a sympy symbol."""

Vector = NDArray[np.float64]

_NUMBERS = (float, int, Fraction)


def is_symbol(*values: Value) -> bool:
    """Tell whether any value is a sympy expression, without importing sympy.

    Args:
        values: numbers, arrays or symbols.

    Returns:
        True where at least one is symbolic.

    Example:
        >>> is_symbol(3.0, 4)
        False
    """
    sympy = sys.modules.get("sympy")
    return sympy is not None and any(issubclass(kind, sympy.Basic) for kind in {*map(type, values)})


def _dispatch(name: str, on_number: Callable[..., float], on_array: Callable[..., Any], *values: Value) -> Value:
    """Call the same function in the world that its arguments come from."""
    if all(isinstance(value, _NUMBERS) for value in values):
        return on_number(*values)
    if is_symbol(*values):
        return getattr(sys.modules["sympy"], name)(*values)
    result = on_array(*values)
    return result if np.ndim(result) else float(result)


def deg(angle_deg: Value) -> Value:
    """Turn degrees into radians.

    Args:
        angle_deg: angle in degrees; number, array or symbol.

    Returns:
        The angle in radians, of the same kind; a symbol keeps an exact pi.

    Example:
        >>> deg(180.0)
        3.14159265
    """
    if isinstance(angle_deg, _NUMBERS):
        return math.radians(angle_deg)
    if is_symbol(angle_deg):
        return angle_deg * sys.modules["sympy"].pi / 180
    return np.radians(angle_deg)


def _to_degrees(angle: Value) -> Value:
    if isinstance(angle, _NUMBERS):
        return math.degrees(angle)
    if is_symbol(angle):
        return angle * 180 / sys.modules["sympy"].pi
    return np.degrees(angle)


def sind(angle_deg: Value) -> Value:
    """Sine of an angle in degrees.

    Args:
        angle_deg: angle in degrees; number, array or symbol.

    Returns:
        The sine, of the same kind.

    Example:
        >>> sind(30.0)
        0.5
    """
    return _dispatch("sin", math.sin, np.sin, deg(angle_deg))


def cosd(angle_deg: Value) -> Value:
    """Cosine of an angle in degrees.

    Args:
        angle_deg: angle in degrees; number, array or symbol.

    Returns:
        The cosine, of the same kind.

    Example:
        >>> cosd(60.0)
        0.5
    """
    return _dispatch("cos", math.cos, np.cos, deg(angle_deg))


def tand(angle_deg: Value) -> Value:
    """Tangent of an angle in degrees.

    Args:
        angle_deg: angle in degrees, not an odd multiple of 90; number, array or symbol.

    Returns:
        The tangent, of the same kind.

    Example:
        >>> tand(45.0)
        1.0
    """
    return _dispatch("tan", math.tan, np.tan, deg(angle_deg))


def asind(ratio: Value) -> Value:
    """Angle in degrees whose sine is given.

    Args:
        ratio: from -1 to 1; number, array or symbol.

    Returns:
        Degrees from -90 to 90, of the same kind.

    Example:
        >>> asind(0.5)
        30.0
    """
    return _to_degrees(_dispatch("asin", math.asin, np.arcsin, ratio))


def atand(ratio: Value) -> Value:
    """Angle in degrees whose tangent is given.

    Args:
        ratio: any finite number, array or symbol.

    Returns:
        Degrees between -90 and 90, of the same kind.

    Example:
        >>> atand(1.0)
        45.0
    """
    return _to_degrees(_dispatch("atan", math.atan, np.arctan, ratio))


def atan2d(sideways: Value, fore_aft: Value) -> Value:
    """Direction in degrees of a plan step, from forward (0) towards sideways (90).

    A step of no length has no direction: 0 is returned. A negative zero counts as zero, so that
    the same step never has two directions; the result lies in (-180, 180].

    Args:
        sideways: step sideways, any length unit; number, array or symbol.
        fore_aft: step forward, in the same unit; number, array or symbol.

    Returns:
        Degrees in (-180, 180], of the same kind.

    Example:
        >>> atan2d(1.0, 1.0)
        45.0
        >>> atan2d(-0.0, -2.0)
        180.0
        >>> atan2d(-0.0, -0.0)
        0.0
    """
    if is_symbol(sideways, fore_aft):
        return _to_degrees(sys.modules["sympy"].atan2(sideways, fore_aft))
    turned = _to_degrees(_dispatch("atan2", math.atan2, np.arctan2, sideways + 0.0, fore_aft + 0.0))
    if np.ndim(turned):
        return np.where(turned <= -180.0, 180.0, turned)
    return 180.0 if turned <= -180.0 else turned


def square_root(value: Value) -> Value:
    """Square root of a number, an array or a symbol.

    Args:
        value: zero or more; number, array or symbol.

    Returns:
        The root, of the same kind.

    Example:
        >>> square_root(9.0)
        3.0
    """
    return _dispatch("sqrt", math.sqrt, np.sqrt, value)


def slope_in_plane(tan_across: Value, tan_own: Value) -> Value:
    """Slope, measured in a leaning plane, of a line that shows its slope straight on.

    The plane leans about its level line by an angle of its own; the line lies in it and is seen
    square-on, where it runs off plumb by another. In the plane that angle is smaller: tan s cos r.

    Args:
        tan_across: tangent of the angle seen square-on; number, array or symbol.
        tan_own: tangent of the plane's own lean from plumb; number, array or symbol.

    Returns:
        Tangent of the angle in the plane, from square to its level line, of the same kind.

    Example:
        >>> slope_in_plane(0.5, 0.75)
        0.4
    """
    return tan_across / square_root(1 + tan_own * tan_own)


def sin_off_square(tan_first: Value, tan_second: Value) -> Value:
    """Sine of how far off square a corner comes that leans both ways: sin r sin s.

    It serves two corners that are each other's mirror: between two planes that lean by r and s
    about level lines square to one another, and between the level lines on two faces that are
    square to one another and are crossed at r and s.

    Args:
        tan_first: tangent of the one angle; number, array or symbol.
        tan_second: tangent of the other; number, array or symbol.

    Returns:
        The sine, signed as the product of the two, of the same kind.

    Example:
        >>> sin_off_square(0.75, 0.75)
        0.36
    """
    return tan_first * tan_second / (square_root(1 + tan_first * tan_first) * square_root(1 + tan_second * tan_second))
