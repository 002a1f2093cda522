"""What woods are like at about 12 % moisture content: averages of clear, sound, straight-grained samples.

The figures are averages for a species; a board may lie well away from them (see `SPREAD`), and knots,
sloping grain, damp and long loads all take from its strength. They screen a shape; they rate nothing.

Source: Forest Products Laboratory, Wood Handbook - Wood as an Engineering Material, General Technical
Report FPL-GTR-282, Madison 2021, Tables 5-3b (domestic) and 5-5b (imported woods), read in the open
dataset "xylarium" (2026), which copies them out, and not in the book; one row, marked so, is from memory.
Pounds per square inch are turned into MPa. The handbook finds stiffness from beams loaded in the middle,
span 14 times the depth, so that it is about a tenth less than in pure bending.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from furnlib.base.guards import DesignError, nearest_word

SPREAD: Mapping[str, float] = {
    "specific gravity": 0.10,
    "bending strength": 0.16,
    "stiffness": 0.22,
    "compression strength": 0.18,
    "shear strength": 0.14,
}
"""Standard deviation over mean within a species: the same handbook, chapter 5, from memory."""


@dataclass(frozen=True)
class Species:
    """A wood and its averages at about 12 % moisture content.

    Args:
        name: in the trade's word order, such as white ash.
        specific_gravity: weight of the dry wood over that of water as large as the wood at 12 %, a plain
            number.
        bending_strength_mpa: stress at which a bent sample breaks (modulus of rupture), MPa.
        stiffness_mpa: stress for each unit of stretch along the grain (modulus of elasticity), MPa.
        compression_strength_mpa: crushing stress along the grain, MPa.
        shear_strength_mpa: shearing stress along the grain, MPa; None where the table has no value.
    """

    name: str
    specific_gravity: float
    bending_strength_mpa: float
    stiffness_mpa: float
    compression_strength_mpa: float
    shear_strength_mpa: float | None

    @property
    def density_kg_m3(self) -> float:
        """Mass with the water that is in it at 12 %, kg for each cubic metre: specific gravity x 1000 x 1.12."""
        return self.specific_gravity * 1000 * 1.12


@cache
def _table() -> dict[str, Species]:
    """Every species under its name in small letters."""
    lines = files(__package__).joinpath("species.csv").read_text("utf-8").splitlines()
    return {
        row["name"].casefold(): Species(
            row["name"],
            float(row["specific_gravity"]),
            float(row["bending_strength_mpa"]),
            float(row["stiffness_mpa"]),
            float(row["compression_strength_mpa"]),
            float(row["shear_strength_mpa"]) if row["shear_strength_mpa"] else None,
        )
        for row in csv.DictReader(lines)
    }


def species_names() -> tuple[str, ...]:
    """Names of all woods in the table, in the order of the alphabet.

    Returns:
        The names, each in the trade's word order.

    Source:
        Wood Handbook, as the head of this module says.

    Example:
        >>> [name for name in species_names() if name.endswith("cherry") or name.endswith("birch")]
        ['black cherry', 'paper birch', 'sweet birch', 'yellow birch']
    """
    return tuple(wood.name for wood in _table().values())


def species(name: str) -> Species:
    """Look up a wood by its name.

    Args:
        name: such as white ash; capitals do not matter.

    Returns:
        The wood with its averages.

    Raises:
        DesignError: when the table has no such wood; the nearest name is offered.

    Source:
        Wood Handbook, as the head of this module says.

    Example:
        >>> ash = species("white ash")
        >>> ash.bending_strength_mpa, ash.stiffness_mpa, round(ash.density_kg_m3)
        (106.2, 12000.0, 672)
        >>> species("ash")
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: The wood 'ash' is not in the table; what can stand there: black ash,
        green ash, white ash.
    """
    table = _table()
    wanted = " ".join(name.casefold().split())
    if wanted not in table:
        kinds = [known.name for words, known in table.items() if wanted in words.split()]  # of "oak", every oak
        near = nearest_word("", kinds) if kinds else nearest_word(wanted, species_names())
        raise DesignError(f"The wood '{name}' is not in the table; {near}")
    return table[wanted]
