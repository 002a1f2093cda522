"""A racked opening: its two sides as vectors, their sum and their difference as the diagonals."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.drawer.squareness import diagonal_of_taper, side_taper, top_taper


def derive_squareness() -> Derivation:
    """Derive how far an opening leans from the difference of its diagonals.

    Returns:
        The derivation, in width W, height H, taper s of the side gap and difference d of the
        diagonals.

    Example:
        >>> derive_squareness()["squareness.side_taper"].difference
        0
    """
    width, height, lean, apart, total = sp.symbols("W H s d m", positive=True)
    across = sp.Matrix([width, 0])
    side = sp.Matrix([lean, sp.sqrt(height**2 - lean**2)])
    long, short = across + side, across - side
    squares = [sp.expand(diagonal.dot(diagonal)) for diagonal in (long, short)]
    # both diagonals from their sum m and difference d: the squares add up to four times the sides' squares
    both = sp.solve(sp.Eq(((total + apart) / 2) ** 2 + ((total - apart) / 2) ** 2, sum(squares)), total)
    whole = next(root for root in both if root.subs({width: 4, height: 3, apart: 1}) > 0)
    leans = sp.expand(whole * apart) / (4 * width)
    turned = {width: height, height: width}
    return Derivation(
        "The lean of an opening from its diagonals",
        (
            (
                "The opening's lower edge and its leaning side as vectors; the side has kept its length H and leans by"
                " s over its height,",
                rf"\vec a = {sp.latex(across)}, \quad \vec b = {sp.latex(side)}",
            ),
            (
                "so the diagonals are their sum and their difference, whose squares differ by",
                rf"\left|\vec a + \vec b\right|^2 - \left|\vec a - \vec b\right|^2 ="
                rf" {sp.latex(sp.simplify(squares[0] - squares[1]))}",
            ),
            (
                "and add up to",
                rf"\left|\vec a + \vec b\right|^2 + \left|\vec a - \vec b\right|^2 ="
                rf" {sp.latex(sp.simplify(squares[0] + squares[1]))}",
            ),
        ),
        (
            Claim(
                "squareness.side_taper",
                "The sides lean by this over the height, d being the difference of the diagonals.",
                "s",
                side_taper(apart, width, height),
                leans,
                "The difference of the squares is d times the sum of the diagonals, and that sum follows from the sum"
                " of the squares,",
            ),
            Claim(
                "squareness.top_taper",
                "Seen from the sides it is the top that falls.",
                "s",
                top_taper(apart, width, height),
                leans.subs(turned, simultaneous=True),
                "With width and height changing places,",
            ),
            Claim(
                "squareness.diagonal",
                "The difference of the diagonals that goes with a taper.",
                "d",
                diagonal_of_taper(lean, width, height),
                sp.sqrt(sp.simplify(squares[0])) - sp.sqrt(sp.simplify(squares[1])),
                "From the squares of the two diagonals,",
            ),
        ),
    )
