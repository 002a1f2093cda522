"""Turned legs of whole pieces: the demos' by hand, and how a profile takes the length that its leg has.

Rules as printed are worked out in `test_rules`, with outlines of its own (`outlines`); what is wrong with a
profile is said in `test_bad_turning`.
"""

from __future__ import annotations

import math
import re
from dataclasses import astuple
from fractions import Fraction as F
from functools import cache

import numpy as np
import pytest
from leg_shapes import on_round_legs, without
from outlines import Outline
from pictures import BARE

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

CHEST, STOOL, FOUR, LOW = (
    (BARE / f"{name}.yaml").read_text()
    for name in ("landing_chest", "stool_three_legs", "stool_four_legs", "low_media_case")
)


@cache
def made(text):
    return piece_of(DesignText.parse(text))


def changed(text, *edits):
    for old, new in edits:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def turned(text, position):
    (leg,) = [leg for leg in made(text).legs if leg.position == position]
    return leg.turned


def profile_of(text, elements):
    """The text with another profile, an element a line."""
    lines = "".join(f"    - {{{element}}}\n" for element in elements)
    return without(text, "round|profile").replace("legs:\n", f"legs:\n  profile:\n{lines}")


def tan(angle_deg):
    return math.tan(math.radians(angle_deg))


# The demos by hand


def test_a_front_leg_of_the_chest_by_hand():
    one = turned(CHEST, "front left")
    lean = math.hypot(tan(8), tan(6))  # 0.1755
    axis = 151 * math.hypot(1, lean)  # 153.3
    taper = (28 - 38) / (axis - 42 - 8 - 20 - 4)
    assert one.profile.joints == pytest.approx((0, 42, 50, 70, 74, axis))
    # bead 40 and twice its 2 across, cove 38 less twice its 6
    assert np.array(one.profile.crowns) == pytest.approx(np.array([(46, 44), (60, 26)]))
    assert (one.profile.diameter_at(20), one.profile.diameter_at(axis)) == pytest.approx((48, 28))
    # a square takes 24 (tan 8 + tan 6), a round end 14 tan R / (1 - taper / 2 tan R)
    assert one.blank.top_extra == pytest.approx(24 * (tan(8) + tan(6)))
    assert one.blank.foot_extra == pytest.approx(14 * lean / (1 - taper / 2 * lean))
    assert one.blank.length == pytest.approx(axis + 5.895 + 2.430 + 2 * (15 + 3), abs=2e-3)
    assert f"{math.ceil(one.blank.length * 10) / 10}" == "197.7"
    assert one.blank.side == 48
    # the square ends at a bead 40 thick; 0.5 stays on its radius, and the corners stand 33.94 off the axis
    (cut,) = [step for step in one.steps if step.kind == "stop cut"]
    assert cut.distances == pytest.approx((42,))
    assert (cut.depth_at_flat, cut.depth_at_corner) == pytest.approx((24 - 20.5, 24 * math.sqrt(2) - 20.5))


def test_a_rear_leg_of_the_chest_differs_only_in_what_takes_the_rest():
    front, rear = (turned(CHEST, f"{end} left").profile.elements for end in ("front", "rear"))
    assert front[:-1] == rear[:-1]
    assert (front[-1].shape, front[-1].start_diameter, front[-1].end_diameter) == ("taper", 38, 28)
    assert (rear[-1].start_diameter, rear[-1].end_diameter) == (38, 28)
    assert rear[-1].length == pytest.approx(151 * math.hypot(1, tan(6)) - 74)
    assert front[-1].length - rear[-1].length == pytest.approx(
        151 * (math.hypot(1, tan(8), tan(6)) - math.hypot(1, tan(6)))
    )


def test_a_front_leg_of_the_stool_by_hand():
    one = turned(STOOL, "front right")
    stretch = math.hypot(1, tan(8), tan(14))  # 1 / cos 15.97
    through, axis = 40 * stretch, 420 * stretch  # 41.6 and 436.9
    assert one.top == pytest.approx(through)
    joints = np.cumsum([0, through, 150, 14, 14, 14, axis - 150 - 3 * 14])
    assert one.profile.joints == pytest.approx(joints.tolist())
    # coves from 32 to 24, from 30 to 36, from 32 to 24
    assert [diameter for _, diameter in one.profile.crowns] == pytest.approx([24, 36, 24])
    assert tuple(one.diameters) == pytest.approx((36, 22, 25))
    assert one.blank.side == pytest.approx(36 + 2 * (1 + 0.5))
    assert one.slenderness == pytest.approx(460 * stretch / 22)
    # the tenon is a cylinder, so its cut reaches 12.5 tan R past the axis
    assert one.blank.top_extra == pytest.approx(12.5 * math.hypot(tan(8), tan(14)))


def test_the_tenon_of_the_stool_is_bent_most_by_a_sum_of_its_own():
    # 10 kg level and 27 kg upright at the foot: square to the axis 27 g sin R + 10 g cos R, 436.9 from the
    # tenon, whose modulus is pi 25³ / 32 = 1534 mm³
    stretch = math.hypot(1, tan(8), tan(14))
    cosine = 1 / stretch
    sine = math.sqrt(1 - cosine**2)
    across = 9.80665 * (27 * sine + 10 * cosine)
    screen = turned(STOOL, "front left").screen
    assert screen.distance == pytest.approx(420 * stretch)
    assert screen.bending_mpa == pytest.approx(across * 420 * stretch / (math.pi * 25**3 / 32))
    assert screen.bending_mpa == pytest.approx(47.6, abs=0.05)
    # along the axis 27 g cos R presses and 10 g sin R pulls, on pi 25² / 4
    along = 9.80665 * (27 * cosine - 10 * sine)
    assert screen.compression_mpa == pytest.approx(along / (math.pi * 25**2 / 4))


def test_the_stools_blanks_are_glued_from_three_boards():
    # 39 and 6 to plane off are 45: three boards of 16 are 48, and no glue line lies on the axis
    plies = turned(STOOL, "rear").plies
    assert len(plies.plies) == 3
    assert min(map(abs, plies.glue_lines)) == pytest.approx(8)


@pytest.mark.parametrize("text", [CHEST, STOOL, FOUR, LOW], ids=["chest", "stool", "four", "low case"])
def test_the_profile_is_the_outline_of_its_shapes(text):
    for leg in made(text).legs:
        outline, profile = Outline(made(text), leg), leg.turned.profile
        places = np.linspace(0, profile.length, 997)
        assert profile.length == pytest.approx(outline.length, rel=1e-12)
        assert profile.radius_at(places) == pytest.approx([outline.seen(x) for x in places.tolist()], abs=1e-7)
        assert profile.section_modulus(places) == pytest.approx([outline.modulus(x) for x in places.tolist()], rel=1e-6)
        assert profile.volume == pytest.approx(outline.volume, rel=1e-9)


def test_a_lambs_tongue_and_an_ogee_are_the_outline_of_their_shapes():
    shapes = (
        "shape: square, length: 40",
        "shape: lamb's tongue, length: 24, to: 40",
        "shape: ogee, to: 36, length: 22, rise: 2",
        "shape: taper, to: 28",
    )
    text = profile_of(CHEST, shapes)
    for leg in made(text).legs:
        outline, profile = Outline(made(text), leg), leg.turned.profile
        places = np.linspace(0, profile.length, 401)
        assert profile.radius_at(places) == pytest.approx([outline.seen(x) for x in places.tolist()], abs=1e-7)
        assert profile.section_area(places) == pytest.approx([outline.area(x) for x in places.tolist()], rel=1e-7)
        assert profile.second_moment(places) == pytest.approx(
            [outline.second_moment(x) for x in places.tolist()], rel=1e-4
        )
        assert profile.volume == pytest.approx(outline.volume, rel=1e-7)


def test_a_leg_is_roughed_to_where_a_lambs_tongue_ends_where_nothing_is_thicker():
    shapes = (
        "shape: square, length: 40",
        "shape: lamb's tongue, length: 24, to: 42",
        "shape: taper, diameter: 38, to: 28",
    )
    for leg in made(profile_of(CHEST, shapes)).legs:
        (rough,) = [step for step in leg.turned.steps if step.kind == "rough"]
        assert rough.diameters == pytest.approx([42 + 2 * 1] * len(rough.diameters))


# How a profile takes the length of its leg


@pytest.mark.parametrize("rest", range(1, 5))
def test_whatever_element_has_no_length_takes_the_rest(rest):
    lengths = [30, 40, 50, 60]
    parts = ["shape: tenon, diameter: 25"] + [
        f"shape: taper, diameter: {30 - i}, to: {29 - i}" + (f", length: {length}" if i + 1 != rest else "")
        for i, length in enumerate(lengths)
    ]
    for leg in made(profile_of(FOUR, parts)).legs:
        stretch = math.hypot(1, leg.lean.tan_rake, leg.lean.tan_splay)
        found = [element.length for element in leg.turned.profile.elements]
        expected = [40 * stretch, *lengths]
        expected[rest] = 420 * stretch - sum(lengths) + lengths[rest - 1]
        assert found == pytest.approx(expected)


def test_a_tenon_of_a_given_length_stands_in_a_blind_mortise():
    text = changed(STOOL, ("{shape: tenon, diameter: 25} ", "{shape: tenon, diameter: 25, length: 30} "))
    for blind, through in zip(made(text).legs, made(STOOL).legs, strict=True):
        assert blind.turned.top == 30
        assert blind.turned.profile.length == pytest.approx(blind.axis_length + 30)
        # below the seat nothing changes
        for one, two in zip(blind.turned.profile.elements[1:], through.turned.profile.elements[1:], strict=True):
            assert (one.shape, one.length, one.rise) == (two.shape, pytest.approx(two.length), two.rise)
            assert (one.start_diameter, one.end_diameter) == (two.start_diameter, two.end_diameter)
        assert blind.turned.screen.bending_mpa == pytest.approx(through.turned.screen.bending_mpa)
        assert blind.foot == through.foot


def test_the_quick_round_form_is_the_same_as_its_profile_written_out():
    taper = ["shape: tenon, diameter: 25", "shape: taper, diameter: 36, to: 22"]
    chest = profile_of(without(CHEST, "square|wood|turning|loads"), ["shape: taper, diameter: 48, to: 30"])
    for quick, full in ((FOUR, profile_of(FOUR, taper)), (on_round_legs(CHEST, 48, 30, 48), chest)):
        one, two = made(quick), made(full)
        for a, b in zip(one.sizes, two.sizes, strict=True):
            assert (a.name, a.rule) == (b.name, b.rule)
            assert float(a.value) == pytest.approx(float(b.value), rel=1e-12, abs=1e-12)
        assert [str(concern) for concern in one.concerns] == [str(concern) for concern in two.concerns]


STATIONS = {0: 25, 40: 26, 60: 31, 180: 35, 260: 30, 400: 25, 600: 20}


def measured(stations):
    return without(FOUR, "round").replace(
        "legs:\n", f"legs:\n  stations: {{{', '.join(f'{at}: {across}' for at, across in stations.items())}}}\n"
    )


def test_a_measured_leg_is_cut_off_at_the_foot():
    piece = made(measured(STATIONS))
    for leg in piece.legs:
        profile, outline = leg.turned.profile, Outline(piece, leg)
        assert profile.length == pytest.approx(leg.axis_length + leg.drilling.length_in_seat)
        at = [x for x in STATIONS if x < profile.length]
        assert [profile.diameter_at(x) for x in at] == pytest.approx([STATIONS[x] for x in at])
        # what is cut off does not change the foot: the monotone cubic of all stations
        assert leg.turned.diameters.foot == pytest.approx(2 * outline.seen(profile.length), abs=1e-9)
        places = np.linspace(0, 400, 101)
        assert profile.radius_at(places[:65]) == pytest.approx(
            [outline.seen(x) for x in places[:65].tolist()], abs=1e-9
        )


def test_stations_read_off_a_turned_leg_give_its_sections_back():
    leg = made(STOOL).legs[0]
    places = [*range(0, 480, 2), 479]
    found = {x: round(leg.turned.profile.diameter_at(min(x, leg.turned.profile.length)), 4) for x in places}
    # where the tenon ends at the underside, 40 / cos 15.97 = 41.60608, the calipers find both sides of its step
    stations = dict(sorted({**found, 41.6061: 25, 41.6071: 28}.items()))
    text = without(STOOL, "profile").replace(
        "legs:\n", f"legs:\n  stations: {{{', '.join(f'{x}: {d}' for x, d in stations.items())}}}\n", 1
    )
    text = re.sub(r"\n    rear: {.*", "", text)  # longer than what was measured
    back = made(text).legs[0]
    assert back.turned.profile.volume == pytest.approx(leg.turned.profile.volume, rel=2e-3)
    assert back.turned.screen.bending_mpa == pytest.approx(leg.turned.screen.bending_mpa, rel=1e-3)
    assert back.turned.whirling_rpm == pytest.approx(leg.turned.whirling_rpm, rel=1e-2)


# Wood, loads and speeds


def names_of(text):
    return {size.name.partition(",")[0] for size in made(text).sizes}


def test_wood_without_loads_has_mass_and_whirling_and_no_stress():
    text = without(CHEST, "loads")
    assert {"mass in kg", "whirling speed in turns a minute"} <= names_of(text)
    assert "bending at the weakest place in N/mm²" not in names_of(text)
    assert [leg.turned.screen for leg in made(text).legs] == [None] * 4
    for one, two in zip(made(text).legs, made(CHEST).legs, strict=True):
        assert (one.turned.mass_kg, one.turned.whirling_rpm) == (two.turned.mass_kg, two.turned.whirling_rpm)


def test_loads_without_wood_tell_nothing_of_mass_or_stress():
    text = without(CHEST, "wood")
    assert not {"mass in kg", "whirling speed in turns a minute", "bending at the weakest place in N/mm²"} & names_of(
        text
    )
    for leg in made(text).legs:
        assert (leg.turned.mass_kg, leg.turned.whirling_rpm, leg.turned.screen) == (0, 0, None)
    assert "no_wood" in {concern.code for concern in made(text).concerns}
    assert "no_wood" not in {concern.code for concern in made(CHEST).concerns}


def test_without_waste_the_centres_are_said_to_bite_into_the_leg():
    text = changed(CHEST, ("    certainty: 0.9\n", "    certainty: 0.9\n    waste: 0\n"))
    assert "no_waste" in {concern.code for concern in made(text).concerns}


def test_no_load_bends_nothing_and_twice_the_load_bends_twice():
    none = changed(STOOL, ("push: 10", "push: 0"), ("upright: 27", "upright: 0"))
    twice = changed(STOOL, ("push: 10", "push: 20"), ("upright: 27", "upright: 54"))
    for nothing, once, more in zip(*(made(text).legs for text in (none, STOOL, twice)), strict=True):
        assert nothing.turned.screen.bending_mpa == 0
        assert more.turned.screen.bending_mpa == pytest.approx(2 * once.turned.screen.bending_mpa)


def test_a_speed_of_the_makers_own_is_held_against_the_whirling_speed():
    whirling = min(leg.turned.whirling_rpm for leg in made(STOOL).legs)
    for share, said in ((0.49, False), (0.51, True)):
        text = changed(STOOL, ("boards: 16 ", f"speed: {whirling * share:.0f}\n    boards: 16 "))
        assert ("whirling" in {concern.code for concern in made(text).concerns}) == said


def test_the_rim_speed_is_that_of_the_band_that_the_swing_falls_in():
    for text in (CHEST, STOOL, FOUR, LOW):
        for leg in made(text).legs:
            one = leg.turned
            assert one.rim_speed == pytest.approx(math.pi * one.blank.swing / 1000 * one.speeds.roughing_rpm / 60)
            assert one.blank.swing == pytest.approx(one.blank.side * math.sqrt(2))


# Sizes of another piece


def scaled(text, factor):
    """Every length of a design times a factor; numbers that are none stay."""
    lines = []
    for line in text.splitlines():
        written = line.partition("#")[0]
        keep = (
            re.match(r"\s*(number|1|piece|rule|good|certainty|push|upright|ratios?|revision)\b", line)
            or "rake:" in line
        )
        new = re.sub(
            r"(?<!row: )(?<=: )\d+(?:\.\d+)?(?=\s|$|[,}])", lambda found: str(F(found.group()) * factor), written
        )
        lines.append(written if keep else new)
    return "\n".join(lines)


ALLOWED = "  turning: {roughing: 1, centring: 0.5, waste: 15, kerf: 3, finishing: 0.5}\n"
SPOKEN = without(CHEST, "turning").replace("legs:\n", f"legs:\n{ALLOWED}", 1)


def test_a_chest_of_twice_the_size_has_legs_of_twice_the_size():
    for one, two in zip(made(SPOKEN).legs, made(scaled(SPOKEN, 2)).legs, strict=True):
        check_scaled(one, two, 2)
        # eight times the wood; half as fast it whirls; a load bends a quarter as far up the same section
        assert two.turned.mass_kg == pytest.approx(8 * one.turned.mass_kg)
        assert two.turned.whirling_rpm == pytest.approx(one.turned.whirling_rpm / 2)
        assert two.turned.screen.bending_mpa == pytest.approx(one.turned.screen.bending_mpa / 4)


def test_a_metric_chest_and_its_exact_inch_twin_have_the_same_legs():
    inch = scaled(SPOKEN, F(10, 254)).replace("unit: mm", "unit: in")
    for one, two in zip(made(inch).legs, made(SPOKEN).legs, strict=True):
        check_scaled(one, two, 25.4)
        assert two.turned.mass_kg == pytest.approx(one.turned.mass_kg)
        assert two.turned.whirling_rpm == pytest.approx(one.turned.whirling_rpm)
        assert two.turned.screen.bending_mpa == pytest.approx(one.turned.screen.bending_mpa)
        assert two.turned.rim_speed == pytest.approx(one.turned.rim_speed)


def check_scaled(one, two, factor):
    a, b = one.turned, two.turned
    assert [e.shape for e in a.profile.elements] == [e.shape for e in b.profile.elements]
    for name in ("length", "start_diameter", "end_diameter", "rise", "square"):
        sizes = [[getattr(element, name) for element in leg.profile.elements] for leg in (a, b)]
        assert sizes[1] == pytest.approx([factor * size for size in sizes[0]]), name
    for name in ("side", "length", "top_extra", "foot_extra", "swing", "octagon_gauge"):
        assert getattr(b.blank, name) == pytest.approx(factor * getattr(a.blank, name)), name
    assert tuple(b.diameters) == pytest.approx([factor * size for size in a.diameters])
    assert b.slenderness == pytest.approx(a.slenderness)
    assert [step.kind for step in a.steps] == [step.kind for step in b.steps]


def test_left_and_right_legs_are_turned_alike():
    for text in (CHEST, FOUR, LOW):
        for end in ("front", "rear"):
            left, right = (turned(text, f"{end} {side}") for side in ("left", "right"))
            assert left.profile.elements == right.profile.elements
            assert astuple(left.blank) == pytest.approx(astuple(right.blank))
            assert left.steps == right.steps
