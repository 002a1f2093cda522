"""Plate 1: the piece over all, from the front, from the side and in plan, beside a person."""

from __future__ import annotations

from fractions import Fraction

from furnlib.base.units import write_length
from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.plates.leg_plan import plan_box
from furnlib.draw.plates.views import draw_front, draw_person, draw_side, leg_height, plan_point, written
from furnlib.draw.scale import MM_UNIT, fitting_scale
from furnlib.plan.piece import CasePiece, Piece, SeatPiece

_PERSON_MM = 1750
_GAP_MM = 14.0


def height_to_width(height: Fraction, width: Fraction) -> str:
    """Height to width in whole numbers where these are small, else to three figures.

    Args:
        height: over all.
        width: over all, in the same unit.

    Returns:
        Words for a plate.

    Example:
        >>> height_to_width(Fraction(1300), Fraction(520)), height_to_width(Fraction(1301), Fraction(520))
        ('5 : 2', '2.50 : 1')
    """
    ratio = height / width
    if max(ratio.numerator, ratio.denominator) <= 16:
        return f"{ratio.numerator} : {ratio.denominator}"
    return f"{float(ratio):.2f} : 1" if ratio > 1 else f"1 : {float(1 / ratio):.2f}"


def overall_plate(piece: Piece, scale: float | None = None) -> Drawing:
    """Draw plate 1.

    Args:
        piece: a finished piece.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.

    Returns:
        Front, side and plan at one scale, lined up; master sizes in bold.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(overall_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[0])
        Landing chest over all: 1300 high, 520 wide, 380 deep.
    """
    design, unit = piece.design, piece.design.unit
    height, width, depth = (float(getattr(design.overall, name)) for name in ("height", "width", "depth"))
    left, front, right, rear = plan_box(piece)
    left, front, right, rear = min(left, 0.0), min(front, 0.0), max(right, width), max(rear, depth)
    scale = scale or fitting_scale(right - left + rear - front, height + rear - front, unit, 52.0, 56.0)
    pen = Pen(scale, unit)
    gap = pen.mm(_GAP_MM)
    side_x, plan_y = right + gap - front, -gap - rear
    draw_front(pen, piece, (0.0, 0.0))
    draw_side(pen, piece, (side_x, 0.0))
    pen.line((left - pen.mm(4), 0.0), (side_x + rear + pen.mm(4), 0.0), kind="thin")
    _plan(pen, piece, plan_y)

    def size(value: Fraction) -> str:
        return written(value, unit)

    pen.dimension((0.0, height), (width, height), 6.0, size(design.overall.width), bold=True)
    pen.dimension((side_x, height), (side_x + depth, height), 6.0, size(design.overall.depth), bold=True)
    pen.dimension((left, 0.0), (left, height), 14.0, size(design.overall.height), bold=True)
    _heights(pen, piece, side_x + depth, side_x + rear)
    for x, y, words in (
        (0.0, height, "Front"),
        (side_x, height, "Side, from the right"),
        (0.0, plan_y + rear, "Plan, front edge below"),
    ):
        lift = 13.5 if y else 2.0
        pen.text((x, y + pen.mm(lift if y == height else 2.0)), words, "small")
    _notes(pen, piece, plan_y)
    _beside_a_person(pen, piece, side_x, plan_y)
    return pen.drawing(
        "Overall",
        caption=f"{design.piece} over all: {size(design.overall.height)} high, {size(design.overall.width)} wide,"
        f" {size(design.overall.depth)} deep.\nHeight to width"
        f" {height_to_width(design.overall.height, design.overall.width)};"
        " sizes in bold are settled, the others follow.",
        spoken=_spoken(piece),
    )


def _heights(pen: Pen, piece: Piece, case_end: float, feet_end: float) -> None:
    """How the height divides between legs and what stands on them, beside the side view's rear edge."""
    unit, base, height = piece.design.unit, leg_height(piece), float(piece.design.overall.height)
    if isinstance(piece, CasePiece) and piece.design.legs:
        pen.dimension((0.0, base), (0.0, height), 6.0, written(piece.case.height, unit))
        pen.dimension((case_end, 0.0), (case_end, base), -5.0, written(piece.design.legs.height, unit), bold=True)
    if isinstance(piece, SeatPiece):
        front, rear = (float(under) for under in piece.stand.heights)
        pen.dimension((feet_end, 0.0), (feet_end, rear), -5.0, written(piece.stand.heights[1], unit))
        if front != rear:
            before = case_end - float(piece.design.overall.depth)
            pen.dimension((before, 0.0), (before, front), 5.0, written(front, unit))


def _plan(pen: Pen, piece: Piece, plan_y: float) -> None:
    design = piece.design
    origin = (0.0, plan_y)
    if piece.stand:
        pen.shape((plan_point(origin, corner) for corner in piece.stand.outline), "wood")
    else:
        pen.box(0.0, plan_y, float(design.overall.width), plan_y + float(design.overall.depth), "wood")
    for leg in piece.legs:
        pen.shape((plan_point(origin, c) for c in leg.top_corners), "", "hidden")
        pen.shape((plan_point(origin, c) for c in leg.foot_corners), "", "thin")
        pen.line(plan_point(origin, leg.top), plan_point(origin, leg.foot), kind="sight")
        pen.dot(plan_point(origin, leg.foot), 0.8)


def _notes(pen: Pen, piece: Piece, plan_y: float) -> None:
    """The chains in print, under the plan."""
    design = piece.design
    rows = [
        f"{chain.name.capitalize()}: {chain}" for chain in piece.chains if chain.name.split()[0] in {"height", "width"}
    ]
    rows = [row for row in rows if "row" not in row]
    rows.append(f"Height to width {height_to_width(design.overall.height, design.overall.width)}.")
    rows.append("Left and right as seen from the front. Bold: settled; the rest follows.")
    pen.lines((pen.mm(-14), pen.reach()[1] - pen.mm(2)), rows, "small", 1.5)


def _beside_a_person(pen: Pen, piece: Piece, side_x: float, plan_y: float) -> None:
    """The outline once more, small, with a person beside it."""
    design = piece.design
    person = _PERSON_MM / MM_UNIT[design.unit]
    height, width = float(design.overall.height), float(design.overall.width)
    depth = float(design.overall.depth)
    tallest = max(person, height)
    magnification = min(depth * 0.92 / tallest, (depth + pen.mm(6)) / (width + person * 0.36))
    inset = pen.inset((side_x + person * 0.34 * magnification, plan_y), magnification)
    draw_person(pen, (side_x + person * 0.15 * magnification, plan_y), person * magnification)
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    base = leg_height(piece)
    pen.shape((inset.at(x, base if y == 0 else y) for x, y in corners), "wood", "thin")
    for leg in piece.legs:
        top, foot = leg.top[0], leg.foot[0]
        pen.line(inset.at(top, base), inset.at(foot, 0.0), kind="visible")
    pen.line((side_x, plan_y), (side_x + (width + person * 0.36) * magnification, plan_y), kind="thin")
    tall = written(Fraction(_PERSON_MM), "mm") + " mm" if design.unit == "mm" else "5 ft 9"
    pen.text((side_x, plan_y + depth + pen.mm(2.0)), f"A person of {tall}", "small")


def _spoken(piece: Piece) -> str:
    design, unit = piece.design, piece.design.unit
    sizes = (getattr(design.overall, name) for name in ("height", "width", "depth"))
    height, width, depth = (write_length(size, unit, style="spoken") for size in sizes)
    legs = ""
    if piece.stand:
        legs = f", on legs {write_length(piece.stand.heights[0], unit, style='spoken')} high"
    rows = ""
    if isinstance(piece, CasePiece):
        rows = (
            ", with one row of drawers"
            if piece.design.rows.number == 1
            else (f", with {piece.design.rows.number} rows of drawers")
        )
    return (
        f"{design.piece} seen from the front, from the right side and in plan: {height} high, {width} wide and"
        f" {depth} deep{legs}{rows}."
    )
