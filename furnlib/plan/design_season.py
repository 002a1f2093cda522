"""The season's part of a design file: the air a piece lives in, and its wood by role."""

from __future__ import annotations

from typing import Annotated, Any, Literal, get_args

from pydantic import BeforeValidator, Field

from furnlib.plan.design_values import Number, Part, Size, Words, one_of

Rings = Literal["flat-sawn", "rift-sawn", "quarter-sawn"]
RINGS: dict[Rings, float] = {"flat-sawn": 0.0, "rift-sawn": 45.0, "quarter-sawn": 90.0}
"""Angle between face and rings on the end grain, in degrees."""


class Place(Part):
    """How moist the wood is in one place: as read on it, or what it comes to in the air there.

    Args:
        moisture_content: of the wood, in per cent.
        temperature: of the air, in degrees Celsius in a metric piece, Fahrenheit in an inch piece.
        humidity: of the air, in per cent.
    """

    moisture_content: Number | None = Field(default=None, alias="moisture")
    temperature: Number | None = None
    humidity: Number | None = None


def _plain_number_is_moisture(given: Any) -> Any:
    return {"moisture": given} if isinstance(given, str) else given


AirOrMoisture = Annotated[Place, BeforeValidator(_plain_number_is_moisture)]


class Reading(Part):
    """One reading of a moisture meter on a board that waits.

    Args:
        day: when it was taken, counted from any first day.
        moisture_content: as read, in per cent.
    """

    day: Number
    moisture_content: Number = Field(alias="moisture")


class Climate(Part):
    """What the year brings; a plain number is a moisture content, in per cent.

    Args:
        shop: the wood now, where it is cut.
        dry: in the room where the piece will stand, at its driest.
        damp: there, at its dampest.
        readings: of a board that waits to be worked, in the order of their days.
    """

    shop: AirOrMoisture
    dry: AirOrMoisture
    damp: AirOrMoisture
    readings: tuple[Reading, ...] = ()


class TestPiece(Part):
    """A piece of wood that the maker measured, left in other air, and measured again.

    Args:
        before: its size across the grain at first, in the piece's unit.
        after: the same after it had settled.
        moisture_before: its moisture content at first, in per cent.
        moisture_after: its moisture content after it had settled.
        rings: how the rings lie in the measured face.
    """

    before: Size
    after: Size
    moisture_before: Number = Field(alias="moisture before")
    moisture_after: Number = Field(alias="moisture after")
    rings: Annotated[Rings, one_of("way to saw", get_args(Rings))] = "flat-sawn"


class Wood(Part):
    """A wood and how it was sawn.

    Args:
        species: its name in the table; of an own wood, any name.
        rings: "flat-sawn", "rift-sawn" or "quarter-sawn".
        like: the wood of the table that an own wood is like.
        measured: the own wood's test pieces.
    """

    species: Words
    rings: Annotated[Rings, one_of("way to saw", get_args(Rings))] = "flat-sawn"
    like: Words | None = None
    measured: tuple[TestPiece, ...] = ()


class Woods(Part):
    """The wood of each role.

    Args:
        case: sides, top, bottom and dividers.
        front: the drawers' fronts.
        side: the drawers' sides and backs.
        bottom: the drawers' bottoms, where they are solid.
    """

    case: Wood
    front: Wood
    side: Wood
    bottom: Wood | None = None
