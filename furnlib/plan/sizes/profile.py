"""A leg's profile: the elements of the design file, taken to the length that this leg has."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from furnlib.base.guards import DesignError, fault_at, with_article
from furnlib.base.units import Unit, write_length
from furnlib.plan.design_legs import Legs
from furnlib.plan.design_turning import ON_SQUARE, ProfilePart, RoundLeg
from furnlib.trade.leg.elements import (
    Element,
    bead,
    cove,
    cylinder,
    fillet,
    lambs_tongue,
    ogee,
    shoulder,
    square_part,
    taper,
    tenon,
)
from furnlib.trade.leg.seat import SeatLeg
from furnlib.trade.leg.turning import Profile, profile_through


def top_is_square(legs: Legs) -> bool:
    """Whether legs meet the underside with a square, turned lower down or not at all.

    Args:
        legs: the legs of a design.

    Returns:
        True for a square top.
    """
    return not legs.is_turned or bool(legs.profile and legs.profile[0].shape == "square")


def _made(part: ProfilePart, length: float, above: float, square: float) -> Element:
    """One element, beginning as the one above ends where the design does not say otherwise."""
    start = float(part.diameter) if part.diameter is not None else above
    end = float(part.to) if part.to is not None else start
    way, said, name = ("end", end, "to") if part.shape in ON_SQUARE else ("begin", start, "diameter")
    if not said and part.shape != "square":
        raise DesignError(f"The {part.shape} has no diameter to {way} with; add a line '{name}:'.")
    rise = float(part.rise or 0)
    makers: dict[str, Callable[[], Element]] = {
        "square": lambda: square_part(length, square),
        "shoulder": lambda: shoulder(square, end, length),
        "lamb's tongue": lambda: lambs_tongue(length, square, end),
        "cylinder": lambda: cylinder(length, start),
        "fillet": lambda: fillet(length, start),
        "tenon": lambda: tenon(length, start),
        "taper": lambda: taper(length, start, end),
        "bead": lambda: bead(length, start, end, rise),
        "ogee": lambda: ogee(length, start, end, rise),
        "cove": lambda: cove(length, start, end, float(part.depth or 0)),
    }
    return makers[part.shape]()


def leg_profile(legs: Legs, axis: float, drilled: SeatLeg | None, unit: Unit) -> tuple[Profile, float]:
    """Take the profile of the design to the length of one leg.

    Args:
        legs: the legs of the design, turned.
        axis: from underside to floor along the leg's axis, in the piece's unit.
        drilled: what is drilled for it, where it stands under a seat.
        unit: of the piece.

    Returns:
        The profile from the leg's top end to the floor, and how much of it lies above the underside.

    Raises:
        DesignError: when the elements do not make such a leg.
    """
    through = drilled.length_in_seat if drilled else 0.0
    if legs.round:
        _require_no_thicker(legs.round, unit)
        above = (tenon(through, float(legs.round.tenon)),) if drilled else ()
        return Profile((*above, taper(axis, float(legs.round.largest), float(legs.round.foot)))), through
    if legs.stations is not None:
        with fault_at("legs", "stations"):
            return _measured(legs.stations, axis + through, unit), through
    parts = legs.profile or ()
    if drilled and (not parts or parts[0].shape != "tenon"):
        with fault_at("legs", "profile", 0):
            raise DesignError(
                "A leg under a seat begins with what stands in its mortise; let 'shape: tenon' be the first."
            )
    lengths = [float(part.length) if part.length is not None else None for part in parts]
    if drilled and lengths[0] is None:
        lengths[0] = float(through)
    top = lengths[0] if drilled and lengths[0] is not None else 0.0
    elements = tuple(_chain(legs, parts, _filled(lengths, axis + top, unit)))
    with fault_at("legs", "profile"):
        profile = Profile(elements)
        _require_inside(profile, legs.square, unit)
    return profile, top


def _require_inside(profile: Profile, square: Fraction | None, unit: Unit) -> None:
    """Refuse a round that stands out of the squared wood which a square is left on."""
    largest = profile.largest_diameter
    if square and any(element.square for element in profile.elements) and largest > square:
        raise DesignError(
            f"The leg is turned up to {write_length(largest, unit)} thick, and the square that is left on it is"
            f" {write_length(square, unit)}; no more comes out of that: turn it thinner or take a larger square."
        )


def _require_no_thicker(turned: RoundLeg, unit: Unit) -> None:
    """Refuse a foot or a tenon that is thicker than the leg."""
    for name, diameter in (("foot", turned.foot), ("tenon", turned.tenon)):
        if diameter > turned.largest:
            with fault_at("legs", "round", name):
                raise DesignError(
                    f"The {name} is {write_length(diameter, unit)} thick, more than the largest diameter of the leg,"
                    f" {write_length(turned.largest, unit)}: turn it thinner or take a thicker leg."
                )


def _filled(lengths: list[float | None], whole: float, unit: Unit) -> list[float]:
    """Every length, the one left open taking what the others leave of the leg."""
    rest = whole - sum(length for length in lengths if length is not None)
    with fault_at("legs", "profile"):
        if lengths.count(None) != 1:
            raise DesignError(
                f"{lengths.count(None)} elements of the profile have no length; exactly one takes what the others"
                f" leave of the leg, {write_length(whole, unit)} long: leave out the length of that one only."
            )
        if rest <= 0:
            raise DesignError(
                f"The lengths of the profile add up to {write_length(whole - rest, unit)} and the leg is"
                f" {write_length(whole, unit)} long; something must be left for the element without a length:"
                " shorten the others."
            )
    return [rest if length is None else length for length in lengths]


def _chain(legs: Legs, parts: tuple[ProfilePart, ...], lengths: list[float]) -> Iterator[Element]:
    above, square = 0.0, float(legs.square or 0)
    for i, (part, length) in enumerate(zip(parts, lengths, strict=True)):
        with fault_at("legs", "profile", i):
            if part.shape in ON_SQUARE and not square:
                raise DesignError(
                    f"{with_article(part.shape)} needs the side of the square; add a line 'square:' to the legs."
                )
            if part.shape in ("shoulder", "lamb's tongue") and (i == 0 or parts[i - 1].shape != "square"):
                raise DesignError(
                    f"{with_article(part.shape)} begins at a square; let 'shape: square' be the element above it."
                )
            made = _made(part, length, above, square)
        yield made
        above = made.end_diameter if part.shape != "square" else 0.0


def _measured(stations: dict[Fraction, Fraction], whole: float, unit: Unit) -> Profile:
    """A measured leg, cut off at the foot where it is longer than this one must be."""
    distances, diameters = map(float, stations), map(float, stations.values())
    if len(stations) < 2:
        raise DesignError("A measured leg needs two stations at least; measure it at its top and at its foot.")
    first = next(iter(stations))
    if first:
        raise DesignError(f"The measured leg begins at {write_length(first, unit)}; measure from its top, 0.")
    measured = profile_through([*distances], [*diameters])
    if measured.length < whole:
        raise DesignError(
            f"The measured leg is {write_length(measured.length, unit)} long, this one"
            f" {write_length(whole, unit, round_up=True)}; measure on to the foot, or lower the piece."
        )
    kept = {float(at): float(across) for at, across in stations.items() if at < whole}
    return profile_through([*kept, whole], [*kept.values(), measured.diameter_at(whole)])
