"""Lesson 3: every answer found a second way, for the numbers asked and for other seats; every slip by its number.

The second way is plain: distances walked along the drawer from face to face, a rectangle turned by small
steps until its corner meets the kicker, forces balanced by numpy, tails laid out edge by edge.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace
from fractions import Fraction as F

import numpy as np
import pytest
from known_slips import slip_tests

from furnlib.teach.lessons import exercise

KEYS = [f"03{letter}" for letter in "abcdefgh"]


def fresh(key, **numbers):
    """The exercise as the next learner finds it, with other numbers where they are given."""
    return replace(exercise(key), numbers={**exercise(key).numbers, **numbers})


def sizes(text):
    """Sizes written by the key, in its own unit."""
    bare = text.rsplit(" ", 1)[0].replace("\u202f", " ")
    return [float(sum(F(part) for part in size.split())) for size in bare.split(", ")]


def seats(many=10):
    return [random.Random(seat) for seat in range(many)]


# The answers, a second way


def test_03a_walked_along_the_drawer():
    """From the face in: 5 of lap, the side, 12 of air, 9 of back, 420 in all."""
    assert 5 + 394 + 12 + 9 == 420
    for answer in ("394", "394 mm", 394.4):
        assert fresh("03a").check(answer).right is True
    for answer in ("393", "395"):
        assert fresh("03a").check(answer).right is False


@pytest.mark.parametrize("chance", seats())
def test_03a_other_seats(chance):
    case, panel, lap, room = (chance.randrange(*ends) for ends in ((350, 600, 5), (6, 13), (4, 8), (10, 20)))
    each = fresh("03a", case=case, panel=panel, lap=lap, room=room, front=22)
    (side,) = sizes(each.answer)
    assert lap + side + room + panel == case
    assert each.faults() == []


def test_03b_piled_up_from_the_lower_edge():
    """In sixteenths: 6 under the groove, 4 of groove, the back, 1 of air, 72 in all."""
    assert 6 + 4 + 61 + 1 == 72
    assert F(61, 16) == 3 + F(13, 16)
    for answer in ("3 13/16", "3 13/16 in", 3.8125):
        assert fresh("03b").check(answer).right is True
    assert fresh("03b").check("3 7/8").right is False
    assert fresh("03b").check("96.8375").kind == "wrong unit"


@pytest.mark.parametrize("chance", seats())
def test_03b_other_seats(chance):
    high, up, tongue, drop = (F(chance.randrange(*ends), 16) for ends in ((48, 120), (4, 9), (3, 6), (1, 4)))
    each = fresh("03b", high=high, up=up, tongue=tongue, drop=drop)
    (back,) = sizes(each.answer)
    assert up + tongue + F(back) + drop == high


def test_03c_walked_from_wall_to_wall_of_the_grooves():
    """Across: 13 - 5 to the wall of the groove, 1 of air, the bottom, 1, 8. Front to back: 20 - 5, the bottom."""
    assert 8 + 1 + 502 + 1 + 8 == 520
    assert 15 + 357 == 20 + 340 + 12
    for answer in ("502, 357", "502 x 357", [502, 357]):
        assert fresh("03c").check(answer).right is True


@pytest.mark.parametrize("chance", seats())
def test_03c_other_seats(chance):
    wide, side, inside, groove = (chance.randrange(*ends) for ends in ((300, 700), (11, 16), (250, 450), (4, 7)))
    each = fresh("03c", wide=wide, side=side, inside=inside, groove=groove)
    across, deep = sizes(each.answer)
    assert (side - groove) + 1 + across + 1 + (side - groove) == wide
    assert (20 - groove) + deep == 20 + inside + 12
    assert each.faults() == []


def turned_until_it_meets(long, high, out, play):
    """The fall of the front: the drawer is turned by small steps until its rear corner meets the kicker."""
    angles = np.radians(np.arange(0, 20, 1e-4))
    rear = (long - out) * np.sin(angles) + high * np.cos(angles)
    met = angles[np.argmax(rear >= high + play)]
    return out * math.sin(met)


def test_03d_turned_by_small_steps():
    fall = turned_until_it_meets(420, 90, 300, 2.5)
    assert fall == pytest.approx(6.30, abs=0.005)
    for answer in ("6.3", "6.25 mm", fall):  # play times outside over inside is near enough
        assert fresh("03d").check(answer).right is True
    for answer in ("6", "6.5"):
        assert fresh("03d").check(answer).right is False


@pytest.mark.parametrize("chance", seats(6))
def test_03d_other_seats(chance):
    long, high, out, play = (
        chance.randrange(380, 500, 10),
        chance.randrange(70, 130, 10),
        chance.randrange(240, 310, 10),
        F(chance.randrange(3, 7), 2),
    )
    each = fresh("03d", long=long, high=high, out=out, play=play)
    assert each.check(turned_until_it_meets(long, high, out, float(play))).right is True


def pull_that_moves_it(width, inside, offset, friction):
    """The pull that balances a drag of 1 along the drawer and turns nothing; below 0 where none does."""
    pull = ([offset, 0], [0, 1])
    presses = (([-width / 2, 0], [1, -friction]), ([width / 2, -inside], [-1, -friction]))  # at the edge, at the rear
    along = [pull[1][1], sum(force[1] for _, force in presses)]
    turning = [np.linalg.det(pull), sum(np.linalg.det(press) for press in presses)]
    return np.linalg.solve([along, turning], [1, 0])[0]


def test_03e_less_inside_binds_and_more_moves():
    assert pull_that_moves_it(700, 133, 220, 0.3) > 0
    assert pull_that_moves_it(700, 131, 220, 0.3) < 0
    assert fresh("03e").check("132").right is True
    assert fresh("03e").check("128").right is False


@pytest.mark.parametrize("chance", seats(6))
def test_03e_other_seats(chance):
    width, end, friction = (
        chance.randrange(500, 900, 20),
        chance.randrange(60, 160, 10),
        chance.choice((0.25, 0.3, 0.4)),
    )
    each = fresh("03e", width=width, end=end, friction=friction)
    (inside,) = sizes(each.answer)
    assert pull_that_moves_it(width, inside * 1.01, width / 2 - end, friction) > 0
    assert pull_that_moves_it(width, inside * 0.99, width / 2 - end, friction) < 0
    assert each.faults() == []


LINES = ("front", "sides", "back", "bottom")
RIGHT = {"front": "418", "sides": "342", "back": "418 x 131", "bottom": "404 x 334"}
"""420 - 2; 360 - 12 - 6; 418 and 150 - 10 - 6 - 3; 418 - 24 + 12 - 2 and 360 - 12 - 20 + 6."""
PLANTED = {"front": "420", "sides": "322", "back": "418 x 150", "bottom": "334 x 404"}


@pytest.mark.parametrize("plant", LINES)
def test_03f_the_planted_line_is_the_answer_and_every_other_shows_its_sum(plant):
    numbers = {"plant": LINES.index(plant) + 1}
    wanted = "; ".join(f"{name} {(PLANTED if name == plant else RIGHT)[name]}" for name in LINES)
    assert f"first: {wanted}. One" in str(fresh("03f", **numbers))
    assert fresh("03f", **numbers).answer == plant
    for line in LINES:
        reply = fresh("03f", **numbers).check(line)
        assert reply.right is (line == plant)
        if line != plant:
            assert all(f"{size} = " in reply.words for size in RIGHT[line].split(" x "))
    assert fresh("03f", **numbers).faults() == []


def test_03f_two_lines_are_told():
    reply = fresh("03f").check("back and bottom")
    assert (reply.right, "2 lines are named; one is wrong." in reply.words) == (False, True)


@pytest.mark.parametrize(
    ("plant", "words"), [(1, "would not go in"), (2, "Front and lap"), (3, "slid in under it"), (4, "front to back")]
)
def test_03f_says_what_the_slip_does(plant, words):
    assert words in fresh("03f", plant=plant).check(LINES[plant - 1]).words


@pytest.mark.parametrize("chance", seats())
def test_03g_laid_out_edge_by_edge(chance):
    tails, half, gap, each = (
        chance.randrange(2, 7),
        chance.randrange(6, 12),
        chance.randrange(4, 9),
        chance.randrange(14, 30),
    )
    edge = half + each
    for _ in range(tails - 1):
        edge += gap + each
    assert fresh("03g", high=edge + half, tails=tails, half=half, gap=gap).check(each).right is True


def test_03g_as_it_is_asked():
    assert 9 + 22 + 7 + 22 + 7 + 22 + 7 + 22 + 9 == 127
    assert fresh("03g").check("22").right is True


def test_03h_piled_up_at_the_dampest():
    """1.5 of air, paint, wood that has grown by a hundredth, paint, 1 of air: 165 to a tenth."""
    piled = 1.5 + 0.3 + 160.3 * 1.01 + 0.3 + 1
    assert piled == pytest.approx(165, abs=0.05)
    assert fresh("03h").check("160.3").right is True
    assert fresh("03h").check("160.29").kind == "off the grid"
    assert fresh("03h").check("160.2").right is False


# The slips by their numbers

SLIPS = {
    # 394 is right; less 19; 420 - 9 - 12 - 19; 420 - 9 - 12 - 14
    ("03a", "375"): "lap and front are both taken off",
    ("03a", "380"): "the lap is taken to be as thick as the front",
    ("03a", "385"): "what the side is let in by",
    ("03a", "399"): "the lap is forgotten",
    ("03a", "406"): "the back room is forgotten",
    # in sixteenths: 72; 72 - 6 - 1; 72 - 4 - 1; 72 - 10
    ("03b", "4 1/2"): "as high as the sides",
    ("03b", "4 1/16"): "on the lower edge of the groove",
    ("03b", "4 3/16"): "only the width of the groove",
    ("03b", "3 7/8"): "below the sides is forgotten",
    ("03c", "357, 502"): "the grain runs from front to back",
    ("03c", "497, 357"): "only one of the two grooves",
    ("03c", "515, 357"): "from the outside, less one groove",
    ("03c", "504, 357"): "the air at its ends is forgotten",
    ("03c", "502, 345"): "does not pass under it",
    ("03c", "502, 352"): "the groove in the front is forgotten",
    # 2.5 x 300 / 420; 2.5 x 420 / 120; 2.5 x 120 / 300
    ("03d", "2.5"): "by the play itself",
    ("03d", "1.79"): "taken for what is inside",
    ("03d", "8.75"): "taken for what is pulled out",
    ("03d", "1"): "change places",
    # 0.3 x 220; 0.6 x 130; 0.6 x 440; 0.6 x 350
    ("03e", "66"): "only one of the two places is seen to drag",
    ("03e", "78"): "from the end of the front",
    ("03e", "264"): "from pull to pull",
    ("03e", "210"): "at the very end of the front",
    # (127 - 18 - 28) / 4; (127 - 21) / 4; (127 - 9 - 21) / 4; (127 - 18) / 4
    ("03g", "20.25"): "a gap is counted for every tail",
    ("03g", "26.5"): "the half pins are forgotten",
    ("03g", "24.25"): "only one half pin",
    ("03g", "27.25"): "the gaps are forgotten",
    # (165 - 2.5 - 0.3) / 1.01; 162.5 / 1.01; 161.9; 161.9 x 1.01
    ("03h", "160.6"): "the paint is counted once",
    ("03h", "160.9"): "the paint is forgotten",
    ("03h", "161.9"): "the season is forgotten",
    ("03h", "163.5"): "as much higher as it will grow",
}


test_a_usual_slip_is_known_by_its_number, test_every_slip_is_worked_here = slip_tests(SLIPS, fresh, KEYS)


def test_no_slip_speaks_the_numbers_of_another_seat():
    for key in KEYS:
        assert not any(char.isdigit() for slip in exercise(key).slips for char in slip.meaning)
