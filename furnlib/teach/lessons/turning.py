"""Lesson 6: the exercises on turned legs; the sizes are those of the demo legs, or like them.

The numbers are chosen so that the slips part from the truth. Of legs that nearly always come good a sum
without any chance in it often gives the right number too, so here they come good three times out of four.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import count
from math import ceil
from typing import Any

from furnlib.base.angles import cosd
from furnlib.base.guards import require_positive
from furnlib.base.units import write_length, write_number
from furnlib.teach.exercise import Exercise, Slip
from furnlib.trade.case.strength import weakest_taper_diameter
from furnlib.trade.leg.blank import blank_length, chance_of_enough, legs_to_make
from furnlib.trade.leg.elements import cylinder, square_part
from furnlib.trade.leg.end_cut import end_cut
from furnlib.trade.leg.lathe import CaliperSetting, StopCut, calipers, deepest_stop_cut, rim_speed
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.plies import GluedBlank, glued_from
from furnlib.trade.leg.turning import Profile

_STATIONS = ("shoulder", "bead", "step", "neck", "fillet", "foot")
"""Where the calipers are used on the leg that is sized, from the top down."""
_PARTS = ("square", "bead", "cove", "fillet", "taper")
"""The parts of the leg whose stick is looked over, from the top down."""


def _blank(*, cosines: int = 0, cuts: int = 2, ends: int = 2, waste: Any, **leg: Any) -> Any:
    """Length of the blank; the slips take cosines of the lean too many, or an end cut or a waste too few."""
    lean = Lean.from_rake_splay(leg["rake_deg"], leg["splay_deg"])
    cut = end_cut(lean, leg["height"], leg["square"])
    at_one_end = (cut.blank_length - cut.axis_length) / 2
    axis = cut.axis_length * cosd(lean.total_lean_deg) ** cosines
    return blank_length(axis, at_one_end, at_one_end * (cuts - 1), waste, waste * (ends - 1), 0)


def _depths(cut: StopCut) -> tuple[float, float]:
    return cut.depth_at_flat, cut.depth_at_corner


def _settings(leave: Any, **diameters: Any) -> list[float]:
    return [setting.sizing_diameter for setting in _calipers(leave, **diameters)]


def _as_they_stand(**given: Any) -> list[float]:
    """What the calipers are set to at each station in turn."""
    settings = _calipers(**given)
    return [next(one.sizing_diameter for one in settings if at in one.distances) for at in range(len(_STATIONS))]


def _calipers(leave: Any, **diameters: Any) -> tuple[CaliperSetting, ...]:
    return calipers(range(len(_STATIONS)), [diameters[station] for station in _STATIONS], leave)


def _corner_swing(square: Any) -> Any:
    return Profile((square_part(square, square),)).swing


def _way_to_rim_speed(square: Any, spindle_rpm: Any) -> dict[str, str]:
    swing = _corner_swing(square)
    steps = {"swing": (swing, 1), "once_round": (rim_speed(swing, 60), 4), "turns": (spindle_rpm / 60, 2)}
    return {name: write_number(*step) for name, step in steps.items()}


def _chances(needed: Any, good: Any, certainty: Any) -> dict[str, str]:
    """The chance of enough good legs, with those made and with one fewer."""
    made = legs_to_make(needed, good, certainty)
    return {
        name: write_number(chance_of_enough(legs, needed, good), 3)
        for name, legs in (("enough", made), ("fewer", made - 1))
    }


def _ends(**given: Any) -> tuple[float, ...]:
    """Where the parts of the leg end, from the top, as their lengths say."""
    return Profile(tuple(cylinder(given[part], 1) for part in _PARTS)).joints[1:]


def _misstated(**given: Any) -> list[int]:
    """The parts whose end stands elsewhere on the stick, by number."""
    return [place for place, end in enumerate(_ends(**given)) if abs(given[f"{_PARTS[place]}_end"] - end) > 1e-6]


def _from_the_foot(length: Any, top: Any, foot: Any) -> Any:
    """Where the taper is as thick as it is where it is stressed most; where it nowhere is, its thick end."""
    weakest = weakest_taper_diameter(foot)
    return length * (weakest - foot) / (top - foot) if top > weakest else length


def _odd_plies(side: Any, spare: Any, board: Any, planing: Any) -> GluedBlank:
    """The blank from the least odd number of plies that reaches."""
    ply = board - 2 * planing
    require_positive("thickness that planing leaves", ply, "plane less off each face or take thicker boards")
    plies = next(odd for odd in count(1, 2) if odd * ply >= side + spare)
    return glued_from(side, (ply,) * plies, spare=spare)


def _stack(**given: Any) -> dict[str, str]:
    plies = _odd_plies(**given).plies
    return {"plies": str(len(plies)), "ply": write_length(Fraction(plies[0]), "in")}


EXERCISES = (
    Exercise(
        key="06a",
        question=(
            "A chest leg is left square at both ends, {square} mm, and turned between them. It leans without twist,"
            " with a rake of {rake_deg}° and a splay of {splay_deg}°, is cut level at top and foot, and stands {height}"
            " mm high. The lathe's centres bite into {waste} mm of waste at each end, the saw's cut among it. How long"
            " is the blank?"
        ),
        numbers={"rake_deg": 8, "splay_deg": 6, "height": 151, "square": 48, "waste": 15},
        solve=_blank,
        kind="length",
        tolerance="L",
        hints=(
            "Draw the leg lying down: its axis, at each end the slanting cut, beyond each cut the waste.",
            "The axis is longer than the height. At each end a corner reaches past it by half the square times the"
            " tangents of rake and splay together.",
        ),
        worked=(
            "{height} / cos R + {square} x (tan {rake_deg}° + tan {splay_deg}°) for both end cuts + {waste} + {waste}"
            " = {answer}."
        ),
        slips=(
            Slip("the end cut is counted at one end only", lambda **given: _blank(**given, cuts=1)),
            Slip("waste is left at one end only", lambda **given: _blank(**given, ends=1)),
            Slip("the height is multiplied by cos R instead of divided", lambda **given: _blank(**given, cosines=2)),
            Slip("the height is taken for the length of the axis", lambda **given: _blank(**given, cosines=1)),
        ),
    ),
    Exercise(
        key="06b",
        question=(
            "Beside a square of {square} mm a leg is to be {diameter} mm thick, with {leave} mm left on the radius for"
            " the finishing cut. How deep may the stop cut beside the square go, from the flat and from the corner?"
            " Give both, the flat first."
        ),
        numbers={"square": 56, "diameter": 44, "leave": 2},
        solve=lambda **given: _depths(deepest_stop_cut(**given)),
        kind="lengths",
        tolerance="L",
        hints=(
            "Draw the end of the square, with the round in it and the corners outside. A depth goes from the outside"
            " towards the axis.",
            "From the axis the flat is half the side away, the corner half the diagonal. The cut stops at the finished"
            " radius and what is left on it.",
        ),
        worked=(
            "Flat: half of ({square} - {diameter}), less {leave}; corner: the same with the diagonal of {square} in"
            " place of {square}: {answer}. At the corner most comes off, so there it tears."
        ),
        slips=(
            Slip(
                "what comes off the diameter is taken for the depth; a cut takes half of that on either side",
                lambda leave, **sizes: tuple(
                    2 * depth - leave for depth in _depths(deepest_stop_cut(**sizes, leave=0))
                ),
            ),
            Slip(
                "all is reckoned across the leg and not halved",
                lambda **given: tuple(2 * depth for depth in _depths(deepest_stop_cut(**given))),
            ),
            Slip(
                "the stop cut goes to the finished diameter and nothing is left for the finishing cut",
                lambda **given: _depths(deepest_stop_cut(**given | {"leave": 0})),
            ),
            Slip("flat and corner change places", lambda **given: _depths(deepest_stop_cut(**given))[::-1]),
            Slip(
                "the depth at the corner is cut from the flat as well, far past the finished diameter",
                lambda **given: (deepest_stop_cut(**given).depth_at_corner, ...),
            ),
            Slip(
                "the depth at the flat is taken at the corner as well",
                lambda **given: (..., deepest_stop_cut(**given).depth_at_flat),
            ),
        ),
    ),
    Exercise(
        key="06c",
        question=(
            "From the top down a leg is to measure {shoulder} mm beside its square, {bead} on the bead, {step} below"
            " it, {neck} in the neck, {fillet} on the fillet and {foot} at the foot. With {leave} mm left on the radius"
            " for the finishing cut, to what are the calipers set, one setting after the other? Give each once, in"
            " working order."
        ),
        numbers={"leave": 1, "shoulder": 40, "bead": 44, "step": 38, "neck": 26, "fillet": 38, "foot": 28},
        solve=_settings,
        kind="lengths",
        tolerance="X",
        grid=Fraction(1),
        hints=(
            "Which should come last, so that the leg is stiff for as long as can be?",
            "Stations of one diameter share a setting. What is left on the radius is left on both sides.",
        ),
        worked="Twice {leave} mm more than each diameter, from the largest to the smallest: {answer}.",
        slips=(
            Slip(
                "the smallest comes first: the leg whips before it is sized", lambda **given: _settings(**given)[::-1]
            ),
            Slip("the stations are taken from top to foot as they stand, and one setting comes twice", _as_they_stand),
            Slip(
                "the settings are taken from top to foot as they stand",
                lambda **given: list(dict.fromkeys(_as_they_stand(**given))),
            ),
            Slip("nothing is left for the finishing cut", lambda **given: _settings(**given | {"leave": 0})),
            Slip(
                "the wood for the finishing cut is added once, where it is left on both sides",
                lambda leave, **diameters: _settings(leave / 2, **diameters),
            ),
        ),
    ),
    Exercise(
        key="06d",
        question=(
            "A blank {square} mm square turns {spindle_rpm} times a minute, as roughing begins. How fast do its corners"
            " go past the tool rest, in metres a second? (Which speed is right, the handbook of the lathe says.)"
        ),
        numbers={"square": 60, "spindle_rpm": 700},
        solve=lambda square, spindle_rpm: rim_speed(_corner_swing(square), spindle_rpm),
        kind="number",
        tolerance="P",
        hints=(
            "Which circle does a corner run round, and how often in a second?",
            "The swing is the diagonal of the square. Once round is pi times that.",
        ),
        worked=(
            "pi x {swing} mm is {once_round} m once round; {spindle_rpm} times a minute is {turns} times a second:"
            " {answer} m/s."
        ),
        shown=_way_to_rim_speed,
        slips=(
            Slip(
                "the side of the square is taken for its swing",
                lambda square, spindle_rpm: rim_speed(diameter_mm=square, spindle_rpm=spindle_rpm),
            ),
            Slip(
                "the radius is taken for the diameter",
                lambda square, spindle_rpm: rim_speed(_corner_swing(square) / 2, spindle_rpm),
            ),
            Slip(
                "metres a minute are given, not metres a second",
                lambda square, spindle_rpm: rim_speed(_corner_swing(square), 60 * spindle_rpm),
            ),
        ),
    ),
    Exercise(
        key="06e",
        question=(
            "{needed} legs are needed, and the chance that one of yours comes good is {good}, each by itself. How many"
            " do you turn, so that with a chance of {certainty} at least {needed} of them are good?"
        ),
        numbers={"needed": 4, "good": 0.75, "certainty": 0.9},
        solve=legs_to_make,
        kind="number",
        tolerance="X",
        grid=Fraction(1),
        hints=(
            "One leg more gives some chance of enough. Work it out and see whether it will do; if not, add another.",
            "Of a number of legs, add the chances that all are good, that all but one are, and so on down to those"
            " needed. Each has as many ways as there are choices of the bad ones.",
        ),
        worked=(
            "One leg fewer gives enough with a chance of {fewer}, and that is too little; this number with {enough}:"
            " {answer}."
        ),
        shown=_chances,
        slips=(
            Slip(
                "the legs needed are divided by the chance: in the mean so many are enough, but often they are too few",
                lambda needed, good, **_: ceil(needed / good),
            ),
            Slip("one spare is made, whatever the chance", lambda needed, **_: needed + 1),
            Slip(
                "the chance is given that all of them come good without a spare, and not a number of legs",
                lambda needed, good, **_: chance_of_enough(needed, needed, good),
            ),
        ),
    ),
    Exercise(
        key="06f",
        question=(
            "From shoulder to shoulder a leg measures, from the top down: square {square} mm, bead {bead}, cove {cove},"
            " fillet {fillet}, taper {taper}. On its stick the ends of these parts stand at {square_end}, {bead_end},"
            " {cove_end}, {fillet_end} and {taper_end} mm, all from the top. One is mis-stated: the end of which part?"
            " Choose from {offered}."
        ),
        numbers={
            **{"square": 42, "bead": 8, "cove": 20, "fillet": 4, "taper": 79},
            **{"square_end": 42, "bead_end": 50, "cove_end": 67, "fillet_end": 74, "taper_end": 153},
        },
        solve=lambda **given: [_PARTS[place] for place in _misstated(**given)],
        kind="words",
        tolerance="X",
        offered=_PARTS,
        hints=(
            "Add the lengths up from the top, and lay the sums beside the stick.",
            "One mark in the wrong place makes two lengths wrong, before it and after it; the marks after it stand"
            " right, for each is measured from the top.",
        ),
        worked="The sums are {sums}; the stick parts from them at one place: {answer}.",
        shown=lambda **given: {"sums": ", ".join(write_number(end) for end in _ends(**given))},
        slips=(
            Slip(
                "the part after it is named: its length comes out wrong as well, but its end stands right",
                lambda **given: [_PARTS[place + 1] for place in _misstated(**given) if place + 1 < len(_PARTS)],
            ),
            Slip(
                "all after it are named too, as if each were measured from the shoulder before it",
                lambda **given: _PARTS[min(_misstated(**given)) :],
            ),
        ),
    ),
    Exercise(
        key="06g",
        question=(
            "A round leg tapers straight from {top} mm at the top to {foot} mm at the foot, over {length} mm. Its top"
            " is held fast, and something knocks against its foot from the side. How far from the foot is the leg"
            " stressed most?"
        ),
        numbers={"length": 380, "top": 40, "foot": 22},
        solve=_from_the_foot,
        kind="length",
        tolerance="L",
        hints=(
            "The bending grows evenly with the distance from the foot. What a round section carries grows with the cube"
            " of its diameter: at first more slowly than the bending, then faster.",
            "It is where the leg is one and a half times as thick as at its foot.",
        ),
        worked=(
            "There it is {weakest} mm thick; ({weakest} - {foot}) / ({top} - {foot}) of {length}: {answer} from the"
            " foot. That says where, and never how much the leg bears."
        ),
        shown=lambda foot, **_: {"weakest": write_number(weakest_taper_diameter(foot))},
        slips=(
            Slip("the foot is taken because it is thinnest there; but nothing bends it there", lambda **_: 0),
            Slip(
                "the top is taken because it is bent most there; but it is also thickest there",
                lambda length, **_: length,
            ),
            Slip(
                "it is measured from the top, not from the foot",
                lambda **given: given["length"] - _from_the_foot(**given),
            ),
            Slip("the diameter there is given, not the distance", lambda foot, **_: weakest_taper_diameter(foot)),
        ),
    ),
    Exercise(
        key="06h",
        question=(
            "A blank {side} in square is glued up from boards of {board} in, of which {planing} in is planed off each"
            " face first; the stack is to have at least {spare} in over the blank. Take as few boards as will do, and"
            " none of the glue lines may lie on the lathe's axis, in the middle of the stack. How far from the axis is"
            " the nearest glue line, in inches?"
        ),
        numbers={"side": Fraction(3, 2), "spare": Fraction(1, 4), "board": 1, "planing": Fraction(1, 16)},
        solve=lambda **given: _odd_plies(**given).nearest_line,
        kind="length",
        unit="in",
        tolerance="L",
        hints=(
            "A centre driven into a glue line splits the blank. Draw the stack of two boards, of three, of four: where"
            " is its middle?",
            "An odd number has a ply in the middle, with the axis in the middle of that.",
        ),
        worked=(
            "{plies} boards, each {ply} in as planed; the axis is in the middle one, half of that away: {answer}."
            " Turn it only when the glue has fully cured."
        ),
        shown=_stack,
        slips=(
            Slip("an even number of boards is glued: a glue line lies on the axis", lambda **_: 0),
            Slip("the planing is forgotten", lambda **given: _odd_plies(**given | {"planing": 0}).nearest_line),
            Slip(
                "a whole ply is taken, from one glue line to the next",
                lambda **given: 2 * _odd_plies(**given).nearest_line,
            ),
            Slip(
                "it is measured from the outside of the blank, not from the axis",
                lambda **given: given["side"] / 2 - _odd_plies(**given).nearest_line,
            ),
        ),
    ),
)
