"""DXF read back with ezdxf, and by its bare group codes: arcs, lengths, unit, layers, bytes."""

from __future__ import annotations

import hashlib
import math
import os
import subprocess
import sys

import ezdxf
import pytest
from ezdxf.math import bulge_center, bulge_radius
from pictures import ROOT, drawing_of

from furnlib.base.guards import DesignError
from furnlib.draw import cutter_outlet
from furnlib.draw.drawing import AngleDimension, Arc, Contour, Dimension, Drawing, Fill, Stroke, Text
from furnlib.draw.style import LINES, TEXT_MM

OUTLINE = Contour(
    ((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (12.7, 20.0), (0.0, 12.7)), (0.0, 1.0, 0.0, -0.41421356, 0.0), "cut", True
)
OF_EACH = (
    OUTLINE,
    Contour(((0.0, 30.0), (10.0, 30.0), (20.0, 40.0)), (0.25, 0.0), "thin"),
    Stroke(((0.0, 0.0), (30.0, 40.0)), "hidden"),
    Stroke(((0.0, 0.0), (8.0, 0.0), (8.0, 6.0)), "visible", closed=True),
    Arc((5.0, 6.0), 7.0, -30.0, 200.0, "sight"),
    Arc((-5.0, 6.0), 2.5, kind="cut"),
    Fill(((0.0, 0.0), (20.0, 0.0), (9.0, 20.0)), "wood", hatch=True),
    Text((1.0, 2.0), "Rücken 11⁄16″, 8°", "head", "middle", 30.0),
    Dimension((0.0, 0.0), (40.0, 0.0), -6.0, "40"),
    AngleDimension((0.0, 0.0), 9.0, 0.0, 36.8, "36.8°"),
)


def written(drawing, folder):
    document = ezdxf.readfile(drawing.save(folder / "drawing.dxf"))
    assert not document.audit().has_errors
    assert not document.audit().has_fixes
    return document


def polylines(document, layer):
    return [entity for entity in document.modelspace().query("LWPOLYLINE") if entity.dxf.layer == layer]


def test_a_contour_keeps_its_points_and_its_true_arcs(tmp_path):
    (found,) = polylines(written(drawing_of(*OF_EACH), tmp_path), "cut")
    assert found.closed
    assert [(x, y) for x, y in found.get_points("xy")] == list(OUTLINE.points)
    assert [bulge for (bulge,) in found.get_points("b")] == list(OUTLINE.bulges)
    corners = [*OUTLINE.points, OUTLINE.points[0]]
    # the end is half a circle about (40, 10); the notch a quarter about the corner that was taken off
    for i, centre, radius in ((1, (40.0, 10.0), 10.0), (3, None, math.dist(*corners[3:5]) / math.sqrt(2))):
        by_file = bulge_center(corners[i], corners[i + 1], OUTLINE.bulges[i])
        arc = OUTLINE.arcs()[i]
        assert arc.centre == pytest.approx((by_file.x, by_file.y), abs=1e-9)
        assert arc.radius == pytest.approx(bulge_radius(corners[i], corners[i + 1], OUTLINE.bulges[i]), rel=1e-12)
        assert arc.radius == pytest.approx(radius, rel=1e-6)
        assert centre is None or arc.centre == pytest.approx(centre)


def test_an_open_contour_stays_open(tmp_path):
    found = polylines(written(drawing_of(*OF_EACH), tmp_path), "thin")
    assert [(entity.closed, list(entity.get_points("xyb"))) for entity in found] == [
        (False, [(0.0, 30.0, 0.25), (10.0, 30.0, 0.0), (20.0, 40.0, 0.0)])
    ]


@pytest.mark.parametrize("scale", [0.1, 1.0, 12.7])
def test_lines_arcs_and_circles_have_their_true_size_at_any_scale(tmp_path, scale):
    document = written(drawing_of(*OF_EACH, scale=scale), tmp_path)
    (slanted,) = polylines(document, "hidden")
    assert math.dist(*slanted.get_points("xy")) == 50.0
    (triangle,) = polylines(document, "visible")
    assert (triangle.closed, list(triangle.get_points("xy"))) == (True, [(0, 0), (8, 0), (8, 6)])
    (arc,) = [entity for entity in document.modelspace().query("ARC") if entity.dxf.layer == "sight"]
    assert ((arc.dxf.center.x, arc.dxf.center.y), arc.dxf.radius) == ((5.0, 6.0), 7.0)
    assert (arc.dxf.start_angle % 360, arc.dxf.end_angle % 360) == pytest.approx((330, 200))
    (circle,) = document.modelspace().query("CIRCLE")
    assert ((circle.dxf.center.x, circle.dxf.center.y), circle.dxf.radius) == ((-5.0, 6.0), 2.5)


@pytest.mark.parametrize("scale", [0.1, 1.0, 12.7])
def test_words_stand_at_their_point_as_large_as_on_paper(tmp_path, scale):
    texts = written(drawing_of(*OF_EACH, scale=scale), tmp_path).modelspace().query("TEXT")
    assert [text.dxf.text for text in texts] == ["Rücken 11⁄16″, 8°", "40", "36.8°"]
    assert {text.dxf.layer for text in texts} == {"words"}
    align, at, _ = texts[0].get_placement()
    assert (align.name, tuple(at)[:2], texts[0].dxf.rotation) == ("CENTER", (1.0, 2.0), 30.0)
    # a text's height is that of its capitals, 1493 of the 2048 units of the em box in the font that paper has
    assert texts[0].dxf.height * scale == pytest.approx(TEXT_MM["head"] * 1493 / 2048, rel=0.02)


def test_every_mark_but_tints_lies_on_the_layer_of_its_kind(tmp_path):
    drawing = drawing_of(*OF_EACH)
    document = written(drawing, tmp_path)
    drawn = [mark for mark in drawing.marks() if not isinstance(mark, Fill)]
    assert len(document.modelspace()) == len(drawn) > 20
    layers = [entity.dxf.layer for entity in document.modelspace()]
    assert layers == ["words" if isinstance(mark, Text) else mark.kind for mark in drawn]
    assert {"hatch", "dimension", "bar"} < set(layers)  # drawn out
    assert {layer.dxf.name for layer in document.layers} == {"0", "Defpoints", *layers}


@pytest.mark.parametrize("kind", LINES)
def test_a_layer_looks_like_its_line_kind(tmp_path, kind):
    document = written(drawing_of(Stroke(((0.0, 0.0), (9.0, 0.0)), kind), scale=0.5), tmp_path)
    layer, style = document.layers.get(kind), LINES[kind]
    assert "#{:02X}{:02X}{:02X}".format(*layer.rgb) == style.ink
    assert layer.dxf.lineweight == pytest.approx(style.width_mm * 100, abs=2)
    if style.dash_mm:
        dashes = document.linetypes.get(layer.dxf.linetype).pattern_tags.tags
        lengths = [tag.value for tag in dashes if tag.code == 49]
        assert [abs(length) * 0.5 for length in lengths] == pytest.approx(style.dash_mm)  # on paper at 1 : 2
        assert [length > 0 for length in lengths] == [True, False] * (len(lengths) // 2)
    else:
        assert layer.dxf.linetype == "Continuous"


@pytest.mark.parametrize(("unit", "code"), [("mm", 4), ("in", 1)])
def test_the_unit_is_the_pieces_own(tmp_path, unit, code):
    scale = 1.0 if unit == "mm" else 25.4
    exact = 43 / 64  # exact in binary, as in the file
    line = Drawing("Line", (Stroke(((0.0, 0.0), (exact, 0.0))),), scale, (0.0, -1.0, 1.0, 1.0), unit)
    document = written(line, tmp_path)
    assert document.units == code
    codes = (tmp_path / "drawing.dxf").read_text("utf-8").splitlines()
    at = codes.index("$INSUNITS")
    assert (codes[at + 1].strip(), codes[at + 2].strip()) == ("70", str(code))
    (found,) = document.modelspace()
    assert list(found.get_points("xy")) == [(0.0, 0.0), (exact, 0.0)]


def test_what_is_to_be_cut_can_be_written_alone(tmp_path):
    document = written(drawing_of(*OF_EACH).only("cut"), tmp_path)
    assert [(entity.dxftype(), entity.dxf.layer) for entity in document.modelspace()] == [
        ("LWPOLYLINE", "cut"),
        ("CIRCLE", "cut"),
    ]
    both = drawing_of(*OF_EACH).only("cut", "thin")
    assert {item.kind for item in both.items} == {"cut", "thin"}
    assert both.box == drawing_of().box


def test_a_kind_that_no_line_has_is_refused_with_those_there_are():
    with pytest.raises(DesignError, match=r"^'Test' has no line of the kind cuts; the kinds in it: cut, thin, hidden,"):
        drawing_of(*OF_EACH).only("cuts")
    with pytest.raises(DesignError, match=r"no line of the kind cut or thin; the kinds in it: none\.$"):
        drawing_of(OF_EACH[7]).only("cut", "thin")


PROGRAM = """
import hashlib, sys
from pathlib import Path
from furnlib.draw import drawing, tiles
assert "ezdxf" not in sys.modules
line = drawing.Drawing("Line", (drawing.Stroke(((0, 0), (1, 0))),), 1.0, (0, 0, 1, 1), "mm")
line.save(Path(sys.argv[1], "line.dxf"))
assert "ezdxf" in sys.modules and "matplotlib" not in sys.modules
from test_cutter_outlet import OF_EACH, drawing_of
print(hashlib.sha256(drawing_of(*OF_EACH).save(Path(sys.argv[1], "again.dxf")).read_bytes()).hexdigest())
"""


def test_the_same_drawing_gives_the_same_bytes_in_any_process_and_only_ezdxf_is_loaded(tmp_path):
    first = drawing_of(*OF_EACH).save(tmp_path / "a.dxf").read_bytes()
    written(drawing_of(OUTLINE), tmp_path)  # what is written in between counts no handles up
    assert drawing_of(*OF_EACH).save(tmp_path / "b.dxf").read_bytes() == first
    assert b"2026" not in first
    assert b"1.4." not in first
    found_by = f"{ROOT}{os.pathsep}{ROOT / 'tests' / 'unit'}"
    for seed in ("1", "7"):  # of hashing, which orders sets
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM, str(tmp_path)],
            env={**os.environ, "PYTHONPATH": found_by, "PYTHONHASHSEED": seed, "TZ": "Asia/Tokyo"},
            capture_output=True,
            text=True,
            check=True,
        )
        assert done.stdout.strip() == hashlib.sha256(first).hexdigest()


@pytest.mark.parametrize("fails", [False, True])
@pytest.mark.parametrize("before", [False, True])
def test_the_options_of_ezdxf_are_as_they_were(tmp_path, monkeypatch, before, fails):
    monkeypatch.setattr(ezdxf.options, "write_fixed_meta_data_for_testing", before)
    bad = Stroke(((0.0, 0.0), (1.0, 0.0)), "no such kind")
    if fails:
        with pytest.raises(KeyError):
            drawing_of(OUTLINE, bad).save(tmp_path / "bad.dxf")
    else:
        drawing_of(OUTLINE).save(tmp_path / "good.dxf")
    assert ezdxf.options.write_fixed_meta_data_for_testing is before


def test_nothing_is_left_behind_and_nothing_lost_where_writing_fails(tmp_path, monkeypatch):
    path = drawing_of(OUTLINE).save(tmp_path / "kept.dxf")
    before = path.read_bytes()

    def fail(*_):
        raise RuntimeError("on the way")

    monkeypatch.setattr(cutter_outlet, "_add", fail)
    for name in ("kept.dxf", "new.dxf"):
        with pytest.raises(RuntimeError, match="on the way"):
            drawing_of(*OF_EACH).save(tmp_path / name)
    assert [found.name for found in tmp_path.iterdir()] == ["kept.dxf"]
    assert path.read_bytes() == before


def test_the_ending_says_which_kind_of_file(tmp_path):
    assert drawing_of(OUTLINE).save(str(tmp_path / "LOUD.DXF")).read_bytes().lstrip().startswith(b"0\nSECTION")
    with pytest.raises(DesignError, match=r"^'plate\.txt' ends in no kind of picture; end it in .*\.png or \.dxf\.$"):
        drawing_of(OUTLINE).save(tmp_path / "plate.txt")


@pytest.mark.parametrize("name", ["Legs", "Saw card", "Strip 1"])
def test_a_plate_can_be_read_back(plates, tmp_path, name):
    assert len(written(plates["landing_chest_inch", name], tmp_path).modelspace()) > 20
