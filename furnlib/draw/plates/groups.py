"""Legs that share their settings: how they are named, and how one picture stands for them all."""

from __future__ import annotations

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_angle
from furnlib.draw.drawing import Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.views import written
from furnlib.plan.design_legs import CORNERS
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, LegSizes, mirror_groups

Group = tuple[LegSizes, ...]
Groups = tuple[Group, ...]

WORDS_NOTE = "Rake = seen from the side, splay = seen from the front, here."
NEVER_DEG = 0.05
"""An angle below this is written 0°."""


def group_name(group: Group) -> str:
    """Name the legs of a group.

    Args:
        group: legs that share their settings.

    Returns:
        Such as "Front left and front right".

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [group_name(group) for group in mirror_groups(read_piece("notebooks/designs/landing_chest.yaml").legs)]
        ['Front left and front right', 'Rear left and rear right']
    """
    if _at_all_corners(group):
        return "All four corner legs"
    names = [leg.position if " " in leg.position else f"{leg.position} leg" for leg in group]
    joined = f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else f"{names[0]}"
    return joined.capitalize()


def hand_words(group: Group) -> str:
    """Say how the legs of a group differ, if at all.

    Args:
        group: legs that share their settings.

    Returns:
        Words to follow their names.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> hand_words(mirror_groups(read_piece("notebooks/designs/landing_chest.yaml").legs)[0])
        'same settings, opposite hand'
    """
    hands = {leg.outward[0] * leg.outward[1] for leg in group}
    if len(group) == 1:
        return "one of its kind"
    if _at_all_corners(group):
        return "same settings, two of each hand"
    return "same settings, opposite hand" if len(hands) > 1 else "same settings, same hand"


def _at_all_corners(group: Group) -> bool:
    return {leg.position for leg in group} == set(CORNERS)


def heading(pen: Pen, group: Group, at: Point, words: str = "") -> float:
    """Write above a picture which legs it stands for.

    Args:
        pen: the plate's pen.
        group: legs that share their settings.
        at: the upper left corner, in the piece's unit.
        words: to follow their names; by default how they differ and which of them is drawn.

    Returns:
        How low it reaches, in the piece's unit.
    """
    pen.text((at[0], at[1] - pen.mm(3.4)), group_name(group), "body", bold=True)
    words = words or f"{hand_words(group)}; drawn for the {group[0].position} leg"
    pen.text((at[0], at[1] - pen.mm(7.2)), words, "small")
    return at[1] - pen.mm(8.2)


def lean_words(leg: LegSizes, unit: Unit) -> tuple[str, str, str]:
    """Tell how a leg leans.

    Args:
        leg: one leg.
        unit: the piece's unit, "mm" or "in".

    Returns:
        Sentences on its angles, on the runs for a bevel gauge, and on its length.
    """
    lean, gauge = leg.lean, GAUGE_HEIGHT[unit]
    side, front, along = (written(run, unit) for run in leg.gauge_run)
    total, sight = write_angle(lean.total_lean_deg, 2), write_angle(lean.sight_line_deg)
    return (
        f"Rake {write_angle(lean.rake_deg)}, splay {write_angle(lean.splay_deg)}: total lean {total} on a sight line"
        f" of {sight}.",
        f"Bevel gauge, run on {gauge:g}: {side} from the side, {front} from the front, {along} along the sight line.",
        f"Axis {written(leg.axis_length, unit)}.",
    )


def leg_group(piece: Piece, position: str | None = None) -> Group:
    """The legs that share the settings of one.

    Args:
        piece: a finished piece with legs.
        position: which leg; by default the first.

    Returns:
        Its group.

    Raises:
        DesignError: when the piece has no leg there.
    """
    for group in mirror_groups(piece.legs):
        if position is None or position in [leg.position for leg in group]:
            return group
    there = ", ".join(leg.position for leg in piece.legs) or "none"
    raise DesignError(f"{piece.design.piece} has no leg '{position}'; its legs: {there}.")
