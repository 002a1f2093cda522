"""The usual scales of each unit, and which of them fits a sheet."""

from __future__ import annotations

from furnlib.base.units import MM_IN, Unit
from furnlib.draw.drawing import Point

MM_UNIT: dict[Unit, float] = {"mm": float(MM_IN["mm"]), "in": float(MM_IN["in"])}
_RATIOS: dict[Unit, tuple[float, ...]] = {
    "mm": (1, 2, 2.5, 5, 10, 20, 50, 100),
    "in": (1, 2, 4, 8, 12, 16, 24, 48, 96),
}
PLATE_MM = (188.0, 225.0)
"""Room for a plate on a sheet that both A4 and letter hold, beside frame and title block."""


def usual_scales(unit: Unit) -> tuple[float, ...]:
    """The scales of a unit, the largest first.

    Args:
        unit: "mm" (1:1, 1:2, 1:5 …) or "in" (1:1, 1:2, 1:4 …).

    Returns:
        Millimetres on paper for one unit of the piece.

    Example:
        >>> usual_scales("in")[:3]
        (25.4, 12.7, 6.35)
    """
    return tuple(MM_UNIT[unit] / ratio for ratio in _RATIOS[unit])


def fitting_scale(
    width: float, height: float, unit: Unit, beside_mm: float, above_mm: float, room: Point = PLATE_MM
) -> float:
    """Find the largest usual scale at which a picture fits on a sheet.

    Args:
        width: of what is drawn to scale, in the piece's unit.
        height: of what is drawn to scale, in the piece's unit.
        unit: "mm" (1:1, 1:2, 1:5 …) or "in" (1:1, 1:2, 1:4 …).
        beside_mm: room on paper taken by dimensions and words across.
        above_mm: the same upwards.
        room: width and height that may be filled, in mm on paper.

    Returns:
        Millimetres on paper for one unit of the piece.

    Example:
        >>> fitting_scale(900.0, 1300.0, "mm", 40.0, 40.0)
        0.1
    """
    for scale in usual_scales(unit):
        if width * scale + beside_mm <= room[0] and height * scale + above_mm <= room[1]:
            break
    return scale


def ratio_words(scale: float, unit: Unit) -> str:
    """Write a scale as its ratio.

    Args:
        scale: mm on paper for one unit of the piece.
        unit: the piece's unit, "mm" or "in".

    Returns:
        Such as "1 : 10".

    Example:
        >>> ratio_words(0.1, "mm"), ratio_words(12.7, "in"), ratio_words(10, "mm")
        ('1 : 10', '1 : 2', '10 : 1')
    """
    times = scale / MM_UNIT[unit]
    return f"{times:.3g} : 1" if times > 1 else f"1 : {1 / times:.3g}"
