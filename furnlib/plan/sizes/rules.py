"""The sizes of one leg as they are collected, each with its rule in words and numbers."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from furnlib.base.units import Unit, write_angle, write_length, write_number
from furnlib.plan.sizes.size import Size


class LegRules:
    """Collects the sizes of one leg, which are those of its mirror image too.

    Args:
        unit: of the piece, "mm" or "in".
    """

    def __init__(self, unit: Unit) -> None:
        self.unit, self._sizes = unit, list[Size]()

    def of(self, position: str) -> list[Size]:
        """The sizes under the name of a leg.

        Args:
            position: which leg.

        Returns:
            The sizes in the order in which they were added.
        """
        return [replace(size, name=f"{size.name}, {position} leg") for size in self._sizes]

    def length(self, name: str, value: Fraction | float, rule: str, formula: str, least: bool = False) -> None:
        """Add a length.

        Args:
            name: what it is.
            value: in the piece's unit.
            rule: the sum behind it.
            formula: key of the formula; empty for a plain sum.
            least: True for a least size, rounded up where it is written.
        """
        written = write_length(value, self.unit, round_up=least)
        full = f"{written} {'≥' if least else '='} {rule}"
        self._sizes.append(Size(name, value, self.unit, full, formula, least))

    def angle(self, name: str, angle_deg: float, rule: str, formula: str) -> None:
        """Add an angle.

        Args:
            name: what it is.
            angle_deg: its size, in degrees.
            rule: the sum behind it; empty where the design gives it.
            formula: key of the formula.
        """
        written = write_angle(angle_deg, 2)
        full = f"{written} = {rule}" if rule else f"{written} as the design gives it"
        self._sizes.append(Size(name, angle_deg, "deg", full, formula if rule else ""))

    def number(self, name: str, value: float, rule: str, formula: str = "", decimals: int = 2) -> None:
        """Add a plain number.

        Args:
            name: what it is, with its unit where it has one.
            value: the number.
            rule: the sum behind it.
            formula: key of the formula; empty where a table or a search gave it.
            decimals: at most so many are written.
        """
        written = write_number(value, decimals)
        self._sizes.append(Size(name, value, "", f"{written} = {rule}", formula))
