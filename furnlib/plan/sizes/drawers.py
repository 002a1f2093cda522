"""The drawers of a piece: every part from its opening, with the season, the jig and the riding."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from furnlib.base.guards import DesignError
from furnlib.base.terms import Term
from furnlib.base.units import Unit, write_exact
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_drawer import Drawers
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.drawer_corner import DrawerCorner, drawer_corner
from furnlib.plan.sizes.drawer_fit import DrawerFit, drawer_fit, front_height, lipped_sizes, opened, side_height
from furnlib.plan.sizes.drawer_sense import require_sense, require_used
from furnlib.plan.sizes.openings import Row, RowSizes
from furnlib.plan.sizes.pulls import bank_lines, patterns_of
from furnlib.plan.sizes.season import Season
from furnlib.plan.sizes.size import Size, sum_size
from furnlib.trade.drawer.droop import Droop
from furnlib.trade.drawer.parts import Making, Opening, Part, drawer_parts, inside
from furnlib.trade.drawer.pulls import DrillingPattern
from furnlib.trade.drawer.racking import Jam, Racking, jam

_KEYS = {
    "lap": ("corner", "lap"), "overlay": ("front", "overlay"), "inner front": ("front", "inner front"),
    "lip": ("front", "lip"), "setback": ("front", "setback"), "front": ("front",), "side": ("side",),
    "groove depth": ("bottom", "groove"), "underside of the bottom": ("bottom", "thickness"),
    "overhang": ("bottom", "overhang"), "wood over the slip's groove": ("bottom", "slip height"),
    "housing depth": ("back", "housing"), "side tail": ("back", "tail"), "height of the back": ("back",),
    "slide room": ("riding", "slide"), "guide depth": ("riding", "guide", "depth"),
    "width of the runner": ("riding", "guide"), "wood between guide and groove": ("riding", "guide", "up"),
    "wood over the guide": ("riding", "guide", "up"),
}  # fmt: skip
"""Where in the design file, under drawers, what a refusal of `trade.drawer` speaks of is settled."""


@dataclass(frozen=True)
class DrawerPart:
    """One part of a drawer, ready to cut.

    Args:
        name: what it is called.
        count: how many of it one drawer has.
        length: along the grain; of a bottom, across the drawer.
        width: square to that.
        thickness: in the piece's unit.
        grain: which of the two the grain runs along; "none" for a sheet.
    """

    name: str
    count: int
    length: Size
    width: Size
    thickness: Fraction
    grain: str


@dataclass(frozen=True, eq=False)
class DrawerSizes:
    """The drawers of one row of a bank, alike but for where they stand and are drilled.

    Args:
        bank: counted from the left over banks with drawers.
        row: counted from the top.
        count: how many stand side by side.
        name: such as "row 3", or "row 3, bank 2" where banks differ.
        opening: of each, as built where that was measured.
        making: how they are made.
        parts: of one drawer.
        unit: "mm" or "in".
        front_height: with the season's sum.
        lipped: of a lipped front, what goes into the opening and the rebates that leave its lip.
        side_height: by the jig or by the season.
        fit: gaps through the year, droop and racking.
        dovetails: of its corners, None where there are none.
        patterns: where each drawer's front is drilled, from the left; none where there are no pulls.
    """

    bank: int
    row: int
    count: int
    name: str
    opening: Opening
    making: Making
    parts: tuple[DrawerPart, ...]
    unit: Unit
    front_height: Size
    lipped: tuple[Size, ...]
    side_height: Size
    fit: DrawerFit
    dovetails: DrawerCorner | None
    patterns: tuple[DrillingPattern, ...]

    def part(self, name: str) -> DrawerPart:
        """One of the parts.

        Args:
            name: of the part.

        Returns:
            The first that is called so.
        """
        return next(part for part in self.parts if part.name == name)

    def opened(self, out: Fraction) -> tuple[Droop, Racking]:
        """Say how one of them nods and racks when it is open.

        Args:
            out: share of its length that is pulled out, from 0 to 1.

        Returns:
            Both.
        """
        side, long = (Fraction(size.value) for size in (self.side_height, self.part("side").length))
        return opened(self.making, self.opening, side, long, self.fit.length, self.fit.play, out)

    def jam(self, friction: float) -> Jam | None:
        """Say what must stay inside so that none of them binds.

        Args:
            friction: of a side on its guide, a plain number above 0.

        Returns:
            For the pull furthest off a middle; None where they have no pulls.

        Raises:
            DesignError: when the friction is not above 0.
        """
        offsets = max((pattern.off_middle for pattern in self.patterns), key=max, default=())
        return jam(float(self.part("front").length.value), offsets, friction) if offsets else None

    @cached_property
    def inside(self) -> tuple[Size, Size, Size]:
        """Clear sizes inside: width, depth and height."""
        free = inside(self.opening, self.making, Fraction(self.side_height.value))

        def written(what: str, terms: tuple[Term[Fraction], ...]) -> Size:
            return sum_size(f"{what} inside {self.name}", self.unit, terms)

        return written("width", free.width), written("depth", free.depth), written("height", free.height)

    @property
    def sizes(self) -> tuple[Size, ...]:
        """Every size of the drawers with its rule."""
        parts = {size.name: size for part in self.parts for size in (part.length, part.width)}
        return (*parts.values(), *self.lipped, *self.inside)


def making_of(drawers: Drawers) -> Making:
    """Say how drawers are made in the trade's terms.

    Args:
        drawers: as the design file has them.

    Returns:
        The making.
    """
    front, bottom, riding = drawers.front, drawers.bottom, drawers.riding
    guide = riding.guide
    return Making(
        front_thickness=front.thickness,
        side_thickness=drawers.side.thickness,
        back_thickness=drawers.back.thickness,
        bottom_thickness=bottom.thickness,
        groove_width=bottom.tongue,
        groove_height=bottom.up,
        groove_depth=bottom.groove,
        side_gap=drawers.side.gap,
        back_gap=drawers.back_gap,
        front=front.kind,
        joint=drawers.corner.joint,
        lap=drawers.corner.lap,
        inner_front=front.inner_front,
        front_gap=front.gap,
        overlay=front.overlay,
        lip=front.lip,
        setback=front.setback,
        back=drawers.back.joint,
        housing_depth=drawers.back.housing,
        side_tail=drawers.back.tail,
        drop=drawers.back.drop,
        bottom=bottom.kind,
        end_play=bottom.ease,
        overhang=bottom.overhang,
        slip_width=bottom.slip,
        slip_height=bottom.slip_height,
        run=riding.carried,
        slide_room=riding.slide,
        guide_depth=guide.depth if guide else Fraction(0),
        guide_width=guide.width if guide else Fraction(0),
        guide_height=guide.up if guide else Fraction(0),
        guide_play=guide.play if guide else Fraction(0),
    )


def drawers_of(design: CaseDesign, banks: tuple[Bank, ...], season: Season | None) -> tuple[DrawerSizes, ...]:
    """Derive the drawers of every row of every bank.

    Args:
        design: the piece as settled.
        banks: the bays with their openings.
        season: the year of the piece's wood.

    Returns:
        The drawers from the left bank down, none where the design says nothing of them.

    Raises:
        DesignError: when a drawer cannot be made like that, or will not go into its opening.
    """
    settled = design.drawers
    if settled is None or season is None:
        return ()
    depth = design.overall.depth - (design.back.thickness if design.back else 0)
    require_sense(design, banks, depth)
    with _fault_of_drawers(design.unit):
        making = making_of(settled)
        made = tuple(
            _drawers(design, settled, season, making, bank, row, depth, lines)
            for bank in banks
            if bank.rows
            for lines in (bank_lines(design, bank),)
            for row in bank.rows.rows
        )
    require_used(settled)
    return made


@contextmanager
def _fault_of_drawers(unit: Unit) -> Iterator[None]:
    """Write the sizes in a refusal as the file has them, and note where in it they are settled."""
    try:
        yield
    except DesignError as error:
        said = re.sub(r"(?<= )-?\d+/\d+", lambda found: write_exact(Fraction(found[0]), unit), str(error))
        keys = _KEYS.get(said.removeprefix("The ").partition(" is ")[0], ())
        raise DesignError(said, path=error.path or ("drawers", *keys)) from error


def _drawers(
    design: CaseDesign, settled: Drawers, season: Season, making: Making, bank: Bank, row: Row, depth: Fraction,
    lines: tuple[Fraction, ...],
) -> DrawerSizes:  # fmt: skip
    """The drawers of one row."""
    name = f"row {row.number}{bank.called}"
    opening = Opening(row.widths[0], row.stands, depth)
    assert bank.rows
    front = front_height(design, settled, season, row, name)
    side = side_height(design, settled, season, row, name, bank.rows.sizes)
    heights = (Fraction(side.value), Fraction(front.value))
    lipped = lipped_sizes(design, settled, season, row, name)
    within = (heights[0], Fraction(lipped[0].value) if lipped else heights[1])
    parts = tuple(_part(part, name, design, front, side) for part in drawer_parts(opening, making, *heights))
    side_length = Fraction(next(part for part in parts if part.name == "side").length.value)
    above = _above(bank.rows, row, making)
    return DrawerSizes(
        bank=bank.number,
        row=row.number,
        count=len(row.widths),
        name=name,
        opening=opening,
        making=making,
        parts=parts,
        unit=design.unit,
        front_height=front,
        lipped=lipped,
        side_height=side,
        fit=drawer_fit(settled, season, making, opening, within, side_length, row.number, above),
        dovetails=drawer_corner(design, settled, making, heights[0], row.number),
        patterns=patterns_of(design, lines, row, name, making, parts[0]),
    )


def _above(rows: RowSizes, row: Row, making: Making) -> tuple[Fraction, Fraction] | None:
    """What is between a front that lies over the case and the one above it, and how high that one is."""
    if making.front != "overlay" or row.number == 1:
        return None
    upper = rows.rows[row.number - 2]
    return rows.dividers[row.number - 2] - 2 * making.overlay, upper.stands + 2 * making.overlay


def _part(part: Part, name: str, design: CaseDesign, front: Size, side: Size) -> DrawerPart:
    """A part with its two sizes written as the sums that were done; a height that is settled keeps its own rule."""

    def written(what: str, terms: tuple[Term[Fraction], ...]) -> Size:
        return sum_size(f"{part.name} {what} of {name}", design.unit, terms)

    whole = {"front": front, "inner front": side, "side": side}
    width = whole.get(part.name) or written("width", part.width)
    return DrawerPart(part.name, part.count, written("length", part.length), width, part.thickness, part.grain)
