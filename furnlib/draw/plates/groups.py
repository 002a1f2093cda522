"""Legs that share their settings: how they are named, and how many of them a sheet holds."""

from __future__ import annotations

from fractions import Fraction

from furnlib.base.guards import DesignError
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import LegSizes, mirror_groups
from furnlib.trade.leg.end_cut import EndCut

Groups = tuple[tuple[LegSizes, ...], ...]

LEANS_ON_SHEET = 2
_ALL = 4
WORDS_NOTE = "Rake = seen from the side, splay = seen from the front, here."


def group_name(group: tuple[LegSizes, ...]) -> str:
    """Name the legs of a group.

    Args:
        group: one to four legs that share their settings.

    Returns:
        Such as "Front left and front right".

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [group_name(group) for group in mirror_groups(read_piece("notebooks/designs/landing_chest.yaml").legs)]
        ['Front left and front right', 'Rear left and rear right']
    """
    names = [leg.position for leg in group]
    if len(names) == _ALL:
        return "All four legs"
    joined = f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else f"{names[0]}"
    return joined.capitalize()


def hand_words(group: tuple[LegSizes, ...]) -> str:
    """Say how the legs of a group differ, if at all.

    Args:
        group: one to four legs that share their settings.

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
    if len(group) == _ALL:
        return "same settings, two of each hand"
    return "same settings, opposite hand" if len(hands) > 1 else "same settings, same hand"


def sheets_of_legs(piece: Piece) -> int:
    """Count the sheets that the legs take: one for every two leans.

    Args:
        piece: a finished piece.

    Returns:
        How many sheets; 0 where the piece has no legs.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sheets_of_legs(read_piece("notebooks/designs/landing_chest.yaml"))
        1
    """
    return -(-len(mirror_groups(piece.legs)) // LEANS_ON_SHEET)


def sheets_of_sawn_legs(piece: Piece) -> int:
    """Count the sheets that square legs take at the saw.

    Args:
        piece: a finished piece.

    Returns:
        How many sheets; 0 where its legs are turned, or it has none.
    """
    return sheets_of_legs(piece) if any(leg.end_cut for leg in piece.legs) else 0


def leans_on_sheet(piece: Piece, number: int) -> Groups:
    """The leans that one sheet holds.

    Args:
        piece: a finished piece with legs.
        number: of the sheet, from 1.

    Returns:
        At most two groups of legs, each group sharing its settings.
    """
    return mirror_groups(piece.legs)[(number - 1) * LEANS_ON_SHEET : number * LEANS_ON_SHEET]


def sheet_name(piece: Piece, name: str, number: int) -> str:
    """Number the name of a plate where the legs take several sheets.

    Args:
        piece: a finished piece with legs.
        name: of the plate.
        number: of the sheet, from 1.

    Returns:
        The name, such as "Legs" or "Legs 2".
    """
    return f"{name} {number}" if sheets_of_legs(piece) > 1 else name


def sawn(leg: LegSizes) -> tuple[Fraction, EndCut]:
    """The square and the end cuts of a square leg.

    Args:
        leg: one leg.

    Returns:
        Side of its section, and its cuts.

    Raises:
        DesignError: when the leg is turned.
    """
    if leg.square is None or leg.end_cut is None:
        raise DesignError(
            f"The {leg.position} leg is turned and has no faces to lay on the saw; ask for the cradle instead."
        )
    return leg.square, leg.end_cut


def leg_group(piece: Piece, position: str | None = None) -> tuple[LegSizes, ...]:
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
