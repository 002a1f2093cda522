"""The plates: each takes a finished piece and returns a drawing. They compute no sizes."""

from __future__ import annotations

from furnlib.draw.drawing import Drawing
from furnlib.draw.plates.cradle import cradle_plate, sheets_of_cradles
from furnlib.draw.plates.drilling import drilling_plate, sheets_of_drilling
from furnlib.draw.plates.fixing import fixing_plate, sheets_of_fixings
from furnlib.draw.plates.groups import sheets_of_legs, sheets_of_sawn_legs
from furnlib.draw.plates.leans import leans_plate
from furnlib.draw.plates.legs import legs_plate
from furnlib.draw.plates.one_leg import leg_plate
from furnlib.draw.plates.openings import openings_plate
from furnlib.draw.plates.overall import overall_plate
from furnlib.draw.plates.saw_card import saw_card_plate
from furnlib.draw.plates.strip import sheets_of_strips, strip_plate
from furnlib.draw.plates.triangle import sheets_of_triangles, triangle_plate
from furnlib.plan.piece import CasePiece, Piece

__all__ = [
    "cradle_plate",
    "drilling_plate",
    "fixing_plate",
    "leans_plate",
    "leg_plate",
    "legs_plate",
    "openings_plate",
    "overall_plate",
    "plates_of",
    "saw_card_plate",
    "strip_plate",
    "triangle_plate",
]
_BY_SHEET = (
    (legs_plate, sheets_of_legs),
    (drilling_plate, sheets_of_drilling),
    (saw_card_plate, sheets_of_sawn_legs),
    (strip_plate, sheets_of_strips),
    (cradle_plate, sheets_of_cradles),
    (fixing_plate, sheets_of_fixings),
    (triangle_plate, sheets_of_triangles),
)
"""What the legs are drawn on, in the order of the work, and how many sheets of it a piece takes."""


def plates_of(piece: Piece) -> tuple[Drawing, ...]:
    """Draw every plate that a piece has, in the order of the job.

    Args:
        piece: a finished piece.

    Returns:
        The plates: overall, openings of a case, and where it has legs what they are drilled, sawn
        and fixed by.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [plate.name for plate in plates_of(read_piece("notebooks/designs/stool_three_legs.yaml"))]
        ['Overall', 'Legs', 'Drilling card', 'Cradle', 'True triangle']
    """
    openings = (openings_plate(piece),) if isinstance(piece, CasePiece) else ()
    of_legs = (plate(piece, number=n) for plate, sheets in _BY_SHEET for n in range(1, sheets(piece) + 1))
    return (overall_plate(piece), *openings, *of_legs)
