"""A record of a room's air: read whole or refused with its line; its months reckoned reading by reading.

Moisture is that of `balance_moisture`, which other tests hold against the handbook. Gaps are worked out here
from the handbook's values: black cherry 0.00248 for 1 % flat-sawn, and 7.1 % shrinkage of the green size; red
maple quarter-sawn 0.00137.
"""

from __future__ import annotations

from statistics import fmean

import pytest
from pictures import ROOT

from furnlib.base.guards import DesignError
from furnlib.plan.humidity_record import read_humidity, season_months
from furnlib.plan.piece import read_piece
from furnlib.trade.wood.moisture import balance_moisture
from furnlib.trade.wood.year import readings_of

DESIGNS = ROOT / "notebooks" / "designs"
CHEST = read_piece(DESIGNS / "landing_chest.yaml")


def record_of(folder, *lines):
    path = folder / "room.csv"
    path.write_text("\n".join(lines) + "\n", "utf-8")
    return path


def test_a_record_is_read_as_it_stands(tmp_path):
    lines = ("# a room", 'date,"humidity", temperature F', "2025-01-30 06:00,35, 68", "", "2025-01-31, 36,69.5")
    record = read_humidity(record_of(tmp_path, *lines, "2025-02-01T12:30,40.5,70", "2026-02-01,41,70"))
    assert record.name == "room.csv"
    assert record.months == ("2025-01", "2025-02", "2026-02")  # a month of another year is another month
    assert record.begins == (0, 2, 3)
    assert record.humidity.tolist() == [35, 36, 40.5, 41]
    assert record.temperature.tolist() == [68, 69.5, 70, 70]
    assert record.scale == "F"


def test_where_nothing_is_said_of_temperature_a_room_has_21_degrees(tmp_path):
    record = read_humidity(record_of(tmp_path, "\ufeffhumidity,date", "45,2025-06-01"))
    assert (record.temperature.tolist(), record.scale) == ([21.0], "C")


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (("date,humidity", "2025-01-01,45", "2025-01-02,104"), "line 3 has a humidity of 104; it must lie from 5 to"),
        (("date,humidity", "2025-01-01,0"), "line 2 has a humidity of 0"),
        (("# x", "date,humidity", "2025-01-01,nan"), "line 3 has a humidity of nan"),
        (("date,humidity,temperature C", "2025-01-01,45,99"), "line 2 has a temperature C of 99; it must lie from -1"),
        (("date,humidity,temperature F", "2025-01-01,45,20"), "line 2 has a temperature F of 20"),
        (("date,humidity", "2025-01-01,45", "2025-01-01,46"), "line 3 is not later than the line before"),
        (("date,humidity", "01.02.2025,45"), "line 2 cannot be read: '01.02.2025,45'"),
        (("date,humidity", "2025-01-01,4 5"), "line 2 cannot be read"),
        (("date,humidity", "2025-01-01"), "line 2 cannot be read"),
        (("date,humidity", "2025-01-01,45", "2025-01-02T00:00+01:00,45"), "line 3 cannot be read"),
        (("day,humidity", "2025-01-01,45"), "line 1 has no column 'date', but day, humidity"),
        (("date,humidity", "2025-01-01,50,5"), "line 2 cannot be read"),  # a comma for the point
        (("date,humidity", '2025-01-01,"50,5"'), "line 2 cannot be read"),
        (("date,humidity,humidity", "2025-01-01,45,46"), "line 1 has two columns for the humidity"),
        (("date,humidity,temperature C,temperature F", "2025-01-01,45,20,68"), "has two columns for the temperature"),
        (("date;humidity", "2025-01-01;45"), "line 1 has no column 'date', but date;humidity"),
        (("date,humidity",), "has no reading"),
        ((), "has no reading"),
        (("date,humidity", *(f"{2024 + m // 12}-{m % 12 + 1:02}-01,45" for m in range(14))), "runs over 14 months"),
    ],
)
def test_what_is_wrong_is_said_in_one_sentence(tmp_path, lines, words):
    with pytest.raises(DesignError) as refused:
        read_humidity(record_of(tmp_path, *lines))
    assert words in str(refused.value)
    assert str(refused.value).startswith("room.csv")
    assert str(refused.value).count(". ") == 0


def test_a_file_that_is_not_there_or_no_text_is_said(tmp_path):
    (tmp_path / "room.csv").write_bytes(b"\xff\xfe\x00")
    for path in (tmp_path / "room.csv", tmp_path / "none.csv", tmp_path):
        with pytest.raises(DesignError, match="cannot be read as a text in UTF-8"):
            read_humidity(path)


def width_at(moisture, coefficient, shrinkage):
    """Size at a moisture over the size at 8 %: by coefficient from 6 to 14 %, else on the line from green to dry."""
    if 6 <= moisture <= 14:
        return 1 + coefficient * (moisture - 8)
    green = 1 / (1 - shrinkage / 100 * (30 - 8) / 30)
    return green * (1 - shrinkage / 100 * (30 - moisture) / 30)


def test_the_months_of_the_demo_reading_by_reading():
    """Fronts as the file's rows have them: opening less 1 below less height; sides 3 lower than their opening."""
    record = read_humidity(DESIGNS / "landing_humidity.csv")
    year = season_months(CHEST, record)
    ends = [*record.begins[1:], len(record.humidity)]
    moist = [float(balance_moisture(t, h)) for t, h in zip(record.temperature, record.humidity, strict=True)]
    assert min(moist) < 6 < max(moist)  # so that both laws are met
    for n, (start, end) in enumerate(zip(record.begins, ends, strict=True)):
        month = moist[start:end]
        assert year.moisture_content.least[n] == pytest.approx(min(month))
        assert year.moisture_content.mean[n] == pytest.approx(fmean(month))
        assert year.humidity.most[n] == max(record.humidity[start:end])
        for one in year.drawers:
            opening, front = float(one.drawer.opening.height), float(one.drawer.front_height.value)
            gaps = [opening - 1 - front * width_at(moisture, 0.00248, 7.1) for moisture in month]
            found = [months[n] for months in (one.front.least, one.front.mean, one.front.most)]
            assert found == pytest.approx([min(gaps), fmean(gaps), max(gaps)], abs=1e-9)
            sides = [opening - (opening - 3) * width_at(moisture, 0.00137, 4.0) for moisture in month]
            assert (one.side.least[n], one.side.most[n]) == pytest.approx((min(sides), max(sides)), abs=1e-9)


def test_air_that_does_not_change_changes_no_gap(tmp_path):
    record = read_humidity(record_of(tmp_path, "date,humidity", *(f"2025-{m:02}-01,48" for m in range(1, 13))))
    for one in season_months(CHEST, record).drawers:
        assert len({*one.front.least, *one.front.most}) == len({*one.side.mean}) == 1


def test_a_piece_without_drawers_is_refused():
    record = read_humidity(DESIGNS / "landing_humidity.csv")
    for name, words in (("seven_openings", "add 'drawers:'"), ("practice_stool", "has no case")):
        with pytest.raises(DesignError, match=words):
            season_months(read_piece(DESIGNS / f"{name}.yaml"), record)


def test_a_reading_is_a_number():
    for number in ("damp", float("nan"), None):
        with pytest.raises(DesignError, match=f"The reading is {number}; it must be an ordinary number"):
            readings_of([45.0, number])
