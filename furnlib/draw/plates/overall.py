"""Plate 1: the piece over all, from the front, from the side and in plan, beside a person."""

from __future__ import annotations

from fractions import Fraction

from furnlib.draw.drawing import Drawing
from furnlib.draw.pen import Pen
from furnlib.draw.plates.elevations import draw_front, draw_side
from furnlib.draw.plates.leg_plan import plan_box
from furnlib.draw.plates.views import draw_person, leg_height, written
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
    overall, unit = piece.design.overall, piece.design.unit
    height, width, depth = float(overall.height), float(overall.width), float(overall.depth)
    left, front, right, rear = plan_box(piece)
    left, front, right, rear = min(left, 0.0), min(front, 0.0), max(right, width), max(rear, depth)
    pen = Pen(scale or fitting_scale(right - left + rear - front, height + rear - front, unit, 52.0, 56.0), unit)
    side_x, plan_y = right + pen.mm(_GAP_MM) - front, -pen.mm(_GAP_MM) - rear
    draw_front(pen, piece, (0.0, 0.0))
    draw_side(pen, piece, (side_x, 0.0))
    pen.line((left - pen.mm(4), 0.0), (side_x + rear + pen.mm(4), 0.0), kind="thin")
    _plan(pen, piece, plan_y)

    high, wide, deep = (written(size, unit) for size in (overall.height, overall.width, overall.depth))
    pen.dimension((0.0, height), (width, height), 6.0, wide, bold=True)
    pen.dimension((side_x, height), (side_x + depth, height), 6.0, deep, bold=True)
    pen.dimension((left, 0.0), (left, height), 14.0, high, bold=True)
    _heights(pen, piece, side_x + depth, side_x + rear)
    pen.text((0.0, height + pen.mm(13.5)), "Front", "small")
    pen.text((side_x, height + pen.mm(13.5)), "Side, from the right", "small")
    pen.text((0.0, plan_y + rear + pen.mm(2.0)), "Plan, front edge below", "small")
    _notes(pen, piece)
    _beside_a_person(pen, piece, side_x, plan_y)
    return pen.drawing(
        "Overall",
        caption=f"{piece.design.piece} over all: {high} high, {wide} wide, {deep} deep.\nHeight to width"
        f" {height_to_width(overall.height, overall.width)}; sizes in bold are settled, the others follow.",
        spoken=f"{piece.design.piece} seen from the front, from the right side and in plan: {high} high, {wide} wide"
        f" and {deep} deep{_what_it_has(piece)}. Lengths in {unit}.",
    )


def _heights(pen: Pen, piece: Piece, case_end: float, feet_end: float) -> None:
    """How the height divides between legs and what stands on them, beside the side view's rear edge."""
    unit, base, height = piece.design.unit, leg_height(piece), float(piece.design.overall.height)
    if isinstance(piece, CasePiece) and piece.design.legs:
        pen.dimension((0.0, base), (0.0, height), 6.0, written(piece.case.height, unit))
        settled = piece.case.leg_height == piece.design.legs.height
        pen.dimension((case_end, 0.0), (case_end, base), -5.0, written(piece.case.leg_height, unit), bold=settled)
    if isinstance(piece, SeatPiece):
        front, rear = (float(under) for under in piece.stand.heights)
        pen.dimension((feet_end, 0.0), (feet_end, rear), -5.0, written(piece.stand.heights[1], unit))
        if front != rear:
            before = case_end - float(piece.design.overall.depth)
            pen.dimension((before, 0.0), (before, front), 5.0, written(front, unit))


def _plan(pen: Pen, piece: Piece, plan_y: float) -> None:
    """What the legs stand under, a partition above it, their tops and feet."""
    inset, overall = pen.inset((0.0, plan_y)), piece.design.overall
    if piece.stand:
        pen.shape((inset.at(*corner) for corner in piece.stand.outline), "wood")
    else:
        pen.box(0.0, plan_y, float(overall.width), plan_y + float(overall.depth), "wood")
    for across in map(float, piece.case.partitions) if isinstance(piece, CasePiece) else ():
        pen.line((across, plan_y), (across, plan_y + float(overall.depth)), kind="hidden")
    for leg in piece.legs:
        pen.shape((inset.at(*corner) for corner in leg.top_corners), "", "hidden")
        pen.shape((inset.at(*corner) for corner in leg.foot_corners), "", "thin")
        pen.line(inset.at(*leg.top), inset.at(*leg.foot), kind="sight")
        pen.dot(inset.at(*leg.foot), 0.8)


def _notes(pen: Pen, piece: Piece) -> None:
    """The chains in print, under the plan."""
    overall = piece.design.overall
    chains = [chain for chain in piece.chains if chain.name.startswith(("height", "width")) and "row" not in chain.name]
    rows = [f"{chain.name.capitalize()}: {chain}" for chain in chains]
    rows.append(f"Height to width {height_to_width(overall.height, overall.width)}.")
    rows.append("Left and right as seen from the front. Bold: settled; the rest follows.")
    pen.lines((pen.mm(-14), pen.reach()[1] - pen.mm(2)), rows, "small", 1.5)


def _beside_a_person(pen: Pen, piece: Piece, side_x: float, plan_y: float) -> None:
    """The outline once more, small, with a person beside it."""
    overall, unit, base = piece.design.overall, piece.design.unit, leg_height(piece)
    height, width, depth = float(overall.height), float(overall.width), float(overall.depth)
    person = _PERSON_MM / MM_UNIT[unit]
    magnification = min(depth * 0.92 / max(person, height), (depth + pen.mm(6)) / (width + person * 0.36))
    inset = pen.inset((side_x + person * 0.34 * magnification, plan_y), magnification)
    draw_person(pen, (side_x + person * 0.15 * magnification, plan_y), person * magnification)
    pen.box(*inset.at(0.0, base), *inset.at(width, height), "wood", "thin")
    for leg in piece.legs:
        pen.line(inset.at(leg.top[0], base), inset.at(leg.foot[0], 0.0))
    pen.line((side_x, plan_y), (side_x + (width + person * 0.36) * magnification, plan_y), kind="thin")
    tall = f"{_PERSON_MM} mm" if unit == "mm" else "5 ft 9"
    pen.text((side_x, plan_y + depth + pen.mm(2.0)), f"A person of {tall}", "small")


def _what_it_has(piece: Piece) -> str:
    """Legs and drawers, in words."""
    words = f", on legs {written(piece.stand.heights[0], piece.design.unit)} high" if piece.stand else ""
    if isinstance(piece, CasePiece):
        counts = [len(bank.rows.rows) for bank in piece.banks if bank.rows]
        banks = f"{len(counts)} banks of " if len(counts) > 1 else ""
        words += f", with {banks}{' and '.join(map(str, dict.fromkeys(counts)))} row{'s' if max(counts) > 1 else ''}"
        words += " of drawers" + " beside an open bay" * any(bank.rows is None for bank in piece.banks)
    return words
