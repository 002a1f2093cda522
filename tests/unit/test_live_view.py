"""A live view without a browser: what moving a control draws or says, and what it is made of."""

from __future__ import annotations

import ast
import itertools
import math
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from xml.etree import ElementTree

import pytest
from leg_shapes import on_square_legs
from live_hand import BARES, DESIGNS, OPEN, bare_file, controls, ends, put, seen, without_jig

from furnlib.live.openings import live_openings
from furnlib.live.pieces import live_legs

ROOT = Path(__file__).parents[2]


AS_IT_IS = pytest.param("as it is", marks=pytest.mark.slow)
"""The demo on its turned legs, of which most sizes are: in the default run it stands on square ones."""


@pytest.fixture(params=["on square legs", AS_IT_IS])
def file(request, tmp_path):
    """The design file of a unit's chest."""

    def file(unit):
        path = bare_file(tmp_path, unit)
        if request.param == "on square legs":
            path.write_text(on_square_legs(path.read_text("utf-8")), "utf-8")
        return path

    return file


# the inch twin of what has many controls is slow, and runs in CI; the legs are tried in both units
SHOWN = [
    pytest.param(pair, marks=[pytest.mark.slow] if pair in {("openings", "in"), ("leg", "in")} else [])
    for pair in itertools.product(OPEN, BARES)
]


@pytest.fixture(params=SHOWN, ids="-".join)
def shown(request, file):
    """What is shown, unit, view and file."""
    what, unit = request.param
    path = file(unit)
    return what, unit, OPEN[what](path), path


# Moving


def test_at_the_ends_of_every_control_it_draws_or_says_why_not(shown):
    """Each control by itself, from where the file has it."""
    what, _, view, path = shown
    drawn = 0
    for name in controls(view):
        for end in ends(controls(view)[name]):
            fresh = OPEN[what](path)
            before = seen(fresh)[0]
            put(controls(fresh)[name], end)
            picture, words = seen(fresh)
            if words.startswith("Not drawn:"):
                assert picture == before
                assert words[-1] in ".?"
            else:
                ElementTree.fromstring(picture)
                assert words.startswith(("Openings of", "Legs of", "Leans of"))
                drawn += 1
    assert drawn > 4


def angle(value, digits):
    return f"{value:.{digits}f}".rstrip("0").rstrip(".") + "°"


@pytest.mark.parametrize(("rake", "splay"), [("8", "6"), ("12", "9"), ("-10", "14.5"), ("0", "0"), ("3 1/2", "-20")])
@pytest.mark.parametrize("unit", BARES)
def test_the_caption_says_total_lean_and_sight_line(unit, rake, splay):
    """tan² R = tan² r + tan² s, tan S = tan s / tan r; a plumb leg looks nowhere, and 0 is said."""
    view = live_legs(BARES[unit])
    put(controls(view)["Rake, front legs"], rake)
    put(controls(view)["Splay, front legs"], splay)
    r, s = (math.tan(math.radians(sum(map(Fraction, lean.split())))) for lean in (rake, splay))
    total, sight = math.degrees(math.atan(math.hypot(r, s))), math.degrees(math.atan2(s, r))
    words = seen(view)[1]
    assert not words.startswith("Not drawn")
    assert f"{angle(total, 2)} on {angle(sight, 1)}" in words
    assert "6° on 90°" in words  # the rear legs stay as they were


def test_a_step_under_the_hand_draws_the_openings_it_makes(tmp_path):
    """Seven openings in 1001 with a step of 13 from row to row: 143 is the middle one, 143 - 39 the first."""
    view = live_openings(without_jig(bare_file(tmp_path)))
    put(controls(view)["Step per row"], "13")
    picture, words = seen(view)
    assert "104 + 117 + 130 + 143 + 156 + 169 + 182 = 1001" in words
    said = list(ElementTree.fromstring(picture).itertext())
    assert {"117", "130", "182"} <= set(said)


def test_what_cannot_be_made_is_said_and_the_last_good_picture_stays():
    """A step of 60 would take the smallest opening to 143 - 180."""
    view = live_openings(BARES["mm"])
    put(controls(view)["Step per row"], "30")
    good = seen(view)[0]
    put(controls(view)["Step per row"], "60")
    picture, words = seen(view)
    assert picture == good
    assert words.startswith("Not drawn:")
    assert "-37" in words
    assert "take a smaller step or fewer rows" in words
    put(controls(view)["Step per row"], "20")
    assert seen(view)[1].startswith("Openings of Landing chest")
    assert "constant step of 20" in seen(view)[1]


def test_a_typed_text_that_is_refused_moves_nothing():
    view = live_openings(BARES["mm"])
    before = seen(view)
    put(controls(view)["Step per row"], "about twenty")
    assert seen(view) == before


def test_the_words_are_told_to_those_who_hear_them():
    view = live_legs(BARES["mm"])
    assert 'role="status"' in view.children[-2].value
    assert 'role="img"' in seen(view)[0]
    label = re.search(r'aria-label="([^"]*)"', seen(view)[0])[1]
    put(controls(view)["Rake, front legs"], "20")
    assert re.search(r'aria-label="([^"]*)"', seen(view)[0])[1] != label


def test_the_page_never_jumps(shown):
    """Whatever is moved, picture and words keep their heights, and so do the controls."""
    _, _, view, _ = shown

    def heights():
        root = ElementTree.fromstring(seen(view)[0])
        # of the controls that share a place one stands there always, whichever it is
        boxes = [
            (type(child).__name__, child.layout.height) for child in view.children if child.layout.display != "none"
        ]
        return boxes, root.get("width"), root.get("height")

    first = heights()
    assert first[0][-2:] != []
    for control in controls(view).values():
        for end in ends(control):
            put(control, end)
            assert heights() == first


@pytest.mark.parametrize(
    ("what", "name", "values"),
    [
        ("legs", "Rake, front legs", ("-20", "0", "40")),
        ("leg", "Rake (front-to-back lean)", ("-45", "0", "45")),
        ("leg", "Splay (side lean)", ("-45", "45")),
        ("leg", "Height of the legs", ("113", "189")),
    ],
)
def test_the_picture_in_its_frame_is_never_cut_off(what, name, values):
    """The frame stays; a taller picture is shown smaller in it."""
    view = OPEN[what](BARES["mm"])
    for value in values:
        put(controls(view)[name], value)
        assert not seen(view)[1].startswith("Not drawn")
        root = ElementTree.fromstring(seen(view)[0])
        _, _, width, height = map(float, root.get("viewBox").split())
        for line in root.iter("{http://www.w3.org/2000/svg}path"):
            numbers = re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", line.get("d"))
            assert all(-1 <= float(x) <= width + 1 and -1 <= float(y) <= height + 1 for x, y in numbers)


@pytest.mark.parametrize("rake", ["0", "12", "20", "-30", "45"])
def test_a_leg_that_leans_far_is_drawn_at_a_smaller_scale_in_the_same_frame(rake):
    """Triangle and plan, each as long as the foot's run, the plan by 48 more, and 40 mm of words share 93 mm."""
    view = OPEN["leg"](BARES["mm"])
    rest = ElementTree.fromstring(seen(view)[0])
    put(controls(view)["Rake (front-to-back lean)"], rake)
    root = ElementTree.fromstring(seen(view)[0])
    assert (root.get("width"), root.get("height")) == (rest.get("width"), rest.get("height"))
    run = 151 * math.hypot(math.tan(math.radians(float(rake))), math.tan(math.radians(6)))
    (said,) = (text for text in root.itertext() if text.startswith("true triangle, 1 : "))
    ratio = float(said.removeprefix("true triangle, 1 : "))
    assert ratio == next(usual for usual in (2.5, 5, 10, 20) if (2 * run + 48) / usual + 40 <= 93)


# What it is made of


NO_MATPLOTLIB = """
import sys
from furnlib.live.openings import live_openings
from furnlib.live.pieces import live_leg, live_legs

for view in (live_openings(sys.argv[1]), live_legs(sys.argv[1]), live_leg(sys.argv[1], "rear left")):
    before = view.children[-2].value
    for control in (*getattr(view.children[0], "children", ()), *view.children):
        if hasattr(control, "asked"):
            control.set_state({"asked": [1, len(control.labels) // 2, None]})
        elif hasattr(control, "options"):
            control.value = control.options[0]
    assert view.children[-2].value != before
sys.exit(" ".join({"matplotlib", "sympy", "scipy"} & set(sys.modules)) or 0)
"""


@pytest.mark.parametrize("unit", ["mm", pytest.param("in", marks=pytest.mark.slow)])
def test_moving_loads_no_matplotlib(unit):
    call = [sys.executable, "-c", NO_MATPLOTLIB, DESIGNS[unit]]
    done = subprocess.run(call, cwd=ROOT, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


def test_no_formula_stands_in_the_live_part():
    """It reads, calls and draws: of the trade it knows a record and a list of words, and takes no angle or root."""
    for path in sorted((ROOT / "furnlib" / "live").glob("*.py")):
        names = set()
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ImportFrom):
                names |= {node.module} | {f"{node.module}.{alias.name}" for alias in node.names}
            elif isinstance(node, ast.Import):
                names |= {alias.name for alias in node.names}
        ours = {name for name in names if name and name.startswith("furnlib")}
        of_trade = {name for name in ours if name.split(".")[1:2] == ["trade"]}
        allowed = ("furnlib.trade.leg.lean.Lean", "furnlib.trade.leg.end_cut.ORIENTATIONS")
        assert all(any(known.startswith(name) for known in allowed) for name in of_trade), (path, of_trade)
        assert not names & {"furnlib.base.angles", "numpy", "sympy", "math.sin", "math.tan", "math.sqrt", "math.hypot"}


def test_one_output_holds_the_live_picture_and_the_one_at_rest(shown):
    _, _, view, _ = shown
    bundle = view._repr_mimebundle_()
    data = bundle[0] if isinstance(bundle, tuple) else bundle
    assert set(data) == {"application/vnd.jupyter.widget-view+json", "image/svg+xml", "image/png", "text/plain"}
    assert data["application/vnd.jupyter.widget-view+json"]["model_id"] == view.model_id
    assert data["image/png"].startswith(b"\x89PNG\r\n")
    ElementTree.fromstring(data["image/svg+xml"])
    assert data["text/plain"] == repr(view)


def test_its_name_is_the_same_in_every_run_and_wherever_it_is_moved(shown):
    what, _, view, path = shown
    name = repr(view)
    assert repr(OPEN[what](path)) == name
    for control in controls(view).values():
        put(control, ends(control)[-1])
    assert repr(view) == name
    assert "0x" not in name
    assert name.startswith("<Live view of ")
