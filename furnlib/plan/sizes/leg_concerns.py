"""What about the legs to settle before wood is cut."""

from __future__ import annotations

from collections.abc import Iterator

from furnlib.base.concern import Concern
from furnlib.base.shapes import convex_outline, inside_by
from furnlib.base.units import Unit, write_length
from furnlib.plan.design import CaseDesign, Design, SeatDesign
from furnlib.plan.sizes.legs import LegSizes, end_of
from furnlib.plan.sizes.stand import Stand
from furnlib.plan.sizes.turned_concerns import said_once, turned_concerns

_THICKER = ("take a thicker square", "turn it thinner only further down")
_SEEN_MM = 0.05  # less past an edge than this nobody sees


def leg_concerns(design: Design, stand: Stand | None, legs: tuple[LegSizes, ...]) -> tuple[Concern, ...]:
    """Collect what to settle about the legs.

    Args:
        design: the piece as settled.
        stand: what the legs stand under.
        legs: its legs.

    Returns:
        The concerns, in the order of the legs.
    """
    if stand is None:
        return ()
    if isinstance(design, SeatDesign):
        return (*_inward(legs), *_past_the_feet(design, stand, legs), *turned_concerns(legs, design.unit))
    if isinstance(design, CaseDesign):
        cut = (*said_once(_thin_wall(design, legs)), *turned_concerns(legs, design.unit))
        return (*_past_the_case(design, legs), *_leg_share(design), *_inward(legs), *cut)
    return ()


def _seen(unit: Unit) -> float:
    return _SEEN_MM if unit == "mm" else _SEEN_MM / 25.4


def _past_the_case(design: CaseDesign, legs: tuple[LegSizes, ...]) -> Iterator[Concern]:
    """Legs that stand out from under the case, at the foot or at the top."""
    unit = design.unit
    past: dict[tuple[str, str, str], list[str]] = {}
    limits = (float(design.overall.width), float(design.overall.depth))
    for leg in legs:
        for axis, edge in ((0, "side"), (1, end_of(leg.position))):
            out = leg.outward[axis]
            limit = limits[axis] if out > 0 else 0.0
            for code, corners in (("foot_past_case", leg.foot_corners), ("leg_proud_of_case", leg.top_corners)):
                over = max(out * corner[axis] for corner in corners) - limit
                if over > _seen(unit):
                    amount = write_length(over, unit, style="spoken")
                    past.setdefault((code, amount, edge), []).append(leg.position)
    for (code, amount, edge), positions in past.items():
        yield _past(code, amount, edge, positions)


def _past(code: str, amount: str, edge: str, positions: list[str]) -> Concern:
    names = " and ".join(positions)
    if code == "foot_past_case":
        return Concern(
            code,
            f"{names} foot {amount} past the {edge} edge",
            "a foot outside the case is where toes pass",
            ("lean the leg less", "move its top inward", "taper the foot"),
        )
    return Concern(
        code,
        f"{names} leg {amount} past the {edge} edge at the top",
        "the square of the leg stands out from under the case",
        ("move the leg inward", "take a thinner square"),
    )


def _leg_share(design: CaseDesign) -> Iterator[Concern]:
    share = float(design.overall.height / design.legs.height) if design.legs else 6.0
    if not 6 <= share <= 10:
        yield Concern(
            "leg_share",
            f"legs 1 : {share:.1f} of the height",
            "cases usually stand on legs of 1 : 6 to 1 : 10 of their height; this is a choice, not a fault",
            ("look at the outline again", "keep it and say why in the log"),
        )


def _inward(legs: tuple[LegSizes, ...]) -> Iterator[Concern]:
    """Feet that stand closer together than the tops: allowed, and said."""
    for leg in legs:
        for name, angle in (("rake", leg.lean.rake_deg), ("splay", leg.lean.splay_deg)):
            has_a_side = leg.position != "middle" if name == "rake" else " " in leg.position
            if angle < 0 and has_a_side:
                yield Concern(
                    "leans_inward",
                    f"{leg.position} leg, {name} {angle:.4g}°",
                    "its foot stands further in than its top, and the stance is the smaller for it",
                    ("lean it outward (above 0)", "keep it and check how the piece stands"),
                )


def _past_the_feet(design: SeatDesign, stand: Stand, legs: tuple[LegSizes, ...]) -> Iterator[Concern]:
    """How far the seat reaches past the line round its feet."""
    if len(legs) < 3:
        yield Concern(
            "too_few_legs",
            f"{len(legs)} {'leg' if len(legs) == 1 else 'legs'} under a seat",
            "it does not stand by itself",
            ("give it three legs or four",),
        )
        return
    feet = convex_outline([leg.foot for leg in legs])
    past, _ = min((inside_by(feet, corner), corner) for corner in stand.outline)
    if -past > _seen(design.unit):
        other_seat = ("take a round or a D-shaped seat",) if design.seat.outline == "rectangle" else ()
        more_legs = ("stand it on four legs",) if len(legs) < 4 else ()
        yield Concern(
            "seat_past_feet",
            f"edge of the seat {write_length(-past, design.unit, style='spoken')} outside the line of the feet",
            "a weight put there tips it",
            ("lean the legs further out", *other_seat, *more_legs),
        )


def _thin_wall(design: CaseDesign, legs: tuple[LegSizes, ...]) -> Iterator[tuple[str, str, str, str, tuple[str, ...]]]:
    """Screws that leave less wood than the design wants, with the position of each leg."""
    screw = design.legs.fixing if design.legs else None
    for leg in legs:
        if screw and leg.fixing and leg.fixing.wall < screw.wall:
            left = write_length(abs(leg.fixing.wall), design.unit, style="spoken")
            at_neck = leg.fixing.wall == leg.fixing.wall_neck
            where = "where the leg is turned thinner" if at_neck else "at its tip"
            yield (
                leg.position,
                "screw_wall",
                f"screw {write_length(screw.depth, design.unit, style='spoken')} deep",
                f"driven square to the case it leaves {left} of wood {where}"
                if leg.fixing.wall > 0
                else f"driven square to the case it comes out of the leg by {left}" + (f", {where}" if at_neck else ""),
                ("take a shorter screw", "drill along the leg", _THICKER[at_neck]),
            )
