"""What a turning needs of its blank: how thick, how long, and where an octagon's gauge lines lie.

Along the leg x runs from the top's axis point to the foot's; y and z are square to it, and the leg
leans in the plane of x and y.
"""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import tand
from furnlib.teach.proof import SQUARE, Claim, Derivation, Expression, written
from furnlib.trade.leg.blank import (
    blank_length,
    blank_side,
    octagon_corners,
    octagon_flat,
    octagon_gauge,
    round_end_extra,
)

_D, _TOP, _LENGTH, _KERF, _WASTE, _TOP_WASTE = sp.symbols("d d_t L b w_f w_t", positive=True)
_ROUGHING, _CENTRING, _LEAN, _C = sp.symbols("r_o c_e R c", positive=True)
_TAPER, _TOP_TAPER, _X, _GAUGE, _ANGLE = sp.symbols("k k_t x e t", real=True)
_ALGEBRA = {tand(_LEAN): sp.Symbol("a", positive=True)}


def _cut_end(diameter: Expression, taper: Expression, at: Expression, outward: int, across: Expression) -> Expression:
    """Where a level cut through the axis at a point meets the surface, on the line that lies c of the radius across."""
    radius = diameter / 2 + taper / 2 * outward * (_X - at)
    (found,) = sp.solve(_X - at - tand(_LEAN) * radius * across, _X)
    return found


def derive_blank() -> Derivation:
    """Derive a blank's side and length and the gauge lines of its octagon.

    Returns:
        The derivation, in the diameters d of the foot (and of the turning) and d_t of the top, their
        tapers k, the total lean R, the axis length L, roughing r_o and centring c_e, the square's side
        w, the wastes w_t and w_f at top and foot, and the kerf b.

    Example:
        >>> derive_blank()["blank.octagon_gauge"].difference
        0
    """
    reach = _CENTRING * sp.cos(_ANGLE) + _D / 2 + _ROUGHING
    foot = _cut_end(_D, _TAPER, _LENGTH, 1, _C)
    top = _cut_end(_TOP, _TOP_TAPER, sp.Integer(0), -1, -sp.Integer(1))
    ends = (foot.subs(_C, 1) + _KERF + _WASTE, top - _KERF - _TOP_WASTE)
    (gauge,) = sp.solve(SQUARE - 2 * _GAUGE - sp.sqrt(2) * _GAUGE, _GAUGE)
    corner = sp.Matrix([SQUARE / 2, SQUARE / 2 - gauge])
    slope, grows = tand(_LEAN), sp.factor(sp.diff(foot, _C))
    return Derivation(
        "The blank of a turned leg",
        (
            (
                "The axis stands off the middle of the square by the centring, in a direction that nobody knows: at t"
                " from square to a face. The wood that roughing needs reaches towards that face by",
                sp.latex(reach),
            ),
            (
                "A level cut runs through a point of the axis. On a line of the leg's surface, c of the radius across"
                " in the plane of the lean, it comes out further along by",
                r"x = \tan R\ c\left(\tfrac d2 + \tfrac k2\,x\right)",
            ),
            (
                "A gauge line lies e from each arris of the square: what is left of each face is as wide as the new"
                " flat across the corner.",
                r"w - 2e = \sqrt 2\,e",
            ),
        ),
        (
            Claim(
                "blank.side",
                "The square holds the turning, both allowances on the radius.",
                "s",
                blank_side(_D, _ROUGHING, _CENTRING),
                2 * reach.subs(_ANGLE, min(sp.solve(sp.diff(reach, _ANGLE), _ANGLE))),
                "From twice the reach, where it is greatest, the axis moved straight at the face,",
                {},
            ),
            Claim(
                "blank.round_end",
                "On the long side a level cut on a round end reaches past its axis point.",
                "x_{long}",
                round_end_extra(_D, slope, _TAPER),
                sp.factor(foot.subs(_C, 1) - _LENGTH),
                f"From the cut and the surface, solved for x, which grows with c by ${written(grows)}$ for each"
                " unit of it, and so with c = 1,",
                _ALGEBRA,
            ),
            Claim(
                "blank.round_end_short",
                "On the short side it falls back by the same function, the lean turned round.",
                "x_{short}",
                round_end_extra(_D, -slope, _TAPER),
                sp.factor(foot.subs(_C, -1) - _LENGTH),
                "From the same, with c = -1,",
                _ALGEBRA,
            ),
            Claim(
                "blank.length",
                "From one end of the blank to the other there are the leg, what both ends reach past its axis, a kerf"
                " and the waste at each end.",
                "length",
                blank_length(
                    _LENGTH,
                    round_end_extra(_TOP, slope, _TOP_TAPER),
                    round_end_extra(_D, slope, _TAPER),
                    _TOP_WASTE,
                    _WASTE,
                    _KERF,
                ),
                _LENGTH + sp.factor(ends[0] - ends[1] - _LENGTH),
                "From the two ends on x, the furthest place of each cut with kerf and waste beyond it, one less the"
                " other,",
                _ALGEBRA,
            ),
            Claim(
                "blank.octagon_gauge",
                "For eight equal sides the gauge is set to a little less than a third of the square.",
                "e",
                octagon_gauge(SQUARE),
                gauge,
                "From the equal flats, solved for e,",
                {},
            ),
            Claim(
                "blank.octagon_flat",
                "Each of the eight flats is then a little wider than two fifths of it.",
                "f",
                octagon_flat(SQUARE),
                sp.sqrt(2) * gauge,
                "From the flat across a corner,",
                {},
            ),
            Claim(
                "blank.octagon_corners",
                "From corner to corner the octagon measures a twelfth more than the square.",
                "g",
                octagon_corners(SQUARE),
                2 * sp.sqrt(sp.expand(corner.dot(corner))),
                "From twice the distance of a corner, on a face and e from the arris, to the middle,",
                {},
            ),
        ),
    )
