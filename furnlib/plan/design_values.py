"""Single values of a design file: text as makers write it, read once, exactly."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, ValidationInfo

from furnlib.base.guards import DesignError, nearest_word
from furnlib.base.reading import parse_length, read_angle, read_count, read_length, read_number
from furnlib.base.units import Unit, write_length


@dataclass
class Reader:
    """What reading one file needs to know and to remember.

    Args:
        unit: the piece's unit, "mm" or "in".
        notices: what was read in other units, a sentence each.
    """

    unit: Unit
    notices: list[str]


def _reader(read: Callable[[str, Reader], Any]) -> BeforeValidator:
    """Make a pydantic validator that reads text as makers write it."""

    def validate(value: Any, info: ValidationInfo[Reader]) -> Any:
        if not isinstance(value, str):
            raise DesignError("A single value should stand here; write it on the same line as its name.")
        return read(value, info.context)

    return BeforeValidator(validate)


def _length(text: str, context: Reader) -> Fraction:
    reading = parse_length(text, context.unit)
    if reading.converted:
        finest = Fraction(1, 1000) if context.unit == "mm" else Fraction(1, 64)
        written = write_length(reading.value, context.unit, style="spoken", finest=finest)
        about = "" if read_length(written, context.unit) == reading.value else "about "
        context.notices.append(f"'{reading.text}' was read as {about}{written}, the unit of this piece.")
    return reading.value


def _size(text: str, context: Reader) -> Fraction:
    value = _length(text, context)
    if value <= 0:
        raise DesignError(f"The size is {text.strip()}; it must be more than 0: give a size above 0.")
    return value


def _allowance(text: str, context: Reader) -> Fraction:
    value = _length(text, context)
    if value < 0:
        raise DesignError(f"The size is {text.strip()}; it must be 0 or more: write 0 where there is none of it.")
    return value


def one_of(kind: str, words: tuple[str, ...]) -> BeforeValidator:
    """Make a pydantic validator that takes one of some words.

    Args:
        kind: what the word names, for the sentence that refuses another.
        words: the words that are understood.

    Returns:
        The validator.
    """

    def read(text: str, _: Reader) -> str:
        if text not in words:
            raise DesignError(f"'{text}' is no {kind}; {nearest_word(text, words)}")
        return text

    return _reader(read)


def _words(text: str, _: Reader) -> str:
    if not text.strip() or len(text) > 60:
        raise DesignError(f"'{text[:20]}' will not do here; write 1 to 60 letters.")
    return text.strip()


Size = Annotated[Fraction, _reader(_size)]
Length = Annotated[Fraction, _reader(_length)]
Allowance = Annotated[Fraction, _reader(_allowance)]
Angle = Annotated[float, _reader(lambda text, _: float(read_angle(text)))]
Number = Annotated[Fraction, _reader(lambda text, _: read_number(text))]
Count = Annotated[int, _reader(lambda text, _: read_count(text))]
Words = Annotated[str, _reader(_words)]


class Part(BaseModel):
    """A part of the design file: fixed once read, no keys but its own."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)
