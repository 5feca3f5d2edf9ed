"""Judged connections in short: what the ledger keeps of each, and all that the pages need of
those nobody has opened yet.

A row is a dict: `from`, `through` (a list), `into`, `verdict`, `findings` (the ids that decided it), `also`
(the other ids that cost something), `number` (the first deciding value against its limit, in words, or ""),
`subject` (the place and the part it is about, or ""), and where a switch avoids a danger that lasts only
while plugging `offered` (what it is once plugged in) and `offer` (the order, in a sentence), both else "".
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from generator.engine.verdict import VERDICTS
from generator.engine.words import quantity

Row = Mapping[str, Any]


def row(judged: Mapping[str, Any]) -> Row:
    """The row of one judged connection (the object of `judge --json`). ValueError for a
    verdict that is none."""
    verdict = judged["verdict"]
    if verdict not in VERDICTS:
        raise ValueError(f"{verdict!r} is not a verdict; the verdicts are {', '.join(VERDICTS)}")
    counted = [finding for finding in judged["findings"] if finding["severity"] != "note"]
    deciding = [finding for finding in counted if finding["severity"] == verdict]
    ids = list(dict.fromkeys(finding["id"] for finding in deciding))
    also = dict.fromkeys(finding["id"] for finding in counted if finding["id"] not in ids)
    return {
        "from": judged["from"],
        "through": list(judged["through"]),
        "into": judged["into"],
        "verdict": verdict,
        "findings": ids,
        "also": list(also),
        "number": number(deciding[0]) if deciding else "",
        "subject": deciding[0]["subject"] if deciding else "",
        "offered": judged.get("offered") or "",
        "offer": judged.get("offer") or "",
    }


def number(finding: Mapping[str, Any]) -> str:
    """Its value, against its limit where it has one, in words."""
    value = quantity(finding["value"], finding["unit"])
    return (
        value if finding.get("limit") is None else f"{value} / {quantity(finding['limit'], finding['unit'])}"
    )
