"""Circuits nobody would build: any parts between any nodes, for laws that hold whatever the circuit is."""

from __future__ import annotations

from random import Random

from bench import circuit

from generator.engine.circuit import Circuit

RESISTIVE = ("resistor", "emf")
LINEAR = (*RESISTIVE, "capacitor", "inductor")
ALL = (*LINEAR, "sink", "clamp")
RANGES = {
    "resistor": (1, 1e6, "ohm"),
    "capacitor": (1e-11, 1e-4, "F"),
    "inductor": (1e-3, 10, "H"),
    "emf": (0.1, 50, "V"),
    "sink": (1e-5, 1e-2, "A"),
    "clamp": (1, 30, "V"),
}


def wild_circuit(rng: Random, kinds: tuple[str, ...], always: tuple[str, ...] = ()) -> Circuit:
    """A connected circuit of node 0, n1 to n5 and perhaps more, with contacts between some.
    Sources and windings have a resistor in series, so that there is one solution; `always` are
    lines that must be in it."""
    nodes = ["0", *(f"n{i}" for i in range(1, rng.randint(6, 10)))]
    lines = []
    # a tree, so that all hangs together, at times only through capacitors
    for i, node in enumerate(nodes[1:], 1):
        kind = "capacitor" if "capacitor" in kinds and rng.random() < 0.25 else "resistor"
        lines.append(f"T{i} {kind} {node} {rng.choice(nodes[:i])} {amount(rng, kind)}")
    windings = []
    for i in range(rng.randint(3, 12)):
        kind, (a, b) = rng.choice(kinds), rng.sample(nodes, 2)
        if kind in ("emf", "inductor"):
            lines += [
                f"P{i} {kind} x{i} {b} {amount(rng, kind)}",
                f"S{i} resistor x{i} {a} {amount(rng, 'resistor')}",
            ]
            windings += [f"P{i}"] * (kind == "inductor")
        else:
            lines.append(f"P{i} {kind} {a} {b} {amount(rng, kind)}")
    couplings = [(one, other, rng.uniform(0.1, 0.9999)) for one, other in zip(windings[::2], windings[1::2])]
    switches = [tuple(rng.sample(nodes, 2)) for _ in range(rng.randint(0, 4))]
    return circuit(*lines, *always, couplings=couplings, switches=switches)


def amount(rng: Random, kind: str) -> str:
    """A value anywhere in the usual range of its kind, evenly over the decades."""
    low, high, unit = RANGES[kind]
    bend = {"sink": " knee 2 V", "clamp": " series 10 ohm"}.get(kind, "")
    return f"{low * (high / low) ** rng.random():.4e} {unit}{bend}"
