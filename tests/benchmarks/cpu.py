"""Where a run's processor time goes, in seconds of the processor and not of the clock, so that a busy machine
tells the same: of each file of tests, with what it waits for (browsers, ngspice, node).

    .ci/test -p tests.benchmarks.cpu [-n 0]

The first that asks for a thing made once for all pays for it. Linux.
"""

from __future__ import annotations

import os
from collections import Counter
from pathlib import Path

import pytest

TICK = os.sysconf("SC_CLK_TCK")
SHOWN = 25
_spent: Counter[str] = Counter()
_last = 0.0


def spent() -> float:
    """Seconds of this process and of all that descend from it, those that ended too."""
    seconds, waiting = 0, [os.getpid()]
    while waiting:
        process = Path(f"/proc/{waiting.pop()}")
        try:
            fields = (process / "stat").read_text().rpartition(")")[2].split()
            children = [path.read_text() for path in process.glob("task/*/children")]
        except OSError:  # it has just ended
            continue
        seconds += sum(map(int, fields[11:15]))  # utime, stime, cutime, cstime: proc(5)
        waiting += " ".join(children).split()
    return seconds / TICK


def pytest_configure() -> None:
    global _last
    _last = spent()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_teardown(item):
    global _last
    done = yield
    now = spent()
    item.user_properties.append(("cpu", now - _last))
    _last = now
    return done


def pytest_runtest_logreport(report) -> None:
    if report.when == "teardown":
        _spent[report.location[0]] += dict(report.user_properties).get("cpu", 0)


def pytest_terminal_summary(terminalreporter) -> None:
    terminalreporter.write_line(f"{_spent.total():.0f} s of the processor, of these")
    for name, seconds in _spent.most_common(SHOWN):
        terminalreporter.write_line(f"{seconds:8.1f} {name}")
