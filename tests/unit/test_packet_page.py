"""The page of a packet: whole, spoken, by itself; the bench card; a low case with a strange name.

The numbers on the bench card are worked by hand beside the test: sums of the design files' sizes,
and for a leg of rake r and splay s plain trigonometry: tan² R = tan² r + tan² s, axis = h / cos R,
sin tilt = tan s cos R with the side face down.

Turned legs take most of a packet's plates: what looks at no leg, or at the saw alone, looks at the
inch chest on square ones, or at a low case without legs.
"""

from __future__ import annotations

import json
import math
import re
from fractions import Fraction
from html.parser import HTMLParser
from xml.etree import ElementTree

import pypdf
import pytest
from folders import contents, names_in, packet_without_sheets
from test_packet import CUT, DESIGNS, FILES, PAPERS_MM, ROOT, SQUARE, STICKS, page_text, piece_in, plates_in

from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of
from furnlib.record.packet import write_packet

SEVEN = ROOT / "notebooks" / "designs" / "seven_openings.yaml"
STRANGE = 'Tom & \\"Jerry\\"\'s <script>alert(1)</script> </svg> £½'


def plates_without_legs(*sticks):
    """The plates of a case by their files, on so many sheets of its openings stick."""
    names = ["overall", "proportion", "in-the-round", "openings", *sticks, "five-rules"]
    return [f"{n}-{name}" for n, name in enumerate(names, 1)]


def changed(text, *changes):
    """The text of a design with some of its words replaced."""
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


@pytest.fixture(scope="module", params=["mm", pytest.param("in", marks=pytest.mark.slow), SQUARE])
def told(request, tmp_path_factory):
    """Name of a chest and folder of its packet; a word stands in place of each sheet."""
    if request.param == "mm":
        return "mm", request.getfixturevalue("chest_told").folder
    return request.param, packet_without_sheets(piece_in(request.param), tmp_path_factory.mktemp("told")).folder


@pytest.fixture(scope="module")
def page(told):
    """Unit and text of a packet's page."""
    return told[0], (told[1] / "index.html").read_text("utf-8")


def test_the_files_are_those_that_are_listed(told):
    cut = [*CUT, "parts.csv"] if told[0] in STICKS else []  # a case on square legs has no drawers
    here = sorted([*FILES, *cut, *(f"plates/{name}" for name in plates_in(told[0]))])
    assert sorted(contents(told[1])) == here
    assert sorted(json.loads((told[1] / "piece.json").read_text("utf-8"))["files"]) == here
    assert names_in(told[1].parent) == [told[1].name]


WITHOUT_END = {"meta", "br", "hr", "img", "link", "input"}


class Page(HTMLParser):
    """Reads a page as a browser would and notes what is amiss."""

    def __init__(self, text):
        super().__init__()
        self.open, self.faults, self.tags, self.ids, self.links = [], [], [], [], []
        self.feed(text)
        self.close()
        self.faults += [f"<{tag}> stays open" for tag in self.open]

    def note(self, tag, attributes):
        names = [name for name, _ in attributes]
        self.faults += [f"{name} twice in <{tag}>" for name in set(names) if names.count(name) > 1]
        self.faults += [f"{name} in <{tag}>" for name in names if name.startswith("on")]
        self.tags.append((tag, dict(attributes)))
        self.ids += [value for name, value in attributes if name == "id"]
        self.links += [value for name, value in attributes if name in {"href", "src", "xlink:href", "srcset", "data"}]

    def handle_starttag(self, tag, attrs):
        self.note(tag, attrs)
        if tag not in WITHOUT_END:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.note(tag, attrs)

    def handle_endtag(self, tag):
        if not self.open or self.open[-1] != tag:
            self.faults.append(f"</{tag}> closes {self.open[-1:]} at {self.getpos()}")
        else:
            self.open.pop()


def test_the_page_is_well_formed(page):
    read = Page(page[1])
    assert read.faults == []
    assert len(read.ids) == len(set(read.ids))
    assert page[1].lower().startswith("<!doctype html>")
    assert ("html", {"lang": "en"}) in read.tags
    assert ("meta", {"charset": "utf-8"}) in read.tags
    assert [tag for tag, _ in read.tags].count("h1") == 1
    assert {"title", "main", "figcaption"} <= {tag for tag, _ in read.tags}


def test_every_picture_on_the_page_is_there_and_spoken(page):
    pictures = [attributes for tag, attributes in Page(page[1]).tags if tag == "svg"]
    assert len(pictures) == len(plates_in(page[0]))
    assert all(picture["role"] == "img" and len(picture["aria-label"]) > 60 for picture in pictures)


def test_the_page_needs_nothing_from_outside(told, page):
    read = Page(page[1])
    fetched = {"script", "link", "iframe", "object", "embed", "img", "base", "form"}
    assert fetched & {tag for tag, _ in read.tags} == set()
    targets = {f"#{name}" for name in read.ids} | set(contents(told[1]))
    assert read.links
    assert set(read.links) <= targets
    assert "@import" not in page[1]
    assert "url(" not in page[1]
    # the names of notations are no addresses to fetch
    assert set(re.findall(r"\w+://[^\s\"'<)]+", page[1])) <= {"http://www.w3.org/2000/svg"}


def angle(value, digits=1):
    return f"{value:.{digits}f}°"


def tape(value, to=0.5):
    """A size on the inch tape, to the nearest thirty-second, half up; or to the one above."""
    whole, rest = divmod(Fraction(math.floor(value * 32 + to), 32), 1)
    return " ".join(str(part) for part in (whole, rest) if part)


def test_the_bench_card_says_openings_and_chain(page):
    """83 + 6 x 20 = 203; 3 1/8 + 6 x 3/4 = 7 5/8; the small ones are split: (480 - 18) / 2, (18 1/2 - 3/4) / 2."""
    card = page_text(page[1]).partition("Plate 1:")[0]
    if page[0] == "mm":
        assert [83 + 20 * row for row in range(7)] == [83, 103, 123, 143, 163, 183, 203]
        said = "83 (split in 2, 231 wide each) · 103 · 123 · 143 · 163 · 183 · 203"
        chain, whole = "83 + 103 + 123 + 143 + 163 + 183 + 203 = 1001", "1300 x 520 x 380"
    else:
        said = "3 1/8 (split in 2, 8 7/8 wide each) · 3 7/8 · 4 5/8 · 5 3/8 · 6 1/8 · 6 7/8 · 7 5/8"
        chain, whole = "3 1/8 + 3 7/8 + 4 5/8 + 5 3/8 + 6 1/8 + 6 7/8 + 7 5/8 = 37 5/8", "50 x 20 x 15"
    assert said in card
    assert chain in card
    assert whole in card


def test_the_bench_card_sets_the_saw(page):
    """A square leg's ends reach w (tan r + tan s) / 2 past its axis, each; a turned one's blank is worked elsewhere."""
    height = 151.0 if page[0] == "mm" else 6 + 3 / 8
    size = tape if page[0] != "mm" else lambda value: f"{value:.1f}"
    card = page_text(page[1]).partition("Plate 1:")[0]
    for legs, rake, splay in (("front left and front right", 8, 6), ("rear left and rear right", 0, 6)):
        tan_r, tan_s = math.tan(math.radians(rake)), math.tan(math.radians(splay))
        stretch = math.sqrt(1 + tan_r**2 + tan_s**2)
        side_down, front_down = (math.degrees(math.asin(t / stretch)) for t in (tan_s, tan_r))
        axis = height * stretch
        blank = "as turned" if page[0] in STICKS else tape(axis + (1 + 7 / 8) * (tan_r + tan_s), 1)
        row = f"{legs} {angle(rake)}, {angle(side_down)} {angle(splay)}, {angle(front_down)} {size(axis)} {blank}"
        assert row in card


def test_the_bench_card_agrees_with_the_worked_example(page):
    """From the chest worked on paper: tilt 5.94, axis 153.3 and 151.8; 6.472 in."""
    card = page_text(page[1]).partition("Plate 1:")[0]
    metric = ("8.0°, 5.9°", "153.3", "151.8")
    inch = ("8.0°, 5.9°", "6 15/32", "6 13/32")  # 6.472 = 6 + 15.1/32, 6.410 = 6 + 13.1/32
    for number in metric if page[0] == "mm" else inch:
        assert number in card


def test_every_chain_on_the_page_is_closed(page):
    chains = re.search(r"Chains, closed (.*)", page_text(page[1]))[1]
    metric = ("20 + 1001 + 108 + 20 = 1149", "1149 + 151 = 1300", "20 + 480 + 20 = 520", "231 + 18 + 231 = 480")
    inch = (
        "3/4 + 37 5/8 + 4 1/2 + 3/4 = 43 5/8",
        "43 5/8 + 6 3/8 = 50",
        "3/4 + 18 1/2 + 3/4 = 20",
        "8 7/8 + 3/4 + 8 7/8 = 18 1/2",
    )
    for chain in metric if page[0] == "mm" else inch:
        assert chain in chains


@pytest.mark.parametrize(
    "words", ["to a sound part of the wall", "one drawer open at a time", "Pull the plug", "riving knife"]
)
def test_the_card_says_what_to_mind(page, words):
    assert words in page_text(page[1]).partition("Plate 1:")[0]


# A case without legs, low: its openings stick takes few sheets


@pytest.fixture(scope="module")
def strange(tmp_path_factory):
    """A packet of two openings that share 90 mm (20 + 90 + 18 + 20 = 148), by a strange name, on letter paper."""
    text = changed(
        SEVEN.read_text("utf-8"),
        ("piece: Seven openings", f'piece: "{STRANGE}"'), ("number: 7", "number: 2"), ("height: 1148", "height: 148"),
    )  # fmt: skip
    piece = piece_of(DesignText.parse(text))
    return piece, write_packet(piece, tmp_path_factory.mktemp("strange") / "packet", paper="letter").folder


def test_a_strange_name_stays_a_name(strange):
    piece, folder = strange
    markup = (folder / "index.html").read_text("utf-8")
    assert Page(markup).faults == []
    assert "<script" not in markup
    assert piece.design.piece in json.loads((folder / "piece.json").read_text("utf-8"))["piece"]
    for plate in plates_without_legs("openings-stick"):
        said = " ".join(ElementTree.parse(folder / "plates" / f"{plate}.svg").getroot().itertext())
        assert piece.design.piece in said


def test_the_paper_is_the_one_asked_for(strange):
    sheets = pypdf.PdfReader(strange[1] / "plates.pdf").pages
    assert len(sheets) == len(plates_without_legs("openings-stick"))
    for sheet in sheets:
        size = (float(sheet.mediabox.width) / 72 * 25.4, float(sheet.mediabox.height) / 72 * 25.4)
        assert size == pytest.approx(PAPERS_MM["letter"], abs=0.01)


def test_a_case_without_legs_and_brief_has_no_plates_of_them_and_no_saw(tmp_path):
    """The two upper openings of the chest, 83 and 103: 20 + 186 + 18 + 20 = 244."""
    text = DESIGNS["mm"].read_text("utf-8").partition("\nlegs:")[0]
    case = changed(re.sub(r"\nbrief:.*\n(  .*\n)+", "\n", text), ("1300 ", "244 "), ("number: 7", "number: 2"))
    wrote = write_packet(piece_of(DesignText.parse(case)), tmp_path / "packet")
    plates = plates_without_legs("openings-stick-1", "openings-stick-2")
    assert sorted(contents(wrote.folder)) == sorted([*FILES, *(f"plates/{name}.svg" for name in plates)])
    assert len(pypdf.PdfReader(wrote.folder / "plates.pdf").pages) == len(plates)
    said = page_text((wrote.folder / "index.html").read_text("utf-8"))
    assert "sound part of the wall" in said
    assert "at the saw" not in said.lower()
