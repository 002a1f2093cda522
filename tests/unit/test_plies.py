"""A glued blank: a ply on the axis, never a glue line; as few plies as reach.

The witness lays the stack out board by board and planes it from both outsides to the blank.
"""

from __future__ import annotations

import math

import pytest
import sympy
from chance import by_chance
from hypothesis import assume
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.teach.derive.plies import derive_plies
from furnlib.trade.leg.plies import LEAST_SHARE, glue_line_places, glued_blank, glued_from

thicknesses = st.integers(8, 60)


def laid_out(made):
    """Edges of the plies and faces of the blank, from the first outside, board by board."""
    edges = [0.0]
    for ply in made.plies:
        edges.append(edges[-1] + ply)
    return edges, made.off_outsides[0], edges[-1] - made.off_outsides[1]


@by_chance(st.integers(20, 100), thicknesses, st.integers(0, 12), st.integers(-6, 6), many=100)
def test_laid_out_and_planed_the_blank_is_there_and_its_axis_holds(side, board, spare, shift):
    try:
        made = glued_blank(side, board, spare=spare, axis_shift=shift)
    except DesignError:
        assume(False)
    edges, first, last = laid_out(made)
    assert last - first == pytest.approx(side)
    axis = (first + last) / 2
    assert axis - made.stack / 2 == pytest.approx(shift)
    assert [edge - axis for edge in edges[1:-1]] == pytest.approx(list(made.glue_lines))
    assert made.nearest_line == min((abs(edge - axis) for edge in edges[1:-1]), default=math.inf)
    assert made.nearest_line >= LEAST_SHARE * side * (1 - 1e-9)
    assert first >= spare / 2 - 1e-9  # either outside keeps its half of the spare wood
    assert made.stack - last >= spare / 2 - 1e-9
    assert (len(made.plies) - 1) * board < side + spare + 2 * abs(shift) <= made.stack  # one ply fewer is too thin
    assert all(first < edge < last for edge in edges[1:-1])  # no ply is planed away


@by_chance(st.integers(20, 100), thicknesses, st.integers(0, 12), many=100)
def test_equal_plies_an_odd_number_passes_and_an_even_number_does_not(side, board, spare):
    count = math.ceil((side + spare) / board)
    thick_enough = count == 1 or board >= 2 * LEAST_SHARE * side
    if count % 2 and thick_enough and (count * board - side) / 2 < board:
        assert len(glued_blank(side, board, spare=spare).plies) == count
    elif count % 2 == 0:
        with pytest.raises(DesignError, match="A glue line lies 0 from the axis, and a driven centre splits"):
            glued_blank(side, board, spare=spare)


def test_three_boards_of_20_by_hand():
    """46 + 6 = 52 needs three plies of 20: 60, 7 off either outside, lines 10 to either side of the axis."""
    made = glued_blank(46.0, 26.0, spare=6.0, planing=3.0)
    assert (made.plies, made.stack, made.spare) == ((20.0, 20.0, 20.0), 60.0, 14.0)
    assert (made.glue_lines, made.nearest_line, made.off_outsides) == ((-10.0, 10.0), 10.0, (7.0, 7.0))


def test_a_shift_asks_for_twice_as_much_wood():
    # 46 + 6 is there in two plies of 30, but not with the axis off by 5: 62 needs three
    made = glued_blank(46.0, 30.0, spare=6.0, axis_shift=5.0)
    assert (made.glue_lines, made.off_outsides) == ((-20.0, 10.0), (27.0, 17.0))


def test_one_board_has_no_line():
    made = glued_blank(46.0, 60.0, spare=6.0)
    assert (made.glue_lines, made.nearest_line, made.plies) == ((), math.inf, (60.0,))


def test_two_plies_are_refused_and_the_cure_works():
    with pytest.raises(DesignError) as refused:
        glued_from(46.0, (32.0, 32.0), spare=6.0)
    assert str(refused.value) == (
        "A glue line lies 0 from the axis, and a driven centre splits one nearer than 4.6: glue one ply more, or"
        " plane the outsides unevenly for a shift of 4.6 off the stack's middle, for which the stack must be 61.2 or"
        " more."
    )
    shifted = glued_from(46.0, (32.0, 32.0), spare=6.0, axis_shift=4.6)
    assert shifted.glue_lines == pytest.approx((-4.6,))
    assert shifted.off_outsides == pytest.approx((13.6, 4.4))
    assert glued_from(46.0, (32.0,) * 3, spare=6.0).nearest_line == 16.0


def test_boards_of_different_thicknesses_in_their_order():
    made = glued_from(46.0, (18.0, 24.0, 15.0), spare=6.0)
    assert made.glue_lines == (-10.5, 13.5)  # the middle lies 28.5 from the first outside
    assert glued_from(46.0, (15.0, 24.0, 18.0), spare=6.0).glue_lines == (-13.5, 10.5)
    with pytest.raises(
        DesignError, match=r"lies 1 from the axis.*: put a thicker board in the middle, or .* -3\.6 off"
    ):
        glued_from(46.0, (27.0, 13.0, 12.0), spare=6.0)
    with pytest.raises(DesignError, match="leave the axis in the stack's middle"):
        glued_from(46.0, (24.0, 24.0, 24.0), axis_shift=12.0)


@by_chance(st.lists(st.integers(10, 30), min_size=2, max_size=5), st.integers(1, 8), many=100)
def test_the_shift_that_is_named_is_the_least_that_clears(boards, least):
    stack, side = sum(boards), 20.0
    try:
        glued_from(side, boards, least_distance=least)
    except DesignError as refused:
        assume("shift of " in str(refused))
        shift = float(str(refused).partition("shift of ")[2].partition(" off")[0])
    else:
        return
    places = [sum(boards[:count]) - stack / 2 for count in range(1, len(boards))]
    tried = [step / 4 for step in range(-4 * 20, 4 * 20 + 1)]
    clear = [s for s in tried if all(abs(place - s) >= least for place in places)]
    assert abs(shift) == min(map(abs, clear))
    assert min(abs(place - shift) for place in places) >= least


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: glued_blank(0, 20, spare=6), "side of the blank is 0"),
        (lambda: glued_blank(46, -20, spare=6), "thickness of the boards is -20"),
        (lambda: glued_blank(46, 20, spare=-6), "spare is -6; it must be 0 or more"),
        (lambda: glued_blank(46, 20, spare=6, planing=-1), "planing is -1"),
        (lambda: glued_blank(46, 20, spare=6, planing=10), "thickness that planing leaves is 0"),
        (lambda: glued_blank(46, 20, spare=6, axis_shift=math.nan), "shift of the axis is nan"),
        (lambda: glued_blank(46, 20, spare=6, least_distance=0), "least distance from axis to glue line is 0"),
        (lambda: glued_from(46, ()), "No boards are given"),
        (lambda: glued_from(46, (20, 0, 20)), "finished thickness of a board is 0"),
        (lambda: glued_from(46, (15, 15, 15), spare=6), "make a stack of 45 and the blank needs 52.*: add a ply"),
        (lambda: glued_from(46, (10, 60, 10)), "takes an outer ply of 10 away altogether"),
    ],
)
def test_what_cannot_be_glued_is_said(call, said):
    with pytest.raises(DesignError, match=said):
        call()


def test_thin_plies_cannot_keep_lines_away():
    with pytest.raises(DesignError, match="put a thicker board in the middle"):
        glued_blank(60.0, 6.0, spare=6.0)


@by_chance(st.lists(thicknesses, min_size=1, max_size=6), st.integers(-9, 9), many=100)
def test_turned_end_for_end_the_lines_are_mirrored(boards, shift):
    lines = glue_line_places(boards, shift)
    assert glue_line_places(boards[::-1], -shift) == tuple(-line for line in reversed(lines))


@pytest.mark.parametrize("claim", derive_plies().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    assert claim.difference == sympy.Integer(0)
    one, two, three, equal, shift = sympy.symbols("t_1:4 t e", positive=True)
    point = {one: 18, two: 24, three: 15, equal: 20, shift: 3}
    expected = {
        "plies.lines": glue_line_places((18, 24, 15), 3)[1],
        "plies.even": glue_line_places((20,) * 4, 3)[1],
        "plies.odd": glue_line_places((20,) * 5)[2],
    }[claim.key]
    assert float(claim.running.subs(point)) == float(claim.derived.subs(point)) == expected
