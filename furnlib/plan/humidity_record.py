"""A record of a room's air, and what its months make of the moisture and the gaps of a piece.

The file is a table in CSV: a heading, then a line for each reading, days running forward. One column is
called ``date`` and one ``humidity``, in %; a third may be called ``temperature C`` or ``temperature F``, else
21 °C is taken. Lines that begin with # are remarks. It is taken whole, or refused with the line.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Literal

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError
from furnlib.plan.piece import Piece, case_of
from furnlib.plan.sizes.drawers import DrawerSizes
from furnlib.trade.drawer.gaps import gap_at
from furnlib.trade.wood.moisture import balance_moisture
from furnlib.trade.wood.movement import stretch
from furnlib.trade.wood.year import Months, by_month, readings_of

ROOM_C = 21.0
"""What is taken where a record says nothing of temperature, in °C."""
MOST_MONTHS = 13
_RANGES = {"humidity": (5.0, 95.0), "temperature C": (-1.0, 93.0), "temperature F": (30.0, 200.0)}


@dataclass(frozen=True, eq=False)
class HumidityRecord:
    """A year of a room's air, or less of one.

    Args:
        name: of the file.
        months: the months it runs over, such as "2025-01".
        begins: at which reading each month begins, counted from 0.
        humidity: relative humidity of each reading, in %; an array.
        temperature: of each reading, by the scale; an array.
        scale: of temperature, "C" or "F".
    """

    name: str
    months: tuple[str, ...]
    begins: tuple[int, ...]
    humidity: Value
    temperature: Value
    scale: Literal["C", "F"]


def read_humidity(path: str | Path) -> HumidityRecord:
    """Read a record of a room's humidity.

    Args:
        path: a CSV file in UTF-8, as the head of this module says.

    Returns:
        The record.

    Raises:
        DesignError: when the file cannot be read, a column is missing, or a line has no date or no number, is not
            later than the one before, or has air outside 5 to 95 % or outside 30 to 200 °F.

    Example:
        >>> record = read_humidity("notebooks/designs/landing_humidity.csv")
        >>> len(record.humidity), record.months[0], record.scale
        (52, '2025-01', 'C')
    """
    file = Path(path)
    try:
        text = file.read_text("utf-8-sig")
    except (OSError, ValueError) as error:
        raise DesignError(f"{file} cannot be read as a text in UTF-8; check the name and the folder.") from error
    lines = [(n, line) for n, line in enumerate(text.splitlines(), 1) if line.strip() and line[0] != "#"]
    if len(lines) < 2:
        raise DesignError(f"{file.name} has no reading; give a heading, and a line for each reading below it.")
    heading = _cells(lines[0][1])
    _require_columns(heading, f"{file.name} line {lines[0][0]}")
    days: list[datetime] = []
    columns: dict[str, list[float]] = {name: [] for name in _RANGES if name in heading}
    for number, line in lines[1:]:
        try:
            row = dict(zip(heading, _cells(line), strict=True))
            day = datetime.fromisoformat(row["date"])
            late = not days or day > days[-1]
            for name, found in columns.items():
                found.append(float(row[name]))
        except (ValueError, TypeError) as error:
            raise DesignError(
                f"{file.name} line {number} cannot be read: '{line[:40]}'; write a day such as 2025-01-31 or"
                f" 2025-01-31 13:00, and numbers with a point, in the order of the heading: {', '.join(heading)}."
            ) from error
        if not late:
            raise DesignError(f"{file.name} line {number} is not later than the line before; let the days run forward.")
        days.append(day)
    for name, found in columns.items():
        low, high = _RANGES[name]
        wrong = next((i for i, value in enumerate(found) if not low <= value <= high), None)
        if wrong is not None:
            raise DesignError(
                f"{file.name} line {lines[wrong + 1][0]} has a {name} of {found[wrong]:g}; it must lie from {low:g} to"
                f" {high:g}, where the table of moisture is printed: look whether the sensor was right."
            )
    month_of = [(day.year, day.month) for day in days]
    begins = tuple(i for i, day in enumerate(month_of) if i == 0 or day != month_of[i - 1])
    if len(begins) > MOST_MONTHS:
        raise DesignError(f"{file.name} runs over {len(begins)} months; give one year, {MOST_MONTHS} months at most.")
    scale: Literal["C", "F"] = "F" if "temperature F" in columns else "C"
    warmth = columns.get(f"temperature {scale}", [ROOM_C] * len(days))
    named = tuple(f"{days[i]:%Y-%m}" for i in begins)
    return HumidityRecord(file.name, named, begins, readings_of(columns["humidity"]), readings_of(warmth), scale)


def _require_columns(heading: list[str], where: str) -> None:
    """Refuse a heading that lacks a column, or has one twice."""
    for wanted in ("date", "humidity"):
        if wanted not in heading:
            raise DesignError(
                f"{where} has no column '{wanted}', but {', '.join(heading)}; call the columns"
                " date, humidity, and temperature C or temperature F."
            )
    kinds = [name.split()[0] for name in ("date", *_RANGES) for _ in range(heading.count(name))]
    twice = next((kind for kind in kinds if kinds.count(kind) > 1), None)
    if twice:
        raise DesignError(f"{where} has two columns for the {twice}; keep one of them.")


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in next(csv.reader([line], skipinitialspace=True))]


@dataclass(frozen=True, eq=False)
class DrawerMonths:
    """The gaps over the drawers of one row month by month, in the piece's unit.

    Args:
        drawer: the row's drawers.
        front: over a flush front, None where the front lies over the case.
        side: over the sides.
    """

    drawer: DrawerSizes
    front: Months | None
    side: Months


@dataclass(frozen=True, eq=False)
class SeasonMonths:
    """What a record makes of a piece, month by month.

    Args:
        record: the readings.
        humidity: of the air, in %.
        moisture_content: of wood that has settled in the air of each reading, in %.
        drawers: of every row.
    """

    record: HumidityRecord
    humidity: Months
    moisture_content: Months
    drawers: tuple[DrawerMonths, ...]


def season_months(piece: Piece, record: HumidityRecord) -> SeasonMonths:
    """Say what the months of a record make of the gaps over every drawer of a piece.

    The wood is taken to have settled in the air of each reading. Under a finish, and in thick parts, it lags
    by weeks and comes near to the mean of a month, not to its ends.

    Args:
        piece: a case whose design says how its drawers are made.
        record: the readings.

    Returns:
        The months.

    Raises:
        DesignError: when the piece has no drawers to speak of, or its wood is damper than it ever moves.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> record = read_humidity("notebooks/designs/landing_humidity.csv")
        >>> year = season_months(read_piece("notebooks/designs/landing_chest.yaml"), record)
        >>> len(year.drawers), len(year.moisture_content.mean)
        (7, 12)
    """
    made = case_of(piece)
    settled, season = made.design.drawers, made.season
    if settled is None or season is None:
        raise DesignError(f"{made.design.piece} does not say how its drawers are made; add 'drawers:' to its file.")
    moisture = balance_moisture(record.temperature, record.humidity, record.scale)

    def months(values: Value) -> Months:
        return by_month(values, record.begins)

    front, side = (
        stretch(season.woods[role].species, season.woods[role].ring_angle_deg, season.now, moisture)
        for role in ("front", "side")
    )
    below, film = float(settled.front.below), float(settled.front.film)
    drawers = []
    for drawer in made.drawers:
        opening, *heights = (
            float(size) for size in (drawer.opening.height, drawer.front_height.value, drawer.side_height.value)
        )
        over = gap_at(opening, below, heights[0], film, front) if drawer.fit.front_gaps else None
        sides = months(gap_at(opening, 0.0, heights[1], 0.0, side))
        drawers.append(DrawerMonths(drawer, None if over is None else months(over), sides))
    return SeasonMonths(record, months(record.humidity), months(moisture), tuple(drawers))
