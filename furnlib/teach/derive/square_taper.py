"""The tapered face of a square leg as a plane, and the stops that hold the leg to the saw.

In the leg's own frame: z down the leg from where the taper begins, x out of the face that is cut, y
across that face.
"""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import square_root
from furnlib.teach.proof import Claim, Derivation, Expression
from furnlib.trade.leg.square_taper import jig_setting, tan_face_taper

_TOP, _FOOT, _LENGTH, _REACH, _SLOPE = sp.symbols("w_t w_f L x a", positive=True)


def _face(top: Expression, foot: Expression) -> Expression:
    """Normal of the plane through a level line at the top of a taper and one at its foot."""
    across, down = sp.Matrix([0, 1, 0]), sp.Matrix([foot - top, 0, _LENGTH])
    return across.cross(down)


def _nearer(off_before: int) -> Expression:
    """How much nearer to the cut the far stop is: both touch the face opposite, seen from the plane that is cut."""
    cut = sp.Matrix([1, 0, _SLOPE]) / square_root(1 + _SLOPE * _SLOPE)
    near = sp.Matrix([-_TOP / 2, 0, 0])
    far = sp.Matrix([-_TOP / 2 + off_before * _SLOPE * _REACH, 0, _REACH])
    return cut.dot(far - near)


def derive_square_taper() -> Derivation:
    """Derive the angle of a tapered face and the setting of the jig that saws it.

    Returns:
        The derivation, in the squares w_t and w_f at top and foot, the tapered length L, the distance
        x to the far stop and the tangent a of a face's angle.

    Example:
        >>> derive_square_taper()["square_taper.angle"].difference
        0
    """
    both = _face(_TOP / 2, _FOOT / 2)
    inner = _face(_TOP / 2, _FOOT - _TOP / 2)
    return Derivation(
        "A square tapered leg",
        (
            (
                "A tapered face is the plane through its level line where the taper begins and the one at the foot;"
                " its normal is square to both directions.",
                r"\vec n = \vec y \times (x_f - x_t,\ 0,\ L)",
            ),
            (
                "At the saw both stops touch the face opposite, the near one where the taper begins, the far one x"
                " further along the leg. The cut's own normal is",
                r"\vec m = \frac{(1,\ 0,\ a)}{\sqrt{1 + a^2}}",
            ),
        ),
        (
            Claim(
                "square_taper.angle",
                "With all four faces tapered each takes half of what the leg loses, over the tapered length.",
                "a_4",
                tan_face_taper(_TOP, _FOOT, _LENGTH, 2),
                both[2] / both[0],
                "From the normal of a face that goes from half the top to half the foot, its part down the leg over its"
                " part out of the face,",
                {},
            ),
            Claim(
                "square_taper.angle_inner",
                "With two inner faces tapered each takes all of it.",
                "a_2",
                tan_face_taper(_TOP, _FOOT, _LENGTH, 1),
                inner[2] / inner[0],
                "From a face whose opposite one stays straight, so that it ends the foot's whole square from that one,",
                {},
            ),
            Claim(
                "square_taper.jig",
                "With a straight face against the stops the far one stands nearer to the cut by one taper.",
                "j_1",
                jig_setting(_REACH, _SLOPE, 1),
                _nearer(0),
                "From the two places touched, the step between them along the normal of the cut,",
                {},
            ),
            Claim(
                "square_taper.jig_doubled",
                "With a face against them that is tapered already it stands nearer by exactly twice that.",
                "j_2",
                jig_setting(_REACH, _SLOPE, 2),
                _nearer(1),
                "From the same, the far stop having followed the first taper in by a x,",
                {},
            ),
        ),
    )
