"""Wood screws: what the tables hold, which hole is wide enough for what, and an estimate with its spread.

What the printed tables say stands in `tests/validation/test_wood_screws.py`.
"""

from __future__ import annotations

import csv
from importlib.resources import files
from itertools import pairwise

import numpy as np
import pytest

from furnlib.base.guards import DesignError
from furnlib.trade.case.screws import (
    PLUGS,
    gauge_diameter,
    lead_holes,
    screw,
    screw_holes,
    screws,
    withdrawal,
    withdrawal_force_n,
)
from furnlib.trade.wood.species import SPREAD, species

GAUGES = list(screws())


def test_every_row_says_where_it_comes_from_and_what_is_from_memory():
    tables = {name: files("furnlib.trade.case").joinpath(name).read_text("utf-8") for name in
              ("screw_gauges.csv", "lead_holes.csv")}  # fmt: skip
    for text in tables.values():
        for row in csv.DictReader(text.splitlines()):
            assert row["source"]
            assert row["how"]
    assert all("root from memory" in made.how for made in screws().values())
    assert {rule["how"] for rule in lead_holes().values()} == {"from memory"}


def test_gauges_stand_in_order_and_thicker_screws_are_thicker_everywhere():
    assert sorted(GAUGES) == GAUGES
    for thin, thick in pairwise(GAUGES):
        one, other = screw(thin), screw(thick)
        assert one.shank_diameter_mm < other.shank_diameter_mm
        assert one.root_diameter_mm < other.root_diameter_mm
        assert one.threads_per_inch >= other.threads_per_inch


@pytest.mark.parametrize("hardness", ["softwood", "hardwood"])
@pytest.mark.parametrize("gauge", GAUGES)
def test_threads_bite_in_their_pilot_and_the_screw_drops_through_what_it_holds(gauge, hardness):
    made, hole = screw(gauge), screw_holes(gauge, hardness)
    assert hole.screw == made
    assert 0 < hole.pilot_mm <= hole.pilot_sideways_mm <= made.root_diameter_mm
    assert made.root_diameter_mm < hole.shank_hole_mm <= made.shank_diameter_mm < hole.clearance_mm < hole.head_mm
    assert hole.counterbore_mm is None or hole.counterbore_mm >= hole.head_mm


def test_hard_wood_wants_wider_pilots():
    for gauge in GAUGES:
        soft, hard = (screw_holes(gauge, hardness) for hardness in ("softwood", "hardwood"))
        assert soft.pilot_mm < hard.pilot_mm
        assert soft.clearance_mm == hard.clearance_mm


def test_the_counterbore_is_the_least_plug_of_the_shop_that_covers_the_head():
    for unit, mm in (("mm", 1.0), ("in", 25.4)):
        for gauge in GAUGES:
            hole = screw_holes(gauge, "hardwood", unit)
            covering = [plug * mm for plug in PLUGS[unit] if plug * mm >= hole.head_mm]
            assert hole.counterbore_mm == (min(covering) if covering else None)
    usual = {6: 3 / 8, 8: 3 / 8, 10: 1 / 2, 12: 1 / 2}  # common practice, no source
    for gauge, inches in usual.items():
        assert screw_holes(gauge, "hardwood", "in").counterbore_mm == pytest.approx(inches * 25.4)


def test_withdrawal_grows_with_thread_and_thickness_and_with_the_square_of_the_weight():
    once = withdrawal_force_n(0.4, 4.0, 20.0)
    assert withdrawal_force_n(0.4, 4.0, 40.0) == pytest.approx(2 * once)
    assert withdrawal_force_n(0.4, 8.0, 20.0) == pytest.approx(2 * once)
    assert withdrawal_force_n(0.8, 4.0, 20.0) == pytest.approx(4 * once)
    assert withdrawal_force_n(np.array([0.4, 0.8]), 4.0, 20.0) == pytest.approx([once, 4 * once])


def test_the_spread_holds_nineteen_boards_of_twenty():
    """Boards drawn by chance about the species' average weight, each tested by the same formula."""
    made = withdrawal(8, 0.5, 25.0)
    weights = np.random.default_rng(5).normal(0.5, 0.5 * SPREAD["specific gravity"], 100_000)
    forces = withdrawal_force_n(weights, screw(8).shank_diameter_mm, 25.0)
    inside = np.mean((made.least_n <= forces) & (forces <= made.most_n))
    assert inside == pytest.approx(0.954, abs=0.004)
    assert made.least_n < made.average_n < made.most_n


def test_the_estimate_never_stands_without_its_caution():
    told = str(withdrawal(10, species("white oak").specific_gravity, 30.0))
    assert "no rating and no load to plan with" in told
    assert "e+" not in told


def test_the_rule_of_gauges_takes_arrays():
    assert gauge_diameter(np.array([0, 10])) == pytest.approx([0.06, 0.19])


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: screw(13), r"gauge is 13; the table has 0, 1, 2,"),
        (lambda: screw_holes(8, "hard"), "hardness is 'hard'; did you mean 'hardwood'"),
        (lambda: withdrawal(8, 0.0, 25.0), "specific gravity is 0.0"),
        (lambda: withdrawal(8, 500.0, 25.0), "specific gravity is 500.0"),
        (lambda: withdrawal(8, 0.5, 0.0), "length of thread in the wood is 0.0"),
        (lambda: withdrawal(30, 0.5, 25.0), "gauge is 30"),
    ],
)
def test_what_the_tables_do_not_hold_is_said(call, words):
    with pytest.raises(DesignError, match=words):
        call()
