"""How square an opening is, by its two diagonals, and what that does to the gap beside a drawer.

An opening that has racked is a parallelogram: its sides keep their lengths, one diagonal grows and
the other shrinks. A square drawer then stands in a gap that tapers.
"""

from __future__ import annotations

from furnlib.base.angles import Value, square_root
from furnlib.base.guards import require_between, require_positive


def side_taper(diagonal_difference: Value, width: Value, height: Value) -> Value:
    """How far the sides of an opening lean over its height: d sqrt(4 (W^2 + H^2) - d^2) / (4 W).

    Args:
        diagonal_difference: d, the longer diagonal less the shorter, 0 or more, any length unit;
            number, array or symbol.
        width: W, of the opening, in the same unit.
        height: H, along its leaning sides, in the same unit.

    Returns:
        By how much the gap beside a square drawer changes from top to bottom; for a small d it is
        d sqrt(W^2 + H^2) / (2 W).

    Source:
        Derived in `teach.derive.derive_squareness`.

    Example:
        >>> round(side_taper(1.0, 480.0, 203.0), 2)
        0.54
    """
    spread = 4 * (width**2 + height**2) - diagonal_difference**2
    return diagonal_difference * square_root(spread) / (4 * width)


def top_taper(diagonal_difference: Value, width: Value, height: Value) -> Value:
    """How far the top of an opening falls over its width against the sides: d sqrt(4 (W^2 + H^2) - d^2) / (4 H).

    Args:
        diagonal_difference: d, the longer diagonal less the shorter, 0 or more, any length unit.
        width: W, of the opening, in the same unit.
        height: H, of the opening, in the same unit.

    Returns:
        By how much the gap over a front changes from side to side, where its sides are planed to suit
        the opening's.

    Source:
        Derived in `teach.derive.derive_squareness`.

    Example:
        >>> round(top_taper(1.0, 480.0, 203.0), 1)
        1.3
    """
    return side_taper(diagonal_difference, height, width)


def diagonal_of_taper(taper: Value, width: Value, height: Value) -> Value:
    """The difference of the diagonals that a taper of the side gap makes, from the diagonals themselves.

    The square of a diagonal is W^2 + H^2 + 2 W s, of the other W^2 + H^2 - 2 W s.

    Args:
        taper: s, of the side gap over the height, 0 or more, less than the height, any length unit.
        width: W, of the opening, in the same unit.
        height: H, along its sides, in the same unit.

    Returns:
        The longer diagonal less the shorter, in the same unit.

    Source:
        Derived in `teach.derive.derive_squareness`.

    Example:
        >>> round(diagonal_of_taper(0.5, 480.0, 203.0), 2)
        0.92
    """
    squares = width**2 + height**2
    return square_root(squares + 2 * width * taper) - square_root(squares - 2 * width * taper)


def diagonal_allowed(taper: float, width: float, height: float) -> float:
    """How unlike the diagonals of an opening may be for a side gap that tapers no more than this.

    Args:
        taper: the most by which the side gap may change from top to bottom, above 0, any length unit.
        width: clear width of the opening, above 0, in the same unit.
        height: clear height of the opening, more than the taper, in the same unit.

    Returns:
        The longer diagonal less the shorter, in the same unit: go below, no-go above.

    Raises:
        DesignError: when a size is not above 0 or the taper is no less than the height.

    Source:
        Derived in `teach.derive.derive_squareness`.

    Example:
        >>> round(diagonal_allowed(0.5, 480, 203), 2)
        0.92
    """
    require_positive("width", width)
    require_positive("height", height)
    require_between("taper", taper, 0, height, "a gap cannot lean further than it is high; give the change wanted")
    return float(diagonal_of_taper(float(taper), float(width), float(height)))
