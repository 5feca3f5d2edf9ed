"""The pages about the catalogue itself: how far it reaches, and which state of it this is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from generator.catalogue.records import Catalogue
from generator.ledger.rows import Row
from generator.site.coverage import coverage, links
from generator.site.page import KINDS, Page
from generator.site.stamp import Stamp


def pages(
    catalogue: Catalogue,
    rows: list[Row],
    contested: Iterable[Mapping],
    changes: Iterable[Mapping],
    stored: Mapping[str, Mapping],
    stamp: Stamp,
) -> Iterator[Page]:
    """The coverage page, the page of the data's state, and what the site keeps and promises. `contested`,
    `changes` and `stored` are the lists in the YAML files of these names."""
    show = coverage(catalogue, rows) | {
        "contested": [_question(catalogue, question) for question in contested]
    }
    yield Page("coverage/", "coverage", "Coverage", catalogue, show)
    yield Page(
        "changes/",
        "changes",
        "State of the data",
        catalogue,
        {"state": stamp, "days": days(catalogue), "changes": changes},
    )
    yield Page("safety/", "safety", "What this site keeps and promises", catalogue, {"stored": stored})


def _question(catalogue: Catalogue, question: Mapping) -> dict[str, Any]:
    variants = [
        {**variant, "cite": variant.get("cite", []), "records": links(catalogue, variant.get("records", []))}
        for variant in question["variants"]
    ]
    return {"asks": question["asks"], "ruling": question["ruling"], "variants": variants}


def days(catalogue: Catalogue) -> dict[str, dict[str, list]]:
    """Day -> kind -> the records last checked on that day, newest day first; `never` for
    those without a date."""
    found: dict[str, dict[str, list]] = {}
    for kind in KINDS:
        for record in getattr(catalogue, kind).values():
            found.setdefault(record.evidence.checked or "never", {}).setdefault(kind, []).append(record)
    return {
        day: found[day] for day in sorted(found, key=lambda day: "" if day == "never" else day, reverse=True)
    }
