"""Whirling: the speed at which a turning leg would bow and fling itself about, by plain beam theory.

A leg between centres bends to and fro at a frequency of its own. A spindle that turns as often meets
it at every turn; the wood bows, and it whips. So it is turned well below.

The figure assumes clear, straight-grained wood, true centres and ends that hold as they are said to. The
stiffness of one board lies 20 % and more from its species' average, and the speed with the root of
it; a cut, a loose centre or a crack lowers it. It screens a shape, and tells nobody to try.

Units: with lengths in mm and stiffness in MPa (newtons on a square mm) mass is in tonnes, so that a density in
kg for each cubic metre enters times 10⁻¹².
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Literal, get_args

import numpy as np

from furnlib.base.angles import Value, Vector, deg, square_root
from furnlib.base.guards import DesignError, nearest_word, require_between, require_finite, require_positive

Ends = Literal["pinned-pinned", "fixed-pinned", "fixed-free"]
Clearance = Literal["well below", "too near", "past it"]
Steady = Literal["not needed", "at hand", "needed"]
MODE_NUMBERS: Mapping[Ends, float] = {
    "pinned-pinned": deg(180.0),
    "fixed-pinned": 3.926602312,
    "fixed-free": 1.875104069,
}
"""First root b of sin b = 0, tan b = tanh b and cos b cosh b = -1, each the condition at the ends of a beam."""
WELL_BELOW = 0.5
"""Share of the whirling speed that is stayed under: common practice, no source."""
STEADY_FROM, STEADY_ABOVE, TOO_SLENDER = 12, 15, 40
"""Slenderness from which a leg may whip, above which it does, and above which it is refused: common practice,
no source."""
_SPANS, _SETTLED = 200, 1e-11
"""Into how many stretches a leg is cut at least, and when the sum has settled."""


def uniform_whirling(mode_number: Value, length: Value, bending_stiffness: Value, mass_per_length: Value) -> Value:
    """First bending frequency of a beam of one section: (b / L)² √(E I / m), in radians a second.

    Args:
        mode_number: b, which the ends decide, a plain number from `MODE_NUMBERS`; number, array or
            symbol.
        length: L between the ends, any consistent unit; number, array or symbol.
        bending_stiffness: E I, in the same system of units; number, array or symbol.
        mass_per_length: m = ρ A, in the same system of units; number, array or symbol.

    Returns:
        Radians a second where the system counts in seconds; times 30 / π, turns a minute.

    Source:
        Derived in `teach.derive.derive_whirling`.

    Example:
        >>> uniform_whirling(2.0, 2.0, 9.0, 1.0)
        3.0
    """
    return (mode_number / length) ** 2 * square_root(bending_stiffness / mass_per_length)


def whirling_rpm(
    distances: Sequence[float] | Vector,
    second_moments: Sequence[float] | Vector,
    areas: Sequence[float] | Vector,
    stiffness_mpa: float,
    density_kg_m3: float,
    ends: Ends = "pinned-pinned",
    mm_per_unit: float = 1.0,
) -> float:
    """Speed at which a leg of any profile would whirl: its first bending frequency, times 60.

    The slowest way to swing is found by letting the leg sag again and again under its own swinging.
    From each station to the next the section tapers straight, so that of a straight taper two stations
    are enough; for curves, give as many as bring the straight pieces close to them. The sums are good
    to one in ten thousand; the wood is not.

    Args:
        distances: of the stations along the axis, never falling, any length unit; shape (n,), two or
            more. A distance given twice is a step.
        second_moments: of the section at each station, π d⁴ / 64 of a round, above 0, in that unit to
            the fourth; shape (n,).
        areas: of the section at each station, above 0, in that unit squared; shape (n,).
        stiffness_mpa: of the wood along the grain, above 0, MPa (newtons on a square mm), a plain number.
        density_kg_m3: of the wood as it is, above 0, in kg for each cubic metre, a plain number.
        ends: "pinned-pinned" between two centres, "fixed-pinned" where a chuck holds the first end,
            "fixed-free" where nothing holds the last.
        mm_per_unit: how many mm the length unit has.

    Returns:
        Turns a minute.

    Raises:
        DesignError: when the lists are not of one length, distances fall, a number is not above 0, or the ends
            are not known.

    Source:
        Beam theory after Euler and Bernoulli, summed by Stodola's way.
        Held to a second method and to published shafts by the tests.

    Example:
        >>> steel_bar = [0.0, 1000.0], [19174.8, 19174.8], [490.874, 490.874]  # 25 thick, 1 m long
        >>> round(whirling_rpm(*steel_bar, 207_000.0, 7850.0))
        3025
    """
    if ends not in get_args(Ends):
        raise DesignError(f"The ends are '{ends}'; {nearest_word(ends, get_args(Ends))}")
    x, moment, area = (np.asarray(row, dtype=float) for row in (distances, second_moments, areas))
    if x.ndim != 1 or x.size < 2 or not x.shape == moment.shape == area.shape:
        raise DesignError(
            f"There are {x.size} distances, {moment.size} second moments and {area.size} areas; each station has one of"
            " each: give two stations or more."
        )
    require_finite("distance of a station", x)
    if np.any(np.diff(x) < 0) or x[0] == x[-1]:
        raise DesignError("The distances of the stations fall or never rise; give them in order along the axis.")
    for name, value in (("second moment", moment), ("area", area)):
        require_positive(f"{name} of the section", value)
    for name, number in (("stiffness", stiffness_mpa), ("density", density_kg_m3), ("mm in a unit", mm_per_unit)):
        require_positive(name, number)
    places, lengths, moment, area = _stretches(x, moment, area)
    squared = _slowest_squared(places, lengths, moment, area, ends) * stiffness_mpa / (density_kg_m3 * 1e-12)
    return float(60 / deg(360.0) * math.sqrt(squared) / mm_per_unit)


def _stretches(x: Vector, moment: Vector, area: Vector) -> tuple[Vector, Vector, Vector, Vector]:
    """Cut the leg into short stretches: begin, middle and end of each, its length, and the sections there."""
    wide = np.diff(x)
    parts = np.ceil(wide / wide.sum() * _SPANS).astype(int)  # none where a distance is given twice
    row, of = np.repeat(np.arange(wide.size), parts), np.repeat(parts, parts)
    number = np.arange(row.size) - np.repeat(np.cumsum(parts) - parts, parts)
    along = (number + np.array([[0.0], [0.5], [1.0]])) / of
    # of a straight taper the fourth root of the second moment and the square root of the area run straight
    rows = x - x[0], moment**0.25, area**0.5
    places, thick, broad = (size[row] + np.diff(size)[row] * along for size in rows)
    return places, wide[row] / of, thick**4, broad**2


def _slowest_squared(x: Vector, lengths: Vector, moment: Vector, area: Vector, ends: Ends) -> float:
    """Square of the slowest frequency, for a stiffness and a density of 1 (Stodola's way).

    A guessed shape flings the leg outward; the shape in which it sags under that is a better guess. What the
    ends must still settle, two numbers, enters as two further sags, each with a moment that no load makes.
    """

    def summed(rate: Vector) -> Vector:
        """Sum from the first end, by Simpson's parabola over each stretch."""
        begin, middle, end = rate * lengths
        half, full = (5 * begin + 8 * middle - end) / 24, (begin + 4 * middle + end) / 6
        before = np.cumsum(full) - full
        return np.stack([before, before + half, before + full])

    def sagged(bent: Vector) -> Vector:
        return summed(summed(bent / moment))

    def at_last(force: float, bent: Vector, sag: Vector) -> list[float]:
        """What must vanish at the last end."""
        return [bent[2, -1], force if ends == "fixed-free" else sag[2, -1]]

    level, nothing = np.ones_like(x), np.zeros_like(x)
    # of a force, a moment and a slope at the first end, two are not yet known
    push = 1.0, x, sagged(x)
    twist = (0.0, nothing, x) if ends == "pinned-pinned" else (0.0, level, sagged(level))
    unknown = np.array([at_last(*push), at_last(*twist)]).T
    shape, found, before = x, 1.0, 0.0
    while abs(found - before) > _SETTLED * found:
        force = summed(area * shape)
        bent = summed(force)
        sag = sagged(bent)
        wanted = np.linalg.solve(unknown, at_last(force[2, -1], bent, sag))
        sag = sag - wanted[0] * push[2] - wanted[1] * twist[2]
        weight = area * sag
        before, found = found, float(summed(weight * shape)[2, -1] / summed(weight * sag)[2, -1])
        shape = found * sag
    return found


def whirling_share(spindle_rpm: Value, whirling_rpm: Value) -> Value:
    """What part of the whirling speed a leg is turned at.

    Args:
        spindle_rpm: turns of the spindle a minute, a plain number; number, array or symbol.
        whirling_rpm: from `whirling_rpm`, a plain number; number, array or symbol.

    Returns:
        The ratio, a plain number.

    Source:
        Follows from what a share is.

    Example:
        >>> whirling_share(1500.0, 6000.0)
        0.25
    """
    return spindle_rpm / whirling_rpm


def clearance(whirling_share: float) -> Clearance:
    """Tell whether a leg is turned well below its whirling speed: under half of it.

    Half leaves room for wood that is less stiff than its species, and for centres that give.

    Args:
        whirling_share: from `whirling_share`, a plain number, 0 or more.

    Returns:
        "well below" under half, "too near" from there to the whirling speed, and "past it".

    Raises:
        DesignError: when the share is below 0 or is no ordinary number.

    Source:
        Common practice, no source.

    Example:
        >>> clearance(0.25), clearance(0.5), clearance(1.0)
        ('well below', 'too near', 'past it')
    """
    require_between("share of the whirling speed", whirling_share, 0, math.inf, "give speeds above 0", ends=True)
    if whirling_share < WELL_BELOW:
        return "well below"
    return "too near" if whirling_share < 1 else "past it"


def slenderness(length: Value, least_diameter: Value) -> Value:
    """How slim a turning is: its length over its least diameter.

    The thinnest place counts, not the mean: stiffness goes with the fourth power of the diameter, so
    that a thin middle governs. Where the thin place lies near an end this says too much, and
    `whirling_rpm` says how much.

    Args:
        length: between what holds the work at its two ends, any length unit; number, array or symbol.
        least_diameter: the thinnest between them, in the same unit; number, array or symbol.

    Returns:
        The ratio, a plain number.

    Source:
        Common practice, no source.

    Example:
        >>> slenderness(440.0, 22.0)
        20.0
    """
    return length / least_diameter


def steady(length: float, least_diameter: float) -> Steady:
    """Tell whether a turning whips, so that a steady must hold its middle.

    Up to a slenderness of 12 it stands by itself, above 15 it needs a steady, and in between one is
    kept at hand; above 40 it is refused.

    Args:
        length: between what holds the work at its two ends, above 0, any length unit.
        least_diameter: the thinnest between them, above 0, in the same unit.

    Returns:
        "not needed", "at hand" or "needed".

    Raises:
        DesignError: when a size is not above 0, or the work is too slim for the lathe.

    Source:
        Common practice, no source.

    Example:
        >>> steady(440.0, 40.0), steady(440.0, 32.0), steady(440.0, 22.0)
        ('not needed', 'at hand', 'needed')
    """
    require_positive("length between centres", length)
    require_positive("least diameter", least_diameter)
    slim = slenderness(length, least_diameter)
    if slim > TOO_SLENDER:
        raise DesignError(
            f"The leg is {slim:.3g} times as long as it is thick at its thinnest; no steady holds more than"
            f" {TOO_SLENDER}: make it thicker or turn it in parts."
        )
    if slim <= STEADY_FROM:
        return "not needed"
    return "at hand" if slim <= STEADY_ABOVE else "needed"
