"""Dovetails: a row of tails, gaps and half pins that fills the side, and edges that run off by the slope."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.drawer.dovetail import Layout, Tail, jig_tail, tail_width


def derive_dovetail() -> Derivation:
    """Derive the width of hand-cut tails, the place of jig-cut ones, and their roots.

    Returns:
        The derivation, in the side's height h, n tails t wide, half pins a, gaps w, the jig's pitch p and
        first offset o, depth d and slope s.

    Example:
        >>> derive_dovetail()["dovetail.tail_width"].difference
        0
    """
    height, half, gap, tail, pitch, offset, depth, slope = sp.symbols("h a w t p o d s", positive=True)
    many, i, j = sp.symbols("n i j", positive=True, integer=True)
    row = 2 * half + sp.summation(tail, (j, 1, many)) + sp.summation(gap, (j, 1, many - 1))
    start, end = sp.symbols("x_1 x_2")
    # one tail about its middle, its neighbour one pitch on, and the pin between them
    edges = sp.solve(
        [(start + end) / 2 - (offset + (i - 1) * pitch), start + pitch - end - gap], [start, end], dict=True
    )
    along = sp.Matrix([start, 0]) + depth * sp.Matrix([slope, 1])
    layout = Layout(height, (Tail(start, end),), depth, slope)
    claims = (
        (
            "tail_width",
            "The width of equal tails",
            tail_width(height, many, half, gap),
            sp.solve(sp.Eq(row, height), tail)[0],
            "Solved for the one width",
        ),
        (
            "jig_tail",
            "Where a tail begins that a jig cuts",
            jig_tail(i, offset, pitch, gap).start,
            edges[0][start],
            "From its middle, and from the pin left between it and a neighbour one pitch on",
        ),
        ("root", "Where that edge is at the root", layout.roots[0].start, along[0], "At the depth of the joint"),
    )
    return Derivation(
        "Tails at the end of a drawer's side",
        (
            ("Half pins, tails and gaps follow one another and fill the side,", rf"{sp.latex(row)} = h"),
            ("and an edge of a tail is a straight line from the end of the side in,", rf"\vec x = {sp.latex(along)}"),
        ),
        tuple(
            Claim(f"dovetail.{key}", f"{words}.", "x", one, other, f"{why},") for key, words, one, other, why in claims
        ),
    )
