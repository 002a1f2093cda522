"""One drawer cut from front to back, what it rides on, and how it nods when it stands open."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, partial
from math import inf
from typing import NamedTuple

from furnlib.base.angles import atan2d, cosd, sind
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Point
from furnlib.draw.layout import Inset
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.design_drawer import Drawers
from furnlib.plan.piece import CasePiece
from furnlib.plan.sizes.drawer_fit import OPENED
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.trade.drawer.droop import Droop

TIMES = 5
"""How many times its angle a drawer is turned in the picture where the true one is hardly seen."""

LEAST_SEEN_MM = 3.0
_CROSS_MM, _PAST_MM = 1.3, 7.0
_BESIDE_MM, _ABOVE_MM = 36.0, 14.0  # what names and sizes take round a picture
Box = tuple[float, float, float, float]


class Ride(NamedTuple):
    """Where one of the things stands that a drawer rides on and between.

    Args:
        name: "runner", "kicker", "guide" or "stop"; "slide" where a bought one is all of them.
        box: left, lower, right and upper edge: from the case's face back and from the sides' lower edge up.
        kind: line kind of what is drawn for it, "" where a board that is there anyway does its work.
        fitted: False where the drawer rides without it.
    """

    name: str
    box: Box
    kind: str
    fitted: bool


@dataclass(frozen=True, eq=False)
class CutDrawer:
    """A drawer and its surroundings as plates draw them, in plain numbers.

    Args:
        piece: its case.
        drawer: its sizes.
        share: of its length, by which it is pulled out where it is drawn open; from 0 to 1.
    """

    piece: CasePiece
    drawer: DrawerSizes
    share: Fraction = OPENED[0]

    @property
    def settled(self) -> Drawers:
        """How the drawers of its case are made."""
        assert self.piece.design.drawers  # else there were no drawers
        return self.piece.design.drawers

    @property
    def boards(self) -> tuple[float, float]:
        """Thickness of what it stands on, and of what is above it."""
        case, number = self.piece.design.case, self.drawer.bank
        rows = next(bank.rows for bank in self.piece.banks if bank.number == number and bank.rows)
        boards = (rows.rails[0] or case.top, *rows.dividers, rows.rails[1] or case.bottom)
        return float(boards[self.drawer.row]), float(boards[self.drawer.row - 1])

    @property
    def side(self) -> float:
        """Height of its sides."""
        return float(self.drawer.side_height.value)

    @property
    def rear(self) -> float:
        """From the case's face back to the end of its sides, when it is shut."""
        return float(self.drawer.opening.depth - self.drawer.making.back_gap)

    @property
    def face(self) -> float:
        """From the case's face back to the front's own; below 0 where it stands out."""
        return self.rear - float(self.drawer.fit.length)

    @property
    def behind_front(self) -> float:
        """From the case's face back to where the sides are seen."""
        return self.face + float(self.drawer.making.front_thickness + self.drawer.making.inner_front)

    @property
    def out(self) -> float:
        """How far it is pulled out."""
        return float(self.drawer.fit.length * self.share)

    @cached_property
    def droop(self) -> Droop:
        """How it hangs, so far out."""
        return self.drawer.opened(self.share)[0]

    @property
    def turn_deg(self) -> float:
        """By which it is turned; one that tips out as far as its rear corner rises highest."""
        inside = float(self.drawer.fit.length) - self.out
        return float(atan2d(inside, self.side) if self.droop.tips_out else self.droop.angle_deg)

    @property
    def told(self) -> str:
        """How it hangs, in a sentence."""
        unit, fit, droop = self.piece.design.unit, self.drawer.fit, self.droop
        out, inside, play = (written(size, unit) for size in (self.out, float(fit.length) - self.out, fit.play))
        start = f"Pulled out {out}, with {inside} still inside, {self.drawer.name}"
        if self.on_slides:
            return f"{start} hangs on bought slides: it nods and racks as their maker states."
        if droop.tips_out:
            return f"{start} tips out: in a play of {play} nothing holds it, drawn as its rear corner passes highest."
        above, angle = "the kicker" if self.kicked else "what is above", write_angle(droop.angle_deg)
        fall = written(droop.front_fall, unit)
        return f"{start} nods {fall}: it turns {angle} in a play of {play} until its rear corner meets {above}."

    @property
    def on_slides(self) -> bool:
        """Whether bought slides carry and hold it."""
        return self.drawer.making.run == "slides"

    @property
    def kicked(self) -> bool:
        """Whether a kicker is over it."""
        return all(ride.fitted for ride in self.rides if ride.name == "kicker")

    @property
    def rides(self) -> tuple[Ride, ...]:
        """Runner, kicker, guide and stop, there or not, or its slide; strips without sizes stand for where they go."""
        made, settled, row = self.drawer.making, self.settled.riding, self.drawer.row
        depth, high = float(self.drawer.opening.depth), float(self.drawer.opening.height)
        start, side, (under, over) = self.behind_front, self.side, self.boards
        carrier, carried = (start, -under / 2, depth, 0.0), ""
        if made.run == "side-hung":
            upper, runner = float(made.guide_height + made.guide_width), self.drawer.part("runner").width.value
            carrier, carried = (start, upper - float(runner), depth, upper), "hidden"
        elif self.on_slides:  # each does all of it
            return (Ride("slide", (start, 0.4 * side, self.rear, 0.5 * side), "hidden", True),)
        guide = (start, 0.0, self.rear, side / 8) if made.run == "runners" else carrier
        kicker, strip = (start, high, depth, high + over / 2), ""
        if settled.kicker is not None and settled.kicker < self.drawer.fit.side_gaps.now:
            kicker, strip = (start, side + float(settled.kicker), depth, high), "thin"
        room = float(made.floor_height - made.bottom_thickness) or side / 12
        stop, block = (start, 0.0, start + 1.5 * room, 0.8 * room), "thin"
        if made.front != "flush":  # the case's face
            stop, block = (0.0, -float(made.overlay), under / 2, 0.0), ""
        return (
            Ride("runner", carrier, carried, row not in settled.no_runner),
            Ride("kicker", kicker, strip, row not in settled.no_kicker),
            Ride("guide", guide, "hidden", row not in settled.no_guide),
            Ride("stop", stop, block, row not in settled.no_stop),
        )

    def draw(self, pen: Pen, place: Inset) -> None:
        """Draw the drawer: the side behind, then bottom, back and front as they are cut.

        Args:
            pen: the plate's pen.
            place: puts its lower edge at the front's face at zero.
        """
        made, long = self.drawer.making, float(self.drawer.fit.length)
        shown = float(made.lip if made.front == "lipped" else made.front_thickness)
        end, floor = self.behind_front - self.face, float(made.floor_height)
        low = float(self.settled.front.below if made.front == "flush" else -made.overlay)
        back, bottom = self.drawer.part("back"), self.drawer.part("bottom")
        tongue, rear = float(made.groove_height), long - float(made.side_tail)
        under, start = floor - float(bottom.thickness), end - float(made.groove_depth)
        behind, top = rear - float(back.thickness), floor + float(back.width.value)
        _box(pen, place, (end, 0.0, long, self.side), "wood", "frame")
        if made.slip_width:
            _box(pen, place, (end, 0.0, long, floor), "wood", "thin")
        _box(pen, place, (end, under, start + float(bottom.width.value), floor), "paper", "frame")
        _box(pen, place, (behind, floor, rear, top), "wood", "frame", hatch=True)
        _box(pen, place, (0.0, low, shown, low + float(self.drawer.front_height.value)), "wood", "frame", hatch=True)
        if end > shown:
            _box(pen, place, (shown, 0.0, end, self.side), "wood", "frame", hatch=True)
        _box(pen, place, (start, tongue, end, tongue + float(made.groove_width)), "paper", "frame")

    def draw_rides(self, pen: Pen, place: Inset, rise: float = 0.0, reach: float = inf) -> None:
        """Draw what it rides on, or the empty place of it, outlined and crossed.

        Args:
            pen: the plate's pen.
            place: puts the case's face at the sides' lower edge at zero.
            rise: how much higher the kicker is drawn than it is.
            reach: where the picture of an open drawer ends, behind the case's face.
        """
        for ride in self.rides:
            (left, low, right, high), up = ride.box, rise if ride.name == "kicker" else 0.0
            box, arm = (left, low + up, min(right, reach), high + up), pen.mm(_CROSS_MM)
            if ride.fitted:
                if ride.kind:
                    _box(pen, place, box, "wood" * (ride.kind == "thin"), ride.kind)
                continue
            seen_through = ride.name == "kicker" and reach < inf  # an open drawer's corner rises into it
            _box(pen, place, box, "" if seen_through else "paper", "warning")
            x, y = place.at((left + box[2]) / 2, (low + high) / 2 + up)
            for down in (-arm, arm):
                pen.line((x - arm, y + down), (x + arm, y - down), kind="warning")


def _box(pen: Pen, place: Inset, box: Box, tint: str, kind: str, hatch: bool = False) -> None:
    corners = [(box[i], box[j]) for i, j in ((0, 1), (2, 1), (2, 3), (0, 3))]
    pen.shape((place.at(*corner) for corner in corners), tint, kind, hatch)


def draw_open(pen: Pen, origin: Point, size: float, cut: CutDrawer, times: int = 1) -> None:
    """Draw an open drawer, turned about its runner's front edge until its rear corner meets the kicker.

    One that tips out is drawn as its rear corner passes highest.

    Args:
        pen: the plate's pen.
        origin: where the runner's front edge stands.
        size: how many times larger than the rest it is drawn.
        cut: the drawer.
        times: how many times its angle it is turned; the kicker is drawn as much higher.
    """
    fit, (under, over), turn, out = cut.drawer.fit, cut.boards, times * cut.turn_deg, cut.out
    place, turned = pen.inset(origin, size), pen.inset(origin, size, turn)
    own, inside, held = pen.inset(turned.at(-out, 0.0), size, turn), float(fit.length) - out, cut.side + fit.play
    corner = own.at(float(fit.length), cut.side)
    reach = min(max(inside, cut.behind_front) + pen.mm(_PAST_MM) / size, cut.rear)
    rise = 0.0 if times == 1 else (corner[1] - origin[1]) / size - held
    ceiling = rise + (float(cut.drawer.opening.height) if cut.kicked else held)
    for low, high in ((-under, 0.0), (ceiling, ceiling + over)):
        edge = pen.broken(place.at(reach, low), place.at(reach, high))
        pen.shape((place.at(0.0, low), *edge, place.at(0.0, high)), "wood", "", hatch=True)
        pen.line(edge[0], place.at(0.0, low), place.at(0.0, high), edge[-1])
        pen.line(*edge, kind="thin")
    cut.draw(pen, own)
    cut.draw_rides(pen, place, rise, reach)
    pen.dot(origin, 0.7)
    pen.line(place.at(-out - pen.mm(3.0) / size, 0.0), origin, kind="centre")
    if cut.droop.tips_out:
        x, y = own.at(0.0, 0.0)
        pen.text((x, y - pen.mm(6.0)), "tips out", "body", "middle", bold=True)
    else:
        pen.dot(corner, 0.7)
    if cut.droop.front_fall > 0:  # neither shut nor tipping out
        fall = written(cut.droop.front_fall, pen.unit) + f" (x {times})" * (times > 1)
        pen.dimension(place.at(-out * cosd(turn), 0.0), turned.at(-out, 0.0), -6.0, fall)
    top = max(place.at(0.0, ceiling + over)[1], corner[1])
    for start, end in ((-out, 0.0), (0.0, inside)):
        left, right = ((place.at(x, 0.0)[0], top) for x in (start, end))
        long = written(end - start, pen.unit)
        led_out = (right[0] - left[0]) * pen.scale < text_width_mm(long, "body") + 1.0
        if times == 1 and start < end and not (led_out and start):  # it would stand in the next one's place
            pen.dimension(left, right, 4.0, long)
    _names(pen, place, cut, reach, rise)


def _names(pen: Pen, place: Inset, cut: CutDrawer, reach: float, rise: float) -> None:
    """What the drawer rides on by name: beside it, a stop below; of one thing that does several jobs, together."""
    named: dict[Point, str] = {}
    for ride in cut.rides:
        (left, low, right, high), words = ride.box, ride.name if ride.fitted else f"no {ride.name}"
        middle = (low + high) / 2 + rise * (ride.name == "kicker")
        if right <= reach / 2:
            x, y = place.at((left + right) / 2, -cut.boards[0])
            pen.line(place.at((left + right) / 2, middle), (x, y - pen.mm(1.0)), kind="dimension")
            anchor = "start" if cut.droop.tips_out else "middle"  # to its left a drawer that tips out hangs
            pen.text((x, y - pen.mm(3.4)), words, "small", anchor)
        else:
            point = place.at(min(right, reach), middle)
            named[point] = f"{named[point]}, {words}" if point in named else words
    labels(pen, place.at(reach, 0.0)[0], named)


def labels(pen: Pen, x: float, words: dict[Point, str]) -> None:
    """Write words to the right of a picture, each led to its point and clear of the others.

    Args:
        pen: the plate's pen.
        x: the right edge of the picture.
        words: what is said of each point.
    """
    points, start = sorted(words, key=lambda point: point[1]), x + pen.mm(3.0)
    levels = spread([y for _, y in points], pen.mm(TEXT_MM["small"] * 1.2))
    for point, y in zip(points, levels, strict=True):
        pen.line(point, (start, y), kind="dimension")
        pen.text((start + pen.mm(0.6), y - pen.mm(TEXT_MM["small"] * 0.36)), words[point], "small")


def open_views(pen: Pen, at: Point, room: Point, cut: CutDrawer) -> float:
    """Draw the open drawer true to scale, and again with a larger angle where the true one is hardly seen.

    Args:
        pen: the plate's pen.
        at: the upper left corner.
        room: for one picture, in mm on paper.
        cut: the drawer.

    Returns:
        How low it reaches.
    """
    fit, (under, over), unit = cut.drawer.fit, cut.boards, pen.unit
    high = cut.side + min(fit.play, 2 * cut.side) + over + max(under, cut.out * sind(cut.turn_deg))
    scale = fitting_scale(float(fit.length), high, unit, _BESIDE_MM, _ABOVE_MM, room)
    larger = f"The same, droop x {TIMES}: the angle is drawn {TIMES} times as large, the kicker to suit."
    views = [(1, f"{cut.told} Scale {ratio_words(scale, unit)}.")]
    if 0 < cut.droop.front_fall * scale < LEAST_SEEN_MM:
        views.append((TIMES, larger))
    y = at[1]
    for times, words in views:
        y = pen.paragraphs((at[0], y), (words,), room[0]) - pen.mm(2.0)
        _, y = pen.place((at[0], y), partial(draw_open, size=scale / pen.scale, cut=cut, times=times))
        y -= pen.mm(4.0)
    return y
