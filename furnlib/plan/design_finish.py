"""The finish in a design file: how many coats of what, on which boards."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal, get_args

from furnlib.plan.design_values import Count, Number, Part, one_of

Role = Literal["front", "case", "side", "bottom"]


class Finish(Part):
    """A finish on the faces and edges of some of a piece's boards.

    Args:
        coats: how many, from 1 up.
        coverage: area that one measure covers in one coat: square metres a litre in a metric piece, square feet
            a US quart in an inch piece.
        roles: which boards: "front", "case", "side" for the sides and backs of drawers, "bottom".
        solids: share of it that stays on the surface when it is dry, from 0, as of an oil that soaks in, to 1.
    """

    coats: Count
    coverage: Number
    roles: tuple[Annotated[Role, one_of("role of a board", get_args(Role))], ...]
    solids: Number = Fraction(0)
