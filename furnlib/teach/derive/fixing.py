"""A plumb hole in a leaning leg: how far it wanders, and the wall it leaves.

In the leg's own frame, forward, sideways and down its axis, square to its faces. The room's plumb line
then leans, by the slopes p and q of the pencil lines on side and front face: so one proof serves every
orientation of a square leg, and a round one.
"""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import SQUARE, Claim, Derivation, Expression
from furnlib.trade.case.fixing import hole_wander, wall_beside, wall_left
from furnlib.trade.leg.lean import tan_total_lean

_P, _Q, _DEPTH, _HOLE, _OFFSET = sp.symbols("p q d D o", positive=True)
_C = sp.Symbol("c", real=True)
_FRONT, _SIDE, _AXIS = sp.eye(3)[:, 0], sp.eye(3)[:, 1], sp.eye(3)[:, 2]
_PLUMB = sp.Matrix([-_P, -_Q, 1]) / sp.sqrt(1 + _P**2 + _Q**2)


def _level(v: Expression) -> Expression:
    """The level part of a vector."""
    return v - _PLUMB * v.dot(_PLUMB)


_OUTWARD = _level(_AXIS) / sp.sqrt(sp.factor(_level(_AXIS).dot(_level(_AXIS))))
_ACROSS = _PLUMB.cross(_OUTWARD)


def _wall_to(face: Expression, centre: Expression) -> Expression:
    """Half the section, less how far the hole's middle and its rim reach towards a face."""
    rim = sp.sqrt(sp.factor(_level(face).dot(_level(face))))
    return SQUARE / 2 - sp.simplify(face.dot(centre)) - _HOLE / 2 * rim


def _off_axis_squared(rim: Expression) -> Expression:
    """Square of the distance from the axis to a place on the hole's rim at its depth."""
    place = _DEPTH * _PLUMB + _HOLE / 2 * rim
    return sp.factor(place[0] ** 2 + place[1] ** 2)


def derive_fixing() -> Derivation:
    """Derive the wander of a plumb hole and the walls it leaves in a leaning leg, square or round.

    Returns:
        The derivation, in the slopes p and q, section w, hole D, depth d and a pin's offset o.

    Example:
        >>> derive_fixing()["fixing.wall_front"].difference
        0
    """
    total = tan_total_lean(_P, _Q)
    wander = hole_wander(_DEPTH, total)
    deep = _DEPTH * _PLUMB
    apart = _AXIS * _DEPTH / _AXIS.dot(_PLUMB) - deep
    round_the_rim = _off_axis_squared(-_C * _OUTWARD + sp.sqrt(1 - _C**2) * _ACROSS)
    (furthest,) = sp.solve(sp.diff(round_the_rim, _C), _C)
    return Derivation(
        "Wander and walls of a plumb hole in a leaning leg",
        (
            (
                "In the leg's own frame, forward, sideways and down its axis, the room's plumb line runs in and down:"
                " back by p and inward by q for one along the axis.",
                r"\vec n = \frac{\left(-p,\ -q,\ 1\right)}{\sqrt{1 + p^2 + q^2}}, \qquad \vec a = (0,\ 0,\ 1)",
            ),
            (
                "A hole is driven along it from the middle of the level top cut. Its rim is a level circle: towards a"
                " direction f it reaches by half its diameter times the level part of f.",
                r"\vec f_{level} = \vec f - \vec n\,(\vec n\cdot\vec f)",
            ),
        ),
        (
            Claim(
                "fixing.wander",
                "The hole wanders off the axis by its depth times the tangent of the total lean.",
                "m",
                wander,
                sp.simplify(sp.sqrt(sp.factor(apart.dot(apart)))),
                "From the point of the axis at the same level, the distance to the hole's middle,",
            ),
            Claim(
                "fixing.wall_front",
                "Towards the back face, the inner one, the hole and its rim use up the wall.",
                r"wall_{front}",
                wall_left(SQUARE, _HOLE, wander, total, _P / total),
                _wall_to(-_FRONT, deep),
                "From the back face's normal (-1, 0, 0),",
            ),
            Claim(
                "fixing.wall_side",
                "Towards the inner side face it is the same with the other slope.",
                r"wall_{side}",
                wall_left(SQUARE, _HOLE, wander, total, _Q / total),
                _wall_to(-_SIDE, deep),
                "From the side face's normal (0, -1, 0),",
            ),
            Claim(
                "fixing.wall_pin",
                "A second hole, o outward along the sight line, comes as near to the front face at the top cut.",
                r"wall_{pin}",
                wall_left(SQUARE, _HOLE, _OFFSET, total, _P / total),
                _wall_to(_FRONT, _OFFSET * _OUTWARD),
                "From the front face's normal (1, 0, 0), with the level direction in which the axis runs,",
            ),
            Claim(
                "fixing.wall_round",
                "In a round leg the thinnest wall lies in the plane of the lean.",
                r"wall_{round}",
                wall_left(SQUARE, _HOLE, wander, total, 1),
                SQUARE / 2 - sp.sqrt(_off_axis_squared(-_OUTWARD)),
                "From the innermost place on the rim, its distance from the axis,",
            ),
            Claim(
                "fixing.wall_beside",
                "Close below its top the thinnest wall lies to either side of that plane.",
                r"wall_{beside}",
                wall_beside(SQUARE, _HOLE, _DEPTH),
                SQUARE / 2 - sp.sqrt(sp.simplify(round_the_rim.subs(_C, furthest))),
                "From any place on the rim, c being the cosine of its angle from that plane: the square of its distance"
                f" from the axis is greatest at $c = {sp.latex(sp.simplify(furthest))}$, while that is below 1, and"
                " there",
            ),
        ),
    )
