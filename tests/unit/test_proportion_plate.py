"""The plate of regulating lines: its lines by plain geometry, its ratios by trying every fraction, its words clear."""

from __future__ import annotations

import math
from fractions import Fraction as F

import pytest
from live_hand import BARES, PRACTICE, ROOT
from strained import every_piece, piece
from test_plates import clashes, outside, rooms_of, struck

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke, Text
from furnlib.draw.plates.proportion import off_in_words, proportion_plate, ratio_in_words
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import CasePiece, piece_of, read_piece

LOW = ROOT / "notebooks" / "designs" / "low_media_case.yaml"
TALL = ROOT / "notebooks" / "designs" / "tall_chest.yaml"
SEVEN = ROOT / "notebooks" / "designs" / "seven_openings.yaml"


def words_of(drawing):
    return [mark.words for mark in drawing.marks() if isinstance(mark, Text)]


def lines_of(drawing, kind):
    """Straight lines of a kind above the key, each with its ends in order."""
    return [
        tuple(sorted(item.points))
        for item in drawing.items
        if isinstance(item, Stroke)
        and item.kind == kind
        and len(item.points) == 2
        and max(y for _, y in item.points) > 0
    ]


def tall(**sizes):
    """The tall chest with other sizes."""
    text = DesignText.read(TALL)
    for path, value in (("height", "1300"), ("width", "520")):
        text = text.with_value(("overall", path), str(sizes.get(path, value)))
    return piece_of(text.with_value(("legs", "height"), str(sizes.get("legs", "151"))))


TRIED = {F(over, under) for over in range(1, 17) for under in range(1, 17)}


def nearest(ratio):
    """Of all fractions with no number above 16 those that come nearest, seen either way round."""
    found = set()
    for way in (lambda fraction: abs(fraction - ratio), lambda fraction: abs(1 / fraction - 1 / ratio)):
        off = {fraction: way(fraction) for fraction in TRIED}
        least = min(off.values())
        found |= {fraction for fraction in TRIED if off[fraction] == least}
    return found


def said_of(fraction, true):
    """A fraction and how far it is from the true ratio, as a plate says it."""
    off = 100 * float(abs(fraction / true - 1))
    far = " exactly" if not off else f", {off:.1f} % off" if off >= 0.05 else ", under 0.1 % off"
    return f"{fraction.numerator} : {fraction.denominator}{far}"


# Lines


def fields(drawing):
    """Left, lower, right and upper edge of both fields: the two boxes drawn as visible outlines."""
    boxes = [
        item.points for item in drawing.items if isinstance(item, Stroke) and item.kind == "visible" and item.closed
    ]
    return [(min(x for x, _ in box), min(y for _, y in box), *map(max, zip(*box, strict=True))) for box in boxes]


@pytest.mark.parametrize("path", [TALL, LOW, *BARES.values()], ids=lambda path: path.stem)
def test_both_fields_stand_at_one_scale_under_one_top_edge(path):
    made = read_piece(path)
    overall, legs = made.design.overall, made.case.leg_height
    silhouette, case = fields(proportion_plate(made))
    assert silhouette[2] - silhouette[0] == pytest.approx(float(overall.width))
    assert case[2] - case[0] == pytest.approx(float(overall.width))
    assert (silhouette[1], silhouette[3]) == (0, float(overall.height))
    assert (case[1], case[3]) == pytest.approx((float(legs), float(overall.height)))
    assert silhouette[2] < case[0]


def turned_to(dx, dy):
    return math.degrees(math.atan2(dy, dx)) % 180


@pytest.mark.parametrize("path", [TALL, LOW, BARES["in"]], ids=lambda path: path.stem)
def test_the_lines_in_each_field_are_what_they_are_called(path):
    drawing = proportion_plate(read_piece(path))
    for left, low, right, high in fields(drawing):
        wide, tall_ = right - left, high - low
        short = min(wide, tall_)

        def inside(kind, field=(left, right)):
            return [
                line
                for line in lines_of(drawing, kind)
                if field[0] - 1e-6 <= line[0][0] and line[1][0] <= field[1] + 1e-6
            ]

        corners = {(left, low), (left, high), (right, low), (right, high)}
        diagonals = [line for line in inside("thin") if set(line) <= corners and line[0][0] != line[1][0]]
        diagonals = [line for line in diagonals if line[0][1] != line[1][1]]
        assert len(diagonals) == 2
        slants = [line for line in inside("sight") if line[0][0] != line[1][0] and line[0][1] != line[1][1]]
        (slant,) = slants
        assert set(slant) & corners
        angles = [turned_to(b[0] - a[0], b[1] - a[1]) for a, b in (*diagonals, slant)]
        assert any(abs(abs(angle - angles[2]) - 90) < 1e-6 for angle in angles[:2])
        squares = inside("compared")
        along = 1 if tall_ > wide else 0  # the way the long side runs
        cuts = sorted(line[0][along] - (left, low)[along] for line in squares)
        assert cuts == pytest.approx(sorted({short, max(wide, tall_) - short}))


def test_five_to_two_is_divided_into_ten_squares():
    """1300 x 520 in parts of 260: one line up the middle and four across."""
    drawing = proportion_plate(tall())
    left, _, right, _ = fields(drawing)[0]
    parts = [line for line in lines_of(drawing, "hatch") if line[0][0] >= left - 1e-6 and line[1][0] <= right + 1e-6]
    assert sorted(line[0][1] for line in parts if line[0][1] == line[1][1]) == pytest.approx([260, 520, 780, 1040])
    assert [line[0][0] - left for line in parts if line[0][0] == line[1][0]] == pytest.approx([260])


# Words


@pytest.mark.parametrize("height", [1250, 1299, 1300, 1301, 1324])
@pytest.mark.parametrize("width", [480, 520, 533])
@pytest.mark.parametrize("legs", [100, 151, 220])
def test_the_ratios_are_the_nearest_of_all_fractions_and_the_error_is_said(height, width, legs):
    words = words_of(proportion_plate(tall(height=height, width=width, legs=legs)))
    for name, high in (("Silhouette, legs in", height), ("Case field, legs out", height - legs)):
        true = F(high, width)
        assert {f"{name}: {said_of(near, true)}" for near in nearest(true)} & set(words)
    share = f"1 : {height / legs:.1f}".removesuffix(".0")
    assert any(line.startswith(f"Legs {legs} of {height}, {share} of the height;") for line in words)


def test_the_landing_chest_says_the_two_ratios_side_by_side():
    """1300 / 520 = 2.5; 1149 / 520 = 2.2096, and 11/5 = 2.2 is 0.44 % less; root 5 = 2.2361 is 1.2 % more."""
    drawing = proportion_plate(read_piece(BARES["mm"]))
    words = words_of(drawing)
    assert "Legs 151 of 1300, 1 : 8.6 of the height; 5 : 2 with them, 11 : 5 without." in words
    assert "Parts drawn of root 5, 1.2 % off. Coarser: 9 : 4, 1.8 % off." in words
    assert "silhouette 5 : 2 exactly; case field 11 : 5, 0.4 % off" in drawing.caption
    assert "silhouette 5 : 2 exactly; case field 11 : 5, 0.4 % off" in drawing.spoken


def test_a_lying_case_is_said_height_first_and_in_its_own_unit():
    """20 x 60 on legs of 7: 1 : 3; 13 / 60 = 0.21667, 3/14 = 0.21429 is 1.1 % less."""
    words = words_of(proportion_plate(read_piece(LOW.with_name("low_media_case_inch.yaml"))))
    assert "Silhouette, legs in: 1 : 3 exactly" in words
    assert "Case field, legs out: 3 : 14, 1.1 % off" in words
    assert "No ratio with a name within 2 %. Coarser: 2 : 9, 2.6 % off." in words


def test_a_case_without_legs_is_drawn_once():
    drawing = proportion_plate(read_piece(SEVEN))
    assert len(fields(drawing)) == 1
    assert "No legs: silhouette and case field are one." in words_of(drawing)
    assert "case field;" not in drawing.caption


def test_a_stool_has_no_case():
    with pytest.raises(DesignError, match="no case"):
        proportion_plate(read_piece(PRACTICE))


def test_no_ratio_is_called_right():
    for path in (TALL, LOW, SEVEN):
        drawing = proportion_plate(read_piece(path))
        said = " ".join((*words_of(drawing), drawing.caption, drawing.spoken)).lower()
        assert not any(word in said for word in ("correct", "perfect", "ideal", "best", "right one"))


@pytest.mark.parametrize(
    ("height", "width", "words"),
    [
        (1300, 520, "5 : 2 exactly"),
        (520, 1300, "2 : 5 exactly"),
        (1000, 618, "13 : 8, 0.4 % off"),
        (7, 7, "1 : 1 exactly"),
    ],
)
def test_a_ratio_in_words(height, width, words):
    assert ratio_in_words(F(height), F(width)) == words


def test_how_far_off_in_words():
    assert [off_in_words(off) for off in (0, 0.00049, -0.0005, 0.0123)] == [
        " exactly",
        ", under 0.1 % off",
        ", 0.1 % off",
        ", 1.2 % off",
    ]


# Room


def clear(drawing):
    found = rooms_of(drawing)
    return clashes(found), struck(drawing, found), outside(found, *drawing.size_mm)


@every_piece
def test_few_marks_whatever_the_piece(name):
    if isinstance(piece(name), CasePiece):
        assert len(list(proportion_plate(piece(name)).marks())) <= 120


@pytest.mark.parametrize("sizes", [{}, {"height": 980, "width": 600}, {"height": 1560, "width": 390, "legs": 300}])
def test_a_picture_that_may_grow_keeps_its_words_clear_and_its_frame(sizes):
    most = (F(1560), F(626))
    at_rest, moved = (proportion_plate(made, None, most) for made in (tall(), tall(**sizes)))
    assert clear(moved) == ([], [], [])
    assert moved.scale == at_rest.scale
    assert moved.box == pytest.approx(at_rest.box)
    for item in moved.items:
        if isinstance(item, Fill | Stroke):
            assert all(moved.box[0] <= x <= moved.box[2] and moved.box[1] <= y <= moved.box[3] for x, y in item.points)


def test_in_grey_the_line_kinds_still_differ_by_width_or_dash():
    from furnlib.draw.style import LINES

    kinds = {item.kind for item in proportion_plate(tall()).items if isinstance(item, Stroke)}
    looks = [(LINES[kind].width_mm, LINES[kind].dash_mm) for kind in kinds - {"dimension"}]
    assert len(set(looks)) == len(looks)
