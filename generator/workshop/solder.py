"""What goes on which contact: the solder table of each end, the parts inside, and
which of them must match."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any

from generator.catalogue.light import fibres
from generator.catalogue.records import Catalogue, Join, Lead, Part
from generator.engine.words import quantity

from .attenuation import balance_kept
from .tables import table

KINDS = {
    "resistor": "resistor",
    "capacitor": "capacitor",
    "inductor": "winding",
    "clamp": "regulator diode",
    "emf": "supply",
    "sink": "draw of its own",
}
UNITS = {"resistor": "ohm", "capacitor": "F", "inductor": "H", "clamp": "V", "emf": "V", "sink": "A"}
POLAR = 1e-6  # F
PER_CENT = 0.01


def tables(catalogue: Catalogue, lead: Lead) -> list[dict[str, Any]]:
    """A table for each end: its connector and, contact by contact, the conductor or parts and where they
    lead."""
    light = fibres(lead, catalogue.connectors)
    return [
        {
            "end": end.id,
            "label": end.label,
            "connector": end.connector,
            "half": end.half,
            "contacts": [
                {"contact": contact, "solder": _soldered(lead, f"{end.id}.{contact}", light) or ["nothing"]}
                for contact in catalogue.connectors[end.connector].contacts
            ],
        }
        for end in lead.ends.values()
    ]


def _soldered(lead: Lead, node: str, light: Collection[Join]) -> list[str]:
    """What is soldered to a contact, in words."""
    found = []
    for join in lead.joins:
        if node in join.nodes:
            others = [other for other in join.nodes if other != node and "." in other]
            wire = "fibre" if join in light else "core" if lead.cable else "wire"
            kind = "screen" if join.screen else f"{wire} {join.id}"
            found.append(
                f"{kind}, to {', '.join(others)}"
                if others
                else f"{kind}, cut off at the far end"
                if lead.cable
                else kind
            )
    for part in made(lead):
        if node in (part.a, part.b):
            other = part.b if part.a == node else part.a
            found.append(f"{KINDS[part.kind]} {part.id}, to {other}")
    return found


def made(lead: Lead) -> list[Part]:
    """The parts that are components."""
    return [part for part in lead.network.parts if part.id in lead.parts]


def components(lead: Lead) -> list[dict[str, Any]]:
    """Every part one has to buy, with its rating and which way round it goes."""
    return [_component(lead, part) for part in made(lead) if not (part.kind == "resistor" and part.coil)]


def _component(lead: Lead, part: Part) -> dict[str, Any]:
    rated = {
        limit.quantity: limit.settled
        for limit in lead.network.limits
        if limit.part == part.id and limit.settled
    }
    words = [quantity(part.value.nominal, UNITS[part.kind])]
    if part.kind == "resistor":
        row = table("making")["resistor"]
        words.append(f"{row['says']}, {quantity(rated.get('watts') or float(row['watts'].split()[0]), 'W')}")
    if part.kind == "capacitor":
        words.append(
            f"{rated['volts']:g} V"
            if "volts" in rated
            else "rating not given: ask for 63 V where phantom may reach it"
        )
        if part.value.nominal >= POLAR:
            words.append(f"+ to {part.a}")
    if part.kind == "inductor":
        words.append("of a transformer: order the whole transformer by its ratio, resistance and inductance")
    return {
        "id": part.id,
        "kind": KINDS[part.kind],
        "between": [part.a, part.b],
        "value": part.value.nominal,
        "says": ", ".join(words),
    }


def matching(lead: Lead) -> Iterator[str]:
    """Pairs of resistors that stand in both legs: what 1 % costs."""
    legs = {part.id: part for part in made(lead) if part.kind == "resistor" and not part.coil}
    for name, part in legs.items():
        other = legs.get(name.replace("hot", "cold")) if "hot" in name else None
        if (
            other
            and other.value.nominal == part.value.nominal
            and not any(node.endswith((".1", ".sleeve")) for node in (part.a, part.b))
        ):
            kept = balance_kept(part.value.nominal, PER_CENT)
            yield (
                f"{name} and {other.id} from one reel: 1 % off in opposite directions leaves {kept:.0f} dB "
                "of hum rejection (10 kΩ to ground)."
            )
