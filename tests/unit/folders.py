"""What stands in a folder, for the tests of everything that is written whole or not at all."""

from pathlib import Path

import pytest

from furnlib.record import packet


def contents(folder):
    """Every file below a folder with its bytes."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in Path(folder).rglob("*") if p.is_file()}


def names_in(folder):
    """The names of all that stands in a folder."""
    return sorted(path.name for path in Path(folder).iterdir())


def write_words(_sheets, path, files=()):
    """Stand in for the writing of sheets: a word in each file instead of a picture."""
    for file in (path, *files):
        file.write_text("plates")


def packet_without_sheets(piece, folder):
    """A packet of a piece in this folder, with a word in place of each sheet: they take most of the time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(packet, "save_pdf_pages", write_words)
        return packet.write_packet(piece, folder / "packet")
