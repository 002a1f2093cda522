"""A live view: controls, a picture and its caption, wired as read, call, draw.

Moving a control changes one value of a design; the whole piece is computed anew and its plate
drawn. No formula stands here. matplotlib stays out of the loop: it makes one PNG when the cell
shows, so that the same picture is there when the notebook is printed, exported or not trusted.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets

from furnlib.base.guards import DesignError
from furnlib.draw import page_outlet
from furnlib.draw.drawing import Drawing
from furnlib.live.control import Control, set_together
from furnlib.plan.design import design_of
from furnlib.plan.design_text import DesignText, KeyPath, with_values
from furnlib.plan.piece import Piece, make_piece

Plate = Callable[[Piece, float | None], Drawing]
_CAPTION_PX = 58  # two lines, and a scroll bar for a longer sentence
_MOST_BELOW_ONE_ANOTHER, _MOST_TWO_ABREAST = 5, 8
_AIR_MM = 4.0  # round the picture at rest, so that a longer number does not make it jump


@dataclass(frozen=True)
class Binding:
    """One control and the places in the design file that it sets.

    Args:
        control: what is moved or typed into.
        paths: the values it sets, such as the rake of both front legs.
        write: turns the control's value into the file's text, None where the file is to say nothing.
        used: tells from all texts whether the control counts just now.
        default: what the design takes where the file says nothing; such a line is not added.
        place: controls with the same place stand in turn where one control stands.
    """

    control: Control | ipywidgets.Dropdown
    paths: tuple[KeyPath, ...]
    write: Callable[[Any], str | None] = str
    used: Callable[[dict[KeyPath, str | None]], bool] = lambda _: True
    default: Any = None
    place: str = ""

    def texts(self, text: DesignText) -> dict[KeyPath, str | None]:
        """Say what the file is to hold: its own words where they mean the same, nothing where it may say nothing.

        Args:
            text: the file as it was written.

        Returns:
            Texts by path, None where a line is to go.
        """
        found: dict[KeyPath, str | None] = {}
        for path in self.paths:
            there = _text_at(text, path)
            if there is not None and self._means(there):
                found[path] = there
            elif there is not None or self.control.value != self.default:
                found[path] = self.write(self.control.value)
        return found

    def _means(self, there: str) -> bool:
        return self.control.means(there) if isinstance(self.control, Control) else there.strip() == self.control.value


def _text_at(text: DesignText, path: KeyPath) -> str | None:
    """What a file holds at a path, None where it has no such line."""
    place: Any = text.tree
    for key in path:
        place = place[int(key)] if isinstance(place, list) else place.get(key) if isinstance(place, dict) else None
    return place if isinstance(place, str) else None


@dataclass(frozen=True)
class Followers:
    """Controls that say one thing in several ways: when one is moved, others follow.

    Args:
        controls: as they stand on the page, before all others; some of them may set nothing in the file.
        leads: what others of them become when one is moved.
    """

    controls: tuple[Control, ...]
    leads: Callable[[Control], dict[Control, float]]


def _abreast(controls: Sequence[Control | ipywidgets.Dropdown]) -> list[ipywidgets.DOMWidget]:
    """Many controls stand two or three abreast where the page is wide enough, so that the picture stays in view."""
    if len(controls) <= _MOST_BELOW_ONE_ANOTHER:
        return list(controls)
    columns = f"repeat(auto-fit, minmax({23 if len(controls) <= _MOST_TWO_ABREAST else 18}rem, 1fr))"
    box = ipywidgets.GridBox(controls, layout={"grid_template_columns": columns, "grid_gap": "0 1.5rem"})
    return [box.add_class("furn-abreast")]


class LiveView(ipywidgets.VBox):  # type: ignore[misc]
    """Controls over a picture over its caption, on one design.

    A value that cannot be made shows its sentence in place of the caption, and the last good
    picture stays. `keep` writes the values back into the design file.

    Args:
        text: the design file as it was written.
        plate: what to draw of the piece.
        bindings: the controls and what they set.
        path: the file, so that `keep` can write it.
        followers: controls that follow one another.
    """

    def __init__(
        self,
        text: DesignText,
        plate: Plate,
        bindings: Sequence[Binding],
        path: Path | None = None,
        followers: Followers | None = None,
    ) -> None:
        self._text, self._plate, self._bindings, self._path = text, plate, tuple(bindings), path
        self._followers, self._answering = followers, False
        self._in_use: list[Binding] = []
        self._in_use_in_file: list[Binding] = []
        self.piece = make_piece(self._design())
        self.drawing = plate(self.piece, None)
        self._scale = self.drawing.scale
        left, bottom, right, top = (side * self._scale for side in self.drawing.box)
        self._frame_mm = (left - _AIR_MM, bottom - _AIR_MM, right + _AIR_MM, top + _AIR_MM)
        height = round((self._frame_mm[3] - self._frame_mm[1]) * page_outlet.PX_MM) + 8
        # picture and caption are one widget: one message for each move, and neither is ever ahead
        self._shown = ipywidgets.HTML(layout={"height": f"{height + _CAPTION_PX}px", "overflow": "hidden"})
        self._svg = ""
        keep = ipywidgets.Button(description="Keep these values", layout={"width": "max-content"})
        keep.on_click(lambda _: self._kept())
        bound = [binding.control for binding in self._bindings]
        first = followers.controls if followers else ()
        controls = [*first, *(control for control in bound if control not in first)]
        super().__init__([*_abreast(controls), self._shown, *([keep] if path else [])])
        self._show()
        for control in controls:
            control.observe(self._moved, names="value")

    def _texts(self) -> dict[KeyPath, str | None]:
        """What the file is to hold by all controls that count just now; what the hand has put out of use goes."""
        texts = [binding.texts(self._text) for binding in self._bindings]
        whole = {path: words for found in texts for path, words in found.items()}
        used = [binding for binding in self._bindings if binding.used(whole)]
        self._bring_forward(used)
        self._in_use, self._in_use_in_file = used, self._in_use_in_file or used
        idle = (binding for binding in self._bindings if used != self._in_use_in_file and binding not in used)
        gone = {path: None for binding in idle for path in binding.paths}
        return {**gone, **{path: whole[path] for binding in used for path in binding.paths if path in whole}}

    def _bring_forward(self, used: Sequence[Binding]) -> None:
        """Show the controls that count; of those in one place one always keeps the room, so that nothing moves."""
        places: dict[str, list[Binding]] = {}
        for number, binding in enumerate(self._bindings):
            places.setdefault(binding.place or str(number), []).append(binding)
        for sharing in places.values():
            front = next((binding for binding in sharing if binding in used), sharing[0])
            for binding in sharing:
                binding.control.layout.display = None if binding is front else "none"
                binding.control.layout.visibility = "visible" if binding in used else "hidden"

    def _design(self) -> Any:
        return design_of(replace(self._text, tree=with_values(self._text, self._texts())))

    def _moved(self, change: Any) -> None:
        """Answer the hand once, whatever else moves along; the page hears of the picture first."""
        if self._answering:
            return
        self._answering = True
        try:
            with contextlib.ExitStack() as held:
                for control in self._followers.controls if self._followers else ():
                    held.enter_context(control.hold_sync())
                self._answer(change)
        finally:
            self._answering = False

    def _answer(self, change: Any) -> None:
        """What follows is set, and one picture is drawn; or it is said why not."""
        try:
            self._follow(change["owner"], change["old"])
            piece = make_piece(self._design())
            self.piece, self.drawing = piece, self._plate(piece, self._scale)
        except DesignError as error:
            self._say(str(error).removeprefix(f"{self._text.name} "), "Not drawn")
        else:
            self._show()

    def _follow(self, moved: Control, before: Any) -> None:
        """Let others follow; where one cannot, the hand has come to an end and nothing has moved."""
        if self._followers is None or moved not in self._followers.controls:
            return
        try:
            set_together(self._followers.leads(moved))
        except DesignError:
            moved.set_value(before, quiet=True)
            raise

    def _show(self) -> None:
        left, bottom, right, top = (side / self.drawing.scale for side in self._frame_mm)
        self._svg = page_outlet.svg(self.drawing, (left, bottom, right, top), with_rules=False)
        self._say(self.drawing.caption)

    def _say(self, words: str, heading: str = "") -> None:
        lead = f"<b>{heading}:</b> " if heading else ""
        lines = "<br>".join(escape(line) for line in words.split("\n"))
        style = f"line-height:1.35;height:{_CAPTION_PX}px;overflow:auto"
        self._shown.value = f'{self._svg}<div role="status" style="{style}">{lead}{lines}</div>'

    def _kept(self) -> None:
        try:
            self._say(f"Kept in {self.keep()}.")
        except DesignError as error:
            self._say(str(error), "Not kept")

    def keep(self, path: str | Path | None = None) -> Path:
        """Write the values found by hand into the design file, comments and order kept.

        Args:
            path: the file to write; by default the one that was opened.

        Returns:
            The file.

        Raises:
            DesignError: when no file is known, it cannot be written, or its sizes no longer close.
        """
        target = Path(path) if path else self._path
        if target is None:
            raise DesignError("This view was not opened from a file; name one to keep the values in.")
        # the file may have been edited since it was opened: only what the hand has changed is written
        text = DesignText.read(self._path) if self._path and self._path.exists() else self._text
        for place, value in self._texts().items():
            if value != _text_at(self._text, place):
                text = text.without_value(place) if value is None else text.with_value(place, value)
        piece = make_piece(design_of(text))
        saved = text.save(target)
        if target == self._path:
            self._text, self._in_use_in_file = text, self._in_use
        self.piece, self.drawing = piece, self._plate(piece, self._scale)
        self._show()
        return saved

    def __repr__(self) -> str:
        return f"<Live view of {self.drawing.name.lower()}, {self.piece.design.piece}>"

    def _repr_mimebundle_(self, **kwargs: Any) -> dict[str, Any]:
        # Without the widget view the committed notebook shows the picture, run or not.
        bundle: dict[str, Any] = super()._repr_mimebundle_(**kwargs)
        return bundle | self.drawing._repr_mimebundle_() | {"text/plain": repr(self)}
