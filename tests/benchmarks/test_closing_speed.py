"""How long closing takes as rows are added: beside rounding each opening alone, in the same exact fractions.

Two kinds of field: steps that grow, which take the whole search down to the squares, and thirds all
alike, which no set with steps that never shrink can close. More rows than a chest may have are closed
as well, so that the search is known not to run away.
"""

from fractions import Fraction
from itertools import accumulate

import pytest

from furnlib.trade.drawer.closing import close_on_grid, fit_to_pitch
from furnlib.trade.drawer.graduation import constant_ratio

HALF = Fraction(1, 2)
ROUNDS = 7
GOALS = {200: 60, 1000: 400}
"""By rows: goal in ms, with room for a busy machine."""


def beside_rounding(in_turns, judge, close, ideal, name, goal, most):
    """Close, and round each opening alone fifty times; judge the ratio and the time."""
    ours, rounding = in_turns(close, lambda: [[round(h / HALF) for h in ideal] for _ in range(50)], ROUNDS)
    note = f"{ours * 1e3:.2f} ms / {rounding * 1e3:.2f} ms"
    judge(f"{name} / rounding each alone, fifty times", ours / rounding, most, note=note)
    judge(name, ours * 1e3, goal, " ms")


@pytest.mark.parametrize(("clear", "ratio"), [(2000, "1.05"), (5000, "1.03")])
def test_closing_40_rows_on_half_a_millimetre(in_turns, judge, clear, ratio):
    """Among the slowest of 88 fields and rules that were tried; both take the whole search."""
    ideal = constant_ratio(Fraction(clear), 40, Fraction(ratio))
    closed = close_on_grid(ideal, HALF)
    assert sum(closed.openings) == clear
    assert closed.steps_never_shrink
    name = f"closing {clear} mm in 40 rows at a ratio of {ratio}"
    beside_rounding(in_turns, judge, lambda: close_on_grid(ideal, HALF), ideal, name, 5, 1)


def ideals(rows, wished):
    """Openings that add up to whole mm: steps that grow by a seventh, or thirds all alike."""
    if not wished:
        return [Fraction(31, 3)] * (rows - rows % 3)
    *openings, last = accumulate((Fraction(row, 7) for row in range(rows - 1)), initial=Fraction(50))
    return [*openings, last + -(sum(openings) + last) % 1]


CLOSE = {
    "on a grid": lambda ideal: close_on_grid(ideal, Fraction(1)),
    "on a pitch": lambda ideal: fit_to_pitch(ideal, Fraction(1), Fraction(0)),
}


@pytest.mark.parametrize("wished", [True, False], ids=["never shrinks", "no such set"])
@pytest.mark.parametrize("rows", GOALS)
@pytest.mark.parametrize("how", CLOSE)
def test_closing_many_rows(in_turns, judge, rows, wished, how):
    ideal = ideals(rows, wished)
    found = CLOSE[how](ideal)
    assert found.steps_never_shrink is wished
    assert 0 <= sum(ideal) - sum(found.openings) < 1
    name = f"{len(ideal)} rows {how}, {'never shrinking' if wished else 'no such set'}"
    beside_rounding(in_turns, judge, lambda: CLOSE[how](ideal), ideal, name, GOALS[rows], 2)
