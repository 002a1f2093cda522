"""A folder is written whole or not at all: what stood there stays until the new one is complete."""

from __future__ import annotations

import os
import stat
import sys
from pathlib import Path

import pytest
from folders import contents, names_in

from furnlib.base.files import whole_folder


@pytest.fixture
def packet(tmp_path):
    """A folder with an old packet in it."""
    folder = tmp_path / "packet"
    (folder / "plates").mkdir(parents=True)
    (folder / "card.txt").write_bytes(b"old")
    (folder / "plates" / "1.svg").write_bytes(b"old plate")
    return folder


OLD = {"card.txt": b"old", "plates/1.svg": b"old plate"}


def test_a_new_folder_holds_what_was_put_in_it(tmp_path):
    with whole_folder(tmp_path / "packet") as folder:
        (folder / "card.txt").write_bytes(b"new")
        (folder / "plates").mkdir()
        (folder / "plates" / "1.svg").write_bytes(b"plate")
    assert contents(tmp_path / "packet") == {"card.txt": b"new", "plates/1.svg": b"plate"}
    assert names_in(tmp_path) == ["packet"]


def test_an_old_folder_is_replaced_and_nothing_of_it_is_left(packet):
    with whole_folder(packet) as folder:
        (folder / "card.txt").write_bytes(b"new")
    assert contents(packet) == {"card.txt": b"new"}
    assert names_in(packet) == ["card.txt"]
    assert names_in(packet.parent) == ["packet"]


def test_the_old_folder_stands_until_the_new_one_is_complete(packet):
    with whole_folder(packet) as folder:
        (folder / "card.txt").write_bytes(b"new")
        assert contents(packet) == OLD
        assert folder.parent == packet.parent  # one disk, so that one move does it
    assert contents(packet) == {"card.txt": b"new"}


@pytest.mark.parametrize("fault", [OSError, ValueError, KeyboardInterrupt, SystemExit])
def test_whoever_fails_while_filling_leaves_what_stood_there(packet, fault):
    with pytest.raises(fault), whole_folder(packet) as folder:
        (folder / "card.txt").write_bytes(b"half of the n")
        raise fault
    assert contents(packet) == OLD
    assert names_in(packet.parent) == ["packet"]


def test_whoever_fails_makes_no_new_folder(tmp_path):
    with pytest.raises(ZeroDivisionError), whole_folder(tmp_path / "packet") as folder:
        (folder / "card.txt").write_bytes(bytes(1 // 0))
    assert names_in(tmp_path) == []


def test_an_empty_folder_is_written_too(tmp_path):
    with whole_folder(tmp_path / "packet"):
        pass
    assert names_in(tmp_path) == ["packet"]
    assert names_in(tmp_path / "packet") == []


def test_a_parent_that_is_not_there_is_said_and_not_made(tmp_path):
    with pytest.raises(FileNotFoundError), whole_folder(tmp_path / "none" / "packet"):
        pytest.fail("there is nowhere to put it")
    assert names_in(tmp_path) == []


def test_other_things_beside_it_are_left_alone(packet):
    (packet.parent / ".packet.part-mine").mkdir()
    (packet.parent / ".packet.before-mine").mkdir()
    (packet.parent / "packet.txt").write_bytes(b"beside")
    with whole_folder(packet) as folder:
        (folder / "card.txt").write_bytes(b"new")
    assert names_in(packet.parent) == [".packet.before-mine", ".packet.part-mine", "packet", "packet.txt"]


@pytest.mark.skipif(sys.platform == "win32", reason="other rights there")
def test_others_may_read_it_like_any_folder(tmp_path):
    with whole_folder(tmp_path / "packet"):
        pass
    assert stat.S_IMODE((tmp_path / "packet").stat().st_mode) == 0o755


def failing_moves(monkeypatch, fault, which):
    """Let the given moves of folders, counted from 1, go wrong."""
    moves, real = [], Path.rename

    def rename(self, target):
        moves.append(target)
        if len(moves) in which:
            raise fault
        return real(self, target)

    monkeypatch.setattr(Path, "rename", rename)
    return moves


@pytest.mark.parametrize("fault", [OSError(5, "disk"), KeyboardInterrupt()])
@pytest.mark.parametrize("which", [1, 2])
def test_a_move_that_fails_leaves_what_stood_there(packet, monkeypatch, fault, which):
    moves = failing_moves(monkeypatch, fault, {which})
    with pytest.raises(type(fault)), whole_folder(packet) as folder:
        (folder / "card.txt").write_bytes(b"new")
    assert len(moves) >= which  # it came that far
    assert contents(packet) == OLD
    assert names_in(packet.parent) == ["packet"]


def test_what_stood_there_is_never_thrown_away_though_it_cannot_be_put_back(packet, monkeypatch):
    """Out of the way, in, and back: where the last two moves fail, the old packet lies beside."""
    failing_moves(monkeypatch, OSError(5, "disk"), {2, 3})
    with pytest.raises(OSError), whole_folder(packet) as folder:
        (folder / "card.txt").write_bytes(b"new")
    assert OLD in [contents(packet.parent / name) for name in names_in(packet.parent)]


def test_what_stood_there_is_never_thrown_away_though_another_takes_its_place(packet, monkeypatch):
    """Between out of the way and in, somebody else puts a folder there: both are to be found afterwards."""
    moves, real = [], Path.rename

    def rename(self, target):
        moves.append(target)
        if len(moves) == 2:
            packet.mkdir()
            (packet / "letter.txt").write_bytes(b"another's")
        return real(self, target)

    monkeypatch.setattr(Path, "rename", rename)
    with pytest.raises(OSError), whole_folder(packet) as folder:
        (folder / "card.txt").write_bytes(b"new")
    left = [contents(packet.parent / name) for name in names_in(packet.parent)]
    assert {"letter.txt": b"another's"} in left
    assert OLD in left


@pytest.mark.skipif(sys.platform == "win32", reason="links need a right of their own there")
def test_a_link_to_a_folder_leaves_nothing_beside_it(tmp_path, packet):
    link = tmp_path / "latest"
    link.symlink_to(packet, target_is_directory=True)
    with whole_folder(link) as folder:
        (folder / "card.txt").write_bytes(b"new")
    assert contents(link) == {"card.txt": b"new"}
    assert [name for name in names_in(tmp_path) if name.startswith(".")] == []


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="nothing is closed to this user")
def test_a_parent_that_is_closed_is_said(packet):
    packet.parent.chmod(0o555)
    try:
        with pytest.raises(PermissionError), whole_folder(packet):
            pytest.fail("there is nowhere to put it")
    finally:
        packet.parent.chmod(0o755)
    assert contents(packet) == OLD
