"""The pages that are not about one record: the check, the bench, the bag, the matrix, the questions, indexes,
methods, sources, and stubs of retired ids."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from typing import Any

from generator.catalogue import constants as catalogue_constants
from generator.catalogue.constants import Constant
from generator.catalogue.records import Catalogue
from generator.engine import constants as engine_constants
from generator.engine.rulebook import rules
from generator.ledger.rows import Row
from generator.site import looks, sides
from generator.site import kits
from generator.site.bundles import scripts_of
from generator.site.page import KINDS, Page
from generator.site.record_pages import direction
from generator.site.verdicts import tally

INTROS = {
    "connectors": "What goes into what, which contact is where, and what makes first.",
    "assignments": "Which contact carries what: by standard, by habit, and the exceptions.",
    "ports": (
        "Outlets drive, inlets listen, some do both. Each is a class of device, not a model: check yours "
        "against the numbers."
    ),
    "leads": (
        "Cables and adapters by how they are wired inside. Leads that look alike can be wired differently."
    ),
}


def other_pages(catalogue: Catalogue, rows: list[Row]) -> Iterator[Page]:
    """Every page of the site that is not a record's own."""
    check = {"scripts": scripts_of("data", "ui", "check")}
    yield Page("", "check", "Check a connection", catalogue, check)
    yield Page("check/", "check", "Check a connection", catalogue, check)
    yield Page(
        "mine/",
        "mine",
        "My devices",
        catalogue,
        {"scripts": scripts_of("data", "circuits", "engine", "ui", "asks", "own", "qr", "mine")},
    )
    for name, title, more in (("bench", "Bench", ()), ("bag", "My kit", ("called", "asks", "own", "kit"))):
        shown = {
            "scripts": scripts_of("data", "circuits", "table", "engine", "ui", "check", "ways", *more, name),
            "kits": kits.at_hand(catalogue) if name == "bag" else [],
        }
        yield Page(f"{name}/", name, title, catalogue, shown)
    matrix = {"scripts": scripts_of("data", "called", "table", "ui", "matrix"), "outlets": _tallies(rows)}
    yield Page("matrix/", "matrix", "Matrix", catalogue, matrix)
    asked = {
        "scripts": scripts_of("plugs", "ui", "recognise"),
        "labels": looks.LABELS,
        "looks": {
            one.id: looks.said(one) for one in sorted(catalogue.connectors.values(), key=lambda one: one.name)
        },
    }
    yield Page("recognise/", "recognise", "What is this plug?", catalogue, asked)
    yield Page(
        "adapter/",
        "adapter",
        "I am looking at an adapter",
        catalogue,
        {"scripts": scripts_of("data", "circuits", "table", "engine", "ui", "check", "ways", "adapter")},
    )
    yield Page("more/", "more", "Everything here", catalogue)
    yield Page(
        "plugs/",
        "plugs",
        "Plugs at true size",
        catalogue,
        {"scripts": scripts_of("plugs-sheet"), "families": _true_size(catalogue)},
    )
    yield Page("methods/", "methods", "How it works", catalogue, _methods(catalogue, rows))
    yield Page("sources/", "sources", "Sources", catalogue)
    for kind in KINDS:
        yield Page(
            f"{kind}/",
            "index",
            kind.capitalize(),
            catalogue,
            {"intro": INTROS[kind], "groups": _groups(catalogue, kind)},
        )
    yield from _retired(catalogue)


def _methods(catalogue: Catalogue, rows: list[Row]) -> dict[str, Any]:
    """The rules with a connection each, where this catalogue has it, and the numbers that stand in tables."""
    examples = [
        {"from": start, "through": through, "into": target}
        for start, *through, target in (rule.met_by or ("", "") for rule in rules())
    ]
    known = [
        one
        if {one["from"], one["into"]} <= catalogue.ports.keys()
        and set(one["through"]) <= catalogue.leads.keys()
        else None
        for one in examples
    ]
    return {
        "rulebook": rules(),
        "examples": known,
        "constants": _constants(),
        "judged": len(rows),
        "decides": Counter(name for row in rows for name in row["findings"]),
    }


def _constants() -> dict[str, list[Constant]]:
    """What of an answer hangs on them -> the numbers the engine and the catalogue bring themselves."""
    found: dict[str, list[Constant]] = {}
    for row in (*engine_constants.TABLE.values(), *catalogue_constants.TABLE.values()):
        found.setdefault(row.group, []).append(row)
    return found


def _true_size(catalogue: Catalogue) -> dict[str, list[dict[str, str]]]:
    """What one may hold against the sheet, by family: every half, on a cable where it comes so."""
    families: dict[str, list[dict[str, str]]] = {}
    for connector in sorted(catalogue.connectors.values(), key=lambda one: one.name):
        for half in connector.outside.body:
            families.setdefault(looks.family(connector), []).append(
                {
                    "connector": connector.id,
                    "name": connector.name,
                    "half": half,
                    "mount": sides.mounts(connector, half)[0],
                }
            )
    return families


def _tallies(rows: list[Row]) -> dict[str, dict[str, int]]:
    by_outlet: dict[str, list[Row]] = {}
    for row in rows:
        by_outlet.setdefault(row["from"], []).append(row)
    return {outlet: tally(by_outlet[outlet]) for outlet in sorted(by_outlet)}


def _groups(catalogue: Catalogue, kind: str) -> dict[str, list[dict[str, str]]]:
    """The entries of an index page under headings a person looks for."""
    heading, more = _LISTINGS[kind]
    groups: dict[str, list[dict[str, str]]] = {}
    for record in getattr(catalogue, kind).values():
        entry = {
            "path": f"{kind}/{record.id}/",
            "name": record.name,
            "more": more(catalogue, record),
            "pictured": _pictured(catalogue, kind, record),
        }
        groups.setdefault(heading(catalogue, record), []).append(entry)
    return {group: sorted(groups[group], key=lambda entry: entry["name"]) for group in sorted(groups)}


def _pictured(catalogue: Catalogue, kind: str, record: Any) -> list[tuple[str, str]]:
    """The side views beside a record's name: connector and half of each, each pair once."""
    if kind == "connectors":
        return [(record.id, half) for half in record.halves]
    if kind == "leads":
        return list(dict.fromkeys((end.connector, end.half) for end in record.ends.values()))
    if kind == "ports":
        return [(record.connector, record.half)]
    return [(record.connector, half) for half in list(catalogue.connectors[record.connector].halves)[:1]]


def _ends(catalogue: Catalogue, lead: Any) -> str:
    return " to ".join(
        f"{catalogue.connectors[end.connector].name}, {end.half}" for end in lead.ends.values()
    )


def _port(catalogue: Catalogue, port: Any) -> str:
    return f"{direction(port)} · {catalogue.connectors[port.connector].name}, {port.half}"


Listing = tuple[Callable[[Catalogue, Any], str], Callable[[Catalogue, Any], str]]

_LISTINGS: dict[str, Listing] = {  # kind -> (heading of the group, small line under the name)
    "connectors": (
        lambda catalogue, connector: connector.shape.capitalize(),
        lambda catalogue, connector: connector.recognise,
    ),
    "assignments": (
        lambda catalogue, one: catalogue.connectors[one.connector].name,
        lambda catalogue, one: one.used_for,
    ),
    "ports": (lambda catalogue, port: port.device[:1].upper() + port.device[1:], _port),
    "leads": (lambda catalogue, lead: f"{lead.form.capitalize()}s", _ends),
}


def _retired(catalogue: Catalogue) -> Iterator[Page]:
    """A stub wherever a retired id used to answer: in the folders its successors live in."""
    for old, successors in catalogue.retired.items():
        for kind in KINDS:
            records = getattr(catalogue, kind)
            living = [
                {"path": f"{kind}/{new}/", "name": records[new].name} for new in successors if new in records
            ]
            if living:
                yield Page(f"{kind}/{old}/", "redirect", old, catalogue, {"successors": living})
