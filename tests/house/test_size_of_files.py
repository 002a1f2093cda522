"""Small: no file over 400 lines, and a library that can be read in a weekend."""

import ast
import io
import tokenize

from house import LIBRARY, ROOT, listed

MOST_LINES = 400
MOST_CODE = 23000  # why not 8,000: DEVELOPERS.md, "Decisions"
NO_CODE = {tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT, tokenize.ENDMARKER}


def code_lines(text):
    """Count the lines that hold code: no blanks, no comments, no docstrings."""
    said = set()
    for node in ast.walk(ast.parse(text)):
        # a docstring, or the text below a constant that says what it is
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str):
            said.update(range(node.lineno, node.end_lineno + 1))
    coded = set()
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type not in NO_CODE:
            coded.update(range(token.start[0], token.end[0] + 1))
    return len(coded - said)


def test_counting_leaves_out_what_is_no_code():
    text = '"""Head.\n\nMore.\n"""\n\n# why\nx = 1  # beside\n\n\ndef f():\n    """Say."""\n    return """a\nb"""\n'
    assert code_lines(text) == 4  # x, def, and the two lines of the returned text


def test_no_file_is_too_long():
    files = [*LIBRARY.rglob("*.py"), *(ROOT / "tests").rglob("*.py")]
    lines = {path.relative_to(ROOT): len(path.read_text("utf-8").splitlines()) for path in files}
    long = [
        f"{path}: {count} lines, at most {MOST_LINES}" for path, count in sorted(lines.items()) if count > MOST_LINES
    ]
    assert not long, listed(long)


def test_the_library_stays_small(record_property):
    code = sum(code_lines(path.read_text("utf-8")) for path in LIBRARY.rglob("*.py"))
    print(f"furnlib has {code} lines of code; {MOST_CODE} are the most.")  # noqa: T201 - `pytest -s` shows it
    record_property("lines of code", code)
    assert code < MOST_CODE
