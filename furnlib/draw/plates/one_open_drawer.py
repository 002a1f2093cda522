"""The lesson's picture: one drawer pulled out, from its side and from above, and what still holds it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from furnlib.base.angles import cosd, sind
from furnlib.base.guards import DesignError
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.droop_view import TIMES, CutDrawer, draw_open
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.plan.piece import Piece, case_of
from furnlib.plan.sizes.drawer_fit import OPENED

_CELL_MM, _PLAN_MM, _DOWN_MM = 92.0, 30.0, 12.0  # a view; the plan; from runner to plan
_MOST_DEG = 30.0  # a larger angle is seen as it is
_BESIDE_MM, _ROOM_MM = 26.0, (92.0, 40.0)  # what words take of the room of a side view


def one_open_drawer_plate(
    piece: Piece, scale: float | None = None, row: int | None = None, share: Fraction = OPENED[0]
) -> Drawing:
    """Draw one drawer pulled out for the lesson; the edge of its runner stays where it is while it moves.

    Args:
        piece: a finished case whose design says how its drawers are made.
        scale: mm on paper for one unit of the piece; by default the largest usual one that fits a sheet.
        row: whose drawer it is, counted from the top; by default the first.
        share: of its length, by which it is pulled out; from 1/2 to 1.

    Returns:
        The drawer from its side, true and with five times the angle; from above, with five times the
        angle; and a table of play, angle and what moves, with what must stay inside so that it does not bind.

    Raises:
        DesignError: when the piece has no such drawer.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> plate = one_open_drawer_plate(read_piece("notebooks/designs/landing_chest.yaml"), row=7)
        >>> print(plate.caption.splitlines()[1][:60])
        Pulled out 240, with 120 still inside, row 7 nods 6.1: it tu
    """
    piece = case_of(piece)
    found = [drawer for drawer in piece.drawers if row in (None, drawer.row)]
    if not found:
        raise DesignError(f"{piece.design.piece} has no drawer in row {row} that it says how to make.")
    cut, unit = CutDrawer(piece, found[0], share), piece.design.unit
    long, wide = float(cut.drawer.fit.length), float(cut.drawer.opening.width)
    pen = Pen(scale or fitting_scale(1.5 * long, cut.side, unit, _BESIDE_MM, 0.0, _ROOM_MM), unit)
    x, column = long + pen.mm(4.0), pen.mm(_CELL_MM)
    views = {0.0: (1, ratio_words(pen.scale, unit))}
    if not cut.droop.tips_out and TIMES * cut.turn_deg < _MOST_DEG:
        views[column] = (TIMES, f"droop x {TIMES}")
    lows = []
    for left, (times, _) in views.items():
        draw_open(pen, (left + x, 0.0), 1.0, cut, times)
        lows.append(min(-cut.boards[0] - pen.mm(_DOWN_MM), pen.reach()[1] - pen.mm(4.0)))
    top = pen.reach()[3] + pen.mm(2.0)
    for left, (_, words) in views.items():
        pen.text((left, top), f"From the side, {words}", "small", bold=True)
    pen.text((0.0, lows[0]), "From above, the front to the left", "small", bold=True)
    size = min(1.0, pen.mm(_PLAN_MM) / wide)
    _askew(pen, (x, lows[0] - size * wide - pen.mm(8.0)), cut, size)
    _, y = pen.table((column, lows[-1]), [*_table(cut)], bold_columns=(2,))
    pen.paragraphs((column, y - pen.mm(2.0)), _binds(cut), _CELL_MM - 6.0, gap_mm=0.8)
    return pen.drawing(
        "Open drawer",
        caption=f"A drawer of {piece.design.piece}, pulled out.\n{cut.told}",
        spoken=f"A drawer from its side and from above. {cut.told} {' '.join(_binds(cut))} Lengths in {unit}.",
        formulas=("droop", "racking"),
    )


def _askew(pen: Pen, edge: Point, cut: CutDrawer, size: float) -> None:
    """The drawer from above: it bears on the edge of one guide, its rear corner on the other, drawn to suit."""
    drawer, made, out = cut.drawer, cut.drawer.making, cut.out
    racking, long = drawer.opened(cut.share)[1], float(drawer.fit.length)
    wide, inside = float(drawer.opening.width - 2 * made.side_gap), long - out
    times = TIMES if TIMES * racking.skew_deg < _MOST_DEG else 1
    turn = 0.0 if racking.turns_free else times * racking.skew_deg
    place, turned, size = pen.inset(edge, size), pen.inset(edge, size, turn), pen.mm(1.0) / size
    over, far, thick = inside * sind(turn) + wide * cosd(turn), long / 2 + 6.0 * size, 4.0 * size
    for low, high in ((-thick, 0.0), (over, over + thick)):
        pen.box(*place.at(0.0, low), *place.at(far, high), "wood", "visible", hatch=True)
    front, side = float(made.front_thickness + made.inner_front), float(made.side_thickness)
    rear = inside - float(made.side_tail)
    boxes = (
        ("wood", (-out, 0.0, inside, wide)),
        ("paper", (front - out, side, rear - float(made.back_thickness), wide - side)),
        ("paper", (rear, side, inside, wide - side)),
        ("wood", (-out, 0.0, front - out, wide)),
    )
    for tint, (left, low, right, high) in boxes:
        if left < right:
            corners = ((left, low), (right, low), (right, high), (left, high))
            pen.shape((turned.at(*corner) for corner in corners), tint, "visible")
    for corner in ((0.0, 0.0), (inside, wide)):
        pen.dot(turned.at(*corner), 0.7)
    if not racking.turns_free:
        (near, y), (ahead, _) = turned.at(-out, 0.0), turned.at(-out, wide)
        y = min(y, place.at(0.0, -thick)[1])
        pen.dimension((ahead, y), (near, y), -3.0, written(racking.lead, pen.unit) + f" (x {times})" * (times > 1))


def _table(cut: CutDrawer) -> Iterator[tuple[str, ...]]:
    """What nods and what racks, side by side."""
    racking, droop, unit = cut.drawer.opened(cut.share)[1], cut.droop, cut.piece.design.unit
    nod = ("tips out", "-") if droop.tips_out else (write_angle(droop.angle_deg), written(droop.front_fall, unit))
    askew = ("turns free", "-")
    if not racking.turns_free:
        askew = (write_angle(racking.skew_deg), written(racking.lead, unit))
    sideways = 2 * cut.drawer.making.side_gap
    yield "", "play", "turns by", "front corner"
    yield "nods, up and down", written(cut.drawer.fit.play, unit), nod[0], f"falls {nod[1]}"
    yield "racks, sideways", written(sideways, unit), askew[0], f"leads {askew[1]}"


def _binds(cut: CutDrawer) -> Iterator[str]:
    """What must stay inside so that the drawer moves, by its pulls and its friction."""
    if cut.drawer.making.run == "slides":
        yield "Bought slides nod and rack as their maker states; these numbers are for a drawer without them."
        return
    friction, unit = float(cut.settled.riding.friction), cut.piece.design.unit
    found, inside = cut.drawer.jam(friction), float(cut.drawer.fit.length) - cut.out
    if found is None:
        return
    if not found.one_pull:
        yield "Its pull stands in the middle, and does not turn it."
    else:
        now = "it binds now" if inside < found.one_pull else "it moves"
        yield f"One pull alone binds it with less than {written(found.one_pull, unit)} inside: {now}."
    now = "it can now" if inside < found.locked_below else "not now"
    yield f"Racked already, it can stay locked with less than {written(found.locked_below, unit)} inside: {now}."
