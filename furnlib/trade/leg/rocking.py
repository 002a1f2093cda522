"""Four feet on a floor: which one hangs, how much, how likely, and how to level them.

Three feet always stand. A fourth stands only where its end lies in the plane of the other three;
else the piece rests on three and rocks about the diagonal between two of them. Which pair hangs
follows from one number, the twist of the four ends; how much, from the plan of the feet.

To level them, set the piece on a true floor, shim it until the top is where it should be, and mark
round every leg from one block. Mark it as it stands; saw it when it lies clamped on the bench.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from furnlib.base.angles import Value, Vector, square_root
from furnlib.base.guards import DesignError, require_finite
from furnlib.trade.leg.lean import Lean, axis_stretch

Four = tuple[Value, Value, Value, Value]
_PLUMB = Lean(0.0, 0.0)


def foot_levers(fore_aft: Four, sideways: Four) -> Four:
    """What a foot counts for in the twist of four: twice the area of the triangle of the other three.

    The signs take turns round the piece, so the four numbers add up to 0, and so do their products
    with the places: four ends in one plane have no twist.

    Args:
        fore_aft: of the four feet in order round the piece, any length unit; numbers, arrays or
            symbols.
        sideways: of the same feet, in the same unit.

    Returns:
        The four numbers, in the unit squared.

    Source:
        Derived in `teach.derive.derive_rocking`.

    Example:
        >>> foot_levers((0, 2, 2, 0), (0, 0, 3, 3))
        (6, -6, 6, -6)
    """

    def triangle(i: int, j: int, k: int) -> Value:
        return (fore_aft[j] - fore_aft[i]) * (sideways[k] - sideways[i]) - (fore_aft[k] - fore_aft[i]) * (
            sideways[j] - sideways[i]
        )

    return triangle(1, 2, 3), -triangle(0, 2, 3), triangle(0, 1, 3), -triangle(0, 1, 2)


def gaps_under(foot_levers: Four, shortfalls: Four) -> Four:
    """Gap under each foot with the other three down: the twist over the foot's own lever.

    With the levers a_i and the shortfalls s_i the twist is Σ a_i s_i, and each gap Σ a_i s_i / a_i.

    Args:
        foot_levers: from `foot_levers`, any unit; numbers, arrays or symbols.
        shortfalls: how far above the floor each foot ends, any length unit; of the same kind.

    Returns:
        The four gaps in the unit of the shortfalls; below 0 where the foot would be in the floor.

    Source:
        Derived in `teach.derive.derive_rocking`.

    Example:
        >>> gaps_under((6, -6, 6, -6), (1.0, 0.0, 0.0, 0.0))
        (1.0, -1.0, 1.0, -1.0)
    """
    twist = sum(lever * shortfall for lever, shortfall in zip(foot_levers, shortfalls, strict=True))
    first, second, third, fourth = foot_levers
    return twist / first, twist / second, twist / third, twist / fourth


def scatters_under(foot_levers: Four, rise_scatter: Four) -> Four:
    """Standard deviation of each gap where each foot slips for itself: √(Σ (a_i s_i)²) / |a|.

    Args:
        foot_levers: from `foot_levers`, any unit; numbers, arrays or symbols.
        rise_scatter: standard deviation of the height of each foot, any length unit; of the same
            kind.

    Returns:
        The four standard deviations, in the unit of the rise scatter.

    Source:
        Derived in `teach.derive.derive_rocking`; independent scatters add as squares.

    Example:
        >>> scatters_under((6, -6, 6, -6), (1.0, 1.0, 1.0, 1.0))
        (2.0, 2.0, 2.0, 2.0)
    """
    twist = square_root(sum((lever * rise) ** 2 for lever, rise in zip(foot_levers, rise_scatter, strict=True)))
    first, second, third, fourth = foot_levers
    return twist / abs(first), twist / abs(second), twist / abs(third), twist / abs(fourth)


def rocked_gap(gap: Value, short_distance: Value, opposite_distance: Value) -> Value:
    """Gap under the opposite foot once the piece is rocked onto its short foot: g (d'/d) cos A, tan A = g/d.

    Args:
        gap: under the short foot before, square to the floor, any length unit.
        short_distance: of the short foot from the diagonal it rocks about, in the same unit.
        opposite_distance: of the opposite foot from that diagonal, in the same unit.

    Returns:
        The gap square to the floor, in the same unit.

    Source:
        Derived in `teach.derive.derive_rocking`.

    Example:
        >>> rocked_gap(3.0, 4.0, 10.0)
        6.0
    """
    return opposite_distance * gap / square_root(short_distance * short_distance + gap * gap)


def daylight(feet: ArrayLike, shortfalls: ArrayLike) -> Vector:
    """Gap under each of four feet when the other three are down.

    Two opposite feet have gaps above 0: the piece stands with the one or the other of them in the
    air, and rocks about the line through the other two. The gaps are measured along the piece's own
    plumb; square to the floor they are less by the cosine of what little the piece then leans.

    Args:
        feet: places in plan in order round the piece, any length unit; shape (..., 4, 2).
        shortfalls: how far above the floor each foot ends while the piece is held level, in any
            length unit; shape (..., 4).

    Returns:
        The gaps in the unit of the shortfalls, shape (..., 4); below 0 where the other three
        cannot all be down, as this foot would be in the floor.

    Raises:
        DesignError: when there are not four feet, they do not go round the piece in order, or a
            number is not finite.

    Source:
        Derived in `teach.derive.derive_rocking`.

    Example:
        >>> daylight([(0, 0), (300, 0), (300, 400), (0, 400)], [2.0, 0.0, 0.0, 0.0])
        array([ 2., -2.,  2., -2.])
    """
    levers = _levers(feet)
    return np.stack(gaps_under(levers, _four("shortfall", shortfalls)), axis=-1)


def opposite_gap(feet: ArrayLike, number: int, gap: Value) -> Value:
    """Gap under the opposite foot once the piece is rocked onto its short one.

    It scales with the distances of both feet from the diagonal. Only where the diagonals halve each
    other, as in a rectangle, are the two gaps alike, but for the cosine of the rock.

    Args:
        feet: places in plan in order round the piece, any length unit; shape (4, 2).
        number: which foot is short, from 1 to 4 as they are listed.
        gap: under that foot with the other three down, square to the floor, 0 or more, in the unit
            of the feet; number or array.

    Returns:
        The gap under the opposite foot, square to the floor, in the same unit.

    Raises:
        DesignError: when the feet do not go round the piece, there is no such foot, or the gap is
            below 0.

    Source:
        Derived in `teach.derive.derive_rocking`.

    Example:
        >>> trapezoid = [(160, -100), (160, 100), (-160, 200), (-160, -200)]
        >>> opposite_gap(trapezoid, 1, 2.0), opposite_gap(trapezoid, 3, 2.0)
        (4.00, 1.00)
    """
    levers = _levers(feet)
    if np.ndim(levers[0]):
        raise DesignError(f"The feet of {np.size(levers[0])} pieces are given; ask for one piece at a time.")
    if number not in {1, 2, 3, 4}:
        raise DesignError(f"The number of the short foot is {number}; it must be 1, 2, 3 or 4, as they are listed.")
    _require_no_less("gap under the short foot", gap, "measure it with the other three feet down")
    short = int(number) - 1
    before, opposite, after = ((short + step) % 4 for step in (-1, 2, 1))
    places = np.asarray(feet, dtype=float)
    diagonal = math.dist(places[before], places[after])
    # a foot's lever is the triangle of the others: the short foot's is the one with the opposite foot
    return rocked_gap(gap, float(abs(levers[opposite])) / diagonal, float(abs(levers[short])) / diagonal)


def rocking_scatter(feet: ArrayLike, rise_scatter: ArrayLike, shared: bool = False) -> Vector:
    """Standard deviation of the gap under each foot with the other three down.

    Feet that slip each for itself: √(Σ (a_i s_i)²) over the foot's own lever a, which is twice the
    rise scatter on a rectangle of like legs. Feet that share one slip: |Σ a_i s_i| over it, which
    is nothing on a piece whose left and right mirror each other: it may lean, but does not rock.

    Args:
        feet: places in plan in order round the piece, any length unit; shape (..., 4, 2).
        rise_scatter: standard deviation of the height at which the feet end, 0 or more, in any
            length unit; one number or shape (..., 4).
        shared: True where one setting serves all four legs, so that they slip together.

    Returns:
        The standard deviations in the unit of the rise scatter, shape (..., 4).

    Raises:
        DesignError: when the feet do not go round the piece, or a scatter is below 0.

    Source:
        Derived in `teach.derive.derive_rocking`; independent scatters add as squares.

    Example:
        >>> rectangle = [(0, 0), (300, 0), (300, 400), (0, 400)]
        >>> rocking_scatter(rectangle, 1.0), rocking_scatter(rectangle, 1.0, shared=True)
        (array([2., 2., 2., 2.]), array([0., 0., 0., 0.]))
    """
    levers = _levers(feet)
    scatter = _numbers("rise scatter", rise_scatter)
    _require_no_less("rise scatter", scatter, "give a standard deviation")
    rises = _four("rise scatter", scatter if scatter.ndim else np.full(4, scatter))
    under = gaps_under(levers, rises) if shared else scatters_under(levers, rises)
    return np.stack([abs(gap) for gap in under], axis=-1)


def rocking_odds(scatter: Value, allowed: Value) -> Value:
    """Chance that a gap is more than is allowed, one way or the other: erfc(g / (s √2)).

    With the greatest of the four scatters it is the chance that the piece shows more than that
    under any foot; on a plan without mirrored sides the true chance is a little less.

    Args:
        scatter: standard deviation of the gap, 0 or more, any length unit; number or array.
        allowed: the most daylight that does not matter, 0 or more, in the same unit.

    Returns:
        The chance, from 0 to 1.

    Raises:
        DesignError: when a number is below 0 or not finite.

    Source:
        Normal distribution, from any book on probability.

    Example:
        >>> rocking_odds(1.0, 1.0), rocking_odds(1.0, 1.959964)
        (0.3173, 0.0500)
    """
    _require_no_less("scatter of the gap", scatter, "give a standard deviation")
    _require_no_less("allowed gap", allowed, "give the most daylight that does not matter")
    odds = np.vectorize(_beyond, otypes=[float])(scatter, allowed)
    return odds if np.ndim(odds) else float(odds)


def _beyond(scatter: float, allowed: float) -> float:
    return math.erfc(allowed / (scatter * math.sqrt(2))) if scatter else 0.0


@dataclass(frozen=True, eq=False)
class Levelling:
    """What to mark and take off so that every foot stands, in the unit of the gaps.

    Args:
        block_height: height of the block that the pencil rides on, above the floor.
        cut_heights: what comes off each foot, straight up; shape (feet,).
        cut_lengths: what comes off each leg along its axis; shape (feet,).
    """

    block_height: float
    cut_heights: Vector
    cut_lengths: Vector

    @property
    def lower(self) -> float:
        """How much lower the piece stands than on its shims: by the block's height."""
        return self.block_height


def level_feet(gaps: ArrayLike, spare: float, lean: Lean = _PLUMB) -> Levelling:
    """Level a piece from the floor up: one block for all feet, greatest gap + spare.

    The piece stands on shims with its top as level as it shall be; what comes off each foot is the
    block's height less the gap, and over cos R along the leg. The pencil line round a leg runs off
    square as its end cut does.

    Args:
        gaps: measured under each of three feet or more, straight down to the floor, 0 or more,
            any length unit.
        spare: what comes off the shortest foot, so that it gets a clean end too; 0 or more, in the
            unit of the gaps.
        lean: the legs' directions, one for all or one for each foot; plumb where not given.

    Returns:
        The height of the block and what comes off.

    Raises:
        DesignError: when fewer than three gaps are given, a gap or the spare is below 0, or the
            leans do not match the feet.

    Source:
        Common practice, no source; the length along the axis is derived in `teach.derive.derive_lean`.

    Example:
        >>> level = level_feet([0.0, 2.5, 1.0, 4.0], spare=1.0)
        >>> level.block_height, level.cut_heights
        (5.0, array([5. , 2.5, 4. , 1. ]))
    """
    measured = _numbers("gap under a foot", gaps)
    if measured.ndim != 1 or len(measured) < 3:
        raise DesignError(
            f"The gaps under {measured.size} feet are given; levelling takes three or more: measure"
            " under each foot, and write 0 where it stands."
        )
    _require_no_less("gap under a foot", measured, "measure from the floor up to the foot")
    _require_no_less("spare", spare, "give what comes off the shortest foot")
    stretch = axis_stretch(lean.tan_rake, lean.tan_splay)
    if np.ndim(stretch) and np.shape(stretch) != measured.shape:
        raise DesignError(
            f"{np.size(stretch)} leans are given for {len(measured)} feet; give one for all or one for each foot."
        )
    block = float(measured.max()) + float(spare)
    off = block - measured
    return Levelling(block, off, off * stretch)


def _numbers(name: str, values: Any) -> Vector:
    try:
        array = np.asarray(values, dtype=float)
    except (TypeError, ValueError):
        raise DesignError(f"The {name} is {values}; ordinary numbers are wanted, as many for each foot.") from None
    require_finite(name, array)
    return array


def _four(name: str, values: Any) -> Four:
    """Part the last axis of an array, which must be four long."""
    array = _numbers(name, values)
    if array.ndim < 1 or array.shape[-1] != 4:
        raise DesignError(f"A {name} is wanted for each of four feet; the last axis has shape {array.shape[-1:]}.")
    first, second, third, fourth = np.moveaxis(array, -1, 0)
    return first, second, third, fourth


def _levers(feet: ArrayLike) -> Four:
    """Levers of four feet, refused where the feet do not go round the piece in order."""
    places = _numbers("place of a foot", feet)
    if places.ndim < 2 or places.shape[-2:] != (4, 2):
        raise DesignError(
            f"The feet are given in shape {places.shape}; four feet in plan are wanted, shape (4, 2): three feet"
            " never rock, and for more ask for four at a time."
        )
    levers = foot_levers(_four("place", places[..., 0]), _four("place", places[..., 1]))
    signed = np.stack(levers, axis=-1) * (1, -1, 1, -1)
    size = np.square(np.ptp(places, axis=-2)).sum(axis=-1)[..., np.newaxis]
    round_the_piece = (signed > 1e-9 * size).all(axis=-1) | (signed < -1e-9 * size).all(axis=-1)
    if not np.all(round_the_piece):
        raise DesignError(
            "The four feet as listed do not go round a piece: three stand in a line, one stands within the others, or"
            " the order jumps; list them such as front left, front right, rear right, rear left."
        )
    return levers


def _require_no_less(name: str, value: Any, cure: str) -> None:
    require_finite(name, value)
    if np.any(np.asarray(value) < 0):
        raise DesignError(f"The {name} is {value}; it must be 0 or more: {cure}.")
