"""The lesson's picture: the parts of one drawer with the sums behind their sizes, beside its corner at full size."""

from __future__ import annotations

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import ROOM_MM
from furnlib.draw.plates.drawer import parts_table
from furnlib.draw.plates.drawer_corner import CornerView
from furnlib.draw.scale import MM_UNIT
from furnlib.plan.piece import Piece, case_of

_CORNER_MM = 112.0  # how high it may stand and be in view under the hand


def one_drawer_plate(piece: Piece, scale: float | None = None, row: int | None = None) -> Drawing:
    """Draw one drawer for the lesson, low enough to stay in view under the hand.

    Args:
        piece: a finished case whose design says how its drawers are made.
        scale: mm on paper for one unit of the piece; by default full size, as the corner is drawn.
        row: whose drawer it is, counted from the top; by default the first.

    Returns:
        Every part with its sizes and the subtraction that each comes from; the corner at full size, from
        the outside and cut level through the groove.

    Raises:
        DesignError: when the piece has no such drawer.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> chest = read_piece("notebooks/designs/landing_chest.yaml")
        >>> print(one_drawer_plate(chest, row=7).caption.splitlines()[1])
        Side 354 = 370 - 10 back room - 6 lap; height 200 = 10 x 20 pitch.
    """
    piece = case_of(piece)
    drawer = next((drawer for drawer in piece.drawers if row in (None, drawer.row)), None)
    if drawer is None or piece.design.drawers is None:
        raise DesignError(f"{piece.design.piece} has no drawer in row {row} that it says how to make.")
    unit = piece.design.unit
    pen = Pen(scale or MM_UNIT[unit], unit)
    corner = CornerView(pen, drawer, piece.design.drawers.front.below)
    parts_table(pen, (0.0, 0.0), drawer, ROOM_MM[0] - corner.wide_mm - 5.0)
    corner.draw((pen.mm(ROOM_MM[0] - corner.wide_mm), 0.0), _CORNER_MM)
    side, parts = drawer.part("side").length.rule, (f"{part.name} {part.length.rule}" for part in drawer.parts)
    return pen.drawing(
        "Drawer",
        caption=f"Drawer of {piece.design.piece}, {drawer.name}: its parts, and its corner at full size.\n"
        f"Side {side}; height {drawer.side_height.rule}.",
        spoken=f"The parts of a drawer, and its corner at full size. Lengths: {'; '.join(parts)}. Lengths in {unit}.",
        formulas=("parts",),
    )
