r"""A leg whose outer faces lie flush with leaning aprons, and the aprons between such legs.

The front apron leans by the rake, the side apron by the splay, and the leg's outer corner is the
line in which their two faces meet. A square stick does not fit there: its outer faces have to be
planed off square, which is called *backing* the leg.

::

        front apron, seen square to its face        leg cut level, seen from above

              ______________________                        |    |
             /|                     \                       |    |  side apron
            / |                      \            __________|____|
           /  | end mitre             \                     |    |
          /___|________________________\          __________|____|  outer corner
                                                  front apron

The slips to watch for: the splay is not the end mitre of a leaning apron, for in the leaning face
it measures less; and the backing is neither the rake, nor the splay, nor the tilt of a mitred corner.

Signs are those of a lean. An end mitre above 0 belongs to an apron that is longer at the bottom,
an edge bevel above 0 to one whose bottom stands further out.
"""

from __future__ import annotations

from dataclasses import dataclass

from furnlib.base.angles import Value, asind, atand, sin_off_square, slope_in_plane, square_root
from furnlib.base.guards import DesignError, require_positive
from furnlib.trade.leg.lean import Lean


def between_faces(level_square: Value, tan_own: Value) -> Value:
    """Distance from a leaning face to the opposite one, square to both: a cos r.

    Args:
        level_square: side of the square that a level cut shows, any length unit; number, array or symbol.
        tan_own: tangent of the faces' own lean: the rake for front and back, the splay for the sides.

    Returns:
        The distance, in the unit of the side.

    Source:
        Derived in `teach.derive.derive_apron`.

    Example:
        >>> between_faces(50.0, 0.75)
        40.0
    """
    return level_square / square_root(1 + tan_own * tan_own)


def leaning_width(depth: Value, tan_own: Value) -> Value:
    """Width of a leaning board that reaches down by a given depth: d / cos r.

    Args:
        depth: from top edge to bottom edge straight down, any length unit; number, array or symbol.
        tan_own: tangent of the board's own lean from plumb; number, array or symbol.

    Returns:
        The width in the board's face, in the unit of the depth.

    Source:
        Derived in `teach.derive.derive_apron`.

    Example:
        >>> leaning_width(80.0, 0.75)
        100.0
    """
    return depth * square_root(1 + tan_own * tan_own)


def bottom_edge(top_length: Value, depth: Value, tan_across: Value) -> Value:
    """Length of an apron's bottom edge between two legs that lean alike: l + 2 d tan s.

    Args:
        top_length: length of its top edge, any length unit; number, array or symbol.
        depth: from top edge to bottom edge straight down, in the same unit.
        tan_across: tangent of the legs' lean as seen square-on: the splay for a front apron, the rake for a side one.

    Returns:
        The length, in the same unit.

    Source:
        Derived in `teach.derive.derive_apron`.

    Example:
        >>> bottom_edge(400.0, 80.0, 0.125)
        420.0
    """
    return top_length + 2 * depth * tan_across


@dataclass(frozen=True, eq=False)
class FlushLeg:
    """The section of a leg that lies flush with two leaning aprons.

    Args:
        dihedral_deg: inside angle in degrees between the two outer faces, square to the corner line: more than 90
            where both lean out or both in, less where they differ.
        backing_deg: degrees by which that is more than square.
        between_front_and_back: from front face to back face, square to them, in the unit of the level square.
        between_sides: from one side face to the other, in the same unit.
    """

    dihedral_deg: Value
    backing_deg: Value
    between_front_and_back: Value
    between_sides: Value


@dataclass(frozen=True, eq=False)
class Apron:
    """One apron as it is sawn.

    Args:
        end_mitre_deg: degrees in its face from a line square to its edges to the end; above 0 it grows downwards.
        edge_bevel_deg: degrees by which its top and bottom edges are planed off square, so that they come level.
        width: from edge to edge in its face, in the unit of its depth.
        top_length: length of the top edge in its face, in the same unit.
        bottom_length: length of the bottom edge in its face, in the same unit.
    """

    end_mitre_deg: Value
    edge_bevel_deg: Value
    width: Value
    top_length: Value
    bottom_length: Value


def flush_leg(lean: Lean, level_square: Value) -> FlushLeg:
    """Section of a leg flush with leaning aprons, whose level cut is a square.

    Backing = asin(sin r sin s), dihedral = 90 + backing; from front to back a cos r, from side to
    side a cos s. Plane the stick to these distances and this angle, with a bevel gauge for a square.

    Args:
        lean: the direction of the leg's outer corner; numbers or arrays.
        level_square: side of the square that a level cut shows, above 0, any length unit.

    Returns:
        The angles and distances; arrays where the lean or the side are arrays.

    Raises:
        DesignError: when the side is not above 0.

    Source:
        Derived in `teach.derive.derive_apron`.

    Example:
        >>> leg = flush_leg(Lean.from_rake_splay(8.0, 6.0), 48.0)
        >>> leg.dihedral_deg, leg.between_front_and_back, leg.between_sides
        (90.834, 47.53, 47.74)
    """
    require_positive("level square of the leg", level_square)
    backing = asind(sin_off_square(lean.tan_rake, lean.tan_splay))
    return FlushLeg(
        90 + backing,
        backing,
        between_faces(level_square, lean.tan_rake),
        between_faces(level_square, lean.tan_splay),
    )


def leaning_apron(lean: Lean, depth: Value, top_length: Value, face: str = "front") -> Apron:
    """Apron that leans with its legs, its face flush with theirs or parallel to it.

    On the front: end mitre = atan(tan s cos r), edge bevel = r, width = d / cos r, bottom length =
    top length + 2 d tan s. On a side, rake and splay change places. Trap: the splay itself as end mitre.

    Args:
        lean: the direction of the two legs, which lean alike, mirrored; numbers or arrays.
        depth: from top edge to bottom edge straight down, above 0, any length unit.
        top_length: length of the top edge in the apron's face, above 0, in the same unit.
        face: "front" for the front or the back of the piece, "side" for a side.

    Returns:
        The apron; arrays where the lean or the sizes are arrays.

    Raises:
        DesignError: when a size is not above 0, the face is another word, or legs that lean in meet above
            the bottom edge.

    Source:
        Derived in `teach.derive.derive_apron`.

    Example:
        >>> apron = leaning_apron(Lean.from_rake_splay(8.0, 6.0), 70.0, 400.0)
        >>> apron.end_mitre_deg, apron.width, apron.bottom_length
        (5.942, 70.69, 414.71)
    """
    tan_across, tan_own = _across_and_own(lean, face)
    return _apron(tan_across, tan_own, depth, top_length)


def plumb_apron(lean: Lean, depth: Value, top_length: Value, face: str = "front") -> Apron:
    """Apron that is kept plumb between leaning legs: the one whose end mitre is the splay itself.

    Edge bevel = 0, width = depth, bottom length = top length + 2 d tan s. On a side, the end mitre is the rake.

    Args:
        lean: the direction of the two legs, which lean alike, mirrored; numbers or arrays.
        depth: from top edge to bottom edge, above 0, any length unit.
        top_length: length of the top edge in the apron's face, above 0, in the same unit.
        face: "front" for the front or the back of the piece, "side" for a side.

    Returns:
        The apron; arrays where the lean or the sizes are arrays.

    Raises:
        DesignError: when a size is not above 0, the face is another word, or legs that lean in meet above
            the bottom edge.

    Source:
        Derived in `teach.derive.derive_apron`.

    Example:
        >>> apron = plumb_apron(Lean.from_rake_splay(8.0, 6.0), 70.0, 400.0)
        >>> apron.end_mitre_deg, apron.width, apron.bottom_length
        (6.0, 70.0, 414.71)
    """
    tan_across, _ = _across_and_own(lean, face)
    return _apron(tan_across, 0.0, depth, top_length)


def _across_and_own(lean: Lean, face: str) -> tuple[Value, Value]:
    """Tangents of the lean seen square-on and of the face's own lean."""
    if face == "front":
        return lean.tan_splay, lean.tan_rake
    if face == "side":
        return lean.tan_rake, lean.tan_splay
    raise DesignError(f"The face of an apron is '{face}'; it is front or side: take the front for the back as well.")


def _apron(tan_across: Value, tan_own: Value, depth: Value, top_length: Value) -> Apron:
    require_positive("depth of the apron", depth)
    require_positive("top length of the apron", top_length)
    bottom_length = bottom_edge(top_length, depth, tan_across)
    require_positive(
        "bottom length of the apron", bottom_length, "lean the legs in less, or make the apron longer or less deep"
    )
    return Apron(
        atand(slope_in_plane(tan_across, tan_own)),
        atand(tan_own),
        leaning_width(depth, tan_own),
        top_length,
        bottom_length,
    )
