"""Level end cuts of a leaning square leg, whichever way its faces look.

The leg's section is square when it is cut square across. Leaning two ways, it cannot have both pairs
of faces in line with the room, so its orientation is named:

* ``untwisted``: a plumb square leg leaned over about a level line square to the sight line, and not
  turned about its own axis;
* ``front_level``: the front face keeps its level lines side to side;
* ``side_level``: the side face keeps its level lines front to back;
* ``sightline``: two faces stand plumb along the sight line, the other two lean;
* ``sightline_corner``: turned by 45 from that, a corner foremost.

Whatever the orientation, one pair of slopes says all: how much the leg moves out for each unit along
its axis, seen square-on to its own side face and to its own front face. They are the tangents of the
mitres on those faces. So every orientation is the leg leaned without twist by other angles, and one
set of formulas serves all five.

At the saw one face lies on the table: the *mitre* is the angle, in that face, between the cut line
and a line square across the leg; the *tilt* is the blade's angle from square to the table. Both are
unsigned; which way to swing follows from which edge and which face are left the longer.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple, get_args

import numpy as np

from furnlib.base.angles import Value, asind, atan2d, atand, cosd, sin_off_square, sind, slope_in_plane, square_root
from furnlib.base.guards import DesignError, nearest_word, require_positive
from furnlib.trade.leg.lean import Lean, axis_stretch, sight_line, tan_total_lean

Orientation = Literal["untwisted", "front_level", "side_level", "sightline", "sightline_corner"]
ORIENTATIONS: tuple[Orientation, ...] = get_args(Orientation)
EDGES = ((1, 1), (1, -1), (-1, -1), (-1, 1))
"""The long edges in order round the leg: fore-and-aft and sideways, outward 1. The outer edge first."""


class Slopes(NamedTuple):
    """How far a leg runs off square across, for each unit across its own faces.

    Args:
        fore_aft: read on the side face; tangent of the mitre with that face down.
        sideways: read on the front face; tangent of the mitre with that face down.
    """

    fore_aft: Value
    sideways: Value


def face_slopes(tan_rake: Value, tan_splay: Value, orientation: Orientation = "untwisted") -> Slopes:
    """Slopes p and q of the floor's line on the side and on the front face: p² + q² = tan² R.

    Untwisted p = tan r, q = tan s: the pencil lines are just rake and splay. Front level
    q = tan s cos r and p = sin r / cos R; side level p = tan r cos s and q = sin s / cos R; on the
    sight line p = tan R, q = 0; corner foremost both are tan R / sqrt 2.

    Args:
        tan_rake: tangent of the rake; number, array or symbol.
        tan_splay: tangent of the splay; number, array or symbol.
        orientation: one of the five names.

    Returns:
        The slopes, signed as the lean is (along the sight line they are never below 0).

    Source:
        Derived in `teach.derive.derive_end_cut` and `derive_orientations`; crown moulding tables of
        mitre saws agree.

    Example:
        >>> face_slopes(0.75, 1.0), face_slopes(0.75, 1.0, "front_level").sideways
        (Slopes(fore_aft=0.75, sideways=1.0), 0.8)
    """
    if orientation == "front_level":
        stretch = axis_stretch(tan_rake, tan_splay)
        return Slopes(slope_in_plane(tan_rake, tan_rake) * stretch, slope_in_plane(tan_splay, tan_rake))
    if orientation == "side_level":
        stretch = axis_stretch(tan_rake, tan_splay)
        return Slopes(slope_in_plane(tan_rake, tan_splay), slope_in_plane(tan_splay, tan_splay) * stretch)
    if orientation == "untwisted":
        return Slopes(tan_rake, tan_splay)
    total = tan_total_lean(tan_rake, tan_splay)
    if orientation == "sightline":
        return Slopes(total, total * 0)
    each = square_root(total * total / 2)
    return Slopes(each, each)


def sin_tilt(slope_square_to_face: Value, slope_across: Value) -> Value:
    """Sine of the blade's tilt from square: p cos R with the front face on the table, q cos R with a side face.

    Args:
        slope_square_to_face: slope square to the face on the table: fore and aft for the front
            face, sideways for the side face; number, array or symbol.
        slope_across: the other slope; number, array or symbol.

    Returns:
        The sine of the tilt, signed as the slope is.

    Source:
        Derived in `teach.derive.derive_end_cut`; crown moulding tables of mitre saws agree.

    Example:
        >>> sin_tilt(0.75, 0.0)
        0.6
    """
    return slope_square_to_face / axis_stretch(slope_square_to_face, slope_across)


def extra_length(square: Value, fore_aft: Value, sideways: Value) -> Value:
    """What the two parallel level cuts need beyond the axis length: w (|p| + |q|).

    Half of it lies past the axis at each end: the outer corner reaches furthest at the foot, the
    inner one at the top.

    Args:
        square: side of the leg's square section; number, array or symbol.
        fore_aft: slope read on the side face; number, array or symbol.
        sideways: slope read on the front face; number, array or symbol.

    Returns:
        The extra length, in the unit of the square.

    Source:
        Derived in `teach.derive.derive_end_cut`.

    Example:
        >>> extra_length(48.0, 0.125, -0.125)
        12.0
    """
    return square * (abs(fore_aft) + abs(sideways))


def edge_offset(slopes: tuple[Value, Value], fore_aft: Value, sideways: Value) -> Value:
    """How far past the axis a long edge reaches, along the axis: f p + s q.

    At the foot the outer edge of a leg that leans outward is the longest; at the top it is the
    shortest by as much, so that all four edges have one length.

    Args:
        slopes: plain numbers, fore and aft and sideways.
        fore_aft: of the edge from the axis, square to it, outward, any length unit.
        sideways: the same to the side, in the same unit.

    Returns:
        The offset at the foot, in the same unit; above 0 the edge is the longer.

    Source:
        Derived in `teach.derive.derive_end_cut`.

    Example:
        >>> edge_offset((0.25, 0.125), 24.0, 24.0)
        9.0
    """
    return fore_aft * slopes[0] + sideways * slopes[1]


def level_corner(tan_rake: Value, tan_splay: Value, fore_aft: Value, sideways: Value) -> tuple[Value, Value]:
    """Where a long edge of a leg leaned without twist meets a level plane.

    Cut level, the leg's square is stretched by 1 / cos R along the sight line and by nothing
    across it: p = v + t (v · t) / (1 + 1 / cos R), with t the two tangents.

    Args:
        tan_rake: tangent of the rake; number, array or symbol.
        tan_splay: tangent of the splay; number, array or symbol.
        fore_aft: of the edge from the axis before the leg was leaned, outward, any length unit.
        sideways: the same to the side, in the same unit.

    Returns:
        Fore-and-aft and sideways distance from the point where the axis meets the plane.

    Source:
        Derived in `teach.derive.derive_level_section`.

    Example:
        >>> level_corner(0.75, 0.0, 20.0, 20.0)
        (25.0, 20.0)
    """
    share = edge_offset((tan_rake, tan_splay), fore_aft, sideways) / (1 + axis_stretch(tan_rake, tan_splay))
    return fore_aft + tan_rake * share, sideways + tan_splay * share


@dataclass(frozen=True, eq=False)
class SawSetting:
    """How to hold the leg and set the saw for one face on the table.

    Args:
        face: the face on the table; its opposite takes the same numbers, swung and tilted the other
            way.
        mitre_deg: degrees from square across, in the face on the table, 0 or more.
        tilt_deg: degrees of the blade from square to the table, 0 or more.
        long_edge: a plain number: at the foot, 1 where the face's outer edge is left the longer, -1
            the inner one, 0 where the cut runs square across.
        long_face: a plain number: at the foot, 1 where the outer face is left longer than the one
            opposite, -1 the other way round, 0 where the blade stands upright.
    """

    face: str
    mitre_deg: Value
    tilt_deg: Value
    long_edge: Value
    long_face: Value


@dataclass(frozen=True, eq=False)
class EndCut:
    """Both ways to saw the level ends of one leg, its blank and what its level end looks like.

    Args:
        orientation: which way the faces look.
        front_down: the setting with the front (or back) face on the table.
        side_down: the setting with a side face on the table.
        axis_length: between the two level cuts along the axis, in the unit of the height.
        blank_length: the least blank for both cuts, without waste, in the same unit.
        edge_offsets: how far each long edge reaches past the axis at the foot, in the order of
            `EDGES`, in the unit of the square.
        level_corners: where each long edge meets a level plane, fore and aft and sideways from the
            axis, in the unit of the square.
        twist_deg: degrees by which the leg is turned about its axis from untwisted.
        corner_deg: degrees by which the outer corner of the level section is off square; above 0 it
            is the sharper.
        front_edge_deg: degrees in plan by which the front edge of that section is off the room's
            line; above 0 its outer end stands further out.
        side_edge_deg: the same for the side edge, in degrees.
    """

    orientation: Orientation
    front_down: SawSetting
    side_down: SawSetting
    axis_length: Value
    blank_length: Value
    edge_offsets: tuple[Value, ...]
    level_corners: tuple[tuple[Value, Value], ...]
    twist_deg: Value
    corner_deg: Value
    front_edge_deg: Value
    side_edge_deg: Value


def end_cut(lean: Lean, height: Value, square: Value, orientation: Orientation = "untwisted") -> EndCut:
    """Saw settings, blank and level section of a leaning square leg.

    With slopes p and q: front face down, mitre = atan |q| and tilt = asin(|p| cos R); side face
    down, mitre = atan |p| and tilt = asin(|q| cos R); blank = h / cos R + w (|p| + |q|). Under a
    square pad the corner is off square by e, sin e = sin(mitre front) sin(mitre side).

    Args:
        lean: the leg's direction; numbers or arrays.
        height: vertical distance between the two level cuts, above 0, any length unit.
        square: side of the square section, above 0, in the unit of the height.
        orientation: which way the leg's faces look.

    Returns:
        The settings and lengths; arrays where the lean, height or square are arrays.

    Raises:
        DesignError: when height or square is not above 0, or the orientation is none of the five.

    Source:
        Derived in `teach.derive.derive_end_cut` and `derive_level_section`.

    Example:
        >>> cut = end_cut(Lean.from_rake_splay(8.0, 6.0), 151.0, 48.0)
        >>> cut.side_down.mitre_deg, cut.side_down.tilt_deg, cut.blank_length
        (8.0, 5.942, 165.10)
        >>> cut.corner_deg  # what a square pad shows against it
        0.83
    """
    require_positive("height of the leg", height)
    require_positive("leg square", square)
    if orientation not in ORIENTATIONS:
        raise DesignError(f"'{orientation}' is no way to turn a leg; {nearest_word(str(orientation), ORIENTATIONS)}")
    slopes = face_slopes(lean.tan_rake, lean.tan_splay, orientation)
    axis = lean.axis_length(height)
    edges = [(square / 2 * fore_aft, square / 2 * sideways) for fore_aft, sideways in EDGES]
    twist = _within_turn(lean.sight_line_deg - sight_line(*slopes))
    corners = tuple(level_corner(lean.tan_rake, lean.tan_splay, *_twisted(edge, twist)) for edge in edges)
    outer, neighbour, _, behind = corners
    front, side = ("lean", "upright") if orientation == "sightline" else ("front", "side")
    return EndCut(
        orientation=orientation,
        front_down=_setting(front, slopes.sideways, slopes.fore_aft),
        side_down=_setting(side, slopes.fore_aft, slopes.sideways),
        axis_length=axis,
        blank_length=axis + extra_length(square, *slopes),
        edge_offsets=tuple(edge_offset(slopes, *edge) for edge in edges),
        level_corners=corners,
        twist_deg=twist,
        corner_deg=asind(sin_off_square(*slopes)),
        front_edge_deg=atan2d(outer[0] - neighbour[0], outer[1] - neighbour[1]),
        side_edge_deg=atan2d(outer[1] - behind[1], outer[0] - behind[0]),
    )


def _setting(face: str, across: Value, square_to_face: Value) -> SawSetting:
    return SawSetting(
        face, abs(atand(across)), abs(asind(sin_tilt(square_to_face, across))), _sign(across), _sign(square_to_face)
    )


def _sign(value: Value) -> Value:
    return np.sign(value) if np.ndim(value) else int(value > 0) - int(value < 0)


def _twisted(edge: tuple[Value, Value], twist_deg: Value) -> tuple[Value, Value]:
    """Turn a place in the leg's section from fore-and-aft towards sideways."""
    (fore_aft, sideways), c, s = edge, cosd(twist_deg), sind(twist_deg)
    return fore_aft * c - sideways * s, fore_aft * s + sideways * c


def _within_turn(angle_deg: Value) -> Value:
    """Bring an angle into (-180, 180]."""
    return 180.0 - (180.0 - angle_deg) % 360.0
