"""A drawing as a file: its own axes and no others, the same bytes, the size it says."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from pathlib import Path

import matplotlib as mpl
import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.image import imread
from matplotlib.textpath import TextPath
from pictures import BARE, DEMOS, DESIGNS, ROOT, drawing_of
from strained import kind_of

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Dimension, Fill, Stroke, Text
from furnlib.draw.plates import plates_of
from furnlib.draw.style import TEXT_MM, text_width_mm
from furnlib.plan.piece import read_piece

# Matplotlib: nothing but its own axes, nothing before it is asked for


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    """Run a program in a fresh process with a home of its own."""
    home = tmp_path_factory.mktemp("home")

    def run(program, *arguments, **environment):
        done = subprocess.run(
            [sys.executable, "-c", program, *map(str, arguments)],
            cwd=ROOT,
            env={**os.environ, "HOME": str(home), "PYTHONPATH": str(ROOT), **environment},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    return run


LOADED = "import sys; print(sorted(m for m in sys.modules if m.split('.')[0] in {'matplotlib', 'pandas', 'sympy'}))"


def test_the_drawing_itself_loads_no_matplotlib(run):
    assert run(f"import furnlib.draw.drawing, furnlib.draw.pen, furnlib.draw.plates; {LOADED}").strip() == "[]"


def test_a_picture_for_the_page_loads_no_matplotlib(run):
    program = (
        "from furnlib.plan.piece import read_piece; from furnlib.draw.plates import plates_of\n"
        "for plate in plates_of(read_piece('notebooks/designs/landing_chest.yaml')): assert '</svg>' in plate.svg()\n"
    )
    assert run(program + LOADED).strip() == "[]"


def written_of(folder, design):
    """Every plate of a design with a digest of its page; of some, of the other files too."""
    for plate in plates_of(read_piece(design)):
        yield f"{plate.name} page {hashlib.sha256(plate.svg().encode()).hexdigest()}"
        for kind in ("png", "svg", "pdf") if plate.name in ("Legs", "Overall", "Strip 1") else ():
            path = plate.save(Path(folder) / f"plate.{kind}")
            yield f"{plate.name} {kind} {hashlib.sha256(path.read_bytes()).hexdigest()}"


BYTES = "import sys; from test_drawing_files import written_of; print(*written_of(*sys.argv[1:]), sep='\\n')"


# a whole chest has three times as many sheets as its case on legs; a metric one's are slow, and run in CI
@pytest.mark.parametrize(
    ("designs", "demo"),
    [(BARE, "landing_chest_inch"), *(pytest.param(DESIGNS, demo, marks=pytest.mark.slow) for demo in DEMOS)],
    ids=["case on legs", *DEMOS],
)
def test_a_fresh_process_writes_the_same_bytes(run, tmp_path, designs, demo):
    # another seed for hashing, another hour, and nothing drawn before: nothing of it may show
    design = designs / f"{demo}.yaml"
    here = list(written_of(tmp_path, design))
    search = os.pathsep.join(map(str, (ROOT, ROOT / "tests" / "unit")))
    strange = {"PYTHONHASHSEED": "2", "TZ": "Asia/Tokyo", "SOURCE_DATE_EPOCH": "0", "PYTHONPATH": search}
    there = run(BYTES, tmp_path, design, **strange)
    assert len(here) == len(plates_of(read_piece(design))) + 3 * 3
    assert there.splitlines() == here


def test_no_setting_of_matplotlib_is_left_changed(run):
    program = """
import matplotlib
def settings(): return dict(dict.items(matplotlib.rcParams))  # as they stand: reading one may load a backend
before = settings()
from furnlib.draw import file_outlet
from furnlib.draw.plates import plates_of
from furnlib.plan.piece import read_piece
assert settings() == before, "by the import"
plate = plates_of(read_piece("notebooks/designs/landing_chest.yaml"))[2]
ax = plate.plot()
file_outlet.png(plate)
assert settings() == before, "by drawing"
import sys
assert "matplotlib.pyplot" not in sys.modules
print("kept")
"""
    assert run(program).strip() == "kept"


SETTINGS = {
    "a dark style": {"savefig.facecolor": "black", "figure.facecolor": "black", "text.color": "white"},
    "cut to the ink": {"savefig.bbox": "tight"},
    "see-through": {"savefig.transparent": True},
    "markers on lines": {"lines.marker": "o"},
    "a sketchy style": {"path.sketch": (1, 100, 2)},
    "dashes in mm, not by width": {"lines.scale_dashes": False},
    "slanted letters": {"font.style": "italic"},
    "rough edges": {"lines.antialiased": False, "patch.antialiased": False},
    "own sizes": {"figure.dpi": 200, "savefig.dpi": 300, "font.size": 20, "lines.linewidth": 5},
}
ONE_OF_EACH = drawing_of(
    Stroke(((-40.0, 0.0), (40.0, 11.0)), "hidden"),
    Arc((0.0, 0.0), 20.0, 10.0, 200.0, "sight"),
    Fill(((0.0, 0.0), (20.0, 0.0), (9.0, 20.0)), "wood", hatch=True),
    Text((0.0, -20.0), "A word or two", "head", clear=True),
    Dimension((-40.0, -30.0), (40.0, -30.0), 6.0, "80"),
)


def files_of(drawing, folder):
    return {kind: drawing.save(folder / f"one.{kind}").read_bytes() for kind in ("png", "svg", "pdf")}


@pytest.mark.parametrize("name", SETTINGS)
def test_the_makers_own_settings_of_matplotlib_do_not_get_into_the_file(tmp_path, name):
    before = files_of(ONE_OF_EACH, tmp_path)
    with mpl.rc_context(SETTINGS[name]):
        after = files_of(ONE_OF_EACH, tmp_path)
    assert [kind for kind in before if before[kind] != after[kind]] == []


def test_drawing_into_one_cell_leaves_the_others_empty(plates):
    figure = Figure(figsize=(12, 8))
    FigureCanvasAgg(figure)
    cells = figure.subplots(2, 3)
    plate = plates["landing_chest", "Overall"]
    chosen = cells[0, 1]
    assert plate.plot(chosen) is chosen
    assert len(chosen.lines) + len(chosen.patches) + len(chosen.texts) == len(list(plate.marks()))
    assert chosen.get_aspect() == 1
    assert (*chosen.get_xlim(), *chosen.get_ylim()) == pytest.approx([plate.box[i] for i in (0, 2, 1, 3)])
    for cell in cells.flat:
        if cell is not chosen:
            assert not cell.has_data()
            assert len(cell.lines) + len(cell.patches) + len(cell.texts) == 0
            assert (cell.get_xlim(), cell.get_ylim()) == ((0, 1), (0, 1))
            assert cell.axison
    assert figure.texts == figure.lines == figure.patches == []
    figure.canvas.draw()


@pytest.mark.parametrize("every_sheet", [False, pytest.param(True, marks=pytest.mark.slow)])
def test_a_new_figure_is_exactly_the_size_on_paper(plates, every_sheet):
    """Of each kind of plate the last sheet; every sheet in CI."""
    last = {(demo, kind_of(plate)): plate for (demo, _), plate in plates.items()}
    assert len(plates) > len(last) > 30
    for plate in (plates if every_sheet else last).values():
        figure = plate.plot().figure
        assert figure.get_size_inches() * 25.4 == pytest.approx(plate.size_mm, abs=1e-9)


# Files


def test_a_picture_is_saved_as_what_its_name_says(plates, tmp_path):
    plate = plates["landing_chest", "Saw card"]
    starts = {"pdf": b"%PDF-", "png": b"\x89PNG", "svg": b"<?xml", "PNG": b"\x89PNG"}
    for kind, start in starts.items():
        path = plate.save(tmp_path / f"card.{kind}")
        assert path == tmp_path / f"card.{kind}"
        assert path.read_bytes().startswith(start)
    height, width = imread(io.BytesIO((tmp_path / "card.png").read_bytes())).shape[:2]
    assert (width / height) == pytest.approx(plate.size_mm[0] / plate.size_mm[1], rel=0.01)


@pytest.mark.parametrize("name", ["card", "card.jpg", "card.txt", "card.", ".pdf"])
def test_an_unknown_ending_is_refused_and_nothing_is_written(plates, tmp_path, name):
    with pytest.raises(DesignError, match=r"ends in no kind of picture; end it in \.pdf, \.svg, \.png or \.dxf"):
        plates["landing_chest", "Saw card"].save(tmp_path / name)
    assert list(tmp_path.iterdir()) == []


def test_a_notebook_is_given_both_the_page_and_the_still_picture(plates):
    plate = plates["landing_chest", "Saw card"]
    bundle = plate._repr_mimebundle_()
    assert bundle["image/svg+xml"] == plate.svg()
    assert bundle["image/png"].startswith(b"\x89PNG")
    assert "Saw card" in bundle["text/plain"]


# Widths of words

UNHINTED = {"text.hinting": "none"}  # letters as wide as on paper, whatever the dots per inch


def width_mm(words, size, bold=False):
    figure = Figure()
    renderer = FigureCanvasAgg(figure).get_renderer()
    with mpl.rc_context(UNHINTED):
        artist = figure.text(
            0, 0, words, fontsize=TEXT_MM[size] * 72 / 25.4, family="DejaVu Sans", parse_math=False,
            fontweight="bold" if bold else "normal",
        )  # fmt: skip
        return artist.get_window_extent(renderer).width / figure.dpi * 25.4


def test_no_word_on_a_plate_is_wider_than_the_estimate_that_laid_it_out(plates):
    """The estimate is on the safe side, says its own docstring; bold letters are laid out a tenth wider."""
    marks = [t for plate in plates.values() for t in plate.marks() if isinstance(t, Text)]
    texts = {(t.words, t.size, t.bold) for t in marks}
    assert len(texts) > 100
    wide = {
        words: (width_mm(words, size, bold), text_width_mm(words, size) * (1.1 if bold else 1.0))
        for words, size, bold in texts
    }
    assert {words: both for words, both in wide.items() if both[0] > both[1]} == {}


@pytest.mark.parametrize("words", ["106.5 + 18 + 106.5 + 18 + 106.5 + 18 + 106.5", "MMWW mm", "@%&", "3 ⁵⁄₈ + 7 ³⁄₄"])
def test_wide_letters_get_the_room_they_take(words):
    assert width_mm(words, "small") <= text_width_mm(words, "small")


def test_letters_in_the_picture_are_as_wide_as_on_paper(tmp_path):
    words = "106.5 + 18 + 106.5 + 18 + 106.5 + 18 + 106.5"
    page = drawing_of(Text((-45.0, 0.0), words, "small"))
    dots = imread(page.save(tmp_path / "words.png"))[:, :, :3].mean(axis=2)
    inked = np.flatnonzero((dots < 0.7).any(axis=0))
    in_picture = (inked[-1] - inked[0] + 1) * 25.4 / 120
    path = TextPath((0, 0), words, size=TEXT_MM["small"], prop=FontProperties(family="DejaVu Sans"))
    assert in_picture == pytest.approx(path.get_extents().width, rel=0.01)
