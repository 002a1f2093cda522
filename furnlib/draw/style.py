"""The one style sheet: line kinds, inks, tints and type sizes, in mm on paper.

The inks differ in lightness as well as in hue, so that a copier's grey keeps them apart, and each
is paired with a line kind or a hatch: colour is never the only sign.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache

INK = "#111111"
BLUE = "#1F3B73"
WARNING = "#8C2D04"
OCHRE = "#C77700"
PALE = "#8FB8DE"
SAND = "#E9D8A6"
PAPER = "#FFFFFF"


@dataclass(frozen=True)
class LineKind:
    """How one kind of line looks.

    Args:
        width_mm: line width on paper.
        dash_mm: lengths of strokes and gaps in turn, in mm on paper; none for a full line.
        ink: its colour.
    """

    width_mm: float
    dash_mm: tuple[float, ...] = ()
    ink: str = INK


LINES: dict[str, LineKind] = {
    "visible": LineKind(0.5),
    "thin": LineKind(0.2),
    "hidden": LineKind(0.3, (2.0, 1.0)),
    "centre": LineKind(0.2, (6.0, 1.2, 1.2, 1.2)),
    "cut": LineKind(0.7),
    "dimension": LineKind(0.2),
    "hatch": LineKind(0.12),
    "sight": LineKind(0.35, (4.0, 1.0, 1.0, 1.0), BLUE),
    "compared": LineKind(0.3, (2.4, 1.2), OCHRE),
    "warning": LineKind(0.7, (3.5, 1.5), WARNING),
    "frame": LineKind(0.25),
    "bar": LineKind(0.35),
}

TINTS: dict[str, str] = {
    "wood": SAND,
    "far": "#F6F0DC",
    "pale": PALE,
    "ink": INK,
    "blue": BLUE,
    "ochre": OCHRE,
    "paper": PAPER,
}

TEXT_MM: dict[str, float] = {"small": 2.3, "body": 2.9, "head": 3.8, "title": 5.2}
"""Height of the letters' em box on paper."""

FONTS = ("DejaVu Sans", "Verdana", "sans-serif")
HATCH_MM = 2.2


@lru_cache(4096)  # most words of a plate stay as they are while a slider moves
def text_width_mm(words: str, size: str) -> float:
    """Estimate how wide a line of text stands on paper, on the safe side.

    Args:
        words: the text.
        size: a name in the style sheet, such as "body".

    Returns:
        The width in mm.

    Example:
        >>> text_width_mm("1149", "body") < text_width_mm("1149 mm", "body")
        True
    """
    return TEXT_MM[size] * sum(map(_letter_width, words))


@cache
def _letter_width(letter: str) -> float:
    """Width of one letter in parts of its em box, as the widest of the fonts has it."""
    if letter in "ijl.,:;'|! \u202f":
        return 0.36
    if letter in "⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄":
        return 0.42
    if letter in "mwMW@%—…":
        return 1.0
    if letter == "□":
        return 0.95
    if letter in "+=±≈×<>~&":
        return 0.86
    return 0.76 if letter.isupper() else 0.64
