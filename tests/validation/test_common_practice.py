"""What every shop knows and no book is needed for.

Source: common practice, no source.
"""

from __future__ import annotations

import math

import pytest

from furnlib.trade.leg.end_cut import end_cut
from furnlib.trade.leg.lean import Lean

LEVEL_LINES = ["untwisted", "front_level", "side_level"]


@pytest.mark.parametrize("orientation", LEVEL_LINES)
@pytest.mark.parametrize("lean_deg", [1.0, 9.0, 15.0, -9.0])
def test_a_leg_that_leans_one_way_is_cut_with_the_gauge_at_its_lean_and_the_blade_upright(orientation, lean_deg):
    # a lean of nine degrees: 9 and 0, with the face down across which the leg is seen to lean
    to_the_front = end_cut(Lean.from_rake_splay(lean_deg, 0.0), 400.0, 40.0, orientation).side_down
    to_the_side = end_cut(Lean.from_rake_splay(0.0, lean_deg), 400.0, 40.0, orientation).front_down
    for setting in (to_the_front, to_the_side):
        assert (setting.mitre_deg, setting.tilt_deg) == pytest.approx((abs(lean_deg), 0), abs=1e-12)


@pytest.mark.parametrize("orientation", LEVEL_LINES)
@pytest.mark.parametrize("lean_deg", [1.0, 9.0, 15.0, -9.0])
def test_its_ends_are_parallel(orientation, lean_deg):
    # so the face that was down is a parallelogram: both long edges measure h / cos, and at either end the one of
    # them stands past the other by w tan, the outer edge at the foot and the inner one at the top
    lean = math.radians(abs(lean_deg))
    cut = end_cut(Lean.from_rake_splay(lean_deg, 0.0), 400.0, 40.0, orientation)
    outer, _, inner, _ = cut.edge_offsets
    assert cut.axis_length == pytest.approx(400 / math.cos(lean), rel=1e-12)
    assert outer - inner == pytest.approx(math.copysign(40 * math.tan(lean), lean_deg), rel=1e-12)
    assert cut.blank_length == pytest.approx(400 / math.cos(lean) + 40 * math.tan(lean), rel=1e-12)


@pytest.mark.parametrize("lean_deg", [1.0, 9.0, 15.0])
def test_or_with_the_gauge_square_and_the_blade_at_the_lean_the_other_face_down(lean_deg):
    setting = end_cut(Lean.from_rake_splay(lean_deg, 0.0), 400.0, 40.0).front_down
    assert (setting.mitre_deg, setting.tilt_deg) == pytest.approx((0, lean_deg), abs=1e-12)
