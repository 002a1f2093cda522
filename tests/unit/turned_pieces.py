"""Pieces on turned legs: the demos, and those that strain the cards for the lathe; how their figures are read back."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

import pytest
from pictures import BARE

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

CHEST, CHEST_INCH, THREE, FOUR = (
    (BARE / f"{name}.yaml").read_text("utf-8")
    for name in ("landing_chest", "landing_chest_inch", "stool_three_legs", "stool_four_legs")
)
PROFILE, ROUND = r"  profile:.*\n(    - .*\n)+", r"  round:.*\n(    .*\n)+"


def profile(*parts):
    return (PROFILE, "  profile:\n" + "".join(f"    - {{shape: {part}}}\n" for part in parts))


def turning(words):
    return (r"  turning:.*\n(    [a-z].*\n)+", f"  turning: {{{words}}}\n")


def many(first, unit, number=38):
    """A tenon, a taper that takes the rest, and beads and coves by turns, each a little thinner than the last."""
    shapes = (
        f"{shape}, diameter: {first - i * 0.01 * first:.2f}, to: {first - (i + 0.8) * 0.01 * first:.2f},"
        f" length: {10 * unit:.4g}, {way}: {2 * unit:.4g}"
        for i in range(number)
        for shape, way in [("bead", "rise") if i % 2 else ("cove", "depth")]
    )
    return profile(f"tenon, diameter: {0.7 * first:.4g}", f"taper, diameter: {first}, to: {first}", *shapes)


TALL = (r"height: 151 ", "height: 400 ")
SQUARES = profile(
    "square, length: 42", "cylinder, diameter: 38, length: 20", "square, length: 30",
    "lamb's tongue, length: 16, to: 38", "cove, length: 14, depth: 4", "square, length: 30",
    "shoulder, length: 14, to: 38", "bead, diameter: 38, length: 12, rise: 3", "taper, diameter: 38, to: 28",
)  # fmt: skip
STOUT = profile("square, length: 42", "bead, diameter: 44, length: 12, rise: 1.5", "taper, diameter: 38, to: 28")
TWENTY = profile(*["square, length: 10", "cylinder, diameter: 44, length: 8"] * 20, "taper, to: 28")
MEASURED = "  stations: {0: 30, 60: 38, 140: 44, 260: 30, 300: 34, 520: 22}\n"
TO_INCH = (
    (r"unit: mm", "unit: in"), (r"grid: 1\n", "grid: 1/32\n"), (r"height: 460 ", "height: 18 "),
    (r"width: 360", "width: 14 1/8"), (r"depth: 260", "depth: 10 1/4"), (r"thickness: 40", "thickness: 1 1/2"),
    (r"largest: 36", "largest: 1 3/8"), (r"foot: 22", "foot: 7/8"), (r"out: 115", "out: 4"),
    (r"front: 85", "front: 3"), (r"rear: 85", "rear: 3"),
)  # fmt: skip
PIECES = {
    "chest": (CHEST,),
    "chest, inch": (CHEST_INCH,),
    "three": (THREE,),
    "four": (FOUR,),
    "four, inch": (FOUR, *TO_INCH, (r"tenon: 25", "tenon: 1\n  turning: {boards: 5/8}")),
    "five plies": (THREE, turning("boards: 9")),
    "one board": (THREE, turning("boards: 50")),
    "own speed": (THREE, turning("speed: 900, good: 1")),
    "no waste": (THREE, turning("waste: 0, kerf: 0.7")),
    "squares": (CHEST, TALL, SQUARES),
    "twenty squares": (CHEST, TALL, TWENTY, (r"    wall: 6 ", "    wall: 4 ")),
    "nearly as thick as its square": (CHEST, STOUT),
    "forty": (THREE, many(34, 1)),
    "forty, inch": (FOUR, *TO_INCH, (ROUND, many(1.375, 1 / 25.4)[1])),
    "measured": (FOUR, (ROUND, f"{MEASURED}  wood: white oak\n  loads: {{push: 5, upright: 25}}\n")),
    "thick": (FOUR, (r"largest: 36", "largest: 110"), (r"foot: 22", "foot: 60"), (r"width: 360", "width: 900"),
              (r"depth: 260", "depth: 900"), (r"out: 115", "out: 260"), (r"front: 85", "front: 260"),
              (r"rear: 85", "rear: 260")),
    "thin": (FOUR, (r"height: 460 ", "height: 300 "), (r"largest: 36", "largest: 13"), (r"foot: 22", "foot: 12"),
             (r"tenon: 25", "tenon: 10")),
    "plumb": (re.sub("rake: [0-9]+, splay: [0-9]+", "rake: 0, splay: 0", FOUR),),
    "a long name": (THREE, (r"piece: .*", "piece: Stool for the bench under the north window of the old mill")),
}  # fmt: skip

# these are laid out in the default run; the rest are slow, and run in CI
FIRST = {"chest", "three", "four, inch", "twenty squares", "nearly as thick as its square", "thick"}
every_turned = pytest.mark.parametrize("name", PIECES)
every_layout = pytest.mark.parametrize(
    "name", [name if name in FIRST else pytest.param(name, marks=pytest.mark.slow) for name in PIECES]
)


@cache
def turned_piece(name):
    text, *edits = PIECES[name]
    for pattern, new in edits:
        text, found = re.subn(pattern, new, text, count=1)
        assert found, pattern
    return piece_of(DesignText.parse(text))


_PLAIN = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄\u202f", "01234567890123456789/ ")


def size_of(words):
    """The size that a plate's figures stand for: 3.6, or a whole number and a fraction."""
    return sum((Fraction(part) for part in words.translate(_PLAIN).split()), Fraction(0))
