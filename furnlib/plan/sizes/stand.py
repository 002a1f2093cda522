"""What the legs stand under, a case or a seat: its outline in plan and the places of their tops.

Places are plan points seen from the front of the piece: across, from the left edge to the right,
and back, from the front edge. (That is the room frame turned half round: x runs to the piece's own
right, which is the left hand of whoever stands before it.) Of a pitched seat they are those of its
underside, seen from above.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from furnlib.base.angles import cosd, sind
from furnlib.base.guards import DesignError, fault_at, require_between
from furnlib.base.terms import Term
from furnlib.base.units import Unit, write_angle, write_length
from furnlib.plan.design import CaseDesign, Outline, SeatDesign
from furnlib.plan.design_legs import Position
from furnlib.plan.sizes.case import CaseSizes
from furnlib.plan.sizes.size import Chain, Size, closed_chain, sum_size
from furnlib.trade.leg.seat import mortise_height

PlanPoint = tuple[float, float]
_ROUND = 72  # sides that stand for a circle


@dataclass(frozen=True, eq=False)
class Stand:
    """The underside that the legs stand under.

    Args:
        outline: its corners in plan, counter-clockwise; a round one by points.
        width: of the outline, in the piece's unit.
        depth: of the outline in plan, front to back.
        heights: floor to the tops of front and of rear legs.
        insets: from the outline's edges to the legs' tops in plan: front, rear, side.
        middle: where the top of a middle leg stands, across from the left edge.
        sizes: each with its rule.
        chains: those that close here.
    """

    outline: tuple[PlanPoint, ...]
    width: float
    depth: float
    heights: tuple[Fraction | float, Fraction | float]
    insets: tuple[float, float, float]
    middle: float
    sizes: tuple[Size, ...] = ()
    chains: tuple[Chain, ...] = ()

    def top(self, position: Position) -> PlanPoint:
        """Where a leg's axis meets the underside, in plan.

        Args:
            position: which leg; front and rear alone stand in the middle across, the middle one midway
                front to back too.

        Returns:
            Across and back, in the piece's unit.
        """
        front, rear, side = self.insets
        across = side if "left" in position else self.width - side if "right" in position else self.middle
        return across, front if "front" in position else self.depth - rear if "rear" in position else self.depth / 2

    def height(self, position: Position) -> Fraction | float:
        """Floor to the underside where a leg's axis meets it.

        Args:
            position: which leg.

        Returns:
            The height, exact where the shop is exact.
        """
        return self.heights["rear" in position]


def case_stand(design: CaseDesign, case: CaseSizes) -> Stand:
    """The underside of a case.

    Args:
        design: a case with legs.
        case: its sizes.

    Returns:
        The stand.

    Raises:
        DesignError: when an inset lies past the middle.
    """
    legs, overall, unit = design.legs, design.overall, design.unit
    if legs is None:
        raise DesignError("This case has no legs; add a part 'legs:' as in the demo design.")
    with fault_at("legs", "inset"):
        for edge, room in (("front", overall.depth), ("rear", overall.depth), ("side", overall.width)):
            _require_before_middle(f"{edge} inset", getattr(legs.inset, edge), room, unit)
    width, depth = float(overall.width), float(overall.depth)
    corners = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    insets = (float(legs.inset.front), float(legs.inset.rear), float(legs.inset.side))
    middle = _middle_of_case(design, case)
    sizes = (middle,) if "middle" in legs.lean else ()
    return Stand(corners, width, depth, (case.leg_height, case.leg_height), insets, float(middle.value), sizes)


def _middle_of_case(design: CaseDesign, case: CaseSizes) -> Size:
    """Where the middle leg stands across: under the partition nearest the middle of the case, else there."""
    name, half = "middle leg from the left edge", design.overall.width / 2
    if not case.partitions:
        return sum_size(name, design.unit, (Term(half, "half the width"),))
    faces = list(zip(case.partitions[::2], case.partitions[1::2], strict=True))
    off = [abs((left + right) / 2 - half) for left, right in faces]
    nearest, thick = off.index(min(off)), faces[0][1] - faces[0][0]
    bays = [Term(clear, f"bay {number}") for number, clear in enumerate(case.bays[: nearest + 1], 1)]
    between = [Term(thick, "partition", nearest)] if nearest else []
    terms = (Term(design.case.side, "side"), *bays, *between, Term(thick / 2, "half the partition"))
    return sum_size(name, design.unit, terms)


def _require_before_middle(name: str, inset: Fraction, room: Fraction, unit: Unit) -> None:
    if inset * 2 >= room:
        raise DesignError(
            f"The {name} is {write_length(inset, unit)}, past the middle of the case;"
            f" it must be less than {write_length(room / 2, unit)}: move the leg outward."
        )


def seat_stand(design: SeatDesign) -> Stand:
    """The underside of a seat, level or pitched back.

    Args:
        design: a seat on legs.

    Returns:
        The stand, with the heights of its mortises and their rules.

    Raises:
        DesignError: when a mortise lies past the edge, or no height is left under the seat.
    """
    overall, seat, mortises, unit = design.overall, design.seat, design.legs.mortises, design.unit
    with fault_at("seat", "pitch"):
        require_between("pitch of the seat", seat.pitch, -60, 60, "a seat that steep is no seat; pitch it less")
    for name, room in (("out", overall.width), ("front", overall.depth), ("rear", overall.depth)):
        with fault_at("legs", "mortises", name):
            _require_before_edge(getattr(mortises, name), room, unit)
    with fault_at("seat", "thickness"):
        _require_off_the_floor(design)
    sizes, heights, chains = _seat_heights(design)
    share = cosd(seat.pitch) if seat.pitch else 1.0
    width, depth = float(overall.width), float(overall.depth) * share
    insets = (
        float(overall.depth / 2 - mortises.front) * share,
        float(overall.depth / 2 - mortises.rear) * share,
        float(overall.width / 2 - mortises.out),
    )
    return Stand(_outline(seat.outline, width, depth), width, depth, heights, insets, width / 2, sizes, chains)


def _require_before_edge(place: Fraction, room: Fraction, unit: Unit) -> None:
    if place * 2 >= room:
        raise DesignError(
            f"The mortises stand {write_length(place, unit)} from the middle of the seat, past its edge;"
            f" it must be less than {write_length(room / 2, unit)}: move them in or take a larger seat."
        )


def _require_off_the_floor(design: SeatDesign) -> None:
    """Refuse a seat whose lower edge, in front or behind, lies on the floor or in it."""
    overall, seat, unit = design.overall, design.seat, design.unit
    fall = max(float(overall.depth) * sind(seat.pitch), 0.0)
    lowest = float(overall.height) - float(seat.thickness) * cosd(seat.pitch) - fall
    if lowest <= 0:
        raise DesignError(
            f"The height under the lower edge of the seat is {write_length(lowest, unit)}; it must be more than 0:"
            " raise the seat, thin it or pitch it less."
        )


def _seat_heights(
    design: SeatDesign,
) -> tuple[tuple[Size, ...], tuple[Fraction | float, Fraction | float], tuple[Chain, ...]]:
    """Heights of front and rear mortises on the underside; exact under a level seat."""
    unit, overall, seat, mortises = design.unit, design.overall, design.seat, design.legs.mortises
    if not seat.pitch:
        under = sum_size("height under the seat", unit, (Term(overall.height), Term(-seat.thickness, "seat")))
        links = (Term(Fraction(under.value), "legs"), Term(seat.thickness, "seat"))
        chain = closed_chain("height of the piece", unit, links, overall.height)
        return (under,), (under.value, under.value), (chain,)
    top, thick, pitch = float(overall.height), float(seat.thickness), write_angle(seat.pitch, 2)
    behind = float(overall.depth / 2 - mortises.front)
    spacing = mortises.front + mortises.rear
    front = top - thick * cosd(seat.pitch) - behind * sind(seat.pitch)
    rear = mortise_height(front, float(spacing), seat.pitch)
    said = [write_length(length, unit) for length in (top, thick, behind, front, rear, spacing)]
    rules = (
        f"{said[3]} = {said[0]} - {said[1]} x cos {pitch} - {said[2]} x sin {pitch}",
        f"{said[4]} = {said[3]} - {said[5]} x sin {pitch}",
    )
    names = ("height under the seat, front mortises", "height under the seat, rear mortises")
    sizes = [
        Size(name, height, unit, rule, "seat.mortise_height")
        for name, height, rule in zip(names, (front, rear), rules, strict=True)
    ]
    return tuple(sizes), (front, rear), ()


def _outline(outline: Outline, width: float, depth: float) -> tuple[PlanPoint, ...]:
    """Corners of a seat in plan, front edge first."""
    if outline == "rectangle":
        return ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    middle = (width / 2, depth / 2)
    turns = range(_ROUND) if outline == "round" else range(_ROUND // 2 + 1)
    arc = [
        (middle[0] + middle[0] * cosd(360 / _ROUND * i), middle[1] + middle[1] * sind(360 / _ROUND * i)) for i in turns
    ]
    return tuple(arc) if outline == "round" else ((0.0, 0.0), (width, 0.0), *arc)
