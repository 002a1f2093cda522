"""Eight sides from a square.

Sources, both from memory: the gauge of spar makers, whose two pencils divide 24 parts of the width
into 7, 10 and 7; and the construction with compasses set to half the diagonal, swung from each corner.
"""

from __future__ import annotations

import math

import pytest

from furnlib.trade.leg.blank import octagon_flat, octagon_gauge


def test_seven_ten_seven():
    # whole parts of 24, so right to less than a tenth of a part
    assert (octagon_gauge(24.0), octagon_flat(24.0)) == pytest.approx((7, 10), abs=0.1)


@pytest.mark.parametrize("side", [24.0, 48.0, 1.875])
def test_compasses_from_a_corner(side):
    # they mark an edge at half the diagonal from one corner; the gauge line is that far from the other
    assert octagon_gauge(side) == pytest.approx(side - math.hypot(side, side) / 2, rel=1e-12)
