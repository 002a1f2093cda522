"""Sound designs at random: cases whose openings are chosen first, so that what is written must close, and seats."""

from __future__ import annotations

import math
import re
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of


def by_chance(*samples, few=20, many=60, **more):
    """Try a test on a few samples in the default run and on many in the slow one, which CI runs too."""

    def of(test):
        @pytest.mark.parametrize("count", [few, pytest.param(many, marks=pytest.mark.slow)])
        def tried(count):
            settings(deadline=None, derandomize=True, max_examples=count, **more)(given(*samples)(test))()

        tried.__name__, tried.__doc__ = test.__name__, test.__doc__
        return tried

    return of


def text_of(value, unit="mm"):
    """A fraction as the file can hold it exactly."""
    whole, rest = divmod(abs(value), 1)
    sign = "-" if value < 0 else ""
    return f"{sign}{whole}" if not rest else f"{sign}{whole} {rest.numerator}/{rest.denominator}"


@st.composite
def cases(draw):
    """Master sizes in one unit, as exact fractions."""
    unit = draw(st.sampled_from(["mm", "in"]))
    grid = F(1) if unit == "mm" else F(1, 32)
    grid *= draw(st.sampled_from([F(1), F(1, 2), F(5), F(1, 3)]))
    # a few thirds and odd parts, so that nothing but the clear height need lie on the grid
    part = (
        st.fractions(F(5), F(40), max_denominator=16)
        if unit == "mm"
        else st.fractions(F(1, 4), F(2), max_denominator=64)
    )
    rows = draw(st.integers(1, 9))
    least = math.ceil((26 if unit == "mm" else F(33, 32)) / grid)
    steps = draw(st.lists(st.integers(least, least * 6), min_size=rows, max_size=rows))
    openings = [k * grid for k in steps]
    case = {name: draw(part) for name in ("side", "top", "bottom", "divider")}
    leg = draw(part) * 6
    width = 2 * case["side"] + sum(openings) + 4 * case["divider"]
    depth = width * draw(st.fractions(F(1, 2), F(2), max_denominator=8))
    rule = draw(st.sampled_from(["equal", "constant step", "constant ratio", "own list"]))
    clear = sum(openings)
    most = 2 * clear / (rows * max(rows - 1, 1))  # a step of this leaves nothing for the smallest
    return {
        "unit": unit,
        "grid": grid,
        "height": case["top"] + clear + case["divider"] * (rows - 1) + case["bottom"] + leg,
        "width": width,
        "depth": depth,
        "case": case,
        "rows": rows,
        "rule": rule,
        "step": most * draw(st.fractions(F(-1, 2), F(1, 2), max_denominator=8)),
        "ratio": draw(st.fractions(F(3, 4), F(4, 3), max_denominator=12)),
        "openings": openings,
        "split": draw(st.dictionaries(st.integers(1, rows), st.integers(2, 4), max_size=2)),
        "leg": leg,
        "square": leg / 4,
        "inset": min(leg / 5, width / 4, depth / 4),
        "lean": draw(st.lists(st.tuples(st.integers(0, 15), st.integers(0, 15)), min_size=4, max_size=4)),
        "orientation": draw(st.sampled_from(ORIENTATIONS)),
        "slip": leg / draw(st.integers(20, 400)),
        "screw": draw(st.booleans()),
        "profile": draw(st.sampled_from([None, *BELOW_A_SQUARE])),
    }


POSITIONS = ("front left", "front right", "rear left", "rear right")
ORIENTATIONS = ("untwisted", "front_level", "side_level", "sightline", "sightline_corner")


def written(case, unit=None, factor=F(1)):
    """A design file, every length of it times a factor."""

    def long(value):
        return text_of(value * factor)

    rule = {
        "equal": "",
        "constant step": f"  step: {long(case['step'])}\n",
        "constant ratio": f"  ratio: {text_of(case['ratio'])}\n",
        "own list": f"  openings: [{', '.join(map(long, case['openings']))}]\n",
    }[case["rule"]]
    split = "".join(f"    {row}: {count}\n" for row, count in case["split"].items())
    thick = "".join(f"  {name}: {long(value)}\n" for name, value in case["case"].items())
    lean = "".join(
        f"    {position}: {{rake: {rake}, splay: {splay}}}\n"
        for position, (rake, splay) in zip(POSITIONS, case["lean"], strict=True)
    )
    inset, square = long(case["inset"]), case["square"]

    def of_square(share):
        return long(square * share)

    turned = ""
    if case["profile"]:
        turned = written_profile(BELOW_A_SQUARE[case["profile"]], of_square) + allowances(of_square)
    fixing = (
        f"  fixing: {{diameter: {long(square / 6)}, depth: {long(square)}, wall: {long(square / 9)},"
        f" pin: {long(square / 8)}, pin depth: {long(square / 2)}}}\n"
    )
    return (
        f"piece: Chance\nunit: {unit or case['unit']}\ngrid: {long(case['grid'])}\n"
        f"overall: {{height: {long(case['height'])}, width: {long(case['width'])}, depth: {long(case['depth'])}}}\n"
        f"case:\n{thick}rows:\n  number: {case['rows']}\n  rule: {case['rule']}\n{rule}"
        + (f"  split:\n{split}" if split else "")
        + f"legs:\n  height: {long(case['leg'])}\n  square: {long(case['square'])}\n{turned}"
        f"  inset: {{front: {inset}, rear: {inset}, side: {inset}}}\n  orientation: {case['orientation']}\n"
        f"  slips: {{total lean: 0.5, sight line: 1, length: {long(case['slip'])}}}\n"
        f"{fixing if case['screw'] else ''}  lean:\n{lean}"
    )


@st.composite
def seats(draw):
    """Master sizes of a seat on three or four legs, in mm as exact fractions."""
    part = st.fractions(F(1, 2), F(3, 2), max_denominator=8)
    three = draw(st.booleans())
    steep = st.integers(-3, 18)
    leans = {position: (draw(steep), draw(steep)) for position in POSITIONS[: 2 if three else 4]}
    if three:
        leans["rear"] = (draw(st.integers(5, 20)), draw(st.integers(-3, 3)))
    return {
        "unit": "mm",
        "height": 450 * draw(part),
        "width": 380 * draw(part),
        "depth": 300 * draw(part),
        "thickness": 36 * draw(part),
        "pitch": draw(st.sampled_from([0, 0, 3, 8, -4])),
        "outline": draw(st.sampled_from(["rectangle", "round", "D"])),
        "square": draw(st.booleans()),
        "section": 32 * draw(part),
        "orientation": draw(st.sampled_from(ORIENTATIONS)),
        "slip": draw(part),
        "leans": leans,
        "profile": draw(st.sampled_from([None, *PROFILES])),
    }


# Turned below a tenon, or below a square; (shape, length, diameter, to, rise or depth) in parts of the section,
# the length left open taking the rest
PROFILES = {
    "taper": (("tenon", None, F(2, 3)), ("taper", "rest", 1, F(2, 3))),
    "blind": (("tenon", F(1, 2), F(3, 4)), ("bead", F(1, 2), F(3, 4), F(5, 6), F(1, 8)), ("taper", "rest", 1, F(2, 3))),
    "vase": (
        ("tenon", None, F(3, 5)),
        ("fillet", F(1, 8), F(4, 5)),
        ("ogee", 1, F(4, 5), 1, F(1, 16)),
        ("cylinder", "rest", 1),
        ("cove", F(1, 2), 1, F(4, 5), F(1, 12)),
    ),
}
BELOW_A_SQUARE = {
    "neck": (
        ("square", F(1, 2)),
        ("bead", F(1, 5), F(4, 5), F(4, 5), F(1, 20)),
        ("cove", F(1, 3), F(4, 5), F(4, 5), F(1, 12)),
        ("taper", "rest", F(4, 5), F(3, 5)),
    ),
    "tongue": (("square", F(3, 4)), ("lamb's tongue", F(1, 2), None, F(9, 10)), ("taper", "rest", F(9, 10), F(2, 3))),
}


def written_profile(parts, long):
    """The legs' part of a file: elements, an element a line."""
    lines = []
    for shape, length, *sizes in parts:
        names = ("diameter", "to", "depth" if shape == "cove" else "rise")
        said = {"length": None if length == "rest" else length, **dict(zip(names, sizes, strict=False))}
        told = "".join(f", {name}: {long(value)}" for name, value in said.items() if value is not None)
        lines.append(f"    - {{shape: {shape}{told}}}\n")
    return f"  profile:\n{''.join(lines)}"


def allowances(long):
    """What is left on at the lathe, where the design says all of it."""
    sizes = {"roughing": F(1, 30), "centring": F(1, 60), "waste": F(1, 2), "kerf": F(1, 10), "finishing": F(1, 60)}
    return f"  turning: {{{', '.join(f'{name}: {long(size)}' for name, size in sizes.items())}}}\n"


def written_seat(seat, factor=F(1)):
    """A design file of a seat, every length of it times a factor."""

    def long(value):
        return text_of(value * factor)

    section, width, depth = seat["section"], seat["width"], seat["depth"]

    def of_section(share):
        return long(section * share)

    square = f"  square: {long(section)}\n  orientation: {seat['orientation']}\n"
    turned = f"  round: {{largest: {long(section)}, foot: {long(section / 2)}, tenon: {long(section * 2 / 3)}}}\n"
    if seat["profile"]:
        turned = written_profile(PROFILES[seat["profile"]], of_section)
    turned += allowances(of_section)
    leans = "".join(f"    {name}: {{rake: {r}, splay: {s}}}\n" for name, (r, s) in seat["leans"].items())
    return (
        f"piece: Chance\nunit: {seat['unit']}\ngrid: {long(F(1))}\n"
        f"overall: {{height: {long(seat['height'])}, width: {long(width)}, depth: {long(depth)}}}\n"
        f"seat: {{thickness: {long(seat['thickness'])}, pitch: {seat['pitch']}, outline: {seat['outline']}}}\n"
        f"legs:\n{square if seat['square'] else turned}"
        f"  mortises: {{out: {long(width * F(3, 10))}, front: {long(depth * F(3, 10))}, rear: {long(depth / 4)}}}\n"
        f"  slips: {{total lean: 0.5, sight line: 1.5, length: {long(seat['slip'])}}}\n  lean:\n{leans}"
    )


def made(text):
    return piece_of(DesignText.parse(text))


def made_or_refused(text):
    """The seat, or nothing where its mortises break out or meet, a foot strays, or a leg is too slim to be turned."""
    try:
        return made(text)
    except DesignError as error:
        assert re.search("breaks out|and meet|past that of|among the other three|no steady holds", str(error)), error
        return None


def made_or_too_small(text):
    """The piece, or nothing where the rule asks for an opening below one grid step."""
    try:
        return made(text)
    except DesignError as error:
        allowed = "less than one step|no steady holds|has no room beside a screw|reaches past the square"
        assert re.search(allowed, str(error)), error
        return None
