"""What a proof is here: the function that runs, beside the same quantity from first principles.

Each claim puts two expressions side by side: what the library's own function returns when it is
called with symbols, and the same quantity from vectors, rotations, planes or series. Their
difference simplifies to zero; where it cannot be simplified, it is shown to be zero to 50 digits at
50 rational points, and the claim says so. There is no second copy of a formula to drift.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import sympy as sp

from furnlib.base.angles import tand

Expression = Any
RHO, SIGMA, HEIGHT, SQUARE = sp.symbols("rho sigma h w", positive=True)
TANGENTS: Mapping[Expression, Expression] = {
    tand(RHO): sp.Symbol("a", positive=True),
    tand(SIGMA): sp.Symbol("b", positive=True),
}
"""Rake and splay enter every formula by their tangents; an angle below 90 has one tangent only, so
two expressions that agree for all tangents a and b agree for all leans."""
_LETTERS = {"rho": r"\rho", "sigma": r"\sigma", "theta": r"\theta", "R": "R", "S": "S", "p": "p"}
_DEGREES = {
    sp.pi * sp.Symbol(name, positive=True) / 180: sp.Symbol(rf"{letter}^\circ") for name, letter in _LETTERS.items()
}
_POINTS, _DIGITS = 50, 50


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
        algebra: what stands for a transcendental expression while the difference is simplified.
        by_points: True where the difference is tried at points, because it does not simplify.
    """

    key: str
    words: str
    shown: str
    running: Expression
    derived: Expression
    why: str
    algebra: Mapping[Expression, Expression] = field(default_factory=lambda: TANGENTS)
    by_points: bool = False

    @property
    def difference(self) -> Expression:
        """Running less derived, simplified: zero when the claim is proved."""
        difference = (self.running - self.derived).subs(self.algebra)
        return _at_points(difference) if self.by_points else sp.simplify(difference)

    @property
    def proof(self) -> str:
        """How the claim is proved, in words."""
        return f"at {_POINTS} rational points, {_DIGITS} digits" if self.by_points else "in symbols"


def _at_points(difference: Expression) -> Expression:
    """Zero where the expression vanishes at every point; else the largest value that was found."""
    chance = random.Random(0)
    symbols = sorted(difference.free_symbols, key=str)
    largest = sp.Integer(0)
    for _ in range(_POINTS):
        point = {symbol: sp.Rational(chance.randint(1, 997), 1009) for symbol in symbols}
        largest = max(largest, abs(difference.subs(point).evalf(_DIGITS + 10)))
    return sp.Integer(0) if largest < sp.Rational(1, 10**_DIGITS) else largest


def written(expression: Expression) -> str:
    """Write an expression in LaTeX, its angles in degrees, as the maker reads them.

    Args:
        expression: a sympy expression.

    Returns:
        The LaTeX text.

    Example:
        >>> written(HEIGHT + SQUARE)
        'h + w'
    """
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
            found = sp.latex(claim.difference)
            ending = (
                f"and the difference is ${found}$ {claim.proof}."
                if claim.by_points
                else f"and the difference simplifies to ${found}$."
            )
            lines += [
                f"**{number}. {claim.words}** Called with symbols, the library's own function returns",
                "",
                f"$${claim.shown} = {written(claim.running)}$$",
                "",
                f"{claim.why}",
                "",
                f"$${claim.shown} = {written(claim.derived)}$$",
                "",
                ending,
                "",
            ]
        return "\n".join(lines)

    def __repr__(self) -> str:
        return f"<Derivation: {self.title}, {len(self.claims)} claims>"
