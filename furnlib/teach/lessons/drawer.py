"""Lesson 3: the exercises on the parts of a drawer, its corner, its gap, its nod and its jam."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from furnlib.base.terms import total
from furnlib.base.units import write_length, write_number
from furnlib.plan.sizes.size import sum_size
from furnlib.teach.exercise import Exercise, Slip
from furnlib.trade.drawer.dovetail import tail_width
from furnlib.trade.drawer.droop import droop
from furnlib.trade.drawer.gaps import size_for_gap
from furnlib.trade.drawer.parts import Making, Opening, Part, Terms, drawer_parts
from furnlib.trade.drawer.racking import inside_to_slide

_LINES = ("front", "sides", "back", "bottom")


_OPEN = {
    **{"width": 500, "depth": 400, "high": 100, "front": 20, "lap": 6, "side": 12, "gap": 0, "room": 0},
    **{"back": 12, "drop": 0, "up": 10, "tongue": 6, "groove": 6, "ease": 0},
}
"""What an exercise leaves open; none of it changes an answer of that exercise."""


def _drawer(**given: Any) -> dict[str, Part]:
    """The parts of a half-blind drawer on runners, by name."""
    width, depth, high, front, lap, side, gap, room, back, drop, up, tongue, groove, ease = (_OPEN | given).values()
    making = Making(front, side, back, tongue, tongue, up, groove, gap, room, lap=lap, drop=drop, end_play=ease)
    return {part.name: part for part in drawer_parts(Opening(width, high, depth), making, high, high)}


def _side_length(case: Any, panel: Any, **making: Any) -> Any:
    return total(_drawer(depth=case - panel, **making)["side"].length)


def _back_height(**making: Any) -> Any:
    return total(_drawer(**making)["back"].width)


def _bottom(wide: Any, inside: Any, front: Any, back: Any, **making: Any) -> tuple[Any, Any]:
    """Length along the grain, across the drawer, and from front to back."""
    made = _drawer(width=wide, depth=front + inside + back, front=front, back=back, **making)["bottom"]
    return total(made.length), total(made.width)


def _front_fall(long: Any, high: Any, out: Any, play: Any) -> Any:
    return droop(high, play, long - out, out).front_fall


def _tail(high: Any, tails: Any, half: Any, gap: Any) -> Any:
    return tail_width(Fraction(high), tails, half, gap)


def _wood_high(opening: Any, below: Any, least: Any, film: Any, stretch: Any = 1) -> Any:
    """Height of the bare wood; without a stretch as it stands at the dampest."""
    return size_for_gap(opening, below, least, film, stretch)


def _lines(**given: Any) -> list[tuple[Terms, ...]]:
    """The sums behind each line of a part list."""
    front, side, back, bottom = _drawer(**given).values()
    return [(front.length,), (side.length,), (back.length, back.width), (bottom.length, bottom.width)]


def _sums(**given: Any) -> list[str]:
    written = [" and ".join(sum_size("", "mm", terms).rule for terms in sums) for sums in _lines(**given)]
    return [" ".join(line) for line in zip(_LINES, written, strict=True)]


def _part_list(plant: int, **given: Any) -> str:
    """A part list with one slip in it: the line with that number."""
    sizes = [[total(terms) for terms in sums] for sums in _lines(**given)]
    _, (side,), (back, _), bottom = sizes
    sizes[plant - 1] = ([given["width"]], [side - given["front"]], [back, given["high"]], bottom[::-1])[plant - 1]
    written = [" x ".join(write_length(size, "mm") for size in row) for row in sizes]
    return "; ".join(map(" ".join, zip(_LINES, written, strict=True)))


_PLANTED = (
    "It is as long as the opening is wide, and would not go in.",
    "Front and lap are both taken off; the lap alone is what lies before their ends.",
    "It is as high as the sides, and nothing can be slid in under it.",
    "Its grain would run from front to back; it would push the sides apart when it swells.",
)


def _judge_line(ticks: tuple[Fraction, ...], plant: int, **given: Any) -> tuple[bool, str]:
    """Accept the line that has the slip, and show the sum of another that is named."""
    named = [place for place, tick in enumerate(ticks) if tick]
    if len(named) > 1:
        return False, f"{len(named)} lines are named; one is wrong."
    right = named == [plant - 1]
    return right, _PLANTED[plant - 1] if right else f"As it should be: {_sums(**given)[named[0]]}."


EXERCISES = (
    Exercise(
        key="03a",
        question=(
            "A case is {case} mm deep in all, its back {panel} mm of that. Drawers stop with their fronts, {front}"
            " mm thick, level with the case; half-blind dovetails leave a lap of {lap} mm; behind the drawers {room}"
            " mm stay free. How long is a side?"
        ),
        numbers={"case": 420, "panel": 9, "front": 19, "lap": 5, "room": 12},
        solve=_side_length,
        kind="length",
        tolerance="L",
        hints=(
            "Walk along the side from the face of the case to its back: what comes before it, and what behind?",
            "Before its end lies the lap alone; the rest of the front has the side's tails in it.",
        ),
        worked="{case} - {panel} - {room} - {lap} = {answer}.",
        slips=(
            Slip(
                "lap and front are both taken off, though the lap is part of the front",
                lambda front, **given: _side_length(front=front, **given) - front,
            ),
            Slip(
                "the lap is taken to be as thick as the front",
                lambda front, lap, **given: _side_length(front=front, lap=lap, **given) + lap - front,
            ),
            Slip(
                "what the side is let in by is taken off in place of the lap",
                lambda front, lap, **given: _side_length(front=front, lap=lap, **given) + 2 * lap - front,
            ),
            Slip("the lap is forgotten", lambda lap, **given: _side_length(lap=lap, **given) + lap),
            Slip("the back room is forgotten", lambda room, **given: _side_length(room=room, **given) + room),
        ),
    ),
    Exercise(
        key="03b",
        question=(
            "An inch shop. The sides of a drawer are {high} in high. The groove for its bottom begins {up} in above"
            " their lower edge and is {tongue} in wide; the bottom's upper face is level with the upper edge of the"
            " groove. The back stands on it, and ends {drop} in below the sides. How high is the back?"
        ),
        numbers={"high": Fraction(9, 2), "up": Fraction(3, 8), "tongue": Fraction(1, 4), "drop": Fraction(1, 16)},
        solve=_back_height,
        kind="length",
        tolerance="L",
        unit="in",
        grid=Fraction(1, 64),
        hints=(
            "The bottom slides in under the back. On what does the back stand, and how high is that?",
            "From the height of the side take what lies under the back, and what is free over it.",
        ),
        worked="{high} - {up} - {tongue} - {drop} = {answer}.",
        slips=(
            Slip(
                "the back is made as high as the sides, and no bottom can be slid in under it", lambda high, **_: high
            ),
            Slip(
                "the back is taken to stand on the lower edge of the groove",
                lambda tongue, **given: _back_height(tongue=tongue, **given) + tongue,
            ),
            Slip(
                "only the width of the groove is taken off, and not what lies under it",
                lambda up, **given: _back_height(up=up, **given) + up,
            ),
            Slip("what it ends below the sides is forgotten", lambda drop, **given: _back_height(drop=0, **given)),
        ),
    ),
    Exercise(
        key="03c",
        question=(
            "A drawer is {wide} mm wide over its sides, which are {side} mm thick; from the front, {front} mm thick,"
            " to its back, {back} mm thick, it is {inside} mm deep inside. Its bottom of solid wood lies in grooves"
            " {groove} mm deep in front and sides, with {ease} mm of air at each end of its grain, and ends level"
            " with the rear face of the back. Give its length along the grain, then its size across the grain."
        ),
        numbers={"wide": 520, "side": 13, "front": 20, "back": 12, "inside": 340, "groove": 5, "ease": 1},
        solve=_bottom,
        kind="lengths",
        tolerance="L",
        hints=(
            "Wood swells across its grain: which way must the grain run, so that it swells to where there is room?",
            "Along the grain it goes into two grooves; from front to back into one, and on under the back.",
        ),
        worked=(
            "Grain from side to side: {between} between the sides, two grooves more and the air less; front to back"
            " {inside} + {groove} + {back}: {answer}."
        ),
        shown=lambda wide, side, **_: {"between": write_number(wide - 2 * side)},
        slips=(
            Slip(
                "the grain runs from front to back, and the bottom pushes the sides apart in August",
                lambda **given: _bottom(**given)[::-1],
            ),
            Slip(
                "only one of the two grooves is counted",
                lambda groove, **given: (_bottom(groove=groove, **given)[0] - groove, ...),
            ),
            Slip("it is measured from the outside, less one groove", lambda wide, groove, **_: (wide - groove, ...)),
            Slip("the air at its ends is forgotten", lambda ease, **given: (_bottom(ease=0, **given)[0], ...)),
            Slip(
                "it ends before the back, and does not pass under it",
                lambda inside, groove, **_: (..., inside + groove),
            ),
            Slip("the groove in the front is forgotten", lambda inside, back, **_: (..., inside + back)),
        ),
    ),
    Exercise(
        key="03d",
        question=(
            "A drawer is {long} mm long with sides {high} mm high, and has {play} mm of play up to the kicker."
            " Pulled out {out} mm, how far does the lower edge of its front fall?"
        ),
        numbers={"long": 420, "high": 90, "out": 300, "play": Fraction(5, 2)},
        solve=_front_fall,
        kind="length",
        tolerance="P",
        hints=(
            "It turns about the front edge of its runner. How long is the arm inside, how long the one outside?",
            "Inside it rises by the play; outside it falls as much more as that arm is longer.",
        ),
        worked="{play} x {out} / {inside}, and a little more because its corner swings back: {answer}.",
        shown=lambda long, out, **_: {"inside": write_number(long - out)},
        slips=(
            Slip("the front is taken to fall by the play itself", lambda play, **_: play),
            Slip("the whole length is taken for what is inside", lambda long, out, play, **_: play * out / long),
            Slip(
                "the whole length is taken for what is pulled out",
                lambda long, out, play, **_: play * long / (long - out),
            ),
            Slip("inside and outside change places", lambda long, out, play, **_: play * (long - out) / out),
        ),
    ),
    Exercise(
        key="03e",
        question=(
            "A drawer is {width} mm wide and has two pulls, each {end} mm from an end of its front. The friction of"
            " side on guide is {friction}. Someone takes one pull only. How much of the drawer must still be inside"
            " so that it does not bind?"
        ),
        numbers={"width": 700, "end": 130, "friction": Fraction(3, 10)},
        solve=lambda width, end, friction: inside_to_slide(Fraction(width) / 2 - end, friction),
        kind="length",
        tolerance="P",
        hints=(
            "The pull turns the drawer until it bears on two places, one on each side. How far off the middle is it?",
            "Both places press, and both drag.",
        ),
        worked="Off the middle by {offset}; twice {friction} x {offset} = {answer}. Wax does not make the arm longer.",
        shown=lambda width, end, **_: {"offset": write_number(Fraction(width) / 2 - end)},
        slips=(
            Slip(
                "only one of the two places is seen to drag",
                lambda width, end, friction: friction * (Fraction(width) / 2 - end),
            ),
            Slip(
                "the pull is measured from the end of the front",
                lambda end, friction, **_: inside_to_slide(end, friction),
            ),
            Slip(
                "the distance from pull to pull is taken for that from the middle",
                lambda width, end, friction: inside_to_slide(width - 2 * end, friction),
            ),
            Slip(
                "the pull is taken to stand at the very end of the front",
                lambda width, friction, **_: inside_to_slide(Fraction(width) / 2, friction),
            ),
        ),
    ),
    Exercise(
        key="03f",
        question=(
            "An opening is {width} mm wide, and {depth} deep to the inside of the case's back. Its drawer has a"
            " front of {front} with a lap of {lap}, sides {high} high and {side} thick with a gap of {gap} on either"
            " hand, {room} free behind, a back of {back} that ends {drop} below the sides, and a solid bottom in"
            " grooves {up} up, {tongue} wide and {groove} deep, with {ease} of air at each end of its grain. The part"
            " list, length along the grain first: {lines}. One line is wrong: which? Choose from {offered}."
        ),
        numbers={
            **{"width": 420, "depth": 360, "front": 20, "lap": 6, "high": 150, "side": 12, "gap": 1, "room": 12},
            **{"back": 12, "drop": 3, "up": 10, "tongue": 6, "groove": 6, "ease": 1, "plant": 4},
        },
        solve=lambda plant, **_: [_LINES[plant - 1]],
        kind="words",
        tolerance="X",
        offered=_LINES,
        hints=(
            "Take one line at a time and do its sum again, from the opening.",
            "All numbers can be right and still stand in the wrong places: which way must the grain of each part run?",
        ),
        worked="One at a time: {sums}. The line that is not so: {answer}.",
        judge=_judge_line,
        shown=lambda plant, **given: {"lines": _part_list(plant, **given), "sums": "; ".join(_sums(**given))},
    ),
    Exercise(
        key="03g",
        question=(
            "A side {high} mm high gets {tails} equal tails, cut by hand. At its end the half pins along both edges"
            " are {half} mm wide, and the gaps between the tails {gap} mm, to suit a chisel. How wide is a tail"
            " there?"
        ),
        numbers={"high": 127, "tails": 4, "half": 9, "gap": 7},
        solve=_tail,
        kind="length",
        tolerance="S",
        hints=(
            "Draw the end of the side from edge to edge: half pin, tail, gap, tail and so on. Count each.",
            "There is one gap fewer than tails; what both half pins and all gaps leave is shared by the tails.",
        ),
        worked="{high} less two half pins and {gaps} gaps is {left}; {left} / {tails} = {answer}.",
        shown=lambda high, tails, half, gap: {
            "gaps": str(tails - 1),
            "left": write_number(high - 2 * half - (tails - 1) * gap),
        },
        slips=(
            Slip(
                "a gap is counted for every tail, where only those between two count",
                lambda high, gap, **given: _tail(high=high - gap, gap=gap, **given),
            ),
            Slip("the half pins are forgotten", lambda half, **given: _tail(half=0, **given)),
            Slip("only one half pin is taken off", lambda half, **given: _tail(half=Fraction(half) / 2, **given)),
            Slip("the gaps are forgotten", lambda gap, **given: _tail(gap=0, **given)),
        ),
    ),
    Exercise(
        key="03h",
        question=(
            "A painted front goes into an opening {opening} mm high. It stands {below} mm above the divider, the"
            " paint is {film} mm thick on each edge, and at the dampest, when its wood is {stretch} times as high as"
            " today, {least} mm are to stay free over it. How high is the bare wood cut today, to a tenth of a mm?"
        ),
        numbers={"opening": 165, "below": 1.5, "least": 1, "film": 0.3, "stretch": 1.01},
        solve=_wood_high,
        kind="length",
        tolerance="X",
        grid=Fraction(1, 10),
        hints=(
            "Go from the divider up at the dampest: air, paint, wood, paint, air. What is left for the wood?",
            "What is left is the wood as it stands then; today it is so many times less.",
        ),
        worked="{opening} - {below} - {least} and two films less: {left}; {left} / {stretch} = {answer}.",
        shown=lambda stretch, **given: {"left": write_number(_wood_high(**given))},
        slips=(
            Slip(
                "the paint is counted once, though it stands on both edges",
                lambda film, **given: _wood_high(film=film / 2, **given),
            ),
            Slip("the paint is forgotten", lambda film, **given: _wood_high(film=0, **given)),
            Slip("the season is forgotten", lambda stretch, **given: _wood_high(**given)),
            Slip(
                "it is cut as much higher as it will grow, in place of lower",
                lambda stretch, **given: _wood_high(**given) * stretch,
            ),
        ),
    ),
)
