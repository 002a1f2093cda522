"""Trigonometry in degrees, vectors and planes.

Witnesses: surds from the half square and the half equilateral triangle, and scipy's rotations.
"""

from __future__ import annotations

import math
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from furnlib.base.angles import (
    asind,
    atan2d,
    atand,
    cosd,
    deg,
    is_symbol,
    sind,
    square_root,
    tand,
)

REPO = Path(__file__).parents[2]
HALF_ROOT_2, HALF_ROOT_3 = math.sqrt(2) / 2, math.sqrt(3) / 2
NO_TANGENT = None
steady = settings(deadline=None, derandomize=True)
vectors = arrays(float, 3, elements=st.floats(-10, 10).map(lambda x: round(x, 6)))

EDGES = [
    # degrees, sine, cosine, tangent
    (0, 0, 1, 0),
    (30, 0.5, HALF_ROOT_3, 1 / math.sqrt(3)),
    (45, HALF_ROOT_2, HALF_ROOT_2, 1),
    (60, HALF_ROOT_3, 0.5, math.sqrt(3)),
    (90, 1, 0, NO_TANGENT),
    (120, HALF_ROOT_3, -0.5, -math.sqrt(3)),
    (180, 0, -1, 0),
    (-30, -0.5, HALF_ROOT_3, -1 / math.sqrt(3)),
    (-45, -HALF_ROOT_2, HALF_ROOT_2, -1),
    (-60, -HALF_ROOT_3, 0.5, -math.sqrt(3)),
    (-90, -1, 0, NO_TANGENT),
    (-180, 0, -1, 0),
]


@pytest.mark.parametrize(("angle", "sine", "cosine", "tangent"), EDGES)
def test_the_edges_of_the_circle(angle, sine, cosine, tangent):
    assert sind(angle) == pytest.approx(sine, abs=1e-15)
    assert cosd(angle) == pytest.approx(cosine, abs=1e-15)
    assert deg(angle) == pytest.approx(angle / 180 * math.pi, abs=1e-15)
    if tangent is not NO_TANGENT:
        assert tand(angle) == pytest.approx(tangent, rel=1e-15, abs=1e-15)


@pytest.mark.parametrize(("angle", "sine", "cosine", "tangent"), EDGES)
def test_the_angle_comes_back_from_its_ratio(angle, sine, cosine, tangent):
    if abs(angle) <= 90:
        assert asind(sine) == pytest.approx(angle, abs=1e-13)
    if abs(angle) < 90:
        assert atand(tangent) == pytest.approx(angle, abs=1e-13)
    assert atan2d(sine, cosine) == pytest.approx(180 if angle == -180 else angle, abs=1e-13)


@steady
@given(st.floats(-720, 720))
def test_sine_and_cosine_lie_on_the_unit_circle(angle):
    assert sind(angle) ** 2 + cosd(angle) ** 2 == pytest.approx(1, abs=1e-15)


@steady
@given(st.floats(-89.999, 89.999))
def test_there_and_back_through_the_tangent(angle):
    assert atand(tand(angle)) == pytest.approx(angle, rel=1e-13, abs=1e-13)


ONE_VALUE = (sind, cosd, tand, asind, atand, square_root)


@pytest.mark.parametrize("function", ONE_VALUE)
@pytest.mark.parametrize("kind", [int, float, Fraction, np.float64, np.int64, np.array, bool])
def test_any_kind_of_single_number_gives_a_python_float(function, kind):
    assert type(function(kind(1))) is float
    assert function(kind(1)) == function(1.0)


@pytest.mark.parametrize("function", ONE_VALUE)
def test_a_list_is_an_array_and_an_empty_array_stays_empty(function):
    assert np.array_equal(function([0.0, 1.0]), function(np.array([0.0, 1.0])))
    assert function(np.array([])).shape == (0,)


@pytest.mark.parametrize("ratio", [1.0000001, -1.0000001])
def test_no_angle_has_a_sine_past_1(ratio):
    with pytest.raises(ValueError, match=r"domain|range"):
        asind(ratio)


# Direction of a plan step


@pytest.mark.parametrize(
    ("sideways", "forward", "direction"),
    [
        (0.0, 0.0, 0),
        (-0.0, 0.0, 0),
        (0.0, -0.0, 0),
        (-0.0, -0.0, 0),
        (0.0, 5.0, 0),
        (-0.0, 5.0, 0),
        (1.0, 1.0, 45),
        (2.0, 0.0, 90),
        (2.0, -0.0, 90),
        (3.0, -3.0, 135),
        (0.0, -1.0, 180),
        (-0.0, -1.0, 180),
        (-3.0, -3.0, -135),
        (-2.0, 0.0, -90),
        (-2.0, -0.0, -90),
        (-1.0, 1.0, -45),
        (0, 0, 0),
        (0, -1, 180),
    ],
)
def test_a_step_has_one_direction_and_a_plumb_one_none(sideways, forward, direction):
    assert atan2d(sideways, forward) == pytest.approx(direction, abs=1e-13)
    assert math.copysign(1, atan2d(sideways, forward)) == (1 if direction >= 0 else -1)
    swept = atan2d(np.array([sideways, sideways]), np.array([forward, forward]))
    assert swept == pytest.approx([direction, direction], abs=1e-13)


@pytest.mark.parametrize("sideways", [-1e-300, -1e-20, -1e-17, np.array([-1e-17, -1e-20])])
def test_a_direction_a_hair_short_of_minus_180_is_180(sideways):
    assert np.all(atan2d(sideways, -1.0) == 180.0)


@steady
@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_a_direction_lies_above_minus_180_up_to_180(sideways, forward):
    assert -180 < atan2d(sideways, forward) <= 180


# Symbols

rho, sigma = sympy.symbols("rho sigma", positive=True)


@pytest.mark.parametrize(
    ("function", "name"), [(sind, "sin"), (cosd, "cos"), (tand, "tan")], ids=["sind", "cosd", "tand"]
)
def test_an_angle_in_symbols_keeps_an_exact_pi(function, name):
    assert function(rho) == getattr(sympy, name)(sympy.pi * rho / 180)
    assert function(rho).subs(rho, 60) == getattr(sympy, name)(sympy.pi / 3)


@pytest.mark.parametrize(("function", "name"), [(asind, "asin"), (atand, "atan")], ids=["asind", "atand"])
def test_a_ratio_in_symbols_gives_degrees_in_symbols(function, name):
    assert function(rho) == getattr(sympy, name)(rho) * 180 / sympy.pi


def test_roots_and_directions_come_through_in_symbols():
    assert square_root(rho) == sympy.sqrt(rho)
    assert square_root(rho**2) == rho
    assert atan2d(rho, sigma) == sympy.atan2(rho, sigma) * 180 / sympy.pi
    assert atan2d(rho, 1.0).subs(rho, 1).evalf() == pytest.approx(45)
    assert deg(rho) == sympy.pi * rho / 180


@pytest.mark.parametrize(
    ("result", "exact"),
    [
        (lambda: deg(sympy.Integer(30)), sympy.pi / 6),
        (lambda: sind(sympy.Integer(30)), sympy.Rational(1, 2)),
        (lambda: square_root(sympy.Integer(2)), sympy.sqrt(2)),
        (lambda: atand(sympy.Integer(1)), sympy.Integer(45)),
    ],
    ids=["deg", "sind", "square_root", "atand"],
)
def test_a_sympy_number_stays_exact(result, exact):
    assert result() == exact
    assert is_symbol(result())


def test_a_symbol_is_told_from_a_number():
    assert is_symbol(rho)
    assert is_symbol(1.0, rho + 1)
    assert not is_symbol(1.0, np.array([1.0]), Fraction(1, 2), "rho")
    assert not is_symbol()


def test_asking_for_symbols_does_not_import_sympy():
    lines = (
        "import sys; from furnlib.base import angles",
        "assert angles.is_symbol(1.0) is False",
        "assert angles.sind(30.0) > 0.4 and angles.atan2d(1.0, 1.0) > 44",
        "print('sympy' in sys.modules)",
    )
    run = subprocess.run(
        [sys.executable, "-c", "\n".join(lines)], cwd=REPO, capture_output=True, text=True, check=False
    )
    assert (run.stdout.strip(), run.stderr) == ("False", "")
