"""Lesson 5: every answer found a second way, for the numbers asked and for twenty seats.

The second way is a leg in a room, x to the right, y to the front, z up: a direction from top to
foot, planes and their crossing lines, and a body that is leaned over by a rotation. Rake 15 on sight
line 35 giving 12.38 and 8.74, and 25 with 20 giving 30.6, stand in class notes worked by hand.
"""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from furnlib.teach.lessons import exercise

X, Y, Z = np.eye(3)


def degrees_between(first, second):
    """The smaller angle that two lines make."""
    cosine = abs(first @ second) / np.linalg.norm(first) / np.linalg.norm(second)
    return np.degrees(np.arccos(min(cosine, 1.0)))


def direction(rake_deg, splay_deg, front=1, right=1):
    """From top to foot, one down."""
    tan_rake, tan_splay = np.tan(np.radians([rake_deg, splay_deg]))
    return np.array([right * tan_splay, front * tan_rake, -1.0])


def leaned_over(axis):
    """Lean a plumb leg over about a level line, so that it comes to lie along the axis."""
    level = np.cross(-Z, axis)
    angle = np.radians(degrees_between(axis, Z))
    return Rotation.from_rotvec(level / np.linalg.norm(level) * angle)


def saw(face_normal, axis):
    """Mitre and tilt with a face of a leg on the table."""
    floor_line, square_across = np.cross(face_normal, Z), np.cross(face_normal, axis)
    return degrees_between(floor_line, square_across), 90 - degrees_between(face_normal, Z)


def total_lean_and_sight_line(rake_deg, splay_deg):
    axis = direction(rake_deg, splay_deg)
    return degrees_between(axis, Z), degrees_between(axis * [1, 1, 0], Y)


def foot_run(height, rake_deg, splay_deg):
    return (height * direction(rake_deg, splay_deg))[[1, 0]]


def axis_length(height, rake_deg, splay_deg):
    return np.linalg.norm(height * direction(rake_deg, splay_deg))


def side_face_down(rake_deg, splay_deg):
    axis = direction(rake_deg, splay_deg)
    return saw(leaned_over(axis).apply(X), axis)


def rake_and_splay(total_lean_deg, sight_line_deg):
    """Tip a plumb line to the front, turn it about plumb, and look from the side and from the front."""
    steps = Rotation.from_euler("xz", [total_lean_deg, -sight_line_deg], degrees=True)  # to the front, then right
    x, y, z = steps.apply(-Z)
    return np.degrees(np.arctan2([y, x], -z))


def opposite_hand(rake_deg, splay_deg):
    """Saw every leg's top level, and try which pieces fit one another when turned, or in a mirror.

    Each piece is known by how far its four long edges reach past the axis, going round it.
    """
    corners = np.array([[-1.0, -1, 0], [-1, 1, 0], [1, 1, 0], [1, -1, 0]])
    tops = {}
    for (end, front), (side, right) in product({"front": 1, "rear": -1}.items(), {"left": -1, "right": 1}.items()):
        axis = direction(rake_deg, splay_deg, front, right)
        tops[f"{end} {side}"] = leaned_over(axis).apply(corners)[:, 2] / axis[2] * np.linalg.norm(axis)

    def fits(one, other):
        return any(np.allclose(np.roll(one, quarter), other) for quarter in range(4))

    model = tops["front left"]
    return [leg for leg, top in tops.items() if fits(top[::-1], model) and not fits(top, model)]


def miss_at_the_floor(height, total_lean_deg):
    """Half of what a degree more and a degree less make together: the curve's own slope, to 0.1 %."""
    more, less = np.tan(np.radians([total_lean_deg + 1, total_lean_deg - 1]))
    return height * (more - less) / 2


def steep(rake_deg, splay_deg):
    axis = direction(rake_deg, splay_deg)
    return degrees_between(axis, Z), saw(np.cross(X, axis), axis)[0]  # the front face holds the axis and is level


TRUTH = {
    "05a": total_lean_and_sight_line,
    "05b": foot_run,
    "05c": axis_length,
    "05d": side_face_down,
    "05e": rake_and_splay,
    "05f": opposite_hand,
    "05g": miss_at_the_floor,
    "05h": steep,
}
BY_HAND = {
    # tan 12 = 0.21256, tan 9 = 0.15838: the root of their squares is 0.26508, their ratio 0.74514
    "05a": ("14.85, 36.69", "14.9, 36.6", "15, 36.69", "14.85, 36.8"),
    # 450 x 0.24933 = 112.2, 450 x 0.19438 = 87.5
    "05b": ("112.2, 87.5", "112 87", "112.8, 87.5", "112.2, 86.9"),
    # 1 + 0.24933² + 0.28675² = 1.14439, its root 1.06976
    "05c": ("748.8", "749.2", "749.4", "748.2"),
    # tan 12 x cos 15 = 0.21256 x 0.96593 = 0.20532
    "05d": ("15, 11.60", "15.05, 11.65", "15.2, 11.6", "15, 11.8"),
    "05e": ("12.38, 8.74", "12.4, 8.7", "12.5, 8.74", "12.38, 8.6"),
    "05f": ("front right, rear left", "rear left and front right", "front right", "front left, front right"),
    # 450 x 0.0174533 / 0.92718² = 9.136; 2 % of that is 0.183
    "05g": ("9.14", "9.3", "8.9", "9.4"),
    # tan 20 x cos 25 = 0.36397 x 0.90631 = 0.32987
    "05h": ("30.61, 18.26", "30.7 18.3", "30.8, 18.26", "30.61, 18.4"),
}


def seat(key, **numbers):
    return replace(exercise(key), numbers=numbers)


def written(truth):
    return ", ".join(truth) if isinstance(truth, list) else ", ".join(f"{value:.3f}" for value in np.atleast_1d(truth))


@pytest.mark.parametrize("key", TRUTH)
def test_the_answer_is_that_of_the_leg_in_the_room(key):
    truth = written(TRUTH[key](**exercise(key).numbers))
    assert str(seat(key, **exercise(key).numbers).check(truth)) == "Right."


@pytest.mark.parametrize("key", BY_HAND)
def test_the_answer_worked_by_hand_is_right_to_its_tolerance(key):
    said = [seat(key, **exercise(key).numbers).check(answer) for answer in BY_HAND[key]]
    assert [reply.right for reply in said] == [True, True, False, False]
    assert [reply.kind for reply in said[2:]] == ["not yet", "not yet"]


def test_lesson_5_is_all_here():
    assert list(TRUTH) == list(BY_HAND) == [f"05{letter}" for letter in "abcdefgh"]


SEATS = {
    "05a": {"rake_deg": (10, 16), "splay_deg": (5, 9)},
    "05b": {"height": (420, 520), "rake_deg": (14, 18), "splay_deg": (9, 12)},
    "05c": {"height": (700, 760), "rake_deg": (14, 17), "splay_deg": (17, 20)},
    "05d": {"rake_deg": (15, 19), "splay_deg": (10, 13)},
    "05e": {"total_lean_deg": (12, 20), "sight_line_deg": (25, 40)},
    "05f": {"rake_deg": (5, 10), "splay_deg": (11, 14)},
    "05g": {"height": (400, 520), "total_lean_deg": (21, 26)},
    "05h": {"rake_deg": (24, 28), "splay_deg": (20, 23)},
}


@pytest.mark.parametrize("key", SEATS)
def test_twenty_seats_each_with_numbers_of_its_own(key):
    every = list(product(*(range(low, high + 1) for low, high in SEATS[key].values())))
    for row in random.Random(key).sample(every, 20):
        own = seat(key, **dict(zip(SEATS[key], row, strict=True)))
        assert own.faults() == []
        assert str(own.check(written(TRUTH[key](**own.numbers)))) == "Right."


@pytest.mark.parametrize(
    ("key", "numbers", "fault"),
    [
        # alike both ways: the sight line is 45 from either edge
        ("05a", {"rake_deg": 12, "splay_deg": 12}, "the wrong edge"),
        # tan² R = tan² 20 + tan² 3: R = 20.2, and 20 is only 0.2 off
        ("05a", {"rake_deg": 20, "splay_deg": 3}, "only the larger"),
        # 151 x (tan 8 - sin 8) = 0.2
        ("05b", {"height": 151, "rake_deg": 8, "splay_deg": 6}, "the sine is taken"),
        ("05b", {"height": 450, "rake_deg": 14, "splay_deg": 14}, "the splay is taken for the forward run"),
        # 435.75 against 436.01
        ("05c", {"height": 420, "rake_deg": 10, "splay_deg": 12}, "both cosines"),
        # the tilt is 5.94
        ("05d", {"rake_deg": 8, "splay_deg": 6}, "the splay itself"),
        ("05d", {"rake_deg": 15, "splay_deg": 15}, "the front face lies"),
        ("05e", {"total_lean_deg": 15, "sight_line_deg": 45}, "the wrong edge"),
        # alike both ways a square leg's mirror image is the leg itself, turned a quarter round
        ("05f", {"rake_deg": 10, "splay_deg": 10}, "No word is written"),
        # 1 / cos 10 is 1.5 % more than 1, and that is within the tolerance
        ("05g", {"height": 450, "total_lean_deg": 10}, "divided by only once"),
        # 10.0 and 9.95
        ("05h", {"rake_deg": 8, "splay_deg": 6}, "Pythagoras"),
        ("05h", {"rake_deg": 90, "splay_deg": 6}, "The rake is 90; it must lie between -90 and 90"),
    ],
)
def test_numbers_that_make_no_sound_question_are_found(key, numbers, fault):
    assert any(fault in sentence for sentence in seat(key, **numbers).faults())


def test_a_slip_in_one_angle_is_known_whatever_the_other_is():
    for said in ("21, 36.7", "21, 36.9", "21, 50"):  # 12 + 9
        assert str(seat("05a", **exercise("05a").numbers).check(said)).endswith("when the two angles are added.")


def test_05b_in_inches_is_the_right_number_in_the_wrong_unit():
    """112.2 / 25.4 = 4.417, 87.5 / 25.4 = 3.445."""
    assert seat("05b", **exercise("05b").numbers).check("4.417, 3.445").kind == "wrong unit"
