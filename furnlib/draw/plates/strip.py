"""Plate 6, to cut out: the four faces of a square leg unrolled at full size, with both its end lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from textwrap import wrap

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_angle, write_length
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.groups import group_name, sawn
from furnlib.draw.plates.saw_card import ORIENTATION_WORDS, face_names, hand_of, has_hand
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import LegSizes, mirror_groups
from furnlib.trade.cautions import MACHINE, TABLE_SAW

_Span = tuple[float, float]

_ROOM_MM = (184.0, 221.0)
_HEAD_MM = 20.5  # the words above
_TAB_MM = 8.0
_WASTE_MM = 3.5  # of paper past the end lines
_GAP_MM = 6.0  # between two cuffs
_LEAST_MM = 8.0  # of wood under a cuff
_BELOW_MM = 42.0  # with so much left below, the leg is drawn from above as well
_KEY_MM = 16.0
_LARGE_MM = 24.0  # from this thickness on the faces hold larger words
_FACE_OF = {frozenset((0, 1)): 0, frozenset((0, 3)): 1, frozenset((2, 3)): 2, frozenset((1, 2)): 3}
_LETTERS = "ABAB"  # A on the edge where the first of two sheets begins and the second ends
_PRINT = "Print at 100 %: measure the bar first. Cut out on thin lines, fold on dashed ones."
_WRAP = "Wrap round the square, print outward, outer corner at the arrow; knife along the heavy line, and cut to it."
_AT_SAW = (
    "Hatched: falls off, and must be free to fall. Mitre gauge or fence, not both; clamp the leg; try waste first."
)


@dataclass(frozen=True)
class _Sheet:
    """What one sheet holds.

    Args:
        legs: of one lean and one hand.
        edges: the long edges from the top of the sheet down; the last one is glued to the first.
        number: of this sheet for its leg, from 1.
        count: how many sheets the leg takes.
    """

    legs: tuple[LegSizes, ...]
    edges: tuple[int, ...]
    number: int = 1
    count: int = 1

    @property
    def offsets(self) -> tuple[float, ...]:
        """How far past the axis each of its edges reaches at the foot."""
        cut = sawn(self.legs[0])[1]
        return tuple(float(cut.edge_offsets[edge]) for edge in self.edges)

    @property
    def faces(self) -> tuple[int, ...]:
        """Its faces from the top down, counted as `face_names` has them."""
        return tuple(_FACE_OF[frozenset(pair)] for pair in pairwise(self.edges))

    def cuffs(self, mm: float) -> tuple[_Span, ...]:
        """The parts along the leg that are on paper, from the axis mark at the foot.

        Args:
            mm: the piece's length for a mm on paper, at full size.

        Returns:
            One part, or two where the leg is longer than the sheet.
        """
        length, waste, room = float(sawn(self.legs[0])[1].axis_length), _WASTE_MM * mm, _ROOM_MM[0] * mm
        start, end = -max(self.offsets) - waste, length - min(self.offsets) + waste
        cuff = (room - _GAP_MM * mm) / 2
        if self.legs[0].drilling:
            return ((start, min(start + room, length)),)
        return ((start, end),) if end - start <= room else ((start, start + cuff), (end - cuff, end))

    def fits(self, mm: float) -> bool:
        """Tell whether faces and ends have room."""
        high = (len(self.edges) - 1) * float(sawn(self.legs[0])[0]) + (_HEAD_MM + _TAB_MM) * mm
        steep = max(self.offsets) - min(self.offsets) + (_WASTE_MM + _LEAST_MM) * mm
        return high <= _ROOM_MM[1] * mm and steep <= min(end - start for start, end in self.cuffs(mm))


def _sheets(piece: Piece) -> list[_Sheet]:
    """Every sheet of strips, in the order of the legs."""
    sheets: list[_Sheet] = []
    mm = 1 / MM_UNIT[piece.design.unit]
    for group in mirror_groups(piece.legs):
        hands: dict[int, list[LegSizes]] = {}
        for leg in group if group[0].end_cut else ():
            hands.setdefault(hand_of(leg) if has_hand(leg) else 0, []).append(leg)
        for legs in hands.values():
            sheets.extend(_sheets_of_a_leg(tuple(legs), mm))
    return sheets


def _sheets_of_a_leg(legs: tuple[LegSizes, ...], mm: float) -> list[_Sheet]:
    """All faces on one sheet where they fit, or the faces of the longest edge and of the shortest.

    Seen from outside with the foot down, the outer side of a front left leg lies left of its front.
    """
    turn = hand_of(legs[0])
    whole = _Sheet(legs, tuple((2 + turn * i) % 4 for i in range(5)))
    if whole.fits(mm):
        return [whole]
    offsets = sawn(legs[0])[1].edge_offsets
    first = 0 if abs(offsets[0]) >= abs(offsets[1]) else 1
    edges = (tuple((middle + turn * i) % 4 for i in (-1, 0, 1)) for middle in (first, first + 2))
    pairs = [_Sheet(legs, three, number, 2) for number, three in enumerate(edges, 1)]
    return pairs if all(pair.fits(mm) for pair in pairs) else []


def sheets_of_strips(piece: Piece) -> int:
    """Count the sheets that the strips take: one for each lean and hand, two where the leg is thick.

    Args:
        piece: a finished piece.

    Returns:
        How many sheets; 0 where the legs are turned, or too thick or too steep for any sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sheets_of_strips(read_piece("notebooks/designs/landing_chest.yaml"))
        4
    """
    return len(_sheets(piece))


def strip_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw the four faces of a leg side by side, to cut out and wrap round the square.

    Args:
        piece: a finished piece with square legs.
        scale: mm on paper for one unit of the piece; by default full size.
        number: of the sheet, from 1; each holds one lean and one hand.

    Returns:
        The faces in the order one meets them going round, foot to the left, with fold lines, end
        lines and what falls off; a leg longer than the sheet as two cuffs.

    Raises:
        DesignError: when the piece has no such strip.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> strip_plate(read_piece("notebooks/designs/landing_chest.yaml")).name
        'Strip 1'
    """
    unit, sheets = piece.design.unit, _sheets(piece)
    if not 1 <= number <= len(sheets):
        raise DesignError(
            f"There is no strip {number}: {piece.design.piece} has {len(sheets)}. Only square legs have strips, and"
            " only where faces and ends fit a sheet at full size."
        )
    strip = sheets[number - 1]
    pen = Pen(scale or MM_UNIT[unit], unit)
    y = -pen.mm(4.0)
    pen.text((0.0, y), _title(strip), "body", bold=True)
    y = pen.lines((0.0, y), _words(strip, unit), "small") - pen.mm(2.5)
    low = _Unrolled(pen, strip, y).draw(piece.design.piece)
    if _ROOM_MM[1] + low * pen.scale >= _BELOW_MM:
        _from_above(pen, strip.legs[0], low)
        _beside(pen, strip.legs[0], (pen.mm(69.0), low - pen.mm(2.0)))
        low = pen.reach()[1]
    cautions = int((_ROOM_MM[1] + low * pen.scale) / (TEXT_MM["small"] * 1.5) - 0.5)
    pen.lines((0.0, low - pen.mm(1.0)), (*TABLE_SAW, *MACHINE)[:cautions], "small", 1.5)
    return pen.drawing(
        f"Strip {number}" if len(sheets) > 1 else "Strip",
        caption=_caption(piece, strip),
        spoken=_spoken(piece, strip),
        formulas=("end_cut.mitre", "end_cut.edge", "lean.axis_length"),
    )


@dataclass(frozen=True)
class _Unrolled:
    """A strip on its place: along the leg to the right, round the leg downward.

    Args:
        pen: the plate's pen.
        strip: what it shows.
        top: how high its first edge lies.
    """

    pen: Pen
    strip: _Sheet
    top: float

    @property
    def _square(self) -> float:
        return float(sawn(self.strip.legs[0])[0])

    @property
    def _axis(self) -> float:
        return float(sawn(self.strip.legs[0])[1].axis_length)

    @property
    def _cuffs(self) -> tuple[_Span, ...]:
        return self.strip.cuffs(1 / MM_UNIT[self.pen.unit])

    def _at(self, along: float, round_: float) -> Point:
        """A point so far up the leg from the foot's mark, and so far round it from the first edge."""
        first, last = self._cuffs[0], self._cuffs[-1]
        left_out = max(last[0] - first[1] - self.pen.mm(_GAP_MM), 0.0) if last is not first and along >= last[0] else 0
        return along - first[0] - left_out, self.top - round_

    def _line_at(self, past: float) -> tuple[Point, ...]:
        """The end line whose axis point lies so far up the leg."""
        return tuple(self._at(past - off, i * self._square) for i, off in enumerate(self.strip.offsets))

    def draw(self, name: str) -> float:
        """Draw it, and say how low it reaches."""
        pen, sawn_top = self.pen, self.strip.legs[0].drilling is None
        wide = self._square * (len(self.strip.edges) - 1)
        ends = [(0.0, self._cuffs[0][0]), *([(self._axis, self._cuffs[-1][1])] if sawn_top else [])]
        for mark, paper in ends:
            line = self._line_at(mark)
            pen.shape((*line, self._at(paper, wide), self._at(paper, 0.0)), "far", "", hatch=True)
        for start, end in self._cuffs:
            self._paper(start, end, wide)
        for mark, _ in ends:
            pen.line(self._at(mark, 0.0), self._at(mark, wide), kind="centre")
            pen.line(*self._line_at(mark), kind="cut")
        self._words(name)
        if self.strip.count > 1:
            self._register()
        if sawn_top:
            level = (len(self.strip.faces) - 0.22) * self._square
            pen.dimension(self._at(0.0, level), self._at(self._axis, level), 0.0, written(self._axis, pen.unit))
        if len(self._cuffs) > 1:
            gap = (self._at(self._cuffs[0][1], wide / 2)[0] + pen.mm(_GAP_MM / 2 + 0.8), self.top - wide / 2)
            pen.text(gap, "the middle of the leg is left out", "small", "middle", 90.0)
        return self.top - wide - pen.mm(_TAB_MM)

    def _paper(self, start: float, end: float, wide: float) -> None:
        """Outline, folds and tab of one cuff."""
        pen, tab, slant = self.pen, self.pen.mm(_TAB_MM), self.pen.mm(3.0)
        corners = [self._at(start, wide), self._at(start, 0.0), self._at(end, 0.0), self._at(end, wide)]
        glued = [self._at(start + slant, wide + tab), self._at(end - slant, wide + tab)]
        pen.line(*corners, *reversed(glued), kind="thin", closed=True)
        for i in range(1, len(self.strip.edges)):
            pen.line(self._at(start, i * self._square), self._at(end, i * self._square), kind="hidden")
        middle = self._at((start + end) / 2, wide + tab / 2 + pen.mm(0.8))
        if (end - start) * pen.scale > 30.0:
            pen.text(middle, "glue tab, goes under", "small", "middle")

    def _clear(self, cuff: _Span, offsets: Sequence[float]) -> _Span:
        """The room along a cuff between the marks and the end lines of some edges."""
        return max(cuff[0], 0.0, -min(offsets)), min(cuff[1], self._axis, self._axis - max(offsets))

    def _words(self, name: str) -> None:
        """Names, angles and arrows on the faces; on one of them what the strip belongs to."""
        strip, leg = self.strip, self.strip.legs[0]
        names, cut = face_names(leg), sawn(leg)[1]
        for number, cuff in enumerate(self._cuffs):
            for i, face in enumerate(strip.faces):
                setting = cut.side_down if face % 2 else cut.front_down
                angle = write_angle(setting.mitre_deg)
                rows = [names[face], "square across" if angle == "0°" else f"{angle} off square"]
                if i == 1 and number == 0:
                    rows += _belongs(strip, name)
                self._rows(rows, self._clear(cuff, strip.offsets[i : i + 2]), i)
            for i, edge in enumerate(strip.edges):
                if edge == 0:
                    self._arrow(self._clear(cuff, strip.offsets[i : i + 1]), i)

    def _rows(self, rows: list[str], span: _Span, face: int) -> None:
        """Lines of words in the upper part of a face, those that fit."""
        pen = self.pen
        size = "body" if self._square * pen.scale > _LARGE_MM else "small"
        room, step = (span[1] - span[0]) * pen.scale - 6.0, TEXT_MM[size] * 1.5
        fitting = [row for row in rows if text_width_mm(row, size) * 1.1 <= room]
        first = 1 if face == 0 and self.strip.edges[0] == 0 else 0  # below the words of the arrow on that edge
        for i, row in enumerate(fitting[: int((self._square * pen.scale - 6.5) / step) - first]):
            at = self._at(span[0], face * self._square)
            pen.text((at[0] + pen.mm(3.0), at[1] - pen.mm((i + 1 + first) * step)), row, size, bold=i == 0)

    def _arrow(self, span: _Span, edge: int) -> None:
        """The way up, on the outer corner."""
        pen, level, middle = self.pen, edge * self._square, sum(span) / 2
        reach = min(pen.mm(12.0), (span[1] - span[0]) / 3)
        tail, tip = self._at(middle - reach, level), self._at(middle + reach, level)
        barb, half = tip[0] - pen.mm(4.0), pen.mm(1.4)
        pen.line(tail, tip)
        pen.shape((tip, (barb, tip[1] + half), (barb, tip[1] - half)), "ink", "")
        words = f"{_corner(self.strip.legs[0])}, up"
        taken = 0.0 if 0 < edge < len(self.strip.faces) else 20.0  # by the letters where two sheets join
        if text_width_mm(words, "small") + taken < (span[1] - span[0]) * pen.scale:
            beside = pen.mm(-3.6 if edge == 0 else 2.0)
            pen.text((tail[0] + reach, tip[1] + beside), words, "small", "middle")

    def _register(self) -> None:
        """Where two sheets of one leg join: a letter on either edge, a ring on every mark."""
        pen, strip = self.pen, self.strip
        for i in (0, len(strip.edges) - 1):
            level = i * self._square
            for mark in (0.0, self._axis):
                pen.circle(self._at(mark, level), pen.mm(1.2), "thin")
            end = self._clear(self._cuffs[0], strip.offsets[i : i + 1])[1]
            letter = self._at(end - pen.mm(7.0), level)
            pen.text((letter[0], letter[1] + pen.mm(1.5 if i else -4.0)), _LETTERS[strip.edges[i]], bold=True)


def _legs_of(strip: _Sheet) -> str:
    name = group_name(strip.legs)
    return name if name.endswith("legs") else f"{name} {'leg' if len(strip.legs) == 1 else 'legs'}"


def _corner(leg: LegSizes) -> str:
    """On the sight line there are two such corners, and one strip serves both hands."""
    return "an outer corner" if sawn(leg)[1].orientation == "sightline" else "outer corner"


def _title(strip: _Sheet) -> str:
    part = ", left and right as seen from the front" if strip.count == 1 else f", sheet {strip.number} of 2"
    return f"{_legs_of(strip)}: strip to wrap round, full size{part}"


def _words(strip: _Sheet, unit: Unit) -> tuple[str, ...]:
    """How to use it."""
    axis = written(sawn(strip.legs[0])[1].axis_length, unit)
    marks = f"Long-and-short lines: marks square round the leg, {axis} apart, the length of its axis."
    if strip.legs[0].drilling:
        marks = f"Long-and-short line: a mark square round the leg, {axis} below the seat; the top goes into the seat."
    elif len(strip.cuffs(1 / MM_UNIT[unit])) > 1:
        marks = (
            f"Strike two lines square round the blank, {axis} apart; the long-and-short lines of the cuffs go on them."
        )
    join = "" if strip.count == 1 else f" Join to sheet {3 - strip.number}: A to A, B to B."
    return _PRINT + join, _WRAP, marks, _AT_SAW


def _belongs(strip: _Sheet, name: str) -> list[str]:
    """What stands on the strip once it is cut out."""
    orientation = ORIENTATION_WORDS[sawn(strip.legs[0])[1].orientation].partition(":")[0].lower()
    mixed = has_hand(strip.legs[0]) and len({leg.outward[1] for leg in strip.legs}) > 1
    return [_legs_of(strip), *(["on rear legs read back for front"] if mixed else []), name, orientation]


def _from_above(pen: Pen, leg: LegSizes, top: float) -> None:
    """The foot's outline in plan with the names of its faces."""
    factor = pen.mm(_KEY_MM) / float(sawn(leg)[0])
    centre = (pen.mm(35.5), top - pen.mm(25.0))
    corners = [((x - leg.foot[0]) * factor, (y - leg.foot[1]) * factor) for x, y in leg.foot_corners]
    pen.shape([(centre[0] + x, centre[1] + y) for x, y in corners], "wood")
    pen.dot((centre[0] + corners[0][0], centre[1] + corners[0][1]), 1.0)
    places = [(_corner(leg), (0, 0)), *((face_names(leg)[face], tuple(pair)) for pair, face in _FACE_OF.items())]
    for words, edges in places:
        x, y = (sum(corners[edge][i] for edge in edges) / 2 for i in (0, 1))
        out = 1 + pen.mm(2.5) / (x * x + y * y) ** 0.5
        anchor = "middle" if abs(x) < pen.mm(3.0) else "start" if x > 0 else "end"
        pen.text((centre[0] + x * out, centre[1] + y * out - pen.mm(0.8 if y > 0 else 1.4)), words, "small", anchor)
    pen.text((0.0, top - pen.mm(4.5)), f"The {leg.position} leg from above, front of the piece below", "small")


def _beside(pen: Pen, leg: LegSizes, at: Point) -> None:
    """How far each edge reaches past its mark, and what the orientation means."""
    cut, names = sawn(leg)[1], face_names(leg)
    columns = ("at the foot", "at the top") if leg.drilling is None else ("at the foot",)
    rows = [("past the mark", *columns)]
    for edge, offset in enumerate(cut.edge_offsets):
        first, second = (names[face] for pair, face in _FACE_OF.items() if edge in pair)
        size = written(abs(offset), pen.unit)
        shown = [size] * 2 if size == "0" else [f"{size} past", f"{size} short"][:: 1 if offset > 0 else -1]
        rows.append((f"{first} / {second}", *shown[: len(columns)]))
    _, y = pen.table(at, rows)
    pen.lines((at[0], y - pen.mm(1.0)), wrap(ORIENTATION_WORDS[cut.orientation], 58))


def _caption(piece: Piece, strip: _Sheet) -> str:
    unit, (square, cut) = piece.design.unit, sawn(strip.legs[0])
    first, second, *_ = face_names(strip.legs[0])
    longest = written(max(cut.edge_offsets), unit)
    return (
        f"{_legs_of(strip)} of {piece.design.piece}: the faces of the {written(square, unit)} square unrolled, with"
        f" the end lines.\nThe {first} face {write_angle(cut.front_down.mitre_deg)} off square, the {second} face"
        f" {write_angle(cut.side_down.mitre_deg)}; the longest edge {longest} past the mark at the foot."
    )


def _spoken(piece: Piece, strip: _Sheet) -> str:
    unit, (square, cut) = piece.design.unit, sawn(strip.legs[0])
    names = [face_names(strip.legs[0])[face] for face in strip.faces]
    wide, long = (write_length(size, unit, style="spoken") for size in (square, cut.axis_length))
    return (
        f"Full-size strip to wrap round the square of the {_legs_of(strip).lower()} of {piece.design.piece}, foot to"
        f" the left. Faces from the top: {', '.join(names)}; each {wide} wide. {long} along the axis."
    )
