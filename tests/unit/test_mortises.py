"""Mortises inside a seat: what is accepted is whole in space, what is refused would not be.

The seat, the mortises' rims and the way they run are built again by `in_space`; the outline of a
round or D-shaped seat is its own curve, not the corners that the plan draws it by.
"""

from __future__ import annotations

import re
from itertools import combinations

import in_space
import numpy as np
import pytest
from chance import by_chance
from faults import STOOL, check_sentence, edited, faults, line_of
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

ROUND_LEGS = "round:\n    largest: 36\n    foot: 22\n    tenon: 25"
# 260 deep: mortises 85 from the middle, 45 from the edges; 360 wide: 115 out, 65 from the sides


def seat_text(out, front, rear, pitch, outline, thickness, tenon, leans):
    legs = "".join(f"    {name}: {{rake: {r}, splay: {s}}}\n" for name, (r, s) in leans.items())
    return (
        "piece: Stool\nunit: mm\ngrid: 1\noverall: {height: 460, width: 360, depth: 260}\n"
        f"seat: {{thickness: {thickness}, pitch: {pitch}, outline: {outline}}}\n"
        f"legs:\n  round: {{largest: 80, foot: 22, tenon: {tenon}}}\n"
        f"  mortises: {{out: {out}, front: {front}, rear: {rear}}}\n  lean:\n{legs}"
    )


NAMES = ("front left", "front right", "rear left", "rear right")
angle = st.integers(-10, 25)
seats = st.builds(
    seat_text,
    out=st.integers(10, 175),
    front=st.integers(10, 125),
    rear=st.integers(10, 125),
    pitch=st.sampled_from([0, 0, 4, 12, -6]),
    outline=st.sampled_from(["rectangle", "round", "D"]),
    thickness=st.integers(15, 60),
    tenon=st.integers(10, 50),
    leans=st.fixed_dictionaries({name: st.tuples(angle, angle) for name in NAMES}),
)


def off_edge(outline, across, back):
    """Below 0 within the seat's own curve, measured along the seat from its front left corner."""
    ellipse = np.hypot((across - 180) / 180, (back - 130) / 130) - 1
    box = np.maximum(np.abs(across - 180) / 180, np.abs(back - 130) / 130) - 1
    if outline == "D":
        return np.where(back > 130, ellipse, box)
    return ellipse if outline == "round" else box


def rims(piece, level):
    """Rim of every mortise on the level that far above the underside, along the seat."""
    seat = in_space.Seat(piece)
    found = {}
    for one in piece.legs:
        direction = in_space.axis(one.position, one.lean.rake_deg, one.lean.splay_deg)
        middle = in_space.on_plane(seat.top(one.position), direction, seat.corner + level * seat.normal, seat.normal)
        rim = in_space.rim(direction, float(one.round.tenon), middle, seat.normal, points=90)
        found[one.position] = seat.turn.inv().apply(rim - seat.corner)[:, :2]
    return found


@by_chance(seats, many=120)
def test_a_seat_that_is_accepted_has_whole_mortises(text):
    try:
        piece = piece_of(DesignText.parse(text))
    except DesignError:
        return
    thickness = float(piece.design.seat.thickness)
    for level in np.linspace(0, thickness, 4):
        at = rims(piece, level)
        for rim in at.values():
            # the drawn outline of a curve runs within the curve itself, so what is inside it is inside the seat
            assert (off_edge(piece.design.seat.outline, *rim.T) < 0).all()
        for one, other in combinations(at.values(), 2):
            assert not within(one, other)


def within(one, other):
    """Whether one rim reaches into another: a point of it on the middle's side of every side."""
    for a, b in ((one, other), (other, one)):
        step = np.roll(a, -1, axis=0) - a
        to = np.vstack([a.mean(axis=0), b])[:, np.newaxis] - a
        left = np.sign(step[:, 0] * to[..., 1] - step[:, 1] * to[..., 0])
        if (left[1:] == left[0]).all(axis=1).any():
            return True
    return False


def test_the_witness_sees_rims_that_meet():
    ring = np.c_[np.cos(np.linspace(0, 6.2, 60)), np.sin(np.linspace(0, 6.2, 60))]
    assert within(ring, ring + (1.9, 0))
    assert not within(ring, ring + (2.1, 0))
    assert within(ring, ring / 3)


EDGE = [
    # edits, the leg, how far from the edge and what half the mortise takes, worked by hand
    # 180 - 170 = 10 to the side; tan² = tan² 10 + tan² 12 = 0.0763, x 12.5 / cos R = 12.5 x 1.03744 = 12.97
    ((("out: 115", "out: 170"),), "front left", "10 from", "13"),
    # behind: 130 - 120 = 10, 12.5 x sqrt(1 + tan² 16 + tan² 12) = 12.5 x 1.06180 = 13.27
    ((("rear: 85", "rear: 120"),), "rear left", "10 from", "13.3"),
    # leaned in under a seat so thick that the upper end stands past the edge: 45 - 400 tan 20 = -100.6;
    # 12.5 x sqrt(1 + tan² 20 + tan² 12) = 12.5 x 1.08520 = 13.57
    (
        (("thickness: 40", "thickness: 400"), ("front left: {rake: 10,", "front left: {rake: -20,")),
        "front left",
        "100.6 past",
        "13.6",
    ),
    # a pitched seat is measured along itself: 10 from its rear edge below, drilled at a rake of 16 + 40;
    # tan s' = tan 12 cos 16 / cos 56, 12.5 x sqrt(1 + tan² 56 + 0.36539²) = 12.5 x 1.82524 = 22.82
    ((("pitch: 0", "pitch: 40"), ("rear: 85", "rear: 120")), "rear left", "10 from", "22.8"),
]


@pytest.mark.parametrize(("edits", "leg", "where", "half"), EDGE)
def test_a_mortise_that_breaks_out_is_said(edits, leg, where, half):
    text = edited(STOOL, *edits)
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, '  mortises:')}, legs, mortises: ")
    assert f"The mortise of the {leg} leg stands {where} the edge of the seat and its half takes {half}:" in sentence
    assert sentence.endswith("it breaks out; move it in or take a smaller tenon.")


def test_just_room_enough_at_the_edge():
    # 12.97 to the side is wanted: 13.1 is enough, 12.9 is not
    near = edited(STOOL, ("out: 115", "out: 166.5"))
    assert len(piece_of(DesignText.parse(near)).legs) == 4  # 13.5 left, the rear pair wants 13.27
    (sentence,) = faults(edited(STOOL, ("out: 115", "out: 167.1")))
    assert "breaks out" in sentence


@pytest.mark.parametrize("outline", ["round", "D"])
def test_a_mortise_that_a_rectangle_holds_breaks_out_of_a_rounded_seat(outline):
    roomy = edited(STOOL, ("out: 115", "out: 140"))
    assert len(piece_of(DesignText.parse(roomy)).legs) == 4
    (sentence,) = faults(edited(roomy, ("outline: rectangle", f"outline: {outline}")))
    check_sentence(sentence)
    assert f"of the {'front' if outline == 'round' else 'rear'} left leg" in sentence  # a D is square in front
    assert "breaks out" in sentence


MEET = [
    # edits, both legs, how near they come, what they need
    # 2 x 20 apart below, 2 x 40 tan 12 = 17.0 nearer above: 23.0; twice 12.97
    ((("out: 115", "out: 20"),), "front left and front right", "23", "25.9"),
    # the axes cross inside the seat: 2 x 7 apart below, 17.0 nearer above
    ((("out: 115", "out: 7"),), "front left and front right", "0", "25.9"),
    # front to rear, 2 x 20 apart below, 40 (tan 10 + tan 16) = 18.5 nearer above: 21.5; 12.97 + 13.27
    ((("front: 85", "front: 20"), ("rear: 85", "rear: 20")), "front left and rear left", "21.5", "26.2"),
]


@pytest.mark.parametrize(("edits", "legs", "apart", "needed"), MEET)
def test_mortises_that_meet_inside_the_seat_are_said(edits, legs, apart, needed):
    text = edited(STOOL, *edits)
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {line_of(text, '  mortises:')}, legs, mortises: ")
    found = re.search(
        r"The mortises of the (.*) legs come within (.*) inside the seat and meet; the least is (.*?):", sentence
    )
    assert found.groups() == (legs, apart, needed)
    assert sentence.endswith("move them apart, lean the legs less or take smaller tenons.")


def test_the_same_mortises_with_smaller_tenons_are_fine():
    small = edited(STOOL, ("out: 115", "out: 20"), ("tenon: 25", "tenon: 20"))
    assert len(piece_of(DesignText.parse(small)).legs) == 4  # 23.0 apart; 20 / cos 15.4 = 20.7 needed


def test_a_square_leg_takes_its_diagonal():
    # behind: 130 - 105 = 25 to the edge; 32 x sqrt 2 / 2 x 1.0618 = 24.03 fits, 34 x ... = 25.53 does not
    for square, fits in ((32, True), (34, False)):
        text = edited(STOOL, (ROUND_LEGS, f"square: {square}"), ("rear: 85", "rear: 105"))
        if fits:
            assert len(piece_of(DesignText.parse(text)).legs) == 4
        else:
            (sentence,) = faults(text)
            assert "stands 25 from the edge of the seat and its half takes 25.5: it breaks out" in sentence


def test_an_inch_seat_says_it_in_fractions():
    text = edited(
        STOOL,
        ("unit: mm", "unit: in"),
        ("grid: 1\n", "grid: 1/32\n"),
        ("height: 460", "height: 18"),
        ("width: 360", "width: 14"),
        ("depth: 260", "depth: 10"),
        ("thickness: 40", "thickness: 1 1/2"),
        (ROUND_LEGS, "round: {largest: 1 1/2, foot: 7/8, tenon: 1}"),
        ("out: 115", "out: 6 1/2"),
        ("front: 85", "front: 3 3/8"),
        ("rear: 85", "rear: 3 3/8"),
    )
    (sentence,) = faults(text)
    check_sentence(sentence)
    # 7 - 6 1/2 = 1/2; half of 1 x 1.0374 = 0.5187, in thirty-seconds 17/32
    assert "stands 1/2 from the edge of the seat and its half takes 17/32:" in sentence
