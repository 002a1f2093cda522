"""Mortises inside a seat: none breaks out at its edge, no two meet."""

from __future__ import annotations

from furnlib.base.angles import cosd, square_root
from furnlib.base.guards import DesignError, fault_at
from furnlib.base.shapes import inside_by, segments_apart
from furnlib.base.units import write_length
from furnlib.plan.design import SeatDesign
from furnlib.plan.sizes.legs import LegSizes, step_out
from furnlib.plan.sizes.stand import Stand


def require_mortises_apart(design: SeatDesign, stand: Stand, legs: tuple[LegSizes, ...]) -> None:
    """Refuse a mortise that breaks out at the edge of the seat, or two that meet inside it.

    Args:
        design: a seat on legs.
        stand: its underside.
        legs: its legs.

    Raises:
        DesignError: naming the legs, how near they come and what they need.
    """
    unit, thickness, share = design.unit, float(design.seat.thickness), cosd(design.seat.pitch)
    axes = []
    for leg in legs:
        if leg.drilling is None:
            continue
        across = float(leg.round.tenon) if leg.round else float(leg.square or 0) * square_root(2)
        run = leg.drilling.seat_lean.foot_run(thickness)
        low = (leg.top[0], leg.top[1] / share)  # on the underside, measured along the seat
        high = step_out(leg.position, low, -run.fore_aft, -run.sideways)
        radius = across / 2 * leg.drilling.length_in_seat / thickness  # of its long side in the surface
        axes.append((leg, radius, ((*low, 0.0), (*high, thickness))))
        room = min(inside_by([(x, y / share) for x, y in stand.outline], point) for point in (low, high))
        if room <= radius:
            with fault_at("legs", "mortises"):
                where = f"{write_length(abs(room), unit)} {'from' if room >= 0 else 'past'} the edge of the seat"
                raise DesignError(
                    f"The mortise of the {leg.position} leg stands {where} and its half takes"
                    f" {write_length(radius, unit)}: it breaks out; move it in or take a smaller tenon."
                )
    for number, (leg, half, axis) in enumerate(axes):
        for other, other_half, beside in axes[number + 1 :]:
            apart, needed = segments_apart(axis, beside), half + other_half
            if apart <= needed:
                with fault_at("legs", "mortises"):
                    raise DesignError(
                        f"The mortises of the {leg.position} and {other.position} legs come within"
                        f" {write_length(apart, unit)} inside the seat and meet; the least is"
                        f" {write_length(needed, unit)}: move them apart, lean the legs less or take smaller tenons."
                    )
