"""How fast a year of hourly humidity becomes gaps: 8,760 readings, eight drawers, beside the bare numpy of it."""

from datetime import datetime, timedelta
from math import sin
from pathlib import Path

import numpy as np

from furnlib.plan.humidity_record import read_humidity, season_months
from furnlib.plan.piece import read_piece

CHEST = Path(__file__).parents[2] / "notebooks" / "designs" / "landing_chest.yaml"
HOURS, ROUNDS = 8760, 20


def written_year(folder):
    start, path = datetime(2025, 1, 1), folder / "year.csv"
    lines = (
        f"{start + timedelta(hours=h):%Y-%m-%d %H:%M},{20 + 3 * sin(h / 800):.1f},{48 + 14 * sin(h / 1400):.1f}"
        for h in range(HOURS)
    )
    path.write_text("\n".join(["date,temperature C,humidity", *lines]), "utf-8")
    return path


def test_a_year_of_hours_to_gaps_for_eight_drawers(in_turns, judge, tmp_path):
    """The goal is 50 ms, the reading of the file counted in; the ratio leaves the file aside."""
    path, chest = written_year(tmp_path), read_piece(CHEST)
    record = read_humidity(path)
    assert len(record.humidity) == HOURS
    year = season_months(chest, record)
    assert sum(one.drawer.count for one in year.drawers) == 8
    moist, heights = np.linspace(6, 12, HOURS), np.linspace(80, 200, 16)[:, None]
    begins, best = list(record.begins), []

    def bare():
        """A line for sizes, and least, mean and most by month, of sixteen fronts and sides."""
        gaps = 203 - heights * (1 + 0.00248 * (moist - 8))
        best.append([way.reduceat(gaps, begins, axis=1).sum() for way in (np.minimum, np.add, np.maximum)])

    ours, numpy_alone = in_turns(lambda: season_months(chest, record), bare, ROUNDS)
    note = f"{ours * 1e3:.2f} ms / {numpy_alone * 1e3:.2f} ms"
    judge("a year to gaps / numpy's reductions alone", ours / numpy_alone, 8, note=note)
    judge("a year to gaps", ours * 1e3, 20, " ms")


def test_with_its_file_read_as_well(in_turns, judge, tmp_path):
    path, chest = written_year(tmp_path), read_piece(CHEST)
    lines = path.read_text("utf-8").splitlines()[1:]

    def bare():
        """What reading costs at the least: every day and every number made out of its text."""
        for line in lines:
            day, warmth, humidity = line.split(",")
            datetime.fromisoformat(day), float(warmth), float(humidity)

    ours, reading = in_turns(lambda: season_months(chest, read_humidity(path)), bare, ROUNDS)
    note = f"{ours * 1e3:.0f} ms / {reading * 1e3:.0f} ms"
    judge("a file to gaps / its texts read alone", ours / reading, 6, note=note)
    judge("a file to gaps", ours * 1e3, 50, " ms")
