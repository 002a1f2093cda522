"""A leaning leg as a beam: bending, the weakest place of a taper, the forces on a tenon, grain that runs off.

A section bends about a line through its middle; stress grows evenly with the distance from that line. In the
plane of the lean: outward, and up.
"""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import deg
from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.case.strength import (
    bending_stress,
    round_section_modulus,
    square_section_modulus,
    strength_share_of_grain,
    tenon_forces,
    weakest_taper_diameter,
)

_M, _D, _A, _FOOT, _GAIN, _U, _P, _T = sp.symbols("M_b d a d_f k u P T", positive=True)
_C, _R, _SLOPE = sp.symbols("c R alpha", positive=True)
_RADIUS, _TURN, _X, _Y, _STRESS = sp.symbols("r t x y sigma", real=True)


def _edge_stress(moment_of_unit_stress: sp.Expr) -> sp.Expr:
    """Stress at the edge whose moment over the whole section is M_b."""
    (stress,) = sp.solve(_STRESS * moment_of_unit_stress - _M, _STRESS)
    return stress


def derive_strength() -> Derivation:
    """Derive the stress of a bent leg, where a taper is weakest, the tenon's forces and the share of the grain.

    Returns:
        The derivation, in the moment M_b, the diameter d or the side a, the foot's diameter d_f, the total lean R
        in degrees, the pushes P upward and T outward, the slope of the grain alpha in degrees and the share c
        of the strength across it.

    Example:
        >>> derive_strength()["strength.taper"].difference
        0
    """
    height = _RADIUS * sp.sin(_TURN)
    in_round = sp.integrate(height / (_D / 2) * height * _RADIUS, (_RADIUS, 0, _D / 2), (_TURN, 0, 2 * sp.pi))
    in_square = sp.integrate(_Y / (_A / 2) * _Y, (_X, -_A / 2, _A / 2), (_Y, -_A / 2, _A / 2))
    thickness = _FOOT + _GAIN * _U
    (furthest,) = sp.solve(sp.diff(_U / thickness**3, _U), _U)
    lean = deg(_R)
    upward_along_axis = sp.Matrix([-sp.sin(lean), sp.cos(lean)])
    square_to_axis = sp.Matrix([sp.cos(lean), sp.sin(lean)])
    floor = sp.Matrix([_T, _P])
    across, along = tenon_forces(_R, _T, _P)
    grain = sp.Matrix([sp.cos(deg(_SLOPE)), sp.sin(deg(_SLOPE))])
    weakness = (grain.T * sp.diag(1, 1 / _C) * grain)[0]
    return Derivation(
        "A leaning leg as a beam",
        (
            (
                "Stress in a bent section grows with the distance y from its middle line to the stress at its edge, and"
                " its turning effect, added up over the section, is the moment.",
                r"M_b = \int \sigma\,\frac{y}{y_{edge}}\,y\,dA",
            ),
            (
                "The floor pushes on the foot, P upward and T outward; the leg rises from there inward at R to plumb.",
                r"\vec F = (T,\ P), \qquad \vec a = (-\sin R,\ \cos R), \qquad \vec n = (\cos R,\ \sin R)",
            ),
            (
                "Grain runs off at alpha. The reciprocal of the strength, 1 for straight grain, is taken as the"
                " reciprocals along and across the grain, mixed by the squares of the two parts of the direction."
                " This was found by tests on wood, not by reasoning.",
                r"\frac{1}{N} = \cos^2\alpha + \frac{\sin^2\alpha}{c}",
            ),
        ),
        (
            Claim(
                "strength.bending_round",
                "The edge of a round is stressed by 32 times the moment over pi and the cube of its diameter.",
                r"\sigma",
                bending_stress(_M, round_section_modulus(_D)),
                _edge_stress(in_round),
                "From the sum over the round, in rings and turns,",
            ),
            Claim(
                "strength.bending_square",
                "The edge of a square is stressed by 6 times the moment over the cube of its side.",
                r"\sigma",
                bending_stress(_M, square_section_modulus(_A)),
                _edge_stress(in_square),
                "From the sum over the square,",
            ),
            Claim(
                "strength.taper",
                "A taper pushed at its thin end is stressed most where it is half as thick again as there.",
                "d",
                weakest_taper_diameter(_FOOT),
                thickness.subs(_U, furthest),
                "The stress goes as u over the cube of d_f + k u; its slope set to zero and solved for u,",
            ),
            Claim(
                "strength.tenon_across",
                "What bends the leg is the part of both pushes that is square to its axis.",
                r"\vec F\cdot\vec n",
                across,
                floor.dot(square_to_axis),
                "From the vectors,",
            ),
            Claim(
                "strength.tenon_along",
                "What presses the leg together is the part along its axis; an outward push takes from it.",
                r"\vec F\cdot\vec a",
                along,
                floor.dot(upward_along_axis),
                "From the vectors,",
            ),
            Claim(
                "strength.grain",
                "Where the grain runs off, the strength falls to this share.",
                "N",
                strength_share_of_grain(_SLOPE, _C),
                1 / weakness,
                "From the mixed reciprocals,",
            ),
        ),
    )
