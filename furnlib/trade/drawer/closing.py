"""Openings that add up on the tape, in whole grid steps or in whole pitches of a dovetail jig.

A rule gives ideal openings that fill the clear height exactly but land between the marks of the
tape. Rounding each by itself misses the field. `close_on_grid` brings them to whole grid steps that
add up, in this order of wishes: the steps from row to row never shrink, the worst change from the
ideal is least, the sum of the squared changes is least, and what is left goes to the lower openings.
`fit_to_pitch` does the same with the sides of drawers that a jig cuts in whole pitches.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from furnlib.base.guards import DesignError, require_finite, require_positive
from furnlib.base.units import Unit, write_exact
from furnlib.trade.drawer._closing import best_steps

_SAME = 10**9  # ideals are first rounded to 1e-9 of a grid step, so that every machine agrees


@dataclass(frozen=True)
class Closed:
    """Openings in whole grid steps that add up to the clear height, in its unit, beside what they came from.

    Args:
        openings: top to bottom, on the grid; they add up to the clear height exactly.
        ideal: what the rule asked for.
        rounded_alone: each ideal opening rounded by itself to the nearest grid step.
        grid: the grid step.
        steps_never_shrink: False where no set on this grid adds up with steps that never shrink;
            then the largest remainders were rounded up instead.
    """

    openings: tuple[Fraction, ...]
    ideal: tuple[Fraction, ...]
    rounded_alone: tuple[Fraction, ...]
    grid: Fraction
    steps_never_shrink: bool

    @property
    def miss(self) -> Fraction:
        """By how much the openings rounded one by one miss the field; above 0: too much."""
        return sum(self.rounded_alone, Fraction(0)) - sum(self.openings, Fraction(0))

    @property
    def largest_change(self) -> Fraction:
        """The largest change of an opening from its ideal."""
        return max(abs(h - ideal) for h, ideal in zip(self.openings, self.ideal, strict=True))


def close_on_grid(ideal: Sequence[Fraction], grid: Fraction, unit: Unit = "mm") -> Closed:
    """Bring ideal openings to whole grid steps that add up exactly.

    No opening ends more than one grid step off its ideal, and the order of sizes is kept. Among
    such sets the best is taken as the module's head says; openings that shrink downwards are
    closed upside down. Where no set has steps that never shrink (common near a ratio of 1) the
    openings with the largest remainders are rounded up, the lower first, and the result says so.

    Args:
        ideal: top to bottom, each above 0, any length unit; exact fractions.
        grid: the smallest step this shop cuts to, above 0, in the same unit.
        unit: "mm" or "in": how a refusal writes its lengths.

    Returns:
        The closed openings and what they were compared with.

    Raises:
        DesignError: when the sum is no whole number of grid steps (the residual is said), when an
            opening is less than a grid step, or when the grid is not above 0.

    Source:
        Furnlib's own; proved by trying every set of small cases in the tests.

    Example:
        >>> ideal = [Fraction(25000, 399), Fraction(32500, 399), Fraction(42250, 399)]
        >>> [int(h) for h in close_on_grid(ideal, Fraction(5)).openings]
        [65, 80, 105]
    """
    require_positive("grid", grid, "such as 1 mm or 1/32 in")
    total = sum(ideal, Fraction(0)) / grid
    residual = (total - total.__floor__()) * grid
    step = _written(Fraction(grid), unit)
    if residual:
        clear, left = (_written(Fraction(length), unit) for length in (sum(ideal), residual))
        raise DesignError(
            f"The clear height {clear} is no whole number of {step} steps: {left} is left over; put it in the legs,"
            " the top, the bottom or a divider, or take a finer grid."
        )
    if not ideal or round(min(ideal) / grid * _SAME) < _SAME:
        smallest = float(min(ideal, default=Fraction(0)))
        raise DesignError(
            f"The smallest opening would be {smallest:g}, less than one step of {step};"
            " take fewer rows, a ratio nearer 1 or a finer grid."
        )
    steps, never_shrink = _whole_steps([h / grid for h in ideal], int(total))
    return Closed(
        openings=tuple(k * grid for k in steps),
        ideal=tuple(ideal),
        rounded_alone=tuple((h / grid + Fraction(1, 2)).__floor__() * grid for h in ideal),
        grid=grid,
        steps_never_shrink=never_shrink,
    )


@dataclass(frozen=True)
class PitchFit:
    """Drawer sides in whole pitches of a jig, and the openings they need, in the unit of the clear height.

    Args:
        pitches: k of each side, top to bottom.
        sides: height of each side, in the unit of the clear height.
        openings: each side with its clearance.
        leftover: what of the clear height no whole pitch fills, from 0 to less than a pitch.
        to_next: by how much the clear height must grow for one pitch more.
        steps_never_shrink: False where no set of this many pitches, each within one of its ideal,
            has steps that never shrink.
    """

    pitches: tuple[int, ...]
    sides: tuple[Fraction, ...]
    openings: tuple[Fraction, ...]
    leftover: Fraction
    to_next: Fraction
    steps_never_shrink: bool


def fit_to_pitch(
    ideal: Sequence[Fraction],
    jig_pitch: Fraction,
    clearance: Fraction,
    first_offset: Fraction | None = None,
    last_offset: Fraction | None = None,
    unit: Unit = "mm",
) -> PitchFit:
    """Bring ideal openings, in any length unit, to sides of whole pitches: first offset + (k - 1) p + last offset.

    With half a pitch at either edge the side is k p: k tails with a half pin above and below. As
    many pitches as fit are shared out by the wishes of `close_on_grid`.

    Args:
        ideal: openings top to bottom, any length unit; they add up to the clear height.
        jig_pitch: p, from one cut of the jig to the next of its sort, above 0.
        clearance: all the room up and down between a side and its opening, 0 or more.
        first_offset: from the upper edge of a side to the middle of its first tail; p / 2 where not given.
        last_offset: from the middle of its last tail to the lower edge; p / 2 where not given.
        unit: "mm" or "in": how a refusal writes its lengths.

    Returns:
        The pitches of each side, sides and openings, and what is left over.

    Raises:
        DesignError: when fewer pitches fit than there are rows (the least clear height that does is
            said), or a size is out of range.

    Source:
        Common practice, no source; proved by trying every set of small cases in the tests.

    Example:
        >>> fit = fit_to_pitch([Fraction(83), Fraction(103), Fraction(124)], Fraction(20), Fraction(3))
        >>> fit.pitches, [int(side) for side in fit.sides], int(fit.leftover)
        ((4, 5, 6), [80, 100, 120], 1)
    """
    require_positive("jig's pitch", jig_pitch, "such as 20 mm or 3/4 in")
    require_finite("clearance", clearance)
    if clearance < 0:
        raise DesignError(f"The clearance is {float(clearance):g}; a side needs 0 or more over it in its opening.")
    if not ideal:
        raise DesignError("There are no openings to fit to the pitch; give one or more.")
    ends = [Fraction(jig_pitch) / 2 if offset is None else offset for offset in (first_offset, last_offset)]
    for name, offset in zip(("first", "last"), ends, strict=True):
        require_positive(f"{name} offset", offset, "from the edge of a side to the middle of its nearest tail")
    ends = [Fraction(offset) for offset in ends]
    beside = sum(ends, Fraction(clearance)) - jig_pitch  # what an opening has beside its pitches
    room = (sum(ideal, Fraction(0)) - len(ideal) * beside) / jig_pitch
    total = room.__floor__()
    if total < len(ideal):
        there, least = (_written(size, unit) for size in (sum(ideal, Fraction(0)), len(ideal) * (beside + jig_pitch)))
        wanted = "side of one pitch" if len(ideal) == 1 else f"{len(ideal)} sides of one pitch each"
        raise DesignError(
            f"The clear height {there} holds no {wanted}; {least} is the least that does:"
            " take fewer rows, raise the case or take a finer pitch."
        )
    pitches, never_shrink = _whole_steps([(h - beside) / jig_pitch for h in ideal], total)
    sides = tuple(ends[0] + (k - 1) * jig_pitch + ends[1] for k in pitches)
    leftover = (room - total) * jig_pitch
    openings = tuple(side + clearance for side in sides)
    return PitchFit(tuple(pitches), sides, openings, leftover, jig_pitch - leftover, never_shrink)


def _whole_steps(ideal: Sequence[Fraction], total: int) -> tuple[list[int], bool]:
    """The best whole steps for ideals in steps, and whether theirs never shrink from row to row."""
    falling = ideal[0] > ideal[-1]
    units = [round(h * _SAME) for h in (reversed(ideal) if falling else ideal)]
    best = best_steps(units, total, _SAME)
    steps = best or _largest_remainders(units, total)
    return steps[::-1] if falling else steps, best is not None


def _written(length: Fraction, unit: Unit) -> str:
    """Write a length as the tape shows it, or as a decimal where the tape has no mark for it."""
    return write_exact(length, unit) if unit == "mm" or 64 * length % 1 == 0 else f"{float(length):.8g}"


def _largest_remainders(units: list[int], total: int) -> list[int]:
    """Round all down but not to nothing, then give one step each to the largest remainders, the lower first."""
    steps = [max(u // _SAME, 1) for u in units]

    def remainder(row: int) -> tuple[int, int]:
        return units[row] - steps[row] * _SAME, row

    for row in sorted(range(len(units)), key=remainder, reverse=True)[: max(total - sum(steps), 0)]:
        steps[row] += 1
    while sum(steps) > total:  # an opening short of one step took a whole one: the others give it back
        steps[min((row for row, k in enumerate(steps) if k > 1), key=remainder)] -= 1
    return steps


def never_shrinks(openings: Sequence[Fraction]) -> bool:
    """Tell whether the steps from row to row never shrink, seen from the smaller end.

    Args:
        openings: top to bottom, any length unit.

    Returns:
        True where each step is at least the one before it.

    Source:
        Common practice, no source.

    Example:
        >>> never_shrinks([90, 100, 115, 135]), never_shrinks([90, 105, 115, 135])
        (True, False)
    """
    ordered = list(openings)
    if ordered and ordered[0] > ordered[-1]:
        ordered.reverse()
    steps = [low - high for high, low in pairwise(ordered)]
    return all(later >= earlier for earlier, later in pairwise(steps))
