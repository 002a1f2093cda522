"""Plate 12: the gaps over every drawer today, at the dampest and at the driest; and month by month from a record."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_gap, write_number
from furnlib.draw.drawing import Drawing
from furnlib.draw.layout import fitting_words
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.drawer import DrawerKind, drawer_kinds
from furnlib.draw.plates.views import written
from furnlib.draw.scale import MM_UNIT
from furnlib.plan.design_season import RINGS
from furnlib.plan.humidity_record import DrawerMonths, HumidityRecord, season_months
from furnlib.plan.piece import CasePiece, Piece, case_of
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.plan.sizes.season import Season
from furnlib.trade.drawer.gaps import SeasonGaps
from furnlib.trade.wood.movement import HIGH, LOW, movement
from furnlib.trade.wood.year import Months

TIMES = 10
"""How many times as large as they are gaps are drawn."""
_MOST_KINDS, _MOST_ROWS = 12, 10
_WIDE_MM, _NOTES_MM = 168.0, 182.0
_YEAR_MM = 151.0  # leaves room for words at its end
_HALF_MM, _BAR_MM = 78.0, 6.0  # of a panel that shares the width; of a bar at most
_BELOW_MM, _UP_MM = 6.0, 44.0  # of a panel of gaps, from its zero
_MARKS: dict[Unit, tuple[float, ...]] = {"mm": (1, 2, 3, 4), "in": (1 / 32, 1 / 16, 3 / 32, 1 / 8)}
_SEASONS = (
    ("driest", "dry", "ochre", "compared"),
    ("today", "now", "ink", "visible"),
    ("dampest", "damp", "blue", "sight"),
)
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_BARS = (
    "Gaps ten times as large as they are; three bars for each row, from the left: driest, today, dampest. One that"
    " comes to the upper end goes on past it."
)
_SPREAD = (
    "Averages of a species: one board moves up to a fifth more or less. A finish makes it come later and not less."
    " Along the grain next to nothing moves, so the gaps beside a drawer stay."
)
_CHANGE_OVER = f"From {LOW:g} to {HIGH:g} % change coefficients hold; below and above, the shrinkage law takes over."
_LAG = (
    "Moisture is what wood settles at in the air of each reading. Thick or finished parts lag by weeks: they come near"
    " to the mean of a month, the line, and not to the ends of its bar."
)


@dataclass(frozen=True)
class _Panel:
    """A field of bars over a row of places; heights are values on a scale of its own, all else mm on paper.

    Args:
        pen: the plate's pen.
        zero_mm: how high its lowest value stands.
        lowest: the value at its lower edge.
        highest: the value at its upper edge; what lies beyond is cut off there.
        mm: on paper, for one unit of its values.
        places: how many stand side by side.
        left_mm: where its left edge stands.
        wide_mm: how wide it is.
    """

    pen: Pen
    zero_mm: float
    lowest: float
    highest: float
    mm: float
    places: int
    left_mm: float = 0.0
    wide_mm: float = _WIDE_MM

    def y(self, value: float) -> float:
        """How high a value stands."""
        return self.pen.mm(self.zero_mm + (min(max(value, self.lowest), self.highest) - self.lowest) * self.mm)

    def x(self, place: int, share: float = 0.5) -> float:
        """So far across a place."""
        return self.pen.mm(self.left_mm + (place + share) * self.wide_mm / self.places)

    def frame(self, title: str, marks: Sequence[tuple[float, str]]) -> None:
        """Draw its edges, its title and the marks of its scale."""
        pen, left, right = self.pen, self.x(0, 0.0), self.x(self.places, 0.0)
        for value, words in marks:
            pen.line((left, self.y(value)), (right, self.y(value)), kind="hatch" if value else "visible")
            pen.text((left - pen.mm(1.2), self.y(value) - pen.mm(0.8)), words, "small", "end")
        pen.line((left, self.y(self.highest)), (left, self.y(self.lowest)), (right, self.y(self.lowest)), kind="thin")
        pen.text((left, self.y(self.highest) + pen.mm(1.6)), title, "small", bold=True)

    def gap_frame(self, title: str) -> None:
        """The same for gaps: below zero a drawer binds."""
        pen = self.pen
        self.frame(title, [(mark, written(mark, pen.unit)) for mark in (0.0, *_MARKS[pen.unit])])
        pen.text((self.x(0, 0.0) - pen.mm(1.2), self.y(self.lowest)), "binds", "small", "end")

    def levels(self, named: Sequence[tuple[float, str, str]]) -> None:
        """Draw lines right across, each with its words at its end: values in rising order, words, kinds of line."""
        pen, right = self.pen, self.x(self.places, 0.0)
        places = spread([self.y(value) for value, *_ in named], pen.mm(3.0))
        for (value, words, kind), place in zip(named, places, strict=True):
            pen.line((0.0, self.y(value)), (right, self.y(value)), (right + pen.mm(1.4), place), kind=kind)
            pen.text((right + pen.mm(2.0), place - pen.mm(0.8)), words, "small")

    def bar(
        self, place: int, ends: tuple[float, float], across: tuple[float, float], tint: str, hatch: bool = False
    ) -> None:
        """Draw a bar from one value to another, from one share of a place to another."""
        low, high = sorted(ends)
        sides = self.x(place, across[0]), self.x(place, across[1])
        self.pen.box(sides[0], self.y(low), sides[1], self.y(high), tint, "thin", hatch)

    def months(self, found: Months, across: tuple[float, float], tint: str, hatch: bool = False) -> None:
        """Draw a bar from least to most for each month, a line through its mean."""
        for place, ends in enumerate(zip(found.least, found.most, strict=True)):
            self.bar(place, ends, across, tint, hatch)
            height = self.y(found.mean[place])
            self.pen.line((self.x(place, across[0]), height), (self.x(place, across[1]), height))


def season_kinds(piece: Piece) -> list[tuple[DrawerKind, ...]]:
    """The sheets of gaps that a piece takes: rows whose gaps and heights are alike stand together.

    Args:
        piece: a finished piece.

    Returns:
        For each sheet its kinds of rows; none where nothing is said of drawers.
    """
    kinds = drawer_kinds(piece, lambda drawer: tuple(_told(drawer, "mm")))
    return [kinds[start : start + _MOST_KINDS] for start in range(0, len(kinds), _MOST_KINDS)]


def season_plate(piece: Piece, scale: float | None = None, number: int = 1) -> Drawing:
    """Draw plate 12: every gap today, at the dampest and at the driest, ten times as large as it is.

    Args:
        piece: a case whose design says how its drawers are made.
        scale: mm on paper for one unit of the piece; by default ten times full size.
        number: of the sheet, from 1; each holds twelve kinds of rows.

    Returns:
        Three bars for each kind of row over its fronts and over its sides, a table, and by which law.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(season_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[1])
        Gap over row 7: 3 today, 1 at the dampest, 3.5 at the driest.
    """
    sheets, made, unit = season_kinds(piece), case_of(piece), piece.design.unit
    season = made.season
    if not 1 <= number <= len(sheets) or season is None:
        raise DesignError(
            f"{piece.design.piece} has no season band {number}, it has {len(sheets)}: its file says how drawers are"
            " made under 'drawers:'."
        )
    pen, kinds = Pen(scale or TIMES * MM_UNIT[unit], unit), sheets[number - 1]
    for left_mm, where in ((0.0, "front"), (_WIDE_MM - _HALF_MM, "side")):
        gaps = [_gaps(kind.drawers[0], where) for kind in kinds]
        if any(gaps):
            _bars(pen, left_mm, gaps, f"Over the {where}s, {TIMES} : 1")
            for place, kind in enumerate(kinds):
                room, one = _HALF_MM / len(kinds), kind.drawers[0]
                words = fitting_words((kind.name, f"row {one.row}", str(one.row)), room - 1.0)
                pen.text((pen.mm(left_mm + (place + 0.5) * room), -pen.mm(_BELOW_MM + 3.5)), words, "small", "middle")
    heading = ("Row", "front", "today", "dampest", "driest", "side", "today", "dampest", "driest")
    rows = [heading, *((kind.name, *_told(kind.drawers[0], unit)) for kind in kinds)]
    _, low = pen.table((-pen.mm(8.0), -pen.mm(_BELOW_MM + 6.0)), rows, bold_columns=(2, 6))
    pen.paragraphs((-pen.mm(8.0), low - pen.mm(1.5)), (_BARS, *_laws(season), _SPREAD), _NOTES_MM, gap_mm=0.6)
    called, tall = "Season band", max((kind.drawers[0] for kind in kinds), key=lambda one: one.opening.height)
    return pen.drawing(
        f"{called} {number}" if len(sheets) > 1 else called,
        caption=f"{called} of {piece.design.piece}: wood at {_moistures(season)}.\n"
        f"Gap over {tall.name}: {_through(tall.fit.front_gaps or tall.fit.side_gaps, unit)}.",
        spoken=" ".join(_spoken(made, season, kinds)),
        formulas=("gaps.season", "movement.coefficient", "movement.shrinkage"),
    )


def _bars(pen: Pen, left_mm: float, gaps: Sequence[SeasonGaps | None], title: str) -> None:
    """One panel: three bars for each kind of row; what binds hangs below zero, in the warning's line."""
    times, room = pen.scale, _HALF_MM / len(gaps)
    panel = _Panel(pen, -_BELOW_MM, -_BELOW_MM / times, _UP_MM / times, times, len(gaps), left_mm, _HALF_MM)
    panel.gap_frame(title)
    wide = min(0.26, _BAR_MM / room)
    for place, found in enumerate(gaps):
        for number, (_, name, tint, _) in enumerate(_SEASONS) if found else ():
            gap, left = float(vars(found)[name]), 0.5 + wide * (number - 1.5)
            panel.bar(place, (0.0, gap), (left, left + wide), tint, hatch=tint == "ochre")
            if gap < 0:
                pen.line(*((panel.x(place, share), panel.y(gap)) for share in (left, left + wide)), kind="warning")


def _gaps(drawer: DrawerSizes, where: str) -> SeasonGaps | None:
    return drawer.fit.front_gaps if where == "front" else drawer.fit.side_gaps


def _told(drawer: DrawerSizes, unit: Unit) -> Iterator[str]:
    """Height, and gaps today, at the dampest and at the driest, of front and side."""
    for where, height in (("front", drawer.front_height), ("side", drawer.side_height)):
        gaps = _gaps(drawer, where)
        yield written(height.value, unit)
        yield from (write_gap(gap, unit) for gap in (gaps.now, gaps.damp, gaps.dry)) if gaps else ("–",) * 3


def _through(gaps: SeasonGaps, unit: Unit) -> str:
    """A gap through the year, in words."""
    now, damp, dry = (write_gap(gap, unit) for gap in (gaps.now, gaps.damp, gaps.dry))
    return f"{now} today, {damp} at the dampest, {dry} at the driest"


def _moistures(season: Season) -> str:
    now, damp, dry = (write_number(moisture, 1) for moisture in (season.now, season.damp, season.dry))
    return f"{now} % now, {damp} % at the dampest, {dry} % at the driest"


def _laws(season: Season) -> Iterator[str]:
    """What the woods are, and by which law they move."""
    for role in ("front", "side"):
        wood = season.woods[role]
        rings = next(words for words, angle in RINGS.items() if angle == wood.ring_angle_deg)
        ends = (("dampest", season.damp), ("driest", season.dry))
        told = (
            f"to the {name} by {movement(1.0, wood.species, wood.ring_angle_deg, season.now, moisture).law}"
            for name, moisture in ends
        )
        yield f"{role.capitalize()}s: {wood.species.name}, {rings}; {', '.join(told)}."


def _spoken(piece: CasePiece, season: Season, kinds: Sequence[DrawerKind]) -> Iterator[str]:
    unit = piece.design.unit
    yield f"Gaps of {piece.design.piece}. Wood at {_moistures(season)}."
    for kind in kinds:
        for where in ("front", "side"):
            if gaps := _gaps(kind.drawers[0], where):
                yield f"{kind.name.capitalize()}, over the {where}: {_through(gaps, unit)}."
    yield f"{' '.join(_laws(season))} Lengths in {unit}."


def season_record_plate(piece: Piece, record: HumidityRecord, scale: float | None = None) -> Drawing:
    """Draw a record of a room's air, the moisture of wood in it, and the gaps it makes, month by month.

    Args:
        piece: a case whose design says how its drawers are made.
        record: the readings.
        scale: mm on paper for one unit of the piece; by default ten times full size.

    Returns:
        Three fields below one another, a bar for each month; a table of the least gap in each.

    Raises:
        DesignError: when the piece has no drawers to speak of.

    Example:
        >>> from furnlib.plan.humidity_record import read_humidity
        >>> from furnlib.plan.piece import read_piece
        >>> chest = read_piece("notebooks/designs/landing_chest.yaml")
        >>> print(season_record_plate(chest, read_humidity("notebooks/designs/landing_humidity.csv")).name)
        Season by the month
    """
    year, made, unit = season_months(piece, record), case_of(piece), piece.design.unit
    season, pen, count = made.season, Pen(scale or TIMES * MM_UNIT[unit], unit), len(record.months)
    assert season
    air = _Panel(pen, -28.0, 0.0, 100.0, 0.22, count, wide_mm=_YEAR_MM)
    air.frame("Humidity of the air, %", [(mark, f"{mark:g}") for mark in (20, 40, 60, 80)])
    air.months(year.humidity, (0.2, 0.8), "pale")
    wood = _Panel(pen, -72.0, 4.0, 16.0, 3.0, count, wide_mm=_YEAR_MM)
    wood.frame("Moisture content that wood settles at in it, %", [(mark, f"{mark:g}") for mark in (4, 8, 10, 12, 16)])
    wood.months(year.moisture_content, (0.2, 0.8), "pale")
    file = [(vars(season)[name], words, kind) for words, name, _, kind in _SEASONS]
    ends = [(end, "law changes", "centre") for end in (LOW, HIGH)]
    wood.levels(sorted((at, f"{words} {write_number(at, 1)}", kind) for at, words, kind in (*file, *ends)))
    shown = year.drawers if len(year.drawers) <= _MOST_ROWS else (year.drawers[0], year.drawers[-1])
    gap = _Panel(pen, -130.0, -_BELOW_MM / pen.scale, _UP_MM / pen.scale, pen.scale, count, wide_mm=_YEAR_MM)
    low, tall = sorted((year.drawers[0], year.drawers[-1]), key=lambda one: float(one.drawer.opening.height))
    over = "fronts" if tall.front else "sides"
    title = f"Gaps over the {over}, {TIMES} : 1: left, hatched {low.drawer.name}; right {tall.drawer.name}"
    gap.gap_frame(title)
    gap.months(_over(low), (0.1, 0.5), "wood", hatch=True)
    gap.months(_over(tall), (0.5, 0.9), "pale")
    months = [_MONTHS[int(month[-2:]) - 1] for month in record.months]
    for place, month in enumerate(months):
        pen.text((gap.x(place), pen.mm(-133.5)), month, "small", "middle")
    rows = [(f"Least gap over the {over}", *months, "widest")]
    for one in shown:
        found = _over(one)
        rows.append((one.drawer.name, *(write_gap(gap, unit) for gap in (*found.least, max(found.most)))))
    _, y = pen.table((-pen.mm(8.0), pen.mm(-135.0)), rows, bold_columns=(count + 1,))
    pen.paragraphs((-pen.mm(8.0), y - pen.mm(1.5)), (_CHANGE_OVER, _LAG, _SPREAD), _NOTES_MM, gap_mm=0.6)
    told = "; ".join(" ".join(row) for row in rows)
    gaps = [write_gap(size, unit) for size in (min(_over(tall).least), max(_over(tall).most))]
    moist = [write_number(end, 1) for end in (min(year.moisture_content.least), max(year.moisture_content.most))]
    return pen.drawing(
        "Season by the month",
        caption=f"{piece.design.piece} in the air of {record.name}, {record.months[0]} to {record.months[-1]}.\n"
        f"Wood from {moist[0]} to {moist[1]} %: gap over {tall.drawer.name} from {gaps[0]} to {gaps[1]} {unit}.",
        spoken=f"Air, moisture and gaps from {record.months[0]} to {record.months[-1]}. {told}. Lengths in {unit}.",
        formulas=("moisture.balance", "gaps.season", "movement.coefficient", "movement.shrinkage"),
    )


def _over(one: DrawerMonths) -> Months:
    return one.front or one.side
