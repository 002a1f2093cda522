"""Where things come to stand: the room that a mark takes, folded lines, and parts at another size or turned."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from furnlib.base.angles import cosd, sind
from furnlib.draw.drawing import Arc, Mark, Point, Text
from furnlib.draw.style import TEXT_MM, text_width_mm

NO_BREAK = "\u00a0"
"""A space at which no line is folded."""


def extent(mark: Mark, mm: float) -> Iterable[Point]:
    """Points that hold a mark: its own, or the corners of the room that its letters take.

    Args:
        mark: a stroke, arc, fill or text.
        mm: the drawing's length for a mm on paper.

    Returns:
        Points in the drawing's unit.

    Example:
        >>> from furnlib.draw.drawing import Stroke
        >>> list(extent(Stroke(((0.0, 0.0), (1.0, 2.0))), 1.0))
        [(0.0, 0.0), (1.0, 2.0)]
    """
    if isinstance(mark, Arc):
        whole = (mark.start_deg, mark.end_deg) == (0.0, 360.0)
        return mark.points(90.0) if whole else mark.points()
    if not isinstance(mark, Text):
        return mark.points
    width, height = text_width_mm(mark.words, mark.size) * mm, TEXT_MM[mark.size] * mm
    if mark.bold:
        width *= 1.1
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[mark.anchor]
    c, s = (cosd(mark.turn_deg), sind(mark.turn_deg)) if mark.turn_deg else (1.0, 0.0)
    corners = [(start + x, y) for x in (0.0, width) for y in (-0.25 * height, 0.8 * height)]
    return [(mark.at[0] + x * c - y * s, mark.at[1] + x * s + y * c) for x, y in corners]


def folded(sentence: str, width_mm: float, size: str) -> list[str]:
    """Break a sentence into lines of a width; those after a number and two spaces hang on it.

    Args:
        sentence: what it says.
        width_mm: the room across, in mm on paper, above 0.
        size: a type size of the style sheet.

    Returns:
        Its lines.

    Example:
        >>> folded("1  Cut along the line.", 25.0, "small")
        ['1  Cut along the', '    line.']
    """
    hang, rows = "    " if sentence[1:3] == "  " else "", [""]
    for word in sentence.split(" "):
        longer = f"{rows[-1]} {word}" if rows[-1] else word
        if rows[-1] and text_width_mm(longer, size) > width_mm:
            rows.append(hang + word)
        else:
            rows[-1] = longer
    return [row.replace(NO_BREAK, " ") for row in rows]


def fitting_words(choices: Iterable[str], room_mm: float, size: str = "small") -> str:
    """The first of several wordings that has room on one line.

    Args:
        choices: from the fullest to the shortest.
        room_mm: the room across, in mm on paper.
        size: a type size of the style sheet.

    Returns:
        It; the last where none has room.

    Example:
        >>> fitting_words(("Front left and front right", "Front", "F"), 10.0)
        'Front'
    """
    for words in choices:
        if text_width_mm(words, size) <= room_mm:
            break
    return words


@dataclass(frozen=True)
class Inset:
    """Places points of a part that is drawn at another size or turned within the same picture.

    Args:
        origin: where the part's own zero stands, in the picture.
        magnification: how many times larger than the rest it is drawn, above 0.
        turn_deg: counter-clockwise, in degrees.
    """

    origin: Point
    magnification: float
    turn_deg: float = 0.0

    def at(self, x: float, y: float) -> Point:
        """Where a point of the part stands in the picture.

        Args:
            x: to the right of the part's zero, in the piece's unit.
            y: above the part's zero, in the piece's unit.

        Returns:
            The point in the picture.

        Example:
            >>> Inset((10.0, 0.0), 2.0).at(3.0, 4.0)
            (16.0, 8.0)
        """
        c, s = cosd(self.turn_deg) * self.magnification, sind(self.turn_deg) * self.magnification
        return self.origin[0] + x * c - y * s, self.origin[1] + x * s + y * c
