"""What the tests of the house look at: its files, and every public name with its docstring."""

from __future__ import annotations

import ast
import csv
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from inspect import cleandoc
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LIBRARY = ROOT / "furnlib"
GLOSSARY = LIBRARY / "base" / "glossary.csv"
SUFFIXES = ("_deg", "_mm", "_in", "_n", "_kg", "_mpa", "_kg_m3")
_HEADS = ("Args", "Returns", "Yields", "Raises", "Example")

Function = ast.FunctionDef | ast.AsyncFunctionDef


FILE_PARTS = {"Part", "Legs", "Design"}  # what the parts of a design file are made from


@dataclass(frozen=True)
class Parameter:
    """One parameter of a function, or one field of a record."""

    name: str
    annotation: str


@dataclass(frozen=True)
class Public:
    """One public function, method, property or class, as it stands in the text of its module."""

    module: str
    name: str
    kind: str
    line: int
    docstring: str
    parameters: tuple[Parameter, ...]
    returns: bool
    raises: frozenset[str]
    from_file: bool = field(default=False)  # a part of the design file, whose names have no suffix

    @property
    def floor(self) -> str:
        return self.module.split(".")[1]

    @property
    def where(self) -> str:
        return f"{self.module.replace('.', '/')}.py:{self.line} {self.name}"

    @property
    def summary(self) -> str:
        return self.docstring.split("\n\n")[0].strip()

    def section(self, head: str) -> str:
        """The text below a heading of the docstring, without its indent."""
        found = re.search(rf"^{head}:\n((?:[ ]+.*\n|\n)*)", self.docstring + "\n", re.MULTILINE)
        return cleandoc(found.group(1)) if found else ""

    def entries(self, head: str) -> dict[str, str]:
        """The entries below a heading, such as each argument and what is said about it."""
        parts = re.split(r"^([\w*]+):", self.section(head), flags=re.MULTILINE)[1:]
        return {name: " ".join(text.split()) for name, text in zip(parts[::2], parts[1::2], strict=True)}


def modules() -> Iterator[tuple[str, Path]]:
    """Every module of the library by its dotted name."""
    for path in sorted(LIBRARY.rglob("*.py")):
        name = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        yield name.removesuffix(".__init__"), path


def public_names() -> list[Public]:
    """Every public name: no part of its path begins with an underscore."""
    found: list[Public] = []
    for module, path in modules():
        parts = module.split(".")[1:]
        if module == "furnlib" or any(part.startswith("_") and part != "__main__" for part in parts):
            continue
        for node in ast.parse(path.read_text("utf-8")).body:
            if isinstance(node, Function) and not node.name.startswith("_"):
                found.append(_function(module, node, "function"))
            elif isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                found.append(_class(module, node))
                methods = [inner for inner in node.body if isinstance(inner, Function)]
                found += [
                    _function(module, inner, _method_kind(inner), f"{node.name}.")
                    for inner in methods
                    if not inner.name.startswith("_")
                ]
    return found


def listed(faults: Iterable[str]) -> str:
    """A message that shows every fault, one on a line."""
    lines = list(faults)
    return "\n".join([f"{len(lines)} to mend:", *lines])


def glossary() -> list[dict[str, str]]:
    """The rows of the glossary."""
    with GLOSSARY.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def _words_of(node: ast.AST | None) -> str:
    return ast.unparse(node) if node else ""


def _method_kind(node: Function) -> str:
    marks = {_words_of(mark) for mark in node.decorator_list}
    return "property" if marks & {"property", "cached_property"} else "method"


def _parameters(node: Function) -> tuple[Parameter, ...]:
    taken = node.args
    every = [*taken.posonlyargs, *taken.args, taken.vararg, *taken.kwonlyargs, taken.kwarg]
    return tuple(
        Parameter(arg.arg, _words_of(arg.annotation))
        for arg in every
        if arg and arg.arg not in {"self", "cls"} and not arg.arg.startswith("_")
    )


def _raised(node: Function) -> frozenset[str]:
    """The exceptions that the body raises itself; functions within it answer for themselves."""
    found, left = set(), list(node.body)
    while left:
        inner: ast.AST = left.pop()
        if isinstance(inner, Function | ast.Lambda | ast.ClassDef):
            continue
        if isinstance(inner, ast.Raise) and inner.exc:
            raised = inner.exc.func if isinstance(inner.exc, ast.Call) else inner.exc
            found.add(_words_of(raised))
        left.extend(ast.iter_child_nodes(inner))
    return frozenset(found)


def _function(module: str, node: Function, kind: str, prefix: str = "") -> Public:
    returns = _words_of(node.returns) not in {"", "None", "Iterator[None]"}
    docstring = ast.get_docstring(node) or ""
    return Public(module, prefix + node.name, kind, node.lineno, docstring, _parameters(node), returns, _raised(node))


def _class(module: str, node: ast.ClassDef) -> Public:
    """A class takes the fields of its record, or what its constructor takes."""
    bases = {_words_of(base) for base in node.bases}
    is_record = bool(bases & {"NamedTuple", *FILE_PARTS}) or any(
        _words_of(mark).startswith("dataclass") for mark in node.decorator_list
    )
    fields = tuple(
        Parameter(inner.target.id, _words_of(inner.annotation))
        for inner in node.body
        if isinstance(inner, ast.AnnAssign)
        and isinstance(inner.target, ast.Name)
        and not inner.target.id.startswith("_")
        and "init=False" not in _words_of(inner.value)
    )
    made = [inner for inner in node.body if isinstance(inner, Function) and inner.name in {"__init__", "__post_init__"}]
    taken = fields if is_record else tuple(parameter for inner in made for parameter in _parameters(inner))
    raised = frozenset(name for inner in made for name in _raised(inner))
    docstring = ast.get_docstring(node) or ""
    return Public(module, node.name, "class", node.lineno, docstring, taken, False, raised, bool(bases & FILE_PARTS))
