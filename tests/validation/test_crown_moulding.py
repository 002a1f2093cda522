"""Saw settings of a slanted cut against printed settings for crown moulding.

Source: crown settings for a 90-degree corner, moulding flat on the table, in three operator's
manuals of mitre saws (read when the values were gathered) and as widely printed in the trade
(memory). Spring angle: from the wall to the back of the moulding.

A stick cut by a plane knows two things: how far the plane is from square across (for a leg the
total lean, for a moulding half the corner's outside, 90 - corner/2) and how far round the stick
the face on the table stands from there (for a leg the sight line, for a moulding the spring
angle). So a moulding is a leg with that lean and that sight line, front face down.

Tolerance: half a unit of the last printed place, but for one manual that prints a bevel of 33.85
where the others and the trade print 33.86 and 33.9: there 0.02.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from furnlib.trade.leg.end_cut import end_cut
from furnlib.trade.leg.lean import Lean

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "crown_moulding.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", ROWS, ids=[f"{r['spring_deg']} {r['mitre_deg']} {r['bevel_deg']}" for r in ROWS])
def test_a_leg_of_that_lean_is_sawn_like_the_moulding(row):
    lean = Lean.from_total_lean(90 - float(row["corner_deg"]) / 2, float(row["spring_deg"]))
    setting = end_cut(lean, 100.0, 20.0).front_down
    assert setting.mitre_deg == pytest.approx(float(row["mitre_deg"]), abs=float(row["mitre_within_deg"]))
    assert setting.tilt_deg == pytest.approx(float(row["bevel_deg"]), abs=float(row["bevel_within_deg"]))
