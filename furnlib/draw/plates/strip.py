"""Plate 6, to cut out: the four faces of a square leg unrolled at full size, with both its end lines."""

from __future__ import annotations

from dataclasses import dataclass

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_angle
from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import cautions, finished
from furnlib.draw.plates.faces import ORIENTATION_WORDS, SquareLeg, Unrolled, square_leg
from furnlib.draw.plates.groups import NEVER_DEG, Group, group_name
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import mirror_groups
from furnlib.trade.cautions import MACHINE, TABLE_SAW

_Span = tuple[float, float]

_ROOM_MM = (184.0, 221.0)
_HEAD_MM = 20.5  # the words above
_TAB_MM = 8.0
_WASTE_MM = 3.5  # of paper past the end lines
_LEAST_MM = 8.0  # of wood under it
_CAUTIONS_MM = 38.0
_LARGE_MM = 24.0  # from this thickness on the faces hold larger words
_LETTERS = "ABAB"  # A on the edge where the first of two sheets begins and the second ends
_PRINT = "Print at 100 %: measure the bar first. Cut out on thin lines, fold on dashed ones."
_WRAP = "Wrap round the square, print outward, outer corner at the arrow; knife along the heavy line, and cut to it."
_AT_SAW = (
    "Hatched: falls off, and must be free to fall. Mitre gauge or fence, not both; clamp the leg; try waste first."
)


@dataclass(frozen=True)
class _Strip:
    """What one sheet holds, at full size.

    Args:
        legs: of one lean and one hand.
        made: the first of them.
        flat: its faces from the top of the sheet down; the last edge is glued to the first.
        mm: the piece's length for a mm on paper.
        number: of the sheet where the leg takes two; 0 where it takes one.
    """

    legs: Group
    made: SquareLeg
    flat: Unrolled
    mm: float
    number: int = 0

    @property
    def axis(self) -> float:
        return float(self.made.end_cut.axis_length)

    @property
    def reach(self) -> tuple[float, float]:
        """From where to where along the leg the paper goes, from the mark at the foot."""
        offsets, waste, room = self.flat.edge_offsets, _WASTE_MM * self.mm, _ROOM_MM[0] * self.mm
        start, end = -max(offsets) - waste, self.axis - min(offsets) + waste
        if self.made.leg.turned:
            return max(self.axis - self.made.leg.turned.profile.joints[1], end - room), end
        both = end - start <= room and not self.made.leg.drilling
        return start, end if both else min(start + room, self.axis)

    @property
    def marks(self) -> tuple[float, ...]:
        """The marks on it, from the one at the foot: foot and top; of a turned leg the top alone, on its square."""
        start, end = self.reach
        return tuple(at for at in (0.0, self.axis) if start < at < end)

    @property
    def fits(self) -> bool:
        """Whether faces and ends have room."""
        (start, end), offsets = self.reach, self.flat.edge_offsets
        high = len(self.flat.faces) * float(self.made.square) + (_HEAD_MM + _TAB_MM) * self.mm
        steep = max(offsets) - min(offsets) + (_WASTE_MM + _LEAST_MM) * self.mm
        return high <= _ROOM_MM[1] * self.mm and steep <= end - start


def strips(piece: Piece) -> list[_Strip]:
    """Every strip of a piece: one for each lean and hand, two where the leg is thick.

    Args:
        piece: a finished piece.

    Returns:
        In the order of the legs; none where these are turned, or too thick or too steep for any sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> len(strips(read_piece("notebooks/designs/landing_chest.yaml")))
        4
    """
    found: list[_Strip] = []
    for group in mirror_groups(piece.legs):
        hands: dict[int, list[SquareLeg]] = {}
        for made in filter(None, map(square_leg, group)):
            hands.setdefault(made.hand, []).append(made)
        for alike in hands.values():
            found += _sheets_of(tuple(made.leg for made in alike), alike[0], 1 / MM_UNIT[piece.design.unit])
    return found


def _sheets_of(legs: Group, made: SquareLeg, mm: float) -> list[_Strip]:
    """All faces on one sheet where they fit, or the faces of the longest edge and of the shortest."""
    first = max((0, 1), key=lambda edge: abs(made.end_cut.edge_offsets[edge]))
    halves = [_Strip(legs, made, made.unrolled(first + 2 * i, 2), mm, i + 1) for i in (0, 1)]
    ways = ([_Strip(legs, made, made.unrolled(), mm)], halves)
    return next((sheets for sheets in ways if all(sheet.fits for sheet in sheets)), [])


def strip_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw the four faces of a leg side by side, to cut out and wrap round the square.

    Args:
        piece: a finished piece with square legs.
        scale: mm on paper for one unit of the piece; by default full size.
        number: of the sheet, from 1; each holds one lean and one hand.

    Returns:
        The faces in the order one meets them going round, foot to the left, with fold lines, end
        lines and what falls off; a leg longer than the sheet has its line at the foot alone.

    Raises:
        DesignError: when the piece has no such strip.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> strip_plate(read_piece("notebooks/designs/landing_chest.yaml")).name
        'Strip 1'
    """
    unit, sheets = piece.design.unit, strips(piece)
    if not 1 <= number <= len(sheets):
        raise DesignError(
            f"There is no strip {number}: {piece.design.piece} has {len(sheets)}. Only square legs have strips, and"
            " only where faces and ends fit a sheet at full size."
        )
    strip = sheets[number - 1]
    pen = Pen(scale or MM_UNIT[unit], unit)
    part = f", sheet {strip.number} of 2" if strip.number else ", left and right as seen from the front"
    title = f"{group_name(strip.legs)}: strip to wrap round, full size{part}"
    pen.text((0.0, -pen.mm(4.0)), title, "body", bold=True)
    y = pen.lines((0.0, -pen.mm(4.0)), _words(strip, unit), "small") - pen.mm(2.5)
    low = _unroll(pen, strip, y, piece.design.piece)
    if _ROOM_MM[1] + low * pen.scale >= _CAUTIONS_MM:
        low = pen.lines((0.0, low - pen.mm(1.0)), [ORIENTATION_WORDS[strip.made.end_cut.orientation]], "small", 1.5)
        cautions(pen, (0.0, low - pen.mm(1.0)), "At the table saw", (*TABLE_SAW, *MACHINE))
    faces = map(" ".join, zip(strip.flat.faces, map(_off_square, strip.flat.mitres_deg), strict=True))
    longest = written(max(strip.made.end_cut.edge_offsets), unit)
    return finished(
        pen,
        f"Strip {number}" if len(sheets) > 1 else "Strip",
        (strip.legs,),
        f"Strip to wrap round the {written(strip.made.square, unit)} square of {piece.design.piece}: the end lines.",
        [f": the longest edge {longest} past the mark at the foot"],
        [[f"Foot to the left; faces from the top: {', '.join(faces)}.", *_words(strip, unit)]],
        ("end_cut.mitre", "end_cut.edge", "lean.axis_length"),
    )


def _unroll(pen: Pen, strip: _Strip, y: float, name: str) -> float:
    """The strip below a height, along the leg to the right, round the leg downward; how low it reaches."""
    (start, end), square, flat = strip.reach, float(strip.made.square), strip.flat
    low, right = y - len(flat.faces) * square, end - start
    for place in strip.marks:
        mark, paper = place - start, right if place else 0.0
        line = [(mark - off, y - i * square) for i, off in enumerate(flat.edge_offsets)]
        pen.shape((*line, (paper, low), (paper, y)), "far", "", hatch=True)
        pen.line((mark, y), (mark, low), kind="centre")
        pen.line(*line, kind="cut")
    tab, slant = low - pen.mm(_TAB_MM), pen.mm(3.0)
    glued = ((right - slant, tab), (slant, tab))
    pen.line((0.0, low), (0.0, y), (right, y), (right, low), *glued, kind="thin", closed=True)
    if right > pen.mm(32.0):
        pen.text((right / 2, (low + tab) / 2 - pen.mm(0.8)), "glue tab, goes under", "small", "middle")

    def clear(*offsets: float) -> _Span:
        return max(0.0, -start - min(*offsets, 0.0)), min(right, strip.axis - start - max(*offsets, 0.0))

    for i, (face, mitre) in enumerate(zip(flat.faces, flat.mitres_deg, strict=True)):
        pen.line((0.0, y - (i + 1) * square), (right, y - (i + 1) * square), kind="hidden")
        rows = [face, _off_square(mitre), *(_belongs(strip, name) if i == 1 else ())]
        taken = 1 if i == flat.edges[0] == 0 else 0  # by the words of the arrow on that edge
        _rows(pen, rows, clear(*flat.edge_offsets[i : i + 2]), y - i * square, square, taken)
    for i, (edge, offset) in enumerate(zip(flat.edges, flat.edge_offsets, strict=True)):
        if edge == 0:
            _arrow(pen, strip, clear(offset), y - i * square, i)
        if strip.number and i in (0, 2):
            at = (clear(offset)[1] - pen.mm(7.0), y - i * square + pen.mm(1.5 if i else -4.0))
            pen.text(at, _LETTERS[edge], bold=True)
    if len(strip.marks) > 1:
        level = low + 0.22 * square
        pen.dimension((-start, level), (strip.axis - start, level), 0.0, written(strip.axis, pen.unit))
    return tab


def _rows(pen: Pen, rows: list[str], span: _Span, top: float, square: float, taken: int) -> None:
    """Lines of words in the upper part of a face, those that fit."""
    high, room = square * pen.scale, (span[1] - span[0]) * pen.scale - 6.0
    size = "body" if high > _LARGE_MM else "small"
    step = TEXT_MM[size] * 1.5
    fitting = [row for row in rows if text_width_mm(row, size) * 1.1 <= room]
    for i, row in enumerate(fitting[: int((high - 6.5) / step) - taken]):
        pen.text((span[0] + pen.mm(3.0), top - pen.mm((i + 1 + taken) * step)), row, size, bold=i == 0)


def _arrow(pen: Pen, strip: _Strip, span: _Span, y: float, edge: int) -> None:
    """The way up, on the outer corner."""
    x, room = sum(span) / 2, span[1] - span[0]
    reach = min(pen.mm(12.0), room / 3)
    pen.arrow((x - reach, y), (x + reach, y))
    words = f"{'an ' if strip.made.end_cut.orientation == 'sightline' else ''}outer corner, up"
    taken = 0.0 if 0 < edge < len(strip.flat.faces) else 20.0  # by the letters where two sheets join
    if text_width_mm(words, "small") + taken < room * pen.scale:
        pen.text((x, y + pen.mm(2.0 if edge else -3.6)), words, "small", "middle")


def _off_square(mitre_deg: float) -> str:
    return f"{write_angle(mitre_deg)} off square" if mitre_deg >= NEVER_DEG else "square across"


def _words(strip: _Strip, unit: Unit) -> tuple[str, ...]:
    """How to use it."""
    axis = written(strip.axis, unit)
    marks = f"Long-and-short lines: marks square round the leg, {axis} apart, the length of its axis."
    if len(strip.marks) == 1:
        marks = f"Long-and-short line: square round the leg. For the top slide the strip up by {axis}: the same line."
    if strip.made.leg.turned:
        marks = (
            "Long-and-short line: the mark at the top, square round what is left square. The foot is round: saw card."
        )
    if strip.made.leg.drilling:
        marks = f"Long-and-short line: a mark square round the leg, {axis} below the seat; the top goes into the seat."
    join = f" Join to sheet {3 - strip.number}: A to A, B to B." if strip.number else ""
    return _PRINT + join, _WRAP, marks, _AT_SAW


def _belongs(strip: _Strip, name: str) -> list[str]:
    """What stands on the strip once it is cut out."""
    orientation = ORIENTATION_WORDS[strip.made.end_cut.orientation].partition(":")[0].lower()
    mixed = strip.made.hand and len({leg.outward[1] for leg in strip.legs}) > 1
    return [group_name(strip.legs), *(["on rear legs read back for front"] if mixed else []), name, orientation]
