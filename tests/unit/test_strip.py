"""The strip to wrap round a square leg: true to the leaned leg, closed, full size, on screen and in the PDF.

The leg stands in the room as in `test_orientations`, by scipy's rotation or held to a level line; the
floor is a plane. Where floor and faces meet is worked here with numpy and laid flat by hand, so that
neither the saw table nor the order of the edges is asked how it was meant.
"""

from __future__ import annotations

import math
import re
from functools import cache
from itertools import pairwise

import numpy as np
import pypdf
import pytest
from leg_shapes import on_square_legs
from pictures import BARE, first_of
from strained import INCH, METRIC, edited_piece, leans
from test_orientations import UP, stand
from test_plates import clashes, outside, rooms_of, struck
from test_sheet import Page

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Fill, Stroke, Text
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.plates.strip import strip_plate
from furnlib.draw.plates.strip import strips as strips_of
from furnlib.draw.scale import PLATE_MM
from furnlib.draw.sheet import PAPER_MM, sheet
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of, read_piece
from furnlib.record.stamp import title_of
from furnlib.trade.leg.end_cut import ORIENTATIONS


@cache
def chest(front, rear=None, square="48", height="151", orientation="untwisted", text=METRIC):
    """A chest whose front legs and rear legs lean by two pairs of rake and splay."""
    lines = [f"rake: {rake}, splay: {splay}" for rake, splay in (front, front, *[rear or front] * 2)]
    edits = (
        leans(*lines),
        (r"  square: .*", f"  square: {square}\n  orientation: {orientation}"),
        (r"legs:\n  height: .*", f"legs:\n  height: {height}"),
        (r"overall: {height: \S+,", f"overall: {{height: {'2600' if text == METRIC else '100'},"),
        (r"rule: .*, split", "rule: equal, split"),
    )
    return edited_piece(text, *edits)


@cache
def stool(name, pitch, square=34):
    """A stool of the demo with square legs."""
    text = on_square_legs((BARE / f"{name}.yaml").read_text(), square)
    return piece_of(DesignText.parse(re.sub(r"pitch: \S+", f"pitch: {pitch}", text)))


@cache
def square_demo(name):
    """A demo whose legs are square from end to end."""
    return piece_of(DesignText.parse(on_square_legs((BARE / f"{name}.yaml").read_text())))


def strips(piece):
    return [strip_plate(piece, number=number) for number in range(1, count_of(piece) + 1)]


def count_of(piece):
    return len(strips_of(piece))


def lines_of(plate, kind):
    return [np.array(item.points) for item in plate.items if isinstance(item, Stroke) and item.kind == kind]


def words_of(plate):
    return [mark.words.replace("\u202f", " ") for mark in plate.marks() if isinstance(mark, Text)]


def standing(leg, orientation):
    """The leg in the room, at its own place round the piece.

    That room is right-handed with y to the front, so what is right as seen from the front lies at -x.
    """
    across, back = leg.outward
    return stand(orientation, leg.lean.rake_deg, leg.lean.splay_deg).mirrored(-back, -across)


def faces_of(leg, orientation):
    """Name of each face and its outward direction, in the words of a maker."""
    made = standing(leg, orientation)
    if orientation == "sightline":
        names = ("outer leaning", "inner leaning", "upright", "upright")
    elif orientation == "sightline_corner":
        names = ("foremost", "hindmost", "foremost", "hindmost")
    else:
        outer = ("outer", "inner") if " " in leg.position else ("right", "left")
        ends = ("front", "back") if "front" in leg.position else ("back", "front")
        names = (*ends, f"{outer[0]} side", f"{outer[1]} side")
    return made, list(zip(names, (made.front, -made.front, made.side, -made.side), strict=True))


def drawn_for(piece, plate):
    """The leg that a strip names first in its heading."""
    heading = words_of(plate)[0].lower()
    if heading.startswith("all four"):
        return piece.legs[0]
    named = [leg for leg in piece.legs if re.match(rf"[a-z ,]*\b{leg.position}\b( leg)?(:| and|,)", heading)]
    return min(named, key=lambda leg: heading.index(leg.position))


def names_down(plate, folds):
    """The bold word in each face, from the top of the sheet."""
    bold = [(mark.at[1], mark.words) for mark in plate.marks() if isinstance(mark, Text) and mark.bold]
    return [[words for y, words in bold if low < y < high and len(words) > 1] for high, low in pairwise(folds)]


def check_geometry(piece, plate, orientation):
    """Faces in the order of going round; each pencil line where the floor's plane meets the leg."""
    leg = drawn_for(piece, plate)
    made, faces = faces_of(leg, orientation)
    up = -made.down
    square = float(leg.square)
    cuts, marks = lines_of(plate, "cut"), [line[0, 0] for line in lines_of(plate, "centre")]
    assert len(cuts) == len(marks) == (1 if leg.drilling or "slide the strip up" in " ".join(words_of(plate)) else 2)
    folds = cuts[0][:, 1]
    assert -np.diff(folds) == pytest.approx([square] * (len(folds) - 1), abs=1e-9)
    for high, low in pairwise(folds):  # the fold lines are where the end line bends
        assert any(abs(line[0, 1] - low) < 1e-9 for line in lines_of(plate, "hidden")), (high, low)
    # seen from outside, foot to the left, a face's own right hand lies down the sheet
    names = names_down(plate, folds)
    firsts = [normal for name, normal in faces if name == names[0][0]]
    assert firsts, names
    for normal in firsts:  # two faces may bear one name: either may come first
        if all(
            face_fits(made, faces, names, normal, up, cut, mark, square) for cut, mark in zip(cuts, marks, strict=True)
        ):
            break
    else:
        raise AssertionError((names, cuts, marks))
    if len(marks) == 2 and len(lines_of(plate, "thin")) == 1:
        assert marks[1] - marks[0] == pytest.approx(float(leg.height) / -made.down[2], rel=1e-9)


def face_fits(made, faces, names, normal, up, cut, mark, square):
    for i, (start, end) in enumerate(pairwise(cut)):
        right = np.cross(up, normal)
        line = np.cross(normal, UP)  # where a level plane meets the face
        slope = (line @ up) / (line @ right)
        named = [name for name, direction in faces if np.allclose(direction, normal)]
        if set(names[i]) != set(named):
            return False
        if abs((end[0] - start[0]) - slope * square) > 1e-9 * square:
            return False
        # the edge on the left of the face, down the axis from where the floor meets the axis
        edge = square / 2 * (normal - right)
        past = edge @ UP / (up @ UP)
        if abs((mark - start[0]) - past) > 1e-9 * square:
            return False
        normal = right
    return True


LEANS = [
    ((8, 6), (0, 6)),
    ((0, 0), (0, 9)),
    ((-12, 20), (3, -5)),
    ((-4, -7), (7, 0)),
    ((30, 0), (30, 30)),
    ((20, 28), None),
]


@pytest.mark.parametrize("orientation", ORIENTATIONS)
@pytest.mark.parametrize(("front", "rear"), LEANS)
@pytest.mark.parametrize("square", ["30", "48", "60"])
def test_the_pencil_lines_are_where_the_floor_meets_the_faces(orientation, front, rear, square):
    piece = chest(front, rear, square, "151", orientation)
    plates = strips(piece)
    assert plates
    for plate in plates:
        check_geometry(piece, plate, orientation)


@pytest.mark.parametrize("height", ["80", "400", "700"])
@pytest.mark.parametrize("square", ["30", "45.5", "75"])
def test_short_and_long_legs_keep_their_ends_at_full_size(height, square):
    piece = chest((12, 9), (3, -2), square, height)
    for plate in strips(piece):
        check_geometry(piece, plate, "untwisted")
        heading = " ".join(words_of(plate)[:6])
        if height == "700":  # tan 12 = .212557, tan 9 = .158384: 700 x 1.034607 = 724.2; 3 and -2: 701.4
            assert ("724.2" in heading) != ("701.4" in heading)
            assert "For the top slide the strip up by" in heading
        assert len(lines_of(plate, "cut")) == (2 if height == "80" else 1)


@pytest.mark.parametrize("name", ["stool_three_legs", "stool_four_legs"])
@pytest.mark.parametrize("pitch", [0, 8])
def test_a_leg_under_a_seat_has_its_foot_only(name, pitch):
    piece = stool(name, pitch)
    for plate in strips(piece):
        check_geometry(piece, plate, "untwisted")
        assert "the top goes into the seat" in " ".join(words_of(plate))


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_going_round_the_line_ends_where_it_began(orientation):
    for plate in strips(chest((17, 11), (5, -9), "40", "300", orientation)):
        for cut in lines_of(plate, "cut"):
            assert len(cut) == 5
            assert cut[0, 0] == pytest.approx(cut[-1, 0], abs=1e-9)
            # both diagonals of a section cut level cross at the axis
            assert cut[0, 0] + cut[2, 0] == pytest.approx(cut[1, 0] + cut[3, 0], abs=1e-9)


def test_two_sheets_of_a_thick_leg_join_where_they_say():
    for front in ((8, 6), (-12, 20)):
        first, second = strips(chest(front, (0, 6), "75", "151"))[:2]
        reach = {}
        for plate in (first, second):
            foot, mark = lines_of(plate, "cut")[0], lines_of(plate, "centre")[0][0, 0]
            letters = sorted((m.at[1], m.words) for m in plate.items if isinstance(m, Text) and m.words in ("A", "B"))
            assert len(letters) == 2
            reach[plate.name] = [(letters[-1][1], foot[0, 0] - mark), (letters[0][1], foot[-1, 0] - mark)]
        one, other = reach.values()
        assert [letter for letter, _ in one] == [letter for letter, _ in reversed(other)]
        assert [at for _, at in one] == pytest.approx([at for _, at in reversed(other)], abs=1e-9)
        assert "Join to sheet 2: A to A, B to B." in words_of(first)[1]
        assert "Join to sheet 1: A to A, B to B." in words_of(second)[1]


def test_either_hand_has_its_strip_and_the_other_is_its_mirror_image():
    left, right = strips(chest((8, 6), (0, 6)))[:2]
    assert words_of(left)[0].startswith("Front left:")
    assert words_of(right)[0].startswith("Front right:")
    for one, other in zip(lines_of(left, "cut"), lines_of(right, "cut"), strict=True):
        assert one[:, 0] == pytest.approx(other[::-1, 0], abs=1e-9)
        assert not np.allclose(one[:, 0], other[:, 0])


def test_the_sheets_are_counted_by_lean_hand_and_thickness():
    assert count_of(chest((8, 6), (0, 6))) == 4  # two leans, two hands
    assert count_of(chest((8, 6))) == 2  # one lean: front left goes with rear right
    assert count_of(chest((8, 6), (0, 6), "60")) == 8  # two sheets for each
    assert count_of(chest((8, 6), (0, 6), "40", "151", "sightline")) == 2  # no hand
    assert count_of(chest((58, 0), None, "75")) == 4  # 75 x tan 58 = 120 at the foot: all of it on 184 of paper
    assert count_of(chest((67, 0), None, "75")) == 0  # 75 x tan 67 = 177, and 11.5 of waste and wood
    for name in ("stool_three_legs", "stool_four_legs"):
        turned = read_piece(BARE / f"{name}.yaml")
        assert count_of(turned) == 0
        with pytest.raises(DesignError, match=r"There is no strip 1: .* has 0\. Only square legs"):
            strip_plate(turned)
    with pytest.raises(DesignError, match="There is no strip 5: Chest has 4"):
        strip_plate(chest((8, 6), (0, 6)), number=5)


def test_what_falls_off_is_hatched_and_reaches_from_the_line_outward():
    for plate in strips(chest((8, 6), (0, 6))):
        foot, top = lines_of(plate, "cut")
        hatched = [np.array(item.points) for item in plate.items if isinstance(item, Fill) and item.hatch]
        assert len(hatched) == 2
        for line, waste, outward in ((foot, hatched[0], -1), (top, hatched[1], 1)):
            assert waste[: len(line)] == pytest.approx(line)
            assert (outward * (waste[len(line) :, 0] - line[:, 0].mean()) > 0).all()


def test_the_strip_says_what_it_belongs_to_and_how_to_use_it():
    words = " ".join(words_of(strip_plate(chest((8, 6), (0, 6)))))
    for part in (
        "Front left",
        "Chest",
        "untwisted",
        "Print at 100 %: measure the bar first.",
        "Cut out",
        "Wrap round the square",
        "outer corner at the arrow",
        "outer corner, up",
        "153.3",
        "falls off",
        "Mitre gauge or fence, not both",
        "8° off square",
        "6° off square",
    ):
        assert part in words
    assert "on rear legs read back for front" not in words
    assert "on rear legs read back for front" in words_of(strip_plate(chest((8, 6))))


# On paper


PAPER_PIECES = {
    "demo": lambda: read_piece(BARE / "landing_chest.yaml"),
    "demo, inch": lambda: read_piece(BARE / "landing_chest_inch.yaml"),
    "square": lambda: square_demo("landing_chest"),
    "square, inch": lambda: square_demo("landing_chest_inch"),
    "thirty": lambda: chest((8, 6), (-2, 9), "30", "400"),
    "thirty, short and steep": lambda: chest((30, 30), (20, -25), "30", "80", "side_level"),
    "thick": lambda: chest((12, -30), (3, 3), "75", "80", "front_level"),
    "thick and long": lambda: chest((30, 20), (1, 0), "75", "700"),
    "sight line": lambda: chest((8, 6), (0, 30), "52", "300", "sightline"),
    "corner foremost": lambda: chest((28, 6), (0, 6), "44", "120", "sightline_corner"),
    "plumb": lambda: chest((0, 0)),
    "inch, thick": lambda: chest((8, 6), (0, 6), "2 1/2", "12", "untwisted", INCH),
    "small": lambda: chest((8, 6), (0, 6), "8", "15"),
    "stool": lambda: stool("stool_three_legs", 5, 38),
}
STRAINED = ("square, inch", "thirty, short and steep", "thick", "sight line", "corner foremost", "plumb", "small")


@pytest.mark.parametrize("name", first_of(PAPER_PIECES, *STRAINED))
def test_words_stand_clear_of_one_another_and_of_lines_on_a_sheet_that_fits(name):
    piece = PAPER_PIECES[name]()
    for plate in strips(piece):
        assert plate.size_mm[0] <= PLATE_MM[0] + 0.01
        assert plate.size_mm[1] <= PLATE_MM[1] + 0.01
        found = rooms_of(plate)
        assert clashes(found) == []
        assert struck(plate, found) == []
        assert outside(found, *plate.size_mm) == []
        assert plate.spoken.endswith(".")
        assert len(plate.caption.splitlines()) == 2
        for paper in PAPER_MM:
            assert sheet(plate, title_of(piece, plate, 1, 1), paper).size_mm == pytest.approx(PAPER_MM[paper])


# in one piece and joined of two; the rest are slow, and run in CI
PRINTED = [("square", 48.0, "A4"), ("thick", 75.0, "A4")]
CROSSED = [
    ("square", 48.0, "letter"),
    ("square, inch", 1.875 * 25.4, "letter"),
    ("square, inch", 1.875 * 25.4, "A4"),
    ("thick", 75.0, "letter"),
]


@pytest.mark.parametrize(
    ("name", "square_mm", "paper"),
    [*PRINTED, *(pytest.param(*case, marks=pytest.mark.slow) for case in CROSSED)],
)
def test_the_printed_strip_is_true_to_a_ruler(name, square_mm, paper, tmp_path):
    piece = PAPER_PIECES[name]()
    plates = strips(piece)
    sheets = [sheet(plate, title_of(piece, plate, i, len(plates)), paper) for i, plate in enumerate(plates, 1)]
    reader = pypdf.PdfReader(save_pdf_pages(sheets, tmp_path / "strips.pdf"))
    assert len(reader.pages) == len(plates) == (8 if name == "thick" else 4)
    unit_mm = 25.4 if piece.design.unit == "in" else 1.0
    for plate, printed in zip(plates, reader.pages, strict=True):
        page = Page(printed, reader)
        left, right, _ = page.bar_under("100 mm")
        assert right - left == pytest.approx(100.0, abs=0.05)
        assert "Scale 1 : 1, full size" in page.text()
        leg = drawn_for(piece, plate)
        made, _ = faces_of(leg, leg.end_cut.orientation)
        corners = 3 if name == "thick" else 5
        bent = [
            path
            for path in page.paths
            if len(path) == corners and np.allclose(np.abs(np.diff(path[:, 1])), square_mm, atol=0.05)
        ]
        assert len(bent) == 2  # the lines at foot and top
        for path in bent:
            assert np.abs(np.diff(path[:, 1])) == pytest.approx([square_mm] * (corners - 1), abs=0.05)
        folds = sorted({round(y, 2) for x0, x1, y in page.level_lines() if x1 - x0 > 40 and y > 45})
        steps = np.diff([y for y in folds if min(abs(y - bent[0][:, 1])) < 0.05])
        assert steps == pytest.approx([square_mm] * len(steps), abs=0.05)
        marks = sorted(
            path[0, 0]
            for path in page.paths
            if len(path) == 2
            and abs(path[0, 0] - path[1, 0]) < 1e-6
            and abs(np.ptp(path[:, 1]) - (corners - 1) * square_mm) < 0.05
        )
        if name == "square":
            assert marks[-1] - marks[0] == pytest.approx(float(leg.height) * unit_mm / -made.down[2], abs=0.05)
        ends = zip(sorted(bent, key=lambda path: path[:, 0].mean()), (marks[0], marks[-1]), strict=True)
        edges = [abs(made.past_the_axis(square_mm / 2, side * square_mm / 2)) for side in (1, -1)]
        for path, mark in ends:
            assert max(abs(path[:, 0] - mark)) == pytest.approx(max(edges), abs=0.05)


def test_the_100_mm_bar_and_the_strip_share_one_scale():
    """Full size means one unit of the piece is one unit on paper, whatever else is asked for by default."""
    for name, scale in (("landing_chest", 1.0), ("landing_chest_inch", 25.4)):
        piece = read_piece(BARE / f"{name}.yaml")
        assert {plate.scale for plate in strips(piece)} == {scale}
        assert math.isclose(strip_plate(piece, scale=scale / 2).scale, scale / 2)
