"""The plates: each takes a finished piece and returns a drawing. They compute no sizes."""

from __future__ import annotations

from furnlib.draw.drawing import Drawing
from furnlib.draw.plates.legs import leans_plate, legs_plate, sheets_of_legs
from furnlib.draw.plates.openings import openings_plate
from furnlib.draw.plates.overall import overall_plate
from furnlib.draw.plates.saw_card import saw_card_plate
from furnlib.plan.piece import Piece

__all__ = ["leans_plate", "legs_plate", "openings_plate", "overall_plate", "plates_of", "saw_card_plate"]


def plates_of(piece: Piece) -> tuple[Drawing, ...]:
    """Draw every plate that a piece has, in the order of the job.

    Args:
        piece: a finished piece.

    Returns:
        The plates: overall, openings, and where it has legs the legs and the saw card.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [plate.name for plate in plates_of(read_piece("notebooks/designs/landing_chest.yaml"))]
        ['Overall', 'Openings', 'Legs', 'Saw card']
    """
    first = (overall_plate(piece), openings_plate(piece))
    numbers = range(1, sheets_of_legs(piece) + 1)
    legs = [legs_plate(piece, number=number) for number in numbers]
    return (*first, *legs, *(saw_card_plate(piece, number=number) for number in numbers))
