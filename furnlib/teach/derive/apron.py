"""A leg flush with leaning aprons, from the planes of the two aprons."""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import sin_off_square, slope_in_plane, tand
from furnlib.teach.proof import RHO, SIGMA, Claim, Derivation
from furnlib.trade.leg.apron import between_faces, bottom_edge, leaning_width


def derive_apron() -> Derivation:
    """Derive the backing of a flush leg, and the end, width and edges of the aprons beside it.

    Returns:
        The derivation, in rake rho, splay sigma (degrees), level square w_level, depth d and top length l_top.

    Example:
        >>> derive_apron()["apron.backing"].difference
        0
    """
    tan_r, tan_s = tand(RHO), tand(SIGMA)
    level_square, depth, top = sp.symbols("w_level d l_top", positive=True)
    right, front, up = (sp.Matrix(axis) for axis in ([1, 0, 0], [0, 1, 0], [0, 0, 1]))
    corner, mirrored = sp.Matrix([tan_s, tan_r, -1]), sp.Matrix([-tan_s, tan_r, -1])
    front_face, side_face = right.cross(corner), corner.cross(front)
    down_the_face = front_face.cross(right)
    beside_a_plumb_face = front.cross(side_face)  # where a plumb face meets the leg's side
    ends = [start + depth * line for start, line in ((top * right, corner), (0 * right, mirrored))]
    return Derivation(
        "The leg flush with leaning aprons",
        (
            (
                "Go one unit down along the outer corner of a front right leg. The face of the front apron holds that"
                " line and the level line from left to right; the face of the side apron holds it and the level line"
                " from back to front. Their normals, pointing out, are cross products:",
                r"\vec e = (\tan\sigma,\ \tan\rho,\ -1), \qquad \vec f = \vec x\times\vec e = (0,\ 1,\ \tan\rho),"
                r" \qquad \vec g = \vec e\times\vec y = (1,\ 0,\ \tan\sigma)",
            ),
        ),
        (
            Claim(
                "apron.backing",
                "The outer faces of the leg are more than square by the backing.",
                r"\sin\beta",
                sin_off_square(tan_r, tan_s),
                front_face.dot(side_face) / (front_face.norm() * side_face.norm()),
                "From the normals: the inside angle is 180° less the angle between them, so the sine of what it has"
                " over 90° is the cosine of theirs,",
            ),
            Claim(
                "apron.between_faces",
                "A level square of wood measures less from face to face.",
                "c",
                between_faces(level_square, tan_r),
                (level_square * front).dot(front_face) / front_face.norm(),
                "From the front normal: of the level step from the back face to the front face, the share along it,",
            ),
            Claim(
                "apron.between_sides",
                "From side to side it is the splay that counts.",
                "c",
                between_faces(level_square, tan_s),
                (level_square * right).dot(side_face) / side_face.norm(),
                "From the side normal in the same way,",
            ),
            Claim(
                "apron.end_mitre",
                "The end of a leaning apron runs off square by less than the splay.",
                r"\tan m",
                slope_in_plane(tan_s, tan_r),
                corner.dot(right) / corner.dot(down_the_face) * down_the_face.norm(),
                "From the corner line: its share along the apron over its share straight down the face,",
            ),
            Claim(
                "apron.end_mitre_plumb",
                "The end of an apron that is kept plumb runs off square by the splay itself.",
                r"\tan m",
                slope_in_plane(tan_s, sp.Integer(0)),
                beside_a_plumb_face.dot(right) / beside_a_plumb_face.dot(-up),
                "From the line in which a plumb face meets the leg's side face, y × g,",
            ),
            Claim(
                "apron.width",
                "A leaning apron is wider than it is deep.",
                "w",
                leaning_width(depth, tan_r),
                depth * down_the_face.norm() / down_the_face.dot(-up),
                "From the line straight down the face: its length for a drop of d,",
            ),
            Claim(
                "apron.bottom_length",
                "Its bottom edge is longer than the top edge by what both legs run out.",
                r"l_{bottom}",
                bottom_edge(top, depth, tan_s),
                (ends[0] - ends[1]).dot(right),
                "From the corner lines of a pair of legs, the one mirrored, a depth d below the top edge,",
            ),
        ),
    )
