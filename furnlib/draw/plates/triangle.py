"""A card for the class: the true triangle to cut out, fold and stand on its sight line."""

from __future__ import annotations

from functools import partial

from furnlib.base.angles import cosd, sind
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Arc, Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import Card
from furnlib.draw.plates.groups import WORDS_NOTE, Group, Groups, group_name, heading, lean_words
from furnlib.draw.plates.views import draw_sight, sight_of, written
from furnlib.draw.scale import ratio_words
from furnlib.draw.style import text_width_mm
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, LegSizes, mirror_groups

TRIANGLE_CARD = Card(
    "Triangle card",
    lambda leg: leg.foot_run if leg.foot_run.plan else None,
    "its legs stand plumb",
    "True triangles of {} to cut out and stand on their sight lines.",
    ("lean.total_lean", "lean.sight_line", "lean.axis_length", "lean.foot_run"),
)

_STEPS = (
    "1  Cut out the base and the triangle. Fold the tab square to the triangle.",
    "2  Stand it on the sight line: plumb edge over the small dot, foot on the large.",
    "3  Its long edge lies as the leg's axis does in the room. Set a bevel gauge to it.",
    "Opposite hand: prick the base through, and use its back.",
    "Leg across the corner: turn the base half round.",
)
_KNIFE = "Scissors will do. A knife runs along a steel rule, away from the hand that holds it."
_LEFT_MM, _GAP_MM, _TAB_MM = 8.0, 9.5, 8.0  # the triangle's height beside it; from its foot to the base
_PAST_MM, _SIGHT_MM = 7.0, 24.0  # sight line beyond the foot; its least length
_WIDE_DEG = 60.0  # from here on an angle's size fits between its arms, close to their corner
_WORDS_MM, _STEPS_MM, _SKETCH_MM = 43.0, 134.0, (44.0, 27.0)


def triangle_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw the true triangles as cards to cut out and fold.

    Args:
        piece: a finished piece with legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1; each holds two leans.

    Returns:
        For each lean a base with its sight line, and the triangle of height, foot run and axis
        with a tab to stand it on.

    Raises:
        DesignError: when no leg leans.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> triangle_plate(read_piece("notebooks/designs/landing_chest.yaml")).name
        'Triangle card'
    """
    return TRIANGLE_CARD.plate(piece, scale, number, _draw, _caption, _spoken)


def _draw(pen: Pen, piece: Piece, groups: Groups) -> None:
    """The cards side by side; below them what to do, how it stands, and legs without a card."""
    left = 0.0
    for group in groups:
        _card(pen, piece, group, left)
        left = max(pen.reach()[2] + pen.mm(4.0), pen.mm(92.0))
    low = pen.reach()[1] - pen.mm(1.5)
    plumb = [group for group in mirror_groups(piece.legs) if not group[0].foot_run.plan]
    steps = [*_STEPS, *(f"{group_name(group)}: plumb, so there is no triangle." for group in plumb)]
    y = pen.paragraphs((0.0, low), steps, _STEPS_MM, "body") - pen.mm(1.0)
    drawn = f"Drawn {ratio_words(pen.scale, pen.unit)}. Angles are true at any scale."
    pen.paragraphs((0.0, y), (drawn, WORDS_NOTE, _KNIFE), _STEPS_MM)
    _sketch(pen, groups[0][0], (pen.mm(_STEPS_MM + 3.0), low - pen.mm(1.0)))


def _card(pen: Pen, piece: Piece, group: Group, left: float) -> None:
    """One lean: triangle, base, and words below the base."""
    leg, top = group[0], heading(pen, group, (left, 0.0)) - pen.mm(1.8)
    low = (left + pen.mm(_LEFT_MM), top - float(leg.height))
    _triangle(pen, piece, leg, low)
    x = low[0] + float(leg.foot_run.plan) + pen.mm(_GAP_MM)
    _, y = pen.place((x, top), partial(_base, leg=leg))
    pen.paragraphs((x, y - pen.mm(1.0)), lean_words(leg, pen.unit), _WORDS_MM)


def _caption(pen: Pen, leg: LegSizes) -> str:
    return f" {write_angle(leg.lean.total_lean_deg, 2)}, {_gauge(pen, leg)}"


def _spoken(pen: Pen, _: Piece, leg: LegSizes) -> tuple[str, ...]:
    return lean_words(leg, pen.unit)


def _gauge(pen: Pen, leg: LegSizes) -> str:
    return f"run {written(leg.gauge_run.plan, pen.unit)} on {GAUGE_HEIGHT[pen.unit]:g}"


def _triangle(pen: Pen, piece: Piece, leg: LegSizes, low: Point) -> None:
    """The triangle upright on its run, a tab below: cut round both, fold along the run."""
    run, height, total = float(leg.foot_run.plan), float(leg.height), leg.lean.total_lean_deg
    (x, y), apex, foot = low, (low[0], low[1] + height), (low[0] + run, low[1])
    tab, bevel = y - pen.mm(_TAB_MM), min(pen.mm(2.0), run / 4)
    pen.shape((apex, low, foot), "wood", "")
    pen.line(low, (x + bevel, tab), (x + run - bevel, tab), foot, apex, kind="cut", closed=True)
    pen.line(low, foot, kind="hidden")
    pen.dimension(low, apex, 5.0, written(leg.height, pen.unit), bold=isinstance(piece, CasePiece))
    pen.text((x + run / 2, tab - pen.mm(4.2)), f"run {written(leg.foot_run.plan, pen.unit)}", "body", "middle")
    reach, angle = min(pen.mm(22.0), 0.4 * height), write_angle(total, 2)
    pen.items.append(Arc(apex, reach, 270.0, 270.0 + total, "dimension"))
    beside = pen.mm(1.6)
    pen.text((x + reach * sind(total) + beside, apex[1] - reach * cosd(total) - pen.mm(0.8)), angle, "small", bold=True)
    pen.text((x + 0.65 * run + beside, y + 0.35 * height), "cut", "small")
    pen.text((foot[0] + beside, y + pen.mm(0.9)), "foot", "small")
    pen.text((foot[0] + beside, y - pen.mm(3.6)), "fold", "small")
    for i, words in enumerate((f"total lean {angle}", _gauge(pen, leg), f"axis {written(leg.axis_length, pen.unit)}")):
        out, up = pen.mm(3.3 + 3.5 * i), pen.mm(2.0 + text_width_mm(words, "small"))
        if out + pen.mm(1.0) <= run * (1 - up / height):  # where the taper holds it, it stays on when cut out
            pen.text((x + out, y + pen.mm(2.0)), words, "small", turn_deg=90.0)


def _base(pen: Pen, top: Point, leg: LegSizes) -> None:
    """The base from above, front edge below: the sight line through the place below the leg's top, cut round."""
    run, sight_deg, (x, y) = float(leg.foot_run.plan), leg.lean.sight_line_deg, top
    reach = max(run + pen.mm(_PAST_MM), pen.mm(_SIGHT_MM))
    arm = pen.mm(15.0) if abs(sight_deg) >= _WIDE_DEG else reach
    sight = draw_sight(pen, leg, top, reach, arm)
    pen.dot(top, 0.6)
    pen.dot(sight.at(top, run), 1.0)
    if sight_deg:
        pen.angle(top, arm * pen.scale - 1.0, *sight.turns_deg, write_angle(sight_deg))
    side = -1 if sight.along[0] < 0 else 1  # words stand away from the fore-and-aft line
    middle, wide = sight.at(top, reach / 2), pen.mm(text_width_mm("stand it here", "small") + 1.5)
    beside = (middle[0] + side * pen.mm(1.5), middle[1] + pen.mm(-3.4 if sight.along[1] > 0 else 1.2))
    pen.text(beside, "stand it here", "small", "end" if side < 0 else "start")
    tip, back = sight.at(top, reach), leg.outward[1]
    left, right = (limit(x, tip[0], middle[0] + side * wide) for limit in (min, max))
    low, high = (limit(y - back * pen.mm(4.0), y + back * arm, tip[1]) for limit in (min, max))
    left, right, low, high = left - pen.mm(4.0), right + pen.mm(4.0), low - pen.mm(9.0), high + pen.mm(9.0)
    pen.box(left, low, right, high, kind="cut")
    pen.text((left + pen.mm(2.0), low + pen.mm(1.6)), "front", "small", bold=True)
    pen.text((left + pen.mm(2.0), high - pen.mm(3.8)), f"{leg.position} leg", "small")
    pen.text((right, low - pen.mm(3.0)), "cut", "small", "end")


def _sketch(pen: Pen, leg: LegSizes, corner: Point) -> None:
    """The folded card as it stands, seen slantwise from above."""
    run, height = float(leg.foot_run.plan), float(leg.height)
    foot = sight_of(leg, leg.lean.sight_line_deg).at((0.0, 0.0), run)
    skew = 0.45 if foot[0] * foot[1] >= 0 else -0.45  # so that the triangle is not seen on edge
    factor = min(pen.mm(_SKETCH_MM[0]) / (3.8 * run), pen.mm(_SKETCH_MM[1]) / (height + 0.8 * run))

    def seen(across: float, back: float, up: float = 0.0) -> Point:
        x, y = (across + skew * back) * factor, (0.4 * back + up - height) * factor
        return corner[0] + pen.mm(_SKETCH_MM[0] / 2) + x, corner[1] - pen.mm(4.0) + y

    floor = [(side * 1.3 * run, end * 1.3 * run) for side, end in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    pen.shape((seen(*place) for place in floor), "far", "thin")
    pen.line(seen(0.0, -1.2 * run), seen(0.0, 1.2 * run), kind="centre")
    pen.shape((seen(0.0, 0.0, height), seen(0.0, 0.0), seen(*foot)), "wood", "thin")
    pen.text((corner[0] + pen.mm(_SKETCH_MM[0] / 2), corner[1] - pen.mm(2.2)), "as it stands", "small", "middle")
