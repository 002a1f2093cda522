"""Dovetails of a drawer's side: cut by a jig of one pitch, or by hand with gaps that suit a chisel.

All is measured at the end of the side, from its upper edge down. There the tails are widest and the gaps narrowest:
there a paper strip is pricked through, and the chisel must pass. Over the depth of the joint the tails narrow to their
root by the slope. The sides carry the tails, front and back the pins: a half pin along either edge, one in each gap.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import pairwise
from math import inf
from typing import Literal, NamedTuple

from furnlib.base.angles import Value
from furnlib.base.concern import Concern
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive
from furnlib.base.units import Unit, write_length, write_number

Outline = tuple[tuple[Value, Value], ...]


class Tail(NamedTuple):
    """One tail by its places, at the end of the side or at its root.

    Args:
        start: from the side's upper edge to where it begins, any length unit.
        end: from there to where it ends, in the same unit.
    """

    start: Value
    end: Value


@dataclass(frozen=True)
class Layout:
    """Where the tails of a side stand, all sizes in one unit.

    Args:
        height: of the side, or of the back where the tails take the back, any length unit.
        tails: from the upper edge down, measured at the end of the side.
        depth: how long the tails are, any length unit.
        slope: how far an edge of a tail runs off for each unit of its length, a plain number.
    """

    height: Value
    tails: tuple[Tail, ...]
    depth: Value
    slope: Value

    @cached_property
    def half_pins(self) -> tuple[Value, Value]:
        """The half pins along the upper and the lower edge, at the end of the side."""
        return self.tails[0].start, self.height - self.tails[-1].end

    @cached_property
    def gaps(self) -> tuple[Value, ...]:
        """The gaps between the tails at the end of the side, where they are narrowest."""
        return tuple(below.start - above.end for above, below in pairwise(self.tails))

    @cached_property
    def narrowest(self) -> Value:
        """The least width of a tail, at its root."""
        return min(end - start for start, end in self.tails) - 2 * self.slope * self.depth

    @cached_property
    def roots(self) -> tuple[Tail, ...]:
        """The tails at their roots, where they are narrowest."""
        off = self.slope * self.depth
        return tuple(Tail(start + off, end - off) for start, end in self.tails)

    @property
    def tail_outlines(self) -> tuple[Outline, ...]:
        """Corners of each tail: from the upper edge down, and from the end of the side in."""
        return tuple(self._outline(*both) for both in zip(self.tails, self.roots, strict=True))

    @property
    def waste_outlines(self) -> tuple[Outline, ...]:
        """Corners of each piece of waste beside and between the tails, where the pins go."""
        ends, roots = (pairwise([(0, 0), *row, (self.height, self.height)]) for row in (self.tails, self.roots))
        gaps = (((a[1], b[0]), (c[1], d[0])) for (a, b), (c, d) in zip(ends, roots, strict=True))
        return tuple(self._outline(*both) for both in gaps)

    def _outline(self, at_end: tuple[Value, Value], at_root: tuple[Value, Value]) -> Outline:
        return ((at_end[0], 0), (at_end[1], 0), (at_root[1], self.depth), (at_root[0], self.depth))


def tail_width(height: Value, tails: Value, half_pin: Value, gap: Value) -> Value:
    """Width of equal tails at the end of the side: t = (h - 2 a - (n - 1) w) / n.

    Args:
        height: h, of the side, any length unit; number, array or symbol.
        tails: n, how many, a plain number.
        half_pin: a, along either edge, in the unit of the height.
        gap: w, between neighbours, in the same unit.

    Returns:
        The width, in the same unit.

    Source:
        Derived in `teach.derive.derive_dovetail`.

    Example:
        >>> tail_width(4.125, 4, 0.375, 0.25)
        0.65625
    """
    return (height - 2 * half_pin - (tails - 1) * gap) / tails


def jig_tail(number: Value, first_offset: Value, jig_pitch: Value, pin_width: Value) -> Tail:
    """Where one tail of a jig's row stands: from o + (i - 1) p - (p - w) / 2 to o + (i - 1) p + (p - w) / 2.

    Args:
        number: i, counted from 1 at the upper edge, a plain number.
        first_offset: o, from the upper edge to the middle of the first tail, any length unit.
        jig_pitch: p, from middle to middle, in the same unit.
        pin_width: w, left between two tails at the end of the side, in the same unit.

    Returns:
        Its two ends, in the same unit.

    Source:
        Derived in `teach.derive.derive_dovetail`.

    Example:
        >>> jig_tail(2, 10, 20, 6)
        Tail(start=23.0, end=37.0)
    """
    start = first_offset + (number - 1) * jig_pitch - (jig_pitch - pin_width) / 2
    return Tail(start, start + jig_pitch - pin_width)


@lru_cache(64, typed=True)  # a case has many sides alike, and most stay so while a slider moves
def hand_layout(
    height: Value, tails: int, half_pin: Value, gap: Value, depth: Value, slope: Value = Fraction(1, 7),
    grid: Value | None = None,
) -> Layout:  # fmt: skip
    """Set out tails that are cut by hand: equal, or within one step of a grid.

    On a grid gaps and half pins keep their sizes; each tail begins on the nearest whole step after the upper half pin.

    Args:
        height: of the side, above 0, any length unit.
        tails: how many, 1 or more.
        half_pin: along either edge at the end of the side, above 0, in the same unit.
        gap: between neighbours there, above 0, in the same unit.
        depth: how long the tails are, above 0, in the same unit.
        slope: run of a tail's edge for each unit of length, 0 or more; 1/8 to 1/6 is usual.
        grid: step of the marks, above 0, in the same unit; None for equal tails.

    Returns:
        The layout; exact sizes in give exact sizes out.

    Raises:
        DesignError: when no tail is left, at the end of the side or at the root.

    Source:
        Derived in `teach.derive.derive_dovetail`.

    Example:
        >>> made = hand_layout(Fraction(33, 8), 4, Fraction(3, 8), Fraction(1, 4), Fraction(1, 2))
        >>> print(made.tails[1].end - made.tails[1].start)
        21/32
    """
    if not isinstance(tails, int) or tails < 1:
        raise DesignError(f"{tails} tails do not hold a corner; give a whole number from 1 up.")
    for name, size in (("height", height), ("half pin", half_pin), ("gap", gap), ("grid", 1 if grid is None else grid)):
        require_positive(name, size)
    each = tail_width(height, tails, half_pin, gap) + gap
    runs = [i * each if grid is None else grid * int(i * each / grid + Fraction(1, 2)) for i in range(tails)]
    starts = [half_pin + run for run in runs] + [height - half_pin + gap]
    return _layout(height, [Tail(a, b - gap) for a, b in pairwise(starts)], depth, slope)


@lru_cache(64, typed=True)
def jig_layout(
    height: Value, jig_pitch: Value, pin_width: Value, depth: Value, slope: Value = Fraction(1, 7),
    first_offset: Value | None = None, last_offset: Value | None = None,
) -> Layout:  # fmt: skip
    """Set out tails that a jig of one pitch cuts: k = (h - first - last) / p + 1 of them, pitch - pin wide.

    Args:
        height: of the side, any length unit; whole pitches when the offsets are half a pitch.
        jig_pitch: from the middle of one tail to the next, above 0, in the same unit.
        pin_width: what the jig leaves between two tails at the end of the side, above 0, in the same unit.
        depth: how long the tails are, above 0, in the same unit.
        slope: of the cutter, run for each unit of length, 0 or more.
        first_offset: from the upper edge to the middle of the first tail; half a pitch where None, in the same unit.
        last_offset: from the middle of the last tail to the lower edge; half a pitch where None, in the same unit.

    Returns:
        The layout; exact sizes in give exact sizes out.

    Raises:
        DesignError: when the height is no whole number of pitches, or an edge cuts into a tail.

    Source:
        Derived in `teach.derive.derive_dovetail`.

    Example:
        >>> made = jig_layout(80, 20, 6, 14)
        >>> made.tails[0] == (3, 17), made.half_pins == (3, 3)
        (True, True)
    """
    for name, size in (("height", height), ("pitch", jig_pitch), ("pin width", pin_width)):
        require_positive(name, size)
    first, last = (Fraction(jig_pitch) / 2 if offset is None else offset for offset in (first_offset, last_offset))
    require_finite("first offset", first)
    require_finite("last offset", last)
    steps = float((height - first - last) / Fraction(jig_pitch))
    if abs(steps - round(steps)) > 1e-9:
        raise DesignError(f"A side of {height} has {steps:g} pitches between tails; a jig cuts whole ones: alter it.")
    tails = [jig_tail(i, first, Fraction(jig_pitch), pin_width) for i in range(1, round(steps) + 2)]
    return _layout(height, tails, depth, slope)


def back_layout(side: Layout, drop: Value, floor_height: Value, depth: Value) -> Layout:
    """The tails that hold a back: those of the side's other end as far as the back reaches.

    Args:
        side: the layout over the whole height of the side.
        drop: how much lower the back is than the side, 0 or more, in the unit of the side.
        floor_height: from the side's lower edge to the lower edge of the back, in the same unit.
        depth: how long the tails are there: thickness of the back, above 0, in the same unit.

    Returns:
        The layout from the back's upper edge down; where an edge of the back cuts into a tail, a half pin of 0.

    Raises:
        DesignError: when a size is below 0, or no tail is left.

    Source:
        Common practice, no source: one setting of the jig for both ends.

    Example:
        >>> back_layout(jig_layout(80, 20, 8, 14), 0, 16, 12).half_pins == (4, 8)
        True
    """
    for name, size in (("drop", drop), ("floor's height", floor_height), ("depth of the joint", depth)):
        require_between(name, size, 0, inf, "measure from the side's edge inwards", ends=True)
    end_of_back, least = side.height - floor_height, 2 * side.slope * depth
    ends = ((max(start, drop), min(end, end_of_back)) for start, end in side.tails)
    kept = [Tail(start - drop, end - drop) for start, end in ends if end - start > least]
    return _layout(end_of_back - drop, kept, depth, side.slope)


@dataclass(frozen=True)
class GroovePlace:
    """Where the groove for the bottom meets the corner.

    Args:
        where: "in a tail" all along it, "in a pin" all along it, or "across" an edge.
        tail: which one, a plain number from 1 at the upper edge; None where it is in no tail.
        room: the least wood between groove and edge at that tail's root, in the layout's unit; 0 where there is none.
        plug: height, depth and length of the hole that shows, in the layout's unit; None where nothing shows.
    """

    where: Literal["in a tail", "in a pin", "across"]
    tail: int | None
    room: Value
    plug: tuple[Value, Value, Value] | None


def groove_place(
    layout: Layout,
    groove_height: Value,
    groove_width: Value,
    groove_depth: Value,
    side_thickness: Value,
    *,
    through: bool = False,
) -> GroovePlace:
    """Say where the groove for the bottom comes out, and what plug hides it.

    In a tail it ends under the lap, or in the face of a through front; in a pin the front's comes out at its end.

    Args:
        layout: the tails at the front end of the side.
        groove_height: from the side's lower edge up to the groove, 0 or more, in the unit of the layout.
        groove_width: of the groove, above 0, in the same unit.
        groove_depth: of the groove, above 0, in the same unit.
        side_thickness: of the side, above 0, in the same unit.
        through: True where the tails come out at the face of the front.

    Returns:
        The place, with the wood beside it and the plug.

    Raises:
        DesignError: when the groove does not lie within the side.

    Source:
        Common practice, no source; grooves are laid over the corner's outlines in `tests/unit/test_dovetail.py`.

    Example:
        >>> groove_place(jig_layout(80, 20, 6, 14), 6, 6, 6, 12).where
        'in a tail'
    """
    for name, size in (("groove's width", groove_width), ("groove's depth", groove_depth), ("side", side_thickness)):
        require_positive(name, size)
    require_finite("height of the groove", groove_height)
    lower = layout.height - groove_height
    upper = lower - groove_width
    if groove_height < 0 or upper < 0:
        raise DesignError(f"The groove lies from {upper} to {lower} in a side of {layout.height}: move it inside.")
    for number, root in enumerate(layout.roots, 1):
        if root.start <= upper and lower <= root.end:
            plug = (groove_width, groove_depth, layout.depth) if through else None
            return GroovePlace("in a tail", number, min(upper - root.start, root.end - lower), plug)
    clear = all(lower <= start or end <= upper for start, end in layout.tails)
    return GroovePlace("in a pin" if clear else "across", None, 0, (groove_width, groove_depth, side_thickness))


def weak_places(
    layout: Layout, side_thickness: Value, lap: Value | None = None, chisel: Value | None = None, unit: Unit = "mm"
) -> tuple[Concern, ...]:
    """Look for what breaks or cannot be cut in a corner; a sense check, no strength calculation.

    Args:
        layout: of the corner.
        side_thickness: of the side, above 0, in the unit of the layout.
        lap: wood of the front before the tails, in the same unit; None where the corner is through.
        chisel: width of the chisel that clears the gaps and the sockets, in the same unit; None where a jig cuts.
        unit: "mm" or "in", for the numbers as they are written.

    Returns:
        The weak places; none where all is well.

    Source:
        Common practice, no source.

    Example:
        >>> [weak.number for weak in weak_places(jig_layout(80, 20, 6, 14), 12, lap=6, chisel=8)]
        ['gap under chisel: 6']
    """
    off = layout.slope * layout.depth
    half_pin, root = min(layout.half_pins), layout.narrowest
    gap = min(layout.gaps, default=None)
    found: tuple[tuple[bool, str, Value], ...] = (
        (half_pin <= 0 or 3 * (half_pin + off) < side_thickness, "thin half pin", half_pin),
        (2 * root < side_thickness, "narrow tail", root),
        (6 * layout.slope > 1, "steep slope", layout.slope),
        (8 * layout.slope < 1, "flat slope", layout.slope),
        (lap is not None and lap <= 0, "lap gone", lap),
        (lap is not None and 0 < 5 * lap < lap + layout.depth, "thin lap", lap),
        (chisel is not None and gap is not None and gap < chisel, "gap under chisel", gap),
        (chisel is not None and root < chisel, "tail under chisel", root),
    )
    weak = [(code, f"1 in {write_number(1 / size)}" if "slope" in code and size else write_length(size, unit))
            for is_so, code, size in found if is_so]  # fmt: skip
    return tuple(Concern(code.replace(" ", "_"), f"{code}: {size}", *_WEAK[code]) for code, size in weak)


_WEAK = {
    "thin half pin": ("at its root under a third of the side, it splits when driven home", ("widen the half pins",)),
    "narrow tail": ("at its root under half as wide as the side is thick, it breaks off", ("cut fewer tails",)),
    "steep slope": ("past 1 in 6 the corners of the tails are short grain and crumble", ("take 1/7",)),
    "flat slope": ("under 1 in 8 the tails hold little more than straight fingers", ("take 1/8 or more",)),
    "lap gone": ("the tails come out at the face of the front", ("let the sides in less", "make the corner through")),
    "thin lap": ("under a fifth of the front, it breaks when the sockets are chopped", ("let the sides in less",)),
    "gap under chisel": ("the chisel does not pass between the tails", ("use a narrower chisel", "widen the gaps")),
    "tail under chisel": ("at its root the socket is too narrow", ("use a narrower chisel", "cut fewer tails")),
}


def edge_at_stop(side: Literal["left", "right"], end: Literal["front", "rear"]) -> Literal["left", "right"]:
    """Which stop of a jig a side's upper edge goes to, its end up and its inside face towards the maker.

    Args:
        side: of the drawer, seen from the front.
        end: which end of that side is cut.

    Returns:
        "left" or "right", as the maker stands; the other one for lower edges, or with the outside face near.

    Source:
        Common practice, no source; the boards are turned as vectors in `tests/unit/test_dovetail.py`.

    Example:
        >>> [edge_at_stop(side, end) for side in ("left", "right") for end in ("front", "rear")]
        ['right', 'left', 'left', 'right']
    """
    return "right" if (side == "left") == (end == "front") else "left"


def _layout(height: Value, tails: list[Tail], depth: Value, slope: Value) -> Layout:
    """A layout whose tails are there at both ends of their length, inside the edges."""
    require_positive("depth of the joint", depth)
    require_between("slope", slope, 0, inf, "a side's edge cuts into no tail", ends=True)
    if not tails:
        raise DesignError(f"No tail is left in a height of {height}: make it higher.")
    made = Layout(height, tuple(tails), depth, slope)
    require_positive("width of a tail at its root", made.narrowest, "make tails, gaps or slope less")
    require_between("half pin", min(made.half_pins), 0, inf, "a side's edge cuts into no tail", ends=True)
    return made
