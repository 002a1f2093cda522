"""What is drawn along something long at full size: shared out over sheets, each of which says whose it is."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.scale import PLATE_MM
from furnlib.draw.tiles import tiles
from furnlib.plan.piece import Piece


@dataclass(frozen=True)
class FullSize:
    """A kind of strip or pattern at full size.

    Args:
        name: what its sheets are called, such as "Story stick".
        names: for each thing of a piece that has one, what it is called, such as "Rear left and rear right".
        draw: draws it lying for the thing with a number, from 1; words across it read upright on the sheets.
        cure: what to know where there is none.
    """

    name: str
    names: Callable[[Piece], Iterable[str]]
    draw: Callable[[Piece, int], Drawing]
    cure: str

    def sheets(self, piece: Piece) -> list[Drawing]:
        """Draw all of them and share each out over sheets.

        Args:
            piece: a finished piece.

        Returns:
            Every sheet in order; none where the piece has no such thing.
        """
        return [*_shared_out(self, piece)]

    def sheet(self, piece: Piece, number: int) -> Drawing:
        """One of the sheets, with its number in its name where there are several.

        Args:
            piece: a finished piece.
            number: of the sheet, from 1, counted over all that the piece has.

        Returns:
            The drawing.

        Raises:
            DesignError: when the piece has no such sheet.
        """
        sheets = self.sheets(piece)
        if not 1 <= number <= len(sheets):
            raise DesignError(
                f"{piece.design.piece} has no {self.name.lower()} {number}, it has {len(sheets)}: {self.cure}."
            )
        return replace(sheets[number - 1], name=f"{self.name} {number}" if len(sheets) > 1 else self.name)


@lru_cache(16)
def _shared_out(kind: FullSize, piece: Piece) -> tuple[Drawing, ...]:
    """Every sheet of a kind; whoever asks for one after the other has them drawn once."""
    found: list[Drawing] = []
    for number, whose in enumerate(kind.names(piece), 1):
        drawn = kind.draw(piece, number)
        left, low, right, top = drawn.box
        more = max((PLATE_MM[0] + 1.0) / drawn.scale - (right - left), 0.0)  # so that a short one is turned as well
        ends = (left - more, right) if -left > right else (left, right + more)
        for tile in tiles(replace(drawn, box=(ends[0], low, ends[1], top))):
            pen, words = Pen(tile.scale, tile.unit, [*tile.items]), f"{whose}, {piece.design.piece}"
            # by its top line each sheet says whose it is; once the sheets are joined the words fall off
            pen.text((-top, pen.reach()[3] + pen.mm(1.2)), words.removeprefix(", "), "small")
            found.append(replace(tile, items=tuple(pen.items), box=pen.drawing("").box))
    return tuple(found)
