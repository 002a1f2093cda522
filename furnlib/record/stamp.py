"""The stamp: one line by which a plate can be traced to the design, the formulas and the unit."""

from __future__ import annotations

from furnlib.draw.drawing import Drawing
from furnlib.draw.sheet import Title
from furnlib.plan.piece import Piece

_LONGEST = 32  # the whole name stands in the title block above


def stamp_line(piece: Piece, formulas: tuple[str, ...]) -> str:
    """Write the stamp of a figure.

    Args:
        piece: the piece that it shows.
        formulas: keys of the formulas behind its numbers.

    Returns:
        Piece, revision, digest of the inputs, unit and formula keys; no date, so that the same
        inputs always give the same line.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> chest = read_piece("notebooks/designs/landing_chest.yaml")
        >>> stamp_line(chest, ("lean.total_lean",))
        'Landing chest, revision A | inputs ... | mm | lean.total_lean'
    """
    design = piece.design
    keys = ", ".join(formulas) or "sums only"
    name = design.piece if len(design.piece) <= _LONGEST else f"{design.piece[: _LONGEST - 1].rstrip()}…"
    return f"{name}, revision {design.revision} | inputs {design.digest} | {design.unit} | {keys}"


def title_of(piece: Piece, drawing: Drawing, number: int, count: int) -> Title:
    """Fill a title block from the piece and the plate.

    Args:
        piece: the piece.
        drawing: the plate.
        number: of the plate, from 1.
        count: how many plates there are.

    Returns:
        The title.
    """
    design = piece.design
    return Title(design.piece, design.revision, number, count, stamp_line(piece, drawing.formulas))
