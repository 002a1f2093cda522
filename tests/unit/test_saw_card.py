"""The saw card: its angles, its pictures and the words for swing and tilt, against a leg laid on a table.

The leg stands in the room as in `test_orientations` and is then turned, with numpy, face down on the
saw with its foot to the left; what is far, near, below and longer is read off there.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from pictures import BARE, first_of
from strained import INCH
from test_orientations import UP
from test_plates import clashes, outside, rooms_of, struck
from test_strip import chest, faces_of, lines_of, stool, words_of

from furnlib.base.guards import DesignError
from furnlib.base.units import write_angle
from furnlib.draw.drawing import Text
from furnlib.draw.plates.saw_card import SAW_CARD, saw_card_plate
from furnlib.draw.scale import PLATE_MM
from furnlib.draw.sheet import PAPER_MM, sheet
from furnlib.plan.piece import read_piece
from furnlib.plan.sizes.legs import mirror_groups
from furnlib.record.stamp import title_of
from furnlib.trade.leg.end_cut import ORIENTATIONS

CHEST = BARE / "landing_chest.yaml"


class OnTable:
    """A leg on the table of a saw: x up the leg from its foot at the left, y away, z up."""

    def __init__(self, made, face, across):
        """Face down, and the direction of its outer edge."""
        self.made = made
        right, up_from_table = -made.down, -face
        away = np.cross(up_from_table, right)
        self.turn = np.array([right, away, up_from_table])
        self.floor = self.turn @ UP
        self.outer_is_far = (self.turn @ across)[1] > 0

    def reach(self, y, z):
        """How far to the left of the axis the floor's plane meets a line along the leg."""
        return (self.floor[1] * y + self.floor[2] * z) / self.floor[0]

    def outer_edge_lead(self):
        """How much further the cut leaves the outer edge of the face on the table, for a leg 2 thick."""
        out = 1 if self.outer_is_far else -1
        return self.reach(out, -1) - self.reach(-out, -1)

    def lower_face_lead(self):
        """How much further it leaves the face on the table than the one on top."""
        return self.reach(0, -1) - self.reach(0, 1)

    def mitre_deg(self):
        """The far end of the cut line on the table: above 0 towards the foot."""
        return math.degrees(math.atan2(self.reach(1, -1) - self.reach(-1, -1), 2))

    def tilt_deg(self):
        """The blade in the plane square to the cut line: above 0 over the leg, to the right."""
        line = np.cross(self.floor, [0, 0, 1])
        normal = np.cross(line, self.floor)  # up the blade, square to the line on the table
        normal *= np.sign(normal[2])
        level = np.array([self.floor[0], self.floor[1]]) * np.sign(self.floor[0])
        return math.degrees(math.atan2(normal[:2] @ level / np.linalg.norm(level), normal[2]))


def settings_of(leg, orientation):
    """The leg with its outward fore-and-aft face on the table, then with its outer side."""
    made, _ = faces_of(leg, orientation)
    return OnTable(made, made.front, made.side), OnTable(made, made.side, made.front)


def cards(piece):
    return [saw_card_plate(piece, number=number) for number in range(1, len(SAW_CARD.sheets(piece)) + 1)]


def panels(piece):
    """For each face on the table of each lean: the leg, its place on the table, and the three lines of words."""
    words = [line for card in cards(piece) for line in words_of(card)]
    starts = [i for i, line in enumerate(words) if line.startswith("Foot end: ")]
    orientation = piece.legs[0].end_cut.orientation
    legs = [group[0] for group in mirror_groups(piece.legs)]
    expected = [(leg, table) for leg in legs for table in settings_of(leg, orientation)]
    for (leg, table), start in zip(expected, starts, strict=True):
        yield leg, table, words[start : start + 3]


def expected_words(table):
    mitre, tilt = table.mitre_deg(), table.tilt_deg()
    edge = "outer" if table.outer_edge_lead() > 0 else "inner"
    swing = f"swing so that the {edge} edge is left longer;" if abs(mitre) >= 0.05 else "square across;"
    if abs(tilt) < 0.05:
        return [f"Foot end: {swing}", "blade upright.", ""]
    longer, over = ("longer", "leg") if table.lower_face_lead() > 0 else ("shorter", "off-cut")
    assert (tilt > 0) == (over == "leg")
    return [
        f"Foot end: {swing}",
        f"tilt so that the face on the table is left {longer}",
        f"(the blade leans over the {over}).",
    ]


PIECES = {
    **{
        f"{orientation}, {front}, {rear}": (front, rear, orientation)
        for orientation in ORIENTATIONS
        for front, rear in (((8, 6), (0, 6)), ((-12, 20), (3, -5)), ((-9, -4), (20, 28)), ((0, 0), (25, 0)))
    }
}
every_way = pytest.mark.parametrize(("front", "rear", "orientation"), PIECES.values(), ids=PIECES)


@every_way
def test_swing_and_tilt_in_words_are_those_of_the_leg_on_the_table(front, rear, orientation):
    for leg, table, words in panels(chest(front, rear, "48", "151", orientation)):
        assert words[: 2 + bool(expected_words(table)[2])] == [w for w in expected_words(table) if w], leg.position


@every_way
def test_the_pictures_are_true_to_mitre_tilt_and_way(front, rear, orientation):
    piece = chest(front, rear, "48", "151", orientation)
    (card,) = cards(piece)
    cuts = [np.array([line[0], line[-1]]) for line in lines_of(card, "cut")]
    found = list(panels(piece))
    assert len(cuts) == 3 * len(found)
    edges = {
        (round(mark.at[0], 6), round(mark.at[1], 6)): mark.words
        for mark in card.marks()
        if isinstance(mark, Text) and mark.words in ("outer edge", "inner edge")
    }
    for (_, table, _), top, foot, blade in zip(found, cuts[::3], cuts[1::3], cuts[2::3], strict=True):
        for near, far in (top, foot):  # foot to the left: the longer edge reaches further left
            assert far[1] - near[1] == pytest.approx(48)
            assert math.degrees(math.atan2(near[0] - far[0], 48)) == pytest.approx(table.mitre_deg(), abs=1e-9)
        below, above = blade
        lean = math.degrees(math.atan2(above[0] - below[0], above[1] - below[1]))
        assert lean == pytest.approx(table.tilt_deg(), abs=1e-9)
        named = {
            y > foot[0][1]: words
            for (x, y), words in edges.items()
            if foot[0][0] - 20 / card.scale < x < blade[0][0]
            and -6 < (y - foot[0][1]) * card.scale < 48 * card.scale + 6
        }
        if abs(table.mitre_deg()) >= 0.05:
            assert named == {table.outer_is_far: "outer edge", not table.outer_is_far: "inner edge"}
        else:
            assert named == {}


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_the_opposite_face_and_the_other_hand_go_as_the_card_says(orientation):
    """Opposite face down: both the other way. Other hand: the swing the other way, the blade the same."""
    words = words_of(saw_card_plate(chest((12, 9), (-7, 16), "48", "151", orientation)))
    said = [line for line in words if line.startswith("Opposite face down:")]
    assert said == [
        "Opposite face down: swing and blade both go the other way;"
        " the edge on the same side of the leg stays the longer."
    ]
    other_hand = [line for line in words if line.startswith("The other hand is the mirror image:")]
    assert len(other_hand) == (0 if orientation.startswith("sightline") else 1)
    for leg in chest((12, 9), (-7, 16), "48", "151", orientation).legs:
        made, _ = faces_of(leg, orientation)
        for face, across in ((made.front, made.side), (made.side, made.front)):
            one, opposite = OnTable(made, face, across), OnTable(made, -face, across)
            assert opposite.mitre_deg() == pytest.approx(-one.mitre_deg(), abs=1e-9)
            assert opposite.tilt_deg() == pytest.approx(-one.tilt_deg(), abs=1e-9)
            assert opposite.outer_edge_lead() == pytest.approx(one.outer_edge_lead(), abs=1e-9)
            mirrored = made.mirrored(1, -1)
            turned = (mirrored.front, mirrored.side) if face is made.front else (mirrored.side, mirrored.front)
            other = OnTable(mirrored, *turned)
            assert other.mitre_deg() == pytest.approx(-one.mitre_deg(), abs=1e-9)
            assert other.tilt_deg() == pytest.approx(one.tilt_deg(), abs=1e-9)
            assert other.outer_edge_lead() == pytest.approx(one.outer_edge_lead(), abs=1e-9)


def test_both_ends_are_sawn_with_the_leg_slid_along_and_not_turned():
    assert any(
        "slide the leg along, do not turn it end for end" in line for line in words_of(saw_card_plate(chest((8, 6))))
    )
    # turned end for end about the upright, x and y change sign: the same plane only where both angles are 0
    table, _ = settings_of(chest((8, 6)).legs[0], "untwisted")
    turned = table.floor * np.array([-1, -1, 1])
    assert np.linalg.norm(np.cross(turned, table.floor)) > 0.1


def test_the_four_legs_of_the_landing_chest():
    # front legs: rake 8, splay 6. The front face's line runs 6 off square, the side's 8. The foot stands
    # out to the front and to the side, so the outer edge and both outer faces are the longer. Tilts are
    # asin(sin R cos S) and asin(sin R sin S); tan R = sqrt(.140541² + .105104²): R = 9.954, S = 36.79
    piece = read_piece(CHEST)
    found = [words for _, _, words in panels(piece)]
    both = [
        "Foot end: swing so that the outer edge is left longer;",
        "tilt so that the face on the table is left longer",
        "(the blade leans over the leg).",
    ]
    assert found[0] == found[1] == both
    # rear legs: splay 6 alone. Back face down: swing only; side face down: tilt only
    assert found[2][:2] == [both[0], "blade upright."]
    assert found[3] == ["Foot end: square across;", *both[1:]]
    words = words_of(saw_card_plate(piece))
    for part in ("Front face on the table", "Outer side face on the table", "Back face on the table"):
        assert part in words
    bold = [m.words for m in saw_card_plate(piece).marks() if isinstance(m, Text) and m.bold and "°" in m.words]
    sine = math.sin(math.radians(9.954))
    assert bold == [
        "Mitre 6°", f"Tilt {math.degrees(math.asin(sine * math.cos(math.radians(36.79)))):.0f}°",
        "Mitre 8°", f"Tilt {math.degrees(math.asin(sine * math.sin(math.radians(36.79)))):.1f}°",
        "Mitre 6°", "Tilt 0°", "Mitre 0°", "Tilt 6°",
    ]  # fmt: skip


def test_runs_to_set_a_bevel_gauge_stand_beside_the_angles():
    # tan 6 = .105104 and tan 8 = .140541: in 100 mm 10.5 and 14.1; 1.405 in 10 in is 1 13/32
    words = words_of(saw_card_plate(read_piece(CHEST)))
    assert "10.5 on 100; from above" in words
    assert "14.1 on 100; from above" in words
    inch = words_of(saw_card_plate(read_piece(BARE / "landing_chest_inch.yaml")))
    assert "1 ¹³⁄₃₂ on 10; from above" in inch
    assert "square across; from above" in words
    assert "blade upright; along the cut" in words


def test_the_level_end_is_told_against_a_square_pad():
    # sin e = sin 8 sin 6 = .014548, e = 0.83, half of it at either edge
    words = " ".join(words_of(saw_card_plate(read_piece(CHEST))))
    assert "level end's corner is 0.83° sharper than square, its front edge swings 0.42° out, its side edge" in words
    assert "level end's corner is square." in words
    # one outward, one inward: the outer corner is the blunter
    assert "blunter than square" in " ".join(words_of(saw_card_plate(chest((8, -6)))))
    # front level: the front edge keeps the room's line, the whole corner is in the side edge
    (line,) = {
        line
        for line in words_of(saw_card_plate(chest((8, 6), None, "48", "151", "front_level")))
        if line.startswith("Under a square pad")
    }
    assert "than square, its side edge swings 0.8" in line


@pytest.mark.parametrize(
    ("orientation", "meaning"),
    [
        ("untwisted", "Untwisted: a plumb square leg leaned over"),
        ("front_level", "Front level: turned so that the level lines of its front and back faces"),
        ("side_level", "Side level: turned so that the level lines of its side faces"),
        ("sightline", "On the sight line: two upright faces stand plumb along the lean"),
        ("sightline_corner", "Corner foremost: turned so that the outer corner points the way the leg leans"),
    ],
)
def test_the_orientation_is_named_and_its_meaning_said(orientation, meaning):
    words = words_of(saw_card_plate(chest((8, 6), None, "48", "151", orientation)))
    assert any(line.startswith(meaning) for line in words)


def test_the_leg_that_is_drawn_is_named_and_its_other_hand_told():
    words = words_of(saw_card_plate(read_piece(CHEST)))
    for position in ("front left", "rear left"):
        assert f"same settings, opposite hand; drawn for the {position} leg" in words
    joined = " ".join(words)
    assert "The other hand is the mirror image" in joined
    assert "share their settings, read back for front on the rear ones." in joined
    straight = words_of(saw_card_plate(chest((8, 6), (0, 6), "48", "151", "sightline")))
    assert "all alike, drawn for the front left leg" in straight
    assert any("a leg has no hand" in line for line in straight)
    assert not any("opposite hand" in line for line in straight)


def test_lengths_are_those_of_the_axis_and_the_least_blank():
    # 151 x sqrt(1 + .140541² + .105104²) = 153.31; + 48 x .245645 = 165.10, never written shorter
    words = words_of(saw_card_plate(chest((8, 6), (0, 6))))
    assert "Axis 153.3 from end to end. Least blank 48 square, 165.1 long, and waste." in words


@pytest.mark.parametrize("pitch", [0, 8])
@pytest.mark.parametrize("name", ["stool_three_legs", "stool_four_legs"])
def test_under_a_seat_only_the_foot_is_sawn(name, pitch):
    piece = stool(name, pitch)
    for card in cards(piece):
        words = words_of(card)
        assert "Only the foot is sawn level; the top goes into the seat." in words
        assert not any("Least blank" in line or "Both ends" in line for line in words)
        assert "top" not in words
        assert len(lines_of(card, "cut")) == 2 * words.count("foot")
    for _, table, words in panels(piece):
        assert words[:2] == expected_words(table)[:2]


def test_turned_legs_have_no_saw_card():
    with pytest.raises(DesignError, match=r"has no saw card 1, it has 0: its legs are turned, and a cradle"):
        saw_card_plate(read_piece(BARE / "stool_four_legs.yaml"))


def test_angles_too_small_to_set_are_told_as_none():
    words = " ".join(words_of(saw_card_plate(chest((0.04, 9), (9, 0.02)))))
    assert write_angle(0.04) == "0°"
    assert "square across" in words
    assert "blade upright" in words
    assert "0 on 100" not in words


PAPER_PIECES = {
    **{f"{way}, steep": lambda way=way: chest((30, 30), (20, -25), "48", "300", way) for way in ORIENTATIONS},
    "thirty": lambda: chest((8, 6), (-2, 9), "30", "80"),
    "thick": lambda: chest((12, -30), (3, 3), "75", "80"),
    "long": lambda: chest((30, 20), (1, 0), "75", "700"),
    "one lean": lambda: chest((8, 6)),
    "one lean, thirty": lambda: chest((14, 14), None, "30", "700"),
    "one lean, steep": lambda: chest((-20, 30), None, "60", "200", "side_level"),
    "plumb": lambda: chest((0, 0)),
    "inch": lambda: chest((8, 6), (0, 6), "2 1/2", "12", "untwisted", INCH),
    "small": lambda: chest((8, 6), (0, 6), "8", "15"),
    "stool": lambda: stool("stool_three_legs", 5, 38),
    "stool, four": lambda: stool("stool_four_legs", 8, 30),
}  # fmt: skip


@pytest.mark.parametrize(
    "name",
    first_of(PAPER_PIECES, "untwisted, steep", "sightline_corner, steep", "thirty", "thick", "plumb", "inch", "stool"),
)
def test_words_stand_clear_of_one_another_and_of_lines_on_a_sheet_that_fits(name):
    piece = PAPER_PIECES[name]()
    for card in cards(piece):
        assert card.size_mm[0] <= PLATE_MM[0] + 0.01
        assert card.size_mm[1] <= PLATE_MM[1] + 0.01
        found = rooms_of(card)
        assert clashes(found) == []
        assert struck(card, found) == []
        assert outside(found, *card.size_mm) == []
        assert len(card.caption.splitlines()) == 2
        for paper in PAPER_MM:
            assert sheet(card, title_of(piece, card, 1, 1), paper).size_mm == pytest.approx(PAPER_MM[paper])


def test_the_legs_are_drawn_to_the_scale_of_the_card():
    piece = read_piece(CHEST)
    assert saw_card_plate(piece).scale == pytest.approx(0.5)  # 48 in 24 mm of room
    assert saw_card_plate(piece, scale=0.2).scale == pytest.approx(0.2)
    squares = [abs(b[1] - a[1]) for a, b in (pairwise(lines_of(saw_card_plate(piece), "cut")[0]))]
    assert squares == pytest.approx([48.0])
