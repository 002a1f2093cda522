"""The legs of a design file in another shape: what is turned taken out of it, or a plain taper put in."""

from __future__ import annotations

import re

_TURNED = "round|profile|stations|wood|turning|loads"


def without(text, names=_TURNED):
    """The text without these parts of its legs, each with the lines below it."""
    text, found = re.subn(rf"^  (?:{names}):.*\n(?:    .*\n)*", "", text, flags=re.MULTILINE)
    assert found, names
    return text


def on_square_legs(text, square=None):
    """The same piece on legs that are square from end to end, as the text says or with another side."""
    text = without(text)
    if square is not None:
        text = text.replace("legs:\n", f"legs:\n  square: {square}\n")
    assert text.count("\n  square: ") == 1
    return text


def on_round_legs(text, largest, foot, tenon):
    """The same piece on legs of a plain taper; nothing is said of their wood and of the lathe."""
    text = without(text, f"{_TURNED}|square")
    return text.replace("legs:\n", f"legs:\n  round:\n    largest: {largest}\n    foot: {foot}\n    tenon: {tenon}\n")
