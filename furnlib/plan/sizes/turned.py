"""The turned leg: its profile at its own length, its blank, what the lathe is told, where it is weakest."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from furnlib.base.guards import fault_at
from furnlib.base.units import MM_IN, Unit
from furnlib.plan.design_legs import Legs
from furnlib.plan.design_turning import Loads, Turning
from furnlib.plan.sizes.profile import leg_profile
from furnlib.trade.case.strength import LegScreen, leg_screen
from furnlib.trade.leg.blank import Blank, end_extra, turning_blank
from furnlib.trade.leg.end_cut import EndCut
from furnlib.trade.leg.lathe import LatheStep, SpeedBand, lathe_steps, rim_speed, speed_band
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.plies import GluedBlank, glued_blank
from furnlib.trade.leg.seat import SeatLeg
from furnlib.trade.leg.turning import Profile
from furnlib.trade.leg.whirling import Steady, slenderness, steady, whirling_rpm
from furnlib.trade.wood.species import SPREAD, Species, species

GRAVITY = 9.80665
"""Newtons for each kg of a push or a weight."""
ALLOWANCES: dict[Unit, Turning] = {
    "mm": Turning.model_construct(
        roughing=Fraction(1), centring=Fraction(1, 2), waste=Fraction(15), kerf=Fraction(3), finishing=Fraction(1, 2)
    ),
    "in": Turning.model_construct(
        roughing=Fraction(1, 32), centring=Fraction(1, 32), waste=Fraction(5, 8), kerf=Fraction(1, 8),
        finishing=Fraction(1, 64),
    ),
}  # fmt: skip
"""What is left on and taken off where the design does not say; common practice, no source."""
_PLACES = 240  # of a leg, beside its joints, at which strength and stiffness are looked at
_SPARE_MM = 6.0  # to plane off a glued blank


class Diameters(NamedTuple):
    """A turned leg, by the diameters that its cuts and its mortise need.

    Args:
        largest: its greatest diameter, in the piece's unit.
        foot: diameter on the floor.
        tenon: diameter at its top, in the mortise where it has one.
    """

    largest: Fraction | float
    foot: Fraction | float
    tenon: Fraction | float


@dataclass(frozen=True, eq=False)
class TurnedLeg:
    """All that turning one leg asks for, in the piece's unit.

    Args:
        profile: from its top end to the floor, along the axis.
        top: how far below its top end the axis passes the underside: the length of a tenon, 0 under a case.
        diameters: largest, at the foot, at the top.
        allowances: what is left on and taken off.
        wood: its species, where the design names it.
        loads: what it is taken to meet, where the design says.
        blank: the square stick it is turned from.
        plies: what that is glued up from, where the design names the boards.
        steps: what is done at the lathe, in order.
        speeds: the printed band for the blank's swing.
        rim_speed: of the blank's corners at the roughing speed, in m/s.
        slenderness: length over the least diameter.
        steady: whether one must hold its middle.
        mass_kg: of the finished leg, before its ends are cut; 0 where the wood is not named.
        whirling_rpm: first whirling speed between plain centres; 0 where the wood is not named.
        screen: the stresses of the loads in the design.
    """

    profile: Profile
    top: float
    diameters: Diameters
    allowances: Turning
    wood: Species | None
    loads: Loads | None
    blank: Blank
    plies: GluedBlank | None
    steps: tuple[LatheStep, ...]
    speeds: SpeedBand
    rim_speed: float
    slenderness: float
    steady: Steady
    mass_kg: float
    whirling_rpm: float
    screen: LegScreen | None


def _allowances(legs: Legs, unit: Unit) -> Turning:
    """The design's allowances, and the usual ones where it is silent."""
    given = {name: value for name, value in legs.turning if value is not None}
    return ALLOWANCES[unit].model_copy(update=given)


def turned_leg(
    legs: Legs, lean: Lean, axis: float, cut: EndCut | None, drilled: SeatLeg | None, unit: Unit
) -> TurnedLeg:
    """Work out one turned leg.

    Args:
        legs: the legs of the design.
        lean: the leg's direction in the room.
        axis: from underside to floor along it, in the piece's unit.
        cut: saw settings, where its top is square.
        drilled: what is drilled for it, where it stands under a seat.
        unit: of the piece.

    Returns:
        The leg.

    Raises:
        DesignError: when the profile, its blank or its plies cannot be made.
    """
    profile, top = leg_profile(legs, axis, drilled, unit)
    left, mm = _allowances(legs, unit), float(MM_IN[unit])
    blank = _blank(legs, left, profile, lean, cut, drilled)
    plies = None
    if left.boards:
        with fault_at("legs", "turning", "boards"):
            plies = glued_blank(blank.side, float(left.boards), spare=_SPARE_MM / mm)
    with fault_at("legs", "wood"):
        wood = species(legs.wood) if legs.wood else None
        if wood:
            wood.known("bending_strength_mpa")  # whoever has it has stiffness and density too
    with fault_at("legs", *(name for name in ("round", "profile", "stations") if getattr(legs, name) is not None)):
        slim = profile.length, profile.least_diameter_between(0.0, profile.length)[1]
        needs_steady = steady(*slim)
    with fault_at("legs", "turning"):
        speeds = speed_band(blank.swing * mm)
        steps = _steps(profile, left, speeds, float(legs.square or 0))
    whirling, screen = _of_wood(profile, top, lean, wood, legs.loads, mm)
    diameters = Diameters(profile.largest_diameter, profile.diameter_at(profile.length), profile.diameter_at(0.0))
    return TurnedLeg(
        profile=profile,
        top=top,
        diameters=Diameters(legs.round.largest, legs.round.foot, legs.round.tenon) if legs.round else diameters,
        allowances=left,
        wood=wood,
        loads=legs.loads,
        blank=blank,
        plies=plies,
        steps=steps,
        speeds=speeds,
        rim_speed=float(rim_speed(blank.swing * mm, speeds.roughing_rpm)),
        slenderness=float(slenderness(*slim)),
        steady=needs_steady,
        mass_kg=profile.volume * mm**3 * 1e-9 * wood.density_kg_m3 if wood else 0.0,
        whirling_rpm=whirling,
        screen=screen,
    )


def _blank(
    legs: Legs, left: Turning, profile: Profile, lean: Lean, cut: EndCut | None, drilled: SeatLeg | None
) -> Blank:
    """The stick it is turned from: with what both level cuts reach past the axis, and the waste."""
    squared = any(element.square for element in profile.elements)
    of_square = (float(cut.blank_length) - float(cut.axis_length)) / 2 if cut else 0.0
    at_head = (drilled.seat_lean if drilled else lean).total_lean_deg
    with fault_at("legs", "lean"):
        at_top = of_square if cut else end_extra(profile.diameter_at(0.0), at_head, profile.mirrored().end_taper)
        at_foot = of_square
        if not cut or profile.elements[-1].shape != "square":
            at_foot = end_extra(profile.diameter_at(profile.length), lean.total_lean_deg, profile.end_taper)
    # what is left square is planed beforehand, and nothing beside it can be turned thicker
    with fault_at("legs", "turning"):
        return turning_blank(
            profile.length,
            profile.largest_diameter,
            roughing=0.0 if squared else float(left.roughing or 0),
            centring=0.0 if squared else float(left.centring or 0),
            top_extra=at_top,
            foot_extra=at_foot,
            top_waste=float(left.waste or 0),
            foot_waste=float(left.waste or 0),
            kerf=float(left.kerf or 0),
            square=float(legs.square or 0),
        )


def _steps(profile: Profile, left: Turning, speeds: SpeedBand, square: float) -> tuple[LatheStep, ...]:
    """What is done at the lathe, in order."""
    ends = zip(pairwise(profile.joints), profile.elements, strict=True)
    squares = [span for span, element in ends if element.shape == "square" and element.length]
    below = [element.end_diameter for element in profile.elements if element.shape in ("shoulder", "lamb's tongue")]
    rough = max(profile.largest_diameter, *below, 0.0) + 2 * float(left.roughing or 0)
    return lathe_steps(
        [station.distance for station in profile.stations],
        [station.diameter for station in profile.stations],
        min(rough, square) if square else rough,
        speeds,
        float(left.finishing or 0),
        square=square if squares else 0.0,
        square_parts=squares,
    )


def _of_wood(
    profile: Profile, top: float, lean: Lean, wood: Species | None, loads: Loads | None, mm: float
) -> tuple[float, LegScreen | None]:
    """Its whirling speed between plain centres, and its stresses under the loads; as far as the design tells."""
    if wood is None:
        return 0.0, None
    places = profile.sample(_PLACES, top)
    areas, moments = profile.section_area(places), profile.second_moment(places)
    whirling = whirling_rpm(places, moments, areas, wood.known("stiffness_mpa"), wood.density_kg_m3, mm_per_unit=mm)
    if loads is None:
        return whirling, None
    # just inside a tenon its own thickness counts, not the shoulder's
    below = places >= top * (1 - 2e-9)
    screen = leg_screen(
        lean,
        (profile.length - places[below])[::-1],
        profile.section_modulus(places[below])[::-1],
        areas[below][::-1],
        wood.known("bending_strength_mpa"),
        SPREAD["bending strength"],
        push_n=float(loads.push) * GRAVITY,
        upward_n=float(loads.upright) * GRAVITY,
        mm_per_unit=mm,
    )
    return whirling, screen
