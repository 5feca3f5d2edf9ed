"""What the search looks through: every record, guide and word with all names people have for it, and the
words that mean the same.

One list for every search of the site, read by assets/js/seek/. It is asked for with the first touch of a
field, so it may be some tens of kilobytes.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from generator.catalogue.records import Catalogue
from generator.drawing import roles
from generator.site.guides import GUIDES, read

DAILY, OFTEN = 40, 12  # ports and lead ends that have a connector: from there on one meets it daily, or often
TOOLS = {  # address -> title, other names: the pages that are neither records nor guides
    "check/": ("Check a connection", "which lead, does it work, is it safe"),
    "recognise/": ("What is this plug?", "identify connector, recognise plug, unknown plug, what connector"),
    "adapter/": ("I am looking at an adapter", "buy adapter, shop, unknown adapter, mystery adapter"),
    "bench/": ("Bench: a lead of your own", "mystery cable, custom lead, meter readings, wire it"),
    "bag/": ("My kit", "bag, packing list, what I carry"),
    "cards/": ("Cards to print", "print, wallet cards, cheat sheet"),
    "workshop/": ("Test a lead", "cable tester, continuity, broken cable, repair, solder"),
    "workshop/pads/": ("Pads and blockers", "attenuator calculator, resistor pad, dc blocker"),
    "workshop/trace/": ("Find a fault in a run", "fault finding, broken run, no sound"),
    "run/": ("Hum and radio on a run", "hum calculator, interference, buzz"),
    "matrix/": ("Every output against every input", "matrix, all pairs"),
    "plugs/": ("Plugs at true size", "size chart, true size"),
    "sources/": ("Sources", "bibliography"),
    "connectors/": ("All plugs and sockets", "connector list"),
    "ports/": ("All devices", "device list"),
    "leads/": ("All leads and adapters", "cable list"),
    "methods/": ("How it works", "method"),
}


def files(catalogue: Catalogue, source: Path, terms: Mapping[str, Mapping]) -> dict[str, Any]:
    """{same: {word: what people say for it}, found: [[address, title, other names, words, how often met,
    contacts in a line, device]]}."""
    return {
        "same": read(source / "guides" / "same_words.yaml"),
        "found": [list(entry) for entry in _entries(catalogue, source, terms)],
    }


def _entries(catalogue: Catalogue, source: Path, terms: Mapping[str, Mapping]) -> Iterator[tuple]:
    called = {id: " ".join((one.name, *one.also_called)) for id, one in catalogue.connectors.items()}
    used = Counter(port.connector for port in catalogue.ports.values()) + Counter(
        end.connector for lead in catalogue.leads.values() for end in lead.ends.values()
    )
    for connector in catalogue.connectors.values():
        met = "daily" if used[connector.id] >= DAILY else "often" if used[connector.id] >= OFTEN else ""
        yield (
            f"connectors/{connector.id}/",
            connector.name,
            list(connector.also_called),
            f"pinout connector {' '.join(connector.halves)}",
            met,
            _contacts(catalogue, connector),
            "",
        )
    for one in catalogue.assignments.values():
        yield (
            f"assignments/{one.id}/",
            one.name,
            list(one.also_called),
            f"pinout {called[one.connector]} {one.used_for}",
            "",
            "",
            "",
        )
    for port in catalogue.ports.values():
        yield (
            f"ports/{port.id}/",
            port.name,
            list(port.also_called),
            f"{port.device} {called[port.connector]} {port.half} {_ways(port)}",
            port.met,
            "",
            port.device,
        )
    for lead in catalogue.leads.values():
        ends = " ".join(f"{called[end.connector]} {end.half} {end.label}" for end in lead.ends.values())
        yield (
            f"leads/{lead.id}/",
            lead.name,
            list(lead.also_called),
            f"{lead.form} lead {ends}",
            lead.met,
            "",
            "",
        )
    for name, (title, about) in GUIDES.items():
        yield f"guides/{name}/", title, [about], _words(source / "guides" / f"{name}.md.j2"), "", "", ""
    for id, term in terms.items():
        yield (
            f"guides/glossary/#{id}",
            term.get("term", id.replace("-", " ")),
            [],
            " ".join(str(value) for value in term.values()),
            "",
            "",
            "",
        )
    for address, (title, also) in TOOLS.items():
        yield address, title, also.split(", "), "", "", "", ""


def _ways(port: Any) -> str:
    return " ".join(["output"] * bool(port.sources) + ["input"] * bool(port.listeners))


def _contacts(catalogue: Catalogue, connector: Any) -> str:
    """The first assignment one means where nothing is said, in a line: `1 screen, 2 hot, 3 cold`."""
    if not connector.outside.usual:
        return ""
    carries = catalogue.assignments[connector.outside.usual[0]].carries
    return ", ".join(f"{contact} {roles.words(carries.get(contact))}" for contact in connector.contacts)


def _words(page: Path) -> str:
    """The different words of a guide, without its markup."""
    text = re.sub(r"{%.*?%}|{#.*?#}|{{.*?}}|<[^>]+>", " ", page.read_text(encoding="utf-8"), flags=re.DOTALL)
    return " ".join(_different(re.findall(r"[A-Za-z][A-Za-z-]{2,}", text)))


def _different(words: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(word.lower() for word in words))
