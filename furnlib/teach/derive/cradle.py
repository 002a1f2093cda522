"""A tapering leg in a V: how its axis lies to the root, and how high above it.

In the V's own frame: along the root towards the leg's top, across, and up square to the root.
"""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.leg.cradle import axis_height, sin_off_vee

_FALL, _FOOT, _LENGTH, _DIAMETER, _V, _G = sp.symbols("f d_f L d v g", positive=True)
_SIN_HALF, _SIN_OFF = sp.symbols("k s", positive=True)
_SINES = {sp.sin(_V / 2): _SIN_HALF, sp.sin(_G): _SIN_OFF}
"""Both angles enter by their sines, so that all is algebra; they are shown as sines again."""


def derive_cradle() -> Derivation:
    """Derive the height of a tapering leg's axis above the root of its V, and the angle between the two.

    Returns:
        The derivation, in the V's angle v, the angle g between axis and root, a diameter d, the foot's
        diameter d_f, the fall f (half of top less foot) and the length L between the two.

    Example:
        >>> derive_cradle()["cradle.off_vee"].difference
        0
    """
    flat = sp.Matrix([0, -sp.sqrt(1 - _SIN_HALF**2), _SIN_HALF])
    axis = sp.Matrix([sp.sqrt(1 - _SIN_OFF**2), 0, _SIN_OFF])
    square_to_axis = flat - axis * axis.dot(flat)
    height = _DIAMETER / 2 * sp.sqrt(sp.simplify(square_to_axis.dot(square_to_axis))) / flat[2]
    climb = height.subs(_DIAMETER, _FOOT + 2 * _FALL) - height.subs(_DIAMETER, _FOOT)
    (sine,) = sp.solve(_LENGTH**2 * _SIN_OFF**2 - sp.simplify(climb**2), _SIN_OFF)
    shown = {symbol: sine_of for sine_of, symbol in _SINES.items()}
    return Derivation(
        "Axis and root of a tapering leg in a V",
        (
            (
                "One flat of the V has the normal n, pointing into the V; the axis a stands at g to the root in the"
                " plane midway between the flats.",
                r"\vec n = \left(0,\ -\cos\tfrac v2,\ \sin\tfrac v2\right), \qquad \vec a = (\cos g,\ 0,\ \sin g)",
            ),
            (
                "Where the leg is d thick, a circle square to the axis touches the flat: its middle, z above the root,"
                " is as far from the flat as the circle reaches towards it.",
                r"z\sin\tfrac v2 = \tfrac d2\left|\vec n - \vec a\,(\vec a\cdot\vec n)\right|",
            ),
        ),
        (
            Claim(
                "cradle.axis_height",
                "The axis stands above the root by the leg's radius over the sine of half the V, and a touch less"
                " where the leg tapers.",
                "z",
                axis_height(_DIAMETER, sp.sin(_G), sp.sin(_V / 2)),
                height.subs(shown),
                "From the circle that touches,",
                _SINES,
            ),
            Claim(
                "cradle.off_vee",
                "From foot to top the axis climbs by L sin g, and no more than the growing circles lift it.",
                r"\sin g",
                sin_off_vee(_FOOT + 2 * _FALL, _FOOT, _LENGTH, sp.sin(_V / 2)),
                sine.subs(shown),
                "From the two heights, their difference set equal to that climb and solved for sin g,",
                _SINES,
            ),
        ),
    )
