"""Outlines and lines: how far a point lies inside an outline, how near two lines come."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

Outline = Sequence[tuple[float, float]]


def convex_outline(points: Outline) -> tuple[tuple[float, float], ...]:
    """The rubber band round some points.

    Args:
        points: at least one, in a plane, any length unit.

    Returns:
        The corners of the band, counter-clockwise; one or two where there are no more.

    Example:
        >>> convex_outline([(0, 0), (4, 0), (1, 1), (0, 4)])
        ((0, 0), (4, 0), (0, 4))
    """
    ordered = sorted(set(points))

    def half(side: Outline) -> list[tuple[float, float]]:
        kept: list[tuple[float, float]] = []
        for point in side:
            while len(kept) > 1 and _left_of(kept[-2], kept[-1], point) <= 0:
                kept.pop()
            kept.append(point)
        return kept[:-1]

    return tuple(half(ordered) + half(ordered[::-1])) or tuple(ordered)


def inside_by(outline: Outline, point: tuple[float, float]) -> float:
    """How far a point lies inside a convex outline: the least distance to its sides.

    Args:
        outline: at least three corners, counter-clockwise, any length unit.
        point: in the same plane and unit.

    Returns:
        The distance; below 0 where the point lies outside the nearest side's line.

    Example:
        >>> square = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]
        >>> inside_by(square, (1.0, 2.0)), inside_by(square, (5.0, 2.0))
        (1.0, -1.0)
    """
    sides = zip(outline, (*outline[1:], outline[0]), strict=True)
    return min(
        _left_of(a, b, point) / length
        for a, b in sides
        if (length := float(np.hypot(b[0] - a[0], b[1] - a[1])))  # a corner given twice is no side
    )


def _left_of(a: tuple[float, float], b: tuple[float, float], point: tuple[float, float]) -> float:
    """Twice the area of a triangle: above 0 where the point lies left of the way from a to b."""
    return (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])


def segments_apart(first: Sequence[Sequence[float]], second: Sequence[Sequence[float]]) -> float:
    """The least distance between two straight lines of limited length.

    Args:
        first: both ends, each along x, y and z, any length unit.
        second: both ends, in the same unit.

    Returns:
        The distance, 0 where they cross.

    Example:
        >>> segments_apart([(0, 0, 0), (0, 0, 4)], [(3, 0, 9), (3, 0, 8)])
        5.0
    """
    (a, a_end), (b, b_end) = ([np.asarray(end, dtype=float) for end in line] for line in (first, second))
    u, v, w = a_end - a, b_end - b, a - b
    uu, uv, vv = u @ u, u @ v, v @ v
    spread = uu * vv - uv * uv  # 0 where they run the same way
    s = 0.0 if spread <= 1e-12 * uu * vv else float(np.clip((uv * (v @ w) - vv * (u @ w)) / spread, 0.0, 1.0))
    t = float(np.clip((uv * s + v @ w) / vv, 0.0, 1.0))
    s = float(np.clip((uv * t - u @ w) / uu, 0.0, 1.0))
    return float(np.linalg.norm(w + s * u - t * v))
