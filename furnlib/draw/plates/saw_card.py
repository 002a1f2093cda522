"""Plate 6, at the saw: for either face on the table what to set, and which way to swing and tilt."""

from __future__ import annotations

from dataclasses import dataclass

from furnlib.base.angles import tand
from furnlib.base.units import Unit, write_angle, write_length
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.groups import (
    WORDS_NOTE,
    Groups,
    group_name,
    hand_words,
    leans_on_sheet,
    sawn,
    sheet_name,
)
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, LegSizes
from furnlib.trade.cautions import MACHINE, TABLE_SAW
from furnlib.trade.leg.end_cut import Orientation, SawSetting

ORIENTATION_WORDS: dict[Orientation, str] = {
    "untwisted": "Untwisted: a plumb square leg leaned over, and not turned about its own length.",
    "front_level": "Front level: turned so that the level lines of its front and back faces run along the front.",
    "side_level": "Side level: turned so that the level lines of its side faces run along the side of the piece.",
    "sightline": "On the sight line: two upright faces stand plumb along the lean; the two others lean.",
    "sightline_corner": "Corner foremost: turned so that the outer corner points the way the leg leans.",
}
"""Each way to turn a leg, and what it means."""
_ROOM_MM = 182.0
_BETWEEN_MM = 3.0
_WASTE_MM = 5.0
_LEAST_MM = 38.0  # the picture from above is never shorter, for the words round it
_ALONG_MM = (46.0, 36.0)  # the picture along the cut, of one lean on the sheet and of two
_SQUARE_MM = ((20.0, 33.0), (13.0, 24.0))  # room for what a cut runs off square, and for the leg's thickness
_SHOWN_DEG = 0.05  # less is written as 0
_HOW_MEASURED = "Mitre: from square across, in the face on the table. Tilt: of the blade, from square to the table."
_OPPOSITE = (
    "Opposite face down: swing and blade both go the other way; the edge on the same side of the leg stays the longer."
)
_OTHER_HAND = "The other hand: the words hold as they stand; swing goes the other way, the blade leans the same way."
_BOTH_ENDS = "Both ends: slide the leg along, do not turn it end for end; so every edge has the length of the axis."
_FOOT_ONLY = "Only the foot is sawn level; the top goes into the seat."


def face_names(leg: LegSizes) -> tuple[str, str, str, str]:
    """Name the four faces of a square leg.

    Args:
        leg: one leg.

    Returns:
        The face that looks outward to the front or the back, the outer side, and their opposites.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> face_names(read_piece("notebooks/designs/landing_chest.yaml").legs[2])
        ('back', 'outer side', 'front', 'inner side')
    """
    orientation = sawn(leg)[1].orientation
    if orientation == "sightline":
        return "outer leaning", "upright", "inner leaning", "upright"
    if orientation == "sightline_corner":
        return "foremost", "foremost", "hindmost", "hindmost"
    outward, inward = ("front", "back") if leg.outward[1] < 0 else ("back", "front")
    outer, inner = ("outer", "inner") if " " in leg.position else ("right", "left")
    return outward, f"{outer} side", inward, f"{inner} side"


def hand_of(leg: LegSizes) -> int:
    """Tell a leg from its mirror image.

    Args:
        leg: one leg.

    Returns:
        1 for a front left and a rear right leg, -1 for the other two.
    """
    return leg.outward[0] * leg.outward[1]


def has_hand(leg: LegSizes) -> bool:
    """Tell whether a leg differs from its mirror image.

    Args:
        leg: one leg.

    Returns:
        False where it is set by the sight line: both halves are alike.
    """
    return not sawn(leg)[1].orientation.startswith("sightline")


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
    unit, groups = piece.design.unit, leans_on_sheet(piece, number)
    pen = Pen(scale or _fitting(groups, unit), unit)
    abreast = len(groups) > 1  # a single lean has the whole width for each face
    room = (_ROOM_MM - _BETWEEN_MM) / 2 if abreast else _ROOM_MM
    y = 0.0
    for group in groups:
        y -= pen.mm(5.0)
        pen.text((0.0, y), f"{group_name(group)}: {_hands(group)}", "body", bold=True)
        low = y
        for face in (0, 1):
            panel = _Panel(pen, group[0], face, room, _ALONG_MM[abreast])
            low = panel.draw((pen.mm(face * (room + _BETWEEN_MM)), y) if abreast else (0.0, low))
        y = pen.lines((0.0, low - pen.mm(0.8)), _leg_lines(group, unit), "small") - pen.mm(2.5)
    y = pen.lines((0.0, y), _notes([group[0] for group in groups]), "small", 1.5) - pen.mm(5.0)
    pen.text((0.0, y), "At the table saw", "body", bold=True)
    pen.lines((0.0, y - pen.mm(0.5)), (*TABLE_SAW, *MACHINE), "small", 1.5)
    return pen.drawing(
        sheet_name(piece, "Saw card", number),
        caption=_caption(piece, groups),
        spoken=_spoken(piece, groups),
        formulas=("end_cut.mitre", "end_cut.tilt", "end_cut.blank", "end_cut.corner", "end_cut.level_corner"),
    )


def _fitting(groups: Groups, unit: Unit) -> float:
    """The largest usual scale at which thickness and run of the cuts keep their room."""
    scales, room = [], _SQUARE_MM[len(groups) > 1]
    for group in groups:
        square, cut = sawn(group[0])
        steepest = max(angle for s in (cut.front_down, cut.side_down) for angle in (s.mitre_deg, s.tilt_deg))
        scales.append(fitting_scale(float(square) * tand(steepest), float(square), unit, 0.0, 0.0, room))
    return min(scales, default=1.0)


def _hands(group: tuple[LegSizes, ...]) -> str:
    if len(group) > 1 and not has_hand(group[0]):
        return "same settings, all alike: set by the sight line, a leg has no hand"
    return hand_words(group)


def _settings(leg: LegSizes) -> tuple[SawSetting, SawSetting]:
    cut = sawn(leg)[1]
    return cut.front_down, cut.side_down


@dataclass(frozen=True)
class _Panel:
    """One face on the table: numbers, the two pictures, and the words.

    Args:
        pen: the plate's pen.
        leg: the leg that is drawn.
        face: 0 with the front (or back) face on the table, 1 with a side face.
        room_mm: width of the panel on paper.
        along_mm: how much of it the picture along the cut takes.
    """

    pen: Pen
    leg: LegSizes
    face: int
    room_mm: float
    along_mm: float

    @property
    def setting(self) -> SawSetting:
        """What to set."""
        return _settings(self.leg)[self.face]

    @property
    def square(self) -> float:
        """The leg's thickness on the table."""
        return float(sawn(self.leg)[0])

    def draw(self, at: Point) -> float:
        """Draw it below a point; how far down it reaches."""
        pen, setting, gauge = self.pen, self.setting, GAUGE_HEIGHT[self.pen.unit]
        x, y = at[0], at[1] - pen.mm(5.2)
        along = x + pen.mm(self.room_mm - self.along_mm)
        pen.text((x, y), f"{face_names(self.leg)[self.face].capitalize()} face on the table", "body", bold=True)
        y -= pen.mm(5.0)
        for left, word, angle_deg, none, seen in (
            (x, "Mitre", setting.mitre_deg, "square across", "from above"),
            (along, "Tilt", setting.tilt_deg, "blade upright", "along the cut"),
        ):
            run = f"{written(gauge * tand(angle_deg), pen.unit)} in {gauge:.0f}" if angle_deg >= _SHOWN_DEG else none
            pen.text((left, y), f"{word} {write_angle(angle_deg)}", "body", bold=True)
            pen.text((left, y - pen.mm(3.6)), f"{run}; {seen}", "small")
        y -= pen.mm(12.0) + self.square
        self._from_above((x, y), along - x - pen.mm(3.0))
        self._along_the_cut((along, y))
        return pen.lines((x, y - pen.mm(4.2)), _which_way(setting))

    def _from_above(self, at: Point, room: float) -> None:
        """The leg on the table, foot to the left, with its cut lines.

        With its front face down, the outer edge of a front left leg lies near and that of a front
        right leg far; with the side face down it is the other way round.
        """
        pen, leg, setting, square = self.pen, self.leg, self.setting, self.square
        x, y = at
        outer_far = -hand_of(leg) if self.face == 0 else hand_of(leg)
        lead = outer_far * setting.long_edge * square * tand(setting.mitre_deg) / 2  # of the far edge, towards the foot
        bare = float(sawn(leg)[1].axis_length) + 2 * abs(lead)
        waste = max(pen.mm(_WASTE_MM), (pen.mm(_LEAST_MM) - bare) / 2)
        whole = bare + 2 * waste
        right = x + min(whole, room)
        foot, top = x + waste + abs(lead), right - waste - abs(lead)
        near, far = (foot + lead, y), (foot - lead, y + square)
        ends = [(top + lead, y), (top - lead, y + square)]
        if leg.drilling:
            ends = _zigzag(pen, right - pen.mm(1.0), y, square)
        else:
            pen.shape((*ends, (right, y + square), (right, y)), "far", "thin", hatch=True)
        pen.shape((near, far, (x, y + square), (x, y)), "far", "thin", hatch=True)
        pen.shape((near, *ends, far), "wood", "")
        pen.line(near, ends[0])
        pen.line(far, ends[-1])
        pen.line(*ends, kind="thin" if leg.drilling else "cut")
        pen.line(near, far, kind="cut")
        if leg.drilling is None:
            pen.text((right, y - pen.mm(3.4)), "top", "small", "end")
            if whole > room:
                _break(pen, (foot + top) / 2, y, square)
        pen.text((x, y - pen.mm(3.4)), "foot", "small")
        if setting.mitre_deg >= _SHOWN_DEG:
            _angle(pen, near, square, lead > 0, setting.mitre_deg)
            for words, is_far in (("outer edge", outer_far > 0), ("inner edge", outer_far < 0)):
                edge = (right, y + square + pen.mm(1.2)) if is_far else ((x + right) / 2, y - pen.mm(3.4))
                pen.text(edge, words, "small", "end" if is_far else "middle", bold=words == "outer edge")

    def _along_the_cut(self, at: Point) -> None:
        """The leg on the table seen along the cut line, foot to the left, and the blade through it."""
        pen, setting, square = self.pen, self.setting, self.square
        x, y = at
        lean = setting.long_face * square * tand(setting.tilt_deg)
        left, right = x + pen.mm(1.0), x + pen.mm(self.along_mm - 3.0)
        on_table = x + pen.mm(9.0) - min(lean, 0.0)
        low, high = (on_table, y), (on_table + lean, y + square)
        pen.shape(((left, y), low, high, (left, y + square)), "far", "thin", hatch=True)
        end = _zigzag(pen, right, y, square)
        pen.shape((low, *end, high), "wood", "")
        pen.line(high, end[-1])
        pen.line(*end, kind="thin")
        pen.line((x - pen.mm(1.0), y), (x + pen.mm(self.along_mm), y))
        over = pen.mm(3.5) / square
        pen.line(low, (high[0] + over * lean, high[1] + over * square), kind="cut")
        if setting.tilt_deg >= _SHOWN_DEG:
            _angle(pen, low, square, lean < 0, setting.tilt_deg)
        pen.text((left, y - pen.mm(3.4)), "off-cut", "small")
        pen.text((right, y - pen.mm(3.4)), "leg on the table", "small", "end")


def _angle(pen: Pen, at: Point, square: float, to_left: bool, angle_deg: float) -> None:
    """How far a cut is off square, from the line square across or upright."""
    pen.line(at, (at[0], at[1] + square + pen.mm(3.0)), kind="centre")
    start, end = (90.0, 90.0 + angle_deg) if to_left else (90.0 - angle_deg, 90.0)
    pen.angle(at, square * pen.scale + 2.0, start, end, write_angle(angle_deg))


def _zigzag(pen: Pen, x: float, y: float, square: float) -> list[Point]:
    """The edge where a drawing of the leg breaks off."""
    jag = pen.mm(1.0)
    return [(x, y), (x + jag, y + 0.4 * square), (x - jag, y + 0.6 * square), (x, y + square)]


def _break(pen: Pen, x: float, y: float, square: float) -> None:
    """Where a part of the leg is left out."""
    first, second = (_zigzag(pen, x + pen.mm(side), y, square) for side in (-1.0, 1.0))
    pen.shape((*first, *reversed(second)), "paper", "")
    pen.line(*first, kind="thin")
    pen.line(*second, kind="thin")


def _which_way(setting: SawSetting) -> tuple[str, str, str]:
    """Swing and tilt at the foot, free of the saw's own handedness."""
    swing, tilt, over = "square across;", "blade upright.", ""
    if setting.mitre_deg >= _SHOWN_DEG:
        swing = f"swing so that the {'outer' if setting.long_edge > 0 else 'inner'} edge is left longer;"
    if setting.tilt_deg >= _SHOWN_DEG:
        longer, bends = ("longer", "leg") if setting.long_face > 0 else ("shorter", "off-cut")
        tilt = f"tilt so that the face on the table is left {longer}"
        over = f"(the blade leans over the {bends})."
    return f"Foot end: {swing}", tilt, over


def _leg_lines(group: tuple[LegSizes, ...], unit: Unit) -> tuple[str, ...]:
    """Lengths, the leg that is drawn, and what its level end looks like."""
    leg = group[0]
    square, cut = sawn(leg)
    axis, side = written(cut.axis_length, unit), written(square, unit)
    lengths = f"Axis {axis} from the underside of the seat to the floor, {side} square."
    if leg.drilling is None:
        blank = written(cut.blank_length, unit, round_up=True)
        lengths = f"Axis {axis} from end to end. Least blank {side} square, {blank} long, and waste."
    drawn = f"Drawn for the {leg.position} leg"
    if has_hand(leg) and any(hand_of(other) != hand_of(leg) for other in group):
        drawn += "; the other hand is its mirror image"
    if has_hand(leg) and len({other.outward[1] for other in group}) > 1:
        drawn += "; on rear legs read back for front"
    return lengths, f"{drawn}.", _level_end(leg)


def _level_end(leg: LegSizes) -> str:
    """How the corner and the edges of the level end stand against a square pad."""
    cut = sawn(leg)[1]
    corner = "square"
    if abs(cut.corner_deg) >= _SHOWN_DEG:
        corner = f"{write_angle(abs(cut.corner_deg), 2)} {'sharper' if cut.corner_deg > 0 else 'blunter'} than square"
    front, side = cut.front_edge_deg, cut.side_edge_deg
    edges = f"its edges run {write_angle(abs(front))} and {write_angle(abs(side))} off front and side of the piece"
    if has_hand(leg):
        edges = f"its front edge {_swung(front)}, its side edge {_swung(side)}"
    return f"Under a square pad the level end's corner is {corner}; {edges}."


def _swung(edge_deg: float) -> str:
    """How far the corner's end of an edge swings."""
    if abs(edge_deg) < _SHOWN_DEG:
        return "is in line"
    return f"swings {write_angle(abs(edge_deg), 2)} {'out' if edge_deg > 0 else 'in'}"


def _notes(drawn: list[LegSizes]) -> tuple[str, ...]:
    leg = drawn[0]
    corner = "outer" if " " in leg.position else f"{leg.position} right"
    return (
        _HOW_MEASURED,
        _OPPOSITE,
        *((_OTHER_HAND,) if has_hand(leg) else ()),
        _FOOT_ONLY if leg.drilling else _BOTH_ENDS,
        f"Outer edge: on the face that lies on the table, the one at the leg's {corner} corner; pencil it on first.",
        ORIENTATION_WORDS[sawn(leg)[1].orientation],
        f"{WORDS_NOTE} Left and right as seen from the front.",
    )


def _caption(piece: Piece, groups: Groups) -> str:
    words = "; ".join(
        f"{group_name(group).lower()}: {face_names(group[0])[1]} face down, mitre"
        f" {write_angle(sawn(group[0])[1].side_down.mitre_deg)}"
        f" and tilt {write_angle(sawn(group[0])[1].side_down.tilt_deg)}"
        for group in groups
    )
    return f"Level end cuts for {piece.design.piece}: what to set for either face on the table.\n{words.capitalize()}."


def _spoken(piece: Piece, groups: Groups) -> str:
    unit = piece.design.unit
    words = []
    for group in groups:
        leg = group[0]
        cut = sawn(leg)[1]
        words.append(f"{', '.join(other.position for other in group)}, drawn for the {leg.position} leg.")
        for face, setting in enumerate(_settings(leg)):
            words.append(
                f"With the {face_names(leg)[face]} face on the table, mitre {write_angle(setting.mitre_deg)} and tilt"
                f" {write_angle(setting.tilt_deg)}. {' '.join(part for part in _which_way(setting) if part)}"
            )
        words.append(f"{write_length(cut.axis_length, unit, style='spoken')} along the axis.")
        if leg.drilling is None:
            words.append(f"Blank {write_length(cut.blank_length, unit, style='spoken', round_up=True)} long.")
    return f"Saw card for the legs of {piece.design.piece}. {' '.join(words)} {_OPPOSITE}"
