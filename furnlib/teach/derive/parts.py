"""The parts of a drawer: every face by its place in the opening, sizes as distances between faces."""

from __future__ import annotations

from dataclasses import replace

import sympy as sp

from furnlib.base.terms import Term, total
from furnlib.teach.proof import Claim, Derivation, Expression
from furnlib.trade.drawer.parts import Making, Opening, drawer_parts, inside

_SIZES = "W H D h h_f t_f t_s t_b t_o v u g c r l s q e o d a k z w_s h_s t_i"


def derive_parts() -> Derivation:
    """Derive the sizes of a drawer's parts from where their faces stand in the opening.

    Returns:
        The derivation, in the opening W, H, D, thicknesses t of front, sides, back and bottom, side gap c,
        back room r, lap l, setback s, side height h, groove u up, v wide and g deep, and the like.

    Example:
        >>> derive_parts()["parts.side_length"].difference
        0
    """
    symbols = sp.symbols(_SIZES, positive=True)
    wide, tall, deep, high, high_front, front, side, back, board, tongue, up, groove, gap, room = symbols[:14]
    lap, setback, drop, play, overhang, housing, tail, overlay, lip, slip, slip_high, inner_front = symbols[14:]
    opening = Opening(wide, tall, deep)
    made = Making(front, side, back, board, tongue, up, groove, gap, room, lap=lap, setback=setback, drop=drop)
    made = replace(made, end_play=play, overhang=overhang)
    housed = replace(made, back="housed", housing_depth=housing, side_tail=tail)
    slips = replace(made, slip_width=slip, slip_height=slip_high)
    lipped = replace(made, front="lipped", overlay=overlay, lip=lip, setback=0)
    over = replace(made, front="overlay", overlay=overlay, inner_front=inner_front, setback=0)
    # places of faces: y inwards from the case's face, x from the opening's left side, z up from the runner
    rear, front_back, floor = deep - room, setback + front, up + tongue
    outer, inner = (sp.Matrix([at, wide - at]) for at in (gap, gap + side))
    inwards = sp.Matrix([1, -1])

    def sizes(making: Making, name: str) -> tuple[tuple[Term[Expression], ...], ...]:
        return next((p.length, p.width) for p in drawer_parts(opening, making, high, high_front) if p.name == name)

    def across(ends: Expression) -> Expression:
        return ends[1] - ends[0]

    bottom = inner + (play - groove) * inwards
    rows = (
        ("side_length", sizes(made, "side")[0], rear - (setback + lap)),
        ("side_length_lipped", sizes(lipped, "side")[0], rear - (lap - lip)),
        ("side_length_behind_show_front", sizes(over, "side")[0], rear - lap),
        ("back_length", sizes(made, "back")[0], across(outer)),
        ("back_length_housed", sizes(housed, "back")[0], across(inner - housing * inwards)),
        ("back_height", sizes(made, "back")[1], (high - drop) - floor),
        ("bottom_across", sizes(made, "bottom")[0], across(bottom)),
        ("bottom_across_between_slips", sizes(slips, "bottom")[0], across(bottom + slip * inwards)),
        ("bottom_front_to_back", sizes(made, "bottom")[1], (rear + overhang) - (front_back - groove)),
        ("inside_width", inside(opening, made, high).width, across(inner)),
        ("inside_depth", inside(opening, housed, high).depth, (rear - tail - back) - front_back),
        ("inside_height", inside(opening, slips, high).height, high - slip_high),
    )
    return Derivation(
        "The parts of a drawer from its opening",
        (
            (
                "From the case's face inwards: the front's face, its inner face, and the rear end of the sides,",
                rf"{sp.latex(setback)}, \quad {sp.latex(front_back)}, \quad {sp.latex(rear)}",
            ),
            (
                "from the opening's left side: the outer and the inner faces of the sides,",
                rf"{sp.latex(tuple(outer))}, \quad {sp.latex(tuple(inner))}",
            ),
            ("and up from the runner: the upper face of the bottom, on which the back stands,", sp.latex(floor)),
        ),
        tuple(
            Claim(
                f"parts.{key}",
                f"{key.replace('_', ' ').capitalize()}, the sum shown.",
                r"\ell",
                total(terms),
                apart,
                "As the distance from one face to the other,",
            )
            for key, terms, apart in rows
        ),
    )
