"""The command line: write a packet, or check a design before wood is cut."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Sequence
from typing import TextIO

from furnlib.base.guards import DesignError
from furnlib.base.units import NARROW_SPACE
from furnlib.plan.piece import Piece, read_piece


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m furnlib",
        description="Sizes that close, legs that lean, plates for the bench: all from one design file.",
        epilog="Begin with a copy of notebooks/designs/landing_chest.yaml. A fault is said in one sentence with its"
        " line; the exit code is then 1.",
    )
    jobs = parser.add_subparsers(title="jobs", dest="job", required=True, metavar="JOB")
    packet = jobs.add_parser(
        "packet",
        help="write the packet of a piece: bench card, plates, sizes, chains",
        description="Write an offline page with bench card, plates, sizes and chains, the plates as one PDF and as"
        " SVG, and the sizes as CSV and JSON. The folder is written whole or not at all; a packet that stands there is"
        " replaced, and what changed is said.",
    )
    packet.add_argument_group("what it reads").add_argument("design", metavar="DESIGN", help="the design file (YAML)")
    packet.add_argument("--to", metavar="FOLDER", required=True, help="where the packet goes")
    packet.add_argument("--paper", choices=("A4", "letter"), help="by default A4 for a mm piece, letter for inches")
    check = jobs.add_parser(
        "check",
        help="say whether the sizes close, and what to settle first",
        description="Print every chain, closed, and every warning. Exit code 1 when the design cannot be made.",
    )
    check.add_argument_group("what it reads").add_argument("design", metavar="DESIGN", help="the design file (YAML)")
    return parser


def _summary(piece: Piece) -> list[str]:
    lines = [f"{piece.design.piece}, revision {piece.design.revision}, inputs {piece.design.digest}"]
    lines += [f"  Closes: {chain}  ({chain.name})" for chain in piece.chains]
    lines += [f"  Read: {notice}" for notice in piece.design.notices]
    lines += [f"  Before you cut: {concern}" for concern in piece.concerns]
    return lines


def _write(piece: Piece, to: str, paper: str | None) -> list[str]:
    from furnlib.record.packet import write_packet  # noqa: PLC0415 - `check` needs no drawing

    written = write_packet(piece, to, paper)  # type: ignore[arg-type]
    lines = [f"  Packet: {written.folder / 'index.html'} and {len(written.files) - 1} files beside it"]
    if not written.first:
        lines.append(f"  Changed since the packet that stood there: {len(written.changes) or 'nothing'}")
        lines += [f"    {change}" for change in written.changes]
    return lines


def _say(lines: Iterable[object], stream: TextIO) -> None:
    """Print on any screen: a letter that it lacks becomes another sign, never a fault."""
    text = "\n".join(str(line).replace(NARROW_SPACE, " ") for line in lines)
    letters = stream.encoding or "utf-8"
    print(text.encode(letters, errors="replace").decode(letters), file=stream)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one job of the command line.

    Args:
        arguments: what stands after ``python -m furnlib``; by default the process's own.

    Returns:
        0, or 1 when the design or the folder was refused.
    """
    asked = _parser().parse_args(arguments)
    try:
        piece = read_piece(asked.design)
        lines = _summary(piece)
        if asked.job == "packet":
            lines += _write(piece, asked.to, asked.paper)
    except DesignError as error:
        _say([error, *error.more], sys.stderr)
        return 1
    _say(lines, sys.stdout)
    return 0


if __name__ == "__main__":
    sys.exit(main())
