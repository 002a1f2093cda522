"""Two sound design files to spoil, and how to hear what is said about the fault."""

from __future__ import annotations

import re

import pytest

from furnlib.base.guards import DesignError
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of

METRIC = """piece: Chest
unit: mm
grid: 1
overall:
  height: 1300
  width: 520
  depth: 380
case:
  side: 20
  top: 21
  bottom: 19
  divider: 18
rows:
  number: 7
  rule: constant step
  step: 20
  split:
    1: 2
legs:
  height: 151
  square: 48
  inset:
    front: 45
    rear: 40
    side: 46
  lean:
    front left: {rake: 8, splay: 6}
    front right: {rake: 8, splay: 6}
    rear left: {rake: 0, splay: 6}
    rear right: {rake: 0, splay: 6}
"""
INCH = """piece: Chest
unit: in
grid: 1/32
overall:
  height: 50
  width: 20
  depth: 15
case:
  side: 3/4
  top: 3/4
  bottom: 3/4
  divider: 3/4
rows:
  number: 7
  rule: equal
legs:
  height: 6 3/8
  square: 1 7/8
  inset: {front: 1 3/4, rear: 1 9/16, side: 1 3/4}
  lean:
    front left: {rake: 8, splay: 6}
"""
JARGON = re.compile(
    r"Traceback|Error|\bNone|\bnull\b|\bstr(ing)?\b|\bint(eger)?\b|\bfloat\b|\bdict|\btuple|\btype\b|\binput\b"
    r"|\bvalid\b|\bobject\b|Fraction|\\[a-z]|\('|',\)|\['|[<>{}]|\be\+|\[key\]"
)


def edited(text, *edits):
    for old, new in edits:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the file"
        text = text.replace(old, new)
    return text


def faults(text):
    """Every sentence of the refusal, the first one first."""
    with pytest.raises(DesignError) as caught:
        piece_of(DesignText.parse(text, "chest.yaml"))
    return [str(caught.value), *caught.value.more]


def line_of(text, piece):
    (line,) = [number for number, line in enumerate(text.splitlines(), 1) if piece in line]
    return line


def check_sentence(sentence):
    assert re.match(r"chest\.yaml line \d+, [a-z]", sentence), sentence
    assert sentence.endswith((".", "?")), sentence
    assert "\n" not in sentence
    assert not re.search(r"[.?] [A-Z]", sentence), f"more than one sentence: {sentence}"
    assert not JARGON.search(sentence), sentence
