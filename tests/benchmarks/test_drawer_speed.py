"""How fast drawers come out of their openings: forty unlike ones, beside the bare sums in exact fractions."""

from fractions import Fraction

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of
from furnlib.plan.sizes.drawer_concerns import drawer_concerns
from furnlib.plan.sizes.drawers import drawers_of

ROUNDS = 30
SUMS = 40 * 100
"""Each drawer takes some hundred sums of exact sizes: parts, tails, places of holes, what is left of each."""
CASE = """piece: Forty
unit: mm
grid: 0.5
overall: {height: 2000, width: 520, depth: 380}
case: {side: 20, top: 20, bottom: 20, divider: 6}
rows: {number: 40, rule: constant step, step: 0.5}
climate: {shop: 8, dry: 7, damp: 12}
wood:
  case: {species: black cherry}
  front: {species: black cherry}
  side: {species: red maple}
  bottom: {species: yellow-poplar}
drawers:
  front: {thickness: 20, below: 1, least gap: 1}
  corner: {joint: half-blind, lap: 6, tails: {tail: 12, half pin: 5, pin: 4}}
  side: {thickness: 12, gap: 1, least gap: 1}
  back: {thickness: 12}
  bottom: {kind: solid, thickness: 5, tongue: 4, up: 5, groove: 4, ease: 0.5}
  back room: 10
pulls: {shares: [1/4, 3/4], base: 24, hole: 4.5, thread: 12}
"""


def bare_sums():
    """As many exact sums as the drawers take, and nothing else."""
    size, step = Fraction(480), Fraction(1, 10)
    for _ in range(SUMS):
        size = size - step
    return size


def test_forty_drawers_with_parts_gaps_and_checks(in_turns, judge):
    """The goal is 20 ms; the ratio holds it to what its arithmetic alone costs on the same machine."""
    piece = piece_of(DesignText.parse(CASE))
    assert len({drawer.side_height.value for drawer in piece.drawers}) == 40  # nothing is remembered from row to row

    def drawers():
        made = drawers_of(piece.design, piece.banks, piece.season)
        return drawer_concerns(piece.design, piece.season, made)

    ours, sums = in_turns(drawers, bare_sums, ROUNDS)
    told = f"{ours * 1e3:.1f} ms / {sums * 1e3:.1f} ms"
    judge("forty drawers / their sums alone", ours / sums, 7, note=told)
    judge("forty drawers", ours * 1e3, 20, " ms")
