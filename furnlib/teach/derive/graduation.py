"""Graduated openings from the sum of all of them, and from the numbers that name a rule."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.drawer.sums import (
    constant_ratio_first,
    constant_step_first,
    first_from_end_ratio,
    ratio_from_end_ratio,
    step_from_first,
    weighted_opening,
)

_CLEAR, _ROWS, _STEP, _RATIO, _END = sp.symbols("S_h n d g Q", positive=True)
_FIRST, _ROW = sp.Symbol("h_1", positive=True), sp.Symbol("i", integer=True)


def derive_graduation() -> Derivation:
    """Derive the top opening, the step and the ratio of a graduation by summing the openings.

    Returns:
        The derivation, in clear height S_h, number of openings n, step d, ratio g, end ratio Q and
        weights w.

    Example:
        >>> derive_graduation()["graduation.step"].difference
        0
    """
    stepped = sp.summation(_FIRST + (_ROW - 1) * _STEP, (_ROW, 1, _ROWS))
    scaled = _FIRST * (_RATIO**_ROWS - 1) / (_RATIO - 1)
    last = _FIRST + (_ROWS - 1) * _STEP
    ends = sp.solve([sp.Eq(stepped, _CLEAR), sp.Eq(last, _END * _FIRST)], [_FIRST, _STEP], dict=True)[0]
    weight, others, share, steps = sp.symbols("w W_o c m", positive=True)
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
            (
                "and with weights each is one common measure c, as often as its weight says; w is its own weight, W_o"
                " all the others added up.",
                r"S_h = c\,(w + W_o)",
            ),
        ),
        (
            Claim(
                "graduation.step",
                "Constant step: the top opening is the mean less half the climb.",
                "h_1",
                constant_step_first(_CLEAR, _ROWS, _STEP),
                sp.solve(sp.Eq(stepped, _CLEAR), _FIRST)[0],
                "Solving the sum for the top opening,",
            ),
            Claim(
                "graduation.ratio",
                "Constant ratio: the top opening is a share of the whole.",
                "h_1",
                constant_ratio_first(_CLEAR, _ROWS, _RATIO),
                sp.solve(sp.Eq(scaled, _CLEAR), _FIRST)[0],
                "Solving the sum for the top opening,",
            ),
            Claim(
                "graduation.step_from_first",
                "The step that a wanted top opening leads to.",
                "d",
                step_from_first(_CLEAR, _ROWS, _FIRST),
                sp.solve(sp.Eq(stepped, _CLEAR), _STEP)[0],
                "Solving the same sum for the step,",
            ),
            Claim(
                "graduation.first_from_end_ratio",
                "Constant step, the lowest opening Q times the top one.",
                "h_1",
                first_from_end_ratio(_CLEAR, _ROWS, _END),
                ends[_FIRST],
                "Solving the sum and $h_n = Q h_1$ together,",
            ),
            Claim(
                "graduation.ratio_from_end_ratio",
                "Constant ratio, the lowest opening Q times the top one: there are n - 1 times from row to row.",
                "g^m",
                ratio_from_end_ratio(steps + 1, _END) ** steps,
                sp.solve(sp.Eq(_FIRST * _RATIO, _END * _FIRST), _RATIO)[0],
                "With m for n - 1, the lowest opening is g to the m times the top one, and Q times it,",
            ),
            Claim(
                "graduation.weights",
                "Weights: an opening is its weight's share of the whole.",
                "h",
                weighted_opening(_CLEAR, weight, weight + others),
                sp.solve(sp.Eq(share * (weight + others), _CLEAR), share)[0] * weight,
                "Solving the sum for the common measure, as often as the weight says,",
            ),
        ),
    )
