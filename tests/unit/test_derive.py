"""Lean and end cuts derived: each claim is proved, is about the code that runs, a wrong formula is caught.

Three witnesses beside the proof: the library's own functions on plain numbers, vectors worked here
in floats, and a square stick tipped by scipy's rotations. One more
derivation takes a place in DERIVE, a call of the library in `called` and a wrong formula in WRONG.
"""

from __future__ import annotations

import math
import random
import re
from importlib import import_module

import numpy as np
import pytest
import sympy
from pictures import first_of
from scipy.spatial.transform import Rotation

from furnlib.base.angles import deg, sin_off_square, tand
from furnlib.teach.derive.end_cut import derive_end_cut, derive_level_section, derive_orientations
from furnlib.teach.derive.lean import derive_lean
from furnlib.trade.leg import lean as lean_module
from furnlib.trade.leg.end_cut import (
    ORIENTATIONS,
    Slopes,
    edge_offset,
    end_cut,
    extra_length,
    face_slopes,
    level_corner,
    sin_tilt,
)
from furnlib.trade.leg.lean import Lean, axis_stretch, sight_line, tan_parts, tan_total_lean

DERIVE = (derive_lean, derive_end_cut, derive_orientations, derive_level_section)
DERIVATIONS = {function.__name__: function() for function in DERIVE}
CLAIMS = {claim.key: claim for derivation in DERIVATIONS.values() for claim in derivation.claims}
RHO, SIGMA, HEIGHT, SQUARE, TOTAL, SIGHT = sympy.symbols("rho sigma h w R S", positive=True)
A, B = tand(RHO), tand(SIGMA)
POINTS = 200


def called(key, rake, splay, square):
    """Every formula of a leg by a call of the library, on symbols as well as on numbers."""
    a, b, half = tand(rake), tand(splay), square / 2
    orientation = key.split(".")[1] if key.count(".") == 2 else "untwisted"
    p, q = slopes = face_slopes(a, b, orientation)
    forward, sideways = level_corner(a, b, half, half)
    step_forward, step_sideways = level_corner(a, b, 0, square)
    return {
        "total_lean": lambda: tan_total_lean(a, b),
        "mitre": lambda: q,
        "mitre_side": lambda: p,
        "tilt": lambda: sin_tilt(p, q),
        "tilt_side": lambda: sin_tilt(q, p),
        "slopes": lambda: p**2 + q**2,
        "tilts": lambda: sin_tilt(p, q) ** 2 + sin_tilt(q, p) ** 2,
        "edge": lambda: edge_offset(slopes, half, half),
        "blank": lambda: extra_length(square, *slopes),
        "level_corner": lambda: forward * a + sideways * b,
        "level_corner_across": lambda: forward * b - sideways * a,
        "front_edge": lambda: step_forward / step_sideways,
    }[key.split(".")[-1]]()


ON_A_LEG = [key for key in CLAIMS if key.startswith("end_cut.") and key != "end_cut.corner"] + ["lean.total_lean"]


def numbers(*limits):
    """The same two hundred points in every run."""
    dice = random.Random(20_260)
    return [tuple(dice.uniform(low, high) for low, high in limits) for _ in range(POINTS)]


def evaluated(expression, *symbols):
    """The expression as a function of plain numbers."""
    return sympy.lambdify(symbols, expression, "math")


# Proved


@pytest.mark.parametrize("key", CLAIMS)
def test_running_less_derived_is_nothing_at_all(key):
    assert CLAIMS[key].difference == sympy.Integer(0)


def test_every_formula_of_a_lean_and_a_cut_is_claimed():
    assert set(CLAIMS) >= {
        "lean.total_lean", "lean.sight_line", "lean.axis_length", "lean.rake", "lean.splay",
        "end_cut.mitre", "end_cut.mitre_side", "end_cut.tilt", "end_cut.tilt_side", "end_cut.edge", "end_cut.blank",
        "end_cut.level_corner", "end_cut.level_corner_across", "end_cut.front_edge", "end_cut.corner",
    }  # fmt: skip
    for orientation in ORIENTATIONS:
        settings = {"mitre", "mitre_side", "tilt", "tilt_side"} if orientation != "untwisted" else set()
        assert set(CLAIMS) >= {f"end_cut.{orientation}.{kind}" for kind in settings | {"slopes", "tilts"}}
    assert len(CLAIMS) == sum(len(derivation.claims) for derivation in DERIVATIONS.values())


def test_none_of_them_needs_to_be_tried_at_points():
    assert not [key for key, claim in CLAIMS.items() if claim.by_points]


# About the code that runs


@pytest.mark.parametrize("key", ON_A_LEG)
def test_what_runs_on_a_leg_is_what_the_library_returns_for_symbols(key):
    assert CLAIMS[key].running == called(key, RHO, SIGMA, SQUARE).subs({sympy.Abs(t): t for t in (A, B)})


def test_what_runs_for_the_other_names_of_a_lean():
    assert CLAIMS["lean.sight_line"].running == sympy.tan(deg(sight_line(A, B)))
    assert CLAIMS["lean.axis_length"].running == HEIGHT * axis_stretch(A, B) == Lean(A, B).axis_length(HEIGHT)
    assert (CLAIMS["lean.rake"].running, CLAIMS["lean.splay"].running) == tan_parts(tand(TOTAL), SIGHT)


@pytest.mark.parametrize("key", ON_A_LEG)
def test_on_numbers_it_is_the_same_for_every_sign_of_the_lean(key):
    """Leaned in or out; the blank alone takes sizes without sign, so its leans point outward."""
    low = 0.1 if key == "end_cut.blank" else -80
    running, derived = (evaluated(e, RHO, SIGMA, SQUARE) for e in (CLAIMS[key].running, CLAIMS[key].derived))
    for rake, splay, square in numbers((low, 80), (low, 80), (0.5, 100)):
        plain = called(key, rake, splay, square)
        assert running(rake, splay, square) == pytest.approx(plain, rel=1e-10, abs=1e-10)
        assert derived(rake, splay, square) == pytest.approx(plain, rel=1e-10, abs=1e-10)


def test_the_corner_is_off_square_by_the_angle_between_two_level_lines_whatever_the_signs():
    p, q = sympy.symbols("p q", real=True)
    claim = CLAIMS["end_cut.corner"]
    assert claim.running == sin_off_square(p, q)
    running, derived = (evaluated(e, p, q) for e in (claim.running, claim.derived))
    for on_side, on_front in numbers((-5, 5), (-5, 5)):
        front_line, side_line = np.array([0, 1, on_front]), np.array([1, 0, on_side])  # forward, sideways, down
        angle = math.atan2(np.linalg.norm(np.cross(front_line, side_line)), front_line @ side_line)
        assert running(on_side, on_front) == pytest.approx(math.cos(angle), rel=1e-10, abs=1e-10)
        assert derived(on_side, on_front) == pytest.approx(math.cos(angle), rel=1e-10, abs=1e-10)


def test_the_blank_of_a_leg_that_leans_in_is_that_of_its_mirror_image():
    derived = evaluated(CLAIMS["end_cut.blank"].derived, RHO, SIGMA, SQUARE)
    for rake, splay, square in numbers((-80, 80), (-80, 80), (0.5, 100)):
        wanted = derived(abs(rake), abs(splay), square)
        assert extra_length(square, tand(rake), tand(splay)) == pytest.approx(wanted, rel=1e-10)


def test_the_axis_is_as_long_as_a_plumb_line_and_a_run_make_it():
    running, derived = (evaluated(e, RHO, SIGMA, HEIGHT) for e in
                        (CLAIMS["lean.axis_length"].running, CLAIMS["lean.axis_length"].derived))  # fmt: skip
    for rake, splay, height in numbers((-85, 85), (-85, 85), (1, 2000)):
        foot = (height * math.tan(math.radians(rake)), height * math.tan(math.radians(splay)), height)
        assert running(rake, splay, height) == pytest.approx(math.dist((0, 0, 0), foot), rel=1e-10)
        assert derived(rake, splay, height) == pytest.approx(math.dist((0, 0, 0), foot), rel=1e-10)
        assert Lean.from_rake_splay(rake, splay).axis_length(height) == pytest.approx(math.dist((0, 0, 0), foot))


def test_the_sight_line_looks_the_way_the_foot_stands_in_all_four_quarters():
    """A tangent alone would not tell a direction from its opposite."""
    running, derived = (evaluated(e, RHO, SIGMA) for e in
                        (CLAIMS["lean.sight_line"].running, CLAIMS["lean.sight_line"].derived))  # fmt: skip
    quarters = set()
    for rake, splay in numbers((-80, 80), (-80, 80)):
        a, b = math.tan(math.radians(rake)), math.tan(math.radians(splay))
        looks = math.radians(sight_line(a, b))
        run = math.hypot(a, b)
        assert (math.cos(looks), math.sin(looks)) == pytest.approx((a / run, b / run), abs=1e-10)
        assert running(rake, splay) == pytest.approx(math.tan(looks), rel=1e-10)
        assert derived(rake, splay) == pytest.approx(math.tan(looks), rel=1e-10)
        quarters.add((a > 0, b > 0))
    assert len(quarters) == 4


def test_rake_and_splay_come_back_from_total_lean_and_sight_line_with_their_signs():
    both = [[evaluated(e, TOTAL, SIGHT) for e in (CLAIMS[key].running, CLAIMS[key].derived)]
            for key in ("lean.rake", "lean.splay")]  # fmt: skip
    for total, sight in numbers((0, 85), (-180, 180)):
        lean, out = Lean.from_total_lean(total, sight), math.tan(math.radians(total))
        step = (out * math.cos(math.radians(sight)), out * math.sin(math.radians(sight)))
        for side, tangent in enumerate((lean.tan_rake, lean.tan_splay)):
            assert tangent == pytest.approx(step[side], rel=1e-10, abs=1e-10)
            for expression in both[side]:
                assert expression(total, sight) == pytest.approx(tangent, rel=1e-10, abs=1e-10)


# A wrong formula is caught


def changed_about(a, b, orientation="untwisted"):
    """The two faces' slopes given to the wrong faces."""
    p, q = face_slopes(a, b, orientation)
    return Slopes(q, p)


def halved(a, b, _):
    """Half the lean to each face."""
    return Slopes(tan_total_lean(a, b) / 2, tan_total_lean(a, b) / 2)


def added(a, b, _):
    """Rake and splay added up, on one face."""
    return Slopes(a + b, a * 0)


FACES = ("mitre", "mitre_side", "tilt", "tilt_side")
WRONG = [
    # claims, the function that they stand on, and a wrong one in its place
    (["lean.total_lean"], "tan_total_lean", lambda a, b: a + b),
    (["lean.sight_line"], "sight_line", lambda a, b: sympy.atan(a / b) * 180 / sympy.pi),
    (["lean.rake"], "tan_parts", lambda t, s: (t * sympy.sin(deg(s)), t * sympy.sin(deg(s)))),
    (["lean.splay"], "tan_parts", lambda t, s: (t, t * sympy.cos(deg(s)))),
    (["end_cut.mitre", "end_cut.mitre_side"], "face_slopes", changed_about),
    (["end_cut.tilt"], "sin_tilt", lambda p, q: p / sympy.sqrt(1 + p**2)),
    (["end_cut.tilt_side"], "sin_tilt", lambda q, p: p / sympy.sqrt(1 + p**2 + q**2)),
    (["end_cut.edge"], "edge_offset", lambda slopes, f, s: f * slopes[0] - s * slopes[1]),
    (["end_cut.blank"], "extra_length", lambda w, p, q: w * sympy.sqrt(p**2 + q**2)),
    (["end_cut.level_corner"], "level_corner", lambda a, b, f, s: (f, s)),
    (["end_cut.level_corner_across", "end_cut.front_edge"], "level_corner", lambda a, b, f, s: (f * (1 + a), s)),
    (["end_cut.corner"], "sin_off_square", lambda p, q: p * q),
    ([f"end_cut.{way}.{key}" for way in ORIENTATIONS[1:4] for key in FACES], "face_slopes", changed_about),
    ([f"end_cut.sightline_corner.{key}" for key in FACES], "face_slopes", halved),
    ([f"end_cut.{way}.{key}" for way in ORIENTATIONS for key in ("slopes", "tilts")], "face_slopes", added),
]


def derived_again(key):
    """The derivation that holds a claim, worked once more."""
    return next(function for function in DERIVE if key in [c.key for c in DERIVATIONS[function.__name__].claims])()


SLIPS = {f"{keys[0]} {name}": (keys, name, wrong) for keys, name, wrong in WRONG}
SOME_SLIPS = first_of(SLIPS, *(slip for slip in SLIPS if slip.startswith(("lean", "end_cut.tilt", "end_cut.edge"))))


@pytest.mark.parametrize("slip", SOME_SLIPS)
def test_a_wrong_formula_is_not_proved(monkeypatch, slip):
    keys, name, wrong = SLIPS[slip]
    monkeypatch.setattr(import_module(f"furnlib.teach.derive.{keys[0].split('.')[0]}"), name, wrong)
    derivation = derived_again(keys[0])
    assert not [key for key in keys if derivation[key].difference == 0]


def test_a_wrong_axis_is_not_proved(monkeypatch):
    monkeypatch.setattr(lean_module, "axis_stretch", lambda a, b: 1 + a * a + b * b)
    assert derived_again("lean.axis_length")["lean.axis_length"].difference != 0


def test_each_claim_has_its_wrong_formula():
    assert {key for keys, _, _ in WRONG for key in keys} | {"lean.axis_length"} == set(CLAIMS)


# A square stick, tipped by scipy


def tipped(rake, splay):
    """Axis, faces and outer edge of a plumb stick tipped about the level line square to its sight line."""
    down = np.array([math.tan(math.radians(rake)), math.tan(math.radians(splay)), -1.0])
    down /= np.linalg.norm(down)
    hinge = np.cross([0, 0, -1], down)
    turn = Rotation.from_rotvec(hinge / np.linalg.norm(hinge) * math.acos(-down[2]))
    return turn.apply([0, 0, -1]), turn.apply([1, 0, 0]), turn.apply([0, 1, 0]), turn.apply([0.5, 0.5, 0])


def in_face(face, axis):
    """Tangent of the angle, in a face, between the floor's line and a line square across the axis."""
    level, across = np.cross(face, [0, 0, 1]), np.cross(face, axis)
    return abs(level @ axis) / abs(level @ across)


@pytest.mark.parametrize("square", [1.0, 48.0])
def test_a_tipped_stick_says_what_every_claim_of_the_cuts_says(square):
    keys = {key for key in ON_A_LEG if key.count(".") == 1} - {"lean.total_lean"}  # untwisted, as it is tipped
    formulas = {key: evaluated(CLAIMS[key].running, RHO, SIGMA, SQUARE) for key in keys}
    for rake, splay, _ in numbers((0.5, 70), (0.5, 70), (0, 1))[:50]:
        axis, front, side, edge = tipped(rake, splay)
        slid = -edge[2] / axis[2]  # along the axis until the outer edge is level with the axis point
        corner = edge + slid * axis
        run = np.array([math.tan(math.radians(rake)), math.tan(math.radians(splay))])
        assert corner[2] == pytest.approx(0, abs=1e-12)
        found = {
            "end_cut.mitre": in_face(front, axis),
            "end_cut.mitre_side": in_face(side, axis),
            "end_cut.tilt": front[2],
            "end_cut.tilt_side": side[2],
            "end_cut.edge": square * slid,
            "end_cut.blank": 2 * square * slid,
            "end_cut.level_corner": square * corner[:2] @ run,
            "end_cut.level_corner_across": square * (corner[0] * run[1] - corner[1] * run[0]),
            "end_cut.front_edge": -front[1] / front[0],
        }
        assert set(found) == set(formulas)
        for key, size in found.items():
            assert formulas[key](rake, splay, square) == pytest.approx(size, rel=1e-9, abs=1e-9), key
        cut = end_cut(Lean.from_rake_splay(rake, splay), 100 * square, square)
        assert cut.front_down.mitre_deg == pytest.approx(math.degrees(math.atan(found["end_cut.mitre"])))
        assert cut.side_down.tilt_deg == pytest.approx(math.degrees(math.asin(found["end_cut.tilt_side"])))
        assert cut.blank_length == pytest.approx(100 * square / -axis[2] + found["end_cut.blank"])


# As it is read


@pytest.mark.parametrize("name", DERIVATIONS)
def test_what_is_shown_is_whole(name):
    derivation = DERIVATIONS[name]
    shown = derivation._repr_markdown_()
    assert shown.count("$$") == 2 * (len(derivation.start) + 2 * len(derivation.claims))
    for formula in re.findall(r"\$\$(.*?)\$\$", shown, re.DOTALL):
        assert formula.count("{") == formula.count("}")
        assert len(re.findall(r"\\left(?![a-z])", formula)) == len(re.findall(r"\\right(?![a-z])", formula))
        assert "pi" not in formula  # the maker reads degrees
    assert shown.replace("$$", "").count("$") == 2 * len(derivation.claims)
    assert shown.count("the difference simplifies to $0$") == len(derivation.claims)
    for claim in derivation.claims:
        assert claim.words in shown
        assert claim.why in shown
    assert repr(derivation) == f"<Derivation: {derivation.title}, {len(derivation.claims)} claims>"


def test_a_claim_that_is_not_there_is_said_with_those_that_are():
    with pytest.raises(KeyError, match=r"lean\.seat.*lean\.total_lean"):
        DERIVATIONS["derive_lean"]["lean.seat"]
