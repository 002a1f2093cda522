"""A scalar in gives a Python float out, an array gives an array: one test over every numeric function."""

from __future__ import annotations

import inspect
from fractions import Fraction
from itertools import product

import numpy as np
import pytest

from furnlib.base import angles
from furnlib.trade.leg import end_cut as end_cut_module
from furnlib.trade.leg import lean as lean_module
from furnlib.trade.leg import seat as seat_module
from furnlib.trade.leg.end_cut import ORIENTATIONS, EndCut, end_cut
from furnlib.trade.leg.lean import Lean

ANGLE = np.array([-75.0, -20.0, -0.0, 8.0, 45.0])
LEAN = np.array([0.0, 5.0, 12.5, 30.0, 70.0])
TURN = np.array([-170.0, -35.0, 0.0, 90.0, 135.0])
RATIO = np.array([-1.0, -0.3, 0.0, 0.5, 1.0])
TANGENT = np.array([-2.0, -0.25, 0.0, 0.1, 1.5])
LENGTH = np.array([1.0, 48.0, 151.5, 400.0, 1e4])
PITCH = np.array([-4.0, 0.0, 3.0, 5.5, 8.0])
_lean = Lean.from_rake_splay
LAST_BIT = 6e-14  # two sine routines may differ in the last bit, which of an angle near 180 is 3e-14


def _names(lean):
    return lean.rake_deg, lean.splay_deg, lean.total_lean_deg, lean.sight_line_deg


def _settings(cut: EndCut):
    faces = (cut.front_down, cut.side_down)
    settings = (v for f in faces for v in (f.mitre_deg, f.tilt_deg))
    corners = (v for corner in cut.level_corners for v in corner)
    off = (cut.twist_deg, cut.corner_deg, cut.front_edge_deg, cut.side_edge_deg)
    return *settings, *corners, *cut.edge_offsets, *off, cut.axis_length, cut.blank_length


def _of_seat(rake, splay, height, thickness, pitch):
    leg = seat_module.seat_leg(_lean(rake, splay), height, thickness, pitch, "front")
    return *_names(leg.seat_lean), *leg.tilts, leg.axis_length, leg.length_in_seat


def _of(name):
    return lambda rake, splay: getattr(Lean.from_rake_splay(rake, splay), name)


def _length(name):
    return lambda rake, splay, height: getattr(Lean.from_rake_splay(rake, splay), name)(height)


NUMERIC = {
    "deg": (angles.deg, ANGLE),
    "sind": (angles.sind, ANGLE),
    "cosd": (angles.cosd, ANGLE),
    "tand": (angles.tand, ANGLE),
    "asind": (angles.asind, RATIO),
    "atand": (angles.atand, TANGENT),
    "atan2d": (angles.atan2d, TANGENT, RATIO),
    "square_root": (angles.square_root, LENGTH),
    "tan_total_lean": (lean_module.tan_total_lean, TANGENT, RATIO),
    "sight_line": (lean_module.sight_line, TANGENT, RATIO),
    "axis_stretch": (lean_module.axis_stretch, TANGENT, RATIO),
    "tan_parts": (lean_module.tan_parts, LENGTH, TURN),
    "Lean.from_rake_splay": (lambda *a: _names(Lean.from_rake_splay(*a)), ANGLE, ANGLE[::-1]),
    "Lean.from_total_lean": (lambda *a: _names(Lean.from_total_lean(*a)), LEAN, TURN),
    "Lean.from_foot_run": (lambda *a: _names(Lean.from_foot_run(*a)), LENGTH, TANGENT, RATIO),
    "Lean.rake_deg": (_of("rake_deg"), ANGLE, ANGLE[::-1]),
    "Lean.splay_deg": (_of("splay_deg"), ANGLE, ANGLE[::-1]),
    "Lean.total_lean_deg": (_of("total_lean_deg"), ANGLE, ANGLE[::-1]),
    "Lean.sight_line_deg": (_of("sight_line_deg"), ANGLE, ANGLE[::-1]),
    "Lean.axis_length": (_length("axis_length"), ANGLE, LEAN, LENGTH),
    "Lean.foot_run": (_length("foot_run"), ANGLE, LEAN, LENGTH),
    "slope_in_plane": (angles.slope_in_plane, TANGENT, RATIO),
    "sin_off_square": (angles.sin_off_square, TANGENT, RATIO),
    "face_slopes": (
        lambda a, b: tuple(slope for o in ORIENTATIONS for slope in end_cut_module.face_slopes(a, b, o)),
        TANGENT,
        RATIO,
    ),
    "sin_tilt": (end_cut_module.sin_tilt, TANGENT, RATIO),
    "extra_length": (end_cut_module.extra_length, LENGTH, TANGENT, RATIO),
    "edge_offset": (lambda p, q, f, s: end_cut_module.edge_offset((p, q), f, s), TANGENT, RATIO, LENGTH, ANGLE),
    "level_corner": (end_cut_module.level_corner, TANGENT, RATIO, LENGTH, ANGLE),
    "end_cut": (
        lambda r, s, h, w: tuple(
            size for o in ORIENTATIONS for size in _settings(end_cut(Lean.from_rake_splay(r, s), h, w, o))
        ),
        ANGLE,
        LEAN,
        LENGTH,
        LENGTH,
    ),
    "tan_pitched": (seat_module.tan_pitched, TANGENT, RATIO, np.array([-0.6, 0.0, 0.1, 0.2, 0.3]), LEAN / 100 + 0.5),
    "lean_in_seat": (lambda r, s, p: _names(seat_module.lean_in_seat(_lean(r, s), p, "front")), ANGLE, LEAN, PITCH),
    "lean_in_room": (lambda r, s, p: _names(seat_module.lean_in_room(_lean(r, s), p, "rear")), ANGLE, LEAN, PITCH),
    "mortise_height": (seat_module.mortise_height, LENGTH, LENGTH, PITCH),
    "feet_apart": (seat_module.feet_apart, LENGTH, LENGTH, PITCH, TANGENT, RATIO),
    "two_tilts": (lambda r, s: tuple(seat_module.two_tilts(_lean(r, s))), ANGLE, LEAN),
    "lean_from_footprint": (
        lambda h, t, f: _names(seat_module.lean_from_footprint(h, (t, t), (f, f))), LENGTH, LENGTH, LENGTH[::-1],
    ),
    "pitch_from_heights": (seat_module.pitch_from_heights, LENGTH, LENGTH * 0.9 + 1, LENGTH + 2e4),
    "pitch_from_foot": (lambda r, h, f: seat_module.pitch_from_foot(r, h, f, "rear"), ANGLE, LENGTH, TANGENT),
    "seat_leg": (_of_seat, ANGLE, LEAN, LENGTH, LENGTH, PITCH),
}  # fmt: skip

OTHER_SHAPES = {
    "is_symbol": "tells, computes nothing",
    "Lean.from_names": "takes single numbers only",
}


def _results(name, *arguments):
    function = NUMERIC[name][0]
    result = function(*arguments)
    return result if isinstance(result, tuple) else (result,)


@pytest.mark.parametrize("name", NUMERIC)
def test_scalar_gives_float_array_gives_array_and_the_values_are_the_same(name):
    samples = NUMERIC[name][1:]
    swept = _results(name, *samples)
    single = [_results(name, *(float(x) for x in row)) for row in zip(*samples, strict=True)]
    for position, column in enumerate(swept):
        assert isinstance(column, np.ndarray)
        assert column.shape == samples[0].shape
        values = [row[position] for row in single]
        assert {type(value) for value in values} == {float}
        np.testing.assert_allclose(column, values, rtol=1e-14, atol=LAST_BIT)


@pytest.mark.parametrize("name", [name for name, (_, *samples) in NUMERIC.items() if len(samples) > 1])
def test_a_row_against_a_column_fills_a_table(name):
    _, first, second, *rest = NUMERIC[name]
    fixed = [float(samples[3]) for samples in rest]
    table = np.broadcast_arrays(*_results(name, first[:, None], second[:3], *fixed), np.empty((5, 3)))[:-1]
    for i, j in product(range(5), range(3)):
        single = _results(name, float(first[i]), float(second[j]), *fixed)
        np.testing.assert_allclose([column[i, j] for column in table], single, rtol=1e-14, atol=LAST_BIT)


def test_exact_fractions_become_floats_on_entering_geometry():
    lean = Lean.from_foot_run(Fraction(100), Fraction(25, 2), Fraction(-5))
    height, square = Fraction(604, 4), Fraction(48)
    results = (*_names(lean), lean.axis_length(height), *lean.foot_run(height))
    results += _settings(end_cut(lean, height, square))
    assert {type(value) for value in results} == {float}


def _public_functions(module):
    for name, thing in vars(module).items():
        if name.startswith("_") or getattr(thing, "__module__", None) != module.__name__:
            continue
        if inspect.isfunction(thing):
            yield name
    if module is lean_module:
        yield from (f"Lean.{name}" for name in vars(Lean) if not name.startswith("_") and not _is_field(name))


def _is_field(name):
    return name in Lean.__dataclass_fields__


def test_no_function_is_left_out():
    public = {
        name for module in (angles, lean_module, end_cut_module, seat_module) for name in _public_functions(module)
    }
    assert public == set(NUMERIC) | set(OTHER_SHAPES)
    assert not set(NUMERIC) & set(OTHER_SHAPES)
