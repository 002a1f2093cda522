"""Live views of a design file's legs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial
from pathlib import Path

from furnlib.base.guards import DesignError
from furnlib.base.reading import read_angle, read_length
from furnlib.base.units import write_angle, write_exact
from furnlib.draw.plates import leans_plate, leg_plate
from furnlib.draw.plates.groups import leg_group
from furnlib.live.bindings import choice, control_ends, height_binding, size_binding
from furnlib.live.control import Control, angle_control, set_together
from furnlib.live.view import Binding, Followers, LiveView
from furnlib.plan.design import Design, SeatDesign, design_of
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import make_piece
from furnlib.trade.leg.end_cut import ORIENTATIONS
from furnlib.trade.leg.lean import Lean

_PARTNER = {"rake": "splay", "splay": "rake", "total lean": "sight line", "sight line": "total lean"}
_FOLLOWED_DECIMALS = 4  # of degrees, as what follows is written into the file
_SAME = 1e-3  # tangents of leans that are one but for rounding
_CALLED = {
    "rake": "Rake (front-to-back lean)",
    "splay": "Splay (side lean)",
    "total lean": "Total lean",
    "sight line": "Sight line, from the front-back line",
}


def _lean_controls(text: DesignText, design: Design) -> Iterator[Binding]:
    """A control for each name that the file uses; legs of one end share it where they agree."""
    if "legs" not in text.tree:
        raise DesignError(f"{text.name} has no legs; add a part 'legs:' as in the demo design.")
    leans = text.tree["legs"]["lean"]
    for end in ("front", "rear", "middle"):
        positions = [position for position in leans if position.startswith(end)]
        for name in sorted({name for position in positions for name in leans[position]}):
            named = {position: leans[position][name] for position in positions if name in leans[position]}
            if len({read_angle(written) for written in named.values()}) == 1:
                yield _lean_control(name, f"{end} legs" if len(named) > 1 else f"{next(iter(named))} leg", named)
            else:
                for position, written in named.items():
                    yield _lean_control(name, f"{position} leg", {position: written})


def _lean_control(name: str, whose: str, named: dict[str, str]) -> Binding:
    """One control for one name of the lean of some legs that agree."""
    written = next(iter(named.values()))
    value = read_angle(written)
    low, high = {"sight line": ("-180", "180"), "total lean": ("0", "60")}.get(name, ("-45", "45"))
    called = f"{name.capitalize()}, {whose}" if whose else _CALLED[name]
    control = angle_control(called, str(value), *control_ends(low, high, value), "1/2")
    paths = tuple(("legs", "lean", position, name) for position in named)
    return Binding(control, paths, lambda angle: write_exact(Fraction(angle), "mm"))


def live_legs(path: str | Path) -> LiveView:
    """Open a design file's legs: the leans of front and rear legs under the hand.

    Args:
        path: a design file with legs.

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no legs, cannot be read, or its sizes do not close.

    Example:
        >>> live_legs("notebooks/designs/landing_chest.yaml")
        <Live view of leans, Landing chest>
    """
    text = DesignText.read(path)
    design = design_of(text)
    return LiveView(text, leans_plate, tuple(_lean_controls(text, design)), Path(path))


def live_leg(path: str | Path, position: str) -> LiveView:
    """Open one leg of a design file: its lean by either pair of names, and what goes with it.

    Rake and splay, total lean and sight line stand side by side: whichever is moved, its partner
    stays and the other two follow. The legs that lean alike by the same words move along.

    Args:
        path: a design file with legs.
        position: which leg, such as "front left".

    Returns:
        The view; show it as the last line of a cell.

    Raises:
        DesignError: when the file has no such leg, cannot be read, or its sizes do not close.

    Example:
        >>> live_leg("notebooks/designs/practice_stool.yaml", "front left")
        <Live view of front left and front right, Practice stool>
    """
    text = DesignText.read(path)
    design = design_of(text)
    group = leg_group(make_piece(design), position)
    leans = text.tree["legs"]["lean"]

    def said(leg: str) -> dict[str, Fraction]:
        return {name: read_angle(words) for name, words in leans[leg].items()}

    alike = [leg.position for leg in group if said(leg.position) == said(position)]
    bindings = [_lean_control(name, "", {leg: leans[leg][name] for leg in alike}) for name in sorted(leans[position])]
    return LiveView(
        text,
        partial(leg_plate, position=position),
        (*bindings, *_leg_size_controls(text, design)),
        Path(path),
        _lean_followers(group[0].lean, {str(binding.paths[0][-1]): binding.control for binding in bindings}),
    )


def _lean_followers(lean: Lean, held: dict[str, Control]) -> Followers:
    """The four names of a lean, of which the file holds two: what is moved keeps its partner."""
    beside = {name: _lean_control(name, "", {"": str(_followed(lean, name))}).control for name in _CALLED.keys() - held}
    set_together({control: control.value for control in beside.values()})  # off the grid, and not said
    controls = {name: (held | beside)[name] for name in _CALLED}

    def leads(moved: Control) -> dict[Control, float]:
        (name,) = (name for name, control in controls.items() if control is moved)
        pair = {name: moved.value, _PARTNER[name]: controls[_PARTNER[name]].value}
        lean = _lean_of(pair)
        others = {name: _followed(lean, name) for name in controls if name not in pair}
        _require_held(lean, {name: others.get(name, controls[name].value) for name in held})
        return {controls[name]: angle for name, angle in others.items()}

    return Followers(tuple(controls.values()), leads)


def _lean_of(names: dict[str, Fraction]) -> Lean:
    return Lean.from_names(**{f"{name.replace(' ', '_')}_deg": float(angle) for name, angle in names.items()})


def _followed(lean: Lean, name: str) -> float:
    return round(float(getattr(lean, f"{name.replace(' ', '_')}_deg")), _FOLLOWED_DECIMALS)


def _require_held(lean: Lean, names: dict[str, Fraction]) -> None:
    """Refuse a lean that the file's own two names leave open, or give another side."""
    found = _lean_of(names)
    if max(abs(found.tan_rake - lean.tan_rake), abs(found.tan_splay - lean.tan_splay)) > _SAME:
        raise DesignError(
            f"The file gives this lean by {' and '.join(names)}, which cannot say rake {write_angle(lean.rake_deg)}"
            f" with splay {write_angle(lean.splay_deg)}; write rake and splay, or total lean and sight line, into it."
        )


def _leg_size_controls(text: DesignText, design: Design) -> Iterator[Binding]:
    """Height, pitch, square and orientation, as far as the design has them."""
    legs = text.tree["legs"]
    yield height_binding(text, design)
    if "square" in legs:
        yield size_binding("Leg square", ("legs", "square"), read_length(legs["square"], design.unit), design.unit)
        faces = choice("Orientation", ORIENTATIONS, legs.get("orientation", ORIENTATIONS[0]))
        yield Binding(faces, (("legs", "orientation"),), default=ORIENTATIONS[0])
    if isinstance(design, SeatDesign):
        pitch = text.tree["seat"].get("pitch", "0")
        ends = control_ends("-5", "12", read_angle(pitch))
        control = angle_control("Pitch of the seat", pitch, *ends, "1/2")
        yield Binding(control, (("seat", "pitch"),), lambda angle: write_exact(Fraction(angle), "mm"), default=0)
