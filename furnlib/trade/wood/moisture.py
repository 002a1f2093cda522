"""How damp wood becomes in the air of a room, and whether a board has come to rest there.

Wood left long enough in one air settles at the moisture content that balances it: some 6 % in a heated
winter, 12 % in a damp summer. Kiln-dried wood does so as well; it does not stay as dry as it left the kiln.
A finish makes it take longer and does not change where it settles.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from furnlib.base.angles import Value
from furnlib.base.guards import DesignError, require_between, require_finite, require_positive

Coefficients = tuple[tuple[float, float, float], ...]
SETTLES: Mapping[str, Coefficients] = {
    "C": ((349, 1.29, 0.0135), (0.805, 7.36e-4, -2.73e-6), (6.27, -0.00938, -3.03e-4), (1.91, 0.0407, -2.93e-4)),
    "F": ((330, 0.452, 0.00415), (0.791, 4.63e-4, -8.44e-7), (6.34, 7.75e-4, -9.35e-5), (1.09, 0.0284, -9.04e-5)),
}
"""For each scale of temperature T, of W, K, K1 and K2 in turn: what stands without T, with T and with T²."""
_PRINTED = {"C": (-10 / 9, 280 / 3), "F": (30.0, 200.0)}  # temperatures of the table, 30 to 200 °F
_DAYS, _STILL, _NEAR = 7, 0.5, 1.0  # common practice, no source


def settled_moisture(humidity: Value, molar_weight: Value, solution: Value, first: Value, second: Value) -> Value:
    """Moisture content that balances an air, by the water in solution and in two layers.

    M = 1800/W [K h / (1 - K h) + (K1 K h + 2 K1 K2 K² h²) / (1 + K1 K h + K1 K2 K² h²)].

    Args:
        humidity: relative humidity h as a share, from 0 to 1; number, array or symbol.
        molar_weight: of the wood that holds one place for water, W; number, array or symbol.
        solution: activity of the dissolved water over h, K; number, array or symbol.
        first: balance of the first layer of water with the dissolved water, K1; number, array or symbol.
        second: balance of the second layer with the first, K2; number, array or symbol.

    Returns:
        Moisture content, in %.

    Source:
        Derived in `teach.derive.derive_moisture`, after Hailwood and Horrobin (1946).

    Example:
        >>> settled_moisture(0.5, 300.0, 0.8, 6.0, 2.0)
        11.04
    """
    dissolved = solution * humidity
    one, two = first * dissolved, first * second * dissolved * dissolved
    return 1800 / molar_weight * (dissolved / (1 - dissolved) + (one + 2 * two) / (1 + one + two))


def balance_moisture(temperature: Value, humidity_percent: Value, scale: Literal["C", "F"] = "C") -> Value:
    """Moisture content at which wood settles in a room.

    Each scale has its own set of coefficients; the two sets agree within 0.02 between 40 and 100 °F.

    Args:
        temperature: of the air, by the scale, from 30 to 200 (-1.1 to 93.3 in °C), the printed range of the
            table; number or array.
        humidity_percent: relative humidity, in %, from 5 to 95; number or array.
        scale: C or F.

    Returns:
        Moisture content, in %, within 0.1 of the table.

    Raises:
        DesignError: when the scale is another, or the air lies outside the printed range.

    Source:
        Wood Handbook, FPL-GTR-282, chapter 4, Equation 4-5, read as quoted in two public notes; FPL-RN-0268.
        The table it stands for is Table 4-2 of FPL-GTR-190.

    Example:
        >>> round(balance_moisture(70.0, 50.0, "F"), 1), round(balance_moisture(21.1, 50.0), 1)
        (9.2, 9.2)
    """
    if scale not in SETTLES:
        raise DesignError(f"The scale of temperature is '{scale}'; it must be C or F.")
    low, high = _PRINTED[scale]
    require_between(f"temperature in °{scale}", temperature, low, high, "the table is printed no further", ends=True)
    humid = "the table is printed no further, and drier or wetter air is no room for furniture"
    require_between("relative humidity in %", humidity_percent, 5, 95, humid, ends=True)
    terms = (a + b * temperature + c * temperature * temperature for a, b, c in SETTLES[scale])
    return settled_moisture(humidity_percent / 100, *terms)


@dataclass(frozen=True)
class Readiness:
    """Whether wood that was left in the shop has come to rest at the moisture it is wanted at.

    Args:
        ready: True where it may be worked.
        drift: last reading less the one a week or more before it, a plain number of %; None where none is so old.
        off_target: last reading less the target, a plain number of %.
        line: the same in one line, beginning with go or wait.
    """

    ready: bool
    drift: float | None
    off_target: float
    line: str


def readiness(days: Sequence[float], readings: Sequence[float], target: float) -> Readiness:
    """Go or wait, from dated readings of a moisture meter.

    Go when two readings 7 days apart differ by less than 0.5 % and the last is within 1 % of the target;
    the last reading is held against the youngest that is at least 7 days older.

    Args:
        days: when each reading was taken, in days from any first day, each later than the one before; a
            plain number.
        readings: moisture content of the same board, a plain number of %, above 0.
        target: moisture content wanted, in %, from 0 to 30; the middle of what the room will have.

    Returns:
        The answer, with the two differences it rests on.

    Raises:
        DesignError: when there are no readings, not one for each day, or the days do not run forward.

    Source:
        Common practice, no source.

    Example:
        >>> readiness([0, 7, 14], [10.4, 9.1, 8.8], 8.5).line
        'go: -0.3 % in 7 days, +0.3 % off 8.5 %'
        >>> readiness([0, 7], [10.4, 9.1], 8.5).line
        'wait: -1.3 % in 7 days, +0.6 % off 8.5 %'
    """
    if not len(days) == len(readings) > 0:
        raise DesignError(f"There are {len(readings)} readings for {len(days)} days; give one or more, one for a day.")
    when, read = np.array(days, float), np.array(readings, float)
    require_finite("day of a reading", when)
    if np.any(np.diff(when) <= 0):
        raise DesignError("The days of the readings do not run forward; write the readings in the order of their days.")
    require_positive("reading", read, "set the meter to the species and read again")
    require_between("target moisture", target, 0, 30, "indoors it lies between 6 and 12")
    off = round(float(read[-1]) - target, 9)  # so that 8.8 less 8.3 is a half
    near, far = abs(off) <= _NEAR, f"{off:+.1f} % off {target:g} %"
    old = np.flatnonzero(when[-1] - when >= _DAYS)
    if not len(old):
        return Readiness(False, None, off, f"wait: no reading is {_DAYS} days older than the last; {far}")
    drift = round(float(read[-1] - read[old[-1]]), 9)
    ready = near and abs(drift) < _STILL
    line = f"{'go' if ready else 'wait'}: {drift:+.1f} % in {when[-1] - when[old[-1]]:g} days, {far}"
    return Readiness(ready, drift, off, line)
