"""Total lean, sight line and length of a leaning leg, from its direction vector."""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import deg, tand
from furnlib.teach.proof import HEIGHT, RHO, SIGMA, Claim, Derivation
from furnlib.trade.leg.lean import Lean, sight_line, tan_parts, tan_total_lean


def derive_lean() -> Derivation:
    """Derive total lean, sight line and axis length from the direction vector of a leg.

    Returns:
        The derivation, in rake rho, splay sigma (degrees) and height h.

    Example:
        >>> derive_lean()["lean.total_lean"].difference
        0
    """
    tan_r, tan_s = tand(RHO), tand(SIGMA)
    total, sight = sp.symbols("R S", positive=True)
    axis, plumb = sp.Matrix([tan_r, tan_s, -1]), sp.Matrix([0, 0, -1])
    cos_total = axis.dot(plumb) / axis.norm()
    sphere = [sp.sin(deg(total)) * sp.cos(deg(sight)), sp.sin(deg(total)) * sp.sin(deg(sight)), -sp.cos(deg(total))]
    back = tan_parts(tand(total), sight)
    return Derivation(
        "Total lean, sight line and length of a leaning leg",
        (
            (
                "Go one unit down along the leg. Seen square-on from the side it moves outward by tan ρ, seen from the"
                " front by tan σ: rake and splay are two shadows of one direction, and neither comes first.",
                r"\vec a = \left(\tan\rho,\ \tan\sigma,\ -1\right), \qquad \vec p = (0,\ 0,\ -1)",
            ),
        ),
        (
            Claim(
                "lean.total_lean",
                "The total lean is neither the sum nor the mean of rake and splay.",
                r"\tan R",
                tan_total_lean(tan_r, tan_s),
                axis.cross(plumb).norm().subs({sp.Abs(t): t for t in (tan_r, tan_s)}) / axis.dot(plumb),
                "From the vectors: the tangent of the angle between leg and plumb is the length of their cross product"
                " over their dot product,",
            ),
            Claim(
                "lean.sight_line",
                "The sight line is the plan direction from the top to the foot.",
                r"\tan S",
                sp.tan(deg(sight_line(tan_r, tan_s))),
                axis[1] / axis[0],
                "From the vectors: what is left on the floor is the step sideways over the step forward,",
            ),
            Claim(
                "lean.axis_length",
                "The length along the axis is the height stretched by the total lean.",
                "L",
                Lean(tan_r, tan_s).axis_length(HEIGHT),
                (HEIGHT / cos_total).subs({sp.Abs(t): t for t in (tan_r, tan_s)}),
                "From the vectors: a height h along a line at R from plumb is h / cos R,",
            ),
            Claim(
                "lean.rake",
                "Back again: rake from total lean and sight line.",
                r"\tan\rho",
                back[0],
                sp.trigsimp(-sphere[0] / sphere[2]),
                "From the direction (sin R cos S, sin R sin S, -cos R): the step forward over the drop,",
            ),
            Claim(
                "lean.splay",
                "And splay from the two.",
                r"\tan\sigma",
                back[1],
                sp.trigsimp(-sphere[1] / sphere[2]),
                "From the same direction: the step sideways over the drop,",
            ),
        ),
    )
