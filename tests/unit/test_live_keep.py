"""Values found by hand are written back into the design file: those, and nothing else."""

from __future__ import annotations

import itertools
import re

import pytest
from live_hand import (
    BARES,
    CALLED,
    HELD,
    OPEN,
    PRACTICE,
    TANGENT,
    angles,
    bare_file,
    controls,
    put,
    seen,
    stool_file,
    tangents,
    without_jig,
)

from furnlib.base.guards import DesignError
from furnlib.live.openings import live_openings
from furnlib.live.pieces import live_leg, live_legs
from furnlib.live.view import LiveView
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import make_piece, read_piece


@pytest.fixture(params=itertools.product(OPEN, BARES), ids="-".join)
def shown(request, tmp_path):
    """What is shown, unit, view and file."""
    what, unit = request.param
    path = bare_file(tmp_path, unit)
    return what, unit, OPEN[what](path), path


def test_nothing_moved_and_kept_is_the_file_to_the_byte(shown):
    _, _, view, path = shown
    before = path.read_bytes()
    assert view.keep() == path
    assert path.read_bytes() == before


def lines_of(path):
    return path.read_text("utf-8").splitlines()


def changed_lines(before, after):
    """Pairs of lines that differ, where none was added or lost."""
    return [(old, new) for old, new in zip(before, after, strict=True) if old != new]


def test_what_was_found_by_hand_is_written_back_and_nothing_else(tmp_path):
    path = without_jig(bare_file(tmp_path))
    before = lines_of(path)
    view = live_openings(path)
    put(controls(view)["Step per row"], "13")
    put(controls(view)["Shop grid, mm"], "0.5")
    view.keep()
    assert changed_lines(before, lines_of(path)) == [
        (
            "grid: 1              # the smallest step this shop cuts to; openings close on it",
            "grid: 0.5              # the smallest step this shop cuts to; openings close on it",
        ),
        (
            "  step: 20           # each opening taller than the one above by this",
            "  step: 13           # each opening taller than the one above by this",
        ),
    ]


@pytest.mark.parametrize("unit", BARES)
def test_the_file_read_again_gives_the_piece_on_the_page(tmp_path, unit):
    path = bare_file(tmp_path, unit)
    for view, moves in (
        (live_openings(path), {"Step per row": 30, "Number of rows": 5}),
        (live_legs(path), {"Rake, front legs": "12.25", "Splay, rear legs": "7 1/2"}),
    ):
        for name, value in moves.items():
            put(controls(view)[name], value)
        assert not seen(view)[1].startswith("Not drawn")
        view.keep()
        again = read_piece(path)
        assert again.design == view.piece.design
        assert again.design.digest == view.piece.design.digest
        assert [(s.name, s.value) for s in again.sizes] == [(s.name, s.value) for s in view.piece.sizes]


def test_both_legs_of_a_pair_are_written(tmp_path):
    path = bare_file(tmp_path)
    view = live_legs(path)
    put(controls(view)["Rake, front legs"], "11")
    view.keep()
    assert "    front left: {rake: 11, splay: 6}    # front feet forward: a longer stance" in lines_of(path)
    assert "    front right: {rake: 11, splay: 6}" in lines_of(path)


def test_what_does_not_count_just_now_stays_out_of_the_file(tmp_path):
    """The rule is a constant step: the ratio that was tried belongs to no rule of this file."""
    path = bare_file(tmp_path)
    view = live_openings(path)
    put(controls(view)["Rule"], "constant ratio")
    put(controls(view)["Ratio per row"], "1.25")
    put(controls(view)["Rule"], "constant step")
    view.keep()
    assert path.read_bytes() == BARES["mm"].read_bytes()


def test_a_new_rule_brings_its_size_into_the_file_and_takes_the_old_one_out(tmp_path):
    path = bare_file(tmp_path)
    before = lines_of(path)
    view = live_openings(path)
    put(controls(view)["Rule"], "constant ratio")
    put(controls(view)["Ratio per row"], "1.15")
    view.keep()
    kept = lines_of(path)
    assert [line for line in before if line not in kept] == [
        "  rule: constant step  # equal, constant step, constant ratio, weights or own list",
        "  step: 20           # each opening taller than the one above by this",
    ]
    assert [line for line in kept if line not in before] == [
        "  rule: constant ratio  # equal, constant step, constant ratio, weights or own list",
        "  ratio: 1.15",
    ]
    assert read_piece(path).rows.rule == "constant ratio of 1.15"
    assert "not_used" not in {concern.code for concern in read_piece(path).concerns}


def test_what_does_not_close_is_not_kept(tmp_path):
    path = bare_file(tmp_path)
    before = path.read_bytes()
    view = live_openings(path)
    put(controls(view)["Step per row"], "60")
    with pytest.raises(DesignError, match="take a smaller step"):
        view.keep()
    assert path.read_bytes() == before
    view.children[-1].click()
    assert seen(view)[1].startswith("Not kept:")
    assert path.read_bytes() == before


def test_the_button_keeps_and_says_where(tmp_path):
    path = bare_file(tmp_path)
    view = live_openings(path)
    put(controls(view)["Step per row"], "13")
    assert view.children[-1].description == "Keep these values"
    view.children[-1].click()
    assert seen(view)[1] == f"Kept in {path}."
    assert read_piece(path).design.rows.step == 13


def test_another_file_may_be_named_and_the_first_one_stays(tmp_path):
    path = bare_file(tmp_path)
    view = live_openings(path)
    put(controls(view)["Step per row"], "13")
    assert view.keep(tmp_path / "second.yaml") == tmp_path / "second.yaml"
    assert path.read_bytes() == BARES["mm"].read_bytes()
    assert read_piece(tmp_path / "second.yaml").design.rows.step == 13
    view.keep()
    assert path.read_bytes() == (tmp_path / "second.yaml").read_bytes()


def test_a_folder_that_is_not_there_is_said(tmp_path):
    view = live_openings(bare_file(tmp_path))
    with pytest.raises(DesignError, match="choose another folder"):
        view.keep(tmp_path / "none" / "chest.yaml")


def test_a_view_of_no_file_asks_for_a_name(tmp_path):
    text = DesignText.read(BARES["mm"])
    opened = live_openings(BARES["mm"])
    view = LiveView(text, opened._plate, opened._bindings)
    assert not any(getattr(child, "description", "") == "Keep these values" for child in view.children)
    with pytest.raises(DesignError, match="name one to keep the values in"):
        view.keep()
    assert view.keep(tmp_path / "new.yaml").read_bytes() == BARES["mm"].read_bytes()


def test_what_the_maker_wrote_in_the_file_meanwhile_is_not_lost(tmp_path):
    """Opened here, edited there: either both are in the file afterwards, or it is said and nothing is written."""
    path = bare_file(tmp_path)
    view = live_openings(path)
    put(controls(view)["Step per row"], "13")
    edited = path.read_text("utf-8").replace("revision: A", "revision: B  # agreed on the telephone")
    path.write_text(edited, "utf-8")
    try:
        view.keep()
    except DesignError:
        assert path.read_text("utf-8") == edited
    else:
        assert "revision: B  # agreed on the telephone" in lines_of(path)
        assert read_piece(path).design.rows.step == 13


# Any design file, not the demo alone

STEEP = [("front left: {rake: 8", "front left: {rake: 47"), ("front right: {rake: 8", "front right: {rake: 47")]
LONG = [(old, new.replace("47", "8.12345678912345")) for old, new in STEEP]
SIDES = ("left", "right")
NAMES = [(f"front {side}: {{rake: 8, splay: 6}}", f"front {side}: {{total lean: 9, sight line: 30}}") for side in SIDES]
MIXED = [(f"front {side}: {{rake: 8, splay: 6}}", f"front {side}: {{rake: 8.0, sight line: 36 4/5}}") for side in SIDES]
LIST = "openings: [83, 103, 123, 143, 163, 183, 203] "
OTHERS = {
    "a strong ratio": ("openings", [("rule: constant step", "rule: constant ratio"), ("step: 20 ", "ratio: 1.8 ")]),
    "a steep rake": ("legs", [*STEEP, ("front: 45", "front: 180")]),
    "a leg unlike its mate": ("legs", [("front right: {rake: 8", "front right: {rake: 10")]),
    "an angle to the last digit": ("legs", LONG),
    "a step with its unit": (
        "openings",
        [("step: 20 ", "step: 3/4 in "), ("height: 1300", "height: 1299.5"), ("grid: 1 ", "grid: 1/4 ")],
    ),
    "a step with a nought": ("openings", [("step: 20 ", "step: 20.0 ")]),
    "an odd grid": ("openings", [("grid: 1 ", "grid: 7 "), ("step: 20 ", "step: 21 ")]),
    "own list": ("openings", [("rule: constant step", "rule: own list"), ("step: 20 ", LIST)]),
    "many rows": ("openings", [("number: 7", "number: 25"), ("step: 20 ", "step: 1 "), ("divider: 18", "divider: 10")]),
    "three legs": ("legs", [("    front right: {rake: 8, splay: 6}\n", "")]),
    "other names": ("legs", NAMES),
    "one leg by other names": ("leg", NAMES),
    "one leg by one name of each pair": ("leg", MIXED),
    "one leg past the usual ends": ("leg", [*STEEP, ("front: 45", "front: 180")]),
    "one leg unlike its mate": ("leg", [("front right: {rake: 8", "front right: {rake: 10")]),
    "one leg like its mate, in other words": ("leg", [("front right: {rake: 8", 'front right: {rake: "8.0°"')]),
    "both legs like each other, in other words": ("legs", [("front right: {rake: 8", "front right: {rake: 8.0")]),
}


@pytest.mark.parametrize(("what", "changes"), OTHERS.values(), ids=OTHERS)
def test_another_design_is_opened_as_it_is_and_kept_as_it_is(tmp_path, what, changes):
    path = bare_file(tmp_path, "mm", *changes)
    before = path.read_bytes()
    read = read_piece(path)
    view = OPEN[what](path)
    assert view.piece.design.digest == read.design.digest
    assert [(s.name, s.value) for s in view.piece.sizes] == [(s.name, s.value) for s in make_piece(read.design).sizes]
    view.keep()
    assert path.read_bytes() == before


def test_a_piece_without_legs_has_no_leans_to_move(tmp_path):
    path = tmp_path / "case.yaml"
    text = BARES["mm"].read_text("utf-8").partition("\nlegs:")[0].replace("height: 1300", "height: 1149")
    path.write_text(text, "utf-8")
    with pytest.raises(DesignError, match=r"case\.yaml has no legs; add a part 'legs:'"):
        live_legs(path)
    assert seen(live_openings(path))[1].startswith("Openings of Landing chest")


@pytest.mark.parametrize("what", OPEN)
def test_a_file_that_cannot_be_read_is_said(tmp_path, what):
    with pytest.raises(DesignError, match=r"none\.yaml cannot be read"):
        OPEN[what](tmp_path / "none.yaml")


def test_a_stool_has_no_openings_to_move():
    with pytest.raises(DesignError, match=r"practice_stool\.yaml has no rows of drawers; open a case"):
        live_openings(PRACTICE)


# One leg: either pair of names may have been moved

NAME = re.compile(r"[a-z]+(?: [a-z]+)?(?=:)")


@pytest.mark.parametrize("lean", HELD.values(), ids=HELD)
def test_only_the_names_that_the_file_has_are_kept(tmp_path, lean):
    """Both front legs, by the two names that stood there; comments and all else to the byte."""
    path = stool_file(tmp_path, lean)
    before = path.read_text("utf-8")
    view = live_leg(path, "front left")
    assert view.keep().read_text("utf-8") == before
    put(controls(view)[CALLED["sight line"]], "30")
    put(controls(view)[CALLED["total lean"]], "14.25")
    view.keep()
    words = ", ".join(f"{name}: {angles(view)[name]:g}" for name in NAME.findall(lean))
    assert path.read_text("utf-8") == before.replace(lean, words)
    wanted = tangents({"total lean": 14.25, "sight line": 30})
    for there in read_piece(path).legs[:2]:
        assert (there.lean.tan_rake, there.lean.tan_splay) == pytest.approx(wanted, abs=TANGENT)


def test_what_is_typed_by_a_fraction_is_kept_as_one(tmp_path):
    path = stool_file(tmp_path, "rake: 12, splay: 9")
    view = live_leg(path, "front left")
    put(controls(view)[CALLED["rake"]], "12 1/3")
    put(controls(view)["Height of the seat"], "455")
    before = path.read_text("utf-8")
    view.keep()
    assert [new for _, new in changed_lines(before.splitlines(), lines_of(path))] == [
        "  height: 455        # floor to the top of the seat at its front edge",
        "    front left: {rake: 12 1/3, splay: 9}  # front left",
        "    front right: {rake: 12 1/3, splay: 9}  # front right",
    ]


def test_each_leg_keeps_its_own_words_until_they_are_moved(tmp_path):
    path = stool_file(tmp_path, "rake: 12, splay: 9")
    path.write_text(
        path.read_text("utf-8").replace("front right: {rake: 12, splay: 9}", 'front right: {rake: 12.0, splay: "9°"}'),
        "utf-8",
    )
    before = path.read_text("utf-8")
    view = live_leg(path, "front left")
    assert view.keep().read_text("utf-8") == before
    put(controls(view)[CALLED["rake"]], "13")
    view.keep()
    assert [new for _, new in changed_lines(before.splitlines(), lines_of(path))] == [
        "    front left: {rake: 13, splay: 9}  # front left",
        '    front right: {rake: 13, splay: "9°"}  # front right',
    ]


BARE = (
    ("  pitch: 3           # degrees; above 0 the back edge is the lower one\n", ""),
    ("  orientation: untwisted  # or front_level, side_level, sightline, sightline_corner\n", ""),
)


def test_what_the_file_leaves_unsaid_is_added_when_it_is_moved(tmp_path):
    path = stool_file(tmp_path, "rake: 12, splay: 9", "rake: 15, splay: 9", *BARE)
    before = path.read_text("utf-8")
    view = live_leg(path, "front left")
    assert view.keep().read_text("utf-8") == before
    put(controls(view)["Orientation"], "sightline")
    view.keep()
    added = path.read_text("utf-8")
    assert set(added.splitlines()) - set(before.splitlines()) == {"  orientation: sightline"}
    assert read_piece(path).design.legs.orientation == "sightline"
    put(controls(view)["Pitch of the seat"], "2.5")
    put(controls(view)["Orientation"], "untwisted")  # back to what is usual, but the file says otherwise now
    view.keep()
    kept = DesignText.read(path).tree
    assert (kept["legs"]["orientation"], kept["seat"]["pitch"]) == ("untwisted", "2.5")
    assert set(lines_of(path)) - set(before.splitlines()) == {
        "  pitch: 2.5",
        "  orientation: untwisted",
    }


def test_legs_under_a_case_gain_an_orientation_and_nothing_else(tmp_path):
    path = bare_file(tmp_path)
    before = path.read_text("utf-8")
    view = live_leg(path, "rear left")
    put(controls(view)["Orientation"], "front_level")
    view.keep()
    assert set(lines_of(path)) - set(before.splitlines()) == {"  orientation: front_level"}
    assert len(lines_of(path)) == len(before.splitlines()) + 1


def test_a_line_that_was_edited_meanwhile_and_not_moved_here_stays(tmp_path):
    path = stool_file(tmp_path, "rake: 12, splay: 9")
    view = live_leg(path, "front left")
    put(controls(view)[CALLED["rake"]], "13")
    text = path.read_text("utf-8").replace("pitch: 3 ", "pitch: 4 ").replace("untwisted  #", "side_level  #")
    path.write_text(text, "utf-8")
    view.keep()
    assert path.read_text("utf-8") == text.replace("{rake: 12,", "{rake: 13,")
