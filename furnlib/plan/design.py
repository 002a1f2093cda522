"""The design file's shape: one piece, one set of master sizes, every message with line and cure."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Annotated, Literal, get_args

from pydantic import Field, PrivateAttr, ValidationError

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit
from furnlib.plan.design_case import Brief, Case, Jig, Measured, Rows
from furnlib.plan.design_drawer import CaseBack, Drawers, Grain, Pulls, SlottedStrip
from furnlib.plan.design_faults import fault_of
from furnlib.plan.design_finish import Finish
from furnlib.plan.design_legs import CaseLegs, SeatLegs
from furnlib.plan.design_season import Climate, Woods
from furnlib.plan.design_text import DesignText
from furnlib.plan.design_values import Angle, Part, Reader, Size, Words, one_of

Outline = Literal["rectangle", "round", "D"]
OUTLINES: tuple[Outline, ...] = get_args(Outline)


class Overall(Part):
    """The silhouette: what the piece measures over all, legs included.

    Args:
        height: floor to top, above 0, in the piece's unit; under a pitched seat, at its front edge.
        width: across the front, above 0, in the piece's unit.
        depth: front to back, above 0, in the piece's unit; of a seat, along it.
    """

    height: Size
    width: Size
    depth: Size


class Seat(Part):
    """A seat board; its width and depth are the piece's own.

    Args:
        thickness: square to its surface, above 0, in the piece's unit.
        pitch: how far it is pitched back, in degrees, back edge lower above 0.
        outline: "rectangle", "round", or "D": straight in front, rounded behind.
    """

    thickness: Size
    pitch: Angle = 0.0
    outline: Annotated[Outline, one_of("outline of a seat", OUTLINES)] = "rectangle"


class Design(Part):
    """A piece as its maker settled it: the master sizes and nothing derived.

    Read one with `read_design`; every length is an exact fraction in the piece's unit.

    Args:
        piece: its name, 1 to 60 letters.
        revision: its letter.
        unit: "mm" or "in", the unit of every length in it.
        grid: the smallest step this shop cuts to, above 0, in the unit.
        overall: the silhouette.

    Example:
        >>> design = read_design("notebooks/designs/landing_chest.yaml")
        >>> design.piece, design.unit, int(design.overall.height)
        ('Landing chest', 'mm', 1300)
    """

    piece: Words
    revision: Words = "A"
    unit: Annotated[Unit, one_of("unit", ("mm", "in"))]
    grid: Size
    overall: Overall
    _notices: tuple[str, ...] = PrivateAttr(default=())

    @property
    def notices(self) -> tuple[str, ...]:
        """What was read in other units than the piece's own, a sentence each."""
        return self._notices

    @property
    def digest(self) -> str:
        """Ten letters and figures that change whenever any input does."""
        # what the file leaves out is left out here too, so that a new key of the library changes no old digest
        inputs = json.dumps(self.model_dump(mode="json", exclude_defaults=True), sort_keys=True)
        return hashlib.sha256(inputs.encode()).hexdigest()[:10]


class CaseDesign(Design):
    """A case with rows of drawers, with or without legs.

    Args:
        case: thicknesses of the case.
        rows: the openings, of every bay that has no rows of its own.
        legs: the legs, where it has any.
        jig: the dovetail jig that drawer sides are cut by, where they are.
        as_built: what was measured, bank by bank.
        brief: what the piece is for.
        climate: the wood's moisture in the shop and through the year.
        wood: of each role.
        drawers: how they are made.
        pulls: on the drawers' fronts.
        back: what closes the case behind.
        grain: fronts out of one board.
        strips: screws across the grain of the case's sides, as they hold runners.
        finish: on its boards.
    """

    case: Case
    rows: Rows
    legs: CaseLegs | None = None
    jig: Jig | None = None
    as_built: tuple[Measured, ...] = Field(default=(), alias="as built")
    brief: Brief | None = None
    climate: Climate | None = None
    wood: Woods | None = None
    drawers: Drawers | None = None
    pulls: Pulls | None = None
    back: CaseBack | None = None
    grain: Grain | None = None
    strips: SlottedStrip | None = None
    finish: Finish | None = None


class SeatDesign(Design):
    """A seat on legs: a stool, a bench.

    Args:
        seat: the board.
        legs: the legs.
    """

    seat: Seat
    legs: SeatLegs


def design_of(text: DesignText) -> Design:
    """Make sense of a design file's text.

    Args:
        text: the file as it was written.

    Returns:
        The design, of a seat where the file has one; what was read in other units is said in its
        notices.

    Raises:
        DesignError: for the first fault in the file, with line, path and cure; further faults are
            in its ``more``.

    Example:
        >>> design_of(DesignText.parse("piece: Box"))
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: design line 1, top of the file: 'case' is missing; add a line 'case: …'.
    """
    reader = Reader("in" if text.tree.get("unit") == "in" else "mm", [])
    shape: type[Design] = SeatDesign if "seat" in text.tree else CaseDesign
    try:
        design = shape.model_validate(text.tree, context=reader)
    except ValidationError as error:
        faults = sorted(fault_of(text, fault, shape) for fault in error.errors())
        raise DesignError(faults[0][1], [sentence for _, sentence in faults[1:]]) from None
    design._notices = tuple(reader.notices)
    return design


def read_design(path: str | Path) -> Design:
    """Read a design file.

    Args:
        path: a YAML file.

    Returns:
        The design.

    Raises:
        DesignError: naming file, line, path and cure.

    Example:
        >>> read_design("notebooks/designs/no_such_piece.yaml")
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: notebooks/designs/no_such_piece.yaml cannot be read (No such file or
        directory); check the name and the folder.
    """
    return design_of(DesignText.read(path))
