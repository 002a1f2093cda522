"""One leg under the hand: four names for one lean, whichever two of them the file holds.

What is moved keeps its partner (rake and splay, total lean and sight line) and the other two follow.
What they must be is worked out here from the tangents: tan r = tan R cos S, tan s = tan R sin S.
"""

from __future__ import annotations

import itertools
import math
import re
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from chance import by_chance
from hypothesis import strategies as st
from leg_shapes import without
from live_hand import (
    BARES,
    CALLED,
    HELD,
    PRACTICE,
    ROOT,
    TANGENT,
    angles,
    bare_file,
    controls,
    drawn,
    ends,
    leg,
    put,
    seen,
    stool_file,
    tan,
    tangents,
)

from furnlib.base.guards import DesignError
from furnlib.live.pieces import live_leg

PARTNER = {"rake": "splay", "splay": "rake", "total lean": "sight line", "sight line": "total lean"}
BY_KEYS = st.tuples(st.sampled_from(list(CALLED)), st.integers(-8, 8))
ROUNDED = 5.1e-5  # what follows is written to 4 decimals of a degree
STRETCHED = 6e-5  # where the file holds one part and the sight line is 1 from its own: 5e-5 degrees / sin 1
THREE_LEGS = ROOT / "notebooks" / "designs" / "stool_three_legs.yaml"
FOUR_LEGS = ROOT / "notebooks" / "designs" / "stool_four_legs.yaml"


def all_names(tan_r, tan_s):
    """The four angles of a lean in degrees."""
    radians = (math.atan(tan_r), math.atan(tan_s), math.atan(math.hypot(tan_r, tan_s)), math.atan2(tan_s, tan_r))
    return dict(zip(CALLED, map(math.degrees, radians), strict=True))


def rakes(view):
    """Tangents of rake and splay of every leg."""
    return {leg.position: (leg.lean.tan_rake, leg.lean.tan_splay) for leg in view.piece.legs}


def told(view):
    """Count every picture or sentence that the page is sent, and every move of each control."""
    (shown,) = (child for child in view.children if type(child).__name__ == "HTML")
    counts = dict.fromkeys(["page", *CALLED], 0)

    def count(what):
        return lambda _: counts.__setitem__(what, counts[what] + 1)

    shown.observe(count("page"), "value")
    for name, called in CALLED.items():
        controls(view)[called].observe(count(name), "value")
    return counts


@pytest.fixture(params=HELD)
def view(request, tmp_path):
    """The front left leg of a stool whose file holds two of the four names."""
    return live_leg(stool_file(tmp_path, HELD[request.param]), "front left")


# Either pair drives the other


def test_at_rest_all_four_names_stand_there_in_one_order(view):
    """Rake and splay, below them total lean and sight line, whatever the file holds."""
    assert list(controls(view))[:4] == list(CALLED.values())
    there = leg(view, "front left").lean
    expected = all_names(there.tan_rake, there.tan_splay)
    assert angles(view) == pytest.approx(expected, abs=ROUNDED)
    assert not any(controls(view)[called].message for called in CALLED.values())


MOVES = [
    (name, to)
    for name, texts in {
        "rake": ("14 1/3", "12.345", "-1", "20"),
        "splay": ("7 1/3", "12.345", "-1", "20"),
        "total lean": ("20", "12 1/3", "12.345", "0.5"),
        "sight line": ("50 1/3", "12.345", "1", "88"),
    }.items()
    for to in (*texts, +3, -5)
]


EACH = [name if name in list(HELD)[:2] else pytest.param(name, marks=pytest.mark.slow) for name in HELD]


@pytest.mark.parametrize("view", EACH, indirect=True)
@pytest.mark.parametrize(("name", "to"), MOVES, ids=[f"{name} {to}" for name, to in MOVES])
def test_what_is_moved_keeps_its_partner_and_the_other_two_follow(view, name, to):
    before, counts, rear = angles(view), told(view), rakes(view)["rear left"]
    control = controls(view)[CALLED[name]]
    put(control, to if isinstance(to, str) else control.position + to)
    if to == "-1" and not drawn(view):  # a file that holds total lean and one part has no word for it
        assert "which cannot say" in seen(view)[1]
        assert angles(view) == before
        return
    wanted = float(sum(map(Fraction, to.split()))) if isinstance(to, str) else float(control.value)
    pair = {name: wanted, PARTNER[name]: before[PARTNER[name]]}
    lean = tangents(pair)
    assert angles(view) == pytest.approx(all_names(*lean) | pair, abs=ROUNDED)
    slack = STRETCHED if (name, to) in {("sight line", "1"), ("sight line", "88")} else TANGENT
    assert rakes(view)["front left"] == pytest.approx(lean, abs=slack)
    assert rakes(view)["front right"] == rakes(view)["front left"]
    assert rakes(view)["rear right"] == rakes(view)["rear left"] == rear
    assert counts["page"] == 1  # one picture for one move of the hand
    assert all(counts[moved] <= 1 for moved in CALLED)
    assert (counts[name], counts[PARTNER[name]]) == (1, 0)
    assert not any(controls(view)[called].message for other, called in CALLED.items() if other != name)
    ElementTree.fromstring(seen(view)[0])


@by_chance(st.lists(BY_KEYS, min_size=1, max_size=12), few=10, many=40)
def test_after_any_moves_the_four_names_and_the_piece_are_one_lean(moves):
    """From the file of the stool as it is, by keys of the hand, there and back."""
    view = live_leg(PRACTICE, "front left")
    for name, by in moves:
        control = controls(view)[CALLED[name]]
        put(control, min(max(control.position + by, 0), len(control.labels) - 1))
        lean = rakes(view)["front left"]
        assert tangents({n: angles(view)[n] for n in ("rake", "splay")}) == pytest.approx(lean, abs=TANGENT)
        assert tangents({n: angles(view)[n] for n in ("total lean", "sight line")}) == pytest.approx(lean, abs=TANGENT)


def test_a_worked_case(tmp_path):
    """tan 15 cos 35 = 0.2194913 is 12.3796 degrees, tan 15 sin 35 = 0.1536893 is 8.7374."""
    view = live_leg(stool_file(tmp_path, "rake: 12, splay: 9"), "front left")
    put(controls(view)[CALLED["sight line"]], "35")
    put(controls(view)[CALLED["total lean"]], "15")
    assert controls(view)[CALLED["rake"]].shown == "12.3796"
    assert controls(view)[CALLED["splay"]].shown == "8.7374"
    assert "15° on 35°" in seen(view)[1]


@pytest.mark.parametrize("sight", ["60", "-20", "135"])
def test_total_lean_down_to_nothing_and_back_keeps_the_sight_line(view, sight):
    put(controls(view)[CALLED["total lean"]], "6")  # so that no foot runs past another
    put(controls(view)[CALLED["sight line"]], sight)
    if not drawn(view):
        assert "cannot say" in seen(view)[1]
        return
    there = angles(view)
    put(controls(view)[CALLED["total lean"]], "0")
    assert drawn(view)
    assert angles(view) == {"rake": 0, "splay": 0, "total lean": 0, "sight line": float(sight)}
    assert rakes(view)["front left"] == (0, 0)
    put(controls(view)[CALLED["total lean"]], "6")
    assert angles(view) == pytest.approx(there, abs=ROUNDED)


PAST = ["120", "90", "180", "-180", "-90", "-37.5"]


@pytest.mark.parametrize("sight", PAST)
@pytest.mark.parametrize("held", ["rake and splay", "total lean and sight line", "rake and sight line"])
def test_a_sight_line_past_90_or_below_0_points_inward(tmp_path, held, sight):
    """Past 90 the foot stands inward of the top fore and aft, below 0 sideways."""
    view = live_leg(stool_file(tmp_path, HELD[held]), "front left")
    put(controls(view)[CALLED["total lean"]], "3")
    put(controls(view)[CALLED["sight line"]], sight)
    if held == "rake and sight line" and sight in {"90", "-90"}:  # a rake of 0 there says no lean
        assert "lean stays open" in seen(view)[1]
        return
    assert drawn(view), seen(view)[1]
    lean = tangents({"total lean": 3, "sight line": float(sight)})
    assert rakes(view)["front left"] == pytest.approx(lean, abs=TANGENT)
    assert angles(view)["rake"] == pytest.approx(math.degrees(math.atan(lean[0])), abs=ROUNDED)
    assert angles(view)["splay"] == pytest.approx(math.degrees(math.atan(lean[1])), abs=ROUNDED)
    assert f"3° on {float(sight) % 360 - (360 if float(sight) % 360 > 180 else 0):g}°" in seen(view)[1]


# Ends and refusals


LATER = [pytest.param(path, marks=pytest.mark.slow) for path in (FOUR_LEGS, BARES["mm"], BARES["in"])]


@pytest.mark.parametrize("path", [PRACTICE, THREE_LEGS, *LATER], ids=lambda path: path.stem)
def test_at_both_ends_of_every_control_it_is_drawn_or_said_why_not(path):
    position = "rear" if path is THREE_LEGS else "rear right"
    said, at_rest = set(), live_leg(path, position)
    for name, control in controls(at_rest).items():
        for end in ends(control):
            view = live_leg(path, position)
            rest, stood = seen(view)[0], angles(view)
            put(controls(view)[name], end)
            picture, words = seen(view)
            if words.startswith("Not drawn:"):
                assert picture == rest
                assert words[-1] == "."
                said.add(name)
            else:
                ElementTree.fromstring(picture)
                assert words.startswith("Legs of ")
            if name in CALLED.values():  # back where it was, the picture at rest stands there again
                for held, by in itertools.product(("rake", "splay"), (0.25, 0)):
                    put(controls(view)[CALLED[held]], f"{stood[held] + by}")
                assert drawn(view)
                assert rakes(view)[position] == pytest.approx(rakes(at_rest)[position], abs=TANGENT)
    assert CALLED["total lean"] in said  # 60 degrees is more than any rake and splay on the page


def test_where_another_control_cannot_follow_the_hand_comes_to_an_end(tmp_path):
    """On a sight line of 10 a total lean of 50 is a rake of 49.57, and rake ends at 45."""
    view = live_leg(stool_file(tmp_path, "rake: 12, splay: 9"), "front left")
    put(controls(view)[CALLED["sight line"]], "10")
    before, picture = angles(view), seen(view)[0]
    put(controls(view)[CALLED["total lean"]], "50")
    assert seen(view)[1].startswith("Not drawn:  Rake (front-to-back lean) is 49.5")
    assert "from -45 to 45°" in seen(view)[1]
    assert (angles(view), seen(view)[0]) == (before, picture)
    assert not controls(view)[CALLED["total lean"]].invalid
    put(controls(view)["Leg square"], "30")
    assert drawn(view)
    assert angles(view) == before
    put(controls(view)[CALLED["total lean"]], "14")
    assert drawn(view)
    assert rakes(view)["front left"] == pytest.approx(tangents({"total lean": 14, "sight line": 10}), abs=TANGENT)


@pytest.mark.parametrize("rake", ["47", "-50"])
def test_a_file_past_the_usual_ends_is_opened_as_it_is(tmp_path, rake):
    text = without(BARES["mm"].read_text("utf-8"), "wood|profile|turning|loads|fixing")
    text = text.replace("rake: 8", f"rake: {rake}").replace("rake: 0", f"rake: {rake}")
    path = tmp_path / "steep.yaml"
    path.write_text(text.replace("height: 1300", "height: 1189").replace("height: 151", "height: 40"), "utf-8")
    view = live_leg(path, "front left")
    assert drawn(view), seen(view)[1]
    assert angles(view)["rake"] == float(rake)
    put(controls(view)[CALLED["splay"]], "45")
    assert angles(view)["total lean"] == pytest.approx(all_names(tan(float(rake)), 1)["total lean"], abs=ROUNDED)


def test_what_the_piece_refuses_leaves_the_last_good_picture_and_all_controls_usable(tmp_path):
    view = live_leg(stool_file(tmp_path, "rake: 12, splay: 9"), "front left")
    good, counts = seen(view)[0], told(view)
    put(controls(view)[CALLED["splay"]], "-40")
    picture, words = seen(view)
    assert picture == good
    assert words.startswith("Not drawn: ")
    assert "lean it less, or outward" in words
    assert counts["page"] == 1
    lean = tangents({"rake": 12, "splay": -40})
    assert angles(view) == pytest.approx(all_names(*lean), abs=ROUNDED)  # still four names for one lean
    with pytest.raises(DesignError, match="lean it less"):
        view.keep()
    put(controls(view)[CALLED["sight line"]], "40")
    put(controls(view)[CALLED["total lean"]], "14")
    assert drawn(view)
    assert "14° on 40°" in seen(view)[1]


def test_names_that_cannot_say_a_lean_are_refused_by_name(tmp_path):
    """Total lean and rake leave the side open, so a file that holds them has no word for a splay below 0."""
    view = live_leg(stool_file(tmp_path, "total lean: 15, rake: 12"), "front left")
    before, picture = angles(view), seen(view)[0]
    put(controls(view)[CALLED["sight line"]], "-30")
    assert seen(view)[1].startswith("Not drawn:  The file gives this lean by rake and total lean, which cannot say")
    assert "write rake and splay, or total lean and sight line" in seen(view)[1]
    assert (angles(view), seen(view)[0]) == (before, picture)
    put(controls(view)[CALLED["sight line"]], "30")
    assert rakes(view)["front left"] == pytest.approx(tangents({"total lean": 15, "sight line": 30}), abs=TANGENT)


def test_a_text_that_cannot_be_read_moves_nothing(view):
    before = angles(view), seen(view)
    for called in CALLED.values():
        put(controls(view)[called], "about ten")
        assert controls(view)[called].invalid
    assert (angles(view), seen(view)) == before


# What else is moved


def test_the_leg_takes_pitch_height_and_square_from_their_controls(tmp_path):
    """Under a seat pitched by p a front leg is drilled at r - p and a rear leg at r + p.

    The front mortise stands H - T cos p - (D/2 - front) sin p over the floor.
    """
    view = live_leg(stool_file(tmp_path, "rake: 12, splay: 9"), "front left")
    for pitch, height, square in (("5", "460", "30"), ("-2 1/2", "400", "36.5"), ("0", "450", "32")):
        put(controls(view)["Pitch of the seat"], pitch)
        put(controls(view)["Height of the seat"], height)
        put(controls(view)["Leg square"], square)
        assert drawn(view), seen(view)[1]
        p = math.copysign(sum(abs(Fraction(part)) for part in pitch.split()), -1 if "-" in pitch else 1)
        front, rear = leg(view, "front left"), leg(view, "rear right")
        assert front.drilling.seat_lean.rake_deg == pytest.approx(12 - p)
        assert rear.drilling.seat_lean.rake_deg == pytest.approx(15 + p)
        wanted = float(height) - 36 * math.cos(math.radians(p)) - (140 - 90) * math.sin(math.radians(p))
        assert front.height == pytest.approx(wanted)
        assert front.square == Fraction(square)
        assert front.axis_length == pytest.approx(wanted * math.sqrt(1 + tan(12) ** 2 + tan(9) ** 2))
        words = [text.strip() for text in ElementTree.fromstring(seen(view)[0]).itertext()]
        assert f"{round(wanted, 1):g}" in words
        assert angles(view) == pytest.approx(all_names(tan(12), tan(9)), abs=ROUNDED)


def test_the_orientation_turns_the_faces_and_not_the_leg(tmp_path):
    """On the sight line the plumb faces take the total lean as mitre, the leaning ones none."""
    view = live_leg(stool_file(tmp_path, "rake: 12, splay: 9"), "front left")
    lean = rakes(view)["front left"]
    put(controls(view)["Orientation"], "sightline")
    cut = leg(view, "front left").end_cut
    assert (cut.front_down.mitre_deg, cut.side_down.mitre_deg) == pytest.approx((0, all_names(*lean)["total lean"]))
    assert rakes(view)["front left"] == lean


def test_the_rear_leg_of_three_moves_alone():
    view = live_leg(THREE_LEGS, "rear")
    before = rakes(view)
    assert list(controls(view)) == [*CALLED.values(), "Height of the seat", "Pitch of the seat"]
    put(controls(view)[CALLED["sight line"]], "30")
    put(controls(view)[CALLED["total lean"]], "20")
    assert drawn(view), seen(view)[1]
    assert rakes(view)["rear"] == pytest.approx(tangents({"total lean": 20, "sight line": 30}), abs=TANGENT)
    assert "Rear leg 20° on 30°" in seen(view)[1]
    assert [rakes(view)[p] for p in before if p != "rear"] == [before[p] for p in before if p != "rear"]


def test_legs_that_lean_alike_by_other_words_stay_where_they_are(tmp_path):
    """Rear left and right lean alike, one by each pair of names: the one that was asked for is moved."""
    path = stool_file(tmp_path, "rake: 12, splay: 9")
    text = path.read_text("utf-8").replace(
        "rear right: {rake: 15, splay: 9}", "rear right: {total lean: 0, sight line: 0}"
    )
    path.write_text(text.replace("rear left: {rake: 15, splay: 9}", "rear left: {rake: 0, splay: 0}"), "utf-8")
    for position, mate in (("rear right", "rear left"), ("rear left", "rear right")):
        view = live_leg(path, position)
        put(controls(view)[CALLED["rake"]], "4")
        assert rakes(view)[position] == pytest.approx((tan(4), 0), abs=TANGENT)
        assert rakes(view)[mate] == (0, 0)


def test_all_four_legs_move_where_all_lean_alike(tmp_path):
    path = stool_file(tmp_path, "rake: 8, splay: 6", "rake: 8, splay: 6", ("pitch: 3", "pitch: 0"))
    view = live_leg(path, "rear left")
    put(controls(view)[CALLED["splay"]], "7")
    assert [*rakes(view).values()] == [pytest.approx((tan(8), tan(7)))] * 4


@pytest.mark.parametrize("unit", ["mm", pytest.param("in", marks=pytest.mark.slow)])
def test_under_a_case_the_leg_keeps_the_chain_closed_or_says_why_not(tmp_path, unit):
    """There is no seat to pitch; what the legs take is taken from the case, and what no pitch takes is theirs."""
    view = live_leg(bare_file(tmp_path, unit), "front left")
    assert "Pitch of the seat" not in controls(view)
    control = controls(view)["Height of the legs"]
    drawings = 0
    for position in range(len(control.labels)):
        put(control, position)
        if not drawn(view):
            assert seen(view)[1].endswith(".")
            continue
        drawings += 1
        piece = view.piece
        case = sum(row.opening for row in piece.rows.rows) + (len(piece.rows.rows) - 1) * piece.design.case.divider
        case += piece.design.case.top + piece.design.case.bottom
        assert case + leg(view, "front left").height == piece.design.overall.height
        assert 0 <= leg(view, "front left").height - control.value < piece.design.jig.pitch
    assert drawings > len(control.labels) / 2
    put(control, "200" if unit == "mm" else "8 1/3")
    assert "must lie from" in control.message or drawn(view)


# What cannot be opened


@pytest.mark.parametrize(
    ("path", "position", "said"),
    [
        (PRACTICE, "rear", "Practice stool has no leg 'rear'; its legs: front left, front right, rear left, rear righ"),
        (THREE_LEGS, "rear left", "has no leg 'rear left'; its legs: front left, front right, rear."),
        (ROOT / "notebooks" / "designs" / "seven_openings.yaml", "front left", "no leg 'front left'; its legs: none."),
        (ROOT / "none.yaml", "rear", "cannot be read"),
    ],
)
def test_a_leg_that_is_not_there_is_said(path, position, said):
    with pytest.raises(DesignError, match=re.escape(said)):
        live_leg(path, position)
