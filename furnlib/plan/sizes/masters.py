"""The master sizes as a list: what the maker settled, under the names of the design file."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from pydantic import BaseModel

from furnlib.base.units import write_exact
from furnlib.plan.design import Design
from furnlib.plan.sizes.size import Size, SizeUnit

PLAIN = {
    "number",
    "ratio",
    "end_ratio",
    "weights",
    "bank",
    "row",
    "split",
    "speed",
    "good",
    "certainty",
    "push",
    "upright",
    "moisture_content",
    "moisture_before",
    "moisture_after",
    "temperature",
    "humidity",
    "slope",
    "friction",
    "shares",
    "raised",
    "gauge",
    "no_runner",
    "no_guide",
    "no_stop",
    "day",
    "coats",
    "coverage",
    "solids",
}
_COUNTED = {
    "split": "row",
    "openings": "row",
    "weights": "row",
    "dividers": "divider",
    "bays": "bay",
    "as_built": "measured",
    "stations": "at",
    "profile": "element",
    "measured": "test piece",
    "shares": "pull",
    "screws": "screw",
    "no_kicker": "row",
    "readings": "reading",
}
"""What the members of a list are called."""


def _settled(design: Design, part: BaseModel, path: tuple[str, ...]) -> Iterator[Size]:
    for key, value in part:
        if not value and key not in part.model_fields_set:
            continue  # there is none of it, and the file does not speak of it
        name = (type(part).model_fields[key].alias or key) if key in type(part).model_fields else key
        here = (*path, name)
        if isinstance(value, BaseModel):
            yield from _settled(design, value, here)
        elif isinstance(value, dict | tuple):
            members = value.items() if isinstance(value, dict) else enumerate(value, 1)
            for inner, entry in members:
                called = f"{_COUNTED[key]} {_member(inner, design)}" if key in _COUNTED else str(inner)
                if isinstance(entry, BaseModel):
                    yield from _settled(design, entry, (*here, called))
                elif not isinstance(entry, str):
                    yield _size((*here, called), entry, "" if key in PLAIN else design.unit)
        elif isinstance(value, (Fraction, float, int)):
            unit: SizeUnit = "deg" if isinstance(value, float) else "" if key in PLAIN else design.unit
            yield _size(here, value, unit)


def _member(inner: Fraction | int, design: Design) -> str:
    return write_exact(inner, design.unit) if isinstance(inner, Fraction) else str(inner)


def _size(path: tuple[str, ...], value: Fraction | float, unit: SizeUnit) -> Size:
    written = write_exact(Fraction(value), "in" if unit == "in" else "mm")
    return Size(", ".join(path), value, unit, f"{written} settled")


def master_sizes(design: Design) -> tuple[Size, ...]:
    """List what the maker settled.

    Args:
        design: the piece as settled.

    Returns:
        Every length, angle and count of the design file, in its order.

    Example:
        >>> from furnlib.plan.design import read_design
        >>> masters = master_sizes(read_design("notebooks/designs/landing_chest.yaml"))
        >>> masters[1].name, masters[1].rule
        ('overall, height', '1300 settled')
    """
    return tuple(_settled(design, design, ()))
