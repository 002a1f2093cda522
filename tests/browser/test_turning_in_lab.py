"""The view of one turned leg in a real JupyterLab: dragged, typed into, refused, moved by keys, looked at.

The leg is the landing chest's, square 48 at the top; expected numbers are worked out here by plain sums.
"""

import math
import shutil
from itertools import combinations

import pytest
from hand import Hand, overlap, scratch_notebook
from lab import PROJECT, notebook_state, slider, take_picture, typed_box

expect = pytest.importorskip("playwright.sync_api").expect

pytestmark = pytest.mark.slow  # the same hand on the same page as in test_leg_in_lab.py and test_openings_in_lab.py

DEPTH, RISE, LONG, HEIGHT = "Cove, depth", "Bead, rise", "Bead, length", "Height of the legs"
AXIS = math.sqrt(1 + math.tan(math.radians(8)) ** 2 + math.tan(math.radians(6)) ** 2)  # for each unit of height


@pytest.fixture(scope="module", autouse=True)
def notebook(lab, page):
    """Open a scratch notebook: a leg of a copy of the landing chest."""
    shutil.copy(PROJECT / "notebooks" / "designs" / "landing_chest.yaml", lab.root / "chest.yaml")
    sources = ("import furnlib as fl", 'fl.live_turning("chest.yaml", "front left")')
    page.set_viewport_size({"width": 1400, "height": 1000})
    yield from scratch_notebook(page, lab, "turning.ipynb", *sources)


@pytest.fixture
def hand(page):
    """The leg as it stands in the demo, on a wide page."""
    page.set_viewport_size({"width": 1400, "height": 1000})
    hand = Hand(page, DEPTH)
    slider(hand.view, DEPTH).wait_for()
    for name, size in ((LONG, "8"), (RISE, "2"), (DEPTH, "6"), (HEIGHT, "151")):
        hand.type(name, size)
    for words in ("largest ⌀ 44", f"{151 * AXIS:.1f}", "⌀ 26"):
        expect(hand.picture.locator("text", has_text=words).first).to_be_visible()
    return hand


def test_a_dragged_depth_is_followed_by_the_picture(page, lab, hand):
    """The hollow lies 2 x depth below the 38 of the cove's ends."""
    before, drawn = notebook_state(page), hand.picture.inner_html()
    slider(hand.view, DEPTH).scroll_into_view_if_needed()
    bar = slider(hand.view, DEPTH).bounding_box()
    middle, here = bar["y"] + bar["height"] / 2, (6 - 1) / (18 - 1)
    page.mouse.move(bar["x"] + bar["width"] * here, middle)
    page.mouse.down()
    for share in (0.05, 0.48):
        page.mouse.move(bar["x"] + bar["width"] * share, middle, steps=12)
    depth = float(slider(hand.view, DEPTH).get_attribute("aria-valuetext").removesuffix(" mm"))
    assert 8 < depth < 10
    expect(hand.caption).to_contain_text(f"thinnest ⌀ {38 - 2 * depth:g} at 60")
    assert f"⌀ {38 - 2 * depth:g}" in hand.words()
    assert take_picture(page, lab, "turning, dragged").stat().st_size > 0
    page.mouse.up()
    assert hand.picture.inner_html() != drawn
    after = notebook_state(page)
    assert (after["scroll"], after["height"]) == (before["scroll"], before["height"])


def test_a_typed_height_makes_the_leg_longer(hand):
    """Legs of 171 leave 981, less 7 x 3 of clearance 48 whole pitches, so that nothing more goes to the legs."""
    hand.type(HEIGHT, "171")
    expect(hand.picture.locator("text", has_text=f"{171 * AXIS:.1f}").first).to_be_visible()
    hand.type(RISE, "3 1/2")
    expect(hand.picture.locator("text", has_text="largest ⌀ 47")).to_be_visible()
    assert "⌀ 47" in hand.words()


def test_a_shape_that_cannot_be_made_says_why_and_loses_nothing(hand):
    """A bead 8 long is a half circle when it rises 4."""
    drawn = hand.picture.inner_html()
    hand.type(RISE, "5")
    expect(hand.caption).to_contain_text("Not drawn: A bead 8 long between 40 and 40 may rise at most 4, not 5")
    assert hand.picture.inner_html() == drawn
    expect(typed_box(hand.view, RISE)).to_have_value("5")
    hand.type(DEPTH, "7")  # still refused, and still said
    expect(hand.caption).to_contain_text("may rise at most 4")
    hand.type(RISE, "3")
    expect(hand.caption).to_contain_text("thinnest ⌀ 24 at 60")
    hand.type(LONG, "about ten")
    expect(typed_box(hand.view, LONG)).to_have_attribute("aria-invalid", "true")
    expect(hand.caption).to_contain_text("thinnest ⌀ 24 at 60")


def test_keys_move_a_size_by_its_grid_and_no_other(page, hand):
    slider(hand.view, DEPTH).focus()
    page.keyboard.press("ArrowRight")
    expect(typed_box(hand.view, DEPTH)).to_have_value("6.5")
    expect(hand.caption).to_contain_text("thinnest ⌀ 25 at 60")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowLeft")
    expect(hand.caption).to_contain_text("thinnest ⌀ 27 at 60")
    expect(typed_box(hand.view, RISE)).to_have_value("2")
    state = notebook_state(page)
    assert len(state["cells"]) == 2


def test_what_was_found_is_kept_in_the_braces_of_the_file(lab, hand):
    file = lab.root / "chest.yaml"
    before = file.read_text("utf-8")
    hand.type(DEPTH, "5 1/2")
    expect(hand.caption).to_contain_text("thinnest ⌀ 27 at 60")
    hand.view.get_by_role("button", name="Keep these values").click()
    expect(hand.caption).to_contain_text("Kept in chest.yaml.")
    assert file.read_text("utf-8") == before.replace("length: 20, depth: 6}", "length: 20, depth: 5.5}")


@pytest.mark.parametrize(("width", "columns"), [(1400, 3), (1200, 2), (760, 1)])
def test_controls_stand_abreast_as_far_as_the_page_is_wide(lab, page, hand, width, columns):
    page.set_viewport_size({"width": width, "height": 1000})
    page.evaluate("() => new Promise(requestAnimationFrame)")
    slider(hand.view, "Square").scroll_into_view_if_needed()
    assert take_picture(page, lab, f"turning, {width}").stat().st_size > 0
    groups = [group.bounding_box() for group in hand.view.get_by_role("group").all()]
    assert len(groups) == 11
    assert len({round(box["x"]) for box in groups}) == columns
    for one, other in combinations([*groups, hand.picture.bounding_box(), hand.caption.bounding_box()], 2):
        assert overlap(one, other) <= 0.5
    picture, output = hand.picture.bounding_box(), hand.view.bounding_box()
    assert picture["x"] + picture["width"] <= output["x"] + output["width"]  # it shrinks, and is not cut off
    for name in ("Square", DEPTH, HEIGHT):
        assert slider(hand.view, name).bounding_box()["width"] > 90  # wide enough to be dragged
    if columns == 3:  # the last line of controls and the whole picture are seen together
        assert hand.caption.bounding_box()["y"] - groups[0]["y"] < 850
