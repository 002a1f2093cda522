"""What a turned line or arc encloses, and the section that a square leaves of a circle.

All by adding up: slices square to the axis, rings of surface, and wedges of a section about its middle.
"""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import deg
from furnlib.teach.proof import Claim, Derivation, Expression
from furnlib.trade.leg._outline import arc_solid, clipped_area, clipped_second_moment, line_solid

_LENGTH, _START, _END, _CHORD, _MEAN, _HALF, _FLAT = sp.symbols("L a b c m h f", positive=True)
_THETA, _PHI, _Q, _SINE, _SLOPE = sp.symbols("theta phi q k l", positive=True)
_SIGN = sp.Symbol("s", real=True)
_U, _T, _X = sp.symbols("u t x", real=True)
_SIN_U, _COS_U, _SIN_THETA, _COS_THETA, _SIN_PHI, _COS_PHI = sp.symbols("su cu st ct sp cp")
_WORDS = {
    _SIN_THETA: sp.sin(_THETA),
    _COS_THETA: sp.cos(_THETA),
    _SIN_PHI: sp.sin(_PHI),
    _COS_PHI: sp.cos(_PHI),
}
_ALGEBRA = {
    sp.sin(deg(_THETA)): _SINE,
    sp.cos(deg(_THETA)): sp.sqrt(1 - _SINE**2),
    _THETA: 180 * _Q / sp.pi,
    sp.sin(_PHI): _SLOPE,
    sp.cos(_PHI): sp.sqrt(1 - _SLOPE**2),
}
"""Angles enter by their sines, and the half angle by itself as well, so that all is algebra."""


def derive_turning() -> Derivation:
    """Derive volume, first moment and surface of turned lines and arcs, and the section of a shouldered square.

    Returns:
        The derivation, in the length L and the radii a, b of a line; in the chord c of an arc, half its angle
        theta, the radius m at the chord's middle, the chord's slope phi and s = 1 for a bead, -1 for a cove;
        and in half the side h of a square, of which a flat 2 f wide is left on each face.

    Example:
        >>> derive_turning()["turning.line_volume"].difference
        0
    """
    return Derivation(
        "Turned lines and arcs, and a circle cut by a square",
        (
            (
                "A slice square to the axis is a disc, and a strip of the outline ds long turns into a ring; x is"
                " measured from the start.",
                r"dV = \pi r^2\,dx, \qquad dM = x\,dV, \qquad dA = 2\pi r\,ds",
            ),
            (
                "On an arc of radius R, u is the angle from its middle. From the middle of the chord, half a length"
                " from the start, the arc is off by R sin u along the chord and by v across it.",
                r"v = s R(\cos u - \cos\theta), \quad x = \tfrac{c}{2}\cos\varphi + R\sin u\cos\varphi - v\sin\varphi,"
                r" \quad r = m + R\sin u\sin\varphi + v\cos\varphi",
            ),
            (
                "A section seen from its middle: as far as the flat goes, the wood ends at the square's face, then at"
                " the circle, up to the diagonal. Eight such parts make the whole.",
                r"\rho = \frac{h}{\cos\alpha} \;\text{ up to }\; \tan\alpha = \frac fh, \qquad \rho^2 = h^2 + f^2"
                r" \;\text{ beyond}",
            ),
        ),
        (*_lines(), *_arcs(), *_sections()),
    )


def _lines() -> tuple[Claim, ...]:
    radius = _START + (_END - _START) * _X / _LENGTH
    stretch = sp.sqrt(_LENGTH**2 + (_END - _START) ** 2) / _LENGTH
    parts = (sp.pi * radius**2, sp.pi * radius**2 * _X, 2 * sp.pi * radius * stretch)
    sums = [sp.integrate(sp.expand(part), (_X, 0, _LENGTH)) for part in parts]
    return _claims("line", line_solid(_LENGTH, _START, _END), sums)


def _arcs() -> tuple[Claim, ...]:
    reach = _CHORD / (2 * _SIN_THETA)
    along, across = reach * _SIN_U, _SIGN * reach * (_COS_U - _COS_THETA)
    x = (_CHORD / 2 + along) * _COS_PHI - across * _SIN_PHI
    radius = _MEAN + along * _SIN_PHI + across * _COS_PHI
    disc = sp.pi * radius**2 * reach * (_COS_U * _COS_PHI + _SIGN * _SIN_U * _SIN_PHI)  # with dx / du
    sums = [_over_arc(part) for part in (disc, disc * x, 2 * sp.pi * radius * reach)]
    return _claims("arc", arc_solid(_CHORD, _THETA, _MEAN, sp.cos(_PHI), sp.sin(_PHI), _SIGN), sums)


def _over_arc(part: Expression) -> Expression:
    """Add up from minus to plus half the angle, term by term of the powers of sin u and cos u."""
    terms = sp.Poly(sp.expand(part), _SIN_U, _COS_U, _SIGN).terms()
    whole = sum(
        factor * _SIGN ** (power % 2) * _summed(i, j)
        for (i, j, power), factor in terms  # s is 1 or -1
        if i % 2 == 0
    )
    return whole.subs(_WORDS).subs(_THETA, deg(_THETA))


def _summed(i: int, j: int) -> Expression:
    return sp.expand_trig(sp.integrate(sp.sin(_U) ** i * sp.cos(_U) ** j, (_U, -_THETA, _THETA)))


def _claims(shape: str, running: tuple[Expression, ...], sums: list[Expression]) -> tuple[Claim, ...]:
    told = (
        ("volume", "V", f"What a turned {shape} encloses.", "Disc by disc,"),
        (
            "moment",
            "M",
            f"First moment of that volume about the {shape}'s start: over V, its centroid.",
            "Weighed by x,",
        ),
        ("surface", "A", f"The surface of a turned {shape}.", "Ring by ring,"),
    )
    return tuple(
        Claim(f"turning.{shape}_{name}", words, shown, ours, derived, why, _ALGEBRA)
        for (name, shown, words, why), ours, derived in zip(told, running, sums, strict=True)
    )


def _sections() -> tuple[Claim, ...]:
    radius = sp.sqrt(_HALF**2 + _FLAT**2)
    round_part = sp.pi / 4 - sp.asin(_FLAT / radius)  # t is tan alpha, so that d alpha is dt / (1 + t²)
    face = [sp.integrate(_HALF**power * (1 + _T**2) ** (power // 2 - 1), (_T, 0, _FLAT / _HALF)) for power in (2, 4)]
    return (
        Claim(
            "turning.section_area",
            "The area of a circle cut by a square.",
            "A",
            clipped_area(radius, _HALF),
            4 * (face[0] + radius**2 * round_part),
            "Eight times wedges of half the square of their length,",
        ),
        Claim(
            "turning.section_moment",
            "Its second moment about any axis through its middle.",
            "I",
            clipped_second_moment(radius, _HALF),
            face[1] + radius**4 * round_part,
            "Half the second moment about the middle itself, eight times wedges of a quarter of their length to the"
            " power of 4,",
        ),
    )
