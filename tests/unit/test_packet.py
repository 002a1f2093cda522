"""The packet for the bench: what stands in it, and the same to the byte.

The numbers on the bench card are worked by hand beside the test: sums of the design files' sizes,
and for a leg of rake r and splay s plain trigonometry: tan² R = tan² r + tan² s, axis = h / cos R,
sin tilt = tan s cos R with the side face down.

Turned legs take most of a packet's plates: what looks at no leg, or at the saw alone, looks at the
inch chest on square ones, or at a case without legs.
"""

from __future__ import annotations

import json
import math
import os
import re
import subprocess
import sys
from fractions import Fraction
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import matplotlib
import pypdf
import pytest
from folders import contents, names_in
from leg_shapes import on_square_legs

from furnlib.draw.file_outlet import png
from furnlib.draw.plates import openings_plate
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.record.packet import write_packet
from furnlib.record.stamp import stamp_line

ROOT = Path(__file__).parents[2]
DESIGNS = {
    "mm": ROOT / "notebooks" / "designs" / "landing_chest.yaml",
    "in": ROOT / "notebooks" / "designs" / "landing_chest_inch.yaml",
}
WITHOUT = ROOT / "notebooks" / "designs" / "seven_openings.yaml"
SQUARE = "in, square legs"
PAPERS_MM = {"A4": (210.0, 297.0), "letter": (8.5 * 25.4, 11 * 25.4)}  # ISO 216; letter is 8 1/2 x 11 in
FILES = ["index.html", "plates.pdf", "sizes.csv", "chains.csv", "piece.json", "piece.glb"]
CUT = ["cutter/half-pattern-1.dxf", "cutter/half-pattern-2.dxf"]
OPENINGS = ["openings", *(f"openings-stick-{n}" for n in range(1, 7)), "five-rules"]  # cases over 1000 and below 1200
WITHOUT_LEGS = tuple(f"{n}-{name}" for n, name in enumerate(["overall", "proportion", "in-the-round", *OPENINGS], 1))
STICKS = {"mm": 2, "in": 4}
SAWN = ["saw-card", *(f"strip-{n}" for n in range(1, 5)), "fixing-1", "fixing-2", "triangle-card"]
"""Blanks of 197.7 and 191.9 mm fit on a sheet each; those of 8.3 and 8.07 in (211 and 205 mm) and their ends do not."""


def plates_in(chest):
    """The plates of a chest by their files: front and rear legs are turned to two lengths."""
    cards = {"blank": 2, "leg-profile": 2, "story-stick": STICKS.get(chest), "half-pattern": 2, "sequence-card": 2}
    turned = [f"{card}-{n}" for card, sheets in cards.items() if chest in STICKS for n in range(1, 1 + sheets)]
    names = ["overall", "proportion", "outlines", "in-the-round", *OPENINGS, "legs", *turned, *SAWN]
    return [f"{i}-{name}.svg" for i, name in enumerate(names, 1)]


@cache
def piece_in(chest):
    """A demo chest as it is, or on square legs."""
    text = DesignText.read(DESIGNS[chest[:2]])
    return piece_of(DesignText.parse(on_square_legs(text.text), text.name) if chest == SQUARE else text)


def fresh_packet(design, folder, **environment):
    """Write a packet from the command line, in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "furnlib", "packet", design, "--to", folder],
        cwd=folder.parent, env={**os.environ, "PYTHONPATH": str(ROOT), **environment}, check=False,
        capture_output=True, text=True,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return folder


def page_text(markup):
    """What is read on a page, without its styles, tags as gaps."""
    bare = re.sub(r"<(style|title)\b.*?</\1>", " ", markup, flags=re.DOTALL)
    text = re.sub(r"<[^>]*>", " ", bare).replace("&#39;", "'").replace("&amp;", "&")
    return re.sub(r"\s+", " ", text)


def changed(text, old, new):
    """The piece of a design with some words of its file replaced."""
    assert text.text.count(old) == 1, old
    return piece_of(DesignText.parse(text.text.replace(old, new), text.name))


@pytest.fixture(scope="module", params=["mm", pytest.param("in", marks=pytest.mark.slow), SQUARE])
def written(request, tmp_path_factory):
    """Name of a chest and folder of its packet, written by the library."""
    if request.param == "mm":
        return "mm", request.getfixturevalue("chest_packet").folder
    return request.param, write_packet(piece_in(request.param), tmp_path_factory.mktemp("here") / "packet").folder


@pytest.fixture(scope="module")
def page(written):
    """Unit and text of a packet's page."""
    return written[0], (written[1] / "index.html").read_text("utf-8")


@pytest.fixture(scope="module")
def text():
    return DesignText.read(DESIGNS["mm"])


def test_the_files_are_those_that_are_listed(written):
    cut = CUT if written[0] in STICKS else []
    here = sorted([*FILES, *cut, *(f"plates/{name}" for name in plates_in(written[0]))])
    assert sorted(contents(written[1])) == here
    assert sorted(json.loads((written[1] / "piece.json").read_text("utf-8"))["files"]) == here
    assert names_in(written[1].parent) == [written[1].name]


@pytest.mark.parametrize("written", ["mm", pytest.param("in", marks=pytest.mark.slow)], indirect=True)
def test_the_command_line_writes_the_same_bytes_as_the_library(written, tmp_path):
    """The packet of a demo piece, twice, by two processes that have as little in common as may be."""
    strange = {"PYTHONHASHSEED": "2", "TZ": "Asia/Tokyo", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "86400"}
    (tmp_path / "there").mkdir()
    there = fresh_packet(DESIGNS[written[0]], tmp_path / "there" / "other name", **strange)
    assert contents(there) == contents(written[1])
    assert names_in(there.parent) == [there.name]


def test_a_first_packet_says_what_it_wrote(chest_packet):
    assert sorted(chest_packet.files) == sorted(contents(chest_packet.folder))
    assert (chest_packet.first, chest_packet.changes) == (True, ())


@pytest.mark.parametrize(
    "setting",
    [
        ("savefig.bbox", "tight"),
        ("lines.scale_dashes", False),
        ("path.sketch", (3, 100, 2)),
        ("figure.facecolor", "red"),
    ],
    ids=lambda setting: setting[0],
)
def test_the_makers_own_matplotlib_settings_change_nothing(setting):
    """A figure that the notebook before this one styled must not move a plate by a hair."""
    name, value = setting
    plate = openings_plate(piece_in("mm"))
    plain = png(plate)
    with matplotlib.rc_context({name: value}):
        assert png(plate) == plain


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


def test_the_page_needs_nothing_from_outside(written, page):
    read = Page(page[1])
    fetched = {"script", "link", "iframe", "object", "embed", "img", "base", "form"}
    assert fetched & {tag for tag, _ in read.tags} == set()
    targets = {f"#{name}" for name in read.ids} | set(contents(written[1]))
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


@pytest.mark.parametrize("words", ["off-cut must be free", "Push stick", "clamp it"])
def test_the_saw_card_says_what_to_mind_at_the_saw(written, page, words):
    number = next(i for i, name in enumerate(plates_in(page[0]), 1) if "saw-card" in name)
    assert words in page_text(page[1]).partition(f"Plate {number}: Saw card")[2]
    sheet = pypdf.PdfReader(written[1] / "plates.pdf").pages[number - 1].extract_text()
    assert words in sheet


def everything_said(folder):
    """All words of a packet: page, tables, PDF and SVG."""
    said = [page_text((folder / "index.html").read_text("utf-8"))]
    said += [(folder / name).read_text("utf-8") for name in ("sizes.csv", "chains.csv", "piece.json")]
    said += [page.extract_text() for page in pypdf.PdfReader(folder / "plates.pdf").pages]
    for plate in sorted(path.name for path in (folder / "plates").iterdir()):
        said.append(" ".join(ElementTree.parse(folder / "plates" / plate).getroot().itertext()))
    return " ".join(said)


def test_no_load_and_no_compliance_is_claimed(written):
    claim = (
        r"\b(rated?|ratings?|certif\w+|safe (?:working )?loads?|load (?:limit|capacity)|approved|tested"
        r"|compl(?:y|ies|iant|iance))\b"
    )
    disclaimer = "Nothing in these sheets is a test, a rating or a certificate."
    said = everything_said(written[1])
    assert disclaimer in said
    assert re.findall(claim, re.sub(r"\bno\s+rating\b", "", said.replace(disclaimer, "")), re.IGNORECASE) == []


def test_the_plates_are_pages_of_the_right_paper(written):
    chest, folder = written
    reader = pypdf.PdfReader(folder / "plates.pdf")
    assert len(reader.pages) == len(plates_in(chest))
    width, height = PAPERS_MM["A4" if chest == "mm" else "letter"]
    for number, sheet in enumerate(reader.pages, 1):
        assert float(sheet.mediabox.width) / 72 * 25.4 == pytest.approx(width, abs=0.01)
        assert float(sheet.mediabox.height) / 72 * 25.4 == pytest.approx(height, abs=0.01)
        said = sheet.extract_text()
        assert f"Plate {number} of {len(plates_in(chest))}" in said
        assert "Measure me before use" in said


def test_no_clock_stands_in_the_pdf(written):
    about = pypdf.PdfReader(written[1] / "plates.pdf").metadata
    assert not {"/CreationDate", "/ModDate"} & set(about)


def test_every_sheet_carries_its_stamp(written):
    design = piece_in(written[0]).design
    for sheet in pypdf.PdfReader(written[1] / "plates.pdf").pages:
        said = " ".join(sheet.extract_text().split())
        assert f"{design.piece}, revision A | inputs {design.digest} | {design.unit}" in said


def test_the_stamp_follows_the_inputs_and_nothing_else(text):
    """Another comment is the same design; another size, revision or name is another one."""
    same = piece_of(DesignText.parse("# written again\n" + text.text))
    keys = ("lean.total_lean", "lean.axis_length")
    line = stamp_line(piece_of(text), keys)
    assert line == stamp_line(same, keys)
    assert line.endswith("lean.total_lean, lean.axis_length")
    swaps = (("width: 520", "width: 521"), ("revision: A", "revision: B"), ("side: 20 ", "side: 20.001 "))
    digests = {piece.design.digest for piece in (piece_of(text), *(changed(text, *swap) for swap in swaps))}
    assert len(digests) == 4
    assert stamp_line(same, ()).endswith(" | mm | sums only")


def test_the_svg_plates_can_be_read_and_have_the_size_of_the_paper(written):
    chest, folder = written
    for name in plates_in(chest):
        markup = (folder / "plates" / name).read_text("utf-8")
        root = ElementTree.fromstring(markup)
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        for side, wanted in zip(("width", "height"), PAPERS_MM["A4" if chest == "mm" else "letter"], strict=True):
            assert float(root.get(side).removesuffix("pt")) / 72 * 25.4 == pytest.approx(wanted, abs=0.01)
        tags = {element.tag.rpartition("}")[2] for element in root.iter()}
        assert not {"script", "image", "foreignObject"} & tags
        links = [value for e in root.iter() for key, value in e.attrib.items() if key.endswith("href")]
        assert [link for link in links if not link.startswith("#")] == []


def test_a_strange_name_stays_a_name(tmp_path):
    name = 'Tom & \\"Jerry\\"\'s <script>alert(1)</script> </svg> £½'
    piece = changed(DesignText.read(WITHOUT), "piece: Seven openings", f'piece: "{name}"')
    wrote = write_packet(piece, tmp_path / "packet")
    markup = (tmp_path / "packet" / "index.html").read_text("utf-8")
    assert Page(markup).faults == []
    assert "<script" not in markup
    assert piece.design.piece in json.loads((tmp_path / "packet" / "piece.json").read_text("utf-8"))["piece"]
    for plate in WITHOUT_LEGS:
        said = " ".join(ElementTree.parse(wrote.folder / "plates" / f"{plate}.svg").getroot().itertext())
        assert piece.design.piece in said


def test_a_case_without_legs_and_brief_has_no_plates_of_them_and_no_saw(text, tmp_path):
    case = re.sub(r"\nbrief:.*\n(  .*\n)+", "\n", text.text.partition("\nlegs:")[0].replace("1300 ", "1149 "))
    wrote = write_packet(piece_of(DesignText.parse(case)), tmp_path / "packet")
    assert sorted(contents(wrote.folder)) == sorted([*FILES, *(f"plates/{name}.svg" for name in WITHOUT_LEGS)])
    assert len(pypdf.PdfReader(wrote.folder / "plates.pdf").pages) == len(WITHOUT_LEGS)
    said = page_text((wrote.folder / "index.html").read_text("utf-8"))
    assert "sound part of the wall" in said
    assert "at the saw" not in said.lower()


def test_the_paper_is_the_one_asked_for(tmp_path):
    wrote = write_packet(read_piece(WITHOUT), tmp_path / "packet", paper="letter")
    sheets = pypdf.PdfReader(wrote.folder / "plates.pdf").pages
    assert len(sheets) == len(WITHOUT_LEGS)
    for sheet in sheets:
        size = (float(sheet.mediabox.width) / 72 * 25.4, float(sheet.mediabox.height) / 72 * 25.4)
        assert size == pytest.approx(PAPERS_MM["letter"], abs=0.01)
