"""What a picture is made of: strokes, arcs, contours, fills, texts and dimensions.

Line kinds are named here and styled in the style sheet; letters, line widths and the distance of
a dimension from what it measures are in mm on paper.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from furnlib.base.angles import asind, atan2d, atand, cosd, sind
from furnlib.base.guards import DesignError

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points.

    Args:
        points: at least two, in the drawing's unit.
        kind: a line kind of the style sheet.
        closed: True to come back to the first point.
    """

    points: tuple[Point, ...]
    kind: str = "visible"
    closed: bool = False


@lru_cache(64)  # the same few circles are drawn on every move of a slider
def _ways(start_deg: float, turn_deg: float, steps: int) -> tuple[Point, ...]:
    """Points of a circle of radius 1, so many steps from one place on."""
    angles = [start_deg + turn_deg * i for i in range(steps + 1)]
    return tuple((cosd(angle), sind(angle)) for angle in angles)


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, or all of it (0 to 360).

    Args:
        centre: in the drawing's unit.
        radius: in the drawing's unit.
        start_deg: from the x direction, counter-clockwise.
        end_deg: above the start.
        kind: a line kind of the style sheet.
    """

    centre: Point
    radius: float
    start_deg: float = 0.0
    end_deg: float = 360.0
    kind: str = "visible"

    def points(self, step_deg: float = 3.0) -> tuple[Point, ...]:
        """Points along the arc, close enough for any outlet without arcs of its own.

        Args:
            step_deg: the most from one point to the next, in degrees, above 0.

        Returns:
            At least three points from start to end, in the drawing's unit.

        Example:
            >>> Arc((0.0, 0.0), 10.0, 0.0, 180.0).points(90.0)
            ((10.0, 0.0), (0.0, 10.0), (-10.0, 0.0))
        """
        steps = max(2, math.ceil((self.end_deg - self.start_deg) / step_deg))
        turn = (self.end_deg - self.start_deg) / steps
        x, y = self.centre
        return tuple((x + self.radius * c, y + self.radius * s) for c, s in _ways(self.start_deg, turn, steps))

    def flattened(self, allowed: float) -> Stroke:
        """The same arc by straight lines.

        Args:
            allowed: the most that a line may stray from the arc, in the drawing's unit, above 0.

        Returns:
            A line through points of the arc, at most 15 degrees apart.

        Example:
            >>> len(Arc((0.0, 0.0), 10.0, 0.0, 90.0).flattened(0.1).points)
            7
        """
        step_deg = 4 * asind(min(1.0, math.sqrt(allowed / (2 * self.radius))))
        return Stroke(self.points(min(15.0, step_deg)), self.kind)


@dataclass(frozen=True, slots=True)
class Contour:
    """An outline of straight lines and true circular arcs, each told by its bulge.

    A stretch's bulge is the tangent of a quarter of the angle that its arc turns through: 0 straight,
    1 half a circle, above 0 counter-clockwise, bowed to the right of the way from point to point.

    Args:
        points: at least two, in the drawing's unit.
        bulges: one for each stretch from a point to the next; where closed, one more for the way back.
        kind: a line kind of the style sheet.
        closed: True to come back to the first point.

    Raises:
        DesignError: when there are more or fewer bulges than stretches.

    Example:
        >>> Contour(((0.0, 0.0), (10.0, 0.0), (10.0, 20.0)), (0.0, 1.0)).arcs()[1].centre
        (10.0, 10.0)
    """

    points: tuple[Point, ...]
    bulges: tuple[float, ...]
    kind: str = "visible"
    closed: bool = False

    def __post_init__(self) -> None:
        stretches = len(self.points) - (not self.closed)
        if len(self.bulges) != stretches:
            raise DesignError(
                f"{len(self.bulges)} bulges are given for {len(self.points)} points; give {stretches}, one for each"
                " stretch."
            )

    def arcs(self) -> tuple[Arc | None, ...]:
        """The circle that each stretch follows, None where it is straight.

        Returns:
            One for each stretch; where its bulge is below 0 the stretch runs from the arc's end to its start.
        """
        ends = (*self.points[1:], self.points[0])
        return tuple(
            _bow(start, end, bulge, self.kind) if bulge else None
            for start, end, bulge in zip(self.points, ends, self.bulges, strict=False)
        )

    def flattened(self, allowed: float) -> Stroke:
        """The same outline by straight lines alone.

        Args:
            allowed: the most that a line may stray from its arc, in the drawing's unit, above 0.

        Returns:
            A line through the points of the contour, and through others on its arcs.

        Example:
            >>> len(Contour(((0.0, 0.0), (10.0, 0.0)), (1.0,)).flattened(0.1).points)
            13
        """
        through = [self.points[0]]
        ends = (*self.points[1:], self.points[0])
        for start, end, bulge, arc in zip(self.points, ends, self.bulges, self.arcs(), strict=False):
            if arc and abs(bulge) * math.dist(start, end) / 2 > allowed:
                through += arc.flattened(allowed).points[1:-1][:: 1 if bulge > 0 else -1]
            through.append(end)
        return Stroke(tuple(through[:-1] if self.closed else through), self.kind, self.closed)


def _bow(start: Point, end: Point, bulge: float, kind: str) -> Arc:
    """The arc between two points; its centre lies beside the middle of the chord."""
    (x0, y0), (x1, y1) = start, end
    over = (1 - bulge * bulge) / (4 * bulge)
    centre = ((x0 + x1) / 2 - over * (y1 - y0), (y0 + y1) / 2 + over * (x1 - x0))
    first = start if bulge > 0 else end
    start_deg = atan2d(first[1] - centre[1], first[0] - centre[0])
    radius = math.dist(start, end) * (1 + bulge * bulge) / (4 * abs(bulge))
    return Arc(centre, radius, start_deg, start_deg + 4 * atand(abs(bulge)), kind)


@dataclass(frozen=True, slots=True)
class Fill:
    """A filled outline without a line round it.

    Args:
        points: the corners in turn, in the drawing's unit.
        tint: a tint of the style sheet.
        hatch: True to draw slanted hatching in it as well.
    """

    points: tuple[Point, ...]
    tint: str = "wood"
    hatch: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """One line of words, its foot line at a point.

    Args:
        at: in the drawing's unit.
        words: what it says.
        size: a type size of the style sheet.
        anchor: which end stands at the point: "start", "middle" or "end".
        turn_deg: counter-clockwise.
        bold: True for master sizes and headings.
        ink: a tint of the style sheet.
        clear: True to keep lines behind it off the letters.
    """

    at: Point
    words: str
    size: str = "body"
    anchor: str = "start"
    turn_deg: float = 0.0
    bold: bool = False
    ink: str = "ink"
    clear: bool = False


@dataclass(frozen=True, slots=True)
class Dimension:
    """A distance between two points, measured along a line beside them.

    Args:
        start: in the drawing's unit.
        end: in the drawing's unit.
        offset_mm: how far beside, in mm on paper; above 0 to the left, seen from start to end.
        words: the size as it is written.
        bold: True for a master size.
    """

    start: Point
    end: Point
    offset_mm: float
    words: str
    bold: bool = False


@dataclass(frozen=True, slots=True)
class AngleDimension:
    """An angle between two directions, shown as an arc with its size.

    Args:
        centre: in the drawing's unit.
        radius_mm: of the arc, in mm on paper.
        start_deg: first direction, counter-clockwise from x.
        end_deg: second direction, above the first.
        words: the angle as it is written.
    """

    centre: Point
    radius_mm: float
    start_deg: float
    end_deg: float
    words: str


Item = Stroke | Arc | Contour | Fill | Text | Dimension | AngleDimension
Mark = Stroke | Arc | Fill | Text
