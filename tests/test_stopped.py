"""What ends a command in the middle is one line, and what was done is kept: a key, a full disk, a folder that
cannot be written to."""

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

import pytest

from generator.catalogue import default_directory

ROOT = Path(__file__).parents[1]


def begun(folder, *words, **how):
    """A command, in a group of its own as in a terminal of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "generator", *map(str, words)],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        text=True,
        stderr=subprocess.PIPE,
        start_new_session=True,
        **{"stdout": subprocess.PIPE, **how},
    )


def judged(memory):
    """How many pairings are remembered."""
    try:
        with closing(sqlite3.connect(f"{memory.as_uri()}?mode=ro", uri=True)) as file:
            return file.execute("SELECT count(*) FROM pairings").fetchone()[0]
    except sqlite3.OperationalError:
        return 0


def test_a_key_stops_a_judging_in_one_line_and_what_was_judged_is_kept(tmp_path):
    shutil.copytree(default_directory(), tmp_path / "pinouts", ignore=shutil.ignore_patterns("verdicts"))
    memory = tmp_path / "build/readings.sqlite"
    run = begun(tmp_path, "ledger", "--pinouts", "pinouts")
    while run.poll() is None and not judged(memory):
        time.sleep(0.1)
    os.killpg(run.pid, signal.SIGINT)
    out, said = run.communicate()
    assert (run.returncode, out, said) == (
        130,
        "",
        "Stopped. What is done is kept: start it again and it goes on.\n",
    )
    assert [path.name for path in memory.parent.iterdir()] == [memory.name], "all is in the one file"
    assert judged(memory)
    assert not (tmp_path / "pinouts/verdicts").exists(), "half a ledger is not written"


@pytest.mark.parametrize(
    "words, told",
    [
        (("list", "connectors"), "No space left on device"),
        (("judge", "mic-dynamic-xlr", "mixer-mic-in-p48-xlr", "--json"), "No space left on device"),
    ],
)
def test_a_full_disk_is_one_line(tmp_path, words, told):
    with open("/dev/full", "w") as full:
        run = begun(tmp_path, *words, stdout=full)
        assert (run.communicate()[1], run.returncode) == (f"{told}\n", 2)


def test_what_cannot_be_written_is_one_line_with_its_name(tmp_path):
    (tmp_path / "a-file").write_text("")
    run = begun(tmp_path, "docs", "--out", "a-file/docs")
    assert (*run.communicate(), run.returncode) == ("", "a-file/docs: Not a directory\n", 2)
