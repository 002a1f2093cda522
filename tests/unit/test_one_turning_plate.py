"""The lesson's picture of a turning: its words stand clear, its numbers are those of plain sums.

The landing chest's front leg: square 48 for 42, bead 40 and 8 long, cove 38 and 20 long, fillet 4, taper to
28 in what 151 √(1 + tan² 8 + tan² 6) leaves. Masses are summed by scipy from lines and circles.
"""

from __future__ import annotations

import math

import pytest
from live_hand import BARES, controls, ends, put, seen
from pictures import BARE
from scipy.integrate import quad
from test_one_leg_plate import CLEAR, faults, words_of

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Contour, Fill, Stroke
from furnlib.draw.plates.one_turning import turning_plate
from furnlib.live.turnings import live_turning
from furnlib.plan.piece import read_piece

THREE = BARE / "stool_three_legs.yaml"
OPENED = [
    (BARES["mm"], "front left"),
    (BARES["mm"], "rear right"),
    (BARES["in"], "front left"),
    (THREE, "rear"),
    (BARE / "stool_four_legs.yaml", "rear left"),
    (BARE / "low_media_case.yaml", "front left"),
    (BARE / "low_media_case_inch.yaml", "middle"),
]
each_opened = pytest.mark.parametrize(("path", "position"), OPENED, ids=lambda part: getattr(part, "stem", part))
AXIS = 151 * math.sqrt(1 + math.tan(math.radians(8)) ** 2 + math.tan(math.radians(6)) ** 2)


@pytest.fixture(scope="module")
def chest():
    return turning_plate(read_piece(BARES["mm"]))


def beside(drawing, row):
    """What stands beside a row's name in the table."""
    words = words_of(drawing)
    return words[words.index(row) + 1]


@each_opened
def test_words_stand_clear_and_the_picture_is_low_enough(path, position):
    drawing = turning_plate(read_piece(path), position=position)
    assert faults(drawing) == CLEAR
    assert drawing.size_mm[0] < 206
    assert drawing.size_mm[1] < 95


@pytest.mark.parametrize(
    "moves",
    [
        {"Bead, rise": "4", "Cove, depth": "9.5"},
        {"Bead, length": "6", "Cove, length": "13", "Fillet, length": "1"},
        {"Taper, diameter at its end": "40", "Cove, diameter": "42"},
        {"Square, length": "100"},
    ],
    ids=str,
)
def test_under_the_hand_words_stand_clear(moves):
    view = live_turning(BARES["mm"])
    for name, to in moves.items():
        put(controls(view)[name], to)
        assert not seen(view)[1].startswith("Not drawn"), seen(view)[1]
    assert faults(view.drawing) == CLEAR


@pytest.mark.slow
@each_opened
def test_at_both_ends_of_every_control_words_stand_clear(path, position):
    drawn = 0
    for name, control in controls(live_turning(path, position)).items():
        for end in ends(control):
            view = live_turning(path, position)
            put(controls(view)[name], end)
            if not seen(view)[1].startswith("Not drawn"):
                assert (name, end, *faults(view.drawing)) == (name, end, *CLEAR)
                drawn += 1
    assert drawn > 4


def test_it_is_drawn_by_few_marks():
    """It is drawn anew at every move of a slider."""
    for path, position in OPENED:
        marks = list(turning_plate(read_piece(path), position=position).marks())
        strokes = sum(isinstance(mark, (Stroke, Arc, Fill)) for mark in marks)
        assert strokes < 120
        assert len(marks) - strokes < 60


def test_distances_run_from_one_end_and_diameters_stand_above(chest):
    words = words_of(chest)
    crown, hollow = 40 + 2 * 2, 38 - 2 * 6
    for distance in (0, 42, 46, 50, 60, 70, 74, round(AXIS, 1)):
        assert f"{distance:g}" in words
    for diameter in (f"⌀ {crown}", f"⌀ {hollow}", "□ 48 | ⌀ 40", "⌀ 40 | ⌀ 38", "⌀ 28"):
        assert diameter in words


def test_the_outline_is_drawn_on_both_sides_at_its_own_size(chest):
    """Bead 8 long, rising 2: its crown 22 from the axis; the hollow of the cove 13."""
    upper, lower = (mark for mark in chest.items if isinstance(mark, Contour) and mark.points[0][0] == 0)
    assert [(x, -y) for x, y in upper.points] == [(x, y) for x, y in lower.points]
    points = upper.flattened(0.001).points
    heights = {round(x, 1): y for x, y in points}
    assert max(y for x, y in points if 42 < x < 50) == pytest.approx(22, abs=1e-2)
    assert min(y for x, y in points if 50 < x < 70) == pytest.approx(13, abs=1e-2)
    assert heights[round(AXIS, 1)] == pytest.approx(14)


def test_blank_swing_and_stop_cut(chest):
    """48 square; 11.8 and 2.4 beyond the ends are the blank card's to prove. Half a mm is left to finish."""
    swing = 48 * math.sqrt(2)
    assert beside(chest, "blank").startswith("48 square, 197.7")
    words = words_of(chest)
    assert f"swing ⌀ {swing:.1f}" in words
    assert f"corner: cut {(swing - 40) / 2 - 0.5:.1f}" in words
    assert f"flat: cut {(48 - 40) / 2 - 0.5:g}" in words
    assert "largest ⌀ 44" in words
    circles = sorted(2 * mark.radius for mark in chest.items if isinstance(mark, Arc))[-3:]
    scale = circles[-1] / swing
    assert circles == pytest.approx([40 * scale + scale, 44 * scale, swing * scale])


def test_a_leg_without_a_square_has_no_stop_cut():
    words = words_of(turning_plate(read_piece(THREE), position="rear"))
    assert not any("cut" in line for line in words)
    assert "largest ⌀ 36" in words


def test_a_slim_leg_shows_its_beads_and_coves_once_more():
    """Two coves of 14 and the bead between them, 42 long, at full size; the picture is drawn at a quarter."""
    drawing = turning_plate(read_piece(THREE), position="rear")
    *_, again = (mark for mark in drawing.items if isinstance(mark, Contour))
    (x, _), (end, _) = again.points[0], again.points[-1]
    assert (end - x) * drawing.scale == pytest.approx(42)
    assert any(line.endswith("half outline, 1 : 1") for line in words_of(drawing))


def test_mass_and_slenderness(chest):
    """Black cherry weighs 0.50 x 1.12 at 12 %."""

    def bowed(half, rise):
        reach = (half**2 + rise**2) / 2 / rise
        return reach, lambda x: math.sqrt(reach**2 - (x - half) ** 2) - (reach - rise)

    bead, cove = bowed(4, 2)[1], bowed(10, 6)[1]
    long = AXIS - 74
    volume = 48 * 48 * 42 + math.pi * (
        quad(lambda x: (20 + bead(x)) ** 2, 0, 8)[0]
        + quad(lambda x: (19 - cove(x)) ** 2, 0, 20)[0]
        + 4 * 19**2
        + quad(lambda x: (19 - 5 * x / long) ** 2, 0, long)[0]
    )
    assert beside(chest, "mass, black cherry") == f"{volume * 1e-6 * 0.50 * 1.12 * 1000:.0f} g"
    assert beside(chest, "length over thinnest") == f"{AXIS / 26:.1f}"
    assert beside(chest, "steady") == "not needed"
    assert float(beside(chest, "would whirl near")) % 100 == 0


def test_a_leg_of_no_known_wood_says_nothing_of_mass():
    drawing = turning_plate(read_piece(BARE / "stool_four_legs.yaml"))
    assert not any("mass" in line or "whirl" in line for line in words_of(drawing))
    assert "weakest" not in words_of(drawing)


def test_the_weakest_place_is_a_share_and_no_rating():
    """Rear leg of the stool: lean 18, 10 kg across and 27 kg up at the foot, tenon 25 of white ash, 106.2 MPa."""
    drawing = turning_plate(read_piece(THREE), position="rear")
    lean, g = math.radians(18), 9.80665
    # the handbook's low end: two standard deviations of 16 % below its average
    across = 27 * g * math.sin(lean) + 10 * g * math.cos(lean)
    stress = across * 420 / math.cos(lean) / (math.pi * 25**3 / 32)
    share = stress / (106.2 * (1 - 2 * 0.16))
    assert f"weakest at {40 / math.cos(lean):.1f}, {share:.0%} of a handbook's low end, no rating" in drawing.caption
    assert "weakest" in words_of(drawing)


def test_a_leg_that_is_not_turned_is_refused():
    with pytest.raises(DesignError, match="is not turned; give the legs a profile"):
        turning_plate(read_piece(BARE / "practice_stool.yaml"))
    with pytest.raises(DesignError, match="has no leg 'rear'"):
        turning_plate(read_piece(BARES["mm"]), position="rear")
