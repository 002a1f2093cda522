"""Round rings: a face summed ring by ring, and the end grain moved round the pith."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.wood.cup import change_over_rings, cup_over_rings

_WIDTH, _PITH, _AWAY = sp.symbols("w h u", positive=True)
_ALONG, _SQUARE, _RADIUS, _TURN = sp.symbols("a b r k", positive=True)


def derive_cup() -> Derivation:
    """Derive the change of a face that crosses round rings, and how hollow it becomes.

    Returns:
        The derivation, in width w, distance h of the pith, its offset u, stretches a along the rings
        and b square to them.

    Example:
        >>> derive_cup()["cup.depth"].difference
        0
    """
    place = sp.Symbol("x", real=True)
    level = _PITH**2 / (_PITH**2 + place**2)  # squared cosine of the ring angle, where the face passes x off the pith
    local = _ALONG * level + _SQUARE * (1 - level) - 1
    along = sp.integrate(local, (place, -_WIDTH / 2 - _AWAY, _WIDTH / 2 - _AWAY))
    (turn,) = sp.solve(_SQUARE * _RADIUS * _TURN - _ALONG * _RADIUS, _TURN)
    corner = sp.sqrt(_PITH**2 + (_WIDTH / 2) ** 2)
    seen = sp.atan(_WIDTH / 2 / _PITH)
    return Derivation(
        "Round rings",
        (
            (
                "Where a face passes the pith by x, the ring there lies to it at an angle whose squared cosine is c;"
                " slightly changed, it stretches there by a c + b (1 - c).",
                rf"c = {sp.latex(level)}",
            ),
            (
                "Radii stretch by b, and rings by a. So a ring of radius r has the radius b r afterwards, and of an"
                " angle about the pith k times as much is left:",
                rf"{sp.latex(_SQUARE * _RADIUS * _TURN)} = {sp.latex(_ALONG * _RADIUS)},"
                rf" \qquad k = {sp.latex(turn)}",
            ),
        ),
        (
            Claim(
                "cup.change",
                "A face changes by what its rings give, summed along it.",
                r"\Delta",
                change_over_rings(_WIDTH, _PITH, _AWAY, _ALONG, _SQUARE),
                along,
                "Integrated over the face,",
            ),
            Claim(
                "cup.depth",
                "The middle of the face stands this far out over its corners.",
                "z",
                cup_over_rings(_WIDTH, _PITH, _ALONG, _SQUARE),
                _SQUARE * _PITH - _SQUARE * corner * sp.cos(turn * seen),
                "The middle stays over the pith at b h; the corner, seen from there at the angle whose tangent is half"
                " the width over h, has turned to k times that angle,",
            ),
        ),
    )
