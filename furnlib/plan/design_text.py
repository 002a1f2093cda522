"""The text of a design file: every scalar is text, every key knows its line.

YAML is read here as a plain notation only. Nothing in it is guessed: ``14.6``, ``no`` and
``1:30`` all stay text until a reader of lengths, angles or counts makes sense of them. Aliases,
tags, doubled keys and deep nesting are refused. Values are written back by changing just their
own characters, so comments, order and spacing stay as the maker left them.
"""

from __future__ import annotations

import contextlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from ruamel.yaml.events import AliasEvent, CollectionEndEvent, CollectionStartEvent, NodeEvent
from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from furnlib.base.files import whole_file
from furnlib.base.guards import DesignError

Tree = dict[str, Any]
KeyPath = tuple[str | int, ...]

MOST_BYTES = 256_000
DEEPEST = 50


def spoken_path(path: KeyPath) -> str:
    """Write where a value stands, such as ``legs, inset, front``; members of a list count from 1.

    Args:
        path: the keys down to the value.

    Returns:
        The keys with commas between.
    """
    return ", ".join(str(key + 1) if isinstance(key, int) else key for key in path)


@dataclass(frozen=True)
class DesignText:
    """A design file as it was written.

    Args:
        name: the file's name, for messages.
        text: all of it.
        tree: its mappings, lists and texts.
        spans: where in the text each scalar stands, by path.
        lines: on which line each key stands, by path.
        indents: how far each list of names is indented; nothing for one within braces.
    """

    name: str
    text: str
    tree: Tree
    spans: dict[KeyPath, tuple[int, int]] = field(repr=False)
    lines: dict[KeyPath, int] = field(repr=False)
    indents: dict[KeyPath, int | None] = field(repr=False)

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
            with file.open("rb") as stream:
                raw = stream.read(MOST_BYTES + 1)
        except OSError as error:
            raise DesignError(f"{file} cannot be read ({error.strerror}); check the name and the folder.") from error
        except ValueError as error:
            raise DesignError(f"{str(path)!r} is no name of a file; check the name and the folder.") from error
        if len(raw) > MOST_BYTES:
            raise DesignError(f"{file.name} is over {MOST_BYTES // 1000} kB; a design file is a page or two.")
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
        except YAMLError as error:
            line = _line_of_fault(error, body)
            raise DesignError(
                f"{name} line {line} cannot be read; look at it and the line above for a missing colon, quote or"
                " bracket, a tab, or a letter that no text should hold."
            ) from error
        if not isinstance(root, MappingNode):
            raise DesignError(f"{name} is no list of names and values; begin it with 'piece: …' and 'unit: mm'.")
        reading = _Reading(name, len(text) - len(body))
        return cls(name, text, reading.tree(root, ()), reading.spans, reading.lines, reading.indents)

    def line_of(self, path: KeyPath) -> int:
        """The line on which a key stands, or the nearest mapping above it.

        Args:
            path: the keys down to the value.

        Returns:
            The line, counted from 1.
        """
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
        tree = _copied(self.tree)
        place: Any = tree
        for key in path[:-1]:
            inside = range(len(place)) if isinstance(place, list) else place if isinstance(place, dict) else ()
            place = place[key] if key in inside else None
        known = path in self.spans
        new_name = isinstance(place, dict) and bool(path) and path[-1] not in place
        if known or new_name:
            if known and place[path[-1]] == value:
                return self
            place[path[-1]] = value
            written = self._over(path, value) if known else self._beside(path, value)
            for text in written:
                with contextlib.suppress(DesignError):
                    new = DesignText.parse(text, self.name)
                    if new.tree == tree:
                        return new
        raise DesignError(f"{self.name} has no place for '{spoken_path(path)}'; write that part into the file first.")

    def without_value(self, path: KeyPath) -> DesignText:
        """Take one value out with its name, touching nothing else but a comment on its own line.

        Args:
            path: the keys down to the value.

        Returns:
            The design text without it; the same where it has no such value.

        Raises:
            DesignError: when it cannot be taken out by itself.

        Example:
            >>> DesignText.parse("rows: {number: 7, step: 20}").without_value(("rows", "step")).text
            'rows: {number: 7}'
        """
        if path not in self.spans:
            return self
        tree = with_values(self, {path: None})
        start, end = self.spans[path]
        name = self.text.rfind(str(path[-1]), 0, start)
        line, comma = self.text.rfind("\n", 0, name) + 1, self.text.rfind(",", 0, name)
        line_end, next_comma = self.text.find("\n", end) + 1 or len(self.text), self.text.find(",", end)
        for first, last in ((line, line_end), (comma, end), (name, next_comma + 2)):
            with contextlib.suppress(DesignError):
                new = DesignText.parse(self.text[: max(first, 0)] + self.text[last:], self.name)
                if new.tree == tree:
                    return new
        raise DesignError(f"{self.name} cannot do without '{spoken_path(path)}'; take it out by hand.")

    def _over(self, path: KeyPath, value: str) -> Iterator[str]:
        """Ways to write a value over the old one; an empty one may want a space or a colon first."""
        start, end = self.spans[path]
        for lead in ("", " ", ": ") if start == end else ("",):
            for written in (value, json.dumps(value, ensure_ascii=False)):
                yield self.text[:start] + lead + written + self.text[end:]

    def _beside(self, path: KeyPath, value: str) -> Iterator[str]:
        """Ways to write a new name and value below its siblings, or within the same braces."""
        parent = path[:-1]
        within = [span for other, span in self.spans.items() if other[: len(parent)] == parent]
        if not within or parent not in self.indents:
            return
        end, indent = within[-1][1], self.indents[parent]
        line_end = self.text.find("\n", end)
        line_end = len(self.text) if line_end < 0 else line_end
        eol = "\n"
        if self.text[line_end - 1 : line_end] == "\r":
            line_end, eol = line_end - 1, "\r\n"
        for name in (str(path[-1]), json.dumps(str(path[-1]), ensure_ascii=False)):
            for written in (value, json.dumps(value, ensure_ascii=False)):
                if indent is None:
                    yield f"{self.text[:end]}, {name}: {written}{self.text[end:]}"
                else:
                    yield f"{self.text[:line_end]}{eol}{' ' * indent}{name}: {written}{self.text[line_end:]}"

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
        except ValueError as error:
            raise DesignError(f"{str(path)!r} is no name of a file; choose another.") from error
        return file


def with_values(text: DesignText, values: Mapping[KeyPath, str | None]) -> Tree:
    """The tree of a design with some values replaced, the file untouched.

    Args:
        text: the file as it was written.
        values: new texts by path; None where a value is to go.

    Returns:
        A new tree.
    """
    tree: Tree = _copied(text.tree)
    for path, value in values.items():
        branch: Any = tree
        for key in path[:-1]:
            branch = branch[int(key)] if isinstance(branch, list) else branch.setdefault(key, {})
        branch[path[-1]] = value
        if value is None:
            del branch[path[-1]]
    return tree


def _copied(tree: Any) -> Any:
    """Another tree of the same texts, in less time than `deepcopy` takes: a slider asks on every move."""
    if isinstance(tree, dict):
        return {key: _copied(branch) for key, branch in tree.items()}
    return [*map(_copied, tree)] if isinstance(tree, list) else tree


def _line_of_fault(error: YAMLError, body: str) -> int:
    """The line to look at: where a fault shows, or where what is never closed was opened."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    opened = getattr(error, "context_mark", None)
    if mark is None:
        return body.count("\n", 0, getattr(error, "position", 0)) + 1
    if opened is not None and mark.index >= len(body.rstrip()):
        mark = opened
    return int(mark.line) + 1


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
    indents: dict[KeyPath, int | None] = field(default_factory=dict)

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
        if node.value:
            self.indents[path] = None if node.flow_style else node.value[0][0].start_mark.column
        for key, value in node.value:
            line = key.start_mark.line + 1
            if not isinstance(key, ScalarNode):
                raise DesignError(f"{self.name} line {line} has a list where a name should stand; write a plain name.")
            if key.value in found:
                raise DesignError(f"{self.name} line {line} gives '{key.value}' a second time; keep one of the two.")
            self.lines[*path, key.value] = line
            found[key.value] = self.tree(value, (*path, key.value))
        return found
