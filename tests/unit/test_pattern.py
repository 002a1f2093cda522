"""The half pattern: one closed contour with the axis as its edge, in the drawing, the DXF and the printed sheets."""

from __future__ import annotations

import math
from functools import cache
from itertools import pairwise

import ezdxf
import numpy as np
import pytest
from ezdxf.math import bulge_center, bulge_radius
from test_drilling_card import check_layout, check_words, words_on
from test_leg_profile_plate import CURVED, check_inside_frames, every_piece, strays, turned
from test_stick import TO_MM, joined, printed, sheets_of_first

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Contour
from furnlib.draw.plates.pattern import HALF_PATTERN, leg_pattern, pattern_plate
from furnlib.draw.plates.turned_groups import turned_groups


@cache
def patterns(name):
    made = turned(name)
    return [pattern_plate(made, number) for number in range(1, len(HALF_PATTERN.sheets(made)) + 1)]


def whole(name):
    """For each length of leg its profile and its one contour."""
    for number, group in enumerate(turned_groups(turned(name)), 1):
        (contour,) = [item for item in leg_pattern(turned(name), number).items if isinstance(item, Contour)]
        yield group[0].turned.profile, contour


@every_piece
def test_one_closed_contour_runs_along_the_radius_and_back_along_the_axis(name):
    for profile, contour in whole(name):
        assert (contour.kind, contour.closed) == ("cut", True)
        assert contour.points[-2:] == ((profile.length, 0.0), (0.0, 0.0))
        assert contour.bulges[-3:] == (0.0, 0.0, 0.0)
        flat = np.array(contour.flattened(1e-5).points)
        assert strays(flat[:-2], profile).max() < (0.01 if name in CURVED else 1e-4)
        x, y = np.array(contour.flattened(1e-7).points).T
        area = abs(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
        places = np.unique(np.concatenate([np.linspace(0, profile.length, 200_001), profile.joints]))
        halves = (places[1:] + places[:-1]) / 2
        assert area == pytest.approx(np.diff(places) @ profile.radius_at(halves), rel=1e-4)


@every_piece
def test_the_cutter_gets_one_closed_outline_with_true_arcs(name, tmp_path):
    made = turned(name)
    document = ezdxf.readfile(leg_pattern(made).save(tmp_path / "pattern.dxf"))
    assert document.units == (1 if made.design.unit == "in" else 4)
    (line,) = [entity for entity in document.modelspace().query("LWPOLYLINE") if entity.closed]
    assert line.dxf.layer == "cut"
    profile, contour = next(whole(name))
    corners = line.get_points("xyb")
    assert [(x, y) for x, y, _ in corners] == list(contour.points)
    for (x0, y0, bulge), (x1, y1, _) in pairwise(corners):
        if bulge:
            centre, radius = bulge_center((x0, y0), (x1, y1), bulge), bulge_radius((x0, y0), (x1, y1), bulge)
            at = x0 + 0.3 * (x1 - x0)
            up = math.sqrt(radius**2 - (at - centre.x) ** 2)
            assert min(abs(centre.y + side * up - profile.radius_at(at)) for side in (1, -1)) < 1e-9
            assert (bulge < 0) == (profile.radius_at(at) > y0 + 0.3 * (y1 - y0))  # out: clockwise, from left to right


def test_the_arcs_of_the_chest_by_hand(tmp_path):
    # bead 8 long, 2 up: radius (4^2 + 2^2) / (2 x 2) = 5; cove 20 long, 6 deep: (10^2 + 6^2) / 12 = 11.33
    document = ezdxf.readfile(leg_pattern(turned("chest")).save(tmp_path / "pattern.dxf"))
    (line,) = [entity for entity in document.modelspace().query("LWPOLYLINE") if entity.closed]
    corners = line.get_points("xyb")
    bent = [(a, b) for a, b in pairwise(corners) if a[2]]
    assert [bulge_radius(a[:2], b[:2], a[2]) for a, b in bent] == pytest.approx([5.0, 136 / 12])
    assert [tuple(bulge_center(a[:2], b[:2], a[2]))[:2] for a, b in bent] == [
        pytest.approx((46.0, 17.0)),
        pytest.approx((60.0, 13.0 + 136 / 12)),
    ]


PRINTED = [("long", "A4"), ("inch", "letter")]
CROSSED = [("long", "letter"), ("inch", "A4")]


@pytest.mark.parametrize(
    ("name", "paper"), [*PRINTED, *(pytest.param(*pair, marks=pytest.mark.slow) for pair in CROSSED)]
)
def test_printed_and_joined_the_outline_is_true_to_a_tenth_of_a_millimetre(name, paper, tmp_path):
    made = turned(name)
    count = sheets_of_first(name, HALF_PATTERN.sheets)
    pages = printed(name, patterns(name)[:count], paper, tmp_path)
    profile, mm = made.legs[0].turned.profile, TO_MM[made.design.unit]
    drawn = []
    for page, shift in zip(pages, joined(pages), strict=True):
        lines = [path for path in page.paths if path[:, 1].min() > 45 and np.ptp(path, axis=0).max() > 4]  # no letters
        wide = page.size_mm[0] - 12  # without the frame
        lines = [path for path in lines if path[:, 0].min() > 12 and path[:, 0].max() < wide]
        plumb = [a[0] for path in lines for a, b in pairwise(path) if abs(a[0] - b[0]) < 1e-6 and abs(a[1] - b[1]) > 60]
        axis = max(plumb)  # the outline lies left of it, the words right
        drawn += [(y + shift, axis - x) for path in lines for x, y in path]
    places, widest = np.array(drawn), max(station.diameter for station in profile.stations)
    places = places[(places[:, 1] > -0.01) & (places[:, 1] < widest / 2 * mm + 1)]  # without the crosses
    places[:, 0] -= places[:, 0].min()
    assert places[:, 0].max() == pytest.approx(profile.length * mm, abs=0.1)
    for station in profile.stations:
        at = (station.distance * mm, station.diameter / 2 * mm)
        assert np.hypot(*(places - at).T).min() < 0.1, station
    away = np.array([abs(x - joint * mm) for x in places[:, 0] for joint in profile.joints]).reshape(len(places), -1)
    outline = places[(away.min(axis=1) > 0.2) & (places[:, 1] > 1.0)]
    assert len(outline) > (10 if name != "inch" else 4)
    assert np.abs(outline[:, 1] - mm * profile.radius_at(outline[:, 0] / mm)).max() < 0.1


@every_piece
def test_words_stand_clear_on_every_sheet(name):
    check_layout(turned(name), patterns(name))
    check_words(patterns(name))
    said = " ".join(words for plate in patterns(name) for words in words_on(plate))
    for part in ("Hold against the turning with the lathe standing", "Measure the bar"):
        assert said.count(part) == len(turned_groups(turned(name)))


@pytest.mark.parametrize("name", ["plumb", "three"])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(turned(name), patterns(name)[:2])


def test_there_is_a_pattern_for_each_length_only():
    assert [plate.name for plate in patterns("chest")] == ["Half pattern 1", "Half pattern 2"]
    with pytest.raises(DesignError, match="has no half pattern 3, it has 2: one for each length"):
        leg_pattern(turned("chest"), 3)
