"""What is fetched is named to the file: every dependency of pyproject.toml in .ci/locks, in a version it
allows, with digests and without an address."""

import os
import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
RUN, EXTRAS = PROJECT["project"]["dependencies"], PROJECT["project"]["optional-dependencies"]
WANTED = {"run": RUN, **{name: RUN + more for name, more in EXTRAS.items()}}
ENTRY = re.compile(r"([a-z0-9-]+)==([\w.]+)((?: \\\n    --hash=sha256:[0-9a-f]{64})+)\n")
HEAD = "# What exactly is fetched, with digests; written by .ci/update, never edited by hand.\n"


def text(name):
    return (ROOT / ".ci/locks" / f"{name}.txt").read_text("utf-8")


def locked(name):
    """Name -> version."""
    return {entry[1]: Version(entry[2]) for entry in ENTRY.finditer(text(name))}


def test_there_is_a_lock_for_every_way_of_setting_up():
    assert (
        {path.stem for path in (ROOT / ".ci/locks").iterdir()}
        == set(WANTED)
        == {"run", *PROJECT["project"]["optional-dependencies"]}
    )


@pytest.mark.parametrize("name", WANTED)
def test_a_lock_is_names_versions_and_digests_and_nothing_else(name):
    """So no host, no address, no option: where things come from is the business of whoever fetches them."""
    assert text(name).startswith(HEAD)
    assert ENTRY.sub("", text(name).removeprefix(HEAD)) == ""


@pytest.mark.parametrize("name", WANTED)
def test_every_dependency_is_locked_in_a_version_it_allows(name):
    known = locked(name)
    for line in WANTED[name] + PROJECT["build-system"]["requires"]:
        wanted = Requirement(line)
        assert canonicalize_name(wanted.name) in known, f"{line}: run .ci/update"
        assert known[canonicalize_name(wanted.name)] in wanted.specifier, f"{line}: run .ci/update"


def test_what_is_tested_is_what_runs():
    assert locked("run").items() <= locked("cluster").items() <= locked("test").items()


# -- .ci/update, with tools that answer at once
# -----------------------------------------------------------------------

PYTHON = """#!/bin/sh
if [ "$1" = -c ]; then echo {version}; exit; fi
mkdir -p "$3/bin"; cp {here}/pip "$3/bin/pip"; cp {here}/pip-compile "$3/bin/pip-compile"
"""
COMPILE = """#!/bin/sh
echo "$@" >> {here}/asked
while [ "$1" != -o ]; do shift; done
printf '# by a tool\\none=={one} \\\\\\n    --hash=sha256:%064d\\n' 0 > "$2"
"""
OLD, NEW = (HEAD + f"one=={one} \\\n    --hash=sha256:{'0' * 64}\n" for one in ("1.0", "1.1"))


@pytest.fixture
def update(tmp_path):
    """Runs .ci/update in a copy where the newest `one` is of a version, and the tests end with a status."""

    def run(newest="1.1", tests="exit 0", version="3.11"):
        for name, content in {
            "python": PYTHON.format(here=tmp_path, version=version),
            "pip": "#!/bin/sh\n",
            "pip-compile": COMPILE.format(here=tmp_path, one=newest),
            ".ci/test": f'#!/bin/sh\necho "tests $*" >> {tmp_path}/asked\n{tests}\n',
        }.items():
            (tmp_path / name).write_text(content)
            (tmp_path / name).chmod(0o755)
        done = subprocess.run(
            [tmp_path / ".ci/update", "tests/some"],
            capture_output=True,
            text=True,
            timeout=60,
            env={**os.environ, "PYTHON": f"{tmp_path}/python"},
        )
        return done.returncode, done.stdout, done.stderr.splitlines()

    (tmp_path / ".ci/locks").mkdir(parents=True)
    shutil.copy(ROOT / ".ci/update", tmp_path / ".ci")
    for name in WANTED:
        (tmp_path / f".ci/locks/{name}.txt").write_text(OLD)
    run.here = tmp_path
    run.locks = lambda: {(tmp_path / f".ci/locks/{name}.txt").read_text() for name in WANTED}
    return run


ASKING = "Asking for the newest versions that pyproject.toml allows ..."
DIFFERENCE = "".join(f"{name}:\n  - one==1.0\n  + one==1.1\n" for name in WANTED)


def test_newer_versions_stay_where_the_tests_pass(update):
    assert update() == (0, DIFFERENCE, [ASKING, "The tests pass: commit .ci/locks."])
    assert update.locks() == {NEW}
    assert (update.here / "asked").read_text().endswith("\ntests tests/some\n")


def test_newer_versions_go_where_the_tests_fail(update):
    assert update(tests="exit 1") == (
        1,
        DIFFERENCE,
        [ASKING, "The tests fail with these versions.", "The locks are as they were."],
    )
    assert update.locks() == {OLD}


def test_stopped_half_way_nothing_is_changed(update):
    assert update(tests="kill -INT $PPID; exit 130")[0] == 130
    assert update.locks() == {OLD}


def test_nothing_newer_is_said_and_nothing_is_run(update):
    assert update(newest="1.0") == (0, "", [ASKING, "Nothing newer."])
    assert "tests" not in (update.here / "asked").read_text()


def test_locks_are_asked_for_without_addresses(update):
    update()
    for line in (update.here / "asked").read_text().splitlines()[:2]:
        assert {
            "--generate-hashes",
            "--strip-extras",
            "--no-emit-index-url",
            "--no-emit-trusted-host",
            "--no-emit-find-links",
        } <= set(line.split())


def test_another_python_makes_no_lock(update):
    assert update(version="3.12") == (1, "", ["Python 3.11 makes the locks; name one with PYTHON=..."])
    assert update.locks() == {OLD}
