"""How two of a lean's four names give its two tangents; what is refused, and with which words."""

from __future__ import annotations

import numpy as np

from furnlib.base.angles import Value, cosd, sind, square_root, tand
from furnlib.base.guards import DesignError, require_between

UPRIGHT = "a leg at 90 lies on the floor; give the lean from plumb"


def require_total_lean(total_lean_deg: Value) -> None:
    """Refuse a total lean below 0, or of 90 and more.

    Args:
        total_lean_deg: degrees from plumb; number or array.

    Raises:
        DesignError: when any value is out of range.
    """
    require_between("total lean", total_lean_deg, -90, 90, UPRIGHT)
    if np.any(np.asarray(total_lean_deg) < 0):
        raise DesignError(
            f"The total lean is {total_lean_deg}; it runs from 0 to 90: turn the sight line by 180 instead."
        )


def require_sight_line(sight_line_deg: Value) -> None:
    """Refuse a sight line beyond a whole turn.

    Args:
        sight_line_deg: degrees in plan; number or array.

    Raises:
        DesignError: when any value is out of range.
    """
    require_between("sight line", sight_line_deg, -360, 360, "give it from -180 to 180", ends=True)


def tangents_from_total_and_part(total: float, rake: float | None, splay: float | None) -> tuple[float, float]:
    """Find the missing tangent from tan² R less the known one's square, foot outward.

    Args:
        total: total lean in degrees.
        rake: in degrees, or None where the splay is known.
        splay: in degrees, or None where the rake is known.

    Returns:
        Tangents of rake and splay.

    Raises:
        DesignError: when the part is more than the total.
    """
    name, part = ("rake", rake) if rake is not None else ("splay", splay or 0.0)
    part = part or 0.0
    require_total_lean(total)
    require_between(name, part, -90, 90, UPRIGHT)
    left = tand(total) ** 2 - tand(part) ** 2
    if left < -1e-12:
        raise DesignError(
            f"The total lean {total:g} is less than the {name} {part:g}; it is never less than either of its"
            f" parts: lower the {name} or raise the total lean."
        )
    other = square_root(max(left, 0.0))
    return (tand(part), other) if name == "rake" else (other, tand(part))


def tangents_from_part_and_sight(rake: float | None, splay: float | None, sight: float) -> tuple[float, float]:
    """Find the total lean's tangent along the sight line from the one part that is known.

    Args:
        rake: in degrees, or None where the splay is known.
        splay: in degrees, or None where the rake is known.
        sight: sight line in degrees.

    Returns:
        Tangents of rake and splay.

    Raises:
        DesignError: when no leg on that sight line has that part.
    """
    name, part = ("rake", rake or 0.0) if rake is not None else ("splay", splay or 0.0)
    require_between(name, part, -90, 90, UPRIGHT)
    require_sight_line(sight)
    share = cosd(sight) if name == "rake" else sind(sight)
    cure = "give rake and splay, or total lean and sight line"
    if abs(share) < 1e-9 and part == 0:
        raise DesignError(f"On a sight line of {sight:g} every leg has a {name} of 0, so its lean stays open; {cure}.")
    if abs(share) < 1e-9 or tand(part) / share < 0:
        along = "0" if abs(share) < 1e-9 else "of the other sign"
        raise DesignError(
            f"No leg has a {name} of {part:g} on a sight line of {sight:g}: along it the {name} is {along}; {cure}."
        )
    total = tand(part) / share
    return total * cosd(sight), total * sind(sight)
