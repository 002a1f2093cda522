"""Legs are remembered from one piece to the next: what stays as it was is the same leg, and what changes is not.

The witness is the same piece worked out anew, with nothing remembered.
"""

import re
from contextlib import suppress
from dataclasses import astuple, replace
from fractions import Fraction as F
from itertools import islice

import pytest
from pictures import BARE

from furnlib.base.guards import DesignError
from furnlib.plan.design import design_of
from furnlib.plan.design_text import DesignText, with_values
from furnlib.plan.piece import make_piece
from furnlib.plan.sizes import leg_rules, legs

CHEST, STOOL, FOUR, PRACTICE = (
    DesignText.read(BARE / f"{name}.yaml")
    for name in ("landing_chest", "stool_three_legs", "stool_four_legs", "practice_stool")
)
PLAIN = re.compile(r"-?\d+(\.\d+)?")
REMEMBERING = (legs._leg, legs._made, leg_rules._under_its_name, leg_rules._of_leg)


def forget():
    for remembering in REMEMBERING:
        remembering.cache_clear()


def all_of(piece):
    """Everything that is known of the legs of a piece, to the last digit."""
    return [astuple(leg) for leg in piece.legs], piece.sizes, piece.concerns


def changed(text, *values):
    """The design with other values."""
    return design_of(replace(text, tree=with_values(text, dict(values))))


def grown(text):
    """The design with one number of its legs, its seat or its outside a little larger, each in turn."""
    for path, (start, end) in text.spans.items():
        if path[0] in ("legs", "seat", "overall") and PLAIN.fullmatch(text.text[start:end]):
            yield changed(text, (path, str(float(F(text.text[start:end]) + F(1, 50)))))


ALL_OF_THEM = pytest.param(CHEST, 1, marks=pytest.mark.slow)
"""The chest's turned legs take long: of its numbers every third is grown in the default run."""


@pytest.mark.parametrize(("text", "every"), [(CHEST, 3), ALL_OF_THEM, (STOOL, 1), (FOUR, 1), (PRACTICE, 1)])
def test_whatever_changes_is_worked_out_anew(text, every):
    before, changes = design_of(text), 0
    for design in islice(grown(text), None, None, every):
        assert design != before
        forget()
        try:
            fresh = all_of(make_piece(design))
        except DesignError:
            continue  # it cannot be made, and nothing refused is remembered
        forget()
        changes += all_of(make_piece(before)) != fresh
        assert all_of(make_piece(design)) == fresh
    assert changes > 10


@pytest.mark.parametrize("text", [CHEST, STOOL, FOUR, PRACTICE], ids=lambda text: text.name)
def test_there_and_back_gives_the_first_piece_again(text):
    forget()
    first = all_of(make_piece(design_of(text)))
    for design in islice(grown(text), 5):
        with suppress(DesignError):
            make_piece(design)
        assert all_of(make_piece(design_of(text))) == first


def test_what_is_not_touched_is_the_same_leg():
    chest = make_piece(design_of(CHEST))
    other_case = make_piece(changed(CHEST, (("case", "side"), "19")))
    leaned = make_piece(changed(CHEST, (("legs", "lean", "front left", "rake"), "9")))
    assert all(one is other for one, other in zip(chest.legs, other_case.legs, strict=True))
    same = [one.position for one, other in zip(chest.legs, leaned.legs, strict=True) if one is other]
    assert same == ["front right", "rear left", "rear right"]
    assert leaned.legs[0].lean.rake_deg == pytest.approx(9)


def test_a_leg_and_its_mirror_image_are_made_once():
    front_left, front_right, rear_left, _ = make_piece(design_of(CHEST)).legs
    assert front_left.turned is front_right.turned
    assert front_left.turned is not rear_left.turned


def test_only_so_many_are_remembered():
    assert all(remembering.cache_info().maxsize == legs.REMEMBERED for remembering in REMEMBERING)
