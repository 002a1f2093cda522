"""The plates of both demo pieces, drawn once for each file of tests."""

import pytest
from pictures import DEMOS, ROOT

from furnlib.draw.plates import plates_of
from furnlib.plan.piece import read_piece


@pytest.fixture(scope="module")
def plates():
    pieces = {demo: read_piece(ROOT / "notebooks" / "designs" / f"{demo}.yaml") for demo in DEMOS}
    return {(demo, plate.name): plate for demo, piece in pieces.items() for plate in plates_of(piece)}
