"""furnlib: sizes that close, legs that lean, and full-size patterns for a one-person furniture shop.

``import furnlib as fl`` loads nothing but this table of names; each module loads on first use.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from furnlib.base.guards import DesignError as DesignError
    from furnlib.base.reading import read_angle as read_angle
    from furnlib.base.reading import read_length as read_length
    from furnlib.base.reading import read_number as read_number
    from furnlib.base.units import round_length as round_length
    from furnlib.base.units import write_angle as write_angle
    from furnlib.base.units import write_length as write_length
    from furnlib.draw.drawing import Drawing as Drawing
    from furnlib.draw.plates import leans_plate as leans_plate
    from furnlib.draw.plates import legs_plate as legs_plate
    from furnlib.draw.plates import openings_plate as openings_plate
    from furnlib.draw.plates import overall_plate as overall_plate
    from furnlib.draw.plates import plates_of as plates_of
    from furnlib.draw.plates import saw_card_plate as saw_card_plate
    from furnlib.live.pieces import live_legs as live_legs
    from furnlib.live.pieces import live_openings as live_openings
    from furnlib.plan.design import read_design as read_design
    from furnlib.plan.piece import Piece as Piece
    from furnlib.plan.piece import make_piece as make_piece
    from furnlib.plan.piece import read_piece as read_piece
    from furnlib.record.packet import write_packet as write_packet
    from furnlib.teach.derive import derive_end_cut as derive_end_cut
    from furnlib.teach.derive import derive_graduation as derive_graduation
    from furnlib.teach.derive import derive_lean as derive_lean
    from furnlib.teach.derive import derive_level_section as derive_level_section
    from furnlib.teach.lessons import exercise as exercise
    from furnlib.trade.drawer.graduation import close_on_grid as close_on_grid
    from furnlib.trade.drawer.graduation import constant_ratio as constant_ratio
    from furnlib.trade.drawer.graduation import constant_step as constant_step
    from furnlib.trade.drawer.graduation import equal_openings as equal_openings
    from furnlib.trade.drawer.graduation import running_sizes as running_sizes
    from furnlib.trade.leg.end_cut import end_cut as end_cut
    from furnlib.trade.leg.lean import Lean as Lean

_HOMES = {
    "base.guards": ("DesignError",),
    "base.reading": ("read_angle", "read_length", "read_number"),
    "base.units": ("round_length", "write_angle", "write_length"),
    "draw.drawing": ("Drawing",),
    "draw.plates": ("leans_plate", "legs_plate", "openings_plate", "overall_plate", "plates_of", "saw_card_plate"),
    "live.pieces": ("live_legs", "live_openings"),
    "plan.design": ("read_design",),
    "plan.piece": ("Piece", "make_piece", "read_piece"),
    "record.packet": ("write_packet",),
    "teach.derive": ("derive_end_cut", "derive_graduation", "derive_lean", "derive_level_section"),
    "teach.lessons": ("exercise",),
    "trade.drawer.graduation": (
        "close_on_grid",
        "constant_ratio",
        "constant_step",
        "equal_openings",
        "running_sizes",
    ),
    "trade.leg.end_cut": ("end_cut",),
    "trade.leg.lean": ("Lean",),
}
_HOME_OF = {name: home for home, names in _HOMES.items() for name in names}
__all__ = sorted(_HOME_OF)  # noqa: PLE0605 - the table above is the one list of names


if not TYPE_CHECKING:  # a type checker that saw this would take any misspelt name for good

    def __getattr__(name: str) -> object:
        """Load a public name on its first use."""
        if name not in _HOME_OF:
            raise AttributeError(f"furnlib has no '{name}'; what it has: {', '.join(__all__)}")
        value = getattr(import_module(f"furnlib.{_HOME_OF[name]}"), name)
        globals()[name] = value
        return value


def __dir__() -> list[str]:
    return list(__all__)
