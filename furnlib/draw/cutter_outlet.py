"""The cutter: a drawing as DXF for a laser or a router, arcs as true arcs, the same to the byte."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import ezdxf
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS
from ezdxf.units import IN, MM

from furnlib.base.files import whole_file
from furnlib.base.units import Unit
from furnlib.draw.drawing import Arc, Contour, Drawing, Mark, Stroke, Text
from furnlib.draw.style import LINES, TEXT_MM

_VERSION = "R2010"
_UNITS: dict[Unit, int] = {"mm": MM, "in": IN}
_ANCHORS = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}
_WORDS = "words"  # the layer of all texts
_CAPITALS = 0.72  # height of a capital letter, which a DXF text is measured by, in parts of the em box


@contextmanager
def _no_clock() -> Iterator[None]:
    """Leave date, version and fresh identities out of what is written; the setting of others is put back."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def _on_layer(document: Document, kind: str, mm: float) -> dict[str, str]:
    """What puts a mark on the layer of its line kind, which looks like it; made where it is not there yet."""
    if kind not in document.layers:
        style = LINES[kind]
        weight = min(VALID_DXF_LINEWEIGHTS, key=lambda valid: abs(valid - 100 * style.width_mm))
        layer = document.layers.add(kind, true_color=int(style.ink[1:], 16), lineweight=weight)
        if style.dash_mm:
            dashes = [length * mm * (-1) ** i for i, length in enumerate(style.dash_mm)]  # below 0: a gap
            document.linetypes.add(kind, [sum(style.dash_mm) * mm, *dashes])
            layer.dxf.linetype = kind
    return {"layer": kind}


def _add(document: Document, mark: Mark | Contour, mm: float) -> None:
    """One mark, mm being the drawing's length for a mm on paper; tints are for paper and left out."""
    space = document.modelspace()
    match mark:
        case Stroke(points, kind, closed):
            space.add_lwpolyline(points, "xy", close=closed, dxfattribs=_on_layer(document, kind, mm))
        case Contour(points, bulges, kind, closed):
            corners = [(x, y, bulge) for (x, y), bulge in zip(points, (*bulges, 0.0), strict=False)]
            space.add_lwpolyline(corners, "xyb", close=closed, dxfattribs=_on_layer(document, kind, mm))
        case Arc(centre, radius, start, end, kind) if end - start >= 360:
            space.add_circle(centre, radius, dxfattribs=_on_layer(document, kind, mm))
        case Arc(centre, radius, start, end, kind):
            space.add_arc(centre, radius, start, end, dxfattribs=_on_layer(document, kind, mm))
        case Text():
            text = space.add_text(mark.words, height=_CAPITALS * TEXT_MM[mark.size] * mm, rotation=mark.turn_deg)
            text.dxf.layer = _WORDS
            text.set_placement(mark.at, align=_ANCHORS[mark.anchor])


def save(drawing: Drawing, path: Path) -> Path:
    """Write a drawing as DXF in its own unit, whatever its scale on paper.

    Each line kind and the words have a layer of their own; contours keep their true arcs. What a
    plate shows magnified is as large in the file as it is shown.

    Args:
        drawing: the picture.
        path: the file to write, whole or not at all.

    Returns:
        The path.

    Example:
        >>> import tempfile
        >>> line = Drawing("Line", (Stroke(((0, 0), (10, 0)), "cut"),), 0.1, (0, -1, 10, 1), "in")
        >>> with tempfile.TemporaryDirectory() as folder:
        ...     file = ezdxf.readfile(save(line, Path(folder, "line.dxf")))
        >>> [(entity.dxf.layer, file.units) for entity in file.modelspace()]  # 1: inches
        [('cut', 1)]
    """
    left, bottom, right, top = drawing.box
    with whole_file(path) as stream, _no_clock():
        document = ezdxf.new(_VERSION, units=_UNITS[drawing.unit])
        document.set_modelspace_vport(max(top - bottom, right - left), ((left + right) / 2, (bottom + top) / 2))
        document.modelspace().reset_extents((left, bottom, 0.0), (right, top, 0.0))
        document.layers.add(_WORDS)
        for item in drawing.items:
            marks = [item] if isinstance(item, Contour) else replace(drawing, items=(item,)).marks()
            for mark in marks:
                _add(document, mark, 1 / drawing.scale)
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # else written in the order of a set
            document.classes.add_class(kind)
        text = io.StringIO(newline="")
        document.write(text)
        stream.write(text.getvalue().encode("utf-8"))
    return path
