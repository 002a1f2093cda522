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
    (r"out: 115", "out: 4 1/2"),
    (r"front: 85", "front: 3 3/8"),
    (r"rear: 85", "rear: 3 3/8"),
    (r"length: 0\.5", "length: 1/64"),
)
LEGS_IN_INCHES = {
    "stool_four_legs": (
        (r"largest: 36", "largest: 1 7/16"),
        (r"foot: 22", "foot: 7/8"),
        (r"tenon: 25", "tenon: 1"),
    ),
    "stool_three_legs": (
        (r"diameter: 25", "diameter: 1"),
        (r"diameter: 28, to: 32, length: 150", "diameter: 1 1/8, to: 1 1/4, length: 6"),
        (r"length: 14, depth: 4", "length: 9/16, depth: 5/32"),
        (r"diameter: 30, length: 14, rise: 3", "diameter: 1 3/16, length: 9/16, rise: 1/8"),
        (r"diameter: 32", "diameter: 1 1/4"),
        (r"to: 22", "to: 7/8"),
        (r"boards: 16", "boards: 5/8"),
    ),
}


@cache
def stool(name, unit="mm", *edits):
    twin = (*INCH_TWIN, *LEGS_IN_INCHES[name]) if unit == "in" else ()
    return piece_of(DesignText.parse(changed(text_of(name), *twin, *edits)))


def leg(piece, position):
    (found,) = [leg for leg in piece.legs if leg.position == position]
    return found


def size(piece, name):
    (found,) = [size for size in piece.sizes if size.name == name]
    return found
