"""The tables of a packet: sizes.csv, chains.csv and piece.json say what the piece says, exactly."""

from __future__ import annotations

import csv
import json
import re
from fractions import Fraction

import pytest
from folders import write_words
from pictures import DESIGNS

from furnlib.draw.drawing import Drawing
from furnlib.plan.piece import read_piece
from furnlib.record import packet as packet_module
from furnlib.record.packet import write_packet

FILES = {"mm": DESIGNS / "landing_chest.yaml", "in": DESIGNS / "landing_chest_inch.yaml"}


@pytest.fixture(scope="module", params=["mm", "in"])
def written(request, tmp_path_factory):
    """Unit and folder of a packet; a word stands in place of each picture file."""
    folder = tmp_path_factory.mktemp("packet") / request.param
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(packet_module, "save_pdf_pages", write_words)
        patch.setattr(Drawing, "save", lambda _, path: path.write_text("plate"))
        return request.param, write_packet(read_piece(FILES[request.param]), folder).folder


def rows_of(path):
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def test_sizes_agree_with_the_piece_and_with_one_another(written):
    unit, folder = written
    piece, record = read_piece(FILES[unit]), json.loads((folder / "piece.json").read_text("utf-8"))
    rows, noted, made = (
        rows_of(folder / "sizes.csv"),
        [*record["masters"], *record["sizes"]],
        [*piece.masters, *piece.sizes],
    )
    assert len(made) > 80  # 20-odd that are settled, and 16 for each of four legs
    assert len({size.name for size in made}) == len(made)
    for row, note, size in zip(rows, noted, made, strict=True):
        assert row["name"] == note["name"] == size.name
        assert row["unit"] == note["unit"] == size.unit
        assert row["rule"] == note["rule"] == size.rule
        assert row["formula"] == note["formula"] == size.formula
        assert note["written"] == size.words
        assert note["value"] == float(size.value)
        assert float(row["value"]) == pytest.approx(float(size.value), rel=1e-9, abs=1e-12)
        if isinstance(size.value, Fraction):
            assert Fraction(row["exact"]) == Fraction(note["exact"]) == size.value
        elif isinstance(size.value, float):
            assert (row["exact"], note["exact"]) == ("", None)


def test_exact_sizes_are_fractions_in_text(written):
    """By hand: 1300 - 151; 50 - 6 3/8 = 43 5/8 = 349/8; (480 - 18) / 2; (18 1/2 - 3/4) / 2 = 71/8."""
    exact = {row["name"]: row["exact"] for row in rows_of(written[1] / "sizes.csv")}
    height, width = ("1149", "231") if written[0] == "mm" else ("349/8", "71/8")
    assert exact["case height"] == height
    assert exact["width of each drawer in row 1"] == width
    assert exact["opening of row 1"] == ("83" if written[0] == "mm" else "25/8")


def test_chains_agree_and_add_up_exactly(written):
    unit, folder = written
    record = json.loads((folder / "piece.json").read_text("utf-8"))
    rows = rows_of(folder / "chains.csv")
    assert len(rows) == 5
    for row, noted in zip(rows, record["chains"], strict=True):
        assert (row["name"], row["chain"], row["unit"]) == (noted["name"], noted["written"], unit)
        assert row["chain"].endswith(f" = {row['whole']}")
        assert sum(Fraction(link["value"]) * link["times"] for link in noted["links"]) == Fraction(noted["whole"])
        read = [sum(map(Fraction, part.split())) for part in re.split(r" [+=] ", row["chain"])]  # 43 5/8 is 43 + 5/8
        assert sum(read[:-1]) == read[-1] == Fraction(noted["whole"])


def test_the_record_says_what_the_piece_says(written):
    piece, record = read_piece(FILES[written[0]]), json.loads((written[1] / "piece.json").read_text("utf-8"))
    assert (record["piece"], record["revision"], record["unit"]) == (piece.design.piece, "A", written[0])
    assert record["inputs"] == piece.design.digest
    assert [(c["number"], c["reason"]) for c in record["concerns"]] == [(c.number, c.reason) for c in piece.concerns]
