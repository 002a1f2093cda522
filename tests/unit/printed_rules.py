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
    "sqrt": math.sqrt,
    "asin": lambda x: math.degrees(math.asin(x)),
    "atan": lambda x: math.degrees(math.atan(x)),
    "atan2": lambda y, x: math.degrees(math.atan2(y, x)),
    "atan_sqrt": lambda x: math.degrees(math.atan(math.sqrt(x))),
}
_NOTES = r"\b(drill )?(rake|splay|total lean)\b|\btaper in the V\b"
"""Words beside a number that say what it is."""
_KNOWN = re.compile("|".join(sorted(_FUNCTIONS, reverse=True)) + r"|[-+*/(), .n\[\]\d]")


def number(text):
    whole, _, part = text.replace("\u202f", " ").rpartition(" ")
    return F(whole or 0) + F(part)


def signed(text):
    return -number(text[1:]) if text.startswith("-") else number(text)


def _calculation(rule):
    """The right side of a rule as an expression of its printed numbers, with each number and what it is."""
    right = re.sub(_NOTES, "", re.split(" [=≥] ", rule, maxsplit=1)[1])
    numbers = []

    def note(found):
        # a share, a root, and the slip as the design gives it are not rounded
        exact = right[: found.start()].endswith(("/ ", "sqrt ", "arc "))
        numbers.append((float(number(found.group(1))), None if exact else "deg" if found.group(2) else "length"))
        return f"(n[{len(numbers) - 1}])"

    def applied(found):
        function, square, minus, argument = found.groups()
        return f"{function}({minus}{argument})" + (" ** 2" if square else "")

    expression = re.sub(rf"\b({NUMBER})(°?)", note, right)
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
            half = float(STEP["deg" if kind == "deg" else unit]) / 2
            moved = [at([*plain[:place], value + way * half, *plain[place + 1 :]]) for way in (-1, 1)]
            room += max(abs(one - result) for one in moved)
    return result, 1.05 * room + 1e-9  # a little over, as all may be off at once


def check_formula(size, unit):
    """A size against its own rule worked out, and against what is printed for it."""
    right, room = worked_out(size.rule, unit)
    assert abs(right - float(size.value)) <= room, f"{size.name}: {size.rule}: {right} against {size.value}"
    check_printed(size)


def check_printed(size):
    """A size against the number that its rule begins with."""
    printed = float(signed(re.match(rf"-?(?:{NUMBER})", size.rule).group()))
    step, value = float(STEP[size.unit]), float(size.value)
    if size.least:  # never written smaller than it is
        assert value - 1e-5 * step <= printed < value + step, size.rule
    else:
        assert abs(printed - value) <= step / 2 + 1e-9, size.rule
