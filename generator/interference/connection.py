"""A connection of the catalogue as a run: which cable lies between, where its second wire ends, whether the
screen joins both cases. All of it is read from the circuit; length, powering and what lies beside are the
person's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from generator.catalogue.records import Catalogue, Lead, Part, Port
from generator.engine.assemble import assemble, ways
from generator.engine.assembly import Assembly

from .ports import SOUND
from .run import COLD, Device, Run
from .run import Lead as RunLead
from .tables import Tables

PAIR, COAX = "mic-pair", "coax-thin"  # what a lead without a cable of the tables is taken for
OWN = 3.0  # m; for a lead that has no length of its own
OHM, WINDING, FARAD = 20.0, 200.0, 1e-7  # the most ohm of a wire and of a winding; F that are a wire to sound
THROUGH, AT_SOURCE, AT_INPUT = COLD


class Nets(dict):
    """Node -> another of the same net, until one stands for itself."""

    def join(self, a: str, b: str) -> None:
        self[self.of(a)] = self.of(b)

    def of(self, node: str) -> str:
        while node in self and self[node] != node:
            node = self[node]
        return node

    def same(self, a: str, b: str) -> bool:
        return self.of(a) == self.of(b)


@dataclass(frozen=True)
class Channel:
    """Where sound leaves and arrives, hot first, and whether the input takes a difference."""

    out: tuple[str, str]
    into: tuple[str, str]
    balanced: bool


def run_of(
    catalogue: Catalogue, tables: Tables, start: Port, leads: Sequence[Lead], target: Port
) -> Run | None:
    """The run between two ports, each powered as usual. None where nothing lies between, or where sound does
    not pass on wires or through a transformer alone.
    """
    way = next((way for way in ways(catalogue, start, leads, target) if not way.plugged), None)
    if not leads or way is None:
        return None
    made = assemble(catalogue, start, leads, target, way, travel=False)
    wired, wound = _nets(made, _is_wire), _nets(made, _is_winding, leads)
    channel = next((one for nets in (wired, wound) for one in _channels(start, target, nets)), None)
    if channel is None:
        return None
    galvanic = wired.same(channel.out[0], channel.into[0])
    case = "into/chassis"
    closed = not _cases(start, target) or wired.same("from/chassis", case)
    cold = _cold(channel, wired, _nets(made, _is_bare)) if galvanic else THROUGH
    pair = channel.balanced and (not galvanic or not wired.same(channel.into[1], case) or cold == AT_SOURCE)
    lead = RunLead(
        _cable(leads, tables, pair),
        sum(lead.length or 0.0 for lead in leads) or OWN,
        "whole" if closed else "open at one end",
        cold,
    )
    return Run(
        Device(start.id, tables.sources[start.id]["powered"]),
        Device(target.id, tables.inputs[target.id]["powered"]),
        (lead,),
        transformer=not galvanic and (channel.balanced or not closed),
        ferrite=sum(row["ohm"] for row in tables.chokes.values() if _has(row, leads)),
    )


def _channels(start: Port, target: Port, nets: Nets) -> Iterator[Channel]:
    """Every channel of sound that passes in these nets, in the order of the ports."""
    for one in start.sources:
        for other in target.listeners:
            out = tuple(f"from/{node}" for node in one.output)
            into = tuple(f"into/{node}" for node in other.between)
            if one.kind in SOUND and other.kind in SOUND:
                for heard in (into, into[::-1]):  # the other way round where the lead reverses
                    if nets.same(out[0], heard[0]):
                        yield Channel(out, heard, other.balanced)


def _cold(channel: Channel, wired: Nets, bare: Nets) -> str:
    """Where the second wire ends. Where it meets the case without a conductor of its own, that is at the
    input; an input that hears its second wire from nowhere is no better.
    """
    cold, case = channel.into[1], "into/chassis"
    if not channel.balanced or bare.same(cold, case) or not wired.same(cold, channel.out[1]):
        return AT_INPUT
    return AT_SOURCE if wired.same(cold, case) else THROUGH


def _cable(leads: Sequence[Lead], tables: Tables, pair: bool) -> str:
    """The cable of the longest lead, where it has as many wires as the circuit says; else a usual one."""
    known = {row["catalogue"]: id for id, row in tables.cables.items() if "catalogue" in row}
    longest = max(leads, key=lambda lead: lead.length or 0.0)
    cable = known.get(longest.cable)
    built = cable and tables.cables[cable]["build"] in ("pair", "quad", "open pair")
    return cable if cable and bool(built) == pair else PAIR if pair else COAX


def _has(choke: Mapping[str, Any], leads: Sequence[Lead]) -> bool:
    return any(lead.id == choke.get("catalogue") for lead in leads)


def _cases(*ports: Port) -> bool:
    """Has every device metalwork?"""
    return all(any("chassis" in (part.a, part.b) for part in port.network.parts) for port in ports)


def _nets(made: Assembly, joins: Callable[[Part, bool], bool], wound: Sequence[Lead] = ()) -> Nets:
    """The nets of everything plugged in; `wound` leads pass sound from winding to winding as well."""
    nets = Nets()
    for (k, (a, b)), shut in zip(made.touches, made.home[0]):
        if shut:
            nets.join(made.interfaces[k].nodes[0][a], made.interfaces[k].nodes[1][b])
    for place, record in made.places.items():
        for part in record.network.parts:
            if joins(part, isinstance(record, Lead)):
                nets.join(f"{place}/{part.a}", f"{place}/{part.b}")
        if any(record is lead for lead in wound):
            coils = {part.id: part for part in record.network.parts if part.kind == "inductor"}
            for one in record.network.couplings:
                first, second = coils[one.first], coils[one.second]
                nets.join(f"{place}/{first.a}", f"{place}/{second.a}")
                nets.join(f"{place}/{first.b}", f"{place}/{second.b}")
    return nets


def _is_bare(part: Part, in_lead: bool) -> bool:
    """As a wire, but no conductor of a lead: what meets here meets inside a plug or a device."""
    return part.kind == "wire" or (not in_lead and _is_wire(part, in_lead))


def _is_wire(part: Part, in_lead: bool) -> bool:
    """A wire to sound: a conductor of a lead, a coupling capacitor."""
    if part.kind == "capacitor":
        return part.value.nominal >= FARAD
    return part.kind == "wire" or (in_lead and part.kind == "resistor" and part.value.nominal <= OHM)


def _is_winding(part: Part, in_lead: bool) -> bool:
    winding = in_lead and part.kind == "resistor" and part.value.nominal <= WINDING
    return winding or _is_wire(part, in_lead)
