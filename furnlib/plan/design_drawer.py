"""The drawers' part of a design file: how they are made, carried, opened, and what closes the case behind them."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal, get_args

from pydantic import Field

from furnlib.plan.design_case import EachRowOnce
from furnlib.plan.design_values import Allowance, Count, Number, Part, Size, one_of
from furnlib.trade.drawer import parts

BackKind = Literal["sheet", "boards", "panel"]
Course = Literal["along the rows", "down the case"]
NO_LENGTH = Fraction(0)


class Front(Part):
    """Drawer fronts.

    Args:
        thickness: above 0, in the piece's unit.
        kind: "flush", "overlay" or "lipped".
        setback: how far a flush front stands behind the case's face.
        overlay: how far an overlay or lipped front reaches past its opening, each way.
        lip: thickness of a lipped front's lip.
        inner_front: thickness of the box's own front behind a show front; 0 where there is none.
        gap: beside a flush front that has an inner front, on each side.
        below: the gap under it.
        least_gap: the gap wanted over it at its dampest.
        film: thickness of the paint or varnish on each surface.
    """

    thickness: Size
    kind: Annotated[parts.Front, one_of("kind of front", get_args(parts.Front))] = "flush"
    setback: Allowance = NO_LENGTH
    overlay: Allowance = NO_LENGTH
    lip: Allowance = NO_LENGTH
    inner_front: Allowance = Field(default=NO_LENGTH, alias="inner front")
    gap: Allowance = NO_LENGTH
    below: Allowance = NO_LENGTH
    least_gap: Allowance = Field(default=NO_LENGTH, alias="least gap")
    film: Allowance = NO_LENGTH


class Tails(Part):
    """Dovetails cut by hand.

    Args:
        tail: width that a tail is to come near to, at its wide end.
        half_pin: width of the half pins at the edges, at the side's end.
        pin: width of the gap between two tails there, which the chisel must pass.
        slope: how far a tail's flank leans, run over length, such as 1/7.
        number: for a row's number, how many tails, where the maker settles it.
    """

    tail: Size
    half_pin: Size = Field(alias="half pin")
    pin: Size
    slope: Number = Fraction(1, 7)
    number: Annotated[dict[Count, Count], EachRowOnce] = Field(default_factory=dict)


class JigPins(Part):
    """Dovetails cut by the jig: its cutter.

    Args:
        pin: width of the cut between two tails, at the side's end.
        slope: of the cutter's flank, run over length.
    """

    pin: Size
    slope: Number = Fraction(1, 7)


class FrontCorner(Part):
    """How sides meet the front.

    Args:
        joint: "half-blind", "through" or "rebated".
        lap: wood of the front left over the sides' ends; 0 for a through joint.
        tails: dovetails cut by hand.
        jig: dovetails cut by the jig, in whole pitches.
    """

    joint: Annotated[parts.Joint, one_of("joint", get_args(parts.Joint))] = "half-blind"
    lap: Allowance = NO_LENGTH
    tails: Tails | None = None
    jig: JigPins | None = None


class Side(Part):
    """Drawer sides.

    Args:
        thickness: above 0, in the piece's unit.
        gap: between a side and its opening, on each side.
        least_gap: the gap wanted over it at its dampest, where no jig settles its height.
    """

    thickness: Size
    gap: Allowance
    least_gap: Allowance = Field(default=NO_LENGTH, alias="least gap")


class DrawerBack(Part):
    """Drawer backs.

    Args:
        thickness: above 0, in the piece's unit.
        joint: "dovetailed" or "housed".
        housing: depth of the housings in the sides.
        tail: how far a housed back stands in front of the sides' ends.
        drop: how much lower it ends than the sides.
    """

    thickness: Size
    joint: Annotated[parts.Back, one_of("joint", get_args(parts.Back))] = "dovetailed"
    housing: Allowance = NO_LENGTH
    tail: Allowance = NO_LENGTH
    drop: Allowance = NO_LENGTH


class Bottom(Part):
    """Drawer bottoms, in grooves of the sides or of slips glued to them.

    Args:
        kind: "solid", its grain across the drawer, or "sheet".
        thickness: above 0, as measured.
        tongue: what of it goes into the groove: the groove's width.
        up: from the lower edge of a side to the groove.
        groove: depth of the groove.
        ease: what the bottom is narrower than its grooves allow, at each end.
        overhang: how far it reaches behind the back.
        slip: width of the slips that have the groove in place of the sides; 0 where there are none.
        slip_height: height of the slips.
    """

    kind: Annotated[parts.Bottom, one_of("kind of bottom", get_args(parts.Bottom))] = "solid"
    thickness: Size
    tongue: Size
    up: Size
    groove: Size
    ease: Allowance = NO_LENGTH
    overhang: Allowance = NO_LENGTH
    slip: Allowance = NO_LENGTH
    slip_height: Allowance = Field(default=NO_LENGTH, alias="slip height")


class Guide(Part):
    """The groove in a side's outer face that a side-hung drawer rides with.

    Args:
        depth: of the groove, in the piece's unit.
        width: up and down.
        up: from the lower edge of a side to it.
        play: how much narrower the runner in it is.
    """

    depth: Size
    width: Size
    up: Size
    play: Allowance = NO_LENGTH


class Riding(Part):
    """What carries, holds down, guides and stops the drawers; where a row lacks one, the file says so.

    Args:
        carried: "runners", "side-hung" or "slides".
        slide: what a bought slide takes at each side, as its maker states.
        guide: the groove of a side-hung drawer.
        kicker: room between sides and kicker where strips make it less than what is over the sides.
        no_kicker: for a row's number, how far the next thing over its sides is where nothing holds it down.
        no_runner: rows without runners.
        no_guide: rows without guides.
        no_stop: rows without stops.
        guide_gap: the widest gap in a guide, front to back.
        friction: of a side on its guide, a plain number.
    """

    carried: Annotated[parts.Run, one_of("way to carry a drawer", get_args(parts.Run))] = "runners"
    slide: Allowance = NO_LENGTH
    guide: Guide | None = None
    kicker: Allowance | None = None
    no_kicker: Annotated[dict[Count, Allowance], EachRowOnce] = Field(default_factory=dict, alias="no kicker")
    no_runner: tuple[Count, ...] = Field(default=(), alias="no runner")
    no_guide: tuple[Count, ...] = Field(default=(), alias="no guide")
    no_stop: tuple[Count, ...] = Field(default=(), alias="no stop")
    guide_gap: Allowance = Field(default=NO_LENGTH, alias="guide gap")
    friction: Number = Fraction(2, 5)


class Drawers(Part):
    """How all drawers of a case are made.

    Args:
        front: the fronts.
        corner: how sides meet the front.
        side: the sides.
        back: the backs.
        bottom: the bottoms.
        back_gap: between a drawer and the inside of the case's back.
        riding: what carries, holds down, guides and stops them.
    """

    front: Front
    corner: FrontCorner
    side: Side
    back: DrawerBack
    bottom: Bottom
    back_gap: Allowance = Field(alias="back room")
    riding: Riding = Field(default_factory=Riding)


class Pulls(Part):
    """Pulls, on lines that run through all rows.

    Args:
        row: the row whose drawers' middles are carried to the others.
        shares: where the lines run, as shares of the inside width from the left.
        raised: how far over the middle of a front, as a share of its height.
        base: how wide the foot of a pull is on the front.
        hole_diameter: of each hole.
        spacing: between the two holes of a handle; 0 for a knob.
        thread: how much of the screw goes into the pull.
    """

    row: Count | None = None
    shares: tuple[Number, ...] = ()
    raised: Number = Fraction(0)
    base: Size
    hole_diameter: Size = Field(alias="hole")
    spacing: Allowance = NO_LENGTH
    thread: Size


class CaseBack(Part):
    """What closes the case behind, in a rebate all round.

    Args:
        kind: "sheet"; "boards" side by side, upright; or "panel", one or more in the grooves of a frame.
        thickness: above 0, in the piece's unit.
        rebate: how far it reaches over the inside of the case, at each edge.
        ease: what a sheet or a frame is smaller than its rebate, at each edge.
        number: of boards, or of panels side by side.
        frame: width of a frame's members as they are seen.
        gap: what stays free at the dampest, between boards or in the bottom of a groove.
        least_overlap: what boards still cover, and what a panel still reaches into its grooves, at the driest.
    """

    kind: Annotated[BackKind, one_of("kind of back", get_args(BackKind))]
    thickness: Size
    rebate: Allowance = NO_LENGTH
    ease: Allowance = NO_LENGTH
    number: Count = 1
    frame: Allowance = NO_LENGTH
    gap: Allowance = NO_LENGTH
    least_overlap: Allowance = Field(default=NO_LENGTH, alias="overlap")


class Grain(Part):
    """Fronts out of one board, so that its figure runs on.

    Args:
        course: "along the rows" or "down the case".
        kerf: what the saw takes.
        trim: what is planed off between two neighbours, in all.
        dividers: "yes" where the dividers between them come from the same board.
    """

    course: Annotated[Course, one_of("course of the grain", get_args(Course))] = "along the rows"
    kerf: Size
    trim: Allowance = NO_LENGTH
    dividers: Annotated[Literal["yes", "no"], one_of("answer", ("yes", "no"))] = "no"


class SlottedStrip(Part):
    """Screws across the grain of the case's sides, as they hold runners and guides.

    Args:
        fixed_place: from the front edge of the case to the screw in a round hole.
        screws: from the front edge to each screw in a slot.
        gauge: of the screws, their number.
        extra: what a slot is longer than the wood's movement asks, at each end.
    """

    fixed_place: Size = Field(alias="fixed")
    screws: tuple[Size, ...]
    gauge: Count
    extra: Allowance = NO_LENGTH
