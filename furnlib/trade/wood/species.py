"""What woods are like: strength at about 12 % moisture content, and how much they shrink and move.

The figures are averages of clear, sound, straight-grained samples. A board may lie well away from them
(see `SPREAD`), and knots, sloping grain, damp and long loads all take from its strength. They screen a
shape; they rate nothing. A maker's own samples say more about his own boards: `tested_species`.

Sources: Forest Products Laboratory, Wood Handbook - Wood as an Engineering Material. Strength, stiffness
and specific gravity: General Technical Report FPL-GTR-282, Madison 2021, Tables 5-3b (domestic) and 5-5b
(imported woods), read in the open dataset "xylarium" (2026), which copies them out, and not in the book;
pounds per square inch are turned into MPa. The handbook finds stiffness from beams loaded in the middle,
span 14 times the depth, so that it is about a tenth less than in pure bending. Shrinkage: FPL-GTR-190,
Madison 2010, Tables 4-3 and 4-4. Change coefficients: the same, Table 13-5. Each row says whether it was
read or is from memory. Three rows of Table 13-5 are left out, because they do not belong to the shrinkage
of the wood whose name they carry: black oak (the row is California's), and true and African mahogany (the
rows rest on other data). So these move by their shrinkage.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple

import numpy as np

from furnlib.base.angles import cosd, sind
from furnlib.base.guards import DesignError, nearest_word, require_between, require_positive

SPREAD: Mapping[str, float] = {
    "specific gravity": 0.10,
    "bending strength": 0.16,
    "stiffness": 0.22,
    "compression strength": 0.18,
    "shear strength": 0.14,
}
"""Standard deviation over mean within a species: the same handbook, chapter 5, from memory."""


_TABLES = {
    "strength": (
        "specific_gravity", "bending_strength_mpa", "stiffness_mpa", "compression_strength_mpa", "shear_strength_mpa",
    ),
    "shrinkage": ("radial_shrinkage", "tangential_shrinkage", "volumetric_shrinkage", "fibre_saturation"),
    "change": ("radial_change", "tangential_change"),
}  # fmt: skip
"""Which values stand in which table."""
_FILES = {"strength": "species.csv", "shrinkage": "shrinkage.csv", "change": "change.csv"}
_MOST = 0.01  # twice the largest change coefficient of any wood in the table
_ALIKE = 0.2  # samples whose rings lie so nearly alike do not tell the two directions apart


class Source(NamedTuple):
    """Where a value comes from.

    Args:
        source: the publication and its table, or the maker's own samples.
        how: whether it was read there or is from memory, and what else is to be said.
    """

    source: str
    how: str


@dataclass(frozen=True)
class Species:
    """A wood and its averages; a value that no table has is None, and `known` says so in a sentence.

    Args:
        name: in the trade's word order, such as white ash.
        specific_gravity: weight of the dry wood over that of water as large as the wood at 12 %, a plain
            number.
        bending_strength_mpa: stress at which a bent sample breaks (modulus of rupture), MPa.
        stiffness_mpa: stress for each unit of stretch along the grain (modulus of elasticity), MPa.
        compression_strength_mpa: crushing stress along the grain, MPa.
        shear_strength_mpa: shearing stress along the grain, MPa.
        radial_shrinkage: square to the growth rings from green to oven-dry, % of the green size, a plain number.
        tangential_shrinkage: along the growth rings, % of the green size, a plain number.
        volumetric_shrinkage: of the volume, % of the green volume, a plain number.
        radial_change: change coefficient square to the growth rings, share of the size for 1 % of moisture,
            a plain number.
        tangential_change: change coefficient along the growth rings, a plain number alike.
        fibre_saturation: moisture content above which it neither swells nor shrinks, %, a plain number.
        sources: of the three tables, by the name of the table.
    """

    name: str
    specific_gravity: float | None = None
    bending_strength_mpa: float | None = None
    stiffness_mpa: float | None = None
    compression_strength_mpa: float | None = None
    shear_strength_mpa: float | None = None
    radial_shrinkage: float | None = None
    tangential_shrinkage: float | None = None
    volumetric_shrinkage: float | None = None
    radial_change: float | None = None
    tangential_change: float | None = None
    fibre_saturation: float = 30.0
    sources: tuple[tuple[str, Source], ...] = ()

    def has(self, *what: str) -> bool:
        """Tell whether the record has all of these values.

        Args:
            what: names of values, such as stiffness_mpa.

        Returns:
            True where none of them is missing.

        Example:
            >>> species("red maple").has("radial_change"), species("northern red oak").has("radial_change")
            (True, False)
        """
        return all(vars(self)[name] is not None for name in what)

    def known(self, what: str) -> float:
        """A value that must be there.

        Args:
            what: name of the value, such as stiffness_mpa.

        Returns:
            The value, in its unit.

        Raises:
            DesignError: when no table has it for this wood.

        Example:
            >>> species("eastern redcedar").known("shear_strength_mpa")
            Traceback (most recent call last):
            furnlib.base.guards.DesignError: The shear strength of eastern redcedar is not in the tables; name a
            wood that is like it and has one.
        """
        value = vars(self)[what]
        if value is None:
            words = what.removesuffix("_mpa").replace("_", " ")
            raise DesignError(
                f"The {words} of {self.name} is not in the tables; name a wood that is like it and has one."
            )
        return float(value)

    def source(self, what: str) -> Source:
        """Where a value comes from, and whether it was read there or recalled.

        Args:
            what: name of a value that the record has, such as stiffness_mpa.

        Returns:
            The source.

        Raises:
            DesignError: when no table has the value for this wood.

        Example:
            >>> species("red maple").source("radial_shrinkage")
            Source(source='Wood Handbook, FPL-GTR-190, Table 4-3', how='from memory')
        """
        self.known(what)
        return dict(self.sources)[next(table for table, names in _TABLES.items() if what in names)]

    @property
    def density_kg_m3(self) -> float:
        """Mass with the water that is in it at 12 %, kg for each cubic metre: specific gravity x 1000 x 1.12."""
        return self.known("specific_gravity") * 1000 * 1.12


@cache
def _table() -> dict[str, Species]:
    """Every species under its name in small letters, gathered from the three tables."""
    woods: dict[str, dict[str, Any]] = {}
    for table, names in _TABLES.items():
        lines = files(__package__).joinpath(_FILES[table]).read_text("utf-8").splitlines()
        for row in csv.DictReader(lines):
            fields = woods.setdefault(row["name"].casefold(), {"name": row["name"], "sources": ()})
            fields |= {name: float(row[name]) for name in names if row[name]}
            fields["sources"] += ((table, Source(row["source"], row["how"])),)
    return {name: Species(**fields) for name, fields in sorted(woods.items())}


def species_names() -> tuple[str, ...]:
    """Names of all woods in the table, in the order of the alphabet.

    Returns:
        The names, each in the trade's word order.

    Source:
        Wood Handbook, as the head of this module says.

    Example:
        >>> [name for name in species_names() if name.endswith("cherry") or name.endswith("birch")]
        ['Alaska paper birch', 'black cherry', 'paper birch', 'river birch', 'sweet birch', 'yellow birch']
    """
    return tuple(wood.name for wood in _table().values())


def _nearest_woods(wanted: str, table: Mapping[str, Species]) -> str:
    """What to offer: every oak for "oak", every cherry for "chery", else the nearest whole name."""
    whole = get_close_matches(wanted, table, n=1)
    near = get_close_matches(wanted, {word for words in table for word in words.split()}, n=1)
    for kind in (wanted, *([] if whole else near)):
        kinds = [known.name for words, known in table.items() if f" {kind} " in f" {words} "]
        if kinds:
            return nearest_word("", kinds)
    own = "write it as the trade does, such as black cherry."
    return nearest_word(whole[0], (table[whole[0]].name,)) if whole else own


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
        furnlib.base.guards.DesignError: The wood 'ash' is not in the table; what can stand there: Oregon ash,
        black ash, blue ash, green ash, pumpkin ash, white ash.
    """
    table = _table()
    wanted = " ".join(name.casefold().split())
    if wanted not in table:
        raise DesignError(f"The wood '{name}' is not in the table; {_nearest_woods(wanted, table)}")
    return table[wanted]


class Sample(NamedTuple):
    """A piece of wood that was measured, left in other air, and measured again.

    Args:
        width_before: its size across the grain at first, any length unit.
        width_after: the same size after it had changed, in the same unit.
        moisture_before: its moisture content at first, in %, from 6 to 14.
        moisture_after: its moisture content after it had changed, in %, from 6 to 14.
        ring_angle_deg: degrees from 0 (flat-sawn) to 90 (quarter-sawn) between the measured face and the
            growth rings on the end grain.
    """

    width_before: float
    width_after: float
    moisture_before: float
    moisture_after: float
    ring_angle_deg: float = 0.0


def tested_species(name: str, like: Species, samples: Sequence[Sample]) -> Species:
    """A wood whose change coefficients come from the maker's own samples.

    Each sample says (after - before) / before = (C_T cos² f + C_R sin² f) (M_after - M_before). Together they
    give both coefficients by least squares. What they cannot tell stays nearest to the wood they are like:
    flat-sawn samples alone leave the radial coefficient as it was. Shrinkage outside 6 to 14 % follows in
    proportion to the coefficients.

    Args:
        name: of the wood, such as my cherry.
        like: the wood that everything else is taken from; it has change coefficients.
        samples: one or more, each long enough in its new air to have settled.

    Returns:
        The wood.

    Raises:
        DesignError: when there is no sample, a width is not above 0, the moisture did not change by 2 % or
            left 6 to 14 %, or the samples say what no wood does.

    Source:
        Least squares on the law of the handbook, Equation 13-2.

    Example:
        >>> mine = tested_species("my cherry", species("black cherry"), [Sample(150.0, 152.0, 7.0, 12.0)])
        >>> mine.tangential_change, mine.radial_change
        (0.00267, 0.00126)
    """
    if not samples:
        raise DesignError("No sample is given; measure a piece, leave it in damper air, and measure it again.")
    for sample in samples:
        for width in sample[:2]:
            require_positive("width of a sample", width)
        for moisture in sample[2:4]:
            require_between("moisture of a sample", moisture, 6, 14, "the coefficients hold there only", ends=True)
        apart = round(abs(sample.moisture_after - sample.moisture_before), 9)  # so that 8.1 less 6.1 is two
        require_between("change of a sample's moisture", apart, 2, 8, "leave it in damper or drier air", ends=True)
        require_between("ring angle", sample.ring_angle_deg, 0, 90, "0 is flat-sawn, 90 quarter-sawn", ends=True)
    first = np.array([like.known("tangential_change"), like.known("radial_change")])
    before, after, wet_before, wet_after, angle = np.array(samples, float).T
    shares = np.column_stack([cosd(angle) ** 2, sind(angle) ** 2]) * (wet_after - wet_before)[:, None]
    found = first + np.linalg.lstsq(shares, after / before - 1 - shares @ first, rcond=_ALIKE)[0]
    for one in found:
        slip = "wood swells by some 0.001 to 0.004 for each 1 % it gets damper; measure again"
        require_between("change coefficient of the samples", round(float(one), 5), 0, _MOST, slip)
    own = Source("the maker's own samples", f"measured, {len(samples)} in number; the rest is that of {like.name}")
    made = {f"{way}_change": float(value) for way, value in zip(("tangential", "radial"), found, strict=True)}
    if like.has("tangential_shrinkage", "radial_shrinkage"):
        grown = dict(zip(("tangential_shrinkage", "radial_shrinkage"), found / first, strict=True))
        made |= {what: like.known(what) * float(times) for what, times in grown.items()}
    sources = tuple((table, source if table == "strength" else own) for table, source in like.sources)
    return replace(like, name=name, volumetric_shrinkage=None, sources=sources, **made)
