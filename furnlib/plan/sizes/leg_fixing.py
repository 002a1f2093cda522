"""What holds a leg under its case: the screw, the neck it must miss, the pin beside it."""

from __future__ import annotations

from typing import Any

from furnlib.base.angles import tand
from furnlib.base.guards import DesignError, fault_at
from furnlib.base.units import Unit, write_length
from furnlib.plan.design_legs import CaseLegs, Legs, ScrewFixing
from furnlib.plan.sizes.profile import top_is_square
from furnlib.plan.sizes.turned import TurnedLeg
from furnlib.trade.case.fixing import Fixing, LocationPin, location_pin, screw_fixing
from furnlib.trade.leg.end_cut import face_slopes
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.turning import Profile

_PLACES = 6000  # of a turned leg, at which the wood round its screw is looked at


def leg_fixing(
    legs: Legs, lean: Lean, height: float, turned: TurnedLeg | None, unit: Unit
) -> tuple[Fixing | None, LocationPin | None]:
    """What the screw of a case's leg leaves, and where the pin stands.

    Args:
        legs: the legs of the design.
        lean: the leg's direction.
        height: floor to the underside, in the piece's unit.
        turned: the leg's profile, where it is turned; its thin places count as far as the screw reaches.
        unit: of the piece.

    Returns:
        The fixing and the pin; nothing where the design has no screw.

    Raises:
        DesignError: when screw or pin do not fit into the leg.
    """
    if not isinstance(legs, CaseLegs) or legs.fixing is None:
        return None, None
    screw, is_round = legs.fixing, not top_is_square(legs)
    across = turned.profile.diameter_at(0.0) if turned and is_round else float(legs.square or 0)
    slopes = None if is_round else face_slopes(lean.tan_rake, lean.tan_splay, legs.orientation)
    with fault_at("legs", "fixing", "pin depth"):
        if screw.pin_depth >= height:
            raise DesignError(
                f"The pin goes {write_length(screw.pin_depth, unit)} deep into a leg"
                f" {write_length(height, unit)} high; it must end inside: take a shorter pin."
            )
    with fault_at("legs", "fixing"):
        hole, wall, depth = float(screw.diameter), float(screw.wall), float(screw.depth)
        necks = _necks(turned.profile, lean.axis_length(depth)) if turned else None
        fixing = screw_fixing(
            lean, across, depth, hole, wall, slopes=slopes, is_round=is_round, neck=necks, height=height
        )
        pin = location_pin(
            lean, across, hole, float(screw.pin_depth), float(screw.pin), wall, slopes=slopes, is_round=is_round
        )
    if turned and not is_round:
        with fault_at("legs", "fixing", "pin depth"):
            _require_wood_round(pin, screw, lean, turned.profile, unit)
    return Fixing(*map(_least, vars(fixing).values())), pin


def _require_wood_round(pin: LocationPin, screw: ScrewFixing, lean: Lean, profile: Profile, unit: Unit) -> None:
    """Refuse a pin that reaches past a square and leaves too little of the round below, at its thinnest."""
    slope, along, tip = tand(lean.total_lean_deg), lean.axis_length(1.0), float(screw.pin_depth)
    depth = profile.elements[0].length / along
    if tip > depth:
        thin = profile.least_diameter_between(0.0, tip * along)[1]
        off = max(abs(float(pin.pin_offset) - at * slope) for at in (depth, tip))
        left = thin / 2 - (off + float(screw.pin) / 2) / along
        if left < screw.wall:
            raise DesignError(
                f"The pin reaches past the square to where the leg is {write_length(thin, unit)} thick, and may leave"
                f" {write_length(left, unit)} of wood there: take a shorter pin, or leave the square longer."
            )


def _necks(profile: Profile, reach: float) -> tuple[Any, Any]:
    """Where a screw finds less wood than at the top: all places below a square, the one at its tip among them."""
    top = profile.elements[0]
    first = top.length if top.shape == "square" else 1e-9 * profile.length
    places = profile.sample(_PLACES, min(reach * (1 - 1e-9), profile.length))
    places = places[places >= first]
    return places, profile.diameter_at(places)


def _least(value: Any) -> float:
    """The worst of all places looked at."""
    return value if isinstance(value, float) else float(value.min())
