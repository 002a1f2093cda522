"""The lesson's picture of one leg: its numbers, its pencil lines and its words standing clear.

The pencil lines are held to a leg that is leaned by scipy's rotations and cut by the floor; the rest to
plain trigonometry.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from leg_shapes import on_round_legs
from live_hand import BARES, CALLED, PRACTICE, ROOT, controls, ends, put, seen, stool_file
from pictures import first_of
from scipy.spatial.transform import Rotation
from strained import FIRST, PIECES, piece
from test_plates import clashes, outside, rooms_of, struck

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Stroke, Text
from furnlib.draw.plates.groups import WORDS_NOTE
from furnlib.draw.plates.one_leg import leg_plate
from furnlib.live.pieces import live_leg
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.plan.sizes.legs import mirror_groups

THREE_LEGS = ROOT / "notebooks" / "designs" / "stool_three_legs.yaml"
FOUR_LEGS = ROOT / "notebooks" / "designs" / "stool_four_legs.yaml"
OPENED = [
    (PRACTICE, "front left"),
    (PRACTICE, "rear right"),
    (FOUR_LEGS, "front left"),
    (THREE_LEGS, "rear"),
    (THREE_LEGS, "front right"),
    (BARES["mm"], "front left"),
    (BARES["mm"], "rear left"),
    (BARES["in"], "front left"),
    (BARES["in"], "rear right"),
]
each_opened = pytest.mark.parametrize(("path", "position"), OPENED, ids=lambda part: getattr(part, "stem", part))


def words_of(drawing):
    return [mark.words.replace("\u202f", " ") for mark in drawing.marks() if isinstance(mark, Text)]


def tan(angle):
    return math.tan(math.radians(angle))


def faults(drawing):
    """Words that run into one another, are struck through or stand outside."""
    found = rooms_of(drawing)
    return clashes(found), struck(drawing, found), outside(found, *drawing.size_mm)


CLEAR = ([], [], [])

# Words stand clear


@pytest.mark.slow
@each_opened
def test_at_both_ends_of_every_control_no_words_touch_and_none_are_struck_through(path, position):
    seen_drawn = 0
    for name, control in controls(live_leg(path, position)).items():
        for end in ends(control):
            view = live_leg(path, position)
            put(controls(view)[name], end)
            if not seen(view)[1].startswith("Not drawn"):
                assert (name, end, *faults(view.drawing)) == (name, end, *CLEAR)
                seen_drawn += 1
    assert seen_drawn > 6


ON_LEGS = [name for name in PIECES if "no legs" not in name and name != "small box"]


@pytest.mark.parametrize("name", first_of(ON_LEGS, *FIRST.intersection(ON_LEGS)))
def test_strained_pieces_keep_their_words_clear(name):
    for group in mirror_groups(piece(name).legs):
        drawing = leg_plate(piece(name), position=group[-1].position)
        assert faults(drawing) == CLEAR
        assert drawing.size_mm[1] < 125


MOVED = {
    "by a hair": {"rake": "0.5", "splay": "0.25"},
    "sideways": {"rake": "0", "splay": "20"},
    "far both ways": {"rake": "30", "splay": "25"},
    "inward at the sides": {"rake": "12", "splay": "-4"},
    "inward fore and aft": {"rake": "-6", "splay": "12"},
    "just over a step of the scale": {"rake": "17.5", "splay": "14"},
}


@pytest.mark.parametrize(
    "orientation",
    first_of(("untwisted", "front_level", "sightline", "sightline_corner"), "untwisted", "sightline_corner"),
)
@pytest.mark.parametrize("moves", MOVED.values(), ids=MOVED)
def test_leans_under_the_hand_keep_their_words_clear(moves, orientation):
    view = live_leg(PRACTICE, "front left")
    put(controls(view)["Orientation"], orientation)
    for name, to in moves.items():
        put(controls(view)[CALLED[name]], to)
    assert not seen(view)[1].startswith("Not drawn"), seen(view)[1]
    assert faults(view.drawing) == CLEAR


# Its numbers


def test_its_numbers_for_a_square_leg_under_a_pitched_seat(tmp_path):
    """Rake 12, splay 9 under a seat pitched by 3: height, runs, axis, mitre, tilt, and the same from the seat."""
    r, s, p = tan(12), tan(9), math.radians(3)
    height = 450 - 36 * math.cos(p) - 50 * math.sin(p)
    stretch = math.sqrt(1 + r * r + s * s)
    drilled = tan(9), s * math.cos(math.radians(12)) / math.cos(math.radians(9))
    inside = 36 * math.sqrt(1 + drilled[0] ** 2 + drilled[1] ** 2)

    def angle(radians, digits=1):
        return f"{round(math.degrees(radians), digits):g}°"

    drawing = leg_plate(read_piece(stool_file(tmp_path, "rake: 12, splay: 9")))
    words = words_of(drawing)
    for length in (height, height * r, height * s, height * math.hypot(r, s), height * stretch):
        assert f"{round(length, 1):g}" in words
    assert [words[words.index(job) + 1] for job in words if job.endswith("mitre, tilt")] == [
        f"9°, {angle(math.asin(r / stretch))}",
        f"12°, {angle(math.asin(s / stretch))}",
    ]
    assert words[words.index("Drill, from the seat: rake, splay") + 1] == f"9°, {angle(math.atan(drilled[1]))}"
    ramp = angle(math.atan(math.hypot(*drilled))), angle(math.atan2(drilled[1], drilled[0]))
    assert words[words.index("Ramp and sight line on the seat") + 1] == ", ".join(ramp)
    assert f"Axis {round(height * stretch, 1):g} below the seat, {round(inside, 1):g} more inside it." in words
    off = angle(math.asin(math.sin(math.atan(r)) * math.sin(math.atan(s))), 2)
    assert f"Untwisted. Under a square pad the corner is {off} off." in words
    assert not any("blank" in line for line in words)  # the top goes into the seat
    assert WORDS_NOTE in words


def test_its_numbers_for_a_square_leg_under_a_case():
    """151 high, rake 8, splay 6, 48 square: 151 / cos R = 153.3, and 48 (tan 8 + tan 6) = 11.8 more."""
    words = words_of(leg_plate(read_piece(BARES["mm"])))
    assert "Axis 153.3 from end to end, least blank 165.1." in words
    assert words[words.index("Saw, outer side face down: mitre, tilt") + 1] == "8°, 5.9°"
    assert {"21.2", "15.9", "26.5", "9.95°", "36.8°"} <= set(words)
    assert WORDS_NOTE in words


def test_a_plumb_leg_is_square_everywhere(tmp_path):
    words = words_of(leg_plate(read_piece(stool_file(tmp_path, "rake: 0, splay: 0", "rake: 0, splay: 0"))))
    assert words.count("0°, 0°") == 2
    assert "Untwisted." in words


def test_a_turned_leg_shows_the_wedges_under_seat_and_cradle():
    """Rake 18: a ramp of 18 rises 100 tan 18 = 32.5; in a V of 90 the leg's last taper takes g from the wedge.

    From 32 to 22 it begins 150 + 3 x 14 = 192 below the seat: tan c = (32 - 22) / 2(L - 192), sin g = sin c / sin 45;
    over its 200 the V-block rises 200 sin(18 - g).
    """
    drawing = leg_plate(read_piece(THREE_LEGS), position="rear")
    axis = 420 / math.cos(math.radians(18))
    g = math.asin(math.sin(math.atan(5 / (axis - 192))) / math.sin(math.radians(45)))
    wedge = math.radians(18) - g
    words = words_of(drawing)
    assert {"Ramp at the drill 18°", "100", "32.5"} <= set(words)
    assert f"Wedge of the cradle {math.degrees(wedge):.1f}°" in words
    assert {"200", f"{200 * math.sin(wedge):.1f}"} <= set(words)
    assert wedges(drawing) == pytest.approx([tan(18), math.tan(wedge)])


def wedges(drawing):
    """Rise over run of each wedge, measured on its outline: the heel stands square."""
    found = []
    for mark in drawing.items:
        if isinstance(mark, Stroke) and mark.kind == "cut" and mark.closed:
            toe, heel, high = mark.points
            assert (heel[1], high[0]) == (toe[1], heel[0])
            found.append((high[1] - heel[1]) / (heel[0] - toe[0]))
    return found


def test_a_turned_leg_under_a_case_has_its_cradle_alone(tmp_path):
    text = BARES["mm"].read_text("utf-8").partition("  fixing:")[0]
    text = on_round_legs(text, 48, 30, 30)
    for position in ("front left", "front right", "rear left", "rear right"):
        text += "  lean:\n" * (position == "front left") + f"    {position}: {{rake: 8, splay: 6}}\n"
    drawing = leg_plate(piece_of(DesignText.parse(text)), position="rear left")
    assert len(wedges(drawing)) == 1
    assert not any("drill" in words.lower() for words in words_of(drawing))
    assert faults(drawing) == CLEAR


# Its pencil lines


def edge_offsets(rake, splay, square=2.0):
    """How far past the axis each long edge of a leg leaned without twist runs before it meets the floor.

    The plumb leg is turned about the level line square to the sight line; x fore and aft, y sideways, both
    outward, z up.
    """
    run = np.array([tan(rake), tan(splay), 0.0])
    total = math.atan(np.linalg.norm(run))
    about = np.array([run[1], -run[0], 0.0]) / (np.linalg.norm(run) or 1.0)
    turn = Rotation.from_rotvec(total * about)
    down = turn.apply([0.0, 0.0, -1.0])
    assert down == pytest.approx(np.append(run[:2], -1.0) / np.linalg.norm([*run[:2], 1.0]))
    corners = {}
    for fore, side in ((1, 1), (1, -1), (-1, -1), (-1, 1)):
        edge = turn.apply(np.array([fore, side, 0.0]) * square / 2)
        corners[fore, side] = edge[2] / -down[2]  # from beside the axis' foot on to the floor
    return corners


def pencil_line(drawing):
    """The line on the unrolled faces, its five corners in mm on paper from the first, and the faces' names."""
    (line,) = (mark for mark in drawing.items if isinstance(mark, Stroke) and mark.kind == "cut" and not mark.closed)
    named = {}
    for mark in drawing.items:
        if isinstance(mark, Text) and mark.anchor == "middle" and line.points[0][0] < mark.at[0] < line.points[-1][0]:
            named.setdefault(round(mark.at[0], 6), mark.words)
    names = [words for _, words in sorted(named.items())]
    start = line.points[0]
    return [((x - start[0]) * drawing.scale, (y - start[1]) * drawing.scale) for x, y in line.points], names


# Seen from outside with the foot down: a front left leg's outer side lies to the left of its front, a rear
# left leg's to the right of its back (one stands behind the stool).
ROUND = {
    "front left": ("outer side", "front", "inner side", "back"),
    "front right": ("inner side", "front", "outer side", "back"),
    "rear left": ("inner side", "back", "outer side", "front"),
    "rear right": ("outer side", "back", "inner side", "front"),
}


@pytest.mark.parametrize(("rake", "splay"), [(12, 9), (0, 6), (5, -4), (-3, 8), (28, 24), (0, 0)])
@pytest.mark.parametrize("position", ROUND)
def test_the_pencil_lines_have_the_slopes_of_the_cut(tmp_path, position, rake, splay):
    """Each leg by itself: the others stand plumb."""
    path = stool_file(tmp_path, "rake: 0.5, splay: 0", "rake: 0, splay: 0.5", ("height: 450", "height: 250"))
    lines = path.read_text("utf-8").splitlines()
    lines = [
        f"    {position}: {{rake: {rake}, splay: {splay}}}" if line.startswith(f"    {position}:") else line
        for line in lines
    ]
    made = piece_of(DesignText.parse("\n".join(lines)))
    points, names = pencil_line(leg_plate(made, position=position))
    order = names.index(ROUND[position][0])
    assert (*names[order:], *names[:order]) == ROUND[position]
    face = points[1][0]
    assert [x for x, _ in points] == pytest.approx([face * i for i in range(5)])
    offsets = edge_offsets(rake, splay, face)
    outward, inward = ROUND[position][1], ROUND[position][3]
    sides = {outward: (1, 0), inward: (-1, 0), "outer side": (0, 1), "inner side": (0, -1)}
    ring = [names[-1], *names]
    corners = [tuple(np.add(sides[one], sides[other])) for one, other in pairwise([*ring, names[0]])][:5]
    expected = [-offsets[tuple(int(part) for part in corner)] for corner in corners]
    assert [y for _, y in points] == pytest.approx([drop - expected[0] for drop in expected], abs=1e-9)
    for name, (start, end) in zip(names, pairwise(points), strict=True):
        mitre = math.degrees(math.atan(abs(end[1] - start[1]) / (end[0] - start[0])))
        assert mitre == pytest.approx(abs(rake if "side" in name else splay))


@pytest.mark.parametrize(
    ("orientation", "names"),
    [
        ("sightline", {"upright", "outer leaning", "inner leaning"}),
        ("sightline_corner", {"foremost", "hindmost"}),
        ("front_level", {"front", "back", "outer side", "inner side"}),
        ("side_level", {"front", "back", "outer side", "inner side"}),
    ],
)
def test_the_pencil_lines_follow_the_faces_however_they_are_turned(tmp_path, orientation, names):
    """p² + q² = tan² R whichever way the faces look; front level q = tan s cos r, side level p = tan r cos s."""
    path = stool_file(tmp_path, "rake: 12, splay: 9", "rake: 15, splay: 9", ("untwisted  #", f"{orientation}  #"))
    points, found = pencil_line(leg_plate(read_piece(path)))
    assert set(found) == names
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairwise(points)]
    assert slopes[:2] == pytest.approx([-slope for slope in slopes[2:]])
    assert slopes[0] ** 2 + slopes[1] ** 2 == pytest.approx(tan(12) ** 2 + tan(9) ** 2)
    expected = {
        "sightline": {0.0, math.hypot(tan(12), tan(9))},
        "sightline_corner": {math.hypot(tan(12), tan(9)) / math.sqrt(2)},
        "front_level": {tan(9) * math.cos(math.radians(12))},
        "side_level": {tan(12) * math.cos(math.radians(9))},
    }[orientation]
    for slope in expected:
        assert min(abs(abs(found) - slope) for found in slopes) < 1e-9


def test_the_mitres_stand_on_their_faces(tmp_path):
    drawing = leg_plate(read_piece(stool_file(tmp_path, "rake: 12, splay: 9")))
    texts = [mark for mark in drawing.items if isinstance(mark, Text)]
    for name, mitre in (("front", "9°"), ("back", "9°"), ("outer side", "12°"), ("inner side", "12°")):
        (head,) = (mark for mark in texts if mark.words == name)
        (label,) = (mark for mark in texts if mark.at[0] == head.at[0] and mark is not head)
        assert label.words == mitre
        (line,) = (mark for mark in drawing.items if isinstance(mark, Stroke) and mark.kind == "cut")
        highest = max(y for x, y in line.points if abs(x - label.at[0]) * drawing.scale < 10.1)
        assert highest < label.at[1] < head.at[1]  # on the wood that stays


def test_the_rear_leg_names_its_own_faces():
    words = words_of(leg_plate(read_piece(PRACTICE), position="rear left"))
    assert "Saw, back face down: mitre, tilt" in words
    assert "Foot of the rear left leg, unrolled: the pencil lines" in words


# What it is


def test_a_scale_that_is_asked_for_is_taken_where_the_leg_has_room(tmp_path):
    made = read_piece(PRACTICE)
    assert leg_plate(made).scale == 0.1
    assert leg_plate(made, 0.05).scale == 0.05
    far = read_piece(stool_file(tmp_path, "rake: 32, splay: 30"))
    assert leg_plate(far, 0.1).scale == 0.05


@each_opened
def test_caption_and_spoken_words_are_whole_sentences(path, position):
    drawing = leg_plate(read_piece(path), position=position)
    assert len(drawing.caption.splitlines()) == 2
    assert all(line.endswith(".") for line in drawing.caption.splitlines())
    assert drawing.spoken.endswith(".")
    assert position in drawing.spoken


def test_a_leg_that_is_not_there_is_said():
    with pytest.raises(DesignError, match="has no leg 'rear left'; its legs: front left, front right, rear"):
        leg_plate(read_piece(THREE_LEGS), position="rear left")
