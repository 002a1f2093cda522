"""A printed rule read again and worked out with the math module, and how far rounding may have moved it."""

from __future__ import annotations

import math
import re
from fractions import Fraction as F

NUMBER = r"\d+[\u202f ]\d+/\d+|\d+/\d+|\d+\.\d+|\d+"
STEP = {"mm": F(1, 10), "in": F(1, 32), "deg": F(1, 100)}
"""What sizes are printed to."""
_FUNCTIONS = {
    "tan": lambda a: math.tan(math.radians(a)),
    "sin": lambda a: math.sin(math.radians(a)),
    "cos": lambda a: math.cos(math.radians(a)),
    "arc": math.radians,
    "pi": math.pi,
    "sqrt": math.sqrt,
    "asin": lambda x: math.degrees(math.asin(x)),
    "atan": lambda x: math.degrees(math.atan(x)),
    "atan2": lambda y, x: math.degrees(math.atan2(y, x)),
    "atan_sqrt": lambda x: math.degrees(math.atan(math.sqrt(x))),
}
_NOTES = r"\b(drill )?(rake|splay|total lean)\b|\btaper in the V\b|\btenon\b| (below|gap|film)\b"
"""Words beside a number that say what it is."""
_PLAIN = {
    " mm": (1e-4, "/ 1000"),
    " dm³": (1e-4, ""),
    " kg/m³": (1, ""),
    " each": (1e-4, ""),
    " at the thinnest": (None, ""),
    " at the dampest": (1e-4, ""),
    " stretch": (1e-5, ""),
}
"""What follows a number that is no length in the piece's unit: the step it is written to, and what it is times."""
_KNOWN = re.compile("|".join(sorted(_FUNCTIONS, reverse=True)) + r"|[-+*/(), .n\[\]\d]")


def number(text):
    whole, _, part = text.replace("\u202f", " ").rpartition(" ")
    return F(whole or 0) + F(part)


def signed(text):
    return -number(text[1:]) if text.startswith("-") else number(text)


def _calculation(rule):
    """The right side of a rule as an expression of its printed numbers, with each number and what it is."""
    right = re.sub(_NOTES, "", re.split(" [=≥≤≈] ", rule, maxsplit=1)[1])
    right = re.sub(rf"\btaper ({NUMBER})", r"\1 each", right.replace("/ min", "/ 60"))
    numbers = []

    def note(found):
        # a share, a root, the 1 of a sum and the slip as the design gives it are not rounded
        after, unit = right[found.end() :], found.group(2)
        exact = right[: found.start()].endswith(("/ ", "sqrt ", "arc ")) and unit not in _PLAIN
        exact = exact or bool(re.match(r" x \(\d| / 60", after))  # twice a sum, turns a minute
        exact = exact or (found.group(1) == "1" and bool(re.match(r" [-+] \S+ each", after)))
        step, times = _PLAIN.get(unit, (None, ""))
        numbers.append((float(number(found.group(1))), step or (None if exact else "deg" if unit == "°" else "length")))
        return f"(n[{len(numbers) - 1}]{times})"

    def applied(found):
        function, square, minus, argument = found.groups()
        return f"{function}({minus}{argument})" + (" ** 2" if square else "")

    expression = re.sub(rf"\b({NUMBER})(°|{'|'.join(_PLAIN)}|)", note, right)
    expression = re.sub(r"\b(tan|sin|cos|arc|sqrt)(²?) (-?)(\(n\[\d+\]\))", applied, expression)
    expression = expression.replace("atan sqrt(", "atan_sqrt(").replace(" x ", " * ")
    assert not _KNOWN.sub("", expression), f"not understood: {rule}"
    return expression, numbers


def worked_out(rule, unit):
    """What a rule comes to, and by how much the rounding of its printed numbers may have moved that."""
    expression, numbers = _calculation(rule)

    def at(values):
        return eval(expression, {"__builtins__": {}}, {**_FUNCTIONS, "n": values})

    plain = [value for value, _ in numbers]
    result, room = at(plain), 0.0
    for place, (value, kind) in enumerate(numbers):
        if kind:
            half = float(STEP[{"deg": "deg", "length": unit}[kind]] if isinstance(kind, str) else kind) / 2
            moved = [at([*plain[:place], value + way * half, *plain[place + 1 :]]) for way in (-1, 1)]
            room += max(abs(one - result) for one in moved)
    return result, 1.05 * room + 1e-9  # a little over, as all may be off at once


def check_formula(size, unit):
    """A size against its own rule worked out, and against what is printed for it."""
    right, room = worked_out(size.rule, unit)
    under = float(STEP[unit]) if " ≤ " in size.rule else 0  # the largest step that is no more
    assert -room <= right - float(size.value) <= under + room, f"{size.name}: {size.rule}: {right} against {size.value}"
    check_printed(size)


def added_up(rule, unit):
    """What the members of a printed sum come to, and by how much rounding may have moved that."""
    right, share = re.fullmatch(r"\S+ [=≈] \(?(.*?)(?:\) / (\d+))?", rule.replace("\u202f", "_")).groups()
    right = right.replace("_", "\u202f")
    members = re.findall(rf"(- |\+ |^)(?:(\d+) x )?({NUMBER})(?: [a-z][a-z ]*[a-z])?(?= [-+] |$)", right)
    again = " ".join(f"{sign}{f'{times} x ' if times else ''}{size}" for sign, times, size in members)
    assert re.sub(" [a-z][a-z ]*[a-z](?= [-+] |$)", "", right) == again, f"not understood: {rule}"
    times = [int(f"{sign[:1]}{many or 1}") for sign, many, _ in members]
    sizes = [number(size) for *_, size in members]
    rounded = 0 if " = " in rule else sum(map(abs, times)) * STEP[unit] / 2
    added = sum(many * size for many, size in zip(times, sizes, strict=True))
    return added / int(share or 1), rounded / int(share or 1)


def check_sum(size):
    """A sum against its members added up exactly, and against what is printed for it."""
    added, room = added_up(size.rule, size.unit)
    assert abs(added - size.value) <= room, f"{size.name}: {size.rule}: {added} against {size.value}"
    check_printed(size)


def check_printed(size):
    """A size against the number that its rule begins with."""
    written = re.match(rf"-?(?:{NUMBER})", size.rule).group()
    printed, value = float(signed(written)), float(size.value)
    step = float(STEP[size.unit]) if size.unit else 10.0 ** -len(written.partition(".")[2])
    if size.least:  # never written smaller than it is
        assert value - 1e-5 * step <= printed < value + step, size.rule
    else:
        assert abs(printed - value) <= step / 2 + 1e-9, size.rule
