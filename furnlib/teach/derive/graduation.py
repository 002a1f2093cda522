"""The top opening of a graduation, by summing the openings."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.drawer.graduation import constant_ratio_first, constant_step_first


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
