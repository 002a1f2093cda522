"""The README keeps its word: its code runs and prints what it says, its links lead somewhere."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from folders import write_words

from furnlib.__main__ import main
from furnlib.record import packet

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text("utf-8")


def block(kind):
    return re.findall(rf"```{kind}\n(.*?)```", README, re.DOTALL)


def test_the_ten_lines_print_what_the_readme_shows():
    (code,), (shown,) = block("python"), block("text")
    assert len([line for line in code.splitlines() if line.strip()]) <= 10
    ran = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True, encoding="utf-8"
    )
    assert ran.stdout == shown


def links(name):
    text = (ROOT / name).read_text("utf-8")
    return [target for target in re.findall(r"\]\(([^)#]+)\)", text) if not target.startswith("http")]


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_every_link_leads_to_a_file(name):
    missing = [target for target in links(name) if not (ROOT / target).exists()]
    assert not missing


def test_every_notebook_has_its_lines_in_the_readme():
    names = [f"notebooks/{path.name}" for path in sorted((ROOT / "notebooks").glob("*.ipynb"))]
    assert names
    assert set(names) <= set(links("README.md"))


def test_ci_runs_the_command_of_the_readme():
    commands = [line for text in block("sh") for line in text.splitlines() if line.strip()]
    assert commands[1].startswith("python3 -m venv")
    assert commands[1].endswith("pytest -n 2 --dist loadfile")
    assert commands[1] in (ROOT / ".ci" / "run").read_text("utf-8").splitlines()


@pytest.mark.parametrize("with_sheets", [False, pytest.param(True, marks=pytest.mark.slow)])
def test_the_packet_command_of_the_readme_runs(tmp_path, monkeypatch, capsys, with_sheets):
    """In a process of its own with all its sheets in CI; else in this one with a word in place of each."""
    *command, _ = [line for text in block("sh") for line in text.splitlines()][2].split()
    command.append(str(tmp_path / "packet"))
    if with_sheets:
        told = subprocess.run(
            [sys.executable, *command[1:]], capture_output=True, text=True, cwd=ROOT, check=True
        ).stdout
    else:
        assert command[1:3] == ["-m", "furnlib"]
        monkeypatch.chdir(ROOT)
        monkeypatch.setattr(packet, "save_pdf_pages", write_words)
        assert main(command[3:]) == 0
        told = capsys.readouterr().out
    assert "Packet:" in told
    assert (tmp_path / "packet" / "index.html").exists()
