"""The proportion of a case in a real JupyterLab: dragged, typed into, refused, moved by keys, kept, looked at.

The chest is the tall one of the lesson, 1300 x 520 on legs of 151; expected ratios are worked out here by hand.
"""

import shutil

import pytest
from hand import Hand, overlap, scratch_notebook
from lab import PROJECT, notebook_state, slider, take_picture, typed_box

expect = pytest.importorskip("playwright.sync_api").expect

pytestmark = pytest.mark.slow  # the same hand on the same page as in test_leg_in_lab.py and test_openings_in_lab.py

HEIGHT, WIDTH, LEGS = "Overall height", "Overall width", "Height of the legs"
AT_REST = "silhouette 5 : 2 exactly; case field 11 : 5, 0.4 % off."


@pytest.fixture(scope="module", autouse=True)
def notebook(lab, page):
    """Open a scratch notebook: a copy of the lesson's chest."""
    shutil.copy(PROJECT / "notebooks" / "designs" / "tall_chest.yaml", lab.root / "tall.yaml")
    sources = ("import furnlib as fl", 'fl.live_proportion("tall.yaml")')
    page.set_viewport_size({"width": 1200, "height": 900})
    yield from scratch_notebook(page, lab, "proportion.ipynb", *sources)


@pytest.fixture
def hand(page):
    """The chest as it stands in the file."""
    page.set_viewport_size({"width": 1200, "height": 900})
    hand = Hand(page, WIDTH)
    slider(hand.view, WIDTH).wait_for()
    for name, size in ((HEIGHT, "1300"), (WIDTH, "520"), (LEGS, "151")):
        hand.type(name, size)
    expect(hand.caption).to_contain_text(AT_REST)
    return hand


def test_legs_that_are_dragged_longer_steal_from_the_case_alone(page, lab, hand):
    """Legs from 50 to 302; the case is what they leave of 1300."""
    before = notebook_state(page)
    slider(hand.view, LEGS).scroll_into_view_if_needed()
    bar = slider(hand.view, LEGS).bounding_box()
    middle = bar["y"] + bar["height"] / 2
    page.mouse.move(bar["x"] + bar["width"] * (151 - 50) / (302 - 50), middle)
    page.mouse.down()
    for share in (0.1, 1.1, 0.85):  # out past the end and back in, as a hand does
        page.mouse.move(bar["x"] + bar["width"] * share, middle, steps=10)
    legs = int(slider(hand.view, LEGS).get_attribute("aria-valuetext").removesuffix(" mm"))
    assert 240 < legs < 285
    expect(hand.caption).to_contain_text(
        f"Legs {legs} of 1300, 1 : {round(1300 / legs, 1):g} of the height; 5 : 2 with"
    )
    assert {str(1300 - legs), "1300", "Silhouette, legs in: 5 : 2 exactly"} <= set(hand.words())
    assert take_picture(page, lab, "proportion, dragged").stat().st_size > 0
    page.mouse.up()
    after = notebook_state(page)
    assert (after["scroll"], after["height"]) == (before["scroll"], before["height"])


def test_the_picture_stays_in_its_place_while_the_case_grows(hand):
    place = hand.picture.bounding_box()
    hand.type(HEIGHT, "1560")
    expect(hand.caption).to_contain_text("silhouette 3 : 1 exactly")
    assert hand.picture.bounding_box() == place
    hand.type(WIDTH, "624")
    expect(hand.caption).to_contain_text("silhouette 5 : 2 exactly")
    assert hand.picture.bounding_box() == place


def test_a_typed_width_is_taken_exactly(hand):
    """1149 / 574.5 is 2."""
    hand.type(WIDTH, "574 1/2")
    expect(hand.caption).to_contain_text("case field 2 : 1 exactly")
    expect(slider(hand.view, WIDTH)).to_have_attribute("aria-valuetext", "574.5 mm")
    hand.type(WIDTH, "52 cm")
    expect(hand.caption).to_contain_text(AT_REST)


def test_what_is_refused_says_why_and_loses_nothing(hand):
    drawn = hand.picture.inner_html()
    hand.type(WIDTH, "100")
    expect(typed_box(hand.view, WIDTH)).to_have_attribute("aria-invalid", "true")
    expect(hand.view.get_by_text("it must lie from 390 to 624 mm")).to_be_visible()
    assert hand.picture.inner_html() == drawn
    hand.type(WIDTH, "520")
    expect(typed_box(hand.view, WIDTH)).not_to_have_attribute("aria-invalid", "true")
    hand.type(HEIGHT, "1300 1/3")  # the openings close on whole mm, and a third is left
    expect(hand.caption).to_contain_text("Not drawn: ")
    assert hand.picture.inner_html() == drawn
    hand.type(HEIGHT, "1299")
    expect(hand.caption).to_contain_text("silhouette 5 : 2, 0.1 % off")


def test_keys_move_a_size_by_a_mm_and_no_other(page, hand):
    slider(hand.view, LEGS).focus()
    page.keyboard.press("ArrowLeft")
    expect(typed_box(hand.view, LEGS)).to_have_value("150")
    expect(hand.caption).to_contain_text("Legs 150 of 1300, 1 : 8.7")
    page.keyboard.press("PageUp")
    expect(typed_box(hand.view, LEGS)).not_to_have_value("150")
    expect(typed_box(hand.view, WIDTH)).to_have_value("520")
    assert len(notebook_state(page)["cells"]) == 2


def test_what_was_found_is_kept_in_the_file(lab, hand):
    file = lab.root / "tall.yaml"
    before = file.read_text("utf-8")
    hand.type(LEGS, "130")
    expect(hand.caption).to_contain_text("case field 9 : 4 exactly")
    hand.view.get_by_role("button", name="Keep these values").click()
    expect(hand.caption).to_contain_text("Kept in tall.yaml.")
    assert file.read_text("utf-8") == before.replace("height: 151 ", "height: 130 ")


@pytest.mark.parametrize("width", [1400, 1200, 760])
def test_controls_picture_and_words_stand_clear_and_are_seen_together(lab, page, hand, width):
    page.set_viewport_size({"width": width, "height": 900})
    page.evaluate("() => new Promise(requestAnimationFrame)")
    slider(hand.view, HEIGHT).scroll_into_view_if_needed()
    assert take_picture(page, lab, f"proportion, {width}").stat().st_size > 0
    groups = [group.bounding_box() for group in hand.view.get_by_role("group").all()]
    boxes = [*groups, hand.picture.bounding_box(), hand.caption.bounding_box()]
    assert len(groups) == 3
    for i, one in enumerate(boxes):
        assert all(overlap(one, other) <= 0.5 for other in boxes[i + 1 :])
    output = hand.view.bounding_box()
    assert boxes[3]["x"] + boxes[3]["width"] <= output["x"] + output["width"] + 0.5
    assert boxes[-1]["y"] + boxes[-1]["height"] - groups[0]["y"] < 800
