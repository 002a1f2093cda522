"""Lengths, angles and numbers read as makers write them, exactly; text is read and never evaluated.

A text with a unit of its own is converted exactly (1 in is 25.4 mm), and the reading says so.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from furnlib.base.guards import DesignError
from furnlib.base.units import MM_IN, Unit

LONGEST_MM = 100_000  # 100 m: past any piece of furniture, so a slip of the finger and no size
LONGEST_TEXT = 60
_WAYS = "write it like 146, 146 mm, 14.6 cm, 5 11/16 in or 5' 3 1/2\""
_UNIT_WORDS = {
    "": "",
    "mm": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "cm": "cm",
    "m": "m",
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "''": "in",
    "ft": "ft",
    "foot": "ft",
    "feet": "ft",
    "'": "ft",
}
_NUMBER = r"[0-9]+/[0-9]+|[0-9]+(?: |-)[0-9]+/[0-9]+|[0-9]*[.,][0-9]+|[0-9]+[.,]?"
_PART = re.compile(rf"({_NUMBER})\s*(''|[a-z]+|['\"])?\s*", re.IGNORECASE)
_THREE_AFTER_COMMA = re.compile(r"(?<![0-9.,])[0-9]*,[0-9]{3}(?![0-9])")
_SMALL = "⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉"  # only a fraction may be written so; alone they would be powers
_SMALL_FRACTION = re.compile("[⁰¹²³⁴⁵⁶⁷⁸⁹]+[⁄/][₀₁₂₃₄₅₆₇₈₉]+")


@dataclass(frozen=True)
class Reading:
    """A length as it was read.

    Args:
        value: the exact length in the wanted unit.
        text: what was written, trimmed.
        converted: True where the text named another system of units than the wanted one.
    """

    value: Fraction
    text: str
    converted: bool


def _tidy(text: str) -> str:
    """Bring primes, small fractions and odd spaces to plain characters."""
    spaced = "".join(f" {c}" if unicodedata.decomposition(c).startswith("<fraction>") else c for c in text)
    spaced = _SMALL_FRACTION.sub(lambda small: f" {unicodedata.normalize('NFKC', small.group())}", spaced)
    plain = "".join(c if c in _SMALL else unicodedata.normalize("NFKC", c) for c in spaced)
    for odd, usual in (("⁄", "/"), ("∕", "/"), ("′′", '"'), ("″", '"'), ("”", '"'), ("“", '"')):
        plain = plain.replace(odd, usual)
    for odd, usual in (("′", "'"), ("’", "'"), ("−", "-"), ("–", "-"), ("°", " deg")):
        plain = plain.replace(odd, usual)
    joined = re.sub(r" ?/ ?", "/", " ".join(plain.split())).replace("'-", "' ")
    return re.sub(r"- (?=[0-9]+/)", "-", joined)


def _number(text: str, whole: str) -> Fraction:
    """Read one number: whole, decimal with point or comma, fraction, or whole and fraction."""
    if "/" in text:
        *front, ratio = re.split(r"[ -]", text)
        over, under = ratio.split("/")
        if int(under) == 0:
            raise DesignError(f"'{whole}' has a fraction over 0; {_WAYS}.")
        return Fraction(int(front[0]) if front else 0) + Fraction(int(over), int(under))
    return Fraction(text.replace(",", ".").rstrip("."))


def _a(kind: str) -> str:
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


def _check_text(text: str, kind: str, ways: str) -> str:
    tidy = _tidy(text)
    if not tidy:
        raise DesignError(f"No {kind} is written; {ways}.")
    if len(text) > LONGEST_TEXT:
        raise DesignError(f"'{tidy[:20]}…' is too long for {_a(kind)}; {ways}.")
    if _THREE_AFTER_COMMA.search(tidy):
        raise DesignError(
            f"'{tidy}' has a comma before three digits, which can mean thousands or a decimal;"
            " write 1300, or 1.300 with a point."
        )
    return tidy


@lru_cache(1024)  # a slider changes one length of a design; the others are not read again
def parse_length(text: str, unit: Unit) -> Reading:
    """Read a length as a maker writes it, and say whether it came in other units.

    Args:
        text: such as ``5 11/16"``, ``5-11/16``, ``5' 3 1/2"``, ``5½``, ``0.5in``, ``146``,
            ``146 mm`` or ``14,6 cm``; a bare number is in the wanted unit.
        unit: the wanted unit, "mm" or "in".

    Returns:
        The exact reading.

    Raises:
        DesignError: when the text is no length, names units that do not go together, has a comma
            before exactly three digits, or is longer than 100 m.

    Example:
        >>> parse_length("3/4 in", "mm")
        Reading(value=Fraction(381, 20), text='3/4 in', converted=True)
    """
    tidy = _check_text(text, "length", _WAYS)
    sign, body = (-1, tidy[1:].strip()) if tidy.startswith("-") else (1, tidy)
    parts: list[tuple[Fraction, str]] = []
    position = 0
    while position < len(body):
        match = _PART.match(body, position)
        if not match or (match.group(2) or "").lower() not in _UNIT_WORDS:
            raise DesignError(f"'{tidy}' cannot be read as a length; {_WAYS}.")
        parts.append((_number(match.group(1), tidy), _UNIT_WORDS[(match.group(2) or "").lower()]))
        position = match.end()
    units = [named for _, named in parts]
    if units == ["ft", ""]:  # 5' 3 means 5 feet 3 inches
        parts[1], units[1] = (parts[1][0], "in"), "in"
    if not (len(parts) == 1 or units == ["ft", "in"]):
        raise DesignError(f"'{tidy}' cannot be read as one length; {_WAYS}.")
    in_mm = sum((number * MM_IN[named or unit] for number, named in parts), Fraction(0))
    if in_mm > LONGEST_MM:
        raise DesignError(f"'{tidy}' is longer than 100 m; check the number and its unit.")
    metric = {"mm", "cm", "m"}
    converted = any(named and (named in metric) != (unit == "mm") for named in units)
    return Reading(sign * in_mm / MM_IN[unit], tidy, converted)


def read_length(text: str, unit: Unit) -> Fraction:
    """Read a length as a maker writes it, exactly, in the wanted unit.

    Args:
        text: as in `parse_length`.
        unit: the wanted unit, "mm" or "in"; a bare number is in this unit.

    Returns:
        The exact length in that unit.

    Raises:
        DesignError: when the text cannot be read as one length.

    Example:
        >>> read_length('5-11/16"', "in")
        Fraction(91, 16)
        >>> read_length("14,6 cm", "mm")
        Fraction(146, 1)
    """
    return parse_length(text, unit).value


def _read_plain(text: str, kind: str, ways: str, ending: str = "") -> Fraction:
    tidy = _check_text(text, kind, ways)
    match = re.fullmatch(rf"(-?)\s*({_NUMBER})\s*{ending}", tidy, re.IGNORECASE)
    if not match:
        raise DesignError(f"'{tidy}' cannot be read as {_a(kind)}; {ways}.")
    return (-1 if match.group(1) else 1) * _number(match.group(2), tidy)


def read_angle(text: str) -> Fraction:
    """Read an angle in degrees, exactly.

    Args:
        text: such as ``8``, ``8.5``, ``7 1/2``, ``8°`` or ``8 deg``.

    Returns:
        Degrees.

    Raises:
        DesignError: when the text is no angle.

    Example:
        >>> read_angle("7 1/2°")
        Fraction(15, 2)
    """
    return _read_plain(text, "angle", "write it like 8, 8.5 or 8°", r"(?:deg|degrees?)?")


def read_number(text: str) -> Fraction:
    """Read a plain number such as a ratio, exactly.

    Args:
        text: such as ``1.16``, ``1,16``, ``5/4`` or ``1 1/4``.

    Returns:
        The number.

    Raises:
        DesignError: when the text is no plain number.

    Example:
        >>> read_number("1.16")
        Fraction(29, 25)
    """
    return _read_plain(text, "number", "write it like 7, 1.16 or 5/4")


def read_count(text: str) -> int:
    """Read a whole number of things.

    Args:
        text: such as ``7``.

    Returns:
        The count, which may be 0 or less: what is allowed depends on the thing counted.

    Raises:
        DesignError: when the text is no whole number.

    Example:
        >>> read_count("7")
        7
    """
    number = read_number(text)
    if number.denominator != 1:
        raise DesignError(f"'{text.strip()}' is not a whole number; write it like 7.")
    return int(number)
