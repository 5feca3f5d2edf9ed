"""Run many netlists through one ngspice process and read its binary raw file: all vectors in
full double precision."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
import pytest

NGSPICE = shutil.which("ngspice")
# a file for each netlist: on a disk, opening them takes as long as all else
MEMORY = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
needs_ngspice = pytest.mark.skipif(NGSPICE is None, reason="ngspice not installed")


def bare(netlist: str) -> str:
    """A netlist without title, legend and part names: equal circuits have equal text."""
    return re.sub(r"^\*.*\n| ;.*", "", netlist, flags=re.MULTILINE)


def simulate(netlists: Sequence[str]) -> list[list[dict[str, complex]]]:
    """For each netlist its analyses, each a map from vector name (`n3` a voltage, `v4` or `l4`
    a current, `frequency`) to its value. Raises AssertionError with what ngspice said when one
    of them gave no result."""
    with tempfile.TemporaryDirectory(dir=MEMORY) as directory:
        return _simulate(netlists, Path(directory))


def _simulate(netlists: Sequence[str], directory: Path) -> list[list[dict[str, complex]]]:
    raw, script = directory / "out.raw", directory / "run.cir"
    commands = ["many circuits", ".control", "set filetype=binary", "set appendwrite"]
    for number, text in enumerate(netlists):
        path = directory / f"{number}.cir"
        path.write_text(f"case-{number}\n{bare(text)}", encoding="utf-8")
        analyses = text.count("\n.ac ")
        plots = " ".join(f"ac{k + 1}.all" for k in range(analyses)) or "op1.all"
        commands += [f"source {path}", "run", f"write {raw} {plots}", "remcirc", "destroy all"]
    script.write_text("\n".join([*commands, ".endc", ".end", ""]), encoding="utf-8")
    said = subprocess.run([NGSPICE, "-n", "-b", str(script)], capture_output=True, text=True, check=False)
    found: dict[str, list[dict[str, complex]]] = {f"case-{number}": [] for number in range(len(netlists))}
    for title, vectors in _plots(raw.read_bytes() if raw.exists() else b""):
        found[title].append(vectors)
    for number, text in enumerate(netlists):
        wanted, given = max(1, text.count("\n.ac ")), len(found[f"case-{number}"])
        assert given == wanted, (
            f"ngspice gave {given} of {wanted} analyses for\n{text}\n{said.stderr[-2000:]}"
        )
    return list(found.values())


def _plots(data: bytes) -> Iterator[tuple[str, dict[str, complex]]]:
    """Every plot of a binary raw file, each with one point: title and values."""
    at = 0
    while at < len(data):
        start = data.index(b"Binary:\n", at) + len(b"Binary:\n")
        head = data[at:start].decode("ascii")
        title = re.search(r"^Title: (.*)$", head, re.MULTILINE).group(1)
        names = re.findall(r"^\t\d+\t(?:[vi]\()?([^\s()]+)\)?\t", head, re.MULTILINE)
        kind = np.dtype(complex if "Flags: complex" in head else float)
        at = start + kind.itemsize * len(names)
        yield title, dict(zip(names, np.frombuffer(data[start:at], kind)))
