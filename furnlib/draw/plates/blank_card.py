"""The blank of a turned leg: the stick with the leg in it, its end grain with what is gauged on it, its plies."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, groupby, pairwise
from typing import NamedTuple

from furnlib.base.units import Unit, shown_length
from furnlib.draw.drawing import Arc, Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import ROOM_MM, cautions, finished, fitted
from furnlib.draw.plates.groups import Group, heading
from furnlib.draw.plates.turned_groups import outline, turned_group, turned_groups, turned_of
from furnlib.draw.plates.turned_parts import led_column
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT, ratio_words, usual_scales
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.turned import TurnedLeg
from furnlib.trade.cautions import LATHE, MACHINE

_END_MM = 70.0  # the most that the corner swing takes on paper
_ROW_MM = 3.8  # from one row of words to the next
_GLUE_MM = (3.0, 1.5)  # strokes and gaps of a glue line
_RING_MM, _PITH = 4.0, 1.2  # from ring to ring; how far the pith lies below a ply, in its widths
_ENDS = (
    "End cut: what the level cut reaches past the axis, sawn off once the leg is turned. The last waste or kerf"
    " takes what rounding leaves."
)


class _Member(NamedTuple):
    """One member of the chain along a blank, from its end beyond the top; its size as it is written."""

    start: float
    end: float
    shown: Fraction
    what: str


def blank_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw the blank that a turned leg comes from.

    Args:
        piece: a finished piece with turned legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: of the sheet, from 1; each holds the legs of one length.

    Returns:
        The blank lying with the leg in it and a chain of its length; its end grain with swing, octagon
        and plies; how many to make, of what, and what to mind.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> blank_plate(read_piece("notebooks/designs/stool_three_legs.yaml"), number=2).name
        'Blank 2'
    """
    group, unit = turned_group(piece, number, "blank card"), piece.design.unit
    made = longest_blank(group)
    pen = fitted(unit, lambda pen: _draw(pen, piece, group, made), scale)
    return finished(
        pen,
        f"Blank {number}" if len(turned_groups(piece)) > 1 else "Blank",
        (group,),
        f"Blank for turned legs of {piece.design.piece}: thick enough for their largest place, long enough for both"
        " ends.",
        [f": {_written_side(made, unit)} square, {_written_length(made, unit)} long"],
        [[*(f"{name} {size}." for name, size in _rows(made, unit)[1:]), *_words(piece, group, made)]],
        ("blank.side", "blank.length", "blank.octagon", "lathe.depth_at_corner")
        + (("plies.lines",) if _is_glued(made) else ()),
    )


def longest_blank(group: Group) -> TurnedLeg:
    """The leg of a group whose ends reach furthest: its blank serves for all of them.

    Args:
        group: legs of one profile and length; they may lean to different sides.

    Returns:
        What the lathe needs of it.
    """
    return max(map(turned_of, group), key=lambda made: float(made.blank.length))


def _chain(made: TurnedLeg, unit: Unit) -> list[_Member]:
    """What the length is made up of, closing in print: the last waste, or kerf, takes what rounding leaves."""
    blank, left = made.blank, made.allowances
    waste, kerf = (float(size or 0) for size in (left.waste, left.kerf))
    sizes = waste, kerf, float(blank.top_extra), made.profile.length, float(blank.foot_extra), kerf, waste
    names = "waste", "kerf", "end cut", "leg", "end cut", "kerf", "waste"
    shown = [shown_length(Fraction(size), unit) for size in sizes]
    shown[-1 if waste else -2] += shown_length(Fraction(float(blank.length)), unit, round_up=True) - sum(shown)
    places = pairwise(accumulate(sizes, initial=0.0))
    return [_Member(*ends, size, name) for ends, size, name in zip(places, shown, names, strict=True) if size]


def _chain_words(made: TurnedLeg, unit: Unit) -> str:
    members = " + ".join(f"{written(member.shown, unit)} {member.what}" for member in _chain(made, unit))
    return f"Length: {members} = {_written_length(made, unit)}."


def _is_glued(made: TurnedLeg) -> bool:
    """Whether the blank has a glue line; one board may be thick enough."""
    return bool(made.plies and made.plies.glue_lines)


def _is_square(made: TurnedLeg) -> bool:
    """Whether part of the leg stays square: its blank has that side then, and needs none for centring."""
    return max(element.square for element in made.profile.elements) > 0


def _written_side(made: TurnedLeg, unit: Unit) -> str:
    return written(made.blank.side, unit, round_up=True)


def _written_length(made: TurnedLeg, unit: Unit) -> str:
    return written(made.blank.length, unit, round_up=True)


def _draw(pen: Pen, piece: Piece, group: Group, made: TurnedLeg) -> None:
    """The stick; its end grain with the table beside it; the words and what to mind."""
    _stick(pen, made)
    left, low, _, top = pen.reach()
    heading(
        pen,
        group,
        (left, top + pen.mm(10.0)),
        f"the blank lying, top end to the left, {ratio_words(pen.scale, pen.unit)}",
    )
    y, scale = low - pen.mm(3.0), _end_scale(made, pen.unit)
    title = f"End grain from the top end, {ratio_words(scale, pen.unit)}"
    pen.text((left, y - pen.mm(3.0)), title, "body", bold=True)
    y -= pen.mm(5.0)
    right, low = pen.place((left, y), lambda pen, middle: _end_grain(pen, made, middle, scale / pen.scale))
    _, beside = pen.table((right + pen.mm(5.0), y), _rows(made, pen.unit), bold_columns=(1,))
    y = pen.paragraphs((left, min(low, beside) - pen.mm(2.0)), _words(piece, group, made), ROOM_MM[0], gap_mm=0.8)
    glued = LATHE[-1:] if _is_glued(made) else ()
    cautions(pen, (left, y - pen.mm(1.5)), "At saw, plane and lathe", (*MACHINE, *glued), ROOM_MM[0])


def _end_scale(made: TurnedLeg, unit: Unit) -> float:
    """Twice the size or the largest usual scale at which the corner swing finds room."""
    for scale in (2 * MM_UNIT[unit], *usual_scales(unit)):
        if float(made.blank.swing) * scale <= _END_MM:
            break
    return scale


def _stick(pen: Pen, made: TurnedLeg) -> None:
    """The blank from the side with the leg faintly in it; its members led out above, its lengths below."""
    members, half, long = _chain(made, pen.unit), float(made.blank.side) / 2, float(made.blank.length)
    (leg,) = (member for member in members if member.what == "leg")
    pen.box(0.0, -half, long, half, "wood", "")
    for member in members:
        if member.what in ("waste", "kerf"):
            tint = "far" if member.what == "waste" else "pale"
            pen.box(member.start, -half, member.end, half, tint, "thin", hatch=member.what == "waste")
    points, bulges = outline(made.profile)
    for side in (1, -1):
        pen.contour([(leg.start + x, side * y) for x, y in points], [side * bulge for bulge in bulges], "thin")
    for end in (leg.start, leg.end):
        pen.line((end, -half), (end, half), kind="thin")
    pen.line((-pen.mm(3.0), 0.0), (long + pen.mm(3.0), 0.0), kind="centre")
    if made.plies and _is_glued(made):
        _across_plies(pen, made.plies.glue_lines, half, long)
    pen.box(0.0, -half, long, half)
    for words, x, anchor in (("top", -pen.mm(4.0), "end"), ("foot", long + pen.mm(4.0), "start")):
        pen.text((x, -pen.mm(0.8)), words, "small", anchor)
    _lead_out(pen, [member for member in members if member.end <= leg.start], half, "start")
    _lead_out(pen, [member for member in reversed(members) if member.start >= leg.end], half, "end")
    middle, above = long / 2, half + pen.mm(3.0)
    for way in (-1, 1):
        pen.arrow((middle, above), (middle + way * pen.mm(12.0), above), "thin")
    pen.text((middle, above + pen.mm(1.2)), "grain", "small", "middle")
    pen.dimension((leg.start, -half), (leg.end, -half), -5.0, written(leg.shown, pen.unit))
    pen.dimension((0.0, -half), (long, -half), -10.5, _written_length(made, pen.unit), bold=True)


def _lead_out(pen: Pen, members: list[_Member], half: float, anchor: str) -> None:
    """Names and sizes of an end's members, the outermost highest, each clear of the leaders of the others."""
    for row, member in enumerate(reversed(members)):
        x, y = (member.start + member.end) / 2, half + pen.mm(2.0 + _ROW_MM * row)
        pen.line((x, half - pen.mm(1.0)), (x, y + pen.mm(2.0)), kind="dimension")
        beside = x + pen.mm(0.8 if anchor == "start" else -0.8)
        pen.text((beside, y), f"{written(member.shown, pen.unit)} {member.what}", "small", anchor)


def _across_plies(pen: Pen, lines: tuple[float, ...], half: float, long: float) -> None:
    """The glue lines along a blank, and the maker's triangle across the plies."""
    for line in lines:
        _glue_line(pen, (0.0, line), long)
    at, wide = 0.3 * long, max(half, pen.mm(4.0))
    pen.line((at - wide, -half), (at + wide, -half), (at, half), kind="bar", closed=True)


def _glue_line(pen: Pen, start: Point, long: float) -> None:
    """A heavy dash from a point to the right."""
    stroke, step = pen.mm(_GLUE_MM[0]), pen.mm(sum(_GLUE_MM))
    for number in range(int(long / step) + 1):
        x = start[0] + number * step
        pen.line((x, start[1]), (min(x + stroke, start[0] + long), start[1]), kind="cut")


def _end_grain(pen: Pen, made: TurnedLeg, middle: Point, factor: float) -> None:
    """The square with its rings, its plies and what is planed off, the octagon, and the circles of the lathe."""
    view, blank = pen.inset(middle, factor), made.blank
    half, gauge, swing = float(blank.side) / 2, float(blank.octagon_gauge), float(blank.swing)
    flat, plies = half - gauge, made.plies
    pen.box(*view.at(-half, -half), *view.at(half, half), "wood", "")
    off = plies.off_outsides if plies else (0.0, 0.0)
    edges = [-half - off[0], *(plies.glue_lines if plies else ()), half + off[1]]
    for low, high in pairwise(edges):
        _rings(pen, view.at(-half, low), view.at(half, high))
    labels = [(half, line, f"glue line {written(abs(line), pen.unit)} from the axis") for line in edges[1:-1]]
    for low, high in ((edges[0], -half), (half, edges[-1])):
        if high > low:
            pen.box(*view.at(-half, low), *view.at(half, high), "far", "thin", hatch=True)
            labels.append((half, (low + high) / 2, f"{written(high - low, pen.unit)} planed off"))
    for line in edges[1:-1]:
        _glue_line(pen, view.at(-half, line), 2 * half * factor)
    pen.box(*view.at(-half, -half), *view.at(half, half))
    corners = [(half, flat), (flat, half), (-flat, half), (-half, flat)]
    octagon = [*corners, *((-x, -y) for x, y in corners)]
    pen.line(*(view.at(*corner) for corner in octagon), kind="compared", closed=True)
    rough = next(step.diameters[0] for step in made.steps if step.kind == "rough")
    for diameter, kind, share, what in (
        (swing, "hidden", 0.42, "corner swing"), (rough, "thin", 0.12, "roughed"),
        (float(made.diameters.largest), "visible", -0.24, "largest turned"),
    ):  # fmt: skip
        pen.circle(middle, diameter / 2 * factor, kind)
        place = diameter / 2 * (1 - share**2) ** 0.5, diameter / 2 * share
        labels.append((*place, f"⌀ {written(diameter, pen.unit)} {what}"))
    labels.append((half - gauge * 0.3, -half + gauge * 0.7, "eight sides"))
    for ends in (((-1, 0), (1, 0)), ((0, -1), (0, 1))):
        pen.line(*(view.at(x * half * 1.1, y * half * 1.1) for x, y in ends), kind="centre")
    led_column(pen, [(*view.at(x, y), words) for x, y, words in labels], view.at(swing / 2, 0.0)[0] + pen.mm(6.0))
    out = max(swing / 2 - half, *off) * factor * pen.scale + 4.0
    pen.dimension(view.at(-half, -half), view.at(-half, half), out, _written_side(made, pen.unit), bold=True)
    pen.dimension(view.at(-half, -half), view.at(-flat, -half), -out, written(gauge, pen.unit))
    pen.dimension(view.at(-flat, half), view.at(flat, half), out, written(blank.octagon_flat, pen.unit))


def _rings(pen: Pen, low: Point, high: Point) -> None:
    """Arcs of the end grain in one ply, bark above, as far as they lie in it."""
    wide, tall, step = high[0] - low[0], high[1] - low[1], pen.mm(_RING_MM)
    pith = low[0] + wide / 2, low[1] - _PITH * wide
    for number in range(int((tall + 0.2 * wide) / step)):
        radius = _PITH * wide + (number + 0.5) * step
        inside = groupby(
            Arc(pith, radius, 50.0, 130.0).points(1.0),
            key=lambda at: low[0] <= at[0] <= high[0] and low[1] <= at[1] <= high[1],
        )
        for run in [list(points) for kept, points in inside if kept]:
            if len(run) > 1:
                pen.line(*run, kind="hatch")


def _rows(made: TurnedLeg, unit: Unit) -> list[tuple[str, str]]:
    """The numbers of the blank."""
    blank, left = made.blank, made.allowances
    rows = [
        ("the blank", ""),
        ("side", _written_side(made, unit)),
        ("length", _written_length(made, unit)),
        ("corner swing", written(blank.swing, unit)),
        ("octagon gauge", written(blank.octagon_gauge, unit)),
        ("each of eight", written(blank.octagon_flat, unit)),
        ("roughing", written(left.roughing or 0, unit)),
        *([] if _is_square(made) else [("centring", written(left.centring or 0, unit))]),
        ("waste", written(left.waste or 0, unit)),
        ("kerf", written(left.kerf or 0, unit)),
    ]
    if made.plies:
        rows.append(("plies", str(len(made.plies.plies))))
        rows.append(("stack", written(made.plies.stack, unit)))
    return rows


def _words(piece: Piece, group: Group, made: TurnedLeg) -> list[str]:
    """How many, of what, how thick and long, eight sides, plies."""
    unit, blank, left = piece.design.unit, made.blank, made.allowances
    make = next(size for size in piece.sizes if size.formula == "blank.spares")
    count = sum(leg.turned is not None for leg in piece.legs)
    words = [f"Make {make.words} blanks for {count} legs: {make.rule.partition(' = ')[2]}."]
    if len(group) < count:
        words[0] += (
            f" {len(group)} of the legs come from these. Saw the spare ones as long as the longest: they serve for all."
        )
    wood = made.wood.name if made.wood else "not named in the design"
    words.append(f"Wood: {wood}; sound and straight-grained, the grain along the blank.")
    roughing, centring = written(left.roughing or 0, unit), written(left.centring or 0, unit)
    largest, side = written(made.diameters.largest, unit), _written_side(made, unit)
    if _is_square(made):
        words.append(f"Side: the square itself is the blank, {side}. Plane it true first: its faces stay.")
    else:
        words.append(f"Side: {largest} largest + 2 x ({roughing} roughing + {centring} centring) = {side} at least.")
    words += [_chain_words(made, unit), _ENDS]
    gauge, flat = written(blank.octagon_gauge, unit), written(blank.octagon_flat, unit)
    kept = ", but nowhere near the square that stays" if _is_square(made) else "; its corners swing less"
    words.append(
        f"Eight sides: gauge {gauge} from each arris on all four faces, plane to the lines, {flat} each{kept}."
    )
    if made.plies and _is_glued(made):
        boards = " + ".join(written(ply, unit) for ply in made.plies.plies)
        stack, nearest = written(made.plies.stack, unit), written(made.plies.nearest_line, unit)
        words.append(
            f"Glued up: {boards} = {stack}, rings turned the same way, the triangle across the plies for their order."
            f" No glue line on the centre: the nearest lies {nearest} from the axis."
        )
    return words
