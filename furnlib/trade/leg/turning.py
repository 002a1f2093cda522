"""A turned leg as a row of elements: its outline, what it encloses, and what its section carries.

x runs along the axis from the first element's start, the leg's top, to its foot; r is the radius. Lines
and single circular arcs are exact. Where a square is left, the section of wood is the circle of the turned
outline cut by that square, and the outline is what is seen square-on to a face. A joint belongs to the
element that starts there.

`square_part`, `shoulder`, `lambs_tongue`, `cylinder`, `fillet`, `tenon`, `taper`, `bead`, `cove` and `ogee`
make the elements; lengths are in any one unit.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise

import numpy as np

from furnlib.base.angles import Value, Vector
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive
from furnlib.trade.leg._outline import (
    Bend,
    Piece,
    bends_of,
    clipped_area,
    clipped_second_moment,
    enclosed,
    radius_of,
    slope_of,
)
from furnlib.trade.leg.elements import CORNERS, NEAR, Element

__all__ = ["Bend", "Profile", "Station", "profile_through"]


@dataclass(frozen=True)
class Station:
    """One mark on a turning's story stick, in the unit of the leg.

    Args:
        distance: from the top end of the leg.
        diameter: of the outline there, in the same unit; of a square its side.
        what: what begins, ends or is at its crown there.
    """

    distance: float
    diameter: float
    what: str


@dataclass(frozen=True, eq=False)
class Profile:
    """A turned leg from top to foot, in the unit of its elements.

    Args:
        elements: in order from the top; those without length add nothing.

    Raises:
        DesignError: when nothing has a length, or a round is larger than the square beside it.

    Example:
        >>> from furnlib.trade.leg.elements import bead, square_part, taper
        >>> leg = Profile((square_part(100.0, 40.0), bead(20.0, 30.0, 30.0, 4.0), taper(300.0, 30.0, 20.0)))
        >>> leg.length, leg.largest_diameter, leg.swing
        (420.0, 38.0, 56.57)
        >>> leg.radius_at(110.0)
        19.0
    """

    elements: tuple[Element, ...]

    def __post_init__(self) -> None:
        solid = [element for element in self.elements if element.length]
        if not solid:
            raise DesignError("A turned leg needs a length; give it at least one element with a length above 0.")
        for one, other in (*pairwise(solid), *pairwise(reversed(solid))):
            if one.shape == "square" and not other.square and other.largest[1] > one.square * (1 + NEAR):
                raise DesignError(
                    f"The {other.shape} beside a square of {one.square:g} is {other.largest[1]:.4g} across; at most"
                    f" {one.square:g} comes out of it: make the square larger or the {other.shape} smaller."
                )

    @cached_property
    def joints(self) -> tuple[float, ...]:
        """Where each element starts along x, and where the last one ends."""
        return tuple(accumulate((element.length for element in self.elements), initial=0.0))

    @property
    def length(self) -> float:
        """From top to foot along the axis."""
        return self.joints[-1]

    @cached_property
    def _placed(self) -> tuple[tuple[float, Element], ...]:
        """Each element that has a length, with where it starts."""
        return tuple((x, element) for x, element in zip(self.joints, self.elements, strict=False) if element.length)

    @cached_property
    def _pieces(self) -> tuple[tuple[float, float, Piece], ...]:
        """Each piece of outline: where it starts, and half the side of the square that cuts it."""
        return tuple(
            (x + number * piece.length, element.half_square, piece)
            for x, element in self._placed
            for number, piece in enumerate(element.pieces)
        )

    @cached_property
    def _table(self) -> tuple[Vector, Vector, Vector]:
        """The same as arrays: starts, half squares, and a row of numbers for each term of the radius."""
        starts, halves, pieces = zip(*self._pieces, strict=True)
        return np.array(starts), np.array(halves), np.array([piece.row for piece in pieces]).T

    def _turned_at(self, x: Value) -> tuple[Value, Value]:
        """Radius of the turned outline and what of it a square's face leaves, at places along the axis."""
        slack = NEAR * self.length
        require_between("place along the leg", x, -slack, self.length + slack, "0 is the top, the length the foot")
        starts, halves, rows = self._table
        places = np.clip(x, 0.0, self.length)
        at = np.searchsorted(starts, places, side="right") - 1
        turned = np.minimum(radius_of(places - starts[at], *rows[:, at]), halves[at] * CORNERS)
        return turned, np.minimum(turned, halves[at])

    def radius_at(self, x: Value) -> Value:
        """Radius of the outline as it is seen square-on to a face: of a square, half the side.

        Args:
            x: from 0 to the length, in its unit; number or array.

        Returns:
            The radius, in the same unit.
        """
        return _plain(self._turned_at(x)[1])

    def diameter_at(self, x: Value) -> Value:
        """Twice the radius: of a square, its side.

        Args:
            x: from 0 to the length, in its unit; number or array.

        Returns:
            The diameter, in the same unit.
        """
        return 2 * self.radius_at(x)

    def section_area(self, x: Value) -> Value:
        """Area of the section of wood: round, square, or a circle cut by a square.

        Args:
            x: from 0 to the length, in its unit; number or array.

        Returns:
            The area, in the unit squared.
        """
        return _plain(clipped_area(*self._turned_at(x)))

    def second_moment(self, x: Value) -> Value:
        """Second moment of area of the section; all axes through its middle have the same.

        Args:
            x: from 0 to the length, in its unit; number or array.

        Returns:
            The second moment, in the unit to the power of 4.
        """
        return _plain(clipped_second_moment(*self._turned_at(x)))

    def section_modulus(self, x: Value) -> Value:
        """Second moment over the distance of the farthest wood, bent about an axis parallel to a face.

        The farthest wood is the face itself wherever the square cuts the circle, as it is on a square: its
        corners are farther from the middle, but not from that axis. pi d³/32 for a round, a³/6 for a square.

        Args:
            x: from 0 to the length, in its unit; number or array.

        Returns:
            The modulus, in the unit cubed.
        """
        turned, seen = self._turned_at(x)
        return _plain(clipped_second_moment(turned, seen) / seen)

    def sample(self, count: int, *also: float) -> Vector:
        """Return places along the leg, close enough together and wherever its thickness changes.

        Args:
            count: how many are spread evenly.
            also: further places, in the unit of the leg.

        Returns:
            Those places, both sides of every joint and every crown, in order from 0 to the length.
        """
        joints, crowns = np.array(self.joints), [place for place, _ in self.crowns]
        before = joints[1:-1] * (1 - NEAR)
        return np.unique(np.concatenate((np.linspace(0.0, self.length, count), joints, before, crowns, also)))

    @cached_property
    def crowns(self) -> tuple[tuple[float, float], ...]:
        """Places (x, diameter) between an element's ends where its outline is largest or thinnest."""
        return tuple((x + along, diameter) for x, element in self._placed for along, diameter in element.crowns)

    @cached_property
    def _largest(self) -> tuple[float, float]:
        rounds = [(x + element.largest[0], element.largest[1]) for x, element in self._placed if not element.square]
        return max(rounds, key=lambda place: place[1], default=(0.0, 0.0))

    @property
    def largest_diameter(self) -> float:
        """Largest diameter of the turned parts with their crowns, squares and their shoulders left out; 0 for none."""
        return self._largest[1]

    @property
    def largest_at(self) -> float:
        """Where along x the turned parts are largest."""
        return self._largest[0]

    @property
    def swing(self) -> float:
        """What must clear the lathe: the largest diameter, or the diagonal of a square where that is more."""
        return max(self.largest_diameter, max(element.square for _, element in self._placed) * CORNERS)

    def least_diameter_between(self, start: float, end: float) -> tuple[float, float]:
        """Find the thinnest place of a stretch, on either side of a step; a square counts by its side.

        Args:
            start: where the stretch begins, from 0 to the length, in its unit.
            end: where it ends, in the same unit.

        Returns:
            The place x and the diameter there.
        """
        found = [(x, self.diameter_at(x)) for x in (start, *(x for x, _ in self.crowns if start < x < end), end)]
        for x, half, piece in self._pieces:
            ends = (x, piece.start), (x + piece.length, piece.end)
            found += [(place, 2 * min(radius, half)) for place, radius in ends if start <= place <= end]
        return min(found, key=lambda place: place[1])

    @cached_property
    def bends(self) -> tuple[Bend, ...]:
        """The upper outline in order, exact, as it is seen square-on to a face; a curve in short straight bends."""
        drawn: list[Bend] = []
        for x, half, piece in self._pieces:
            for bend in bends_of(x, half, piece):
                if drawn and abs(drawn[-1].end[1] - bend.start[1]) > NEAR * self.length:
                    drawn.append(Bend(drawn[-1].end, bend.start))  # a step
                drawn.append(bend)
        return tuple(drawn)

    @cached_property
    def stations(self) -> tuple[Station, ...]:
        """The marks for a stick, from the top end: every joint, both sides of a step, and every crown."""
        told: list[Station] = []
        for x, element in self._placed:
            side = 2 * element.half_square
            start, end = min(element.start_diameter, side), min(element.end_diameter, side)
            if told and abs(told[-1].diameter - start) <= NEAR * start:
                told.pop()
            told.append(Station(x, start, f"{element.shape} begins"))
            told += [Station(x + along, size, f"crown of the {element.shape}") for along, size in element.crowns]
            told.append(Station(x + element.length, end, f"{element.shape} ends"))
        return tuple(told)

    @property
    def end_taper(self) -> float:
        """Change of diameter for each unit of length at the foot, below 0 where it gets thinner; huge if upright."""
        _, half, piece = self._pieces[-1]
        return 0.0 if piece.end > half else 2 * slope_of(piece.length, *piece.row)

    @cached_property
    def _enclosed(self) -> tuple[float, float, float]:
        """Volume, its first moment about the top end, and the surface along the leg."""
        parts = [(x, *enclosed(piece, half)) for x, half, piece in self._pieces]
        return (
            math.fsum(volume for _, volume, _, _ in parts),
            math.fsum(x * volume + moment for x, volume, moment, _ in parts),
            math.fsum(surface for _, _, _, surface in parts),
        )

    @property
    def volume(self) -> float:
        """Volume of the wood, in the unit cubed: lines and arcs by closed formulas, the rest by quadrature."""
        return self._enclosed[0]

    @property
    def centroid(self) -> float:
        """Where along x the centroid of the wood lies."""
        return self._enclosed[1] / self._enclosed[0]

    @property
    def lateral_area(self) -> float:
        """Turned surfaces and square faces; of a shoulder what is left round and its four flats, by quadrature."""
        return self._enclosed[2]

    @property
    def total_area(self) -> float:
        """Lateral area, both end faces, and at each step the difference of the two sections."""
        radii = np.array([(piece.start, piece.end, half) for _, half, piece in self._pieces])
        turned, halves = radii[:, :2], radii[:, 2:]
        sections = clipped_area(turned, np.minimum(turned, halves))
        steps = np.abs(sections[1:, 0] - sections[:-1, 1]).sum()
        return self.lateral_area + float(sections[0, 0] + sections[-1, 1] + steps)

    def mirrored(self) -> Profile:
        """Return the leg with its ends changed over.

        Returns:
            The profile from the foot up.
        """
        return Profile(tuple(element.mirrored() for element in reversed(self.elements)))

    def scaled(self, factor: float) -> Profile:
        """Return the leg grown evenly.

        Args:
            factor: how many times larger, a plain number above 0.

        Returns:
            The profile; its volume is factor³ times as much, its areas factor² times.
        """
        require_positive("factor", factor)
        return Profile(tuple(element.scaled(factor) for element in self.elements))


def profile_through(distances: Sequence[float], diameters: Sequence[float]) -> Profile:
    """Join measured stations by a smooth outline that never swings beyond the two it lies between.

    Args:
        distances: of the stations from the top end, growing, any length unit.
        diameters: at the stations, above 0, in the same unit.

    Returns:
        The profile: one curve from each station to the next, x from the first; slopes at the stations are
        those of scipy's monotone cubic, so diameter and slope run through.

    Raises:
        DesignError: when there are fewer than two stations, or one is out of order, doubled or no size.

    Source:
        The monotone cubic of Fritsch and Butland, as scipy documents its `PchipInterpolator`.

    Example:
        >>> profile_through([0.0, 80.0, 200.0], [30.0, 42.0, 20.0]).largest_diameter
        42.0
    """
    from scipy.interpolate import PchipInterpolator  # noqa: PLC0415

    if len(distances) != len(diameters) or len(distances) < 2:
        raise DesignError(
            f"There are {len(distances)} distances and {len(diameters)} diameters; give one diameter for each distance,"
            " of two stations at least."
        )
    for number, (distance, diameter) in enumerate(zip(distances, diameters, strict=True), 1):
        require_finite(f"distance of station {number}", distance)
        require_positive(f"diameter of station {number}", diameter)
        if number > 1 and distance <= (before := distances[number - 2]):
            raise DesignError(
                f"Station {number} stands at {distance:g} and station {number - 1} at {before:g}; give them from the"
                " top down, each place once."
            )
    along, sizes = np.array(distances, float), np.array(diameters, float)
    slopes = PchipInterpolator(along, sizes / 2).derivative()(along)
    ends = pairwise(np.column_stack([along, sizes, slopes]).tolist())
    return Profile(
        tuple(Element("curve", x1 - x0, d0, d1, outline_slopes=(s0, s1)) for (x0, d0, s0), (x1, d1, s1) in ends)
    )


def _plain(value: Value) -> Value:
    """A number for a number, an array for an array."""
    return value if np.ndim(value) else float(value)
