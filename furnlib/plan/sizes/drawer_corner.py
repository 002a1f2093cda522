"""Dovetails of a drawer's corners, by the jig or by hand, and where the bottom's groove comes out."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from furnlib.base.guards import DesignError, fault_at
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_drawer import Drawers, Tails
from furnlib.trade.drawer.dovetail import GroovePlace, Layout, back_layout, groove_place, hand_layout, jig_layout
from furnlib.trade.drawer.parts import Making

_back = lru_cache(64)(back_layout)  # of exact sizes, and few: most sides stay as they are while a slider moves


@dataclass(frozen=True)
class DrawerCorner:
    """The dovetails of a drawer's sides.

    Args:
        front: tails at the front end of a side.
        back: tails at its rear end, over the height of the back: by hand its own, by a jig those of the front end as
            far as the back reaches; None where the back is housed.
        groove: where the groove for the bottom comes out.
        by_hand: True where they are set out and cut by hand.
    """

    front: Layout
    back: Layout | None
    groove: GroovePlace
    by_hand: bool


def drawer_corner(
    design: CaseDesign, drawers: Drawers, making: Making, side_height: Fraction, row: int
) -> DrawerCorner | None:
    """Set out the dovetails of a row's drawers.

    Args:
        design: the piece as settled.
        drawers: how they are made.
        making: the same in the trade's terms.
        side_height: of the sides.
        row: counted from the top.

    Returns:
        The corner, None where front and sides are rebated, or nothing is said of tails.

    Raises:
        DesignError: when no tail is left, or the jig has no whole pitches in the side.
    """
    corner = drawers.corner
    if corner.joint == "rebated" or not (corner.tails or corner.jig):
        return None
    depth = making.let_in
    with fault_at("drawers", "corner"):
        if corner.tails and corner.jig:
            raise DesignError("Tails are given for the jig and for the hand; keep one of the two.")
        back, back_height = None, side_height - making.floor_height - making.drop
        dovetailed = drawers.back.joint == "dovetailed"
        if corner.tails:
            front = _by_hand(corner.tails, side_height, depth, corner.tails.number.get(row))
            if dovetailed:
                with suppress(DesignError):  # a back too low for a tail; it is told as a concern
                    back = _by_hand(corner.tails, back_height, making.back_thickness)
        else:
            assert corner.jig
            if design.jig is None:
                raise DesignError("The corner is cut by a jig, but none is settled; add 'jig:' with its pitch.")
            jig = design.jig
            front = jig_layout(
                side_height, jig.pitch, corner.jig.pin, depth, corner.jig.slope, jig.first_offset, jig.last_offset
            )
            if dovetailed:
                back = _back(front, making.drop, making.floor_height, making.back_thickness)
        groove = groove_place(
            front,
            making.groove_height,
            making.groove_width,
            making.groove_depth,
            making.side_thickness,
            through=corner.joint == "through",
        )
    return DrawerCorner(front, back, groove, corner.tails is not None)


def _by_hand(cut: Tails, height: Fraction, depth: Fraction, number: int | None = None) -> Layout:
    """Tails near the wanted width, as many as the maker says or as there is room for."""
    room = round((height - 2 * cut.half_pin + cut.pin) / (cut.tail + cut.pin))
    return hand_layout(height, max(1, room) if number is None else number, cut.half_pin, cut.pin, depth, cut.slope)
