"""The legs: where each stands, how it leans, what saw, drill and cradle need to know."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache

from furnlib.base.angles import cosd, sind, square_root, tand
from furnlib.base.guards import DesignError, fault_at, require_between
from furnlib.base.shapes import convex_outline, inside_by
from furnlib.base.units import Unit, write_length
from furnlib.plan.design import CaseDesign, Design, Seat, SeatDesign
from furnlib.plan.design_legs import CORNERS, POSITIONS, LeanNames, Legs, Position, Slips
from furnlib.plan.sizes.leg_fixing import leg_fixing
from furnlib.plan.sizes.leg_scatter import leg_scatter
from furnlib.plan.sizes.profile import top_is_square
from furnlib.plan.sizes.stand import PlanPoint, Stand
from furnlib.plan.sizes.turned import Diameters, TurnedLeg, turned_leg
from furnlib.trade.case.fixing import Fixing, LocationPin
from furnlib.trade.leg.cradle import Cradle, cradle, lies_as
from furnlib.trade.leg.end_cut import EndCut, end_cut, level_corner
from furnlib.trade.leg.lean import FootRun, Lean
from furnlib.trade.leg.seat import End, SeatLeg, seat_leg

GAUGE_HEIGHT: dict[Unit, float] = {"mm": 100.0, "in": 10.0}
"""A bevel gauge is set from a run on this height."""
LENGTH_SLIP: dict[Unit, Fraction] = {"mm": Fraction(1, 2), "in": Fraction(1, 64)}
"""How far a leg's length is taken to go astray where the design does not say."""
BLOCK_LENGTH: dict[Unit, float] = {"mm": 200.0, "in": 8.0}
"""The V-block of a cradle is taken to be this long."""
REMEMBERED = 32
"""How many legs are remembered: those of a piece, and of the places where a slider has just been.

A slider asks for the whole piece at every move, and most of its legs are as they were. What follows from a leg
alone, its sizes, rules and outline, is worked out once for as long as the leg stays the same.
"""

NEIGHBOURS: tuple[tuple[Position, Position, int], ...] = (
    ("front left", "front right", 0),
    ("rear left", "rear right", 0),
    ("front left", "rear left", 1),
    ("front right", "rear right", 1),
    ("front left", "rear", 1),
    ("front", "rear left", 1),
    ("front", "rear", 1),
)
"""Pairs of legs side by side (measured across, 0) and one behind the other (back, 1)."""
_ROUND_STEP_DEG = 10
_PLACES = 500  # of a leg, at which its outline in the V is looked at


@dataclass(frozen=True, eq=False)
class LegSizes:
    """One leg: its place, its lean and its cuts, in the piece's unit.

    Args:
        position: such as "front left", as seen from the front.
        lean: its direction in the room.
        height: floor to the underside where its axis comes out.
        top: where its axis meets the underside.
        foot: where its axis meets the floor.
        top_corners: its outline where it meets the underside: of a square leg its long edges, the
            outer one first, then its neighbour on the same face (front for a front leg), and so
            round.
        foot_corners: its outline on the floor, in the same order.
        axis_length: between underside and floor along the axis.
        foot_run: from top to foot.
        gauge_run: the same for a height of 100 mm or 10 in, to set a bevel gauge.
        ring: half axes of the ring round the foot within which nine out of ten land, as steps in
            plan: for the slip of the total lean, and of the sight line.
        rise_scatter: standard deviation of the height at which it ends where it is cut to length.
        slips: the setting errors behind the ring.
        square: side of its section where its top is square.
        round: its diameters where it is turned from end to end.
        turned: its profile and all that the lathe needs, where any of it is turned.
        end_cut: saw settings of a leg with a square top.
        blank: least length of wood for a square leg, without waste: through the seat where it has one.
        cradle: what holds a turned leg at the saw.
        in_vee: diameters at top and foot of the straight taper that lies in its V as the leg does.
        drilling: what to drill, of a leg under a seat.
        fixing: what the screw leaves of it, of a leg under a case.
        pin: where the pin stands beside the screw.
    """

    position: Position
    lean: Lean
    height: Fraction | float
    top: PlanPoint
    foot: PlanPoint
    top_corners: tuple[PlanPoint, ...]
    foot_corners: tuple[PlanPoint, ...]
    axis_length: float
    foot_run: FootRun
    gauge_run: FootRun
    ring: tuple[PlanPoint, PlanPoint]
    rise_scatter: float
    slips: Slips
    square: Fraction | None
    round: Diameters | None
    turned: TurnedLeg | None
    end_cut: EndCut | None
    blank: float
    cradle: Cradle | None
    in_vee: tuple[float, float]
    drilling: SeatLeg | None = None
    fixing: Fixing | None = None
    pin: LocationPin | None = None

    @property
    def outward(self) -> tuple[int, int]:
        """Signs of the outward directions: across and back; to the right and to the front where it has no side."""
        return (-1 if "left" in self.position else 1), (-1 if end_of(self.position) == "front" else 1)


def end_of(position: Position) -> End:
    """The end of the piece that is outward for a leg; for the middle one, the front.

    Args:
        position: which leg.

    Returns:
        "front" or "rear".
    """
    return "rear" if "rear" in position else "front"


@dataclass(frozen=True)
class _Asked:
    """All that a leg follows from but its place, so that it can be remembered by it.

    Two are equal only where one leg does for both: they hold the words of the design itself.

    Args:
        said: of the legs in the design, their leans left out.
        names: of its lean.
        height: floor to the underside, in the unit.
        unit: of the piece.
        seat: what it stands under, if that is a seat.
        end: "front" or "rear", as far as a pitched seat tells them apart.
        legs: what was said, as it was read.
    """

    said: str
    names: LeanNames
    height: Fraction | float
    unit: Unit
    seat: Seat | None
    end: End
    legs: Legs = field(compare=False)


def step_out(position: Position, at: PlanPoint, fore_aft: float, sideways: float) -> PlanPoint:
    """A place in plan so far outward of another, as a leg at this position means it.

    Args:
        position: which leg.
        at: the place, in the piece's unit.
        fore_aft: outward to the front or the back; of the middle leg, to the front.
        sideways: outward to the leg's own side; of a middle leg, to the right.

    Returns:
        Across and back.
    """
    across = at[0] - sideways if "left" in position else at[0] + sideways
    return across, at[1] - fore_aft if end_of(position) == "front" else at[1] + fore_aft


def _outlines(lean: Lean, cut: EndCut | None, turned: TurnedLeg | None, rise: float) -> tuple[list[PlanPoint], ...]:
    """Outlines of the leg at its top, where the underside rises outward by so much, and on the floor.

    Both fore and aft and sideways from the axis, in plan.
    """
    rims = [list(cut.level_corners) if cut else []] * 2
    for end, at in enumerate((0.0, turned.profile.length) if turned else ()):
        if at or not cut:  # a square top keeps its corners
            radius = turned.profile.radius_at(at) if turned else 0.0
            turns = range(0, 360, _ROUND_STEP_DEG)
            rims[end] = [level_corner(lean.tan_rake, lean.tan_splay, radius * cosd(t), radius * sind(t)) for t in turns]
    return [_on_slope(lean, corner, rise) for corner in rims[0]], rims[1]


def _on_slope(lean: Lean, corner: PlanPoint, rise: float) -> PlanPoint:
    """Where a line along the leg that meets a level plane at a corner meets the one that rises outward."""
    up = rise * corner[0] / (1 + rise * lean.tan_rake)
    return corner[0] - lean.tan_rake * up, corner[1] - lean.tan_splay * up


@lru_cache(REMEMBERED)
def _leg(asked: _Asked, position: Position, top: PlanPoint) -> LegSizes:
    """One leg at its place; it and its mirror image are made once."""
    made = _made(asked)

    def out(at: PlanPoint, *steps: PlanPoint) -> tuple[PlanPoint, ...]:
        return tuple(step_out(position, at, *step) for step in steps)

    (foot,), (along, across) = out(top, made.foot), out((0.0, 0.0), *made.ring)
    at_top, at_foot, ring = out(top, *made.top_corners), out(foot, *made.foot_corners), (along, across)
    return replace(made, position=position, top=top, foot=foot, top_corners=at_top, foot_corners=at_foot, ring=ring)


@lru_cache(REMEMBERED)
def _made(asked: _Asked) -> LegSizes:
    """A leg without a place: in plan it tells how far outward of its ends things lie, fore and aft and sideways."""
    legs, height, unit, lean = asked.legs, float(asked.height), asked.unit, asked.names.lean()
    seat, end = asked.seat, asked.end
    pitch = seat.pitch if seat else 0.0
    drilled = seat_leg(lean, height, float(seat.thickness), pitch, end) if seat else None
    slip = float(length_slip(legs.slips, unit))
    ring, rise_scatter = leg_scatter(drilled.seat_lean if drilled else lean, height, pitch, end, legs.slips, slip)
    run, axis = lean.foot_run(height), lean.axis_length(height)
    square = legs.square if top_is_square(legs) else None
    cut = end_cut(lean, height, float(square), legs.orientation) if square else None
    turned = turned_leg(legs, lean, axis, cut, drilled, unit) if legs.is_turned else None
    fixing, pin = leg_fixing(legs, lean, height, turned, unit)
    wood_round = turned.diameters if turned and not square else None
    at_top, at_foot = _outlines(lean, cut, turned, tand(pitch if end == "front" else -pitch))
    wedge, in_vee = None, (0.0, 0.0)
    if turned and wood_round:
        in_vee = _in_vee(turned, axis, BLOCK_LENGTH[unit])
        wedge = cradle(lean, *in_vee, axis, BLOCK_LENGTH[unit])
    return LegSizes(
        position="rear right",
        lean=lean,
        height=asked.height,
        top=(0.0, 0.0),
        foot=(run.fore_aft, run.sideways),
        top_corners=tuple(at_top),
        foot_corners=tuple(at_foot),
        axis_length=axis,
        foot_run=run,
        gauge_run=lean.foot_run(GAUGE_HEIGHT[unit]),
        ring=ring,
        rise_scatter=rise_scatter,
        slips=legs.slips,
        square=square,
        round=wood_round,
        turned=turned,
        end_cut=cut,
        blank=_blank(cut, drilled, float(square or 0)),
        cradle=wedge,
        in_vee=in_vee,
        drilling=drilled,
        fixing=fixing,
        pin=pin,
    )


def _in_vee(turned: TurnedLeg, axis: float, block: float) -> tuple[float, float]:
    """How a leg lies in a V-block as long as this below its foot end; what stands in a seat is not in it."""
    profile = turned.profile
    places = profile.sample(_PLACES)
    places = places[places >= max(turned.top, profile.length - block)]
    return lies_as((profile.length - places).tolist(), profile.diameter_at(places).tolist(), axis)


def _blank(cut: EndCut | None, drilled: SeatLeg | None, square: float) -> float:
    """Wood for two level cuts; under a seat for the level foot and an end flush with its top, however turned."""
    if cut is None or drilled is None:
        return float(cut.blank_length) if cut else 0.0
    at_foot = (cut.blank_length - cut.axis_length) / 2
    at_top = square / 2 * square_root(2) * tand(drilled.seat_lean.total_lean_deg)
    return float(cut.axis_length + at_foot + drilled.length_in_seat + at_top)


def length_slip(slips: Slips, unit: Unit) -> Fraction:
    """How far a leg's length is taken to go astray.

    Args:
        slips: the maker's own setting errors.
        unit: the piece's unit.

    Returns:
        The design's slip, or the usual one of the unit.
    """
    return slips.length if slips.length is not None else LENGTH_SLIP[unit]


def _require_slips(slips: Slips, height: Fraction | float, unit: Unit) -> None:
    """Refuse settings that slip by less than nothing, or by so much that they want mending first."""
    for name, slip in (("total lean", slips.total_lean), ("sight line", slips.sight_line)):
        with fault_at("legs", "slips", name):
            require_between(f"slip of the {name}", slip, 0, 10, "a setting that slips by more wants mending", ends=True)
    if slips.length is not None and slips.length * 10 > height:
        with fault_at("legs", "slips", "length"):
            raise DesignError(
                f"The slip of the length is {write_length(slips.length, unit)}; it must be at most a tenth of the"
                f" height of a leg, {write_length(height / 10, unit)}: set the stop closer."
            )


def leg_sizes(design: Design, stand: Stand | None) -> tuple[LegSizes, ...]:
    """Derive every leg.

    Args:
        design: the piece as settled.
        stand: what the legs stand under.

    Returns:
        The legs in the order of `POSITIONS`; none where the piece has none.

    Raises:
        DesignError: when a lean cannot be made, or a foot comes to stand past the foot of its neighbour or
            among the others.
    """
    legs = design.legs if isinstance(design, CaseDesign | SeatDesign) else None
    if legs is None or stand is None:
        return ()
    if not legs.lean:
        with fault_at("legs", "lean"):
            raise DesignError("No leg is named; give each leg a line under 'lean', with its rake and splay.")
    _require_slips(legs.slips, min(map(stand.height, legs.lean)), design.unit)
    seat, said = design.seat if isinstance(design, SeatDesign) else None, legs.model_dump_json(exclude={"lean"})
    placed = list[LegSizes]()
    for position in POSITIONS:
        if position in legs.lean:
            with fault_at("legs", "lean", position):
                end = end_of(position) if seat and seat.pitch else "front"
                asked = _Asked(said, legs.lean[position], stand.height(position), design.unit, seat, end, legs)
                placed.append(_leg(asked, position, stand.top(position)))
    _keep_apart(placed, design.unit)
    _require_round_the_piece(placed)
    return tuple(placed)


def _keep_apart(placed: list[LegSizes], unit: Unit) -> None:
    """Refuse a foot that stands under the place of another leg."""
    for leg in placed:
        for other in placed:
            for axis, way in ((0, "across"), (1, "fore and aft")):
                apart, at_foot = other.top[axis] - leg.top[axis], other.foot[axis] - leg.foot[axis]
                if apart > 1e-9 and at_foot <= 0:
                    stray, kept = sorted((leg, other), key=lambda one: _outward_run(one, axis))
                    with fault_at("legs", "lean", stray.position):
                        raise DesignError(
                            f"The foot of the {stray.position} leg runs {write_length(-at_foot, unit)} past that of the"
                            f" {kept.position} leg {way}; lean it less, or outward (above 0)."
                        )


def _require_round_the_piece(placed: list[LegSizes]) -> None:
    """Refuse a foot of four at the corners that stands among the other three, and carries nothing."""
    corners = [leg for leg in placed if leg.position in CORNERS]
    for leg in corners if len(corners) == 4 else ():
        others = convex_outline([other.foot for other in corners if other is not leg])
        if inside_by(others, leg.foot) > -1e-6 * leg.axis_length:
            with fault_at("legs", "lean", leg.position):
                raise DesignError(
                    f"The foot of the {leg.position} leg stands among the other three, which carry the piece without"
                    " it; lean it further outward (above 0)."
                )


def _outward_run(leg: LegSizes, axis: int) -> float:
    """How far a foot runs outward, across or fore and aft; a leg in the middle has no outward side."""
    run = float(leg.foot_run[1 - axis])
    return -abs(run) if leg.position == "middle" or (axis == 0 and leg.position not in CORNERS) else run


def mirror_groups(legs: tuple[LegSizes, ...]) -> tuple[tuple[LegSizes, ...], ...]:
    """Group the legs that share all settings.

    Args:
        legs: the legs of one piece.

    Returns:
        Groups in the order of the legs; left and right within one are of opposite hand.
    """
    groups: list[list[LegSizes]] = []
    for leg in legs:
        for group in groups:
            first = group[0]
            same = (first.lean.rake_deg, first.lean.splay_deg) == (leg.lean.rake_deg, leg.lean.splay_deg)
            if same and (first.height, _drilled(first)) == (leg.height, _drilled(leg)):
                group.append(leg)
                break
        else:
            groups.append([leg])
    return tuple(tuple(group) for group in groups)


def _drilled(leg: LegSizes) -> float:
    """The drill rake, by which like leans under the two ends of a pitched seat differ."""
    return leg.drilling.seat_lean.rake_deg if leg.drilling else 0.0
