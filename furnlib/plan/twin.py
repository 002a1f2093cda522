"""Two-shop twins: the same design for a shop of the other unit, and how far two such pieces differ.

A twin is not converted: every settled length goes to the nearest step of the other shop's grid, so
that both shops read whole steps off their tapes and the piece keeps its look.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from pydantic import BaseModel

from furnlib.base.guards import DesignError, require_positive
from furnlib.base.units import MM_IN, Unit
from furnlib.plan.design import CaseDesign, Design
from furnlib.plan.design_case import Bay, Case, Jig, Rows
from furnlib.plan.design_drawer import Drawers
from furnlib.plan.design_finish import Finish
from furnlib.plan.design_season import Climate, Place
from furnlib.plan.piece import Piece, case_of
from furnlib.plan.sizes.case import case_sizes
from furnlib.plan.sizes.finish import QUART_ON_FOOT
from furnlib.plan.sizes.graduation import graduate
from furnlib.plan.sizes.masters import PLAIN
from furnlib.trade.drawer.closing import close_on_grid

_SHOP: dict[Unit, str] = {"mm": ", metric shop", "in": ", inch shop"}
_FINE: dict[Unit, Fraction] = {"mm": Fraction(1, 2), "in": Fraction(1, 32)}
_OFF_THE_TAPE = (
    "profile", "stations", "round", "turning", "fixing", "slips", "drawers", "pulls", "back", "grain", "strips",
)  # fmt: skip
"""What lathe, drill, joints, fits and habit settle goes to the fine step where the shop's grid is coarser."""
_NOT_OF_THE_PIECE = ("grid", "jig", "brief", "as built", "grain", "drawers, corner, jig")
_LONGEST_NAME = 60


@dataclass(frozen=True)
class TwinLine:
    """One size in both shops.

    Args:
        name: what it is.
        size: in the first piece's unit.
        other: in the other piece's unit.
        difference: the other less the first, exactly, in the first piece's unit.
    """

    name: str
    size: Fraction
    other: Fraction
    difference: Fraction


@dataclass(frozen=True)
class Twin:
    """Two pieces of one design, size by size.

    Args:
        lines: every settled size, those of the case and every opening, as far as both have them.
        unmatched: names of sizes that only one of the two has.
        units: of the first and of the other piece.
        ratios: height over width of the whole, of the first and of the other.
    """

    lines: tuple[TwinLine, ...]
    unmatched: tuple[str, ...]
    units: tuple[Unit, Unit]
    ratios: tuple[Fraction, Fraction]

    @property
    def greatest(self) -> TwinLine:
        """The size in which the two differ most; of several alike the first."""
        return max(self.lines, key=lambda line: abs(line.difference))


def twin_of(design: Design, grid: Fraction, jig: Jig | None = None) -> CaseDesign:
    """The same design for a shop of the other unit.

    Angles, counts, ratios and weights stay. A height of the case that is given as well, and the widest of bays that
    all have a width, are left to close the sums; a list of openings is closed on the grid. What was measured stays
    with the piece that was built.

    Args:
        design: the piece as settled.
        grid: the smallest step of the other shop, in its own unit.
        jig: the dovetail jig of the other shop; None where it has none.

    Returns:
        The design in the other unit, its name saying of which shop.

    Raises:
        DesignError: when the design has no case, the grid is not above 0, or nothing closes on so coarse a grid.

    Example:
        >>> from furnlib.plan.design import read_design
        >>> twin = twin_of(read_design("notebooks/designs/landing_chest.yaml"), Fraction(1, 32))
        >>> twin.piece, str(twin.overall.width)
        ('Landing chest, inch shop', '655/32')
    """
    if not isinstance(design, CaseDesign):
        raise DesignError(f"{design.piece} has no case and no drawers; ask this of a chest.")
    require_positive("grid", grid, "such as 1 mm or 1/32 in")
    unit: Unit = "in" if design.unit == "mm" else "mm"
    name = design.piece
    for shop in _SHOP.values():
        name = name.removesuffix(shop)
    brought: CaseDesign = _Other(MM_IN[design.unit] / MM_IN[unit], unit).part(_left_to_close(design), Fraction(grid))
    twin: CaseDesign = brought.model_copy(
        update={
            "piece": name[: _LONGEST_NAME - len(_SHOP[unit])] + _SHOP[unit],
            "unit": unit,
            "grid": Fraction(grid),
            "jig": jig,
            "as_built": (),
            "wood": design.wood,  # nothing in it is cut: of a test piece only the ratio counts
            "climate": brought.climate and _in_degrees_of(unit, brought.climate),
            "finish": brought.finish and _in_measures_of(unit, brought.finish),
            "drawers": brought.drawers if jig else brought.drawers and _without_jig(brought.drawers),
        }
    )
    twin._notices = ()
    return _with_lists_closed(twin)


@dataclass(frozen=True)
class _Other:
    """Brings lengths to the other shop: one of the first unit is so many of the other."""

    factor: Fraction
    unit: Unit

    def length(self, length: Fraction, step: Fraction) -> Fraction:
        """The nearest step, and never nothing where there was something."""
        steps = round(length * self.factor / step) or (length > 0) - (length < 0)
        return steps * step

    def part(self, part: Any, step: Fraction) -> Any:
        changed = {}
        for key, value in part:
            if key not in PLAIN:
                there = self.value(value, min(step, _FINE[self.unit]) if key in _OFF_THE_TAPE else step)
                if there != value:
                    changed[key] = there
        return part.model_copy(update=changed)

    def value(self, value: Any, step: Fraction) -> Any:
        if isinstance(value, BaseModel):
            return self.part(value, step)
        if isinstance(value, dict):
            return {self.value(key, step): self.value(entry, step) for key, entry in value.items()}
        if isinstance(value, tuple):
            return tuple(self.value(entry, step) for entry in value)
        return self.length(value, step) if isinstance(value, Fraction) else value


def _in_degrees_of(unit: Unit, climate: Climate) -> Climate:
    """The same air, its temperature in the degrees of the other shop."""

    def there(place: Place) -> Place:
        degrees = place.temperature
        if degrees is None:
            return place
        turned = degrees * Fraction(9, 5) + 32 if unit == "in" else (degrees - 32) * Fraction(5, 9)
        return place.model_copy(update={"temperature": turned})

    return climate.model_copy(update={name: there(place) for name, place in climate if isinstance(place, Place)})


def _in_measures_of(unit: Unit, finish: Finish) -> Finish:
    """What covers so many square metres a litre covers so many square feet a US quart, to a tenth."""
    feet = QUART_ON_FOOT * MM_IN["in"]  # a litre stands a millimetre high on a square metre
    coverage = finish.coverage * feet if unit == "in" else finish.coverage / feet
    return finish.model_copy(update={"coverage": round(coverage, 1)})


def _without_jig(drawers: Drawers) -> Drawers:
    """The same drawers for a shop that has no jig to cut their corners."""
    return drawers.model_copy(update={"corner": drawers.corner.model_copy(update={"jig": None})})


def _left_to_close(design: CaseDesign) -> CaseDesign:
    """Take out what is given twice over, which would no longer add up once each size is rounded."""
    case = design.case
    changed: dict[str, Any] = {"height": None}
    widths = [bay.width for bay in case.bays if bay.width is not None]
    if widths and len(widths) == len(case.bays):
        widest = widths.index(max(widths))
        bays = [bay.model_copy(update={"width": None}) if at == widest else bay for at, bay in enumerate(case.bays)]
        changed["bays"] = tuple(bays)
    return design.model_copy(update={"case": case.model_copy(update=changed)})


def _with_lists_closed(twin: CaseDesign) -> CaseDesign:
    """Share the clear height out as the lists of openings have it, on the other shop's grid."""
    case = case_sizes(twin)

    def closed(rows: Rows | None) -> Rows | None:
        if rows is None or rows.rule != "own list" or not rows.openings:
            return rows
        plain = rows.model_copy(update={"rule": "equal"})
        clear = Fraction(graduate(twin.model_copy(update={"jig": None}), case, plain).clear.value)
        ideal = [opening * clear / sum(rows.openings) for opening in rows.openings]
        return rows.model_copy(update={"openings": close_on_grid(ideal, twin.grid, twin.unit).openings})

    bays: tuple[Bay, ...] = tuple(bay.model_copy(update={"rows": closed(bay.rows)}) for bay in twin.case.bays)
    settled: Case = twin.case.model_copy(update={"bays": bays}) if bays else twin.case
    return twin.model_copy(update={"rows": closed(twin.rows), "case": settled})


def compare_twins(piece: Piece, twin: Piece) -> Twin:
    """Set two pieces of one design side by side, one in mm and one in inches.

    Args:
        piece: a case with drawers.
        twin: the same for the other unit.

    Returns:
        Size by size, with the difference.

    Raises:
        DesignError: when both are in one unit, or one is no case.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> folder = "notebooks/designs/"
        >>> metric, inch = (read_piece(f"{folder}landing_chest{shop}.yaml") for shop in ("", "_inch"))
        >>> pair = compare_twins(metric, inch)
        >>> pair.lines[1].name, int(pair.lines[1].difference)
        ('overall, width', -12)
    """
    first, second = case_of(piece).design, case_of(twin).design
    if first.unit == second.unit:
        raise DesignError(f"Both pieces are in {first.unit}; a twin is for the other unit: take one of each.")
    factor = MM_IN[second.unit] / MM_IN[first.unit]
    here, there = _lengths(piece), _lengths(twin)
    lines = tuple(
        TwinLine(name, size, there[name], there[name] * factor - size) for name, size in here.items() if name in there
    )
    unmatched = tuple(name for name in (*here, *there) if (name in here) != (name in there))
    ratios = (first.overall.height / first.overall.width, second.overall.height / second.overall.width)
    return Twin(lines, unmatched, (first.unit, second.unit), ratios)


def _lengths(piece: Piece) -> dict[str, Fraction]:
    """The lengths of a piece by name: settled ones, the case's and the openings."""
    whole = case_of(piece)
    settled = [size for size in whole.masters if not size.name.startswith(_NOT_OF_THE_PIECE)]
    banks = [size for bank in whole.banks if bank.rows for size in bank.rows.sizes]
    sizes = (*settled, *whole.case.sizes, *(size for size in banks if size.name.startswith("opening")))
    return {size.name: Fraction(size.value) for size in sizes if size.unit == whole.design.unit}
