"""A size that knows its rule, and a chain of sizes that closes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple, Protocol

from furnlib.base.guards import DesignError
from furnlib.base.terms import Term, total
from furnlib.base.units import Unit, shown_length, write_angle, write_length, write_number

SizeUnit = Literal["mm", "in", "deg", ""]
_MOST_SAID = 12  # links of a chain that is longer are left out of a refusal


class Sum(NamedTuple):
    """A sum that was done; its words are put together only where they are read.

    Args:
        terms: added in order.
        share: how many equal parts they are divided into.
        unit: "mm" or "in".
    """

    terms: tuple[Term[Fraction], ...]
    share: int
    unit: Unit

    @property
    def value(self) -> Fraction:
        """What it comes to, exactly."""
        added: Fraction = total(self.terms)
        return added / self.share if self.share != 1 else added

    def __str__(self) -> str:
        words = []
        for i, term in enumerate(self.terms):
            sign = "- " if term.value < 0 else "+ " if i else ""
            times = f"{term.times} x " if term.times != 1 else ""
            what = f" {term.what}" if term.what else ""
            words.append(f"{sign}{times}{write_length(abs(term.value), self.unit)}{what}")
        done = " ".join(words)
        return f"({done}) / {self.share}" if self.share != 1 else done

    @property
    def rule(self) -> str:
        """What it comes to and how."""
        equals = _equals([(term.value, term.times) for term in self.terms], self.share, self.value, self.unit)
        return f"{write_length(self.value, self.unit)} {equals} {self}"


class AtMost(NamedTuple):
    """The largest size that leaves what a sum leaves once it has swollen; its words too wait until they are read.

    Args:
        value: the size today.
        left: what it may come to.
        stretch: its size at its largest over its size today.
    """

    value: Fraction
    left: Sum
    stretch: float

    @property
    def rule(self) -> str:
        """What it comes to and how."""
        largest = write_number(self.stretch, 4)
        return f"{write_length(self.value, self.left.unit)} ≤ ({self.left}) / {largest} at the dampest"


class Working(Protocol):
    """What a size's rule is written from, where it is read."""

    @property
    def rule(self) -> str:
        """What the size comes to and how."""


@dataclass(frozen=True)
class Size:
    """A derived size with its rule in words and numbers.

    Args:
        name: what it is, in the maker's words.
        value: exact where the shop is exact, a float where geometry made it.
        unit: "mm", "in", "deg" for an angle, or nothing for a plain number.
        working: its rule, such as "1149 = 1300 - 151 legs", or what it is written from where it is read.
        formula: key of the formula behind it; empty for a plain sum.
        least: True for a least size, which is rounded up where it is written.
    """

    name: str
    value: Fraction | float
    unit: SizeUnit
    working: str | Working
    formula: str = ""
    least: bool = False

    @property
    def rule(self) -> str:
        """Its rule in words and numbers."""
        return self.working if isinstance(self.working, str) else self.working.rule

    @property
    def words(self) -> str:
        """The size as it is read out, with its unit."""
        if self.unit == "deg":
            return write_angle(self.value, 2)
        if self.unit == "":
            return write_number(self.value, 4)
        return write_length(self.value, self.unit, style="spoken", round_up=self.least)


def sum_size(name: str, unit: Unit, terms: tuple[Term[Fraction], ...], share: int = 1) -> Size:
    """Make a size by adding terms up, its rule being the sum that was done.

    Args:
        name: what it is.
        unit: "mm" or "in".
        terms: added in order; the value is exactly what the rule says.
        share: how many equal parts the sum is divided into.

    Returns:
        The size.

    Example:
        >>> terms = (Term(Fraction(1300)), Term(Fraction(-151), "legs"))
        >>> sum_size("case height", "mm", terms).rule
        '1149 = 1300 - 151 legs'
    """
    done = Sum(terms, share, unit)
    return Size(name, done.value, unit, done)


def _equals(terms: Iterable[tuple[Fraction, int]], share: int, value: Fraction, unit: Unit) -> str:
    """The sign between sizes as written: equal only where the sum holds in print, rounded as it is."""
    added = sum((shown_length(term, unit) * times for term, times in terms), Fraction(0)) / share
    return "=" if added == shown_length(value, unit) == value else "≈"


@dataclass(frozen=True)
class Chain:
    """Sizes along one direction that add up to a whole.

    Args:
        name: the direction, such as "height of the case".
        links: each size with its name, in order.
        whole: what they add up to.
        unit: "mm" or "in".
    """

    name: str
    links: tuple[Term[Fraction], ...]
    whole: Fraction
    unit: Unit

    def __str__(self) -> str:
        lengths = [link.value * link.times for link in self.links]
        written = " + ".join(write_length(length, self.unit) for length in lengths)
        equals = _equals([(length, 1) for length in lengths], 1, self.whole, self.unit)
        return f"{written} {equals} {write_length(self.whole, self.unit)}"


def closed_chain(name: str, unit: Unit, links: tuple[Term[Fraction], ...], whole: Fraction) -> Chain:
    """Make a chain, or say what is left over where it does not close.

    Args:
        name: the direction.
        unit: "mm" or "in".
        links: each size with its name, in order.
        whole: what they must add up to, exactly.

    Returns:
        The chain.

    Raises:
        DesignError: when the links add up to another number; the sentence shows the chain.

    Example:
        >>> links = (Term(Fraction(20)), Term(Fraction(480)), Term(Fraction(20)))
        >>> str(closed_chain("width of the case", "mm", links, Fraction(520)))
        '20 + 480 + 20 = 520'
    """
    chain = Chain(name, links, whole, unit)
    added = total(links)
    if added != whole:
        lengths = [link.value * link.times for link in links]
        finest = Fraction(1, 10) if unit == "mm" else Fraction(1, 64)
        plain = all((length / finest).denominator == 1 for length in (*lengths, whole))

        def said(length: Fraction) -> str:
            return write_length(length, unit) if plain else f"{float(length):.6g}"

        words = [said(length) for length in lengths]
        if len(words) > _MOST_SAID:
            words[_MOST_SAID // 2 : -_MOST_SAID // 2] = ["…"]
        raise DesignError(
            f"The {name} does not close: {' + '.join(words)} = {said(added)}, not {said(whole)};"
            f" {said(abs(added - whole))} too {'much' if added > whole else 'little'}: change one of its members."
        )
    return chain
