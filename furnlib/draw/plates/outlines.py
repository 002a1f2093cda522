"""Outlines side by side: the piece, and what else the brief's limits allow, with a person in a doorway for size."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit
from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import NO_BREAK, folded
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import fitted
from furnlib.draw.plates.elevations import leg_outline
from furnlib.draw.plates.proportion import off_in_words, ratio_in_words, ratio_name
from furnlib.draw.plates.views import draw_person, written
from furnlib.draw.scale import MM_UNIT
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.brief import brief_outlines

_PERSON_MM = 1750
_DOOR: dict[Unit, tuple[float, float]] = {"mm": (2000.0, 800.0), "in": (80.0, 32.0)}
_BESIDE = {
    "mm": f"A person of 1750 mm in a door of 2000{NO_BREAK}x{NO_BREAK}800",
    "in": f"A person of 5{NO_BREAK}ft{NO_BREAK}9 in a door of 80{NO_BREAK}x{NO_BREAK}32",
}
_OTHERS = 3  # outlines beside the piece's own
_FIELDS = {"silhouette": f"legs{NO_BREAK}in", "case": f"case field, legs{NO_BREAK}out"}
_BETWEEN_MM, _WORDS_MM, _LINE_MM, _NOTE_MM = 4.0, 29.0, 3.5, 160.0


class _Shown(NamedTuple):
    """One outline as it stands on the plate: its sizes and what is said of it, the piece's own in bold."""

    height: Fraction
    width: Fraction
    legs: Fraction
    words: str
    own: bool = False


def outlines_plate(piece: Piece, scale: float | None = None) -> Drawing:
    """Draw the piece's outline beside others that the brief's limits allow.

    Args:
        piece: a finished case whose brief has limits of height and width.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.

    Returns:
        The piece's own outline in bold and up to three more, each landing on another ratio, closest
        first, on one floor line beside a person in a doorway; none is called right. Where no ratio fits
        between the limits, the piece alone, and which limit binds.

    Raises:
        DesignError: when the piece has no case, or its brief has no limits.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(outlines_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[0])
        Landing chest 1300 x 520 beside other outlines within its limits, height x width.
    """
    piece = case_of(piece)
    if not has_limits(piece):
        raise DesignError(
            f"The brief of {piece.design.piece} has no limits of height and width; add 'brief:' with both, as in the"
            " demo design."
        )
    unit, (shown, note) = piece.design.unit, _shown(piece)
    pen = fitted(unit, lambda pen: _draw(pen, piece, shown, note), scale)
    said = [
        f"{written(one.height, unit)} x {written(one.width, unit)}, {one.words}".replace(NO_BREAK, " ") for one in shown
    ]
    return pen.drawing(
        "Outlines",
        caption=f"{piece.design.piece} {said[0].partition(',')[0]} beside other outlines within its limits,"
        f" height x width.\n{_limits(piece)} {note}",
        spoken=f"Outlines on one floor line, height by width: the piece itself {'; '.join(said)}."
        f" {_BESIDE[unit].replace(NO_BREAK, ' ')} stands beside them. {note} Lengths in {unit}.",
        formulas=("proportion.ratio",),
    )


def has_limits(piece: Piece) -> bool:
    """Tell whether a piece's brief limits both its height and its width.

    Args:
        piece: a finished piece.

    Returns:
        True where other outlines can be drawn.
    """
    brief = piece.design.brief if isinstance(piece, CasePiece) else None
    return brief is not None and brief.height is not None and brief.width is not None


def _shown(piece: CasePiece) -> tuple[list[_Shown], str]:
    """The piece's own outline, then the best of other ratios; how they stand, or why there is no other."""
    overall, legs = piece.design.overall, piece.case.leg_height
    assert piece.design.brief
    field = piece.design.brief.field
    height = piece.case.height if field == "case" else overall.height
    own = _Shown(
        overall.height, overall.width, legs, f"{ratio_in_words(height, overall.width)} ({_FIELDS[field]})", own=True
    )
    try:
        found = brief_outlines(piece.design)
    except DesignError as none:  # the piece has its plate all the same
        return [own], str(none)
    others = [
        _Shown(
            one.height, one.width, one.leg_height,
            f"{ratio_name(one.ratio, one.upright)}{off_in_words(one.off)} ({_FIELDS[one.field]})",
        )
        for one in found
        if (one.case if field == "case" else one.silhouette) != height / overall.width
    ]  # fmt: skip
    return [own, *others[:_OTHERS]], "Closest to its ratio first; no rule says which is right."


def _draw(pen: Pen, piece: CasePiece, shown: list[_Shown], note: str) -> None:
    """Person and door at the left, the outlines from there to the right."""
    unit, high = pen.unit, _DOOR[pen.unit]
    pen.box(0.0, 0.0, high[1], high[0], "", "hidden")
    draw_person(pen, (high[1] / 2, 0.0), _PERSON_MM / MM_UNIT[unit])
    _words(pen, 0.0, _BESIDE[unit], own=False)
    x = max(high[1], pen.mm(_WORDS_MM)) + pen.mm(_BETWEEN_MM)
    for one in shown:
        _outline(pen, piece, one, x)
        sizes = f"{written(one.height, unit)} x {written(one.width, unit)}"
        pen.text((x, -pen.mm(4.5)), sizes, "body", bold=one.own)
        _words(pen, x, one.words, own=one.own)
        x += max(float(one.width), pen.mm(_WORDS_MM)) + pen.mm(_BETWEEN_MM)
    pen.line((-pen.mm(2.0), 0.0), (x - pen.mm(_BETWEEN_MM - 2.0), 0.0), kind="thin")
    said = f"{_limits(piece)} Bold: the piece as it is designed. {note}"
    pen.paragraphs((0.0, -pen.mm(20.5)), (said,), _NOTE_MM)


def _words(pen: Pen, x: float, words: str, *, own: bool) -> None:
    """What is said under an outline, in short lines."""
    for number, line in enumerate(folded(words, _WORDS_MM, "small")):
        pen.text((x, -pen.mm(8.5 + _LINE_MM * number)), line, "small", bold=own)


def _outline(pen: Pen, piece: CasePiece, one: _Shown, x: float) -> None:
    """One outline on the floor line, on the piece's legs, moved as far apart as its width asks."""
    width, wider = float(one.width), float(one.width / piece.design.overall.width) - 1.0
    taller = float(one.legs / piece.case.leg_height) if one.legs else 0.0
    for leg in piece.legs:
        moved = x + wider * leg.top[0]
        pen.shape(((moved + across, up * taller) for across, up in leg_outline(leg, 0, (0.0, 0.0))), "far", "thin")
    kind = "cut" if one.own else "thin"
    pen.box(x, float(one.legs), x + width, float(one.height), "wood" if one.own else "far", kind)


def _limits(piece: CasePiece) -> str:
    """The limits in words."""
    unit, brief = piece.design.unit, piece.design.brief
    assert brief and brief.height and brief.width
    both = (("height", brief.height), ("width", brief.width))
    words = (f"{name} {written(limits.least, unit)} to {written(limits.most, unit)}" for name, limits in both)
    return f"Limits: {', '.join(words)}."
