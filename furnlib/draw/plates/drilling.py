"""The card at the drill: the seat from below with its sight lines, and for each lean a ramp or two hinges."""

from __future__ import annotations

from textwrap import wrap

from furnlib.base.angles import cosd, sind
from furnlib.base.guards import DesignError
from furnlib.base.units import write_angle, write_length
from furnlib.draw.drawing import Arc, Drawing, Point
from furnlib.draw.pen import Inset, Pen, spread
from furnlib.draw.plates.groups import (
    WORDS_NOTE,
    Groups,
    group_name,
    hand_words,
    leans_on_sheet,
    sheet_name,
    sheets_of_legs,
)
from furnlib.draw.plates.views import written
from furnlib.draw.scale import PLATE_MM, fitting_scale, ratio_words
from furnlib.plan.piece import Piece, SeatPiece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, LegSizes, step_out
from furnlib.trade.cautions import DRILLING
from furnlib.trade.leg.seat import SeatLeg

_STEPS = (
    "1  Roll the seat over: underside up, front edge away from you. Left and right are as seen from the front.",
    "2  Draw the square line and the middle line; measure the mortises from both.",
    "3  Draw each sight line at its angle, to the edge of the seat and down over it.",
    "4  Lay the seat on the ramp, sight line straight up the slope, arrow uphill. Or lay it square on two hinges: each"
    " lifts the outward side.",
    "5  Drill from this side: only here do the places hold. From above: same angles, other hand; arrow downhill,"
    " outward side let down.",
)
_LETTER_MM = 1.42
_WORDS_MM, _AIR_MM, _NAMES_MM, _SIZES_MM = 44.0, 4.0, 20.0, 9.0  # room beside the seat
_ROW_MM, _FOOT_MM, _ABOVE_MM = 51.0, 31.0, 22.0
_RAMP_AT_MM, _HINGES_AT_MM = 71.0, 117.0
_ARROW_MM, _TAIL_MM, _ARC_MM = 15.0, 7.0, 7.0
_SLOPE_MM, _HIGHEST_MM, _BOARD_MM = 40.0, 20.0, 5.0
_NEVER_DEG = 0.05  # a lean below this is written 0°


def sheets_of_drilling(piece: Piece) -> int:
    """Count the drilling cards that a piece takes: one for every two leans.

    Args:
        piece: a finished piece.

    Returns:
        How many sheets; 0 where the piece has no seat.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sheets_of_drilling(read_piece("notebooks/designs/stool_four_legs.yaml"))
        1
    """
    return sheets_of_legs(piece) if isinstance(piece, SeatPiece) else 0


def drilling_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw a drilling card.

    Args:
        piece: a finished seat on legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: which card, from 1; each holds two leans.

    Returns:
        The seat from below with its mortises and sight lines; for each lean the angles from the
        seat, the ramp and the two hinges; what to do in turn, and what to mind.

    Raises:
        DesignError: when the piece has no seat.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> drilling_plate(read_piece("notebooks/designs/stool_three_legs.yaml")).name
        'Drilling card'
    """
    if not isinstance(piece, SeatPiece):
        raise DesignError(f"{piece.design.piece} has no seat to drill; ask for its legs and its saw card instead.")
    unit, groups = piece.design.unit, leans_on_sheet(piece, number)
    width, depth = float(piece.design.overall.width), float(piece.design.overall.depth)
    beside = width <= 2 * depth
    around = 2 * _NAMES_MM + _SIZES_MM + (_WORDS_MM if beside else _AIR_MM)
    below = _ABOVE_MM + _ROW_MM * len(groups) + _FOOT_MM + (0.0 if beside else 25.0)
    pen = Pen(scale or fitting_scale(width, depth, unit, around, below), unit)
    _seat_from_below(pen, piece)
    y = _steps(pen, beside)
    left, _, _, top = pen.reach()
    hole = " Circle: the hole." if piece.design.legs.round else ""
    heading = f"The seat from below, front edge on top, {ratio_words(pen.scale, unit)}. Arrow: the way the foot goes."
    pen.text((left, top + pen.mm(2.0)), heading + hole, "small")
    for group in groups:
        _row(pen, piece, group, (left, y))
        y -= pen.mm(_ROW_MM)
    _foot(pen, piece, groups, (left, y))
    return pen.drawing(
        sheet_name(piece, "Drilling card", number),
        caption=_caption(piece, groups),
        spoken=_spoken(piece, groups),
        formulas=("seat.drill_rake", "seat.drill_splay", "two_tilts", "seat.length_in_seat"),
    )


def _steps(pen: Pen, beside: bool) -> float:
    """What to do in turn, on the right of the seat or below it; says how far down both reach."""
    left, bottom, right, top = pen.reach()
    at = (right + pen.mm(4.0), top) if beside else (left, bottom - pen.mm(1.0))
    room = PLATE_MM[0] - 5.0 - (at[0] - left) * pen.scale
    words = [line for step in _STEPS for line in wrap(step, int(room / _LETTER_MM), subsequent_indent="    ")]
    return min(bottom, pen.lines(at, words, "small", 1.5)) - pen.mm(1.0)


def _drilled(leg: LegSizes) -> SeatLeg:
    """What to drill for a leg under a seat."""
    if leg.drilling is None:
        raise DesignError(f"The {leg.position} leg stands under no seat; there is nothing to drill for it.")
    return leg.drilling


def _leans(leg: LegSizes) -> bool:
    """True where the leg is not drilled square to the seat."""
    return bool(_drilled(leg).seat_lean.total_lean_deg >= _NEVER_DEG)


def _sight_words(leg: LegSizes) -> str:
    return write_angle(_drilled(leg).seat_lean.sight_line_deg) if _leans(leg) else "none"


# The seat from below


def _seat_from_below(pen: Pen, piece: SeatPiece) -> None:
    """The underside, measured along the seat: front edge on top, left and right as seen from the front."""
    design, share = piece.design, cosd(piece.design.seat.pitch)
    width, depth, past = float(design.overall.width), float(design.overall.depth), pen.mm(3.0)
    pen.shape(((across, -back / share) for across, back in piece.stand.outline), "far")
    pen.line((width / 2, -depth - past), (width / 2, past), kind="centre")
    pen.line((-past, -depth / 2), (width + past, -depth / 2), kind="centre")
    places = [(leg, (leg.top[0], -leg.top[1] / share)) for leg in piece.legs]
    reach = [0.0, width]
    for leg, place in places:
        _mortise(pen, leg, place)
        if _leans(leg):
            reach.append(_sight_line(pen, leg, place))
    pen.text((width / 2, pen.reach()[1] - pen.mm(2.6)), "square line", "small", "middle")
    _mortise_sizes(pen, piece, width, depth)
    for side, edge in ((-1, min(*reach, -pen.mm(_SIZES_MM)) - pen.mm(1.0)), (1, max(reach) + pen.mm(3.0))):
        named = [(leg, place) for leg, place in reversed(places) if _side_named(leg) == side]
        levels = spread([place[1] for _, place in named], pen.mm(11.0))
        for (leg, _), level in zip(named, levels, strict=True):
            _name(pen, leg, (edge, level), "end" if side < 0 else "start")
    for leg, place in places:
        if not _side_named(leg):
            way = -1 if _drilled(leg).seat_lean.sight_line_deg > _NEVER_DEG else 1  # away from the arrow
            _name(pen, leg, (place[0] + way * pen.mm(_ARC_MM + 1.5), place[1]), "end" if way < 0 else "start")


def _side_named(leg: LegSizes) -> int:
    """On which side of the seat a leg's name stands: -1 left, 1 right, 0 beside a mortise in the middle."""
    return leg.outward[0] if " " in leg.position else 0


def _name(pen: Pen, leg: LegSizes, at: Point, anchor: str) -> None:
    for line, words in enumerate((leg.position.capitalize(), "sight line", _sight_words(leg))):
        pen.text((at[0], at[1] + pen.mm(2.4 - 3.3 * line)), words, "small", anchor, bold=line == 0, clear=True)


def _mortise(pen: Pen, leg: LegSizes, at: Point) -> None:
    x, y = at
    arm = pen.mm(4.0)
    pen.line((x, y - arm), (x, y + arm), kind="centre")
    pen.line((x - arm, y), (x + arm, y), kind="centre")
    if leg.round:
        pen.circle(at, float(leg.round.tenon) / 2)


def _sight_line(pen: Pen, leg: LegSizes, at: Point) -> float:
    """The sight line through a mortise, and its angle; says how far across its tip lies."""
    sight, (_, back) = _drilled(leg).seat_lean.sight_line_deg, leg.outward
    out = step_out(leg.position, (0.0, 0.0), cosd(sight), sind(sight))
    way = (out[0], -out[1])  # the front edge is on top
    tail, tip = [(at[0] + way[0] * pen.mm(far), at[1] + way[1] * pen.mm(far)) for far in (-_TAIL_MM, _ARROW_MM)]
    pen.line(tail, tip, kind="sight")
    _arrow_head(pen, tip, way)
    forward = -90.0 * back
    turned = forward + leg.outward[0] * back * sight
    if abs(sight) >= _NEVER_DEG:
        pen.line(at, (at[0], at[1] - back * pen.mm(_ARC_MM + 2.0)), kind="thin")
        pen.items.append(Arc(at, pen.mm(_ARC_MM), min(forward, turned), max(forward, turned), "dimension"))
    return tip[0]


def _arrow_head(pen: Pen, tip: Point, way: Point) -> None:
    x, y = tip[0] - way[0] * pen.mm(2.4), tip[1] - way[1] * pen.mm(2.4)
    side = (-way[1] * pen.mm(0.8), way[0] * pen.mm(0.8))
    pen.shape((tip, (x + side[0], y + side[1]), (x - side[0], y - side[1])), "blue", "")


def _mortise_sizes(pen: Pen, piece: SeatPiece, width: float, depth: float) -> None:
    """Running sizes from the middle: across above the front edge, front and rear on the left."""
    mortises, unit = piece.design.legs.mortises, piece.design.unit
    for side in sorted({_side_named(leg) for leg in piece.legs} - {0}):
        first, last = sorted((width / 2, width / 2 + side * float(mortises.out)))
        pen.dimension((first, 0.0), (last, 0.0), 5.0, written(mortises.out, unit), bold=True)
    for end, run, way in (("front", mortises.front, 1), ("rear", mortises.rear, -1)):
        if any(end in leg.position for leg in piece.legs):
            low, high = sorted((-depth / 2, -depth / 2 + way * float(run)))
            pen.dimension((0.0, low), (0.0, high), 5.0, written(run, unit), bold=True)


# One lean


def _row(pen: Pen, piece: SeatPiece, group: tuple[LegSizes, ...], at: Point) -> None:
    """One lean across the sheet: its angles, its ramp, its hinges."""
    (x, y), leg = at, group[0]
    pen.line((x, y), (x + pen.mm(PLATE_MM[0] - 5.0), y), kind="frame")
    pen.text((x, y - pen.mm(4.6)), f"{group_name(group)}: {hand_words(group)}", "body", bold=True)
    _angles(pen, piece, leg, (x, y - pen.mm(6.5)))
    floor = y - pen.mm(_ROW_MM - 11.5)
    _ramp(pen, piece, leg, pen.inset((x + pen.mm(_RAMP_AT_MM), floor), pen.mm(1.0)))
    if _leans(leg):
        _hinges(pen, leg, pen.inset((x + pen.mm(_HINGES_AT_MM), floor), pen.mm(1.0)))


def _angles(pen: Pen, piece: SeatPiece, leg: LegSizes, at: Point) -> None:
    """What to set, from the seat; beside it the same leg in the room where the seat is pitched."""
    unit, drilled = piece.design.unit, _drilled(leg)
    lean, room = drilled.seat_lean, drilled.lean
    side, front, along = (written(run, unit) for run in lean.foot_run(GAUGE_HEIGHT[unit]))
    rows: list[tuple[str, ...]] = [("", "drill at", f"run on {GAUGE_HEIGHT[unit]:g}", "in the room")]
    for name, drill, run, true in (
        ("rake", lean.rake_deg, side, room.rake_deg),
        ("splay", lean.splay_deg, front, room.splay_deg),
        ("total lean", lean.total_lean_deg, along, room.total_lean_deg),
    ):
        rows.append((name, write_angle(drill), run, write_angle(true)))
    in_room = write_angle(room.sight_line_deg) if room.total_lean_deg >= _NEVER_DEG else "none"
    rows.append(("sight line", _sight_words(leg), "", in_room))
    if not piece.design.seat.pitch:
        rows = [row[:3] for row in rows]
    _, y = pen.table(at, rows, bold_columns=(1,))
    square = f"Leg {written(leg.square or 0, unit)} square: mark its mortise from the leg."
    words = (
        f"Bit and tenon {written(leg.round.tenon, unit)}." if leg.round else square,
        f"Axis {written(drilled.length_in_seat, unit)} inside the seat, {written(drilled.axis_length, unit)} below it.",
    )
    pen.lines((at[0], y - pen.mm(0.6)), words, "small", 1.5)


def _ramp(pen: Pen, piece: SeatPiece, leg: LegSizes, paper: Inset) -> None:
    """The ramp under the seat, seen square to its slope, on the table of the drill."""
    gauge, lean = GAUGE_HEIGHT[piece.design.unit], _drilled(leg).seat_lean
    rise, total = written(lean.foot_run(gauge).plan, piece.design.unit), float(lean.total_lean_deg)
    c, s = cosd(total), sind(total)
    slope = min(_SLOPE_MM, _HIGHEST_MM / s if s else _SLOPE_MM)

    toe = (_SLOPE_MM - slope * c) / 2

    def on_ramp(along: float, above: float) -> Point:
        return paper.at(toe + along * c - above * s, along * s + above * c)

    start, middle, end = 2.0, slope / 2, slope - 1.0
    pen.box(*paper.at(-2.0, -2.2), *paper.at(_SLOPE_MM + 2.0, 0.0), "far", "thin", hatch=True)
    pen.shape((on_ramp(start, 0.0), on_ramp(end, 0.0), on_ramp(end, _BOARD_MM), on_ramp(start, _BOARD_MM)), "far")
    pen.text(on_ramp(start + 3.2, 1.4), "seat", "small", "middle", total)
    x, y = toe + middle * c - _BOARD_MM * s, middle * s + _BOARD_MM * c
    rim = [(x + side, y + side * s / c) for side in (-1.5, 1.5)]
    for across, up in rim:
        pen.line(paper.at(across, up), paper.at(across, up - _BOARD_MM / c), kind="hidden")
    pen.shape([paper.at(*place) for place in (*rim, (x + 1.5, y + 9.0), (x - 1.5, y + 9.0))], "pale")
    pen.text(paper.at(x + 1.5, y + 10.2), "bit, plumb", "small", "end")
    head = paper.at(-2.0, _ROW_MM - 20.5)
    if not _leans(leg):
        pen.text(head, "No lean: drill square to the seat, without a ramp", "small", bold=True)
        return
    low, heel, high = paper.at(toe, 0.0), paper.at(toe + slope * c, 0.0), on_ramp(slope, 0.0)
    pen.shape((low, heel, high), "wood", "cut")
    pen.dimension(low, heel, -5.2, f"{gauge:g}")
    pen.dimension(heel, high, -4.0, rise)
    tip = on_ramp(end, _BOARD_MM + 1.6)
    pen.line(on_ramp(middle + 3.0, _BOARD_MM + 1.6), tip, kind="sight")
    _arrow_head(pen, tip, (c, s))
    pen.text(on_ramp(end + 5.0 * s - 0.5, _BOARD_MM + 2.8), "outward", "small", "end", total)
    pen.text(head, f"Ramp {write_angle(total)}: {rise} up on {gauge:g}", "small", bold=True)


def _hinges(pen: Pen, leg: LegSizes, paper: Inset) -> None:
    """Both ways to stack two hinges: three boards each, the lowest level."""
    tilts = _drilled(leg).tilts
    pen.text(paper.at(0.0, _ROW_MM - 20.5), "Or two hinges, one way or the other", "small", bold=True)
    fore_and_aft, across = "fore and aft", "side to side"
    for left, upper, above, lower, below in (
        (0.0, across, tilts.level_first_deg, fore_and_aft, tilts.level_second_deg),
        (34.0, fore_and_aft, tilts.carried_second_deg, across, tilts.carried_first_deg),
    ):
        _stack(pen, paper, (left, 0.0), abs(float(above)), abs(float(below)), lower == fore_and_aft)
        pen.text(paper.at(left, -4.0), f"above: {upper} {write_angle(above)}", "small")
        pen.text(paper.at(left, -7.6), f"below: {lower} {write_angle(below)}", "small")


def _stack(pen: Pen, paper: Inset, at: Point, above_deg: float, below_deg: float, fore_and_aft_below: bool) -> None:
    """Three boards on two hinges, seen from the right, the front and above."""
    wide, deep = 23.0, 18.0

    def spot(across: float, back: float, up: float) -> Point:
        return paper.at(at[0] + 0.9 * across + 0.5 * back, at[1] + 4.5 - 0.22 * across + 0.32 * back + up)

    def tip(place: tuple[float, float, float], tilt_deg: float, fore_and_aft: bool) -> tuple[float, float, float]:
        across, back, up = place
        c, s = cosd(tilt_deg), sind(tilt_deg)
        if fore_and_aft:  # about the right edge, which this view shows
            return wide - (wide - across) * c + up * s, back, (wide - across) * s + up * c
        return across, back * c - up * s, back * s + up * c

    corners = [(0.0, 0.0, 0.0), (wide, 0.0, 0.0), (wide, deep, 0.0), (0.0, deep, 0.0)]
    for tint, turns in (
        ("far", ()),
        ("wood", ((below_deg, fore_and_aft_below),)),
        ("paper", ((above_deg, not fore_and_aft_below), (below_deg, fore_and_aft_below))),
    ):
        placed = corners
        for tilt, fore_and_aft in turns:
            placed = [tip(place, tilt, fore_and_aft) for place in placed]
        pen.shape((spot(*place) for place in placed), tint, "visible")
        if turns:
            hinge = (placed[1], placed[2]) if turns[0][1] else (placed[0], placed[1])
            start, end = (spot(*place) for place in hinge)
            pen.line(start, end, kind="cut")
            for share in (0.2, 0.8):
                pen.dot((start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])), 0.8)


# Words


def _foot(pen: Pen, piece: SeatPiece, groups: Groups, at: Point) -> None:
    """The usual mistake, what the words mean, and what to mind."""
    (x, y), pitch = at, piece.design.seat.pitch
    drilled = [_drilled(group[0]) for group in groups]
    if any(min(abs(lean.seat_lean.rake_deg), abs(lean.seat_lean.splay_deg)) >= _NEVER_DEG for lean in drilled):
        y -= pen.mm(3.6)
        pen.line((x, y + pen.mm(0.8)), (x + pen.mm(10.0), y + pen.mm(0.8)), kind="warning")
        wrong = "Wrong: rake on one hinge and splay on the other; the hole misses. Take both angles from one picture."
        pen.text((x + pen.mm(12.0), y), wrong, "small", bold=True)
    how, leans = (f"pitched {write_angle(pitch)}", "others") if pitch else ("level", "the same")
    words = [
        f"Drill at: from the seat's surface and its square line. It is {how}, so the leans in the room are {leans}."
        " Run on: for the bevel gauge.",
        WORDS_NOTE,
    ]
    if any(min(lean.tilts[:2]) <= -_NEVER_DEG for lean in drilled):
        words[1] += " Below 0: the foot stands inward; that hinge lets the outward side down."
    y = pen.lines((x, y - pen.mm(0.4)), words, "small", 1.5)
    y = pen.lines((x, y - pen.mm(1.0)), ("At the drill",), "body")
    pen.lines((x, y - pen.mm(0.5)), DRILLING, "small", 1.5)


def _caption(piece: SeatPiece, groups: Groups) -> str:
    leans = "; ".join(
        f"{group_name(group).lower()} {write_angle(_drilled(group[0]).seat_lean.total_lean_deg)}"
        f" on {_sight_words(group[0])}"
        for group in groups
    )
    first = f"Drilling the seat of {piece.design.piece} from below: ramp at the total lean, sight line up its slope."
    return f"{first}\n{leans.capitalize()}, from the seat and its square line."


def _spoken(piece: SeatPiece, groups: Groups) -> str:
    unit = piece.design.unit
    words = []
    for group in groups:
        drilled = _drilled(group[0])
        lean, tilts = drilled.seat_lean, drilled.tilts
        words.append(
            f"{', '.join(leg.position for leg in group)}: drill rake {write_angle(lean.rake_deg)}, drill splay"
            f" {write_angle(lean.splay_deg)}, drill total lean {write_angle(lean.total_lean_deg)}, drill sight line"
            f" {_sight_words(group[0])}; {write_length(drilled.length_in_seat, unit, style='spoken')} inside the seat,"
            f" {write_length(drilled.axis_length, unit, style='spoken')} below it; with the fore-and-aft hinge"
            f" underneath, side-to-side hinge {write_angle(tilts.level_first_deg)} and fore-and-aft hinge"
            f" {write_angle(tilts.level_second_deg)}; with the side-to-side hinge underneath, side-to-side hinge"
            f" {write_angle(tilts.carried_first_deg)} and fore-and-aft hinge {write_angle(tilts.carried_second_deg)}."
        )
    return (
        f"Drilling card for {piece.design.piece}: the seat from below with mortises and sight lines, ramps and hinges. "
        + " ".join(words)
    )
