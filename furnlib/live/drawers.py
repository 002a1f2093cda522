"""A drawer under the hand: its parts with the sums they come from, and how it hangs when it stands open."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_exact
from furnlib.draw.plates.one_drawer import one_drawer_plate
from furnlib.draw.plates.one_open_drawer import one_open_drawer_plate
from furnlib.live.bindings import FINE, control_ends
from furnlib.live.control import length_control, number_control
from furnlib.live.view import Binding, LiveView
from furnlib.plan.design_drawer import Drawers
from furnlib.plan.design_text import DesignText, KeyPath
from furnlib.plan.piece import CasePiece, case_of, piece_of
from furnlib.plan.sizes.drawers import DrawerSizes

_KICKER: KeyPath = ("drawers", "riding", "kicker")
_MOST_UNDER_KICKER = 40  # steps: further off it holds nothing down
_FRICTION = "0.05", "0.8"
_PULLED = Fraction(1, 2), Fraction(11, 12)
"""Shares of its length between which a drawer is pulled out; a maker begins with half."""


def live_drawer(path: str | Path, row: int | None = None) -> LiveView:
    """Open the drawers of a design file: back room, lap, sides, groove, gap and drop under the hand.

    Args:
        path: a design file of a case that says how its drawers are made.
        row: whose drawer is shown, counted from the top; by default the first.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no such drawer, cannot be read, or its sizes do not close.

    Example:
        >>> live_drawer("notebooks/designs/landing_chest.yaml", 7)
        <Live view of drawer, Landing chest>
    """
    text, piece, settled, drawer = _opened(path, row)
    return LiveView(
        text,
        lambda piece, scale: one_drawer_plate(piece, scale, drawer.row),
        tuple(_making(settled, piece.design.unit)),
        Path(path),
    )


def live_droop(path: str | Path, row: int | None = None) -> LiveView:
    """Open a drawer of a design file: how far it is pulled out, its gaps and its friction under the hand.

    How far it is pulled out is nothing of the design and is not kept.

    Args:
        path: a design file of a case that says how its drawers are made.
        row: whose drawer is pulled out, counted from the top; by default the first.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no such drawer, cannot be read, or its sizes do not close.

    Example:
        >>> live_droop("notebooks/designs/landing_chest.yaml", 7)
        <Live view of open drawer, Landing chest>
    """
    text, piece, settled, drawer = _opened(path, row)
    unit, long, friction = piece.design.unit, drawer.fit.length, settled.riding.friction
    half, most = (str(round(long * share / FINE[unit]) * FINE[unit]) for share in _PULLED)
    out = length_control("Pulled out", half, half, most, str(FINE[unit]), unit)
    drag = number_control("Friction", str(friction), *control_ends(*_FRICTION, friction), "0.05")
    bindings = (
        Binding(out, ()),
        _kicker(drawer, unit),
        _length("Side gap", ("side", "gap"), settled.side.gap, (0, 10), unit, Fraction(1, 2)),
        Binding(
            drag,
            (("drawers", "riding", "friction"),),
            lambda value: write_exact(Fraction(value), "mm"),
            default=Fraction(2, 5),
        ),
    )
    return LiveView(
        text,
        lambda piece, scale: one_open_drawer_plate(piece, scale, drawer.row, Fraction(out.value) / long),
        bindings,
        Path(path),
    )


def _opened(path: str | Path, row: int | None) -> tuple[DesignText, CasePiece, Drawers, DrawerSizes]:
    """A design file with the drawer that was asked for."""
    text = DesignText.read(path)
    piece = case_of(piece_of(text))
    settled, found = piece.design.drawers, [drawer for drawer in piece.drawers if row in (None, drawer.row)]
    if settled is None:
        raise DesignError(f"{text.name} does not say how its drawers are made; add a part 'drawers:' as in the demo.")
    if not found:
        most = max(drawer.row for drawer in piece.drawers)
        raise DesignError(f"{text.name} has no row {row}; name one from 1 to {most}.")
    return text, piece, settled, found[0]


def _length(
    name: str, place: KeyPath, size: Fraction, steps: tuple[int, int], unit: Unit, step: Fraction = Fraction(1)
) -> Binding:
    """A control for a size of the drawers, from so many of its steps to so many."""
    fine = FINE[unit] * step
    ends = control_ends(str(steps[0] * fine), str(steps[1] * fine), size)
    control = length_control(name, str(size), *ends, str(fine), unit)
    return Binding(control, (("drawers", *place),), lambda value: write_exact(Fraction(value), unit), default=0)


def _making(settled: Drawers, unit: Unit) -> Iterator[Binding]:
    """The sizes that a drawer's parts follow from."""
    yield _length("Back room", ("back room",), settled.back_gap, (0, 40), unit)
    if settled.corner.joint != "through":
        yield _length("Lap", ("corner", "lap"), settled.corner.lap, (1, 24), unit)
    yield _length("Side thickness", ("side", "thickness"), settled.side.thickness, (4, 24), unit)
    yield _length("Groove up", ("bottom", "up"), settled.bottom.up, (1, 16), unit)
    yield _length("Groove depth", ("bottom", "groove"), settled.bottom.groove, (1, 16), unit)
    yield _length("Side gap", ("side", "gap"), settled.side.gap, (0, 10), unit, Fraction(1, 2))
    yield _length("Back drop", ("back", "drop"), settled.back.drop, (0, 20), unit)


@dataclass(frozen=True)
class _Kicker(Binding):
    """The gap over a row's sides: up to what is free there a kicker's, beyond it that of a row without one."""

    free: Fraction = Fraction(0)

    def texts(self, text: DesignText) -> dict[KeyPath, str | None]:
        strip, missing = self.paths
        place = missing if missing in text.spans or self.control.value > self.free else strip
        return Binding(self.control, (place,), self.write, default=self.free).texts(text)


def _kicker(drawer: DrawerSizes, unit: Unit) -> Binding:
    """The control for what is over the sides of a row."""
    fine, free = FINE[unit] / 2, drawer.opening.height - Fraction(drawer.side_height.value)
    play = Fraction(drawer.fit.play).limit_denominator(1000)
    ends = control_ends("0", str(2 * _MOST_UNDER_KICKER * fine), play)
    control = length_control("Gap to the kicker", str(play), *ends, str(fine), unit)
    places = (_KICKER, ("drawers", "riding", "no kicker", str(drawer.row)))
    return _Kicker(control, places, lambda value: write_exact(Fraction(value), unit), free=free)
