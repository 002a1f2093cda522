"""A packet over the one that stands there: what changed is said, whole or not at all, nothing foreign lost.

Most of these tests leave the drawing out (`quick`): what is drawn is tried in test_packet.py. The chest
stands on square legs here: those of the demo are turned, and take most of the time to draw.
"""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys
import textwrap
from pathlib import Path
from shutil import copytree

import pytest
from folders import contents, names_in, packet_without_sheets, write_words
from leg_shapes import low_case, low_chest, on_square_legs
from pictures import BARE, ROOT

from furnlib.base.guards import DesignError
from furnlib.draw.drawing import Drawing
from furnlib.plan.design_text import DesignText
from furnlib.plan.piece import piece_of
from furnlib.record import packet as packet_module
from furnlib.record.packet import write_packet

DESIGN = BARE / "landing_chest.yaml"
FILES = ["index.html", "plates.pdf", "sizes.csv", "chains.csv", "piece.json", "piece.glb"]


def page_text(folder):
    """What is read on the page of a packet."""
    text = re.sub(r"<[^>]*>", " ", (folder / "index.html").read_text("utf-8"))
    return re.sub(r"\s+", " ", text)


def changed(text, *changes):
    """The piece of a design with some words of its file replaced."""
    for old, new in changes:
        assert text.text.count(old) == 1, old
        text = DesignText.parse(text.text.replace(old, new), text.name)
    return piece_of(text)


def without_legs(text):
    """The case alone, as high as it stands on its legs: 1300 - 151."""
    return piece_of(DesignText.parse(text.text.partition("\nlegs:")[0].replace("height: 1300", "height: 1149")))


@pytest.fixture(scope="module")
def text():
    return DesignText.parse(on_square_legs(DESIGN.read_text("utf-8")), DESIGN.name)


@pytest.fixture(scope="module")
def standing(text, tmp_path_factory):
    """A first packet of the chest, to write over copies of it."""
    return packet_without_sheets(piece_of(text), tmp_path_factory.mktemp("standing")).folder


@pytest.fixture
def old(standing, tmp_path):
    """A folder with that packet in it, in a folder of its own."""
    return copytree(standing, tmp_path / "shop" / "packet")


@pytest.fixture
def quick(monkeypatch):
    """Write a word in place of each picture file."""
    monkeypatch.setattr(packet_module, "save_pdf_pages", write_words)
    monkeypatch.setattr(Drawing, "save", lambda _, path: path.write_text("plate"))


# What changed since the packet that stood there


@pytest.mark.usefixtures("quick")
def test_ten_wider_changes_what_hangs_on_the_width_and_nothing_else(old, text):
    """Inside 530 - 40 = 490, halves (490 - 18) / 2 = 236; feet 15.87 outside tops that stand 90 less apart."""
    feet = 2 * 151 * math.tan(math.radians(6))
    across = [f"{width - 90 + feet:.1f} mm" for width in (520, 530)]
    wrote = write_packet(changed(text, ("width: 520", "width: 530")), old)
    assert not wrote.first
    assert {(c.name, c.before, c.after) for c in wrote.changes} == {
        ("overall, width", "520 mm", "530 mm"),
        ("inside width", "480 mm", "490 mm"),
        ("width of each drawer in row 1", "231 mm", "236 mm"),
        ("front left foot to front right foot", *across),
        ("rear left foot to rear right foot", *across),
    }
    said = page_text(old)
    for change in wrote.changes:
        assert f"{change.name}: {change.before} became {change.after}" in said


@pytest.mark.usefixtures("quick")
def test_nothing_changed_is_said(old, text):
    wrote = write_packet(piece_of(text), old)
    assert (wrote.first, wrote.changes) == (False, ())
    assert "Nothing changed." in page_text(old)


@pytest.mark.parametrize("on_legs", [False, pytest.param(True, marks=pytest.mark.slow)])
def test_a_packet_but_for_what_changed_is_that_of_a_first_one(tmp_path, text, on_legs):
    """With its sheets; of a low chest, which has fewer, and without legs still fewer (395 - 151 = 244)."""
    low = piece_of(DesignText.parse((low_chest if on_legs else low_case)(text.text)))
    folder = write_packet(low, tmp_path / "packet").folder
    first = contents(folder)
    assert not write_packet(low, folder).first
    now = contents(folder)
    assert now.keys() == first.keys()
    assert {name for name in first if now[name] != first[name]} == {"index.html"}


def test_a_first_packet_says_nothing_of_changes(standing):
    assert "Since the packet" not in page_text(standing)
    assert "Nothing changed" not in page_text(standing)


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize(
    ("words", "name"),
    [
        (("width: 520", "width: 520.04"), "overall, width"),
        (("side: 20 ", "side: 20.01 "), "case, side"),
        (("square: 48", "square: 48.02"), "legs, square"),
        (("front left: {rake: 8,", "front left: {rake: 8.004,"), "legs, lean, front left, rake"),
    ],
)
def test_a_settled_size_that_changed_a_little_is_named_too(old, text, words, name):
    """The maker settled another number; the words of a size are rounded, the design is not."""
    wrote = write_packet(changed(text, words), old)
    assert name in [change.name for change in wrote.changes]


@pytest.mark.usefixtures("quick")
def test_a_new_revision_is_not_said_to_be_nothing(old, text):
    write_packet(changed(text, ("revision: A", "revision: B")), old)
    assert "Nothing changed." not in page_text(old)


@pytest.mark.usefixtures("quick")
def test_renamed_sizes_go_and_come(old, text):
    """The same leg by other names: tan² R = tan² 8 + tan² 6 and tan S = tan 6 / tan 8."""
    tan_r, tan_s = math.tan(math.radians(8)), math.tan(math.radians(6))
    total = math.degrees(math.atan(math.hypot(tan_r, tan_s)))
    sight = math.degrees(math.atan2(tan_s, tan_r))
    named = f"front left: {{total lean: {total:.12f}, sight line: {sight:.12f}}}"
    wrote = write_packet(changed(text, ("front left: {rake: 8, splay: 6}", named)), old)
    assert {(c.name, c.before, c.after) for c in wrote.changes} == {
        ("legs, lean, front left, rake", "8°", ""),
        ("legs, lean, front left, splay", "6°", ""),
        ("legs, lean, front left, total lean", "", f"{total:.2f}°"),
        ("legs, lean, front left, sight line", "", f"{sight:.2f}°"),
    }
    said = page_text(old)
    assert "legs, lean, front left, rake: gone, was 8°" in said
    assert f"legs, lean, front left, total lean: new, {total:.2f}°" in said


def sizes_of(folder):
    record = json.loads((folder / "piece.json").read_text("utf-8"))
    return [*record["masters"], *record["sizes"]]


@pytest.mark.usefixtures("quick")
def test_legs_taken_away_are_gone_with_their_plates(tmp_path):
    text = DesignText.read(DESIGN)
    old = write_packet(piece_of(text), tmp_path / "shop" / "packet").folder
    standing = sizes_of(old)
    wrote = write_packet(without_legs(text), old)
    legs = [size["name"] for size in standing if re.search(r"legs?\b|foot", size["name"])]
    gone = {change.name for change in wrote.changes if not change.after}
    # settled: 5 sizes, 9 of the profile, 2 of its turning, 2 loads, 5 of the fixing, 2 slips, 8 leans; for each
    # of four legs 11 sizes of its lean, 5 of its cuts, 3 of its slips, 6 of its fixing, 14 of its turning; legs
    # to turn, 4 distances between feet, and their daylight. The case's own height is derived no more: it is
    # what stands over all
    assert len(legs) == 5 + 9 + 2 + 2 + 5 + 2 + 8 + 4 * (11 + 5 + 3 + 6 + 14) + 1 + 4 + 1
    assert gone == {*legs, "case height"}
    assert {change.name for change in wrote.changes} - gone == {"overall, height"}
    sticks = [f"openings-stick-{n}" for n in range(1, 7)]
    left = ["overall", "proportion", "outlines", "in-the-round", "openings", *sticks, "five-rules"]
    assert sorted(contents(old)) == sorted([*FILES, *(f"plates/{n}-{name}.svg" for n, name in enumerate(left, 1))])
    assert names_in(old.parent) == ["packet"]


# Whole or not at all


class Broken(Exception):
    """A fault that nobody planned for."""


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize("fault", [OSError(28, "No space left on device"), Broken(), KeyboardInterrupt()])
@pytest.mark.parametrize("step", ["save_pdf_pages", "_page"])
def test_a_packet_that_fails_midway_leaves_the_old_one(old, text, monkeypatch, step, fault):
    before = contents(old)

    def fail(*_):
        raise fault

    monkeypatch.setattr(packet_module, step, fail)
    refused = DesignError if isinstance(fault, OSError) else type(fault)
    with pytest.raises(refused) as caught:
        write_packet(changed(text, ("width: 520", "width: 530")), old)
    assert contents(old) == before
    assert names_in(old.parent) == ["packet"]
    if refused is DesignError:
        assert str(caught.value) == f"{old} cannot be written (No space left on device); choose another folder."


def test_a_first_packet_that_fails_leaves_nothing(text, tmp_path, monkeypatch):
    monkeypatch.setattr(packet_module, "save_pdf_pages", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        write_packet(piece_of(text), tmp_path / "packet")
    assert names_in(tmp_path) == []


FULL_DISK = """
    import resource, sys
    from furnlib.__main__ import main

    resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]),) * 2)
    sys.exit(main(["packet", sys.argv[2], "--to", sys.argv[3]]))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on a file's size to be had there")
def test_a_disk_that_fills_up_half_way_leaves_the_old_one(old, tmp_path):
    """No file may grow over 80 kB: the second plate is larger."""
    before = contents(old)
    done = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(FULL_DISK), "80000", DESIGN, old],
        cwd=ROOT, check=False, capture_output=True, text=True,
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == f"{old} cannot be written (File too large); choose another folder.\n"
    assert contents(old) == before
    assert names_in(old.parent) == ["packet"]


# What is refused


def refused(text, folder):
    """The sentence with which a folder is refused; what is in it stays."""
    before = contents(folder)
    with pytest.raises(DesignError) as caught:
        write_packet(piece_of(text), folder)
    assert contents(folder) == before
    assert "\n" not in str(caught.value)
    return str(caught.value)


@pytest.mark.parametrize("name", ["holiday.jpg", "index.html", ".hidden", "letters/bank.txt"])
def test_a_folder_with_something_else_in_it(text, tmp_path, name):
    folder = tmp_path / "papers"
    (folder / name).parent.mkdir(parents=True)
    (folder / name).write_text("mine")
    words = "which no packet wrote; move it or name another folder."
    assert refused(text, folder) == f"{folder} holds {Path(name)}, {words}"
    assert names_in(tmp_path) == ["papers"]


@pytest.mark.parametrize("name", ["notes.txt", "plates/marked.svg"])
def test_a_packet_to_which_a_file_was_added(text, old, name):
    (old / name).write_text("row 3 is cut")
    assert f"holds {Path(name)}, which no packet wrote" in refused(text, old)
    assert (old / name).read_text() == "row 3 is cut"


DAMAGED = [
    "{broken",
    "",
    "[]",
    "null",
    '"furnlib packet 1"',
    '{"mark": "furnlib packet 1"}',
    '{"mark": "furnlib packet 1", "files": null}',
    '{"mark": "another", "files": ["letter.odt"]}',
]


@pytest.mark.parametrize("record", DAMAGED, ids=range(len(DAMAGED)))
def test_a_damaged_record_in_a_folder_of_other_things(text, tmp_path, record):
    folder = tmp_path / "papers"
    folder.mkdir()
    (folder / "piece.json").write_text(record)
    (folder / "letter.odt").write_text("mine")
    assert "letter.odt, which no packet wrote" in refused(text, folder)


@pytest.mark.parametrize("record", ["{broken", b"\xff\xfe\x00".decode("latin-1"), '{"mark": "another", "files": []}'])
def test_a_record_of_nobody_knows_whom_alone(text, tmp_path, record):
    folder = tmp_path / "papers"
    folder.mkdir()
    (folder / "piece.json").write_bytes(record.encode("latin-1"))
    assert "piece.json, which no packet wrote" in refused(text, folder)


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize("lost", ["masters", "sizes", "chains"])
def test_a_record_that_lost_a_part_is_refused_or_read_but_no_crash(text, old, lost):
    record = json.loads((old / "piece.json").read_text("utf-8"))
    del record[lost]
    (old / "piece.json").write_text(json.dumps(record), "utf-8")
    try:
        wrote = write_packet(piece_of(text), old)
    except DesignError as sentence:
        assert str(old) in str(sentence)
    else:
        assert not wrote.first


def test_a_file_in_the_place_of_the_folder(text, tmp_path):
    (tmp_path / "packet").write_text("mine")
    assert refused(text, tmp_path / "packet") == f"{tmp_path / 'packet'} is a file; name a folder for the packet."
    assert (tmp_path / "packet").read_text() == "mine"


def test_a_file_in_the_place_of_a_parent(text, tmp_path):
    (tmp_path / "file").write_text("mine")
    sentence = refused(text, tmp_path / "file" / "packet")
    assert re.fullmatch(r".*packet cannot be written \(.+\); choose another folder\.", sentence)
    assert (tmp_path / "file").read_text() == "mine"


def test_a_parent_that_cannot_be_written_to(text, tmp_path, monkeypatch):
    def closed(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("tempfile.mkdtemp", closed)
    sentence = refused(text, tmp_path / "packet")
    assert sentence == f"{tmp_path / 'packet'} cannot be written (Permission denied); choose another folder."
    assert names_in(tmp_path) == []


def test_a_name_too_long_for_a_folder(text, tmp_path):
    with pytest.raises(DesignError, match="choose another folder"):
        write_packet(piece_of(text), tmp_path / ("x" * 300))
    assert names_in(tmp_path) == []


@pytest.mark.usefixtures("quick")
def test_an_empty_folder_is_as_good_as_none(text, tmp_path):
    folder = tmp_path / "packet"
    folder.mkdir()
    wrote = write_packet(piece_of(text), folder)
    assert wrote.first
    assert sorted(contents(folder)) == sorted(wrote.files)


@pytest.mark.usefixtures("quick")
def test_folders_above_are_made(text, tmp_path):
    wrote = write_packet(piece_of(text), tmp_path / "2031" / "chest" / "packet")
    assert (tmp_path / "2031" / "chest" / "packet" / "index.html").is_file()
    assert names_in(tmp_path / "2031" / "chest") == ["packet"]
    assert wrote.folder == tmp_path / "2031" / "chest" / "packet"
