"""Faces, edges and arrises of boards, against the triangles of boxes made by trimesh; finish and film by the can.

A mesh knows no length, width or thickness: its faces are the triangles that look up and down, its arrises the
places where two triangles meet at an angle.
"""

from __future__ import annotations

import numpy as np
import pytest
import sympy
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.teach.derive.finish import derive_finish
from furnlib.trade.wood.finish import arrises, edges_area, faces_area, film_thickness, finish_needed

few = settings(deadline=None, derandomize=True, max_examples=25)
size = st.floats(0.5, 3000)
BOARDS = [(480.0, 103.0, 20.0), (354.0, 80.0, 12.0), (1149.0, 380.0, 20.0), (14.0, 3.0, 0.5), (7.0, 7.0, 7.0)]


@pytest.mark.parametrize("claim", derive_finish().claims, ids=lambda claim: claim.key)
def test_running_less_derived_is_nothing_at_all(claim):
    assert claim.difference == sympy.Integer(0)


def measured(board):
    """Area that looks up or down, area that looks along or across, and the length of all sharp edges, of a mesh."""
    mesh = trimesh.creation.box(board)
    flat = np.abs(mesh.face_normals[:, 2]) > 0.5
    sharp = mesh.vertices[mesh.face_adjacency_edges[mesh.face_adjacency_angles > 0.1]]
    length = np.linalg.norm(sharp[:, 0] - sharp[:, 1], axis=1)
    return mesh.area_faces[flat].sum(), mesh.area_faces[~flat].sum(), length, sharp


@pytest.mark.parametrize("board", BOARDS)
def test_a_board_free_all_round_is_a_box(board):
    faces, edges, length, _ = measured(board)
    assert faces_area(*board[:2]) == pytest.approx(faces, rel=1e-9)
    assert edges_area(*board) == pytest.approx(edges, rel=1e-9)
    assert len(length) == 12
    assert arrises(*board) == pytest.approx(length.sum(), rel=1e-9)


@pytest.mark.parametrize("board", BOARDS)
def test_of_a_board_in_joints_only_what_runs_along_it_is_left(board):
    _, edges, length, sharp = measured(board)
    along = np.abs(sharp[:, 0] - sharp[:, 1])[:, 0] > 0
    assert edges_area(board[0], 0, board[2]) == pytest.approx(edges - 2 * board[1] * board[2], rel=1e-9)
    assert arrises(board[0], 0, 0) == pytest.approx(length[along].sum(), rel=1e-9)


@few
@given(size, size, size, st.floats(0.1, 0.9))
def test_a_board_sawn_in_two_gains_two_ends(length, width, thickness, share):
    cut = (length * share, length * (1 - share))
    assert sum(faces_area(part, width) for part in cut) == pytest.approx(faces_area(length, width))
    more = sum(edges_area(part, width, thickness) for part in cut) - edges_area(length, width, thickness)
    assert more == pytest.approx(2 * width * thickness, abs=1e-9 * (length + width) * thickness)
    sharper = sum(arrises(part, width, thickness) for part in cut) - arrises(length, width, thickness)
    assert sharper == pytest.approx(4 * (width + thickness), abs=1e-9 * (length + width + thickness))


@few
@given(size, size, size, st.floats(0.01, 100))
def test_areas_grow_with_the_square_and_arrises_with_the_scale(length, width, thickness, scale):
    large = (length * scale, width * scale, thickness * scale)
    assert faces_area(*large[:2]) == pytest.approx(scale**2 * faces_area(length, width))
    assert edges_area(*large) == pytest.approx(scale**2 * edges_area(length, width, thickness))
    assert arrises(*large) == pytest.approx(scale * arrises(length, width, thickness))


def test_a_can_is_emptied_square_by_square():
    # a square metre at a time, coat by coat, each taking an eleventh of a litre
    left = 10.0
    for _ in range(3):
        for _ in range(7):
            left -= 1 / 11
    assert finish_needed(7.0, 3, 11.0) == pytest.approx(10.0 - left)


def test_a_film_is_the_can_poured_out_over_the_boards():
    # 0.75 l over 3 m² in two coats, half of it air by tomorrow: 750 000 mm³ on 3 000 000 mm², halved
    coverage = 2 * 3 / 0.75
    assert film_thickness(2, coverage, 0.5) == pytest.approx(750_000 / 3_000_000 / 2)
    assert film_thickness(2, coverage, 0) == 0


def test_arrays_give_arrays_and_one_board_a_float():
    boards = np.array(BOARDS).T
    for of, given_ in ((faces_area, boards[:2]), (edges_area, boards), (arrises, boards)):
        assert of(*given_) == pytest.approx([of(*board[: len(given_)]) for board in BOARDS])
        assert isinstance(of(*BOARDS[0][: len(given_)]), float)
