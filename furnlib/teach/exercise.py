"""An exercise: a question with numbers in it, and a reply to what a maker writes down.

The library works out the answer: ``dataclasses.replace(exercise, numbers=...)`` asks the next seat.
It is for learning, and open to all; marked work is done on paper.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from typing import Any, Literal

from furnlib.base import units
from furnlib.base.guards import DesignError, require_finite
from furnlib.teach.answers import AnswerForm, Kind, Tolerance, Values


@dataclass(frozen=True)
class Slip:
    """A usual slip: what was done, and the wrong formula that does it.

    Args:
        meaning: ends the sentence "That is the answer you get when ...".
        wrong: works out the wrong answer; takes the exercise's numbers by name. In a list, ``...``
            stands where the slip changes nothing, so that it is known whatever is written there.
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
        kind: "length", "angle" or "number"; "lengths", "angles" or "numbers" (a list); "words" (a
            set of those offered).
        tolerance: X, L, A, S or P, as the head of `teach.answers` says; words take X.
        hints: two, shown one after the other.
        worked: the worked line, shown at the third wrong answer; it can say ``{answer}``.
        unit: of lengths, "mm" or "in".
        grid: the step the answer must be whole numbers of, above 0, such as 1.
        offered: the words to choose from; texts can say ``{offered}``.
        slips: the usual slips to recognise.
        judge: a rule in place of one right answer; takes what was answered (a list as a tuple) and
            the numbers by name, returns whether it is right and a sentence.
        shown: works out what else the texts show, by name; takes the numbers by name.

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
    kind: Kind
    tolerance: Tolerance
    hints: tuple[str, str]
    worked: str
    unit: units.Unit = "mm"
    grid: Fraction | None = None
    offered: tuple[str, ...] = ()
    slips: tuple[Slip, ...] = ()
    judge: Callable[..., tuple[bool, str]] | None = None
    shown: Callable[..., Mapping[str, str]] | None = None
    _wrong: list[Values] = field(default_factory=list, init=False)  # so that each new try gets more help

    def __str__(self) -> str:
        return f"{self.key}: {self._fill(self.question)}"

    __repr__ = _repr_markdown_ = __str__

    @cached_property
    def answer(self) -> str:
        """The right answer as the key writes it; where a judge rules, one right answer."""
        return self._form.write(self._right)

    def check(self, answer: Any) -> Reply:
        """Reply to an answer; only a new one met with "not yet" uses up a hint.

        Args:
            answer: text as makers write it, a number, or a list of either; a list in one text has
                spaces, commas, plus signs or "and" between (words: no spaces alone). None, "" and ...
                mean no answer yet.

        Returns:
            The reply.
        """
        if str(answer).strip() in {"", "...", "…", "Ellipsis", "None", "[]", "()"}:
            return Reply(None, "no answer", "No answer yet.")
        try:
            values, as_read = self._form.read(answer)
        except DesignError as fault:
            return Reply(None, "unreadable", str(fault))
        reply = self._reply(values)
        return replace(reply, words=reply.words + as_read)

    def faults(self) -> list[str]:
        """Find what is wrong with the exercise itself, with these numbers.

        Returns:
            A sentence for each fault, none where it is sound: there is no answer, the right one is
            not accepted as the key writes it or lies halfway between two steps of the grid, a slip
            comes too near the right answer or another slip, or words offered are not told apart.

        Raises:
            KeyError: when a text names what is not there, or the tolerance does not suit the kind.
        """
        try:
            return [*self._form.faults(), *self._faults()]
        except DesignError as fault:
            return [str(fault)]

    def _faults(self) -> list[str]:
        _ = [self._fill(text) for text in (self.question, *self.hints, self.worked)]
        fresh, found = replace(self), []
        if not fresh.check(self.answer).right:
            found.append(f"The right answer, {self.answer}, is met with '{fresh.check(self.answer)}'")
        if self.grid and any(abs(value / self.grid % 1 - Fraction(1, 2)) < 1e-6 for value in self._right):
            found.append(f"The right answer lies halfway between two steps of {self.grid}.")
        for slip in self.slips:
            wrong = self._form.write(self._slipped(slip, self._right))
            if not (reply := fresh.check(wrong)).words.endswith(f"when {slip.meaning}."):
                found.append(f"When {slip.meaning}: {wrong} (right: {self.answer}) is met with '{reply}'")
        return found

    @cached_property
    def _form(self) -> AnswerForm:
        return AnswerForm(self.kind, self.tolerance, self.unit, self.grid, self.offered)

    @cached_property
    def _right(self) -> Values:
        return self._form.exact(self.solve(**self.numbers))

    def _slipped(self, slip: Slip, elsewhere: Values) -> Values:
        """The answer that a slip leads to; where it changes nothing, what stands elsewhere."""
        wrong = slip.wrong(**self.numbers)
        if isinstance(wrong, tuple) and any(value is ... for value in wrong):
            others = elsewhere if len(elsewhere) == len(wrong) else self._right
            wrong = [other if value is ... else value for value, other in zip(wrong, others, strict=True)]
        return self._form.exact(wrong)

    def _reply(self, values: Values) -> Reply:
        right, remark = self._judged(values)
        if right and self.grid and any(value % self.grid for value in values):
            return Reply(False, "off the grid", f"Right, but not on the grid of {self._form.write((self.grid,))}.")
        if right:
            return Reply(True, "right", f"Right. {remark}".strip())
        inch = units.MM_IN["in"]
        others = [tuple(value * factor for value in values) for factor in (inch, 1 / inch)]
        if self._form.one == "length" and any(self._judged(other)[0] for other in others):
            wanted = "inches" if self.unit == "in" else "mm"
            return Reply(False, "wrong unit", f"Right number, wrong unit: the answer is wanted in {wanted}.")
        for slip in self.slips:
            told_apart = not self._form.meets(self._slipped(slip, self._right), self._right, 3)
            if told_apart and self._form.meets(values, self._slipped(slip, values)):
                return Reply(False, "slip", f"That is the answer you get when {slip.meaning}.")
        if not any(self._form.meets(values, earlier) for earlier in self._wrong):
            self._wrong.append(values)
        help_now = self._fill((*self.hints, self.worked)[min(len(self._wrong), 3) - 1])
        return Reply(False, "not yet", " ".join(filter(None, ("Not yet.", remark, help_now))))

    def _judged(self, values: Values) -> tuple[bool, str]:
        if not self.judge:
            right = self._form.meets(values, self._right)
            return right, "" if right else self._partly(values)
        try:
            return self.judge(values[0] if self.kind == self._form.one else values, **self.numbers)
        except DesignError as fault:
            return False, str(fault)

    def _partly(self, values: Values) -> str:
        """Say how much of a wrong answer is right, and not what."""
        count, wanted = len(values), len(self._right)
        if count != wanted:
            return f"{wanted} {self.kind} are wanted, {count} {'was' if count == 1 else 'were'} read."
        places = zip(values, self._right, strict=True)
        told = [self._form.meets((value,), (right,)) for value, right in places if value or self.kind != "words"]
        if all(told):  # only of words some can be left out
            return "All that you name is right, but something is missing."
        return f"{sum(told)} of your {len(told)} {'is' if sum(told) == 1 else 'are'} right." if any(told) else ""

    def _fill(self, text: str) -> str:
        """Put in the numbers: a size on the inch tape as a fraction, all others as decimals."""
        given = {}
        for name, number in self.numbers.items():
            require_finite("number given", number)
            n = Fraction(str(number))
            on_tape = self.unit == "in" and 64 % n.denominator == 0
            given[name] = units.write_length(n, "in") if on_tape else units.write_number(n, 4)
        more = self.shown(**self.numbers) if self.shown else {}
        return text.format(**given, **more, answer=self.answer, offered=", ".join(self.offered))
