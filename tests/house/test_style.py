"""Format, lint and types as pyproject.toml sets them, and what no tool knows about this house."""

import re
import subprocess
import sys

import pytest
from house import LIBRARY, ROOT, listed, modules

TOOLS = {
    "lint": ("ruff", "check", "--quiet", "--output-format=concise", "furnlib", "tests"),
    "format": ("ruff", "format", "--check", "--quiet", "furnlib", "tests"),
    "types": ("mypy", "--no-error-summary"),
}
TO_DO = re.compile(r"\b(?:" + "TO" + r"DO|FIX" + r"ME|XX" + r"X)\b")  # in pieces, so as not to find itself


@pytest.mark.parametrize("tool", TOOLS.values(), ids=TOOLS)
def test_tool_finds_nothing(tool):
    told = subprocess.run([sys.executable, "-m", *tool], cwd=ROOT, capture_output=True, text=True, check=False)
    lines = (told.stdout + told.stderr).splitlines()
    assert told.returncode == 0, listed(lines)


def found(pattern, paths):
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()}"
        for path in paths
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if re.search(pattern, line)
    ]


def test_nothing_is_left_to_do():
    left = found(TO_DO, [*LIBRARY.rglob("*.py"), *LIBRARY.rglob("*.js"), *(ROOT / "tests").rglob("*.py")])
    assert not left, listed(left)


def test_nothing_is_printed_but_by_the_command_line():
    printed = found(
        r"(?<!>>> )(?<!\.\.\. )(?<![\w.])print\(", [path for name, path in modules() if name != "furnlib.__main__"]
    )
    assert not printed, listed(line for line in printed if ">>>" not in line and "..." not in line)


def test_degrees_meet_radians_in_one_place():
    elsewhere = [path for name, path in modules() if name != "furnlib.base.angles"]
    turned = found(
        r"\b(?:radians|deg2rad|rad2deg|degrees)\(|\bmath\.pi\b|\bnp\.pi\b|(?:/|\*) ?180(?:\.0)?\b.*\bpi\b", elsewhere
    )
    assert not turned, listed(turned)
