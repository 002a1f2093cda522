"""Whirling speeds of shafts from textbooks.

Sources:

* A textbook's example "critical speed of a stepped shaft": 1 m between simple supports, second moment
  0.3e-6 m⁴ in the end quarters and twice that in the middle half, E = 200 GPa, W = 400 N at midspan;
  sag 3 W L³ / (256 E I), speed √(g / sag) / 2π. Data and both formulas were read; the speed it prints was not
  seen, so 56.4 Hz and 3384 a minute are worked out here from them.
* (π/L)² √(E I / m) for a shaft between simple supports, in any text on vibration; from memory. A steel bar
  of 25 mm and 1 m, 207 GPa, 7850 kg/m³: 316.8 rad/s, 3025 a minute.
* Mode numbers π, 3.926602 and 1.875104 of the uniform beam, in any such text; from memory.
* Kirchhoff's cantilevers that run out to an edge or a point (1879), as later texts give them: ω L² √(ρ A / E I)
  of the thick end is 5.315 for a wedge and 8.719 for a cone; from memory.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from furnlib.trade.leg.whirling import MODE_NUMBERS, whirling_rpm

GRAVITY = 9.81
LOAD, SPAN, STIFFNESS, MOMENT = 400.0, 1.0, 200e9, 0.3e-6


def test_stepped_shaft_with_a_weight_in_its_middle():
    """The weight is a disc 0.1 mm wide, the shaft itself all but without mass; lengths in m, so 1000 mm a unit."""
    density, wide = 7850.0, 1e-4
    disc, nothing = LOAD / GRAVITY / (density * wide), 1e-9
    left, right = (SPAN - wide) / 2, (SPAN + wide) / 2
    x = [0, SPAN / 4, SPAN / 4, left, left, right, right, 3 * SPAN / 4, 3 * SPAN / 4, SPAN]
    moments = [MOMENT] * 2 + [2 * MOMENT] * 6 + [MOMENT] * 2
    areas = [nothing] * 4 + [disc] * 2 + [nothing] * 4
    sag = 3 * LOAD * SPAN**3 / (256 * STIFFNESS * MOMENT)
    assert sag * 1000 == pytest.approx(0.0781, abs=5e-5)
    speed = math.sqrt(GRAVITY / sag) * 30 / math.pi
    assert speed == pytest.approx(3384, abs=0.5)
    found = whirling_rpm(x, moments, areas, STIFFNESS / 1e6, density, mm_per_unit=1000.0)
    assert found == pytest.approx(speed, rel=1e-4)


def test_uniform_steel_bar():
    bar = [0.0, 1000.0], [math.pi * 25**4 / 64] * 2, [math.pi * 25**2 / 4] * 2
    found = whirling_rpm(*bar, 207e3, 7850.0)
    assert found == pytest.approx(3025, abs=0.5)
    assert found * math.pi / 30 == pytest.approx(316.8, abs=0.05)


def test_mode_numbers():
    printed = {"pinned-pinned": 3.141593, "fixed-pinned": 3.926602, "fixed-free": 1.875104}
    for ends, number in printed.items():
        assert MODE_NUMBERS[ends] == pytest.approx(number, abs=5e-7)


@pytest.mark.parametrize(("power", "printed"), [(3, 5.315), (4, 8.719)], ids=["wedge", "cone"])
def test_cantilevers_that_run_out_to_nothing(power, printed):
    """Thickness falls straight to a thousandth: of a wedge A and I go with it and its cube, of a cone with its
    square and fourth power. In units in which E, ρ, L, A and I of the thick end are 1."""
    thick = np.concatenate([np.linspace(1, 0.1, 91), np.geomspace(0.1, 1e-3, 60)[1:]])
    found = whirling_rpm(1 - thick, thick**power, thick ** (power - 2), 1.0, 1e12, "fixed-free") * math.pi / 30
    assert found == pytest.approx(printed, rel=2e-4)
