"""Fronts cut one after the other from one board: where each lies on it, and how the figure carries on.

Along a row the fronts lie end to end and lengths run along the board. Down the case they lie edge to
edge, and the lengths here are their heights, across the board. The sums are the same.

Between two neighbours saw and plane remove some wood, and the eye later sees a divider and its gaps.
Where more is seen than was removed, the lines of the figure step back: a spacer cut out and thrown
away puts that right. A divider may come from the same board instead: its own place is then kept, and
only the gaps are left to hide what saw and plane took. In a row such a divider has its grain across
its length, so it can be no more than a thin facing.

A spacer is shorter than most machines allow to be held: it falls free as an off-cut of the long board,
and no hand or fence is near it (`trade.cautions.MACHINE`).
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive

Line = tuple[tuple[Value, Value], tuple[Value, Value]]
"""A straight mark by its two ends, each across from the left edge and up from the lower one."""
Box = tuple[Value, Value, Value, Value]
"""A part in its set: left edge, lower edge, width, height."""
Stretch = tuple[str, str, Value]
"""Of a run: name, kind and length."""


def figure_jump(removed: Value, seen: Value) -> Value:
    """How far the figure jumps from one piece to the next: removed - seen.

    Args:
        removed: wood of the board lost between the two, any length unit; number, array or symbol.
        seen: what the eye sees between them in the finished piece, in the same unit.

    Returns:
        The jump: below 0 the next piece repeats figure that the divider ought to hide, above 0 some
        of the figure is missing, 0 the lines run through.

    Source:
        Derived in `teach.derive.derive_grain_run`.

    Example:
        >>> figure_jump(5, 20)
        -15
    """
    return removed - seen


def removed_by_cuts(cuts: Value, kerf: Value, trim: Value) -> Value:
    """Wood removed where pieces are sawn apart and both sides of each cut are trimmed: c (k + t).

    Args:
        cuts: c, how many; each parts two pieces that are kept.
        kerf: k, of the saw, any length unit; number, array or symbol.
        trim: t, what each piece loses in being trimmed, half at either end, in the same unit.

    Returns:
        The wood removed, in the same unit.

    Source:
        Derived in `teach.derive.derive_grain_run`.

    Example:
        >>> removed_by_cuts(1, 3, 2), removed_by_cuts(2, 3, 2)
        (5, 10)
    """
    return cuts * (kerf + trim)


def spacer_length(kerf: Value, trim: Value, seen: Value) -> Value:
    """The spacer to cut out and throw away so that the figure runs through: seen - 2 k - t.

    Args:
        kerf: k, of the saw, any length unit; number, array or symbol.
        trim: t, what each kept piece loses in being trimmed, half at either end, in the same unit; the
            spacer loses none.
        seen: what the eye sees between the two pieces, in the same unit.

    Returns:
        Its length; 0 or less where a second kerf is all that is needed, or too much.

    Source:
        Derived in `teach.derive.derive_grain_run`.

    Example:
        >>> spacer_length(3, 2, 20)
        12
    """
    return seen - removed_by_cuts(1, kerf, trim) - kerf


@dataclass(frozen=True)
class RunPart:
    """One front, divider or rail, in the order in which the eye meets them.

    Args:
        name: what the maker calls it.
        length: along the run, finished, above 0, any length unit.
        across: its size square to the run, finished, above 0, in the same unit.
        kind: "front" or "divider".
        from_board: False where it comes from another board.
    """

    name: str
    length: Value
    across: Value
    kind: str = "front"
    from_board: bool = True


@dataclass(frozen=True)
class RunPlace:
    """Where one stretch of a run begins and how long it is, in the unit of the parts.

    Args:
        name: of the part; of what is lost, thrown away or left open, its kind.
        kind: "front", "divider", "trim", "kerf" or "spacer" on the board; "front", "divider" or "gap" as seen.
        start: a running size, from the end where the run begins.
        length: along the run.
    """

    name: str
    kind: str
    start: Value
    length: Value

    @property
    def end(self) -> Value:
        """Where it ends, from the same end of the run."""
        return self.start + self.length


@dataclass(frozen=True)
class RunJoint:
    """What happens to the figure between two pieces of one board, in the unit of the parts.

    Args:
        neighbours: names of the two pieces.
        between: names of what is seen between them and comes from another board.
        removed: wood lost between the two as the run is laid out, spacer and all.
        seen: what the eye sees between them.
        jump: removed less seen as the run is laid out; 0 where the figure runs through.
        spacer: what is cut out and thrown away between two kerfs; 0 where there is none.
        jump_tight: the jump where the two are sawn apart by one cut.
        jump_with_divider: the jump from front to front where all between them came from the same board.
    """

    neighbours: tuple[str, str]
    between: tuple[str, ...]
    removed: Value
    seen: Value
    jump: Value
    spacer: Value
    jump_tight: Value
    jump_with_divider: Value


@dataclass(frozen=True)
class GrainRun:
    """A board laid out for a run of fronts, in the unit of the parts.

    Args:
        places: all of the board from the end where the run begins, in order.
        as_seen: the parts and the gaps between them as the eye meets them, from the first part's edge.
        joints: between each piece of the board and the next.
        length: of sound board that the run takes up; a last cut to part it from the rest not counted.
        width: the least that the board measures square to the run: its largest piece and its trim.
    """

    places: tuple[RunPlace, ...]
    as_seen: tuple[RunPlace, ...]
    joints: tuple[RunJoint, ...]
    length: Value
    width: Value


def grain_run(
    parts: Sequence[RunPart], gaps: Sequence[Value], kerf: Value, trim: Value, *, spacers: bool = True
) -> GrainRun:
    """Lay out the pieces of one board so that their figure carries on across dividers.

    Args:
        parts: as the eye meets them, along a row or down the case; one or more from this board.
        gaps: seen between each part and the next, one fewer than parts, 0 or more, in their unit.
        kerf: of the saw, above 0, in the same unit.
        trim: what each piece loses in being trimmed to size, half at either end, 0 or more, in the same unit.
        spacers: True to remove as much as is seen, wherever that is more than one cut removes; what
            is less than another kerf is left to be trimmed away.

    Returns:
        The run; exact sizes stay exact.

    Raises:
        DesignError: when no part comes from the board, gaps do not fit the parts, or a size is no size.

    Source:
        Derived in `teach.derive.derive_grain_run`.

    Example:
        >>> row = [RunPart("left", 229, 80), RunPart("divider", 18, 83, "divider", False), RunPart("right", 229, 80)]
        >>> run = grain_run(row, [1, 1], kerf=3, trim=2)
        >>> [(place.kind, place.start) for place in run.places if place.length > 1]
        [('front', 1.0), ('kerf', 231.0), ('spacer', 234.0), ('kerf', 246.0), ('front', 250.0)]
        >>> run.joints[0].jump_tight, run.joints[0].jump, run.length, run.width
        (-15, 0, 480.0, 82)
    """
    kept = [index for index, part in enumerate(parts) if part.from_board]
    if not kept:
        raise DesignError("No part of the run comes from its board; name at least one front that does.")
    if len(gaps) != len(parts) - 1:
        raise DesignError(
            f"{len(gaps)} gaps stand between {len(parts)} parts; give one between each part and the next."
        )
    sizes = [("kerf", kerf), *((f"length of {part.name}", part.length) for part in parts)]
    for name, size in (*sizes, *((f"size across of {part.name}", part.across) for part in parts)):
        if not 0 < size < math.inf:  # tried here first: this runs for each part on every move of a slider
            require_positive(name, size)
    for name, size in (("trim", trim), *(("gap", gap) for gap in gaps)):
        if not 0 <= size < math.inf:
            require_between(name, size, 0, math.inf, "give 0 where there is none", ends=True)
    half, tight = ("trim", "trim", trim / 2), removed_by_cuts(1, kerf, trim)
    board, joints = [half], []
    for here, there in pairwise(kept):
        between = parts[here + 1 : there]
        hidden = sum(gaps[here:there])
        seen = hidden + sum(divider.length for divider in between)
        more = max(seen - tight, 0) if spacers else 0
        spacer = max(spacer_length(kerf, trim, seen), 0) if more else 0
        # what is less than a second kerf is trimmed away
        rest = [("spacer", "spacer", spacer), ("kerf", "kerf", kerf)] if spacer else [("trim", "trim", more)]
        board += [_piece(parts[here]), half, ("kerf", "kerf", kerf), *rest, half]
        joints.append(
            RunJoint(
                neighbours=(parts[here].name, parts[there].name),
                between=tuple(divider.name for divider in between),
                removed=tight + more,
                seen=seen,
                jump=figure_jump(tight + more, seen),
                spacer=spacer,
                jump_tight=figure_jump(tight, seen),
                jump_with_divider=figure_jump(removed_by_cuts(len(between) + 1, kerf, trim), hidden),
            )
        )
    places = _running([*board, _piece(parts[kept[-1]]), half])
    row = zip((0, *gaps), parts, strict=True)
    seen_row = _running([stretch for gap, part in row for stretch in (("gap", "gap", gap), _piece(part))])
    widest = max(parts[index].across for index in kept)
    return GrainRun(places, seen_row, tuple(joints), places[-1].end, widest + trim)


def _piece(part: RunPart) -> Stretch:
    return part.name, part.kind, part.length


def _running(stretches: Sequence[Stretch]) -> tuple[RunPlace, ...]:
    """Running sizes of stretches laid end to end; those without length are left out."""
    places: list[RunPlace] = []
    start: Value = 0
    for name, kind, length in stretches:
        if length:
            places.append(RunPlace(name, kind, start, length))
            start += length
    return tuple(places)


def set_triangle(parts: Mapping[str, Box], margin: Value | None = None) -> dict[str, tuple[Line, ...]]:
    """The cabinetmaker's triangle over a set of fronts, as the lines that each front gets.

    Its point is up, in the middle; its base runs along the foot of the set. A front turned end for
    end, or put in another's place, breaks the lines.

    Args:
        parts: by name, where each lies in the set as it is marked, seen from the marked side, in any
            one length unit: left edge, lower edge, width and height.
        margin: how far the triangle stays inside the set's outline, above 0, in the same unit; a fifth
            of the smallest size of a part where it is not given.

    Returns:
        For each part its lines, in its own frame: across from its left edge, up from its lower edge.
        The base comes last.

    Raises:
        DesignError: when there is no part, a size is not above 0, the margin leaves no room, or the triangle
            misses a part.

    Source:
        Common practice, no source.

    Example:
        >>> marks = set_triangle({"left": (0, 0, 100, 60), "right": (100, 0, 100, 60)}, margin=10)
        >>> marks["left"]
        (((10.0, 10), (100.0, 50)), ((10, 10), (100.0, 10.0)))
    """
    if not parts:
        raise DesignError("There is no part to mark; name one or more with their places.")
    for name, (left, lower, width, height) in parts.items():
        require_finite(f"left edge of {name}", left)
        require_finite(f"lower edge of {name}", lower)
        require_positive(f"width of {name}", width)
        require_positive(f"height of {name}", height)
    inset = min(min(box[2:]) for box in parts.values()) / 5 if margin is None else margin
    require_positive("margin", inset)
    left, lower = (min(box[i] for box in parts.values()) + inset for i in (0, 1))
    right, upper = (max(box[i] + box[i + 2] for box in parts.values()) - inset for i in (0, 1))
    if left >= right or lower >= upper:
        raise DesignError(f"The margin is {inset}; it leaves no room for a triangle: make it smaller.")
    point = ((left + right) / 2, upper)
    lines: tuple[Line, ...] = (((left, lower), point), (point, (right, lower)), ((left, lower), (right, lower)))
    marks = {}
    for name, box in parts.items():
        slants = [found for line in lines[:2] if (found := _inside(line, box))]
        if not slants:
            raise DesignError(f"The triangle misses {name}; mark its row or its column by a triangle of its own.")
        marks[name] = (*slants, *(found for line in lines[2:] if (found := _inside(line, box))))
    return marks


def _inside(line: Line, box: Box) -> Line | None:
    """The part of a line inside a box, from the box's own corner; None where it does not cross it."""
    start, end = line
    enter, leave = 0, 1  # along the line, from 0 at its start to 1 at its end
    for i in (0, 1):
        step, low, high = end[i] - start[i], box[i] - start[i], box[i] + box[i + 2] - start[i]
        if step:
            near, far = sorted((low / step, high / step))
            enter, leave = max(enter, near), min(leave, far)
        elif not low < 0 < high:
            return None
    if enter >= leave:
        return None
    (x, run), (y, rise) = ((start[i] - box[i], end[i] - start[i]) for i in (0, 1))
    return (x + enter * run, y + enter * rise), (x + leave * run, y + leave * rise)
