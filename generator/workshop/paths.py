"""What lies between every two terminals of a specimen: resistance and capacitance, at the two bounds its
tolerances allow.

The network without its supplies is linear but for regulators and diodes, and those are bounded: a path
through one counts as its forward resistance at the low bound and as open at the high one. By monotonicity
every reading of the real network lies between the two.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
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
    return np.array(
        [_ohms(specimen, kept, {id: both[bound] for id, both in spans.items()}) for bound in (LOW, HIGH)]
    )


def _conducts(part: Part) -> bool:
    return part.kind in ("resistor", "clamp") or (part.kind == "wire" and part.id.startswith("joint."))


def _ohms(specimen: Specimen, parts: Iterable[Part], values: Mapping[str, float]) -> np.ndarray:
    """Effective resistance from the inverse of the grounded conductance matrix of each island."""
    kept = [_resistor(part, values) for part in parts if part.id not in values or values[part.id] < inf]
    return np.abs(_between(kept, list(specimen.terminals), lambda part: 1 / max(values[part.id], CROSS)))


def _resistor(part: Part, values: Mapping[str, float]) -> Part:
    """What conducts keeps both its nodes; a winding without its resistance is a wire."""
    kind = "resistor" if part.id in values else "wire"
    return Part(part.id, kind, part.a, part.b)


def _between(parts: Sequence[Part], terminals: Sequence[str], admittance) -> np.ndarray:
    """1 / admittance between every two terminals; infinite between islands."""
    lone = [Part(f"lone.{terminal}", "wire", terminal, terminal) for terminal in terminals]
    circuit = build([*parts, *lone], (), ())
    matrix = np.zeros((circuit.net_count, circuit.net_count), dtype=complex)
    for part, (a, b) in zip(circuit.parts, circuit.ends):
        matrix[[a, b], [a, b]] += (y := admittance(part))
        matrix[[a, b], [b, a]] -= y
    island = circuit.zeros(np.zeros((1, 0), dtype=bool), opens=())[0]
    zeros = sorted(set(island.tolist()))
    matrix[zeros, zeros] += 1
    at = [circuit.nets[terminal] for terminal in terminals]
    z = np.linalg.inv(matrix)[np.ix_(at, at)]
    own = np.diagonal(z)
    return np.where(island[at][:, None] == island[at][None, :], own[:, None] + own[None, :] - 2 * z, inf)


def capacitances(specimen: Specimen) -> np.ndarray:
    """Farad between every two terminals, low and high bound: (2, terminals, terminals). 0 where nothing is
    between them, not a number where more current flows through a resistance than a capacitance meter can
    leave out of account."""
    omega, leak = (
        2 * pi * float(table("meters")["capacitance"]["hertz"]),
        amount("meters", "capacitance", "leak").nominal,
    )
    found = []
    for bound in (LOW, HIGH):
        kept, values = [], {}
        for part in specimen.parts:
            low, high = span(specimen, part) if part.kind == "capacitor" or _conducts(part) else (0.0, 0.0)
            if part.kind == "capacitor":
                kept.append(part)
                values[part.id] = 1j * omega * (low, high)[bound]
            elif _conducts(part) and part.kind != "clamp":
                kept.append(_resistor(part, {part.id: low}))
                values[part.id] = 1 / max(low, CROSS)
            elif part.kind in ("inductor", "wire"):
                kept.append(_resistor(part, {}))
        with np.errstate(divide="ignore", invalid="ignore"):
            y = 1 / _between(kept, list(specimen.terminals), lambda part: values[part.id])
        farad = y.imag / omega
        found.append(np.where(np.abs(y.real) > leak * np.abs(y.imag), np.nan, farad))
    return np.array(found)


def conductors(specimen: Specimen) -> dict[str, int]:
    """Terminal -> number of the conductor it is on: terminals a wire joins share one."""
    ohms = resistances(specimen)[HIGH]
    return {terminal: int(np.flatnonzero(ohms[i] < WIRE)[0]) for i, terminal in enumerate(specimen.terminals)}
