"""What about turned legs to settle before wood is cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from furnlib.base.concern import Concern
from furnlib.base.units import Unit, write_length, write_number
from furnlib.plan.sizes.legs import LegSizes
from furnlib.plan.sizes.turned import TurnedLeg

_LOW_SHARE = 0.5
"""From half the low end of the strength on, what a leg is taken to meet is said; our own choice, and no rating."""
_WHIRL_SHARE = 0.5
"""Faster than half its whirling speed a leg is not turned; common practice, no source."""


def turned_concerns(legs: tuple[LegSizes, ...], unit: Unit) -> tuple[Concern, ...]:
    """Collect what to settle about the turning of the legs.

    Args:
        legs: the legs of a piece.
        unit: of the piece.

    Returns:
        The concerns, those of legs that share them said once.
    """
    return said_once((leg.position, *found) for leg in legs if leg.turned for found in _of_one(leg.turned, unit))


def said_once(found: Iterable[tuple[str, str, str, str, tuple[str, ...]]]) -> tuple[Concern, ...]:
    """Gather what is to be said of each leg, so that legs that share a concern share its sentence.

    Args:
        found: position, code, number, reason and cures.

    Returns:
        The concerns.
    """
    shared: dict[tuple[str, str, str, tuple[str, ...]], list[str]] = {}
    for position, *said in found:
        shared.setdefault(tuple(said), []).append(position)  # type: ignore[arg-type]
    return tuple(
        Concern(code, f"{' and '.join(positions)} leg, {number}", reason, cures)
        for (code, number, reason, cures), positions in shared.items()
    )


def _of_one(turned: TurnedLeg, unit: Unit) -> Iterator[tuple[str, str, str, tuple[str, ...]]]:
    profile = turned.profile
    if turned.steady != "not needed":
        thin = write_length(profile.length / turned.slenderness, unit, style="spoken")
        length = write_length(profile.length, unit, style="spoken")
        yield (
            "slim_leg",
            f"{length} long and {thin} at its thinnest, {turned.slenderness:.0f} times as much",
            "between centres it whips under the tool" if turned.steady == "needed" else "it may whip under the tool",
            ("hold its middle in a steady", "turn the thin end last", "leave it thicker"),
        )
    speed = float(turned.allowances.speed or turned.speeds.finishing_rpm)
    if 0 < turned.whirling_rpm * _WHIRL_SHARE < speed:
        yield (
            "whirling",
            f"{write_number(speed, 4)} turns a minute at the finishing cuts",
            f"between plain centres it whirls at {write_number(turned.whirling_rpm, 3)}, and hums from half of that on",
            ("turn it slower", "hold its middle in a steady", "leave it thicker"),
        )
    if turned.screen and turned.screen.low_strength_share >= _LOW_SHARE:
        up = write_length(turned.screen.distance, unit, style="spoken")
        share = f"{100 * turned.screen.low_strength_share:.0f} %"
        yield (
            "weak_leg",
            f"bent {write_number(turned.screen.bending_mpa, 2)} N/mm² at {up} from the foot",
            f"what it is taken to meet is {share} of what weak boards of its kind break at",
            ("leave it thicker there", "lean it less", "take straight-grained wood of a stronger kind"),
        )
    if turned.loads and turned.wood is None:
        yield (
            "no_wood",
            "loads without a wood",
            "nothing can be said of where it is weak",
            ("add a line 'wood:', such as white ash", "take the loads out"),
        )
    if not turned.allowances.waste:
        yield (
            "no_waste",
            "no waste beyond its ends",
            "the lathe's centres bite into the leg itself",
            ("leave waste at both ends", "fill the holes of the centres"),
        )
