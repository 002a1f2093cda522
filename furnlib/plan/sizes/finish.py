"""What there is to finish and to break: faces, edges and arrises by role, how much finish it takes, and its film."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from furnlib.base.concern import Concern
from furnlib.base.guards import DesignError, fault_at, require_between, require_positive
from furnlib.base.terms import total
from furnlib.base.units import Unit, write_length, write_number
from furnlib.plan.design import CaseDesign
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.case import CaseSizes
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.plan.sizes.size import Size
from furnlib.trade.case.panels import sheet_size
from furnlib.trade.wood.finish import arrises, edges_area, faces_area, film_thickness, finish_needed

QUART_ON_FOOT = Fraction("57.75") / 144
"""How many inches high a US quart stands on a square foot."""
_MEASURES: dict[Unit, tuple[str, int, str, int, str, Fraction]] = {
    "mm": ("m²", 1000000, "m", 1000, "litres", Fraction(1)),
    "in": ("ft²", 144, "ft", 12, "US quarts", QUART_ON_FOOT),
}
"""What areas, runs and finish are counted in, and how high one such measure stands on one such area."""
_CALLED = {"front": "fronts", "case": "case boards", "side": "drawer sides and backs", "bottom": "drawer bottoms"}
_OF_PART = {"inner front": "side", "back": "side"}
"""Roles of a drawer's parts that are not called by them; slips and runners are left as they are."""
_Length = Fraction | float
_Board = tuple[_Length, _Length, _Length]  # length, width, thickness


class _Added(NamedTuple):
    """A sum over boards that was done; its words too wait until they are read."""

    value: float
    times: int
    boards: tuple[tuple[_Board, int], ...]
    said: str  # of one board, by its sizes
    per: int
    unit: Unit

    @property
    def rule(self) -> str:
        alike = Counter[str]()
        for board, count in self.boards:
            alike[self.said.format(*(write_length(size, self.unit) for size in board))] += count
        words = " + ".join(f"{count} x {said}" if count > 1 else said for said, count in alike.items())
        return f"{write_number(self.value)} = {self.times} x ({words}) / {self.per}"


@dataclass(frozen=True)
class FinishedBoards:
    """The boards of one role; only fronts have free ends, and the edges of bottoms are held in grooves.

    Args:
        name: what they are called.
        count: how many there are.
        faces: area of both faces of all of them.
        edges: area of their edges, None where they are held.
        arrises: length of the edges to break, likewise.
    """

    name: str
    count: int
    faces: Size
    edges: Size | None = None
    arrises: Size | None = None


@dataclass(frozen=True)
class FinishSizes:
    """What is to be finished.

    Args:
        boards: by role.
        all_coats: how much finish all coats take; legs are not in it.
        film: what stands on each surface when it is dry, in the piece's unit; 0 where that is not given.
        sizes: all areas and lengths, each with its rule.
        concerns: what to settle before wood is cut.
    """

    boards: tuple[FinishedBoards, ...]
    all_coats: Size
    film: Fraction
    sizes: tuple[Size, ...]
    concerns: tuple[Concern, ...]


def finish_sizes(
    design: CaseDesign, case: CaseSizes, banks: tuple[Bank, ...], drawers: tuple[DrawerSizes, ...]
) -> FinishSizes | None:
    """Add up what there is to finish.

    Args:
        design: the piece as settled.
        case: the case's sizes.
        banks: the bays with their openings.
        drawers: of every row.

    Returns:
        The areas, None where the design has no finish.

    Raises:
        DesignError: when coats, coverage or solids are out of range, or a role has no boards.
    """
    finish = design.finish
    if finish is None:
        return None
    for key, name, value in (("coats", "number of coats", finish.coats), ("coverage", "coverage", finish.coverage)):
        with fault_at("finish", key):
            require_positive(name, value, "give a number above 0")
    with fault_at("finish", "solids"):
        require_between("share that stays", finish.solids, 0, 1, "the tin says it; 0.4 is usual", ends=True)
    there = _boards(design, case, banks, drawers)
    with fault_at("finish", "roles"):
        for role in finish.roles or ("",):
            if not there.get(role):
                raise DesignError(
                    f"There are no {_CALLED.get(role, 'boards')} to finish; name roles that the piece has, such as"
                    " [case], or say under 'drawers:' how these are made."
                )
    made = tuple(_of_role(role, boards, design.unit) for role, boards in there.items() if role in finish.roles)
    *_, can, height = _MEASURES[design.unit]
    areas = [size.value for boards in made for size in (boards.faces, boards.edges) if size]
    needed = finish_needed(sum(areas), finish.coats, float(finish.coverage))
    added = " + ".join(write_number(area) for area in areas)
    rule = f"{write_number(needed)} = {finish.coats} x ({added}) / {write_number(finish.coverage)}"
    all_coats = Size(f"finish for all coats, {can}", needed, "", rule, "finish.needed")
    film = film_thickness(finish.coats, finish.coverage, finish.solids) * height
    of_boards = (size for boards in made for size in (boards.faces, boards.edges, boards.arrises) if size)
    return FinishSizes(made, all_coats, film, (*of_boards, all_coats), _too_thick(design, film))


def _boards(
    design: CaseDesign, case: CaseSizes, banks: tuple[Bank, ...], drawers: tuple[DrawerSizes, ...]
) -> dict[str, Counter[_Board]]:
    """How many of each board there are, by role; those of the case are as long as is clear between their neighbours."""
    found = {role: Counter[_Board]() for role in _CALLED}
    of_case, thick, deep, back = found["case"], design.case, design.overall.depth, design.back
    within = deep - (back.thickness if back else 0)
    of_case[case.height, deep, thick.side] += 2
    for board in (thick.top, thick.bottom):
        of_case[case.inside_width, deep, board] += 1
    of_case[case.inside_height, within, thick.partition or Fraction(0)] += len(case.partitions) // 2
    for rows, width in ((bank.rows, bank.width) for bank in banks if bank.rows):
        for divider in rows.dividers:
            of_case[width, within, divider] += 1
        for row in rows.rows:
            of_case[row.stands, within, thick.divider] += len(row.widths) - 1
    if back:
        rebates = (back.rebate, back.rebate)
        high, wide = (total(sheet_size(clear, rebates, back.ease)) for clear in (case.inside_height, case.inside_width))
        of_case[high, wide / back.number, back.thickness] += back.number
    for drawer in drawers:
        for part in drawer.parts:
            role = _OF_PART.get(part.name, part.name)
            if role in found:
                found[role][part.length.value, part.width.value, part.thickness] += part.count * drawer.count
    return {role: +boards for role, boards in found.items()}


def _of_role(role: str, boards: Counter[_Board], unit: Unit) -> FinishedBoards:
    """The sums over all boards of a role."""
    area, squares, run, lengths, *_ = _MEASURES[unit]
    name, free = _CALLED[role], role == "front"
    sizes = [(count, *map(float, board)) for board, count in boards.items()]
    faces = sum(count * faces_area(long, wide) for count, long, wide, _ in sizes)
    edges = sum(count * edges_area(long, wide * free, thick) for count, long, wide, thick in sizes)
    sharp = sum(count * arrises(long, wide * free, thick * free) for count, long, wide, thick in sizes)
    by_edges, by_arrises = ("({} + {}) x {}", "({} + {} + {})") if free else ("{0} x {2}", "{}")
    sums = (
        (f"faces of {name}, {area}", faces, 2, "{} x {}", squares, "finish.faces"),
        (f"edges of {name}, {area}", edges, 2, by_edges, squares, "finish.edges"),
        (f"edges to break on {name}, {run}", sharp, 4, by_arrises, lengths, "finish.arrises"),
    )
    made = (
        Size(called, value / per, "", _Added(value / per, times, tuple(boards.items()), said, per, unit), formula)
        for called, value, times, said, per, formula in (sums if role != "bottom" else sums[:1])
    )
    return FinishedBoards(name, boards.total(), *made)


def _too_thick(design: CaseDesign, film: Fraction) -> tuple[Concern, ...]:
    """Where the film is thicker than the sums of the fronts left room for."""
    front = design.drawers.front if design.drawers else None
    room = front.film if front and front.kind == "flush" else film
    if film <= room or not design.finish or "front" not in design.finish.roles:
        return ()
    stands, left = (write_number(Fraction(ceil(size * 1000), 1000), 3) for size in (film, room))
    number = f"a film of {stands} on each surface of the fronts"
    reason = f"their height leaves room for {left}, and every gap loses two films"
    return (Concern("film", number, reason, (f"write 'film: {stands}' under the drawers' front", "put on less")),)
