"""What people call the nets and parts of a connection."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from generator.catalogue.records import Lead, Part, Port

from .assemble import CAPACITANCE, EARTHS, RESISTANCE
from .instants import CONTACT
from .readings import part_name, short
from .switches import SIDES

Places = Mapping[str, Port | Lead]
BETWEEN_CHASSIS = {
    EARTHS: "difference between the chassis",
    RESISTANCE: "earth wiring",
    CAPACITANCE: "leakage from the mains",
}
WORD = {
    "from": "outlet",
    "from2": "second outlet",
    "into": "inlet",
    "into2": "second inlet",
    "extra1": "spare end",
    "extra2": "second spare end",
}
NOUN = {
    "resistor": "resistor",
    "capacitor": "capacitor",
    "inductor": "winding",
    "sink": "current draw",
    "clamp": "clamp",
}
KNOWN = (
    "resistor",
    "capacitor",
    "capacitance",
    "conductor",
    "winding",
    "coil",
    "ribbon",
    "source",
    "clamp",
    "phantom",
    "power",
    "capsule",
)


def owner(places: Places, place: str) -> str:
    """`Mixer line output`; with its side where two places share a name."""
    name = short(places[place])
    alike = [other for other in places if other != place and short(places[other]) == name]
    return f"{name} {SIDES.get(place, place)}" if alike else name


def contact_name(places: Places, node: str) -> str:
    """A node in full: `Mixer line output 2 (hot)`, `rail inside Mixer line output`."""
    place, _, inner = node.partition("/")
    record = places[place]
    if inner == "chassis":
        return f"chassis of {owner(places, place)}"
    if isinstance(record, Lead):
        end, _, contact = inner.partition(".")
        return (
            f"{record.ends[end].label} {contact}"
            if end in record.ends and contact
            else f"{_inner(inner)} inside {owner(places, place)}"
        )
    contacts = [contact for contact, role in record.contacts.items() if role == inner]
    if contacts:
        return f"{owner(places, place)} {' and '.join(contacts)} ({inner})"
    if inner.startswith("open."):
        return f"{owner(places, place)} {inner.removeprefix('open.')} (nothing known)"
    return f"{_inner(inner)} inside {owner(places, place)}"


def _inner(node: str) -> str:
    return node.removeprefix("main.").replace("-", " ").replace(".", " ")


def net_labels(places: Places, nets: Mapping[int, Sequence[str]]) -> dict[int, str]:
    """A short name for each net, no two alike: what the ports call it, else what it is inside."""
    found = {net: _label(places, nodes) for net, nodes in nets.items()}
    for label in [label for label in found.values() if list(found.values()).count(label) > 1]:
        for net in [net for net, other in found.items() if other == label]:
            sides = [WORD.get(node.split("/")[0], "lead") for node in nets[net]]
            found[net] = f"{label}, {sides[0]}" if sides else label
    seen: dict[str, int] = {}
    for net, label in found.items():
        seen[label] = seen.get(label, 0) + 1
        if seen[label] > 1:
            found[net] = f"{label} {seen[label]}"
    return found


def _label(places: Places, nodes: Iterable[str]) -> str:
    nodes = list(nodes)
    if any(node.endswith("/chassis") for node in nodes):
        names = ["chassis"]
        names += [role for role in _roles(places, nodes) if role not in ("screen", "common", "return")]
        return " = ".join(names)
    roles = _roles(places, nodes)
    if roles:
        return " = ".join(roles)
    inner = [node for node in nodes if not isinstance(places[node.split("/")[0]], Lead)] or nodes
    if not inner:
        return "contact"
    place, _, name = inner[0].partition("/")
    if isinstance(places[place], Lead):
        end, _, contact = name.partition(".")
        return contact_name(places, inner[0]) if end in places[place].ends and contact else _inner(name)
    return f"no role {name.removeprefix('open.')}" if name.startswith("open.") else _inner(name)


def _roles(places: Places, nodes: Iterable[str]) -> list[str]:
    """What the contacts of the ports carry, each role once."""
    pairs = [node.split("/", 1) for node in nodes]
    return list(
        dict.fromkeys(
            name
            for place, name in pairs
            if isinstance(places[place], Port) and name in places[place].contacts.values()
        )
    )


def element_name(places: Places, part: Part | None, id: str, listening: str) -> str:
    """A part in words: `input capacitor of the hot leg`, `phantom 48 V`, `feed hot`. `listening` is
    what the meter is called."""
    if id == "meter":
        return listening
    if id in BETWEEN_CHASSIS:
        return BETWEEN_CHASSIS[id]
    if part is None:
        return "contact"
    place, inner = id.removesuffix(CONTACT).split("/", 1)
    record = places[place]
    if id.endswith(CONTACT):
        return "closing contact"
    named = part_name(record, inner)
    if named and id not in conductors(places):
        return named
    if part.supply:
        return next(supply.name for supply in record.supplies if supply.id == part.supply)
    if isinstance(record, Lead) and inner not in record.parts:
        return (
            "cable capacitance"
            if part.kind == "capacitor"
            else f"conductor {_inner(inner.removeprefix('cable.').split('.')[0])}"
        )
    if part.coil:
        return part.coil
    driving = [source for source in getattr(record, "sources", ()) if inner in source.drive]
    if driving and part.kind == "emf":
        return "signal source" if len(record.sources) == 1 else f"signal source {driving[0].channel}"
    return _inner(inner)


def in_words(name: str, kind: str) -> str:
    """A part's name in a sentence: `feed hot resistor`; a name that says what it is stays."""
    return f"{name} {NOUN[kind]}" if kind in NOUN and not any(noun in name for noun in KNOWN) else name


def conductors(places: Places) -> frozenset[str]:
    """Ids of the parts that are wire of a lead and nothing else."""
    return frozenset(
        f"{place}/{part.id}"
        for place, record in places.items()
        if isinstance(record, Lead)
        for part in record.network.parts
        if part.kind == "resistor" and part.id not in record.parts
    )
