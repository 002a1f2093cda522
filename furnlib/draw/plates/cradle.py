"""The cradle for a turned leg: the leg in it at the saw, and the V from its end."""

from __future__ import annotations

from itertools import pairwise

from furnlib.base.angles import cosd, sind, tand
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Contour, Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import Card, cautions
from furnlib.draw.plates.groups import NEVER_DEG, WORDS_NOTE, Groups, heading
from furnlib.draw.plates.turned_groups import outline, turned_of
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.plan.piece import Piece, SeatPiece
from furnlib.plan.sizes.legs import BLOCK_LENGTH, GAUGE_HEIGHT, LegSizes
from furnlib.trade.cautions import CRADLE, TABLE_SAW

CRADLE_CARD = Card(
    "Cradle",
    lambda leg: (leg.round, leg.cradle) if leg.round and leg.cradle and leg.foot_run.plan else None,
    "only turned legs that lean are sawn in one",
    "Cradle for turned legs of {}: the axis at the total lean, so that the foot is cut level.",
    ("cradle.off_vee", "lean.total_lean"),
    leans=1,
)

_STEPS = (
    "1  Draw the sight line along the leg: one straight line, on the side that is to look outward.",
    "2  Screw the V-block to its wedge, and the wedge to a fence on the mitre gauge. Gauge square, blade upright.",
    "3  Lay the leg in the V: foot low and past the blade, sight line underneath. Clamp it.",
    "4  Saw. At the foot the outward side stays the longer. Left and right legs come from the same cradle.",
)
_TOP_TOO = "5  The top, where it is to be level too: the cradle's high end to the blade, the leg as it lay."
_UPRIGHT_BLADE = TABLE_SAW[1:3]  # the others are for a tilted blade and for square waste
_TABLE_MM, _WORDS_MM, _VEE_MM = 145.0, 103.0, (58.0, 60.0)  # left edge of the table; widths; room for the V
_CHORD_MM = 0.01
_UNDER, _FLANK, _CHEEK = 0.4, 0.5, 0.25  # of the V-block, in parts of the largest diameter
_WASTE, _CLEAR, _OVER, _ABOVE = 0.35, 0.2, 0.3, 0.05  # leg past the cut, block short of it; leg past block, over table


def cradle_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw a cradle.

    Args:
        piece: a finished piece with turned legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1, in the order of the legs; each holds one lean.

    Returns:
        The leg in its cradle at the saw, and the V from its end; what to do in turn, and what to mind.

    Raises:
        DesignError: when no turned leg leans.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> cradle_plate(read_piece("notebooks/designs/stool_three_legs.yaml"), number=2).name
        'Cradle 2'
    """
    return CRADLE_CARD.plate(piece, scale, number, _draw, _caption, _spoken)


def _draw(pen: Pen, piece: Piece, groups: Groups) -> None:
    """The leg at the saw with its settings beside it, the V from its end with the words, and the cautions."""
    (group,) = groups
    leg, under = group[0], _at_the_saw(pen, group[0])
    left, low, right, top = pen.reach()
    top += pen.mm(11.0)
    heading(pen, group, (left, top), f"at the saw, {ratio_words(pen.scale, pen.unit)}")
    rows = [("cradle", ""), *_settings(pen, leg)]
    _, beside = pen.table((max(left + pen.mm(_TABLE_MM), right + pen.mm(3.0)), top), rows, bold_columns=(1,))
    y = min(low, beside) - pen.mm(3.0)
    _from_the_end(pen, leg, under, (left, y))
    y = pen.paragraphs((left, y), _words(pen, piece, leg), _WORDS_MM, gap_mm=0.8) - pen.mm(1.0)
    cautions(pen, (left, y), "At the saw", (*CRADLE, *_UPRIGHT_BLADE, WORDS_NOTE), _WORDS_MM)


def _at_the_saw(pen: Pen, leg: LegSizes) -> float:
    """The leg in its cradle against the blade at zero, measured; how deep the block is below the V."""
    shape, made = CRADLE_CARD.of(leg)
    thick, foot, block, unit = float(shape.largest), float(shape.foot), BLOCK_LENGTH[pen.unit], pen.unit
    wedge, lean, up = float(made.wedge_deg), float(leg.lean.total_lean_deg), float(made.foot_axis_height)
    c, s = cosd(wedge), sind(wedge)
    start = (_CLEAR + _FLANK * abs(s)) * thick
    cut = (up * s - start) / c  # where along the V the axis meets the blade
    hangs = _WASTE * thick * sind(lean) + foot / 2 * cosd(lean) - cut * s - up * c
    under = max(_UNDER * thick, (hangs + _ABOVE * thick) / c)
    vee = pen.inset((start, under * c + block * max(-s, 0.0)), turn_deg=wedge)
    axis = pen.inset(vee.at(cut, up), turn_deg=lean)
    toe, heel = vee.at(0.0, -under), vee.at(block, -under)
    shown = min(leg.axis_length, (heel[0] + _OVER * thick) / cosd(lean))
    rim = _rim(pen, leg, -_WASTE * thick, shown)
    under_side, upper_side = ([axis.at(along, side * half) for along, half in rim] for side in (-1, 1))
    low, high, below, above = under_side[0], upper_side[0], under_side[-1], upper_side[-1]
    end = [below, above] if shown == leg.axis_length else pen.broken(below, above)
    off = [_at_blade(edge) for edge in (under_side, upper_side)]
    pen.shape((toe, heel, (heel[0] if wedge > 0 else toe[0], 0.0)), "wood")
    pen.shape((*under_side[:-1], *end, *reversed(upper_side[:-1])), "far", "")
    pen.shape((low, *off, high), "far", "", hatch=True)
    pen.line(low, *upper_side)
    pen.line(*end, kind="thin")
    pen.shape((toe, heel, vee.at(block, _FLANK * thick), vee.at(0.0, _FLANK * thick)), "wood")
    pen.line(vee.at(0.0, 0.0), vee.at(block, 0.0), kind="hidden")
    pen.line(*under_side, kind="sight")
    pen.box(low[0], -pen.mm(2.2), below[0], 0.0, "far", "thin", hatch=True)
    pen.box(-pen.mm(1.4), -pen.mm(4.0), 0.0, off[1][1] + pen.mm(3.0), "pale")
    pen.text((-pen.mm(0.7), off[1][1] + pen.mm(4.2)), "blade", "small", "middle")
    pen.line(axis.at(-_WASTE * thick - pen.mm(4.0), 0.0), axis.at(shown + pen.mm(14.0), 0.0), kind="centre")
    x, y = axis.at(shown, 0.0)
    pen.line((x, y), (x + pen.mm(14.0), y), kind="thin")
    pen.angle((x, y), 12.0, 0.0, lean, write_angle(lean))
    pen.text((below[0] + pen.mm(1.5), below[1] - pen.mm(3.0)), "sight line", "small", clear=True)
    if wedge >= NEVER_DEG:
        pen.dimension((heel[0], 0.0), heel, -5.0, written(made.rise, unit))
    if 0.6 * block * pen.scale * tand(wedge) > 5.0:
        pen.angle(toe, 0.6 * block * pen.scale, 0.0, wedge, write_angle(wedge))
    middle = (shown - _WASTE * thick) / 2
    press = axis.at(middle, max(half for _, half in _rim(pen, leg, middle, middle + pen.mm(1.0))))
    pen.arrow((press[0], press[1] + pen.mm(6.0)), press)
    pen.text((press[0] - pen.mm(1.5), press[1] + pen.mm(3.4)), "clamp", "small", "end")
    return float(under)


def _is_plain(leg: LegSizes) -> bool:
    """Whether a leg tapers evenly from underside to floor."""
    made = turned_of(leg)
    below = [element for element, joint in zip(made.profile.elements, made.profile.joints[1:], strict=True)
             if joint > made.top * (1 + 1e-9) and element.length]  # fmt: skip
    return len(below) == 1 and below[0].shape in ("taper", "cylinder")


def _rim(pen: Pen, leg: LegSizes, start: float, stop: float) -> list[Point]:
    """A leg's outline between two distances from its foot, below 0 beyond it: distances and half diameters."""
    profile = turned_of(leg).profile
    upper, bulges = outline(profile)
    flat = Contour(tuple(upper), tuple(bulges)).flattened(pen.mm(_CHORD_MM)).points
    inside = [(profile.length - x, r) for x, r in reversed(flat) if start < profile.length - x < stop]

    def half(along: float) -> float:
        tapers = profile.elements[-1].shape == "taper"  # and goes on into the waste
        beyond = max(-along, 0.0) * profile.end_taper / 2 if tapers else 0.0
        return float(profile.radius_at(profile.length - max(along, 0.0))) + beyond

    return [(start, half(start)), *inside, (stop, half(stop))]


def _at_blade(edge: list[Point]) -> Point:
    """Where an edge of the leg crosses the upright blade at zero."""
    a, b = next(pair for pair in pairwise(edge) if pair[0][0] <= 0.0 <= pair[1][0])
    return 0.0, a[1] - a[0] * (b[1] - a[1]) / (b[0] - a[0])


def _from_the_end(pen: Pen, leg: LegSizes, under: float, at: Point) -> None:
    """The V from the foot end, with the leg's two diameters in it, right of the words."""
    made, unit = CRADLE_CARD.of(leg)[1], pen.unit
    thick, foot = leg.in_vee
    half, flank, high = (_FLANK + _CHEEK) * thick, _FLANK * thick, float(made.top_axis_height) + thick / 2
    factor = fitting_scale(2 * half, high + under, unit, 0.0, 0.0, _VEE_MM) / pen.scale
    middle = at[0] + pen.mm(_WORDS_MM + 14.0 + _VEE_MM[0] / 2)
    title = f"The V from the foot end, {ratio_words(pen.scale * factor, unit)}"
    pen.text((middle, at[1] - pen.mm(4.0)), title, "body", "middle", bold=True)
    view = pen.inset((middle, at[1] - pen.mm(12.0) - high * factor), factor)
    outline = ((-half, -under), (half, -under), (half, flank), (flank, flank), (0, 0), (-flank, flank), (-half, flank))
    pen.shape([view.at(*corner) for corner in outline], "wood")
    rings = [(thick, made.top_axis_height, half, "thin"), (foot, made.foot_axis_height, -half, "visible")]
    for diameter, up, edge, kind in rings if thick > foot else rings[:1]:
        pen.circle(view.at(0.0, up), diameter / 2 * factor, kind)
        pen.line(view.at(0.0, up), view.at(edge * 1.05, up), kind="centre")
        pen.dimension(view.at(edge, 0.0), view.at(edge, up), -5.0 if edge > 0 else 5.0, written(up, unit))
        pen.dot(view.at(0.0, up - diameter / 2), 0.8, "blue")
    (x, above), (_, below) = view.at(0.0, high), view.at(0.0, -under)
    sizes = f"{written(thick, unit)} at the top, {written(foot, unit)} at the foot"
    if not _is_plain(leg):
        sizes = f"lies as a taper of {sizes}"
    pen.text((x, above + pen.mm(1.2)), sizes, "small", "middle")
    pen.text((x, below - pen.mm(3.4)), "Dots: the sight line, underneath.", "small", "middle")


def _settings(pen: Pen, leg: LegSizes) -> list[tuple[str, str]]:
    """What to make and set, one below another."""
    made, block, gauge = CRADLE_CARD.of(leg)[1], BLOCK_LENGTH[pen.unit], GAUGE_HEIGHT[pen.unit]
    return [
        ("wedge", write_angle(made.wedge_deg)),
        (f"rise over {block:g}", written(made.rise, pen.unit)),
        ("total lean", write_angle(leg.lean.total_lean_deg)),
        (f"run on {gauge:g}", written(leg.gauge_run.plan, pen.unit)),
        ("packer", written(made.packer, pen.unit)),
        ("V of the block", "90°"),
        ("leg along its axis", written(leg.axis_length, pen.unit)),
    ]


def _words(pen: Pen, piece: Piece, leg: LegSizes) -> list[str]:
    """What the pictures say, and what to do in turn."""
    made = CRADLE_CARD.of(leg)[1]
    end, packer = "top" if made.wedge_deg > 0 else "foot", written(made.packer, pen.unit)
    block = f"{BLOCK_LENGTH[pen.unit]:g} long"
    words = [f"The wedge lifts the {end} end of the V-block, {block}: so the axis lies at the total lean."]
    if abs(made.off_vee_deg) >= NEVER_DEG:
        words.append(f"Or take a wedge at the total lean, and a packer of {packer} under the foot end.")
    if not _is_plain(leg):
        words.append(
            "Its beads touch the V at two places only: see that it lies on both, and check its axis by the gauge."
        )
    return [*words, *_STEPS, *([] if isinstance(piece, SeatPiece) else [_TOP_TOO])]


def _caption(_: Pen, leg: LegSizes) -> str:
    return f": wedge {write_angle(CRADLE_CARD.of(leg)[1].wedge_deg)} under a V of 90°, foot low"


def _spoken(pen: Pen, piece: Piece, leg: LegSizes) -> list[str]:
    return [f"{'; '.join(map(' '.join, _settings(pen, leg)))}.", *_words(pen, piece, leg)]
