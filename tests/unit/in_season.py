"""What the season does to wide wood, by what must hold at its dampest and at its driest.

The change coefficients are those of the handbook's table, per 1 % of moisture, tangential and radial; they
serve between 6 and 14 %, where all demo pieces stay.
"""

from __future__ import annotations

import math

from printed_rules import STEP, number

CHANGE = {
    "black cherry": (0.00248, 0.00126),
    "red maple": (0.00289, 0.00137),
    "white oak": (0.00365, 0.00180),
    "yellow birch": (0.00338, 0.00256),
    "yellow-poplar": (0.00289, 0.00158),
}


def stretched(piece, role, when):
    """Size at the dampest or the driest over size today."""
    wood, climate = dict(piece.design.wood)[role], dict(piece.design.climate)
    now, then = (float(climate[place].moisture_content) for place in ("shop", when))
    return 1 + CHANGE[wood.species][wood.rings == "quarter-sawn"] * (then - now)


def in_the_damp(piece, size):
    """The tallest that leaves its gap at the dampest: taken down from the opening, a step at a time."""
    what, _, name = size.name.partition(" height of ")
    drawer = next(drawer for drawer in piece.drawers if drawer.name == name)  # of alike banks either
    settled = piece.design.drawers
    front, step = settled.front, STEP[piece.design.unit]
    taken = front.below + front.least_gap + 2 * front.film if what == "front" else settled.side.least_gap
    grown, height = max(1.0, stretched(piece, what, "damp")), math.floor(drawer.opening.height / step) * step
    while float(height) * grown + float(taken) > float(drawer.opening.height) + 1e-9:
        height -= step
    return height


def _boards(piece):
    """Face of a board and the steady distance from middle to middle, at which they fill the back at the dampest."""
    back, widest = piece.design.back, max(1.0, stretched(piece, "case", "damp"))
    whole = float(piece.case.inside_width + 2 * back.rebate)
    face = ((whole - float(back.gap)) / back.number - float(back.gap)) / widest
    return face, face * widest + float(back.gap)


def board_face(piece, _):
    return _boards(piece)[0]


def board_gap(piece, size):
    """Between two boards, or beside an outer one, whose middle keeps its place as well."""
    face, apart = _boards(piece)
    at_edge = (apart + float(piece.design.back.gap)) / 2 - face / 2
    return at_edge if "edges" in size.name else apart - face


def board_tongue(piece, _):
    """At the driest it still reaches over the gap, shrunk as it is, and over what it must cover."""
    (_, apart), driest = _boards(piece), min(1.0, stretched(piece, "case", "dry"))
    gap = apart - _boards(piece)[0] * driest
    return (gap + float(piece.design.back.least_overlap)) / driest


def _seen(piece):
    """Of a panel between two members of its frame."""
    back = piece.design.back
    whole = piece.case.inside_width + 2 * (back.rebate - back.ease)
    return float((whole - back.frame * (back.number + 1)) / back.number)


def panel_width(piece, _):
    """At the driest it still reaches into both grooves as far as it must."""
    back = piece.design.back
    return (_seen(piece) + 2 * float(back.least_overlap)) / min(1.0, stretched(piece, "case", "dry"))


def panel_groove(piece, size):
    """At the dampest either edge is still clear of the bottom of its groove."""
    grown = panel_width(piece, size) * max(1.0, stretched(piece, "case", "damp"))
    return (grown - _seen(piece)) / 2 + float(piece.design.back.gap)


def slot_length(piece, size):
    """From where the screw's rim goes at the driest to where it goes at the dampest, and room at either end."""
    strip, unit = piece.design.strips, piece.design.unit
    place = number(size.name.removeprefix("slot at ").removesuffix(" from the front"))
    (off,) = [abs(float(screw - strip.fixed_place)) for screw in strip.screws if screw == place]
    # by the gauge's own rule in inches, a tenth more, drilled to the next tenth of a mm or thirty-second of an inch
    clear, steps = 1.1 * (0.060 + 0.013 * strip.gauge), {"mm": 254, "in": 32}[unit]
    hole = math.ceil(clear * steps) / {"mm": 10, "in": 32}[unit]
    between = stretched(piece, "case", "damp") - stretched(piece, "case", "dry")
    return off * between + hole + 2 * float(strip.extra)


def moisture(piece, size):
    """As the file gives it, where it gives no air."""
    place = {"now": "shop", "dampest": "damp", "driest": "dry"}[size.name.rpartition(" ")[2]]
    return float(dict(piece.design.climate)[place].moisture_content)


SEASON = {
    "gaps.size": in_the_damp,
    "panels.board": board_face,
    "panels.gap": board_gap,
    "panels.tongue": board_tongue,
    "panels.panel": panel_width,
    "panels.groove": panel_groove,
    "slots.slot": slot_length,
}
"""The way to each size, by the formula behind it."""
