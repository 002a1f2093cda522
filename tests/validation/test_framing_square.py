"""Lean and axis length against the rafter table of a framing square.

Source: the table stamped on carpenters' framing squares, "length of common rafters per foot run"
and "length of hip or valley per foot run"; the values are from memory. A rafter is a leg on a
grand scale: its foot runs 12 for every rise, the hip's 12 both ways. Tolerance: half a unit of the
last printed place.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from furnlib.trade.leg.lean import Lean

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "framing_square.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", ROWS, ids=[f"rise {row['rise']}" for row in ROWS])
def test_length_per_foot_of_run(row):
    rise = float(row["rise"])
    common, hip = Lean.from_foot_run(rise, 12, 0), Lean.from_foot_run(rise, 12, 12)
    assert common.axis_length(rise) == pytest.approx(float(row["common_per_foot"]), abs=0.005)
    assert hip.axis_length(rise) == pytest.approx(float(row["hip_per_foot"]), abs=0.005)
    assert hip.sight_line_deg == pytest.approx(45)  # a hip between equal pitches runs at 45 in plan
