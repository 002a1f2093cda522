"""The figure of one board, carried across a divider: where its lines stand on the board and in the piece."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.drawer.grain_run import figure_jump, removed_by_cuts, spacer_length


def derive_grain_run() -> Derivation:
    """Derive the jump of the figure between two fronts of one board, and the spacer that makes it nothing.

    Returns:
        The derivation, in front f, kerf k, trim t, spacer s, divider d and the gap g on either side of it.

    Example:
        >>> derive_grain_run()["grain_run.spacer"].difference
        0
    """
    front, kerf, trim, spacer, divider, gap = sp.symbols("f k t s d g", positive=True)
    half, seen = trim / 2, 2 * gap + divider
    first = half
    in_piece = front + seen

    def jump(*between: sp.Expr) -> sp.Expr:
        """Where the second front begins on the board, less where it begins in the piece and less the first's start."""
        on_board = first + front + half + sum(between) + half
        return sp.expand(on_board - in_piece - first)

    return Derivation(
        "Figure that carries on across a divider",
        (
            (
                "The first of two fronts begins on the board at t/2 and in the piece at nothing; with all that is lost"
                " between them, b, its trim included, the second one begins at",
                rf"x = {sp.latex(first + front)} + b, \qquad u = {sp.latex(in_piece)}",
            ),
            (
                "A line of the figure keeps its place in the wood. Putting the fronts up shifts it by t/2 in the first"
                " and by x - u in the second: where it should carry on it jumps by the difference",
                r"j = (x - u) - \tfrac t2",
            ),
        ),
        (
            Claim(
                "grain_run.jump",
                "The jump is what was removed less what is seen.",
                "j",
                figure_jump(removed_by_cuts(1, kerf, trim), seen),
                jump(kerf),
                "With trim, kerf and trim between the fronts,",
            ),
            Claim(
                "grain_run.spacer",
                "A spacer thrown away between two kerfs makes the jump nothing.",
                "s",
                spacer_length(kerf, trim, seen),
                sp.solve(jump(kerf, spacer, kerf), spacer)[0],
                "With trim, kerf, spacer, kerf and trim between them, the jump set to nothing and solved for s,",
            ),
            Claim(
                "grain_run.divider",
                "A divider cut from between the fronts leaves only the gaps to hide what saw and plane took.",
                "j",
                figure_jump(removed_by_cuts(2, kerf, trim), 2 * gap),
                jump(kerf, half, divider, half, kerf),
                "With the divider, trimmed as they are, in its place on the board as in the piece,",
            ),
        ),
    )
