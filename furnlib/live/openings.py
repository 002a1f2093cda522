"""A live view of a design file's openings: the rule and what it goes by, dividers, grid or jig under the hand."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any

import ipywidgets

from furnlib.base.guards import DesignError
from furnlib.base.units import FINEST, Unit, write_exact
from furnlib.draw.plates import openings_plate
from furnlib.live.bindings import FINE, choice, control_ends, size_binding
from furnlib.live.control import Control, count_control, length_control, number_control
from furnlib.live.view import Binding, LiveView
from furnlib.plan.design import CaseDesign, design_of
from furnlib.plan.design_text import DesignText, KeyPath
from furnlib.plan.piece import CasePiece, case_of, make_piece

_GRIDS: dict[Unit, tuple[str, ...]] = {"mm": ("0.5", "1", "2", "5"), "in": ("1/64", "1/32", "1/16", "1/8")}
_STEPS: dict[Unit, tuple[str, str]] = {"mm": ("20", "60"), "in": ("3/4", "5/2")}
"""A step per row to begin with, and the usual most."""
_LAWS = ("constant step", "constant ratio")
_NUMBERS = {
    "step": ("Step per row", "step or ratio", ("constant step",)),
    "ratio": ("Ratio per row", "step or ratio", ("constant ratio",)),
    "first": ("First opening", "first opening", _LAWS),
    "last": ("Last opening", "last opening", _LAWS),
    "end ratio": ("Last over first", "last over first", _LAWS),
}
"""By key of the file: what the control is called, when it is chosen, and the rules that can go by it."""
_RULE: KeyPath = ("rows", "rule")
_NOT_SAID = "not said"
_FAR, _MOST_END_RATIO = 900, Fraction(5)  # a control has no more than 2000 positions, however large a piece


def live_openings(path: str | Path) -> LiveView:
    """Open a design file's openings: rule, rows, dividers, and the grid or the jig's pitch under the hand.

    A constant step or ratio goes by any of its numbers; the one that is chosen begins where the
    picture stands. What a rule no longer goes by is taken out of the file when the values are kept.

    Args:
        path: a design file.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file cannot be read or its sizes do not close.

    Example:
        >>> live_openings("notebooks/designs/landing_chest.yaml")
        <Live view of openings, Landing chest>
    """
    text = DesignText.read(path)
    design = design_of(text)
    if not isinstance(design, CaseDesign):
        raise DesignError(f"{text.name} has no rows of drawers; open a case, as the demo design.")
    rows, piece = design.rows, case_of(make_piece(design))
    numbers = _number_controls(piece)
    lists = [name for name, given in (("weights", rows.weights), ("own list", rows.openings)) if given]
    rule = choice("Rule", ("equal", *_LAWS, *lists), rows.rule)
    said = [goes_by for name, (_, goes_by, _) in _NUMBERS.items() if _given(design, name) is not None]
    by = choice(
        "Rule goes by",
        tuple(dict.fromkeys(goes_by for _, goes_by, _ in _NUMBERS.values())),
        (*said, "step or ratio")[0],
    )

    def begin_where_it_stands(change: Any) -> None:
        """Let the number that is chosen say what is drawn; where its control ends before that, it stays."""
        for name, size in _numbers_drawn(case_of(view.piece)).items():
            _, goes_by, laws = _NUMBERS[name]
            if change["new"] == goes_by and rule.value in laws:
                with contextlib.suppress(DesignError):
                    numbers[name].set_value(size, quiet=True)

    by.observe(begin_where_it_stands, names="value")  # before the view looks
    bindings = (
        Binding(rule, (_RULE,)),
        Binding(by, (), used=lambda texts: texts[_RULE] in _LAWS),
        *(_number_binding(name, control, by, design.unit) for name, control in numbers.items()),
        Binding(count_control("Number of rows", rows.number, 1, max(12, rows.number)), (("rows", "number"),)),
        *_case_bindings(design, piece.rows.clear_height / rows.number),
        *_closing_bindings(text, design),
    )
    view = LiveView(text, openings_plate, bindings, Path(path))
    return view


def _given(design: CaseDesign, name: str) -> Fraction | None:
    """A number of the rule as the file gives it."""
    number: Fraction | None = getattr(design.rows, name.replace(" ", "_"))
    return number


def _numbers_drawn(piece: CasePiece) -> dict[str, Fraction]:
    """Every number that a rule may go by, read off the ideal openings of a piece as a maker would write it."""
    ideal = piece.rows.closed.ideal[:: 1 if piece.design.rows.order == "top to bottom" else -1]
    first, second, last = ideal[0], ideal[min(1, len(ideal) - 1)], ideal[-1]
    finest = FINEST[piece.design.unit]
    lengths = {"step": second - first, "first": first, "last": last}
    ratios = {"ratio": second / first, "end ratio": last / first}
    return {name: round(size / finest) * finest for name, size in lengths.items()} | {
        name: round(ratio, 3) for name, ratio in ratios.items()
    }


def _number_controls(piece: CasePiece) -> dict[str, Control]:
    """A control for each number, at what the file says, or else at what is drawn."""
    unit, fine = piece.design.unit, FINE[piece.design.unit]
    usual, most = _STEPS[unit]
    sizes = _numbers_drawn(piece)
    sizes |= {
        "step": Fraction(usual),
        "ratio": Fraction(116, 100),
        "end ratio": min(sizes["end ratio"], _MOST_END_RATIO),
    }
    sizes |= {name: given for name in sizes if (given := _given(piece.design, name)) is not None}
    made = {}
    for name, size in sizes.items():
        called, far = _NUMBERS[name][0], _FAR * fine
        if name == "ratio":
            made[name] = number_control(called, str(size), *control_ends("0.7", "1.6", size), "0.01")
        elif name == "end ratio":
            ends = control_ends("0.2", str(_MOST_END_RATIO), size)
            made[name] = number_control(called, str(size), *ends, str(max(Fraction(1, 20), size / _FAR)))
        else:
            near = max(fine, size - far), size + min(size, far)
            ends = control_ends(f"-{most}", most, size) if name == "step" else (str(near[0]), str(near[1]))
            made[name] = length_control(called, str(size), *ends, str(fine), unit)
    return made


def _number_binding(name: str, control: Control, by: ipywidgets.Dropdown, unit: Unit) -> Binding:
    """A number of the rule; all stand in turn where one stands."""
    _, goes_by, laws = _NUMBERS[name]
    write = partial(write_exact, unit="mm" if "ratio" in name else unit)
    return Binding(
        control,
        (("rows", name),),
        lambda value: write(Fraction(value)),
        lambda texts: texts[_RULE] in laws and by.value == goes_by,
        place="number",
    )


def _case_bindings(design: CaseDesign, mean: Fraction) -> Iterator[Binding]:
    """The least top opening, and the dividers where the file has no list of them.

    Beside a jig's three controls their step has no room, unless the file has one: three lines of
    controls leave the picture in view, four do not.
    """
    unit, case, fine = design.unit, design.case, FINE[design.unit]
    least = design.rows.least_top or Fraction(0)
    most = max(min(mean // fine, 2 * _FAR) * fine, 2 * fine, least)
    yield Binding(
        length_control("Least top opening", str(least), "0", str(most), str(fine), unit),
        (("rows", "least top"),),
        lambda value: write_exact(Fraction(value), unit) if value else None,
        lambda texts: texts[_RULE] in _LAWS,
        default=0,
    )
    if case.dividers is None:
        yield size_binding("Divider thickness", ("case", "divider"), case.divider, unit, ("1/3", "2"), fine / 2)
    if case.dividers is None and (design.jig is None or case.divider_step):
        ends = control_ends(str(-2 * fine), str(4 * fine), case.divider_step)
        step = length_control("Divider step", str(case.divider_step), *ends, str(fine / 2), unit)
        yield Binding(step, (("case", "divider step"),), lambda value: write_exact(Fraction(value), unit), default=0)


def _closing_bindings(text: DesignText, design: CaseDesign) -> Iterator[Binding]:
    """What the openings close on: the jig's pitch where there is a jig, else the shop's grid."""
    unit, jig = design.unit, design.jig
    if jig is None:
        yield Binding(choice(f"Shop grid, {unit}", _GRIDS[unit], text.tree["grid"].strip()), (("grid",),))
        return
    half = FINE[unit] / 2
    yield size_binding("Jig's pitch", ("jig", "pitch"), jig.pitch, unit, ("1/2", "2"), half)
    yield size_binding("Clearance of a side", ("jig", "clearance"), jig.clearance, unit, ("1/4", "3"), half)
    yield Binding(
        choice("Left over goes to", ("leg", "top rail", "bottom rail"), jig.leftover or _NOT_SAID),
        (("jig", "leftover"),),
        lambda place: None if place == _NOT_SAID else place,
        default=_NOT_SAID,
    )
