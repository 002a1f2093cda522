"""The outline of a turned element in pieces with one formula each, and what they enclose when turned.

The closed formulas below take numbers, arrays or symbols; `teach.derive.derive_turning` proves them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from furnlib.base.angles import Value, asind, atand, cosd, deg, sind, square_root

_TINY = 1e-300
"""Keeps 0/0 at the end of a half-round bead at 0."""
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)
_UNIT = (_NODES + 1) / 2
_EASED, _EASED_WEIGHTS = _UNIT * _UNIT * (3 - 2 * _UNIT), 3 * _UNIT * (1 - _UNIT) * _WEIGHTS
"""Gauss-Legendre on 0..1 with the places eased towards both ends, where a square begins to cut a circle and
the integrand has a root: it is smooth in the eased place. On a cubic's r² x (degree 7, eased 23) it is exact."""
_CURVE_BENDS = 24
_SHALLOW_DEG = 1.0
"""The closed forms of a flatter arc are small differences of large numbers; it goes to the quadrature."""


def radius_of(
    along: Value,
    start: Value,
    first: Value,
    second: Value,
    third: Value,
    sign: Value,
    middle: Value,
    reach2: Value,
    base: Value,
) -> Value:
    """Radius of a piece at a distance from its start; numbers or arrays, in the order of `Piece.row`.

    r = r0 + t (c1 + t (c2 + t c3)) + s t (2 m - t) / (sqrt(R² - (t - m)²) + base). The last term is the
    circle's height less its height at t = 0, so written that a very flat arc loses no digits.
    """
    upright = square_root(abs(reach2 - (along - middle) ** 2))  # below 0 by rounding only, at an upright end
    bow = sign * along * (2 * middle - along) / (upright + base + _TINY)
    return start + along * (first + along * (second + along * third)) + bow


def slope_of(
    along: Value,
    start: Value,
    first: Value,
    second: Value,
    third: Value,
    sign: Value,
    middle: Value,
    reach2: Value,
    base: Value,
) -> Value:
    """Slope dr/dx of a piece at a distance from its start, as `radius_of`; very large where it is upright."""
    upright = square_root(abs(reach2 - (along - middle) ** 2))
    return first + along * (2 * second + along * 3 * third) - sign * (along - middle) / (upright + _TINY)


class Piece(NamedTuple):
    """A stretch of outline: a line, one circular arc or a cubic, all lengths in one unit.

    Args:
        length: along the axis, above 0.
        start: radius at the start.
        end: radius at the end.
        rise: how far the arc's middle stands off the chord, 0 or more; 0 for a line or a cubic.
        sign: 1 where an arc bows away from the axis, -1 towards it, 0 for none.
        middle: where along the axis the circle's centre stands, from the start.
        reach: radius of the circle.
        base: how far the circle's start stands from its centre, square to the axis.
        powers: c1, c2, c3 of a line or a cubic.
    """

    length: float
    start: float
    end: float
    rise: float = 0.0
    sign: float = 0.0
    middle: float = 0.0
    reach: float = math.inf
    base: float = 1.0
    powers: tuple[float, float, float] = (0.0, 0.0, 0.0)

    @property
    def row(self) -> tuple[float, ...]:
        """The numbers that `radius_of` needs, in its order."""
        return (self.start, *self.powers, self.sign, self.middle, self.reach**2, self.base)

    @property
    def turns(self) -> tuple[float, ...]:
        """Where between its ends the radius turns from growing to shrinking or back, along from the start."""
        first, second, third = self.powers
        if self.sign:
            found = [self.middle]
        elif third:
            under = second * second - 3 * third * first
            found = [(side * math.sqrt(under) - second) / (3 * third) for side in (-1, 1)] if under > 0 else []
        else:
            found = [-first / (2 * second)] if second else []
        return self._between(found)

    def reaches(self, radius: float) -> tuple[float, ...]:
        """Where between its ends a line or an arc has a radius, along from the start."""
        if self.sign:
            under = self.reach**2 - (radius - self.start + self.sign * self.base) ** 2
            return self._between([self.middle + side * math.sqrt(under) for side in (-1, 1)] if under > 0 else [])
        return self._between([(radius - self.start) / self.powers[0]] if self.powers[0] else [])

    def _between(self, places: list[float]) -> tuple[float, ...]:
        near = 1e-9 * self.length
        return tuple(sorted(place for place in places if near < place < self.length - near))

    def bulge(self, one: tuple[float, float], other: tuple[float, float]) -> float:
        """Tangent of a quarter of the angle that a part of the arc includes, between two (along, radius) of it."""
        half = math.dist(one, other) / 2 / self.reach
        return self.sign * half / (1 + math.sqrt(max(1 - half * half, 0.0)))


def most_rise(length: float, start: float, end: float) -> float:
    """How far an arc may rise before its steeper end passes upright: c/2 tan((90 - f)/2), f the chord's slope."""
    climb = abs(end - start)
    chord = math.hypot(length, climb)
    return chord / 2 * length / (chord + climb)


def arc(length: float, start: float, end: float, rise: float) -> Piece:
    """Join two radii by an arc whose middle stands `rise` off the chord, above 0 away from the axis; by a line at 0."""
    if not rise:
        return Piece(length, start, end, powers=((end - start) / length, 0.0, 0.0))
    sign, height, chord = math.copysign(1.0, rise), abs(rise), math.hypot(length, end - start)
    reach = (chord * chord / 4 + height * height) / (2 * height)
    back = reach - height  # from the chord's middle to the centre
    middle = length / 2 + sign * back * (end - start) / chord
    base = max(sign * (start - end) / 2 + back * length / chord, 0.0)
    return Piece(length, start, end, height, sign, middle, reach, base)


def cubic(length: float, start: float, end: float, slopes: tuple[float, float]) -> Piece:
    """Join two radii by a cubic with given slopes dr/dx at its ends."""
    chord = (end - start) / length
    second = (3 * chord - 2 * slopes[0] - slopes[1]) / length
    third = (slopes[0] + slopes[1] - 2 * chord) / length**2
    return Piece(length, start, end, powers=(slopes[0], second, third))


@dataclass(frozen=True)
class Bend:
    """One stretch of the outline, a line or an arc, in the unit of the leg.

    Args:
        start: x and radius where it begins.
        end: x and radius where it ends.
        bulge: tangent of a quarter of the arc's included angle, above 0 where it bows away from the axis,
            below 0 towards it, 0 for a line.
    """

    start: tuple[float, float]
    end: tuple[float, float]
    bulge: float = 0.0


def bends_of(x: float, half: float, piece: Piece) -> Iterator[Bend]:
    """Draw one piece as it is seen: the face where a square cuts it, and a cubic in short lines."""
    curved = any(piece.powers[1:])
    places = [0.0, *(piece.reaches(half) if half < math.inf else ()), piece.length]
    if curved:
        places = np.linspace(0.0, piece.length, _CURVE_BENDS + 1).tolist()
    radii = [piece.start, *(radius_of(along, *piece.row) for along in places[1:-1]), piece.end]
    for (one, start), (other, end) in pairwise(zip(places, radii, strict=True)):
        straight = curved or radius_of((one + other) / 2, *piece.row) > half  # a cubic's chord, or the square's face
        bulge = 0.0 if straight else piece.bulge((one, start), (other, end))
        yield Bend((x + one, min(start, half)), (x + other, min(end, half)), bulge)


def line_solid(length: Value, start: Value, end: Value) -> tuple[Value, Value, Value]:
    """Volume of a straight piece turned about the axis, its first moment about its start, and its surface.

    pi L/3 (a² + ab + b²); pi L²/12 (a² + 2ab + 3b²); pi (a + b) times the chord.

    Args:
        length: along the axis, any length unit; number, array or symbol.
        start: radius at the start, in the same unit.
        end: radius at the end, in the same unit.

    Source:
        Derived in `teach.derive.derive_turning`.
    """
    chord = square_root(length * length + (end - start) * (end - start))
    return (
        deg(60 * length * (start * start + start * end + end * end)),
        deg(15 * length * length * (start * start + 2 * start * end + 3 * end * end)),
        deg(180 * chord * (start + end)),
    )


def arc_solid(
    chord: Value, half_angle_deg: Value, mean: Value, cos_slope: Value, sin_slope: Value, sign: Value
) -> tuple[Value, Value, Value]:
    """The same of an arc: the frustum below its chord, and the circular segment on it by the way of its centroid.

    In the segment's own frame, u along the chord from its middle and v square to it, its area is
    R² (q - sin q cos q), v adds up to c³/12 - area R cos q, and u v to 0; x = L/2 + u cos f - v sin f and
    r = mean + u sin f + v cos f. The surface is the arc's length by the way of its centroid.

    Args:
        chord: from end to end of the arc, any length unit; number, array or symbol.
        half_angle_deg: half the angle that the arc includes, degrees between 0 and 90.
        mean: radius at the chord's middle, in the same unit.
        cos_slope: cosine of the chord's slope to the axis.
        sin_slope: sine of that slope, above 0 where the radius grows.
        sign: 1 where the arc bows away from the axis, -1 towards it.

    Source:
        Pappus; derived in `teach.derive.derive_turning`.
    """
    sine, cosine, half = sind(half_angle_deg), cosd(half_angle_deg), deg(half_angle_deg)
    reach, length, climb = chord / (2 * sine), chord * cos_slope, chord * sin_slope
    low = reach * cosine  # from the centre to the chord
    area = reach * reach * (half - sine * cosine)
    across = chord**3 / 12 - area * low
    squares_along = reach**4 / 12 * (3 * half - 3 * sine * cosine - 2 * sine**3 * cosine)
    squares_across = reach**4 / 4 * (half - sine * cosine + 2 * sine**3 * cosine) - chord**3 / 6 * low + area * low**2
    products = (
        sign * mean * length / 2 * area
        + across * (length / 2 * cos_slope - mean * sin_slope)
        + sign * sin_slope * cos_slope * (squares_along - squares_across)
    )
    volume, moment, _ = line_solid(length, mean - climb / 2, mean + climb / 2)
    return (
        volume + deg(360 * (sign * mean * area + cos_slope * across)),
        moment + deg(360 * products),
        deg(720 * reach * (mean * half + sign * cos_slope * (reach * sine - low * half))),
    )


def clipped_area(radius: Value, half_side: Value) -> Value:
    """Area of a circle cut by a square, the circle between the square's faces and its corners."""
    flat = square_root(radius * radius - half_side * half_side)
    return deg(180 * radius * radius - 4 * radius * radius * asind(flat / radius)) + 4 * half_side * flat


def clipped_second_moment(radius: Value, half_side: Value) -> Value:
    """Second moment of area of a circle cut by a square, about an axis through its middle."""
    flat = square_root(radius * radius - half_side * half_side)
    round_part = deg(45 * radius**4 - radius**4 * asind(flat / radius))
    return round_part + half_side * flat * (radius * radius - 2 * flat * flat / 3)


def enclosed(piece: Piece, half: float) -> tuple[float, float, float]:
    """Volume of a turned piece, its first moment about the piece's start, and its surface along the leg.

    Lines and arcs by closed formulas; cubics, very flat arcs and what a square of half side `half` cuts by
    quadrature.
    """
    length, start, end, rise, sign = piece[:5]
    if start == end > half:  # left square
        return 4 * half * half * length, 2 * half * half * length * length, 8 * half * length
    chord = math.hypot(length, end - start)
    half_angle = 2 * atand(2 * rise / chord)
    if max(start, end) > half or any(piece.powers[1:]) or (sign and half_angle < _SHALLOW_DEG):
        return _by_quadrature(piece, half)
    if sign:
        return arc_solid(chord, half_angle, (start + end) / 2, length / chord, (end - start) / chord, sign)
    return line_solid(length, start, end)


def _by_quadrature(piece: Piece, half: float) -> tuple[float, float, float]:
    """The same by quadrature, from where the square begins to cut to where it leaves nothing round.

    The surface is what is left round, turned, and the four flats, which lie in the square's faces.
    """
    corner = half * math.sqrt(2)
    cuts = {*piece.reaches(half), *piece.reaches(corner)} if half < math.inf else ()
    totals = np.zeros(3)
    for one, other in pairwise((0.0, *sorted(cuts), piece.length)):
        along, weights = one + (other - one) * _EASED, (other - one) * _EASED_WEIGHTS
        radius = np.minimum(radius_of(along, *piece.row), corner)
        face = np.minimum(radius, half)
        flat, area = np.sqrt(radius * radius - face * face), clipped_area(radius, face)
        stretch = np.sqrt(1 + slope_of(along, *piece.row) ** 2)
        turned = deg(360 * radius - 8 * radius * asind(flat / radius)) * stretch
        totals += area @ weights, (area * along) @ weights, (turned + 8 * flat) @ weights
    volume, moment, surface = totals.tolist()
    return volume, moment, surface
