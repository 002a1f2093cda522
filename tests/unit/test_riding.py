"""What a drawer rides on: every way in which runner, kicker, guide and stop can be there or not."""

from __future__ import annotations

import math
from fractions import Fraction as F
from itertools import product

import pytest
from scipy.optimize import brentq

from furnlib.base.guards import DesignError
from furnlib.trade.drawer.riding import Riding, lacks, stop_place

ALL = {"runner": True, "kicker": 3, "guide": True, "stop": True}
TOP = (80, 120, 240)  # side of the demo's top row, two-thirds out


def front_falls(height, gap, inside, out):
    """By root finding: the rear upper corner, turned about the runner's front edge, meets what is above."""
    highest = math.atan2(inside, height)

    def over(angle):
        return inside * math.sin(angle) + height * math.cos(angle) - height - gap

    return out * math.sin(brentq(over, 0, highest))


@pytest.mark.parametrize("there", list(product([True, False], repeat=4)), ids=str)
def test_every_lack_is_said_once_and_nothing_else(there):
    runner, kicker, guide, stop = there
    found = lacks(Riding(runner, F(3) if kicker else None, guide, stop), *TOP)
    names = ("no_runner", "no_guide", "no_kicker", "no_stop")
    expected = [name for name, is_there in zip(names, (runner, guide, kicker, stop), strict=True) if not is_there]
    assert [lack.code for lack in found] == expected
    for lack in found:
        assert lack.number and lack.reason and len(lack.cures) >= 2
        assert all(cure == cure.strip(" .") for cure in (lack.number, lack.reason, *lack.cures))


def test_a_drawer_with_nothing_above_it():
    """The demo: nothing within 40, two-thirds open it drops 92 or more; a kicker with a gap of 1.5 makes it 3."""
    (lack,) = lacks(Riding(**{**ALL, "kicker": None}), *TOP)
    assert lack.number == "nothing above it within 40"
    assert lack.reason == "pulled out 240, the front drops 92.3 or more"
    assert lack.cures[0] == "fit a kicker: with a gap of 1.5 the front drops 3"
    assert front_falls(80, 40, 120, 240) == pytest.approx(92.3, abs=0.05)
    assert front_falls(80, 1.5, 120, 240) == pytest.approx(3.0, abs=0.05)


def test_what_is_above_but_too_high_is_reckoned_as_it_is():
    (lack,) = lacks(Riding(**{**ALL, "kicker": 50}), *TOP)
    assert lack.reason == f"pulled out 240, the front drops {front_falls(80, 50, 120, 240):.1f}"
    (lack,) = lacks(Riding(**{**ALL, "kicker": 120}), *TOP)
    assert lack.reason == "pulled out 240, it tips out"
    (lack,) = lacks(Riding(**{**ALL, "kicker": None}), 80, 60, 300)
    assert lack.reason == "pulled out 300, it tips out"
    (lack,) = lacks(Riding(**{**ALL, "kicker": math.inf}), *TOP)
    assert lack.reason == "pulled out 240, it tips out"


@pytest.mark.parametrize(("kicker", "lacking"), [(0, False), (40, False), (F(401, 10), True)])
def test_forty_is_near_enough(kicker, lacking):
    assert bool(lacks(Riding(**{**ALL, "kicker": kicker}), *TOP)) == lacking


@pytest.mark.parametrize(("gap", "lacking"), [(0, False), (5, False), (F(51, 10), True), (18, True)])
def test_a_break_in_the_guide_over_five_catches_a_corner(gap, lacking):
    found = lacks(Riding(**ALL, guide_gap=gap), *TOP)
    assert [lack.code for lack in found] == ["guide_broken"] * lacking
    if lacking:
        assert found[0].number == f"a break of {float(gap):g} in the guide, at most 5"
        assert found[0].reason == "it catches a rear corner of the drawer"


def test_a_runner_without_a_guide_is_named():
    (lack,) = lacks(Riding(**{**ALL, "guide": False}, guide_gap=18), *TOP)  # no guide, so no break in it either
    assert lack.number == "a runner without a guide"
    assert [lack.number for lack in lacks(Riding(**{**ALL, "guide": False, "runner": False}), *TOP)] == [
        "no runner",
        "no guide",
    ]


def test_inches_have_the_same_limits():
    """40 mm is 1.575 in, 5 mm 0.197: shown to a thirty-second."""
    top = Riding(runner=True, kicker=None, guide=True, stop=True, guide_gap=F(1, 4))
    broken, nods = lacks(top, F(3), F(5), F(10), "in")
    assert broken.number.replace("\u202f", " ") == "a break of 1/4 in the guide, at most 3/16"
    assert nods.number.replace("\u202f", " ") == "nothing above it within 1 9/16"
    falls = front_falls(3, 40 / 25.4, 5, 10)
    assert nods.reason.replace("\u202f", " ").startswith(f"pulled out 10, the front drops {int(falls)} ")
    for kicker, lacking in ((F(1575, 1000) - F(1, 64), 0), (F(1575, 1000) + F(1, 64), 1)):
        assert len(lacks(Riding(**{**ALL, "kicker": kicker}), F(3), F(5), F(10), "in")) == lacking


def test_a_drawer_has_a_height():
    with pytest.raises(DesignError, match="The size of the drawer is 0"):
        lacks(Riding(**{**ALL, "kicker": None}), 0, 120, 240)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"kicker": -3}, "The room up to a kicker is -3; it must be 0 or more"),
        ({"kicker": math.nan}, "The room up to a kicker is nan"),
        ({"kicker": "high"}, "The room up to a kicker is high"),
        ({"guide_gap": math.nan}, "The break in a guide is nan"),
        ({"guide_gap": "long"}, "The break in a guide is long; it must be an ordinary number"),
    ],
)
def test_room_and_breaks_are_sizes(change, words):
    with pytest.raises(DesignError, match=words):
        lacks(Riding(**ALL | change), 80, 120, 240)


def test_the_stop_meets_the_back_of_the_front():
    """The trap: a stop at the back moves with the case. 380 deep it loses 0.9; 20 behind the face, 0.05 of it."""
    assert stop_place(F(20), F(1, 2)) == F(41, 2)
    face_after, share = 380 * (1 - 0.00248), 0.00248
    for place, comes_out in ((stop_place(20.0, 0.0), 0.05), (370.0, 0.92)):
        stop_after = face_after - place * (1 - share)  # from the back of the case, which stays
        front_face = stop_after + place
        assert front_face - face_after == pytest.approx(comes_out, abs=0.005)
