"""Names of rows, drawers and banks that are alike, told together."""

from __future__ import annotations

import re
from collections.abc import Iterable


def together(names: Iterable[str]) -> str:
    """Tell numbered names in one.

    Args:
        names: such as "row 3" or "row 1, drawer 2", in order; one that comes again is told once.

    Returns:
        Those that differ in their first number alone by their span.

    Example:
        >>> together(["row 1, drawer 1", "row 2", "row 3", "row 4"])
        'row 1, drawer 1; rows 2 to 4'
    """
    found: dict[tuple[str, str], list[str]] = {}
    for name in dict.fromkeys(names):
        what, number, rest = (*re.split(r"(\d+)", name, maxsplit=1), "", "")[:3]
        found.setdefault((what, rest), []).append(number)
    told = []
    for (what, rest), numbers in found.items():
        spanned = len(numbers) > 2 and int(numbers[-1]) - int(numbers[0]) == len(numbers) - 1
        listed = f"{numbers[0]} to {numbers[-1]}" if spanned else (" and " if len(numbers) == 2 else ", ").join(numbers)
        told.append(what.replace(" ", "s " if len(numbers) > 1 else " ") + listed + rest)
    return "; ".join(told)
