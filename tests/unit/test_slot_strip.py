"""The drilling strip, printed and joined: holes at their distances, each slot round today's screw.

Slots are worked out here: the demo's side is flat-sawn cherry, 0.00248 for 1 %, at 8 % with 12 and 7 to come; a
screw of gauge 8 is 0.060 + 8 x 0.013 = 0.164 in thick, and 0.5 mm is spare at either end. So x from the round hole
a slot reaches x 0.00992 + 2.0828 + 0.5 away from it and x 0.00248 + 2.5828 towards it.
"""

from __future__ import annotations

import re
from functools import cache

import numpy as np
import pypdf
import pytest
from pictures import ROOT
from strained import edited_piece
from test_drilling_card import check_layout, check_words, words_on
from test_leg_profile_plate import check_inside_frames
from test_sheet import Page
from test_stick import TO_MM, joined

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.plates.slot_strip import SLOT_STRIP, slot_strip_plate, slots_plate
from furnlib.draw.sheet import sheet
from furnlib.plan.piece import read_piece
from furnlib.record.stamp import title_of

CHEST, INCH = (
    re.sub(r"brief:.*\n(  .*\n)+", "", (ROOT / f"notebooks/designs/{name}.yaml").read_text("utf-8"))
    for name in ("landing_chest", "landing_chest_inch")
)
SCREWS = (r"screws: \[190, 340\]", "screws: [{}]")
PIECES = {
    "chest": (CHEST,),
    "inch": (INCH,),
    "held behind": (CHEST, (r"fixed: 40 ", "fixed: 360 ")),
    "close together": (CHEST, (SCREWS[0], SCREWS[1].format("50, 60, 340"))),
    "short": (CHEST, (SCREWS[0], SCREWS[1].format("60, 110"))),
    "no season": (CHEST, (r"dry: 7 ", "dry: 8 "), (r"damp: 12 ", "damp: 8 "), (r"pulls:\n(  .*\n)+", "")),
}
every_piece = pytest.mark.parametrize("name", PIECES)
HOLE = 4.6  # 1.1 x 0.164 in is 4.58, up to the next tenth


@cache
def piece(name):
    return edited_piece(*PIECES[name])


@cache
def sheets(name):
    return [slot_strip_plate(piece(name), number) for number, _ in enumerate(SLOT_STRIP.sheets(piece(name)), 1)]


def slot_of(x):
    """How far it reaches from today's screw: towards smaller places, and towards larger ones."""
    near, far = abs(x) * 0.00248 + HOLE / 2 + 0.5, abs(x) * 0.00992 + HOLE / 2 + 0.5
    return ((near, far) if x > 0 else (far, near)) if x else (HOLE / 2, HOLE / 2)


def holes(plate):
    """Left and right ends of the holes of a drawing that lies."""
    fills = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.tint == "paper"]
    return [(float(points[:, 0].min()), float(points[:, 0].max())) for points in fills]


@pytest.mark.parametrize(("name", "fixed"), [("chest", 40), ("held behind", 360), ("close together", 40)])
def test_slots_lie_round_todays_screws(name, fixed):
    made = piece(name)
    places = made.strip.places
    assert len(places) == len(made.design.strips.screws) + 1
    found = holes(SLOT_STRIP.draw(made, 1))
    for place, ends in zip(places, found, strict=True):
        before, after = slot_of(place - fixed)
        assert ends == pytest.approx((place - before, place + after), abs=1e-6)


@pytest.mark.parametrize(("name", "paper"), [("chest", "A4"), pytest.param("inch", "letter", marks=pytest.mark.slow)])
def test_printed_and_joined_every_screw_is_true_to_a_tenth_of_a_millimetre(name, paper, tmp_path):
    made, plates = piece(name), sheets(name)
    whole = [sheet(plate, title_of(made, plate, n, len(plates)), paper) for n, plate in enumerate(plates, 1)]
    reader = pypdf.PdfReader(save_pdf_pages(whole, tmp_path / "sheets.pdf"))
    pages = [Page(page, reader) for page in reader.pages]
    left, right, _ = pages[0].bar_under("100 mm")
    assert right - left == pytest.approx(100, abs=0.05)
    across = [
        y + shift
        for page, shift in zip(pages, joined(pages), strict=True)
        for left, right, y in page.level_lines()
        if abs(right - left - 22) < 0.02
    ]
    found = np.array(across) - min(across)  # the front end is down
    wanted = np.array([0.0, *made.strip.places]) * TO_MM[made.design.unit]
    for place in wanted:
        assert np.abs(found - place).min() < 0.1
    assert len(set(found.round(1))) == len(wanted)  # and nothing else lies across


@every_piece
def test_words_stand_clear(name):
    check_layout(piece(name), [*sheets(name), slots_plate(piece(name))])
    check_words([*sheets(name), slots_plate(piece(name))])


@pytest.mark.slow
@pytest.mark.parametrize("name", ["chest", "inch"])
def test_whole_sheets_stand_clear_inside_their_frames(name):
    check_inside_frames(piece(name), [*sheets(name), slots_plate(piece(name))])


def test_the_words_say_where_todays_screw_sits():
    """300 from the round hole: 2.976 + 2.8 away from it and 0.744 + 2.8 towards it, each written up."""
    said = [words for plate in sheets("chest") for words in words_on(plate)]
    assert "340 from the front edge: slot 9.4 long, 4.6 wide" in said
    assert "today: 3.6 to its front end, 5.8 to its back end" in said
    assert "40 from the front edge: round hole, 4.6 wide" in said
    behind = " ".join(words for plate in sheets("held behind") for words in words_on(plate))
    assert "at the dampest the screw comes to its front end, 0.5 off" in behind
    assert "today: 4.5 to its front end, 3.3 to its back end" in behind  # 170 before the round hole
    whole = " ".join(said)
    for part in ("Measure the bar.", "front edge", "pilot 2.6 in the side", "no hand holds it", "Drive screws"):
        assert part in whole


def test_without_a_season_the_screw_sits_in_the_middle():
    assert "sit 0 and 0 off the middle" in slots_plate(piece("no season")).caption
    assert "Slots 5.6 and 5.6 long" in slots_plate(piece("no season")).caption  # 4.6 and twice 0.5


def test_each_hole_is_shown_four_times_as_large():
    """The first holes are those on the strip at its scale, the others the same four times full size."""
    plate = slots_plate(piece("chest"))
    small, large = np.array(holes(plate)).reshape(2, 3, 2)
    assert np.ptp(large, axis=1) * plate.scale == pytest.approx(4 * np.ptp(small, axis=1), rel=1e-9)
    assert np.ptp(small, axis=1) == pytest.approx([sum(slot_of(x)) for x in (0, 150, 300)], abs=1e-6)


def test_a_piece_without_strips_is_refused():
    stool = read_piece(ROOT / "notebooks/designs/practice_stool.yaml")
    media = read_piece(ROOT / "notebooks/designs/seven_openings.yaml")
    for made in (stool, media):
        assert SLOT_STRIP.sheets(made) == []
        with pytest.raises(DesignError, match="has no drilling strip 1, it has 0"):
            slot_strip_plate(made)
        with pytest.raises(DesignError, match="has no slotted strip; add 'strips:'"):
            slots_plate(made)
