"""Plate 6, at the saw: the pencil lines on two faces of each leg, the settings and the cautions."""

from __future__ import annotations

from furnlib.base.units import write_angle, write_length
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.legs import (
    LEANS_ON_SHEET,
    WORDS_NOTE,
    Groups,
    group_name,
    hand_words,
    leans_on_sheet,
    sheet_name,
)
from furnlib.draw.plates.views import written
from furnlib.draw.scale import PLATE_MM, fitting_scale
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import LegSizes
from furnlib.trade.cautions import TABLE_SAW

_BESIDE_MM = 16.0
_WORDS_MM = 92.0
_ROUND_MM = 21.0  # heading above a strip, names of its faces below it
_WORDS_HIGH_MM = 26.0
_NOTES = (
    "Either row of a table does; both ends alike, so they stay parallel and every edge has the length of the axis.",
    "Mitre: from square across, in the face on the table. Tilt: of the blade, from square to the table.",
    "Fine lines: the least blank, without waste. Heavy lines: where to cut. Hatched: what falls off.",
)


def saw_card_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw a saw card.

    Args:
        piece: a finished piece with legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: which card, from 1; each holds two leans.

    Returns:
        For each lean the two outer faces unrolled beside one another with their end lines, and
        mitre, tilt, axis length and blank in words; below them what to mind at the saw.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> saw_card_plate(read_piece("notebooks/designs/landing_chest.yaml")).name
        'Saw card'
    """
    unit, groups = piece.design.unit, leans_on_sheet(piece, number)
    square = float(piece.design.legs.square) if piece.design.legs else 0.0
    blanks = [float(group[0].end_cut.blank_length) for group in groups]
    room = (PLATE_MM[0], (PLATE_MM[1] - 40.0) / LEANS_ON_SHEET - _ROUND_MM)
    fitting = fitting_scale(2 * square, max(blanks, default=1.0), unit, _BESIDE_MM + _WORDS_MM, 0.0, room)
    pen = Pen(scale or fitting, unit)
    y = 0.0
    for group, blank in zip(groups, blanks, strict=True):
        y -= pen.mm(6.0)
        pen.text((0.0, y), f"{group_name(group)}: {hand_words(group)}", "body", bold=True)
        y -= pen.mm(4.0)
        _faces(pen, piece, group[0], (pen.mm(_BESIDE_MM), y - blank / 2))
        _settings(pen, piece, group, (pen.mm(_BESIDE_MM + 12.0) + 2 * square, y - pen.mm(1.0)))
        y -= max(blank + pen.mm(5.0), pen.mm(_WORDS_HIGH_MM)) + pen.mm(4.0)
    y = pen.lines((0.0, y), (*_NOTES, WORDS_NOTE), "small", 1.5)
    y = pen.lines((0.0, y - pen.mm(1.5)), ("At the table saw",), "body")
    pen.lines((0.0, y - pen.mm(0.5)), TABLE_SAW, "small", 1.5)
    return pen.drawing(
        sheet_name(piece, "Saw card", number),
        caption=_caption(piece, groups),
        spoken=_spoken(piece, groups),
        formulas=("end_cut.mitre", "end_cut.tilt", "end_cut.blank"),
    )


def _faces(pen: Pen, piece: Piece, leg: LegSizes, at: Point) -> None:
    """Outer side face and front (or rear) face, unrolled at the outer arris, foot below.

    The side face of a front left leg lies left of its front face; so for a rear right leg, seen
    from behind. The other two show the mirror image.
    """
    x, y = at
    square = float(piece.design.legs.square) if piece.design.legs else 0.0
    half = float(leg.end_cut.axis_length) / 2
    blank = float(leg.end_cut.blank_length) / 2
    outer, inner, _, behind = leg.edge_offsets
    pen.box(x, y - blank, x + 2 * square, y + blank, "far", "thin", hatch=True)
    drops = (behind, outer, inner)[:: _hand(leg)]
    lower = [(x + i * square, y - half - drop) for i, drop in enumerate(drops)]
    upper = [(x + i * square, y + half - drop) for i, drop in enumerate(drops)]
    pen.shape((*lower, *reversed(upper)), "wood", "")
    pen.line(*lower, kind="cut")
    pen.line(*upper, kind="cut")
    for foot, top in zip(lower, upper, strict=True):
        pen.line(foot, top)
    front = "front" if leg.outward[1] < 0 else "rear"
    cut = leg.end_cut
    faces = (("side", cut.side_down.mitre_deg), (front, cut.front_down.mitre_deg))
    for i, (word, mitre) in enumerate(faces[:: _hand(leg)]):
        middle = x + (i + 0.5) * square
        pen.text((middle, y - blank - pen.mm(3.4)), word, "small", "middle")
        if square * pen.scale > 9.0 and blank * pen.scale > 9.0:
            pen.centred((middle, (upper[i][1] + upper[i + 1][1]) / 2 - pen.mm(4.5)), write_angle(mitre), "small")
            pen.centred((middle, (lower[i][1] + lower[i + 1][1]) / 2 + pen.mm(4.5)), write_angle(mitre), "small")
    pen.dimension(lower[0], upper[0], 6.0, written(leg.end_cut.axis_length, piece.design.unit))


def _hand(leg: LegSizes) -> int:
    """1 for a front left and a rear right leg, -1 for the other two."""
    return leg.outward[0] * leg.outward[1]


def _settings(pen: Pen, piece: Piece, group: tuple[LegSizes, ...], at: Point) -> None:
    """What to set, in words, for either face on the table."""
    leg = group[0]
    unit, cut = piece.design.unit, leg.end_cut
    front = "Front" if leg.outward[1] < 0 else "Rear"
    rows = [("on the table", "mitre", "tilt")]
    for face, setting in (
        (f"{front} face or its opposite", cut.front_down),
        ("Side face or its opposite", cut.side_down),
    ):
        rows.append((face, write_angle(setting.mitre_deg), write_angle(setting.tilt_deg)))
    _, y = pen.table(at, rows, bold_columns=(1, 2))
    mirrored = any(_hand(other) != _hand(leg) for other in group)
    square = written(piece.design.legs.square if piece.design.legs else 0, unit)
    words = (
        f"Axis {written(cut.axis_length, unit)}, from end to end.",
        f"Least blank {square} square, {written(cut.blank_length, unit, round_up=True)} long, and waste.",
        f"Drawn for the {leg.position} leg{'; the other hand is its mirror image' if mirrored else ''}.",
    )
    pen.lines((at[0], y - pen.mm(1.0)), words, "small", 1.5)


def _caption(piece: Piece, groups: Groups) -> str:
    words = "; ".join(
        f"{group_name(group).lower()}: side face down, mitre {write_angle(group[0].end_cut.side_down.mitre_deg)}"
        f" and tilt {write_angle(group[0].end_cut.side_down.tilt_deg)}"
        for group in groups
    )
    first = f"Level end cuts for {piece.design.piece}; the pencil lines on the faces are rake and splay."
    return f"{first}\n{words.capitalize()}."


def _spoken(piece: Piece, groups: Groups) -> str:
    unit = piece.design.unit
    words = []
    for group in groups:
        cut = group[0].end_cut
        words.append(
            f"{', '.join(leg.position for leg in group)}: with the front or rear face on the table, mitre"
            f" {write_angle(cut.front_down.mitre_deg)} and tilt {write_angle(cut.front_down.tilt_deg)}; with the side"
            f" face down, mitre {write_angle(cut.side_down.mitre_deg)} and tilt {write_angle(cut.side_down.tilt_deg)};"
            f" {write_length(cut.axis_length, unit, style='spoken')} along the axis, blank"
            f" {write_length(cut.blank_length, unit, style='spoken', round_up=True)}."
        )
    return f"Saw card for the legs of {piece.design.piece}. " + " ".join(words)
