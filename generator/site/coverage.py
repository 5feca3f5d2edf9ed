"""How far the catalogue reaches: counts by kind and grade, what is unknown, what the verdicts hang on, and
how the pairings end."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from typing import Any

from generator.catalogue.records import GRADES, Catalogue, Evidence, Lead, Port
from generator.ledger.rows import Row
from generator.site import facts
from generator.site.page import KINDS
from generator.site.verdicts import tally

MOST_NEEDED = 25


def coverage(catalogue: Catalogue, rows: list[Row]) -> dict[str, Any]:
    """Everything the coverage page shows."""
    weighed = facts.Facts(catalogue).weighed(rows)
    return {
        "records": grades(catalogue),
        "limits": Counter(e.grade for e in limit_evidence(catalogue)),
        "unknown": unknown(catalogue),
        "hangs_on": facts.by_grade(weighed),
        "sourced": facts.share,
        "wanted": list(islice(facts.unsourced(weighed), MOST_NEEDED)),
        "facts": len(weighed),
        "facts_sourced": sum(fact.grade in facts.SOURCED for fact in weighed),
        "verdicts": tally(rows),
        "deciding": deciding(rows),
        "pairings": len(rows),
    }


def grades(catalogue: Catalogue) -> dict[str, dict[str, int]]:
    """Kind -> grade -> how many records, every grade named."""
    counts = {
        kind: Counter(record.evidence.grade for record in getattr(catalogue, kind).values()) for kind in KINDS
    }
    return {kind: {grade: counts[kind][grade] for grade in GRADES} for kind in KINDS}


def limit_evidence(catalogue: Catalogue) -> Iterator[Evidence]:
    """How each rating and each need for power is known."""
    for record in (*catalogue.ports.values(), *catalogue.leads.values()):
        for limit in record.network.limits:
            yield limit.evidence
    for port in catalogue.ports.values():
        for need in port.needs:
            yield need.evidence


def unknown(catalogue: Catalogue) -> dict[str, list[Port | Lead]]:
    """What is not known, in words -> the ports and leads where it is not known."""
    found: dict[str, list[Port | Lead]] = {}
    for record in (*catalogue.ports.values(), *catalogue.leads.values()):
        for words in dict.fromkeys(_unknown(record)):
            found.setdefault(words, []).append(record)
    return dict(sorted(found.items(), key=lambda item: (-len(item[1]), item[0])))


def _unknown(record: Port | Lead) -> Iterator[str]:
    for limit in record.network.limits:
        missing = [
            name
            for name, value in (("settled", limit.settled), ("while plugging", limit.momentary))
            if value is None
        ]
        if missing:
            wrong_way = ", the wrong way round" if limit.quantity == "reverse" else ""
            yield f"What the {limit.where} stands{wrong_way}, {' and '.join(missing)}"
    for part in record.network.parts:
        if part.value is None and part.kind != "wire":
            yield f"The value of a {part.kind}"
    if isinstance(record, Port):
        for source in record.sources:
            yield from _missing(
                source,
                f"as {source.kind} outlet",
                nominal="Nominal level",
                maximum="Highest level",
                least_load="Least load",
            )
        for listener in record.listeners:
            yield from _missing(
                listener,
                f"as {listener.kind} inlet",
                sensitivity="Lowest nominal level",
                maximum="Level where it clips",
            )


def _missing(record: Any, role: str, **fields: str) -> Iterator[str]:
    return (f"{words} {role}" for field, words in fields.items() if getattr(record, field) is None)


def deciding(rows: Iterable[Row]) -> dict[str, int]:
    """Finding -> how many pairings it decides, most first. A pairing that several findings
    decide counts for each."""
    counts = Counter(finding for row in rows for finding in row["findings"])
    return dict(sorted(counts.items(), key=lambda item: (-item[1], item[0])))


def links(catalogue: Catalogue, ids: Iterable[str]) -> list[Mapping[str, str]]:
    """Links to records of any kind, those that this catalogue has."""
    return [
        {"path": f"{kind}/{id}/", "name": getattr(catalogue, kind)[id].name}
        for id in ids
        for kind in KINDS
        if id in getattr(catalogue, kind)
    ]
