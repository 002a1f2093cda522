"""The lesson's picture: one turned leg lying in its blank, its end grain, and what it weighs, swings and stands."""

from __future__ import annotations

from math import ceil, sqrt

from furnlib.base.units import Unit
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import finished
from furnlib.draw.plates.groups import leg_group
from furnlib.draw.plates.turned_groups import TurnedMark, turned_marks, turned_of
from furnlib.draw.plates.turned_parts import arched_spans, draw_arched, draw_turned, fan, led_column, stop_cuts
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT, ratio_words
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.turned import TurnedLeg

_LONG_MM, _END_MM, _HALF_MM = 132.0, 36.0, (110.0, 22.0)  # the most that blank, corner swing and half outline take
_OUT_MM, _LABELS_MM, _BESIDE_MM = 2.0, 31.0, 9.0  # from blank to ticks, from them to what is below, between columns
_TOP_MM = 24.0  # of the labels above the blank
_WORTH = 2  # an outline only so many times larger is not drawn a second time


def turning_plate(piece: Piece, scale: float | None = None, position: str | None = None) -> Drawing:
    """Draw one turned leg for the lesson, low enough to stay in view under the hand.

    Args:
        piece: a finished piece with turned legs.
        scale: mm on paper for one unit of the piece; by default the largest whole ratio at which its end
            grain finds room beside the blank.
        position: which leg; by default the first.

    Returns:
        The leg lying in its blank, diameters above, below it the ticks of its stick; its end grain with
        corner swing, largest diameter and stop cut; its beads and coves larger; mass, slenderness and
        speeds.

    Raises:
        DesignError: when the piece has no turned leg there.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> turning_plate(read_piece("notebooks/designs/stool_four_legs.yaml")).caption.splitlines()[1]
        'Front left and front right: thinnest ⌀ 22 at 477.2.'
    """
    group, unit = leg_group(piece, position), piece.design.unit
    made = turned_of(group[0])
    marks = turned_marks(made, unit)
    pen = Pen(scale or _fitting(float(made.blank.length), _LONG_MM, unit), unit)
    # the same room for the labels whatever they say, so that nothing jumps under the hand
    low = _lying(pen, made, marks) - pen.mm(_LABELS_MM)
    _half_outline(pen, made, (0.0, low))
    top, x = float(made.blank.side) / 2 + pen.mm(_TOP_MM), float(made.blank.length) - _before(made) + pen.mm(_BESIDE_MM)
    low = _end_grain(pen, made, (x, top))
    pen.table((x, low), [("the leg", ""), *_rows(made, unit)], bold_columns=(1,))
    thin = next(mark for mark in marks if mark.thinnest)
    return finished(
        pen,
        "Turning",
        (group,),
        f"Turned leg of {piece.design.piece} in its blank: diameters above, distances from the top end below.",
        [f": thinnest {thin.diameters} at {written(thin.distance, unit)}{_weakest(made, unit)}"],
        [
            [
                *(f"{written(mark.distance, unit)}: {mark.diameters}, {mark.words}." for mark in marks),
                *(f"{' '.join(row)}." for row in _rows(made, unit)),
            ]
        ],
        ("lean.axis_length", "turning", "blank", "lathe.depth", *(["strength.bending"] if made.screen else [])),
    )


def _fitting(size: float, room_mm: float, unit: Unit) -> float:
    """The largest whole ratio at which a size finds room; on the page there is no sheet to be true to."""
    return MM_UNIT[unit] / max(1, ceil(size * MM_UNIT[unit] / room_mm))


def _before(made: TurnedLeg) -> float:
    """How far the blank reaches beyond the leg's top end."""
    left = made.allowances
    return float(made.blank.top_extra) + float(left.kerf or 0) + float(left.waste or 0)


def _lying(pen: Pen, made: TurnedLeg, marks: list[TurnedMark]) -> float:
    """The leg in its blank between the two rows of labels; where the ticks of the lower one stand."""
    blank, unit, profile = made.blank, pen.unit, made.profile
    half, waste, start = float(blank.side) / 2, float(made.allowances.waste or 0), -_before(made)
    stop = start + float(blank.length)
    pen.box(start, -half, stop, half, "far", "")
    for end in (start, stop - waste):
        pen.box(end, -half, end + waste, half, "far", "thin", hatch=True)
    draw_turned(pen, made)
    pen.box(start, -half, stop, half, "", "thin")
    pen.line((start - pen.mm(3.0), 0.0), (stop + pen.mm(3.0), 0.0), kind="centre")
    high = half + pen.mm(_OUT_MM)
    below = [(mark.distance, written(mark.distance, unit), mark.words.partition(",")[0]) for mark in marks]
    if made.screen:
        weak = profile.length - made.screen.distance
        pen.line((weak, -high), (weak, high), kind="thin")
        below.append((weak, written(weak, unit), "weakest"))
    pen.line((0.0, -high), (profile.length, -high), kind="thin")
    pen.circle((0.0, -high), pen.mm(0.8), kind="thin")
    fan(pen, [(mark.distance, mark.diameters, "") for mark in marks], high, 1)
    fan(pen, sorted(below), high, -1)
    return -high


def _end_grain(pen: Pen, made: TurnedLeg, corner: Point) -> float:
    """The square blank from its end, with what swings, what is turned and where a stop cut ends; how low it reaches."""
    blank, unit = made.blank, pen.unit
    swing, half, largest = float(blank.swing), float(blank.side) / 2, float(made.diameters.largest)
    scale, out = _fitting(swing, _END_MM, unit), pen.mm(_END_MM / 2)
    pen.text((corner[0], corner[1] - pen.mm(2.3)), f"End grain, {ratio_words(scale, unit)}", "small", bold=True)
    factor, middle = scale / pen.scale, (corner[0] + out, corner[1] - pen.mm(4.0) - out)
    view = pen.inset(middle, factor)
    pen.box(*view.at(-half, -half), *view.at(half, half), "wood")
    for line in made.plies.glue_lines if made.plies else ():
        pen.line(view.at(-half, line), view.at(half, line), kind="hidden")
    pen.circle(middle, swing / 2 * factor, "hidden")
    pen.circle(middle, largest / 2 * factor)
    labels = [
        (_on(swing, 0.8), f"swing ⌀ {written(swing, unit)}"),
        (_on(largest, -0.5), f"largest ⌀ {written(largest, unit)}"),
    ]
    for stop in stop_cuts(made)[:1]:
        radius = stop.diameters[0] / 2
        pen.circle(middle, radius * factor, "thin")
        pen.line(view.at(radius, 0.0), view.at(radius + stop.depth_at_flat, 0.0), kind="cut")
        near, far = radius / sqrt(2), swing / 2 / sqrt(2)
        pen.line(view.at(near, near), view.at(far, far), kind="cut")
        labels += [
            (((near + far) / 2,) * 2, f"corner: cut {written(stop.depth_at_corner, unit)}"),
            ((radius + stop.depth_at_flat / 2, 0.0), f"flat: cut {written(stop.depth_at_flat, unit)}"),
        ]
    for ends in (((-1, 0), (1, 0)), ((0, -1), (0, 1))):
        pen.line(*(view.at(x * half * 1.1, y * half * 1.1) for x, y in ends), kind="centre")
    led_column(pen, [(*view.at(*at), words) for at, words in labels], corner[0] + 2 * out + pen.mm(5.0))
    return middle[1] - out - pen.mm(1.0)


def _on(diameter: float, share: float) -> Point:
    """A point on the right of a circle, so much of its radius up."""
    return diameter / 2 * sqrt(1 - share**2), diameter / 2 * share


def _half_outline(pen: Pen, made: TurnedLeg, corner: Point) -> None:
    """The beads and coves of a slim leg once more, larger, above the axis."""
    profile, unit = made.profile, pen.unit
    spans = arched_spans(profile)
    if not spans:
        return
    start, stop, high = spans[0][0], spans[-1][1], profile.largest_diameter / 2
    scale = min(_fitting(stop - start, _HALF_MM[0], unit), _fitting(high, _HALF_MM[1], unit))
    factor = scale / pen.scale
    if factor <= _WORTH:
        return
    view = pen.inset((corner[0], corner[1] - high * factor), factor)
    draw_arched(pen, profile, view, whole=False)
    pen.line(view.at(0.0, 0.0), view.at(stop - start, 0.0), kind="centre")
    words = f"{written(start, unit)} to {written(stop, unit)}: half outline, {ratio_words(scale, unit)}"
    pen.text((view.at(stop - start, 0.0)[0] + pen.mm(4.0), view.at(0.0, 0.0)[1] + pen.mm(1.0)), words, "small")


def _weakest(made: TurnedLeg, unit: Unit) -> str:
    """Where it is bent most, as a share of what the handbook has at its low end."""
    if made.screen is None:
        return ""
    at = written(made.profile.length - made.screen.distance, unit)
    return f"; weakest at {at}, {made.screen.low_strength_share:.0%} of a handbook's low end, no rating"


def _rows(made: TurnedLeg, unit: Unit) -> list[tuple[str, str]]:
    """Numbers that move with the profile."""
    side, long = (written(size, unit, round_up=True) for size in (made.blank.side, made.blank.length))
    speeds = made.speeds
    rows = [
        ("blank", f"{side} square, {long}"),
        ("length over thinnest", f"{made.slenderness:.1f}"),
        ("steady", made.steady),
        ("turns a minute", f"{speeds.roughing_rpm:.0f} to {speeds.finishing_rpm:.0f}"),
    ]
    if made.wood:
        rows.append(("would whirl near", f"{made.whirling_rpm / 100:.0f}00"))
        rows.append((f"mass, {made.wood.name}", f"{made.mass_kg * 1000:.0f} g"))
    return rows
