"""Drawers of whole pieces: three parts of each demo worked by hand, and what must hold of drawers by chance."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from chance import by_chance, text_of
from chest_of_drawers import CASE, JIG, SOUND, demo, made
from faults import METRIC, edited
from hypothesis import Phase
from hypothesis import strategies as st

from furnlib.base.guards import DesignError

unshrunk = {"phases": (Phase.explicit, Phase.generate), "report_multiple_bugs": False}


def part(drawer, name):
    found = drawer.part(name)
    return found.length.value, found.width.value


def free(drawer):
    return tuple(size.value for size in drawer.inside)


# Landing chest: inside depth 380 - 10 of the back = 370; 15 - 3/8 = 14 5/8 in the inch shop


def test_landing_chest_by_hand():
    chest = demo("landing_chest")
    assert [drawer.count for drawer in chest.drawers] == [2, 1, 1, 1, 1, 1, 1]  # eight drawers
    assert [drawer.side_height.value for drawer in chest.drawers] == [80, 100, 120, 140, 160, 180, 200]
    first, last = chest.drawers[0], chest.drawers[-1]
    # side: 380 - 10 back - 10 back room - 6 lap = 354
    assert part(last, "side") == (354, 200)
    assert last.part("side").length.rule == "354 = 370 - 10 back room - 6 lap"
    # back: 480 - 2 x 1 = 478; 200 - (10 + 6) to the upper face of the bottom = 184
    assert part(last, "back") == (478, 184)
    # bottom, its grain across: 478 - 2 x 12 + 2 x 6 - 2 x 0.5 = 465; 370 - 10 - 20 + 6 = 346
    assert part(last, "bottom") == (465, 346)
    assert [(p.name, p.count, p.thickness, p.grain) for p in last.parts] == [
        ("front", 1, 20, "length"), ("side", 2, 12, "length"), ("back", 1, 12, "length"), ("bottom", 1, 8, "length"),
    ]  # fmt: skip
    # fronts: cherry, flat-sawn, grows by 4 x 0.00248 = 0.00992: (203 - 2) / 1.00992 = 199.03; (83 - 2) / 1.00992 = 80.2
    assert part(last, "front") == (478, 199)
    assert part(first, "front") == (229, F(802, 10))  # 231 - 2
    # inside row 1: 229 - 24 = 205; 360 - 20 - 12 = 328; 80 - 16 = 64
    assert free(first) == (205, 328, 64)


def test_landing_chest_in_inches_by_hand():
    chest = demo("landing_chest_inch")
    assert [drawer.side_height.value for drawer in chest.drawers] == [F(3 * k, 4) for k in range(4, 11)]
    first, last = chest.drawers[0], chest.drawers[-1]
    # side: 14 5/8 - 3/8 back room - 1/4 lap = 14; row 7: 10 x 3/4
    assert part(last, "side") == (14, F(15, 2))
    # bottom: 18 1/2 - 1/16 - 1 + 1/2 - 1/32 = 17 29/32; 14 5/8 - 3/8 - 3/4 + 1/4 = 13 3/4
    assert part(last, "bottom") == (17 + F(29, 32), 13 + F(3, 4))
    # front: (7 5/8 - 1/16) / 1.00992 = 7.488, down to 7 15/32; (3 1/8 - 1/16) / 1.00992 = 3.032, down to 3 1/32
    assert [part(drawer, "front")[1] for drawer in (last, first)] == [7 + F(15, 32), 3 + F(1, 32)]


def test_low_media_case_by_hand():
    case = demo("low_media_case_inch")
    # sides: white oak, quarter-sawn, grows by 3 x 0.0018: (2 1/2 - 3/32) / 1.0054 = 2.393, (3 1/4 - 3/32) / 1.0054 =
    # 3.139, (4 1/4 - 3/32) / 1.0054 = 4.134
    heights = [F(19, 8), F(25, 8), F(33, 8)]
    assert [drawer.side_height.value for drawer in case.drawers] == heights
    last = case.drawers[-1]
    # side: 18 - 3/8 back - 1/2 back room - 1/4 lap = 16 7/8
    assert part(last, "side") == (16 + F(7, 8), F(33, 8))
    # back: 18 - 1/16 = 17 15/16; 4 1/8 - (1/2 + 1/4) - 1/16 = 3 5/16
    assert part(last, "back") == (17 + F(15, 16), 3 + F(5, 16))
    # front: the same wood: (4 1/4 - 1/16) / 1.0054 = 4.165, down to 4 5/32
    assert part(last, "front") == (17 + F(15, 16), 4 + F(5, 32))


@pytest.mark.parametrize(
    ("name", "inside", "high", "side", "bottom"),
    [
        # width 262 - 2 - 20 = 240; 320 - 4 back = 316, less 7 + 12 + 7 = 290; side 316 - 7 - 4 = 305;
        # birch, quarter-sawn: (48 - 2.5) / (1 + 4 x 0.00256) = 45.04
        ("abrasive_cabinet", (240, 290), 45, 305, (249, 302)),
        ("abrasive_cabinet_inch", (F(19, 2), F(23, 2)), F(7, 4), None, None),
    ],
)
def test_abrasive_cabinet_by_hand(name, inside, high, side, bottom):
    cabinet = demo(name)
    assert [(drawer.bank, drawer.row) for drawer in cabinet.drawers] == [(b, r) for b in (1, 2) for r in range(1, 7)]
    for drawer in cabinet.drawers:
        assert free(drawer)[:2] == inside
        assert drawer.side_height.value == high
        assert drawer.part("bottom").grain == "none"
        assert drawer.dovetails is None
        if side:
            # back, housed by 3: 240 + 2 x 3 = 246; 45 less 5 + 4 of the floor
            # bottom: 240 + 2 x 5 - 2 x 0.5 = 249; 316 - 7 - 12 + 5 = 302
            assert (part(drawer, "side")[0], part(drawer, "bottom")) == (side, bottom)
            assert part(drawer, "back") == (246, 36)
    parts = {tuple((p.name, p.length.value, p.width.value) for p in drawer.parts) for drawer in cabinet.drawers}
    assert len(parts) == 1  # all twelve fit each other's places


def test_sizes_of_alike_drawers_are_listed_once():
    for name in ("landing_chest", "abrasive_cabinet"):
        names = [size.name for size in demo(name).sizes]
        assert len(names) == len(set(names))


# As built, by the jig, open


def test_drawers_follow_the_tape_and_not_the_plan():
    text = edited(SOUND, ("grain:\n", "as built: [{openings: {2: 102}, width: 479}]\ngrain:\n"))
    planned, built = (made(file).drawers[1] for file in (SOUND, text))
    # 103 planned; oak, quarter-sawn: (102 - 2.5) / 1.0072 = 98.79; 480 and 479 less 2.2
    assert (planned.opening.height, built.opening.height) == (103, 102)
    assert built.side_height.value == F(987, 10)
    assert part(planned, "front")[0] - part(built, "front")[0] == 1
    # maple, flat-sawn: (102 - 1.5 - 1.25 - 0.2) / 1.01156 = 97.92
    assert part(built, "front")[1] == F(979, 10)


def test_the_jig_leads_where_there_is_one():
    # 1001 less 7 x 3 is 49 pitches of 20; what the season would leave is not asked
    chest = made(JIG)
    assert chest.drawers[0].side_height.rule == "80 = 4 x 20 pitch"
    assert [drawer.fit.side_gaps.now for drawer in chest.drawers] == [3] * 7


def test_how_far_a_drawer_nods_wherever_it_stands():
    drawer = demo("landing_chest").drawers[0]
    # 360 from its front to its sides' end, a play of 3: two thirds out 240 and 120 inside, as in the handbook sum:
    # 120 sin A + 80 cos A = 83, A = 1.444; 240 sin A = 6.05
    assert (drawer.fit.length, drawer.fit.play) == (360, 3)
    assert drawer.fit.droops[0].front_fall == pytest.approx(6.05, abs=0.01)
    assert drawer.opened(F(2, 3))[0].front_fall == drawer.fit.droops[0].front_fall
    # shut it lies on its runner; 229 wide with 2 beside it: 120 sin B + 229 cos B = 231, B = 0.9707, 229 sin B = 3.88
    assert drawer.opened(F(0))[0].front_fall == 0
    assert drawer.fit.rackings[0].lead == pytest.approx(3.88, abs=0.01)
    falls = [drawer.opened(F(out, 10))[0].front_fall for out in range(10)]
    assert falls == sorted(falls)


RUNS = [
    ("carried: runners", 3.1),  # (83 - 2.5) / 1.0072 = 79.92, down to 79.9
    ("carried: runners\n    kicker: 2", 2),
    ("carried: runners\n    kicker: 4", 3.1),  # a strip further off than the divider holds nothing
    ("carried: runners\n    no kicker: {1: 120}", 120),
    ("carried: side-hung\n    guide: {depth: 6, width: 14, up: 40, play: 0.8}", 0.8),
    ("carried: side-hung\n    guide: {depth: 6, width: 14, up: 40, play: 0.8}\n    no kicker: {1: 120}", 0.8),
]


@pytest.mark.parametrize(("riding", "play"), RUNS)
def test_what_holds_a_drawer_down(riding, play):
    first, second, *_ = made(edited(SOUND, ("carried: runners", riding))).drawers
    assert first.fit.play == pytest.approx(play)
    if "no kicker" in riding and "hung" not in riding:
        assert second.fit.play < 4  # row 2 is held as it was
    runner = {p.name: p for p in first.parts}.get("runner")
    assert (runner is not None) == ("hung" in riding)
    if runner:  # 14 - 0.8; from behind the front of 22 to the back: 370 - 22
        assert (runner.width.value, runner.length.value, runner.thickness) == (F(132, 10), 348, 6)


def test_a_bought_slide_leaves_no_play_but_what_it_does_not_fill():
    text = edited(SOUND, ("carried: runners", "carried: slides\n    slide: 12.5"), (" gap: 1.1", " gap: 13"))
    drawer = made(text).drawers[0]
    # 480 - 26 wide, 0.5 beside it on each side; two thirds out of 361: 454 (1 - cos B) = 120.3 sin B - 1
    assert part(drawer, "back")[0] == 454
    assert drawer.fit.rackings[0].lead == pytest.approx(454 * 1 / 120.3, rel=0.02)
    assert not drawer.fit.rackings[0].turns_free


def test_a_case_without_drawers_said_has_none():
    chest = made(METRIC)
    assert (chest.drawers, chest.season, chest.back, chest.strip, chest.runs) == ((), None, None, None, ())


def test_the_brief_reckons_with_what_the_drawers_themselves_take():
    # up 10 + 5.5 to the floor; across twice 1.1 and 12; of 380 deep a back of 10, room of 9, a front of 22 and a
    # drawer's back of 11 leave 328
    brief = "brief:\n  room: 20\n  contents:\n    maps: {{width: 400, depth: {}, height: 40}}\n".format
    piece = made(SOUND + brief(328))
    rules = {size.name: size.rule for size in piece.brief.sizes}
    assert rules["clear height for maps"] == "75.5 = 40 maps + 20 finger room + 15.5 bottom"
    assert rules["clear width for maps"] == "426.2 = 400 maps + 26.2 walls"
    assert (piece.brief.places[0].row, piece.brief.concerns) == (1, ())
    (concern,) = made(SOUND + brief("328.5")).brief.concerns
    assert concern.code == "content_nowhere"
    assert "0.5 mm of depth" in concern.reason
    # without drawers nothing is reckoned of the depth
    assert made(CASE + brief(380)).brief.concerns == ()


@pytest.mark.parametrize("given", ["bottom: 8", "walls: 26"])
def test_the_brief_does_not_say_it_a_second_time(given):
    with pytest.raises(DesignError, match="leave out 'bottom' and 'walls' under brief") as refused:
        made(SOUND + f"brief:\n  room: 20\n  {given}\n  contents:\n    maps: {{width: 40, depth: 30, height: 4}}\n")
    assert ", brief: " in str(refused.value)


# By chance


WOODS = ("black cherry", "red maple", "white oak", "yellow birch")


@st.composite
def chests(draw):
    """A low case of a few rows and drawers of any making that goes into them, sizes in mm or in inches."""
    unit = draw(st.sampled_from(["mm", "in"]))
    step = {"mm": F(1, 2), "in": F(1, 64)}[unit]

    def size(least, most):  # in mm, brought to a step of the unit
        whole = {"mm": 1, "in": F(10, 254)}[unit]
        return draw(st.integers(round(least * whole / step), round(most * whole / step))) * step

    front, kind = size(18, 24), draw(st.sampled_from(["flush", "flush", "overlay", "lipped"]))
    joint = draw(st.sampled_from(["half-blind", "through", "rebated"])) if kind == "flush" else "half-blind"
    housed, tongue, side = draw(st.booleans()), size(4, 7), size(9, 14)
    return {
        "unit": unit,
        "openings": [size(70, 220) for _ in range(draw(st.integers(1, 4)))],
        "overall": (size(300, 700), size(280, 500)),
        "board": size(15, 22),
        "moisture": sorted(draw(st.lists(st.integers(4, 16), min_size=3, max_size=3))),
        "shop": draw(st.integers(0, 2)),
        "woods": [draw(st.sampled_from(WOODS)) for _ in range(3)],
        "rings": draw(st.sampled_from(["flat-sawn", "rift-sawn", "quarter-sawn"])),
        "front": {
            "kind": kind, "thickness": front, "film": size(0, 1),
            "below": 0 if kind == "overlay" else size(0, 2), "least gap": 0 if kind == "overlay" else size(0, 2),
            **({"setback": size(0, 3)} if kind == "flush" else {"overlay": size(4, 7)}),
            **({"inner front": size(13, 17)} if kind == "overlay" else {"lip": size(1, 3)} if kind == "lipped" else {}),
        },
        "corner": {"joint": joint, "lap": 0 if joint == "through" else size(4, 7)},
        "side": {"thickness": side, "gap": size(1, 2), "least gap": size(0, 3)},
        "back": {
            "thickness": size(8, 14), "joint": "housed" if housed else "dovetailed", "drop": size(0, 4),
            **({"housing": size(2, 5), "tail": size(0, 12)} if housed else {}),
        },
        "bottom": {
            "kind": draw(st.sampled_from(["solid", "sheet"])), "thickness": tongue + size(0, 3), "tongue": tongue,
            "up": size(8, 12), "groove": size(4, 7), "ease": size(0, 2),
        },
        "back room": size(5, 15),
    }  # fmt: skip


def written(chest, factor=1):
    """Its design file, every length times a factor."""

    def said(value):
        return text_of(F(value) * factor) if isinstance(value, F | int) else value

    def line(name, given):
        if not isinstance(given, dict):
            return f"  {name}: {said(given)}\n"
        return f"  {name}: {{{', '.join(f'{key}: {said(value)}' for key, value in given.items())}}}\n"

    board, openings, (width, depth) = chest["board"], chest["openings"], chest["overall"]
    height = sum(openings) + board * (len(openings) + 1)
    dry, between, damp = chest["moisture"]
    shop = (dry, between, damp)[chest["shop"]]
    case, front, side = (f"{{species: {wood}, rings: {chest['rings']}}}" for wood in chest["woods"])
    parts = "".join(line(name, chest[name]) for name in ("front", "corner", "side", "back", "bottom", "back room"))
    return (
        f"piece: Chance\nunit: {chest['unit']}\ngrid: {said({'mm': F(1, 2), 'in': F(1, 64)}[chest['unit']])}\n"
        f"overall: {{height: {said(height)}, width: {said(width)}, depth: {said(depth)}}}\n"
        f"case: {{side: {said(board)}, top: {said(board)}, bottom: {said(board)}, divider: {said(board)}}}\n"
        f"rows: {{number: {len(openings)}, rule: own list, openings: [{', '.join(map(said, openings))}]}}\n"
        f"climate: {{shop: {shop}, dry: {dry}, damp: {damp}}}\n"
        f"wood:\n  case: {case}\n  front: {front}\n  side: {side}\n  bottom: {side}\ndrawers:\n{parts}"
    )


@by_chance(chests(), few=25, **unshrunk)
def test_drawers_by_chance_close_to_their_openings_and_leave_their_gaps(chest):
    piece = made(written(chest))
    check_sums(chest, piece)
    check_gaps(chest, piece)


def check_sums(chest, piece):
    """Inside and parts close to the opening in all three directions."""
    front, side, back, bottom = (chest[name] for name in ("front", "side", "back", "bottom"))
    for drawer in piece.drawers:
        opening, (across, deep, high) = drawer.opening, free(drawer)
        assert across + 2 * (side["thickness"] + side["gap"]) == opening.width
        # from the case's face: what stands outside it, the front or fronts, the inside, the back, its tail, the room
        outside = {"flush": -front.get("setback", 0), "overlay": front["thickness"], "lipped": front.get("lip", 0)}
        behind = front["thickness"] + front.get("inner front", 0) + deep + back["thickness"] + back.get("tail", 0)
        assert behind + chest["back room"] == opening.depth + outside[front["kind"]]
        # the sides reach from the lap to the room behind them
        before = front["thickness"] if front["kind"] == "overlay" else 0
        assert part(drawer, "side")[0] + chest["corner"]["lap"] + before + chest["back room"] == (
            opening.depth + outside[front["kind"]]
        )
        assert high + bottom["up"] + bottom["tongue"] == drawer.side_height.value
        assert drawer.side_height.value + F(drawer.fit.side_gaps.now).limit_denominator(6400) == opening.height
        # the bottom lies in its grooves: as far as they are deep, less the ease; its back edge is that of the back
        wide, long = part(drawer, "bottom")
        assert wide == across + 2 * (bottom["groove"] - bottom["ease"])
        assert long == deep + bottom["groove"] + back["thickness"]
        between = 2 * (side["thickness"] - back["housing"]) if "housing" in back else 0
        assert part(drawer, "back")[0] == opening.width - 2 * side["gap"] - between
        assert part(drawer, "back")[1] == high - back["drop"]


def check_gaps(chest, piece):
    """The gap at the dampest is what was asked, and no step more."""
    step = {"mm": 0.1, "in": 1 / 32}[chest["unit"]]
    asked = [float(chest["side"]["least gap"]), float(chest["front"]["least gap"])]
    grown = [piece.season.woods[role].damp for role in ("side", "front")]
    for drawer in piece.drawers:
        for gaps, least, growth in zip((drawer.fit.side_gaps, drawer.fit.front_gaps), asked, grown, strict=True):
            if gaps is None:
                assert chest["front"]["kind"] != "flush"
                continue
            tightest = min(gaps.now, gaps.damp)  # the shop may be damper than the room ever is
            assert least - 1e-9 <= tightest < least + step * max(1.0, growth) + 1e-9
            assert gaps.damp <= gaps.dry
    assert not {"side_binds", "front_binds"} & {concern.code for concern in piece.concerns}


@by_chance(chests().filter(lambda chest: chest["unit"] == "mm"), few=6, **unshrunk)
def test_twice_the_piece_has_twice_the_drawers(chest):
    once, twice = (made(written(chest, factor)) for factor in (1, 2))
    for small, large in zip(once.drawers, twice.drawers, strict=True):
        for one, other in zip(small.sizes, large.sizes, strict=True):
            # a height by the season is rounded down to a tenth, and what is cut to it follows; all else is exact
            rounded = F(2, 10) if "height" in one.name or one.name.startswith(("back width", "rebate over")) else 0
            assert abs(other.value - 2 * one.value) <= rounded, one.name
        assert small.making.let_in * 2 == large.making.let_in
