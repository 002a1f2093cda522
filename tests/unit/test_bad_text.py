"""A design file that is no plain text of names and values: refused in one sentence with its line."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furnlib.base.guards import DesignError
from furnlib.plan.design_text import DesignText

steady = settings(deadline=None, derandomize=True)
PYTHON_WORDS = re.compile(
    r"Traceback|Error|\bNone|\bstr\b|\bint\b|\bdict\b|\btype\b|<[a-z ]+>|\\[a-z]|\('[^']*',\)|\['"
)
READER_WORDS = re.compile(
    r"\b(tokens?|streams?|scalars?|mappings?|nodes?|documents?|YAML|chomping|directives?|block|flow)\b", re.I
)


def refusal(text):
    with pytest.raises(DesignError) as caught:
        DesignText.parse(text, "card.yaml")
    return str(caught.value)


TRICKS = [
    # text, line, what the sentence says
    ("a: &x 1\nb: 2\n", 1, "refers to another place"),
    ("a: 1\nb: *x\n", 2, "refers to another place"),
    ("a: 1\nb: &x\n  c: 2\n", 2, "refers to another place"),
    ("a: 1\nb: !foo 2\n", 2, "has a tag (!foo)"),
    ("a: 1\nb: !!str 2\n", 2, "has a tag"),
    ("a: 1\nb: !!python/object/apply:os.system [ls]\n", 2, "has a tag"),
    ("a: 1\nb: ! 2\n", 2, "has a tag"),
    ("a: 1\nb:\n  c: 1\n  d: 2\n  c: 3\n", 5, "gives 'c' a second time"),
    ("a: 1\n'a': 2\n", 2, "gives 'a' a second time"),
    ("l: {a: 1,\n  a: 2}\n", 2, "gives 'a' a second time"),
    ("a: 1\nb: " + "[" * 50 + "]" * 50, 2, "nested over 50 deep"),
    ("\n".join(" " * i + "a:" for i in range(60)), 51, "nested over 50 deep"),
    ("a: 1\nb: " + "[" * 100_000, 2, "nested over 50 deep"),
    ("{" * 60, 1, "nested over 50 deep"),
    ("a: 1\n[1, 2]: 3\n", 2, "a list where a name should stand"),
]


@pytest.mark.parametrize(("text", "line", "words"), TRICKS, ids=[text[:24] for text, *_ in TRICKS])
def test_tricks_are_refused_with_their_line(text, line, words):
    sentence = refusal(text)
    assert sentence.startswith(f"card.yaml line {line} ")
    assert words in sentence
    assert sentence.endswith(".")
    assert sentence.count(". ") == 0


BROKEN = [
    # text, the line to look at
    ("a:\n\tb: 1\n", 2),
    ("a: 1\n\tb: 1\n", 2),
    ("a:\t1\n", 1),
    ("a: [1, 2\nb: 3\n", 2),
    ("a: 1: 2\n", 1),
    ("a: 1\n  b: 2\n", 2),
    ("a:\n   b: 1\n  c: 2\n", 3),
    ("a: 1\nb: {c: 1}}\n", 2),
    ("piece Landing\nunit: mm\n", 2),
    ("a: 1\nb: @x\n", 2),
    ('a: 1\nb: "\\q"\n', 2),
    ('a: 1\nh: "5 1/2" x\n', 2),
    ("a: 1\n]\n", 2),
    ("a: 1\n---\nb: 2\n", 2),
    ("%YAML 3.0\n---\na: 1\n", 1),
    ("a: 1\nb: |x\n  2\n", 2),
]


@pytest.mark.parametrize(("text", "line"), BROKEN)
def test_a_broken_file_is_refused_with_its_line(text, line):
    sentence = refusal(text)
    assert sentence.startswith(f"card.yaml line {line} cannot be read")
    assert sentence.endswith(".")
    assert "\n" not in sentence


@pytest.mark.parametrize("text", [text for text, _ in BROKEN])
def test_a_broken_file_is_refused_in_the_makers_words(text):
    sentence = refusal(text)
    assert not PYTHON_WORDS.search(sentence)
    assert not READER_WORDS.search(sentence.removeprefix("card.yaml"))


@pytest.mark.parametrize("text", ['a: 1\nb: "x\nc: 3\nd: 4\ne: 5\n', "a: 1\nb: 'x\nc: 3\nd: 4\ne: 5\n"])
def test_a_quote_that_is_never_closed_is_named_where_it_opens(text):
    assert refusal(text).startswith("card.yaml line 2 cannot be read")


@pytest.mark.parametrize("text", ["a: 1\nb: {c: 1\n", "a: 1\nb: [1, 2\n"])
def test_a_bracket_that_is_never_closed_is_named_where_it_opens(text):
    assert refusal(text).startswith("card.yaml line 2 cannot be read")


@pytest.mark.parametrize("text", ["a: 1\nb: \x07\n", "a: 1\nb: x\x00\n"])
def test_a_letter_that_no_text_holds_is_refused_with_its_line(text):
    sentence = refusal(text)
    assert sentence.startswith("card.yaml line 2 ")
    assert sentence.endswith(".")


@pytest.mark.parametrize(
    "text", ["- a\n- b\n", "words\n", "", "\ufeff", "# a note\n", "---\n...\n", "[1, 2]", "'a: 1'"]
)
def test_what_is_no_list_of_names_and_values_is_refused(text):
    assert refusal(text) == ("card.yaml is no list of names and values; begin it with 'piece: …' and 'unit: mm'.")


def read_refusal(path):
    with pytest.raises(DesignError) as caught:
        DesignText.read(path)
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert not PYTHON_WORDS.search(sentence)
    return sentence


def test_a_file_over_256_kilobytes_is_refused(tmp_path):
    path = tmp_path / "long.yaml"
    path.write_bytes(b"a: " + b"x" * 255_998)
    assert re.match(r"long\.yaml is over 256 kB; ", read_refusal(path))


@pytest.mark.parametrize(
    ("raw", "line"),
    [
        (b"a: 1\nb: caf\xe9\n", 2),
        (b"\xff\xfea: 1\n", 1),
        (b"a: 1\r\n# x\r\n\r\nb: \xed\xa0\x80\r\n", 4),
        ("a: 1\nb: 2\n".encode("utf-16"), 1),
    ],
)
def test_bytes_that_are_not_utf8_are_refused_with_their_line(tmp_path, raw, line):
    path = tmp_path / "odd.yaml"
    path.write_bytes(raw)
    assert read_refusal(path) == f"odd.yaml line {line} is not UTF-8 text; save the file as UTF-8."


@pytest.mark.parametrize("name", ["none.yaml", "none/none.yaml", "there.yaml/none.yaml", "folder"])
def test_a_file_that_is_not_there_or_is_a_folder_is_refused(tmp_path, name):
    (tmp_path / "folder").mkdir()
    (tmp_path / "there.yaml").write_text("a: 1\n")
    sentence = read_refusal(tmp_path / name)
    assert sentence.startswith(f"{tmp_path / name} cannot be read (")
    assert sentence.endswith("); check the name and the folder.")


@steady
@given(st.text(alphabet="ab1: -\n\t{}[],'\"#&*!|>?%@\\\r\u2028", max_size=30))
def test_any_text_is_read_or_refused_in_one_sentence_and_nothing_else_happens(text):
    try:
        design = DesignText.parse(text)
    except DesignError as error:
        assert str(error).startswith("design ")
        assert str(error).endswith((".", "?"))
        assert "\n" not in str(error)
    else:
        assert isinstance(design.tree, dict)
        assert {type(leaf) for leaf in leaves(design.tree)} <= {str}


def leaves(tree):
    """Every single value of a tree."""
    if isinstance(tree, dict | list):
        for branch in tree.values() if isinstance(tree, dict) else tree:
            yield from leaves(branch)
    else:
        yield tree
