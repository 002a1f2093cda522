"""A sum that shows how it was done: members with their names, for the number and for the sentence."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Generic, NamedTuple, TypeVar

from furnlib.base.angles import Value

Length = TypeVar("Length")


class Term(NamedTuple, Generic[Length]):
    """One member of a sum.

    Args:
        value: above 0 what is added, below 0 what is taken off; a number, exact or not, or a symbol.
        what: the member's name, empty for the first one.
        times: how many of it.
    """

    value: Length
    what: str = ""
    times: int = 1


def total(terms: Iterable[Term[Value]]) -> Value:
    """Add up the members of a sum.

    Args:
        terms: one or more, all in one unit.

    Returns:
        The sum, of the kind that the members are.

    Example:
        >>> total((Term(380), Term(-10, "back panel"), Term(-6, "lap")))
        364
    """
    first, *rest = (term.value if term.times == 1 else term.value * term.times for term in terms)
    return sum(rest, first)
