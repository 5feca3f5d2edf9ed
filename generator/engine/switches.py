"""What a person can switch: the supplies of a connection, their settings, and what each setting and tolerance
corner makes of every part."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from generator.catalogue.records import Port, Source, Supply

from .circuit import Circuit, value_at
from .solve import OPEN

SIDES = {
    "from": "at the outlet",
    "from2": "at the second outlet",
    "into": "at the inlet",
    "into2": "at the second inlet",
    "into3": "at the third inlet",
    "into4": "at the fourth inlet",
    "extra1": "at the spare end",
    "extra2": "at the second spare end",
    "extra3": "at the third spare end",
    "extra4": "at the fourth spare end",
}
# three devices alike and more
OTHERS = {"from": "at the other outlets", "into": "at the other inlets", "extra": "at the spare ends"}
DRIVE = "drive"  # the style of a switch that turns a source on


@dataclass(frozen=True)
class Switch:
    """A supply with its places; `key` and `name` are what answers call it, with its side where two
    supplies share an id."""

    places: tuple[str, ...]
    supply: str
    key: str
    name: str
    states: tuple[str, ...]
    style: str


def supply_switches(ports: Mapping[str, Port]) -> list[Switch]:
    """Every switchable supply of the connection, in order of place. Devices alike on further ends of a lead
    are switched together: four tails would have sixteen settings, and what one of them does to the others
    stands among those of the first."""
    found: dict[tuple, tuple[list[str], Supply]] = {}
    for place, port in ports.items():
        for supply in port.supplies:
            group = (place if place in OTHERS else f"further {_side(place)}", supply.id, supply.states)
            found.setdefault(group, ([], supply))[0].append(place)
    # Further devices always name their side, so that a switch has one name whether or not they are plugged.
    ids = [supply.id for (place, *_), supply in found.values() if place in ("from", "into")]
    return [
        _switch(places, s, places[0] not in ("from", "into") or ids.count(s.id) > 1)
        for places, s in found.values()
    ]


def _side(place: str) -> str:
    return place.rstrip("123456789")


def _switch(places: Sequence[str], supply: Supply, shared: bool) -> Switch:
    words = SIDES.get(places[0], places[0]) if len(places) == 1 else OTHERS[_side(places[0])]
    side = f" {words}" if shared else ""
    return Switch(tuple(places), supply.id, supply.id + side, supply.name + side, supply.states, supply.style)


def settings(ports: Mapping[str, Port]) -> list[dict[str, str]]:
    """Every combination of supply switches, all on first."""
    switches = supply_switches(ports)
    return [dict(zip((s.key for s in switches), states)) for states in product(*(s.states for s in switches))]


def switched_on(ports: Mapping[str, Port], setting: Mapping[str, str]) -> dict[tuple[str, str], bool]:
    """For each (place, supply) whether this setting has it on."""
    return {
        (place, s.supply): setting[s.key] == s.states[0] for s in supply_switches(ports) for place in s.places
    }


def sends(on: Mapping[tuple[str, str], bool], place: str, source: Source) -> bool:
    """Is a source switched on, as far as it has a switch?"""
    return source.supply is None or on.get((place, source.supply), True)


def live_volts(circuit: Circuit, ports: Mapping[str, Port], setting: Mapping[str, str]) -> dict[str, bool]:
    """For each emf of the circuit whether this setting has it switched on."""
    on = switched_on(ports, setting)
    return {
        part.id: on.get((part.id.split("/")[0], part.supply), True)
        for part in circuit.parts
        if part.kind == "emf"
    }


def live_supplies(circuit: Circuit, live: Mapping[str, bool]) -> list[tuple[str, int]]:
    """Emfs that push direct current: their place and number."""
    return [
        (part.id.split("/")[0], i)
        for i, part in enumerate(circuit.parts)
        if part.kind == "emf" and live.get(part.id) and part.value.nominal
    ]


def corners(circuit: Circuit) -> list[str]:
    """The tolerance corners at which anything in this circuit differs from nominal. Where two devices
    have supplies, their volts may lean either way as well: the first one's high and the others' low,
    and the other way round."""
    found = ["nominal"]
    uncertain = [part for part in circuit.parts if part.value and part.value.low != part.value.high]
    if uncertain:
        found += ["strong", "weak"]
    if any(part.skew and part.match for part in circuit.parts):
        found.append("skewed")
    sides = list(dict.fromkeys(part.id.split("/")[0] for part in uncertain if part.kind == "emf"))
    if len(sides) > 1:
        found += [f"{lean} {sides[0]}" for lean in ("high", "low")]
    return found


def corner_value(part, corner: str) -> float:
    """A part's value at a corner of `corners`: leaning ones have the lowest resistances, and
    their supplies apart."""
    lean, _, place = corner.partition(" ")
    if not place:
        return value_at(part, corner)
    if part.kind != "emf":
        return value_at(part, "strong")
    return value_at(part, "strong" if (part.id.split("/")[0] == place) == (lean == "high") else "weak")


def offs(circuit: Circuit, live: Mapping[str, bool]) -> tuple[str, ...]:
    """What supplies do that are off: their rail lies at 0 V, or it is disconnected. Nobody can tell from
    outside, so the worse counts."""
    off = any(part.kind == "emf" and part.supply and not live.get(part.id, True) for part in circuit.parts)
    return ("zero", "open") if off else ("",)


def drives(circuit: Circuit, live: Mapping[str, bool]) -> list[tuple[str, str]]:
    """Corners of one setting, each with what supplies do that are off."""
    return [(corner, off) for off in offs(circuit, live) for corner in corners(circuit)]


def drive_values(circuit: Circuit, live: Mapping[str, bool], corner: str, off: str = "zero") -> np.ndarray:
    """Values of all parts at a corner, (parts,)."""
    gone = OPEN if off == "open" else 0.0
    return np.array(
        [corner_value(part, corner) if live.get(part.id, True) else gone for part in circuit.parts]
    )


def stacked(
    circuit: Circuit, ports: Mapping[str, Port], wanted: Sequence[Mapping[str, str]]
) -> tuple[np.ndarray, list[list[tuple[str, str]]]]:
    """The drives of several settings, one after the other: values (drives, parts), and for each
    setting what its drives are."""
    lives = [live_volts(circuit, ports, setting) for setting in wanted]
    each = [drives(circuit, live) for live in lives]
    return np.array(
        [drive_values(circuit, live, *drive) for live, some in zip(lives, each) for drive in some]
    ), each
