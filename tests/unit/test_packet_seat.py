"""The packet of a stool: what is drilled and what lies in a cradle, and nothing of drawers and walls."""

import json
import re
from html import unescape
from pathlib import Path

import pypdf
import pytest
from folders import write_words

from furnlib.plan.piece import read_piece
from furnlib.record import packet as packet_module
from furnlib.record.packet import write_packet

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"


@pytest.fixture(scope="module", params=["stool_three_legs", "practice_stool"])
def packet(request, tmp_path_factory):
    """Name and folder of a stool's packet; a word stands in place of each sheet."""
    folder = tmp_path_factory.mktemp("stool") / "packet"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(packet_module, "save_pdf_pages", write_words)
        write_packet(read_piece(DESIGNS / f"{request.param}.yaml"), folder)
    return request.param, folder


def card_of(folder):
    """What is read on the bench card, the first part of the page."""
    card = (folder / "index.html").read_text("utf-8").partition('<section class="card"')[2].partition("</section>")[0]
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", card)))


def test_the_bench_card_of_a_stool_sets_the_drill(packet):
    """Three-legged: the seat is level, so the drill's angles are the room's; tangents worked by hand.

    Front 8 and 14: tan² R = 0.140541² + 0.249328², R = 15.97; sight line atan2(0.249328, 0.140541) = 60.6.
    Practice stool: front 11 less a pitch of 3 is 8; tan s' = tan 8 cos 11 / cos 8 = 0.139312, 7.9.
    """
    name, folder = packet
    card = card_of(folder)
    if name == "stool_three_legs":
        assert "front left and front right 8.0°, 14.0° 16.0° on 60.6°" in card
        assert "rear 18.0°, 0.0° 18.0° on 0.0°" in card
    else:
        assert "front left and front right 8.0°, 7.9°" in card


def test_square_legs_are_sawn_and_round_ones_lie_in_a_cradle(packet):
    name, folder = packet
    card = card_of(folder)
    assert ("Round legs in the cradle" in card) == (name == "stool_three_legs")
    assert ("Legs at the saw" in card) == (name == "practice_stool")


def test_nothing_is_said_of_drawers_and_walls_and_the_cautions_are_those_of_a_seat(packet):
    card = card_of(packet[1])
    assert "Openings" not in card
    assert "wall" not in card.replace("walls of", "")
    assert "not what it bears" in card
    assert "Pull the plug" in card


def test_a_caution_stands_beside_what_is_drilled(packet):
    page = (packet[1] / "index.html").read_text("utf-8")
    drilling = page.partition(": Drilling card</h2>")[2].partition("<h2>")[0]
    assert "clamped to the table of the drill" in drilling.partition("</figure>")[2]


@pytest.mark.parametrize("name", [pytest.param("stool_three_legs", marks=pytest.mark.slow), "practice_stool"])
def test_plates_and_tables_are_all_there(name, tmp_path):
    piece = read_piece(DESIGNS / f"{name}.yaml")
    folder = write_packet(piece, tmp_path / "packet").folder
    sheets = [sheet.extract_text() for sheet in pypdf.PdfReader(folder / "plates.pdf").pages]
    record = json.loads((folder / "piece.json").read_text("utf-8"))
    assert len(sheets) == len([file for file in record["files"] if file.startswith("plates/")])
    wanted = {"stool_three_legs": "Cradle 1", "practice_stool": "Saw card"}[name]
    for plate in ("Overall", "Legs", "Drilling card", "Triangle card", wanted):
        assert any(plate in sheet for sheet in sheets), plate
    assert {size["name"] for size in record["sizes"]} == {size.name for size in piece.sizes}


def test_what_tips_a_three_legged_stool_stands_on_its_card(packet):
    name, folder = packet
    assert ("outside the line of the feet" in card_of(folder)) == (name == "stool_three_legs")
