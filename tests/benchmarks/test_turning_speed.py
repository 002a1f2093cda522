"""How fast a turned leg of forty elements is made, measured and sampled, beside bare numpy on the same outline.

The baseline knows the outline as ready arrays of lines and circles and does sums of slices only.
"""

import math

import numpy as np

from furnlib.trade.leg.elements import bead, cove, cylinder, taper
from furnlib.trade.leg.turning import Profile

ROUNDS, COUNT = 30, 2_000


def made():
    """Ten times a taper, a bead, a cylinder and a cove."""
    group = (taper(20.0, 30.0, 24.0), bead(10.0, 24.0, 24.0, 4.0), cylinder(5.0, 30.0), cove(15.0, 30.0, 30.0, 5.0))
    return Profile(group * 10)


def whole(leg):
    """Every property, and the section at two thousand places."""
    x = leg.sample(COUNT)
    return (
        leg.radius_at(x), leg.section_area(x), leg.second_moment(x), leg.section_modulus(x), leg.volume, leg.centroid,
        leg.lateral_area, leg.total_area, leg.bends, leg.crowns, leg.stations, leg.swing, leg.largest_at,
        leg.end_taper, leg.least_diameter_between(0.0, leg.length),
    )  # fmt: skip


def bare(x):
    """Radius, area, second moment, modulus, volume, centroid and surface from one group's own formulas."""
    at = x % 50.0
    bead_reach, cove_reach = (25.0 + 16.0) / 8, (56.25 + 25.0) / 10
    bow = 12.0 + 4.0 - bead_reach + np.sqrt(np.maximum(bead_reach**2 - (at - 25.0) ** 2, 0))
    dip = 15.0 - 5.0 + cove_reach - np.sqrt(np.maximum(cove_reach**2 - (at - 42.5) ** 2, 0))
    radius = np.select([at < 20, at < 30, at < 35], [15 - 0.15 * at, bow, np.full_like(at, 15.0)], dip)
    area, moment = math.pi * radius**2, math.pi / 4 * radius**4
    volume = np.trapezoid(area, x)
    surface = np.trapezoid(2 * math.pi * radius * np.hypot(1, np.gradient(radius, x)), x)
    return radius, area, moment, moment / radius, volume, np.trapezoid(area * x, x) / volume, surface


def test_forty_elements_at_two_thousand_places(in_turns, judge):
    """From the elements to the last property: a slider that turns a leg keeps up with the hand."""
    x = made().sample(COUNT)
    inside = x[:-1]  # at the foot the group would begin again
    ours, theirs = whole(made()), bare(inside)
    for found, wanted in zip(ours[:4], theirs[:4], strict=True):
        np.testing.assert_allclose(found[:-1], wanted, rtol=1e-9)
    np.testing.assert_allclose(ours[4:6], theirs[4:6], rtol=3e-3)  # steps are smeared by slices
    leg, numpy = in_turns(lambda: whole(made()), lambda: bare(x), ROUNDS)
    judge(
        "forty elements, all properties / bare numpy", leg / numpy, 40, note=f"{leg * 1e3:.2f} / {numpy * 1e3:.2f} ms"
    )
    judge("forty elements, all properties", leg * 1e3, 5, " ms")
