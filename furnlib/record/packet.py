"""The packet for the bench: an offline page, the plates on paper, the sizes for other tools.

A packet is written whole or not at all, and says what changed since the one that stood there. The
same design gives the same bytes: no clock stands in it.
"""

from __future__ import annotations

import contextlib
import csv
import io
import json
import math
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup

from furnlib.base.files import whole_folder
from furnlib.base.guards import DesignError, nearest_word
from furnlib.base.units import write_gap, write_length
from furnlib.draw.drawing import Drawing
from furnlib.draw.file_outlet import save_pdf_pages
from furnlib.draw.plates import leg_pattern, plates_of, turned_groups
from furnlib.draw.plates.bank_kinds import bank_kinds
from furnlib.draw.plates.drawer import drawer_kinds
from furnlib.draw.sheet import PAPER_MM, Paper, sheet
from furnlib.draw.solid import save_solid
from furnlib.plan.piece import Piece
from furnlib.plan.sizes.legs import GAUGE_HEIGHT, mirror_groups
from furnlib.plan.sizes.size import Chain, Size
from furnlib.record.stamp import stamp_line, title_of
from furnlib.trade.cautions import CRADLE, DRILLING, FINISH, LATHE, MACHINE, SEAT, STRUCTURE, TABLE_SAW, TIP_OVER

_MARK = "furnlib packet 1"
_BESIDE = (
    ("Saw card", TABLE_SAW),
    ("Strip", TABLE_SAW),
    ("Drilling card", DRILLING),
    ("Fixing", DRILLING),
    ("Cradle", CRADLE),
    ("Sequence card", LATHE),
    ("Leg profile", STRUCTURE),
    ("Fronts", MACHINE),
    ("Drilling pattern", DRILLING),
    ("Dovetail strip", MACHINE),
    ("Drilling strip", DRILLING),
)
_RECORD = "piece.json"
_SOLID = "piece.glb"
_ABOUT = ("piece", "revision", "unit")


@dataclass(frozen=True)
class Change:
    """One size that differs from the packet that stood there.

    Args:
        name: of the size.
        before: as it was written; empty where it is new.
        after: as it is written now; empty where it is gone.
    """

    name: str
    before: str
    after: str

    def __str__(self) -> str:
        if not self.before:
            return f"{self.name}: new, {self.after}"
        return (
            f"{self.name}: {self.before} became {self.after}" if self.after else f"{self.name}: gone, was {self.before}"
        )


@dataclass(frozen=True)
class Packet:
    """A packet as it was written.

    Args:
        folder: where it stands.
        files: what is in it, relative to the folder.
        changes: what differs from the packet that stood there; none for a first packet.
        first: True where no packet stood there.
    """

    folder: Path
    files: tuple[str, ...]
    changes: tuple[Change, ...]
    first: bool


def _size_record(size: Size) -> dict[str, Any]:
    exact = str(size.value) if isinstance(size.value, Fraction) else None
    return {
        "name": size.name, "value": float(size.value), "exact": exact, "unit": size.unit,
        "written": size.words, "rule": size.rule, "formula": size.formula,
    }  # fmt: skip


def _chain_record(chain: Chain) -> dict[str, Any]:
    links = [{"what": link.what, "value": str(link.value), "times": link.times} for link in chain.links]
    return {"name": chain.name, "links": links, "whole": str(chain.whole), "written": str(chain)}


def piece_record(piece: Piece) -> dict[str, Any]:
    """Everything a packet says, as plain data.

    Args:
        piece: a finished piece.

    Returns:
        Names, texts and numbers, ready for JSON; exact sizes as fractions in text beside floats.

    Example:
        >>> from furnlib.plan.piece import read_piece
        >>> piece_record(read_piece("notebooks/designs/landing_chest.yaml"))["chains"][2]["written"]
        '20 + 1001 + 108 + 20 = 1149'
    """
    design = piece.design
    return {
        "mark": _MARK,
        "piece": design.piece,
        "revision": design.revision,
        "unit": design.unit,
        "inputs": design.digest,
        "masters": [_size_record(size) for size in piece.masters],
        "sizes": [_size_record(size) for size in piece.sizes],
        "chains": [_chain_record(chain) for chain in piece.chains],
        "concerns": [
            {"code": c.code, "number": c.number, "reason": c.reason, "cures": list(c.cures)} for c in piece.concerns
        ],
        "notices": list(design.notices),
    }


def _changes(before: dict[str, Any], after: dict[str, Any]) -> tuple[Change, ...]:
    """Every size that differs, even where it is written alike; then name, revision and unit."""

    def by_name(record: dict[str, Any]) -> dict[str, dict[str, Any]]:
        return {size["name"]: size for part in ("masters", "sizes") for size in record[part]}

    found = [Change(what, before[what], after[what]) for what in _ABOUT if before[what] != after[what]]
    old, new = by_name(before), by_name(after)
    for name in [*new, *(name for name in old if name not in new)]:
        was, now = old.get(name), new.get(name)
        if was is None or now is None:
            found.append(Change(name, was["written"] if was else "", now["written"] if now else ""))
        elif was["written"] != now["written"]:
            found.append(Change(name, was["written"], now["written"]))
        elif not math.isclose(was["value"], now["value"], rel_tol=1e-9, abs_tol=1e-9):
            found.append(Change(name, f"{was['value']:.6g}", f"{now['value']:.6g}"))
    return tuple(found)


def _is_record(record: Any) -> bool:
    """Tell whether this is the record of a packet, with all that is compared."""
    try:
        named = [size["name"] + size["written"] for part in ("masters", "sizes") for size in record[part]]
        valued = [float(size["value"]) for part in ("masters", "sizes") for size in record[part]]
        about = [str(record[what]) for what in (*_ABOUT, "inputs")]
        return bool(record["mark"] == _MARK and set(record["files"]) and named and valued and about)
    except (KeyError, TypeError, ValueError):
        return False


def _before(folder: Path) -> dict[str, Any] | None:
    """The record of the packet that stands in the folder; refuse to touch anything else."""
    if not folder.exists():
        return None
    if not folder.is_dir():
        raise DesignError(f"{folder} is a file; name a folder for the packet.")
    there = {str(path.relative_to(folder)) for path in folder.rglob("*") if not path.is_dir()}
    if not there:
        return None
    try:
        record: Any = json.loads((folder / _RECORD).read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        record = None
    ours = set(record["files"]) if _is_record(record) else set()
    strange = sorted(there - ours)
    if strange:
        raise DesignError(f"{folder} holds {strange[0]}, which no packet wrote; move it or name another folder.")
    return dict(record)


def _csv(rows: list[tuple[Any, ...]]) -> str:
    stream = io.StringIO()
    csv.writer(stream, lineterminator="\n").writerows(rows)
    return stream.getvalue()


def _sizes_csv(piece: Piece) -> str:
    rows: list[tuple[Any, ...]] = [("name", "value", "exact", "unit", "rule", "formula")]
    for size in (*piece.masters, *piece.sizes):
        record = _size_record(size)
        rows.append((size.name, f"{record['value']:.10g}", record["exact"] or "", size.unit, size.rule, size.formula))
    return _csv(rows)


def _chains_csv(piece: Piece) -> str:
    rows: list[tuple[Any, ...]] = [("name", "chain", "whole", "unit")]
    rows += [(chain.name, str(chain), write_length(chain.whole, chain.unit), chain.unit) for chain in piece.chains]
    return _csv(rows)


def _parts_csv(piece: Piece) -> str:
    """Every part of every kind of drawer, with how many of it the piece takes."""
    rows: list[tuple[Any, ...]] = [
        ("drawers", "part", "count", "length", "width", "thickness", "unit", "grain", "rules")
    ]
    unit = piece.design.unit
    for kind in drawer_kinds(piece):
        count = sum(drawer.count for drawer in kind.drawers)
        for part in kind.drawers[0].parts:
            sizes = (write_length(size, unit) for size in (part.length.value, part.width.value, part.thickness))
            rules = f"{part.length.rule}; {part.width.rule}"
            rows.append((kind.name, part.name, count * part.count, *sizes, unit, part.grain, rules))
    return _csv(rows)


def _shown_once(piece: Piece) -> list[Size]:
    """The derived sizes without those that a leg shares with its mirror image."""
    groups = mirror_groups(piece.legs)
    again = tuple(f", {leg.position} leg" for group in groups for leg in group[1:])
    return [size for size in piece.sizes if not again or not size.name.endswith(again)]


def _page(
    piece: Piece, changes: tuple[Change, ...], first: bool, plates: dict[str, Drawing], patterns: tuple[str, ...]
) -> str:
    """The offline page; its pictures stand in it as SVG."""
    environment = jinja2.Environment(
        loader=jinja2.PackageLoader("furnlib.record"), autoescape=True, undefined=jinja2.StrictUndefined,
        trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip
    unit, groups = piece.design.unit, mirror_groups(piece.legs)
    return environment.get_template("packet.html").render(
        piece=piece,
        groups=groups,
        sawn=[group for group in groups if group[0].end_cut],
        drilled=[group for group in groups if group[0].drilling],
        cradled=[group for group in groups if group[0].cradle],
        turned=turned_groups(piece),
        banks=bank_kinds(piece),
        drawers=drawer_kinds(piece),
        spares=[size.rule for size in piece.sizes if size.formula == "blank.spares"],
        sizes=_shown_once(piece),
        plates=[(plate, Markup(plate.svg()), name) for name, plate in plates.items()],
        patterns=patterns,
        changes=changes,
        first=first,
        stamp=stamp_line(piece, ("see each plate",)),
        gauge=f"{GAUGE_HEIGHT[unit]:g}",
        length=partial(write_length, unit=unit),
        gap=partial(write_gap, unit=unit),
        cautions={
            "machine": MACHINE,
            "tip_over": TIP_OVER,
            "seat": SEAT,
            "lathe": LATHE,
            "structure": STRUCTURE,
            "finish": FINISH,
        },
        beside=_BESIDE,
    )


def write_packet(piece: Piece, folder: str | Path, paper: Paper | None = None) -> Packet:
    """Write the packet of a piece into a folder, whole or not at all.

    Args:
        piece: a finished piece.
        folder: where it goes; a packet that stands there is replaced and compared with.
        paper: "A4" or "letter"; by default A4 for a mm piece, letter for an inch piece.

    Returns:
        What was written and what changed.

    Raises:
        DesignError: when the folder holds anything else than a packet, or cannot be written.

    Example:
        >>> import tempfile
        >>> from furnlib.plan.piece import read_piece
        >>> cabinet = read_piece("notebooks/designs/abrasive_cabinet.yaml")
        >>> with tempfile.TemporaryDirectory() as parent:
        ...     write_packet(cabinet, f"{parent}/packet").files[:3]
        ('index.html', 'plates.pdf', 'sizes.csv')
    """
    target = Path(folder)
    try:
        before = _before(target)
    except OSError as error:
        raise DesignError(f"{target} cannot be looked into ({error.strerror}); choose another folder.") from error
    drawn = plates_of(piece)
    on = paper or ("A4" if piece.design.unit == "mm" else "letter")
    if on not in PAPER_MM:
        raise DesignError(f"There is no paper '{on}' here; {nearest_word(on, PAPER_MM)}")
    sheets = [sheet(plate, title_of(piece, plate, i, len(drawn)), on) for i, plate in enumerate(drawn, 1)]
    plates = {
        f"plates/{i}-{plate.name.lower().replace(',', '').replace(' ', '-')}.svg": plate
        for i, plate in enumerate(drawn, 1)
    }
    patterns = {f"cutter/half-pattern-{n}.dxf": leg_pattern(piece, n) for n, _ in enumerate(turned_groups(piece), 1)}
    tables = {"sizes.csv": _sizes_csv(piece), "chains.csv": _chains_csv(piece)}
    if drawer_kinds(piece):
        tables["parts.csv"] = _parts_csv(piece)
    files = ("index.html", "plates.pdf", *tables, _RECORD, _SOLID, *patterns, *plates)
    record = piece_record(piece) | {"files": list(files)}
    changes = _changes(before, record) if before else ()
    new_parents = [parent for parent in target.parents if not parent.exists()]
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with whole_folder(target) as unfinished:
            (unfinished / "plates").mkdir()
            save_pdf_pages(sheets, unfinished / "plates.pdf", [unfinished / name for name in plates])
            save_solid(piece, unfinished / _SOLID)
            for name, pattern in patterns.items():
                (unfinished / name).parent.mkdir(exist_ok=True)
                pattern.only("cut").save(unfinished / name)
            texts = {
                "index.html": _page(piece, changes, before is None, plates, tuple(patterns)),
                **tables,
                _RECORD: json.dumps(record, ensure_ascii=False, indent=1) + "\n",
            }
            for name, text in texts.items():
                (unfinished / name).write_text(text, "utf-8")
    except OSError as error:
        for parent in new_parents:
            with contextlib.suppress(OSError):
                parent.rmdir()
        raise DesignError(f"{target} cannot be written ({error.strerror}); choose another folder.") from error
    return Packet(target, files, changes, first=before is None)
