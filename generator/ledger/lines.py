"""The ledger as text: one file per outlet, one line per lead and inlet, computed fields only, so that a diff shows what a change of data did.

    LEAD  INLET  VERDICT  FINDINGS  NUMBER

separated by tabs; `-` for no lead and for no findings; NUMBER is the first deciding finding's value against its limit.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from generator.engine.words import quantity

HEAD = "# Computed by `python -m generator ledger`; never edited by hand.\n"


def text(verdicts: Iterable[Mapping[str, Any]]) -> dict[str, str]:
    """Published verdicts -> file name -> content."""
    lines: dict[str, list[str]] = {}
    for verdict in verdicts:
        lines.setdefault(f"{verdict['from']}.txt", []).append(_line(verdict))
    return {name: HEAD + "".join(sorted(found)) for name, found in sorted(lines.items())}


def _line(verdict: Mapping[str, Any]) -> str:
    counted = [finding for finding in verdict["findings"] if finding["severity"] != "note"]
    ids = " ".join(dict.fromkeys(finding["id"] for finding in counted))
    deciding = next((finding for finding in counted if finding["severity"] == verdict["verdict"]), None)
    fields = ("+".join(verdict["through"]) or "-", verdict["into"], verdict["verdict"], ids or "-", _number(deciding))
    return "\t".join(fields) + "\n"


def _number(finding: Mapping[str, Any] | None) -> str:
    if finding is None:
        return "-"
    value = quantity(finding["value"], finding["unit"])
    return value if finding["limit"] is None else f"{value} / {quantity(finding['limit'], finding['unit'])}"


def write(files: Mapping[str, str], directory: Path) -> None:
    """Make a directory hold exactly these files, touching only what changed."""
    directory.mkdir(parents=True, exist_ok=True)
    for stale in directory.glob("*.txt"):
        if stale.name not in files:
            stale.unlink()
    for name, content in files.items():
        path = directory / name
        if not path.exists() or path.read_text(encoding="utf-8") != content:
            path.write_text(content, encoding="utf-8")


def read(directory: Path) -> dict[str, str]:
    """The files of a ledger: name -> content."""
    return {path.name: path.read_text(encoding="utf-8") for path in sorted(directory.glob("*.txt"))}
