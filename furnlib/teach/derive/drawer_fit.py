"""A drawer in its opening: the gap over it by the season, how it nods, how it racks, when it binds."""

from __future__ import annotations

import sympy as sp

from furnlib.base.angles import deg
from furnlib.teach.proof import Claim, Derivation
from furnlib.trade.drawer.droop import inside_at_fall, top_fall
from furnlib.trade.drawer.gaps import gap_at, gap_to_leave, size_for_gap
from furnlib.trade.drawer.play import least_inside, moved_across, turn_in_play_deg
from furnlib.trade.drawer.racking import inside_to_lock, inside_to_slide, pull_needed

_HEIGHT, _PLAY, _INSIDE, _OUT, _FALL, _LENGTH = sp.symbols("h v m e f L", positive=True)
_WIDTH, _OFFSET, _FRICTION, _DRAG, _ANGLE, _HALF = sp.symbols("w a mu R theta t", positive=True)


def derive_gaps() -> Derivation:
    """Derive the gap over a drawer from the chain of sizes between runner and kicker.

    Returns:
        The derivation, in the opening O, the gap below b, the film f, the gap g, the height h and the
        stretch s, which is 1 + q.

    Example:
        >>> derive_gaps()["gaps.size"].difference
        0
    """
    opening, below, gap, film, grown = sp.symbols("O b g f q", positive=True)
    chain = below + film + _HEIGHT * (1 + grown) + film + gap
    size, over = (sp.solve(sp.Eq(chain, opening), unknown)[0] for unknown in (_HEIGHT, gap))
    return Derivation(
        "The gap over a drawer through the year",
        (
            (
                "From the runner up: the gap below, a film of paint, the wood as it stands, a film, the gap over it.",
                rf"O = {sp.latex(chain)}, \qquad s = 1 + q",
            ),
        ),
        (
            Claim(
                "gaps.size",
                "The height that leaves a wanted gap in a season.",
                "h",
                size_for_gap(opening, below, gap, film, 1 + grown),
                size,
                "From the chain, solved for the height,",
            ),
            Claim(
                "gaps.season",
                "The gap that a given height leaves.",
                "g",
                gap_at(opening, below, _HEIGHT, film, 1 + grown),
                over,
                "From the chain, solved for the gap,",
            ),
            Claim(
                "gaps.leave",
                "What to leave today is the least gap and all that the wood will grow.",
                "g_0",
                gap_to_leave(gap, _HEIGHT * grown),
                sp.expand(chain - chain.subs(grown, 0) + gap),
                "From the opening that closes at the dampest, less all that stands in it today but the gap,",
            ),
        ),
    )


def derive_droop() -> Derivation:
    """Derive how an open drawer nods, from its corners turned about the front edge of the runner.

    Returns:
        The derivation, in the side's height h, the play v over it, the lengths m inside, e outside and L
        in all, the fall f, the angle theta and t, the tangent of its half.

    Example:
        >>> derive_droop()["droop.turn"].difference
        0
    """
    angle = deg(_ANGLE)
    sine, cosine = 2 * _HALF / (1 + _HALF**2), (1 - _HALF**2) / (1 + _HALF**2)
    in_halves = {sp.sin(angle): sine, sp.cos(angle): cosine}
    turned = sp.rot_axis3(angle)[:2, :2]  # clockwise
    rear, upper, lower = (
        (turned * sp.Matrix(corner))[1] for corner in ([-_INSIDE, _HEIGHT], [_OUT, _HEIGHT], [_OUT, 0])
    )
    short = sp.expand(sp.numer(sp.together(_HEIGHT + _PLAY - rear.subs(in_halves))))
    square, linear, constant = sp.Poly(short, _HALF).all_coeffs()
    under = sp.expand(linear**2 / 4 - square * constant)
    fallen = sp.sin(deg(turn_in_play_deg(_HEIGHT, _PLAY + _FALL, _LENGTH)))
    play = _LENGTH * sine + _HEIGHT * cosine - _HEIGHT - _FALL
    return Derivation(
        "The nod of an open drawer, and in plan its racking",
        (
            (
                "Turned about the front edge of the runner, its rear upper corner stands at the height of the kicker,",
                rf"{sp.latex(rear.subs(angle, sp.Symbol('theta')))} = h + v, \qquad t = \tan\tfrac{{\theta}}{{2}}:"
                rf" \qquad {sp.latex(sp.collect(short, _HALF))} = 0",
            ),
        ),
        (
            Claim(
                "droop.turn",
                "A drawer meets its kicker at this angle; with the width for the height it is the skew.",
                r"\tan\tfrac{\theta}{2}",
                sp.tan(deg(turn_in_play_deg(_HEIGHT, _PLAY, _INSIDE)) / 2),
                (-linear / 2 - sp.sqrt(under)) / square,
                "Of the two roots the lesser, for the drawer rests where it first meets the kicker:",
            ),
            Claim(
                "droop.tips",
                "With less than this inside, no kicker holds it.",
                "m",
                least_inside(_HEIGHT, _PLAY),
                sp.solve(under, _INSIDE)[0],
                "Where the two roots are one,",
            ),
            Claim(
                "droop.front_fall",
                "The front's lower edge falls; in plan, so much does one front corner lead the other.",
                "f",
                moved_across(_OUT, _ANGLE),
                -lower,
                "From the lower corner at (e, 0), turned,",
            ),
            Claim(
                "droop.top_fall",
                "Its upper corner falls a little further.",
                "f'",
                top_fall(_OUT, _HEIGHT, _ANGLE),
                _HEIGHT - upper,
                "From the upper corner at (e, h), turned,",
            ),
            Claim(
                "droop.inside",
                "What is inside when the front has fallen by f.",
                "m",
                inside_at_fall(_HEIGHT, _PLAY, _LENGTH, _FALL),
                (_HEIGHT + _PLAY - _HEIGHT * sp.cos(angle)) / sp.sin(angle),
                "With e sin θ = f the angle solves L sin θ + h cos θ = h + v + f; the kicker gives m,",
                {fallen: sine, **in_halves, _PLAY: play},
            ),
        ),
    )


def derive_racking() -> Derivation:
    """Derive when a drawer binds from a pull off its middle, by the balance of forces.

    Returns:
        The derivation, in the width w, the length m inside, the pull's distance a from the middle, the
        friction mu, the drag R, the pull P and the force N at either place.

    Example:
        >>> derive_racking()["racking.pull"].difference
        0
    """
    pull, press = sp.symbols("P N", real=True)
    forces = (
        (_OFFSET, 0, 0, pull),
        (0, 0, 0, -_DRAG),
        (-_WIDTH / 2, 0, press, -_FRICTION * press),
        (_WIDTH / 2, -_INSIDE, -press, -_FRICTION * press),
    )
    along = sum(out for _, _, _, out in forces)
    moment = sp.expand(sum(x * out - y * across for x, y, across, out in forces))
    needed = sp.solve([along, moment], [pull, press], dict=True)[0][pull]
    return Derivation(
        "The pull that binds",
        (
            (
                "x across, y the way out. A pull at (a, 0) presses the left side on the guide's edge at (-w/2, 0), the"
                " rear right corner on the guide at (w/2, -m); both drag. The width goes out of the moment:",
                rf"{sp.latex(along)} = 0, \qquad {sp.latex(moment)} = 0",
            ),
        ),
        (
            Claim(
                "racking.pull",
                "The pull that moves it.",
                "P",
                pull_needed(_DRAG, _OFFSET, _INSIDE, _FRICTION),
                needed,
                "From both balances, solved for P,",
            ),
            Claim(
                "racking.slide",
                "With less than this inside, no pull moves it.",
                "m",
                inside_to_slide(_OFFSET, _FRICTION),
                sp.solve(sp.denom(sp.together(needed)), _INSIDE)[0],
                "Where that pull grows beyond all bounds,",
            ),
            Claim(
                "racking.lock",
                "With less than this inside, it can stay locked with no hand on it.",
                "m",
                inside_to_lock(_WIDTH, _FRICTION),
                sp.solve(sp.Eq(_INSIDE / _WIDTH, _FRICTION), _INSIDE)[0],
                "Two forces balance along the line through both places, m in w; friction holds up to a slope of mu:",
            ),
        ),
    )
