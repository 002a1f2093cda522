"""How a maker's slips scatter the foot of a leg on the floor, and the height at which it ends."""

from __future__ import annotations

from furnlib.base.angles import square_root, tand
from furnlib.base.guards import require_between
from furnlib.plan.design_legs import Slips
from furnlib.plan.sizes.stand import PlanPoint
from furnlib.trade.leg.lean import Lean, tan_parts
from furnlib.trade.leg.seat import End, lean_in_room
from furnlib.trade.leg.setting_error import ring_factor

NINE_OF_TEN: float = ring_factor(0.9)
"""How many standard deviations out the ring lies that holds nine out of ten."""


def leg_scatter(
    drilled: Lean, height: float, pitch_deg: float, end: End, slips: Slips, length: float
) -> tuple[tuple[PlanPoint, PlanPoint], float]:
    """Half axes of the ring, and the scatter of the height at which the leg ends where it is cut to length.

    Each is half the way from the leg that is set one slip short to the one that is set one over. The
    slips are made on the seat; a pitched seat turns them before they reach the floor.

    Args:
        drilled: the lean that is set, measured from the seat.
        height: floor to the underside, in the piece's unit.
        pitch_deg: of the seat, in degrees.
        end: which end of the piece the leg stands at.
        slips: how far the maker's own settings go astray.
        length: slip of the leg's length, in the piece's unit.

    Returns:
        Two steps, fore and aft and sideways, to the ring that holds nine feet out of ten, and the
        standard deviation of the height.
    """
    lean = lean_in_room(drilled, pitch_deg, end)
    axis, steps, rises = lean.axis_length(height), [], [length / lean.axis_length(1.0)]
    for total, sight in ((slips.total_lean, 0.0), (0.0, slips.sight_line)):
        short, over = (_slipped(drilled, way * total, way * sight, pitch_deg, end) for way in (-1, 1))
        runs = [one.foot_run(NINE_OF_TEN * height / 2) for one in (short, over)]
        fore_aft, sideways, _ = (far - near for near, far in zip(*runs, strict=True))
        steps.append((fore_aft, sideways))
        rises.append((axis / short.axis_length(1.0) - axis / over.axis_length(1.0)) / 2)
    return (steps[0], steps[1]), square_root(sum(rise * rise for rise in rises))


def _slipped(drilled: Lean, total: float, sight: float, pitch_deg: float, end: End) -> Lean:
    """The direction in the room of a leg that was set so many degrees off."""
    set_to = drilled.total_lean_deg + total
    require_between("total lean with its slip", set_to, -90, 90, "lean the leg less")
    tangents = tan_parts(tand(set_to), drilled.sight_line_deg + sight)
    return lean_in_room(Lean(*tangents), pitch_deg, end)
