"""The packet for the bench: its sheets, and the same to the byte; the page is tried in test_packet_page.py."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from functools import cache
from xml.etree import ElementTree

import matplotlib
import pypdf
import pytest
from folders import contents, names_in
from leg_shapes import low_case, on_square_legs
from pictures import BARE, ROOT, first_of
from pictures import DESIGNS as DEMOS

from furnlib.draw.file_outlet import png
from furnlib.draw.plates import openings_plate
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.record.packet import write_packet
from furnlib.record.stamp import stamp_line

DESIGNS = {"mm": DEMOS / "landing_chest.yaml", "in": DEMOS / "landing_chest_inch.yaml"}
SQUARE = "in, square legs"
PAPERS_MM = {"A4": (210.0, 297.0), "letter": (8.5 * 25.4, 11 * 25.4)}  # ISO 216; letter is 8 1/2 x 11 in
FILES = ["index.html", "plates.pdf", "sizes.csv", "chains.csv", "piece.json", "piece.glb"]
CUT = ["cutter/half-pattern-1.dxf", "cutter/half-pattern-2.dxf"]
OPENINGS = ["openings", *(f"openings-stick-{n}" for n in range(1, 7)), "five-rules"]  # cases over 1000 and below 1200
DRAWERS = [
    *("fronts-1", "fronts-2"),  # the bank, and the board of row 1's two fronts
    *(f"drilling-pattern-{n}" for n in range(1, 14)),
    *(f"drawer-{n}" for n in range(1, 8)),  # no two rows are alike
    *(f"dovetail-strip-{n}" for n in range(1, 4)),
    *("case-section", "season-band", "drilling-strip-1", "drilling-strip-2"),
]
STICKS = {"mm": 2, "in": 3}
SAWN = ["saw-card", *(f"strip-{n}" for n in range(1, 5)), "fixing-1", "fixing-2", "triangle-card"]
"""Blanks of 197.7 and 191.9 mm fit on a sheet each, and one of 8.07 in (205 mm); one of 8.3 in (211 mm) does not."""


def plates_in(chest):
    """The plates of a chest by their files: its legs are turned to two lengths, or square and under no drawers."""
    cards = {"blank": 2, "leg-profile": 2, "story-stick": STICKS.get(chest), "half-pattern": 2, "sequence-card": 2}
    turned = [f"{card}-{n}" for card, sheets in cards.items() if chest in STICKS for n in range(1, 1 + sheets)]
    drawers = DRAWERS if chest in STICKS else []
    names = ["overall", "proportion", "outlines", "in-the-round", *OPENINGS, *drawers, "legs", *turned, *SAWN]
    return [f"{i}-{name}.svg" for i, name in enumerate(names, 1)]


@cache
def piece_in(chest):
    """A demo chest as it is, or its case on square legs."""
    text = DesignText.read(BARE / DESIGNS["in"].name if chest == SQUARE else DESIGNS[chest])
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


IN_INCHES = [pytest.param(chest, marks=pytest.mark.slow) for chest in ("in", SQUARE)]


@pytest.fixture(scope="module")
def chest_packet(tmp_path_factory):
    """A first packet of the chest as it stands in the demo."""
    return write_packet(piece_in("mm"), tmp_path_factory.mktemp("chest") / "packet")


@pytest.fixture(scope="module", params=["mm", *IN_INCHES])
def written(request, tmp_path_factory):
    """Name of a chest and folder of its packet, written by the library."""
    if request.param == "mm":
        return "mm", request.getfixturevalue("chest_packet").folder
    return request.param, write_packet(piece_in(request.param), tmp_path_factory.mktemp("here") / "packet").folder


@pytest.fixture(scope="module")
def pages(written):
    """The sheets of a packet's PDF, and what is said on each."""
    sheets = pypdf.PdfReader(written[1] / "plates.pdf").pages
    return [(page, page.extract_text()) for page in sheets]


@pytest.fixture(scope="module")
def text():
    return DesignText.read(BARE / DESIGNS["mm"].name)


# of two rows without legs, which take few sheets; every sheet of the inch chest is compared in test_drawing_files.py
@pytest.mark.parametrize("chest", first_of(("low", "mm", "in"), "low"))
def test_the_command_line_writes_the_same_bytes_as_the_library(chest, tmp_path):
    """A packet, twice, by two processes that have as little in common as may be."""
    strange = {"PYTHONHASHSEED": "2", "TZ": "Asia/Tokyo", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "86400"}
    design = DESIGNS.get(chest, tmp_path / "low.yaml")
    if chest == "low":
        design.write_text(low_case(DESIGNS["mm"].read_text("utf-8")), "utf-8")
    here = write_packet(read_piece(design), tmp_path / "here").folder
    (tmp_path / "there").mkdir()
    there = fresh_packet(design, tmp_path / "there" / "other name", **strange)
    assert contents(there) == contents(here)
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


@pytest.mark.parametrize("words", ["off-cut must be free", "Push stick", "clamp it"])
def test_the_saw_card_says_what_to_mind_at_the_saw(written, pages, words):
    number = next(i for i, name in enumerate(plates_in(written[0]), 1) if "saw-card" in name)
    page = page_text((written[1] / "index.html").read_text("utf-8"))
    assert words in page.partition(f"Plate {number}: Saw card")[2]
    assert words in pages[number - 1][1]


def everything_said(folder, pages):
    """All words of a packet: page, tables, PDF and SVG."""
    said = [page_text((folder / "index.html").read_text("utf-8"))]
    said += [(folder / name).read_text("utf-8") for name in ("sizes.csv", "chains.csv", "piece.json")]
    said += [words for _, words in pages]
    for plate in sorted(path.name for path in (folder / "plates").iterdir()):
        said.append(" ".join(ElementTree.parse(folder / "plates" / plate).getroot().itertext()))
    return " ".join(said)


def test_no_load_and_no_compliance_is_claimed(written, pages):
    claim = (
        r"\b(rated?|ratings?|certif\w+|safe (?:working )?loads?|load (?:limit|capacity)|approved|tested"
        r"|compl(?:y|ies|iant|iance))\b"
    )
    disclaimer = "Nothing in these sheets is a test, a rating or a certificate."
    said = everything_said(written[1], pages)
    assert disclaimer in said
    assert re.findall(claim, re.sub(r"\bno\s+rating\b", "", said.replace(disclaimer, "")), re.IGNORECASE) == []


def test_the_plates_are_pages_of_the_right_paper(written, pages):
    chest, _ = written
    assert len(pages) == len(plates_in(chest))
    width, height = PAPERS_MM["A4" if chest == "mm" else "letter"]
    for number, (sheet, said) in enumerate(pages, 1):
        assert float(sheet.mediabox.width) / 72 * 25.4 == pytest.approx(width, abs=0.01)
        assert float(sheet.mediabox.height) / 72 * 25.4 == pytest.approx(height, abs=0.01)
        assert f"Plate {number} of {len(plates_in(chest))}" in said
        assert "Measure me before use" in said


def test_no_clock_stands_in_the_pdf(written):
    about = pypdf.PdfReader(written[1] / "plates.pdf").metadata
    assert not {"/CreationDate", "/ModDate"} & set(about)


def test_every_sheet_carries_its_stamp(written, pages):
    design = piece_in(written[0]).design
    for _, words in pages:
        said = " ".join(words.split())
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
