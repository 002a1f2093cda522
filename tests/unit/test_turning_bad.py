"""What cannot be turned is refused in one sentence that says what would do."""

from __future__ import annotations

import math

import pytest

from furnlib.base.guards import DesignError
from furnlib.trade.leg.elements import (
    Element,
    bead,
    cove,
    cylinder,
    fillet,
    lambs_tongue,
    ogee,
    shoulder,
    square_part,
    taper,
    tenon,
)
from furnlib.trade.leg.turning import Profile, profile_through

NO_NUMBER = (math.nan, math.inf, -math.inf)
ROUND = (cylinder, fillet, tenon)
BETWEEN = (taper, lambda *sizes: bead(*sizes, 1.0), lambda *sizes: cove(*sizes, 1.0))


@pytest.mark.parametrize("length", [-1.0, *NO_NUMBER])
def test_a_length_is_0_or_more(length):
    for make in ROUND:
        with pytest.raises(DesignError, match=f"The length of the {make.__name__} is {length:g}; it must be"):
            make(length, 30.0)
    for make in (*BETWEEN, lambda *sizes: ogee(*sizes, 1.0)):
        with pytest.raises(DesignError, match="The length of the"):
            make(length, 30.0, 30.0)
    with pytest.raises(DesignError, match="The length of the square"):
        square_part(length, 30.0)
    with pytest.raises(DesignError, match="The length of the shoulder"):
        shoulder(40.0, 30.0, length)
    with pytest.raises(DesignError, match="The length of the lamb's tongue"):
        lambs_tongue(length, 40.0, 30.0)


@pytest.mark.parametrize("size", [0.0, -3.0, *NO_NUMBER])
def test_a_diameter_and_a_side_are_above_0(size):
    for make in (*ROUND, square_part):
        with pytest.raises(DesignError, match=f"(diameter|side) of the {make.__name__.split('_')[0]} is {size}"):
            make(10.0, size)
    for make in BETWEEN:
        with pytest.raises(DesignError, match="start diameter of the"):
            make(10.0, size, 30.0)
        with pytest.raises(DesignError, match="end diameter of the"):
            make(10.0, 30.0, size)
    for make in (shoulder, lambda *sizes: lambs_tongue(30.0, *sizes)):
        with pytest.raises(DesignError, match="side of the square is"):
            make(size, 20.0)
        with pytest.raises(DesignError, match="end diameter of the"):
            make(40.0, size)


@pytest.mark.parametrize("rise", [0.0, -2.0, *NO_NUMBER])
def test_a_bead_rises_and_a_cove_is_deep(rise):
    with pytest.raises(DesignError, match="The rise of the bead is"):
        bead(20.0, 30.0, 30.0, rise)
    with pytest.raises(DesignError, match="The depth of the cove is"):
        cove(20.0, 30.0, 30.0, rise)


@pytest.mark.parametrize("slopes", [(math.nan, 0.0), (0.0, math.inf)])
def test_slopes_of_a_curve_are_numbers(slopes):
    with pytest.raises(DesignError, match=r"(start|end) slope of the curve is"):
        Element("curve", 10.0, 20.0, 20.0, outline_slopes=slopes)


@pytest.mark.parametrize("rise", NO_NUMBER)
def test_an_ogee_rises_by_a_number(rise):
    with pytest.raises(DesignError, match="The rise of the ogee is"):
        ogee(20.0, 30.0, 30.0, rise)


def test_an_overhang_is_refused_with_what_is_allowed():
    with pytest.raises(DesignError, match=r"^A bead 10 long between 30 and 30 may rise at most 5, not 6: give it less"):
        bead(10.0, 30.0, 30.0, 6.0)
    with pytest.raises(DesignError, match=r"^A cove 10 long between 30 and 30 may be at most 5 deep, not 6: give it"):
        cove(10.0, 30.0, 30.0, 6.0)
    with pytest.raises(DesignError, match=r"^An? ogee 20 long between 30 and 30 may rise at most 5, not 6: give it"):
        ogee(20.0, 30.0, 30.0, -6.0)


@pytest.mark.parametrize(("length", "start", "end"), [(10.0, 30.0, 30.0), (12.0, 30.0, 40.0), (3.0, 40.0, 22.0)])
def test_up_to_the_limit_there_is_one_radius_for_each_place_and_beyond_it_two(length, start, end):
    """The circle itself is asked: at the limit its centre is as far from the axis as a bead's thinner end."""
    chord, slope = math.hypot(length, (end - start) / 2), math.atan2((end - start) / 2, length)
    limit = chord / 2 * math.tan((math.pi / 2 - abs(slope)) / 2)
    reach = (chord**2 / 4 + limit**2) / (2 * limit)
    centre = (start + end) / 4 - (reach - limit) * math.cos(slope)
    assert centre == pytest.approx(min(start, end) / 2, rel=1e-12)  # so the arc starts upright there
    for make in (bead, cove):
        assert make(length, start, end, limit).pieces[0].reach == pytest.approx(reach)
        with pytest.raises(DesignError, match="at most"):
            make(length, start, end, 1.001 * limit)
    assert ogee(2 * length, start, 2 * end - start, limit).rise == limit
    with pytest.raises(DesignError, match="at most"):
        ogee(2 * length, start, 2 * end - start, -1.001 * limit)


def test_nothing_cuts_through_the_leg():
    assert cove(40.0, 20.0, 20.0, 9.9).crowns[0][1] == pytest.approx(0.2)
    for depth in (10.0, 12.0):
        with pytest.raises(DesignError, match="A cove 40 long between 20 and 20 cuts through the leg"):
            cove(40.0, 20.0, 20.0, depth)
    with pytest.raises(DesignError, match="ogee 40 long between 10 and 10 cuts through"):
        ogee(40.0, 10.0, 10.0, 6.0)
    with pytest.raises(DesignError, match="A curve 40 long between 10 and 10 cuts through"):
        Element("curve", 40.0, 10.0, 10.0, outline_slopes=(-1.0, 1.0))


def test_a_round_comes_out_of_its_square():
    assert shoulder(40.0, 40.0).end_diameter == 40.0
    with pytest.raises(DesignError, match="A shoulder cannot end 41 across on a square of 40"):
        shoulder(40.0, 41.0)
    with pytest.raises(DesignError, match="A lamb's tongue cannot end 41 across on a square of 40"):
        lambs_tongue(30.0, 40.0, 41.0)
    square = square_part(100.0, 40.0)
    Profile((square, cylinder(50.0, 40.0)))
    for chain in ((square, cylinder(50.0, 41.0)), (cylinder(50.0, 41.0), fillet(0.0, 20.0), square)):
        with pytest.raises(DesignError, match=r"The cylinder beside a square of 40 is 41 across; at most 40 comes out"):
            Profile(chain)
    with pytest.raises(DesignError, match="The bead beside a square of 40 is 44 across"):
        Profile((square, bead(20.0, 36.0, 36.0, 4.0)))


def test_a_lambs_tongue_is_as_long_as_it_falls():
    fall = 20.0 * math.sqrt(2) - 15.0
    assert lambs_tongue(fall, 40.0, 30.0).length == fall
    with pytest.raises(DesignError, match=r"falls 13.28 from the corners of a square of 40 to 30, and is 13 long"):
        lambs_tongue(13.0, 40.0, 30.0)
    with pytest.raises(DesignError, match="length of the lamb's tongue is 0"):
        lambs_tongue(0.0, 40.0, 30.0)


@pytest.mark.parametrize("chain", [(), (cylinder(0.0, 30.0),), (shoulder(40.0, 30.0), fillet(0.0, 30.0))])
def test_a_leg_has_a_length(chain):
    with pytest.raises(DesignError, match="A turned leg needs a length"):
        Profile(chain)


@pytest.mark.parametrize("factor", [0.0, -1.0, *NO_NUMBER])
def test_a_leg_grows_by_a_number_above_0(factor):
    with pytest.raises(DesignError, match="The factor is"):
        Profile((cylinder(10.0, 30.0),)).scaled(factor)


@pytest.mark.parametrize("place", [-0.1, 10.1, *NO_NUMBER])
def test_a_place_lies_on_the_leg(place):
    leg = Profile((cylinder(10.0, 30.0),))
    for ask in (leg.radius_at, leg.section_area, leg.second_moment, leg.section_modulus):
        with pytest.raises(DesignError, match="The place along the leg is"):
            ask(place)


def test_stations_that_cannot_be_joined_are_named():
    for distances, diameters in (([], []), ([0.0], [30.0]), ([0.0, 1.0], [30.0]), ([0.0], [30.0, 20.0])):
        with pytest.raises(
            DesignError, match=f"There are {len(distances)} distances and {len(diameters)} diameters; give"
        ):
            profile_through(distances, diameters)
    for bad in (0.0, -2.0, *NO_NUMBER):
        with pytest.raises(DesignError, match="The diameter of station 2 is"):
            profile_through([0.0, 10.0, 20.0], [30.0, bad, 20.0])
    for bad in NO_NUMBER:
        with pytest.raises(DesignError, match="The distance of station 3 is"):
            profile_through([0.0, 10.0, bad], [30.0, 30.0, 20.0])
    for bad in (10.0, 5.0):
        with pytest.raises(DesignError, match=f"Station 3 stands at {bad:g} and station 2 at 10; give them from the"):
            profile_through([0.0, 10.0, bad], [30.0, 30.0, 20.0])


def test_each_refusal_is_one_sentence():
    for make in (
        lambda: bead(10.0, 30.0, 30.0, 6.0),
        lambda: cove(40.0, 20.0, 20.0, 10.0),
        lambda: lambs_tongue(13.0, 40.0, 30.0),
        lambda: shoulder(40.0, 41.0),
        lambda: profile_through([0.0, 0.0], [30.0, 30.0]),
        lambda: Profile(()),
    ):
        with pytest.raises(DesignError) as told:
            make()
        assert str(told.value).endswith(".")
        assert ". " not in str(told.value)
