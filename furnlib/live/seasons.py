"""The season under the hand: what the year makes of a piece's gaps, and of the slots for its screws."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import get_args

from furnlib.base.guards import DesignError
from furnlib.base.units import write_exact
from furnlib.draw.plates.season_band import season_plate
from furnlib.draw.plates.slot_strip import slots_plate
from furnlib.live.bindings import FINE, choice, control_ends, size_binding
from furnlib.live.control import length_control, number_control
from furnlib.live.view import Binding, LiveView
from furnlib.plan.design import CaseDesign, design_of
from furnlib.plan.design_season import Place, Rings
from furnlib.plan.design_text import DesignText

_write = partial(write_exact, unit="mm")  # a plain number
_MOISTURE, _HUMIDITY = ("4", "18"), ("5", "95")
_CALLED = {"shop": "Shop", "dry": "Driest", "damp": "Dampest"}
_MOST_GAP = 5  # fine steps
_MOST_SLOTS = 4  # with a control


def live_season(path: str | Path) -> LiveView:
    """Open a design file's season: moistures, the rings of fronts and sides, the gap over a front.

    A place that the file gives by its air has a control for humidity in place of moisture.

    Args:
        path: a design file of a case that says how its drawers are made.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no drawers to speak of, cannot be read, or its sizes do not close.

    Example:
        >>> live_season("notebooks/designs/landing_chest.yaml")
        <Live view of season band, Landing chest>
    """
    text, design = _opened(path)
    if design.drawers is None or design.wood is None:
        raise DesignError(
            f"{text.name} does not say how its drawers are made; add 'drawers:' as the demo design has it."
        )
    front, unit = design.drawers.front, design.unit
    bindings = [*_moistures(text, design)]
    for role, wood in (("front", design.wood.front), ("side", design.wood.side)):
        rings = choice(f"Rings of the {role}s", get_args(Rings), wood.rings)
        bindings.append(Binding(rings, (("wood", role, "rings"),), default="flat-sawn"))
    if front.kind == "flush":
        ends = control_ends("0", str(_MOST_GAP * FINE[unit]), front.least_gap)
        gap = length_control("Gap at the dampest", str(front.least_gap), *ends, str(FINE[unit] / 4), unit)
        place = ("drawers", "front", "least gap")
        bindings.append(Binding(gap, (place,), lambda value: write_exact(Fraction(value), unit), default=0))
    return LiveView(text, season_plate, bindings, Path(path))


def live_slots(path: str | Path) -> LiveView:
    """Open a design file's slotted strip: its screws, its fixed place and the moistures under the hand.

    Args:
        path: a design file of a case with slotted strips.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no such strip, cannot be read, or its sizes do not close.

    Example:
        >>> live_slots("notebooks/designs/landing_chest.yaml")
        <Live view of slots, Landing chest>
    """
    text, design = _opened(path)
    if design.strips is None:
        raise DesignError(f"{text.name} has no slotted strip; add 'strips:' as the demo design has it.")
    unit, screws = design.unit, design.strips.screws
    slots = (
        size_binding(f"Slot {n}", ("strips", "screws", n - 1), screw, unit, ("3/4", "11/10"))
        for n, screw in enumerate(screws[:_MOST_SLOTS], 1)
    )
    hole = size_binding("Round hole", ("strips", "fixed"), design.strips.fixed_place, unit, ("1/4", "3"))
    bindings = (hole, *slots, *_moistures(text, design))
    return LiveView(text, slots_plate, bindings, Path(path))


def _opened(path: str | Path) -> tuple[DesignText, CaseDesign]:
    text = DesignText.read(path)
    design = design_of(text)
    if not isinstance(design, CaseDesign):
        raise DesignError(f"{text.name} has no case; open a chest, as the demo design.")
    return text, design


def _moistures(text: DesignText, design: CaseDesign) -> Iterator[Binding]:
    """A control for each place, by what the file gives of it: moisture, or humidity of the air."""
    for place, called in _CALLED.items() if design.climate else ():
        air: Place = vars(design.climate)[place]
        plain = isinstance(text.tree["climate"][place], str)
        given = {"moisture": (air.moisture_content, _MOISTURE, "1/2"), "humidity": (air.humidity, _HUMIDITY, "1")}
        for what, (value, ends, step) in given.items():
            if value is not None:
                control = number_control(f"{called} {what}, %", str(value), *control_ends(*ends, value), step)
                path = ("climate", place, *([] if plain else [what]))
                yield Binding(control, (path,), lambda value: _write(Fraction(value)))
