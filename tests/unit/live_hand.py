"""The hand on a live view, without a browser: open a file, move a control, read what is seen."""

import math
import re
from html import unescape
from pathlib import Path

from pictures import BARE

from furnlib.live.openings import live_openings
from furnlib.live.pieces import live_leg, live_legs

ROOT = Path(__file__).parents[2]
DESIGNS = {
    "mm": ROOT / "notebooks" / "designs" / "landing_chest.yaml",
    "in": ROOT / "notebooks" / "designs" / "landing_chest_inch.yaml",
}
BARES = {unit: BARE / path.name for unit, path in DESIGNS.items()}
OPEN = {"openings": live_openings, "legs": live_legs, "leg": lambda path: live_leg(path, "front left")}
NARROW = "\u202f"  # stands between a whole number and its fraction


PRACTICE = ROOT / "notebooks" / "designs" / "practice_stool.yaml"
CALLED = {
    "rake": "Rake (front-to-back lean)",
    "splay": "Splay (side lean)",
    "total lean": "Total lean",
    "sight line": "Sight line, from the front-back line",
}
"""What a maker calls a leg's four controls."""
HELD = {
    "rake and splay": "rake: 12, splay: 9",
    "total lean and sight line": "total lean: 15, sight line: 37",
    "rake and sight line": "rake: 12, sight line: 37",
    "splay and sight line": "splay: 9, sight line: 37",
    "total lean and rake": "total lean: 15, rake: 12",
    "total lean and splay": "total lean: 15, splay: 9",
}
"""Any two of the four names of a lean, as a file may hold them."""
TANGENT = 1e-5  # what so many decimals of an angle below 45 leave open in its tangent, and more


def design_file(folder, unit="mm", *changes, designs=DESIGNS):
    """A copy of a demo piece's file with some of its words changed."""
    text = designs[unit].read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = folder / "chest.yaml"
    path.write_text(text, "utf-8")
    return path


def bare_file(folder, unit="mm", *changes):
    """The same of a demo's case, rows and legs alone."""
    return design_file(folder, unit, *changes, designs=BARES)


def without_jig(path):
    """The same file for a shop that has no jig: its openings close on the grid."""
    text = path.read_text("utf-8")
    start = text.index("\njig:")
    path.write_text(text[:start] + text[text.index("\n\n", start) + 1 :], "utf-8")
    return path


def stool_file(folder, front, rear="rake: 15, splay: 9", *changes):
    """A copy of the practice stool, its front and its rear legs leaning by the names given."""
    text, _, _ = PRACTICE.read_text("utf-8").partition("    front left:")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    for position, lean in (("front left", front), ("front right", front), ("rear left", rear), ("rear right", rear)):
        text += f"    {position}: {{{lean}}}  # {position}\n"
    path = folder / "stool.yaml"
    path.write_text(text, "utf-8")
    return path


def controls(view):
    """The controls by the names that the maker reads."""
    shown = (*getattr(view.children[0], "children", ()), *view.children)  # many stand two abreast in a box
    named = {getattr(child, "name", "") or getattr(child, "description", ""): child for child in shown}
    return {name: child for name, child in named.items() if name and hasattr(child, "value")}


def put(control, value):
    """Move or type as the hand does: a choice, a position (a whole number) or a text."""
    if not hasattr(control, "asked"):
        control.value = value
    elif isinstance(value, int):
        control.set_state({"asked": [control.answered + 1, value, None]})
    else:
        control.set_state({"asked": [control.answered + 1, None, value]})


def ends(control):
    """Every choice of a list, both ends of a slider."""
    return list(control.options) if hasattr(control, "options") else [0, len(control.labels) - 1]


def seen(view):
    """The picture's SVG and the words below it."""
    (shown,) = (child for child in view.children if type(child).__name__ == "HTML")
    whole = re.fullmatch(r'(<svg.*</svg>)(<div role="status".*</div>)', shown.value, re.DOTALL)
    picture, caption = whole.groups()
    words = re.sub(r"<[^>]*>", " ", caption.replace("<br>", "\n"))
    return picture, unescape(words).replace(NARROW, " ").strip()


def drawn(view):
    return not seen(view)[1].startswith("Not drawn")


def leg(view, position):
    """The leg of the view's piece that stands in a place."""
    (found,) = (leg for leg in view.piece.legs if leg.position == position)
    return found


def tan(angle):
    return math.tan(math.radians(angle))


def tangents(names):
    """Tangents of rake and splay from either pair of names."""
    if "rake" in names:
        return tan(names["rake"]), tan(names["splay"])
    total, sight = tan(names["total lean"]), math.radians(names["sight line"])
    return total * math.cos(sight), total * math.sin(sight)


def angles(view):
    """What the four controls stand on."""
    return {name: float(controls(view)[called].value) for name, called in CALLED.items()}
