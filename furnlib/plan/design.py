"""The design file's shape: one piece, one set of master sizes, every message with line and cure."""

from __future__ import annotations

import contextlib
import hashlib
import json
from pathlib import Path
from typing import Annotated, Any, Literal, get_args

from pydantic import BeforeValidator, Field, PrivateAttr, ValidationError

from furnlib.base.guards import DesignError
from furnlib.base.reading import read_count
from furnlib.base.units import Unit
from furnlib.plan.design_faults import fault_of
from furnlib.plan.design_legs import CaseLegs, SeatLegs
from furnlib.plan.design_text import DesignText
from furnlib.plan.design_values import Angle, Count, Length, Number, Part, Reader, Size, Words, one_of

Rule = Literal["equal", "constant step", "constant ratio", "own list"]
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


class Bay(Part):
    """A bay at the left of the case, in which the drawers stand; the rest, beside it, is open.

    Args:
        width: clear width of the bay, above 0, in the piece's unit.
        partition: thickness of the partition between the bay and the open one.
    """

    width: Size
    partition: Size


class Case(Part):
    """Thicknesses of the case; its own height only where the maker wants it checked.

    Args:
        side: thickness of each side, above 0, in the piece's unit.
        top: thickness of the top.
        bottom: thickness of the bottom.
        divider: thickness of each divider.
        height: of the case without legs; must agree with the rest where it is given.
        bay: where the drawers take a part of the width only.
    """

    side: Size
    top: Size
    bottom: Size
    divider: Size
    height: Size | None = None
    bay: Bay | None = None


def _each_row_once(split: Any) -> Any:
    """Refuse a row that is named twice, as 1 and 01: the second would quietly win."""
    if isinstance(split, dict):
        rows = []
        for written in split:
            with contextlib.suppress(DesignError):  # what cannot be read is said of its own line
                rows.append(read_count(str(written)))
        twice = next((row for row in rows if rows.count(row) > 1), None)
        if twice is not None:
            raise DesignError(f"Row {twice} is split twice; keep one of the two lines.")
    return split


class Rows(Part):
    """How many rows, by which rule, and which of them are split side by side.

    Args:
        number: of rows, from 1 to 200.
        rule: "equal", "constant step", "constant ratio" or "own list".
        step: how much taller each opening is than the one above, in the piece's unit.
        ratio: each opening over the one above, a plain number from 0.1 to 10.
        openings: the own list, top to bottom, in the piece's unit.
        split: for a row's number, how many drawers stand in it side by side, from 1 to 12.
    """

    number: Count
    rule: Annotated[Rule, one_of("rule", get_args(Rule))]
    step: Length | None = None
    ratio: Number | None = None
    openings: tuple[Size, ...] | None = None
    split: Annotated[dict[Count, Count], BeforeValidator(_each_row_once)] = Field(default_factory=dict)


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
        inputs = json.dumps(self.model_dump(mode="json"), sort_keys=True)
        return hashlib.sha256(inputs.encode()).hexdigest()[:10]


class CaseDesign(Design):
    """A case with rows of drawers, with or without legs.

    Args:
        case: thicknesses of the case.
        rows: the openings.
        legs: the legs, where it has any.
    """

    case: Case
    rows: Rows
    legs: CaseLegs | None = None


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
