"""Boxes whose sides lean, from the planes of two neighbouring sides."""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import asind, cosd, deg, sin_off_square, sind, slope_in_plane, tand
from furnlib.teach.proof import RHO, SIGMA, TANGENTS, Claim, Derivation, Expression
from furnlib.trade.leg.tapered_box import mitred_dihedral, shared_tilt, sin_mitred_tilt, tan_box_mitre

THETA = sp.Symbol("theta", positive=True)


def _by_tangent(angle: Expression) -> dict[Expression, Expression]:
    tangent = TANGENTS[tand(angle)]
    length = sp.sqrt(1 + tangent**2)
    return {tand(angle): tangent, sind(angle): tangent / length, cosd(angle): 1 / length}


_ALGEBRA = {**_by_tangent(RHO), **_by_tangent(SIGMA)}
"""Sine and cosine of a slope by its tangent, so that a difference of both kinds is algebra."""
_SLOPES = (
    "A side that slopes by α from plumb and faces the plan direction τ has this normal, pointing out, this level edge"
    " and this line straight up its face:",
    r"\vec n = (\cos\alpha\cos\tau,\ \cos\alpha\sin\tau,\ -\sin\alpha), \qquad"
    r" \vec e = (-\sin\tau,\ \cos\tau,\ 0), \qquad \vec u = \vec n\times\vec e",
)
_CORNER = (
    "Two neighbours meet in a line that is square to both normals. With mitres they meet in the points that lie"
    " equally deep below both faces, which is a plane whose normal is the difference of theirs:",
    r"\vec l = \vec n_1\times\vec n_2, \qquad \vec m = \vec n_1 - \vec n_2",
)


class _Corner:
    """Two neighbouring sides of a box, each given by its slope and the plan direction that it faces."""

    def __init__(self, first: tuple[Expression, Expression], second: tuple[Expression, Expression]) -> None:
        self.normals = tuple(
            sp.Matrix([sp.cos(slope) * sp.cos(faces), sp.cos(slope) * sp.sin(faces), -sp.sin(slope)])
            for slope, faces in (first, second)
        )
        self._edges = tuple(sp.Matrix([-sp.sin(faces), sp.cos(faces), 0]) for _, faces in (first, second))
        self._line = self.normals[0].cross(self.normals[1])

    def tan_box_mitre(self, side: int) -> Expression:
        """Tangent of the angle in a face from straight up to the corner line, towards the corner."""
        towards = self._edges[side] * (1 if side == 0 else -1)
        straight_up = self.normals[side].cross(self._edges[side])
        return sp.simplify(self._line.dot(towards) / self._line.dot(straight_up))

    def between_normals(self) -> Expression:
        """Cosine of the angle between the normals."""
        return sp.simplify(self.normals[0].dot(self.normals[1]))

    def sin_tilt_squared(self) -> Expression:
        """Square of the share of a normal that is square to the mitre's plane."""
        mitre = self.normals[0] - self.normals[1]
        return sp.simplify(self.normals[0].dot(mitre) ** 2 / mitre.dot(mitre))


def derive_tapered_box() -> Derivation:
    """Derive mitre, tilt and dihedral of boxes with equal slopes, butted or mitred, and with two slopes.

    Returns:
        The derivation, in slope rho, second slope sigma and half turn theta (degrees).

    Example:
        >>> derive_tapered_box()["tapered_box.mitre"].difference
        0
    """
    slope, half_turn, quarter = deg(RHO), deg(THETA), sp.pi / 2
    equal = _Corner((slope, -half_turn), (slope, half_turn))
    square = _Corner((slope, 0), (slope, quarter))
    unequal = _Corner((slope, 0), (deg(SIGMA), quarter))
    return Derivation(
        "Gauge, tilt and dihedral of boxes whose sides slope",
        (_SLOPES, _CORNER),
        (
            Claim(
                "tapered_box.mitre",
                "Equal slopes: the end of a side runs off square by the mitre.",
                r"\tan g",
                tan_box_mitre(RHO, THETA),
                equal.tan_box_mitre(0),
                "From the line of the corner, with sides that face half a turn to either hand of it: its share along"
                " the edge over its share straight up the face,",
            ),
            Claim(
                "tapered_box.tilt",
                "Equal slopes: the blade tilts by less than half the turn.",
                r"\sin^2 t",
                sin_mitred_tilt(RHO, THETA) ** 2,
                equal.sin_tilt_squared(),
                "From the plane of the mitre: the share of a side's normal along the normal of that plane, squared"
                " (from 0 to 90 a sine is told by its square),",
            ),
            Claim(
                "tapered_box.dihedral",
                "The two mitres share the inside angle.",
                r"\cos\delta",
                sp.expand(cosd(mitred_dihedral(asind(sin_mitred_tilt(RHO, THETA))))),
                -equal.between_normals(),
                "From the normals: the inside angle is 180° less the angle between them,",
            ),
            Claim(
                "tapered_box.butt_tilt",
                "A butted end, square in plan, takes a small tilt even so.",
                r"\sin t",
                sin_off_square(tand(RHO), tand(RHO)),
                square.between_normals(),
                "From the normals: the end lies in the inner face of its neighbour, so the saw's plane has the"
                " neighbour's normal, and its share of the side's own is the sine,",
                _ALGEBRA,
            ),
            Claim(
                "tapered_box.front_mitre",
                "Two slopes: front and back are swung by the slope of the ends.",
                r"\tan g_{front}",
                slope_in_plane(tand(SIGMA), tand(RHO)),
                unequal.tan_box_mitre(0),
                "From the line of the corner, in the front's face,",
                _ALGEBRA,
            ),
            Claim(
                "tapered_box.end_mitre",
                "Two slopes: the ends are swung by the slope of front and back.",
                r"\tan g_{end}",
                slope_in_plane(tand(RHO), tand(SIGMA)),
                unequal.tan_box_mitre(1),
                "From the same line, in the end's face,",
                _ALGEBRA,
            ),
            Claim(
                "tapered_box.shared_tilt",
                "Two slopes: both mitres take one tilt.",
                r"\cos 2t",
                sp.expand(cosd(2 * shared_tilt(RHO, SIGMA))),
                sp.simplify(1 - 2 * unequal.sin_tilt_squared()),
                "From the plane of the mitre, as before: 1 less twice the square of the sine,",
                _ALGEBRA,
            ),
            Claim(
                "tapered_box.unequal_dihedral",
                "Two slopes: the inside angle.",
                r"\cos\delta",
                sp.expand(cosd(mitred_dihedral(shared_tilt(RHO, SIGMA)))),
                -unequal.between_normals(),
                "From the normals, as before,",
                _ALGEBRA,
            ),
            Claim(
                "tapered_box.one_mitre",
                "Where the two slopes are equal, the mitre is that of four equal sides.",
                r"\tan g",
                slope_in_plane(tand(RHO), tand(RHO)),
                tan_box_mitre(RHO, sp.Integer(45)),
                "From the library's formula for equal sides with half a turn of 45°,",
                _ALGEBRA,
            ),
            Claim(
                "tapered_box.one_tilt",
                "And so is the tilt.",
                r"\cos 2t",
                sp.expand(cosd(2 * shared_tilt(RHO, RHO))),
                1 - 2 * sin_mitred_tilt(RHO, sp.Integer(45)) ** 2,
                "From the same formula,",
                _ALGEBRA,
            ),
        ),
    )
