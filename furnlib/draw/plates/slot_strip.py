"""Plate 8, the drawers' side: screws across the grain, each in its slot where it sits today; a strip at full size."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain

from furnlib.base.guards import DesignError
from furnlib.base.units import write_gap, write_length, write_number
from furnlib.draw.drawing import Arc, Drawing, Point
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.full_size import FullSize
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT, fitting_scale
from furnlib.plan.piece import CasePiece, Piece
from furnlib.plan.sizes.slotted_strip import StripSizes
from furnlib.trade.cautions import MACHINE

_HALF_MM, _END_MM = 11.0, 16.0  # of the strip's width on paper; from its last screw to its end
_WORDS_MM, _FOLD_MM, _APART_MM = 74.0, 176.0, 12.0
_SLOT_TIMES, _ABREAST, _COLUMN_MM = 4, 3, 61.0
_USE = (
    "Measure the bar. Cut out on the thin lines, lay on the runner or guide, its lower end flush with the front edge of"
    " the case, and prick the middles through.",
    "Slots are in the strip, which stays; screws go with the side behind it, which moves. A round hole holds the strip"
    " at one place, near the front, where the drawer's face must stay true.",
    "Drive screws in slots just home, with a washer: one that is tight holds as if there were no slot. No glue but at"
    " the round hole.",
)


def slot_strip_plate(piece: Piece, number: int = 1) -> Drawing:
    """Draw a sheet of the drilling strip, at full size.

    Args:
        piece: a case whose design has slotted strips.
        number: of the sheet, from 1.

    Returns:
        A strip to cut out, its front end down: the round hole, slots, and in each today's screw.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> slot_strip_plate(read_piece("notebooks/designs/landing_chest.yaml"), number=2).name
        'Drilling strip 2'
    """
    return SLOT_STRIP.sheet(piece, number)


def slots_plate(piece: Piece, scale: float | None = None) -> Drawing:
    """Draw the strip on one sheet: all of it, and each slot four times as large as it is.

    Args:
        piece: a case whose design has slotted strips.
        scale: mm on paper for one unit of the piece; by default the largest that fits a sheet.

    Returns:
        The strip lying, the front of the case to the left, and its holes below it, three abreast.

    Raises:
        DesignError: when the piece has no such strip.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(slots_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[1])
        Slots 7.5 and 9.4 long; today's screws sit 0.6 and 1.1 off the middle: wood at 8 % now, from 7 to 12 % later.
    """
    made, strip = _strip(piece)
    unit, depth = made.design.unit, float(made.design.overall.depth)
    pen = Pen(scale or fitting_scale(depth, 0.0, unit, 14.0, 0.0), unit)
    half, rise = pen.mm(5.0), pen.mm(6.0)
    pen.box(0.0, -half, depth, half, "wood")
    pen.text((0.0, half + pen.mm(1.6) + rise * (len(strip.places) + 1)), "front edge of the case", "small")
    for number, place in enumerate(strip.places):
        _hole(pen, strip, number, (place, 0.0), 1.0)
        bold = place != strip.fixed_place
        pen.dimension((0.0, half), (place, half), 5.0 + 6.0 * number, written(place, unit), bold=bold)
    large = _SLOT_TIMES * MM_UNIT[unit] / pen.scale
    low = -half - pen.mm(8.0)
    pen.text((0.0, low), f"Each hole {_SLOT_TIMES} : 1, front to the left; shaded: the screw today", "small", bold=True)
    for number, slot in enumerate(strip.slots):
        row, column = divmod(number, _ABREAST)
        x, top = column * pen.mm(_COLUMN_MM), low - pen.mm(4.0) - row * (pen.mm(27.0) + strip.hole_diameter * large)
        _hole(pen, strip, number, (x + slot.before * large, top - strip.hole_diameter / 2 * large), large)
        under = top - strip.hole_diameter * large - pen.mm(0.5)
        pen.paragraphs((x, under), _told(made, strip, number), _COLUMN_MM - 4.0)
    slots = [slot for slot, place in zip(strip.slots, strip.places, strict=True) if place != strip.fixed_place]
    long = " and ".join(_fit(slot.length, made) for slot in slots)
    fixed = written(strip.fixed_place, unit)
    off = " and ".join(write_gap(abs(slot.off_middle), unit) for slot in slots)
    return pen.drawing(
        "Slots",
        caption=f"Screws across the grain of {made.design.piece}'s sides: round hole at {fixed}.\n"
        f"Slots {long} long; today's screws sit {off} off the middle: {_moistures(made)}.",
        spoken=_spoken(made, strip),
        formulas=("slots.slot_away", "slots.slot_toward"),
    )


def _strip(piece: Piece) -> tuple[CasePiece, StripSizes]:
    if not isinstance(piece, CasePiece) or piece.strip is None:
        raise DesignError(f"{piece.design.piece} has no slotted strip; add 'strips:' to its design file.")
    return piece, piece.strip


def _hole(pen: Pen, strip: StripSizes, number: int, at: Point, times: float) -> None:
    """A hole or slot about a screw's middle, so many times as large as it is, and today's screw in it."""
    slot, radius = strip.slots[number], strip.hole_diameter / 2 * times
    (x, y), ends = at, ((-1, slot.before * times - radius, 90.0), (1, slot.after * times - radius, 270.0))
    halves = (Arc((x + side * reach, y), radius, start, start + 180.0).points(10.0) for side, reach, start in ends)
    pen.shape(chain(*halves), "paper")
    pen.dot(at, radius * pen.scale, "pale")
    pen.circle(at, radius, "thin")
    pen.dot(at, min(0.5, radius * pen.scale / 2))


def _told(piece: CasePiece, strip: StripSizes, number: int) -> Iterator[str]:
    """What a hole is, and where today's screw sits in it."""
    unit, slot, place = piece.design.unit, strip.slots[number], strip.places[number]
    at = f"{written(place, unit)} from the front edge"
    if place == strip.fixed_place:
        yield f"{at}: round hole, {_fit(slot.length, piece)} wide"
        yield "here side and strip stay together"
        return
    swells = "back" if place > strip.fixed_place else "front"
    yield f"{at}: slot {_fit(slot.length, piece)} long, {_fit(strip.hole_diameter, piece)} wide"
    yield f"today: {_fit(slot.before, piece)} to its front end, {_fit(slot.after, piece)} to its back end"
    yield f"at the dampest the screw comes to its {swells} end, {_fit(strip.extra, piece)} off"


def _fit(size: float, piece: CasePiece) -> str:
    """A size of a slot, rounded up: inches to the 64th."""
    finest = Fraction(1, 64) if piece.design.unit == "in" else None
    return write_length(size, piece.design.unit, style="plate", finest=finest, round_up=True)


def _moistures(piece: CasePiece) -> str:
    assert piece.season
    now, damp, dry = (write_number(m, 1) for m in (piece.season.now, piece.season.damp, piece.season.dry))
    return f"wood at {now} % now, from {dry} to {damp} % later"


def _holes(piece: CasePiece, strip: StripSizes) -> str:
    """What is drilled for the screws."""
    unit, holes = piece.design.unit, strip.holes
    pilot, head = (written(size / MM_UNIT[unit], unit) for size in (holes.pilot_mm, holes.head_mm))
    return (
        f"Screws of gauge {holes.screw.gauge}: pilot {pilot} in the side, less in soft wood, its middle today's;"
        f" heads about {head} wide."
    )


def _draw(piece: Piece, _: int) -> Drawing:
    """The whole strip lying, the front edge at zero and the back to the right; words across it read upright."""
    made, strip = _strip(piece)
    unit, long = made.design.unit, float(max(strip.places))
    pen = Pen(MM_UNIT[unit], unit)
    half, end = pen.mm(_HALF_MM), long + pen.mm(_END_MM)
    pen.box(0.0, -half, end, half, kind="thin")
    pen.line((0.0, -half), (0.0, half))
    pen.line((pen.mm(6.0), 0.0), (end, 0.0), kind="centre")
    pen.text((pen.mm(1.2), half - pen.mm(2.0)), "front edge", "small", turn_deg=-90.0)
    for hole, (x, beside) in enumerate(zip(strip.places, spread(strip.places, pen.mm(_APART_MM)), strict=True)):
        _hole(pen, strip, hole, (x, 0.0), 1.0)
        pen.line((x, -half), (x, half), kind="thin")
        pen.line((x, -half), (beside, -half - pen.mm(3.0)), kind="dimension")
        words = [*_told(made, strip, hole)]
        for line, said in enumerate(words):
            at = beside + pen.mm(3.4 * (len(words) / 2 - line) - 2.5), -half - pen.mm(4.0)
            pen.text(at, said, "small", turn_deg=-90.0, bold=line == 0)
    pen.paragraphs((pen.mm(3.0), -half - pen.mm(_WORDS_MM)), (_holes(made, strip), *_USE, " ".join(MACHINE)), _FOLD_MM)
    return pen.drawing(
        "Drilling strip",
        caption=f"Drilling strip for runners and guides of {made.design.piece}, full size, from the front edge.\n"
        f"{_holes(made, strip)} {_moistures(made).capitalize()}.",
        spoken=_spoken(made, strip),
        formulas=("slots.slot_away", "slots.slot_toward"),
    )


def _spoken(piece: CasePiece, strip: StripSizes) -> str:
    holes = "; ".join(", ".join(_told(piece, strip, number)) for number in range(len(strip.places)))
    return f"From the front: {holes}. {_holes(piece, strip)} {' '.join(_USE)} Lengths in {piece.design.unit}."


SLOT_STRIP = FullSize(
    "Drilling strip",
    lambda piece: [""] if isinstance(piece, CasePiece) and piece.strip else [],
    _draw,
    "the design has no 'strips:'",
)
