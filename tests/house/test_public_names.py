"""The one import line: it names every public thing, loads nothing, and a misspelt name is an error."""

import ast
import importlib
import os
import subprocess
import sys

import pytest
from house import LIBRARY, ROOT, listed

import furnlib

STUB = ast.parse((LIBRARY / "__init__.pyi").read_text("utf-8"))


def declared():
    """The names that the type checker sees, and the module each comes from."""
    imports = [node for node in STUB.body if isinstance(node, ast.ImportFrom)]
    return {alias.asname or alias.name: f"furnlib.{node.module}" for node in imports for alias in node.names}


def run(*arguments, **env):
    """Run this Python afresh in the project's folder."""
    return subprocess.run(
        [sys.executable, *arguments], cwd=ROOT, env=os.environ | env, capture_output=True, text=True, check=False
    )


def test_names_are_those_that_the_type_checker_sees():
    assert sorted(declared()) == sorted(furnlib.__all__) == dir(furnlib)


def test_each_name_is_found_in_the_module_that_is_declared():
    odd = [
        name
        for name, module in declared().items()
        if getattr(furnlib, name) is not getattr(importlib.import_module(module), name)
    ]
    assert not odd, listed(odd)


def test_a_misspelt_name_is_said():
    with pytest.raises(AttributeError, match="constant_ratoi"):
        furnlib.constant_ratoi


def test_importing_loads_nothing_else():
    before = "import sys; import importlib, typing; before = set(sys.modules); import furnlib; "
    told = run("-c", before + "print(*sorted(set(sys.modules) - before))", PYTHONPATH=str(ROOT))
    assert told.stderr == ""
    loaded = {name.split(".")[0] for name in told.stdout.split()}
    assert loaded - set(sys.stdlib_module_names) == {"furnlib", "lazy_loader"}
    assert [name for name in told.stdout.split() if name.startswith("furnlib.")] == []


def test_the_type_checker_sees_a_misspelt_name(tmp_path):
    """Two lines, one of them right, so that the error is about the name and nothing else."""
    snippet = tmp_path / "snippet.py"
    snippet.write_text("import furnlib as fl\nright, wrong = fl.constant_ratio, fl.constant_ratoi\n")
    told = run("-m", "mypy", "--config-file", str(ROOT / "pyproject.toml"), str(snippet), MYPYPATH=str(ROOT))
    about_the_snippet = [line for line in told.stdout.splitlines() if "snippet.py:" in line]
    assert len(about_the_snippet) == 1, listed(told.stdout.splitlines())
    assert "constant_ratoi" in about_the_snippet[0]
