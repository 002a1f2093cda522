"""The page: a drawing as one SVG string, fast enough to follow the hand."""

from __future__ import annotations

from html import escape

from furnlib.draw.drawing import Arc, Drawing, Fill, Mark, Stroke, Text
from furnlib.draw.style import FONTS, LINES, PAPER, TEXT_MM, TINTS

PX_MM = 4.0  # screen pixels for a mm of paper: letters of 2.3 mm are still read on a tablet
_FONT = ", ".join(f"'{name}'" if " " in name else name for name in FONTS)


def _number(value: float, decimals: int = 2) -> str:
    return f"{value:.{decimals}f}".rstrip("0").rstrip(".")


class _Pen:
    """Turns marks into SVG elements, in px of the picture with y downwards."""

    def __init__(self, frame: tuple[float, float, float, float], px: float) -> None:
        self.left, self.top, self.px = frame[0], frame[3], px

    def xy(self, point: tuple[float, float], decimals: int = 2) -> tuple[str, str]:
        x, y = (point[0] - self.left) * self.px, (self.top - point[1]) * self.px
        return _number(x, decimals), _number(y, decimals)

    def path(self, points: tuple[tuple[float, float], ...], closed: bool) -> str:
        left, top, px = self.left, self.top, self.px
        steps = "L".join(f"{_number((x - left) * px)} {_number((top - y) * px)}" for x, y in points)
        return f"M{steps}Z" if closed else f"M{steps}"

    def element(self, mark: Mark) -> str:
        match mark:
            case Stroke(points, kind, closed):
                return f'<path class="f-{kind}" d="{self.path(points, closed)}"/>'
            case Arc(centre, radius, start, end, kind) if end - start >= 360:
                x, y = self.xy(centre)
                return f'<circle class="f-{kind}" cx="{x}" cy="{y}" r="{_number(radius * self.px)}"/>'
            case Arc(_, radius, start, end, kind):
                points = mark.points()
                # an arc near a half turn shifts far when its ends or its radius are rounded
                (x0, y0), (x1, y1) = self.xy(points[0], 6), self.xy(points[-1], 6)
                r, large = _number(radius * self.px, 6), int(end - start > 180)
                return f'<path class="f-{kind}" d="M{x0} {y0}A{r} {r} 0 {large} 0 {x1} {y1}"/>'
            case Fill(points, tint):
                return f'<path fill="{TINTS[tint]}" d="{self.path(points, True)}"/>'
            case Text():
                return self.text(mark)

    def text(self, mark: Text) -> str:
        x, y = self.xy(mark.at)
        turned = f' transform="rotate({_number(-mark.turn_deg)} {x} {y})"' if mark.turn_deg else ""
        names = f"f-{mark.size}" + (" f-bold" if mark.bold else "") + (" f-clear" if mark.clear else "")
        ink = f' fill="{TINTS[mark.ink]}"' if mark.ink != "ink" else ""
        words = escape(mark.words, quote=False)
        anchor = "" if mark.anchor == "start" else f' text-anchor="{mark.anchor}"'
        return f'<text class="{names}" x="{x}" y="{y}"{anchor}{turned}{ink}>{words}</text>'


def _rules() -> str:
    """The style sheet as CSS classes; their prefix keeps them clear of the page's own, such as .hidden."""
    lines = []
    for name, kind in LINES.items():
        dash = ",".join(_number(d * PX_MM) for d in kind.dash_mm)
        dashed = f";stroke-dasharray:{dash}" if dash else ""
        width = _number(kind.width_mm * PX_MM)
        lines.append(f".furn .f-{name}{{fill:none;stroke:{kind.ink};stroke-width:{width}{dashed}}}")
    sizes = [f".furn .f-{name}{{font-size:{_number(mm * PX_MM)}px}}" for name, mm in TEXT_MM.items()]
    rest = [
        f".furn text{{font-family:{_FONT}}}",
        ".furn .f-bold{font-weight:bold}",
        f".furn .f-clear{{paint-order:stroke;stroke:{PAPER};stroke-width:{_number(0.9 * PX_MM)}}}",
    ]
    return "".join(lines + sizes + rest)


RULES = _rules()
"""The style sheet as CSS, for a page that shows many pictures or one that changes often."""


def svg(drawing: Drawing, frame: tuple[float, float, float, float] | None = None, *, with_rules: bool = True) -> str:
    """Write a drawing as one SVG element with a white ground and its spoken description.

    Args:
        drawing: the picture.
        frame: left, bottom, right, top to show, in the drawing's unit; by default the drawing's
            own box. What is drawn past the frame is shown by shrinking, never cut off.
        with_rules: False where the page has `RULES` already: a browser that meets a style sheet
            anew looks at the whole page again.

    Returns:
        The SVG text; its width and height in px follow the frame.

    Example:
        >>> from furnlib.draw.drawing import Stroke
        >>> picture = Drawing("Line", (Stroke(((0, 0), (10, 0))),), 1.0, (0, -1, 10, 1), "mm")
        >>> svg(picture).startswith('<svg class="furn" xmlns="http://www.w3.org/2000/svg" width="40"')
        True
    """
    shown = frame or drawing.box
    whole = tuple((min if side < 2 else max)(a, b) for side, (a, b) in enumerate(zip(shown, drawing.box, strict=True)))
    px = PX_MM * drawing.scale
    pen = _Pen(whole, px)  # type: ignore[arg-type]
    width, height = (_number((shown[i + 2] - shown[i]) * px) for i in (0, 1))
    inner_width, inner_height = (_number((whole[i + 2] - whole[i]) * px) for i in (0, 1))
    label = escape(drawing.spoken or drawing.name)
    head = (
        f'<svg class="furn" xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}"'
        f' viewBox="0 0 {inner_width} {inner_height}" role="img" aria-label="{label}">'
    )
    ground = f'<rect width="{inner_width}" height="{inner_height}" fill="{PAPER}"/>'
    rules = f"<style>{RULES}</style>" if with_rules else ""
    return head + rules + ground + "".join(map(pen.element, drawing.marks())) + "</svg>"
