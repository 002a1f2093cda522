"""A square at the lathe: how deep its flats and corners lie over a round, and how fast they go past."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.leg.lathe import depth_at_corner, depth_at_flat, rim_speed

_SQUARE, _DIAMETER, _SWING, _RPM, _TIME = sp.symbols("s d D n t", positive=True)
_ALONG = sp.Symbol("y", real=True)


def derive_lathe() -> Derivation:
    """Derive the depths of a stop cut beside a square, and the speed of the rim.

    Returns:
        The derivation, in the side s of the square, the diameter d, the swing D in mm and the turns n a
        minute.

    Example:
        >>> derive_lathe()["lathe.depth_at_corner"].difference
        0
    """
    outline = sp.sqrt((_SQUARE / 2) ** 2 + _ALONG**2)
    (middle,) = sp.solve(sp.diff(outline, _ALONG), _ALONG)
    turned = 2 * sp.pi * _RPM / 60 * _TIME
    velocity = sp.diff(_SWING / 2 * sp.Matrix([sp.cos(turned), sp.sin(turned)]), _TIME)
    return Derivation(
        "Depth and speed of cut on a square between centres",
        (
            (
                "Look along the axis. A face of the square is the line x = s/2, from y = -s/2 to y = s/2; one of its"
                " points is from the axis",
                rf"\varrho(y) = {sp.latex(outline)}",
            ),
            (
                "The tool comes straight at the axis and stops at the circle of the diameter d, so that it goes in by",
                r"\varrho - \tfrac d2",
            ),
            (
                "A point on the rim goes round n times a minute:",
                r"\vec P(t) = \tfrac D2\left(\cos\tfrac{2\pi n t}{60},\ \sin\tfrac{2\pi n t}{60}\right)",
            ),
        ),
        (
            Claim(
                "lathe.depth_at_flat",
                "From the flat it is half of side less diameter.",
                r"t_{flat}",
                depth_at_flat(_SQUARE, _DIAMETER),
                outline.subs(_ALONG, middle) - _DIAMETER / 2,
                f"The face is nearest the axis where its distance does not change, at $y = {sp.latex(middle)}$, and"
                " there",
            ),
            Claim(
                "lathe.depth_at_corner",
                "From the corner it is half of diagonal less diameter, and there the tool meets the wood first.",
                r"t_{corner}",
                depth_at_corner(_SQUARE, _DIAMETER),
                outline.subs(_ALONG, _SQUARE / 2) - _DIAMETER / 2,
                "The corner is where the face ends, y = s/2,",
            ),
            Claim(
                "lathe.rim_speed",
                "The rim runs past the tool at its way round, times the turns in a second.",
                "v",
                rim_speed(_SWING, _RPM),
                sp.sqrt(sp.simplify(velocity.dot(velocity))) / 1000,
                "From the point's speed in mm a second, a thousandth of it in m a second,",
            ),
        ),
    )
