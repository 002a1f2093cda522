"""Derivations in symbols, through the code that runs: one module for each room of the trade."""

from furnlib.teach.derive.end_cut import derive_end_cut, derive_level_section
from furnlib.teach.derive.graduation import derive_graduation
from furnlib.teach.derive.lean import derive_lean

__all__ = ["derive_end_cut", "derive_graduation", "derive_lean", "derive_level_section"]
