"""The plate of a turned leg: its outline against the radius, its labels at their stations, the cuts at their angle."""

from __future__ import annotations

import math
import re
from functools import cache

import numpy as np
import pytest
from pictures import BARE, ROOT
from strained import edited_piece
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on
from test_plates import outside, rooms_of

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Contour, Stroke, Text
from furnlib.draw.plates.leg_profile import leg_profile_plate
from furnlib.draw.plates.turned_groups import outline, turned_groups, turned_marks
from furnlib.draw.plates.views import written
from furnlib.draw.scale import usual_scales
from furnlib.draw.sheet import PAPER_MM, sheet
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.record.stamp import title_of
from furnlib.trade.cautions import LATHE

CHEST, INCH, STOOL, FOUR, LOW, LOW_INCH = (
    (BARE / f"{name}.yaml").read_text("utf-8")
    for name in (
        "landing_chest",
        "landing_chest_inch",
        "stool_three_legs",
        "stool_four_legs",
        "low_media_case",
        "low_media_case_inch",
    )
)


def profile(*parts):
    """An edit that gives the legs another profile."""
    lines = "".join(f"    - {{{part}}}\n" for part in parts)
    return r"  profile:.*\n(    - .*\n)+", f"  profile:\n{lines}"


TALL = (
    (r"legs:\n  height: .*", "legs:\n  height: 709"),  # 709 / cos 9.96 = 719.8
    (r"overall:(.*\n)  height: \S+", r"overall:\1  height: 2600"),
    (r"rule: constant step", "rule: equal"),
    (r"  step: 20.*\n", ""),
    (r"jig:.*\n(  .*\n)+", ""),  # so that the legs keep their height
)
LONG_NAME = "WARDROBE WITH MANY ROOMY DRAWERS AND A COMMODIOUS WARM CUBBY"
PIECES = {
    "chest": (CHEST,),
    "three": (STOOL,),
    "four": (FOUR,),
    "low": (LOW,),
    "low, inch": (LOW_INCH,),
    "long": (CHEST, *TALL),
    "inch": (INCH, profile("shape: square, length: 1 3/4", "shape: lamb's tongue, to: 1 1/4, length: 3/4",
                            "shape: bead, length: 3/8, rise: 1/8", "shape: taper, to: 1 1/8")),
    "tongue": (CHEST, profile("shape: square, length: 42", "shape: lamb's tongue, to: 30, length: 20",
                              "shape: ogee, to: 40, length: 24, rise: 1", "shape: taper, to: 28")),
    "shoulder": (CHEST, profile("shape: square, length: 42", "shape: shoulder, to: 30, length: 6",
                                "shape: taper, to: 34")),
    "crowded": (CHEST, profile("shape: square, length: 42", *(f"shape: fillet, diameter: {d}, length: 2"
                                                              for d in (40, 36, 40, 34, 40, 32, 40, 30, 40, 29)),
                               "shape: bead, diameter: 30, length: 6, rise: 2", "shape: taper, to: 28")),
    "plain": (CHEST, (r"  profile:.*\n(    - .*\n)+", "  round: {largest: 48, foot: 30, tenon: 25}\n"),
              (r"  square:.*\n", ""), (r"  fixing:.*\n(    .*\n)+", "")),
    "pitched": (STOOL, (r"pitch: 0 .*", "pitch: 6")),
    "waisted": (FOUR, (r"  round:.*\n(    .*\n)*", "  stations: {0: 20, 100: 38, 300: 32, 520: 34}\n")),
    "plumb": (CHEST, (r"piece: .*", f"piece: {LONG_NAME}"), *[(r"{rake: \d+, splay: 6}", "{rake: 0, splay: 0}")] * 4),
    "measured": (FOUR, (r"  round:.*\n(    .*\n)*", "  stations: {0: 25, 100: 38, 300: 26, 520: 22}\n")),
}  # fmt: skip
CURVED = ("waisted", "measured")  # drawn in short straight bends
LATER = ("four", "low", "shoulder", "plain", "pitched", "measured")
every_piece = pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name in LATER else name for name in PIECES]
)


@cache
def turned(name):
    return edited_piece(*PIECES[name])


@cache
def plates(name):
    made = turned(name)
    return [leg_profile_plate(made, number=number) for number in range(1, len(turned_groups(made)) + 1)]


def groups_with(name):
    return zip(turned_groups(turned(name)), plates(name), strict=True)


def contours(plate):
    return [np.array(item.flattened(1e-4).points) for item in plate.items if isinstance(item, Contour)]


def lines(plate, kind):
    return [np.array(item.points) for item in plate.items if isinstance(item, Stroke) and item.kind == kind]


def strays(points, profile):
    """How far an outline lies from the radius, halfway along each of its stretches; up a step it runs plumb."""
    level = np.diff(points[:, 0]) > 1e-6
    x, y = ((points[1:] + points[:-1]) / 2)[level].T
    return np.abs(y - profile.radius_at(x))


# Groups, outline, marks


def test_legs_of_one_length_share_a_sheet_whichever_their_hand_and_lean():
    named = {name: [[leg.position for leg in group] for group in turned_groups(turned(name))] for name in PIECES}
    assert named["chest"] == [["front left", "front right"], ["rear left", "rear right"]]
    assert named["three"] == [["front left", "front right"], ["rear"]]
    swapped = re.sub(r"(rear (?:left|right)): {rake: 0, splay: 6}", r"\1: {rake: 6, splay: 8}", CHEST)
    assert len(turned_groups(piece_of(DesignText.parse(swapped)))) == 1  # another lean, the same total lean
    square = re.sub(profile("")[0], "", CHEST)
    square = re.sub(r"  (turning|loads|wood):.*\n(    .*\n)*", "", square)
    assert turned_groups(piece_of(DesignText.parse(square))) == ()


@every_piece
def test_the_outline_is_the_radius_everywhere(name):
    for (leg, *_), _ in groups_with(name):
        made = leg.turned.profile
        points, bulges = outline(made)
        assert len(points) == len(bulges) + 1
        assert points[0][0] == 0
        assert points[-1][0] == pytest.approx(made.length)
        flat = np.array(Contour(tuple(points), tuple(bulges)).flattened(1e-5).points)
        assert strays(flat, made).max() < (0.01 if name in CURVED else 1e-4)


def test_a_bead_stands_out_and_a_cove_goes_in_by_hand():
    # the chest: bead 42 to 50 of 40 rising 2, so 44 across at 46; cove 50 to 70 of 38, 6 deep, so 26 at 60
    points, bulges = outline(turned_groups(turned("chest"))[0][0].turned.profile)
    flat = np.array(Contour(tuple(points), tuple(bulges)).flattened(1e-6).points)
    for start, end, extreme, at, high in ((42, 50, np.argmax, 46, 22), (50, 70, np.argmin, 60, 13)):
        part = flat[(flat[:, 0] > start) & (flat[:, 0] < end)]
        assert tuple(part[extreme(part[:, 1])]) == pytest.approx((at, high), abs=1e-2)
    # the bead's circle: half a chord of 4 and 2 high, so a radius of (16 + 4) / 4 = 5 about (46, 17)
    part = flat[(flat[:, 0] > 42) & (flat[:, 0] < 50)]
    assert np.hypot(*(part - (46, 17)).T) == pytest.approx(5, abs=1e-6)


def test_marks_of_the_chest_by_hand():
    marks = [(m.distance, m.diameters, m.words) for m in turned_marks(turned("chest").legs[0].turned, "mm")]
    assert [(round(at, 1), sizes, words) for at, sizes, words in marks] == [
        (0, "□ 48", "top end, zero, square"),
        (42, "□ 48 | ⌀ 40", "bead, stop cut"),
        (46, "⌀ 44", "crown"),
        (50, "⌀ 40 | ⌀ 38", "cove"),
        (60, "⌀ 26", "hollow"),
        (70, "⌀ 38", "fillet"),
        (74, "⌀ 38", "taper"),
        (153.3, "⌀ 28", "foot, on the floor"),
    ]


@pytest.mark.parametrize(("name", "sizes"), [("three", "⌀ 25 | ⌀ 28"), ("measured", None)])
def test_a_leg_under_a_seat_is_marked_where_it_meets_the_underside(name, sizes):
    leg = turned(name).legs[0]
    (mark,) = [mark for mark in turned_marks(leg.turned, "mm") if "underside" in mark.words]
    assert mark.distance == pytest.approx(40 / math.cos(math.radians(leg.lean.total_lean_deg)))  # a seat 40 thick
    assert mark.diameters == (sizes or f"⌀ {written(leg.turned.profile.diameter_at(mark.distance), 'mm')}")


# The plate


@every_piece
def test_both_sides_of_the_leg_are_drawn_true(name):
    for (leg, *_), plate in groups_with(name):
        upper, lower = contours(plate)[:2]
        assert upper[:, 1].min() > 0
        assert np.array(sorted(map(tuple, lower * (1, -1)))) == pytest.approx(np.array(sorted(map(tuple, upper))))
        assert strays(upper, leg.turned.profile).max() < 0.01
        across = [line[:, 0] for line in lines(plate, "thin") if len(line) == 2 and np.ptp(line[:, 0]) == 0]
        assert set(leg.turned.profile.joints[:-1]) <= {x for x, _ in across}


@every_piece
def test_every_station_has_its_tick_its_distance_and_its_diameters(name):
    unit = turned(name).design.unit
    for (leg, *_), plate in groups_with(name):
        ticks = [line[0, 0] for line in lines(plate, "dimension")]
        said = words_on(plate)
        for station in leg.turned.profile.stations:
            assert any(math.isclose(tick, station.distance, abs_tol=1e-9) for tick in ticks)
            assert said.count(written(station.distance, unit)) >= 1
            size = f" {written(station.diameter, unit)}"
            assert any(words.endswith(size) or f"{size} |" in words for words in said)
        assert said.count("thinnest") == 1


@every_piece
def test_level_cuts_stand_at_their_angle_and_kerf_and_waste_fill_the_blank(name):
    for (leg, *_), plate in groups_with(name):
        sawn = [line for line in lines(plate, "cut") if line[0, 1] * line[1, 1] < 0]  # across the axis
        lean = leg.lean.total_lean_deg
        at_top = leg.drilling.seat_lean.total_lean_deg if leg.drilling else lean
        assert len(sawn) == 2
        for line, at, angle in zip(sawn, (0.0, leg.turned.profile.length), (at_top, lean), strict=True):
            (x0, y0), (x1, y1) = line
            assert x0 - y0 * (x1 - x0) / (y1 - y0) == pytest.approx(at)  # crosses the axis there
            assert (x0 - x1) / (y1 - y0) == pytest.approx(math.tan(math.radians(angle)))
        hatched = [np.array(item.points) for item in plate.items if getattr(item, "hatch", False)]
        assert np.ptp(np.concatenate(hatched)[:, 0]) == pytest.approx(leg.turned.blank.length)
        assert np.ptp(np.concatenate(hatched)[:, 1]) == pytest.approx(leg.turned.blank.side)
        # what the cut reaches past the axis on its long side, found where line and outline meet, lies in the blank
        foot, slope = leg.turned.profile.diameter_at(leg.turned.profile.length) / 2, leg.turned.profile.end_taper / 2
        tan = math.tan(math.radians(lean))
        assert foot * tan / (1 - slope * tan) == pytest.approx(leg.turned.blank.foot_extra)


@every_piece
def test_beads_and_coves_shown_larger_are_the_same_ones(name):
    shown = 0
    for (leg, *_), plate in groups_with(name):
        profile, unit = leg.turned.profile, turned(name).design.unit
        assert len(contours(plate)) in (2, 4)
        for part, side in zip(contours(plate)[2:], (1, -1), strict=False):
            (words,) = [said for said in words_on(plate) if re.match(r"[\d⁰¹²³⁴⁵⁶⁷⁸⁹].* to .*, 1 : ", said)]
            start = next(joint for joint in profile.joints if words.startswith(f"{written(joint, unit)} to "))
            stop = next(joint for joint in profile.joints if f" to {written(joint, unit)}, 1 : " in words)
            larger = np.ptp(part[:, 0]) / (stop - start)
            assert larger >= 1.6
            level = np.diff(part[:, 0]) > 1e-6
            x, y = ((part[1:] + part[:-1]) / 2)[level].T
            along = start + (x - part[:, 0].min()) / larger
            assert np.abs(side * y / larger - profile.radius_at(along)).max() < 0.01
            assert all(start < x < stop for x, _ in profile.crowns)
            shown += 1
    assert shown or name not in ("three", "inch", "crowded")
    assert not shown or any(leg.turned.profile.crowns for leg in turned(name).legs)


def test_a_stop_cut_is_drawn_to_its_depth_at_the_flat():
    # 48 square beside 40, half a mm left on the radius: (48 - 40) / 2 - 0.5 and (67.88 - 40) / 2 - 0.5
    for _, plate in groups_with("chest"):
        cuts = [line for line in lines(plate, "cut") if np.allclose(line[:, 0], 42)]
        assert sorted(map(tuple, np.abs(np.array(cuts)[:, :, 1]))) == [(24, 20.5), (24, 20.5)]
        said = words_on(plate)
        assert said[said.index("from corner") + 1 :][:3] == ["42", "3.5", "13.4"]
        swing = [line for line in lines(plate, "hidden") if np.allclose(np.abs(line[:, 1]), 24 * math.sqrt(2))]
        assert len(swing) == 2
    for _, plate in groups_with("four"):
        assert "from corner" not in words_on(plate)
        assert lines(plate, "hidden") == []


@every_piece
def test_words_stand_clear_and_are_complete(name):
    check_layout(turned(name), plates(name))
    check_words(plates(name))
    for plate in plates(name):
        said = " ".join(words_on(plate))
        assert all(line in said for line in LATHE)
        texts = [item for item in plate.items if isinstance(item, Text) and item.turn_deg]
        assert {item.turn_deg for item in texts} == {90.0}  # all read from the right


def check_inside_frames(made, plates):
    """Title block, stamp and plate keep clear of one another and inside the frame, on either paper."""
    check_whole_sheets(made, plates)
    for plate in plates:
        for paper, (width, height) in PAPER_MM.items():
            found = rooms_of(sheet(plate, title_of(made, plate, 9, 20), paper))
            inner = [(words, corners - 10.0, turn) for words, corners, turn in found]  # the frame stands 10 mm in
            assert outside(inner, width - 20.0, height - 20.0) == []


@pytest.mark.parametrize("name", ["chest", "inch", "plumb"])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(turned(name), plates(name)[:1])


@every_piece
def test_the_scale_is_the_largest_that_fits(name):
    made = turned(name)
    for number, plate in enumerate(plates(name), 1):
        for larger in [scale for scale in usual_scales(made.design.unit) if scale > plate.scale][-1:]:
            width, height = leg_profile_plate(made, larger, number).size_mm
            assert width > 188.0 or height > 225.0


def test_a_piece_without_turned_legs_has_no_such_plate():
    square = read_piece(ROOT / "notebooks/designs/seven_openings.yaml")
    with pytest.raises(DesignError, match="has no leg profile 1, it has 0: one for each length of turned leg"):
        leg_profile_plate(square)
    with pytest.raises(DesignError, match="has no leg profile 3, it has 2"):
        leg_profile_plate(turned("chest"), number=3)
    with pytest.raises(DesignError, match="has no leg profile 0"):
        leg_profile_plate(turned("chest"), number=0)
