"""The dimension control in a real JupyterLab, found and driven as a keyboard user would."""

from fractions import Fraction

import nbformat
import pytest
from lab import notebook_state, open_notebook, shut_down, slider, take_picture, typed_box, use_theme

expect = pytest.importorskip("playwright.sync_api").expect

NAME = "Drawer front"
TALL = "HTML('<div style=\"height: 700px\">tall</div>')"  # so that the page has somewhere to jump
CELLS = (
    """
from time import sleep
from ipywidgets import HTML, VBox
from furnlib.live.control import length_control
""",
    TALL,
    f"""
front = length_control("{NAME}", "5 11/16", 3, 9, "1/16", "in")
echo = HTML(f"value {{front.value}}")
def draw(change):
    sleep(0.3 if change["new"] > 8 else 0)  # a picture that is slow to draw
    echo.value = f"value {{change['new']}}"
front.observe(draw, "value")
VBox([front, echo, front])
""",
    TALL,
)


@pytest.fixture(scope="module", autouse=True)
def notebook(lab, page):
    """Open a scratch notebook: one control shown twice, and an echo of its exact value."""
    cells = [nbformat.v4.new_code_cell(source.strip()) for source in CELLS]
    # Without a kernel named in it JupyterLab would stop to ask for one.
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3"}}
    nbformat.write(nbformat.v4.new_notebook(cells=cells, metadata=kernel), lab.root / "control.ipynb")
    open_notebook(page, lab, "control.ipynb")
    yield
    shut_down(page)


class Hand:
    """What a maker touches and sees of the control."""

    def __init__(self, page):
        self.page = page
        self.range, self.box = slider(page, NAME).first, typed_box(page, NAME).first
        self.message = page.get_by_role("group", name=NAME).first.get_by_role("status")

    def type(self, text):
        """Type into the box as it stands, and press Enter."""
        self.box.fill(text)
        self.box.press("Enter")

    def sees(self, value, shown, message=""):
        """Expect the value Python holds, what the box shows, and the message."""
        expect(self.page.get_by_text("value ", exact=False).last).to_have_text(f"value {value}")
        expect(self.box).to_have_value(shown)
        expect(self.message).to_have_text(message)


@pytest.fixture
def hand(page):
    """The control set to 5 11/16 in."""
    hand = Hand(page)
    hand.type("5 11/16")
    hand.sees(Fraction(91, 16), "5 11/16")
    return hand


def test_it_is_named_and_speaks_its_size(hand):
    expect(hand.range).to_have_attribute("aria-valuetext", "5 11/16 in")
    expect(hand.box).to_have_attribute("aria-invalid", "false")
    assert hand.range.bounding_box()["height"] >= 44


def test_arrow_keys_go_to_the_next_grid_value(hand):
    hand.range.press("ArrowRight")
    expect(hand.range).to_have_attribute("aria-valuetext", "5 3/4 in")
    hand.sees(Fraction(23, 4), "5 3/4")
    hand.box.press("ArrowDown")
    hand.sees(Fraction(91, 16), "5 11/16")
    hand.range.press("Home")
    hand.sees(3, "3")
    hand.range.press("PageUp")  # a tenth of the 97 positions: 9/16
    hand.sees(Fraction(57, 16), "3 9/16")
    hand.range.press("End")
    hand.sees(9, "9")


def test_no_key_reaches_the_notebook_and_nothing_moves(page, hand):
    hand.range.focus()
    before = notebook_state(page)
    for key in (
        "ArrowUp",
        "ArrowDown",
        "PageUp",
        "PageDown",
        "a",
        "b",
        "d",
        "d",
        "x",
        "m",
        "Enter",
        "Escape",
    ):
        page.keyboard.press(key)
    assert notebook_state(page) == before
    hand.box.focus()
    before = notebook_state(page)
    page.keyboard.type("abdd")
    for key in ("ArrowUp", "ArrowDown", "PageUp", "PageDown", "Escape", "Enter"):
        page.keyboard.press(key)
    expect(hand.box).to_be_focused()
    assert notebook_state(page) == before
    assert before["scroll"] > 0  # it could have moved


def test_typed_on_the_grid(hand):
    hand.type("5 5/8")
    hand.sees(Fraction(45, 8), "5 5/8")
    expect(hand.range).to_have_attribute("aria-valuetext", "5 5/8 in")
    hand.type("5.75")
    hand.sees(Fraction(23, 4), "5 3/4")
    hand.type("5.75")
    hand.sees(Fraction(23, 4), "5 3/4")


def test_typed_off_the_grid_is_kept_and_said(hand):
    said = "5 1/3 is off the 1/16 in grid; nearest 5 5/16."
    hand.type("5 1/3")
    hand.sees(Fraction(16, 3), "5 1/3", said)
    expect(hand.range).to_have_attribute("aria-valuetext", "5 1/3 in")
    hand.range.press("ArrowLeft")
    hand.sees(Fraction(85, 16), "5 5/16")
    hand.type("5 1/3")
    hand.range.press("ArrowRight")  # at once, from the text that Python may be reading still
    hand.sees(Fraction(43, 8), "5 3/8")


def test_rubbish_is_kept_in_the_box_and_the_value_stays(page, hand):
    before = notebook_state(page)
    hand.type("about six")
    expect(hand.message).to_contain_text("'about six' cannot be read as a length;")
    hand.sees(Fraction(91, 16), "about six", hand.message.inner_text())
    expect(hand.box).to_have_attribute("aria-invalid", "true")
    expect(hand.range).to_have_attribute("aria-valuetext", "5 11/16 in")
    assert hand.message.evaluate("line => line.scrollHeight <= line.clientHeight")  # it can be read whole
    assert notebook_state(page) == before
    hand.range.press("ArrowRight")
    hand.sees(Fraction(23, 4), "5 3/4")
    expect(hand.box).to_have_attribute("aria-invalid", "false")


def test_leaving_the_box_reads_it_too(page, hand):
    hand.box.fill("4 in")
    page.keyboard.press("Shift+Tab")
    expect(hand.range).to_be_focused()
    hand.sees(4, "4")


def test_the_last_of_many_fast_moves_stands(page, hand):
    hand.range.focus()
    for _ in range(20):
        page.keyboard.press("ArrowRight")
    hand.sees(Fraction(91 + 20, 16), "6 15/16")
    expect(slider(page, NAME).nth(1)).to_have_attribute("aria-valuetext", "6 15/16 in")


def test_the_last_wish_stands_also_while_a_slow_picture_is_drawn(page, hand):
    hand.type("8 1/2")
    for _ in range(3):
        hand.range.press("ArrowRight")  # 8 11/16, though 8 1/2 is still being read and drawn
    hand.sees(Fraction(139, 16), "8 11/16")
    hand.range.press("ArrowLeft")
    hand.range.press("End")
    hand.type("8 1/5")
    hand.box.press("ArrowDown")  # 8 1/5 lies between 8 3/16 and 8 1/4
    hand.sees(Fraction(131, 16), "8 3/16")
    expect(hand.range).to_have_attribute("aria-valuetext", "8 3/16 in")


def test_dragged_with_the_mouse(page, hand):
    before = notebook_state(page)
    bar = hand.range.bounding_box()
    middle = bar["y"] + bar["height"] / 2
    page.mouse.move(bar["x"] + bar["width"] * 43 / 96, middle)
    page.mouse.down()
    page.mouse.move(bar["x"] + bar["width"] / 2, middle, steps=20)
    page.mouse.move(bar["x"] + bar["width"] + 50, middle, steps=20)
    page.mouse.up()
    hand.sees(9, "9")
    after = notebook_state(page)
    assert (after["scroll"], after["height"]) == (before["scroll"], before["height"])


def luminance(colour):
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [part / 255 for part in colour]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return sum(share * part for share, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


@pytest.mark.parametrize("theme", ["JupyterLab Dark", "JupyterLab Light"])
def test_it_stands_out_in_both_themes(lab, page, hand, theme):
    use_theme(page, theme)
    hand.type("about six")
    hand.range.focus()
    assert take_picture(page, lab, f"control, {theme}").stat().st_size > 0
    colours = hand.box.evaluate(
        """box => { // as painted: each colour laid over the paper
            const style = getComputedStyle(box), pen = new OffscreenCanvas(1, 1).getContext('2d');
            const painted = name => {
                for (const colour of ['--paper', name]) {
                    pen.fillStyle = style.getPropertyValue(colour);
                    pen.fillRect(0, 0, 1, 1);
                }
                return [...pen.getImageData(0, 0, 1, 1).data].slice(0, 3);
            };
            const names = ['paper', 'ink', 'line', 'mark', 'bad'];
            return Object.fromEntries(names.map(name => [name, painted('--' + name)]));
        }"""
    )

    def contrast(name):
        dark, light = sorted((luminance(colours[name]), luminance(colours["paper"])))
        return (light + 0.05) / (dark + 0.05)

    assert contrast("ink") >= 7  # WCAG 1.4.6, text
    for part in ("line", "mark", "bad"):
        assert contrast(part) >= 3, (part, colours)  # WCAG 1.4.11, parts of a control
