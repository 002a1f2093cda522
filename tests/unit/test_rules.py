"""Every size of the demos and of many pieces by chance, worked out again from its own printed rule.

A formula's rule is read and worked out with the math module (`printed_rules`). The few rules that
are prose are listed here, each with another way to its number: vectors and planes (`in_space`).
"""

from __future__ import annotations

import csv
import math
import re
from collections import Counter
from functools import cache
from pathlib import Path

import in_space
import numpy as np
import pytest
from chance import by_chance, cases, made, made_or_refused, made_or_too_small, seats, written, written_seat
from hypothesis import Phase
from in_season import SEASON, in_the_damp, moisture
from outlines import Outline
from printed_rules import added_up, check_formula, check_printed, check_sum, worked_out

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of
from furnlib.trade.leg.end_cut import ORIENTATIONS

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"


def test_the_calculator_knows_what_stands_in_a_rule():
    for rule, value in (
        ("1 = 1 1/2 x tan² 45° / cos² 60° + 1/2", 6.5),
        ("1 = atan sqrt(tan² 30° + tan² -30°)", 39.2315),
        ("1 = atan(tan 45° / sqrt 2)", 35.2644),
        ("1 = atan2(tan -45°, tan 45°)", -45),
        ("1 = 360 x arc 0.5° / cos² 0°", math.pi),
        ("1 = asin(sin 30° x cos 60°)", 14.4775),
        ("1 = 30° - 10.5° taper in the V", 19.5),
        ("1 = drill rake -3°", -3),
        ("1 = total lean 9.95°", 9.95),
        ("1 = 24 - 5/16 / 2 x cos 0°", 23.84375),
        ("1 ≥ 11\u202f11/16 - 29/32 + 0", 10.78125),
        ("1 ≥ 36 + 2 x (1 + 0.5)", 39),
        ("1 = 436.9 + 41.6 tenon", 478.5),
        ("1 = 28 / 2 x tan 45° / (1 - taper 0.5 / 2 x tan 45°)", 18.6667),
        ("1 = (40 x sqrt 2 - 30) / 2", 13.2843),
        ("1 = pi x 100 mm x 600 / min", math.pi),
        ("1 = 2 dm³ x 500 kg/m³ / 1000", 1),
        ("1 = 478.5 / 22 at the thinnest", 21.75),
        ("1 ≤ (83 - 1 below - 1 gap - 2 x 0.5 film) / 1.25 at the dampest", 64),
    ):
        assert worked_out(rule, "in")[0] == pytest.approx(value, abs=1e-4), rule
    # three halves of a hundredth of a degree, and three halves of a tenth of a millimetre
    assert worked_out("1 = 8° + 8° - 8°", "mm")[1] == pytest.approx(1.05 * 0.015)
    assert worked_out("1 = 8 + 8 - 8", "mm")[1] == pytest.approx(1.05 * 0.15)
    assert worked_out("1 = 8 / 2", "mm")[1] == pytest.approx(1.05 * 0.025)  # a half is a half
    assert worked_out("1 = 8 + 2 x (1 + 4)", "mm")[1] == pytest.approx(1.05 * (0.05 + 2 * 0.1))  # twice is twice
    assert worked_out("1 = 8 / 2 x tan 45° / (1 + taper 0.1 / 2 x tan 45°)", "mm")[1] < 0.03  # and one is one
    assert added_up("1 = 480 - 2 x 1 side gap + 2 x 6 groove - 0.5 end play", "mm") == (489.5, 0)
    assert added_up("1 ≈ (1/3 - 2 x 1/32 side gap) / 2", "in")[1] == 3 / 128  # half of three halves of a 1/32
    for prose in ("1 = the depth that leaves 6", "1 = from slips of 0.5° at each leg and 0.5 in length"):
        with pytest.raises((AssertionError, SyntaxError)):
            worked_out(prose, "mm")


# Rules that are prose, and what they come to in space


def of_leg(piece, size):
    """The leg that a size belongs to, its direction and the outward normals of its four faces."""
    (leg,) = [leg for leg in piece.legs if size.name.endswith(f", {leg.position} leg")]
    direction = in_space.axis(leg.position, leg.lean.rake_deg, leg.lean.splay_deg)
    normals = in_space.faces(leg.position, direction, piece.design.legs.orientation)
    return leg, direction, [way * normal for normal in normals for way in (1, -1)]


def neck_depth(piece, leg):
    """The same where the leg is turned thinner: a place counts by the tip's wander once the tip has come past it.

    A leg that is turned from its very top is a cylinder of that thickness for all that lies above such a place.
    """
    sine, cosine = (way(math.radians(leg.lean.total_lean_deg)) for way in (math.sin, math.cos))
    if not leg.turned or not sine:
        return math.inf
    outline, screw = Outline(piece, leg), piece.design.legs.fixing
    room = float(screw.wall) + float(screw.diameter) / 2 * cosine
    below = [place for place in outline.places(4001) if outline.piece_at(place)[4] != "square"]
    return min(max(place * cosine, (outline.seen(place) - room) / sine) for place in below)


def deepest(piece, size):
    """Down a plumb hole a face comes nearer by the sine of its lean; the hole takes its half, square to the face."""
    leg, _, normals = of_leg(piece, size)
    screw = piece.design.legs.fixing
    depths = [neck_depth(piece, leg)]
    for normal in normals if leg.square else ():
        nearer = -normal[2]
        if nearer > 1e-12:
            half_hole = float(screw.diameter) / 2 * math.sqrt(1 - nearer**2)
            depths.append((float(leg.square) / 2 - half_hole - float(screw.wall)) / nearer)
    return min(depths)


def pin(piece, size):
    """Midway between the places that leave just the wall: to a face, at mouth or tip, or to the screw."""
    leg, direction, normals = of_leg(piece, size)
    screw = piece.design.legs.fixing
    half = float(leg.square or 0) / 2
    if not half:  # the surface of a round leg is its face along the sight line
        half = Outline(piece, leg).seen(0.0)
        ahead = in_space.unit([*direction[:2], 0.0]) if leg.lean.total_lean_deg else in_space.BACK
        outer = in_space.unit(ahead - (ahead @ direction) * direction)
        normals = [outer, -outer]
    ahead = in_space.unit([*direction[:2], 0.0]) if leg.lean.total_lean_deg else normals[0]
    least, most = float(screw.diameter + screw.pin) / 2 + float(screw.wall), math.inf
    for normal in normals:
        for depth in (0.0, float(screw.pin_depth)):
            half_pin = float(screw.pin) / 2 * math.sqrt(1 - normal[2] ** 2)
            room = half - float(screw.wall) - half_pin + normal[2] * depth
            share = normal @ ahead
            if share > 1e-12:
                most = min(most, room / share)
            elif share < -1e-12:
                least = max(least, room / share)
    return (least + most) / 2


def daylight(piece, _):
    """Scatter of the height at which each leg ends: by legs that are set a hundredth of a slip off."""
    feet, rises = [], []
    for position in ("front left", "front right", "rear right", "rear left"):
        (leg,) = [leg for leg in piece.legs if leg.position == position]
        given = piece.design.legs.slips.length
        length = {"mm": 0.5, "in": 1 / 64}[piece.design.unit] if given is None else float(given)
        feet.append(leg.foot)
        rises.append(math.hypot(*rises_of(piece, leg), length * float(leg.height) / leg.axis_length))
    return in_space.daylight_scatter(feet, rises)


def rises_of(piece, leg):
    """How much higher a leg of fixed length ends for a slip of its total lean, and of its sight line."""
    direction = in_space.axis(leg.position, leg.lean.rake_deg, leg.lean.splay_deg)
    square = in_space.Seat(piece).normal if leg.drilling else in_space.UP  # what the slips are measured from
    hinge = np.cross(-square, direction)
    hinge = hinge / (np.linalg.norm(hinge) or 1.0)
    for slip_deg, about in ((leg.slips.total_lean, hinge), (leg.slips.sight_line, square)):
        turns = [in_space.Rotation.from_rotvec(way * np.radians(slip_deg / 100) * about) for way in (1, -1)]
        over, short = (turn.apply(direction)[2] for turn in turns)
        yield leg.axis_length * (over - short) / 2 * 100


def at_the_drill(piece, size):
    """How far the foot goes on the floor: a leg turned, on its seat, a hundredth of a slip either way."""
    leg, direction, _ = of_leg(piece, size)
    square = in_space.Seat(piece).normal
    hinge = np.cross(-square, direction)
    tilts = "total lean" in size.name
    about = hinge / (np.linalg.norm(hinge) or 1.0) if tilts else square
    slip_deg = leg.slips.total_lean if tilts else leg.slips.sight_line
    turns = [
        in_space.Rotation.from_rotvec(way * np.radians(slip_deg / 100) * about).apply(direction) for way in (1, -1)
    ]
    feet = [way[:2] / -way[2] * float(leg.height) for way in turns]
    return np.linalg.norm(feet[0] - feet[1]) / 2 * 100


def blank_side(piece, size):
    """A square that is left is planed before it is turned."""
    leg, *_ = of_leg(piece, size)
    assert Outline(piece, leg).largest <= piece.design.legs.square
    return float(piece.design.legs.square)


def handbook(piece):
    """Bending strength, stiffness in MPa and mass in kg per cubic metre at 12 %, as the handbook prints them."""
    with (DESIGNS.parents[1] / "tests/validation/data/wood_handbook_inch_pound.csv").open(encoding="utf-8") as lines:
        (row,) = [row for row in csv.DictReader(lines) if row["name"] == piece.design.legs.wood]
    psi = 0.45359237 * 9.80665 / 25.4**2
    return float(row["bending_psi"]) * psi, float(row["stiffness_million_psi"]) * 1e6 * psi, float(
        row["specific_gravity"]
    ) * 1120  # fmt: skip


def mass(piece, size):
    """Volume of the outline, summed by scipy, times the handbook's density."""
    leg, *_ = of_leg(piece, size)
    return Outline(piece, leg).volume * mm_of(piece) ** 3 * 1e-9 * handbook(piece)[2]


def whirling(piece, size):
    """The slowest swing between two pins by the sag of each slice under every other."""
    leg, *_ = of_leg(piece, size)
    _, stiffness, density = handbook(piece)
    return Outline(piece, leg).whirling_rpm(stiffness, density) / mm_of(piece)


def bending(piece, size):
    """Both loads at the foot, square to the axis, times the arm, over each section's modulus: the worst."""
    leg, *_ = of_leg(piece, size)
    outline, loads, lean = Outline(piece, leg), piece.design.legs.loads, math.radians(leg.lean.total_lean_deg)
    across = 9.80665 * (float(loads.upright) * math.sin(lean) + float(loads.push) * math.cos(lean)) / mm_of(piece) ** 2
    arms = [(outline.length - place, outline.modulus(place)) for place in outline.places(1500, outline.top)]
    # at the underside the tenon's own section, and at each step the thinner side
    steps = [
        (outline.length - x, outline.modulus(x, above=True)) for x, *_ in outline.pieces if x >= max(outline.top, 1e-6)
    ]
    return across * max(arm / modulus for arm, modulus in (*arms, *steps))


def share(piece, size):
    """Two standard deviations of 16 % off the average leave 0.68 of it."""
    return bending(piece, size) / (0.68 * handbook(piece)[0])


def spare(piece, _):
    """Legs are turned one after the other until enough are good as often as wanted, every way counted up."""
    turning, needed, made = piece.design.legs.turning, len(piece.legs), 0
    chances = {0: 1.0}  # of so many good ones
    while sum(chance for good, chance in chances.items() if good >= needed) < float(turning.certainty):
        made, before, chances = made + 1, chances, Counter()
        for good, chance in before.items():
            chances[good + 1] += chance * float(turning.good)
            chances[good] += chance * (1 - float(turning.good))
    return made


def mm_of(piece):
    return 25.4 if piece.design.unit == "in" else 1.0


PROSE = {
    "mass in kg": mass,
    "whirling speed in turns a minute": whirling,
    "bending at the weakest place": bending,
    "its share of the low end of the handbook's strength": share,
    "legs to turn": spare,
    "foot for": at_the_drill,
    "deepest screw": deepest,
    "pin from the screw, along the sight line": pin,
    "daylight under one foot, two times out of three at most": daylight,
}


# sums over slices, and the handbook's figures are printed in pounds to three places
ROOM = {mass: 1e-4, whirling: 6e-3, bending: 2e-3, share: 4e-3, deepest: 1e-3}


def check_size(piece, size):
    """Work a size out by whatever way it has, and say which way that was."""
    witness = next((PROSE[name] for name in PROSE if size.name.startswith(name)), None)
    if size.rule.endswith("the side of its square"):
        witness = blank_side
    if witness:
        assert size.value == pytest.approx(witness(piece, size), rel=ROOM.get(witness, 2e-4)), size.name
        check_printed(size)
        return witness.__name__
    if size.formula in SEASON:
        witness = SEASON[size.formula]
        assert size.value == pytest.approx(witness(piece, size), rel=1e-9), size.name
        (check_formula(size, piece.design.unit) if witness is in_the_damp else check_printed(size))
        return witness.__name__
    if size.formula:
        check_formula(size, piece.design.unit)
        return "formula"
    if size.name.startswith("moisture"):
        assert size.value == moisture(piece, size)
        check_printed(size)
        return "moisture"
    of_drawers = "((inner )?front|side|back|bottom) (length|width|height) of row|.* inside row|back"
    if re.match(of_drawers, size.name) and not size.rule.endswith(
        " pitch"
    ):  # whole pitches are counted in `test_sizes`
        check_sum(size)
        return "sum of parts"
    if size.rule.endswith("as the design gives it"):
        name, _, position = size.name.removesuffix(" leg").partition(", ")
        given = getattr(piece.design.legs.lean[position], name.replace(" ", "_"))
        assert size.value == pytest.approx(given, abs=1e-9)
        check_printed(size)
        return "given"
    # sums of master sizes and openings are added up exactly in `test_sizes`
    assert re.match(
        "opening of row|side height|width of |case height|inside|clear |spare |height under the seat$|middle leg",
        size.name,
    )
    return "sum"


def variants():
    for path in sorted(DESIGNS.glob("*.yaml")):
        yield path.stem, ()
    for way in ORIENTATIONS[1:]:
        yield "practice_stool", (("orientation: untwisted", f"orientation: {way}"),)
        yield "landing_chest", (("  square: 48 ", f"  orientation: {way}\n  square: 48 "),)
    yield "practice_stool", (("pitch: 3 ", "pitch: -4.5 "),)
    yield "practice_stool", (("pitch: 3 ", "pitch: 14 "),)
    yield "stool_three_legs", (("rear: {rake: 18, splay: 0}", "rear: {rake: 18, splay: -5}"), ("pitch: 0", "pitch: 7"))
    yield "stool_four_legs", (("front left: {rake: 10, splay: 12}", "front left: {rake: -3, splay: -4}"),)
    yield "stool_four_legs", (("front left: {rake: 10, splay: 12}", "front left: {total lean: 11, sight line: 130}"),)
    yield "landing_chest", (("front left: {rake: 8, splay: 6}", "front left: {rake: -8, total lean: 12}"),)
    yield "landing_chest", (("rear left: {rake: 0, splay: 6}", "rear left: {rake: 0, splay: 0}"),)
    bead = "{shape: bead, diameter: 40, length: 8, rise: 2}"
    yield "landing_chest", ((bead, "{shape: lamb's tongue, to: 42, length: 16}"),)
    yield "landing_chest", ((bead, "{shape: ogee, diameter: 46, to: 40, length: 14, rise: -1}"),)
    yield "stool_three_legs", (("{shape: tenon, diameter: 25} ", "{shape: tenon, diameter: 25, length: 30} "),)


LATER = (
    "low_media_case_inch", "landing_chest front left",
    "landing_chest orientation: front", "landing_chest orientation: side",
    "landing_chest orientation: sightline\n",
)  # fmt: skip
"""Of turned legs, which take long: the practice stool is turned every way and leans oddly too, in a moment."""


def told(name, edits):
    words = " ".join([name, *(new.strip() for _, new in edits)])
    return pytest.param(name, edits, id=words[:70], marks=[pytest.mark.slow] if words.startswith(LATER) else [])


@cache
def variant(name, edits):
    text = (DESIGNS / f"{name}.yaml").read_text()
    for old, new in edits:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return piece_of(DesignText.parse(text))


@pytest.mark.parametrize(("name", "edits"), [told(*variant) for variant in variants()])
def test_every_size_of_a_demo_is_what_its_rule_comes_to(name, edits):
    piece = variant(name, edits)
    ways = Counter(check_size(piece, size) for size in piece.sizes)
    assert ways["formula"] >= len(piece.legs) * 12
    assert ways["given"] == 2 * len(piece.legs)  # two names of each lean
    fixed = name.startswith(("landing_chest", "low_media_case"))
    upright = sum(not leg.lean.total_lean_deg for leg in piece.legs)
    assert ways["pin"] == (len(piece.legs) if fixed else 0)
    assert ways["deepest"] == (len(piece.legs) - upright if fixed else 0)
    assert ways["daylight"] == (len(piece.legs) == 4)
    drawers = {drawer.name for drawer in getattr(piece, "drawers", ())}  # a stool has none, alike banks alike ones
    # a height by season has its own way; those that a jig settles are counted by its pitches
    assert ways["in_the_damp"] == len(drawers) * (1 if name.startswith("landing") else 2)
    assert ways["sum of parts"] >= 9 * len(drawers)
    assert ways["moisture"] == (3 if drawers else 0)


@by_chance(cases(), phases=(Phase.explicit, Phase.generate))
def test_every_size_of_a_case_by_chance(case):
    piece = made_or_too_small(written(case))
    for size in piece.sizes if piece else ():
        check_size(piece, size)


@by_chance(seats(), phases=(Phase.explicit, Phase.generate))
def test_every_size_of_a_seat_by_chance(seat):
    piece = made_or_refused(written_seat(seat))
    for size in piece.sizes if piece else ():
        check_size(piece, size)


def test_a_lean_named_another_way_is_not_called_what_the_design_gives():
    text = (DESIGNS / "landing_chest.yaml").read_text()
    named = text.replace("front left: {rake: 8, splay: 6}", "front left: {total lean: 10, sight line: 37}")
    rules = {size.name: size.rule for size in made(named).sizes if size.name.endswith("front left leg")}
    given = {name for name, rule in rules.items() if "as the design gives it" in rule}
    assert given == {"total lean, front left leg", "sight line, front left leg"}


# What a rule leaves open: a number of its own


@pytest.mark.parametrize(("name", "fall", "begins"), [("stool_four_legs", 7, 0), ("stool_three_legs", 5, 192)])
def test_the_taper_in_the_v_is_worked_from_the_leg_itself(name, fall, begins):
    # in a V of 90 sin g = sin c / sin 45: a taper from 36 to 22 all along has tan c = 7 / axis; of the three-legged
    # stool what lies in the V is its last taper from 32 to 22, which begins 150 + 14 + 14 + 14 below the seat
    piece = variant(name, ())
    for leg in piece.legs:
        off = np.degrees(np.arcsin(np.sin(np.arctan(fall / (leg.axis_length - begins))) / np.sqrt(0.5)))
        assert leg.cradle.wedge_deg == pytest.approx(leg.lean.total_lean_deg - off, abs=1e-9)
        assert leg.cradle.rise == pytest.approx(200 * np.sin(np.radians(leg.lean.total_lean_deg - off)), abs=1e-9)


def test_each_foot_stands_from_the_next_as_the_sum_says():
    piece = variant("stool_three_legs", ())
    apart = {s.name: s.rule for s in piece.sizes if " foot to " in s.name}
    # 230 + 2 x 104.7; 170 + 59.0 + 136.5
    assert apart == {
        "front left foot to front right foot": "439.4 = 230 + 104.7 + 104.7",
        "front left foot to rear foot, front to back": "365.5 = 170 + 59 + 136.5",
    }
