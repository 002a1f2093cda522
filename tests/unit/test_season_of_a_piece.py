"""The season of a piece: its moistures as read or by the air, what each wood does, and the twin's degrees.

Balance moistures are cells of the handbook's table; movements are worked by hand from its coefficients.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from chest_of_drawers import CASE, CLIMATE, DRAWERS, SOUND, demo, made
from faults import STOOL, edited

from furnlib.base.guards import DesignError
from furnlib.plan.design import design_of, read_design
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of
from furnlib.plan.sizes.season import season_of
from furnlib.plan.twin import twin_of

WOOD = DRAWERS[DRAWERS.index("wood:") : DRAWERS.index("drawers:")]
DESIGNS = "notebooks/designs/"


def season(climate, wood=WOOD, unit="mm"):
    """Of a case that says nothing of drawers; its sizes are of no account here."""
    return made(CASE.replace("unit: mm", f"unit: {unit}").replace("grid: 1", "grid: 1") + climate + wood).season


def test_moisture_as_it_was_read():
    found = season(CLIMATE)
    assert (found.now, found.damp, found.dry) == (8, 12, 7)
    assert [(size.name, size.rule, size.words, size.formula) for size in found.sizes] == [
        ("moisture now", "8 % as given", "8", ""),
        ("moisture at the dampest", "12 % as given", "12", ""),
        ("moisture at the driest", "7 % as given", "7", ""),
        # 380 deep, cherry flat-sawn: 4 x 0.00248 more, and 0.00248 less
        ("depth of the case at the dampest", "383.8 ≈ 380 x 1.00992 stretch", "383.8 mm", "movement"),
        ("depth of the case at the driest", "379.1 ≈ 380 x 0.99752 stretch", "379.1 mm", "movement"),
    ]
    given = season(CLIMATE.replace("shop: 8", "shop: {moisture: 8.25}"))
    assert given.now == 8.25


AIR = [
    # the handbook's table at 70 F, or 21.1 C
    ("mm", 21, 35, 6.9),
    ("mm", 21, 45, 8.5),
    ("mm", 21, 50, 9.2),
    ("mm", 21, 65, 12.0),
    ("mm", 18, 65, 12.1),
    ("in", 70, 35, 6.9),
    ("in", 70, 45, 8.5),
    ("in", 70, 50, 9.2),
    ("in", 70, 65, 12.0),
]


@pytest.mark.parametrize(("unit", "degrees", "humidity", "moisture"), AIR)
def test_moisture_by_the_air_in_the_degrees_of_the_shop(unit, degrees, humidity, moisture):
    air = f"{{temperature: {degrees}, humidity: {humidity}}}"
    found = season(f"climate:\n  shop: {air}\n  dry: 5\n  damp: 14\n", unit=unit)
    assert found.now == pytest.approx(moisture, abs=0.06)
    (size,) = [size for size in found.sizes if size.name == "moisture now"]
    assert size.formula == "moisture.balance"
    assert size.rule.endswith(f" % by {degrees} {'C' if unit == 'mm' else 'F'} and {humidity} % humidity")
    assert float(size.rule.split(" %")[0]) == pytest.approx(found.now, abs=0.005)


def test_each_place_may_be_given_its_own_way():
    found = season("climate: {shop: 8, dry: {temperature: 21, humidity: 35}, damp: {temperature: 18, humidity: 65}}\n")
    assert (found.now, found.dry, found.damp) == (8, pytest.approx(6.9, abs=0.06), pytest.approx(12.1, abs=0.06))


def test_what_the_demos_do_in_a_year():
    chest = demo("landing_chest").season.woods
    # shop 8, place 7 to 12: coefficients 0.00248 cherry, 0.00137 maple quartered, 0.00289 poplar
    for role, size, grows, shrinks in (
        ("side", 200, 1.1, 0.27),
        ("side", 80, 0.4, 0.11),
        ("front", 203, 2.0, 0.5),
        ("bottom", 346, 4.0, 1.0),
    ):
        assert size * (chest[role].damp - 1) == pytest.approx(grows, abs=0.05), role
        assert size * (1 - chest[role].dry) == pytest.approx(shrinks, abs=0.01), role
    assert 380 * (chest["case"].damp - chest["case"].dry) == pytest.approx(4.7, abs=0.05)
    # 18 in of white oak, quartered: 18 x 0.0018 x 4 = 0.13
    oak = demo("low_media_case_inch").season.woods["case"]
    assert 18 * (oak.damp - oak.dry) == pytest.approx(0.13, abs=0.005)


def test_the_ring_angle_is_that_of_the_face():
    # cherry: 0.00248 along the rings, 0.00126 square to them; between them half the squares: at 45 degrees
    # sqrt((1.00992^2 + 1.00504^2) / 2) = 1.007483
    for rings, angle, grown in (("flat-sawn", 0, 1.00992), ("quarter-sawn", 90, 1.00504), ("rift-sawn", 45, 1.007483)):
        wood = season(CLIMATE, WOOD.replace("rings: flat-sawn", f"rings: {rings}")).woods["case"]
        assert wood.ring_angle_deg == angle
        assert wood.damp == pytest.approx(grown, abs=1e-6)


def test_below_six_per_cent_the_shrinkage_serves():
    # cherry shrinks 7.1 % of its green size along the rings: from 8 to 5 it goes by -3 / (100 x 30 / 7.1 - 30 + 8)
    wood = season(CLIMATE.replace("dry: 7", "dry: 5")).woods["case"]
    assert wood.dry == pytest.approx(1 - 3 / (3000 / 7.1 - 22), abs=1e-6)
    assert wood.damp == pytest.approx(1.00992, abs=1e-9)  # the other way it stays with its coefficient


def test_a_shop_that_is_damper_than_the_room():
    chest = made(edited(SOUND, ("shop: 8", "shop: 13")))
    assert chest.season.now == 13
    assert all(wood.damp < 1 for wood in chest.season.woods.values())
    # nothing is planed lower for a summer that never comes: 83 - 2.5, and 83 - 1.5 - 1.25 - 2 x 0.1 = 80.05
    first = chest.drawers[0]
    assert (first.side_height.value, first.front_height.value) == (F(805, 10), 80)
    assert first.side_height.rule == "80.5 ≤ (83 - 2.5 gap) / 1 at the dampest"


def test_an_own_wood_by_its_test_pieces():
    # 100 at 8 %, 101.2 at 12 %: 0.003 per 1 % along the rings, where black cherry has 0.00248
    own = "species: cherry from the orchard\n    like: black cherry\n    measured: [{before: 100, after: 101.2, "
    text = WOOD.replace("species: black cherry", f"{own}moisture before: 8, moisture after: 12}}]")
    wood = season(CLIMATE, text).woods["case"]
    assert wood.species.name == "cherry from the orchard"
    assert wood.damp == pytest.approx(1 + 4 * 0.003, abs=2e-4)
    like = season(CLIMATE).woods["case"].species
    assert wood.species.specific_gravity == like.specific_gravity
    quartered = text.replace("moisture after: 12}", "moisture after: 12, rings: quarter-sawn}")
    assert season(CLIMATE, quartered).woods["case"].species.radial_change > like.radial_change


def test_a_season_may_be_left_out_where_nothing_asks_for_it():
    assert made(CASE).season is None
    assert made(CASE + CLIMATE).season is None
    assert made(CASE + WOOD).season is None
    assert season(CLIMATE).woods.keys() == {"case", "front", "side", "bottom"}
    with pytest.raises(DesignError, match="add 'wood:' to the design file"):
        made(CASE + CLIMATE + "drawers:" + DRAWERS.partition("drawers:")[2])
    assert not hasattr(piece_of(DesignText.parse(STOOL)), "season")


def test_a_twin_keeps_its_air_in_the_other_degrees():
    air = CLIMATE.replace("shop: 8", "shop: {temperature: 20, humidity: 45}")
    here = design_of(DesignText.parse(CASE + air + WOOD))
    there = twin_of(here, F(1, 32))
    assert there.climate.shop.temperature == 68  # 20 x 9/5 + 32
    assert (there.climate.shop.humidity, there.climate.damp.moisture_content) == (45, 12)
    both = season_of(here), season_of(there)
    assert both[0].now == pytest.approx(both[1].now, abs=0.03)  # each scale has its own coefficients
    back = twin_of(there, F(1))
    assert back.climate.shop.temperature == 20
    assert back.climate == here.climate


def test_a_twin_without_a_jig_has_no_tails_that_one_would_cut():
    chest = read_design(f"{DESIGNS}landing_chest.yaml")
    twin = twin_of(chest, F(1, 32))
    assert chest.drawers.corner.jig
    assert twin.drawers.corner.jig is None
    assert twin.drawers.corner.lap == F(1, 4)  # 6 mm is 7.6 thirty-seconds
    with_jig = twin_of(chest, F(1, 32), read_design(f"{DESIGNS}landing_chest_inch.yaml").jig)
    assert with_jig.drawers.corner.jig.pin == F(5, 32)  # 4 mm is 5.04
