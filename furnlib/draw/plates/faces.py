"""The four faces of a square leg: their names, what the saw does to them, and their order going round."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from furnlib.plan.sizes.legs import LegSizes
from furnlib.trade.leg.end_cut import EndCut, Orientation, SawSetting

ORIENTATION_WORDS: dict[Orientation, str] = {
    "untwisted": "Untwisted: a plumb square leg leaned over, and not turned about its own length.",
    "front_level": "Front level: turned so that the level lines of its front and back faces run along the front.",
    "side_level": "Side level: turned so that the level lines of its side faces run along the side of the piece.",
    "sightline": "On the sight line: two upright faces stand plumb along the lean; the two others lean.",
    "sightline_corner": "Corner foremost: turned so that the outer corner points the way the leg leans.",
}
"""Each way to turn a leg, and what it means."""
_FACE_OF = {frozenset((0, 1)): 0, frozenset((0, 3)): 1, frozenset((2, 3)): 2, frozenset((1, 2)): 3}


@dataclass(frozen=True)
class Unrolled:
    """Long edges and faces of a square leg in the order in which they lie when its faces are laid flat.

    Args:
        edges: numbers of the long edges, as the corners of a leg are counted; 0 is the outer one.
        edge_offsets: how far each reaches past the axis at the foot, in the piece's unit.
        faces: names of the faces between them.
        mitres_deg: degrees by which the level cut runs off square on each.
    """

    edges: tuple[int, ...]
    edge_offsets: tuple[float, ...]
    faces: tuple[str, ...]
    mitres_deg: tuple[float, ...]


@dataclass(frozen=True)
class SquareLeg:
    """A square leg as saw and pencil see it.

    Args:
        leg: its sizes.
        square: side of its section, in the piece's unit.
        end_cut: its cuts.
    """

    leg: LegSizes
    square: Fraction
    end_cut: EndCut

    @property
    def settings(self) -> tuple[SawSetting, SawSetting]:
        """What to set for the face outward to the front or the back, and for the side face."""
        return self.end_cut.front_down, self.end_cut.side_down

    @property
    def faces(self) -> tuple[str, str, str, str]:
        """Names of the face that looks outward to the front or the back, the outer side, and their opposites."""
        if self.end_cut.orientation == "sightline":
            return "outer leaning", "upright", "inner leaning", "upright"
        if self.end_cut.orientation == "sightline_corner":
            return "foremost", "foremost", "hindmost", "hindmost"
        outward, inward = ("front", "back") if self.leg.outward[1] < 0 else ("back", "front")
        outer, inner = ("outer", "inner") if " " in self.leg.position else ("right", "left")
        return outward, f"{outer} side", inward, f"{inner} side"

    @property
    def hand(self) -> int:
        """1 for a front left and a rear right leg, -1 for the other two, 0 where a leg is its own mirror image."""
        return 0 if self.end_cut.orientation.startswith("sightline") else self.leg.outward[0] * self.leg.outward[1]

    def unrolled(self, edge: int = 0, count: int = 4) -> Unrolled:
        """Lay faces flat side by side.

        Seen from outside with the foot down, the outer side of a front left leg lies left of its front.

        Args:
            edge: the long edge in the middle.
            count: how many faces, 2 or 4; with 4 the last edge is the first once more.

        Returns:
            Edges and faces from left to right, foot down.
        """
        edges = tuple((edge + (self.hand or 1) * i) % 4 for i in range(-count // 2, count // 2 + 1))
        faces = [_FACE_OF[frozenset(pair)] for pair in pairwise(edges)]
        return Unrolled(
            edges,
            tuple(float(self.end_cut.edge_offsets[edge]) for edge in edges),
            tuple(self.faces[face] for face in faces),
            tuple(float(self.settings[face % 2].mitre_deg) for face in faces),
        )


def square_leg(leg: LegSizes) -> SquareLeg | None:
    """A leg as saw and pencil see it.

    Args:
        leg: one leg.

    Returns:
        Its section and its cuts; None where it is turned.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> square_leg(read_piece("notebooks/designs/landing_chest.yaml").legs[2]).faces
        ('back', 'outer side', 'front', 'inner side')
    """
    return SquareLeg(leg, leg.square, leg.end_cut) if leg.square and leg.end_cut else None
