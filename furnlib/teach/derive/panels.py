"""Panels in grooves, boards as a back, and a sheet's corner, from where edges stand in a season."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation, Expression
from furnlib.trade.case.panels import board_face, board_gap, board_tongue, corner_radius, edge_travel, engagement

_SIGHT, _LEAST, _S, _SPAN, _N, _W, _G, _LAP, _R, _E = sp.symbols("S c s B n w g l R e", positive=True)
_X, _REACH = sp.Symbol("x"), sp.Symbol("E", positive=True)


def derive_panels() -> Derivation:
    """Derive a panel's engagement, the faces, gaps and tongues of boards, and the round of a sheet's corner.

    Returns:
        The derivation, in sight S, least engagement c, stretch s, span B, count n, face w, gap g, least overlap l,
        the cutter's radius R and the ease e.

    Example:
        >>> derive_panels()["panels.tongue"].difference
        0
    """
    (by_centre,) = sp.solve(sp.Eq((_SIGHT / 2 + _X) * _S - _SIGHT / 2, _LEAST), _X)
    (by_edge,) = sp.solve(sp.Eq(-_X + (_SIGHT + 2 * _X) * _S - _SIGHT, _LEAST), _X)
    (groove,) = sp.solve(sp.Eq(_SIGHT / 2 + _X - (_SIGHT / 2 + _REACH) * _S, _LEAST), _X)
    (face,) = sp.solve(sp.Eq(_N * _X * _S + (_N + 1) * _G, _SPAN), _X)
    (gap,) = sp.solve(sp.Eq(_W + _X - 2 * _W / 2 * _S, _G), _X)
    next_edge = _W + _G - _W / 2 * _S
    (tongue,) = sp.solve(sp.Eq((_W / 2 + _X) * _S - next_edge, _LAP), _X)
    (corner,) = sp.solve(sp.Eq(sp.sqrt(2) * (_R - _E - _X), _R - _X), _X)
    return Derivation(
        "Panels, boards and sheets as a back",
        (
            (
                "A panel reaches x into either groove; the mouths of the grooves are S apart. Pinned at its centre"
                " its edge is measured from there; pinned at one edge, from the mouth of that groove.",
                r"\left(\tfrac S2 + x\right)s - \tfrac S2 = c \qquad\text{or}\qquad -x + (S + 2x)\,s - S = c",
            ),
            (
                "The bottom of a groove x deep is cleared by the edge of a panel that reaches E into it today.",
                r"\tfrac S2 + x - \left(\tfrac S2 + E\right)s = c",
            ),
            (
                "Boards x wide and the least gaps g, those at both edges with them, fill the span at the widest. Two"
                " neighbours are held in their middles, a face and a gap x apart; either half swells.",
                r"n x s + (n + 1)\,g = B \qquad\text{and}\qquad w + x - 2\,\tfrac w2\,s = g",
            ),
            (
                "The tip of a tongue x long moves with its board, the edge of the next board against it.",
                r"\left(\tfrac w2 + x\right)s - \left(w + g - \tfrac w2 s\right) = l",
            ),
            (
                "A sheet's corner rounded by x touches the rebate's corner rounded by R where one circle lies in the"
                " other: their centres are apart by the difference of the radii.",
                r"\sqrt2\,(R - e - x) = R - x",
            ),
        ),
        (
            Claim(
                "panels.panel_centre",
                "Pinned at the centre, either edge draws back by half of what the panel shrinks.",
                *_shown(engagement(_SIGHT, _LEAST, (1 - _S) / 2), by_centre),
            ),
            Claim(
                "panels.panel_edge",
                "Pinned at one edge, the other draws back by all of it.",
                *_shown(engagement(_SIGHT, _LEAST, 1 - _S), by_edge),
            ),
            Claim(
                "panels.groove",
                "A groove takes a panel's engagement, what its edge swells, and the gap c left in its bottom.",
                *_shown(_REACH + edge_travel(_SIGHT + 2 * _REACH, sp.Rational(1, 2), _S) + _LEAST, groove),
            ),
            Claim("panels.board", "Faces at their widest fill the span.", *_shown(board_face(_SPAN, _N, _G, _S), face)),
            Claim("panels.gap", "A gap closes by one face's swelling.", *_shown(board_gap(_W, _G, _S), gap)),
            Claim(
                "panels.tongue",
                "A tongue bridges today's gap, what shrinking opens and the least overlap, and shrinks itself.",
                *_shown(board_tongue(_W, _G, _LAP, _S), tongue),
            ),
            Claim("panels.corner", "Ease spares the corner some rounding.", *_shown(corner_radius(_R, _E), corner)),
        ),
    )


def _shown(running: Expression, derived: Expression) -> tuple[str, Expression, Expression, str]:
    return "x", running, derived, "Solving for x,"
