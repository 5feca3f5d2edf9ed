"""The dictionary of a lead as a phone carries it: classes as numbers, one character for each reading under
each fault."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf
from typing import Any

from generator.catalogue.records import Catalogue, Lead

from .dictionary import Window, dictionary
from .faulty import faults
from .paths import WIRE
from .search import NOTHING, REPEATS
from .specimen import SHELL, contacts, on_bench
from .tables import amount, table
from .telling import grouped, place, shows

MANY = 400  # faults; more is no dictionary for a phone, and no job for two probes
FIRST = 48  # the character that stands for class 0


def carried(catalogue: Catalogue, lead: Lead, symptoms: Mapping[str, Sequence[str]]) -> dict[str, Any] | None:
    """The JSON-ready dictionary, or None for a lead with too many faults. `symptoms` are the faults that
    explain each."""
    specimen = on_bench(catalogue, lead)
    if len(faults(specimen)) > MANY:
        return None
    known = dictionary(specimen)
    groups = grouped(specimen, known.faults)
    group_of = {fault.id: number for number, (_, alike) in enumerate(groups) for fault in alike}
    mends = list(dict.fromkeys(fault.mend for fault in known.faults))
    at = {terminal: number for number, terminal in enumerate(specimen.terminals)}
    ids = [fault.id for fault in known.faults]
    return {
        "faults": [
            {"group": group_of[fault.id], "weight": fault.weight, "mend": mends.index(fault.mend)}
            for fault in known.faults
        ],
        "groups": [words for words, _ in groups],
        "mends": mends,
        "terminals": list(specimen.terminals),
        "places": [place(specimen, terminal) for terminal in specimen.terminals],
        "measurements": [[[at[t] for t in side] for side in m] for m in known.measurements],
        "classes": [_bounds(window) for window in known.classes],
        "shows": [shows(window) for window in known.classes],
        "moves": shows(Window(0.0, 0.0, True)),
        "which": "".join(chr(FIRST + int(k)) for row in known.which for k in row),
        "symptoms": [
            {
                "id": name,
                "says": table("symptoms")[name]["says"],
                "faults": [ids.index(id) for id in found if id in ids],
            }
            for name, found in symptoms.items()
        ],
        "rules": rules(),
    }


def published(catalogue: Catalogue) -> dict[str, Any]:
    """What a phone needs to make the dictionary of a lead that is in no catalogue: see assets/js/faults."""
    shelled = [
        id
        for id, connector in catalogue.connectors.items()
        if SHELL in contacts(catalogue, id) and SHELL not in connector.contacts
    ]
    joint = amount("tolerances", "joint", "ohm")
    tolerances = {
        row: [amount("tolerances", row, bound).nominal for bound in ("low", "high")]
        for row in ("conductor", "resistor", "winding")
    }
    kinds = {
        kind: {"brief": row["brief"], "mend": row["mend"], "weight": float(row["weight"])}
        for kind, row in table("faults").items()
    }
    windows = {"moves": (0.0, 0.0, True), "none": (inf, inf), "anything": (0.0, inf), "wire": (0.0, 0.0)}
    making = table("making")
    return {
        "making": {
            key: making[key] for key in ("strip", "steps", "parts", "shell", "colours", "sleeve", "cables")
        },
        "shelled": shelled,
        "light": {
            id: list(connector.light) for id, connector in catalogue.connectors.items() if connector.light
        },
        "tolerances": {**tolerances, "joint": [joint.low, joint.high]},
        "faults": kinds,
        "says": {name: shows(Window(*bounds)) for name, bounds in windows.items()},
        "rules": rules(),
        "most": MANY,
        "wire": WIRE,
    }


def _bounds(window: Window) -> list[float | int | None]:
    return [None if bound == inf else bound for bound in (window.low, window.high)] + [int(window.moves)]


def rules() -> dict[str, float]:
    """What the search reckons with, for every lead alike."""
    chance = {
        row: float(table("search")[row]["chance"])
        for row in ("wrong", "caught", "named", "enough", "against", "unheard")
    }
    return {
        **chance,
        "ohm": amount("search", "noise", "ohm").nominal,
        "share": amount("search", "noise", "share").nominal,
        "sure": amount("meters", "beeper", "sure").nominal,
        "never": amount("meters", "beeper", "never").nominal,
        "repeats": REPEATS,
        "nothing": NOTHING,
    }
