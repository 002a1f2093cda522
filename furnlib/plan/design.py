"""The design file's shape: one piece, one set of master sizes, every message with line and cure."""

from __future__ import annotations

import contextlib
import hashlib
import json
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    PrivateAttr,
    ValidationError,
    ValidationInfo,
)

from furnlib.base.guards import DesignError, nearest_word
from furnlib.base.reading import parse_length, read_angle, read_count, read_length, read_number
from furnlib.base.units import Unit, write_length
from furnlib.plan.design_text import DesignText, KeyPath, spoken_path
from furnlib.trade.leg.lean import Lean

Rule = Literal["equal", "constant step", "constant ratio", "own list"]
Position = Literal["front left", "front right", "rear left", "rear right"]
POSITIONS: tuple[Position, ...] = ("front left", "front right", "rear left", "rear right")
"""Left and right as seen from the front of the piece."""


@dataclass
class _Context:
    """What reading one file needs to know and to remember."""

    unit: Unit
    notices: list[str]


def _reader(read: Callable[[str, _Context], Any]) -> BeforeValidator:
    """Make a pydantic validator that reads text as makers write it."""

    def validate(value: Any, info: ValidationInfo[_Context]) -> Any:
        if not isinstance(value, str):
            raise DesignError("A single value should stand here; write it on the same line as its name.")
        return read(value, info.context)

    return BeforeValidator(validate)


def _length(text: str, context: _Context) -> Fraction:
    reading = parse_length(text, context.unit)
    if reading.converted:
        finest = Fraction(1, 1000) if context.unit == "mm" else Fraction(1, 64)
        written = write_length(reading.value, context.unit, style="spoken", finest=finest)
        about = "" if read_length(written, context.unit) == reading.value else "about "
        context.notices.append(f"'{reading.text}' was read as {about}{written}, the unit of this piece.")
    return reading.value


def _size(text: str, context: _Context) -> Fraction:
    value = _length(text, context)
    if value <= 0:
        raise DesignError(f"The size is {text.strip()}; it must be more than 0: give a size above 0.")
    return value


def _one_of(kind: str, words: tuple[str, ...]) -> BeforeValidator:
    def read(text: str, _: _Context) -> str:
        if text not in words:
            raise DesignError(f"'{text}' is no {kind}; {nearest_word(text, words)}")
        return text

    return _reader(read)


def _words(text: str, _: _Context) -> str:
    if not text.strip() or len(text) > 60:
        raise DesignError(f"'{text[:20]}' will not do here; write 1 to 60 letters.")
    return text.strip()


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


Size = Annotated[Fraction, _reader(_size)]
Length = Annotated[Fraction, _reader(_length)]
Angle = Annotated[float, _reader(lambda text, _: float(read_angle(text)))]
Number = Annotated[Fraction, _reader(lambda text, _: read_number(text))]
Count = Annotated[int, _reader(lambda text, _: read_count(text))]
Words = Annotated[str, _reader(_words)]


class _Part(BaseModel):
    """A part of the design file: fixed once read, no keys but its own."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)


class Overall(_Part):
    """The silhouette: what the piece measures over all, legs included.

    Args:
        height: floor to top, above 0, in the piece's unit.
        width: across the front, above 0, in the piece's unit.
        depth: front to back, above 0, in the piece's unit.
    """

    height: Size
    width: Size
    depth: Size


class Case(_Part):
    """Thicknesses of the case; its own height only where the maker wants it checked.

    Args:
        side: thickness of each side, above 0, in the piece's unit.
        top: thickness of the top.
        bottom: thickness of the bottom.
        divider: thickness of each divider.
        height: of the case without legs; must agree with the rest where it is given.
    """

    side: Size
    top: Size
    bottom: Size
    divider: Size
    height: Size | None = None


class Rows(_Part):
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
    rule: Annotated[Rule, _one_of("rule", ("equal", "constant step", "constant ratio", "own list"))]
    step: Length | None = None
    ratio: Number | None = None
    openings: tuple[Size, ...] | None = None
    split: Annotated[dict[Count, Count], BeforeValidator(_each_row_once)] = Field(default_factory=dict)


class Inset(_Part):
    """How far the tops of the legs' axes stand in from the edges of the case.

    Args:
        front: from the front edge, above 0, in the piece's unit.
        rear: from the rear edge.
        side: from either side.
    """

    front: Size
    rear: Size
    side: Size


class LeanNames(_Part):
    """Any two names of a leg's lean, in degrees.

    Args:
        rake: seen square-on from the side, between -90 and 90.
        splay: seen square-on from the front, between -90 and 90.
        total_lean: true angle from plumb, from 0 to below 90.
        sight_line: plan direction, from -360 to 360.
    """

    rake: Angle | None = None
    splay: Angle | None = None
    total_lean: Angle | None = Field(default=None, alias="total lean")
    sight_line: Angle | None = Field(default=None, alias="sight line")

    def lean(self) -> Lean:
        """The direction that the two names mean.

        Returns:
            The lean.
        """
        named = {f"{name}_deg": value for name, value in self if value is not None}
        return Lean.from_names(**named)


class Legs(_Part):
    """Square legs under the case, each leaning its own way.

    Args:
        height: floor to the underside of the case, above 0, in the piece's unit.
        square: side of the leg's square section, above 0, in the piece's unit.
        inset: where the legs stand under the case.
        lean: the lean of each leg by its position, as seen from the front.
    """

    height: Size
    square: Size
    inset: Inset
    lean: dict[Annotated[Position, _one_of("leg", POSITIONS)], LeanNames]


class Design(_Part):
    """A piece as its maker settled it: the master sizes and nothing derived.

    Read one with `read_design`; every length is an exact fraction in the piece's unit.

    Args:
        piece: its name, 1 to 60 letters.
        revision: its letter.
        unit: "mm" or "in", the unit of every length in it.
        grid: the smallest step this shop cuts to, above 0, in the unit.
        overall: the silhouette.
        case: thicknesses of the case.
        rows: the openings.
        legs: the legs, where it has any.

    Example:
        >>> design = read_design("notebooks/designs/landing_chest.yaml")
        >>> design.piece, design.unit, int(design.overall.height)
        ('Landing chest', 'mm', 1300)
    """

    piece: Words
    revision: Words = "A"
    unit: Annotated[Unit, _one_of("unit", ("mm", "in"))]
    grid: Size
    overall: Overall
    case: Case
    rows: Rows
    legs: Legs | None = None
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


def design_of(text: DesignText) -> Design:
    """Make sense of a design file's text.

    Args:
        text: the file as it was written.

    Returns:
        The design; what was read in other units is said in its notices.

    Raises:
        DesignError: for the first fault in the file, with line, path and cure; further faults are
            in its ``more``.

    Example:
        >>> design_of(DesignText.parse("piece: Box"))
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: design line 1, top of the file: 'case' is missing; add a line 'case: …'.
    """
    context = _Context("in" if text.tree.get("unit") == "in" else "mm", [])
    try:
        design = Design.model_validate(text.tree, context=context)
    except ValidationError as error:
        faults = sorted(_fault(text, fault) for fault in error.errors())
        raise DesignError(faults[0][1], [sentence for _, sentence in faults[1:]]) from None
    design._notices = tuple(context.notices)
    return design


def _fault(text: DesignText, fault: Any) -> tuple[int, str]:
    """Turn one of pydantic's faults into a sentence with its line."""
    path: KeyPath = tuple(key for key in fault["loc"] if key != "[key]")
    line, where = text.line_of(path), spoken_path(path)
    match fault["type"]:
        case "missing":
            sentence = f"'{path[-1]}' is missing; add a line '{path[-1]}: …'."
            where = spoken_path(path[:-1]) or "top of the file"
        case "extra_forbidden":
            sentence = f"there is no '{path[-1]}' here; {nearest_word(str(path[-1]), _names_beside(path))}"
            where = spoken_path(path[:-1]) or "top of the file"
        case "value_error":
            sentence = str(fault["ctx"]["error"])
        case "model_type" | "model_attributes_type" | "dict_type":
            sentence = "names and values should stand below this, each on a line of its own."
        case "tuple_type":
            sentence = "a list should stand here, such as [83, 103, 123]."
        case _:
            sentence = f"{fault['msg']}."
    return line, f"{text.name} line {line}, {where}: {sentence}"


def _names_beside(path: KeyPath) -> list[str]:
    """The names that a part of the file knows."""
    if path[:-2] == ("legs", "lean"):
        return [field.alias or name for name, field in LeanNames.model_fields.items()]
    parts: dict[str, type[_Part]] = {"overall": Overall, "case": Case, "rows": Rows, "legs": Legs, "inset": Inset}
    part = parts.get(str(path[-2]), Design) if path[:-1] else Design
    return list(part.model_fields)


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
