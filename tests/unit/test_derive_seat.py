"""The derivations of a leg under a seat and of two tilts: proved, about the code that runs, and not blind.

Beside the proof each claim is tried on numbers against directions that scipy's rotations turn, and a
slip put into the library's formula must leave a difference.
"""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
import sympy
from scipy.spatial.transform import Rotation

from furnlib.base.angles import cosd, sind, tand
from furnlib.teach.derive import seat as room
from furnlib.teach.derive.seat import derive_seat, derive_two_tilts
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.seat import feet_apart, mortise_height, tan_pitched, two_tilts

RHO, SIGMA, PITCH, HEIGHT, RUN = sympy.symbols("rho sigma p h f", positive=True)
THICK, FRONT_HEIGHT, REAR_HEIGHT, SPACING = sympy.symbols("T H_f H_b m", positive=True)
TAN_REAR = sympy.Symbol(r"\tan\rho_b", positive=True)
TANGENTS = tand(RHO), tand(SIGMA)
CLAIMS = {claim.key: claim for make in (derive_seat, derive_two_tilts) for claim in make().claims}
OF_A_LEG = [key for key in CLAIMS if key.startswith("seat.drill_")]
POINTS = 200


def numbers(*limits):
    """The same two hundred points in every run."""
    dice = random.Random(20_261)
    return [tuple(dice.uniform(low, high) for low, high in limits) for _ in range(POINTS)]


def evaluated(key, *symbols):
    """Both sides of a claim as functions of plain numbers."""
    return [sympy.lambdify(symbols, side, "math") for side in (CLAIMS[key].running, CLAIMS[key].derived)]


def turned_into_the_seat(rake, splay, pitch, end):
    """Outward, sideways and down shares of a leg's direction, seen from the pitched seat."""
    out = 1 if end == "front" else -1
    axis = [math.tan(math.radians(splay)), out * math.tan(math.radians(rake)), -1.0]
    sideways, front, up = Rotation.from_euler("x", pitch, degrees=True).inv().apply(axis)
    return out * front, sideways, -up


# Proved


@pytest.mark.parametrize("key", CLAIMS)
def test_running_less_derived_is_nothing_at_all(key):
    assert CLAIMS[key].difference == sympy.Integer(0)
    assert not CLAIMS[key].by_points


def test_every_formula_of_a_seat_is_claimed_once():
    assert set(CLAIMS) == {
        *(f"seat.drill_{part}{rear}" for part in ("rake", "splay", "rake_angle", "splay_angle")
          for rear in ("", "_rear")),
        "seat.rake_back", "seat.splay_back", "seat.pitch_from_heights", "seat.pitch_from_foot", "seat.length_in_seat",
        "seat.mortise_height", "seat.feet_apart",
        "two_tilts.level_second", "two_tilts.carried_first",
        "two_tilts.level_rake", "two_tilts.level_splay", "two_tilts.carried_rake", "two_tilts.carried_splay",
    }  # fmt: skip
    assert len(CLAIMS) == len(derive_seat().claims) + len(derive_two_tilts().claims)


# About the code that runs


@pytest.mark.parametrize("key", OF_A_LEG)
def test_what_runs_on_a_leg_is_what_the_library_returns_for_symbols(key):
    turn = -sind(PITCH) if key.endswith("_rear") else sind(PITCH)
    assert CLAIMS[key].running == tan_pitched(*TANGENTS, turn, cosd(PITCH))["splay" in key]


def test_what_runs_for_the_lengths_and_the_way_back():
    drilled = tan_pitched(*TANGENTS, sind(PITCH), cosd(PITCH))
    back = tan_pitched(*drilled, -sind(PITCH), cosd(PITCH))
    assert (CLAIMS["seat.rake_back"].running, CLAIMS["seat.splay_back"].running) == back
    assert CLAIMS["seat.length_in_seat"].running == Lean(*drilled).axis_length(THICK) ** 2
    assert CLAIMS["seat.mortise_height"].running == mortise_height(FRONT_HEIGHT, SPACING, PITCH)
    assert CLAIMS["seat.feet_apart"].running == feet_apart(FRONT_HEIGHT, SPACING, PITCH, TANGENTS[0], TAN_REAR)


@pytest.mark.parametrize("key", OF_A_LEG)
def test_a_leg_turned_with_the_seat_has_these_numbers_whichever_way_it_leans(key):
    end = "rear" if key.endswith("_rear") else "front"
    sides = evaluated(key, RHO, SIGMA, PITCH)
    for rake, splay, pitch in numbers((-45, 45), (-80, 80), (-40, 40)):
        out, sideways, down = turned_into_the_seat(rake, splay, pitch, end)
        wanted = (sideways if "splay" in key else out) / down
        for side in sides:
            assert side(rake, splay, pitch) == pytest.approx(wanted, rel=1e-10, abs=1e-12)


def test_the_length_inside_the_seat_on_numbers():
    """Both lengths are above 0, so that nothing is lost by comparing their squares."""
    sides = evaluated("seat.length_in_seat", RHO, SIGMA, PITCH, THICK)
    for rake, splay, pitch, thickness in numbers((-45, 45), (-80, 80), (-40, 40), (1, 60)):
        axis = np.array(turned_into_the_seat(rake, splay, pitch, "front"))
        wanted = np.linalg.norm(axis) * thickness / axis[2]
        drilled = Lean(*tan_pitched(tand(rake), tand(splay), sind(pitch), cosd(pitch)))
        assert drilled.axis_length(thickness) == pytest.approx(wanted, rel=1e-10)
        for side in sides:
            assert math.sqrt(side(rake, splay, pitch, thickness)) == pytest.approx(wanted, rel=1e-10)


def test_heights_and_feet_on_numbers():
    high = evaluated("seat.mortise_height", FRONT_HEIGHT, SPACING, PITCH)
    apart = evaluated("seat.feet_apart", FRONT_HEIGHT, SPACING, PITCH, RHO, TAN_REAR)
    for height, spacing, pitch, rake, rear_rake in numbers((300, 500), (50, 250), (-40, 40), (-60, 60), (-60, 60)):
        step = Rotation.from_euler("x", pitch, degrees=True).apply([0, -spacing, 0])
        rear_height = height + step[2]
        tan_rear = math.tan(math.radians(rear_rake))
        feet = height * math.tan(math.radians(rake)), step[1] - rear_height * tan_rear
        for side in high:
            assert side(height, spacing, pitch) == pytest.approx(rear_height, rel=1e-12)
        for side in apart:
            assert side(height, spacing, pitch, rake, tan_rear) == pytest.approx(feet[0] - feet[1], abs=1e-9)


def test_the_pitch_that_puts_a_foot_where_it_is_wanted_on_numbers():
    running, derived = evaluated("seat.pitch_from_foot", RHO, HEIGHT, RUN)
    for drill_rake, height, foot_run in numbers((-60, 60), (300, 500), (-250, 250)):
        rake = math.degrees(math.atan2(foot_run, height))
        for end, pitch in (("front", rake - drill_rake), ("rear", drill_rake - rake)):
            out, _, down = turned_into_the_seat(rake, 12, pitch, end)
            for side in (running, derived):
                assert side(drill_rake, height, foot_run) == pytest.approx(out / down, rel=1e-9, abs=1e-12)


def test_the_tilts_on_numbers_whichever_way_the_leg_leans():
    second, first = (evaluated(f"two_tilts.{key}", RHO, SIGMA) for key in ("level_second", "carried_first"))
    for rake, splay in numbers((-80, 80), (-80, 80)):
        lean = Lean(tand(rake), tand(splay))
        level, carried = np.radians(two_tilts(lean)).reshape(2, 2)
        for sides, tilt in ((second, level[1]), (first, carried[0])):
            assert [side(rake, splay) for side in sides] == pytest.approx([math.tan(tilt)] * 2, rel=1e-10)
        for table in (
            Rotation.from_rotvec([0, level[1], 0]) * Rotation.from_rotvec([-level[0], 0, 0]),
            Rotation.from_rotvec([-carried[0], 0, 0]) * Rotation.from_rotvec([0, carried[1], 0]),
        ):
            sideways, front, up = table.inv().apply([0, 0, -1])
            assert (front, sideways) == pytest.approx((-up * lean.tan_rake, -up * lean.tan_splay), abs=1e-12)


# Not blind


def slipped(monkeypatch, name, formula):
    """The differences that remain once a slip stands in for one of the library's formulas."""
    monkeypatch.setattr(room, name, formula)
    claims = [claim for make in (derive_seat, derive_two_tilts) for claim in make().claims]
    return {claim.key for claim in claims if claim.difference != 0}


@pytest.mark.parametrize(
    ("name", "formula", "caught"),
    [
        ("tan_pitched", lambda r, s, sin, cos: ((r * cos + sin) / (cos - r * sin), s / (cos - r * sin)),
         {"seat.drill_rake", "seat.drill_rake_rear", "seat.drill_splay", "seat.length_in_seat"}),  # turned over
        ("tan_pitched", lambda r, s, sin, cos: ((r * cos - sin) / (cos + r * sin), s),
         {"seat.drill_splay", "seat.drill_splay_angle_rear", "seat.length_in_seat"}),  # the splay left as it is
        ("tan_pitched", lambda r, s, sin, cos: (r - sin / cos, s),
         {"seat.drill_rake", "seat.drill_rake_angle", "seat.pitch_from_foot"}),  # tangents taken away, not angles
        ("mortise_height", lambda height, spacing, pitch: height - spacing * tand(pitch),
         {"seat.mortise_height", "seat.pitch_from_heights"}),  # the spacing as a distance in plan
        ("feet_apart", lambda height, spacing, pitch, front, rear: spacing + height * (front + rear),
         {"seat.feet_apart"}),  # the pitch forgotten
        ("two_tilts", lambda lean: type(two_tilts(lean))(lean.rake_deg, lean.splay_deg, lean.rake_deg, lean.splay_deg),
         {"two_tilts.level_second", "two_tilts.carried_first",
          "two_tilts.level_splay", "two_tilts.carried_rake"}),  # rake and splay on both hinges
        ("two_tilts", lambda lean: type(two_tilts(lean))(*two_tilts(lean)[2:], *two_tilts(lean)[:2]),
         {"two_tilts.level_rake", "two_tilts.level_splay",
          "two_tilts.carried_rake", "two_tilts.carried_splay"}),  # the wrong hinge underneath
    ],
)  # fmt: skip
def test_a_slip_in_the_library_leaves_a_difference(monkeypatch, name, formula, caught):
    assert caught <= slipped(monkeypatch, name, formula)


@pytest.mark.parametrize("make", [derive_seat, derive_two_tilts])
def test_the_page_shows_each_claim_with_its_nothing(make):
    page = make()._repr_markdown_()
    assert page.count("the difference simplifies to $0$") == len(make().claims)
    assert r"\pi" not in page
