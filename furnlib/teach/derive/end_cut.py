"""The level ends of a square leg: what the floor and the saw make of it, whichever way its faces look.

In the frame fore and aft outward, sideways outward, up. Right-handed, that is a left front leg; a
mirror changes no angle, so the other legs follow.
"""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import sin_off_square, tand
from furnlib.teach.proof import RHO, SIGMA, SQUARE, TANGENTS, Claim, Derivation, Expression
from furnlib.trade.leg.end_cut import (
    ORIENTATIONS,
    Orientation,
    edge_offset,
    extra_length,
    face_slopes,
    level_corner,
    sin_tilt,
)

_A, _B = TANGENTS.values()
_FORE, _SIDE, _UP = sp.eye(3)[:, 0], sp.eye(3)[:, 1], sp.eye(3)[:, 2]
_AXIS = sp.Matrix([_A, _B, -1]) / sp.sqrt(1 + _A**2 + _B**2)
_OUTER = (_FORE + _SIDE) * SQUARE / 2
"""The outer edge of the leg while it stands plumb."""


def _turned(v: Expression, k: Expression, cosine: Expression, sine: Expression) -> Expression:
    """Turn a vector about an axis k of length 1, right-handed."""
    return v * cosine + k.cross(v) * sine + k * k.dot(v) * (1 - cosine)


def _unit(v: Expression) -> Expression:
    """Scale a vector to length 1, its length kept in factors so that what follows simplifies."""
    return v / sp.sqrt(sp.factor(v.dot(v)))


def _tipped(v: Expression) -> Expression:
    """Tip a vector of the plumb leg by R about a level hinge square to its sight line, foot outward."""
    run, length = sp.sqrt(_A**2 + _B**2), sp.sqrt(1 + _A**2 + _B**2)
    return _turned(v, _UP.cross(sp.Matrix([_A, _B, 0]) / run), 1 / length, -run / length)


def _faces(orientation: Orientation) -> tuple[Expression, Expression]:
    """Outward normals of the front and of the side face, length 1, from what the orientation says of them."""
    if orientation == "untwisted":
        return _tipped(_FORE), _tipped(_SIDE)
    if orientation == "front_level":
        front = _unit(_AXIS.cross(_SIDE))
        return front, front.cross(_AXIS)
    if orientation == "side_level":
        side = _unit(_FORE.cross(_AXIS))
        return _AXIS.cross(side), side
    upright = _unit(_UP.cross(_AXIS))
    leaning = _AXIS.cross(upright)
    if orientation == "sightline":
        return leaning, upright
    half_square = 1 / sp.sqrt(2)  # cosine and sine of 45 degrees
    return _turned(leaning, _AXIS, half_square, half_square), _turned(upright, _AXIS, half_square, half_square)


def _tan_mitre(face: Expression, across: Expression) -> Expression:
    """Tangent of the angle in a face from the direction across the leg to the floor's line, down the leg above 0."""
    pencil = face.cross(_UP)
    return pencil.dot(_AXIS) / pencil.dot(across)


def _slid(v: Expression) -> Expression:
    """How far along the axis a long edge of the tipped leg runs on until it is level with the axis point."""
    return -_tipped(v).dot(_UP) / _AXIS.dot(_UP)


def _shown(geometry: Expression) -> Expression:
    """Simplify, and write with rake and splay."""
    return sp.simplify(geometry).subs({symbol: tangent for tangent, symbol in TANGENTS.items()})


_TIPPING = (
    "Tip a plumb square leg by R about a level hinge k, square to the sight line. Any vector v of the leg goes to",
    r"\vec v' = \vec v\cos R - (\vec k\times\vec v)\sin R + \vec k\,(\vec k\cdot\vec v)(1-\cos R)",
)


def derive_end_cut() -> Derivation:
    """Derive the pencil lines, mitre, tilt and blank of a square leg leaned without twist.

    Returns:
        The derivation, in rake rho, splay sigma (degrees) and square w.

    Example:
        >>> derive_end_cut()["end_cut.tilt"].difference
        0
    """
    slopes = face_slopes(tand(RHO), tand(SIGMA))
    front, side = _faces("untwisted")
    return Derivation(
        "Pencil lines, mitre, tilt and blank of a square leg leaned without twist",
        (_TIPPING,),
        (
            Claim(
                "end_cut.mitre",
                "The pencil line on the front face runs off square by the splay.",
                r"\tan m_{front}",
                slopes.sideways,
                _shown(_tan_mitre(front, side)),
                "From the planes: the floor meets the face along face x up; the tangent of its angle with the side"
                " face's normal, which lies square across the leg, is",
            ),
            Claim(
                "end_cut.mitre_side",
                "The pencil line on the side face runs off square by the rake.",
                r"\tan m_{side}",
                slopes.fore_aft,
                _shown(_tan_mitre(side, front)),
                "From the planes, with the front face's normal square across,",
            ),
            Claim(
                "end_cut.tilt",
                "With the front face on the table the blade tilts by a little less than the rake.",
                r"\sin t_{front}",
                sin_tilt(slopes.fore_aft, slopes.sideways),
                _shown(front.dot(_UP)),
                "From the planes: the sine of the tilt is the upward share of the face's normal,",
            ),
            Claim(
                "end_cut.tilt_side",
                "With the side face on the table it tilts by a little less than the splay.",
                r"\sin t_{side}",
                sin_tilt(slopes.sideways, slopes.fore_aft),
                _shown(side.dot(_UP)),
                "From the planes, in the same way,",
            ),
            Claim(
                "end_cut.edge",
                "The outer edge reaches past the axis at the foot.",
                "e",
                edge_offset(slopes, SQUARE / 2, SQUARE / 2),
                _shown(_slid(_OUTER)),
                "From the edge itself, slid along the axis until it is level with the axis point,",
            ),
            Claim(
                "end_cut.blank",
                "The two parallel cuts need this much beyond the axis length.",
                r"L_{blank} - L",
                extra_length(SQUARE, *slopes).subs({sp.Abs(t): t for t in slopes}),
                _shown(_slid(_OUTER) - _slid(-_OUTER)),
                "From the outer edge at the foot and the inner edge at the top,",
            ),
        ),
    )


_NAMES: dict[Orientation, str] = {
    "untwisted": "Untwisted",
    "front_level": "Front level",
    "side_level": "Side level",
    "sightline": "On the sight line",
    "sightline_corner": "Corner foremost",
}

_ORIENTING = (
    (
        "Go one unit down along the leg. It moves outward by tan ρ to the front and by tan σ to the side:",
        r"\vec a = \left(\tan\rho,\ \tan\sigma,\ -1\right)",
    ),
    (
        "Front level: the front face holds the axis and the room's line from side to side; the side face is square to"
        " the front face and to the axis.",
        r"\vec f = \vec a\times(0,\ 1,\ 0), \qquad \vec s = \vec f\times\vec a",
    ),
    (
        "Side level: the side face holds the axis and the room's line from back to front, and the front face is square"
        " to both.",
        r"\vec s = (1,\ 0,\ 0)\times\vec a, \qquad \vec f = \vec a\times\vec s",
    ),
    (
        "On the sight line: one face stands upright, so that its normal is level.",
        r"\vec s = (0,\ 0,\ 1)\times\vec a, \qquad \vec f = \vec a\times\vec s",
    ),
    (
        "Corner foremost: both of these normals, each of length 1 and square to the axis, turned by half a right angle"
        " about the axis.",
        r"\vec f' = \frac{\vec f - \vec s}{\sqrt 2}, \qquad \vec s' = \frac{\vec f + \vec s}{\sqrt 2}",
    ),
)


def derive_orientations() -> Derivation:
    """Derive mitres and tilts of a leaning square leg for every other way that its faces may look.

    Returns:
        The derivation, in rake rho and splay sigma (degrees): four claims for each orientation
        but untwisted, and for all five what their slopes and their tilts add up to.

    Example:
        >>> derive_orientations()["end_cut.front_level.tilt"].difference
        0
    """
    return Derivation(
        "Mitre and tilt of a square leg, whichever way its faces look",
        (_TIPPING, *_ORIENTING),
        tuple(
            claim
            for orientation in ORIENTATIONS
            for claim in (
                *(_settings(orientation) if orientation != "untwisted" else ()),
                *_sums(orientation),
            )
        ),
    )


def _settings(orientation: Orientation) -> tuple[Claim, ...]:
    """Both mitres and both tilts of one orientation."""
    p, q = face_slopes(tand(RHO), tand(SIGMA), orientation)
    front, side = _faces(orientation)
    rows = (
        ("mitre", "the pencil line on the front face", r"\tan m_{front}", q, _tan_mitre(front, side)),
        ("mitre_side", "the pencil line on the side face", r"\tan m_{side}", p, _tan_mitre(side, front)),
        ("tilt", "the blade with the front face down", r"\sin t_{front}", sin_tilt(p, q), front.dot(_UP)),
        ("tilt_side", "the blade with the side face down", r"\sin t_{side}", sin_tilt(q, p), side.dot(_UP)),
    )
    why = "From the planes, as the floor meets the face,"
    return tuple(
        Claim(f"end_cut.{orientation}.{key}", f"{_NAMES[orientation]}, {said}.", shown, running, _shown(derived), why)
        for key, said, shown, running, derived in rows
    )


def _sums(orientation: Orientation) -> tuple[Claim, Claim]:
    """What the slopes of one orientation add up to, and its tilts."""
    p, q = face_slopes(tand(RHO), tand(SIGMA), orientation)
    name = _NAMES[orientation]
    axis, front, side = _AXIS, *_faces(orientation)
    return (
        Claim(
            f"end_cut.{orientation}.slopes",
            f"{name}. The squares of the two slopes add up to that of the total lean's tangent.",
            r"\tan^2 m_{front} + \tan^2 m_{side}",
            p**2 + q**2,
            _shown(axis.cross(_UP).dot(axis.cross(_UP)) / axis.dot(_UP) ** 2),
            "From the axis alone, the square of its run over the square of its drop,",
        ),
        Claim(
            f"end_cut.{orientation}.tilts",
            f"{name}. The squares of the sines of the two tilts leave the square of cos R to make one whole.",
            r"\sin^2 t_{front} + \sin^2 t_{side}",
            sin_tilt(p, q) ** 2 + sin_tilt(q, p) ** 2,
            _shown(front.dot(_UP) ** 2 + side.dot(_UP) ** 2),
            "From the upward shares of two normals that are square to each other and to the axis,",
        ),
    )


def derive_level_section() -> Derivation:
    """Derive what a level cut makes of the leg's square: stretched along the sight line, its corners off square.

    Returns:
        The derivation, in rake rho, splay sigma (degrees), square w and, for any orientation, the
        slopes p on the side face and q on the front face.

    Example:
        >>> derive_level_section()["end_cut.level_corner"].difference
        0
    """
    tan_r, tan_s = tand(RHO), tand(SIGMA)
    level = _tipped(_OUTER) + _slid(_OUTER) * _AXIS
    forward, sideways = level_corner(tan_r, tan_s, SQUARE / 2, SQUARE / 2)
    step_forward, step_sideways = level_corner(tan_r, tan_s, 0, SQUARE)
    on_the_floor = _tipped(_FORE).cross(_UP)
    p, q = sp.symbols("p q", real=True)
    floor = sp.Matrix([p, q, -1])
    front_line, side_line = _FORE.cross(floor), floor.cross(_SIDE)
    return Derivation(
        "The level section of a leaning square leg",
        (
            _TIPPING,
            (
                "In the leg's own frame, forward, sideways and down its axis, the floor is the plane whose slopes are p"
                " and q; a face is met by it along the cross product of the two normals.",
                r"\vec n = (p,\ q,\ -1), \qquad \vec l_{front} = (1,\ 0,\ 0)\times\vec n,"
                r" \qquad \vec l_{side} = \vec n\times(0,\ 1,\ 0)",
            ),
        ),
        (
            Claim(
                "end_cut.level_corner",
                "Along the sight line the outer corner moves out as 1 / cos R.",
                r"f\tan\rho + s\tan\sigma",
                forward * tan_r + sideways * tan_s,
                _shown(level[0] * _A + level[1] * _B),
                "From the outer edge, where it meets the level plane,",
            ),
            Claim(
                "end_cut.level_corner_across",
                "Across the sight line it keeps its place.",
                r"f\tan\sigma - s\tan\rho",
                forward * tan_s - sideways * tan_r,
                _shown(level[0] * _B - level[1] * _A),
                "From the same point,",
            ),
            Claim(
                "end_cut.front_edge",
                "Leaned without twist, the front edge of the level section swings off the room's line.",
                r"\tan\varepsilon_{front}",
                step_forward / step_sideways,
                _shown(on_the_floor[0] / on_the_floor[1]),
                "From the line in which floor and front face meet, its step forward over its step sideways,",
            ),
            Claim(
                "end_cut.corner",
                "In every orientation the outer corner is off square by what the two mitres give.",
                r"\sin e",
                sin_off_square(p, q),
                sp.simplify(front_line.dot(side_line) / (front_line.norm() * side_line.norm())),
                "From the floor's lines on the two faces, the cosine of the angle between them,",
            ),
        ),
    )
