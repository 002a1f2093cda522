"""Live views of a design file: its openings, its legs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import ipywidgets

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_exact
from furnlib.draw.plates import leans_plate, openings_plate
from furnlib.live.control import angle_control, count_control, length_control, number_control
from furnlib.live.view import Binding, LiveView
from furnlib.plan.design import Design, design_of
from furnlib.plan.design_text import DesignText, KeyPath

_GRIDS: dict[Unit, tuple[str, ...]] = {"mm": ("0.5", "1", "2", "5"), "in": ("1/64", "1/32", "1/16", "1/8")}
_RULES = ("equal", "constant step", "constant ratio")
_RULE: KeyPath = ("rows", "rule")


def _choice(name: str, options: tuple[str, ...], value: str) -> ipywidgets.Dropdown:
    known = options if value in options else (value, *options)
    return ipywidgets.Dropdown(
        description=name,
        options=known,
        value=value,
        style={"description_width": "9em"},
        layout={"width": "22em"},
    )


def live_openings(path: str | Path) -> LiveView:
    """Open a design file's openings: rule, rows, step or ratio, and grid under the hand.

    Args:
        path: a design file.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file cannot be read or its sizes do not close.
    """
    text = DesignText.read(path)
    design = design_of(text)
    unit, rows = design.unit, design.rows
    step = rows.step if rows.step is not None else Fraction(20 if unit == "mm" else 3) / (1 if unit == "mm" else 4)
    ratio = rows.ratio if rows.ratio is not None else Fraction(116, 100)
    rule = _choice("Rule", _RULES, rows.rule)
    grid = _choice("Shop grid", _GRIDS[unit], write_exact(design.grid, unit))
    fine = Fraction(1) if unit == "mm" else Fraction(1, 16)
    most_step = max(Fraction(60) if unit == "mm" else Fraction(5, 2), abs(step))
    bindings = (
        Binding(rule, (_RULE,)),
        Binding(count_control("Number of rows", rows.number, 1, max(12, rows.number)), (("rows", "number"),)),
        Binding(
            length_control("Step per row", str(step), str(-most_step), str(most_step), str(fine), unit),
            (("rows", "step"),),
            lambda value: write_exact(Fraction(value), unit),
            lambda texts: texts[_RULE] == "constant step",
        ),
        Binding(
            number_control("Ratio per row", str(ratio), "0.7", "1.6", "0.01"),
            (("rows", "ratio"),),
            lambda value: write_exact(Fraction(value), "mm"),
            lambda texts: texts[_RULE] == "constant ratio",
        ),
        Binding(grid, (("grid",),)),
    )
    return LiveView(text, openings_plate, bindings, Path(path))


def _lean_controls(text: DesignText, design: Design) -> Iterator[Binding]:
    """Two controls for the front legs and two for the rear, by the names that the file uses."""
    if design.legs is None:
        raise DesignError(f"{text.name} has no legs; add a part 'legs:' as in the demo design.")
    for end in ("front", "rear"):
        positions = [position for position in design.legs.lean if position.startswith(end)]
        named = [dict(text.tree["legs"]["lean"][position]) for position in positions]
        for name in sorted({name for names in named for name in names}):
            paths = tuple(("legs", "lean", p, name) for p, names in zip(positions, named, strict=True) if name in names)
            first = design.legs.lean[paths[0][2]]
            value = getattr(first, name.replace(" ", "_"))
            ends = {"sight line": (-180, 180), "total lean": (0, 45)}.get(name, (-30, 45))
            control = angle_control(f"{name.capitalize()}, {end} legs", f"{value:.10g}", *ends, "1/2")
            yield Binding(control, paths, lambda angle: write_exact(Fraction(angle), "mm"))


def live_legs(path: str | Path) -> LiveView:
    """Open a design file's legs: the leans of front and rear legs under the hand.

    Args:
        path: a design file with legs.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no legs, cannot be read, or its sizes do not close.
    """
    text = DesignText.read(path)
    design = design_of(text)
    return LiveView(text, leans_plate, tuple(_lean_controls(text, design)), Path(path))
