"""Every size of a turned leg with its rule: the formula with the numbers that went into it."""

from __future__ import annotations

from furnlib.base.guards import fault_at
from furnlib.base.units import MM_IN, Unit, write_angle, write_length, write_number
from furnlib.plan.sizes.legs import LegSizes
from furnlib.plan.sizes.rules import LegRules
from furnlib.plan.sizes.size import Size
from furnlib.plan.sizes.turned import GRAVITY, TurnedLeg
from furnlib.trade.leg.blank import chance_of_enough, legs_to_make


def turned_rules(rules: LegRules, leg: LegSizes, turned: TurnedLeg) -> None:
    """Add the sizes of one turned leg.

    Args:
        rules: where they are collected.
        leg: the leg.
        turned: its turning.
    """
    _blank(rules, leg, turned)
    _lathe(rules, turned)
    _of_wood(rules, leg, turned)


def _blank(rules: LegRules, leg: LegSizes, turned: TurnedLeg) -> None:
    """The stick and what its ends need."""
    unit, left, blank = rules.unit, turned.allowances, turned.blank
    total = write_angle(leg.lean.total_lean_deg, 2)
    at_top = write_angle(leg.drilling.seat_lean.total_lean_deg, 2) if leg.drilling else total
    length = write_length(turned.profile.length, unit)
    if turned.top:
        rule = f"{write_length(leg.axis_length, unit)} + {write_length(turned.top, unit)} tenon"
        rules.length("length of the turning", turned.profile.length, rule, "lean.axis_length")
    if leg.end_cut:
        m_front, m_side = (write_angle(s.mitre_deg, 2) for s in (leg.end_cut.front_down, leg.end_cut.side_down))
        rule = f"{write_length(leg.square or 0, unit)} / 2 x (tan {m_side} + tan {m_front})"
        rules.length("end cut past the axis at the top", blank.top_extra, rule, "end_cut.blank")
    else:
        rule = _round_end(turned.profile.diameter_at(0.0), at_top, turned.profile.mirrored().end_taper, unit)
        rules.length("end cut past the axis at the top", blank.top_extra, rule, "blank.round_end")
    rule = _round_end(turned.profile.diameter_at(turned.profile.length), total, turned.profile.end_taper, unit)
    rules.length("end cut past the axis at the foot", blank.foot_extra, rule, "blank.round_end")
    side, largest = write_length(blank.side, unit), write_length(turned.diameters.largest, unit)
    allowed = f"{write_length(left.roughing or 0, unit)} + {write_length(left.centring or 0, unit)}"
    squared = any(element.square for element in turned.profile.elements)
    rule = "the side of its square" if squared else f"{largest} + 2 x ({allowed})"
    rules.length("side of the blank", blank.side, rule, "blank.side", least=True)
    ends = f"{write_length(blank.top_extra, unit)} + {write_length(blank.foot_extra, unit)}"
    wasted = f"{write_length(left.waste or 0, unit)} + {write_length(left.kerf or 0, unit)}"
    rules.length("length of the blank", blank.length, f"{length} + {ends} + 2 x ({wasted})", "blank.length", least=True)
    rules.length("corner swing of the blank", blank.swing, f"{side} x sqrt 2", "lathe.depth_at_corner")
    rules.length("octagon gauge", blank.octagon_gauge, f"{side} - {side} / sqrt 2", "blank.octagon_gauge")


def _round_end(diameter: float, lean: str, taper: float, unit: Unit) -> str:
    """How far a level cut reaches past the axis of a round end, and the less of it the more that thins outward."""
    reach, thins = f"{write_length(diameter, unit)} / 2 x tan {lean}", write_number(abs(taper), 4)
    return reach if thins == "0" else f"{reach} / (1 {'-' if taper > 0 else '+'} taper {thins} / 2 x tan {lean})"


def _lathe(rules: LegRules, turned: TurnedLeg) -> None:
    """Depths and speeds."""
    unit, square = rules.unit, turned.blank.side
    for step in turned.steps:
        if step.kind == "stop cut":
            at, round_size = (write_length(value, unit) for value in (step.distances[0], step.diameters[0]))
            s = write_length(square, unit)
            for name, depth, across, key in (
                ("flat", step.depth_at_flat, s, "lathe.depth_at_flat"),
                ("corner", step.depth_at_corner, f"{s} x sqrt 2", "lathe.depth_at_corner"),
            ):
                rules.length(f"stop cut at {at}, from the {name}", depth, f"({across} - {round_size}) / 2", key)
    swing = write_number(turned.blank.swing * float(MM_IN[unit]), 4)
    rpm = write_number(turned.speeds.roughing_rpm, 4)
    rules.number(
        "rim speed of the corners in m/s", turned.rim_speed, f"pi x {swing} mm x {rpm} / min", "lathe.rim_speed"
    )
    length, thin = turned.profile.length, turned.profile.length / turned.slenderness
    rule = f"{write_length(length, unit)} / {write_length(thin, unit)} at the thinnest"
    rules.number("slenderness", turned.slenderness, rule, "whirling.slenderness", 1)


def _of_wood(rules: LegRules, leg: LegSizes, turned: TurnedLeg) -> None:
    """Mass, whirling and stress, as far as the design tells the wood and the loads."""
    wood, loads, screen = turned.wood, turned.loads, turned.screen
    if wood is None:
        return
    volume = write_number(turned.profile.volume * float(MM_IN[rules.unit]) ** 3 / 1e6, 4)
    dense = f"{wood.density_kg_m3:.0f}"
    rules.number("mass in kg", turned.mass_kg, f"{volume} dm³ x {dense} kg/m³ / 1000", "turning.volume", 3)
    rule = f"first bending frequency between plain centres, {wood.name} on the average"
    rules.number("whirling speed in turns a minute", turned.whirling_rpm, rule, decimals=0)
    if loads is None or screen is None:
        return
    r = write_angle(leg.lean.total_lean_deg, 2)
    up, push = (write_number(float(load) * GRAVITY, 3) for load in (loads.upright, loads.push))
    arm = write_length(screen.distance, rules.unit)
    rule = f"{arm} x ({up} N x sin {r} + {push} N x cos {r}) over the section's modulus"
    rules.number("bending at the weakest place in N/mm²", screen.bending_mpa, rule, "strength.tenon")
    rules.number(
        "its share of the low end of the handbook's strength",
        screen.low_strength_share,
        f"{write_number(screen.bending_mpa, 3)} / strength of {wood.name} less two standard deviations",
        "strength.bending",
    )


def spares(legs: tuple[LegSizes, ...]) -> tuple[Size, ...]:
    """How many legs to turn so that enough come good.

    Args:
        legs: the legs of a piece.

    Returns:
        The size; none where no leg is turned.
    """
    turned = [leg.turned for leg in legs if leg.turned]
    if not turned:
        return ()
    good, certainty = (float(share) for share in (turned[0].allowances.good, turned[0].allowances.certainty))
    with fault_at("legs", "turning", "good"):
        make = legs_to_make(len(turned), good, certainty)
    sure = write_number(chance_of_enough(make, len(turned), good), 2)
    rule = f"{make} = least for {len(turned)} good ones, {good:g} good each: {sure} sure, {certainty:g} wanted"
    return (Size("legs to turn, spares among them", make, "", rule, "blank.spares"),)
