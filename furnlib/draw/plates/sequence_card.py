"""At the lathe: what is done to a turned leg in order, with its settings, its speeds, and where it tears or whips."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import count, groupby
from typing import NamedTuple

from furnlib.base.guards import DesignError
from furnlib.base.units import Unit, write_number
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.layout import NO_BREAK, folded
from furnlib.draw.pen import Pen
from furnlib.draw.plates.blank_card import longest_blank
from furnlib.draw.plates.card import ROOM_MM, cautions, finished
from furnlib.draw.plates.groups import Group, heading
from furnlib.draw.plates.turned_groups import turned_groups
from furnlib.draw.plates.turned_parts import stop_cuts
from furnlib.draw.plates.views import written
from furnlib.draw.scale import fitting_scale, ratio_words
from furnlib.draw.style import TEXT_MM
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.turned import TurnedLeg
from furnlib.trade.cautions import LATHE, STRUCTURE
from furnlib.trade.leg.lathe import LatheStep
from furnlib.trade.leg.whirling import clearance, whirling_share

_STEPS_MM, _PICTURE_MM = 114.0, 52.0  # width of the steps; the most that the picture takes either way
_COLUMNS, _COLUMN_MM, _NUMBER_MM, _SETTING_MM, _TICK_MM = 3, 62.0, 5.0, 17.0, 2.0
_LINE_MM = TEXT_MM["small"] * 1.5
_EASY, _DEEP = 14, 50  # lines that a column of settings holds on the card where that is enough, and on further sheets
_MANY = 10  # places are named up to so many, and past that counted
_FROM = "All places run from the leg's top end along its axis; the blank begins earlier, by waste, kerf and end cut."
_SHOWN = ("the steps", "settings and cuts")
_FOLLOW = "Settings of the calipers and cuts follow on the next sheet."
_TWICE = "A place under two settings is a step: size on either side of its line."
_SLIM = {
    "not needed": "no steady is needed",
    "at hand": "keep a steady at hand for its middle",
    "needed": "a steady must hold its middle",
}


class _Block(NamedTuple):
    """A setting or a cut, a box to tick before its lines; or a title with its notes, which begins a column."""

    lines: list[str]
    setting: str = ""
    title: bool = False


_Column = list[_Block]


def sequence_sheets(piece: Piece) -> tuple[tuple[Group, tuple[_Column, ...]], ...]:
    """Share the work at the lathe out.

    Args:
        piece: a finished piece.

    Returns:
        For each sheet the legs it is for, and the columns of settings on it: none on the card itself
        where they are so many that they follow on sheets of their own.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> [len(group) for group, _ in sequence_sheets(read_piece("notebooks/designs/landing_chest.yaml"))]
        [2, 2]
    """
    sheets: list[tuple[Group, tuple[_Column, ...]]] = []
    for group in turned_groups(piece):
        made = longest_blank(group)
        blocks, pen = list(_blocks(made, piece.design.unit)), _pen(made, piece.design.unit)
        columns = next(found for deep in count(_EASY) if len(found := _columns(blocks, deep)) <= _COLUMNS)
        _draw(pen, group, tuple(columns), made)
        _, low, _, high = pen.reach()
        if (high - low) * pen.scale <= ROOM_MM[1]:
            sheets.append((group, tuple(columns)))
        else:
            columns = _columns(blocks, _DEEP)
            parts = [columns[i : i + _COLUMNS] for i in range(0, len(columns), _COLUMNS)]
            sheets += [(group, tuple(part)) for part in ([], *parts)]
    return tuple(sheets)


def sequence_plate(piece: Piece, number: int = 1) -> Drawing:
    """Draw a card for the lathe, or a sheet of the settings that did not fit on it.

    Args:
        piece: a finished piece with turned legs.
        number: of the sheet, from 1; each length of leg has a card, and sheets after it where its settings are many.

    Returns:
        The steps in order, the settings of the calipers and the cuts with boxes to tick, the stop cut from
        the end, speeds, and what to mind.

    Raises:
        DesignError: when the piece has no such sheet.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sequence_plate(read_piece("notebooks/designs/landing_chest.yaml")).name
        'Sequence card 1'
    """
    sheets, unit = sequence_sheets(piece), piece.design.unit
    if not 1 <= number <= len(sheets):
        raise DesignError(
            f"{piece.design.piece} has no sequence card {number}, it has {len(sheets)}: one or more for each length of"
            " turned leg."
        )
    group, columns = sheets[number - 1]
    made, follows = longest_blank(group), number > 1 and sheets[number - 2][0] is group
    pen = _pen(made, unit)
    told = [f"{' '.join((block.setting, *block.lines)).strip(' .')}." for column in columns for block in column]
    if follows:
        y = heading(pen, group, (0.0, 0.0), "settings and cuts at the lathe, to the card before")
        y = pen.paragraphs((0.0, y), (_FROM,), ROOM_MM[0]) - pen.mm(1.5)
        cautions(pen, (0.0, _settings(pen, columns, (0.0, y)) - pen.mm(2.0)), "At the lathe", LATHE, ROOM_MM[0])
    else:
        _draw(pen, group, columns, made)
        told = [
            *(said.replace(NO_BREAK, " ") for said in _sentences(made, unit)),
            *told,
            *_speed_words(made, unit),
            *_strength_words(made, unit),
        ]
    return finished(
        pen,
        f"Sequence card {number}" if len(sheets) > 1 else "Sequence card",
        (group,),
        f"Turned legs of {piece.design.piece} at the lathe: {_SHOWN[follows]} in order.",
        [f": roughed to ⌀ {written(_rough(made), unit)}, then sized and shaped from thick to thin"],
        [told],
        ("lathe.depth_at_flat", "lathe.depth_at_corner", "lathe.rim_speed")
        + (("strength.tenon",) if made.screen else ()),
    )


def _pen(made: TurnedLeg, unit: Unit) -> Pen:
    """A pen at the scale of the picture."""
    side = _section(made)[0]
    return Pen(fitting_scale(side, side, unit, 0.0, 0.0, (_PICTURE_MM, _PICTURE_MM)), unit)


def _draw(pen: Pen, group: Group, columns: tuple[_Column, ...], made: TurnedLeg) -> None:
    """The steps with the picture beside them, the settings, the speeds, and what to mind."""
    y = heading(pen, group, (0.0, 0.0), "the steps at the lathe, in order")
    y = pen.paragraphs((0.0, y), (_FROM if columns else f"{_FROM} {_FOLLOW}",), ROOM_MM[0]) - pen.mm(1.0)
    _, low = pen.place((pen.mm(_STEPS_MM + 6.0), y - pen.mm(1.0)), lambda pen, middle: _from_the_end(pen, made, middle))
    for number, sentence in enumerate(_sentences(made, pen.unit), 1):
        pen.lines((0.0, y), (str(number),), "small", 1.5)
        y = pen.paragraphs((pen.mm(_NUMBER_MM), y), (sentence,), _STEPS_MM - _NUMBER_MM) - pen.mm(0.7)
    y = min(y, low) - pen.mm(1.5)
    if columns:
        y = _settings(pen, columns, (0.0, y)) - pen.mm(1.5)
    right, low = pen.table((0.0, y), _speed_rows(made), bold_columns=(1,))
    beside, words = right + pen.mm(4.0), (*_speed_words(made, pen.unit), *_strength_words(made, pen.unit))
    y = min(low, pen.paragraphs((beside, y), words, ROOM_MM[0] - beside * pen.scale, gap_mm=0.6)) - pen.mm(1.5)
    y = cautions(pen, (0.0, y), "At the lathe", LATHE, ROOM_MM[0]) - pen.mm(1.5)
    if made.screen:
        cautions(pen, (0.0, y), "What strength figures are", STRUCTURE, ROOM_MM[0])


def _rough(made: TurnedLeg) -> float:
    return next(step.diameters[0] for step in made.steps if step.kind == "rough")


def _section(made: TurnedLeg) -> tuple[float, LatheStep | None]:
    """Side of the square in the picture: the one beside the first stop cut, or the blank."""
    stop = next(iter(stop_cuts(made)), None)
    side = max(element.square for element in made.profile.elements) if stop else float(made.blank.side)
    return side, stop


def _from_the_end(pen: Pen, made: TurnedLeg, middle: Point) -> None:
    """The square with the round in it, seen along the axis, and what comes off at flat and corner."""
    (x, y), (side, stop), unit = middle, _section(made), pen.unit
    half, share = side / 2, 0.5**0.5
    radius = (stop.diameters[0] if stop else _rough(made)) / 2
    pen.box(x - half, y - half, x + half, y + half, "far", hatch=True)
    pen.dot(middle, radius * pen.scale, "wood")
    pen.circle(middle, radius)
    for ends in ((-half * 1.08, 0.0), (half * 1.08, 0.0)), ((0.0, -half * 1.08), (0.0, half * 1.08)):
        pen.line(*((x + across, y + up) for across, up in ends), kind="centre")
    round_size, square = written(2 * radius, unit), written(side, unit)
    pen.centred((x + radius * 0.4, y - radius * 0.4), f"⌀ {round_size}")
    sizes = f"□{NO_BREAK}{square}, roughed to ⌀{NO_BREAK}{round_size}"
    words = f"The blank, seen along the axis, {ratio_words(pen.scale, unit)}: {sizes}."
    if stop:
        at_flat, at_corner = written(stop.depth_at_flat, unit), written(stop.depth_at_corner, unit)
        if stop.depth_at_flat:
            pen.dimension((x - radius, y), (x - half, y), 0.0, at_flat)
        pen.dimension((x + radius * share, y + radius * share), (x + half, y + half), 0.0, at_corner)
        words = (
            f"Stop cut at {written(stop.distances[0], unit)}, seen along the axis, {ratio_words(pen.scale, unit)}:"
            f" □{NO_BREAK}{square}. {at_flat} comes off at the flat, {at_corner} at the corner: here it tears."
        )
    pen.paragraphs((x - half, y - half - pen.mm(1.5)), (words,), _PICTURE_MM + 4.0)


def _places(distances: Iterable[float], unit: Unit) -> str:
    """Each place once; so many that nobody reads them in a sentence are only counted."""
    places = list(dict.fromkeys(written(at, unit) for at in distances))
    return ", ".join(places) if len(places) <= _MANY else f"{len(places)} places on the stick"


def _sentences(made: TurnedLeg, unit: Unit) -> list[str]:
    """What is done in each step, where, and how fast the spindle turns."""
    said, own = [], made.allowances.speed
    for kind, same in groupby(made.steps, key=lambda step: step.kind):
        steps = list(same)
        rpm = float(own) if own and kind == "blend" else steps[0].spindle_rpm
        turns = f"{rpm:g} turns a minute" if rpm else "lathe standing"
        said.append(f"{_sentence(steps, made, unit)} ({turns}).")
    return said


def _sentence(steps: list[LatheStep], made: TurnedLeg, unit: Unit) -> str:
    step, left = steps[0], written(made.allowances.finishing or 0, unit)
    match step.kind:
        case "centre":
            said = "Centre the blank on the diagonals of both ends; the points bite into the waste only"
        case "line":
            said = f"Square a line round all four faces at {_places(step.distances, unit)}: there a square ends"
        case "nick":
            said = f"Nick the corners on each line, {_places(step.distances, unit)}, with the long point of the skew"
        case "stop cut":
            alike = groupby(steps, key=lambda cut: (cut.diameters[0], cut.depth_at_flat, cut.depth_at_corner))
            cuts = (
                f"at {_places((cut.distances[0] for cut in same), unit)} down to ⌀{NO_BREAK}{written(size, unit)},"
                f" {written(at_flat, unit)} at the flat and {written(at_corner, unit)} at the corner"
                for (size, at_flat, at_corner), same in alike
            )
            said = f"Stop cut from the waste side, in light cuts: {'; '.join(cuts)}"
        case "rough":
            what = "all that is not square" if _section(made)[1] else "the whole blank"
            said = f"Rough {what} to ⌀ {written(step.diameters[0], unit)}"
        case "mark":
            said = f"Mark from the story stick: {_places(step.distances, unit)}"
        case "size":
            said = (
                f"Size with parting tool and calipers in the order given, largest first; {left} stays on the radius for"
                " the finishing cut"
            )
        case "shape":
            said = (
                "Shape downhill in the order given, from thick to thin; the thinnest last, so that the leg stays stiff"
            )
        case "blend":
            said = "Blend it all with light finishing cuts"
        case "sand":
            said = "Take the rest away and sand along the leg"
        case "cut off":
            said = "Take the leg off and saw both wastes off; the level cuts as its saw card or cradle says"
    return said


def _blocks(made: TurnedLeg, unit: Unit) -> Iterator[_Block]:
    """The settings of the calipers and the cuts that shape, in working order."""
    sizes = [step for step in made.steps if step.kind == "size"]
    where = [written(at, unit) for step in sizes for at in dict.fromkeys(step.distances)]
    note = folded(_TWICE, _COLUMN_MM - 2.0, "small") if len(set(where)) < len(where) else []
    yield _Block(["Calipers: ⌀, and where", *note], title=True)
    for setting, same in groupby(sizes, key=lambda step: written(step.diameters[0], unit)):
        there = sorted(at for step in same for at in step.distances)
        places = ", ".join(dict.fromkeys(written(at, unit) for at in there))
        yield _Block(folded(places, _COLUMN_MM - _SETTING_MM - 2.0, "small"), f"⌀ {setting}")
    yield _Block(["Cuts downhill"], title=True)
    for step in made.steps:
        if step.kind == "shape":
            thick, thin, start, end = (written(size, unit) for size in (*step.diameters, *step.distances))
            straight = f"⌀ {thick} from {start} to {end}"
            yield _Block([straight if thick == thin else f"⌀ {thick} at {start} to ⌀ {thin} at {end}"])


def _columns(blocks: list[_Block], deep: int) -> list[_Column]:
    """Let blocks flow through columns of so many lines."""
    columns, used = [_Column()], 0
    for block in blocks:
        if columns[-1] and (block.title or used + len(block.lines) > deep):
            columns.append([])
            used = 0
        columns[-1].append(block)
        used += len(block.lines)
    return columns


def _settings(pen: Pen, columns: Iterable[_Column], at: Point) -> float:
    """Write columns of settings and cuts; how low they reach."""
    low = at[1]
    for number, column in enumerate(columns):
        x, y = at[0] + pen.mm(number * _COLUMN_MM), at[1]
        for block in column:
            line = y - pen.mm(_LINE_MM)
            if block.title:
                pen.text((x, line), block.lines[0], "small", bold=True)
                y = pen.lines((x, line), block.lines[1:], "small", 1.5)
                continue
            pen.box(x, line - pen.mm(0.2), x + pen.mm(_TICK_MM), line + pen.mm(_TICK_MM - 0.2), kind="thin")
            if block.setting:
                pen.text((x + pen.mm(_NUMBER_MM), line), block.setting, "small", bold=True)
            y = pen.lines((x + pen.mm(_SETTING_MM if block.setting else _NUMBER_MM), y), block.lines, "small", 1.5)
        low = min(low, y)
    return low


def _speed_rows(made: TurnedLeg) -> list[tuple[str, str]]:
    """Turns a minute, as printed for such a swing, and the maker's own."""
    speeds, own = made.speeds, made.allowances.speed
    rows = [
        ("turns a minute", ""),
        ("roughing", f"{speeds.roughing_rpm:g}"),
        ("general", f"{speeds.general_rpm:g}"),
        ("finishing", f"{speeds.finishing_rpm:g}"),
    ]
    return [*rows, ("finishing, own", f"{float(own):g}")] if own else rows


def _speed_words(made: TurnedLeg, unit: Unit) -> list[str]:
    """Where the speeds come from, how fast the corners go, at what speed the leg would whirl, how slim it is."""
    source, swing = made.speeds.source, written(made.blank.swing, unit)
    words = [
        f"Speeds for such a swing, {source}. Guidance only: the handbook of your own lathe goes before.",
        f"At {made.speeds.roughing_rpm:g} turns a minute the corners, ⌀ {swing}, go round at"
        f" {write_number(made.rim_speed, 1)} m/s.",
        f"The leg is {write_number(made.slenderness, 1)} times as long as it is thin: {_SLIM[made.steady]}.",
    ]
    if made.whirling_rpm:
        share = whirling_share(float(made.allowances.speed or made.speeds.finishing_rpm), made.whirling_rpm)
        words.append(
            f"Between plain centres it would whirl at about {float(f'{made.whirling_rpm:.2g}'):.0f} turns a minute; its"
            f" finishing speed is {write_number(share)} of that, {clearance(share)}."
        )
    else:
        words.append("The design names no wood, so its whirling speed is not told.")
    return words


def _strength_words(made: TurnedLeg, unit: Unit) -> list[str]:
    """Where it is bent most, and how near that comes to the weak end of its wood."""
    if not (made.screen and made.loads and made.wood):
        return []
    push, upright = (write_number(load) for load in (made.loads.push, made.loads.upright))
    weakest = written(made.profile.length - made.screen.distance, unit)
    stress = write_number(made.screen.bending_mpa, 1)
    share = f"{100 * made.screen.low_strength_share:.0f} %"
    return [
        f"Taken to meet {push} kg pushed at the foot and {upright} kg upright, it is bent most at {weakest}: {stress}"
        f" N/mm², {share} of the low end of the handbook's strength of {made.wood.name}. It"
        " shows a thin place and is no rating."
    ]
