"""What the tests of the outlets share: the demo pieces, and a small drawing."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from furnlib.draw.drawing import Drawing

ROOT = Path(__file__).parents[2]
DESIGNS = ROOT / "notebooks" / "designs"
_FOLDER = TemporaryDirectory(prefix="bare-designs-")  # gone when the run ends
BARE = Path(_FOLDER.name)
"""The demos by their own names, each up to its line `climate:`: case, rows and legs, free of what drawers demand."""
for _file in DESIGNS.glob("*.yaml"):
    (BARE / _file.name).write_text(_file.read_text("utf-8").partition("\nclimate:")[0], "utf-8")
DEMOS = ("landing_chest", "landing_chest_inch")
NAMES = ("Overall", "Openings", "Legs", "Blank 1", "Leg profile 1", "Saw card")
OF_DRAWERS = ("Drawer 1", "Dovetail strip 1", "Fronts 1", "Fronts 2", "Case section", "Season band", "Drilling strip 1")
CLOSE_MM = 0.01  # on paper
SVG = "{http://www.w3.org/2000/svg}"


def first_of(names, *first):
    """All of these for a test: some in the default run, the rest with the slow ones, which CI runs too."""
    assert set(first) <= set(names)
    return [name if name in first else pytest.param(name, marks=pytest.mark.slow) for name in names]


def drawing_of(*items, scale=1.0, box=(-50.0, -50.0, 50.0, 50.0)):
    return Drawing("Test", tuple(items), scale, box, "mm", spoken='A test of "this" & <that>.')
