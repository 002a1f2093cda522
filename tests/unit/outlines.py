"""A turned leg's outline by its shapes, worked from the design file alone: the witness for profiles.

Arcs are circles through three points, a lamb's tongue two of them that start along the axis, measured
stations scipy's monotone cubic. Sections, volumes and frequencies are numerical sums over the outline.
"""

from __future__ import annotations

import math
from itertools import accumulate

import numpy as np
from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator

NEAR = 1e-9


def _arc(start, end, off):
    """Height over x of a circle through two points whose middle stands so far off their chord."""
    (x0, r0), (x1, r1) = start, end
    chord = math.hypot(x1 - x0, r1 - r0)
    radius = (chord * chord / 4 + off * off) / (2 * abs(off))
    out = (off - math.copysign(radius, off)) / chord
    cx, cy = (x0 + x1) / 2 - (r1 - r0) * out, (r0 + r1) / 2 + (x1 - x0) * out
    return lambda x: cy + math.copysign(math.sqrt(max(radius**2 - (x - cx) ** 2, 0.0)), off)


def _halves(first, second, middle):
    return lambda x: first(x) if x < middle else second(x)


def _ogee(start, end, off):
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    return _halves(_arc(start, middle, off), _arc(middle, end, -off), middle[0])


def _tongue(start, end):
    (x0, r0), (x1, r1) = start, end
    radius = ((x1 - x0) ** 2 + (r0 - r1) ** 2) / 4 / (r0 - r1)
    return _halves(
        lambda x: r0 - radius + math.sqrt(radius**2 - (x - x0) ** 2),
        lambda x: r1 + radius - math.sqrt(radius**2 - (x1 - x) ** 2),
        (x0 + x1) / 2,
    )


class Outline:
    """One leg of a piece, from its top end to the floor.

    `radius` is that of the turned outline, the circle through the corners in a square; `half` is half the
    side of the square that cuts it, or infinite.
    """

    def __init__(self, piece, leg):
        legs = piece.design.legs
        through = float(leg.drilling.length_in_seat) if leg.drilling else 0.0
        self.square = float(legs.square or 0)
        self.top = through
        self.length = leg.axis_length + through
        self.pieces = []
        if legs.stations:
            along, across = (np.array([*map(float, values)]) for values in (legs.stations, legs.stations.values()))
            self.pieces = [(0.0, self.length, PchipInterpolator(along, across / 2), math.inf, "curve")]
            return
        if legs.round:
            largest, foot, tenon = (float(size) for size in (legs.round.largest, legs.round.foot, legs.round.tenon))
            shapes = [("tenon", through, tenon, tenon, 0.0)] if through else []
            shapes.append(("taper", leg.axis_length, largest, foot, 0.0))
        else:
            shapes = [*self._of_profile(legs.profile, through, leg.axis_length)]
        joints = accumulate((length for _, length, *_ in shapes), initial=0.0)
        for first, (shape, length, start, end, off) in zip(joints, shapes, strict=False):
            a, b = (first, start / 2), (first + length, end / 2)
            curve = {
                "bead": lambda a=a, b=b, off=off: _arc(a, b, off),
                "cove": lambda a=a, b=b, off=off: _arc(a, b, -off),
                "ogee": lambda a=a, b=b, off=off: _ogee(a, b, off),
                "lamb's tongue": lambda a=a, b=b: _tongue(a, b),
            }.get(shape, lambda a=a, b=b: lambda x: a[1] + (x - a[0]) / ((b[0] - a[0]) or 1) * (b[1] - a[1]))()
            half = self.square / 2 if shape in ("square", "shoulder", "lamb's tongue") else math.inf
            self.pieces.append((first, first + length, curve, half, shape))

    def _of_profile(self, parts, through, axis):
        lengths = [None if part.length is None else float(part.length) for part in parts]
        if through and lengths[0] is None:
            lengths[0] = through
        self.top = lengths[0] if through else 0.0
        self.length = axis + self.top
        rest = self.length - sum(length or 0.0 for length in lengths)
        across = 0.0
        for part, length in zip(parts, lengths, strict=True):
            corners = self.square * math.sqrt(2)
            start = float(part.diameter or across)
            if part.shape in ("square", "shoulder", "lamb's tongue"):
                start = corners
            end = start if part.to is None else float(part.to)
            yield part.shape, rest if length is None else length, start, end, float(part.rise or part.depth or 0)
            across = end

    def piece_at(self, x):
        return next(piece for piece in reversed(self.pieces) if piece[0] <= x + NEAR and piece[1] > piece[0])

    def section(self, x, above=False):
        """Radius of the circle and half the square that cuts it; just above a joint, or just below it."""
        _, _, curve, half, _ = self.piece_at(x - 3 * NEAR if above else x)
        return float(curve(x)), half

    def seen(self, x, above=False):
        """Half of what is seen square-on to a face."""
        return min(self.section(x, above))

    def area(self, x):
        r, h = self.section(x)
        if r <= h:
            return math.pi * r * r
        if r >= h * math.sqrt(2) - NEAR:
            return 4 * h * h
        return math.pi * r * r - 4 * (r * r * math.acos(h / r) - h * math.sqrt(r * r - h * h))

    def second_moment(self, x, above=False):
        r, h = self.section(x, above)
        if r <= h:
            return math.pi * r**4 / 4
        if r >= h * math.sqrt(2) - NEAR:
            return (2 * h) ** 4 / 12
        y = np.linspace(-h, h, 4001)
        return float(np.trapezoid(y * y * 2 * np.minimum(h, np.sqrt(r * r - y * y)), y))

    def modulus(self, x, above=False):
        return self.second_moment(x, above) / self.seen(x, above)

    @property
    def volume(self):
        return sum(quad(self.area, start, end, limit=200)[0] for start, end, *_ in self.pieces if end > start)

    @property
    def largest(self):
        """Of the turned parts, found by looking closely."""
        return 2 * max(
            max(map(curve, np.linspace(start, end, 2001)))
            for start, end, curve, half, _ in self.pieces
            if end > start and half == math.inf
        )

    def places(self, count, first=0.0, last=None):
        """Evenly spread, with both sides of every joint."""
        last = self.length if last is None else last
        ends = [x for start, end, *_ in self.pieces for x in (start, end - 2 * NEAR) if first <= x <= last]
        return sorted([*np.linspace(first, last, count).tolist(), *ends])

    def whirling_rpm(self, stiffness, density, count=300):
        """First frequency between two pins: greatest eigenvalue of the sag that each slice's own weight gives.

        Lengths in mm, stiffness in MPa, density in kg per cubic metre. A unit load at one place bends the
        leg by a triangle of moments; two such triangles over the stiffness, summed, are the sag at the one
        for a load at the other.
        """
        step = self.length / count
        x = (np.arange(count) + 0.5) * step
        fine = 8
        u = (np.arange(count * fine) + 0.5) * step / fine
        moments = np.minimum.outer(x, u) - np.outer(x, u) / self.length  # N mm for 1 N
        stiff = stiffness * np.array([self.second_moment(place) for place in u.tolist()])
        sag = moments / stiff @ moments.T * step / fine  # mm for 1 N
        mass = density * 1e-12 * np.array([self.area(place) for place in x.tolist()]) * step  # tonnes
        root = np.sqrt(mass)
        slowest = np.linalg.eigvalsh(sag * np.outer(root, root))[-1]
        return 60 / (2 * math.pi) / math.sqrt(slowest)
