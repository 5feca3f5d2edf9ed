"""The ports of the catalogue as sources and inputs of a run: their resistances measured on their own
circuits.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import inf
from typing import Any

import numpy as np

from generator.catalogue.records import Catalogue, Port
from generator.engine.circuit import CircuitError, build, value_at
from generator.engine.solve import closed_array, solve_ac

from .tables import Tables

SOUND = ("microphone", "line", "instrument", "headphone")
HIGHEST = 50e6  # ohm; what a winding that touches nothing has to the case, and the most that is told
AT = 1000.0  # Hz; above the corner of coupling capacitors, below that of anything else
LIKE = {
    "microphone": "mic-input",
    "line": "line-input",
    "instrument": "instrument-input",
    "headphone": "line-input",
}
NOISE = {
    "microphone": "microphone-condenser",
    "line": "line-balanced",
    "instrument": "guitar",
    "headphone": "headphone-output",
}


def with_ports(tables: Tables, catalogue: Catalogue) -> Tables:
    """The tables with every port of the catalogue that sends or hears sound."""
    sources, inputs = dict(tables.sources), dict(tables.inputs)
    for port in catalogue.ports.values():
        if any(source.kind in SOUND for source in port.sources):
            sources[port.id] = _source(port, tables)
        if any(one.kind in SOUND for one in port.listeners):
            inputs[port.id] = _input(port, tables)
    return replace(tables, sources=sources, inputs=inputs)


def _source(port: Port, tables: Tables) -> dict[str, Any]:
    one = next(source for source in port.sources if source.kind in SOUND)
    like = tables.sources[NOISE[one.kind]]
    a, b = one.output
    ohm = min(HIGHEST, _ohm(port, {(a, b): 1.0}, a, b))
    level = one.nominal or like["level"]
    return {
        **_common(port, one.kind, one.balanced),
        "ohm": ohm,
        "imbalance": 0.0 if one.balanced else ohm,
        "level": level,
        "noise": like["noise"],
    }


def _input(port: Port, tables: Tables) -> dict[str, Any]:
    one = next(listener for listener in port.listeners if listener.kind in SOUND)
    a, b = one.between
    like = tables.inputs[
        LIKE[one.kind]
        if one.balanced
        else f"{LIKE[one.kind]}-unbalanced"
        if one.kind != "instrument"
        else LIKE[one.kind]
    ]
    common, farad = 0.0, 0.0
    if one.balanced:
        common = _ohm(port, {(a, "chassis"): 1.0, (b, "chassis"): 1.0}, a, "chassis")
        if common >= HIGHEST:
            like = tables.inputs[f"{LIKE[one.kind]}-transformer"]
            common, farad = 0.0, like["farad"]
    return {
        **_common(port, one.kind, one.balanced),
        "ohm": min(HIGHEST, _ohm(port, {(a, b): 1.0}, a, b)),
        "common": common,
        "farad": farad,
        "rejection": like["rejection"],
        "noise": like["noise"],
    }


def _common(port: Port, kind: str, balanced: bool) -> dict[str, Any]:
    powered = {"yes": "earthed", "no": "battery", "maybe": "insulated"}[port.earthed]
    known = getattr(port, "powered_by", ())
    return {
        "name": f"the {port.device}",
        "title": port.name,
        "kind": kind,
        "balanced": balanced,
        "powered": known[0] if known else powered,
        "evidence": "derived",
        "cite": list(port.evidence.cite),
        "reason": "Solved from the circuit of this port in the catalogue.",
    }


def _ohm(port: Port, drive: Mapping[tuple[str, str], float], a: str, b: str) -> float:
    """Volts between two nodes for one amp, every source of the port at rest; infinite where nothing joins
    them.
    """
    nodes = {node for part in port.network.parts for node in (part.a, part.b)}
    circuit = build(port.network.parts, port.network.couplings, (), [n for n in ("chassis",) if n in nodes])
    if not {a, b} <= set(circuit.nets):
        return inf
    values = np.array([[value_at(part, "nominal") for part in circuit.parts]])
    try:
        found = solve_ac(circuit, values, [AT], closed_array([()], 0), [drive])[0, 0, 0, 0]
    except CircuitError:
        return inf
    return float(abs(found[circuit.nets[a]] - found[circuit.nets[b]]))
