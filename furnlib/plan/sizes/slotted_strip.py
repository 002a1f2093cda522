"""Screws across the grain of a case's sides, as they hold runners: one round hole, the others in slots."""

from __future__ import annotations

from dataclasses import dataclass

from furnlib.base.guards import DesignError, fault_at
from furnlib.base.units import MM_IN, write_length
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.season import Season
from furnlib.plan.sizes.size import Size
from furnlib.trade.case.screws import ScrewHoles, screw, screw_holes
from furnlib.trade.case.slots import Slot, slot_row


@dataclass(frozen=True, eq=False)
class StripSizes:
    """The holes of one strip, all distances from the front edge of the case, in the piece's unit.

    Args:
        fixed_place: where the round hole is.
        places: where each screw sits today, the one in the round hole among them.
        slots: of each screw.
        holes: what is drilled for the screws.
        shank_diameter: of the screws.
        extra: room left beyond a screw at either end of its slot.
        sizes: each slot with its rule.
    """

    fixed_place: float
    places: tuple[float, ...]
    slots: tuple[Slot, ...]
    holes: ScrewHoles
    shank_diameter: float
    extra: float
    sizes: tuple[Size, ...]


def strip_sizes(design: CaseDesign, season: Season | None) -> StripSizes | None:
    """Lay out the screws of a strip across the grain of the case's sides.

    The strip stays as long as it is; the side behind it moves, so the slots are in the part that stays.

    Args:
        design: the piece as settled.
        season: the year of the case's wood.

    Returns:
        The strip, None where the design has none.

    Raises:
        DesignError: when the season is not known, a screw stands outside the case, or two slots meet.
    """
    strip, unit = design.strips, design.unit
    if strip is None:
        return None
    with fault_at("strips"):
        if season is None:
            raise DesignError("Slots need the season; add 'climate:' and 'wood:' to the design file.")
        wood, places = season.woods["case"], sorted({strip.fixed_place, *strip.screws})
        if places[-1] >= design.overall.depth:
            raise DesignError(
                f"A screw stands {write_length(places[-1], unit)} from the front edge, outside the depth of"
                f" {write_length(design.overall.depth, unit)}; move it forward."
            )
        holes = screw_holes(strip.gauge, "hardwood", unit)
        shank = screw(strip.gauge).shank_diameter_mm / float(MM_IN[unit])
        at = tuple(float(place) for place in places)
        slots = slot_row(at, float(strip.fixed_place), shank, float(strip.extra), wood.damp, wood.dry)
    sizes = tuple(
        Size(
            f"slot at {write_length(place, unit)} from the front",
            made.length,
            unit,
            f"{write_length(made.length, unit)} = {write_length(made.toward_end, unit)} towards the front"
            f" + {write_length(made.away_end, unit)} behind the screw's middle today",
            "slots.slot",
        )
        for place, made in zip(places, slots, strict=True)
        if place != strip.fixed_place
    )
    return StripSizes(float(strip.fixed_place), at, slots, holes, shank, float(strip.extra), sizes)
