"""A sheet of paper round a drawing: frame, title block, stamp, and two bars to measure first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.scale import ratio_words
from furnlib.draw.style import text_width_mm

Paper = Literal["A4", "letter"]
PAPER_MM: dict[Paper, tuple[float, float]] = {"A4": (210.0, 297.0), "letter": (215.9, 279.4)}
MARGIN_MM = 10.0
_STAMP_MM = 4.4
_TITLE_MM = (86.0, 24.6)
_SCALE_NAMES = {
    "1 : 1": "full size",
    "1 : 2": "half size",
    "1 : 2.5": "two fifths",
    "1 : 4": "quarter size",
    "1 : 5": "one fifth",
    "1 : 8": "one eighth",
    "1 : 10": "one tenth",
    "1 : 12": "an inch to the foot",
    "1 : 16": "3/4 in to the foot",
    "1 : 20": "one twentieth",
    "1 : 24": "1/2 in to the foot",
    "1 : 48": "1/4 in to the foot",
}


@dataclass(frozen=True)
class Title:
    """What a sheet says about itself.

    Args:
        piece: name of the piece.
        revision: its letter.
        number: of this plate, from 1.
        count: how many plates there are.
        stamp: the line by which the sheet can be traced to its inputs.
    """

    piece: str
    revision: str
    number: int
    count: int
    stamp: str


def sheet(drawing: Drawing, title: Title, paper: Paper = "A4") -> Drawing:
    """Set a drawing on a sheet at its own scale.

    Args:
        drawing: the plate.
        title: what the title block and the stamp say.
        paper: "A4" or "letter", upright.

    Returns:
        The whole sheet as a drawing at full size, in mm.

    Raises:
        DesignError: when the drawing at its scale is larger than the room on the sheet.

    Example:
        >>> from furnlib.draw.drawing import Stroke
        >>> line = Drawing("Line", (Stroke(((0, 0), (10, 0))),), 1.0, (0, -1, 10, 1), "mm")
        >>> sheet(line, Title("Box", "A", 1, 1, "stamp")).size_mm
        (210.0, 297.0)
    """
    width, height = PAPER_MM[paper]
    bottom = MARGIN_MM + _STAMP_MM + _TITLE_MM[1] + 1.5
    room = (width - 2 * MARGIN_MM, height - MARGIN_MM - bottom - 1.0)
    size = drawing.size_mm
    if size[0] > room[0] or size[1] > room[1]:
        raise DesignError(
            f"The plate '{drawing.name}' is {size[0]:.0f} x {size[1]:.0f} mm on paper, more than the"
            f" {room[0]:.0f} x {room[1]:.0f} of {paper}; draw it at a smaller scale."
        )
    pen = Pen(1.0, "mm")
    left = MARGIN_MM + (room[0] - size[0]) / 2
    pen.items.extend(drawing.placed_on_paper(left, height - MARGIN_MM - 1.0 - size[1]))
    pen.box(MARGIN_MM, MARGIN_MM, width - MARGIN_MM, height - MARGIN_MM, kind="frame")
    pen.line((MARGIN_MM, MARGIN_MM + _STAMP_MM), (width - MARGIN_MM, MARGIN_MM + _STAMP_MM), kind="frame")
    pen.text((MARGIN_MM + 1.2, MARGIN_MM + 1.4), title.stamp, "small")
    _title_block(pen, drawing, title, width - MARGIN_MM)
    _bars(pen)
    return Drawing(
        drawing.name, tuple(pen.items), 1.0, (0.0, 0.0, width, height), "mm",
        drawing.caption, drawing.spoken, drawing.formulas,
    )  # fmt: skip


def _title_block(pen: Pen, drawing: Drawing, title: Title, right: float) -> None:
    """Five rows, bottom right, above the stamp."""
    left, bottom = right - _TITLE_MM[0], MARGIN_MM + _STAMP_MM
    top = bottom + _TITLE_MM[1]
    pen.box(left, bottom, right, top, kind="frame")
    ratio = ratio_words(drawing.scale, drawing.unit)
    scale = f"{ratio}, {_SCALE_NAMES[ratio]}" if ratio in _SCALE_NAMES else ratio
    unit = "mm (1 in = 25.4 mm)" if drawing.unit == "mm" else "inch (1 in = 25.4 mm)"
    rows = (
        (title.piece, "", True),
        (drawing.name, f"Plate {title.number} of {title.count}", False),
        (f"Scale {scale}", f"Revision {title.revision}", False),
        (f"Unit {unit}", "Date", False),
        ("Drawn", "Checked", False),
    )
    step = _TITLE_MM[1] / len(rows)
    for i, (first, second, bold) in enumerate(rows):
        y = top - (i + 1) * step
        if i:
            pen.line((left, y + step), (right, y + step), kind="hatch")
        room = _TITLE_MM[0] - 4.0 if not second else 52.0
        size = "body" if bold and text_width_mm(first, "body") * 1.1 < room else "small"
        pen.text((left + 1.5, y + 1.5), _shortened(first, size, room / (1.1 if bold else 1.0)), size, bold=bold)
        pen.text((left + 56.0, y + 1.5), second, "small")


def _shortened(words: str, size: str, room_mm: float) -> str:
    """Leave off the end of words that are too long for their room."""
    if text_width_mm(words, size) <= room_mm:
        return words
    while words and text_width_mm(f"{words}…", size) > room_mm:
        words = words[:-1]
    return f"{words.rstrip()}…"


def _bars(pen: Pen) -> None:
    """A bar of 100 mm and one of 4 in, each with its divisions."""
    left, bottom = MARGIN_MM + 1.5, MARGIN_MM + _STAMP_MM
    pen.text((left, bottom + 20.6), "Measure me before use:", "small")
    pen.text((left, bottom + 17.0), "print at 100 %, without fitting to the page.", "small")
    for y, length, step, words in ((9.4, 100.0, 10.0, "100 mm"), (2.0, 4 * 25.4, 25.4, "4 in")):
        level = bottom + y
        pen.line((left, level), (left + length, level), kind="bar")
        for i in range(round(length / step) + 1):
            tall = 2.6 if i in (0, round(length / step)) else 1.4
            pen.line((left + i * step, level), (left + i * step, level + tall), kind="bar")
        pen.text((left + length / 2, level + 3.2), words, "small", "middle")
