"""A live view: controls, a picture and its caption, wired as read, call, draw.

Moving a control changes one value of a design; the whole piece is computed anew and its plate
drawn. No formula stands here. matplotlib stays out of the loop: it makes one PNG when the cell
shows, so that the same picture is there when the notebook is printed, exported or not trusted.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets

from furnlib.base.guards import DesignError
from furnlib.draw import page_outlet
from furnlib.draw.drawing import Drawing
from furnlib.live.control import Control
from furnlib.plan.design import design_of
from furnlib.plan.design_text import DesignText, KeyPath, with_values
from furnlib.plan.piece import Piece, make_piece

Plate = Callable[[Piece, float | None], Drawing]
_CAPTION_PX = 58  # two lines, and a scroll bar for a longer sentence
_AIR_MM = 4.0  # round the picture at rest, so that a longer number does not make it jump


@dataclass(frozen=True)
class Binding:
    """One control and the places in the design file that it sets.

    Args:
        control: what is moved or typed into.
        paths: the values it sets, such as the rake of both front legs.
        write: turns the control's value into the file's text.
        used: tells from all texts whether the control counts just now.
        as_written: the text that stands in the file; it stays until the control is moved.
        place: controls with the same place stand in turn where one control stands.
    """

    control: Control | ipywidgets.Dropdown
    paths: tuple[KeyPath, ...]
    write: Callable[[Any], str] = str
    used: Callable[[dict[KeyPath, str]], bool] = lambda _: True
    as_written: str | None = None
    place: str = ""
    start: Any = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "start", self.control.value)

    @property
    def text(self) -> str:
        """The control's value as the file holds it."""
        moved = self.as_written is None or self.control.value != self.start
        return self.write(self.control.value) if moved else str(self.as_written)


class LiveView(ipywidgets.VBox):  # type: ignore[misc]
    """Controls over a picture over its caption, on one design.

    A value that cannot be made shows its sentence in place of the caption, and the last good
    picture stays. `keep` writes the values back into the design file.

    Args:
        text: the design file as it was written.
        plate: what to draw of the piece.
        bindings: the controls and what they set.
        path: the file, so that `keep` can write it.
    """

    def __init__(self, text: DesignText, plate: Plate, bindings: Sequence[Binding], path: Path | None = None) -> None:
        self._text, self._plate, self._bindings, self._path = text, plate, tuple(bindings), path
        self.piece = make_piece(self._design())
        self.drawing = plate(self.piece, None)
        self._scale, air = self.drawing.scale, _AIR_MM / self.drawing.scale
        left, bottom, right, top = self.drawing.box
        self._frame = (left - air, bottom - air, right + air, top + air)
        height = round((self._frame[3] - self._frame[1]) * self._scale * page_outlet.PX_MM) + 8
        # picture and caption are one widget: one message for each move, and neither is ever ahead
        self._shown = ipywidgets.HTML(layout={"height": f"{height + _CAPTION_PX}px", "overflow": "hidden"})
        self._svg = ""
        keep = ipywidgets.Button(description="Keep these values", layout={"width": "max-content"})
        keep.on_click(lambda _: self._kept())
        controls = [binding.control for binding in self._bindings]
        super().__init__([*controls, self._shown, *([keep] if path else [])])
        self._show()
        for control in controls:
            control.observe(self._follow, names="value")

    def _texts(self) -> dict[KeyPath, str]:
        """The texts of all controls that count just now."""
        texts = {path: binding.text for binding in self._bindings for path in binding.paths}
        used = [binding for binding in self._bindings if binding.used(texts)]
        self._bring_forward(used)
        return {path: texts[path] for binding in used for path in binding.paths}

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

    def _follow(self, _change: Any) -> None:
        """Read, call, draw; or say why not."""
        try:
            piece = make_piece(self._design())
            drawing = self._plate(piece, self._scale)
        except DesignError as error:
            self._say(str(error).removeprefix(f"{self._text.name} "), "Not drawn")
        else:
            self.piece, self.drawing = piece, drawing
            self._show()

    def _show(self) -> None:
        self._svg = page_outlet.svg(self.drawing, self._frame, with_rules=False)
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
        # the file may have been edited since it was opened: only the controls' own values are changed
        text = DesignText.read(self._path) if self._path and self._path.exists() else self._text
        for place, value in self._texts().items():
            text = text.with_value(place, value)
        piece = make_piece(design_of(text))
        saved = text.save(target)
        self._text, self.piece, self.drawing = text, piece, self._plate(piece, self._scale)
        self._show()
        return saved

    def __repr__(self) -> str:
        return f"<Live view of {self.drawing.name.lower()}, {self.piece.design.piece}>"

    def _repr_mimebundle_(self, **kwargs: Any) -> dict[str, Any]:
        # Without the widget view the committed notebook shows the picture, run or not.
        bundle: dict[str, Any] = super()._repr_mimebundle_(**kwargs)
        return bundle | self.drawing._repr_mimebundle_() | {"text/plain": repr(self)}
