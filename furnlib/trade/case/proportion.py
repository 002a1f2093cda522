"""Proportion of a case: ratio and reciprocal, legs in and legs out, simple ratios near it, regulating lines.

A ratio is long over short, 1 or more. Legs tell two readings apart: the *silhouette* is the whole front,
legs and all; the *case* is the field above the legs. A ratio given to one is not the ratio of the other.

::

     H  ___________
       |         1/|         1 diagonal
       |         / |         2 reciprocal: square to the diagonal, through a corner; what lies
       |        /  |           below it, W by W x W / H, is like the whole, laid on its side
     W |---3---/---|         3 rabatment: a square of the short side, from either end
       |      /    |
       |     /     |
   cut |----/------|
       | 2 /       |
       |  /  `     |
       |_/______`__|
                   W
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, require_finite, require_positive
from furnlib.trade.case.ratios import Ratio, ratios

Number = int | float | Fraction
Point = tuple[Value, Value]

LARGEST_TERM = 10**6


def reciprocal(ratio: Value) -> Value:
    """Ratio, across over along, of the like rectangle that stands upon the short side of another: 1 / r.

    It is what the perpendicular to the diagonal, drawn through a corner, cuts off: in units of the
    short side it is 1 along the first rectangle's short side and 1/r along its long one.

    Args:
        ratio: r, a plain number above 0; number, array or symbol.

    Returns:
        The reciprocal.

    Source:
        Derived in `teach.derive.derive_proportion`.

    Example:
        >>> reciprocal(2.5)
        0.4
    """
    return 1 / ratio


def gnomon(ratio: Value) -> Value:
    """What the reciprocal leaves of a rectangle, in units of the short side: r - 1/r.

    Args:
        ratio: r, long over short, a plain number of 1 or more; number, array or symbol.

    Returns:
        How long the remainder is along the long side; 0 of a square.

    Source:
        Derived in `teach.derive.derive_proportion`.

    Example:
        >>> gnomon(2.0)
        1.5
    """
    return ratio - reciprocal(ratio)


def case_ratio(height: Value, width: Value, leg_height: Value) -> Value:
    """Height over width of the case without its legs: (H - l) / W.

    Args:
        height: H, of the whole silhouette, any length unit; number, array or symbol.
        width: W, in the same unit.
        leg_height: l, in the same unit.

    Returns:
        Height over width, a plain number.

    Source:
        Derived in `teach.derive.derive_proportion`.

    Example:
        >>> case_ratio(1300.0, 520.0, 130.0)
        2.25
    """
    return (height - leg_height) / width


def leg_share(leg_height: Value, height: Value) -> Value:
    """Legs as a share of the whole height: l / H.

    Args:
        leg_height: l, any length unit; number, array or symbol.
        height: H, of the whole silhouette, in the same unit.

    Returns:
        The share, from 0 to 1.

    Source:
        Derived in `teach.derive.derive_proportion`.

    Example:
        >>> leg_share(130.0, 1300.0)
        0.1
    """
    return leg_height / height


@dataclass(frozen=True)
class NearRatio:
    """A fraction near the ratio of a rectangle.

    Args:
        numerator: how many parts go into the length.
        denominator: how many of the same parts go into the size across.
        off: the fraction over the true ratio, less 1: above 0 where the fraction is the larger, a plain number.
    """

    numerator: int
    denominator: int
    off: float


def nearest_ratios(length: Number, across: Number, largest: int = 16) -> tuple[NearRatio, ...]:
    """Best simple fractions near the ratio of a rectangle, by its continued fraction.

    Each comes nearer to short over long than every fraction whose larger number is no larger: the
    convergents and those between them that pass the test. Between two fractions lies first the one with
    the numerators and the denominators added; going on towards the ratio meets all of them in turn.

    Args:
        length: one size of the rectangle, above 0, any length unit; taken exactly.
        across: the other, above 0, in the same unit.
        largest: the largest number allowed in a fraction, from 1 to 1,000,000.

    Returns:
        The fractions, length over across, the coarsest first; the last is the nearest.

    Raises:
        DesignError: when a size is not above 0 or the largest number is out of range.

    Source:
        Continued fractions, any text on numbers; against brute force in `tests/unit/test_proportion.py`.

    Example:
        >>> [(near.numerator, near.denominator) for near in nearest_ratios(1300, 803)]
        [(1, 1), (2, 1), (3, 2), (5, 3), (8, 5), (13, 8)]
    """
    require_positive("length", length)
    require_positive("size across", across)
    require_finite("largest number", largest)
    if largest != int(largest) or not 1 <= largest <= LARGEST_TERM:
        raise DesignError(f"The largest number of a ratio is {largest}; it must be whole, from 1 to {LARGEST_TERM}.")
    true = Fraction(length) / Fraction(across)
    short, long = sorted(true.as_integer_ratio())
    below, above, (top, bottom) = (0, 1), (1, 0), (1, 1)
    found: list[tuple[int, int]] = []
    while bottom <= largest:
        miss = top * long - short * bottom
        # nearer than the last: |top/bottom - short/long| compared in whole numbers
        if not found or abs(miss) * found[-1][1] < abs(found[-1][0] * long - short * found[-1][1]) * bottom:
            found.append((top, bottom))
        if not miss:
            break
        if miss < 0:
            below = (top, bottom)
        else:
            above = (top, bottom)
        top, bottom = below[0] + above[0], below[1] + above[1]
    shown = [pair[::-1] if true > 1 else pair for pair in found]
    return tuple(NearRatio(a, b, float(Fraction(a, b) / true - 1)) for a, b in shown)


def named_ratios(length: Number, across: Number, within: float = 0.02) -> tuple[tuple[Ratio, float], ...]:
    """Named ratios near the ratio of a rectangle, the closest first.

    Args:
        length: one size of the rectangle, above 0, any length unit.
        across: the other, above 0, in the same unit; either may be the longer.
        within: the largest difference that counts as near, above 0, a plain number: 0.02 is 2 %.

    Returns:
        Each with the named ratio over the true one, less 1; in the order of the table where equally near.

    Raises:
        DesignError: when a value is not above 0.

    Source:
        Each ratio names its own.

    Example:
        >>> [(ratio.name, round(off, 4)) for ratio, off in named_ratios(1300, 803, 0.01)]
        [('golden section', -0.0005)]
    """
    for name, value in (("length", length), ("size across", across), ("difference", within)):
        require_positive(name, value)
    short, long = sorted((Fraction(length), Fraction(across)))
    offs = [(ratio, float(ratio.fraction * short / long - 1)) for ratio in ratios()]
    return tuple(sorted((pair for pair in offs if abs(pair[1]) <= within), key=lambda pair: abs(pair[1])))


@dataclass(frozen=True)
class RegulatingLine:
    """A line that ties the parts of a rectangle to the whole, in the rectangle's own corner frame.

    Args:
        kind: diagonal, reciprocal, rabatment or part.
        start: one end, across and up from the lower left corner, in the unit of the sides.
        end: the other end.
    """

    kind: str
    start: Point
    end: Point


def regulating_lines(width: Value, height: Value, ratio: Ratio | None = None) -> tuple[RegulatingLine, ...]:
    """Lines by which the parts of a rectangle are set out from the whole.

    Both *diagonals*. The *reciprocal*: through a corner square to a diagonal, and the edge of the like
    rectangle that this cuts off. The *rabatment*: the square of the short side, from either end. The
    *parts*: long and short side divided into the whole numbers of the ratio; where it has none, the edge
    of the square and that of the gnomon (what the reciprocal leaves), from the far end.

    Args:
        width: across, above 0, any length unit.
        height: up, in the same unit; the longer side may be either.
        ratio: whose parts are drawn; none for a rectangle without a name.

    Returns:
        The lines. A square has diagonals and, where its ratio has them, parts.

    Raises:
        DesignError: when a side is not above 0.

    Source:
        The reciprocal is derived in `teach.derive.derive_proportion`; the kinds of line are after Hambidge,
        The Elements of Dynamic Symmetry (1926), as quoted in an encyclopaedia.

    Example:
        >>> [(line.kind, line.start, line.end) for line in regulating_lines(2.0, 4.0)][2:4]
        [('reciprocal', (2.0, 0), (0, 1.0)), ('reciprocal', (0, 1.0), (2.0, 1.0))]
    """
    require_positive("width", width)
    require_positive("height", height)
    short, long = min(width, height), max(width, height)
    cut = short * reciprocal(long / short)
    edges: list[tuple[str, Value]] = []  # across the whole short side, so far along the long one
    if long > short:
        edges += [("reciprocal", cut), *(("rabatment", at) for at in sorted({short, long - short}))]
    along, across = ratio.exact.as_integer_ratio() if ratio and ratio.exact else (1, 1)
    if ratio and ratio.exact:
        edges += [("part", long * part / along) for part in range(1, along)]
    elif long > short:
        edges += [("part", long - short), ("part", long - cut)]
    lines: list[tuple[str, Point, Point]] = [
        ("diagonal", (0, 0), (short, long)),
        ("diagonal", (short, 0), (0, long)),
    ]
    if long > short:
        lines.append(("reciprocal", (short, 0), (0, cut)))
    lines += [(kind, (0, at), (short, at)) for kind, at in edges]
    lines += [("part", (short * part / across, 0), (short * part / across, long)) for part in range(1, across)]
    if width > height:
        lines = [(kind, start[::-1], end[::-1]) for kind, start, end in lines]
    return tuple(RegulatingLine(*line) for line in lines)
