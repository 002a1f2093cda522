"""The lesson's picture: one leg in plan, its true triangle, and what saw, drill and cradle are set to."""

from __future__ import annotations

from furnlib.base.angles import cosd, sind
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.faces import ORIENTATION_WORDS, SquareLeg, square_leg
from furnlib.draw.plates.groups import WORDS_NOTE, group_name, leg_group
from furnlib.draw.plates.leans import CELL_MM, draw_cell, finished, lean_scale
from furnlib.draw.plates.views import written
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import BLOCK_LENGTH, GAUGE_HEIGHT, LegSizes

_ROOM_MM, _MOST_MM = 96.0, 120.0  # of height at rest, and for a leg that grows under the hand
_CELL_MM = 60.0  # height of plan and triangle
_FACES_MM = (80.0, 36.0)  # the four faces unrolled
_MIDDLE = 0.36  # how far up them the mark of the axis stands
_STEEPEST_MM = 22.0  # from the shortest edge to the longest
_WEDGE_MM = (32.0, 24.0)


def leg_plate(piece: Piece, scale: float | None = None, position: str | None = None) -> Drawing:
    """Draw one leg for the lesson, low enough to stay in view under the hand.

    Args:
        piece: a finished piece with legs.
        scale: mm on paper for one unit of the piece, less where the leg leans too far for it; by
            default the largest usual one.
        position: which leg; by default the first.

    Returns:
        Plan with sight line and foot runs, true triangle; the pencil lines on the four faces of a
        square leg at its foot, or the wedges under seat and cradle of a turned one; and the
        settings at saw, drill and cradle.

    Raises:
        DesignError: when the piece has no leg there.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> stool = read_piece("notebooks/designs/stool_four_legs.yaml")
        >>> leg_plate(stool, position="rear left").caption.splitlines()[1]
        'Rear left and rear right 19.64° on 36.5°.'
    """
    group = leg_group(piece, position)
    leg, unit = group[0], piece.design.unit
    pen = Pen(min(scale or lean_scale(piece, (group,), _ROOM_MM), lean_scale(piece, (group,), _MOST_MM)), unit)
    room = max(float(leg.height), pen.mm(_CELL_MM))
    draw_cell(pen, piece, group, (0.0, 0.0), room)
    x, y = pen.mm(CELL_MM + 4.0), room + pen.mm(8.0)
    made = square_leg(leg)
    low = _faces(pen, made, (x, y)) if made else _wedges(pen, leg, (x, y))
    corner = pen.table((x, low), [("set", "angles"), *_settings(leg)], bold_columns=(1,))
    pen.lines((x, corner[1] - pen.mm(0.5)), _words(piece, leg), "small", 1.5)
    return finished(pen, piece, (group,), group_name(group))


def _faces(pen: Pen, made: SquareLeg, at: Point) -> float:
    """The foot end of the four faces unrolled, each with its pencil line; how low it reaches."""
    x, y = at
    wide, high = (pen.mm(size) for size in _FACES_MM)
    flat, square = made.unrolled(), float(made.square)
    steep = max(flat.edge_offsets) - min(flat.edge_offsets)
    face = min(wide / 4, pen.mm(_STEEPEST_MM) / steep * square) if steep else wide / 4
    right = x + 4 * face
    whose = f"the {made.leg.position} leg" if made.hand else "the leg"
    pen.text((x, y), f"Foot of {whose}, unrolled: the pencil lines", "small", bold=True)
    top = y - pen.mm(6.0)
    low = top - high
    line = [(x + i * face, low + high * _MIDDLE - off * face / square) for i, off in enumerate(flat.edge_offsets)]
    pen.box(x, low, right, top, "far", "", hatch=True)
    pen.shape((*line, (right, top), (x, top)), "wood", "")
    for fold, _ in line:
        pen.line((fold, low), (fold, top), kind="thin")
    pen.line(*line, kind="cut")
    for i, (name, mitre_deg) in enumerate(zip(flat.faces, flat.mitres_deg, strict=True)):
        (start, left), (end, other) = line[i : i + 2]
        pen.text(((start + end) / 2, top + pen.mm(1.0)), name, "small", "middle")
        clear = (left + other) / 2 + pen.mm(3.2) + 0.25 * abs(other - left)
        pen.centred(((start + end) / 2, clear), write_angle(mitre_deg), "small")
    return low - pen.mm(2.0)


def _wedges(pen: Pen, leg: LegSizes, at: Point) -> float:
    """What raises the seat at the drill, and the V-block at the saw; how low they reach."""
    x, y = at
    gauge, block = GAUGE_HEIGHT[pen.unit], BLOCK_LENGTH[pen.unit]
    low = y - pen.mm(_WEDGE_MM[1] + 7.0)
    if leg.drilling:
        lean = leg.drilling.seat_lean
        rise = written(lean.foot_run(gauge).plan, pen.unit)
        pen.text((x, y), f"Ramp at the drill {write_angle(lean.total_lean_deg)}", "small", bold=True)
        _wedge(pen, (x, low), float(lean.total_lean_deg), (f"{gauge:g}", "", rise))
        x += pen.mm(_WEDGE_MM[0] + 14.0)
    if leg.cradle:
        wedge, rise = leg.cradle.wedge_deg, written(abs(leg.cradle.rise), pen.unit)
        pen.text((x, y), f"Wedge of the cradle {write_angle(wedge)}", "small", bold=True)
        _wedge(pen, (x, low), abs(float(wedge)), ("", f"{block:g}", rise))
    return low - pen.mm(8.0)


def _wedge(pen: Pen, toe: Point, angle_deg: float, words: tuple[str, str, str]) -> None:
    """A wedge with what is written under it, along its slope and behind its heel."""
    c, s = cosd(angle_deg), sind(angle_deg)
    slope = min(_WEDGE_MM[0] / c, _WEDGE_MM[1] / s if s else _WEDGE_MM[0])
    heel = toe[0] + pen.mm(slope * c), toe[1]
    high = heel[0], toe[1] + pen.mm(slope * s)
    pen.shape((toe, heel, high), "wood", "cut")
    for start, end, offset, said in zip((toe, toe, heel), (heel, high, high), (-4.0, 4.0, -4.0), words, strict=True):
        if said:
            pen.dimension(start, end, offset, said)


def _settings(leg: LegSizes) -> list[tuple[str, str]]:
    """What is set where, each row a job and its angles."""
    rows = []
    if made := square_leg(leg):
        for name, setting in zip(made.faces, made.settings, strict=False):
            rows.append((f"Saw, {name} face down: mitre, tilt", _both(setting.mitre_deg, setting.tilt_deg)))
    if leg.drilling:
        lean = leg.drilling.seat_lean
        rows.append(("Drill, from the seat: rake, splay", _both(lean.rake_deg, lean.splay_deg)))
        rows.append(("Ramp and sight line on the seat", _both(lean.total_lean_deg, lean.sight_line_deg)))
    if leg.cradle:
        rows.append(("Cradle, its wedge with the foot low", write_angle(leg.cradle.wedge_deg)))
    return list(dict.fromkeys(rows))  # corner foremost both faces are set alike


def _both(first_deg: float, second_deg: float) -> str:
    return f"{write_angle(first_deg)}, {write_angle(second_deg)}"


def _words(piece: Piece, leg: LegSizes) -> list[str]:
    unit, cut = piece.design.unit, leg.end_cut
    axis = f"Axis {written(leg.axis_length, unit)}"
    words = [f"{axis} from end to end."]
    if leg.drilling:
        words = [f"{axis} below the seat, {written(leg.drilling.length_in_seat, unit)} more inside it."]
    elif cut:
        words = [f"{axis} from end to end, least blank {written(cut.blank_length, unit, round_up=True)}."]
    if cut:
        corner = ""
        if round(cut.corner_deg, 2):
            corner = f" Under a square pad the corner is {write_angle(abs(cut.corner_deg), 2)} off."
        words.append(f"{ORIENTATION_WORDS[cut.orientation].partition(':')[0]}.{corner}")
    return [*words, WORDS_NOTE]
