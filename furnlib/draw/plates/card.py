"""What the cards for the legs share: sheets for the leans, caption and spoken words, and the cautions below."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.groups import Groups, group_name
from furnlib.draw.scale import PLATE_MM, usual_scales
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import LegSizes, mirror_groups

Part = TypeVar("Part")

ROOM_MM = (PLATE_MM[0] - 4.0, PLATE_MM[1] - 4.0)
"""What a picture may fill on a sheet, with a little air round it."""


@dataclass(frozen=True)
class Card(Generic[Part]):
    """A kind of card: which legs it is for, and how many leans share a sheet.

    Args:
        name: what its sheets are called.
        part: what it shows of a leg, or None where the leg has no such thing.
        cure: what to know where it has none.
        what: a sentence on what it shows, with {} for the piece.
        formulas: keys of the formulas behind its numbers.
        leans: how many stand on a sheet.
    """

    name: str
    part: Callable[[LegSizes], Part | None]
    cure: str
    what: str
    formulas: tuple[str, ...]
    leans: int = 2

    def of(self, leg: LegSizes) -> Part:
        """What the card shows of a leg.

        Args:
            leg: one leg.

        Returns:
            Its part.

        Raises:
            DesignError: when it has none.
        """
        part = self.part(leg)
        if part is None:
            raise DesignError(f"The {leg.position} leg needs no {self.name.lower()}: {self.cure}.")
        return part

    def sheets(self, piece: Piece) -> tuple[Groups, ...]:
        """Share the leans of a piece out.

        Args:
            piece: a finished piece.

        Returns:
            For each sheet the leans on it, each as the legs that lean so.
        """
        groups = [group for group in mirror_groups(piece.legs) if self.part(group[0]) is not None]
        return tuple(tuple(groups[i : i + self.leans]) for i in range(0, len(groups), self.leans))

    def sheet(self, piece: Piece, number: int) -> Groups:
        """The leans on one sheet.

        Args:
            piece: a finished piece.
            number: of the sheet, from 1.

        Returns:
            Groups of legs that lean alike.

        Raises:
            DesignError: when the piece has no such sheet.
        """
        sheets = self.sheets(piece)
        if not 1 <= number <= len(sheets):
            raise DesignError(
                f"{piece.design.piece} has no {self.name.lower()} {number}, it has {len(sheets)}: {self.cure}."
            )
        return sheets[number - 1]

    def plate(
        self, piece: Piece, scale: float | None, number: int, draw: Callable[[Pen, Piece, Groups], None],
        caption: Callable[[Pen, LegSizes], str], spoken: Callable[[Pen, Piece, LegSizes], Iterable[str]],
    ) -> Drawing:  # fmt: skip
        """Draw one sheet at the largest usual scale at which paper holds it.

        Args:
            piece: a finished piece.
            scale: mm on paper for one unit of the piece, where it is settled.
            number: of the sheet, from 1.
            draw: draws the leans with a pen.
            caption: says what the caption tells of the lean of a leg.
            spoken: tells the numbers of a leg in sentences.

        Returns:
            The drawing, with its number in its name where there are several.
        """
        groups = self.sheet(piece, number)
        pen = fitted(piece.design.unit, lambda pen: draw(pen, piece, groups), scale)
        name = f"{self.name} {number}" if len(self.sheets(piece)) > 1 else self.name
        what, told = self.what.format(piece.design.piece), [[*spoken(pen, piece, group[0])] for group in groups]
        return finished(pen, name, groups, what, [caption(pen, group[0]) for group in groups], told, self.formulas)


def fitted(unit: Unit, draw: Callable[[Pen], None], scale: float | None = None) -> Pen:
    """Draw a plate at the largest usual scale at which a sheet holds it.

    Args:
        unit: the piece's unit, "mm" or "in".
        draw: draws the whole plate with a pen.
        scale: mm on paper for one unit of the piece, where it is settled.

    Returns:
        The pen, with the plate drawn.

    Example:
        >>> fitted("mm", lambda pen: pen.line((0.0, 0.0), (600.0, 800.0))).scale
        0.2
    """
    for usual in (scale,) if scale else usual_scales(unit):
        pen = Pen(usual, unit)
        draw(pen)
        left, bottom, right, top = (edge * usual for edge in pen.reach())
        if right - left <= ROOM_MM[0] and top - bottom <= ROOM_MM[1]:
            break
    return pen


def finished(
    pen: Pen, name: str, groups: Groups, what: str, captions: Iterable[str], spoken: Iterable[Iterable[str]],
    formulas: tuple[str, ...],
) -> Drawing:  # fmt: skip
    """Finish a plate of leans: its caption names each with its main number, the spoken words tell all.

    Args:
        pen: the plate's pen.
        name: of the plate.
        groups: the leans on it.
        what: a sentence on what it shows.
        captions: for each what the caption tells of it.
        spoken: for each the sentences that tell its numbers.
        formulas: keys of the formulas behind its numbers.

    Returns:
        The drawing.
    """
    leans = "; ".join(group_name(group).lower() + words for group, words in zip(groups, captions, strict=True))
    heard = [what]
    for group, words in zip(groups, spoken, strict=True):
        heard += [f"Legs {', '.join(leg.position for leg in group)}:", *words]
    return pen.drawing(
        name,
        caption=f"{what}\n{leans[:1].upper()}{leans[1:]}.",
        spoken=" ".join((*heard, f"Lengths in {pen.unit}.")),
        formulas=formulas,
    )


def cautions(pen: Pen, at: Point, title: str, sentences: Iterable[str], width_mm: float = 182.0) -> float:
    """Write what to mind at a machine.

    Args:
        pen: the plate's pen.
        at: the upper left corner, in the piece's unit.
        title: such as "At the drill".
        sentences: what each says.
        width_mm: the room across, in mm on paper.

    Returns:
        How low they reach, in the piece's unit.
    """
    pen.text((at[0], at[1] - pen.mm(3.6)), title, "body", bold=True)
    return pen.paragraphs((at[0], at[1] - pen.mm(4.2)), sentences, width_mm)
