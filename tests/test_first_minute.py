"""The first minute of a newcomer: what `.ci/serve` and `.ci/prepare` say where something is in the way.
Nothing is fetched here."""

import os
import shutil
import socket
import subprocess
import sys
from pathlib import Path

import pytest

CI = Path(__file__).parents[1] / ".ci"
NOWHERE = "http://127.0.0.1:9/simple"  # nobody answers on the discard port
VENV = """#!/bin/sh
if [ "$1" = -c ]; then exec {python} "$@"; fi
mkdir -p .venv/bin; printf '%s\\n' '#!/bin/sh' '{pip}' > .venv/bin/pip; chmod +x .venv/bin/pip
"""


@pytest.fixture
def copy(tmp_path):
    """A fresh copy with only what setting up looks at."""
    shutil.copytree(CI, tmp_path / ".ci")
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "x"\nversion = "0"\n')
    return tmp_path


def python(copy, pip):
    """A Python whose venv holds a pip that does what is said, quickly."""
    made = copy / "python"
    made.write_text(VENV.format(python=sys.executable, pip=pip))
    made.chmod(0o755)
    return str(made)


def said(copy, script, *words, **environment):
    done = subprocess.run(
        [copy / ".ci" / script, *words],
        capture_output=True,
        text=True,
        timeout=300,
        env={**os.environ, "PYTHON": sys.executable, **environment},
    )
    return done.returncode, done.stderr.strip().splitlines()


def test_a_port_that_is_taken_is_named_before_anything_is_done(copy):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        status, told = said(copy, "serve", PORT=str(port))
        assert status == 1 and told == [
            (
                f"Port {port} is taken by another program: stop that, or take another port, "
                f"PORT={port % 65535 + 1} .ci/serve"
            )
        ]
        assert said(copy, "serve", f"127.0.0.1:{port}")[1] == told
    assert not (copy / ".venv").exists()


@pytest.mark.parametrize(
    "word, told",
    [
        ("127.0.0.1:http", "'http' is no port: write a number from 1 to 65535."),
        ("127.0.0.1:70000", "'70000' is no port: write a number from 1 to 65535."),
        # TEST-NET-1, RFC 5737
        (
            "192.0.2.1:8000",
            (
                "'192.0.2.1' is no address of this machine: write 127.0.0.1 for this machine only, 0.0.0.0 "
                "for your network."
            ),
        ),
        (
            "nowhere.invalid:8000",
            (
                "'nowhere.invalid' is no address of this machine: write 127.0.0.1 for this machine only, "
                "0.0.0.0 for your network."
            ),
        ),
    ],
)
def test_what_is_no_address_is_said(copy, word, told):
    assert said(copy, "serve", word) == (1, [told])


@pytest.mark.parametrize(
    "pip, told",
    [
        (
            'echo "Failed to establish a new connection" >&2; exit 1',
            (
                "No network: the packages could not be fetched. Connect this machine and start again; what "
                "has come is kept."
            ),
        ),
        ('echo "OSError: No space left on device" >&2; exit 1', "The disk is full."),
        ('echo "something else" >&2; exit 1', "something else"),
    ],
)
def test_what_stands_in_the_way_is_one_line(copy, pip, told):
    assert said(copy, "prepare", PYTHON=python(copy, pip)) == (
        1,
        ["Fetching what the project needs into .venv, once.", told],
    )
    assert not (copy / ".preparing").exists() and not (copy / ".venv/prepared-run").exists(), (
        "the next run begins anew"
    )


def test_a_real_pip_without_a_network_says_so(copy):
    status, told = said(
        copy,
        "prepare",
        PIP_INDEX_URL=NOWHERE,
        PIP_EXTRA_INDEX_URL="",
        PIP_FIND_LINKS="",
        PIP_NO_INDEX="",
        PIP_CONFIG_FILE=os.devnull,
    )
    assert status == 1 and told[-1].startswith("No network: "), told


def test_an_old_python_is_named(copy):
    old = copy / "old"
    old.write_text("#!/bin/sh\nexit 1\n")
    old.chmod(0o755)
    assert said(copy, "prepare", PYTHON=str(old)) == (
        1,
        ["Python 3.11 or newer is needed; name one with PYTHON=..."],
    )


def test_two_at_once_wait_for_each_other(copy):
    quick = python(copy, "sleep 1; echo $* >> installed")
    runs = [
        subprocess.Popen(
            [copy / ".ci/prepare"], stderr=subprocess.PIPE, text=True, env={**os.environ, "PYTHON": quick}
        )
        for _ in range(2)
    ]
    told = [run.communicate(timeout=120)[1] for run in runs]
    assert [run.returncode for run in runs] == [0, 0]
    fetched, itself = (copy / "installed").read_text().splitlines()
    assert fetched.endswith(" --require-hashes -r .ci/locks/run.txt") and itself.endswith(
        " --no-deps --no-build-isolation -e ."
    )
    assert sum("Another run is setting up here" in one for one in told) == 1
    assert not (copy / ".preparing").exists()


def test_a_newer_lock_is_fetched_and_an_old_one_is_not(copy):
    quick = python(copy, "echo $* >> installed")
    for expected in (2, 2):
        assert said(copy, "prepare", "test", PYTHON=quick)[0] == 0
        assert len((copy / "installed").read_text().splitlines()) == expected
    lock, done = copy / ".ci/locks/test.txt", (copy / ".venv/prepared-test").stat().st_mtime
    os.utime(lock, (done + 10, done + 10))
    assert said(copy, "prepare", "test", PYTHON=quick)[0] == 0
    assert "-r .ci/locks/test.txt" in (copy / "installed").read_text().splitlines()[2]


def test_the_project_itself_waits_for_what_it_needs(copy):
    """A digest that does not fit ends it, in pip's own words: nothing half done passes for done."""
    assert (
        said(
            copy,
            "prepare",
            PYTHON=python(
                copy, 'echo $* >> installed; echo "THESE PACKAGES DO NOT MATCH THE HASHES" >&2; exit 1'
            ),
        )[0]
        == 1
    )
    assert (
        len((copy / "installed").read_text().splitlines()) == 1 and not (copy / ".venv/prepared-run").exists()
    )


def test_what_has_no_lock_is_named(copy):
    assert said(copy, "prepare", "tests") == (
        1,
        [
            (
                "There is no .ci/locks/tests.txt, which says what to fetch. Those there are: cluster.txt "
                "run.txt test.txt"
            )
        ],
    )


def test_a_run_that_died_holds_nobody_up(copy):
    (copy / ".preparing").mkdir()
    gone = subprocess.Popen(["true"])
    gone.wait()
    (copy / ".preparing/by").write_text(f"{gone.pid}\n")
    assert said(copy, "prepare", PYTHON=python(copy, "true"))[0] == 0


@pytest.mark.skipif(
    os.geteuid() == 0 and not shutil.which("setpriv"),
    reason="root may write everywhere, and there is no setpriv to become somebody else",
)
def test_a_folder_that_cannot_be_written_to_is_said(copy):
    copy.chmod(0o555)
    for above in (copy, *copy.parents):
        if above.stat().st_uid == os.getuid() and above != Path("/"):
            above.chmod(above.stat().st_mode | 0o055)
    words = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups"] if os.geteuid() == 0 else []
    done = subprocess.run(
        [*words, copy / ".ci/prepare"],
        capture_output=True,
        text=True,
        timeout=60,
        env={**os.environ, "PYTHON": sys.executable},
    )
    copy.chmod(0o755)
    assert (
        done.returncode == 1
        and done.stderr
        == "This folder cannot be written to, and .venv has to go into it: copy it to where you may write.\n"
    )
