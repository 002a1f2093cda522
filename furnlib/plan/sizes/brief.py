"""The brief against the piece: what each content needs, which opening takes it, what room there is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from furnlib.base.concern import Concern
from furnlib.base.guards import DesignError, fault_at
from furnlib.base.terms import Term
from furnlib.base.units import Unit, write_exact
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_case import Brief, Content, Limits
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.plan.sizes.size import Size, sum_size
from furnlib.trade.case.outlines import Outline, outlines
from furnlib.trade.case.ratios import ratios


@dataclass(frozen=True)
class ContentPlace:
    """One content of the brief and the opening that takes it.

    Args:
        content: its name in the brief.
        needed_height: clear height that it needs, in the piece's unit.
        needed_width: clear width that it needs.
        bank: where the opening is, counted from the left; None where no opening takes it, or not the row it is
            meant for.
        row: which opening of that bank, counted from the top.
        spare: clear height left over there.
    """

    content: str
    needed_height: Fraction
    needed_width: Fraction
    bank: int | None
    row: int | None
    spare: Fraction | None


@dataclass(frozen=True)
class BriefSizes:
    """What the brief asks of the piece.

    Args:
        places: each content and the opening that takes it, in the order of the brief.
        sizes: what each content needs, and what is spare over it, with the sum that was done.
        concerns: contents without a place, and a piece outside the limits.
    """

    places: tuple[ContentPlace, ...]
    sizes: tuple[Size, ...]
    concerns: tuple[Concern, ...]


class _Opening(NamedTuple):
    """An opening as it stands; sorted, the lowest comes first, then the narrowest."""

    height: Fraction
    width: Fraction
    depth: Fraction
    bank: int
    row: int


class _Need(NamedTuple):
    """What a content needs, up, across and front to back."""

    height: Size
    width: Size
    depth: Fraction

    @property
    def wanted(self) -> tuple[Fraction, Fraction, Fraction]:
        """The same, exactly."""
        return Fraction(self.height.value), Fraction(self.width.value), self.depth

    def lacks(self, opening: _Opening) -> tuple[Fraction, ...]:
        """What an opening lacks of it each way, 0 where it has enough."""
        return tuple(max(want - have, Fraction(0)) for want, have in zip(self.wanted, opening[:3], strict=True))


def brief_sizes(design: CaseDesign, banks: tuple[Bank, ...], drawers: tuple[DrawerSizes, ...]) -> BriefSizes | None:
    """Find each content of the brief an opening, and hold the piece against its limits.

    Each content is looked at by itself; openings that were measured count as they were built. Where the
    drawers are settled, what their parts take is theirs; else the brief says what to reckon for it, and front
    and back are not counted.

    Args:
        design: the piece as settled.
        banks: its banks.
        drawers: of every row, none where they are not settled.

    Returns:
        What was found, None where the design has no brief.

    Raises:
        DesignError: when a limit is the wrong way round, a content is meant for a row that is not there, or no
            finger room is given.
    """
    brief = design.brief
    if brief is None:
        return None
    openings = sorted(_openings(design, banks))
    taken = _taken(brief, drawers, design.overall.depth)
    several = len({opening.bank for opening in openings}) > 1
    places: list[ContentPlace] = []
    sizes: list[Size] = []
    concerns = [*_outside(design, brief)]
    for name, content in brief.contents.items():
        need = _needed(name, content, brief, taken, design.unit)
        meant = [opening for opening in openings if content.row in (None, opening.row)]
        if not meant:
            with fault_at("brief", "contents", name, "row"):
                rows = max(opening.row for opening in openings)
                raise DesignError(f"Row {content.row} is not there; the rows run from 1 to {rows}: name one of these.")
        taker = _first_that_takes(need, meant)
        bank, row, spare = (None, None, None)
        sizes += [need.height, need.width]
        if taker:
            terms = (Term(taker.height, _called(taker, several)), Term(-Fraction(need.height.value), "needed"))
            sizes.append(sum_size(f"spare over {name}", design.unit, terms))
            bank, row, spare = taker.bank, taker.row, Fraction(sizes[-1].value)
        else:
            concerns.append(_without_place(name, content, need, meant, openings, design))
        places.append(ContentPlace(name, Fraction(need.height.value), Fraction(need.width.value), bank, row, spare))
    return BriefSizes(tuple(places), tuple(sizes), tuple(concerns))


def _openings(design: CaseDesign, banks: tuple[Bank, ...]) -> Iterator[_Opening]:
    for bank in banks:
        for row in bank.rows.rows if bank.rows else ():
            yield _Opening(row.stands, row.widths[0], design.overall.depth, bank.number, row.number)


class _Taken(NamedTuple):
    """What a drawer's own parts take of its opening, up, across and front to back."""

    height: Fraction
    width: Fraction
    depth: Fraction


def _taken(brief: Brief, drawers: tuple[DrawerSizes, ...], depth: Fraction) -> _Taken:
    """What to reckon for the drawers' parts; it is the same in every opening."""
    if not drawers:
        return _Taken(brief.bottom, brief.walls, Fraction(0))
    if brief.bottom or brief.walls:
        with fault_at("brief"):
            raise DesignError("The drawers themselves say what they take; leave out 'bottom' and 'walls' under brief.")
    drawer, (wide, deep, _) = drawers[0], (Fraction(size.value) for size in drawers[0].inside)
    return _Taken(drawer.making.floor_height, drawer.opening.width - wide, depth - deep)


def _needed(name: str, content: Content, brief: Brief, taken: _Taken, unit: Unit) -> _Need:
    """Add up the clear opening that a content needs."""
    with fault_at("brief", "contents"):
        if brief.room is None:
            raise DesignError("No finger room is given; add a line 'room: …' under brief, 12 to 25 mm as a rule.")
    up = (Term(content.height, name), Term(brief.room, "finger room"), Term(taken.height, "bottom"))
    across = (Term(content.width, name), Term(taken.width, "walls"))
    return _Need(
        sum_size(f"clear height for {name}", unit, tuple(term for term in up if term.value)),
        sum_size(f"clear width for {name}", unit, tuple(term for term in across if term.value)),
        content.depth + taken.depth,
    )


def _first_that_takes(need: _Need, openings: list[_Opening]) -> _Opening | None:
    high, wide, deep = need.wanted
    taking = (one for one in openings if one.height >= high and one.width >= wide and one.depth >= deep)
    return next(taking, None)


def _called(opening: _Opening, several: bool) -> str:
    return f"row {opening.row}" + (f" of bank {opening.bank}" if several else "")


def _without_place(
    name: str, content: Content, need: _Need, meant: list[_Opening], openings: list[_Opening], design: CaseDesign
) -> Concern:
    """Say what the nearest opening lacks, and which would do where the one that was meant does not."""
    unit, several = design.unit, len({opening.bank for opening in openings}) > 1
    nearest = min(meant, key=lambda opening: sum(need.lacks(opening)))
    ways = zip(need.lacks(nearest), ("height", "width", "depth"), strict=True)
    lacking = " and ".join(f"{write_exact(lack, unit)} {unit} of {way}" for lack, way in ways if lack)
    where, taker = _called(nearest, several), _first_that_takes(need, openings)
    if taker:
        other = _called(taker, several)
        reason = f"{where}, which is meant for it, lacks {lacking}; {other} would take it"
        return Concern(
            "content_elsewhere",
            name,
            reason,
            (f"put it in {other}", "change the rule of the openings", "lay it another way"),
        )
    meant_for = "which is meant for it" if content.row else "the nearest"
    return Concern(
        "content_nowhere",
        name,
        f"no opening takes it; {where}, {meant_for}, lacks {lacking}",
        ("take fewer rows or a stronger step", "make the case larger", "lay it another way"),
    )


def _limits(design: CaseDesign, brief: Brief) -> Iterator[tuple[str, Limits, Fraction]]:
    """The limits that the brief sets, each beside what the piece measures."""
    given = {"height": brief.height, "width": brief.width, "depth": brief.depth}
    overall = (design.overall.height, design.overall.width, design.overall.depth)
    for (name, limits), size in zip(given.items(), overall, strict=True):
        if limits is None:
            continue
        with fault_at("brief", name):
            if limits.least > limits.most:
                least, most = write_exact(limits.least, design.unit), write_exact(limits.most, design.unit)
                raise DesignError(
                    f"The least {name} is {least} and the most {most}, so nothing lies between; change the two round."
                )
        yield name, limits, size


def _outside(design: CaseDesign, brief: Brief) -> Iterator[Concern]:
    unit = design.unit
    for name, limits, size in _limits(design, brief):
        if limits.least <= size <= limits.most:
            continue
        bound, limit, way = ("most", limits.most, "over") if size > limits.most else ("least", limits.least, "under")
        off = write_exact(abs(size - limit), unit)
        yield Concern(
            "outside_the_brief",
            f"overall {name} {write_exact(size, unit)} {unit}",
            f"it is {off} {unit} {way} the {bound} that the brief sets, {write_exact(limit, unit)} {unit}",
            (f"change the overall {name}", "ask whether the limit may move"),
        )


def brief_outlines(design: CaseDesign, number: int = 5) -> tuple[Outline, ...]:
    """Outlines within the limits of the brief, the best of each of its ratios.

    Args:
        design: the piece as settled.
        number: how many at most.

    Returns:
        The outlines, the closest to its ratio first.

    Raises:
        DesignError: when the brief sets no limits of height and width, or limits that no ratio meets.

    Example:
        >>> from furnlib.plan.design import read_design
        >>> chest = read_design("notebooks/designs/landing_chest.yaml")
        >>> all(1250 <= outline.height <= 1325 for outline in brief_outlines(chest))
        True
    """
    brief = design.brief
    with fault_at("brief"):
        if brief is None or brief.height is None or brief.width is None:
            raise DesignError(
                "Outlines need the room there is; give 'height' and 'width' under brief, each with least and most."
            )
        heights, widths = ((limits.least, limits.most) for name, limits, _ in _limits(design, brief) if name != "depth")
        legs = design.legs.height if design.legs else Fraction(0)
        found = outlines(heights, widths, design.grid, ratios(*brief.ratios), legs, brief.field)
    return found.best(number)
