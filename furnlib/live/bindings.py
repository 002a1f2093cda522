"""What live views of a design file bind: lists to choose from, sizes with ends that leave room for the hand."""

from __future__ import annotations

from fractions import Fraction

import ipywidgets

from furnlib.base.reading import read_length
from furnlib.base.units import Unit, write_exact
from furnlib.live.control import length_control
from furnlib.live.view import Binding
from furnlib.plan.design import Design, SeatDesign
from furnlib.plan.design_text import DesignText, KeyPath

FINE: dict[Unit, Fraction] = {"mm": Fraction(1), "in": Fraction(1, 16)}
"""The step of a slider for lengths."""


def choice(name: str, offered: tuple[str, ...], value: str) -> ipywidgets.Dropdown:
    """A list to choose from, in line with the controls; what the file holds is always in it.

    Args:
        name: what the maker calls it.
        offered: what there is to choose.
        value: what the file holds.

    Returns:
        The list.
    """
    known = offered if value in offered else (value, *offered)
    made = ipywidgets.Dropdown(
        description=name, options=known, value=value, layout={"width": "auto", "max_width": "24rem"}
    )
    made.style.description_width = "10.9rem"
    made.add_class("furn-choice")
    return made


def control_ends(low: str, high: str, value: Fraction) -> tuple[str, str]:
    """The ends of a control, wide enough for what the file holds.

    Args:
        low: the usual low end.
        high: the usual high end.
        value: what the file holds.

    Returns:
        The low and the high end.

    Example:
        >>> control_ends("-45", "45", Fraction(50))
        ('-45', '50')
    """
    return str(min(Fraction(low), value)), str(max(Fraction(high), value))


def size_binding(
    name: str,
    path: KeyPath,
    size: Fraction,
    unit: Unit,
    shares: tuple[str, str] = ("3/4", "5/4"),
    grid: Fraction | None = None,
) -> Binding:
    """A control for one length of the file.

    Args:
        name: what the maker calls it.
        path: where the file holds it.
        size: what it holds, in the unit.
        unit: the piece's unit, "mm" or "in".
        shares: the ends of the control as shares of the size, the low one first.
        grid: the slider's step; by default the usual one of the unit.

    Returns:
        The control with what it sets.

    Example:
        >>> size_binding("Square", ("legs", "square"), Fraction(48), "mm").control
        <Control Square: 48 mm>
    """
    grid = grid or FINE[unit]
    low, high = sorted(round(size * Fraction(share) / grid) * grid for share in shares)
    low = low or grid  # no size is 0
    ends = control_ends(str(low), str(max(high, low + 2 * grid)), size)
    control = length_control(name, str(size), *ends, str(grid), unit)
    return Binding(control, (path,), lambda value: write_exact(Fraction(value), unit))


def height_binding(text: DesignText, design: Design) -> Binding:
    """A control for the height that the legs follow.

    Args:
        text: the design file.
        design: what it says.

    Returns:
        The height of a seat, or of the legs of a case, with what it sets.
    """
    name, path = "Height of the legs", ("legs", "height")
    if isinstance(design, SeatDesign):
        name, path = "Height of the seat", ("overall", "height")
    return size_binding(name, path, read_length(text.tree[path[0]][path[1]], design.unit), design.unit)
