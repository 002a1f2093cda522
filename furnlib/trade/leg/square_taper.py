"""Square tapered legs, sawn: straight at the top for the rails, then narrower down to the foot.

The taper is taken from all four faces alike, or from the two inner ones only, so that the outer
corner of the leg stays straight. Faces are counted in turn round the leg; 1 and 2 are the inner ones.

At the saw the leg lies on a board that slides along the fence, one face against two stops: one where
the taper begins, close against the board's line, and one further down, held off by the jig's setting.
The face that is cut stands on the other side of the leg. Against a straight face that setting is one
taper; against a face that is tapered already it is two.

Once two opposite faces are off, a leg lies hollow: put an off-cut back under it, or pack the foot.
Clamp the leg to the sliding board, hands behind it, guard and riving knife on; too short a leg is
tapered with a plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np

from furnlib.base.angles import Value, atand, square_root
from furnlib.base.guards import DesignError, nearest_word, require_finite, require_positive

TaperedFaces = Literal["all four", "two inner"]
TAPERED_FACES: tuple[TaperedFaces, ...] = get_args(TaperedFaces)


def tan_face_taper(top_square: Value, foot_square: Value, tapered_length: Value, faces_off: Value) -> Value:
    """Tangent of the angle between a tapered face and the straight part: (top - foot) / (n L).

    Args:
        top_square: side of the straight part, any length unit; number, array or symbol.
        foot_square: side of the foot, in the same unit; number, array or symbol.
        tapered_length: from where the taper begins to the foot, in the same unit.
        faces_off: how many of two opposite faces are tapered, 1 or 2.

    Returns:
        The tangent; 0 where nothing is tapered.

    Source:
        Derived in `teach.derive.derive_square_taper`.

    Example:
        >>> tan_face_taper(44.0, 20.0, 600.0, 2)
        0.02
    """
    return (top_square - foot_square) / (faces_off * tapered_length)


def jig_setting(jig_length: Value, tan_taper: Value, faces_off: Value) -> Value:
    """How much nearer to the blade the far stop stands than the near one: n x sin a.

    Args:
        jig_length: from where the taper begins to the far stop, along the leg, any length unit;
            number, array or symbol.
        tan_taper: tangent of the angle of one face; number, array or symbol.
        faces_off: how many of the face that is cut and the one opposite are then tapered, 1 or 2.

    Returns:
        The setting, square to the line of the cut, in the unit of the jig's length. It is exactly doubled,
        because the far stop is measured along the leg and not along the blade.

    Source:
        Derived in `teach.derive.derive_square_taper`.

    Example:
        >>> jig_setting(500.0, 0.75, 1), jig_setting(500.0, 0.75, 2)
        (300.0, 600.0)
    """
    return faces_off * jig_length * tan_taper / square_root(1 + tan_taper * tan_taper)


@dataclass(frozen=True, eq=False)
class TaperCut:
    """One cut of a tapered leg.

    Args:
        face: which is cut, how many on from the first round the leg.
        against: which lies against the stops, opposite the one that is cut, how many on from the first.
        jig_offset: how much nearer to the blade the far stop stands than the near one, in the unit of the leg.
        note: what to look to, in words.
    """

    face: int
    against: int
    jig_offset: Value
    note: str


@dataclass(frozen=True, eq=False)
class SquareTaper:
    """A square tapered leg, lengths in its own unit.

    Args:
        taper: what one face loses at the foot.
        face_angle_deg: degrees between a tapered face and the straight part.
        gauge_run: what one face loses over the gauge length.
        cuts: in the order in which they are sawn.
        stock_square: side of the squared piece, with what is left to plane.
        stock_length: of that piece, with the waste at both ends.
    """

    taper: Value
    face_angle_deg: Value
    gauge_run: Value
    cuts: tuple[TaperCut, ...]
    stock_square: Value
    stock_length: Value


def square_taper(
    top_square: Value,
    foot_square: Value,
    length: Value,
    straight: Value,
    *,
    tapered_faces: TaperedFaces = "all four",
    gauge_length: Value = 100.0,
    jig_length: Value | None = None,
    planing: Value = 0.0,
    waste: Value = 0.0,
) -> SquareTaper:
    """Angle, run, jig settings, order of cuts and stock of a square tapered leg.

    Args:
        top_square: side of the straight part, above 0, any length unit.
        foot_square: side of the foot, above 0 and up to the top, in the same unit.
        length: of the whole leg, above 0, in the same unit.
        straight: from the top to where the taper begins, from 0 to less than the length, in the same unit.
        tapered_faces: "all four" or "two inner".
        gauge_length: for which the run is given, 100 mm or 10 in, in the same unit.
        jig_length: from where the taper begins to the far stop, along the leg, in the same unit; left
            out, the stop stands at the foot.
        planing: left on each face for the plane, 0 or more, in the same unit.
        waste: left at each end, 0 or more, in the same unit.

    Returns:
        The leg; arrays where an argument is an array.

    Raises:
        DesignError: when a size is out of its range, or the choice of faces is no choice.

    Source:
        Derived in `teach.derive.derive_square_taper`; the order of cuts is common practice, no source.

    Example:
        >>> leg = square_taper(44.0, 20.0, 720.0, 120.0)
        >>> leg.taper, leg.gauge_run, leg.face_angle_deg
        (12.0, 2.0, 1.146)
        >>> [(cut.face, cut.against) for cut in leg.cuts]
        [(1, 3), (2, 4), (3, 1), (4, 2)]
    """
    for name, size in (("square at the top", top_square), ("square at the foot", foot_square), ("length", length)):
        require_positive(name, size)
    require_positive("gauge length", gauge_length)
    for name, size in (("straight part", straight), ("planing", planing), ("waste", waste)):
        require_finite(name, size)
        if np.any(np.asarray(size) < 0):
            raise DesignError(f"The {name} is {size}; it must be 0 or more: measure it as a distance.")
    if np.any(np.asarray(foot_square) > top_square):
        raise DesignError(
            f"The foot is {foot_square} square and the top {top_square}; a leg gets no thicker downward here: make the"
            f" foot smaller, or draw the leg the other way up."
        )
    if np.any(np.asarray(straight) >= length):
        raise DesignError(
            f"The straight part is {straight} of a leg {length} long; a taper needs some of it: shorten the straight"
            f" part."
        )
    if tapered_faces not in TAPERED_FACES:
        raise DesignError(f"No faces are called {tapered_faces!r}; {nearest_word(tapered_faces, TAPERED_FACES)}")
    tapered = length - straight
    reach = tapered if jig_length is None else jig_length
    require_positive("distance to the far stop", reach)
    if np.any(np.asarray(reach) > tapered):
        raise DesignError(
            f"The far stop stands {reach} from where the taper begins, and the foot is {tapered} from there: bring the"
            f" stop nearer."
        )
    faces_off = 2 if tapered_faces == "all four" else 1
    slope = tan_face_taper(top_square, foot_square, tapered, faces_off)
    return SquareTaper(
        taper=(top_square - foot_square) / faces_off,
        face_angle_deg=atand(slope),
        gauge_run=gauge_length * slope,
        cuts=tuple(_cut(face, reach, slope) for face in range(1, 2 * faces_off + 1)),
        stock_square=top_square + 2 * planing,
        stock_length=length + 2 * waste,
    )


def _cut(face: int, reach: Value, slope: Value) -> TaperCut:
    off, against = (1, face + 2) if face < 3 else (2, face - 2)
    down = {1: "face 4 down", 2: "face 3 down", 3: "face 4 down", 4: "an off-cut back under the taper"}[face]
    stop = "straight face against the stops" if off == 1 else "tapered face against the stops, the setting doubled"
    return TaperCut(face, against, jig_setting(reach, slope, off), f"{stop}; {down}")
