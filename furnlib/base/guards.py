"""One-sentence errors: what is wrong, the value, what is allowed, what to do about it."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterable
from fractions import Fraction
from typing import Any

import numpy as np

_LARGE = 2**1000  # an exact fraction over less than this is an ordinary number


class DesignError(ValueError):
    """A size or a request that cannot be made, said in one sentence to the maker.

    Args:
        sentence: what is wrong, the value, what is allowed and the usual cure.
        more: further sentences, where one reading found several faults at once.
        path: the names that lead to the value in the design file, where that is known.

    Example:
        >>> raise DesignError("The height is 0; it must be more than 0: give a height.")
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: The height is 0; it must be more than 0: give a height.
    """

    def __init__(self, sentence: str, more: Iterable[str] = (), path: tuple[str | int, ...] = ()) -> None:
        super().__init__(sentence)
        self.more = tuple(more)
        self.path = path


class fault_at:  # noqa: N801 -- read as a verb, after "with"; a generator would cost three times as much
    """Note where in the design file a fault lies, for whoever can name its line.

    Args:
        path: the names that lead to the value.

    Raises:
        DesignError: as raised inside, with the path where it had none.

    Example:
        >>> with fault_at("rows", "step"):
        ...     require_positive("step", -1)
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: The step is -1; it must be more than 0: give a size above 0.
    """

    def __init__(self, *path: str | int) -> None:
        self.path = path

    def __enter__(self) -> None:
        pass

    def __exit__(self, _kind: object, error: BaseException | None, _trace: object) -> None:
        if isinstance(error, DesignError):
            error.path = error.path or self.path


def require_finite(name: str, value: Any) -> None:
    """Refuse NaN and infinity, in a number or anywhere in an array.

    Args:
        name: what the value is called, in the maker's words.
        value: a number or an array of numbers, any unit.

    Raises:
        DesignError: when a value is NaN or infinite, or is no number.

    Example:
        >>> require_finite("height", float("nan"))
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: The height is nan; it must be an ordinary number.
    """
    try:
        finite = math.isfinite(value) if not isinstance(value, np.ndarray) else bool(np.isfinite(value).all())
    except (TypeError, ValueError, OverflowError):
        finite = False
    if not finite:
        raise DesignError(f"The {name} is {value}; it must be an ordinary number.")


def all_hold(value: Any) -> bool:
    """Tell whether a comparison holds, of one number or of every number of an array.

    Args:
        value: what the comparison gave.

    Returns:
        True where it holds everywhere.

    Example:
        >>> all_hold(np.array([1, 2]) > 1), all_hold(2 > 1)
        (False, True)
    """
    return bool(value.all()) if isinstance(value, np.ndarray) else bool(value)


def require_positive(name: str, value: Any, cure: str = "give a size above 0") -> None:
    """Refuse zero, negative and not-finite sizes.

    Args:
        name: what the value is called, in the maker's words.
        value: a number or an array of numbers, any unit.
        cure: what to do about it.

    Raises:
        DesignError: when any value is zero or less, NaN or infinite.

    Example:
        >>> require_positive("case height", -3)
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: The case height is -3; it must be more than 0: give a size above 0.
    """
    if isinstance(value, Fraction) and 0 < value.numerator < _LARGE:
        return  # seen at once: a move of a slider asks this hundreds of times
    require_finite(name, value)
    if not all_hold(value > 0):
        raise DesignError(f"The {name} is {value}; it must be more than 0: {cure}.")


def require_between(name: str, value: Any, low: float, high: float, cure: str, *, ends: bool = False) -> None:
    """Refuse values outside a range.

    Args:
        name: what the value is called, in the maker's words.
        value: a number or an array of numbers, in the unit of the limits.
        low: the value must be above this.
        high: the value must be below this.
        cure: what to do about it.
        ends: True where the limits themselves are allowed.

    Raises:
        DesignError: when any value is past a limit (or at one, unless allowed), NaN or infinite.

    Example:
        >>> require_between("rake", 95, -90, 90, "a leg that lies down carries nothing; lean it less")
        Traceback (most recent call last):
        furnlib.base.guards.DesignError: The rake is 95; it must lie between -90 and 90: a leg that lies
        down carries nothing; lean it less.
    """
    require_finite(name, value)
    inside = (value >= low) & (value <= high) if ends else (value > low) & (value < high)
    if not all_hold(inside):
        allowed = f"lie from {low:g} to {high:g}" if ends else f"lie between {low:g} and {high:g}"
        if high == math.inf:
            allowed = f"be {low:g} or more" if ends else f"be more than {low:g}"
        raise DesignError(f"The {name} is {value}; it must {allowed}: {cure}.")


def with_article(word: str) -> str:
    """Put a or an before a word that begins a sentence.

    Args:
        word: a noun.

    Returns:
        Both.

    Example:
        >>> with_article("ogee"), with_article("bead")
        ('An ogee', 'A bead')
    """
    return f"{'An' if word[0] in 'aeiou' else 'A'} {word}"


def nearest_word(word: str, offered: Iterable[str]) -> str:
    """Return the offered word most like the one given, or all of them when none is near.

    Args:
        word: what was written.
        offered: the words that would be understood.

    Returns:
        A phrase that ends a sentence.

    Example:
        >>> nearest_word("hieght", ["height", "width"])
        "did you mean 'height'?"
        >>> nearest_word("colour", ["height", "width"])
        'what can stand there: height, width.'
    """
    words = sorted(offered)
    near = difflib.get_close_matches(word, words, n=1)
    return f"did you mean '{near[0]}'?" if near else f"what can stand there: {', '.join(words)}."
