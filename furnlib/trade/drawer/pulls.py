"""Where pulls stand: lines carried down all rows, and where each front is drilled for them.

Pull lines are plumb and count from the inside of the case's left side, seen from the front. Holes are
drilled from the face; they count from a front's left edge and its lower edge, the datum edges.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, nearest_word, require_between, require_positive
from furnlib.base.units import write_number

LINE_SHARES = {"middle": 2, "thirds": 3, "quarters": 4}
"""Which part of the width a pull stands in from either side, by the word that makers have for it."""


def centre_line(left: Value, width: Value) -> Value:
    """The line down the middle of an opening: left + w/2.

    Args:
        left: its left side, from the inside of the case's left side, any length unit; number, array or symbol.
        width: w, its clear width, in the same unit.

    Returns:
        The line, from the inside of the case's left side.

    Source:
        Derived in `teach.derive.derive_pulls`.

    Example:
        >>> centre_line(0, 231), centre_line(249, 231)
        (115.5, 364.5)
    """
    return left + width / 2


def hole_across(line: Value, left: Value, hole_spacing: Value, side: Value) -> Value:
    """Where a hole stands across a front: line - left + side s/2.

    Args:
        line: the pull line, from the inside of the case's left side, any length unit.
        left: the front's left edge, from the same, in the same unit.
        hole_spacing: s, from hole to hole of one pull, level, in the same unit; 0 for a pull with one screw.
        side: a plain number: -1 for the left hole, 1 for the right one, 0 for the only one.

    Returns:
        The hole's centre, from the front's left edge.

    Source:
        Derived in `teach.derive.derive_pulls`.

    Example:
        >>> hole_across(115.5, 1, 0, 0), hole_across(115.5, 1, 96, -1)
        (114.5, 66.5)
    """
    return line - left + side * hole_spacing / 2


def pull_lines(width: Value, rule: str | tuple[Value, ...]) -> tuple[Value, ...]:
    """Pull lines as shares of the inside width, or from its nearer side.

    Lines carried down from a split row are each opening's `centre_line`.

    Args:
        width: inside width of the case or clear width of a bank, above 0, any length unit.
        rule: "middle", "quarters" or "thirds"; or distances in the same unit, above 0 from the left
            side, below 0 from the right side.

    Returns:
        The lines from the left, each from the left side.

    Raises:
        DesignError: when the rule is not known, there is no line, or a line falls outside the width.

    Source:
        Common practice, no source.

    Example:
        >>> pull_lines(480, "quarters") == pull_lines(480, (120, -120)) == (120, 360)
        True
    """
    require_positive("width", width)
    if isinstance(rule, str):
        if rule not in LINE_SHARES:
            raise DesignError(f"Pulls at '{rule}' are not known; {nearest_word(rule, LINE_SHARES)}")
        inset = width / LINE_SHARES[rule]
        rule = (inset, -inset)
    lines = sorted({line if line > 0 else width + line for line in rule})
    if not lines or not all(0 < line < width for line in lines):
        raise DesignError(
            f"The pull lines at {_listed(rule)} do not all fall inside a width of {write_number(width, 3)}; give each"
            " from the left side, or below 0 from the right side."
        )
    return tuple(lines)


@dataclass(frozen=True)
class Pull:
    """A pull as it is bought or turned, in the unit of the piece.

    Args:
        base: how wide its foot is on the front, round each hole, above 0.
        thread: how far the screw goes into it, above 0.
        hole_diameter: of the hole through the front, above 0.
        hole_spacing: level, from hole to hole of a bar handle; 0 for a pull with one screw.
    """

    base: Value
    thread: Value
    hole_diameter: Value
    hole_spacing: Value = Fraction(0)

    def __post_init__(self) -> None:
        for name in ("base", "thread", "hole_diameter"):
            require_positive(f"{name.replace('_', ' ')} of a pull", vars(self)[name])
        require_between("hole spacing", self.hole_spacing, 0, math.inf, "0 stands for one screw", ends=True)


@dataclass(frozen=True)
class DrillingPattern:
    """Where one front is drilled for its pulls, seen from its face, in the unit of the piece.

    Args:
        name: the front.
        from_left: hole centres from the left edge, in order.
        from_lower: hole centres from the lower edge, alike for all.
        lines: the pull lines that cross the front, from its left edge.
        off_middle: how far each line stands off the middle of the front, what decides whether one pull binds.
        edge_room: the least from the foot of a pull to an edge of the front; below 0 it stands over.
        screw_length: under the head: the wood it passes and the thread in the pull.
        hole_diameter: of each hole.
    """

    name: str
    from_left: tuple[Value, ...]
    from_lower: Value
    lines: tuple[Value, ...]
    off_middle: tuple[Value, ...]
    edge_room: Value
    screw_length: Value
    hole_diameter: Value


def drilling_pattern(
    name: str,
    left: Value,
    width: Value,
    height: Value,
    thickness: Value,
    lines: Sequence[Value],
    pull: Pull,
    raised: Value = 0,
) -> DrillingPattern:
    """Holes of one front, at each pull line that crosses it.

    Args:
        name: the front.
        left: its left edge, from the inside of the case's left side, in the unit of the piece.
        width: of the front, above 0, in the same unit.
        height: of the front, above 0, in the same unit.
        thickness: of all wood that the screw passes, above 0, in the same unit.
        lines: pull lines, from the inside of the case's left side, in the same unit; those beside the front
            are left out.
        pull: what is screwed on.
        raised: how far above the middle, as a share of the height, a plain number between -1/2 and 1/2.

    Returns:
        The pattern; exact sizes stay exact.

    Raises:
        DesignError: when a size is not above 0, no line crosses the front, or a hole breaks out of it.

    Source:
        Derived in `teach.derive.derive_pulls`.

    Example:
        >>> knob = Pull(base=25, thread=12, hole_diameter=5)
        >>> pattern = drilling_pattern("row 2", 1, 478, 100, 20, (115.5, 364.5), knob)
        >>> pattern.from_left, pattern.from_lower, pattern.edge_room, pattern.screw_length
        ((114.5, 363.5), 50.0, 37.5, 32)
    """
    for what, size in (("width", width), ("height", height), ("thickness", thickness)):
        require_positive(f"{what} of {name}", size)
    require_between("share by which a pull is raised", raised, -0.5, 0.5, "0 is the middle of the front")
    right = left + width
    crossing = [line for line in lines if left < line < right]
    if not crossing:
        raise DesignError(
            f"No pull line crosses {name}, which runs from {_listed((left, right), ' to ')}: the lines stand"
            f" at {_listed(lines)}; give it a line of its own."
        )
    on_front = tuple(line - left for line in crossing)
    holes = on_front
    if pull.hole_spacing:
        holes = tuple(hole_across(line, left, pull.hole_spacing, side) for line in crossing for side in (-1, 1))
    up = height / 2 + raised * height
    room = min(*holes, *(width - hole for hole in holes), up, height - up)
    if room <= pull.hole_diameter / 2:
        raise DesignError(
            f"A hole of {name}, {write_number(pull.hole_diameter, 3)} wide, has its centre {write_number(room, 3)}"
            " inside the edge and breaks out; move the pull in or take one with a shorter spacing."
        )
    middle = width / 2
    return DrillingPattern(
        name=name,
        from_left=holes,
        from_lower=up,
        lines=on_front,
        off_middle=tuple(abs(line - middle) for line in on_front),
        edge_room=room - pull.base / 2,
        screw_length=thickness + pull.thread,
        hole_diameter=pull.hole_diameter,
    )


def _listed(lengths: Sequence[Value], between: str = ", ") -> str:
    """Lengths as they stand in a sentence."""
    return between.join(write_number(length, 3) for length in lengths) or "no place"
