"""Lessons 02 and 05 in a real JupyterLab: found by name, moved by keyboard, typed into, looked at.

Expected numbers are worked out here by plain trigonometry and exact fractions, not by the library.
"""

import math
import re
import shutil
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from urllib.parse import urlparse

import pytest
from lab import notebook_state, open_notebook, run_all, shut_down, slider, typed_box

expect = pytest.importorskip("playwright.sync_api").expect

PROJECT = Path(__file__).resolve().parents[2]
SPLAY = "notebooks/05_splay_a_leg.ipynb"
GRADUATE = "notebooks/02_graduate_drawers.ipynb"


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
    page.on("console", lambda said: errors.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: errors.append(str(error)))
    return asked, errors


def lean_numbers(rake, splay, height=151):
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


def words(picture):
    return [text.strip() for text in picture.locator("text").all_text_contents()]


def place(page, picture):
    """What must not move while a control does: the page, the cells below, the picture itself."""
    below = page.evaluate(
        """picture => [...document.querySelectorAll('.jp-Cell')]
            .map(cell => Math.round(cell.getBoundingClientRect().top))""",
        picture.element_handle(),
    )
    box = picture.bounding_box()
    return notebook_state(page), below, [round(box[key]) for key in ("x", "y", "width", "height")]


@pytest.fixture(scope="class")
def opened(copies, page, requests, request):
    """The notebook that a class of tests is about, open and run."""
    open_notebook(page, copies, request.cls.NOTEBOOK)
    yield
    shut_down(page)


@pytest.mark.usefixtures("opened")
class TestSplay:
    """Lesson 05."""

    NOTEBOOK = SPLAY

    def test_the_keyboard_moves_the_rake_and_the_picture_follows(self, page):
        _, picture, caption = view_of(page, "Rake, front legs")
        hand = slider(page, "Rake, front legs").first
        expect(hand).to_have_attribute("aria-valuetext", "8 degrees")
        total, sight, axis = lean_numbers(8, 6)
        assert {total, sight, axis} <= set(words(picture))
        hand.scroll_into_view_if_needed()
        hand.focus()
        before = place(page, picture)
        hand.press("ArrowRight")
        expect(hand).to_have_attribute("aria-valuetext", "8.5 degrees")
        total, sight, axis = lean_numbers(8.5, 6)
        expect(caption).to_contain_text(f"Front left and front right {total} on {sight}")
        assert {total, sight, axis} <= set(words(picture))
        assert place(page, picture) == before

    def test_a_typed_fraction_is_taken_exactly(self, page):
        _, picture, caption = view_of(page, "Splay, front legs")
        box = typed_box(page, "Splay, front legs").first
        box.fill("7 1/4")
        box.press("Enter")
        rake = Fraction(17, 2)
        total, sight, axis = lean_numbers(rake, Fraction(29, 4))
        expect(caption).to_contain_text(f"Front left and front right {total} on {sight}")
        assert {total, sight, axis} <= set(words(picture))
        expect(slider(page, "Splay, front legs").first).to_have_attribute("aria-valuetext", "7.25 degrees")

    def test_the_values_are_kept_in_the_file_and_its_notes_stay(self, copies, page):
        view, _, caption = view_of(page, "Rake, front legs")
        file = copies.root / "notebooks" / "designs" / "landing_chest.yaml"
        before = file.read_text("utf-8")
        view.get_by_role("button", name="Keep these values").click()
        expect(caption).to_contain_text("Kept in")
        after = file.read_text("utf-8")
        assert after == before.replace("{rake: 8, splay: 6}", "{rake: 8.5, splay: 7.25}")

    def test_an_answer_with_a_usual_slip_is_named(self, page):
        page.evaluate(
            """() => {
                const notebook = window.jupyterapp.shell.currentWidget.content;
                const at = notebook.widgets.findIndex(w => w.model.sharedModel.source.includes('"05a").check('));
                notebook.widgets[at].model.sharedModel.setSource('fl.exercise("05a").check("21")');
                notebook.activeCellIndex = at;
                window.jupyterapp.commands.execute('notebook:run-cell');
            }"""
        )
        expect(page.get_by_text("That is the answer you get when the two angles are added.")).to_be_visible()


@pytest.mark.usefixtures("opened")
class TestGraduate:
    """Lesson 02."""

    NOTEBOOK = GRADUATE

    def closed(self, caption):
        """The openings that the caption gives, and what it says they add up to."""
        expect(caption).to_contain_text("They close: ")
        chain = re.search(r"They close: ([\d +]+) = (\d+)", caption.text_content().replace("\xa0", " "))
        assert chain, caption.text_content()
        return [int(h) for h in chain[1].split(" + ")], int(chain[2])

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
        expect(caption).to_contain_text("constant ratio of 1.2, top to bottom")
        openings, total = self.closed(caption)
        assert total == sum(openings) == 1000
        steps = [b - a for a, b in pairwise(openings)]
        assert steps == sorted(steps)
        first = 1000 * Fraction(1, 5) / (Fraction(6, 5) ** 7 - 1)
        assert all(abs(h - first * Fraction(6, 5) ** i) <= 5 for i, h in enumerate(openings))
        assert place(page, picture) == before

    def test_what_cannot_be_made_says_why_and_the_picture_stays(self, page):
        _, picture, caption = view_of(page, "Ratio per row")
        for _ in range(5):
            slider(page, "Number of rows").first.press("ArrowRight")
        expect(caption).to_contain_text("Openings of Seven openings")
        slider(page, "Ratio per row").first.press("End")
        expect(caption).to_contain_text("Not drawn: ")
        expect(caption).to_contain_text("The smallest opening would be")
        assert "1" in words(picture)  # rows are numbered: the last good picture is still there
        slider(page, "Ratio per row").first.press("Home")
        expect(caption).to_contain_text("constant ratio of 0.7, top to bottom")

    def test_the_rule_is_chosen_by_name_and_its_control_comes_forward(self, page):
        view, _, caption = view_of(page, "Number of rows")
        view.get_by_role("combobox", name="Rule").select_option("equal")
        expect(caption).to_contain_text("equal openings, top to bottom")
        expect(view.get_by_role("slider", name="Ratio per row", exact=True)).to_be_hidden()


def test_an_unrun_copy_shows_the_picture(copies, page, requests):
    page.goto(f"{copies.url}/lab/tree/{SPLAY}?reset")
    page.wait_for_function("() => window.jupyterapp?.shell.currentWidget?.context?.isReady")
    assert not page.evaluate("() => window.jupyterapp.shell.currentWidget.content.widgets.some(w => w.model.trusted)")
    stored = page.locator(".jp-OutputArea-output img").first
    expect(stored).to_be_visible()
    assert stored.evaluate("img => img.decode().then(() => [img.naturalWidth, img.naturalHeight])") > [600, 300]
    assert (
        page.locator(".jp-RenderedMarkdown img").first.evaluate("img => img.decode().then(() => img.naturalWidth)")
        > 600
    )
    expect(page.get_by_text("Error displaying widget")).to_have_count(0)
    run_all(page)  # and run, the same cell shows its controls
    expect(slider(page, "Rake, front legs").first).to_be_visible()
    shut_down(page)


def test_nothing_was_asked_for_outside_this_machine_and_no_error_was_written(requests):
    asked, errors = requests
    hosts = {urlparse(url).hostname for url in asked if urlparse(url).scheme in {"http", "https", "ws", "wss"}}
    assert hosts == {"127.0.0.1"}
    assert not [error for error in errors if "furn" in error.lower() or "widget" in error.lower()]
