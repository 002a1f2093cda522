"""The season band: bars as high as the gaps they stand for, words clear on any piece, a record month by month.

Heights are worked out here: row 7 of the landing chest is 203 high, its front 199 of flat-sawn cherry, which moves
by 0.00248 for 1 %; at 8 % it leaves 3 over it, at 12 % it has grown by 199 x 0.00992, at 7 % it is 0.4935 lower.
"""

from __future__ import annotations

import re
from functools import cache

import numpy as np
import pytest
from pictures import ROOT
from strained import edited_piece
from test_drilling_card import check_layout, check_words, words_on
from test_leg_profile_plate import check_inside_frames

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke
from furnlib.draw.plates.season_band import season_kinds, season_plate, season_record_plate
from furnlib.plan.humidity_record import read_humidity
from furnlib.plan.piece import read_piece

DESIGNS = ROOT / "notebooks" / "designs"
CHEST, INCH, LOW, CABINET = (
    re.sub(r"brief:.*\n(  .*\n)+", "", (DESIGNS / f"{name}.yaml").read_text("utf-8"))
    for name in ("landing_chest", "landing_chest_inch", "low_media_case", "abrasive_cabinet_inch")
)
NO_JIG = (r"jig:.*\n(  .*\n)+", "")
NO_PINS = (r"    jig: {pin: 4}.*\n", "")
PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "one kind, inch": (CABINET,),
    "four banks": (
        CABINET, (r"width: 22 1/2", "width: 45"), (r"number: 6", "number: 6\n  split: {2: 3}"),
        (r"(    - {open: no}\n)+", "    - {open: no}\n    - {open: no}\n    - {width: 8}\n    - {open: no}\n"),
        (r"pulls:\n(  .*\n)+", ""),
    ),
    "three rows": (LOW,),
    "heated winter": (CHEST, (r"dry: 7 ", "dry: {temperature: 21, humidity: 25} ")),
    "binds": (CHEST, (r"damp: 12 ", "damp: 25 "), (r"least gap: 1", "least gap: 0")),
    "overlay": (CHEST, (r"20, below: 1, least gap: 1", "20, kind: overlay, overlay: 6, inner front: 14")),
    "no coefficients": (CHEST, (r"front: {species: black cherry", "front: {species: black oak")),
    "many rows": (
        CHEST, NO_JIG, NO_PINS, (r"number: 7", "number: 30"), (r"step: 20", "step: 1/2"), (r"grid: 1 ", "grid: 0.1 "),
        (r"divider: 18", "divider: 4"), (r"joint: half-blind", "joint: rebated"), (r"pulls:\n(  .*\n)+", ""),
        (r"thickness: 8, tongue: 6, up: 10", "thickness: 6, tongue: 3, up: 5"),
        (r"side: {thickness: 12", "side: {least gap: 1, thickness: 12"),
    ),
}  # fmt: skip
SLOW = {"four banks", "inch", "many rows", "no coefficients", "three rows"}
every_piece = pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name in SLOW else name for name in PIECES]
)


@cache
def piece(name):
    return edited_piece(*PIECES[name])


@cache
def record():
    return read_humidity(DESIGNS / "landing_humidity.csv")


@cache
def plates(name):
    made = piece(name)
    bands = [season_plate(made, number=number) for number, _ in enumerate(season_kinds(made), 1)]
    return [*bands, season_record_plate(made, record())]


def heights(plate, tint):
    """Heights of the bars of a tint in the piece's unit, from the left, and their lower edges."""
    fills = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.tint == tint]
    return [float(np.ptp(points[:, 1])) for points in fills], [float(points[:, 1].min()) for points in fills]


@every_piece
def test_words_stand_clear(name):
    check_layout(piece(name), plates(name))
    check_words(plates(name))


@pytest.mark.slow
@pytest.mark.parametrize("name", ["chest", "inch"])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(piece(name), plates(name))


def test_bars_are_ten_times_as_high_as_the_gaps():
    band = plates("chest")[0]
    assert band.scale == 10.0
    for tint, grown in (("ink", 0), ("blue", 4), ("ochre", -1)):
        found, low = heights(band, tint)
        assert len(found) == 14
        assert low == [0.0] * 14
        assert found[6] == pytest.approx(203 - 1 - 199 * (1 + 0.00248 * grown), abs=1e-9)
        sides = [3 - 20 * k * 0.00137 * grown for k in range(4, 11)]  # k pitches of 20, red maple quarter-sawn
        assert found[7:] == pytest.approx(sides, abs=1e-9)


def test_what_binds_hangs_below_zero_in_the_line_of_warnings():
    """At 25 % a side of 200 is more than 3 taller; the fronts were made for it."""
    band = plates("binds")[0]
    _, low = heights(band, "blue")
    assert min(low[7:]) < 0
    assert min(low[:7]) > -1e-9
    warned = [item for item in band.items if isinstance(item, Stroke) and item.kind == "warning"]
    assert len(warned) == sum(edge < 0 for edge in low)
    assert "binds" in words_on(band)


def test_rows_that_are_alike_stand_once_and_many_go_on_over_sheets():
    assert len(heights(plates("one kind, inch")[0], "ink")[0]) == 2  # twelve trays: fronts and sides
    assert [len(kinds) for kinds in season_kinds(piece("many rows"))] == [12, 12, 6]
    assert [plate.name for plate in plates("many rows")] == [
        "Season band 1", "Season band 2", "Season band 3", "Season by the month",
    ]  # fmt: skip


@pytest.mark.slow
def test_alike_rows_of_alike_banks_are_told_in_one():
    (kinds,) = season_kinds(piece("four banks"))
    assert [kind.name for kind in kinds] == ["rows 1 to 6, banks 1 to 4, 32 alike"]


def test_it_says_by_which_law():
    told = {name: " ".join(words_on(plates(name)[0])) for name in ("chest", "heated winter", "no coefficients")}
    all_year = "to the dampest by change coefficient, to the driest by change coefficient."
    assert f"black cherry, flat-sawn; {all_year}" in told["chest"]
    winter = "to the dampest by change coefficient, to the driest by shrinkage law, outside 6 to 14 %."
    assert f"Fronts: black cherry, flat-sawn; {winter}" in told["heated winter"]
    assert "black oak, flat-sawn; to the dampest by shrinkage law, no change coefficient" in told["no coefficients"]
    assert "5.4 % at the driest" in plates("heated winter")[0].caption


def test_fronts_that_lie_over_the_case_have_no_gap_over_them():
    assert len(heights(plates("overlay")[0], "ink")[0]) == 7
    assert "Gap over row 7: 3 today, 1.9 at the dampest, 3.3 at the driest." in plates("overlay")[0].caption
    assert "Gaps over the sides" in " ".join(words_on(plates("overlay")[-1]))


def test_months_of_a_record_stand_below_one_another():
    plate, mm = plates("chest")[-1], 1 / 10
    bars, low = heights(plate, "pale")
    assert len(bars) == 3 * 12  # air, moisture, row 7
    air = [bar / mm / 0.22 for bar in bars[:12]]
    humidity, ends = record().humidity, [*record().begins[1:], 52]
    months = [humidity[start:end] for start, end in zip(record().begins, ends, strict=True)]
    assert air == pytest.approx([max(month) - min(month) for month in months], abs=1e-6)
    # the dampest reading is above 12 %, so less is left than the file's 1 at the dampest
    assert 0.9 < min(low[24:]) + 124 * mm < 1.0  # the field's zero stands 124 mm down
    said = words_on(plate)
    assert [said.count(month) for month in ("Jan", "Jun", "Dec")] == [2, 2, 2]
    assert {"law changes 6", "law changes 14", "today 8", "driest 7", "dampest 12"} <= set(said)
    assert "From 6 to 14 % change coefficients hold" in " ".join(said)


def test_a_piece_that_says_nothing_of_drawers_is_refused():
    seven, stool = (read_piece(DESIGNS / f"{name}.yaml") for name in ("seven_openings", "practice_stool"))
    assert season_kinds(seven) == season_kinds(stool) == []
    with pytest.raises(DesignError, match="has no season band 1, it has 0"):
        season_plate(seven)
    with pytest.raises(DesignError, match="has no season band 2, it has 1"):
        season_plate(piece("chest"), number=2)
    with pytest.raises(DesignError, match="has no case"):
        season_plate(stool)
    with pytest.raises(DesignError, match="add 'drawers:'"):
        season_record_plate(seven, record())
