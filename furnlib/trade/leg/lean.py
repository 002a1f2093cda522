r"""The direction of a leaning leg: one thing with many names.

A leg's axis runs from its top down to its foot. Seen square-on from the side it leans by its
*rake*, seen square-on from the front by its *splay*; its true angle from plumb is the *total
lean*, and the *sight line* is the plan direction in which that lean is seen. Rake and splay are
projections: neither comes first, and they do not add.

::

        from the side          from the front              plan

        top                    top                     foot . . . . . outward, sideways
         |\                     |\                         \    |
         | \                    | \                         \   |  sight line, from the
         |r \  r = rake         |s \  s = splay              \  |  fore-and-aft line
         |   \                  |   \                         \S|
             foot                   foot                      top

Every angle is positive when the foot stands outward of the top, each leg having its own outward
directions: away from the middle of the piece. Rake = seen from the side, splay = seen from the
front, here; some handbooks use the two words crosswise.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from furnlib.base.angles import Value, atan2d, atand, cosd, is_symbol, sind, square_root, tand
from furnlib.base.guards import DesignError, require_between, require_positive
from furnlib.trade.leg._naming import (
    UPRIGHT,
    require_sight_line,
    require_total_lean,
    tangents_from_part_and_sight,
    tangents_from_total_and_part,
)


def tan_total_lean(tan_rake: Value, tan_splay: Value) -> Value:
    """Tangent of the total lean: tan R = sqrt(tan² r + tan² s).

    Args:
        tan_rake: tangent of the rake; number, array or symbol.
        tan_splay: tangent of the splay; number, array or symbol.

    Returns:
        The tangent of the total lean, of the same kind.

    Source:
        Derived in `teach.derive.derive_lean`.

    Example:
        >>> tan_total_lean(3.0, 4.0)
        5.0
    """
    return square_root(tan_rake * tan_rake + tan_splay * tan_splay)


def sight_line(tan_rake: Value, tan_splay: Value) -> Value:
    """Sight line in degrees: S = atan2(tan s, tan r).

    Args:
        tan_rake: tangent of the rake; number, array or symbol.
        tan_splay: tangent of the splay; number, array or symbol.

    Returns:
        Degrees in (-180, 180], from the outward fore-and-aft line (0) towards sideways outward
        (90); 0 for a plumb leg.

    Source:
        Derived in `teach.derive.derive_lean`; the word as chairmakers use it.

    Example:
        >>> sight_line(1.0, 1.0)
        45.0
    """
    return atan2d(tan_splay, tan_rake)


def axis_stretch(tan_rake: Value, tan_splay: Value) -> Value:
    """Length along the axis for each unit of height: 1 / cos R = sqrt(1 + tan² r + tan² s).

    Args:
        tan_rake: tangent of the rake; number, array or symbol.
        tan_splay: tangent of the splay; number, array or symbol.

    Returns:
        A number of 1 or more, of the same kind.

    Source:
        Derived in `teach.derive.derive_lean`; rafter tables of framing squares agree.

    Example:
        >>> axis_stretch(0.0, 0.75)
        1.25
    """
    return square_root(1 + tan_rake * tan_rake + tan_splay * tan_splay)


def tan_parts(tan_total_lean: Value, sight_line_deg: Value) -> tuple[Value, Value]:
    """Tangents of rake and splay: tan r = tan R cos S, tan s = tan R sin S.

    Args:
        tan_total_lean: tangent of the total lean; number, array or symbol.
        sight_line_deg: sight line in degrees; number, array or symbol.

    Returns:
        Tangent of the rake, tangent of the splay.

    Source:
        Derived in `teach.derive.derive_lean`.

    Example:
        >>> tan_parts(1.0, 30.0)
        (0.8660254, 0.5)
    """
    return tan_total_lean * cosd(sight_line_deg), tan_total_lean * sind(sight_line_deg)


class FootRun(NamedTuple):
    """Level distance from the top of a leg to its foot, in the unit of the height.

    Args:
        fore_aft: outward towards the front (front leg) or the back (back leg).
        sideways: outward towards the leg's own side.
        plan: along the sight line.
    """

    fore_aft: Value
    sideways: Value
    plan: Value


@dataclass(frozen=True, eq=False)
class Lean:
    """The direction of a leg's axis, kept as two tangents; its angles are names for it.

    Make one with `from_rake_splay`, `from_total_lean`, `from_foot_run` or `from_names`; numbers
    or arrays. Two leans are not compared with ``==``: compare a name that matters to you.

    Args:
        tan_rake: tangent of the rake.
        tan_splay: tangent of the splay.

    Example:
        >>> leg = Lean.from_rake_splay(8.0, 6.0)
        >>> leg.total_lean_deg, leg.sight_line_deg
        (9.95, 36.8)
        >>> leg.axis_length(151.0)
        153.3
    """

    tan_rake: Value
    tan_splay: Value

    @classmethod
    def from_rake_splay(cls, rake_deg: Value, splay_deg: Value) -> Lean:
        """Make a lean from rake and splay.

        Args:
            rake_deg: seen square-on from the side, degrees between -90 and 90; number or array.
            splay_deg: seen square-on from the front, degrees between -90 and 90.

        Returns:
            The lean.

        Raises:
            DesignError: when an angle is 90 or more either way, NaN or infinite.

        Example:
            >>> Lean.from_rake_splay(0.0, 6.0).sight_line_deg
            90.0
        """
        require_between("rake", rake_deg, -90, 90, UPRIGHT)
        require_between("splay", splay_deg, -90, 90, UPRIGHT)
        return cls(tand(rake_deg), tand(splay_deg))

    @classmethod
    def from_total_lean(cls, total_lean_deg: Value, sight_line_deg: Value) -> Lean:
        """Make a lean from total lean and sight line.

        Args:
            total_lean_deg: true angle from plumb, degrees from 0 to below 90; number or array.
            sight_line_deg: plan direction, degrees from -360 to 360, from the outward fore-and-aft
                line towards sideways outward.

        Returns:
            The lean.

        Raises:
            DesignError: when the total lean is below 0 or 90 and more, or a value is not finite.

        Example:
            >>> leg = Lean.from_total_lean(15.0, 35.0)
            >>> leg.rake_deg, leg.splay_deg
            (12.38, 8.74)
        """
        require_total_lean(total_lean_deg)
        require_sight_line(sight_line_deg)
        return cls(*tan_parts(tand(total_lean_deg), sight_line_deg))

    @classmethod
    def from_foot_run(cls, height: Value, fore_aft: Value, sideways: Value) -> Lean:
        """Make a lean from where the foot stands below the top.

        Args:
            height: vertical distance between the two level planes, above 0, any length unit.
            fore_aft: level distance outward to front or back, in the unit of the height.
            sideways: level distance outward to the side, in the unit of the height.

        Returns:
            The lean.

        Raises:
            DesignError: when the height is not above 0 or a distance is not finite.

        Example:
            >>> Lean.from_foot_run(100.0, 100.0, 0.0).rake_deg
            45.0
        """
        require_positive("height", height)
        for name, run in (("fore-and-aft foot run", fore_aft), ("sideways foot run", sideways)):
            require_between(name, run, -1e9, 1e9, "give a distance in the unit of the height")
        return cls(*(_divided(run, height) for run in (fore_aft, sideways)))

    @classmethod
    def from_names(cls, **names_deg: float) -> Lean:
        """Make a lean from any two of its four names.

        Where two leans answer to the names given (total lean with rake or splay alone leaves a
        side open), the one whose foot stands outward is taken.

        Args:
            names_deg: exactly two of ``rake_deg``, ``splay_deg``, ``total_lean_deg`` and
                ``sight_line_deg``, in degrees.

        Returns:
            The lean.

        Raises:
            DesignError: when not exactly two known names are given, or no leg answers to both.

        Example:
            >>> Lean.from_names(rake_deg=8, total_lean_deg=9.9542).splay_deg
            6.00
        """
        known = ("rake_deg", "splay_deg", "total_lean_deg", "sight_line_deg")
        if len(names_deg) != 2 or not set(names_deg) <= set(known):
            said = ", ".join(name.removesuffix("_deg").replace("_", " ") for name in names_deg) or "nothing"
            raise DesignError(
                f"A lean is given by {said}; it takes exactly two of rake, splay, total lean and sight line."
            )
        given = {name: names_deg.get(name) for name in known}
        rake, splay, total, sight = given.values()
        if rake is not None and splay is not None:
            return cls.from_rake_splay(rake, splay)
        if total is not None and sight is not None:
            return cls.from_total_lean(total, sight)
        if total is not None:
            return cls(*tangents_from_total_and_part(total, rake, splay))
        return cls(*tangents_from_part_and_sight(rake, splay, sight or 0.0))

    @property
    def rake_deg(self) -> Value:
        """Lean seen square-on from the side, degrees between -90 and 90."""
        return atand(self.tan_rake)

    @property
    def splay_deg(self) -> Value:
        """Lean seen square-on from the front, degrees between -90 and 90."""
        return atand(self.tan_splay)

    @property
    def total_lean_deg(self) -> Value:
        """True angle from plumb, degrees from 0 to below 90."""
        return atand(tan_total_lean(self.tan_rake, self.tan_splay))

    @property
    def sight_line_deg(self) -> Value:
        """Plan direction from top to foot, degrees in (-180, 180]; 0 for a plumb leg."""
        return sight_line(self.tan_rake, self.tan_splay)

    def axis_length(self, height: Value) -> Value:
        """Length along the axis between two level planes: h / cos R.

        Args:
            height: vertical distance between the planes, any length unit; number or array.

        Returns:
            The length, in the unit of the height.

        Example:
            >>> Lean.from_total_lean(60.0, 0.0).axis_length(100.0)
            200.0
        """
        return height * axis_stretch(self.tan_rake, self.tan_splay)

    def foot_run(self, height: Value) -> FootRun:
        """Level distances from the top to the foot: h tan r, h tan s, h tan R.

        Args:
            height: vertical distance between the planes, any length unit; number or array. With
                100 (or 10 in) this is what sets a bevel gauge without a protractor.

        Returns:
            The runs fore-and-aft, sideways and along the sight line, in the unit of the height.

        Example:
            >>> Lean.from_rake_splay(45.0, 0.0).foot_run(10.0)
            FootRun(fore_aft=10.0, sideways=0.0, plan=10.0)
        """
        return FootRun(
            height * self.tan_rake,
            height * self.tan_splay,
            height * tan_total_lean(self.tan_rake, self.tan_splay),
        )

    def __repr__(self) -> str:
        if np.ndim(self.tan_rake) or np.ndim(self.tan_splay):
            return f"<Lean of {np.broadcast(self.tan_rake, self.tan_splay).size} legs>"
        if is_symbol(self.tan_rake, self.tan_splay):
            return f"<Lean with tangents {self.tan_rake} and {self.tan_splay}>"
        return f"<Lean with rake {self.rake_deg:.2f} and splay {self.splay_deg:.2f}>"


def _divided(run: Value, height: Value) -> Value:
    """Divide two lengths; exact fractions become floats on entering geometry."""
    return run / height if np.ndim(run) or np.ndim(height) else float(run) / float(height)
