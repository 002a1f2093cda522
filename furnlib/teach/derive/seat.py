"""A leg under a pitched seat, and a drilling table with two hinges: one direction, turned."""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import asind, atand, cosd, deg, sind, tand
from furnlib.teach.proof import HEIGHT, RHO, SIGMA, TANGENTS, Claim, Derivation, Expression
from furnlib.trade.leg.lean import Lean
from furnlib.trade.leg.seat import End, feet_apart, mortise_height, tan_pitched, two_tilts

_PITCH, _HALF = sp.symbols("p q", positive=True)
_TAN_RAKE, _TAN_SPLAY = tand(RHO), tand(SIGMA)
_SIN_PITCH, _COS_PITCH = sind(_PITCH), cosd(_PITCH)
_STRETCH = sp.sqrt(1 + TANGENTS[_TAN_RAKE] ** 2)
_ALGEBRA = {
    **TANGENTS,
    cosd(RHO): 1 / _STRETCH,
    sind(RHO): TANGENTS[_TAN_RAKE] / _STRETCH,
    _COS_PITCH: (1 - _HALF**2) / (1 + _HALF**2),
    _SIN_PITCH: 2 * _HALF / (1 + _HALF**2),
}
"""The pitch enters by q, the tangent of its half, so that its sine and cosine are fractions."""


def _about_x(angle_deg: Expression) -> Expression:
    """Turn about the side-to-side line, front edge up."""
    c, s = cosd(angle_deg), sind(angle_deg)
    return sp.Matrix([[1, 0, 0], [0, c, -s], [0, s, c]])


def _about_y(angle_deg: Expression) -> Expression:
    """Turn about the fore-and-aft line, right edge up."""
    c, s = cosd(angle_deg), sind(angle_deg)
    return sp.Matrix([[c, 0, -s], [0, 1, 0], [s, 0, c]])


def derive_seat() -> Derivation:
    """Derive what is drilled into a pitched seat, and its lengths, from directions and points that are turned.

    Returns:
        The derivation, in rake rho, splay sigma and pitch p (degrees) and lengths.

    Example:
        >>> derive_seat()["seat.drill_rake"].difference
        0
    """
    return Derivation(
        "A leg under a pitched seat",
        (
            (
                "Go one unit down along a leg. A front leg goes tan ρ to the front, a rear leg tan ρ to the back."
                " With x to the right, y to the front and z up,",
                r"\vec a_{front} = (\tan\sigma,\ \tan\rho,\ -1), \qquad \vec a_{rear} = (\tan\sigma,\ -\tan\rho,\ -1)",
            ),
            (
                "Pitched by p the seat is turned about the side-to-side line, front edge up. Turning all of it back"
                " until the seat is level shows what the drill sees:",
                r"\vec a' = \begin{pmatrix} 1 & 0 & 0 \\ 0 & \cos p & \sin p \\ 0 & -\sin p & \cos p \end{pmatrix}"
                r"\vec a",
            ),
        ),
        (*_claims_of_a_leg("front"), *_claims_of_a_leg("rear"), *_claims_of_the_way_back(), *_claims_of_lengths()),
    )


def _claims_of_a_leg(end: End) -> tuple[Claim, ...]:
    """What is claimed of a front leg; of a rear leg it is the same with the pitch the other way round."""
    out, word, suffix = (1, "less", "") if end == "front" else (-1, "plus", "_rear")
    axis = _about_x(_PITCH).T * sp.Matrix([_TAN_SPLAY, out * _TAN_RAKE, -1])
    rake, splay = tan_pitched(_TAN_RAKE, _TAN_SPLAY, out * _SIN_PITCH, _COS_PITCH)
    drilled = deg(RHO) - out * deg(_PITCH)
    sine, cosine = sp.expand_trig(sp.sin(drilled)), sp.expand_trig(sp.cos(drilled))
    return (
        Claim(
            f"seat.drill_rake{suffix}",
            f"The rake of a {end} leg, measured from the seat.",
            r"\tan r'",
            rake,
            out * axis[1] / -axis[2],
            "From the turned vector: outward along the seat over down from it,",
            _ALGEBRA,
        ),
        Claim(
            f"seat.drill_splay{suffix}",
            f"The splay of a {end} leg, measured from the seat.",
            r"\tan s'",
            splay,
            axis[0] / -axis[2],
            "From the turned vector: sideways over down from the seat,",
            _ALGEBRA,
        ),
        Claim(
            f"seat.drill_rake_angle{suffix}",
            f"So the drill rake of a {end} leg is its rake {word} the pitch, exactly.",
            r"\tan r'",
            rake,
            sine / cosine,
            f"From the angle itself: sine over cosine of rake {word} pitch, written out,",
            _ALGEBRA,
        ),
        Claim(
            f"seat.drill_splay_angle{suffix}",
            "And its splay changes too, by the cosine of the rake over that of the drill rake.",
            r"\tan s'",
            splay,
            _TAN_SPLAY * cosd(RHO) / cosine,
            "From tan s cos r / cos r', the lower cosine written out,",
            _ALGEBRA,
        ),
    )


def _claims_of_the_way_back() -> tuple[Claim, ...]:
    """There and back, and the pitch that is found from heights or from a foot."""
    drilled = tan_pitched(_TAN_RAKE, _TAN_SPLAY, _SIN_PITCH, _COS_PITCH)
    rake, splay = tan_pitched(*drilled, -_SIN_PITCH, _COS_PITCH)
    front, rear, spacing, run = sp.symbols("H_f H_b m f", positive=True)
    found = deg(atand(run / HEIGHT)) - deg(RHO)
    pitched = sp.expand_trig(sp.sin(found)), sp.expand_trig(sp.cos(found))
    return (
        Claim(
            "seat.rake_back",
            "Turned back by the same pitch, the drill rake is the rake in the room again.",
            r"\tan\rho",
            rake,
            _TAN_RAKE,
            "From the leg that was drilled,",
            _ALGEBRA,
        ),
        Claim(
            "seat.splay_back",
            "And the drill splay is the splay in the room again.",
            r"\tan\sigma",
            splay,
            _TAN_SPLAY,
            "From the leg that was drilled,",
            _ALGEBRA,
        ),
        Claim(
            "seat.pitch_from_heights",
            "A seat pitched by asin((Hf - Hb) / m) has its rear mortise at the height Hb.",
            "H_b",
            mortise_height(front, spacing, asind((front - rear) / spacing)),
            rear,
            "From the tape measure,",
        ),
        Claim(
            "seat.pitch_from_foot",
            "A leg drilled at ρ puts its foot f out below a height h where the pitch is atan(f / h) - ρ; for a rear leg"
            " the pitch, and with it the turn, is the other way round.",
            r"\tan r'",
            tan_pitched(run / HEIGHT, _TAN_SPLAY, *pitched)[0],
            _TAN_RAKE,
            "From the hole, which was drilled at ρ,",
            _ALGEBRA,
        ),
    )


def _claims_of_lengths() -> tuple[Claim, ...]:
    """What a tape finds, from lines that meet the seat's surfaces and the floor."""
    thick, front_height, spacing = sp.symbols("T H_f m", positive=True)
    tan_rear = sp.Symbol(r"\tan\rho_b", positive=True)
    seat = _about_x(_PITCH)
    axis = sp.Matrix([_TAN_SPLAY, _TAN_RAKE, -1])
    through = thick / axis.dot(seat * sp.Matrix([0, 0, -1])) * axis
    front = sp.Matrix([0, 0, front_height])
    rear = front + seat * sp.Matrix([0, -spacing, 0])
    front_foot, rear_foot = front + front[2] * axis, rear + rear[2] * sp.Matrix([_TAN_SPLAY, -tan_rear, -1])
    return (
        Claim(
            "seat.length_in_seat",
            "Inside the seat's thickness it is the drill total lean that stretches the leg.",
            "L_T^2",
            Lean(*tan_pitched(_TAN_RAKE, _TAN_SPLAY, _SIN_PITCH, _COS_PITCH)).axis_length(thick) ** 2,
            through.dot(through),
            "From the line of the leg in the room, followed until it has gone the thickness square to the seat; the"
            " squares are compared, both lengths being above 0,",
            _ALGEBRA,
        ),
        Claim(
            "seat.mortise_height",
            "The rear mortise is the lower one.",
            "H_b",
            mortise_height(front_height, spacing, _PITCH),
            rear[2],
            "From the point itself: m back along the underside of the level seat, then turned with it,",
        ),
        Claim(
            "seat.feet_apart",
            "The feet stand apart by the mortises in plan and both foot runs.",
            "D",
            feet_apart(front_height, spacing, _PITCH, _TAN_RAKE, tan_rear),
            front_foot[1] - rear_foot[1],
            "From both lines, followed from their mortises down to the floor,",
        ),
    )


def derive_two_tilts() -> Derivation:
    """Derive both tilts of a drilling table, for either hinge underneath, by turning the leg until it is plumb.

    Returns:
        The derivation, in drill rake rho and drill splay sigma (degrees).

    Example:
        >>> derive_two_tilts()["two_tilts.level_second"].difference
        0
    """
    tilts = two_tilts(Lean(_TAN_RAKE, _TAN_SPLAY))
    plumb, seen_from_side = sp.Matrix([0, 0, -1]), sp.Matrix([_TAN_RAKE, -1])
    seen_from_front = sp.Matrix([_TAN_SPLAY, -1])
    level = _about_y(-tilts.level_second_deg) * _about_x(-tilts.level_first_deg)
    carried = _about_x(-tilts.carried_first_deg) * _about_y(-tilts.carried_second_deg)
    return Derivation(
        "Two tilts of a drilling table",
        (
            (
                "The drill is plumb and the seat is tilted under it, its outward edges down. Go one unit down from the"
                " seat along the leg that is wanted; both tilts together must bring this direction plumb:",
                r"\vec a = (\tan\sigma,\ \tan\rho,\ -1)",
            ),
            (
                "The turn of the upper hinge acts on the seat first. With X about the side-to-side line by the first"
                " tilt and Y about the fore-and-aft line by the second, the fore-and-aft hinge underneath and on top,",
                r"T_{level} = Y X, \qquad T_{carried} = X Y, \qquad T\,\vec a \parallel (0,\ 0,\ -1)",
            ),
        ),
        (
            Claim(
                "two_tilts.level_second",
                "Fore-and-aft hinge underneath, level: the first tilt is the rake, the second no more than the splay.",
                r"\tan t_2",
                sp.tan(deg(tilts.level_second_deg)),
                _TAN_SPLAY / sp.sqrt(seen_from_side.dot(seen_from_side)),
                "From the direction once the first tilt has taken the rake out of it: what is left sideways, over what"
                " the side view had in length,",
            ),
            Claim(
                "two_tilts.carried_first",
                "Fore-and-aft hinge on top, carried: the second tilt is the splay, the first no more than the rake.",
                r"\tan t_1",
                sp.tan(deg(tilts.carried_first_deg)),
                _TAN_RAKE / sp.sqrt(seen_from_front.dot(seen_from_front)),
                "From the direction once the tilt on top has taken the splay out of it: what is left outward, over what"
                " the front view had in length,",
            ),
            *_claims_of_the_drill("level", "Fore-and-aft hinge underneath", level.T * plumb),
            *_claims_of_the_drill("carried", "Fore-and-aft hinge on top", carried.T * plumb),
        ),
    )


def _claims_of_the_drill(key: str, words: str, drill: Expression) -> tuple[Claim, Claim]:
    """The plumb drill as the tilted seat sees it, at the tilts that the library gives."""
    why = "From the leg that is wanted,"
    return (
        Claim(
            f"two_tilts.{key}_rake",
            f"{words}: seen from the seat, the plumb drill has the rake that was wanted.",
            r"\tan\rho",
            drill[1] / -drill[2],
            _TAN_RAKE,
            why,
        ),
        Claim(
            f"two_tilts.{key}_splay",
            f"{words}: and it has the splay that was wanted.",
            r"\tan\sigma",
            drill[0] / -drill[2],
            _TAN_SPLAY,
            why,
        ),
    )
