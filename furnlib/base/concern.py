"""What a maker should settle before wood is cut: a warning as data."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Concern:
    """Something to settle before wood is cut: a warning as data, never printed in passing.

    Args:
        code: a short fixed name, for tests and for lessons.
        number: the number that gave rise to it, written out.
        reason: what will happen.
        cures: the usual ways out.
    """

    code: str
    number: str
    reason: str
    cures: tuple[str, ...]

    def __str__(self) -> str:
        cures = "; ".join(self.cures)
        return f"{self.number}: {self.reason}. {cures[:1].upper()}{cures[1:]}."
