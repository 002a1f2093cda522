"""Derivations in symbols, through the code that runs: one module for each room of the trade."""

from furnlib.teach.derive.apron import derive_apron
from furnlib.teach.derive.blank import derive_blank
from furnlib.teach.derive.cradle import derive_cradle
from furnlib.teach.derive.cup import derive_cup
from furnlib.teach.derive.dovetail import derive_dovetail
from furnlib.teach.derive.drawer_fit import derive_droop, derive_gaps, derive_racking
from furnlib.teach.derive.end_cut import derive_end_cut, derive_level_section, derive_orientations
from furnlib.teach.derive.error_budget import derive_error_budget
from furnlib.teach.derive.finish import derive_finish
from furnlib.teach.derive.fixing import derive_fixing
from furnlib.teach.derive.graduation import derive_graduation
from furnlib.teach.derive.grain_run import derive_grain_run
from furnlib.teach.derive.lathe import derive_lathe
from furnlib.teach.derive.lean import derive_lean
from furnlib.teach.derive.moisture import derive_moisture
from furnlib.teach.derive.movement import derive_movement
from furnlib.teach.derive.off_axis import derive_off_axis
from furnlib.teach.derive.panels import derive_panels
from furnlib.teach.derive.parts import derive_parts
from furnlib.teach.derive.plies import derive_plies
from furnlib.teach.derive.proportion import derive_proportion
from furnlib.teach.derive.pulls import derive_pulls
from furnlib.teach.derive.rocking import derive_rocking
from furnlib.teach.derive.seat import derive_seat, derive_two_tilts
from furnlib.teach.derive.setting_error import derive_setting_error
from furnlib.teach.derive.slots import derive_slots
from furnlib.teach.derive.square_taper import derive_square_taper
from furnlib.teach.derive.squareness import derive_squareness
from furnlib.teach.derive.strength import derive_strength
from furnlib.teach.derive.tapered_box import derive_tapered_box
from furnlib.teach.derive.turning import derive_turning
from furnlib.teach.derive.whirling import derive_whirling

__all__ = [
    "derive_apron",
    "derive_blank",
    "derive_cradle",
    "derive_cup",
    "derive_dovetail",
    "derive_droop",
    "derive_end_cut",
    "derive_error_budget",
    "derive_finish",
    "derive_fixing",
    "derive_gaps",
    "derive_graduation",
    "derive_grain_run",
    "derive_lathe",
    "derive_lean",
    "derive_level_section",
    "derive_moisture",
    "derive_movement",
    "derive_off_axis",
    "derive_orientations",
    "derive_panels",
    "derive_parts",
    "derive_plies",
    "derive_proportion",
    "derive_pulls",
    "derive_racking",
    "derive_rocking",
    "derive_seat",
    "derive_setting_error",
    "derive_slots",
    "derive_square_taper",
    "derive_squareness",
    "derive_strength",
    "derive_tapered_box",
    "derive_turning",
    "derive_two_tilts",
    "derive_whirling",
]
