"""The plate of two-shop twins: both cases true at one scale on one floor line, every difference told, words clear."""

from __future__ import annotations

import re
from fractions import Fraction as F
from functools import cache

import numpy as np
import pytest
from pictures import BARE, DESIGNS
from test_drilling_card import check_layout, check_whole_sheets, check_words, words_on
from test_openings_plate import CABINET, CHEST, INCH, LOW, TWO_KINDS

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke
from furnlib.draw.plates.twins import twin_plate
from furnlib.draw.plates.views import written
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import make_piece, piece_of, read_piece
from furnlib.plan.twin import compare_twins, twin_of

MM = {"mm": 1.0, "in": 25.4}
NO_JIG = (r"jig:.*\n(  .*\n)+", "")
PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "low": (LOW,),
    "cabinet": (CABINET,),
    "two kinds": (CABINET, TWO_KINDS),
    "forty rows": (CHEST, NO_JIG, ("number: 7", "number: 40"), ("step: 20", "step: 0"), ("divider: 18", "divider: 5")),
    "wide": (CABINET, (r"width: 569", "width: 2600")),
    "small": (CABINET, (r"height: 378", "height: 120"), (r"number: 6", "number: 2"), (r"width: 569", "width: 150")),
}  # fmt: skip
SLOW = {"two kinds", "wide", "low"}
every_pair = pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name in SLOW else name for name in PIECES]
)


@cache
def pair(name):
    text, *edits = PIECES[name]
    for pattern, new in edits:
        text, found = re.subn(pattern, new, text, count=1)
        assert found, pattern
    piece = piece_of(DesignText.parse(text))
    return piece, make_piece(twin_of(piece.design, F(1, 32) if piece.design.unit == "mm" else F(1)))


@cache
def plate(name):
    return twin_plate(*pair(name))


def demo(name, designs=BARE):
    return [read_piece(designs / f"{name}{shop}.yaml") for shop in ("", "_inch")]


def outlines(drawn):
    """The two cases: left, bottom, right, top of each heavy box, in mm on paper."""
    boxes = [item for item in drawn.items if isinstance(item, Stroke) and item.closed and item.kind == "visible"]
    points = [np.array(item.points) * drawn.scale for item in boxes if len(item.points) == 4]
    cases = [(*box.min(axis=0), *box.max(axis=0)) for box in points if len({round(x, 6) for x in box[:, 0]}) == 2]
    return sorted(cases, key=lambda box: (box[2] - box[0]) * (box[3] - box[1]))[-2:]


@every_pair
def test_words_stand_clear_and_the_plate_fits_its_sheet(name):
    check_layout(pair(name)[0], [plate(name)])
    check_words([plate(name)])


@pytest.mark.parametrize("name", ["landing_chest", "low_media_case", "abrasive_cabinet"])
def test_so_do_the_demo_pieces_either_way_round(name):
    metric, inch = demo(name, DESIGNS)
    for one, other in ((metric, inch), (inch, metric)):
        check_layout(one, [twin_plate(one, other)])
    check_whole_sheets(metric, [twin_plate(metric, inch)])


@every_pair
def test_both_cases_are_true_at_one_scale_on_a_floor_line(name):
    both, per_mm = pair(name), plate(name).scale / MM[plate(name).unit]
    sizes = sorted(
        (float(one.design.overall.width) * MM[one.design.unit], float(one.case.height) * MM[one.design.unit])
        for one in both
    )
    drawn = sorted((right - left, top - low) for left, low, right, top in outlines(plate(name)))
    assert np.array(drawn) == pytest.approx(np.array(sizes) * per_mm)
    legs = {float(one.case.leg_height) * MM[one.design.unit] * per_mm for one in both}
    floors = [
        np.array(item.points)[0, 1]
        for item in plate(name).items
        if isinstance(item, Stroke) and item.kind == "thin" and len(item.points) == 2
    ]
    for _, low, _, _ in outlines(plate(name)):
        assert any(low - floor * plate(name).scale == pytest.approx(leg, abs=1e-6) for floor in floors for leg in legs)


def test_low_cases_stand_one_above_the_other_and_tall_ones_abreast():
    upper, lower = sorted(outlines(twin_plate(*demo("low_media_case"))), key=lambda box: -box[1])
    assert upper[1] > lower[3]
    one, other = sorted(outlines(twin_plate(*demo("landing_chest"))))
    assert one[2] < other[0]
    assert one[1] == pytest.approx(other[1], abs=1.0)  # their legs differ by 11 mm, half a mm on paper


@every_pair
def test_every_size_is_told_in_both_units_with_its_difference(name):
    compared = compare_twins(*pair(name))
    said, (first, second) = words_on(plate(name)), compared.units
    lines = [line for line in compared.lines if "profile" not in line.name and "bays" not in line.name]
    if len(compared.lines) > 60:
        assert f"The 60 sizes that differ most, of {len(compared.lines)}." in said
        return
    for line in lines:
        at = said.index(line.name)
        assert said[at + 1 : at + 3] == [written(line.size, first), written(line.other, second)]
        assert float(said[at + 3]) == pytest.approx(float(line.difference), abs=0.051 if first == "mm" else 0.00051)


def test_the_demo_chests_by_hand():
    said = words_on(twin_plate(*demo("landing_chest")))
    # 50 in are 1270 and 1300 less 30; 3 1/8 in are 79.375
    for row in (
        ["overall, height", "1300", "50", "-30.0"],
        ["opening of row 1", "83", written(F(25, 8), "in"), "-3.6"],
    ):
        at = said.index(row[0])
        assert said[at : at + 4] == row
    whole = " ".join(said)
    assert "Height to width 5 : 2 in both" in whole
    assert "closed on 1 mm here and on 1/32 in there" in whole
    assert "43.6" not in whole  # no decimals of an inch


def test_what_only_one_of_them_has_is_named():
    other = re.sub(r"legs:\n(.*\n)+", "", INCH)
    other = re.sub(NO_JIG[0], "", other)
    drawn = twin_plate(piece_of(DesignText.parse(CHEST)), piece_of(DesignText.parse(other)))
    said = " ".join(words_on(drawn))
    assert "Only in one of the two: " in said
    assert "and others" in said


def test_heights_of_the_openings_stand_in_them_in_their_own_unit():
    said = words_on(plate("chest"))
    for one in pair("chest"):
        for row in one.rows.rows:
            assert said.count(written(row.opening, one.design.unit)) >= 2  # drawn, and in the table
    tints = [item for item in plate("chest").items if isinstance(item, Fill) and item.tint == "paper"]
    assert len(tints) == 2 * 8  # seven rows, the first of two drawers


def test_twins_are_of_two_units():
    with pytest.raises(DesignError, match="Both pieces are in mm"):
        twin_plate(pair("chest")[0], pair("chest")[0])
    with pytest.raises(DesignError, match="no case and no drawers"):
        twin_plate(pair("chest")[0], read_piece(BARE / "practice_stool.yaml"))


def test_the_same_twins_give_the_same_bytes(tmp_path):
    one, other = (twin_plate(*pair("cabinet")) for _ in range(2))
    assert one.svg() == other.svg()
    paths = [drawn.save(tmp_path / f"{n}.pdf") for n, drawn in enumerate((one, other))]
    assert paths[0].read_bytes() == paths[1].read_bytes()
