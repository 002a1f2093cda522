r"""Wood screws by gauge: thickness, holes to drill, and how hard one is to pull out.

::

       |#######|     counterbore, closed by a plug
       |\_____/|     head
         |   |       clearance hole: the screw drops through the part that it holds down
    -----|   |------------------------------------------------------------------------
         | | |       shank hole, where plain shank goes into the part that holds
          |||        pilot hole, for the threads

The tables, `screw_gauges.csv` and `lead_holes.csv`, say row by row what was read and what is from memory.

What pulls a screw out is a handbook estimate of single tests to failure in sound side grain. It is no rating and
no load to plan with: the allowable design value of the building codes is another thing, several times smaller.
In end grain a screw holds less, and not dependably.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, nearest_word, require_between, require_positive
from furnlib.base.units import MM_IN, Unit
from furnlib.trade.wood.species import SPREAD

Hardness = Literal["softwood", "hardwood"]
PLUGS: Mapping[Unit, tuple[float, ...]] = {
    "mm": (6, 8, 10, 12, 15, 20),
    "in": (0.25, 0.375, 0.5, 0.625, 0.75),
}
"""Plug cutters of a shop, by its unit: common practice, no source."""
WITHDRAWAL_MPA = 108.25
"""Withdrawal in N for G² D L in mm: Wood Handbook, FPL-GTR-190, equation 8-10, 15,700 lbf in inches; from memory."""


def gauge_diameter(gauge: Value) -> Value:
    """Thickness of a wood screw's shank in inches: 0.060 + 0.013 N.

    Args:
        gauge: N, a plain number; number, array or symbol.

    Returns:
        The diameter in inches.

    Source:
        ASME B18.6.1, Wood Screws (Inch Series); the rule from memory, numbers 0, 10 and 20 read on trade pages.

    Example:
        >>> gauge_diameter(8)
        0.164
    """
    return 0.060 + 0.013 * gauge


@dataclass(frozen=True)
class Screw:
    """A wood screw of one gauge.

    Args:
        gauge: its number, a plain number.
        shank_diameter_mm: thickness of its plain part, in mm.
        root_diameter_mm: thickness between the threads, in mm.
        threads_per_inch: a plain number.
        source: where the sizes come from.
        how: which of them were read, and which are from memory.
    """

    gauge: int
    shank_diameter_mm: float
    root_diameter_mm: float
    threads_per_inch: int
    source: str
    how: str


def _rows(name: str) -> csv.DictReader[str]:
    return csv.DictReader(files(__package__).joinpath(name).read_text("utf-8").splitlines())


@cache
def screws() -> Mapping[int, Screw]:
    """Every wood screw of the table by its gauge.

    Returns:
        The screws, from thin to thick.

    Source:
        ASME B18.6.1, Wood Screws (Inch Series), partly from memory as each row says.

    Example:
        >>> list(screws())[-3:]
        [18, 20, 24]
    """
    found, mm = {}, float(MM_IN["in"])
    for row in _rows("screw_gauges.csv"):
        gauge, root, threads = int(row["gauge"]), float(row["root_in"]), int(row["threads_per_inch"])
        found[gauge] = Screw(gauge, gauge_diameter(gauge) * mm, root * mm, threads, row["source"], row["how"])
    return found


@cache
def lead_holes() -> Mapping[str, Mapping[str, str]]:
    """The rules for holes: by name the row that says what share of the root or shank each is, and its source.

    Returns:
        The rows "pilot", "pilot sideways", "shank hole", "clearance" and "head".

    Source:
        Wood Handbook, FPL-GTR-190, chapter 8, and common practice, from memory as each row says.

    Example:
        >>> rule = lead_holes()["pilot"]
        >>> rule["share_of"], rule["hardwood"], rule["how"]
        ('root', '0.9', 'from memory')
    """
    return {row["hole"]: row for row in _rows("lead_holes.csv")}


def screw(gauge: int) -> Screw:
    """Look up a wood screw by its gauge.

    Args:
        gauge: its number, a plain number from 0 to 24.

    Returns:
        The screw.

    Raises:
        DesignError: when the table has no such gauge.

    Source:
        ASME B18.6.1, Wood Screws (Inch Series), partly from memory as each row says.

    Example:
        >>> eight = screw(8)
        >>> round(eight.shank_diameter_mm, 2), round(eight.root_diameter_mm, 2)
        (4.17, 2.84)
    """
    table = screws()
    if gauge not in table:
        raise DesignError(
            f"The screw's gauge is {gauge}; the table has {', '.join(map(str, table))}: take one of them."
        )
    return table[gauge]


@dataclass(frozen=True)
class ScrewHoles:
    """What to drill for one screw, in mm.

    Args:
        screw: the screw itself.
        pilot_mm: for the threads of a screw that is pulled along its axis, in mm.
        pilot_sideways_mm: for those of a screw that is pushed sideways, in mm.
        shank_hole_mm: for plain shank inside the part that holds, in mm.
        clearance_mm: through the part that is held down, in mm.
        head_mm: how wide the head is, about, in mm.
        counterbore_mm: for a plug over the head, in mm: the next that covers it; None where no plug does.
    """

    screw: Screw
    pilot_mm: float
    pilot_sideways_mm: float
    shank_hole_mm: float
    clearance_mm: float
    head_mm: float
    counterbore_mm: float | None


def screw_holes(gauge: int, hardness: Hardness, unit: Unit = "mm") -> ScrewHoles:
    """Pilot, clearance and counterbore for a screw, by the hardness of the wood that its threads are in.

    Args:
        gauge: the screw's number, a plain number from 0 to 24.
        hardness: "softwood" or "hardwood".
        unit: of the shop's plug cutters, "mm" or "in"; what comes back is in mm.

    Returns:
        The holes.

    Raises:
        DesignError: when the gauge or the hardness is not in the table.

    Source:
        Wood Handbook, FPL-GTR-190, chapter 8, and common practice, from memory: `lead_holes` says which.

    Example:
        >>> hole = screw_holes(8, "hardwood")
        >>> round(hole.pilot_mm, 2), round(hole.clearance_mm, 2), hole.counterbore_mm
        (2.56, 4.58, 10.0)
    """
    if hardness not in {"softwood", "hardwood"}:
        raise DesignError(f"The hardness is '{hardness}'; {nearest_word(hardness, ('softwood', 'hardwood'))}")
    made = screw(gauge)
    thick = {"root": made.root_diameter_mm, "shank": made.shank_diameter_mm}
    wide = {name: float(rule[hardness]) * thick[rule["share_of"]] for name, rule in lead_holes().items()}
    plugs = (plug * float(MM_IN[unit]) for plug in PLUGS[unit])
    plug = next((plug for plug in plugs if plug >= wide["head"]), None)
    pilot, clearance = wide["pilot"], wide["clearance"]
    return ScrewHoles(made, pilot, wide["pilot sideways"], wide["shank hole"], clearance, wide["head"], plug)


def withdrawal_force_n(specific_gravity: Value, shank_diameter_mm: Value, thread_mm: Value) -> Value:
    """Average force that pulls a wood screw out of side grain, in N: 108.25 G² D L.

    Args:
        specific_gravity: G, of the dry wood on its volume at 12 %, a plain number; number, array or symbol.
        shank_diameter_mm: D, thickness of the plain part, in mm.
        thread_mm: L, length of thread in the part that holds, in mm.

    Returns:
        The force in N, in a single test to failure; no load to plan with.

    Source:
        Wood Handbook, FPL-GTR-190, equation 8-10, from memory.

    Example:
        >>> round(withdrawal_force_n(0.50, 4.1656, 25.4))
        2863
    """
    return WITHDRAWAL_MPA * specific_gravity * specific_gravity * shank_diameter_mm * thread_mm


@dataclass(frozen=True)
class Withdrawal:
    """A handbook estimate of what pulls a screw out: no rating, and no load to plan with.

    Args:
        average_n: over many tests, in N.
        least_n: in light wood, two standard deviations below the species' average, in N.
        most_n: in heavy wood, as far above, in N.
    """

    average_n: float
    least_n: float
    most_n: float

    def __str__(self) -> str:
        average, least, most = (f"{float(f'{force:.2g}'):g}" for force in (self.average_n, self.least_n, self.most_n))
        return (
            f"Tests pull it out at about {average} N, from {least} in light wood to {most} in heavy: a handbook"
            " estimate of failure, no rating and no load to plan with."
        )


def withdrawal(gauge: int, specific_gravity: float, thread_mm: float) -> Withdrawal:
    """Estimate what pulls a wood screw straight out of side grain, with its spread.

    The spread is that of the wood's weight alone, two standard deviations either way; pilot, damp, splits and
    time widen it downwards. Local rules and licensed practice decide what may hang on a screw.

    Args:
        gauge: the screw's number, a plain number from 0 to 24.
        specific_gravity: average of the species, a plain number between 0 and 1.3.
        thread_mm: length of thread in the part that holds, above 0, in mm.

    Returns:
        The estimate; printed, its caution stands beside it.

    Raises:
        DesignError: when the gauge is not in the table, or a number is out of its range.

    Source:
        Wood Handbook, FPL-GTR-190, equation 8-10, and chapter 5, spread of specific gravity; from memory.

    Example:
        >>> print(withdrawal(8, 0.50, 25.4))
        Tests pull it out at about 2900 N, from 1800 in light wood to 4100 in heavy: a handbook estimate of failure,
        no rating and no load to plan with.
    """
    require_between("specific gravity", specific_gravity, 0, 1.3, "it is the species' weight over that of water")
    require_positive("length of thread in the wood", thread_mm)
    shank, spread = screw(gauge).shank_diameter_mm, 2 * SPREAD["specific gravity"]
    weights = (specific_gravity * (1 + by) for by in (0.0, -spread, spread))
    return Withdrawal(*(withdrawal_force_n(weight, shank, thread_mm) for weight in weights))
