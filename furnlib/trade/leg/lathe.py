"""At the lathe: how deep to cut beside a square, how fast to turn, and what to do in which order.

Beside a square that is left on a leg, a stop cut parts the wood that goes from the wood that stays; without
it, or where it goes too deep, the corners tear out. From the flat it is half of side less diameter,
from the corner half of diagonal less diameter: it is at the corner that most comes off.

Finished diameters are never sized to the line at once: `leave` is what stays on the radius for the finishing
cut, here and at the calipers, where it counts twice.

Turning can hurt: `trade.cautions` says what stands beside these figures. Speeds are guidance, and the handbook
of the lathe goes before them.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import pairwise
from typing import Literal

import numpy as np

from furnlib.base.angles import Value, deg, square_root
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive

StepKind = Literal["centre", "line", "nick", "stop cut", "rough", "mark", "size", "shape", "blend", "sand", "cut off"]
"""What is done in a step; the words for each belong to the plates."""
Places = Sequence[float]


def depth_at_flat(square: Value, diameter: Value) -> Value:
    """How deep a cut from the flat of a square reaches a diameter: (s - d) / 2.

    Args:
        square: side s of the square, any length unit; number, array or symbol.
        diameter: d of the round inside it, in the same unit; number, array or symbol.

    Returns:
        The depth in the unit of the square; below 0 where the round stands out past the flats.

    Source:
        Derived in `teach.derive.derive_lathe`.

    Example:
        >>> depth_at_flat(48.0, 40.0)
        4.0
    """
    return (square - diameter) / 2


def depth_at_corner(square: Value, diameter: Value) -> Value:
    """How deep a cut from the corner of a square reaches a diameter: (s √2 - d) / 2.

    Args:
        square: side s of the square, any length unit; number, array or symbol.
        diameter: d of the round inside it, in the same unit; number, array or symbol.

    Returns:
        The depth in the unit of the square.

    Source:
        Derived in `teach.derive.derive_lathe`.

    Example:
        >>> depth_at_corner(48.0, 40.0)
        13.94
    """
    return (square_root(2 * square * square) - diameter) / 2


@dataclass(frozen=True)
class StopCut:
    """How deep to cut beside a square, in the unit of the leg.

    Args:
        depth_at_flat: from the flat of the square; 0 where the cut reaches the corners only.
        depth_at_corner: from the corner of the square, as the tool meets it first.
    """

    depth_at_flat: float
    depth_at_corner: float


def deepest_stop_cut(square: float, diameter: float, leave: float) -> StopCut:
    """Depth of the stop cut beside a square that leaves wood for the finishing cut.

    It stops at the diameter d + 2 leave: (s - d) / 2 - leave from the flat, (s √2 - d) / 2 - leave
    from the corner.

    Args:
        square: side of the square, above 0, any length unit.
        diameter: finished diameter beside it, above 0 and no more than the square, in the same unit.
        leave: what stays on the radius for the finishing cut, 0 or more, in the same unit.

    Returns:
        The two depths.

    Raises:
        DesignError: when a size is not above 0, the round is thicker than the square, or so much is
            left that nothing is cut.

    Source:
        Derived in `teach.derive.derive_lathe`; to leave wood for a finishing cut is common practice.

    Example:
        >>> deepest_stop_cut(48.0, 40.0, 1.0)
        StopCut(depth_at_flat=3.0, depth_at_corner=12.94)
    """
    require_positive("square", square)
    require_positive("diameter beside the square", diameter)
    if diameter > square:
        raise DesignError(
            f"The diameter beside the square is {diameter:g}; a fully round part is at most as thick as its square,"
            f" {square:g}: turn it thinner or take a thicker square."
        )
    at_corner = depth_at_corner(square, diameter)
    require_between("wood left on the radius", leave, 0, at_corner, "leave less for the finishing cut", ends=True)
    return StopCut(max(0.0, depth_at_flat(square, diameter) - leave), at_corner - leave)


def rim_speed(diameter_mm: Value, spindle_rpm: Value) -> Value:
    """How fast the outside of turning work goes past the tool, in metres a second: π D n.

    Args:
        diameter_mm: of the work, in mm; of a square, corner to corner; number, array or symbol.
        spindle_rpm: turns of the spindle a minute, a plain number; number, array or symbol.

    Returns:
        Metres a second.

    Source:
        Derived in `teach.derive.derive_lathe`.

    Example:
        >>> rim_speed(50.8, 1520.0)
        4.04
    """
    return diameter_mm / 2000 * deg(6 * spindle_rpm)


@dataclass(frozen=True)
class SpeedBand:
    """Speeds for work of one range of thickness: guidance only.

    Args:
        upper_diameter_mm: what swings less than this falls in the band, in mm.
        roughing_rpm: until the work is round, a plain number of turns a minute.
        general_rpm: for sizing and shaping, a plain number of turns a minute.
        finishing_rpm: for the last cuts, a plain number of turns a minute.
        source: where the figures come from.
    """

    upper_diameter_mm: float
    roughing_rpm: float
    general_rpm: float
    finishing_rpm: float
    source: str


@cache
def speed_bands() -> tuple[SpeedBand, ...]:
    """All speed bands, from thin work to thick.

    Returns:
        The bands.

    Source:
        A table printed in many owners' manuals of wood lathes; from memory.

    Example:
        >>> len(speed_bands())
        8
    """
    lines = files(__package__).joinpath("lathe_speeds.csv").read_text("utf-8").splitlines()
    return tuple(
        SpeedBand(
            float(row["upper_diameter_mm"]),
            float(row["roughing_rpm"]),
            float(row["general_rpm"]),
            float(row["finishing_rpm"]),
            row["source"],
        )
        for row in csv.DictReader(lines)
    )


def speed_band(swing_mm: float) -> SpeedBand:
    """Printed speeds for work of a swing: guidance, and the handbook of the lathe goes before it.

    At the limit between two bands the slower one holds. A long slim leg wants less than the table
    says: `trade.leg.whirling` tells at what speed it would whip.

    Args:
        swing_mm: greatest diameter of the work, of a square corner to corner, in mm.

    Returns:
        The band.

    Raises:
        DesignError: when the swing is not above 0 or is beyond the table.

    Source:
        A table printed in many owners' manuals of wood lathes; from memory.

    Example:
        >>> speed_band(67.9).roughing_rpm
        760.0
    """
    largest = speed_bands()[-1].upper_diameter_mm
    require_between("swing", swing_mm, 0, largest, "the printed speeds end there, so follow the handbook of the lathe")
    return next(band for band in speed_bands() if swing_mm < band.upper_diameter_mm)


@dataclass(frozen=True)
class CaliperSetting:
    """One setting of the calipers and everywhere that it is used, in the unit of the leg.

    Args:
        diameter: finished diameter.
        sizing_diameter: what the calipers are set to: the finishing cut is still to come.
        distances: where it is used, along the axis from the top of the leg, in order.
    """

    diameter: float
    sizing_diameter: float
    distances: tuple[float, ...]


def calipers(
    distances: Places, diameters: Places, leave: float = 0.0, tolerance: float = 0.0
) -> tuple[CaliperSetting, ...]:
    """Settings of the calipers in working order: from the largest to the smallest.

    Each is used at all its stations before the calipers are closed to the next, so that they are set
    once for each diameter. Diameters within the tolerance of the largest of a setting share it; the
    largest is what is set, so that no place comes out too thin.

    Args:
        distances: of the stations along the axis from the top of the leg, 0 or more, any length unit.
        diameters: finished diameters at the stations, above 0, in the same unit, as many.
        leave: what stays on the radius for the finishing cut, 0 or more, in the same unit.
        tolerance: how much thinner than its setting a station may be, 0 or more, in the same unit.

    Returns:
        The settings.

    Raises:
        DesignError: when there is no station, the two lists are not of one length, or a number is
            past its limits.

    Source:
        Common practice, no source.

    Example:
        >>> [(s.diameter, s.distances) for s in calipers([60.0, 90.0, 150.0, 400.0], [40.0, 26.0, 40.0, 22.0])]
        [(40.0, (60.0, 150.0)), (26.0, (90.0,)), (22.0, (400.0,))]
    """
    stations = _stations(distances, diameters)
    for name, size in (("wood left on the radius", leave), ("tolerance", tolerance)):
        require_between(name, size, 0, min(diameters), "no more than the thinnest station", ends=True)
    groups: list[tuple[float, set[float]]] = []
    for distance, diameter in sorted(stations, key=lambda station: -station[1]):
        if not groups or diameter < groups[-1][0] - tolerance:
            groups.append((diameter, set()))
        groups[-1][1].add(distance)
    return tuple(CaliperSetting(size, size + 2 * leave, tuple(sorted(where))) for size, where in groups)


def _stations(distances: Places, diameters: Places) -> list[tuple[float, float]]:
    if not 0 < len(distances) == len(diameters):
        raise DesignError(
            f"There are {len(distances)} distances and {len(diameters)} diameters; each station has one of either:"
            " give as many of the one as of the other."
        )
    require_finite("distance of a station", np.asarray(distances, dtype=float))
    require_positive("diameter at a station", np.asarray(diameters, dtype=float))
    return [(float(distance), float(diameter)) for distance, diameter in zip(distances, diameters, strict=True)]


@dataclass(frozen=True)
class LatheStep:
    """One step at the lathe, as data: the words for it belong to the plates.

    Args:
        kind: what is done.
        distances: where, along the axis from the top of the leg, in its unit; empty for all along.
        diameters: what is left there, in the same unit: one for each distance, or one for all of
            them; of a cut that shapes, where it begins and where it ends, downhill.
        depth_at_flat: of a stop cut, from the flat of the square, in the same unit; else 0.
        depth_at_corner: of a stop cut, from the corner of the square, in the same unit; else 0.
        spindle_rpm: turns a minute, a plain number; 0 with the lathe standing.
    """

    kind: StepKind
    distances: tuple[float, ...] = ()
    diameters: tuple[float, ...] = ()
    depth_at_flat: float = 0.0
    depth_at_corner: float = 0.0
    spindle_rpm: float = 0.0


def lathe_steps(
    distances: Places,
    diameters: Places,
    rough_diameter: float,
    speeds: SpeedBand,
    leave: float,
    *,
    square: float = 0.0,
    square_parts: Sequence[tuple[float, float]] = (),
    tolerance: float = 0.0,
) -> tuple[LatheStep, ...]:
    """Turn a leg, step by step.

    The wood is centred; beside each square it is lined, nicked and given a stop cut. The rest is
    roughed to a cylinder, marked from the story stick with the lathe standing, and sized from the
    largest diameter to the smallest; sizing leaves the steps, where one diameter ends against another.
    Every stretch between two stations is then cut downhill, from thick to thin, and the thinnest come
    last, so that the leg stays stiff; all is blended, sanded and cut off.

    Args:
        distances: of the stations along the axis, from the top of the leg to its foot, any length unit: its
            ends, wherever a shape begins or ends, and the crown of each bead and cove.
        diameters: finished diameters at the stations, above 0, in the same unit, as many; on a
            square its side, or more where a shape begins at its corners.
        rough_diameter: of the roughed cylinder, in the same unit, no less than the largest turned
            diameter and no more than the square.
        speeds: for the swing of the wood, from `speed_band`.
        leave: what stays on the radius for the finishing cut, 0 or more, in the same unit.
        square: side of the squares that are left, in the same unit; 0 where there is none.
        square_parts: where each square begins and ends, in the same unit. An end beside which nothing
            is thinner than the square, such as that of a lamb's tongue, takes no stop cut.
        tolerance: how much thinner than its caliper setting a station may be, 0 or more, in the same unit.

    Returns:
        The steps in working order.

    Raises:
        DesignError: when the stations run back, one is missing at the end of a square, nothing is left to
            turn, or a size is past its limits.

    Source:
        Common practice, no source; the depths are derived in `teach.derive.derive_lathe`.

    Example:
        >>> stations = [0, 60, 60, 400], [48, 48, 40, 22]
        >>> made = lathe_steps(*stations, 42, speed_band(67.9), 1, square=48, square_parts=[(0, 60)])
        >>> [step.kind for step in made][:5]
        ['centre', 'line', 'nick', 'stop cut', 'rough']
        >>> made[3].depth_at_flat, made[3].depth_at_corner, made[3].spindle_rpm
        (3.0, 12.94, 760.0)
    """
    stations = _stations(distances, diameters)
    stretches = list(pairwise(stations))
    if any(after[0] < before[0] for before, after in stretches):
        raise DesignError(f"The stations {list(distances)} run back; give them in order, from the top of the leg.")
    if square_parts:
        require_positive("square", square)
    turned = [(x, d) for x, d in stations if d < square or not any(a <= x <= b for a, b in square_parts)]
    if not turned:
        raise DesignError("Every station is on a square; nothing is left to turn: give the stations between squares.")
    where, sizes = zip(*turned, strict=True)
    most = square or math.inf
    require_between("roughed diameter", rough_diameter, max(sizes), most, "what is left must be in it", ends=True)
    lines = tuple(sorted({float(x) for part in square_parts for x in part if stations[0][0] < x < stations[-1][0]}))
    steps = [LatheStep("centre")]
    if lines:
        steps += [LatheStep("line", lines), LatheStep("nick", lines, spindle_rpm=speeds.roughing_rpm)]
    for line in lines:
        beside = min((d for x, d in stations if x == line), default=0.0)
        if not beside:
            raise DesignError(f"A square ends at {line:g} and there is no station at {line:g}; give what is beside it.")
        if beside < square:
            cut = deepest_stop_cut(square, beside, leave)
            depths = cut.depth_at_flat, cut.depth_at_corner
            steps.append(LatheStep("stop cut", (line,), (beside + 2 * leave,), *depths, speeds.roughing_rpm))
    steps.append(LatheStep("rough", (), (rough_diameter,), spindle_rpm=speeds.roughing_rpm))
    steps.append(LatheStep("mark", where, sizes))
    for setting in calipers(where, sizes, leave, tolerance):
        size = min(setting.sizing_diameter, rough_diameter)
        steps.append(LatheStep("size", setting.distances, (size,), spindle_rpm=speeds.general_rpm))
    for stretch in sorted(stretches, key=lambda ends: -min(ends[0][1], ends[1][1])):
        (start, end) = stretch[0][0], stretch[1][0]
        if start < end and not any(a < end and b > start for a, b in square_parts):
            thick, thin = sorted(stretch, key=lambda station: -station[1])
            ends = (thick[0], thin[0]), (thick[1], thin[1])
            steps.append(LatheStep("shape", *ends, spindle_rpm=speeds.general_rpm))
    steps.append(LatheStep("blend", spindle_rpm=speeds.finishing_rpm))
    steps.append(LatheStep("sand", spindle_rpm=speeds.general_rpm))
    return (*steps, LatheStep("cut off"))
