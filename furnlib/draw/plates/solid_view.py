"""The piece in the round: an isometric view from the front, the right and above.

Nearer parts are drawn over farther ones, each part from its farther end to its nearer; a stretch of a
part between two rings is convex, so that its outline on paper is the rubber band round its corners.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, pairwise
from math import dist
from operator import eq

from furnlib.base.angles import cosd, sind, square_root
from furnlib.base.shapes import convex_outline
from furnlib.draw.drawing import Drawing, Point
from furnlib.draw.pen import Pen
from furnlib.draw.plates.bodies import Body, Place, Ring, bodies, goes_through, leg_body
from furnlib.draw.plates.card import fitted
from furnlib.draw.scale import ratio_words
from furnlib.plan.piece import Piece, SeatPiece

_TO_EYE = (1.0, -1.0, 1.0)
"""To the right, to the front and up by as much: so the three axes are equally short, 120° apart."""
_FEW = 8  # corners of a ring: each face is filled by itself
_COS_ROUND, _COS_ALONG = cosd(30.0), cosd(60.0)
"""Faces that meet more sharply meet in an edge: round the part, and along it, where a square fades into a round."""
_SEEN, _LEVEL = 1e-9, 0.7  # above the one a face is seen, above the other it looks up
_ROUND = 0.25
_SEEN_FROM = (
    "From the front, the right and above; {} along width, depth and height alike. Slanting lengths are not to be"
    " measured here."
)
_WORDS_MM = 90.0


def solid_plate(piece: Piece, scale: float | None = None) -> Drawing:
    """Draw the whole piece in the round.

    Args:
        piece: a finished piece.
        scale: mm on paper for one unit of the piece along its width, depth and height; by default the
            largest that fits a sheet.

    Returns:
        The piece from the front, the right and above, a case without its drawers, hidden edges left
        out.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> print(solid_plate(read_piece("notebooks/designs/landing_chest.yaml")).caption.splitlines()[1])
        Isometric: 1 : 10 along width, depth and height alike; no length that slants is to be taken off it.
    """
    view = Pen(1.0, piece.design.unit)
    _draw(view, piece)

    def draw(pen: Pen) -> None:
        pen.items.extend(view.items)
        left, low, right, _ = pen.reach()
        seen = _SEEN_FROM.format(ratio_words(pen.scale, pen.unit))
        pen.paragraphs((left, low - pen.mm(3.0)), (seen,), max((right - left) * pen.scale, _WORDS_MM))

    pen = fitted(view.unit, draw, scale)
    ratio = ratio_words(pen.scale, pen.unit)
    return pen.drawing(
        "In the round",
        caption=f"{piece.design.piece} in the round, from the front, the right and above.\nIsometric: {ratio} along"
        " width, depth and height alike; no length that slants is to be taken off it.",
        spoken=f"{piece.design.piece} seen from the front, the right and above, in isometric view at {ratio}: "
        f"{', '.join(body.name for body in bodies(piece))}.",
    )


def on_paper(place: Place) -> Point:
    """Where a place in space is seen: width to the lower right, depth to the upper right, height up.

    Args:
        place: across, back and up, in the piece's unit.

    Returns:
        The point, at one scale along all three axes.

    Example:
        >>> on_paper((0.0, 0.0, 5.0)), on_paper((4.0, 0.0, 2.0))
        ((0.0, 5.0), (3.464, 0.0))
    """
    across, back, up = place
    return (across + back) * cosd(30.0), (back - across) * sind(30.0) + up


def _draw(pen: Pen, piece: Piece) -> None:
    """Legs from the back to the front and what stands on them; the legs last where a steep seat shows its underside."""
    legs = sorted(piece.legs, key=lambda leg: sum(across - back for across, back in (leg.top, leg.foot)))
    under = [leg_body(leg, in_seat=False) for leg in legs]
    above = bodies(piece)[len(legs) :]
    covered = _dot(_normal(above[-1].outlines[-1]), _TO_EYE) > 0
    for body in (*under, *above) if covered else (*above, *under):
        _draw_body(pen, body)
    if covered and isinstance(piece, SeatPiece):
        for leg in filter(goes_through, legs):
            pen.shape(map(on_paper, leg_body(leg).outlines[-1]), "wood", "thin")


def _draw_body(pen: Pen, body: Body) -> None:
    """One part, from its farther end to its nearer: each convex run of stretches filled, then its edges drawn."""
    rings, faces = body.outlines, _faces(body.outlines)
    last, edges = len(rings) - 1, Pen(pen.scale, pen.unit)
    axis = _step(rings[0][0], rings[last][0])
    away = _dot(axis, _TO_EYE) < 0
    lids = [(rings[0], faces[0][0]), (rings[last], faces[-1][0])]
    _fill(pen, lids[away : away + 1])
    for i in range(last, 0, -1) if away else range(1, last + 1):
        low, high = rings[i - 1], rings[i]
        far = i if away else i - 1
        goes_on = far in (0, last) or _goes_on(rings[far - 1 : far + 2], faces[far : far + 2], axis)
        if not goes_on:
            pen.items += edges.items
            edges.items.clear()
        if len(low) <= _FEW:
            _fill(pen, zip(_quads(low, high), faces[i], strict=True))
        else:
            pen.shape(convex_outline([on_paper(place) for place in (*low, *high)]), "wood", "")
        kinds = _kinds([faces[i][-1], *faces[i][:-1]], faces[i], _COS_ALONG)
        for start, end, kind in zip(low, high, kinds, strict=True):
            if kind and start != end:
                edges.line(on_paper(start), on_paper(end), kind=kind)
        _draw_ring(edges if goes_on else pen, rings[far], faces[far : far + 2], 0.0 if far in (0, last) else _ROUND)
    pen.items += edges.items
    near = 0 if away else last
    _fill(pen, lids[1 - away : 2 - away])
    _draw_ring(pen, rings[near], faces[near : near + 2])


def _goes_on(rings: Sequence[Ring], faces: Sequence[list[Place]], axis: Place) -> bool:
    """Whether a part is convex where two stretches meet, its faces looking apart, or an end cut goes through there."""
    if any(map(eq, rings[0], rings[1])) or any(map(eq, rings[1], rings[2])):
        return True
    return sum(_dot(_step(one, other), axis) for one, other in zip(*faces, strict=True)) > -_SEEN * abs(axis[2])


def _fill(pen: Pen, faces: Iterable[tuple[Sequence[Place], Place]]) -> None:
    """Those of some faces that are seen; what looks up is paler."""
    for corners, normal in faces:
        if _dot(normal, _TO_EYE) > _SEEN:
            pen.shape(map(on_paper, corners), "far" if normal[2] > _LEVEL else "wood", "")


def _draw_ring(pen: Pen, ring: Ring, faces: Sequence[list[Place]], least: float = 0.0) -> None:
    """The edges along a ring between the faces below and above it, neighbours of one kind in one line.

    Edges on less than a least share of the ring are none that goes round: a square fades into a round there.
    """
    kinds = _kinds(faces[0], faces[1], _COS_ROUND)
    if kinds.count("thin") < len(kinds) * least:
        kinds = [kind if kind == "visible" else "" for kind in kinds]
    first = next((j for j, kind in enumerate(kinds) if kind != kinds[j - 1]), 0)
    corners = [*ring[first:], *ring[: first + 1]]
    j = 0
    for kind, run in groupby((*kinds[first:], *kinds[:first])):
        count = len(list(run))
        if kind:
            pen.line(*map(on_paper, corners[j : j + count + 1]), kind=kind)
        j += count


def _kinds(ones: Sequence[Place], others: Sequence[Place], cos_edge: float) -> list[str]:
    """How the edges between faces are drawn, by where these look: outlines, edges inside them, or not at all."""
    kinds = []
    for one, other in zip(ones, others, strict=True):
        seen = [_dot(normal, _TO_EYE) > _SEEN for normal in (one, other)]
        sharp = _dot(one, other) < cos_edge
        kinds.append("visible" if seen[0] != seen[1] else "thin" if seen[0] and sharp else "")
    return kinds


def _faces(rings: tuple[Ring, ...]) -> list[list[Place]]:
    """Where the faces look: those of the lower lid, of each stretch, of the upper lid, all by the sides of a ring.

    A face without extent, where an end cut gathers the rings, looks as its neighbour along the part does.
    """
    stretches = [[_normal(quad) for quad in _quads(low, high)] for low, high in pairwise(rings)]
    for way in (stretches[::-1], stretches):
        for before, after in pairwise(way):
            after[:] = [face if any(face) else before[j] for j, face in enumerate(after)]
    count = len(rings[0])
    return [[_normal(rings[0][::-1])] * count, *stretches, [_normal(rings[-1])] * count]


def _sides(ring: Ring) -> Iterator[tuple[Place, Place]]:
    return zip(ring, ring[1:] + ring[:1], strict=True)


def _quads(low: Ring, high: Ring) -> list[tuple[Place, ...]]:
    return [(a, b, d, c) for (a, b), (c, d) in zip(_sides(low), _sides(high), strict=True)]


def _normal(corners: Sequence[Place]) -> Place:
    """The way a face looks, of length 1, from its corners counter-clockwise; 0 where it has no extent."""
    x = y = z = 0.0
    for (a, b, c), (d, e, f) in _sides(tuple(corners)):
        x, y, z = x + (b - e) * (c + f), y + (c - f) * (a + d), z + (a - d) * (b + e)
    size, reach = square_root(x * x + y * y + z * z), max(dist(corners[0], corner) for corner in corners)
    return (x / size, y / size, z / size) if size > 1e-9 * reach * reach else (0.0, 0.0, 0.0)


def _step(start: Place, end: Place) -> Place:
    return end[0] - start[0], end[1] - start[1], end[2] - start[2]


def _dot(one: Place, other: Place) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
