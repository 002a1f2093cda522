"""What there is to finish on a piece: every board listed by hand, its box made by trimesh and measured.

The drawers' own sizes are tested elsewhere; here they are laid out as boards. Those of the case are written down
from the design file with a pencil.
"""

from __future__ import annotations

import re
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest
import trimesh
from chest_of_drawers import SOUND, hear, made, slips
from faults import edited

from furnlib.plan.design import read_design
from furnlib.plan.piece import read_piece
from furnlib.plan.twin import twin_of

DESIGNS = Path(__file__).parents[2] / "notebooks/designs"
ROLES = "  roles: [front, case, side, bottom]"
FINISH = f"finish:\n  coats: 2\n  coverage: 10\n{ROLES}\n  solids: 0\n"
WHOLE = SOUND + FINISH
# the landing chest: 1149 high without its legs, 480 x 1109 clear inside, 370 deep before its back, whose 5 boards go
# 10 into their rebates all round; row 1 has an upright between its two drawers, in an opening of 83
CASE = [
    (2, 1149, 380, 20),
    (2, 480, 380, 20),
    (6, 480, 370, 18),
    (1, 83, 370, 18),
    (5, 1129, 100, 10),
]
BOX = """piece: Box
unit: {unit}
grid: {grid}
overall: {{height: 609.6 mm, width: 762 mm, depth: 304.8 mm}}
case: {{side: 19.05 mm, top: 19.05 mm, bottom: 19.05 mm, divider: 19.05 mm, partition: 25.4 mm, bays: [{{}}, {{}}]}}
rows: {{number: 3, rule: equal, split: {{2: 2}}}}
finish: {{coats: 2, coverage: {coverage}, roles: [case], solids: 0.4}}
"""


def measured(boards, free):
    """Faces, edges and arrises of boxes, the ends' left out where they are not free."""
    faces, edges, sharp = 0.0, 0.0, 0.0
    for count, *board in boards:
        mesh = trimesh.creation.box([float(size) for size in board])
        up, end = np.abs(mesh.face_normals[:, 2]) > 0.5, np.abs(mesh.face_normals[:, 0]) > 0.5
        faces += count * mesh.area_faces[up].sum()
        edges += count * mesh.area_faces[~up if free else ~up & ~end].sum()
        lines = mesh.vertices[mesh.face_adjacency_edges[mesh.face_adjacency_angles > 0.1]]
        steps = lines[:, 0] - lines[:, 1]
        sharp += count * np.linalg.norm(steps if free else steps[np.abs(steps[:, 0]) > 0], axis=1).sum()
    return faces, edges, sharp


def of_drawers(piece, *names):
    return [
        (drawer.count * part.count, part.length.value, part.width.value, part.thickness)
        for drawer in piece.drawers
        for part in drawer.parts
        if part.name in names
    ]


@pytest.fixture(scope="module")
def chest():
    return read_piece(DESIGNS / "landing_chest.yaml")


def test_every_board_of_the_landing_chest_is_measured(chest):
    wanted = {
        "fronts": (of_drawers(chest, "front"), True, 8),
        "case boards": (CASE, False, 16),
        "drawer sides and backs": (of_drawers(chest, "side", "back"), False, 24),
    }
    assert [boards.name for boards in chest.finish.boards] == [*wanted]
    area = 0.0
    for boards, (listed, free, count) in zip(chest.finish.boards, wanted.values(), strict=True):
        faces, edges, sharp = measured(listed, free)
        assert boards.count == count
        assert boards.faces.value == pytest.approx(faces / 1e6, rel=1e-9)
        assert boards.edges.value == pytest.approx(edges / 1e6, rel=1e-9)
        assert boards.arrises.value == pytest.approx(sharp / 1e3, rel=1e-9)
        area += (faces + edges) / 1e6
    assert chest.finish.all_coats.value == pytest.approx(3 * area / 12, rel=1e-9)
    assert chest.finish.film == 0  # an oil that soaks in


def test_every_size_says_its_rule_and_stands_among_those_of_the_piece(chest):
    rules = {size.name: size.rule for size in chest.finish.sizes}
    assert len(rules) == len(chest.finish.sizes) == 10
    assert set(chest.finish.sizes) <= set(chest.sizes)
    edges = "47.46 = 4 x (2 x 1149 + 8 x 480 + 83 + 5 x 1129) / 1000"
    assert rules["edges to break on case boards, m"] == edges
    assert re.fullmatch(r"[\d.]+ = 3 x \(([\d.]+ \+ ){5}[\d.]+\) / 12", rules["finish for all coats, litres"])


def test_bottoms_have_their_edges_in_grooves():
    piece = made(WHOLE)
    assert [boards.name for boards in piece.finish.boards][-1] == "drawer bottoms"
    bottoms = piece.finish.boards[-1]
    faces, *_ = measured(of_drawers(piece, "bottom"), free=False)
    assert bottoms.faces.value == pytest.approx(faces / 1e6, rel=1e-9)
    assert bottoms.edges is bottoms.arrises is None


def test_roles_are_added_up_once_and_in_one_order():
    names = {
        tuple(boards.name for boards in made(edited(WHOLE, ("front, case, side, bottom", roles))).finish.boards)
        for roles in ("case, front", "front, case", "front, front, case")
    }
    assert names == {("fronts", "case boards")}


def test_without_a_finish_nothing_is_said():
    piece = made(SOUND)
    assert piece.finish is None
    assert not [size for size in piece.sizes if size.formula.startswith("finish")]


def test_a_shop_that_works_in_inches_gets_square_feet_and_quarts():
    # definitions of 1959: an inch is 25.4 mm; a US quart is 57.75 cubic inches
    litres_a_quart, metres_a_foot = 57.75 * 0.254**3, 0.3048
    in_feet = 12 * litres_a_quart / metres_a_foot**2
    metric = made(BOX.format(unit="mm", grid="0.05", coverage=12)).finish
    inch = made(BOX.format(unit="in", grid="1/64", coverage=f"{in_feet:.9f}")).finish
    assert [size.name.rpartition(", ")[2] for size in inch.sizes] == ["ft²", "ft²", "ft", "US quarts"]
    one, other = metric.boards[0], inch.boards[0]
    assert one.count == other.count == 2 + 2 + 1 + 2 * 2 + 2 * 1  # sides, top and bottom, partition, dividers, uprights
    assert other.faces.value * metres_a_foot**2 == pytest.approx(one.faces.value)
    assert other.edges.value * metres_a_foot**2 == pytest.approx(one.edges.value)
    assert other.arrises.value * metres_a_foot == pytest.approx(one.arrises.value)
    assert inch.all_coats.value * litres_a_quart == pytest.approx(metric.all_coats.value)
    assert float(inch.film) * 25.4 == pytest.approx(float(metric.film)) == pytest.approx(2 * 0.4 / 12)


# The film on fronts against the room that their sums left for it: SOUND has 0.1 of it


THICK = ("solids: 0\n", "solids: 0.6\n")
OVER = (
    "    setback: 0\n    below: 1.5\n    least gap: 1.25\n",
    "    kind: overlay\n    overlay: 8\n    inner front: 12\n",
)


@pytest.mark.parametrize(
    ("edits", "heard"),
    [
        ([("solids: 0\n", "solids: 0.5\n")], False),  # 2 coats, half stays, 10 m² a litre: just 0.1
        ([THICK], True),
        ([THICK, (ROLES, "  roles: [case]")], False),
        ([THICK, ("    film: 0.1\n", "    film: 0.12\n")], False),
        ([THICK, OVER], False),  # no gap for it to close
    ],
)
def test_a_film_thicker_than_its_room_is_a_concern(edits, heard):
    concerns = [concern for concern in made(edited(WHOLE, *edits)).concerns if concern.code == "film"]
    assert bool(concerns) is heard
    for concern in concerns:
        assert concern.number == "a film of 0.12 on each surface of the fronts"
        assert "leaves room for 0.1," in concern.reason
        assert "write 'film: 0.12'" in concern.cures[0]


def test_what_the_cure_writes_is_enough():
    uneven = edited(WHOLE, ("coverage: 10\n", "coverage: 7\n"), ("solids: 0\n", "solids: 0.5\n"))  # a seventh
    (concern,) = [concern for concern in made(uneven).concerns if concern.code == "film"]
    film = concern.cures[0].split("'")[1].removeprefix("film: ")
    assert F(film) == F("0.143")
    cured = made(edited(uneven, ("    film: 0.1\n", f"    film: {film}\n")))
    assert not [concern for concern in cured.concerns if concern.code == "film"]


# written, in its place, the path, what is said


@slips(
    [
        ("  coats: 0", "  coats: 2", "finish, coats", "The number of coats is 0; it must be more than 0"),
        ("  coats: -1", "  coats: 2", "finish, coats", "The number of coats is -1; it must be more than 0"),
        ("  coats: 1.5", "  coats: 2", "finish, coats", "'1.5' is not a whole number"),
        ("  coverage: 0", "  coverage: 10", "finish, coverage", "The coverage is 0; it must be more than 0"),
        ("  coverage: thin", "  coverage: 10", "finish, coverage", "'thin' cannot be read as a number"),
        ("  solids: 1.1", "  solids: 0", "finish, solids", "it must lie from 0 to 1"),
        ("  solids: -0.1", "  solids: 0", "finish, solids", "it must lie from 0 to 1"),
        ("  roles: [lid]", ROLES, "finish, roles, 1", "'lid' is no role of a board"),
        ("  roles: []", ROLES, "finish, roles", "There are no boards to finish"),
        ("  roles: case", ROLES, "finish, roles", "a list should stand here"),
        ("  coats: 2\n  coat: 2", "  coats: 2", "finish", "there is no 'coat' here"),
        ("  coats: 2\n", "  coats: 2\n  coverage: 10\n", "finish", "'coverage' is missing", "finish:"),
    ]
)
def test_a_slip_in_the_finish(written, instead, path, said, place):
    hear(edited(WHOLE, (instead, written)), place, path, said)


def test_a_role_that_the_piece_has_not_yet():
    text = BOX.format(unit="mm", grid="0.05", coverage=12).replace("roles: [case]", "roles: [case, side]")
    hear(text, "finish:", "finish, roles", "There are no drawer sides and backs to finish; name roles", "[case]")


def test_a_twin_of_the_other_shop_takes_the_same_finish():
    # a US quart is 0.946352946 l, a foot 0.3048 m: 12 m² a litre are 122.2 ft² a quart
    there = twin_of(read_design(DESIGNS / "landing_chest.yaml"), F(1, 32))
    assert float(there.finish.coverage) == round(12 * 0.946352946 / 0.3048**2, 1) == 122.2
    assert (there.finish.coats, twin_of(there, F(1)).finish) == (3, read_design(DESIGNS / "landing_chest.yaml").finish)
