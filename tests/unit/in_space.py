"""Legs, seats and holes in space, by vectors, planes and rotations: the witness for what the plan works out.

Across runs from the left edge as seen from the front, back from the front edge, up from the floor.
Nothing here is the library's own: only numpy and scipy.
"""

from __future__ import annotations

from math import radians, tan

import numpy as np
from scipy.spatial.transform import Rotation

ACROSS, BACK, UP = np.eye(3)


def unit(vector):
    return np.asarray(vector, dtype=float) / np.linalg.norm(vector)


def outward(position):
    """Signs across and back; the sideways of a leg in the middle is to the right."""
    return (-1 if "left" in position else 1), (-1 if "front" in position else 1)


def axis(position, rake_deg, splay_deg):
    """Direction from top to foot: both angles are seen square-on, so they are slopes off plumb."""
    across, back = outward(position)
    return unit([across * tan(radians(splay_deg)), back * tan(radians(rake_deg)), -1.0])


def untwisted(direction):
    """The shortest turn from plumb to a direction."""
    hinge = np.cross(-UP, direction)
    size = np.linalg.norm(hinge)
    angle = np.arctan2(size, direction @ -UP)
    return Rotation.from_rotvec(hinge / size * angle if size else np.zeros(3))


def faces(position, direction, orientation="untwisted"):
    """Outward normals of the front (or rear) and the side face of a square leg."""
    across, back = outward(position)
    if orientation == "untwisted":
        turn = untwisted(direction)
        return turn.apply(back * BACK), turn.apply(across * ACROSS)
    if orientation == "front_level":  # the front face holds the level line across
        front = np.cross(direction, ACROSS)
        front = unit(front * np.sign(front @ BACK) * back)
        side = np.cross(direction, front)
        return front, unit(side * np.sign(side @ ACROSS) * across)
    if orientation == "side_level":
        side = np.cross(direction, BACK)
        side = unit(side * np.sign(side @ ACROSS) * across)
        front = np.cross(direction, side)
        return unit(front * np.sign(front @ BACK) * back), side
    plumb = unit(np.cross(direction, UP))  # a face that stands plumb along the sight line
    lean = np.cross(direction, plumb)
    if orientation == "sightline_corner":
        turn = Rotation.from_rotvec(direction * radians(45))
        plumb, lean = turn.apply(plumb), turn.apply(lean)
    return lean, plumb


def on_plane(point, direction, origin, normal):
    """Where a line meets a plane."""
    return point + direction * ((origin - point) @ normal) / (direction @ normal)


def corners(position, direction, square, at, normal=UP, orientation="untwisted"):
    """Where the long edges meet a plane through a point of the axis: outer, its neighbour in front, and round."""
    front, side = faces(position, direction, orientation)
    edges = [square / 2 * (f * front + s * side) for f, s in ((1, 1), (1, -1), (-1, -1), (-1, 1))]
    return np.array([on_plane(at + edge, direction, at, normal) for edge in edges])


def rim(direction, diameter, at, normal=UP, points=720):
    """Where the surface of a round leg meets a plane through a point of its axis."""
    turn = untwisted(direction)
    angles = np.linspace(0, 2 * np.pi, points, endpoint=False)
    lines = turn.apply(np.stack([np.cos(angles), np.sin(angles), 0 * angles], axis=-1)) * diameter / 2
    return np.array([on_plane(at + line, direction, at, normal) for line in lines])


class Seat:
    """A board turned about its front edge, its underside's front edge lying in the plane back = 0."""

    def __init__(self, piece):
        overall, seat, self.mortises = piece.design.overall, piece.design.seat, piece.design.legs.mortises
        self.width, self.depth, self.thickness = float(overall.width), float(overall.depth), float(seat.thickness)
        self.turn = Rotation.from_euler("x", -seat.pitch, degrees=True)  # the back edge goes down
        low = self.turn.apply([0.0, 0.0, -self.thickness])
        self.corner = np.array([0.0, 0.0, float(overall.height) + low[2]])
        self.normal = self.turn.apply(UP)

    def under(self, across, back):
        """A place on the underside, measured along it."""
        return self.corner + self.turn.apply([across, back, 0.0])

    def top(self, position):
        """Where a leg's axis comes out below."""
        across, back = outward(position)
        out = across * float(self.mortises.out) if " " in position else 0.0
        along = float(self.mortises.rear) if back > 0 else -float(self.mortises.front)
        return self.under(self.width / 2 + out, self.depth / 2 + along)

    def inside(self, direction):
        """How far a line in this direction runs inside the board."""
        return self.thickness / abs(direction @ self.normal)

    def drilled(self, direction):
        """The same direction as the board sees it: across, back, square to its surface."""
        return self.turn.inv().apply(direction)


def foot_below(top, direction):
    """Where a line from a point meets the floor."""
    return on_plane(top, direction, np.zeros(3), UP)


def top_under_case(leg, height):
    return np.array([*leg.top, float(height)])


def plane_gap(feet, heights, number):
    """Gap under one foot with the other three down: its height above the plane through their ends."""
    others = [i for i in range(4) if i != number]
    ends = np.array([[*feet[i], 1.0] for i in range(4)])
    tilt = np.linalg.solve(ends[others], np.asarray(heights, dtype=float)[others])
    return heights[number] - ends[number] @ tilt


def daylight_scatter(feet, rises):
    """Greatest standard deviation of that gap where each end slips by so much for itself."""
    shares = [[plane_gap(feet, np.eye(4)[slipped], number) for slipped in range(4)] for number in range(4)]
    return float(np.sqrt((np.square(shares) * np.square(rises)).sum(axis=1)).max())
