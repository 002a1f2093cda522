"""What there is to finish on a board, from the corners of a box; what a finish leaves, from what is in the can."""

from __future__ import annotations

from itertools import combinations, product

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.wood.finish import arrises, edges_area, faces_area, film_thickness, finish_needed

_L, _W, _T, _A, _N, _Q, _S = sp.symbols("l w t A n q s", positive=True)
_V, _F = sp.symbols("V f", positive=True)


def derive_finish() -> Derivation:
    """Derive faces, edges and arrises of a board, the finish it takes and the film that stays on it.

    Returns:
        The derivation, in length l, width w, thickness t, area A, coats n, coverage q and solids s.

    Example:
        >>> derive_finish()["finish.arrises"].difference
        0
    """
    along, across, through = (sp.Matrix(side) for side in ((_L, 0, 0), (0, _W, 0), (0, 0, _T)))
    corners = [sp.Matrix(corner) for corner in product((0, _L), (0, _W), (0, _T))]
    apart = [one - other for one, other in combinations(corners, 2)]
    sharp = sum(step.norm() for step in apart if sum(part != 0 for part in step) == 1)
    (can,) = sp.solve(sp.Eq(_Q * _V, _N * _A), _V)
    (film,) = sp.solve(sp.Eq(_F * _A, _S * can), _F)
    return Derivation(
        "What there is to finish",
        (
            (
                "A board is a box. Two of its sides span a parallelogram as large as their cross product is long, and"
                " each stands there twice.",
                r"2\,|\vec l \times \vec w| \qquad 2\,|\vec l \times \vec t| + 2\,|\vec w \times \vec t|",
            ),
            ("Corners that differ in one coordinate are joined by an arris.", r"\sum |c_i - c_j|"),
            ("What is in the can covers every coat, and a share of it stays.", r"q V = n A \qquad f A = s V"),
        ),
        (
            Claim("finish.faces", "Both faces.", "A", faces_area(_L, _W), 2 * along.cross(across).norm(), "Twice,"),
            Claim(
                "finish.edges",
                "Two edges and two ends.",
                "A",
                edges_area(_L, _W, _T),
                2 * along.cross(through).norm() + 2 * across.cross(through).norm(),
                "Twice each,",
            ),
            Claim("finish.arrises", "All twelve.", "a", arrises(_L, _W, _T), sharp, "Corner to corner,"),
            Claim("finish.needed", "Area by area.", "V", finish_needed(_A, _N, _Q), can, "Solving for V,"),
            Claim("finish.film", "Volume over area.", "f", film_thickness(_N, _Q, _S), film, "Solving for f,"),
        ),
    )
