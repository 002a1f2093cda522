"""The piece in the round: a solid of each part, and a file of them that turns on a screen.

The room frame: x to the piece's own right, y to the front, z up. Plan points are seen from the front,
across and back; turned half round about the left end of the front edge they are the room's:
x = -across, y = -back. The floor is z = 0.
"""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import trimesh
from trimesh.visual import TextureVisuals
from trimesh.visual.color import hex_to_rgba
from trimesh.visual.material import PBRMaterial

from furnlib.base.files import whole_file
from furnlib.base.guards import DesignError
from furnlib.draw.plates.bodies import Body, bodies, leg_body
from furnlib.draw.scale import MM_UNIT
from furnlib.draw.style import TINTS
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import LegSizes


def leg_solid(leg: LegSizes) -> trimesh.Trimesh:
    """A leg as it stands in the room, cut level at the floor and at the underside.

    A turned leg is a loft over 48 corners that stand on its circles, so it holds a little less wood
    than the true one. Under a seat its tenon goes up through the seat, its end flush with the top.

    Args:
        leg: one leg of a finished piece.

    Returns:
        A closed mesh, in the piece's unit.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> leg = read_piece("notebooks/designs/practice_stool.yaml").legs[0]
        >>> wood = 32 * 32 * (leg.axis_length + leg.drilling.length_in_seat)
        >>> solid = leg_solid(leg)
        >>> solid.is_watertight, float(solid.volume / wood)
        (True, 1.0)
    """
    return _mesh(leg_body(leg))


def piece_solid(piece: Piece) -> trimesh.Scene:
    """Every part of a piece as it stands in the room.

    Args:
        piece: a finished piece.

    Returns:
        A scene with a closed mesh for each leg, for the seat or for each board of the case, under its
        name in plain words, in the piece's unit; openings are left open.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> sorted(piece_solid(read_piece("notebooks/designs/stool_three_legs.yaml")).geometry)
        ['front left leg', 'front right leg', 'rear leg', 'seat']
    """
    scene = trimesh.Scene()
    for body in bodies(piece):
        scene.add_geometry(_mesh(body), node_name=body.name, geom_name=body.name)
    return scene


def save_solid(piece: Piece, path: str | Path) -> Path:
    """Write a piece as a file that turns on a screen (GLB); same piece, same bytes.

    What reads such a file takes it to be in metres, with y up, z to the front and x to the left; so it
    is written.

    Args:
        piece: a finished piece.
        path: file to write, whole or not at all; it ends in .glb.

    Returns:
        The path.

    Raises:
        DesignError: when the ending is another.

    Example:
        >>> import tempfile
        >>> from furnlib.plan.piece import read_piece
        >>> chest = read_piece("notebooks/designs/landing_chest.yaml")
        >>> with tempfile.TemporaryDirectory() as folder:
        ...     save_solid(chest, f"{folder}/chest.glb").read_bytes()[:4]
        b'glTF'
    """
    target = Path(path)
    if target.suffix.lower() != ".glb":
        raise DesignError(f"A piece in the round is written as .glb, not '{target.suffix}'; end the name in .glb.")
    scene = piece_solid(piece)
    metres = MM_UNIT[piece.design.unit] / 1000
    for mesh in scene.geometry.values():
        mesh.apply_transform([[-metres, 0, 0, 0], [0, 0, metres, 0], [0, metres, 0, 0], [0, 0, 0, 1]])
    with whole_file(target) as stream:
        stream.write(scene.export(file_type="glb"))
    return target


def _mesh(body: Body) -> trimesh.Trimesh:
    """The faces between rings and the two lids, corners in one place made one."""
    number = {place: i for i, place in enumerate(dict.fromkeys(place for ring in body.outlines for place in ring))}
    rings = [[number[place] for place in ring] for ring in body.outlines]
    faces = [(ring[0], *pair) for ring in (rings[0][::-1], rings[-1]) for pair in pairwise(ring[1:])]
    for low, high in pairwise(rings):
        for a, b, c, d in zip(low, low[1:] + low[:1], high[1:] + high[:1], high, strict=True):
            faces += [(a, b, c), (a, c, d)]
    corners = [(-across, -back, up) for across, back, up in number]
    tint = hex_to_rgba(TINTS["wood"])
    wood = PBRMaterial(name="wood", baseColorFactor=tint, metallicFactor=0.0, roughnessFactor=0.8)
    return trimesh.Trimesh(
        corners, [face for face in faces if len(set(face)) == 3], process=False, visual=TextureVisuals(material=wood)
    )
