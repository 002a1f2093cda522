"""The turned part of a leg in a design file: its profile, its wood, what is left on, what it meets."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal, get_args

from pydantic import AfterValidator, model_validator

from furnlib.base.guards import DesignError, require_between, require_positive, with_article
from furnlib.plan.design_values import Allowance, Length, Number, Part, Size, one_of

Shape = Literal["square", "shoulder", "lamb's tongue", "cylinder", "fillet", "tenon", "taper", "bead", "cove", "ogee"]
SHAPES: tuple[Shape, ...] = get_args(Shape)
"""What a profile is made of, in the words of the design file."""
ON_SQUARE: tuple[Shape, ...] = ("square", "shoulder", "lamb's tongue")
"""Those that need the side of the square that is left."""
_WANTS = {"bead": "rise", "cove": "depth", "ogee": "rise"}
_STRAIGHT = ("cylinder", "fillet", "tenon")


def _speed(value: Fraction) -> Fraction:
    require_positive("speed", float(value), "give turns a minute")
    return value


def _good(value: Fraction) -> Fraction:
    require_between("chance that a leg comes good", float(value), 0, 1, "9 good ones in 10 are 0.9", ends=True)
    return value


def _certainty(value: Fraction) -> Fraction:
    require_between("certainty", float(value), 0, 1, "0.9 is sure nine times in ten, and nothing is wholly sure")
    return value


def _load(value: Fraction) -> Fraction:
    if value < 0:
        raise DesignError(f"The load is {float(value):g}; it must be 0 or more: give how much, in kg.")
    return value


_Load = Annotated[Number, AfterValidator(_load)]


class RoundLeg(Part):
    """A turned leg of the plainest shape, a straight taper, by three diameters.

    Args:
        largest: its greatest diameter, at the top, above 0, in the piece's unit.
        foot: diameter on the floor.
        tenon: diameter of its round tenon.
    """

    largest: Size
    foot: Size
    tenon: Size


class ProfilePart(Part):
    """One element of a profile, from the top down.

    Args:
        shape: a word of `SHAPES`.
        length: along the axis, in the piece's unit; the one element without it takes what the leg
            leaves, and a tenon without it goes through the seat.
        diameter: where it begins; as the one above ends, where it is not given.
        to: diameter where it ends; as it begins, where it is not given.
        rise: of a bead, how far its arc stands off the chord; of an ogee, of its first half, below 0
            where that is hollow.
        depth: of a cove, how far its arc lies below the chord.
    """

    shape: Annotated[Shape, one_of("shape of a turning", SHAPES)]
    length: Size | None = None
    diameter: Size | None = None
    to: Size | None = None
    rise: Length | None = None
    depth: Size | None = None

    @model_validator(mode="after")
    def _only_what_it_needs(self) -> ProfilePart:
        wanted = _WANTS.get(self.shape, "")
        for name in ("rise", "depth"):
            given = getattr(self, name) is not None
            if given != (name == wanted):
                cure = f"take out '{name}'" if given else f"add '{name}:'"
                raise DesignError(f"{with_article(self.shape)} has {'no' if given else 'a'} {name}; {cure}.")
        if self.shape == "square" and (self.diameter or self.to):
            raise DesignError("A square has no diameter; its side is the line 'square:' of the legs.")
        if self.shape in _STRAIGHT and self.to is not None:
            raise DesignError(f"{with_article(self.shape)} is as thick all along; take out 'to', or call it a taper.")
        return self


class Turning(Part):
    """What this maker leaves on and takes off on the way from the board to the turned leg.

    Args:
        roughing: left on the radius after roughing, in the piece's unit.
        centring: how far the centres may be off, on the radius.
        waste: beyond each end of the leg, for the centres.
        kerf: of the saw that cuts the ends.
        boards: thickness of the planed boards that a blank is glued up from, where it is.
        finishing: left on the radius beside a stop cut.
        speed: of the finishing cuts, in turns a minute.
        good: the chance that a leg comes good, from 0 to 1.
        certainty: how sure the maker wants to be of enough good legs.
    """

    roughing: Size | None = None
    centring: Size | None = None
    waste: Allowance | None = None
    kerf: Allowance | None = None
    boards: Size | None = None
    finishing: Size | None = None
    speed: Annotated[Number, AfterValidator(_speed)] | None = None
    good: Annotated[Number, AfterValidator(_good)] = Fraction(9, 10)
    certainty: Annotated[Number, AfterValidator(_certainty)] = Fraction(9, 10)


class Loads(Part):
    """What a leg is taken to meet, to see where it is weakest; never what it may bear.

    Args:
        push: level against the foot, in kg.
        upright: up against the foot, in kg: the leg's share of the piece and of what stands or sits on it.
    """

    push: _Load
    upright: _Load
