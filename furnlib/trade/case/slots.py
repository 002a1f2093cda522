"""Fixings across the grain: one point holds fast, every other screw has a slot, and today it is not in its middle.

A panel moves away from its fixed point as it swells and back as it shrinks, by its distance from there times its
*stretch*, its size then over its size today. The screw goes with it while the slot, in the part that stays, does
not. What is left at either end at the dampest and the driest is the extra room that was asked for::

    fixed point                    slot in the part that stays
        o--------------------------(------+-----------------)
        |<------- distance --------------->|
                           toward end |<-->|<--- away end -->|     the panel will mostly swell

With the slot in the moving part it all turns round: the screw stays, and the slot goes by it.

The movement law is the caller's: any two numbers for the dampest and the driest will do. Both are reckoned from
today's size, and today counts as a season: a shop may be damper or drier than the room will ever be.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, require_finite, require_positive
from furnlib.base.terms import Term, total
from furnlib.trade.case._season import largest, narrowest_widest, require_none_or_more


def away_end(distance: Value, stretch: Value, shank_diameter: Value, extra: Value) -> Value:
    """Room from a screw's middle today to its slot's end away from the fixed point: x (s - 1) + d/2 + extra.

    It is for a slot in the part that stays; the end towards the fixed point takes `toward_end`.

    Args:
        distance: x, from the fixed point to the screw, any length unit; number, array or symbol.
        stretch: s, the panel's size then over its size today, a plain number; at its widest here.
        shank_diameter: d, thickness of the screw, in the unit of the distance.
        extra: what is to be left beyond the screw, in the same unit.

    Returns:
        The room in the same unit.

    Source:
        Derived in `teach.derive.derive_slots`.

    Example:
        >>> away_end(400.0, 1.01, 4.0, 1.0)
        7.0
    """
    return distance * (stretch - 1) + shank_diameter / 2 + extra


def toward_end(distance: Value, stretch: Value, shank_diameter: Value, extra: Value) -> Value:
    """Room from a screw's middle today to its slot's end towards the fixed point: x (1 - s) + d/2 + extra.

    Args:
        distance: x, from the fixed point to the screw, any length unit; number, array or symbol.
        stretch: s, the panel's size then over its size today, a plain number; at its narrowest here.
        shank_diameter: d, thickness of the screw, in the unit of the distance.
        extra: what is to be left beyond the screw, in the same unit.

    Returns:
        The room in the same unit.

    Source:
        Derived in `teach.derive.derive_slots`.

    Example:
        >>> toward_end(400.0, 0.99, 4.0, 1.0)
        7.0
    """
    return distance * (1 - stretch) + shank_diameter / 2 + extra


@dataclass(frozen=True, eq=False)
class Slot:
    """A slot and where its screw sits today, in the unit of the distance.

    Args:
        distance: from the fixed point to the screw, signed along the row.
        away_end: from the screw's middle today to the end of the slot that lies away from the fixed point.
        toward_end: from the screw's middle today to its other end.
    """

    distance: Value
    away_end: Value
    toward_end: Value

    @property
    def length(self) -> Value:
        """Length of the slot from end to end, its round ends included."""
        return self.toward_end + self.away_end

    @property
    def today(self) -> Value:
        """Where the screw's middle sits today, from the end of the slot nearer the fixed point."""
        return self.toward_end

    @property
    def off_middle(self) -> Value:
        """How far the screw sits today off the middle of the slot, above 0 away from the fixed point."""
        return (self.toward_end - self.away_end) / 2

    @property
    def before(self) -> Value:
        """From the screw's middle back along the row, towards smaller places, to the end of the slot."""
        return self._along(self.toward_end, self.away_end)

    @property
    def after(self) -> Value:
        """From the screw's middle on along the row, towards larger places, to the end of the slot."""
        return self._along(self.away_end, self.toward_end)

    def _along(self, one: Value, other: Value) -> Value:
        found: Value = np.where(np.asarray(self.distance) >= 0, one, other)
        return found if found.ndim else float(found)


def slot(
    distance: Value,
    shank_diameter: Value,
    extra: Value,
    stretch_damp: Value,
    stretch_dry: Value,
    *,
    in_moving_part: bool = False,
) -> Slot:
    """Slot for a screw across the grain, and where the screw sits in it today.

    A screw at the fixed point has no slot: its hole is round and as wide as the shank. With the thickness of
    the screw's head in place of its shank's, the same gives the sunk slot that the head moves in.

    Args:
        distance: from the fixed point to the screw, signed along the row or not, any length unit.
        shank_diameter: thickness of the screw, above 0, in the same unit.
        extra: room left beyond the screw at the dampest and at the driest, 0 or more, in the same unit.
        stretch_damp: the panel's size at the dampest over its size today, a plain number above 0.
        stretch_dry: the same at the driest, a plain number above 0.
        in_moving_part: True where the slot is cut in the panel that moves and the screw stays; a slot that
            stretches with its panel is reckoned so.

    Returns:
        The slot; arrays where an argument is an array.

    Raises:
        DesignError: when a size is out of its range, or the dampest is drier than the driest.

    Source:
        Derived in `teach.derive.derive_slots`.

    Example:
        >>> made = slot(400.0, 4.0, 1.0, 1.010, 0.996)
        >>> made.length, made.today, made.off_middle
        (11.6, 4.6, -1.2)
        >>> round(slot(400.0, 4.0, 1.0, 1.010, 0.996, in_moving_part=True).off_middle, 2)
        1.16
    """
    require_finite("distance from the fixed point", distance)
    require_positive("thickness of the screw", shank_diameter)
    require_none_or_more(extra_room=extra)
    narrowest, widest = narrowest_widest(stretch_damp, stretch_dry)
    away_from = abs(distance)
    sizes = (shank_diameter, np.where(np.asarray(distance) == 0, 0.0, extra))
    if in_moving_part:
        away = toward_end(away_from, narrowest, *sizes) / narrowest
        # nearer the fixed point than its own room, a screw is pressed from beyond that point when all is narrowest
        toward = largest(*(away_end(away_from, stretch, *sizes) / stretch for stretch in (narrowest, widest)))
    else:
        away, toward = away_end(away_from, widest, *sizes), toward_end(away_from, narrowest, *sizes)
    return Slot(distance, largest(away), largest(toward))


def slot_row(
    places: Sequence[float],
    fixed_place: float,
    shank_diameter: float,
    extra: float,
    stretch_damp: float,
    stretch_dry: float,
    *,
    in_moving_part: bool = False,
) -> tuple[Slot, ...]:
    """Slots of all screws of one row across a panel, fixed wherever the maker likes.

    Args:
        places: the screws along the row, from one end, rising, any length unit.
        fixed_place: where the panel is held fast, from the same end, in the same unit; at a screw, that screw
            has a round hole; elsewhere glue or a pin holds it.
        shank_diameter: thickness of the screws, above 0, in the same unit.
        extra: room left beyond a screw at the dampest and at the driest, 0 or more, in the same unit.
        stretch_damp: the panel's size at the dampest over its size today, a plain number above 0.
        stretch_dry: the same at the driest, a plain number above 0.
        in_moving_part: True where the slots are cut in the panel that moves.

    Returns:
        The slots in order; one runs from its place less `before` to its place plus `after`.

    Raises:
        DesignError: when a size is not above 0, or two slots run into one another.

    Source:
        Derived in `teach.derive.derive_slots`.

    Example:
        >>> row = slot_row([30.0, 200.0, 370.0], 30.0, 4.0, 1.0, 1.01, 0.996)
        >>> [(made.length, made.before) for made in row]
        [(4.0, 2.0), (8.38, 3.68), (10.76, 4.36)]
    """
    season = stretch_damp, stretch_dry
    row = tuple(
        slot(place - fixed_place, shank_diameter, extra, *season, in_moving_part=in_moving_part) for place in places
    )
    for (place, made), (next_place, next_made) in pairwise(zip(places, row, strict=True)):
        if place + made.after >= next_place - next_made.before:
            raise DesignError(
                f"The slots of the screws at {place:g} and {next_place:g} run into one another: set fewer screws, or"
                " move them apart."
            )
    return row


def bite_today(distance: Value, share: Value, least_bite: Value) -> Value:
    """How far a tongue must reach into its groove today, where the season draws it out: least + x k.

    Args:
        distance: x, from the fixed point to the button's screw, any length unit; number, array or symbol.
        share: k, what the season takes, as a share of the distance, a plain number.
        least_bite: what must stay in the groove, in the unit of the distance.

    Returns:
        The bite in the same unit.

    Source:
        Derived in `teach.derive.derive_slots`.

    Example:
        >>> bite_today(300.0, 0.01, 4.0)
        7.0
    """
    return least_bite + distance * share


@dataclass(frozen=True, eq=False)
class Button:
    """A turn-button that holds a top down, its tongue in a groove of the rail; all in the unit of the distance.

    Args:
        bite: how far the tongue reaches into the groove today.
        bite_damp: the same at the dampest.
        bite_dry: the same at the driest.
        groove_depth: how deep the groove is; the tongue is made as long, so that its shoulder clears the rail.
    """

    bite: Value
    bite_damp: Value
    bite_dry: Value
    groove_depth: Value


def button(
    distance: Value,
    least_bite: Value,
    extra: Value,
    stretch_damp: Value,
    stretch_dry: Value,
    *,
    points_away: bool = True,
) -> Button:
    """Bite and room of a button's tongue, so that it neither leaves its groove nor pushes the rail.

    Args:
        distance: from the top's fixed point to the button's screw, square to the grain, 0 or more, any length
            unit.
        least_bite: what must stay in the groove, above 0, in the same unit.
        extra: what must stay free before the tongue's tip and its shoulder, 0 or more, in the same unit.
        stretch_damp: the top's size at the dampest over its size today, a plain number above 0.
        stretch_dry: the same at the driest, a plain number above 0.
        points_away: True where the tongue points away from the fixed point, so that swelling drives it in;
            False where it points towards it, as at a rail that the top reaches beyond its own fixed edge.

    Returns:
        The button; arrays where an argument is an array.

    Raises:
        DesignError: when a size is out of its range.

    Source:
        Derived in `teach.derive.derive_slots`.

    Example:
        >>> made = button(300.0, 4.0, 1.0, 1.010, 0.995)
        >>> made.bite, made.bite_damp, made.bite_dry, made.groove_depth
        (5.5, 8.5, 4.0, 9.5)
    """
    require_none_or_more(distance_from_the_fixed_point=distance, extra_room=extra)
    require_positive("least bite of the tongue", least_bite)
    narrowest, widest = narrowest_widest(stretch_damp, stretch_dry)
    sign = 1 if points_away else -1
    drawn_out, driven_in = (1 - narrowest, widest - 1)[::sign]
    bite = bite_today(distance, drawn_out, least_bite)
    at_damp, at_dry = (bite + sign * distance * (stretch - 1) for stretch in (stretch_damp, stretch_dry))
    return Button(bite, at_damp, at_dry, bite + distance * driven_in + extra)


def filler_strip(
    opening: Value, below: Value, side_height: Value, least_gap: Value, film: Value, stretch_damp: Value
) -> tuple[Term[Value], ...]:
    """Thickness of the strip over a drawer that lacks a kicker, as the subtraction that gives it.

    At the dampest the least gap is left between the sides and the strip: O - b - h s - 2 f - g.

    Args:
        opening: height of the opening, any length unit.
        below: what the sides stand on inside the opening, 0 or more, in the same unit.
        side_height: of the drawer today, above 0, in the same unit.
        least_gap: what must stay free over the sides, 0 or more, in the same unit.
        film: thickness of the paint on one edge, 0 or more, in the same unit; there are two.
        stretch_damp: the side's height at the dampest over its height today, a plain number above 0.

    Returns:
        The members of the sum, those that are nothing left out; `total` adds them up.

    Raises:
        DesignError: when a size is out of its range, or no room is left for a strip.

    Source:
        Common practice, no source; a side is swollen under its strip in `tests/unit/test_slots.py`.

    Example:
        >>> total(filler_strip(150.0, 0.0, 140.0, 1.0, 0.0, 1.01))
        7.6
    """
    require_positive("height of the drawer's sides", side_height)
    require_none_or_more(below=below, least_gap=least_gap, film=film)
    _, widest = narrowest_widest(stretch_damp, min(stretch_damp, 1.0))
    swelling = side_height * (widest - 1)
    taken = ((below, "below"), (side_height, "side"), (swelling, "swelling"), (2 * film, "paint"), (least_gap, "gap"))
    terms = (Term(opening), *(Term(-size, what) for size, what in taken if size))
    require_positive("room for a strip", total(terms), "the drawer is held down as it is, or needs lower sides")
    return terms
