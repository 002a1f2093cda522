"""How fast and how small: cold start, packet, a million leans, one move of a live view.

Figures are ratios to a baseline timed in turns in the same run, or limits with room to spare. These
tests do fail when a goal is missed; they are not part of the default run.
"""

import os
import subprocess
import sys
import time
from itertools import cycle

import numpy as np
import pytest
from live_hand import DESIGNS, OPEN, PRACTICE, controls, put, seen

import furnlib as fl
from furnlib.live.drawers import live_drawer, live_droop
from furnlib.live.pieces import live_leg
from furnlib.live.proportions import live_proportion
from furnlib.live.seasons import live_season, live_slots
from furnlib.live.turnings import live_turning

ROUNDS = 10
SQUARES = 250_000


def python(*words):
    """Run a fresh Python and return its wall time in seconds and its peak memory in MB."""
    start = time.perf_counter()
    child = subprocess.Popen([sys.executable, *words], cwd=DESIGNS["mm"].parents[2], stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    assert child.returncode == 0, words
    # Linux counts in kB, and never less than what pytest itself held when it started the child.
    return time.perf_counter() - start, usage.ru_maxrss * 1024 / 1e6


def test_import_costs_no_more_than_numpy(in_turns, judge):
    """Both with the start of Python itself, which is the same for both."""
    ours, numpy = in_turns(lambda: python("-c", "import furnlib"), lambda: python("-c", "import numpy"), ROUNDS)
    judge("import furnlib / import numpy, cold", ours / numpy, 1.0, note=f"{ours * 1e3:.0f} ms / {numpy * 1e3:.0f} ms")


def test_packet_of_the_landing_chest(benchmark, judge, tmp_path):
    """From a terminal, with everything that has to be loaded, page and plates written."""
    peaks = []

    def packet():
        words = ("-m", "furnlib", "packet", str(DESIGNS["mm"]), "--to", str(tmp_path / str(len(peaks))))
        peaks.append(python(*words)[1])

    benchmark.pedantic(packet, rounds=3)
    assert (tmp_path / "0" / "plates.pdf").stat().st_size > 10_000
    judge("packet, peak memory", max(peaks), 300, " MB")
    judge("packet, cold", benchmark.stats.stats.median, 8, " s")


def test_a_million_leans(in_turns, judge):
    """Total lean, sight line and axis length, guards and all, beside the same formulas in bare numpy."""
    chance = np.random.default_rng(1)
    rake, splay = chance.uniform(-30, 30, (2, 1_000_000))
    height = 151.0

    def leans():
        lean = fl.Lean.from_rake_splay(rake, splay)
        return lean.total_lean_deg, lean.sight_line_deg, lean.axis_length(height)

    def bare():
        r, s = np.tan(np.radians(rake)), np.tan(np.radians(splay))
        square = r * r + s * s
        return (
            np.degrees(np.arctan(np.sqrt(square))),
            np.degrees(np.arctan2(s, r)),
            height * np.sqrt(1 + square),
        )

    for ours, theirs in zip(leans(), bare(), strict=True):
        np.testing.assert_allclose(ours, theirs, rtol=1e-12)
    ours, numpy = in_turns(leans, bare, ROUNDS)
    judge("a million leans / bare numpy", ours / numpy, 1.5, note=f"{ours * 1e3:.0f} ms / {numpy * 1e3:.0f} ms")


@pytest.mark.parametrize(
    ("what", "unit", "name"),
    [
        ("openings", "mm", "Step per row"),
        ("openings", "in", "Step per row"),
        ("proportion", "mm", "Overall height"),
        ("proportion", "in", "Overall width"),
        ("legs", "mm", "Rake, front legs"),
        ("leg", "mm", "Rake (front-to-back lean)"),
        ("leg", "in", "Total lean"),
        ("stool leg", "mm", "Rake (front-to-back lean)"),
        ("stool leg", "mm", "Total lean"),
        ("stool leg", "mm", "Pitch of the seat"),
        ("turning", "mm", "Cove, depth"),
        ("turning", "in", "Bead, length"),
        ("turning", "mm", "Height of the legs"),
        ("drawer", "mm", "Back room"),
        ("drawer", "in", "Lap"),
        ("droop", "mm", "Pulled out"),
        ("season", "mm", "Dampest moisture, %"),
        ("slots", "in", "Dampest moisture, %"),
    ],
)
def test_one_move_of_a_live_view(in_turns, judge, what, unit, name):
    """From the page's word that a slider stands elsewhere to the new picture, without browser and kernel.

    Beside a loop of plain Python that took 10 ms on the machine this was written on.
    """
    views = OPEN | {
        "stool leg": lambda _: live_leg(PRACTICE, "front left"),
        "turning": live_turning,
        "proportion": live_proportion,
        "drawer": live_drawer,
        "droop": live_droop,
        "season": live_season,
        "slots": live_slots,
    }
    view = views[what](DESIGNS[unit])
    control = controls(view)[name]
    here, pictures = control.position, set()
    places = cycle([here + 1, here + 2, here + 1, here])

    def move():
        put(control, next(places))
        pictures.add(seen(view)[0])

    ours, loop = in_turns(move, lambda: sum(i * i for i in range(SQUARES)), 100)
    assert len(pictures) == 3  # three places, each drawn
    note = f"{ours * 1e3:.2f} ms / {loop * 1e3:.2f} ms"
    judge(f"one move of the {what}, {unit}, {name} / a loop of 10 ms", ours / loop, 1.0, note=note)
