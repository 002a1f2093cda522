"""Outlines side by side: each within its limits and as far off its ratio as is said, on one floor line, words clear."""

from __future__ import annotations

import re
from fractions import Fraction as F

import pytest
from live_hand import BARES
from pictures import BARE
from test_plates import clashes, outside, rooms_of, struck

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Stroke, Text
from furnlib.draw.plates import plates_of
from furnlib.draw.plates.outlines import has_limits, outlines_plate
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece

LIMITED = [
    *BARES.values(),
    BARE / "low_media_case.yaml",
    BARE / "low_media_case_inch.yaml",
    BARE / "tall_chest.yaml",
]
each_limited = pytest.mark.parametrize("path", LIMITED, ids=lambda path: path.stem)
NAMED = {  # height over width upright, by plain formulas
    "root 2": 2**0.5, "root 3": 3**0.5, "root 5": 5**0.5, "golden section": (1 + 5**0.5) / 2,
    "root of the golden section": ((1 + 5**0.5) / 2) ** 0.5, "square of the golden section": ((1 + 5**0.5) / 2) ** 2,
    "square and root two standing": 1 + 2**0.5, "square and root two lying": 1 + 0.5**0.5,
}  # fmt: skip


def plain(words):
    """Fractions and spaces as they are typed."""
    small = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄\u202f\u00a0", "01234567890123456789/  ")
    return words.translate(small)


def size(words):
    return sum((F(part) for part in words.split()), F(0))


def outlines_of(drawing):
    """Height, width, ratio's name and how far off in per cent, of each that the spoken words tell."""
    _, _, listed = plain(drawing.spoken).partition("the piece itself ")
    told = listed.partition(". A person")[0].split("; ")
    found = []
    for one in told:
        high, wide, name, far = re.fullmatch(r"(.+?) x (.+?), (.+?)( exactly|, [^,]* % off) \(.*\)", one).groups()
        off = 0.0 if far == " exactly" else 0.05 if "under" in far else float(re.search(r"[\d.]+", far)[0])
        found.append((size(high), size(wide), name, off))
    return found


def boxes(drawing):
    """The rectangles of the cases: solid outlines of four upright sides, the bold one first."""
    shapes = [
        item for item in drawing.items if isinstance(item, Stroke) and item.closed and item.kind in {"cut", "thin"}
    ]
    upright = [item for item in shapes if len(item.points) == 4 and len({x for x, _ in item.points}) == 2]
    upright = [item for item in upright if len({y for _, y in item.points}) == 2]
    return [
        (item.kind, *map(min, zip(*item.points, strict=True)), *map(max, zip(*item.points, strict=True)))
        for item in upright
    ]


@each_limited
def test_each_keeps_to_the_limits_and_lands_where_it_is_said(path):
    made = read_piece(path)
    brief, overall, drawing = made.design.brief, made.design.overall, outlines_plate(made)
    found = outlines_of(drawing)
    assert 3 <= len(found) <= 6
    assert found[0][:2] == (overall.height, overall.width)
    for high, wide, name, off in found:
        assert brief.height.least <= high <= brief.height.most
        assert brief.width.least <= wide <= brief.width.most
        if ":" in name:
            over, under = map(int, name.split(" : "))
            true = F(over, under)
        else:
            true = F(NAMED[name]) if high > wide else 1 / F(NAMED[name])
        assert abs(float(high / wide / true - 1)) * 100 == pytest.approx(off, abs=0.0501)
    shapes = [F(high, wide) for high, wide, _, _ in found]
    assert len(set(shapes)) == len(shapes)  # no shape twice


@each_limited
def test_they_stand_on_one_floor_line_at_one_scale_the_own_one_first_and_bold(path):
    made = read_piece(path)
    drawing = outlines_plate(made)
    drawn, found = boxes(drawing), outlines_of(drawing)
    assert [kind for kind, *_ in drawn] == ["cut", *["thin"] * (len(found) - 1)]
    for (_, left, low, right, high), (tall, wide, _, _), after in zip(drawn, found, [*drawn[1:], None], strict=True):
        assert right - left == pytest.approx(float(wide))
        assert high == pytest.approx(float(tall))
        assert low == pytest.approx(float(made.case.leg_height), abs=20.1 if made.design.unit == "mm" else 0.76)
        assert after is None or right < after[1]


@each_limited
def test_a_doorway_stands_beside_them(path):
    made = read_piece(path)
    high, wide = (2000, 800) if made.design.unit == "mm" else (80, 32)
    doors = [item for item in outlines_plate(made).items if isinstance(item, Stroke) and item.kind == "hidden"]
    assert set(doors[0].points) == {(0, 0), (wide, 0), (wide, high), (0, high)}


def test_a_ratio_that_is_given_to_the_case_is_met_without_the_legs():
    text = DesignText.read(BARE / "tall_chest.yaml")
    text = DesignText.parse(text.text.replace("brief:\n", "brief:\n  field: case\n"), "tall")
    made = piece_of(text)
    legs, others = made.design.legs.height, outlines_of(outlines_plate(made))[1:]
    assert others
    for high, wide, name, off in others:
        over, under = map(int, name.split(" : "))
        assert abs(float((high - legs) / wide / F(over, under) - 1)) * 100 == pytest.approx(off, abs=0.0501)
    assert "case field, legs out" in plain(" ".join(words_of(outlines_plate(made))))


def words_of(drawing):
    return [mark.words for mark in drawing.marks() if isinstance(mark, Text)]


@each_limited
def test_words_stand_clear_and_few_marks_do(path):
    drawing = outlines_plate(read_piece(path))
    found = rooms_of(drawing)
    assert (clashes(found), struck(drawing, found), outside(found, *drawing.size_mm)) == ([], [], [])
    assert len(list(drawing.marks())) <= 120


@each_limited
def test_none_is_called_right(path):
    drawing = outlines_plate(read_piece(path))
    said = plain(" ".join((*words_of(drawing), drawing.caption, drawing.spoken))).lower()
    assert "no rule says which is right" in said
    assert not any(word in said.replace("no rule says which is right", "") for word in ("right", "best", "correct"))


def test_a_brief_without_limits_has_no_such_plate():
    made = read_piece(BARE / "abrasive_cabinet.yaml")
    assert not has_limits(made)
    assert "Outlines" not in [plate.name for plate in plates_of(made)]
    with pytest.raises(DesignError, match="has no limits of height and width; add 'brief:' with both"):
        outlines_plate(made)


def test_where_no_ratio_fits_the_piece_stands_alone_and_the_limit_that_binds_is_said():
    """1300 to 1301 high and 503 to 504 wide: between 2.579 and 2.587 the table has no whole numbers."""
    text = (BARE / "tall_chest.yaml").read_text("utf-8").replace("width: 520", "width: 503")
    for old, new in (("1250, most: 1325", "1300, most: 1301"), ("480, most: 560", "503, most: 504")):
        text = text.replace(f"least: {old}", f"least: {new}")
    drawing = outlines_plate(piece_of(DesignText.parse(text.replace("brief:", "brief:\n  ratios: [whole numbers]"))))
    assert len(boxes(drawing)) == 1
    said = plain(" ".join(words_of(drawing)))
    assert "No ratio fits between the limits" in said
    assert "No ratio fits between the limits" in drawing.caption
    found = rooms_of(drawing)
    assert (clashes(found), struck(drawing, found), outside(found, *drawing.size_mm)) == ([], [], [])


def test_a_piece_without_a_ratio_of_its_limits_still_stands_first():
    made = read_piece(BARE / "low_media_case.yaml")
    drawing = outlines_plate(made)
    assert outlines_of(drawing)[0][2:] == ("1 : 3", 0.7)  # 510 / 1520 = 0.33553
