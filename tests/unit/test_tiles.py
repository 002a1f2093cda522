"""A long drawing over several sheets: joined by its crosses as they stand in the PDF, and sample by sample."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import numpy as np
import pypdf
import pytest
from pictures import drawing_of
from test_sheet import Page

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Drawing, Fill, Stroke, Text
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.layout import extent
from furnlib.draw.pen import Pen
from furnlib.draw.scale import MM_UNIT, PLATE_MM
from furnlib.draw.sheet import Title, sheet
from furnlib.draw.tiles import tiles

# from the foot; two of the mm stick stand within a seam, one on it; the inch stick is 27 9/16 long
STATIONS = {
    "mm": (0.0, 31.5, 60.0, 196.5, 204.0, 260.0, 400.0, 512.25, 700.0),
    "in": (0.0, 1.25, 7.75, 8.0, 11.6875, 15.75, 21.5, 27.5625),
}
PROFILE = ((0.0, 15.0), (150.0, 25.0), (250.0, 18.0), (700.0, 24.0))
SETS = [("mm", "A4"), ("mm", "letter"), ("in", "letter")]
LAP = 6.0  # mm of paper that neighbours share on either side of a cross


def stick(unit):
    """A stick 30 mm wide with a line at each station, half a profile, and a little of everything else."""
    pen = Pen(MM_UNIT[unit], unit)
    low, high, end = pen.mm(-15.0), pen.mm(15.0), STATIONS[unit][-1]
    pen.box(0.0, low, end, high, "wood")
    for station in STATIONS[unit]:
        pen.line((station, low), (station, high), kind="bar")
        pen.text((station + pen.mm(1.0), low + pen.mm(2.0)), "here", "small")
    pen.contour([(pen.mm(x), pen.mm(y)) for x, y in PROFILE], (0.2, 0.0, -0.1), kind="cut")
    pen.circle((pen.mm(200.0), 0.0), pen.mm(12.0))
    pen.shape([(pen.mm(x), pen.mm(y)) for x, y in ((380, -40), (430, -40), (395, -18))], "far", hatch=True)
    pen.dimension((0.0, low), (end, low), -30.0, "all of it")
    return pen.drawing("Story stick 1", spoken="A stick.", formulas=("turning.station",))


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """Every sheet of both sticks, read back from the PDF."""
    folder, found = tmp_path_factory.mktemp("tiles"), {}
    for unit, paper in SETS:
        parts = tiles(stick(unit))
        titles = [Title("Box", "A", number, len(parts), "stamp") for number in range(1, len(parts) + 1)]
        sheets = [sheet(part, title, paper) for part, title in zip(parts, titles, strict=True)]
        reader = pypdf.PdfReader(save_pdf_pages(sheets, folder / f"{unit}_{paper}.pdf"))
        found[unit, paper] = [Page(page, reader) for page in reader.pages]
    return found


every_set = pytest.mark.parametrize(("unit", "paper"), SETS)


def crosses(page):
    """Letter and middle of each register cross: a level and an upright line of 8 mm with one middle."""
    short = [path for path in page.paths if len(path) == 2 and math.dist(*path) == pytest.approx(8.0, abs=0.01)]
    level = [path.mean(axis=0) for path in short if abs(path[0, 1] - path[1, 1]) < 1e-6]
    upright = [path.mean(axis=0) for path in short if abs(path[0, 0] - path[1, 0]) < 1e-6]
    middles = [a for a in level for b in upright if np.abs(a - b).max() < 0.01]
    letters = [(word, np.array([x, y])) for word, x, y in page.words if re.fullmatch("[A-Z]", word)]
    assert len(letters) == len(middles)
    return [(min(letters, key=lambda one: math.dist(one[1], middle))[0], middle) for middle in middles]


def steps_to_join(pages):
    """What is added to each page's places so that its crosses lie on those of the page before."""
    steps = [np.zeros(2)]
    for before, after in pairwise(pages):
        shared = [(a, b) for name, a in crosses(before) for other, b in crosses(after) if name == other]
        pairs = [(a, b) for a, b in shared if abs(a[0] - b[0]) < 60]  # the left ones and the right ones
        assert len(pairs) == 2
        (a, b), (c, d) = pairs
        assert a - b == pytest.approx(c - d, abs=0.01)  # both crosses fit at once
        steps.append(steps[-1] + a - b)
    return steps


@every_set
def test_joined_by_its_crosses_every_station_is_true(pages, unit, paper):
    found = set()
    steps = steps_to_join(pages[unit, paper])
    for page, step in zip(pages[unit, paper], steps, strict=True):
        across = [y for left, right, y in page.level_lines() if right - left == pytest.approx(30.0, abs=0.01)]
        found |= {round(y + step[1], 2) for y in across}
    heights = sorted(found)
    places = [height for i, height in enumerate(heights) if i == 0 or height - heights[i - 1] > 0.05]
    wanted = [station * (1.0 if unit == "mm" else 25.4) for station in STATIONS[unit]]
    assert [place - places[0] for place in places] == pytest.approx(wanted, abs=0.05)
    assert places[-1] - places[0] > 699


@every_set
def test_crosses_stand_two_hundred_mm_apart_up_the_sheet_on_both_sides(pages, unit, paper):
    for number, page in enumerate(pages[unit, paper], 1):
        found = crosses(page)
        last = len(pages[unit, paper])
        assert sorted(name for name, _ in found) == sorted(
            2 * "ABC"[max(number - 2, 0) : number if number < last else 3]
        )
        low, high = (min(y for _, (_, y) in found), max(y for _, (_, y) in found))
        assert high - low == pytest.approx(200.0 if 1 < number < last else 0.0, abs=0.01)


@every_set
def test_each_sheet_has_its_bars_and_says_what_it_joins(pages, unit, paper):
    assert len(pages[unit, paper]) == 4
    for number, page in enumerate(pages[unit, paper], 1):
        for label, length in (("100 mm", 100.0), ("4 in", 101.6)):
            left, right, _ = page.bar_under(label)
            assert right - left == pytest.approx(length, abs=0.01)
        text = page.text()
        joins = ("joins to 2 at A:", "joins to 1 at A, to 3 at B:", "joins to 2 at B, to 4 at C:", "joins to 3 at C:")
        assert f"Sheet {number} of 4, {joins[number - 1]} cross on cross; crosses stand 200 mm apart." in text
        assert f"Story stick 1, sheet {number} of 4" in text
        assert "full size" in text


# The drawing itself, before any outlet


def lines_of(drawing):
    """Ends of every straight stretch of every line, flattened, apart from crosses."""
    strokes = [mark.flattened(1e-4) if isinstance(mark, Arc) else mark for mark in drawing.marks()]
    for stroke in strokes:
        if isinstance(stroke, Stroke):
            points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
            yield from zip(points, points[1:], [stroke.kind] * (len(points) - 1), strict=False)


def samples(drawing, step):
    """Points along every line, with its kind."""
    for a, b, kind in lines_of(drawing):
        count = max(2, math.ceil(math.dist(a, b) / step))
        for t in np.linspace(0.0, 1.0, count):
            yield (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])), kind


def nearest(points, lines):
    """Distance of each point from the nearest of the lines."""
    p, a, b = np.array(points)[:, None], np.array([line[0] for line in lines]), np.array([line[1] for line in lines])
    way = b - a
    t = np.clip(np.sum((p - a) * way, axis=2) / np.maximum(np.sum(way * way, axis=1), 1e-30), 0.0, 1.0)
    return np.hypot(*np.moveaxis(p - a - t[..., None] * way, 2, 0)).min(axis=1)


def turned_back(part):
    """The lines of a sheet as they lie in the whole drawing, without crosses: these are thin."""
    return [((a[1], -a[0]), (b[1], -b[0]), kind) for a, b, kind in lines_of(part) if kind != "thin"]


@pytest.mark.parametrize("unit", STATIONS)
def test_seams_lose_nothing_and_both_sides_of_a_seam_show_the_same(unit):
    whole, mm = stick(unit), 1 / MM_UNIT[unit]
    for number, part in enumerate(tiles(whole)):
        window = (number * 200.0 - LAP) * mm if number else -math.inf, ((number + 1) * 200.0 + LAP) * mm
        shown = turned_back(part)
        xs = [x for line in shown for x, _ in line[:2]]
        assert window[0] - 1e-9 <= min(xs)
        assert max(xs) <= window[1] + 1e-9
        for kind in {kind for _, _, kind in shown}:
            there = [point for point, k in samples(whole, 5.0 * mm) if k == kind]
            inside = [point for point in there if window[0] <= point[0] <= window[1]]
            own = [line for line in shown if line[2] == kind]
            assert nearest(inside, own).max() < 0.02 * mm  # all that is in the window is on the sheet
            all_there = [line for line in lines_of(whole) if line[2] == kind]
            assert nearest([end for line in own for end in line[:2]], all_there).max() < 0.02 * mm  # and nothing else
        missing = {k for (x, _), k in samples(whole, 5.0 * mm) if window[0] < x < window[1]} - {k for *_, k in shown}
        assert not missing


def test_tints_are_cut_at_the_edges_of_the_sheet():
    wedge = Fill(((0.0, 0.0), (700.0, 0.0), (0.0, 70.0)))
    parts = tiles(Drawing("Wedge", (wedge,), 1.0, (0.0, 0.0, 700.0, 70.0), "mm"))
    for part, (start, end) in zip(parts, ((0, 206), (194, 406), (394, 606), (594, 700)), strict=True):
        (fill,) = [item for item in part.items if isinstance(item, Fill)]
        x, y = np.array(fill.points).T
        area = abs(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
        heights = [70.0 * (1 - place / 700.0) for place in (start, end)]
        assert area == pytest.approx((end - start) * sum(heights) / 2)


def test_a_closed_line_that_lies_on_one_sheet_stays_closed_and_one_over_a_seam_has_no_open_corner():
    box = Stroke(((190.0, 0.0), (300.0, 0.0), (300.0, 9.0), (190.0, 9.0)), closed=True)
    whole = Stroke(((20.0, 0.0), (90.0, 0.0), (90.0, 9.0)), closed=True)
    edge = Stroke(((0.0, -20.0), (390.0, -20.0)))
    first, second = tiles(drawing_of(box, whole, edge, box=(0.0, -30.0, 390.0, 20.0)))
    of = [
        [item for item in part.items if isinstance(item, Stroke) and item.kind == "visible"] for part in (first, second)
    ]
    assert [stroke.closed for stroke in of[0]] == [False, True, False]
    # each sheet shows two corners of the box, each within one line and not at its end
    assert sorted(of[0][0].points) == [(-9.0, 190.0), (-9.0, 206.0), (0.0, 190.0), (0.0, 206.0)]
    assert sorted(of[1][0].points) == [(-9.0, 194.0), (-9.0, 300.0), (0.0, 194.0), (0.0, 300.0)]
    assert {point[1] for stroke in (of[0][0], of[1][0]) for point in (stroke.points[0], stroke.points[-1])} == {
        206,
        194,
    }


@pytest.mark.parametrize("unit", STATIONS)
def test_words_stand_whole_on_one_sheet(unit):
    whole, parts, mm = stick(unit), tiles(stick(unit)), 1 / MM_UNIT[unit]
    wanted = sorted(mark.words for mark in whole.marks() if isinstance(mark, Text))
    found = []
    for part in parts:
        left, bottom, right, top = part.box
        words = [item for item in part.items if isinstance(item, Text)]
        found += [item.words for item in words if item.turn_deg]
        for x, y in (corner for item in words for corner in extent(item, mm)):
            assert left <= x <= right
            assert bottom <= y <= top
    assert sorted(found) == wanted


@pytest.mark.parametrize(("anchor", "at", "owner"), [("start", 150.0, 0), ("start", 165.0, 1), ("end", 240.0, 1)])
def test_words_over_a_seam_are_moved_onto_the_sheet_of_their_middle(anchor, at, owner):
    words = Text((at, 0.0), "a shoulder that is cut down to the line and no further", "small", anchor)
    left, right = (pick(x for x, _ in extent(words, 1.0)) for pick in (min, max))
    assert left < 194
    assert right > 206  # stands whole on neither sheet
    edge = Stroke(((0.0, -9.0), (390.0, -9.0)))
    parts = tiles(drawing_of(words, edge, box=(0.0, -10.0, 390.0, 10.0)))
    found = [[item for item in part.items if isinstance(item, Text) and item.turn_deg] for part in parts]
    assert [len(texts) for texts in found] == [1 - owner, owner]
    ends = [y for _, y in extent(found[owner][0], 1.0)]
    assert (max(ends) if owner == 0 else min(ends)) == pytest.approx((206.0, 194.0)[owner])


@pytest.mark.parametrize("unit", STATIONS)
def test_every_sheet_has_room_on_both_papers_and_its_own_name(unit):
    parts = tiles(stick(unit))
    assert [part.name for part in parts] == [f"Story stick 1, sheet {number} of 4" for number in (1, 2, 3, 4)]
    for part in parts:
        assert np.all(np.array(part.size_mm) <= PLATE_MM)
        assert (part.scale, part.unit, part.formulas) == (MM_UNIT[unit], unit, ("turning.station",))
        assert part.spoken.startswith(f"A stick. {part.name[15:].capitalize()}, joins to ")


def bare(length, height=20.0, start=0.0):
    return Drawing(
        "Bare", (Stroke(((start, 0.0), (start + length, 0.0))),), 1.0, (start, 0.0, start + length, height), "mm"
    )


def test_a_strip_of_one_metre_twenty_takes_six_sheets():
    parts = tiles(bare(1200.0))
    assert len(parts) == 6
    assert all(part.size_mm[1] <= PLATE_MM[1] for part in parts)
    assert parts[5].spoken == "Sheet 6 of 6, joins to 5 at E: cross on cross; crosses stand 200 mm apart."


@pytest.mark.parametrize("start", [-333.3, -200.0, -199.0, -3.0, 0.0, 77.0, 195.0])
@pytest.mark.parametrize("length", [189.0, 205.9, 206.1, 400.0, 411.9, 900.0])
def test_wherever_its_zero_lies_each_sheet_fits_and_the_whole_is_shown(start, length):
    parts = tiles(bare(length, start=start))
    spans = []
    for part in parts:
        assert part.size_mm[1] <= PLATE_MM[1]
        (line,) = [item for item in part.items if isinstance(item, Stroke) and item.kind == "visible"]
        spans.append((line.points[0][1], line.points[1][1]))
    assert (spans[0][0], spans[-1][1]) == pytest.approx((start, start + length))
    for before, after in pairwise(spans):
        assert before[1] - after[0] == pytest.approx(2 * LAP)
        assert round(before[1] - LAP) % 200 == 0


def test_what_one_sheet_holds_stays_as_it_is():
    drawing = bare(PLATE_MM[0], PLATE_MM[1])
    assert tiles(drawing) == (drawing,)


@pytest.mark.parametrize(("length", "height"), [(700.0, 165.0), (140500.0, 20.0)])
def test_what_is_too_high_or_too_long_is_refused_with_the_room_there_is(length, height):
    with pytest.raises(
        DesignError, match=rf"^'Bare' is {length:.0f} x {height:.0f} mm on paper, .* hold 140400 x 164: "
    ):
        tiles(bare(length, height))
