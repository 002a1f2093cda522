"""Slots across the grain and the button's tongue, from where panel, screw and slot stand in a season."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation, Expression
from furnlib.trade.case.slots import away_end, bite_today, toward_end

_X, _S, _D, _EXTRA, _LEAST = sp.symbols("x s d e b_min", positive=True)
_END = sp.Symbol("r")
_SIZES = _X, _S, _D, _EXTRA


def derive_slots() -> Derivation:
    """Derive both ends of a slot, in the part that stays and in the part that moves, and a tongue's bite.

    Returns:
        The derivation, in the distance x from the fixed point, the stretch s, the screw's thickness d, the extra
        room e, and the least bite of a tongue.

    Example:
        >>> derive_slots()["slots.slot_away"].difference
        0
    """
    half = _D / 2 + _EXTRA
    (away,) = sp.solve(sp.Eq(_X + _END, _X * _S + half), _END)
    (toward,) = sp.solve(sp.Eq(_X - _END, _X * _S - half), _END)
    (away_moving,) = sp.solve(sp.Eq((_X + _END) * _S, _X + half), _END)
    (toward_moving,) = sp.solve(sp.Eq((_X - _END) * _S, _X - half), _END)
    (bite,) = sp.solve(sp.Eq(_X * _S + _END - _X, _LEAST), _END)
    return Derivation(
        "Slots across the grain",
        (
            (
                "All is measured from the fixed point. What is x away on the panel today is x s away in a season"
                " that makes it s times as wide. The screw needs half its thickness and the extra room.",
                r"x \;\to\; x s, \qquad h = \tfrac d2 + e",
            ),
            (
                "The end r beyond the screw stays in the one case, and in the other goes with the panel past a"
                " screw that stays.",
                r"x + r = x s + h \qquad\text{or}\qquad (x + r)\,s = x + h",
            ),
            ("Towards the fixed point:", r"x - r = x s - h \qquad\text{or}\qquad (x - r)\,s = x - h"),
            ("A button's screw takes along its tongue, whose tip is r inside its groove.", r"r + x s - x = b_{min}"),
        ),
        (
            Claim("slots.slot_away", "Away from the fixed point: swelling, and h.", *_shown(away_end(*_SIZES), away)),
            Claim("slots.slot_toward", "Towards it: shrinking, and h.", *_shown(toward_end(*_SIZES), toward)),
            Claim(
                "slots.slot_away_moving",
                "In the part that moves all turns round: this end comes up to the screw at the narrowest.",
                *_shown(toward_end(*_SIZES) / _S, away_moving),
            ),
            Claim(
                "slots.slot_toward_moving",
                "The other end comes up to it at the widest.",
                *_shown(away_end(*_SIZES) / _S, toward_moving),
            ),
            Claim("slots.bite", "A tongue keeps its least bite.", *_shown(bite_today(_X, 1 - _S, _LEAST), bite)),
        ),
    )


def _shown(running: Expression, derived: Expression) -> tuple[str, Expression, Expression, str]:
    return "r", running, derived, "Solving for r,"
