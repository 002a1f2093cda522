"""How much of a board there is to finish and to break, and what a finish leaves on it.

Faces, edges and arrises are those of a board as it is cut, a box; what joints and grooves cover is not taken
off. A board whose ends go into joints has only its long edges left: give these functions a width of 0 for it.
Edges drink more than faces, and end grain the most: what a coat takes is an average, tried on an offcut first.
"""

from __future__ import annotations

from furnlib.base.angles import Value


def faces_area(length: Value, width: Value) -> Value:
    """Area of both faces of a board: 2 l w.

    Args:
        length: l, of the board, any length unit; number, array or symbol.
        width: w, of the board, in the same unit.

    Returns:
        The area, in that unit squared.

    Source:
        Derived in `teach.derive.derive_finish`.

    Example:
        >>> faces_area(480, 103)
        98880
    """
    return 2 * length * width


def edges_area(length: Value, width: Value, thickness: Value) -> Value:
    """Area of the edges and ends of a board: 2 (l + w) t.

    Args:
        length: l, of the board, any length unit; number, array or symbol.
        width: w, of the board, in the same unit; 0 where its ends are in joints.
        thickness: t, of the board, in the same unit.

    Returns:
        The area, in that unit squared.

    Source:
        Derived in `teach.derive.derive_finish`.

    Example:
        >>> edges_area(480, 103, 20), edges_area(354, 0, 12)
        (23320, 8496)
    """
    return 2 * (length + width) * thickness


def arrises(length: Value, width: Value, thickness: Value) -> Value:
    """Length of all the sharp edges of a board, which are to be broken: 4 (l + w + t).

    Args:
        length: l, of the board, any length unit; number, array or symbol.
        width: w, of the board, in the same unit; 0 where its ends are in joints.
        thickness: t, of the board, in the same unit; 0 where its ends are in joints.

    Returns:
        The length, in the same unit.

    Source:
        Derived in `teach.derive.derive_finish`.

    Example:
        >>> arrises(480, 103, 20), arrises(354, 0, 0)
        (2412, 1416)
    """
    return 4 * (length + width + thickness)


def finish_needed(area: Value, coats: Value, coverage: Value) -> Value:
    """How much finish an area takes: n A / q.

    Args:
        area: A, of all that is coated; number, array or symbol.
        coats: n, how many, a plain number.
        coverage: q, area that one measure of it covers in one coat, in the unit of the area, above 0.

    Returns:
        The finish, in that measure.

    Source:
        Derived in `teach.derive.derive_finish`.

    Example:
        >>> finish_needed(6.0, 3, 12.0)
        1.5
    """
    return coats * area / coverage


def film_thickness(coats: Value, coverage: Value, solids: Value) -> Value:
    """How thick a finish stands on a surface when it is dry: n s / q.

    One litre on one square metre stands a millimetre high; what dries away leaves the share s of that.

    Args:
        coats: n, how many, a plain number; number, array or symbol.
        coverage: q, area that one measure of it covers in one coat, above 0: area over volume, in any length unit.
        solids: s, share of the finish that stays when it is dry, a plain number from 0 to 1.

    Returns:
        The film, in that unit: in mm where a litre covers so many square metres.

    Source:
        Derived in `teach.derive.derive_finish`.

    Example:
        >>> film_thickness(3, 12.0, 0.5)
        0.125
    """
    return coats * solids / coverage
