"""Wide wood that must be free to move, and sheets that need not: panels in grooves, boards and sheets as a back.

*Stretch* is the size then over the size today; any movement law gives it. Today counts as a season, because a
shop may be damper or drier than the room will ever be.

* A panel goes into grooves all round. Its whole width moves, with what lies in the grooves. Pinned at its
  centre each edge takes half of that, pinned at one edge the other edge takes it all. A panel that nothing
  pins may creep to one side: make it as for one edge.
* Boards stand side by side, each held in its middle only, joined by a tongue or by laps. Each gap closes by one
  board's swelling; the tongue bridges what shrinking opens.
* A sheet does not move to speak of; what goes wrong there is a subtraction left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from furnlib.base.angles import Value, square_root
from furnlib.base.guards import DesignError, require_finite, require_positive
from furnlib.base.terms import Term, total
from furnlib.trade.case._season import largest, narrowest_widest, require_none_or_more

Pinned = Literal["centre", "edge"]
EDGE_SHARE: dict[Pinned, float] = {"centre": 0.5, "edge": 1.0}
"""How much of a panel's movement the edge takes that moves most."""


def engagement(sight: Value, least_engagement: Value, edge_shrinkage: Value) -> Value:
    """How far a panel reaches into either groove today: (least + k sight) / (1 - 2 k).

    Args:
        sight: what is seen between the grooves, any length unit; number, array or symbol.
        least_engagement: what must stay in a groove at the driest, in the same unit.
        edge_shrinkage: k, how far one edge draws back as a share of the panel's whole width, a plain number
            below 1/2.

    Returns:
        The engagement in the same unit.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> engagement(388.0, 4.0, 0.005)
        6.0
    """
    return (least_engagement + edge_shrinkage * sight) / (1 - 2 * edge_shrinkage)


def edge_travel(width: Value, edge_share: Value, stretch: Value) -> Value:
    """How far an edge of a panel moves outward from where it is today: share w (s - 1).

    Args:
        width: w, of the whole panel today, any length unit; number, array or symbol.
        edge_share: what part of the movement this edge takes, a plain number: 1/2 pinned at the centre, 1 pinned
            at the other edge.
        stretch: s, the panel's width then over its width today, a plain number.

    Returns:
        The travel in the same unit, below 0 inward.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> edge_travel(400.0, 0.5, 1.01)
        2.0
    """
    return edge_share * width * (stretch - 1)


@dataclass(frozen=True, eq=False)
class Panel:
    """A panel in grooves, in one unit.

    Args:
        engagement: how far it reaches into either groove today.
        engagement_damp: the same at the dampest, at the edge that moves most.
        engagement_dry: the same at the driest.
        width: of the panel today, grooves included, as its sum.
        groove_depth: how deep the grooves are, as its sum.
    """

    engagement: Value
    engagement_damp: Value
    engagement_dry: Value
    width: tuple[Term[Value], ...]
    groove_depth: tuple[Term[Value], ...]


def panel_in_grooves(
    sight: Value,
    least_engagement: Value,
    bottom_gap: Value,
    stretch_damp: Value,
    stretch_dry: Value,
    *,
    pinned: Pinned = "centre",
) -> Panel:
    """Width of a panel and depth of its grooves: still held at the driest, still free at the dampest.

    Args:
        sight: width seen between the grooves, square to the grain, above 0, any length unit.
        least_engagement: what must stay in a groove at the driest, 0 or more, in the same unit.
        bottom_gap: what must stay free in the bottom of a groove at the dampest, 0 or more, in the same unit.
        stretch_damp: the panel's width at the dampest over its width today, a plain number above 0.
        stretch_dry: the same at the driest, a plain number above 0.
        pinned: "centre" where each edge takes half of the movement, "edge" where one takes it all.

    Returns:
        The panel; arrays where an argument is an array.

    Raises:
        DesignError: when a size is out of its range, or the panel shrinks so much that no groove would hold it.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> made = panel_in_grooves(388.0, 4.0, 1.0, 1.01, 0.99)
        >>> made.engagement, total(made.width), total(made.groove_depth)
        (6.0, 400.0, 9.0)
    """
    require_positive("width seen of the panel", sight)
    require_none_or_more(least_engagement=least_engagement, gap_in_the_bottom_of_the_groove=bottom_gap)
    if pinned not in EDGE_SHARE:
        raise DesignError(f"The panel is pinned at '{pinned}'; it must be 'centre' or 'edge'.")
    share = EDGE_SHARE[pinned]
    narrowest, widest = narrowest_widest(stretch_damp, stretch_dry)
    shrinkage = share * (1 - narrowest)
    require_positive("rest of the panel", 1 - 2 * shrinkage, "no groove holds a panel that shrinks so much")
    reach = engagement(sight, least_engagement, shrinkage)
    width = sight + 2 * reach
    at_damp, at_dry = (reach + edge_travel(width, share, stretch) for stretch in (stretch_damp, stretch_dry))
    depth = (
        Term(reach, "in the groove"),
        Term(edge_travel(width, share, widest), "swelling"),
        Term(bottom_gap, "free"),
    )
    return Panel(reach, at_damp, at_dry, (Term(sight, "seen"), Term(reach, "in the groove", 2)), depth)


def board_face(back_width: Value, count: Value, least_gap: Value, stretch: Value) -> Value:
    """Face of each board of a back today: (B - (n + 1) least) / (n s).

    At its widest n boards and n + 1 least gaps, those at the two edges among them, fill the back.

    Args:
        back_width: B, from the one rebate's wall to the other's, any length unit; number, array or symbol.
        count: n, how many boards, a plain number.
        least_gap: what stays free between two boards and at the edges, in the unit of the back.
        stretch: s, a board's width at its widest over its width today, a plain number.

    Returns:
        The face, without the tongue, in the same unit.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> board_face(611.0, 5, 1.0, 1.1)
        110.0
    """
    return (back_width - (count + 1) * least_gap) / (count * stretch)


def board_gap(face: Value, least_gap: Value, stretch: Value) -> Value:
    """Gap to leave between two boards today, each held in its middle: least + w (s - 1).

    Args:
        face: w, of each board today, without its tongue, any length unit; number, array or symbol.
        least_gap: what stays free when they are widest, in the same unit.
        stretch: s, a board's width at its widest over its width today, a plain number.

    Returns:
        The gap in the same unit.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> board_gap(120.0, 0.5, 1.01)
        1.7
    """
    return least_gap + face * (stretch - 1)


def board_tongue(face: Value, gap: Value, least_overlap: Value, stretch: Value) -> Value:
    """Length of the tongue, or of the laps, that still bridges the gap: (least + gap + w (1 - s)) / s.

    The tongue shrinks with its board, hence the division.

    Args:
        face: w, of each board today, without its tongue, any length unit; number, array or symbol.
        gap: between two boards today, in the same unit.
        least_overlap: what must still lie in the groove or under the lap, in the same unit.
        stretch: s, a board's width at its narrowest over its width today, a plain number.

    Returns:
        The length in the same unit.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> board_tongue(118.0, 1.7, 3.0, 0.98)
        7.2
    """
    return (least_overlap + gap + face * (1 - stretch)) / stretch


@dataclass(frozen=True, eq=False)
class BoardsBack:
    """Boards side by side as a back, in one unit.

    Args:
        face: of each board today, without its tongue.
        gap: to leave between two boards today.
        gap_damp: the same at the dampest.
        gap_dry: the same at the driest.
        edge_gap: to leave today between an outer board and the wall of its rebate.
        tongue: how long the tongues are, or how wide the laps; a groove is made as deep.
        rebate: the least width of the case's rebate that the outer boards still cover at the driest.
        chain: faces and gaps, whose sum is the back's width.
    """

    face: Value
    gap: Value
    gap_damp: Value
    gap_dry: Value
    edge_gap: Value
    tongue: Value
    rebate: Value
    chain: tuple[Term[Value], ...]


def boards_back(
    back_width: Value, count: int, least_gap: Value, least_overlap: Value, stretch_damp: Value, stretch_dry: Value
) -> BoardsBack:
    """Share a back among equal boards, each screwed in its middle only, and find gaps, tongues and rebate.

    Args:
        back_width: from the one rebate's wall to the other's, square to the grain, above 0, any length unit.
        count: how many boards, 1 or more.
        least_gap: what stays free at the dampest, 0 or more, in the same unit.
        least_overlap: of tongues, laps and rebates at the driest, 0 or more, in the same unit.
        stretch_damp: a board's width at the dampest over its width today, a plain number above 0.
        stretch_dry: the same at the driest, a plain number above 0.

    Returns:
        The boards; arrays where an argument is an array.

    Raises:
        DesignError: when a size is out of its range, or the gaps leave nothing for the boards.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> made = boards_back(611.0, 5, 1.0, 3.0, 1.015, 0.99)
        >>> made.face, made.gap, made.edge_gap, made.tongue, made.rebate
        (119.21, 2.79, 1.89, 7.05, 5.49)
    """
    require_positive("width of the back", back_width)
    require_finite("number of boards", count)
    if count != int(count) or count < 1:
        raise DesignError(f"The back has {count} boards; it must be a whole number from 1 up.")
    require_none_or_more(least_gap_between_boards=least_gap, least_overlap=least_overlap)
    narrowest, widest = narrowest_widest(stretch_damp, stretch_dry)
    face = board_face(back_width, count, least_gap, widest)
    require_positive("face of a board", face, "leave smaller gaps or take fewer boards")
    gap, edge_gap = board_gap(face, least_gap, widest), board_gap(face / 2, least_gap, widest)
    at_damp, at_dry = (gap - face * (stretch - 1) for stretch in (stretch_damp, stretch_dry))
    tongue = board_tongue(face, gap, least_overlap, narrowest)
    rebate = least_overlap + edge_gap + face / 2 * (1 - narrowest)
    chain = (Term(face, "face", count), Term(gap, "gap", count - 1), Term(edge_gap, "edge gap", 2))
    return BoardsBack(face, gap, at_damp, at_dry, edge_gap, tongue, rebate, chain)


def sheet_size(
    inside: Value, rebates: tuple[Value, Value], ease: Value, others: tuple[Term[Value], ...] = ()
) -> tuple[Term[Value], ...]:
    """Size of a sheet back in one direction: inside + both rebates - 2 ease, with every deduction in sight.

    Args:
        inside: clear size of the case in that direction, above 0, any length unit, exact or not.
        rebates: how far the rebate reaches beyond that at either end, 0 or more, in the same unit.
        ease: what the sheet is smaller at either end so that it drops in, 0 or more, in the same unit.
        others: further members in the same unit, such as a rail in the way; below 0 what is taken off.

    Returns:
        The members of the sum; `total` adds them up.

    Raises:
        DesignError: when a size is out of its range, or nothing is left.

    Source:
        Common practice, no source; the same as the corners of two rectangles in `tests/unit/test_panels.py`.

    Example:
        >>> total(sheet_size(600, (10, 10), 1))
        618
        >>> [(term.value, term.what, term.times) for term in sheet_size(600, (10, 6), 1)]
        [(600, 'inside', 1), (10, 'rebate', 1), (6, 'rebate', 1), (-1, 'ease', 2)]
    """
    require_positive("inside size of the case", inside)
    require_none_or_more(rebate=min(rebates), ease=ease)
    alike = rebates[0] == rebates[1]
    grown = (Term(rebates[0], "rebate", 2),) if alike else tuple(Term(rebate, "rebate") for rebate in rebates)
    terms = (Term(inside, "inside"), *grown, Term(-ease, "ease", 2), *others)
    require_positive("size of the sheet", total(terms), "take less off")
    return terms


def corner_radius(cutter_radius: Value, ease: Value) -> Value:
    """Round of a sheet's corner that just clears the round a cutter left: R - 2 e - √2 e.

    Args:
        cutter_radius: R, of the cutter that made the rebate, any length unit; number, array or symbol.
        ease: e, room between the sheet and the rebate's two walls, in the same unit.

    Returns:
        The radius in the same unit; 0 or below where a square corner clears.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> corner_radius(8.0, 0.0)
        8.0
    """
    return cutter_radius - 2 * ease - square_root(2 * ease * ease)


def sheet_corner(cutter_radius: Value, ease: Value) -> Value:
    """Least round of a sheet's corners in a rebate whose corners the cutter left round.

    The other way is to chop the rebate's corners square.

    Args:
        cutter_radius: of the cutter, 0 or more, any length unit.
        ease: room between the sheet and the rebate's walls, 0 or more, in the same unit.

    Returns:
        The radius in the same unit, 0 where a square corner clears.

    Raises:
        DesignError: when a size is below 0.

    Source:
        Derived in `teach.derive.derive_panels`.

    Example:
        >>> sheet_corner(8.0, 1.0), sheet_corner(8.0, 2.5)
        (4.59, 0.0)
    """
    require_none_or_more(radius_of_the_cutter=cutter_radius, ease=ease)
    return largest(0.0, corner_radius(cutter_radius, ease))
