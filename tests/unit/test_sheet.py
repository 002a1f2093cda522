"""Plates on paper, read back from the PDF itself: page, bars, scale, title, stamp.

Lengths are measured in the page's own drawing operators (a point is 25.4 / 72 mm), so that neither
the drawing nor the outlet is asked how long it meant a line to be.
"""

from __future__ import annotations

import io
import re
from functools import cache
from itertools import pairwise

import numpy as np
import pypdf
import pytest
from pictures import BARE, DESIGNS
from pypdf.generic import ContentStream

from furnlib.base.guards import DesignError
from furnlib.draw import plates as draw
from furnlib.draw.drawing import Drawing, Stroke, Text
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.scale import MM_UNIT
from furnlib.draw.sheet import PAPER_MM, Title, sheet
from furnlib.plan.design import design_of
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.record.stamp import stamp_line, title_of
from furnlib.trade.case.ratios import SYSTEMS

MM_POINT = 25.4 / 72
PAPERS = {"A4": (210.0, 297.0), "letter": (8.5 * 25.4, 11 * 25.4)}


# Reading a page back


DRAWN = {
    "Overall": draw.overall_plate,
    "In the round": draw.solid_plate,
    "Openings": draw.openings_plate,
    "Legs": draw.legs_plate,
    "Half pattern 1": draw.pattern_plate,
    "Saw card": draw.saw_card_plate,
    "Strip 1": draw.strip_plate,
    "Triangle card": draw.triangle_plate,
}
"""Of every kind that a frame goes round: small and large, full size, tiled, a card of words."""
PLATES = tuple(DRAWN)


class Page:
    """What a PDF page draws: its lines and its words, in mm from the lower left corner."""

    def __init__(self, page, reader):
        self.size_mm = float(page.mediabox.width) * MM_POINT, float(page.mediabox.height) * MM_POINT
        self.paths = list(self._paths(ContentStream(page.get_contents(), reader)))
        self.words = []
        page.extract_text(visitor_text=self._keep)

    def _keep(self, text, cm, tm, _font, _size):
        for line in text.splitlines():
            if line.strip():
                x, y = tm[4] * cm[0] + cm[4], tm[5] * cm[3] + cm[5]
                self.words.append((line.strip(), x * MM_POINT, y * MM_POINT))

    @staticmethod
    def _paths(stream):
        """Every painted path as corners in mm, with whether it was closed."""
        matrix, kept = np.eye(3), []
        points, drawn = [], []
        for values, operator in stream.operations:
            match operator:
                case b"q":
                    kept.append(matrix)
                case b"Q":
                    matrix = kept.pop()
                case b"cm":
                    a, b, c, d, e, f = map(float, values)
                    matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
                case b"m":
                    points = [(*map(float, values), 1.0)]
                    drawn.append((points, matrix))
                case b"l":
                    points.append((*map(float, values), 1.0))
                case b"h":
                    points.append(points[0])
                case b"S" | b"s" | b"f" | b"B" | b"b" | b"f*" | b"B*" | b"b*":
                    for path, under in drawn:
                        yield (np.array(path) @ under)[:, :2] * MM_POINT
                    drawn = []
                case b"n":
                    drawn = []

    def text(self):
        return " ".join(words for words, _, _ in self.words)

    def level_lines(self):
        """Left end, right end and height of every straight level line."""
        for path in self.paths:
            if len(path) == 2 and abs(path[0, 1] - path[1, 1]) < 1e-6:
                yield min(path[:, 0]), max(path[:, 0]), path[0, 1]

    def bar_under(self, label):
        """The level line closest below a label and across its place."""
        ((_, x, y),) = [word for word in self.words if word[0] == label]
        below = [line for line in self.level_lines() if line[0] < x < line[1] and 0 < y - line[2] < 8]
        return max(below, key=lambda line: line[2])

    def boxes(self):
        """Width and height of every closed four-sided outline that is square to the page."""
        for path in self.paths:
            if len(path) == 5 and np.allclose(path[0], path[-1]) and np.ptp(path[:, 0]) and np.ptp(path[:, 1]):
                sides = np.abs(np.diff(path, axis=0))
                if np.all(np.min(sides, axis=1) < 1e-6):
                    yield np.ptp(path[:, 0]), np.ptp(path[:, 1])


def page_of(drawing, tmp_path):
    reader = pypdf.PdfReader(drawing.save(tmp_path / "sheet.pdf"))
    assert len(reader.pages) == 1
    return Page(reader.pages[0], reader)


@pytest.fixture(scope="module")
def pieces():
    return {unit: read_piece(BARE / f"landing_chest{end}.yaml") for unit, end in (("mm", ""), ("in", "_inch"))}


@pytest.fixture(scope="module")
def pages(pieces, tmp_path_factory):
    """Plates of a demo piece on a paper, drawn and read back once for all tests."""
    folder = tmp_path_factory.mktemp("sheets")

    @cache
    def pages(unit, paper):
        piece = pieces[unit]
        plates = [plate(piece) for plate in DRAWN.values()]
        assert tuple(plate.name for plate in plates) == PLATES
        sheets = [sheet(plate, title_of(piece, plate, i, len(PLATES)), paper) for i, plate in enumerate(plates, 1)]
        reader = pypdf.PdfReader(save_pdf_pages(sheets, folder / f"{unit}_{paper}.pdf"))
        assert len(reader.pages) == len(PLATES)
        return [Page(page, reader) for page in reader.pages]

    return pages


CROSSED = [pytest.param(*pair, marks=pytest.mark.slow) for pair in (("mm", "letter"), ("in", "A4"))]
every_set = pytest.mark.parametrize(("unit", "paper"), [("mm", "A4"), ("in", "letter"), *CROSSED])


@every_set
def test_the_page_has_the_size_of_its_paper(pages, unit, paper):
    for page in pages(unit, paper):
        assert page.size_mm == pytest.approx(PAPERS[paper], abs=0.01)


@every_set
def test_the_bars_to_measure_first_are_true(pages, unit, paper):
    for page in pages(unit, paper):
        for label, length in (("100 mm", 100.00), ("4 in", 101.60)):
            left, right, level = page.bar_under(label)
            assert right - left == pytest.approx(length, abs=0.01)
            assert 10 <= left < right <= PAPERS[paper][0] - 10
            assert level > 10
        assert "Measure me before use" in page.text()
        assert "100 %" in page.text()


@every_set
def test_the_divisions_of_the_bars_are_true(pages, unit, paper):
    page = pages(unit, paper)[0]
    for label, step, count in (("100 mm", 10.0, 11), ("4 in", 25.4, 5)):
        left, right, level = page.bar_under(label)
        marks = [
            path[0, 0]
            for path in page.paths
            if len(path) == 2 and abs(path[0, 0] - path[1, 0]) < 1e-6 and abs(min(path[:, 1]) - level) < 0.01
        ]
        marks = sorted(mark for mark in marks if left - 0.01 <= mark <= right + 0.01)
        assert marks == pytest.approx([left + i * step for i in range(count)], abs=0.01)


def ratio_on(page):
    """The scale as the title block says it."""
    return float(re.search(r"Scale 1 : ([\d.]+)", page.text()).group(1))


@every_set
def test_the_case_on_the_first_plate_is_true_to_the_scale_in_the_title(pages, unit, paper):
    # from the front 520 x 1149 mm and 20 x 43 5/8 in; from the side 380 and 15 deep
    width, depth, height = (520, 380, 1149) if unit == "mm" else (20 * 25.4, 15 * 25.4, 43.625 * 25.4)
    page = pages(unit, paper)[0]
    ratio = ratio_on(page)
    boxes = list(page.boxes())
    for size in ((width, height), (depth, height), (width, depth)):
        expected = (size[0] / ratio, size[1] / ratio)
        assert any(box == pytest.approx(expected, abs=0.1) for box in boxes), expected


@every_set
def test_the_openings_on_their_plate_are_true_to_scale(pages, unit, paper):
    page = pages(unit, paper)[PLATES.index("Openings")]
    ratio = ratio_on(page)
    openings = [83, 103, 123, 143, 163, 183, 203] if unit == "mm" else [(k * 0.75 + 0.125) * 25.4 for k in range(4, 11)]
    inside = 480 if unit == "mm" else 18.5 * 25.4
    half = 231 if unit == "mm" else 8.875 * 25.4
    boxes = list(page.boxes())
    for width, height in [(half, openings[0]), *((inside, height) for height in openings[1:])]:
        assert any(box == pytest.approx((width / ratio, height / ratio), abs=0.1) for box in boxes), (width, height)


@every_set
def test_nothing_is_drawn_past_the_frame(pages, unit, paper):
    width, height = PAPERS[paper]
    for page in pages(unit, paper):
        points = np.vstack(page.paths)
        inked = points[(points > 0.01).all(axis=1) & (points < np.array([width, height]) - 0.01).all(axis=1)]
        assert len(inked) > 100  # the ground of the page itself is left out
        assert inked.min() >= 10 - 0.01
        assert inked[:, 0].max() <= width - 10 + 0.01
        assert inked[:, 1].max() <= height - 10 + 0.01


# Words of the title block


@every_set
def test_the_title_block_says_piece_plate_number_revision_unit_and_stamp(pages, pieces, unit, paper):
    for number, (page, name) in enumerate(zip(pages(unit, paper), PLATES, strict=True), 1):
        text = page.text()
        whose, plate = pieces[unit].design.piece, f"Plate {number} of {len(PLATES)}"
        for part in (whose, name, plate, "Revision A", "Checked", "Date", "Drawn"):
            assert part in text
        assert re.search(r"Unit mm\b" if unit == "mm" else r"Unit inch\b", text)
        assert pieces[unit].design.digest in text


def bare(scale, unit):
    """A drawing of one line at a scale, in mm on paper for one unit."""
    return Drawing("Line", (Stroke(((0.0, 0.0), (1.0, 0.0))),), scale, (0.0, -0.5, 1.0, 0.5), unit)


SCALES = [
    # unit, ratio, the words a shop uses for it; an inch to the foot is 1 : 12, so 1 : 16 is 12/16 in
    ("mm", 1, "1 : 1, full size"),
    ("mm", 2, "1 : 2, half size"),
    ("mm", 2.5, "1 : 2.5, two fifths"),
    ("mm", 5, "1 : 5, one fifth"),
    ("mm", 10, "1 : 10, one tenth"),
    ("mm", 20, "1 : 20, one twentieth"),
    ("mm", 50, "1 : 50"),
    ("mm", 100, "1 : 100"),
    ("in", 1, "1 : 1, full size"),
    ("in", 2, "1 : 2, half size"),
    ("in", 4, "1 : 4, quarter size"),
    ("in", 8, "1 : 8, one eighth"),
    ("in", 12, "1 : 12, an inch to the foot"),
    ("in", 16, "1 : 16, 3/4 in to the foot"),
    ("in", 24, "1 : 24, 1/2 in to the foot"),
    ("in", 48, "1 : 48, 1/4 in to the foot"),
    ("in", 96, "1 : 96"),
]
TITLE = Title("Box", "B", 3, 7, "stamp of the box")


def test_the_scale_is_said_as_a_ratio_and_in_words_and_kept(tmp_path):
    sheets = [sheet(bare(MM_UNIT[unit] / ratio, unit), TITLE) for unit, ratio, _ in SCALES]
    reader = pypdf.PdfReader(save_pdf_pages(sheets, tmp_path / "scales.pdf"))
    for drawn, page, (unit, ratio, words) in zip(sheets, reader.pages, SCALES, strict=True):
        assert f"Scale {words}" in {mark.words for mark in drawn.marks() if isinstance(mark, Text)}
        on_paper = Page(page, reader)
        assert ratio_on(on_paper) == ratio
        one = 1.0 if unit == "mm" else 25.4
        lengths = [right - left for left, right, _ in on_paper.level_lines()]
        assert any(length == pytest.approx(one / ratio, abs=0.001) for length in lengths)


def test_a_sheet_says_what_its_title_says(tmp_path):
    text = page_of(sheet(bare(1.0, "mm"), TITLE, "letter"), tmp_path).text()
    for part in ("Box", "Revision B", "Plate 3 of 7", "stamp of the box", "Line"):
        assert part in text


@pytest.mark.parametrize("paper", PAPERS)
def test_a_drawing_larger_than_the_paper_is_refused_with_both_sizes(paper):
    wide = Drawing("Wide", (Stroke(((0.0, 0.0), (250.0, 0.0))),), 1.0, (0.0, 0.0, 250.0, 10.0), "mm")
    with pytest.raises(DesignError, match=rf"'Wide' is 250 x 10 mm on paper.*{paper}; draw it at a smaller scale\.$"):
        sheet(wide, TITLE, paper)
    tall = Drawing("Tall", (Stroke(((0.0, 0.0), (0.0, 280.0))),), 1.0, (0.0, 0.0, 10.0, 280.0), "mm")
    with pytest.raises(DesignError, match=r"'Tall' is 10 x 280 mm on paper"):
        sheet(tall, TITLE, paper)


def test_the_papers_are_a4_and_letter():
    for name, size in PAPERS.items():
        assert PAPER_MM[name] == pytest.approx(size)


# The stamp

TEXT = (DESIGNS / "landing_chest.yaml").read_text()
OTHER = {"piece": "Landing chest B", "revision": "B", "unit": "in", "rule": "equal", "wood": "white oak",
         "good": "0.8", "certainty": "0.8", "leftover": "top rail", "species": "white oak", "rings": "rift-sawn",
         "joint": "rebated", "carried": "side-hung", "course": "down the case"}  # fmt: skip
LIKE = {"bead": "ogee", "fillet": "cylinder", "taper": "shoulder", "dovetailed": "housed", "solid": "sheet",
        "boards": "sheet", "front": "bottom", "case": "bottom", "side": "bottom"}  # fmt: skip
LIKE |= dict(pairwise((*SYSTEMS, SYSTEMS[0])))
"""Shapes that ask for the same sizes (nothing asks for those of a square or of a cove), and other ratio systems."""


@cache
def digest(text):
    return design_of(DesignText.parse(text)).digest


def stamp(text, formulas=("lean.total_lean",)):
    return stamp_line(piece_of(DesignText.parse(text)), formulas)


def test_the_stamp_holds_piece_revision_digest_unit_and_formulas(pieces):
    for unit, piece in pieces.items():
        line = stamp_line(piece, ("lean.total_lean", "end_cut.tilt"))
        design = piece.design
        for part in (design.piece, "revision A", design.digest, f"| {unit} |", "lean.total_lean, end_cut.tilt"):
            assert part in line
        assert "\n" not in line
        assert not re.search(r"20\d\d", line)  # no clock
    assert "sums only" in stamp_line(pieces["mm"], ())


WRITTEN = DesignText.parse(TEXT)
INPUTS = [path for path in WRITTEN.spans if path not in [("legs", "profile", number, "shape") for number in (0, 2)]]


@pytest.mark.parametrize("path", INPUTS, ids=lambda path: ", ".join(map(str, path)))
def test_the_digest_changes_with_any_input(path):
    value = WRITTEN.tree
    for key in path:
        value = value[key]
    other = LIKE.get(value) or OTHER.get(path[-1]) or f"{float(value) + 1:g}"
    assert digest(WRITTEN.with_value(path, other).text) != digest(TEXT)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("step: 20 ", "# "),
        ("    1: 2", "    2: 2"),
        ("    1: 2", "    1: 2\n    2: 2"),
        ("    rear right: {rake: 0, splay: 6}", ""),
        ("case:\n", "case:\n  height: 1149\n"),
        ("{rake: 8, splay: 6}", "{rake: 8, total lean: 9.95}"),
        ("height: 1300", "height: 1300.001"),
    ],
)
def test_the_digest_changes_with_what_is_added_and_taken_away(old, new):
    assert TEXT.count(old)
    assert digest(TEXT.replace(old, new, 1)) != digest(TEXT)


@pytest.mark.parametrize(
    ("pattern", "new"),
    [
        (r"(?m)^# .*$", "# another note"),
        (r"(?m)  +#.*$", ""),
        (r"\n\n", "\n"),
        (r"\n", "\r\n"),
        (r"\A", "\ufeff"),
        (r"height: 1300", "height: 1300 mm"),
        (r"height: 1300", "height: '1300'"),
        (r"height: 1300", "height: 130 cm"),
        (r"splay: 6", "splay: 6°"),
        (r"  width: 520\n  depth: 380", "  depth: 380\n  width: 520"),
        (r"\{rake: 8, splay: 6\}", "{splay: 6, rake: 8}"),
        (r"(    front left: .*\n)(    front right: .*\n)", r"\2\1"),
    ],
)
def test_the_digest_does_not_change_with_how_the_same_inputs_are_written(pattern, new):
    text, found = re.subn(pattern, new, TEXT)
    assert found
    assert text != TEXT
    assert digest(text) == digest(TEXT)
    assert stamp(text) == stamp(TEXT)


def test_the_same_sheets_give_the_same_bytes(pieces, tmp_path):
    """Alone or beside a file for each: one figure serves both, which is the same as from a figure of its own."""
    plates = [DRAWN[name](pieces["mm"]) for name in ("Openings", "Half pattern 1", "Saw card")]
    sheets = [sheet(plate, title_of(pieces["mm"], plate, i, 3)) for i, plate in enumerate(plates, 1)]
    files = [tmp_path / f"{i}.{kind}" for i, kind in enumerate(("svg", "svg", "png"), 1)]
    first = save_pdf_pages(sheets, tmp_path / "a.pdf").read_bytes()
    assert save_pdf_pages(sheets, tmp_path / "b.pdf", files).read_bytes() == first
    assert pypdf.PdfReader(io.BytesIO(first)).metadata.get("/CreationDate") is None
    for page, file in zip(sheets, files, strict=True):
        assert file.read_bytes() == page.save(tmp_path / f"by itself{file.suffix}").read_bytes()
    with pytest.raises(DesignError, match=r"'1\.txt' ends in no kind of picture"):
        save_pdf_pages(sheets, tmp_path / "refused.pdf", [tmp_path / "1.txt"])
    assert not (tmp_path / "refused.pdf").exists()
