"""What lies between every two terminals of a specimen: resistance and capacitance, at the two bounds its
tolerances allow.

The network without its supplies is linear but for regulators and diodes, and those are bounded: a path
through one counts as its forward resistance at the low bound and as open at the high one. By monotonicity
every reading of the real network lies between the two.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import inf, pi

import numpy as np

from generator.catalogue.records import Part
from generator.engine.circuit import build

from .specimen import Specimen
from .tables import amount, table

LOW, HIGH = 0, 1
WIRE = 5.0  # ohm; more than this in a lead of some metres is no plain wire
CROSS = 1e-6  # ohm; a wire that must stay a part


def span(specimen: Specimen, part: Part) -> tuple[float, float]:
    """The lowest and highest value of a part in SI units. A range its author gave stands; a bare number
    gets the usual tolerance."""
    if part.kind == "clamp":
        return part.series, inf
    if part.id.startswith("joint.") and part.kind == "wire":
        joint = amount("tolerances", "joint", "ohm")
        return joint.low, joint.high
    if part.value.low < part.value.high or part.id.startswith(("joint.", "fault")):
        return part.value.low, part.value.high
    low, high = (amount("tolerances", _sort(specimen, part), bound).nominal for bound in ("low", "high"))
    return part.value.nominal * (1 + low), part.value.nominal * (1 + high)


def _sort(specimen: Specimen, part: Part) -> str:
    """The row of the tolerances that a part falls under."""
    if part.kind == "capacitor":
        return "stray" if part.id in specimen.strays else "capacitor"
    if part.id not in specimen.made:
        return "conductor"
    return "winding" if part.coil else "resistor"


def resistances(specimen: Specimen) -> np.ndarray:
    """Ohm between every two terminals, low and high bound: (2, terminals, terminals); infinite where no
    path is."""
    kept = [part for part in specimen.parts if part.kind != "capacitor"]
    spans = {part.id: span(specimen, part) for part in kept if _conducts(part)}
    if all(both[HIGH] < inf for both in spans.values()):
        return _ohms(specimen, kept, spans)
    through = _ohms(specimen, kept, {id: (low, low) for id, (low, _) in spans.items()})[LOW]
    cut = [part for part in kept if part.id not in spans or spans[part.id][HIGH] < inf]
    return np.array([through, _ohms(specimen, cut, spans)[HIGH]])


def _conducts(part: Part) -> bool:
    return part.kind in ("resistor", "clamp") or (part.kind == "wire" and part.id.startswith("joint."))


def _ohms(specimen: Specimen, parts: Sequence[Part], spans: Mapping[str, tuple[float, float]]) -> np.ndarray:
    kept = [_resistor(part, part.id in spans) for part in parts]
    return np.abs(_between(kept, list(specimen.terminals), lambda id: 1 / np.maximum(spans[id], CROSS)))


def _resistor(part: Part, conducts: bool) -> Part:
    """What conducts keeps both its nodes; a winding without its resistance is a wire."""
    return Part(part.id, "resistor" if conducts else "wire", part.a, part.b)


def _between(
    parts: Sequence[Part], terminals: Sequence[str], admittance: Callable[[str], np.ndarray]
) -> np.ndarray:
    """1 / admittance between every two terminals, infinite between islands, at both bounds: (2, terminals,
    terminals). Effective resistance from the inverse of the conductance matrix, one net of each island
    grounded. `admittance` of a part's id gives both bounds."""
    if not terminals:
        return np.zeros((2, 0, 0))
    lone = [Part(f"lone.{terminal}", "wire", terminal, terminal) for terminal in terminals]
    circuit = build([*parts, *lone], (), ())
    values = np.array([admittance(part.id) for part in circuit.parts]).reshape(-1, 2).T
    a, b = np.array(circuit.ends, dtype=int).reshape(-1, 2).T
    matrix = np.zeros((2, circuit.net_count, circuit.net_count), dtype=values.dtype)
    for (rows, columns), sign in zip(((a, a), (b, b), (a, b), (b, a)), (1, 1, -1, -1)):
        np.add.at(matrix, (slice(None), rows, columns), sign * values)
    island = circuit.zeros(np.zeros((1, 0), dtype=bool), opens=())[0]
    grounded = np.unique(island)
    matrix[:, grounded, grounded] += 1
    at = [circuit.nets[terminal] for terminal in terminals]
    z = np.linalg.inv(matrix)[:, at][:, :, at]
    own = np.diagonal(z, axis1=1, axis2=2)
    alike = island[at][:, None] == island[at][None, :]
    return np.where(alike, own[:, :, None] + own[:, None, :] - 2 * z, inf)


def capacitances(specimen: Specimen) -> np.ndarray:
    """Farad between every two terminals, low and high bound: (2, terminals, terminals). 0 where nothing is
    between them, not a number where more current flows through a resistance than a capacitance meter can
    leave out of account."""
    omega = 2 * pi * float(table("meters")["capacitance"]["hertz"])
    leak = amount("meters", "capacitance", "leak").nominal
    kept, values = [], {}
    for part in specimen.parts:
        if part.kind == "capacitor":
            kept.append(part)
            values[part.id] = 1j * omega * np.array(span(specimen, part))
        elif _conducts(part) and part.kind != "clamp":
            kept.append(_resistor(part, True))
            values[part.id] = np.full(2, 1 / max(span(specimen, part)[LOW], CROSS), dtype=complex)
        elif part.kind in ("inductor", "wire"):
            kept.append(_resistor(part, False))
    with np.errstate(divide="ignore", invalid="ignore"):
        y = 1 / _between(kept, list(specimen.terminals), values.__getitem__)
    return np.where(np.abs(y.real) > leak * np.abs(y.imag), np.nan, y.imag / omega)


def conductors(specimen: Specimen) -> dict[str, int]:
    """Terminal -> number of the conductor it is on: terminals a wire joins share one."""
    ohms = resistances(specimen)[HIGH]
    return {terminal: int(np.flatnonzero(ohms[i] < WIRE)[0]) for i, terminal in enumerate(specimen.terminals)}
