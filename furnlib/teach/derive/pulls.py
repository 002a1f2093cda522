"""Pull lines and the holes on them: places that lie alike to either side."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.drawer.pulls import centre_line, hole_across


def derive_pulls() -> Derivation:
    """Derive the line down the middle of an opening, and the two holes of a pull on its line.

    Returns:
        The derivation, in an opening's left side a and width w, a line x, a front's left edge e and
        the spacing s of the holes.

    Example:
        >>> derive_pulls()["pulls.hole"].difference
        0
    """
    left, width, line, edge, spacing = sp.symbols("a w x e s", positive=True)
    nearer, further = sp.symbols("h_1 h_2")
    middle = sp.Eq(line - left, left + width - line)
    holes = (sp.Eq((edge + nearer + edge + further) / 2, line), sp.Eq(further - nearer, spacing))
    return Derivation(
        "Pull lines and holes",
        (
            ("A line down the middle of an opening is as far from its left side as from its right,", sp.latex(middle)),
            (
                "The two holes of a pull, measured from the front's left edge, lie alike to either side of the line"
                " and the spacing apart,",
                r",\quad ".join(map(sp.latex, holes)),
            ),
        ),
        (
            Claim(
                "pulls.line",
                "The line carried down from an opening of a split row.",
                "x",
                centre_line(left, width),
                sp.solve(middle, line)[0],
                "Solved for the line,",
            ),
            Claim(
                "pulls.hole",
                "Where the right hole is drilled; the left one lies the spacing nearer.",
                "h_2",
                hole_across(line, edge, spacing, 1),
                sp.solve(holes, (nearer, further))[further],
                "Solved for both holes,",
            ),
        ),
    )
