"""Plate 7, to cut out or to send to the cutter: half the outline of a turned leg at full size, its axis the edge."""

from __future__ import annotations

from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.card import finished
from furnlib.draw.plates.full_size import FullSize
from furnlib.draw.plates.groups import group_name
from furnlib.draw.plates.turned_groups import outline, turned_group, turned_marks, turned_names, turned_of
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.plan.piece import Piece

_APART_MM, _FAN_MM = 4.2, 5.0
_FOLD_MM = 180.0
_USE = (
    "Measure the bar. Glue to thin board and cut along the heavy line; the straight edge is the axis.",
    "Hold against the turning with the lathe standing: the half shows the shape, what was cut away fits round it.",
)


def leg_pattern(piece: Piece, number: int = 1) -> Drawing:
    """Draw half the outline of a turned leg in one piece: the lines that go to a cutter.

    Args:
        piece: a finished piece with turned legs.
        number: of the length of leg, from 1.

    Returns:
        At full size one closed contour of the kind "cut", arcs as true arcs, its straight edge the
        axis from the top end at zero to the right; light lines at the stations.

    Raises:
        DesignError: when the piece has no such leg.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> leg_pattern(read_piece("notebooks/designs/stool_three_legs.yaml")).only("cut").items[0].points[-2:]
        ((478.47, 0.0), (0.0, 0.0))
    """
    group, unit = turned_group(piece, number, "half pattern"), piece.design.unit
    made, pen = turned_of(group[0]), Pen(MM_UNIT[unit], unit)
    profile, marks = made.profile, turned_marks(made, unit)
    points, bulges = outline(profile)
    low = -pen.mm(_FAN_MM)
    for mark, place in zip(marks, spread([mark.distance for mark in marks], pen.mm(_APART_MM)), strict=True):
        x = mark.distance
        pen.line((x, profile.radius_at(x)), (x, 0.0), (x, low / 4), (place, low), kind="thin")
        words = f"{written(x, unit)}  {mark.diameters}"
        pen.text((place - pen.mm(1.0), low - pen.mm(1.0)), words, "small", turn_deg=-90.0)
    pen.contour((*points, (profile.length, 0.0), (0.0, 0.0)), (*bulges, 0.0, 0.0, 0.0), "cut", closed=True)
    legs = group_name(group)
    names = f"{legs}: half pattern, top end here, {piece.design.piece}", f"{legs}: top end here", "top end here", "top"
    name = fitting_words(names, min(profile.length * pen.scale, _FOLD_MM) - 6.0)
    pen.text((pen.mm(3.0), pen.mm(1.8)), name, "small", clear=True)
    title = f"{piece.design.piece}: {legs[:1].lower()}{legs[1:]}, half pattern of the turned leg, full size."
    pen.paragraphs((0.0, pen.reach()[1] - pen.mm(1.0)), (title, *_USE), _FOLD_MM)
    return finished(
        pen,
        f"Half pattern {number}",
        (group,),
        f"Half pattern for turned legs of {piece.design.piece}, full size: the outline, the axis its straight edge.",
        [f": {written(profile.length, unit)} along the axis, {written(profile.swing, unit)} across at most"],
        [[*(f"At {written(mark.distance, unit)}: {mark.diameters}." for mark in marks), *_USE]],
        ("lean.axis_length",),
    )


HALF_PATTERN = FullSize("Half pattern", turned_names, leg_pattern, "only turned legs have one")


def pattern_plate(piece: Piece, number: int = 1) -> Drawing:
    """Draw a sheet of a half pattern, at full size.

    Args:
        piece: a finished piece with turned legs.
        number: of the sheet, from 1, counted over the patterns of all lengths.

    Returns:
        The pattern, or what one sheet holds of it.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> pattern_plate(read_piece("notebooks/designs/stool_three_legs.yaml"), number=3).name
        'Half pattern 3'
    """
    return HALF_PATTERN.sheet(piece, number)
