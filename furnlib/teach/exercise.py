"""An exercise: a question with numbers in it, and a reply to what a maker writes down.

The library works out the answer: ``dataclasses.replace(exercise, numbers=...)`` asks the next seat.
It is for learning, and open to all; marked work is done on paper. How near is near enough: X on the
grid, L 0.5 mm or 1/64 in, S (slots, gaps) 0.3 mm or 0.012 in, A 0.1 degrees, P 2 % of the answer.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from typing import Any, Literal

from furnlib.base import units
from furnlib.base.guards import DesignError
from furnlib.base.reading import parse_length, read_angle, read_number

Values = tuple[Fraction, ...]  # an answer as read; a single number is a row of one

NEAR = {"L mm": "0.5", "L in": "1/64", "S mm": "0.3", "S in": "0.012", "A angle": "0.1"}
# A list in one text is split before each size, but not between a whole number and its fraction.
_GAP = r"\s+(?=-?[.0-9])(?![0-9]+\s?/)|(?:(?<=/[0-9])|(?<=/[0-9]{2}))\s+(?=[0-9])"


@dataclass(frozen=True)
class Slip:
    """A usual slip: what was done, and the wrong formula that does it.

    Args:
        meaning: ends the sentence "That is the answer you get when ...".
        wrong: works out the wrong answer; takes the exercise's numbers by name.
    """

    meaning: str
    wrong: Callable[..., Any]


@dataclass(frozen=True)
class Reply:
    """What is said about an answer.

    Args:
        right: True or False; None where there was nothing to judge.
        kind: which of the seven replies it is.
        words: the reply in plain sentences.
    """

    right: bool | None
    kind: Literal["no answer", "unreadable", "right", "off the grid", "wrong unit", "slip", "not yet"]
    words: str

    def __str__(self) -> str:
        return self.words

    _repr_markdown_ = __str__


@dataclass(frozen=True, eq=False, repr=False)
class Exercise:
    """One question, its answer worked out by the library, and replies to what is answered.

    Args:
        key: its name on the sheet, such as "05a".
        question: what is asked; every text is filled from the numbers, as in ``{height} mm``.
        numbers: what the question gives, by name.
        solve: works out the right answer; takes the numbers by name.
        kind: "length", "lengths" (a list), "angle" or "number".
        tolerance: X, L, A, S or P, as the head of this module says.
        hints: two, shown one after the other.
        worked: the worked line, shown at the third wrong answer; it can say ``{answer}``.
        unit: of lengths, "mm" or "in".
        grid: the step the answer must be whole numbers of, above 0, such as 1.
        slips: the usual slips to recognise.
        judge: a rule in place of one right answer; takes what was answered (a list as a tuple) and
            the numbers by name, returns whether it is right and a sentence.

    Example:
        >>> from furnlib.trade.leg.lean import Lean
        >>> total_lean = Exercise(
        ...     key="05a", kind="angle", tolerance="A", numbers={"rake_deg": 8, "splay_deg": 6},
        ...     question="Rake {rake_deg}°, splay {splay_deg}°: what is the total lean?",
        ...     solve=lambda rake_deg, splay_deg: Lean.from_rake_splay(rake_deg, splay_deg).total_lean_deg,
        ...     hints=("Angles do not add; foot runs do, squared.", "Work with tangents."),
        ...     worked="tan² R = tan² {rake_deg}° + tan² {splay_deg}°, so R = {answer}.",
        ...     slips=(Slip("the two angles are added", lambda rake_deg, splay_deg: rake_deg + splay_deg),),
        ... )
        >>> total_lean.check("9.95°").kind, total_lean.check("14").words
        ('right', 'That is the answer you get when the two angles are added.')
    """

    key: str
    question: str
    numbers: Mapping[str, Fraction | float]
    solve: Callable[..., Any]
    kind: Literal["length", "lengths", "angle", "number"]
    tolerance: Literal["X", "L", "A", "S", "P"]
    hints: tuple[str, str]
    worked: str
    unit: units.Unit = "mm"
    grid: Fraction | None = None
    slips: tuple[Slip, ...] = ()
    judge: Callable[..., tuple[bool, str]] | None = None
    _wrong: list[Values] = field(default_factory=list, init=False)  # so that each new try gets more help

    def __str__(self) -> str:
        return f"{self.key}: {self._fill(self.question)}"

    __repr__ = _repr_markdown_ = __str__

    @cached_property
    def answer(self) -> str:
        """The right answer as the key writes it; where a judge rules, one right answer."""
        return self._write(self._right)

    def check(self, answer: Any) -> Reply:
        """Reply to an answer; only a new one met with "not yet" uses up a hint.

        Args:
            answer: text as makers write it, a number, or a list of either; a list in one text has
                spaces, commas or plus signs between. None, "" and ... mean no answer yet.

        Returns:
            The reply.
        """
        if str(answer).strip() in {"", "...", "…", "Ellipsis", "None", "[]", "()"}:
            return Reply(None, "no answer", "No answer yet.")
        try:
            values, as_read = self._read(answer)
        except DesignError as fault:
            return Reply(None, "unreadable", str(fault))
        reply = self._reply(values)
        return replace(reply, words=reply.words + as_read)

    def faults(self) -> list[str]:
        """Find what is wrong with the exercise itself, with these numbers.

        Returns:
            A sentence for each fault, none where it is sound: the right answer is not accepted as
            the key writes it or lies halfway between two steps of the grid, or a slip comes too
            near the right answer or another slip.

        Raises:
            KeyError: when a text names what is not there, or the tolerance does not suit the kind.
        """
        _ = [self._fill(text) for text in (self.question, *self.hints, self.worked)]
        fresh, found = replace(self), []
        if not fresh.check(self.answer).right:
            found.append(f"The right answer, {self.answer}, is met with '{fresh.check(self.answer)}'")
        if self.grid and any(abs(value / self.grid % 1 - Fraction(1, 2)) < 1e-6 for value in self._right):
            found.append(f"The right answer lies halfway between two steps of {self.grid}.")
        for slip in self.slips:
            wrong = self._write(_exact(slip.wrong(**self.numbers)))
            if not (reply := fresh.check(wrong)).words.endswith(f"when {slip.meaning}."):
                found.append(f"When {slip.meaning}: {wrong} (right: {self.answer}) is met with '{reply}'")
        return found

    @cached_property
    def _right(self) -> Values:
        return _exact(self.solve(**self.numbers))

    def _reply(self, values: Values) -> Reply:
        right, remark = self._judged(values)
        if right and self.grid and any(value % self.grid for value in values):
            return Reply(False, "off the grid", f"Right, but not on the grid of {self._write((self.grid,))}.")
        if right:
            return Reply(True, "right", f"Right. {remark}".strip())
        inch = units.MM_IN["in"]
        others = [tuple(value * factor for value in values) for factor in (inch, 1 / inch)]
        if self.kind in {"length", "lengths"} and any(self._judged(other)[0] for other in others):
            wanted = "inches" if self.unit == "in" else "mm"
            return Reply(False, "wrong unit", f"Right number, wrong unit: the answer is wanted in {wanted}.")
        for slip in self.slips:
            wrong = _exact(slip.wrong(**self.numbers))
            if self._meets(values, wrong) and not self._meets(wrong, self._right, 3):  # told well apart
                return Reply(False, "slip", f"That is the answer you get when {slip.meaning}.")
        if not any(self._meets(values, earlier) for earlier in self._wrong):
            self._wrong.append(values)
        help_now = self._fill((*self.hints, self.worked)[min(len(self._wrong), 3) - 1])
        return Reply(False, "not yet", " ".join(filter(None, ("Not yet.", remark, help_now))))

    def _judged(self, values: Values) -> tuple[bool, str]:
        if not self.judge:
            miscount = f"{len(self._right)} lengths are wanted, {len(values)} were read."
            return self._meets(values, self._right), miscount if len(values) != len(self._right) else ""
        try:
            return self.judge(values if self.kind == "lengths" else values[0], **self.numbers)
        except DesignError as fault:
            return False, str(fault)

    def _meets(self, values: Values, wanted: Values, times: int = 1) -> bool:
        return len(values) == len(wanted) and all(
            abs(value - want) <= times * self._near(want) or value == self._to_grid(want)
            for value, want in zip(values, wanted, strict=True)
        )

    def _near(self, value: Fraction) -> Fraction:
        if self.tolerance == "X":  # up to a quarter step off, it is only not yet brought to the grid
            return Fraction(self.grid or 0) / 4
        measure = self.unit if self.kind in {"length", "lengths"} else self.kind
        return abs(value) / 50 if self.tolerance == "P" else Fraction(NEAR[f"{self.tolerance} {measure}"])

    def _to_grid(self, value: Fraction) -> Fraction:
        return round(value / self.grid) * self.grid if self.grid else value

    def _read(self, answer: Any) -> tuple[Values, str]:
        row = answer if isinstance(answer, list | tuple) else [answer]
        if isinstance(answer, str) and self.kind == "lengths":
            answer = answer.strip()
            marks = r"\s*[+;\n]\s*|\s*,\s+" if re.search(r"\s[-.0-9]", answer) else r"[,+;]"
            row = re.split(marks if re.search(marks, answer) else _GAP, answer)
        if self.kind != "lengths" and len(row) > 1:
            raise DesignError(f"{len(row)} answers are given; this exercise asks for one {self.kind}.")
        if not all(isinstance(item, str) for item in row):
            return _exact(row), ""
        if self.kind in {"angle", "number"}:
            return ((read_angle if self.kind == "angle" else read_number)(row[0]),), ""
        read = [parse_length(item, self.unit) for item in row]
        step = units.FINEST[self.unit]
        said = [f" {r.text} is {units.round_length(r.value, self.unit, step)}." for r in read if r.converted]
        return tuple(r.value for r in read), "".join(said)

    def _write(self, values: Values) -> str:
        """Write an answer as the key does: on the grid, fine enough to be read back as right."""
        marks = [self._to_grid(value) for value in values]
        if self.kind in {"angle", "number"}:
            return units.write_angle(marks[0], 2) if self.kind == "angle" else units.write_number(marks[0], 4)
        finest = Fraction(1, 10) if self.unit == "mm" else Fraction(1, 64)
        sizes = [units.write_length(mark, self.unit, finest=finest) for mark in marks]
        return f"{' '.join(sizes)} {self.unit}"

    def _fill(self, text: str) -> str:
        """Put in the numbers: a size on the inch tape as a fraction, all others as decimals."""
        given = {}
        for name, number in self.numbers.items():
            (n,) = _exact(number)
            on_tape = self.unit == "in" and 64 % n.denominator == 0
            given[name] = units.write_length(n, "in") if on_tape else units.write_number(n, 4)
        return text.format(**given, answer=self.answer)


def _exact(result: Any) -> Values:
    row = result if isinstance(result, list | tuple) else [result]
    for value in row:
        is_number = isinstance(value, int | float | Fraction) and not isinstance(value, bool)
        if not (is_number and abs(value) < 10**12):  # so NaN is refused as well
            raise DesignError("The answer is no ordinary number; write one like 9.95, below 10^12.")
    return tuple(Fraction(str(value)) for value in row)
