"""Legs that are alike for the lathe: their groups, their outline, and what is marked along them."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from math import isclose

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit
from furnlib.draw.drawing import Point
from furnlib.draw.plates.groups import Group, Groups, group_name
from furnlib.draw.plates.views import written
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import LegSizes
from furnlib.plan.sizes.turned import TurnedLeg
from furnlib.trade.leg.turning import Profile

_SAME = 6
"""Digits after the point in which two lengths agree that are one for the lathe."""
_LEFT_SQUARE = ("square begins", "square ends", "shoulder begins", "lamb's tongue begins")


@dataclass(frozen=True)
class TurnedMark:
    """All that is marked at one distance.

    Args:
        distance: from the top end along the axis, in the piece's unit.
        diameters: as they are written, before a step and after it where there are two.
        words: what it is, or what begins there.
        crown: True for the extreme of an arc between its ends.
        thinnest: True where the leg is thinnest.
    """

    distance: float
    diameters: str
    words: str
    crown: bool
    thinnest: bool


def turned_of(leg: LegSizes) -> TurnedLeg:
    """What the lathe needs of a leg.

    Args:
        leg: one leg.

    Returns:
        Its turned sizes.

    Raises:
        DesignError: when no part of it is turned.
    """
    if leg.turned is None:
        raise DesignError(f"The {leg.position} leg is not turned; give the legs a profile.")
    return leg.turned


def turned_groups(piece: Piece) -> Groups:
    """Group the turned legs that are alike for the lathe: the profiles of one design, of one length.

    Args:
        piece: a finished piece.

    Returns:
        Groups in the order of the legs; hand and lean may differ within one.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [len(group) for group in turned_groups(read_piece("notebooks/designs/stool_three_legs.yaml"))]
        [2, 1]
    """
    found: dict[float, list[LegSizes]] = {}
    for leg in piece.legs:
        if leg.turned:
            found.setdefault(round(leg.turned.profile.length, _SAME), []).append(leg)
    return tuple(map(tuple, found.values()))


def turned_names(piece: Piece) -> list[str]:
    """What each of those groups is called.

    Args:
        piece: a finished piece.

    Returns:
        Their names in order.
    """
    return [group_name(group) for group in turned_groups(piece)]


def turned_group(piece: Piece, number: int, what: str) -> Group:
    """The legs that one sheet for the lathe is for.

    Args:
        piece: a finished piece.
        number: of the group, from 1.
        what: the sheet's name in a sentence, such as "leg profile".

    Returns:
        Its group.

    Raises:
        DesignError: when the piece has no such sheet.
    """
    groups = turned_groups(piece)
    if not 1 <= number <= len(groups):
        raise DesignError(
            f"{piece.design.piece} has no {what} {number}, it has {len(groups)}: one for each length of turned leg."
        )
    return groups[number - 1]


def outline(profile: Profile) -> tuple[list[Point], list[float]]:
    """The upper outline of a leg, its top end to the left, as a contour takes it.

    Args:
        profile: of the leg.

    Returns:
        Its points (along the axis from the top end, above the axis) and the bulge of each stretch:
        what bows away from the axis bows to the left of the way, so its sign is turned.

    Example:
        >>> from furnlib.trade.leg.elements import cylinder
        >>> outline(Profile((cylinder(60.0, 30.0),)))[0]
        [(0.0, 15.0), (60.0, 15.0)]
    """
    bends = profile.bends
    return [bends[0].start, *(bend.end for bend in bends)], [-bend.bulge for bend in bends]


def turned_marks(made: TurnedLeg, unit: Unit) -> list[TurnedMark]:
    """What is marked along a leg: every joint and every crown once, running from the top end.

    Args:
        made: the turned leg.
        unit: the piece's unit, "mm" or "in".

    Returns:
        The marks in order, ⌀ before a diameter and □ before the side of a square.
    """
    profile, found = made.profile, list[TurnedMark]()
    thin, _ = profile.least_diameter_between(made.top, profile.length)
    stops = {at for step in made.steps if step.kind == "stop cut" for at in step.distances}
    before = 0.0
    for distance, there in groupby(profile.stations, key=lambda station: station.distance):
        stations = list(there)
        what, crown = stations[-1].what.removesuffix(" begins"), stations[-1].what.startswith("crown")
        what = "measured" if what == "curve" else what
        words = [
            "top end, zero" if distance == 0 else "",
            ("crown" if stations[-1].diameter > before else "hollow") if crown else what,
            "underside" if made.top and isclose(distance, made.top) else "",
            "stop cut" if distance in stops else "",
        ]
        if distance == profile.length:
            words = ["foot, on the floor"]
        sizes = [("□ " if s.what in _LEFT_SQUARE else "⌀ ") + written(s.diameter, unit) for s in stations]
        found.append(
            TurnedMark(
                distance,
                " | ".join(sizes),
                ", ".join(filter(None, words)),
                crown,
                isclose(distance, thin, rel_tol=1e-9),
            )
        )
        before = stations[-1].diameter
    if made.top and not any(isclose(made.top, mark.distance) for mark in found):
        diameter = f"⌀ {written(float(profile.diameter_at(made.top)), unit)}"
        found.append(TurnedMark(made.top, diameter, "underside", crown=False, thinnest=isclose(made.top, thin)))
    return sorted(found, key=lambda mark: mark.distance)
