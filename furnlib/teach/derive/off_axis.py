"""Two rounds with parallel axes: what is common to both, and how far an offset one reaches.

Square to the axes, x runs from the middle between them towards one of them, y across.
"""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import cosd
from furnlib.teach.proof import Claim, Derivation, Expression
from furnlib.trade.leg.off_axis import (
    far_reach,
    flush_offset,
    lens_area,
    lens_edge_deg,
    lens_thickness,
    lens_width,
    near_reach,
)

_R, _APART, _OFFSET, _PAD = sp.symbols("r c o r_p", positive=True)
_X, _Y, _Z = sp.symbols("x y z", real=True)
_U, _FROM = sp.symbols("u q", positive=True)


def _roots(round_: Expression, place: Expression) -> list[Expression]:
    """Where a round ends on a line, the root further along it first."""
    return sorted(sp.solve(round_, place), key=lambda root: -float(root.subs({_R: 2, _APART: 1, _OFFSET: 1})))


def derive_off_axis() -> Derivation:
    """Derive the sizes of a lens and the reaches of an offset leg.

    Returns:
        The derivation, in the radius r, the distance c between two axes, the offset o and the radius
        r_p of the pad.

    Example:
        >>> derive_off_axis()["off_axis.lens_area"].difference
        0
    """
    other = (_X + _APART / 2) ** 2 + _Y**2 - _R**2
    tip, edge = _roots(other.subs(_Y, 0), _X)[0], _roots(other.subs(_X, 0), _Y)[0]
    radii = sp.Matrix([_APART / 2, edge]), sp.Matrix([-_APART / 2, edge])
    quarter = _R**2 * sp.integrate(sp.sqrt(1 - _U**2), (_U, _FROM, 1)).subs(_FROM, _APART / (2 * _R))
    near, far = _roots((_Z - _OFFSET) ** 2 - _R**2, _Z)
    (flush,) = sp.solve(near - _PAD, _OFFSET)
    return Derivation(
        "Turning on two axes",
        (
            (
                "Each round keeps the wood within its radius.",
                r"\left(x \mp \tfrac c2\right)^2 + y^2 \le r^2",
            ),
        ),
        (
            Claim(
                "off_axis.lens_thickness",
                "In the plane of the axes the lens is thinner than the round by the distance between them.",
                "t",
                lens_thickness(_R, _APART),
                2 * tip,
                "From where the far round ends on that plane, y = 0, twice,",
                {},
            ),
            Claim(
                "off_axis.lens_width",
                "From edge to edge it is as wide as both rounds where they meet.",
                "b",
                lens_width(_R, _APART),
                2 * edge,
                "From where both rounds meet, x = 0, twice,",
                {},
            ),
            Claim(
                "off_axis.lens_edge",
                "The arcs meet at each edge in an angle that only the distance as a share of the radius decides.",
                r"\cos \varepsilon",
                cosd(lens_edge_deg(_R, _APART)),
                -(radii[0].dot(radii[1])) / _R**2,
                "From the two radii to the edge, each square to its arc: the angle between them and the angle of wood"
                " make half a turn,",
                {},
            ),
            Claim(
                "off_axis.lens_area",
                "Its section is what the two axes leave of the round's area.",
                "A",
                lens_area(_R, _APART),
                4 * quarter,
                "From four equal quarters, each from the middle to a round's end in strips as high as the round, with x"
                " from its axis as a share u of the radius, from c / 2r to 1,",
                {},
            ),
            Claim(
                "off_axis.near_reach",
                "On the side of its own axis an offset part reaches further by the offset.",
                "z_{near}",
                near_reach(_R, _OFFSET),
                near,
                r"From the round about its own axis, $(z - o)^2 = r^2$, on the line through both axes,",
                {},
            ),
            Claim(
                "off_axis.far_reach",
                "On the other side it reaches less far by the offset.",
                "z_{far}",
                far_reach(_R, _OFFSET),
                -far,
                "From the other root, counted away from the offset,",
                {},
            ),
            Claim(
                "off_axis.flush",
                "It comes flush with a pad on the true axis when the offset is the difference of both radii.",
                "o",
                flush_offset(_PAD, _R),
                flush,
                "From the near reach set equal to the pad's radius,",
                {},
            ),
        ),
    )
