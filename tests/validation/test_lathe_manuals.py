"""Speeds for work between centres.

Source: a table printed in many owners' manuals of wood lathes, thickness of the work in inches against
turns a minute for roughing, general cutting and finishing; from memory, no copy was at hand. And, read: the
advice of a turner to run spindles of 50 mm or less at 2500 to 3000 turns a minute, slower when long or slim.

What speaks for the memory is that the printed speeds keep the rim's speed nearly even: 4.0 to 4.1 m/s
when roughing, 8.0 to 8.7 in general, and 13.1 to 13.3 when finishing in all bands but the thinnest,
where the lathe's own highest speed ends it. A figure carried over wrongly would stand out.
"""

from __future__ import annotations

import math

import pytest

from furnlib.trade.leg.lathe import rim_speed, speed_band, speed_bands

INCHES = [  # up to, roughing, general, finishing
    (2, 1520, 3000, 3000),
    (4, 760, 1600, 2480),
    (6, 510, 1080, 1650),
    (8, 380, 810, 1240),
    (10, 300, 650, 1000),
    (12, 255, 540, 830),
    (14, 220, 460, 710),
    (16, 190, 400, 620),
]


def test_the_table_is_carried_over():
    for band, (inches, *speeds) in zip(speed_bands(), INCHES, strict=True):
        assert band.upper_diameter_mm == pytest.approx(inches * 25.4, abs=1e-9)
        assert [band.roughing_rpm, band.general_rpm, band.finishing_rpm] == speeds
        assert "from memory" in band.source


def test_the_rim_goes_equally_fast_in_every_band():
    for band in speed_bands():
        across = band.upper_diameter_mm
        assert rim_speed(across, band.roughing_rpm) == pytest.approx(4.05, abs=0.08)
        assert rim_speed(across, band.general_rpm) == pytest.approx(8.35, abs=0.4)
        if across > 51:
            assert rim_speed(across, band.finishing_rpm) == pytest.approx(13.2, abs=0.12)


def test_a_turners_advice_for_thin_spindles():
    assert 2500 <= speed_band(45.0).general_rpm <= 3000


def test_rim_speed_by_hand():
    # 50.8 mm at 1520 a minute: pi x 0.0508 m x 25.333 a second
    assert rim_speed(50.8, 1520) == pytest.approx(math.pi * 0.0508 * 1520 / 60, rel=1e-14)
    assert rim_speed(50.8, 1520) == pytest.approx(4.04, abs=0.005)
