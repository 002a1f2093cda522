"""Plate 6, at the saw: the pencil lines on two faces of each leg, the settings and the cautions."""

from __future__ import annotations

from furnlib.base.units import write_angle, write_length
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import PLATE_MM, Pen, fitting_scale
from furnlib.draw.plates.legs import WORDS_NOTE, group_name, hand_words
from furnlib.draw.plates.views import written
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import LegSizes, mirror_groups
from furnlib.trade.cautions import TABLE_SAW

_BESIDE_MM = 16.0
_WORDS_MM = 74.0
_BETWEEN_MM = 15.0


def saw_card_plate(piece: Piece, scale: float | None = None) -> Drawing:
    """Draw the saw card.

    Args:
        piece: a finished piece with legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.

    Returns:
        For each lean the two outer faces unrolled beside one another with their end lines, and
        mitre, tilt, axis length and blank in words; below them what to mind at the saw.
    """
    unit, groups = piece.design.unit, mirror_groups(piece.legs)
    square = float(piece.design.legs.square) if piece.design.legs else 0.0
    blanks = [float(group[0].cut.blank_length) for group in groups]
    height = (PLATE_MM[1] - 42.0) / max(len(groups), 1) - _BETWEEN_MM
    scale = scale or fitting_scale(2 * square, max(blanks, default=1.0), unit, _BESIDE_MM + _WORDS_MM, 4.0,
                                   (PLATE_MM[0], height))  # fmt: skip
    pen = Pen(scale, unit)
    y = 0.0
    for group, blank in zip(groups, blanks, strict=True):
        y -= pen.mm(6.0)
        pen.text((0.0, y), f"{group_name(group)}: {hand_words(group)}", "body", bold=True)
        y -= pen.mm(4.0)
        _faces(pen, piece, group[0], (pen.mm(_BESIDE_MM), y - blank / 2))
        _settings(pen, piece, group[0], (pen.mm(_BESIDE_MM + 12.0) + 2 * square, y - pen.mm(1.0)))
        y -= max(blank, pen.mm(44.0)) + pen.mm(5.0)
    y = pen.lines((0.0, y), ("At the table saw",), "body")
    y = pen.lines((0.0, y - pen.mm(0.5)), TABLE_SAW, "small", 1.5)
    pen.lines((0.0, y - pen.mm(1.0)), (WORDS_NOTE,), "small", 1.5)
    return pen.drawing(
        "Saw card",
        caption=_caption(piece, groups),
        spoken=_spoken(piece, groups),
        formulas=("end_cut.mitre", "end_cut.tilt", "end_cut.blank"),
    )


def _faces(pen: Pen, piece: Piece, leg: LegSizes, at: Point) -> None:
    """Outer side face and front (or rear) face, unrolled at the outer arris, foot below.

    Drawn as the front left and the rear right leg show them; the other hand is the mirror image.
    """
    x, y = at
    square = float(piece.design.legs.square) if piece.design.legs else 0.0
    half = float(leg.cut.axis_length) / 2
    blank = float(leg.cut.blank_length) / 2
    outer, inner, _, behind = leg.edge_offsets
    pen.box(x, y - blank, x + 2 * square, y + blank, "far", "thin")
    drops = (behind, outer, inner)
    lower = [(x + i * square, y - half - drop) for i, drop in enumerate(drops)]
    upper = [(x + i * square, y + half - drop) for i, drop in enumerate(drops)]
    pen.shape((*lower, *reversed(upper)), "wood", "")
    pen.line(*lower, kind="cut")
    pen.line(*upper, kind="cut")
    pen.line((x, lower[0][1]), (x, upper[0][1]))
    pen.line((x + 2 * square, lower[2][1]), (x + 2 * square, upper[2][1]))
    pen.line(lower[1], upper[1], kind="visible")
    front = "front" if leg.outward[1] < 0 else "rear"
    for i, (word, mitre) in enumerate((("side", leg.cut.side_down.mitre_deg), (front, leg.cut.front_down.mitre_deg))):
        middle = x + (i + 0.5) * square
        pen.text((middle, y), word, "small", "middle")
        pen.text((middle, y - pen.mm(3.2)), "face", "small", "middle")
        pen.text((middle, y + half - drops[1] - pen.mm(6.5)), write_angle(mitre), "small", "middle", bold=True)
        pen.text((middle, y - half - drops[1] + pen.mm(8.0)), write_angle(mitre), "small", "middle", bold=True)
    pen.dimension((x, y - half - behind), (x, y + half - behind), 6.0,
                  written(leg.cut.axis_length, piece.design.unit))  # fmt: skip


def _settings(pen: Pen, piece: Piece, leg: LegSizes, at: Point) -> None:
    """What to set, in words, for either face on the table."""
    unit, cut = piece.design.unit, leg.cut
    front = "Front" if leg.outward[1] < 0 else "Rear"
    rows = [("on the table", "mitre", "tilt")]
    for face, setting in (
        (f"{front} face or its opposite", cut.front_down),
        ("Side face or its opposite", cut.side_down),
    ):
        rows.append((face, write_angle(setting.mitre_deg), write_angle(setting.tilt_deg)))
    _, y = pen.table(at, rows, bold_columns=(1, 2))
    axis, drawn = written(cut.axis_length, unit), "front left" if front == "Front" else "rear right"
    words = (
        "Either row does; both ends alike, they stay parallel.",
        f"Axis and every edge: {axis} from end to end.",
        f"Least blank: {written(piece.design.legs.square if piece.design.legs else 0, unit)} square,"
        f" {written(cut.blank_length, unit)} long, and waste.",
        "Mitre: from square across, in the face on the table.",
        "Tilt: of the blade, from square to the table.",
        f"Drawn for the {drawn} leg; the other hand is its mirror image.",
        "Fine lines: the blank; heavy lines: what to cut.",
    )
    pen.lines((at[0], y - pen.mm(1.0)), words, "small", 1.5)


def _caption(piece: Piece, groups: tuple[tuple[LegSizes, ...], ...]) -> str:
    words = "; ".join(
        f"{group_name(group).lower()}: side face down, mitre {write_angle(group[0].cut.side_down.mitre_deg)}"
        f" and tilt {write_angle(group[0].cut.side_down.tilt_deg)}"
        for group in groups
    )
    first = f"Level end cuts for {piece.design.piece}; the pencil lines on the faces are rake and splay."
    return f"{first}\n{words.capitalize()}."


def _spoken(piece: Piece, groups: tuple[tuple[LegSizes, ...], ...]) -> str:
    unit = piece.design.unit
    words = []
    for group in groups:
        cut = group[0].cut
        words.append(
            f"{group_name(group)}: with the front or rear face on the table, mitre"
            f" {write_angle(cut.front_down.mitre_deg)} and tilt {write_angle(cut.front_down.tilt_deg)}; with the side"
            f" face down, mitre {write_angle(cut.side_down.mitre_deg)} and tilt {write_angle(cut.side_down.tilt_deg)};"
            f" {write_length(cut.axis_length, unit, style='spoken')} along the axis, blank"
            f" {write_length(cut.blank_length, unit, style='spoken')}."
        )
    return f"Saw card for the legs of {piece.design.piece}. " + " ".join(words)
