"""Plate 8: the top of each leg cut open at full size, with the screw that holds it and the pin beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import hypot, inf
from textwrap import wrap

from furnlib.base.angles import atand, cosd, sind, tand
from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_angle, write_length
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.groups import WORDS_NOTE, group_name, hand_words
from furnlib.draw.plates.saw_card import face_names, hand_of
from furnlib.draw.plates.views import along_sight_line, written
from furnlib.draw.scale import PLATE_MM, fitting_scale, ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.design_legs import ScrewFixing
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.legs import LegSizes, mirror_groups
from furnlib.trade.case.fixing import Fixing, LocationPin
from furnlib.trade.cautions import DRILLING

_NOTES = (
    "Walls are true on the paper; where the hole runs off it, depths show a little short. Order of work: pilot for"
    " the screw, plumb to the level top; hole for the pin; pin in, then the screw. One screw alone lets the leg turn.",
    "A screw square to the frame wanders from the axis. Where the wall grows thin: a shorter screw, drill along the"
    f" leg, or move the neck. All these are sizes; they do not say what the joint carries. {WORDS_NOTE}",
    f"At the drill: the leg lies clamped in its cradle on the table, no hand holds it. {' '.join(DRILLING)}",
)
_FROM_ABOVE = "In the middle the screw, beyond it the pin; dashed, with its dot: leg and axis level with the tip."
_ROOM_MM = (PLATE_MM[0] - 4.5, PLATE_MM[1] - 4.5)
_HEAD_MM, _NAMES_MM, _LABELS_MM = 8.5, 4.5, 12.0  # heading; names above the case, words below the wood
_CASE_MM, _PAST_LEG_MM, _BELOW_TIP_MM = 9.0, 4.0, 9.0
_SIDE_MM, _APART_MM, _AXES_MM = 9.5, 14.0, 50.0  # beside a leg; least distance of two legs, and of their axes
_COLUMN_MM, _TEXTS_MM, _ROW_MM, _GAP_MM, _LETTER_MM = 46.0, 80.0, 3.45, 0.8, 1.42
_PLAN_PARTS: dict[Unit, tuple[float, ...]] = {"mm": (1.0, 0.5, 0.4, 0.2, 0.1), "in": (1.0, 0.5, 0.25, 0.125)}


def sheets_of_fixings(piece: Piece) -> int:
    """Count the sheets that the fixings of the legs take: one for every lean.

    Args:
        piece: a finished piece.

    Returns:
        How many sheets; 0 where no screw is given.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sheets_of_fixings(read_piece("notebooks/designs/landing_chest.yaml"))
        2
    """
    return len(mirror_groups(tuple(leg for leg in piece.legs if leg.fixing)))


def fixing_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw plate 8.

    Args:
        piece: a finished case on legs that are screwed on.
        scale: mm on paper for one unit of the piece; by default full size, or the largest that fits.
        number: of the sheet, from 1; each holds one lean.

    Returns:
        Two sections through the leg's axis, each with one face on the paper: level top, hole, wall
        left at its tip; the top from above with wander and pin; what to mind at the drill.

    Raises:
        DesignError: when the design gives no screw.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> fixing_plate(read_piece("notebooks/designs/landing_chest.yaml"), number=2).name
        'Fixing 2'
    """
    job, unit, group = _job(piece, number), piece.design.unit, mirror_groups(piece.legs)[number - 1]
    pen = Pen(scale or _fitting(job, unit), unit)
    pen.text((0.0, -pen.mm(3.4)), group_name(group), "body", bold=True)
    pen.text((0.0, -pen.mm(7.2)), f"{hand_words(group)}; drawn for the {job.leg.position} leg", "small")
    _lay_out(pen, job)
    return pen.drawing(
        f"Fixing {number}" if sheets_of_fixings(piece) > 1 else "Fixing",
        caption=_caption(piece, job, group_name(group)),
        spoken=_spoken(piece, job),
        formulas=("fixing.wander", "fixing.wall", "fixing.deepest", "fixing.pin"),
    )


@dataclass(frozen=True)
class _Face:
    """A face on the paper; places seen on it are distances outward from the axis and down along it."""

    name: str
    thin: str  # the face that the hole comes near
    own: float  # how far the leg runs off square across in this face, for each unit across it
    other: float  # the same square to the paper
    share: float  # of the sight line's direction that lies in the paper
    wall: float  # wood left at the screw's tip

    @property
    def side(self) -> int:
        """On which side of the axis the hole runs: -1 the inner, 1 the outer."""
        return 1 if self.own < 0 else -1

    def plumb(self, depth: float, offset: float = 0.0) -> Point:
        """A place so far below a point of the level top that is so far out on the sight line."""
        total = hypot(self.own, self.other)
        out, down = offset * self.share - depth * self.own, offset * total + depth
        return out / hypot(1.0, total), down / hypot(1.0, total)

    def above(self, up: float, offset: float = 0.0) -> Point:
        """A place on the same plumb line so far above the level top, square to it."""
        run, (out, down) = hypot(1.0, self.own), self.plumb(0.0, offset)
        rise = (up + (down - out * self.own) / run) / run
        return out + rise * self.own, down - rise

    def level(self, middle: Point, along: float, away: float = 0.0) -> Point:
        """A place level with another: so far along the paper, and so far away from it."""
        sunk, run = away * self.other / hypot(1.0, self.own, self.other), hypot(1.0, self.own)
        return middle[0] + (along - sunk * self.own) / run, middle[1] + (along * self.own + sunk) / run


@dataclass(frozen=True)
class _Job:
    """The first leg of a group, what holds it, and its views from left to right, outer sides together."""

    leg: LegSizes
    across: float
    screw: ScrewFixing
    fixing: Fixing
    pin: LocationPin
    faces: tuple[_Face, ...]

    @property
    def steepest(self) -> float:
        return max(abs(face.own) for face in self.faces)

    @property
    def out(self) -> float:
        return float(max(-self.fixing.wall, 0.0))

    def down(self, *depths: float | Fraction) -> float:
        """How far down the axis the greatest of some plumb depths reaches."""
        return float(max(depths) * cosd(self.leg.lean.total_lean_deg))


def _job(piece: Piece, number: int) -> _Job:
    screw = piece.design.legs.fixing if isinstance(piece, CasePiece) and piece.design.legs else None
    for group in mirror_groups(piece.legs)[number - 1 : number]:
        leg, fixing, pin = group[0], group[0].fixing, group[0].pin
        if screw and fixing and pin:
            across = float(leg.square or (leg.round.largest if leg.round else 0))
            return _Job(leg, across, screw, fixing, pin, _faces(leg, fixing))
    raise DesignError(f"{piece.design.piece} has no fixing {number}; give its legs a part 'fixing' with screw and pin.")


def _faces(leg: LegSizes, fixing: Fixing) -> tuple[_Face, ...]:
    cut, total = leg.end_cut, float(tand(leg.lean.total_lean_deg))
    if cut is None:
        return (_Face("square to the sight line", "inner surface", total, 0.0, 1.0, fixing.wall),)
    names, walls = face_names(leg), (fixing.wall_front, fixing.wall_side)
    slopes = [setting.long_edge * tand(setting.mitre_deg) for setting in (cut.side_down, cut.front_down)]
    faces = []
    for i, (own, other) in enumerate((slopes, slopes[::-1])):
        share = own / total if total else 1.0 - i
        thin = f"{names[i] if own < 0 else names[i + 2]} face"
        faces.append(_Face(f"on the {names[1 - i]} face", thin, own, other, share, walls[i]))
    return tuple(faces[:: hand_of(leg)])


def _above_mm(job: _Job) -> float:
    """Heading, names and case over the highest place of the level top."""
    return _HEAD_MM + _NAMES_MM + _CASE_MM * hypot(1.0, job.steepest) + _PAST_LEG_MM * job.steepest


def _fitting(job: _Job, unit: Unit) -> float:
    """Full size, or the largest usual scale at which the sections fit with everything round them."""
    beside, above = 2 * _SIDE_MM + _APART_MM, _above_mm(job) + _BELOW_TIP_MM + _LABELS_MM + _TEXTS_MM
    high = job.across / 2 * job.steepest + job.down(job.screw.depth, job.screw.pin_depth)
    return fitting_scale(len(job.faces) * job.across + 2 * job.out, high, unit, beside, above, _ROOM_MM)


def _lay_out(pen: Pen, job: _Job) -> None:
    """Sections at the top, the level top from above below them, words and notes where there is room."""
    width, height = (pen.mm(size) for size in _ROOM_MM)
    apart = max(job.across + pen.mm(_APART_MM), pen.mm(_AXES_MM))
    left = pen.mm(_SIDE_MM) + job.out + job.across / 2
    right = 2 * left + pen.mm(4.0) + (len(job.faces) - 1) * apart
    rise, deep = job.across / 2 * job.steepest, job.down(job.screw.depth, job.screw.pin_depth)
    top, longest = -pen.mm(_above_mm(job)) - rise, job.leg.axis_length - rise - pen.mm(3.0)
    end = max(min(deep + pen.mm(_BELOW_TIP_MM), longest), deep + pen.mm(2.0))
    low = top - end - pen.mm(_LABELS_MM)
    words = _words(job, lambda size: written(size, pen.unit))
    upright = width - right >= pen.mm(_COLUMN_MM) and _column(pen, words, width - right) + pen.mm(_HEAD_MM) <= -low
    below = () if upright else _NOTES
    room = height + low - _column(pen, below, width)
    part, plan = _plan_part(pen, job, (width - pen.mm(_COLUMN_MM), room))
    above = f"From above, front edge below, {ratio_words(pen.scale * part, pen.unit)}. {_FROM_ABOVE}"
    second = (above, *(_NOTES if upright else words))
    beside = plan[2] - plan[0] + pen.mm(5.0)
    block = max(plan[3] - plan[1] + pen.mm(1.0), _column(pen, second, width - beside))
    deepest = job.down(job.fixing.deepest) + pen.mm(7.0)
    if end < deepest <= min(end + room - block, longest):
        low, end = low + end - deepest, deepest
    for i, face in enumerate(job.faces):
        _Section(pen, job, face, (left + i * apart, top), 1 - 2 * i).draw(end)
    _plan(pen, job, (-plan[0], low - plan[3]), part)
    if upright:
        _column(pen, words, width - right, (right, -pen.mm(_HEAD_MM)))
    _column(pen, second, width - beside, (beside, low))
    _column(pen, below, width, (0.0, low - block))


def _column(pen: Pen, sentences: Iterable[str], width: float, corner: Point | None = None) -> float:
    """How high sentences stand in lines as wide as their room; written where a corner is given."""
    letters, high = max(int(width * pen.scale / _LETTER_MM), 20), 0.0
    for sentence in sentences:
        rows = wrap(sentence, letters, break_on_hyphens=False)
        if corner:
            pen.lines((corner[0], corner[1] - high), rows, "small", 1.5)
        high += pen.mm(len(rows) * _ROW_MM + _GAP_MM)
    return high


@dataclass(frozen=True)
class _Section:
    """A section through the leg's axis in its place on the sheet."""

    pen: Pen
    job: _Job
    face: _Face
    top: Point  # where the axis meets the level top
    toward: int  # 1 where outward is to the right

    def at(self, place: Point) -> Point:
        return self.top[0] + self.toward * place[0], self.top[1] - place[1]

    def draw(self, end: float) -> None:
        """Case, leg, hole and pin down to a distance along the axis."""
        pen, face, half = self.pen, self.face, self.job.across / 2
        run, up = hypot(1.0, face.own), pen.mm(_CASE_MM)
        under = [face.level((0.0, 0.0), side * (half + pen.mm(_PAST_LEG_MM)) * run) for side in (-1, 1)]
        over = [(out + up * face.own / run, down - up / run) for out, down in under]
        pen.shape(map(self.at, (*under, *reversed(over))), "far", "", hatch=True)
        pen.line(*map(self.at, under))
        pen.line(*map(self.at, over), kind="thin")
        free = -0.55 * half if face.share >= 0 else 0.55 * half
        pen.centred(self.at((free, free * face.own - up * 0.5)), "case", "small")
        self._wood(end)
        screw, offset = self.job.screw, float(self.job.pin.pin_offset)
        self._bore(float(screw.diameter), 0.0, float(screw.depth), 0.0, "visible")
        self._bore(float(screw.pin), up * 0.6, float(screw.pin_depth), offset, "hidden")
        self._names()
        self._sizes(end)
        x, y = self.at((0.0, end))
        pen.text((x, y - pen.mm(7.2)), f"Seen {face.name}:", "small", "middle", bold=True)
        pen.text((x, y - pen.mm(10.6)), f"level top {write_angle(abs(atand(face.own)))} off square", "small", "middle")

    def _wood(self, end: float) -> None:
        """The leg and its axis, broken off below."""
        pen, half = self.pen, self.job.across / 2
        tops = [(out, out * self.face.own) for out in (-half, half)]
        jags = ((-1.0, 0.0), (-0.3, 0.0), (-0.1, -1.2), (0.1, 1.2), (0.3, 0.0), (1.0, 0.0))
        low = [(part * half, end + pen.mm(jag)) for part, jag in jags]
        pen.shape(map(self.at, (*low, *reversed(tops))), "wood", "")
        for high, foot in zip(tops, (low[0], low[-1]), strict=True):
            pen.line(self.at(high), self.at(foot))
        pen.line(*map(self.at, tops), kind="cut")
        pen.line(*map(self.at, low), kind="thin")
        pen.line(self.top, self.at((0.0, end + pen.mm(3.4))), kind="centre")

    def _bore(self, diameter: float, above: float, depth: float, offset: float, kind: str) -> None:
        """A plumb hole with the ring of its tip; dashed where it lies before or behind the paper."""
        pen, face = self.pen, self.face
        mouth, tip = face.above(above, offset), face.plumb(depth, offset)
        left, right = ([self.at(face.level(end, out)) for end in (mouth, tip)] for out in (-diameter / 2, diameter / 2))
        ring = [self.at(face.level(tip, diameter / 2 * cosd(t), diameter / 2 * sind(t))) for t in range(0, 360, 5)]
        if kind == "visible":
            pen.shape((*left, *reversed(right)), "paper", "")
        pen.shape(ring, "paper" if kind == "visible" else "", "thin")
        pen.line(*left, kind=kind)
        pen.line(*right, kind=kind)
        ends = (face.above(pen.mm(_CASE_MM + 1.5), offset), face.plumb(depth + pen.mm(2.0), offset))
        pen.line(*map(self.at, ends), kind="centre")

    def _names(self) -> None:
        pen, up = self.pen, self.pen.mm(_CASE_MM + 2.0 + 3.8 * abs(self.face.own))
        screw, pin = (self.at(self.face.above(up, out)) for out in (0.0, float(self.job.pin.pin_offset)))
        both = ((screw[0] + pin[0]) / 2, max(screw[1], pin[1]))
        apart = abs(screw[0] - pin[0]) > pen.mm(7.5)
        for at, words in ((screw, "screw"), (pin, "pin")) if apart else ((both, "screw, pin"),):
            pen.text(at, words, "small", "middle")

    def _sizes(self, end: float) -> None:
        """Wall at the tip, square to the face; how deep the screw goes, may go, and where it would come out."""
        pen, face, fixing, screw, half = self.pen, self.face, self.job.fixing, self.job.screw, self.job.across / 2
        tip = face.plumb(float(screw.depth))
        marks = [(float(screw.depth), "", f"{written(screw.depth, pen.unit)} deep")]
        if face.wall > 0:
            hole, surface = (self.at((face.side * out, tip[1])) for out in (half - face.wall, half))
            pen.dimension(hole, surface, 0.0, written(face.wall, pen.unit))
        if screw.depth < fixing.deepest < inf:
            marks.append((fixing.deepest, "thin", f"deepest {written(fixing.deepest, pen.unit)}"))
        if face.wall <= fixing.wall and fixing.breakout < inf:
            marks.append((fixing.breakout, "warning", f"comes out {written(fixing.breakout, pen.unit)}"))
        row = 0.0
        for depth, kind, words in sorted(marks):
            middle, reach = face.plumb(depth), float(screw.diameter) / 2 + pen.mm(1.0)
            if middle[1] + pen.mm(2.0) > end:
                break
            if kind:
                pen.line(*(self.at(face.level(middle, side * reach)) for side in (-1, 1)), kind=kind)
                pen.line(self.at(tip), self.at(middle), kind="centre")
            row = max(row + pen.mm(3.4), middle[1] + pen.mm(0.8))
            out = -face.side * max(reach + pen.mm(0.5) - face.side * middle[0], pen.mm(1.0) - half)
            if half + face.side * out > pen.mm(text_width_mm(words, "small") * 1.1 + 0.5):
                anchor = "start" if face.side * self.toward < 0 else "end"
                pen.text(self.at((out, row)), words, "small", anchor, bold=not kind, clear=True)


def _plan_part(pen: Pen, job: _Job, room: Point) -> tuple[float, tuple[float, float, float, float]]:
    """At what part of the scale the top is drawn from above, and how far it then reaches round its middle."""
    for part in _PLAN_PARTS[pen.unit]:
        trial = Pen(pen.scale, pen.unit)
        _plan(trial, job, (0.0, 0.0), part)
        box = trial.reach()
        if box[2] - box[0] <= room[0] and box[3] - box[1] <= room[1]:
            break
    return part, box


def _plan(pen: Pen, job: _Job, middle: Point, part: float) -> None:
    """The level top from above, front edge below: screw, pin, and where the axis is at the tip."""
    leg, inset, back = job.leg, pen.inset(middle, part), job.leg.outward[1]
    leans, sight_deg = bool(job.fixing.wander), leg.lean.sight_line_deg
    along = along_sight_line(leg, (0.0, 0.0), 1.0)
    wander, offset = float(job.fixing.wander), float(job.pin.pin_offset)
    stretch = float(leg.round.largest / leg.round.tenon) if leg.round else 1.0
    top = [((x - leg.top[0]) * stretch, (y - leg.top[1]) * stretch) for x, y in leg.top_corners]
    tip = [(x + wander * along[0], y + wander * along[1]) for x, y in top]
    reach = max(max(x * along[0] + y * along[1], y * back) for x, y in (*top, *tip)) + pen.mm(5.0) / part
    pen.shape((inset.at(*corner) for corner in top), "wood")
    if leans:
        pen.line(*(inset.at(*corner) for corner in tip), kind="hidden", closed=True)
        pen.dot(inset.at(wander * along[0], wander * along[1]), 0.7)
    pen.line(inset.at(0.0, -back * pen.mm(4.0) / part), inset.at(0.0, back * reach), kind="centre")
    pen.line(middle, inset.at(reach * along[0], reach * along[1]), kind="sight")
    pen.circle(middle, float(job.screw.diameter) / 2 * part)
    pen.circle(inset.at(offset * along[0], offset * along[1]), float(job.screw.pin) / 2 * part)
    if sight_deg:
        turns = (90.0 * back, 90.0 * back - leg.outward[0] * back * sight_deg)
        pen.angle(middle, reach * part * pen.scale - 1.0, min(turns), max(turns), write_angle(sight_deg))
    away = 1 if leg.outward[0] * back * (sight_deg or 1.0) > 0 else -1  # from the fore-and-aft line
    edge = max(away * (x * along[1] - y * along[0]) for x, y in (*top, *tip)) * part * pen.scale
    sizes = zip(sorted((wander, offset)), (10.0, 4.0), strict=True) if leans else [(offset, 4.0)]
    for far, beyond in sizes:
        place = inset.at(far * along[0], far * along[1])
        pen.dimension(middle, place, -away * (edge + beyond), written(far, pen.unit))


def _words(job: _Job, said: Callable[[float | Fraction], str]) -> list[str]:
    """The numbers of the screw and the pin, in sentences."""
    screw, fixing, pin = job.screw, job.fixing, job.pin
    walls = [f"{'' if face.wall > 0 else 'out by '}{said(abs(face.wall))} at the {face.thin}" for face in job.faces]
    words = [
        f"Screw: hole {said(screw.diameter)}, {said(screw.depth)} deep, plumb from the level top. Its tip wanders"
        f" {said(fixing.wander)} from the axis, level, along the sight line.",
        f"Wall left at the tip, square to the face: {' and '.join(walls)}; wanted {said(screw.wall)}. Rule of thumb"
        f" {said(fixing.wall_by_rule)}: half the section less wander less half the hole, never above the true wall.",
    ]
    if fixing.wall < screw.wall:
        words.append("Warning: too little wood is left. A shorter screw, or one of the other ways out.")
    if fixing.deepest < inf:
        deepest, breakout = said(fixing.deepest), said(fixing.breakout)
        words.append(f"Down to {deepest} the wanted wall is left; at {breakout} the hole comes out.")
    words.append(
        f"Pin: hole {said(screw.pin)}, {said(screw.pin_depth)} deep, {said(pin.pin_offset)} from the screw, outward on"
        f" the sight line. It has {said(pin.play)} to shift in; midway, {said(pin.wall)} of wood stand round it."
    )
    return words


def _caption(piece: Piece, job: _Job, whose: str) -> str:
    sizes = (job.fixing.wander, job.fixing.wall, job.fixing.wall_by_rule, job.screw.wall)
    wander, wall, rule, wanted = (written(size, piece.design.unit) for size in sizes)
    return (
        f"Screw and pin in the legs of {piece.design.piece}: a plumb hole wanders from a leaning axis.\n"
        f"{whose}: wander {wander}, least wall {wall}, by the rule of thumb {rule}; wanted {wanted}."
    )


def _spoken(piece: Piece, job: _Job) -> str:
    words = _words(job, lambda size: write_length(size, piece.design.unit, style="spoken"))
    whose = f"the {job.leg.position} leg of {piece.design.piece}"
    return f"Sections through the top of {whose}, each with a face on the paper. {' '.join(words)}"
