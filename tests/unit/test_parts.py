"""Parts of a drawer: put together as a maker does, looked through cell by cell, refused where they cannot be made.

The witness knows nothing of the library's sums. It takes the finished sizes, stands the sides against
the back room, slides the front on as deep as the lap lets it, stands the back on the floor, pushes the
bottom home, and cuts the opening into cells along every face: which parts are in each cell is counted.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise, product

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.base.terms import total
from furnlib.plan.sizes.size import sum_size
from furnlib.teach.derive.parts import derive_parts
from furnlib.trade.drawer.parts import Making, Opening, drawer_parts, inside

steady = settings(deadline=None, derandomize=True, max_examples=25)
OPENING = Opening(F(480), F(203), F(370))
CHEST = Making(
    front_thickness=F(20),
    side_thickness=F(12),
    back_thickness=F(12),
    bottom_thickness=F(8),
    groove_width=F(6),
    groove_height=F(10),
    groove_depth=F(6),
    side_gap=F(1),
    back_gap=F(10),
    lap=F(6),
)
HUNG = replace(CHEST, run="side-hung", guide_depth=F(5), guide_width=F(14), guide_height=F(60), guide_play=F(1))


def sizes(opening, making, side=F(200), front=F(201)):
    """Length, width and thickness of every part, by its name."""
    parts = drawer_parts(opening, making, side, front)
    return {part.name: (total(part.length), total(part.width), part.thickness) for part in parts}


def put_together(opening, making, side, front):
    """Boxes of all parts, (low, high) in x, y and z, from their sizes and the way a drawer goes together."""
    part = sizes(opening, making, side, front)
    boxes = {}
    # from the back of the case to the front: back room, sides, lap; the front's face must come out where it is to be
    side_end = opening.depth - making.back_gap
    long, high, thick = part["side"]
    joined = "inner front" if "inner front" in part else "front"
    face = side_end - long - making.lap
    wide, tall, front_thick = part[joined]
    across = ((opening.width - wide) / 2, (opening.width + wide) / 2)
    boxes[joined] = (across, (face, face + front_thick), (F(0), tall))
    front_back = face + front_thick
    if joined == "inner front":
        wide, tall, front_thick = part["front"]
        shown = ((opening.width - wide) / 2, (opening.width + wide) / 2)
        boxes["front"] = (shown, (face - front_thick, face), (F(0), tall))
    # sides flush with the ends of the box's front, or a gap inside the opening where a lip goes past it
    outer = (making.side_gap, opening.width - making.side_gap)
    for name, (low, up) in {"left": (outer[0], outer[0] + thick), "right": (outer[1] - thick, outer[1])}.items():
        boxes[name] = ((low, up), (side_end - long, side_end), (F(0), high))
    wide, tall, back_thick = part["back"]
    rear = side_end - (making.side_tail if making.back == "housed" else 0)
    top = high - making.drop
    boxes["back"] = (
        ((opening.width - wide) / 2, (opening.width + wide) / 2),
        (rear - back_thick, rear),
        (top - tall, top),
    )
    # the bottom is pushed home in the front's groove, its upper face under the back
    wide, deep, bottom_thick = part["bottom"]
    start = front_back - making.groove_depth
    floor = top - tall
    boxes["bottom"] = (
        ((opening.width - wide) / 2, (opening.width + wide) / 2),
        (start, start + deep),
        (floor - bottom_thick, floor),
    )
    if "slip" in part:
        long, high, thick = part["slip"]
        inner = (boxes["left"][0][1], boxes["right"][0][0])
        for name, across in {
            "left slip": (inner[0], inner[0] + thick),
            "right slip": (inner[1] - thick, inner[1]),
        }.items():
            boxes[name] = (across, (side_end - long, side_end), (F(0), high))
    return boxes


def cells(boxes):
    """Every cell between neighbouring faces, by its middle, with the parts that hold it."""
    cuts = [sorted({place for box in boxes.values() for place in box[axis]}) for axis in range(3)]
    middles = [[(a + b) / 2 for a, b in pairwise(cut)] for cut in cuts]
    for place in product(*middles):
        yield (
            place,
            frozenset(n for n, box in boxes.items() if all(a < x < b for x, (a, b) in zip(place, box, strict=True))),
        )


def within(place, box):
    return all(a < x < b for x, (a, b) in zip(place, box, strict=True))


halves = st.integers(1, 8).map(lambda n: F(n, 2))


@st.composite
def drawers(draw):
    """A drawer that can be made, in half units, with its opening."""
    thick = st.integers(12, 40).map(lambda n: F(n, 2))
    front, side, back = draw(thick), draw(thick), draw(thick)
    tongue, up, play = draw(halves), draw(halves), draw(halves) / 8
    slip = draw(st.sampled_from([F(0), side]))
    bottom = tongue + (F(1, 2) if slip else up * draw(st.sampled_from([F(0), F(1, 3), F(1)])))
    kind = draw(st.sampled_from(["flush", "shown", "overlay", "lipped"]))
    corner = draw(st.sampled_from(["half-blind", "through", "rebated"])) if kind != "lipped" else "half-blind"
    inner = draw(thick) if kind in ("shown", "overlay") else F(0)
    lip = front / 4 if kind == "lipped" else F(0)
    lap = F(0) if corner == "through" else (inner or front) * draw(st.sampled_from([F(1, 4), F(1, 3), F(1, 2)]))
    housed = draw(st.booleans())
    made = Making(
        front,
        side,
        back,
        bottom,
        tongue,
        up,
        min(side, inner or front) / 3,
        side_gap=draw(halves),
        back_gap=F(10) + draw(halves),
        front="flush" if kind == "shown" else kind,
        joint=corner,
        lap=max(lap, lip),
        inner_front=inner,
        front_gap=draw(halves),
        overlay=draw(halves) if kind in ("overlay", "lipped") else F(0),
        lip=lip,
        setback=draw(halves) if kind in ("flush", "shown") else F(0),
        back="housed" if housed else "dovetailed",
        housing_depth=side / 3 if housed else F(0),
        side_tail=draw(halves) if housed else F(0),
        drop=draw(halves),
        bottom=draw(st.sampled_from(["solid", "sheet"])),
        end_play=min(play, side / 6),
        overhang=draw(halves),
        slip_width=slip,
        slip_height=tongue + up + F(1, 2) if slip else F(0),
    )
    return Opening(F(300), F(120), F(280)), made, F(110), F(112)


@steady
@given(drawers())
def test_a_drawer_goes_together_and_into_its_opening(drawer):
    opening, made, side, front = drawer
    boxes = put_together(opening, made, side, front)
    shown, joined = boxes["front"], boxes.get("inner front", boxes["front"])
    # the face comes out where it is to be
    face = {"flush": made.setback, "overlay": -made.front_thickness, "lipped": -made.lip}[made.front]
    assert shown[1][0] == face
    beside = {"flush": made.front_gap if made.inner_front else made.side_gap}.get(made.front, -made.overlay)
    assert shown[0] == (beside, opening.width - beside)
    # the box keeps its gaps, whatever its back is jointed like, and the bottom does not reach the case's back
    if made.front != "lipped":
        assert joined[0] == (boxes["left"][0][0], boxes["right"][0][1])
    if made.back == "dovetailed":
        assert boxes["back"][0] == (made.side_gap, opening.width - made.side_gap)
    else:
        assert boxes["left"][0][1] - boxes["back"][0][0] == made.housing_depth
    assert boxes["bottom"][1][1] == boxes["back"][1][1] + made.overhang < opening.depth
    # the bottom is in every groove but for its play, and hangs below nothing
    holder = boxes.get("left slip", boxes["left"])
    assert holder[0][1] - boxes["bottom"][0][0] == made.groove_depth - made.end_play
    assert 0 <= boxes["bottom"][2][0] <= made.groove_height < boxes["bottom"][2][1]


@steady
@given(drawers())
def test_cell_by_cell_parts_fill_the_drawer_and_share_only_their_joints(drawer):
    """Inside is empty and closed all round; two parts are in one place only where one is let into the other."""
    opening, made, side, front = drawer
    boxes = put_together(opening, made, side, front)
    free = inside(opening, made, side)
    wide, deep, high = (total(size) for size in (free.width, free.depth, free.height))
    box_front = boxes.get("inner front", boxes["front"])
    floor = boxes["bottom"][2][1]
    room = (
        (boxes["left"][0][1], boxes["right"][0][0]),
        (box_front[1][1], boxes["back"][1][0]),
        (floor, side),
    )
    assert tuple(b - a for a, b in room) == (wide, deep, high)
    joints = {
        frozenset({a, b})
        for a, b in [
            ("left", "front"),
            ("right", "front"),
            ("left", "inner front"),
            ("right", "inner front"),
            ("left", "back"),
            ("right", "back"),
            ("left", "bottom"),
            ("right", "bottom"),
            ("front", "bottom"),
            ("inner front", "bottom"),
            ("left slip", "bottom"),
            ("right slip", "bottom"),
        ]
    }
    for place, held in cells(boxes):
        if within(place, room):
            assert not held
        if len(held) == 2:
            assert held in joints
        if len(held) > 2:  # the bottom's corner, in the grooves of front and side, or side and slip
            assert "bottom" in held
    # a step past every wall of the room there is wood
    middle = [(a + b) / 2 for a, b in room]
    low_back = floor + (boxes["back"][2][1] - floor) / 2
    for axis, end in ((0, 0), (0, 1), (1, 0), (1, 1), (2, 0)):
        step = list(middle)
        step[axis] = room[axis][end] + (F(1, 1000) if end else -F(1, 1000))
        if axis == 1:
            step[2] = low_back
        assert any(within(step, box) for box in boxes.values()), (axis, end)


@steady
@given(drawers(), st.sampled_from([F(1, 25), F(5, 127), F(7)]))
def test_a_drawer_in_another_unit_is_the_same_drawer(drawer, k):
    opening, made, side, front = drawer
    larger = replace(made, **{name: value * k for name, value in vars(made).items() if isinstance(value, F)})
    one = sizes(opening, made, side, front)
    other = sizes(Opening(*(k * size for size in vars(opening).values())), larger, k * side, k * front)
    assert other == {name: tuple(k * size for size in three) for name, three in one.items()}


def test_exact_sizes_stay_exact_and_floats_come_near():
    inch = Making(F(3, 4), F(1, 2), F(1, 2), F(3, 8), F(1, 4), F(3, 8), F(1, 4), F(1, 32), F(3, 8), lap=F(1, 4))
    opening = Opening(F(37, 2), F(61, 8), F(59, 4))
    exact = sizes(opening, inch, F(15, 2), F(15, 2))
    assert {type(size) for three in exact.values() for size in three} == {F}
    # 14 3/4 - 3/8 - 1/4 = 14 1/8; 7 1/2 - 5/8 = 6 7/8; 14 3/4 - 3/8 - 3/4 + 1/4 = 13 7/8
    assert (exact["side"][0], exact["back"][1], exact["bottom"][1]) == (F(113, 8), F(55, 8), F(111, 8))
    loose = replace(inch, **{name: float(value) for name, value in vars(inch).items() if isinstance(value, F)})
    near = sizes(Opening(18.5, 7.625, 14.75), loose, 7.5, 7.5)
    assert all(near[name] == pytest.approx(tuple(map(float, exact[name]))) for name in exact)


def test_the_shown_subtraction_is_the_sum_that_is_done():
    front, side, back, bottom = drawer_parts(OPENING, replace(CHEST, end_play=F(1), drop=F(2)), F(200), F(201))
    rules = [
        sum_size("", "mm", terms).rule
        for terms in (front.length, side.length, side.width, back.length, back.width, bottom.length, bottom.width)
    ]
    assert rules == [
        "478 = 480 - 2 x 1 side gap",
        "354 = 370 - 10 back room - 6 lap",
        "200 = 200",
        "478 = 480 - 2 x 1 side gap",
        "182 = 200 - 16 floor - 2 drop",
        "464 = 480 - 2 x 1 side gap - 2 x 12 side + 2 x 6 groove - 2 x 1 end play",
        "346 = 370 - 10 back room - 20 front + 6 groove",
    ]


def test_which_parts_there_are_and_their_grain():
    plain = drawer_parts(OPENING, CHEST, F(200), F(201))
    assert [(part.name, part.count, part.grain) for part in plain] == [
        ("front", 1, "length"),
        ("side", 2, "length"),
        ("back", 1, "length"),
        ("bottom", 1, "length"),
    ]
    made = replace(HUNG, bottom="sheet", slip_width=F(10), slip_height=F(18), inner_front=F(12), front_gap=F(2))
    every = drawer_parts(OPENING, made, F(200), F(201))
    assert [part.name for part in every] == ["front", "inner front", "side", "back", "bottom", "slip", "runner"]
    assert next(part.grain for part in every if part.name == "bottom") == "none"


def test_a_side_hung_drawer_keeps_its_side_gap_at_the_ground_of_the_groove():
    """A strip that stands out of the case by the groove's depth, behind the front, 13 high in a groove of 14."""
    length, width, thickness = sizes(OPENING, HUNG)["runner"]
    assert (length, width, thickness) == (370 - 20, 13, 5)
    ground = HUNG.side_gap + HUNG.guide_depth  # of the groove, from the case's side
    assert ground - thickness == HUNG.side_gap


def test_a_drawer_between_bought_slides():
    """A stated clearance of 12.7 on each side; the show front wider than the box: 480 - 4 and 480 - 25.4."""
    made = replace(CHEST, run="slides", slide_room=F("12.7"), side_gap=F("12.7"), inner_front=F(12), front_gap=F(2))
    part = sizes(OPENING, made)
    assert (part["front"][0], part["inner front"][0], part["back"][0]) == (476, F("454.6"), F("454.6"))
    assert part["side"][0] == 370 - 10 - 20 - 6
    with pytest.raises(DesignError, match=r"slide room is 127/10; it must lie from 0 to 12: make the drawer narrower"):
        sizes(OPENING, replace(made, side_gap=F(12)))


def test_symbols_go_through():
    room = sympy.Symbol("r", positive=True)
    height = sympy.Symbol("h", positive=True)
    for opening, made in ((OPENING, replace(CHEST, back_gap=room)), (replace(OPENING, height=height), CHEST)):
        parts = drawer_parts(opening, made, height, height)
        assert sympy.simplify(total(parts[1].length) - (364 - made.back_gap)) == 0


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"front": "flsh"}, r"The front is 'flsh'; did you mean 'flush'\?"),
        ({"run": "wheels"}, r"The run is 'wheels'; what can stand there: runners, side-hung, slides"),
        ({"side_gap": -1}, r"The side gap is -1; it must be 0 or more"),
        ({"back_gap": float("nan")}, r"The back gap is nan"),
        ({"groove_depth": 0}, r"The groove depth is 0; it must be more than 0"),
        ({"lap": 0}, r"The lap is 0; it must lie between 0 and 20"),
        ({"lap": 20}, r"The lap is 20; it must lie between 0 and 20"),
        ({"joint": "through"}, r"The lap is 6; it must be 0: in a through corner"),
        ({"groove_depth": 12}, r"The groove depth is 12; it must lie between 0 and 12: half the thickness"),
        ({"side_thickness": 25, "groove_depth": 20}, r"The groove depth is 20; it must lie between 0 and 20"),
        ({"groove_height": 1}, r"The underside of the bottom is -1; it must lie from 0 to 1"),
        ({"bottom_thickness": 5}, r"The underside of the bottom is 11; it must lie from 0 to 10"),
        ({"back": "housed"}, r"The housing depth is 0; it must lie between 0 and 12"),
        ({"housing_depth": 3}, r"The housing depth is 3; it must be 0: a back that is dovetailed stands in none"),
        ({"side_tail": 3}, r"The side tail is 3; it must be 0: the sides end with a back that is dovetailed"),
        ({"overhang": 11}, r"The overhang is 11; it must lie from 0 to 10"),
        ({"front": "overlay"}, r"The overlay is 0; it must be more than 0"),
        ({"front": "overlay", "overlay": 8}, r"The inner front is 0; .* one that the sides are joined to"),
        ({"front": "lipped", "overlay": 8}, r"The lip is 0; it must be more than 0"),
        ({"front": "lipped", "overlay": 8, "lip": 7}, r"The lip is 7; it must lie from 0 to 6: let the sides in less"),
        ({"front": "lipped", "overlay": 8, "lip": 5, "setback": 1}, r"The setback is 1; it must be 0"),
        ({"front": "lipped", "overlay": 8, "lip": 5, "inner_front": 12}, r"The inner front is 12; it must be 0"),
        ({"slip_width": 10, "slip_height": 16}, r"wood over the slip's groove is 0"),
        ({"run": "slides"}, r"The slide room is 0; .* that the slide's maker states"),
        ({"run": "side-hung", "guide_width": 14}, r"The guide depth is 0; it must lie between 1 and 12"),
        ({"run": "side-hung", "guide_depth": 5}, r"The width of the runner is 0"),
        (
            {"run": "side-hung", "guide_depth": 6, "guide_width": 14, "guide_height": 8},
            r"The wood between guide and groove is 0; it must be more than 0: raise the guide",
        ),
        ({"drop": 200}, r"The height of the back is -16; .* a larger opening or thinner parts"),
        ({"side_thickness": 239}, r"The width inside is 0"),
        ({"slip_width": 227, "slip_height": 18}, r"The width inside is 0"),
        ({"setback": 340}, r"The depth inside is -12"),
        (
            {"run": "side-hung", "guide_depth": 5, "guide_width": 14, "guide_height": 190},
            r"The wood over the guide is -4",
        ),
    ],
)
def test_what_cannot_be_made_is_said(change, sentence):
    with pytest.raises(DesignError, match=sentence):
        drawer_parts(Opening(480, 203, 370), replace(CHEST, **change), 200, 201)


def test_what_looks_odd_but_can_be_made():
    # a guide deeper than what the groove leaves, well above it; a bottom that reaches past the ends of the sides
    deeper = replace(HUNG, guide_depth=F(7))
    long = replace(CHEST, back="housed", housing_depth=F(4), side_tail=F(15), overhang=F(20))
    for made in (deeper, long):
        assert drawer_parts(OPENING, made, F(200), F(201))
    assert sizes(OPENING, long)["bottom"][1] == 346 - 15 + 20


def test_what_will_not_go_in_is_said():
    with pytest.raises(DesignError, match=r"The side is 204 high; it will not go into an opening of 203"):
        inside(OPENING, CHEST, 204)
    with pytest.raises(DesignError, match=r"The front is 204 high; it will not go into an opening of 203"):
        drawer_parts(OPENING, CHEST, 200, 204)
    with pytest.raises(DesignError, match=r"The opening's width is 0"):
        drawer_parts(Opening(0, 203, 370), CHEST, 200, 201)
    over = replace(CHEST, front="overlay", overlay=F(8), inner_front=F(12))
    assert sizes(OPENING, over, 200, 219)["front"][:2] == (496, 219)  # over the case it may be taller


@pytest.mark.parametrize("claim", derive_parts().claims, ids=lambda claim: claim.key)
def test_each_claim_is_proved(claim):
    assert claim.difference == sympy.Integer(0)
    assert len(claim.running.free_symbols) >= 2


def test_a_trap_is_caught():
    """Lap and front thickness both taken off, or the bottom measured to one groove: the proof does not hold."""
    derivation = derive_parts()
    lap, front, groove = sympy.symbols("l t_f g", positive=True)
    side, bottom = derivation["parts.side_length"], derivation["parts.bottom_across"]
    assert replace(side, running=side.running - front).difference == -front
    assert replace(bottom, running=bottom.running - groove).difference == -groove
    assert lap in side.running.free_symbols
