"""The plates of both demo pieces and what the chest's packet tells, each made once for all files of tests."""

import pytest
from folders import packet_without_sheets
from pictures import DEMOS, ROOT

from furnlib.draw.plates import plates_of
from furnlib.plan.piece import read_piece


@pytest.fixture(scope="session")
def plates():
    pieces = {demo: read_piece(ROOT / "notebooks" / "designs" / f"{demo}.yaml") for demo in DEMOS}
    return {(demo, plate.name): plate for demo, piece in pieces.items() for plate in plates_of(piece)}


@pytest.fixture(scope="session")
def chest_told(tmp_path_factory):
    """A first packet of the chest as it stands in the demo, with a word in place of each sheet."""
    chest = read_piece(ROOT / "notebooks" / "designs" / "landing_chest.yaml")
    return packet_without_sheets(chest, tmp_path_factory.mktemp("chest"))
