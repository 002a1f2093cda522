"""Lesson 4: the exercises on wood that moves: moisture, change, gaps, slots, and by which law."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from furnlib.base.units import write_number
from furnlib.teach.exercise import Exercise, Slip
from furnlib.trade.case.slots import slot
from furnlib.trade.drawer.gaps import gap_to_leave
from furnlib.trade.wood.moisture import balance_moisture
from furnlib.trade.wood.movement import HIGH, LOW, change_by_coefficient, change_by_shrinkage

_NEAR = Fraction(3, 10)  # per cent of moisture that a chart can be read to
_SPANS = {"7 to 12": (7, 12), "5 to 9": (5, 9), "8 to 14": (8, 14), "10 to 16": (10, 16)}
_PLACES = ("near the front", "in the middle", "near the back", "at both ends")


def _moisture(temperature: float, humidity: float, **_: float) -> float:
    return round(float(balance_moisture(float(temperature), float(humidity))), 1)  # as the table is printed


def _judge_moisture(answer: Fraction, **air: float) -> tuple[bool, str]:
    return abs(answer - Fraction(str(_moisture(**air)))) <= _NEAR, ""


def _change(width: float, a_metre: float, low: float, high: float) -> float:
    """By a coefficient in mm for a metre and 1 %."""
    return float(change_by_coefficient(float(width), float(a_metre) / 1000, float(low), float(high)))


def _gap(least: float, height: float, a_metre: float, now: float, damp: float, **_: float) -> float:
    return float(gap_to_leave(float(least), _change(height, a_metre, now, damp)))


def _slot(
    distance: float, flat: float, now: float, dry: float, damp: float, shank: float, extra: float, **_: Any
) -> Any:
    """Its length, and how far today's screw sits off its middle towards the fixed point."""
    stretches = (1 + _change(1, flat, now, moisture) for moisture in (damp, dry))
    made = slot(float(distance), float(shank), float(extra), *stretches)
    return made.length, -made.off_middle


def _lasting(lowest: float, highest: float) -> list[str]:
    """The spans that lie between two moistures."""
    return [words for words, (low, high) in _SPANS.items() if lowest <= low and high <= highest]


EXERCISES = (
    Exercise(
        key="04a",
        question=(
            "Boards left the kiln at {kiln} %, were varnished at once, and have stood a summer in a room at"
            " {temperature} °C and {humidity} % relative humidity. What is their moisture content in the end, in %?"
            " Read it from the chart or the table."
        ),
        numbers={"kiln": 7, "temperature": 24, "humidity": 65},
        solve=_moisture,
        kind="number",
        tolerance="P",
        hints=(
            "Wood knows nothing of its past: in time it settles at what balances the air it stands in.",
            "Go up from the humidity to the line of that temperature, and across to the moisture content.",
        ),
        worked="Wood at {temperature} °C and {humidity} % settles at {answer} %; varnish only makes it take longer.",
        judge=_judge_moisture,
        slips=(
            Slip("kiln-dry wood is taken to stay dry, or varnish to stop it", lambda kiln, **_: kiln),
            Slip("the humidity of the air is taken for the moisture of the wood", lambda humidity, **_: humidity),
            Slip(
                "the humidity is taken as a share of all that wood can hold before it stops moving",
                lambda humidity, **_: 30 * humidity / 100,
            ),
        ),
    ),
    Exercise(
        key="04b",
        question=(
            "A flat-sawn case side is {width} mm deep across the grain and {length} mm high along it. Across the grain"
            " a flat-sawn board of this wood changes by {flat} mm in a metre for each per cent of moisture, a"
            " quarter-sawn one by {quarter}. How many mm deeper is it at {high} % than at {low} %?"
        ),
        numbers={"width": 380, "length": 1149, "flat": 2.48, "quarter": 1.26, "low": 7, "high": 12},
        solve=lambda width, flat, low, high, **_: _change(width, flat, low, high),
        kind="length",
        tolerance="S",
        hints=(
            "Only across the grain it moves. And by how many per cent does its moisture change?",
            "So much for a metre and one per cent: take it times the depth in metres, times the per cents.",
        ),
        worked="{width} / {metre} x {flat} x ({high} - {low}) = {answer}.",
        shown=lambda **_: {"metre": "1000"},
        slips=(
            Slip(
                "the length along the grain is taken",
                lambda length, flat, low, high, **_: _change(length, flat, low, high),
            ),
            Slip(
                "the change of moisture is left out: the figure is for one per cent",
                lambda width, flat, **_: _change(width, flat, 0, 1),
            ),
            Slip(
                "the moisture at the end is taken for its change",
                lambda width, flat, high, **_: _change(width, flat, 0, high),
            ),
            Slip(
                "the figure of a quarter-sawn board is taken",
                lambda width, quarter, low, high, **_: _change(width, quarter, low, high),
            ),
        ),
    ),
    Exercise(
        key="04c",
        question=(
            "A flush front is {height} mm high and {long} mm long, flat-sawn, and moves {flat} mm in a metre for each"
            " per cent. The shop has it at {now} %; its room runs from {dry} % to {damp} %. At the dampest {least} mm"
            " shall be left over it. What gap do you leave today?"
        ),
        numbers={"height": 203, "long": 480, "flat": 2.48, "dry": 6, "now": 9, "damp": 13, "least": 1},
        solve=lambda flat, **numbers: _gap(a_metre=flat, **numbers),
        kind="length",
        tolerance="S",
        hints=(
            "From today it can still grow: by what? It shrinks as well, but that opens the gap.",
            "Its growth from now to the dampest, and what shall be left then.",
        ),
        worked="{least} + {height} / {metre} x {flat} x ({damp} - {now}) = {answer}.",
        shown=lambda **_: {"metre": "1000"},
        slips=(
            Slip(
                "what shall be left at the dampest is forgotten",
                lambda flat, **n: _gap(a_metre=flat, **n | {"least": 0}),
            ),
            Slip("today's gap is taken for the one at the dampest, without growth", lambda least, **_: least),
            Slip(
                "the whole year is allowed for, from the driest, though the wood is damper today",
                lambda flat, dry, **n: _gap(a_metre=flat, **n | {"now": dry}),
            ),
            Slip(
                "the length is taken, which runs along the grain",
                lambda flat, long, **n: _gap(a_metre=flat, **n | {"height": long}),
            ),
        ),
    ),
    Exercise(
        key="04d",
        question=(
            "A strip is screwed across a flat-sawn case side {width} mm deep that moves {flat} mm in a metre for each"
            " per cent. One screw holds in a round hole; the last one stands {distance} mm from it. Today the side is"
            " at {now} %; its room runs from {dry} % to {damp} %. The screw is {shank} mm thick and shall have {extra}"
            " mm to spare at either end. How long is the slot in the strip, and how far off its middle does the screw"
            " sit today, towards the round hole?"
        ),
        numbers={
            **{"width": 520, "distance": 400, "flat": 2.48, "now": 8, "dry": 7, "damp": 12},
            **{"shank": 4, "extra": 0.5},
        },
        solve=_slot,
        kind="lengths",
        tolerance="S",
        hints=(
            "How far does the screw go from today to the dampest, and how far from today to the driest? They differ.",
            "Length: both ways, the screw's thickness, and what is spare twice. Off the middle: half of what they"
            " differ.",
        ),
        worked="{swells} one way, {shrinks} the other; with {shank} and twice {extra}: {answer}.",
        shown=lambda distance, flat, now, dry, damp, **_: {
            "swells": write_number(_change(distance, flat, now, damp), 1),
            "shrinks": write_number(-_change(distance, flat, now, dry), 1),
        },
        slips=(
            Slip("the screw is set in the middle of its slot", lambda **_: (..., 0)),
            Slip(
                "the whole depth of the side is taken, and not the distance from the round hole",
                lambda width, **n: _slot(**n | {"distance": width}),
            ),
            Slip("the screw itself is forgotten", lambda shank, **n: (_slot(shank=shank, **n)[0] - shank, ...)),
            Slip("the whole of the difference is taken, and not half of it", lambda **n: (..., 2 * _slot(**n)[1])),
        ),
    ),
    Exercise(
        key="04e",
        question=(
            "Two fronts {height} mm high leave the shop at {now} % for a room that reaches {damp} %; {least} mm shall"
            " be left over each then. One is flat-sawn and moves {flat} mm in a metre for each per cent, the other"
            " quarter-sawn and moves {quarter}. How many times as large is today's gap over the flat-sawn one as over"
            " the other?"
        ),
        numbers={"height": 240, "now": 8, "damp": 13, "least": 0.8, "flat": 2.48, "quarter": 1.26},
        solve=lambda flat, quarter, **n: round(_gap(a_metre=flat, **n) / _gap(a_metre=quarter, **n), 2),
        kind="number",
        tolerance="P",
        hints=(
            "Find both gaps first: what each grows, and what shall be left over it.",
            "Only the growth is halved by the saw; what shall be left at the dampest stays.",
        ),
        worked="{one} over {other} is {answer}.",
        shown=lambda flat, quarter, **n: {
            "one": write_number(_gap(a_metre=flat, **n)),
            "other": write_number(_gap(a_metre=quarter, **n)),
        },
        slips=(
            Slip(
                "the growths alone are compared, without what is left at the dampest",
                lambda flat, quarter, **_: flat / quarter,
            ),
            Slip(
                "the two change places", lambda flat, quarter, **n: _gap(a_metre=quarter, **n) / _gap(a_metre=flat, **n)
            ),
            Slip("the way of sawing is taken to make no difference", lambda **_: 1),
        ),
    ),
    Exercise(
        key="04f",
        question=(
            "A strip {depth} mm long carries a drawer. Its front end meets the front rail and must stay there; behind"
            " it there is room. The case side behind it moves {moves} mm over the year. Where do you put the round"
            " hole: choose from {offered}. Then say in one sentence why."
        ),
        numbers={"depth": 340, "moves": 4},
        solve=lambda **_: [_PLACES[0]],
        kind="words",
        tolerance="X",
        offered=_PLACES,
        hints=(
            "Where the strip is held fast, side and strip stay together; all else slides past.",
            "Which of the places would be seen, or would stop the drawer, if it slid?",
        ),
        worked="It goes {answer}: all {moves} mm of movement then happens behind, where there is room for it.",
        slips=(
            Slip("half the movement is sent to the front, where the rail is", lambda **_: [_PLACES[1]]),
            Slip("all of the movement is sent to the front, where the rail is", lambda **_: [_PLACES[2]]),
            Slip("the strip is held fast twice: then the side splits or the strip bows", lambda **_: [_PLACES[3]]),
        ),
    ),
    Exercise(
        key="04g",
        question=(
            "Change coefficients hold from {lowest} to {highest} %. Over which of these spans of moisture may you"
            " reckon with them alone: {offered} %?"
        ),
        numbers={"lowest": LOW, "highest": HIGH},
        solve=_lasting,
        kind="words",
        tolerance="X",
        offered=tuple(_SPANS),
        hints=(
            "Both ends of a span count, and not how long it is.",
            "An ordinary heated winter is drier than many think; a cellar or a shed is damper.",
        ),
        worked="With both ends from {lowest} to {highest} %: {answer}. For the others there is the shrinkage law.",
        slips=(
            Slip("only the dry end is looked at", lambda lowest, highest: _lasting(lowest, 100)),
            Slip("only the damp end is looked at", lambda lowest, highest: _lasting(0, highest)),
            Slip("a span that just reaches the end is left out", lambda lowest, highest: _lasting(lowest, highest - 1)),
        ),
    ),
    Exercise(
        key="04h",
        question=(
            "A flat-sawn panel of beech is {width} mm wide at {low} %, as a heated winter leaves it. Green it would"
            " begin to shrink at {green} %; from there to oven-dry it loses {shrinkage} % of its green width. How many"
            " mm wider is it at {high} %?"
        ),
        numbers={"width": 300, "shrinkage": 11.9, "green": 30, "low": 5, "high": 12},
        solve=lambda width, shrinkage, low, high, green: change_by_shrinkage(
            float(width), shrinkage, float(low), float(high), float(green)
        ),
        kind="length",
        tolerance="P",
        hints=(
            "One end lies below the span of the change coefficients, so take the straight line from green to dry.",
            "The per cents are of the green width. How wide was the panel when it was green?",
        ),
        worked="{width} x ({high} - {low}) / (100 x {green} / {shrinkage} - {green} + {low}) = {answer}.",
        slips=(
            Slip(
                "the shrinkage is taken of the width today, and not of the green one",
                lambda width, shrinkage, low, high, green: width * shrinkage / 100 * (high - low) / green,
            ),
            Slip(
                "all of the shrinkage is taken, from green to dry",
                lambda width, shrinkage, **_: width * shrinkage / 100,
            ),
            Slip(
                "a per cent of moisture is taken for a per cent of size",
                lambda width, low, high, **_: width * (high - low) / 100,
            ),
        ),
    ),
)
