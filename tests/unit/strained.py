"""Pieces that strain a plate: the demo's figures, and what else a maker may think of."""

from __future__ import annotations

import re
from functools import cache

import pytest
from leg_shapes import low_chest
from pictures import BARE, DESIGNS

from furnlib.draw.plates import plates_of
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

METRIC = """piece: Chest
unit: mm
grid: 1
overall: {height: 1300, width: 520, depth: 380}
case: {side: 20, top: 20, bottom: 20, divider: 18}
rows: {number: 7, rule: constant step, step: 20, split: {1: 2}}
legs:
  height: 151
  square: 48
  inset: {front: 45, rear: 40, side: 45}
  lean:
    front left: {rake: 8, splay: 6}
    front right: {rake: 8, splay: 6}
    rear left: {rake: 0, splay: 6}
    rear right: {rake: 0, splay: 6}
"""
STOOL = """piece: Stool
unit: mm
grid: 1
overall: {height: 460, width: 360, depth: 260}
seat: {thickness: 40, pitch: 0, outline: rectangle}
legs:
  round: {largest: 36, foot: 22, tenon: 25}
  mortises: {out: 115, front: 85, rear: 85}
  lean:
    front left: {rake: 10, splay: 12}
    front right: {rake: 10, splay: 12}
    rear left: {rake: 16, splay: 12}
    rear right: {rake: 16, splay: 12}
"""
INCH_STOOL = """piece: Stool, inch shop
unit: in
grid: 1/32
overall: {height: 18, width: 14 1/8, depth: 10 1/4}
seat: {thickness: 1 1/2, pitch: 0, outline: D}
legs:
  round: {largest: 1 7/16, foot: 7/8, tenon: 1}
  mortises: {out: 4 1/2, front: 3 3/8, rear: 3 3/8}
  lean:
    front left: {rake: 8, splay: 14}
    front right: {rake: 8, splay: 14}
    rear: {rake: 18, splay: 0}
"""
INCH = """piece: Chest, inch shop
unit: in
grid: 1/32
overall: {height: 50, width: 20, depth: 15}
case: {side: 3/4, top: 3/4, bottom: 3/4, divider: 3/4}
rows: {number: 7, rule: constant step, step: 3/4, split: {1: 2}}
legs:
  height: 6 3/8
  square: 1 7/8
  inset: {front: 1 3/4, rear: 1 9/16, side: 1 3/4}
  lean:
    front left: {rake: 8, splay: 6}
    front right: {rake: 8, splay: 6}
    rear left: {rake: 0, splay: 6}
    rear right: {rake: 0, splay: 6}
"""

LOW, LOW_INCH = ((BARE / f"low_media_case{shop}.yaml").read_text(encoding="utf-8") for shop in ("", "_inch"))
WHOLE, WHOLE_INCH, BAY, BAY_INCH, TRAYS, TRAYS_INCH = (
    (DESIGNS / f"{name}{shop}.yaml").read_text(encoding="utf-8")
    for name in ("landing_chest", "low_media_case", "abrasive_cabinet")
    for shop in ("", "_inch")
)


def leans(front_left, front_right, rear_left, rear_right):
    return (
        r"lean:\n(.*\n)+",
        f"lean:\n    front left: {{{front_left}}}\n    front right: {{{front_right}}}\n"
        f"    rear left: {{{rear_left}}}\n    rear right: {{{rear_right}}}\n",
    )


def facing(orientation):
    return (r"square: (.*)", rf"square: \1\n  orientation: {orientation}")


def pitched(pitch_deg):
    return (r"pitch: 0", f"pitch: {pitch_deg}")


FIXED = (r"square: 48", "square: 48\n  fixing: {diameter: 8, depth: 60, wall: 6, pin: 6, pin depth: 25}")
FIXED_INCH = (
    r"square: 1 7/8",
    "square: 1 7/8\n  fixing: {diameter: 5/16, depth: 2 3/8, wall: 1/4, pin: 1/4, pin depth: 1}",
)
TURNED = (r"square: 48", "round: {largest: 48, foot: 26, tenon: 25}")
SQUARE = (r"round: {.*}", "square: 32")
THREE = (r"rear left: .*\n    rear right: .*", "rear: {rake: 18, splay: 0}")
IN_FRONT = (
    r"front left: .*\n    front right: .*\n    rear left: .*\n    rear right: .*",
    "front: {rake: 18, splay: 0}\n    rear left: {rake: 8, splay: 14}\n    rear right: {rake: 8, splay: 14}",
)
CLOSER = (r"out: 115, front: 85, rear: 85", "out: 100, front: 70, rear: 70")
NO_LEGS = (r"legs:\n(.*\n)+", "")
FOUR = leans("rake: 8, splay: 6", "rake: 4, splay: 11", "rake: 1.5, splay: 6", "total lean: 12.25, sight line: 70")
INWARD = leans("rake: -5, splay: 6", "rake: -5, splay: 6", "rake: 8, splay: -3", "rake: 8, splay: -3")
STEEP = leans("rake: 25, splay: 6", "rake: 25, splay: 6", "rake: 8, splay: 20", "rake: 8, splay: 20")
PLUMB = leans(*["rake: 0, splay: 0"] * 4)
SMALL = (
    (r"overall: {.*}", "overall: {height: 90, width: 80, depth: 60}"),
    (r"case: {.*}", "case: {side: 6, top: 6, bottom: 6, divider: 4}"),
    (r"rows: {.*}", "rows: {number: 2, rule: constant step, step: 6, split: {1: 2}}"),
)
SMALL_LEGS = (
    (r"height: 151", "height: 15"),
    (r"square: 48", "square: 8"),
    (r"inset: {.*}", "inset: {front: 8, rear: 8, side: 8}"),
)
FORTY = (r"rows: {.*}", "rows: {number: 40, rule: equal, split: {1: 2}}")
JIG = (r"legs:", "jig: {pitch: 20, clearance: 3, leftover: leg}\nlegs:")
JIG_INCH = (r"legs:", "jig: {pitch: 7/8, clearance: 1/8, leftover: top rail}\nlegs:")
BANKS = (
    r"divider: 18",
    "divider: 18, divider step: 1, bottom rail: 30, partition: 18,"
    " bays: [{open: no}, {width: 150, open: no, rows: {number: 3, rule: equal}}]",
)
MEASURED = (r"legs:", "as built: [{openings: {1: 82.5, 4: 143.6}, width: 478.8}]\nlegs:")
STANDING = (  # on the floor: 395 less the leg's 151
    (r"\nlegs:\n(  .*\n)+", ""), (r"height: 395", "height: 244"), (r"leftover: leg", "leftover: top rail"),
)  # fmt: skip
NAME = "Tall chest of drawers for the half-landing of the old mill"

PIECES = {
    "metric": (METRIC,),
    "inch": (INCH,),
    "no legs": (METRIC, NO_LEGS),
    "no legs, inch": (INCH, NO_LEGS),
    "one row": (METRIC, (r"number: 7", "number: 1")),
    "forty rows": (METRIC, FORTY, (r"divider: 18", "divider: 6")),
    "forty rows, inch": (INCH, FORTY, (r"divider: 3/4", "divider: 1/4")),
    "twenty-four rows": (
        METRIC,
        (r"number: 7", "number: 24"),
        (r"step: 20", "step: 1"),
        (r"divider: 18", "divider: 6"),
    ),
    "four leans": (METRIC, FOUR),
    "four leans, inch": (INCH, FOUR),
    "feet inward": (METRIC, INWARD),
    "steep": (METRIC, STEEP),
    "plumb": (METRIC, PLUMB),
    "very wide": (
        METRIC,
        (r"height: 1300, width: 520", "height: 400, width: 3000"),
        (r"number: 7, rule: constant step, step: 20, split: {1: 2}", "number: 1, rule: equal, split: {1: 5}"),
    ),
    "very wide, inch": (
        INCH,
        (r"height: 50, width: 20", "height: 16, width: 120"),
        (r"number: 7, rule: constant step, step: 3/4, split: {1: 2}", "number: 1, rule: equal, split: {1: 5}"),
    ),
    "very tall": (METRIC, (r"height: 1300, width: 520", "height: 2600, width: 300"), (r"step: 20", "step: 1")),
    "very deep": (METRIC, (r"depth: 380", "depth: 1500")),
    "a bay": (LOW,),
    "a bay, inch": (LOW_INCH,),
    "a bay, rows split, a middle leg that leans": (
        LOW_INCH,
        (r"  ratio: 1.3", "  split: {1: 3, 2: 2}\n  ratio: 1.3"),
        (r"middle: {.*?}", "middle: {rake: -6, splay: 9}"),
    ),
    "a bay, no legs": (LOW, NO_LEGS),
    "a middle leg and no bay": (METRIC, FOUR, (r"rear left:", "middle: {rake: 3, splay: 0}\n    rear left:")),
    "small box": (METRIC, NO_LEGS, *SMALL),
    "small box on legs": (METRIC, *SMALL, *SMALL_LEGS),
    "own list": (METRIC, (r"constant step, step: 20", "own list, openings: [203, 183, 163, 143, 123, 103, 83]")),
    "a ratio": (METRIC, (r"constant step, step: 20", "constant ratio, ratio: 1.16")),
    "a ratio, inch": (INCH, (r"constant step, step: 3/4", "constant ratio, ratio: 1.16")),
    "many side by side": (METRIC, (r"split: {1: 2}", "split: {1: 2, 2: 3, 3: 4, 4: 12}")),
    "a screw in each leg": (METRIC, FIXED),
    "a screw in each leg, inch": (INCH, FIXED_INCH),
    "turned legs": (METRIC, TURNED),
    "front level": (METRIC, FOUR, facing("front_level")),
    "side level": (METRIC, FIXED, facing("side_level")),
    "on the sight line": (METRIC, facing("sightline")),
    "on the sight line, inch": (INCH, facing("sightline")),
    "corner foremost": (METRIC, STEEP, facing("sightline_corner")),
    "a jig, left over": (METRIC, (r"height: 1300", "height: 1309"), JIG),
    "a jig, left over, inch": (INCH, JIG_INCH),
    "banks of two kinds": (METRIC, BANKS, (r"grid: 1", "grid: 0.5")),
    "measured": (METRIC, MEASURED),
    "two rows of drawers": (low_chest(WHOLE), *STANDING),
    "a chest of drawers": (WHOLE,),
    "a chest of drawers, inch": (WHOLE_INCH,),
    "a bay of drawers": (BAY,),
    "a bay of drawers, inch": (BAY_INCH,),
    "trays": (TRAYS,),
    "trays, inch": (TRAYS_INCH,),
    "stool": (STOOL,),
    "stool on three legs": (STOOL, THREE),
    "stool, one leg in front": (STOOL, IN_FRONT),
    "stool, a leg leaning aside": (STOOL, (THREE[0], "rear: {rake: 18, splay: 6}")),
    "stool, inch": (INCH_STOOL,),
    "stool, inch, pitched": (INCH_STOOL, pitched(4)),
    "round seat": (STOOL, CLOSER, (r"outline: rectangle", "outline: round")),
    "D seat": (STOOL, CLOSER, (r"outline: rectangle", "outline: D")),
    "pitched seat": (STOOL, pitched(5)),
    "pitched far past a front leg": (STOOL, pitched(14)),
    "pitched forward": (STOOL, pitched(-6)),
    "pitched round seat on three legs": (STOOL, CLOSER, THREE, pitched(8), (r"outline: rectangle", "outline: round")),
    "square legs under a seat": (STOOL, SQUARE),
    "square legs under a pitched seat": (STOOL, SQUARE, facing("front_level"), pitched(3)),
    "seat, feet inward": (STOOL, leans("rake: -4, splay: -3", "rake: -4, splay: -3", *["rake: -6, splay: 5"] * 2)),
    "a bench": (
        STOOL,
        (r"width: 360, depth: 260", "width: 1200, depth: 300"),
        (r"out: 115", "out: 480"),
    ),
    "a low stool": (STOOL, (r"height: 460", "height: 150"), (r"thickness: 40", "thickness: 30")),
    "a long name": (METRIC, (r"piece: .*", f"piece: {NAME}")),
    "a long name, inch": (INCH, (r"piece: .*", "piece: WARDROBE WITH MANY ROOMY DRAWERS AND A COMMODIOUS WARM CUBBY")),
}


def edited_piece(text, *edits):
    """The piece of a design file in which each pattern has been replaced once."""
    for pattern, new in edits:
        text, found = re.subn(pattern, new, text, count=1)
        assert found, pattern
    return piece_of(DesignText.parse(text))


@cache
def piece(name):
    return edited_piece(*PIECES[name])


@cache
def plates(name):
    return plates_of(piece(name))


# these in the default run; the rest are slow, and run in CI
FIRST = {
    "inch", "forty rows, inch", "four leans", "steep", "small box", "turned legs", "a bay, inch",
    "a screw in each leg, inch", "stool, inch, pitched", "square legs under a pitched seat", "two rows of drawers",
}  # fmt: skip
every_piece = pytest.mark.parametrize(
    "name", [name if name in FIRST else pytest.param(name, marks=pytest.mark.slow) for name in PIECES]
)


def kind_of(plate):
    """What a plate shows, whichever of several sheets it is."""
    return plate.name.rstrip(" 0123456789")
