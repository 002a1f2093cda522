"""Plate 7, at full size: the story stick of a turned leg, every station at its distance from the top end."""

from __future__ import annotations

from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.card import finished
from furnlib.draw.plates.full_size import FullSize
from furnlib.draw.plates.groups import group_name
from furnlib.draw.plates.turned_groups import turned_group, turned_marks, turned_names, turned_of
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.draw.style import text_width_mm
from furnlib.plan.piece import Piece

_LANE_MM, _FAN_MM = 9.0, 5.0  # for the ticks along the working edge; from there to the words
_CROWN_MM = 4.5
_APART_MM = 4.4  # from one line of words to the next
_GAP_MM, _NAME_MM = 2.5, 5.0
_FOLD_MM, _BOLD = 180.0, 1.1
_USE = (
    "Measure the bar. Cut out on thin lines and glue to a straight strip of wood, ticks on its edge.",
    "All distances run from the top end along the axis, not down the slope. Mark with the lathe standing.",
    "Line across the lane: a shape begins; short line: crown of a bead or hollow of a cove. ⌀ diameter, □ side of a"
    " square, | between the two of a step. Hatched: waste for the centres, past kerf and level cut.",
)


def stick_plate(piece: Piece, number: int = 1) -> Drawing:
    """Draw a sheet of a story stick, at full size.

    Args:
        piece: a finished piece with turned legs.
        number: of the sheet, from 1, counted over the sticks of all lengths.

    Returns:
        A strip to cut out, its ticks on one edge; one longer than the sheet goes on over the next.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> stick_plate(read_piece("notebooks/designs/stool_three_legs.yaml"), number=2).name
        'Story stick 2'
    """
    return STORY_STICK.sheet(piece, number)


def _stick(piece: Piece, number: int) -> Drawing:
    """The whole stick lying, its top end to the left; words across it, to be read upright on a sheet of its tiles."""
    unit, group = piece.design.unit, turned_group(piece, number, "story stick")
    made = turned_of(group[0])
    pen, marks = Pen(MM_UNIT[unit], unit), turned_marks(made, unit)
    left, blank = made.allowances, made.blank
    kerf, waste, long = float(left.kerf or 0), float(left.waste or 0), float(blank.length)
    zero, lane = float(blank.top_extra) + kerf + waste, pen.mm(_LANE_MM)
    columns = (
        ("body", [written(mark.distance, unit) for mark in marks]),
        ("body", [mark.diameters for mark in marks]),
        ("small", [mark.words + ", thinnest" * mark.thinnest for mark in marks]),
    )
    widths = [max(text_width_mm(cell, size) for cell in column) * _BOLD + _GAP_MM for size, column in columns]
    low = -pen.mm(_LANE_MM + _FAN_MM + sum(widths) + _NAME_MM)
    for start, end in ((0.0, waste), (long - waste, long)):
        pen.box(start, -lane, end, 0.0, "far", "thin", hatch=True)
    pen.box(0.0, low, long, 0.0, kind="thin")
    pen.line((zero, -lane), (zero + made.profile.length, -lane), kind="thin")
    places = spread([zero + mark.distance for mark in marks], pen.mm(_APART_MM))
    for i, (mark, place) in enumerate(zip(marks, places, strict=True)):
        x, y = zero + mark.distance, -pen.mm(_LANE_MM + _FAN_MM + 1.0)
        pen.line((x, 0.0), (x, -pen.mm(_CROWN_MM) if mark.crown else -lane))
        pen.line((x, -lane), (place, y + pen.mm(1.0)), kind="dimension")
        for (size, column), width in zip(columns, widths, strict=True):
            pen.text((place - pen.mm(1.0), y), column[i], size, turn_deg=-90.0, bold=size == "body")
            y -= pen.mm(width)
    legs = f"{group_name(group)}: top end at this end"
    names = f"{legs}, {piece.design.piece}", legs, "top end"
    name = fitting_words(names, min(long * pen.scale, _FOLD_MM) - 24.0)
    pen.text((pen.mm(3.0), low + pen.mm(1.6)), name, "small")
    pen.text((long - pen.mm(3.0), low + pen.mm(1.6)), "foot end", "small", "end")
    pen.paragraphs((0.0, low - pen.mm(1.0)), _USE, _FOLD_MM)
    return finished(
        pen,
        "Story stick",
        (group,),
        f"Story stick for turned legs of {piece.design.piece}, full size: every station from the top end.",
        [f": {len(marks)} stations in {written(made.profile.length, unit)} along the axis"],
        [[*(f"{mark.words} at {written(mark.distance, unit)}, {mark.diameters}." for mark in marks), *_USE]],
        ("lean.axis_length", "blank.length"),
    )


STORY_STICK = FullSize("Story stick", turned_names, _stick, "only turned legs have one")
