"""Saw settings of a slanted cut against printed settings for crown moulding.

Source: crown settings for a 90-degree corner, moulding flat on the table, in three operator's
manuals of mitre saws (read when the values were gathered) and as widely printed in the trade
(memory). For other corners the closed form, mitre atan(sin s / tan(c/2)) and bevel
asin(cos s cos(c/2)), worked out to three places (computed). Spring angle s: from the wall to the
back of the moulding; c: between the walls.

A moulding is one side of a box whose sides slope by the spring angle. It is also a leg: a stick cut
by a plane knows two things, how far the plane is from square across (for a leg the total lean, for
a moulding half the corner's outside, 90 - corner/2) and how far round the stick the face on the
table stands from there (for a leg the sight line, for a moulding the spring angle). So a moulding
is a leg with that lean and that sight line, front face down.

Tolerance: half a unit of the last printed place, but for one manual that prints a bevel of 33.85
where the others and the trade print 33.86 and 33.9: there 0.02.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from furnlib.trade.leg.end_cut import end_cut
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.tapered_box import crown_cut, tapered_box

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "crown_moulding.csv").open(encoding="utf-8")))
every_row = pytest.mark.parametrize(
    "row", ROWS, ids=[f"{r['spring_deg']} {r['corner_deg']} {r['mitre_deg']} {r['bevel_deg']}" for r in ROWS]
)


def check(row, mitre_deg, bevel_deg):
    assert mitre_deg == pytest.approx(float(row["mitre_deg"]), abs=float(row["mitre_within_deg"]))
    assert bevel_deg == pytest.approx(float(row["bevel_deg"]), abs=float(row["bevel_within_deg"]))


@every_row
def test_a_leg_of_that_lean_is_sawn_like_the_moulding(row):
    lean = Lean.from_total_lean(90 - float(row["corner_deg"]) / 2, float(row["spring_deg"]))
    setting = end_cut(lean, 100.0, 20.0).front_down
    check(row, setting.mitre_deg, setting.tilt_deg)


@every_row
def test_the_side_of_a_box_is_sawn_like_the_moulding(row):
    cut = crown_cut(float(row["spring_deg"]), float(row["corner_deg"]))
    check(row, cut.mitre_deg, cut.tilt_deg)


@pytest.mark.parametrize(("sides", "corner_deg"), [(3, 60), (4, 90), (6, 120), (8, 135), (12, 150)])
def test_a_box_with_that_corner_is_sawn_like_the_moulding(sides, corner_deg):
    rows = [row for row in ROWS if row["corner_deg"] == str(corner_deg)]
    assert {row["spring_deg"] for row in rows} == {"38", "45"}
    for row in rows:
        cut = tapered_box(float(row["spring_deg"]), sides)
        check(row, cut.mitre_deg, cut.tilt_deg)
