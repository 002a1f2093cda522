"""The plates: each takes a finished piece and returns a drawing. They compute no sizes."""

from __future__ import annotations

from functools import partial

from furnlib.draw.drawing import Drawing
from furnlib.draw.plates.bank_kinds import bank_kinds
from furnlib.draw.plates.blank_card import blank_plate
from furnlib.draw.plates.case_section import case_section_plate, section_sheets
from furnlib.draw.plates.cradle import CRADLE_CARD, cradle_plate
from furnlib.draw.plates.dovetail_strip import DOVETAIL_STRIP, dovetail_strip_plate
from furnlib.draw.plates.drawer import drawer_kinds, drawer_plate
from furnlib.draw.plates.drilling import DRILLING_CARD, drilling_plate
from furnlib.draw.plates.drilling_pattern import DRILLING_PATTERN, drilling_pattern_plate
from furnlib.draw.plates.five_rules import RULES_DIFFER, rules_plate
from furnlib.draw.plates.fixing import FIXING, fixing_plate
from furnlib.draw.plates.fronts import fronts_plate, fronts_sheets
from furnlib.draw.plates.leans import LEGS, leans_plate
from furnlib.draw.plates.leg_profile import leg_profile_plate
from furnlib.draw.plates.legs import legs_plate
from furnlib.draw.plates.one_leg import leg_plate
from furnlib.draw.plates.openings import openings_plate
from furnlib.draw.plates.openings_stick import OPENINGS_STICK, openings_stick_plate
from furnlib.draw.plates.outlines import has_limits, outlines_plate
from furnlib.draw.plates.overall import overall_plate
from furnlib.draw.plates.pattern import HALF_PATTERN, leg_pattern, pattern_plate
from furnlib.draw.plates.proportion import proportion_plate
from furnlib.draw.plates.saw_card import SAW_CARD, saw_card_plate
from furnlib.draw.plates.season_band import season_kinds, season_plate, season_record_plate
from furnlib.draw.plates.sequence_card import sequence_plate, sequence_sheets
from furnlib.draw.plates.slot_strip import SLOT_STRIP, slot_strip_plate, slots_plate
from furnlib.draw.plates.solid_view import solid_plate
from furnlib.draw.plates.stick import STORY_STICK, stick_plate
from furnlib.draw.plates.strip import strip_plate, strips
from furnlib.draw.plates.triangle import TRIANGLE_CARD, triangle_plate
from furnlib.draw.plates.turned_groups import turned_groups
from furnlib.plan.piece import CasePiece, Piece

__all__ = [
    "blank_plate",
    "case_section_plate",
    "cradle_plate",
    "dovetail_strip_plate",
    "drawer_plate",
    "drilling_pattern_plate",
    "drilling_plate",
    "fixing_plate",
    "fronts_plate",
    "leans_plate",
    "leg_pattern",
    "leg_plate",
    "leg_profile_plate",
    "legs_plate",
    "openings_plate",
    "openings_stick_plate",
    "outlines_plate",
    "overall_plate",
    "pattern_plate",
    "plates_of",
    "proportion_plate",
    "rules_plate",
    "saw_card_plate",
    "season_plate",
    "season_record_plate",
    "sequence_plate",
    "slot_strip_plate",
    "slots_plate",
    "solid_plate",
    "stick_plate",
    "strip_plate",
    "triangle_plate",
    "turned_groups",
]
_BY_SHEET = (
    (openings_plate, bank_kinds),
    (openings_stick_plate, OPENINGS_STICK.sheets),
    (rules_plate, partial(bank_kinds, least_rows=RULES_DIFFER)),
    (fronts_plate, fronts_sheets),
    (drilling_pattern_plate, DRILLING_PATTERN.sheets),
    (drawer_plate, drawer_kinds),
    (dovetail_strip_plate, DOVETAIL_STRIP.sheets),
    (case_section_plate, section_sheets),
    (season_plate, season_kinds),
    (slot_strip_plate, SLOT_STRIP.sheets),
    (legs_plate, LEGS.sheets),
    (blank_plate, turned_groups),
    (leg_profile_plate, turned_groups),
    (stick_plate, STORY_STICK.sheets),
    (pattern_plate, HALF_PATTERN.sheets),
    (sequence_plate, sequence_sheets),
    (drilling_plate, DRILLING_CARD.sheets),
    (saw_card_plate, SAW_CARD.sheets),
    (strip_plate, strips),
    (cradle_plate, CRADLE_CARD.sheets),
    (fixing_plate, FIXING.sheets),
    (triangle_plate, TRIANGLE_CARD.sheets),
)
"""What openings and legs are drawn on, in the order of the work, and the sheets of it that a piece takes."""


def plates_of(piece: Piece) -> tuple[Drawing, ...]:
    """Draw every plate that a piece has, in the order of the job.

    Args:
        piece: a finished piece.

    Returns:
        The plates: overall, proportion and openings of a case, other outlines where its brief has limits,
        and where it has legs what they are drilled, sawn and fixed by.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [plate.name for plate in plates_of(read_piece("notebooks/designs/practice_stool.yaml"))]
        ['Overall', 'In the round', 'Legs', 'Drilling card', 'Saw card', ..., 'Triangle card']
    """
    by_sheet = (plate(piece, number=n) for plate, sheets in _BY_SHEET for n, _ in enumerate(sheets(piece), 1))
    proportion = (proportion_plate(piece),) if isinstance(piece, CasePiece) else ()
    outlines = (outlines_plate(piece),) if has_limits(piece) else ()
    return (overall_plate(piece), *proportion, *outlines, solid_plate(piece), *by_sheet)
