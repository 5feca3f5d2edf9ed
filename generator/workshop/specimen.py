"""A lead on the bench: unplugged at every end, batteries out, a soldered joint at every contact, so that
faults have a place.

A terminal is `end.contact`, or `end.body` where a plug has a metal shell of its own. What was joined to a
contact is joined to its solder joint, the node `solder-end-contact`; between the two lies the part
`joint.end.contact`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from generator.catalogue.light import lit_nodes
from generator.catalogue.records import Catalogue, Coupling, Lead, Part

from . import capacitance

SHELL = "body"
SHELLED = {
    ("circular", "metal"),
    ("rectangular", "metal"),
}  # shape and shell of connectors whose shell is no contact
# metal shells no probe is put to alone: part of the socket's earth, or a contact of their own
ENDLESS = {"usb-c", "camera-hybrid"}


@dataclass(frozen=True)
class Specimen:
    """What is measured: `terminals` with, for each, the node its wires end at; `parts` and `couplings`
    between nodes. `made` are the ids of the parts that are components, `strays` those that are capacitance
    of the cable."""

    lead: Lead
    terminals: Mapping[str, str]
    parts: tuple[Part, ...]
    couplings: tuple[Coupling, ...]
    made: frozenset[str]
    strays: frozenset[str]

    @property
    def ends(self) -> dict[str, list[str]]:
        """End -> its terminals."""
        found: dict[str, list[str]] = {}
        for terminal in self.terminals:
            found.setdefault(end_of(terminal), []).append(terminal)
        return found

    def part(self, id: str) -> Part:
        """A part by its id."""
        return next(part for part in self.parts if part.id == id)


def end_of(terminal: str) -> str:
    """The end a terminal is at."""
    return terminal.partition(".")[0]


def contact_of(terminal: str) -> str:
    """The contact of a terminal."""
    return terminal.partition(".")[2]


def joint_of(terminal: str) -> str:
    """The id of the joint at a terminal."""
    return f"joint.{terminal}"


def on_bench(catalogue: Catalogue, lead: Lead, measured: bool = True) -> Specimen:
    """The specimen of a lead. To be measured its supplies are off, their batteries out (such an emf is left
    out), and the capacitance of its cable is put right; otherwise it is as the record has it."""
    terminals = {
        f"{end.id}.{contact}": f"solder-{end.id}-{contact}"
        for end in lead.ends.values()
        for contact in contacts(catalogue, end.connector)
    }
    lit = lit_nodes({end.id: catalogue.connectors[end.connector].light for end in lead.ends.values()})
    kept = [
        part
        for part in (capacitance.parts(lead) if measured else lead.network.parts)
        if not (measured and part.kind == "emf") and not {part.a, part.b} & lit
    ]
    parts = [replace(part, a=terminals.get(part.a, part.a), b=terminals.get(part.b, part.b)) for part in kept]
    joints = [Part(joint_of(terminal), "wire", terminal, node) for terminal, node in terminals.items()]
    strays = frozenset(part.id for part in kept if capacitance.stray(lead, part))
    return Specimen(lead, terminals, (*parts, *joints), lead.network.couplings, frozenset(lead.parts), strays)


def contacts(catalogue: Catalogue, connector: str) -> list[str]:
    """The contacts of a connector a probe can be put on, which light passes none of; its metal shell last."""
    record = catalogue.connectors[connector]
    wired = [contact for contact in record.contacts if contact not in record.light]
    metal = (record.shape, record.looks.get("shell")) in SHELLED
    shelled = metal and bool(wired) and connector not in ENDLESS
    return [*wired, *([SHELL] if shelled and SHELL not in record.contacts else [])]
