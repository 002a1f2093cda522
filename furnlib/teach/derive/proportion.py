"""Rectangles by ratio: golden section, reciprocal and gnomon, root rectangles, and what legs do to a ratio."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.case.proportion import case_ratio, gnomon, leg_share, reciprocal
from furnlib.trade.case.ratios import surd

_RATIO, _HEIGHT, _WIDTH, _LEGS, _N = sp.symbols("r H W l n", positive=True)
_X = sp.Symbol("x", positive=True)
_FIVE = sp.Integer(5)


def derive_proportion() -> Derivation:
    """Derive the ratios of the table that are no fractions, the reciprocal rectangle, and the case without legs.

    Returns:
        The derivation, in ratio r (long over short), silhouette height H, width W, leg height l and number n.

    Example:
        >>> derive_proportion()["proportion.golden"].difference
        0
    """
    (golden,) = sp.solve(sp.Eq(_X, (1 + _X) / _X), _X)
    (root_golden,) = sp.solve(sp.Eq(sp.sqrt(1 + _X**2) / _X, _X), _X)
    diagonal, perpendicular = sp.Matrix([1, _RATIO]), sp.Matrix([-1, _X])
    (cut,) = sp.solve(diagonal.dot(perpendicular), _X)
    turned_down = sp.sqrt(1 + _N)  # diagonal of 1 by root n
    silhouette, case = _HEIGHT / _WIDTH, (_HEIGHT - _LEGS) / _WIDTH
    (share,) = sp.solve(sp.Eq(silhouette * (1 - _X), case), _X)
    return Derivation(
        "Ratios of rectangles",
        (
            (
                "A rectangle stands 1 wide and r high. A line through its lower right corner cuts the left side x"
                " above the floor; it is square to the rising diagonal where the product of the two vanishes.",
                r"\vec d = (1,\ r), \qquad \vec p = (-1,\ x), \qquad \vec d\cdot\vec p = 0",
            ),
            (
                "In the golden section the whole is to the long part as the long part is to the short; the short"
                " part is 1 and the long one x.",
                r"\frac{x}{1} = \frac{1 + x}{x}",
            ),
            (
                "The diagonal of a rectangle 1 by root n, turned down onto its long side, is the next one's long side.",
                r"\sqrt{1^2 + \sqrt{n}^2}",
            ),
        ),
        (
            Claim(
                "proportion.golden",
                "The golden section has one value.",
                "r",
                surd(1, _FIVE, 2),
                golden,
                "Solving the proportion for the long part,",
            ),
            Claim(
                "proportion.squares",
                "A square taken from a golden rectangle leaves another, which stands across it; and so for ever.",
                r"\frac 1 r",
                reciprocal(surd(1, _FIVE, 2)),
                golden - 1,
                "The rest is 1 wide and r - 1 high:",
            ),
            Claim(
                "proportion.root_golden",
                "Where the diagonal is to the long side as the long side to the short, the ratio is the root of the"
                " golden section.",
                "r",
                surd(1, _FIVE, 2, sp.Rational(1, 2)),
                root_golden,
                "Solving that proportion,",
            ),
            Claim(
                "proportion.square_golden",
                "A golden rectangle lengthened by a square has the square of the golden section.",
                "r",
                surd(1, _FIVE, 2, 2),
                golden + 1,
                "The square adds 1:",
            ),
            Claim(
                "proportion.root",
                "Each root rectangle is drawn from the one before.",
                "r",
                surd(0, _N + 1, 1),
                turned_down,
                "By Pythagoras, the diagonal is",
            ),
            Claim(
                "proportion.reciprocal",
                "The perpendicular to the diagonal cuts off a like rectangle: 1 long and 1/r short.",
                "x",
                reciprocal(_RATIO),
                cut,
                "Solving the product for x,",
            ),
            Claim(
                "proportion.gnomon",
                "What the reciprocal leaves is the gnomon.",
                "r - x",
                gnomon(_RATIO),
                _RATIO - cut,
                "The long side less the cut:",
            ),
            Claim(
                "proportion.ratio",
                "The case without legs is less upright than the silhouette, by the legs' share.",
                r"\frac{H - l}{W}",
                case_ratio(_HEIGHT, _WIDTH, _LEGS),
                silhouette * (1 - _LEGS / _HEIGHT),
                "The silhouette's ratio, less the legs' share of it:",
            ),
            Claim(
                "proportion.leg_share",
                "What the ratio loses, in shares of the silhouette's, is the legs' share of the height.",
                r"\frac l H",
                leg_share(_LEGS, _HEIGHT),
                share,
                "The case's ratio set equal to the silhouette's less a share x of it, and solved for x:",
            ),
        ),
    )
