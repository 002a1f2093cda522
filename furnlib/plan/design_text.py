"""The text of a design file: every scalar is text, every key knows its line.

YAML is read here as a plain notation only. Nothing in it is guessed: ``14.6``, ``no`` and
``1:30`` all stay text until a reader of lengths, angles or counts makes sense of them. Aliases,
tags, doubled keys and deep nesting are refused. Values are written back by changing just their
own characters, so comments, order and spacing stay as the maker left them.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import AliasEvent, CollectionEndEvent, CollectionStartEvent, NodeEvent
from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from furnlib.base.files import whole_file
from furnlib.base.guards import DesignError

Tree = dict[str, Any]
KeyPath = tuple[str | int, ...]

MOST_BYTES = 256_000
DEEPEST = 50
_PLAIN = re.compile(r"[\w./ '°½¼¾⅛⅜⅝⅞-]*[\w./\"°½¼¾⅛⅜⅝⅞-]")


def spoken_path(path: KeyPath) -> str:
    """Write where a value stands, such as ``legs, inset, front``."""
    return ", ".join(str(key) for key in path)


@dataclass(frozen=True)
class DesignText:
    """A design file as it was written.

    Args:
        name: the file's name, for messages.
        text: all of it.
        tree: its mappings, lists and texts.
        spans: where in the text each scalar stands, by path.
        lines: on which line each key stands, by path.
    """

    name: str
    text: str
    tree: Tree
    spans: dict[KeyPath, tuple[int, int]] = field(repr=False)
    lines: dict[KeyPath, int] = field(repr=False)

    @classmethod
    def read(cls, path: str | Path) -> DesignText:
        """Read a design file.

        Args:
            path: a YAML file in UTF-8, at most 256 kB.

        Returns:
            The text and its tree.

        Raises:
            DesignError: when there is no such file, or it cannot be read as a design.
        """
        file = Path(path)
        try:
            if file.stat().st_size > MOST_BYTES:
                raise DesignError(f"{file.name} is over {MOST_BYTES // 1000} kB; a design file is a page or two.")
            raw = file.read_bytes()
        except OSError as error:
            raise DesignError(f"{file} cannot be read ({error.strerror}); check the name and the folder.") from error
        try:
            return cls.parse(raw.decode("utf-8"), file.name)
        except UnicodeDecodeError as error:
            line = raw[: error.start].count(b"\n") + 1
            raise DesignError(f"{file.name} line {line} is not UTF-8 text; save the file as UTF-8.") from error

    @classmethod
    def parse(cls, text: str, name: str = "design") -> DesignText:
        """Read a design from its text.

        Args:
            text: YAML, a mapping at the top.
            name: what to call it in messages.

        Returns:
            The text and its tree.

        Raises:
            DesignError: naming the line, when the text is no plain mapping.

        Example:
            >>> DesignText.parse("grid: 14.6").tree
            {'grid': '14.6'}
        """
        body = text.removeprefix("\ufeff")
        try:
            _refuse_tricks(body, name)
            root = YAML(typ="rt", pure=True).compose(body)
        except MarkedYAMLError as error:
            mark = error.problem_mark or error.context_mark
            line = f" line {mark.line + 1}" if mark else ""
            raise DesignError(
                f"{name}{line} cannot be read ({error.problem}); look at this line and the one above."
            ) from error
        except YAMLError as error:
            raise DesignError(
                f"{name} cannot be read as text ({str(error).splitlines()[0]}); save it as plain UTF-8."
            ) from error
        if not isinstance(root, MappingNode):
            raise DesignError(f"{name} is no list of names and values; begin it with 'piece: …' and 'unit: mm'.")
        reading = _Reading(name, len(text) - len(body))
        return cls(name, text, reading.tree(root, ()), reading.spans, reading.lines)

    def line_of(self, path: KeyPath) -> int:
        """The line on which a key stands, or the nearest mapping above it."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)

    def with_value(self, path: KeyPath, value: str) -> DesignText:
        """Write one value back, touching nothing else.

        Args:
            path: the keys down to the value; only the last may be new.
            value: the new text.

        Returns:
            The design text with that value.

        Raises:
            DesignError: when the path leads to no place in the file.

        Example:
            >>> DesignText.parse("grid: 1  # mm").with_value(("grid",), "1/2").text
            'grid: 1/2  # mm'
        """
        written = value if _PLAIN.fullmatch(value) else json.dumps(value, ensure_ascii=False)
        if path in self.spans:
            start, end = self.spans[path]
            return DesignText.parse(self.text[:start] + written + self.text[end:], self.name)
        siblings = [other for other in self.spans if other[:-1] == path[:-1]]
        if not siblings:
            raise DesignError(
                f"{self.name} has no place for '{spoken_path(path)}'; write that part into the file first."
            )
        start, end = self.spans[siblings[-1]]
        key_line = self.text.rfind("\n", 0, start) + 1
        indent = re.match(r"[ ]*", self.text[key_line:start])
        if "{" in self.text[key_line:start]:  # beside its neighbour, within the same braces
            return DesignText.parse(f"{self.text[:end]}, {path[-1]}: {written}{self.text[end:]}", self.name)
        rest = self.text.find("\n", end)
        rest = len(self.text) if rest < 0 else rest
        new_line = f"\n{indent.group() if indent else ''}{path[-1]}: {written}"
        return DesignText.parse(self.text[:rest] + new_line + self.text[rest:], self.name)

    def save(self, path: str | Path) -> Path:
        """Write the file whole, or leave what was there.

        Args:
            path: the file to write.

        Returns:
            The path.

        Raises:
            DesignError: when the folder cannot be written to.
        """
        file = Path(path)
        try:
            with whole_file(file) as stream:
                stream.write(self.text.encode("utf-8"))
        except OSError as error:
            raise DesignError(f"{file} cannot be written ({error.strerror}); choose another folder.") from error
        return file


def _refuse_tricks(text: str, name: str) -> None:
    """Refuse what YAML can do beyond names, lists and texts, before anything is built from it."""
    depth = 0
    for event in YAML(typ="rt", pure=True).parse(text):
        line = event.start_mark.line + 1
        if isinstance(event, AliasEvent) or (isinstance(event, NodeEvent) and event.anchor):
            raise DesignError(f"{name} line {line} refers to another place with & or *; write the value out.")
        if getattr(event, "tag", None) is not None:
            raise DesignError(f"{name} line {line} has a tag ({event.tag}); leave the tag away.")
        depth += isinstance(event, CollectionStartEvent) - isinstance(event, CollectionEndEvent)
        if depth > DEEPEST:
            raise DesignError(f"{name} line {line} is nested over {DEEPEST} deep; a design needs five levels.")


@dataclass
class _Reading:
    """Turns nodes into plain mappings, lists and texts, and notes where each stands."""

    name: str
    shift: int
    spans: dict[KeyPath, tuple[int, int]] = field(default_factory=dict)
    lines: dict[KeyPath, int] = field(default_factory=dict)

    def tree(self, node: Node, path: KeyPath) -> Any:
        if isinstance(node, MappingNode):
            return self.mapping(node, path)
        if isinstance(node, SequenceNode):
            for i, child in enumerate(node.value):
                self.lines[*path, i] = child.start_mark.line + 1
            return [self.tree(child, (*path, i)) for i, child in enumerate(node.value)]
        self.spans[path] = (node.start_mark.index + self.shift, node.end_mark.index + self.shift)
        return node.value

    def mapping(self, node: MappingNode, path: KeyPath) -> Tree:
        found: Tree = {}
        for key, value in node.value:
            line = key.start_mark.line + 1
            if not isinstance(key, ScalarNode):
                raise DesignError(f"{self.name} line {line} has a list where a name should stand; write a plain name.")
            if key.value in found:
                raise DesignError(f"{self.name} line {line} gives '{key.value}' a second time; keep one of the two.")
            self.lines[*path, key.value] = line
            found[key.value] = self.tree(value, (*path, key.value))
        return found
