r"""How near a leaning leg comes to the strength of its wood: a screen to find thin places, never a rating.

The floor pushes on the foot, upward and level; the leg carries both up to its tenon as a beam. A force
square to the axis bends it more the further up it goes, so a leg of one thickness is weakest at the
tenon; a leg that is thin at the foot may be weakest below it.

::

             |\ \|  seat
              \  \
               \  \         u  along the axis, from the foot
                \  \        R  total lean, from plumb
                 \__\-> push, outward in the plane of the lean
                   ^
                   upward

Strengths are averages of clear, sound, straight-grained samples under a load that lasts minutes; half of
all samples break below them. Here nothing sees knots, glue, a loose tenon or a load that falls. No result
says what a piece may carry. Not for stairs, ladders, high beds or whatever a person hangs from.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from furnlib.base.angles import Value, cosd, deg, sind
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive
from furnlib.trade.leg.lean import Lean


def bending_stress(moment: Value, section_modulus: Value) -> Value:
    """Stress where a bent section is pulled and pressed most: M_b / Z.

    Args:
        moment: bending moment, in any unit of force times length; number, array or symbol.
        section_modulus: of the section, in the unit of length cubed; number, array or symbol.

    Returns:
        The stress, force over length squared: MPa from N mm and mm³.

    Source:
        Derived in `teach.derive.derive_strength`.

    Example:
        >>> bending_stress(42_000.0, 1500.0)
        28.0
    """
    return moment / section_modulus


def round_section_modulus(diameter: Value) -> Value:
    """Section modulus of a round: pi d³ / 32.

    Args:
        diameter: any length unit; number, array or symbol.

    Returns:
        The modulus, in the unit cubed.

    Source:
        Derived in `teach.derive.derive_strength`.

    Example:
        >>> round_section_modulus(25.0)
        1534.0
    """
    return deg(180 * diameter**3) / 32  # 180 degrees are pi, exact where the diameter is a symbol


def square_section_modulus(square: Value) -> Value:
    """Section modulus of a square that bends about a line parallel to a face: a³ / 6.

    Bent towards a corner a square has less by √2; a leg that leans both ways is bent partly so.

    Args:
        square: side of the section, any length unit; number, array or symbol.

    Returns:
        The modulus, in the unit cubed.

    Source:
        Derived in `teach.derive.derive_strength`.

    Example:
        >>> square_section_modulus(6.0)
        36.0
    """
    return square**3 / 6


def weakest_taper_diameter(foot_diameter: Value) -> Value:
    """Diameter at which a straight taper pushed sideways at its thin end is stressed most: 3/2 of that end's.

    Where the leg ends before it is so thick, it is stressed most at its thick end.

    Args:
        foot_diameter: where the push is, any length unit; number, array or symbol.

    Returns:
        The diameter, in the same unit.

    Source:
        Derived in `teach.derive.derive_strength`.

    Example:
        >>> weakest_taper_diameter(22.0)
        33.0
    """
    return 3 * foot_diameter / 2


def tenon_forces(total_lean_deg: Value, push_n: Value, upward_n: Value) -> tuple[Value, Value]:
    """Forces of the floor on a leaning leg, square to its axis and along it: P sin R + T cos R, P cos R - T sin R.

    The first bends the leg outward: its moment at a distance u from the foot is u times the force. The
    second presses it together along the grain.

    Args:
        total_lean_deg: degrees from plumb; number, array or symbol.
        push_n: level push T on the foot, outward in the plane of the lean, N; below 0 inward.
        upward_n: upward push P on the foot, N; number, array or symbol.

    Returns:
        The force square to the axis, above 0 outward, and the force along it, above 0 pressing; N.

    Source:
        Derived in `teach.derive.derive_strength`.

    Example:
        >>> tenon_forces(30.0, 0.0, 100.0)
        (50.0, 86.6)
    """
    sine, cosine = sind(total_lean_deg), cosd(total_lean_deg)
    return upward_n * sine + push_n * cosine, upward_n * cosine - push_n * sine


def strength_share_of_grain(grain_slope_deg: Value, across_share: Value = 0.04, power: Value = 2) -> Value:
    """Share of its strength that wood keeps where the grain runs off: c / (sin^n a + c cos^n a).

    With the power 2 the reciprocals of the strengths along and across the grain are mixed by the squares
    of cosine and sine. For bending the handbook gives a power from 1.5 to 2 and c from 0.04 to 0.1.

    Args:
        grain_slope_deg: degrees between grain and axis; number, array or symbol.
        across_share: strength across the grain over strength along it, c, from 0 to 1.
        power: n, a plain number from 1.5 to 2.5.

    Returns:
        The share, 1 for straight grain.

    Source:
        Hankinson 1921, power and shares from the Wood Handbook, FPL-GTR-190, chapter 5 (from memory).

    Example:
        >>> strength_share_of_grain(5.71)  # a slope of 1 in 10
        0.81
    """
    return across_share / (sind(grain_slope_deg) ** power + across_share * cosd(grain_slope_deg) ** power)


@dataclass(frozen=True)
class WeakSection:
    """Where a bent leg is stressed most, among the sections that were looked at.

    Args:
        index: how many of the sections come before it.
        distance: where it stands, in the unit of the distances.
        stress: there, force over length squared, in the unit of moments and section moduli.
    """

    index: int
    distance: float
    stress: float


def weakest_section(distances: ArrayLike, moment: ArrayLike, section_modulus: ArrayLike) -> WeakSection:
    """Section of a leg at which bending moment over section modulus is greatest.

    Args:
        distances: where the sections stand along the axis, any length unit; array.
        moment: bending moment at each, in any unit of force times length; array of the same length.
        section_modulus: of each, above 0, in the unit of length cubed; array of the same length.

    Returns:
        The section; of several stressed alike the first.

    Raises:
        DesignError: when the arrays are empty, of several lengths, not finite, or a section has no wood.

    Source:
        Derived in `teach.derive.derive_strength`.

    Example:
        >>> weakest_section([0, 200, 400], [0, 20_000, 40_000], [1000, 1000, 2500])
        WeakSection(index=1, distance=200.0, stress=20.0)
    """
    places, moments, moduli = (np.asarray(given, float) for given in (distances, moment, section_modulus))
    if not places.ndim == moments.ndim == moduli.ndim == 1 or not 0 < len(places) == len(moments) == len(moduli):
        raise DesignError(
            f"The sections have {places.size} distances, {moments.size} moments and {moduli.size} section moduli;"
            " there must be as many of each, and one at least: give one of each for every section."
        )
    require_finite("furthest distance of a section", float(np.abs(places).max()))
    require_finite("greatest bending moment", float(np.abs(moments).max()))
    require_positive("least section modulus", float(moduli.min()), "leave out places without wood")
    stresses = bending_stress(np.abs(moments), moduli)
    index = int(np.argmax(stresses))
    return WeakSection(index, float(places[index]), float(stresses[index]))


@dataclass(frozen=True)
class LegScreen:
    """A leg under one pair of forces at its foot, held against the strength of its wood. Never a rating.

    Args:
        distance: of the section that is bent most, from the foot along the axis, in the unit of the leg.
        bending_mpa: bending stress there, MPa.
        compression_mpa: stress along the axis there, above 0 pressing, MPa.
        strength_share: bending stress over the average bending strength, a plain number; at 1 half of
            all sound samples would have broken.
        low_strength_share: bending stress over the strength two standard deviations below the average,
            which about 49 samples in 50 reach, a plain number.
    """

    distance: float
    bending_mpa: float
    compression_mpa: float
    strength_share: float
    low_strength_share: float


def leg_screen(
    lean: Lean,
    distances: ArrayLike,
    section_modulus: ArrayLike,
    area: ArrayLike,
    bending_strength_mpa: float,
    spread: float,
    *,
    push_n: float = 0.0,
    upward_n: float = 0.0,
    grain_slope_deg: float = 0.0,
    mm_per_unit: float = 1.0,
) -> LegScreen:
    """Hold a leaning leg's weakest section against the strength of its wood, for forces at its foot.

    With a push alone it is the leg of a piece that is shoved and catches, with an upward force alone a
    leaning leg that is loaded from above on a floor that gives no hold; both together are the worst.

    Args:
        lean: the leg's direction; one leg, no array.
        distances: of its sections from the foot along the axis, up to the tenon, any length unit; array.
        section_modulus: of each section, in that unit cubed; array of the same length.
        area: of each section, above 0, in that unit squared; array of the same length.
        bending_strength_mpa: average of its species, above 0, MPa.
        spread: standard deviation of that strength over its mean, a plain number between 0 and 0.5: see `SPREAD`.
        push_n: level push on the foot, outward in the plane of the lean, N; below 0 inward.
        upward_n: upward push on the foot, N.
        grain_slope_deg: degrees between grain and axis, from 0 to 90; it takes from the strength.
        mm_per_unit: how many mm the leg's unit has, above 0.

    Returns:
        The screen at the section that is bent most.

    Raises:
        DesignError: when sections are missing or have no wood, a strength is not above 0, or a number is
            not finite or past its range.

    Source:
        Derived in `teach.derive.derive_strength`.

    Example:
        >>> tenon = round_section_modulus(25.0)
        >>> leg_screen(Lean.from_total_lean(16.0, 0.0), [437], [tenon], [490.9], 106.2, 0.16, push_n=100)
        LegScreen(distance=437.0, bending_mpa=27.4, compression_mpa=-0.06, strength_share=0.26, low_strength_share=0.38)
    """
    require_finite("push on the foot", push_n)
    require_finite("upward force on the foot", upward_n)
    require_positive("bending strength", bending_strength_mpa, "give the average of the species in MPa")
    require_between("spread", spread, 0, 0.5, "give the standard deviation over the mean")
    require_between("slope of the grain", grain_slope_deg, 0, 90, "measure it from the axis", ends=True)
    require_positive("number of mm in the unit", mm_per_unit)
    across, along = tenon_forces(lean.total_lean_deg, push_n, upward_n)
    places, areas = np.asarray(distances, float), np.asarray(area, float)
    weakest = weakest_section(places, across * places, section_modulus)
    if areas.shape != places.shape:
        raise DesignError(
            f"The sections have {places.size} distances and {areas.size} areas; there must be as many: give both for"
            " every section."
        )
    require_positive("least area of a section", float(areas.min()), "leave out places without wood")
    bending, compression = (stress / mm_per_unit**2 for stress in (weakest.stress, along / float(areas[weakest.index])))
    share = bending / (bending_strength_mpa * strength_share_of_grain(grain_slope_deg))
    return LegScreen(weakest.distance, bending, compression, share, share / (1 - 2 * spread))
