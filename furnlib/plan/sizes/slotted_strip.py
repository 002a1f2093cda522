"""Screws across the grain of a case's sides, as they hold runners: one round hole, the others in slots."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from furnlib.base.guards import DesignError, fault_at
from furnlib.base.units import MM_IN, Unit, shown_length, write_length
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.season import Season
from furnlib.plan.sizes.size import Size
from furnlib.trade.case.screws import ScrewHoles, screw_holes
from furnlib.trade.case.slots import Slot, slot_row


@dataclass(frozen=True, eq=False)
class StripSizes:
    """The holes of one strip, all distances from the front edge of the case, in the piece's unit.

    Args:
        fixed_place: where the round hole is.
        places: where each screw sits today, the one in the round hole among them.
        slots: of each screw.
        holes: what is drilled for the screws.
        hole_diameter: of the round hole, and how wide the slots are: the screws' clearance.
        extra: room left beyond a screw at either end of its slot.
        sizes: each slot with its rule.
    """

    fixed_place: float
    places: tuple[float, ...]
    slots: tuple[Slot, ...]
    holes: ScrewHoles
    hole_diameter: float
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
        inside = design.overall.depth - (design.back.thickness if design.back else 0)
        if places[-1] >= inside:
            raise DesignError(
                f"A screw stands {write_length(places[-1], unit)} from the front edge, behind the inside of the back at"
                f" {write_length(inside, unit)}; move it forward."
            )
        holes = screw_holes(strip.gauge, "hardwood", unit)
        # as drilled: the clearance hole, up to the next step of a rule, so that slots are reckoned with what is made
        wide = float(shown_length(Fraction(holes.clearance_mm) / MM_IN[unit], unit, round_up=True))
        at = tuple(float(place) for place in places)
        slots = slot_row(at, float(strip.fixed_place), wide, float(strip.extra), wood.damp, wood.dry)
    sizes = tuple(
        Size(
            f"slot at {write_length(place, unit)} from the front",
            made.length,
            unit,
            _Ends(made.length, made.before, made.after, unit),
            "slots.slot",
            least=True,
        )
        for place, made in zip(places, slots, strict=True)
        if place != strip.fixed_place
    )
    return StripSizes(float(strip.fixed_place), at, slots, holes, wide, float(strip.extra), sizes)


class _Ends(NamedTuple):
    """The slot's two sides of its screw today, so that they add up as they are written."""

    length: float
    before: float
    after: float
    unit: Unit

    @property
    def rule(self) -> str:
        sizes = [shown_length(Fraction(size), self.unit, round_up=True) for size in self[:3]]
        length, before, after = (write_length(size, self.unit) for size in sizes)
        equals = "=" if sizes[0] == sizes[1] + sizes[2] else "≈"
        return f"{length} {equals} {before} before the screw's middle today + {after} behind it"
