"""The season of a piece: the moisture of its wood now, at the dampest and at the driest, and what each wood does."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from furnlib.base.concern import Concern
from furnlib.base.guards import DesignError, fault_at
from furnlib.base.units import Unit, write_length, write_number
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_season import RINGS, Climate, Place, Wood
from furnlib.plan.sizes.size import Size
from furnlib.trade.wood.moisture import Readiness, balance_moisture, readiness
from furnlib.trade.wood.movement import stretch
from furnlib.trade.wood.species import Sample, Species, species, tested_species


@dataclass(frozen=True)
class WoodSeason:
    """A wood of the piece and what the year does to it, across the grain.

    Args:
        role: such as "front".
        species: the wood, with the maker's own values where the file gives them.
        ring_angle_deg: between face and rings on the end grain, 0 for flat-sawn.
        damp: its size at the dampest over its size now.
        dry: its size at the driest over its size now.
    """

    role: str
    species: Species
    ring_angle_deg: float
    damp: float
    dry: float


@dataclass(frozen=True)
class Season:
    """The year of a piece.

    Args:
        now: moisture content of the wood in the shop, in per cent.
        damp: at the dampest in the room.
        dry: at the driest.
        woods: by role, what each does.
        sizes: the moistures, each with where it comes from.
        readiness: whether the boards may be worked, None where no readings are given.
    """

    now: float
    damp: float
    dry: float
    woods: Mapping[str, WoodSeason]
    sizes: tuple[Size, ...]
    readiness: Readiness | None = None

    @property
    def concerns(self) -> tuple[Concern, ...]:
        """To wait, where the boards have not come to rest."""
        if self.readiness is None or self.readiness.ready:
            return ()
        return (
            Concern(
                "wait",
                self.readiness.line.removeprefix("wait: "),
                "the boards are not at rest where the room will keep them, and parts cut now still change",
                ("wait and read again in a week", "put stickers between the boards, in air like the room's"),
            ),
        )


def season_of(design: CaseDesign) -> Season | None:
    """Find the moistures of a piece's year, and what its woods do in it.

    Args:
        design: the piece as settled.

    Returns:
        The season, None where the design has neither climate nor drawers.

    Raises:
        DesignError: when one of climate and wood is missing, a place has both moisture and air or neither, the
            dampest is drier than the driest, or a moisture is out of reach.
    """
    if design.climate is None or design.wood is None:
        if design.drawers is None:
            return None
        missing = "climate" if design.climate is None else "wood"
        with fault_at("drawers"):
            raise DesignError(
                f"The drawers need to know the season before their sides are cut; add '{missing}:' to the design file."
            )
    climate = design.climate
    sizes = tuple(
        _moisture(name, place, design.unit)
        for name, place in (("shop", climate.shop), ("damp", climate.damp), ("dry", climate.dry))
    )
    now, damp, dry = (float(size.value) for size in sizes)
    with fault_at("climate", "damp"):
        if damp < dry:
            raise DesignError(
                f"The dampest is {write_number(damp)} % and the driest {write_number(dry)} %; change the two round."
            )
    woods = {}
    for role, wood in design.wood:
        if wood:
            with fault_at("wood", role):
                kind, angle = _species(wood), RINGS[wood.rings]
            reached = {}
            for name, moisture in (("shop", now), ("damp", damp), ("dry", dry)):
                with fault_at("climate", name):
                    reached[name] = float(stretch(kind, angle, now, moisture))
            woods[role] = WoodSeason(role, kind, angle, reached["damp"], reached["dry"])
    sizes += _depths(design, woods["case"])
    return Season(now, damp, dry, woods, sizes, _readiness(climate, round((damp + dry) / 2, 1)))


def _depths(design: CaseDesign, case: WoodSeason) -> tuple[Size, ...]:
    """What the case comes to from front to back, across the grain of its sides."""
    depth, unit = design.overall.depth, design.unit

    def then(name: str, stretched: float) -> Size:
        deep = float(depth) * stretched
        rule = f"{write_length(deep, unit)} ≈ {write_length(depth, unit)} x {write_number(stretched, 5)} stretch"
        return Size(f"depth of the case at the {name}", deep, unit, rule, "movement")

    return then("dampest", case.damp), then("driest", case.dry)


def _readiness(climate: Climate, target: float) -> Readiness | None:
    """Whether the boards have come to rest at the middle of what the room will have, to a tenth as meters read."""
    if not climate.readings:
        return None
    with fault_at("climate", "readings"):
        days, read = zip(*((float(one.day), float(one.moisture_content)) for one in climate.readings), strict=True)
        return readiness(days, read, target)


def _moisture(name: str, place: Place, unit: Unit) -> Size:
    """Moisture content of the wood in one place, in per cent."""
    called = {"shop": "moisture now", "damp": "moisture at the dampest", "dry": "moisture at the driest"}[name]
    with fault_at("climate", name):
        if place.moisture_content is not None:
            if place.temperature is not None or place.humidity is not None:
                raise DesignError("Moisture and air are given at once; keep the moisture that was read, or the air.")
            return Size(called, float(place.moisture_content), "", f"{write_number(place.moisture_content)} % as given")
        if place.temperature is None or place.humidity is None:
            raise DesignError("Give the wood's moisture, as 'shop: 8', or both temperature and humidity of the air.")
        scale: Literal["C", "F"] = "C" if unit == "mm" else "F"
        moisture = balance_moisture(float(place.temperature), float(place.humidity), scale)
        air = f"{write_number(place.temperature)} {scale} and {write_number(place.humidity)} % humidity"
        return Size(called, moisture, "", f"{write_number(moisture)} % by {air}", "moisture.balance")


def _species(wood: Wood) -> Species:
    """The wood of the table, or the maker's own by its test pieces."""
    if wood.like is None:
        if wood.measured:
            raise DesignError("Test pieces are given; say by 'like:' which wood of the table all else is taken from.")
        return species(wood.species)
    samples = [
        Sample(
            width_before=float(piece.before),
            width_after=float(piece.after),
            moisture_before=float(piece.moisture_before),
            moisture_after=float(piece.moisture_after),
            ring_angle_deg=RINGS[piece.rings],
        )
        for piece in wood.measured
    ]
    return tested_species(wood.species, species(wood.like), samples)
