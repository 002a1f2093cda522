"""Regulating lines: the front of a case twice, with its legs and without, and the ratio of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil

from furnlib.base.units import Unit, write_number
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT, fitting_scale
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.trade.case.proportion import NearRatio, leg_share, named_ratios, nearest_ratios, regulating_lines
from furnlib.trade.case.ratios import Ratio

_COLUMN_MM, _BETWEEN_MM, _BEFORE_MM = 82.0, 6.0, 11.0  # of words under a field, between two, for its height
_ABOVE_MM = 10.0  # for its width
_NEAR = 0.05  # a coarser ratio further off is not told
_PAGE_MM = (66.0, 70.0)  # width and height of a field that grows under the hand
_KEY = {
    "diagonal": ("thin", "diagonals"),
    "reciprocal": ("sight", "square to a diagonal: cuts off the reciprocal"),
    "rabatment": ("compared", "square of the shorter side"),
    "part": ("hatch", "the ratio's own parts, else square and gnomon"),
}
"""Line kind and words of each kind of regulating line."""


def proportion_plate(
    piece: Piece, scale: float | None = None, most: tuple[Fraction, Fraction] | None = None
) -> Drawing:
    """Draw the front of a case twice with its regulating lines: the silhouette, and the case field.

    Args:
        piece: a finished case; one without legs is drawn once.
        scale: mm on paper for one unit of the piece; by default the largest that fits.
        most: height and width to leave room for, so that nothing jumps while the piece grows under the hand.

    Returns:
        Both fields at one scale on one floor line, each with diagonals, reciprocals, squares and the
        parts of its ratio; the ratio of each in words, and what share of the height the legs take.

    Raises:
        DesignError: when the piece has no case.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(proportion_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[0])
        Landing chest, height to width: silhouette 5 : 2 exactly; case field 11 : 5, 0.4 % off.
    """
    piece = case_of(piece)
    overall, unit, legs = piece.design.overall, piece.design.unit, piece.case.leg_height
    fields = {"Silhouette, legs in": overall.height, "Case field, legs out": piece.case.height}
    if not legs:
        fields = {"Silhouette; there are no legs to leave out": overall.height}
    high, wide = (float(size) for size in most or (overall.height, overall.width))
    pen = Pen(scale or _fitting(high, wide, unit, on_page=most is not None), unit)
    column = max(wide, pen.mm(_COLUMN_MM - _BEFORE_MM)) + pen.mm(_BEFORE_MM + _BETWEEN_MM)
    said = [ratio_in_words(height, overall.width) for height in fields.values()]
    for number, ((name, height), words) in enumerate(zip(fields.items(), said, strict=True)):
        x = number * column
        named = named_ratios(height, overall.width)[:1]
        _field(pen, piece, height, x, named[0][0] if named else None)
        pen.text((x - pen.mm(_BEFORE_MM), -pen.mm(5.5)), f"{name}: {words}", "body", bold=True)
        parts = fitting_words(_words(height, overall.width, named), column * pen.scale - _BETWEEN_MM)
        pen.text((x - pen.mm(_BEFORE_MM), -pen.mm(9.5)), parts, "small")
    pen.line((-pen.mm(_BEFORE_MM), 0.0), (2 * column - pen.mm(_BEFORE_MM + _BETWEEN_MM), 0.0), kind="thin")
    pen.text((-pen.mm(_BEFORE_MM), -pen.mm(14.5)), _legs_and_both(piece, said), "small")
    _key(pen, (-pen.mm(_BEFORE_MM), -pen.mm(19.0)), column)
    both = f"silhouette {said[0]}; case field {said[1]}" if legs else said[0]
    drawing = pen.drawing(
        "Proportion",
        caption=f"{piece.design.piece}, height to width: {both}.\n{_legs_and_both(piece, said)}",
        spoken=f"The front of {piece.design.piece} with its regulating lines. Height to width: {both}."
        f" {_legs_and_both(piece, said)} Lengths in {unit}.",
        formulas=("proportion.ratio", "proportion.leg_share", "proportion.reciprocal"),
    )
    left, bottom, right, top = drawing.box
    return replace(drawing, box=(left, bottom, right, max(top, high + pen.mm(_ABOVE_MM)))) if most else drawing


def ratio_in_words(height: Fraction, width: Fraction) -> str:
    """The nearest ratio of small whole numbers, and how far off it is.

    Args:
        height: of what is measured.
        width: of the same, in the same unit.

    Returns:
        Height to width in words, no number in it above 16.

    Example:
        >>> ratio_in_words(Fraction(1300), Fraction(520)), ratio_in_words(Fraction(510), Fraction(1520))
        ('5 : 2 exactly', '1 : 3, 0.7 % off')
    """
    nearest = _up_to_nearest(height, width)[-1]
    return f"{nearest.numerator} : {nearest.denominator}{off_in_words(nearest.off)}"


def _up_to_nearest(height: Fraction, width: Fraction) -> Sequence[NearRatio]:
    """Ratios of whole numbers near a front, the coarsest first and the least off last."""
    found = nearest_ratios(height, width)
    return found[: min(range(len(found)), key=lambda place: abs(found[place].off)) + 1]


def ratio_name(ratio: Ratio, upright: bool) -> str:
    """What a ratio is called on a plate, whole numbers height first.

    Args:
        ratio: one of the ratio systems' own.
        upright: True where the height is the longer side.

    Returns:
        Its whole numbers or its name.

    Example:
        >>> from furnlib.trade.case.ratios import ratios
        >>> [ratio_name(ratio, upright=True) for ratio in ratios("whole numbers", "root rectangles")][12:17]
        ['5 : 2', '8 : 3', '3 : 1', '4 : 1', 'root 2']
    """
    if ratio.system != "whole numbers" or not ratio.exact:
        return ratio.name
    long, short = ratio.exact.as_integer_ratio()
    return f"{long} : {short}" if upright else f"{short} : {long}"


def off_in_words(off: float) -> str:
    """How far a size lands from a ratio, to follow the ratio's name.

    Args:
        off: one over the other, less 1.

    Returns:
        " exactly", or the per cent after a comma.

    Example:
        >>> off_in_words(0.0), off_in_words(-0.0182), off_in_words(0.0001)
        (' exactly', ', 1.8 % off', ', under 0.1 % off')
    """
    if not off:
        return " exactly"
    return f", {100 * abs(off):.1f} % off" if abs(off) >= 0.0005 else ", under 0.1 % off"


def _fitting(height: float, width: float, unit: Unit, *, on_page: bool) -> float:
    """The largest usual scale on a sheet; on the page, where there is no sheet to be true to, any whole ratio."""
    if not on_page:
        return fitting_scale(2 * width, height, unit, 2 * _BEFORE_MM + _BETWEEN_MM + 4.0, 44.0)
    return MM_UNIT[unit] / ceil(MM_UNIT[unit] * max(width / _PAGE_MM[0], height / _PAGE_MM[1]))


def _words(height: Fraction, width: Fraction, named: Sequence[tuple[Ratio, float]]) -> tuple[str, str]:
    """The ratio whose parts are drawn, and the next coarser one of whole numbers where it is near; or without it."""
    drawn = [f"Parts drawn of {ratio_name(ratio, height >= width)}{off_in_words(off)}." for ratio, off in named]
    coarser = [
        f"Coarser: {near.numerator} : {near.denominator}{off_in_words(near.off)}."
        for near in _up_to_nearest(height, width)[-2:-1]
        if abs(near.off) < _NEAR
        and {near.numerator, near.denominator} not in [{*(ratio.exact or 0).as_integer_ratio()} for ratio, _ in named]
    ]
    drawn = drawn or ["No ratio with a name within 2 %."]
    return " ".join(drawn + coarser), drawn[0]


def _legs_and_both(piece: CasePiece, said: list[str]) -> str:
    """The legs' share of the height, and both ratios side by side."""
    legs, height, unit = piece.case.leg_height, piece.design.overall.height, piece.design.unit
    if not legs:
        return "No legs: silhouette and case field are one."
    share = write_number(1 / leg_share(legs, height), 1)
    with_legs, without = (words.partition(",")[0].removesuffix(" exactly") for words in said)
    return (
        f"Legs {written(legs, unit)} of {written(height, unit)}, 1 : {share} of the height;"
        f" {with_legs} with them, {without} without."
    )


def _field(pen: Pen, piece: CasePiece, height: Fraction, x: float, named: Ratio | None) -> None:
    """The front with one field tinted, the lines in it, its height and width beside it."""
    overall, unit = piece.design.overall, pen.unit
    width, top, base = float(overall.width), float(overall.height), float(piece.case.leg_height)
    low = top - float(height)
    pen.box(x, low, x + width, top, "far", "")
    for leg in piece.legs:  # without its profile: from edge to edge at the top and at the foot
        at_top, at_foot = ([x + across for across, _ in ends] for ends in (leg.top_corners, leg.foot_corners))
        outline = ((min(at_top), base), (max(at_top), base), (max(at_foot), 0.0), (min(at_foot), 0.0))
        pen.shape(outline, "" if low else "wood", "thin")
    pen.box(x, base, x + width, top, "" if low else "wood", "thin")
    for line in regulating_lines(width, float(height), named):
        ends: list[Point] = [(x + across, low + up) for across, up in (line.start, line.end)]
        pen.line(*ends, kind=_KEY[line.kind][0])
    pen.box(x, low, x + width, top)
    pen.dimension((x, top), (x + width, top), 4.0, written(overall.width, unit), bold=True)
    pen.dimension((x, low), (x, top), 5.0, written(height, unit), bold=not low)


def _key(pen: Pen, at: Point, column: float) -> None:
    """What the line kinds mean, two columns of two."""
    for number, (kind, words) in enumerate(_KEY.values()):
        x, y = at[0] + number // 2 * column, at[1] - pen.mm(1.0 + 3.6 * (number % 2))
        pen.line((x, y), (x + pen.mm(9.0), y), kind=kind)
        pen.text((x + pen.mm(10.5), y - pen.mm(0.8)), words, "small")
