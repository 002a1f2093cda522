"""What to settle of the openings before wood is cut."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from furnlib.base.concern import Concern
from furnlib.base.units import write_exact, write_length
from furnlib.plan.design import CaseDesign
from furnlib.plan.design_case import Bay, Case, Rows
from furnlib.plan.sizes.banks import Bank
from furnlib.plan.sizes.openings import RowSizes
from furnlib.trade.drawer.closing import never_shrinks

_OF_EQUAL = ("put what is over in a rail, the top or the legs",)
_OF_GROWING = ("take a stronger step or ratio", "take equal openings")
_HAND_MM = 25  # an opening below this takes no hand
_USED = {
    "equal": (),
    "constant step": ("step", "first", "last", "end_ratio", "least_top"),
    "constant ratio": ("ratio", "first", "last", "end_ratio", "least_top"),
    "weights": ("weights",),
    "own list": ("openings",),
}
"""Which numbers each rule goes by."""
_NUMBERS = ("step", "ratio", "first", "last", "end_ratio", "least_top", "weights", "openings")


def opening_concerns(design: CaseDesign, banks: tuple[Bank, ...]) -> tuple[Concern, ...]:
    """Look the openings over.

    Args:
        design: the piece as settled.
        banks: all its banks from the left, open ones too.

    Returns:
        What was found, each thing once.
    """
    found: list[Concern] = []
    for bay, bank in zip(design.case.bays or (Bay(),), banks, strict=True):
        rows = bay.rows or design.rows
        if bank.rows:
            found += [*_of_bank(design, bank.rows), *_too_low(design, bank.rows, rows), *_unused(rows)]
    return tuple(dict.fromkeys([*found, *_without_use(design.case)]))


def _too_low(design: CaseDesign, bank: RowSizes, rows: Rows) -> Iterator[Concern]:
    """An opening that closing has put under the least top, though its ideal keeps to it."""
    least = rows.least_top
    if least is None or "least_top" not in _USED[rows.rule]:
        return
    for row in bank.rows:
        if row.ideal >= least > row.opening:
            yield Concern(
                "least_top_missed",
                write_exact(row.opening, design.unit),
                f"row {row.number} closes below the least top of {write_exact(least, design.unit)} so that steps never"
                " shrink",
                ("raise the least top by a grid step", "take a finer grid"),
            )


def _unused(rows: Rows) -> Iterator[Concern]:
    """Numbers that the file gives and the rule does not go by."""
    for name in _NUMBERS:
        if getattr(rows, name) is not None and name not in _USED[rows.rule]:
            said = name.replace("_", " ")
            reason = f"the rows give it, but the rule '{rows.rule}' does not go by it"
            yield Concern(
                "not_used", said, reason, (f"take the line '{said}' out", "choose the rule that it belongs to")
            )


def _without_use(case: Case) -> Iterator[Concern]:
    """What the case gives and nothing goes by."""
    for number, bay in enumerate(case.bays, 1):
        if bay.rows and bay.open == "yes":
            reason = "the bay is open, so that no drawers stand in it"
            yield Concern("not_used", f"rows of bay {number}", reason, ("take its rows out", "take 'open: yes' out"))
    if case.dividers is not None and case.divider_step:
        reason = "the case gives the thickness of each divider, and no step is gone by"
        yield Concern("not_used", "divider step", reason, ("take the line 'divider step' out", "take 'dividers' out"))


def _of_bank(design: CaseDesign, bank: RowSizes) -> Iterator[Concern]:
    unit, closed = design.unit, bank.closed
    grid = write_length(closed.grid, unit, style="spoken", finest=closed.grid)
    if not closed.steps_never_shrink and never_shrinks(closed.ideal):  # weights and lists may ask for it
        whole, finer = ("pitch", "a jig of a finer pitch") if bank.fit else ("grid", "a finer grid")
        yield Concern(
            "steps_shrink",
            f"{whole} {grid}",
            f"on this {whole} no set of openings adds up with steps that never shrink; the largest remainders went up",
            (f"take {finer}", *(_OF_EQUAL if len(set(closed.ideal)) == 1 else _OF_GROWING)),
        )
    least = Fraction(_HAND_MM) if unit == "mm" else Fraction(1)
    small = [row for row in bank.rows if row.stands < least]
    if small:
        yield Concern(
            "opening_too_low",
            write_length(small[0].stands, unit, style="spoken"),
            f"the opening of row {small[0].number} takes no hand",
            ("take fewer rows", "take a smaller step or ratio", "make it a tray or a false front"),
        )
    off = [h for h in closed.openings if (h / closed.grid).denominator != 1]
    if off and not bank.fit:
        yield Concern(
            "off_the_grid",
            write_length(off[0], unit, style="spoken"),
            "an opening of the list lies between the marks of this shop's grid",
            ("move it to the grid", "take a finer grid"),
        )
    for row in bank.rows:
        if row.built is not None and row.side is not None and row.built <= row.side:
            yield Concern(
                "side_too_high",
                write_exact(row.built, unit),
                f"row {row.number} was built no higher than its drawer side of {write_exact(row.side, unit)}",
                ("take one pitch off this side", "plane the side and its half pins", "ease the opening"),
            )
