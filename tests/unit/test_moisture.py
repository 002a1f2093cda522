"""Wood settles in air: by the three balances solved in numbers, by what must rise and fall; and go or wait."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from scipy.optimize import brentq

from furnlib.base.guards import DesignError
from furnlib.trade.wood.moisture import SETTLES, balance_moisture, readiness, settled_moisture

COEFFICIENTS = np.random.default_rng(8).uniform((0.2, 250, 0.6, 2, 0.2), (0.95, 500, 0.95, 9, 4), (30, 5))


# The air


def by_the_balances(humidity, weight, solution, first, second):
    """Shares by number: dissolved water, dry places, places with one and with two; the dry ones are searched."""
    dissolved = solution * humidity

    def places(dry):
        one = first * dissolved * dry
        return dry, one, second * dissolved * one

    dry, one, two = places(brentq(lambda dry: dissolved + sum(places(dry)) - 1, 0, 1, xtol=1e-15))
    return 100 * 18 * (dissolved + one + 2 * two) / (weight * (dry + one + two))


def test_the_three_balances_hold():
    found = [settled_moisture(*row) for row in COEFFICIENTS]
    assert found == pytest.approx([by_the_balances(*row) for row in COEFFICIENTS], rel=1e-9)


@pytest.mark.parametrize("scale", SETTLES)
def test_damper_and_cooler_air_makes_damper_wood(scale):
    low, high = {"C": (-1, 93), "F": (30, 200)}[scale]
    temperature, humidity = np.meshgrid(np.linspace(low, high, 60), np.linspace(5, 95, 60), indexing="ij")
    moisture = balance_moisture(temperature, humidity, scale)
    assert moisture.shape == (60, 60)
    assert np.all(np.diff(moisture, axis=1) > 0)
    warm = temperature[1:, 0] > (10 if scale == "C" else 50)  # below, the sorption of cold air hardly changes
    assert np.all(np.diff(moisture, axis=0)[warm] < 0)
    assert np.all(np.diff(moisture, axis=0) < 0.02)
    assert np.all((moisture > 0) & (moisture < 30))


def test_an_array_is_its_numbers_and_a_number_gives_a_number():
    temperature, humidity = np.array([5.0, 12.5, 21.0, 30.0]), np.array([20.0, 45.0, 50.0, 90.0])
    one_by_one = [balance_moisture(t, h) for t, h in zip(temperature.tolist(), humidity.tolist(), strict=True)]
    assert balance_moisture(temperature, humidity) == pytest.approx(one_by_one, rel=1e-14)
    assert {type(moisture) for moisture in one_by_one} == {float}
    assert balance_moisture(20.0, humidity).shape == (4,)


@pytest.mark.parametrize(
    ("air", "words"),
    [
        ((-1.2, 50.0), "temperature in °C is -1.2; it must lie from -1.11111 to 93.3333: the table is printed no"),
        ((93.4, 50.0), "temperature in °C is 93.4"),
        ((29.0, 50.0, "F"), "temperature in °F is 29.0; it must lie from 30 to 200"),
        ((201.0, 50.0, "F"), "temperature in °F is 201.0"),
        ((20.0, 4.9), "relative humidity in % is 4.9; it must lie from 5 to 95: the table is printed no further"),
        ((20.0, 101.0), "relative humidity in % is 101.0; it must lie from 5 to 95"),
        ((20.0, np.array([50.0, 96.0])), "relative humidity in % is .*96"),
        ((20.0, float("nan")), "relative humidity in % is nan; it must be an ordinary number"),
        ((20.0, 50.0, "K"), "scale of temperature is 'K'; it must be C or F"),
    ],
)
def test_air_outside_the_printed_table_is_refused(air, words):
    with pytest.raises(DesignError, match=words):
        balance_moisture(*air)


def test_the_ends_of_the_table_are_allowed():
    corners = itertools.product((30.0, 200.0), (5.0, 95.0))
    for temperature, humidity in corners:
        in_celsius = balance_moisture((temperature - 32) / 1.8, humidity)
        assert balance_moisture(temperature, humidity, "F") == pytest.approx(in_celsius, abs=0.02)


# Go or wait


@pytest.mark.parametrize(
    ("days", "readings", "ready", "drift", "off"),
    [
        ((0, 7), (8.7, 8.4), True, -0.3, 0.4),
        ((0, 7), (8.0, 8.5), False, 0.5, 0.5),  # differs by the limit itself: wait
        ((0, 7), (8.3, 8.8), False, 0.5, 0.8),  # the same, though 8.8 less 8.3 is a hair more in the machine
        ((0, 7), (8.1, 8.5), True, 0.4, 0.5),
        ((0, 7), (9.3, 9.0), True, -0.3, 1.0),  # within 1 counts 1
        ((0, 7), (9.4, 9.1), False, -0.3, 1.1),
        ((0, 7), (7.1, 6.9), False, -0.2, -1.1),
        ((0, 7, 14), (12.0, 8.4, 8.2), True, -0.2, 0.2),  # the week before last is past
        ((0, 7, 9, 12, 14), (12.0, 9.0, 8.5, 8.4, 8.4), False, -0.6, 0.4),  # nearer readings are too young
        ((0, 10), (8.3, 8.0), True, -0.3, 0.0),  # longer than a week is harder
        ((-3.5, 4.0), (8.0, 8.0), True, 0.0, 0.0),
    ],
)
def test_go_when_a_week_changes_little_and_the_last_is_near(days, readings, ready, drift, off):
    answer = readiness(days, readings, 8.0)
    assert answer.ready is ready
    assert (answer.drift, answer.off_target) == pytest.approx((drift, off))
    assert answer.line.startswith("go: " if ready else "wait: ")
    assert f"{drift:+.1f} % in " in answer.line
    assert answer.line.endswith(f"{off:+.1f} % off 8 %")


@pytest.mark.parametrize(("days", "readings"), [((0,), (8.0,)), ((0, 3, 6.9), (8.1, 8.0, 8.0))])
def test_without_a_week_between_two_readings_it_waits(days, readings):
    answer = readiness(days, readings, 8.0)
    assert (answer.ready, answer.drift) == (False, None)
    assert answer.line == "wait: no reading is 7 days older than the last; +0.0 % off 8 %"


def test_a_later_first_day_or_another_shop_with_the_same_differences_says_the_same():
    days, readings = np.array([0, 5, 9, 16]), np.array([9.9, 9.1, 8.8, 8.5])
    answer = readiness(days, readings, 8.0)
    later = readiness(days + 100, readings + 2.0, 10.0)
    assert (answer.ready, answer.drift, answer.off_target) == (later.ready, later.drift, later.off_target)


@pytest.mark.parametrize(
    ("days", "readings", "target", "words"),
    [
        ((), (), 8.0, "There are 0 readings for 0 days; give one or more"),
        ((0, 7), (8.0,), 8.0, "There are 1 readings for 2 days"),
        ((7, 0), (8.0, 8.0), 8.0, "do not run forward; write the readings in the order"),
        ((0, 0), (8.0, 8.0), 8.0, "do not run forward"),
        ((0, float("inf")), (8.0, 8.0), 8.0, "day of a reading"),
        ((0, 7), (8.0, 0.0), 8.0, "reading is .*; it must be more than 0"),
        ((0, 7), (8.0, 8.0), 31.0, "target moisture is 31.0; it must lie between 0 and 30"),
    ],
)
def test_readings_that_say_nothing_are_refused(days, readings, target, words):
    with pytest.raises(DesignError, match=words):
        readiness(days, readings, target)
