"""A file is written whole or not at all, and nothing half done is left beside it."""

from __future__ import annotations

import errno
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest
from folders import names_in

from furnlib.base.files import whole_file

ROOT = Path(__file__).parents[2]


def test_a_new_file_holds_what_was_written(tmp_path):
    with whole_file(tmp_path / "card.txt") as stream:
        stream.write(b"one, ")
        stream.write(b"two")
    assert (tmp_path / "card.txt").read_bytes() == b"one, two"
    assert names_in(tmp_path) == ["card.txt"]


def test_an_old_file_is_replaced_by_the_new_one_and_no_more(tmp_path):
    path = tmp_path / "card.txt"
    path.write_bytes(b"a longer text that stood here before")
    with whole_file(path) as stream:
        stream.write(b"short")
    assert path.read_bytes() == b"short"
    assert names_in(tmp_path) == ["card.txt"]


def test_an_old_file_stands_until_the_new_one_is_complete(tmp_path):
    path = tmp_path / "card.txt"
    path.write_bytes(b"old")
    with whole_file(path) as stream:
        stream.write(b"new")
        stream.flush()
        assert path.read_bytes() == b"old"
    assert path.read_bytes() == b"new"


@pytest.mark.parametrize("fault", [ValueError, OSError, KeyboardInterrupt])
def test_a_writer_that_fails_leaves_what_stood_there(tmp_path, fault):
    path = tmp_path / "card.txt"
    path.write_bytes(b"old")
    with pytest.raises(fault), whole_file(path) as stream:
        stream.write(b"half of the n")
        raise fault
    assert path.read_bytes() == b"old"
    assert names_in(tmp_path) == ["card.txt"]


def test_a_writer_that_fails_makes_no_new_file(tmp_path):
    with pytest.raises(ZeroDivisionError), whole_file(tmp_path / "card.txt") as stream:
        stream.write(b"half")
        stream.write(bytes(1 // 0))
    assert names_in(tmp_path) == []


def test_a_folder_that_is_not_there_is_said_and_not_made(tmp_path):
    with pytest.raises(FileNotFoundError), whole_file(tmp_path / "none" / "card.txt") as stream:
        stream.write(b"new")
    assert names_in(tmp_path) == []


def test_a_folder_of_the_same_name_stays_with_all_that_is_in_it(tmp_path):
    folder = tmp_path / "card.txt"
    folder.mkdir()
    (folder / "kept.txt").write_bytes(b"kept")
    with pytest.raises(OSError), whole_file(folder) as stream:
        stream.write(b"new")
    assert names_in(tmp_path) == ["card.txt"]
    assert (folder / "kept.txt").read_bytes() == b"kept"


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights of their own there")
def test_a_link_stays_a_link_and_what_it_leads_to_is_written(tmp_path):
    (tmp_path / "kept").mkdir()
    path, link = tmp_path / "kept" / "card.txt", tmp_path / "card.txt"
    path.write_bytes(b"old")
    link.symlink_to(path)
    with whole_file(link) as stream:
        stream.write(b"new")
    assert link.is_symlink()
    assert path.read_bytes() == b"new"
    assert names_in(tmp_path / "kept") == ["card.txt"]


@pytest.mark.skipif(sys.platform == "win32", reason="rights are kept another way there")
def test_a_private_file_stays_private(tmp_path):
    path = tmp_path / "card.txt"
    path.write_bytes(b"old")
    path.chmod(0o600)
    with whole_file(path) as stream:
        stream.write(b"new")
    assert path.stat().st_mode & 0o777 == 0o600


FULL_DISK = """
    import pathlib, resource, sys
    from furnlib.base.files import whole_file

    path = pathlib.Path(sys.argv[1])
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
    try:
        with whole_file(path) as stream:
            stream.write(b"n" * 5000)
    except OSError as error:
        sys.exit(error.errno)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on a file's size to be had there")
def test_a_disk_that_fills_up_half_way_leaves_what_stood_there(tmp_path):
    path = tmp_path / "card.txt"
    path.write_bytes(b"old")
    program = textwrap.dedent(FULL_DISK)
    done = subprocess.run([sys.executable, "-c", program, path], cwd=ROOT, check=False)
    assert done.returncode == errno.EFBIG
    assert path.read_bytes() == b"old"
    assert names_in(tmp_path) == ["card.txt"]
