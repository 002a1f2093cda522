"""Sound design files to spoil, and how to hear what is said about the fault."""

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
FIXED = METRIC.replace(
    "  lean:\n",
    "  fixing:\n    diameter: 8\n    depth: 60\n    wall: 6\n    pin: 5\n    pin depth: 25\n  lean:\n",
)
STOOL = """piece: Stool
unit: mm
grid: 1
overall:
  height: 460
  width: 360
  depth: 260
seat:
  thickness: 40
  pitch: 0
  outline: rectangle
legs:
  round:
    largest: 36
    foot: 22
    tenon: 25
  mortises:
    out: 115
    front: 85
    rear: 85
  slips:
    total lean: 0.5
    sight line: 1
    length: 1/2
  lean:
    front left: {rake: 10, splay: 12}
    front right: {rake: 10, splay: 12}
    rear left: {rake: 16, splay: 12}
    rear right: {rake: 16, splay: 12}
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


def check_unknown(text, written, name, where, offer):
    """An unknown name is said with its line and the part that it stands in, and a better one is offered."""
    line = line_of(text, written.splitlines()[0])
    sentences = faults(text)
    (found,) = [sentence for sentence in sentences if f"'{name}'" in sentence]
    assert found.startswith(f"chest.yaml line {line}, {where}")
    assert offer in found
    for sentence in sentences:
        check_sentence(sentence)


def check_missing(text, name, where, line):
    """A missing name is said of its part, with the line to add."""
    assert faults(text) == [
        f"chest.yaml line {line_of(text, line)}, {where}: '{name}' is missing; add a line '{name}: …'."
    ]


def check_bad(text, written, path, value, cure):
    """A bad value is said with its line, its path, itself and what to do."""
    (sentence,) = faults(text)
    check_sentence(sentence)
    assert sentence.startswith(f"chest.yaml line {pointed_at(text, written, path)}, {path}"), sentence
    said = sentence.partition(f", {path}")[2]
    assert value in said, sentence
    assert re.search(cure, said), sentence


def pointed_at(text, written, path):
    """The line of the value, else that of its part, else that of the part above."""
    *_, above, name = ("", *path.split(", "))
    if written.startswith(f"{name}:"):
        return line_of(text, written.partition("\n")[0])
    starts = [line.strip().partition(":")[0] for line in text.splitlines()]
    return starts.index(name if name in starts else above) + 1
