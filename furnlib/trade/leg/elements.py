"""One element of a turned leg, and what makes each: squares and their shoulders, rounds, beads, coves, ogees."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, get_args

from furnlib.base.guards import DesignError, require_finite, require_positive, with_article
from furnlib.trade.leg._outline import Piece, arc, cubic, most_rise, radius_of

Shape = Literal[
    "square", "shoulder", "lamb's tongue", "cylinder", "fillet", "tenon", "taper", "bead", "cove", "ogee", "curve"
]
SHAPES: tuple[Shape, ...] = get_args(Shape)
CORNERS = math.sqrt(2)
NEAR = 1e-9
"""How much of a length is left to rounding."""
_TWICE = ("ogee", "lamb's tongue")


@dataclass(frozen=True)
class Element:
    """One part of a turned outline; the functions of this module make it.

    Args:
        shape: one of `SHAPES`.
        length: along the axis, 0 or more, any length unit; an element of length 0 adds nothing.
        start_diameter: of the turned outline where it starts, in the same unit; of a square its swing.
        end_diameter: of the turned outline where it ends, in the same unit.
        rise: how far an arc's middle stands off its chord, in the same unit: of a bead away from the axis,
            of a cove towards it, of an ogee that of its first half, above 0 where the bead comes first.
        square: side of the square that is left round a square, shoulder or lamb's tongue, in the same unit; 0
            elsewhere.
        outline_slopes: of a curve only, the slopes dr/dx at its two ends, plain numbers.

    Raises:
        DesignError: when a size is not above 0, an arc overhangs, or the outline cuts through.

    Example:
        >>> Element("bead", 10, 30, 30, rise=6)
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: A bead 10 long between 30 and 30 may rise at most 5, not 6: give it
        less rise or more length.
    """

    shape: Shape
    length: float
    start_diameter: float
    end_diameter: float
    rise: float = 0.0
    square: float = 0.0
    outline_slopes: tuple[float, float] = (0.0, 0.0)

    def __post_init__(self) -> None:
        require_finite(f"length of the {self.shape}", self.length)
        if self.length < 0:
            raise DesignError(
                f"The length of the {self.shape} is {self.length:g}; it must be 0 or more: give a length."
            )
        for end, diameter in (("start", self.start_diameter), ("end", self.end_diameter)):
            require_positive(f"{end} diameter of the {self.shape}", diameter)
        for name, size in zip(("rise", "start slope", "end slope"), (self.rise, *self.outline_slopes), strict=True):
            require_finite(f"{name} of the {self.shape}", size)
        thin = min(self.start_diameter, self.end_diameter)
        if self.shape != "square" and 0 < self.square * (1 + NEAR) < thin:
            raise DesignError(
                f"{with_article(self.shape)} cannot end {thin:g} across on a square of {self.square:g}: a round of at"
                f" most {self.square:g} comes out of it."
            )
        if not self.length:
            return
        between = f"{self.length:g} long between {self.start_diameter:g} and {self.end_diameter:g}"
        allowed = most_rise(self.length, self.start_diameter / 2, self.end_diameter / 2)
        allowed /= 2 if self.shape in _TWICE else 1
        if abs(self.rise) > allowed * (1 + NEAR):
            can, name = ("be at most {} deep", "depth") if self.shape == "cove" else ("rise at most {}", "rise")
            raise DesignError(
                f"{with_article(self.shape)} {between} may {can.format(f'{allowed:.4g}')}, not {abs(self.rise):.4g}:"
                f" give it less {name} or more length."
            )
        thinnest = min((diameter for _, diameter in self.crowns), default=thin)
        if thinnest <= NEAR * thin:
            raise DesignError(f"{with_article(self.shape)} {between} cuts through the leg: keep it shallower.")

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """The outline in pieces with one formula each: two for an ogee, none where there is no length."""
        length, start, end = self.length, self.start_diameter / 2, self.end_diameter / 2
        if not length:
            return ()
        if self.shape == "curve":
            return (cubic(length, start, end, self.outline_slopes),)
        if self.shape in _TWICE:
            half = (start + end) / 2
            return arc(length / 2, start, half, self.rise), arc(length / 2, half, end, -self.rise)
        return (arc(length, start, end, -self.rise if self.shape == "cove" else self.rise),)

    @cached_property
    def crowns(self) -> tuple[tuple[float, float], ...]:
        """Where along it, and with what diameter, the outline is largest or thinnest between its ends."""
        found, along = [], 0.0
        for piece in self.pieces:
            found += [(along + turn, 2 * radius_of(turn, *piece.row)) for turn in piece.turns]
            along += piece.length
        return tuple(found)

    @property
    def largest(self) -> tuple[float, float]:
        """Where along it the turned outline is largest, and its diameter there."""
        ends = ((0.0, self.start_diameter), *self.crowns, (self.length, self.end_diameter))
        return max(ends, key=lambda place: place[1])

    @property
    def half_square(self) -> float:
        """Half the side of the square that is left, in the unit of length; infinite where none is."""
        return self.square / 2 or math.inf

    def mirrored(self) -> Element:
        """Return the element with its ends changed over.

        Returns:
            The element; what was at its start is at its end.
        """
        rise = -self.rise if self.shape in _TWICE else self.rise
        first, last = self.outline_slopes
        return Element(
            self.shape, self.length, self.end_diameter, self.start_diameter, rise, self.square, (-last, -first)
        )

    def scaled(self, factor: float) -> Element:
        """Return the element grown evenly; slopes stay.

        Args:
            factor: how many times larger, a plain number above 0.

        Returns:
            The element.
        """
        length, start, end = factor * self.length, factor * self.start_diameter, factor * self.end_diameter
        return Element(self.shape, length, start, end, factor * self.rise, factor * self.square, self.outline_slopes)


def square_part(length: float, square: float) -> Element:
    """A part that is left square.

    Args:
        length: along the axis, 0 or more, any length unit.
        square: its side, in the same unit.

    Returns:
        The element.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> square_part(120.0, 40.0).start_diameter
        56.57
    """
    return _on_square("square", length, square, square * CORNERS)


def shoulder(square: float, end_diameter: float, length: float = 0.0) -> Element:
    """A straight cut from a square's corners down to a round; square to the axis where it has no length.

    Args:
        square: side of the square, any length unit.
        end_diameter: of the round, at most the side, in the same unit.
        length: along the axis, 0 or more, in the same unit.

    Returns:
        The element.

    Raises:
        DesignError: when the round does not come out of the square.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> shoulder(40.0, 30.0, 10.0).end_diameter
        30.0
    """
    return _on_square("shoulder", length, square, end_diameter)


def lambs_tongue(length: float, square: float, end_diameter: float) -> Element:
    """An ogee from a square's corners down to a round, parallel to the axis at both its ends.

    Half of it falls f/2 in L/2, and an arc that starts along the axis rises c/2 tan(q/2) off its chord c,
    where tan q = f/L; in the middle the two arcs run down at twice q.

    Args:
        length: along the axis, any length unit; at least as long as it falls, or it would overhang.
        square: side of the square, in the same unit.
        end_diameter: of the round, at most the side, in the same unit.

    Returns:
        The element.

    Raises:
        DesignError: when it is too short, or the round does not come out of the square.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> lambs_tongue(30.0, 40.0, 30.0).rise
        1.735
    """
    require_positive("length of the lamb's tongue", length)
    require_finite("side of the square", square)
    require_positive("end diameter of the lamb's tongue", end_diameter)
    fall = (square * CORNERS - end_diameter) / 2
    if fall > length * (1 + NEAR):
        raise DesignError(
            f"A lamb's tongue falls {fall:.4g} from the corners of a square of {square:g} to {end_diameter:g}, and"
            f" is {length:g} long; make it at least as long as it falls."
        )
    chord = math.hypot(length, fall)
    return _on_square("lamb's tongue", length, square, end_diameter, chord / 4 * fall / (chord + length))


def _on_square(shape: Shape, length: float, square: float, end_diameter: float, rise: float = 0.0) -> Element:
    require_positive("side of the square", square)
    return Element(shape, length, square * CORNERS, end_diameter, rise, square)


def cylinder(length: float, diameter: float) -> Element:
    """A round that keeps its diameter.

    Args:
        length: along the axis, 0 or more, any length unit.
        diameter: in the same unit, above 0.

    Returns:
        The element.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> cylinder(60.0, 30.0).shape
        'cylinder'
    """
    return Element("cylinder", length, diameter, diameter)


def fillet(length: float, diameter: float) -> Element:
    """A narrow flat band that sets off the shape beside it.

    Args:
        length: along the axis, 0 or more, any length unit.
        diameter: in the same unit, above 0.

    Returns:
        The element.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> fillet(4.0, 28.0).end_diameter
        28.0
    """
    return Element("fillet", length, diameter, diameter)


def tenon(length: float, diameter: float) -> Element:
    """The round end that goes into a mortise.

    Args:
        length: along the axis, 0 or more, any length unit.
        diameter: in the same unit, above 0.

    Returns:
        The element.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> tenon(30.0, 25.0).end_diameter
        25.0
    """
    return Element("tenon", length, diameter, diameter)


def taper(length: float, start_diameter: float, end_diameter: float) -> Element:
    """A straight cone.

    Args:
        length: along the axis, 0 or more, any length unit.
        start_diameter: above 0, in the same unit.
        end_diameter: above 0, in the same unit.

    Returns:
        The element.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> taper(200.0, 30.0, 20.0).end_diameter
        20.0
    """
    return Element("taper", length, start_diameter, end_diameter)


def bead(length: float, start_diameter: float, end_diameter: float, rise: float) -> Element:
    """A circular arc that bows away from the axis.

    Args:
        length: along the axis, 0 or more, any length unit.
        start_diameter: above 0, in the same unit.
        end_diameter: above 0, in the same unit.
        rise: how far the arc's middle stands off the chord, square to it, in the same unit; half the length
            at most where the diameters are the same, less where they differ.

    Returns:
        The element.

    Raises:
        DesignError: when it overhangs.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> bead(10.0, 30.0, 30.0, 5.0).crowns
        ((5.0, 40.0),)
    """
    require_positive("rise of the bead", rise)
    return Element("bead", length, start_diameter, end_diameter, rise)


def cove(length: float, start_diameter: float, end_diameter: float, depth: float) -> Element:
    """A circular arc that bows towards the axis.

    Args:
        length: along the axis, 0 or more, any length unit.
        start_diameter: above 0, in the same unit.
        end_diameter: above 0, in the same unit.
        depth: how far the arc's middle stands below the chord, square to it, in the same unit; limited as a
            bead's rise.

    Returns:
        The element.

    Raises:
        DesignError: when it overhangs or cuts through.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> cove(10.0, 30.0, 30.0, 3.0).crowns
        ((5.0, 24.0),)
    """
    require_positive("depth of the cove", depth)
    return Element("cove", length, start_diameter, end_diameter, depth)


def ogee(length: float, start_diameter: float, end_diameter: float, rise: float) -> Element:
    """A bead and a cove, each on half the chord, that run smoothly into one another.

    Args:
        length: along the axis, 0 or more, any length unit.
        start_diameter: above 0, in the same unit.
        end_diameter: above 0, in the same unit.
        rise: of the first half's middle off its chord, in the same unit: above 0 the bead comes first, below
            0 the cove.

    Returns:
        The element.

    Raises:
        DesignError: when it overhangs or cuts through.

    Source:
        By definition of the shape; common practice, no source.

    Example:
        >>> [piece.sign for piece in ogee(20.0, 30.0, 40.0, -2.0).pieces]
        [-1.0, 1.0]
    """
    return Element("ogee", length, start_diameter, end_diameter, rise)
