"""The text of a design file: read as plain text only, written back without touching its neighbours.

The witness for what a text says is written out by hand; the witness for writing back is the text
itself, cut at the value's own characters, and the old tree with that one value replaced.
"""

from __future__ import annotations

import copy
from pathlib import Path

import pytest
from chance import by_chance
from hypothesis import strategies as st
from pictures import first_of

from furnlib.base.guards import DesignError
from furnlib.plan.design_text import DesignText, spoken_path

DESIGNS = Path(__file__).parents[2] / "notebooks" / "designs"
DEMOS = sorted(DESIGNS.glob("*.yaml"))


def at(tree, path):
    for key in path:
        tree = tree[key]
    return tree


def replaced(tree, path, value):
    """The tree with one value set: the plain way, by hand."""
    tree = copy.deepcopy(tree)
    at(tree, path[:-1])[path[-1]] = value
    return tree


# Reading


def test_every_plain_text_stays_text():
    text = (
        "a: 14.6\nb: no\nc: 1:30\nd: ~\ne: null\nf: 2020-01-01\ng: 0x1F\nh: 1e5\ni:\nj: .inf\nk: yes\n"
        "l: 007\nm: +5\nn: 1_000\no: True\np: 5' 3 1/2\"\nq: 83, 103\nr: '8'\ns: \"8\"\n"
    )
    assert DesignText.parse(text).tree == {
        "a": "14.6", "b": "no", "c": "1:30", "d": "~", "e": "null", "f": "2020-01-01", "g": "0x1F",
        "h": "1e5", "i": "",
        "j": ".inf", "k": "yes", "l": "007", "m": "+5", "n": "1_000", "o": "True", "p": "5' 3 1/2\"",
        "q": "83, 103", "r": "8", "s": "8",
    }  # fmt: skip


def test_lists_mappings_and_names_that_look_like_numbers_are_plain_too():
    text = "split:\n  1: 2\nlist: [83, no]\nlean: {rake: 8, splay: 6}\nyes: {}\n"
    assert DesignText.parse(text).tree == {
        "split": {"1": "2"},
        "list": ["83", "no"],
        "lean": {"rake": "8", "splay": "6"},
        "yes": {},
    }


def test_an_old_version_line_changes_nothing_about_what_a_value_means():
    assert DesignText.parse("%YAML 1.1\n---\na: no\nb: 1:30\nc: 0o17\n").tree == {
        "a": "no",
        "b": "1:30",
        "c": "0o17",
    }


def test_fifty_deep_is_read_and_so_are_exactly_256_kilobytes(tmp_path):
    assert DesignText.parse("a: " + "[" * 49 + "]" * 49).tree["a"]
    path = tmp_path / "long.yaml"
    path.write_bytes(b"a: " + b"x" * 255_997)
    assert len(DesignText.read(path).tree["a"]) == 255_997


def test_every_key_knows_its_line_and_a_missing_one_the_line_above_it():
    design = DesignText.parse(
        "piece: Box\n\n# a note\nlegs:\n  lean:\n    front left: {rake: 8}\n  list:\n    - 1\n    - 2\n"
    )
    lines = {
        ("piece",): 1,
        ("legs",): 4,
        ("legs", "lean"): 5,
        ("legs", "lean", "front left"): 6,
        ("legs", "lean", "front left", "rake"): 6,
        ("legs", "lean", "front left", "splay"): 6,
        ("legs", "lean", "rear left", "rake"): 5,
        ("legs", "list", 1): 9,
        ("legs", "list", 7): 7,
        ("grid",): 1,
    }
    assert {path: design.line_of(path) for path in lines} == lines


def test_a_path_is_spoken_from_the_top_down():
    assert spoken_path(("legs", "inset", "front")) == "legs, inset, front"


# Writing back: only the value's own characters change


@pytest.mark.parametrize("file", DEMOS, ids=lambda file: file.stem)
def test_each_value_of_a_demo_set_to_itself_leaves_the_bytes_equal(file, tmp_path):
    raw = file.read_bytes()
    design = DesignText.read(file)
    assert len(design.spans) > 10
    for path in design.spans:
        design = design.with_value(path, at(design.tree, path))
    assert design.save(tmp_path / "again.yaml").read_bytes() == raw


NEW_VALUES = ("7 1/2", "14,6 cm", "5' 3 1/2\"", "{a: b}  # no")


@pytest.mark.parametrize(
    "name", first_of([file.stem for file in DEMOS], "landing_chest", "practice_stool", "tall_chest")
)
@pytest.mark.parametrize("first", [0, *(pytest.param(n, marks=pytest.mark.slow) for n in range(1, len(NEW_VALUES)))])
def test_a_new_value_changes_its_own_characters_and_no_others(name, first):
    """The new values are put in by turns, from one or another of them on: four times round, each stands everywhere."""
    design = DesignText.read(DESIGNS / f"{name}.yaml")
    for turn, (path, (start, end)) in enumerate(design.spans.items(), first):
        value = NEW_VALUES[turn % len(NEW_VALUES)]
        new = design.with_value(path, value)
        assert new.tree == replaced(design.tree, path, value)
        assert new.text.startswith(design.text[:start])
        assert new.text.endswith(design.text[end:])
        assert design.text[start:end] == at(design.tree, path)  # the old one is untouched


HOMES = {
    "plain": ("b: 0\ngrid: 1  # mm\nc: 2\n", ("grid",)),
    "last, without a line end": ("b: 0\ngrid: 1", ("grid",)),
    "in single quotes": ("b: 0\ngrid: 'it''s'  # mm\nc: 2\n", ("grid",)),
    "in double quotes": ('b: 0\ngrid: "1 # x"  # mm\nc: 2\n', ("grid",)),
    "inside braces": ("l: {rake: 8, splay: 6}  # c\nm: 1\n", ("l", "splay")),
    "inside braces, first": ("l: {rake: 8, splay: 6}  # c\nm: 1\n", ("l", "rake")),
    "inside a list": ("l: [83, 103, 123]\nm: 1\n", ("l", 1)),
    "deep": ("a:\n  b:\n    c: 1   # x\n  d: 2\n", ("a", "b", "c")),
    "windows line ends": ("a: 1\r\nb: 2  # x\r\nc: 3\r\n", ("b",)),
    "behind a byte-order mark": ("\ufeffa: 1\nb: 2  # é\n", ("b",)),
    "behind wide letters": ("é😀: 1 # 😀\nb: 2  # é\n", ("b",)),
}

VALUES = [
    "14,6 cm", "5' 3 1/2\"", "5 11/16", "3/4 in", "-3", "- 3", "-", " 3", "3 ", "", "a: b", "#x", "a #x", "a#x",
    "'q'", "'5", '"', '"5 in"', "{a}", "[83, 103]", "83, 103", "*a", "&a", "!t", "%", "@", "`", "|", ">", "?",
    "? a", "~", "no", "null", "1:30", "---", "...", "…", "a:", ":a", "\\", "a\\b", "5\u202f1/2", "5½", "−3",
    "1 1⁄2", "8°", "😀", "a\nb", "a\tb", "\ufeff", "<<", "=", "x" * 300,
]  # fmt: skip


@pytest.mark.parametrize("value", VALUES)
def test_a_value_comes_back_exactly_and_its_neighbours_stay(value):
    for text, path in HOMES.values():
        design = DesignText.parse(text)
        start, end = design.spans[path]
        new = design.with_value(path, value)
        assert new.tree == replaced(design.tree, path, value)
        assert new.text.startswith(text[:start])
        assert new.text.endswith(text[end:])


ODD_FILES = {
    "a:\nb: 2\n": ("a",),
    "a:   # c\nb: 2\n": ("a",),
    "b: 2\na:": ("a",),
    "l: {a: , b: 2}\n": ("l", "a"),
    "l: {a, b: 2}\n": ("l", "a"),
    "? a\n: 1\nb: 2\n": ("a",),
    "a: |\n  words\nb: 2\n": ("a",),
    "a: >-\n  words\n  more\nb: 2\n": ("a",),
    "a: words\n  more\nb: 2\n": ("a",),
    "'a b': 1\n\"c\": 2\n": ("a b",),
    "---\na: 1\n...\n": ("a",),
    "a: [1, 2]\nb: 3\n": ("a", 2),
    "a:\n  - 1\n  - 2\nb: 3\n": ("a", 2),
    "a: [1, 2]\n": ("a",),
    "a: {x: 1}\n": ("a",),
    "b: 2\na: |\n  words\nl:\n  d: 1\n": ("c",),
    "l: {\n  a: 1,\n  b: 2\n}\n": ("l", "c"),
    "l: {\n  a: 1,\n  b: 2,\n}\n": ("l", "c"),
    "{a: 1,\n b: 2}\n": ("c",),
    "l: {a: 1, b: 2 # c\n  }\n": ("l", "c"),
    "'{a': 1\n": ("c",),
    "a: 1\n": ("#c",),
    "rows:\n  - a: 1\n  - a: 2\n": ("rows", 1, "b"),
    "rows:\n  - {a: 1}\n  - {a: 2}\n": ("rows", 1, "b"),
}


@pytest.mark.parametrize("text", ODD_FILES)
def test_in_an_odd_file_a_value_is_set_or_refused_and_nothing_else_changes(text):
    design, path = DesignText.parse(text), ODD_FILES[text]
    for value in ("5", "5' 3\""):
        try:
            new = design.with_value(path, value)
        except DesignError as error:
            assert str(error).startswith("design ")
        else:
            assert new.tree == replaced(design.tree, path, value)


@by_chance(
    st.sampled_from(list(HOMES)),
    st.one_of(st.text(max_size=12), st.text(alphabet="-'\" :#,[]{}&*!|>%@`?\\\n\t5½/=", max_size=6)),
    few=25,
    many=100,
)
def test_any_value_at_all_is_kept_exactly_or_refused(home, value):
    text, path = HOMES[home]
    design = DesignText.parse(text)
    try:
        new = design.with_value(path, value)
    except DesignError as error:
        assert not value.isprintable(), error  # only what no line of a file can hold
    else:
        assert new.tree == replaced(design.tree, path, value)


NEW_KEYS = [
    # a file, the path of the new key, the whole file after
    ("a:\n  x: 1  # c\n  y: 2  # d\nb: 3\n", ("a", "z"), "a:\n  x: 1  # c\n  y: 2  # d\n  z: 9\nb: 3\n"),
    ("a:\n    x: 1\n", ("a", "z"), "a:\n    x: 1\n    z: 9\n"),
    ("a: 1\nb: 2", ("c",), "a: 1\nb: 2\nc: 9"),
    ("a: 1\nb: 2  # last", ("c",), "a: 1\nb: 2  # last\nc: 9"),
    ("a: 1\n\n# end\n", ("c",), "a: 1\nc: 9\n\n# end\n"),
    ("a: 1\r\nb: 2\r\n", ("c",), "a: 1\r\nb: 2\r\nc: 9\r\n"),
    ("a: 1\r\nl:\r\n  x: 2  # d\r\nb: 3\r\n", ("l", "z"), "a: 1\r\nl:\r\n  x: 2  # d\r\n  z: 9\r\nb: 3\r\n"),
    ("\ufeffa: 1\n", ("c",), "\ufeffa: 1\nc: 9\n"),
    ("l: {rake: 8}  # d\nb: 3\n", ("l", "sight line"), "l: {rake: 8, sight line: 9}  # d\nb: 3\n"),
    ("l: {rake: 8, splay: 6}", ("l", "total lean"), "l: {rake: 8, splay: 6, total lean: 9}"),
    (
        "rows:\n  split:\n    1: 2  # x\n",
        ("rows", "split", "2"),
        "rows:\n  split:\n    1: 2  # x\n    2: 9\n",
    ),
]


@pytest.mark.parametrize(("before", "path", "after"), NEW_KEYS)
def test_a_new_key_goes_in_beside_its_siblings_in_their_own_style(before, path, after):
    assert DesignText.parse(before).with_value(path, "9").text == after


def test_a_new_key_in_a_demo_file_keeps_every_other_line():
    design = DesignText.read(DESIGNS / "landing_chest.yaml")
    old = design.text.splitlines()
    new = design.with_value(("rows", "split", "3"), "2").text.splitlines()
    at_line = design.line_of(("rows", "split", "1"))  # counted from 1: the new line comes right below
    assert new == [*old[:at_line], "    3: 2", *old[at_line:]]


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("a: 1\n", ("legs", "inset", "front")),
        ("a: 1\n", ("a", "z")),
        ("a: [1, 2]\n", ("a", 2)),
        ("a: [1, 2]\n", ("a",)),
        ("a: {x: 1}\n", ("a",)),
        ("a: 1\n", ()),
    ],
)
def test_a_path_that_leads_to_no_value_is_refused_and_named(text, path):
    with pytest.raises(DesignError) as caught:
        DesignText.parse(text, "card.yaml").with_value(path, "9")
    sentence = str(caught.value)
    assert "card.yaml" in sentence
    assert spoken_path(path) in sentence
    assert "second time" not in sentence  # that is the reason of another fault
    assert sentence.endswith(".")


# There and back through the disk


@pytest.mark.parametrize(
    "raw",
    [
        b"a: 1\r\nb: 2  # x\r\n",
        b"\xef\xbb\xbfa: 1\nb: 2\n",
        b"\xef\xbb\xbfa: 1\r\nb: 2",
        b"a: 1   \n\n\n# tail",
        "é: ½ # 😀\nb: 2\n".encode(),
        b"a: 1\r\nb: 2\nc: 3\r\n",
    ],
)
def test_bytes_read_and_saved_are_the_same_bytes(tmp_path, raw):
    path = tmp_path / "card.yaml"
    path.write_bytes(raw)
    design = DesignText.read(path)
    copied = design.save(tmp_path / "copy.yaml")
    assert copied == tmp_path / "copy.yaml"
    assert copied.read_bytes() == raw
    last = list(design.spans)[-1]
    changed = design.with_value(last, "9").save(path).read_bytes()
    assert len(changed.splitlines()) == len(raw.splitlines())
    assert DesignText.read(path).tree == replaced(design.tree, last, "9")
    assert changed.count(b"\r") == raw.count(b"\r")
    assert changed.startswith(b"\xef\xbb\xbf") == raw.startswith(b"\xef\xbb\xbf")


@pytest.mark.parametrize("where", ["none/card.yaml", "kept.txt/card.yaml", "full"])
def test_what_cannot_be_saved_is_said_and_leaves_everything_as_it_was(tmp_path, where):
    (tmp_path / "kept.txt").write_text("kept")
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "kept.txt").write_text("kept")
    before = sorted(tmp_path.rglob("*"))
    with pytest.raises(DesignError, match=r"cannot be written \(.+\); choose another folder\.$"):
        DesignText.parse("a: 1\n").save(tmp_path / where)
    assert sorted(tmp_path.rglob("*")) == before
    assert (tmp_path / "kept.txt").read_text() == "kept"
