"""Judged connections as the pages need them: one short row each, and the best of a group.

A row is the published form of a verdict: `from`, `through` (a list), `into`, `verdict`, `findings` (the ids that decided it),
`number` (the value behind the first of them, or None) and `says` (that finding's sentence). `offered` is what it is once plugged in where a
switch avoids a danger that lasts only while plugging, and `offer` the order in a sentence; both are empty elsewhere.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from generator.engine.rulebook import loss
from generator.engine.verdict import HALF

Row = Mapping[str, Any]

ORDER = ("safe", "lossy", "no signal", "dangerous", "does not fit")  # best first
SLUGS = {verdict: verdict.replace(" ", "-") for verdict in ORDER}


def row(judged: Mapping[str, Any]) -> Row:
    """The short row of one judged connection (the object of `judge --json`)."""
    verdict = judged["verdict"]
    if verdict not in ORDER:
        raise ValueError(f"{verdict!r} is not a verdict; the verdicts are {', '.join(ORDER)}")
    deciding = [finding for finding in judged["findings"] if finding["severity"] == verdict]
    first = deciding[0] if deciding else None
    number = None
    if first and first.get("value") is not None:
        number = {key: first.get(key) for key in ("value", "unit", "limit")}
    return {
        "from": judged["from"], "through": list(judged["through"]), "into": judged["into"], "verdict": verdict,
        "findings": list(dict.fromkeys(finding["id"] for finding in deciding)), "number": number,
        "says": first["says"] if first else "", "conditions": judged.get("conditions") or "",
        "offered": judged.get("offered") or "", "offer": judged.get("offer") or "",
    }


def rank(entry: Row) -> tuple:
    """Sort key: best verdict first, what a switch makes well half a step below what is well without, then least lost, then fewest leads, then name."""
    return ORDER.index(entry["offered"]) + HALF if entry["offered"] else ORDER.index(entry["verdict"]), loss(entry["findings"]), len(entry["through"]), entry["through"]


def best(rows: Iterable[Row]) -> str:
    """The best verdict of some rows. One that is dangerous is, whatever a switch makes of it."""
    return min((entry["verdict"] for entry in rows), key=ORDER.index)


def grouped(rows: Iterable[Row], key: str) -> dict[str, list[Row]]:
    """Rows by their `from` or `into`, each group best first, groups in id order."""
    groups: dict[str, list[Row]] = defaultdict(list)
    for entry in rows:
        groups[entry[key]].append(entry)
    return {name: sorted(groups[name], key=rank) for name in sorted(groups)}


def tally(rows: Iterable[Row]) -> dict[str, int]:
    """How many rows have each verdict, worst first, leaving out verdicts nobody has."""
    counts = dict.fromkeys(reversed(ORDER), 0)
    for entry in rows:
        counts[entry["verdict"]] += 1
    return {verdict: count for verdict, count in counts.items() if count}
