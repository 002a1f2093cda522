"""Wood that moves: a straight line from green to dry, a circle on the end grain that becomes an ellipse."""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import cosd, sind
from furnlib.teach.proof import Claim, Derivation, written
from furnlib.trade.wood.movement import (
    change_by_coefficient,
    change_by_shrinkage,
    coefficient_at_ring,
    corner_error_deg,
    edge_stretch,
    face_stretch,
)

_WIDTH, _C, _S, _FIRST, _LAST, _MOST = sp.symbols("w C S M_1 M_2 F", positive=True)
_ALONG, _SQUARE, _C_T, _C_R, _RISE = sp.symbols("a b C_T C_R m", positive=True)
_RING = sp.Symbol("theta", positive=True)


def derive_movement() -> Derivation:
    """Derive how a size changes by either law, and what a stretched end grain does to faces and corners.

    Returns:
        The derivation, in width w, moisture contents M_1 and M_2, change coefficients C, C_T and C_R,
        shrinkage S, fibre saturation F, ring angle theta, stretches a along the rings and b square to them.

    Example:
        >>> derive_movement()["movement.shrinkage"].difference
        0
    """
    green, moisture, other = sp.symbols("G M D", positive=True)
    at_ten = other * (1 + _C * (moisture - 10))
    share = (at_ten.subs(moisture, _LAST) - at_ten.subs(moisture, _FIRST)) / at_ten.subs(moisture, _FIRST)
    line = green * (1 - _S / 100 * (_MOST - moisture) / _MOST)
    (size,) = sp.solve(line.subs(moisture, _FIRST) - _WIDTH, green)
    dried = line.subs(moisture, _LAST).subs(green, size) - _WIDTH
    grain = sp.diag(_ALONG, _SQUARE)  # along the rings, square to them
    face = grain * sp.Matrix([cosd(_RING), sind(_RING)])
    edge = grain * sp.Matrix([-sind(_RING), cosd(_RING)])
    length, thickness = (sp.sqrt(arrow.dot(arrow)) for arrow in (face, edge))
    slight = {_ALONG: 1 + _C_T * _RISE, _SQUARE: 1 + _C_R * _RISE}
    there = change_by_coefficient(_WIDTH, _C, _FIRST, _LAST)
    return Derivation(
        "Wood across the grain",
        (
            (
                "Size runs with moisture content M in a straight line. By its shrinkage S, in per cent of the green"
                " size G, it begins at fibre saturation F, mostly 30 %, and ends at 0:",
                rf"D(M) = {sp.latex(line)}",
            ),
            (
                "By its change coefficient C the line is drawn through the size D at 10 %:",
                rf"D(M) = {sp.latex(at_ten)}",
            ),
            (
                "Along the growth rings wood stretches by a, square to them by b. A face at the ring angle and the edge"
                " square to it become",
                rf"\vec f = {written(face)}, \qquad \vec e = {written(edge)}",
            ),
        ),
        (
            Claim(
                "movement.coefficient",
                "Inside 6 to 14 % a width changes by its coefficient times the change of moisture.",
                r"\Delta",
                change_by_coefficient(_WIDTH, _C, _FIRST, _LAST),
                sp.simplify(_WIDTH * _C * sp.diff(share, _C).subs(_C, 0)),
                "From the second line, to the first order in C,",
            ),
            Claim(
                "movement.there_and_back",
                "There and back, the coefficient leaves this much too little: each way starts from its own width.",
                r"\Delta",
                there + change_by_coefficient(_WIDTH + there, _C, _LAST, _FIRST),
                -_WIDTH * (_C * (_LAST - _FIRST)) ** 2,
                "Grown by the share C(M_2 - M_1) and shrunk by the same share of more,",
            ),
            Claim(
                "movement.shrinkage",
                "Outside, the change follows from the shrinkage, whose per cents are of the green size.",
                r"\Delta",
                change_by_shrinkage(_WIDTH, _S, _FIRST, _LAST, _MOST),
                dried,
                "From the first line, G such that the size at M_1 is w,",
            ),
            Claim(
                "movement.face",
                "A face stretches as the ellipse does in its direction.",
                "s",
                face_stretch(_ALONG, _SQUARE, _RING),
                length,
                "The length of the face's arrow,",
            ),
            Claim(
                "movement.edge",
                "An edge stretches as a face with the rest of 90 degrees.",
                "s",
                edge_stretch(_ALONG, _SQUARE, _RING),
                thickness,
                "The length of the edge's arrow,",
            ),
            Claim(
                "movement.ring",
                "For slight changes the coefficients mix by the squares of cosine and sine.",
                "C",
                coefficient_at_ring(_C_T, _C_R, _RING),
                sp.diff(length.subs(slight), _RISE).subs(_RISE, 0),
                "With a = 1 + C_T m and b = 1 + C_R m, the face's stretch to the first order in m,",
            ),
            Claim(
                "movement.corner",
                "The corner between the two opens by the angle whose sine this is.",
                r"\sin\varepsilon",
                sind(corner_error_deg(_ALONG, _SQUARE, _RING)),
                -face.dot(edge) / (length * thickness),
                "The cosine of a corner of 90 degrees and that angle is the product of the two arrows over their"
                " lengths,",
            ),
        ),
    )
