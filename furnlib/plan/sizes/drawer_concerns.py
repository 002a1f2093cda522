"""What to settle before the wood of the drawers is cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from furnlib.base.concern import Concern
from furnlib.base.guards import fault_at
from furnlib.base.units import MM_IN, Unit, write_gap, write_length
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_drawer import Drawers
from furnlib.plan.sizes.drawer_corner import DrawerCorner
from furnlib.plan.sizes.drawer_fit import OPENED
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.plan.sizes.season import Season
from furnlib.trade.drawer.dovetail import weak_places
from furnlib.trade.drawer.gaps import back_room
from furnlib.trade.drawer.racking import jam
from furnlib.trade.drawer.riding import Riding, lacks

BACK_ROOM_MM = 5
"""What must stay free behind a drawer at the driest: common practice, no source."""


def drawer_concerns(design: CaseDesign, season: Season | None, drawers: tuple[DrawerSizes, ...]) -> tuple[Concern, ...]:
    """Say what the drawers lack, where they bind, and where a corner is weak; alike concerns of several rows once.

    Args:
        design: the piece as settled.
        season: the year of its wood.
        drawers: of every row.

    Returns:
        The concerns, in the order of the drawers.
    """
    settled = design.drawers
    if settled is None or season is None:
        return ()
    found: dict[Concern, list[str]] = {}
    for drawer in drawers:
        for concern in _of_drawer(design, settled, season, drawer):
            found.setdefault(concern, []).append(drawer.name)
    of_case = [_back_room(design, settled, season)]
    named = (_named(concern, rows, len(drawers)) for concern, rows in found.items())
    return (*(concern for concern in of_case if concern), *named)


def _named(concern: Concern, rows: list[str], all_rows: int) -> Concern:
    """The concern with the rows it holds for."""
    where = "every row" if len(rows) == all_rows and all_rows > 1 else ", ".join(dict.fromkeys(rows))
    return Concern(concern.code, f"{where}: {concern.number}", concern.reason, concern.cures)


def _of_drawer(design: CaseDesign, settled: Drawers, season: Season, drawer: DrawerSizes) -> Iterator[Concern]:
    unit = design.unit
    riding, sides, front = settled.riding, drawer.fit.side_gaps, drawer.fit.front_gaps
    strip = None if drawer.row in riding.no_kicker else riding.kicker
    over = sides.now if strip is None else min(sides.now, float(strip))
    yield from _binding(design, "side", over, sides.now - sides.damp, season)
    if front:
        yield from _binding(design, "front", front.now, front.now - front.damp, season)
    if drawer.fit.between and drawer.fit.between.damp < 0:
        now, damp = (write_gap(gap, unit) for gap in (drawer.fit.between.now, drawer.fit.between.damp))
        yield Concern(
            "fronts_meet",
            f"{now} between this front and the one above it",
            f"at {season.damp:.3g} % {damp} is left: they push each other",
            ("give less overlay", "take quarter-sawn wood for the fronts"),
        )
    slides = riding.carried == "slides"  # they carry, hold down and guide
    there = Riding(
        runner=slides or drawer.row not in riding.no_runner,
        kicker=Fraction(drawer.fit.play).limit_denominator(1000),
        guide=slides or drawer.row not in riding.no_guide,
        stop=drawer.row not in riding.no_stop,
        guide_gap=0 if slides else riding.guide_gap,
    )
    out = float(drawer.fit.length * OPENED[0])
    height = float(drawer.side_height.value)
    yield from lacks(there, height, float(drawer.fit.length) - out, out, unit)
    if drawer.dovetails:
        yield from _weak(settled, drawer.dovetails, unit)
    yield from _low(settled, drawer, unit)
    if settled.bottom.kind == "solid":
        yield from _bottom(settled, season, drawer, unit)
    if drawer.patterns:
        yield from _pulled(design, settled, drawer)


def _weak(settled: Drawers, corner: DrawerCorner, unit: Unit) -> Iterator[Concern]:
    """What breaks or shows at the corners, front and back."""
    tails, thick = settled.corner.tails, settled.side.thickness
    lap = settled.corner.lap if settled.corner.joint == "half-blind" else None
    chisel = tails.pin if tails else None
    yield from weak_places(corner.front, thick, lap, chisel, unit)
    for weak in weak_places(corner.back, thick, None, chisel, unit) if corner.back else ():
        yield replace(weak, number=f"at the back, {weak.number}")
    if corner.groove.plug:
        wide, deep, long = (write_length(size, unit) for size in corner.groove.plug)
        face = "face" if corner.groove.where == "in a tail" else "end"
        yield Concern(
            "groove_shows",
            f"the bottom's groove comes out {corner.groove.where}",
            f"it leaves a hole {wide} by {deep} in the {face} of the front",
            (f"glue in a plug {long} long", "move the groove", "stop the groove short"),
        )


def _low(settled: Drawers, drawer: DrawerSizes, unit: Unit) -> Iterator[Concern]:
    """Sides and backs that are hardly there."""
    for name, thick in (("side", settled.side.thickness), ("back", settled.back.thickness)):
        high = Fraction(drawer.part(name).width.value)
        if high < thick:
            yield Concern(
                f"low_{name}",
                f"a {name} {write_length(high, unit)} high and {write_length(thick, unit)} thick",
                "it is lower than it is thick and holds no joint",
                ("make the opening taller", "put the groove lower, or drop the back less"),
            )


def _bottom(settled: Drawers, season: Season, drawer: DrawerSizes, unit: Unit) -> Iterator[Concern]:
    """What a solid bottom does to the back, from its groove in the front on."""
    wood, deep = season.woods["bottom"], float(drawer.part("bottom").width.value)
    room = float(settled.back_gap + settled.back.tail - settled.bottom.overhang)
    grown, drawn = deep * (wood.damp - 1), deep * (1 - wood.dry)
    if grown > room:
        yield Concern(
            "bottom_pushes",
            f"at {season.damp:.3g} % the bottom is {write_length(grown, unit)} longer to the back",
            f"there is room for {write_length(room, unit)}; it meets the back of the case and pushes the front out",
            ("leave more back room", "take quarter-sawn wood or a sheet for the bottom"),
        )
    held = float(settled.back.thickness + settled.bottom.overhang)
    if drawn > held / 2:
        yield Concern(
            "bottom_drops",
            f"at {season.dry:.3g} % the bottom is {write_length(drawn, unit)} shorter to the back",
            f"of {write_length(held, unit)} under the back less than half is left, and its screw tears out",
            ("let it reach further behind the back", "take quarter-sawn wood or a sheet for the bottom"),
        )


def _binding(design: CaseDesign, what: str, now: float, grown: float, season: Season) -> Iterator[Concern]:
    if grown > now + 1e-6:  # what a float adds in its last digits binds nothing
        unit = design.unit
        leave = write_length(Fraction(grown).limit_denominator(10000), unit, round_up=True)
        yield Concern(
            f"{what}_binds",
            f"at {season.damp:.3g} % the {what} is {write_length(grown, unit)} taller",
            f"today's gap of {write_length(now, unit)} closes and the drawer sticks",
            (f"leave {leave} or more today", f"take quarter-sawn wood for the {what}", "make the opening taller"),
        )


def _back_room(design: CaseDesign, settled: Drawers, season: Season) -> Concern | None:
    """The room behind the drawers against what the case loses of its depth."""
    least = Fraction(BACK_ROOM_MM) / MM_IN[design.unit]
    needed = back_room(float(design.overall.depth), max(0.0, 1 - season.woods["case"].dry), float(least))
    if settled.riding.carried == "slides" or float(settled.back_gap) >= needed:
        return None
    unit = design.unit
    return Concern(
        "back_room",
        f"back room of {write_length(settled.back_gap, unit)}",
        "when the case shrinks in depth the drawers touch its back and their fronts stand out",
        (f"leave {write_length(needed, unit, round_up=True)}", "shorten the sides"),
    )


def _pulled(design: CaseDesign, settled: Drawers, drawer: DrawerSizes) -> Iterator[Concern]:
    """Where a pull reaches past its front, and where one alone binds before the drawer is two thirds out."""
    unit, over_edge = design.unit, -min(pattern.edge_room for pattern in drawer.patterns)
    if over_edge > 0:
        yield Concern(
            "pull_over_edge",
            f"the foot of a pull {write_length(over_edge, unit)} past the edge of its front",
            "it strikes the case or the next front",
            ("move the pull in", "take a pull with a smaller foot"),
        )
    if settled.riding.carried == "slides":
        return
    offsets = max((pattern.off_middle for pattern in drawer.patterns), key=max)
    with fault_at("drawers", "riding", "friction"):
        found = jam(float(drawer.part("front").length.value), map(float, offsets), float(settled.riding.friction))
    left_inside = float(drawer.fit.length * (1 - OPENED[0]))
    if found.one_pull > left_inside:
        yield Concern(
            "one_pull_binds",
            f"a pull {write_length(max(offsets), unit)} off the middle",
            f"pulled alone it binds with less than {write_length(found.one_pull, unit)} still inside",
            ("use both pulls", "move the pulls in", "make the drawer longer")
            if len(offsets) > 1
            else ("move the pull to the middle", "make the drawer longer"),
        )
    if found.pulled_alike > left_inside:
        yield Concern(
            "pulls_bind",
            "pulls to one side of the middle",
            f"pulled alike they bind with less than {write_length(found.pulled_alike, unit)} still inside",
            ("set them evenly about the middle", "make the drawer longer"),
        )
