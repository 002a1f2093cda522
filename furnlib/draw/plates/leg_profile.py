"""Plate 7: a whole turned leg lying, its top to the left, with distances, diameters and what lies beyond its ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import isclose

from furnlib.base.angles import tand
from furnlib.base.units import Unit, write_angle
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import cautions, finished, fitted
from furnlib.draw.plates.groups import Group, heading
from furnlib.draw.plates.turned_groups import outline, turned_group, turned_groups, turned_marks, turned_of
from furnlib.draw.plates.turned_parts import arched_spans, draw_arched, draw_turned, fan, stop_cuts
from furnlib.draw.plates.views import written
from furnlib.draw.scale import PLATE_MM, fitting_scale, ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import LegSizes
from furnlib.plan.sizes.turned import TurnedLeg
from furnlib.trade.cautions import LATHE, STRUCTURE

_OUT_MM = 2.5  # from the leg to the ticks
_PAST_MM = 2.5  # a cut line past the outline
_ROOM_MM = PLATE_MM[0] - 4.0
_READ = (
    "Distances run from the top end along the axis, all from one zero; diameters stand below, | between the two of a"
    " step. ⌀ diameter, □ side of a square. Long-and-short line: the axis. Hatched: waste for the centres.",
    "Both level cuts are drawn at their true angle, the leg seen square to the plane of its lean; squares show a face.",
)
_SQUARE = (
    "Dashes beside a square: where its corners swing. Heavy lines across it: stop cuts, to their depth at the flat."
)
_BESIDE_MM, _CLOSER_MM, _WORTH = 5.0, 60.0, 1.6  # of what is shown larger: gap, height, and from how much larger on


def leg_profile_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw a turned leg lying, with all that is measured along and across it.

    Args:
        piece: a finished piece with turned legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1; each holds the legs of one length.

    Returns:
        The outline on both sides of the axis with running distances and diameters, the level cuts,
        kerfs and wastes beyond its ends; tables of its numbers; what to mind.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> leg_profile_plate(read_piece("notebooks/designs/stool_three_legs.yaml"), number=2).name
        'Leg profile 2'
    """
    group, unit = turned_group(piece, number, "leg profile"), piece.design.unit
    made = turned_of(group[0])
    pen = fitted(unit, lambda pen: _draw(pen, group), scale)
    marks = turned_marks(made, unit)
    thin = next(mark for mark in marks if mark.thinnest)
    return finished(
        pen,
        f"Leg profile {number}" if len(turned_groups(piece)) > 1 else "Leg profile",
        (group,),
        f"Turned leg of {piece.design.piece}: distances from its top end along the axis, and diameters.",
        [f": {written(made.profile.length, unit)} long, thinnest {thin.diameters} at {written(thin.distance, unit)}"],
        [
            [
                *(f"{written(mark.distance, unit)}: {mark.diameters}, {mark.words}." for mark in marks),
                *(f"{' '.join(row)}." for row in (*_leg_rows(made, unit)[1:], *_end_rows(group[0], unit)[1:])),
            ]
        ],
        ("lean.axis_length", "turning", "blank", "lathe.depth", *(["strength.bending"] if made.screen else [])),
    )


def _draw(pen: Pen, group: Group) -> None:
    """The leg with its labels, the tables below it, and the cautions."""
    leg, made = group[0], turned_of(group[0])
    _beyond_ends(pen, leg)
    _leg(pen, made)
    _level_cuts(pen, leg)
    _labels(pen, leg)
    left, low, _, top = pen.reach()
    pen.dimension((0.0, low), (made.profile.length, low), -5.0, written(made.profile.length, pen.unit))
    _closer(pen, made)
    heading(pen, group, (left, top + pen.mm(11.0)), f"top end to the left, {ratio_words(pen.scale, pen.unit)}")
    x, y = left, pen.reach()[1] - pen.mm(3.0)
    lowest = y
    tables: list[Sequence[Sequence[str]]] = [
        _leg_rows(made, pen.unit),
        _end_rows(leg, pen.unit),
        _stop_rows(made, pen.unit),
    ]
    for rows in filter(None, tables):
        right, low = pen.table((x, y), rows, bold_columns=range(1, len(rows[0])))
        x, lowest = right + pen.mm(5.0), min(low, lowest)
    notes = (*_READ, *([_SQUARE] if _square(made) else []))
    y = pen.paragraphs((left, lowest - pen.mm(3.0)), notes, _ROOM_MM) - pen.mm(1.5)
    y = cautions(pen, (left, y), "At the lathe", LATHE, _ROOM_MM) - pen.mm(1.5)
    if made.screen:
        pen.paragraphs((left, y), STRUCTURE[:2], _ROOM_MM)


@dataclass(frozen=True)
class _End:
    """One end of the leg in its blank.

    Args:
        at: where the level cut crosses the axis.
        way: 1 or -1, outward.
        extra: how far the cut reaches past that.
        kerf: of the saw.
        waste: for the centre of the lathe.
        radius: of the leg there.
        slope: by how much that changes outward, for each unit of length.
        angle_deg: of the cut, from square across.
    """

    at: float
    way: int
    extra: float
    kerf: float
    waste: float
    radius: float
    slope: float
    angle_deg: float

    def past(self, length: float) -> float:
        return self.at + self.way * length


def _ends(leg: LegSizes) -> tuple[_End, _End]:
    made = turned_of(leg)
    profile, blank, left = made.profile, made.blank, made.allowances
    points, _ = outline(profile)
    at_top = leg.drilling.seat_lean if leg.drilling else leg.lean
    saw = float(left.kerf or 0), float(left.waste or 0)
    return (
        _End(0.0, -1, float(blank.top_extra), *saw, points[0][1], profile.mirrored().end_taper / 2,
             float(at_top.total_lean_deg)),
        _End(profile.length, 1, float(blank.foot_extra), *saw, points[-1][1], profile.end_taper / 2,
             float(leg.lean.total_lean_deg)),
    )  # fmt: skip


def _beyond_ends(pen: Pen, leg: LegSizes) -> None:
    """What is sawn off: the wood on to the cut's far side, the level cut with its kerf, the waste for the centre."""
    half = float(turned_of(leg).blank.side) / 2
    for end in _ends(leg):
        reach = end.extra + end.kerf
        near, far, grown = end.past(reach), end.past(reach + end.waste), end.radius + end.slope * reach
        pen.shape(((end.at, end.radius), (near, grown), (near, -grown), (end.at, -end.radius)), "far", "thin")
        pen.box(min(near, far), -half, max(near, far), half, "far", "thin", hatch=True)


def _level_cuts(pen: Pen, leg: LegSizes) -> None:
    """Both cuts with their kerfs; where the underside passes; the axis."""
    made, ends = turned_of(leg), _ends(leg)
    for end in ends:
        pen.line(*_level(pen, end.at, end.radius, end.angle_deg), kind="cut")
        pen.line(*_level(pen, end.past(end.kerf), end.radius, end.angle_deg), kind="thin")
    if made.top:
        pen.line(*_level(pen, made.top, made.profile.diameter_at(made.top) / 2, ends[0].angle_deg), kind="sight")
    start, stop = (end.past(end.extra + end.kerf + end.waste + pen.mm(4.0)) for end in ends)
    pen.line((start, 0.0), (stop, 0.0), kind="centre")


def _level(pen: Pen, at: float, radius: float, angle_deg: float) -> tuple[Point, Point]:
    """A level line across the leg; what looks outward is the lower side here."""
    high = radius + pen.mm(_PAST_MM)
    return (at + high * tand(angle_deg), -high), (at - high * tand(angle_deg), high)


def _leg(pen: Pen, made: TurnedLeg) -> None:
    """The leg, and beside its squares where their corners swing."""
    profile = made.profile
    draw_turned(pen, made)
    for (start, stop), element in zip(pairwise(profile.joints), profile.elements, strict=True):
        for high in (profile.swing / 2, -profile.swing / 2) if element.shape == "square" else ():
            pen.line((start, high), (stop, high), kind="hidden")


def _closer(pen: Pen, made: TurnedLeg) -> None:
    """Right of the leg its beads and coves once more, where there is room to show them larger."""
    profile, unit, spans = made.profile, pen.unit, arched_spans(made.profile)
    room = _ROOM_MM - (pen.reach()[2] - pen.reach()[0]) * pen.scale - _BESIDE_MM
    if not spans or room <= 0.0:
        return
    start, stop, half = spans[0][0], spans[-1][1], profile.largest_diameter / 2
    factor = fitting_scale(stop - start, 2 * half, unit, 0.0, 0.0, (room, _CLOSER_MM)) / pen.scale
    words = f"{written(start, unit)} to {written(stop, unit)}, {ratio_words(pen.scale * factor, unit)}"
    wide = max((stop - start) * pen.scale * factor, text_width_mm(words, "small"))
    if wide > room or factor < _WORTH:
        return
    view = pen.inset((pen.reach()[2] + pen.mm(_BESIDE_MM), 0.0), factor)
    draw_arched(pen, profile, view)
    pen.text(view.at(0.0, half + pen.mm(3.0) / factor), words, "small")


def _square(made: TurnedLeg) -> float:
    """Side of the squares that are left."""
    return max(element.square for element in made.profile.elements)


def _labels(pen: Pen, leg: LegSizes) -> None:
    """Distances and words above the leg, diameters below, all turned, each led to its place."""
    made, unit = turned_of(leg), pen.unit
    marks, high = turned_marks(made, unit), max(float(made.blank.side), made.profile.swing) / 2 + pen.mm(_OUT_MM)
    weak = made.profile.length - made.screen.distance if made.screen else -1.0
    at_mark = [isclose(mark.distance, weak, rel_tol=1e-6) for mark in marks]
    above = [
        (mark.distance, written(mark.distance, unit), mark.words + ", weakest" * there)
        for mark, there in zip(marks, at_mark, strict=True)
    ]
    above += [(end.past(end.extra + end.kerf + end.waste / 2), written(end.waste, unit), "waste") for end in _ends(leg)]
    if made.screen and not any(at_mark):
        above.append((weak, written(weak, unit), "weakest"))
    pen.line((0.0, high), (made.profile.length, high), kind="thin")
    pen.circle((0.0, high), pen.mm(0.8), kind="thin")
    fan(pen, sorted(above), high, 1)
    fan(pen, [(mark.distance, mark.diameters, "thinnest" * mark.thinnest) for mark in marks], high, -1)


def _leg_rows(made: TurnedLeg, unit: Unit) -> list[tuple[str, str]]:
    """Numbers of the whole leg."""
    profile, blank = made.profile, made.blank
    side, long = written(blank.side, unit, round_up=True), written(blank.length, unit, round_up=True)
    rows = [
        ("the leg", ""),
        ("along its axis", written(profile.length, unit)),
        ("largest diameter", written(profile.largest_diameter, unit)),
        ("swing of the leg", written(profile.swing, unit)),
        ("blank", f"{side} square, {long}"),
        ("length over thinnest", f"{made.slenderness:.1f}"),
        ("steady", made.steady),
    ]
    if made.mass_kg:
        rows.append(("mass", f"{made.mass_kg:.2f} kg"))
    if made.screen:
        rows.append(("bent most at", written(profile.length - made.screen.distance, unit)))
        rows.append(("of the low-end strength", f"{100 * made.screen.low_strength_share:.0f} %"))
    return rows


def _end_rows(leg: LegSizes, unit: Unit) -> list[tuple[str, str, str]]:
    """What lies beyond both ends."""
    ends = _ends(leg)
    top, foot = (
        (write_angle(end.angle_deg), *(written(size, unit) for size in (end.extra, end.kerf, end.waste)))
        for end in ends
    )
    names = ("cut, off square", "past the axis", "kerf", "waste for the centre")
    return [("beyond the ends", "top", "foot"), *zip(names, top, foot, strict=True)]


def _stop_rows(made: TurnedLeg, unit: Unit) -> list[tuple[str, ...]]:
    """The stop cuts, where there is a square."""
    rows = [
        tuple(written(size, unit) for size in (step.distances[0], step.depth_at_flat, step.depth_at_corner))
        for step in stop_cuts(made)
    ]
    return [("stop cut at", "from flat", "from corner"), *rows] if rows else []
