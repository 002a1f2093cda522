"""The openings of a chest cut on a jig in a real JupyterLab: dragged, typed into, refused, moved by keys, looked at.

The landing chest has 1300 - 151 - 20 - 20 - 6 x 18 = 1001 to share out; expected sizes are plain sums.
"""

import re
import shutil
from itertools import combinations

import pytest
from hand import Hand, overlap, scratch_notebook
from lab import PROJECT, notebook_state, slider, take_picture, typed_box

expect = pytest.importorskip("playwright.sync_api").expect

PITCH, STEP, FIRST = "Jig's pitch", "Step per row", "First opening"
NOT_SAID = "  leftover: leg      # what takes up what is no whole pitch: leg, top rail or bottom rail\n"


@pytest.fixture(scope="module", autouse=True)
def notebook(lab, page):
    """Open a scratch notebook: a copy of the landing chest, and one that does not say where the rest goes."""
    text = (PROJECT / "notebooks" / "designs" / "landing_chest.yaml").read_text("utf-8")
    assert text.count(NOT_SAID) == 1
    (lab.root / "chest.yaml").write_text(text, "utf-8")
    (lab.root / "open.yaml").write_text(text.replace(NOT_SAID, ""), "utf-8")
    shutil.copy(PROJECT / "notebooks" / "designs" / "landing_chest_inch.yaml", lab.root / "inch.yaml")
    views = (f'fl.live_openings("{name}.yaml")' for name in ("chest", "open", "inch"))
    page.set_viewport_size({"width": 1400, "height": 1000})
    yield from scratch_notebook(page, lab, "openings.ipynb", "import furnlib as fl", *views)


class OpeningsHand(Hand):
    """The hand on the openings of one of the three chests."""

    def __init__(self, page, chest):
        super().__init__(page, PITCH)
        self.view = page.locator(".jp-OutputArea-output").filter(has=page.get_by_role("slider")).nth(chest)
        self.picture, self.caption = self.view.locator("svg.furn"), self.view.get_by_role("status").last
        self.view.scroll_into_view_if_needed()

    def choose(self, name, value):
        self.view.get_by_role("combobox", name=name, exact=True).select_option(value)

    def closed(self):
        """The openings of the caption, after it has been drawn."""
        expect(self.caption).to_contain_text("They close: ")
        return [
            int(size) for size in re.search(r"They close: ([\d +]+) =", self.caption.text_content())[1].split(" + ")
        ]


@pytest.fixture
def hand(page):
    """The chest as the demo has it."""
    page.set_viewport_size({"width": 1400, "height": 1000})
    hand = OpeningsHand(page, 0)
    slider(hand.view, PITCH).wait_for()
    hand.choose("Rule", "constant step")
    hand.choose("Rule goes by", "step or ratio")
    hand.choose("Left over goes to", "leg")
    for name, size in ((PITCH, "20"), (STEP, "20")):
        hand.type(name, size)
    expect(hand.caption).to_contain_text("constant step of 20.")
    expect(hand.caption).to_contain_text("83 + 103 + 123 + 143 + 163 + 183 + 203 = 1001")
    return hand


def test_a_dragged_rule_is_followed_in_whole_pitches(page, lab, hand):
    before, drawn = notebook_state(page), hand.picture.inner_html()
    bar = slider(hand.view, STEP).bounding_box()
    middle, here = bar["y"] + bar["height"] / 2, (20 + 60) / 120
    page.mouse.move(bar["x"] + bar["width"] * here, middle)
    page.mouse.down()
    for share in (0.98, 0.55):  # out to where nothing can be made, and back
        page.mouse.move(bar["x"] + bar["width"] * share, middle, steps=12)
    step = float(slider(hand.view, STEP).get_attribute("aria-valuetext").removesuffix(" mm"))
    assert 0 < step < 15
    expect(hand.caption).to_contain_text(f"constant step of {step:g}.")
    assert take_picture(page, lab, "openings, dragged").stat().st_size > 0
    page.mouse.up()
    openings = hand.closed()
    assert sum(openings) == 1001
    assert all((opening - 3) % 20 == 0 for opening in openings)
    assert hand.picture.inner_html() != drawn
    after = notebook_state(page)
    assert (after["scroll"], after["height"]) == (before["scroll"], before["height"])


def test_a_dragged_pitch_leaves_a_strip_that_goes_where_it_is_told(page, lab, hand):
    """1001 - 21 = 980 is 39 pitches of 25 and 5 over: in the legs, or in a rail."""
    bar = slider(hand.view, PITCH).bounding_box()
    middle = bar["y"] + bar["height"] / 2
    page.mouse.move(bar["x"] + bar["width"] * (20 - 10) / 30, middle)
    page.mouse.down()
    page.mouse.move(bar["x"] + bar["width"] * 0.6, middle, steps=12)
    page.mouse.up()
    hand.type(PITCH, "25")
    expect(hand.caption).to_contain_text("= 996")
    openings = hand.closed()
    assert sum(openings) == 39 * 25 + 7 * 3
    assert all((opening - 3) % 25 == 0 for opening in openings)
    hand.choose("Left over goes to", "bottom rail")
    expect(
        hand.picture.locator("text", has_text=re.compile(r"\b5\b.*left over|left over.*\b5\b")).first
    ).to_be_visible()
    assert take_picture(page, lab, "openings, bottom rail").stat().st_size > 0


def test_the_chosen_number_begins_where_the_picture_stands(hand):
    """From 83 at the top; typed 104 the step is (143 - 104) / 3 = 13."""
    hand.choose("Rule goes by", "first opening")
    expect(typed_box(hand.view, FIRST)).to_have_value("83")
    expect(slider(hand.view, STEP)).to_be_hidden()
    assert hand.closed() == [83, 103, 123, 143, 163, 183, 203]
    hand.type(FIRST, "104")
    expect(hand.caption).to_contain_text("constant step from 104")
    hand.choose("Rule goes by", "step or ratio")
    expect(typed_box(hand.view, STEP)).to_have_value("13")


def test_a_pitch_that_no_height_fits_says_what_would_and_loses_nothing(page):
    """5 too much or 20 too little for pitches of 25, in a file that does not say where the rest goes."""
    hand = OpeningsHand(page, 1)
    drawn = hand.picture.inner_html()
    hand.type(PITCH, "25")
    expect(hand.caption).to_contain_text("Not drawn: Whole pitches leave 5 of the clear height over")
    expect(hand.caption).to_contain_text("5 lower or 20 higher")
    assert hand.picture.inner_html() == drawn
    hand.choose("Left over goes to", "top rail")
    expect(hand.caption).to_contain_text("= 996")
    assert hand.picture.inner_html() != drawn
    hand.type(PITCH, "about twenty")
    expect(typed_box(hand.view, PITCH)).to_have_attribute("aria-invalid", "true")
    expect(hand.caption).to_contain_text("= 996")


def test_an_inch_shop_types_fractions(page):
    hand = OpeningsHand(page, 2)
    hand.type(STEP, "1 5/16")
    expect(typed_box(hand.view, STEP)).to_have_value("1 5/16")
    expect(slider(hand.view, STEP)).to_have_attribute("aria-valuetext", "1 5/16 in")
    hand.type(PITCH, "0.875")
    expect(typed_box(hand.view, PITCH)).to_have_value("7/8")
    expect(hand.caption).to_contain_text("inch shop")


def test_keys_move_a_size_by_its_grid_and_no_other(page, hand):
    slider(hand.view, PITCH).focus()
    page.keyboard.press("ArrowRight")
    expect(typed_box(hand.view, PITCH)).to_have_value("20.5")
    expect(hand.picture.locator("text", has_text="Side = k x 20.5").first).to_be_visible()
    page.keyboard.press("ArrowLeft")
    expect(hand.caption).to_contain_text("= 1001")
    rows = slider(hand.view, "Number of rows")
    rows.focus()
    page.keyboard.press("ArrowLeft")
    expect(typed_box(hand.view, "Number of rows")).to_have_value("6")
    page.keyboard.press("ArrowRight")
    expect(hand.caption).to_contain_text("= 1001")
    expect(typed_box(hand.view, STEP)).to_have_value("20")
    assert len(notebook_state(page)["cells"]) == 4


def test_what_was_found_is_kept_and_what_the_rule_left_is_gone(lab, hand):
    file = lab.root / "chest.yaml"
    before = file.read_text("utf-8")
    hand.choose("Rule goes by", "last opening")
    hand.type("Last opening", "183")
    expect(hand.caption).to_contain_text("constant step to 183")
    hand.view.get_by_role("button", name="Keep these values").click()
    expect(hand.caption).to_contain_text("Kept in chest.yaml.")
    gone = "  step: 20           # each opening taller than the one above by this\n"
    split = "    1: 2             # row 1 is two drawers side by side: keys, gloves\n"
    assert file.read_text("utf-8") == before.replace(gone, "").replace(split, f"{split}  last: 183\n")


@pytest.mark.parametrize(("width", "columns"), [(1400, 3), pytest.param(1200, 2, marks=pytest.mark.slow), (760, 1)])
def test_controls_stand_abreast_as_far_as_the_page_is_wide(lab, page, hand, width, columns):
    page.set_viewport_size({"width": width, "height": 1000})
    page.evaluate("() => new Promise(requestAnimationFrame)")
    slider(hand.view, STEP).scroll_into_view_if_needed()
    assert take_picture(page, lab, f"openings, {width}").stat().st_size > 0
    groups = [group.bounding_box() for group in hand.view.get_by_role("group").all() if group.is_visible()]
    lists = [chosen.bounding_box() for chosen in hand.view.get_by_role("combobox").all()]
    assert (len(groups), len(lists)) == (6, 3)
    assert len({round(box["x"] / 20) for box in groups}) == columns
    for one, other in combinations([*groups, *lists, hand.picture.bounding_box(), hand.caption.bounding_box()], 2):
        assert overlap(one, other) <= 0.5
    picture, output = hand.picture.bounding_box(), hand.view.bounding_box()
    assert picture["x"] + picture["width"] <= output["x"] + output["width"]  # it shrinks, and is not cut off
    if columns == 3:  # the first line of controls and the whole picture are seen together
        assert hand.caption.bounding_box()["y"] - lists[0]["y"] < 900
