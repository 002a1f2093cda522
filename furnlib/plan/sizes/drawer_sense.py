"""What is refused of a design's drawers before any of them is reckoned: what no single opening would show."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from furnlib.base.guards import DesignError, fault_at
from furnlib.base.units import write_exact
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_drawer import Drawers
from furnlib.plan.sizes.banks import Bank


def require_sense(design: CaseDesign, banks: tuple[Bank, ...], depth: Fraction) -> None:
    """Refuse drawers that cannot be, whatever their openings.

    Args:
        design: the piece as settled, with drawers.
        banks: the bays with their openings.
        depth: from the case's face to the inside of its back.

    Raises:
        DesignError: naming the key.
    """
    drawers = design.drawers
    assert drawers
    with fault_at("back", "thickness"):
        if depth <= 0:
            raise DesignError("The back is as thick as the piece is deep and leaves no drawers; thin it.")
    with fault_at("drawers", "bottom", "ease"):
        if drawers.bottom.ease >= drawers.bottom.groove:
            raise DesignError(
                "The ease is no less than the groove is deep, so that the bottom falls out; ease it less."
            )
    with fault_at("wood"):
        if drawers.bottom.kind == "solid" and design.wood and design.wood.bottom is None:
            raise DesignError("A solid bottom moves with the season; add its wood as 'bottom:', or take a sheet.")
    _require_rows(drawers, max(len(bank.rows.rows) for bank in banks if bank.rows))
    _require_room(design, drawers)
    if drawers.front.kind != "flush":
        _require_apart(design, banks, drawers.front.overlay)


def require_used(drawers: Drawers) -> None:
    """Refuse keys that drawers made like these do not ask for: whoever gave them means something else.

    Args:
        drawers: as the design file has them, and as they can be made.

    Raises:
        DesignError: naming the key.
    """
    for path in _idle(drawers):
        with fault_at("drawers", *path):
            raise DesignError(f"'{path[-1]}' is given, but drawers made like these do not use it; take it out.")


def _require_rows(drawers: Drawers, rows: int) -> None:
    riding, tails = drawers.riding, drawers.corner.tails
    for path, named in (
        (("riding", "no kicker"), riding.no_kicker), (("riding", "no runner"), riding.no_runner),
        (("riding", "no guide"), riding.no_guide), (("riding", "no stop"), riding.no_stop),
        (("corner", "tails", "number"), tails.number if tails else ()),
    ):  # fmt: skip
        with fault_at("drawers", *path):
            for row in named:
                if not 1 <= row <= rows:
                    raise DesignError(f"Row {row} is not there; the rows run from 1 to {rows}: name one of these.")


def _require_room(design: CaseDesign, drawers: Drawers) -> None:
    """Refuse fronts and boxes as wide as their openings, and a front that ends above its groove."""
    front, bottom = drawers.front, drawers.bottom
    with fault_at("drawers", "side", "gap"):
        if not drawers.side.gap:
            raise DesignError("The side gap is 0, so the box is as wide as its opening and will not go in; give one.")
    with fault_at("drawers", "bottom", "thickness"):
        if (bottom.slip_height if bottom.slip else bottom.up + bottom.tongue) == bottom.thickness:
            raise DesignError("The bottom lies on the runner and drags; make it thinner, or put its groove higher.")
    with fault_at("drawers", "front"):
        if front.kind == "flush" and front.inner_front and not front.gap:
            raise DesignError("The front is as wide as its opening and will not go in; give a 'gap' beside it.")
    with fault_at("drawers", "front", "below"):
        if front.kind == "flush" and front.below >= bottom.up:
            below, up = (write_exact(size, design.unit) for size in (front.below, bottom.up))
            raise DesignError(
                f"The front ends {below} above the sides' lower edge and its groove begins at {up}; leave wood under"
                " the groove: give less below, or put the groove higher."
            )


def _idle(drawers: Drawers) -> Iterator[tuple[str, ...]]:
    """Keys that are given, and that nothing asks for."""
    front, corner, riding = drawers.front, drawers.corner, drawers.riding
    for given, path in (
        (riding.slide and riding.carried != "slides", ("riding", "slide")),
        (riding.guide and riding.carried != "side-hung", ("riding", "guide")),
        (drawers.bottom.slip_height and not drawers.bottom.slip, ("bottom", "slip height")),
        (front.gap and not front.inner_front, ("front", "gap")),
        (front.below and front.kind == "overlay", ("front", "below")),
        (front.least_gap and front.kind == "overlay", ("front", "least gap")),
        (corner.tails and corner.joint == "rebated", ("corner", "tails")),
        (corner.jig and corner.joint == "rebated", ("corner", "jig")),
    ):
        if given:
            yield path


def _require_apart(design: CaseDesign, banks: tuple[Bank, ...], overlay: Fraction) -> None:
    """Refuse fronts over the case that run into one another, or reach past it."""
    case, unit = design.case, design.unit
    edges = [("side", case.side), ("top", case.top + case.top_rail), ("bottom", case.bottom + case.bottom_rail)]
    shared: list[tuple[str, Fraction]] = []
    for bank in banks:
        rows = bank.rows
        if rows:
            shared += [("divider", thick) for thick in rows.dividers]
            shared += [("divider", case.divider) for row in rows.rows if len(row.widths) > 1]
    for one, other in pairwise(banks):
        if case.partition and (one.rows or other.rows):
            (shared if one.rows and other.rows else edges).append(("partition", case.partition))
    with fault_at("drawers", "front", "overlay"):
        for name, room in (*edges, *((name, thick / 2) for name, thick in shared)):
            if overlay > room:
                raise DesignError(
                    f"The overlay is {write_exact(overlay, unit)}, but over the {name} a front has"
                    f" {write_exact(room, unit)} of its own; give no more than that."
                )
