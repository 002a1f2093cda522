"""Live views of a design file: its openings, its legs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import ipywidgets

from furnlib.base.guards import DesignError
from furnlib.base.reading import read_angle
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
    """A list to choose from, in line with the controls; what the file holds is always in it."""
    known = options if value in options else (value, *options)
    choice = ipywidgets.Dropdown(description=name, options=known, value=value, layout={"width": "24rem"})
    choice.style.description_width = "10.9rem"
    choice.add_class("furn-choice")
    return choice


def live_openings(path: str | Path) -> LiveView:
    """Open a design file's openings: rule, rows, step or ratio, and grid under the hand.

    Args:
        path: a design file.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file cannot be read or its sizes do not close.

    Example:
        >>> live_openings("notebooks/designs/landing_chest.yaml")
        <Live view of openings, Landing chest>
    """
    text = DesignText.read(path)
    design = design_of(text)
    unit, rows = design.unit, design.rows
    step = rows.step if rows.step is not None else Fraction(20) if unit == "mm" else Fraction(3, 4)
    ratio = rows.ratio if rows.ratio is not None else Fraction(116, 100)
    most_step = max(Fraction(60) if unit == "mm" else Fraction(5, 2), abs(step))
    fine = Fraction(1) if unit == "mm" else Fraction(1, 16)
    written = text.tree["rows"]
    bindings = (
        Binding(_choice("Rule", _RULES, rows.rule), (_RULE,)),
        Binding(
            count_control("Number of rows", rows.number, 1, max(12, rows.number)),
            (("rows", "number"),),
            as_written=written["number"],
        ),
        Binding(
            length_control("Step per row", str(step), str(-most_step), str(most_step), str(fine), unit),
            (("rows", "step"),),
            lambda value: write_exact(Fraction(value), unit),
            lambda texts: texts[_RULE] == "constant step",
            written.get("step"),
            "step or ratio",
        ),
        Binding(
            number_control("Ratio per row", str(ratio), *_ends("0.7", "1.6", ratio), "0.01"),
            (("rows", "ratio"),),
            lambda value: write_exact(Fraction(value), "mm"),
            lambda texts: texts[_RULE] == "constant ratio",
            written.get("ratio"),
            "step or ratio",
        ),
        Binding(_choice(f"Shop grid, {unit}", _GRIDS[unit], text.tree["grid"].strip()), (("grid",),)),
    )
    return LiveView(text, openings_plate, bindings, Path(path))


def _ends(low: str, high: str, value: Fraction) -> tuple[str, str]:
    """The ends of a control, wide enough for what the file holds."""
    return str(min(Fraction(low), value)), str(max(Fraction(high), value))


def _lean_controls(text: DesignText, design: Design) -> Iterator[Binding]:
    """A control for each name that the file uses; legs of one end share it where they agree."""
    if design.legs is None:
        raise DesignError(f"{text.name} has no legs; add a part 'legs:' as in the demo design.")
    leans = text.tree["legs"]["lean"]
    for end in ("front", "rear"):
        positions = [position for position in leans if position.startswith(end)]
        for name in sorted({name for position in positions for name in leans[position]}):
            named = {position: leans[position][name] for position in positions if name in leans[position]}
            if len({read_angle(written) for written in named.values()}) == 1:
                yield _lean_control(name, f"{end} legs", named)
            else:
                for position, written in named.items():
                    yield _lean_control(name, f"{position} leg", {position: written})


def _lean_control(name: str, whose: str, named: dict[str, str]) -> Binding:
    """One control for one name of the lean of some legs that agree."""
    written = next(iter(named.values()))
    value = read_angle(written)
    low, high = {"sight line": ("-180", "180"), "total lean": ("0", "45")}.get(name, ("-30", "45"))
    control = angle_control(f"{name.capitalize()}, {whose}", str(value), *_ends(low, high, value), "1/2")
    paths = tuple(("legs", "lean", position, name) for position in named)
    return Binding(control, paths, lambda angle: write_exact(Fraction(angle), "mm"), as_written=written)


def live_legs(path: str | Path) -> LiveView:
    """Open a design file's legs: the leans of front and rear legs under the hand.

    Args:
        path: a design file with legs.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no legs, cannot be read, or its sizes do not close.

    Example:
        >>> live_legs("notebooks/designs/landing_chest.yaml")
        <Live view of leans, Landing chest>
    """
    text = DesignText.read(path)
    design = design_of(text)
    return LiveView(text, leans_plate, tuple(_lean_controls(text, design)), Path(path))
