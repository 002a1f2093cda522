"""A fault in what a design file says of drawers, pulls, back, grain and strips.

Each row of the tables is one slip of a maker: what stands in place of what, the path and what the sentence
must say; where the line is not that of the slip, its words. Numbers in the sentences are worked by hand.
"""

from __future__ import annotations

import pytest
from chest_of_drawers import A_LIST, ABOVE, BOX, JIG, NO_LENGTH, NO_NUMBER, NO_ROW, NO_TAIL, OR_MORE, SOUND, made, slips
from faults import check_sentence, edited, faults


def test_the_files_that_are_spoiled_here_are_sound():
    # what they have to settle is no fault: no stop in row 3, as the file says
    assert {concern.code for concern in made(SOUND).concerns} == {"groove_shows", "no_stop"}
    assert [drawer.side_height.value for drawer in made(JIG).drawers] == [80, 100, 120, 140, 160, 180, 200]


# The drawers


PARTS = [
    # fronts; 380 less a back of 10 and room of 9 leaves 361, less 400, 22 and 11 is -72
    ("kind: flsh\n    thickness: 22", "thickness: 22", "drawers, front, kind", "did you mean 'flush'?", "kind: flsh"),
    (
        "kind: overlay\n    thickness: 22", "thickness: 22",
        "drawers, front, overlay", "say how far the front goes", "front:\n    k",
    ),
    (
        "kind: lipped\n    overlay: 7\n    lip: 7", "setback: 0",
        "drawers, front, lip", "must lie from 0 to 6.5: let the",
    ),
    (
        "kind: lipped\n    overlay: 7", "setback: 0",
        "drawers, front, lip", "is 0; it must be more than 0", "front:\n    t",
    ),
    (
        "kind: overlay\n    overlay: 7", "setback: 0",
        "drawers, front, inner front", "needs one that the sides", "front:\n    t",
    ),
    (
        "kind: overlay\n    overlay: 7\n    inner front: 15\n    setback: 2", "setback: 0", "drawers, front, setback",
        "is 2; it must be 0: a front that goes past the opening stands against the case",
    ),
    ("setback: 400", "setback: 0", "drawers", "The depth inside is -72; it must be more than 0", "drawers:"),
    ("setback: -1", "setback: 0", "drawers, front, setback", OR_MORE),
    ("below: -1", "below: 1.5", "drawers, front, below", OR_MORE),
    ("film: thick", "film: 0.1", "drawers, front, film", f"'thick' {NO_LENGTH}"),
    # the groove begins 10 over the sides' lower edge
    ("below: 10", "below: 1.5", "drawers, front, below", "its groove begins at 10; leave wood under", "below: 10"),
    # 83 less 1.5 below, 82 and two films of 0.1 is -0.7
    ("least gap: 82", "least gap: 1.25", "drawers, front", "row 1 comes to -0.7; give less gap", "front:\n    t"),
    ("least gap: 84", "least gap: 1.25", "drawers, front", "or a taller opening", "front:\n    t"),
    # corners: half of a front of 22 would be 11
    ("joint: halfblind", "joint: half-blind", "drawers, corner, joint", "no joint; did you mean 'half-blind'?"),
    (
        "joint: through", "joint: half-blind",
        "drawers, corner, lap", "is 6.5; it must be 0: in a through corner", "lap: 6.5",
    ),
    ("lap: 0", "lap: 6.5", "drawers, corner, lap", "is 0; it must lie between 0 and 22: a third of the front is usual"),
    ("lap: 22", "lap: 6.5", "drawers, corner, lap", "is 22; it must lie between 0 and 22"),
    ("lap: -1", "lap: 6.5", "drawers, corner, lap", OR_MORE),
    ("tail: 0", "tail: 24", "drawers, corner, tails, tail", ABOVE),
    ("pin: 0", " pin: 6.25", "drawers, corner, tails, pin", ABOVE),
    ("half pin: 0", "half pin: 8", "drawers, corner, tails, half pin", ABOVE),
    # an opening of 83 less 2.5, over 1 + 4 x 0.00180: 79.9; one tail of 79.9 - 100 less 2/7 of 22 - 6.5
    ("half pin: 50", "half pin: 8", "drawers, corner", f"is -24 37/70; {NO_TAIL}", "corner:"),
    ("slope: 3", "slope: 1/7", "drawers, corner", NO_TAIL, "corner:"),
    ("slope: -1/7", "slope: 1/7", "drawers, corner", "The slope is -1/7; it must be 0 or more", "corner:"),
    ("slope: steep", "slope: 1/7", "drawers, corner, tails, slope", f"'steep' {NO_NUMBER}"),
    ("slope: 1/7\n      number: {1: 0}", "slope: 1/7", "drawers, corner", "0 tails do not hold a corner", "corner:"),
    ("slope: 1/7\n      number: {1: 40}", "slope: 1/7", "drawers, corner", NO_TAIL, "corner:"),
    ("slope: 1/7\n      number: {9: 4}", "slope: 1/7", "drawers, corner, tails, number", NO_ROW),
    (
        "slope: 1/7\n      number: {1: 3, 01: 4}", "slope: 1/7",
        "drawers, corner, tails, number", "Row 1 stands here twice",
    ),
    ("lap: 6.5\n    jig: {pin: 4}", "lap: 6.5", "drawers, corner", "for the jig and for the hand; keep one", "corner:"),
    # sides; 480 less twice 240 and 12
    ("gap: -1", " gap: 1.1", "drawers, side, gap", OR_MORE),
    ("gap: 240", " gap: 1.1", "drawers", "The width inside is -24; it must be more than 0", "drawers:"),
    ("least gap: 83", "least gap: 2.5", "drawers, side", "side height of row 1 comes to 0; give less gap", "side:\n"),
    # backs
    ("joint: dovetaild", "drop: 2.2", "drawers, back, joint", "did you mean 'dovetailed'?"),
    ("housing: 3", "drop: 2.2", "drawers, back, housing", "must be 0: a back that is dovetailed stands in none"),
    ("tail: 3", "drop: 2.2", "drawers, back, tail", "must be 0: the sides end with a back that is dovetailed"),
    (
        "joint: housed", "drop: 2.2",
        "drawers, back, housing", "it must lie between 0 and 12: a third of", "back:\n    t",
    ),
    ("joint: housed\n    housing: 12", "drop: 2.2", "drawers, back, housing", "is 12; it must lie between 0 and 12"),
    # 79.9 less 10 + 5.5 of the floor and 70 is -5.6
    ("drop: 70", "drop: 2.2", "drawers, back", "The height of the back is -5.6; it must be more", "back:\n    t"),
    ("drop: -1", "drop: 2.2", "drawers, back, drop", OR_MORE),
    # bottoms: 10 + 5.5 less 17 is -1.5; 10 + 9 less 8.5 is over the groove's lower edge
    ("kind: ply", "kind: solid", "drawers, bottom, kind", "no kind of bottom; what can stand there: sheet, solid"),
    (
        "thickness: 17", "thickness: 8.5",
        "drawers, bottom, thickness", "The underside of the bottom is -1.5; it must lie",
    ),
    ("tongue: 9", "tongue: 5.5", "drawers, bottom, thickness", "is 10.5; it must lie from 0 to 10", "thickness: 8.5"),
    ("up: 80", "up: 10", "drawers, back", "The height of the back is -7.8; it must be more than 0", "back:\n    t"),
    ("up: 0", "up: 10", "drawers, bottom, up", ABOVE),
    ("groove: 12", "groove: 5.75", "drawers, bottom, groove", "it must lie between 0 and 12: half the thickness is"),
    ("groove: 13", "groove: 5.75", "drawers, bottom, groove", "it must lie between 0 and 12: half the thickness is"),
    ("ease: 5.75", "ease: 0.5", "drawers, bottom, ease", "so that the bottom falls out; ease it less"),
    (
        "overhang: 10", "overhang: 0.3",
        "drawers, bottom, overhang", "is 10; it must lie from 0 to 9: cut the bottom short",
    ),
    (
        "slip: 12", "overhang: 0.3",
        "drawers, bottom, slip height", "is -15.5; it must be more than 0: make the slip higher", "bottom:",
    ),
    (
        "slip: 5\n    slip height: 18", "overhang: 0.3",
        "drawers, bottom, groove", "must lie between 0 and 5", "groove: 5.75",
    ),
    ("back room: -9", "back room: 9", "drawers, back room", OR_MORE),
    ("back room: 400", "back room: 9", "drawers", "The depth inside is -63; it must be more than 0", "drawers:"),
    # what carries them
    (
        "carried: rollers", "carried: runners",
        "drawers, riding, carried", "what can stand there: runners, side-hung, sl",
    ),
    (
        "carried: slides", "carried: runners",
        "drawers, riding, slide", "the clearance on each side that the slide's maker", "riding:",
    ),
    (
        "carried: slides\n    slide: 13", "carried: runners",
        "drawers, riding, slide", "is 13; it must lie from 0 to 1.1: make",
    ),
    (
        "carried: side-hung", "carried: runners",
        "drawers, riding, guide", "give the width of the guide's groove", "riding:",
    ),
    (
        "guide: {depth: 1, width: 14, up: 30}\n    carried: side-hung", "carried: runners",
        "drawers, riding, guide, depth", "is 1; it must lie between 1.1 and 12: half the side", "guide:",
    ),
    (
        "guide: {depth: 6.5, width: 14, up: 12}\n    carried: side-hung", "carried: runners",
        "drawers, riding, guide, up", "wood between guide and groove is -0.25; it must", "guide:",  # 12 - 6.5 - 5.75
    ),
    (
        "guide: {depth: 6, width: 14, up: 70}\n    carried: side-hung", "carried: runners",
        "drawers, riding, guide, up", "wood over the guide is -4.1; it must be more than 0", "guide:",  # 79.9 - 84
    ),
    ("kicker: -1", "carried: runners", "drawers, riding, kicker", OR_MORE),
    ("no kicker: {9: 120}", "carried: runners", "drawers, riding, no kicker", NO_ROW),
    ("no kicker: {1: -2}", "carried: runners", "drawers, riding, no kicker, 1", OR_MORE),
    ("no kicker: {1: 3, 01: 4}", "carried: runners", "drawers, riding, no kicker", "Row 1 stands here twice"),
    ("no kicker: [1]", "carried: runners", "drawers, riding, no kicker", "names and values should stand below this"),
    ("no stop: 3", "no stop: [3]", "drawers, riding, no stop", A_LIST),
    ("no stop: [9]", "no stop: [3]", "drawers, riding, no stop", NO_ROW),
    ("no guide: [1, 9]", "no stop: [3]", "drawers, riding, no guide", NO_ROW),
    ("no runner: [0]", "no stop: [3]", "drawers, riding, no runner", "Row 0 is not there; the rows run from 1 to 7"),
    ("guide gap: -6", "no stop: [3]", "drawers, riding, guide gap", OR_MORE),
    (
        "friction: 0", "friction: 0.4",
        "drawers, riding, friction", "it must be more than 0: give drag over force, about",
    ),
    ("friction: slick", "friction: 0.4", "drawers, riding, friction", f"'slick' {NO_NUMBER}"),
]  # fmt: skip


@slips(PARTS)
def test_the_drawers_themselves(written, instead, path, said, place):
    text = edited(SOUND, (instead, f" {written}" if instead.startswith(" ") else written))
    (sentence,) = faults(text)
    check_sentence(sentence)
    line = text[: text.index(place, text.index("\ndrawers:"))].count("\n") + 1
    assert sentence.startswith(f"chest.yaml line {line}, {path}: "), sentence
    assert said in sentence, sentence


# By the jig, and as built


BY_JIG = [
    # tails of 20 - 4.5 with a slope of 3 over 22 - 6.5: 15.5 - 93
    ("pin: 0", "pin: 4.5", "drawers, corner, jig, pin", ABOVE),
    ("pin: 21", "pin: 4.5", "drawers, corner", NO_TAIL, "corner:"),
    ("pin: 4.5\n      slope: 3", "pin: 4.5", "drawers, corner", f"is -77.5; {NO_TAIL}", "corner:"),
    ("pn: 3\n      pin: 4.5", "pin: 4.5", "drawers, corner, jig", "there is no 'pn' here; did you mean 'pin'?", "pn:"),
    # a first tail of 15.5 about a middle 1 from the edge begins 6.75 outside
    (
        "leftover: top rail\n  first offset: 1", "leftover: top rail",
        "drawers, corner", "half pin is -6.75; it must be 0", "corner:",
    ),
    (
        "", "jig:\n  pitch: 20\n  clearance: 3\n  leftover: top rail\n",
        "drawers, corner", "none is settled; add 'jig:'", "corner:",
    ),
    # row 1 was planned 83 for sides of 80, and came out lower
    (
        "as built: [{openings: {1: 79}}]\ngrain:", "grain:",
        "drawers, side", "is 80 high; it will not go into an", "side:\n    t",
    ),
]  # fmt: skip


@slips([row if len(row) == 5 or row[0] else (*row, "corner:") for row in BY_JIG])
def test_drawers_by_the_jig(written, instead, path, said, place):
    text = edited(JIG, (instead, written))
    (sentence,) = faults(text)
    check_sentence(sentence)
    line = text[: text.index(place, text.index("\ndrawers:"))].count("\n") + 1
    assert sentence.startswith(f"chest.yaml line {line}, {path}: "), sentence
    assert said in sentence, sentence


INCHES = [
    ("groove: 1 1/2", "groove: 1/4", "bottom, groove", "The groove depth is 1 1/2; it must lie between 0 and 1/2"),
    ("lap: 3/4", "lap: 1/4", "corner, lap", "The lap is 3/4; it must lie between 0 and 3/4"),
    ("ease: 1/4", "ease: 1/64", "bottom, ease", "so that the bottom falls out"),
    # 3/8 + 1/4 less 1
    (
        "kind: sheet, thickness: 1,",
        "kind: sheet, thickness: 1/4,",
        "bottom, thickness",
        "underside of the bottom is -3/8",
    ),
]


@pytest.mark.parametrize(("written", "instead", "path", "said"), INCHES)
def test_a_fault_in_inches_is_said_in_fractions_of_an_inch(written, instead, path, said):
    (sentence,) = faults(edited(BOX, (instead, written)))
    check_sentence(sentence)
    assert f", drawers, {path}: " in sentence
    assert said in sentence


# Pulls, back, grain, strips


AROUND = [
    (
        "shares: [0]", "shares: [1/2]",
        "pulls", "A pull at 0 of the width stands outside it; give shares between", "pulls:",
    ),
    (
        "shares: [1/2, 2]", "shares: [1/2]",
        "pulls", "A pull at 2 of the width stands outside it; give shares between", "pulls:",
    ),
    ("shares: 1/2", "shares: [1/2]", "pulls, shares", A_LIST),
    ("shares: []", "shares: [1/2]", "pulls", "'row: 1' carries that row's middles on", "pulls:"),
    ("shares: [1/2]\n  row: 1", "shares: [1/2]", "pulls", "'shares: [1/2]' the width", "pulls:"),
    ("row: 9", "shares: [1/2]", "pulls", "Row 9 is not there; the rows run from 1 to 7", "pulls:"),
    ("base: 0", "base: 23", "pulls, base", ABOVE),
    ("hole: 0", "hole: 4.5", "pulls, hole", ABOVE),
    ("thread: 0", "thread: 13", "pulls, thread", ABOVE),
    ("spacing: -3\n  thread: 13", "thread: 13", "pulls, spacing", OR_MORE, "spacing:"),
    # holes at 240 - 1.1 - 250
    ("spacing: 500\n  thread: 13", "thread: 13", "pulls", "centre -11.1 inside the edge and breaks out", "pulls:"),
    ("raised: 1\n  thread: 13", "thread: 13", "pulls", "is raised is 1; it must lie between -0.5 and 0.5", "pulls:"),
    ("kind: plank", "kind: boards", "back, kind", "no kind of back; did you mean 'panel'?"),
    (
        "kind: panel\n  frame: 300", "kind: boards",
        "back", "leaves nothing of the panel to be seen; make it narrower", "back:",
    ),
    ("thickness: 0", "thickness: 10", "back, thickness", ABOVE),
    ("thickness: 380", "thickness: 10", "back, thickness", "as thick as the piece is deep and leaves no drawers"),
    ("rebate: -1", "rebate: 12.5", "back, rebate", OR_MORE),
    ("rebate: 19", "rebate: 12.5", "back, rebate", "is 19 and the case 19 thick, so it saws the case through"),
    ("ease: 12.5", "overlap: 3.2", "back, ease", "is 12.5 and the rebate 12.5, so that the back falls through"),
    ("number: 0", "number: 5", "back", "The back has 0 boards; it must be a whole number from 1 up", "back:"),
    ("number: -5", "number: 5", "back", "The back has -5 boards; it must be a whole number from 1 up", "back:"),
    ("gap: 200", "gap: 0.6", "back", "it must be more than 0: leave smaller gaps or take fewer boards", "back:"),
    ("gap: -1", "gap: 0.6", "back, gap", OR_MORE),
    ("overlap: -3", "overlap: 3.2", "back, overlap", OR_MORE),
    ("course: along", "course: along the rows", "grain, course", "what can stand there: along the rows, down the case"),
    ("kerf: 0", "kerf: 2.9", "grain, kerf", ABOVE),
    ("trim: -1", "trim: 1.9", "grain, trim", OR_MORE),
    ("dividers: maybe", "trim: 1.9", "grain, dividers", "'maybe' is no answer; what can stand there: no, yes"),
    ("fixed: 0", "fixed: 40.5", "strips, fixed", ABOVE),
    (
        "fixed: 380", "fixed: 40.5",
        "strips", "stands 380 from the front edge, behind the inside of the back at 370", "strips:",
    ),
    ("screws: [190, 400]", "screws: [190, 340]", "strips", "A screw stands 400 from the front edge", "strips:"),
    ("screws: [190, 191]", "screws: [190, 340]", "strips", "at 190 and 191 run into one another", "strips:"),
    ("screws: [-3]", "screws: [190, 340]", "strips, screws, 1", ABOVE),
    ("screws: 190", "screws: [190, 340]", "strips, screws", A_LIST),
    ("gauge: 13", "gauge: 8", "strips", "gauge is 13; the table has 0, 1, 2", "strips:"),
    ("gauge: big", "gauge: 8", "strips, gauge", f"'big' {NO_NUMBER}"),
    ("extra: -1", "extra: 0.7", "strips, extra", OR_MORE),
]  # fmt: skip


@slips(AROUND)
def test_what_stands_round_the_drawers(written, instead, path, said, place):
    text = edited(SOUND[: SOUND.index("pulls:")], ("thickness: 12\n", "thickness: 12\n"))
    rest = edited(SOUND[len(text) :], (f"{instead}\n", f"{written}\n"))
    (sentence,) = faults(text + rest)
    check_sentence(sentence)
    top = "\n" + place if place in ("back:", "pulls:", "strips:") else place
    line = (text + rest)[: (text + rest).index(top, len(text) - 1) + top.startswith("\n")].count("\n") + 1
    assert sentence.startswith(f"chest.yaml line {line}, {path}: "), sentence
    assert said in sentence, sentence
