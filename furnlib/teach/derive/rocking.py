"""Four feet on a floor: the fourth beside the plane of the other three."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.leg.rocking import Four, foot_levers, gaps_under, rocked_gap, scatters_under

_A, _B, _C, _D, _V = sp.symbols("a b c d v", positive=True)
_U = sp.Symbol("u", real=True)
_ENDS = sp.symbols("s_1:5", real=True)
_SCATTERS = sp.symbols("sigma_1:5", positive=True)
_GAP, _NEAR, _FAR = sp.symbols("g d_1 d_3", positive=True)


def derive_rocking() -> Derivation:
    """Derive the gap under a foot from the plane of the other three, and what becomes of it.

    Returns:
        The derivation, in the four parts a, b, c, d of the diagonals and the shortfalls s of the feet.

    Example:
        >>> derive_rocking()["rocking.gap"].difference
        0
    """
    levers = _levers((_A, _B * _U, -_C, -_D * _U), (0, _B * _V, 0, -_D * _V))
    rectangle = _levers((_A, _A, -_A, -_A), (-_B, _B, _B, -_B))
    mirrored = _levers((_A, _A, -_C, -_C), (-_B, _B, _D, -_D))
    front, rear = _SCATTERS[0], _SCATTERS[2]
    crossing = (_D * _ENDS[1] + _B * _ENDS[3]) / (_B + _D)
    gap = _ENDS[0] - crossing + _A / _C * (_ENDS[2] - crossing)
    down = sp.rot_axis2(-sp.atan(_GAP / _NEAR))
    return Derivation(
        "What hangs when four feet stand on three",
        (
            (
                "Lay the plan so that its diagonals cross at the origin: they are a + c and b + d long, and (u, v) is"
                " the direction of the second. Each foot ends so much above the floor as it is short:",
                r"P_1 = (a,\ 0,\ s_1),\quad P_2 = (bu,\ bv,\ s_2),\quad P_3 = (-c,\ 0,\ s_3),"
                r"\quad P_4 = (-du,\ -dv,\ s_4)",
            ),
            (
                "Where the diagonals cross, the line between feet 2 and 4 is at the height",
                rf"s_0 = {sp.latex(crossing)}",
            ),
        ),
        (
            Claim(
                "rocking.gap",
                "The gap under a foot, with the other three down, is the twist of the four over the foot's lever.",
                "g_1",
                gaps_under(levers, _ENDS)[0],
                gap,
                "From the line through foot 3 and the crossing point: it lies in the plane of the three, and runs on to"
                " below foot 1,",
            ),
            Claim(
                "rocking.scatter",
                "Slips of their own add as squares.",
                r"\sigma_g^2",
                scatters_under(levers, _SCATTERS)[0] ** 2,
                sum(sp.factor(gap.diff(end)) ** 2 * slip**2 for end, slip in zip(_ENDS, _SCATTERS, strict=True)),
                "From the slope of that gap with the height of each foot,",
            ),
            Claim(
                "rocking.rectangle",
                "On a rectangle the gap scatters twice as much as the height of one foot.",
                r"\sigma_g",
                scatters_under(rectangle, (front,) * 4)[0],
                sp.sqrt(front**2 + front**2 + front**2 + front**2),
                "From four equal squares,",
            ),
            Claim(
                "rocking.mirror",
                "One slip shared by all legs of a piece with mirrored sides leaves no gap at all.",
                "g_1",
                gaps_under(mirrored, (front, front, rear, rear))[0],
                sp.Integer(0),
                "The ends of each pair are level with one another, and two level lines side by side lie in one plane,",
            ),
            Claim(
                "rocking.opposite",
                "Rocked onto its short foot, the piece lifts the opposite one by the ratio of their distances.",
                "g_3",
                rocked_gap(_GAP, _NEAR, _FAR),
                (down * sp.Matrix([-_FAR, 0, 0]))[2],
                "From the turn about the diagonal that brings the short foot from (d_1, 0, g) down to the floor,"
                " applied to the opposite foot at (-d_3, 0, 0),",
            ),
        ),
    )


def _levers(fore_aft: Four, sideways: Four) -> Four:
    """What the library returns for the levers, in factors."""
    first, second, third, fourth = (sp.factor(lever) for lever in foot_levers(fore_aft, sideways))
    return first, second, third, fourth
