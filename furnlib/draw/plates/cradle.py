"""The cradle for a turned leg: the leg in it at the saw, and the V from its end."""

from __future__ import annotations

from dataclasses import dataclass
from textwrap import wrap

from furnlib.base.angles import cosd, sind, tand
from furnlib.base.guards import DesignError
from furnlib.base.units import write_angle, write_length
from furnlib.draw.drawing import Drawing, Fill, Point
from furnlib.draw.pen import Inset, Pen
from furnlib.draw.plates.groups import WORDS_NOTE, group_name
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.design_legs import RoundLeg
from furnlib.plan.piece import Piece, SeatPiece
from furnlib.plan.sizes.legs import BLOCK_LENGTH, GAUGE_HEIGHT, LegSizes, mirror_groups
from furnlib.trade.cautions import CRADLE, TABLE_SAW
from furnlib.trade.leg.cradle import Cradle

_STEPS = (
    "1  Draw the sight line along the leg: one straight line, on the side that is to look outward.",
    "2  Screw the V-block to its wedge, and the wedge to a fence on the mitre gauge. Gauge square, blade upright.",
    "3  Lay the leg in the V: foot low and past the blade, sight line {where}. Clamp it.",
    "4  Saw. At the foot the outward side stays the longer. Left and right legs come from the same cradle.",
)
_PLUMB = (
    "1  The leg stands plumb and has no sight line; any side of it may lie underneath.",
    _STEPS[1],
    "3  Lay the leg in the V, foot past the blade. Clamp it.",
    "4  Saw.",
)
_TOP_TOO = "5  The top, where it is to be level too: the cradle's high end to the blade, the leg as it lay."
_WIDE_MM, _ANGLE_MM, _TABLE_MM = 181.0, 19.0, 38.0
_SAW_MM, _LOWER_MM = 75.0, (96.0, 50.0)  # room for the leg at the saw, and on a packer
_VEE_MM = (58.0, 60.0)
_UNDER, _FLANK, _CHEEK = 0.4, 0.5, 0.25  # of the V-block, in parts of the largest diameter
_WASTE, _CLEAR, _OVER = 0.35, 0.2, 0.3  # leg past the cut, block short of it, leg past the block
_ABOVE, _PACKER_LONG = (
    0.05,
    0.08,
)  # foot above the table, in parts of the largest diameter; packer, in those of the block
_LETTERS_BESIDE, _LETTERS = 68, 130  # on a line beside the V, and across the sheet
_NEVER_DEG = 0.05  # an angle below this is written 0°


def sheets_of_cradles(piece: Piece) -> int:
    """Count the cradles that a piece needs, each on a sheet of its own: one for every lean.

    Args:
        piece: a finished piece.

    Returns:
        How many sheets; 0 where no leg is turned.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sheets_of_cradles(read_piece("notebooks/designs/stool_three_legs.yaml"))
        2
    """
    return len(mirror_groups(tuple(leg for leg in piece.legs if leg.cradle)))


def cradle_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw a cradle.

    Args:
        piece: a finished piece with turned legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1, in the order of the legs; each holds one lean.

    Returns:
        The leg in its cradle at the saw, the same on a wedge at the total lean with a packer where
        the leg tapers, and the V from its end; what to do in turn, and what to mind.

    Raises:
        DesignError: when the legs are not turned.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> cradle_plate(read_piece("notebooks/designs/stool_three_legs.yaml"), number=2).name
        'Cradle 2'
    """
    group = mirror_groups(piece.legs)[number - 1]
    leg, unit, side = group[0], piece.design.unit, _side(piece, group[0])
    room = (_WIDE_MM - _ANGLE_MM - _TABLE_MM, _SAW_MM)
    pen = Pen(scale or fitting_scale(side.right - side.left, side.high, unit, 0.0, 0.0, room), unit)
    pen.text((0.0, 0.0), f"{group_name(group)}: at the saw, {ratio_words(pen.scale, unit)}", "body", bold=True)
    table = -side.high - pen.mm(8.0)
    _at_the_saw(pen, piece, leg, side, pen.inset((-side.left, table), 1.0))
    pen.table((pen.mm(_WIDE_MM - _TABLE_MM), pen.mm(-6.0)), _rows(piece, leg), bold_columns=(1,))
    y = min(table - pen.mm(6.0), pen.mm(-40.0))
    beneath = _from_the_end(pen, piece, leg, side.under, y)
    if _tapers(leg):
        y = min(beneath, _with_packer(pen, piece, leg, y))
    _foot(pen, piece, leg, y)
    return pen.drawing(
        f"Cradle {number}" if sheets_of_cradles(piece) > 1 else "Cradle",
        caption=_caption(piece, group),
        spoken=_spoken(piece, group),
        formulas=("cradle.off_vee", "lean.total_lean"),
    )


def _turned(leg: LegSizes) -> tuple[RoundLeg, Cradle]:
    """The diameters and the cradle of a turned leg."""
    if leg.round is None or leg.cradle is None:
        raise DesignError(f"The {leg.position} leg is square and needs no cradle; ask for the saw card instead.")
    return leg.round, leg.cradle


def _tapers(leg: LegSizes) -> bool:
    return bool(abs(_turned(leg)[1].off_vee_deg) >= _NEVER_DEG)


def _leans(leg: LegSizes) -> bool:
    return bool(leg.lean.total_lean_deg >= _NEVER_DEG)


def _where(leg: LegSizes) -> str:
    """Which side of the leg the sight line comes to lie on."""
    return "on top" if _turned(leg)[1].outward_up else "underneath"


# From the side


@dataclass(frozen=True)
class _Side:
    """The leg in its cradle from the side, in the piece's unit: across from the cut, up from the table.

    Args:
        block: corners of the V-block in turn: low at the foot end, low at the other, and above these.
        under: how deep it is below the V.
        root: both ends of the line in which the flats of the V meet, foot end first.
        foot: where the leg's axis meets the cut.
        along: direction of the axis, from the foot up.
        leg: corners of the leg in turn: under the axis at the foot, under it above, and over these.
        whole: True where the leg is drawn up to its top.
    """

    block: tuple[Point, ...]
    under: float
    root: tuple[Point, Point]
    foot: Point
    along: Point
    leg: tuple[Point, ...]
    whole: bool

    @property
    def left(self) -> float:
        """How far it goes to the left."""
        return min(x for x, _ in (*self.block, *self.leg))

    @property
    def right(self) -> float:
        """How far it goes to the right."""
        return max(x for x, _ in (*self.block, *self.leg))

    @property
    def high(self) -> float:
        """How far it goes up."""
        return max(y for _, y in (*self.block, *self.leg))

    def on_axis(self, across: float) -> Point:
        """The point of the axis, or of its extension, so far across."""
        return across, self.foot[1] + across * self.along[1] / self.along[0]


def _side(piece: Piece, leg: LegSizes, on_packer: bool = False) -> _Side:
    """The leg in its cradle, on the cradle's own wedge, or on a wedge at the total lean with a packer."""
    shape, made = _turned(leg)
    block, thick, thin = BLOCK_LENGTH[piece.design.unit], float(shape.largest), float(shape.foot)
    c, s = cosd(made.wedge_deg), sind(made.wedge_deg)
    along = cosd(leg.lean.total_lean_deg), sind(leg.lean.total_lean_deg)
    up, whole = float(made.foot_axis_height), float(leg.axis_length)
    start = (_CLEAR + _FLANK * abs(s)) * thick
    far = (up * s - start) / c  # where along the block the axis meets the cut
    hangs = _WASTE * thick * along[1] + thin / 2 * along[0] - far * s - up * c
    under = max(_UNDER * thick, (hangs + _ABOVE * thick) / c)
    level = under * c + block * (along[1] - s if on_packer else max(-s, 0.0))

    def on_block(far: float, above: float) -> Point:
        return start + far * c - above * s, level + far * s + above * c

    foot, heel = on_block(far, up), on_block(block, -under)
    shown = min(whole, (heel[0] + _OVER * thick) / along[0])

    def on_leg(on_axis: float, side: int) -> Point:
        off = side * (thin + (thick - thin) * on_axis / whole) / 2
        return foot[0] + on_axis * along[0] - off * along[1], foot[1] + on_axis * along[1] + off * along[0]

    return _Side(
        block=(on_block(0, -under), heel, on_block(block, _FLANK * thick), on_block(0, _FLANK * thick)),
        root=(on_block(0, 0), on_block(block, 0)),
        foot=foot,
        along=along,
        under=under,
        leg=(on_leg(-_WASTE * thick, -1), on_leg(shown, -1), on_leg(shown, 1), on_leg(-_WASTE * thick, 1)),
        whole=shown == whole,
    )


def _scene(pen: Pen, view: Inset, side: _Side, beneath: tuple[tuple[str, tuple[Point, ...]], ...]) -> Point:
    """Table, what lies beneath the V-block, leg, block, sight line and blade; says where the blade ends."""
    low, under, over, high = (view.at(*corner) for corner in side.leg)
    table, right, cut = view.at(side.left, 0.0), view.at(side.right, 0.0), view.at(*side.foot)
    pen.box(table[0], table[1] - pen.mm(2.2), right[0], table[1], "far", "thin", hatch=True)
    for tint, corners in beneath:
        pen.shape([view.at(*corner) for corner in corners], tint)
    pen.shape((low, under, over, high), "far", "")
    share = [(cut[0] - a[0]) / (b[0] - a[0]) for a, b in ((low, under), (high, over))]
    off = [(cut[0], a[1] + t * (b[1] - a[1])) for t, (a, b) in zip(share, ((low, under), (high, over)), strict=True)]
    pen.items.append(Fill((low, off[0], off[1], high), "far", hatch=True))
    pen.line(low, high)
    pen.line(high, over)
    if side.whole:
        pen.line(under, over)
    else:
        _break_line(pen, under, over)
    pen.shape([view.at(*corner) for corner in side.block], "wood")
    pen.line(*(view.at(*end) for end in side.root), kind="hidden")
    pen.line(low, under, kind="sight" if side.along[1] >= sind(_NEVER_DEG) else "thin")
    tip = (cut[0], off[1][1] + pen.mm(3.0))
    pen.box(tip[0] - pen.mm(1.4), table[1] - pen.mm(4.0), *tip, "pale")
    return tip


def _break_line(pen: Pen, start: Point, end: Point) -> None:
    """Across a leg that goes on: straight, with a jog in the middle."""
    way = (end[0] - start[0], end[1] - start[1])
    jog = pen.mm(1.5) / (way[0] ** 2 + way[1] ** 2) ** 0.5
    places = ((0.0, 0.0), (0.45, 0.0), (0.48, jog), (0.52, -jog), (0.55, 0.0), (1.0, 0.0))
    pen.line(
        *((start[0] + t * way[0] + off * way[1], start[1] + t * way[1] - off * way[0]) for t, off in places),
        kind="thin",
    )


def _at_the_saw(pen: Pen, piece: Piece, leg: LegSizes, side: _Side, view: Inset) -> None:
    """The leg in its cradle against the blade, measured."""
    unit, made, (low, heel) = piece.design.unit, _turned(leg)[1], side.block[:2]
    wedge, lean = float(made.wedge_deg), float(leg.lean.total_lean_deg)
    thick = heel if wedge > 0 else low
    blade = _scene(pen, view, side, (("wood", (low, heel, (thick[0], 0.0))),))
    pen.text((blade[0] - pen.mm(0.7), blade[1] + pen.mm(1.2)), "blade", "small", "middle")
    _, under, *over = side.leg
    axis = side.on_axis(min(heel[0], (under[0] + over[0][0]) / 2))
    reach = under[0] - axis[0] + pen.mm(4.0)
    level = (axis[0] + reach + pen.mm(2.0), axis[1])
    ends = (side.on_axis(side.left - pen.mm(2.0)), side.on_axis(level[0]))
    pen.line(*(view.at(*end) for end in ends), kind="centre")
    if _leans(leg):
        pen.line(view.at(*axis), view.at(*level), kind="thin")
        pen.angle(view.at(*axis), reach * pen.scale, 0.0, lean, write_angle(lean))
        label = view.at(*under)
        pen.text((label[0] + pen.mm(1.5), label[1] - pen.mm(3.0)), "sight line", "small", clear=True)
    radius = 0.6 * BLOCK_LENGTH[unit] * pen.scale
    if wedge >= _NEVER_DEG:
        pen.dimension(view.at(heel[0], 0.0), view.at(*heel), -5.0, written(made.rise, unit))
    if wedge > 0 and radius * tand(wedge) > 5.0:
        pen.angle(view.at(*low), radius, 0.0, wedge, write_angle(wedge))
    press = view.at((over[0][0] + over[1][0]) / 2, (over[0][1] + over[1][1]) / 2)
    pen.line((press[0] + pen.mm(0.9), press[1] + pen.mm(1.5)), press, (press[0] - pen.mm(0.9), press[1] + pen.mm(1.5)))
    pen.line(press, (press[0], press[1] + pen.mm(5.5)))
    pen.text((press[0] - pen.mm(1.5), press[1] + pen.mm(3.4)), "clamp", "small", "end")


def _with_packer(pen: Pen, piece: Piece, leg: LegSizes, top: float) -> float:
    """The same leg on a wedge at the total lean, a packer under the foot end of the V-block; says how far down."""
    unit, packer, side = piece.design.unit, float(_turned(leg)[1].packer), _side(piece, leg, on_packer=True)
    fits = fitting_scale(side.right - side.left, side.high, unit, 0.0, 0.0, _LOWER_MM)
    magnification = min(fits / pen.scale, 1.0)
    title = f"Or on a packer at the foot end, {ratio_words(pen.scale * magnification, unit)}"
    pen.text((0.0, top - pen.mm(4.0)), title, "body", bold=True)
    table = top - pen.mm(10.0) - side.high * magnification
    view = pen.inset((-side.left * magnification, table), magnification)
    (low, heel), (c, s), block = side.block[:2], side.along, BLOCK_LENGTH[unit]
    toe = (heel[0] - block * c, heel[1] - block * s)
    inner = (low[0] + (heel[0] - low[0]) * _PACKER_LONG, low[1] + (heel[1] - low[1]) * _PACKER_LONG)
    drops = ((inner, packer * (1 - _PACKER_LONG)), (low, packer))
    under = ((x + drop * s, y - drop * c) for (x, y), drop in drops)
    _scene(pen, view, side, (("wood", (toe, heel, (heel[0], 0.0))), ("ochre", (low, inner, *under))))
    radius = 0.6 * block * magnification * pen.scale
    if radius * s > 5.0 * c:
        pen.angle(view.at(*toe), radius, 0.0, float(leg.lean.total_lean_deg), write_angle(leg.lean.total_lean_deg))
    at = view.at((low[0] + inner[0]) / 2, (low[1] + inner[1]) / 2 - packer / 2)
    pen.line(at, (at[0], table - pen.mm(4.0)), kind="thin")
    pen.text((at[0] - pen.mm(1.0), table - pen.mm(6.6)), f"packer {written(packer, unit)}", "small")
    return table - pen.mm(8.0)


# From the end


def _from_the_end(pen: Pen, piece: Piece, leg: LegSizes, under: float, top: float) -> float:
    """The V from the foot end, with the leg's two diameters in it; says how far down it reaches."""
    unit, (shape, made) = piece.design.unit, _turned(leg)
    thick = float(shape.largest)
    flank, half = _FLANK * thick, (_FLANK + _CHEEK) * thick
    rings = [(float(shape.largest), float(made.top_axis_height)), (float(shape.foot), float(made.foot_axis_height))]
    high = rings[0][1] + thick / 2
    magnification = fitting_scale(2 * half, high + under, unit, 0.0, 0.0, _VEE_MM) / pen.scale
    middle = pen.mm(_WIDE_MM - _VEE_MM[0] / 2 - 12.0)
    title = f"The V from the foot end, {ratio_words(pen.scale * magnification, unit)}"
    pen.text((middle, top - pen.mm(4.0)), title, "body", "middle", bold=True)
    view = pen.inset((middle, top - pen.mm(12.0) - high * magnification), magnification)
    outline = ((-half, -under), (half, -under), (half, flank), (flank, flank), (0, 0), (-flank, flank), (-half, flank))
    pen.shape([view.at(*corner) for corner in outline], "wood")
    for number, (diameter, up) in enumerate(rings if _tapers(leg) else rings[:1]):
        pen.circle(view.at(0.0, up), diameter / 2 * magnification, "visible" if number else "thin")
        edge = -half if number else half
        pen.line(view.at(0.0, up), view.at(edge * 1.05, up), kind="centre")
        pen.dimension(view.at(edge, 0.0), view.at(edge, up), 5.0 if number else -5.0, written(up, unit))
        if _leans(leg):
            pen.dot(view.at(0.0, up + (diameter if made.outward_up else -diameter) / 2), 0.8, "blue")
    above, below = view.at(0.0, high), view.at(0.0, -under)
    whole = f"{written(shape.largest, unit)} at the top" if _tapers(leg) else written(shape.largest, unit)
    pen.text((above[0], above[1] + pen.mm(1.2)), whole, "small", "middle")
    if _tapers(leg):
        name = f"{written(shape.foot, unit)} at the foot"
        roomy = text_width_mm(name, "small") < float(shape.foot) * magnification * pen.scale
        pen.centred(view.at(0.0, rings[1][1]), name if roomy else written(shape.foot, unit), "small")
    if _leans(leg):
        pen.text((below[0], below[1] - pen.mm(3.4)), f"Dots: the sight line, {_where(leg)}.", "small", "middle")
    return below[1] - pen.mm(6.0)


# Words


def _rows(piece: Piece, leg: LegSizes) -> list[tuple[str, str]]:
    """The settings, one below another."""
    unit, made, gauge = piece.design.unit, _turned(leg)[1], GAUGE_HEIGHT[piece.design.unit]
    rows = [
        ("cradle", ""),
        ("wedge", write_angle(made.wedge_deg)),
        (f"rise over {written(BLOCK_LENGTH[unit], unit)}", written(made.rise, unit)),
        ("total lean", write_angle(leg.lean.total_lean_deg)),
        (f"run on {gauge:g}", written(leg.gauge_run.plan, unit)),
    ]
    if _tapers(leg):
        rows.append(("packer", written(made.packer, unit)))
    return [*rows, ("V of the block", "90°"), ("leg along its axis", written(leg.axis_length, unit))]


def _foot(pen: Pen, piece: Piece, leg: LegSizes, top: float) -> None:
    """What the pictures say, what to do in turn, and what to mind."""
    block, wedge = written(BLOCK_LENGTH[piece.design.unit], piece.design.unit), _turned(leg)[1].wedge_deg
    end = "top" if wedge > 0 else "foot"
    words = ["The V-block lies flat on the table, without a wedge."]
    if abs(wedge) >= _NEVER_DEG:
        words = [f"The wedge lifts the {end} end of the V-block, {block} long: so the axis lies at the total lean."]
    if _tapers(leg):
        on = "on a wedge at the total lean" if _leans(leg) else "without a wedge"
        words.append(f"A packer under the foot end does the same {on}.")
    steps = _STEPS if _leans(leg) else _PLUMB
    words += [step.format(where=_where(leg)) for step in steps]
    if not isinstance(piece, SeatPiece):
        words.append(_TOP_TOO)
    letters = _LETTERS if _tapers(leg) else _LETTERS_BESIDE

    def lines(sentences: tuple[str, ...]) -> list[str]:
        return [line for sentence in sentences for line in wrap(sentence, letters, subsequent_indent="    ")]

    y = pen.lines((0.0, top), lines(tuple(words)), "small", 1.5)
    y = pen.lines((0.0, y - pen.mm(1.0)), ("At the saw",), "body")
    pen.lines((0.0, y - pen.mm(0.5)), lines((*CRADLE, *TABLE_SAW, WORDS_NOTE)), "small", 1.5)


def _caption(piece: Piece, group: tuple[LegSizes, ...]) -> str:
    made = _turned(group[0])[1]
    return (
        f"Cradle for turned legs of {piece.design.piece}: the axis at the total lean, so that the foot is cut level.\n"
        f"{group_name(group)}: wedge {write_angle(made.wedge_deg)} under a V of 90°, foot low."
    )


def _spoken(piece: Piece, group: tuple[LegSizes, ...]) -> str:
    unit, leg, made = piece.design.unit, group[0], _turned(group[0])[1]
    return (
        f"Cradle for turned legs of {piece.design.piece}, at the saw and from its end."
        f" {', '.join(leg.position for leg in group).capitalize()}: wedge {write_angle(made.wedge_deg)}, rising"
        f" {write_length(made.rise, unit, style='spoken')} over a V-block of"
        f" {write_length(BLOCK_LENGTH[unit], unit, style='spoken')}; total lean"
        f" {write_angle(leg.lean.total_lean_deg)}; packer {write_length(made.packer, unit, style='spoken')};"
        f" sight line {_where(leg)}; {write_length(leg.axis_length, unit, style='spoken')} along the axis."
    )
