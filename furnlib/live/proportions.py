"""The proportion of a case under the hand: its height, its width, its legs."""

from __future__ import annotations

from fractions import Fraction
from functools import partial
from pathlib import Path

from furnlib.base.guards import DesignError
from furnlib.draw.plates.proportion import proportion_plate
from furnlib.live.bindings import FINE, size_binding
from furnlib.live.view import Binding, LiveView
from furnlib.plan.design import CaseDesign, design_of
from furnlib.plan.design_text import DesignText, KeyPath

_OVERALL, _LEGS = ("3/4", "6/5"), ("1/3", "2")
"""The shares of a size that its control runs to."""


def live_proportion(path: str | Path) -> LiveView:
    """Open the proportion of a case: overall height and width, and the height of its legs, under the hand.

    Args:
        path: a design file of a case.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no case, cannot be read, or its sizes do not close.

    Example:
        >>> live_proportion("notebooks/designs/landing_chest.yaml")
        <Live view of proportion, Landing chest>
    """
    text = DesignText.read(path)
    design = design_of(text)
    if not isinstance(design, CaseDesign):
        raise DesignError(f"{text.name} has no case; open a chest, as the demo design.")
    overall, fine = design.overall, FINE[design.unit]

    def control(name: str, place: KeyPath, size: Fraction, shares: tuple[str, str]) -> Binding:
        # the hand steps by a coarser shop grid where the size lies on it, so that the openings go on closing
        grid = fine if size % design.grid else max(fine, design.grid)
        return size_binding(name, place, size, design.unit, shares, grid)

    bindings = [
        control("Overall height", ("overall", "height"), overall.height, _OVERALL),
        control("Overall width", ("overall", "width"), overall.width, _OVERALL),
    ]
    if design.legs:
        bindings.append(control("Height of the legs", ("legs", "height"), design.legs.height, _LEGS))
    high, wide = (size * Fraction(_OVERALL[1]) + max(fine, design.grid) for size in (overall.height, overall.width))
    return LiveView(text, partial(proportion_plate, most=(high, wide)), tuple(bindings), Path(path))
