"""A meter in the circuit of a lead: what its ranges show when they push their own current at their own
volts.

On every range the meter is a supply with a limited current: `amps` until the lead needs more than `volts`.
What conducts only one way (the regulators and diodes of a lead) is solved as it is, and backwards as a
silicon junction.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf

import numpy as np

from generator.catalogue.records import Part, Quantity
from generator.engine.circuit import build
from generator.engine.constants import CONTACT_OHM
from generator.engine.solve import solve_dc

from .paths import CROSS, span
from .specimen import Specimen
from .tables import amount

KNEE = 0.05  # V; how sharply the current of the meter gives way
NOTHING = 1e-9  # A; less is no current at all
RED, BLACK = "meter-red", "meter-black"


@dataclass(frozen=True)
class Shown:
    """What the meter drives through a pair of terminals: V across it, A through it."""

    volts: float
    amps: float

    @property
    def ohms(self) -> float:
        """What the ohm range makes of it, the probes' own contacts subtracted; infinite for no reading."""
        return inf if self.amps < NOTHING else max(0.0, self.volts / self.amps - 2 * CONTACT_OHM)


def shown(
    specimen: Specimen, pairs: Sequence[tuple[str, str]], volts: float, amps: float, bound: int = 0
) -> list[Shown]:
    """The meter on every pair, red probe first; `bound` is 0 for the lowest values the tolerances allow, 1
    for the highest."""
    parts = [*_lead(specimen, bound), *_meter(volts, amps)]
    probes = list(dict.fromkeys(terminal for pair in pairs for terminal in pair))
    switches = [(probe, terminal) for terminal in probes for probe in (RED, BLACK)]
    circuit = build(parts, (), switches, [BLACK])
    place = {switch: i for i, switch in enumerate(switches)}
    closed = np.zeros((len(pairs), len(switches)), dtype=bool)
    for i, (red, black) in enumerate(pairs):
        closed[i, [place[RED, red], place[BLACK, black]]] = True
    values = np.array([[part.value.nominal for part in circuit.parts]])
    solved = solve_dc(circuit, values, closed)
    across = solved.volts(RED, BLACK)[0]
    drop = solved.volts("meter-source", RED)[0]
    return [Shown(float(v), amps * float(min(1.0, max(0.0, d / KNEE)))) for v, d in zip(across, drop)]


def _meter(volts: float, amps: float) -> tuple[Part, ...]:
    return (
        Part("meter", "emf", "meter-source", BLACK, _exactly(volts, "V")),
        Part("limit", "sink", "meter-source", RED, _exactly(amps, "A"), knee=KNEE),
    )


def _lead(specimen: Specimen, bound: int) -> list[Part]:
    """The lead as steady current sees it, every part at one bound."""
    found = []
    for part in specimen.parts:
        if part.kind == "inductor" or (part.kind == "wire" and not part.id.startswith("joint.")):
            found.append(replace(part, kind="wire", value=None))
        elif part.kind == "clamp":
            junction = Part(
                f"{part.id}.back",
                "clamp",
                part.b,
                part.a,
                amount("tolerances", "junction", "volts"),
                series=amount("tolerances", "junction", "ohm").nominal,
            )
            found += [part, junction]
        elif part.kind != "capacitor":
            ohms = max(span(specimen, part)[bound], CROSS)
            found.append(Part(part.id, "resistor", part.a, part.b, _exactly(ohms, "ohm")))
    return found


def _exactly(value: float, unit: str) -> Quantity:
    return Quantity(value, value, value, unit, f"{value:g} {unit}")
