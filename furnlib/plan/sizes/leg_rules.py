"""Every size of the legs with its rule: the formula with the numbers that went into it."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

from furnlib.base.units import Unit, write_angle, write_length
from furnlib.plan.design import CaseDesign, Design, Seat, SeatDesign
from furnlib.plan.design_legs import CaseLegs, LeanNames, Legs, ScrewFixing
from furnlib.plan.sizes.leg_scatter import NINE_OF_TEN
from furnlib.plan.sizes.legs import (
    BLOCK_LENGTH,
    GAUGE_HEIGHT,
    NEIGHBOURS,
    REMEMBERED,
    LegSizes,
    length_slip,
)
from furnlib.plan.sizes.rules import LegRules
from furnlib.plan.sizes.size import Size
from furnlib.plan.sizes.turned_rules import spares, turned_rules
from furnlib.trade.leg.cradle import Cradle
from furnlib.trade.leg.end_cut import EndCut, Orientation
from furnlib.trade.leg.rocking import rocking_scatter
from furnlib.trade.leg.seat import SeatLeg
from furnlib.trade.leg.setting_error import foot_slip

_SLIPS = ("total lean", "sight line")
_ROUND = ("front left", "front right", "rear right", "rear left")


def leg_rules(design: Design, legs: tuple[LegSizes, ...]) -> tuple[Size, ...]:
    """Every derived size of every leg, with its rule.

    Args:
        design: the piece as settled.
        legs: its legs.

    Returns:
        The sizes, leg by leg, then those between the feet.
    """
    settled = design.legs if isinstance(design, CaseDesign | SeatDesign) else None
    if settled is None:
        return ()
    seat = design.seat if isinstance(design, SeatDesign) else None
    screw = settled.fixing if isinstance(settled, CaseLegs) else None
    sizes: list[Size] = []
    for leg in legs:
        # a leg and its mirror image have one lean between them, and their rules are the same sums
        first = next(one for one in legs if one.lean is leg.lean)
        sizes += _under_its_name(leg, first, settled.lean[leg.position], design.unit, seat, screw)
    return (*sizes, *spares(legs), *_feet_apart(legs, design.unit), *_rocking(legs, settled, design.unit))


@lru_cache(REMEMBERED)
def _under_its_name(leg: LegSizes, first: LegSizes, *settled: Any) -> tuple[Size, ...]:
    """The sizes of one leg."""
    return tuple(_of_leg(first, *settled).of(leg.position))


@lru_cache(REMEMBERED)
def _of_leg(leg: LegSizes, names: LeanNames, unit: Unit, seat: Seat | None, screw: ScrewFixing | None) -> LegRules:
    """All of one leg and of its mirror image."""
    rules = LegRules(unit)
    _lean(rules, leg, names)
    if leg.drilling and seat:
        _drilling(rules, leg.drilling, seat)
    if leg.end_cut:
        _end_cut(rules, leg, leg.end_cut)
    if leg.cradle:
        _cradle(rules, leg, leg.cradle)
    if leg.turned:
        turned_rules(rules, leg, leg.turned)
    _slips(rules, leg)
    _fixing(rules, leg, screw)
    return rules


def _lean(rules: LegRules, leg: LegSizes, names: LeanNames) -> None:
    """The four names of the lean, the axis and the foot runs."""
    unit, run, gauge_run = rules.unit, leg.foot_run, leg.gauge_run
    r, s = write_angle(leg.lean.rake_deg, 2), write_angle(leg.lean.splay_deg, 2)
    total, sight = write_angle(leg.lean.total_lean_deg, 2), write_angle(leg.lean.sight_line_deg, 2)
    for name, value, rule in (
        ("rake", leg.lean.rake_deg, f"atan(tan {total} x cos {sight})"),
        ("splay", leg.lean.splay_deg, f"atan(tan {total} x sin {sight})"),
        ("total_lean", leg.lean.total_lean_deg, f"atan sqrt(tan² {r} + tan² {s})"),
        ("sight_line", leg.lean.sight_line_deg, f"atan2(tan {s}, tan {r})"),
    ):
        given = getattr(names, name) is not None
        rules.angle(name.replace("_", " "), value, "" if given else rule, f"lean.{name}")
    h, gauge = write_length(leg.height, unit), write_length(GAUGE_HEIGHT[unit], unit)
    rules.length("axis length", leg.axis_length, f"{h} / cos {total}", "lean.axis_length")
    rules.length("foot run fore and aft", run.fore_aft, f"{h} x tan {r}", "lean.foot_run")
    rules.length("foot run sideways", run.sideways, f"{h} x tan {s}", "lean.foot_run")
    rules.length("foot run along the sight line", run.plan, f"{h} x tan {total}", "lean.foot_run")
    rules.length(f"run on {gauge}, from the side", gauge_run.fore_aft, f"{gauge} x tan {r}", "lean.foot_run")
    rules.length(f"run on {gauge}, from the front", gauge_run.sideways, f"{gauge} x tan {s}", "lean.foot_run")
    rules.length(f"run on {gauge}, along the sight line", gauge_run.plan, f"{gauge} x tan {total}", "lean.foot_run")


def _drilling(rules: LegRules, drilling: SeatLeg, seat: Seat) -> None:
    """What to drill, from the seat's own surface and square line."""
    lean, tilts = drilling.seat_lean, drilling.tilts
    r, s = write_angle(lean.rake_deg, 2), write_angle(lean.splay_deg, 2)
    room_r, room_s = write_angle(drilling.lean.rake_deg, 2), write_angle(drilling.lean.splay_deg, 2)
    pitch, total = write_angle(abs(seat.pitch), 2), write_angle(lean.total_lean_deg, 2)
    sign = "-" if lean.rake_deg <= drilling.lean.rake_deg else "+"
    thick = write_length(seat.thickness, rules.unit)
    rules.angle("drill rake", lean.rake_deg, f"{room_r} {sign} {pitch}", "seat.drill_rake")
    rules.angle("drill splay", lean.splay_deg, f"atan(tan {room_s} x cos {room_r} / cos {r})", "seat.drill_splay")
    rules.angle("drill total lean", lean.total_lean_deg, f"atan sqrt(tan² {r} + tan² {s})", "lean.total_lean")
    rules.angle("drill sight line", lean.sight_line_deg, f"atan2(tan {s}, tan {r})", "lean.sight_line")
    rules.length("length inside the seat", drilling.length_in_seat, f"{thick} / cos {total}", "seat.length_in_seat")
    second, first = f"atan(tan {s} x cos {r})", f"atan(tan {r} x cos {s})"
    rules.angle("first tilt, second hinge level", tilts.level_first_deg, f"drill rake {r}", "two_tilts")
    rules.angle("second tilt, second hinge level", tilts.level_second_deg, second, "two_tilts")
    rules.angle("first tilt, second hinge carried", tilts.carried_first_deg, first, "two_tilts")
    rules.angle("second tilt, second hinge carried", tilts.carried_second_deg, f"drill splay {s}", "two_tilts")


def _mitre_rules(orientation: Orientation, r: str, s: str, total: str) -> tuple[str, str]:
    """How the mitres on front and side face follow from the lean."""
    return {
        "untwisted": (f"splay {s}", f"rake {r}"),
        "front_level": (f"atan(tan {s} x cos {r})", f"atan(sin {r} / cos {total})"),
        "side_level": (f"atan(sin {s} / cos {total})", f"atan(tan {r} x cos {s})"),
        "sightline": ("0", f"total lean {total}"),
        "sightline_corner": (f"atan(tan {total} / sqrt 2)", f"atan(tan {total} / sqrt 2)"),
    }[orientation]


def _end_cut(rules: LegRules, leg: LegSizes, cut: EndCut) -> None:
    """Saw settings, blank and what a square pad shows."""
    unit, front, side = rules.unit, cut.front_down, cut.side_down
    r, s = write_angle(abs(leg.lean.rake_deg), 2), write_angle(abs(leg.lean.splay_deg), 2)
    total, w = write_angle(leg.lean.total_lean_deg, 2), write_length(leg.square or 0, unit)
    m_front, m_side = write_angle(front.mitre_deg, 2), write_angle(side.mitre_deg, 2)
    front_rule, side_rule = _mitre_rules(cut.orientation, r, s, total)
    on_front, on_side = f"asin(tan {m_side} x cos {total})", f"asin(tan {m_front} x cos {total})"
    axis = write_length(cut.axis_length, unit)
    rules.angle(f"mitre, {front.face} face down", front.mitre_deg, front_rule, "end_cut.mitre")
    rules.angle(f"tilt, {front.face} face down", front.tilt_deg, on_front, "end_cut.tilt")
    rules.angle(f"mitre, {side.face} face down", side.mitre_deg, side_rule, "end_cut.mitre")
    rules.angle(f"tilt, {side.face} face down", side.tilt_deg, on_side, "end_cut.tilt")
    blank = f"{axis} + {w} x (tan {m_side} + tan {m_front})"
    if leg.drilling:
        inside = write_length(leg.drilling.length_in_seat, unit)
        at_top = f"sqrt 2 x tan {write_angle(leg.drilling.seat_lean.total_lean_deg, 2)}"
        blank = f"{axis} + {inside} + {w} / 2 x (tan {m_side} + tan {m_front} + {at_top})"
    if not leg.turned:  # a turned one has a longer, of its own
        rules.length("blank", leg.blank, blank, "end_cut.blank", least=True)
    corner = f"asin(sin {m_front} x sin {m_side})"
    rules.angle("corner off square under a pad", abs(cut.corner_deg), corner, "end_cut.corner")


def _cradle(rules: LegRules, leg: LegSizes, made: Cradle) -> None:
    """The wedge that holds a turned leg at the saw."""
    total, off = write_angle(leg.lean.total_lean_deg, 2), write_angle(made.off_vee_deg, 2)
    block = write_length(BLOCK_LENGTH[rules.unit], rules.unit)
    wedge = write_angle(made.wedge_deg, 2)
    rules.angle("wedge of the cradle, foot low", made.wedge_deg, f"{total} - {off} taper in the V", "cradle.off_vee")
    rules.length(f"rise of the wedge over {block}", made.rise, f"{block} x sin {wedge}", "cradle.off_vee")


def _slips(rules: LegRules, leg: LegSizes) -> None:
    """What one slip of each setting does at the foot."""
    slips = leg.slips
    if leg.drilling and leg.drilling.seat_lean.rake_deg != leg.lean.rake_deg:
        for angle, step, of in zip((slips.total_lean, slips.sight_line), leg.ring, _SLIPS, strict=True):
            moved = math.hypot(*step) / NINE_OF_TEN
            rules.length(
                f"foot for {angle:g}° of {of} at the drill", moved, "turned with the seat before it reaches the floor",
                "setting_error.along",
            )  # fmt: skip
        return
    length = float(length_slip(slips, rules.unit))
    slip = foot_slip(leg.lean, float(leg.height), slips.total_lean, slips.sight_line, length)
    h, total = write_length(leg.height, rules.unit), write_angle(leg.lean.total_lean_deg, 2)
    tilted, turned = f"{slips.total_lean:g}°", f"{slips.sight_line:g}°"
    for way, moved, rule, key in (
        (f"along the sight line for {tilted} of total lean", slip.along, f"arc {tilted} / cos² {total}", "along"),
        (f"across the sight line for {turned} of sight line", slip.across, f"tan {total} x arc {turned}", "across"),
        (f"up for {tilted} of total lean, leg of fixed length", slip.rise, f"tan {total} x arc {tilted}", "rise"),
    ):
        rules.length(f"foot {way}", moved, f"{h} x {rule}", f"setting_error.{key}")


def _fixing(rules: LegRules, leg: LegSizes, screw: ScrewFixing | None) -> None:
    """What the screw leaves of the leg."""
    if screw is None or leg.fixing is None or leg.pin is None:
        return
    d, total = write_length(screw.depth, rules.unit), write_angle(leg.lean.total_lean_deg, 2)
    wide, wall = write_length(screw.diameter, rules.unit), write_length(screw.wall, rules.unit)
    across = leg.square or (leg.turned.profile.diameter_at(0.0) if leg.turned else 0)
    half = write_length(across / 2, rules.unit)
    rules.length("wander of the screw's tip", leg.fixing.wander, f"{d} x tan {total}", "fixing.wander")
    for face, left, mitre in (
        ("front or back", leg.fixing.wall_front, leg.end_cut.front_down.tilt_deg if leg.end_cut else None),
        ("side", leg.fixing.wall_side, leg.end_cut.side_down.tilt_deg if leg.end_cut else None),
    ):
        t = write_angle(leg.lean.total_lean_deg if mitre is None else mitre, 2)
        rule = f"{half} - {d} x sin {t} - {wide} / 2 x cos {t}"
        rules.length(f"wall left at the tip, {face} face", left, rule, "fixing.wall")
    if leg.turned and math.isfinite(leg.fixing.wall_neck):
        reach = min(leg.lean.axis_length(float(screw.depth)), leg.turned.profile.length)
        thin = write_length(leg.turned.profile.least_diameter_between(0.0, reach)[1], rules.unit)
        rule = f"{thin} / 2 - {d} x sin {total} - {wide} / 2 x cos {total}"
        rules.length("wall left where it is turned thinnest", leg.fixing.wall_neck, rule, "fixing.wall")
    if leg.lean.total_lean_deg:
        rules.length("deepest screw", leg.fixing.deepest, f"the depth that leaves {wall}", "fixing.wall")
    midway = "midway in the room it has outward of the screw"
    rules.length("pin from the screw, along the sight line", leg.pin.pin_offset, midway, "fixing.wall")


def _feet_apart(legs: tuple[LegSizes, ...], unit: Unit) -> tuple[Size, ...]:
    """Distances between the axes of neighbouring feet, to check the stance on the floor."""
    placed = {leg.position: leg for leg in legs}
    sizes = []
    for first, second, axis in NEIGHBOURS:
        if first in placed and second in placed:
            a, b = placed[first], placed[second]
            apart, tops = abs(b.foot[axis] - a.foot[axis]), abs(b.top[axis] - a.top[axis])
            runs = [(a.foot_run, b.foot_run)[i][1 - axis] for i in (0, 1)]
            rule = " + ".join(write_length(x, unit) for x in (tops, *runs))
            rule = f"{write_length(apart, unit)} = {rule.replace('+ -', '- ')}"
            way = ("" if axis == 0 else ", front to back") if {first, second} & {"front", "rear"} else ""
            sizes.append(Size(f"{first} foot to {second} foot{way}", apart, unit, rule, "lean.foot_run"))
    return tuple(sizes)


def _rocking(legs: tuple[LegSizes, ...], settled: Legs, unit: Unit) -> tuple[Size, ...]:
    """Daylight under one of four feet, for legs of fixed length that slip each for itself."""
    placed = {leg.position: leg for leg in legs}
    if set(placed) != set(_ROUND):
        return ()
    four = [placed[position] for position in _ROUND]  # type: ignore[index]
    length = length_slip(settled.slips, unit)
    daylight = float(max(rocking_scatter([leg.foot for leg in four], [leg.rise_scatter for leg in four])))
    angle = f"{settled.slips.total_lean:g}°"
    rule = (
        f"{write_length(daylight, unit)} = from slips of {angle} at each leg and {write_length(length, unit)} in length"
    )
    return (Size("daylight under one foot, two times out of three at most", daylight, unit, rule, "rocking.scatter"),)
