"""The form of an answer: read as makers write it, written as the key does, compared.

Every answer is a row of exact numbers: a list has one in each place, a single number is a row of
one, and words are ticks, 1 or 0 for each word offered, so that neither order nor repeats count.

How near is near enough: X on the grid (words: exactly), L 0.5 mm or 1/64 in, S (slots, gaps) 0.3 mm
or 0.012 in, A 0.1 degrees, P 2 % of the answer.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from furnlib.base import units
from furnlib.base.guards import DesignError, nearest_word
from furnlib.base.reading import parse_length, read_angle, read_number

Values = tuple[Fraction, ...]
Kind = Literal["length", "lengths", "angle", "angles", "number", "numbers", "words"]
Tolerance = Literal["X", "L", "A", "S", "P"]

NEAR = {"L mm": "0.5", "L in": "1/64", "S mm": "0.3", "S in": "0.012", "A angle": "0.1"}
_AND = r"\s*(?:[+;&\n×]|\b(?i:and|x)\b)\s*"
# A list in one text is split before each number, but not between a whole number and its fraction.
_GAP = r"\s+(?=-?[.0-9])(?![0-9]+\s?/)|(?:(?<=/[0-9])|(?<=/[0-9]{2}))\s+(?=[0-9])"


@dataclass(frozen=True)
class AnswerForm:
    """What is wanted as an answer, and how near it must come.

    Args:
        kind: "length", "angle" or "number"; "lengths", "angles" or "numbers" for a list; "words" for a set.
        tolerance: X, L, A, S or P, as the head of this module says.
        unit: of lengths, "mm" or "in".
        grid: the step that the answer must be whole numbers of, above 0.
        offered: the words to choose from.

    Example:
        >>> form = AnswerForm("angles", "A")
        >>> form.write(form.read("12.38°, 8 3/4")[0])
        '12.38°, 8.75°'
    """

    kind: Kind
    tolerance: Tolerance
    unit: units.Unit = "mm"
    grid: Fraction | None = None
    offered: tuple[str, ...] = ()

    @property
    def one(self) -> str:
        """What one place of the answer is: a length, an angle, a number or a word."""
        return self.kind.removesuffix("s")

    def read(self, answer: Any) -> tuple[Values, str]:
        """Read an answer, exactly.

        Args:
            answer: text as makers write it, a number, or a list of either.

        Returns:
            The answer, and what is to be said of lengths that were converted.

        Raises:
            DesignError: when it cannot be read, or is a list where one number is wanted.
        """
        items = self._items(answer)
        if self.kind == "words":
            return self._ticks(items), ""
        if self.kind == self.one and len(items) > 1:
            raise DesignError(f"{len(items)} answers are given; this exercise asks for one {self.one}.")
        read = [self._read_one(item) for item in items]
        return tuple(value for value, _ in read), "".join(said for _, said in read)

    def exact(self, value: Any) -> Values:
        """Bring what a function worked out into the form of an answer.

        Args:
            value: a number, a list of numbers or a list of words offered.

        Returns:
            The answer.

        Raises:
            DesignError: when a number is no ordinary one, or a word is not offered.
        """
        row = list(value) if isinstance(value, list | tuple) else [value]
        return self._ticks(row) if self.kind == "words" else tuple(_exact(number) for number in row)

    def write(self, values: Values) -> str:
        """Write an answer as the key does: on the grid, fine enough to be read back as right.

        Args:
            values: the answer, in the unit.

        Returns:
            The text; lengths end with their unit.
        """
        if self.kind == "words":
            return ", ".join(word for word, tick in zip(self.offered, values, strict=True) if tick)
        marks = [self._to_grid(value) for value in values]
        if self.one == "length":
            finest = Fraction(1, 10) if self.unit == "mm" else Fraction(1, 64)
            return f"{', '.join(units.write_length(mark, self.unit, finest=finest) for mark in marks)} {self.unit}"
        return ", ".join(
            units.write_angle(mark, 2) if self.one == "angle" else units.write_number(mark, 4) for mark in marks
        )

    def meets(self, values: Values, wanted: Values, times: int = 1) -> bool:
        """Tell whether an answer is near enough in every place.

        Args:
            values: the answer.
            wanted: what it is compared with.
            times: how many tolerances it may be off.

        Returns:
            True where it is.

        Raises:
            KeyError: when the tolerance does not suit the kind.
        """
        return len(values) == len(wanted) and all(
            abs(value - want) <= times * self._near(want) or value == self._to_grid(want)
            for value, want in zip(values, wanted, strict=True)
        )

    def faults(self) -> list[str]:
        """Find words offered that could not be told apart, or not be read back.

        Returns:
            A sentence for each.
        """
        plain = [_plain(word) for word in self.offered]
        return [
            f"The word offered, '{word}', cannot be read as one word of its own."
            for word in self.offered
            if self._items(word) != [word] or plain.count(_plain(word)) > 1
        ]

    def _items(self, answer: Any) -> list[Any]:
        if isinstance(answer, list | tuple):
            return list(answer)
        if not isinstance(answer, str) or self.kind == self.one:
            return [answer]
        text = answer.strip().rstrip(",").rstrip()
        if self.kind == "words":
            return [word for word in re.split(f"{_AND}|,", text) if _plain(word)]
        marks = rf"{_AND}|\s*,\s+" if re.search(r"\s[-.0-9]", text) else rf"{_AND}|,"
        parts = re.split(marks if re.search(marks, text) else _GAP, text)
        if self.kind == "numbers":  # several in a row and one apart: no number has a gap in it
            return [number.removesuffix(self.unit) for part in parts for number in re.split(_GAP, part)]
        return parts

    def _ticks(self, words: list[Any]) -> Values:
        if not (words and all(isinstance(word, str) for word in words)):
            raise DesignError(f"No word is written; choose from {', '.join(self.offered)}.")
        plain = [_plain(word) for word in self.offered]
        for word in words:
            if _plain(word) not in plain:
                near = nearest_word(_plain(word), self.offered)
                raise DesignError(f"'{word.strip()[:30]}' is not one of the words to choose from; {near}")
        chosen = {_plain(word) for word in words}
        return tuple(Fraction(word in chosen) for word in plain)

    def _read_one(self, item: Any) -> tuple[Fraction, str]:
        if not isinstance(item, str):
            return _exact(item), ""
        if self.one != "length":
            return (read_angle if self.one == "angle" else read_number)(item), ""
        read = parse_length(item, self.unit)
        rounded = units.round_length(read.value, self.unit, units.FINEST[self.unit])
        return read.value, f" {read.text} is {rounded}." if read.converted else ""

    def _near(self, value: Fraction) -> Fraction:
        if self.tolerance == "X":  # up to a quarter step off, it is only not yet brought to the grid
            return Fraction(self.grid or 0) / 4
        measure = self.unit if self.one == "length" else self.one
        return abs(value) / 50 if self.tolerance == "P" else Fraction(NEAR[f"{self.tolerance} {measure}"])

    def _to_grid(self, value: Fraction) -> Fraction:
        return round(value / self.grid) * self.grid if self.grid else value


def _plain(word: str) -> str:
    return " ".join(re.findall(r"\w+", word.casefold()))


def _exact(value: Any) -> Fraction:
    is_number = isinstance(value, int | float | Fraction) and not isinstance(value, bool)
    if not (is_number and abs(value) < 10**12):  # so NaN is refused as well
        raise DesignError("The answer is no ordinary number; write one like 9.95, below 10^12.")
    return Fraction(str(value))
