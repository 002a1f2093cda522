"""The one dimension control: a slider and a typed box under one name, exact to the fraction.

The browser side (control.js) holds no sizes and no formatting: it shows the texts written here and
says which grid position the hand chose, or what was typed. So there is one reader and one writer.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from furnlib.base import units
from furnlib.base.guards import DesignError
from furnlib.base.reading import Reading, parse_length, read_angle, read_count, read_number
from furnlib.base.units import Unit
from furnlib.draw.page_outlet import RULES

Size = float | Fraction | str
"""A number, or a text as makers write it; a float counts as the decimal it prints as."""
MOST_POSITIONS = 2000


@dataclass(frozen=True)
class _Kind:
    """How one kind of size is read and written; `unit` is "in", "mm", "°" or nothing."""

    read: Callable[[str], Reading]
    unit: str
    make: type[Fraction] | type[int] = Fraction

    def bare(self, value: Fraction) -> str:
        if self.unit == "in" and value.denominator <= 64:
            step = Fraction(1, value.denominator)
            return units.write_length(value, "in", style="spoken", finest=step).removesuffix(" in")
        ends = (10**6 * value).denominator == 1  # else no decimal is exact, as for a third of a mm
        return units.write_number(value, 6 if ends else 4)

    def full(self, value: Fraction) -> str:
        return self.bare(value) + (self.unit if self.unit in {"°", ""} else f" {self.unit}")

    def spoken(self, value: Fraction) -> str:
        return self.full(value).replace("°", " degree" if value == 1 else " degrees")


class Control(anywidget.AnyWidget):
    """A slider and a typed box for one size; made by the four functions below.

    `value` is the exact size (an int for a count): read it, or `observe` it. It changes by the hand
    or by `set_value`, never by assignment.

    Args:
        name: what the maker calls it; seen and spoken.
        kind: how such a size is read and written.
        value: where it starts, from low to high; may be off the grid.
        low: the low end, in the unit of the kind.
        high: the high end, above the low one.
        grid: the slider's step, above 0; 2 to 2000 of its steps lie from end to end.

    Raises:
        DesignError: when the ends, the grid or the value do not go together.
    """

    _esm = Path(__file__).with_name("control.js")
    # The rules of pictures come along: a live picture stands below its controls and brings none.
    _css = Path(__file__).with_name("control.css").read_text("utf-8") + RULES

    value = traitlets.Any(read_only=True)

    name = traitlets.Unicode().tag(sync=True)
    unit = traitlets.Unicode().tag(sync=True)
    labels = traitlets.List(traitlets.Unicode()).tag(sync=True)
    spoken = traitlets.List(traitlets.Unicode()).tag(sync=True)
    leap = traitlets.Int().tag(sync=True)
    # Where the thumb stands, and whether the value lies under it (-1), on it (0) or over it (1).
    position = traitlets.Int().tag(sync=True)
    side = traitlets.Int().tag(sync=True)
    shown = traitlets.Unicode().tag(sync=True)
    said = traitlets.Unicode().tag(sync=True)
    message = traitlets.Unicode().tag(sync=True)
    invalid = traitlets.Bool().tag(sync=True)
    # The page's only word to Python: a running number, and either a position or a typed text. One
    # trait, so that the last wish stands whole however many were made while Python was busy; until
    # its number is answered the page shows the wish and not an older answer.
    asked = traitlets.List(default_value=[0, None, None]).tag(sync=True, echo_update=False)
    answered = traitlets.Int().tag(sync=True)

    def __init__(self, name: str, kind: _Kind, value: Size, low: Size, high: Size, grid: Size) -> None:
        self._kind = kind
        self._low, self._high, self._grid = (kind.read(str(size)).value for size in (low, high, grid))
        if self._grid <= 0:
            raise DesignError(f"The grid of {name} is {grid}; it must be more than 0: give a step.")
        if self._low >= self._high:
            raise DesignError(f"{name} runs from {low} to {high}; the low end must be below the high end.")
        self._first = math.ceil(self._low / self._grid)
        steps = range(self._first, math.floor(self._high / self._grid) + 1)
        if not 2 <= len(steps) <= MOST_POSITIONS:
            raise DesignError(
                f"{name} has {len(steps)} positions on the {kind.full(self._grid)} grid; it must have 2 to"
                f" {MOST_POSITIONS}: move the ends or change the grid."
            )
        super().__init__(name=name, unit=kind.unit, leap=max(2, len(steps) // 10))
        self.labels = [kind.bare(step * self._grid) for step in steps]
        self.spoken = [kind.spoken(step * self._grid) for step in steps]
        self.set_value(value)

    def __repr__(self) -> str:
        return f"<Control {self.name}: {self._kind.full(Fraction(self.value))}>"

    def set_value(self, value: Size, *, quiet: bool = False) -> None:
        """Set the control from code, exactly; a value off the grid is kept and said.

        Args:
            value: in the control's unit, within its ends.
            quiet: True to keep it and not say so.

        Raises:
            DesignError: when the value cannot be read or lies outside the ends.

        Example:
            >>> control = length_control("Front", 6, 3, 9, "1/16", "in")
            >>> control.set_value("5 1/3")
            >>> control, control.message
            (<Control Front: 5 1/3 in>, '5 1/3 is off the 1/16 in grid; nearest 5 5/16.')
        """
        exact = self._read(str(value)).value
        with self.hold_sync():
            self._place(Reading(exact, self._kind.bare(exact), converted=False))
            if quiet:
                self.message = ""

    def means(self, text: str) -> bool:
        """Tell whether a text says the very value that stands on the control.

        Args:
            text: a size as makers write it, in the control's unit or with a unit of its own.

        Returns:
            True where it does.

        Raises:
            DesignError: when the text cannot be read.

        Example:
            >>> front = length_control("Front", "5 1/2", 3, 9, "1/16", "in")
            >>> front.means("5.50"), front.means("5 9/16")
            (True, False)
        """
        return bool(self._kind.read(text).value == self.value)

    def _read(self, text: str) -> Reading:
        kind, reading = self._kind, self._kind.read(text)
        if not self._low <= reading.value <= self._high:
            size = reading.text if reading.converted else kind.full(reading.value)
            ends = f"{kind.bare(self._low)} to {kind.full(self._high)}"
            raise DesignError(f"{self.name} is {size}; it must lie from {ends}: give a value between them.")
        return reading

    def _at(self, position: int) -> Fraction:
        return (self._first + position) * self._grid

    def _place(self, reading: Reading) -> None:
        kind, exact = self._kind, reading.value
        position = round(exact / self._grid) - self._first
        position = min(max(position, 0), len(self.labels) - 1)  # an end need not be on the grid
        over = exact - self._at(position)
        notes = [kind.full(exact)] if reading.converted else []
        if over:
            notes.append(f"off the {kind.full(self._grid)} grid; nearest {self.labels[position]}")
        # Held together, so that nobody sees half of it. The value goes last: should what observes it
        # fail, the control itself is right already.
        with self.hold_sync(), self.hold_trait_notifications():
            self.position, self.side = position, (over > 0) - (over < 0)
            self.shown, self.said = kind.bare(exact), kind.spoken(exact)
            self.message = f"{reading.text} is {', '.join(notes)}." if notes else ""
            self.invalid = False
            self.set_trait("value", kind.make(exact))

    @traitlets.observe("asked")
    def _answer(self, change: Any) -> None:
        number, position, text = change["new"]
        with self.hold_sync():
            self.answered = number
            if text is None:
                self._place(Reading(self._at(position), "", converted=False))
                return
            try:
                reading = self._read(text)
            except DesignError as refusal:
                self.shown, self.message, self.invalid = text, str(refusal), True
            else:
                self._place(reading)


def set_together(values: Mapping[Control, Size]) -> None:
    """Set several controls from code and say nothing: all of them, or none where one refuses.

    Args:
        values: what each is set to, in its unit and within its ends.

    Raises:
        DesignError: when a value lies outside the ends of its control.

    Example:
        >>> rake, splay = angle_control("Rake", 8, 0, 30, 0.5), angle_control("Splay", 6, 0, 30, 0.5)
        >>> set_together({rake: 9.25, splay: 7})
        >>> rake, splay, rake.message
        (<Control Rake: 9.25°>, <Control Splay: 7°>, '')
    """
    for control, value in values.items():
        control._read(str(value))
    for control, value in values.items():
        control.set_value(value, quiet=True)


def length_control(name: str, value: Size, low: Size, high: Size, grid: Size, unit: Unit) -> Control:
    """Make a control for a length.

    Args:
        name: what the maker calls it; seen and spoken.
        value: where it starts, in the unit, from low to high; may be off the grid.
        low: the least length, in the unit.
        high: the greatest length, in the unit.
        grid: the slider's step, above 0, in the unit; it stops at whole steps from 0.
        unit: "mm" or "in".

    Returns:
        The control; its `value` is an exact fraction.

    Raises:
        DesignError: when the ends, the grid or the value do not go together.

    Example:
        >>> front = length_control("Drawer front", "5 11/16", 3, 9, "1/16", "in")
        >>> front, front.value
        (<Control Drawer front: 5 11/16 in>, Fraction(91, 16))
    """
    return Control(name, _Kind(lambda text: parse_length(text, unit), unit), value, low, high, grid)


def angle_control(name: str, value: Size, low: Size, high: Size, grid: Size) -> Control:
    """Make a control for an angle in degrees.

    Args:
        name: what the maker calls it; seen and spoken.
        value: where it starts, in degrees, from low to high; may be off the grid.
        low: the least angle in degrees.
        high: the greatest angle in degrees.
        grid: the slider's step in degrees, above 0.

    Returns:
        The control; its `value` is an exact fraction of degrees.

    Raises:
        DesignError: when the ends, the grid or the value do not go together.

    Example:
        >>> angle_control("Rake", 8, 0, 30, 0.5)
        <Control Rake: 8°>
    """
    return Control(name, _Kind(_plain(read_angle), "°"), value, low, high, grid)


def number_control(name: str, value: Size, low: Size, high: Size, grid: Size) -> Control:
    """Make a control for a plain number such as a ratio.

    Args:
        name: what the maker calls it; seen and spoken.
        value: where it starts, from low to high; may be off the grid.
        low: the least number.
        high: the greatest number.
        grid: the slider's step, above 0.

    Returns:
        The control; its `value` is an exact fraction.

    Raises:
        DesignError: when the ends, the grid or the value do not go together.

    Example:
        >>> number_control("Each row to the next", 1.16, 1, 1.5, 0.01).value
        Fraction(29, 25)
    """
    return Control(name, _Kind(_plain(read_number), ""), value, low, high, grid)


def count_control(name: str, value: Size, low: Size, high: Size) -> Control:
    """Make a control for a whole number of things.

    Args:
        name: what the maker calls it; seen and spoken.
        value: where it starts, a whole number from low to high.
        low: the least count.
        high: the greatest count.

    Returns:
        The control; its `value` is an int.

    Raises:
        DesignError: when a number is not whole, or the ends and the value do not go together.

    Example:
        >>> count_control("Drawers", 7, 2, 12)
        <Control Drawers: 7>
    """
    return Control(name, _Kind(_plain(read_count), "", int), value, low, high, 1)


def _plain(read: Callable[[str], Fraction | int]) -> Callable[[str], Reading]:
    return lambda text: Reading(Fraction(read(text)), text.strip(), converted=False)
