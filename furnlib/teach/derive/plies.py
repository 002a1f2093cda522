"""Where the glue lines of a stack lie, from an axis that stands off its middle.

Everything is counted square to the glue lines, from the outside of the first ply.
"""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.leg.plies import glue_line_places

_T = sp.symbols("t_1:4", positive=True)
_EQUAL, _SHIFT = sp.symbols("t e", positive=True)
_X, _P = sp.symbols("x p", real=True)


def derive_plies() -> Derivation:
    """Derive the places of glue lines in a stack of plies.

    Returns:
        The derivation, in the thicknesses t of the plies and the shift e of the axis off the middle.

    Example:
        >>> derive_plies()["plies.lines"].difference
        0
    """
    (axis,) = sp.solve(_X - (sum(_T) - _X) - 2 * _SHIFT, _X)
    (middle,) = sp.solve(_P + _SHIFT + (_P + _SHIFT), _P)
    ply = sp.Integer(5)
    (half,) = sp.solve(2 * _X + (ply - 1) * _EQUAL - ply * _EQUAL, _X)
    return Derivation(
        "Glue lines about the axis of a blank",
        (
            (
                "The axis stands x from the outside of the first ply. To the outside of the last it is nearer by twice"
                " the shift.",
                r"x - \left(\sum t - x\right) = 2e",
            ),
            (
                "A stack of equal plies is the same turned end for end: a line p + e on one side of the middle has its"
                " like as far on the other.",
                r"p + e = -(p' + e)",
            ),
        ),
        (
            Claim(
                "plies.lines",
                "A glue line lies from the axis by what is stacked up to it, less half the stack and the shift.",
                "p_2",
                glue_line_places(_T, _SHIFT)[1],
                _T[0] + _T[1] - axis,
                "From the second line of three plies, with x solved from the first sentence,",
                {},
            ),
            Claim(
                "plies.even",
                "With an even number of equal plies one line is its own like: without a shift it lies on the axis.",
                "p_2",
                glue_line_places((_EQUAL,) * 4, _SHIFT)[1],
                middle,
                "From four plies, the line whose like is itself, p = p',",
                {},
            ),
            Claim(
                "plies.odd",
                "With an odd number the axis lies midway in a ply, half its thickness from a line.",
                "p_3",
                glue_line_places((_EQUAL,) * 5)[2],
                half,
                "From five plies: the stack is four of them, and that middle one split in two halves x,",
                {},
            ),
        ),
    )
