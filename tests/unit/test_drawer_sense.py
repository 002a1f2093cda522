"""What is refused or said of drawers as a whole: fronts that meet, bottoms that push, slides, keys to no use.

The chest of `chest_of_drawers` has openings of 83 to 203 behind dividers of 18; expected numbers are worked beside
each row.
"""

from __future__ import annotations

import pytest
from chest_of_drawers import SOUND, made
from faults import edited

from furnlib.base.guards import DesignError


def only(text, code):
    (concern,) = (concern for concern in made(text).concerns if concern.code == code)
    return concern


OVERLAY = (("    setback: 0\n    below: 1.5\n    least gap: 1.25\n    film: 0.1\n",
            "    kind: overlay\n    overlay: 8.5\n    inner front: 15\n"),)  # fmt: skip
LIPPED = (("    setback: 0\n", "    kind: lipped\n    overlay: 6\n    lip: 6\n"),)
REFUSED = [
    # 18 between two fronts: 9 each
    ((*OVERLAY, ("overlay: 8.5", "overlay: 9.5")), "over the divider a front has 9 of its own"),
    # the inner front in its opening of 480 without a gap, and the box as wide as the opening
    ((("    setback: 0\n", "    inner front: 15\n"),), "as wide as its opening and will not go in; give a 'gap'"),
    ((("    gap: 1.1\n", "    gap: 0\n"),), "The side gap is 0"),
    ((("  bottom: {species: yellow-poplar, rings: quarter-sawn}\n", ""),), "A solid bottom moves with the season"),
    ((("    thickness: 8.5\n", "    thickness: 15.5\n"),), "The bottom lies on the runner"),  # 10 + 5.5
    ((("    carried: runners\n", "    carried: runners\n    slide: 13\n"),), "'slide' is given, but drawers made like"),
    ((("    ease: 0.5\n", "    ease: 0.5\n    slip height: 20\n"),), "'slip height' is given"),
]


@pytest.mark.parametrize(("edits", "words"), REFUSED, ids=[words[:20] for _, words in REFUSED])
def test_what_no_opening_would_show_is_refused(edits, words):
    with pytest.raises(DesignError) as caught:
        made(edited(SOUND, *edits))
    assert words in str(caught.value)


def test_fronts_over_the_case_swell_towards_one_another():
    """18 less twice 8.5 leaves 1; maple flat-sawn from 8 to 12 %: 0.00289 x 4 of half of 120 and half of 100."""
    piece = made(edited(SOUND, *OVERLAY))
    first, second, *_ = piece.drawers
    assert first.fit.between is None
    assert second.fit.front_gaps is None
    assert second.fit.between.now == pytest.approx(1)
    half = (first.front_height.value + second.front_height.value) / 2
    assert second.fit.between.damp == pytest.approx(1 - float(half) * 0.00289 * 4)
    assert second.fit.between.dry == pytest.approx(1 + float(half) * 0.00289)
    meeting = [concern for concern in piece.concerns if concern.code == "fronts_meet"]
    assert {concern.number.partition(":")[0] for concern in meeting} == {
        drawer.name for drawer in piece.drawers if drawer.fit.between and drawer.fit.between.damp < 0
    }
    assert meeting


def test_a_lipped_front_is_told_what_goes_into_the_opening():
    """Under its lip 1.5, over it what the season leaves: 83 - 1.5 - 1.25 - 0.2 = 80.05, over 1.01156: 79.1."""
    drawer = made(edited(SOUND, *LIPPED)).drawers[0]
    sizes = {size.name: float(size.value) for size in drawer.lipped}
    assert sizes == {
        "front within its lip, height of row 1": pytest.approx(79.1),
        "rebate under the front of row 1": pytest.approx(6 + 1.5),
        "rebate over the front of row 1": pytest.approx(6 + 83 - 1.5 - 79.1),
        "rebate at the ends of the front of row 1": pytest.approx(6 + 1.1),
    }
    assert drawer.front_height.value == 83 + 12
    assert drawer.fit.front_gaps.now == pytest.approx(83 - 1.5 - 79.1 - 0.2)


def test_a_bottom_that_swells_past_its_room_pushes_the_front_out():
    """Some 330 deep, poplar flat-sawn to 25 %: by the shrinkage law 8.2 % of the green size in 30 %, about 15 in 9."""
    damp = edited(SOUND, ("yellow-poplar, rings: quarter-sawn", "yellow-poplar"), ("damp: 12", "damp: 25"))
    assert "room for 8.7" in only(damp, "bottom_pushes").reason  # 9 behind the sides, 0.3 of it taken already
    assert not [concern for concern in made(SOUND).concerns if concern.code == "bottom_pushes"]


def test_a_bottom_that_shrinks_from_under_the_back():
    dry = edited(
        SOUND, ("yellow-poplar, rings: quarter-sawn", "yellow-poplar"),
        ("shop: 8", "shop: 16"), ("damp: 12", "damp: 16"), ("dry: 7", "dry: 3"),
    )  # fmt: skip
    assert "of 11.3 under the back" in only(dry, "bottom_drops").reason  # a back of 11 and 0.3 behind it


def test_a_bought_slide_needs_neither_kicker_nor_guide():
    text = edited(
        SOUND, ("carried: runners", "carried: slides\n    slide: 12.7"), ("gap: 1.1", "gap: 13"),
        ("    setback: 0\n", "    inner front: 15\n    gap: 1.5\n"), ("least gap: 2.5", "least gap: 60"),
    )  # fmt: skip
    piece = made(text)
    assert {drawer.fit.play for drawer in piece.drawers} == {0}
    assert not {"no_kicker", "no_guide", "no_runner"} & {concern.code for concern in piece.concerns}
