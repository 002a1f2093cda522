"""A turned leg under the hand: every size that the design file gives of its profile, and what follows at the lathe."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import Any

from furnlib.base.guards import DesignError
from furnlib.base.reading import read_length
from furnlib.draw.plates.one_turning import turning_plate
from furnlib.live.bindings import FINE, height_binding, size_binding
from furnlib.live.view import LiveView
from furnlib.plan.design import design_of
from furnlib.plan.design_text import DesignText, KeyPath

_CALLED = {
    "length": "length",
    "diameter": "diameter",
    "to": "diameter at its end",
    "rise": "rise",
    "depth": "depth",
}
"""What the sizes of a shape are called, in the order of their controls."""
_SHARES = {"length": ("1/5", "5/2"), "rise": ("1/8", "3"), "depth": ("1/8", "3")}
_OF_DIAMETERS, _OF_OGEES = ("1/2", "3/2"), ("-3", "3")


def live_turning(path: str | Path, position: str | None = None) -> LiveView:
    """Open the turning of a design file: its profile, the size of its square and its height under the hand.

    A shape that cannot be turned says why, and the last picture stays.

    Args:
        path: a design file with turned legs.
        position: which leg, such as "front left"; by default the first.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no such turned leg, cannot be read, or its sizes do not close.

    Example:
        >>> live_turning("notebooks/designs/stool_four_legs.yaml", "rear left")
        <Live view of turning, Bench-side stool, four legs>
    """
    text = DesignText.read(path)
    design = design_of(text)
    sizes = [
        size_binding(name, place, read_length(written, design.unit), design.unit, shares, FINE[design.unit] / 2)
        for name, place, written, shares in _sizes(text.tree.get("legs", {}))
    ]
    if not sizes:
        raise DesignError(f"{text.name} has no turned legs; give its legs a profile, as in the demo design.")
    plate = partial(turning_plate, position=position)
    return LiveView(text, plate, (*sizes, height_binding(text, design)), Path(path))


def _sizes(legs: dict[str, Any]) -> Iterator[tuple[str, KeyPath, str, tuple[str, str]]]:
    """Each size that the file gives, from the top down: name, place, what is written, ends of its control."""
    profile = legs.get("profile", ())
    if profile and "square" in legs:
        yield "Square", ("legs", "square"), legs["square"], _OF_DIAMETERS
    for name, written in legs.get("round", {}).items():
        yield f"{name.capitalize()}, diameter", ("legs", "round", name), written, _OF_DIAMETERS
    for distance, written in legs.get("stations", {}).items():
        yield f"Diameter at {distance}", ("legs", "stations", distance), written, _OF_DIAMETERS
    shapes = [part["shape"] for part in profile]
    for i, (shape, part) in enumerate(zip(shapes, profile, strict=True)):
        number = f" {shapes[: i + 1].count(shape)}" if shapes.count(shape) > 1 else ""
        for key in [key for key in _CALLED if key in part]:
            shares = _OF_OGEES if (shape, key) == ("ogee", "rise") else _SHARES.get(key, _OF_DIAMETERS)
            yield f"{shape.capitalize()}{number}, {_CALLED[key]}", ("legs", "profile", i, key), part[key], shares
