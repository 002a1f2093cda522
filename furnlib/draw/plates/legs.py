"""Plate 6: the legs in plan with their sight lines, and each lean's true triangle laid flat."""

from __future__ import annotations

from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.plates.groups import WORDS_NOTE
from furnlib.draw.plates.leans import LEGS, draw_cells, finished, lean_scale
from furnlib.draw.plates.leg_plan import draw_plan, plan_box, plan_scale
from furnlib.draw.scale import PLATE_MM, ratio_words
from furnlib.plan.piece import Piece, SeatPiece

_PLAN_MM, _ABOVE_MM = 118.0, 41.0


def legs_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw plate 6.

    Args:
        piece: a finished piece with legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1, where the legs take several.

    Returns:
        Plan with sight lines, foot dots and foot outlines; for each lean a plan at a larger scale
        and the true triangle of height, foot run and axis.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> plate = legs_plate(read_piece("notebooks/designs/landing_chest.yaml"))
        >>> plate.name, plate.formulas[0]
        ('Legs', 'lean.total_lean')
    """
    groups = LEGS.sheet(piece, number)
    plan = plan_scale(piece, (PLATE_MM[0], _PLAN_MM))
    _, front, _, rear = plan_box(piece)
    scale = scale or lean_scale(piece, groups, PLATE_MM[1] - (rear - front) * plan - _ABOVE_MM)
    pen = Pen(scale, piece.design.unit)
    draw_plan(pen, piece, plan / scale)
    notes = _notes(piece, ratio_words(plan, piece.design.unit))
    pen.lines((0.0, pen.reach()[3] + pen.mm(3.45 * len(notes) + 1.2)), notes, "small", 1.5)
    draw_cells(pen, piece, groups, -pen.mm(32))
    return finished(pen, piece, groups, f"Legs {number}" if len(LEGS.sheets(piece)) > 1 else "Legs")


def _notes(piece: Piece, ratio: str) -> tuple[str, ...]:
    """What the plan shows, in words above it."""
    under = "seat, its underside," if isinstance(piece, SeatPiece) else "case"
    slips = piece.legs[0].slips
    return (
        f"Plan of the {under} and its legs from above, front edge below, {ratio}. Left feet full, right feet dashed.",
        f"Pale: nine feet of ten land here, for slips of {slips.total_lean:g}° in lean and {slips.sight_line:g}° in"
        " sight line. Dashed all round: the line of the feet.",
        f"{WORDS_NOTE} Sizes: to the legs' axes, and from foot to foot.",
    )
