"""How drawers fit: heights that allow for the season, gaps through the year, how they nod, rack and bind."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from math import floor

from furnlib.base.guards import DesignError, fault_at
from furnlib.base.terms import Term
from furnlib.base.units import FINEST
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_drawer import Drawers
from furnlib.plan.sizes.openings import Row
from furnlib.plan.sizes.season import Season, WoodSeason
from furnlib.plan.sizes.size import AtMost, Size, Sum, sum_size
from furnlib.trade.drawer.droop import Droop, droop
from furnlib.trade.drawer.gaps import SeasonGaps, season_gaps, size_for_gap
from furnlib.trade.drawer.parts import Making, Opening
from furnlib.trade.drawer.racking import Racking, racking

OPENED: tuple[Fraction, ...] = (Fraction(2, 3), Fraction(3, 4))
"""Shares of its length by which a drawer is looked at when it stands open."""


@dataclass(frozen=True, eq=False)
class DrawerFit:
    """How the drawers of a row fit, in the piece's unit.

    Args:
        front_gaps: over a flush front, or over what of a lipped one goes in; None where the front lies over the case.
        between: from a front over the case to the one above it; None where there is none.
        side_gaps: over the sides.
        play: free movement up and down today.
        length: of a drawer from its front to the end of its sides.
    """

    front_gaps: SeasonGaps | None
    between: SeasonGaps | None
    side_gaps: SeasonGaps
    play: float
    length: Fraction
    _opened: Callable[[Fraction], tuple[Droop, Racking]]

    @property
    def droops(self) -> tuple[Droop, ...]:
        """How one nods at two thirds and at three quarters pulled out."""
        return tuple(self._opened(out)[0] for out in OPENED)

    @property
    def rackings(self) -> tuple[Racking, ...]:
        """How one racks at the same places."""
        return tuple(self._opened(out)[1] for out in OPENED)


def front_height(design: CaseDesign, drawers: Drawers, season: Season, row: Row, name: str) -> Size:
    """Height of a row's fronts today: what its season leaves of the opening, or the opening and its overlay.

    Args:
        design: the piece as settled.
        drawers: how they are made.
        season: the year of the wood.
        row: the row.
        name: of the row.

    Returns:
        The height, rounded down to what a rule shows.
    """
    front, called = drawers.front, f"front height of {name}"
    if front.kind != "flush":
        return sum_size(called, design.unit, (Term(row.stands), Term(front.overlay, "overlay", 2)))
    return _within(called, design, drawers, season, row)


def lipped_sizes(design: CaseDesign, drawers: Drawers, season: Season, row: Row, name: str) -> tuple[Size, ...]:
    """What of a lipped front goes into its opening, and the rebates that leave its lip.

    Args:
        design: the piece as settled.
        drawers: how they are made.
        season: the year of the wood.
        row: the row.
        name: of the row.

    Returns:
        Height inside the lip, and the rebates below, above and at the ends; nothing where the front has no lip.
    """
    front, unit = drawers.front, design.unit
    if front.kind != "lipped":
        return ()
    within = _within(f"front within its lip, height of {name}", design, drawers, season, row)
    over = Fraction(within.value) + front.below - row.stands
    overlay = Term(front.overlay, "overlay")

    def rebate(where: str, gap: Fraction, what: str) -> Size:
        return sum_size(f"rebate {where} the front of {name}", unit, (overlay, Term(gap, what)))

    return (
        within,
        rebate("under", front.below, "below"),
        rebate("over", -over, "gap"),
        rebate("at the ends of", drawers.side.gap, "side gap"),
    )


def _within(name: str, design: CaseDesign, drawers: Drawers, season: Season, row: Row) -> Size:
    """Height of what of a front goes into the opening."""
    front = drawers.front
    taken = (Term(row.stands), Term(-front.below, "below"), Term(-front.least_gap, "gap"), Term(-front.film, "film", 2))
    return _for_season(name, design, taken, season.woods["front"])


def side_height(
    design: CaseDesign, drawers: Drawers, season: Season, row: Row, name: str, settled: tuple[Size, ...]
) -> Size:
    """Height of a row's sides today: whole pitches of the jig, or what its season leaves of the opening.

    Args:
        design: the piece as settled.
        drawers: how they are made.
        season: the year of the wood.
        row: the row.
        name: of the row.
        settled: the sizes of its bank, with the side heights that a jig settles.

    Returns:
        The height; by the season it is rounded down to what a rule shows.
    """
    called = f"side height of {name}"
    if row.side is not None:
        return next(size for size in settled if size.name == called)
    taken = (Term(row.stands), Term(-drawers.side.least_gap, "gap"))
    return _for_season(called, design, taken, season.woods["side"])


def _for_season(name: str, design: CaseDesign, taken: tuple[Term[Fraction], ...], wood: WoodSeason) -> Size:
    """The largest height that still leaves its gap when the wood is at its widest, as the sum that was done."""
    left = Sum(tuple(term for term in taken if term.value), 1, design.unit)
    widest, finest = max(1.0, wood.damp), FINEST[design.unit]
    exact = size_for_gap(float(left.value), 0.0, 0.0, 0.0, widest)
    height = floor(exact / float(finest) + 1e-9) * finest
    if height <= 0:
        with fault_at("drawers", wood.role):
            raise DesignError(f"The {name} comes to {float(height):g}; give less gap, or a taller opening.")
    return Size(name, height, design.unit, AtMost(height, left, widest), "gaps.size")


def drawer_fit(
    drawers: Drawers,
    season: Season,
    making: Making,
    opening: Opening,
    heights: tuple[Fraction, Fraction],
    side_length: Fraction,
    row: int,
    above: tuple[Fraction, Fraction] | None = None,
) -> DrawerFit:
    """Say how the drawers of a row fit.

    Args:
        drawers: how they are made.
        season: the year of the wood.
        making: the same in the trade's terms.
        opening: of each drawer.
        heights: of sides and of what of the front goes into the opening.
        side_length: of the sides.
        row: counted from the top.
        above: of a front over the case, how far off the front above it is, and how high that is.

    Returns:
        The fit.

    Raises:
        DesignError: when a drawer is too tall for its opening today.
    """
    side, front = heights
    settled, riding = drawers.front, drawers.riding
    woods = season.woods
    with fault_at("drawers", "side"):
        side_gaps = season_gaps(float(opening.height), 0.0, float(side), 0.0, woods["side"].damp, woods["side"].dry)
    front_gaps = between = None
    if settled.kind != "overlay":
        of_front = (float(settled.below), float(front), float(settled.film), woods["front"].damp, woods["front"].dry)
        with fault_at("drawers", "front"):
            front_gaps = season_gaps(float(opening.height), *of_front)
    elif above:
        apart, moving = float(above[0] - 2 * settled.film), float(front + above[1]) / 2  # each from its own middle
        damp, dry = (apart - moving * (woods["front"].damp - 1), apart - moving * (woods["front"].dry - 1))
        between = SeasonGaps(apart, damp, dry)
    beyond = riding.no_kicker.get(row)
    over = [side_gaps.now, riding.kicker] if beyond is None else [beyond]
    if making.run != "runners":
        over = [making.guide_play]  # its runner in the guide holds it down, or the slide
    play = min(float(room) for room in over if room is not None)
    length = side_length + making.lap + (making.front_thickness if making.inner_front else 0)
    at = partial(opened, making, opening, side, side_length, length, play)
    return DrawerFit(front_gaps, between, side_gaps, play, length, at)


def opened(
    making: Making,
    opening: Opening,
    side_height: Fraction,
    side_length: Fraction,
    length: Fraction,
    play: float,
    out: Fraction,
) -> tuple[Droop, Racking]:
    """Say how a drawer nods and racks when it is pulled out so far.

    Args:
        making: how it is made.
        opening: what it stands in.
        side_height: of its sides.
        side_length: of them.
        length: from its front to the end of its sides.
        play: free movement up and down.
        out: share of its length that is pulled out, from 0 to 1.

    Returns:
        Both.
    """
    long, gap, pulled_out = float(length), float(making.side_gap), float(out)
    beside = gap - float(making.slide_room) if making.run == "slides" else gap
    inside = long * (1 - pulled_out)
    return (
        droop(float(side_height), play, inside, long * pulled_out),
        racking(float(opening.width) - 2 * gap, 2 * beside, inside, float(side_length)),
    )
