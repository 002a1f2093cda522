"""Derivations in symbols, through the code that runs: one module for each room of the trade."""

from furnlib.teach.derive.apron import derive_apron
from furnlib.teach.derive.cradle import derive_cradle
from furnlib.teach.derive.end_cut import derive_end_cut, derive_level_section, derive_orientations
from furnlib.teach.derive.fixing import derive_fixing
from furnlib.teach.derive.graduation import derive_graduation
from furnlib.teach.derive.lean import derive_lean
from furnlib.teach.derive.rocking import derive_rocking
from furnlib.teach.derive.seat import derive_seat, derive_two_tilts
from furnlib.teach.derive.setting_error import derive_setting_error
from furnlib.teach.derive.tapered_box import derive_tapered_box

__all__ = [
    "derive_apron",
    "derive_cradle",
    "derive_end_cut",
    "derive_fixing",
    "derive_graduation",
    "derive_lean",
    "derive_level_section",
    "derive_orientations",
    "derive_rocking",
    "derive_seat",
    "derive_setting_error",
    "derive_tapered_box",
    "derive_two_tilts",
]
