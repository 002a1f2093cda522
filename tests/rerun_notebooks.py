"""Run every notebook and store it as it is committed; draw the gallery that README and notebooks show.

    python tests/rerun_notebooks.py            # all notebooks and the gallery
    python tests/rerun_notebooks.py 05_splay_a_leg

Stored outputs keep the picture (SVG and PNG) and drop the widget's own view, which means nothing
without its kernel: so an unrun or untrusted copy still shows the picture.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient

from furnlib.draw.plates import plates_of
from furnlib.draw.plates.twins import twin_plate
from furnlib.plan.piece import read_piece

ROOT = Path(__file__).resolve().parent.parent
NOTEBOOKS = ROOT / "notebooks"
WHOLE = {"landing_chest", "stool_three_legs"}
ALWAYS = {"Overall", "In the round", "Openings", "Legs"}
ONE_WILL_DO = re.compile(r"(Drilling pattern|Dovetail strip|Openings stick) ([2-9]|[0-9]{2,})")
WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"


def rerun(path: Path) -> None:
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, kernel_name="python3", resources={"metadata": {"path": str(path.parent)}}).execute()
    notebook.metadata = {
        "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
        "language_info": {"name": "python"},
    }
    for number, cell in enumerate(notebook.cells):
        cell["id"] = f"cell-{number}"
        cell.metadata.pop("execution", None)
        for output in cell.get("outputs", ()):
            output.get("data", {}).pop(WIDGET_VIEW, None)
    nbformat.write(notebook, path)


def draw_gallery() -> None:
    """Every plate of two demo pieces, of the others what they look like, and the chest beside its twin."""
    gallery = ROOT / "figures" / "gallery"
    gallery.mkdir(parents=True, exist_ok=True)
    for old in gallery.iterdir():
        old.unlink()
    for design in sorted((NOTEBOOKS / "designs").glob("*.yaml")):
        for plate in plates_of(read_piece(design)):
            if design.stem not in WHOLE and plate.name not in ALWAYS:
                continue
            if ONE_WILL_DO.fullmatch(plate.name):
                continue
            stem = f"{design.stem}_{plate.name.lower().replace(' ', '_')}"
            plate.save(gallery / f"{stem}.png")
            plate.save(gallery / f"{stem}.svg")
    chests = (read_piece(NOTEBOOKS / "designs" / f"landing_chest{shop}.yaml") for shop in ("", "_inch"))
    twin_plate(*chests).save(gallery / "landing_chest_twins.svg")


if __name__ == "__main__":
    wanted = [NOTEBOOKS / f"{name}.ipynb" for name in sys.argv[1:]] or sorted(NOTEBOOKS.glob("*.ipynb"))
    if not sys.argv[1:]:
        draw_gallery()
    for notebook_path in wanted:
        rerun(notebook_path)
        print(notebook_path.name)
