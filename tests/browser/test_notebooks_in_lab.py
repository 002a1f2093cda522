"""Lessons 02 and 05 in a real JupyterLab: found by name, moved by keyboard, typed into, looked at.

Expected numbers are worked out here by plain trigonometry and exact fractions, not by the library.
"""

import math
import re
import shutil
import unicodedata
from fractions import Fraction
from itertools import pairwise
from urllib.parse import urlparse

import pytest
from lab import (
    PROJECT,
    notebook_state,
    run_all,
    run_instead,
    shut_down,
    slider,
    stored_errors,
    typed_box,
)

expect = pytest.importorskip("playwright.sync_api").expect

PROPORTION = "notebooks/01_proportion_a_case.ipynb"
SPLAY = "notebooks/05_splay_a_leg.ipynb"
GRADUATE = "notebooks/02_graduate_drawers.ipynb"
RAKE, SPLAY_ANGLE = "Rake (front-to-back lean)", "Splay (side lean)"
# Practice stool: floor to the front mortises under a seat pitched by 3 degrees, 50 behind its front edge.
HEIGHT = 450 - 36 * math.cos(math.radians(3)) - 50 * math.sin(math.radians(3))


@pytest.fixture(scope="module")
def copies(lab):
    """The project's notebooks and figures, copied where the lab opens them."""
    for folder in ("notebooks", "figures"):
        skip = shutil.ignore_patterns("packets", ".ipynb_checkpoints")
        shutil.copytree(PROJECT / folder, lab.root / folder, ignore=skip, dirs_exist_ok=True)
    return lab


@pytest.fixture(scope="module")
def requests(page):
    """Every address that the page asks for, and every error it writes."""
    asked, errors = [], []
    page.on("request", lambda request: asked.append(request.url))
    page.on("websocket", lambda socket: asked.append(socket.url))
    page.on("console", lambda said: errors.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: errors.append(str(error)))
    return asked, errors


def lean_numbers(rake, splay, height=HEIGHT):
    """Total lean, sight line and axis length as a plate writes them, worked out by hand."""
    tan_r, tan_s = math.tan(math.radians(rake)), math.tan(math.radians(splay))
    total = math.degrees(math.atan(math.hypot(tan_r, tan_s)))
    sight = math.degrees(math.atan2(tan_s, tan_r))
    axis = height * math.sqrt(1 + tan_r**2 + tan_s**2)
    figures = ((total, 2, "°"), (sight, 1, "°"), (axis, 1, ""))
    return [f"{value:.{places}f}".rstrip("0").rstrip(".") + sign for value, places, sign in figures]


def view_of(page, name):
    """The live view that holds a control, its picture and its caption."""
    view = page.locator(".jp-OutputArea-output").filter(has=slider(page, name)).first
    return view, view.locator("svg.furn"), view.get_by_role("status").last


def inches(size):
    """Write a size of 1 inch or more as it stands on the tape, such as 5 3/8."""
    whole, part = divmod(size, 1)
    return f"{whole} {part}" if part else f"{whole}"


def plain(text):
    """Write spaces and fractions as they are typed: ³⁄₈ is 3/8."""
    return unicodedata.normalize("NFKC", text).replace("\u2044", "/")


def words(picture):
    return [text.strip() for text in picture.locator("text").all_text_contents()]


def sizes_among(picture):
    """Every figure in the picture's words, with its sign."""
    return {figure.rstrip(".,;:") for text in words(picture) for figure in text.split()}


def place(page, picture):
    """What must not move while a control does: the page, the cells below, the picture itself."""
    below = page.evaluate(
        """picture => [...document.querySelectorAll('.jp-Cell')]
            .map(cell => Math.round(cell.getBoundingClientRect().top))""",
        picture.element_handle(),
    )
    box = picture.bounding_box()
    return notebook_state(page), below, [round(box[key]) for key in ("x", "y", "width", "height")]


def sizes(pictures):
    """Width and height of pictures in their own px once they have come; 0 where one has not."""
    return pictures.evaluate_all(
        """pictures => Promise.all(pictures.map(async picture => {
            await picture.decode().catch(() => {});
            return [picture.naturalWidth, picture.naturalHeight];
        }))"""
    )


@pytest.fixture(scope="class")
def unrun(copies, page, requests, request):
    """The notebook that a class of tests is about, open as it is stored."""
    page.goto(f"{copies.url}/lab/tree/{request.cls.NOTEBOOK}?reset")
    page.wait_for_function("() => window.jupyterapp?.shell.currentWidget?.context?.isReady")


@pytest.fixture(scope="class")
def opened(unrun, page):
    """The same, once all of its cells have run."""
    run_all(page)
    assert not stored_errors(page)
    yield
    shut_down(page)


ran = pytest.mark.usefixtures("opened")


class Stored:
    """A notebook of which no cell has run."""

    @pytest.mark.usefixtures("unrun")
    def test_an_unrun_untrusted_copy_shows_its_pictures(self, page):
        assert not page.evaluate(
            "() => window.jupyterapp.shell.currentWidget.content.widgets.some(w => w.model.trusted)"
        )
        cell = page.locator(".jp-CodeCell").filter(has_text=self.LIVE).first
        stored = cell.locator(".jp-OutputArea-output img")
        expect(stored).to_be_visible()
        assert all(side > 300 for side in sizes(stored)[0])
        box = stored.bounding_box()
        assert min(box["width"], box["height"]) > 300
        expect(page.get_by_text("Error displaying widget")).to_have_count(0)
        assert not stored_errors(page)
        in_words = page.locator(".jp-RenderedMarkdown img")
        expect(in_words.first).to_be_attached()
        assert all(width > 600 for width, _ in sizes(in_words))


@pytest.mark.slow
class TestProportion(Stored):
    """Lesson 01."""

    NOTEBOOK, LIVE = PROPORTION, "fl.live_proportion("


@pytest.mark.slow
class TestSplay(Stored):
    """Lesson 05; its view is under the hand in test_leg_in_lab.py too, and its cells run with the notebooks."""

    NOTEBOOK, LIVE = SPLAY, "fl.live_leg("

    @ran
    def test_the_keyboard_moves_the_rake_and_the_picture_follows(self, page):
        _, picture, caption = view_of(page, RAKE)
        hand = slider(page, RAKE).first
        expect(hand).to_have_attribute("aria-valuetext", "11 degrees")
        total, sight, axis = lean_numbers(11, 8)
        assert {total, sight, axis} <= sizes_among(picture)
        hand.scroll_into_view_if_needed()
        hand.focus()
        before = place(page, picture)
        hand.press("ArrowRight")
        expect(hand).to_have_attribute("aria-valuetext", "11.5 degrees")
        total, sight, axis = lean_numbers(11.5, 8)
        expect(caption).to_contain_text(f"Front left and front right {total} on {sight}")
        assert {total, sight, axis} <= sizes_among(picture)
        assert place(page, picture) == before

    @ran
    def test_a_typed_fraction_is_taken_exactly_and_the_other_pair_follows(self, page):
        _, picture, caption = view_of(page, SPLAY_ANGLE)
        box = typed_box(page, SPLAY_ANGLE).first
        box.fill("7 1/4")
        box.press("Enter")
        total, sight, axis = lean_numbers(11.5, 7.25)
        expect(caption).to_contain_text(f"Front left and front right {total} on {sight}")
        assert {total, sight, axis} <= sizes_among(picture)
        expect(slider(page, SPLAY_ANGLE).first).to_have_attribute("aria-valuetext", "7.25 degrees")
        followed = float(typed_box(page, "Total lean").first.input_value())
        assert followed == pytest.approx(float(total.rstrip("°")), abs=0.005)

    @ran
    def test_the_values_are_kept_in_the_file_and_its_notes_stay(self, copies, page):
        view, _, caption = view_of(page, RAKE)
        file = copies.root / "notebooks" / "designs" / "practice_stool.yaml"
        before = file.read_text("utf-8")
        view.get_by_role("button", name="Keep these values").click()
        expect(caption).to_contain_text("Kept in")
        after = file.read_text("utf-8")
        assert after == before.replace("{rake: 11, splay: 8}", "{rake: 11.5, splay: 7.25}")

    @ran
    def test_the_other_pair_leads_when_it_is_moved(self, page):
        """A total lean of 20 on the sight line that stands there: rake and splay by hand."""
        _, _, caption = view_of(page, RAKE)
        sight = math.radians(float(typed_box(page, "Sight line, from the front-back line").first.input_value()))
        box = typed_box(page, "Total lean").first
        box.fill("20")
        box.press("Enter")
        expect(caption).to_contain_text("Front left and front right 20° on")
        run = math.tan(math.radians(20))
        for name, share in ((RAKE, math.cos(sight)), (SPLAY_ANGLE, math.sin(sight))):
            wanted = math.degrees(math.atan(run * share))
            assert float(typed_box(page, name).first.input_value()) == pytest.approx(wanted, abs=1e-3)

    @ran
    def test_an_answer_with_a_usual_slip_is_named(self, page):
        run_instead(page, '"05a").check(', 'fl.exercise("05a").check("21, 36.7")')
        expect(page.get_by_text("That is the answer you get when the two angles are added.")).to_be_visible()


class TestGraduate(Stored):
    """Lesson 02."""

    NOTEBOOK, LIVE = GRADUATE, "fl.live_openings("

    def closed(self, caption):
        """The openings that the caption gives, and what it says they add up to."""
        expect(caption).to_contain_text("They close: ")
        chain = re.search(r"They close: ([\d +]+) = (\d+)", plain(caption.text_content()))
        assert chain, caption.text_content()
        return [int(h) for h in chain[1].split(" + ")], int(chain[2])

    @ran
    def test_run_after_all_it_shows_its_controls(self, page):
        expect(slider(page, "Ratio per row").first).to_be_visible()

    @ran
    def test_the_known_set_stands_there_and_follows_the_ratio(self, page):
        _, picture, caption = view_of(page, "Ratio per row")
        assert self.closed(caption) == ([90, 100, 115, 135, 160, 185, 215], 1000)
        assert {"1005", "Rounded one by one: 5 too much."} <= set(words(picture))
        hand = slider(page, "Ratio per row").first
        hand.scroll_into_view_if_needed()
        hand.focus()
        before = place(page, picture)
        for _ in range(4):
            hand.press("ArrowRight")
        expect(caption).to_contain_text("constant ratio of 1.2.")
        openings, total = self.closed(caption)
        assert total == sum(openings) == 1000
        steps = [b - a for a, b in pairwise(openings)]
        assert steps == sorted(steps)
        first = 1000 * Fraction(1, 5) / (Fraction(6, 5) ** 7 - 1)
        assert all(abs(h - first * Fraction(6, 5) ** i) <= 5 for i, h in enumerate(openings))
        assert place(page, picture) == before

    @ran
    def test_what_cannot_be_made_says_why_and_the_picture_stays(self, page):
        """Seven rows share 1000: a step of 50 leaves 1000/7 - 3 x 50 = -7.14; 1000/21 = 47.6 leaves nothing."""
        view, picture, caption = view_of(page, "Number of rows")
        view.get_by_role("combobox", name="Rule", exact=True).select_option("constant step")
        expect(caption).to_contain_text("constant step of 20.")
        openings, total = self.closed(caption)
        assert total == sum(openings) == 1000
        assert all(abs(h - (Fraction(1000, 7) + 20 * (i - 3))) <= 5 for i, h in enumerate(openings))
        box = typed_box(page, "Step per row").first
        box.scroll_into_view_if_needed()
        box.focus()
        before, drawn = place(page, picture), picture.inner_html()
        box.fill("50")
        box.press("Enter")
        expect(caption).to_contain_text("Not drawn: ")
        expect(caption).to_contain_text("-7.14")
        expect(caption).to_contain_text("47.6")
        assert "They close" not in caption.text_content()
        assert picture.inner_html() == drawn
        assert place(page, picture) == before
        box.fill("20")
        box.press("Enter")
        expect(caption).to_contain_text("They close: ")

    @ran
    def test_an_inch_chest_takes_a_typed_fraction(self, page):
        """37 5/8 less seven clearances of 1/8 is 36 3/4, 42 pitches of 7/8; row by row 3 to 9 of them lie nearest."""
        run_instead(page, "own =", 'own = fl.live_openings("designs/landing_chest_inch.yaml")\nown')
        view = page.locator(".jp-OutputArea-output").filter(has=page.get_by_role("slider")).last
        picture, caption = view.locator("svg.furn"), view.get_by_role("status").last
        expect(caption).to_contain_text("inch shop")
        box = typed_box(view, "Jig's pitch")
        box.fill("7/8")
        box.press("Enter")
        openings = [inches(Fraction(7, 8) * pitches + Fraction(1, 8)) for pitches in range(3, 10)]
        expect(slider(view, "Jig's pitch")).to_have_attribute("aria-valuetext", "7/8 in")
        expect(picture.locator("text", has_text="k = 3").first).to_be_visible()
        assert openings[0] == "2 3/4"
        assert plain(caption.text_content()).endswith(f"They close: {' + '.join(openings)} = 37 5/8.")
        assert {f"{opening} k = {k}" for k, opening in enumerate(openings[1:], 4)} <= {
            " ".join(plain(text).split()) for text in words(picture)
        }

    @ran
    def test_a_slip_under_the_hand_and_a_member_that_comes_too_late(self, page):
        """Two too much in a divider: the legs are cut to 149; of the legs themselves nothing comes after."""
        view, picture, caption = view_of(page, "Too large by")
        expect(caption).to_contain_text("Divider 3 is 1 too large")
        hand = slider(view, "Too large by")
        hand.scroll_into_view_if_needed()
        hand.focus()
        before = place(page, picture)
        for _ in range(2):
            hand.press("ArrowRight")
        expect(caption).to_contain_text("Divider 3 is 2 too large")
        expect(caption).to_contain_text("The last that can take it up: legs, 151 becomes 149.")
        assert "last chance" in words(picture)
        view.get_by_role("combobox", name="What slips").select_option("legs")
        expect(caption).to_contain_text("Nothing later can take it up")
        assert place(page, picture) == before

    @ran
    def test_the_rule_is_chosen_by_name_and_its_control_comes_forward(self, page):
        view, _, caption = view_of(page, "Number of rows")
        view.get_by_role("combobox", name="Rule", exact=True).select_option("equal")
        expect(caption).to_contain_text("equal openings.")
        expect(view.get_by_role("slider", name="Ratio per row", exact=True)).to_be_hidden()

    @ran
    def test_an_answer_with_a_usual_slip_is_named(self, page):
        run_instead(page, '"02e").check(', 'fl.exercise("02e").check("4 4 5 6 7 -4")')
        expect(page.get_by_text("to the nearest whole pitch by itself")).to_be_visible()


def test_nothing_was_asked_for_outside_this_machine_and_no_error_was_written(requests):
    asked, errors = requests
    hosts = {urlparse(url).hostname for url in asked if urlparse(url).scheme in {"http", "https", "ws", "wss"}}
    assert hosts == {"127.0.0.1"}
    assert not errors
