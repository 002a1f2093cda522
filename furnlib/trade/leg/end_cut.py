"""Level end cuts of a square leg that was leaned over without twist.

The leg is a plumb square leg tipped about a level line square to its sight line and not turned
about its own axis. Its front face then meets the floor in a line that runs off square by exactly
the splay, its side face by exactly the rake. At the saw one of these faces lies on the table:
the *mitre* is the angle, in that face, between the cut line and a line square across the leg;
the *tilt* is the blade's angle from square to the table. Both are unsigned; which way to swing
follows from the lean.
"""

from __future__ import annotations

from dataclasses import dataclass

from furnlib.base.angles import Value, asind, atand
from furnlib.base.guards import require_positive
from furnlib.trade.leg.lean import Lean, axis_stretch


def cut_slope(tan_across: Value) -> Value:
    """Slope of the floor line on a face: the tangent of the lean seen in that face.

    On the front face this is tan s, on the side face tan r: the pencil lines on the faces of a
    leg leaned without twist are just splay and rake.

    Args:
        tan_across: tangent of the splay (front face down) or of the rake (side face down).

    Returns:
        The tangent of the mitre, signed as the lean is.

    Source:
        Derived in `teach.derive.derive_end_cut`; crown moulding tables of mitre saws agree.

    Example:
        >>> cut_slope(0.1405)
        0.1405
    """
    return tan_across


def sin_tilt(tan_square_to_face: Value, tan_across: Value) -> Value:
    """Sine of the blade's tilt from square: tan r cos R with the front face on the table.

    As tan r = tan R cos S, this is sin R cos S, and with the side face down sin R sin S.

    Args:
        tan_square_to_face: tangent of the lean square to the face on the table: rake for the
            front face, splay for the side face; number, array or symbol.
        tan_across: tangent of the other lean; number, array or symbol.

    Returns:
        The sine of the tilt, signed as the lean is.

    Source:
        Derived in `teach.derive.derive_end_cut`; crown moulding tables of mitre saws agree.

    Example:
        >>> sin_tilt(0.75, 0.0)
        0.6
    """
    return tan_square_to_face / axis_stretch(tan_square_to_face, tan_across)


def extra_length(square: Value, tan_rake: Value, tan_splay: Value) -> Value:
    """What the two parallel level cuts need beyond the axis length: w (|tan r| + |tan s|).

    Half of it lies past the axis at each end: the outer corner reaches furthest at the foot, the
    inner one at the top.

    Args:
        square: side of the leg's square section; number, array or symbol.
        tan_rake: tangent of the rake; number, array or symbol.
        tan_splay: tangent of the splay; number, array or symbol.

    Returns:
        The extra length, in the unit of the square.

    Source:
        Derived in `teach.derive.derive_end_cut`.

    Example:
        >>> extra_length(48.0, 0.125, -0.125)
        12.0
    """
    return square * (abs(tan_rake) + abs(tan_splay))


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
    stretch = axis_stretch(tan_rake, tan_splay)
    share = edge_offset(tan_rake, tan_splay, fore_aft, sideways) / (1 + stretch)
    return fore_aft + tan_rake * share, sideways + tan_splay * share


def edge_offset(tan_rake: Value, tan_splay: Value, fore_aft: Value, sideways: Value) -> Value:
    """How far past the axis a long edge reaches, along the axis: v · t, with t the two tangents.

    At the foot the outer edge of a leg that leans outward is the longest; at the top it is the
    shortest by as much, so that all four edges have one length.

    Args:
        tan_rake: tangent of the rake; number, array or symbol.
        tan_splay: tangent of the splay; number, array or symbol.
        fore_aft: of the edge from the axis, square to it, outward, any length unit.
        sideways: the same to the side, in the same unit.

    Returns:
        The offset at the foot, in the same unit; above 0 the edge is the longer.

    Source:
        Derived in `teach.derive.derive_end_cut`.

    Example:
        >>> edge_offset(0.25, 0.125, 24.0, 24.0)
        9.0
    """
    return fore_aft * tan_rake + sideways * tan_splay


@dataclass(frozen=True, eq=False)
class SawSetting:
    """How to hold the leg and set the saw for one face on the table.

    Args:
        face: the face on the table, "front" or "side"; its opposite gives the same numbers.
        mitre_deg: degrees from square across, in the face on the table, 0 or more.
        tilt_deg: degrees of the blade from square to the table, 0 or more.
    """

    face: str
    mitre_deg: Value
    tilt_deg: Value


@dataclass(frozen=True, eq=False)
class EndCut:
    """Both ways to saw the level ends of one leg, and the blank it takes.

    Args:
        front_down: the setting with the front (or back) face on the table.
        side_down: the setting with a side face on the table.
        axis_length: between the two level cuts along the axis, in the unit of the height.
        blank_length: the least blank for both cuts, without waste, in the same unit.
    """

    front_down: SawSetting
    side_down: SawSetting
    axis_length: Value
    blank_length: Value


def end_cut(lean: Lean, height: Value, square: Value) -> EndCut:
    """Saw settings and blank of a square leg leaned without twist.

    Front face down: mitre = s, tilt = asin(tan r cos R); side face down: mitre = r,
    tilt = asin(tan s cos R); blank = h / cos R + w (|tan r| + |tan s|).

    Args:
        lean: the leg's direction; numbers or arrays.
        height: vertical distance between the two level cuts, above 0, any length unit.
        square: side of the square section, above 0, in the unit of the height.

    Returns:
        The settings and lengths; arrays where the lean, height or square are arrays.

    Raises:
        DesignError: when height or square is not above 0.

    Source:
        Derived in `teach.derive.derive_end_cut`.

    Example:
        >>> from furnlib.trade.leg.lean import Lean
        >>> cut = end_cut(Lean.from_rake_splay(8.0, 6.0), 151.0, 48.0)
        >>> cut.side_down.mitre_deg, cut.side_down.tilt_deg, cut.blank_length
        (8.0, 5.942, 165.10)
    """
    require_positive("height of the leg", height)
    require_positive("leg square", square)
    r, s = lean.tan_rake, lean.tan_splay
    axis = lean.axis_length(height)
    return EndCut(
        front_down=SawSetting("front", abs(atand(cut_slope(s))), abs(asind(sin_tilt(r, s)))),
        side_down=SawSetting("side", abs(atand(cut_slope(r))), abs(asind(sin_tilt(s, r)))),
        axis_length=axis,
        blank_length=axis + extra_length(square, r, s),
    )
