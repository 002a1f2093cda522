"""The view of one leg in a real JupyterLab: dragged, typed into, two controls abreast or one, looked at.

Expected numbers are worked out here by plain trigonometry, not by the library.
"""

import math
import re
from itertools import combinations

import pytest
from hand import Hand, overlap, scratch_notebook
from lab import (
    PROJECT,
    notebook_state,
    slider,
    take_picture,
    typed_box,
)

expect = pytest.importorskip("playwright.sync_api").expect

RAKE, SPLAY = "Rake (front-to-back lean)", "Splay (side lean)"
TOTAL, SIGHT = "Total lean", "Sight line, from the front-back line"
LEAN = "{rake: 12, splay: 9}"


@pytest.fixture(scope="module", autouse=True)
def notebook(lab, page):
    """Open a scratch notebook: one leg of a copy of the practice stool."""
    text = (PROJECT / "notebooks" / "designs" / "practice_stool.yaml").read_text("utf-8")
    text = re.sub(r"(front (?:left|right)): \{.*\}", rf"\1: {LEAN}", text)
    assert text.count(LEAN) == 2
    (lab.root / "stool.yaml").write_text(text, "utf-8")
    sources = ("import furnlib as fl", 'fl.live_leg("stool.yaml", "front left")')
    yield from scratch_notebook(page, lab, "leg.ipynb", *sources)


class LegHand(Hand):
    """The hand on a leg's lean."""

    def sees(self, **angles):
        """Expect what the boxes show, by the first word of each control's name."""
        names = {"rake": RAKE, "splay": SPLAY, "total": TOTAL, "sight": SIGHT}
        for word, angle in angles.items():
            expect(typed_box(self.view, names[word])).to_have_value(f"{round(angle, 4):g}" if angle else "0")


@pytest.fixture
def hand(page):
    """The leg at rake 12 and splay 9, on a wide page."""
    page.set_viewport_size({"width": 1400, "height": 1000})
    hand = LegHand(page, RAKE)
    slider(hand.view, RAKE).wait_for()
    hand.type(RAKE, "12")
    hand.type(SPLAY, "9")
    hand.sees(rake=12, splay=9)
    expect(hand.caption).to_contain_text("14.85° on 36.7°")
    return hand


def from_parts(rake, splay):
    """Total lean and sight line in degrees: tan² R = tan² r + tan² s, tan S = tan s / tan r."""
    r, s = math.tan(math.radians(rake)), math.tan(math.radians(splay))
    return math.degrees(math.atan(math.hypot(r, s))), math.degrees(math.atan2(s, r))


def to_parts(total, sight):
    """Rake and splay in degrees: tan r = tan R cos S, tan s = tan R sin S."""
    t, turn = math.tan(math.radians(total)), math.radians(sight)
    return math.degrees(math.atan(t * math.cos(turn))), math.degrees(math.atan(t * math.sin(turn)))


def test_dragged_rake_moves_total_lean_and_sight_line_and_the_picture(page, hand):
    before, drawn = notebook_state(page), hand.picture.inner_html()
    bar = slider(hand.view, RAKE).bounding_box()
    middle, end = bar["y"] + bar["height"] / 2, bar["x"] + bar["width"]
    page.mouse.move(bar["x"] + bar["width"] * (12 + 45) / 90, middle)
    page.mouse.down()
    for _ in range(2):  # out past the end and back in, as a hand does
        page.mouse.move(end + 40, middle, steps=8)
        page.mouse.move(bar["x"] + bar["width"] * (20 + 45) / 90, middle, steps=12)
    page.mouse.up()
    shown = slider(hand.view, RAKE).get_attribute("aria-valuetext")
    rake = float(shown.removesuffix(" degrees"))
    assert 15 < rake < 25  # the thumb is as wide as ten of its steps
    total, sight = from_parts(rake, 9)
    hand.sees(rake=rake, splay=9, total=total, sight=sight)
    expect(hand.caption).to_contain_text(f"{round(total, 2):g}° on {round(sight, 1):g}°")
    assert hand.picture.inner_html() != drawn
    assert {f"{round(total, 2):g}°", f"{round(sight, 1):g}°"} <= set(hand.words())
    after = notebook_state(page)
    assert (after["scroll"], after["height"]) == (before["scroll"], before["height"])


@pytest.mark.slow  # what is dragged differs from the rake above, and what follows from the typed total lean below
def test_dragged_total_lean_leaves_the_sight_line_and_moves_rake_and_splay(page, hand):
    hand.type(SIGHT, "40")
    bar = slider(hand.view, TOTAL).bounding_box()
    middle = bar["y"] + bar["height"] / 2
    page.mouse.move(bar["x"] + bar["width"] * 14.85 / 60, middle)
    page.mouse.down()
    page.mouse.move(bar["x"] - 30, middle, steps=15)  # to nothing
    hand.sees(rake=0, splay=0, total=0, sight=40)
    page.mouse.move(bar["x"] + bar["width"] * 10 / 60, middle, steps=15)  # and up again
    page.mouse.up()
    total = float(slider(hand.view, TOTAL).get_attribute("aria-valuetext").removesuffix(" degrees"))
    assert 6 < total < 14
    rake, splay = to_parts(total, 40)
    hand.sees(rake=rake, splay=splay, sight=40)
    expect(hand.caption).to_contain_text(f"{total:g}° on 40°")


def test_a_typed_total_lean_of_20_moves_the_rake(hand):
    _, sight = from_parts(12, 9)
    hand.type(TOTAL, "20")
    rake, splay = to_parts(20, sight)
    hand.sees(total=20, rake=rake, splay=splay, sight=sight)
    spoken = slider(hand.view, RAKE).get_attribute("aria-valuetext")
    assert float(spoken.removesuffix(" degrees")) == pytest.approx(rake, abs=1e-4)
    expect(hand.caption).to_contain_text(f"20° on {round(sight, 1):g}°")
    assert "20°" in hand.words()
    for name in (RAKE, SPLAY, SIGHT):  # what follows says nothing of grids
        expect(hand.view.get_by_role("group", name=name).get_by_role("status")).to_have_text("")


def test_keys_move_one_name_and_the_others_follow(hand):
    hand.type(SIGHT, "30")
    hand.type(TOTAL, "15")
    slider(hand.view, SIGHT).press("ArrowRight")
    rake, splay = to_parts(15, 30.5)
    hand.sees(total=15, sight=30.5, rake=rake, splay=splay)


def test_past_an_end_the_hand_is_told_and_nothing_moves(hand):
    hand.type(SIGHT, "10")
    rake, splay = to_parts(from_parts(12, 9)[0], 10)
    hand.sees(rake=rake, splay=splay)
    drawn = hand.picture.inner_html()
    hand.type(TOTAL, "58")
    expect(hand.caption).to_contain_text("Not drawn: Rake (front-to-back lean) is 57.6")
    hand.sees(rake=rake, splay=splay, sight=10, total=from_parts(12, 9)[0])
    assert hand.picture.inner_html() == drawn
    hand.type(TOTAL, "12")
    expect(hand.caption).to_contain_text("12° on 10°")


def test_what_was_found_is_kept_by_the_names_of_the_file(lab, hand):
    file = lab.root / "stool.yaml"
    before = file.read_text("utf-8")
    hand.type(SIGHT, "35")
    hand.type(TOTAL, "15")
    hand.view.get_by_role("combobox", name="Orientation").select_option("front_level")
    expect(hand.caption).to_contain_text("15° on 35°")
    hand.view.get_by_role("button", name="Keep these values").click()
    expect(hand.caption).to_contain_text("Kept in stool.yaml.")
    kept = before.replace(LEAN, "{rake: 12.3796, splay: 8.7374}").replace("untwisted  #", "front_level  #")
    assert file.read_text("utf-8") == kept
    hand.view.get_by_role("combobox", name="Orientation").select_option("untwisted")


# How it stands on the page


def boxes(hand):
    """Where everything of the view stands, by what it is called."""
    controls = {
        group.get_attribute("aria-labelledby"): group.bounding_box() for group in hand.view.get_by_role("group").all()
    }
    others = {
        "orientation": hand.view.get_by_role("combobox", name="Orientation"),
        "picture": hand.picture,
        "caption": hand.caption,
        "keep": hand.view.get_by_role("button", name="Keep these values"),
    }
    return controls, {name: other.bounding_box() for name, other in others.items()}


@pytest.mark.parametrize(("width", "columns"), [pytest.param(1400, 2, marks=pytest.mark.slow), (1200, 2), (760, 1)])
def test_two_controls_abreast_where_the_page_is_wide_and_one_where_it_is_narrow(lab, page, hand, width, columns):
    page.set_viewport_size({"width": width, "height": 1000})
    page.evaluate("() => new Promise(requestAnimationFrame)")
    slider(hand.view, RAKE).scroll_into_view_if_needed()
    controls, others = boxes(hand)
    assert take_picture(page, lab, f"leg, {width}").stat().st_size > 0
    assert len(controls) == 7
    lefts = {round(box["x"]) for box in controls.values()}
    assert len(lefts) == columns
    tops = [round(box["y"]) for box in controls.values()]
    assert tops == sorted(tops)
    assert len(set(tops)) == (4 if columns == 2 else 7)  # orientation stands in one of the four lines
    everything = {**controls, **others}
    for one, other in combinations(everything, 2):
        assert overlap(everything[one], everything[other]) <= 0.5, (one, other)
    output = hand.view.bounding_box()
    for name, box in {**controls, "orientation": others["orientation"]}.items():
        assert box["x"] + box["width"] <= output["x"] + output["width"] + 0.5, name


def test_within_a_control_nothing_overlaps_on_either_page(page, hand):
    for width in (1400, 760):
        page.set_viewport_size({"width": width, "height": 1000})
        for name in (RAKE, SIGHT, "Height of the seat"):
            group = hand.view.get_by_role("group", name=name)
            parts = [group.locator(f".furn-{part}").bounding_box() for part in ("name", "range", "typed", "message")]
            assert all(overlap(one, other) <= 0.5 for one, other in combinations(parts, 2)), (width, name, parts)
            assert parts[1]["width"] > 90  # wide enough to be dragged
