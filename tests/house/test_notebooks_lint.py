"""Notebooks that read alike: one import line, short cells, a sentence before each, outputs in order.

A rule takes a notebook and yields a sentence for each fault. Lessons are 01 to 10; 00 shows round
and has no exercises.
"""

import ast
import re
from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from pathlib import Path

import nbformat
import pytest
from house import ROOT, listed

NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
IMPORT = "import furnlib as fl"
MEAN_LINES, MOST_LINES, CONTROL_WITHIN = 5, 20, 5
OPENING = ("What you will make:", "What you will learn:", "What you need:")
CLOSING = ["## Your own piece", "## Sources"]
OUTSIDE = re.compile(r"sys\.path|https?:|ftp:|\burllib\b|\brequests\b|\bwget\b|\bcurl\b|\bpip\b|\bconda\b")
MAGIC = re.compile(r"^\s*[!%]", re.MULTILINE)
STUB = re.compile(r"fl\.exercise\(\"(\w+)\"\)\.check\(\.\.\.\)")
MACHINE = re.compile(r"(?<![\w.<])/(?:home|root|tmp|Users)/|file:/|[A-Z]:\\\\|" + re.escape(f"{ROOT.parent}/"))
WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"
PICTURES = {"image/svg+xml", "image/png"}


@dataclass(frozen=True)
class Notebook:
    """A notebook as it is stored, and the few things that are asked of it."""

    name: str
    cells: list

    @classmethod
    def read(cls, path):
        return cls(path.stem, nbformat.read(path, as_version=4).cells)

    @property
    def is_lesson(self):
        return re.match(r"(0[1-9]|10)_", self.name)

    @cached_property
    def code(self):
        return [cell for cell in self.cells if cell.cell_type == "code"]

    @cached_property
    def source(self):
        return "\n".join(cell.source for cell in self.code)

    @cached_property
    def prose(self):
        return "\n\n".join(cell.source for cell in self.cells if cell.cell_type == "markdown")

    @cached_property
    def headings(self):
        return re.findall(r"^##? .*$", self.prose, re.MULTILINE)

    @cached_property
    def tree(self):
        return ast.parse("\n".join(line for line in self.source.splitlines() if not MAGIC.match(line)))

    def nodes(self, *kinds):
        return [node for node in ast.walk(self.tree) if isinstance(node, kinds)]


def title(book):
    if not book.cells or not re.match(r"# \S", book.cells[0].source):
        yield "begins with no title (# ...)"
        return
    verb = book.name.split("_")[1]
    if not re.search(rf"\b{verb}\b", book.headings[0], re.IGNORECASE):
        yield f"its title '{book.headings[0]}' lacks the verb of its file name, '{verb}'"
    if sum(heading.startswith("# ") for heading in book.headings) != 1:
        yield "has more than one title"


def opening(book):
    first = book.cells[0].source if book.cells else ""
    shown = re.search(r"!\[([^\]]*)\]\(([^)]+)\)", first)
    if not shown:
        yield "shows no picture in its first cell"
    elif not shown.group(1).strip():
        yield f"says nothing about its picture {shown.group(2)} for those who hear it"
    elif not (ROOT / "notebooks" / shown.group(2)).is_file():
        yield f"shows a picture that is not there: {shown.group(2)}"
    yield from (f"does not say '{words}' in its first cell" for words in OPENING if words not in first)
    if not re.search(r"\b\d+ minutes\b", " ".join(first.split())):
        yield "does not say in its first cell how many minutes it takes"


def one_import(book):
    lines = [ast.unparse(node) for node in book.nodes(ast.Import, ast.ImportFrom)]
    if lines != [IMPORT]:
        yield f"imports {lines or 'nothing'}; the one line is '{IMPORT}'"


def nothing_from_outside(book):
    for cell in book.cells:
        yield from (f"reaches outside with '{word}'" for word in OUTSIDE.findall(cell.source))
        if cell.cell_type == "code" and MAGIC.search(cell.source):
            yield f"runs something that is no Python: {cell.source.splitlines()[:1]}"


def short_cells(book):
    lengths = [sum(1 for line in cell.source.splitlines() if line.strip()) for cell in book.code]
    if sum(lengths) > MEAN_LINES * max(len(lengths), 1):
        yield f"has {sum(lengths) / len(lengths):.1f} lines in the mean code cell, at most {MEAN_LINES}"
    yield from (
        f"has {lines} lines in code cell {number}, at most {MOST_LINES}"
        for number, lines in enumerate(lengths, 1)
        if lines > MOST_LINES
    )
    yield from (f"has nothing in code cell {number}" for number, lines in enumerate(lengths, 1) if not lines)


def sentence_before_code(book):
    number = 0
    for before, cell in pairwise([None, *book.cells]):
        if cell.cell_type != "code":
            continue
        number += 1
        said = before.source.rstrip().rstrip("*_)\"'`") if before and before.cell_type == "markdown" else ""
        if not said.endswith((".", ":", "?", "!", "…")):
            yield f"has no sentence before code cell {number}: {cell.source.splitlines()[:1]}"


def control_soon(book):
    shown = [number for number, cell in enumerate(book.code, 1) if "fl.live_" in cell.source]
    if book.is_lesson and (not shown or shown[0] > CONTROL_WITHIN):
        yield f"has its first control in code cell {shown[0] if shown else 'none'}, at the latest {CONTROL_WITHIN}"


def published_value(book):
    if not book.nodes(ast.Assert):
        yield "asserts no published value"


def exercises(book):
    if not book.is_lesson:
        return
    stubs = STUB.findall(book.source)
    if not stubs:
        yield 'has no exercise with its stub, fl.exercise("...").check(...)'
    for key in stubs:
        if not re.fullmatch(rf"{book.name[:2]}[a-z]", key):
            yield f"calls an exercise {key}; its keys are {book.name[:2]}a, {book.name[:2]}b and so on"
        if f"## Exercise {key}" not in book.headings:
            yield f"has no heading '## Exercise {key}'"
    yield from (f"has exercise {key} {times} times" for key, times in Counter(stubs).items() if times > 1)


def closing(book):
    if book.headings[-2:] != CLOSING:
        yield f"ends with {book.headings[-2:]}; the last two headings are {CLOSING}"


def run_in_order(book):
    counts = [cell.execution_count for cell in book.code]
    if counts != list(range(1, len(counts) + 1)):
        yield f"was not run once from the top: its counts are {counts}"
    for number, cell in enumerate(book.code, 1):
        for output in cell.outputs:
            if output.output_type == "error":
                yield f"holds an error in code cell {number}: {output.ename}"
            if output.output_type == "stream" and output.name == "stderr":
                yield f"holds a warning in code cell {number}: {output.text.splitlines()[:1]}"


def pictures_at_rest(book):
    for number, cell in enumerate(book.code, 1):
        kinds = [set(output.get("data", {})) for output in cell.outputs]
        if any(WIDGET_VIEW in kind for kind in kinds):
            yield f"holds a widget view in code cell {number}, which means nothing without its kernel"
        if any(0 < len(kind & PICTURES) < len(PICTURES) for kind in kinds):
            yield f"holds a picture in code cell {number} that is not both SVG and PNG"
        if "fl.live_" in cell.source and not any(kind >= PICTURES for kind in kinds):
            yield f"shows no picture at rest for the controls of code cell {number}"


def no_path_of_one_machine(book):
    for number, cell in enumerate(book.code, 1):
        texts = [
            str(text) for output in cell.outputs for text in (output.get("text"), *output.get("data", {}).values())
        ]
        if any(MACHINE.search(text) for text in texts):
            yield f"holds a path of one machine in the output of code cell {number}"


RULES = (
    title, opening, one_import, nothing_from_outside, short_cells, sentence_before_code, control_soon, published_value,
    exercises, closing, run_in_order, pictures_at_rest, no_path_of_one_machine,
)  # fmt: skip


def faults(book):
    return [fault for rule in RULES for fault in rule(book)]


def bare(*cells):
    """A notebook in memory: text is prose, text after >>> is code."""
    new = nbformat.v4
    return Notebook(
        "02_graduate_drawers",
        [
            new.new_code_cell(c.removeprefix(">>> ")) if c.startswith(">>> ") else new.new_markdown_cell(c)
            for c in cells
        ],
    )


def test_there_are_notebooks():
    assert NOTEBOOKS


@pytest.mark.parametrize("path", NOTEBOOKS, ids=[path.stem for path in NOTEBOOKS])
def test_notebook_keeps_the_habits(path):
    found = faults(Notebook.read(path))
    assert not found, listed(f"{path.name} {fault}" for fault in found)


def test_no_function_is_copied_from_notebook_to_notebook():
    homes = {}
    for path in NOTEBOOKS:
        for node in Notebook.read(path).nodes(ast.FunctionDef):
            homes.setdefault(node.name, set()).add(path.name)
    copied = [f"{name} stands in {', '.join(sorted(names))}" for name, names in homes.items() if len(names) > 1]
    assert not copied, listed(copied)


@pytest.mark.parametrize(
    ("rule", "book", "words"),
    [
        (title, bare("Drawers"), "no title"),
        (title, bare("# Drawers"), "lacks the verb"),
        (opening, bare("# Graduate"), "no picture"),
        (opening, bare("# Graduate\n\n![A case](no_such.png)"), "not there"),
        (one_import, bare(">>> import numpy\nimport furnlib as fl"), "imports"),
        (one_import, bare(">>> 1"), "imports nothing"),
        (nothing_from_outside, bare(">>> !pip install x"), "reaches outside with 'pip'"),
        (nothing_from_outside, bare(">>> !ls"), "no Python"),
        (nothing_from_outside, bare("See https://example.org."), "reaches outside"),
        (short_cells, bare(">>> " + "1\n" * 21), "in code cell 1, at most 20"),
        (short_cells, bare(">>> " + "1\n" * 6), "in the mean code cell"),
        (sentence_before_code, bare("## Heading", ">>> 1"), "no sentence"),
        (sentence_before_code, bare("Said.", ">>> 1", ">>> 2"), "no sentence before code cell 2"),
        (control_soon, bare(*[">>> 1"] * 5, ">>> fl.live_openings('a')"), "in code cell 6"),
        (published_value, bare(">>> 1"), "no published value"),
        (exercises, bare(">>> 1"), "no exercise"),
        (exercises, bare('>>> fl.exercise("05a").check(...)'), "its keys are 02a"),
        (closing, bare("# Graduate", "## Sources"), "ends with"),
        (run_in_order, bare(">>> 1"), "not run once"),
        (pictures_at_rest, bare(">>> fl.live_openings('a')"), "no picture at rest"),
    ],
)
def test_a_fault_is_seen(rule, book, words):
    assert any(words in fault for fault in rule(book))


def test_bad_outputs_are_seen():
    book = bare(">>> 1")
    new = nbformat.v4.new_output
    book.code[0].outputs = [
        new("error", ename="ValueError", evalue="", traceback=[]),
        new("display_data", data={WIDGET_VIEW: {}, "image/png": ""}),
        new("stream", text="/" + "home/maker/a.csv"),
    ]
    told = " ".join(faults(book))
    assert "ValueError" in told
    assert "widget view" in told
    assert "not both SVG and PNG" in told
    assert "path of one machine" in told


def test_file_names_begin_with_a_number_and_a_verb():
    assert [path.name for path in NOTEBOOKS if not re.fullmatch(r"(0\d|10)_[a-z]+(_[a-z]+)+", Path(path).stem)] == []
