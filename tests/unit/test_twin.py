"""Two-shop twins: the demo pieces in both shops, and twins made of any design; worked by hand in exact fractions."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest
from faults import METRIC, edited

from furnlib.base.guards import DesignError
from furnlib.plan.design import design_of, read_design
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import make_piece, piece_of, read_piece
from furnlib.plan.sizes.masters import master_sizes
from furnlib.plan.twin import compare_twins, twin_of

DRAWERS = ("drawers", "pulls", "back", "grain", "strips")
DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
INCH = F(254, 10)
PAIRS = ["landing_chest", "low_media_case", "abrasive_cabinet"]


def read(name):
    return read_piece(DESIGNS / f"{name}.yaml")


def lines(pair):
    return {line.name: line for line in pair.lines}


# The demo pieces, each with a file for either shop

CHEST = [
    # name, mm, in, difference in mm: the inches x 25.4 less the mm
    ("overall, height", 1300, 50, F("-30")),
    ("overall, width", 520, 20, F("-12")),
    ("overall, depth", 380, 15, F(1)),
    ("case, divider", 18, F(3, 4), F("1.05")),
    ("legs, height", 151, F(51, 8), F("10.925")),
    ("case height", 1149, F(349, 8), F("-40.925")),
    ("inside width", 480, F(37, 2), F("-10.1")),
    ("opening of row 1", 83, F(25, 8), F("-3.625")),
    ("opening of row 7", 203, F(61, 8), F("-9.325")),
]


def test_the_landing_chest_in_both_shops():
    pair = compare_twins(read("landing_chest"), read("landing_chest_inch"))
    found = lines(pair)
    for name, size, other, difference in CHEST:
        assert (found[name].size, found[name].other, found[name].difference) == (size, other, difference)
    assert pair.units == ("mm", "in")
    assert pair.ratios == (F(5, 2), F(5, 2))
    assert pair.greatest.name == "case height"
    assert pair.unmatched == ()


def test_the_other_way_round_the_differences_are_in_inches():
    pair = compare_twins(read("landing_chest_inch"), read("landing_chest"))
    for name, size, other, difference in CHEST:
        assert lines(pair)[name].difference == -difference / INCH
        assert (lines(pair)[name].size, lines(pair)[name].other) == (other, size)


def test_the_low_media_case_in_both_shops():
    pair = compare_twins(read("low_media_case_inch"), read("low_media_case"))
    assert pair.ratios == (F(1, 3), F(51, 152))  # three to one, and 2.98 said so
    found = lines(pair)
    for row, (inch, metric) in enumerate(((F(5, 2), 65), (F(13, 4), 80), (F(17, 4), 105)), 1):
        line = found[f"opening of row {row}"]
        assert (line.size, line.other, line.difference) == (inch, metric, metric / INCH - inch)
    assert found["width of the open bay"].difference == 1000 / INCH - F(159, 4)
    assert found["case, bays, bay 1, width"].difference == 460 / INCH - 18


def test_neither_grid_nor_jig_nor_brief_nor_angles_are_sizes_of_the_piece():
    for name in PAIRS:
        for line in compare_twins(read(name), read(f"{name}_inch")).lines:
            assert not line.name.startswith(("grid", "jig", "brief", "rows, ratio", "rows, number", "legs, lean"))


def test_the_greatest_difference_is_the_greatest():
    for name in PAIRS:
        pair = compare_twins(read(name), read(f"{name}_inch"))
        assert abs(pair.greatest.difference) == max(abs(line.difference) for line in pair.lines)


def test_banks_are_matched_bank_by_bank():
    bays = "divider: 18\n  partition: 18\n  bays: [{rows: {number: 2, rule: equal}}, {open: no}]"
    design = design_of(DesignText.parse(edited(METRIC, ("divider: 18", bays), ("1: 2", "1: 1"))))
    found = lines(compare_twins(make_piece(design), make_piece(twin_of(design, F(1, 32)))))
    assert [name for name in found if name.startswith("opening")] == [
        "opening of row 1, bank 1",
        "opening of row 2, bank 1",
        *[f"opening of row {row}, bank 2" for row in range(1, 8)],
    ]


def test_what_only_one_of_the_two_has_is_named():
    pair = compare_twins(read("landing_chest"), read("low_media_case_inch"))
    assert "opening of row 4" in pair.unmatched
    assert "legs, square" in pair.unmatched
    assert "case, bays, bay 1, width" in pair.unmatched
    assert not set(lines(pair)) & set(pair.unmatched)


# Twins that are made

PLAIN = """piece: Chest
unit: mm
grid: 1
overall: {height: 1300, width: 520, depth: 380}
case: {side: 20, top: 20, bottom: 20, divider: 18}
rows: {number: 7, rule: constant step, step: 20, split: {1: 2}}
"""


def test_a_metric_chest_in_thirty_seconds():
    twin = twin_of(read("landing_chest").design, F(1, 32))
    assert (twin.piece, twin.unit, twin.grid, twin.jig) == ("Landing chest, inch shop", "in", F(1, 32), None)
    # in thirty-seconds: 1300 / 25.4 x 32 = 1637.8, 520 655.1, 380 478.7, 20 25.2, 18 22.7, 151 190.2, 45 56.7
    assert [length * 32 for length in (twin.overall.height, twin.overall.width, twin.overall.depth)] == [1638, 655, 479]
    assert (twin.case.side * 32, twin.case.divider * 32, twin.rows.step * 32) == (25, 23, 25)
    assert (twin.legs.height * 32, twin.legs.inset.front * 32) == (190, 57)
    # clear 1638 - 190 - 2 x 25 - 6 x 23 = 1260, a seventh is 180, and by 25 from 105 to 255
    assert [row.opening * 32 for row in make_piece(twin).rows.rows] == [105, 130, 155, 180, 205, 230, 255]


def test_angles_counts_words_and_plain_numbers_stay():
    for name in ("landing_chest", "low_media_case_inch"):
        design = read(name).design
        twin = twin_of(design, F(1) if design.unit == "in" else F(1, 32))
        assert twin.legs.lean == design.legs.lean
        assert twin.legs.wood == design.legs.wood
        assert twin.legs.turning.good == design.legs.turning.good
        assert twin.legs.loads == design.legs.loads
        assert (twin.rows.number, twin.rows.rule, twin.rows.ratio) == (
            design.rows.number,
            design.rows.rule,
            design.rows.ratio,
        )
        assert twin.rows.split == design.rows.split
        assert [part.shape for part in twin.legs.profile] == [part.shape for part in design.legs.profile]
        assert list(twin.brief.contents) == list(design.brief.contents)
        assert twin.revision == design.revision


@pytest.mark.parametrize("name", [shop for pair in PAIRS for shop in (pair, f"{pair}_inch")])
@pytest.mark.parametrize("fine", [True, False])
def test_every_settled_length_goes_to_the_nearest_step_and_the_piece_closes(name, fine):
    design = read(name).design
    unit = "in" if design.unit == "mm" else "mm"
    grid = {("in", True): F(1, 32), ("in", False): F(1, 8), ("mm", True): F(1), ("mm", False): F(5)}[unit, fine]
    twin = twin_of(design, grid)
    assert make_piece(twin).chains  # every one closes, or it is refused
    factor = INCH if unit == "mm" else 1 / INCH
    settled = {size.name: size for size in master_sizes(twin)}
    for size in master_sizes(design):
        if size.unit != design.unit or size.name.startswith(("grid", "jig", "drawers, corner, jig")):
            continue
        there, off = settled[size.name].value, abs(settled[size.name].value - size.value * factor)
        details = ("legs, profile", "legs, fixing", "legs, turning", *DRAWERS)  # never coarser than 1/2 mm or 1/32 in
        step = min(grid, {"mm": F(1, 2), "in": F(1, 32)}[unit]) if size.name.startswith(details) else grid
        assert (there / step).denominator == 1
        assert off <= step / 2 or abs(there) == step


@pytest.mark.parametrize("name", PAIRS)
def test_there_and_back_no_length_is_further_off_than_a_step(name):
    design = read(name).design
    back = twin_of(twin_of(design, F(1, 32)), F(1))
    assert back.unit == "mm"
    assert back.piece == f"{design.piece.removesuffix(', metric shop')}, metric shop"
    settled = {size.name: size.value for size in master_sizes(back)}
    for size in master_sizes(design):
        if size.unit == "mm" and not size.name.startswith(("jig", "grid", "drawers, corner, jig")):
            assert abs(settled[size.name] - size.value) <= 1


def test_the_name_says_the_shop_once():
    inch = read("landing_chest_inch").design
    assert inch.piece == "Landing chest, inch shop"
    assert twin_of(inch, F(1)).piece == "Landing chest, metric shop"
    long = design_of(DesignText.parse(edited(PLAIN, ("piece: Chest", "piece: " + "W" * 60))))
    assert twin_of(long, F(1, 32)).piece == "W" * 49 + ", inch shop"


def test_a_jig_of_the_other_shop_is_followed_and_the_legs_take_what_is_left():
    jig = read("landing_chest_inch").design.jig
    piece = make_piece(twin_of(read("landing_chest").design, F(1, 32), jig))
    # clear 1260/32 = 39 3/8, less 7 x 1/8: 38 1/2 is 51 pitches of 3/4 and 1/4, which goes to legs of 190/32
    assert sum(row.pitches for row in piece.rows.rows) == 51
    assert piece.case.leg_height == F(198, 32)
    assert sum(row.opening for row in piece.rows.rows) == 51 * F(3, 4) + F(7, 8)


def test_own_lists_are_closed_on_the_other_grid():
    # inside 1300 - 40 = 1260 less 108: 1152
    text = edited(
        PLAIN, ("rule: constant step, step: 20", "rule: own list, openings: [90, 110, 130, 150, 180, 220, 272]")
    )
    design = design_of(DesignText.parse(text))
    twin = twin_of(design, F(1, 32))
    # 1638 - 2 x 25 - 6 x 23 = 1450 thirty-seconds are shared out as 1152 was
    assert sum(twin.rows.openings) * 32 == 1450
    for opening, before in zip(twin.rows.openings, design.rows.openings, strict=True):
        assert (opening * 32).denominator == 1
        assert abs(opening * 32 - before * F(1450, 1152)) <= 1
    piece = make_piece(twin)
    assert [row.opening for row in piece.rows.rows] == list(twin.rows.openings)


def test_a_list_of_one_bay_is_closed_by_its_own_dividers():
    bays = ", partition: 20, bays: [{rows: {number: 2, rule: own list, openings: [600, 642]}}, {open: no}]}"
    design = design_of(DesignText.parse(edited(PLAIN, ("divider: 18}", f"divider: 18{bays}"), (", split: {1: 2}", ""))))
    rows = twin_of(design, F(1, 32)).case.bays[0].rows
    assert sum(rows.openings) * 32 == 1638 - 50 - 23


def test_what_is_given_twice_over_is_left_to_close():
    text = edited(
        PLAIN,
        ("divider: 18}", "divider: 18, height: 1300, partition: 20, bays: [{width: 140}, {width: 320}]}"),
        (", split: {1: 2}", ""),
    )
    twin = twin_of(design_of(DesignText.parse(text)), F(1, 32))
    assert twin.case.height is None
    # 140 / 25.4 x 32 = 176.4; the wider takes 655 - 3 x 25 - 176 = 404
    assert [bay.width and bay.width * 32 for bay in twin.case.bays] == [176, None]
    assert [width * 32 for width in make_piece(twin).case.bays] == [176, 404]


def test_a_size_less_than_half_a_step_becomes_one_step_and_none_stays_none():
    text = edited(PLAIN, ("divider: 18", "divider: 18, divider step: -0.1, top rail: 0"))
    twin = twin_of(design_of(DesignText.parse(text)), F(1, 32))
    assert (twin.case.divider_step, twin.case.top_rail, twin.case.bottom_rail) == (F(-1, 32), 0, 0)


def test_stations_of_a_turned_leg_move_along_with_their_diameters():
    stations = "  stations: {0: 48, 50: 40, 151: 25}\n"
    design = design_of(DesignText.parse(edited(METRIC, ("  square: 48\n", stations))))
    twin = twin_of(design, F(1, 8))
    # on 1/32 though the grid is an eighth: 48 is 60.5 of them (to even), 50 63.0, 40 50.4, 151 190.2, 25 31.5
    found = {place * 32: diameter * 32 for place, diameter in twin.legs.stations.items()}
    assert found == {0: 60, 63: 50, 190: 31}


def test_a_twin_is_not_built_and_was_read_from_nothing():
    text = edited(METRIC, ("  depth: 380", "  depth: 15 in")) + "as built:\n  - {openings: {2: 102.5}}\n"
    design = design_of(DesignText.parse(text))
    assert design.notices
    assert design.as_built
    twin = twin_of(design, F(1, 32))
    assert (twin.notices, twin.as_built) == ((), ())
    assert design.as_built
    assert twin.overall.depth == 15


def test_the_same_twin_every_time():
    design = read("low_media_case").design
    assert twin_of(design, F(1, 16)).digest == twin_of(design, F(1, 16)).digest != design.digest


# What is refused


def test_two_pieces_of_one_unit_are_no_twins():
    for shop, unit in (("", "mm"), ("_inch", "in")):
        with pytest.raises(
            DesignError, match=rf"^Both pieces are in {unit}; a twin is for the other unit: take one of each"
        ):
            compare_twins(read(f"landing_chest{shop}"), read(f"low_media_case{shop}"))


@pytest.mark.parametrize("grid", [0, -1, float("nan")])
def test_a_grid_of_nothing(grid):
    with pytest.raises(DesignError, match=r"^The grid is "):
        twin_of(read("landing_chest").design, grid)


def test_a_grid_so_coarse_that_nothing_is_left_inside():
    with pytest.raises(DesignError, match="inside width"):  # 20 each: overall, and either side
        twin_of(read_design(DESIGNS / "landing_chest.yaml"), F(20))


def test_a_stool_has_no_twin():
    stool = read("stool_three_legs")
    with pytest.raises(DesignError, match="has no case and no drawers"):
        twin_of(stool.design, F(1, 32))
    for one, other in ((stool, read("landing_chest_inch")), (read("landing_chest_inch"), stool)):
        with pytest.raises(DesignError, match="has no case and no drawers"):
            compare_twins(one, other)


def test_a_piece_without_legs_compares():
    design = design_of(DesignText.parse(PLAIN))
    pair = compare_twins(piece_of(DesignText.parse(PLAIN)), make_piece(twin_of(design, F(1, 32))))
    assert lines(pair)["overall, height"].difference == F(1638, 32) * INCH - 1300
