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


def low_chest(text):
    """The chest's two upper rows alone, without its brief: 83 and 103, a case of 20 + 186 + 18 + 20 on 151 of leg.

    Its openings stick takes two sheets of paper, not six.
    """
    text, found = re.subn(r"\nbrief:.*\n(  .*\n)+", "\n", text)
    assert (found, text.count("height: 1300"), text.count("number: 7")) == (1, 1, 1)
    return text.replace("height: 1300", "height: 395").replace("number: 7", "number: 2")


def low_case(text):
    """The same without its legs, which takes still fewer sheets: 395 - 151 = 244."""
    return low_chest(text).partition("\nlegs:")[0].replace("height: 395", "height: 244")


def on_round_legs(text, largest, foot, tenon):
    """The same piece on legs of a plain taper; nothing is said of their wood and of the lathe."""
    text = without(text, f"{_TURNED}|square")
    return text.replace("legs:\n", f"legs:\n  round:\n    largest: {largest}\n    foot: {foot}\n    tenon: {tenon}\n")
