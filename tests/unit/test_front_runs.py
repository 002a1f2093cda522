"""Fronts of a piece where they are seen, and on their boards: the figure followed from the wood to the finished case.

The witness takes the places of the fronts from the openings, drawn out with a pencil: a line of the
figure that stands at x on the board is seen at x less where its front begins there, and more where it
begins in the case.
"""

from __future__ import annotations

from fractions import Fraction as F
from functools import cache
from itertools import accumulate, pairwise

import pytest
from pictures import ROOT
from strained import edited_piece

from furnlib.base.guards import DesignError
from furnlib.plan.sizes.front_runs import fronts_seen

CHEST, CHEST_INCH, LOW, LOW_INCH, TRAYS, TRAYS_INCH = (
    (ROOT / "notebooks" / "designs" / f"{name}{shop}.yaml").read_text(encoding="utf-8")
    for name in ("landing_chest", "low_media_case", "abrasive_cabinet")
    for shop in ("", "_inch")
)
DOWN, OWN = (r"along the rows", "down the case"), (r"(grain: {.*)}", r"\1, dividers: yes}")
FLUSH = r"front: {thickness: 20, below: 1, least gap: 1}"
OVERLAY = (FLUSH, "front: {thickness: 20, kind: overlay, overlay: 8, inner front: 14}")
LIPPED = (FLUSH, "front: {thickness: 20, kind: lipped, overlay: 6, lip: 5}")
SPLITS = ((r"1: 2 .*", "1: 3\n    2: 2"), (r"row: 1 .*", "shares: [1/6, 1/4, 1/2, 3/4, 5/6]"))
MEASURED = (r"\njig:", "\nas built: [{openings: {1: 82.5, 4: 143.6}, width: 478.8}]\njig:")
PIECES = {
    "chest": (CHEST,),
    "chest, inch": (CHEST_INCH,),
    "low": (LOW,),
    "low, inch": (LOW_INCH,),
    "trays": (TRAYS,),
    "down": (CHEST, DOWN),
    "down, own dividers": (CHEST, DOWN, OWN),
    "own dividers": (CHEST, OWN),
    "three and two": (CHEST, *SPLITS),
    "three and two, down": (CHEST, *SPLITS, DOWN),
    "overlay": (CHEST, OVERLAY),
    "overlay, down": (CHEST, OVERLAY, DOWN, OWN),
    "lipped": (CHEST, LIPPED),
    "measured": (CHEST, MEASURED),
    "measured, down": (CHEST, MEASURED, DOWN),
    "trays, down": (TRAYS, DOWN),
}
FIRST = {"chest", "low, inch", "three and two, down", "overlay, down", "measured"}
every_case = pytest.mark.parametrize(
    "name", [name if name in FIRST else pytest.param(name, marks=pytest.mark.slow) for name in PIECES]
)


@cache
def case(name):
    return edited_piece(*PIECES[name])


def with_drawers(made):
    return [bank for bank in made.banks if bank.rows]


def settled(made):
    """Kind, gap below, overlay, and gap beside, of the design's drawers."""
    front, side = made.design.drawers.front, made.design.drawers.side
    return (0, side.gap, front.below) if front.kind == "flush" else (front.overlay, 0, 0)


def drawn_out(made, bank):
    """Left, low, width and height of each front, from the openings: as they stand, with gaps or overlay."""
    over, beside, below = settled(made)
    found = []
    for drawer in (drawer for drawer in made.drawers if drawer.bank == bank.number):
        row = bank.rows.rows[drawer.row - 1]
        for number, width in enumerate(row.widths):
            left = number * (width + made.design.case.divider)
            high = drawer.front_height.value
            low = -row.bottom + below - over
            found.append((left + beside - over, low, width - 2 * beside + 2 * over, high))
    return found


@every_case
def test_fronts_stand_in_their_openings_as_drawn_out(name):
    made = case(name)
    for bank in with_drawers(made):
        seen = fronts_seen(made.design, bank, made.drawers)
        assert [(front.left, front.low, front.width, front.height) for front in seen] == drawn_out(made, bank)
        patterns = [one.name for drawer in made.drawers if drawer.bank == bank.number for one in drawer.patterns]
        assert [front.name for front in seen] == patterns  # a front has one name


def test_places_of_the_landing_chest_by_hand():
    """20 top, 83 high, 231 + 18 + 231; 1 below and beside: row 1's second front begins at 250, 102 under the top."""
    made = case("chest")
    (bank,) = made.banks
    first, second, third, *_ = fronts_seen(made.design, bank, made.drawers)
    assert (first.name, first.left, first.low, first.width) == ("row 1, drawer 1", 1, -(20 + 83) + 1, 229)
    assert (second.name, second.left, second.low, second.width) == ("row 1, drawer 2", 250, -102, 229)
    assert (third.name, third.left, third.low, third.width) == ("row 2", 1, -(20 + 83 + 18 + 103) + 1, 478)


# The triangle


@every_case
def test_each_triangle_is_three_straight_lines_over_its_set(name):
    made = case(name)
    for bank in with_drawers(made):
        seen = fronts_seen(made.design, bank, made.drawers)
        rows = {front.name.partition(", drawer")[0] for front in seen}
        beside = {row: [front for front in seen if front.name.startswith(f"{row}, drawer")] for row in rows}
        alone = [front for front in seen if "drawer" not in front.name]
        for fronts in (alone, *beside.values()):
            if not fronts:
                continue
            assert all(front.triangle for front in fronts)  # each front is marked
            left, right = min(f.left for f in fronts), max(f.left + f.width for f in fronts)
            low, high = min(f.low for f in fronts), max(f.low + f.height for f in fronts)
            inset = F(min(min(f.width, f.height) for f in fronts)) / 5
            corners = [(left + inset, low + inset), ((left + right) / 2, high - inset), (right - inset, low + inset)]
            sides = [*pairwise(corners), (corners[0], corners[2])]
            for front in fronts:
                for line in front.triangle:
                    ends = [(front.left + x, front.low + y) for x, y in line]
                    assert any(all(off(end, side) < 1e-9 for end in ends) for side in sides)
                    assert all(-1e-9 <= x <= front.width + 1e-9 and -1e-9 <= y <= front.height + 1e-9 for x, y in line)


def off(point, line):
    """How far a point lies off a line, times the line's length."""
    (x, y), ((x0, y0), (x1, y1)) = point, line
    return abs(float((x - x0) * (y1 - y0) - (y - y0) * (x1 - x0)))


# The board


def shifts(run):
    """By how much each piece of the board is moved when it is put up, for pieces that come from the board."""
    kinds = {place.kind for place in run.places} & {"front", "divider"}
    on_board = [place for place in run.places if place.kind in kinds]
    seen = [place for place in run.as_seen if place.kind in kinds]
    assert [place.length for place in on_board] == [place.length for place in seen]
    return [there.start - here.start for here, there in zip(seen, on_board, strict=True)]


@every_case
def test_the_figure_jumps_as_said_and_what_lies_between_the_fronts_is_what_the_case_shows(name):
    made = case(name)
    along = made.design.grain.course == "along the rows"
    assert all(run.down != along for run in made.runs)
    places = [box for bank in with_drawers(made) for box in drawn_out(made, bank)]
    widths = iter(places)
    for run in made.runs:
        joints, moved = run.run.joints, shifts(run.run)
        assert [there - here for here, there in pairwise(moved)] == [joint.jump for joint in joints]
        fronts = [place for place in run.run.as_seen if place.kind == "front"]
        if along:  # as wide and as far apart as they are in the case
            boxes = [next(widths) for _ in fronts]
            assert [front.start for front in fronts] == [box[0] - boxes[0][0] for box in boxes]
            assert [front.length for front in fronts] == [box[2] for box in boxes]


@every_case
def test_a_board_adds_up_and_no_front_hangs_over_its_edge(name):
    made = case(name)
    kerf, trim = made.design.grain.kerf, made.design.grain.trim
    for run in made.runs:
        ends = [0, *accumulate(place.length for place in run.run.places)]
        assert [place.start for place in run.run.places] == ends[:-1]
        assert run.run.length == ends[-1]
        pieces = [place for place in run.run.places if place.kind in ("front", "divider")]
        cuts = sum(place.length for place in run.run.places if place.kind == "kerf")
        assert cuts >= kerf * (len(pieces) - 1)
        left = run.run.length - sum(place.length for place in pieces) - cuts
        assert left >= trim * len(pieces)
        drawers = made.drawers if run.down else [d for d in made.drawers if d.name == run.name]
        across = [d.part("front").length.value if run.down else d.front_height.value for d in drawers]
        assert run.run.width >= max(across) + trim


def test_the_split_row_of_the_landing_chest_by_hand():
    """Kerf 3 and trim 2 go, 18 and two gaps of 1 are seen: 15 too few; a spacer of 12 and its kerf are as much."""
    row, *others = case("chest").runs
    (joint,) = row.run.joints
    assert (joint.jump_tight, joint.spacer, joint.jump, row.run.length) == (-15, 12, 0, 480)
    assert [run.run.joints for run in others] == [()] * 6
    assert [run.run.length for run in others] == [478 + 2] * 6


def test_a_run_down_the_case_sees_divider_and_both_gaps():
    """20 of divider, 1 below the upper front, and what the season leaves over the lower one."""
    (run,) = case("low").runs
    heights = [drawer.front_height.value for drawer in case("low").drawers]
    openings = [drawer.opening.height for drawer in case("low").drawers]
    for joint, opening, height in zip(run.run.joints, openings[1:], heights[1:], strict=True):
        assert joint.seen == 20 + 1 + (opening - 1 - height)
    assert run.run.width == 458 + 2  # the longest front and its trim, along the grain


def test_a_split_row_takes_one_strip_as_wide_as_its_bank():
    (run,) = case("three and two, down").runs
    assert run.run.width == 480 - 2 + 2  # from the left front's left edge to the right one's right edge, and trim
    assert [place.name for place in run.run.places if place.kind == "front"] == [f"row {n}" for n in range(1, 8)]
    rows = case("three and two").runs
    assert [sum(place.kind == "front" for place in row.run.places) for row in rows] == [3, 2, 1, 1, 1, 1, 1]


def test_each_row_follows_its_own_opening_as_built():
    made = case("measured, down")
    (run,) = made.runs
    heights = [drawer.front_height.value for drawer in made.drawers]
    opening = [F("82.5"), 103, 123, F("143.6"), 163, 183, 203]
    assert [joint.seen for joint in run.run.joints] == [
        18 + 1 + wide - 1 - high for wide, high in zip(opening[1:], heights[1:], strict=True)
    ]
    assert run.run.width == F("478.8") - 2 + 2
    row, *_ = case("measured").runs
    assert row.run.as_seen[-1].end == F("478.8") - 2


# Fronts that lie over the case


@pytest.mark.parametrize(("name", "gap"), [("overlay", 18 - 16), ("overlay, down", 18 - 16), ("lipped", 18 - 12)])
def test_behind_fronts_that_lie_over_it_a_divider_is_not_seen(name, gap):
    for run in case(name).runs:
        assert {place.kind for place in run.run.as_seen} <= {"front", "gap"}
        assert {place.kind for place in run.run.places}.isdisjoint({"divider"})  # asked for, but hidden
        assert [joint.seen for joint in run.run.joints] == [gap] * len(run.run.joints)
    runs = case(name).runs
    assert sum(len(run.run.joints) for run in runs) == (6 if runs[0].down else 1)


@pytest.mark.parametrize("course", [(), (DOWN,)])
def test_fronts_may_touch_over_a_divider_but_not_run_into_one_another(course):
    def reaching(overlay):
        front = f"front: {{thickness: 20, kind: overlay, overlay: {overlay}, inner front: 14}}"
        return edited_piece(CHEST, (FLUSH, front), *course)

    assert {joint.seen for run in reaching(9).runs for joint in run.run.joints} == {0}
    message = r"line \d+, drawers, front, overlay: The overlay is 9.5, but over the divider a front has 9 of its own"
    with pytest.raises(DesignError, match=message):
        reaching("9.5")


def test_there_is_no_run_without_grain_and_none_without_drawers():
    made = edited_piece(CHEST, (r"grain: {.*}\n", ""))
    assert made.runs == ()
    assert len(fronts_seen(made.design, made.banks[0], made.drawers)) == 8


def test_banks_have_their_own_run_and_are_told_apart_where_there_are_several():
    assert [run.name for run in case("trays, down").runs] == ["down bank 1", "down bank 2"]
    assert [run.name for run in case("low").runs] == ["down the case"]
    assert len(case("trays").runs) == 12
