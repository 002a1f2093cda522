"""Names of rows, drawers and banks that are alike, told together."""

from __future__ import annotations

import re
from collections.abc import Iterable


def together(names: Iterable[str]) -> str:
    """Tell numbered names in one.

    Args:
        names: such as "row 3" or "row 1, drawer 2", in order; one that comes again is told once.

    Returns:
        Those that differ in one number alone by its span.

    Example:
        >>> together(["row 1, drawer 1", "row 2", "row 3", "row 4"])
        'row 1, drawer 1; rows 2 to 4'
        >>> together(["row 1, bank 1", "row 2, bank 1", "row 1, bank 2", "row 2, bank 2"])
        'rows 1 and 2, banks 1 and 2'
    """
    found: dict[tuple[str, str], list[str]] = {}
    for name in dict.fromkeys(names):
        what, number, rest = (*re.split(r"(\d+)", name, maxsplit=1), "", "")[:3]
        found.setdefault((what, rest), []).append(number)
    told: dict[str, list[str]] = {}
    for (what, rest), numbers in found.items():
        spanned = len(numbers) > 2 and int(numbers[-1]) - int(numbers[0]) == len(numbers) - 1
        listed = f"{numbers[0]} to {numbers[-1]}" if spanned else (" and " if len(numbers) == 2 else ", ").join(numbers)
        told.setdefault(what.replace(" ", "s " if len(numbers) > 1 else " ") + listed, []).append(rest)
    return "; ".join(
        start + (f", {together(rest[2:] for rest in rests)}" if any(rests) else "") for start, rests in told.items()
    )
