"""Files: a drawing by matplotlib as PDF, SVG or PNG, true to its scale and the same to the byte."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import zip_longest
from pathlib import Path
from typing import Any

from matplotlib import rc_context, rcdefaults, rcParams
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon
from matplotlib.patheffects import withStroke

from furnlib.base.files import whole_file
from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Arc, Drawing, Fill, Mark, Stroke, Text
from furnlib.draw.style import FONTS, LINES, PAPER, TEXT_MM, TINTS

_POINTS_MM = 72 / 25.4
_PNG_DPI = 120
_RC: Any = {
    "svg.hashsalt": "furnlib",
    "svg.fonttype": "none",
    "pdf.fonttype": 42,
    "pdf.compression": 6,
    "text.usetex": False,
    "text.hinting": "no_hinting",  # letters as wide in a PNG as on paper
    "text.parse_math": False,
    "font.family": list(FONTS[:1]),
    "path.simplify": False,
    "lines.scale_dashes": False,  # dashes are in mm on paper, not in line widths
    "axes.unicode_minus": False,
}


@contextmanager
def _our_style() -> Iterator[None]:
    """Nothing but the style sheet, whatever the notebook before this has set; all is put back."""
    with rc_context():
        rcdefaults()
        rcParams.update(_RC)
        yield


_NO_CLOCK: dict[str, dict[str, Any]] = {
    "pdf": {"CreationDate": None, "Creator": "furnlib", "Producer": None},
    "svg": {"Date": None, "Creator": "furnlib"},
    "png": {"Software": None},
}


def _line(points: Sequence[tuple[float, float]], kind: str, order: int) -> Line2D:
    style = LINES[kind]
    xs, ys = zip(*points, strict=True)
    dash: Any = (0, tuple(d * _POINTS_MM for d in style.dash_mm)) if style.dash_mm else "-"
    return Line2D(
        xs, ys, linewidth=style.width_mm * _POINTS_MM, color=style.ink, linestyle=dash, zorder=order,
        solid_capstyle="butt", dash_capstyle="butt", solid_joinstyle="miter",
    )  # fmt: skip


def _draw(ax: Axes, mark: Mark, order: int) -> None:
    match mark:
        case Stroke(points, kind, closed):
            ax.add_line(_line((*points, points[0]) if closed else points, kind, order))
        case Arc(kind=kind):
            ax.add_line(_line(mark.points(), kind, order))
        case Fill(points, tint):
            ax.add_patch(Polygon(points, closed=True, facecolor=TINTS[tint], edgecolor="none", zorder=order))
        case Text():
            halo = [withStroke(linewidth=0.9 * _POINTS_MM, foreground=PAPER)] if mark.clear else []
            ax.text(
                *mark.at, mark.words, fontsize=TEXT_MM[mark.size] * _POINTS_MM, rotation=mark.turn_deg,
                ha={"start": "left", "middle": "center", "end": "right"}[mark.anchor], va="baseline",
                rotation_mode="anchor", color=TINTS[mark.ink], path_effects=halo, zorder=order,
                fontweight="bold" if mark.bold else "normal",
            )  # fmt: skip


def plot(drawing: Drawing, ax: Axes | None = None) -> Axes:
    """Draw into the given axes, or into a new figure that is exactly the drawing's size.

    Args:
        drawing: the picture.
        ax: axes to draw in; by default new ones that fill a new figure at true scale.

    Returns:
        The axes, in the drawing's unit, with equal aspect.

    Example:
        >>> picture = Drawing("Line", (Stroke(((0, 0), (10, 0))),), 1.0, (0, -1, 10, 1), "mm")
        >>> ax = plot(picture)
        >>> float(ax.get_xlim()[1])
        10.0
    """
    with _our_style():
        into = ax or _figure_at_scale(drawing).add_axes((0.0, 0.0, 1.0, 1.0))
        into.set_axis_off()
        into.set_aspect("equal")
        left, bottom, right, top = drawing.box
        into.set(xlim=(left, right), ylim=(bottom, top))
        for order, mark in enumerate(drawing.marks()):
            _draw(into, mark, order)
    return into


def _figure_at_scale(drawing: Drawing) -> Figure:
    width, height = drawing.size_mm
    figure = Figure(figsize=(width / 25.4, height / 25.4))
    FigureCanvasAgg(figure)
    return figure


def _figure(drawing: Drawing) -> Figure:
    figure = _figure_at_scale(drawing)
    plot(drawing, figure.add_axes((0.0, 0.0, 1.0, 1.0)))
    return figure


def _write(figure: Figure, stream: io.BytesIO, kind: str) -> None:
    figure.savefig(stream, format=kind, dpi=_PNG_DPI, metadata=_NO_CLOCK[kind])


def _save(figure: Figure, path: Path) -> None:
    kind = path.suffix.lstrip(".").lower()
    if kind not in _NO_CLOCK:
        raise DesignError(f"'{path.name}' ends in no kind of picture; end it in .pdf, .svg, .png or .dxf.")
    with whole_file(path) as stream:
        _write(figure, stream, kind)


def png(drawing: Drawing) -> bytes:
    """Make the picture as PNG.

    Args:
        drawing: the picture.

    Returns:
        The bytes of a PNG file at 120 dots per inch.

    Example:
        >>> png(Drawing("Line", (Stroke(((0, 0), (10, 0))),), 1.0, (0, -1, 10, 1), "mm"))[1:4]
        b'PNG'
    """
    stream = io.BytesIO()
    with _our_style():
        _write(_figure(drawing), stream, "png")
    return stream.getvalue()


def save(drawing: Drawing, path: Path) -> Path:
    """Write a drawing as PDF, SVG or PNG at its own scale.

    Args:
        drawing: the picture.
        path: the file to write; its ending says which kind.

    Returns:
        The path.

    Raises:
        DesignError: when the ending is none of .pdf, .svg and .png.
    """
    with _our_style():
        _save(_figure(drawing), path)
    return path


def save_pdf_pages(drawings: Sequence[Drawing], path: Path, files: Sequence[Path] = ()) -> Path:
    """Write several drawings as the pages of one PDF, each at its own scale.

    Args:
        drawings: one for each page, in order.
        path: the file to write.
        files: where each page is also written by itself, in the same order; by default nowhere.

    Returns:
        The path.

    Raises:
        DesignError: when one of the files ends in none of .pdf, .svg and .png.
    """
    with (
        whole_file(path) as stream,
        _our_style(),
        PdfPages(stream, metadata=_NO_CLOCK["pdf"]) as pages,
    ):
        for drawing, file in zip_longest(drawings, files):
            figure = _figure(drawing)  # built once for both: half the work of a packet
            if file:
                _save(figure, file)
            pages.savefig(figure)
    return path
