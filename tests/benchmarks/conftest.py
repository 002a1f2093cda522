"""What the benchmarks share: the harness of the browser tests, and a table of ratios at the end of a run."""

from statistics import median

import pytest

_TOLD = pytest.StashKey[list[str]]()


def pytest_configure(config):
    config.stash[_TOLD] = []


def pytest_terminal_summary(terminalreporter, config):
    if config.stash[_TOLD]:
        terminalreporter.section("what was measured, beside what was wanted")
        for line in config.stash[_TOLD]:
            terminalreporter.write_line(line)


@pytest.fixture
def tell(request):
    """Say one line in the table at the end of the run, whether the test passes or not."""
    return request.config.stash[_TOLD].append


@pytest.fixture
def judge(benchmark, tell):
    """Compare a figure with its goal: tell it, store it with the benchmark, and fail when it is missed."""

    def judged(name, value, goal, unit="", note=""):
        met = value <= goal
        benchmark.extra_info[name] = {"value": value, "goal": goal, "unit": unit}
        verdict = "met" if met else "MISSED"
        tell(f"{name}: {value:.3g}{unit}, goal {goal:g}{unit}, {verdict}{f'  ({note})' if note else ''}")
        assert met, f"{name}: {value:.3g}{unit}, goal {goal:g}{unit}"

    return judged


@pytest.fixture
def in_turns(benchmark):
    """Time a call by pytest-benchmark, and a baseline before each of its rounds, so that both see the same load.

    Returns the two medians in seconds.
    """

    def timed(call, baseline, rounds):
        seconds = []

        def before_each():
            start = benchmark._timer()
            baseline()
            seconds.append(benchmark._timer() - start)

        benchmark.pedantic(call, setup=before_each, rounds=rounds, warmup_rounds=1)
        return benchmark.stats.stats.median, median(seconds[1:])

    return timed
