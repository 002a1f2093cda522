"""What each drawer rides on: a runner carries it, a kicker holds it down, a guide keeps it straight, a stop ends it.

One of them missing is seen only when the drawer is opened, and then it costs strips glued in at the end.
So it is asked here, for each drawer, with the number that it costs and the usual cures.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import inf

from furnlib.base.angles import Value
from furnlib.base.concern import Concern
from furnlib.base.guards import require_between
from furnlib.base.units import MM_IN, Unit, write_length
from furnlib.trade.drawer.play import held_turn_deg, moved_across

KICKER_WITHIN_MM = 40
"""What is further above a drawer's side than this holds nothing down."""

KICKER_GAP_MM = Fraction(3, 2)
"""The gap that a strip glued in as a kicker leaves."""

GUIDE_GAP_MM = 5
"""A longer break in a guide catches a rear corner: common practice, no source."""


@dataclass(frozen=True)
class Riding:
    """What a drawer rides on and between.

    Args:
        runner: True where something carries it along both sides.
        kicker: room from its sides up to what is above them, any length unit; None where nothing is near
            enough to matter.
        guide: True where something keeps it straight on both sides.
        stop: True where something ends its way in, and so brings the front to its place.
        guide_gap: the longest break in a guide, in the same unit, 0 where it runs through.
    """

    runner: bool
    kicker: Value | None
    guide: bool
    stop: bool
    guide_gap: Value = 0


def lacks(
    riding: Riding, height: Value, still_inside: Value, pulled_out: Value, unit: Unit = "mm"
) -> tuple[Concern, ...]:
    """Say what a drawer rides badly without.

    Args:
        riding: what is there.
        height: of the drawer's side, above 0, in the unit.
        still_inside: when it is opened as far as it is used, 0 or more, in the unit.
        pulled_out: from shut, at the same time, in the unit.
        unit: mm or in.

    Returns:
        What is missing, in the order runner, guide, kicker, stop; nothing where all is there.

    Raises:
        DesignError: when room or break is below 0, or nothing is above the drawer and its height is not above 0.

    Source:
        Common practice, no source; the fall is derived in `teach.derive.derive_droop`.

    Example:
        >>> top = Riding(runner=True, kicker=None, guide=True, stop=True)
        >>> (lack,) = lacks(top, 80, 120, 240)
        >>> lack.number, lack.reason
        ('nothing above it within 40', 'pulled out 240, the front drops 92.3 or more')
        >>> lack.cures[0]
        'fit a kicker: with a gap of 1.5 the front drops 3'
    """
    for name, size in (("room up to a kicker", riding.kicker), ("break in a guide", riding.guide_gap)):
        require_between(name, 0 if size in (None, inf) else size, 0, inf, "measure it again", ends=True)
    return tuple(_lacks(riding, height, still_inside, pulled_out, unit))


def _lacks(riding: Riding, height: Value, inside: Value, out: Value, unit: Unit) -> Iterator[Concern]:
    def said(length: Value) -> str:
        return write_length(length, unit)

    def nod(gap: Value, or_more: str = "") -> str:
        angle, free = held_turn_deg(height, gap, inside)
        return "it tips out" if free else f"the front drops {said(moved_across(out, angle))}{or_more}"

    within, gap, broken = (Fraction(mm) / MM_IN[unit] for mm in (KICKER_WITHIN_MM, KICKER_GAP_MM, GUIDE_GAP_MM))
    if not riding.runner:
        cures = "fit a runner on each side", "groove the sides and hang them on strips"
        yield Concern("no_runner", "no runner", "nothing carries the drawer along its sides", cures)
    if not riding.guide:
        number = "a runner without a guide" if riding.runner else "no guide"
        cures = "glue a strip beside each side, on the runner", "groove the sides and hang them on strips"
        yield Concern("no_guide", number, "nothing keeps the drawer straight, so that it racks and binds", cures)
    elif riding.guide_gap > broken:
        number = f"a break of {said(riding.guide_gap)} in the guide, at most {said(broken)}"
        cures = "fill the break with a strip", "chamfer the rear corners"
        yield Concern("guide_broken", number, "it catches a rear corner of the drawer", cures)
    if riding.kicker is None or riding.kicker > within:
        fall = nod(within, " or more") if riding.kicker is None else nod(riding.kicker)
        cures = f"fit a kicker: with a gap of {said(gap)} {nod(gap)}", "open it less far, against a stop"
        yield Concern("no_kicker", f"nothing above it within {said(within)}", f"pulled out {said(out)}, {fall}", cures)
    if not riding.stop:
        reason = "the front goes in as far as the back of the case lets it, and the case moves with the seasons"
        cures = "glue stops on the runner or divider, behind the front", "let the front lap over the case"
        yield Concern("no_stop", "no stop", reason, cures)


def stop_place(front_thickness: Value, setback: Value) -> Value:
    """Where a stop meets the back of the front: setback + front thickness behind the case's face.

    When the case shrinks by a share of its depth, the front comes out by that share of this distance: next
    to nothing from a stop at the front, all that the case loses from one at the back.

    Args:
        front_thickness: of the drawer's front, any length unit; number, array or symbol.
        setback: how far the front stands back from the case's face, in the same unit.

    Returns:
        The distance from the case's face back to the stop, in the same unit.

    Source:
        Common practice, no source.

    Example:
        >>> stop_place(20, 0)
        20
    """
    return setback + front_thickness
