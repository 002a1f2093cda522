"""One name and one symbol for one idea: the glossary is tidy, and every parameter stands in it."""

import re
from collections import Counter

from house import GLOSSARY, SUFFIXES, glossary, listed, public_names

COLUMNS = ["term", "symbol", "unit", "meaning", "other names in handbooks", "kind"]
KINDS = ["trade", "drawing", "program"]
UNITS = {"", "length", "deg", "1", "%", "kg", "1 per %", "N", "MPa"}
ROWS = glossary()
UNIT_OF = {row["term"]: row["unit"] for row in ROWS}


def split(cell):
    return [part.strip() for part in cell.split(";") if part.strip()]


def term_of(parameter):
    """The term that a parameter stands for, or None: `rake_deg` is rake, `openings` are each an opening."""
    plain = parameter
    for suffix in SUFFIXES:
        plain = plain.removesuffix(suffix)
    plain = plain.replace("_", " ")
    return next((term for term in (plain, plain.removesuffix("s")) if term in UNIT_OF), None)


def parameters():
    return [(public, parameter) for public in public_names() for parameter in public.parameters]


def test_columns_kinds_and_units():
    assert list(ROWS[0]) == COLUMNS
    wrong = [row for row in ROWS if row["kind"] not in KINDS or row["unit"] not in UNITS or None in row]
    assert wrong == []


def test_rows_stand_in_order():
    places = [(KINDS.index(row["kind"]), row["term"]) for row in ROWS]
    assert places == sorted(places)
    assert GLOSSARY.read_bytes().endswith(b"\n")
    assert b"\r" not in GLOSSARY.read_bytes()


def test_no_term_and_no_symbol_stands_for_two_ideas():
    names = Counter(row["term"] for row in ROWS)
    names.update(other for row in ROWS for other in split(row["other names in handbooks"]))
    symbols = Counter(symbol for row in ROWS for symbol in split(row["symbol"]))
    twice = [name for name, times in (names + symbols).items() if times > 1]
    assert not twice, listed(twice)


def test_each_meaning_is_one_short_sentence():
    long = [row["term"] for row in ROWS if len(row["meaning"]) > 140]
    odd = [row["term"] for row in ROWS if not re.fullmatch(r"[A-Z](?:[^.]|\.(?! ))*\.", row["meaning"])]
    assert not long + odd, listed(long + odd)


def test_every_parameter_has_its_term():
    missing = [
        f"{public.where}: {parameter.name}" for public, parameter in parameters() if term_of(parameter.name) is None
    ]
    assert not missing, listed(missing)


def test_a_parameter_that_is_an_angle_says_degrees():
    unsaid = [
        f"{public.where}: {parameter.name}"
        for public, parameter in parameters()
        if UNIT_OF.get(term_of(parameter.name) or "") == "deg"
        and not parameter.name.endswith("_deg")
        and not public.from_file
    ]
    assert not unsaid, listed(unsaid)


def test_plain_words_are_listed_only_where_the_library_uses_them():
    used = {term_of(parameter.name) for _, parameter in parameters()}
    idle = [row["term"] for row in ROWS if row["kind"] != "trade" and row["term"] not in used]
    assert not idle, listed(idle)
