"""The hand on a live view, without a browser: open a file, move a control, read what is seen."""

import re
from html import unescape
from pathlib import Path

from furnlib.live.pieces import live_legs, live_openings

ROOT = Path(__file__).parents[2]
DESIGNS = {
    "mm": ROOT / "notebooks" / "designs" / "landing_chest.yaml",
    "in": ROOT / "notebooks" / "designs" / "landing_chest_inch.yaml",
}
OPEN = {"openings": live_openings, "legs": live_legs}
NARROW = "\u202f"  # stands between a whole number and its fraction


def design_file(folder, unit="mm", *changes):
    """A copy of a demo piece's file with some of its words changed."""
    text = DESIGNS[unit].read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = folder / "chest.yaml"
    path.write_text(text, "utf-8")
    return path


def controls(view):
    """The controls by the names that the maker reads."""
    named = {getattr(child, "name", "") or getattr(child, "description", ""): child for child in view.children}
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
