"""What the plates of turned legs share: the leg lying, its labels in two rows, its beads and coves once more."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from furnlib.draw.drawing import Contour
from furnlib.draw.layout import Inset
from furnlib.draw.pen import Pen, spread
from furnlib.draw.plates.turned_groups import outline
from furnlib.draw.style import text_width_mm
from furnlib.plan.sizes.turned import TurnedLeg
from furnlib.trade.leg.lathe import LatheStep
from furnlib.trade.leg.turning import Profile

_APART_MM, _COLUMN_MM = 4.2, 3.8  # from one turned label to the next, from one in a column to the next
_FAN_MM = 5.0  # from the ticks to the labels
_CHORD_MM = 0.01


def stop_cuts(made: TurnedLeg) -> list[LatheStep]:
    """The stop cuts of a leg, one beside each square that something thinner meets.

    Args:
        made: the turned leg.

    Returns:
        Its steps of that kind, in order; none where no square is left.
    """
    return [step for step in made.steps if step.kind == "stop cut"]


def draw_turned(pen: Pen, made: TurnedLeg) -> None:
    """Draw a leg lying, its top end at zero: the outline above and below the axis, its joints, squares, stop cuts.

    Args:
        pen: the plate's pen.
        made: the turned leg.
    """
    profile = made.profile
    points, bulges = outline(profile)
    upper = Contour(tuple(points), tuple(bulges)).flattened(pen.mm(_CHORD_MM)).points
    pen.shape((*upper, *((x, -y) for x, y in reversed(upper))), "wood", "")
    for (start, stop), element in zip(pairwise(profile.joints), profile.elements, strict=True):
        half = min(element.start_diameter / 2, element.half_square)
        pen.line((start, -half), (start, half), kind="thin")
        if element.shape == "square":
            for side in (1, -1):
                pen.line((start, -side * half), (stop, side * half), kind="thin")
    pen.contour(points, bulges)
    pen.contour([(x, -y) for x, y in points], [-bulge for bulge in bulges])
    half = max(element.square for element in profile.elements) / 2
    for step in stop_cuts(made):
        for side in (1, -1):
            x, inner = step.distances[0], half - step.depth_at_flat
            pen.line((x, side * half), (x, side * inner), kind="cut")


def fan(pen: Pen, labels: list[tuple[float, str, str]], high: float, side: int) -> None:
    """Write labels above or below a leg, turned to be read from the right, each led to its place.

    Args:
        pen: the plate's pen.
        labels: in order, for each where it belongs along the axis, a size in bold, and words or "".
        high: from the axis to the ticks, in the piece's unit.
        side: 1 above, -1 below.
    """
    places = spread([at for at, _, _ in labels], pen.mm(_APART_MM))
    for (at, size, words), place in zip(labels, places, strict=True):
        out, end = side * high, side * (high + pen.mm(_FAN_MM))
        pen.line((at, out), (at, out + side * pen.mm(1.0)), (place, end), kind="dimension")
        foot, anchor = place + pen.mm(1.0), "start" if side > 0 else "end"
        pen.text((foot, end + side * pen.mm(1.0)), size, "body", anchor, 90.0, bold=True)
        if words:
            past = text_width_mm(size, "body") * 1.1 + 2.0
            pen.text((foot, end + side * pen.mm(past)), words, "small", anchor, 90.0)


def led_column(pen: Pen, labels: Sequence[tuple[float, float, str]], x: float) -> None:
    """Write words in a column right of a picture, each led to its place.

    Args:
        pen: the plate's pen.
        labels: for each its place, in the piece's unit, and what it says.
        x: where the column begins, in the same unit.
    """
    labels = sorted(labels, key=lambda label: label[1])
    for label, y in zip(labels, spread([label[1] for label in labels], pen.mm(_COLUMN_MM)), strict=True):
        pen.line(label[:2], (x - pen.mm(1.0), y), kind="dimension")
        pen.dot(label[:2], 0.5)
        pen.text((x, y - pen.mm(0.8)), label[2], "small")


def arched_spans(profile: Profile) -> list[tuple[float, float]]:
    """Where a leg has beads, coves and ogees.

    Args:
        profile: of the leg.

    Returns:
        Where each element with a crown begins and ends along the axis; none of a plain leg.

    Example:
        >>> from furnlib.trade.leg.elements import bead, cylinder
        >>> arched_spans(Profile((cylinder(60.0, 30.0), bead(10.0, 30.0, 30.0, 4.0))))
        [(60.0, 70.0)]
    """
    return [span for span in pairwise(profile.joints) if any(span[0] < x < span[1] for x, _ in profile.crowns)]


def draw_arched(pen: Pen, profile: Profile, view: Inset, whole: bool = True) -> None:
    """Draw once more what a leg has from its first bead, cove or ogee to its last.

    Args:
        pen: the plate's pen.
        profile: of a leg that has some.
        view: at the size wanted, its zero on the axis where the first begins.
        whole: False for the half above the axis.
    """
    spans = arched_spans(profile)
    start, stop = spans[0][0], spans[-1][1]
    bends = [bend for bend in profile.bends if start <= bend.start[0] and bend.end[0] <= stop]
    points = [(x - start, r) for x, r in (bends[0].start, *(bend.end for bend in bends))]
    for side in (1, -1) if whole else (1,):
        pen.contour([view.at(x, side * r) for x, r in points], [-side * bend.bulge for bend in bends])
    for x in (start, *(end for _, end in spans), *(x for x, _ in profile.crowns)):
        high = profile.radius_at(x)
        pen.line(view.at(x - start, -high if whole else 0.0), view.at(x - start, high), kind="thin")
