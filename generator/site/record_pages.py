"""What the page of each record shows beside the record itself: its drawings, relatives
and judged connections."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from generator.catalogue.light import only_light
from generator.catalogue.records import Assignment, Catalogue, Connector, Lead, Port
from generator.ledger.rows import Row
from generator.site import looks, mated, pinouts
from generator.site.bundles import scripts_of
from generator.site.page import Page
from generator.site.verdicts import grouped, rank, tally

Drawings = Callable[[str, str], list[dict[str, str]]]  # (kind, id) -> [{svg, caption}]

EARTHED = {
    "yes": "Its metalwork is tied to mains earth.",
    "no": "Its metalwork is not tied to earth by anything else.",
    "maybe": "Its metalwork may reach mains earth by another cable or its supply; both cases are judged.",
}


def pages(catalogue: Catalogue, rows: Iterable[Row], drawings: Drawings) -> Iterator[Page]:
    """A page for every record of the catalogue."""
    rows = list(rows)
    outgoing, incoming = grouped(rows, "from"), grouped(rows, "into")
    carried: dict[str, list[Row]] = {}
    for row in rows:
        for lead in row["through"]:
            carried.setdefault(lead, []).append(row)
    mates = mated.table(catalogue)

    def page(kind: str, template: str, record: Any, **show: Any) -> Page:
        show.update(record=record, drawings=drawings(kind, record.id))
        return Page(f"{kind}/{record.id}/", template, record.name, catalogue, show)

    for connector in catalogue.connectors.values():
        yield page("connectors", "connector", connector, **_connector(catalogue, connector, mates))
    for assignment in catalogue.assignments.values():
        yield page("assignments", "assignment", assignment, **_assignment(catalogue, assignment))
    for port in catalogue.ports.values():
        yield page(
            "ports",
            "port",
            port,
            **_port(catalogue, port, outgoing.get(port.id, []), incoming.get(port.id, [])),
        )
    for lead in catalogue.leads.values():
        yield page("leads", "lead", lead, **_lead(catalogue, lead, carried.get(lead.id, [])))


def direction(port: Port) -> str:
    """What a port is to a person with a plug in hand."""
    return {(True, False): "Outlet", (False, True): "Inlet", (True, True): "Outlet and inlet"}.get(
        (bool(port.sources), bool(port.listeners)), "Port"
    )


def _connector(catalogue: Catalogue, connector: Connector, mates: dict) -> dict[str, Any]:
    def others(half: str) -> list[dict[str, Any]]:
        found = mates[mated.name(connector.id, half)]
        return [
            {
                "connector": catalogue.connectors[other.split("/")[0]],
                "half": other.split("/")[1],
                "unsure": len(ways) > 1,
            }
            for other, ways in found.items()
        ]

    return {
        "pinout": pinouts.shown(catalogue, connector),
        "scripts": scripts_of("pinout"),
        "looks": looks.said(connector),
        "labels": looks.LABELS,
        "alike": looks.alike(catalogue, connector),
        "mates": {half: others(half) for half in connector.halves},
        "ports": [p for p in catalogue.ports.values() if p.connector == connector.id],
        "leads": [
            lead
            for lead in catalogue.leads.values()
            if connector.id in {end.connector for end in lead.ends.values()}
        ],
    }


def _assignment(catalogue: Catalogue, assignment: Assignment) -> dict[str, Any]:
    connector = catalogue.connectors[assignment.connector]
    return {
        "connector": connector,
        "pinout": pinouts.shown(catalogue, connector, assignment.id),
        "scripts": scripts_of("pinout"),
        "siblings": [
            a
            for a in catalogue.assignments.values()
            if a.connector == assignment.connector and a is not assignment
        ],
        "ports": [p for p in catalogue.ports.values() if p.assignment == assignment.id],
    }


def _port(catalogue: Catalogue, port: Port, outgoing: list[Row], incoming: list[Row]) -> dict[str, Any]:
    return {
        "role": direction(port),
        "earthed": EARTHED[port.earthed],
        "connector": catalogue.connectors[port.connector],
        "assignment": catalogue.assignments[port.assignment],
        "outgoing": best_first(grouped(outgoing, "into")),
        "outgoing_tally": tally(outgoing),
        "incoming": best_first(grouped(incoming, "from")),
        "incoming_tally": tally(incoming),
        "siblings": [
            p
            for p in catalogue.ports.values()
            if (p.connector, p.half) == (port.connector, port.half) and p is not port
        ],
    }


def _lead(catalogue: Catalogue, lead: Lead, carried: list[Row]) -> dict[str, Any]:
    def shape(one: Lead) -> list[tuple[str, str]]:
        return sorted((end.connector, end.half) for end in one.ends.values())

    joins = [
        {
            "name": join.id.replace("-", " "),
            "screen": join.screen,
            "contacts": {
                end: [node.split(".", 1)[1] for node in join.nodes if node.startswith(f"{end}.")]
                for end in lead.ends
            },
        }
        for join in lead.joins
    ]
    joined = {node for join in lead.joins for node in join.nodes} | {
        node for part in lead.network.parts if part.id in lead.parts for node in (part.a, part.b)
    }
    open_contacts = [
        f"{contact} of {end.label}"
        for end in lead.ends.values()
        for contact in catalogue.connectors[end.connector].contacts
        if f"{end.id}.{contact}" not in joined
    ]
    alike = dict.fromkeys(
        [
            *lead.looks_like,
            *(o.id for o in catalogue.leads.values() if o is not lead and shape(o) == shape(lead)),
        ]
    )
    return {
        "joins": joins,
        "light": only_light(lead, catalogue.connectors),
        "open": open_contacts,
        "components": [
            (part, _place(lead, part.a), _place(lead, part.b))
            for part in lead.network.parts
            if part.id in lead.parts
        ],
        "siblings": [catalogue.leads[other] for other in alike],
        "carries": grouped(carried, "from"),
        "carried_tally": tally(carried),
    }


def _place(lead: Lead, node: str) -> str:
    """A node of a lead in words: `contact 2 of XLR male`, or a joint inside, which has no
    name a reader could find."""
    end, _, contact = node.partition(".")
    return (
        f"{contact if contact.isalpha() else f'contact {contact}'} of {lead.ends[end].label}"
        if end in lead.ends and contact
        else "a joint inside"
    )


def best_first(groups: dict[str, list[Row]]) -> dict[str, list[Row]]:
    """Partners in the order of their best way."""
    return dict(sorted(groups.items(), key=lambda item: (rank(item[1][0]), item[0])))
