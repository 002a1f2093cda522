"""The legs: where each stands, how it leans, what the saw needs to know.

Places are plan points seen from the front of the piece: across, from the left edge of the case to
the right, and back, from its front edge. (That is the room frame turned half round: x runs to the
piece's own right, which is the left hand of whoever stands before it.)
"""

from __future__ import annotations

from dataclasses import dataclass

from furnlib.base.guards import DesignError, fault_at
from furnlib.base.units import Unit, write_angle, write_length
from furnlib.plan.design import POSITIONS, Design, LeanNames, Legs, Position
from furnlib.plan.sizes.size import Concern, Size
from furnlib.trade.leg.end_cut import EndCut, edge_offset, end_cut, level_corner
from furnlib.trade.leg.lean import FootRun, Lean

GAUGE_HEIGHT: dict[Unit, float] = {"mm": 100.0, "in": 10.0}
"""A bevel gauge is set from a run on this height."""

NEIGHBOURS: tuple[tuple[Position, Position, int], ...] = (
    ("front left", "front right", 0),
    ("rear left", "rear right", 0),
    ("front left", "rear left", 1),
    ("front right", "rear right", 1),
)
"""Pairs of legs side by side (measured across, 0) and one behind the other (back, 1)."""

PlanPoint = tuple[float, float]
_SEEN_MM = 0.05  # less past an edge than this nobody sees


@dataclass(frozen=True, eq=False)
class LegSizes:
    """One leg: its place, its lean and its cuts, in the piece's unit.

    Args:
        position: such as "front left", as seen from the front.
        lean: its direction.
        top: where its axis meets the underside of the case.
        foot: where its axis meets the floor.
        top_corners: where its long edges meet the underside of the case: the front or rear outer
            one first (front for a front leg), then its neighbour on the same face, and so round.
        foot_corners: where they meet the floor.
        edge_offsets: how far each long edge reaches past the axis at the foot, along it.
        foot_run: from top to foot.
        gauge_run: the same for a height of 100 mm or 10 in, to set a bevel gauge.
        end_cut: saw settings, axis length and blank.
    """

    position: Position
    lean: Lean
    top: PlanPoint
    foot: PlanPoint
    top_corners: tuple[PlanPoint, ...]
    foot_corners: tuple[PlanPoint, ...]
    edge_offsets: tuple[float, ...]
    foot_run: FootRun
    gauge_run: FootRun
    end_cut: EndCut

    @property
    def outward(self) -> tuple[int, int]:
        """Signs of the outward directions: across and back."""
        return (-1 if "left" in self.position else 1), (-1 if "front" in self.position else 1)


def _place(legs: Legs, design: Design, position: Position, lean: Lean) -> LegSizes:
    height, square = float(legs.height), float(legs.square)
    width, depth = float(design.overall.width), float(design.overall.depth)
    side, front, rear = float(legs.inset.side), float(legs.inset.front), float(legs.inset.rear)
    across = side if "left" in position else width - side
    back = front if "front" in position else depth - rear
    run = lean.foot_run(height)
    out_across, out_back = (-1 if "left" in position else 1), (-1 if "front" in position else 1)

    def out(at: PlanPoint, fore_aft: float, sideways: float) -> PlanPoint:
        return at[0] + out_across * sideways, at[1] + out_back * fore_aft

    half = square / 2
    edges = [(half, half), (half, -half), (-half, -half), (-half, half)]
    corners = [level_corner(lean.tan_rake, lean.tan_splay, f, s) for f, s in edges]
    foot = out((across, back), run.fore_aft, run.sideways)
    return LegSizes(
        position=position,
        lean=lean,
        top=(across, back),
        foot=foot,
        top_corners=tuple(out((across, back), f, s) for f, s in corners),
        foot_corners=tuple(out(foot, f, s) for f, s in corners),
        edge_offsets=tuple(edge_offset(lean.tan_rake, lean.tan_splay, f, s) for f, s in edges),
        foot_run=run,
        gauge_run=lean.foot_run(GAUGE_HEIGHT[design.unit]),
        end_cut=end_cut(lean, height, square),
    )


def leg_sizes(design: Design) -> tuple[LegSizes, ...]:
    """Derive every leg.

    Args:
        design: the piece as settled.

    Returns:
        The legs in the order front left, front right, rear left, rear right; none where the piece
        has none.

    Raises:
        DesignError: when a lean cannot be made, an inset lies outside the case, or a foot comes
            to stand past the foot of its neighbour.
    """
    legs = design.legs
    if legs is None:
        return ()
    with fault_at("legs", "inset"):
        for edge, room in (
            ("front", design.overall.depth),
            ("rear", design.overall.depth),
            ("side", design.overall.width),
        ):
            inset = getattr(legs.inset, edge)
            if inset * 2 >= room:
                raise DesignError(
                    f"The {edge} inset is {write_length(inset, design.unit)}, past the middle of the case;"
                    f" it must be less than {write_length(room / 2, design.unit)}: move the leg outward."
                )
    placed = []
    for position in POSITIONS:
        if position in legs.lean:
            with fault_at("legs", "lean", position):
                placed.append(_place(legs, design, position, legs.lean[position].lean()))
    if not placed:
        with fault_at("legs", "lean"):
            raise DesignError("No leg is named; give each leg a line under 'lean', with its rake and splay.")
    _keep_apart(placed, design.unit)
    return tuple(placed)


def _keep_apart(placed: list[LegSizes], unit: Unit) -> None:
    """Refuse a foot that stands under the place of another leg."""
    for leg in placed:
        for other in placed:
            for axis, way in ((0, "across"), (1, "fore and aft")):
                apart, at_foot = other.top[axis] - leg.top[axis], other.foot[axis] - leg.foot[axis]
                if apart > 0 and at_foot <= 0:
                    stray, kept = sorted((leg, other), key=lambda one: one.foot_run[1 - axis])
                    with fault_at("legs", "lean", stray.position):
                        raise DesignError(
                            f"The foot of the {stray.position} leg runs {write_length(-at_foot, unit)} past that of the"
                            f" {kept.position} leg {way}; lean it less, or outward (above 0)."
                        )


def leg_rules(design: Design, legs: tuple[LegSizes, ...]) -> tuple[Size, ...]:
    """Every derived size of every leg, with its rule.

    Args:
        design: the piece as settled.
        legs: its legs.

    Returns:
        The sizes, leg by leg.
    """
    if design.legs is None:
        return ()
    unit = design.unit
    h, w = write_length(design.legs.height, unit), write_length(design.legs.square, unit)
    sizes = []
    for leg in legs:
        r, s = write_angle(leg.lean.rake_deg, 2), write_angle(leg.lean.splay_deg, 2)
        total = write_angle(leg.lean.total_lean_deg, 2)
        down = (leg.end_cut.side_down, leg.end_cut.front_down)
        off_side, off_front = (write_angle(setting.mitre_deg, 2) for setting in down)
        axis, gauge = leg.end_cut.axis_length, write_length(GAUGE_HEIGHT[unit], unit)
        on_gauge = f"{gauge} x tan {total}"
        front_tilt, side_tilt = (f"asin(tan {angle} x cos {total})" for angle in (r, s))
        blank = f"{write_length(axis, unit)} + {w} x (tan {off_side} + tan {off_front})"
        rules = _lean_rules(design.legs.lean[leg.position], r, s, total, write_angle(leg.lean.sight_line_deg, 2))
        given: list[tuple[str, float, bool, str, str]] = [
            ("rake", leg.lean.rake_deg, True, rules["rake"], "lean.rake"),
            ("splay", leg.lean.splay_deg, True, rules["splay"], "lean.splay"),
            ("total lean", leg.lean.total_lean_deg, True, rules["total_lean"], "lean.total_lean"),
            ("sight line", leg.lean.sight_line_deg, True, rules["sight_line"], "lean.sight_line"),
            ("axis length", axis, False, f"{h} / cos {total}", "lean.axis_length"),
            ("foot run fore and aft", leg.foot_run.fore_aft, False, f"{h} x tan {r}", "lean.foot_run"),
            ("foot run sideways", leg.foot_run.sideways, False, f"{h} x tan {s}", "lean.foot_run"),
            ("foot run along the sight line", leg.foot_run.plan, False, f"{h} x tan {total}", "lean.foot_run"),
            (f"run on {gauge}, from the side", leg.gauge_run.fore_aft, False, f"{gauge} x tan {r}", "lean.foot_run"),
            (f"run on {gauge}, from the front", leg.gauge_run.sideways, False, f"{gauge} x tan {s}", "lean.foot_run"),
            (f"run on {gauge}, along the sight line", leg.gauge_run.plan, False, on_gauge, "lean.foot_run"),
            ("mitre, front face down", leg.end_cut.front_down.mitre_deg, True, f"splay {off_front}", "end_cut.mitre"),
            ("tilt, front face down", leg.end_cut.front_down.tilt_deg, True, front_tilt, "end_cut.tilt"),
            ("mitre, side face down", leg.end_cut.side_down.mitre_deg, True, f"rake {off_side}", "end_cut.mitre"),
            ("tilt, side face down", leg.end_cut.side_down.tilt_deg, True, side_tilt, "end_cut.tilt"),
            ("blank", leg.end_cut.blank_length, False, blank, "end_cut.blank"),
        ]  # fmt: skip
        for name, value, angle, rule, formula in given:
            least = name == "blank"
            written = write_angle(value, 2) if angle else write_length(value, unit, round_up=least)
            full = f"{written} {'≥' if least else '='} {rule}" if rule else f"{written} as the design gives it"
            key = formula if rule else ""
            sizes.append(Size(f"{name}, {leg.position} leg", value, "deg" if angle else unit, full, key, least))
    return (*sizes, *_feet_apart(legs, unit))


def _lean_rules(names: LeanNames, rake: str, splay: str, total: str, sight: str) -> dict[str, str]:
    """How each name of a lean follows from the others; nothing for the two that the design gives."""
    rules = {
        "rake": f"atan(tan {total} x cos {sight})",
        "splay": f"atan(tan {total} x sin {sight})",
        "total_lean": f"atan sqrt(tan² {rake} + tan² {splay})",
        "sight_line": f"atan2(tan {splay}, tan {rake})",
    }
    return {name: "" if getattr(names, name) is not None else rule for name, rule in rules.items()}


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
            sizes.append(Size(f"{first} foot to {second} foot", apart, unit, rule, "lean.foot_run"))
    return tuple(sizes)


def leg_concerns(design: Design, legs: tuple[LegSizes, ...]) -> tuple[Concern, ...]:
    """What about the legs to settle before wood is cut.

    Args:
        design: the piece as settled.
        legs: its legs.

    Returns:
        The concerns, in the order of the legs.
    """
    if design.legs is None:
        return ()
    unit = design.unit
    past: dict[tuple[str, str, str], list[str]] = {}
    limits = (float(design.overall.width), float(design.overall.depth))
    seen = _SEEN_MM if unit == "mm" else _SEEN_MM / 25.4
    for leg in legs:
        for axis, edge in ((0, "side"), (1, leg.position.split()[0])):
            out = leg.outward[axis]
            limit = limits[axis] if out > 0 else 0.0
            for code, corners in (("foot_past_case", leg.foot_corners), ("leg_proud_of_case", leg.top_corners)):
                over = max(out * corner[axis] for corner in corners) - limit
                if over > seen:
                    amount = write_length(over, unit, style="spoken")
                    past.setdefault((code, amount, edge), []).append(leg.position)
    found = [_past(code, amount, edge, positions) for (code, amount, edge), positions in past.items()]
    share = float(design.overall.height / design.legs.height)
    if not 6 <= share <= 10:
        found.append(
            Concern(
                "leg_share",
                f"legs 1 : {share:.1f} of the height",
                "cases usually stand on legs of 1 : 6 to 1 : 10 of their height; this is a choice, not a fault",
                ("look at the outline again", "keep it and say why in the log"),
            )
        )
    return tuple(found)


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


def mirror_groups(legs: tuple[LegSizes, ...]) -> tuple[tuple[LegSizes, ...], ...]:
    """Group the legs that share all saw settings.

    Args:
        legs: the legs of one piece.

    Returns:
        Groups in the order of the legs; left and right within one are of opposite hand.
    """
    groups: list[list[LegSizes]] = []
    for leg in legs:
        for group in groups:
            same = (group[0].lean.rake_deg, group[0].lean.splay_deg) == (leg.lean.rake_deg, leg.lean.splay_deg)
            if same:
                group.append(leg)
                break
        else:
            groups.append([leg])
    return tuple(tuple(group) for group in groups)
