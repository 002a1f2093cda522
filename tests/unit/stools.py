"""The stools of the demo designs, changed here and there, and the class piece's twin in inches."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
THREE, FOUR, PRACTICE = "stool_three_legs", "stool_four_legs", "practice_stool"


def text_of(name):
    return (DESIGNS / f"{name}.yaml").read_text()


def changed(text, *edits):
    for pattern, new in edits:
        text, found = re.subn(pattern, new, text)
        assert found, pattern
    return text


INCH_TWIN = (
    (r"unit: mm", "unit: in"),
    (r"grid: 1\b", "grid: 1/32"),
    (r"height: 460", "height: 18"),
    (r"width: 360", "width: 14 1/8"),
    (r"depth: 260", "depth: 10 1/4"),
    (r"thickness: 40", "thickness: 1 1/2"),
    (r"largest: 36", "largest: 1 7/16"),
    (r"foot: 22", "foot: 7/8"),
    (r"tenon: 25", "tenon: 1"),
    (r"out: 115", "out: 4 1/2"),
    (r"front: 85", "front: 3 3/8"),
    (r"rear: 85", "rear: 3 3/8"),
    (r"length: 0.5", "length: 1/64"),
)


@cache
def stool(name, unit="mm", *edits):
    return piece_of(DesignText.parse(changed(text_of(name), *(INCH_TWIN if unit == "in" else ()), *edits)))


def leg(piece, position):
    (found,) = [leg for leg in piece.legs if leg.position == position]
    return found


def size(piece, name):
    (found,) = [size for size in piece.sizes if size.name == name]
    return found
