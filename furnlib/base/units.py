"""Units and grids: lengths, angles and numbers written plainly.

Lengths are exact fractions in the piece's own unit, so 5 11/16 never becomes 5.6875000001. What
makers write is read in `base.reading`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from furnlib.base.guards import DesignError, require_finite

Unit = Literal["mm", "in"]
Style = Literal["page", "plate", "spoken"]

MM_IN: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
}
FINEST: dict[Unit, Fraction] = {"mm": Fraction(1, 10), "in": Fraction(1, 32)}
"""What a size is rounded to when nothing else is asked: a tenth of a mm, a thirty-second."""

NARROW_SPACE = "\u202f"
_SMALL_OVER = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_SMALL_UNDER = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")


@dataclass(frozen=True)
class Rounded:
    """A length brought to a grid, with what that changed.

    Args:
        value: the exact length on the grid.
        unit: "mm" or "in".
        grid: the step it was brought to, in the unit.
        error: value less the length before, in the unit; above 0 where it grew.
    """

    value: Fraction
    unit: Unit
    grid: Fraction
    error: Fraction

    def __str__(self) -> str:
        text = write_length(self.value, self.unit, style="spoken", finest=self.grid)
        if self.error == 0:
            return f"{text} exactly"
        grid = write_length(self.grid, self.unit, style="spoken", finest=self.grid)
        side = "over" if self.error > 0 else "under"
        return f"{text} (to {grid}: {abs(float(self.error)):.3f} {side})"


def _mixed(value: Fraction, style: Style) -> str:
    """Write an exact fraction of an inch with its whole part in front."""
    whole, rest = divmod(abs(value.numerator), value.denominator)
    sign = "-" if value < 0 else ""
    if rest == 0:
        return f"{sign}{whole}"
    over, under = str(rest), str(value.denominator)
    if style == "plate":
        fraction = f"{over.translate(_SMALL_OVER)}⁄{under.translate(_SMALL_UNDER)}"
    else:
        fraction = f"{over}/{under}"
    space = " " if style == "spoken" else NARROW_SPACE
    return sign + (f"{whole}{space}{fraction}" if whole else fraction)


def _rounded(steps: Fraction, up: bool) -> int:
    # what a float adds in its last digits is no reason for a whole step more
    return math.ceil(steps - Fraction(1, 10**6)) if up else round(steps)


def write_length(
    value: float | Fraction,
    unit: Unit,
    *,
    style: Style = "page",
    finest: Fraction | None = None,
    round_up: bool = False,
) -> str:
    """Write a length: mm whole or with one decimal, inches as a reduced fraction.

    Args:
        value: the length in the unit.
        unit: "mm" or "in".
        style: "page" (narrow no-break space before the fraction), "plate" (small fraction figures),
            or "spoken" (plain space, unit at the end).
        finest: round to this step; by default to 0.1 mm or 1/32 in, but an inch size that is an
            exact 64th stays one.
        round_up: True for a least size, which must not be written smaller than it is.

    Returns:
        The text; the unit stands in it only when spoken.

    Raises:
        DesignError: when the value is NaN or infinite, or the step is not above 0.

    Example:
        >>> write_length(Fraction(91, 16), "in", style="spoken")
        '5 11/16 in'
        >>> write_length(153.31, "mm")
        '153.3'
    """
    require_finite("length", value)
    if finest is not None and finest <= 0:
        raise DesignError(f"The step to round to is {finest}; it must be more than 0.")
    exact = value if isinstance(value, Fraction) else Fraction(value)
    shown = shown_length(exact, unit, finest=finest, round_up=round_up)
    if unit == "in":
        text = _mixed(shown, style)
    else:
        text = str(shown.numerator) if shown.denominator == 1 else f"{float(shown):.10g}"
    return f"{text} {unit}" if style == "spoken" else text


def shown_length(exact: Fraction, unit: Unit, *, finest: Fraction | None = None, round_up: bool = False) -> Fraction:
    """The length that `write_length` shows for an exact one: the same, or rounded.

    Args:
        exact: the length in the unit.
        unit: "mm" or "in".
        finest: round to this step, as in `write_length`.
        round_up: True for a least size.

    Returns:
        The length as written, exactly.

    Example:
        >>> str(shown_length(Fraction(1, 3), "mm")), str(shown_length(Fraction(91, 16), "in"))
        ('3/10', '91/16')
    """
    step = finest or (Fraction(1, 64) if unit == "in" and exact.denominator == 64 else FINEST[unit])
    if step.numerator == 1 and step.denominator % exact.denominator == 0:
        return exact  # it is on the grid
    return _rounded(exact / step, round_up) * step


def write_exact(value: Fraction, unit: Unit) -> str:
    """Write a length so that reading it gives the very same fraction, for a design file.

    Args:
        value: the exact length in the unit.
        unit: "mm" (a decimal where one ends, else a fraction) or "in" (a fraction).

    Returns:
        The text without its unit.

    Example:
        >>> write_exact(Fraction(41, 2), "mm"), write_exact(Fraction(16, 3), "mm"), write_exact(Fraction(91, 16), "in")
        ('20.5', '5 1/3', '5 11/16')
    """
    ends = (value * 10**9).denominator == 1
    return write_number(value, 9) if unit == "mm" and ends else _mixed(value, "spoken")


def write_gap(value: float | Fraction, unit: Unit) -> str:
    """Write a gap as fits are told: to a tenth of a mm, or to a thousandth of an inch.

    Args:
        value: the gap in the unit; below 0 where parts bind.
        unit: "mm" or "in".

    Returns:
        The text without its unit.

    Example:
        >>> write_gap(1.8000001, "mm"), write_gap(0.0495, "in")
        ('1.8', '0.05')
    """
    return write_number(value, 1 if unit == "mm" else 3)


def round_length(value: float | Fraction, unit: Unit, grid: Fraction) -> Rounded:
    """Bring a length to the nearest step of a grid and keep what that changed.

    Args:
        value: the length in the unit.
        unit: "mm" or "in".
        grid: the step, above 0, in the unit.

    Returns:
        The rounded length; as text it names the grid and the error.

    Raises:
        DesignError: when the value is not finite or the grid is not above 0.

    Example:
        >>> str(round_length(6.472, "in", Fraction(1, 16)))
        '6 1/2 in (to 1/16 in: 0.028 over)'
    """
    require_finite("length", value)
    if grid <= 0:
        raise DesignError(f"The grid is {grid}; it must be more than 0, such as 1 mm or 1/32 in.")
    exact = Fraction(repr(value)) if isinstance(value, float) else Fraction(value)  # 0.1 means a tenth
    on_grid = round(exact / grid) * grid
    return Rounded(on_grid, unit, grid, on_grid - exact)


def write_number(value: float | Fraction, decimals: int = 2) -> str:
    """Write a plain number without needless zeros.

    Args:
        value: any finite number.
        decimals: at most this many figures after the point.

    Returns:
        The text, with a minus only where something is left after rounding.

    Raises:
        DesignError: when the value is NaN or infinite.

    Example:
        >>> write_number(1.160), write_number(-0.001)
        ('1.16', '0')
    """
    require_finite("number", value)
    text = f"{float(value):.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def write_angle(angle_deg: float | Fraction, decimals: int = 1) -> str:
    """Write an angle in degrees.

    Args:
        angle_deg: degrees.
        decimals: figures after the point; needless zeros are left off.

    Returns:
        The text with its degree sign.

    Raises:
        DesignError: when the angle is NaN or infinite.

    Example:
        >>> write_angle(9.9548)
        '10°'
        >>> write_angle(9.9548, 2)
        '9.95°'
    """
    return f"{write_number(angle_deg, decimals)}°"
