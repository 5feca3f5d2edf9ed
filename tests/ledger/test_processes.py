"""Judging on all cores of a machine: the same answers, and nothing left running."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest
from remembering import JUDGED

from generator import ledger
from generator.ledger import workers


def test_many_are_judged_on_all_cores_alike(small, monkeypatch):
    """More processes, the same answers."""
    alone = ledger.judged(small)
    monkeypatch.setattr(JUDGED, "FEW", 0)
    assert ledger.judged(small) == alone


def ended(*given):
    """What a process does that the machine has no memory for."""
    os._exit(1)


def test_a_process_that_is_ended_from_outside_is_said(small):
    with pytest.raises(OSError) as fault, workers.processes(ended, small, None, 2) as mapped:
        list(mapped([["pairing"]]))
    assert str(fault.value.strerror) == (
        "a process that judged was ended from outside, for want of memory perhaps; start it again and it "
        "goes on"
    )


WORKS = """
import sys
from pathlib import Path
from generator.catalogue import load
from generator.ledger import workers
sys.path.insert(0, str(Path(sys.argv[1]).parent))
from test_processes import waiting
if __name__ == "__main__":
    with workers.processes(waiting, None, None, 1) as mapped:
        list(mapped([[sys.argv[2]]]))
"""


def waiting(catalogue, remembered, share):
    """Says which process it is and works for long."""
    Path(share[0]).write_text(str(os.getpid()))
    time.sleep(60)


def test_nobody_works_on_when_the_one_who_asked_is_gone(tmp_path):
    script, said = tmp_path / "works.py", tmp_path / "process"
    script.write_text(WORKS)
    asked = subprocess.Popen([sys.executable, script, __file__, said])
    until(lambda: said.exists() and said.read_text())
    asked.kill()
    asked.wait()
    until(lambda: not running(int(said.read_text())))


def until(true, patience=30.0):
    for _ in range(int(patience * 20)):
        if true():
            return
        time.sleep(0.05)
    raise AssertionError(f"not within {patience} s")


def running(process: int) -> bool:
    """A process that ended and that nobody has asked for yet does not run."""
    try:
        os.kill(process, 0)
        return "\nState:\tZ" not in Path(f"/proc/{process}/status").read_text()
    except OSError:
        return False
