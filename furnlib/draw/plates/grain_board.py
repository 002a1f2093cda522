"""Fronts laid on their board and as they are seen: what is thrown away between them, and how the figure jumps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from math import ceil

from furnlib.base.angles import Value
from furnlib.base.units import Unit
from furnlib.draw.drawing import Point
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.card import cautions
from furnlib.draw.plates.together import together
from furnlib.draw.plates.views import written
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.sizes.front_runs import FrontRun
from furnlib.trade.cautions import MACHINE
from furnlib.trade.drawer.grain_run import RunPlace

_APART_MM, _FAN_MM, _TITLE_MM, _SINK_MM = 2.9, 5.0, 5.5, TEXT_MM["small"] * 0.36
_MOST_LABELS, _MOST_BOARDS = 58, 8
_TINTS = {"front": "wood", "divider": "far", "spacer": "pale", "trim": "paper", "kerf": "ink", "gap": "paper"}
_FREE = "A spacer falls free as an off-cut of the long board, no hand and no fence near it."
_NOTES = (
    "Arrow: grain. Black: kerf. Hatched: a spacer between two kerfs, thrown away so that the figure runs through.",
    "Jump: wood removed less what is seen between two pieces, first for a single cut, then as laid out; below 0 the"
    " figure repeats, above 0 some of it is missing. Mark the triangle before anything is parted.",
)
_DOWN = (
    "The run goes across the grain: a wide board, or one glued up. Fronts side by side lie in one strip of it; saw out"
    " what the divider between them hides."
)
_CROSS_GRAIN = "A divider out of this board has its grain across its length: no more than a thin facing."


@dataclass(frozen=True)
class GrainBoard:
    """A sheet with one board and its fronts as seen, for all boards that are laid out alike along their run.

    Args:
        piece: what the piece is called.
        runs: the boards; the first is drawn.
    """

    piece: str
    runs: tuple[FrontRun, ...]

    formulas = ("grain_run.jump", "grain_run.spacer", "grain_run.divider")

    def draw(self, pen: Pen) -> None:
        """Draw the board, the fronts as seen below or beside it, and the words.

        Args:
            pen: the plate's pen.
        """
        run, down, unit = self.runs[0].run, self.runs[0].down, pen.unit
        long, across = float(run.length), float(run.width)
        edges = [*(place.start for place in run.places), run.length]
        self._lane(pen, (0.0, 0.0), run.places, [(float(edge), written(edge, unit)) for edge in edges], True)
        spacers = [place for place in run.places if place.kind == "spacer"]
        thrown = [
            (float(place.start + place.end) / 2, f"throw away {written(place.length, unit)}") for place in spacers
        ]
        below = self._fan(pen, (0.0, 0.0), thrown, False)
        title = pen.mm(_TITLE_MM)
        beside = down and long > across
        pieces = {place.kind for place in run.places} & {"front", "divider"}
        kept = [place for place in run.as_seen if place.kind in pieces]
        middles = [float(here.end + there.start) / 2 for here, there in pairwise(kept)]
        jumps = [*zip(middles, self._jumps(unit), strict=True)]
        lane = partial(self._lane, places=run.as_seen, labels=jumps, before=False)
        _, low, _, top = pen.reach()
        at = (across + below + pen.mm(3.0), 0.0) if beside else (0.0, low - 1.5 * title)
        if beside:
            lane(pen, at)
            at = at[0], pen.reach()[3]  # of many words some stand above the board
            top = at[1] + title
        else:
            pen.place(at, lane)
        pen.text((0.0, top + pen.mm(2.0)), "On the board: running sizes from one end", "small", bold=True)
        pen.text((at[0], at[1] + pen.mm(2.0)), "As seen in the case: jump at each joint", "small", bold=True)
        left, low, _, _ = pen.reach()
        low = pen.paragraphs((left, low - pen.mm(1.0)), self._notes(unit), 182.0, gap_mm=0.5)
        cautions(pen, (left, low - pen.mm(1.0)), "At the saw", (_FREE, *MACHINE))

    def _at(self, origin: Point, along: float, across: float) -> Point:
        """A point so far along the run from its upper left corner: to the right in a row, downwards down the case."""
        x, y = (across, along) if self.runs[0].down else (along, across)
        return origin[0] + x, origin[1] - y

    def _lane(
        self, pen: Pen, origin: Point, places: Sequence[RunPlace], labels: list[tuple[float, str]], before: bool
    ) -> None:
        """Draw each stretch with names and grain in the fronts, and words on one side."""
        for place in places:
            left, top = self._at(origin, float(place.start), 0.0)
            right, low = self._at(origin, float(place.end), float(self.runs[0].run.width))
            kept = place.kind in ("front", "divider")
            pen.box(left, low, right, top, _TINTS[place.kind], "visible" if kept else "thin", place.kind == "spacer")
            if place.kind == "front":
                middle, high = (left + right) / 2, top - low
                for end in (left, right):
                    pen.arrow((middle, low + high * 0.22), ((middle + end) / 2, low + high * 0.22), "thin")
                choices = (place.name, place.name.split(", ")[-1], "")
                name = fitting_words(choices, (right - left) * pen.scale - 2.0 if high * pen.scale > 6.0 else 0.0)
                pen.centred((middle, low + high * 0.6), name, "small", clear=False)
        self._fan(pen, origin, labels, before)

    def _fan(self, pen: Pen, origin: Point, labels: list[tuple[float, str]], before: bool) -> float:
        """Words over a row or left of a column, or on the other side, spread to stand clear; how far they reach."""
        down, way = self.runs[0].down, -1.0 if before else 1.0
        edge = 0.0 if before else float(self.runs[0].run.width)
        labels = labels[:: ceil(len(labels) / _MOST_LABELS) or 1]
        wanted = [along for along, _ in labels]
        for (along, words), place in zip(labels, spread(wanted, pen.mm(_APART_MM)), strict=True):
            steps = (along, 0.3), (along, 1.3), (place, _FAN_MM - 0.8), (place + pen.mm(_SINK_MM), _FAN_MM)
            *line, at = (self._at(origin, u, edge + way * pen.mm(v)) for u, v in steps)
            pen.line(*line, kind="dimension")
            pen.text(at, words, "small", "end" if before == down else "start", 0.0 if down else 90.0)
        return pen.mm(_FAN_MM + max((text_width_mm(words, "small") for _, words in labels), default=0.0))

    def _jumps(self, unit: Unit) -> list[str]:
        """What each joint's figure does, sawn apart by one cut and as laid out."""
        jumps = (
            [_signed(jump, unit) for jump in dict.fromkeys((joint.jump_tight, joint.jump))]
            for joint in self.runs[0].run.joints
        )
        return [f"jump {'; '.join(found)}" + " as laid out" * (len(found) > 1) for found in jumps]

    def _notes(self, unit: Unit) -> Iterator[str]:
        """What the picture says, and what each board must measure."""
        yield from _NOTES
        down, kinds = self.runs[0].down, {place.kind for place in self.runs[0].run.places}
        if down or "divider" in kinds:
            yield _DOWN if down else _CROSS_GRAIN
        whole = sorted({joint.jump_with_divider for joint in self.runs[0].run.joints if joint.between})
        if whole:  # pieces of another board stand between these
            ends = " to ".join(_signed(jump, unit) for jump in dict.fromkeys((whole[0], whole[-1])))
            yield f"Were the divider cut from the same board, the jump from front to front would be {ends}."
        for run in self.runs[:_MOST_BOARDS]:
            sizes = [written(size, unit, round_up=True) for size in (run.run.length, run.run.width)]
            long, wide = sizes[::-1] if down else sizes
            name = run.name if run.down else f"of {run.name}"
            yield f"Board {name}: {long} along the grain, {wide} across it, trim counted; sound wood throughout."

    def told(self, unit: Unit) -> tuple[str, list[str]]:
        """The caption, and the sheet in sentences.

        Args:
            unit: "mm" or "in".

        Returns:
            Both, for the drawing.
        """
        run, names, jumps = self.runs[0].run, together(run.name for run in self.runs), self._jumps(unit)
        caption = f"Grain run of {self.piece}, {names}: {written(run.length, unit)} of board along the run."
        places = (place for place in run.places if place.kind not in ("kerf", "trim"))
        laid = [f"{place.name} from {written(place.start, unit)} to {written(place.end, unit)}" for place in places]
        told = "; ".join(f"{' to '.join(j.neighbours)}: {words}" for j, words in zip(run.joints, jumps, strict=True))
        spoken = [caption, f"On the board: {', '.join(laid)}.", f"{told}.", *self._notes(unit), _FREE]
        return f"{caption}\nThe figure: {', '.join(dict.fromkeys((jumps[0], jumps[-1])))}.", spoken


def _signed(jump: Value, unit: Unit) -> str:
    return f"{'+' if jump > 0 else ''}{written(jump, unit)}"
