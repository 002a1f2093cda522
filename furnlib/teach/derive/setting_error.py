"""Where a slip takes the foot of a leg: the slope of its place, setting by setting."""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import cosd, sind, tand
from furnlib.teach.proof import HEIGHT, Claim, Derivation
from furnlib.trade.leg.setting_error import slip_along, slip_of_height, slip_of_length, slip_of_run

_TOTAL, _SIGHT, _LENGTH, _ARC, _LONG = sp.symbols("R S L q e", positive=True)
_BY_TANGENT = {_TOTAL: 180 * sp.atan(sp.Symbol("t", positive=True)) / sp.pi}


def derive_setting_error() -> Derivation:
    """Derive what a slip of total lean, sight line or length does to the foot.

    Returns:
        The derivation, in total lean R and sight line S (degrees), height h, slips q (an arc) and e.

    Example:
        >>> derive_setting_error()["setting_error.along"].difference
        0
    """
    tangent, slip_deg = tand(_TOTAL), 180 * _ARC / sp.pi
    along = sp.Matrix([cosd(_SIGHT), sind(_SIGHT), 0])
    across, up = sp.Matrix([-sind(_SIGHT), cosd(_SIGHT), 0]), sp.Matrix([0, 0, 1])
    on_floor = HEIGHT * tangent * along
    hung = _LENGTH * (sind(_TOTAL) * along - cosd(_TOTAL) * up)
    fixed = {_LENGTH: HEIGHT / cosd(_TOTAL)}

    def moved(place: sp.Matrix, setting: sp.Symbol, towards: sp.Matrix) -> sp.Expr:
        """Step of a place for a small slip of an angle; a degree of it is π/180 of arc."""
        return sp.simplify(place.diff(setting).dot(towards)) * slip_deg

    lengthwise = slip_of_length(tangent, _LONG)
    return Derivation(
        "Where a slip in setting takes the foot",
        (
            (
                "A leg left long is cut where it meets the floor, h below its top; its foot is then at",
                r"\vec f = h\tan R\,(\cos S,\ \sin S,\ 0)",
            ),
            (
                "and a leg cut to the length L beforehand ends at",
                r"\vec g = L\,(\sin R\cos S,\ \sin R\sin S,\ -\cos R), \qquad L = \frac{h}{\cos R}",
            ),
            (
                "A small slip moves each by its slope times the slip. The slip is written as an arc: one degree is"
                " 0.0175, a little under 2 mm in 100.",
                r"q = 1^\circ = 0.0175",
            ),
        ),
        tuple(
            Claim(f"setting_error.{key}", words, shown, running, derived, why, algebra=_BY_TANGENT)
            for key, words, shown, running, derived, why in (
                (
                    "along",
                    "Cut to the floor, the foot slides out along the sight line, and the more so the more it leans.",
                    r"f_{along}",
                    slip_along(HEIGHT, tangent, slip_deg),
                    moved(on_floor, _TOTAL, along),
                    "From the slope of the place with the total lean, along the sight line,",
                ),
                (
                    "across",
                    "A slip of the sight line swings the foot round plumb by its run.",
                    r"f_{across}",
                    slip_of_run(HEIGHT, tangent, slip_deg),
                    moved(on_floor, _SIGHT, across),
                    "From the slope of the place with the sight line, across that line,",
                ),
                (
                    "shift",
                    "Cut to length beforehand, the foot shifts by the same whatever the lean.",
                    r"g_{along}",
                    slip_of_height(HEIGHT, slip_deg),
                    moved(hung, _TOTAL, along).subs(fixed),
                    "From the slope of the end with the total lean, along the sight line,",
                ),
                (
                    "rise",
                    "And it rises by as much as its run swings up.",
                    r"g_{up}",
                    slip_of_run(HEIGHT, tangent, slip_deg),
                    moved(hung, _TOTAL, up).subs(fixed),
                    "From the same slope, upwards,",
                ),
                (
                    "length_along",
                    "Too long by e, the foot goes outward by a part of it",
                    r"g_{out}",
                    lengthwise[0],
                    sp.simplify(hung.diff(_LENGTH).dot(along)) * _LONG,
                    "From the slope of the end with the length, along the sight line,",
                ),
                (
                    "length_down",
                    "and down by the greater part.",
                    r"g_{down}",
                    lengthwise[1],
                    sp.simplify(-hung.diff(_LENGTH).dot(up)) * _LONG,
                    "From the same slope, downwards,",
                ),
            )
        ),
    )
