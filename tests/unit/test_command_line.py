"""The command line as a maker meets it: what is printed where, and what the exit code says.

What hangs on the process (its letters, its exit, what it loads) is tried in a process of its own by `furnlib`; the
rest in this one by `here`, which spares half a second each time.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys

import pytest
from folders import names_in, write_words
from leg_shapes import low_chest, on_square_legs
from pictures import BARE, DESIGNS, ROOT

from furnlib.__main__ import main
from furnlib.plan.piece import read_piece
from furnlib.record import packet as packet_module
from furnlib.record.packet import write_packet

CHEST = DESIGNS / "landing_chest.yaml"
BARE_CHEST = BARE / "landing_chest.yaml"


def furnlib(*arguments, folder=ROOT, **environment):
    """Run the command line in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "furnlib", *map(str, arguments)],
        cwd=folder, env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", **environment},
        capture_output=True, check=False, text=True, encoding=environment.get("PYTHONIOENCODING", "utf-8"),
    )  # fmt: skip


@pytest.fixture
def here(capsys, monkeypatch):
    """Run the command line in the process of the tests."""

    def here(*arguments, folder=ROOT):
        monkeypatch.chdir(folder)
        try:
            code = main([*map(str, arguments)])
        except SystemExit as end:
            code = end.code
        return subprocess.CompletedProcess(arguments, code, *capsys.readouterr())

    return here


def spoilt(tmp_path, *changes):
    """A copy of the chest's design with some of its lines changed."""
    text = BARE_CHEST.read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = tmp_path / "chest.yaml"
    path.write_text(text, "utf-8")
    return path


def line_of(path, words):
    """The number of the first line that holds some words."""
    return next(n for n, line in enumerate(path.read_text("utf-8").splitlines(), 1) if words in line)


NARROW = "\u202f"  # stands between a whole number and its fraction

# The sums of the design files by hand: openings from 83 by 20 and from 3 1/8 by 3/4, six dividers of 18 or 3/4.
CHAINS = {
    "landing_chest": [
        "83 + 103 + 123 + 143 + 163 + 183 + 203 = 1001",
        "231 + 18 + 231 = 480",
        "20 + 1001 + 108 + 20 = 1149",
        "1149 + 151 = 1300",
        "20 + 480 + 20 = 520",
    ],
    "landing_chest_inch": [
        "3 1/8 + 3 7/8 + 4 5/8 + 5 3/8 + 6 1/8 + 6 7/8 + 7 5/8 = 37 5/8",
        "8 7/8 + 3/4 + 8 7/8 = 18 1/2",
        "3/4 + 37 5/8 + 4 1/2 + 3/4 = 43 5/8",
        "43 5/8 + 6 3/8 = 50",
        "3/4 + 18 1/2 + 3/4 = 20",
    ],
}


@pytest.mark.parametrize("name", CHAINS)
def test_check_prints_every_chain_closed(name):
    done = furnlib("check", DESIGNS / f"{name}.yaml")
    assert (done.returncode, done.stderr) == (0, "")
    for chain in CHAINS[name]:
        assert f"Closes: {chain}" in done.stdout.replace(NARROW, " ")
    assert done.stdout.count("Closes: ") == len(CHAINS[name])


def test_check_says_what_to_settle_before_wood_is_cut(here):
    """By hand: 2 + 12 / 7 is under 12 / 3; 60 below the top the neck is 13 thick from its axis, and 13 - 60 sin 9.95
    - 4 cos 9.95 = -1.3."""
    done = here("check", CHEST)
    half_pins, screw, *_ = re.findall(r"Before you cut: (.*)", done.stdout)
    assert half_pins.startswith("every row: at the back, thin half pin: 2:")
    assert screw.startswith(
        "front left and front right leg, screw 60 mm deep: driven square to the case it comes out of the leg by 1.3"
    )


def test_check_says_what_was_read_in_another_unit(here, tmp_path):
    done = here("check", spoilt(tmp_path, ("side: 20 ", "side: 3/4 in "), ("width: 520", "width: 518.1")))
    assert done.returncode == 0
    assert "Read: '3/4 in' was read as 19.05 mm" in done.stdout


def test_packet_writes_and_says_where(here, tmp_path, monkeypatch):
    """Of two rows of the chest on square legs, a word for each sheet; the sums by hand are those below."""
    monkeypatch.setattr(packet_module, "save_pdf_pages", write_words)
    chest = tmp_path / "chest.yaml"
    chest.write_text(low_chest(on_square_legs(BARE_CHEST.read_text("utf-8"))), "utf-8")
    done = here("packet", chest, "--to", tmp_path / "packet")
    assert (done.returncode, done.stderr) == (0, "")
    assert names_in(tmp_path) == ["chest.yaml", "packet"]
    assert (tmp_path / "packet" / "index.html").stat().st_size > 10_000
    files = sum(path.is_file() for path in (tmp_path / "packet").rglob("*"))
    assert f"{tmp_path / 'packet' / 'index.html'} and {files - 1} files beside it" in done.stdout
    assert "Changed" not in done.stdout
    across = [chain for chain in CHAINS["landing_chest"] if chain.endswith(("= 520", "= 480"))]
    for chain in ("83 + 103 = 186", "20 + 186 + 18 + 20 = 244", "244 + 151 = 395", *across):
        assert chain in done.stdout


@pytest.mark.slow
def test_a_second_packet_says_what_changed(tmp_path):
    """On letter paper the sizes stay; ten wider, inside is 530 - 40."""
    write_packet(read_piece(BARE_CHEST), tmp_path / "packet")
    same = furnlib("packet", BARE_CHEST, "--to", "packet", "--paper", "letter", folder=tmp_path)
    assert "Changed since the packet that stood there: nothing" in same.stdout
    wider = furnlib("packet", spoilt(tmp_path, ("width: 520", "width: 530")), "--to", "packet", folder=tmp_path)
    assert "Changed since the packet that stood there: 5\n" in wider.stdout
    assert "    inside width: 480 mm became 490 mm\n" in wider.stdout


FAULTS = {
    "a name misspelt": ([("grid: 1 ", "gird: 1 ")], None),
    "no length": ([("width: 520", "width: wide")], "width: wide"),
    "no such rule": ([("rule: constant step", "rule: golden")], "rule: golden"),
    "does not close": ([("  divider: 18", "  divider: 18\n  height: 1150")], "height: 1300"),
    "no room": ([("divider: 18", "divider: 200")], "divider: 200"),
    "too strong a step": ([("step: 20 ", "step: 60 ")], "step: 60"),
    "no whole pitches": ([("  leftover: leg ", "  # "), ("  height: 151 ", "  height: 150 ")], "pitch: 20"),
    "too much lean": ([("front left: {rake: 8,", "front left: {rake: 95,")], "front left"),
    "not YAML": ([("unit: mm", "unit: [mm")], None),
}


@pytest.mark.parametrize(("changes", "where"), FAULTS.values(), ids=FAULTS)
def test_a_bad_design_is_said_in_one_sentence_with_its_line(here, tmp_path, changes, where):
    design = spoilt(tmp_path, *changes)
    done = here("check", design)
    assert (done.returncode, done.stdout) == (1, "")
    assert "Traceback" not in done.stderr
    first = done.stderr.splitlines()[0]
    assert re.match(r"chest\.yaml line \d+\b", first)
    assert "." in first[-1:] or "?" in first[-1:]
    if where:
        assert len(done.stderr.splitlines()) == 1
        assert first.startswith(f"chest.yaml line {line_of(design, where)},")
    assert names_in(tmp_path) == ["chest.yaml"]


@pytest.mark.parametrize("fault", ["no length", "does not close"])
def test_no_packet_is_written_of_a_bad_design(here, tmp_path, fault):
    design = spoilt(tmp_path, *FAULTS[fault][0])
    done = here("packet", design, "--to", tmp_path / "new" / "packet")
    assert (done.returncode, done.stdout, len(done.stderr.splitlines())) == (1, "", 1)
    assert done.stderr.startswith(f"chest.yaml line {line_of(design, FAULTS[fault][1])},")
    assert names_in(tmp_path) == ["chest.yaml"]


def test_several_faults_are_said_each_on_its_line(here, tmp_path):
    design = spoilt(tmp_path, ("unit: mm", "unit: cm"), ("width: 520", "width: wide"), ("square: 48", "sqaure: 48"))
    done = here("check", design)
    assert (done.returncode, done.stdout) == (1, "")
    said = [int(re.match(r"chest\.yaml line (\d+)", line)[1]) for line in done.stderr.splitlines()]
    faulty = [line_of(design, words) for words in ("unit: cm", "width: wide", "sqaure: 48")]
    assert set(faulty) <= set(said)
    assert said == sorted(said)
    assert "did you mean 'square'?" in done.stderr


@pytest.mark.parametrize("there", [False, True])
def test_a_file_that_cannot_be_read_is_said(here, tmp_path, there):
    if there:
        (tmp_path / "chest.yaml").mkdir()
    done = here("check", tmp_path / "chest.yaml")
    assert (done.returncode, done.stdout) == (1, "")
    assert re.fullmatch(r".*chest\.yaml cannot be read \(.+\); check the name and the folder\.\n", done.stderr)


def test_a_folder_that_is_refused_is_said_and_nothing_on_the_page(here, tmp_path):
    (tmp_path / "letter.odt").write_text("mine")
    done = here("packet", CHEST, "--to", tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == f"{tmp_path} holds letter.odt, which no packet wrote; move it or name another folder.\n"
    assert names_in(tmp_path) == ["letter.odt"]


def test_help_tells_both_jobs_in_plain_words():
    done = furnlib("--help")
    assert (done.returncode, done.stderr) == (0, "")
    said = done.stdout
    assert re.search(r"^ +packet +write the packet", said, re.MULTILINE)
    assert re.search(r"^ +check +say whether the sizes close", said, re.MULTILINE)
    assert "notebooks/designs/landing_chest.yaml" in said
    assert (DESIGNS / "landing_chest.yaml").is_file()


@pytest.mark.parametrize(("arguments", "code"), [(["check"], 2), (["check", "none.yaml"], 1)])
def test_the_process_ends_with_the_code_of_its_job(arguments, code):
    done = furnlib(*arguments)
    assert (done.returncode, done.stdout) == (code, "")
    assert "Traceback" not in done.stderr


JARGON = r"\b(stdout|stderr|traceback|exception|args?|positional|parser?|schema|boolean|string|null|None|CLI)\b"


@pytest.mark.parametrize("arguments", [["--help"], ["packet", "--help"], ["check", "--help"]])
def test_help_needs_no_dictionary_of_programming(here, arguments):
    done = here(*arguments)
    assert done.returncode == 0
    assert re.findall(JARGON, done.stdout, re.IGNORECASE) == []


@pytest.mark.parametrize(
    "arguments",
    [["build", "x.yaml"], [], ["packet", CHEST], ["check"], ["packet", CHEST, "--to", "x", "--paper", "A5"]],
    ids=["unknown job", "no job", "no folder", "no design", "unknown paper"],
)
def test_a_call_that_makes_no_sense_is_2(here, tmp_path, arguments):
    done = here(*arguments, folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("usage: python -m furnlib")
    assert names_in(tmp_path) == []


@pytest.mark.parametrize("letters", ["ascii", pytest.param("cp1252", marks=pytest.mark.slow), "cp437"])
def test_an_old_screen_or_a_log_file_gets_what_letters_it_has(letters):
    """The narrow space of a fraction is not in them: another sign may stand there, but the sizes are told."""
    done = furnlib("check", DESIGNS / "landing_chest_inch.yaml", PYTHONIOENCODING=letters, PYTHONUTF8="0")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.count("Closes: ") == len(CHAINS["landing_chest_inch"])


def test_a_name_in_foreign_letters_is_no_reason_to_stop(tmp_path):
    design = spoilt(tmp_path, ("piece: Landing chest", "piece: Комод"))
    done = furnlib("check", design, PYTHONIOENCODING="cp1252", PYTHONUTF8="0")
    assert (done.returncode, done.stderr) == (0, "")
    assert "20 + 1001 + 108 + 20 = 1149" in done.stdout


LOADED = """
import sys
from furnlib.__main__ import main

code = main(["check", sys.argv[1]])
heavy = {"matplotlib", "sympy", "scipy", "ipywidgets", "anywidget", "IPython", "jinja2"} & set(sys.modules)
sys.exit(" ".join(sorted(heavy)) or code)
"""


def test_check_loads_nothing_to_draw_or_to_derive_with():
    done = subprocess.run([sys.executable, "-c", LOADED, CHEST], cwd=ROOT, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
