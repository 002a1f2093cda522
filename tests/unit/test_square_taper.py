"""Square tapered legs: the angle of a face, the jig that saws it, and the order of cuts.

The witness is a leg sawn in numbers: a square stick held by two stops, its wood cut away along the
blade's line, turned to the next face, until its foot is measured.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.teach.derive.square_taper import derive_square_taper
from furnlib.trade.leg.square_taper import TAPERED_FACES, jig_setting, square_taper, tan_face_taper

steady = settings(deadline=None, derandomize=True, max_examples=60)
legs = st.tuples(st.floats(20, 60), st.floats(0.3, 0.99), st.floats(300, 900), st.floats(0, 0.5))


def sawn(top, length, straight, cuts, far):
    """Where each face lies from the axis at the foot, after the stops have held the leg for every cut in turn.

    A face is its distance from the axis where the taper begins and at the foot. Both stops touch the
    face that lies against them; the blade runs through the line where the taper begins.
    """
    run = length - straight
    faces = {face: np.array([top / 2, top / 2]) for face in (1, 2, 3, 4)}
    for cut in cuts:
        begins, foot = faces[cut.against]
        far_out = begins + (foot - begins) * far / run
        near, touched = np.array([0.0, -begins]), np.array([far, -far_out])
        # the blade's direction: the far place is nearer to it by the setting, both measured square to it
        along, across = touched - near
        turn = math.asin(cut.jig_offset / math.hypot(along, across)) - math.atan2(across, along)
        faces[cut.face] = np.array([top / 2, top / 2 - run * math.tan(turn)])
    return {face: places[1] for face, places in faces.items()}


@steady
@given(legs, st.sampled_from(TAPERED_FACES), st.floats(0.2, 1))
def test_sawn_by_its_jig_the_foot_comes_out(leg, tapered_faces, share):
    top, part, length, straight = leg[0], leg[1], leg[2], leg[3] * leg[2]
    far = share * (length - straight)
    made = square_taper(top, part * top, length, straight, tapered_faces=tapered_faces, jig_length=far)
    at_foot = sawn(top, length, straight, made.cuts, far)
    assert at_foot[1] + at_foot[3] == pytest.approx(part * top)
    assert at_foot[2] + at_foot[4] == pytest.approx(part * top)
    tapered = {face for face, place in at_foot.items() if place < top / 2 - 1e-9}
    assert tapered == ({1, 2, 3, 4} if tapered_faces == "all four" else {1, 2})
    assert at_foot[1] == pytest.approx(top / 2 - made.taper)


def test_a_table_leg_by_hand():
    """44 to 20 in 720 with 120 straight, all four faces: 12 a face in 600, 2 in 100, atan 0.02 = 1.1458 degrees.

    The stop at the foot stands 600 sin 1.1458 = 11.9976 nearer, and 23.9952 for the second pair.
    """
    made = square_taper(44.0, 20.0, 720.0, 120.0, planing=0.5, waste=10.0)
    assert (made.taper, made.gauge_run, made.stock_square, made.stock_length) == (12.0, 2.0, 45.0, 740.0)
    assert made.face_angle_deg == pytest.approx(1.1458, abs=5e-5)
    assert [cut.jig_offset for cut in made.cuts] == pytest.approx([11.9976, 11.9976, 23.9952, 23.9952], abs=5e-5)


def test_two_inner_faces_run_in_twice_as_fast_and_nothing_is_doubled():
    four, two = (square_taper(44.0, 20.0, 720.0, 120.0, tapered_faces=faces) for faces in TAPERED_FACES)
    assert two.taper == 2 * four.taper == 24.0
    assert two.gauge_run == 2 * four.gauge_run
    assert [(cut.face, cut.against) for cut in two.cuts] == [(1, 3), (2, 4)]
    assert two.cuts[0].jig_offset == two.cuts[1].jig_offset


def test_each_face_is_cut_with_its_opposite_against_the_stops():
    cuts = square_taper(44.0, 20.0, 720.0, 120.0).cuts
    assert [(cut.face, cut.against) for cut in cuts] == [(1, 3), (2, 4), (3, 1), (4, 2)]
    off = set()
    for cut in cuts:
        assert ("doubled" in cut.note) == (cut.against in off)
        beside = {1, 2, 3, 4} - {cut.face, cut.against}
        if beside <= off:
            assert "an off-cut back under" in cut.note
        else:  # the leg lies on a face that is straight still
            down = int(cut.note.partition("; face ")[2].partition(" down")[0])
            assert down in beside - off
        off.add(cut.face)


def test_nothing_to_taper_is_a_straight_leg():
    made = square_taper(44.0, 44.0, 720.0, 120.0)
    assert (made.taper, made.face_angle_deg, made.gauge_run) == (0.0, 0.0, 0.0)
    assert {cut.jig_offset for cut in made.cuts} == {0.0}


@steady
@given(legs, st.floats(0.01, 100))
def test_lengths_scale_and_angles_stay(leg, k):
    def made(s):
        top, part, length, straight = leg
        return square_taper(top * s, part * top * s, length * s, straight * length * s, gauge_length=100 * s)

    one, larger = made(1), made(k)
    assert larger.face_angle_deg == pytest.approx(one.face_angle_deg, abs=1e-11)
    for name in ("taper", "gauge_run", "stock_square", "stock_length"):
        assert getattr(larger, name) == pytest.approx(k * getattr(one, name), rel=1e-11, abs=1e-11 * k)
    assert larger.cuts[2].jig_offset == pytest.approx(k * one.cuts[2].jig_offset, rel=1e-11)


@pytest.mark.parametrize(
    ("sizes", "more", "said"),
    [
        ((0.0, 20.0, 720.0, 120.0), {}, r"square at the top is 0\.0"),
        ((44.0, 0.0, 720.0, 120.0), {}, r"square at the foot is 0\.0"),
        ((44.0, 20.0, -1.0, 0.0), {}, r"length is -1\.0"),
        ((44.0, 20.0, 720.0, -1.0), {}, r"straight part is -1\.0; it must be 0 or more"),
        ((44.0, 45.0, 720.0, 120.0), {}, r"foot is 45\.0 square and the top 44\.0; .*make the foot smaller"),
        ((44.0, np.array([20.0, 45.0]), 720.0, 120.0), {}, "a leg gets no thicker"),
        ((44.0, 20.0, 720.0, 720.0), {}, r"straight part is 720\.0 of a leg 720\.0 long; .*shorten"),
        ((44.0, 20.0, 720.0, math.nan), {}, "straight part is nan"),
        ((44.0, 20.0, 720.0, 120.0), {"planing": -1.0}, r"planing is -1\.0"),
        ((44.0, 20.0, 720.0, 120.0), {"waste": -1.0}, r"waste is -1\.0"),
        ((44.0, 20.0, 720.0, 120.0), {"gauge_length": 0.0}, r"gauge length is 0\.0"),
        ((44.0, 20.0, 720.0, 120.0), {"jig_length": 0.0}, r"distance to the far stop is 0\.0"),
        ((44.0, 20.0, 720.0, 120.0), {"jig_length": 601.0}, r"stands 601\.0 from .* the foot is 600\.0 from there"),
        ((44.0, 20.0, 720.0, 120.0), {"tapered_faces": "two iner"}, "did you mean 'two inner'"),
    ],
)
def test_what_cannot_be_sawn_is_said(sizes, more, said):
    with pytest.raises(DesignError, match=said):
        square_taper(*sizes, **more)


def test_numbers_give_floats_and_arrays_broadcast():
    made = square_taper(44, 20, 720, 120)
    assert [type(size) for size in (made.taper, made.face_angle_deg, made.gauge_run)] == [float] * 3
    many = square_taper(44.0, np.array([20.0, 30.0]), 720.0, 120.0)
    assert many.taper.tolist() == [12.0, 7.0]
    assert many.cuts[3].jig_offset.shape == many.face_angle_deg.shape == (2,)


@pytest.mark.parametrize("claim", derive_square_taper().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved_and_about_the_code_that_runs(claim):
    assert claim.difference == sympy.Integer(0)
    symbols = sympy.symbols("w_t w_f L x a", positive=True)
    running, derived = (sympy.lambdify(symbols, e, "math") for e in (claim.running, claim.derived))
    for top, foot, length, reach, slope in np.random.default_rng(7).uniform(0.1, 2, (200, 5)):
        expected = {
            "square_taper.angle": tan_face_taper(top, foot, length, 2),
            "square_taper.angle_inner": tan_face_taper(top, foot, length, 1),
            "square_taper.jig": jig_setting(reach, slope, 1),
            "square_taper.jig_doubled": jig_setting(reach, slope, 2),
        }[claim.key]
        assert running(top, foot, length, reach, slope) == pytest.approx(expected, rel=1e-12)
        assert derived(top, foot, length, reach, slope) == pytest.approx(expected, rel=1e-12)
