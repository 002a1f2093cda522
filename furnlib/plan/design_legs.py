"""The legs' part of a design file: where they stand, how they lean, how they are held."""

from __future__ import annotations

from typing import Annotated, Any, Literal, get_args

from pydantic import Field, ValidatorFunctionWrapHandler, WrapValidator, model_validator

from furnlib.base.guards import DesignError
from furnlib.plan.design_turning import ON_SQUARE, Loads, ProfilePart, RoundLeg, Turning
from furnlib.plan.design_values import Angle, Length, Part, Size, Words, one_of
from furnlib.trade.leg.end_cut import ORIENTATIONS, Orientation
from furnlib.trade.leg.lean import Lean

Position = Literal["front left", "front right", "front", "rear left", "rear right", "rear", "middle"]
POSITIONS: tuple[Position, ...] = get_args(Position)
"""Left and right as seen from the front of the piece; front and rear alone stand in the middle of its width."""
CORNERS = tuple(position for position in POSITIONS if " " in position)
UNDER_A_CASE: tuple[Position, ...] = (*CORNERS, "middle")
UNDER_A_SEAT = tuple(position for position in POSITIONS if position != "middle")


class Inset(Part):
    """How far the tops of the legs' axes stand in from the edges of the case.

    Args:
        front: from the front edge, above 0, in the piece's unit.
        rear: from the rear edge.
        side: from either side.
    """

    front: Size
    rear: Size
    side: Size


class Mortises(Part):
    """Where the legs' axes come out of the underside of a seat, from its middle.

    Args:
        out: to either side, along the underside, above 0, in the piece's unit.
        front: to the front.
        rear: to the rear.
    """

    out: Size
    front: Size
    rear: Size


class Slips(Part):
    """How far the maker's own settings go astray, two times out of three.

    Args:
        total_lean: at the drill or the saw, in degrees, 0 or more.
        sight_line: of the line on the seat, in degrees, 0 or more.
        length: of a leg cut to length, in the piece's unit.
    """

    total_lean: Angle = Field(default=0.5, alias="total lean")
    sight_line: Angle = Field(default=1.0, alias="sight line")
    length: Size | None = None


class ScrewFixing(Part):
    """A screw driven plumb into the top of each leg, and a pin that keeps the leg from turning.

    Args:
        diameter: of the screw's hole in the leg, above 0, in the piece's unit.
        depth: how far the screw reaches into the leg, plumb.
        wall: the least wood wanted round it.
        pin: diameter of the pin.
        pin_depth: how far the pin reaches into the leg, plumb.
    """

    diameter: Size
    depth: Size
    wall: Size
    pin: Size
    pin_depth: Size = Field(alias="pin depth")


class LeanNames(Part):
    """Any two names of a leg's lean, in degrees.

    Args:
        rake: seen square-on from the side, between -90 and 90.
        splay: seen square-on from the front, between -90 and 90.
        total_lean: true angle from plumb, from 0 to below 90.
        sight_line: plan direction, from -360 to 360.
    """

    rake: Angle | None = None
    splay: Angle | None = None
    total_lean: Angle | None = Field(default=None, alias="total lean")
    sight_line: Angle | None = Field(default=None, alias="sight line")

    def lean(self) -> Lean:
        """The direction that the two names mean.

        Returns:
            The lean.
        """
        named = {f"{name}_deg": value for name, value in self if value is not None}
        return Lean.from_names(**named)


def _each_once(written: Any, read: ValidatorFunctionWrapHandler) -> Any:
    """Refuse one distance that is written in two ways."""
    stations = read(written)
    if len(stations) < len(written):
        raise DesignError("Two stations stand at one distance; give each distance once.")
    return stations


class Legs(Part):
    """Legs, square or turned, each leaning its own way.

    Args:
        square: side of the square section, above 0, in the piece's unit; with a profile, of what is
            left square.
        round: diameters of a plain turned leg; or
        profile: a turned leg's elements from the top down; or
        stations: its diameters by their distance from its top, as measured from a leg.
        orientation: which way the faces of a square leg look.
        wood: its species.
        turning: what is left on and taken off at the lathe.
        loads: what a leg is taken to meet.
        slips: the maker's own setting errors.
    """

    square: Size | None = None
    round: RoundLeg | None = None
    profile: tuple[ProfilePart, ...] | None = None
    stations: Annotated[dict[Length, Size], WrapValidator(_each_once)] | None = None
    orientation: Annotated[Orientation, one_of("way to turn a leg", ORIENTATIONS)] = "untwisted"
    wood: Words | None = None
    turning: Turning = Field(default_factory=Turning)
    loads: Loads | None = None
    slips: Slips = Field(default_factory=Slips)

    @model_validator(mode="after")
    def _one_shape(self) -> Legs:
        turned = [name for name in ("round", "profile", "stations") if getattr(self, name) is not None]
        if len(turned) > 1 or (self.square and turned and turned != ["profile"]):
            said = " and ".join([*(["square"] if self.square else []), *turned])
            raise DesignError(f"The legs are given by {said}; keep one of them; 'square:' goes with 'profile:' only.")
        if not turned and not self.square:
            raise DesignError("The legs have no shape; write a line 'square:' or a part 'round:' or 'profile:'.")
        if self.square and self.profile and not any(part.shape in ON_SQUARE for part in self.profile):
            raise DesignError("The profile leaves nothing square; take out 'square:', or begin with 'shape: square'.")
        return self

    @property
    def is_turned(self) -> bool:
        """Whether they come from the lathe."""
        return any(shape is not None for shape in (self.round, self.profile, self.stations))


class CaseLegs(Legs):
    """Legs under a case.

    Args:
        height: floor to the underside of the case, above 0, in the piece's unit.
        inset: where the legs stand under the case.
        fixing: the screw that holds each leg, where there is one.
        lean: the lean of each leg by its position, as seen from the front.
    """

    height: Size
    inset: Inset
    fixing: ScrewFixing | None = None
    lean: dict[Annotated[Position, one_of("leg", UNDER_A_CASE)], LeanNames]


class SeatLegs(Legs):
    """Legs in mortises under a seat.

    Args:
        mortises: where they come out of the underside.
        lean: the lean of each leg in the room by its position, as seen from the front.
    """

    mortises: Mortises
    lean: dict[Annotated[Position, one_of("leg", UNDER_A_SEAT)], LeanNames]
