"""Lesson 6: every answer found a second way, for the numbers asked and for twenty seats; every slip by its number.

The second way is plain: the corners of a leg that is leaned over by a rotation, the shapes of triangles,
outcomes counted one by one, a stress that is searched for its greatest.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate, permutations, product

import numpy as np
import pytest
from known_slips import slip_tests
from scipy.optimize import minimize_scalar
from scipy.spatial.transform import Rotation

from furnlib.teach.lessons import exercise

KEYS = [f"06{letter}" for letter in "abcdefgh"]
STATIONS = ("shoulder", "bead", "step", "neck", "fillet", "foot")
PARTS = ("square", "bead", "cove", "fillet", "taper")


def tan(degrees):
    return math.tan(math.radians(degrees))


def blank_length(rake_deg, splay_deg, height, square, waste):
    """From one outermost corner to the other along a leg that is leaned over without twist."""
    axis = np.array([tan(splay_deg), tan(rake_deg), -1.0])
    axis /= np.linalg.norm(axis)
    level = np.cross([0, 0, -1.0], axis)
    lean = Rotation.from_rotvec(level / np.linalg.norm(level) * np.arccos(-axis[2]))
    edges = lean.apply([(x * square / 2, y * square / 2, 0) for x, y in product((1, -1), repeat=2)])
    meets = [(plane - edges[:, 2]) / axis[2] for plane in (0, -height)]  # how far along each edge
    return meets[1].max() - meets[0].min() + 2 * waste


def stop_cut(square, diameter, leave):
    half = square / 2
    return half - (diameter / 2 + leave), math.hypot(half, half) - (diameter / 2 + leave)


def settings(leave, **diameters):
    return sorted({size + 2 * leave for size in diameters.values()}, reverse=True)


def corner_speed(square, spindle_rpm):
    """How far a corner gets in a millionth of a second, in mm: the length of a tiny chord."""
    turn = 2 * math.pi * spindle_rpm / 60 * 1e-6
    corner = complex(square / 2, square / 2)
    return abs(corner * complex(math.cos(turn), math.sin(turn)) - corner) * 1e6 / 1000


def legs(needed, good, certainty):
    """Leg after leg, the exact chances of 0, 1, 2 ... good ones among those made so far."""
    p, chances = Fraction(str(good)), [Fraction(1)]
    while sum(chances[needed:]) < Fraction(str(certainty)):
        chances = [(1 - p) * bad + p * one for bad, one in zip([*chances, 0], [0, *chances], strict=True)]
    return len(chances) - 1


def misstated(**given):
    return [part for at, part in enumerate(PARTS, 1) if given[f"{part}_end"] != sum(given[name] for name in PARTS[:at])]


def weakest(length, top, foot):
    """Search the taper for the greatest u / d³."""
    found = minimize_scalar(
        lambda u: -u / (foot + (top - foot) * u / length) ** 3 * foot**3 / length,
        bounds=(0, length), method="bounded", options={"xatol": 1e-9},
    )  # fmt: skip
    return found.x


def glue_line(side, spare, board, planing):
    """Board is laid on board until the stack reaches and no joint lies in its middle."""
    ply, boards, nearest = Fraction(board) - 2 * Fraction(planing), 1, 0
    while ply * boards < side + spare or not nearest:
        boards += 1
        nearest = min(abs(ply * joint - ply * boards / 2) for joint in range(1, boards))
    return nearest


TRUTH = {
    "06a": blank_length,
    "06b": stop_cut,
    "06c": settings,
    "06d": corner_speed,
    "06e": legs,
    "06f": misstated,
    "06g": weakest,
    "06h": glue_line,
}
BY_HAND = {
    # 1 + 0.14054² + 0.10510² = 1.03080, its root 1.01528; 151 x that + 48 x 0.24564 + 30
    "06a": ("195.1", "195.5", "195.7", "194.5"),
    # 12 / 2 - 2; 56 x 1.41421 = 79.196, less 44, half of it, less 2
    "06b": ("4, 15.6", "4 16", "4.6, 15.6", "4, 16.2"),
    "06c": ("46 42 40 30 28", "46, 42, 40, 30 and 28", "46 40 42 30 28", "46 42 40 30"),
    # 60 x 1.41421 = 84.85; x pi = 266.57 mm, 11.667 times a second; 2 % of the answer is 0.062
    "06d": ("3.11", "3.17", "3.18", "3.04"),
    # of 7: 1 - 0.0706 = 0.929; of 6: 0.831
    "06e": ("7", 7, "8", "9"),
    "06f": ("cove", "Cove", "bead", "bead, cove"),
    # (33 - 22) / (40 - 22) x 380
    "06g": ("232.2", "232.7", "232.8", "231.6"),
    # half of 7/8; 1/64 is 0.0156
    "06h": ("7/16", "0.45", "0.46", "0.42"),
}


def seat(key, **numbers):
    return replace(exercise(key), numbers=numbers or exercise(key).numbers)


def written(truth):
    if isinstance(truth, list) and isinstance(truth[0], str):
        return ", ".join(truth)
    return ", ".join(f"{float(value):.4f}" for value in np.atleast_1d(np.array(truth, dtype=float)))


@pytest.mark.parametrize("key", KEYS)
def test_it_is_sound_and_its_answer_is_that_of_the_second_way(key):
    assert seat(key).faults() == []
    assert str(seat(key).check(written(TRUTH[key](**exercise(key).numbers)))) == "Right."


@pytest.mark.parametrize("key", KEYS)
def test_the_answer_worked_by_hand_is_right_to_its_tolerance(key):
    said = [seat(key).check(answer) for answer in BY_HAND[key]]
    assert [reply.kind for reply in said] == ["right", "right", "not yet", "not yet"]


def of(chance, **ranges):
    return {name: chance.choice(range(low, high + 1)) for name, (low, high) in ranges.items()}


def drawn_stick(chance):
    """A stick on which one end, and not one of the last two, is drawn 2 or 3 off, and still in order."""
    lengths = of(chance, square=(36, 60), bead=(6, 12), cove=(14, 24), fillet=(4, 6), taper=(60, 120))
    ends = dict(zip([f"{part}_end" for part in PARTS], accumulate(lengths.values()), strict=True))
    ends[f"{chance.choice(PARTS[:3])}_end"] += chance.choice((-3, -2, 2, 3))
    return lengths | ends


SEATS = {
    "06a": lambda chance: of(
        chance, rake_deg=(7, 8), splay_deg=(5, 6), height=(140, 160), square=(47, 52), waste=(12, 20)
    ),
    "06b": lambda chance: of(chance, square=(50, 60), diameter=(38, 48), leave=(2, 3)),
    "06c": lambda chance: of(
        chance, leave=(1, 2), shoulder=(38, 41), bead=(42, 46), step=(34, 37), neck=(22, 26), foot=(27, 30)
    ),
    "06d": lambda chance: of(chance, square=(36, 64), spindle_rpm=(600, 1000)),
    "06e": lambda chance: {
        "needed": chance.randint(4, 8), "good": chance.choice((0.7, 0.75)), "certainty": chance.choice((0.9, 0.95))
    },
    "06f": drawn_stick,
    "06g": lambda chance: of(chance, length=(340, 420), top=(38, 43), foot=(23, 24)),
    "06h": lambda chance: {
        "side": Fraction(chance.randint(22, 24), 16), "spare": Fraction(1, 4),
        "board": chance.choice((1, Fraction(17, 16))), "planing": Fraction(1, 16),
    },
}  # fmt: skip


@pytest.mark.parametrize("key", KEYS)
def test_twenty_seats_each_with_numbers_of_its_own(key):
    chance, answers = random.Random(key), set()
    for _ in range(20):
        own = seat(key, **SEATS[key](chance))
        if key == "06c":  # two stations share a setting
            own = seat(key, **own.numbers, fillet=own.numbers["step"])
        truth = written(TRUTH[key](**own.numbers))
        assert own.faults() == []
        assert str(own.check(truth)) == "Right."
        answers.add(truth)
    assert len(answers) > 1


# Slips by hand: what is written down, and what it shows

SLIPS = {
    # 195.1 less half of 48 x 0.24564 = 11.79
    ("06a", "189.2"): "the end cut is counted at one end only",
    ("06a", "180.1"): "waste is left at one end only",
    # 151 / 1.01528 = 148.73, + 11.79 + 30; and 151 itself + 41.79
    ("06a", "190.5"): "multiplied by cos R instead of divided",
    ("06a", "192.8"): "the height is taken for the length of the axis",
    # 56 - 44 - 2; 79.196 - 44 - 2
    ("06b", "10, 33.2"): "what comes off the diameter is taken for the depth",
    # 56 - (44 + 4); 79.196 - 48
    ("06b", "8, 31.2"): "all is reckoned across the leg and not halved",
    # 12 / 2; 35.196 / 2
    ("06b", "6, 17.6"): "nothing is left for the finishing cut",
    ("06b", "15.6, 4"): "flat and corner change places",
    ("06b", "15.6, 15.6"): "the depth at the corner is cut from the flat as well",
    ("06b", "4, 4"): "the depth at the flat is taken at the corner as well",
    ("06c", "28 30 40 42 46"): "the smallest comes first",
    ("06c", "42 46 40 28 40 30"): "as they stand, and one setting comes twice",
    ("06c", "42 46 40 28 30"): "from top to foot as they stand.",
    ("06c", "44 40 38 28 26"): "nothing is left for the finishing cut",
    ("06c", "45 41 39 29 27"): "is added once, where it is left on both sides",
    # 48 x pi x 12.667; half of 2.7013; 60 times 2.7013
    ("06d", "2.2"): "the side of the square is taken for its swing",
    ("06d", "1.555"): "the radius is taken for the diameter",
    ("06d", "186.6"): "metres a minute are given",
    # 4 / 0.75 = 5.33; 0.75⁴ = 0.3164
    ("06e", "6"): "the legs needed are divided by the chance",
    ("06e", "5"): "one spare is made",
    ("06e", "0.32"): "the chance is given that all of them come good",
    ("06f", "fillet"): "the part after it is named",
    ("06f", "cove, fillet, taper"): "all after it are named too",
    ("06g", "0"): "it is thinnest there",
    ("06g", "380"): "it is bent most there",
    # 380 - 232.2; 1.5 x 22
    ("06g", "147.8"): "measured from the top",
    ("06g", "33"): "the diameter there is given",
    ("06h", "0"): "a glue line lies on the axis",
    ("06h", "1/2"): "the planing is forgotten",
    ("06h", "7/8"): "a whole ply is taken",
    # 3/4 - 7/16
    ("06h", "5/16"): "measured from the outside of the blank",
}


test_a_usual_slip_is_known_by_its_number, test_every_slip_is_worked_here = slip_tests(SLIPS, seat, KEYS)


@pytest.mark.parametrize(
    ("key", "words"),
    [
        # 67.88 x pi = 213.3; 760 / 60 = 12.67
        ("06d", "pi x 84.9 mm is 0.2666 m once round; 700 times a minute is 11.67 times a second: 3.11 m/s."),
        # 0.17798 + 0.35596 + 0.29663 = 0.83057; 1 - 0.07056 = 0.92944
        ("06e", "with a chance of 0.831, and that is too little; this number with 0.929: 7."),
        ("06f", "The sums are 42, 50, 70, 74, 153; the stick parts from them at one place: cove."),
        ("06g", "There it is 33 mm thick; (33 - 22) / (40 - 22) of 380: 232.2 mm from the foot."),
        ("06h", "3 boards, each 7/8 in as planed; the axis is in the middle one, half of that away: 7/16 in."),
    ],
)
def test_the_worked_line_shows_the_way(key, words):
    each = seat(key)
    for answer in ("1.7", "2.9", "4.3") if key != "06f" else ("bead", "taper", "square"):
        said = str(each.check(answer))
    assert words in said


def test_a_list_in_the_wrong_order_is_not_right():
    said = [list(order) for order in random.Random(6).sample(list(permutations((46, 42, 40, 30, 28))), 30)]
    for order in said:
        assert bool(seat("06c").check(order).right) == (order == [46, 42, 40, 30, 28])


def test_the_inch_answer_in_mm_is_the_right_number_in_the_wrong_unit():
    """7/16 x 25.4 = 11.11; with its unit beside it, it is converted."""
    assert seat("06h").check("11.1").kind == "wrong unit"
    assert seat("06h").check("11.1 mm").right is True


@pytest.mark.parametrize(
    ("key", "changed", "fault"),
    [
        ("06a", {"rake_deg": 0, "splay_deg": 0}, "one end only"),  # a plumb leg has no end cuts to count
        ("06a", {"waste": 1}, "waste is left at one end only"),
        ("06b", {"leave": 1}, "nothing is left"),  # 1 is not past three tolerances
        ("06b", {"diameter": 60}, "a fully round part is at most as thick as its square"),
        ("06c", {"shoulder": 44, "fillet": 26, "foot": 26}, "as they stand"),  # they stand in working order
        ("06e", {"good": 0.9}, "divided by the chance"),  # 4 / 0.9 rounded up is 5, and 5 are enough
        ("06e", {"good": 1}, "divided by the chance"),
        ("06e", {"certainty": 1}, "no number of spares makes it certain"),
        ("06f", {"cove_end": 70}, "No word is written"),  # nothing is mis-stated
        ("06f", {"cove_end": 70, "taper_end": 150}, "No word is written"),  # nothing comes after the last
        ("06g", {"foot": 20}, "from the top"),  # 1.5 x 20 lies half-way to 40
        ("06g", {"top": 33}, "the top is taken"),  # nowhere is it thicker than 1.5 x 22
        ("06g", {"top": 22}, "the top is taken"),  # no taper at all
        ("06h", {"planing": Fraction(1, 2)}, "thickness that planing leaves"),
        ("06h", {"planing": Fraction(1, 64)}, "the planing is forgotten"),
    ],
)
def test_numbers_that_make_no_sound_question_are_found(key, changed, fault):
    assert any(fault in sentence for sentence in seat(key, **exercise(key).numbers | changed).faults())


def test_06f_sums_of_tenths_are_told_from_a_wrong_mark():
    """42.1 + 8.2 = 50.3, + 20.1 = 70.4, + 4.4 = 74.8, + 79.1 = 153.9."""
    lengths = dict(zip(PARTS, (42.1, 8.2, 20.1, 4.4, 79.1), strict=True))
    ends = dict(zip([f"{part}_end" for part in PARTS], (42.1, 50.3, 67.4, 74.8, 153.9), strict=True))
    assert seat("06f", **lengths, **ends).check("cove").right is True
