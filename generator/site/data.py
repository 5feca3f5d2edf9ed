"""The published data: JSON under /data/v1/ for other programs, and the same as classic
scripts for our own pages.

A page opened from a file may not fetch, so scripts carry everything the check and the matrix need. What a
page needs before the first tap is packed (columns.py); what verdicts are worked out from, the table of
verdicts, other names of records and what only cards print are scripts of their own.
"""

from __future__ import annotations

import json
from collections.abc import Hashable, Mapping
from typing import Any

from generator.ledger.rows import Row
from generator.site.columns import packed
from generator.site.verdicts import ORDER

VERSION = 1
PRINTED = {  # what no verdict and no list is made of
    "connectors": {"recognise", "looks", "outside", "evidence"},
    "assignments": {"name", "carries", "used_for", "mistaken_for", "recognise", "evidence"},
    "ports": {"circuits", "evidence"},
    "leads": {"looks_like", "tell_apart", "evidence"},
    "sources": {"where", "kind"},
}
SOLVED = {  # what verdicts are worked out from, and nothing else is
    "connectors": {"light"},
    "ports": {"contacts", "network", "supplies", "needs", "earthed", "follows", "cautions"},
    "leads": {"cable", "made_for", "network", "joins", "parts", "cautions"},
}
# for lists that are searched without the search's own scripts
CALLED = {kind: {"also_called"} for kind in ("connectors", "ports", "leads")} | {
    "assignments": {"name", "also_called"}
}
ASKED = {"asks", "same_as"}  # fields of ports that go there too, or nowhere
LATER = ("questions", "converters", "feeding")  # kinds in scripts that come later: asks.js, circuits.js
PUBLISHED = ("from", "through", "into", "verdict", "offered", "offer", "findings", "number")


def files(
    catalogue: Mapping[str, Any],
    tables: Mapping[str, Any],
    mated: Mapping[str, Any],
    plugs: Any,
    rows: list[Row],
    sides: Mapping[str, Any] = {},
) -> dict[str, bytes]:
    """The data files of the docs tree: path -> content. `catalogue`, `tables` (what the engine
    judges by, by name) and `plugs` (what one sees of each connector) are JSON-ready; `sides` has the
    size of every side view."""
    asked = {
        "questions": catalogue["questions"],
        "asks": {name: port["asks"] for name, port in catalogue["ports"].items() if port["asks"]},
        "classes": _classes(catalogue),
    }
    solved, printed = _only(catalogue, SOLVED), _only(catalogue, PRINTED)
    first = _without(catalogue, SOLVED, PRINTED, CALLED)
    titles = first.pop("sources", {})
    cited = _cited([first, solved, tables])
    solved["sources"] = {name: title for name, title in titles.items() if name in cited}
    # no finding names it, so no page needs its title before something is printed
    for name in titles.keys() - cited:
        printed["sources"][name] |= titles[name]
    verdicts = [{key: row[key] for key in PUBLISHED} for row in rows]
    return {
        f"data/v{VERSION}/catalogue.json": _json({"version": VERSION, **catalogue}),
        f"data/v{VERSION}/verdicts.json": _json({"version": VERSION, "verdicts": verdicts}),
        "assets/js/data.js": _packed("data", first) + script({"mated": mated, "sides": sides}),
        "assets/js/circuits.js": _packed("circuits", solved)
        + script({**tables, "converters": converters(catalogue), "feeding": feeding(catalogue)})
        + b"Ringfence.columns.complete(Ringfence.data, Ringfence.circuits);\n",
        "assets/js/printed.js": _packed("printed", printed)
        + b"Ringfence.columns.complete(Ringfence.data, Ringfence.printed);\n",
        "assets/js/called.js": _packed("called", _only(catalogue, CALLED))
        + b"Ringfence.columns.complete(Ringfence.data, Ringfence.called);\n",
        "assets/js/asks.js": _packed("manual", asked),
        "assets/js/table.js": _parsed("table", table(rows)),
        "assets/js/plugs.js": script({"plugs": plugs, "sides": sides}),
    }


def _classes(catalogue: Mapping[str, Any]) -> dict[str, str]:
    """What a port of somebody's own file is but for its numbers: id -> id. None where it has another plug."""
    ports = catalogue["ports"]
    based = {name: ports[name]["same_as"] for name in catalogue.get("local", ()) if name in ports}
    return {
        name: base
        for name, base in based.items()
        if base and all(ports[name][key] == ports[base][key] for key in ("connector", "half"))
    }


def converters(catalogue: Mapping[str, Any]) -> list[dict[str, Any]]:
    """In their order, which counts; of how each is known the grade is told."""
    return [
        {**converter, "evidence": converter["evidence"]["grade"]}
        for converter in catalogue.get("converters", {}).values()
    ]


def feeding(catalogue: Mapping[str, Any]) -> dict[str, Any]:
    """Of each outlet that is fed in a way of its own: through which leads, into which inputs."""
    return {
        outlet: {"through": way["through"], "into": way["into"]}
        for way in catalogue.get("feeding", {}).values()
        for outlet in way["outlets"]
    }


def _only(catalogue: Mapping[str, Any], chosen: Mapping[str, set[str]]) -> dict[str, Any]:
    """Of the kinds named the fields named, record by record."""
    return {
        kind: {
            record: {name: value for name, value in fields.items() if name in chosen[kind]}
            for record, fields in records.items()
        }
        for kind, records in catalogue.items()
        if kind in chosen
    }


def _without(catalogue: Mapping[str, Any], *others: Mapping[str, set[str]]) -> dict[str, Any]:
    """What is left of the catalogue: its records without those fields."""
    gone = {
        kind: ASKED.union(*(fields.get(kind, ()) for fields in others))
        for kind in {kind for fields in others for kind in fields}
    }
    return {
        kind: {
            record: {name: value for name, value in fields.items() if name not in gone[kind]}
            for record, fields in records.items()
        }
        if kind in gone
        else records
        for kind, records in catalogue.items()
        if kind not in LATER
    }


def _cited(part: Any) -> set[str]:
    """Every source that a part of the data cites."""
    if isinstance(part, Mapping):
        return set(part.get("cite", ())).union(*map(_cited, part.values()))
    return set().union(*map(_cited, part)) if isinstance(part, (list, tuple)) else set()


def table(rows: list[Row]) -> dict[str, Any]:
    """The rows in as few numbers as say them, for a phone reads tens of thousands of
    them before it can answer.

    `ids`, `findings` and `verdicts` are what numbers stand for, and `offers` too: [what it is once
    plugged in, the order in a sentence]; `told` the different [verdict, offer or -1 for none, finding
    ...] that occur; `pairs` holds for every outlet and inlet [from, into, how many ways], all of an
    outlet together, `ways` for every way of them in turn, as `rows` has them, [lead or -1 for none,
    told]; both without inner brackets.
    """
    ids, findings, offers, told = _Numbers(), _Numbers(), _Numbers(), _Numbers()
    together: dict[tuple[int, int], list[int]] = {}
    for row in rows:
        lead = [ids[each] for each in row["through"]] or [-1]  # the table has no chains of several leads
        offer = offers[ORDER.index(row["offered"]), row["offer"]] if row["offered"] else -1
        says = told[ORDER.index(row["verdict"]), offer, *(findings[name] for name in row["findings"])]
        together.setdefault((ids[row["from"]], ids[row["into"]]), []).extend((*lead, says))
    pairs = sorted(together.items())
    return {
        "ids": list(ids),
        "findings": list(findings),
        "verdicts": list(ORDER),
        "offers": list(offers),
        "told": list(told),
        "pairs": [number for pair, ways in pairs for number in (*pair, len(ways) // 2)],
        "ways": [number for _, ways in pairs for number in ways],
    }


class _Numbers(dict):
    """Gives every new key the next number."""

    def __missing__(self, key: Hashable) -> int:
        return self.setdefault(key, len(self))


def _json(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode() + b"\n"


def _packed(name: str, values: Mapping[str, Any]) -> bytes:
    return (
        b"Ringfence."
        + name.encode()
        + b" = Ringfence.columns.unpacked("
        + _literal({key: packed(value) for key, value in values.items()})
        + b");\n"
    )


def script(values: Mapping[str, Any]) -> bytes:
    """A script that puts values on `Ringfence`, by name."""
    lines = [b'"use strict";\nwindow.Ringfence = window.Ringfence || {};\n']
    return b"".join(
        [
            *lines,
            *(
                b"Ringfence." + name.encode() + b" = " + _literal(value) + b";\n"
                for name, value in values.items()
            ),
        ]
    )


def _parsed(name: str, value: Any) -> bytes:
    """A large value as text for JSON.parse, which browsers read in half the time of a literal."""
    return (
        b'"use strict";\nwindow.Ringfence = window.Ringfence || {};\nRingfence.'
        + name.encode()
        + b" = JSON.parse("
        + _literal(_json(value).decode().strip())
        + b");\n"
    )


def _literal(value: Any) -> bytes:
    """`</` is broken up so that no text of ours could end a script element, wherever the file is pasted."""
    return _json(value).strip().replace(b"</", b"<\\/")
