"""Run many netlists through one ngspice process and read its binary raw file: all vectors in full double precision."""

from __future__ import annotations

import re
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import numpy as np
import pytest

NGSPICE = shutil.which("ngspice")
needs_ngspice = pytest.mark.skipif(NGSPICE is None, reason="ngspice not installed")


def bare(netlist: str) -> str:
    """A netlist without title, legend and part names: equal circuits have equal text."""
    return re.sub(r"^\*.*\n| ;.*", "", netlist, flags=re.MULTILINE)


def simulate(netlists: Sequence[str], retry: Callable[[int], str] | None = None) -> list[list[dict[str, complex]]]:
    """For each netlist its analyses, each a map from vector name (`n3` a voltage, `v4` or `l4` a current, `frequency`) to its value.

    `retry` gives another netlist for the one of that number where ngspice found no operating point. Raises AssertionError with what ngspice said
    when one of them gave no result.
    """
    found, said = _run(netlists)
    failed = [number for number, text in enumerate(netlists) if len(found[number]) != _wanted(text)]
    if failed and retry:
        again, said = _run([retry(number) for number in failed])
        for number, analyses in zip(failed, again):
            found[number] = analyses
    for text, analyses in zip(netlists, found):
        assert len(analyses) == _wanted(text), f"ngspice gave {len(analyses)} of {_wanted(text)} analyses for\n{text}\n{said[-2000:]}"
    return found


def started(netlist: str, volts: Sequence[float]) -> str:
    """A direct-current netlist that begins its search with these voltages on n0, n1 ... It still ends where ngspice's own equations hold."""
    given = " ".join(f"v(n{net})={float(v)!r}" for net, v in enumerate(volts))
    return netlist.replace("\n.op\n", f"\n.nodeset {given}\n.op\n")


def _wanted(netlist: str) -> int:
    return max(1, netlist.count("\n.ac "))


def _run(netlists: Sequence[str]) -> tuple[list[list[dict[str, complex]]], str]:
    """What one ngspice process found, and what it said."""
    with tempfile.TemporaryDirectory() as directory:
        raw, script = Path(directory) / "out.raw", Path(directory) / "run.cir"
        commands = ["many circuits", ".control", "set filetype=binary", "set appendwrite"]
        for number, text in enumerate(netlists):
            path = Path(directory) / f"{number}.cir"
            path.write_text(f"case-{number}\n{bare(text)}", encoding="utf-8")
            plots = " ".join(f"ac{k + 1}.all" for k in range(text.count("\n.ac "))) or "op1.all"
            commands += [f"source {path}", "run", f"write {raw} {plots}", "remcirc", "destroy all"]
        script.write_text("\n".join([*commands, ".endc", ".end", ""]), encoding="utf-8")
        said = subprocess.run([NGSPICE, "-n", "-b", str(script)], capture_output=True, text=True, check=False)
        found: dict[str, list[dict[str, complex]]] = {f"case-{number}": [] for number in range(len(netlists))}
        for title, vectors in _plots(raw.read_bytes() if raw.exists() else b""):
            found[title].append(vectors)
    return list(found.values()), said.stderr


def _plots(data: bytes) -> Iterator[tuple[str, dict[str, complex]]]:
    """Every plot of a binary raw file, each with one point: title and values."""
    at = 0
    while at < len(data):
        start = data.index(b"Binary:\n", at) + len(b"Binary:\n")
        head = data[at:start].decode("ascii")
        title = re.search(r"^Title: (.*)$", head, re.MULTILINE).group(1)
        names = [re.sub(r"^[vi]\((.*)\)$", r"\1", name) for name in re.findall(r"^\t\d+\t(\S+)\t", head, re.MULTILINE)]
        kind = np.dtype(complex if "Flags: complex" in head else float)
        at = start + kind.itemsize * len(names)
        yield title, dict(zip(names, np.frombuffer(data[start:at], kind)))
