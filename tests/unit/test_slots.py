"""Slots, buttons and filler strips, against parts that are moved through a whole year.

The witness holds every place as a distance from the fixed point. What lies x away on the moving part today lies
x times the stretch away in a season; what is fixed to the other part stays. The room at either end of a slot is
then read off at many moistures between the driest and the dampest, today among them. The stretch comes from both
movement laws: inside 6 to 14 % by the change coefficients, beyond by shrinkage.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.base.terms import total
from furnlib.trade.case.slots import button, filler_strip, slot, slot_row
from furnlib.trade.wood.movement import change_by_coefficient, change_by_shrinkage, stretch
from furnlib.trade.wood.species import species

few = settings(deadline=None, derandomize=True, max_examples=25)
LAWS = {
    "coefficient": lambda now, then: 1 + change_by_coefficient(1.0, 0.00248, now, then),
    "shrinkage": lambda now, then: 1 + change_by_shrinkage(1.0, 8.8, now, then),
}
DRIEST, DAMPEST = 6.0, 13.0


def year(law, now, steps=141):
    """Stretches over the year, today's among them, and those at the dampest and the driest."""
    moistures = np.append(np.linspace(DRIEST, DAMPEST, steps), now)
    stretches = np.array([LAWS[law](now, float(moisture)) for moisture in moistures])
    return stretches, float(stretches[steps - 1]), float(stretches[0])


def rooms(place, fixed, made, stretches, shank, in_moving_part):
    """Least room over the year before and after the screw, between its sides and the ends of the slot."""
    start, end = place - made.before, place + made.after
    moved = fixed + (np.array([place, start, end])[:, None] - fixed) * stretches
    screw, start, end = (place, *moved[1:]) if in_moving_part else (moved[0], start, end)
    return np.min(screw - shank / 2 - start), np.min(end - screw - shank / 2)


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("now", [DRIEST, 8.0, DAMPEST])
@pytest.mark.parametrize("in_moving_part", [False, True])
@pytest.mark.parametrize(("place", "fixed"), [(450.0, 20.0), (20.0, 450.0), (260.0, 235.0), (5.0, 4.0)])
def test_all_year_the_screw_keeps_exactly_the_extra_room_at_both_ends(law, now, in_moving_part, place, fixed):
    stretches, damp, dry = year(law, now)
    made = slot(place - fixed, 4.2, 0.8, damp, dry, in_moving_part=in_moving_part)
    assert rooms(place, fixed, made, stretches, 4.2, in_moving_part) == pytest.approx((0.8, 0.8), abs=1e-9)


@few
@given(
    st.floats(-900, 900).filter(lambda x: abs(x) > 1e-6), st.floats(2, 9), st.floats(0, 3),
    st.floats(0.95, 1.05), st.floats(0, 0.06), st.booleans(),
)  # fmt: skip
def test_the_same_for_any_season_even_where_today_lies_outside_it(distance, shank, extra, dry, more, in_moving_part):
    stretches = np.append(np.linspace(dry, dry + more, 31), 1.0)
    made = slot(distance, shank, extra, dry + more, dry, in_moving_part=in_moving_part)
    left = rooms(distance, 0.0, made, stretches, shank, in_moving_part)
    assert left == pytest.approx((extra, extra), abs=1e-9)


def test_a_shop_damper_than_the_room_gives_room_for_shrinking_only():
    made = slot(300.0, 4.0, 1.0, 0.995, 0.98)
    assert (made.away_end, made.toward_end) == pytest.approx((3.0, 9.0))


def test_a_panel_that_will_mostly_swell_has_its_screw_nearer_the_fixed_point():
    """And with the slot in the moving part the sign turns round."""
    assert slot(300.0, 4.0, 1.0, 1.01, 0.998).off_middle == pytest.approx(-1.2)
    turned = slot(300.0, 4.0, 1.0, 1.01, 0.998, in_moving_part=True)
    assert turned.off_middle == pytest.approx((6.0 / 1.01 - 3.6 / 0.998) / 2)  # 1.17: it stretches with its panel
    assert slot(300.0, 4.0, 1.0, 1.01, 0.99).off_middle == pytest.approx(0, abs=1e-12)


def test_the_length_is_the_makers_rule_wherever_today_lies():
    """Shank and twice the extra, and what the panel moves over the year at that distance."""
    for now in (7.0, 9.0, 11.0):
        damp, dry = (LAWS["coefficient"](now, moisture) for moisture in (12.0, 6.0))
        assert slot(400.0, 4.0, 1.0, damp, dry).length == pytest.approx(6 + 400 * 0.00248 * 6)
        middle = slot(400.0, 4.0, 1.0, damp, dry).off_middle
        assert middle == pytest.approx(-400 * 0.00248 * (9.0 - now))


def test_no_season_needs_no_slot_beyond_the_extra_and_no_extra_at_the_fixed_point():
    assert slot(400.0, 4.0, 1.0, 1.0, 1.0).length == 6.0
    assert slot(0.0, 4.0, 1.0, 1.02, 0.98).length == 4.0
    assert slot(0.0, 4.0, 1.0, 1.02, 0.98, in_moving_part=True).length == pytest.approx(4.0, abs=0.1)


def test_before_and_after_turn_round_on_the_other_side_of_the_fixed_point():
    left, right = slot(-250.0, 4.0, 0.5, 1.01, 0.995), slot(250.0, 4.0, 0.5, 1.01, 0.995)
    assert (left.before, left.after) == (right.after, right.before) == (right.away_end, right.toward_end)
    assert left.length == right.length == right.before + right.after
    assert right.today == right.before


def test_a_row_is_its_slots_one_by_one_with_one_round_hole_at_the_fixed_screw():
    places = [20.0, 120.0, 235.0, 350.0, 450.0]
    row = slot_row(places, 235.0, 4.5, 0.5, 1.012, 0.99)
    for place, made in zip(places, row, strict=True):
        alone = slot(place - 235.0, 4.5, 0.5, 1.012, 0.99)
        assert (made.before, made.after) == (alone.before, alone.after)
    assert row[2].length == 4.5
    assert row[0].length == pytest.approx(row[4].length)
    assert row[0].before == pytest.approx(row[4].after)


def test_a_row_may_be_fixed_where_no_screw_is():
    assert all(made.length > 5.0 for made in slot_row([50.0, 150.0], 0.0, 4.0, 0.5, 1.01, 0.99))


def test_a_sweep_of_distances_and_seasons_is_one_call():
    distances, damp = np.array([[0.0], [-120.0], [400.0]]), np.array([1.0, 1.004, 1.02])
    made = slot(distances, 4.0, 1.0, damp, 0.99)
    assert made.length.shape == made.before.shape == (3, 3)
    for row, distance in enumerate(distances[:, 0]):
        for column, one in enumerate(damp):
            alone = slot(float(distance), 4.0, 1.0, float(one), 0.99)
            assert isinstance(alone.length, float)
            assert isinstance(alone.before, float)
            for name in ("length", "before", "after", "off_middle"):
                assert getattr(made, name)[row, column] == pytest.approx(getattr(alone, name), rel=1e-14)


def test_it_scales_and_takes_a_species_as_it_comes():
    cherry = species("black cherry")
    damp, dry = (stretch(cherry, 0.0, 8.0, moisture) for moisture in (12.0, 5.0))
    in_mm, in_inches = slot(381.0, 4.1656, 0.5, damp, dry), slot(15.0, 0.164, 0.5 / 25.4, damp, dry)
    assert in_inches.length * 25.4 == pytest.approx(in_mm.length, rel=1e-12)
    assert in_mm.away_end > in_mm.toward_end  # four points to swell, three to shrink


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: slot(100.0, 0.0, 1.0, 1.01, 0.99), "thickness of the screw is 0.0"),
        (lambda: slot(100.0, 4.0, -1.0, 1.01, 0.99), "extra room is -1.0"),
        (lambda: slot(float("nan"), 4.0, 1.0, 1.01, 0.99), "distance from the fixed point is nan"),
        (lambda: slot(100.0, 4.0, 1.0, 0.99, 1.01), "dampest must be the larger"),
        (lambda: slot(100.0, 4.0, 1.0, 1.01, 0.0), "stretch to the driest is 0.0"),
        (lambda: slot(100.0, 4.0, 1.0, -1.0, -2.0), "stretch to the dampest is -1.0"),
        (lambda: slot_row([100.0, 106.0], 0.0, 4.0, 1.0, 1.01, 0.99), "at 100 and 106 run into one another"),
        (lambda: slot_row([106.0, 100.0], 0.0, 4.0, 1.0, 1.01, 0.99), "run into one another"),
        (lambda: button(-5.0, 4.0, 1.0, 1.01, 0.99), "distance from the fixed point is -5.0"),
        (lambda: button(5.0, 0.0, 1.0, 1.01, 0.99), "least bite of the tongue is 0.0"),
        (lambda: filler_strip(150.0, 0.0, 149.0, 1.0, 0.1, 1.0), "room for a strip is -0.19999"),
        (lambda: filler_strip(150.0, 0.0, 0.0, 1.0, 0.0, 1.0), "height of the drawer's sides is 0.0"),
        (lambda: filler_strip(150.0, 0.0, 140.0, -1.0, 0.0, 1.0), "least gap is -1.0"),
    ],
)
def test_what_cannot_be_made_is_said(call, words):
    with pytest.raises(DesignError, match=words):
        call()


# Buttons


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("now", [DRIEST, 9.0, DAMPEST])
@pytest.mark.parametrize("points_away", [True, False])
def test_a_tongue_keeps_its_least_bite_and_never_touches_the_bottom(law, now, points_away):
    """The tongue's tip, its shoulder and the rail on a line outward from the fixed point."""
    stretches, damp, dry = year(law, now)
    made = button(260.0, 3.0, 1.5, damp, dry, points_away=points_away)
    outward = 1 if points_away else -1
    mouth = 300.0  # of the groove, which stays
    tip_today = mouth + outward * made.bite
    tips = tip_today + 260.0 * (stretches - 1)  # the screw carries the whole button
    bites = outward * (tips - mouth)
    assert bites.min() == pytest.approx(3.0, abs=1e-9)
    assert (made.groove_depth - bites).min() == pytest.approx(1.5, abs=1e-9)  # the shoulder's too: tongue as long
    assert (made.bite_damp, made.bite_dry) == pytest.approx((bites[140], bites[0]), abs=1e-9)


def test_buttons_of_a_sweep():
    made = button(np.array([0.0, 300.0]), 4.0, 1.0, 1.01, 0.99)
    assert made.groove_depth == pytest.approx([5.0, 11.0])


# Filler strips


@few
@given(st.floats(60, 250), st.floats(0, 2), st.floats(0, 2), st.floats(0, 0.2), st.floats(0.98, 1.03))
def test_a_strip_leaves_the_least_gap_when_the_side_is_tallest(side, below, least_gap, film, damp):
    opening = side + 15.0
    thickness = total(filler_strip(opening, below, side, least_gap, film, damp))
    tallest = max(side, side * damp)
    free = opening - (below + film + tallest + film) - thickness
    assert free == pytest.approx(least_gap, abs=1e-9)


def test_a_strips_subtraction_is_shown_without_what_is_nothing():
    terms = filler_strip(100.0, 0.0, 85.0, 1.5, 0.0, 0.99)
    assert [(term.value, term.what) for term in terms] == [(100.0, ""), (-85.0, "side"), (-1.5, "gap")]
