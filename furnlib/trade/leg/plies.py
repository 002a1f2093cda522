"""A blank glued up from boards, so that a ply, never a glue line, holds the lathe's axis.

A centre driven into a glue line is a wedge in the very place where the blank opens: it splits, at
once or at speed. An odd number of equal plies has a ply in the middle; an even number has a glue line
there, unless one outside is planed further than the other and the axis lies off the stack's middle.

Stack and lines are counted square to the glue lines, from the first board to the last. Boards that
meet should lie the way they grew, rings turned the same way, so that they move together. A glued
blank is turned when the glue is fully cured, and not at all with an open line or a split.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import ceil, inf

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, require_finite, require_positive
from furnlib.base.units import write_number

LEAST_SHARE = 0.1
"""How near a glue line may come to the axis when nothing else is asked, as a share of the blank's side.

A drive centre is chosen to suit the blank, and its point measures about a tenth of the side across: 5 on
a side of 50. Half of that lies beside the axis; as much sound wood again, and half as much for a line
that is not quite where it should be, make a tenth. Common practice, no source."""
_ROUNDING = 1e-9
"""What sums of floats lose: no reason for one ply more."""


def glue_line_places(plies: Sequence[Value], axis_shift: Value = 0) -> tuple[Value, ...]:
    """Where the glue lines of a stack lie, from the axis: t1 + ... + tj - (t1 + ... + tn)/2 - shift.

    Args:
        plies: finished thicknesses in order, one length unit; numbers or symbols.
        axis_shift: how far the axis lies off the stack's middle, towards the last ply, in the same unit.

    Returns:
        One signed distance for each line, in the same unit; below 0 on the side of the first ply.

    Source:
        Derived in `teach.derive.derive_plies`.

    Example:
        >>> glue_line_places((20.0, 20.0, 20.0)), glue_line_places((20.0, 20.0), 5.0)
        ((-10.0, 10.0), (-5.0,))
    """
    axis = sum(plies) / 2 + axis_shift
    return tuple(line - axis for line in accumulate(plies[:-1]))


@dataclass(frozen=True)
class GluedBlank:
    """A blank of glued plies, lengths in the unit of the boards.

    Args:
        plies: finished thickness of each, in order, before the outsides are planed to the blank.
        glue_lines: signed distance of each line from the axis, below 0 on the side of the first ply.
        nearest_line: how far the nearest of them is from the axis; infinite for one board.
        side: of the square blank.
        stack: all plies together.
        spare: what the stack has over the blank, both outsides together.
        off_outsides: what is planed off the first ply's outside and off the last ply's.
    """

    plies: tuple[float, ...]
    glue_lines: tuple[float, ...]
    nearest_line: float
    side: float
    stack: float
    spare: float
    off_outsides: tuple[float, float]


def glued_blank(
    side: float,
    board_thickness: float,
    *,
    spare: float,
    planing: float = 0.0,
    axis_shift: float = 0.0,
    least_distance: float | None = None,
) -> GluedBlank:
    """A blank from boards of one thickness, as few as reach: n (T - 2 planing) >= side + spare + 2 |shift|.

    Args:
        side: of the square blank, above 0, any length unit.
        board_thickness: of each board as it is, above 0, in the same unit.
        spare: least that the stack has over the blank, both outsides together, 0 or more, in the
            same unit; 6 mm is usual.
        planing: what is planed off each face of a board before it is glued, 0 or more, in the same unit.
        axis_shift: how far the axis lies off the stack's middle, towards the last ply, in the same unit.
        least_distance: how near a glue line may come to the axis, above 0, in the same unit; left out,
            a tenth of the side.

    Returns:
        The glued blank.

    Raises:
        DesignError: when a size is out of range, planing leaves nothing, or a glue line comes too near the axis.

    Source:
        Derived in `teach.derive.derive_plies`; odd plies and 6 mm to spare are common practice, no source.

    Example:
        >>> made = glued_blank(46.0, 26.0, spare=6.0, planing=3.0)
        >>> made.plies, made.glue_lines, made.off_outsides
        ((20.0, 20.0, 20.0), (-10.0, 10.0), (7.0, 7.0))
    """
    _require_sizes(side, spare, axis_shift)
    require_positive("thickness of the boards", board_thickness)
    _require_not_below_0("planing", planing)
    ply = board_thickness - 2 * planing
    require_positive("thickness that planing leaves", ply, "plane less off each face or take thicker boards")
    count = ceil((side + spare + 2 * abs(axis_shift)) / ply - _ROUNDING)
    return glued_from(side, (ply,) * count, spare=spare, axis_shift=axis_shift, least_distance=least_distance)


def glued_from(
    side: float,
    boards: Sequence[float],
    *,
    spare: float = 0.0,
    axis_shift: float = 0.0,
    least_distance: float | None = None,
) -> GluedBlank:
    """A blank from boards as they lie in order, each with its own finished thickness.

    Args:
        side: of the square blank, above 0, any length unit.
        boards: finished thicknesses in order, each above 0, in the same unit.
        spare: least that the stack has over the blank, both outsides together, 0 or more, in the same unit.
        axis_shift: how far the axis lies off the stack's middle, towards the last board, in the same unit.
        least_distance: how near a glue line may come to the axis, above 0, in the same unit; left out,
            a tenth of the side.

    Returns:
        The glued blank.

    Raises:
        DesignError: when a size is out of range, the stack is too thin, an outer ply would be planed
            away, or a glue line comes too near the axis.

    Source:
        Derived in `teach.derive.derive_plies`; the least distance is common practice, no source.

    Example:
        >>> glued_from(46.0, (15.0, 27.0, 15.0), spare=6.0).glue_lines
        (-13.5, 13.5)
    """
    _require_sizes(side, spare, axis_shift)
    least = side * LEAST_SHARE if least_distance is None else least_distance
    require_positive("least distance from axis to glue line", least)
    if not boards:
        raise DesignError("No boards are given; a blank is glued from at least one: give their thicknesses.")
    for board in boards:
        require_positive("finished thickness of a board", board)
    stack = float(sum(boards))
    needed = side + spare + 2 * abs(axis_shift)
    if stack < needed * (1 - _ROUNDING):
        raise DesignError(
            f"The boards make a stack of {_plain(stack)} and the blank needs {_plain(needed)}, its side with what is"
            f" spare and twice the shift of the axis: add a ply or take thicker boards."
        )
    lines = tuple(float(line) for line in glue_line_places(boards, axis_shift))
    nearest = min((abs(line) for line in lines), default=inf)
    if nearest < least * (1 - _ROUNDING):
        raise DesignError(
            f"A glue line lies {_plain(nearest)} from the axis, and a driven centre splits one nearer than"
            f" {_plain(least)}: {_cure(side, spare, boards, lines, least, axis_shift)}."
        )
    off = ((stack - side) / 2 + axis_shift, (stack - side) / 2 - axis_shift)
    if lines and (off[0] >= boards[0] or off[1] >= boards[-1]):
        raise DesignError(
            f"Planing {_plain(off[0])} off the first outside and {_plain(off[1])} off the last takes an outer ply of"
            f" {_plain(min(boards[0], boards[-1]))} away altogether: leave that ply out or shift the axis less."
        )
    return GluedBlank(tuple(float(board) for board in boards), lines, nearest, side, stack, stack - side, off)


def _cure(
    side: float, spare: float, boards: Sequence[float], lines: Sequence[float], least: float, axis_shift: float
) -> str:
    """The usual ways out: a ply in the middle again, or the least shift that clears every line."""
    middle = [line + axis_shift for line in lines]
    shifts = [0.0, *(line + way * least for line in middle for way in (1, -1))]
    clear = [
        s for s in shifts if abs(s) < side / 2 and all(abs(line - s) >= least * (1 - _ROUNDING) for line in middle)
    ]
    if 0.0 in clear:
        return "leave the axis in the stack's middle"
    even = len(boards) % 2 == 0 and max(boards) == min(boards) >= 2 * least
    way = "glue one ply more" if even else "put a thicker board in the middle"
    if not clear:
        return way
    best = min(clear, key=abs)
    return (
        f"{way}, or plane the outsides unevenly for a shift of {_plain(best)} off the stack's middle, for which the"
        f" stack must be {_plain(side + spare + 2 * abs(best))} or more"
    )


def _plain(length: float) -> str:
    return write_number(length, 3)


def _require_not_below_0(name: str, size: float) -> None:
    require_finite(name, size)
    if size < 0:
        raise DesignError(f"The {name} is {size}; it must be 0 or more: measure it as a distance.")


def _require_sizes(side: float, spare: float, axis_shift: float) -> None:
    require_positive("side of the blank", side)
    _require_not_below_0("spare", spare)
    require_finite("shift of the axis", axis_shift)
