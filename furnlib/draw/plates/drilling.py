"""The card at the drill: the seat from below with its sight lines, and for each lean a ramp or two hinges."""

from __future__ import annotations

from furnlib.base.angles import cosd, sind
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Arc, Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import Card, cautions
from furnlib.draw.plates.groups import NEVER_DEG, WORDS_NOTE, Group, Groups, group_name, hand_words
from furnlib.draw.plates.views import sight_of, written
from furnlib.draw.scale import PLATE_MM, ratio_words
from furnlib.plan.piece import Piece, SeatPiece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, LegSizes
from furnlib.trade.cautions import DRILLING
from furnlib.trade.leg.lean import Lean

DRILLING_CARD = Card(
    "Drilling card",
    lambda leg: leg.drilling,
    "only legs under a seat are drilled for",
    "Drilling the seat of {} from below: ramp at the total lean, sight line up its slope.",
    ("seat.drill_rake", "seat.drill_splay", "two_tilts", "seat.length_in_seat"),
)

_STEPS = (
    "1  Roll the seat over: underside up, front edge away from you. Left and right are as seen from the front.",
    "2  Draw the square line and the middle line; measure the mortises from both.",
    "3  Draw each sight line at its angle, to the edge of the seat and down over it.",
    "4  Lay the seat on the ramp, sight line straight up the slope, arrow uphill. Or lay it square on two boards with"
    " a hinge each, one board on the other: each hinge lifts the outward side.",
    "5  Drill from this side: only here do the places hold. From above: same angles, other hand; arrow downhill,"
    " outward side let down.",
)
_WRONG = "Wrong: rake on one hinge and splay on the other; the hole misses. Take both angles from one picture."
_WIDE_MM = PLATE_MM[0] - 5.0
_ROW_MM, _RAMP_AT_MM, _HINGES_AT_MM = 48.0, 69.0, 117.0
_STACKS_APART_MM, _BOARD_ACROSS_MM, _BOARD_DEEP_MM = 34.0, 23.0, 18.0
_BOARD = ((0.0, 0.0), (_BOARD_ACROSS_MM, 0.0), (_BOARD_ACROSS_MM, _BOARD_DEEP_MM), (0.0, _BOARD_DEEP_MM))
_ARROW_MM, _TAIL_MM, _ARC_MM = 15.0, 7.0, 7.0
_SLOPE_MM, _HIGHEST_MM, _BOARD_MM = 40.0, 20.0, 5.0


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
    return DRILLING_CARD.plate(piece, scale, number, _draw, _caption, _spoken)


def _lean(leg: LegSizes) -> Lean:
    """The lean from the seat."""
    return DRILLING_CARD.of(leg).seat_lean


def _sight_words(leg: LegSizes) -> str:
    return write_angle(_lean(leg).sight_line_deg) if _leans(leg) else "none"


def _leans(leg: LegSizes) -> bool:
    """True where the leg is not drilled square to the seat."""
    return bool(_lean(leg).total_lean_deg >= NEVER_DEG)


def _draw(pen: Pen, piece: Piece, groups: Groups) -> None:
    """The seat with the steps beside it, or below a long one; a row for each lean; the foot."""
    assert isinstance(piece, SeatPiece)  # nothing else is drilled for its legs
    _seat_from_below(pen, piece)
    left, low, right, top = pen.reach()
    beside = piece.design.overall.width <= 2 * piece.design.overall.depth
    at = (right + pen.mm(4.0), top) if beside else (left, low - pen.mm(1.0))
    steps = pen.paragraphs(at, _STEPS, _WIDE_MM - (at[0] - left) * pen.scale)
    y = min(low, steps) - pen.mm(1.5)
    title = f"The seat from below, front edge on top, {ratio_words(pen.scale, pen.unit)}. Arrow: the way the foot goes."
    pen.text((left, top + pen.mm(2.0)), title, "small")
    for group in groups:
        _row(pen, piece, group, (left, y))
        y -= pen.mm(_ROW_MM)
    pen.line((left, y), (left + pen.mm(_WIDE_MM), y), kind="frame")
    _foot(pen, piece, groups, (left, y))


def _seat_from_below(pen: Pen, piece: SeatPiece) -> None:
    """The underside, measured along the seat: front edge on top, left and right as seen from the front."""
    design, share = piece.design, cosd(piece.design.seat.pitch)
    width, depth, past = float(design.overall.width), float(design.overall.depth), pen.mm(3.0)
    pen.shape(((across, -back / share) for across, back in piece.stand.outline), "far")
    pen.line((width / 2, -depth - past), (width / 2, past), kind="centre")
    pen.line((-past, -depth / 2), (width + past, -depth / 2), kind="centre")
    _mortise_sizes(pen, piece, width, depth)
    places = [(leg, (leg.top[0], -leg.top[1] / share)) for leg in piece.legs]
    for leg, at in places:
        _mortise(pen, leg, at)
    left, low, right, _ = pen.reach()
    pen.text((width / 2, low - pen.mm(2.6)), "square line", "small", "middle")
    for leg, (x, y) in places:
        side = leg.outward[0] if " " in leg.position else 0
        way = side or (-1 if _lean(leg).sight_line_deg > NEVER_DEG else 1)  # beside a middle one, away from the arrow
        edge = x + way * pen.mm(_ARC_MM + 1.5) if not side else left - pen.mm(1.0) if side < 0 else right + pen.mm(1.0)
        for line, words in enumerate((leg.position.capitalize(), f"sight line {_sight_words(leg)}")):
            at = (edge, y + pen.mm(0.8 - 3.4 * line))
            pen.text(at, words, "small", "end" if way < 0 else "start", bold=line == 0, clear=True)


def _mortise_sizes(pen: Pen, piece: SeatPiece, width: float, depth: float) -> None:
    """Sizes from the middle: across above the front edge, front and rear on the left."""
    mortises, names = piece.design.legs.mortises, " ".join(leg.position for leg in piece.legs)
    for word, way in (("left", -1), ("right", 1)):
        if word in names:
            first, last = sorted((width / 2, width / 2 + way * float(mortises.out)))
            pen.dimension((first, 0.0), (last, 0.0), 5.0, written(mortises.out, pen.unit), bold=True)
    for word, way, run in (("front", 1, mortises.front), ("rear", -1, mortises.rear)):
        if word in names:
            low, high = sorted((-depth / 2, -depth / 2 + way * float(run)))
            pen.dimension((0.0, low), (0.0, high), 5.0, written(run, pen.unit), bold=True)


def _mortise(pen: Pen, leg: LegSizes, at: Point) -> None:
    """A mortise from below, with its sight line and the angle from the fore-and-aft line."""
    (x, y), arm = at, pen.mm(4.0)
    pen.line((x, y - arm), (x, y + arm), kind="centre")
    pen.line((x - arm, y), (x + arm, y), kind="centre")
    if leg.round:
        pen.circle(at, float(leg.round.tenon) / 2)
    if _leans(leg):
        sight = sight_of(leg, _lean(leg).sight_line_deg).from_below
        pen.arrow(sight.at(at, -pen.mm(_TAIL_MM)), sight.at(at, pen.mm(_ARROW_MM)), "sight", "blue")
        if sight.turns_deg[1] - sight.turns_deg[0] >= NEVER_DEG:
            pen.line(at, (x, y - leg.outward[1] * pen.mm(_ARC_MM + 2.0)), kind="thin")
            pen.items.append(Arc(at, pen.mm(_ARC_MM), *sight.turns_deg, "dimension"))


def _row(pen: Pen, piece: SeatPiece, group: Group, at: Point) -> None:
    """One lean across the sheet: its angles, its ramp, its hinges."""
    (x, y), leg = at, group[0]
    pen.line((x, y), (x + pen.mm(_WIDE_MM), y), kind="frame")
    pen.text((x, y - pen.mm(4.6)), f"{group_name(group)}: {hand_words(group)}", "body", bold=True)
    below = y - pen.mm(6.5)
    _, low = pen.table((x, below), _angles(pen, piece, leg), bold_columns=(1,))
    pen.lines((x, low - pen.mm(0.6)), _bit_and_axis(pen, leg), "small", 1.5)
    title = "No lean: drill square to the seat, without a ramp"
    if _leans(leg):
        rise = written(_lean(leg).foot_run(GAUGE_HEIGHT[pen.unit]).plan, pen.unit)
        title = f"Ramp {write_angle(_lean(leg).total_lean_deg)}: {rise} up on {GAUGE_HEIGHT[pen.unit]:g}"
        beside = x + pen.mm(_HINGES_AT_MM)
        pen.text((beside, below - pen.mm(3.6)), "Or two hinges, one way or the other", "small", bold=True)
        _stacks(pen, leg, (beside, y - pen.mm(_ROW_MM - 10.0)))
    pen.text((x + pen.mm(_RAMP_AT_MM), below - pen.mm(3.6)), title, "small", bold=True)
    _ramp(pen, leg, (x + pen.mm(_RAMP_AT_MM + 2.0), y - pen.mm(_ROW_MM - 7.0)))


def _angles(pen: Pen, piece: Piece, leg: LegSizes) -> list[tuple[str, ...]]:
    """What to set, from the seat; beside it the same leg in the room where the seat is pitched."""
    lean, room, gauge = _lean(leg), leg.lean, GAUGE_HEIGHT[pen.unit]
    side, front, along = (written(run, pen.unit) for run in lean.foot_run(gauge))
    in_room = write_angle(room.sight_line_deg) if room.total_lean_deg >= NEVER_DEG else "none"
    rows: list[tuple[str, ...]] = [
        ("", "drill at", f"run on {gauge:g}", "in the room"),
        ("rake", write_angle(lean.rake_deg), side, write_angle(room.rake_deg)),
        ("splay", write_angle(lean.splay_deg), front, write_angle(room.splay_deg)),
        ("total lean", write_angle(lean.total_lean_deg), along, write_angle(room.total_lean_deg)),
        ("sight line", _sight_words(leg), "", in_room),
    ]
    return rows if isinstance(piece, SeatPiece) and piece.design.seat.pitch else [row[:3] for row in rows]


def _bit_and_axis(pen: Pen, leg: LegSizes) -> tuple[str, str]:
    drilled = DRILLING_CARD.of(leg)
    inside, below = written(drilled.length_in_seat, pen.unit), written(drilled.axis_length, pen.unit)
    bit = f"Leg {written(leg.square or 0, pen.unit)} square: mark its mortise from the leg."
    if leg.round:
        bit = f"Bit and tenon {written(leg.round.tenon, pen.unit)}."
    return bit, f"Axis {inside} inside the seat, {below} below it."


def _hinges(leg: LegSizes) -> tuple[tuple[str, str], tuple[str, str]]:
    """Both ways to stack two hinges."""
    first, second, carried_first, carried_second = (write_angle(tilt) for tilt in DRILLING_CARD.of(leg).tilts)
    return (
        (f"above: side to side {first}", f"below: fore and aft {second}"),
        (f"above: fore and aft {carried_second}", f"below: side to side {carried_first}"),
    )


def _stacks(pen: Pen, leg: LegSizes, at: Point) -> None:
    """Both stacks of three boards on two hinges, seen from the right, the front and above, and their words."""
    first, second, carried_first, carried_second = (abs(float(tilt)) for tilt in DRILLING_CARD.of(leg).tilts)
    for number, words in enumerate(_hinges(leg)):
        paper = pen.inset((at[0] + number * pen.mm(_STACKS_APART_MM), at[1]), pen.mm(1.0))
        above, below = (carried_second, carried_first) if number else (first, second)
        for tint, turns in (
            ("far", ()),
            ("wood", ((below, number == 0),)),
            ("paper", ((above, number == 1), (below, number == 0))),
        ):
            board = [paper.at(*_seen(corner, turns)) for corner in _BOARD]
            pen.shape(board, tint, "visible")
            if turns:
                start, end = board[1:3] if turns[0][1] else board[:2]
                pen.line(start, end, kind="cut")
                for share in (0.2, 0.8):
                    pen.dot(tuple(a + share * (b - a) for a, b in zip(start, end, strict=True)), 0.8)  # type: ignore[arg-type]
        for line, said in enumerate(words):
            pen.text(paper.at(0.0, -4.0 - 3.6 * line), said, "small")


def _seen(corner: tuple[float, float], turns: tuple[tuple[float, bool], ...]) -> Point:
    """Where a corner of a board shows in mm that tips about its right edge (fore and aft) or its front one."""
    (across, back), up = corner, 0.0
    for tilt_deg, fore_and_aft in turns:
        c, s = cosd(tilt_deg), sind(tilt_deg)
        if fore_and_aft:
            inward = _BOARD_ACROSS_MM - across
            across, up = _BOARD_ACROSS_MM - inward * c + up * s, inward * s + up * c
        else:
            back, up = back * c - up * s, back * s + up * c
    return 0.9 * across + 0.5 * back, 4.5 - 0.22 * across + 0.32 * back + up


def _ramp(pen: Pen, leg: LegSizes, at: Point) -> None:
    """The ramp under the seat, seen square to its slope, on the table of the drill."""
    lean, gauge = _lean(leg), GAUGE_HEIGHT[pen.unit]
    total, rise = float(lean.total_lean_deg), written(lean.foot_run(gauge).plan, pen.unit)
    slope = min(_SLOPE_MM, _HIGHEST_MM / sind(total)) if _leans(leg) else _SLOPE_MM
    table = pen.inset(at, pen.mm(1.0))
    ramp = pen.inset(table.at((_SLOPE_MM - slope * cosd(total)) / 2, 0.0), pen.mm(1.0), total)
    pen.box(*table.at(-2.0, -2.2), *table.at(_SLOPE_MM + 2.0, 0.0), "far", "thin", hatch=True)
    x, y = ramp.at(slope / 2, _BOARD_MM)
    pen.box(x - pen.mm(1.5), y - pen.mm(2.0), x + pen.mm(1.5), y + pen.mm(9.0), "pale")
    pen.text((x + pen.mm(1.5), y + pen.mm(10.2)), "bit, plumb", "small", "end")
    far = slope - 1.0
    pen.shape((ramp.at(*place) for place in ((2.0, 0.0), (far, 0.0), (far, _BOARD_MM), (2.0, _BOARD_MM))), "far")
    pen.line((x, y + pen.mm(9.0)), (x, y - pen.mm(_BOARD_MM / cosd(total))), kind="centre")
    pen.text(ramp.at(5.2, 1.4), "seat", "small", "middle", total)
    if _leans(leg):
        toe, high = ramp.at(0.0, 0.0), ramp.at(slope, 0.0)
        heel = (high[0], toe[1])
        pen.shape((toe, heel, high), "wood", "cut")
        pen.dimension(toe, heel, -5.2, f"{gauge:g}")
        pen.dimension(heel, high, -4.0, rise)
        pen.arrow(ramp.at(slope / 2 + 3.0, _BOARD_MM + 1.6), ramp.at(slope - 1.0, _BOARD_MM + 1.6), "sight", "blue")
        pen.text(ramp.at(slope + 5.0 * sind(total) - 1.5, _BOARD_MM + 2.8), "outward", "small", "end", total)


def _foot(pen: Pen, piece: SeatPiece, groups: Groups, at: Point) -> None:
    """The usual mistake, what the words mean, and what to mind."""
    (x, y), pitch = at, piece.design.seat.pitch
    tilts = [DRILLING_CARD.of(group[0]).tilts for group in groups]
    if any(min(abs(tilt.level_first_deg), abs(tilt.carried_second_deg)) >= NEVER_DEG for tilt in tilts):
        y -= pen.mm(3.6)
        pen.line((x, y + pen.mm(0.8)), (x + pen.mm(10.0), y + pen.mm(0.8)), kind="warning")
        pen.text((x + pen.mm(12.0), y), _WRONG, "small", bold=True)
    how, leans = (f"pitched {write_angle(pitch)}", "others") if pitch else ("level", "the same")
    words = (
        f"Drill at: from the seat's surface and its square line. It is {how}, so the leans in the room are {leans}."
        " Run on: for the bevel gauge.",
        "A hinge side to side runs from left to right and tips the seat fore and aft; the other one tips it sideways.",
        f"{WORDS_NOTE} Below 0: the foot stands inward; that hinge lets the outward side down.",
    )
    y = pen.paragraphs((x, y - pen.mm(0.4)), words, _WIDE_MM) - pen.mm(1.0)
    cautions(pen, (x, y), "At the drill", DRILLING)


def _caption(_: Pen, leg: LegSizes) -> str:
    return f" {write_angle(_lean(leg).total_lean_deg)} on {_sight_words(leg)}"


def _spoken(pen: Pen, piece: Piece, leg: LegSizes) -> list[str]:
    angles = [f"{name} {angle}" for name, angle, *_ in _angles(pen, piece, leg)[1:]]
    hinges = [f"{above}, {below}" for above, below in _hinges(leg)]
    return [f"Drill at: {', '.join(angles)}.", *_bit_and_axis(pen, leg), f"Two hinges: {'; or '.join(hinges)}."]
