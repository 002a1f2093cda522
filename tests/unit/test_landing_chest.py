"""The landing chest in both shops: figures worked by hand for this demo piece.

The metric shop works in whole millimetres, the inch shop in fractions of an inch; nothing below
was read off this library. Where a figure can be checked in one line, the line stands beside it.
Legs whose faces look another way, and turned ones, are built again in space (`in_space`).
"""

from __future__ import annotations

import math
from fractions import Fraction as F
from functools import cache
from pathlib import Path

import in_space
import numpy as np
import pytest
from leg_shapes import on_round_legs, on_square_legs

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.trade.leg.end_cut import ORIENTATIONS

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
FRONT, REAR = ("front left", "front right"), ("rear left", "rear right")


@pytest.fixture(scope="module")
def metric():
    return read_piece(DESIGNS / "landing_chest.yaml")


@pytest.fixture(scope="module")
def inch():
    return read_piece(DESIGNS / "landing_chest_inch.yaml")


@pytest.fixture(params=["mm", "in"])
def chest(request, metric, inch):
    return metric if request.param == "mm" else inch


def leg(piece, position):
    (found,) = [leg for leg in piece.legs if leg.position == position]
    return found


def printed(piece):
    """The chains as a plate prints them, thin spaces made plain."""
    return {chain.name: str(chain).replace("\u202f", " ") for chain in piece.chains}


# Over all and inside


def test_the_silhouette_is_five_to_two_in_both_shops(metric, inch):
    for piece, height, width, depth in ((metric, 1300, 520, 380), (inch, 50, 20, 15)):
        overall = piece.design.overall
        assert (overall.height, overall.width, overall.depth) == (height, width, depth)
        assert overall.height / overall.width == F(5, 2)


def test_the_case(metric, inch):
    assert metric.case.height == 1149  # 1300 - 151
    assert inch.case.height == F(349, 8)  # 43 5/8 = 50 - 6 3/8
    assert metric.case.inside_width == 480  # 520 - 2 x 20
    assert inch.case.inside_width == F(37, 2)  # 18 1/2 = 20 - 2 x 3/4
    assert len(metric.rows.dividers) == len(inch.rows.dividers) == 6
    assert metric.rows.clear_height == 1001  # 1149 - 40 - 108
    assert inch.rows.clear_height == F(301, 8)  # 37 5/8 = 43 5/8 - 1 1/2 - 4 1/2


def test_the_openings(metric, inch):
    # side heights of k pitches and the room above each: k x 20 + 3, and k x 3/4 + 1/8
    assert [row.opening for row in metric.rows.rows] == [k * 20 + 3 for k in range(4, 11)]
    assert [row.opening for row in metric.rows.rows] == [83, 103, 123, 143, 163, 183, 203]
    assert [row.opening for row in inch.rows.rows] == [k * F(3, 4) + F(1, 8) for k in range(4, 11)]
    assert [row.opening for row in inch.rows.rows] == [
        F(25, 8), F(31, 8), F(37, 8), F(43, 8), F(49, 8), F(55, 8), F(61, 8),
    ]  # fmt: skip


def test_the_openings_fall_on_the_grid_by_themselves(chest):
    closed = chest.rows.closed
    assert closed.openings == closed.ideal == closed.rounded_alone
    assert closed.miss == closed.largest_change == 0
    assert closed.steps_never_shrink


def test_row_one_is_two_drawers_and_the_rest_one(metric, inch):
    # 231 + 18 + 231 = 480; 8 7/8 + 3/4 + 8 7/8 = 18 1/2
    assert [row.widths for row in metric.rows.rows] == [(231, 231)] + [(480,)] * 6
    assert [row.widths for row in inch.rows.rows] == [(F(71, 8), F(71, 8))] + [(F(37, 2),)] * 6


def test_running_sizes_from_the_top_of_the_case(metric):
    # each opening and the divider of 18 below it, added up from the top of 20
    edges = [edge for row in metric.rows.rows for edge in (row.top, row.bottom)]
    assert edges == [20, 103, 121, 224, 242, 365, 383, 526, 544, 707, 725, 908, 926, 1129]
    assert edges[-1] + 20 == metric.case.height


def test_the_chains_close_in_print(metric, inch):
    assert printed(metric) == {
        "height of the case": "20 + 1001 + 108 + 20 = 1149",
        "height of the piece": "1149 + 151 = 1300",
        "width of the case": "20 + 480 + 20 = 520",
        "openings": "83 + 103 + 123 + 143 + 163 + 183 + 203 = 1001",
        "width inside row 1": "231 + 18 + 231 = 480",
    }
    assert printed(inch) == {
        "height of the case": "3/4 + 37 5/8 + 4 1/2 + 3/4 = 43 5/8",
        "height of the piece": "43 5/8 + 6 3/8 = 50",
        "width of the case": "3/4 + 18 1/2 + 3/4 = 20",
        "openings": "3 1/8 + 3 7/8 + 4 5/8 + 5 3/8 + 6 1/8 + 6 7/8 + 7 5/8 = 37 5/8",
        "width inside row 1": "8 7/8 + 3/4 + 8 7/8 = 18 1/2",
    }


# Legs


def test_the_names_of_each_lean(chest):
    for position in FRONT:
        lean = leg(chest, position).lean
        assert (lean.rake_deg, lean.splay_deg) == pytest.approx((8, 6), abs=1e-12)
        assert lean.total_lean_deg == pytest.approx(9.95, abs=0.005)
        assert lean.sight_line_deg == pytest.approx(36.8, abs=0.05)
    for position in REAR:
        lean = leg(chest, position).lean
        assert (lean.rake_deg, lean.splay_deg) == pytest.approx((0, 6), abs=1e-12)
        assert lean.total_lean_deg == pytest.approx(6.00, abs=0.005)
        assert lean.sight_line_deg == pytest.approx(90, abs=1e-9)


LENGTHS = [
    # shop, legs, axis, foot runs fore and aft and sideways, blank without waste, to half of the last figure
    ("mm", FRONT, 153.3, 21.2, 15.9, 165.1, 0.05),
    ("mm", REAR, 151.8, 0.0, 15.9, 156.9, 0.05),
    ("in", FRONT, 6.472, 0.896, 0.670, 6.93, 0.0005),
    ("in", REAR, 6.410, 0.0, 0.670, 6.61, 0.0005),
]


@pytest.mark.parametrize(("shop", "legs", "axis", "fore_aft", "sideways", "blank", "half"), LENGTHS)
def test_axis_foot_runs_and_blank(metric, inch, shop, legs, axis, fore_aft, sideways, blank, half):
    for position in legs:
        one = leg(metric if shop == "mm" else inch, position)
        assert one.end_cut.axis_length == pytest.approx(axis, abs=half)
        assert one.foot_run.fore_aft == pytest.approx(fore_aft, abs=half)
        assert one.foot_run.sideways == pytest.approx(sideways, abs=half)
        assert one.end_cut.blank_length == pytest.approx(blank, abs=0.05 if shop == "mm" else 0.005)


def test_the_saw_with_the_side_face_down(chest):
    for position in FRONT:
        side = leg(chest, position).end_cut.side_down
        assert side.mitre_deg == pytest.approx(8, abs=1e-9)
        assert side.tilt_deg == pytest.approx(5.94, abs=0.005)
    for position in REAR:  # no rake: square across, and the blade tilted by the whole splay
        side = leg(chest, position).end_cut.side_down
        assert side.mitre_deg == pytest.approx(0, abs=1e-9)
        assert side.tilt_deg == pytest.approx(6, abs=1e-9)


def test_where_the_front_feet_stand(metric):
    # leg tops 45 in from the front edge, feet 23.8 in; from the sides 45 - 15.9
    for position, across in (("front left", 45 - 15.9), ("front right", 520 - 45 + 15.9)):
        assert leg(metric, position).foot == pytest.approx((across, 23.8), abs=0.05)
    for position, across in (("rear left", 45 - 15.9), ("rear right", 520 - 45 + 15.9)):
        assert leg(metric, position).foot == pytest.approx((across, 340), abs=0.05)


def corner_angles(corners):
    """The angle of a four-sided outline at each of its corners, degrees."""
    angles = []
    for i, (x, y) in enumerate(corners):
        (ax, ay), (bx, by) = corners[i - 1], corners[(i + 1) % 4]
        one, other = math.atan2(ay - y, ax - x), math.atan2(by - y, bx - x)
        angles.append(abs((math.degrees(one - other) + 180) % 360 - 180))
    return angles


def test_the_square_pad_at_the_top_of_a_front_leg(metric):
    # its corner is 0.83 off square, each edge 0.42 from the case's edge: 0.35 over 48
    for position in FRONT:
        corners = leg(metric, position).top_corners
        assert max(abs(angle - 90) for angle in corner_angles(corners)) == pytest.approx(0.83, abs=0.005)
        for i, (x, y) in enumerate(corners):
            next_x, next_y = corners[(i + 1) % 4]
            off = min(abs(next_x - x), abs(next_y - y))
            length = math.hypot(next_x - x, next_y - y)
            assert math.degrees(math.asin(off / length)) == pytest.approx(0.42, abs=0.005)
            assert off / length * 48 == pytest.approx(0.35, abs=0.005)
    for position in REAR:  # leaned along the case's own edge: the pad stays square to it
        assert corner_angles(leg(metric, position).top_corners) == pytest.approx([90] * 4, abs=1e-9)


def test_left_and_right_are_mirror_images(chest):
    width = float(chest.design.overall.width)
    for left, right in (FRONT, REAR):
        a, b = leg(chest, left), leg(chest, right)
        for one, other in (
            (a.top, b.top),
            (a.foot, b.foot),
            *zip(a.foot_corners, b.foot_corners, strict=True),
        ):
            assert (width - one[0], one[1]) == pytest.approx(other, abs=1e-9)


def test_a_foot_dot_lies_on_its_sight_line(chest):
    for one in chest.legs:
        across, back = (foot - top for foot, top in zip(one.foot, one.top, strict=True))
        outward = -1 if "left" in one.position else 1
        forward = -1 if "front" in one.position else 1
        assert math.degrees(math.atan2(outward * across, forward * back)) == pytest.approx(
            one.lean.sight_line_deg, abs=1e-9
        )


def test_what_the_maker_is_told_to_look_at(metric):
    # The front foot: its axis lands at 45 - 151 tan 8 = 23.778 from the front edge, and a foot 28 thick
    # reaches 14 / cos 9.95 at most. The legs are 1300 / 151 = 8.6, within 6 to 10; what is left is half pins
    # 2 + 12 / 7 = 3.71 at their roots in sides of 12, and the screw, at a neck 13 from its axis:
    # 13 - 60 sin R - 4 cos R
    half_pins, *screws = metric.concerns
    assert (half_pins.code, half_pins.number) == ("thin_half_pin", "every row: at the back, thin half pin: 2")
    for concern, end in zip(screws, ("front", "rear"), strict=True):
        assert (concern.code, concern.number) == ("screw_wall", f"{end} left and {end} right leg, screw 60 mm deep")
        told = "it comes out of the leg by 1.3 mm" if end == "front" else "it leaves 2.8 mm of wood"
        assert told in concern.reason
        assert "where the leg is turned thinner" in concern.reason
    # Left square all the way, the outer edge of that foot reaches 24 + tan 8 x 24 (tan 8 + tan 6) /
    # (1 + 1 / cos 9.9548) = 24 + 0.1405 x 5.8955 / 2.0153 = 24.411 further: 0.63 past the edge
    _, *concerns = square().concerns  # the same half pins first
    assert {concern.code for concern in concerns} == {"foot_past_case"}
    assert all("0.6 mm past the front edge" in concern.number for concern in concerns)
    told = " ".join(concern.number for concern in concerns)
    assert "front left" in told
    assert "front right" in told
    assert "rear" not in told


# The screw and the pin


def test_what_a_screw_leaves_of_a_leg():
    for position in FRONT:
        fixing = leg(square(), position).fixing
        assert fixing.wander == pytest.approx(10.5, abs=0.05)  # 60 tan 9.954
        assert fixing.wall_by_rule == pytest.approx(9.5, abs=0.05)  # 24 - 10.5 - 4
        # square to the faces: 24 - 60 sin 7.963 - 4 cos 7.963 and 24 - 60 sin 5.942 - 4 cos 5.942
        assert (fixing.wall_front, fixing.wall_side) == pytest.approx((11.73, 13.81), abs=0.005)
        assert fixing.wall == fixing.wall_front
    for position in REAR:
        fixing = leg(square(), position).fixing
        assert fixing.wander == pytest.approx(6.31, abs=0.005)  # 60 tan 6
        assert (fixing.wall_front, fixing.wall_side) == pytest.approx((20, 13.75), abs=0.005)  # 24 - 4 as no face leans


TAN_LEAN = math.hypot(math.tan(math.radians(8)), math.tan(math.radians(6)))


def neck_by_hand(x):
    """Radius of the metric leg below its square, from its shapes: bead on a chord of 8, cove on one of 20."""
    if x < 50:  # an arc that stands 2 off a chord of 8 has a radius of (4² + 2²) / 4 = 5
        return 20 + math.sqrt(25 - (x - 46) ** 2) - 3
    if x < 70:  # one that lies 6 below a chord of 20: (10² + 6²) / 12
        radius = 136 / 12
        return 19 - (math.sqrt(radius**2 - (x - 60) ** 2) - (radius - 6))
    return 19.0 if x < 74 else 19 + (x - 74) * (14 - 19) / (151 * math.hypot(1, TAN_LEAN) - 74)


@pytest.mark.parametrize("depth", [40, 47, 55, 60, 75, 100])
def test_a_screw_counts_the_neck_once_it_has_come_past(depth):
    text = (DESIGNS / "landing_chest.yaml").read_text().replace("    depth: 60\n", f"    depth: {depth}\n")
    fixing = leg(piece_of(DesignText.parse(text)), "front left").fixing
    cosine = 1 / math.hypot(1, TAN_LEAN)
    sine = TAN_LEAN * cosine
    # every place that the tip has come past, by the tip's wander
    reached = [x for x in np.linspace(42 + 1e-9, depth / cosine, 20_001).tolist() if x > 42]
    if depth < 41:
        assert not np.isfinite(fixing.wall_neck)
        assert fixing.wall == fixing.wall_front == pytest.approx(24 - depth * 0.138425 - 4 * 0.990373, abs=1e-4)
        return
    by_hand = min(map(neck_by_hand, reached)) - depth * sine - 4 * cosine
    assert fixing.wall_neck == pytest.approx(by_hand, abs=1e-4)
    assert fixing.wall == pytest.approx(min(by_hand, 24 - depth * 0.138425 - 4 * 0.990373), abs=1e-4)
    # the deepest screw that leaves 6: its tip comes past a place, and there the wall is too little
    deep = [max(x * cosine, (neck_by_hand(x) - 4 * cosine - 6) / sine) for x in np.linspace(42.001, 150, 20_001)]
    assert fixing.deepest == pytest.approx(min(deep), abs=0.1)


@pytest.mark.parametrize("shop", ["mm", "in"])
def test_the_pin_has_the_wanted_wood_round_it(metric, inch, shop):
    piece = metric if shop == "mm" else inch
    screw = piece.design.legs.fixing
    for one in piece.legs:
        between = one.pin.pin_offset - float(screw.diameter + screw.pin) / 2
        assert between == pytest.approx(float(screw.wall) + one.pin.play / 2, abs=1e-9)
        assert one.pin.wall > float(screw.wall)


# Which way the faces look


@cache
def square(orientation="untwisted"):
    """The metric chest on legs that are square from end to end, their faces turned one way or another."""
    text = on_square_legs((DESIGNS / "landing_chest.yaml").read_text())
    return piece_of(DesignText.parse(text.replace("  square: 48 ", f"  orientation: {orientation}\n  square: 48 ")))


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_where_the_edges_of_a_leg_meet_case_and_floor(orientation):
    for one in square(orientation).legs:
        direction = in_space.axis(one.position, one.lean.rake_deg, one.lean.splay_deg)
        for corners, at in ((one.top_corners, (*one.top, 151.0)), (one.foot_corners, (*one.foot, 0.0))):
            expected = in_space.corners(one.position, direction, 48.0, np.array(at), orientation=orientation)[:, :2]
            apart = np.linalg.norm(np.array(corners)[:, np.newaxis] - expected, axis=-1)
            assert apart.min(axis=1) == pytest.approx(np.zeros(4), abs=1e-8)
            which = apart.argmin(axis=1).tolist()  # on the sight line the witness begins at another corner
            assert which == [0, 1, 2, 3] or (orientation.startswith("sightline") and sorted(which) == [0, 1, 2, 3])


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_the_outer_corner_comes_first_and_then_its_neighbours_in_order(orientation):
    for one in square(orientation).legs:
        ring = np.array(one.foot_corners) - one.foot
        outer = ring @ (np.array(one.foot) - one.top)
        if orientation != "sightline":  # there two corners are foremost alike
            assert outer.argmax() == 0
        assert outer[0] == pytest.approx(outer.max())
        turns = [np.cross([*a, 0], [*b, 0])[2] for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True)]
        assert len(set(np.sign(turns))) == 1  # round the leg, one way


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_the_saw_is_set_to_the_angles_between_lines_and_planes(orientation):
    for one in square(orientation).legs:
        direction = in_space.axis(one.position, one.lean.rake_deg, one.lean.splay_deg)
        faces = in_space.faces(one.position, direction, orientation)
        for face, setting in zip(faces, (one.end_cut.front_down, one.end_cut.side_down), strict=True):
            level = np.cross(face, in_space.UP)  # the line that the floor leaves on this face
            across = np.cross(face, direction)
            mitre = np.degrees(np.arctan2(np.linalg.norm(np.cross(level, across)), abs(level @ across)))
            tilt = np.degrees(np.arcsin(abs(face[2])))
            if orientation == "sightline_corner":  # all four faces alike
                assert mitre == pytest.approx(one.end_cut.front_down.mitre_deg, abs=1e-7)
            assert (setting.mitre_deg, setting.tilt_deg) == pytest.approx((mitre, tilt), abs=1e-7)


def test_a_turned_foot_stands_on_an_ellipse(metric):
    text = on_round_legs((DESIGNS / "landing_chest.yaml").read_text(), 48, 30, 25)
    for one in piece_of(DesignText.parse(text)).legs:
        assert one.end_cut is None
        assert one.foot == pytest.approx(leg(metric, one.position).foot)
        along = in_space.unit(np.array(one.foot) - one.top)
        off = (np.array(one.foot_corners) - one.foot) @ np.column_stack([along, [-along[1], along[0]]])
        # along the sight line half of 30 is stretched by 1 / cos R, across it by nothing
        half = 15 / math.cos(math.radians(one.lean.total_lean_deg))
        assert np.square(off / (half, 15)).sum(axis=1) == pytest.approx(np.ones(36))
        reach = np.abs(off).max(axis=0)
        assert (reach <= np.array([half, 15]) + 1e-9).all()
        assert reach == pytest.approx([half, 15], rel=0.01)  # points every ten degrees
        # a plumb screw 60 deep comes past 60 / cos R of the axis, where the taper from 48 to 30 has taken
        # 9 (60 / cos R) / (151 / cos R) off the radius: 24 - 9 x 60 / 151 - 60 sin R - 4 cos R
        lean = math.radians(one.lean.total_lean_deg)
        assert one.fixing.wall == pytest.approx(24 - 9 * 60 / 151 - 60 * math.sin(lean) - 4 * math.cos(lean))


def test_the_foot_of_a_leg_that_is_turned_below_a_square_is_round(metric):
    for one in metric.legs:
        assert [len(one.top_corners), len(one.foot_corners)] == [4, 36]
        direction = in_space.axis(one.position, one.lean.rake_deg, one.lean.splay_deg)
        rim = np.column_stack([one.foot_corners, np.zeros(36)]) - np.array([*one.foot, 0.0])
        off_axis = rim - np.outer(rim @ direction, direction)
        assert np.linalg.norm(off_axis, axis=1) == pytest.approx(np.full(36, 14.0), abs=1e-9)


def test_the_notices_are_empty_as_each_file_keeps_to_its_unit(chest):
    assert chest.design.notices == ()


def test_each_rule_of_the_case_as_a_maker_would_write_it(metric):
    rules = {size.name: size.rule for size in metric.sizes}
    assert rules["case height"] == "1149 = 1300 - 151 legs"
    assert rules["inside width"] == "480 = 520 - 2 x 20 side"
    assert rules["clear height"] == "1001 = 1109 - 6 x 18 divider"
    assert rules["width of each drawer in row 1"] == "231 = (480 - 18 divider) / 2"
