"""A sound chest with all that a design file may say of drawers, to spoil and to change, and how to hear of a slip."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from faults import METRIC, check_sentence, faults, line_of

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece

CLIMATE = "climate:\n  shop: 8\n  dry: 7\n  damp: 12\n"
TAILS = "    tails:\n      tail: 24\n      half pin: 8\n      pin: 6.25\n      slope: 1/7\n"
DRAWERS = f"""{CLIMATE}wood:
  case:
    species: black cherry
    rings: flat-sawn
  front: {{species: red maple}}
  side: {{species: white oak, rings: quarter-sawn}}
  bottom: {{species: yellow-poplar, rings: quarter-sawn}}
drawers:
  front:
    thickness: 22
    setback: 0
    below: 1.5
    least gap: 1.25
    film: 0.1
  corner:
    joint: half-blind
    lap: 6.5
{TAILS}  side:
    thickness: 12
    gap: 1.1
    least gap: 2.5
  back:
    thickness: 11
    drop: 2.2
  bottom:
    kind: solid
    thickness: 8.5
    tongue: 5.5
    up: 10
    groove: 5.75
    ease: 0.5
    overhang: 0.3
  back room: 9
  riding:
    carried: runners
    no stop: [3]
    friction: 0.4
pulls:
  shares: [1/2]
  base: 23
  hole: 4.5
  thread: 13
back:
  kind: boards
  thickness: 10
  rebate: 12.5
  number: 5
  gap: 0.6
  overlap: 3.2
grain:
  course: along the rows
  kerf: 2.9
  trim: 1.9
strips:
  fixed: 40.5
  screws: [190, 340]
  gauge: 8
  extra: 0.7
"""
# on no legs, which are of other tests: 1300 less 151
CASE = METRIC[: METRIC.index("  split:")].replace("height: 1300", "height: 1149")
SOUND = CASE + DRAWERS
JIG = SOUND.replace(TAILS, "    jig:\n      pin: 4.5\n") + "jig:\n  pitch: 20\n  clearance: 3\n  leftover: top rail\n"
BOX = """piece: Box
unit: in
grid: 1/32
overall: {height: 10, width: 20, depth: 15}
case: {side: 3/4, top: 3/4, bottom: 3/4, divider: 3/4}
rows: {number: 1, rule: equal}
climate: {shop: 8, dry: 7, damp: 12}
wood: {case: {species: black cherry}, front: {species: black cherry}, side: {species: black cherry}}
drawers:
  front: {thickness: 3/4, least gap: 1/16}
  corner: {joint: rebated, lap: 1/4}
  side: {thickness: 1/2, gap: 1/32, least gap: 3/32}
  back: {thickness: 1/2}
  bottom: {kind: sheet, thickness: 1/4, tongue: 1/4, up: 3/8, groove: 1/4, ease: 1/64}
  back room: 3/16
  riding: {no kicker: {1: 3}}
"""
ABOVE = "it must be more than 0: give a size above 0"
OR_MORE = "it must be 0 or more: write 0 where there is none of it"
NO_LENGTH = "cannot be read as a length"
NO_NUMBER = "cannot be read as a number"
A_LIST = "a list should stand here"
NO_ROW = "Row 9 is not there; the rows run from 1 to 7: name one of these"
NO_TAIL = "it must be more than 0: make tails, gaps or slope less"


@cache
def demo(name):
    return read_piece(Path(__file__).parents[2] / "notebooks" / "designs" / f"{name}.yaml")


def made(text):
    return piece_of(DesignText.parse(text))


def hear(text, place, path, *said):
    """The one sentence of the refusal: its line, its path and what it says."""
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, place)}, {path}: "), sentence
    for part in said:
        assert part in sentence, sentence


def slips(table):
    """A table's rows for pytest: the line is that of the slip's last words where none is named."""
    rows = [
        pytest.param(
            *(row if len(row) == 5 else (*row, row[0].splitlines()[-1])),
            id=row[0][:50].replace("\n", " "),
            marks=[pytest.mark.slow] if row[3] in (ABOVE, OR_MORE, A_LIST) else [],  # read as in the other parts
        )
        for row in table
    ]
    return pytest.mark.parametrize(("written", "instead", "path", "said", "place"), rows)
