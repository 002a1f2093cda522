"""Sound designs at random: the openings are chosen first, so that what is written must close."""

from __future__ import annotations

import math
from fractions import Fraction as F

from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of


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
    }


POSITIONS = ("front left", "front right", "rear left", "rear right")


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
    inset = long(case["inset"])
    return (
        f"piece: Chance\nunit: {unit or case['unit']}\ngrid: {long(case['grid'])}\n"
        f"overall: {{height: {long(case['height'])}, width: {long(case['width'])}, depth: {long(case['depth'])}}}\n"
        f"case:\n{thick}rows:\n  number: {case['rows']}\n  rule: {case['rule']}\n{rule}"
        + (f"  split:\n{split}" if split else "")
        + f"legs:\n  height: {long(case['leg'])}\n  square: {long(case['square'])}\n"
        f"  inset: {{front: {inset}, rear: {inset}, side: {inset}}}\n  lean:\n{lean}"
    )


def made(text):
    return piece_of(DesignText.parse(text))


def made_or_too_small(text):
    """The piece, or nothing where the rule asks for an opening below one grid step."""
    try:
        return made(text)
    except DesignError as error:
        assert "less than one step" in str(error), error
        return None
