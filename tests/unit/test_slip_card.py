"""A slip on its card and under the hand: what is marked, what is said, and where it comes to an end.

The landing chest: 20 + 83 + 18 + 103 + 18 + 123 + 18 are above row 4, whose opening is 143; 151 are the legs.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from live_hand import BARES, controls, drawn, put, seen
from pictures import BARE

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Text
from furnlib.draw.plates.slip_card import slip_plate
from furnlib.live.slips import live_slip
from furnlib.plan.piece import read_piece
from furnlib.plan.slips import members_of

SEVEN = BARE / "seven_openings.yaml"


@pytest.fixture(scope="module")
def chest():
    return read_piece(BARES["mm"])


def marks(plate):
    """Lower and upper edges of what is tinted pale, and whether it is hatched."""
    fills = [item for item in plate.items if isinstance(item, Fill) and item.tint == "pale"]
    return [(min(y for _, y in f.points), max(y for _, y in f.points), f.hatch) for f in fills]


def words(plate):
    return [item.words for item in plate.items if isinstance(item, Text)]


def test_the_member_that_slips_and_the_last_chance_are_marked(chest):
    plate = slip_plate(chest, "opening of row 4", 2)
    upper = 1300 - (20 + 83 + 18 + 103 + 18 + 123 + 18)
    assert marks(plate) == [(upper - 143, upper, True), (upper - 143, upper, True), (0, 151, False)]
    assert {"slips", "last chance"} <= set(words(plate))


@pytest.mark.parametrize(
    ("member", "low", "high"),
    [
        ("top", 1280, 1300),
        ("bottom", 151, 171),
        ("divider 1", 1300 - 20 - 83 - 18, 1300 - 20 - 83),
        ("opening of row 1", 1300 - 20 - 83, 1300 - 20),
        ("opening of row 7", 171, 171 + 203),
        ("legs", 0, 151),
    ],
)
def test_every_member_is_marked_where_it_lies(chest, member, low, high):
    assert marks(slip_plate(chest, member, 1))[0] == (low, high, True)


def test_rails_are_marked_between_board_and_opening(tmp_path):
    text = BARES["mm"].read_text("utf-8").replace("divider: 18", "divider: 16\n  top rail: 5\n  bottom rail: 7")
    path = tmp_path / "railed.yaml"
    path.write_text(text, "utf-8")
    railed = read_piece(path)
    base = float(railed.case.leg_height)
    rails = railed.rows.rails
    assert marks(slip_plate(railed, "top rail", 1))[0] == (1280 - rails[0], 1280, True)
    assert marks(slip_plate(railed, "bottom rail", 1))[0] == (base + 20, base + 20 + rails[1], True)


def test_what_cannot_be_taken_up_is_said(chest):
    plate = slip_plate(chest, "legs", 1)
    assert plate.caption.splitlines()[1] == "Nothing later can take it up: make the part again, or live with it."
    assert "last chance" not in words(plate)


def test_no_slip_changes_nothing(chest):
    assert slip_plate(chest, "top", 0).caption.startswith("Top is as planned")


def test_a_slip_as_large_as_the_part_and_a_part_that_is_not_there(chest):
    with pytest.raises(DesignError, match="divider 1 is no more than 18"):
        slip_plate(chest, "divider 1", 18)
    with pytest.raises(DesignError, match="No member of this height is called 'dividers'"):
        slip_plate(chest, "dividers", 1)


@pytest.mark.parametrize("name", ["landing_chest", "landing_chest_inch", "seven_openings", "low_media_case_inch"])
def test_the_view_follows_every_member_and_every_slip(name):
    view = live_slip(BARE / f"{name}.yaml")
    names = [member.name for member in members_of(view.piece)]
    assert list(controls(view)["What slips"].options) == names
    for member in names:
        put(controls(view)["What slips"], member)
        assert drawn(view)
        assert seen(view)[1].startswith(f"{member.capitalize()} is ")
    for position in (0, len(controls(view)["Too large by"].labels) - 1):
        put(controls(view)["Too large by"], position)
        assert drawn(view)
        assert f"too {'large' if position else 'small'}" in seen(view)[1]


def test_a_dragged_slip_is_followed_and_the_file_is_not_touched():
    view = live_slip(BARES["mm"], "divider 3")
    assert "Divider 3 is 1 too large" in seen(view)[1]
    put(controls(view)["Too large by"], "2 1/2")
    assert "The last that can take it up: legs, 151 becomes 148.5." in seen(view)[1]
    put(controls(view)["Too large by"], "-1.5")
    assert "Divider 3 is 1.5 too small" in seen(view)[1]
    assert "151 becomes 152.5" in seen(view)[1]
    assert not any(getattr(child, "description", "") == "Keep these values" for child in view.children)
    assert repr(view) == "<Live view of slip, Landing chest>"


def test_a_slip_that_eats_the_part_is_refused_and_the_picture_stays(tmp_path):
    path = tmp_path / "thin.yaml"
    path.write_text(SEVEN.read_text("utf-8").replace("divider: 18", "divider: 10").replace("1148", "1100"), "utf-8")
    view = live_slip(path, "divider 1")
    before = seen(view)[0]
    put(controls(view)["Too large by"], "-10")
    assert seen(view)[0] == before
    assert seen(view)[1].startswith("Not drawn:  The slip is 10, and divider 1 is no more than 10")


def test_an_inch_slip_stays_in_fractions():
    view = live_slip(BARES["in"], "top")
    put(controls(view)["Too large by"], "3/32")
    assert controls(view)["Too large by"].value == Fraction(3, 32)
    assert "Top is 3/32 too large" in seen(view)[1]


def test_a_member_that_is_not_there_is_said():
    with pytest.raises(DesignError, match=r"no member 'lid'; its members: top, bottom, divider 1"):
        live_slip(SEVEN, "lid")


def test_a_stool_has_none():
    with pytest.raises(DesignError, match="has no case"):
        live_slip(BARE / "practice_stool.yaml")
