"""Derivations in symbols, through the code that runs.

Each claim puts two expressions side by side: what the library's own function returns when it is
called with symbols, and the same quantity from first principles (vectors, rotations, planes,
series). Their difference simplifies to zero. There is no second copy of a formula to drift.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import sympy as sp

from furnlib.base.angles import deg, tand
from furnlib.trade.drawer.graduation import constant_ratio_first, constant_step_first
from furnlib.trade.leg.end_cut import cut_slope, edge_offset, extra_length, level_corner, sin_tilt
from furnlib.trade.leg.lean import Lean, sight_line, tan_parts, tan_total_lean

Expression = Any
_DEGREES = {sp.pi * sp.Symbol(x, positive=True) / 180: sp.Symbol(rf"{tex}^\circ") for x, tex in
            (("rho", r"\rho"), ("sigma", r"\sigma"), ("R", "R"), ("S", "S"))}  # fmt: skip
_RHO, _SIGMA, _HEIGHT, _SQUARE = sp.symbols("rho sigma h w", positive=True)
_TANGENTS = {tand(_RHO): sp.Symbol("a", positive=True), tand(_SIGMA): sp.Symbol("b", positive=True)}
"""Rake and splay enter every formula by their tangents; an angle below 90 has one tangent only, so
two expressions that agree for all tangents a and b agree for all leans."""


@dataclass(frozen=True)
class Claim:
    """One formula proved.

    Args:
        key: the formula's key, as it stands in a stamp.
        words: what is claimed, in one sentence.
        shown: the left-hand side as it is written, in LaTeX.
        running: what the library's function returns for symbols.
        derived: the same quantity from first principles.
        why: where the derived expression comes from.
    """

    key: str
    words: str
    shown: str
    running: Expression
    derived: Expression
    why: str

    @property
    def difference(self) -> Expression:
        """Running less derived, simplified: zero when the claim is proved."""
        return sp.simplify((self.running - self.derived).subs(_TANGENTS))


def _written(expression: Expression) -> str:
    """LaTeX with angles in degrees, as the maker reads them."""
    return str(sp.latex(expression.subs(_DEGREES)))


@dataclass(frozen=True)
class Derivation:
    """A set of claims with the picture in words that they start from.

    Args:
        title: what is derived.
        start: the first principles, each a sentence with its formula in LaTeX.
        claims: the formulas.
    """

    title: str
    start: tuple[tuple[str, str], ...]
    claims: tuple[Claim, ...]

    def __getitem__(self, key: str) -> Claim:
        for claim in self.claims:
            if claim.key == key:
                return claim
        raise KeyError(f"{key!r} is not derived here; what is: {', '.join(claim.key for claim in self.claims)}")

    def _repr_markdown_(self) -> str:
        lines = [f"**{self.title}**", ""]
        for words, formula in self.start:
            lines += [words, "", f"$${formula}$$", ""]
        for number, claim in enumerate(self.claims, 1):
            lines += [
                f"**{number}. {claim.words}** Called with symbols, the library's own function returns",
                "",
                f"$${claim.shown} = {_written(claim.running)}$$",
                "",
                f"{claim.why}",
                "",
                f"$${claim.shown} = {_written(claim.derived)}$$",
                "",
                f"and the difference simplifies to ${sp.latex(claim.difference)}$.",
                "",
            ]
        return "\n".join(lines)

    def __repr__(self) -> str:
        return f"<Derivation: {self.title}, {len(self.claims)} claims>"


def derive_lean() -> Derivation:
    """Derive total lean, sight line and axis length from the direction vector of a leg.

    Returns:
        The derivation, in rake rho, splay sigma (degrees) and height h.

    Example:
        >>> derive_lean()["lean.total_lean"].difference
        0
    """
    tan_r, tan_s = tand(_RHO), tand(_SIGMA)
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
                Lean(tan_r, tan_s).axis_length(_HEIGHT),
                (_HEIGHT / cos_total).subs({sp.Abs(t): t for t in (tan_r, tan_s)}),
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


class _TippedLeg:
    """A plumb square leg tipped by the total lean about a level hinge square to its sight line.

    In the two tangents a and b, so that all is algebra; `shown` puts rake and splay back.
    """

    def __init__(self) -> None:
        a, b = _TANGENTS.values()
        length, run = sp.sqrt(1 + a**2 + b**2), sp.sqrt(a**2 + b**2)
        self.up = sp.Matrix([0, 0, 1])
        self._cos, self._sin = 1 / length, run / length
        self._hinge = self.up.cross(sp.Matrix([a / run, b / run, 0]))
        self.axis = self.leaned(-self.up)
        self.corner = sp.Matrix([_SQUARE / 2, _SQUARE / 2, 0])

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
        return sp.simplify(geometry).subs({symbol: tangent for tangent, symbol in _TANGENTS.items()})


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
    tan_r, tan_s = tand(_RHO), tand(_SIGMA)
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
                edge_offset(tan_r, tan_s, _SQUARE / 2, _SQUARE / 2),
                leg.shown(leg.slid(leg.corner)),
                "From the edge itself, slid along the axis until it is level with the axis point,",
            ),
            Claim(
                "end_cut.blank",
                "The two parallel cuts need this much beyond the axis length.",
                r"L_{blank} - L",
                extra_length(_SQUARE, tan_r, tan_s).subs({sp.Abs(t): t for t in (tan_r, tan_s)}),
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
    tan_r, tan_s = tand(_RHO), tand(_SIGMA)
    a, b = _TANGENTS.values()
    leg = _TippedLeg()
    level = leg.leaned(leg.corner) + leg.slid(leg.corner) * leg.axis
    forward, sideways = level_corner(tan_r, tan_s, _SQUARE / 2, _SQUARE / 2)
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


def derive_graduation() -> Derivation:
    """Derive the top opening of a constant step and of a constant ratio by summing the openings.

    Returns:
        The derivation, in clear height S_h, number of openings n, step d and ratio g.

    Example:
        >>> derive_graduation()["graduation.step"].difference
        0
    """
    clear, rows, step, ratio = sp.symbols("S_h n d g", positive=True)
    first, row = sp.Symbol("h_1", positive=True), sp.Symbol("i", integer=True)
    stepped = sp.summation(first + (row - 1) * step, (row, 1, rows))
    scaled = first * (ratio**rows - 1) / (ratio - 1)
    return Derivation(
        "The top opening from the sum of all openings",
        (
            (
                "The openings fill the clear height, the inside height less the dividers. With a constant step each"
                " is d taller than the one above,",
                rf"S_h = \sum_{{i=1}}^{{n}}\left(h_1 + (i-1)\,d\right) = {sp.latex(sp.expand(stepped))}",
            ),
            (
                "with a constant ratio each is g times the one above; g times the sum, less the sum, leaves the ends,",
                r"g S_h - S_h = h_1 g^n - h_1",
            ),
        ),
        (
            Claim(
                "graduation.step",
                "Constant step: the top opening is the mean less half the climb.",
                "h_1",
                constant_step_first(clear, rows, step),
                sp.solve(sp.Eq(stepped, clear), first)[0],
                "Solving the sum for the top opening,",
            ),
            Claim(
                "graduation.ratio",
                "Constant ratio: the top opening is a share of the whole.",
                "h_1",
                constant_ratio_first(clear, rows, ratio),
                sp.solve(sp.Eq(scaled, clear), first)[0],
                "Solving the sum for the top opening,",
            ),
        ),
    )
