"""python -m tests.mutants [ID ...] [--sample N --seed S]: puts faults into a copy of the engine, one at a
time, and tells which test notices.

The faults are data, in engine.yaml. The tests that hold the engine against the committed ledger, against its
twin or against ngspice are left out: they notice nearly everything and tell nothing. What is left is run
from the quickest to the slowest, up to the first failure; each run begins where the catalogue has been read,
for that needs no engine.
"""

from __future__ import annotations

import argparse
import os
import random
import re
import shutil
import signal
import sys
import tempfile
from collections import Counter
from itertools import count
from pathlib import Path

import pytest
import yaml

from . import spoilt

ROOT = Path(__file__).parents[2]
ENGINE = "generator/engine"
COPIED = (
    "generator",
    "pinouts",
    "site_src",
    "tests",
    "pyproject.toml",
    "mkdocs.yml",
    "README.md",
    "DEVELOPERS.md",
    ".ci",
)
STAGES = (  # each is one run of pytest, with how long it may take on a busy machine, s
    (
        600,
        "engine/test_small_pieces.py",
        "engine/test_words.py",
        "engine/test_circuit.py",
        "engine/test_mate.py",
        "engine/test_solve.py",
        "engine/test_netlist.py",
        "engine/test_counts_at_its_worst.py",
        "engine/test_levels_by_hand.py",
        "engine/test_supplies_by_hand.py",
        "engine/test_routes_by_hand.py",
        "engine/test_working_of_little.py",
        "engine/test_worked_checks.py",
        "workshop/test_pads.py",
        "engine/test_rulebook.py",
    ),
    (
        900,
        "data/test_what_an_engineer_would_say.py",
        "engine/test_hum_by_powering.py",
        "engine/test_bad_circuits.py",
        "engine/test_trade_truths.py",
        "engine/test_explain.py",
        "test_judge_explain.py",
        "engine/test_routes.py",
        "interference/test_stories.py",
    ),
    (900, "engine/test_metamorphic.py", "test_command_line.py", "own/test_laws.py"),
)
ENDED_AT = re.compile(r"^(?:FAILED|ERROR) (\S+?)(?:\[.*)?(?: - .*)?$", re.MULTILINE)


def mutants() -> list[dict]:
    """The rows of engine.yaml."""
    return yaml.safe_load(Path(__file__).with_name("engine.yaml").read_text("utf-8"))


def noticed(copy: Path, mutant: dict | None, stages: tuple = STAGES) -> str:
    """The first test that fails with the fault in the copy; empty where none does."""
    path = copy / ENGINE / mutant["file"] if mutant else None
    whole = path.read_text("utf-8") if path else ""
    if path:
        _write(path, spoilt(whole, mutant)[0])
    try:
        return next(filter(None, (_failed(copy, *stage) for stage in stages)), "")
    finally:
        if path:
            _write(path, whole)


def _write(path: Path, text: str, seconds=count(1)) -> None:
    """With a second of its own, for bytecode goes by the second its source was written in."""
    path.write_text(text, "utf-8")
    os.utime(path, (next(seconds),) * 2)


def _failed(copy: Path, seconds: int, *files: str) -> str:
    said = copy / "said.txt"
    child = os.fork()
    if not child:
        signal.alarm(seconds)
        out = os.open(said, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.dup2(out, 1)
        os.dup2(out, 2)
        status = pytest.main(
            ["-x", "-q", "--tb=no", "-rfE", "-p", "no:cacheprovider", *(f"tests/{file}" for file in files)]
        )
        sys.stdout.flush()
        os._exit(status)
    status = os.waitpid(child, 0)[1]
    if os.WIFSIGNALED(status):
        return (
            "nothing, for nothing ends any more"
            if os.WTERMSIG(status) == signal.SIGALRM
            else f"signal {os.WTERMSIG(status)}"
        )
    if not os.WEXITSTATUS(status):
        return ""
    failed = ENDED_AT.search(said.read_text("utf-8", errors="replace"))
    return failed[1].removeprefix("tests/") if failed else "nothing, for nothing can be imported any more"


def _begin(copy: Path) -> None:
    """Here, with the catalogue read and the engine not yet imported."""
    os.chdir(copy)
    sys.path[:] = [str(copy), *(path for path in sys.path if Path(path or ".").resolve() != ROOT)]
    os.environ["PYTHONPATH"] = str(copy)
    from generator import catalogue

    load, known = catalogue.load, catalogue.load(catalogue.default_directory())
    catalogue.load = lambda directory, *more: (
        known if directory == catalogue.default_directory() and not more else load(directory, *more)
    )
    assert Path(catalogue.__file__).is_relative_to(copy) and "generator.engine" not in sys.modules


def main() -> int:
    parser = argparse.ArgumentParser(
        prog="python -m tests.mutants", description="Which test notices a fault in the engine?"
    )
    parser.add_argument(
        "ids", nargs="*", metavar="ID", help="those to put in; without, all that some test could notice"
    )
    parser.add_argument("--sample", type=int, metavar="N", help="so many of them, drawn")
    parser.add_argument("--seed", type=int, default=0, metavar="S")
    parser.add_argument(
        "--quick",
        action="store_true",
        help="by the quickest tests alone: what survives here is to be put in again without",
    )
    options = parser.parse_args()
    stages = STAGES[:1] if options.quick else STAGES
    rows = {row["id"]: row for row in mutants()}
    unknown = sorted(set(options.ids) - set(rows))
    if unknown:
        parser.error(f"no such fault: {', '.join(unknown)}")
    chosen = [rows[name] for name in options.ids] or [row for row in rows.values() if "same" not in row]
    if options.sample:
        chosen = random.Random(options.seed).sample(chosen, min(options.sample, len(chosen)))
    ends: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder).resolve()
        for name in COPIED:
            if (ROOT / name).is_dir():
                shutil.copytree(ROOT / name, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(ROOT / name, copy / name)
        _begin(copy)
        already = noticed(copy, None, stages)
        if already:
            print(f"The tests fail without any fault: {already}")
            return 1
        for row in chosen:
            by = noticed(copy, row, stages)
            ends["noticed" if by else "survived"] += 1
            print(f"{row['id']}: {f'noticed by {by}' if by else 'SURVIVED'}", flush=True)
    print(
        f"{ends['noticed']} of {ends.total()} noticed, {ends['survived']} survived; {len(rows)} are listed."
    )
    return 1 if ends["survived"] else 0


if __name__ == "__main__":
    sys.exit(main())
