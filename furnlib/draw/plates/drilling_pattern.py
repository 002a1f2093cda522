"""Plate 3, at full size: where each front is drilled for its pulls, from its left edge and its lower edge."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.full_size import FullSize
from furnlib.draw.plates.together import together
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.draw.style import TEXT_MM
from furnlib.plan.piece import CasePiece, Piece
from furnlib.trade.cautions import DRILLING
from furnlib.trade.drawer.pulls import DrillingPattern

_ACROSS_MM, _UP_MM = 300, 105  # the most from an edge or a hole to the next hole on the same paper
_PAST_MM, _BEFORE_MM = 16, 35  # of paper past a hole; before it, where no edge is in reach
_STEP = {"mm": Fraction(5), "in": Fraction(1, 4)}  # a line that is no edge of the front stands at an easy figure
_APART_MM, _CROSS_MM, _FAN_MM, _FOLD_MM, _SINK_MM = 3.0, 3.0, 4.2, 180.0, TEXT_MM["small"] * 0.36
_USE = (
    "Measure the bar. Cut along the heavy lines, lay them flush with the edges they name, face of the front to you, and"
    " prick each cross through. Figures run from the front's left edge, as seen from the front, and its lower edge."
)
_MARK = "Where a heavy line is no edge, draw it on the front first, at the distance that it names."
_CLAMP = "Clamp the front on a spare board, face up, and drill through into that; no hand holds it."


@dataclass(frozen=True)
class PatternPaper:
    """A paper with holes of one front, and of all that are drilled like it.

    Args:
        pattern: where the front is drilled.
        size: width and height of the front.
        names: of all fronts that are alike.
        holes: those on this paper, from the front's left edge.
    """

    pattern: DrillingPattern
    size: tuple[Fraction, Fraction]
    names: tuple[str, ...]
    holes: tuple[Fraction, ...]


def pattern_papers(piece: Piece) -> tuple[PatternPaper, ...]:
    """Share the fronts of a piece out over papers.

    Args:
        piece: a finished piece.

    Returns:
        One for each front that differs, more where its holes lie far apart; none without pulls.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [paper.names for paper in pattern_papers(read_piece("notebooks/designs/landing_chest.yaml"))][:2]
        [('row 1, drawer 1', 'row 1, drawer 2'), ('row 2',)]
    """
    found: dict[object, list[tuple[DrillingPattern, tuple[Fraction, Fraction]]]] = {}
    for drawer in piece.drawers if isinstance(piece, CasePiece) else ():
        front = drawer.part("front")
        size = Fraction(front.length.value), Fraction(front.width.value)
        for pattern in drawer.patterns:
            found.setdefault((size, pattern.from_left, pattern.from_lower), []).append((pattern, size))
    papers, reach = [], _ACROSS_MM / Fraction(MM_UNIT[piece.design.unit])
    for alike in found.values():
        (pattern, size), shared = alike[0], [[Fraction(0)]]  # the left edge, then holes
        for hole in pattern.from_left:
            if hole - shared[-1][-1] > reach:
                shared.append([])
            shared[-1].append(hole)
        names = tuple(one.name for one, _ in alike)
        papers += [PatternPaper(pattern, size, names, tuple(holes)) for holes in (shared[0][1:], *shared[1:]) if holes]
    return tuple(papers)


def drilling_pattern_plate(piece: Piece, number: int = 1) -> Drawing:
    """Draw a sheet of a drilling pattern, at full size.

    Args:
        piece: a case whose design says how drawers and pulls are.
        number: of the sheet, from 1, counted over the patterns of all fronts that differ.

    Returns:
        A paper to cut out along the front's left and lower edge, or along lines at a named distance
        from them, with a cross for each hole; one longer than the sheet goes on over the next.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> drilling_pattern_plate(read_piece("notebooks/designs/landing_chest.yaml")).name
        'Drilling pattern 1'
    """
    return DRILLING_PATTERN.sheet(piece, number)


def _draw(piece: Piece, number: int) -> Drawing:
    """The paper lying: its left heavy line at zero, the lower one below."""
    paper, unit = pattern_papers(piece)[number - 1], piece.design.unit
    pen, made, (wide, high), mm = Pen(MM_UNIT[unit], unit), paper.pattern, paper.size, 1 / Fraction(MM_UNIT[unit])
    up, step, last = made.from_lower, _STEP[unit], paper.holes[-1]
    left = Fraction(0) if paper.holes[0] <= _ACROSS_MM * mm else (paper.holes[0] - _BEFORE_MM * mm) // step * step
    lower = Fraction(0) if up <= _UP_MM * mm else (up - _BEFORE_MM * mm) // step * step
    right, top = (float(end) for end in (min(last + _PAST_MM * mm, wide) - left, min(up + _PAST_MM * mm, high) - lower))
    for start, end, whole in (
        ((right, 0.0), (right, top), last + _PAST_MM * mm >= wide),
        ((right, top), (0.0, top), up + _PAST_MM * mm >= high),
    ):
        pen.line(*((start, end) if whole else pen.broken(start, end)), kind="thin")
    pen.line((0.0, top), (0.0, 0.0), (right, 0.0), kind="cut")
    level = float(up - lower)
    pen.line((0.0, level), (right, level), kind="centre")
    for line in made.lines:
        if 0.0 < (x := float(line - left)) < right:
            pen.line((x, 0.0), (x, top), kind="centre")
    arm, places = pen.mm(_CROSS_MM), [float(hole - left) for hole in paper.holes]
    for hole, x, place in zip(paper.holes, places, spread(places, pen.mm(_APART_MM)), strict=True):
        pen.line((x - arm, level), (x + arm, level), kind="thin")
        pen.line((x, level - arm), (x, level + arm), kind="thin")
        pen.circle((x, level), float(made.hole_diameter) / 2)
        pen.line((x, top + pen.mm(0.4)), (x, top + pen.mm(1.4)), (place, top + pen.mm(_FAN_MM - 0.8)), kind="dimension")
        at = place - pen.mm(_SINK_MM), top + pen.mm(_FAN_MM)
        pen.text(at, written(hole, unit), "small", "end", turn_deg=-90.0)
    pen.text((right + pen.mm(1.5), level - pen.mm(_SINK_MM)), written(up, unit), "small")
    whose, bore, screw = (
        together(paper.names),
        f"⌀ {written(made.hole_diameter, unit)}",
        written(made.screw_length, unit),
    )
    beside, below = (
        f"{written(away, unit)} from the {edge}" if away else edge
        for away, edge in ((left, "left edge"), (lower, "lower edge"))
    )
    beside = fitting_words((beside, beside.split(" ")[0]), top * pen.scale - 5.0)
    pen.text((pen.mm(1.6), pen.mm(4.5)), beside, "small", "end", turn_deg=-90.0, clear=True)
    choices = f"{below} of {whose}, {bore}, screw {screw}", f"{below} of {paper.names[0]}", below
    pen.text((pen.mm(5.5), pen.mm(1.3)), fitting_words(choices, right * pen.scale - 7.0), "small", clear=True)
    front = " x ".join(written(size, unit) for size in paper.size)
    said = [f"{whose.capitalize()}, {front}: holes {bore}, screws {screw} long under the head.", _USE]
    said += [_MARK] * bool(left or lower) + [f"{_CLAMP} {DRILLING[2]}"]
    pen.paragraphs((0.0, pen.mm(-1.0)), said, _FOLD_MM)
    caption = f"Drilling pattern for {whose} of {piece.design.piece}, full size; fronts alike: {len(paper.names)}."
    holes = ", ".join(written(hole, unit) for hole in paper.holes)
    told = f"Holes {holes} from the left edge, {written(up, unit)} from the lower edge."
    return pen.drawing(
        "Drilling pattern",
        caption=f"{caption}\n{told}",
        spoken=" ".join((caption, told, *said, f"Lengths in {unit}.")),
        formulas=("pulls.line", "pulls.hole"),
    )


DRILLING_PATTERN = FullSize(
    "Drilling pattern",
    lambda piece: [together(paper.names).capitalize() for paper in pattern_papers(piece)],
    _draw,
    "only drawers with pulls have one",
)
