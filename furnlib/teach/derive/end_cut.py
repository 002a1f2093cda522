"""The level ends of a square leg: what the floor and the saw make of it."""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import tand
from furnlib.teach.proof import RHO, SIGMA, SQUARE, TANGENTS, Claim, Derivation, Expression
from furnlib.trade.leg.end_cut import cut_slope, edge_offset, extra_length, level_corner, sin_tilt


class _TippedLeg:
    """A plumb square leg tipped by the total lean about a level hinge square to its sight line.

    In the two tangents a and b, so that all is algebra; `shown` puts rake and splay back.
    """

    def __init__(self) -> None:
        a, b = TANGENTS.values()
        length, run = sp.sqrt(1 + a**2 + b**2), sp.sqrt(a**2 + b**2)
        self.up = sp.Matrix([0, 0, 1])
        self._cos, self._sin = 1 / length, run / length
        self._hinge = self.up.cross(sp.Matrix([a / run, b / run, 0]))
        self.axis = self.leaned(-self.up)
        self.corner = sp.Matrix([SQUARE / 2, SQUARE / 2, 0])

    def leaned(self, v: Expression) -> Expression:
        """Tip a vector of the plumb leg, foot outward."""
        k = self._hinge
        return v * self._cos - k.cross(v) * self._sin + k * k.dot(v) * (1 - self._cos)

    def tan_mitre(self, face: Expression) -> Expression:
        """Tangent of the angle in a face between the floor's line and square across."""
        pencil, square = face.cross(self.up), face.cross(self.axis)
        return pencil.dot(self.axis) / pencil.dot(square)

    def slid(self, v: Expression) -> Expression:
        """How far along the axis a long edge runs on until it is level with the axis point."""
        return -self.leaned(v).dot(self.up) / self.axis.dot(self.up)

    @staticmethod
    def shown(geometry: Expression) -> Expression:
        """Simplify, and write with rake and splay."""
        return sp.simplify(geometry).subs({symbol: tangent for tangent, symbol in TANGENTS.items()})


_TIPPING = (
    "Tip a plumb square leg by R about a level hinge k, square to the sight line. Any vector v of the leg goes to",
    r"\vec v' = \vec v\cos R - (\vec k\times\vec v)\sin R + \vec k\,(\vec k\cdot\vec v)(1-\cos R)",
)


def derive_end_cut() -> Derivation:
    """Derive the pencil lines, mitre, tilt and blank of a square leg leaned without twist.

    Returns:
        The derivation, in rake rho, splay sigma (degrees) and square w.

    Example:
        >>> derive_end_cut()["end_cut.tilt"].difference
        0
    """
    tan_r, tan_s = tand(RHO), tand(SIGMA)
    leg = _TippedLeg()
    front, side = leg.leaned(sp.Matrix([1, 0, 0])), leg.leaned(sp.Matrix([0, 1, 0]))
    return Derivation(
        "Pencil lines, mitre, tilt and blank of a square leg leaned without twist",
        (_TIPPING,),
        (
            Claim(
                "end_cut.mitre",
                "The pencil line on the front face runs off square by the splay.",
                r"\tan m_{front}",
                cut_slope(tan_s),
                leg.shown(leg.tan_mitre(front)),
                "From the planes: the floor meets the face along face x up, square across the leg is face x axis; the"
                " tangent of the angle between them is",
            ),
            Claim(
                "end_cut.mitre_side",
                "The pencil line on the side face runs off square by the rake.",
                r"\tan m_{side}",
                cut_slope(tan_r),
                leg.shown(-leg.tan_mitre(side)),
                "From the planes, the other way round on this face,",
            ),
            Claim(
                "end_cut.tilt",
                "With the front face on the table the blade tilts by a little less than the rake.",
                r"\sin t_{front}",
                sin_tilt(tan_r, tan_s),
                leg.shown(front.dot(leg.up)),
                "From the planes: the sine of the tilt is the upward share of the face's normal,",
            ),
            Claim(
                "end_cut.tilt_side",
                "With the side face on the table it tilts by a little less than the splay.",
                r"\sin t_{side}",
                sin_tilt(tan_s, tan_r),
                leg.shown(side.dot(leg.up)),
                "From the planes, in the same way,",
            ),
            Claim(
                "end_cut.edge",
                "The outer edge reaches past the axis at the foot.",
                "e",
                edge_offset(tan_r, tan_s, SQUARE / 2, SQUARE / 2),
                leg.shown(leg.slid(leg.corner)),
                "From the edge itself, slid along the axis until it is level with the axis point,",
            ),
            Claim(
                "end_cut.blank",
                "The two parallel cuts need this much beyond the axis length.",
                r"L_{blank} - L",
                extra_length(SQUARE, tan_r, tan_s).subs({sp.Abs(t): t for t in (tan_r, tan_s)}),
                leg.shown(leg.slid(leg.corner) - leg.slid(-leg.corner)),
                "From the outer edge at the foot and the inner edge at the top,",
            ),
        ),
    )


def derive_level_section() -> Derivation:
    """Derive what a level cut makes of the leg's square: stretched along the sight line, and only there.

    Returns:
        The derivation, in rake rho, splay sigma (degrees) and square w.

    Example:
        >>> derive_level_section()["end_cut.level_corner"].difference
        0
    """
    tan_r, tan_s = tand(RHO), tand(SIGMA)
    a, b = TANGENTS.values()
    leg = _TippedLeg()
    level = leg.leaned(leg.corner) + leg.slid(leg.corner) * leg.axis
    forward, sideways = level_corner(tan_r, tan_s, SQUARE / 2, SQUARE / 2)
    return Derivation(
        "The level section of a leg leaned without twist",
        (_TIPPING,),
        (
            Claim(
                "end_cut.level_corner",
                "Along the sight line the outer corner moves out as 1 / cos R.",
                r"f\tan\rho + s\tan\sigma",
                forward * tan_r + sideways * tan_s,
                leg.shown(level[0] * a + level[1] * b),
                "From the outer edge, where it meets the level plane,",
            ),
            Claim(
                "end_cut.level_corner_across",
                "Across the sight line it keeps its place.",
                r"f\tan\sigma - s\tan\rho",
                forward * tan_s - sideways * tan_r,
                leg.shown(level[0] * b - level[1] * a),
                "From the same point,",
            ),
        ),
    )
