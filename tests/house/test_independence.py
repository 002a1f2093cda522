"""The project stands alone: nothing in it leads to a folder, a paper or a tool outside."""

import re
import subprocess

import pytest
from house import ROOT, listed

# Written in pieces, so that this file may stand among those it reads.
ELSEWHERE = re.compile("seed" + r"[ _-]document|tran" + "script", re.IGNORECASE)
UPWARDS = re.compile(r"(?<![\w./])((?:\.\./)+)([\w.-][\w./-]*)")
HOMES = re.compile(r"(?<![\w.<:/])/(?:home|root|Users|mnt|media)/\w")


def texts():
    """Every text file of the project: what git holds, and what is not yet held but not ignored."""
    told = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    if told.returncode:
        pytest.skip("this copy is no git repository, so what belongs to it is not known")
    for name in sorted(set(filter(None, told.stdout.split("\0")))):
        path = ROOT / name
        try:
            yield path, path.read_text("utf-8")
        except (UnicodeDecodeError, FileNotFoundError, IsADirectoryError):
            continue


@pytest.fixture(scope="module")
def files():
    return dict(texts())


def lines_with(files, test):
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:160]}"
        for path, text in files.items()
        for number, line in enumerate(text.splitlines(), 1)
        if test(path, line)
    ]


def leads_out(path, line):
    """Tell whether a relative path on the line ends outside, seen from the file's own folder."""
    return any(not (path.parent / up / rest).resolve().is_relative_to(ROOT) for up, rest in UPWARDS.findall(line))


def names_a_machine(_, line):
    """Tell whether the line holds somebody's home folder or a folder above this project."""
    above = "|".join(re.escape(str(folder)) for folder in ROOT.parents if len(folder.parts) > 1)
    return HOMES.search(line) or (above and re.search(rf"(?<![\w.-])(?:{above})(?![\w-])", line))


def test_what_leads_outside_is_seen():
    note, inner = ROOT / "note.md", ROOT / "notebooks" / "note.md"
    assert leads_out(note, "see ../elsewhere/a.csv")
    assert leads_out(inner, "see ../../elsewhere/a.csv")
    assert not leads_out(inner, "see ../figures/a.png and 1/2, 3/4")
    assert names_a_machine(note, f"see {ROOT.parent}/elsewhere") or len(ROOT.parent.parts) == 1
    assert names_a_machine(note, "/" + "home/maker/a.csv")
    assert not names_a_machine(note, "homemade/work, at home/work")


def test_project_is_not_empty(files):
    assert len(files) > 50


def test_no_relative_path_leads_out(files):
    out = lines_with(files, leads_out)
    assert not out, listed(out)


def test_no_path_of_one_machine(files):
    named = lines_with(files, names_a_machine)
    assert not named, listed(named)


def test_no_paper_outside_is_named(files):
    named = lines_with(files, lambda _, line: ELSEWHERE.search(line))
    assert not named, listed(named)
