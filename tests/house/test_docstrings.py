"""Every public name says what it computes, takes, returns and refuses, with an example that runs.

The signature is read from the text of the module and held against the docstring. A property needs
its summary only: that says what it is.
"""

import ast
import re
from pathlib import Path

import pytest
from house import listed, public_names

import furnlib

ROOT = Path(__file__).resolve().parents[2]
PUBLIC = public_names()
NUMBER = re.compile(r"\b(Value|float|int|Fraction)\b")
SAYS_ITS_UNIT = re.compile(
    r"\bunit\b|\bdegrees?\b|number, array or symbol|plain number|how many|tangent|\bsine\b"
    r"|any length|\bmm\b|\bMPa\b|\bN\b|\bfrom -?[\d./]+ to [\d./]+|\bTrue\b"
)


def reached_from_the_top():
    """Where each function of the one import line is defined."""
    things = [getattr(furnlib, name) for name in furnlib.__all__]
    return {(thing.__module__, thing.__qualname__) for thing in things}


@pytest.fixture(scope="module")
def exported():
    return reached_from_the_top()


def test_there_is_something_to_read():
    assert len(PUBLIC) > 100
    assert {public.kind for public in PUBLIC} == {"function", "method", "property", "class"}


def test_summary_is_one_sentence_on_the_first_line():
    wrong = [public.where for public in PUBLIC if not re.fullmatch(r"\S[^\n]*\.", public.summary)]
    assert not wrong, listed(wrong)


def test_every_parameter_is_named():
    unsaid = [
        f"{public.where}: {parameter.name}"
        for public in PUBLIC
        for parameter in public.parameters
        if not public.entries("Args").get(parameter.name)
    ]
    assert not unsaid, listed(unsaid)


def test_no_parameter_is_named_that_is_not_there():
    strange = [
        f"{public.where}: {name}"
        for public in PUBLIC
        for name in public.entries("Args")
        if name not in {parameter.name for parameter in public.parameters}
    ]
    assert not strange, listed(strange)


def test_what_comes_back_is_said():
    unsaid = [
        public.where
        for public in PUBLIC
        if public.returns
        and public.kind in {"function", "method"}
        and not (public.section("Returns") or public.section("Yields"))
    ]
    assert not unsaid, listed(unsaid)


def test_what_is_refused_is_said():
    unsaid = [
        f"{public.where}: {name}"
        for public in PUBLIC
        for name in sorted(public.raises)
        if name not in public.entries("Raises") and public.kind != "property"
    ]
    assert not unsaid, listed(unsaid)


def test_examples_stand_where_users_look(exported):
    without = [
        public.where
        for public in PUBLIC
        if public.kind == "function"
        and (public.floor in {"base", "trade"} or (public.module, public.name) in exported)
        and ">>> " not in public.section("Example")
    ]
    assert not without, listed(without)


def test_every_exported_function_was_looked_at(exported):
    seen = {(public.module, public.name) for public in PUBLIC}
    assert exported <= seen


def test_numbers_of_the_trade_say_their_unit():
    unsaid = [
        f"{public.where}: {name}: {text}"
        for public in PUBLIC
        if public.floor == "trade" and not re.search(r"\bunit\b", public.summary)
        for name, text in public.entries("Args").items()
        if any(NUMBER.search(p.annotation) and p.name == name for p in public.parameters)
        and not SAYS_ITS_UNIT.search(text)
    ]
    assert not unsaid, listed(unsaid)


def test_a_number_in_degrees_is_called_so():
    """A control's numbers are exempt: one control serves lengths, angles and counts alike."""
    uncalled = [
        f"{public.where}: {name}: {text}"
        for public in PUBLIC
        for name, text in public.entries("Args").items()
        if re.search(r"\bdegrees\b", text) and not name.endswith("_deg") and not public.from_file
        if public.module != "furnlib.live.control"
    ]
    assert not uncalled, listed(uncalled)


def test_formulas_of_the_trade_name_their_source():
    """Each says where it comes from: a derivation, a publication, or common practice without a source."""
    bare = []
    for path in sorted((ROOT / "furnlib" / "trade").rglob("*.py")):
        if path.name.startswith("_"):
            continue
        for node in ast.parse(path.read_text("utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                told = re.search(r"Source:\n\s+\S.{10,}\.", ast.get_docstring(node) or "")
                if not told:
                    bare.append(f"{path.relative_to(ROOT)}:{node.lineno} {node.name}")
    assert not bare
