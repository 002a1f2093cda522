"""Every part of a drawer from its opening, each size as the sum it comes from.

Places in the opening, from its lower left corner at the case's face: x to the right, y inwards, z up.
The sides' outer faces stand a side gap inside the opening, their lower edges on the runner, at z = 0.
The front's face lies at y = setback where it is flush, outside the case by its whole thickness where
it lies over it, by the lip where it is lipped. The sides begin a lap behind that face and end a back
room before the inside of the case's back.

* A solid bottom has its grain across the drawer. It swells to the back, where it lies under the
  drawer's back and nothing holds it but a screw in a slot. A sheet bottom goes in the same way.
* The upper face of the bottom is level with the upper edge of the groove (the tongue is left by a
  rebate underneath), or with the upper edge of the slips, where there are slips. The back stands on it.
* An inner front is the box's own front behind a show front that is screwed to it: a front that lies
  over the case has one, and so has a flush front that is wider than the box between bought slides.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from furnlib.base.angles import Value, is_symbol
from furnlib.base.guards import DesignError, nearest_word, require_finite, require_positive
from furnlib.base.terms import Term, total

Front = Literal["flush", "overlay", "lipped"]
Joint = Literal["half-blind", "through", "rebated"]
Back = Literal["dovetailed", "housed"]
Bottom = Literal["solid", "sheet"]
Run = Literal["runners", "side-hung", "slides"]
Grain = Literal["length", "none"]
Terms = tuple[Term[Value], ...]

_WORDS = {"front": Front, "joint": Joint, "back": Back, "bottom": Bottom, "run": Run}
_ABOVE_0 = ("front_thickness", "side_thickness", "back_thickness", "bottom_thickness", "groove_width", "groove_depth")


@dataclass(frozen=True)
class Opening:
    """The clear opening that a drawer goes into, in any one length unit.

    Args:
        width: between what stands left and right of it, any length unit.
        height: from the runner's surface to what is above, in the same unit.
        depth: from the case's face to the inside of its back, in the same unit.
    """

    width: Value
    height: Value
    depth: Value


@dataclass(frozen=True)
class Making:
    """How a drawer is made, all sizes in the unit of its opening.

    Args:
        front_thickness: of the front that is seen, any length unit.
        side_thickness: of each side, any length unit.
        back_thickness: of the back, any length unit.
        bottom_thickness: of the bottom, inside its edges, any length unit.
        groove_width: of the groove that the bottom's tongue slides in, any length unit.
        groove_height: from the side's lower edge up to the groove, any length unit.
        groove_depth: of that groove, in front and in sides or slips, any length unit.
        side_gap: room beside the drawer on each side, any length unit.
        back_gap: from the end of the sides to the inside of the case's back, any length unit.
        front: whether the front stands in the opening, lies over the case, or laps it by a lip.
        joint: how the sides meet the front.
        lap: wood of the front, or of the inner front, before the ends of the sides, any length unit; 0 when through.
        inner_front: thickness of the box's own front behind a show front, any length unit; 0 for none.
        front_gap: room beside a flush front that has an inner front, on each side, any length unit.
        overlay: how far the front goes past the opening, on each side, any length unit.
        lip: thickness of the lip, any length unit.
        setback: from the case's face in to the face of a flush front, any length unit.
        back: how the back meets the sides.
        housing_depth: of the housings that a housed back stands in, any length unit.
        side_tail: how far the sides run on behind a housed back, any length unit.
        drop: how much lower the back is than the sides, any length unit.
        bottom: solid wood or a sheet.
        end_play: of the bottom in its grooves, at each end, any length unit.
        overhang: of the bottom behind the back, any length unit.
        slip_width: how far slips stand in from the sides, any length unit; 0 for none.
        slip_height: of slips, from the side's lower edge, any length unit.
        run: what the drawer rides on.
        slide_room: what a bought slide asks for on each side, as its maker states it, any length unit.
        guide_depth: of the groove in a side's outer face that a side-hung drawer rides with, any length unit.
        guide_width: of that groove, up and down, any length unit.
        guide_height: from the side's lower edge up to it, any length unit.
        guide_play: how much narrower the runner in it is, any length unit.
    """

    front_thickness: Value
    side_thickness: Value
    back_thickness: Value
    bottom_thickness: Value
    groove_width: Value
    groove_height: Value
    groove_depth: Value
    side_gap: Value
    back_gap: Value
    front: Front = "flush"
    joint: Joint = "half-blind"
    lap: Value = 0
    inner_front: Value = 0
    front_gap: Value = 0
    overlay: Value = 0
    lip: Value = 0
    setback: Value = 0
    back: Back = "dovetailed"
    housing_depth: Value = 0
    side_tail: Value = 0
    drop: Value = 0
    bottom: Bottom = "solid"
    end_play: Value = 0
    overhang: Value = 0
    slip_width: Value = 0
    slip_height: Value = 0
    run: Run = "runners"
    slide_room: Value = 0
    guide_depth: Value = 0
    guide_width: Value = 0
    guide_height: Value = 0
    guide_play: Value = 0

    def __post_init__(self) -> None:
        if not is_symbol(*vars(self).values()):
            _check_making(self)

    @property
    def joined_front(self) -> Value:
        """Thickness of the front that the sides are joined to."""
        return self.front_thickness if self.inner_front == 0 else self.inner_front

    @property
    def let_in(self) -> Value:
        """How far the sides go into the front: the length of their tails there."""
        return self.joined_front - self.lap

    @property
    def floor_height(self) -> Value:
        """From the side's lower edge to the upper face of the bottom, on which the back stands."""
        return self.groove_height + self.groove_width if self.slip_width == 0 else self.slip_height


@dataclass(frozen=True)
class Part:
    """One part, with the sums that its sizes come from.

    Args:
        name: what it is called.
        count: how many alike, left and right counted together.
        length: along the grain; of a bottom, across the drawer.
        width: square to that, in the part's face.
        thickness: in the unit of the opening.
        grain: which of the two the grain runs along; "none" for a sheet.
    """

    name: str
    count: int
    length: Terms
    width: Terms
    thickness: Value
    grain: Grain = "length"


@dataclass(frozen=True)
class Inside:
    """What a drawer has free inside, each size as the sum it comes from.

    Args:
        width: from side to side, above the slips.
        depth: from the front to the back.
        height: from the bottom to the upper edge of the sides.
    """

    width: Terms
    depth: Terms
    height: Terms


def _terms(*members: tuple[Value, str] | tuple[Value, str, int]) -> Terms:
    """A sum without the members that are nothing."""
    return tuple(Term(*member) for member in members if member[0])


def _box(opening: Opening, making: Making) -> tuple[Terms, Terms, Terms]:
    """The box's width; its depth from the front's face to the sides' rear ends, and from the inner face to there."""
    outside = {"flush": -making.setback, "overlay": making.front_thickness, "lipped": making.lip}[making.front]
    wide = _terms((opening.width, ""), (-making.side_gap, "side gap", 2))
    stands = (outside, "setback" if making.front == "flush" else "outside the case")
    deep = _terms((opening.depth, ""), stands, (-making.back_gap, "back room"))
    return wide, deep, deep + _terms((-making.front_thickness, "front"), (-making.inner_front, "inner front"))


def inside(opening: Opening, making: Making, side_height: Value) -> Inside:
    """Clear sizes inside a drawer, for what it is to hold.

    Args:
        opening: where the drawer goes, sizes above 0.
        making: how it is made.
        side_height: of its sides, above 0 and no more than the opening's height, in the unit of the opening.

    Returns:
        Width, depth and height as sums.

    Raises:
        DesignError: when the drawer cannot be made like that; symbols are not looked at.

    Source:
        Derived in `teach.derive.derive_parts`.

    Example:
        >>> made = Making(20, 12, 12, 8, 6, 10, 6, side_gap=1, back_gap=10, lap=6)
        >>> [total(size) for size in vars(inside(Opening(480, 203, 370), made, 200)).values()]
        [454, 328, 184]
    """
    wide, _, behind_front = _box(opening, making)
    made = Inside(
        wide + _terms((-making.side_thickness, "side", 2)),
        behind_front + _terms((-making.side_tail, "sides behind the back"), (-making.back_thickness, "back")),
        _terms((side_height, ""), (-making.floor_height, "floor")),
    )
    if _all_numbers(opening, making, side_height):
        _check_sizes(opening, making, side_height, made)
    return made


def drawer_parts(opening: Opening, making: Making, side_height: Value, front_height: Value) -> tuple[Part, ...]:
    """Every part of a drawer from its opening.

    Side length = depth - setback - back room - lap; back length = width - 2 side gaps, less the sides
    and more two housings where it is housed; back width = side height - floor - drop; bottom, across =
    inside width + 2 grooves - 2 end plays, front to back = inside depth + groove + back + overhang.

    Args:
        opening: where the drawer goes, sizes above 0.
        making: how it is made.
        side_height: of its sides, above 0 and no more than the opening's height, in the unit of the opening.
        front_height: of the front that is seen, above 0, in the same unit; a flush one no higher than the opening.

    Returns:
        Front, inner front, sides, back, bottom, slips and the runners that a side-hung drawer rides on,
        as far as it has them; exact sizes in give exact sizes out.

    Raises:
        DesignError: when the drawer cannot be made like that; symbols are not looked at.

    Source:
        Derived in `teach.derive.derive_parts`.

    Example:
        >>> made = Making(20, 12, 12, 8, 6, 10, 6, side_gap=1, back_gap=10, lap=6, end_play=1)
        >>> front, side, back, bottom = drawer_parts(Opening(480, 203, 370), made, 200, 201)
        >>> total(side.length), total(back.width), total(bottom.length), total(bottom.width)
        (354, 184, 464, 346)
    """
    free = inside(opening, making, side_height)
    if _all_numbers(opening, making, front_height):
        require_positive("front height", front_height)
        if making.front == "flush" and front_height > opening.height:
            raise DesignError(f"The front is {front_height} high; {_TOO_HIGH.format(opening.height)}")
    wide, deep, behind_front = _box(opening, making)
    high, show = _terms((side_height, "")), _terms((opening.width, ""), (making.overlay, "overlay", 2))
    if making.front == "flush":
        show = wide if making.inner_front == 0 else _terms((opening.width, ""), (-making.front_gap, "front gap", 2))
    before = behind_front[len(deep) : -1]  # the show front, where the box has one of its own
    housed = _terms((-making.side_thickness, "side", 2), (making.housing_depth, "housing", 2))
    back = high + _terms((-making.floor_height, "floor"), (-making.drop, "drop"))
    slips, groove = (-making.slip_width, "slip", 2), (making.groove_depth, "groove", 2)
    across = free.width + _terms(slips, groove, (-making.end_play, "end play", 2))
    under = ((-making.side_tail, "sides behind the back"), groove[:2], (making.overhang, "overhang"))
    grain: Grain = "length" if making.bottom == "solid" else "none"
    parts = [
        Part("front", 1, show, _terms((front_height, "")), making.front_thickness),
        Part("side", 2, deep + before + _terms((-making.lap, "lap")), high, making.side_thickness),
        Part("back", 1, wide + (housed if making.back == "housed" else ()), back, making.back_thickness),
        Part("bottom", 1, across, behind_front + _terms(*under), making.bottom_thickness, grain),
    ]
    if making.inner_front != 0:
        parts.insert(1, Part("inner front", 1, wide, high, making.inner_front))
    if making.slip_width != 0:
        parts.append(Part("slip", 2, behind_front, _terms((making.slip_height, "")), making.slip_width))
    if making.run == "side-hung":
        runner = _terms((making.guide_width, ""), (-making.guide_play, "play"))
        long = behind_front + _terms((making.back_gap, "back room"))
        parts.append(Part("runner", 2, long, runner, making.guide_depth))
    return tuple(parts)


def _all_numbers(opening: Opening, making: Making, height: Value) -> bool:
    return not is_symbol(height, *vars(opening).values(), *vars(making).values())


_TOO_HIGH = "it will not go into an opening of {}: plane it lower."


def _check_sizes(opening: Opening, making: Making, side_height: Value, free: Inside) -> None:
    """Refuse a drawer that does not fit its opening, or has nothing inside."""
    for name, size in (*vars(opening).items(), ("side height", side_height)):
        require_positive(name if " " in name else f"opening's {name}", size)
    if side_height > opening.height:
        raise DesignError(f"The side is {side_height} high; {_TOO_HIGH.format(opening.height)}")
    width, depth, back = total(free.width) - 2 * making.slip_width, total(free.depth), total(free.height) - making.drop
    over = side_height - (making.guide_height + making.guide_width if making.run == "side-hung" else 0)
    places = ("width inside", "depth inside", "height of the back", "wood over the guide")
    for name, left in zip(places, (width, depth, back, over), strict=True):
        require_positive(name, left, "give it a larger opening or thinner parts")


def _check_fields(making: Making) -> None:
    """Refuse words that are not known, sizes below 0, and parts without a thickness."""
    for name, value in vars(making).items():
        said = name.replace("_", " ")
        if name in _WORDS:
            if value not in get_args(_WORDS[name]):
                raise DesignError(f"The {said} is {value!r}; {nearest_word(str(value), get_args(_WORDS[name]))}")
        elif name in _ABOVE_0:
            require_positive(said, value)
        else:
            require_finite(said, value)
            if value < 0:
                raise DesignError(f"The {said} is {value}; it must be 0 or more: give the size itself.")


def _check_making(m: Making) -> None:
    """Refuse a drawer that cannot be made, whatever its opening."""
    _check_fields(m)
    flush, lipped, slid, hung = m.front == "flush", m.front == "lipped", m.run == "slides", m.run == "side-hung"
    overlaid, through, housed = m.front == "overlay", m.joint == "through", m.back == "housed"
    slips = m.slip_width != 0
    upper, under = m.groove_height + m.groove_width, m.floor_height - m.bottom_thickness
    meets = hung and not slips and m.guide_height < upper and m.groove_height < m.guide_height + m.guide_width
    for needed, name, size, cure in (
        (not flush, "overlay", m.overlay, "say how far the front goes past the opening"),
        (overlaid, "inner front", m.inner_front, "a front over the case needs one that the sides are joined to"),
        (lipped, "lip", m.lip, "give its thickness"),
        (slid, "slide room", m.slide_room, "give the clearance on each side that the slide's maker states"),
        (slips, "wood over the slip's groove", m.slip_height - upper, "make the slip higher"),
        (hung, "width of the runner", m.guide_width - m.guide_play, "give the width of the guide's groove"),
        (meets, "wood between guide and groove", m.side_thickness - m.guide_depth - m.groove_depth, "raise the guide"),
    ):
        if needed:
            require_positive(name, size, cure)
    for barred, name, size, cure in (
        (not housed, "side tail", m.side_tail, "the sides end with a back that is dovetailed"),
        (not housed, "housing depth", m.housing_depth, "a back that is dovetailed stands in none"),
        (not flush, "setback", m.setback, "a front that goes past the opening stands against the case"),
        (lipped, "inner front", m.inner_front, "a lipped front is joined to the sides itself"),
        (through, "lap", m.lap, "in a through corner the sides come out at the face; or make it half-blind"),
    ):
        if barred and size != 0:
            raise DesignError(f"The {name} is {size}; it must be 0: {cure}.")
    holder, free = m.slip_width if slips else m.side_thickness, m.back_gap + m.side_tail
    for judged, name, size, low, high, cure in (
        (not through, "lap", m.lap, 0, m.joined_front, "a third of the front is usual"),
        (True, "groove depth", m.groove_depth, 0, min(holder, m.joined_front), "half the thickness is the usual most"),
        (housed, "housing depth", m.housing_depth, 0, m.side_thickness, "a third of the side is usual"),
        (hung, "guide depth", m.guide_depth, m.side_gap, m.side_thickness, "half the side is the usual most"),
    ):
        if judged and not low < size < high:
            raise DesignError(f"The {name} is {size}; it must lie between {low} and {high}: {cure}.")
    for judged, name, size, high, cure in (
        (lipped, "lip", m.lip, m.lap, "let the sides in less, or they come out before the case"),
        (slid, "slide room", m.slide_room, m.side_gap, "make the drawer narrower"),
        (True, "underside of the bottom", under, m.groove_height, "move the groove, or change the bottom's thickness"),
        (True, "overhang", m.overhang, free, "cut the bottom shorter, or leave more back room"),
    ):
        if judged and not 0 <= size <= high:
            raise DesignError(f"The {name} is {size}; it must lie from 0 to {high}: {cure}.")
