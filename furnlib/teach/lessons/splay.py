"""Lesson 5: the exercises on legs that lean; the leans and heights are those of stools and chests.

The numbers are chosen so that the slips part from the truth. A slip that cannot be told apart at
the lean of a stool, such as Pythagoras on degrees, waits for the steep leg of the last exercise.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from furnlib.base.angles import cosd, sind, square_root, tand
from furnlib.teach.exercise import Exercise, Slip
from furnlib.trade.leg.end_cut import end_cut
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.setting_error import foot_slip

_OUTWARD = {"front left": (1, -1), "front right": (1, 1), "rear left": (-1, -1), "rear right": (-1, 1)}
"""Where each foot goes in plan: to the front and to the right, as a sign."""


def _leaning(result: Callable[..., Any]) -> Callable[..., Any]:
    """Let a formula of a lean take rake and splay by name, beside its other numbers."""
    return lambda rake_deg, splay_deg, **others: result(Lean.from_rake_splay(rake_deg, splay_deg), **others)


def _rake_and_splay(total_lean_deg: float, sight_line_deg: float) -> tuple[Any, Any]:
    lean = Lean.from_total_lean(total_lean_deg, sight_line_deg)
    return lean.rake_deg, lean.splay_deg


def _settings(lean: Lean, face: str = "side_down") -> tuple[Any, Any]:
    setting = getattr(end_cut(lean, height=1, square=1), face)
    return setting.mitre_deg, setting.tilt_deg


def _steep(lean: Lean) -> tuple[Any, Any]:
    front_down = end_cut(lean, height=1, square=1, orientation="front_level").front_down
    return lean.total_lean_deg, front_down.mitre_deg


def _opposite_hand(rake_deg: float, splay_deg: float) -> list[str]:
    """The legs whose cut is the front left leg's mirror image, and not the same cut turned about the axis."""
    feet = {leg: (front * rake_deg, right * splay_deg) for leg, (front, right) in _OUTWARD.items()}
    front, right = feet["front left"]
    same = {(front, right), (-right, front), (-front, -right), (right, -front)}  # by quarter turns
    return [leg for leg, (fore, side) in feet.items() if (fore, side) not in same and (fore, -side) in same]


EXERCISES = (
    Exercise(
        key="05a",
        question=(
            "A leg has a rake of {rake_deg}° and a splay of {splay_deg}°. What is its total lean, and what its sight"
            " line, from the fore-and-aft line? Give both, total lean first."
        ),
        numbers={"rake_deg": 12, "splay_deg": 9},
        solve=_leaning(lambda lean: (lean.total_lean_deg, lean.sight_line_deg)),
        kind="angles",
        tolerance="A",
        hints=(
            "Go 100 down: how far forward, how far sideways? Then the step along the floor is a diagonal.",
            "Tangents: tan² of the total lean is tan² of rake and splay together; tan of the sight line is"
            " sideways over forward.",
        ),
        worked="tan² R = tan² {rake_deg}° + tan² {splay_deg}°; tan S = tan {splay_deg}° / tan {rake_deg}°: {answer}.",
        slips=(
            Slip("the two angles are added", lambda rake_deg, splay_deg: (rake_deg + splay_deg, ...)),
            Slip("the mean of the two is taken for the total lean", lambda **both: (sum(both.values()) / 2, ...)),
            Slip("only the larger of the two is seen", lambda **both: (max(both.values()), ...)),
            Slip(
                "the sight line is measured from the wrong edge: from the side-to-side line",
                _leaning(lambda lean: (..., 90 - lean.sight_line_deg)),
            ),
            Slip("the sight line is written first", _leaning(lambda lean: (lean.sight_line_deg, lean.total_lean_deg))),
        ),
    ),
    Exercise(
        key="05b",
        question=(
            "A stool stands {height} mm high under its seat; a front leg has a rake of {rake_deg}° and a splay of"
            " {splay_deg}°. How far forward does its foot stand from its top, and how far sideways? Give both, forward"
            " first."
        ),
        numbers={"height": 450, "rake_deg": 14, "splay_deg": 11},
        solve=_leaning(lambda lean, height: lean.foot_run(height)[:2]),
        kind="lengths",
        tolerance="L",
        hints=(
            "Draw what is seen from the side: the height stands upright, the run lies on the floor, the leg slopes.",
            "A run is the height times a tangent: of the rake going forward, of the splay going sideways.",
        ),
        worked="{height} x tan {rake_deg}° and {height} x tan {splay_deg}°: {answer}.",
        slips=(
            Slip(
                "the sine is taken, as if the height lay along the leg",
                lambda height, rake_deg, splay_deg: (height * sind(rake_deg), height * sind(splay_deg)),
            ),
            Slip(
                "the splay is taken for the forward run and the rake for the sideways one",
                lambda height, rake_deg, splay_deg: (height * tand(splay_deg), height * tand(rake_deg)),
            ),
            Slip(
                "the total lean is used for both",
                _leaning(lambda lean, height: (lean.foot_run(height).plan, lean.foot_run(height).plan)),
            ),
        ),
    ),
    Exercise(
        key="05c",
        question=(
            "A bar stool stands {height} mm high under its seat; each leg has a rake of {rake_deg}° and a splay of"
            " {splay_deg}°. How long is a leg along its axis?"
        ),
        numbers={"height": 700, "rake_deg": 14, "splay_deg": 16},
        solve=_leaning(Lean.axis_length),
        kind="length",
        tolerance="L",
        hints=(
            "A leg that leans is longer than the height, never shorter.",
            "Length = height / cos R, with the total lean R and neither of its parts.",
        ),
        worked="tan² R = tan² {rake_deg}° + tan² {splay_deg}°; {height} / cos R = {answer}.",
        slips=(
            Slip(
                "the height is multiplied by cos R instead of divided",
                _leaning(lambda lean, height: height * cosd(lean.total_lean_deg)),
            ),
            Slip(
                "the height is divided by both cosines, as if rake and splay came one after the other",
                lambda height, rake_deg, splay_deg: height / (cosd(rake_deg) * cosd(splay_deg)),
            ),
            Slip(
                "rake and splay are added first",
                lambda height, rake_deg, splay_deg: height / cosd(rake_deg + splay_deg),
            ),
            Slip(
                "only the splay is reckoned with",
                lambda height, rake_deg, splay_deg: height / cosd(splay_deg),
            ),
        ),
    ),
    Exercise(
        key="05d",
        question=(
            "A square stool leg leans without twist, with a rake of {rake_deg}° and a splay of {splay_deg}°. A side"
            " face lies on the saw table. Which mitre, from square across, and which tilt of the blade, from upright,"
            " cut its end level? Give both, mitre first."
        ),
        numbers={"rake_deg": 15, "splay_deg": 12},
        solve=_leaning(_settings),
        kind="angles",
        tolerance="A",
        hints=(
            "The mitre is the pencil line that the floor would draw on the face that lies down.",
            "The tilt belongs to the other lean, but is a little less: the face on the table leans as well.",
        ),
        worked="The mitre is the rake; tan of the tilt is tan {splay_deg}° x cos {rake_deg}°: {answer}.",
        slips=(
            Slip("the front face lies on the table", _leaning(lambda lean: _settings(lean, "front_down"))),
            Slip("mitre and tilt change places", _leaning(lambda lean: _settings(lean)[::-1])),
            Slip("the blade is tilted by the splay itself", lambda rake_deg, splay_deg: (..., splay_deg)),
        ),
    ),
    Exercise(
        key="05e",
        question=(
            "Of an old leg you measure a total lean of {total_lean_deg}° on a sight line of {sight_line_deg}° from the"
            " fore-and-aft line. What are its rake and its splay? Give both, rake first."
        ),
        numbers={"total_lean_deg": 15, "sight_line_deg": 35},
        solve=_rake_and_splay,
        kind="angles",
        tolerance="A",
        hints=(
            "Go 100 down and as far along the sight line as the total lean says. How far forward is that, how far"
            " sideways?",
            "tan r = tan R cos S and tan s = tan R sin S; the degrees themselves cannot be shared out like that.",
        ),
        worked=(
            "tan r = tan {total_lean_deg}° x cos {sight_line_deg}° and tan s = tan {total_lean_deg}° x sin"
            " {sight_line_deg}°: {answer}."
        ),
        slips=(
            Slip(
                "rake and splay change places: the sight line is measured from the wrong edge",
                lambda **lean: _rake_and_splay(**lean)[::-1],
            ),
        ),
    ),
    Exercise(
        key="05f",
        question=(
            "The legs of a chest are square at the top and turned below, so that none can stand on its head. All four"
            " lean outward, without twist, with a rake of {rake_deg}° and a splay of {splay_deg}°. The saw is set for"
            " the top of the front left leg. Which legs are its mirror image: the same settings, the opposite hand?"
            " Choose from {offered}."
        ),
        numbers={"rake_deg": 10, "splay_deg": 12},
        solve=_opposite_hand,
        kind="words",
        tolerance="X",
        offered=tuple(_OUTWARD),
        hints=(
            "Draw the four sight lines in plan. Lay a mirror on the front-back line, then on the side-to-side line.",
            "Now turn the plan half round: which leg comes to lie on the front left one, without a mirror?",
        ),
        worked="One mirror makes the opposite hand; two make half a turn, and the same hand again: {answer}.",
        slips=(
            Slip(
                "the hand is read off from left and right alone; front and rear change it as well",
                lambda **_: ("front right", "rear right"),
            ),
            Slip(
                "every other leg is named, though one of them is the front left leg turned half round",
                lambda **_: ("front right", "rear left", "rear right"),
            ),
            Slip(
                "the leg diagonally across is named: turned half round it has the same hand",
                lambda **_: ("rear right",),
            ),
        ),
    ),
    Exercise(
        key="05g",
        question=(
            "A leg is to stand {height} mm high with a total lean of {total_lean_deg}°. The drill slips and leans it 1°"
            " more, along the sight line; the leg is left long and cut where it meets the floor. By how many mm does"
            " its foot miss its place?"
        ),
        numbers={"height": 450, "total_lean_deg": 22},
        solve=lambda height, total_lean_deg: foot_slip(Lean.from_total_lean(total_lean_deg, 0), height).along,
        kind="length",
        tolerance="P",
        hints=(
            "A degree moves a point by 1/57.3 of its distance. How far down the leg is the foot?",
            "It moves square to the leg; on a floor that the leg meets at a slant that becomes longer again.",
        ),
        worked="{height} / 57.3 / cos² {total_lean_deg}° = {answer}: once for the length, once for the slant.",
        slips=(
            Slip(
                "the leg is cut to length beforehand, and not where it meets the floor",
                lambda height, total_lean_deg: foot_slip(Lean.from_total_lean(total_lean_deg, 0), height).shift,
            ),
            Slip(
                "cos R is divided by only once: for the length of the leg, and not for the slant of the floor",
                lambda height, total_lean_deg: height * tand(1) / cosd(total_lean_deg),
            ),
        ),
    ),
    Exercise(
        key="05h",
        question=(
            "A steep leg has a rake of {rake_deg}° and a splay of {splay_deg}°. Its front face leans back by the whole"
            " rake and is level from side to side. What is the total lean, and by how many degrees does the floor line"
            " on that face run off square across the leg? Give both, total lean first."
        ),
        numbers={"rake_deg": 25, "splay_deg": 20},
        solve=_leaning(_steep),
        kind="angles",
        tolerance="A",
        hints=(
            "Squares add for tangents, not for degrees; at a gentle lean you would hardly notice.",
            "Down the leaning face it is further than straight down: the same run sideways makes a smaller angle.",
        ),
        worked=(
            "tan² R = tan² {rake_deg}° + tan² {splay_deg}°; on the face, tan of the angle is tan {splay_deg}° x cos"
            " {rake_deg}°: {answer}."
        ),
        slips=(
            Slip(
                "Pythagoras is used on the degrees, not on their tangents",
                lambda **both: (square_root(sum(angle * angle for angle in both.values())), ...),
            ),
            Slip("the two angles are added", lambda rake_deg, splay_deg: (rake_deg + splay_deg, ...)),
            Slip(
                "the splay is taken as it is, without the cosine of the rake",
                lambda rake_deg, splay_deg: (..., splay_deg),
            ),
        ),
    ),
)
