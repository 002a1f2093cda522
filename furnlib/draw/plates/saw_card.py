"""Plate 6, at the saw: for either face on the table what to set, and which way to swing and tilt."""

from __future__ import annotations

from furnlib.base.angles import tand
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.card import ROOM_MM, Card, cautions
from furnlib.draw.plates.faces import ORIENTATION_WORDS, SquareLeg, square_leg
from furnlib.draw.plates.groups import NEVER_DEG, WORDS_NOTE, Groups, heading
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, LegSizes, end_of
from furnlib.trade.cautions import MACHINE, TABLE_SAW
from furnlib.trade.leg.end_cut import SawSetting

SAW_CARD = Card(
    "Saw card",
    square_leg,
    "its legs are turned, and a cradle holds them at the saw",
    "Level end cuts for {}: what to set for either face on the table.",
    ("end_cut.mitre", "end_cut.tilt", "end_cut.blank", "end_cut.corner", "end_cut.level_corner"),
)

_PANEL_MM, _BETWEEN_MM, _WASTE_MM = 89.5, 3.0, 5.0
_ALONG_MM = 36.0  # of a panel, for the picture along the cut
_SQUARE_MM = (13.0, 24.0)  # room for what a cut runs off square, and for the leg's thickness
_HOW_MEASURED = "Mitre: from square across, in the face on the table. Tilt: of the blade, from square to the table."
_OPPOSITE = (
    "Opposite face down: swing and blade both go the other way; the edge on the same side of the leg stays the longer."
)
_OTHER_HAND = (
    "The other hand is the mirror image: the words hold as they stand; swing goes the other way, the blade leans the"
    " same way. Where front and rear legs share their settings, read back for front on the rear ones."
)
_NO_HAND = "Set by the sight line a leg has no hand: left and right ones are alike."
_BOTH_ENDS = "Both ends: slide the leg along, do not turn it end for end; so every edge has the length of the axis."
_ROUND_FOOT = "Foot turned: the leg lies on its square, clamped, its foot packed up clear of the table; same settings."
_FOOT_ONLY = "Only the foot is sawn level; the top goes into the seat."


def saw_card_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw a saw card.

    Args:
        piece: a finished piece with square legs.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.
        number: which card, from 1; each holds two leans.

    Returns:
        For each lean and each face on the table mitre and tilt, which way they go in words, the leg
        from above with its cut lines and the blade seen along the cut; below them what to mind.

    Raises:
        DesignError: when the legs are turned.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> saw_card_plate(read_piece("notebooks/designs/landing_chest.yaml")).name
        'Saw card'
    """
    legs = [SAW_CARD.of(group[0]) for group in SAW_CARD.sheet(piece, number)]
    scale = scale or min(_fitting(leg, piece) for leg in legs)
    return SAW_CARD.plate(piece, scale, number, _draw, _caption, _spoken)


def _fitting(leg: SquareLeg, piece: Piece) -> float:
    """The largest usual scale at which thickness and run of the cuts keep their room."""
    steepest, square = max(max(s.mitre_deg, s.tilt_deg) for s in leg.settings), float(leg.square)
    return fitting_scale(square * tand(steepest), square, piece.design.unit, 0.0, 0.0, _SQUARE_MM)


def _draw(pen: Pen, _: Piece, groups: Groups) -> None:
    """For each lean both faces side by side and its lengths; below them what to know and what to mind."""
    y = 0.0
    for group in groups:
        leg = SAW_CARD.of(group[0])
        y = heading(pen, group, (0.0, y), "" if leg.hand else f"all alike, drawn for the {leg.leg.position} leg")
        for face in (0, 1):
            low = _panel(pen, leg, face, (pen.mm(face * (_PANEL_MM + _BETWEEN_MM)), y))
        y = pen.lines((0.0, low - pen.mm(0.8)), _lengths(leg, pen), "small") - pen.mm(3.0)
    y = pen.paragraphs((0.0, y), _notes(leg), ROOM_MM[0]) - pen.mm(1.5)
    cautions(pen, (0.0, y), "At the table saw", (*TABLE_SAW, *MACHINE))


def _panel(pen: Pen, leg: SquareLeg, face: int, at: Point) -> float:
    """A face on the table, below a point: numbers, the two pictures, and the words; how far down it reaches."""
    setting, gauge = leg.settings[face], GAUGE_HEIGHT[pen.unit]
    x, y = at[0], at[1] - pen.mm(3.8)
    along = x + pen.mm(_PANEL_MM - _ALONG_MM)
    pen.text((x, y), f"{leg.faces[face].capitalize()} face on the table", "body", bold=True)
    y -= pen.mm(5.0)
    for left, word, angle_deg, none, seen in (
        (x, "Mitre", setting.mitre_deg, "square across", "from above"),
        (along, "Tilt", setting.tilt_deg, "blade upright", "along the cut"),
    ):
        run = f"{written(gauge * tand(angle_deg), pen.unit)} on {gauge:.0f}" if angle_deg >= NEVER_DEG else none
        pen.text((left, y), f"{word} {write_angle(angle_deg)}", "body", bold=True)
        pen.text((left, y - pen.mm(3.6)), f"{run}; {seen}", "small")
    y -= pen.mm(12.0) + float(leg.square)
    _from_above(pen, leg, face, (x, y), along - pen.mm(3.0))
    _along_the_cut(pen, leg, setting, (along, y))
    return pen.lines((x, y - pen.mm(4.2)), _which_way(setting))


def _from_above(pen: Pen, leg: SquareLeg, face: int, at: Point, right: float) -> None:
    """The leg on the table, foot to the left, with its cut lines.

    With its front face down, the outer edge of a front left leg lies near and that of a front
    right leg far; with the side face down it is the other way round.
    """
    setting, square, (x, y), low = leg.settings[face], float(leg.square), at, at[1] - pen.mm(3.4)
    outer_far = leg.leg.outward[0] * leg.leg.outward[1] * (1 if face else -1)
    lead = outer_far * setting.long_edge * square * tand(setting.mitre_deg) / 2  # of the far edge, towards the foot
    foot, top = x + pen.mm(_WASTE_MM) + abs(lead), right - pen.mm(_WASTE_MM) - abs(lead)
    up = _up(leg)
    near, far = (foot + lead * (1 - 2 * up / square), y + up), (foot - lead * (1 - 2 * up / square), y + square - up)
    if leg.leg.drilling:
        _sawn(pen, x, (near, far), pen.broken((right, y), (right, y + square)), "thin", setting.mitre_deg)
    else:
        ends = [(top + lead, y), (top - lead, y + square)]
        pen.shape((*ends, (right, y + square), (right, y)), "far", "thin", hatch=True)
        gap = [(x + right) / 2 + pen.mm(side) for side in (-1.0, 1.0)]
        first = pen.broken((gap[0], y + up), (gap[0], y + square - up))
        second = pen.broken((gap[1], y), (gap[1], y + square))
        pen.shape((*second, *reversed(ends)), "wood", "")
        pen.line(second[0], ends[0])
        pen.line(second[-1], ends[-1])
        pen.line(*second, kind="thin")
        pen.line(*ends, kind="cut")
        _sawn(pen, x, (near, far), first, "thin", setting.mitre_deg)
        pen.text((right, low), "top", "small", "end")
    pen.text((x, low), "foot", "small")
    if setting.mitre_deg >= NEVER_DEG:
        for words, is_far in (("outer edge", outer_far > 0), ("inner edge", outer_far < 0)):
            edge = (right, y + square + pen.mm(1.2)) if is_far else ((x + right) / 2, low)
            pen.text(edge, words, "small", "end" if is_far else "middle", bold=words == "outer edge")


def _up(leg: SquareLeg) -> float:
    """How far the foot is clear of the table on which the square lies: where it is turned it is thinner."""
    return (float(leg.square) - leg.leg.turned.diameters.foot) / 2 if leg.leg.turned else 0.0


def _along_the_cut(pen: Pen, leg: SquareLeg, setting: SawSetting, at: Point) -> None:
    """The foot on the table seen along the cut line, foot to the left, and the blade through it."""
    (x, y), up = at, _up(leg)
    square = float(leg.square) - 2 * up
    lean = setting.long_face * square * tand(setting.tilt_deg)
    left, right = x + pen.mm(1.0), x + pen.mm(_ALONG_MM - 3.0)
    low = (x + pen.mm(9.0) - min(lean, 0.0), y + up)
    end = pen.broken((right, low[1]), (right, low[1] + square))
    if up:
        pen.box(low[0] + pen.mm(8.0), y, right - pen.mm(2.0), low[1], "pale", "thin")
    _sawn(pen, left, (low, (low[0] + lean, low[1] + square)), end, "thin", setting.tilt_deg, past=pen.mm(3.5))
    pen.line((x - pen.mm(1.0), y), (x + pen.mm(_ALONG_MM), y))
    pen.text((left, y - pen.mm(3.4)), "off-cut", "small")
    pen.text((right, y - pen.mm(3.4)), "foot, packed up" if up else "leg on the table", "small", "end")


def _sawn(
    pen: Pen, left: float, cut: tuple[Point, Point], end: list[Point], kind: str, off_deg: float, past: float = 0.0
) -> None:
    """A leg with its cut, what falls off to the left of it, and how far the cut is off square."""
    low, high = cut
    square = high[1] - low[1]
    pen.shape((low, high, (left, high[1]), (left, low[1])), "far", "thin", hatch=True)
    pen.shape((low, *end, high), "wood", "")
    pen.line(low, end[0])
    pen.line(high, end[-1])
    pen.line(*end, kind=kind)
    pen.line(low, (high[0] + (high[0] - low[0]) * past / square, high[1] + past), kind="cut")
    if off_deg >= NEVER_DEG:
        pen.line(low, (low[0], high[1] + pen.mm(3.0)), kind="centre")
        turns = (90.0, 90.0 + off_deg) if high[0] < low[0] else (90.0 - off_deg, 90.0)
        pen.angle(low, square * pen.scale + 2.0, *turns, write_angle(off_deg))


def _which_way(setting: SawSetting) -> tuple[str, str, str]:
    """Swing and tilt at the foot, free of the saw's own handedness."""
    swing, tilt, over = "square across;", "blade upright.", ""
    if setting.mitre_deg >= NEVER_DEG:
        swing = f"swing so that the {'outer' if setting.long_edge > 0 else 'inner'} edge is left longer;"
    if setting.tilt_deg >= NEVER_DEG:
        longer, bends = ("longer", "leg") if setting.long_face > 0 else ("shorter", "off-cut")
        tilt = f"tilt so that the face on the table is left {longer}"
        over = f"(the blade leans over the {bends})."
    return f"Foot end: {swing}", tilt, over


def _lengths(leg: SquareLeg, pen: Pen) -> tuple[str, str]:
    """Lengths of axis and blank, and what the level end looks like under a square pad."""
    cut, side = leg.end_cut, written(leg.square, pen.unit)
    axis, blank = written(cut.axis_length, pen.unit), written(cut.blank_length, pen.unit, round_up=True)
    lengths = f"Axis {axis} from end to end. Least blank {side} square, {blank} long, and waste."
    if leg.leg.turned:
        lengths = f"Axis {axis} from end to end, its top {side} square. The blank has a card of its own."
    elif leg.leg.drilling:
        lengths = f"Axis {axis} from the underside of the seat to the floor, {side} square."
    corner = "square"
    if abs(cut.corner_deg) >= NEVER_DEG:
        corner = f"{write_angle(abs(cut.corner_deg), 2)} {'sharper' if cut.corner_deg > 0 else 'blunter'} than square"
    edges = (("front", cut.front_edge_deg), ("side", cut.side_edge_deg)) if leg.hand else ()
    swings = [
        f", its {name} edge swings {write_angle(abs(angle_deg), 2)} {'out' if angle_deg > 0 else 'in'}"
        for name, angle_deg in edges
        if abs(angle_deg) >= NEVER_DEG
    ]
    return lengths, f"Under a square pad the level end's corner is {corner}{''.join(swings)}."


def _notes(leg: SquareLeg) -> tuple[str, ...]:
    corner = "outer" if " " in leg.leg.position else f"{end_of(leg.leg.position)} right"
    return (
        _HOW_MEASURED,
        _OPPOSITE,
        _OTHER_HAND if leg.hand else _NO_HAND,
        _ROUND_FOOT if leg.leg.turned else _FOOT_ONLY if leg.leg.drilling else _BOTH_ENDS,
        f"Outer edge: on the face that lies on the table, the one at the leg's {corner} corner; pencil it on first.",
        ORIENTATION_WORDS[leg.end_cut.orientation],
        f"{WORDS_NOTE} Left and right as seen from the front.",
    )


def _angles(leg: SquareLeg, face: int) -> str:
    """What to set for one face."""
    setting = leg.settings[face]
    angles = f"mitre {write_angle(setting.mitre_deg)} and tilt {write_angle(setting.tilt_deg)}"
    return f"{leg.faces[face]} face down, {angles}"


def _caption(_: Pen, leg: LegSizes) -> str:
    return f": {_angles(SAW_CARD.of(leg), 1)}"


def _spoken(pen: Pen, _: Piece, leg: LegSizes) -> list[str]:
    made = SAW_CARD.of(leg)
    faces = [f"{_angles(made, face).capitalize()}. {' '.join(_which_way(made.settings[face]))}" for face in (0, 1)]
    return [*faces, *_lengths(made, pen), _OPPOSITE]
