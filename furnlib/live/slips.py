"""What if this cut slips: a member of the height is chosen, its slip dragged."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from furnlib.base.guards import DesignError
from furnlib.draw.plates.slip_card import slip_plate
from furnlib.live.bindings import FINE, choice
from furnlib.live.control import length_control
from furnlib.live.view import Binding, LiveView
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of
from furnlib.plan.slips import members_of

_MOST_STEPS = 24  # of the fine grid, either way: a slip, and not another design


def live_slip(path: str | Path, member: str | None = None) -> LiveView:
    """Open a design file's heights: choose a member, drag its slip, see which later part can take it up.

    Nothing of the file is changed: a slip is of the work, not of the plan.

    Args:
        path: a design file of a case with drawers.
        member: the one to begin with, such as "divider 3"; by default the first that is made.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file cannot be read, its sizes do not close, or it has no such member.

    Example:
        >>> live_slip("notebooks/designs/landing_chest.yaml", "divider 3")
        <Live view of slip, Landing chest>
    """
    text = DesignText.read(path)
    piece = piece_of(text)
    unit, names = piece.design.unit, tuple(one.name for one in members_of(piece))
    first = member or names[0]
    if first not in names:
        raise DesignError(f"{text.name} has no member '{first}'; its members: {', '.join(names)}.")
    fine = FINE[unit] / 2
    chosen = choice("What slips", names, first)
    most = str(_MOST_STEPS * fine)
    slip = length_control("Too large by", str(2 * fine), f"-{most}", most, str(fine), unit)
    bindings = (Binding(chosen, ()), Binding(slip, ()))
    return LiveView(text, lambda piece, scale: slip_plate(piece, chosen.value, Fraction(slip.value), scale), bindings)
