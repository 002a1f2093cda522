"""The record of a wood: found by its name, refused with help, and all of it in the table."""

from __future__ import annotations

import csv
import dataclasses
import re
from pathlib import Path

import pytest
from faults import check_sentence, edited, faults
from pictures import ROOT

import furnlib.trade.wood.species as room
from furnlib.base.guards import DesignError
from furnlib.trade.wood.species import Species, species, species_names

HERE = Path(room.__file__).parent
FILES = {"strength": "species.csv", "shrinkage": "shrinkage.csv", "change": "change.csv"}
ROWS = {table: list(csv.DictReader((HERE / name).open(encoding="utf-8"))) for table, name in FILES.items()}
VALUES = [field.name for field in dataclasses.fields(Species) if field.default is None]
TRADE = ["white ash", "black cherry", "white oak", "northern red oak", "red maple", "sugar maple", "yellow birch"]


@pytest.mark.parametrize("name", [*TRADE, "yellow-poplar", "black walnut", "American beech", "butternut", "teak"])
def test_the_words_of_the_trade_find_a_wood(name):
    assert species(name).name == name
    assert species(f"  {name.upper().replace(' ', '   ')} ") is species(name)


def test_names_stand_in_order_once_and_as_the_trade_says_them():
    names = {row["name"] for rows in ROWS.values() for row in rows}
    assert list(species_names()) == sorted(names, key=str.casefold)
    assert len({name.casefold() for name in names}) == len(names) > 100
    assert not [name for name in names if re.search(r"[,(;]", name)]


@pytest.mark.parametrize("table", ROWS)
def test_every_row_is_in_its_record_with_its_source(table):
    rows = ROWS[table]
    assert [row["name"] for row in rows] == sorted({row["name"] for row in rows}, key=str.casefold)
    _, *values, source, how = rows[0]
    assert set(values) - {"fibre_saturation"} < set(VALUES)
    assert (source, how) == ("source", "how")
    for row in rows:
        wood = species(row["name"])
        for value in filter(row.get, values):
            assert wood.known(value) == vars(wood)[value] == float(row[value])
            assert wood.has(value)
            assert wood.source(value) == (row["source"], row["how"])
            assert row["source"].startswith("Wood Handbook")
            assert re.match("read|from memory", row["how"])


def test_what_no_table_has_is_none_and_said_so():
    told = {(row["name"], name) for rows in ROWS.values() for row in rows for name in VALUES if row.get(name)}
    for name in species_names():
        for value in VALUES:
            if (name, value) in told:
                continue
            assert vars(species(name))[value] is None
            assert not species(name).has(value)
            words = value.removesuffix("_mpa").replace("_", " ")
            for ask in (species(name).known, species(name).source):
                with pytest.raises(DesignError, match=f"^The {words} of {name} is not in the tables; name a wood"):
                    ask(value)


def test_of_a_wood_that_only_moves_no_turned_leg_is_made():
    text = (ROOT / "notebooks/designs/stool_three_legs.yaml").read_text("utf-8")
    (said,) = faults(edited(text, ("wood: white ash", "wood: bigtooth aspen")))
    check_sentence(said)
    assert "legs, wood: The bending strength of bigtooth aspen is not in the tables" in said


def test_density_counts_the_water():
    # 100 g of oven-dry wood that fill 200 cm³ at 12 %: specific gravity 0.5, and 112 g as it lies there
    wood = dataclasses.replace(species("white ash"), specific_gravity=100 / 200)
    assert wood.density_kg_m3 == pytest.approx(0.112 / 200e-6)


@pytest.mark.parametrize(
    ("written", "help_"),
    [
        ("wite ash", "did you mean 'white ash'"),
        ("black chery", "did you mean 'black cherry'"),
        ("yellow poplar", "did you mean 'yellow-poplar'"),
        ("oak", "what can stand there: California red oak, Oregon white oak, black oak, .*, willow oak"),
        (
            "red  Oak",
            "what can stand there: California red oak, commercial red oak, northern red oak, southern red oak",
        ),
        ("Mahogany", "what can stand there: African mahogany, true mahogany"),
        ("ash", "what can stand there: Oregon ash, black ash, blue ash, green ash, pumpkin ash, white ash"),
        ("soapstone", "write it as the trade does, such as black cherry"),
    ],
)
def test_a_name_that_is_not_there_is_refused_with_the_nearest(written, help_):
    with pytest.raises(DesignError, match=rf"The wood '{written}' is not in the table; {help_}"):
        species(written)
