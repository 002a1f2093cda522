"""The case's part of a design file: its boards and bays, its rows of drawers, the jig, the brief, what was measured."""

from __future__ import annotations

import contextlib
from fractions import Fraction
from typing import Annotated, Any, Literal, get_args

from pydantic import BeforeValidator, Field

from furnlib.base.guards import DesignError
from furnlib.base.reading import read_count
from furnlib.plan.design_values import Allowance, Count, Length, Number, Part, Size, Words, one_of
from furnlib.trade.case.outlines import FIELDS
from furnlib.trade.case.ratios import SYSTEMS

Rule = Literal["equal", "constant step", "constant ratio", "weights", "own list"]
RULES: tuple[Rule, ...] = get_args(Rule)
Order = Literal["top to bottom", "bottom to top"]
Leftover = Literal["leg", "top rail", "bottom rail"]
YES_NO = ("yes", "no")


def _each_row_once(given: Any) -> Any:
    """Refuse a row that is named twice, as 1 and 01: the second would quietly win."""
    if isinstance(given, dict):
        rows = []
        for written in given:
            with contextlib.suppress(DesignError):  # what cannot be read is said of its own line
                rows.append(read_count(str(written)))
        twice = next((row for row in rows if rows.count(row) > 1), None)
        if twice is not None:
            raise DesignError(f"Row {twice} stands here twice; keep one of the two lines.")
    return given


EachRowOnce = BeforeValidator(_each_row_once)


class Rows(Part):
    """How many rows, by which rule, and which of them are split side by side.

    Args:
        number: of rows, from 1 to 200.
        rule: "equal", "constant step", "constant ratio", "weights" or "own list".
        step: how much taller each opening is than the one before, in the piece's unit.
        ratio: each opening over the one before, a plain number from 0.1 to 10.
        first: the opening that the rule begins with, in place of step or ratio.
        last: the opening that it ends with, in place of step or ratio.
        end_ratio: the last over the first, in place of step or ratio.
        weights: plain numbers to which the openings are in proportion.
        openings: the own list, in the piece's unit.
        order: which way rule, weights and list run: "top to bottom" or "bottom to top".
        least_top: what the smaller end must not fall below; the step or ratio is eased for it.
        split: for a row's number, how many drawers stand in it side by side, from 1 to 12.
    """

    number: Count
    rule: Annotated[Rule, one_of("rule", RULES)]
    step: Length | None = None
    ratio: Number | None = None
    first: Size | None = None
    last: Size | None = None
    end_ratio: Number | None = Field(default=None, alias="end ratio")
    weights: tuple[Number, ...] | None = None
    openings: tuple[Size, ...] | None = None
    order: Annotated[Order, one_of("order", get_args(Order))] = "top to bottom"
    least_top: Size | None = Field(default=None, alias="least top")
    split: Annotated[dict[Count, Count], EachRowOnce] = Field(default_factory=dict)


class Bay(Part):
    """One of the parts of a case side by side; bays without a width share what the others leave.

    Args:
        width: clear width, above 0, in the piece's unit.
        open: "yes" where no drawers stand in it.
        rows: its own rows, where they are not those of the piece.
    """

    width: Size | None = None
    open: Annotated[Literal["yes", "no"], one_of("answer", YES_NO)] = "no"
    rows: Rows | None = None


class Case(Part):
    """Thicknesses of the case; its own height only where the maker wants it checked.

    Args:
        side: thickness of each side, above 0, in the piece's unit.
        top: thickness of the top.
        bottom: thickness of the bottom.
        divider: thickness of each divider, of the uppermost where they differ; of uprights in a split row too.
        divider_step: how much thicker each divider is than the one above.
        dividers: the thickness of each divider from the top, where they follow no step.
        top_rail: height of a rail under the top, 0 where there is none.
        bottom_rail: height of a rail over the bottom.
        height: of the case without legs; must agree with the rest where it is given.
        partition: thickness of the partitions between bays.
        bays: from the left, as seen from the front; without them one bay takes the whole width.
    """

    side: Size
    top: Size
    bottom: Size
    divider: Size
    divider_step: Length = Field(default=Fraction(0), alias="divider step")
    dividers: tuple[Size, ...] | None = None
    top_rail: Allowance = Field(default=Fraction(0), alias="top rail")
    bottom_rail: Allowance = Field(default=Fraction(0), alias="bottom rail")
    height: Size | None = None
    partition: Size | None = None
    bays: tuple[Bay, ...] = ()


class Jig(Part):
    """A dovetail jig of one pitch, which drawer sides follow in whole pitches.

    Args:
        pitch: from one cut to the next of its sort, above 0, in the piece's unit.
        first_offset: from the upper edge of a side to the middle of its first tail; half a pitch where not given.
        last_offset: from the middle of its last tail to the lower edge; half a pitch where not given.
        clearance: all the room up and down between a side and its opening.
        leftover: what takes up what is no whole pitch: "leg", "top rail" or "bottom rail".
    """

    pitch: Size
    first_offset: Size | None = Field(default=None, alias="first offset")
    last_offset: Size | None = Field(default=None, alias="last offset")
    clearance: Size
    leftover: Annotated[Leftover, one_of("place for what is left over", get_args(Leftover))] | None = None


class Limits(Part):
    """What a size must keep to.

    Args:
        least: the least that will do, in the piece's unit.
        most: the most there is room for.
    """

    least: Size
    most: Size


class Content(Part):
    """One thing that a drawer is to hold, as it lies in it.

    Args:
        width: across the drawer, above 0, in the piece's unit.
        depth: front to back.
        height: up.
        row: the row it is meant for, counted from the top; without it the least opening that takes it.
    """

    width: Size
    depth: Size
    height: Size
    row: Count | None = None


class Brief(Part):
    """What the piece is for: what it must hold, and the room there is for it.

    Args:
        height: limits of the whole height.
        width: limits of the whole width.
        depth: limits of the whole depth.
        field: what a ratio is taken of: "silhouette", legs included, or "case", without them.
        ratios: the ratio systems to try, all of them where none is named.
        room: finger room wanted over what lies in a drawer, in the piece's unit.
        bottom: what a drawer's own bottom takes of the height of its opening.
        walls: what a drawer's sides take of the width of its opening, both together.
        contents: by name, what is to go in.
    """

    height: Limits | None = None
    width: Limits | None = None
    depth: Limits | None = None
    field: Annotated[Literal["silhouette", "case"], one_of("field", FIELDS)] = "silhouette"
    ratios: tuple[Annotated[str, one_of("ratio system", SYSTEMS)], ...] = ()
    room: Size | None = None
    bottom: Allowance = Fraction(0)
    walls: Allowance = Fraction(0)
    contents: dict[Words, Content] = Field(default_factory=dict)


class Measured(Part):
    """What a bank measures as it was built; what is made later follows it, while the plan stays.

    Args:
        bank: which bank of drawers, counted from the left.
        openings: for a row's number, its clear height as measured, in the piece's unit.
        width: clear width of the bank as measured.
    """

    bank: Count = 1
    openings: Annotated[dict[Count, Size], EachRowOnce] = Field(default_factory=dict)
    width: Size | None = None
