"""The low media case in both shops: a bay with drawers beside an open one, and a fifth leg under the partition.

The inch shop is the master. Figures were worked by hand for this demo piece, or are built here from
vectors and exact fractions; nothing below was read off this library.
"""

from __future__ import annotations

import math
from fractions import Fraction as F

import pytest
from live_hand import controls
from pictures import BARE

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Stroke, Text
from furnlib.draw.plates import leg_plate, legs_plate, openings_plate, overall_plate
from furnlib.draw.plates.groups import group_name, hand_words
from furnlib.live.pieces import live_legs
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.plan.sizes.legs import mirror_groups

METRIC, INCH = BARE / "low_media_case.yaml", BARE / "low_media_case_inch.yaml"
CORNERS = ("front left", "front right", "rear left", "rear right")
PLUMB = "middle: {rake: 0, splay: 0}"


@pytest.fixture(scope="module")
def metric():
    return read_piece(METRIC)


@pytest.fixture(scope="module")
def inch():
    return read_piece(INCH)


@pytest.fixture(params=["mm", "in"])
def case(request, metric, inch):
    return metric if request.param == "mm" else inch


def leg(piece, position):
    (found,) = [leg for leg in piece.legs if leg.position == position]
    return found


def printed(piece):
    return {chain.name: str(chain).replace("\u202f", " ") for chain in piece.chains}


def size(piece, name):
    (found,) = [size for size in piece.sizes if size.name == name]
    return found.value, found.rule.replace("\u202f", " ")


def changed(path, *edits):
    """The design with some of its text changed."""
    text = path.read_text(encoding="utf-8")
    for old, new in edits:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return piece_of(DesignText.parse(text))


def words(plate):
    return [mark.words for mark in plate.marks() if isinstance(mark, Text)]


def uprights(plate, kind, at_least):
    """Where upright lines of a kind stand across, those of some length only."""
    ends = [mark.points for mark in plate.marks() if isinstance(mark, Stroke) and mark.kind == kind]
    return sorted(
        points[0][0]
        for points in ends
        if len(points) == 2 and points[0][0] == points[1][0] and abs(points[0][1] - points[1][1]) >= at_least
    )


# The case, its bays and openings


def test_over_all_it_is_three_times_as_long_as_high_and_the_metric_twin_almost(metric, inch):
    for piece, height, width, depth in ((metric, 510, 1520, 460), (inch, 20, 60, 18)):
        overall = piece.design.overall
        assert (overall.height, overall.width, overall.depth) == (height, width, depth)
    assert inch.design.overall.width / inch.design.overall.height == 3
    assert float(metric.design.overall.width / metric.design.overall.height) == pytest.approx(2.98, abs=0.005)


def test_the_bays_take_what_sides_and_partition_leave(metric, inch):
    assert inch.case.bays == (18, F(159, 4))  # 39 3/4 = 60 - 3 x 3/4 - 18
    assert metric.case.bays == (460, 1000)  # 1520 - 3 x 20 - 460
    assert size(inch, "width of the open bay") == (F(159, 4), "39 3/4 = 58 1/2 - 18 bay 1 - 3/4 partition")
    assert size(metric, "width of the open bay") == (1000, "1000 = 1480 - 460 bay 1 - 20 partition")


def test_the_chains_close_in_print(metric, inch):
    assert printed(inch) == {
        "openings": "2 1/2 + 3 1/4 + 4 1/4 = 10",
        "height of the case": "3/4 + 10 + 1 1/2 + 3/4 = 13",
        "height of the piece": "13 + 7 = 20",
        "width of the case": "3/4 + 18 + 3/4 + 39 3/4 + 3/4 = 60",
    }
    assert printed(metric) == {
        "openings": "65 + 80 + 105 = 250",
        "height of the case": "20 + 250 + 40 + 20 = 330",
        "height of the piece": "330 + 180 = 510",
        "width of the case": "20 + 460 + 20 + 1000 + 20 = 1520",
    }


@pytest.mark.parametrize(
    ("shop", "clear", "grid", "openings"),
    [("inch", 10, F(1, 16), (F(5, 2), F(13, 4), F(17, 4))), ("metric", 250, 5, (65, 80, 105))],
)
def test_the_openings_are_those_of_a_ratio_of_1_3_closed_on_the_grid(shop, clear, grid, openings, request):
    rows = request.getfixturevalue(shop).rows
    # 1 + 1.3 + 1.69 = 3.99 parts, each rounded to whole steps of the grid by itself; they add up
    ideal = [clear * part / F(399, 100) for part in (F(1), F(13, 10), F(169, 100))]
    assert tuple(round(height / grid) * grid for height in ideal) == openings
    assert sum(openings) == clear
    assert tuple(row.opening for row in rows.rows) == openings
    assert [row.ideal for row in rows.rows] == ideal


def test_a_row_is_as_wide_as_the_bay_and_is_split_inside_it(metric, inch):
    assert [row.widths for row in metric.rows.rows] == [(460,)] * 3
    assert [row.widths for row in inch.rows.rows] == [(18,)] * 3
    split = changed(INCH, ("  ratio: 1.3", "  split: {1: 2, 2: 3}\n  ratio: 1.3"))
    # (18 - 3/4) / 2 = 8 5/8, (18 - 2 x 3/4) / 3 = 5 1/2
    assert [row.widths for row in split.rows.rows] == [(F(69, 8),) * 2, (F(11, 2),) * 3, (18,)]
    assert printed(split)["width inside row 1"] == "8 5/8 + 3/4 + 8 5/8 = 18"


# The corner legs


def corner_direction():
    """The unit vector of the axis, foot to floor: sideways, fore and aft, down; 30 degrees from the long side."""
    lean, from_the_long_side = math.radians(15), math.radians(30)
    run = math.sin(lean)
    return run * math.cos(from_the_long_side), run * math.sin(from_the_long_side), math.cos(lean)


@pytest.mark.parametrize("position", CORNERS)
def test_the_corner_legs_lean_15_degrees_30_from_the_long_side(case, position):
    sideways, fore_aft, down = corner_direction()
    lean = leg(case, position).lean
    assert lean.splay_deg == pytest.approx(math.degrees(math.atan2(sideways, down)))
    assert lean.rake_deg == pytest.approx(math.degrees(math.atan2(fore_aft, down)))
    assert (round(lean.splay_deg, 2), round(lean.rake_deg, 2)) == (13.06, 7.63)  # from the front, from the side


@pytest.mark.parametrize(
    ("shop", "height", "axis", "sideways", "fore_aft", "near"),
    [("inch", 7, 7.25, 1.625, 0.9375, 1 / 32), ("metric", 180, 186.3, 41.8, 24.1, 0.05)],
)
@pytest.mark.parametrize("position", CORNERS)
def test_axis_and_foot_runs(shop, position, height, axis, sideways, fore_aft, near, request):
    piece = request.getfixturevalue(shop)
    one, (aside, ahead, down) = leg(piece, position), corner_direction()
    assert one.axis_length == pytest.approx(height / down)
    assert one.axis_length == pytest.approx(axis, abs=near)
    assert one.foot_run[:2] == pytest.approx((height * ahead / down, height * aside / down))
    assert one.foot_run[:2] == pytest.approx((fore_aft, sideways), abs=near)
    # outward: every foot further from the middle of the piece than its top, both ways, and under the case
    for axis_of, room in ((0, float(piece.design.overall.width)), (1, float(piece.design.overall.depth))):
        assert abs(one.foot[axis_of] - room / 2) > abs(one.top[axis_of] - room / 2)
        assert all(0 <= corner[axis_of] <= room for corner in one.foot_corners)


def test_the_screw_wanders_two_thirds_of_an_inch(metric, inch):
    tan_15 = 2 - math.sqrt(3)
    for position in CORNERS:
        assert leg(inch, position).fixing.wander == pytest.approx(2.5 * tan_15)
        assert leg(inch, position).fixing.wander == pytest.approx(0.67, abs=0.005)
        assert leg(metric, position).fixing.wander == pytest.approx(17, abs=0.5)


# The fifth leg


def test_the_middle_leg_stands_plumb_under_the_middle_line_of_the_partition(metric, inch):
    for piece, place, height in ((inch, (19.125, 9), 7), (metric, (490, 230), 180)):
        middle = leg(piece, "middle")
        assert middle.top == middle.foot == place
        assert (middle.lean.rake_deg, middle.lean.splay_deg, middle.lean.total_lean_deg) == (0, 0, 0)
        assert middle.axis_length == height
        assert middle.fixing.wander == 0
    name = "middle leg from the left edge"
    assert size(inch, name) == (F(153, 8), "19 1/8 = 3/4 side + 18 bay 1 + 3/8 half the partition")
    assert size(metric, name) == (490, "490 = 20 side + 460 bay 1 + 10 half the partition")


def test_a_middle_leg_that_leans_goes_to_the_front_and_to_the_right():
    for rake, splay in ((6, 9), (-6, 9), (0, -9), (4, 0)):
        middle = leg(changed(INCH, (PLUMB, f"middle: {{rake: {rake}, splay: {splay}}}")), "middle")
        aside, ahead = (7 * math.tan(math.radians(angle)) for angle in (splay, rake))
        assert middle.top == (19.125, 9)
        assert middle.foot == pytest.approx((19.125 + aside, 9 - ahead))  # the front edge is at 0


def test_without_a_bay_the_middle_leg_stands_in_the_middle_of_the_case():
    bays = (
        "    - {width: 18}     # the drawers' bay, clear\n",
        "    - {open: yes}      # for the equipment; it takes what the other and the partition leave\n",
    )
    piece = changed(INCH, (bays[0], ""), (bays[1], ""), ("  bays:                # from the left\n", ""))
    assert leg(piece, "middle").top == (30, 9)
    assert size(piece, "middle leg from the left edge") == (30, "30 = 30 half the width")
    assert piece.case.bays == (F(117, 2),)  # 58 1/2
    assert printed(piece)["width of the case"] == "3/4 + 58 1/2 + 3/4 = 60"


def test_no_middle_leg_leaves_no_size_for_one():
    piece = changed(INCH, (f"    {PLUMB}    # plumb under the partition, so that the bottom does not sag\n", ""))
    assert len(piece.legs) == 4
    assert not [size for size in piece.sizes if "middle leg" in size.name]


def test_a_middle_foot_that_runs_past_the_rear_feet_is_refused_and_is_itself_to_blame():
    with pytest.raises(
        DesignError, match=r"foot of the middle leg runs .* past that of the rear left leg fore and aft"
    ):
        changed(INCH, (PLUMB, "middle: {rake: -50, splay: 0}"))


def test_a_middle_leg_that_leans_back_or_left_is_not_said_to_lean_inward():
    piece = changed(INCH, (PLUMB, "middle: {rake: -6, splay: -9}"))
    assert "leans_inward" not in {concern.code for concern in piece.concerns}


def test_a_low_case_has_long_legs_for_its_height_and_a_screw_to_drill_along_the_leg(case):
    assert {concern.code for concern in case.concerns} == {"leg_share", "screw_wall"}
    walls = [concern for concern in case.concerns if concern.code == "screw_wall"]
    assert not any("middle" in concern.number for concern in walls)  # a plumb leg holds it along its axis
    assert all("drill along the leg" in concern.cures for concern in walls)


def test_the_groups_are_named_in_plain_words(case):
    groups = mirror_groups(case.legs)
    assert [group_name(group) for group in groups] == ["All four corner legs", "Middle leg"]
    assert [hand_words(group) for group in groups] == ["same settings, two of each hand", "one of its kind"]


def test_five_legs_that_lean_alike_are_named_one_by_one():
    plumb = [
        (f"{corner}: {{total lean: 15, sight line: 60}}", f"{corner}: {{rake: 0, splay: 0}}") for corner in CORNERS
    ]
    (group,) = mirror_groups(changed(INCH, *plumb).legs)
    assert group_name(group) == "Front left, front right, rear left, rear right and middle leg"


# The plates


def test_overall_shows_partition_and_middle_leg(case):
    plate = overall_plate(case)
    side, (bay, _) = float(case.design.case.side), map(float, case.case.bays)
    partition = (side + bay, side + bay + float(case.design.case.partition))
    depth = float(case.design.overall.depth)
    assert uprights(plate, "hidden", 0.99 * depth) == pytest.approx(partition)  # in plan, from edge to edge
    assert sum(partition) / 2 == pytest.approx(leg(case, "middle").top[0])
    assert "beside an open bay" in plate.spoken


def test_openings_shows_both_bays(metric, inch):
    for piece, bay, beside, said in (
        (inch, "18", "39\u202f³⁄₄", "open bay, 11\u202f¹⁄₂ x 39\u202f³⁄₄"),
        (metric, "460", "1000", "open bay, 290 x 1000"),
    ):
        plate = openings_plate(piece)
        assert {bay, beside, said} <= set(words(plate))
        assert "beside an open bay" in plate.spoken


def test_legs_shows_where_the_middle_leg_stands(metric, inch):
    for piece, place in ((inch, "19\u202f¹⁄₈"), (metric, "490")):
        found = words(legs_plate(piece))
        assert {"Middle leg", place} <= set(found)
        assert found.count("sight line 60°") == 4


def test_one_plate_of_the_middle_leg_alone(inch):
    assert leg_plate(inch, position="middle").name == "Middle leg"


def test_the_middle_leg_leans_under_the_hand():
    names = controls(live_legs(INCH))
    assert [name for name in names if "middle" in name] == ["Rake, middle leg", "Splay, middle leg"]
