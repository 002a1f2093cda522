"""The plates of both demo pieces, drawn once for each file of tests; the chest's packet, once for all."""

import pytest
from pictures import DEMOS, ROOT

from furnlib.draw.plates import plates_of
from furnlib.plan.piece import read_piece
from furnlib.record.packet import write_packet


@pytest.fixture(scope="module")
def plates():
    pieces = {demo: read_piece(ROOT / "notebooks" / "designs" / f"{demo}.yaml") for demo in DEMOS}
    return {(demo, plate.name): plate for demo, piece in pieces.items() for plate in plates_of(piece)}


@pytest.fixture(scope="session")
def chest_packet(tmp_path_factory):
    """A first packet of the chest as it stands in the demo; tests read it or write over copies."""
    chest = read_piece(ROOT / "notebooks" / "designs" / "landing_chest.yaml")
    return write_packet(chest, tmp_path_factory.mktemp("chest") / "packet")
