"""Fronts from one board: where they lie, how the figure jumps, and the triangle that keeps them in order.

The witness of a run is a board of small whole cells, sawn and trimmed cell by cell; what stays is put
up as the piece is, and the figure is read off the cells.
"""

from fractions import Fraction
from itertools import combinations, pairwise, product

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, box

from furnlib.base.guards import DesignError
from furnlib.teach.derive.grain_run import derive_grain_run
from furnlib.trade.drawer.grain_run import (
    RunPart,
    figure_jump,
    grain_run,
    removed_by_cuts,
    set_triangle,
    spacer_length,
)

steady = settings(deadline=None, derandomize=True, max_examples=25)


def front(name, length=229, across=80):
    return RunPart(name, Fraction(length), Fraction(across))


def divider(thickness=18, from_board=False, across=83):
    return RunPart("divider", Fraction(thickness), Fraction(across), "divider", from_board)


def row_1(spacers=True, from_board=False):
    """The split row of the landing chest: 1 of gap to either side of each front, kerf 3, trim 2."""
    parts = [front("left"), divider(from_board=from_board), front("right")]
    return grain_run(parts, [Fraction(1), Fraction(1)], Fraction(3), Fraction(2), spacers=spacers)


def test_the_split_row_by_hand():
    """Kerf 3 and trim 2 go, 18 and two gaps of 1 are seen: 5 - 20 = -15; 15 more are a kerf and 12."""
    tight, spaced = row_1(spacers=False), row_1()
    (joint,) = tight.joints
    assert (joint.neighbours, joint.between) == (("left", "right"), ("divider",))
    assert (joint.removed, joint.seen, joint.jump, joint.spacer) == (5, 20, -15, 0)
    (joint,) = spaced.joints
    assert (joint.removed, joint.seen, joint.jump, joint.spacer, joint.jump_tight) == (20, 20, 0, 12, -15)
    assert joint.jump_with_divider == 2 * 3 + 4 - 2  # 2 kerfs + trims - gaps
    # two fronts of 229, two trims of 2, kerf 3: 465; the spacer and its kerf make it 480, the inside width
    assert (tight.length, spaced.length) == (465, 480)
    assert tight.width == spaced.width == 80 + 2
    assert [(place.name, place.kind, place.start, place.end) for place in spaced.places] == [
        ("trim", "trim", 0, 1),
        ("left", "front", 1, 230),
        ("trim", "trim", 230, 231),
        ("kerf", "kerf", 231, 234),
        ("spacer", "spacer", 234, 246),
        ("kerf", "kerf", 246, 249),
        ("trim", "trim", 249, 250),
        ("right", "front", 250, 479),
        ("trim", "trim", 479, 480),
    ]
    assert [(place.kind, place.start, place.length) for place in spaced.as_seen] == [
        ("front", 0, 229),
        ("gap", 229, 1),
        ("divider", 230, 18),
        ("gap", 248, 1),
        ("front", 249, 229),
    ]


def test_a_divider_from_the_same_board_is_a_piece_of_the_run():
    run = row_1(from_board=True)
    assert [place.name for place in run.places if place.kind in ("front", "divider")] == ["left", "divider", "right"]
    # each gap of 1 hides less than kerf and trim took: 5 - 1 at either side of it, and no spacer brings wood back
    assert [(joint.jump, joint.spacer, joint.between) for joint in run.joints] == [(4, 0, ())] * 2
    assert sum(joint.jump for joint in run.joints) == row_1().joints[0].jump_with_divider
    assert run.width == 83 + 2  # the divider is the largest across


def test_down_the_case_the_heights_run_across_the_board():
    """Seven rows of the landing chest, 18 between them: openings less 1 below and 2 above; kerf 3, trim 2."""
    openings = (83, 103, 123, 143, 163, 183, 203)
    parts, gaps = [], []
    for number, opening in enumerate(openings, 1):
        parts += [front(f"row {number}", opening - 3, 478), divider()]
        gaps += [1, 2]
    run = grain_run(parts[:-1], [Fraction(gap) for gap in gaps[:-2]], Fraction(3), Fraction(2))
    assert {joint.jump for joint in run.joints} == {0}
    assert {joint.spacer for joint in run.joints} == {18 + 3 - 2 * 3 - 2}
    # the figure runs through, so the run is as long as it is seen: 1001 + 6 x 18 less the outermost gaps, and a trim
    assert run.length == 1001 + 108 - 3 + 2
    assert run.as_seen[-1].end == 1001 + 108 - 3
    assert run.width == 478 + 2


def test_inch_sizes_stay_exact():
    parts = [RunPart(name, Fraction(141, 16), Fraction(3)) for name in ("left", "right")]
    parts.insert(1, RunPart("divider", Fraction(3, 4), Fraction(25, 8), "divider", from_board=False))
    run = grain_run(parts, [Fraction(1, 32)] * 2, Fraction(1, 8), Fraction(1, 16))
    assert run.joints[0].spacer == Fraction(3, 4) + Fraction(1, 16) - Fraction(1, 4) - Fraction(1, 16) == Fraction(1, 2)
    sizes = [size for place in (*run.places, *run.as_seen) for size in (place.start, place.length)]
    assert float not in {type(size) for size in (*sizes, run.length, run.width)}


@pytest.mark.parametrize(
    ("gap", "spacer", "jump", "kinds"),
    [
        (20, 12, 0, ["trim", "kerf", "spacer", "kerf", "trim"]),
        (9, 1, 0, ["trim", "kerf", "spacer", "kerf", "trim"]),
        (8, 0, 0, ["trim", "kerf", "trim", "trim"]),  # a second kerf and nothing between: trimmed away
        (6, 0, 0, ["trim", "kerf", "trim", "trim"]),
        (5, 0, 0, ["trim", "kerf", "trim"]),
        (1, 0, 4, ["trim", "kerf", "trim"]),  # more is gone than can be hidden
        (0, 0, 5, ["trim", "kerf", "trim"]),
    ],
)
def test_what_is_seen_decides_what_is_thrown_away(gap, spacer, jump, kinds):
    run = grain_run([front("a"), front("b")], [Fraction(gap)], Fraction(3), Fraction(2))
    assert (run.joints[0].spacer, run.joints[0].jump) == (spacer, jump)
    assert [place.kind for place in run.places[2:-2]] == kinds


def cells_of(run):
    """Saw a board of cells by the run's list, by kind and length alone: what each kept piece is made of."""
    board, kept = list(range(int(run.length))), {}
    for place in run.places:
        taken, board = board[: int(place.length)], board[int(place.length) :]
        if place.kind in ("front", "divider"):
            kept[place.name] = taken
    assert not board
    return kept


whole = st.integers(0, 30)
some = st.integers(1, 30)


@steady
@given(
    st.lists(st.tuples(some, whole, st.booleans(), whole, whole), min_size=1, max_size=5),
    st.integers(1, 6),
    st.integers(0, 3),
    st.booleans(),
)
def test_the_figure_jumps_as_it_does_on_a_board_of_cells(made, kerf, half_trim, spacers):
    """Fronts with or without dividers between them; the figure is the number of each cell."""
    parts, gaps = [], []
    for number, (length, thickness, from_board, above, below) in enumerate(made):
        parts.append(front(f"front {number}", length))
        gaps.append(Fraction(above))
        if thickness:
            name = f"divider {number}"
            parts.append(RunPart(name, Fraction(thickness), Fraction(9), "divider", from_board))
            gaps.append(Fraction(below))
    parts.append(front("last", 7))
    run = grain_run(parts, gaps, Fraction(kerf), Fraction(2 * half_trim), spacers=spacers)
    cells = cells_of(run)
    seen_at, at = {}, 0
    for part, gap in zip(parts, [*gaps, 0], strict=True):
        seen_at[part.name] = at
        at += part.length + gap
    assert {place.name: place.start for place in run.as_seen if place.kind != "gap"} == seen_at
    assert list(cells) == [part.name for part in parts if part.from_board]
    for joint, (one, other) in zip(run.joints, pairwise(cells), strict=True):
        assert joint.neighbours == (one, other)
        lost = cells[other][0] - cells[one][-1] - 1
        assert joint.removed == lost
        shifted = [cells[name][0] - seen_at[name] for name in (one, other)]
        assert joint.jump == shifted[1] - shifted[0]
        if spacers:
            assert joint.jump == max(0, joint.jump_tight)
        else:
            assert (joint.jump, joint.spacer) == (joint.jump_tight, 0)


@steady
@given(
    st.lists(some, min_size=2, max_size=5), st.lists(whole, min_size=4, max_size=4), st.integers(1, 6), st.booleans()
)
def test_from_the_other_end_the_run_is_the_same_turned_round(lengths, gaps, kerf, spacers):
    parts = [front(f"front {number}", length) for number, length in enumerate(lengths)]
    shown = [Fraction(gap) for gap in gaps[: len(parts) - 1]]
    run = grain_run(parts, shown, Fraction(kerf), Fraction(2), spacers=spacers)
    back = grain_run(parts[::-1], shown[::-1], Fraction(kerf), Fraction(2), spacers=spacers)
    for joint, other in zip(run.joints, back.joints[::-1], strict=True):
        assert (joint.jump, joint.removed, joint.spacer) == (other.jump, other.removed, other.spacer)
    fronts, turned = ({p.name: (p.start, p.end) for p in r.places if p.kind == "front"} for r in (run, back))
    assert fronts == {name: (run.length - end, run.length - start) for name, (start, end) in turned.items()}


def test_what_cannot_be_a_run_is_refused():
    a, b, other = front("a"), front("b"), divider()
    for parts, gaps, kerf, trim, words in (
        ([], [], 3, 2, "No part of the run"),
        ([other], [], 3, 2, "No part of the run"),
        ([a, b], [], 3, 2, "0 gaps stand between 2 parts"),
        ([a, b], [1], 0, 2, "The kerf is 0"),
        ([a, b], [1], float("nan"), 2, "The kerf is nan"),
        ([a, b], [1], 3, -2, "The trim is -2"),
        ([a, b], [-1], 3, 2, "The gap is -1"),
        ([a, front("b", 0)], [1], 3, 2, "The length of b is 0"),
        ([a, front("b", 9, -1)], [1], 3, 2, "The size across of b is -1"),
    ):
        with pytest.raises(DesignError, match=words):
            grain_run(parts, gaps, kerf, trim)


@pytest.mark.parametrize("claim", derive_grain_run().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_run_that_is_laid_out(claim):
    assert claim.difference == sympy.Integer(0)
    values = {"k": 3, "t": 2, "d": 17, "g": 2}
    expression = claim.derived.subs({sympy.Symbol(name, positive=True): value for name, value in values.items()})
    parts = [front("a"), divider(17), front("b")]
    (joint,) = grain_run(parts, [Fraction(2)] * 2, Fraction(3), Fraction(2)).joints
    expected = {
        "grain_run.jump": (joint.jump_tight, figure_jump(removed_by_cuts(1, 3, 2), 21)),
        "grain_run.spacer": (joint.spacer, spacer_length(3, 2, 21)),
        "grain_run.divider": (joint.jump_with_divider, figure_jump(removed_by_cuts(2, 3, 2), 4)),
    }[claim.key]
    assert expected == (expression, expression)


# The triangle


def stacked(*rows):
    """A chest of rows from the bottom up, each its height and its widths, side by side without gaps."""
    parts, lower = {}, Fraction(0)
    for number, (height, *widths) in enumerate(rows, 1):
        left = Fraction(0)
        for place, width in enumerate(widths, 1):
            parts[f"{number}.{place}"] = (left, lower, Fraction(width), Fraction(height))
            left += width
        lower += height
    return parts


SETS = {
    "landing chest": stacked(*((height, 478) for height in (200, 180, 160, 140, 120, 100)), (80, 239, 239)),
    "twelve trays": stacked(*[(46, 250, 250)] * 6),
    "a row of five": stacked((100, *[90] * 5)),
    "a stack of four": stacked(*[(60, 400)] * 4),
    "one front": stacked((100, 300)),
    "three by two": stacked((100, 160, 160), (100, 160, 160), (100, 160, 160)),
}


def turned_round(lines, width, height):
    return {frozenset((width - x, height - y) for x, y in line) for line in lines}


@pytest.mark.parametrize("name", SETS)
def test_no_front_can_be_turned_or_take_another_place(name):
    """Every pair of alike parts, either way up: the lines are those of the place for the right part only."""
    parts = SETS[name]
    marks = {part: {frozenset(line) for line in lines} for part, lines in set_triangle(parts).items()}
    for (one, (*_, w1, h1)), (other, (*_, w2, h2)) in product(parts.items(), repeat=2):
        if (w1, h1) == (w2, h2):
            assert turned_round(marks[one], w1, h1) != marks[other]
            assert (marks[one] == marks[other]) == (one == other)


@pytest.mark.parametrize("name", SETS)
def test_together_the_lines_are_one_triangle(name):
    """Shapely's own cut of the triangle by each part, and all cuts put back in their places."""
    parts = SETS[name]
    width, height = (max(box_[i] + box_[i + 2] for box_ in parts.values()) for i in (0, 1))
    inset = min(min(box_[2:]) for box_ in parts.values()) / 5
    corners = [(inset, inset), (width / 2, height - inset), (width - inset, inset)]
    sides = [LineString(pair) for pair in combinations([tuple(map(float, corner)) for corner in corners], 2)]
    drawn = dict.fromkeys(range(3), 0.0)
    for part, lines in set_triangle(parts).items():
        left, lower, w, h = map(float, parts[part])
        placed = [LineString([(left + float(x), lower + float(y)) for x, y in line]) for line in lines]
        for number, side in enumerate(sides):
            cut = side.intersection(box(left, lower, left + w, lower + h))
            mine = [line for line in placed if side.distance(line) < 1e-9 and side.buffer(1e-6).covers(line)]
            assert sum(line.length for line in mine) == pytest.approx(cut.length, abs=1e-9)
            drawn[number] += sum(line.length for line in mine)
        assert placed
    assert list(drawn.values()) == pytest.approx([side.length for side in sides], rel=1e-9)


def test_gaps_between_fronts_take_their_share_of_the_lines():
    marks = set_triangle({"left": (0, 0, 100, 60), "right": (110, 0, 100, 60)}, margin=5)
    # up from (5, 5) to (105, 55), which lies in the gap: at the left front's edge it stands at 5 + 50 x 95/100
    assert marks["left"][0] == ((5, 5), (100, 52.5))
    assert marks["right"][0] == ((0, 52.5), (95, 5))
    assert marks["left"][1] == ((5, 5), (100, 5))


def test_exact_places_give_exact_lines():
    marks = set_triangle(SETS["landing chest"])
    numbers = [number for lines in marks.values() for line in lines for end in line for number in end]
    assert {type(number) for number in numbers} == {Fraction}


def test_a_set_that_a_triangle_cannot_hold_is_said():
    with pytest.raises(DesignError, match=r"misses 1\.2; mark its row"):
        set_triangle(stacked(*[(100, 100, 100, 100)] * 3))  # the base alone does not say which way is up
    with pytest.raises(DesignError, match="no part to mark"):
        set_triangle({})
    with pytest.raises(DesignError, match="The height of a is 0"):
        set_triangle({"a": (0, 0, 100, 0)})
    with pytest.raises(DesignError, match="The margin is 0"):
        set_triangle({"a": (0, 0, 100, 50)}, margin=0)
    with pytest.raises(DesignError, match="The margin is 30; it leaves no room for a triangle: make it smaller"):
        set_triangle({"a": (0, 0, 100, 60)}, margin=30)  # half of 60
    with pytest.raises(DesignError, match="The left edge of a is nan"):
        set_triangle({"a": (float("nan"), 0, 100, 60)})
