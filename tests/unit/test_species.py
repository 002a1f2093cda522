"""The record of a wood: found by its name, refused with help, and all of it in the table."""

from __future__ import annotations

import csv
import dataclasses
from pathlib import Path

import pytest

import furnlib.trade.wood.species as room
from furnlib.base.guards import DesignError
from furnlib.trade.wood.species import Species, species, species_names

ROWS = list(csv.DictReader(Path(room.__file__).with_name("species.csv").open(encoding="utf-8")))
TRADE = ["white ash", "black cherry", "white oak", "northern red oak", "red maple", "sugar maple", "yellow birch"]


@pytest.mark.parametrize("name", [*TRADE, "yellow-poplar", "black walnut", "American beech", "butternut", "teak"])
def test_the_words_of_the_trade_find_a_wood(name):
    assert species(name).name == name
    assert species(f"  {name.upper().replace(' ', '   ')} ") is species(name)


def test_every_row_is_a_wood_with_a_source():
    assert [row["name"] for row in ROWS] == list(species_names()) == sorted(species_names(), key=str.casefold)
    assert len({name.casefold() for name in species_names()}) == len(ROWS)
    assert all(row["source"] and row["how"] for row in ROWS)
    assert not [row["name"] for row in ROWS if "," in row["name"] or "(" in row["name"]]
    columns = [field.name for field in dataclasses.fields(Species)]
    assert list(ROWS[0]) == [*columns, "source", "how"]
    assert {name for name in species_names() if species(name).shear_strength_mpa is None} == {"eastern redcedar"}


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
        ("oak", "what can stand there: black oak, bur oak, live oak, .*red oak, swamp white oak, white oak"),
        ("Mahogany", "what can stand there: true mahogany"),
        ("ash", "what can stand there: black ash, green ash, white ash"),
        ("granite", "what can stand there: American basswood"),
    ],
)
def test_a_name_that_is_not_there_is_refused_with_the_nearest(written, help_):
    with pytest.raises(DesignError, match=rf"The wood '{written}' is not in the table; {help_}"):
        species(written)
