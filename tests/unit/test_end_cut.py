"""Level end cuts of a square leg.

The witness is a solid: a plumb square stick whose four faces and four long edges are tipped by
scipy's rotation about the level line square to its sight line, and cut by two level planes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from furnlib.base.guards import DesignError
from furnlib.trade.leg.end_cut import (
    cut_slope,
    edge_offset,
    end_cut,
    extra_length,
    level_corner,
    sin_tilt,
)
from furnlib.trade.leg.lean import Lean

steady = settings(deadline=None, derandomize=True)
leans = st.floats(-75, 75)
X, Y, Z = np.eye(3)


@dataclass(frozen=True)
class Tipped:
    """A square stick tipped out of plumb: what a square, a bevel gauge and a tape find on it."""

    turned: Rotation
    height: float
    square: float

    def mitre_deg(self, out_of_face, across):
        """Angle in a face between the floor's pencil line and a line square across the stick."""
        line = np.cross(self.turned.apply(out_of_face), Z)
        across, along = self.turned.apply(across), self.turned.apply(Z)
        return math.degrees(math.atan2(abs(line @ along), abs(line @ across)))

    def tilt_deg(self, out_of_face):
        """How far the floor is from square to a face."""
        normal = self.turned.apply(out_of_face)
        return abs(90 - math.degrees(math.atan2(np.linalg.norm(np.cross(normal, Z)), normal @ Z)))

    def reach(self, sideways, fore_aft, level):
        """How far down the stick a long edge meets a level plane, from square across at the top."""
        across = self.turned.apply([sideways, fore_aft, 0.0])
        return (level - across[2]) / self.turned.apply(-Z)[2]

    def corner(self, sideways, fore_aft, level):
        """Where in the room a long edge meets a level plane."""
        return self.turned.apply([sideways, fore_aft, -self.reach(sideways, fore_aft, level)])

    def blank(self):
        """From the highest to the lowest of the eight corners, along the stick."""
        half = self.square / 2
        edges = product((-half, half), repeat=2)
        reaches = [self.reach(*edge, level) for edge in edges for level in (0.0, -self.height)]
        return max(reaches) - min(reaches)


def tip(rake, splay, height, square):
    run = np.array([math.tan(math.radians(splay)), math.tan(math.radians(rake)), 0.0])
    level_line = np.cross(-Z, run)
    length = np.linalg.norm(level_line)
    total = math.atan(np.linalg.norm(run))
    turned = Rotation.from_rotvec(level_line / length * total) if length else Rotation.identity()
    return Tipped(turned, height, square)


def compare(rake, splay, height, square):
    cut = end_cut(Lean.from_rake_splay(rake, splay), height, square)
    solid = tip(rake, splay, height, square)
    for setting, outs, across in ((cut.front_down, (Y, -Y), X), (cut.side_down, (X, -X), Y)):
        for out_of_face in outs:
            assert setting.mitre_deg == pytest.approx(solid.mitre_deg(out_of_face, across), abs=1e-9)
            assert setting.tilt_deg == pytest.approx(solid.tilt_deg(out_of_face), abs=1e-9)
    assert cut.blank_length == pytest.approx(solid.blank(), rel=1e-9, abs=1e-9)
    foot = solid.turned.apply(-Z)
    assert cut.axis_length == pytest.approx(height / -foot[2], rel=1e-9)


TABLE = [-60.0, -25.0, -8.0, -0.0, 0.0, 1e-7, 6.0, 8.0, 20.0, 45.0, 75.0]


@pytest.mark.parametrize("rake", TABLE)
@pytest.mark.parametrize("splay", TABLE)
def test_settings_and_blank_are_those_of_the_solid(rake, splay):
    compare(rake, splay, 151.0, 48.0)


@steady
@given(leans, leans, st.floats(10, 1000), st.floats(10, 100))
def test_settings_and_blank_are_those_of_any_solid(rake, splay, height, square):
    compare(rake, splay, height, square)


@steady
@given(leans, leans, st.floats(-50, 50), st.floats(-50, 50))
def test_a_long_edge_meets_the_floor_where_it_does_on_the_solid(rake, splay, fore_aft, sideways):
    solid = tip(rake, splay, 151.0, 48.0)
    expected = solid.corner(sideways, fore_aft, -151.0) - solid.corner(0.0, 0.0, -151.0)
    tangents = math.tan(math.radians(rake)), math.tan(math.radians(splay))
    found_fore_aft, found_sideways = level_corner(*tangents, fore_aft, sideways)
    assert found_sideways == pytest.approx(expected[0], rel=1e-9, abs=1e-9)
    assert found_fore_aft == pytest.approx(expected[1], rel=1e-9, abs=1e-9)
    past_the_axis = solid.reach(sideways, fore_aft, -151.0) - solid.reach(0.0, 0.0, -151.0)
    assert edge_offset(*tangents, fore_aft, sideways) == pytest.approx(past_the_axis, rel=1e-9, abs=1e-9)


@steady
@given(leans, leans)
def test_the_two_tilts_and_the_lean_make_one_whole(rake, splay):
    lean = Lean.from_rake_splay(rake, splay)
    cut = end_cut(lean, 100.0, 40.0)
    squares = [math.sin(math.radians(s.tilt_deg)) ** 2 for s in (cut.front_down, cut.side_down)]
    assert sum(squares) + math.cos(math.radians(lean.total_lean_deg)) ** 2 == pytest.approx(1, abs=1e-14)


@pytest.mark.parametrize("lean_deg", [-30.0, -8.0, 8.0, 30.0, 60.0])
def test_a_leg_that_leans_one_way_only_needs_one_setting(lean_deg):
    # common practice, no source: either swing the mitre or tilt the blade, by the lean itself
    cut = end_cut(Lean.from_rake_splay(lean_deg, 0.0), 151.0, 48.0)
    assert (cut.side_down.mitre_deg, cut.side_down.tilt_deg) == pytest.approx((abs(lean_deg), 0), abs=1e-12)
    assert (cut.front_down.mitre_deg, cut.front_down.tilt_deg) == pytest.approx((0, abs(lean_deg)), abs=1e-12)
    cut = end_cut(Lean.from_rake_splay(0.0, lean_deg), 151.0, 48.0)
    assert (cut.front_down.mitre_deg, cut.front_down.tilt_deg) == pytest.approx((abs(lean_deg), 0), abs=1e-12)
    assert (cut.side_down.mitre_deg, cut.side_down.tilt_deg) == pytest.approx((0, abs(lean_deg)), abs=1e-12)


def test_a_plumb_leg_is_cut_square():
    cut = end_cut(Lean.from_rake_splay(0.0, -0.0), 151.0, 48.0)
    for setting in (cut.front_down, cut.side_down):
        assert (setting.mitre_deg, setting.tilt_deg) == (0, 0)
    assert cut.blank_length == cut.axis_length == 151


def test_the_faces_are_named_and_change_places_when_rake_and_splay_do():
    one, other = (end_cut(Lean.from_rake_splay(*pair), 151.0, 48.0) for pair in ((8.0, 6.0), (6.0, 8.0)))
    assert (one.front_down.face, one.side_down.face) == ("front", "side")
    assert one.front_down.mitre_deg == pytest.approx(other.side_down.mitre_deg, abs=1e-13)
    assert one.front_down.tilt_deg == pytest.approx(other.side_down.tilt_deg, abs=1e-13)
    assert one.blank_length == pytest.approx(other.blank_length, rel=1e-15)


def test_tilt_is_neither_rake_nor_splay_when_a_leg_leans_both_ways():
    # "mitre = splay, tilt = rake" is the common slip: the tilt is less
    cut = end_cut(Lean.from_rake_splay(25.0, 20.0), 151.0, 48.0)
    assert 25 - cut.front_down.tilt_deg > 1
    assert 20 - cut.side_down.tilt_deg > 1


@steady
@given(leans, leans, st.floats(0.01, 100))
def test_lengths_scale_and_settings_stay(rake, splay, k):
    lean = Lean.from_rake_splay(rake, splay)
    one, larger = end_cut(lean, 151.0, 48.0), end_cut(lean, k * 151.0, k * 48.0)
    assert larger.blank_length == pytest.approx(k * one.blank_length, rel=1e-13)
    assert larger.front_down.mitre_deg == one.front_down.mitre_deg
    assert larger.side_down.tilt_deg == one.side_down.tilt_deg


@steady
@given(leans, leans)
def test_settings_have_no_sign(rake, splay):
    cuts = [
        end_cut(Lean.from_rake_splay(fore * rake, side * splay), 151.0, 48.0) for fore in (1, -1) for side in (1, -1)
    ]
    assert len({cut.blank_length for cut in cuts}) == 1
    for face in ("front_down", "side_down"):
        assert len({(getattr(c, face).mitre_deg, getattr(c, face).tilt_deg) for c in cuts}) == 1
        assert getattr(cuts[0], face).mitre_deg >= 0
        assert getattr(cuts[0], face).tilt_deg >= 0


def test_the_closed_formulas_keep_the_sign_and_take_symbols():
    # 3, 4 and 12 make 13: tangents 3/12 and 4/12 have 12/13 for the cosine of the total lean
    assert sin_tilt(3 / 12, 4 / 12) == pytest.approx(3 / 13, rel=1e-15)
    assert sin_tilt(-4 / 12, 3 / 12) == pytest.approx(-4 / 13, rel=1e-15)
    assert cut_slope(-0.25) == -0.25
    assert extra_length(48.0, 3 / 12, -4 / 12) == pytest.approx(28, rel=1e-15)
    r, s, w = sympy.symbols("r s w", positive=True)
    assert sympy.simplify(sin_tilt(r, s) - r / sympy.sqrt(1 + r**2 + s**2)) == 0
    assert sympy.simplify(extra_length(w, r, s) - w * (r + s)) == 0


def test_arrays_broadcast_through_lean_height_and_square():
    rakes = np.array([[0.0], [8.0], [-20.0]])
    cut = end_cut(Lean.from_rake_splay(rakes, 6.0), np.array([151.0, 400.0]), 48.0)
    assert cut.blank_length.shape == (3, 2)
    assert cut.front_down.tilt_deg.shape == (3, 1)
    for i, rake in enumerate(rakes[:, 0]):
        for j, height in enumerate((151.0, 400.0)):
            assert cut.blank_length[i, j] == pytest.approx(tip(rake, 6.0, height, 48.0).blank(), rel=1e-12)


@pytest.mark.parametrize("bad", [0, -48.0, float("nan"), float("inf"), np.array([48.0, 0.0])])
def test_height_and_square_are_above_0(bad):
    lean = Lean.from_rake_splay(8.0, 6.0)
    with pytest.raises(DesignError, match="The height of the leg is"):
        end_cut(lean, bad, 48.0)
    with pytest.raises(DesignError, match="The leg square is"):
        end_cut(lean, 151.0, bad)
