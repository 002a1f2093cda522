"""What a slip in setting a leg does to its foot.

A drill table, a sight line or a length stop is never quite where it was meant to be. Close to the
wanted leg each slip moves the foot in proportion, so a formula for one degree serves for all small
slips; `slipped_feet` does without that and bores the legs one by one, by chance.

Two legs are told apart. One is left long and cut where it meets the floor: its foot slides out
along its own line. The other is cut to length beforehand: its foot swings about the top, so it
rises as it goes out, and four of them rock.
"""

from __future__ import annotations

import operator
from dataclasses import dataclass
from typing import SupportsIndex

import numpy as np

from furnlib.base.angles import Value, Vector, deg, square_root, tand
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive
from furnlib.trade.leg.lean import Lean, axis_stretch, tan_parts, tan_total_lean

_MOST_LEGS = 10_000_000
_SMALL = "a setting that slips by more wants mending first"


def slip_along(height: Value, tan_total_lean: Value, setting_slip_deg: Value) -> Value:
    """How far along the sight line the foot of a leg cut to the floor goes: h q / cos² R.

    Args:
        height: vertical distance from top to floor, any length unit; number, array or symbol.
        tan_total_lean: tangent of the total lean; number, array or symbol.
        setting_slip_deg: slip q of the total lean, degrees; number, array or symbol.

    Returns:
        The distance in the unit of the height, outward above 0.

    Source:
        Derived in `teach.derive.derive_setting_error`.

    Example:
        >>> slip_along(420.0, 0.0, 1.0), slip_along(420.0, 0.5, 1.0)
        (7.33, 9.16)
    """
    return height * deg(setting_slip_deg) * (1 + tan_total_lean * tan_total_lean)


def slip_of_run(height: Value, tan_total_lean: Value, setting_slip_deg: Value) -> Value:
    """How far the foot run swings: h tan R q.

    Swung round plumb by a slip of the sight line it is the step of the foot across that line;
    swung up by a slip of the total lean, the rise of the foot of a leg of fixed length.

    Args:
        height: vertical distance from top to floor, any length unit; number, array or symbol.
        tan_total_lean: tangent of the total lean; number, array or symbol.
        setting_slip_deg: slip q of sight line or total lean, degrees; number, array or symbol.

    Returns:
        The distance in the unit of the height.

    Source:
        Derived in `teach.derive.derive_setting_error`.

    Example:
        >>> slip_of_run(420.0, 0.5, 3.0)
        11.0
    """
    return height * tan_total_lean * deg(setting_slip_deg)


def slip_of_height(height: Value, setting_slip_deg: Value) -> Value:
    """How far along the sight line the foot of a leg of fixed length goes: h q, whatever the lean.

    Args:
        height: vertical distance from top to floor, any length unit; number, array or symbol.
        setting_slip_deg: slip q of the total lean, degrees; number, array or symbol.

    Returns:
        The distance in the unit of the height, outward above 0.

    Source:
        Derived in `teach.derive.derive_setting_error`.

    Example:
        >>> slip_of_height(420.0, 1.0)
        7.33
    """
    return height * deg(setting_slip_deg)


def slip_of_length(tan_total_lean: Value, length_slip: Value) -> tuple[Value, Value]:
    """Where the foot of a leg goes that is too long by e: e sin R outward, e cos R down.

    Args:
        tan_total_lean: tangent of the total lean; number, array or symbol.
        length_slip: how much too long, along the axis, any length unit; number, array or symbol.

    Returns:
        The step along the sight line and the step down, in the same unit.

    Source:
        Derived in `teach.derive.derive_setting_error`.

    Example:
        >>> slip_of_length(0.75, 10.0)
        (6.0, 8.0)
    """
    down = length_slip / square_root(1 + tan_total_lean * tan_total_lean)
    return down * tan_total_lean, down


@dataclass(frozen=True, eq=False)
class FootSlip:
    """Where small slips in setting one leg take its foot, each by itself, in the unit of the height.

    Args:
        along: along the sight line, leg cut to the floor, for the slip of the total lean.
        across: across the sight line, either leg, for the slip of the sight line.
        shift: along the sight line, leg of fixed length, for the slip of the total lean.
        rise: upwards, leg of fixed length, for the slip of the total lean.
        length_along: along the sight line, for the slip of the length.
        length_down: downwards, for the slip of the length.
    """

    along: Value
    across: Value
    shift: Value
    rise: Value
    length_along: Value
    length_down: Value


def foot_slip(
    lean: Lean,
    height: Value,
    total_lean_slip_deg: Value = 1.0,
    sight_line_slip_deg: Value = 1.0,
    length_slip: Value = 1.0,
) -> FootSlip:
    """How careful to be: where a slip of each setting takes the foot, per degree and per unit unless told.

    Leg cut to the floor: h q / cos² R along the sight line. Leg of fixed length: h q along it and
    h tan R q upwards. Either leg: h tan R q across it; e sin R along it and e cos R down.

    Args:
        lean: the wanted direction; numbers or arrays.
        height: vertical distance from top to floor, above 0, any length unit.
        total_lean_slip_deg: how much too great the total lean is, degrees from -10 to 10.
        sight_line_slip_deg: how far towards sideways outward the sight line is, degrees from -10 to 10.
        length_slip: how much too long the leg is along its axis, in the unit of the height.

    Returns:
        The steps of the foot; numbers, or arrays where an input is one.

    Raises:
        DesignError: when the height is not above 0 or a slip is past its limits.

    Source:
        Derived in `teach.derive.derive_setting_error`.

    Example:
        >>> slip = foot_slip(Lean.from_rake_splay(10.0, 12.0), 420.0)
        >>> slip.along, slip.shift, slip.rise
        (7.89, 7.33, 2.02)
    """
    require_positive("height of the leg", height)
    require_between("slip of the total lean", total_lean_slip_deg, -10, 10, _SMALL, ends=True)
    require_between("slip of the sight line", sight_line_slip_deg, -10, 10, _SMALL, ends=True)
    require_finite("slip of the length", length_slip)
    tan_lean = tan_total_lean(lean.tan_rake, lean.tan_splay)
    length_along, length_down = slip_of_length(tan_lean, length_slip)
    return FootSlip(
        along=slip_along(height, tan_lean, total_lean_slip_deg),
        across=slip_of_run(height, tan_lean, sight_line_slip_deg),
        shift=slip_of_height(height, total_lean_slip_deg),
        rise=slip_of_run(height, tan_lean, total_lean_slip_deg),
        length_along=length_along,
        length_down=length_down,
    )


@dataclass(frozen=True, eq=False)
class FootRing:
    """The ring round the wanted foot within which a portion of all feet land: an ellipse.

    Args:
        along: its half axis along the sight line, in the unit of the height.
        across: its half axis across the sight line, in the same unit; 0 for a plumb leg.
    """

    along: Value
    across: Value


def ring_factor(portion: Value) -> Value:
    """How many standard deviations a ring lies out that holds a portion of all: √(-2 ln(1 - portion)).

    Args:
        portion: a plain number between 0 and 1; number or array.

    Returns:
        The factor.

    Source:
        Normal scatter in a plane, from any book on probability.

    Example:
        >>> ring_factor(0.9)
        2.146
    """
    return square_root(-2 * np.log1p(-portion))


def foot_ring(
    lean: Lean, height: Value, total_lean_slip_deg: Value, sight_line_slip_deg: Value, portion: Value = 0.9
) -> FootRing:
    """Ring round the wanted foot of a leg cut to the floor: nine out of ten land here.

    The two slips are taken as independent and normal, so the ring is an ellipse with half axes
    h q / cos² R and h tan R q, each times √(-2 ln(1 - portion)).

    Args:
        lean: the wanted direction; numbers or arrays.
        height: vertical distance from top to floor, above 0, any length unit.
        total_lean_slip_deg: standard deviation of the total lean, degrees from 0 to 10.
        sight_line_slip_deg: standard deviation of the sight line, degrees from 0 to 10.
        portion: what part of the feet lands inside, a plain number between 0 and 1.

    Returns:
        The ring; numbers, or arrays where an input is one. Its long axis lies on the sight line
        or across it, whichever half axis is the greater.

    Raises:
        DesignError: when the height is not above 0, or a slip or the portion is past its limits.

    Source:
        Derived in `teach.derive.derive_setting_error`; the factor is that of a normal scatter in
        a plane, from any book on probability.

    Example:
        >>> foot_ring(Lean.from_rake_splay(10.0, 12.0), 420.0, 0.5, 1.5)
        FootRing(along=8.465, across=6.517)
    """
    require_positive("height of the leg", height)
    _require_scatter(total_lean_slip_deg, sight_line_slip_deg)
    require_between("portion of the feet", portion, 0, 1, "give 0.9 for nine out of ten")
    tan_lean = tan_total_lean(lean.tan_rake, lean.tan_splay)
    return FootRing(
        ring_factor(portion) * slip_along(height, tan_lean, total_lean_slip_deg),
        ring_factor(portion) * slip_of_run(height, tan_lean, sight_line_slip_deg),
    )


def rise_scatter(lean: Lean, height: Value, total_lean_slip_deg: Value, length_slip: Value) -> Value:
    """Standard deviation of the height at which legs of fixed length end: √((h tan R q)² + (e cos R)²).

    Args:
        lean: the wanted direction; numbers or arrays.
        height: vertical distance from top to floor, above 0, any length unit.
        total_lean_slip_deg: standard deviation of the total lean, degrees from 0 to 10.
        length_slip: standard deviation of the length along the axis, from 0 to a tenth of the
            height, in its unit.

    Returns:
        The standard deviation, in the unit of the height; nothing but the length moves the foot of
        a plumb leg up or down.

    Raises:
        DesignError: when the height is not above 0 or a slip is past its limits.

    Source:
        Derived in `teach.derive.derive_setting_error`; independent scatters add as squares.

    Example:
        >>> rise_scatter(Lean.from_rake_splay(16.0, 12.0), 420.0, 0.5, 0.0)
        1.308
    """
    require_positive("height of the leg", height)
    _require_scatter(total_lean_slip_deg, 0.0, length_slip, height)
    tan_lean = tan_total_lean(lean.tan_rake, lean.tan_splay)
    _, down = slip_of_length(tan_lean, length_slip)
    return square_root(slip_of_run(height, tan_lean, total_lean_slip_deg) ** 2 + down**2)


@dataclass(frozen=True, eq=False)
class SlippedFeet:
    """Where the feet of many legs come to be, each bored and cut with its own slips.

    The last axis of a place holds fore-and-aft and sideways, outward from the wanted foot, in the
    unit of the height. Where the lean was an array, its shape follows the count.

    Args:
        on_floor: where each leg meets the floor when it is cut there; shape (count, ..., 2).
        feet: where each leg ends that was cut to length beforehand; shape (count, ..., 2).
        shortfalls: how far above the floor those ends are; shape (count, ...).
    """

    on_floor: Vector
    feet: Vector
    shortfalls: Vector


def slipped_feet(
    lean: Lean,
    height: Value,
    total_lean_slip_deg: float,
    sight_line_slip_deg: float,
    length_slip: float,
    count: int,
    seed: int,
    shared: bool = False,
) -> SlippedFeet:
    """Bore and cut many legs by chance, and look where each foot stands: no small-slip sums.

    Args:
        lean: the wanted direction of one leg, or an array of the legs of one piece.
        height: vertical distance from top to floor, above 0, any length unit.
        total_lean_slip_deg: standard deviation of the total lean, degrees from 0 to 10.
        sight_line_slip_deg: standard deviation of the sight line, degrees from 0 to 10.
        length_slip: standard deviation of the length along the axis, from 0 to a tenth of the
            height, in its unit.
        count: how many legs, or how many pieces where the lean is an array; at most ten million
            legs in all.
        seed: plain number, whole, 0 or more; the same one gives the same feet.
        shared: True where the drill table is set once for all legs of a piece, so that they share
            the slips of both angles; each length still slips for itself.

    Returns:
        The places of the feet.

    Raises:
        DesignError: when a number is past its limits, or a leg comes to lie down.

    Source:
        Brute force by `Lean`; its means and scatters are held against the formulas of this module.

    Example:
        >>> legs = slipped_feet(Lean.from_rake_splay(10.0, 12.0), 420.0, 0.5, 1.5, 0.0, 10_000, seed=1)
        >>> legs.on_floor.shape, legs.shortfalls.shape
        ((10000, 2), (10000,))
    """
    require_positive("height of the leg", height)
    _require_scatter(total_lean_slip_deg, sight_line_slip_deg, length_slip, height)
    legs = np.broadcast_shapes(np.shape(lean.tan_rake), np.shape(lean.tan_splay), np.shape(height))
    most = _MOST_LEGS // max(int(np.prod(legs)), 1)
    each = (_whole("count", count, 1, most), *legs)
    once = (count, *(1 for _ in legs)) if shared else each

    chance = np.random.default_rng(_whole("seed", seed, 0, 2**64 - 1))
    total = lean.total_lean_deg + total_lean_slip_deg * chance.standard_normal(once)
    sight = lean.sight_line_deg + sight_line_slip_deg * chance.standard_normal(once)
    length = lean.axis_length(height) + length_slip * chance.standard_normal(each)
    steepest = float(np.abs(total).max())
    if steepest >= 90:
        raise DesignError(
            f"One leg slips to a total lean of {steepest:.1f}; it must stay below 90: lean the legs less or set"
            " the drill table more closely."
        )

    slipped = Lean(*tan_parts(tand(total), sight))
    ends_below = length / axis_stretch(slipped.tan_rake, slipped.tan_splay)
    wanted = _place(lean, height)
    return SlippedFeet(
        on_floor=_place(slipped, height) - wanted,
        feet=_place(slipped, ends_below) - wanted,
        shortfalls=height - ends_below,
    )


def _place(lean: Lean, height: Value) -> Vector:
    run = lean.foot_run(height)
    return np.stack(np.broadcast_arrays(run.fore_aft, run.sideways), axis=-1)


def _require_scatter(total_lean: Value, sight_line: Value, length: Value = 0.0, height: Value = 1.0) -> None:
    require_between("slip of the total lean", total_lean, 0, 10, _SMALL, ends=True)
    require_between("slip of the sight line", sight_line, 0, 10, _SMALL, ends=True)
    tenth = float(np.min(height)) / 10
    require_between("slip of the length", length, 0, tenth, "a tenth of the height is the most", ends=True)


def _whole(name: str, value: SupportsIndex, low: int, high: int) -> int:
    try:
        whole = operator.index(value)
    except TypeError:
        whole = None
    if whole is None or not low <= whole <= high:
        raise DesignError(f"The {name} is {value}; it must be a whole number from {low} to {high}.")
    return whole
