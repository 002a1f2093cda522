"""A beam of one section that bends to and fro: its frequency, and what its ends decide."""

from __future__ import annotations

import sympy as sp

from furnlib.teach.proof import Claim, Derivation, Expression
from furnlib.trade.leg.whirling import Ends, uniform_whirling

_B, _X, _LENGTH, _BENDING, _MASS = sp.symbols("b x L B m", positive=True)
_SIZES = sp.symbols("A_1:5", real=True)
_Z = sp.Symbol("z", positive=True)
_WAVES = (sp.sin(_Z), sp.cos(_Z), sp.sinh(_Z), sp.cosh(_Z))
_HELD: dict[Ends, tuple[tuple[int, int], tuple[int, int]]] = {
    "pinned-pinned": ((0, 2), (0, 2)),
    "fixed-pinned": ((0, 1), (0, 2)),
    "fixed-free": ((0, 1), (2, 3)),
}
"""Which two derivatives vanish at the first end and which at the last: 0 the step, 1 slope, 2 moment, 3 force."""


def end_conditions() -> dict[Ends, Expression]:
    """What must vanish for a beam to swing between its ends: the determinant of the four conditions on its shape.

    Returns:
        For each sort of ends an expression in b whose first root above 0 is the mode number.

    Example:
        >>> end_conditions()["fixed-pinned"]
        sin(b)*cosh(b) - cos(b)*sinh(b)
    """
    return {
        ends: _determinant([(order, sp.Integer(0)) for order in first] + [(order, _B) for order in last])
        for ends, (first, last) in _HELD.items()
    }


def _determinant(held: list[tuple[int, Expression]]) -> Expression:
    table = sp.Matrix([[wave.diff(_Z, order).subs(_Z, place) for wave in _WAVES] for order, place in held])
    return sp.factor_terms(sp.simplify(table.det())).as_coeff_Mul()[1]  # without a number before it


def derive_whirling() -> Derivation:
    """Derive the first bending frequency of a beam of one section.

    Returns:
        The derivation, in the mode number b, the length L, the bending stiffness B = E I and the mass m of
        each unit of length.

    Example:
        >>> derive_whirling()["whirling.uniform"].difference
        0
    """
    shape = sum(size * wave.subs(_Z, _B * _X / _LENGTH) for size, wave in zip(_SIZES, _WAVES, strict=True))
    squared = _BENDING * sp.simplify(sp.diff(shape, _X, 4) / shape) / _MASS
    sine = sp.sin(sp.pi * _X / _LENGTH)
    bent, moved = (sp.integrate(part**2, (_X, 0, _LENGTH)) for part in (sp.diff(sine, _X, 2), sine))
    told = {ends: sp.latex(condition) for ends, condition in end_conditions().items()}
    return Derivation(
        "A beam that bends to and fro",
        (
            (
                "A leg that goes round bowed is flung outward by its mass; what holds it back is the fourth derivative"
                " of its shape times the bending stiffness B = E I. They are equal at one speed ω, and that is the"
                " frequency with which it would swing to and fro:",
                r"B\,\frac{d^4 w}{dx^4} = m\,\omega^2\,w",
            ),
            (
                "So the shape must come back when it is differentiated four times. Four waves do:",
                r"w = A_1\sin\tfrac{bx}L + A_2\cos\tfrac{bx}L + A_3\sinh\tfrac{bx}L + A_4\cosh\tfrac{bx}L",
            ),
            (
                "The ends decide b. Each end sets two of step, slope, moment and force to nothing: four conditions on"
                " four sizes, and a shape is left only where their determinant is 0. Between two centres, with the"
                " first end in a chuck, and with nothing at the last:",
                r",\qquad ".join(f"{condition} = 0" for condition in told.values()),
            ),
        ),
        (
            Claim(
                "whirling.uniform",
                "The frequency goes with the root of stiffness over mass, and with one over the length squared.",
                r"\omega",
                uniform_whirling(_B, _LENGTH, _BENDING, _MASS),
                sp.sqrt(squared),
                "From the four waves in the equation,",
            ),
            Claim(
                "whirling.energy",
                "Between two centres, where b = π, the energies of bending and of motion say the same.",
                r"\omega",
                uniform_whirling(sp.pi, _LENGTH, _BENDING, _MASS),
                sp.sqrt(_BENDING * bent / (_MASS * moved)),
                "In the half wave the energy bent up at the turn is the energy of motion midway:"
                r" $\omega^2 = B\int w''^2 dx\,/\,m\int w^2 dx$, so",
            ),
        ),
    )
