"""Plate 8: the top of each leg cut open at full size, with the screw that holds it and the pin beside it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import hypot, inf

from furnlib.base.angles import atand, cosd, sind, tand
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Contour, Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import ROOM_MM, Card
from furnlib.draw.plates.faces import SquareLeg, square_leg
from furnlib.draw.plates.groups import WORDS_NOTE, Groups, heading
from furnlib.draw.plates.turned_groups import outline, turned_of
from furnlib.draw.plates.views import draw_sight, sight_of, written
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.design_legs import ScrewFixing
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.legs import LegSizes
from furnlib.trade.case.fixing import Fixing, LocationPin
from furnlib.trade.cautions import DRILLING

FIXING = Card(
    "Fixing",
    lambda leg: (leg.fixing, leg.pin) if leg.fixing and leg.pin else None,
    "give the legs of a case a part 'fixing' with screw and pin",
    "Screw and pin in the legs of {}: a plumb hole wanders from a leaning axis.",
    ("fixing.wander", "fixing.wall"),
    leans=1,
)

_NOTES = (
    "Walls are true on the paper; where the hole runs off it, depths show a little short. Order of work: pilot for"
    " the screw, plumb to the level top; hole for the pin; pin in, then the screw. One screw alone lets the leg turn.",
    "A screw square to the frame wanders from the axis. Where the wall grows thin: a shorter screw, drill along the"
    f" leg, or move the neck. All these are sizes; they do not say what the joint carries. {WORDS_NOTE}",
    " ".join(("At the drill:", *DRILLING)),
)
_FROM_ABOVE = "In the middle the screw, beyond it the pin; dashed, with its dot: {} and axis level with the tip."
_CASE_MM, _PAST_LEG_MM, _BELOW_TIP_MM, _BELOW_NECK_MM = 9.0, 4.0, 9.0, 16.0
_CHORD_MM = 0.01


def fixing_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw plate 8.

    Args:
        piece: a finished case on legs that are screwed on.
        scale: mm on paper for one unit of the piece; by default full size, or the largest that fits.
        number: of the sheet, from 1; each holds one lean.

    Returns:
        Two sections through the leg's axis, each with one face on the paper, or a single one along the
        sight line where the screw comes past a turned part: level top, hole, wall left at its tip; the
        top from above with wander and pin; what to mind at the drill.

    Raises:
        DesignError: when the design gives no screw.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> fixing_plate(read_piece("notebooks/designs/landing_chest.yaml"), number=2).name
        'Fixing 2'
    """
    return FIXING.plate(piece, scale, number, _draw, _caption, lambda pen, piece, leg: _words(pen, _job(piece, leg)))


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
    neck: Point | None  # how far down the screw comes past what is turned thinnest, and the diameter there
    screw: ScrewFixing
    fixing: Fixing
    pin: LocationPin
    faces: tuple[_Face, ...]

    def end(self, pen: Pen) -> float:
        """How far down the axis the leg is drawn: past both tips, and past the deepest screw where that is near."""
        screw, fixing, share = self.screw, self.fixing, cosd(self.leg.lean.total_lean_deg)
        deep = max(screw.depth, screw.pin_depth, fixing.deepest if fixing.deepest < 1.5 * screw.depth else 0)
        rise = self.across / 2 * max(abs(face.own) for face in self.faces)
        below = pen.mm(_BELOW_NECK_MM if self.neck else _BELOW_TIP_MM)
        low = min(float(deep) * share + below, self.leg.axis_length - rise - pen.mm(3.0))
        return float(max(low, float(screw.depth) * share + pen.mm(2.0)))

    def outlines(self, pen: Pen, own: float, end: float) -> list[list[Point]]:
        """Both edges of the leg in a section, from a level top of that slope down to a distance along the axis."""
        points, square = [(0.0, self.across / 2), (end, self.across / 2)], float(self.leg.square or 0) / 2
        if self.leg.turned:
            upper, bulges = outline(self.leg.turned.profile)
            flat = Contour(tuple(upper), tuple(bulges)).flattened(pen.mm(_CHORD_MM)).points
            # a square may be cut slantwise
            points = [(x, self.across / 2 if square and r > square * (1 - 1e-9) else r) for x, r in flat]
        (x0, r0), (x1, r1) = points[:2]
        points.insert(0, (x0 - end, r0 - end * (r1 - r0) / (x1 - x0)))
        edges = ([(side * r, x) for x, r in points] for side in (-1, 1))
        below = (_kept(edge, lambda out, down: down - out * own) for edge in edges)
        return [_kept(edge, lambda _, down: end - down) for edge in below]


def _kept(line: list[Point], measure: Callable[[float, float], float]) -> list[Point]:
    """What of a line lies where a measure is not below 0, cut exactly where it is; the measure is straight."""
    found: list[Point] = []
    for start, end in pairwise(line):
        at, then = measure(*start), measure(*end)
        if at >= 0:
            found.append(start)
        if at * then < 0:
            share = at / (at - then)
            found.append((start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])))
    return [*found, line[-1]] if measure(*line[-1]) >= 0 else found


def _job(piece: Piece, leg: LegSizes) -> _Job:
    assert isinstance(piece, CasePiece)
    assert piece.design.legs
    assert piece.design.legs.fixing  # else no leg would have its fixing
    (fixing, pin), screw, made = FIXING.of(leg), piece.design.legs.fixing, square_leg(leg)
    if made and fixing.wall_neck == inf:
        return _Job(leg, float(made.square), None, screw, fixing, pin, _faces(made, fixing))
    profile, total = turned_of(leg).profile, float(tand(leg.lean.total_lean_deg))
    across = top = profile.diameter_at(0.0)
    place, thin = profile.least_diameter_between(0.0, min(leg.lean.axis_length(float(screw.depth)), profile.length))
    if made and total:  # the square is cut slantwise
        across *= total / max(map(abs, _slopes(made)))
    face = _Face("square to the sight line", "inner surface", total, 0.0, 1.0, fixing.wall)
    return _Job(leg, across, (place, thin) if thin < top else None, screw, fixing, pin, (face,))


def _slopes(made: SquareLeg) -> list[float]:
    """How far the leg runs off square across in its side face and in the one beside it, for each unit across."""
    return [float(setting.long_edge * tand(setting.mitre_deg)) for setting in reversed(made.settings)]


def _faces(made: SquareLeg, fixing: Fixing) -> tuple[_Face, ...]:
    slopes, total = _slopes(made), float(tand(made.leg.lean.total_lean_deg))
    faces = []
    for i, (own, other, wall) in enumerate(
        zip(slopes, slopes[::-1], (fixing.wall_front, fixing.wall_side), strict=True)
    ):
        share = own / total if total else 1.0 - i
        thin = f"{made.faces[i if own < 0 else i + 2]} face"
        faces.append(_Face(f"on the {made.faces[1 - i]} face", thin, own, other, share, wall))
    return tuple(faces[:: made.hand or 1])


def _draw(pen: Pen, piece: Piece, groups: Groups) -> None:
    """The sections side by side, below them the top from above at a scale of its own, and the words beside it."""
    (group,), job = groups, _job(piece, groups[0][0])
    column, end = pen.mm(ROOM_MM[0] / len(job.faces)), job.end(pen)
    for i, face in enumerate(job.faces):
        _Section(pen, job, face, (column * (i + 0.5), 0.0), 1 - 2 * i).draw(end)
    _, low, _, high = pen.reach()
    heading(pen, group, (0.0, high + pen.mm(8.0)))
    across = 1.2 * (float(job.leg.square or job.across) + float(job.fixing.wander))
    scale = min(fitting_scale(across, across, pen.unit, 0.0, 0.0, (72.0, 72.0)), pen.scale)
    corner = (0.0, low - pen.mm(2.0))
    right, _ = pen.place(corner, lambda pen, middle: _plan(pen, job, middle, scale / pen.scale))
    dashed = _FROM_ABOVE.format("the thinnest that the screw comes past," if job.neck else "leg")
    title = f"From above, front edge below, {ratio_words(scale, pen.unit)}. {dashed}"
    beside = right * pen.scale + 5.0
    pen.paragraphs((pen.mm(beside), corner[1]), (title, *_words(pen, job), *_NOTES), ROOM_MM[0] - beside, gap_mm=0.8)


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
        for name, out, lift in (("screw", 0.0, 2.0), ("pin", offset, 5.2)):
            label = face.above(pen.mm(_CASE_MM + lift + 3.8 * abs(face.own)), out)
            pen.text(self.at(label), name, "small", "middle", clear=True)
        self._sizes(end)
        x, y = self.at((0.0, end))
        pen.text((x, y - pen.mm(7.2)), f"Seen {face.name}:", "small", "middle", bold=True)
        pen.text((x, y - pen.mm(10.6)), f"level top {write_angle(abs(atand(face.own)))} off square", "small", "middle")

    def _wood(self, end: float) -> None:
        """The leg and its axis, broken off below."""
        left, right = ([*map(self.at, edge)] for edge in self.job.outlines(self.pen, self.face.own, end))
        low = self.pen.broken(left[-1], right[-1])
        self.pen.shape((*low[:-1], *reversed(right), *left[:-1]), "wood", "")
        self.pen.line(*left)
        self.pen.line(*right)
        self.pen.line(left[0], right[0], kind="cut")
        self.pen.line(*low, kind="thin")
        self.pen.line(self.top, self.at((0.0, end + self.pen.mm(3.4))), kind="centre")

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
        up, past = pen.mm(_CASE_MM + (4.7 if offset else 1.5)), pen.mm(2.0)
        pen.line(self.at(face.above(up, offset)), self.at(face.plumb(depth + past, offset)), kind="centre")

    def _sizes(self, end: float) -> None:
        """Wall at the tip, square to the face; how deep the screw goes, may go, and where it would come out."""
        pen, face, fixing, screw = self.pen, self.face, self.job.fixing, self.job.screw
        tip, (place, across) = face.plumb(float(screw.depth)), self.job.neck or (0.0, self.job.across)
        half = across / 2
        marks = [(float(screw.depth), "", f"{written(screw.depth, pen.unit)} deep")]
        if face.wall > 0:
            hole, surface = (self.at((face.side * out, tip[1])) for out in (half - face.wall, half))
            pen.dimension(hole, surface, 0.0, written(face.wall, pen.unit))
            if self.job.neck:
                pen.line(self.at((face.side * half, place)), surface, kind="thin")
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
            anchor = "start" if face.side * self.toward < 0 else "end"
            if half + face.side * out > pen.mm(text_width_mm(words, "small") * 1.1 + 0.5):
                pen.text(self.at((out, row)), words, "small", anchor, bold=not kind, clear=True)
            elif self.job.neck:  # led out of the leg, where it is too thin for words
                beside, level = -face.side * (self.job.across / 2 + pen.mm(3.0)), row - pen.mm(0.8)
                near = face.level(middle, -face.side * reach)
                pen.line(self.at(near), self.at((beside + face.side * pen.mm(0.8), level)), kind="thin")
                pen.text(self.at((beside, row)), words, "small", anchor, bold=not kind)


def _plan(pen: Pen, job: _Job, middle: Point, part: float) -> None:
    """The level top from above, front edge below: screw, pin, and where the axis is at the tip."""
    leg, inset, back = job.leg, pen.inset(middle, part), job.leg.outward[1]
    wander, offset = float(job.fixing.wander), float(job.pin.pin_offset)
    along = sight_of(leg, leg.lean.sight_line_deg).along
    top, low, thin = [(x - leg.top[0], y - leg.top[1]) for x, y in leg.top_corners], leg.top_corners, 1.0
    if job.neck:  # a level section of the round leg is that of its foot, at another size
        low, thin = leg.foot_corners, job.neck[1] / turned_of(leg).diameters.foot
    at = leg.foot if job.neck else leg.top
    tip = [((x - at[0]) * thin + wander * along[0], (y - at[1]) * thin + wander * along[1]) for x, y in low]
    reach = max(max(x * along[0] + y * along[1], y * back) for x, y in (*top, *tip)) * part + pen.mm(5.0)
    pen.shape((inset.at(*corner) for corner in top), "wood")
    if wander:
        pen.line(*(inset.at(*corner) for corner in tip), kind="hidden", closed=True)
        pen.dot(inset.at(wander * along[0], wander * along[1]), 0.7)
    sight = draw_sight(pen, leg, middle, reach, reach)
    pen.circle(middle, float(job.screw.diameter) / 2 * part)
    pen.circle(sight.at(middle, offset * part), float(job.screw.pin) / 2 * part)
    if leg.lean.sight_line_deg:
        pen.angle(middle, reach * pen.scale - 1.0, *sight.turns_deg, write_angle(leg.lean.sight_line_deg))
    away = 1 if leg.outward[0] * back * (leg.lean.sight_line_deg or 1.0) > 0 else -1  # from the fore-and-aft line
    edge = max(away * (x * along[1] - y * along[0]) for x, y in (*top, *tip)) * part * pen.scale
    for beyond, far in zip((10.0, 4.0), sorted((wander, offset)), strict=True):
        if far:
            pen.dimension(middle, sight.at(middle, far * part), -away * (edge + beyond), written(far, pen.unit))


def _caption(pen: Pen, leg: LegSizes) -> str:
    fixing, _ = FIXING.of(leg)
    wander, wall, rule = (written(size, pen.unit) for size in (fixing.wander, fixing.wall, fixing.wall_by_rule))
    return f": wander {wander}, least wall {wall}, by the rule of thumb {rule}"


def _words(pen: Pen, job: _Job) -> list[str]:
    """The numbers of the screw and the pin, in sentences."""
    screw, fixing, pin = job.screw, job.fixing, job.pin

    def said(size: float | Fraction) -> str:
        return written(size, pen.unit)

    walls = [f"{'' if face.wall > 0 else 'out by '}{said(abs(face.wall))} at the {face.thin}" for face in job.faces]
    where = "Wall left at the tip, square to the face:"
    if job.neck:
        place, thin = map(said, job.neck)
        where = f"Wall left at the tip beside the thinnest it comes past, ⌀ {thin} at {place} down the axis:"
    words = [
        f"Screw: hole {said(screw.diameter)}, {said(screw.depth)} deep, plumb from the level top. Its tip wanders"
        f" {said(fixing.wander)} from the axis, level, along the sight line.",
        f"{where} {' and '.join(walls)}; wanted {said(screw.wall)}. Rule of thumb"
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
