"""What a packet holds for the lathe, the cutter and the eye: worked by hand for the legs of the chest."""

from __future__ import annotations

import json
import math
import re

import ezdxf
import pytest
import trimesh
from test_packet import page_text

HEIGHT, SQUARE, FOOT, ABOVE, FROM_TOP, WASTE, KERF = 151.0, 48.0, 28.0, 38.0, 74.0, 15.0, 3.0
"""As the design gives them: the last element tapers from 38 thick, 74 below the top, to a foot of 28."""
LEANS = {"Front left, front right": (8, 6), "Rear left, rear right": (0, 6)}


@pytest.fixture
def folder(chest_told):
    return chest_told.folder


@pytest.fixture
def card(folder):
    return page_text((folder / "index.html").read_text("utf-8")).partition("Plate 1:")[0]


def tangents(rake, splay):
    tan_r, tan_s = math.tan(math.radians(rake)), math.tan(math.radians(splay))
    return tan_r, tan_s, math.hypot(tan_r, tan_s)


@pytest.mark.parametrize("legs", LEANS)
def test_the_bench_card_gives_each_blank(card, legs):
    """A square top reaches w/2 (tan r + tan s) past its axis, a foot that thins by k d/2 tan R / (1 + k/2 tan R)."""
    tan_r, tan_s, tan_lean = tangents(*LEANS[legs])
    axis = HEIGHT * math.hypot(1, tan_lean)
    thins = (ABOVE - FOOT) / (axis - FROM_TOP)
    past = SQUARE / 2 * (tan_r + tan_s) + FOOT / 2 * tan_lean / (1 + thins / 2 * tan_lean)
    long = math.ceil((axis + past + 2 * (WASTE + KERF)) * 10) / 10  # a least blank is never written too short
    gauge = SQUARE * (1 - math.sqrt(0.5))
    assert f"{legs} 48 {long:.1f} {gauge:.1f} 42, " in card
    assert SQUARE * math.sqrt(2) < 101.6  # under 4 in across the corners: 760 turns a minute in the printed table
    assert re.search(rf"{legs} [^a-z]* 760 not needed", card)


def test_the_bench_card_says_how_many_to_turn_and_what_to_mind_at_the_lathe(card):
    # all of 4 come good with 0.9^4 = 0.66, at least 4 of 5 with 0.9^5 + 5 x 0.9^4 x 0.1 = 0.92
    assert 0.9**4 < 0.9 < 0.9**5 + 5 * 0.9**4 * 0.1
    assert "Legs to turn: 5 = least for 4 good ones" in card
    assert "Chuck key out" in card


def test_the_saw_row_sends_to_the_blank_of_the_turning(card):
    assert card.count("as turned") == len(LEANS)


def test_the_cutter_gets_the_outline_of_each_turned_leg(folder):
    for number, lean in enumerate(LEANS.values(), 1):
        (outline,) = ezdxf.readfile(folder / "cutter" / f"half-pattern-{number}.dxf").modelspace()
        assert (outline.dxftype(), outline.closed) == ("LWPOLYLINE", True)
        along = [point[0] for point in outline.get_points()]
        assert max(along) - min(along) == pytest.approx(HEIGHT * math.hypot(1, tangents(*lean)[2]), abs=1e-6)


def test_the_piece_can_be_turned_in_the_round(folder):
    assert trimesh.load(folder / "piece.glb").extents[1] == pytest.approx(1.3, abs=1e-6)  # glTF: metres, y up


def test_every_file_stands_in_the_record(folder):
    files = json.loads((folder / "piece.json").read_text("utf-8"))["files"]
    assert {"piece.glb", "cutter/half-pattern-1.dxf", "cutter/half-pattern-2.dxf"} <= set(files)
    assert all((folder / name).is_file() for name in files)
